#include "config.h"

#include "cro-month-list.h"

#include <glib/gi18n.h>

#include "cro-isolate.h"
#include "cro-month-shelf.h"
#include "cro-month-words.h"
#include "cro-months-table.h"
#include "cro-number.h"
#include "cro-spoken.h"

struct _CroMonthList
{
  GtkWidget      parent_instance;

  GtkWidget     *scroller;
  GtkWidget     *rows;
  CroBook       *book;
  CroMonthShelf *shelf;     /* of the book; borrowed */
  guint32        slot;      /* of what stands on the bench */
  gboolean       is_setting;
};

G_DEFINE_FINAL_TYPE (CroMonthList, cro_month_list, GTK_TYPE_WIDGET)

enum
{
  CHOSEN,
  TAKEN,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

/* --- Rows ----------------------------------------------------------------------------------- */

static guint32
slot_of (GtkListBoxRow *row)
{
  return GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (row), "slot"));
}

static GtkListBoxRow *
row_at (CroMonthList *self,
        guint         i)
{
  return gtk_list_box_get_row_at_index (GTK_LIST_BOX (self->rows), (int) i);
}

/* Its name with what is asked about it, and how it stands. */
enum
{
  NAME,
  ASKS,
  STATE,
  N_LABELS,
};

static GtkWidget *
row_new (void)
{
  GtkWidget *row = gtk_list_box_row_new (), *grid = gtk_grid_new ();
  static const struct { int column, row, width; } at[N_LABELS] = { { 0, 0, 1 }, { 1, 0, 1 }, { 0, 1, 2 } };

  for (guint i = 0; i < N_LABELS; i++)
    {
      GtkWidget *label = gtk_label_new (NULL);

      gtk_label_set_xalign (GTK_LABEL (label), i == ASKS);
      if (i != NAME)
        {
          gtk_widget_add_css_class (label, "dim-label");
          gtk_widget_add_css_class (label, "caption");
        }
      gtk_widget_set_hexpand (label, i == NAME);
      gtk_grid_attach (GTK_GRID (grid), label, at[i].column, at[i].row, at[i].width, 1);
    }
  gtk_label_set_wrap (GTK_LABEL (gtk_grid_get_child_at (GTK_GRID (grid), 0, 1)), TRUE);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 9);
  gtk_widget_set_margin_top (grid, 3);
  gtk_widget_set_margin_bottom (grid, 3);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), grid);
  return row;
}

/* Takes the texts; asks: NULL: nothing is asked. */
static void
put_row (CroMonthList *self,
         guint         i,
         guint32       slot,
         char         *name,
         char         *asks,
         const char   *state)
{
  GtkListBoxRow *row = row_at (self, i);
  GtkWidget *label = gtk_widget_get_first_child (gtk_list_box_row_get_child (row));
  const char *const texts[N_LABELS] = { name, asks, state };
  g_autoptr (GString) spoken = g_string_new (name);

  for (guint at = 0; at < N_LABELS; at++, label = gtk_widget_get_next_sibling (label))
    {
      gtk_label_set_label (GTK_LABEL (label), texts[at] != NULL ? texts[at] : "");
      gtk_widget_set_visible (label, texts[at] != NULL);
    }
  for (guint at = N_LABELS; --at > NAME;)
    if (texts[at] != NULL)
      g_string_append_printf (spoken, ", %s", texts[at]);
  g_object_set_data (G_OBJECT (row), "slot", GUINT_TO_POINTER (slot));
  cro_spoken_set (GTK_WIDGET (row), spoken->str);
  g_free (name);
  g_free (asks);
}

static void
put_month (CroMonthList *self,
           guint         i,
           CroDate       first)
{
  const CroMonth *month = cro_month_shelf_peek (self->shelf, first);

  put_row (self, i, cro_month_to_slot (first), cro_month_to_text (first),
           month != NULL ? cro_month_asks_words (month) : NULL, month != NULL ? cro_month_state_words (month) : "");
}

static void
mark (CroMonthList *self)
{
  GtkListBoxRow *row = NULL;

  for (guint i = 0; (row = row_at (self, i)) != NULL && slot_of (row) != self->slot;)
    i++;
  self->is_setting = TRUE;
  gtk_list_box_select_row (GTK_LIST_BOX (self->rows), row);
  self->is_setting = FALSE;
}

