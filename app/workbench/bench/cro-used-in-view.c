#include "config.h"

#include "cro-used-in-view.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-field.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-uses.h"

/* Rows shown at once: salt is in everything. */
#define AT_ONCE 6

struct _CroUsedInView
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *none;
  GtkWidget *grid;
  GtkWidget *all;      /* unfolds the rest */
  GtkWidget *reached;  /* plates and menus, through all preparations; its heading and its grid */
  GtkWidget *guests;
  GtkWidget *replace;
  char      *reached_key;
  CroBench  *bench;    /* borrowed */
  char      *key;      /* the uses that rows stand for, to leave those alone that stay */
  guint32    slot;     /* of what was on the bench */
  gboolean   is_open;
};

G_DEFINE_FINAL_TYPE (CroUsedInView, cro_used_in_view, GTK_TYPE_WIDGET)

enum
{
  NAME,
  TAKES,
  COSTS,
  PART,
  BAR,
  N_COLUMNS,
};

/* Rows count from 1, below the headings. A name stands over its figures, with the bar behind it: there
 * are as many columns as a narrow place beside a page holds. */
static int
line_of (int   column,
         guint row)
{
  return 2 * (int) row - (column == NAME || column == BAR);
}

static int
place_of (int column)
{
  static const int places[N_COLUMNS] = { [NAME] = 0, [TAKES] = 0, [COSTS] = 1, [PART] = 2, [BAR] = 2 };

  return places[column];
}

static GtkWidget *
cell (CroUsedInView *self,
      int            column,
      guint          row)
{
  return gtk_grid_get_child_at (GTK_GRID (self->grid), place_of (column), line_of (column, row));
}

/* --- Rows ------------------------------------------------------------------------------------- */

static void
clicked_cb (CroUsedInView *self,
            GtkButton     *button)
{
  guint32 recipe = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "recipe"));

  cro_bench_open (self->bench, CRO_REF (CRO_REF_RECIPE, recipe));
}

static void
add_heads (CroUsedInView *self)
{
  const char *heads[N_COLUMNS] = { [TAKES] = _("amount used"), [COSTS] = _("cost there"),
                                   [PART] = _("of its whole cost") };

  for (int column = TAKES; column <= PART; column++)
    {
      GtkWidget *head = cro_caption_new (heads[column], 1);

      gtk_label_set_wrap (GTK_LABEL (head), TRUE);
      gtk_label_set_max_width_chars (GTK_LABEL (head), 10);
      gtk_label_set_justify (GTK_LABEL (head), GTK_JUSTIFY_RIGHT);
      gtk_widget_set_valign (head, GTK_ALIGN_END);
      gtk_grid_attach (GTK_GRID (self->grid), head, place_of (column), 0, 1, 1);
    }
}

static void
add_row (CroUsedInView *self,
         guint          row,
         guint32        recipe)
{
  GtkWidget *button = cro_name_button_new ();
  GtkWidget *cells[N_COLUMNS] = { button, cro_number_label_new (), cro_number_label_new (),
                                  cro_number_label_new (),
                                  cro_part_bar_new (_("share of its cost"), 40) };
  GtkLabel *label = GTK_LABEL (gtk_button_get_child (GTK_BUTTON (button)));

  gtk_label_set_ellipsize (label, PANGO_ELLIPSIZE_NONE);
  gtk_label_set_wrap (label, TRUE);
  gtk_label_set_max_width_chars (label, 40);
  gtk_widget_set_halign (button, GTK_ALIGN_START);
  g_object_set_data (G_OBJECT (button), "recipe", GUINT_TO_POINTER (recipe));
  g_signal_connect_object (button, "clicked", G_CALLBACK (clicked_cb), self, G_CONNECT_SWAPPED);
  for (int column = 0; column < N_COLUMNS; column++)
    gtk_grid_attach (GTK_GRID (self->grid), cells[column], place_of (column), line_of (column, row),
                     column == NAME ? 2 : 1, 1);
}

static void
refresh_row (CroUsedInView *self,
             guint          row,
             const CroUse  *use,
             gboolean       is_one_of_several)
{
  CroFigures *figures = cro_book_get_figures (cro_bench_get_book (self->bench));
  CroModel *model = figures->model;
  g_autofree char *amount = cro_words_use_amount (model, use);
  g_autofree char *name = cro_isolate (cro_model_item (model, use->item)->name);
  /* Translators: an amount and the thing it is of. */
  g_autofree char *takes = is_one_of_several
                               ? g_strdup_printf (_("%s %s"), amount, name)
                               : g_strdup (amount);
  g_autofree char *cost = cro_words_use_cost (figures, use);
  g_autofree char *part = cro_words_use_part (figures, use);

  cro_name_button_set (cell (self, NAME, row), cro_model_recipe (model, use->recipe)->name);
  gtk_label_set_label (GTK_LABEL (cell (self, TAKES, row)), takes);
  gtk_label_set_label (GTK_LABEL (cell (self, COSTS, row)), cost);
  gtk_label_set_label (GTK_LABEL (cell (self, PART, row)), part);
  gtk_level_bar_set_value (GTK_LEVEL_BAR (cell (self, BAR, row)),
                           isnan (use->part_pct) ? 0 : CLAMP (use->part_pct / 100, 0, 1));
}

