#include "config.h"

#include "cro-window-private.h"

#include <glib/gi18n.h>
#include <glib/gstdio.h>

#include "cro-edit.h"
#include "cro-faults-window.h"
#include "cro-focus.h"
#include "cro-here.h"
#include "cro-load.h"
#include "cro-state.h"
#include "cro-words.h"

/* How often another process's changes are looked for, and how often a bar moves; milliseconds. */
#define POLL_MS 500
#define PULSE_MS 100

/* What a thread does: opens a book, and fills it from a folder of tables first where there is
 * one. */
typedef struct
{
  char         *path;
  char         *folder;
  CroStoreMode  mode;
  CroFaults    *faults;
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

static void
remove_book (const char *path)
{
  static const char *const endings[] = { "", "-wal", "-shm" };

  for (gsize i = 0; i < G_N_ELEMENTS (endings); i++)
    {
      g_autofree char *file = g_strconcat (path, endings[i], NULL);

      g_unlink (file);
    }
}

static gboolean
fill (Work          *work,
      const char    *desk,
      GCancellable  *cancellable,
      GError       **error)
{
  g_autofree char *name = g_path_get_basename (work->folder);
  /* Translators: an entry of the history; %s is the name of a folder. */
  g_autofree char *label = g_strdup_printf (_("Load tables from %s"), name);

  if (!cro_load (work->path, work->folder, desk, label, FALSE, NULL, NULL, work->faults, error))
    return FALSE;
  if (!g_cancellable_set_error_if_cancelled (cancellable, error))
    return TRUE;
  remove_book (work->path);
  return FALSE;
}

static void
work_in_thread (GTask        *task,
                gpointer      source,
                gpointer      data,
                GCancellable *cancellable)
{
  Work *work = data;
  g_autofree char *desk = cro_here_dup_desk ();
  GError *error = NULL;
  CroBook *book = NULL;

  if (work->folder == NULL || fill (work, desk, cancellable, &error))
    book = cro_book_open (work->path, desk, work->mode, cro_here_today (), &error);
  if (book == NULL && work->mode == CRO_STORE_WRITE
      && g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_READ_ONLY))
    {
      g_clear_error (&error);
      work->mode = CRO_STORE_READ;
      book = cro_book_open (work->path, desk, work->mode, cro_here_today (), &error);
    }
  if (book != NULL)
    g_task_return_pointer (task, book, g_object_unref);
  else
    g_task_return_error (task, error);
}

/* --- Trouble ------------------------------------------------------------------------------------------ */

static const struct
{
  int         code;
  const char *title, *what_to_do;
} troubles[] = {
  { CRO_STORE_ERROR_GONE, N_("The book’s file is gone"),
    N_("It was moved, renamed or removed. What you changed until then was written to it. Put it "
       "back and look again, or open it where it is now.") },
  { CRO_STORE_ERROR_NOT_A_BOOK, N_("This is not a book"),
    N_("The file was made by another program. A spreadsheet or its tables can be brought into a "
       "new book.") },
  { CRO_STORE_ERROR_NEWER, N_("This book is newer than the program"),
    N_("It was written by a newer version of Croustade. Update this program to open it; nothing "
       "was changed.") },
  { CRO_STORE_ERROR_DAMAGED, N_("The book is damaged"),
    N_("Nothing was changed. Keep this file, and open the newest copy of the book that you have.") },
  { CRO_STORE_ERROR_LOCKED, N_("Another program is writing into the book"),
    N_("Try again when it is done. Until then the book can be opened to read.") },
};

static void
show_trouble (CroWindow    *self,
              const GError *error)
{
  const char *title = _("The book cannot be opened");
  g_autofree char *text = cro_words_error (error);
  g_autofree char *what = g_strdup (text), *escaped = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (troubles); i++)
    if (g_error_matches (error, CRO_STORE_ERROR, troubles[i].code))
      {
        title = _(troubles[i].title);
        g_free (what);
        what = g_strdup (_(troubles[i].what_to_do));
      }
  if (self->path != NULL)
    {
      g_autofree char *both = g_strdup_printf ("%s\n\n%s", what, self->path);

      escaped = g_markup_escape_text (both, -1);
    }
  adw_status_page_set_title (self->trouble, title);
  adw_status_page_set_description (self->trouble, escaped);
  gtk_widget_set_visible (self->read_button,
                          g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_LOCKED));
  gtk_widget_set_visible (self->banner, FALSE);
  gtk_stack_set_visible_child_name (self->stack, "trouble");
}

/* What holds for the whole book as long as it is open here. */
static void
show_banner (CroWindow *self)
{
  gboolean on_network = cro_store_is_on_network (self->path);

  gtk_label_set_label (self->banner_label,
                       self->is_read_only
                           ? _("This book can only be read: its file or folder cannot be written. "
                               "Copy it to a folder of your own to change it.")
                           : _("This book is on a network, where two programs may not see each "
                               "other’s changes. Open it on one machine at a time."));
  gtk_widget_set_visible (self->banner, self->is_read_only || on_network);
}

/* --- Opening -------------------------------------------------------------------------------------------- */

