#include "cro-date.h"

static bool
is_leap (int year)
{
  return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

static int
days_in_month (int year,
               int month)
{
  static const int days[] = { 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31 };

  return days[month - 1] + (month == 2 && is_leap (year));
}

static bool
parse_digits (const char *text,
              int         n,
              int        *value)
{
  *value = 0;
  for (int i = 0; i < n; i++)
    {
      if (text[i] < '0' || text[i] > '9')
        return false;
      *value = *value * 10 + (text[i] - '0');
    }
  return true;
}

/* Years are counted from March, so that the leap day is the last of its year and
 * the days before each month follow one linear formula. */
CroDate
cro_date_from_civil (int year,
                     int month,
                     int day)
{
  int y = month <= 2 ? year - 1 : year;
  int m = month <= 2 ? month + 9 : month - 3;

  return 365 * y + y / 4 - y / 100 + y / 400 + (153 * m + 2) / 5 + day - 1 - 719468;
}

void
cro_date_to_civil (CroDate date,
                   int    *year,
                   int    *month,
                   int    *day)
{
  int days = date + 719468;
  int era = days / 146097;
  int of_era = days % 146097;
  int y = (of_era - of_era / 1460 + of_era / 36524 - of_era / 146096) / 365;
  int of_year = of_era - (365 * y + y / 4 - y / 100);
  int m = (5 * of_year + 2) / 153;

  *day = of_year - (153 * m + 2) / 5 + 1;
  *month = m < 10 ? m + 3 : m - 9;
  *year = y + era * 400 + (*month <= 2);
}

int64_t
cro_date_to_seconds (CroDate date)
{
  return (int64_t) date * 24 * 60 * 60;
}

bool
cro_month_parse (const char *text,
                 size_t      length,
                 CroDate    *first_day)
{
  int year, month;

  if (length != 7 || text[4] != '-' || !parse_digits (text, 4, &year)
      || !parse_digits (text + 5, 2, &month) || year < 1 || month < 1 || month > 12)
    return false;
  *first_day = cro_date_from_civil (year, month, 1);
  return true;
}

bool
cro_date_parse (const char *text,
                size_t      length,
                CroDate    *date)
{
  int year, month, day;
  CroDate first_day;

  if (length != 10 || text[7] != '-' || !cro_month_parse (text, 7, &first_day)
      || !parse_digits (text + 8, 2, &day))
    return false;
  cro_date_to_civil (first_day, &year, &month, &(int){ 0 });
  if (day < 1 || day > days_in_month (year, month))
    return false;
  *date = first_day + day - 1;
  return true;
}

void
cro_date_format (CroDate date,
                 char    text[CRO_DATE_CHARS])
{
  int year, month, day;

  cro_date_to_civil (date, &year, &month, &day);
  for (int i = 3; i >= 0; i--, year /= 10)
    text[i] = (char) ('0' + year % 10);
  text[4] = text[7] = '-';
  text[5] = (char) ('0' + month / 10);
  text[6] = (char) ('0' + month % 10);
  text[8] = (char) ('0' + day / 10);
  text[9] = (char) ('0' + day % 10);
  text[10] = '\0';
}
