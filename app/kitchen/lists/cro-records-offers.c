#include "config.h"

#include "cro-records-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-doubt.h"
#include "cro-fold.h"
#include "cro-last-price.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-own-pack.h"
#include "cro-pack.h"
#include "cro-price-answers.h"
#include "cro-sentence.h"
#include "cro-words-price.h"
#include "cro-words.h"

/* The offer with the price, tax and pack of a row of prices; the pack is its own where the row
 * has none. */
static CroOffer
offer_at (const CroOfferEntry *entry,
          CroRows             *rows)
{
  CroOffer offer = entry->offer;

  offer.price = cro_rows_get_int (rows, 2);
  offer.tax_included = cro_rows_get_int (rows, 3);
  offer.pack_count = cro_rows_is_null (rows, 4) ? entry->pack_count : cro_rows_get_int (rows, 4);
  offer.pack_size = cro_rows_is_null (rows, 5) ? entry->pack_size : cro_rows_get_int (rows, 5);
  offer.pack_unit = (CroUnit) entry->pack_unit;
  if (!cro_rows_is_null (rows, 6))
    cro_unit_parse (cro_rows_get_text (rows, 6), strlen (cro_rows_get_text (rows, 6)),
                    &offer.pack_unit);
  return offer;
}

#define N_BEFORE (CRO_DOUBT_PRICES - 1)

/* The prices of an offer before the one in force, newest first: their unit costs, NaN where there is none. */
typedef struct
{
  double   cost[N_BEFORE];
  CroOffer then[N_BEFORE];    /* with the day, price and pack */
} Before;

static void
take_before (Before         *self,
             const CroOffer *then,
             double          cost)
{
  guint at = 0;

  while (at < N_BEFORE && then->from < self->then[at].from)
    at++;
  for (guint i = N_BEFORE; i > at; i--)
    {
      self->cost[i - 1] = i - 1 > at ? self->cost[i - 2] : cost;
      self->then[i - 1] = i - 1 > at ? self->then[i - 2] : *then;
    }
}

/* By slot of the offer. Owned. */
static Before *
read_before (CroReading *self,
             GError    **error)
{
  static const char *const columns[] = {
    "offer", "from_date", "price_micro", "tax_included_pct_micro", "pack_count_micro",
    "pack_size_micro", "pack_unit", NULL
  };
  guint n = self->model->offers->len;
  g_autofree Before *before = g_new (Before, n + 1);
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (self->book), "price", columns,
                                             error);
  g_autoptr (GError) failure = NULL;

  for (guint i = 0; i < n; i++)
    before[i] = (Before){ { NAN, NAN }, { { .from = G_MININT32 }, { .from = G_MININT32 } } };
  while (rows != NULL && cro_rows_next (rows, &failure))
    {
      guint32 slot = cro_slots_get (&self->model->offer_slots, cro_rows_get_int (rows, 0));
      const char *from = cro_rows_get_text (rows, 1);
      const CroOfferEntry *entry;
      CroOffer offer;
      CroDate date;

      if (slot == CRO_NO_SLOT || !cro_date_parse (from, strlen (from), &date))
        continue;
      entry = cro_model_offer (self->model, slot);
      if (!entry->offer.has_price || date >= entry->offer.from)
        continue;
      offer = offer_at (entry, rows);
      offer.from = date;
      take_before (&before[slot], &offer,
                   cro_rows_is_null (rows, 2) ? NAN
                                              : cro_offer_unit_cost (&offer, &self->model->measures[entry->item]));
    }
  if (rows == NULL || failure != NULL)
    {
      if (failure != NULL)
        g_propagate_error (error, g_steal_pointer (&failure));
      return NULL;
    }
  return g_steal_pointer (&before);
}

static CroValue
pack_value (CroReading *self,
            const CroOffer *offer)
{
  const CroPack pack = cro_pack_of (offer);
  g_autofree char *text = cro_pack_to_short_text (&pack);

  return cro_reading_text (self, text);
}

