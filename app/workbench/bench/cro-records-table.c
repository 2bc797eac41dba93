#include "config.h"

#include "cro-records-table.h"

#include <glib/gi18n.h>

#include "cro-cells.h"
#include "cro-course.h"
#include "cro-field.h"
#include "cro-headings.h"
#include "cro-isolate.h"
#include "cro-spoken.h"

/* A menu among plates has a mark of its own; its words say what it is. */
#define MENU_MARK "▣ "

/* How a heading stands. */
#define FOLDED_MARK "▸ "
#define FOLDED_MARK_MIRRORED "◂ "
#define OPEN_MARK "▾ "

struct _CroRecordsTable
{
  GtkWidget           parent_instance;

  GtkWidget          *sideways;
  GtkWidget          *headings;
  GtkWidget          *view;
  GtkWidget          *totals;
  GtkWidget          *left_out;   /* names the columns that have no room */
  CroColumns         *columns;
  GtkSingleSelection *selection;

  CroRecordsKind      kind;
  CroRecords         *records;    /* NULL: none */
  CroRecord          *kept;       /* the one selected, until it is there again */
};

G_DEFINE_FINAL_TYPE (CroRecordsTable, cro_records_table, GTK_TYPE_WIDGET)

enum
{
  SORTED,
  ROW_ACTIVATED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

/* --- Rows --------------------------------------------------------------------------------------- */

static void
setup_cb (GtkSignalListItemFactory *factory,
          GtkListItem              *item,
          CroRecordsTable          *self)
{
  GtkWidget *cells = cro_cells_new (self->columns);

  for (guint i = 0; i < cro_columns_get_n (self->columns); i++)
    if (cro_records_is_picture (self->kind, i))
      cro_cells_append (CRO_CELLS (cells), cro_course_new ());
    else
      cro_cells_append_text (CRO_CELLS (cells), i);
  gtk_list_item_set_child (item, cells);
}

static const char *
heading_mark (CroRecordsTable *self,
              gboolean         is_folded)
{
  if (!is_folded)
    return OPEN_MARK;
  return gtk_widget_get_direction (self->view) == GTK_TEXT_DIR_RTL ? FOLDED_MARK_MIRRORED : FOLDED_MARK;
}

static gboolean
is_menu (CroRecordsTable *self,
         CroRecord       *record)
{
  return self->kind == CRO_RECORDS_PLATES && cro_record_get_ref (record).kind == CRO_REF_MENU;
}

/* A row is said as it is read, with the headings of its numbers. */
static void
bind_cb (GtkSignalListItemFactory *factory,
         GtkListItem              *item,
         CroRecordsTable          *self)
{
  CroRecord *record = gtk_list_item_get_item (item);
  GtkWidget *cells = gtk_list_item_get_child (item);
  g_autoptr (GString) said = g_string_new (NULL);
  gboolean is_folded, is_heading = cro_record_is_heading (record, &is_folded);

  for (guint i = 0; i < cro_columns_get_n (self->columns); i++)
    {
      g_autofree char *text = cro_record_dup_text (record, i);
      g_autofree char *marked = i > 0                 ? NULL
                                : is_heading            ? g_strconcat (heading_mark (self, is_folded),
                                                                       text, NULL)
                                : is_menu (self, record) ? g_strconcat (MENU_MARK, text, NULL)
                                                        : NULL;

      if (cro_records_is_picture (self->kind, i))
        {
          cro_course_set (CRO_COURSE (cro_cells_get_child (CRO_CELLS (cells), i)), text);
          continue;
        }
      cro_cells_set_text (CRO_CELLS (cells), i, marked != NULL ? marked : text);
      if (*text == '\0')
        continue;
      if (said->len > 0)
        g_string_append (said, ", ");
      if (cro_columns_is_number (self->columns, i) && !is_heading)
        g_string_append_printf (said, "%s ", cro_records_title (self->kind, i));
      g_string_append (said, text);
    }
  if (is_heading)
    g_string_append_printf (said, ", %s", is_folded ? _("folded") : _("unfolded"));
  if (is_heading)
    gtk_widget_add_css_class (cells, "group");
  else
    gtk_widget_remove_css_class (cells, "group");
  if (cro_record_is_closed (record))
    gtk_widget_add_css_class (cells, "closed");
  else
    gtk_widget_remove_css_class (cells, "closed");
  cro_spoken_set_item (item, said->str);
}

static void
show_totals (CroRecordsTable *self)
{
  gboolean has_one = FALSE;

  for (guint i = 0; i < cro_columns_get_n (self->columns); i++)
    {
      g_autofree char *total = cro_records_dup_total (self->records, i);

      has_one |= *total != '\0';
      cro_cells_set_text (CRO_CELLS (self->totals), i,
                          i > 0 || *total != '\0' ? total : _("Total"));
    }
  gtk_widget_set_visible (self->totals, has_one);
}

static void
show_left_out (CroRecordsTable *self)
{
  g_autoptr (GString) names = g_string_new (NULL);
  g_autofree char *text = NULL;

  for (guint i = 0; i < cro_columns_get_n (self->columns); i++)
    if (cro_columns_is_left_out (self->columns, i))
      cro_isolate_append (names, cro_records_title (self->kind, i));
  /* Translators: under a table: its columns that have no room. */
  text = g_strdup_printf (_("No room for: %s"), names->str);
  gtk_label_set_label (GTK_LABEL (self->left_out), text);
  gtk_widget_set_visible (self->left_out, names->len > 0);
}

/* --- The row that is selected --------------------------------------------------------------------- */

/* The selection keeps to its row wherever that goes: before it hears of that, and once it is there
 * again. Of many rows that move it is told twice, that they go and that they come. */
static void
rows_change_cb (CroRecordsTable *self)
{
  if (self->kept == NULL)
    g_set_object (&self->kept, gtk_single_selection_get_selected_item (self->selection));
}

static gboolean
select_record (CroRecordsTable *self,
               CroRecord       *record)
{
  guint position;

  if (self->records == NULL || !cro_records_find (self->records, record, &position))
    return FALSE;
  if (position == gtk_single_selection_get_selected (self->selection))
    return TRUE;
  gtk_single_selection_set_selected (self->selection, position);
  gtk_widget_activate_action (self->view, "list.scroll-to-item", "u", position);
  return TRUE;
}

static void
rows_changed_cb (CroRecordsTable *self,
                 guint            position,
                 guint            removed,
                 guint            added)
{
  show_totals (self);
  if ((self->kept != NULL && select_record (self, self->kept)) || added > 0)
    g_clear_object (&self->kept);
}

/* By a person, not as another row is gone. */
static void
selection_changed_cb (CroRecordsTable *self)
{
  g_clear_object (&self->kept);
}

static void
sorted_cb (CroRecordsTable *self,
           guint            column,
           gboolean         falling)
{
  g_signal_emit (self, signals[SORTED], 0, column, falling);
}

static void
activate_cb (CroRecordsTable *self,
             guint            position)
{
  g_signal_emit (self, signals[ROW_ACTIVATED], 0, position);
}

/* --- The widget ------------------------------------------------------------------------------------------ */

static void
cro_records_table_dispose (GObject *object)
{
  CroRecordsTable *self = CRO_RECORDS_TABLE (object);

  cro_records_table_set_records (self, NULL);
  g_clear_pointer (&self->sideways, gtk_widget_unparent);
  g_clear_object (&self->selection);
  g_clear_object (&self->columns);
  G_OBJECT_CLASS (cro_records_table_parent_class)->dispose (object);
}

static void
cro_records_table_class_init (CroRecordsTableClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_records_table_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  signals[SORTED] = g_signal_new ("sorted", CRO_TYPE_RECORDS_TABLE, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 2, G_TYPE_UINT, G_TYPE_BOOLEAN);
  signals[ROW_ACTIVATED] = g_signal_new ("row-activated", CRO_TYPE_RECORDS_TABLE, G_SIGNAL_RUN_LAST, 0,
                                         NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
}

static void
cro_records_table_init (CroRecordsTable *self)
{
}

static void
add_headings (CroRecordsTable *self)
{
  guint n = cro_records_n_columns (self->kind);

  self->columns = cro_columns_new (n);
  for (guint i = 0; i < n; i++)
    cro_columns_set_kind (self->columns, i, cro_records_is_number (self->kind, i),
                          cro_records_is_whole (self->kind, i));
  for (guint i = 0; i < n; i++)
    cro_columns_set_rank (self->columns, i, cro_records_rank (self->kind, i));
  g_signal_connect_object (self->columns, "left-out", G_CALLBACK (show_left_out), self, G_CONNECT_SWAPPED);
  self->headings = cro_headings_new (self->columns);
  for (guint i = 0; i < n; i++)
    cro_headings_append (CRO_HEADINGS (self->headings), cro_records_title (self->kind, i));
  g_signal_connect_object (self->headings, "sorted", G_CALLBACK (sorted_cb), self,
                           G_CONNECT_SWAPPED);
}

void
cro_records_table_spare (CroRecordsTable *self,
                         guint            column)
{
  cro_columns_set_rank (self->columns, column, G_MAXUINT8);
}

static void
add_list (CroRecordsTable *self)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();

  g_signal_connect_object (factory, "setup", G_CALLBACK (setup_cb), self, 0);
  g_signal_connect_object (factory, "bind", G_CALLBACK (bind_cb), self, 0);
  self->selection = gtk_single_selection_new (NULL);
  g_signal_connect_object (self->selection, "selection-changed", G_CALLBACK (selection_changed_cb),
                           self, G_CONNECT_SWAPPED);
  self->view = gtk_list_view_new (GTK_SELECTION_MODEL (g_object_ref (self->selection)), factory);
  gtk_list_view_set_show_separators (GTK_LIST_VIEW (self->view), TRUE);
  gtk_widget_add_css_class (self->view, "lines-part");
  cro_spoken_set (self->view, _("Rows of this table"));
  g_signal_connect_object (self->view, "activate", G_CALLBACK (activate_cb), self,
                           G_CONNECT_SWAPPED);
}

/* The rows scroll between headings and totals, which stay; where the columns that stay do not fit, all
 * three scroll sideways together. */
static void
add_table (CroRecordsTable *self,
           GtkWidget       *empty)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *overlay = gtk_overlay_new ();

