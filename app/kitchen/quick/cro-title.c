#include "cro-title.h"

#include "cro-decimal.h"
#include "cro-entry-time.h"
#include "cro-entry.h"
#include "cro-name.h"
#include "cro-words.h"
#include "cro-written.h"

#include <string.h>

/* What stands before the yield, whatever the locale; behind a pair of brackets it may be left out.
 * Common practice, no source. */
static const char *const leads[] = { "makes", "serves", "for", "yields", "yield", "gives", "pour", "donne",
                                     "rendement", "soit" };

/* Where a lead begins that has a space or a bracket before it, and where it ends; the last one. */
static const char *
find_lead (const char  *text,
           const char **behind)
{
  const char *found = NULL;

  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    for (guint i = 0; (at == text || strchr (" (,:;-", at[-1]) != NULL) && i < G_N_ELEMENTS (leads); i++)
      {
        gsize length = strlen (leads[i]);

        if (at == text || g_ascii_strncasecmp (at, leads[i], length) != 0
            || strchr (" :", at[length]) == NULL || at[length] == '\0')
          continue;
        found = at;
        *behind = at + length + strspn (at + length, " :");
      }
  return found;
}

/* What is counted is a time, and no yield. */
static gboolean
is_time (const char *word)
{
  static const char *const times[] = { "h", "hour", "hours", "hr", "hrs", "min", "mins", "minute", "minutes",
                                       "day", "days", "night", "week", "weeks", "heure", "heures", "jour",
                                       "jours", "nuit", "semaine", "semaines", NULL };

  return g_strv_contains (times, word);
}

/* "24", "about 24 bites", "12 couverts": pieces; "450 g": an amount. What follows a count may be any one
 * word. */
static gboolean
read_yield (const char *text,
            CroTitle   *title)
{
  g_auto (CroEntry) number = { 0 };
  const char *from = text + cro_written_scan_about (text);
  gsize length = cro_entry_scan_number (from, &number);
  const char *rest = from + length + strspn (from + length, " ");
  g_autofree char *word = g_strndup (rest, strcspn (rest, ") ,;."));
  CroUnit unit;

  if (length == 0 || number.status != CRO_ENTRY_OK || number.micro <= 0 || is_time (word))
    return FALSE;
  rest += strlen (word);
  if (rest[strspn (rest, ") .")] != '\0')
    return FALSE;
  if (*word != '\0' && cro_entry_scan_unit (word, cro_words_entry (), &unit) == strlen (word)
      && unit != CRO_UNIT_EACH)
    {
      title->gives = number.micro;
      title->gives_unit = unit;
    }
  else if (number.micro % CRO_MICRO == 0)
    title->makes = number.micro;
  return title->gives > 0 || title->makes > 0;
}

/* What is served, besides covers: its word says that its count is a yield. Common practice, no source. */
static const char *const served[] = { "bites", "parts", "bouchées", NULL };

static gboolean
counts_served (const char *text)
{
  const char *space = strrchr (text, ' ');

  return space != NULL
         && (g_strv_contains (served, space + 1)
             || (space[1] != '\0' && space[cro_entry_scan_covers (space)] == '\0'));
}

/* Where "8 couverts" begins in "Bisque – 8 couverts"; NULL: nowhere. */
static const char *
find_served (const char *text)
{
  const char *last = NULL;

  for (const char *at = text; *at != '\0' && counts_served (text); at = g_utf8_next_char (at))
    if (at > text && at[-1] == ' ' && g_ascii_isdigit (*at))
      last = at;
  return last;
}

/* Without the signs that led to what was read. */
static char *
dup_name (const char *text,
          const char *end)
{
  g_autofree char *name = g_strndup (text, (gsize) (end - text));

  for (gsize length = strlen (name); length > 0; length = strlen (name))
    {
      char *last = g_utf8_prev_char (name + length);

      if (strchr (" (,:;.", *last) == NULL && cro_written_scan_dash (last) == 0)
        break;
      *last = '\0';
    }
  return cro_name_dup_tidy (name);
}

void
cro_title_read (const char *text,
                CroTitle   *title)
{
  g_autofree char *tidy = cro_name_dup_tidy (text);
  const char *behind = NULL, *end = find_lead (tidy, &behind);
  const char *bracket = strrchr (tidy, '('), *served_at = find_served (tidy);

  *title = (CroTitle){ 0 };
  if (end != NULL && read_yield (behind, title))
    title->name = dup_name (tidy, end);
  else if (bracket != NULL && bracket > tidy && g_str_has_suffix (bracket, ")")
           && read_yield (bracket + 1, title))
    title->name = dup_name (tidy, bracket);
  else if (served_at != NULL && read_yield (served_at, title))
    title->name = dup_name (tidy, served_at);
  else if (g_str_has_suffix (tidy, ":"))
    title->name = dup_name (tidy, tidy + strlen (tidy));
  else
    title->name = g_steal_pointer (&tidy);
  if (*title->name == '\0')
    {
      cro_title_clear (title);
      title->name = cro_name_dup_tidy (text);
    }
}

/* Where a text begins with a lead, what stands behind it; else NULL. */
static const char *
behind_lead (const char *text)
{
  for (guint i = 0; i < G_N_ELEMENTS (leads); i++)
    {
      gsize length = strlen (leads[i]);

      if (g_ascii_strncasecmp (text, leads[i], length) == 0 && strchr (" :", text[length]) != NULL
          && text[length] != '\0')
        return text + length + strspn (text + length, " :");
    }
  return NULL;
}

gboolean
cro_title_read_yield (const char *text,
                      CroTitle   *title)
{
  g_autofree char *tidy = cro_name_dup_tidy (text);
  const char *behind = behind_lead (tidy);

  *title = (CroTitle){ 0 };
  if (behind == NULL && !counts_served (tidy))
    return FALSE;
  if (!read_yield (behind != NULL ? behind : tidy, title))
    return FALSE;
  title->name = g_strdup ("");
  return TRUE;
}

void
cro_title_clear (CroTitle *title)
{
  g_free (title->name);
  *title = (CroTitle){ 0 };
}
