#include "config.h"

#include "cro-records-view.h"

#include <glib/gi18n.h>

#include "cro-field.h"
#include "cro-focus.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-records-table.h"
#include "cro-spoken.h"

struct _CroRecordsView
{
  GtkWidget           parent_instance;

  GtkWidget          *box;
  GtkWidget          *head;
  GtkWidget          *search;
  GtkWidget          *count;      /* how many rows there are, or are found */
  GtkWidget          *open;
  GtkWidget          *table;
  GtkWidget          *empty;
  GtkWidget          *nothing;    /* what it says then */
  GtkWidget          *first;      /* and what makes the first rows; NULL: the form below does */
  GtkWidget          *typed_into; /* borrowed; NULL: none */

  CroBench           *bench;      /* borrowed */
  CroRecordsKind      kind;
  CroBook            *book;
  gboolean            is_searched;
  gboolean            is_given;   /* rows are opened by the widgets around, whatever they are about */
  char               *sought;     /* what was looked for last; NULL: nothing yet */
  char               *month;      /* whose rows are shown; NULL: all */
  CroRecordsFilter    filter;
  char               *course;     /* the filter's */
  guint               column;     /* it is sorted by; G_MAXUINT: by none */
  gboolean            falling;
  CroRecords         *records;    /* once somebody looked at them */
  GHashTable         *worths;     /* of adjustments; NULL */
  gint64              newest;     /* id of the row that was entered last, as it is known */
  gboolean            is_entered; /* a newer one is to come */
};

G_DEFINE_FINAL_TYPE (CroRecordsView, cro_records_view, GTK_TYPE_WIDGET)

enum
{
  ROWS_CHANGED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

/* --- What is shown ------------------------------------------------------------------------------ */

static const char *
nothing_text (CroRecordsKind kind)
{
  switch (kind)
    {
    case CRO_RECORDS_OFFERS:
      return _("No pack is entered yet. Packs and prices are entered with their ingredient, or come "
               "from a price list.");
    case CRO_RECORDS_RATES:
      return _("No exchange rate is entered yet. Only prices in another currency need one.");
    case CRO_RECORDS_MONTHS:
      return _("No sales, purchases or counts yet. They come from tables.");
    case CRO_RECORDS_SALES:
      return _("No sales here.");
    case CRO_RECORDS_PURCHASES:
    case CRO_RECORDS_DOCUMENTS:
      return _("No purchases here.");
    case CRO_RECORDS_COUNTS:
      return _("No counts here.");
    case CRO_RECORDS_ADJUSTMENTS:
      return _("No adjustments here.");
    default:
      return _("Nothing passes the filters.");
    }
}

static void
show_count (CroRecordsView *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->search));
  guint n = cro_records_get_n_chosen (self->records);
  guint all = cro_records_get_n_rows (self->records);
  g_autofree char *n_text = cro_number_to_text (n, 0, TRUE);
  g_autofree char *all_text = cro_number_to_text (all, 0, TRUE);
  g_autofree char *of_all = g_strdup_printf (ngettext ("%s row", "%s rows", all), all_text);
  /* Translators: how many are found of all; the second is "79 rows". */
  g_autofree char *found = g_strdup_printf (C_("rows", "%s of %s"), n_text, of_all);
  g_autofree char *none = *text != '\0' && all > 0
                              ? cro_isolate_printf (_("No row contains “%s”."), text)
                              : g_strdup (nothing_text (self->kind));

  gtk_label_set_label (GTK_LABEL (self->count), n < all ? found : of_all);
  gtk_label_set_label (GTK_LABEL (self->nothing), none);
  gtk_widget_set_visible (self->empty, n == 0);
  /* Where there is nothing yet, the sentence says it without headings over nothing. */
  gtk_widget_set_visible (self->head, self->is_searched && all > 0);
  cro_records_table_set_headed (CRO_RECORDS_TABLE (self->table), all > 0);
  gtk_widget_set_can_target (self->empty, all == 0);
  if (self->first != NULL)
    gtk_widget_set_visible (self->first, all == 0);
}

/* Borrowed; NULL: none. */
static CroRecord *
selected_of (CroRecordsView *self)
{
  return gtk_single_selection_get_selected_item (
      cro_records_table_get_selection (CRO_RECORDS_TABLE (self->table)));
}

