#include "cro-price-day.h"

#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-here.h"
#include "cro-model.h"
#include "cro-price-saying.h"
#include "cro-word-list.h"

#include <stdlib.h>
#include <string.h>

const char cro_price_day_words[]
    = "|tomorrow|demain|monday|tuesday|wednesday|thursday|friday|saturday|sunday|lundi|mardi|mercredi|jeudi|vendredi|"
      "samedi|dimanche|next|prochain|prochaine|prochains|prochaines|";
const char cro_price_week_words[] = "|week|wk|semaine|sem|weeks|wc|";

/* By their place in the week and in the year. */
static const char *const weekdays[] = {
  "|monday|mon|lundi|", "|tuesday|tue|tues|mardi|", "|wednesday|wed|mercredi|", "|thursday|thu|thur|thurs|jeudi|",
  "|friday|fri|vendredi|", "|saturday|sat|samedi|", "|sunday|sun|dimanche|",
};
static const char *const months[] = {
  "|january|jan|janvier|janv|", "|february|feb|fevrier|fevr|fev|", "|march|mar|mars|", "|april|apr|avril|avr|",
  "|may|mai|", "|june|jun|juin|", "|july|jul|juillet|juil|", "|august|aug|aout|", "|september|sep|sept|septembre|",
  "|october|oct|octobre|", "|november|nov|novembre|", "|december|dec|decembre|",
};

/* --- Tokens ------------------------------------------------------------------------------------------------- */

static guint
place_of (const GArray      *tokens,
          guint              i,
          const char *const *words,
          guint              n)
{
  guint place = 0;

  while (place < n && !cro_price_token_is (tokens, i, words[place]))
    place++;
  return place;
}

static guint
weekday_at (const GArray *tokens,
            guint         i)
{
  return place_of (tokens, i, weekdays, G_N_ELEMENTS (weekdays));
}

gboolean
cro_price_is_weekday_at (const GArray *tokens,
                         guint         i)
{
  return weekday_at (tokens, i) < G_N_ELEMENTS (weekdays);
}

gboolean
cro_price_is_month_word (const GArray *tokens,
                         guint         i)
{
  return place_of (tokens, i, months, G_N_ELEMENTS (months)) < G_N_ELEMENTS (months);
}

gboolean
cro_price_is_number_at (const GArray *tokens,
                        guint         i)
{
  const CroPriceToken *token = i < tokens->len ? &g_array_index (tokens, CroPriceToken, i) : NULL;

  return token != NULL
         && (token->kind == CRO_PRICE_TOKEN_NUMBER || token->kind == CRO_PRICE_TOKEN_DAY
             || (token->kind == CRO_PRICE_TOKEN_WORD && strpbrk (token->word, "0123456789") != NULL));
}

gboolean
cro_price_is_day_at (const GArray *tokens,
                     guint         i)
{
  const CroPriceToken *token = i < tokens->len ? &g_array_index (tokens, CroPriceToken, i) : NULL;

  return token != NULL
         && (token->kind == CRO_PRICE_TOKEN_DAY
             || (token->kind == CRO_PRICE_TOKEN_NUMBER
                 && (cro_price_is_month_word (tokens, i + 1) || cro_price_token_is (tokens, i + 1, "|st|nd|rd|th|er|")
                     || (i > 0 && (cro_price_is_month_word (tokens, i - 1)
                                   || cro_price_token_is (tokens, i - 1, cro_price_week_words))))));
}

gboolean
cro_price_is_month_at (const GArray *tokens,
                       guint         i)
{
  return cro_price_is_month_word (tokens, i)
         && (!cro_price_token_is (tokens, i, "|may|mar|mars|sep|") || (i > 0 && cro_price_is_number_at (tokens, i - 1))
             || cro_price_is_number_at (tokens, i + 1));
}

static gboolean
is_day_word (const GArray *tokens,
             guint         i)
{
  return cro_price_token_is (tokens, i, cro_price_week_words) || cro_price_token_is (tokens, i, cro_price_day_words)
         || cro_price_token_is (tokens, i, "|month|mois|");
}

