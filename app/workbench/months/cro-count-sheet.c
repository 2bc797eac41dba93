#include "config.h"

#include "cro-count-sheet.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-count-adding.h"
#include "cro-count-list.h"
#include "cro-count-paper.h"
#include "cro-entry.h"
#include "cro-field.h"
#include "cro-focus.h"
#include "cro-fold.h"
#include "cro-isolate.h"
#include "cro-month-edit.h"
#include "cro-number.h"
#include "cro-print.h"
#include "cro-reason.h"
#include "cro-refused-words.h"
#include "cro-reveal.h"
#include "cro-words-lack.h"
#include "cro-words.h"
#include "cro-wrap.h"

/* Where, what, what it was, what it is. */
#define N_CELLS 4

/* Rows at once: a larder that holds more is walked by what one looks for. */
#define MOST_ROWS 400

struct _CroCountSheet
{
  GtkWidget     parent_instance;

  GtkWidget    *box;
  GtkWidget    *state;      /* "3 of 79 not counted" */
  GtkWidget    *search;
  GtkWidget    *by_worth;
  GtkWidget    *grid;
  GtkWidget    *last_head;
  GtkWidget    *more;       /* how many rows are not shown */
  GtkWidget    *adding;     /* what is not listed */

  CroBench     *bench;      /* borrowed */
  CroDate       day;
  CroBook      *book;       /* whose list this is; borrowed */
  guint64       edition;
  CroCountList *list;
  GPtrArray    *rows;       /* Row */
  gboolean      is_keeping;
};

G_DEFINE_FINAL_TYPE (CroCountSheet, cro_count_sheet, GTK_TYPE_WIDGET)

/* Widgets of one line; the line is its own copy. Counted: a focus that leaves a row may be told of after
 * the row is gone. */
typedef struct
{
  CroCountSheet *sheet;     /* NULL: the row is gone */
  CroCountLine   line;
  char          *place;
  GtkWidget     *cells[N_CELLS];
  GtkWidget     *where;
  GtkWidget     *amount;
  GtkWidget     *reason;
  char          *kept_where;
  char          *kept_amount;
} Row;

static void
row_clear (gpointer data)
{
  Row *row = data;

  g_free (row->place);
  g_free (row->kept_where);
  g_free (row->kept_amount);
}

static void
row_unref (gpointer row,
           GClosure *closure)
{
  g_rc_box_release_full (row, row_clear);
}

static void
row_free (gpointer data)
{
  ((Row *) data)->sheet = NULL;
  row_unref (data, NULL);
}

static CroBook *
book_of (CroCountSheet *self)
{
  return self->bench != NULL ? cro_bench_get_book (self->bench) : NULL;
}

static const char *
text_of (GtkWidget *entry)
{
  return gtk_editable_get_text (GTK_EDITABLE (entry));
}

static const char *
name_of (CroCountSheet *self,
         guint32        item)
{
  return cro_model_item (cro_book_get_model (book_of (self)), item)->name;
}

/* --- Acts ------------------------------------------------------------------------------------------------ */

static gboolean
take_back (CroCountSheet  *self,
           const Row      *row,
           GError        **error)
{
  g_autofree char *label = cro_count_dup_label (book_of (self), row->line.item, self->day);
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (gint64));

  g_array_append_val (ids, row->line.id);
  return cro_month_remove (book_of (self), label, "stock_count", ids, error);
}

static gboolean
is_edited (const Row *row)
{
  return strcmp (text_of (row->amount), row->kept_amount) != 0
         || (row->line.id != 0 && strcmp (text_of (row->where), row->kept_where) != 0);
}

static void
refuse (Row        *row,
        const char *reason)
{
  cro_reason_say (row->reason, row->amount, reason);
  cro_reason_mark (row->amount, reason != NULL);
}

/* The book may tell of an act only later: until then its row would be kept anew, as one more, when the focus
 * leaves it. */
