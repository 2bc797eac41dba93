#include "cro-stray.h"

#include <stddef.h>

bool
cro_stray_is (uint32_t c)
{
  return c < 0x20 || (c >= 0x7F && c <= 0x9F) || (c >= 0x2028 && c <= 0x202E)
         || (c >= 0x2066 && c <= 0x2069) || (c >= 0xFDD0 && c <= 0xFDEF) || (c & 0xFFFE) == 0xFFFE;
}

/* The code point at a lead byte, and in *length its bytes. */
static uint32_t
decode (const unsigned char *text,
        int                 *length)
{
  uint32_t c = text[0];

  *length = c < 0x80 ? 1 : c < 0xE0 ? 2 : c < 0xF0 ? 3 : 4;
  if (*length > 1)
    c &= 0x7Fu >> *length;
  for (int i = 1; i < *length; i++)
    c = c << 6 | (text[i] & 0x3Fu);
  return c;
}

static bool
ends_line (uint32_t c)
{
  return c == '\t' || c == '\n' || c == '\r' || c == 0x2028 || c == 0x2029;
}

static uint32_t
find (const char  *text,
      bool         has_lines,
      const char **at)
{
  const unsigned char *byte = (const unsigned char *) text;
  int length = 1;

  for (; *byte != '\0'; byte += length)
    {
      uint32_t c = decode (byte, &length);

      if (!cro_stray_is (c) || (has_lines && ends_line (c)))
        continue;
      if (at != NULL)
        *at = (const char *) byte;
      return c;
    }
  return 0;
}

uint32_t
cro_stray_find (const char  *text,
                const char **at)
{
  return find (text, false, at);
}

uint32_t
cro_stray_find_in_lines (const char  *text,
                         const char **at)
{
  return find (text, true, at);
}
