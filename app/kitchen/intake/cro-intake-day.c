/* Days as tills write them: "2026-10-01", "01/10/2026", "10/01/26 19:32", "1.10.26". Whether the
 * day or the month stands first no single one may tell; the month that is entered does: it is the
 * order in which more rows are of it. */
#include "cro-intake-private.h"

#include "cro-entry.h"

#include <string.h>

/* Three numbers; how many digits the first has. FALSE: it is none of these. */
static gboolean
scan (const char *text,
      int         numbers[3],
      gsize      *first)
{
  const char *at = text + strspn (text, " ");

  *first = strspn (at, "0123456789");
  for (guint i = 0; i < 3; i++)
    {
      gsize n = strspn (at, "0123456789");

      if (n == 0 || n > 4)
        return FALSE;
      numbers[i] = (int) g_ascii_strtoll (at, NULL, 10);
      at += n;
      if (i == 2)
        break;
      if (*at == '\0' || strchr ("./-", *at) == NULL)
        return FALSE;
      at++;
    }
  return *at == '\0' || *at == ' ' || *at == 'T';
}

static gboolean
make (int      year,
      int      month,
      int      day,
      CroDate *date)
{
  char text[40];

  g_snprintf (text, sizeof text, "%04d-%02d-%02d", year < 100 ? 2000 + year : year, month, day);
  return cro_date_parse (text, strlen (text), date);
}

gboolean
cro_intake_day_read (const char *text,
                     gboolean    is_month_first,
                     CroDate    *date)
{
  g_auto (CroEntry) entry = { 0 };
  int numbers[3];
  gsize first;

  if (scan (text, numbers, &first))
    return first == 4       ? make (numbers[0], numbers[1], numbers[2], date)
           : is_month_first ? make (numbers[2], numbers[0], numbers[1], date)
                            : make (numbers[2], numbers[1], numbers[0], date);
  if (!cro_entry_date (text, &entry))
    return FALSE;
  *date = entry.date;
  return TRUE;
}

gboolean
cro_intake_day_is_month_first (const CroBrought *brought,
                               guint             first_row,
                               guint             column,
                               CroDate           first,
                               CroDate           last)
{
  guint n[2] = { 0 };

  for (guint row = first_row; row < brought->rows->len; row++)
    for (int order = 0; order < 2; order++)
      {
        CroDate day;

        if (cro_intake_day_read (cro_brought_get (brought, row, column)->text, order, &day)
            && day >= first && day <= last)
          n[order]++;
      }
  return n[1] > n[0];
}