static gboolean
pulse_cb (gpointer self)
{
  gtk_progress_bar_pulse (CRO_WINDOW (self)->progress);
  return G_SOURCE_CONTINUE;
}

static void
end_work (CroWindow *self)
{
  g_clear_handle_id (&self->pulse_id, g_source_remove);
  g_clear_object (&self->work);
}

static void
show_before (CroWindow *self)
{
  gtk_stack_set_visible_child_name (self->stack, self->book != NULL ? "book" : "welcome");
  if (self->book == NULL)
    cro_welcome_focus (self->welcome);
}

static void
note_recent (const char *path)
{
  g_autofree char *uri = g_filename_to_uri (path, NULL, NULL);

  if (uri != NULL)
    gtk_recent_manager_add_item (gtk_recent_manager_get_default (), uri);
  cro_state_set_text ("window", "last", path);
}

static void
worked_cb (GObject      *source,
           GAsyncResult *result,
           gpointer      user_data)
{
  CroWindow *self = CRO_WINDOW (source);
  Work *work = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;
  g_autoptr (CroBook) book = g_task_propagate_pointer (G_TASK (result), &error);

  /* Whoever cancelled has left the page already, or the window is gone. */
  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  end_work (self);
  if (book != NULL)
    {
      self->is_read_only = work->mode == CRO_STORE_READ;
      cro_window_set_book (self, book);
      cro_window_watch (self);
      show_banner (self);
      cro_window_show_notes (self);
      note_recent (self->path);
    }
  else if (g_error_matches (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_FAULTS))
    {
      show_before (self);
      gtk_window_present (GTK_WINDOW (cro_faults_window_new (GTK_WINDOW (self), work->faults)));
    }
  else
    show_trouble (self, error);
}

static void
begin_work (CroWindow    *self,
            const char   *path,
            const char   *folder,
            CroStoreMode  mode)
{
  g_autoptr (GTask) task = NULL;
  g_autofree char *name = g_path_get_basename (folder != NULL ? folder : path);
  g_autofree char *doing = g_strdup_printf (folder != NULL ? _("Loading the tables of “%s”…")
                                                           : _("Opening “%s”…"),
                                            name);
  Work *work = g_new0 (Work, 1);

  work->path = g_canonicalize_filename (path, NULL);
  work->folder = g_strdup (folder);
  work->mode = mode;
  work->faults = cro_faults_new ();
  g_cancellable_cancel (self->work);
  end_work (self);
  g_clear_handle_id (&self->poll_id, g_source_remove);
  g_free (self->path);
  self->path = g_strdup (work->path);
  gtk_label_set_label (self->doing, doing);
  gtk_stack_set_visible_child_name (self->stack, "opening");
  self->pulse_id = g_timeout_add (PULSE_MS, pulse_cb, self);
  self->work = g_cancellable_new ();
  task = g_task_new (self, self->work, worked_cb, NULL);
  g_task_set_task_data (task, work, work_free);
  g_task_run_in_thread (task, work_in_thread);
}

void
cro_window_open_path (CroWindow  *self,
                      const char *path)
{
  begin_work (self, path, NULL, CRO_STORE_WRITE);
}

gboolean
cro_window_shows (CroWindow  *self,
                  const char *path)
{
  g_autofree char *whole = g_canonicalize_filename (path, NULL);

  return g_strcmp0 (self->path, whole) == 0;
}

static void
cancel_cb (GtkWidget  *widget,
           const char *action,
           GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);

  g_cancellable_cancel (self->work);
  end_work (self);
  show_before (self);
}

/* --- Other processes -------------------------------------------------------------------------------------- */

static gboolean
look (CroWindow *self)
{
  g_autoptr (GError) error = NULL;

  if (cro_book_refresh (self->book, NULL, &error)
      || g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_LOCKED))
    return TRUE;
  g_clear_handle_id (&self->poll_id, g_source_remove);
  show_trouble (self, error);
  return FALSE;
}

static gboolean
poll_cb (gpointer self)
{
  look (self);
  return G_SOURCE_CONTINUE;
}

static void
is_active_cb (CroWindow *self)
{
  if (self->poll_id != 0 && gtk_window_is_active (GTK_WINDOW (self)))
    look (self);
}

void
cro_window_watch (CroWindow *self)
{
  g_clear_handle_id (&self->poll_id, g_source_remove);
  self->poll_id = g_timeout_add (POLL_MS, poll_cb, self);
  g_signal_handlers_disconnect_by_func (self, is_active_cb, NULL);
  g_signal_connect (self, "notify::is-active", G_CALLBACK (is_active_cb), NULL);
}

/* --- Where it was ------------------------------------------------------------------------------------------ */

void
cro_window_remember (CroWindow *self)
{
  g_autofree char *way = NULL;
  const char *table = NULL;
  gint64 id = 0;

  if (self->book == NULL || self->now.kind == CRO_REF_NONE)
    return;
  way = cro_focus_dup_way (GTK_WIDGET (self->bench));
  if (self->now.kind == CRO_REF_SUPPLIER)
    table = "market";
  else if (self->now.kind == CRO_REF_SALES)
    table = "months";
  else
    id = cro_edit_row (cro_book_get_model (self->book), self->now, &table);
  cro_state_set_text (self->path, "table", table);
  cro_state_set_int (self->path, "id", (int) id);
  cro_state_set_text (self->path, "focus", way);
}

