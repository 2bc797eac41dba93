/* What the book holds of each line: its ingredient, the supplier's pack, the price that it had. */
#include "cro-price-list-private.h"

#include "cro-brought-pack.h"
#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-fraction.h"
#include "cro-gtin.h"
#include "cro-pack.h"
#include "cro-price-list-purchase.h"
#include "cro-price-rows.h"
#include "cro-rate-doubt.h"
#include "cro-unit-code.h"

#include <math.h>
#include <string.h>

/* Names that are like one that was not found. */
#define MOST_LIKE 3

/* Words that say little of what is sold. */
#define LEAST_WORD 3

typedef struct
{
  CroPriceList *list;
  CroListBook  *of;
  CroModel     *model;
  GHashTable   *seen;   /* "item\ncode" → index of the row + 1; NULL: the line stands alone */
} Matching;

/* --- Whose price it is ---------------------------------------------------------------------------------- */

static guint32
look_up (GHashTable *table,
         const char *name)
{
  guint found = name != NULL ? GPOINTER_TO_UINT (g_hash_table_lookup (table, name)) : 0;

  return found > 0 ? found - 1 : CRO_NO_SLOT;
}

static void
take_offer (Matching   *self,
            CroListRow *row,
            guint32     offer)
{
  row->offer = offer;
  row->item = cro_model_offer (self->model, offer)->item;
}

static gboolean
find_by_code (Matching   *self,
              CroListRow *row)
{
  guint32 offer = look_up (self->of->codes, row->code);

  if (offer != CRO_NO_SLOT)
    take_offer (self, row, offer);
  else if (row->code != NULL && g_hash_table_contains (self->of->codes, row->code))
    cro_list_row_say (self->list, row, CRO_LIST_WHICH_CODE, NULL, NULL);
  return offer != CRO_NO_SLOT;
}

static gboolean
find_by_gtin (Matching   *self,
              CroListRow *row)
{
  char wide[CRO_GTIN_DIGITS + 1];
  guint32 offer;

  if (row->gtin == NULL)
    return FALSE;
  if (!cro_gtin_is_sound (row->gtin, strlen (row->gtin)))
    {
      cro_list_row_say (self->list, row, CRO_LIST_GTIN_WRONG, row->gtin, NULL);
      return FALSE;
    }
  cro_gtin_widen (row->gtin, strlen (row->gtin), wide);
  offer = look_up (self->of->gtins, wide);
  if (offer != CRO_NO_SLOT)
    take_offer (self, row, offer);
  else
    row->item = look_up (self->of->gtins_of_all, wide);
  return row->item != CRO_NO_SLOT;
}

static guint32
item_of_name (Matching   *self,
              const char *name)
{
  g_autofree char *folded = NULL, *one = NULL;
  guint32 item;

  if (name == NULL)
    return CRO_NO_SLOT;
  folded = cro_fold (name);
  item = look_up (self->of->names, *folded != '\0' ? folded : name);
  if (item != CRO_NO_SLOT)
    return item;
  one = cro_fold_number (folded);
  return look_up (self->of->names_in_number, one);
}

static gboolean
find_by_name (Matching   *self,
              CroListRow *row)
{
  row->item = item_of_name (self, row->name);
  return row->item != CRO_NO_SLOT;
}

/* A code that was given to something else, or mistyped: the name is another ingredient's. */
static void
check_name (Matching   *self,
            CroListRow *row)
{
  guint32 named = item_of_name (self, row->name);

  if (named != CRO_NO_SLOT && named != row->item)
    cro_list_row_say (self->list, row, CRO_LIST_OTHER_NAME, cro_model_item (self->model, named)->name,
                      cro_model_item (self->model, row->item)->name);
}

/* The pack in force. One of a unit of measure, where the supplier's own is more, is what a line of an
 * invoice left: a list does not go on with it. */
CroPack
cro_price_list_pack_of (CroModel *model,
                        guint32   offer)
{
  const CroOfferEntry *entry = cro_model_offer (model, offer);
  CroPack pack = cro_pack_of_offer (model, offer);

  if (pack.count == CRO_MICRO && pack.size == CRO_MICRO)
    return (CroPack){ entry->pack_count, entry->pack_size, (CroUnit) entry->pack_unit };
  return pack;
}

