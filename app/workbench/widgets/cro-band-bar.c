#include "cro-band-bar.h"

#include <math.h>

#include "cro-ink.h"

#define WIDTH 160
#define HEIGHT 16

/* Beyond the outermost mark, of the width between these. */
#define MARGIN 0.1

struct _CroBandBar
{
  GtkWidget parent_instance;

  double    low;
  double    now;
  double    high;
  double    most;
};

G_DEFINE_FINAL_TYPE (CroBandBar, cro_band_bar, GTK_TYPE_WIDGET)

static float
place_of (CroBandBar *self,
          double      value)
{
  double first = fmin (self->low, isnan (self->most) ? self->low : self->most);
  double last = fmax (self->high, isnan (self->most) ? self->high : self->most);
  double margin = MARGIN * (last - first);
  double part = (value - first + margin) / (last - first + 2 * margin);

  if (gtk_widget_get_direction (GTK_WIDGET (self)) == GTK_TEXT_DIR_RTL)
    part = 1 - part;
  return roundf ((float) (part * gtk_widget_get_width (GTK_WIDGET (self))));
}

static void
draw_mark (CroBandBar    *self,
           GtkSnapshot   *snapshot,
           const GdkRGBA *ink,
           double         value,
           float          width)
{
  float height = (float) gtk_widget_get_height (GTK_WIDGET (self));

  gtk_snapshot_append_color (snapshot, ink,
                             &GRAPHENE_RECT_INIT (place_of (self, value) - width / 2, 0, width,
                                                  height));
}

static void
cro_band_bar_snapshot (GtkWidget   *widget,
                       GtkSnapshot *snapshot)
{
  CroBandBar *self = CRO_BAND_BAR (widget);
  float height = (float) gtk_widget_get_height (widget);
  float from = place_of (self, self->low), to = place_of (self, self->high);
  graphene_rect_t band = GRAPHENE_RECT_INIT (fminf (from, to), 3, fabsf (to - from), height - 6);
  GdkRGBA ink = cro_ink_of (widget), fill = cro_ink_pale (&ink, 0.25f);

  if (!(self->high > self->low))
    return;
  gtk_snapshot_append_color (snapshot, &ink,
                             &GRAPHENE_RECT_INIT (0, height / 2, (float) gtk_widget_get_width (widget),
                                                  1));
  gtk_snapshot_append_color (snapshot, &fill, &band);
  cro_ink_frame (snapshot, &band, &ink);
  draw_mark (self, snapshot, &ink, self->now, 3);
  if (!isnan (self->most))
    draw_mark (self, snapshot, &ink, self->most, 1);
}

static void
cro_band_bar_measure (GtkWidget      *widget,
                      GtkOrientation  orientation,
                      int             for_size,
                      int            *minimum,
                      int            *natural,
                      int            *minimum_baseline,
                      int            *natural_baseline)
{
  *minimum = *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? WIDTH : HEIGHT;
}

static void
cro_band_bar_class_init (CroBandBarClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  widget_class->snapshot = cro_band_bar_snapshot;
  widget_class->measure = cro_band_bar_measure;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
cro_band_bar_init (CroBandBar *self)
{
  self->most = NAN;
}

GtkWidget *
cro_band_bar_new (void)
{
  return g_object_new (CRO_TYPE_BAND_BAR, NULL);
}

void
cro_band_bar_set (CroBandBar *self,
                  double      low,
                  double      now,
                  double      high,
                  double      most)
{
  self->low = low;
  self->now = now;
  self->high = high;
  self->most = most;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