static void
take_kept (Row *row)
{
  CroCountSheet *self = row->sheet;

  if (self == NULL)
    return;
  g_free (row->kept_amount);
  g_free (row->kept_where);
  row->kept_amount = g_strdup (text_of (row->amount));
  row->kept_where = g_strdup (text_of (row->where));
  cro_count_sheet_refresh (self);
}

/* FALSE: what is typed stays, with the reason under it. */
static gboolean
keep (Row *row)
{
  CroCountSheet *self = row->sheet;
  CroCountEntry entry = { .id = row->line.id, .date = self->day, .item = row->line.item,
                          .place = text_of (row->where) };
  g_auto (CroEntry) read = { 0 };
  g_autoptr (GError) error = NULL;
  g_autofree char *reason = NULL;
  gboolean done;

  if (book_of (self) == NULL || self->is_keeping || !is_edited (row))
    return TRUE;
  if (!cro_entry_measured (text_of (row->amount), row->line.unit, CRO_RANGE_AT_LEAST_0, cro_words_entry (),
                           &read)
      && read.status != CRO_ENTRY_EMPTY)
    {
      reason = cro_words_entry_reason (text_of (row->amount), &read);
      refuse (row, reason);
      return FALSE;
    }
  entry.amount = read.micro;
  entry.unit = read.unit;
  self->is_keeping = TRUE;
  done = read.status == CRO_ENTRY_EMPTY ? row->line.id == 0 || take_back (self, row, &error)
                                        : cro_count_put (book_of (self), &entry, &error);
  self->is_keeping = FALSE;
  reason = error != NULL ? cro_words_failed (error) : NULL;
  if (row->sheet != NULL)
    refuse (row, reason);
  if (done)
    take_kept (row);
  return done;
}

/* --- Rows ------------------------------------------------------------------------------------------------ */

static int
index_of (Row *row)
{
  guint at;

  return g_ptr_array_find (row->sheet->rows, row, &at) ? (int) at : -1;
}

static void
go_to (CroCountSheet *self,
       int            at)
{
  if (at >= 0 && at < (int) self->rows->len)
    {
      gtk_widget_grab_focus (((Row *) self->rows->pdata[at])->amount);
      cro_reveal (((Row *) self->rows->pdata[at])->amount);
    }
  else if (at >= (int) self->rows->len)
    gtk_widget_grab_focus (self->adding);
}

static void
entered_cb (Row *row)
{
  CroCountSheet *self = row->sheet;
  int at = self != NULL ? index_of (row) : -1;

  if (self != NULL && keep (row))
    go_to (self, at + 1);
}

static void
left_cb (Row *row)
{
  if (row->sheet != NULL)
    keep (row);
}

static gboolean
key_pressed_cb (Row             *row,
                guint            keyval,
                guint            keycode,
                GdkModifierType  state)
{
  if (row->sheet == NULL)
    return GDK_EVENT_PROPAGATE;
  if (keyval == GDK_KEY_Escape && is_edited (row))
    {
      cro_entry_put (row->amount, row->kept_amount);
      cro_entry_put (row->where, row->kept_where);
      refuse (row, NULL);
      return GDK_EVENT_STOP;
    }
  if (keyval != GDK_KEY_Down && keyval != GDK_KEY_KP_Down && keyval != GDK_KEY_Up && keyval != GDK_KEY_KP_Up)
    return GDK_EVENT_PROPAGATE;
  go_to (row->sheet, index_of (row) + (keyval == GDK_KEY_Up || keyval == GDK_KEY_KP_Up ? -1 : 1));
  return GDK_EVENT_STOP;
}

static void
connect (gpointer     instance,
         const char  *signal,
         GCallback    called,
         Row         *row)
{
  g_signal_connect_data (instance, signal, called, g_rc_box_acquire (row), row_unref, G_CONNECT_SWAPPED);
}

