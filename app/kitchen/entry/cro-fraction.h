/* cro-fraction.h: exact fractions of decimals, rounded once at the end.
 *
 * Units      A fraction is numerator / denominator in lowest terms, denominator above 0.
 * Errors     Functions return FALSE where 128 bits do not hold the result, and for a division
 *            by 0; the fraction is then as it was. */
#pragma once

#include "cro-unit.h"

#include <glib.h>

G_BEGIN_DECLS

__extension__ typedef __int128 CroInt128;

typedef struct
{
  CroInt128 numerator;
  CroInt128 denominator;
} CroFraction;

CroFraction cro_fraction_from_micro (gint64        micro);

/* numerator / denominator; denominator is not 0. */
CroFraction cro_fraction_make       (gint64        numerator,
                                     gint64        denominator);

/* What one of a unit is in its base unit. */
CroFraction cro_fraction_of_unit    (CroUnit       unit);

gboolean    cro_fraction_add        (CroFraction  *a,
                                     CroFraction   b);
gboolean    cro_fraction_multiply   (CroFraction  *a,
                                     CroFraction   b);
gboolean    cro_fraction_divide     (CroFraction  *a,
                                     CroFraction   b);

static inline CroFraction
cro_fraction_negate (CroFraction a)
{
  return (CroFraction){ -a.numerator, a.denominator };
}

/* The nearest millionth, half away from zero. */
gboolean    cro_fraction_to_micro   (CroFraction   a,
                                     gint64       *micro);

G_END_DECLS
