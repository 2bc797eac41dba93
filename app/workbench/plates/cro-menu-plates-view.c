#include "config.h"

#include "cro-menu-plates-private.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-card.h"
#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-finder-entry.h"
#include "cro-footed.h"
#include "cro-isolate.h"
#include "cro-kind.h"
#include "cro-number.h"
#include "cro-figure-words.h"
#include "cro-row-grid.h"
#include "cro-words.h"

G_DEFINE_FINAL_TYPE (CroMenuPlatesView, cro_menu_plates_view, GTK_TYPE_WIDGET)

/* In characters: of a plate's name so much is read before the table gives way and is moved sideways. */
#define LEAST_NAME 14

/* Of a choice too: "main course", "fish or meat". */
#define MOST_CHOICE 12
#define LEAST_CHOICE 8

static CroBook *
book_of (CroMenuPlatesView *self)
{
  return cro_bench_get_book (self->bench);
}

CroMenuPlate *
cro_menu_plates_entry_at (CroMenuPlatesView *self,
                          guint32            slot)
{
  return &g_array_index (cro_book_get_model (book_of (self))->menu_plates, CroMenuPlate, slot);
}

static const char *
name_of (CroMenuPlatesView *self,
         guint32            slot)
{
  guint32 plate = cro_menu_plates_entry_at (self, slot)->plate;

  return cro_model_recipe (cro_book_get_model (book_of (self)), plate)->name;
}

/* --- Acts ------------------------------------------------------------------------------------- */

int
cro_menu_plates_index_of (CroMenuPlatesView *self,
                          guint32            slot)
{
  for (guint i = 0; i < self->entries->len; i++)
    if (g_array_index (self->entries, guint32, i) == slot)
      return (int) i;
  return -1;
}

static void
move (CroMenuPlatesView *self,
      guint32            slot,
      int                by)
{
  int after = cro_menu_plates_index_of (self, slot) + (by < 0 ? -2 : 1);
  g_autofree char *label = cro_act_dup_label (_("position"), name_of (self, slot));
  g_autoptr (GError) error = NULL;

  if (after < -1 || after >= (int) self->entries->len)
    return;
  if (!cro_edit_move_in_menu (book_of (self), label, slot,
                              after < 0 ? CRO_NO_SLOT
                                        : g_array_index (self->entries, guint32, after),
                              &error))
    cro_bench_fail (self->bench, error);
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
  CroModel *model = cro_book_get_model (book_of (self));
  /* Translators: an entry of the history: a plate, and the menu that it is taken from. */
  g_autofree char *label = cro_isolate_printf (_("removal of %s from %s"), name_of (self, slot),
                                               cro_ref_name (model, cro_bench_get_ref (self->bench)));
  g_autoptr (GError) error = NULL;

  if (!cro_edit_remove_from_menu (book_of (self), label, slot, &error))
    cro_bench_fail (self->bench, error);
}

static void
chosen_cb (CroMenuPlatesView *self,
           int                kind,
           guint              plate)
{
  CroModel *model = cro_book_get_model (book_of (self));
  /* Translators: an entry of the history: a plate, and the menu that it is put in. */
  g_autofree char *label = cro_isolate_printf (_("%s in %s"), cro_model_recipe (model, plate)->name,
                                               cro_ref_name (model, cro_bench_get_ref (self->bench)));
  g_autoptr (GError) error = NULL;

  if (!cro_edit_add_to_menu (book_of (self), label, cro_bench_get_slot (self->bench), plate,
                             CRO_MICRO, NULL, &error))
    cro_bench_fail (self->bench, error);
}

/* --- Choices -------------------------------------------------------------------------------------- */

static gboolean
is_choice (CroMenuPlatesView *self,
           const char        *name)
{
  for (guint row = 0; row < self->entries->len; row++)
    if (g_strcmp0 (cro_menu_plates_entry_at (self, g_array_index (self->entries, guint32, row))->choice, name)
        == 0)
      return TRUE;
  return FALSE;
}