/* --- Actions ------------------------------------------------------------------------------------------------ */

/* A window for another book: this one, as long as it has none. */
static CroWindow *
window_for_another (CroWindow *self)
{
  GtkWidget *window;

  if (self->book == NULL)
    return self;
  window = cro_window_new (ADW_APPLICATION (gtk_window_get_application (GTK_WINDOW (self))));
  gtk_window_present (GTK_WINDOW (window));
  return CRO_WINDOW (window);
}

static void
open_path_cb (GtkWidget  *widget,
              const char *action,
              GVariant   *path)
{
  cro_window_open_path (window_for_another (CRO_WINDOW (widget)), g_variant_get_string (path, NULL));
}

static void
book_chosen_cb (GtkFileChooser *chooser,
                int             response,
                CroWindow      *self)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (chooser);
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;

  if (response == GTK_RESPONSE_ACCEPT && path != NULL)
    cro_window_open_path (window_for_another (self), path);
  g_object_unref (chooser);
}

static void
open_book_cb (GtkWidget  *widget,
              const char *action,
              GVariant   *parameter)
{
  GtkFileChooserNative *chooser
      = gtk_file_chooser_native_new (_("Open a Book"), GTK_WINDOW (widget),
                                     GTK_FILE_CHOOSER_ACTION_OPEN, NULL, NULL);
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();

  gtk_file_filter_set_name (filter, _("Books"));
  gtk_file_filter_add_suffix (filter, "croustade");
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (chooser), filter);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  g_signal_connect (chooser, "response", G_CALLBACK (book_chosen_cb), widget);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

static void
folder_chosen_cb (GtkFileChooser *chooser,
                  int             response,
                  CroWindow      *self)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (chooser);
  g_autofree char *folder = file != NULL ? g_file_get_path (file) : NULL;

  if (response == GTK_RESPONSE_ACCEPT && folder != NULL)
    {
      g_autofree char *name = g_path_get_basename (folder);
      g_autofree char *path = cro_welcome_dup_free_path (name);

      begin_work (window_for_another (self), path, folder, CRO_STORE_WRITE);
    }
  g_object_unref (chooser);
}

static void
load_tables_cb (GtkWidget  *widget,
                const char *action,
                GVariant   *parameter)
{
  GtkFileChooserNative *chooser
      = gtk_file_chooser_native_new (_("Choose a Folder of Tables"), GTK_WINDOW (widget),
                                     GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER, NULL, NULL);

  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  g_signal_connect (chooser, "response", G_CALLBACK (folder_chosen_cb), widget);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

static void
open_demo_cb (GtkWidget  *widget,
              const char *action,
              GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);
  g_autofree char *folder = cro_window_dup_demo_folder ();
  g_autofree char *path = cro_welcome_dup_free_path ("Saltmarsh Rooms");

  if (folder == NULL)
    cro_window_say (self, _("The demo’s tables are not there."));
  else
    begin_work (window_for_another (self), path, folder, CRO_STORE_WRITE);
}

static void
new_book_cb (GtkWidget  *widget,
             const char *action,
             GVariant   *parameter)
{
  CroWindow *self = window_for_another (CRO_WINDOW (widget));

  gtk_stack_set_visible_child_name (self->stack, "welcome");
  cro_welcome_focus (self->welcome);
}

static void
new_window_cb (GtkWidget  *widget,
               const char *action,
               GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);
  GtkApplication *application = gtk_window_get_application (GTK_WINDOW (self));
  GtkWidget *other = cro_window_new (ADW_APPLICATION (application));

  cro_window_remember (self);
  gtk_window_present (GTK_WINDOW (other));
  if (self->book != NULL)
    cro_window_open_path (CRO_WINDOW (other), self->path);
}

static void
retry_cb (GtkWidget  *widget,
          const char *action,
          GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);
  g_autofree char *path = g_strdup (self->path);

  if (path != NULL)
    begin_work (self, path, NULL,
                g_str_equal (action, "win.open-to-read") ? CRO_STORE_READ : CRO_STORE_WRITE);
}

void
cro_window_install_opening (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "win.cancel-work", NULL, cancel_cb);
  gtk_widget_class_install_action (widget_class, "win.load-tables", NULL, load_tables_cb);
  gtk_widget_class_install_action (widget_class, "win.new-book", NULL, new_book_cb);
  gtk_widget_class_install_action (widget_class, "win.new-window", NULL, new_window_cb);
  gtk_widget_class_install_action (widget_class, "win.open-book", NULL, open_book_cb);
  gtk_widget_class_install_action (widget_class, "win.open-demo", NULL, open_demo_cb);
  gtk_widget_class_install_action (widget_class, "win.open-path", "s", open_path_cb);
  gtk_widget_class_install_action (widget_class, "win.open-to-read", NULL, retry_cb);
  gtk_widget_class_install_action (widget_class, "win.retry", NULL, retry_cb);
}
