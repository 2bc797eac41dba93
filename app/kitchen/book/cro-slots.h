/* cro-slots.h: from the ids of one table to slots in an array.
 *
 * Ids come from a counter, so nearly all are small: those are looked up in an array, the rest
 * in a hash table. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define CRO_NO_SLOT G_MAXUINT32

typedef struct
{
  guint32    *dense;
  gsize       n_dense;
  GHashTable *sparse;
} CroSlots;

void    cro_slots_set   (CroSlots *self,
                         gint64    id,
                         guint32   slot);

void    cro_slots_clear (CroSlots *self);

guint32 cro_slots_find  (const CroSlots *self,
                         gint64          id);

static inline guint32
cro_slots_get (const CroSlots *self,
               gint64          id)
{
  return id >= 0 && (guint64) id < self->n_dense ? self->dense[id] : cro_slots_find (self, id);
}

G_END_DECLS
