#include "config.h"

#include "cro-window.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-number.h"
#include "cro-place-list.h"
#include "cro-plate-bench.h"
#include "cro-words.h"

/* How often another process's changes are looked for, in milliseconds. */
#define POLL_MS 500

struct _CroWindow
{
  AdwApplicationWindow parent_instance;

  AdwToastOverlay *toasts;
  AdwWindowTitle  *title;
  GtkWidget       *back_button;
  GtkWidget       *date_button;
  GtkCalendar     *calendar;
  GtkWidget       *undo_button;
  GtkWidget       *redo_button;
  GtkStack        *stack;
  GtkSpinner      *spinner;
  GtkListBox      *rail;
  GtkRevealer     *list_revealer;
  CroPlaceList    *list;
  GtkStack        *bench;
  CroBench        *plate_bench;
  AdwStatusPage   *trouble;

  CroBook         *book;
  char            *path;
  guint            poll_id;
  CroRef           now;         /* what stands on the bench */
  GArray          *before;      /* CroRef: where Back leads */
  gboolean         is_moving;   /* rail and list follow, and do not lead */
};

G_DEFINE_FINAL_TYPE (CroWindow, cro_window, ADW_TYPE_APPLICATION_WINDOW)

/* --- Places and benches ------------------------------------------------------------------------------ */

static const struct { const char *name, *icon; } places[CRO_N_PLACES] = {
  [CRO_PLACE_PLATES] = { N_("Plates"), "cro-plates-symbolic" },
  [CRO_PLACE_PREPARATIONS] = { N_("Preparations"), "cro-preparations-symbolic" },
  [CRO_PLACE_LARDER] = { N_("Larder"), "cro-larder-symbolic" },
  [CRO_PLACE_MARKET] = { N_("Market"), "cro-market-symbolic" },
  [CRO_PLACE_MONTHS] = { N_("Months"), "cro-months-symbolic" },
};

/* A made item opens what makes it. */
static CroRef
resolve (CroModel *model,
         CroRef    ref)
{
  if (ref.kind == CRO_REF_ITEM && model->maker[ref.slot] >= 0)
    return CRO_REF (CRO_REF_RECIPE, (guint32) model->maker[ref.slot]);
  return ref;
}

/* The bench that shows a thing, its place and its kind in the list; NULL: it has none. */
static CroBench *
bench_for (CroWindow *self,
           CroRef     ref,
           CroPlace  *place,
           CroKind   *kind)
{
  CroModel *model = cro_book_get_model (self->book);

  if (ref.kind == CRO_REF_RECIPE && cro_model_recipe (model, ref.slot)->is_plate)
    {
      *place = CRO_PLACE_PLATES;
      *kind = CRO_KIND_PLATE;
      return self->plate_bench;
    }
  return NULL;
}

static void
select_rail (CroWindow *self,
             CroPlace   place)
{
  gtk_list_box_select_row (self->rail, gtk_list_box_get_row_at_index (self->rail, (int) place));
}

static void
show_ref (CroWindow *self,
          CroRef     ref)
{
  CroPlace place;
  CroKind kind;
  CroBench *bench = bench_for (self, ref, &place, &kind);

  if (bench == NULL)
    return;
  self->is_moving = TRUE;
  select_rail (self, place);
  cro_place_list_set_place (self->list, place);
  cro_place_list_select (self->list, kind, ref.slot);
  self->is_moving = FALSE;
  self->now = ref;
  cro_bench_put (bench, ref.slot);
  gtk_stack_set_visible_child (self->bench, GTK_WIDGET (bench));
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.back", self->before->len > 0);
}

void
cro_window_open_ref (CroWindow *self,
                     CroRef     ref)
{
  CroPlace place;
  CroKind kind;

  ref = resolve (cro_book_get_model (self->book), ref);
  if (bench_for (self, ref, &place, &kind) == NULL)
    return;
  if (self->now.kind != CRO_REF_NONE)
    g_array_append_val (self->before, self->now);
  show_ref (self, ref);
}

static void
open_ref_cb (CroWindow *self,
             int        kind,
             guint      slot)
{
  cro_window_open_ref (self, CRO_REF ((CroRefKind) kind, slot));
}

