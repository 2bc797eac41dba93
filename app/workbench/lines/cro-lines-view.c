#include "config.h"

#include "cro-lines-view.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-edit.h"
#include "cro-field.h"
#include "cro-footed.h"
#include "cro-input-lost.h"
#include "cro-landing.h"
#include "cro-line-row.h"
#include "cro-lines-total.h"
#include "cro-quick-line.h"
#include "cro-reveal.h"
#include "cro-spoken.h"
#include "cro-text-width.h"
#include "cro-words.h"

/* What a field, and a button, has around its text, in pixels. */
#define FIELD_FRAME 18
#define BUTTON_FRAME 16

/* The button behind the cost, and the bar before it. */
#define BEHIND_COST 30
#define BAR 54

/* Between cells. */
#define CELL_SPACE 6

/* Rows made at once: what fills a screen, and then a few at a time while nothing else is to be
 * done. A recipe of thousands of lines does not hold up its first ones. */
#define MADE_AT_ONCE 60
#define MADE_IN_IDLE 12

/* Columns of amounts are no narrower than this text: most amounts fit while they are typed. */
#define LEAST_AMOUNT "0000.5 g"

struct _CroLinesView
{
  GtkWidget     parent_instance;

  GtkWidget    *box;
  GtkWidget    *head;
  GtkWidget    *amount_head;
  GtkWidget    *bite_head;
  GtkWidget    *cost_head;
  GtkWidget    *rows;      /* CroLineRows */
  GtkWidget    *quick;
  GtkWidget    *sum;

  CroBench     *bench;     /* borrowed */
  guint32       recipe;
  GArray       *lines;     /* guint32: what the rows show, in order */
  GHashTable   *row_of;    /* line → its row, borrowed; none yet of lines still to be made */
  GHashTable   *notes;     /* line → text, as they were read at an edition of the book */
  guint64       edition;
  guint         make_id;   /* while there are such */
  CroTextWidth *widths;
  CroLineColumns columns;  /* as they were last */
  gboolean      is_beside; /* a picture has the room of the bars */
};

G_DEFINE_FINAL_TYPE (CroLinesView, cro_lines_view, GTK_TYPE_WIDGET)

static CroBook *
book_of (CroLinesView *self)
{
  return cro_bench_get_book (self->bench);
}

static GtkWidget *
row_of_line (CroLinesView *self,
             guint32       line)
{
  return g_hash_table_lookup (self->row_of, GUINT_TO_POINTER (line));
}

static guint32
line_at (CroLinesView *self,
         guint         at)
{
  return g_array_index (self->lines, guint32, at);
}

static int
index_of (CroLinesView *self,
          guint32       line)
{
  for (guint i = 0; i < self->lines->len; i++)
    if (line_at (self, i) == line)
      return (int) i;
  return -1;
}

/* --- Focus ------------------------------------------------------------------------------------ */

/* The row that has the focus, at or below it; NULL: none. */
static CroLineRow *
focused_row (CroLinesView *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  if (focus == NULL || !gtk_widget_is_ancestor (focus, self->rows))
    return NULL;
  return CRO_LINE_ROW (gtk_widget_get_ancestor (focus, CRO_TYPE_LINE_ROW));
}

static void make_rows (CroLinesView *self, guint most);

/* The cell of the line at a place; behind the last the quick line. */
static gboolean
focus_line (CroLinesView *self,
            guint         at,
            CroLineCell   cell)
{
  if (at >= self->lines->len)
    return gtk_widget_grab_focus (self->quick);
  if (row_of_line (self, line_at (self, at)) == NULL)
    make_rows (self, G_MAXUINT);
  return cro_line_row_focus_cell (CRO_LINE_ROW (row_of_line (self, line_at (self, at))), cell);
}

/* --- Rows ------------------------------------------------------------------------------------- */

static gboolean
are_equal (GArray *a,
           GArray *b)
{
  return a->len == b->len
         && (a->len == 0
             || memcmp (a->data, b->data, a->len * g_array_get_element_size (a)) == 0);
}