static char *
dup_beside_the_one_in_use (CroFigures          *figures,
                           const CroOfferEntry *entry,
                           double               cost)
{
  guint32 used = figures->offer_in_use[entry->item];
  double in_use = used != CRO_NO_SLOT ? cro_offer_unit_cost (&cro_model_offer (figures->model, used)->offer,
                                                             &figures->model->measures[entry->item])
                                      : NAN;

  g_autofree char *pct = NULL;

  if (isnan (cost) || isnan (in_use))
    return g_strdup ("");
  if (!(fabs (cost - in_use) > CRO_ALLOWED * in_use))
    /* Translators: of a pack, against the one that costs are taken from. */
    return g_strdup (_("same price"));
  if (!(in_use > 0))
    return g_strdup (_("dearer"));
  pct = cro_words_pct (fabs (cost / in_use - 1) * 100);
  /* Translators: of a pack, against the one that costs are taken from: "3.2 % cheaper". */
  return g_strdup_printf (cost < in_use ? _("%s cheaper") : _("%s dearer"), pct);
}

/* Why costs are taken from its price, or are not. */
static char *
dup_status (CroFigures          *figures,
            guint32              slot,
            const CroOfferEntry *entry,
            double               cost)
{
  g_autofree char *until = entry->offer.has_until ? cro_date_to_text (entry->offer.until) : NULL;

  if (entry->offer.has_until && entry->offer.until < figures->date)
    /* Translators: of a pack that a supplier had until a day, which is over. */
    return g_strdup_printf (_("until %s"), until);
  if (figures->offer_in_use[entry->item] == slot)
    /* Translators: of a pack: costs are taken from its price. */
    return g_strdup (_("in use"));
  if (!entry->offer.has_price)
    return g_strdup (_("no price"));
  if (entry->offer.is_preferred)
    return g_strdup (_("preferred"));
  return dup_beside_the_one_in_use (figures, entry, cost);
}

static gboolean
is_answered (CroReading     *self,
             guint32         slot,
             const CroOffer *then)
{
  gint64 id = cro_model_offer (self->model, slot)->id;

  return cro_price_answer_holds (cro_price_answers_find (self->answers, id, then->from), self->model, slot, then);
}

/* What is asked of the price in force, or of the one before, which it has set right; NULL: nothing. */
static char *
dup_question (CroReading   *self,
              guint32       slot,
              gint64        price,
              double        cost,
              const Before *before)
{
  const CroOfferEntry *entry = cro_model_offer (self->model, slot);
  const double costs[CRO_DOUBT_PRICES] = { cost, before->cost[0], before->cost[1] };
  const gboolean answered[CRO_DOUBT_PRICES] = {
    is_answered (self, slot, &entry->offer), is_answered (self, slot, &before->then[0]),
  };
  double slip;
  int at = cro_doubt_of_jump (costs, answered, &slip);
  g_autofree char *question = NULL;
  CroDoubt doubt = { .kind = CRO_DOUBT_PRICE, .ref = CRO_REF (CRO_REF_OFFER, slot), .other = CRO_NO_SLOT,
                     .is_past = TRUE };

  if (at == 0)
    question = cro_words_price_question (cro_model_currency_of (self->model, slot), price, cost / before->cost[0]);
  if (at <= 0)
    return cro_sentence_alone (question);
  doubt.date = before->then[at - 1].from;
  doubt.is = cro_decimal_to_double (before->then[at - 1].price);
  doubt.meant = slip != 0 ? doubt.is / slip : NAN;
  return cro_words_doubt (self->model, &doubt);
}