static void
back_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);
  CroRef ref;

  if (self->before->len == 0)
    return;
  ref = g_array_index (self->before, CroRef, self->before->len - 1);
  g_array_set_size (self->before, self->before->len - 1);
  show_ref (self, ref);
}

static void
chosen_cb (CroWindow *self,
           int        kind,
           guint      slot)
{
  static const CroRefKind refs[CRO_N_KINDS] = {
    [CRO_KIND_INGREDIENT] = CRO_REF_ITEM, [CRO_KIND_OUTPUT] = CRO_REF_ITEM,
    [CRO_KIND_PREPARATION] = CRO_REF_RECIPE, [CRO_KIND_PLATE] = CRO_REF_RECIPE,
    [CRO_KIND_MENU] = CRO_REF_MENU,
  };

  if (!self->is_moving)
    cro_window_open_ref (self, CRO_REF (refs[kind], slot));
}

static void
place_selected_cb (CroWindow     *self,
                   GtkListBoxRow *row)
{
  CroKind kind;
  guint32 slot;

  if (self->is_moving || row == NULL)
    return;
  cro_place_list_set_place (self->list, (CroPlace) gtk_list_box_row_get_index (row));
  if (cro_place_list_get_first (self->list, &kind, &slot))
    chosen_cb (self, (int) kind, slot);
}

static void
go_to_place_cb (GtkWidget  *widget,
                const char *action,
                GVariant   *parameter)
{
  select_rail (CRO_WINDOW (widget), (CroPlace) g_variant_get_int32 (parameter));
}

static void
toggle_list_cb (GtkWidget  *widget,
                const char *action,
                GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);
  gboolean shown = gtk_revealer_get_reveal_child (self->list_revealer);

  gtk_revealer_set_reveal_child (self->list_revealer, !shown);
  gtk_widget_set_visible (GTK_WIDGET (self->list_revealer), !shown);
}

static void
search_cb (GtkWidget  *widget,
           const char *action,
           GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);

  gtk_widget_set_visible (GTK_WIDGET (self->list_revealer), TRUE);
  gtk_revealer_set_reveal_child (self->list_revealer, TRUE);
  cro_place_list_focus_search (self->list);
}

/* --- Saying things ------------------------------------------------------------------------------------- */

static void
say_cb (CroWindow  *self,
        const char *text)
{
  adw_toast_overlay_add_toast (self->toasts, adw_toast_new (text));
}

static void
fail (CroWindow    *self,
      const GError *error)
{
  g_autofree char *text = cro_words_error (error);

  say_cb (self, text);
}

/* --- Undo ------------------------------------------------------------------------------------------------ */

static void
set_undo (CroWindow  *self,
          const char *action,
          GtkWidget  *button,
          const char *format,
          CroAct     *act)
{
  g_autofree char *text = act != NULL ? g_strdup_printf (format, act->label) : NULL;

  gtk_widget_action_set_enabled (GTK_WIDGET (self), action, act != NULL);
  gtk_widget_set_tooltip_text (button, text);
}

static void
update_undo (CroWindow *self)
{
  g_autoptr (CroAct) undo = cro_store_peek_undo (cro_book_get_store (self->book), NULL);
  g_autoptr (CroAct) redo = cro_store_peek_redo (cro_book_get_store (self->book), NULL);

  /* Translators: %s is an entry of the history, as "amount of butter". */
  set_undo (self, "win.undo", self->undo_button, _("Undo %s"), undo);
  set_undo (self, "win.redo", self->redo_button, _("Redo %s"), redo);
}

static void
undo_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);
  g_autoptr (GError) error = NULL;
  gboolean done = strcmp (action, "win.undo") == 0 ? cro_book_undo (self->book, NULL, &error)
                                                   : cro_book_redo (self->book, NULL, &error);

  if (!done && error != NULL && !g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_NOTHING))
    fail (self, error);
}

/* --- The date ---------------------------------------------------------------------------------------------- */

static CroDate
today (void)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();

  return cro_date_from_civil (g_date_time_get_year (now), g_date_time_get_month (now),
                              g_date_time_get_day_of_month (now));
}

