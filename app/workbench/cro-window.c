#include "config.h"

#include "cro-window-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-focus.h"
#include "cro-here.h"
#include "cro-history-window.h"
#include "cro-ingredient-bench.h"
#include "cro-market-bench.h"
#include "cro-menu-bench.h"
#include "cro-months-bench.h"
#include "cro-number.h"
#include "cro-plate-bench.h"
#include "cro-preparation-bench.h"
#include "cro-settings-window.h"
#include "cro-spoken.h"
#include "cro-state.h"
#include "cro-words.h"

G_DEFINE_FINAL_TYPE (CroWindow, cro_window, ADW_TYPE_APPLICATION_WINDOW)

/* A thing that stood on the bench, and the cell that had the focus then. */
typedef struct
{
  CroRef ref;
  char  *way;
} Visit;

static void
clear_visit (gpointer visit)
{
  g_free (((Visit *) visit)->way);
}

/* --- Places and benches ------------------------------------------------------------------------------ */

static const struct { const char *name, *icon; } places[CRO_N_PLACES] = {
  [CRO_PLACE_PLATES] = { N_("Plates"), "cro-plates-symbolic" },
  [CRO_PLACE_PREPARATIONS] = { N_("Preparations"), "cro-preparations-symbolic" },
  [CRO_PLACE_LARDER] = { N_("Larder"), "cro-larder-symbolic" },
  [CRO_PLACE_MARKET] = { N_("Market"), "cro-market-symbolic" },
  [CRO_PLACE_MONTHS] = { N_("Months"), "cro-months-symbolic" },
};

/* What is shown with something else opens that: a made item what makes it, a pack its ingredient. */
static CroRef
resolve (CroModel *model,
         CroRef    ref)
{
  if (ref.kind == CRO_REF_OFFER)
    ref = CRO_REF (CRO_REF_ITEM, cro_model_offer (model, ref.slot)->item);
  if (ref.kind == CRO_REF_ITEM && model->maker[ref.slot] >= 0)
    return CRO_REF (CRO_REF_RECIPE, (guint32) model->maker[ref.slot]);
  return ref;
}

typedef struct
{
  CroBench *bench;
  CroPlace  place;
  CroKind   kind;     /* in the list; CRO_N_KINDS: in none */
} Page;

static Page
page_of (CroWindow *self,
         CroRef     ref)
{
  CroModel *model = cro_book_get_model (self->book);
  const char *name = NULL;
  Page page = { NULL, CRO_PLACE_PLATES, CRO_N_KINDS };
  GtkWidget *child;

  switch (ref.kind)
    {
    case CRO_REF_ITEM:
      name = "ingredient";
      page = (Page){ NULL, CRO_PLACE_LARDER, CRO_KIND_INGREDIENT };
      break;
    case CRO_REF_RECIPE:
      name = cro_model_recipe (model, ref.slot)->is_plate ? "plate" : "preparation";
      page = cro_model_recipe (model, ref.slot)->is_plate
                 ? (Page){ NULL, CRO_PLACE_PLATES, CRO_KIND_PLATE }
                 : (Page){ NULL, CRO_PLACE_PREPARATIONS, CRO_KIND_PREPARATION };
      break;
    case CRO_REF_MENU:
      name = "menu";
      page = (Page){ NULL, CRO_PLACE_PLATES, CRO_KIND_MENU };
      break;
    case CRO_REF_SUPPLIER:
      name = "market";
      page.place = CRO_PLACE_MARKET;
      break;
    case CRO_REF_SALES:
      name = "months";
      page.place = CRO_PLACE_MONTHS;
      break;
    default:
      return page;
    }
  child = gtk_stack_get_child_by_name (self->bench, name);
  page.bench = child != NULL ? CRO_BENCH (child) : NULL;
  return page;
}

static gboolean
is_alive (CroModel *model,
          CroRef    ref)
{
  switch (ref.kind)
    {
    case CRO_REF_ITEM:
      return !cro_model_item (model, ref.slot)->is_dead;
    case CRO_REF_RECIPE:
      return !cro_model_recipe (model, ref.slot)->is_dead;
    case CRO_REF_MENU:
      return !cro_model_menu (model, ref.slot)->is_dead;
    default:
      return ref.kind != CRO_REF_NONE;
    }
}