static void
show_open (CroRecordsView *self)
{
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "item.open",
                                 selected_of (self) != NULL);
}

static void
take_newest (CroRecordsView *self)
{
  gint64 id;
  g_autoptr (CroRecord) record = self->records != NULL ? cro_records_dup_newest (self->records, &id) : NULL;

  if (record == NULL)
    return;
  if (self->is_entered && id > self->newest)
    {
      self->is_entered = FALSE;
      cro_records_table_select (CRO_RECORDS_TABLE (self->table), record);
    }
  self->newest = id;
}

static void
rows_changed_cb (CroRecordsView *self)
{
  show_count (self);
  take_newest (self);
  g_signal_emit (self, signals[ROWS_CHANGED], 0);
}

void
cro_records_view_set_worths (CroRecordsView *self,
                             GHashTable     *worths)
{
  g_clear_pointer (&self->worths, g_hash_table_unref);
  self->worths = worths;
  if (self->records != NULL && worths != NULL)
    cro_records_set_worths (self->records, g_hash_table_ref (worths));
}

void
cro_records_view_await_newest (CroRecordsView *self)
{
  self->is_entered = TRUE;
  take_newest (self);
}

void
cro_records_view_select (CroRecordsView *self,
                         CroRecord      *record)
{
  cro_records_table_select (CRO_RECORDS_TABLE (self->table), record);
}

/* What fits best stands first and is chosen; who looks for nothing more keeps their row. */
static void
search_changed_cb (CroRecordsView *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->search));
  gboolean is_new = g_strcmp0 (text, self->sought) != 0;

  if (self->records == NULL)
    return;
  g_free (self->sought);
  self->sought = g_strdup (text);
  cro_records_set_search (self->records, text);
  show_count (self);
  if (!is_new || *text == '\0')
    return;
  cro_records_table_select_first (CRO_RECORDS_TABLE (self->table));
}

static void
sorted_cb (CroRecordsView *self,
           guint           column,
           gboolean        falling)
{
  self->column = column;
  self->falling = falling;
  if (self->records != NULL)
    cro_records_set_order (self->records, column, falling);
}

/* --- Hands ----------------------------------------------------------------------------------------- */

static void
open_record (CroRecordsView *self,
             CroRecord      *record)
{
  CroRef ref = record != NULL ? cro_record_get_ref (record) : CRO_REF_NOWHERE;

  if (!self->is_given && ref.kind != CRO_REF_NONE)
    cro_bench_open (self->bench, ref);
  else
    gtk_widget_activate_action (GTK_WIDGET (self), "row.open", NULL);
}

/* A heading has nothing to open but its group. */
static gboolean
turn (CroRecordsView *self,
      CroRecord      *record)
{
  gboolean is_folded;

  if (record == NULL || !cro_record_is_heading (record, &is_folded))
    return FALSE;
  cro_records_turn (self->records, record);
  return TRUE;
}

static void
row_activated_cb (CroRecordsView *self,
                  guint           position)
{
  g_autoptr (CroRecord) record = g_list_model_get_item (G_LIST_MODEL (self->records), position);

  if (!turn (self, record))
    open_record (self, record);
}

static void
clicked_cb (CroRecordsView *self,
            int             n_press,
            double          x,
            double          y)
{
  GtkWidget *list = cro_records_table_get_list (CRO_RECORDS_TABLE (self->table));
  GtkWidget *at = gtk_widget_pick (list, x, y, GTK_PICK_DEFAULT);
  g_autoptr (CroRecord) record = cro_records_view_dup_selected (self);

  if (at != NULL && at != list)
    turn (self, record);
}

/* Left and right fold and unfold the heading that is selected. */
static gboolean
fold_by_key (CroRecordsView *self,
             guint           keyval)
{
  gboolean is_right = keyval == GDK_KEY_Right || keyval == GDK_KEY_KP_Right;
  gboolean is_left = keyval == GDK_KEY_Left || keyval == GDK_KEY_KP_Left;
  gboolean is_mirrored = gtk_widget_get_direction (self->table) == GTK_TEXT_DIR_RTL;
  g_autoptr (CroRecord) record = cro_records_view_dup_selected (self);
  gboolean is_folded;

  if ((!is_left && !is_right) || record == NULL || !cro_record_is_heading (record, &is_folded))
    return FALSE;
  if (is_folded == (is_right != is_mirrored))
    turn (self, record);
  return TRUE;
}

