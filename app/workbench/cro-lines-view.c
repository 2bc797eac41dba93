#include "config.h"

#include "cro-lines-view.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-line-row.h"
#include "cro-quick-line.h"
#include "cro-words.h"

struct _CroLinesView
{
  GtkWidget     parent_instance;

  GtkWidget    *box;
  GtkWidget    *head;
  GtkWidget    *bite_head;
  GtkWidget    *list;
  GtkWidget    *quick;
  GtkSizeGroup *columns[CRO_N_LINE_COLUMNS];

  CroBench     *bench;      /* borrowed */
  guint32       recipe;
  GArray       *lines;      /* guint32: what the rows show, in order */
};

G_DEFINE_FINAL_TYPE (CroLinesView, cro_lines_view, GTK_TYPE_WIDGET)

static CroBook *
book_of (CroLinesView *self)
{
  return cro_bench_get_book (self->bench);
}

/* --- Rows ------------------------------------------------------------------------------------- */

static gboolean
are_equal (GArray *a,
           GArray *b)
{
  return a->len == b->len
         && memcmp (a->data, b->data, a->len * g_array_get_element_size (a)) == 0;
}

static GtkWidget *
row_of_line (CroLinesView *self,
             guint32       line)
{
  for (GtkWidget *row = gtk_widget_get_first_child (self->list); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    if (CRO_IS_LINE_ROW (row) && cro_line_row_get_line (CRO_LINE_ROW (row)) == line)
      return row;
  return NULL;
}

/* Rows of lines that stay are moved, not made anew: a field being edited keeps its text. */
static void
rebuild (CroLinesView *self,
         GArray       *lines)
{
  for (guint i = 0; i < self->lines->len; i++)
    {
      guint32 line = g_array_index (self->lines, guint32, i);
      gboolean stays = FALSE;

      for (guint k = 0; k < lines->len; k++)
        stays |= g_array_index (lines, guint32, k) == line;
      if (!stays)
        gtk_list_box_remove (GTK_LIST_BOX (self->list), row_of_line (self, line));
    }
  for (guint i = 0; i < lines->len; i++)
    {
      guint32 line = g_array_index (lines, guint32, i);
      GtkWidget *row = row_of_line (self, line);

      if (row != NULL && gtk_list_box_row_get_index (GTK_LIST_BOX_ROW (row)) == (int) i)
        continue;
      if (row != NULL)
        {
          g_object_ref (row);
          gtk_list_box_remove (GTK_LIST_BOX (self->list), row);
          gtk_list_box_insert (GTK_LIST_BOX (self->list), row, (int) i);
          g_object_unref (row);
        }
      else
        gtk_list_box_insert (GTK_LIST_BOX (self->list),
                             cro_line_row_new (self->bench, line, self->columns), (int) i);
    }
  g_array_unref (self->lines);
  self->lines = g_array_ref (lines);
}

void
cro_lines_view_refresh (CroLinesView *self)
{
  CroFigures *figures = cro_book_get_figures (book_of (self));
  const CroRecipe *recipe = cro_model_recipe (figures->model, self->recipe);
  guint32 row = cro_figures_row (figures, self->recipe);
  double total = figures->layers[CRO_LAYER_FOOD].row_cost[row]
                 + figures->layers[CRO_LAYER_DISPOSABLES].row_cost[row];
  g_autoptr (GArray) lines = cro_edit_list_lines (figures, self->recipe);

  if (!are_equal (lines, self->lines))
    rebuild (self, lines);
  for (GtkWidget *child = gtk_widget_get_first_child (self->list); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (CRO_IS_LINE_ROW (child))
      cro_line_row_refresh (CRO_LINE_ROW (child), total,
                            recipe->is_plate ? cro_decimal_to_double (recipe->makes) : 0);
  gtk_widget_set_visible (self->head, lines->len > 0);
  gtk_widget_set_visible (self->bite_head, recipe->is_plate);
}

void
cro_lines_view_put (CroLinesView *self,
                    guint32       recipe)
{
  g_autoptr (GArray) none = g_array_new (FALSE, FALSE, sizeof (guint32));

  rebuild (self, none);
  self->recipe = recipe;
  cro_quick_line_put (CRO_QUICK_LINE (self->quick), recipe);
  cro_lines_view_refresh (self);
}

void
cro_lines_view_focus_quick_line (CroLinesView *self)
{
  gtk_widget_grab_focus (self->quick);
}

/* --- Actions on a line ------------------------------------------------------------------------ */

static char *
label_for (CroLinesView *self,
           guint32       line,
           const char   *of_what)
{
  CroModel *model = cro_book_get_model (book_of (self));

  return cro_act_dup_label (of_what, cro_model_item (model, model->lines.item[line])->name);
}

static int
index_of (CroLinesView *self,
          guint32       line)
{
  for (guint i = 0; i < self->lines->len; i++)
    if (g_array_index (self->lines, guint32, i) == line)
      return (int) i;
  return -1;
}

/* To the place of a neighbour: behind the one before it, or behind the one after. */
static void
move (CroLinesView *self,
      guint32       line,
      int           by)
{
  int after = index_of (self, line) + (by < 0 ? -2 : 1);
  g_autofree char *label = label_for (self, line, _("place"));
  g_autoptr (GError) error = NULL;

  if (after < -1 || after >= (int) self->lines->len)
    return;
  if (!cro_edit_move_line (book_of (self), label, line,
                           after < 0 ? CRO_NO_SLOT : g_array_index (self->lines, guint32, after),
                           &error))
    cro_bench_fail (self->bench, error);
}

static void
move_up_cb (GtkWidget  *widget,
            const char *action,
            GVariant   *line)
{
  move (CRO_LINES_VIEW (widget), g_variant_get_uint32 (line), -1);
}

static void
move_down_cb (GtkWidget  *widget,
              const char *action,
              GVariant   *line)
{
  move (CRO_LINES_VIEW (widget), g_variant_get_uint32 (line), 1);
}

static void
duplicate_cb (GtkWidget  *widget,
              const char *action,
              GVariant   *parameter)
{
  CroLinesView *self = CRO_LINES_VIEW (widget);
  guint32 line = g_variant_get_uint32 (parameter);
  g_autofree char *label = label_for (self, line, _("second line"));
  g_autoptr (GError) error = NULL;

  if (!cro_edit_duplicate_line (book_of (self), label, line, NULL, &error))
    cro_bench_fail (self->bench, error);
}

static void
remove_cb (GtkWidget  *widget,
           const char *action,
           GVariant   *parameter)
{
  CroLinesView *self = CRO_LINES_VIEW (widget);
  guint32 line = g_variant_get_uint32 (parameter);
  g_autofree char *label = label_for (self, line, _("removal"));
  g_autoptr (GError) error = NULL;

  /* The focus stays among the lines. */
  cro_lines_view_focus_quick_line (self);
  if (!cro_edit_remove (book_of (self), label, CRO_REF (CRO_REF_LINE, line), &error))
    cro_bench_fail (self->bench, error);
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
add_head (CroLinesView *self)
{
  const char *titles[CRO_N_LINE_COLUMNS] = {
    [CRO_LINE_AMOUNT] = _("amount"), [CRO_LINE_UNIT] = "", [CRO_LINE_BITE] = _("a bite"),
    [CRO_LINE_ITEM] = "", [CRO_LINE_WEIGHED] = _("weighed"), [CRO_LINE_YIELD] = _("yield %"),
    [CRO_LINE_BACK] = _("comes back %"), [CRO_LINE_COST] = _("cost"), [CRO_LINE_SHARE] = _("share"),
    [CRO_LINE_MORE] = "",
  };

  self->head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  gtk_widget_add_css_class (self->head, "lines-head");
  for (int i = 0; i < CRO_N_LINE_COLUMNS; i++)
    {
      GtkWidget *label = gtk_label_new (titles[i]);

      self->columns[i] = gtk_size_group_new (GTK_SIZE_GROUP_HORIZONTAL);
      gtk_label_set_xalign (GTK_LABEL (label), i == CRO_LINE_ITEM ? 0 : 1);
      gtk_widget_set_hexpand (label, i == CRO_LINE_ITEM);
      gtk_widget_add_css_class (label, "caption");
      gtk_widget_add_css_class (label, "dim-label");
      gtk_size_group_add_widget (self->columns[i], label);
      gtk_box_append (GTK_BOX (self->head), label);
      if (i == CRO_LINE_BITE)
        self->bite_head = label;
    }
}

static void
cro_lines_view_dispose (GObject *object)
{
  CroLinesView *self = CRO_LINES_VIEW (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  for (int i = 0; i < CRO_N_LINE_COLUMNS; i++)
    g_clear_object (&self->columns[i]);
  g_clear_pointer (&self->lines, g_array_unref);
  G_OBJECT_CLASS (cro_lines_view_parent_class)->dispose (object);
}

static void
cro_lines_view_class_init (CroLinesViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_lines_view_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_install_action (widget_class, "line.move-up", "u", move_up_cb);
  gtk_widget_class_install_action (widget_class, "line.move-down", "u", move_down_cb);
  gtk_widget_class_install_action (widget_class, "line.duplicate", "u", duplicate_cb);
  gtk_widget_class_install_action (widget_class, "line.remove", "u", remove_cb);
}

static void
cro_lines_view_init (CroLinesView *self)
{
  self->lines = g_array_new (FALSE, FALSE, sizeof (guint32));
  self->recipe = CRO_NO_SLOT;
}

GtkWidget *
cro_lines_view_new (CroBench *bench)
{
  CroLinesView *self = g_object_new (CRO_TYPE_LINES_VIEW, NULL);
  GtkWidget *table = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  self->bench = bench;
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_widget_add_css_class (self->box, "lines-part");
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  add_head (self);
  self->list = gtk_list_box_new ();
  gtk_list_box_set_selection_mode (GTK_LIST_BOX (self->list), GTK_SELECTION_NONE);
  gtk_widget_add_css_class (self->list, "lines");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->list), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Lines"), -1);
  self->quick = cro_quick_line_new (bench);
  gtk_box_append (GTK_BOX (table), self->head);
  gtk_box_append (GTK_BOX (table), self->list);
  gtk_box_append (GTK_BOX (self->box), cro_wide_new (table));
  gtk_box_append (GTK_BOX (self->box), self->quick);
  return GTK_WIDGET (self);
}
