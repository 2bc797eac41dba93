#include "config.h"

#include "cro-records-view.h"

#include <glib/gi18n.h>

#include "cro-choice.h"

/* The most characters of a column of texts before it is cut with an ellipsis. */
#define MOST_CHARS 36

struct _CroRecordsView
{
  GtkWidget           parent_instance;

  GtkWidget          *box;
  GtkWidget          *head;
  GtkWidget          *search;
  GtkWidget          *order;
  GtkWidget          *falling;
  GtkWidget          *view;
  GtkWidget          *empty;
  GtkSingleSelection *selection;

  CroBench           *bench;      /* borrowed */
  CroRecordsKind      kind;
  CroRecords         *records;
  gboolean            is_setting;
};

G_DEFINE_FINAL_TYPE (CroRecordsView, cro_records_view, GTK_TYPE_WIDGET)

/* --- Cells --------------------------------------------------------------------------------------- */

static void
setup_cb (GtkSignalListItemFactory *factory,
          GtkListItem              *item,
          gpointer                  column)
{
  GtkWidget *label = gtk_label_new (NULL);
  gboolean is_number = GPOINTER_TO_INT (g_object_get_data (G_OBJECT (factory), "is-number"));

  gtk_label_set_xalign (GTK_LABEL (label), is_number ? 1 : 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), is_number ? PANGO_ELLIPSIZE_NONE : PANGO_ELLIPSIZE_END);
  /* A sign stands before its number in every script. */
  if (is_number)
    {
      gtk_widget_set_direction (label, GTK_TEXT_DIR_LTR);
      gtk_widget_add_css_class (label, "numeric");
    }
  else
    gtk_label_set_max_width_chars (GTK_LABEL (label), MOST_CHARS);
  gtk_list_item_set_child (item, label);
}

static void
bind_cb (GtkSignalListItemFactory *factory,
         GtkListItem              *item,
         gpointer                  column)
{
  g_autofree char *text = cro_record_dup_text (gtk_list_item_get_item (item),
                                               GPOINTER_TO_UINT (column));
  GtkWidget *label = gtk_list_item_get_child (item);

  gtk_label_set_label (GTK_LABEL (label), text);
  gtk_widget_set_tooltip_text (label, g_utf8_strlen (text, -1) > MOST_CHARS ? text : NULL);
}

/* --- Order ----------------------------------------------------------------------------------------- */

/* The rows are sorted by the records, over indices. A column's sorter only tells that it was
 * asked, and the view's own sorter asks the first column first, turned round where it falls. */
static int
asked_cb (gconstpointer a,
          gconstpointer b,
          gpointer      column)
{
  guint *asked = (guint *) g_object_get_data (G_OBJECT (a), "asked");

  *asked = GPOINTER_TO_UINT (column);
  return -1;
}

static void
sort_changed_cb (CroRecordsView *self,
                 int             change,
                 GtkSorter      *sorter)
{
  g_autoptr (GObject) a = g_object_new (G_TYPE_OBJECT, NULL);
  g_autoptr (GObject) b = g_object_new (G_TYPE_OBJECT, NULL);
  guint column = G_MAXUINT;
  GtkOrdering order;

  g_object_set_data (a, "asked", &column);
  g_object_set_data (b, "asked", &column);
  order = gtk_sorter_compare (sorter, a, b);
  if (self->records == NULL)
    return;
  cro_records_set_order (self->records, column, order == GTK_ORDERING_LARGER);
  self->is_setting = TRUE;
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->order), column == G_MAXUINT ? 0 : column + 1);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->falling), order == GTK_ORDERING_LARGER);
  self->is_setting = FALSE;
}

static GtkColumnViewColumn *
column_at (CroRecordsView *self,
           guint           n)
{
  g_autoptr (GtkColumnViewColumn) column
      = g_list_model_get_item (gtk_column_view_get_columns (GTK_COLUMN_VIEW (self->view)), n);

  return column;
}

/* The headings cannot be reached by keys: this can. */
static void
order_chosen_cb (CroRecordsView *self)
{
  guint chosen = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->order));
  gboolean falling = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->falling));

  if (self->is_setting)
    return;
  gtk_column_view_sort_by_column (GTK_COLUMN_VIEW (self->view),
                                  chosen == 0 ? NULL : column_at (self, chosen - 1),
                                  falling ? GTK_SORT_DESCENDING : GTK_SORT_ASCENDING);
}