gboolean
cro_price_is_time_word (const GArray *tokens,
                        guint         i)
{
  return is_day_word (tokens, i) || cro_price_is_month_word (tokens, i);
}

gboolean
cro_price_is_time_at (const GArray *tokens,
                      guint         i)
{
  return is_day_word (tokens, i) || cro_price_is_month_at (tokens, i) || cro_price_is_number_at (tokens, i);
}

/* --- Times -------------------------------------------------------------------------------------------------- */

static int
weekday_of (CroDate day)
{
  gint64 days = cro_date_to_seconds (day) / (24 * 60 * 60);

  /* 1 January 1970 was a Thursday. */
  return (int) (((days + 3) % 7 + 7) % 7);
}

static int
year_of (CroDate day)
{
  int year, month, of_month;

  cro_date_to_civil (day, &year, &month, &of_month);
  return year;
}

/* The nearest one of several years to a day. */
static CroDate
nearest (CroDate        to,
         const CroDate *days,
         guint          n)
{
  CroDate best = days[0];

  for (guint i = 1; i < n; i++)
    if (ABS (days[i] - to) < ABS (best - to))
      best = days[i];
  return best;
}

/* year: 0 where none is said. FALSE: no calendar has it. */
static gboolean
read_day (int      year,
          int      month,
          int      day,
          CroDate  near,
          CroDate *date)
{
  CroDate days[3];
  guint n = 0;

  if (year > 9999)
    return FALSE;
  if (month > 12 && day <= 12)
    return read_day (year, day, month, near, date);
  for (int y = year > 0 ? year : year_of (near) - 1; y <= (year > 0 ? year : year_of (near) + 1); y++)
    {
      char text[CRO_DATE_CHARS + 24];

      g_snprintf (text, sizeof text, "%04d-%02d-%02d", y < 100 ? 2000 + y : y, month, day);
      n += cro_date_parse (text, strlen (text), &days[n]);
    }
  if (n > 0)
    *date = nearest (near, days, n);
  return n > 0;
}

/* The Monday of a week of the year that is nearest. */
static CroDate
monday_of_week (int     week,
                CroDate near)
{
  CroDate mondays[3];

  for (int i = 0; i < 3; i++)
    {
      CroDate fourth = cro_date_from_civil (year_of (near) + i - 1, 1, 4);

      mondays[i] = fourth - weekday_of (fourth) + 7 * (week - 1);
    }
  return nearest (near, mondays, G_N_ELEMENTS (mondays));
}

/* A whole number of a token; -1: it has none. */
static int
number_at (const GArray *tokens,
           guint         i)
{
  const CroPriceToken *token = i < tokens->len ? &g_array_index (tokens, CroPriceToken, i) : NULL;

  return token != NULL && token->kind == CRO_PRICE_TOKEN_NUMBER && token->number != CRO_NOT_SET
                 && token->number % CRO_MICRO == 0 && token->number < 10000 * CRO_MICRO
             ? (int) (token->number / CRO_MICRO) : -1;
}

/* "2026" behind a month; 0: none. */
static int
year_at (const GArray *tokens,
         guint         i)
{
  const CroPriceToken *token = i < tokens->len ? &g_array_index (tokens, CroPriceToken, i) : NULL;

  return token != NULL && token->kind == CRO_PRICE_TOKEN_DAY && strlen (token->word) == 4 ? atoi (token->word) : 0;
}

