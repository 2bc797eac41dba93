#include "cro-gap.h"

struct _CroGap
{
  GtkWidget parent_instance;

  int       width;
};

G_DEFINE_FINAL_TYPE (CroGap, cro_gap, GTK_TYPE_WIDGET)

static void
cro_gap_measure (GtkWidget      *widget,
                 GtkOrientation  orientation,
                 int             for_size,
                 int            *minimum,
                 int            *natural,
                 int            *minimum_baseline,
                 int            *natural_baseline)
{
  *minimum = 0;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? CRO_GAP (widget)->width : 0;
}

static void
cro_gap_class_init (CroGapClass *klass)
{
  GTK_WIDGET_CLASS (klass)->measure = cro_gap_measure;
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
cro_gap_init (CroGap *self)
{
}

GtkWidget *
cro_gap_new (void)
{
  return g_object_new (CRO_TYPE_GAP, NULL);
}

void
cro_gap_set (CroGap *self,
             int     width)
{
  if (self->width == width)
    return;
  self->width = width;
  gtk_widget_queue_resize (GTK_WIDGET (self));
}
