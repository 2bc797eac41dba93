#include "config.h"

#include "cro-window-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-bring.h"
#include "cro-bring-window.h"
#include "cro-edit.h"
#include "cro-file-choice.h"
#include "cro-here.h"
#include "cro-number.h"
#include "cro-past-words.h"
#include "cro-picture-view.h"
#include "cro-place.h"

/* A new book is in the currency of the place, which is shown and can be changed. *change: the newest
 * of it. */
static gboolean
make_book (const char  *path,
           gint64      *change,
           GError     **error)
{
  static const char *const columns[] = { "currency", NULL };
  g_autofree char *desk = cro_here_dup_desk (), *currency = cro_locale_dup_currency ();
  g_autofree char *act = cro_past_dup_act ("book", columns[0], NULL);
  g_autoptr (CroBook) book = cro_book_create (path, desk, cro_here_today (), error);
  CroCell cell = CRO_CELL_STR (currency);

  if (book == NULL
      || (currency != NULL && !cro_edit_set (book, act, "book", 1, columns, &cell, error)))
    return FALSE;
  *change = cro_store_last_change (cro_book_get_store (book));
  return TRUE;
}

/* What was imported stands there then: the first of its recipes, or the day's prices. */
static void
brought_cb (CroWindow  *self,
            int         kind,
            const char *says,
            const char *first)
{
  CroModel *model = cro_book_get_model (self->book);
  CroRef ref = first != NULL ? cro_edit_find_name (model, CRO_NAMES_THINGS, first) : CRO_REF_NOWHERE;

  if (ref.kind == CRO_REF_NONE && first != NULL)
    ref = cro_edit_find_name (model, CRO_NAMES_PREPARATIONS, first);
  self->bring_made.inode = 0;
  cro_window_say (self, says);
  if (ref.kind != CRO_REF_NONE)
    cro_window_open_ref (self, ref);
  else if (kind == CRO_BRING_PRICES)
    cro_window_open_ref (self, CRO_REF (cro_place_get (CRO_PLACE_MARKET)->first, CRO_NO_SLOT));
  else
    cro_window_go_to_place (self, CRO_PLACE_PLATES);
}

static gboolean
is_shown_elsewhere (CroWindow *self)
{
  GtkApplication *application = gtk_window_get_application (GTK_WINDOW (self));
  GList *windows = application != NULL ? gtk_application_get_windows (application) : NULL;

  for (GList *at = windows; at != NULL; at = at->next)
    if (CRO_IS_WINDOW (at->data) && at->data != self
        && cro_window_shows (CRO_WINDOW (at->data), self->path))
      return TRUE;
  return FALSE;
}

/* A book that was made for a spreadsheet alone is not left behind without it, unless something was
 * done in it meanwhile. */
static void
ended_cb (CroWindow *self)
{
  CroOwnFile made = self->bring_made;
  g_autofree char *path = g_strdup (self->path);

  self->bring_made.inode = 0;
  if (made.inode == 0 || gtk_widget_in_destruction (GTK_WIDGET (self)) || self->book == NULL
      || cro_store_last_change (cro_book_get_store (self->book)) != self->bring_change
      || is_shown_elsewhere (self))
    return;
  cro_window_leave_book (self);
  cro_own_file_remove (&made, path);
  cro_window_say (self, _("Nothing was imported, so the new book was removed again."));
}

static void
show (CroWindow  *self,
      const char *path)
{
  GtkWidget *window = cro_bring_window_new (GTK_WINDOW (self), self->book, self->path, path);

  g_signal_connect_object (window, "brought", G_CALLBACK (brought_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (window, "refused", G_CALLBACK (cro_window_say), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (window, "destroy", G_CALLBACK (ended_cb), self, G_CONNECT_SWAPPED);
  gtk_window_present (GTK_WINDOW (window));
}

void
cro_window_bring_waiting (CroWindow *self)
{
  g_autofree char *path = g_steal_pointer (&self->bring_path);

  if (path != NULL && !cro_book_is_past (self->book, NULL) && !self->is_read_only)
    show (self, path);
}

static const char *const suffixes[] = { "xlsx", "xlsm", "csv", "tsv", "txt", NULL };

gboolean
cro_window_is_spreadsheet (const char *path)
{
  const char *dot = strrchr (path, '.');

  for (guint i = 0; dot != NULL && suffixes[i] != NULL; i++)
    if (g_ascii_strcasecmp (dot + 1, suffixes[i]) == 0)
      return TRUE;
  return FALSE;
}

/* A book of the spreadsheet's name, which is open next. */
static void
bring_into_new (CroWindow  *self,
                const char *path)
{
  g_autofree char *name = g_path_get_basename (path), *book_path = NULL;
  g_autoptr (GError) error = NULL;
  g_auto (GStrv) sheets = NULL;
  char *dot;

  /* No book for what cannot be read. */
  sheets = cro_spreadsheet_list (path, &error);
  if (sheets == NULL)
    {
      g_clear_pointer (&self->bring_path, g_free);
      cro_window_fail (self, error);
      return;
    }
  dot = strrchr (name, '.');
  if (dot != NULL && dot > name)
    *dot = '\0';
  book_path = cro_welcome_dup_free_path (name);
  if (!make_book (book_path, &self->bring_change, &error))
    {
      cro_window_fail (self, error);
      return;
    }
  self->bring_made = cro_own_file_note (book_path);
  cro_window_open_path (self, book_path);
}

void
cro_window_bring (CroWindow  *self,
                  const char *path)
{
  self->bring_made.inode = 0;
  if (self->book != NULL)
    {
      show (self, path);
      return;
    }
  g_free (self->bring_path);
  self->bring_path = g_strdup (path);
  if (self->path == NULL)
    bring_into_new (self, path);
}

static void
chosen_cb (gpointer    self,
           const char *path)
{
  cro_window_bring (self, path);
}

static void
bring_cb (GtkWidget  *widget,
          const char *action,
          GVariant   *parameter)
{
  const CroFileChoice choice = {
    .title = _("Import a Spreadsheet"),
    .action = GTK_FILE_CHOOSER_ACTION_OPEN,
    .kind = _("Spreadsheets"),
    .suffixes = suffixes,
  };

  cro_file_choice_ask (&choice, GTK_WINDOW (widget), chosen_cb, widget);
}

/* Of what stands on the bench, if that is a plate or a preparation. */
static gboolean
drop_picture (CroWindow  *self,
              const char *path)
{
  GtkWidget *bench = gtk_stack_get_visible_child (self->bench);

  return bench != NULL && gtk_widget_activate_action (bench, "picture.take", "s", path);
}

/* A spreadsheet that is dropped on the window. */
static gboolean
drop_cb (CroWindow    *self,
         const GValue *value)
{
  GFile *file = g_value_get_object (value);
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;

  if (path == NULL || self->is_read_only
      || (self->book != NULL && cro_book_is_past (self->book, NULL)))
    return FALSE;
  if (cro_picture_view_is_for (path))
    return drop_picture (self, path);
  if (!cro_window_is_spreadsheet (path))
    return FALSE;
  cro_window_bring (self, path);
  return TRUE;
}

void
cro_window_add_bringing (CroWindow *self)
{
  GtkDropTarget *target = gtk_drop_target_new (G_TYPE_FILE, GDK_ACTION_COPY);

  g_signal_connect_object (target, "drop", G_CALLBACK (drop_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (target));
}

void
cro_window_install_bringing (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "win.bring", NULL, bring_cb);
}
