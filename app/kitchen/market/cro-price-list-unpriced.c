/* What a supplier says of goods without a price: that they are not to be had, as last, or by how many per
 * cent more or less. In English and in French; words are common practice, no source. */
#include "cro-price-list-private.h"

#include "cro-date.h"
#include "cro-expression.h"
#include "cro-fold.h"
#include "cro-price-token.h"

#include <string.h>

/* All folded. */
static const char *const none_words[] = {
  "not to be had", "not available", "out of stock", "none today", "none", "n a", "na", "nil", "sold out", "unavailable",
  "no stock", "finished", "manquant", "manque", "rupture de stock", "en rupture", "rupture", "indisponible", "epuise",
  "pas disponible", "non disponible", "neant", "pas dispo", "non dispo", "indispo",
};

/* Those that may be of the cell and not of the goods, between | as dashes are. */
static const char nothing_words[] = "|-|–|—|n a|na|nil|none|neant|";

/* The same behind a name alone: "skin off" is a cut. */
static const char *const off_words[] = {
  "off", "out", "fini", "finie", "finis", "finies", "termine", "terminee", "termines", "terminees",
};

/* The same before the words that say until or for when, which stand below: "pas avant jeudi". */
static const char *const none_until[] = { "pas", "rien", "not", "nothing", "off", "out", "finished" };

/* Before a name: "no garlic", "pas d’ail". */
static const char *const none_before[] = {
  "no more", "no", "out of", "sold out of", "pas de", "pas d", "plus de", "plus d", "rupture de", "rupture d",
};

/* Longer ones first. */
static const char *const same_words[] = {
  "same as last week", "same as last time", "same as before", "same as last", "same price", "same again", "same", "n c",
  "as last week", "as last time", "as last", "as before", "unchanged", "no change", "comme la semaine derniere",
  "comme la derniere fois", "comme avant", "meme prix", "inchangee", "inchange", "sans changement", "idem", "pareil",
};

/* Until when, which no price list keeps. */
static const char *const until_words[] = { "till", "til", "until", "before", "jusqu", "jusque", "avant" };

static const char *const when_words[] = {
  "today", "tomorrow", "this week", "at the moment", "for now", "aujourd hui", "demain", "cette semaine", "ce jour",
  "pour le moment", "en ce moment",
};

/* Before a day, from which goods are to be had again. Longer ones first. */
static const char *const return_words[] = {
  "back in on", "back in", "back on", "back", "available on", "available from", "available", "from", "de retour",
  "retour", "disponible", "dispo", "a partir de", "des",
};

static const char *const days[] = {
  "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday", "tomorrow", "next week",
  "mon", "tue", "tues", "wed", "thu", "thur", "thurs", "fri", "sat", "sun",
  "lundi", "mardi", "mercredi", "jeudi", "vendredi", "samedi", "dimanche", "demain", "la semaine prochaine",
};

gboolean
cro_list_says_nothing (const char *cell)
{
  g_autofree char *trimmed = g_strstrip (g_strdup (cell)), *folded = cro_fold (trimmed);

  return cro_price_is_among (*folded != '\0' ? folded : trimmed, nothing_words);
}

