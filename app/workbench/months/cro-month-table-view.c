#include "config.h"

#include "cro-month-table-view.h"

#include <glib/gi18n.h>

#include "cro-box.h"
#include "cro-cells.h"
#include "cro-columns.h"
#include "cro-field.h"
#include "cro-focus.h"
#include "cro-isolate.h"
#include "cro-measure.h"
#include "cro-reveal.h"
#include "cro-spoken.h"

/* Room above rows that stand apart. */
#define APART 9

/* In characters: what is said of a row and is longer stands under it, and makes no column wide. */
#define LONG_NOTE 28
#define NOTE_INDENT 2

/* Of a name: what is no ingredient is a phrase, and read whole. */
#define MOST_LINES 6

struct _CroMonthTableView
{
  GtkWidget      parent_instance;

  GtkWidget     *box;
  GtkWidget     *table;
  GtkWidget     *head;
  GtkWidget     *list;
  GtkWidget     *left_out;  /* which columns have no room */
  GtkWidget     *notes;
  CroColumns    *columns;
  CroMonthOpens  opens;
  guint          words;     /* of the columns */
  guint          n;         /* rows that there are */
};

G_DEFINE_FINAL_TYPE (CroMonthTableView, cro_month_table_view, GTK_TYPE_WIDGET)

enum
{
  OPENED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

/* --- Rows ----------------------------------------------------------------------------------- */

static GtkListBoxRow *
row_at (CroMonthTableView *self,
        guint              i)
{
  return gtk_list_box_get_row_at_index (GTK_LIST_BOX (self->list), (int) i);
}

static int
line_of (GtkListBoxRow *row)
{
  return GPOINTER_TO_INT (g_object_get_data (G_OBJECT (row), "line"));
}

static void
focused_cb (GtkWidget *row)
{
  if (gtk_widget_has_focus (row))
    cro_reveal_now (row);
}

static void
add_row (CroMonthTableView *self)
{
  GtkWidget *row = gtk_list_box_row_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *cells = cro_cells_new_texts (self->columns), *note = cro_text_new ("", "month-note");
  GtkWidget *label = gtk_widget_get_first_child (cells);

  gtk_label_set_lines (GTK_LABEL (label), MOST_LINES);
  /* Words behind the name are said of it. */
  for (guint i = 1; (label = gtk_widget_get_next_sibling (label)) != NULL; i++)
    if ((self->words & 1u << i) != 0)
      gtk_widget_add_css_class (label, "month-note");
  gtk_widget_add_css_class (note, "month-below");
  gtk_box_append (GTK_BOX (box), cells);
  gtk_box_append (GTK_BOX (box), note);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  g_signal_connect (row, "notify::has-focus", G_CALLBACK (focused_cb), NULL);
  gtk_list_box_append (GTK_LIST_BOX (self->list), row);
  self->n++;
}

static gboolean
opens (CroMonthTableView *self,
       int                line)
{
  return line >= 0 && (self->opens == NULL || self->opens (line));
}

/* All that it shows is said, with the titles of its numbers. */
static void
speak (GtkWidget              *row,
       const CroMonthTable    *table,
       const CroMonthTableRow *shown)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < table->n_columns; i++)
    {
      if (shown->cells[i] == NULL || *shown->cells[i] == '\0')
        continue;
      if (text->len > 0)
        g_string_append (text, ", ");
      if (i > 0 && table->titles[i] != NULL)
        g_string_append_printf (text, "%s ", table->titles[i]);
      g_string_append (text, shown->cells[i]);
    }
  if (shown->note != NULL)
    g_string_append_printf (text, ", %s", shown->note);
  cro_spoken_set (row, text->str);
}

static void
put_row (CroMonthTableView      *self,
         guint                   at,
         const CroMonthTable    *table,
         const CroMonthTableRow *shown)
{
  GtkListBoxRow *row = row_at (self, at);
  GtkWidget *cells = gtk_widget_get_first_child (gtk_list_box_row_get_child (row));
  GtkWidget *name = gtk_widget_get_first_child (cells), *note = gtk_widget_get_next_sibling (cells);
  const char *below = NULL;

  g_object_set_data (G_OBJECT (row), "line", GINT_TO_POINTER (shown->line));
  g_object_set_data_full (G_OBJECT (row), "name", g_strdup (shown->cells[0]), g_free);
  gtk_list_box_row_set_activatable (row, opens (self, shown->line));
  gtk_widget_set_margin_top (cells, shown->is_apart ? APART : 0);
  gtk_widget_set_margin_start (name, cro_measure_chars (name, (int) shown->indent));
  if (shown->is_sum)
    gtk_widget_add_css_class (GTK_WIDGET (row), "now");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (row), "now");
  for (guint i = 0; i < table->n_columns; i++)
    {
      const char *text = shown->cells[i] != NULL ? shown->cells[i] : "";
      gboolean is_below = i > 0 && (self->words & 1u << i) != 0 && g_utf8_strlen (text, -1) > LONG_NOTE;

      cro_cells_set_text (CRO_CELLS (cells), i, is_below ? "" : text);
      below = is_below ? text : below;
    }
  gtk_label_set_label (GTK_LABEL (note), below != NULL ? below : "");
  gtk_widget_set_visible (note, below != NULL);
  /* Set in, so that it does not stand as if it were a row. */
  gtk_widget_set_margin_start (note, cro_measure_chars (name, (int) shown->indent + NOTE_INDENT));
  speak (GTK_WIDGET (row), table, shown);
}