static gboolean
is_pack_of (CroModel      *model,
            guint32        offer,
            const CroPack *pack)
{
  CroPack of = cro_price_list_pack_of (model, offer);

  return of.count == pack->count && of.size == pack->size && of.unit == pack->unit;
}

/* Of several packs of an ingredient that of the line's size, else the only one that is to be had. A line
 * with a code that the supplier has not used yet is a new pack. */
static void
choose_offer (Matching   *self,
              CroListRow *row)
{
  const CroItem *item = cro_model_item (self->model, row->item);
  const CroPack said = row->counted.size > 0 ? row->counted
                       : row->has_per && row->pack.size == 0 ? (CroPack){ CRO_MICRO, CRO_MICRO, row->per }
                                                             : row->pack;
  g_autoptr (GString) packs = g_string_new (NULL);
  guint32 only = CRO_NO_SLOT;
  guint n = 0;

  for (guint32 i = 0; i < item->n_offers; i++)
    {
      guint32 slot = g_array_index (self->model->offer_order, guint32, item->first_offer + i);
      const CroOfferEntry *offer = cro_model_offer (self->model, slot);
      CroPack pack = cro_price_list_pack_of (self->model, slot);
      g_autofree char *text = cro_pack_to_text (&pack);

      if (offer->supplier != self->of->supplier || offer->is_dead
          || (offer->offer.has_until && offer->offer.until < self->list->from)
          || (row->code != NULL && *offer->code != '\0'))
        continue;
      if (said.size > 0 && is_pack_of (self->model, slot, &said))
        {
          row->offer = slot;
          return;
        }
      g_string_append_printf (packs, "%s%s %s", n > 0 ? ", " : "", offer->code, text);
      only = slot;
      n++;
    }
  if (n == 1)
    row->offer = only;
  else if (n > 1)
    cro_list_row_say (self->list, row, CRO_LIST_WHICH_PACK, packs->str, NULL);
}

/* --- What is like it -------------------------------------------------------------------------------------- */

typedef struct
{
  guint32 item;
  guint   n;
} Like;

static int
compare_likes (gconstpointer a,
               gconstpointer b,
               gpointer      user_data)
{
  const Like *one = a, *other = b;
  CroModel *model = user_data;

  if (one->n != other->n)
    return one->n < other->n ? 1 : -1;
  return strcmp (cro_model_item (model, one->item)->name, cro_model_item (model, other->item)->name);
}

static void
count_like (GHashTable *counts,
            GArray     *items)
{
  for (guint i = 0; items != NULL && i < items->len; i++)
    {
      gpointer item = GUINT_TO_POINTER (g_array_index (items, guint32, i) + 1);

      g_hash_table_insert (counts, item,
                           GUINT_TO_POINTER (GPOINTER_TO_UINT (g_hash_table_lookup (counts, item)) + 1));
    }
}

/* By how many words of theirs stand in it. */
static void
suggest (Matching   *self,
         CroListRow *row)
{
  g_autofree char *folded = cro_fold (row->name != NULL ? row->name : ""), *one = cro_fold_number (folded);
  g_auto (GStrv) words = g_strsplit (one, " ", 0);
  g_autoptr (GHashTable) counts = g_hash_table_new (NULL, NULL);
  g_autoptr (GArray) likes = g_array_new (FALSE, FALSE, sizeof (Like));
  g_autoptr (GString) names = g_string_new (NULL);
  GHashTableIter iter;
  gpointer item, n;

  for (guint i = 0; words[i] != NULL; i++)
    if (strlen (words[i]) >= LEAST_WORD)
      count_like (counts, g_hash_table_lookup (self->of->words, words[i]));
  g_hash_table_iter_init (&iter, counts);
  while (g_hash_table_iter_next (&iter, &item, &n))
    g_array_append_val (likes, ((Like){ GPOINTER_TO_UINT (item) - 1, GPOINTER_TO_UINT (n) }));
  g_array_sort_with_data (likes, compare_likes, self->model);
  for (guint i = 0; i < MIN (likes->len, MOST_LIKE); i++)
    g_string_append_printf (names, "%s%s", i > 0 ? ", " : "",
                            cro_model_item (self->model, g_array_index (likes, Like, i).item)->name);
  if (names->len > 0)
    cro_list_row_say (self->list, row, CRO_LIST_LIKE, names->str, NULL);
}

