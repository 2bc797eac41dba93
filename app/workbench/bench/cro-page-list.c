#include "config.h"

#include "cro-page-list.h"

#include <glib/gi18n.h>

#include "cro-field.h"
#include "cro-focus.h"
#include "cro-fold.h"
#include "cro-isolate.h"
#include "cro-reveal.h"
#include "cro-spoken.h"

struct _CroPageList
{
  GtkWidget    parent_instance;

  GtkWidget   *box;
  GtkWidget   *search;
  GtkWidget   *list;

  CroPageRows  make;
  GArray      *rows;        /* CroPageRow: as the list has them */
  CroBook     *book;
  guint64      edition;     /* of the book when they were made */
  CroRef       now;         /* what stands on the bench */
  CroQuery    *query;       /* NULL: nothing is looked for */
  gboolean     is_setting;
};

G_DEFINE_FINAL_TYPE (CroPageList, cro_page_list, GTK_TYPE_WIDGET)

enum
{
  CHOSEN,
  TAKEN,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static void
clear_row (gpointer row)
{
  g_free (((CroPageRow *) row)->name);
  g_free (((CroPageRow *) row)->detail);
}

GArray *
cro_page_rows_new (void)
{
  GArray *rows = g_array_new (FALSE, FALSE, sizeof (CroPageRow));

  g_array_set_clear_func (rows, clear_row);
  return rows;
}

static const CroPageRow *
row_of (CroPageList   *self,
        GtkListBoxRow *row)
{
  guint at = (guint) gtk_list_box_row_get_index (row);

  return at < self->rows->len ? &g_array_index (self->rows, CroPageRow, at) : NULL;
}

/* --- Rows --------------------------------------------------------------------------------------- */

static GtkWidget *
row_new (void)
{
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *name = gtk_label_new (NULL), *detail = cro_number_label_new ();

  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_label_set_wrap (GTK_LABEL (name), TRUE);
  gtk_label_set_lines (GTK_LABEL (name), 3);
  gtk_label_set_ellipsize (GTK_LABEL (name), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (name), 13);
  gtk_widget_set_hexpand (name, TRUE);
  gtk_widget_add_css_class (detail, "dim-label");
  gtk_box_append (GTK_BOX (box), name);
  gtk_box_append (GTK_BOX (box), detail);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  return row;
}

static void
fill_row (GtkListBoxRow    *row,
          const CroPageRow *of)
{
  GtkWidget *name = gtk_widget_get_first_child (gtk_list_box_row_get_child (row));
  g_autofree char *said = of->detail != NULL ? cro_isolate_printf (_("%s, %s"), of->name, of->detail)
                                             : g_strdup (of->name);

  gtk_label_set_label (GTK_LABEL (name), of->name);
  gtk_label_set_label (GTK_LABEL (gtk_widget_get_next_sibling (name)), of->detail != NULL ? of->detail : "");
  cro_spoken_set (GTK_WIDGET (row), said);
}

/* What stands on the bench, whether it is seen here or not. */
static void
mark (CroPageList *self)
{
  self->is_setting = TRUE;
  gtk_list_box_unselect_all (GTK_LIST_BOX (self->list));
  for (guint i = 0; i < self->rows->len; i++)
    if (cro_ref_equal (g_array_index (self->rows, CroPageRow, i).ref, self->now))
      gtk_list_box_select_row (GTK_LIST_BOX (self->list),
                               gtk_list_box_get_row_at_index (GTK_LIST_BOX (self->list), (int) i));
  self->is_setting = FALSE;
}

static const char *
name_of_now (CroPageList *self)
{
  for (guint i = 0; i < self->rows->len; i++)
    if (cro_ref_equal (g_array_index (self->rows, CroPageRow, i).ref, self->now))
      return g_array_index (self->rows, CroPageRow, i).name;
  return NULL;
}

/* Rows that stay keep their widgets, and the focus. What stands on the bench is followed to where it stands by another
 * name. */
static void
take_rows (CroPageList *self,
           GArray      *rows)
{
  GtkListBox *list = GTK_LIST_BOX (self->list);
  g_autofree char *name = g_strdup (name_of_now (self));
  GtkListBoxRow *row;

  self->is_setting = TRUE;
  g_array_unref (self->rows);
  self->rows = rows;
  for (guint i = 0; i < rows->len; i++)
    {
      if (gtk_list_box_get_row_at_index (list, (int) i) == NULL)
        gtk_list_box_append (list, row_new ());
      fill_row (gtk_list_box_get_row_at_index (list, (int) i), &g_array_index (rows, CroPageRow, i));
    }
  while ((row = gtk_list_box_get_row_at_index (list, (int) rows->len)) != NULL)
    gtk_list_box_remove (list, GTK_WIDGET (row));
  gtk_list_box_invalidate_headers (list);
  gtk_list_box_invalidate_filter (list);
  self->is_setting = FALSE;
  mark (self);
  row = gtk_list_box_get_selected_row (list);
  if (row != NULL && name != NULL && g_strcmp0 (name, name_of_now (self)) != 0)
    cro_reveal (GTK_WIDGET (row));
}

/* What its rows show beside the book has moved. */
static void
tell (CroPageList *self)
{
  if (self->book == NULL)
    return;
  self->edition = cro_book_get_edition (self->book);
  take_rows (self, self->make (self->book));
}

static void
book_changed_cb (CroPageList *self)
{
  if (gtk_widget_get_mapped (GTK_WIDGET (self)) && self->edition != cro_book_get_edition (self->book))
    tell (self);
}

static void
cro_page_list_map (GtkWidget *widget)
{
  CroPageList *self = CRO_PAGE_LIST (widget);

  if (self->book != NULL && self->edition != cro_book_get_edition (self->book))
    tell (self);
  GTK_WIDGET_CLASS (cro_page_list_parent_class)->map (widget);
}

static void
head_row (GtkListBoxRow *row,
          GtkListBoxRow *before,
          gpointer       user_data)
{
  CroPageList *self = user_data;
  const CroPageRow *of = row_of (self, row), *of_before = before != NULL ? row_of (self, before) : NULL;
  GtkWidget *heading;

  if (of == NULL || of->heading == NULL
      || (of_before != NULL && g_strcmp0 (of->heading, of_before->heading) == 0))
    {
      gtk_list_box_row_set_header (row, NULL);
      return;
    }
  heading = gtk_label_new (of->heading);
  gtk_label_set_xalign (GTK_LABEL (heading), 0);
  gtk_label_set_ellipsize (GTK_LABEL (heading), PANGO_ELLIPSIZE_END);
  gtk_widget_add_css_class (heading, "heading");
  gtk_widget_add_css_class (heading, "page-heading");
  gtk_list_box_row_set_header (row, heading);
}

/* --- Looking for one ---------------------------------------------------------------------------- */

static gboolean
passes (GtkListBoxRow *row,
        gpointer       user_data)
{
  CroPageList *self = user_data;
  const CroPageRow *of = row_of (self, row);
  g_autofree char *folded = of != NULL && self->query != NULL ? cro_fold (of->name) : NULL;

  return folded == NULL || cro_query_match (self->query, folded) != CRO_MATCH_NONE;
}

static void
search_changed_cb (CroPageList *self)
{
  g_clear_pointer (&self->query, cro_query_free);
  self->query = cro_query_new (gtk_editable_get_text (GTK_EDITABLE (self->search)));
  gtk_list_box_invalidate_filter (GTK_LIST_BOX (self->list));
}

static GtkListBoxRow *
first_row (CroPageList *self)
{
  GtkListBoxRow *row;

  for (int i = 0; (row = gtk_list_box_get_row_at_index (GTK_LIST_BOX (self->list), i)) != NULL; i++)
    if (gtk_widget_get_child_visible (GTK_WIDGET (row)))
      return row;
  return NULL;
}

static void
choose (CroPageList   *self,
        GtkListBoxRow *row)
{
  const CroPageRow *of = row != NULL ? row_of (self, row) : NULL;

  if (of != NULL)
    g_signal_emit (self, signals[CHOSEN], 0, (int) of->ref.kind, of->ref.slot);
}

/* Enter takes the first that fits; what was typed last is looked for first. */
static void
search_activate_cb (CroPageList *self)
{
  search_changed_cb (self);
  choose (self, first_row (self));
  g_signal_emit (self, signals[TAKEN], 0);
}

static gboolean
search_key_cb (CroPageList     *self,
               guint            keyval,
               guint            keycode,
               GdkModifierType  state)
{
  GtkListBoxRow *row = first_row (self);

  if (keyval != GDK_KEY_Down && keyval != GDK_KEY_KP_Down)
    return GDK_EVENT_PROPAGATE;
  return row != NULL && gtk_widget_grab_focus (GTK_WIDGET (row));
}

/* A letter that is typed on a row looks for another. */
static gboolean
row_key_cb (CroPageList     *self,
            guint            keyval,
            guint            keycode,
            GdkModifierType  state)
{
  gunichar letter = gdk_keyval_to_unicode (keyval);

  if (!g_unichar_isalpha (letter) || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  cro_focus_type (self->search, letter);
  return GDK_EVENT_STOP;
}

/* --- Choosing ------------------------------------------------------------------------------------ */

static void
selected_cb (CroPageList   *self,
             GtkListBoxRow *row)
{
  if (!self->is_setting)
    choose (self, row);
}

static void
activated_cb (CroPageList   *self,
              GtkListBoxRow *row)
{
  choose (self, row);
  g_signal_emit (self, signals[TAKEN], 0);
}

void
cro_page_list_select (CroPageList *self,
                      CroRef       ref)
{
  self->now = ref;
  mark (self);
}

void
cro_page_list_focus_search (CroPageList *self)
{
  gtk_widget_grab_focus (self->search);
}

void
cro_page_list_focus (CroPageList *self)
{
  GtkListBoxRow *row = gtk_list_box_get_selected_row (GTK_LIST_BOX (self->list));

  if (row == NULL || !gtk_widget_get_child_visible (GTK_WIDGET (row)))
    row = first_row (self);
  if (row == NULL || !gtk_widget_grab_focus (GTK_WIDGET (row)))
    gtk_widget_grab_focus (self->search);
}

void
cro_page_list_set_book (CroPageList *self,
                        CroBook     *book)
{
  if (self->book != NULL)
    g_signal_handlers_disconnect_by_data (self->book, self);
  g_set_object (&self->book, book);
  self->now = CRO_REF_NOWHERE;
  self->edition = 0;
  if (book == NULL)
    {
      take_rows (self, cro_page_rows_new ());
      return;
    }
  g_signal_connect_object (book, "changed", G_CALLBACK (book_changed_cb), self, G_CONNECT_SWAPPED);
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    tell (self);
}

/* --- The widget ---------------------------------------------------------------------------------- */

static void
cro_page_list_dispose (GObject *object)
{
  CroPageList *self = CRO_PAGE_LIST (object);

  if (self->book != NULL)
    g_signal_handlers_disconnect_by_data (self->book, self);
  g_clear_object (&self->book);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->query, cro_query_free);
  g_clear_pointer (&self->rows, g_array_unref);
  G_OBJECT_CLASS (cro_page_list_parent_class)->dispose (object);
}

static void
cro_page_list_class_init (CroPageListClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_page_list_dispose;
  widget_class->map = cro_page_list_map;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  signals[CHOSEN] = g_signal_new ("chosen", CRO_TYPE_PAGE_LIST, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 2, G_TYPE_INT, G_TYPE_UINT);
  signals[TAKEN] = g_signal_new ("taken", CRO_TYPE_PAGE_LIST, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 0);
}

static void
cro_page_list_init (CroPageList *self)
{
  self->rows = cro_page_rows_new ();
  self->now = CRO_REF_NOWHERE;
}

static void
add_search (CroPageList *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->search = cro_search_new (_("Search this list"));
  gtk_widget_set_margin_start (self->search, 6);
  gtk_widget_set_margin_end (self->search, 6);
  gtk_widget_set_margin_top (self->search, 6);
  g_signal_connect_object (self->search, "search-changed", G_CALLBACK (search_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->search, "activate", G_CALLBACK (search_activate_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->search, "stop-search", G_CALLBACK (cro_page_list_focus), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (search_key_cb), self, G_CONNECT_SWAPPED);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  gtk_widget_add_controller (self->search, keys);
  gtk_box_append (GTK_BOX (self->box), self->search);
}

static void
add_maker (CroPageList *self,
           const char  *label)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "win.new-thing");
  gtk_widget_set_margin_start (button, 6);
  gtk_widget_set_margin_end (button, 6);
  gtk_box_append (GTK_BOX (self->box), button);
}

static void
add_list (CroPageList *self)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->list = gtk_list_box_new ();
  gtk_widget_add_css_class (self->list, "navigation-sidebar");
  gtk_list_box_set_header_func (GTK_LIST_BOX (self->list), head_row, self, NULL);
  gtk_list_box_set_filter_func (GTK_LIST_BOX (self->list), passes, self, NULL);
  cro_spoken_set (self->list, _("Entries of this section"));
  g_signal_connect_object (self->list, "row-selected", G_CALLBACK (selected_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->list, "row-activated", G_CALLBACK (activated_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (row_key_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (self->list, keys);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), self->list);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_widget_set_vexpand (scroller, TRUE);
  gtk_box_append (GTK_BOX (self->box), scroller);
}

GtkWidget *
cro_page_list_new (CroPageRows  rows,
                   const char  *maker)
{
  CroPageList *self = g_object_new (CRO_TYPE_PAGE_LIST, NULL);

  self->make = rows;
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_set_size_request (self->box, 260, -1);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  add_search (self);
  if (maker != NULL)
    add_maker (self, maker);
  add_list (self);
  return GTK_WIDGET (self);
}
