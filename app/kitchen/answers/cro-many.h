/* cro-many.h: the same work for many plates, on several threads, handed on in order.
 *
 * Work i fills one of a few slots; whoever completes the next in order hands it on, so that what
 * comes out is the same on any number of threads and no more than the slots are held. The figures
 * must not be changed meanwhile. */
#pragma once

#include "cro-figures.h"

G_BEGIN_DECLS

#define CRO_MANY_SLOTS 16

/* Fills a slot, with figures of the thread's own. */
typedef void (*CroManyWork)   (CroFigures *figures,
                               guint       index,
                               guint       slot,
                               gpointer    user_data);

/* Takes what stands in a slot: one at a time, in order of index. */
typedef void (*CroManyHandOn) (guint       index,
                               guint       slot,
                               gpointer    user_data);

/* n_threads: 0 for as many as this program has processors (cro-processors.h), 4 at most. */
void cro_many_run (CroFigures    *figures,
                   guint          n,
                   guint          n_threads,
                   CroManyWork    work,
                   CroManyHandOn  hand_on,
                   gpointer       user_data);

G_END_DECLS
