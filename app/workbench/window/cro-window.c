#include "config.h"

#include "cro-window-private.h"

#include <glib/gi18n.h>

#include "cro-cure.h"
#include "cro-field-menu.h"
#include "cro-focus.h"
#include "cro-history-window.h"
#include "cro-isolate.h"
#include "cro-later.h"
#include "cro-refused-words.h"
#include "cro-settings-window.h"
#include "cro-state.h"
#include "cro-toast.h"
#include "cro-words.h"

G_DEFINE_FINAL_TYPE (CroWindow, cro_window, ADW_TYPE_APPLICATION_WINDOW)

/* --- Saying things ------------------------------------------------------------------------------------- */

void
cro_window_say (CroWindow  *self,
                const char *text)
{
  cro_toast_say (self->toasts, text);
}

void
cro_window_say_unkept (CroWindow    *self,
                       const GError *error)
{
  g_autofree char *why = cro_words_error (error);
  /* Translators: why. */
  g_autofree char *text = cro_isolate_printf (_("What is typed and not kept is lost when the program is closed: %s"),
                                              why);

  cro_window_say (self, text);
}

void
cro_window_fail (CroWindow    *self,
                 const GError *error)
{
  g_autofree char *text = cro_words_failed (error);

  cro_window_say (self, text);
}

/* --- The book ------------------------------------------------------------------------------------------------ */

/* The book was read anew: no slot is what it was. */
static void
forget_slots (CroWindow *self)
{
  self->serial = cro_book_get_model (self->book)->serial;
  g_array_set_size (self->before, 0);
  if (self->now.kind != CRO_REF_NONE && self->now.slot != CRO_NO_SLOT)
    cro_window_leave_gone (self);
}

/* What stood on the bench may be gone: undone, or removed in another window. */
static void
book_changed_cb (CroWindow *self)
{
  CroModel *model = cro_book_get_model (self->book);
  g_autofree char *file = NULL;
  gint64 change;

  /* A preview writes nothing. */
  if (cro_book_get_edition (self->book) == self->undo_edition)
    return;
  self->undo_edition = cro_book_get_edition (self->book);
  if (self->serial != model->serial)
    forget_slots (self);
  change = cro_store_last_change (cro_book_get_store (self->book));
  if (change == self->undo_change)
    return;
  file = g_path_get_basename (self->path);
  cro_window_note_price (self, self->undo_change);
  self->undo_change = change;
  adw_window_title_set_title (self->title, model->name != NULL ? model->name : file);
  adw_window_title_set_subtitle (self->title, model->name != NULL ? file : "");
  gtk_window_set_title (GTK_WINDOW (self), adw_window_title_get_title (self->title));
  cro_window_update_undo (self);
  if (self->now.kind != CRO_REF_NONE && !cro_window_is_alive (model, self->now))
    cro_window_leave_gone (self);
  cro_window_tell_lost_trials (self);
}

/* What there is to do with a book alone; Undo, Redo and Back come with what they would do. */
static void
enable_actions (CroWindow *self,
                gboolean   has_book)
{
  static const char *const actions[] = {
    "win.history", "win.new-menu", "win.new-thing", "win.new-window", "win.next-part", "win.place",
    "win.previous-part", "win.search", "win.search-list", "win.settings", "win.toggle-list",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (actions); i++)
    gtk_widget_action_set_enabled (GTK_WIDGET (self), actions[i], has_book);
}

/* What is for later: there is something to go back to, to undo, to try. */
static void
disable_later (CroWindow *self)
{
  static const char *const later[] = { "win.back", "win.undo", "win.redo", "win.retry", "win.trial",
                                       "win.cancel-work", "win.open-copy", "win.salvage" };

  for (gsize i = 0; i < G_N_ELEMENTS (later); i++)
    gtk_widget_action_set_enabled (GTK_WIDGET (self), later[i], FALSE);
}

void
cro_window_set_book (CroWindow *self,
                     CroBook   *book)
{
  g_set_object (&self->book, book);
  cro_later_begin (book);
  /* After the list, which must not offer what is gone. */
  g_signal_connect_object (book, "changed", G_CALLBACK (book_changed_cb), self,
                           G_CONNECT_SWAPPED | G_CONNECT_AFTER);
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self->bench)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (CRO_IS_BENCH (child))
      cro_bench_set_book (CRO_BENCH (child), book);
  self->serial = cro_book_get_model (book)->serial;
  self->now = CRO_REF_NOWHERE;
  self->place = CRO_PLACE_PLATES;
  self->undo_change = -1;
  self->undo_edition = 0;
  g_array_set_size (self->before, 0);
  cro_place_list_set_book (self->list, book);
  cro_month_list_set_book (self->months, book);
  for (int place = 0; place < CRO_N_PLACES; place++)
    if (self->page_lists[place] != NULL)
      cro_page_list_set_book (self->page_lists[place], book);
  enable_actions (self, TRUE);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.new-thing",
                                 !cro_book_is_past (book, NULL));
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.new-menu", !cro_book_is_past (book, NULL));
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.bring",
                                 !cro_book_is_past (book, NULL) && !self->is_read_only);
  cro_window_begin_date (self);
  gtk_stack_set_visible_child_name (self->stack, "book");
  cro_window_go_where_it_was (self);
  book_changed_cb (self);
  cro_window_bring_waiting (self);
}