/* "7/12", "07.12.2026", "2026-12-07"; "7-13" is none. */
static gboolean
read_written (const char *word,
              CroDate     near,
              CroPriceTime *time)
{
  int numbers[3] = { 0, 0, 0 };
  guint n = 0;

  if (strlen (word) == 4 && strspn (word, "0123456789") == 4)
    {
      *time = (CroPriceTime){ cro_date_from_civil (atoi (word), 1, 1), cro_date_from_civil (atoi (word), 12, 31),
                              FALSE };
      return TRUE;
    }
  for (const char *at = word; n < 3; n++)
    {
      /* No calendar has a fifth digit. */
      if (strspn (at, "0123456789") > 4)
        return FALSE;
      numbers[n] = atoi (at);
      at += strspn (at, "0123456789");
      if (*at == '\0')
        {
          n++;
          break;
        }
      at++;
    }
  if (n < 2 || (n == 2 && strchr (word, '/') == NULL))
    return FALSE;
  time->is_day = TRUE;
  if (!(numbers[0] > 31 ? read_day (numbers[0], numbers[1], numbers[2], near, &time->first)
                        : read_day (numbers[2], numbers[1], numbers[0], near, &time->first)))
    return FALSE;
  time->last = time->first;
  return TRUE;
}

/* "7 to 13 December", "7-13 December": the day with which it begins; 0: it is none. *n: its tokens. */
static int
range_at (const GArray *tokens,
          guint         i,
          guint        *n)
{
  const CroPriceToken *token = &g_array_index (tokens, CroPriceToken, i);
  guint next = i + 1;

  *n = 1;
  if (token->kind == CRO_PRICE_TOKEN_DAY && cro_price_is_month_word (tokens, i + 1)
      && strlen (token->word) <= strlen ("07-13")
      && strchr (token->word, '-') != NULL)
    return atoi (token->word);
  if (number_at (tokens, i) < 1)
    return 0;
  next += cro_price_token_is (tokens, next, "|st|nd|rd|th|er|");
  /* "7 – 13 December" */
  if (number_at (tokens, next) > number_at (tokens, i) && cro_price_is_month_word (tokens, next + 1))
    {
      *n = next - i;
      return number_at (tokens, i);
    }
  if (!cro_price_token_is (tokens, next, "|to|au|and|et|until|through|"))
    return 0;
  *n = next + 1 - i;
  return number_at (tokens, next + 1) > 0 ? number_at (tokens, i) : 0;
}

/* A day with the name of its month, "7th of December 2026", "December 7"; a month alone. How many tokens; 0: it is
 * none. */
static guint
read_named (const GArray *tokens,
            guint         i,
            CroDate       near,
            CroPriceTime *time)
{
  guint at = i, n_range = 0, month;
  int first = range_at (tokens, i, &n_range), day, year;

  if (first > 0 && number_at (tokens, i + n_range) > 0)
    at = i + n_range;
  day = number_at (tokens, at);
  if (g_array_index (tokens, CroPriceToken, at).kind == CRO_PRICE_TOKEN_DAY && first > 0)
    day = atoi (strchr (g_array_index (tokens, CroPriceToken, at).word, '-') + 1);
  at += day > 0;
  at += day > 0 && cro_price_token_is (tokens, at, "|st|nd|rd|th|er|");
  at += day > 0 && cro_price_token_is (tokens, at, "|of|de|d|");
  month = place_of (tokens, at, months, G_N_ELEMENTS (months)) + 1;
  if (month > G_N_ELEMENTS (months) || (day < 1 && !cro_price_is_month_at (tokens, at)))
    return 0;
  at++;
  if (day < 1 && number_at (tokens, at) > 0 && number_at (tokens, at) <= 31)
    {
      day = number_at (tokens, at++);
      at += cro_price_token_is (tokens, at, "|st|nd|rd|th|er|");
    }
  year = year_at (tokens, at);
  at += year > 0;
  time->is_day = day > 0 && first == 0;
  if (!read_day (year, (int) month, day > 0 ? day : 15, near, &time->first))
    return 0;
  time->last = time->first;
  if (day > 0 && first > 0 && first < day)
    time->first -= day - first;
  if (day < 1)
    {
      time->first = cro_date_from_civil (year_of (time->first), (int) month, 1);
      time->last = cro_date_from_civil (year_of (time->first) + (month == 12), (int) month % 12 + 1, 1) - 1;
    }
  return at - i;
}