static void
listen (Row       *row,
        GtkWidget *entry)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  connect (keys, "key-pressed", G_CALLBACK (key_pressed_cb), row);
  connect (focus, "leave", G_CALLBACK (left_cb), row);
  connect (entry, "activate", G_CALLBACK (entered_cb), row);
  gtk_widget_add_controller (entry, keys);
  gtk_widget_add_controller (entry, focus);
}

static void
show_row (Row *row)
{
  const CroCountLine *line = &row->line;
  gboolean was_edited = is_edited (row);
  g_autofree char *lack = NULL, *last = cro_count_dup_amount (line->last, line->last_unit);

  g_free (row->kept_amount);
  g_free (row->kept_where);
  gtk_label_set_label (GTK_LABEL (row->cells[2]), last);
  row->kept_amount = cro_count_dup_amount (line->amount, line->unit);
  row->kept_where = g_strdup (row->place != NULL ? row->place : "");
  gtk_entry_set_placeholder_text (GTK_ENTRY (row->amount), cro_words_unit (line->unit));
  if (was_edited)
    return;
  cro_entry_put (row->amount, row->kept_amount);
  cro_entry_put (row->where, row->kept_where);
  /* What is counted in pieces and has no weight of one says so where it stands. */
  if (line->id != 0)
    lack = cro_words_lack (cro_book_get_model (book_of (row->sheet)), line->item, line->amount, line->unit);
  cro_reason_say (row->reason, row->amount, lack);
}

static Row *
row_new (CroCountSheet *self,
         guint32        item)
{
  const char *name = name_of (self, item);
  /* Translators: the accessible name of a field: the amount of an item in stock. */
  g_autofree char *spoken = cro_isolate_printf (_("Amount of %s"), name);
  /* Translators: the accessible name of a field: where an item is kept. */
  g_autofree char *spoken_where = cro_isolate_printf (_("Where %s is kept"), name);
  GtkWidget *label = gtk_label_new (name), *before = cro_number_label_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  Row *row = g_rc_box_new0 (Row);

  row->sheet = self;
  row->where = cro_entry_new (spoken_where, 12);
  row->amount = cro_entry_new (spoken, 12);
  row->reason = cro_reason_new ();
  row->kept_amount = g_strdup ("");
  row->kept_where = g_strdup ("");
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (label), 20);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 34);
  gtk_widget_set_tooltip_text (label, name);
  gtk_widget_add_css_class (before, "dim-label");
  gtk_entry_set_alignment (GTK_ENTRY (row->amount), 1);
  gtk_box_append (GTK_BOX (box), row->amount);
  gtk_box_append (GTK_BOX (box), row->reason);
  memcpy (row->cells, (GtkWidget *[]){ row->where, label, before, box }, sizeof row->cells);
  listen (row, row->where);
  listen (row, row->amount);
  return row;
}

/* Behind the row before it, in the order that they are read in too; none is taken out of the grid. */
static void
place_row (CroCountSheet *self,
           Row           *row,
           int            at)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (self->grid);
  const Row *before = at > 1 ? self->rows->pdata[at - 2] : NULL;
  GtkWidget *last = before != NULL ? before->cells[N_CELLS - 1] : self->last_head;

  for (int i = 0; i < N_CELLS; last = row->cells[i++])
    {
      if (gtk_widget_get_parent (row->cells[i]) == NULL)
        gtk_grid_attach (GTK_GRID (self->grid), row->cells[i], i, at, 1, 1);
      gtk_grid_layout_child_set_row (
          GTK_GRID_LAYOUT_CHILD (gtk_layout_manager_get_layout_child (layout, row->cells[i])), at);
      if (gtk_widget_get_prev_sibling (row->cells[i]) != last)
        gtk_widget_insert_after (row->cells[i], self->grid, last);
    }
}

static gboolean
is_row_of (const Row          *row,
           const CroCountLine *line)
{
  return row->line.item == line->item
         && ((row->line.id != 0 && row->line.id == line->id)
             || (g_strcmp0 (row->place, line->place) == 0 && (row->line.id == 0 || line->id == 0)));
}