static GHashTable *
set_of (GArray *lines)
{
  GHashTable *set = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < lines->len; i++)
    g_hash_table_add (set, GUINT_TO_POINTER (g_array_index (lines, guint32, i)));
  return set;
}

static void
remove_gone (CroLinesView *self,
             GArray       *before)
{
  g_autoptr (GHashTable) stays = set_of (self->lines);

  for (guint i = 0; i < before->len; i++)
    {
      guint32 line = g_array_index (before, guint32, i);

      if (g_hash_table_contains (stays, GUINT_TO_POINTER (line))
          || row_of_line (self, line) == NULL)
        continue;
      cro_input_lost_let_go (row_of_line (self, line));
      gtk_box_remove (GTK_BOX (self->rows), row_of_line (self, line));
      g_hash_table_remove (self->row_of, GUINT_TO_POINTER (line));
    }
}

static gboolean
make_more_cb (gpointer user_data)
{
  CroLinesView *self = user_data;

  self->make_id = 0;
  /* Meanwhile another recipe may stand there. */
  if (cro_bench_get_slot (self->bench) != self->recipe)
    return G_SOURCE_REMOVE;
  make_rows (self, MADE_IN_IDLE);
  cro_lines_view_refresh (self);
  return G_SOURCE_REMOVE;
}

/* Puts rows into the order of the lines, and makes those that are not there. */
static void
make_rows (CroLinesView *self,
           guint         most)
{
  GtkWidget *before = NULL;
  gboolean is_whole = TRUE;

  for (guint i = 0; i < self->lines->len; i++)
    {
      guint32 line = line_at (self, i);
      GtkWidget *row = row_of_line (self, line);

      if (row == NULL && most == 0)
        {
          is_whole = FALSE;
          continue;
        }
      if (row == NULL)
        {
          row = cro_line_row_new (self->bench, line);
          cro_line_row_show_share (CRO_LINE_ROW (row), !self->is_beside);
          g_hash_table_insert (self->row_of, GUINT_TO_POINTER (line), row);
          gtk_box_insert_child_after (GTK_BOX (self->rows), row, before);
          most--;
        }
      else if (gtk_widget_get_prev_sibling (row) != before)
        gtk_box_reorder_child_after (GTK_BOX (self->rows), row, before);
      before = row;
    }
  if (!is_whole)
    cro_bench_defer (self->bench, &self->make_id, G_PRIORITY_LOW, make_more_cb, self);
}

/* What was just typed below the lines is not to stand behind that. */
static void
show_last (CroLinesView *self)
{
  GtkWidget *last = gtk_widget_get_last_child (self->rows);

  if (last != NULL && gtk_widget_get_focus_child (self->box) == self->quick)
    cro_reveal (last);
}

/* Rows of lines that stay are moved, not made anew: a field being edited keeps its text, and the
 * focus stays where it is. That of a row that goes falls to the next line before it goes: what is typed on
 * is no amount of another line. */
static void
rebuild (CroLinesView *self,
         GArray       *lines)
{
  CroLineRow *focused = focused_row (self);
  g_autoptr (GArray) before = g_steal_pointer (&self->lines);

  self->lines = g_array_ref (lines);
  make_rows (self, MADE_AT_ONCE);
  if (focused != NULL && index_of (self, cro_line_row_get_line (focused)) < 0)
    gtk_widget_grab_focus (self->quick);
  remove_gone (self, before);
  if (lines->len > before->len)
    show_last (self);
}

/* --- Columns ---------------------------------------------------------------------------------- */

static void
widen (CroLinesView *self,
       const char   *text,
       int          *head,
       int          *tail)
{
  int of_head, of_tail;

  cro_text_width_of_number (self->widths, text, &of_head, &of_tail);
  *head = MAX (*head, of_head);
  *tail = MAX (*tail, of_tail);
}

