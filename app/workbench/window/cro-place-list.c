#include "config.h"

#include "cro-place-list-private.h"

#include <glib/gi18n.h>

#include "cro-field.h"
#include "cro-place-all.h"
#include "cro-place-filter.h"
#include "cro-place-row.h"
#include "cro-spoken.h"
#include "cro-wrap.h"

G_DEFINE_FINAL_TYPE (CroPlaceList, cro_place_list, GTK_TYPE_WIDGET)

enum
{
  ALL,
  CHOSEN,
  TAKEN,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

/* --- The row of all -------------------------------------------------------------------------------- */

/* With so many plates they stand under headings, and from how many on those are folded. */
#define GROUPED 24
#define FOLDED 100

/* Until a list that comes into sight is laid out. */
#define FRAMES 3

static void filter_changed_cb (CroPlaceList *self);

/* A list comes up sooner without one. */
static void
show_filter (CroPlaceList *self,
             gboolean      is_shown)
{
  if (self->filter == NULL && is_shown)
    {
      self->filter = cro_place_filter_new ();
      cro_place_filter_set_place (self->filter, self->place, self->book);
      g_signal_connect_object (self->filter, "notify::selected", G_CALLBACK (filter_changed_cb), self,
                               G_CONNECT_SWAPPED);
      gtk_box_insert_child_after (GTK_BOX (self->box), self->filter, self->makers);
    }
  if (self->filter != NULL)
    gtk_widget_set_visible (self->filter, is_shown);
}

static void
group (CroPlaceList *self,
       guint         n_plates)
{
  CroListGroups groups = n_plates >= FOLDED ? CRO_LIST_FOLDED
                         : n_plates >= GROUPED ? CRO_LIST_GROUPED
                                               : CRO_LIST_PLAIN;

  cro_place_rows_set_groups (&self->rows, groups);
  show_filter (self, groups != CRO_LIST_PLAIN);
}

static void
count_all (CroPlaceList *self)
{
  CroModel *model = cro_book_get_model (self->book);
  const CroPlaceInfo *place = cro_place_get (self->place);
  CroKind kind = place->kinds[0];
  guint n = 0;

  self->edition = cro_book_get_edition (self->book);
  for (guint32 slot = 0; slot < cro_kind_n_slots (model, kind); slot++)
    n += cro_kind_name (model, kind, slot) != NULL;
  if (self->place == CRO_PLACE_PLATES)
    group (self, n);
  cro_place_all_set (CRO_PLACE_ALL (self->all), _(place->all), n);
}

static void
mark_all (CroPlaceList *self,
          gboolean      is_at_all)
{
  self->is_at_all = is_at_all;
  cro_place_all_mark (CRO_PLACE_ALL (self->all), is_at_all);
}

void
cro_place_list_choose_all (CroPlaceList *self)
{
  g_signal_emit (self, signals[ALL], 0);
}

static void
all_clicked_cb (CroPlaceList *self)
{
  cro_place_list_choose_all (self);
  g_signal_emit (self, signals[TAKEN], 0);
}

/* --- Choosing ---------------------------------------------------------------------------------------- */

/* The heading that is selected; NULL: another row is, or none. Borrowed. */
static CroRow *
selected_heading (CroPlaceList *self)
{
  CroRow *row = gtk_single_selection_get_selected_item (self->selection);

  return row != NULL && cro_row_get_heading (row) != NULL ? row : NULL;
}

/* The view itself would give the focus to the row that had it last. */
static gboolean
focus_selected (CroPlaceList *self)
{
  for (GtkWidget *row = gtk_widget_get_first_child (self->view); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    if ((gtk_widget_get_state_flags (row) & GTK_STATE_FLAG_SELECTED) != 0)
      return gtk_widget_grab_focus (row);
  return FALSE;
}

/* Returns whether what stands on the bench has another name by now. */
static gboolean
take_name (CroPlaceList *self)
{
  const char *name = self->kind < CRO_N_KINDS ? cro_kind_name (cro_book_get_model (self->book), self->kind, self->slot)
                                              : NULL;

  if (g_strcmp0 (name, self->name) == 0)
    return FALSE;
  g_free (self->name);
  self->name = g_strdup (name);
  return TRUE;
}

static void
stand_at (CroPlaceList *self,
          CroKind       kind,
          guint32       slot)
{
  self->kind = kind;
  self->slot = slot;
  self->serial = self->book != NULL ? cro_book_get_model (self->book)->serial : 0;
  take_name (self);
}

/* Rows that came with the same change have their room by the next frame only, and a list that was not in sight has its
 * own by then. What is scrolled back stands where it was. */
static gboolean
show_again_cb (GtkWidget     *widget,
               GdkFrameClock *clock,
               gpointer       user_data)
{
  CroPlaceList *self = CRO_PLACE_LIST (widget);
  guint at = cro_place_rows_find (&self->rows, self->kind, self->slot);

  if (self->scroll.tick_id == 0 && at != GTK_INVALID_LIST_POSITION && cro_slices_show (self->slices, at))
    gtk_widget_activate_action (self->view, "list.scroll-to-item", "u", at);
  return --self->n_again > 0 ? G_SOURCE_CONTINUE : G_SOURCE_REMOVE;
}

/* Selects the row of what stands on the bench, and scrolls to it where it is sought. */
static void
mark_row (CroPlaceList *self)
{
  guint at = cro_place_rows_find (&self->rows, self->kind, self->slot);

  self->is_setting = TRUE;
  /* A heading that the person stands on keeps the selection while rows come in below it. */
  if (selected_heading (self) == NULL || self->is_sought)
    gtk_single_selection_set_selected (self->selection, at);
  self->is_setting = FALSE;
  if (self->is_sought && cro_slices_show (self->slices, at))
    {
      self->is_sought = FALSE;
      gtk_widget_activate_action (self->view, "list.scroll-to-item", "u", at);
      if (self->n_again == 0)
        gtk_widget_add_tick_callback (GTK_WIDGET (self), show_again_cb, NULL, NULL);
      self->n_again = FRAMES;
      if (self->is_awaited)
        focus_selected (self);
      self->is_awaited = FALSE;
    }
}

/* Where many rows have moved, the selection has lost its own. What has another name is followed to where
 * that stands in the list. */
static void
book_changed_cb (CroPlaceList *self)
{
  /* A slot of a model that was there before is nobody's. */
  if (self->serial != cro_book_get_model (self->book)->serial)
    stand_at (self, CRO_N_KINDS, 0);
  if (take_name (self))
    self->is_sought = TRUE;
  if (self->is_sought || gtk_single_selection_get_selected (self->selection) == GTK_INVALID_LIST_POSITION)
    mark_row (self);
  if (cro_place_get (self->place)->all != NULL && self->edition != cro_book_get_edition (self->book))
    count_all (self);
}

static void
selected_cb (CroPlaceList *self)
{
  CroRow *row = gtk_single_selection_get_selected_item (self->selection);

  if (self->is_setting || row == NULL || cro_row_get_heading (row) != NULL)
    return;
  stand_at (self, cro_row_get_kind (row), cro_row_get_slot (row));
  g_signal_emit (self, signals[CHOSEN], 0, (int) self->kind, self->slot);
}

void
cro_place_list_fold (CroPlaceList *self,
                     CroRow       *heading,
                     gboolean      is_folded)
{
  guint at = gtk_single_selection_get_selected (self->selection);

  if (at != GTK_INVALID_LIST_POSITION && selected_heading (self) == heading)
    cro_slices_begin_behind (self->slices, at);
  cro_place_rows_fold (&self->rows, heading, is_folded);
}

static void
turn (CroPlaceList *self,
      CroRow       *heading)
{
  cro_place_list_fold (self, heading, !cro_row_get_heading (heading)->is_folded);
}

/* Down from what is looked for leads to a row that is not chosen yet: Enter does. */
static void
activated_cb (CroPlaceList *self,
              guint         position)
{
  g_autoptr (CroRow) row = g_list_model_get_item (G_LIST_MODEL (self->selection), position);

  if (row != NULL && cro_row_get_heading (row) != NULL)
    {
      gtk_single_selection_set_selected (self->selection, position);
      turn (self, row);
      return;
    }
  gtk_single_selection_set_selected (self->selection, position);
  g_signal_emit (self, signals[TAKEN], 0);
}

static void
clicked_cb (CroPlaceList *self,
            int           n_press,
            double        x,
            double        y)
{
  GtkWidget *at = gtk_widget_pick (self->view, x, y, GTK_PICK_DEFAULT);
  CroRow *heading = selected_heading (self);

  if (at == NULL || at == self->view)
    return;
  if (heading != NULL)
    turn (self, heading);
  else
    g_signal_emit (self, signals[TAKEN], 0);
}

static void
update_empty (CroPlaceList *self)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (self->selection));

