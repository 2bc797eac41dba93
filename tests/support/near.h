/* near.h: how tests of figures compare, and say what must hold.
 *
 * Includes cmocka with what it wants before it. */
#pragma once

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#define N_CASES(cases) (sizeof (cases) / sizeof *(cases))

/* Equal to 1e-12 of the larger; what does not exist (NaN) is equal to itself. */
static inline bool
is_near (double a,
         double b)
{
  if (isnan (a) || isnan (b))
    return isnan (a) && isnan (b);
  return a == b || fabs (a - b) <= 1e-12 * fmax (fabs (a), fabs (b));
}

/* Equal in the digits that a source prints. */
static inline bool
is_printed_as (double value,
               double printed,
               int    places)
{
  return fabs (value - printed) <= 0.5 * pow (10, -places) * (1 + 1e-9);
}

static inline void
expect (const char *says,
        bool        holds)
{
  if (!holds)
    fail_msg ("does not hold: %s", says);
}

static inline void
expect_near (const char *says,
             double      got,
             double      wanted)
{
  if (!is_near (got, wanted))
    fail_msg ("does not hold: %s (got %.17g, wanted %.17g)", says, got, wanted);
}

static inline void
expect_printed (const char *says,
                double      got,
                double      printed,
                int         places)
{
  if (!is_printed_as (got, printed, places))
    fail_msg ("does not hold: %s (got %.17g, printed %.*f)", says, got, places, printed);
}