/* A market and months are one page each, with nothing to choose beside them. */
static gboolean
has_list (CroPlace place)
{
  return place < CRO_PLACE_MARKET;
}

/* Not the list box's own selection, which follows the focus. */
static void
mark_place (CroWindow *self,
            CroPlace   place)
{
  for (int i = 0; i < CRO_N_PLACES; i++)
    {
      GtkWidget *row = GTK_WIDGET (gtk_list_box_get_row_at_index (self->rail, i));
      gboolean is_here = i == (int) place;

      if (is_here)
        gtk_widget_add_css_class (row, "here");
      else
        gtk_widget_remove_css_class (row, "here");
      gtk_accessible_update_state (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_STATE_SELECTED, is_here, -1);
    }
}

static void
show_place (CroWindow *self,
            CroPlace   place)
{
  self->is_moving = TRUE;
  self->place = place;
  mark_place (self, place);
  cro_place_list_set_place (self->list, place);
  gtk_widget_set_visible (self->list_box, self->is_list_shown && has_list (place));
  self->is_moving = FALSE;
}

static void
show_nothing (CroWindow *self,
              CroPlace   place)
{
  show_place (self, place);
  self->now = CRO_REF_NOWHERE;
  gtk_stack_set_visible_child_name (self->bench, "nothing");
}

static void
show_ref (CroWindow *self,
          CroRef     ref)
{
  Page page = page_of (self, ref);

  show_place (self, page.place);
  self->is_moving = TRUE;
  if (page.kind != CRO_N_KINDS)
    cro_place_list_select (self->list, page.kind, ref.slot);
  self->is_moving = FALSE;
  self->now = ref;
  cro_bench_put (page.bench, ref.slot);
  gtk_stack_set_visible_child (self->bench, GTK_WIDGET (page.bench));
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.back", self->before->len > 0);
}

static void
remember_visit (CroWindow *self)
{
  Visit visit = { self->now, cro_focus_dup_way (GTK_WIDGET (self->bench)) };

  if (self->now.kind != CRO_REF_NONE)
    g_array_append_val (self->before, visit);
  else
    clear_visit (&visit);
}

void
cro_window_open_ref (CroWindow *self,
                     CroRef     ref)
{
  if (ref.kind == CRO_REF_HOUSE)
    {
      gtk_widget_activate_action (GTK_WIDGET (self), "win.settings", NULL);
      return;
    }
  ref = resolve (cro_book_get_model (self->book), ref);
  if (page_of (self, ref).bench == NULL)
    return;
  if (ref.kind == self->now.kind && ref.slot == self->now.slot)
    return;
  remember_visit (self);
  show_ref (self, ref);
}

/* What leads to a thing from another one: the focus goes to what is missing there, or else to
 * the first field. */
static void
open_ref_cb (CroWindow *self,
             int        kind,
             guint      slot)
{
  CroRef before = self->now;
  GtkWidget *bench, *cure, *fields;

  cro_window_open_ref (self, CRO_REF ((CroRefKind) kind, slot));
  if (self->now.kind == before.kind && self->now.slot == before.slot)
    return;
  bench = gtk_stack_get_visible_child (self->bench);
  cure = cro_focus_find (bench, "cure");
  fields = cro_focus_find (bench, "fields");
  if (cure != NULL)
    gtk_widget_grab_focus (cure);
  else if (fields != NULL)
    cro_focus_first (fields);
}

static void
back_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);
  CroModel *model;

  if (self->book == NULL)
    return;
  model = cro_book_get_model (self->book);
  while (self->before->len > 0)
    {
      Visit visit = g_array_index (self->before, Visit, self->before->len - 1);
      g_autofree char *way = g_strdup (visit.way);

      g_array_set_size (self->before, self->before->len - 1);
      if (!is_alive (model, visit.ref))
        continue;
      show_ref (self, visit.ref);
      if (way != NULL)
        cro_focus_go (GTK_WIDGET (self->bench), way);
      return;
    }
}

