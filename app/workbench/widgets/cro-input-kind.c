#include "cro-input-kind.h"

#include <string.h>

#include "cro-date.h"
#include "cro-entry-time.h"
#include "cro-number.h"
#include "cro-words-price.h"
#include "cro-words.h"

static char *
text_of_date (const char *iso)
{
  CroDate date;

  return cro_date_parse (iso, strlen (iso), &date) ? cro_date_to_text (date) : g_strdup (iso);
}

char *
cro_input_type_dup_text (const CroInputType *type,
                         CroModel           *model,
                         CroRows            *rows)
{
  if (cro_rows_is_null (rows, 0))
    return g_strdup ("");
  switch (type->kind)
    {
    case CRO_INPUT_MONEY:
    case CRO_INPUT_SELLING_PRICE:
    case CRO_INPUT_WAGE:
      return cro_words_price (model, cro_rows_get_int (rows, 0));
    case CRO_INPUT_NUMBER:
    case CRO_INPUT_MINUTES:
    case CRO_INPUT_DAYS:
    case CRO_INPUT_COVERS:
    case CRO_INPUT_DENSITY:
    case CRO_INPUT_PCT:
    case CRO_INPUT_YIELD:
      return cro_words_decimal (cro_rows_get_int (rows, 0));
    case CRO_INPUT_DATE:
      return text_of_date (cro_rows_get_text (rows, 0));
    default:
      return g_strdup (cro_rows_get_text (rows, 0));
    }
}

static gboolean
is_money (const CroInputType *type)
{
  return type->kind == CRO_INPUT_MONEY || type->kind == CRO_INPUT_SELLING_PRICE || type->kind == CRO_INPUT_WAGE;
}

/* currency: the book's; NULL: it has none. */
static char *
read_text (const CroInputType *type,
           const char         *currency,
           const char         *text,
           CroCell            *cell,
           char              **owned,
           char              **understood)
{
  g_auto (CroEntry) entry = { 0 };

  *cell = CRO_CELL_NONE;
  switch (type->kind)
    {
    case CRO_INPUT_NUMBER:
      if (type->has_unit)
        cro_entry_amount (text, type->unit, type->range, cro_words_entry (), &entry);
      else
        cro_entry_number (text, type->range, &entry);
      break;
    case CRO_INPUT_MONEY:
      cro_entry_money (text, currency, CRO_TAX_WITHOUT, type->range, &entry);
      break;
    case CRO_INPUT_SELLING_PRICE:
      cro_entry_selling_price (text, currency, type->range, &entry);
      break;
    case CRO_INPUT_WAGE:
      cro_entry_wage (text, currency, type->range, &entry);
      break;
    case CRO_INPUT_MINUTES:
      cro_entry_minutes (text, &entry);
      break;
    case CRO_INPUT_DAYS:
      cro_entry_days (text, &entry);
      break;
    case CRO_INPUT_COVERS:
      cro_entry_covers (text, type->range, &entry);
      break;
    case CRO_INPUT_DENSITY:
      cro_entry_density (text, cro_words_entry (), &entry);
      break;
    case CRO_INPUT_PCT:
    case CRO_INPUT_YIELD:
      cro_entry_pct (text, type->range, cro_words_entry (), &entry);
      break;
    case CRO_INPUT_DATE:
      if (cro_entry_date (text, &entry))
        {
          *owned = g_malloc (CRO_DATE_CHARS);
          cro_date_format (entry.date, *owned);
          *cell = CRO_CELL_STR (*owned);
        }
      return cro_words_entry_reason (text, &entry);
    case CRO_INPUT_TEXT:
    case CRO_INPUT_CODE:
      *owned = g_strstrip (g_strdup (text));
      if (**owned != '\0' || type->kind == CRO_INPUT_CODE)
        *cell = CRO_CELL_STR (*owned);
      return NULL;
    }
  if (entry.status == CRO_ENTRY_OK)
    *cell = CRO_CELL_INT (entry.micro);
  *understood = g_steal_pointer (&entry.understood);
  return is_money (type) ? cro_words_price_reason (text, &entry, currency)
                         : cro_words_entry_reason (text, &entry);
}

char *
cro_input_type_read (const CroInputType *type,
                     CroModel           *model,
                     const char         *text,
                     CroCell            *cell,
                     char              **owned,
                     char              **understood)
{
  return read_text (type, model->currency, text, cell, owned, understood);
}

gint64
cro_input_type_read_pct (const char *text)
{
  g_auto (CroEntry) entry = { 0 };

  return cro_entry_pct (text, CRO_RANGE_ANY, NULL, &entry) ? entry.micro : 0;
}
