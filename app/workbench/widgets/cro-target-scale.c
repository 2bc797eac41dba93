#include "config.h"

#include "cro-target-scale.h"

#include <math.h>

#include "cro-ink.h"
#include "cro-spoken.h"

/* Pixels: the least width, the thickness of the length, and what the tick stands out by. */
#define WIDTH 72
#define THICK 5
#define TICK_OUT 3
#define TICK_WIDTH 2

struct _CroTargetScale
{
  GtkWidget parent_instance;

  double    pct;
  double    target;
};

G_DEFINE_FINAL_TYPE (CroTargetScale, cro_target_scale, GTK_TYPE_WIDGET)

static void
cro_target_scale_measure (GtkWidget      *widget,
                          GtkOrientation  orientation,
                          int             for_size,
                          int            *minimum,
                          int            *natural,
                          int            *minimum_baseline,
                          int            *natural_baseline)
{
  *minimum = *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? WIDTH : THICK + 2 * TICK_OUT;
}

static void
fill (GtkWidget     *widget,
      GtkSnapshot   *snapshot,
      const GdkRGBA *colour,
      float          from,
      float          to,
      float          thick)
{
  float width = (float) gtk_widget_get_width (widget);
  float height = (float) gtk_widget_get_height (widget);
  gboolean is_mirrored = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;

  gtk_snapshot_append_color (snapshot, colour,
                             &GRAPHENE_RECT_INIT (is_mirrored ? width - to : from,
                                                  (height - thick) / 2, to - from, thick));
}

/* The tick keeps its place at two thirds, where the length can be seen to pass it; a length that
 * would leave the scale ends with it. */
static void
cro_target_scale_snapshot (GtkWidget   *widget,
                           GtkSnapshot *snapshot)
{
  CroTargetScale *self = CRO_TARGET_SCALE (widget);
  float width = (float) gtk_widget_get_width (widget);
  float tick = roundf (width * 2 / 3);
  float length = (float) CLAMP (self->pct / self->target * (double) tick, 0, (double) width);
  GdkRGBA text = cro_ink_of (widget), ground = cro_ink_pale (&text, 0.2f);

  fill (widget, snapshot, &ground, 0, width, THICK);
  fill (widget, snapshot, &text, 0, length, THICK);
  fill (widget, snapshot, &text, tick - TICK_WIDTH / 2, tick + TICK_WIDTH / 2,
        THICK + 2 * TICK_OUT);
}

static void
cro_target_scale_class_init (CroTargetScaleClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  widget_class->measure = cro_target_scale_measure;
  widget_class->snapshot = cro_target_scale_snapshot;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
cro_target_scale_init (CroTargetScale *self)
{
  self->target = 1;
}

GtkWidget *
cro_target_scale_new (void)
{
  return g_object_new (CRO_TYPE_TARGET_SCALE, "valign", GTK_ALIGN_CENTER, NULL);
}

void
cro_target_scale_set (CroTargetScale *self,
                      double          pct,
                      double          target,
                      const char     *says)
{
  self->pct = pct;
  self->target = target;
  cro_spoken_set (GTK_WIDGET (self), says);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