/* --- Rows -------------------------------------------------------------------------------------------- */

static void
update_empty (CroRecordsView *self)
{
  gboolean has_rows = self->records != NULL
                      && g_list_model_get_n_items (G_LIST_MODEL (self->records)) > 0;

  gtk_widget_set_visible (self->empty, !has_rows);
}

static void
search_changed_cb (CroRecordsView *self)
{
  if (self->records != NULL)
    cro_records_set_search (self->records, gtk_editable_get_text (GTK_EDITABLE (self->search)));
}

static void
open_position (CroRecordsView *self,
               guint           position)
{
  g_autoptr (CroRecord) record = g_list_model_get_item (G_LIST_MODEL (self->selection), position);
  CroRef ref = record != NULL ? cro_record_get_ref (record) : CRO_REF_NOWHERE;

  if (ref.kind != CRO_REF_NONE && ref.kind != CRO_REF_SUPPLIER)
    cro_bench_open (self->bench, ref);
}

static void
open_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  CroRecordsView *self = CRO_RECORDS_VIEW (widget);

  open_position (self, gtk_single_selection_get_selected (self->selection));
}

/* --- The widget ------------------------------------------------------------------------------------------ */

/* A table makes a widget for every cell of its first rows: only one that is looked at does. */
static void
cro_records_view_map (GtkWidget *widget)
{
  CroRecordsView *self = CRO_RECORDS_VIEW (widget);

  gtk_single_selection_set_model (self->selection, G_LIST_MODEL (self->records));
  GTK_WIDGET_CLASS (cro_records_view_parent_class)->map (widget);
}

static void
cro_records_view_dispose (GObject *object)
{
  CroRecordsView *self = CRO_RECORDS_VIEW (object);

  cro_records_view_set_book (self, NULL);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_object (&self->selection);
  G_OBJECT_CLASS (cro_records_view_parent_class)->dispose (object);
}

static void
cro_records_view_class_init (CroRecordsViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_records_view_dispose;
  widget_class->map = cro_records_view_map;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_install_action (widget_class, "item.open", NULL, open_cb);
}

static void
cro_records_view_init (CroRecordsView *self)
{
}

static void
add_columns (CroRecordsView *self)
{
  for (guint i = 0; i < cro_records_n_columns (self->kind); i++)
    {
      GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
      gboolean is_number = cro_records_is_number (self->kind, i);
      g_autoptr (GtkColumnViewColumn) column
          = gtk_column_view_column_new (cro_records_title (self->kind, i), factory);
      g_autoptr (GtkSorter) sorter
          = GTK_SORTER (gtk_custom_sorter_new (asked_cb, GUINT_TO_POINTER (i), NULL));

      g_object_set_data (G_OBJECT (factory), "is-number", GINT_TO_POINTER (is_number));
      g_signal_connect (factory, "setup", G_CALLBACK (setup_cb), GUINT_TO_POINTER (i));
      g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), GUINT_TO_POINTER (i));
      gtk_column_view_column_set_sorter (column, sorter);
      gtk_column_view_column_set_resizable (column, TRUE);
      gtk_column_view_column_set_expand (column, !is_number && i < 2);
      gtk_column_view_append_column (GTK_COLUMN_VIEW (self->view), column);
    }
}

static GtkWidget *
order_new (CroRecordsView *self)
{
  g_autoptr (GtkStringList) titles = gtk_string_list_new (NULL);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  gtk_string_list_append (titles, _("As entered"));
  for (guint i = 0; i < cro_records_n_columns (self->kind); i++)
    gtk_string_list_append (titles, cro_records_title (self->kind, i));
  self->order = gtk_drop_down_new (G_LIST_MODEL (g_steal_pointer (&titles)), NULL);
  cro_drop_down_set_name (self->order, _("Sorted by"));
  gtk_widget_set_tooltip_text (self->order, _("Sorted by"));
  self->falling = gtk_toggle_button_new ();
  gtk_button_set_icon_name (GTK_BUTTON (self->falling), "view-sort-descending-symbolic");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->falling), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Largest first"), -1);
  gtk_widget_set_tooltip_text (self->falling, _("Largest first"));
  g_signal_connect_swapped (self->order, "notify::selected", G_CALLBACK (order_chosen_cb), self);
  g_signal_connect_swapped (self->falling, "toggled", G_CALLBACK (order_chosen_cb), self);
  gtk_widget_add_css_class (box, "linked");
  gtk_box_append (GTK_BOX (box), self->order);
  gtk_box_append (GTK_BOX (box), self->falling);
  return box;
}