static void
show (CroMonthList *self)
{
  GArray *firsts = cro_month_shelf_list (self->shelf);
  g_autofree char *n = cro_number_to_text (firsts->len, 0, TRUE);
  guint rows = 0;

  for (; row_at (self, rows) != NULL; rows++)
    ;
  for (; rows < firsts->len + 1; rows++)
    gtk_list_box_append (GTK_LIST_BOX (self->rows), row_new ());
  for (; rows > firsts->len + 1; rows--)
    gtk_list_box_remove (GTK_LIST_BOX (self->rows), GTK_WIDGET (row_at (self, rows - 1)));
  put_row (self, 0, CRO_NO_SLOT, g_strdup (_("All months")), g_steal_pointer (&n), NULL);
  for (guint i = 0; i < firsts->len; i++)
    put_month (self, i + 1, g_array_index (firsts, CroDate, i));
  mark (self);
}

/* What nobody sees reckons nothing. */
static void
changed_cb (CroMonthList *self)
{
  if (self->shelf != NULL && gtk_widget_get_mapped (GTK_WIDGET (self)))
    show (self);
}

static void
cro_month_list_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (cro_month_list_parent_class)->map (widget);
  changed_cb (CRO_MONTH_LIST (widget));
}

/* --- Choosing ------------------------------------------------------------------------------- */

static void
selected_cb (CroMonthList  *self,
             GtkListBoxRow *row)
{
  if (self->is_setting || row == NULL || slot_of (row) == self->slot)
    return;
  self->slot = slot_of (row);
  g_signal_emit (self, signals[CHOSEN], 0, self->slot);
}

static void
activated_cb (CroMonthList  *self,
              GtkListBoxRow *row)
{
  selected_cb (self, row);
  g_signal_emit (self, signals[TAKEN], 0);
}

void
cro_month_list_set_book (CroMonthList *self,
                         CroBook      *book)
{
  if (self->shelf != NULL)
    g_signal_handlers_disconnect_by_data (self->shelf, self);
  g_set_object (&self->book, book);
  self->shelf = book != NULL ? cro_month_shelf_of (book) : NULL;
  self->slot = CRO_NO_SLOT;
  if (self->shelf == NULL)
    return;
  g_signal_connect_object (self->shelf, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  changed_cb (self);
}

void
cro_month_list_select (CroMonthList *self,
                       guint32       slot)
{
  self->slot = slot;
  mark (self);
}

void
cro_month_list_focus (CroMonthList *self)
{
  GtkListBoxRow *row = gtk_list_box_get_selected_row (GTK_LIST_BOX (self->rows));

  if (row == NULL)
    row = row_at (self, 0);
  if (row != NULL)
    gtk_widget_grab_focus (GTK_WIDGET (row));
}

/* --- The widget ----------------------------------------------------------------------------- */

/* Rows are walked with the arrows, as in the lists of the other places; Tab leads out to the page, and in
 * to the month that stands there. */
static gboolean
cro_month_list_move_focus (GtkWidget        *widget,
                           GtkDirectionType  direction)
{
  CroMonthList *self = CRO_MONTH_LIST (widget);
  gboolean is_tab = direction == GTK_DIR_TAB_FORWARD || direction == GTK_DIR_TAB_BACKWARD;

  if (!is_tab)
    return gtk_widget_child_focus (self->scroller, direction);
  if (gtk_widget_get_focus_child (widget) != NULL)
    return FALSE;
  cro_month_list_focus (self);
  return gtk_widget_get_focus_child (widget) != NULL;
}

static void
cro_month_list_dispose (GObject *object)
{
  CroMonthList *self = CRO_MONTH_LIST (object);

  cro_month_list_set_book (self, NULL);
  g_clear_pointer (&self->scroller, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_month_list_parent_class)->dispose (object);
}

static void
cro_month_list_class_init (CroMonthListClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_month_list_dispose;
  widget_class->focus = cro_month_list_move_focus;
  widget_class->map = cro_month_list_map;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  signals[CHOSEN] = g_signal_new ("chosen", CRO_TYPE_MONTH_LIST, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 1, G_TYPE_UINT);
  signals[TAKEN] = g_signal_new ("taken", CRO_TYPE_MONTH_LIST, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 0);
}

static void
cro_month_list_init (CroMonthList *self)
{
  self->slot = CRO_NO_SLOT;
  self->rows = gtk_list_box_new ();
  gtk_widget_add_css_class (self->rows, "navigation-sidebar");
  cro_spoken_set (self->rows, _("Months"));
  g_signal_connect_object (self->rows, "row-selected", G_CALLBACK (selected_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->rows, "row-activated", G_CALLBACK (activated_cb), self, G_CONNECT_SWAPPED);
  self->scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroller), self->rows);
  gtk_widget_set_size_request (self->scroller, 260, -1);
  gtk_widget_set_parent (self->scroller, GTK_WIDGET (self));
}