static void
open_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  CroRecordsView *self = CRO_RECORDS_VIEW (widget);

  g_autoptr (CroRecord) record = cro_records_view_dup_selected (self);

  if (!turn (self, record))
    open_record (self, record);
}

/* What is typed on a row: a letter finds another, a digit or a sign is a price. */
static GtkWidget *
entry_of_sign (CroRecordsView *self,
               gunichar        sign)
{
  if (g_unichar_isalpha (sign))
    return self->search;
  return g_unichar_isdigit (sign) || sign == '+' || sign == '-' ? self->typed_into : NULL;
}

static gboolean
key_pressed_cb (CroRecordsView  *self,
                guint            keyval,
                guint            keycode,
                GdkModifierType  state)
{
  gunichar sign = gdk_keyval_to_unicode (keyval);
  GtkWidget *entry = entry_of_sign (self, sign);

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SHIFT_MASK)) == 0 && fold_by_key (self, keyval))
    return GDK_EVENT_STOP;
  if (entry == NULL || !gtk_widget_get_mapped (entry) || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  cro_focus_type (entry, sign);
  return GDK_EVENT_STOP;
}

/* Who found what was looked for goes on with its row. A search waits a moment after the last
 * letter; here it is done. */
static void
found_cb (CroRecordsView *self)
{
  search_changed_cb (self);
  if (selected_of (self) != NULL)
    cro_records_view_focus_rows (self);
}

static gboolean
search_key_cb (CroRecordsView  *self,
               guint            keyval,
               guint            keycode,
               GdkModifierType  state)
{
  if (keyval != GDK_KEY_Down && keyval != GDK_KEY_KP_Down)
    return GDK_EVENT_PROPAGATE;
  found_cb (self);
  return GDK_EVENT_STOP;
}

/* --- The widget ------------------------------------------------------------------------------------------ */

/* A list makes a widget for every cell of its first rows, and reads the book whenever that moves:
 * only one that is looked at does. */
static void
begin_to_look (CroRecordsView *self)
{
  if (self->records == NULL)
    {
      self->records = cro_records_new (self->book, self->kind);
      if (self->worths != NULL)
        cro_records_set_worths (self->records, g_hash_table_ref (self->worths));
      cro_records_set_month (self->records, self->month);
      cro_records_set_filter (self->records, &self->filter);
      cro_records_set_order (self->records, self->column, self->falling);
      g_signal_connect_object (self->records, "items-changed", G_CALLBACK (rows_changed_cb), self,
                               G_CONNECT_SWAPPED | G_CONNECT_AFTER);
    }
  cro_records_set_follows (self->records, TRUE);
  if (cro_records_table_has_records (CRO_RECORDS_TABLE (self->table)))
    return;
  cro_records_table_set_records (CRO_RECORDS_TABLE (self->table), self->records);
  rows_changed_cb (self);
}

static void
cro_records_view_map (GtkWidget *widget)
{
  CroRecordsView *self = CRO_RECORDS_VIEW (widget);

  GTK_WIDGET_CLASS (cro_records_view_parent_class)->map (widget);
  if (self->book != NULL)
    begin_to_look (self);
}

static void
cro_records_view_unmap (GtkWidget *widget)
{
  CroRecordsView *self = CRO_RECORDS_VIEW (widget);

  if (self->records != NULL)
    cro_records_set_follows (self->records, FALSE);
  GTK_WIDGET_CLASS (cro_records_view_parent_class)->unmap (widget);
}

/* Another size of the letters: all is measured anew. */
static void
cro_records_view_system_setting_changed (GtkWidget        *widget,
                                         GtkSystemSetting  setting)
{
  CroRecordsView *self = CRO_RECORDS_VIEW (widget);

  GTK_WIDGET_CLASS (cro_records_view_parent_class)->system_setting_changed (widget, setting);
  if (setting != GTK_SYSTEM_SETTING_DPI && setting != GTK_SYSTEM_SETTING_FONT_NAME)
    return;
  cro_records_table_set_records (CRO_RECORDS_TABLE (self->table), NULL);
  if (self->book != NULL && gtk_widget_get_mapped (widget))
    begin_to_look (self);
}

