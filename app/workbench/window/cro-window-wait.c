#include "config.h"

#include "cro-window-private.h"

#include "cro-focus.h"

/* How often a bar moves, in milliseconds. */
#define MOVE_MS 100

/* --- In the thread -------------------------------------------------------------------------------- */

gboolean
cro_waiter_go_on (gpointer user_data,
                  double   done)
{
  CroWaiter *waiter = user_data;

  if (g_cancellable_is_cancelled (waiter->cancellable))
    return FALSE;
  g_atomic_int_set (&waiter->window->done, (int) (1000 * (waiter->from + waiter->part * done)));
  return TRUE;
}

/* --- The page ------------------------------------------------------------------------------------- */

static gboolean
move_bar_cb (gpointer user_data)
{
  CroWindow *self = user_data;
  int done = g_atomic_int_get (&self->done);

  if (done >= 0)
    gtk_progress_bar_set_fraction (self->progress, done / 1000.0);
  else
    gtk_progress_bar_pulse (self->progress);
  return G_SOURCE_CONTINUE;
}

static void
end_waiting (CroWindow *self)
{
  g_clear_handle_id (&self->move_id, g_source_remove);
  g_clear_object (&self->work);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.cancel-work", FALSE);
}

/* Once for works that follow one another: each shows the same page while it goes on. */
static void
keep_before (CroWindow *self)
{
  static const char *const pages[] = { "welcome", "trouble", "book", NULL };
  const char *shown = gtk_stack_get_visible_child_name (self->stack);

  for (gsize i = 0; pages[i] != NULL; i++)
    if (g_str_equal (pages[i], shown))
      {
        self->page_before = pages[i];
        g_free (self->path_before);
        self->path_before = g_strdup (self->path);
        g_set_weak_pointer (&self->focus_before, gtk_window_get_focus (GTK_WINDOW (self)));
      }
}

static void
restore_focus (CroWindow *self)
{
  GtkWidget *focus = self->focus_before;

  if (focus != NULL && gtk_widget_get_mapped (focus) && cro_focus_grab (focus))
    return;
  if (g_str_equal (self->page_before, "book"))
    cro_window_focus_harmless (self);
  else if (g_str_equal (self->page_before, "welcome"))
    cro_welcome_focus (self->welcome);
  else
    gtk_widget_grab_focus (self->other_button);
}

/* The window is for what it was for before: another one may open what this one did not. */
void
cro_window_show_before (CroWindow *self)
{
  gboolean is_trouble = g_str_equal (self->page_before, "trouble");

  g_free (self->path);
  self->path = g_strdup (self->path_before);
  if (g_str_equal (self->page_before, "welcome"))
    cro_window_show_welcome (self);
  else
    gtk_stack_set_visible_child_name (self->stack, self->page_before);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.retry",
                                 is_trouble ? self->path != NULL : self->is_read_only);
  if (self->book != NULL && !is_trouble)
    {
      cro_window_watch_file (self);
      cro_window_refuse_date (self);
    }
  restore_focus (self);
}

static void
begin_waiting (CroWindow  *self,
               const char *doing)
{
  g_cancellable_cancel (self->work);
  end_waiting (self);
  keep_before (self);
  g_clear_handle_id (&self->poll_id, g_source_remove);
  self->done = -1;
  gtk_progress_bar_set_fraction (self->progress, 0);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.retry", FALSE);
  gtk_label_set_label (self->doing, doing);
  gtk_stack_set_visible_child_name (self->stack, "opening");
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.cancel-work", TRUE);
  gtk_widget_grab_focus (self->cancel_button);
  self->move_id = g_timeout_add (MOVE_MS, move_bar_cb, self);
  self->work = g_cancellable_new ();
}

void
cro_window_run (CroWindow           *self,
                const char          *doing,
                gpointer             data,
                GDestroyNotify       data_free,
                GTaskThreadFunc      in_thread,
                GAsyncReadyCallback  done)
{
  g_autoptr (GTask) task = NULL;

  begin_waiting (self, doing);
  task = g_task_new (self, self->work, done, NULL);
  g_task_set_task_data (task, data, data_free);
  g_task_run_in_thread (task, in_thread);
}

gboolean
cro_window_end_run (CroWindow     *self,
                    GAsyncResult  *result,
                    gpointer      *made,
                    GError       **error)
{
  g_autoptr (GError) failure = NULL;

  *made = g_task_propagate_pointer (G_TASK (result), &failure);
  if (g_error_matches (failure, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return FALSE;
  end_waiting (self);
  if (failure != NULL)
    g_propagate_error (error, g_steal_pointer (&failure));
  return TRUE;
}

static void
cancel_cb (GtkWidget  *widget,
           const char *action,
           GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);

  g_cancellable_cancel (self->work);
  end_waiting (self);
  cro_window_show_before (self);
}

void
cro_window_install_waiting (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, CroWindow, cancel_button);
  gtk_widget_class_install_action (widget_class, "win.cancel-work", NULL, cancel_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "win.cancel-work", NULL);
}
