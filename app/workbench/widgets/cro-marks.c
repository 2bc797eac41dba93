#include "config.h"

#include "cro-marks.h"

#include "cro-spoken.h"

/* Above and below a sign. */
#define AROUND 4

#define N_CELLS 2

struct _CroMarks
{
  GtkWidget    parent_instance;

  guint        n;
  const char **signs;            /* static texts */
  guint        column;           /* the focus is or was last */
  guint        turn;             /* which of the cells has it */
  GtkWidget   *cells[N_CELLS];
  GHashTable  *layouts;          /* sign → PangoLayout, in the font at hand */
};

G_DEFINE_FINAL_TYPE (CroMarks, cro_marks, GTK_TYPE_WIDGET)

void
cro_marks_place (guint     column,
                 guint     n,
                 int       width,
                 gboolean  is_rtl,
                 int      *x,
                 int      *cell)
{
  guint at = is_rtl ? n - 1 - column : column;

  *x = (int) ((gint64) width * at / n);
  *cell = (int) ((gint64) width * (at + 1) / n) - *x;
}

static gboolean
is_rtl (GtkWidget *widget)
{
  return gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
}

guint
cro_marks_column_at (CroMarks *self,
                     double    x)
{
  int width = MAX (gtk_widget_get_width (GTK_WIDGET (self)), 1);
  guint at = (guint) CLAMP (x * self->n / width, 0, self->n - 1);

  return is_rtl (GTK_WIDGET (self)) ? self->n - 1 - at : at;
}

/* --- Drawing -------------------------------------------------------------------------------------- */

static PangoLayout *
layout_of (CroMarks   *self,
           const char *sign)
{
  PangoLayout *layout = g_hash_table_lookup (self->layouts, sign);

  if (layout == NULL)
    {
      layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), sign);
      g_hash_table_insert (self->layouts, (gpointer) sign, layout);
    }
  return layout;
}

static void
cro_marks_snapshot (GtkWidget   *widget,
                    GtkSnapshot *snapshot)
{
  CroMarks *self = CRO_MARKS (widget);
  GtkStyleContext *style = gtk_widget_get_style_context (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  GdkRGBA ink;

  gtk_style_context_get_color (style, &ink);
  for (guint i = 0; i < self->n; i++)
    {
      PangoLayout *layout = layout_of (self, self->signs[i]);
      int x, cell, sign_width, sign_height;

      cro_marks_place (i, self->n, width, is_rtl (widget), &x, &cell);
      pango_layout_get_pixel_size (layout, &sign_width, &sign_height);
      gtk_snapshot_save (snapshot);
      gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float) (x + (cell - sign_width) / 2),
                                                              (float) ((height - sign_height) / 2)));
      gtk_snapshot_append_layout (snapshot, layout, &ink);
      gtk_snapshot_restore (snapshot);
    }
  GTK_WIDGET_CLASS (cro_marks_parent_class)->snapshot (widget, snapshot);
}

static void
cro_marks_measure (GtkWidget      *widget,
                   GtkOrientation  orientation,
                   int             for_size,
                   int            *min,
                   int            *natural,
                   int            *min_baseline,
                   int            *natural_baseline)
{
  int height;

  *min = *natural = 0;
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    return;
  pango_layout_get_pixel_size (layout_of (CRO_MARKS (widget), "?"), NULL, &height);
  *min = *natural = height + 2 * AROUND;
}

static void
cro_marks_size_allocate (GtkWidget *widget,
                         int        width,
                         int        height,
                         int        baseline)
{
  CroMarks *self = CRO_MARKS (widget);
  GtkAllocation at = { 0, 0, 0, height };

  cro_marks_place (self->column, self->n, width, is_rtl (widget), &at.x, &at.width);
  for (guint i = 0; i < N_CELLS; i++)
    gtk_widget_size_allocate (self->cells[i], &at, -1);
}