  gtk_widget_set_visible (self->empty, n == 0);
}

static void
search_changed_cb (CroPlaceList *self)
{
  cro_slices_begin (self->slices);
  self->is_setting = TRUE;
  cro_place_rows_set_search (&self->rows, gtk_editable_get_text (GTK_EDITABLE (self->search)));
  mark_row (self);
}

/* Enter takes the first that fits; what was typed last is looked for first. */
static void
search_activate_cb (CroPlaceList *self)
{
  CroKind kind;
  guint32 slot;

  search_changed_cb (self);
  if (cro_place_list_get_first (self, &kind, &slot))
    g_signal_emit (self, signals[CHOSEN], 0, (int) kind, slot);
  g_signal_emit (self, signals[TAKEN], 0);
}

static void
filter_changed_cb (CroPlaceList *self)
{
  CroListFilter filter = cro_place_filter_get (self->filter, self->place);

  cro_slices_begin (self->slices);
  self->is_setting = TRUE;
  cro_place_rows_set_filter (&self->rows, filter);
  mark_row (self);
}

/* --- Scrolling --------------------------------------------------------------------------------------- */

/* Rows that come in move the others, and the row that is sought is brought into sight by the shortest way. */
static GtkAdjustment *
find_scroll (GtkWidget *widget,
             gboolean  *is_moving)
{
  CroPlaceList *self = CRO_PLACE_LIST (widget);

  *is_moving = self->is_sought;
  return gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (self->scroller));
}

