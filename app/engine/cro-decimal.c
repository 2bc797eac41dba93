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

size_t
cro_decimal_format (int64_t micro,
                    char    text[CRO_DECIMAL_CHARS])
{
  char digits[CRO_DECIMAL_CHARS];
  size_t n = 0, length = 0;
  /* The magnitude of INT64_MIN is not an int64. */
  uint64_t rest = micro < 0 ? -(uint64_t) micro : (uint64_t) micro;
  int places = 6;

  while (places > 0 && rest % 10 == 0)
    {
      rest /= 10;
      places--;
    }

  for (int place = 0; rest > 0 || place <= places; place++)
    {
      if (place == places && places > 0)
        digits[n++] = '.';
      digits[n++] = (char) ('0' + rest % 10);
      rest /= 10;
      if (rest == 0 && place >= places)
        break;
    }

  if (micro < 0)
    text[length++] = '-';
  while (n > 0)
    text[length++] = digits[--n];
  text[length] = '\0';
  return length;
}

bool
cro_decimal_multiply (int64_t  a_micro,
                      int64_t  b_micro,
                      int64_t *result_micro)
{
  __int128 product = (__int128) a_micro * b_micro;
  __int128 half = product < 0 ? -CRO_MICRO / 2 : CRO_MICRO / 2;
  __int128 rounded = (product + half) / CRO_MICRO;

  if (rounded > INT64_MAX || rounded < INT64_MIN)
    return false;
  *result_micro = (int64_t) rounded;
  return true;
}

bool
cro_decimal_from_double (double   value,
                         int64_t *result_micro)
{
  double scaled = round (value * 1e6);

  /* 2^63 is a double; INT64_MAX is not. */
  if (!(scaled >= -0x1p63 && scaled < 0x1p63))
    return false;
  *result_micro = (int64_t) scaled;
  return true;
}
