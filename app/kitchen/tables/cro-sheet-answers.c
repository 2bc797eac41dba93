/* What an answer about a price leaves out is what its price is for now: whatever becomes of the offer later, it was
 * not said of that. */
#include "cro-sheets-private.h"

/* In turn: of an answer, of its price and of its offer. */
static const guint packs[][3] = {
  { CRO_PRICE_ANSWERS_PACK_COUNT, CRO_PRICES_PACK_COUNT, CRO_OFFERS_PACK_COUNT },
  { CRO_PRICE_ANSWERS_PACK_SIZE, CRO_PRICES_PACK_SIZE, CRO_OFFERS_PACK_SIZE },
  { CRO_PRICE_ANSWERS_PACK_UNIT, CRO_PRICES_PACK_UNIT, CRO_OFFERS_PACK_UNIT },
};

void
cro_sheet_check_answer (CroSheetReader *reader,
                        guint32         line,
                        const CroField *fields)
{
  gboolean has_size = fields[CRO_PRICE_ANSWERS_PACK_SIZE].is_set, has_unit = fields[CRO_PRICE_ANSWERS_PACK_UNIT].is_set;

  if (!has_size && (has_unit || fields[CRO_PRICE_ANSWERS_PACK_COUNT].is_set))
    cro_sheet_fault (reader, line, CRO_PRICE_ANSWERS_PACK_SIZE, CRO_FAULT_MISSING_VALUE, NULL, NULL);
  else if (has_size && !has_unit)
    cro_sheet_fault (reader, line, CRO_PRICE_ANSWERS_PACK_UNIT, CRO_FAULT_MISSING_VALUE, NULL, NULL);
}

static gint64
key_of (gint64 offer,
        gint64 from)
{
  return (offer << 32) + from;
}

/* The price of each offer and day: row + 1. */
static GHashTable *
index_prices (const CroSheet *prices)
{
  GHashTable *index = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);

  for (guint i = 0; i < prices->n; i++)
    {
      gint64 offer = cro_sheet_get (prices, i, CRO_PRICES_OFFER), from = cro_sheet_get (prices, i, CRO_PRICES_FROM);
      gint64 key;

      if (offer == CRO_SHEET_UNSET || from == CRO_SHEET_UNSET)
        continue;
      key = key_of (offer, from);
      g_hash_table_insert (index, g_memdup2 (&key, sizeof key), GUINT_TO_POINTER (i + 1));
    }
  return index;
}

static gboolean
is_whole (const CroSheet *answers,
          guint           row)
{
  for (gsize i = 0; i < G_N_ELEMENTS (packs); i++)
    if (cro_sheet_get (answers, row, packs[i][0]) == CRO_SHEET_UNSET)
      return FALSE;
  return cro_sheet_get (answers, row, CRO_PRICE_ANSWERS_CURRENCY) != CRO_SHEET_UNSET;
}

static void
fill (CroSheet *sheet,
      guint     row,
      guint     column,
      gint64    value)
{
  gint64 *cell = &sheet->cells[(gsize) row * sheet->width + column];

  if (*cell == CRO_SHEET_UNSET)
    *cell = value;
}

static void
fill_answer (CroSheets *sheets,
             guint      row,
             guint      offer,
             gpointer   price)
{
  const CroSheet *offers = &sheets->sheets[CRO_TABLE_OFFERS], *prices = &sheets->sheets[CRO_TABLE_PRICES];
  CroSheet *answers = &sheets->sheets[CRO_TABLE_PRICE_ANSWERS];

  for (gsize i = 0; i < G_N_ELEMENTS (packs); i++)
    {
      if (price != NULL)
        fill (answers, row, packs[i][0], cro_sheet_get (prices, GPOINTER_TO_UINT (price) - 1, packs[i][1]));
      fill (answers, row, packs[i][0], cro_sheet_get (offers, offer, packs[i][2]));
    }
  fill (answers, row, CRO_PRICE_ANSWERS_CURRENCY, cro_sheet_get (offers, offer, CRO_OFFERS_CURRENCY));
  fill (answers, row, CRO_PRICE_ANSWERS_CURRENCY, sheets->book[CRO_BOOK_KEY_CURRENCY]);
}

void
cro_sheet_fill_answers (CroSheetReader *reader)
{
  CroSheets *sheets = reader->sheets;
  const CroSheet *answers = &sheets->sheets[CRO_TABLE_PRICE_ANSWERS];
  g_autoptr (GHashTable) prices = NULL;

  for (guint i = 0; i < answers->n; i++)
    {
      gint64 offer = cro_sheet_get (answers, i, CRO_PRICE_ANSWERS_OFFER);
      gint64 from = cro_sheet_get (answers, i, CRO_PRICE_ANSWERS_FROM), key;

      if (offer == CRO_SHEET_UNSET || from == CRO_SHEET_UNSET || is_whole (answers, i))
        continue;
      key = key_of (offer, from);
      if (prices == NULL)
        prices = index_prices (&sheets->sheets[CRO_TABLE_PRICES]);
      fill_answer (sheets, i, (guint) offer, g_hash_table_lookup (prices, &key));
    }
}
