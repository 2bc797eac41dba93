#include "config.h"

#include "cro-parts-bar.h"

#include "cro-ink.h"
#include "cro-spoken.h"

struct _CroPartsBar
{
  GtkWidget parent_instance;

  GArray   *parts;    /* double */
};

G_DEFINE_FINAL_TYPE (CroPartsBar, cro_parts_bar, GTK_TYPE_WIDGET)

#define WIDTH 420
#define HEIGHT 18

/* What is below 0, and what is above. */
static void
sum_up (CroPartsBar *self,
        double      *below,
        double      *above)
{
  *below = *above = 0;
  for (guint i = 0; i < self->parts->len; i++)
    {
      double part = g_array_index (self->parts, double, i);

      *(part < 0 ? below : above) += part;
    }
}

/* Each part is paler than the one before; a frame keeps the last in sight. */
static void
draw_part (GtkWidget   *widget,
           GtkSnapshot *snapshot,
           guint        i,
           double       from,
           double       to)
{
  static const float strength[] = { 0.85f, 0.5f, 0.28f, 0.14f };
  GdkRGBA ink = cro_ink_of (widget);
  GdkRGBA fill = cro_ink_pale (&ink, strength[MIN (i, G_N_ELEMENTS (strength) - 1)]);
  double height = gtk_widget_get_height (widget), width = gtk_widget_get_width (widget);
  gboolean is_mirrored = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  graphene_rect_t rect = GRAPHENE_RECT_INIT (
      (float) ((is_mirrored ? 1 - to : from) * width), 0, (float) ((to - from) * width - 2),
      (float) height);

  if (rect.size.width < 1)
    return;
  gtk_snapshot_append_color (snapshot, &fill, &rect);
  cro_ink_frame (snapshot, &rect, &ink);
}

static void
cro_parts_bar_snapshot (GtkWidget   *widget,
                        GtkSnapshot *snapshot)
{
  CroPartsBar *self = CRO_PARTS_BAR (widget);
  double below, above, low, high;

  sum_up (self, &below, &above);
  if (!(above - below > 0))
    return;
  low = high = 0;
  for (guint i = 0; i < self->parts->len; i++)
    {
      double part = g_array_index (self->parts, double, i);
      double *at = part < 0 ? &low : &high;
      double from = MIN (*at, *at + part), to = MAX (*at, *at + part);

      draw_part (widget, snapshot, i, (from - below) / (above - below),
                 (to - below) / (above - below));
      *at += part;
    }
}

static void
cro_parts_bar_measure (GtkWidget      *widget,
                       GtkOrientation  orientation,
                       int             for_size,
                       int            *minimum,
                       int            *natural,
                       int            *minimum_baseline,
                       int            *natural_baseline)
{
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? WIDTH : HEIGHT;
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? WIDTH / 4 : HEIGHT;
}

static void
cro_parts_bar_finalize (GObject *object)
{
  g_array_unref (CRO_PARTS_BAR (object)->parts);
  G_OBJECT_CLASS (cro_parts_bar_parent_class)->finalize (object);
}

static void
cro_parts_bar_class_init (CroPartsBarClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = cro_parts_bar_finalize;
  widget_class->snapshot = cro_parts_bar_snapshot;
  widget_class->measure = cro_parts_bar_measure;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
cro_parts_bar_init (CroPartsBar *self)
{
  self->parts = g_array_new (FALSE, FALSE, sizeof (double));
}

GtkWidget *
cro_parts_bar_new (void)
{
  return g_object_new (CRO_TYPE_PARTS_BAR, NULL);
}

void
cro_parts_bar_set (CroPartsBar  *self,
                   const double *parts,
                   guint         n,
                   const char   *says)
{
  g_array_set_size (self->parts, 0);
  if (n > 0)
    g_array_append_vals (self->parts, parts, n);
  cro_spoken_set (GTK_WIDGET (self), says);
  gtk_widget_set_visible (GTK_WIDGET (self), n > 0);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
