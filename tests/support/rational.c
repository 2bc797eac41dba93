#include "rational.h"

#include <math.h>
#include <stdlib.h>

#define POOL 65536

static mpq_t *pool[POOL];
static size_t pool_used;
static size_t pool_made;

mpq_ptr
q_number (long          numerator,
          unsigned long denominator)
{
  mpq_t *cell;

  if (pool_used == POOL)
    abort ();
  if (pool_used == pool_made)
    {
      pool[pool_made] = malloc (sizeof *pool[0]);
      mpq_init (*pool[pool_made++]);
    }
  cell = pool[pool_used++];
  mpq_set_si (*cell, numerator, denominator);
  mpq_canonicalize (*cell);
  return *cell;
}

mpq_ptr
q_micro (int64_t decimal)
{
  return q_number (decimal, 1000000);
}

mpq_ptr
q_pct (int64_t decimal)
{
  return q_number (decimal, 100000000);
}

mpq_ptr
q_add (mpq_srcptr a,
       mpq_srcptr b)
{
  mpq_ptr c = q_number (0, 1);

  mpq_add (c, a, b);
  return c;
}

mpq_ptr
q_sub (mpq_srcptr a,
       mpq_srcptr b)
{
  mpq_ptr c = q_number (0, 1);

  mpq_sub (c, a, b);
  return c;
}

mpq_ptr
q_mul (mpq_srcptr a,
       mpq_srcptr b)
{
  mpq_ptr c = q_number (0, 1);

  mpq_mul (c, a, b);
  return c;
}

mpq_ptr
q_quo (mpq_srcptr a,
       mpq_srcptr b)
{
  mpq_ptr c = q_number (0, 1);

  mpq_div (c, a, b);
  return c;
}

double
q_size (mpq_srcptr a)
{
  return fabs (mpq_get_d (a));
}

bool
q_is_zero (mpq_srcptr a)
{
  return mpq_sgn (a) == 0;
}

void
q_free_all (void)
{
  for (; pool_made > 0; pool_made--)
    {
      mpq_clear (*pool[pool_made - 1]);
      free (pool[pool_made - 1]);
    }
  pool_used = 0;
}

void
q_reuse_all (void)
{
  pool_used = 0;
}
