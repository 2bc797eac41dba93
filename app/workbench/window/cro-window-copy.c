#include "config.h"

#include "cro-window-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-copy.h"
#include "cro-isolate.h"
#include "cro-number.h"

/* A copy is verified as a whole before it is trusted, which takes its time. */
static void
find_in_thread (GTask        *task,
                gpointer      window,
                gpointer      path,
                GCancellable *cancellable)
{
  g_task_return_pointer (task, cro_copy_find_newest (path), (GDestroyNotify) cro_copy_free);
}

static char *
dup_last_day (const CroCopy *copy)
{
  CroDate day;
  g_autofree char *text = NULL;

  if (copy->day == NULL || !cro_date_parse (copy->day, strlen (copy->day), &day))
    return g_strdup (_("This is a copy of the damaged book."));
  text = cro_date_to_text (day);
  /* Translators: %s is a date. */
  return g_strdup_printf (_("This is a copy of the damaged book; its last change was made on %s."),
                          text);
}

static void
found_cb (GObject      *source,
          GAsyncResult *result,
          gpointer      user_data)
{
  CroWindow *self = CRO_WINDOW (source);
  g_autoptr (CroCopy) copy = NULL;
  g_autofree char *what = NULL;

  if (!cro_window_end_run (self, result, (gpointer *) &copy, NULL))
    return;
  cro_window_show_before (self);
  what = copy != NULL ? dup_last_day (copy)
                      : g_strdup (_("There is no whole copy of this book in its folder."));
  if (copy != NULL)
    cro_window_open_path (self, copy->path);
  cro_window_say (self, what);
}

static void
open_copy_cb (GtkWidget  *widget,
              const char *action,
              GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);
  g_autofree char *name = g_path_get_basename (self->path);
  g_autofree char *doing = cro_isolate_printf (_("Looking for the newest whole copy of “%s”…"), name);

  cro_window_run (self, doing, g_strdup (self->path), g_free, find_in_thread, found_cb);
}

void
cro_window_install_copy (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "win.open-copy", NULL, open_copy_cb);
}
