#include "cro-office-prices.h"

#include <string.h>

#include "cro-not-set.h"
#include "cro-workbook.h"

static const char *const columns[] = {
  "offer", "from_date", "price_micro", "tax_included_pct_micro", "pack_count_micro",
  "pack_size_micro", "pack_unit", NULL
};

typedef struct
{
  CroOfficePrices *prices;
  CroModel        *model;
  CroDate          date;
  const guint32   *number_of;
  guint32         *filled;      /* by number of offer; while counting, how many it has */
} Reading;

typedef void (*TakePrice) (Reading *reading, guint32 offer, CroDate from, CroRows *rows);

/* The model has read only the prices in force: what is wrong with any other is found here. The
 * column that no book can hold, or -1. */
static int
find_damage (CroRows *rows,
             guint32  offer,
             CroDate *from)
{
  const char *date = cro_rows_get_text (rows, 1);
  const char *unit = cro_rows_get_text (rows, 6);
  CroUnit any;

  if (offer == CRO_NO_SLOT)
    return 0;
  if (!cro_date_parse (date, strlen (date), from))
    return 1;
  for (int column = 2; column < 6; column++)
    if (cro_rows_get_int (rows, column) < 0)
      return column;
  return unit != NULL && !cro_unit_parse (unit, strlen (unit), &any) ? 6 : -1;
}

static gboolean
read_prices (Reading    *reading,
             CroStore   *store,
             TakePrice   take,
             GError    **error)
{
  g_autoptr (CroRows) rows = cro_store_read (store, "price", columns, error);
  GError *failed = NULL;

  if (rows == NULL)
    return FALSE;
  while (cro_rows_next (rows, &failed))
    {
      guint32 slot = cro_slots_get (&reading->model->offer_slots, cro_rows_get_int (rows, 0));
      CroDate from;
      int bad = find_damage (rows, slot, &from);

      if (bad >= 0)
        return cro_rows_is_damaged (rows, bad, error);
      if (reading->number_of[slot] != CRO_NO_SLOT && from <= reading->date)
        take (reading, reading->number_of[slot], from, rows);
    }
  if (failed == NULL)
    return TRUE;
  g_propagate_error (error, failed);
  return FALSE;
}

static void
count_price (Reading *reading,
             guint32  offer,
             CroDate  from,
             CroRows *rows)
{
  reading->filled[offer]++;
}

static guint32
keep_pack (Reading *reading,
           CroRows *rows)
{
  const char *unit = cro_rows_get_text (rows, 6);
  CroOfficePack pack = { cro_rows_get_int (rows, 4), cro_rows_get_int (rows, 5), CRO_N_UNITS };

  if (pack.count == 0 && pack.size == 0 && unit == NULL)
    return CRO_NO_SLOT;
  if (unit != NULL)
    cro_unit_parse (unit, strlen (unit), &pack.unit);
  g_array_append_val (reading->prices->packs, pack);
  return reading->prices->packs->len - 1;
}

/* Sorted by date as they come: most come in that order already. */
static void
keep_price (Reading *reading,
            guint32  offer,
            CroDate  from,
            CroRows *rows)
{
  CroOfficePrice *first = reading->prices->prices + reading->prices->first[offer];
  guint32 at = reading->filled[offer];

  if (reading->prices->in_force_only && at > 0)
    {
      if (first->from > from)
        return;
      at = 0;
    }
  for (; at > 0 && first[at - 1].from > from; at--)
    first[at] = first[at - 1];
  first[at] = (CroOfficePrice){
    .price = cro_row_number (rows, 2),
    .tax = (gint32) MIN (cro_rows_get_int (rows, 3), G_MAXINT32),
    .from = from,
    .pack = keep_pack (reading, rows),
  };
  reading->filled[offer] += reading->prices->in_force_only ? reading->filled[offer] == 0 : 1;
}

/* From how many each offer has to where they stand. */
static void
make_room (Reading *reading)
{
  CroOfficePrices *self = reading->prices;
  guint64 total = 0;

  for (guint32 i = 0; i < self->n_offers; i++)
    total += reading->filled[i];
  self->in_force_only = total > CRO_WORKBOOK_MOST_PRICES;
  self->first[0] = 0;
  for (guint32 i = 0; i < self->n_offers; i++)
    {
      guint32 n = self->in_force_only ? MIN (reading->filled[i], 1) : reading->filled[i];

      self->first[i + 1] = self->first[i] + n;
      reading->filled[i] = 0;
    }
  self->prices = g_new (CroOfficePrice, self->first[self->n_offers] + 1);
}

gboolean
cro_office_prices_load (CroOfficePrices  *self,
                        CroStore         *store,
                        CroModel         *model,
                        CroDate           date,
                        const guint32    *number_of,
                        guint32           n_offers,
                        GError          **error)
{
  g_autofree guint32 *filled = g_new0 (guint32, n_offers + 1);
  Reading reading = { self, model, date, number_of, filled };

  self->n_offers = n_offers;
  self->first = g_new0 (guint32, n_offers + 1);
  self->packs = g_array_new (FALSE, FALSE, sizeof (CroOfficePack));
  self->rates = cro_rate_steps_new (store, error);
  if (self->rates == NULL || !read_prices (&reading, store, count_price, error))
    return FALSE;
  make_room (&reading);
  return read_prices (&reading, store, keep_price, error);
}

void
cro_office_prices_clear (CroOfficePrices *self)
{
  g_free (self->prices);
  g_free (self->first);
  g_clear_pointer (&self->packs, g_array_unref);
  g_clear_pointer (&self->rates, cro_rate_steps_free);
}

guint32
cro_office_prices_offer (const CroOfficePrices *self,
                         guint32                price)
{
  guint32 low = 0, high = self->n_offers;

  /* The last offer that begins at price or before; empty ones begin where the next does. */
  while (high - low > 1)
    {
      guint32 middle = low + (high - low) / 2;

      if (self->first[middle] <= price)
        low = middle;
      else
        high = middle;
    }
  return low;
}

guint32
cro_office_prices_find (const CroOfficePrices *self,
                        guint32                offer,
                        CroDate                from)
{
  for (guint32 i = self->first[offer + 1]; i > self->first[offer]; i--)
    if (self->prices[i - 1].from == from)
      return i - 1;
  return CRO_NO_SLOT;
}
