/* cro-price-day.h: words of time in what is said of prices, and whether those hold on a day by them.
 *
 * Words are of English and French; common practice, no source. A day without its year is the nearest one; of two
 * numbers the day stands first, 7/12, as both languages have it here. Weeks are those of ISO 8601 (week 1 has
 * 4 January; from memory). */
#pragma once

#include "cro-date.h"
#include "cro-price-token.h"

G_BEGIN_DECLS

/* Words of time, bounded by |. */
extern const char cro_price_day_words[];   /* "monday", "tomorrow" */
extern const char cro_price_week_words[];

/* Whether a token is a number of any kind, "30/11" and "3rd" too. */
gboolean cro_price_is_number_at (const GArray *tokens,
                                 guint         i);

/* Whether it is one of a day or a week. */
gboolean cro_price_is_day_at    (const GArray *tokens,
                                 guint         i);

/* A month of one meaning: "may" and "mars" are others beside no number. */
gboolean cro_price_is_month_at  (const GArray *tokens,
                                 guint         i);

/* A day, a week or a month. */
gboolean cro_price_is_time_at   (const GArray *tokens,
                                 guint         i);

/* A token that is of time by its word alone, "from May" too. */
gboolean cro_price_is_time_word (const GArray *tokens,
                                 guint         i);

/* The day that a text is, with its year, in any locale: "Monday 7 December 2026", "07.12.2026", "27/12/2026"; of
 * "07/12/2026" the day stands first, unless the other way round it is nearer to a day. FALSE: it is none, or more. */
gboolean cro_price_read_day     (const char *text,
                                 CroDate     near,
                                 CroDate    *date);

/* A time that a text has, by its first and its last day. */
typedef struct
{
  CroDate  first;
  CroDate  last;
  gboolean is_day;  /* it is but one */
} CroPriceTime;

/* What begins at a token, "7 December", "next week", seen from a day. How many tokens; 0: none does. */
guint    cro_price_read_time     (const GArray *tokens,
                                  guint         i,
                                  CroDate       near,
                                  CroPriceTime *time);

gboolean cro_price_is_weekday_at (const GArray *tokens,
                                  guint         i);

/* The name of a month, "may" too. */
gboolean cro_price_is_month_word (const GArray *tokens,
                                  guint         i);

G_END_DECLS
