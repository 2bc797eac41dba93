#include "cro-room.h"

struct _CroRoom
{
  GtkWidget  parent_instance;

  GtkWidget *child;
  GtkWidget *sample;
};

G_DEFINE_FINAL_TYPE (CroRoom, cro_room, GTK_TYPE_WIDGET)

static void
cro_room_measure (GtkWidget      *widget,
                  GtkOrientation  orientation,
                  int             for_size,
                  int            *minimum,
                  int            *natural,
                  int            *minimum_baseline,
                  int            *natural_baseline)
{
  CroRoom *self = CRO_ROOM (widget);
  int least, wanted;

  gtk_widget_measure (self->child, orientation, for_size, minimum, natural, NULL, NULL);
  gtk_widget_measure (self->sample, orientation, for_size, &least, &wanted, NULL, NULL);
  *minimum = MAX (*minimum, least);
  *natural = MAX (*natural, wanted);
}

static void
cro_room_size_allocate (GtkWidget *widget,
                        int        width,
                        int        height,
                        int        baseline)
{
  gtk_widget_size_allocate (CRO_ROOM (widget)->child, &(GtkAllocation){ 0, 0, width, height }, baseline);
}

/* Lines need more height where they have less width. */
static GtkSizeRequestMode
cro_room_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
cro_room_dispose (GObject *object)
{
  CroRoom *self = CRO_ROOM (object);

  g_clear_pointer (&self->child, gtk_widget_unparent);
  g_clear_pointer (&self->sample, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_room_parent_class)->dispose (object);
}

static void
cro_room_class_init (CroRoomClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_room_dispose;
  widget_class->measure = cro_room_measure;
  widget_class->size_allocate = cro_room_size_allocate;
  widget_class->get_request_mode = cro_room_get_request_mode;
}

static void
cro_room_init (CroRoom *self)
{
}

GtkWidget *
cro_room_new (GtkWidget *child,
              GtkWidget *sample)
{
  CroRoom *self = g_object_new (CRO_TYPE_ROOM, NULL);

  self->child = child;
  self->sample = sample;
  gtk_widget_set_parent (child, GTK_WIDGET (self));
  gtk_widget_set_parent (sample, GTK_WIDGET (self));
  gtk_widget_set_child_visible (sample, FALSE);
  gtk_widget_set_can_focus (sample, FALSE);
  gtk_accessible_update_state (GTK_ACCESSIBLE (sample), GTK_ACCESSIBLE_STATE_HIDDEN, TRUE, -1);
  return GTK_WIDGET (self);
}