/* A window that comes up with a book does so sooner without it. */
void
cro_window_show_welcome (CroWindow *self)
{
  if (self->welcome == NULL)
    {
      self->welcome = g_object_new (CRO_TYPE_WELCOME, NULL);
      g_signal_connect_object (self->welcome, "made", G_CALLBACK (cro_window_open_path), self, G_CONNECT_SWAPPED);
      gtk_stack_add_named (self->stack, GTK_WIDGET (self->welcome), "welcome");
    }
  gtk_stack_set_visible_child_name (self->stack, "welcome");
}

void
cro_window_leave_book (CroWindow *self)
{
  g_clear_handle_id (&self->poll_id, g_source_remove);
  g_clear_handle_id (&self->today_id, g_source_remove);
  cro_scroll_back_stop (&self->scroll);
  g_signal_handlers_disconnect_by_data (self->book, self);
  cro_window_show_welcome (self);
  for (GtkWidget *bench; (bench = gtk_widget_get_first_child (GTK_WIDGET (self->bench))) != NULL;)
    gtk_stack_remove (self->bench, bench);
  cro_place_list_set_book (self->list, NULL);
  cro_month_list_set_book (self->months, NULL);
  for (int place = 0; place < CRO_N_PLACES; place++)
    if (self->page_lists[place] != NULL)
      cro_page_list_set_book (self->page_lists[place], NULL);
  g_clear_object (&self->book);
  g_clear_pointer (&self->path, g_free);
  cro_window_forget_left (self);
  self->now = CRO_REF_NOWHERE;
  g_array_set_size (self->before, 0);
  g_hash_table_remove_all (self->drafts);
  enable_actions (self, FALSE);
  disable_later (self);
  gtk_widget_set_visible (self->date_button, FALSE);
  gtk_widget_set_visible (self->list_button, FALSE);
  gtk_widget_set_visible (self->banner, FALSE);
  adw_window_title_set_title (self->title, _("Croustade"));
  adw_window_title_set_subtitle (self->title, "");
  gtk_window_set_title (GTK_WINDOW (self), _("Croustade"));
  cro_state_set_text ("window", "last", NULL);
  cro_welcome_focus (self->welcome);
}

CroBook *
cro_window_get_book (CroWindow *self)
{
  return self->book;
}

/* --- Other windows --------------------------------------------------------------------------------------- */

static void
history_cb (GtkWidget  *widget,
            const char *action,
            GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);

  if (self->book != NULL)
    gtk_window_present (GTK_WINDOW (cro_history_window_new (GTK_WINDOW (self), self->book,
                                                            self->now)));
}

void
cro_window_open_settings (CroWindow *self,
                          int        cause)
{
  GtkWidget *settings = cro_settings_window_new (GTK_WINDOW (self), self->book);

  gtk_window_present (GTK_WINDOW (settings));
  /* Else the name would have it, and be selected. */
  if (cause == CRO_NO_CAUSE || !cro_cure_focus (settings, cause))
    cro_focus_first (settings);
}

static void
settings_cb (GtkWidget  *widget,
             const char *action,
             GVariant   *parameter)
{
  if (CRO_WINDOW (widget)->book != NULL)
    cro_window_open_settings (CRO_WINDOW (widget), CRO_NO_CAUSE);
}

/* --- The window ---------------------------------------------------------------------------------------------- */

static gboolean
cro_window_close_request (GtkWindow *window)
{
  CroWindow *self = CRO_WINDOW (window);
  g_autoptr (GError) error = NULL;
  int width, height;

  gtk_window_get_default_size (window, &width, &height);
  cro_state_set_int ("window", "width", width);
  cro_state_set_int ("window", "height", height);
  cro_state_set_int ("window", "maximized", gtk_window_is_maximized (window));
  cro_window_remember (self);
  /* What is lost now is said while there is somebody to read it; whoever closes once more knows. */
  if (!cro_state_write (&error) && cro_state_tell (error))
    return GDK_EVENT_STOP;
  return GTK_WINDOW_CLASS (cro_window_parent_class)->close_request (window);
}