static int
tail_of (CroLinesView *self,
         CroLineRow   *row,
         CroLineCell   cell)
{
  int head, tail;

  cro_text_width_of_number (self->widths, cro_line_row_get_text (row, cell), &head, &tail);
  return tail;
}

static CroLineColumns
measure (CroLinesView *self)
{
  CroLineColumns columns = { .cost = cro_text_width (self->widths, "0000.00") };
  int amount_head = 0, bite_head = 0;

  widen (self, LEAST_AMOUNT, &amount_head, &columns.amount_tail);
  widen (self, LEAST_AMOUNT, &bite_head, &columns.bite_tail);
  for (GtkWidget *child = gtk_widget_get_first_child (self->rows); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      CroLineRow *row = CRO_LINE_ROW (child);

      widen (self, cro_line_row_get_text (row, CRO_LINE_AMOUNT), &amount_head,
             &columns.amount_tail);
      widen (self, cro_line_row_get_text (row, CRO_LINE_BITE), &bite_head, &columns.bite_tail);
      columns.cost = MAX (columns.cost, cro_text_width (self->widths,
                                                        cro_line_row_get_text (row,
                                                                               CRO_LINE_COST)));
    }
  columns.amount = amount_head + columns.amount_tail + FIELD_FRAME;
  columns.bite = bite_head + columns.bite_tail + FIELD_FRAME;
  columns.cost += BUTTON_FRAME;
  return columns;
}

