/* What a supplier says of goods without a price: that they are not to be had, or as last. In English and in
 * French; words are common practice, no source. */
#include "cro-price-list-private.h"

#include "cro-fold.h"

#include <string.h>

/* All folded. */
static const char *const none_words[] = {
  "not to be had", "not available", "out of stock", "none today", "none", "n a", "na", "nil", "sold out", "unavailable",
  "no stock", "finished", "manquant", "manque", "rupture de stock", "en rupture", "rupture", "indisponible", "epuise",
  "pas disponible", "non disponible", "neant",
};

/* Before a name: "no garlic", "pas d’ail". */
static const char *const none_before[] = {
  "no more", "no", "out of", "sold out of", "pas de", "pas d", "plus de", "plus d", "rupture de", "rupture d",
};

/* Longer ones first. */
static const char *const same_words[] = {
  "same as last week", "same as last time", "same as before", "same as last", "same price", "same again", "same",
  "as last week", "as last time", "as last", "as before", "unchanged", "no change", "comme la semaine derniere",
  "comme la derniere fois", "comme avant", "meme prix", "inchangee", "inchange", "sans changement", "idem", "pareil",
};

/* Until when, which no price list keeps. */
static const char *const until_words[] = { "till", "til", "until", "before", "jusqu", "jusque", "avant" };

gboolean
cro_list_says_none (const char *cell)
{
  g_autofree char *trimmed = g_strstrip (g_strdup (cell)), *folded = cro_fold (trimmed);

  if (strcmp (trimmed, "-") == 0 || strcmp (trimmed, "–") == 0 || strcmp (trimmed, "—") == 0)
    return TRUE;
  for (gsize i = 0; i < G_N_ELEMENTS (none_words); i++)
    if (strcmp (folded, none_words[i]) == 0)
      return TRUE;
  return FALSE;
}

gboolean
cro_list_says_same (const char *cell)
{
  g_autofree char *trimmed = g_strstrip (g_strdup (cell)), *folded = cro_fold (trimmed);

  if (strcmp (trimmed, "=") == 0)
    return TRUE;
  for (gsize i = 0; i < G_N_ELEMENTS (same_words); i++)
    if (strcmp (folded, same_words[i]) == 0)
      return TRUE;
  return FALSE;
}

const char *
cro_list_find_words (const char *folded,
                     const char *words)
{
  gsize n = strlen (words);

  for (const char *at = folded; (at = strstr (at, words)) != NULL; at++)
    if ((at == folded || at[-1] == ' ') && (at[n] == '\0' || at[n] == ' '))
      return at;
  return NULL;
}

gboolean
cro_list_has_until (const char *words)
{
  g_autofree char *folded = cro_fold (words);

  for (gsize i = 0; i < G_N_ELEMENTS (until_words); i++)
    if (cro_list_find_words (folded, until_words[i]) != NULL)
      return TRUE;
  return FALSE;
}

/* Cut where words begin, and the space before them. */
static gboolean
cut (char       *folded,
     const char *words)
{
  char *found = (char *) cro_list_find_words (folded, words);

  if (found == NULL || found == folded)
    return FALSE;
  found[-1] = '\0';
  return TRUE;
}

static gboolean
is_same (char *folded)
{
  for (gsize i = 0; i < G_N_ELEMENTS (same_words); i++)
    {
      gsize length = strlen (folded), n = strlen (same_words[i]);

      if (length > n && folded[length - n - 1] == ' ' && strcmp (folded + length - n, same_words[i]) == 0)
        {
          folded[length - n - 1] = '\0';
          return TRUE;
        }
    }
  return FALSE;
}

static gboolean
begins_with_none (char *folded)
{
  for (gsize i = 0; i < G_N_ELEMENTS (none_before); i++)
    {
      gsize n = strlen (none_before[i]);

      if (!g_str_has_prefix (folded, none_before[i]) || folded[n] != ' ')
        continue;
      memmove (folded, folded + n + 1, strlen (folded + n + 1) + 1);
      return TRUE;
    }
  return FALSE;
}

static gboolean
has_none (char *folded)
{
  for (gsize i = 0; i < G_N_ELEMENTS (none_words); i++)
    {
      char *found = (char *) cro_list_find_words (folded, none_words[i]);
      gsize n = strlen (none_words[i]);

      if (found == NULL)
        continue;
      memmove (found, found + n, strlen (found + n) + 1);
      g_strstrip (folded);
      return TRUE;
    }
  return FALSE;
}

CroListUnpriced
cro_list_read_unpriced (const char  *words,
                        char       **name)
{
  g_autofree char *folded = cro_fold (words);
  CroListUnpriced said = CRO_LIST_SAYS_NOTHING;

  if (is_same (folded))
    said = CRO_LIST_SAYS_SAME;
  else if (has_none (folded) || begins_with_none (folded))
    {
      said = CRO_LIST_SAYS_NONE;
      for (gsize i = 0; i < G_N_ELEMENTS (until_words); i++)
        cut (folded, until_words[i]);
    }
  *name = said != CRO_LIST_SAYS_NOTHING ? g_steal_pointer (&folded) : NULL;
  return said;
}
