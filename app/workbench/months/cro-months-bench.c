#include "config.h"

#include "cro-months-bench.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-drop-down.h"
#include "cro-field.h"
#include "cro-here.h"
#include "cro-isolate.h"
#include "cro-month-shelf.h"
#include "cro-month-table-view.h"
#include "cro-month-words.h"
#include "cro-months-table.h"
#include "cro-records-view.h"
#include "cro-switch.h"
#include "cro-wrap.h"

/* The months come first; then tables in their order: what they tie to, and what stands in them. */
static const CroRecordsKind kinds[] = { CRO_RECORDS_MONTHS, CRO_RECORDS_SALES, CRO_RECORDS_PURCHASES,
                                        CRO_RECORDS_COUNTS, CRO_RECORDS_ADJUSTMENTS };

#define N_TABLES G_N_ELEMENTS (kinds)

struct _CroMonthsBench
{
  CroBench        parent_instance;

  GtkWidget      *box;
  GtkWidget      *head;
  GtkWidget      *stack;
  GtkWidget      *months;         /* how each stands */
  GtkWidget      *nothing;        /* in place of all that: no month yet */
  CroMonthShelf  *shelf;          /* of the book; weak */
  GtkWidget      *about;          /* what the other tables show */
  GtkWidget      *unlike;         /* what the sums of totals hold, where that needs a word */
  GtkWidget      *with_tax;       /* what a difference without a total is */
  GtkWidget      *month;          /* which one is shown */
  GPtrArray      *codes;          /* "2026-10", as the drop-down has them; the first NULL: all */
  CroBook        *shown;          /* the book that the tables show; weak */
  CroRecordsView *views[N_TABLES];
};

G_DEFINE_FINAL_TYPE (CroMonthsBench, cro_months_bench, CRO_TYPE_BENCH)

/* --- Which month ------------------------------------------------------------------------------------ */

static void
month_chosen_cb (CroMonthsBench *self)
{
  guint at = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->month));
  const char *code = at < self->codes->len ? self->codes->pdata[at] : NULL;

  for (guint i = 1; i < N_TABLES; i++)
    cro_records_view_set_month (self->views[i], code);
}

static gboolean
holds (GPtrArray  *codes,
       const char *code,
       guint      *at)
{
  for (*at = 0; *at < codes->len; (*at)++)
    if (g_strcmp0 (codes->pdata[*at], code) == 0)
      return TRUE;
  return FALSE;
}

/* The months as the table of months has them; the one that was chosen stays chosen. */
static void
fill_months (CroMonthsBench *self)
{
  GListModel *months = G_LIST_MODEL (cro_records_view_get_records (self->views[0]));
  guint chosen = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->month)), at;
  g_autofree char *before = chosen < self->codes->len ? g_strdup (self->codes->pdata[chosen]) : NULL;
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);

  g_ptr_array_set_size (self->codes, 0);
  g_ptr_array_add (self->codes, NULL);
  gtk_string_list_append (names, _("All months"));
  for (guint i = 0; months != NULL && i < g_list_model_get_n_items (months); i++)
    {
      g_autoptr (CroRecord) record = g_list_model_get_item (months, i);
      g_autofree char *name = cro_record_dup_text (record, 0);

      g_ptr_array_add (self->codes, cro_record_dup_month (record));
      gtk_string_list_append (names, name);
    }
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->month), G_LIST_MODEL (names));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->month),
                              holds (self->codes, before, &at) ? at : 0);
  month_chosen_cb (self);
}

/* Whether the till of some month says its total with tax alone, and so its difference is that of sales with tax. */
static gboolean
is_any_with_tax (CroMonthsBench *self)
{
  g_autoptr (GPtrArray) rows = cro_month_rows_read (cro_bench_get_book (CRO_BENCH (self)), NULL);

  for (guint i = 0; rows != NULL && i < rows->len; i++)
    {
      const CroMonthRow *row = rows->pdata[i];

      if (row->till_net == CRO_NOT_SET && row->till_gross != CRO_NOT_SET)
        return TRUE;
    }
  return FALSE;
}

