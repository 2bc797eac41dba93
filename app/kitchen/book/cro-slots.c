#include "cro-slots.h"

/* An id this far beyond the array goes to the hash table. */
#define LARGEST_GAP 4096

static void
grow_to (CroSlots *self,
         gsize     n)
{
  gsize larger = MAX (n, self->n_dense * 2);

  self->dense = g_renew (guint32, self->dense, larger);
  for (gsize i = self->n_dense; i < larger; i++)
    self->dense[i] = CRO_NO_SLOT;
  self->n_dense = larger;
}

void
cro_slots_set (CroSlots *self,
               gint64    id,
               guint32   slot)
{
  if (id >= 0 && (guint64) id < 2 * self->n_dense + LARGEST_GAP)
    {
      if ((guint64) id >= self->n_dense)
        grow_to (self, (gsize) id + 1);
      self->dense[id] = slot;
      return;
    }
  if (self->sparse == NULL)
    self->sparse = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  g_hash_table_insert (self->sparse, g_memdup2 (&id, sizeof id), GUINT_TO_POINTER (slot));
}

guint32
cro_slots_find (const CroSlots *self,
                gint64          id)
{
  gpointer slot;

  if (self->sparse != NULL && g_hash_table_lookup_extended (self->sparse, &id, NULL, &slot))
    return GPOINTER_TO_UINT (slot);
  return CRO_NO_SLOT;
}

void
cro_slots_clear (CroSlots *self)
{
  g_clear_pointer (&self->dense, g_free);
  g_clear_pointer (&self->sparse, g_hash_table_unref);
  self->n_dense = 0;
}
