#include "config.h"

#include "cro-window-private.h"

#include <glib/gi18n.h>

#include "cro-file-choice.h"
#include "cro-recent.h"

/* How long a new window waits for its book, in milliseconds: a small one stands in the first frame. */
#define PRESENT_MS 200

/* --- A window for a book -------------------------------------------------------------------------- */

void
cro_window_end_hiding (CroWindow *self)
{
  if (self->present_id == 0)
    return;
  g_clear_handle_id (&self->present_id, g_source_remove);
  gtk_window_present (GTK_WINDOW (self));
}

static gboolean
present_cb (gpointer self)
{
  cro_window_end_hiding (self);
  return G_SOURCE_REMOVE;
}

static CroWindow *
hidden_window_new (GtkApplication *application)
{
  CroWindow *self = g_object_new (CRO_TYPE_WINDOW, "application", application, NULL);

  self->present_id = g_timeout_add (PRESENT_MS, present_cb, self);
  return self;
}

static CroWindow *
find_window (GtkApplication *application,
             const char     *path)
{
  for (GList *at = gtk_application_get_windows (application); at != NULL; at = at->next)
    if (CRO_IS_WINDOW (at->data) && cro_window_shows (CRO_WINDOW (at->data), path))
      return at->data;
  return NULL;
}

static CroWindow *
find_window_for_none (GtkApplication *application)
{
  for (GList *at = gtk_application_get_windows (application); at != NULL; at = at->next)
    if (CRO_IS_WINDOW (at->data) && ((CroWindow *) at->data)->path == NULL)
      return at->data;
  return NULL;
}

/* Into the book that was open last, or else into a new one. */
static void
bring_in (GtkApplication *application,
          const char     *path)
{
  GtkWindow *active = gtk_application_get_active_window (application);
  GtkWidget *window = active != NULL && CRO_IS_WINDOW (active)
                        ? GTK_WIDGET (active) : cro_window_new (ADW_APPLICATION (application));

  gtk_window_present (GTK_WINDOW (window));
  cro_window_bring (CRO_WINDOW (window), path);
}

/* What was in trouble is looked at again: whoever opens it may have put it right. */
void
cro_window_open_in (GtkApplication *application,
                    const char     *path)
{
  CroWindow *window = find_window (application, path);
  gboolean is_shown = window != NULL
                      && g_strcmp0 (gtk_stack_get_visible_child_name (window->stack), "trouble") != 0;

  if (cro_window_is_spreadsheet (path))
    {
      bring_in (application, path);
      return;
    }
  if (window == NULL)
    window = find_window_for_none (application);
  if (window == NULL)
    window = hidden_window_new (application);
  else
    gtk_window_present (GTK_WINDOW (window));
  if (!is_shown)
    cro_window_open_path (window, path);
  /* What the screen asks of it is done while the thread reads. */
  if (window->present_id != 0)
    gtk_widget_realize (GTK_WIDGET (window));
}

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

/* --- Actions ---------------------------------------------------------------------------------------- */

static void
open_path_cb (GtkWidget  *widget,
              const char *action,
              GVariant   *path)
{
  cro_window_open_in (gtk_window_get_application (GTK_WINDOW (widget)),
                      g_variant_get_string (path, NULL));
}

static void
book_chosen_cb (gpointer    self,
                const char *path)
{
  cro_window_open_in (gtk_window_get_application (self), path);
}

static void
open_book_cb (GtkWidget  *widget,
              const char *action,
              GVariant   *parameter)
{
  static const char *const suffixes[] = { "croustade", NULL };
  const CroFileChoice choice = {
    .title = _("Open a Book"),
    .action = GTK_FILE_CHOOSER_ACTION_OPEN,
    .kind = _("Books"),
    .suffixes = suffixes,
  };

  cro_file_choice_ask (&choice, GTK_WINDOW (widget), book_chosen_cb, widget);
}

static void
make_from (CroWindow  *self,
           const char *folder)
{
  g_autofree char *name = g_path_get_basename (folder);
  g_autofree char *path = cro_welcome_dup_free_path (name);

  cro_window_begin_work (window_for_another (self), path, folder);
}

static void
make_from_cb (GtkWidget  *widget,
              const char *action,
              GVariant   *folder)
{
  make_from (CRO_WINDOW (widget), g_variant_get_string (folder, NULL));
}

static void
folder_chosen_cb (gpointer    self,
                  const char *folder)
{
  make_from (self, folder);
}

static void
load_tables_cb (GtkWidget  *widget,
                const char *action,
                GVariant   *parameter)
{
  const CroFileChoice choice = {
    .title = _("Choose a Folder of Tables"),
    .action = GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER,
  };

  cro_file_choice_ask (&choice, GTK_WINDOW (widget), folder_chosen_cb, widget);
}

static void
open_demo_cb (GtkWidget  *widget,
              const char *action,
              GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);
  g_autofree char *folder = cro_window_dup_demo_folder ();
  g_autofree char *path = cro_welcome_dup_free_path (CRO_DEMO_BOOK);

  if (folder == NULL)
    cro_window_say (self, _("The demo’s tables are missing."));
  else
    cro_window_begin_work (window_for_another (self), path, folder);
}

static void
new_book_cb (GtkWidget  *widget,
             const char *action,
             GVariant   *parameter)
{
  CroWindow *self = window_for_another (CRO_WINDOW (widget));

  cro_window_show_welcome (self);
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
    cro_window_open_path (self, path);
}

/* --- Books of late ------------------------------------------------------------------------------------ */

static void
add_recent (GMenu      *menu,
            const char *path)
{
  g_autofree char *name = cro_recent_dup_name (path);
  g_auto (GStrv) parts = g_strsplit (name, "_", -1);
  /* A single underscore would make the letter after it a key. */
  g_autofree char *label = g_strjoinv ("__", parts);
  g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);

  g_menu_item_set_action_and_target (item, "win.open-path", "s", path);
  g_menu_append_item (menu, item);
}

static void
fill_recent (CroWindow *self)
{
  g_auto (GStrv) paths = cro_recent_dup ();

  g_menu_remove_all (self->recent_menu);
  for (guint i = 0; paths[i] != NULL; i++)
    add_recent (self->recent_menu, paths[i]);
  /* An entry without an action cannot be chosen. */
  if (paths[0] == NULL)
    g_menu_append (self->recent_menu, _("None yet"), "win.none");
}

void
cro_window_add_recent (CroWindow *self)
{
  fill_recent (self);
  cro_recent_watch (self, G_CALLBACK (fill_recent));
}

void
cro_window_install_choosing (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "win.load-tables", NULL, load_tables_cb);
  gtk_widget_class_install_action (widget_class, "win.make-from", "s", make_from_cb);
  gtk_widget_class_install_action (widget_class, "win.new-book", NULL, new_book_cb);
  gtk_widget_class_install_action (widget_class, "win.new-window", NULL, new_window_cb);
  gtk_widget_class_install_action (widget_class, "win.open-book", NULL, open_book_cb);
  gtk_widget_class_install_action (widget_class, "win.open-demo", NULL, open_demo_cb);
  gtk_widget_class_install_action (widget_class, "win.open-path", "s", open_path_cb);
  gtk_widget_class_install_action (widget_class, "win.retry", NULL, retry_cb);
}