static void
show_unlike (CroMonthsBench *self)
{
  CroRecords *months = cro_records_view_get_records (self->views[0]);
  gboolean is_shown = months != NULL
                      && gtk_stack_get_visible_child (GTK_STACK (self->stack)) == GTK_WIDGET (self->views[0]);

  gtk_widget_set_visible (self->unlike, is_shown && cro_records_are_unpaired (months));
  gtk_widget_set_visible (self->with_tax, is_shown && is_any_with_tax (self));
}

/* As many months, and one for all of them; while some are searched the others are not lost. */
static void
follow_months (CroMonthsBench *self)
{
  CroRecords *months = cro_records_view_get_records (self->views[0]);
  guint n = months != NULL ? g_list_model_get_n_items (G_LIST_MODEL (months)) : 0;

  show_unlike (self);
  if (months != NULL && n == cro_records_get_n_rows (months) && n + 1 != self->codes->len)
    fill_months (self);
}

static void
open_first (CroMonthsBench *self,
            CroDate         first)
{
  cro_bench_open (CRO_BENCH (self), CRO_REF (CRO_REF_MONTH, cro_month_to_slot (first)));
}

/* A month that is opened has a page of its own. */
static void
open_month_cb (GtkWidget  *widget,
               const char *action,
               GVariant   *parameter)
{
  CroMonthsBench *self = CRO_MONTHS_BENCH (widget);
  g_autoptr (CroRecord) record = cro_records_view_dup_selected (self->views[0]);
  g_autofree char *code = record != NULL ? cro_record_dup_month (record) : NULL;
  CroDate first;

  if (code != NULL && cro_month_parse (code, strlen (code), &first))
    open_first (self, first);
}

/* The newest month that a ledger was entered for; the one being traced has none yet. */
static void
last_month_cb (GtkWidget  *widget,
               const char *action,
               GVariant   *parameter)
{
  CroMonthsBench *self = CRO_MONTHS_BENCH (widget);
  g_autoptr (GPtrArray) rows = cro_month_rows_read (cro_bench_get_book (CRO_BENCH (self)), NULL);

  for (guint i = rows != NULL ? rows->len : 0; i > 0; i--)
    {
      const CroMonthRow *row = rows->pdata[i - 1];

      if (row->ledger == CRO_NOT_SET)
        continue;
      open_first (self, row->first);
      return;
    }
}

/* --- All months ------------------------------------------------------------------------------------- */

static void
show_months (CroMonthsBench *self)
{
  GArray *firsts = cro_month_shelf_list (self->shelf);
  g_autoptr (GPtrArray) months = g_ptr_array_new ();
  g_autoptr (CroMonthTable) table = NULL;

  for (guint i = 0; i < firsts->len; i++)
    g_ptr_array_add (months, (gpointer) cro_month_shelf_peek (self->shelf, g_array_index (firsts, CroDate, i)));
  table = cro_months_table_new (firsts, months);
  cro_months_table_add_years (table, firsts, months);
  cro_month_table_view_set (CRO_MONTH_TABLE_VIEW (self->months), table);
  gtk_widget_set_visible (self->nothing, firsts->len == 0);
  gtk_widget_set_visible (self->head, firsts->len > 0);
  gtk_widget_set_visible (self->stack, firsts->len > 0);
}

static void
shelf_changed_cb (CroMonthsBench *self)
{
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    show_months (self);
}

/* A bench of no one thing is not told to refresh. */
static void
cro_months_bench_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (cro_months_bench_parent_class)->map (widget);
  if (CRO_MONTHS_BENCH (widget)->shelf != NULL)
    show_months (CRO_MONTHS_BENCH (widget));
}

static void
opened_cb (CroMonthsBench *self,
           int             line,
           const char     *name)
{
  GArray *firsts = cro_month_shelf_list (self->shelf);

  if ((guint) line < firsts->len)
    open_first (self, g_array_index (firsts, CroDate, line));
}

