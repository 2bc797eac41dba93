#include "config.h"

#include "cro-row-grid.h"

#include "cro-choice.h"
#include "cro-draft.h"
#include "cro-field.h"
#include "cro-focus.h"
#include "cro-input-lost.h"

typedef struct
{
  gint64     id;
  GPtrArray *cells;         /* borrowed, by column */
  char      *name;          /* as its fields are called */
  GtkWidget *above;         /* borrowed; NULL: nothing stands over it */
} Row;

struct _CroRowGrid
{
  GtkWidget  parent_instance;

  GtkWidget *scroller;
  GtkWidget *grid;
  CroBench  *bench;         /* borrowed, as all below */
  const char *table;
  GtkWidget *refuge;
  guint      line_end;      /* columns on the first line; G_MAXUINT: all */
  guint      sharing;       /* the column in the place of the one before; G_MAXUINT: none */

  char      *key;           /* of the heads */
  GPtrArray *heads;         /* borrowed */
  GPtrArray *rows;          /* Row, in order */
  GHashTable *row_of;       /* id → Row, borrowed */

  GPtrArray *before;        /* the rows that are being replaced; NULL: none are */
  Row       *row;           /* the one that is being added; NULL: a head is */
  GHashTable *texts;        /* what was typed in rows that are made anew; NULL: nothing */

  int        focus_at;      /* where the focus was before, -1: nowhere; in which row and column */
  gint64     focus_id;
  guint      focus_column;
};

G_DEFINE_FINAL_TYPE (CroRowGrid, cro_row_grid, GTK_TYPE_WIDGET)

enum
{
  REMOVE,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

/* --- Rows ------------------------------------------------------------------------------------- */

static void
row_free (gpointer data)
{
  Row *row = data;

  g_ptr_array_unref (row->cells);
  g_free (row->name);
  g_free (row);
}

static Row *
row_at (CroRowGrid *self,
        guint       at)
{
  return self->rows->pdata[at];
}

/* --- Focus ------------------------------------------------------------------------------------ */

static void
remember_focus (CroRowGrid *self)
{
  GtkWidget *child = gtk_widget_get_focus_child (self->grid);

  self->focus_at = -1;
  for (guint i = 0; child != NULL && i < self->rows->len; i++)
    if (g_ptr_array_find (row_at (self, i)->cells, child, &self->focus_column))
      {
        self->focus_at = (int) i;
        self->focus_id = row_at (self, i)->id;
      }
}

static gboolean
has_focus (GPtrArray *rows,
           GtkWidget *child)
{
  for (guint i = 0; i < rows->len; i++)
    if (g_ptr_array_find (((Row *) rows->pdata[i])->cells, child, NULL))
      return TRUE;
  return FALSE;
}

/* Of a row that goes: to the one that is made anew for it; a button to that of the row that takes its place, and
 * a field to the refuge: what is typed on is never a value of another row. */
static void
hand_on_focus (CroRowGrid *self,
               GPtrArray  *gone)
{
  GtkWidget *child = gtk_widget_get_focus_child (self->grid);
  Row *row = g_hash_table_lookup (self->row_of, &self->focus_id);
  gboolean is_there;
  guint at;

  if (self->focus_at < 0 || child == NULL || !has_focus (gone, child))
    return;
  is_there = row != NULL && g_ptr_array_find (self->rows, row, &at);
  if (!is_there)
    at = MIN ((guint) self->focus_at, MAX (self->rows->len, 1) - 1);
  if ((!is_there && !GTK_IS_BUTTON (child)) || at >= self->rows->len
      || self->focus_column >= row_at (self, at)->cells->len
      || !cro_focus_grab (row_at (self, at)->cells->pdata[self->focus_column]))
    gtk_widget_grab_focus (self->refuge);
}

/* --- Lines ------------------------------------------------------------------------------------ */

/* Under a second line, in pixels. */
#define BETWEEN_ROWS 9

static gboolean
is_below (CroRowGrid *self,
          guint       column)
{
  return column >= self->line_end;
}

/* The line of the grid where a column stands of the row at a place; heads are at 0. */
static int
line_of (CroRowGrid *self,
         guint       at,
         guint       column)
{
  return (int) (3 * at + 1 + is_below (self, column));
}

static int
line_above (guint at)
{
  return (int) (3 * at);
}

void
cro_row_grid_break_at (CroRowGrid *self,
                       guint       column)
{
  self->line_end = column;
}

void
cro_row_grid_share_place (CroRowGrid *self,
                          guint       column)
{
  self->sharing = column;
}

/* In the grid, whose columns without a cell have no width. */
static int
place_of (CroRowGrid *self,
          guint       column)
{
  guint in_line = is_below (self, column) ? column - self->line_end : column;

  return (int) in_line - (column == self->sharing);
}

/* --- Order ------------------------------------------------------------------------------------ */

/* The order of children is that in which they are read out; none is taken out of the grid. */
static void
place (CroRowGrid  *self,
       GtkWidget   *child,
       int          at,
       GtkWidget  **last)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (self->grid);
  GtkGridLayoutChild *of = GTK_GRID_LAYOUT_CHILD (gtk_layout_manager_get_layout_child (layout,
                                                                                       child));

