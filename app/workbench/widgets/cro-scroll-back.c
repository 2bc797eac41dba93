#include "cro-scroll-back.h"

/* In which it is given up, and after which nothing moves it any more. */
#define MOST_FRAMES 20
#define SETTLED_FRAMES 4

void
cro_scroll_back_init (CroScrollBack *self,
                      GtkWidget     *widget,
                      CroScrollFind  find)
{
  *self = (CroScrollBack){ .widget = widget, .find = find };
}

static gboolean
is_there (CroScrollBack *self,
          GtkAdjustment *adjustment)
{
  return (int) gtk_adjustment_get_value (adjustment) == self->to;
}

/* The frame that follows is the first in which what stands there is laid out; what is out of sight never is. */
static gboolean
tick_cb (GtkWidget     *widget,
         GdkFrameClock *clock,
         gpointer       user_data)
{
  CroScrollBack *self = user_data;
  gboolean is_moving = FALSE, is_laid_out = self->was_seen && gtk_widget_get_mapped (widget);
  GtkAdjustment *adjustment = is_laid_out ? self->find (widget, &is_moving) : NULL;

  self->was_seen = gtk_widget_get_mapped (widget);
  self->n_frames++;
  self->n_there = adjustment != NULL && !is_moving && is_there (self, adjustment) ? self->n_there + 1 : 0;
  if (self->n_there == 0 && adjustment != NULL)
    gtk_adjustment_set_value (adjustment, self->to);
  if (self->n_frames <= MOST_FRAMES && self->n_there < SETTLED_FRAMES)
    return G_SOURCE_CONTINUE;
  self->tick_id = 0;
  return G_SOURCE_REMOVE;
}

void
cro_scroll_back_to (CroScrollBack *self,
                    int            value)
{
  self->to = value;
  self->n_frames = self->n_there = 0;
  self->was_seen = FALSE;
  if (self->tick_id == 0)
    self->tick_id = gtk_widget_add_tick_callback (self->widget, tick_cb, self, NULL);
}

void
cro_scroll_back_stop (CroScrollBack *self)
{
  if (self->tick_id != 0)
    gtk_widget_remove_tick_callback (self->widget, self->tick_id);
  self->tick_id = 0;
}

int
cro_scroll_back_get (CroScrollBack *self)
{
  gboolean is_moving;
  GtkAdjustment *adjustment = self->tick_id == 0 ? self->find (self->widget, &is_moving) : NULL;

  return self->tick_id != 0 ? self->to : adjustment != NULL ? (int) gtk_adjustment_get_value (adjustment) : 0;
}