/* --- Of how much it is -------------------------------------------------------------------------------------- */

/* What a supplier who states prices per base unit means by one without a unit. */
CroUnit
cro_price_list_unit_of_quotes (CroModel *model,
                               guint32   item)
{
  switch (model->measures[item].base)
    {
    case CRO_BASE_GRAM:
      return CRO_UNIT_KG;
    case CRO_BASE_MILLILITRE:
      return CRO_UNIT_L;
    default:
      return CRO_UNIT_EACH;
    }
}

/* net / quantity × pack ÷ what the line counts, rounded once. FALSE: they are of other bases. */
static gboolean
price_of_counted (const CroListRow *row,
                  const CroPack    *pack,
                  gint64           *price)
{
  const CroUnitInfo *of = cro_unit_get (pack->unit), *one = cro_unit_get (row->counted.unit);
  CroFraction value;

  if (of->base != one->base || row->amount == 0)
    return FALSE;
  value = cro_fraction_make (row->net_value, row->amount);
  return cro_fraction_multiply (&value, cro_fraction_make (pack->count, row->counted.count))
         && cro_fraction_multiply (&value, cro_fraction_make (pack->size, row->counted.size))
         && cro_fraction_multiply (&value, cro_fraction_make (of->numerator, of->denominator))
         && cro_fraction_multiply (&value, cro_fraction_make (one->denominator, one->numerator))
         && cro_fraction_to_micro (value, price);
}

/* Of an invoice that counts a measure: one of it is the line's pack, the price of which is kept; what is
 * counted in grams or millilitres is delivered in kilograms and litres. */
static void
settle_counted (CroListRow *row)
{
  CroUnit unit = row->counted.unit == CRO_UNIT_G    ? CRO_UNIT_KG
                 : row->counted.unit == CRO_UNIT_ML ? CRO_UNIT_L
                                                    : row->counted.unit;
  CroPack pack = unit != row->counted.unit ? (CroPack){ CRO_MICRO, CRO_MICRO, unit } : row->counted;

  row->pack = price_of_counted (row, &pack, &row->price) ? pack : row->counted;
}

/* Of what is not found only what the line says is known. */
static void
settle_stranger (CroListRow *row)
{
  if (row->counted.size > 0)
    row->pack = row->counted;
  else if (row->has_per && row->pack.size == 0)
    {
      row->pack = (CroPack){ CRO_MICRO, CRO_MICRO, row->per };
      row->has_per = FALSE;
    }
  else if (row->has_per && cro_brought_price_of_pack (row->per, &row->pack, &row->price))
    row->has_per = FALSE;
}

/* A price for one unit is that of the pack where one is known, else that of a pack of one. */
static void
settle_pack (Matching   *self,
             CroListRow *row)
{
  if (row->counted.size > 0)
    {
      settle_counted (row);
      return;
    }
  if (row->pack.size == 0 && !row->has_per && self->of->quotes_base && self->list->source != CRO_LIST_INVOICE)
    {
      row->has_per = TRUE;
      row->per = cro_price_list_unit_of_quotes (self->model, row->item);
    }
  if (row->pack.size == 0 && row->offer != CRO_NO_SLOT)
    row->pack = cro_price_list_pack_of (self->model, row->offer);
  if (row->has_per
      && (row->pack.size == 0 || !cro_brought_price_of_pack (row->per, &row->pack, &row->price)))
    row->pack = (CroPack){ CRO_MICRO, CRO_MICRO, row->per };
  row->has_per = FALSE;
  if (row->pack.size > 0)
    return;
  if (row->unit != NULL)
    cro_list_row_say (self->list, row, CRO_LIST_PACKAGE, row->unit, NULL);
  else
    cro_list_row_say (self->list, row, CRO_LIST_NO_PACK, NULL, NULL);
}