static void
update_date (CroWindow *self)
{
  CroDate date = cro_book_get_figures (self->book)->date;
  g_autofree char *text = cro_date_to_text (date);
  /* Translators: %s is a date. */
  g_autofree char *label = date == today () ? g_strdup (_("Prices of today"))
                                            : g_strdup_printf (_("Prices of %s"), text);

  gtk_menu_button_set_label (GTK_MENU_BUTTON (self->date_button), label);
  gtk_widget_set_visible (self->date_button, TRUE);
}

static void
set_date (CroWindow *self,
          CroDate    date)
{
  g_autoptr (GError) error = NULL;

  if (self->book == NULL || cro_book_get_figures (self->book)->date == date)
    return;
  if (!cro_book_set_date (self->book, date, &error))
    fail (self, error);
  update_date (self);
}

static void
day_selected_cb (CroWindow *self)
{
  g_autoptr (GDateTime) day = gtk_calendar_get_date (self->calendar);

  set_date (self, cro_date_from_civil (g_date_time_get_year (day), g_date_time_get_month (day),
                                       g_date_time_get_day_of_month (day)));
}

static void
today_clicked_cb (CroWindow *self)
{
  set_date (self, today ());
}

/* --- The book ------------------------------------------------------------------------------------------------ */

static void
book_changed_cb (CroWindow *self)
{
  update_undo (self);
}

static gboolean
poll_cb (gpointer user_data)
{
  CroWindow *self = user_data;
  g_autoptr (GError) error = NULL;

  if (!cro_book_refresh (self->book, NULL, &error)
      && g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_GONE))
    {
      adw_status_page_set_title (self->trouble, _("The book’s file is gone"));
      adw_status_page_set_description (self->trouble,
                                       _("It was moved or removed. What you changed until then was "
                                         "written to it."));
      gtk_stack_set_visible_child_name (self->stack, "trouble");
      self->poll_id = 0;
      return G_SOURCE_REMOVE;
    }
  return G_SOURCE_CONTINUE;
}

static void
set_book (CroWindow *self,
          CroBook   *book)
{
  CroModel *model = cro_book_get_model (book);
  g_autofree char *name = g_path_get_basename (self->path);
  CroBench *benches[] = { self->plate_bench };

  g_set_object (&self->book, book);
  g_signal_connect_object (book, "changed", G_CALLBACK (book_changed_cb), self, G_CONNECT_SWAPPED);
  for (gsize i = 0; i < G_N_ELEMENTS (benches); i++)
    cro_bench_set_book (benches[i], book);
  self->now = CRO_REF_NOWHERE;
  g_array_set_size (self->before, 0);
  cro_place_list_set_book (self->list, book);
  adw_window_title_set_title (self->title, model->name != NULL ? model->name : name);
  gtk_window_set_title (GTK_WINDOW (self), model->name != NULL ? model->name : name);
  update_date (self);
  update_undo (self);
  self->poll_id = g_timeout_add (POLL_MS, poll_cb, self);
  gtk_spinner_stop (self->spinner);
  gtk_stack_set_visible_child_name (self->stack, "book");
  select_rail (self, CRO_PLACE_PLATES);
}

static void
open_in_thread (GTask        *task,
                gpointer      source,
                gpointer      path,
                GCancellable *cancellable)
{
  g_autofree char *desk = g_strdup_printf ("%s @ %s", g_get_real_name (), g_get_host_name ());
  GError *error = NULL;
  CroBook *book = cro_book_open (path, desk, CRO_STORE_WRITE, today (), &error);

  if (book != NULL)
    g_task_return_pointer (task, book, g_object_unref);
  else
    g_task_return_error (task, error);
}

static void
opened_cb (GObject      *source,
           GAsyncResult *result,
           gpointer      user_data)
{
  CroWindow *self = CRO_WINDOW (source);
  g_autoptr (GError) error = NULL;
  g_autoptr (CroBook) book = g_task_propagate_pointer (G_TASK (result), &error);
  g_autofree char *text = NULL;

  if (book != NULL)
    {
      set_book (self, book);
      return;
    }
  text = cro_words_error (error);
  gtk_spinner_stop (self->spinner);
  adw_status_page_set_title (self->trouble, _("The book cannot be opened"));
  adw_status_page_set_description (self->trouble, text);
  gtk_stack_set_visible_child_name (self->stack, "trouble");
}