  self->totals = cro_cells_new_texts (self->columns);
  gtk_widget_add_css_class (self->totals, "totals");
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), self->view);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_overlay_set_child (GTK_OVERLAY (overlay), scroller);
  gtk_overlay_add_overlay (GTK_OVERLAY (overlay), empty);
  gtk_widget_set_vexpand (overlay, TRUE);
  gtk_box_append (GTK_BOX (box), self->headings);
  gtk_box_append (GTK_BOX (box), overlay);
  gtk_box_append (GTK_BOX (box), self->totals);
  self->left_out = cro_text_new ("", "dim-label");
  gtk_widget_add_css_class (self->left_out, "left-out");
  gtk_widget_set_visible (self->left_out, FALSE);
  gtk_box_append (GTK_BOX (box), self->left_out);
  gtk_widget_add_css_class (box, "table");
  self->sideways = cro_wide_new (box);
  gtk_widget_set_parent (self->sideways, GTK_WIDGET (self));
}

GtkWidget *
cro_records_table_new (CroRecordsKind  kind,
                       GtkWidget      *empty)
{
  CroRecordsTable *self = g_object_new (CRO_TYPE_RECORDS_TABLE, NULL);

  self->kind = kind;
  gtk_widget_set_vexpand (GTK_WIDGET (self), TRUE);
  add_headings (self);
  add_list (self);
  add_table (self, empty);
  return GTK_WIDGET (self);
}

