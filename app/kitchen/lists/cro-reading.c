#include "config.h"

#include "cro-records-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-fold.h"
#include "cro-words.h"

/* What readings of computed rows share. */

CroValue
cro_reading_shown (CroReading *self,
                   double      number,
                   char       *text)
{
  CroValue value = cro_reading_text (self, text);

  g_free (text);
  value.number = number;
  return value;
}

CroValue
cro_reading_causes (CroReading *self,
                    GArray     *causes)
{
  g_autoptr (GArray) taken = causes;
  g_autofree char *text = NULL;

  if (taken->len == 1)
    text = cro_words_cause (&g_array_index (taken, CroCause, 0));
  else if (taken->len > 1)
    /* Translators: of a cost: so many prices, amounts … are missing. */
    text = g_strdup_printf (ngettext ("%u missing", "%u missing", taken->len), taken->len);
  return cro_reading_text (self, text);
}

GHashTable *
cro_reading_notes (CroReading  *self,
                   const char  *table,
                   const char  *column,
                   GError     **error)
{
  const char *columns[] = { "id", column, NULL };
  g_autoptr (GHashTable) notes = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (self->book), table, columns, error);
  g_autoptr (GError) failure = NULL;

  while (rows != NULL && cro_rows_next (rows, &failure))
    if (!cro_rows_is_null (rows, 1))
      {
        gint64 id = cro_rows_get_int (rows, 0);

        g_hash_table_insert (notes, g_memdup2 (&id, sizeof id), g_strdup (cro_rows_get_text (rows, 1)));
      }
  if (failure != NULL)
    g_propagate_error (error, g_steal_pointer (&failure));
  else if (rows != NULL)
    return g_steal_pointer (&notes);
  return NULL;
}

/* --- Order ------------------------------------------------------------------------------------ */

typedef struct
{
  CroRecordRow  row;
  char         *key;
} Keyed;

static int
compare (gconstpointer a,
         gconstpointer b)
{
  const Keyed *x = a, *y = b;

  if (x->row.urgency < y->row.urgency || x->row.urgency > y->row.urgency)
    return x->row.urgency < y->row.urgency ? -1 : 1;
  return strcmp (x->key, y->key);
}

void
cro_reading_sort (CroReading *self)
{
  guint n = self->rows->len;
  g_autofree Keyed *keyed = g_new (Keyed, n + 1);

  for (guint i = 0; i < n; i++)
    {
      keyed[i].row = g_array_index (self->rows, CroRecordRow, i);
      keyed[i].key = cro_fold (keyed[i].row.values[0].text);
    }
  qsort (keyed, n, sizeof *keyed, compare);
  for (guint i = 0; i < n; i++)
    {
      g_array_index (self->rows, CroRecordRow, i) = keyed[i].row;
      g_free (keyed[i].key);
    }
}