static void
fill_offer (CroReading          *self,
            guint32              slot,
            const CroOfferEntry *entry,
            const Before        *before)
{
  CroFigures *figures = cro_book_get_figures (self->book);
  const CroItem *item = cro_model_item (self->model, entry->item);
  const CroMeasure *measure = &self->model->measures[entry->item];
  gboolean is_priced = entry->offer.has_price && entry->offer.rate > 0
                       && cro_offer_pack (&entry->offer, measure) > 0;
  double cost = is_priced ? cro_offer_unit_cost (&entry->offer, measure) : NAN;
  const CroOffer own = cro_own_pack_in_force (self->model, slot);
  g_autofree char *question = dup_question (self, slot, own.price, cost, before);
  CroValue *values = self->row.values;

  self->row.ref = CRO_REF (CRO_REF_OFFER, slot);
  values[0] = cro_reading_text (self, item->name);
  values[1] = cro_reading_text (self, g_array_index (self->model->suppliers, CroSupplier,
                                                     entry->supplier).name);
  values[2] = cro_reading_text (self, entry->code);
  values[3] = pack_value (self, &own);
  if (entry->offer.has_price)
    {
      values[4] = cro_reading_number (cro_decimal_to_double (own.price));
      values[4].text = cro_reading_text (self, entry->currency).text;
      values[6] = cro_reading_number (entry->offer.from);
    }
  values[5] = cro_reading_number (cost);
  values[5].text = cro_unit_get (cro_base_unit ((CroBase) measure->base))->code;
  values[7] = cro_reading_number (before->cost[0] > 0 ? (cost / before->cost[0] - 1) * 100 : NAN);
  if (entry->price_id != 0 && !entry->offer.has_price)
    values[8] = cro_reading_text (self, cro_words_not_to_be_had ());
  else if (question != NULL)
    values[8] = cro_reading_text (self, question);
  else
    {
      g_autofree char *status = dup_status (figures, slot, entry, cost);

      values[8] = cro_reading_text (self, status);
    }
}

/* --- Side by side ------------------------------------------------------------------------------ */

/* Whether it cannot be bought on the day of the figures. */
static gboolean
is_gone (const CroOfferEntry *entry,
         CroDate              date)
{
  return (entry->price_id != 0 && !entry->offer.has_price)
         || (entry->offer.has_until && entry->offer.until < date);
}

static gboolean
has_others (CroModel *model,
            guint32   item)
{
  return cro_model_item (model, item)->n_offers > 1;
}

typedef struct
{
  CroRecordRow row;
  char        *name;      /* folded */
  guint32      item;
  gboolean     is_gone;
  double       cost;
} Beside;

static int
compare_costs (double a,
               double b)
{
  if (isnan (a) || isnan (b))
    return isnan (a) - isnan (b);
  return a < b ? -1 : a > b;
}

/* Packs of an ingredient stand together: those that are to be had first, the cheapest per base unit
 * before the others. */
static int
compare_beside (gconstpointer a,
                gconstpointer b)
{
  const Beside *x = a, *y = b;
  int order = strcmp (x->name, y->name);

  if (order == 0 && x->item != y->item)
    return x->item < y->item ? -1 : 1;
  if (order == 0)
    order = x->is_gone - y->is_gone;
  if (order == 0)
    order = compare_costs (x->cost, y->cost);
  return order != 0 ? order : x->row.id < y->row.id ? -1 : x->row.id > y->row.id;
}

static void
sort_beside (CroReading *self)
{
  CroDate date = cro_book_get_figures (self->book)->date;
  guint n = self->rows->len;
  g_autofree Beside *all = g_new (Beside, n + 1);

  for (guint i = 0; i < n; i++)
    {
      const CroRecordRow *row = &g_array_index (self->rows, CroRecordRow, i);
      const CroOfferEntry *entry = cro_model_offer (self->model, row->ref.slot);

      all[i] = (Beside){ *row, cro_fold (row->values[0].text), entry->item, is_gone (entry, date),
                         row->values[5].number };
    }
  qsort (all, n, sizeof *all, compare_beside);
  for (guint i = 0; i < n; i++)
    {
      g_array_index (self->rows, CroRecordRow, i) = all[i].row;
      g_free (all[i].name);
    }
}

gboolean
cro_reading_offers (CroReading *self,
                    GError     **error)
{
  g_autofree Before *before = read_before (self, error);

  if (before == NULL)
    return FALSE;
  for (guint32 slot = 0; slot < self->model->offers->len; slot++)
    {
      const CroOfferEntry *entry = cro_model_offer (self->model, slot);

      if (entry->is_dead)
        continue;
      cro_reading_begin (self, entry->id);
      fill_offer (self, slot, entry, &before[slot]);
      if (has_others (self->model, entry->item))
        self->row.marks |= CRO_RECORD_BESIDE;
      g_array_append_val (self->rows, self->row);
    }
  sort_beside (self);
  return TRUE;
}
