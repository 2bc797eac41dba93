#include "cro-second-look.h"

#include "cro-decimal.h"
#include "cro-doubt.h"
#include "cro-money.h"
#include "cro-own-pack.h"
#include "cro-price-rows.h"

#include <math.h>
#include <stdlib.h>

#define NEAR_PACK 0.05
#define DEVIATIONS 4

/* The heaviest sack, in kilograms or litres: our own measure, no source. */
#define MOST_IN_ONE 50

static gboolean
is_beyond (double ratio)
{
  return fabs (ratio - 1) > CRO_LOOK_BEYOND;
}

/* --- Far -------------------------------------------------------------------------------------------------- */

static int
compare (gconstpointer a,
         gconstpointer b)
{
  double one = *(const double *) a, other = *(const double *) b;

  return (one > other) - (one < other);
}

static double
median (double *values,
        gsize   n)
{
  qsort (values, n, sizeof *values, compare);
  return n % 2 == 1 ? values[n / 2] : (values[n / 2 - 1] + values[n / 2]) / 2;
}

/* Where the past says nothing of how a price moves, 25 % alone counts. */
static gboolean
is_far (double        unit_cost,
        const double *past,
        gsize         n)
{
  double logs[CRO_LOOK_PRICES], middle, deviation;

  if (n < CRO_LOOK_PRICES)
    return TRUE;
  for (gsize i = 0; i < CRO_LOOK_PRICES; i++)
    if (!(past[n - 1 - i] > 0))
      return TRUE;
    else
      logs[i] = log (past[n - 1 - i]);
  middle = median (logs, CRO_LOOK_PRICES);
  for (gsize i = 0; i < CRO_LOOK_PRICES; i++)
    logs[i] = fabs (logs[i] - middle);
  deviation = median (logs, CRO_LOOK_PRICES);
  return !(deviation > 0) || fabs (log (unit_cost) - middle) > DEVIATIONS * deviation;
}

/* --- Packs ------------------------------------------------------------------------------------------------- */

static gboolean
is_near (double ratio,
         double factor,
         double within)
{
  return is_beyond (factor) && fabs (ratio / factor - 1) <= within;
}

/* One of as many times as much. Only what is sold so is named: whole kilograms or litres, as many as one carries. */
static gboolean
is_sold (const CroPack *pack)
{
  return pack->count == CRO_MICRO && (pack->unit == CRO_UNIT_KG || pack->unit == CRO_UNIT_L)
         && pack->size % CRO_MICRO == 0 && pack->size <= MOST_IN_ONE * CRO_MICRO;
}

/* A price of one out of a pack makes it look cheap by that many; one of as many packs, dear. pack is of no size where
 * nobody knows which one it is. */
static gboolean
is_of_other_pack (double          ratio,
                  const CroOffer *last,
                  const CroOffer *then,
                  double          last_over_this,
                  double          within,
                  CroPack        *pack)
{
  double count = cro_decimal_to_double (then->pack_count), size = cro_decimal_to_double (then->pack_size);

  *pack = cro_pack_of (then);
  if (is_near (ratio, last_over_this, within))
    *pack = cro_pack_of (last);
  else if (is_near (ratio, 1 / count, within))
    pack->count = CRO_MICRO;
  else if (is_near (ratio, 1 / size, within))
    pack->size = CRO_MICRO;
  else if (is_near (ratio, 1 / (count * size), within))
    pack->count = pack->size = CRO_MICRO;
  else if (is_near (ratio, count, within))
    return cro_decimal_multiply (pack->count, pack->count, &pack->count);
  else if (is_near (ratio, size, within) || is_near (ratio, count * size, within))
    {
      if (!cro_decimal_multiply (pack->size, pack->size, &pack->size) || !is_sold (pack))
        *pack = (CroPack){ 0 };
    }
  else
    return FALSE;
  return TRUE;
}

/* Whether a price is nearer to the last one as that of one out of a pack than without the slip of its sign: 0.90 of 12
 * for 10.20 is one of them rather than 9.00. */
static gboolean
is_nearer (const CroPack    *pack,
           const CroOffer   *then,
           const CroMeasure *measure,
           double            ratio,
           double            slip)
{
  CroOffer of_pack = *then;

  if (pack->size == 0 || ratio > 1)
    return FALSE;
  of_pack.pack_count = pack->count;
  of_pack.pack_size = pack->size;
  of_pack.pack_unit = pack->unit;
  return fabs (log (ratio * cro_offer_pack (then, measure) / cro_offer_pack (&of_pack, measure)))
         < fabs (log (ratio / slip));
}

/* --- All ---------------------------------------------------------------------------------------------------- */

static void
look_at_pack (const CroOffer *last,
              double          last_over_this,
              gboolean        is_pack_said,
              CroLook        *look)
{
  /* Nobody pays that price for another pack: it is another question. */
  if (is_beyond (look->ratio / last_over_this))
    return;
  if (last_over_this > 1 + CRO_ALLOWED && look->ratio > sqrt (last_over_this))
    look->kind = CRO_LOOK_SHRANK;
  else if (!is_pack_said && last_over_this < 1 - CRO_ALLOWED && look->ratio < sqrt (last_over_this))
    look->kind = CRO_LOOK_PACK;
  if (look->kind != CRO_LOOK_NOTHING)
    look->pack = cro_pack_of (last);
}