/* "Week 50", "wk50", "S 50". */
static guint
read_week (const GArray *tokens,
           guint         i,
           CroDate       near,
           CroPriceTime *time)
{
  const CroPriceToken *token = &g_array_index (tokens, CroPriceToken, i);
  gsize letters = token->kind == CRO_PRICE_TOKEN_WORD ? strcspn (token->word, "0123456789") : 0;
  g_autofree char *before = letters > 0 ? g_strndup (token->word, letters) : NULL;
  gboolean is_joined = letters > 0 && token->word[letters] != '\0';
  int week = is_joined ? atoi (token->word + letters) : number_at (tokens, i + 1);

  if (before == NULL || week < 1 || week > 53
      || !(cro_price_is_among (before, cro_price_week_words) || cro_price_is_among (before, "|s|w|no|"))
      || (!is_joined && cro_price_is_among (before, "|s|w|no|wc|")) || cro_price_is_month_word (tokens, i + 2))
    return 0;
  time->first = monday_of_week (week, near);
  time->last = time->first + 6;
  time->is_day = FALSE;
  return is_joined ? 1 : 2;
}

/* "From the 7th", "à partir du 7", "Mon 7th": of the nearest month. */
static guint
read_day_of_month (const GArray *tokens,
                   guint         i,
                   CroDate       near,
                   CroPriceTime *time)
{
  gboolean is_ordinal = cro_price_token_is (tokens, i + 1, "|st|nd|rd|th|er|");
  guint before = i > 0 && cro_price_token_is (tokens, i - 1, "|the|du|le|") ? i - 1 : i;
  int day = number_at (tokens, i), year, month, of_month;
  CroDate days[3];
  guint n = 0;

  if (day < 1 || day > 31 || before == 0
      || !(is_ordinal ? cro_price_token_is (tokens, before - 1, "|from|for|until|till|to|des|compter|partir|jusqu|au|")
                            || cro_price_token_is (tokens, before - 1, "|valid|valable|valables|price|prices|")
                            || weekday_at (tokens, before - 1) < G_N_ELEMENTS (weekdays)
                      : (before < i && cro_price_token_is (tokens, before - 1, "|compter|partir|tarif|tarifs|prix|"))
                            || weekday_at (tokens, i - 1) < G_N_ELEMENTS (weekdays)))
    return 0;
  cro_date_to_civil (near, &year, &month, &of_month);
  for (int k = -1; k <= 1; k++)
    {
      int of = (month + k + 11) % 12 + 1;

      n += read_day (year + (month + k < 1 ? -1 : month + k > 12), of, day, near, &days[n]);
    }
  time->first = time->last = nearest (near, days, n);
  time->is_day = TRUE;
  return 1 + is_ordinal;
}

/* "Tomorrow", "next week", "semaine prochaine", "next Monday", "prices of last month", seen from a day. How many
 * tokens; 0: it is none. */
static guint
read_near (const GArray *tokens,
           guint         i,
           CroDate       near,
           CroPriceTime *time)
{
  static const char next[] = "|next|prochain|prochaine|", last[] = "|last|dernier|derniere|",
                    weeks[] = "|week|wk|semaine|", months_of[] = "|month|mois|";
  const guint step = cro_price_token_is (tokens, i, "|next|last|");
  const guint of = i + step, by = step ? i : i + 1,
              before = i > 0 && cro_price_token_is (tokens, i - 1, "|the|la|le|l|") ? i - 1 : i;
  /* "Down on last week" is no price of then. */
  const gboolean is_next = cro_price_token_is (tokens, by, next),
                 is_last = cro_price_token_is (tokens, by, last) && before > 0
                           && cro_price_token_is (tokens, before - 1, "|of|de|from|since|depuis|until|jusqu|as|");
  const int weekday = weekday_of (near);
  int year, month, day;

  if (cro_price_token_is (tokens, i, "|tomorrow|demain|yesterday|hier|"))
    {
      /* What is to hold from tomorrow is of that day. Yesterday's prices are no longer those of today. */
      time->is_day = cro_price_token_is (tokens, i, "|tomorrow|demain|");
      time->first = time->last = !time->is_day ? near - 1 : near == cro_here_today () + 1 ? near : near + 1;
      return 1;
    }
  if (!is_next && !is_last)
    return 0;
  time->is_day = weekday_at (tokens, of) < G_N_ELEMENTS (weekdays);
  if (time->is_day)
    time->first = time->last = near + ((int) weekday_at (tokens, of) - weekday + 6) % 7 + 1 - (is_last ? 7 : 0);
  else if (cro_price_token_is (tokens, of, weeks))
    {
      time->first = near - weekday + (is_next ? 7 : -7);
      time->last = time->first + 6;
    }
  else if (cro_price_token_is (tokens, of, months_of))
    {
      cro_date_to_civil (near, &year, &month, &day);
      month += is_next ? 1 : -1;
      year += month > 12 ? 1 : month < 1 ? -1 : 0;
      time->first = cro_date_from_civil (year, (month + 11) % 12 + 1, 1);
      time->last = time->first + 27;
    }
  else
    return 0;
  return 2;
}