static guint
n_shown (CroUsedInView *self,
         GArray        *uses)
{
  return self->is_open || uses->len <= AT_ONCE + 1 ? uses->len : AT_ONCE;
}

static void
rebuild (CroUsedInView *self,
         GArray        *uses)
{
  /* The focus stays here when its row goes; where nothing is left, before it. */
  if (gtk_widget_get_focus_child (self->grid) != NULL)
    gtk_widget_child_focus (GTK_WIDGET (gtk_widget_get_root (GTK_WIDGET (self))),
                            GTK_DIR_TAB_BACKWARD);
  for (GtkWidget *child; (child = gtk_widget_get_first_child (self->grid)) != NULL;)
    gtk_grid_remove (GTK_GRID (self->grid), child);
  if (uses->len > 0)
    add_heads (self);
  for (guint i = 0; i < n_shown (self, uses); i++)
    add_row (self, i + 1, g_array_index (uses, CroUse, i).recipe);
}

static char *
dup_key (CroUsedInView *self,
         GArray        *uses)
{
  GString *key = g_string_new (NULL);

  for (guint i = 0; i < n_shown (self, uses); i++)
    g_string_append_printf (key, "%u %u\n", g_array_index (uses, CroUse, i).recipe,
                            g_array_index (uses, CroUse, i).item);
  return g_string_free (key, FALSE);
}

static void
show_rest (CroUsedInView *self,
           guint          n)
{
  /* Translators: how many more recipes take a thing. */
  g_autofree char *text = g_strdup_printf (ngettext ("Show %u More", "Show %u More", n), n);

  gtk_widget_set_visible (self->all, n > 0);
  gtk_button_set_label (GTK_BUTTON (self->all), text);
}

/* --- Plates and menus ------------------------------------------------------------------------- */

static void
thing_clicked_cb (CroUsedInView *self,
                  GtkButton     *button)
{
  guint32 slot = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "slot"));
  CroRefKind kind = (CroRefKind) GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "kind"));

  cro_bench_open (self->bench, CRO_REF (kind, slot));
}

static void
add_thing (CroUsedInView    *self,
           int               row,
           const CroReached *one)
{
  GtkWidget *button = cro_name_button_new ();
  GtkLabel *label = GTK_LABEL (gtk_button_get_child (GTK_BUTTON (button)));

  gtk_label_set_ellipsize (label, PANGO_ELLIPSIZE_NONE);
  gtk_label_set_wrap (label, TRUE);
  gtk_label_set_max_width_chars (label, 40);
  gtk_widget_set_halign (button, GTK_ALIGN_START);
  g_object_set_data (G_OBJECT (button), "slot", GUINT_TO_POINTER (one->thing.slot));
  g_object_set_data (G_OBJECT (button), "kind", GUINT_TO_POINTER ((guint) one->thing.kind));
  g_signal_connect_object (button, "clicked", G_CALLBACK (thing_clicked_cb), self,
                           G_CONNECT_SWAPPED);
  gtk_grid_attach (GTK_GRID (self->guests), button, 0, 2 * row, 1, 1);
  gtk_grid_attach (GTK_GRID (self->guests), cro_number_label_new (), 0, 2 * row + 1, 1, 1);
}

static char *
dup_reached_key (GArray *reached,
                 guint   n)
{
  GString *key = g_string_new (NULL);

  for (guint i = 0; i < n; i++)
    {
      const CroReached *one = &g_array_index (reached, CroReached, i);

      g_string_append_printf (key, "%d %u %u\n", one->thing.kind, one->thing.slot, one->item);
    }
  return g_string_free (key, FALSE);
}

static void
rebuild_things (CroUsedInView *self,
                GArray        *reached,
                guint          n)
{
  if (gtk_widget_get_focus_child (self->guests) != NULL)
    gtk_widget_child_focus (GTK_WIDGET (gtk_widget_get_root (GTK_WIDGET (self))),
                            GTK_DIR_TAB_BACKWARD);
  for (GtkWidget *child; (child = gtk_widget_get_first_child (self->guests)) != NULL;)
    gtk_grid_remove (GTK_GRID (self->guests), child);
  for (guint i = 0; i < n; i++)
    add_thing (self, (int) i, &g_array_index (reached, CroReached, i));
}

