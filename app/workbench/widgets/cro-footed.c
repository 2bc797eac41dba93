#include "cro-footed.h"

#include "cro-box.h"
#include "cro-measure.h"
#include "cro-reveal.h"

/* Of what is seen, at most. */
#define MOST_OF_HEIGHT 0.34

/* In pixels: more below it is something else. */
#define MOST_PADDING 36

struct _CroFooted
{
  GtkWidget      parent_instance;

  int            spacing;
  GtkWidget     *foot;       /* its first child; NULL: there is none */
  GdkFrameClock *clock;      /* borrowed; while it is mapped */
  gulong         layout_id;
  gulong         focus_id;   /* while it has a root */
  int            bottom;     /* of what is seen, as it was laid out last */
};

G_DEFINE_FINAL_TYPE (CroFooted, cro_footed, GTK_TYPE_WIDGET)

/* --- Heights ------------------------------------------------------------------------------------ */

static GtkSizeRequestMode
cro_footed_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

/* Up to a child, which is not part of it; NULL: of all. */
static int
height_before (CroFooted *self,
               GtkWidget *end,
               int        width)
{
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self));
  int height = 0;

  for (; child != end; child = gtk_widget_get_next_sibling (child))
    if (gtk_widget_should_layout (child))
      height += cro_measure_height (child, width) + self->spacing;
  return end == NULL ? MAX (height - self->spacing, 0) : height;
}

static void
cro_footed_measure (GtkWidget      *widget,
                    GtkOrientation  orientation,
                    int             for_size,
                    int            *minimum,
                    int            *natural,
                    int            *minimum_baseline,
                    int            *natural_baseline)
{
  *minimum = *natural = 0;
  if (orientation == GTK_ORIENTATION_VERTICAL)
    {
      *minimum = *natural = height_before (CRO_FOOTED (widget), NULL, for_size);
      return;
    }
  for (GtkWidget *child = cro_measure_shown (gtk_widget_get_first_child (widget)); child != NULL;
       child = cro_measure_shown (gtk_widget_get_next_sibling (child)))
    {
      int least, wanted;

      gtk_widget_measure (child, orientation, -1, &least, &wanted, NULL, NULL);
      *minimum = MAX (*minimum, least);
      *natural = MAX (*natural, wanted);
    }
}

/* --- Layout ------------------------------------------------------------------------------------- */

/* What is seen of it ends there, and how high all is that is seen; FALSE: it does not scroll. */
static gboolean
find_bottom (CroFooted *self,
             int       *bottom,
             int       *page)
{
  GtkWidget *scroller = cro_reveal_find_scroller (GTK_WIDGET (self));
  graphene_point_t top = GRAPHENE_POINT_INIT (0, 0);

  if (scroller == NULL || !gtk_widget_compute_point (GTK_WIDGET (self), scroller, &top, &top))
    return FALSE;
  *page = (int) gtk_adjustment_get_page_size (gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller)));
  *bottom = *page - (int) top.y;
  return *page > 0;
}

static void
place (GtkWidget *child,
       int        y,
       int        width)
{
  GtkAllocation at = { 0, y, width, cro_measure_height (child, width) };

  if (gtk_widget_should_layout (child))
    gtk_widget_size_allocate (child, &at, -1);
}

/* What is left below it where the end of a page that scrolls is seen: the foot stands on the lower edge there as it
 * does elsewhere, and no line more or less moves it. 0: it is no padding, or nothing scrolls. */
static int
padding_below (CroFooted *self,
               int        height,
               int        page)
{
  GtkWidget *scroller = cro_reveal_find_scroller (GTK_WIDGET (self));
  GtkWidget *view = scroller != NULL ? gtk_scrolled_window_get_child (GTK_SCROLLED_WINDOW (scroller)) : NULL;
  GtkWidget *all = GTK_IS_VIEWPORT (view) ? gtk_viewport_get_child (GTK_VIEWPORT (view)) : NULL;
  graphene_point_t end = GRAPHENE_POINT_INIT (0, (float) height);
  graphene_rect_t whole;
  int below;

  if (all == NULL || !gtk_widget_compute_bounds (all, all, &whole)
      || !gtk_widget_compute_point (GTK_WIDGET (self), all, &end, &end) || whole.size.height <= (float) page)
    return 0;
  below = (int) (whole.origin.y + whole.size.height - end.y);
  return below > 0 && below <= MOST_PADDING ? below : 0;
}

