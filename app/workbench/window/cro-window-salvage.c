#include "config.h"

#include "cro-window-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-free-path.h"
#include "cro-isolate.h"
#include "cro-left-out-words.h"
#include "cro-salvage.h"
#include "cro-saved-window.h"

/* --- In the thread -------------------------------------------------------------------------------- */

typedef struct
{
  char *path;
  char *folder;
} Work;

static void
work_free (gpointer data)
{
  Work *work = data;

  g_free (work->path);
  g_free (work->folder);
  g_free (work);
}

static void
work_in_thread (GTask        *task,
                gpointer      window,
                gpointer      data,
                GCancellable *cancellable)
{
  Work *work = data;
  CroWaiter waiter = { window, cancellable, 0, 1 };
  GError *error = NULL;
  g_autoptr (CroSalvage) salvage = cro_salvage (work->path, work->folder, cro_waiter_go_on, &waiter,
                                                &error);

  if (salvage == NULL || !cro_left_out_write (salvage, work->folder, &error))
    g_task_return_error (task, error);
  else
    g_task_return_pointer (task, g_steal_pointer (&salvage), (GDestroyNotify) cro_salvage_free);
}

/* --- In the window -------------------------------------------------------------------------------- */

static void
say_failure (CroWindow    *self,
             const GError *error)
{
  if (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED))
    cro_window_say (self, _("Nothing of this book can be read."));
  else
    cro_window_fail (self, error);
}

static void
saved_cb (GObject      *source,
          GAsyncResult *result,
          gpointer      user_data)
{
  CroWindow *self = CRO_WINDOW (source);
  Work *work = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;
  g_autoptr (CroSalvage) salvage = NULL;

  if (!cro_window_end_run (self, result, (gpointer *) &salvage, &error))
    return;
  cro_window_show_before (self);
  if (salvage != NULL)
    gtk_window_present (GTK_WINDOW (cro_saved_window_new (GTK_WINDOW (self), work->folder, salvage)));
  else
    say_failure (self, error);
}

/* The name of the book's file without its ending. */
static char *
dup_folder (const char *path)
{
  g_autofree char *file = g_path_get_basename (path);
  g_autofree char *name = g_str_has_suffix (file, ".croustade")
                              ? g_strndup (file, strlen (file) - strlen (".croustade"))
                              : g_strdup (file);
  /* Translators: the name of a folder, in which the tables of a damaged book are; %s is the book. */
  g_autofree char *saved = g_strdup_printf (_("%s, saved"), name);

  return cro_free_path_dup (saved, "");
}

static void
salvage_cb (GtkWidget  *widget,
            const char *action,
            GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);
  Work *work = g_new0 (Work, 1);
  g_autofree char *name = g_path_get_basename (self->path);
  g_autofree char *doing = cro_isolate_printf (_("Saving what can be read of “%s”…"), name);

  work->path = g_strdup (self->path);
  work->folder = dup_folder (self->path);
  cro_window_run (self, doing, work, work_free, work_in_thread, saved_cb);
}

void
cro_window_install_salvage (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "win.salvage", NULL, salvage_cb);
}