/* As an offer of that day with the new price. */
static CroOffer
offer_of (Matching         *self,
          const CroListRow *row)
{
  CroOffer then = { .rate = 1 };

  if (row->offer != CRO_NO_SLOT)
    then = cro_model_offer (self->model, row->offer)->offer;
  then.has_price = true;
  then.price = row->price;
  then.tax_included = row->tax;
  then.pack_count = row->pack.count;
  then.pack_size = row->pack.size;
  then.pack_unit = row->pack.unit;
  return then;
}

/* last × this pack ÷ its pack × (1 + tax) ÷ (1 + its tax), exactly where both are of one base. */
static gboolean
convert_last (const CroOffer   *last,
              const CroOffer   *then,
              const CroMeasure *measure,
              gint64           *price)
{
  const CroUnitInfo *from = cro_unit_get (last->pack_unit), *to = cro_unit_get (then->pack_unit);
  CroFraction value = cro_fraction_from_micro (last->price);
  const gint64 whole = 100 * CRO_MICRO;
  double doubled;

  if (from->base == to->base && cro_fraction_multiply (&value, cro_fraction_make (then->pack_count, last->pack_count))
      && cro_fraction_multiply (&value, cro_fraction_make (then->pack_size, last->pack_size))
      && cro_fraction_multiply (&value, cro_fraction_make (to->numerator, to->denominator))
      && cro_fraction_multiply (&value, cro_fraction_make (from->denominator, from->numerator))
      && cro_fraction_multiply (&value, cro_fraction_make (whole + then->tax_included, whole + last->tax_included))
      && cro_fraction_to_micro (value, price))
    return TRUE;
  doubled = cro_offer_unit_cost (last, measure) / cro_offer_unit_cost (then, measure)
            * cro_decimal_to_double (then->price);
  return isfinite (doubled) && cro_decimal_from_double (doubled, price);
}

/* A price of six places is never further from another than one of these. */
static gboolean
is_same_price (gint64 a,
               gint64 b)
{
  return a - b <= 1 && b - a <= 1;
}

/* Book currency for one; NaN: there is no rate. */
static double
rate_of (Matching   *self,
         const char *currency)
{
  const double *rate = currency != NULL ? g_hash_table_lookup (self->model->rates, currency) : NULL;

  if (g_strcmp0 (currency, self->model->currency) == 0)
    return 1;
  return rate != NULL ? *rate : NAN;
}

/* A price in the line's currency as one in its pack's, at the day's rate. FALSE: there is none. */
static gboolean
convert_currency (Matching         *self,
                  const CroListRow *row,
                  gboolean          is_back,
                  gint64           *price)
{
  const char *own = cro_model_currency_of (self->model, row->offer);
  double rate;

  if (g_strcmp0 (row->currency, own) == 0)
    return TRUE;
  rate = rate_of (self, row->currency) / rate_of (self, own);
  return isfinite (rate) && rate > 0
         && cro_decimal_from_double (cro_decimal_to_double (*price) * (is_back ? 1 / rate : rate), price);
}

/* Of a day's price; the offer is then that of the book's day again. */
static gboolean
read_quoted (Matching    *self,
             CroListRow  *row,
             GError     **error)
{
  CroModel *model = self->model;
  CroOffer then = offer_of (self, row), last;
  g_autoptr (GArray) rows = cro_price_rows_new (model, cro_book_get_store (self->of->book), row->offer, error);

  if (rows == NULL)
    return FALSE;
  if (row->counted.size > 0)
    {
      then.pack_count = row->counted.count;
      then.pack_size = row->counted.size;
      then.pack_unit = row->counted.unit;
    }
  cro_price_rows_serve (rows, NULL, model, row->offer, self->list->delivered);
  last = cro_model_offer (model, row->offer)->offer;
  cro_price_rows_serve (rows, NULL, model, row->offer, cro_book_get_figures (self->of->book)->date);
  last.rate = then.rate = 1;
  if ((last.has_price || last.had_price)
      && !convert_last (&last, &then, &model->measures[row->item], &row->quoted))
    row->quoted = CRO_NOT_SET;
  return TRUE;
}

