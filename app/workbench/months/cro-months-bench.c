#include "config.h"

#include "cro-months-bench.h"

#include <glib/gi18n.h>

#include "cro-field.h"
#include "cro-records-view.h"
#include "cro-spoken.h"
#include "cro-switch.h"
#include "cro-wrap.h"

/* The tables in their order: the months, and what stands in them. */
static const CroRecordsKind kinds[] = { CRO_RECORDS_MONTHS, CRO_RECORDS_SALES, CRO_RECORDS_PURCHASES,
                                        CRO_RECORDS_COUNTS, CRO_RECORDS_ADJUSTMENTS };

#define N_TABLES G_N_ELEMENTS (kinds)

struct _CroMonthsBench
{
  CroBench        parent_instance;

  GtkWidget      *box;
  GtkWidget      *stack;
  GtkWidget      *month;          /* which one is shown */
  GPtrArray      *codes;          /* "2026-10", as the drop-down has them; the first NULL: all */
  CroBook        *shown;          /* the book that the tables show; borrowed, may be stale */
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

/* As many months, and one for all of them; while some are searched the others are not lost. */
static void
follow_months (CroMonthsBench *self)
{
  CroRecords *months = cro_records_view_get_records (self->views[0]);
  guint n = months != NULL ? g_list_model_get_n_items (G_LIST_MODEL (months)) : 0;

  if (months != NULL && n == cro_records_get_n_rows (months) && n + 1 != self->codes->len)
    fill_months (self);
}

/* A month that is opened shows what was sold in it. */
static void
open_month_cb (GtkWidget  *widget,
               const char *action,
               GVariant   *parameter)
{
  CroMonthsBench *self = CRO_MONTHS_BENCH (widget);
  g_autoptr (CroRecord) record = cro_records_view_dup_selected (self->views[0]);
  g_autofree char *code = record != NULL ? cro_record_dup_month (record) : NULL;
  guint at;

  if (code == NULL || !holds (self->codes, code, &at))
    return;
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->month), at);
  gtk_stack_set_visible_child_name (GTK_STACK (self->stack), "1");
}

/* The newest month that a ledger was entered for; the one being traded has none yet. */
static void
last_month_cb (GtkWidget  *widget,
               const char *action,
               GVariant   *parameter)
{
  CroMonthsBench *self = CRO_MONTHS_BENCH (widget);
  GListModel *months;

  gtk_stack_set_visible_child_name (GTK_STACK (self->stack), "0");
  cro_records_view_set_search (self->views[0], "");
  cro_records_view_sort (self->views[0], CRO_RECORDS_MONTHS_MONTH, TRUE);
  months = G_LIST_MODEL (cro_records_view_get_records (self->views[0]));
  for (guint i = 0; months != NULL && i < g_list_model_get_n_items (months); i++)
    {
      g_autoptr (CroRecord) record = g_list_model_get_item (months, i);

      if (!cro_record_is_set (record, CRO_RECORDS_MONTHS_LEDGER))
        continue;
      cro_records_view_select (self->views[0], record);
      break;
    }
  cro_records_view_focus_rows (self->views[0]);
}

/* --- The bench ---------------------------------------------------------------------------------------- */

static void
cro_months_bench_show (CroBench *bench)
{
  CroMonthsBench *self = CRO_MONTHS_BENCH (bench);

  if (self->shown == cro_bench_get_book (bench))
    return;
  self->shown = cro_bench_get_book (bench);
  for (guint i = 0; i < N_TABLES; i++)
    cro_records_view_set_book (self->views[i], self->shown);
  /* What is entered next follows what was entered last. */
  for (guint i = 1; i < N_TABLES; i++)
    cro_records_view_sort (self->views[i], CRO_RECORDS_ENTRIES_DATE, TRUE);
  fill_months (self);
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
  G_OBJECT_CLASS (cro_months_bench_parent_class)->dispose (object);
}

static void
cro_months_bench_class_init (CroMonthsBenchClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_months_bench_dispose;
  CRO_BENCH_CLASS (klass)->show = cro_months_bench_show;
  CRO_BENCH_CLASS (klass)->refresh = cro_months_bench_refresh;
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (klass), "row.open", NULL, open_month_cb);
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (klass), "months.last", NULL, last_month_cb);
}

static void
add_tables (CroMonthsBench *self)
{
  const char *titles[N_TABLES] = { _("Months"), _("Sales"), _("Purchases"), C_("of the stock", "Counts"),
                                   _("Adjustments") };
  const char *opens[N_TABLES] = { _("Show This Month"), _("Open"), _("Open Ingredient"), _("Open"),
                                  _("Open") };

  self->stack = gtk_stack_new ();
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
  gtk_widget_set_visible (self->month, gtk_stack_get_visible_child (GTK_STACK (self->stack))
                                           != GTK_WIDGET (self->views[0]));
}

static GtkWidget *
head_new (CroMonthsBench *self)
{
  GtkWidget *head = cro_wrap_new (12, 6);

  self->month = gtk_drop_down_new_from_strings ((const char *const[]){ _("All months"), NULL });
  cro_spoken_set (self->month, _("Month"));
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
  gtk_box_append (GTK_BOX (self->box), head_new (self));
  gtk_box_append (GTK_BOX (self->box), self->stack);
  gtk_box_append (GTK_BOX (self->box),
                  cro_text_new (_("Net sales are those entered, or else quantities sold at the "
                                  "net price of the day of sale, dated prices first; a price "
                                  "without a date counts for every day. A closed month shows the "
                                  "net sales fixed at closing. "
                                  "Tax and month-end figures are working papers for an "
                                  "accountant, who decides what is filed."),
                                "caption"));
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  g_signal_connect_object (self->stack, "notify::visible-child", G_CALLBACK (page_shown_cb), self,
                           G_CONNECT_SWAPPED);
  page_shown_cb (self);
  cro_records_view_connect_selected (self->views[0], G_CALLBACK (follow_months), self);
}