static CroRef
ref_of_kind (CroKind kind,
             guint32 slot)
{
  static const CroRefKind refs[CRO_N_KINDS] = {
    [CRO_KIND_INGREDIENT] = CRO_REF_ITEM, [CRO_KIND_OUTPUT] = CRO_REF_ITEM,
    [CRO_KIND_PREPARATION] = CRO_REF_RECIPE, [CRO_KIND_PLATE] = CRO_REF_RECIPE,
    [CRO_KIND_MENU] = CRO_REF_MENU,
  };

  return CRO_REF (refs[kind], slot);
}

static void
chosen_cb (CroWindow *self,
           int        kind,
           guint      slot)
{
  if (!self->is_moving)
    cro_window_open_ref (self, ref_of_kind ((CroKind) kind, slot));
}

/* The first thing of a place, as nothing there was chosen yet. */
static void
go_to_place (CroWindow *self,
             CroPlace   place)
{
  CroKind kind;
  guint32 slot;

  if (place == CRO_PLACE_MARKET)
    cro_window_open_ref (self, CRO_REF (CRO_REF_SUPPLIER, CRO_NO_SLOT));
  else if (place == CRO_PLACE_MONTHS)
    cro_window_open_ref (self, CRO_REF (CRO_REF_SALES, CRO_NO_SLOT));
  else
    {
      cro_place_list_set_place (self->list, place);
      if (cro_place_list_get_first (self->list, &kind, &slot)
          && page_of (self, ref_of_kind (kind, slot)).bench != NULL)
        cro_window_open_ref (self, ref_of_kind (kind, slot));
      else
        show_nothing (self, place);
    }
}

static void
place_activated_cb (CroWindow     *self,
                    GtkListBoxRow *row)
{
  if (self->book != NULL)
    go_to_place (self, (CroPlace) gtk_list_box_row_get_index (row));
}

static gboolean
focus_table (CroWindow *self)
{
  GtkWidget *search = cro_focus_find (gtk_stack_get_visible_child (self->bench), "search");

  return search != NULL && gtk_widget_grab_focus (search);
}

static void
go_to_place_cb (GtkWidget  *widget,
                const char *action,
                GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);
  CroPlace place = (CroPlace) g_variant_get_int32 (parameter);

  if (self->book == NULL)
    return;
  if (place != self->place)
    go_to_place (self, place);
  if (has_list (place) && gtk_widget_get_visible (self->list_box))
    cro_place_list_focus (self->list);
  else
    focus_table (self);
}

static void
toggle_list_cb (GtkWidget  *widget,
                const char *action,
                GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);

  self->is_list_shown = !self->is_list_shown;
  gtk_widget_set_visible (self->list_box, self->is_list_shown && has_list (self->place));
  cro_state_set_int ("window", "list", self->is_list_shown);
}

static void
search_cb (GtkWidget  *widget,
           const char *action,
           GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);

  if (self->book == NULL || (!has_list (self->place) && focus_table (self)))
    return;
  gtk_widget_set_visible (self->list_box, TRUE);
  cro_place_list_focus_search (self->list);
}

/* --- Saying things ------------------------------------------------------------------------------------- */

void
cro_window_say (CroWindow  *self,
                const char *text)
{
  /* A toast takes markup. */
  g_autofree char *escaped = g_markup_escape_text (text, -1);

  adw_toast_overlay_add_toast (self->toasts, adw_toast_new (escaped));
}

void
cro_window_fail (CroWindow    *self,
                 const GError *error)
{
  g_autofree char *text = cro_words_error (error);

  cro_window_say (self, text);
}

/* --- Undo ------------------------------------------------------------------------------------------------ */

static void
name_button (CroWindow  *self,
             const char *action,
             GtkWidget  *button,
             const char *text,
             gboolean    is_possible)
{
  gtk_widget_action_set_enabled (GTK_WIDGET (self), action, is_possible);
  gtk_widget_set_tooltip_text (button, text);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
}

/* What undo would take; NULL: nothing. What filled an empty book kept no rows. */
static CroAct *
peek_undo (CroStore *store)
{
  g_autoptr (CroAct) act = cro_store_peek_undo (store, NULL);
  g_autoptr (GPtrArray) changes = act != NULL ? cro_store_list_changes_of_act (store, act->id, NULL)
                                              : NULL;

  if (changes == NULL || changes->len == 0
      || strcmp (((CroChange *) changes->pdata[0])->table, "*") == 0)
    return NULL;
  return g_steal_pointer (&act);
}