CroLook
cro_second_look_at (const CroOffer   *last,
                    const CroOffer   *then,
                    const CroMeasure *measure,
                    gboolean          is_pack_said,
                    const double     *past,
                    gsize             n)
{
  CroLook look = { .ratio = NAN, .meant = CRO_NOT_SET };
  double unit_cost = cro_offer_unit_cost (then, measure), before = cro_offer_unit_cost (last, measure);
  double last_over_this = cro_offer_pack (last, measure) / cro_offer_pack (then, measure), slip;
  CroPack pack;
  gboolean is_of_pack;

  if (!(before > 0) || !isfinite (unit_cost))
    return look;
  look.ratio = unit_cost / before;
  look_at_pack (last, last_over_this, is_pack_said, &look);
  if (look.kind != CRO_LOOK_NOTHING || !is_beyond (look.ratio))
    return look;
  slip = cro_doubt_slip (look.ratio);
  is_of_pack = !is_pack_said && is_of_other_pack (look.ratio, last, then, last_over_this,
                                                  slip != 0 ? CRO_LOOK_BEYOND : NEAR_PACK, &pack);
  if (slip != 0 && !(is_of_pack && is_nearer (&pack, then, measure, look.ratio, slip))
      && cro_decimal_from_double (cro_decimal_to_double (then->price) / slip, &look.meant))
    look.kind = slip == 1000 || slip == 0.001 ? CRO_LOOK_THOUSANDS : CRO_LOOK_SLIP;
  else if (is_of_pack)
    {
      look.pack = pack;
      look.kind = pack.size > 0 ? CRO_LOOK_PACK : CRO_LOOK_FAR;
    }
  else if (is_far (unit_cost, past, n))
    look.kind = CRO_LOOK_FAR;
  return look;
}

CroLook
cro_second_look_beside (const CroOffer   *other,
                        const CroOffer   *then,
                        const CroMeasure *measure)
{
  CroLook look = cro_second_look_at (other, then, measure, FALSE, NULL, 0);

  if (look.kind != CRO_LOOK_NOTHING && !is_beyond (look.ratio))
    look.kind = CRO_LOOK_NOTHING;
  else if (look.kind == CRO_LOOK_SHRANK)
    look.kind = CRO_LOOK_FAR;
  return look;
}

/* What the prices before the book's date were, per base unit. */
static GArray *
past_new (CroBook          *book,
          guint32           offer,
          const CroOffer   *then,
          GError          **error)
{
  CroModel *model = cro_book_get_model (book);
  const CroOfferEntry *entry = cro_model_offer (model, offer);
  CroDate date = cro_book_get_figures (book)->date;
  g_autoptr (GArray) rows = cro_price_rows_new (model, cro_book_get_store (book), offer, error);
  GArray *past;

  if (rows == NULL)
    return NULL;
  past = g_array_new (FALSE, FALSE, sizeof (double));
  for (guint i = 0; i < rows->len; i++)
    {
      const CroPriceRow *row = &g_array_index (rows, CroPriceRow, i);
      CroOffer of = *then;
      double unit_cost;

      if (row->price == CRO_NOT_SET || row->from > date)
        continue;
      of.price = row->price;
      of.tax_included = row->tax;
      of.pack_count = row->own.count != 0 ? row->own.count : entry->pack_count;
      of.pack_size = row->own.size != 0 ? row->own.size : entry->pack_size;
      of.pack_unit = row->own.unit >= 0 ? (CroUnit) row->own.unit : (CroUnit) entry->pack_unit;
      unit_cost = cro_offer_unit_cost (&of, &model->measures[entry->item]);
      g_array_append_val (past, unit_cost);
    }
  return past;
}

gboolean
cro_second_look (CroBook         *book,
                 guint32          offer,
                 const CroOffer  *then,
                 gboolean         is_pack_said,
                 CroLook         *look,
                 GError         **error)
{
  CroModel *model = cro_book_get_model (book);
  const CroOfferEntry *entry = cro_model_offer (model, offer);
  const CroMeasure *measure = &model->measures[entry->item];
  CroOffer last = cro_own_pack_in_force (model, offer), of = *then;
  g_autoptr (GArray) past = NULL;

  *look = (CroLook){ .ratio = NAN, .meant = CRO_NOT_SET };
  if (!(last.has_price || last.had_price))
    return TRUE;
  /* Both are in the offer's currency, whatever that is worth. */
  last.rate = of.rate = 1;
  *look = cro_second_look_at (&last, &of, measure, is_pack_said, NULL, 0);
  if (look->kind != CRO_LOOK_FAR)
    return TRUE;
  past = past_new (book, offer, &of, error);
  if (past == NULL)
    return FALSE;
  *look = cro_second_look_at (&last, &of, measure, is_pack_said, (const double *) past->data, past->len);
  return TRUE;
}