/* As the course is called in which the plate stands, where no other choice is. Owned. */
static char *
dup_free_choice (CroMenuPlatesView *self,
                 guint32            slot)
{
  const char *course = cro_model_recipe (cro_book_get_model (book_of (self)),
                                         cro_menu_plates_entry_at (self, slot)->plate)->course;
  /* Translators: a choice of a menu that has no name yet. */
  g_autofree char *base = course != NULL ? g_utf8_strdown (course, -1) : g_strdup (_("choice"));
  char *name = g_strdup (base);
  guint number = 2;

  while (is_choice (self, name))
    {
      g_free (name);
      name = g_strdup_printf ("%s %u", base, number++);
    }
  return name;
}

/* A plate and the next one are alternatives; where one of them is in a choice the other joins it. */
static void
choose_cb (GtkWidget  *widget,
           const char *action,
           GVariant   *parameter)
{
  CroMenuPlatesView *self = CRO_MENU_PLATES_VIEW (widget);
  int row = cro_menu_plates_index_of (self, g_variant_get_uint32 (parameter));
  guint32 both[2], n = 0;
  g_autofree char *free_name = NULL, *label = NULL;
  const char *name = NULL;
  CroCell choice;
  g_autoptr (GError) error = NULL;

  if (row < 0 || row + 1 >= (int) self->entries->len)
    {
      cro_bench_say (self->bench, _("No plate follows this one."));
      return;
    }
  for (int i = 1; i >= 0; i--)
    {
      guint32 slot = g_array_index (self->entries, guint32, row + i);
      const char *there = cro_menu_plates_entry_at (self, slot)->choice;

      name = there != NULL ? there : name;
    }
  if (name == NULL)
    name = free_name = dup_free_choice (self, g_array_index (self->entries, guint32, row));
  for (int i = 0; i < 2; i++)
    {
      guint32 slot = g_array_index (self->entries, guint32, row + i);

      if (g_strcmp0 (cro_menu_plates_entry_at (self, slot)->choice, name) != 0)
        both[n++] = slot;
    }
  if (n == 0)
    return;
  /* Translators: an entry of the history: two plates of a menu of which a guest takes one. */
  label = cro_isolate_printf (_("choice of %s or %s"),
                              name_of (self, g_array_index (self->entries, guint32, row)),
                              name_of (self, g_array_index (self->entries, guint32, row + 1)));
  choice = CRO_CELL_STR (name);
  if (!cro_edit_set_choices (book_of (self), label, both, n, &choice, &error))
    cro_bench_fail (self->bench, error);
}

static void
dissolve_cb (GtkWidget  *widget,
             const char *action,
             GVariant   *parameter)
{
  CroMenuPlatesView *self = CRO_MENU_PLATES_VIEW (widget);
  guint32 slot = g_variant_get_uint32 (parameter);
  const char *choice = cro_menu_plates_entry_at (self, slot)->choice;
  g_autoptr (GArray) entries = cro_menu_plates_list_choice (self, slot);
  CroCell none = CRO_CELL_NONE;
  g_autofree char *label = NULL;
  g_autoptr (GError) error = NULL;

  if (choice == NULL)
    {
      cro_bench_say (self->bench, _("This plate is in no choice."));
      return;
    }
  /* Translators: an entry of the history: a choice of a menu is no longer one. */
  label = cro_isolate_printf (_("end of the choice %s"), choice);
  if (!cro_edit_set_choices (book_of (self), label, (const guint32 *) entries->data, entries->len, &none,
                             &error))
    cro_bench_fail (self->bench, error);
}

/* --- Keys ----------------------------------------------------------------------------------------- */

static gboolean
entry_key_cb (GtkWidget *widget,
              GVariant  *parameter,
              gpointer   data)
{
  CroMenuPlatesView *self = CRO_MENU_PLATES_VIEW (widget);
  int row = cro_row_grid_get_focus_row (CRO_ROW_GRID (self->grid));

  return row >= 0
         && gtk_widget_activate_action (widget, g_variant_get_string (parameter, NULL), "u",
                                        g_array_index (self->entries, guint32, row));
}

static void
open_row_cb (GtkWidget  *widget,
             const char *action,
             GVariant   *parameter)
{
  CroMenuPlatesView *self = CRO_MENU_PLATES_VIEW (widget);
  int row = cro_row_grid_get_focus_row (CRO_ROW_GRID (self->grid));

  if (row >= 0)
    {
      guint32 slot = g_array_index (self->entries, guint32, row);

      cro_bench_open (self->bench,
                      CRO_REF (CRO_REF_RECIPE, cro_menu_plates_entry_at (self, slot)->plate));
    }
}