static void
look_back (Matching   *self,
           CroListRow *row)
{
  const CroOfferEntry *entry;
  CroOffer then = offer_of (self, row), last;
  CroPack own;

  row->last = CRO_NOT_SET;
  if (row->offer == CRO_NO_SLOT)
    return;
  entry = cro_model_offer (self->model, row->offer);
  own = (CroPack){ entry->pack_count, entry->pack_size, (CroUnit) entry->pack_unit };
  row->is_other_pack = own.count != row->pack.count || own.size != row->pack.size || own.unit != row->pack.unit;
  last = entry->offer;
  last.rate = then.rate = 1;
  if ((last.has_price || last.had_price) && !convert_last (&last, &then, &self->model->measures[row->item], &row->last))
    row->last = CRO_NOT_SET;
  if (row->last != CRO_NOT_SET && !convert_currency (self, row, TRUE, &row->last))
    row->last = CRO_NOT_SET;
}

static gboolean
look_twice (Matching    *self,
            CroListRow  *row,
            GError     **error)
{
  CroOffer then = offer_of (self, row);

  if (row->offer == CRO_NO_SLOT || !convert_currency (self, row, FALSE, &then.price))
    return TRUE;
  if (!cro_second_look (self->of->book, row->offer, &then, &row->look, error))
    return FALSE;
  if (row->look.kind != CRO_LOOK_NOTHING)
    cro_list_row_say (self->list, row, CRO_LIST_LOOK, NULL, NULL);
  return TRUE;
}

static void
check_currency (Matching   *self,
                CroListRow *row)
{
  const char *own = row->offer != CRO_NO_SLOT ? cro_model_currency_of (self->model, row->offer) : self->of->currency;
  const char *said = row->currency != NULL ? row->currency : own;

  row->currency = said;
  if (said != NULL && own != NULL && strcmp (said, own) != 0)
    cro_list_row_say (self->list, row, CRO_LIST_CURRENCY, said, own);
  else if (said != NULL && g_strcmp0 (said, self->model->currency) != 0
           && !g_hash_table_contains (self->model->rates, said))
    cro_list_row_say (self->list, row, CRO_LIST_NO_RATE, said, NULL);
}

gboolean
cro_price_list_convert (CroListBook      *of,
                        const CroListRow *row,
                        gint64           *price)
{
  Matching matching = { .of = of, .model = of->model };

  *price = row->price;
  return row->offer != CRO_NO_SLOT && convert_currency (&matching, row, FALSE, price);
}

/* --- One line ------------------------------------------------------------------------------------------------- */

static gboolean
asks (const CroListRow *row)
{
  for (guint i = 0; row->reasons != NULL && i < row->reasons->len; i++)
    {
      CroListWhy why = g_array_index (row->reasons, CroListReason, i).why;

      if (cro_list_why_asks (why) && !(row->is_right && cro_list_why_can_be_right (why)))
        return TRUE;
    }
  return FALSE;
}

/* The same price twice is posted once, another one asks. */
static void
check_twice (Matching   *self,
             CroListRow *row)
{
  const char *code = row->offer != CRO_NO_SLOT ? cro_model_offer (self->model, row->offer)->code
                     : row->code != NULL       ? row->code
                                               : "";
  char *key = g_strdup_printf ("%u\n%s", row->item, code);
  guint before = GPOINTER_TO_UINT (g_hash_table_lookup (self->seen, key));
  const CroListRow *other;
  g_autofree char *number = NULL;

  row->is_posted = before == 0;
  if (before == 0)
    {
      g_hash_table_insert (self->seen, key, GUINT_TO_POINTER (self->list->rows->len + 1));
      return;
    }
  g_free (key);
  other = &g_array_index (self->list->rows, CroListRow, before - 1);
  if (other->is_none == row->is_none && other->price == row->price && other->pack.count == row->pack.count
      && other->pack.size == row->pack.size && other->pack.unit == row->pack.unit)
    return;
  number = g_strdup_printf ("%u", other->number);
  cro_list_row_say (self->list, row, CRO_LIST_TWICE, number, NULL);
}

