/* cro-halves.h: one long table read by two threads: the lower ids through the store itself, the
 * upper ones through a connection of its own that stands at the same moment.
 *
 * Ownership  The store is borrowed, and its moment has to go on (cro_store_begin_read). */
#pragma once

#include "cro-store.h"

G_BEGIN_DECLS

typedef struct
{
  gint64  first;  /* id of all */
  gint64  middle; /* the last of the lower half */
  gint64  last;   /* of all */

  /*< private >*/
  CroStore *lower;
  CroStore *upper;
  gint64    last_change;
  gint64    schema_version;
  GThread  *opening;
} CroHalves;

/* Begins to open the other connection in a thread, so that the table is best read after others.
 * least: the fewest ids that are worth it. NULL where the table has fewer, or fewer than its ids
 * promise, where there is one processor alone, and where the store is a copy in memory. */
CroHalves *cro_halves_new  (CroStore           *store,
                            const char         *table,
                            gint64              least);
void       cro_halves_free (CroHalves          *self);

/* As cro_store_read_each: row gets lower or upper as its user_data, each in its own thread, by rising
 * id from the first to middle and from there to the last, which a damaged file may have more of than
 * it said. An error is that of the lower half if both have one. Where no other connection came to
 * the same moment, as somebody wrote meanwhile, this one reads both. */
gboolean   cro_halves_read (CroHalves          *self,
                            const char         *table,
                            const char *const  *columns,
                            CroStoreRow         row,
                            gpointer            lower,
                            gpointer            upper,
                            GError            **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroHalves, cro_halves_free)

G_END_DECLS