static void
open_cb (CroMenuPlatesView *self,
         GtkWidget         *button)
{
  guint32 slot = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "entry"));

  cro_bench_open (self->bench,
                  CRO_REF (CRO_REF_RECIPE, cro_menu_plates_entry_at (self, slot)->plate));
}

/* --- Rows ------------------------------------------------------------------------------------- */

static GtkWidget *
more_button_new (guint32 slot)
{
  static const struct { const char *label, *action; } items[] = {
    { N_("Move Up"), "entry.move-up" },
    { N_("Move Down"), "entry.move-down" },
    { N_("Make a Choice with the Next Plate"), "entry.choose" },
    { N_("Dissolve the Choice"), "entry.dissolve" },
    { N_("Remove from Menu"), "entry.remove" },
  };
  g_autoptr (GMenu) menu = g_menu_new ();

  for (gsize i = 0; i < G_N_ELEMENTS (items); i++)
    {
      g_autofree char *action = g_strdup_printf ("%s(uint32 %u)", items[i].action, slot);

      g_menu_append (menu, _(items[i].label), action);
    }
  return cro_more_button_new (G_MENU_MODEL (menu), "");
}

static GtkWidget *
name_button_new (CroMenuPlatesView *self,
                 guint32            slot)
{
  GtkWidget *button = cro_name_button_new ();

  gtk_widget_set_hexpand (button, TRUE);
  g_object_set_data (G_OBJECT (button), "entry", GUINT_TO_POINTER (slot));
  g_signal_connect_object (button, "clicked", G_CALLBACK (open_cb), self, G_CONNECT_SWAPPED);
  return button;
}

/* What a plate without a share of its own comes to; NULL outside of choices. */
static char *
dup_share (CroModel           *model,
           const CroMenuPlate *entry)
{
  return entry->choice != NULL
             ? cro_number_to_text (cro_menu_share_pct (model, entry), 1, TRUE)
             : NULL;
}

guint32
cro_menu_plates_entry_of (CroInput *input)
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
                              cro_menu_plates_entry_of (input), cell, error);
}

static const CroInputWay choice_way = { .keep = keep_choice };

static void
add_cells (CroMenuPlatesView *self,
           guint32            slot)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);
  GtkWidget *servings = cro_row_grid_add_input (grid, CRO_INPUT_NUMBER, CRO_RANGE_AT_LEAST_0, 5,
                                                "servings_micro");
  GtkWidget *choice = cro_row_grid_add_input (grid, CRO_INPUT_TEXT, CRO_RANGE_ANY, MOST_CHOICE, "choice");
  GtkWidget *share;

  cro_input_set_least (CRO_INPUT (choice), LEAST_CHOICE);
  cro_input_set_way (CRO_INPUT (choice), &choice_way, self);
  cro_input_set_placeholder (CRO_INPUT (servings), "1");
  cro_row_grid_add (grid, name_button_new (self, slot));
  cro_row_grid_add_label (grid, TRUE);
  cro_row_grid_add_label (grid, TRUE);
  cro_row_grid_add (grid, cro_part_bar_new (_("share of the menu’s cost"), 48));
  share = cro_row_grid_add_input (grid, CRO_INPUT_NUMBER, CRO_RANGE_AT_LEAST_0, 6, "share_pct_micro");
  cro_input_set_way (CRO_INPUT (share), &cro_menu_share_way, self);
  cro_input_set_waits (CRO_INPUT (share), cro_menu_shares_wait);
  cro_row_grid_add_label (grid, TRUE);
  cro_row_grid_add (grid, more_button_new (slot));
}

static void
name_cells (CroMenuPlatesView *self,
            const char        *plate)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);
  g_autofree char *of_servings = cro_act_dup_label (_("servings"), plate);
  g_autofree char *of_choice = cro_act_dup_label (_("choice"), plate);
  g_autofree char *of_share = cro_act_dup_label (_("share of guests, %"), plate);
  g_autofree char *more = cro_isolate_printf (_("More for %s"), plate);

  cro_row_grid_name (grid, SERVINGS, of_servings, of_servings);
  cro_row_grid_name (grid, CHOICE, of_choice, of_choice);
  cro_row_grid_name (grid, SHARE, of_share, of_share);
  cro_row_grid_name (grid, MORE, NULL, more);
}