static void
update_undo (CroWindow *self)
{
  CroStore *store = cro_book_get_store (self->book);
  g_autoptr (CroAct) undo = peek_undo (store);
  g_autoptr (CroAct) redo = cro_store_peek_redo (store, NULL);
  /* Translators: %s is an entry of the history, as "amount of butter". */
  g_autofree char *undo_text = undo != NULL ? g_strdup_printf (_("Undo %s"), undo->label)
                                            : g_strdup (_("Nothing to undo"));
  /* Translators: %s is an entry of the history, as "amount of butter". */
  g_autofree char *redo_text = redo != NULL ? g_strdup_printf (_("Redo %s"), redo->label)
                                            : g_strdup (_("Nothing to redo"));

  name_button (self, "win.undo", self->undo_button, undo_text, undo != NULL);
  name_button (self, "win.redo", self->redo_button, redo_text, redo != NULL);
  gtk_label_set_label (GTK_LABEL (self->undo_label), undo != NULL ? undo_text : "");
  gtk_widget_set_visible (self->undo_label, undo != NULL);
}

static void
undo_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);
  gboolean is_undo = strcmp (action, "win.undo") == 0;
  g_autoptr (GError) error = NULL;
  gboolean done;

  if (self->book == NULL)
    return;
  done = is_undo ? cro_book_undo (self->book, NULL, &error)
                 : cro_book_redo (self->book, NULL, &error);
  if (!done && error != NULL && !g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_NOTHING))
    cro_window_fail (self, error);
}

/* --- The date ---------------------------------------------------------------------------------------------- */

static void
update_date (CroWindow *self)
{
  CroDate date = cro_book_get_figures (self->book)->date;
  g_autofree char *text = cro_date_to_text (date);
  /* Translators: %s is a date. */
  g_autofree char *label = date == cro_here_today () ? g_strdup (_("Prices of today"))
                                                     : g_strdup_printf (_("Prices of %s"), text);

  gtk_menu_button_set_label (GTK_MENU_BUTTON (self->date_button), label);
  cro_spoken_set (self->date_button, label);
}

static void
set_date (CroWindow *self,
          CroDate    date)
{
  g_autoptr (GError) error = NULL;

  if (self->book == NULL || cro_book_get_figures (self->book)->date == date)
    return;
  if (!cro_book_set_date (self->book, date, &error))
    cro_window_fail (self, error);
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
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();

  gtk_calendar_select_day (self->calendar, now);
  set_date (self, cro_here_today ());
  gtk_menu_button_popdown (GTK_MENU_BUTTON (self->date_button));
}

/* --- The book ------------------------------------------------------------------------------------------------ */

/* What stood on the bench may be gone: undone, or removed in another window. */
static void
book_changed_cb (CroWindow *self)
{
  CroModel *model = cro_book_get_model (self->book);
  gint64 change = cro_store_last_change (cro_book_get_store (self->book));
  g_autofree char *file = g_path_get_basename (self->path);

  /* A preview writes nothing. */
  if (change == self->undo_change)
    return;
  self->undo_change = change;
  adw_window_title_set_title (self->title, model->name != NULL ? model->name : file);
  adw_window_title_set_subtitle (self->title, model->name != NULL ? file : "");
  gtk_window_set_title (GTK_WINDOW (self), adw_window_title_get_title (self->title));
  update_undo (self);
  if (self->now.kind != CRO_REF_NONE && !is_alive (model, self->now))
    {
      self->now = CRO_REF_NOWHERE;
      go_to_place (self, self->place);
    }
  else if (self->now.kind == CRO_REF_NONE)
    go_to_place (self, self->place);
}