static gboolean
is_edited (CroLinesView *self)
{
  for (GtkWidget *row = gtk_widget_get_first_child (self->rows); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    if (cro_line_row_is_edited (CRO_LINE_ROW (row)))
      return TRUE;
  return FALSE;
}

/* A key moves no column: what is typed is taken into account once it is kept. */
static CroLineColumns
columns_now (CroLinesView *self)
{
  CroLineColumns columns = measure (self);

  if (self->columns.amount > 0 && is_edited (self))
    {
      int cost = MAX (columns.cost, self->columns.cost);

      columns = self->columns;
      columns.cost = cost;
    }
  self->columns = columns;
  return columns;
}

static void
align_columns (CroLinesView *self)
{
  CroLineColumns columns = columns_now (self);

  gtk_widget_set_size_request (self->amount_head, columns.amount, -1);
  gtk_widget_set_size_request (self->bite_head, columns.bite, -1);
  gtk_widget_set_size_request (self->cost_head, columns.cost, -1);
  cro_lines_total_set_columns (CRO_LINES_TOTAL (self->sum),
                               columns.amount + CELL_SPACE
                                   + (gtk_widget_get_visible (self->bite_head)
                                          ? columns.bite + CELL_SPACE
                                          : 0),
                               columns.cost, BEHIND_COST + (self->is_beside ? 0 : BAR));
  for (GtkWidget *child = gtk_widget_get_first_child (self->rows); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      CroLineRow *row = CRO_LINE_ROW (child);

      cro_line_row_set_columns (row, &columns, tail_of (self, row, CRO_LINE_AMOUNT),
                                tail_of (self, row, CRO_LINE_BITE));
    }
}

/* --- Showing ---------------------------------------------------------------------------------- */

/* Notes are read together, as no figure hangs on them. */
static void
read_notes (CroLinesView *self)
{
  static const char *const columns[] = { "id", "note", NULL };
  const CroRecipe *recipe = cro_model_recipe (cro_book_get_model (book_of (self)), self->recipe);
  CroModel *model = cro_book_get_model (book_of (self));
  g_autoptr (CroRows) rows = cro_store_read_of (cro_book_get_store (book_of (self)), "recipe_line",
                                                recipe->is_plate ? "plate" : "preparation",
                                                recipe->id, columns, NULL);

  self->edition = cro_book_get_edition (book_of (self));
  g_hash_table_remove_all (self->notes);
  while (rows != NULL && cro_rows_next (rows, NULL))
    if (!cro_rows_is_null (rows, 1))
      g_hash_table_insert (self->notes,
                           GUINT_TO_POINTER (cro_slots_get (&model->line_slots,
                                                            cro_rows_get_int (rows, 0))),
                           g_strdup (cro_rows_get_text (rows, 1)));
}

/* The rows' figures, which add up to the total that is shown under them. */
static void
refresh_rows (CroLinesView    *self,
              CroFigures      *figures,
              const CroRecipe *recipe)
{
  const CroGraph *graph = &figures->graph;
  guint32 row = cro_figures_row (figures, self->recipe);
  guint32 n = graph->first[row + 1] - graph->first[row];
  double total = cro_landing_total (figures, self->recipe);
  gint64 shown;
  g_autofree gint64 *minor = cro_landing_dup_lines (figures, self->recipe, &shown);

  for (guint32 i = 0; i < n; i++)
    {
      guint32 line = graph->line_slot[graph->first[row] + i];
      GtkWidget *of = row_of_line (self, line);

      if (of != NULL)
        cro_line_row_refresh (CRO_LINE_ROW (of), total, minor[i],
                              recipe->is_plate ? recipe->makes : 0,
                              g_hash_table_lookup (self->notes, GUINT_TO_POINTER (line)));
    }
  cro_lines_total_set (CRO_LINES_TOTAL (self->sum), figures, self->recipe, shown, minor[n]);
  gtk_widget_set_visible (self->sum, n > 0);
}

void
cro_lines_view_refresh (CroLinesView *self)
{
  CroFigures *figures = cro_book_get_figures (book_of (self));
  const CroRecipe *recipe = cro_model_recipe (figures->model, self->recipe);
  g_autoptr (GArray) lines = cro_edit_list_lines (figures, self->recipe);

  if (self->edition != cro_book_get_edition (book_of (self)))
    read_notes (self);
  if (!are_equal (lines, self->lines))
    rebuild (self, lines);
  refresh_rows (self, figures, recipe);
  cro_cure_set (self->quick, CRO_CAUSE_LINES, lines->len == 0);
  gtk_widget_set_visible (self->head, lines->len > 0);
  gtk_widget_set_visible (self->bite_head, recipe->is_plate);
  if (recipe->is_plate)
    {
      g_autofree char *makes = cro_words_decimal (recipe->makes);
      /* Translators: over the amounts of a plate's lines: for how many bites they are. */
      g_autofree char *text = g_strdup_printf (_("for %s"), makes);

      gtk_label_set_label (GTK_LABEL (self->amount_head), text);
    }
  else
    gtk_label_set_label (GTK_LABEL (self->amount_head), _("amount"));
  align_columns (self);
}

void
cro_lines_view_put (CroLinesView *self,
                    guint32       recipe)
{
  g_autoptr (GArray) none = g_array_new (FALSE, FALSE, sizeof (guint32));

  if (recipe != self->recipe)
    {
      rebuild (self, none);
      self->columns = (CroLineColumns){ 0 };
    }
  self->recipe = recipe;
  self->edition = 0;
  cro_quick_line_put (CRO_QUICK_LINE (self->quick), recipe);
  cro_lines_view_refresh (self);
}

GtkWidget *
cro_lines_view_get_next (CroLinesView *self)
{
  return self->quick;
}

/* --- Beside a picture ------------------------------------------------------------------------- */

static GtkWidget *
find_row (GtkWidget *rows,
          guint32    line)
{
  CroLinesView *self = CRO_LINES_VIEW (rows);
  GtkWidget *row = line != CRO_NO_SLOT ? row_of_line (self, line) : NULL;

  /* While the sum stands over the rows, nothing can be level with both. */
  if (line == CRO_NO_SLOT)
    return cro_footed_is_raised (CRO_FOOTED (self->box), self->sum)
               ? NULL
               : cro_lines_total_get_last (CRO_LINES_TOTAL (self->sum));
  return row != NULL ? cro_line_row_get_middle (CRO_LINE_ROW (row)) : NULL;
}

static void
set_beside (GtkWidget *rows,
            gboolean   is_beside)
{
  CroLinesView *self = CRO_LINES_VIEW (rows);

  self->is_beside = is_beside;
  for (GtkWidget *row = gtk_widget_get_first_child (self->rows); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    cro_line_row_show_share (CRO_LINE_ROW (row), !is_beside);
  align_columns (self);
}

const CroPaneRows cro_lines_view_rows = { find_row, set_beside };

/* --- Actions on a line ------------------------------------------------------------------------ */

static char *
label_for (CroLinesView *self,
           guint32       line,
           const char   *of_what)
{
  CroModel *model = cro_book_get_model (book_of (self));

  return cro_act_dup_label (of_what, cro_model_item (model, model->lines.item[line])->name);
}

/* To the place of a neighbour: behind the one before it, or behind the one after. */
static void
move (CroLinesView *self,
      guint32       line,
      int           by)
{
  int after = index_of (self, line) + (by < 0 ? -2 : 1);
  g_autofree char *label = label_for (self, line, _("position"));
  g_autoptr (GError) error = NULL;

  if (after < -1 || after >= (int) self->lines->len)
    return;
  if (!cro_edit_move_line (book_of (self), label, line,
                           after < 0 ? CRO_NO_SLOT : line_at (self, (guint) after), &error))
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

/* The copy is there to be given another amount. */
static void
duplicate_cb (GtkWidget  *widget,
              const char *action,
              GVariant   *parameter)
{
  CroLinesView *self = CRO_LINES_VIEW (widget);
  guint32 line = g_variant_get_uint32 (parameter), copy = CRO_NO_SLOT;
  g_autofree char *label = label_for (self, line, _("second line"));
  g_autoptr (GError) error = NULL;

  if (!cro_edit_duplicate_line (book_of (self), label, line, &copy, &error))
    cro_bench_fail (self->bench, error);
  else
    {
      cro_book_tell (book_of (self));
      focus_line (self, (guint) index_of (self, copy), CRO_LINE_AMOUNT);
    }
}

/* What is being typed into it is kept before it goes. */
static void
remove_cb (GtkWidget  *widget,
           const char *action,
           GVariant   *parameter)
{
  CroLinesView *self = CRO_LINES_VIEW (widget);
  guint32 line = g_variant_get_uint32 (parameter);
  CroLineRow *row = CRO_LINE_ROW (row_of_line (self, line));
  CroLineCell cell = CRO_LINE_AMOUNT;
  g_autofree char *label = label_for (self, line, _("removal"));
  g_autoptr (GError) error = NULL;

  cro_line_row_get_focus_cell (row, &cell);
  focus_line (self, (guint) index_of (self, line) + 1, cell);
  if (!cro_edit_remove (book_of (self), label, CRO_REF (CRO_REF_LINE, line), &error))
    cro_bench_fail (self->bench, error);
}

/* --- Keys ------------------------------------------------------------------------------------- */

/* Along a column; the quick line is the last of it. */
static gboolean
step_cb (GtkWidget *widget,
         GVariant  *by,
         gpointer   user_data)
{
  CroLinesView *self = CRO_LINES_VIEW (widget);
  CroLineRow *row = focused_row (self);
  CroLineCell cell;
  int to;

  if (row == NULL)
    return g_variant_get_int32 (by) < 0 && self->lines->len > 0
           && gtk_widget_is_ancestor (gtk_root_get_focus (gtk_widget_get_root (widget)), self->quick)
           && focus_line (self, self->lines->len - 1, CRO_LINE_AMOUNT);
  if (!cro_line_row_get_focus_cell (row, &cell))
    return FALSE;
  to = index_of (self, cro_line_row_get_line (row)) + g_variant_get_int32 (by);
  return to >= 0 && focus_line (self, (guint) to, cell);
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
add_head (CroLinesView *self)
{
  GtkWidget *space = cro_caption_new ("", 0);
  GtkWidget *behind;

  self->head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  gtk_widget_add_css_class (self->head, "lines-head");
  self->amount_head = cro_caption_new ("", 1);
  self->bite_head = cro_caption_new (_("per bite"), 1);
  self->cost_head = cro_caption_new (_("cost"), 1);
  gtk_widget_set_hexpand (space, TRUE);
  gtk_box_append (GTK_BOX (self->head), self->amount_head);
  gtk_box_append (GTK_BOX (self->head), self->bite_head);
  gtk_box_append (GTK_BOX (self->head), space);
  gtk_box_append (GTK_BOX (self->head), self->cost_head);
  behind = cro_caption_new ("", 0);
  gtk_widget_set_size_request (behind, BEHIND_COST, -1);
  gtk_box_append (GTK_BOX (self->head), behind);
}

/* The text size or font is another. */
static void
cro_lines_view_css_changed (GtkWidget         *widget,
                            GtkCssStyleChange *change)
{
  CroLinesView *self = CRO_LINES_VIEW (widget);

  GTK_WIDGET_CLASS (cro_lines_view_parent_class)->css_changed (widget, change);
  if (self->widths == NULL)
    return;
  cro_text_width_forget (self->widths);
  self->columns = (CroLineColumns){ 0 };
  align_columns (self);
}

static void
cro_lines_view_dispose (GObject *object)
{
  CroLinesView *self = CRO_LINES_VIEW (object);

  g_clear_handle_id (&self->make_id, g_source_remove);
  g_clear_pointer (&self->widths, cro_text_width_free);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->lines, g_array_unref);
  g_clear_pointer (&self->row_of, g_hash_table_unref);
  g_clear_pointer (&self->notes, g_hash_table_unref);
  G_OBJECT_CLASS (cro_lines_view_parent_class)->dispose (object);
}

static void
cro_lines_view_class_init (CroLinesViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_lines_view_dispose;
  widget_class->css_changed = cro_lines_view_css_changed;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_install_action (widget_class, "line.move-up", "u", move_up_cb);
  gtk_widget_class_install_action (widget_class, "line.move-down", "u", move_down_cb);
  gtk_widget_class_install_action (widget_class, "line.duplicate", "u", duplicate_cb);
  gtk_widget_class_install_action (widget_class, "line.remove", "u", remove_cb);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Up, 0, step_cb, "i", -1);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_KP_Up, 0, step_cb, "i", -1);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Down, 0, step_cb, "i", 1);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_KP_Down, 0, step_cb, "i", 1);
}

