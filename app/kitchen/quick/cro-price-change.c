#include "config.h"

#include "cro-price-change.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-last-price.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-own-pack.h"
#include "cro-pack.h"
#include "cro-words-price.h"
#include "cro-words.h"

gboolean
cro_price_before (CroBook *book,
                  guint32  offer,
                  CroDate  date,
                  gint64  *price,
                  CroDate *since)
{
  CroModel *model = cro_book_get_model (book);
  const CroOfferEntry *entry = cro_model_offer (model, offer);
  CroOffer then = entry->offer;
  char text[CRO_DATE_CHARS];
  g_autoptr (CroRows) rows = NULL;
  const char *unit;

  cro_date_format (date, text);
  rows = cro_store_read_last_price (cro_book_get_store (book), text, entry->id, NULL);
  if (rows == NULL || !cro_rows_next (rows, NULL))
    return FALSE;
  then.price = cro_rows_get_int (rows, 3);
  then.tax_included = cro_rows_get_int (rows, 4);
  then.pack_count = cro_rows_is_null (rows, 5) ? entry->pack_count : cro_rows_get_int (rows, 5);
  then.pack_size = cro_rows_is_null (rows, 6) ? entry->pack_size : cro_rows_get_int (rows, 6);
  unit = cro_rows_get_text (rows, 7);
  if (unit == NULL || !cro_unit_parse (unit, strlen (unit), &then.pack_unit))
    then.pack_unit = (CroUnit) entry->pack_unit;
  *price = cro_own_pack_of (model, offer, &then).price;
  return cro_date_parse (cro_rows_get_text (rows, 2), strlen (cro_rows_get_text (rows, 2)), since);
}

/* The sign that begins a change, and what stands behind it; 0: it begins none. */
static int
sign_of (const char **text)
{
  static const struct { const char *sign; int is; } signs[] = {
    { "+", 1 }, { "-", -1 }, { "−", -1 },
  };

  while (g_ascii_isspace (**text))
    (*text)++;
  for (gsize i = 0; i < G_N_ELEMENTS (signs); i++)
    if (g_str_has_prefix (*text, signs[i].sign))
      {
        *text += strlen (signs[i].sign);
        return signs[i].is;
      }
  return 0;
}

/* Takes the per-cent sign from the end. */
static gboolean
take_pct (char *text)
{
  char *end;

  g_strchomp (text);
  end = text + strlen (text);
  if (end == text || end[-1] != '%')
    return FALSE;
  end[-1] = '\0';
  /* Some languages write a space that does not break before it. */
  while (end - 1 > text)
    {
      char *last = g_utf8_prev_char (end - 1);

      if (!g_unichar_isspace (g_utf8_get_char (last)))
        break;
      *last = '\0';
      end = last + 1;
    }
  return TRUE;
}

static gboolean
round_to_minor (const char *currency,
                gint64     *price)
{
  int digits = cro_currency_digits (currency);

  return cro_decimal_from_double (
      (double) cro_money_round (cro_decimal_to_double (*price), digits) / pow (10, digits), price);
}

/* currency: NULL: not rounded. */
static gboolean
add_change (gint64      before,
            int         sign,
            gint64      by,
            gboolean    is_pct,
            const char *currency,
            gint64     *price)
{
  gint64 step = by;

  if (is_pct && !cro_decimal_multiply (before, by, &step))
    return FALSE;
  if (is_pct)
    step /= 100;
  if (__builtin_add_overflow (before, sign * step, price) || *price < 0)
    return FALSE;
  return (currency == NULL || round_to_minor (currency, price)) && cro_decimal_may_be_entered (*price);
}

static void
read_change (const char *currency,
             gint64      before,
             int         sign,
             const char *text,
             gint64     *price,
             CroEntry   *entry)
{
  g_autofree char *number = g_strdup (text);
  gboolean is_pct = take_pct (number);

  if (cro_entry_number (number, CRO_RANGE_AT_LEAST_0, entry)
      && !add_change (before, sign, entry->micro, is_pct, currency, price))
    entry->status = CRO_ENTRY_OUT_OF_RANGE;
}

gboolean
cro_price_is_change (const char *text)
{
  return sign_of (&text) != 0;
}

gboolean
cro_price_change_by (const char *currency,
                     gint64      before,
                     const char *text,
                     gint64     *price,
                     CroEntry   *entry)
{
  const char *rest = text;
  int sign = sign_of (&rest);

  read_change (currency, before, sign, rest, price, entry);
  return entry->status == CRO_ENTRY_OK;
}