/* Another font, or size of the letters. */
static void
forget_layouts (CroMarks *self)
{
  g_hash_table_remove_all (self->layouts);
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

static void
cro_marks_system_setting_changed (GtkWidget        *widget,
                                  GtkSystemSetting  setting)
{
  GTK_WIDGET_CLASS (cro_marks_parent_class)->system_setting_changed (widget, setting);
  forget_layouts (CRO_MARKS (widget));
}

/* --- The focus ------------------------------------------------------------------------------------ */

void
cro_marks_say (CroMarks   *self,
               const char *said)
{
  cro_spoken_set (self->cells[self->turn], said);
}

void
cro_marks_point (CroMarks   *self,
                 guint       column,
                 const char *said)
{
  if (!cro_marks_has_focus (self) || column != self->column)
    self->turn = (self->turn + 1) % N_CELLS;
  self->column = column;
  cro_marks_say (self, said);
  gtk_widget_queue_allocate (GTK_WIDGET (self));
  gtk_widget_grab_focus (self->cells[self->turn]);
}

gboolean
cro_marks_has_focus (CroMarks *self)
{
  return gtk_widget_get_focus_child (GTK_WIDGET (self)) != NULL
         && gtk_widget_is_focus (self->cells[self->turn]);
}

/* --- The widget ----------------------------------------------------------------------------------- */

static void
cro_marks_dispose (GObject *object)
{
  CroMarks *self = CRO_MARKS (object);

  for (guint i = 0; i < N_CELLS; i++)
    g_clear_pointer (&self->cells[i], gtk_widget_unparent);
  g_hash_table_remove_all (self->layouts);
  G_OBJECT_CLASS (cro_marks_parent_class)->dispose (object);
}

static void
cro_marks_finalize (GObject *object)
{
  CroMarks *self = CRO_MARKS (object);

  g_hash_table_unref (self->layouts);
  g_free (self->signs);
  G_OBJECT_CLASS (cro_marks_parent_class)->finalize (object);
}

static void
cro_marks_class_init (CroMarksClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_marks_dispose;
  G_OBJECT_CLASS (klass)->finalize = cro_marks_finalize;
  widget_class->snapshot = cro_marks_snapshot;
  widget_class->measure = cro_marks_measure;
  widget_class->size_allocate = cro_marks_size_allocate;
  widget_class->system_setting_changed = cro_marks_system_setting_changed;
  gtk_widget_class_set_css_name (widget_class, "marks");
}

#define CRO_TYPE_MARK_CELL (cro_mark_cell_get_type ())
G_DECLARE_FINAL_TYPE (CroMarkCell, cro_mark_cell, CRO, MARK_CELL, GtkWidget)

struct _CroMarkCell
{
  GtkWidget parent_instance;
};

G_DEFINE_FINAL_TYPE (CroMarkCell, cro_mark_cell, GTK_TYPE_WIDGET)

static void
cro_mark_cell_class_init (CroMarkCellClass *klass)
{
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "mark");
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_GRID_CELL);
}

static void
cro_mark_cell_init (CroMarkCell *self)
{
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_can_target (GTK_WIDGET (self), FALSE);
}

static void
cro_marks_init (CroMarks *self)
{
  self->layouts = g_hash_table_new_full (NULL, NULL, NULL, g_object_unref);
  for (guint i = 0; i < N_CELLS; i++)
    {
      self->cells[i] = g_object_new (CRO_TYPE_MARK_CELL, NULL);
      gtk_widget_set_parent (self->cells[i], GTK_WIDGET (self));
    }
}

GtkWidget *
cro_marks_new (guint n)
{
  CroMarks *self = g_object_new (CRO_TYPE_MARKS, NULL);

  self->n = n;
  self->signs = g_new0 (const char *, n);
  for (guint i = 0; i < n; i++)
    self->signs[i] = "";
  return GTK_WIDGET (self);
}

void
cro_marks_set (CroMarks   *self,
               guint       column,
               const char *sign)
{
  if (self->signs[column] == sign)
    return;
  self->signs[column] = sign;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
