#include "config.h"

#include "cro-supplier-bench.h"

#include <glib/gi18n.h>

#include "cro-bought.h"
#include "cro-field.h"
#include "cro-market-open.h"
#include "cro-measure.h"
#include "cro-new-prices.h"
#include "cro-number.h"
#include "cro-pack-form.h"
#include "cro-records-view.h"
#include "cro-sold.h"
#include "cro-supplier-form.h"
#include "cro-words.h"
#include "cro-wrap.h"

/* The height of the table at least, in widths of a letter, which grow with the text: some seven rows. */
#define LEAST_ROWS 36

struct _CroSupplierBench
{
  CroBench         parent_instance;

  GtkWidget       *name;
  GtkWidget       *aside;       /* how many rows were set aside */
  GtkWidget       *form;
  GtkWidget       *bought;
  CroRecordsView  *view;        /* their packs */
  GtkWidget       *pack;
  CroBook         *shown;       /* the book that the table shows; borrowed, may be stale */
  guint64          edition;     /* of the book when purchases were read */
};

G_DEFINE_FINAL_TYPE (CroSupplierBench, cro_supplier_bench, CRO_TYPE_BENCH)

static void
show_bought (CroSupplierBench *self)
{
  CroBook *book = cro_bench_get_book (CRO_BENCH (self));
  CroDate last = cro_book_get_figures (book)->date;
  g_autofree char *money = NULL, *n_text = NULL, *text = NULL;
  guint n;
  double net_value;

  if (!cro_bought_of (book, cro_bench_get_slot (CRO_BENCH (self)), last - CRO_SOLD_DAYS + 1, last, &n, &net_value,
                      NULL))
    return;
  money = cro_words_money (cro_book_get_model (book), net_value);
  n_text = cro_number_to_text (n, 0, TRUE);
  text = n > 0
             /* Translators: money, net, and the number of documents. */
             ? g_strdup_printf (ngettext ("Bought in 28 days: %s net, %s document",
                                          "Bought in 28 days: %s net, %s documents", n),
                                money, n_text)
             : g_strdup (_("Nothing bought in 28 days"));
  gtk_label_set_label (GTK_LABEL (self->bought), text);
}

static void
show_aside (CroSupplierBench *self)
{
  g_autofree char *text = cro_new_prices_dup_aside_words (cro_bench_get_book (CRO_BENCH (self)),
                                                          cro_bench_get_slot (CRO_BENCH (self)));

  gtk_label_set_label (GTK_LABEL (self->aside), text != NULL ? text : "");
  gtk_widget_set_visible (self->aside, text != NULL);
}

static void
cro_supplier_bench_refresh (CroBench *bench)
{
  CroSupplierBench *self = CRO_SUPPLIER_BENCH (bench);
  CroBook *book = cro_bench_get_book (bench);

  gtk_label_set_label (GTK_LABEL (self->name), cro_ref_name (cro_book_get_model (book), cro_bench_get_ref (bench)));
  cro_supplier_form_refresh (CRO_SUPPLIER_FORM (self->form));
  show_aside (self);
  /* A key moves nothing that stands below. */
  if (self->edition == cro_book_get_edition (book))
    return;
  self->edition = cro_book_get_edition (book);
  cro_pack_form_refresh (CRO_PACK_FORM (self->pack));
  show_bought (self);
}

static void
cro_supplier_bench_show (CroBench *bench)
{
  CroSupplierBench *self = CRO_SUPPLIER_BENCH (bench);
  CroRecordsFilter filter = CRO_RECORDS_ALL;

  if (self->shown != cro_bench_get_book (bench))
    {
      self->shown = cro_bench_get_book (bench);
      cro_records_view_set_book (self->view, self->shown);
    }
  filter.supplier = cro_bench_get_slot (bench);
  cro_records_view_set_filter (self->view, &filter);
  cro_supplier_form_show (CRO_SUPPLIER_FORM (self->form));
  self->edition = 0;
  cro_supplier_bench_refresh (bench);
}

static void
new_prices_cb (CroBench *bench)
{
  cro_market_new_prices (bench, cro_bench_get_slot (bench));
}

static void
file_cb (CroBench *bench)
{
  cro_market_ask_file (bench, cro_bench_get_slot (bench));
}

static void
cro_supplier_bench_class_init (CroSupplierBenchClass *klass)
{
  CRO_BENCH_CLASS (klass)->kind = CRO_REF_SUPPLIER;
  CRO_BENCH_CLASS (klass)->show = cro_supplier_bench_show;
  CRO_BENCH_CLASS (klass)->refresh = cro_supplier_bench_refresh;
}

/* Without a pack there is none to set a price of. */
static void
rows_changed_cb (CroSupplierBench *self)
{
  CroRecords *packs = cro_records_view_get_records (self->view);
  guint n = packs != NULL ? cro_records_get_n_chosen (packs) : 0;

  gtk_widget_set_visible (self->pack, n > 0);
}

static GtkWidget *
button_new (CroSupplierBench *self,
            const char       *label,
            GCallback         clicked)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  g_signal_connect_object (button, "clicked", clicked, self, G_CONNECT_SWAPPED);
  return button;
}

static GtkWidget *
head_new (CroSupplierBench *self)
{
  GtkWidget *head = cro_wrap_new (12, 6);

  self->name = cro_heading_new ("");
  self->aside = cro_text_new ("", NULL);
  gtk_label_set_wrap (GTK_LABEL (self->aside), FALSE);
  self->bought = cro_text_new ("", "dim-label");
  gtk_label_set_wrap (GTK_LABEL (self->bought), FALSE);
  cro_wrap_append (CRO_WRAP (head), self->name);
  cro_wrap_append (CRO_WRAP (head), button_new (self, _("New Prices"), G_CALLBACK (new_prices_cb)));
  cro_wrap_append (CRO_WRAP (head), button_new (self, _("Take a File…"), G_CALLBACK (file_cb)));
  cro_wrap_append (CRO_WRAP (head), self->aside);
  cro_wrap_append (CRO_WRAP (head), self->bought);
  return head;
}

/* Where the page is low or its text large, some rows stay in sight, and the page scrolls. */
static void
keep_rows_cb (GtkWidget *view)
{
  gtk_widget_set_size_request (view, -1, cro_measure_chars (view, LEAST_ROWS));
}

static void
cro_supplier_bench_init (CroSupplierBench *self)
{
  GtkWidget *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9), *scroller = gtk_scrolled_window_new ();

  self->form = cro_supplier_form_new (CRO_BENCH (self));
  self->view = CRO_RECORDS_VIEW (cro_records_view_new (CRO_BENCH (self), CRO_RECORDS_OFFERS, _("Open Ingredient")));
  self->pack = cro_pack_form_new (CRO_BENCH (self), self->view);
  cro_records_view_connect_rows (self->view, G_CALLBACK (rows_changed_cb), self);
  gtk_widget_set_vexpand (GTK_WIDGET (self->view), TRUE);
  gtk_box_append (GTK_BOX (page), head_new (self));
  gtk_box_append (GTK_BOX (page), self->form);
  gtk_box_append (GTK_BOX (page), GTK_WIDGET (self->view));
  gtk_box_append (GTK_BOX (page), self->pack);
  g_signal_connect (self->view, "realize", G_CALLBACK (keep_rows_cb), NULL);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_overlay_scrolling (GTK_SCROLLED_WINDOW (scroller), FALSE);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), page);
  cro_bench_set_page (CRO_BENCH (self), scroller);
}
