#include "cro-digits.h"

#include <locale.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define MOST_DIGITS 17
#define TYPED_DIGITS 15
#define TEN_TO_15 UINT64_C (1000000000000000)
#define TEN_TO_17 UINT64_C (100000000000000000)

/* What printf writes without an exponent, and up to where digits are whole in 64 bits. */
#define LEAST 1e-4
#define LEAST_POWER (-5)   /* of ten, as it is estimated */
#define MOST 1e16

static const guint64 powers_of_5[] = {
  UINT64_C (1),
  UINT64_C (5),
  UINT64_C (25),
  UINT64_C (125),
  UINT64_C (625),
  UINT64_C (3125),
  UINT64_C (15625),
  UINT64_C (78125),
  UINT64_C (390625),
  UINT64_C (1953125),
  UINT64_C (9765625),
  UINT64_C (48828125),
  UINT64_C (244140625),
  UINT64_C (1220703125),
  UINT64_C (6103515625),
  UINT64_C (30517578125),
  UINT64_C (152587890625),
  UINT64_C (762939453125),
  UINT64_C (3814697265625),
  UINT64_C (19073486328125),
  UINT64_C (95367431640625),
  UINT64_C (476837158203125),
};

/* Exact as doubles. */
static const double powers_of_10[] = {
  1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11,
  1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22,
};

/* mantissa * 2^exponent * 10^k, rounded to nearest, ties to even, as printf does. The product has
 * 53 + 49 bits at most, so nothing is lost. */
static guint64
scale (guint64 mantissa,
       int     exponent,
       int     k)
{
  unsigned __int128 product = (unsigned __int128) mantissa * powers_of_5[k];
  int shift = exponent + k;
  unsigned __int128 rest, half;
  guint64 whole;

  if (shift >= 0)
    return (guint64) (product << shift);
  whole = (guint64) (product >> -shift);
  rest = product & (((unsigned __int128) 1 << -shift) - 1);
  half = (unsigned __int128) 1 << (-shift - 1);
  return whole + (rest > half || (rest == half && (whole & 1) != 0));
}

/* The first 17 digits, and in *power the power of ten of the first one. */
static guint64
digits_of (double  value,
           int    *power)
{
  int binary;
  guint64 mantissa = (guint64) ldexp (frexp (value, &binary), 53);
  guint64 digits;

  /* Of the binary exponent's logarithm, which is too small by one at most. */
  *power = MAX (((binary - 1) * 1233) >> 12, LEAST_POWER);
  digits = scale (mantissa, binary - 53, MOST_DIGITS - 1 - *power);
  if (digits < TEN_TO_17)
    return digits;
  ++*power;
  return scale (mantissa, binary - 53, MOST_DIGITS - 1 - *power);
}

/* The same number in 15 digits, where that reads back. Quotients and products of whole numbers and
 * powers of ten that are both exact are rounded once, as strtod does. */
static gboolean
is_typed (double   value,
          guint64 *digits,
          int     *power)
{
  guint64 tail = *digits / 10 % 10 * 10 + *digits / 100 % 10;
  guint64 typed = (*digits + 50) / 100;
  int of_first = *power;
  int of_last;
  double read;

  if (tail != 0 && tail != 99)
    return FALSE;
  if (typed == TEN_TO_15)
    {
      typed /= 10;
      of_first++;
    }
  of_last = of_first - (TYPED_DIGITS - 1);
  read = of_last < 0 ? (double) typed / powers_of_10[-of_last]
                     : (double) typed * powers_of_10[of_last];
  if (read != value)
    return FALSE;
  *digits = typed;
  *power = of_first;
  return TRUE;
}

/* Puts n digits in place; returns how many they are without zeros at their end. */
static int
spell (guint64  digits,
       int      n,
       char    *text)
{
  for (int i = n - 1; i >= 0; i--, digits /= 10)
    text[i] = (char) ('0' + digits % 10);
  while (n > 1 && text[n - 1] == '0')
    n--;
  return n;
}

/* A point among the digits, or zeros before them or behind. */
static char *
place (char       *at,
       const char *digits,
       int         n,
       int         power)
{
  int whole = power + 1;

  if (power < 0)
    {
      memcpy (at, "0.00000", (gsize) (1 - power));
      at += 1 - power;
      memcpy (at, digits, (gsize) n);
      return at + n;
    }
  memcpy (at, digits, (gsize) MIN (n, whole));
  at += MIN (n, whole);
  for (int i = n; i < whole; i++)
    *at++ = '0';
  if (n <= whole)
    return at;
  *at++ = '.';
  memcpy (at, digits + whole, (gsize) (n - whole));
  return at + n - whole;
}

/* Whether of 17 digits the last but one and the one before are 0s or 9s. */
static gboolean
looks_typed (const char *digits)
{
  char tail[2] = { 0 };
  int n = 0;

  for (; *digits != '\0' && *digits != 'e' && n < MOST_DIGITS - 1; digits++)
    if (g_ascii_isdigit (*digits) && (n > 0 || *digits != '0'))
      {
        tail[0] = tail[1];
        tail[1] = *digits;
        n++;
      }
  return n == MOST_DIGITS - 1 && tail[0] == tail[1] && (tail[1] == '0' || tail[1] == '9');
}

/* Numbers too large or too small for the short way: few, and by the library. */
static gsize
print_any (double value,
           char   text[CRO_DIGITS_CHARS])
{
  static gsize c_locale;
  char typed[CRO_DIGITS_CHARS];
  locale_t before;

  if (g_once_init_enter (&c_locale))
    g_once_init_leave (&c_locale, (gsize) newlocale (LC_ALL_MASK, "C", (locale_t) 0));
  before = uselocale ((locale_t) c_locale);
  snprintf (text, CRO_DIGITS_CHARS, "%.*g", MOST_DIGITS, value);
  snprintf (typed, sizeof typed, "%.*g", TYPED_DIGITS, value);
  if (looks_typed (text) && strtod (typed, NULL) == value)
    strcpy (text, typed);
  uselocale (before);
  return strlen (text);
}

gsize
cro_digits_print (double value,
                  char   text[CRO_DIGITS_CHARS])
{
  double size = fabs (value);
  char spelt[MOST_DIGITS];
  char *at = text;
  guint64 digits;
  int power;
  int n = MOST_DIGITS;

  if (value == 0)
    return (gsize) (g_stpcpy (text, signbit (value) ? "-0" : "0") - text);
  if (!(size >= LEAST && size < MOST))
    return print_any (value, text);
  digits = digits_of (size, &power);
  if (is_typed (size, &digits, &power))
    n = TYPED_DIGITS;
  n = spell (digits, n, spelt);
  if (value < 0)
    *at++ = '-';
  at = place (at, spelt, n, power);
  *at = '\0';
  return (gsize) (at - text);
}
