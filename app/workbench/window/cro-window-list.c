#include "config.h"

#include "cro-window-private.h"

#include <glib/gi18n.h>

#include "cro-focus.h"
#include "cro-market-rows.h"
#include "cro-state.h"

/* --- The list of a place ------------------------------------------------------------------------ */

static gboolean
is_in_list (CroWindow *self)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));

  return focus != NULL && gtk_widget_is_ancestor (focus, self->list_box);
}

void
cro_window_focus_list (CroWindow *self)
{
  if (self->place == CRO_PLACE_MONTHS)
    cro_month_list_focus (self->months);
  else if (self->page_lists[self->place] != NULL)
    cro_page_list_focus (self->page_lists[self->place]);
  else
    cro_place_list_focus (self->list);
}

static GtkWidget *
list_of_place (CroWindow *self)
{
  if (self->place == CRO_PLACE_MONTHS)
    return GTK_WIDGET (self->months);
  return self->page_lists[self->place] != NULL ? GTK_WIDGET (self->page_lists[self->place])
                                               : GTK_WIDGET (self->list);
}

/* The list that the place has: its things, or its pages. What has the focus is not put out of sight with it:
 * the toolkit would hold it for good. */
void
cro_window_put_list (CroWindow *self)
{
  GtkWidget *list = list_of_place (self);
  gboolean is_here = is_in_list (self);

  if (gtk_stack_get_visible_child (self->lists) == list)
    return;
  if (is_here)
    gtk_window_set_focus (GTK_WINDOW (self), NULL);
  gtk_stack_set_visible_child (self->lists, list);
  if (is_here)
    cro_window_focus_list (self);
}

/* --- In sight, or not --------------------------------------------------------------------------- */

gboolean
cro_window_is_list_seen (CroWindow *self)
{
  return gtk_widget_get_visible (self->list_box)
         && (!cro_sided_is_tight (self->sided) || cro_sided_is_over (self->sided));
}

/* Over the bench it is there for one choice, whatever the person's wish where there is room. Where there is none a
 * button brings it, and with it those that add a thing: else the keyboard alone would. */
void
cro_window_show_list (CroWindow *self)
{
  gtk_widget_set_visible (self->list_box, self->is_list_shown || cro_sided_is_over (self->sided));
  gtk_widget_set_visible (self->list_button, self->book != NULL && cro_sided_is_tight (self->sided));
}

static void
put_over (CroWindow *self,
          gboolean   is_over)
{
  if (cro_sided_is_over (self->sided) == is_over)
    return;
  cro_sided_set_over (self->sided, is_over);
  cro_window_show_list (self);
}

/* What had the focus in the list is out of sight with it. */
static void
leave_list (CroWindow *self)
{
  if (!cro_window_is_list_seen (self) && is_in_list (self))
    cro_window_focus_harmless (self);
}

/* Where there is no room for it, it stands over the bench until something is done there. */
static void
look_over (CroWindow *self,
           gboolean   is_over)
{
  put_over (self, is_over);
  if (is_over)
    cro_window_focus_list (self);
  else
    leave_list (self);
}

static void
toggle_list_cb (GtkWidget  *widget,
                const char *action,
                GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);

  if (cro_sided_is_tight (self->sided))
    {
      look_over (self, !cro_sided_is_over (self->sided));
      return;
    }
  self->is_list_shown = !self->is_list_shown;
  cro_window_show_list (self);
  leave_list (self);
  cro_state_set_int ("window", "list", self->is_list_shown);
}

/* --- Searched, chosen from, left ---------------------------------------------------------------- */

gboolean
cro_window_focus_table (CroWindow *self)
{
  GtkWidget *search = cro_focus_find (gtk_stack_get_visible_child (self->bench), "search");
  GtkWidget *lines = cro_focus_find (gtk_stack_get_visible_child (self->bench), "lines-part");

  /* A short table has no search, and an empty one neither, but a button. */
  return (search != NULL && gtk_widget_grab_focus (search)) || (lines != NULL && cro_focus_first (lines))
         || gtk_widget_child_focus (gtk_stack_get_visible_child (self->bench), GTK_DIR_TAB_FORWARD);
}

