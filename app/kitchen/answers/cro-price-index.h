/* cro-price-index.h: how prices of each category moved from one day to the day of the figures.
 *
 * A chain of links (cro-price-link.h) from one first day of a month to the next, with the first and the
 * last day at its ends. The basket of a link is what was bought in the year up to its first day; a link
 * without one is left out, so that a book that is young begins its chain where it can.
 *
 * Units      The index is 100 on its first day. */
#pragma once

#include "cro-price-past.h"

G_BEGIN_DECLS

typedef struct
{
  char    *category;    /* NULL: those without one */
  guint    n;           /* ingredients of it */
  guint    n_in;        /* of them, in the basket of a link */
  gboolean is_open;     /* some were bought and have no price on a day, or in an amount that is not known */
  double   index;       /* NaN: nothing of it was in a basket */
  CroDate  since;       /* the first day of its chain */
  double   bought;      /* net, behind the first day */
  double   share_pct;   /* NaN: nothing was bought */
} CroPriceIndex;

/* All ingredients together first, then categories by what was bought of them. Elements CroPriceIndex.
 * Owned; NULL with error. */
GArray *cro_price_indices_new (CroBook       *book,
                               CroPricePast  *past,
                               CroDate        from,
                               GError       **error);

G_END_DECLS
