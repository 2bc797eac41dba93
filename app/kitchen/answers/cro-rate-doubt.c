#include "cro-rate-doubt.h"

#include <math.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-second-look.h"

/* Rates as cro_store_read_rates gives them: those in force on a day. Owned; NULL on failure. */
static CroRows *
rates_on (CroBook  *book,
          CroDate   date,
          GError  **error)
{
  char text[CRO_DATE_CHARS];

  cro_date_format (date, text);
  return cro_store_read_rates (cro_book_get_store (book), text, error);
}

static double
rate_of (CroRows *rows)
{
  gint64 per = cro_rows_is_null (rows, 3) ? CRO_MICRO : cro_rows_get_int (rows, 3);

  return (double) cro_rows_get_int (rows, 2) / (double) per;
}

double
cro_rate_on (CroBook    *book,
             const char *currency,
             CroDate     date)
{
  g_autoptr (CroRows) rows = rates_on (book, date, NULL);

  while (rows != NULL && cro_rows_next (rows, NULL))
    if (strcmp (cro_rows_get_text (rows, 0), currency) == 0)
      return rate_of (rows);
  return NAN;
}

double
cro_rate_before (CroBook    *book,
                 const char *currency,
                 CroDate     date)
{
  return cro_rate_on (book, currency, date - 1);
}

/* Rates of one currency are seldom further apart, and one divided by a rate is nearer only where that is nearly 1. */
#define NEAR_RATE 0.05

/* Of 0.8711 after 1.1480: 1.1480. */
static gboolean
is_upside_down (double rate,
                double before)
{
  return fabs (rate * before - 1) <= NEAR_RATE && fabs (rate / before - 1) > NEAR_RATE
         && fabs (rate * before - 1) < fabs (rate / before - 1);
}

double
cro_rate_meant (double rate,
                double before)
{
  double slip = cro_doubt_slip (rate / before);

  if (!(rate > 0 && before > 0))
    return 0;
  if (is_upside_down (rate, before))
    return floor (1 / rate * 1e4 + 0.5) / 1e4;
  return slip != 0 ? rate / slip : 0;
}

gboolean
cro_rate_is_asked (double rate,
                   double before)
{
  return cro_rate_meant (rate, before) > 0
         || (rate > 0 && before > 0 && isfinite (rate / before) && fabs (rate / before - 1) > CRO_LOOK_BEYOND);
}

GHashTable *
cro_rates_in_force (CroBook  *book,
                    GError  **error)
{
  g_autoptr (GHashTable) dates = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autoptr (CroRows) rows = rates_on (book, cro_book_get_figures (book)->date, error);
  GError *failed = NULL;

  while (rows != NULL && cro_rows_next (rows, &failed))
    g_hash_table_insert (dates, g_strdup (cro_rows_get_text (rows, 0)),
                         g_strdup (cro_rows_get_text (rows, 1)));
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL ? g_steal_pointer (&dates) : NULL;
}

/* The rate of a row against the one before it. */
static gboolean
is_far (CroBook  *book,
        CroRows  *rows,
        CroDoubt *doubt)
{
  const char *currency = cro_rows_get_text (rows, 0), *from = cro_rows_get_text (rows, 1);
  double rate = rate_of (rows), before, meant;

  *doubt = (CroDoubt){ .kind = CRO_DOUBT_RATE, .ref = CRO_REF (CRO_REF_RATES, CRO_NO_SLOT),
                       .column = "rate_micro", .other = CRO_NO_SLOT,
                       .currency = g_intern_string (currency),
                       .is = cro_decimal_to_double (cro_rows_get_int (rows, 2)) };
  if (!cro_date_parse (from, strlen (from), &doubt->date))
    return FALSE;
  before = cro_rate_before (book, currency, doubt->date);
  meant = cro_rate_meant (rate, before);
  doubt->meant = meant > 0 ? doubt->is * meant / rate : NAN;
  return cro_rate_is_asked (rate, before);
}

/* rows: at the rate that is in force. Of the one before it where that was far from what stood before it and after it,
 * as of a price (cro_doubt_of_jump). */
static gboolean
is_doubtful (CroBook  *book,
             CroRows  *rows,
             CroDoubt *doubt)
{
  double rate = rate_of (rows);
  g_autoptr (CroRows) before = NULL;
  CroDoubt slip;

  if (!is_far (book, rows, doubt))
    return FALSE;
  before = rates_on (book, doubt->date - 1, NULL);
  while (before != NULL && cro_rows_next (before, NULL))
    if (strcmp (cro_rows_get_text (before, 0), doubt->currency) == 0 && is_far (book, before, &slip)
        && !cro_rate_is_asked (rate, cro_rate_before (book, doubt->currency, slip.date)))
      {
        *doubt = slip;
        doubt->is_past = TRUE;
        break;
      }
  return TRUE;
}

gboolean
cro_doubt_of_rate (CroBook    *book,
                   const char *currency,
                   CroDoubt   *doubt)
{
  g_autoptr (CroRows) rows = rates_on (book, cro_book_get_figures (book)->date, NULL);

  while (rows != NULL && cro_rows_next (rows, NULL))
    if (strcmp (cro_rows_get_text (rows, 0), currency) == 0)
      return is_doubtful (book, rows, doubt);
  return FALSE;
}

static int
compare_days (gconstpointer a,
              gconstpointer b)
{
  const CroDate *day = a, *other = b;

  return (*day > *other) - (*day < *other);
}

/* Days after the book's date from which rates hold, earliest first; elements CroDate. NULL on failure. */
static GArray *
days_to_come (CroBook  *book,
              GError  **error)
{
  static const char *const columns[] = { "from_date", NULL };
  CroDate today = cro_book_get_figures (book)->date;
  g_autoptr (GArray) days = g_array_new (FALSE, FALSE, sizeof (CroDate));
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (book), "rate", columns, error);
  GError *failed = NULL;

  while (rows != NULL && cro_rows_next (rows, &failed))
    {
      const char *from = cro_rows_get_text (rows, 0);
      CroDate day;

      if (cro_date_parse (from, strlen (from), &day) && day > today)
        g_array_append_val (days, day);
    }
  if (failed != NULL)
    g_propagate_error (error, failed);
  g_array_sort (days, compare_days);
  return rows != NULL && failed == NULL ? g_steal_pointer (&days) : NULL;
}

/* Of rates from a day on, which is not over; of the book's date, also of those from before it. */
static gboolean
add_rates_on (CroBook  *book,
              CroDate   day,
              GArray   *doubts,
              GError  **error)
{
  CroDate today = cro_book_get_figures (book)->date;
  g_autoptr (CroRows) rows = rates_on (book, day, error);
  GError *failed = NULL;
  CroDoubt doubt;

  while (rows != NULL && cro_rows_next (rows, &failed))
    if (is_doubtful (book, rows, &doubt))
      {
        if (day == today)
          g_array_append_val (doubts, doubt);
        else
          cro_doubt_add_coming (doubts, &doubt, today);
      }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}

gboolean
cro_doubts_add_rates (CroBook  *book,
                      GArray   *doubts,
                      GError  **error)
{
  g_autoptr (GArray) days = days_to_come (book, error);

  if (days == NULL || !add_rates_on (book, cro_book_get_figures (book)->date, doubts, error))
    return FALSE;
  for (guint i = 0; i < days->len; i++)
    if (i == 0 || g_array_index (days, CroDate, i) != g_array_index (days, CroDate, i - 1))
      if (!add_rates_on (book, g_array_index (days, CroDate, i), doubts, error))
        return FALSE;
  return TRUE;
}
