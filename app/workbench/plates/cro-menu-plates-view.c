#include "config.h"

#include "cro-menu-plates-view.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-finder-entry.h"
#include "cro-kind.h"
#include "cro-number.h"
#include "cro-figure-words.h"
#include "cro-words.h"

typedef struct
{
  gint64     id;          /* of the row of table menu_plate */
  guint32    entry;       /* slot of model->menu_plates */
  GtkWidget *servings;
  GtkWidget *choice;
  GtkWidget *share;
  GtkWidget *name;
  GtkWidget *cost;
  GtkWidget *of_cost;
  GtkWidget *bar;
  GtkWidget *of_price;
} Row;

struct _CroMenuPlatesView
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *none;
  GtkWidget *grid;
  GtkWidget *add;

  CroBench  *bench;       /* borrowed */
  GArray    *rows;        /* Row */
};

G_DEFINE_FINAL_TYPE (CroMenuPlatesView, cro_menu_plates_view, GTK_TYPE_WIDGET)

enum
{
  SERVINGS,
  CHOICE,
  SHARE,
  NAME,
  COST,
  OF_COST,
  BAR,
  OF_PRICE,
  MORE,
  N_COLUMNS,
};

static CroBook *
book_of (CroMenuPlatesView *self)
{
  return cro_bench_get_book (self->bench);
}

static CroMenuPlate *
entry_at (CroMenuPlatesView *self,
          guint32            slot)
{
  return &g_array_index (cro_book_get_model (book_of (self))->menu_plates, CroMenuPlate, slot);
}

static const char *
name_of (CroMenuPlatesView *self,
         guint32            slot)
{
  return cro_model_recipe (cro_book_get_model (book_of (self)), entry_at (self, slot)->plate)->name;
}

/* --- Acts ------------------------------------------------------------------------------------- */

static int
index_of (CroMenuPlatesView *self,
          guint32            slot)
{
  for (guint i = 0; i < self->rows->len; i++)
    if (g_array_index (self->rows, Row, i).entry == slot)
      return (int) i;
  return -1;
}

static void
focus_row (CroMenuPlatesView *self,
           guint32            slot)
{
  int at = index_of (self, slot);

  gtk_widget_grab_focus (at >= 0 ? g_array_index (self->rows, Row, at).servings : self->add);
}

static void
move (CroMenuPlatesView *self,
      guint32            slot,
      int                by)
{
  int after = index_of (self, slot) + (by < 0 ? -2 : 1);
  g_autofree char *label = cro_act_dup_label (_("place"), name_of (self, slot));
  g_autoptr (GError) error = NULL;

  if (after < -1 || after >= (int) self->rows->len)
    return;
  if (!cro_edit_move_in_menu (book_of (self), label, slot,
                              after < 0 ? CRO_NO_SLOT
                                        : g_array_index (self->rows, Row, after).entry,
                              &error))
    cro_bench_fail (self->bench, error);
  focus_row (self, slot);
}

static void
move_up_cb (GtkWidget  *widget,
            const char *action,
            GVariant   *slot)
{
  move (CRO_MENU_PLATES_VIEW (widget), g_variant_get_uint32 (slot), -1);
}

static void
move_down_cb (GtkWidget  *widget,
              const char *action,
              GVariant   *slot)
{
  move (CRO_MENU_PLATES_VIEW (widget), g_variant_get_uint32 (slot), 1);
}

static void
remove_cb (GtkWidget  *widget,
           const char *action,
           GVariant   *parameter)
{
  CroMenuPlatesView *self = CRO_MENU_PLATES_VIEW (widget);
  guint32 slot = g_variant_get_uint32 (parameter);
  g_autofree char *label = cro_act_dup_label (_("removal"), name_of (self, slot));
  g_autoptr (GError) error = NULL;

  gtk_widget_grab_focus (self->add);
  if (!cro_edit_remove_from_menu (book_of (self), label, slot, &error))
    cro_bench_fail (self->bench, error);
}

static void
chosen_cb (CroMenuPlatesView *self,
           int                kind,
           guint              plate)
{
  g_autofree char *label = cro_bench_dup_label (self->bench, _("plate"));
  g_autoptr (GError) error = NULL;

  if (!cro_edit_add_to_menu (book_of (self), label, cro_bench_get_slot (self->bench), plate,
                             CRO_MICRO, NULL, &error))
    cro_bench_fail (self->bench, error);
}

static void
open_cb (CroMenuPlatesView *self,
         GtkWidget         *button)
{
  guint32 slot = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "entry"));

  cro_bench_open (self->bench, CRO_REF (CRO_REF_RECIPE, entry_at (self, slot)->plate));
}

/* --- Rows ------------------------------------------------------------------------------------- */

