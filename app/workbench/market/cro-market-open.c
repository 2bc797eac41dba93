#include "config.h"

#include "cro-market-open.h"

#include <glib/gi18n.h>

#include "cro-file-choice.h"
#include "cro-new-prices.h"
#include "cro-supplier-bench.h"

/* The page of the supplier, which stands in the stack of benches once it is opened. NULL: it is not. */
static CroBench *
open_supplier (CroBench *from,
               guint32   supplier)
{
  GtkWidget *benches = gtk_widget_get_parent (GTK_WIDGET (from));
  GtkWidget *shown;

  if (CRO_IS_SUPPLIER_BENCH (from) && cro_bench_get_slot (from) == supplier)
    return from;
  cro_bench_open (from, CRO_REF (CRO_REF_SUPPLIER, supplier));
  shown = GTK_IS_STACK (benches) ? gtk_stack_get_visible_child (GTK_STACK (benches)) : NULL;
  return CRO_IS_SUPPLIER_BENCH (shown) && cro_bench_get_slot (CRO_BENCH (shown)) == supplier ? CRO_BENCH (shown) : NULL;
}

void
cro_market_new_prices (CroBench *from,
                       guint32   supplier)
{
  CroBench *bench = open_supplier (from, supplier);

  if (bench != NULL)
    cro_new_prices_open (bench, supplier);
}

void
cro_market_take_file (CroBench   *from,
                      guint32     supplier,
                      const char *path)
{
  CroBench *bench = open_supplier (from, supplier);

  if (bench != NULL)
    cro_new_prices_open_file (bench, supplier, path);
}

void
cro_market_take_text (CroBench   *from,
                      guint32     supplier,
                      const char *text)
{
  CroBench *bench = open_supplier (from, supplier);

  if (bench != NULL)
    cro_new_prices_open_text (bench, supplier, text);
}

/* --- A file ------------------------------------------------------------------------------------ */

static void
file_chosen_cb (gpointer    bench,
                const char *path)
{
  guint32 supplier = GPOINTER_TO_UINT (g_object_get_data (bench, "file of"));

  if (cro_bench_get_book (bench) != NULL)
    cro_market_take_file (bench, supplier, path);
}

void
cro_market_ask_file (CroBench *from,
                     guint32   supplier)
{
  CroFileChoice choice = {
    .title = _("Take a Price List or an Invoice"),
    .action = GTK_FILE_CHOOSER_ACTION_OPEN,
  };

  g_object_set_data (G_OBJECT (from), "file of", GUINT_TO_POINTER (supplier));
  cro_file_choice_ask (&choice, GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (from))), file_chosen_cb, from);
}
