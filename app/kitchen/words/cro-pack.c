#include "cro-pack.h"

#include <string.h>

#include "cro-decimal.h"
#include "cro-money.h"
#include "cro-own-pack.h"
#include "cro-words.h"

char *
cro_pack_to_text (const CroPack *pack)
{
  g_autofree char *count = cro_words_decimal (pack->count);
  g_autofree char *size = cro_words_decimal (pack->size);

  return g_strdup_printf ("%s × %s %s", count, size, cro_words_unit (pack->unit));
}

char *
cro_pack_to_short_text (const CroPack *pack)
{
  g_autofree char *size = NULL;

  if (pack->count != CRO_MICRO)
    return cro_pack_to_text (pack);
  size = cro_words_decimal (pack->size);
  return g_strdup_printf ("%s %s", size, cro_words_unit (pack->unit));
}

/* Where the sign of multiplication stands, and how many bytes it has; NULL: nowhere. */
static const char *
find_times (const char *text,
            gsize      *bytes)
{
  static const char *const signs[] = { "×", "x", "X", "*" };
  const char *first = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (signs); i++)
    {
      const char *at = strstr (text, signs[i]);

      if (at != NULL && (first == NULL || at < first))
        {
          first = at;
          *bytes = strlen (signs[i]);
        }
    }
  return first;
}

gboolean
cro_pack_from_text (const char          *text,
                    CroUnit              fallback,
                    const CroEntryWords *words,
                    CroPack             *pack)
{
  gsize bytes = 0;
  const char *times = find_times (text, &bytes);
  g_autofree char *before = times != NULL ? g_strndup (text, (gsize) (times - text)) : NULL;
  g_auto (CroEntry) count = { 0 }, size = { 0 };

  if (before != NULL && !cro_entry_number (before, CRO_RANGE_ABOVE_0, &count))
    return FALSE;
  if (!cro_entry_measured (times != NULL ? times + bytes : text, fallback, CRO_RANGE_ABOVE_0, words,
                           &size))
    return FALSE;
  *pack = (CroPack){ before != NULL ? count.micro : CRO_MICRO, size.micro, size.unit };
  return TRUE;
}

gboolean
cro_pack_holds_same (const CroPack *a,
                     const CroPack *b)
{
  const CroUnitInfo *one = cro_unit_get (a->unit), *other = cro_unit_get (b->unit);
  double holds = (double) a->count * (double) a->size * one->per_micro;
  double limit = (double) b->count * (double) b->size * other->per_micro;

  return one->base == other->base && !cro_is_above (holds, limit) && !cro_is_above (limit, holds);
}

CroPack
cro_pack_of_offer (CroModel *model,
                   guint32   offer)
{
  const CroOffer own = cro_own_pack_in_force (model, offer);

  return cro_pack_of (&own);
}

CroPack
cro_pack_in_force (CroModel *model,
                   guint32   offer)
{
  return cro_pack_of (&cro_model_offer (model, offer)->offer);
}

char *
cro_pack_price_to_text (CroModel *model,
                        guint32   offer,
                        gint64    price)
{
  const char *currency = cro_model_currency_of (model, offer);
  g_autofree char *number = cro_words_price_in (currency, price);

  return g_strcmp0 (currency, model->currency) == 0 ? g_steal_pointer (&number)
                                                    : g_strdup_printf ("%s %s", number, currency);
}

CroPriceOf
cro_pack_price_of_offer (CroModel      *model,
                         guint32        offer,
                         const CroPack *pack)
{
  return (CroPriceOf){ cro_model_currency_of (model, offer),
                       cro_model_offer (model, offer)->offer.tax_included > 0 ? CRO_TAX_WITH : CRO_TAX_WITHOUT,
                       TRUE, *pack };
}

gboolean
cro_pack_read_price (CroModel            *model,
                     guint32              offer,
                     const CroPack       *pack,
                     const char          *text,
                     const CroEntryWords *words,
                     CroEntry            *entry)
{
  const CroPriceOf of = cro_pack_price_of_offer (model, offer, pack);

  return cro_entry_price (text, &of, words, entry);
}
