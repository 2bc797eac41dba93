#include "cro-record-keys.h"

#include <math.h>
#include <string.h>

#include "cro-fold.h"

/* Fewer are done before a thread has begun. */
#define MANY_ROWS 2000

#define NOT_SET G_MAXUINT64

struct _CroRecordKeys
{
  GArray         *rows;                       /* CroRecordRow */
  CroRecordsKind  kind;
  GThread        *ranking;                    /* NULL: there is none, or it was waited for */
  GThread        *folding;                    /* likewise */
  gint            is_given_up;                /* atomic */
  guint32        *ranks[CRO_RECORD_MOST];     /* of a column of texts, by row; NULL: not made yet */
  char          **folded;                     /* by row; NULL: likewise */
};

static const CroRecordRow *
row_of (CroRecordKeys *self,
        guint          index)
{
  return &g_array_index (self->rows, CroRecordRow, index);
}

static gboolean
is_text (CroRecordKeys *self,
         guint          column)
{
  return cro_records_column (self->kind, column)->kind == CRO_VALUE_TEXT;
}

/* --- Texts ------------------------------------------------------------------------------------ */

typedef struct
{
  const char *text;
  char       *key;
} Word;

static int
compare_words (gconstpointer a,
               gconstpointer b)
{
  return strcmp (((const Word *) a)->key, ((const Word *) b)->key);
}

static void
clear_word (gpointer word)
{
  g_free (((Word *) word)->key);
}

/* Each text of a column once: most stand in many rows, and a key of one takes long to make. */
static GArray *
words_of (CroRecordKeys *self,
          guint          column)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (NULL, NULL);
  GArray *words = g_array_new (FALSE, FALSE, sizeof (Word));

  g_array_set_clear_func (words, clear_word);
  for (guint i = 0; i < self->rows->len && !g_atomic_int_get (&self->is_given_up); i++)
    {
      Word word = { row_of (self, i)->values[column].text, NULL };

      if (word.text == NULL || !g_hash_table_add (seen, (gpointer) word.text))
        continue;
      word.key = g_utf8_collate_key (word.text, -1);
      g_array_append_val (words, word);
    }
  g_array_sort (words, compare_words);
  return words;
}

/* The place of each row's text among all, equals at one place. */
static void
rank (CroRecordKeys *self,
      guint          column)
{
  g_autoptr (GArray) words = words_of (self, column);
  g_autoptr (GHashTable) places = g_hash_table_new (NULL, NULL);
  guint32 *ranks = g_new (guint32, self->rows->len + 1);
  guint place = 0;

  for (guint i = 0; i < words->len; i++)
    {
      const Word *word = &g_array_index (words, Word, i);

      if (i > 0 && strcmp (word[-1].key, word->key) != 0)
        place++;
      g_hash_table_insert (places, (gpointer) word->text, GUINT_TO_POINTER (place));
    }
  for (guint i = 0; i < self->rows->len; i++)
    ranks[i] = GPOINTER_TO_UINT (g_hash_table_lookup (places,
                                                      row_of (self, i)->values[column].text));
  self->ranks[column] = ranks;
}

static char *
fold_row (CroRecordKeys *self,
          guint          index)
{
  const CroRecordRow *row = row_of (self, index);
  g_autoptr (GString) all = g_string_new (NULL);

  for (guint c = 0; c < cro_records_n_columns (self->kind); c++)
    if (is_text (self, c) && row->values[c].text != NULL)
      {
        g_string_append_c (all, ' ');
        g_string_append (all, row->values[c].text);
      }
  if (row->also != NULL)
    g_string_append_printf (all, " %s", row->also);
  return cro_fold (all->str);
}

/* --- Ahead of time ---------------------------------------------------------------------------- */

static gpointer
rank_all (gpointer data)
{
  CroRecordKeys *self = data;

  for (guint c = 0; c < cro_records_n_columns (self->kind); c++)
    if (is_text (self, c))
      rank (self, c);
  return NULL;
}

static gpointer
fold_all (gpointer data)
{
  CroRecordKeys *self = data;

  for (guint i = 0; i < self->rows->len && !g_atomic_int_get (&self->is_given_up); i++)
    self->folded[i] = fold_row (self, i);
  return NULL;
}

static void
wait (GThread **thread)
{
  if (*thread != NULL)
    g_thread_join (g_steal_pointer (thread));
}