static gboolean
find (Matching   *self,
      CroListRow *row)
{
  if (find_by_code (self, row))
    {
      check_name (self, row);
      return TRUE;
    }
  if (find_by_gtin (self, row))
    check_name (self, row);
  else if (!find_by_name (self, row))
    return FALSE;
  if (row->offer == CRO_NO_SLOT)
    choose_offer (self, row);
  return TRUE;
}

/* A list obeys what it says of tax; at what rate only the last price tells. */
static void
settle_tax (Matching   *self,
            CroListRow *row)
{
  const CroOfferEntry *offer = row->offer != CRO_NO_SLOT ? cro_model_offer (self->model, row->offer) : NULL;

  if (self->list->source == CRO_LIST_INVOICE || row->says_tax == CRO_PRICE_WITHOUT_TAX)
    return;
  if (offer != NULL)
    row->tax = offer->offer.tax_included;
  if (row->says_tax == CRO_PRICE_WITH_TAX && row->has_price && row->tax == 0)
    cro_list_row_say (self->list, row, CRO_LIST_WHICH_TAX, NULL, NULL);
}

static gboolean
look_at_price (Matching    *self,
               CroListRow  *row,
               GError     **error)
{
  const CroOfferEntry *offer = row->offer != CRO_NO_SLOT ? cro_model_offer (self->model, row->offer) : NULL;
  CroOffer then;

  /* What the supplier has no pack of need not be told to be off. */
  if (offer == NULL && row->is_none)
    return TRUE;
  settle_tax (self, row);
  settle_pack (self, row);
  if (row->pack.size == 0)
    return TRUE;
  then = offer_of (self, row);
  if (!(cro_offer_pack (&then, &self->model->measures[row->item]) > 0))
    {
      cro_list_row_say (self->list, row, CRO_LIST_NOT_CONVERTED, NULL, NULL);
      return TRUE;
    }
  check_currency (self, row);
  if (!row->has_price)
    return TRUE;
  look_back (self, row);
  if (self->list->source == CRO_LIST_INVOICE && row->offer != CRO_NO_SLOT && !read_quoted (self, row, error))
    return FALSE;
  return look_twice (self, row, error);
}

static CroListState
state_of (const CroListRow *row)
{
  if (row->is_return)
    return CRO_LIST_RETURN;
  if (row->is_no_ingredient)
    return CRO_LIST_NO_INGREDIENT;
  if (row->item == CRO_NO_SLOT)
    return asks (row) && row->offer != CRO_NO_SLOT ? CRO_LIST_DOUBTFUL : CRO_LIST_UNMATCHED;
  if (asks (row))
    return CRO_LIST_DOUBTFUL;
  if (row->is_none)
    return CRO_LIST_NOT_TO_BE_HAD;
  if (row->last == CRO_NOT_SET)
    return CRO_LIST_NEW;
  return is_same_price (row->last, row->price) ? CRO_LIST_UNCHANGED : CRO_LIST_CHANGED;
}

/* What has no value in the book's currency, or too large a one, is not dropped unseen. */
static void
check_purchase (Matching   *self,
                CroListRow *row)
{
  CroListPurchase purchase;

  if (!row->is_booked || cro_list_purchase_of (self->list, self->model, row, &purchase))
    return;
  row->is_booked = row->is_posted = FALSE;
  if (!row->is_no_ingredient && !row->is_return)
    row->state = CRO_LIST_DOUBTFUL;
  if (cro_list_is_foreign (self->list, self->model) && isnan (self->list->rate))
    cro_list_row_say (self->list, row, CRO_LIST_NO_RATE, self->list->currency, NULL);
  else
    cro_list_row_say (self->list, row, CRO_LIST_TOO_LARGE, NULL, NULL);
}