/* --- Heads ---------------------------------------------------------------------------------- */

static void
add_head (CroMonthTableView   *self,
          const CroMonthTable *table,
          guint                column)
{
  const char *title = table->titles[column];
  gboolean is_words = (self->words & 1u << column) != 0, is_spared = (table->spared & 1u << column) != 0;
  GtkWidget *label = cro_caption_new (title != NULL ? title : "", is_words ? 0 : 1);
  int least, natural;

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_justify (GTK_LABEL (label), is_words ? GTK_JUSTIFY_LEFT : GTK_JUSTIFY_RIGHT);
  gtk_widget_set_valign (label, GTK_ALIGN_END);
  cro_cells_append (CRO_CELLS (self->head), label);
  gtk_widget_measure (label, GTK_ORIENTATION_HORIZONTAL, -1, &least, &natural, NULL, NULL);
  /* One that may be spared is left out before the others are pressed together; and no heading that breaks into lines
   * takes from words beside the names what numbers do not need. */
  if (is_spared)
    least = natural = MAX (least, natural * 3 / 5);
  cro_columns_take (self->columns, column, least, least, natural);
}

static void
add_heads (CroMonthTableView   *self,
           const CroMonthTable *table)
{
  self->head = cro_cells_new (self->columns);
  gtk_widget_add_css_class (self->head, "month-head");
  gtk_box_prepend (GTK_BOX (self->table), self->head);
  for (guint i = 0; i < table->n_columns; i++)
    add_head (self, table, i);
}

static void
show_left_out (CroMonthTableView *self)
{
  GtkWidget *head = gtk_widget_get_first_child (self->head);
  g_autoptr (GString) names = g_string_new (NULL);
  g_autofree char *text = NULL;

  for (guint i = 0; i < cro_columns_get_n (self->columns); i++, head = gtk_widget_get_next_sibling (head))
    if (cro_columns_is_left_out (self->columns, i) && *gtk_label_get_label (GTK_LABEL (head)) != '\0')
      cro_isolate_append (names, gtk_label_get_label (GTK_LABEL (head)));
  /* Translators: under a table: its columns that have no room. */
  text = g_strdup_printf (_("No room for: %s"), names->str);
  gtk_label_set_label (GTK_LABEL (self->left_out), text);
  gtk_widget_set_visible (self->left_out, names->len > 0);
}

static gboolean
has_same_heads (CroMonthTableView   *self,
                const CroMonthTable *table)
{
  GtkWidget *label = self->head != NULL ? gtk_widget_get_first_child (self->head) : NULL;

  if (label == NULL || self->words != table->words || cro_columns_get_n (self->columns) != table->n_columns)
    return FALSE;
  for (guint i = 0; i < table->n_columns; i++, label = gtk_widget_get_next_sibling (label))
    if (g_strcmp0 (gtk_label_get_label (GTK_LABEL (label)), table->titles[i] != NULL ? table->titles[i] : "") != 0)
      return FALSE;
  return TRUE;
}

/* Another table: with columns of its own. */
static void
begin (CroMonthTableView   *self,
       const CroMonthTable *table)
{
  GtkListBoxRow *row;

  cro_focus_begin_at (self->list, NULL);
  while ((row = row_at (self, 0)) != NULL)
    gtk_list_box_remove (GTK_LIST_BOX (self->list), GTK_WIDGET (row));
  self->n = 0;
  if (self->head != NULL)
    gtk_box_remove (GTK_BOX (self->table), self->head);
  g_clear_object (&self->columns);
  self->columns = cro_columns_new (table->n_columns);
  self->words = table->words;
  for (guint i = 0; i < table->n_columns; i++)
    {
      cro_columns_set_kind (self->columns, i, (table->words & 1u << i) == 0, FALSE);
      cro_columns_set_rank (self->columns, i, (table->spared & 1u << i) != 0);
    }
  /* Names are read whole; what is said of them wraps. */
  if (table->words > 1)
    cro_columns_set_first (self->columns, 0);
  add_heads (self, table);
  g_signal_connect_object (self->columns, "left-out", G_CALLBACK (show_left_out), self, G_CONNECT_SWAPPED);
  show_left_out (self);
}