  if (gtk_grid_layout_child_get_row (of) != at)
    gtk_grid_layout_child_set_row (of, at);
  if (gtk_widget_get_prev_sibling (child) != *last)
    gtk_widget_insert_after (child, self->grid, *last);
  *last = child;
}

static void
place_all (CroRowGrid *self)
{
  GtkWidget *last = NULL;

  for (guint i = 0; i < self->heads->len; i++)
    place (self, self->heads->pdata[i], line_of (self, 0, i), &last);
  for (guint i = 0; i < self->rows->len; i++)
    {
      if (row_at (self, i)->above != NULL)
        place (self, row_at (self, i)->above, line_above (i + 1), &last);
      for (guint column = 0; column < row_at (self, i)->cells->len; column++)
        place (self, row_at (self, i)->cells->pdata[column], line_of (self, i + 1, column), &last);
    }
}

static void
remove_cells (CroRowGrid *self,
              GPtrArray  *cells)
{
  for (guint i = 0; i < cells->len; i++)
    gtk_grid_remove (GTK_GRID (self->grid), cells->pdata[i]);
}

/* --- Reconciling ------------------------------------------------------------------------------ */

void
cro_row_grid_begin (CroRowGrid *self)
{
  remember_focus (self);
  self->before = g_steal_pointer (&self->rows);
  self->rows = g_ptr_array_new_with_free_func (row_free);
}

gboolean
cro_row_grid_begin_heads (CroRowGrid *self,
                          const char *key)
{
  if (g_strcmp0 (self->key, key) == 0)
    return FALSE;
  g_free (self->key);
  self->key = g_strdup (key);
  self->row = NULL;
  /* Under these heads no row stays as it is. */
  if (self->before->len > 0)
    self->texts = cro_draft_list (self->grid);
  g_hash_table_remove_all (self->row_of);
  remove_cells (self, self->heads);
  g_ptr_array_set_size (self->heads, 0);
  return TRUE;
}

gboolean
cro_row_grid_add_row (CroRowGrid *self,
                      gint64      id)
{
  guint at;

  self->row = g_hash_table_lookup (self->row_of, &id);
  if (self->row != NULL && g_ptr_array_find (self->before, self->row, &at))
    {
      g_ptr_array_add (self->rows, g_ptr_array_steal_index (self->before, at));
      return FALSE;
    }
  self->row = g_new0 (Row, 1);
  self->row->id = id;
  self->row->cells = g_ptr_array_new ();
  g_ptr_array_add (self->rows, self->row);
  g_hash_table_insert (self->row_of, &self->row->id, self->row);
  return TRUE;
}

gboolean
cro_row_grid_rename_row (CroRowGrid *self,
                         const char *name)
{
  if (g_strcmp0 (self->row->name, name) == 0)
    return FALSE;
  g_free (self->row->name);
  self->row->name = g_strdup (name);
  return TRUE;
}

void
cro_row_grid_add (CroRowGrid *self,
                  GtkWidget  *control)
{
  GPtrArray *cells = self->row != NULL ? self->row->cells : self->heads;
  guint column = cells->len;

  gtk_grid_attach (GTK_GRID (self->grid), control, place_of (self, column),
                   line_of (self, self->row != NULL ? self->rows->len : 0, column), 1, 1);
  if (is_below (self, column) && self->row != NULL)
    gtk_widget_set_margin_bottom (control, BETWEEN_ROWS);
  g_ptr_array_add (cells, control);
}

static GtkWidget *
label_new (const char *text,
           gboolean    is_number)
{
  GtkWidget *label = is_number ? cro_number_label_new () : gtk_label_new (NULL);

  gtk_label_set_label (GTK_LABEL (label), text);
  gtk_label_set_xalign (GTK_LABEL (label), is_number ? 1 : 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), is_number ? PANGO_ELLIPSIZE_NONE
                                                        : PANGO_ELLIPSIZE_END);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 28);
  return label;
}