static GtkWidget *
more_button_new (CroMenuPlatesView *self,
                 guint32            slot)
{
  static const struct { const char *label, *action; } items[] = {
    { N_("Move Up"), "entry.move-up" },
    { N_("Move Down"), "entry.move-down" },
    { N_("Take Out"), "entry.remove" },
  };
  g_autoptr (GMenu) menu = g_menu_new ();
  g_autofree char *spoken = g_strdup_printf (_("More for %s"), name_of (self, slot));

  for (gsize i = 0; i < G_N_ELEMENTS (items); i++)
    {
      g_autofree char *action = g_strdup_printf ("%s(uint32 %u)", items[i].action, slot);

      g_menu_append (menu, _(items[i].label), action);
    }
  return cro_more_button_new (G_MENU_MODEL (menu), spoken);
}

static GtkWidget *
name_button_new (CroMenuPlatesView *self,
                 guint32            slot)
{
  GtkWidget *button = cro_name_button_new ();

  gtk_widget_set_hexpand (button, TRUE);
  g_object_set_data (G_OBJECT (button), "entry", GUINT_TO_POINTER (slot));
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (open_cb), self);
  return button;
}

/* What a plate without a share of its own comes to; NULL outside of choices. */
static char *
dup_share (CroModel           *model,
           const CroMenuPlate *entry)
{
  return entry->choice != NULL
             ? cro_number_to_text (100 * cro_menu_share (model, entry), 1, TRUE)
             : NULL;
}

static guint32
entry_of_input (CroInput *input)
{
  return cro_slots_get (&cro_book_get_model (cro_input_get_book (input))->menu_plate_slots,
                        cro_input_get_id (input));
}

static gboolean
keep_choice (CroInput       *input,
             const CroCell  *cell,
             gpointer        view,
             GError        **error)
{
  return cro_edit_set_choice (cro_input_get_book (input), cro_input_get_act (input),
                              entry_of_input (input), cell, error);
}

static gboolean
keep_share (CroInput       *input,
            const CroCell  *cell,
            gpointer        view,
            GError        **error)
{
  return cro_edit_set_share (cro_input_get_book (input), cro_input_get_act (input),
                             entry_of_input (input), cell, error);
}

static const CroInputWay choice_way = { .keep = keep_choice };
static const CroInputWay share_way = { .keep = keep_share };

static GtkWidget *
choice_new (CroMenuPlatesView *self,
            guint32            slot,
            gboolean           is_share)
{
  g_autofree char *label = cro_act_dup_label (is_share ? _("how often taken, %") : _("choice"),
                                              name_of (self, slot));
  GtkWidget *input = cro_input_new (is_share ? CRO_INPUT_NUMBER : CRO_INPUT_TEXT,
                                    is_share ? CRO_RANGE_AT_LEAST_0 : CRO_RANGE_ANY, label);

  cro_input_set_width (CRO_INPUT (input), is_share ? 6 : 8);
  cro_input_bind (CRO_INPUT (input), book_of (self), "menu_plate", entry_at (self, slot)->id,
                  is_share ? "share_pct_micro" : "choice", label, NULL);
  cro_input_set_way (CRO_INPUT (input), is_share ? &share_way : &choice_way, self);
  return input;
}

static void
add_row (CroMenuPlatesView  *self,
         int                 at,
         const CroMenuPlate *entry)
{
  guint32 slot = cro_slots_get (&cro_book_get_model (book_of (self))->menu_plate_slots, entry->id);
  g_autofree char *of_servings = cro_act_dup_label (_("servings"), name_of (self, slot));
  Row row = {
    .id = entry->id,
    .entry = slot,
    .servings = cro_input_new (CRO_INPUT_NUMBER, CRO_RANGE_AT_LEAST_0, of_servings),
    .choice = choice_new (self, slot, FALSE),
    .share = choice_new (self, slot, TRUE),
    .name = name_button_new (self, slot),
    .cost = cro_number_label_new (),
    .of_cost = cro_number_label_new (),
    .bar = cro_part_bar_new (_("part of the menu’s cost"), 80),
    .of_price = cro_number_label_new (),
  };
  GtkWidget *widgets[N_COLUMNS] = { row.servings, row.choice,  row.share, row.name, row.cost,
                                    row.of_cost,  row.bar,     row.of_price, more_button_new (self, slot) };

  cro_input_set_width (CRO_INPUT (row.servings), 5);
  cro_input_bind (CRO_INPUT (row.servings), book_of (self), "menu_plate", entry->id,
                  "servings_micro", of_servings, "1");
  for (int column = 0; column < N_COLUMNS; column++)
    gtk_grid_attach (GTK_GRID (self->grid), widgets[column], column, at, 1, 1);
  g_array_append_val (self->rows, row);
}

static void
add_heads (CroMenuPlatesView *self)
{
  const char *heads[N_COLUMNS] = { _("servings"),    _("choice"), _("taken %"),
                                   "",               _("a guest"), _("of its cost"),
                                   "",               _("of its price"), "" };

  for (int column = 0; column < N_COLUMNS; column++)
    gtk_grid_attach (GTK_GRID (self->grid), cro_caption_new (heads[column], 1), column, 0, 1, 1);
}

static gboolean
shows (CroMenuPlatesView *self,
       GPtrArray         *entries)
{
  if (self->rows->len != entries->len)
    return FALSE;
  for (guint i = 0; i < entries->len; i++)
    if (g_array_index (self->rows, Row, i).id != ((CroMenuPlate *) entries->pdata[i])->id)
      return FALSE;
  return TRUE;
}

