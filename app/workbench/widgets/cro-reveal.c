#include "cro-reveal.h"

#include <math.h>

#include "cro-footed.h"

GtkWidget *
cro_reveal_find_scroller (GtkWidget *widget)
{
  GtkWidget *scroller = gtk_widget_get_ancestor (widget, GTK_TYPE_SCROLLED_WINDOW);
  GtkPolicyType policy = GTK_POLICY_NEVER;

  for (; scroller != NULL;
       scroller = gtk_widget_get_ancestor (gtk_widget_get_parent (scroller), GTK_TYPE_SCROLLED_WINDOW))
    {
      gtk_scrolled_window_get_policy (GTK_SCROLLED_WINDOW (scroller), NULL, &policy);
      if (policy != GTK_POLICY_NEVER)
        break;
    }
  return scroller;
}

/* Where it begins in what scrolls, in pixels, however far that was scrolled since it was laid out. */
static gboolean
find_place (GtkWidget       *widget,
            GtkWidget       *scroller,
            graphene_rect_t *place)
{
  GtkWidget *view = gtk_scrolled_window_get_child (GTK_SCROLLED_WINDOW (scroller));

  if (GTK_IS_VIEWPORT (view))
    {
      GtkWidget *all = gtk_viewport_get_child (GTK_VIEWPORT (view));
      graphene_rect_t whole;

      /* What scrolls begins with its padding, and its places are told from below that. */
      if (!gtk_widget_compute_bounds (widget, all, place) || !gtk_widget_compute_bounds (all, all, &whole))
        return FALSE;
      place->origin.y -= whole.origin.y;
      return TRUE;
    }
  if (!gtk_widget_compute_bounds (widget, scroller, place))
    return FALSE;
  place->origin.y += (float) gtk_adjustment_get_value (gtk_scrolled_window_get_vadjustment (
      GTK_SCROLLED_WINDOW (scroller)));
  return TRUE;
}

void
cro_reveal_now (GtkWidget *widget)
{
  GtkWidget *scroller = cro_reveal_find_scroller (widget);
  GtkAdjustment *adjustment;
  graphene_rect_t place;
  double page;

  if (scroller == NULL || !find_place (widget, scroller, &place))
    return;
  adjustment = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller));
  page = gtk_adjustment_get_page_size (adjustment);
  gtk_adjustment_clamp_page (adjustment, place.origin.y,
                             place.origin.y + MIN (place.size.height + cro_footed_covers (widget), page));
}

/* What the place of a widget in the page hangs on. */
typedef struct
{
  double y, height;  /* in what scrolls */
  double page, upper;
  int    covered;    /* by a foot */
} Place;

typedef struct
{
  gint64   first;    /* frame */
  double   value;    /* where the page stood; NaN: where it stands */
  gboolean is_found;
  Place    place;    /* once it is found */
  guint    n_still;  /* frames since that last changed */
} Wait;

/* Frames after which it is given up, as what has no size is hidden then: some ten seconds. */
#define MOST_FRAMES 600

/* Frames in which nothing around it takes more room: then its place is its own. */
#define SETTLING_FRAMES 6

static gboolean
is_same_place (const Place *a,
               const Place *b)
{
  return !(ABS (a->y - b->y) > 0.5) && !(ABS (a->height - b->height) > 0.5) && !(ABS (a->page - b->page) > 0.5)
         && !(ABS (a->upper - b->upper) > 0.5) && a->covered == b->covered;
}

/* Brings it into sight until its place has been the same for some frames. FALSE: it has. */
static gboolean
follow (GtkWidget *widget,
        GtkWidget *scroller,
        Wait      *wait)
{
  GtkAdjustment *adjustment = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller));
  graphene_rect_t bounds;
  Place place;
  gboolean is_same;

  if (!find_place (widget, scroller, &bounds))
    return FALSE;
  place = (Place){ bounds.origin.y, bounds.size.height, gtk_adjustment_get_page_size (adjustment),
                   gtk_adjustment_get_upper (adjustment), cro_footed_covers (widget) };
  is_same = wait->is_found && is_same_place (&place, &wait->place);
  if (!wait->is_found && !isnan (wait->value))
    gtk_adjustment_set_value (adjustment, wait->value);
  cro_reveal_now (widget);
  wait->n_still = is_same ? wait->n_still + 1 : 0;
  wait->place = place;
  wait->is_found = TRUE;
  return wait->n_still < SETTLING_FRAMES;
}

/* The first frame gives the size: it is there at the second, or where there is much to lay out later. */
static gboolean
tick_cb (GtkWidget     *widget,
         GdkFrameClock *clock,
         gpointer       user_data)
{
  Wait *wait = user_data;
  GtkWidget *scroller = cro_reveal_find_scroller (widget);
  gint64 frame = gdk_frame_clock_get_frame_counter (clock);

  if (frame > wait->first + MOST_FRAMES)
    return G_SOURCE_REMOVE;
  if (frame <= wait->first || gtk_widget_get_height (widget) == 0)
    return G_SOURCE_CONTINUE;
  return scroller != NULL && follow (widget, scroller, wait) ? G_SOURCE_CONTINUE : G_SOURCE_REMOVE;
}

static void
reveal (GtkWidget *widget,
        double     value)
{
  GdkFrameClock *clock = gtk_widget_get_frame_clock (widget);
  const Wait wait = { .first = clock != NULL ? gdk_frame_clock_get_frame_counter (clock) + 1 : 0, .value = value };

  if (clock != NULL)
    gtk_widget_add_tick_callback (widget, tick_cb, g_memdup2 (&wait, sizeof wait), g_free);
}

void
cro_reveal (GtkWidget *widget)
{
  reveal (widget, NAN);
}

void
cro_reveal_from (GtkWidget *widget,
                 double     value)
{
  reveal (widget, value);
}

gboolean
cro_reveal_is_seen (GtkWidget *widget)
{
  GtkWidget *scroller = cro_reveal_find_scroller (widget), *view;
  graphene_rect_t bounds;
  double middle;

  if (scroller == NULL || !gtk_widget_get_mapped (widget) || gtk_widget_get_height (widget) == 0)
    return FALSE;
  view = gtk_scrolled_window_get_child (GTK_SCROLLED_WINDOW (scroller));
  if (!gtk_widget_compute_bounds (widget, view, &bounds))
    return FALSE;
  middle = bounds.origin.y + bounds.size.height / 2;
  return middle >= 0 && middle <= gtk_widget_get_height (view);
}

gboolean
cro_reveal_is_lost (GtkWidget *widget)
{
  GtkWidget *scroller = cro_reveal_find_scroller (widget);
  graphene_rect_t bounds;

  return scroller != NULL && gtk_widget_get_mapped (widget) && gtk_widget_compute_bounds (widget, scroller, &bounds)
         && (bounds.origin.y + bounds.size.height <= 0 || bounds.origin.y >= gtk_widget_get_height (scroller));
}
