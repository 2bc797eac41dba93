#include "config.h"

#include "cro-window-private.h"

#include <glib/gi18n.h>

#include "cro-book-open.h"
#include "cro-faults-window.h"
#include "cro-here.h"
#include "cro-isolate.h"
#include "cro-load.h"
#include "cro-own-file.h"
#include "cro-recent.h"
#include "cro-state.h"

/* How often another process's changes are looked for, in milliseconds. */
#define POLL_MS 500

/* What a thread does: opens a book, and fills it from a folder of tables first where there is
 * one. */
typedef struct
{
  char      *path;
  char      *folder;
  CroDate    day;           /* whose prices; of a past whose book, too */
  gboolean   is_past;
  CroFaults *faults;
  gboolean   is_read_only;
  gboolean   is_locked;     /* that is why */
} Work;

static void
work_free (gpointer data)
{
  Work *work = data;

  g_free (work->path);
  g_free (work->folder);
  cro_faults_free (work->faults);
  g_free (work);
}

/* --- In the thread -------------------------------------------------------------------------------- */

/* The part of making a book that is reading its tables; the rest is opening it. */
#define PART_OF_TABLES 0.9

static gboolean
fill (Work          *work,
      CroWindow     *window,
      const char    *desk,
      GCancellable  *cancellable,
      GError       **error)
{
  g_autofree char *name = g_path_get_basename (work->folder);
  /* Translators: an entry of the history; %s is the name of a folder. */
  g_autofree char *label = cro_isolate_printf (_("tables loaded from %s"), name);
  CroWaiter waiter = { window, cancellable, 0, PART_OF_TABLES };

  return cro_load (work->path, work->folder, desk, label, FALSE, cro_waiter_go_on, &waiter, work->faults, error);
}

/* What cannot be written now can often be read. */
static CroBook *
open_book (Work            *work,
           const char      *desk,
           const CroWatch  *watch,
           GError         **error)
{
  g_autoptr (GError) refused = NULL;
  CroBook *book;

  if (work->is_past)
    return cro_book_open_past_watched (work->path, work->day, work->day, watch, error);
  book = cro_book_open_watched (work->path, desk, CRO_STORE_WRITE, work->day, watch, &refused);
  work->is_locked = g_error_matches (refused, CRO_STORE_ERROR, CRO_STORE_ERROR_LOCKED);
  work->is_read_only = work->is_locked
                       || g_error_matches (refused, CRO_STORE_ERROR, CRO_STORE_ERROR_READ_ONLY);
  if (work->is_read_only)
    return cro_book_open_watched (work->path, desk, CRO_STORE_READ, work->day, watch, error);
  if (book == NULL)
    g_propagate_error (error, g_steal_pointer (&refused));
  return book;
}

static void
work_in_thread (GTask        *task,
                gpointer      window,
                gpointer      data,
                GCancellable *cancellable)
{
  Work *work = data;
  g_autofree char *desk = cro_here_dup_desk ();
  g_autoptr (CroBook) book = NULL;
  double before = work->folder != NULL ? PART_OF_TABLES : 0;
  CroWaiter waiter = { window, cancellable, before, 1 - before };
  CroWatch watch = { cro_waiter_go_on, &waiter };
  CroOwnFile made = { 0, 0 };
  GError *error = NULL;
  gboolean is_filled = work->folder == NULL || fill (work, window, desk, cancellable, &error);

  if (is_filled && work->folder != NULL)
    made = cro_own_file_note (work->path);
  if (is_filled)
    book = open_book (work, desk, &watch, &error);
  /* A book whose making was given up is not left behind. */
  if (book != NULL && work->folder != NULL && g_cancellable_is_cancelled (cancellable))
    {
      g_clear_object (&book);
      cro_own_file_remove (&made, work->path);
    }
  if (g_task_return_error_if_cancelled (task))
    g_clear_error (&error);
  else if (book != NULL)
    g_task_return_pointer (task, g_steal_pointer (&book), g_object_unref);
  else
    g_task_return_error (task, error);
}

/* --- Other processes -------------------------------------------------------------------------------------- */

static gboolean
look (CroWindow *self)
{
  g_autoptr (GError) error = NULL;

  if (cro_book_refresh (self->book, NULL, &error)
      || g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_LOCKED))
    {
      cro_store_tend (cro_book_get_store (self->book));
      return TRUE;
    }
  g_clear_handle_id (&self->poll_id, g_source_remove);
  cro_window_remember (self);
  cro_window_show_trouble (self, error);
  return FALSE;
}

