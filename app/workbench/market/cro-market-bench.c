#include "config.h"

#include "cro-market-bench.h"

#include <glib/gi18n.h>

#include "cro-field.h"
#include "cro-new-prices.h"
#include "cro-pack-form.h"
#include "cro-rate-form.h"
#include "cro-records-view.h"
#include "cro-supplier-form.h"
#include "cro-switch.h"
#include "cro-wrap.h"

enum
{
  PACKS,
  SUPPLIERS,
  RATES,
  N_TABLES,
};

struct _CroMarketBench
{
  CroBench         parent_instance;

  GtkWidget       *box;
  GtkWidget       *stack;
  CroBook         *shown;           /* the book that the tables show; borrowed, may be stale */
  guint64          edition;         /* of it when the forms were refreshed */
  CroRecordsView  *views[N_TABLES];
  GtkWidget       *forms[N_TABLES];
};

G_DEFINE_FINAL_TYPE (CroMarketBench, cro_market_bench, CRO_TYPE_BENCH)

/* A supplier that is opened shows its packs. */
static void
open_supplier_cb (GtkWidget  *widget,
                  const char *action,
                  GVariant   *parameter)
{
  CroMarketBench *self = CRO_MARKET_BENCH (widget);
  GtkWidget *page = gtk_stack_get_visible_child (GTK_STACK (self->stack));
  g_autoptr (CroRecord) record = cro_records_view_dup_selected (self->views[SUPPLIERS]);
  g_autofree char *name = record != NULL ? cro_record_dup_text (record, 0) : NULL;

  if (name == NULL || !gtk_widget_is_ancestor (GTK_WIDGET (self->views[SUPPLIERS]), page))
    return;
  gtk_stack_set_visible_child_name (GTK_STACK (self->stack), "0");
  cro_records_view_set_search (self->views[PACKS], name);
  cro_records_view_focus_rows (self->views[PACKS]);
}

/* What rose most stands first, what fell most last. */
static void
what_moved_cb (GtkWidget  *widget,
               const char *action,
               GVariant   *parameter)
{
  CroMarketBench *self = CRO_MARKET_BENCH (widget);

  gtk_stack_set_visible_child_name (GTK_STACK (self->stack), "0");
  cro_records_view_set_search (self->views[PACKS], "");
  cro_records_view_sort (self->views[PACKS], CRO_RECORDS_OFFERS_CHANGE, TRUE);
  cro_records_view_focus_rows (self->views[PACKS]);
}

static void
add_supplier_cb (CroMarketBench *self)
{
  gtk_stack_set_visible_child (GTK_STACK (self->stack),
                               gtk_widget_get_parent (self->forms[SUPPLIERS]));
  cro_supplier_form_focus (CRO_SUPPLIER_FORM (self->forms[SUPPLIERS]));
}

/* Of the supplier that is chosen, or of the pack's. */
static void
new_prices_cb (CroMarketBench *self)
{
  CroModel *model = cro_book_get_model (cro_bench_get_book (CRO_BENCH (self)));
  gboolean is_packs = g_strcmp0 (gtk_stack_get_visible_child_name (GTK_STACK (self->stack)), "0") == 0;
  g_autoptr (CroRecord) record = cro_records_view_dup_selected (self->views[is_packs ? PACKS : SUPPLIERS]);
  CroRef ref = record != NULL ? cro_record_get_ref (record) : CRO_REF_NOWHERE;
  guint32 supplier = ref.kind == CRO_REF_OFFER      ? cro_model_offer (model, ref.slot)->supplier
                     : ref.kind == CRO_REF_SUPPLIER ? ref.slot
                                                    : CRO_NO_SLOT;

  if (supplier != CRO_NO_SLOT)
    cro_new_prices_open (CRO_BENCH (self), supplier);
  else
    cro_bench_say (CRO_BENCH (self), _("Choose a supplier first."));
}

/* The tables follow the book themselves. */
static void
cro_market_bench_refresh (CroBench *bench)
{
  CroMarketBench *self = CRO_MARKET_BENCH (bench);

  cro_pack_form_refresh (CRO_PACK_FORM (self->forms[PACKS]));
  cro_supplier_form_refresh (CRO_SUPPLIER_FORM (self->forms[SUPPLIERS]));
  cro_rate_form_refresh (CRO_RATE_FORM (self->forms[RATES]));
}

/* It is of no one thing, so nobody else tells it to refresh. A key moves nothing that its forms show. */
static void
book_changed_cb (CroBench *bench)
{
  CroMarketBench *self = CRO_MARKET_BENCH (bench);
  CroBook *book = cro_bench_get_book (bench);

  if (!gtk_widget_get_mapped (GTK_WIDGET (bench)) || self->edition == cro_book_get_edition (book))
    return;
  self->edition = cro_book_get_edition (book);
  cro_market_bench_refresh (bench);
}