/* Returns how many are not shown. */
static guint
set_reached (CroUsedInView *self,
             const guint32 *items,
             guint          n_items)
{
  CroFigures *figures = cro_book_get_figures (cro_bench_get_book (self->bench));
  g_autoptr (GArray) reached = cro_reached_new (figures, items, n_items);
  guint n = n_shown (self, reached);
  g_autofree char *key = dup_reached_key (reached, n);

  if (g_strcmp0 (key, self->reached_key) != 0)
    {
      g_free (self->reached_key);
      self->reached_key = g_steal_pointer (&key);
      rebuild_things (self, reached, n);
    }
  for (guint i = 0; i < n; i++)
    {
      const CroReached *one = &g_array_index (reached, CroReached, i);
      g_autofree char *what = cro_words_reached (figures, one);
      /* Of a batch with several outputs: which. */
      g_autofree char *text = n_items > 1
                                  ? cro_isolate_printf (_("%s: %s"), cro_model_item (figures->model, one->item)->name,
                                                        what)
                                  : g_strdup (what);

      cro_name_button_set (gtk_grid_get_child_at (GTK_GRID (self->guests), 0, 2 * (int) i),
                           cro_ref_name (figures->model, one->thing));
      gtk_label_set_label (GTK_LABEL (gtk_grid_get_child_at (GTK_GRID (self->guests), 0,
                                                             2 * (int) i + 1)),
                           text);
    }
  gtk_widget_set_visible (self->reached, reached->len > 0);
  return reached->len - n;
}

void
cro_used_in_view_set (CroUsedInView *self,
                      const guint32 *items,
                      guint          n)
{
  CroFigures *figures = cro_book_get_figures (cro_bench_get_book (self->bench));
  g_autoptr (GArray) uses = cro_uses_new (figures, items, n);
  g_autofree char *key = NULL;

  self->is_open &= self->slot == cro_bench_get_slot (self->bench);
  self->slot = cro_bench_get_slot (self->bench);
  key = dup_key (self, uses);
  if (g_strcmp0 (key, self->key) != 0)
    {
      g_free (self->key);
      self->key = g_steal_pointer (&key);
      rebuild (self, uses);
    }
  for (guint i = 0; i < n_shown (self, uses); i++)
    refresh_row (self, i + 1, &g_array_index (uses, CroUse, i), n > 1);
  gtk_widget_set_visible (self->none, uses->len == 0);
  gtk_widget_set_visible (self->replace, uses->len > 0);
  show_rest (self, uses->len - n_shown (self, uses) + set_reached (self, items, n));
}

/* --- The widget ------------------------------------------------------------------------------- */

/* What is shown anew comes with the bench. */
static void
all_cb (CroUsedInView *self)
{
  self->is_open = TRUE;
  gtk_widget_child_focus (GTK_WIDGET (gtk_widget_get_root (GTK_WIDGET (self))),
                          GTK_DIR_TAB_BACKWARD);
  CRO_BENCH_GET_CLASS (self->bench)->refresh (self->bench);
}

static void
cro_used_in_view_dispose (GObject *object)
{
  CroUsedInView *self = CRO_USED_IN_VIEW (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->key, g_free);
  g_clear_pointer (&self->reached_key, g_free);
  G_OBJECT_CLASS (cro_used_in_view_parent_class)->dispose (object);
}

static void
cro_used_in_view_class_init (CroUsedInViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_used_in_view_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_used_in_view_init (CroUsedInView *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_add_css_class (GTK_WIDGET (self), "part");
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->none = cro_text_new (_("Not used yet."), "dim-label");
  self->grid = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (self->grid), 12);
  gtk_widget_set_halign (self->grid, GTK_ALIGN_START);
  self->all = gtk_button_new_with_label ("");
  gtk_widget_set_halign (self->all, GTK_ALIGN_START);
  g_signal_connect_object (self->all, "clicked", G_CALLBACK (all_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (self->box), self->none);
  gtk_box_append (GTK_BOX (self->box), cro_wide_new (self->grid));
  self->guests = gtk_grid_new ();
  self->reached = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_box_append (GTK_BOX (self->reached),
                  /* Translators: over plates and menus that take a thing through all preparations. */
                  cro_text_new (_("Per guest, through all preparations"), "caption"));
  gtk_box_append (GTK_BOX (self->reached), self->guests);
  self->replace = gtk_button_new_with_label (_("Replace or Merge…"));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->replace), "bench.replace");
  gtk_widget_set_halign (self->replace, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (self->box), self->reached);
  gtk_box_append (GTK_BOX (self->box), self->all);
  gtk_box_append (GTK_BOX (self->box), self->replace);
}

GtkWidget *
cro_used_in_view_new (CroBench *bench)
{
  CroUsedInView *self = g_object_new (CRO_TYPE_USED_IN_VIEW, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}