void
cro_row_grid_add_head (CroRowGrid *self,
                       const char *text,
                       gboolean    is_number)
{
  GtkWidget *label = label_new (text, is_number);

  /* It breaks before a column is out of sight. */
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_NONE);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_justify (GTK_LABEL (label), is_number ? GTK_JUSTIFY_RIGHT : GTK_JUSTIFY_LEFT);
  gtk_widget_set_valign (label, GTK_ALIGN_END);
  gtk_widget_add_css_class (label, "caption");
  gtk_widget_add_css_class (label, "dim-label");
  cro_row_grid_add (self, label);
}

GtkWidget *
cro_row_grid_get_head (CroRowGrid *self,
                       guint       column)
{
  return self->heads->pdata[column];
}

void
cro_row_grid_keep_head (CroRowGrid *self)
{
  GtkLabel *head = self->heads->pdata[self->heads->len - 1];
  g_autofree char *text = g_strdup (gtk_label_get_text (head));
  int middle = (int) strlen (text) / 2;
  char *nearest = NULL;

  for (char *blank = strchr (text, ' '); blank != NULL; blank = strchr (blank + 1, ' '))
    if (nearest == NULL || ABS (blank - text - middle) < ABS (nearest - text - middle))
      nearest = blank;
  if (nearest != NULL)
    *nearest = '\n';
  gtk_label_set_text (head, text);
}

GtkWidget *
cro_row_grid_add_input (CroRowGrid   *self,
                        CroInputKind  kind,
                        CroRange      range,
                        int           width,
                        const char   *column)
{
  GtkWidget *input = cro_input_new (kind, range, "");

  cro_input_set_width (CRO_INPUT (input), width);
  cro_input_bind (CRO_INPUT (input), cro_bench_get_book (self->bench), self->table, self->row->id,
                  column, "", NULL);
  cro_row_grid_add (self, input);
  return input;
}

void
cro_row_grid_add_label (CroRowGrid *self,
                        gboolean    is_number)
{
  cro_row_grid_add (self, label_new (NULL, is_number));
}

void
cro_row_grid_add_figure (CroRowGrid *self,
                         int         chars)
{
  GtkWidget *label = label_new (NULL, TRUE);

  gtk_label_set_width_chars (GTK_LABEL (label), chars);
  cro_row_grid_add (self, label);
}

static void
remove_cb (CroRowGrid *self,
           GtkWidget  *button)
{
  for (guint i = 0; i < self->rows->len; i++)
    if (g_ptr_array_find (row_at (self, i)->cells, button, NULL))
      {
        gtk_widget_grab_focus (button);
        g_signal_emit (self, signals[REMOVE], 0, row_at (self, i)->id);
        return;
      }
}

void
cro_row_grid_add_removal (CroRowGrid *self)
{
  GtkWidget *button = cro_icon_button_new ("edit-delete-symbolic", "");

  g_signal_connect_object (button, "clicked", G_CALLBACK (remove_cb), self, G_CONNECT_SWAPPED);
  cro_row_grid_add (self, button);
}

void
cro_row_grid_name (CroRowGrid *self,
                   guint       column,
                   const char *act,
                   const char *name)
{
  GtkWidget *control = self->row->cells->pdata[column];

  if (CRO_IS_INPUT (control))
    {
      cro_input_set_act (CRO_INPUT (control), act);
      cro_input_set_name (CRO_INPUT (control), name);
    }
  else if (CRO_IS_CHOICE (control))
    {
      cro_choice_set_act (CRO_CHOICE (control), act);
      cro_choice_set_name (CRO_CHOICE (control), name);
    }
  else
    cro_icon_button_set_name (control, name);
}

/* Rows that are gone leave once those that stay are in their places and one of them has the
 * focus. */
static void
let_go (CroRowGrid *self,
        GPtrArray  *before)
{
  for (guint i = 0; i < before->len; i++)
    {
      Row *row = before->pdata[i];

      if (g_hash_table_lookup (self->row_of, &row->id) == row)
        g_hash_table_remove (self->row_of, &row->id);
      for (guint k = 0; k < row->cells->len; k++)
        cro_input_lost_let_go (row->cells->pdata[k]);
      remove_cells (self, row->cells);
      if (row->above != NULL)
        gtk_grid_remove (GTK_GRID (self->grid), row->above);
    }
}