static void
put_notes (CroMonthTableView   *self,
           const CroMonthTable *table)
{
  cro_box_clear (self->notes);
  for (guint i = 0; i < table->notes->len; i++)
    gtk_box_append (GTK_BOX (self->notes), cro_text_new (table->notes->pdata[i], "caption"));
  gtk_widget_set_visible (self->notes, table->notes->len > 0);
}

void
cro_month_table_view_set (CroMonthTableView   *self,
                          const CroMonthTable *table)
{
  gtk_widget_set_visible (GTK_WIDGET (self), table != NULL);
  if (table == NULL)
    return;
  if (!has_same_heads (self, table))
    begin (self, table);
  while (self->n < table->rows->len)
    add_row (self);
  for (guint i = 0; i < self->n; i++)
    {
      gtk_widget_set_visible (GTK_WIDGET (row_at (self, i)), i < table->rows->len);
      if (i < table->rows->len)
        put_row (self, i, table, cro_month_table_get (table, i));
    }
  put_notes (self, table);
}

/* --- Opening -------------------------------------------------------------------------------- */

static void
activated_cb (CroMonthTableView *self,
              GtkListBoxRow     *row)
{
  int line = line_of (row);

  if (opens (self, line))
    g_signal_emit (self, signals[OPENED], 0, line, g_object_get_data (G_OBJECT (row), "name"));
}

int
cro_month_table_view_get_line (CroMonthTableView  *self,
                               GtkWidget         **row)
{
  *row = gtk_widget_get_focus_child (self->list);
  return *row != NULL ? line_of (GTK_LIST_BOX_ROW (*row)) : -1;
}

const char *
cro_month_table_view_get_name (CroMonthTableView *self)
{
  GtkWidget *row;

  cro_month_table_view_get_line (self, &row);
  return row != NULL ? g_object_get_data (G_OBJECT (row), "name") : NULL;
}

static GtkWidget *
find_line (CroMonthTableView *self,
           int                line)
{
  for (guint i = 0; i < self->n; i++)
    if (gtk_widget_get_visible (GTK_WIDGET (row_at (self, i))) && line_of (row_at (self, i)) == line)
      return GTK_WIDGET (row_at (self, i));
  return NULL;
}

void
cro_month_table_view_begin_at (CroMonthTableView *self,
                               int                line)
{
  cro_focus_begin_at (self->list, find_line (self, line));
}

/* By Tab too it comes to where it begins. */
static gboolean
cro_month_table_view_focus_by (GtkWidget        *widget,
                               GtkDirectionType  direction)
{
  CroMonthTableView *self = CRO_MONTH_TABLE_VIEW (widget);
  gboolean comes = direction == GTK_DIR_TAB_FORWARD && gtk_widget_get_focus_child (widget) == NULL;

  return (comes && gtk_widget_get_mapped (self->list) && cro_focus_first (self->list))
         || cro_focus_within (widget, direction);
}

/* --- The widget ----------------------------------------------------------------------------- */

static void
cro_month_table_view_dispose (GObject *object)
{
  CroMonthTableView *self = CRO_MONTH_TABLE_VIEW (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_object (&self->columns);
  G_OBJECT_CLASS (cro_month_table_view_parent_class)->dispose (object);
}

static void
cro_month_table_view_class_init (CroMonthTableViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_month_table_view_dispose;
  widget_class->focus = cro_month_table_view_focus_by;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  signals[OPENED] = g_signal_new ("opened", CRO_TYPE_MONTH_TABLE_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 2, G_TYPE_INT, G_TYPE_STRING);
}

static void
cro_month_table_view_init (CroMonthTableView *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  self->table = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  self->list = gtk_list_box_new ();
  gtk_list_box_set_selection_mode (GTK_LIST_BOX (self->list), GTK_SELECTION_NONE);
  gtk_widget_add_css_class (self->list, "movers");
  gtk_widget_add_css_class (self->list, "month-rows");
  g_signal_connect_object (self->list, "row-activated", G_CALLBACK (activated_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (self->table), self->list);
  self->notes = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  self->left_out = cro_text_new ("", "caption");
  gtk_widget_add_css_class (self->left_out, "dim-label");
  gtk_widget_set_visible (self->left_out, FALSE);
  gtk_box_append (GTK_BOX (self->box), self->table);
  gtk_box_append (GTK_BOX (self->box), self->left_out);
  gtk_box_append (GTK_BOX (self->box), self->notes);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
cro_month_table_view_new (const char    *name,
                          CroMonthOpens  does_open)
{
  CroMonthTableView *self = g_object_new (CRO_TYPE_MONTH_TABLE_VIEW, NULL);

  self->opens = does_open;
  cro_spoken_set (self->list, name);
  return GTK_WIDGET (self);
}