/* From below: each stands where it belongs, or over the one below it. */
static void
place_foot (CroFooted *self,
            int        width,
            int        height_of_all)
{
  int bottom = G_MAXINT, page = G_MAXINT, room, lower, y;

  if (!find_bottom (self, &bottom, &page))
    bottom = G_MAXINT;
  self->bottom = bottom;
  room = (int) (page * MOST_OF_HEIGHT);
  lower = bottom < G_MAXINT ? padding_below (self, height_of_all, page) : 0;
  for (GtkWidget *child = gtk_widget_get_last_child (GTK_WIDGET (self)); child != NULL;
       child = child != self->foot ? gtk_widget_get_prev_sibling (child) : NULL)
    {
      int height = cro_measure_height (child, width);
      gboolean is_last = child == gtk_widget_get_last_child (GTK_WIDGET (self));

      y = height_before (self, child, width) + lower;
      if (height <= room || is_last)
        y = MIN (y, MAX (bottom - MIN (height, room), 0));
      place (child, y, width);
      bottom = MIN (bottom, y) - self->spacing;
      room = height <= room ? room - height : 0;
    }
}

static void
cro_footed_size_allocate (GtkWidget *widget,
                          int        width,
                          int        height,
                          int        baseline)
{
  CroFooted *self = CRO_FOOTED (widget);
  int y = 0;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != self->foot;
       child = gtk_widget_get_next_sibling (child))
    {
      place (child, y, width);
      if (gtk_widget_should_layout (child))
        y += cro_measure_height (child, width) + self->spacing;
    }
  if (self->foot != NULL)
    place_foot (self, width, height);
}

gboolean
cro_footed_is_raised (CroFooted *self,
                      GtkWidget *child)
{
  graphene_rect_t at;

  return gtk_widget_compute_bounds (child, GTK_WIDGET (self), &at)
         && (int) at.origin.y < height_before (self, child, gtk_widget_get_width (GTK_WIDGET (self)));
}

/* The uppermost of those that are raised; NULL: none is. */
static GtkWidget *
find_raised (CroFooted *self)
{
  for (GtkWidget *child = self->foot; child != NULL; child = gtk_widget_get_next_sibling (child))
    if (gtk_widget_should_layout (child) && cro_footed_is_raised (self, child))
      return child;
  return NULL;
}

static CroFooted *
find_around (GtkWidget *widget)
{
  GtkWidget *around = gtk_widget_get_ancestor (widget, CRO_TYPE_FOOTED);

  return around != NULL ? CRO_FOOTED (around) : NULL;
}

static gboolean
is_in_foot (CroFooted *self,
            GtkWidget *widget)
{
  for (GtkWidget *child = self->foot; child != NULL; child = gtk_widget_get_next_sibling (child))
    if (widget == child || gtk_widget_is_ancestor (widget, child))
      return TRUE;
  return FALSE;
}

int
cro_footed_covers (GtkWidget *widget)
{
  CroFooted *self = find_around (widget);
  GtkWidget *raised;
  graphene_rect_t at;

  if (self == NULL || is_in_foot (self, widget))
    return 0;
  raised = find_raised (self);
  if (raised == NULL || !gtk_widget_compute_bounds (raised, GTK_WIDGET (self), &at))
    return 0;
  return MAX (self->bottom - (int) at.origin.y, 0);
}

/* An edge says that what is behind it goes on. */
static void
mark_raised (CroFooted *self)
{
  GtkWidget *raised = find_raised (self);

  for (GtkWidget *child = self->foot; child != NULL; child = gtk_widget_get_next_sibling (child))
    if (child == raised)
      gtk_widget_add_css_class (child, "raised");
    else
      gtk_widget_remove_css_class (child, "raised");
}

/* Whatever moved it, or what is seen of it: the page scrolled, or something above it grew. */
static void
laid_out_cb (CroFooted *self)
{
  int bottom, page;

  if (find_bottom (self, &bottom, &page) && bottom != self->bottom)
    gtk_widget_queue_allocate (GTK_WIDGET (self));
  else
    mark_raised (self);
}