/* The row of a line among those that are left of before; NULL: it is new, as are all of a book that was read anew. */
static Row *
take_row_of (CroCountSheet      *self,
             GPtrArray          *before,
             const CroCountLine *line)
{
  for (guint i = 0; i < before->len; i++)
    if (is_row_of (before->pdata[i], line)
        && strcmp (gtk_label_get_label (GTK_LABEL (((Row *) before->pdata[i])->cells[1])),
                   name_of (self, line->item)) == 0)
      return g_ptr_array_steal_index (before, i);
  return NULL;
}

static void
tell_lost (CroCountSheet *self,
           const Row     *row)
{
  gboolean is_amount = strcmp (text_of (row->amount), row->kept_amount) != 0;
  /* Translators: what was typed, and the item that it was typed for. */
  g_autofree char *told = cro_isolate_printf (_("“%s” was not entered for “%s”: this row is no longer shown."),
                                              text_of (is_amount ? row->amount : row->where),
                                              gtk_label_get_label (GTK_LABEL (row->cells[1])));

  cro_bench_say (self->bench, told);
}

/* What was typed into a row that goes is told; who types on does so in no other row. */
static void
let_go (CroCountSheet *self,
        GPtrArray     *gone)
{
  for (guint i = 0; i < gone->len; i++)
    {
      Row *row = gone->pdata[i];

      if (self->bench != NULL && is_edited (row))
        tell_lost (self, row);
      /* Leaving it keeps nothing. */
      row->sheet = NULL;
      for (int k = 0; k < N_CELLS; k++)
        {
          if (self->bench != NULL && gtk_widget_get_focus_child (self->grid) == row->cells[k])
            gtk_widget_grab_focus (self->adding);
          gtk_grid_remove (GTK_GRID (self->grid), row->cells[k]);
        }
    }
}

/* The lines that are shown: those that hold what is looked for. */
static GArray *
list_shown (CroCountSheet *self,
            guint         *n_others)
{
  g_autoptr (CroQuery) query = cro_query_new (text_of (self->search));
  GArray *shown = g_array_new (FALSE, FALSE, sizeof (CroCountLine));

  *n_others = 0;
  for (guint i = 0; i < self->list->lines->len; i++)
    {
      const CroCountLine *line = &g_array_index (self->list->lines, CroCountLine, i);
      g_autofree char *text = query != NULL ? g_strdup_printf ("%s %s", name_of (self, line->item),
                                                               line->place != NULL ? line->place : "")
                                            : NULL;
      g_autofree char *folded = text != NULL ? cro_fold (text) : NULL;

      if (folded != NULL && cro_query_match (query, folded) == CRO_MATCH_NONE)
        continue;
      if (shown->len < MOST_ROWS)
        g_array_append_vals (shown, line, 1);
      else
        ++*n_others;
    }
  return shown;
}

static void
take_line (Row                *row,
           const CroCountLine *line)
{
  row->line = *line;
  row->line.place = NULL;
  if (g_strcmp0 (row->place, line->place) == 0)
    return;
  g_free (row->place);
  row->place = g_strdup (line->place);
}

/* Rows that stay keep their widgets, and with them the focus. */
static void
show_rows (CroCountSheet *self)
{
  guint n_others;
  g_autoptr (GArray) lines = list_shown (self, &n_others);
  g_autoptr (GPtrArray) before = g_steal_pointer (&self->rows);
  g_autofree char *n_text = cro_number_to_text (n_others, 0, TRUE);
  /* Translators: rows of a table. */
  g_autofree char *more = g_strdup_printf (ngettext ("%s more row: search for it", "%s more rows: search for them",
                                                     n_others),
                                           n_text);

  self->rows = g_ptr_array_new_with_free_func (row_free);
  for (guint i = 0; i < lines->len; i++)
    {
      Row *row = take_row_of (self, before, &g_array_index (lines, CroCountLine, i));

      if (row == NULL)
        row = row_new (self, g_array_index (lines, CroCountLine, i).item);
      take_line (row, &g_array_index (lines, CroCountLine, i));
      g_ptr_array_add (self->rows, row);
      place_row (self, row, (int) self->rows->len);
      show_row (row);
    }
  gtk_widget_set_visible (self->grid, lines->len > 0);
  gtk_widget_set_visible (self->more, n_others > 0);
  gtk_label_set_label (GTK_LABEL (self->more), more);
  let_go (self, before);
}

