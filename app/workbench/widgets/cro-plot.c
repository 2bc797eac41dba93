#include "config.h"

#include "cro-plot.h"

#include <math.h>

#include "cro-ink.h"
#include "cro-number.h"
#include "cro-spoken.h"

struct _CroPlot
{
  GtkWidget    parent_instance;

  CroPlotShape shape;
  GArray      *values;    /* CroPlotValue */
  CroDate      last;
  double       level;
  char        *low;
  char        *high;
  char        *from;      /* what stands at the first and the last; NULL: their days */
  char        *to;
};

G_DEFINE_FINAL_TYPE (CroPlot, cro_plot, GTK_TYPE_WIDGET)

/* In lines of text, so that the picture grows with it. */
#define WIDTH 22
#define HEIGHT 6

/* Where values and days come to stand, in pixels. */
typedef struct
{
  double  left, right, top, bottom;
  double  low, high;
  CroDate first, last;
} Frame;

void
cro_plot_get_range (CroPlot *self,
                    double  *low,
                    double  *high)
{
  *low = *high = self->level;
  for (guint i = 0; i < self->values->len; i++)
    {
      double value = g_array_index (self->values, CroPlotValue, i).value;

      *low = fmin (*low, value);
      *high = fmax (*high, value);
    }
}

static CroDate
first_day (CroPlot *self)
{
  CroDate first = self->last;

  /* The last is no earlier than any. */
  for (guint i = 0; i < self->values->len; i++)
    first = MIN (first, g_array_index (self->values, CroPlotValue, i).day);
  return first;
}

static double
x_of (const Frame *frame,
      CroDate      day)
{
  double part = frame->last > frame->first
                    ? (double) (day - frame->first) / (double) (frame->last - frame->first)
                    : 0.5;

  return frame->left + CLAMP (part, 0, 1) * (frame->right - frame->left);
}

static double
y_of (const Frame *frame,
      double       value)
{
  double part = frame->high > frame->low ? (value - frame->low) / (frame->high - frame->low) : 0.5;

  return frame->bottom - part * (frame->bottom - frame->top);
}

/* --- Drawing ---------------------------------------------------------------------------------- */

/* Lines are level or upright, so rectangles draw them. */
typedef struct
{
  GtkSnapshot *snapshot;
  GdkRGBA      color;
  Frame        frame;
} Pen;

static void
draw_box (const Pen *pen,
          double     x,
          double     y,
          double     width,
          double     height)
{
  gtk_snapshot_append_color (pen->snapshot, &pen->color,
                             &GRAPHENE_RECT_INIT ((float) x, (float) y, (float) width,
                                                  (float) height));
}

/* A level line from left to right; on and off: lengths of a dash and of what stands between two,
 * 0 for a whole line. */
static void
draw_level_line (const Pen *pen,
                 double     left,
                 double     right,
                 double     y,
                 double     thick,
                 double     on,
                 double     off)
{
  double step = on > 0 ? on + off : right - left;

  for (double x = left; x < right; x += step)
    draw_box (pen, x, y - thick / 2, on > 0 ? MIN (on, right - x) : right - left, thick);
}

static void
draw_text (CroPlot    *self,
           const Pen  *pen,
           const char *text,
           double      x,
           double      y,
           double      x_align)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), text);
  int width;

  pango_layout_get_pixel_size (layout, &width, NULL);
  gtk_snapshot_save (pen->snapshot);
  gtk_snapshot_translate (pen->snapshot,
                          &GRAPHENE_POINT_INIT ((float) (x - x_align * width), (float) y));
  gtk_snapshot_append_layout (pen->snapshot, layout, &pen->color);
  gtk_snapshot_restore (pen->snapshot);
}

static void
draw_ends (CroPlot   *self,
           const Pen *pen,
           double     line)
{
  const Frame *frame = &pen->frame;
  g_autofree char *first = self->from != NULL ? g_strdup (self->from) : cro_date_to_text (frame->first);
  g_autofree char *last = self->to != NULL ? g_strdup (self->to) : cro_date_to_text (frame->last);

  draw_text (self, pen, self->high, frame->left - 9, y_of (frame, frame->high) - line / 2, 1);
  if (frame->high > frame->low)
    draw_text (self, pen, self->low, frame->left - 9, y_of (frame, frame->low) - line / 2, 1);
  if (frame->last > frame->first)
    draw_text (self, pen, first, frame->left, frame->bottom + 6, 0);
  draw_text (self, pen, last, frame->right, frame->bottom + 6, 1);
}

/* How long a step is where all is of the last day, in pixels. */
#define MARK 12

static void
draw_steps (CroPlot   *self,
            const Pen *pen)
{
  gboolean is_of_one_day = !(pen->frame.last > pen->frame.first);

  for (guint i = 0; i < self->values->len; i++)
    {
      const CroPlotValue *value = &g_array_index (self->values, CroPlotValue, i);
      gboolean has_next = i + 1 < self->values->len && value[1].series == value->series;
      double thick = value->series == 0 ? 2 : 1, dash = value->series == 0 ? 0 : 4;
      double y = y_of (&pen->frame, value->value);
      double to = has_next ? x_of (&pen->frame, value[1].day) : pen->frame.right;
      double from = is_of_one_day ? to - MARK : x_of (&pen->frame, value->day);

      draw_level_line (pen, from, to, y, thick, dash, 3);
      if (has_next)
        {
          double next = y_of (&pen->frame, value[1].value);

          draw_box (pen, to - thick / 2, MIN (y, next) - thick / 2, thick, fabs (next - y) + thick);
        }
    }
}