static void
cro_footed_map (GtkWidget *widget)
{
  CroFooted *self = CRO_FOOTED (widget);

  GTK_WIDGET_CLASS (cro_footed_parent_class)->map (widget);
  self->clock = gtk_widget_get_frame_clock (widget);
  self->layout_id = g_signal_connect_object (self->clock, "layout", G_CALLBACK (laid_out_cb), self,
                                             G_CONNECT_SWAPPED | G_CONNECT_AFTER);
}

static void
cro_footed_unmap (GtkWidget *widget)
{
  CroFooted *self = CRO_FOOTED (widget);

  g_clear_signal_handler (&self->layout_id, self->clock);
  self->clock = NULL;
  GTK_WIDGET_CLASS (cro_footed_parent_class)->unmap (widget);
}

/* --- Focus -------------------------------------------------------------------------------------- */

/* In their order: where the foot is raised the toolkit would go by what stands higher. */
static gboolean
cro_footed_focus (GtkWidget        *widget,
                  GtkDirectionType  direction)
{
  gboolean is_back = direction == GTK_DIR_TAB_BACKWARD;
  GtkWidget *child = gtk_widget_get_focus_child (widget);

  if (direction != GTK_DIR_TAB_FORWARD && !is_back)
    return GTK_WIDGET_CLASS (cro_footed_parent_class)->focus (widget, direction);
  if (child == NULL)
    child = is_back ? gtk_widget_get_last_child (widget) : gtk_widget_get_first_child (widget);
  for (; child != NULL; child = is_back ? gtk_widget_get_prev_sibling (child) : gtk_widget_get_next_sibling (child))
    if (gtk_widget_child_focus (child, direction))
      return TRUE;
  return FALSE;
}

/* The page scrolls what has the focus into sight, and knows nothing of the foot, which may be about to move: what
 * stands above it has not all been laid out again. */
static void
focus_moved_cb (CroFooted *self)
{
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (self)));

  if (focus == NULL || !gtk_widget_is_ancestor (focus, GTK_WIDGET (self)) || is_in_foot (self, focus))
    return;
  cro_reveal_now (focus);
  cro_reveal (focus);
}

static void
cro_footed_root (GtkWidget *widget)
{
  CroFooted *self = CRO_FOOTED (widget);

  GTK_WIDGET_CLASS (cro_footed_parent_class)->root (widget);
  self->focus_id = g_signal_connect_object (gtk_widget_get_root (widget), "notify::focus-widget",
                                            G_CALLBACK (focus_moved_cb), self, G_CONNECT_SWAPPED);
}

static void
cro_footed_unroot (GtkWidget *widget)
{
  g_clear_signal_handler (&CRO_FOOTED (widget)->focus_id, gtk_widget_get_root (widget));
  GTK_WIDGET_CLASS (cro_footed_parent_class)->unroot (widget);
}

/* --- The widget --------------------------------------------------------------------------------- */

static void
cro_footed_dispose (GObject *object)
{
  CRO_FOOTED (object)->foot = NULL;
  cro_box_let_go (GTK_WIDGET (object));
  G_OBJECT_CLASS (cro_footed_parent_class)->dispose (object);
}

static void
cro_footed_class_init (CroFootedClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_footed_dispose;
  widget_class->get_request_mode = cro_footed_get_request_mode;
  widget_class->measure = cro_footed_measure;
  widget_class->size_allocate = cro_footed_size_allocate;
  widget_class->map = cro_footed_map;
  widget_class->unmap = cro_footed_unmap;
  widget_class->focus = cro_footed_focus;
  widget_class->root = cro_footed_root;
  widget_class->unroot = cro_footed_unroot;
}

static void
cro_footed_init (CroFooted *self)
{
}

GtkWidget *
cro_footed_new (int spacing)
{
  CroFooted *self = g_object_new (CRO_TYPE_FOOTED, NULL);

  self->spacing = spacing;
  return GTK_WIDGET (self);
}

void
cro_footed_append (CroFooted *self,
                   GtkWidget *child)
{
  gtk_widget_insert_before (child, GTK_WIDGET (self), self->foot);
}

void
cro_footed_append_foot (CroFooted *self,
                        GtkWidget *child)
{
  gtk_widget_add_css_class (child, "foot");
  gtk_widget_insert_before (child, GTK_WIDGET (self), NULL);
  if (self->foot == NULL)
    self->foot = child;
}
