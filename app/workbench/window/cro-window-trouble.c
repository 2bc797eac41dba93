#include "config.h"

#include "cro-window-private.h"

#include <glib/gi18n.h>

#include "cro-refused-words.h"

static const struct
{
  int         code;
  const char *title, *what_to_do;
} troubles[] = {
  { CRO_STORE_ERROR_GONE, N_("The book’s file is gone"),
    N_("The file was moved, renamed or removed. What you changed until then was saved in it. Put "
       "it back and try again, or open it where it is now.") },
  { CRO_STORE_ERROR_NOT_A_BOOK, N_("This is not a book"),
    N_("The file was made by another program; nothing in it was changed. A spreadsheet saved as "
       "tables, one CSV file each, can be imported into a new book.") },
  { CRO_STORE_ERROR_FOLDER, N_("This is a folder, not a book"),
    N_("A book is one file; nothing was changed. A folder of tables, one CSV file each, can be imported into a new "
       "book.") },
  { CRO_STORE_ERROR_NEWER, N_("This book is newer than the program"),
    N_("It was written by a newer version of Croustade. Update this program to open it; nothing "
       "was changed.") },
  { CRO_STORE_ERROR_DAMAGED, N_("The book is damaged"),
    N_("Nothing was changed. Open the newest whole copy in its folder, or save what can be read of "
       "this file as tables. Keep this file in either case.") },
  { CRO_STORE_ERROR_LOCKED, N_("The book is in use"),
    N_("Another program has locked this book, so it cannot be read. Try again when that program "
       "is done; nothing was changed.") },
};

/* What was never open here has nothing that was changed. */
static const char *const never_there[] = {
  N_("There is no book here"),
  N_("No file has this name. If it was moved, renamed or removed, put it back and try again, or open it where it is "
     "now. A new book is begun in the menu, with New Book."),
};

static GtkWidget *
add_button (GtkWidget  *box,
            const char *label,
            const char *action)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (label);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_box_append (GTK_BOX (box), button);
  return button;
}

/* A window comes up sooner without this page, which few ever see. */
static void
need_page (CroWindow *self)
{
  GtkWidget *page, *box;

  if (self->trouble != NULL)
    return;
  page = adw_status_page_new ();
  self->trouble = ADW_STATUS_PAGE (page);
  box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_widget_set_halign (box, GTK_ALIGN_CENTER);
  self->retry_button = add_button (box, _("_Try Again"), "win.retry");
  self->copy_button = add_button (box, _("Open the _Newest Copy"), "win.open-copy");
  self->salvage_button = add_button (box, _("_Save What Can Be Read"), "win.salvage");
  /* Translators: a folder of CSV files that Croustade wrote, or laid out as its manual says. */
  self->tables_button = add_button (box, _("_Import a Folder of Tables…"), "win.load-tables");
  self->other_button = add_button (box, _("_Open Another Book…"), "win.open-book");
  gtk_widget_add_css_class (page, "compact");
  adw_status_page_set_icon_name (self->trouble, "dialog-warning-symbolic");
  adw_status_page_set_child (self->trouble, box);
  gtk_stack_add_named (self->stack, page, "trouble");
}

static void
set_words (CroWindow  *self,
           const char *title,
           const char *what_to_do)
{
  g_autofree char *both = self->path != NULL ? g_strdup_printf ("%s\n\n%s", what_to_do, self->path)
                                             : g_strdup (what_to_do);
  g_autofree char *escaped = g_markup_escape_text (both, -1);

  adw_status_page_set_title (self->trouble, title);
  adw_status_page_set_description (self->trouble, escaped);
}

static void
say_what (CroWindow    *self,
          const GError *error)
{
  g_autofree char *text = NULL;

  if (self->book == NULL && g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_GONE))
    {
      set_words (self, _(never_there[0]), _(never_there[1]));
      return;
    }
  for (gsize i = 0; i < G_N_ELEMENTS (troubles); i++)
    if (g_error_matches (error, CRO_STORE_ERROR, troubles[i].code))
      {
        set_words (self, _(troubles[i].title), _(troubles[i].what_to_do));
        return;
      }
  text = cro_words_failed (error);
  set_words (self, _("The book cannot be opened"), text);
}

void
cro_window_show_trouble (CroWindow    *self,
                         const GError *error)
{
  gboolean is_damaged
      = self->path != NULL
        && (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED)
            || g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_ALTERED));

  need_page (self);
  say_what (self, error);
  gtk_widget_set_visible (self->retry_button, self->path != NULL);
  gtk_widget_set_visible (self->copy_button, is_damaged);
  gtk_widget_set_visible (self->salvage_button, is_damaged);
  gtk_widget_set_visible (self->tables_button,
                          g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_NOT_A_BOOK)
                              || g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_FOLDER));
  gtk_widget_set_visible (self->banner, FALSE);
  gtk_widget_set_visible (self->notes, FALSE);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.retry", self->path != NULL);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.open-copy", is_damaged);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.salvage", is_damaged);
  gtk_stack_set_visible_child_name (self->stack, "trouble");
  gtk_widget_grab_focus (is_damaged           ? self->copy_button
                         : self->path != NULL ? self->retry_button
                                              : self->other_button);
}

void
cro_window_show_banner (CroWindow *self)
{
  gboolean on_network = cro_store_is_on_network (self->path);

  gtk_label_set_label (self->banner_label,
                       self->is_locked
                           ? _("This book was opened read-only, as another program was writing "
                               "into it.")
                       : self->is_read_only
                           ? _("This book can only be read: its file or folder cannot be written. "
                               "Copy it to a folder of your own to change it.")
                           : _("This book is on a network, where two programs may not see each "
                               "other’s changes. Open it on one machine at a time."));
  gtk_widget_set_visible (self->write_button, self->is_read_only);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.retry", self->is_read_only);
  gtk_widget_set_visible (self->banner, self->is_read_only || on_network);
}