static void
add_head (CroRecordsView *self)
{
  self->head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  self->search = gtk_search_entry_new ();
  gtk_widget_add_css_class (self->search, "search");
  gtk_widget_set_hexpand (self->search, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->search), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Search this table"), -1);
  g_signal_connect_swapped (self->search, "search-changed", G_CALLBACK (search_changed_cb), self);
  gtk_box_append (GTK_BOX (self->head), self->search);
  gtk_box_append (GTK_BOX (self->head), order_new (self));
}

GtkWidget *
cro_records_view_new (CroBench       *bench,
                      CroRecordsKind  kind)
{
  CroRecordsView *self = g_object_new (CRO_TYPE_RECORDS_VIEW, NULL);
  GtkWidget *scroller = gtk_scrolled_window_new ();
  GtkWidget *overlay = gtk_overlay_new ();

  self->bench = bench;
  self->kind = kind;
  self->selection = gtk_single_selection_new (NULL);
  self->view = gtk_column_view_new (GTK_SELECTION_MODEL (g_object_ref (self->selection)));
  gtk_widget_add_css_class (self->view, "data-table");
  gtk_widget_add_css_class (self->view, "lines-part");
  gtk_column_view_set_show_row_separators (GTK_COLUMN_VIEW (self->view), TRUE);
  add_columns (self);
  g_signal_connect_swapped (self->view, "activate", G_CALLBACK (open_position), self);
  g_signal_connect_swapped (gtk_column_view_get_sorter (GTK_COLUMN_VIEW (self->view)), "changed",
                            G_CALLBACK (sort_changed_cb), self);
  add_head (self);
  self->empty = gtk_label_new (_("Nothing is here."));
  gtk_widget_add_css_class (self->empty, "dim-label");
  gtk_widget_set_can_target (self->empty, FALSE);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), self->view);
  gtk_overlay_set_child (GTK_OVERLAY (overlay), scroller);
  gtk_overlay_add_overlay (GTK_OVERLAY (overlay), self->empty);
  gtk_widget_set_vexpand (overlay, TRUE);
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  gtk_box_append (GTK_BOX (self->box), self->head);
  gtk_box_append (GTK_BOX (self->box), overlay);
  return GTK_WIDGET (self);
}

void
cro_records_view_set_book (CroRecordsView *self,
                           CroBook        *book)
{
  if (self->records != NULL)
    g_signal_handlers_disconnect_by_data (self->records, self);
  g_clear_object (&self->records);
  if (book != NULL)
    {
      self->records = cro_records_new (book, self->kind);
      g_signal_connect_swapped (self->records, "items-changed", G_CALLBACK (update_empty), self);
    }
  if (self->selection != NULL)
    gtk_single_selection_set_model (self->selection, gtk_widget_get_mapped (GTK_WIDGET (self))
                                                         ? G_LIST_MODEL (self->records)
                                                         : NULL);
  if (book != NULL)
    {
      sort_changed_cb (self, 0, gtk_column_view_get_sorter (GTK_COLUMN_VIEW (self->view)));
      update_empty (self);
    }
}

CroRecords *
cro_records_view_get_records (CroRecordsView *self)
{
  return self->records;
}

CroRecord *
cro_records_view_dup_selected (CroRecordsView *self)
{
  CroRecord *record = gtk_single_selection_get_selected_item (self->selection);

  return record != NULL ? g_object_ref (record) : NULL;
}

void
cro_records_view_connect_selected (CroRecordsView *self,
                                   GCallback       selected,
                                   gpointer        user_data)
{
  g_signal_connect_object (self->selection, "notify::selected-item", selected, user_data,
                           G_CONNECT_SWAPPED);
}

GtkBox *
cro_records_view_get_head (CroRecordsView *self)
{
  return GTK_BOX (self->head);
}
