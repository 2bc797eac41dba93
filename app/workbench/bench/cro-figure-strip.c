#include "config.h"

#include "cro-figure-strip.h"

#include "cro-box.h"
#include "cro-causes-view.h"
#include "cro-measure.h"

#define COLUMN_SPACING 12
#define ROW_SPACING 6

struct _CroFigureStrip
{
  GtkWidget parent_instance;
};

G_DEFINE_FINAL_TYPE (CroFigureStrip, cro_figure_strip, GTK_TYPE_WIDGET)

/* --- Rows -------------------------------------------------------------------------------------- */

/* The children first .. end, which is not part of it. */
typedef struct
{
  GtkWidget *first;
  GtkWidget *end;
  guint      n;
  int        least;   /* of all, and the space between them */
} Row;

static Row
take_row (GtkWidget *first,
          int        width)
{
  Row row = { .first = first };
  GtkWidget *child = first;

  for (; child != NULL; child = cro_measure_shown (gtk_widget_get_next_sibling (child)))
    {
      int with = row.least + (row.n > 0 ? COLUMN_SPACING : 0) + cro_measure_least (child);

      if (row.n > 0 && with > width)
        break;
      row.least = with;
      row.n++;
    }
  row.end = child;
  return row;
}

/* Widths of a row's children between the least and what they want; what is left over is the last
 * one's, where what is missing of the figures has its room. */
static void
share_out (const Row        *row,
           int               width,
           GtkRequestedSize *sizes)
{
  GtkWidget *child = row->first;
  int extra = MAX (width - row->least, 0);

  for (guint i = 0; i < row->n; i++)
    {
      gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &sizes[i].minimum_size,
                          &sizes[i].natural_size, NULL, NULL);
      sizes[i].data = child;
      child = cro_measure_shown (gtk_widget_get_next_sibling (child));
    }
  extra = gtk_distribute_natural_allocation (extra, row->n, sizes);
  if (row->end == NULL)
    sizes[row->n - 1].minimum_size += extra;
}

static int
height_of (const Row        *row,
           GtkRequestedSize *sizes)
{
  int height = 0;

  for (guint i = 0; i < row->n; i++)
    height = MAX (height, cro_measure_height (sizes[i].data, sizes[i].minimum_size));
  return height;
}

static void
place_row (GtkWidget        *strip,
           const Row        *row,
           GtkRequestedSize *sizes,
           GtkAllocation     at)
{
  gboolean is_mirrored = gtk_widget_get_direction (strip) == GTK_TEXT_DIR_RTL;
  int x = 0;

  for (guint i = 0; i < row->n; i++)
    {
      GtkAllocation place = { is_mirrored ? at.width - x - sizes[i].minimum_size : x, at.y,
                              sizes[i].minimum_size, at.height };

      gtk_widget_size_allocate (sizes[i].data, &place, -1);
      x += sizes[i].minimum_size + COLUMN_SPACING;
    }
}

/* Returns the height of all rows; puts their children where they belong if is_placed. */
static int
lay_out (GtkWidget *strip,
         int        width,
         gboolean   is_placed)
{
  GtkWidget *child = cro_measure_shown (gtk_widget_get_first_child (strip));
  int y = 0;

  while (child != NULL)
    {
      Row row = take_row (child, width);
      g_autofree GtkRequestedSize *sizes = g_new0 (GtkRequestedSize, row.n);
      int height;

      share_out (&row, width, sizes);
      height = height_of (&row, sizes);
      y += y > 0 ? ROW_SPACING : 0;
      if (is_placed)
        place_row (strip, &row, sizes, (GtkAllocation){ 0, y, width, height });
      y += height;
      child = row.end;
    }
  return y;
}

/* --- The widget -------------------------------------------------------------------------------- */

static GtkSizeRequestMode
cro_figure_strip_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
cro_figure_strip_measure (GtkWidget      *widget,
                          GtkOrientation  orientation,
                          int             for_size,
                          int            *minimum,
                          int            *natural,
                          int            *minimum_baseline,
                          int            *natural_baseline)
{
  if (orientation == GTK_ORIENTATION_VERTICAL)
    *minimum = *natural = lay_out (widget, for_size < 0 ? G_MAXINT / 4 : for_size, FALSE);
  else
    cro_measure_row (widget, COLUMN_SPACING, minimum, natural);
}

static void
cro_figure_strip_size_allocate (GtkWidget *widget,
                                int        width,
                                int        height,
                                int        baseline)
{
  lay_out (widget, width, TRUE);
}

static void
cro_figure_strip_dispose (GObject *object)
{
  cro_box_let_go (GTK_WIDGET (object));
  G_OBJECT_CLASS (cro_figure_strip_parent_class)->dispose (object);
}

static void
cro_figure_strip_class_init (CroFigureStripClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_figure_strip_dispose;
  widget_class->get_request_mode = cro_figure_strip_get_request_mode;
  widget_class->measure = cro_figure_strip_measure;
  widget_class->size_allocate = cro_figure_strip_size_allocate;
}

static void
cro_figure_strip_init (CroFigureStrip *self)
{
  gtk_widget_add_css_class (GTK_WIDGET (self), "figures");
}

GtkWidget *
cro_figure_strip_new (CroBench            *bench,
                      const CroFigureSum  *sums,
                      guint                n,
                      GtkWidget          **figures,
                      GtkWidget          **causes)
{
  GtkWidget *strip = g_object_new (CRO_TYPE_FIGURE_STRIP, NULL);

  for (guint i = 0; i < n; i++)
    {
      figures[i] = cro_figure_view_new (bench, sums[i]);
      gtk_widget_set_parent (figures[i], strip);
    }
  *causes = cro_causes_view_new (bench);
  gtk_widget_set_halign (*causes, GTK_ALIGN_END);
  gtk_widget_set_parent (*causes, strip);
  return strip;
}
