#include "config.h"

#include "cro-window-private.h"

#include "cro-focus.h"

/* A menu that goes because another window opens from it keeps the focus, unseen, and with it every
 * key; a row that goes may leave the focus nowhere. Both are noticed once nothing else is to be
 * done, as a focus that moves is nowhere on its way. */

static gboolean
is_lost (CroWindow *self)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));

  return focus == NULL || !gtk_widget_get_mapped (focus);
}

static gboolean
look_cb (gpointer user_data)
{
  CroWindow *self = user_data;

  self->focus_id = 0;
  if (self->book == NULL || !gtk_widget_get_mapped (GTK_WIDGET (self)) || !is_lost (self))
    return G_SOURCE_REMOVE;
  if (self->focused == NULL || !gtk_widget_get_mapped (self->focused)
      || !cro_focus_grab (self->focused))
    cro_window_focus_harmless (self);
  return G_SOURCE_REMOVE;
}

static void
look_later (CroWindow *self)
{
  if (!gtk_widget_in_destruction (GTK_WIDGET (self)) && self->focus_id == 0 && is_lost (self))
    self->focus_id = g_idle_add_full (G_PRIORITY_LOW, look_cb, self, NULL);
}

/* What is in the window itself, and not in a menu over it, is where the focus comes back to. A menu
 * may go after the focus came to it, which then is not told to move. */
static void
moved_cb (CroWindow *self)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));
  GtkNative *native = focus != NULL ? gtk_widget_get_native (focus) : NULL;

  if (native == GTK_NATIVE (self))
    g_set_weak_pointer (&self->focused, focus);
  else if (native != NULL)
    {
      g_signal_handlers_disconnect_by_func (native, look_later, self);
      g_signal_connect_object (native, "unmap", G_CALLBACK (look_later), self, G_CONNECT_SWAPPED);
    }
  look_later (self);
}

void
cro_window_watch_focus (CroWindow *self)
{
  g_signal_connect (self, "notify::focus-widget", G_CALLBACK (moved_cb), NULL);
  g_signal_connect (self, "notify::is-active", G_CALLBACK (moved_cb), NULL);
}

void
cro_window_forget_focus (CroWindow *self)
{
  g_signal_handlers_disconnect_by_func (self, moved_cb, NULL);
  g_clear_handle_id (&self->focus_id, g_source_remove);
  g_clear_weak_pointer (&self->focused);
}
