/* cro-number.h: numbers, money and dates as the user's locale writes them, through ICU.
 *
 * Units      Decimals in millionths; money in minor units of its currency.
 * Ownership  Texts returned are the caller's to free.
 * Source     Minor units: cro-currency.h; ICU follows local use instead. */
#pragma once

#include <glib.h>

#include "cro-date.h"

G_BEGIN_DECLS

/* Digits of a currency's minor unit; 2 for what is no currency, or NULL. */
int       cro_currency_digits   (const char *currency);

/* Millionths in its minor unit: 10000 of EUR. */
gint64    cro_currency_minor    (const char *currency);

/* The user's own currency, as the locale has it; NULL if it has none. */
char     *cro_locale_dup_currency (void);

/* Whether they who pay in it print on US Letter, and not on A4. Not the user's locale: a file is
 * the same whoever writes it. FALSE for NULL. */
gboolean  cro_currency_uses_letter (const char *currency);

/* Whether it is the code of a currency that is paid in: of ISO 4217, and not of a metal or a test. */
gboolean  cro_currency_is_code  (const char *code);

/* The codes of all currencies, sorted; NULL-terminated, owned. */
char    **cro_currency_dup_codes (void);

/* Its name in the user's language: "Euro". */
char     *cro_currency_dup_name (const char *currency);

/* Minor units with all their digits: "1 234,50". */
char     *cro_money_to_text     (gint64      minor,
                                 int         digits);

/* The most money whose minor units can be counted, so that rounded parts add up to it. */
double    cro_money_most        (int         digits);

/* A figure rounded to a number of decimals, half away from zero. trim: no zeros at its end. What is
 * not finite is "∞", and NaN "–". */
char     *cro_number_to_text    (double      value,
                                 int         digits,
                                 gboolean    trim);

/* 29.4 as the locale writes 29.4 %. */
char     *cro_pct_to_text       (double      pct,
                                 int         digits);

/* In middle length, as the locale has it; the first of a month in French "1er". */
char     *cro_date_to_text      (CroDate     date);

/* Characters of the longest of them, and the cursor behind it: how wide a field of a date is. */
int       cro_date_chars        (void);

/* With names of days and months, in the language of the sentences it stands in. pattern: of letters, as Unicode
 * Technical Standard 35, part 4, has them ("MMMM y"). */
char     *cro_date_in_words     (CroDate     date,
                                 const char *pattern);

/* Reads the whole of text as the locale writes a date in short or in middle length, or as its
 * numbers alone in that order: "1.12.", "1/12/26". A year of two digits is of this century; without
 * one, the day is the nearest to another. In the C locale the year stands first. FALSE if it is none. */
gboolean  cro_date_from_text    (const char *text,
                                 CroDate     nearest_to,
                                 CroDate    *date);

/* Reads a number as the locale writes it, exactly; the other decimal sign too where it cannot
 * be a grouping. FALSE if text is no number, has more than six decimals or is too large. */
gboolean  cro_number_parse      (const char *text,
                                 gint64     *micro);

G_END_DECLS