static void
add_heads (CroMenuPlatesView *self)
{
  const char *heads[N_COLUMNS] = { _("servings"), _("choice"), "", _("per guest"), _("of its cost"),
                                   "", _("guests %"), _("of its price"), "" };

  for (int column = 0; column < N_COLUMNS; column++)
    cro_row_grid_add_head (CRO_ROW_GRID (self->grid), heads[column], TRUE);
}

static void
add_row (CroMenuPlatesView  *self,
         const CroMenuPlate *entry)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);
  guint32 slot = cro_slots_get (&cro_book_get_model (book_of (self))->menu_plate_slots, entry->id);

  if (cro_row_grid_add_row (grid, entry->id))
    add_cells (self, slot);
  if (cro_row_grid_rename_row (grid, name_of (self, slot)))
    name_cells (self, name_of (self, slot));
  g_array_append_val (self->entries, slot);
}

static void
show_rows (CroMenuPlatesView *self,
           GPtrArray         *entries)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);

  g_array_set_size (self->entries, 0);
  cro_row_grid_begin (grid);
  if (cro_row_grid_begin_heads (grid, ""))
    add_heads (self);
  for (guint i = 0; i < entries->len; i++)
    add_row (self, entries->pdata[i]);
  cro_row_grid_end (grid);
  cro_row_grid_refresh (grid);
}

static void
refresh_row (CroMenuPlatesView *self,
             CroFigures        *figures,
             guint              row,
             gint64             minor)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);
  guint32 slot = g_array_index (self->entries, guint32, row);
  const CroMenuPlate *entry = cro_menu_plates_entry_at (self, slot);
  CroFigure plate = cro_figure_of_plate (figures, entry->plate);
  CroPartOfMenu part = cro_part_of_menu (figures, entry, &plate);
  g_autofree char *money = cro_money_to_text (minor, cro_currency_digits (figures->model->currency));
  g_autofree char *share = dup_share (figures->model, entry);
  CroKnown known = cro_known_of_cost (&plate);
  g_autofree char *text = cro_words_known_short (known, money);
  g_autofree char *of_cost = cro_words_part_of_cost_short (&part, &plate);
  g_autofree char *of_price = cro_words_part_of_price_short (&part, &plate);

  cro_input_set_placeholder (CRO_INPUT (cro_row_grid_get (grid, row, SHARE)), share);
  gtk_widget_set_sensitive (cro_row_grid_get (grid, row, SHARE), entry->choice != NULL);
  if (entry->choice == NULL)
    cro_input_drop (cro_menu_shares_input (self, row));
  cro_name_button_set_first (cro_row_grid_get (grid, row, NAME), plate.name, LEAST_NAME);
  cro_row_grid_set_text (grid, row, COST, text);
  cro_row_grid_set_text (grid, row, OF_COST, of_cost);
  cro_row_grid_set_text (grid, row, OF_PRICE, of_price);
  gtk_level_bar_set_value (GTK_LEVEL_BAR (cro_row_grid_get (grid, row, BAR)),
                           isnan (part.of_cost_pct) ? 0 : CLAMP (part.of_cost_pct / 100, 0, 1));
}

/* In a window of 1024 pixels there is room for the share of guests or for the bar: a plate of a choice shows the one,
 * any other the other, and with the first choice no column comes or goes. */
static void
show_shares (CroMenuPlatesView *self)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->grid);
  gboolean has_choices = FALSE;

  for (guint row = 0; row < self->entries->len; row++)
    {
      gboolean is_of_choice
          = cro_menu_plates_entry_at (self, g_array_index (self->entries, guint32, row))->choice != NULL;

      cro_row_grid_show_cell (grid, row, SHARE, is_of_choice);
      cro_row_grid_show_cell (grid, row, BAR, !is_of_choice);
      has_choices |= is_of_choice;
    }
  if (self->entries->len > 0)
    cro_row_grid_show_head (grid, SHARE, has_choices);
}

/* A choice that is typed moves figures at once, and no fields: those that it would bring or take away, its own line
 * among them, come and go with what is kept. */