/* Where nothing is recorded yet, the month that runs is the first. */
static void
begin_cb (CroMonthsBench *self)
{
  open_first (self, cro_month_first_of (cro_here_today ()));
}

/* --- The bench ---------------------------------------------------------------------------------------- */

static void
cro_months_bench_show (CroBench *bench)
{
  CroMonthsBench *self = CRO_MONTHS_BENCH (bench);

  if (self->shown == cro_bench_get_book (bench))
    return;
  if (self->shelf != NULL)
    g_signal_handlers_disconnect_by_data (self->shelf, self);
  g_set_weak_pointer (&self->shown, cro_bench_get_book (bench));
  g_set_weak_pointer (&self->shelf, cro_month_shelf_of (self->shown));
  g_signal_connect_object (self->shelf, "changed", G_CALLBACK (shelf_changed_cb), self, G_CONNECT_SWAPPED);
  for (guint i = 0; i < N_TABLES; i++)
    cro_records_view_set_book (self->views[i], self->shown);
  /* What is entered next follows what was entered last. */
  for (guint i = 1; i < N_TABLES; i++)
    cro_records_view_sort (self->views[i], CRO_RECORDS_ENTRIES_DATE, TRUE);
  fill_months (self);
  show_months (self);
}

static void
cro_months_bench_refresh (CroBench *bench)
{
  follow_months (CRO_MONTHS_BENCH (bench));
}

static void
cro_months_bench_dispose (GObject *object)
{
  CroMonthsBench *self = CRO_MONTHS_BENCH (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->codes, g_ptr_array_unref);
  g_clear_weak_pointer (&self->shown);
  g_clear_weak_pointer (&self->shelf);
  G_OBJECT_CLASS (cro_months_bench_parent_class)->dispose (object);
}

static void
cro_months_bench_class_init (CroMonthsBenchClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_months_bench_dispose;
  GTK_WIDGET_CLASS (klass)->map = cro_months_bench_map;
  CRO_BENCH_CLASS (klass)->show = cro_months_bench_show;
  CRO_BENCH_CLASS (klass)->refresh = cro_months_bench_refresh;
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (klass), "row.open", NULL, open_month_cb);
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (klass), "months.last", NULL, last_month_cb);
}

static GtkWidget *
about_new (void)
{
  return cro_text_new (_("Net sales are those entered, or else quantities sold at the "
                         "net price of the day of sale, dated prices first; a price "
                         "without a date counts for every day. A closed month shows the "
                         "net sales fixed at closing. "
                         "Tax and month-end figures are working papers for an "
                         "accountant, who decides what is filed."),
                       "caption");
}

/* In large text the table is wider than its page and higher: bars that stand tell of what is out of sight. A row that
 * has the focus comes into sight up and down alone: across, the toolkit would go to its end, away from the month. */
static GtkWidget *
months_new (CroMonthsBench *self)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();

  self->months = cro_month_table_view_new (_("All months; Enter opens one"), NULL);
  gtk_widget_add_css_class (self->months, "lines-part");
  g_signal_connect_object (self->months, "opened", G_CALLBACK (opened_cb), self, G_CONNECT_SWAPPED);
  gtk_scrolled_window_set_overlay_scrolling (GTK_SCROLLED_WINDOW (scroller), FALSE);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), self->months);
  gtk_viewport_set_scroll_to_focus (GTK_VIEWPORT (gtk_scrolled_window_get_child (GTK_SCROLLED_WINDOW (scroller))),
                                    FALSE);
  gtk_widget_set_vexpand (scroller, TRUE);
  return scroller;
}

