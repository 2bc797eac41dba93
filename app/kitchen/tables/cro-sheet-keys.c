#include "cro-sheets-private.h"

/* --- Keys ------------------------------------------------------------------------------------- */

typedef struct
{
  const CroSheet *sheet;
  guint           keys[CRO_MAX_COLUMNS];
  guint           n_keys;
} Key;

static int
compare_keys (const Key *key,
              guint      a,
              guint      b)
{
  for (guint k = 0; k < key->n_keys; k++)
    {
      gint64 x = cro_sheet_get (key->sheet, a, key->keys[k]);
      gint64 y = cro_sheet_get (key->sheet, b, key->keys[k]);

      if (x != y)
        return x < y ? -1 : 1;
    }
  return 0;
}

static int
compare_rows (gconstpointer a,
              gconstpointer b,
              gpointer      user_data)
{
  guint x = *(const guint *) a, y = *(const guint *) b;
  int order = compare_keys (user_data, x, y);

  return order != 0 ? order : x < y ? -1 : x > y;
}

static void
key_of (CroSheetReader *reader,
        Key            *key)
{
  const CroTable *table = cro_table_get (reader->id);

  key->sheet = &reader->sheets->sheets[reader->id];
  key->n_keys = 0;
  if (cro_table_is_of_offers (reader->id))
    key->keys[key->n_keys++] = table->n_columns;
  for (guint i = 0; i < table->n_columns; i++)
    if (table->columns[i].key && (!cro_table_is_of_offers (reader->id) || i == CRO_PRICES_FROM))
      key->keys[key->n_keys++] = i;
}

/* Whether a key is whole: one that names what does not exist has had its fault. */
static gboolean
has_key (const Key *key,
         guint      row)
{
  const CroTable *table = key->sheet->table;

  for (guint k = 0; k < key->n_keys; k++)
    if ((key->keys[k] >= table->n_columns || table->columns[key->keys[k]].required)
        && cro_sheet_get (key->sheet, row, key->keys[k]) == CRO_SHEET_UNSET)
      return FALSE;
  return TRUE;
}

void
cro_sheet_find_double_keys (CroSheetReader *reader)
{
  Key key;
  g_autofree guint *order = NULL;
  guint n = cro_sheet_n_of (reader, reader->id), rising = 1;

  key_of (reader, &key);
  if (key.n_keys == 0)
    return;
  /* A table that was dumped stands in order, and then no two are equal. */
  while (rising < n && compare_keys (&key, rising - 1, rising) < 0)
    rising++;
  if (rising >= n)
    return;

  order = g_new (guint, n);
  for (guint i = 0; i < n; i++)
    order[i] = i;
  g_qsort_with_data (order, (int) n, sizeof *order, compare_rows, &key);
  for (guint i = 1; i < n; i++)
    if (compare_keys (&key, order[i - 1], order[i]) == 0 && has_key (&key, order[i]))
      {
        guint first = i - 1;
        g_autofree char *detail = NULL;

        while (first > 0 && compare_keys (&key, order[first - 1], order[i]) == 0)
          first--;
        detail = g_strdup_printf ("%u", key.sheet->at[order[first]]);
        cro_sheet_fault (reader, key.sheet->at[order[i]], (int) key.keys[key.n_keys - 1],
                         CRO_FAULT_DOUBLE_KEY, NULL, detail);
      }
}

/* --- Offers of prices ------------------------------------------------------------------------- */

static guint
offer_hash (gconstpointer key)
{
  const gint64 *cells = key;

  /* Without a sign, as what is not set is the least number. */
  return ((guint) cells[0] * 31 + (guint) cells[1]) * 31 + (guint) ((guint64) cells[2] >> 3);
}

static gboolean
offer_equal (gconstpointer a,
             gconstpointer b)
{
  const gint64 *x = a, *y = b;

  return x[0] == y[0] && x[1] == y[1] && x[2] == y[2];
}

void
cro_sheet_find_offer (CroSheetReader *reader,
                      guint32         line,
                      const CroField *fields,
                      gint64         *cells)
{
  gint64 *number = &cells[cro_table_get (reader->id)->n_columns];
  gpointer offer;

  *number = CRO_SHEET_UNSET;
  if (cells[CRO_PRICES_INGREDIENT] == CRO_SHEET_UNSET
      || cells[CRO_PRICES_SUPPLIER] == CRO_SHEET_UNSET)
    return;
  if (g_hash_table_lookup_extended (reader->offers, cells, NULL, &offer))
    *number = GPOINTER_TO_UINT (offer);
  else
    cro_sheet_fault (reader, line, CRO_PRICES_CODE, CRO_FAULT_UNKNOWN_NAME,
                     fields[CRO_PRICES_CODE].text, "offer");
}

void
cro_sheet_index_offers (CroSheetReader *reader)
{
  const CroSheet *sheet = &reader->sheets->sheets[CRO_TABLE_OFFERS];

  for (guint i = 0; i < sheet->n; i++)
    g_hash_table_insert (reader->offers, sheet->cells + (gsize) i * sheet->width,
                         GUINT_TO_POINTER (i));
}

GHashTable *
cro_sheet_offers_new (void)
{
  return g_hash_table_new (offer_hash, offer_equal);
}