static void
cro_records_view_dispose (GObject *object)
{
  CroRecordsView *self = CRO_RECORDS_VIEW (object);

  g_clear_pointer (&self->worths, g_hash_table_unref);
  if (self->box != NULL)
    cro_records_view_set_book (self, NULL);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->sought, g_free);
  g_clear_pointer (&self->month, g_free);
  g_clear_pointer (&self->course, g_free);
  G_OBJECT_CLASS (cro_records_view_parent_class)->dispose (object);
}

static void
cro_records_view_class_init (CroRecordsViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_records_view_dispose;
  widget_class->map = cro_records_view_map;
  widget_class->unmap = cro_records_view_unmap;
  widget_class->system_setting_changed = cro_records_view_system_setting_changed;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_install_action (widget_class, "item.open", NULL, open_cb);
  signals[ROWS_CHANGED] = g_signal_new ("rows-changed", CRO_TYPE_RECORDS_VIEW, G_SIGNAL_RUN_LAST, 0,
                                        NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
cro_records_view_init (CroRecordsView *self)
{
  self->is_searched = TRUE;
  self->column = G_MAXUINT;
  self->filter = CRO_RECORDS_ALL;
}

static GtkWidget *
head_new (CroRecordsView *self,
          const char     *open)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->search = cro_search_new (_("Search this table"));
  gtk_widget_add_css_class (self->search, "search");
  gtk_widget_set_hexpand (self->search, TRUE);
  g_signal_connect_object (self->search, "search-changed", G_CALLBACK (search_changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->search, "activate", G_CALLBACK (found_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->search, "stop-search", G_CALLBACK (cro_records_view_focus_rows), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (search_key_cb), self,
                           G_CONNECT_SWAPPED);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  gtk_widget_add_controller (self->search, keys);
  self->count = gtk_label_new (NULL);
  gtk_widget_add_css_class (self->count, "numeric");
  gtk_box_append (GTK_BOX (head), self->search);
  gtk_box_append (GTK_BOX (head), self->count);
  if (open == NULL)
    return head;
  self->open = gtk_button_new_with_label (open);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->open), "item.open");
  gtk_box_append (GTK_BOX (head), self->open);
  return head;
}

/* What makes the first rows of a table that has no form below it. */
static GtkWidget *
first_new (CroRecordsKind kind)
{
  GtkWidget *button;

  if (kind != CRO_RECORDS_OFFERS && kind != CRO_RECORDS_MONTHS)
    return NULL;
  button = gtk_button_new_with_label (kind == CRO_RECORDS_OFFERS ? _("Import a Spreadsheet…")
                                                                 : _("Import a Folder of Tables…"));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), kind == CRO_RECORDS_OFFERS
                                                               ? "win.bring"
                                                               : "win.load-tables");
  gtk_widget_set_halign (button, GTK_ALIGN_CENTER);
  return button;
}

static GtkWidget *
empty_new (CroRecordsView *self)
{
  self->empty = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_widget_set_valign (self->empty, GTK_ALIGN_CENTER);
  self->nothing = gtk_label_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (self->nothing), TRUE);
  gtk_label_set_justify (GTK_LABEL (self->nothing), GTK_JUSTIFY_CENTER);
  gtk_box_append (GTK_BOX (self->empty), self->nothing);
  self->first = first_new (self->kind);
  if (self->first != NULL)
    gtk_box_append (GTK_BOX (self->empty), self->first);
  return self->empty;
}