static void
rebuild (CroMenuPlatesView *self,
         GPtrArray         *entries)
{
  if (gtk_widget_get_focus_child (self->grid) != NULL)
    gtk_widget_grab_focus (self->add);
  for (GtkWidget *child; (child = gtk_widget_get_first_child (self->grid)) != NULL;)
    gtk_grid_remove (GTK_GRID (self->grid), child);
  g_array_set_size (self->rows, 0);
  if (entries->len > 0)
    add_heads (self);
  for (guint i = 0; i < entries->len; i++)
    add_row (self, (int) i + 1, entries->pdata[i]);
}

static void
refresh_row (CroMenuPlatesView *self,
             CroFigures        *figures,
             Row               *row)
{
  const CroMenuPlate *entry = entry_at (self, row->entry);
  CroFigure plate = cro_figure_of_plate (figures, entry->plate);
  CroPartOfMenu part = cro_part_of_menu (figures, entry, &plate);
  double cost = plate.cost * cro_menu_taken (figures->model, entry);
  g_autofree char *share = dup_share (figures->model, entry);
  CroKnown known = cro_known_of_cost (&plate);
  g_autofree char *text = cro_words_known_money (figures->model, known, cost);
  g_autofree char *of_cost = cro_words_part_of_cost (&part, &plate);
  g_autofree char *of_price = cro_words_known_pct (known, part.of_price_pct);

  cro_input_refresh (CRO_INPUT (row->servings));
  cro_input_refresh (CRO_INPUT (row->choice));
  cro_input_refresh (CRO_INPUT (row->share));
  cro_input_set_placeholder (CRO_INPUT (row->share), share);
  gtk_widget_set_sensitive (row->share, entry->choice != NULL);
  cro_name_button_set (row->name, plate.name);
  gtk_label_set_label (GTK_LABEL (row->cost), text);
  gtk_label_set_label (GTK_LABEL (row->of_cost), of_cost);
  gtk_label_set_label (GTK_LABEL (row->of_price), of_price);
  gtk_level_bar_set_value (GTK_LEVEL_BAR (row->bar),
                           isnan (part.of_cost_pct) ? 0 : CLAMP (part.of_cost_pct / 100, 0, 1));
}

void
cro_menu_plates_view_refresh (CroMenuPlatesView *self)
{
  CroFigures *figures = cro_book_get_figures (book_of (self));
  g_autoptr (GPtrArray) entries = cro_menu_dup_plates (figures->model,
                                                       cro_bench_get_slot (self->bench));

  gtk_widget_set_visible (self->none, entries->len == 0);
  if (!shows (self, entries))
    rebuild (self, entries);
  for (guint i = 0; i < self->rows->len; i++)
    refresh_row (self, figures, &g_array_index (self->rows, Row, i));
}

void
cro_menu_plates_view_put (CroMenuPlatesView *self)
{
  g_autoptr (GPtrArray) none = g_ptr_array_new ();

  rebuild (self, none);
  cro_finder_entry_put (CRO_FINDER_ENTRY (self->add), book_of (self));
  cro_menu_plates_view_refresh (self);
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_menu_plates_view_dispose (GObject *object)
{
  CroMenuPlatesView *self = CRO_MENU_PLATES_VIEW (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->rows, g_array_unref);
  G_OBJECT_CLASS (cro_menu_plates_view_parent_class)->dispose (object);
}

static void
cro_menu_plates_view_class_init (CroMenuPlatesViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_menu_plates_view_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_install_action (widget_class, "entry.move-up", "u", move_up_cb);
  gtk_widget_class_install_action (widget_class, "entry.move-down", "u", move_down_cb);
  gtk_widget_class_install_action (widget_class, "entry.remove", "u", remove_cb);
}

static void
cro_menu_plates_view_init (CroMenuPlatesView *self)
{
  self->rows = g_array_new (FALSE, FALSE, sizeof (Row));
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  gtk_widget_add_css_class (self->box, "lines-part");
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->grid = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (self->grid), 12);
  gtk_grid_set_row_spacing (GTK_GRID (self->grid), 3);
  self->add = cro_finder_entry_new (_("Add a plate"), _("Add a plate: part of its name"),
                                    1u << CRO_KIND_PLATE);
  gtk_widget_set_halign (self->add, GTK_ALIGN_START);
  g_signal_connect_swapped (self->add, "chosen", G_CALLBACK (chosen_cb), self);
  self->none = cro_text_new (_("No plate is in it yet."), "dim-label");
  gtk_box_append (GTK_BOX (self->box), self->none);
  gtk_box_append (GTK_BOX (self->box), self->grid);
  gtk_box_append (GTK_BOX (self->box), self->add);
}

GtkWidget *
cro_menu_plates_view_new (CroBench *bench)
{
  CroMenuPlatesView *self = g_object_new (CRO_TYPE_MENU_PLATES_VIEW, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}
