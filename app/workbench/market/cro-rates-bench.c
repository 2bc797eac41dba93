#include "config.h"

#include "cro-rates-bench.h"

#include <glib/gi18n.h>

#include "cro-cause.h"
#include "cro-field.h"
#include "cro-rate-form.h"
#include "cro-records-view.h"

struct _CroRatesBench
{
  CroBench         parent_instance;

  CroRecordsView  *view;
  GtkWidget       *form;
  CroBook         *shown;     /* the book that the table shows; borrowed, may be stale */
};

G_DEFINE_FINAL_TYPE (CroRatesBench, cro_rates_bench, CRO_TYPE_BENCH)

static void
cro_rates_bench_refresh (CroBench *bench)
{
  cro_rate_form_refresh (CRO_RATE_FORM (CRO_RATES_BENCH (bench)->form));
}

/* It is of no one thing, so nobody else tells it to refresh. */
static void
book_changed_cb (CroBench *bench)
{
  if (gtk_widget_get_mapped (GTK_WIDGET (bench)))
    cro_rates_bench_refresh (bench);
}

/* The newest of those in force: one from a later day on is no rate of the book's day. */
static void
select_in_force (CroRatesBench *self)
{
  GListModel *records = G_LIST_MODEL (cro_records_view_get_records (self->view));

  for (guint i = 0; records != NULL && i < g_list_model_get_n_items (records); i++)
    {
      g_autoptr (CroRecord) record = g_list_model_get_item (records, i);
      g_autofree char *status = cro_record_dup_text (record, CRO_RECORDS_RATES_STATUS);

      if (*status == '\0')
        continue;
      cro_records_view_select (self->view, record);
      return;
    }
}

static void
cro_rates_bench_show (CroBench *bench)
{
  CroRatesBench *self = CRO_RATES_BENCH (bench);
  CroBook *book = cro_bench_get_book (bench);

  if (self->shown != book)
    {
      self->shown = book;
      g_signal_connect_object (book, "changed", G_CALLBACK (book_changed_cb), self, G_CONNECT_SWAPPED);
      cro_records_view_set_book (self->view, book);
      cro_records_view_sort (self->view, CRO_RECORDS_RATES_SINCE, TRUE);
      select_in_force (self);
    }
  cro_rates_bench_refresh (bench);
}

/* The currency of a pack that has a price, and no rate. */
static const char *
find_unknown_currency (CroFigures *figures)
{
  CroModel *model = figures->model;

  for (guint32 i = 0; i < model->offers->len; i++)
    {
      const CroOfferEntry *entry = cro_model_offer (model, i);

      if (!entry->is_dead
          && cro_offer_lacks (&entry->offer, &model->measures[entry->item], figures->date)
                 & CRO_OFFER_LACKS_RATE)
        return entry->currency;
    }
  return NULL;
}

static void
cro_rates_bench_ask (CroBench *bench,
                     int       cause)
{
  const char *currency = find_unknown_currency (cro_book_get_figures (cro_bench_get_book (bench)));

  if (cause == CRO_CAUSE_RATE && currency != NULL)
    cro_rate_form_ask (CRO_RATE_FORM (CRO_RATES_BENCH (bench)->form), currency);
}

static void
cro_rates_bench_class_init (CroRatesBenchClass *klass)
{
  CRO_BENCH_CLASS (klass)->show = cro_rates_bench_show;
  CRO_BENCH_CLASS (klass)->refresh = cro_rates_bench_refresh;
  CRO_BENCH_CLASS (klass)->ask = cro_rates_bench_ask;
}

static void
cro_rates_bench_init (CroRatesBench *self)
{
  GtkWidget *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);

  self->view = CRO_RECORDS_VIEW (cro_records_view_new (CRO_BENCH (self), CRO_RECORDS_RATES, NULL));
  self->form = cro_rate_form_new (CRO_BENCH (self), self->view);
  gtk_widget_set_vexpand (GTK_WIDGET (self->view), TRUE);
  gtk_box_append (GTK_BOX (page), cro_heading_new (_("Exchange rates")));
  gtk_box_append (GTK_BOX (page), GTK_WIDGET (self->view));
  gtk_box_append (GTK_BOX (page), self->form);
  cro_bench_set_page (CRO_BENCH (self), page);
}