static void
add_table (CroRecordsView *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkGesture *clicks;

  self->table = cro_records_table_new (self->kind, empty_new (self));
  g_signal_connect_object (self->table, "sorted", G_CALLBACK (sorted_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->table, "row-activated", G_CALLBACK (row_activated_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (cro_records_table_get_selection (CRO_RECORDS_TABLE (self->table)),
                           "notify::selected-item", G_CALLBACK (show_open), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self,
                           G_CONNECT_SWAPPED);
  gtk_widget_add_controller (cro_records_table_get_list (CRO_RECORDS_TABLE (self->table)), keys);
  if (self->kind != CRO_RECORDS_PLATES)
    return;
  clicks = gtk_gesture_click_new ();
  g_signal_connect_object (clicks, "released", G_CALLBACK (clicked_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (cro_records_table_get_list (CRO_RECORDS_TABLE (self->table)),
                             GTK_EVENT_CONTROLLER (clicks));
}

GtkWidget *
cro_records_view_new (CroBench       *bench,
                      CroRecordsKind  kind,
                      const char     *open)
{
  CroRecordsView *self = g_object_new (CRO_TYPE_RECORDS_VIEW, NULL);

  self->bench = bench;
  self->kind = kind;
  add_table (self);
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->head = head_new (self, open);
  gtk_box_append (GTK_BOX (self->box), self->head);
  gtk_box_append (GTK_BOX (self->box), self->table);
  show_open (self);
  return GTK_WIDGET (self);
}

void
cro_records_view_set_book (CroRecordsView *self,
                           CroBook        *book)
{
  if (self->records != NULL)
    g_signal_handlers_disconnect_by_data (self->records, self);
  cro_records_table_set_records (CRO_RECORDS_TABLE (self->table), NULL);
  g_clear_object (&self->records);
  g_set_object (&self->book, book);
  if (book == NULL)
    return;
  cro_records_table_sort (CRO_RECORDS_TABLE (self->table), G_MAXUINT, FALSE);
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    begin_to_look (self);
}

void
cro_records_view_set_month (CroRecordsView *self,
                            const char     *month)
{
  g_autofree char *before = self->month;

  self->month = g_strdup (month);
  if (self->records != NULL)
    cro_records_set_month (self->records, month);
}

void
cro_records_view_set_filter (CroRecordsView         *self,
                             const CroRecordsFilter *filter)
{
  g_autofree char *before = self->course;

  self->course = g_strdup (filter->course);
  self->filter = *filter;
  self->filter.course = self->course;
  if (self->kind == CRO_RECORDS_OFFERS && filter->supplier != CRO_NO_SLOT)
    cro_records_table_spare (CRO_RECORDS_TABLE (self->table), CRO_RECORDS_OFFERS_SUPPLIER);
  if (self->records != NULL)
    cro_records_set_filter (self->records, &self->filter);
}

void
cro_records_view_set_searched (CroRecordsView *self,
                               gboolean        is_searched)
{
  self->is_searched = is_searched;
  gtk_widget_set_visible (self->head,
                          is_searched
                              && (self->records == NULL || cro_records_get_n_rows (self->records) > 0));
}

void
cro_records_view_connect_rows (CroRecordsView *self,
                               GCallback       changed,
                               gpointer        user_data)
{
  g_signal_connect_object (self, "rows-changed", changed, user_data, G_CONNECT_SWAPPED);
}

CroRecords *
cro_records_view_get_records (CroRecordsView *self)
{
  return self->records;
}

CroRecord *
cro_records_view_dup_selected (CroRecordsView *self)
{
  CroRecord *record = selected_of (self);

  return record != NULL ? g_object_ref (record) : NULL;
}

void
cro_records_view_connect_selected (CroRecordsView *self,
                                   GCallback       selected,
                                   gpointer        user_data)
{
  g_signal_connect_object (cro_records_table_get_selection (CRO_RECORDS_TABLE (self->table)),
                           "notify::selected-item", selected, user_data, G_CONNECT_SWAPPED);
}

void
cro_records_view_sort (CroRecordsView *self,
                       guint           column,
                       gboolean        falling)
{
  cro_records_table_sort (CRO_RECORDS_TABLE (self->table), column, falling);
  cro_records_table_show_first (CRO_RECORDS_TABLE (self->table));
}

void
cro_records_view_set_search (CroRecordsView *self,
                             const char     *text)
{
  gtk_editable_set_text (GTK_EDITABLE (self->search), text);
  search_changed_cb (self);
}

void
cro_records_view_give_rows (CroRecordsView *self)
{
  self->is_given = TRUE;
}

void
cro_records_view_set_typed_into (CroRecordsView *self,
                                 GtkWidget      *entry)
{
  self->typed_into = entry;
}

void
cro_records_view_focus_rows (CroRecordsView *self)
{
  gtk_widget_grab_focus (cro_records_table_get_list (CRO_RECORDS_TABLE (self->table)));
}
