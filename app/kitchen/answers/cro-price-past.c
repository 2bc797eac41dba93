#include "cro-price-past.h"

#include <math.h>

#include "cro-decimal.h"
#include "cro-price-rows.h"
#include "cro-rate-steps.h"

struct _CroPricePast
{
  CroModel     *model;
  GPtrArray    *rows;       /* by slot of the offer: GArray of CroPriceRow; NULL */
  CroRateSteps *rates;
  double        stale_after;
  GArray       *offers;     /* CroOffer: those of one ingredient on one day */
};

CroPricePast *
cro_price_past_new (CroBook  *book,
                    GError  **error)
{
  CroStore *store = cro_book_get_store (book);
  CroModel *model = cro_book_get_model (book);
  g_autoptr (GPtrArray) rows = NULL;
  g_autoptr (CroRateSteps) rates = NULL;
  CroPricePast *self;

  if (!cro_store_begin_read (store, error))
    return NULL;
  rows = cro_price_rows_all (model, store, error);
  rates = rows != NULL ? cro_rate_steps_new (store, error) : NULL;
  cro_store_end_read (store);
  if (rates == NULL)
    return NULL;
  self = g_new0 (CroPricePast, 1);
  self->model = model;
  self->rows = g_steal_pointer (&rows);
  self->rates = g_steal_pointer (&rates);
  self->stale_after = model->stale_after_days == CRO_NOT_SET ? -1 : cro_decimal_to_double (model->stale_after_days);
  self->offers = g_array_new (FALSE, FALSE, sizeof (CroOffer));
  return self;
}

void
cro_price_past_free (CroPricePast *self)
{
  g_ptr_array_unref (self->rows);
  cro_rate_steps_free (self->rates);
  g_array_unref (self->offers);
  g_free (self);
}

static void
add_offer (CroPricePast *self,
           guint32       slot,
           CroDate       date,
           CroDate       rates)
{
  const CroOfferEntry *entry = cro_model_offer (self->model, slot);
  CroOffer offer = entry->offer;

  if (self->rows->pdata[slot] != NULL)
    cro_price_rows_offer_on (self->rows->pdata[slot], entry, date, &offer);
  else
    offer.has_price = offer.had_price = false;
  if (entry->currency != NULL && g_strcmp0 (entry->currency, self->model->currency) != 0)
    offer.rate = cro_rate_steps_on (self->rates, entry->currency, rates);
  g_array_append_val (self->offers, offer);
}

double
cro_price_past_cost (CroPricePast *self,
                     guint32       slot,
                     CroDate       date)
{
  return cro_price_past_cost_at (self, slot, date, date);
}

double
cro_price_past_cost_at (CroPricePast *self,
                        guint32       slot,
                        CroDate       date,
                        CroDate       rates)
{
  const CroItem *item = cro_model_item (self->model, slot);
  const CroMeasure *measure = &self->model->measures[slot];
  const CroOffer *offers;
  double cost = NAN;
  unsigned lacks;

  g_array_set_size (self->offers, 0);
  for (guint32 i = 0; i < item->n_offers; i++)
    add_offer (self, g_array_index (self->model->offer_order, guint32, item->first_offer + i), date,
               rates);
  offers = (const CroOffer *) (const void *) self->offers->data;
  if (self->offers->len == 0)
    return NAN;
  if (cro_offer_choose (offers, self->offers->len, measure, date, self->stale_after, &cost) < 0
      && cro_offer_choose_last (offers, self->offers->len, measure, &cost, &lacks) < 0)
    return NAN;
  return cost;
}

/* --- Lists ------------------------------------------------------------------------------------ */

/* Newest days that say what is usual. */
#define MOST_USUAL 18

/* From so many packs on a single price is no list. */
#define FEW_PACKS 4

typedef struct
{
  CroDate day;
  guint   n;   /* prices that begin on it */
} ListDay;

GHashTable *
cro_price_past_billed (CroBook  *book,
                       CroDate   date,
                       GError  **error)
{
  g_autoptr (GHashTable) billed = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  char text[CRO_DATE_CHARS];
  g_autoptr (CroRows) rows = NULL;
  GError *failed = NULL;

  cro_date_format (date, text);
  rows = cro_store_read_billed_prices (cro_book_get_store (book), text, error);
  while (rows != NULL && cro_rows_next (rows, &failed))
    {
      gint64 id = cro_rows_get_int (rows, 0);

      g_hash_table_add (billed, g_memdup2 (&id, sizeof id));
    }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL ? g_steal_pointer (&billed) : NULL;
}

static int
newest_first (gconstpointer a,
              gconstpointer b)
{
  CroDate x = ((const ListDay *) a)->day, y = ((const ListDay *) b)->day;

  return x < y ? 1 : x > y ? -1 : 0;
}

static int
smallest_first (gconstpointer a,
                gconstpointer b)
{
  guint x = *(const guint *) a, y = *(const guint *) b;

  return x < y ? -1 : x > y;
}

/* Each day once, with its prices; *n_packs: of how many of theirs. */
static GArray *
list_days (CroPricePast *self,
           GHashTable   *billed,
           guint32       supplier,
           CroDate       date,
           guint        *n_packs)
{
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (ListDay));
  GArray *days = g_array_new (FALSE, FALSE, sizeof (ListDay));

  *n_packs = 0;
  for (guint32 slot = 0; slot < self->rows->len; slot++)
    {
      const CroOfferEntry *entry = cro_model_offer (self->model, slot);
      GArray *rows = self->rows->pdata[slot];

      if (rows == NULL || entry->is_dead || entry->supplier != supplier)
        continue;
      (*n_packs)++;
      for (guint i = 0; i < rows->len; i++)
        {
          const CroPriceRow *row = &g_array_index (rows, CroPriceRow, i);
          ListDay one = { row->from, 1 };

          if (row->from <= date && (billed == NULL || !g_hash_table_contains (billed, &row->id)))
            g_array_append_val (all, one);
        }
    }
  g_array_sort (all, newest_first);
  for (guint i = 0; i < all->len; i++)
    {
      const ListDay *one = &g_array_index (all, ListDay, i);

      if (days->len > 0 && g_array_index (days, ListDay, days->len - 1).day == one->day)
        g_array_index (days, ListDay, days->len - 1).n++;
      else
        g_array_append_val (days, *one);
    }
  return days;
}

/* The prices of the list in which the middle one of the newest stands. */
static guint
usual_of (const GArray *days)
{
  guint sizes[MOST_USUAL], n = MIN (days->len > 1 ? days->len - 1 : days->len, MOST_USUAL), all = 0, passed = 0;

  for (guint i = 0; i < n; i++)
    all += sizes[i] = g_array_index (days, ListDay, i).n;
  qsort (sizes, n, sizeof *sizes, smallest_first);
  for (guint i = 0; i < n; i++)
    if (2 * (passed += sizes[i]) >= all)
      return sizes[i];
  return 0;
}

guint
cro_price_past_lists (CroPricePast *self,
                      GHashTable   *billed,
                      guint32       supplier,
                      CroDate       date,
                      CroDate      *days,
                      guint         most)
{
  guint n_packs, n = 0;
  g_autoptr (GArray) all = list_days (self, billed, supplier, date, &n_packs);
  guint least = MAX ((usual_of (all) + 3) / 4, n_packs < FEW_PACKS ? 1 : 2);

  for (guint i = 0; i < all->len && n < most; i++)
    if (g_array_index (all, ListDay, i).n >= least)
      days[n++] = g_array_index (all, ListDay, i).day;
  return n;
}
