#include "cro-fraction.h"

#include "cro-decimal.h"

static CroInt128
gcd (CroInt128 a,
     CroInt128 b)
{
  if (a < 0)
    a = -a;
  while (b != 0)
    {
      CroInt128 rest = a % b;

      a = b;
      b = rest;
    }
  return a;
}

static CroFraction
reduced (CroInt128 numerator,
         CroInt128 denominator)
{
  CroInt128 common = gcd (numerator, denominator);

  return (CroFraction){ numerator / common, denominator / common };
}

CroFraction
cro_fraction_from_micro (gint64 micro)
{
  return reduced (micro, CRO_MICRO);
}

CroFraction
cro_fraction_make (gint64 numerator,
                   gint64 denominator)
{
  CroInt128 sign = denominator < 0 ? -1 : 1;

  return reduced (sign * numerator, sign * denominator);
}

CroFraction
cro_fraction_of_unit (CroUnit unit)
{
  const CroUnitInfo *info = cro_unit_get (unit);

  return cro_fraction_make (info->numerator, info->denominator);
}

gboolean
cro_fraction_add (CroFraction *a,
                  CroFraction  b)
{
  CroInt128 x, y, numerator, denominator;

  if (__builtin_mul_overflow (a->numerator, b.denominator, &x)
      || __builtin_mul_overflow (b.numerator, a->denominator, &y)
      || __builtin_add_overflow (x, y, &numerator)
      || __builtin_mul_overflow (a->denominator, b.denominator, &denominator))
    return FALSE;
  *a = reduced (numerator, denominator);
  return TRUE;
}

gboolean
cro_fraction_multiply (CroFraction *a,
                       CroFraction  b)
{
  CroFraction x = reduced (a->numerator, b.denominator);
  CroFraction y = reduced (b.numerator, a->denominator);
  CroInt128 numerator, denominator;

  /* Crosswise first, so that what cancels does not overflow. */
  if (__builtin_mul_overflow (x.numerator, y.numerator, &numerator)
      || __builtin_mul_overflow (x.denominator, y.denominator, &denominator))
    return FALSE;
  *a = (CroFraction){ numerator, denominator };
  return TRUE;
}

gboolean
cro_fraction_divide (CroFraction *a,
                     CroFraction  b)
{
  if (b.numerator == 0)
    return FALSE;
  if (b.numerator < 0)
    b = (CroFraction){ -b.denominator, -b.numerator };
  else
    b = (CroFraction){ b.denominator, b.numerator };
  return cro_fraction_multiply (a, b);
}

gboolean
cro_fraction_to_micro (CroFraction  a,
                       gint64      *micro)
{
  CroInt128 scaled, rounded;
  gboolean is_negative = a.numerator < 0;
  CroInt128 size = is_negative ? -a.numerator : a.numerator;

  if (__builtin_mul_overflow (size, (CroInt128) CRO_MICRO, &scaled))
    return FALSE;
  rounded = scaled / a.denominator;
  if (scaled % a.denominator >= a.denominator - scaled % a.denominator)
    rounded++;
  if (rounded > G_MAXINT64)
    return FALSE;
  *micro = is_negative ? -(gint64) rounded : (gint64) rounded;
  return TRUE;
}