static CroRef
dup_last_ref (CroWindow *self,
              CroModel  *model)
{
  g_autofree char *table = cro_state_dup_text (self->path, "table");
  gint64 id = cro_state_get_int (self->path, "id", 0);
  guint32 slot = CRO_NO_SLOT;
  CroRef ref = CRO_REF_NOWHERE;

  if (g_strcmp0 (table, "plate") == 0 || g_strcmp0 (table, "preparation") == 0)
    {
      slot = cro_slots_get (table[1] == 'l' ? &model->plate_slots : &model->preparation_slots, id);
      ref = CRO_REF (CRO_REF_RECIPE, slot);
    }
  else if (g_strcmp0 (table, "ingredient") == 0)
    ref = CRO_REF (CRO_REF_ITEM, slot = cro_slots_get (&model->item_slots, id));
  else if (g_strcmp0 (table, "menu") == 0)
    ref = CRO_REF (CRO_REF_MENU, slot = cro_slots_get (&model->menu_slots, id));
  else if (g_strcmp0 (table, "market") == 0)
    return CRO_REF (CRO_REF_SUPPLIER, CRO_NO_SLOT);
  else if (g_strcmp0 (table, "months") == 0)
    return CRO_REF (CRO_REF_SALES, CRO_NO_SLOT);
  return slot != CRO_NO_SLOT && is_alive (model, ref) && page_of (self, ref).bench != NULL
             ? ref
             : CRO_REF_NOWHERE;
}

void
cro_window_focus_next_line (CroWindow *self)
{
  GtkWidget *quick = cro_focus_find (GTK_WIDGET (self->bench), "quick");

  if (quick != NULL)
    gtk_widget_grab_focus (quick);
}

static void
go_where_it_was (CroWindow *self)
{
  CroRef ref = dup_last_ref (self, cro_book_get_model (self->book));
  g_autofree char *way = cro_state_dup_text (self->path, "focus");

  if (ref.kind == CRO_REF_NONE)
    go_to_place (self, CRO_PLACE_PLATES);
  else
    cro_window_open_ref (self, ref);
  if (way == NULL || !cro_focus_go (GTK_WIDGET (self->bench), way))
    cro_window_focus_next_line (self);
}

void
cro_window_set_book (CroWindow *self,
                     CroBook   *book)
{
  g_set_object (&self->book, book);
  g_signal_connect_object (book, "changed", G_CALLBACK (book_changed_cb), self, G_CONNECT_SWAPPED);
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self->bench)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (CRO_IS_BENCH (child))
      cro_bench_set_book (CRO_BENCH (child), book);
  self->now = CRO_REF_NOWHERE;
  self->place = CRO_PLACE_PLATES;
  self->undo_change = -1;
  g_array_set_size (self->before, 0);
  cro_place_list_set_book (self->list, book);
  gtk_widget_set_visible (self->date_button, TRUE);
  update_date (self);
  gtk_stack_set_visible_child_name (self->stack, "book");
  go_where_it_was (self);
  book_changed_cb (self);
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

static void
settings_cb (GtkWidget  *widget,
             const char *action,
             GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);

  if (self->book != NULL)
    gtk_window_present (GTK_WINDOW (cro_settings_window_new (GTK_WINDOW (self), self->book)));
}

/* --- The window ---------------------------------------------------------------------------------------------- */

static gboolean
cro_window_close_request (GtkWindow *window)
{
  CroWindow *self = CRO_WINDOW (window);
  int width, height;

  gtk_window_get_default_size (window, &width, &height);
  cro_state_set_int ("window", "width", width);
  cro_state_set_int ("window", "height", height);
  cro_state_set_int ("window", "maximized", gtk_window_is_maximized (window));
  cro_window_remember (self);
  return GTK_WINDOW_CLASS (cro_window_parent_class)->close_request (window);
}

static void
cro_window_dispose (GObject *object)
{
  CroWindow *self = CRO_WINDOW (object);

  g_clear_handle_id (&self->poll_id, g_source_remove);
  g_clear_handle_id (&self->pulse_id, g_source_remove);
  g_cancellable_cancel (self->work);
  g_clear_object (&self->work);
  gtk_widget_dispose_template (GTK_WIDGET (self), CRO_TYPE_WINDOW);
  g_clear_object (&self->book);
  g_clear_pointer (&self->path, g_free);
  g_clear_pointer (&self->before, g_array_unref);
  G_OBJECT_CLASS (cro_window_parent_class)->dispose (object);
}

