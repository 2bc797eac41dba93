/* cro-watch.h: a long read that somebody waits for: how far it is, and a way to end it. */
#pragma once

#include "cro-store.h"

G_BEGIN_DECLS

typedef struct
{
  /* Asked now and then, in the thread that reads, with about the part that is read, 0 to 1; FALSE
   * ends it: what is being read then fails, and only whoever ended it knows that nothing is wrong. */
  gboolean (*go_on) (gpointer user_data, double done);
  gpointer   user_data;
} CroWatch;

/* While rows of these tables are read, each of them once; "*" ends the list. watch is kept, not
 * copied; NULL: nobody waits any longer. */
void cro_store_watch (CroStore           *self,
                      const char *const  *tables,
                      const CroWatch     *watch);

G_END_DECLS