int
cro_place_list_get_scroll (CroPlaceList *self)
{
  return cro_scroll_back_get (&self->scroll);
}

void
cro_place_list_scroll_to (CroPlaceList *self,
                          int           value)
{
  cro_scroll_back_to (&self->scroll, value);
}

/* --- The model ----------------------------------------------------------------------------------------- */

void
cro_place_list_tell (CroPlaceList *self)
{
  cro_place_rows_tell (&self->rows);
}

static GtkWidget *
maker_new (const char *label,
           const char *action)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_widget_set_hexpand (button, TRUE);
  return button;
}

/* What one makes most is made by a button in sight. */
static void
show_makers (CroPlaceList *self)
{
  const CroPlaceMaker *makers = cro_place_get (self->place)->makers;

  cro_wrap_clear (CRO_WRAP (self->makers));
  for (int i = 0; i < CRO_PLACE_MOST_KINDS && makers[i].label != NULL; i++)
    cro_wrap_append (CRO_WRAP (self->makers), maker_new (_(makers[i].label), makers[i].action));
}

/* Without a search, and without a filter. */
static void
list_all (CroPlaceList *self)
{
  if (self->filter != NULL)
    gtk_drop_down_set_selected (GTK_DROP_DOWN (self->filter), 0);
  self->is_setting = TRUE;
  gtk_editable_set_text (GTK_EDITABLE (self->search), "");
  cro_place_rows_set_search (&self->rows, NULL);
  self->is_setting = FALSE;
}

static void
rebuild (CroPlaceList *self)
{
  const CroPlaceInfo *place = cro_place_get (self->place);
  g_autoptr (GListModel) model = NULL;

  list_all (self);
  show_filter (self, self->place == CRO_PLACE_LARDER);
  show_makers (self);
  if (self->filter != NULL)
    cro_place_filter_set_place (self->filter, self->place, self->book);
  cro_place_rows_set_place (&self->rows, self->place);
  if (self->book != NULL && place->all != NULL)
    count_all (self);
  model = cro_place_rows_join (&self->rows);
  self->is_setting = TRUE;
  cro_slices_set_model (self->slices, model);
  self->is_setting = FALSE;
  update_empty (self);
}