static void
bind_template (GtkWidgetClass *widget_class)
{
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/croustade/Croustade/cro-window.ui");
  gtk_widget_class_bind_template_child (widget_class, CroWindow, toasts);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, title);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, date_button);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, calendar);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, undo_button);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, undo_label);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, redo_button);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, banner);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, banner_label);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, notes);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, stack);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, welcome);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, progress);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, doing);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, trouble);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, read_button);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, rail);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, list_box);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, list);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, bench);
  gtk_widget_class_bind_template_child (widget_class, CroWindow, nothing);
  gtk_widget_class_bind_template_callback (widget_class, day_selected_cb);
  gtk_widget_class_bind_template_callback (widget_class, today_clicked_cb);
  gtk_widget_class_bind_template_callback (widget_class, place_activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, chosen_cb);
  gtk_widget_class_bind_template_callback (widget_class, cro_window_open_path);
}

static void
cro_window_class_init (CroWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_window_dispose;
  GTK_WINDOW_CLASS (klass)->close_request = cro_window_close_request;
  g_type_ensure (CRO_TYPE_INGREDIENT_BENCH);
  g_type_ensure (CRO_TYPE_MARKET_BENCH);
  g_type_ensure (CRO_TYPE_MENU_BENCH);
  g_type_ensure (CRO_TYPE_MONTHS_BENCH);
  g_type_ensure (CRO_TYPE_PLACE_LIST);
  g_type_ensure (CRO_TYPE_PLATE_BENCH);
  g_type_ensure (CRO_TYPE_PREPARATION_BENCH);
  g_type_ensure (CRO_TYPE_WELCOME);
  bind_template (widget_class);
  gtk_widget_class_install_action (widget_class, "win.back", NULL, back_cb);
  gtk_widget_class_install_action (widget_class, "win.undo", NULL, undo_cb);
  gtk_widget_class_install_action (widget_class, "win.redo", NULL, undo_cb);
  gtk_widget_class_install_action (widget_class, "win.place", "i", go_to_place_cb);
  gtk_widget_class_install_action (widget_class, "win.toggle-list", NULL, toggle_list_cb);
  gtk_widget_class_install_action (widget_class, "win.search", NULL, search_cb);
  gtk_widget_class_install_action (widget_class, "win.history", NULL, history_cb);
  gtk_widget_class_install_action (widget_class, "win.settings", NULL, settings_cb);
  cro_window_install_opening (widget_class);
  cro_window_install_keys (widget_class);
}

static void
add_places (CroWindow *self)
{
  for (int place = 0; place < CRO_N_PLACES; place++)
    {
      GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
      GtkWidget *label = gtk_label_new (_(places[place].name));
      GtkWidget *row = gtk_list_box_row_new ();

      gtk_box_append (GTK_BOX (box), gtk_image_new_from_icon_name (places[place].icon));
      gtk_box_append (GTK_BOX (box), label);
      gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
      gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                      _(places[place].name), -1);
      gtk_list_box_append (self->rail, row);
    }
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
  width = cro_state_get_int ("window", "width", width);
  height = cro_state_get_int ("window", "height", height);
  gtk_window_set_default_size (GTK_WINDOW (self), width, height);
  if (cro_state_get_int ("window", "maximized", 0) || !fits_screen (width, height))
    gtk_window_maximize (GTK_WINDOW (self));
}

static void
cro_window_init (CroWindow *self)
{
  static const char *const of_a_book[] = { "win.back", "win.undo", "win.redo", NULL };

  gtk_widget_init_template (GTK_WIDGET (self));
  self->before = g_array_new (FALSE, FALSE, sizeof (Visit));
  g_array_set_clear_func (self->before, clear_visit);
  self->now = CRO_REF_NOWHERE;
  self->is_list_shown = cro_state_get_int ("window", "list", TRUE);
  add_places (self);
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self->bench)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (CRO_IS_BENCH (child))
      {
        g_signal_connect_swapped (child, "open-ref", G_CALLBACK (open_ref_cb), self);
        g_signal_connect_swapped (child, "say", G_CALLBACK (cro_window_say), self);
      }
  for (guint i = 0; of_a_book[i] != NULL; i++)
    gtk_widget_action_set_enabled (GTK_WIDGET (self), of_a_book[i], FALSE);
  cro_window_add_keys (self);
  restore_size (self);
  cro_welcome_focus (self->welcome);
}

GtkWidget *
cro_window_new (AdwApplication *application)
{
  return g_object_new (CRO_TYPE_WINDOW, "application", application, NULL);
}
