#include "cro-headed.h"

/* Of the height, at most. */
#define MOST_OF_HEIGHT 0.5

struct _CroHeaded
{
  GtkWidget  parent_instance;

  GtkWidget *head;      /* inside over */
  GtkWidget *over;
  GtkWidget *below;
};

G_DEFINE_FINAL_TYPE (CroHeaded, cro_headed, GTK_TYPE_WIDGET)

static GtkSizeRequestMode
cro_headed_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static int
head_height (CroHeaded *self,
             int        width)
{
  int height;

  gtk_widget_measure (self->head, GTK_ORIENTATION_VERTICAL, width, NULL, &height, NULL, NULL);
  return height;
}

static void
cro_headed_measure (GtkWidget      *widget,
                    GtkOrientation  orientation,
                    int             for_size,
                    int            *minimum,
                    int            *natural,
                    int            *minimum_baseline,
                    int            *natural_baseline)
{
  CroHeaded *self = CRO_HEADED (widget);
  int least, wanted, least_below, wanted_below;

  gtk_widget_measure (self->over, orientation, -1, &least, &wanted, NULL, NULL);
  gtk_widget_measure (self->below, orientation, -1, &least_below, &wanted_below, NULL, NULL);
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = MAX (least, least_below);
      *natural = MAX (wanted, wanted_below);
      return;
    }
  *minimum = (int) (least / MOST_OF_HEIGHT) + least_below;
  *natural = *minimum + wanted_below;
}

static void
cro_headed_size_allocate (GtkWidget *widget,
                          int        width,
                          int        height,
                          int        baseline)
{
  CroHeaded *self = CRO_HEADED (widget);
  int head = MIN (head_height (self, width), (int) (height * MOST_OF_HEIGHT));
  GtkAllocation at = { 0, 0, width, head };

  gtk_widget_size_allocate (self->over, &at, -1);
  at.y = head;
  at.height = height - head;
  gtk_widget_size_allocate (self->below, &at, -1);
}

static void
cro_headed_dispose (GObject *object)
{
  CroHeaded *self = CRO_HEADED (object);

  g_clear_pointer (&self->below, gtk_widget_unparent);
  g_clear_pointer (&self->over, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_headed_parent_class)->dispose (object);
}

static void
cro_headed_class_init (CroHeadedClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_headed_dispose;
  widget_class->get_request_mode = cro_headed_get_request_mode;
  widget_class->measure = cro_headed_measure;
  widget_class->size_allocate = cro_headed_size_allocate;
}

static void
cro_headed_init (CroHeaded *self)
{
}

/* What scrolls is the first child: who remembers how far the page was scrolled asks that. */
GtkWidget *
cro_headed_new (GtkWidget *head,
                GtkWidget *content)
{
  CroHeaded *self = g_object_new (CRO_TYPE_HEADED, NULL);

  self->below = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->below), content);
  gtk_widget_set_parent (self->below, GTK_WIDGET (self));
  self->head = head;
  self->over = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->over), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->over), head);
  gtk_widget_set_parent (self->over, GTK_WIDGET (self));
  return GTK_WIDGET (self);
}