void
cro_records_table_set_records (CroRecordsTable *self,
                               CroRecords      *records)
{
  if (self->records != NULL)
    {
      gtk_single_selection_set_model (self->selection, NULL);
      g_signal_handlers_disconnect_by_data (self->records, self);
    }
  g_clear_object (&self->kept);
  g_set_object (&self->records, records);
  if (records == NULL)
    return;
  g_signal_connect_object (records, "items-changed", G_CALLBACK (rows_change_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (records, "items-changed", G_CALLBACK (rows_changed_cb), self,
                           G_CONNECT_SWAPPED | G_CONNECT_AFTER);
  cro_columns_forget (self->columns);
  cro_headings_measure (CRO_HEADINGS (self->headings));
  for (guint i = 0; i < cro_columns_get_n (self->columns); i++)
    if (cro_records_is_picture (self->kind, i))
      cro_columns_take (self->columns, i, CRO_COURSE_WIDTH, CRO_COURSE_WIDTH, CRO_COURSE_WIDTH);
  gtk_single_selection_set_model (self->selection, G_LIST_MODEL (records));
  show_totals (self);
}

gboolean
cro_records_table_has_records (CroRecordsTable *self)
{
  return self->records != NULL;
}

void
cro_records_table_set_headed (CroRecordsTable *self,
                              gboolean         is_headed)
{
  gtk_widget_set_visible (self->headings, is_headed);
}

GtkWidget *
cro_records_table_get_list (CroRecordsTable *self)
{
  return self->view;
}

GtkSingleSelection *
cro_records_table_get_selection (CroRecordsTable *self)
{
  return self->selection;
}

void
cro_records_table_select (CroRecordsTable *self,
                          CroRecord       *record)
{
  select_record (self, record);
}

void
cro_records_table_select_first (CroRecordsTable *self)
{
  g_clear_object (&self->kept);
  gtk_single_selection_set_selected (self->selection, 0);
}

void
cro_records_table_sort (CroRecordsTable *self,
                        guint            column,
                        gboolean         falling)
{
  cro_headings_sort (CRO_HEADINGS (self->headings), column, falling);
}

void
cro_records_table_show_first (CroRecordsTable *self)
{
  gtk_single_selection_set_selected (self->selection, 0);
  gtk_widget_activate_action (self->view, "list.scroll-to-item", "u", 0);
}
