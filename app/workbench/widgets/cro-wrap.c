#include "cro-wrap.h"

#include "cro-box.h"
#include "cro-measure.h"

/* A template sets them before there are children. */
#define FLAGS (G_PARAM_READWRITE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS)

struct _CroWrap
{
  GtkWidget parent_instance;

  int       column_spacing;
  int       row_spacing;
};

G_DEFINE_FINAL_TYPE (CroWrap, cro_wrap, GTK_TYPE_WIDGET)

enum
{
  COLUMN_SPACING = 1,
  ROW_SPACING,
};

/* One row of the break-up: its children are first .. end, which is not part of it. */
typedef struct
{
  GtkWidget *first;
  GtkWidget *end;
  int        width;       /* of its children and the space between them */
  int        height;
  int        n_expanding;
} Row;

static int
width_of (GtkWidget *child,
          int        available)
{
  int minimum, natural;

  gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &minimum, &natural, NULL, NULL);
  return MAX (minimum, MIN (natural, available));
}

static int
height_of (GtkWidget *child,
           int        width)
{
  int natural;

  gtk_widget_measure (child, GTK_ORIENTATION_VERTICAL, width, NULL, &natural, NULL, NULL);
  return natural;
}

/* The row that begins with first; the height of an expanding child is that of its natural width,
 * which can only fall as it grows. */
static Row
take_row (CroWrap   *self,
          GtkWidget *first,
          int        available)
{
  Row row = { .first = first };
  GtkWidget *child = first;

  while (child != NULL)
    {
      int width = width_of (child, available);
      int with = row.width + (child != first ? self->column_spacing : 0) + width;

      if (child != first && with > available)
        break;
      row.width = with;
      row.height = MAX (row.height, height_of (child, width));
      row.n_expanding += gtk_widget_compute_expand (child, GTK_ORIENTATION_HORIZONTAL);
      child = cro_measure_shown (gtk_widget_get_next_sibling (child));
    }
  row.end = child;
  return row;
}

static GtkSizeRequestMode
cro_wrap_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static int
height_for (CroWrap *self,
            int      width)
{
  GtkWidget *child = cro_measure_shown (gtk_widget_get_first_child (GTK_WIDGET (self)));
  int height = 0;

  while (child != NULL)
    {
      Row row = take_row (self, child, width);

      height += row.height + (height > 0 ? self->row_spacing : 0);
      child = row.end;
    }
  return height;
}

static void
cro_wrap_measure (GtkWidget      *widget,
                  GtkOrientation  orientation,
                  int             for_size,
                  int            *minimum,
                  int            *natural,
                  int            *minimum_baseline,
                  int            *natural_baseline)
{
  CroWrap *self = CRO_WRAP (widget);

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    cro_measure_row (widget, self->column_spacing, minimum, natural);
  else
    *minimum = *natural = height_for (self, for_size < 0 ? G_MAXINT / 2 : for_size);
}

static void
allocate_row (CroWrap   *self,
              const Row *row,
              int        width,
              int        y)
{
  int extra = row->n_expanding > 0 ? MAX (width - row->width, 0) / row->n_expanding : 0;
  gboolean is_mirrored = gtk_widget_get_direction (GTK_WIDGET (self)) == GTK_TEXT_DIR_RTL;
  int x = 0;

  for (GtkWidget *child = row->first; child != row->end;
       child = cro_measure_shown (gtk_widget_get_next_sibling (child)))
    {
      int own = width_of (child, width);
      GtkAllocation place;

      if (gtk_widget_compute_expand (child, GTK_ORIENTATION_HORIZONTAL))
        own += extra;
      place = (GtkAllocation){ is_mirrored ? width - x - own : x, y, own, row->height };
      gtk_widget_size_allocate (child, &place, -1);
      x += own + self->column_spacing;
    }
}

static void
cro_wrap_size_allocate (GtkWidget *widget,
                        int        width,
                        int        height,
                        int        baseline)
{
  CroWrap *self = CRO_WRAP (widget);
  GtkWidget *child = cro_measure_shown (gtk_widget_get_first_child (widget));
  int y = 0;

  while (child != NULL)
    {
      Row row = take_row (self, child, width);

      allocate_row (self, &row, width, y);
      y += row.height + self->row_spacing;
      child = row.end;
    }
}

/* What expands in a row is its own business. */
static void
cro_wrap_compute_expand (GtkWidget *widget,
                         gboolean  *horizontal,
                         gboolean  *vertical)
{
  *horizontal = *vertical = FALSE;
}

static void
cro_wrap_dispose (GObject *object)
{
  cro_wrap_clear (CRO_WRAP (object));
  G_OBJECT_CLASS (cro_wrap_parent_class)->dispose (object);
}

static int *
spacing_of (GObject *object,
            guint    id)
{
  CroWrap *self = CRO_WRAP (object);

  return id == COLUMN_SPACING ? &self->column_spacing : &self->row_spacing;
}

static void
cro_wrap_get_property (GObject    *object,
                       guint       id,
                       GValue     *value,
                       GParamSpec *pspec)
{
  g_value_set_int (value, *spacing_of (object, id));
}

static void
cro_wrap_set_property (GObject      *object,
                       guint         id,
                       const GValue *value,
                       GParamSpec   *pspec)
{
  *spacing_of (object, id) = g_value_get_int (value);
}

static void
cro_wrap_class_init (CroWrapClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_wrap_dispose;
  G_OBJECT_CLASS (klass)->get_property = cro_wrap_get_property;
  G_OBJECT_CLASS (klass)->set_property = cro_wrap_set_property;
  widget_class->get_request_mode = cro_wrap_get_request_mode;
  widget_class->measure = cro_wrap_measure;
  widget_class->size_allocate = cro_wrap_size_allocate;
  widget_class->compute_expand = cro_wrap_compute_expand;
  g_object_class_install_property (
      G_OBJECT_CLASS (klass), COLUMN_SPACING,
      g_param_spec_int ("column-spacing", NULL, NULL, 0, G_MAXINT, 0, FLAGS));
  g_object_class_install_property (
      G_OBJECT_CLASS (klass), ROW_SPACING,
      g_param_spec_int ("row-spacing", NULL, NULL, 0, G_MAXINT, 0, FLAGS));
}

static void
cro_wrap_init (CroWrap *self)
{
}

GtkWidget *
cro_wrap_new (int column_spacing,
              int row_spacing)
{
  return g_object_new (CRO_TYPE_WRAP, "column-spacing", column_spacing, "row-spacing", row_spacing,
                       NULL);
}

void
cro_wrap_append (CroWrap   *self,
                 GtkWidget *child)
{
  gtk_widget_set_parent (child, GTK_WIDGET (self));
}

void
cro_wrap_insert_after (CroWrap   *self,
                       GtkWidget *child,
                       GtkWidget *after)
{
  if (gtk_widget_get_parent (child) == NULL || gtk_widget_get_prev_sibling (child) != after)
    gtk_widget_insert_after (child, GTK_WIDGET (self), after);
}

void
cro_wrap_clear (CroWrap *self)
{
  cro_box_let_go (GTK_WIDGET (self));
}
