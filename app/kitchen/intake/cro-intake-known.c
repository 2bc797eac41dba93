/* What the book has of the rows of a sheet already. */
#include "cro-intake-private.h"

#include <string.h>

typedef struct
{
  const CroIntakeTable *table;
  GHashTable *keys; /* → how many rows of the book */
} Known;

static gboolean
take_known (CroRows *rows,
            gpointer user_data,
            GError **error)
{
  Known *self = user_data;
  char *key = self->table->dup_key_of_row (rows);
  guint n = GPOINTER_TO_UINT (g_hash_table_lookup (self->keys, key));

  g_hash_table_insert (self->keys, key, GUINT_TO_POINTER (n + 1));
  return TRUE;
}

/* A table of many years is read once, not for each name that is settled. */
static gboolean
read_known (CroIntake            *self,
            const CroIntakeTable *table,
            CroBook              *book,
            GError              **error)
{
  g_autoptr (GHashTable) keys = NULL;
  Known known = { table, NULL };

  if (self->known != NULL && self->known_at == cro_book_get_edition (book))
    return TRUE;
  known.keys = keys = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  if (!cro_store_read_each (cro_book_get_store (book), table->table, table->columns, take_known, &known, error))
    return FALSE;
  g_clear_pointer (&self->known, g_hash_table_unref);
  self->known = g_steal_pointer (&keys);
  self->known_at = cro_book_get_edition (book);
  return TRUE;
}

gboolean
cro_intake_drop_known (CroIntake            *self,
                       const CroIntakeTable *table,
                       CroBook              *book,
                       GArray               *entries,
                       guint                *n_known,
                       GError              **error)
{
  /* How many rows of the book are left for more entries of a key. */
  g_autoptr (GHashTable) left = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  guint n = 0;

  if (!read_known (self, table, book, error))
    return FALSE;
  for (guint i = 0; i < entries->len; i++)
    {
      char *entry = entries->data + (gsize) i * table->size;
      g_autofree char *key = table->dup_key (cro_book_get_model (book), entry);
      gpointer of;

      if (!g_hash_table_lookup_extended (left, key, NULL, &of))
        of = g_hash_table_lookup (self->known, key);
      if (of == NULL)
        memmove (entries->data + (gsize) n++ * table->size, entry, table->size);
      else
        g_hash_table_insert (left, g_steal_pointer (&key), GUINT_TO_POINTER (GPOINTER_TO_UINT (of) - 1));
    }
  *n_known = entries->len - n;
  g_array_set_size (entries, n);
  return TRUE;
}