static void
cro_window_dispose (GObject *object)
{
  CroWindow *self = CRO_WINDOW (object);

  g_clear_handle_id (&self->poll_id, g_source_remove);
  g_clear_handle_id (&self->move_id, g_source_remove);
  g_clear_handle_id (&self->present_id, g_source_remove);
  g_clear_handle_id (&self->today_id, g_source_remove);
  g_clear_handle_id (&self->turn_id, g_source_remove);
  cro_window_forget_focus (self);
  g_cancellable_cancel (self->work);
  g_clear_object (&self->work);
  g_clear_weak_pointer (&self->sought_from);
  g_clear_weak_pointer (&self->focus_before);
  /* A field that is left as it goes writes what was typed: nobody is there to be told. */
  if (self->book != NULL)
    g_signal_handlers_disconnect_by_data (self->book, self);
  gtk_widget_dispose_template (GTK_WIDGET (self), CRO_TYPE_WINDOW);
  g_clear_object (&self->book);
  g_clear_pointer (&self->path, g_free);
  g_clear_pointer (&self->path_before, g_free);
  g_clear_pointer (&self->bring_path, g_free);
  g_clear_pointer (&self->before, g_array_unref);
  g_clear_pointer (&self->drafts, g_hash_table_unref);
  G_OBJECT_CLASS (cro_window_parent_class)->dispose (object);
}

static void
bind_template (GtkWidgetClass *widget_class)
{
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/croustade/Croustade/cro-window.ui");
  gtk_widget_class_bind_template_child (widget_class, CroWindow, toasts);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, title);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, trial_button);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, date_button);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, undo_button);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, undo_label);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, redo_button);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, banner);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, banner_label);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, notes);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, stack);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, progress);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, doing);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, write_button);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, recent_menu);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, rail);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, list_box);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, lists);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, list_button);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, sided);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, list);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, months);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, bench);
}

static void
cro_window_class_init (CroWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_window_dispose;
  GTK_WINDOW_CLASS (klass)->close_request = cro_window_close_request;
  cro_field_menu_begin ();
  g_type_ensure (CRO_TYPE_MONTH_LIST);
  g_type_ensure (CRO_TYPE_PLACE_LIST);
  g_type_ensure (CRO_TYPE_SIDED);
  bind_template (widget_class);
  gtk_widget_class_install_action (widget_class, "win.history", NULL, history_cb);
  gtk_widget_class_install_action (widget_class, "win.settings", NULL, settings_cb);
  cro_window_install_places (widget_class);
  cro_window_install_list (widget_class);
  cro_window_install_search (widget_class);
  cro_window_install_undo (widget_class);
  cro_window_install_trial (widget_class);
  cro_window_install_date (widget_class);
  cro_window_install_opening (widget_class);
  cro_window_install_copy (widget_class);
  cro_window_install_salvage (widget_class);
  cro_window_install_keys (widget_class);
  cro_window_install_bringing (widget_class);
}

/* A window that is larger than the screen would hang over its edge. */
static gboolean
fits_screen (int width,
             int height)
{
  GListModel *monitors = gdk_display_get_monitors (gdk_display_get_default ());
  g_autoptr (GdkMonitor) monitor = g_list_model_get_item (monitors, 0);
  GdkRectangle area = { 0, 0, G_MAXINT, G_MAXINT };

  if (monitor != NULL)
    gdk_monitor_get_geometry (monitor, &area);
  return width < area.width && height < area.height;
}

static void
restore_size (CroWindow *self)
{
  int width, height;

  gtk_window_get_default_size (GTK_WINDOW (self), &width, &height);
  /* What somebody wrote there by hand may be no size. */
  width = MAX (cro_state_get_int ("window", "width", width), -1);
  height = MAX (cro_state_get_int ("window", "height", height), -1);
  gtk_window_set_default_size (GTK_WINDOW (self), width, height);
  if (cro_state_get_int ("window", "maximized", 0) || !fits_screen (width, height))
    gtk_window_maximize (GTK_WINDOW (self));
}

static void
cro_window_init (CroWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->drafts = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  cro_window_begin_scrolling (self);
  cro_window_add_places (self);
  cro_window_add_list (self);
  cro_window_add_search (self);
  cro_window_add_date (self);
  cro_window_add_keys (self);
  cro_window_add_undo (self);
  cro_window_add_recent (self);
  cro_window_add_bringing (self);
  enable_actions (self, FALSE);
  disable_later (self);
  restore_size (self);
  cro_window_watch_focus (self);
  self->page_before = "welcome";
}

GtkWidget *
cro_window_new (AdwApplication *application)
{
  CroWindow *self = g_object_new (CRO_TYPE_WINDOW, "application", application, NULL);

  cro_window_show_welcome (self);
  cro_welcome_focus (self->welcome);
  return GTK_WIDGET (self);
}