/* What follows from all that is known and asked. */
static void
conclude (Matching   *self,
          CroListRow *row)
{
  row->state = state_of (row);
  if (row->state == CRO_LIST_DOUBTFUL || row->state == CRO_LIST_UNMATCHED || row->is_return || row->is_no_ingredient
      || (row->is_none && row->offer == CRO_NO_SLOT))
    row->is_posted = FALSE;
  row->is_booked = self->list->source == CRO_LIST_INVOICE && (row->is_no_ingredient || row->item != CRO_NO_SLOT)
                   && !asks (row);
  check_purchase (self, row);
  if (row->is_return && !row->is_booked)
    cro_list_row_say (self->list, row, CRO_LIST_NO_PURCHASE, NULL, NULL);
}

static gboolean
match_row (Matching    *self,
           CroListRow  *row,
           GError     **error)
{
  if (!row->is_known)
    row->item = row->offer = CRO_NO_SLOT;
  row->last = row->quoted = row->reclaim = CRO_NOT_SET;
  row->look = (CroLook){ .ratio = NAN, .meant = CRO_NOT_SET };
  if (!row->is_known && !row->is_no_ingredient && !find (self, row))
    suggest (self, row);
  if (row->item == CRO_NO_SLOT)
    settle_stranger (row);
  if (row->item != CRO_NO_SLOT && !look_at_price (self, row, error))
    return FALSE;
  row->is_posted = self->seen == NULL && !row->is_return;
  if (row->item != CRO_NO_SLOT && !row->is_return && self->seen != NULL)
    check_twice (self, row);
  conclude (self, row);
  return TRUE;
}

gboolean
cro_list_row_can_accept (const CroListRow *row)
{
  if (row->item == CRO_NO_SLOT || !row->has_price || row->is_return || row->is_in_book || !asks (row))
    return FALSE;
  for (guint i = 0; i < row->reasons->len; i++)
    {
      CroListWhy why = g_array_index (row->reasons, CroListReason, i).why;

      if (cro_list_why_asks (why) && !cro_list_why_can_be_right (why))
        return FALSE;
    }
  return TRUE;
}

/* Of two prices of one pack the one that is said to be right is posted. */
void
cro_price_list_accept (CroPriceList *self,
                       CroModel     *model,
                       guint         index)
{
  Matching matching = { .list = self, .model = model };
  CroListRow *row = &g_array_index (self->rows, CroListRow, index);

  for (guint i = 0; i < self->rows->len; i++)
    {
      CroListRow *other = &g_array_index (self->rows, CroListRow, i);

      if (i != index && other->item == row->item && other->offer == row->offer)
        other->is_posted = FALSE;
    }
  row->is_right = TRUE;
  row->is_posted = TRUE;
  conclude (&matching, row);
  self->n_waiting = 0;
  for (guint i = 0; i < self->rows->len; i++)
    self->n_waiting += cro_list_row_waits (&g_array_index (self->rows, CroListRow, i));
}

gboolean
cro_price_list_match_row (CroPriceList  *self,
                          CroListBook   *of,
                          CroListRow    *row,
                          GError       **error)
{
  Matching matching = { self, of, of->model, NULL };

  return match_row (&matching, row, error);
}

gboolean
cro_price_list_match (CroPriceList  *self,
                      CroListBook   *of,
                      GError       **error)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  Matching matching = { self, of, of->model, seen };
  g_autoptr (GArray) written = g_steal_pointer (&self->rows);
  gboolean is_sound = TRUE;

  self->rate = cro_list_is_foreign (self, of->model) ? cro_rate_on (of->book, self->currency, self->delivered)
                                                     : NAN;
  self->rows = g_array_sized_new (FALSE, FALSE, sizeof (CroListRow), written->len);
  for (guint i = 0; i < written->len; i++)
    {
      CroListRow row = g_array_index (written, CroListRow, i);

      is_sound = is_sound && match_row (&matching, &row, error);
      self->n_waiting += cro_list_row_waits (&row);
      g_array_append_val (self->rows, row);
    }
  return is_sound;
}
