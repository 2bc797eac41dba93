#include "cro-reveal.h"

static void
scroll_to (GtkWidget *widget)
{
  GtkWidget *scroller = gtk_widget_get_ancestor (widget, GTK_TYPE_SCROLLED_WINDOW);
  GtkAdjustment *adjustment;
  graphene_rect_t bounds;
  double top, page;

  if (scroller == NULL || !gtk_widget_compute_bounds (widget, scroller, &bounds))
    return;
  adjustment = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller));
  page = gtk_adjustment_get_page_size (adjustment);
  top = gtk_adjustment_get_value (adjustment) + bounds.origin.y;
  gtk_adjustment_clamp_page (adjustment, top, top + MIN (bounds.size.height, page));
}

/* The first frame gives the size: it is there at the second. */
static gboolean
tick_cb (GtkWidget     *widget,
         GdkFrameClock *clock,
         gpointer       first)
{
  if (gdk_frame_clock_get_frame_counter (clock) <= *(gint64 *) first)
    return G_SOURCE_CONTINUE;
  scroll_to (widget);
  return G_SOURCE_REMOVE;
}

void
cro_reveal (GtkWidget *widget)
{
  GdkFrameClock *clock = gtk_widget_get_frame_clock (widget);
  gint64 first;

  if (clock == NULL)
    return;
  first = gdk_frame_clock_get_frame_counter (clock) + 1;
  gtk_widget_add_tick_callback (widget, tick_cb, g_memdup2 (&first, sizeof first), g_free);
}
