#include "cro-gtin.h"

#include <string.h>

bool
cro_gtin_is_one (const char *text,
                 size_t      length)
{
  return (length == 8 || (length >= 12 && length <= CRO_GTIN_DIGITS))
         && strspn (text, "0123456789") >= length;
}

bool
cro_gtin_is_sound (const char *text,
                   size_t      length)
{
  int sum = 0;

  if (!cro_gtin_is_one (text, length))
    return false;
  for (size_t i = 0; i < length; i++)
    sum += (text[i] - '0') * ((length - i) % 2 == 0 ? 3 : 1);
  return sum % 10 == 0;
}

void
cro_gtin_widen (const char *text,
                size_t      length,
                char        wide[CRO_GTIN_DIGITS + 1])
{
  memset (wide, '0', CRO_GTIN_DIGITS - length);
  memcpy (wide + CRO_GTIN_DIGITS - length, text, length);
  wide[CRO_GTIN_DIGITS] = '\0';
}