static void
cro_lines_view_init (CroLinesView *self)
{
  self->lines = g_array_new (FALSE, FALSE, sizeof (guint32));
  self->row_of = g_hash_table_new (NULL, NULL);
  self->notes = g_hash_table_new_full (NULL, NULL, NULL, g_free);
  self->recipe = CRO_NO_SLOT;
}

GtkWidget *
cro_lines_view_new (CroBench *bench)
{
  CroLinesView *self = g_object_new (CRO_TYPE_LINES_VIEW, NULL);

  self->bench = bench;
  self->box = cro_footed_new (0);
  gtk_widget_add_css_class (self->box, "lines-part");
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  add_head (self);
  self->rows = g_object_new (GTK_TYPE_BOX, "orientation", GTK_ORIENTATION_VERTICAL,
                             "accessible-role", GTK_ACCESSIBLE_ROLE_LIST, NULL);
  gtk_widget_add_css_class (self->rows, "lines");
  cro_spoken_set (self->rows, _("Lines"));
  self->widths = cro_text_width_new (self->rows);
  self->quick = cro_quick_line_new (bench);
  cro_footed_append (CRO_FOOTED (self->box), self->head);
  cro_footed_append (CRO_FOOTED (self->box), self->rows);
  /* Above the next line: what is offered below that moves no total. */
  self->sum = cro_lines_total_new ();
  cro_footed_append_foot (CRO_FOOTED (self->box), self->sum);
  cro_footed_append_foot (CRO_FOOTED (self->box), self->quick);
  return GTK_WIDGET (self);
}