static void
search_list_cb (GtkWidget  *widget,
                const char *action,
                GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);

  if (self->book == NULL || (self->place == CRO_PLACE_MONTHS && cro_window_focus_table (self)))
    return;
  put_over (self, cro_sided_is_tight (self->sided));
  gtk_widget_set_visible (self->list_box, TRUE);
  if (self->place == CRO_PLACE_MONTHS)
    cro_window_focus_list (self);
  else if (self->page_lists[self->place] != NULL)
    cro_page_list_focus_search (self->page_lists[self->place]);
  else
    cro_place_list_focus_search (self->list);
}

/* Enter on a row, or a click, is the choice that the list came up for. */
static void
taken_cb (CroWindow *self)
{
  GtkWidget *lines = self->now.kind == CRO_REF_MONTH
                         ? cro_focus_find (gtk_stack_get_visible_child (self->bench), "lines-part")
                         : NULL;

  look_over (self, FALSE);
  /* A month is a page to be filled in: it is gone on with where it waits. */
  if (lines != NULL)
    cro_focus_first (lines);
}

static gboolean
list_key_cb (CroWindow       *self,
             guint            keyval,
             guint            keycode,
             GdkModifierType  state)
{
  if (keyval != GDK_KEY_Escape || !cro_sided_is_over (self->sided))
    return GDK_EVENT_PROPAGATE;
  look_over (self, FALSE);
  return GDK_EVENT_STOP;
}

/* The focus went to what stands behind it, or nowhere with the window. */
static void
list_left_cb (CroWindow *self)
{
  if (self->sided != NULL)
    put_over (self, FALSE);
}

static void
set_class (CroWindow  *self,
           const char *name,
           gboolean    is_set)
{
  if (is_set)
    gtk_widget_add_css_class (GTK_WIDGET (self), name);
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self), name);
}

static gboolean
turned_later_cb (gpointer user_data)
{
  CroWindow *self = user_data;

  self->turn_id = 0;
  /* A list over the page stays where only the height turned. */
  if (cro_sided_is_tight (self->sided) != gtk_widget_has_css_class (GTK_WIDGET (self), "tight"))
    cro_sided_set_over (self->sided, FALSE);
  set_class (self, "tight", cro_sided_is_tight (self->sided));
  set_class (self, "low", cro_sided_is_low (self->sided));
  cro_window_show_list (self);
  leave_list (self);
  cro_window_fit_notes (self);
  return G_SOURCE_REMOVE;
}

/* In the midst of a layout; what it brings is seen in the next frame. */
static void
turned_cb (CroWindow *self)
{
  if (self->turn_id == 0)
    self->turn_id = g_idle_add_full (G_PRIORITY_HIGH, turned_later_cb, self, NULL);
}

static void
watch_list (CroWindow *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();

  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (list_key_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (focus, "leave", G_CALLBACK (list_left_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (self->list_box, keys);
  gtk_widget_add_controller (self->list_box, focus);
}

/* --- The window --------------------------------------------------------------------------------- */

static void
page_chosen_cb (CroWindow *self,
                int        kind,
                guint      slot)
{
  if (!self->is_moving)
    cro_window_open_ref (self, CRO_REF ((CroRefKind) kind, slot));
}

static void
add_page_list (CroWindow   *self,
               CroPlace     place,
               CroPageRows  rows,
               const char  *maker)
{
  GtkWidget *list = cro_page_list_new (rows, maker);

  self->page_lists[place] = CRO_PAGE_LIST (list);
  g_signal_connect_object (list, "chosen", G_CALLBACK (page_chosen_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (list, "taken", G_CALLBACK (taken_cb), self, G_CONNECT_SWAPPED);
  gtk_stack_add_child (self->lists, list);
}

void
cro_window_install_list (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "win.search-list", NULL, search_list_cb);
  gtk_widget_class_install_action (widget_class, "win.toggle-list", NULL, toggle_list_cb);
  gtk_widget_class_bind_template_callback (widget_class, taken_cb);
  gtk_widget_class_bind_template_callback (widget_class, turned_cb);
}

void
cro_window_add_list (CroWindow *self)
{
  self->is_list_shown = cro_state_get_int ("window", "list", TRUE);
  add_page_list (self, CRO_PLACE_MARKET, cro_market_rows_new, _("Add Supplier"));
  watch_list (self);
}