static void
show_state (CroCountSheet *self)
{
  guint n_left = self->list->n_items - self->list->n_counted;
  g_autofree char *left = cro_number_to_text (n_left, 0, TRUE);
  g_autofree char *all = cro_number_to_text (self->list->n_items, 0, TRUE);
  g_autofree char *text = NULL;

  if (self->list->n_items == 0)
    text = g_strdup (_("Nothing was counted before or bought since. Type what is in stock below."));
  else if (n_left == 0)
    /* Translators: a number of items. */
    text = g_strdup_printf (_("All counted: %s ✓"), all);
  else
    /* Translators: both are numbers of items: "3 of 79 not counted". */
    text = g_strdup_printf (_("%s of %s not counted"), left, all);
  gtk_label_set_label (GTK_LABEL (self->state), text);
}

static void
read_list (CroCountSheet *self)
{
  gboolean by_worth = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->by_worth));
  g_autoptr (GError) error = NULL;
  CroCountList *list = cro_count_list_new (book_of (self), self->day,
                                           by_worth ? CRO_COUNT_BY_WORTH : CRO_COUNT_BY_PLACE, &error);

  if (list == NULL)
    {
      cro_bench_fail (self->bench, error);
      return;
    }
  g_clear_pointer (&self->list, cro_count_list_free);
  self->list = list;
  show_state (self);
  show_rows (self);
}

void
cro_count_sheet_refresh (CroCountSheet *self)
{
  if (book_of (self) == NULL
      || (self->book == book_of (self) && self->edition == cro_book_get_edition (self->book)))
    return;
  self->book = book_of (self);
  self->edition = cro_book_get_edition (self->book);
  read_list (self);
}

static void
search_changed_cb (CroCountSheet *self)
{
  if (self->list != NULL)
    show_rows (self);
}

static void
order_changed_cb (CroCountSheet *self)
{
  if (self->list != NULL)
    read_list (self);
}

gboolean
cro_count_sheet_is_counted (CroCountSheet *self,
                            guint         *n_last)
{
  *n_last = self->list != NULL ? cro_count_list_n_last (self->list) : 0;
  return self->list != NULL && self->list->n_counted > 0;
}

void
cro_count_sheet_take_last (CroCountSheet *self)
{
  g_autofree char *before = cro_date_to_text (cro_month_first_of (self->day) - 1);
  g_autofree char *day = cro_date_to_text (self->day);
  /* Translators: an entry of the history: the counts of one day, also taken as those of another. */
  g_autofree char *label = g_strdup_printf (_("counts of %s, also of %s"), before, day);
  g_autoptr (GError) error = NULL;

  if (self->list != NULL && !cro_count_list_take_last (self->list, book_of (self), label, &error))
    cro_bench_fail (self->bench, error);
}

/* --- On paper -------------------------------------------------------------------------------------------- */

static CroPaper *
make_paper (gpointer   sheet,
            guint      number,
            GError   **error)
{
  CroCountSheet *self = sheet;

  return cro_count_paper_new (book_of (self), self->list,
                              gtk_widget_get_direction (GTK_WIDGET (self)) == GTK_TEXT_DIR_RTL);
}

static void
print_cb (CroCountSheet *self)
{
  CroModel *model = cro_book_get_model (book_of (self));
  gboolean is_letter = cro_currency_uses_letter (model->currency);
  g_autoptr (GError) error = NULL;

  if (self->list != NULL
      && !cro_print (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))), _("Count sheet"),
                     is_letter ? &cro_paper_letter : &cro_paper_a4, 1, make_paper, self, &error))
    cro_bench_fail (self->bench, error);
}