void
cro_place_list_set_book (CroPlaceList *self,
                         CroBook      *book)
{
  if (self->book != NULL)
    g_signal_handlers_disconnect_by_data (self->book, self);
  g_set_object (&self->book, book);
  /* After the lists, which follow it themselves. */
  if (book != NULL)
    g_signal_connect_object (book, "changed", G_CALLBACK (book_changed_cb), self,
                             G_CONNECT_SWAPPED | G_CONNECT_AFTER);
  stand_at (self, CRO_N_KINDS, 0);
  cro_place_rows_set_book (&self->rows, book);
  rebuild (self);
}

CroBook *
cro_place_list_get_book (CroPlaceList *self)
{
  return self->book;
}

void
cro_place_list_set_place (CroPlaceList *self,
                          CroPlace      place)
{
  if (self->place == place)
    return;
  self->place = place;
  rebuild (self);
}

void
cro_place_list_select (CroPlaceList *self,
                       CroKind       kind,
                       guint32       slot)
{
  mark_all (self, FALSE);
  stand_at (self, kind, slot);
  self->is_sought = TRUE;
  cro_scroll_back_stop (&self->scroll);
  cro_place_rows_reveal (&self->rows, kind, slot);
  /* What is opened from elsewhere need not be what was looked for here. */
  if (cro_place_rows_find (&self->rows, kind, slot) == GTK_INVALID_LIST_POSITION)
    list_all (self);
  mark_row (self);
}

void
cro_place_list_select_all (CroPlaceList *self)
{
  mark_all (self, TRUE);
  stand_at (self, CRO_N_KINDS, 0);
  mark_row (self);
  /* It stands above the first of them. */
  cro_place_list_scroll_to (self, 0);
}

void
cro_place_list_focus_search (CroPlaceList *self)
{
  gtk_widget_grab_focus (self->search);
}

void
cro_place_list_focus (CroPlaceList *self)
{
  self->is_awaited = FALSE;
  if (self->is_at_all && gtk_widget_grab_focus (self->all))
    return;
  /* A row far down in a long list is there some frames later. */
  self->is_awaited = self->is_sought && !cro_slices_show (
      self->slices, cro_place_rows_find (&self->rows, self->kind, self->slot));
  if (!focus_selected (self) && !gtk_widget_grab_focus (self->view))
    gtk_widget_grab_focus (self->search);
}

gboolean
cro_place_list_get_first (CroPlaceList *self,
                          CroKind      *kind,
                          guint32      *slot)
{
  g_autoptr (CroRow) row = g_list_model_get_item (G_LIST_MODEL (self->selection), 0);

  if (row != NULL && cro_row_get_heading (row) != NULL)
    {
      cro_place_list_fold (self, row, FALSE);
      g_object_unref (row);
      row = g_list_model_get_item (G_LIST_MODEL (self->selection), 1);
    }
  if (row == NULL)
    return FALSE;
  *kind = cro_row_get_kind (row);
  *slot = cro_row_get_slot (row);
  return TRUE;
}

/* --- The widget ------------------------------------------------------------------------------------------ */

