#include "cro-allergen.h"

#include <string.h>

static const char *const codes[CRO_N_ALLERGENS] = {
  "gluten", "crustaceans", "eggs",    "fish",   "peanuts",   "soybeans", "milk",
  "nuts",   "celery",      "mustard", "sesame", "sulphites", "lupin",    "molluscs",
};

const char *
cro_allergen_code (int index)
{
  return codes[index];
}

bool
cro_allergens_parse (const char  *text,
                     size_t       length,
                     uint32_t    *mask,
                     const char **bad,
                     size_t      *bad_length)
{
  const char *start = text;
  const char *end = text + length;
  uint32_t found = 0;
  bool none = false;

  while (text < end)
    {
      const char *word = text;
      size_t n;
      int i;

      while (text < end && *text != ' ')
        text++;
      n = (size_t) (text - word);
      while (text < end && *text == ' ')
        text++;
      if (n == 0)
        continue;

      for (i = 0; i < CRO_N_ALLERGENS; i++)
        if (strlen (codes[i]) == n && memcmp (codes[i], word, n) == 0)
          break;
      if (i < CRO_N_ALLERGENS && !none)
        found |= UINT32_C (1) << i;
      else if (n == 4 && memcmp (word, "none", 4) == 0 && found == 0)
        none = true;
      else
        {
          *bad = word;
          *bad_length = n;
          return false;
        }
    }
  /* No word at all is no answer, and must not be taken for "none". */
  if (found == 0 && !none)
    {
      *bad = start;
      *bad_length = length;
      return false;
    }
  *mask = found;
  return true;
}

void
cro_allergens_format (uint32_t mask,
                      char     text[CRO_ALLERGENS_CHARS])
{
  size_t length = 0;

  if ((mask & CRO_ALLERGENS_ALL) == 0)
    {
      strcpy (text, "none");
      return;
    }
  for (int i = 0; i < CRO_N_ALLERGENS; i++)
    if (mask & (UINT32_C (1) << i))
      {
        size_t n = strlen (codes[i]);

        if (length > 0)
          text[length++] = ' ';
        memcpy (text + length, codes[i], n);
        length += n;
      }
  text[length] = '\0';
}
