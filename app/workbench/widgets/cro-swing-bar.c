#include "cro-swing-bar.h"

#include <math.h>

#include "cro-ink.h"

#define WIDTH 96
#define HEIGHT 12

struct _CroSwingBar
{
  GtkWidget parent_instance;

  double    less;
  double    more;
};

G_DEFINE_FINAL_TYPE (CroSwingBar, cro_swing_bar, GTK_TYPE_WIDGET)

static graphene_rect_t
rect_of (GtkWidget *widget,
         double     part)
{
  float width = (float) gtk_widget_get_width (widget), height = (float) gtk_widget_get_height (widget);
  float middle = roundf (width / 2);
  float length = (float) (fabs (part) * (width / 2 - 1));

  if (gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL)
    part = -part;
  return GRAPHENE_RECT_INIT (part < 0 ? middle - length : middle, 2, MAX (length, 1), height - 4);
}

static void
cro_swing_bar_snapshot (GtkWidget   *widget,
                        GtkSnapshot *snapshot)
{
  CroSwingBar *self = CRO_SWING_BAR (widget);
  graphene_rect_t more = rect_of (widget, self->more), less = rect_of (widget, self->less);
  graphene_rect_t axis = GRAPHENE_RECT_INIT (roundf ((float) gtk_widget_get_width (widget) / 2), 0, 1,
                                             (float) gtk_widget_get_height (widget));
  GdkRGBA ink = cro_ink_of (widget);

  gtk_snapshot_append_color (snapshot, &ink, &more);
  cro_ink_frame (snapshot, &less, &ink);
  gtk_snapshot_append_color (snapshot, &ink, &axis);
}

static void
cro_swing_bar_measure (GtkWidget      *widget,
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
cro_swing_bar_class_init (CroSwingBarClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  widget_class->snapshot = cro_swing_bar_snapshot;
  widget_class->measure = cro_swing_bar_measure;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
cro_swing_bar_init (CroSwingBar *self)
{
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
}

GtkWidget *
cro_swing_bar_new (void)
{
  return g_object_new (CRO_TYPE_SWING_BAR, NULL);
}

void
cro_swing_bar_set (CroSwingBar *self,
                   double       less,
                   double       more)
{
  self->less = CLAMP (less, -1, 1);
  self->more = CLAMP (more, -1, 1);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