/* One sentence, and one button that works. */
static GtkWidget *
nothing_new (CroMonthsBench *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  g_autofree char *month = cro_month_to_text (cro_month_first_of (cro_here_today ()));
  g_autofree char *label = cro_isolate_printf (_("Begin %s"), month);
  GtkWidget *button = gtk_button_new_with_label (label);

  g_signal_connect_object (button, "clicked", G_CALLBACK (begin_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_set_halign (button, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (box), cro_text_new (_("No sales, purchases or counts yet."), "heading"));
  gtk_box_append (GTK_BOX (box), button);
  gtk_widget_add_css_class (box, "part");
  gtk_widget_set_halign (box, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (box, GTK_ALIGN_CENTER);
  gtk_widget_set_vexpand (box, TRUE);
  return box;
}

static void
add_tables (CroMonthsBench *self)
{
  const char *titles[N_TABLES] = { _("Till and Ledger"), _("Sales"), _("Purchases"), C_("of the stock", "Counts"),
                                   _("Adjustments") };
  const char *opens[N_TABLES] = { _("Open This Month"), _("Open"), _("Open Ingredient"), _("Open"),
                                  _("Open") };

  self->stack = gtk_stack_new ();
  gtk_stack_add_titled (GTK_STACK (self->stack), months_new (self), "months", _("Months"));
  for (guint i = 0; i < N_TABLES; i++)
    {
      g_autofree char *name = g_strdup_printf ("%u", i);

      self->views[i] = CRO_RECORDS_VIEW (
          cro_records_view_new (CRO_BENCH (self), kinds[i], opens[i]));
      gtk_widget_set_vexpand (GTK_WIDGET (self->views[i]), TRUE);
      gtk_stack_add_titled (GTK_STACK (self->stack), GTK_WIDGET (self->views[i]), name, titles[i]);
    }
}

/* Months are a table of their own: choosing one is for the others. */
static void
page_shown_cb (CroMonthsBench *self)
{
  GtkWidget *page = gtk_stack_get_visible_child (GTK_STACK (self->stack));
  gboolean is_of_months = FALSE;

  for (guint i = 1; i < N_TABLES; i++)
    is_of_months |= page == GTK_WIDGET (self->views[i]);
  gtk_widget_set_visible (self->month, is_of_months);
  show_unlike (self);
}

static GtkWidget *
head_new (CroMonthsBench *self)
{
  GtkWidget *head = cro_wrap_new (12, 6);

  self->month = cro_drop_down_new ((const char *const[]){ _("All months"), NULL }, _("Month"));
  cro_wrap_append (CRO_WRAP (head), cro_heading_new (_("All months")));
  g_signal_connect_object (self->month, "notify::selected", G_CALLBACK (month_chosen_cb), self,
                           G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (head), cro_switch_new (GTK_STACK (self->stack)));
  cro_wrap_append (CRO_WRAP (head), self->month);
  return head;
}

static void
cro_months_bench_init (CroMonthsBench *self)
{
  self->codes = g_ptr_array_new_with_free_func (g_free);
  add_tables (self);
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_widget_add_css_class (self->box, "bench");
  self->head = head_new (self);
  self->nothing = nothing_new (self);
  gtk_box_append (GTK_BOX (self->box), self->head);
  gtk_box_append (GTK_BOX (self->box), self->nothing);
  gtk_box_append (GTK_BOX (self->box), self->stack);
  self->about = about_new ();
  gtk_box_append (GTK_BOX (self->box), self->about);
  self->unlike = cro_text_new (_("A month without a till’s or a ledger’s total is in the sums of net sales and "
                                 "purchases, and in no difference."),
                               "caption");
  gtk_box_insert_child_after (GTK_BOX (self->box), self->unlike, self->stack);
  self->with_tax = cro_text_new (_("A till’s total with tax stands on the page of its month; the difference here is "
                                   "that of sales with tax."),
                                 "caption");
  gtk_box_insert_child_after (GTK_BOX (self->box), self->with_tax, self->unlike);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  g_signal_connect_object (self->stack, "notify::visible-child", G_CALLBACK (page_shown_cb), self,
                           G_CONNECT_SWAPPED);
  page_shown_cb (self);
  cro_records_view_connect_selected (self->views[0], G_CALLBACK (follow_months), self);
  cro_records_view_connect_rows (self->views[0], G_CALLBACK (show_unlike), self);
}
