#include "config.h"

#include "cro-hung.h"

#include "cro-box.h"
#include "cro-focus.h"
#include "cro-measure.h"
#include "cro-reveal.h"

struct _CroHung
{
  GtkWidget  parent_instance;

  GtkWidget *child;
  GtkWidget *hanging;
};

G_DEFINE_FINAL_TYPE (CroHung, cro_hung, GTK_TYPE_WIDGET)

static void
cro_hung_measure (GtkWidget      *widget,
                  GtkOrientation  orientation,
                  int             for_size,
                  int            *minimum,
                  int            *natural,
                  int            *minimum_baseline,
                  int            *natural_baseline)
{
  gtk_widget_measure (CRO_HUNG (widget)->child, orientation, for_size, minimum, natural, minimum_baseline,
                      natural_baseline);
}

static GtkSizeRequestMode
cro_hung_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

/* In what is seen. */
static int
room_above (GtkWidget *widget)
{
  GtkWidget *scroller = cro_reveal_find_scroller (widget);
  graphene_point_t top = GRAPHENE_POINT_INIT (0, 0);

  return scroller != NULL && gtk_widget_compute_point (widget, scroller, &top, &top) ? (int) top.y : G_MAXINT;
}

static void
cro_hung_size_allocate (GtkWidget *widget,
                        int        width,
                        int        height,
                        int        baseline)
{
  CroHung *self = CRO_HUNG (widget);
  int high, least;

  gtk_widget_size_allocate (self->child, &(GtkAllocation){ 0, 0, width, height }, baseline);
  if (!gtk_widget_should_layout (self->hanging))
    return;
  least = MAX (width, cro_measure_least (self->hanging));
  high = cro_measure_height (self->hanging, least);
  gtk_widget_size_allocate (self->hanging,
                            &(GtkAllocation){ 0, high <= room_above (widget) ? -high : height, least, high }, -1);
}

/* In their order: the toolkit would go by what stands higher. */
static gboolean
cro_hung_focus (GtkWidget        *widget,
                GtkDirectionType  direction)
{
  CroHung *self = CRO_HUNG (widget);
  gboolean is_back = direction == GTK_DIR_TAB_BACKWARD;
  GtkWidget *first = is_back ? self->hanging : self->child, *then = is_back ? self->child : self->hanging;

  if (direction != GTK_DIR_TAB_FORWARD && !is_back)
    return GTK_WIDGET_CLASS (cro_hung_parent_class)->focus (widget, direction);
  if (!cro_focus_is_in (then) && gtk_widget_child_focus (first, direction))
    return TRUE;
  return gtk_widget_child_focus (then, direction);
}

static void
cro_hung_dispose (GObject *object)
{
  cro_box_let_go (GTK_WIDGET (object));
  G_OBJECT_CLASS (cro_hung_parent_class)->dispose (object);
}

static void
cro_hung_class_init (CroHungClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_hung_dispose;
  widget_class->measure = cro_hung_measure;
  widget_class->size_allocate = cro_hung_size_allocate;
  widget_class->get_request_mode = cro_hung_get_request_mode;
  widget_class->focus = cro_hung_focus;
}

static void
cro_hung_init (CroHung *self)
{
}

GtkWidget *
cro_hung_new (GtkWidget *child,
              GtkWidget *hanging)
{
  CroHung *self = g_object_new (CRO_TYPE_HUNG, NULL);

  self->child = child;
  self->hanging = hanging;
  gtk_widget_set_parent (child, GTK_WIDGET (self));
  gtk_widget_set_parent (hanging, GTK_WIDGET (self));
  gtk_widget_add_css_class (hanging, "hanging");
  return GTK_WIDGET (self);
}
