#include "config.h"

#include "cro-market-rows.h"

#include <glib/gi18n.h>

#include "cro-number.h"

static void
add (GArray     *rows,
     CroRef      ref,
     const char *heading,
     const char *name,
     char       *detail)
{
  CroPageRow row = { ref, heading, g_strdup (name), detail };

  g_array_append_val (rows, row);
}

/* The day from which the newest prices of each supplier hold, by slot; those of the figures' day or before
 * stand in the model. */
static CroDate *
dup_lists (CroModel *model)
{
  CroDate *last = g_new (CroDate, model->suppliers->len + 1);

  for (guint i = 0; i < model->suppliers->len; i++)
    last[i] = CRO_NO_DAY;
  for (guint i = 0; i < model->offers->len; i++)
    {
      const CroOfferEntry *entry = cro_model_offer (model, i);

      if (!entry->is_dead && entry->price_id != 0)
        last[entry->supplier] = MAX (last[entry->supplier], entry->offer.from);
    }
  return last;
}

typedef struct
{
  guint32     slot;
  const char *name;
} Supplier;

static int
compare_names (gconstpointer a,
               gconstpointer b)
{
  return g_utf8_collate (((const Supplier *) a)->name, ((const Supplier *) b)->name);
}

static void
add_suppliers (GArray   *rows,
               CroModel *model)
{
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (Supplier));
  g_autofree CroDate *last = dup_lists (model);

  for (guint32 slot = 0; slot < model->suppliers->len; slot++)
    {
      const CroSupplier *supplier = &g_array_index (model->suppliers, CroSupplier, slot);
      Supplier one = { slot, supplier->name };

      if (!supplier->is_dead)
        g_array_append_val (all, one);
    }
  g_array_sort (all, compare_names);
  for (guint i = 0; i < all->len; i++)
    {
      const Supplier *one = &g_array_index (all, Supplier, i);

      add (rows, CRO_REF (CRO_REF_SUPPLIER, one->slot), _("Suppliers"), one->name,
           last[one->slot] != CRO_NO_DAY ? cro_date_to_text (last[one->slot]) : NULL);
    }
}

GArray *
cro_market_rows_new (CroBook *book)
{
  GArray *rows = cro_page_rows_new ();

  add (rows, CRO_REF (CRO_REF_SUPPLIER, CRO_NO_SLOT), NULL, _("Today"), NULL);
  add_suppliers (rows, cro_book_get_model (book));
  add (rows, CRO_REF (CRO_REF_PRICES, CRO_NO_SLOT), _("Over time"), _("Price movements"), NULL);
  add (rows, CRO_REF (CRO_REF_OFFER, CRO_NO_SLOT), _("Over time"), _("Packs side by side"), NULL);
  add (rows, CRO_REF (CRO_REF_RATES, CRO_NO_SLOT), _("Over time"), _("Exchange rates"), NULL);
  return rows;
}