gboolean
cro_price_change_by_pct (const char *currency,
                         gint64      before,
                         gint64      pct,
                         gint64     *price)
{
  return add_change (before, pct < 0 ? -1 : 1, ABS (pct), TRUE, currency, price);
}

CroEntryStatus
cro_price_change_read (CroModel       *model,
                       guint32         offer,
                       const gint64   *before,
                       const char     *text,
                       CroPriceChange *change,
                       CroEntry       *read)
{
  const CroOfferEntry *entry = cro_model_offer (model, offer);
  const CroMeasure *measure = &model->measures[entry->item];
  gboolean is_change = cro_price_is_change (text);
  CroOffer then = cro_own_pack_in_force (model, offer);
  const CroPack pack = cro_pack_of (&then);

  *read = (CroEntry){ .status = CRO_ENTRY_NOT_A_NUMBER, .end = strlen (text) };
  if (cro_text_is_not_to_be_had (text))
    {
      *change = (CroPriceChange){ CRO_NOT_SET, NAN, NAN };
      return read->status = CRO_ENTRY_OK;
    }
  if (is_change && before == NULL)
    return read->status;
  if (is_change)
    cro_price_change_by (cro_model_currency_of (model, offer), *before, text, &change->price, read);
  else
    {
      cro_pack_read_price (model, offer, &pack, text, cro_words_entry (), read);
      change->price = read->micro;
    }
  then.price = change->price;
  then.has_price = TRUE;
  change->unit_cost = then.rate > 0 && cro_offer_pack (&then, measure) > 0
                          ? cro_offer_unit_cost (&then, measure)
                          : NAN;
  change->change_pct = before != NULL && *before > 0
                           ? ((double) change->price / (double) *before - 1) * 100
                           : NAN;
  return read->status;
}

char *
cro_price_change_reason (CroModel       *model,
                         guint32         offer,
                         const char     *text,
                         const CroEntry *entry)
{
  if (entry->status == CRO_ENTRY_NOT_A_NUMBER)
    return g_strdup (_("This is not a price. Type one, or a change: +5 %, −0.40."));
  return cro_words_price_reason (text, entry, cro_model_currency_of (model, offer));
}

char *
cro_price_change_words (CroModel             *model,
                        guint32               offer,
                        const CroPriceChange *change)
{
  CroBase base = (CroBase) model->measures[cro_model_offer (model, offer)->item].base;
  g_autofree char *cost = cro_words_unit_cost (model, base, change->unit_cost);
  g_autofree char *question = NULL, *pct = NULL, *said = NULL;

  if (change->price == CRO_NOT_SET)
    return g_strdup (cro_words_not_to_be_had ());
  if (isnan (change->change_pct))
    return g_steal_pointer (&cost);
  pct = cro_words_change (change->change_pct);
  question = cro_words_price_question (cro_model_currency_of (model, offer), change->price,
                                       1 + change->change_pct / 100);
  /* Translators: a price per kg, l or piece, and by how many per cent it changed. */
  said = g_strdup_printf (_("%s, %s"), cost, pct);
  return question != NULL ? g_strdup_printf ("%s · %s", said, question) : g_steal_pointer (&said);
}

/* Translators of all of these: prices and dates; "in force" is what figures of the day take. */
char *
cro_price_kept_words (CroFigures *figures,
                      guint32     offer,
                      CroDate     from,
                      gint64      price)
{
  const CroOffer now = cro_own_pack_in_force (figures->model, offer);
  const char *currency = cro_model_currency_of (figures->model, offer);
  g_autofree char *kept = price != CRO_NOT_SET ? cro_words_price_in (currency, price) : NULL;
  g_autofree char *day = cro_date_to_text (from);
  g_autofree char *other = cro_words_price_in (currency, now.price), *since = cro_date_to_text (now.from);

  if (kept == NULL)
    return g_strdup_printf (_("not to be had from %s on"), day);
  if (!now.has_price || now.from == from)
    return g_strdup_printf (_("%s kept from %s"), kept, day);
  if (from > figures->date)
    return g_strdup_printf (_("%s kept from %s; until then %s from %s is in force"), kept, day, other, since);
  return g_strdup_printf (_("%s kept from %s; %s from %s is in force"), kept, day, other, since);
}