static void
cro_market_bench_show (CroBench *bench)
{
  CroMarketBench *self = CRO_MARKET_BENCH (bench);
  CroBook *book = cro_bench_get_book (bench);

  if (self->shown != book)
    {
      self->shown = book;
      g_signal_handlers_disconnect_by_func (book, book_changed_cb, self);
      g_signal_connect_object (book, "changed", G_CALLBACK (book_changed_cb), self, G_CONNECT_SWAPPED);
      for (int i = 0; i < N_TABLES; i++)
        cro_records_view_set_book (self->views[i], self->shown);
      cro_records_view_sort (self->views[RATES], CRO_RECORDS_RATES_SINCE, TRUE);
    }
  self->edition = cro_book_get_edition (book);
  cro_market_bench_refresh (bench);
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
cro_market_bench_ask (CroBench *bench,
                      int       cause)
{
  CroMarketBench *self = CRO_MARKET_BENCH (bench);
  const char *currency = find_unknown_currency (cro_book_get_figures (cro_bench_get_book (bench)));

  if (cause != CRO_CAUSE_RATE)
    return;
  gtk_stack_set_visible_child (GTK_STACK (self->stack), gtk_widget_get_parent (self->forms[RATES]));
  if (currency != NULL)
    cro_rate_form_ask (CRO_RATE_FORM (self->forms[RATES]), currency);
}

static void
cro_market_bench_dispose (GObject *object)
{
  g_clear_pointer (&CRO_MARKET_BENCH (object)->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_market_bench_parent_class)->dispose (object);
}

static void
cro_market_bench_class_init (CroMarketBenchClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_market_bench_dispose;
  CRO_BENCH_CLASS (klass)->show = cro_market_bench_show;
  CRO_BENCH_CLASS (klass)->refresh = cro_market_bench_refresh;
  CRO_BENCH_CLASS (klass)->ask = cro_market_bench_ask;
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (klass), "row.open", NULL, open_supplier_cb);
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (klass), "market.what-moved", NULL,
                                   what_moved_cb);
}

/* Without a pack there is none to set a price of. */
static void
packs_changed_cb (CroMarketBench *self)
{
  CroRecords *packs = cro_records_view_get_records (self->views[PACKS]);

  gtk_widget_set_visible (self->forms[PACKS],
                          packs == NULL || cro_records_get_n_rows (packs) > 0);
}

static GtkWidget *
form_new (CroMarketBench *self,
          int             table)
{
  CroBench *bench = CRO_BENCH (self);

  return table == PACKS       ? cro_pack_form_new (bench, self->views[table])
         : table == SUPPLIERS ? cro_supplier_form_new (bench, self->views[table])
                              : cro_rate_form_new (bench, self->views[table]);
}

static void
cro_market_bench_init (CroMarketBench *self)
{
  static const CroRecordsKind kinds[N_TABLES] = { CRO_RECORDS_OFFERS, CRO_RECORDS_SUPPLIERS,
                                                  CRO_RECORDS_RATES };
  const char *titles[N_TABLES] = { _("Packs and Prices"), _("Suppliers"), _("Exchange Rates") };
  const char *opens[N_TABLES] = { _("Open Ingredient"), _("Show Its Packs"), NULL };
  GtkWidget *head = cro_wrap_new (12, 6);
  GtkWidget *add_supplier = gtk_button_new_with_label (_("Add Supplier"));
  GtkWidget *new_prices = gtk_button_new_with_label (_("New Prices"));

  self->stack = gtk_stack_new ();
  for (int i = 0; i < N_TABLES; i++)
    {
      GtkWidget *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
      g_autofree char *name = g_strdup_printf ("%d", i);

      self->views[i] = CRO_RECORDS_VIEW (
          cro_records_view_new (CRO_BENCH (self), kinds[i], opens[i]));
      self->forms[i] = form_new (self, i);
      gtk_widget_set_vexpand (GTK_WIDGET (self->views[i]), TRUE);
      gtk_box_append (GTK_BOX (page), GTK_WIDGET (self->views[i]));
      gtk_box_append (GTK_BOX (page), self->forms[i]);
      gtk_stack_add_titled (GTK_STACK (self->stack), page, name, titles[i]);
    }
  cro_records_view_connect_rows (self->views[PACKS], G_CALLBACK (packs_changed_cb), self);
  g_signal_connect_object (add_supplier, "clicked", G_CALLBACK (add_supplier_cb), self,
                           G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (head), cro_switch_new (GTK_STACK (self->stack)));
  g_signal_connect_object (new_prices, "clicked", G_CALLBACK (new_prices_cb), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (head), add_supplier);
  cro_wrap_append (CRO_WRAP (head), new_prices);
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_widget_add_css_class (self->box, "bench");
  gtk_box_append (GTK_BOX (self->box), head);
  gtk_box_append (GTK_BOX (self->box), self->stack);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}