void
cro_window_open_path (CroWindow  *self,
                      const char *path)
{
  g_autoptr (GTask) task = g_task_new (self, NULL, opened_cb, NULL);

  g_free (self->path);
  self->path = g_strdup (path);
  gtk_spinner_start (self->spinner);
  gtk_stack_set_visible_child_name (self->stack, "opening");
  g_task_set_task_data (task, g_strdup (path), g_free);
  g_task_run_in_thread (task, open_in_thread);
}

CroBook *
cro_window_get_book (CroWindow *self)
{
  return self->book;
}

/* --- The window ---------------------------------------------------------------------------------------------- */

static void
cro_window_dispose (GObject *object)
{
  CroWindow *self = CRO_WINDOW (object);

  g_clear_handle_id (&self->poll_id, g_source_remove);
  g_clear_object (&self->book);
  g_clear_pointer (&self->path, g_free);
  g_clear_pointer (&self->before, g_array_unref);
  gtk_widget_dispose_template (GTK_WIDGET (self), CRO_TYPE_WINDOW);
  G_OBJECT_CLASS (cro_window_parent_class)->dispose (object);
}

static void
bind_keys (GtkWidgetClass *widget_class)
{
  for (int place = 0; place < CRO_N_PLACES; place++)
    gtk_widget_class_add_binding_action (widget_class, GDK_KEY_1 + place, GDK_ALT_MASK, "win.place",
                                         "i", place);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F9, 0, "win.toggle-list", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_k, GDK_CONTROL_MASK, "win.search",
                                       NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Left, GDK_ALT_MASK, "win.back", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_z, GDK_CONTROL_MASK, "win.undo", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_z, GDK_CONTROL_MASK | GDK_SHIFT_MASK,
                                       "win.redo", NULL);
}

static void
cro_window_class_init (CroWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_window_dispose;
  g_type_ensure (CRO_TYPE_PLACE_LIST);
  g_type_ensure (CRO_TYPE_PLATE_BENCH);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/croustade/Croustade/cro-window.ui");
  gtk_widget_class_bind_template_child (widget_class, CroWindow, toasts);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, title);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, back_button);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, date_button);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, calendar);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, undo_button);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, redo_button);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, stack);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, spinner);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, rail);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, list_revealer);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, list);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, bench);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, plate_bench);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, trouble);
  gtk_widget_class_bind_template_callback (widget_class, day_selected_cb);
  gtk_widget_class_bind_template_callback (widget_class, today_clicked_cb);
  gtk_widget_class_bind_template_callback (widget_class, place_selected_cb);
  gtk_widget_class_bind_template_callback (widget_class, chosen_cb);
  gtk_widget_class_install_action (widget_class, "win.back", NULL, back_cb);
  gtk_widget_class_install_action (widget_class, "win.undo", NULL, undo_cb);
  gtk_widget_class_install_action (widget_class, "win.redo", NULL, undo_cb);
  gtk_widget_class_install_action (widget_class, "win.place", "i", go_to_place_cb);
  gtk_widget_class_install_action (widget_class, "win.toggle-list", NULL, toggle_list_cb);
  gtk_widget_class_install_action (widget_class, "win.search", NULL, search_cb);
  bind_keys (widget_class);
}

static void
add_places (CroWindow *self)
{
  for (int place = 0; place < CRO_N_PLACES; place++)
    {
      GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);

      gtk_box_append (GTK_BOX (box), gtk_image_new_from_icon_name (places[place].icon));
      gtk_box_append (GTK_BOX (box), gtk_label_new (_(places[place].name)));
      gtk_list_box_append (self->rail, box);
    }
}

static void
cro_window_init (CroWindow *self)
{
  CroBench *bench;

  gtk_widget_init_template (GTK_WIDGET (self));
  self->before = g_array_new (FALSE, FALSE, sizeof (CroRef));
  self->now = CRO_REF_NOWHERE;
  self->is_moving = TRUE;
  add_places (self);
  self->is_moving = FALSE;
  bench = self->plate_bench;
  g_signal_connect_swapped (bench, "open-ref", G_CALLBACK (open_ref_cb), self);
  g_signal_connect_swapped (bench, "say", G_CALLBACK (say_cb), self);
}

GtkWidget *
cro_window_new (AdwApplication *application)
{
  return g_object_new (CRO_TYPE_WINDOW, "application", application, NULL);
}