void
cro_row_grid_end (CroRowGrid *self)
{
  g_autoptr (GPtrArray) before = g_steal_pointer (&self->before);
  g_autoptr (GHashTable) texts = g_steal_pointer (&self->texts);

  place_all (self);
  hand_on_focus (self, before);
  let_go (self, before);
  gtk_widget_set_visible (GTK_WIDGET (self), self->rows->len > 0);
  if (texts != NULL)
    cro_draft_put (self->grid, texts);
}

void
cro_row_grid_refresh (CroRowGrid *self)
{
  for (GtkWidget *child = gtk_widget_get_first_child (self->grid); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (CRO_IS_INPUT (child))
      cro_input_refresh (CRO_INPUT (child));
    else if (CRO_IS_CHOICE (child))
      cro_choice_refresh (CRO_CHOICE (child));
}

GtkWidget *
cro_row_grid_get (CroRowGrid *self,
                  guint       row,
                  guint       column)
{
  return row_at (self, row)->cells->pdata[column];
}

void
cro_row_grid_show_cell (CroRowGrid *self,
                        guint       row,
                        guint       column,
                        gboolean    is_shown)
{
  gtk_widget_set_child_visible (row_at (self, row)->cells->pdata[column], is_shown);
}

void
cro_row_grid_show_head (CroRowGrid *self,
                        guint       column,
                        gboolean    is_shown)
{
  gtk_widget_set_child_visible (self->heads->pdata[column], is_shown);
}

GtkWidget *
cro_row_grid_get_above (CroRowGrid *self,
                        guint       row)
{
  return row_at (self, row)->above;
}

void
cro_row_grid_put_above (CroRowGrid *self,
                        guint       row,
                        GtkWidget  *above)
{
  Row *of = row_at (self, row);

  if (of->above != NULL)
    gtk_grid_remove (GTK_GRID (self->grid), of->above);
  of->above = above;
  if (above == NULL)
    return;
  gtk_grid_attach (GTK_GRID (self->grid), above, 0, line_above (row + 1), (int) self->heads->len, 1);
  /* It is read before its row. */
  gtk_widget_insert_before (above, self->grid, of->cells->pdata[0]);
}

int
cro_row_grid_get_focus_row (CroRowGrid *self)
{
  GtkWidget *child = gtk_widget_get_focus_child (self->grid);

  for (guint i = 0; child != NULL && i < self->rows->len; i++)
    if (child == row_at (self, i)->above || g_ptr_array_find (row_at (self, i)->cells, child, NULL))
      return (int) i;
  return -1;
}

void
cro_row_grid_set_text (CroRowGrid *self,
                       guint       row,
                       guint       column,
                       const char *text)
{
  gtk_label_set_label (GTK_LABEL (cro_row_grid_get (self, row, column)), text);
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_row_grid_dispose (GObject *object)
{
  CroRowGrid *self = CRO_ROW_GRID (object);

  g_clear_pointer (&self->scroller, gtk_widget_unparent);
  g_clear_pointer (&self->key, g_free);
  g_clear_pointer (&self->row_of, g_hash_table_unref);
  g_clear_pointer (&self->rows, g_ptr_array_unref);
  g_clear_pointer (&self->heads, g_ptr_array_unref);
  G_OBJECT_CLASS (cro_row_grid_parent_class)->dispose (object);
}

static void
cro_row_grid_class_init (CroRowGridClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_row_grid_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  signals[REMOVE] = g_signal_new ("remove", CRO_TYPE_ROW_GRID, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 1, G_TYPE_INT64);
}

static void
cro_row_grid_init (CroRowGrid *self)
{
  self->line_end = G_MAXUINT;
  self->sharing = G_MAXUINT;
  self->heads = g_ptr_array_new ();
  self->rows = g_ptr_array_new_with_free_func (row_free);
  self->row_of = g_hash_table_new (g_int64_hash, g_int64_equal);
  self->grid = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (self->grid), 8);
  gtk_grid_set_row_spacing (GTK_GRID (self->grid), CRO_ROW_GRID_SPACING);
  gtk_widget_set_halign (self->grid, GTK_ALIGN_START);
  self->scroller = cro_wide_new (self->grid);
  gtk_widget_add_css_class (GTK_WIDGET (self), "part");
  gtk_widget_set_parent (self->scroller, GTK_WIDGET (self));
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
}

GtkWidget *
cro_row_grid_new (CroBench   *bench,
                  const char *table,
                  GtkWidget  *refuge)
{
  CroRowGrid *self = g_object_new (CRO_TYPE_ROW_GRID, NULL);

  self->bench = bench;
  self->table = g_intern_string (table);
  self->refuge = refuge;
  return GTK_WIDGET (self);
}
