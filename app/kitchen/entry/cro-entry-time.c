#include "cro-entry-time.h"

#include <string.h>

#include "cro-decimal.h"
#include "cro-expression.h"
#include "cro-price-words.h"

#define MINUTES_PER_HOUR 60
#define DAYS_PER_WEEK 7

static const char *const hours[] = { "h", "hr", "hrs", "hour", "hours", "heure", "heures", NULL };
static const char *const minutes[] = { "m", "mn", "min", "mins", "minute", "minutes", NULL };
static const char *const days[] = { "d", "day", "days", "j", "jour", "jours", NULL };
/* Whoever is served: a guest, a cover, a portion. */
static const char *const covers[] = { "cover", "covers", "guest", "guests", "portion", "portions", "serving",
                                      "servings", "person", "persons", "people", "pax", "couvert", "couverts", "cvt",
                                      "cvts", "convive", "convives", "pers", "personne", "personnes", NULL };
static const char *const weeks[] = { "w", "wk", "wks", "week", "weeks", "sem", "semaine", "semaines", NULL };

/* A word with the space before it, and the full stop of a short one. */
static gsize
scan_word (const char        *text,
           const char *const *words)
{
  gsize space = cro_expression_space (text), bytes = cro_price_scan_word (text + space, words);

  if (bytes == 0)
    return 0;
  return space + bytes + (text[space + bytes] == '.');
}

static gboolean
fail (CroEntry       *entry,
      CroEntryStatus  status,
      const char     *text)
{
  entry->status = status;
  entry->start = 0;
  entry->end = strlen (text);
  return FALSE;
}

static gboolean
is_at_end (const char *text)
{
  return text[cro_expression_space (text)] == '\0';
}

/* So many of a larger unit become the smaller. */
static gboolean
multiply (CroEntry *entry,
          gint64    by)
{
  g_clear_pointer (&entry->understood, g_free);
  return !__builtin_mul_overflow (entry->micro, by, &entry->micro);
}

static gboolean
hold (CroEntry   *entry,
      const char *text)
{
  return entry->micro >= 0 || fail (entry, CRO_ENTRY_OUT_OF_RANGE, text);
}

/* "1:10": hours, and two digits of minutes. */
static gboolean
read_clock (const char *text,
            gint64     *micro)
{
  const char *at = text + cro_expression_space (text);
  gsize n_hours = strspn (at, "0123456789");
  const char *behind = at + n_hours;

  if (n_hours == 0 || n_hours > 4 || *behind != ':' || strspn (behind + 1, "0123456789") != 2 || behind[1] > '5'
      || !is_at_end (behind + 3))
    return FALSE;
  *micro = (g_ascii_strtoll (at, NULL, 10) * MINUTES_PER_HOUR + g_ascii_strtoll (behind + 1, NULL, 10)) * CRO_MICRO;
  return TRUE;
}

/* "10", "10 min" behind hours. */
static gboolean
add_minutes (CroEntry   *entry,
             const char *text,
             gsize       at)
{
  g_auto (CroEntry) more = { 0 };
  gsize bytes = cro_entry_scan_number (text + at, &more);

  if (bytes == 0 || more.micro < 0 || more.micro >= MINUTES_PER_HOUR * CRO_MICRO)
    return fail (entry, CRO_ENTRY_NOT_A_NUMBER, text);
  at += bytes;
  at += scan_word (text + at, minutes);
  if (!is_at_end (text + at))
    return fail (entry, CRO_ENTRY_NOT_A_NUMBER, text);
  return !__builtin_add_overflow (entry->micro, more.micro, &entry->micro) || fail (entry, CRO_ENTRY_TOO_LARGE, text);
}

static gboolean
read_minutes (const char *text,
              CroEntry   *entry)
{
  gsize at = cro_entry_scan_number (text, entry), bytes;

  if (at == 0)
    return FALSE;
  bytes = scan_word (text + at, hours);
  if (bytes > 0)
    {
      at += bytes;
      if (!multiply (entry, MINUTES_PER_HOUR))
        return fail (entry, CRO_ENTRY_TOO_LARGE, text);
      return (is_at_end (text + at) || add_minutes (entry, text, at)) && hold (entry, text);
    }
  at += scan_word (text + at, minutes);
  return is_at_end (text + at) ? hold (entry, text) : fail (entry, CRO_ENTRY_NOT_A_NUMBER, text);
}

static gboolean
read_days (const char *text,
           CroEntry   *entry)
{
  gsize at = cro_entry_scan_number (text, entry), bytes;

  if (at == 0)
    return FALSE;
  bytes = scan_word (text + at, weeks);
  if (bytes > 0 && !multiply (entry, DAYS_PER_WEEK))
    return fail (entry, CRO_ENTRY_TOO_LARGE, text);
  at += bytes > 0 ? bytes : scan_word (text + at, days);
  return is_at_end (text + at) ? hold (entry, text) : fail (entry, CRO_ENTRY_NOT_A_NUMBER, text);
}

static gboolean
asked_for (CroEntry *entry,
           CroAsked  asked,
           gboolean  is_read)
{
  entry->asked = asked;
  entry->range = CRO_RANGE_AT_LEAST_0;
  return is_read;
}

gboolean
cro_entry_minutes (const char *text,
                   CroEntry   *entry)
{
  gint64 clock;

  if (!read_clock (text, &clock))
    return asked_for (entry, CRO_ASKED_MINUTES, read_minutes (text, entry));
  *entry = (CroEntry){ .status = CRO_ENTRY_OK, .micro = clock };
  return asked_for (entry, CRO_ASKED_MINUTES, TRUE);
}

gboolean
cro_entry_days (const char *text,
                CroEntry   *entry)
{
  return asked_for (entry, CRO_ASKED_DAYS, read_days (text, entry));
}

gsize
cro_entry_scan_covers (const char *text)
{
  return scan_word (text, covers);
}

gboolean
cro_entry_covers (const char *text,
                  CroRange    range,
                  CroEntry   *entry)
{
  gsize at = cro_entry_scan_number (text, entry), bytes = at > 0 ? cro_entry_scan_covers (text + at) : 0;
  gboolean is_worded = bytes > 0 && is_at_end (text + at + bytes);
  g_autofree char *number = g_strndup (text, is_worded ? at : strlen (text));

  cro_entry_clear (entry);
  if (!cro_entry_number (number, range, entry))
    return FALSE;
  return entry->micro % CRO_MICRO == 0 || fail (entry, CRO_ENTRY_NOT_WHOLE, text);
}
