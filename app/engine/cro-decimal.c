#include "cro-decimal.h"

#include <math.h>

CroDecimalStatus
cro_decimal_parse (const char *text,
                   size_t      length,
                   int64_t    *micro)
{
  size_t i = 0;
  bool negative = length > 0 && text[0] == '-';
  bool overflow = false;
  int64_t value = 0;
  size_t places = 0;

  i = negative ? 1 : 0;
  if (i == length || text[i] < '0' || text[i] > '9')
    return CRO_DECIMAL_NOT_A_NUMBER;

  for (; i < length && text[i] >= '0' && text[i] <= '9'; i++)
    overflow |= __builtin_mul_overflow (value, 10, &value)
                || __builtin_add_overflow (value, text[i] - '0', &value);

  if (i < length && text[i] == '.')
    {
      size_t point = i++;

      for (; i < length && text[i] >= '0' && text[i] <= '9'; i++)
        if (i - point <= 6)
          overflow |= __builtin_mul_overflow (value, 10, &value)
                      || __builtin_add_overflow (value, text[i] - '0', &value);
      places = i - point - 1;
      if (places == 0)
        return CRO_DECIMAL_NOT_A_NUMBER;
    }

  if (i != length)
    return CRO_DECIMAL_NOT_A_NUMBER;
  if (places > 6)
    return CRO_DECIMAL_TOO_MANY_PLACES;
  for (; places < 6; places++)
    overflow |= __builtin_mul_overflow (value, 10, &value);
  if (overflow)
    return CRO_DECIMAL_TOO_LARGE;

  *micro = negative ? -value : value;
  return CRO_DECIMAL_OK;
}

/* At least so many digits, with zeros in front. */
static size_t
put_digits (char     *text,
            uint64_t  value,
            size_t    least)
{
  size_t n = 0;

  for (uint64_t rest = value; rest > 0 || n < least; rest /= 10)
    n++;
  for (size_t i = n; i > 0; i--, value /= 10)
    text[i - 1] = (char) ('0' + value % 10);
  return n;
}

size_t
cro_decimal_format (int64_t micro,
                    char    text[CRO_DECIMAL_CHARS])
{
  /* The magnitude of INT64_MIN is not an int64. */
  uint64_t magnitude = micro < 0 ? -(uint64_t) micro : (uint64_t) micro;
  uint64_t part = magnitude % CRO_MICRO;
  size_t length = 0;
  size_t places = 6;

  if (micro < 0)
    text[length++] = '-';
  length += put_digits (text + length, magnitude / CRO_MICRO, 1);

  if (part > 0)
    {
      for (; part % 10 == 0; part /= 10)
        places--;
      text[length++] = '.';
      length += put_digits (text + length, part, places);
    }
  text[length] = '\0';
  return length;
}

/* Half away from zero, as C's own division goes towards it. */
static bool
divide (__int128  dividend,
        __int128  divisor,
        int64_t  *result)
{
  __int128 half = dividend < 0 ? -divisor / 2 : divisor / 2;
  __int128 quotient = (dividend + half) / divisor;

  if (quotient > INT64_MAX || quotient < INT64_MIN)
    return false;
  *result = (int64_t) quotient;
  return true;
}

bool
cro_decimal_multiply (int64_t  a_micro,
                      int64_t  b_micro,
                      int64_t *result_micro)
{
  return divide ((__int128) a_micro * b_micro, CRO_MICRO, result_micro);
}

/* In integers, since the product with a million would be rounded itself, and near a half or
 * above 2^31 units to the wrong side. */
bool
cro_decimal_from_double (double   value,
                         int64_t *result_micro)
{
  int exponent;
  double fraction = frexp (value, &exponent);

  if (!(fabs (value) < 0x1p44))
    return false;
  /* 2^-21 units are less than half a millionth. */
  if (fabs (value) < 0x1p-21)
    {
      *result_micro = 0;
      return true;
    }
  return divide ((__int128) ldexp (fraction, 53) * CRO_MICRO,
                 (__int128) 1 << (53 - exponent),
                 result_micro);
}