CroRecordKeys *
cro_record_keys_new (GArray         *rows,
                     CroRecordsKind  kind)
{
  CroRecordKeys *self = g_new0 (CroRecordKeys, 1);

  self->rows = g_array_ref (rows);
  self->kind = kind;
  self->folded = g_new0 (char *, rows->len + 1);
  /* Where no thread is to be had, keys are made as they are asked for. A search does not wait for
   * the ranks, which take many times as long. */
  if (rows->len >= MANY_ROWS)
    {
      self->folding = g_thread_try_new ("record texts", fold_all, self, NULL);
      self->ranking = g_thread_try_new ("record ranks", rank_all, self, NULL);
    }
  return self;
}

void
cro_record_keys_free (CroRecordKeys *self)
{
  g_atomic_int_set (&self->is_given_up, TRUE);
  wait (&self->ranking);
  wait (&self->folding);
  for (guint c = 0; c < CRO_RECORD_MOST; c++)
    g_free (self->ranks[c]);
  for (guint i = 0; i < self->rows->len; i++)
    g_free (self->folded[i]);
  g_free (self->folded);
  g_array_unref (self->rows);
  g_free (self);
}

/* --- Order ------------------------------------------------------------------------------------ */

/* Doubles in the order of whole numbers: the sign turns the others about. */
static guint64
key_of_number (double number)
{
  const guint64 sign = G_GUINT64_CONSTANT (1) << 63;
  double value = number + 0.0;   /* no zero is below another */
  guint64 bits;

  memcpy (&bits, &value, sizeof bits);
  return bits & sign ? ~bits : bits | sign;
}

static guint64
key_of (CroRecordKeys *self,
        guint          index,
        guint          column,
        gboolean       falling)
{
  const CroValue *value = &row_of (self, index)->values[column];
  gboolean has_text = self->ranks[column] != NULL;
  guint64 key;

  if (has_text ? value->text == NULL : isnan (value->number))
    return NOT_SET;
  key = has_text ? self->ranks[column][index] : key_of_number (value->number);
  return falling ? NOT_SET - 1 - key : key;
}

/* One pass by eight bits, which keeps what is equal in its order; FALSE where all are. */
static gboolean
pass (const guint64 *keys,
      const guint32 *from,
      guint32       *to,
      guint          n,
      guint          shift)
{
  guint32 starts[256] = { 0 };
  guint32 start = 0;

  for (guint i = 0; i < n; i++)
    starts[keys[i] >> shift & 0xff]++;
  if (n == 0 || starts[keys[0] >> shift & 0xff] == n)
    return FALSE;
  for (guint k = 0; k < 256; k++)
    {
      guint32 count = starts[k];

      starts[k] = start;
      start += count;
    }
  for (guint i = 0; i < n; i++)
    to[starts[keys[from[i]] >> shift & 0xff]++] = from[i];
  return TRUE;
}

GArray *
cro_record_keys_sort (CroRecordKeys *self,
                      guint          column,
                      gboolean       falling)
{
  guint n = self->rows->len;
  GArray *order = g_array_sized_new (FALSE, FALSE, sizeof (guint32), n + 1);
  GArray *other = g_array_sized_new (FALSE, FALSE, sizeof (guint32), n + 1);
  g_autofree guint64 *keys = g_new (guint64, n + 1);

  g_array_set_size (order, n);
  g_array_set_size (other, n);
  for (guint32 i = 0; i < n; i++)
    g_array_index (order, guint32, i) = i;
  if (column != G_MAXUINT)
    {
      if (is_text (self, column))
        wait (&self->ranking);
      if (is_text (self, column) && self->ranks[column] == NULL)
        rank (self, column);
      for (guint i = 0; i < n; i++)
        keys[i] = key_of (self, i, column, falling);
      for (guint shift = 0; shift < 64; shift += 8)
        if (pass (keys, (const guint32 *) order->data, (guint32 *) other->data, n, shift))
          {
            GArray *swapped = order;

            order = other;
            other = swapped;
          }
    }
  g_array_unref (other);
  return order;
}

const char *
cro_record_keys_folded (CroRecordKeys *self,
                        guint32        index)
{
  wait (&self->folding);
  if (self->folded[index] == NULL)
    self->folded[index] = fold_row (self, index);
  return self->folded[index];
}
