#include "config.h"

#include "cro-course.h"

#include <string.h>

#include "cro-ink.h"

#define HEIGHT 18
#define THICK 2
#define LOWEST 'A'
#define STEPS ('z' - LOWEST)

struct _CroCourse
{
  GtkWidget  parent_instance;

  char      *points;
};

G_DEFINE_FINAL_TYPE (CroCourse, cro_course, GTK_TYPE_WIDGET)

static float
y_of (CroCourse *self,
      char       point)
{
  float room = (float) gtk_widget_get_height (GTK_WIDGET (self)) - 2 * THICK;

  return THICK / 2.0f + room - room * (float) CLAMP (point - LOWEST, 0, STEPS) / STEPS;
}

/* A price holds until the next: level lines, and upright ones between them. */
static void
cro_course_snapshot (GtkWidget   *widget,
                     GtkSnapshot *snapshot)
{
  CroCourse *self = CRO_COURSE (widget);
  GdkRGBA ink = cro_ink_of (widget);
  float width = (float) gtk_widget_get_width (widget);
  gboolean is_mirrored = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  gsize n = strlen (self->points);
  float step = n > 0 ? width / (float) n : width;

  for (gsize i = 0; i < n; i++)
    {
      char point = self->points[i];
      float x = is_mirrored ? width - step * (float) (i + 1) : step * (float) i;
      float y = y_of (self, point);

      if (point == ' ')
        continue;
      gtk_snapshot_append_color (snapshot, &ink, &GRAPHENE_RECT_INIT (x, y, step, THICK));
      if (i > 0 && self->points[i - 1] != ' ' && self->points[i - 1] != point)
        {
          float before = y_of (self, self->points[i - 1]);

          gtk_snapshot_append_color (snapshot, &ink,
                                     &GRAPHENE_RECT_INIT (is_mirrored ? x + step - THICK : x, MIN (y, before), THICK,
                                                          ABS (y - before) + THICK));
        }
    }
}

static void
cro_course_measure (GtkWidget      *widget,
                    GtkOrientation  orientation,
                    int             for_size,
                    int            *minimum,
                    int            *natural,
                    int            *minimum_baseline,
                    int            *natural_baseline)
{
  *minimum = *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? CRO_COURSE_WIDTH : HEIGHT;
}

static void
cro_course_finalize (GObject *object)
{
  g_free (CRO_COURSE (object)->points);
  G_OBJECT_CLASS (cro_course_parent_class)->finalize (object);
}

/* Its row is said as a whole. */
static void
cro_course_class_init (CroCourseClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = cro_course_finalize;
  widget_class->snapshot = cro_course_snapshot;
  widget_class->measure = cro_course_measure;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
cro_course_init (CroCourse *self)
{
  self->points = g_strdup ("");
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
}

GtkWidget *
cro_course_new (void)
{
  return g_object_new (CRO_TYPE_COURSE, NULL);
}

void
cro_course_set (CroCourse  *self,
                const char *points)
{
  g_free (self->points);
  self->points = g_strdup (points);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