static void
cro_place_list_dispose (GObject *object)
{
  CroPlaceList *self = CRO_PLACE_LIST (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_object (&self->selection);
  g_clear_object (&self->slices);
  cro_place_rows_clear (&self->rows);
  g_clear_object (&self->book);
  g_clear_pointer (&self->name, g_free);
  G_OBJECT_CLASS (cro_place_list_parent_class)->dispose (object);
}

static GtkSizeRequestMode
cro_place_list_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

/* No wider than it must be: longer words on its buttons take nothing from what stands beside it. */
static void
cro_place_list_measure (GtkWidget      *widget,
                        GtkOrientation  orientation,
                        int             for_size,
                        int            *minimum,
                        int            *natural,
                        int            *minimum_baseline,
                        int            *natural_baseline)
{
  gtk_widget_measure (CRO_PLACE_LIST (widget)->box, orientation, for_size, minimum, natural, NULL,
                      NULL);
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    *natural = *minimum;
}

static void
cro_place_list_size_allocate (GtkWidget *widget,
                              int        width,
                              int        height,
                              int        baseline)
{
  gtk_widget_allocate (CRO_PLACE_LIST (widget)->box, width, height, -1, NULL);
}

static void
cro_place_list_class_init (CroPlaceListClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_place_list_dispose;
  widget_class->get_request_mode = cro_place_list_get_request_mode;
  widget_class->measure = cro_place_list_measure;
  widget_class->size_allocate = cro_place_list_size_allocate;
  signals[ALL] = g_signal_new ("all", CRO_TYPE_PLACE_LIST, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                               G_TYPE_NONE, 0);
  signals[CHOSEN] = g_signal_new ("chosen", CRO_TYPE_PLACE_LIST, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 2, G_TYPE_INT, G_TYPE_UINT);
  signals[TAKEN] = g_signal_new ("taken", CRO_TYPE_PLACE_LIST, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 0);
}

static void
cro_place_list_init (CroPlaceList *self)
{
  GtkGesture *clicks;

  self->kind = CRO_N_KINDS;
  cro_scroll_back_init (&self->scroll, GTK_WIDGET (self), find_scroll);
  cro_place_rows_init (&self->rows);
  self->slices = cro_slices_new (GTK_WIDGET (self));
  g_signal_connect_object (self->slices, "grown", G_CALLBACK (mark_row), self, G_CONNECT_SWAPPED);
  self->selection = gtk_single_selection_new (g_object_ref (cro_slices_get_model (self->slices)));
  gtk_single_selection_set_autoselect (self->selection, FALSE);
  gtk_single_selection_set_can_unselect (self->selection, TRUE);
  g_signal_connect_object (self->selection, "selection-changed", G_CALLBACK (selected_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->selection, "items-changed", G_CALLBACK (update_empty), self,
                           G_CONNECT_SWAPPED);

  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  gtk_widget_set_size_request (self->box, 260, -1);
  self->search = cro_search_new (_("Search this list"));
  gtk_widget_set_margin_start (self->search, 6);
  gtk_widget_set_margin_end (self->search, 6);
  gtk_widget_set_margin_top (self->search, 6);
  g_signal_connect_object (self->search, "search-changed", G_CALLBACK (search_changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->search, "activate", G_CALLBACK (search_activate_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->search, "stop-search", G_CALLBACK (cro_place_list_focus), self,
                           G_CONNECT_SWAPPED);
  self->makers = cro_wrap_new (6, 6);
  gtk_widget_set_margin_start (self->makers, 6);
  gtk_widget_set_margin_end (self->makers, 6);
  self->all = cro_place_all_new (_("All plates"));
  g_signal_connect_object (self->all, "clicked", G_CALLBACK (all_clicked_cb), self, G_CONNECT_SWAPPED);
  self->view = gtk_list_view_new (GTK_SELECTION_MODEL (g_object_ref (self->selection)),
                                  cro_place_row_factory_new (self));
  gtk_widget_add_css_class (self->view, "navigation-sidebar");
  cro_spoken_set (self->view, _("Entries of this section"));
  g_signal_connect_object (self->view, "activate", G_CALLBACK (activated_cb), self,
                           G_CONNECT_SWAPPED);
  clicks = gtk_gesture_click_new ();
  g_signal_connect_object (clicks, "released", G_CALLBACK (clicked_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (self->view, GTK_EVENT_CONTROLLER (clicks));
  cro_place_list_add_keys (self);
  self->scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroller), self->view);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->scroller), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_widget_set_vexpand (self->scroller, TRUE);
  self->empty = gtk_label_new (_("Nothing is listed."));
  gtk_widget_add_css_class (self->empty, "dim-label");
  gtk_widget_set_margin_top (self->empty, 12);
  gtk_box_append (GTK_BOX (self->box), self->search);
  gtk_box_append (GTK_BOX (self->box), self->makers);
  gtk_box_append (GTK_BOX (self->box), self->all);
  gtk_box_append (GTK_BOX (self->box), self->empty);
  gtk_box_append (GTK_BOX (self->box), self->scroller);
}