/* What is typed is remembered now and then, so that little is lost with the program. */
static gboolean
poll_cb (gpointer self)
{
  if (look (self))
    cro_window_remember (self);
  return G_SOURCE_CONTINUE;
}

static void
is_active_cb (CroWindow *self)
{
  if (self->poll_id != 0 && gtk_window_is_active (GTK_WINDOW (self)))
    look (self);
}

void
cro_window_watch_file (CroWindow *self)
{
  g_clear_handle_id (&self->poll_id, g_source_remove);
  self->poll_id = g_timeout_add (POLL_MS, poll_cb, self);
  g_signal_handlers_disconnect_by_func (self, is_active_cb, NULL);
  g_signal_connect (self, "notify::is-active", G_CALLBACK (is_active_cb), NULL);
}

/* --- Opening -------------------------------------------------------------------------------------------- */

static void
worked_cb (GObject      *source,
           GAsyncResult *result,
           gpointer      user_data)
{
  CroWindow *self = CRO_WINDOW (source);
  Work *work = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;
  g_autoptr (CroBook) book = NULL;

  if (!cro_window_end_run (self, result, (gpointer *) &book, &error))
    return;
  cro_window_end_hiding (self);
  if (book != NULL)
    {
      self->is_read_only = work->is_read_only;
      self->is_locked = work->is_locked;
      cro_window_set_book (self, book);
      cro_window_watch_file (self);
      cro_window_show_banner (self);
      cro_window_show_notes (self);
      cro_recent_note (self->path);
      cro_state_set_text ("window", "last", self->path);
    }
  else if (g_error_matches (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_FAULTS))
    {
      cro_window_show_before (self);
      gtk_window_present (GTK_WINDOW (cro_faults_window_new (GTK_WINDOW (self), work->faults)));
    }
  else if (work->is_past)
    {
      /* The day before it began, say: what was shown still is. */
      cro_window_show_before (self);
      cro_window_fail (self, error);
    }
  else
    {
      /* What could not be made cannot be looked at again. */
      if (work->folder != NULL && self->book == NULL)
        g_clear_pointer (&self->path, g_free);
      cro_window_show_trouble (self, error);
    }
}

static Work *
work_new (const char *path,
          const char *folder,
          CroDate     day,
          gboolean    is_past)
{
  Work *work = g_new0 (Work, 1);

  work->path = g_canonicalize_filename (path, NULL);
  work->folder = g_strdup (folder);
  work->day = day;
  work->is_past = is_past;
  work->faults = cro_faults_new ();
  return work;
}

/* work: given away. */
static void
begin (CroWindow *self,
       Work      *work)
{
  const char *folder = work->folder;
  g_autofree char *path = g_strdup (work->path);
  g_autofree char *name = g_path_get_basename (folder != NULL ? folder : work->path);
  g_autofree char *doing = cro_isolate_printf (folder != NULL ? _("Loading the tables of “%s”…")
                                                              : _("Opening “%s”…"),
                                               name);

  cro_window_run (self, doing, work, work_free, work_in_thread, worked_cb);
  if (g_strcmp0 (self->path, path) != 0)
    cro_window_forget_left (self);
  g_free (self->path);
  self->path = g_steal_pointer (&path);
}

void
cro_window_begin_work (CroWindow  *self,
                       const char *path,
                       const char *folder)
{
  begin (self, work_new (path, folder, cro_here_today (), FALSE));
}

/* What is typed is remembered first: the benches get another book. */
void
cro_window_open_day (CroWindow *self,
                     CroDate    day,
                     gboolean   is_past)
{
  cro_window_remember (self);
  begin (self, work_new (self->path, NULL, day, is_past));
}

void
cro_window_open_path (CroWindow  *self,
                      const char *path)
{
  cro_window_begin_work (self, path, NULL);
}

gboolean
cro_window_shows (CroWindow  *self,
                  const char *path)
{
  g_autofree char *whole = g_canonicalize_filename (path, NULL);

  return g_strcmp0 (self->path, whole) == 0;
}

void
cro_window_install_opening (GtkWidgetClass *widget_class)
{
  cro_window_install_waiting (widget_class);
  cro_window_install_choosing (widget_class);
}
