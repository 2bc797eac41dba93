#include "config.h"

#include "cro-packs-bench.h"

#include <glib/gi18n.h>

#include "cro-field.h"
#include "cro-pack-form.h"
#include "cro-records-view.h"
#include "cro-wrap.h"

struct _CroPacksBench
{
  CroBench         parent_instance;

  CroRecordsView  *view;
  GtkWidget       *form;
  GtkWidget       *several;   /* whether only what several packs are of is shown */
  CroBook         *shown;     /* the book that the table shows; borrowed, may be stale */
  guint64          edition;   /* of it when the form was refreshed */
};

G_DEFINE_FINAL_TYPE (CroPacksBench, cro_packs_bench, CRO_TYPE_BENCH)

/* The table follows the book itself. */
static void
cro_packs_bench_refresh (CroBench *bench)
{
  CroPacksBench *self = CRO_PACKS_BENCH (bench);

  self->edition = cro_book_get_edition (cro_bench_get_book (bench));
  cro_pack_form_refresh (CRO_PACK_FORM (self->form));
}

/* It is of no one thing, so nobody else tells it to refresh. A key moves nothing that its form shows. */
static void
book_changed_cb (CroBench *bench)
{
  if (gtk_widget_get_mapped (GTK_WIDGET (bench))
      && CRO_PACKS_BENCH (bench)->edition != cro_book_get_edition (cro_bench_get_book (bench)))
    cro_packs_bench_refresh (bench);
}

static void
cro_packs_bench_show (CroBench *bench)
{
  CroPacksBench *self = CRO_PACKS_BENCH (bench);
  CroBook *book = cro_bench_get_book (bench);

  if (self->shown != book)
    {
      self->shown = book;
      g_signal_connect_object (book, "changed", G_CALLBACK (book_changed_cb), self, G_CONNECT_SWAPPED);
      cro_records_view_set_book (self->view, book);
    }
  cro_packs_bench_refresh (bench);
}

static void
cro_packs_bench_class_init (CroPacksBenchClass *klass)
{
  CRO_BENCH_CLASS (klass)->show = cro_packs_bench_show;
  CRO_BENCH_CLASS (klass)->refresh = cro_packs_bench_refresh;
}

static void
several_cb (CroPacksBench *self)
{
  CroRecordsFilter filter = CRO_RECORDS_ALL;

  if (gtk_check_button_get_active (GTK_CHECK_BUTTON (self->several)))
    filter.marks = CRO_RECORD_BESIDE;
  cro_records_view_set_filter (self->view, &filter);
}

/* Without a pack there is none to set a price of. */
static void
rows_changed_cb (CroPacksBench *self)
{
  CroRecords *packs = cro_records_view_get_records (self->view);
  gboolean has_some = packs == NULL || cro_records_get_n_rows (packs) > 0;

  gtk_widget_set_visible (self->form, has_some);
  gtk_widget_set_visible (self->several, has_some);
}

static void
cro_packs_bench_init (CroPacksBench *self)
{
  GtkWidget *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *head = cro_wrap_new (18, 6);

  self->view = CRO_RECORDS_VIEW (cro_records_view_new (CRO_BENCH (self), CRO_RECORDS_OFFERS, _("Open Ingredient")));
  self->form = cro_pack_form_new (CRO_BENCH (self), self->view);
  self->several = gtk_check_button_new_with_label (_("Only ingredients with several packs"));
  g_signal_connect_object (self->several, "toggled", G_CALLBACK (several_cb), self, G_CONNECT_SWAPPED);
  cro_records_view_connect_rows (self->view, G_CALLBACK (rows_changed_cb), self);
  cro_wrap_append (CRO_WRAP (head), cro_heading_new (_("Packs side by side")));
  cro_wrap_append (CRO_WRAP (head), self->several);
  gtk_widget_set_vexpand (GTK_WIDGET (self->view), TRUE);
  gtk_box_append (GTK_BOX (page), head);
  gtk_box_append (GTK_BOX (page), GTK_WIDGET (self->view));
  gtk_box_append (GTK_BOX (page), self->form);
  cro_bench_set_page (CRO_BENCH (self), page);
}