static void
draw_points (CroPlot   *self,
             const Pen *pen)
{
  for (guint i = 0; i < self->values->len; i++)
    {
      const CroPlotValue *value = &g_array_index (self->values, CroPlotValue, i);
      double x = x_of (&pen->frame, value->day), y = y_of (&pen->frame, value->value);
      GskRoundedRect disc;

      gsk_rounded_rect_init_from_rect (
          &disc, &GRAPHENE_RECT_INIT ((float) x - 4, (float) y - 4, 8, 8), 4);
      gtk_snapshot_push_rounded_clip (pen->snapshot, &disc);
      draw_box (pen, x - 4, y - 4, 8, 8);
      gtk_snapshot_pop (pen->snapshot);
    }
}

static Frame
frame_of (CroPlot *self,
          double   line)
{
  const char *ends[] = { self->low, self->high };
  Frame frame = { .top = line / 2, .first = first_day (self), .last = self->last };
  int widest = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (ends); i++)
    {
      g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), ends[i]);
      int width;

      pango_layout_get_pixel_size (layout, &width, NULL);
      widest = MAX (widest, width);
    }
  frame.left = widest + 12;
  frame.right = gtk_widget_get_width (GTK_WIDGET (self)) - 6;
  frame.bottom = gtk_widget_get_height (GTK_WIDGET (self)) - 1.5 * line - 6;
  cro_plot_get_range (self, &frame.low, &frame.high);
  return frame;
}

static double
line_height (GtkWidget *widget)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (widget, "0");
  int height;

  pango_layout_get_pixel_size (layout, NULL, &height);
  return height;
}

static void
cro_plot_snapshot (GtkWidget   *widget,
                   GtkSnapshot *snapshot)
{
  CroPlot *self = CRO_PLOT (widget);
  double line = line_height (widget);
  Pen pen = { .snapshot = snapshot, .color = cro_ink_of (widget) };

  if (self->values->len == 0)
    return;
  pen.frame = frame_of (self, line);
  draw_ends (self, &pen, line);
  if (!isnan (self->level))
    draw_level_line (&pen, pen.frame.left, pen.frame.right, y_of (&pen.frame, self->level), 1, 2,
                     3);
  (self->shape == CRO_PLOT_STEPS ? draw_steps : draw_points) (self, &pen);
}

static void
cro_plot_measure (GtkWidget      *widget,
                  GtkOrientation  orientation,
                  int             for_size,
                  int            *minimum,
                  int            *natural,
                  int            *minimum_baseline,
                  int            *natural_baseline)
{
  double line = line_height (widget);

  *natural = (int) (line * (orientation == GTK_ORIENTATION_HORIZONTAL ? WIDTH : HEIGHT));
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? *natural / 2 : *natural;
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_plot_finalize (GObject *object)
{
  CroPlot *self = CRO_PLOT (object);

  g_array_unref (self->values);
  g_free (self->low);
  g_free (self->high);
  g_free (self->from);
  g_free (self->to);
  G_OBJECT_CLASS (cro_plot_parent_class)->finalize (object);
}

static void
cro_plot_class_init (CroPlotClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = cro_plot_finalize;
  widget_class->snapshot = cro_plot_snapshot;
  widget_class->measure = cro_plot_measure;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
cro_plot_init (CroPlot *self)
{
  self->values = g_array_new (FALSE, FALSE, sizeof (CroPlotValue));
  self->level = NAN;
  self->low = g_strdup ("");
  self->high = g_strdup ("");
  /* Who does not see it comes to it with the keys, and hears what it shows. */
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_add_css_class (GTK_WIDGET (self), "part");
  gtk_widget_add_css_class (GTK_WIDGET (self), "caption");
  gtk_widget_add_css_class (GTK_WIDGET (self), "numeric");
}

GtkWidget *
cro_plot_new (CroPlotShape shape)
{
  CroPlot *self = g_object_new (CRO_TYPE_PLOT, NULL);

  self->shape = shape;
  return GTK_WIDGET (self);
}

void
cro_plot_set (CroPlot            *self,
              const CroPlotValue *values,
              guint               n,
              CroDate             last,
              double              level)
{
  g_array_set_size (self->values, 0);
  if (n > 0)
    g_array_append_vals (self->values, values, n);
  self->last = last;
  for (guint i = 0; i < n; i++)
    self->last = MAX (self->last, values[i].day);
  self->level = level;
  gtk_widget_set_visible (GTK_WIDGET (self), n > 0);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
cro_plot_tell (CroPlot    *self,
               const char *low,
               const char *high,
               const char *says)
{
  g_free (self->low);
  g_free (self->high);
  self->low = g_strdup (low);
  self->high = g_strdup (high);
  cro_spoken_set (GTK_WIDGET (self), says);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
cro_plot_tell_ends (CroPlot    *self,
                    const char *first,
                    const char *last)
{
  g_free (self->from);
  g_free (self->to);
  self->from = g_strdup (first);
  self->to = g_strdup (last);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