gboolean
cro_list_says_none (const char *cell)
{
  g_autofree char *trimmed = g_strstrip (g_strdup (cell)), *folded = cro_fold (trimmed);

  /* "#N/A" is a formula's error. */
  if (*trimmed == '#')
    return FALSE;
  if (cro_list_says_nothing (cell))
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

/* "pas avant jeudi", "not this week". */
static gboolean
cut_none_until (char *folded)
{
  static const struct { const char *const *words; gsize n; } ends[] = {
    { until_words, G_N_ELEMENTS (until_words) }, { when_words, G_N_ELEMENTS (when_words) },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (none_until); i++)
    for (gsize j = cro_list_find_words (folded, none_until[i]) != NULL ? 0 : G_N_ELEMENTS (ends);
         j < G_N_ELEMENTS (ends); j++)
      for (gsize k = 0; k < ends[j].n; k++)
        {
          g_autofree char *words = g_strdup_printf ("%s %s", none_until[i], ends[j].words[k]);

          if (cut (folded, words))
            return TRUE;
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

gboolean
cro_list_ends_off (const char  *words,
                   char       **name)
{
  g_autofree char *folded = cro_fold (words);
  char *last = strrchr (folded, ' ');

  for (gsize i = 0; last != NULL && i < G_N_ELEMENTS (off_words); i++)
    if (strcmp (last + 1, off_words[i]) == 0)
      {
        *last = '\0';
        *name = g_steal_pointer (&folded);
        return TRUE;
      }
  return FALSE;
}

gboolean
cro_list_cut_return (char *name)
{
  for (gsize i = 0; i < G_N_ELEMENTS (days); i++)
    for (gsize j = 0; g_str_has_suffix (name, days[i]) && j < G_N_ELEMENTS (return_words); j++)
      {
        g_autofree char *words = g_strdup_printf ("%s %s", return_words[j], days[i]);
        gsize length = strlen (name), n = strlen (words);

        if (length <= n || name[length - n - 1] != ' ' || strcmp (name + length - n, words) != 0)
          continue;
        name[length - n - 1] = '\0';
        return TRUE;
      }
  return FALSE;
}

char *
cro_list_dup_no_day (const char *line)
{
  g_auto (GStrv) words = g_strsplit_set (line, " \t,;.()", -1);

  for (guint i = 0; words[i] != NULL; i++)
    {
      CroDate ignored;

      if (strlen (words[i]) == strlen ("2026-02-30") && words[i][4] == '-' && words[i][7] == '-'
          && strspn (words[i], "0123456789-") == strlen (words[i])
          && !cro_date_parse (words[i], strlen (words[i]), &ignored))
        return g_strdup (words[i]);
    }
  return NULL;
}

CroListUnpriced
cro_list_read_unpriced (const char  *words,
                        char       **name)
{
  g_autofree char *folded = cro_fold (words);
  CroListUnpriced said = CRO_LIST_SAYS_NOTHING;

  if (is_same (folded))
    said = CRO_LIST_SAYS_SAME;
  else if (cut_none_until (folded) || has_none (folded) || begins_with_none (folded))
    {
      said = CRO_LIST_SAYS_NONE;
      for (gsize i = 0; i < G_N_ELEMENTS (until_words); i++)
        cut (folded, until_words[i]);
      for (gsize i = 0; i < G_N_ELEMENTS (when_words); i++)
        cut (folded, when_words[i]);
      cro_list_cut_return (folded);
    }
  *name = said != CRO_LIST_SAYS_NOTHING ? g_steal_pointer (&folded) : NULL;
  return said;
}

/* --- A change of the last price ------------------------------------------------------------------------ */

gsize
cro_list_scan_pct (const char *text)
{
  static const char *const words[] = { "per cent", "percent", "pour cent", "pct" };
  gsize space = 0, bytes;

  for (gunichar c; g_unichar_isspace (c = g_utf8_get_char (text + space)); space += (gsize) g_unichar_to_utf8 (c, NULL))
    ;
  if (text[space] == '%')
    return space + 1;
  for (gsize i = 0; i < G_N_ELEMENTS (words); i++)
    if ((bytes = cro_expression_starts (text + space, words[i])) > 0
        && !g_unichar_isalpha (g_utf8_get_char (text + space + bytes)))
      return space + bytes;
  return 0;
}

int
cro_list_scan_sign (const char *text,
                    gsize      *bytes)
{
  static const struct { const char *sign; int is; } signs[] = { { "+", 1 }, { "-", -1 }, { "−", -1 }, { "–", -1 } };

  *bytes = 0;
  for (gsize i = 0; i < G_N_ELEMENTS (signs); i++)
    if (g_str_has_prefix (text, signs[i].sign))
      {
        *bytes = strlen (signs[i].sign);
        return signs[i].is;
      }
  return 0;
}

static gboolean
is_one_of (const char        *word,
           const char *const *words)
{
  g_autofree char *folded = cro_fold (word);

  return g_strv_contains (words, folded);
}

/* 1: more; -1: less; 0: the word says nothing of that. */
static int
way_of (const char *word)
{
  static const char *const more[] = { "up", "plus", "more", "dearer", "higher", "hausse", "augmentation", NULL };
  static const char *const less[] = { "down", "minus", "less", "cheaper", "lower", "baisse", "moins", NULL };
  gsize bytes;
  int sign = cro_list_scan_sign (word, &bytes);

  if (sign != 0)
    return word[bytes] == '\0' ? sign : 0;
  return is_one_of (word, more) ? 1 : is_one_of (word, less) ? -1 : 0;
}

int
cro_list_take_way (GString *name)
{
  static const char *const before[] = { "en", "is", "are", "a", "au", NULL };
  static const char *const behind[] = { "by", "de", "d", "about", "around", "environ", NULL };
  g_auto (GStrv) words = g_strsplit (name->str, " ", 0);
  guint n = g_strv_length (words);
  int way;

  while (n > 0 && is_one_of (words[n - 1], behind))
    n--;
  way = n > 0 ? way_of (words[n - 1]) : 0;
  if (way == 0)
    return 0;
  for (n--; n > 0 && is_one_of (words[n - 1], before);)
    n--;
  g_string_truncate (name, 0);
  for (guint i = 0; i < n; i++)
    g_string_append_printf (name, "%s%s", i > 0 ? " " : "", words[i]);
  return way;
}

gsize
cro_list_scan_way (const char *text,
                   int        *way)
{
  static const char *const before[] = { "de", "en", NULL };
  gsize n = 0, length;

  for (guint i = 0; i < 2; i++)
    {
      g_autofree char *word = NULL;

      n += strspn (text + n, " ");
      length = strcspn (text + n, " \t,.;:()");
      word = g_strndup (text + n, length);
      n += length;
      *way = way_of (word);
      if (*way != 0)
        return n;
      if (!is_one_of (word, before))
        return 0;
    }
  return 0;
}
