#include "config.h"

#include "cro-row-grid.h"

#include "cro-choice.h"
#include "cro-field.h"

struct _CroRowGrid
{
  GtkWidget  parent_instance;

  GtkWidget *scroller;
  GtkWidget *grid;
  CroBench  *bench;         /* borrowed, as all below */
  const char *table;
  GtkWidget *refuge;

  char      *key;
  GArray    *ids;           /* gint64: of the rows */
  int        next_column;   /* of the row that is being made */

  gboolean   had_focus;     /* when the rows were taken away, and where */
  gint64     focus_id;
  int        focus_row;
  int        focus_column;
};

G_DEFINE_FINAL_TYPE (CroRowGrid, cro_row_grid, GTK_TYPE_WIDGET)

enum
{
  REMOVE,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

/* --- The focus -------------------------------------------------------------------------------- */

static void
remember_focus (CroRowGrid *self)
{
  GtkWidget *child = gtk_widget_get_focus_child (self->grid);

  self->had_focus = child != NULL;
  if (child == NULL)
    return;
  gtk_grid_query_child (GTK_GRID (self->grid), child, &self->focus_column, &self->focus_row, NULL,
                        NULL);
  self->focus_id = g_array_index (self->ids, gint64, self->focus_row - 1);
  gtk_widget_grab_focus (self->refuge);
}

/* To its row, or to the one that stands in its place now. */
static void
give_focus_back (CroRowGrid *self)
{
  int row = MIN (self->focus_row, (int) self->ids->len);
  GtkWidget *cell;

  if (!self->had_focus
      || (gtk_widget_get_state_flags (self->refuge) & GTK_STATE_FLAG_FOCUS_WITHIN) == 0)
    return;
  self->had_focus = FALSE;
  for (guint i = 0; i < self->ids->len; i++)
    if (g_array_index (self->ids, gint64, i) == self->focus_id)
      row = (int) i + 1;
  cell = gtk_grid_get_child_at (GTK_GRID (self->grid), self->focus_column, row);
  if (row > 0 && cell != NULL)
    gtk_widget_grab_focus (cell);
}

/* --- Rows ------------------------------------------------------------------------------------- */

gboolean
cro_row_grid_shows (CroRowGrid *self,
                    const char *key)
{
  return g_strcmp0 (self->key, key) == 0;
}

void
cro_row_grid_begin (CroRowGrid *self,
                    const char *key)
{
  remember_focus (self);
  for (GtkWidget *child; (child = gtk_widget_get_first_child (self->grid)) != NULL;)
    gtk_grid_remove (GTK_GRID (self->grid), child);
  g_array_set_size (self->ids, 0);
  g_free (self->key);
  self->key = g_strdup (key);
  self->next_column = 0;
}

void
cro_row_grid_add (CroRowGrid *self,
                  GtkWidget  *control)
{
  gtk_grid_attach (GTK_GRID (self->grid), control, self->next_column++, (int) self->ids->len, 1, 1);
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
  if (text != NULL)
    gtk_label_set_width_chars (GTK_LABEL (label), MIN ((int) g_utf8_strlen (text, -1), 12));
  gtk_label_set_max_width_chars (GTK_LABEL (label), 28);
  return label;
}

void
cro_row_grid_add_head (CroRowGrid *self,
                       const char *text,
                       gboolean    is_number)
{
  GtkWidget *label = label_new (text, is_number);

  gtk_widget_add_css_class (label, "caption");
  gtk_widget_add_css_class (label, "dim-label");
  cro_row_grid_add (self, label);
}

void
cro_row_grid_add_row (CroRowGrid *self,
                      gint64      id)
{
  g_array_append_val (self->ids, id);
  self->next_column = 0;
}

GtkWidget *
cro_row_grid_add_input (CroRowGrid   *self,
                        CroInputKind  kind,
                        CroRange      range,
                        int           width,
                        const char   *column,
                        const char   *act,
                        const char   *name)
{
  GtkWidget *input = cro_input_new (kind, range, name);

  cro_input_set_width (CRO_INPUT (input), width);
  cro_input_bind (CRO_INPUT (input), cro_bench_get_book (self->bench), self->table,
                  g_array_index (self->ids, gint64, self->ids->len - 1), column, act, NULL);
  cro_row_grid_add (self, input);
  return input;
}

void
cro_row_grid_add_label (CroRowGrid *self,
                        const char *text,
                        gboolean    is_number)
{
  cro_row_grid_add (self, label_new (text, is_number));
}

static void
remove_cb (CroRowGrid *self,
           GtkWidget  *button)
{
  int row;

  gtk_grid_query_child (GTK_GRID (self->grid), button, NULL, &row, NULL, NULL);
  gtk_widget_grab_focus (button);
  g_signal_emit (self, signals[REMOVE], 0, g_array_index (self->ids, gint64, row - 1));
}

void
cro_row_grid_add_removal (CroRowGrid *self,
                          const char *name)
{
  GtkWidget *button = cro_icon_button_new ("edit-delete-symbolic", name);

  g_signal_connect_swapped (button, "clicked", G_CALLBACK (remove_cb), self);
  cro_row_grid_add (self, button);
}

void
cro_row_grid_end (CroRowGrid *self)
{
  gtk_widget_set_visible (GTK_WIDGET (self), self->ids->len > 0);
  give_focus_back (self);
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
  return gtk_grid_get_child_at (GTK_GRID (self->grid), (int) column, (int) row + 1);
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
  g_clear_pointer (&self->ids, g_array_unref);
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
  self->ids = g_array_new (FALSE, FALSE, sizeof (gint64));
  self->grid = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (self->grid), 9);
  gtk_grid_set_row_spacing (GTK_GRID (self->grid), 3);
  gtk_widget_set_halign (self->grid, GTK_ALIGN_START);
  self->scroller = cro_wide_new (self->grid);
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