static gboolean
types_choice (CroMenuPlatesView *self)
{
  for (guint row = 0; row < self->entries->len; row++)
    if (cro_input_is_edited (CRO_INPUT (cro_row_grid_get (CRO_ROW_GRID (self->grid), row, CHOICE))))
      return TRUE;
  return FALSE;
}

void
cro_menu_plates_view_refresh (CroMenuPlatesView *self)
{
  CroFigures *figures = cro_book_get_figures (book_of (self));
  g_autoptr (GPtrArray) entries = cro_menu_dup_plates (figures->model,
                                                       cro_bench_get_slot (self->bench));
  g_autofree gint64 *minor = cro_menu_dup_minor (figures, cro_bench_get_slot (self->bench));

  gtk_widget_set_visible (self->none, entries->len == 0);
  show_rows (self, entries);
  for (guint i = 0; i < entries->len; i++)
    refresh_row (self, figures, i, minor[i]);
  if (types_choice (self))
    return;
  show_shares (self);
  cro_menu_heads_show (self);
  cro_menu_shares_show (self);
}

void
cro_menu_plates_view_put (CroMenuPlatesView *self)
{
  cro_finder_entry_put (CRO_FINDER_ENTRY (self->add), book_of (self));
  cro_menu_plates_view_refresh (self);
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_menu_plates_view_dispose (GObject *object)
{
  CroMenuPlatesView *self = CRO_MENU_PLATES_VIEW (object);

  g_clear_handle_id (&self->retry, g_source_remove);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->entries, g_array_unref);
  G_OBJECT_CLASS (cro_menu_plates_view_parent_class)->dispose (object);
}

static void
cro_menu_plates_view_class_init (CroMenuPlatesViewClass *klass)
{
  static const struct { guint key; const char *action; } keys[] = {
    { GDK_KEY_Up, "entry.move-up" },
    { GDK_KEY_KP_Up, "entry.move-up" },
    { GDK_KEY_Down, "entry.move-down" },
    { GDK_KEY_KP_Down, "entry.move-down" },
    { GDK_KEY_Delete, "entry.remove" },
  };
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_menu_plates_view_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_install_action (widget_class, "entry.move-up", "u", move_up_cb);
  gtk_widget_class_install_action (widget_class, "entry.move-down", "u", move_down_cb);
  gtk_widget_class_install_action (widget_class, "entry.remove", "u", remove_cb);
  gtk_widget_class_install_action (widget_class, "entry.choose", "u", choose_cb);
  gtk_widget_class_install_action (widget_class, "entry.dissolve", "u", dissolve_cb);
  gtk_widget_class_install_action (widget_class, "item.open", NULL, open_row_cb);
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    gtk_widget_class_add_binding (widget_class, keys[i].key, GDK_ALT_MASK, entry_key_cb, "s", keys[i].action);
}

static void
cro_menu_plates_view_init (CroMenuPlatesView *self)
{
  self->entries = g_array_new (FALSE, FALSE, sizeof (guint32));
  self->box = cro_footed_new (9);
  gtk_widget_add_css_class (self->box, "lines-part");
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->add = cro_finder_entry_new (_("Add a plate"), _("Add a plate: part of its name"),
                                    1u << CRO_KIND_PLATE);
  gtk_widget_set_halign (gtk_widget_get_first_child (self->add), GTK_ALIGN_START);
  g_signal_connect_object (self->add, "chosen", G_CALLBACK (chosen_cb), self, G_CONNECT_SWAPPED);
  self->none = cro_text_new (_("No plates yet."), "dim-label");
  cro_footed_append (CRO_FOOTED (self->box), self->none);
  cro_footed_append_foot (CRO_FOOTED (self->box), self->add);
}

GtkWidget *
cro_menu_plates_view_new (CroBench *bench)
{
  CroMenuPlatesView *self = g_object_new (CRO_TYPE_MENU_PLATES_VIEW, NULL);

  self->bench = bench;
  self->grid = cro_row_grid_new (bench, "menu_plate", self->add);
  cro_row_grid_share_place (CRO_ROW_GRID (self->grid), SHARE);
  cro_footed_append (CRO_FOOTED (self->box), self->grid);
  return GTK_WIDGET (self);
}