/* --- The widget ------------------------------------------------------------------------------------------ */

void
cro_count_sheet_set_open (CroCountSheet *self,
                          gboolean       is_open)
{
  gtk_widget_set_sensitive (self->grid, is_open);
  gtk_widget_set_visible (self->adding, is_open);
}

static gboolean
cro_count_sheet_grab_focus (GtkWidget *widget)
{
  CroCountSheet *self = CRO_COUNT_SHEET (widget);

  for (guint i = 0; i < self->rows->len; i++)
    if (((Row *) self->rows->pdata[i])->line.id == 0)
      return gtk_widget_grab_focus (((Row *) self->rows->pdata[i])->amount);
  return gtk_widget_grab_focus (self->rows->len > 0 ? ((Row *) self->rows->pdata[0])->amount : self->adding);
}

static void
cro_count_sheet_dispose (GObject *object)
{
  CroCountSheet *self = CRO_COUNT_SHEET (object);

  self->bench = NULL;
  if (self->box != NULL)
    let_go (self, self->rows);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->rows, g_ptr_array_unref);
  g_clear_pointer (&self->list, cro_count_list_free);
  G_OBJECT_CLASS (cro_count_sheet_parent_class)->dispose (object);
}

static void
cro_count_sheet_class_init (CroCountSheetClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_count_sheet_dispose;
  widget_class->grab_focus = cro_count_sheet_grab_focus;
  widget_class->focus = cro_focus_within;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
cro_count_sheet_init (CroCountSheet *self)
{
  self->rows = g_ptr_array_new_with_free_func (row_free);
}

static GtkWidget *
head_new (CroCountSheet *self)
{
  GtkWidget *head = cro_wrap_new (12, 6), *print = gtk_button_new_with_label (_("Print Count Sheet…"));

  self->state = gtk_label_new ("");
  self->search = cro_search_new (_("Search this table"));
  self->by_worth = gtk_toggle_button_new_with_label (_("Highest Value First"));
  g_signal_connect_object (self->search, "search-changed", G_CALLBACK (search_changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->by_worth, "toggled", G_CALLBACK (order_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (print, "clicked", G_CALLBACK (print_cb), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (head), self->state);
  cro_wrap_append (CRO_WRAP (head), self->search);
  cro_wrap_append (CRO_WRAP (head), self->by_worth);
  cro_wrap_append (CRO_WRAP (head), print);
  return head;
}

GtkWidget *
cro_count_sheet_new (CroBench *bench,
                     CroDate   day)
{
  const char *const heads[N_CELLS] = { _("Where"), _("Item"), _("Counted before"), _("Counted") };
  CroCountSheet *self = g_object_new (CRO_TYPE_COUNT_SHEET, NULL);

  self->bench = bench;
  self->day = day;
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  self->grid = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (self->grid), 12);
  gtk_grid_set_row_spacing (GTK_GRID (self->grid), 3);
  gtk_widget_set_halign (self->grid, GTK_ALIGN_START);
  for (int i = 0; i < N_CELLS; i++)
    {
      self->last_head = cro_caption_new (heads[i], i < 2 ? 0 : 1);
      gtk_grid_attach (GTK_GRID (self->grid), self->last_head, i, 0, 1, 1);
    }
  self->more = cro_text_new ("", "dim-label");
  self->adding = cro_count_adding_new (bench, day);
  gtk_box_append (GTK_BOX (self->box), head_new (self));
  gtk_box_append (GTK_BOX (self->box), self->grid);
  gtk_box_append (GTK_BOX (self->box), self->more);
  gtk_box_append (GTK_BOX (self->box), self->adding);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  cro_count_sheet_refresh (self);
  return GTK_WIDGET (self);
}