/* What begins at a token. How many tokens; 0: none does. */
guint
cro_price_read_time (const GArray *tokens,
                     guint         i,
                     CroDate       near,
                     CroPriceTime *time)
{
  const CroPriceToken *token = &g_array_index (tokens, CroPriceToken, i);
  guint n = read_near (tokens, i, near, time), place;

  if (n == 0)
    n = read_named (tokens, i, near, time);
  if (n == 0)
    n = read_week (tokens, i, near, time);
  if (n == 0 && token->kind == CRO_PRICE_TOKEN_DAY)
    n = read_written (token->word, near, time);
  if (n == 0)
    n = read_day_of_month (tokens, i, near, time);
  if (n > 0)
    return n;
  /* "From Monday"; with a day behind it, that tells. */
  place = weekday_at (tokens, i);
  if (place == G_N_ELEMENTS (weekdays) || cro_price_is_number_at (tokens, i + 1)
      || cro_price_token_is (tokens, i + 1, "|the|le|"))
    return 0;
  time->first = time->last = near + ((int) place - weekday_of (near) + 7) % 7;
  time->is_day = TRUE;
  return 1;
}

/* "07/12/2026": whether it is nearer to a day as the twelfth of July than as the seventh of December. Common practice,
 * no source. */
static gboolean
is_nearer_otherwise (const char *word,
                     CroDate     date,
                     CroDate     near)
{
  gsize n = strspn (word, "0123456789");
  int first = atoi (word), second = word[n] != '\0' ? atoi (word + n + 1) : 0;
  int year, month, day;
  CroDate other;

  if (first > 12 || first == second || word[n] == '.')
    return FALSE;
  cro_date_to_civil (date, &year, &month, &day);
  other = cro_date_from_civil (year, day, month);
  return ABS (other - near) < ABS (date - near);
}

gboolean
cro_price_read_day (const char *text,
                    CroDate     near,
                    CroDate    *date)
{
  g_autoptr (GArray) tokens = cro_price_tokens_of (text);
  guint first = weekday_at (tokens, 0) < G_N_ELEMENTS (weekdays), n, n_parts = 1;
  const CroPriceToken *last = tokens->len > first ? &g_array_index (tokens, CroPriceToken, tokens->len - 1) : NULL;
  const char *year = last != NULL && last->kind == CRO_PRICE_TOKEN_DAY ? last->word : "";
  gsize digits;
  CroPriceTime time;

  for (; strpbrk (year, "./-") != NULL; n_parts++)
    year = strpbrk (year, "./-") + 1;
  digits = strspn (year, "0123456789");
  if (digits != strlen ("2026") && (digits != strlen ("26") || n_parts < 3))
    return FALSE;
  n = cro_price_read_time (tokens, first, cro_date_from_civil (2000, 1, 1), &time);
  if (first + n != tokens->len || !time.is_day)
    return FALSE;
  *date = time.first;
  return tokens->len > first + 1 || !is_nearer_otherwise (last->word, time.first, near);
}
