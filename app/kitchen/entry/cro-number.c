#include "cro-number.h"

#include <locale.h>
#include <math.h>
#include <string.h>
#include <unicode/ucal.h>
#include <unicode/ucurr.h>
#include <unicode/udat.h>
#include <unicode/ulocdata.h>
#include <unicode/unum.h>
#include <unicode/ustring.h>

#include "cro-currency.h"
#include "cro-decimal.h"
#include "cro-money.h"
#include "cro-text-order.h"
#include "cro-tongue.h"

/* Longest number or date written. */
#define MOST_CHARS 128

/* --- Currencies ----------------------------------------------------------------------------------- */

int
cro_currency_digits (const char *currency)
{
  int digits;

  return currency != NULL && cro_currency_find (currency, strlen (currency), &digits)
                 && digits >= 0
             ? digits
             : 2;
}

gint64
cro_currency_minor (const char *currency)
{
  gint64 micro = CRO_MICRO;

  /* No currency of ISO 4217 has more than four digits. */
  for (int digits = cro_currency_digits (currency); digits > 0; digits--)
    micro /= 10;
  return micro;
}

/* The locale of a category as ICU names it: a file's own, or what the C library was given. */
static const char *
locale_of (int category)
{
  const char *of_file = cro_tongue_locale ();
  const char *name = of_file != NULL ? of_file : setlocale (category, NULL);

  /* "C" is no locale of ICU's; this one writes numbers as C does. */
  if (name == NULL || g_str_has_prefix (name, "C") || strcmp (name, "POSIX") == 0)
    return "en_US_POSIX";
  return name;
}

char *
cro_locale_dup_currency (void)
{
  const char *locale = locale_of (LC_MONETARY);
  UChar code[4];
  char currency[4];
  UErrorCode status = U_ZERO_ERROR;

  if (strcmp (locale, "en_US_POSIX") == 0)
    return NULL;
  ucurr_forLocale (locale, code, G_N_ELEMENTS (code), &status);
  if (U_FAILURE (status))
    return NULL;
  u_austrncpy (currency, code, sizeof currency);
  currency[3] = '\0';
  return g_strdup (currency);
}

gboolean
cro_currency_is_code (const char *code)
{
  int digits;

  return cro_currency_find (code, strlen (code), &digits) && digits >= 0;
}

char **
cro_currency_dup_codes (void)
{
  g_autoptr (GPtrArray) sorted = g_ptr_array_new ();
  char code[4];

  for (gsize i = 0; cro_currency_list (i, code); i++)
    g_ptr_array_add (sorted, g_strdup (code));
  g_ptr_array_sort (sorted, cro_text_order);
  g_ptr_array_add (sorted, NULL);
  return (char **) g_ptr_array_free (g_steal_pointer (&sorted), FALSE);
}

char *
cro_currency_dup_name (const char *currency)
{
  UChar code[4];
  UBool is_symbol;
  int32_t length;
  UErrorCode status = U_ZERO_ERROR;
  const UChar *name;

  if (strlen (currency) != 3)
    return g_strdup (currency);
  u_uastrcpy (code, currency);
  name = ucurr_getName (code, cro_tongue_spoken (), UCURR_LONG_NAME, &is_symbol, &length, &status);
  return U_SUCCESS (status) ? g_utf16_to_utf8 ((const gunichar2 *) name, length, NULL, NULL, NULL)
                            : g_strdup (currency);
}

/* A code of ISO 4217 begins with that of a country. */
gboolean
cro_currency_uses_letter (const char *currency)
{
  g_autofree char *locale = NULL;
  UErrorCode status = U_ZERO_ERROR;
  int32_t height = 0, width = 0;

  if (currency == NULL || strlen (currency) != 3)
    return FALSE;
  locale = g_strdup_printf ("und_%.2s", currency);
  ulocdata_getPaperSize (locale, &height, &width, &status);
  /* US Letter is 279 mm high, A4 297. */
  return U_SUCCESS (status) && height < 290;
}

/* --- Writing ------------------------------------------------------------------------------------------ */

/* What is made for a locale: of each kind one, as what changes in one is worked out anew. */
typedef struct
{
  char       *locale;
  GHashTable *formats;
} Made;

/* The formats of that locale. */
static GHashTable *
made_for (Made           *made,
          const char     *locale,
          GDestroyNotify  close)
{
  if (made->formats != NULL && strcmp (made->locale, locale) == 0)
    return made->formats;
  g_clear_pointer (&made->formats, g_hash_table_unref);
  g_free (made->locale);
  made->locale = g_strdup (locale);
  made->formats = g_hash_table_new_full (NULL, NULL, NULL, close);
  return made->formats;
}

static UNumberFormat *
number_format_new (const char *locale,
                   int         fewest,
                   int         most)
{
  UErrorCode status = U_ZERO_ERROR;
  UNumberFormat *format = unum_open (UNUM_DECIMAL, NULL, 0, locale, NULL, &status);

  g_assert (U_SUCCESS (status));
  unum_setAttribute (format, UNUM_ROUNDING_MODE, UNUM_ROUND_HALFUP);
  /* U+2212 everywhere, also where locales of ICU have the hyphen of a keyboard. */
  unum_setSymbol (format, UNUM_MINUS_SIGN_SYMBOL, (const UChar[]){ 0x2212, 0 }, 1, &status);
  if (strcmp (locale, "en_US_POSIX") == 0)
    unum_setAttribute (format, UNUM_GROUPING_USED, FALSE);
  unum_setAttribute (format, UNUM_MIN_FRACTION_DIGITS, fewest);
  unum_setAttribute (format, UNUM_MAX_FRACTION_DIGITS, most);
  return format;
}

/* Making one takes longer than a thousand numbers. */
static UNumberFormat *
number_format (int fewest,
               int most)
{
  static Made made;
  const char *locale = locale_of (LC_NUMERIC);
  GHashTable *formats = made_for (&made, locale, (GDestroyNotify) unum_close);
  gpointer key = GINT_TO_POINTER (fewest << 8 | most);
  UNumberFormat *format = g_hash_table_lookup (formats, key);

  if (format == NULL)
    g_hash_table_insert (formats, key, format = number_format_new (locale, fewest, most));
  return format;
}

/* To read and to look at, which the digits make no difference to. */
static UNumberFormat *
any_number_format (void)
{
  return number_format (0, 6);
}

static UDateFormat *
date_format (UDateFormatStyle style)
{
  static Made made;
  const char *locale = locale_of (LC_TIME);
  GHashTable *formats = made_for (&made, locale, (GDestroyNotify) udat_close);
  UDateFormat *format = g_hash_table_lookup (formats, GINT_TO_POINTER (style));
  UErrorCode status = U_ZERO_ERROR;
  UChar utc[8];

  if (format != NULL)
    return format;
  u_uastrcpy (utc, "UTC");
  format = udat_open (UDAT_NONE, style, locale, utc, -1, NULL, 0, &status);
  g_assert (U_SUCCESS (status));
  udat_setLenient (format, FALSE);
  g_hash_table_insert (formats, GINT_TO_POINTER (style), format);
  return format;
}

static char *
to_utf8 (const UChar *text,
         int32_t      length)
{
  return g_utf16_to_utf8 (text, length, NULL, NULL, NULL);
}

/* The same in a text of its own, for a figure of hundreds of digits. */
static char *
localize_long (UNumberFormat *format,
               const char    *decimal,
               int32_t        length)
{
  g_autofree UChar *text = g_new (UChar, length + 1);
  UErrorCode status = U_ZERO_ERROR;

  unum_formatDecimal (format, decimal, (int32_t) strlen (decimal), text, length + 1, NULL, &status);
  g_assert (U_SUCCESS (status));
  return to_utf8 (text, length);
}

/* Exact text of -?digits[.digits] as the locale writes it. */
static char *
localize (const char *decimal,
          int         fewest,
          int         most)
{
  UNumberFormat *format = number_format (fewest, most);
  UChar text[MOST_CHARS];
  UErrorCode status = U_ZERO_ERROR;
  int32_t length;

  length = unum_formatDecimal (format, decimal, (int32_t) strlen (decimal), text, MOST_CHARS, NULL,
                               &status);
  if (status == U_BUFFER_OVERFLOW_ERROR)
    return localize_long (format, decimal, length);
  g_assert (U_SUCCESS (status));
  return to_utf8 (text, length);
}

char *
cro_money_to_text (gint64 minor,
                   int    digits)
{
  guint64 size = minor < 0 ? -(guint64) minor : (guint64) minor;
  guint64 unit = 1;
  g_autofree char *decimal = NULL;

  for (int i = 0; i < digits; i++)
    unit *= 10;
  decimal = g_strdup_printf ("%s%" G_GUINT64_FORMAT ".%0*" G_GUINT64_FORMAT, minor < 0 ? "-" : "",
                             size / unit, MAX (digits, 1), size % unit);
  return localize (decimal, digits, digits);
}

double
cro_money_most (int digits)
{
  return 0x1p62 / pow (10, digits);
}

char *
cro_number_to_text (double   value,
                    int      digits,
                    gboolean trim)
{
  char decimal[G_ASCII_DTOSTR_BUF_SIZE + 320];

  if (isnan (value))
    return g_strdup ("–");
  if (isinf (value))
    return g_strdup (value > 0 ? "∞" : "−∞");
  /* Beyond what money can be, digits after the point say nothing. */
  if (fabs (value) < 1e9)
    {
      char *text = NULL;
      gint64 minor = cro_money_round (value, digits);
      double scale = pow (10, digits);

      g_ascii_formatd (decimal, sizeof decimal, "%.6f", (double) minor / scale);
      text = localize (decimal, trim ? 0 : digits, digits);
      return text;
    }
  g_ascii_formatd (decimal, sizeof decimal, "%.0f", value);
  return localize (decimal, 0, 0);
}

char *
cro_pct_to_text (double pct,
                 int    digits)
{
  g_autofree char *number = cro_number_to_text (pct, digits, FALSE);

  /* SI and ISO 80000-1: a space between the number and the sign. It does not break. */
  return g_strconcat (number, "\302\240%", NULL);
}

/* A pattern as it writes a day: in French the first of a month is an ordinal, "1er", and the others are not (Imprimerie
 * nationale, Lexique des règles typographiques, from memory); a year is of four digits, as ISO 8601 has it. Owned. */
static char *
dup_pattern (const char *pattern,
             const char *locale,
             CroDate     date)
{
  g_autoptr (GString) of_day = g_string_new (NULL);
  gboolean is_quoted = FALSE, is_french = g_str_has_prefix (locale, "fr") && !g_ascii_isalpha (locale[2]);
  int year, month, day;

  cro_date_to_civil (date, &year, &month, &day);
  for (const char *at = pattern; *at != '\0'; at++)
    {
      gboolean is_alone = !is_quoted && at[1] != *at && (at == pattern || at[-1] != *at);

      is_quoted ^= *at == '\'';
      g_string_append_c (of_day, *at);
      if (is_alone && *at == 'd' && day == 1 && is_french)
        g_string_append (of_day, "'er'");
      else if (is_alone && *at == 'y' && year < 1000)
        g_string_append (of_day, "yyy");
    }
  return g_string_free (g_steal_pointer (&of_day), FALSE);
}

static char *
write_date (Made       *made,
            const char *locale,
            const char *pattern,
            CroDate     date)
{
  g_autofree char *of_day = dup_pattern (pattern, locale, date);
  const char *key = g_intern_string (of_day);
  GHashTable *formats = made_for (made, locale, (GDestroyNotify) udat_close);
  UDateFormat *format = g_hash_table_lookup (formats, key);
  UErrorCode status = U_ZERO_ERROR;
  UChar utc[8], letters[MOST_CHARS], text[MOST_CHARS];
  int32_t length;

  if (format == NULL)
    {
      u_uastrcpy (utc, "UTC");
      u_strFromUTF8 (letters, MOST_CHARS, NULL, key, -1, &status);
      format = udat_open (UDAT_PATTERN, UDAT_PATTERN, locale, utc, -1, letters, -1, &status);
      g_assert (U_SUCCESS (status));
      g_hash_table_insert (formats, (gpointer) key, format);
    }
  length = udat_format (format, date * 86400000.0, text, MOST_CHARS, NULL, &status);
  g_assert (U_SUCCESS (status));
  return to_utf8 (text, length);
}

char *
cro_date_to_text (CroDate date)
{
  static Made made;
  const char *locale = locale_of (LC_TIME);
  g_autofree char *pattern = NULL;
  UErrorCode status = U_ZERO_ERROR;
  UChar letters[MOST_CHARS];
  int32_t length;
  char iso[CRO_DATE_CHARS];

  if (strcmp (locale, "en_US_POSIX") == 0)
    {
      cro_date_format (date, iso);
      return g_strdup (iso);
    }
  length = udat_toPattern (date_format (UDAT_MEDIUM), FALSE, letters, MOST_CHARS, &status);
  g_assert (U_SUCCESS (status));
  pattern = to_utf8 (letters, length);
  return write_date (&made, locale, pattern, date);
}

int
cro_date_chars (void)
{
  glong most = 0;

  for (int month = 1; month <= 12; month++)
    for (int day = 1; day <= 28; day += 27)
      {
        g_autofree char *text = cro_date_to_text (cro_date_from_civil (2028, month, day));

        most = MAX (most, g_utf8_strlen (text, -1));
      }
  return (int) most + 1;
}

char *
cro_date_in_words (CroDate     date,
                   const char *pattern)
{
  static Made made;

  return write_date (&made, cro_tongue_spoken (), pattern, date);
}

/* --- Reading --------------------------------------------------------------------------------------------- */

/* What ICU returns exactly may have an exponent: "1.25E+3". Writes it out. */
static gboolean
take_exponent (const char *text,
               gint64     *micro)
{
  const char *e = strpbrk (text, "Ee");
  gint64 exponent = e != NULL ? g_ascii_strtoll (e + 1, NULL, 10) : 0;
  gsize length = e != NULL ? (gsize) (e - text) : strlen (text);
  const char *point = memchr (text, '.', length);
  g_autoptr (GString) plain = g_string_new_len (text, (gssize) length);
  gssize places = point != NULL ? (gssize) length - (point - text) - 1 : 0;
  gsize sign = text[0] == '-';

  if (exponent < -30 || exponent > 30)
    return FALSE;
  if (point != NULL)
    g_string_erase (plain, point - text, 1);
  for (places -= exponent; places < 0; places++)
    g_string_append_c (plain, '0');
  while ((gssize) (plain->len - sign) <= places)
    g_string_insert_c (plain, (gssize) sign, '0');
  if (places > 0)
    g_string_insert_c (plain, (gssize) plain->len - places, '.');
  while (places > 6 && g_str_has_suffix (plain->str, "0"))
    {
      g_string_truncate (plain, plain->len - 1);
      places--;
    }
  return cro_decimal_parse (plain->str, plain->len, micro) == CRO_DECIMAL_OK;
}

static gboolean
parse_in_locale (const char *text,
                 gint64     *micro)
{
  UErrorCode status = U_ZERO_ERROR;
  glong length;
  g_autofree gunichar2 *wide = g_utf8_to_utf16 (text, -1, NULL, &length, NULL);
  char decimal[MOST_CHARS];
  int32_t end = 0;
  int32_t n;

  if (wide == NULL)
    return FALSE;
  n = unum_parseDecimal (any_number_format (), wide, (int32_t) length, &end, decimal, MOST_CHARS - 1,
                         &status);
  if (U_FAILURE (status) || end != length)
    return FALSE;
  decimal[n] = '\0';
  return take_exponent (decimal, micro);
}

/* Whether the locale groups digits with this sign, which then may mean nothing else. */
static gboolean
is_grouping (char sign)
{
  UChar symbol[8];
  UErrorCode status = U_ZERO_ERROR;
  int32_t length = unum_getSymbol (any_number_format (), UNUM_GROUPING_SEPARATOR_SYMBOL, symbol,
                                   G_N_ELEMENTS (symbol), &status);

  return U_SUCCESS (status) && length == 1 && symbol[0] == (UChar) sign;
}

/* One to three digits that do not begin with 0, and three behind the sign: "1.234", which a
 * locale may read as one thousand. */
static gboolean
looks_grouped (const char *digits,
               const char *sign)
{
  return sign > digits && sign - digits <= 3 && *digits != '0' && strlen (sign + 1) == 3;
}

/* The numeric pad types a point whatever the locale: one sign, once, that cannot be a grouping,
 * is a decimal sign. Digits may lack before or behind it, not both. */
static gboolean
parse_either_sign (const char *text,
                   gint64     *micro)
{
  const char *digits = text + (*text == '-');
  const char *sign = strpbrk (digits, ".,");
  g_autoptr (GString) plain = NULL;

  if (sign == NULL || strpbrk (sign + 1, ".,") != NULL
      || (looks_grouped (digits, sign) && is_grouping (*sign)))
    return FALSE;
  plain = g_string_new_len (text, sign - text);
  if (sign == digits && sign[1] != '\0')
    g_string_append_c (plain, '0');
  if (sign[1] != '\0')
    g_string_append_printf (plain, ".%s", sign + 1);
  return cro_decimal_parse (plain->str, plain->len, micro) == CRO_DECIMAL_OK;
}

static gboolean
parse_date (const UChar     *text,
            int32_t          length,
            UDateFormatStyle style,
            CroDate         *date)
{
  UErrorCode status = U_ZERO_ERROR;
  UDate parsed;
  int32_t end = 0;
  int year, month, day;

  parsed = udat_parse (date_format (style), text, length, &end, &status);
  /* Beyond the years that dates have. */
  if (U_FAILURE (status) || end != length || fabs (parsed) > 1e14)
    return FALSE;
  cro_date_to_civil ((CroDate) floor (parsed / 86400000.0), &year, &month, &day);
  if (year < 1 || year > 9999)
    return FALSE;
  *date = cro_date_from_civil (year < 100 ? year + 2000 : year, month, day);
  return TRUE;
}

/* The order in which the locale writes day, month and year: "dMy"; FALSE where its calendar is another
 * than that of dates here. */
static gboolean
read_order (char order[4])
{
  UErrorCode status = U_ZERO_ERROR;
  UDateFormat *format = date_format (UDAT_SHORT);
  UChar pattern[MOST_CHARS];
  int32_t length = udat_toPattern (format, FALSE, pattern, MOST_CHARS, &status);
  gboolean is_ours = U_SUCCESS (status)
                     && strcmp (ucal_getType (udat_getCalendar (format), &status), "gregorian") == 0;
  int n = 0;

  for (int32_t i = 0; is_ours && i < length; i++)
    {
      char letter = pattern[i] == 'L' ? 'M' : (char) pattern[i];

      if (pattern[i] < 128 && strchr ("dMy", letter) != NULL && memchr (order, letter, (gsize) n) == NULL)
        order[n++] = letter;
    }
  order[n] = '\0';
  return is_ours && n == 3;
}

/* The numbers of a text that holds no letters, in any digits; 0: it holds letters, or more than most. */
static int
read_numbers (const char *text,
              int         most,
              int        *numbers)
{
  gboolean is_in_one = FALSE;
  int n = 0;

  for (; *text != '\0'; text = g_utf8_next_char (text))
    {
      gunichar sign = g_utf8_get_char (text);
      int digit = g_unichar_digit_value (sign);

      if (digit < 0 && g_unichar_isalnum (sign))
        return 0;
      if (digit >= 0 && !is_in_one && n == most)
        return 0;
      if (digit >= 0 && !is_in_one)
        numbers[n++] = 0;
      if (digit >= 0)
        numbers[n - 1] = MIN (numbers[n - 1] * 10 + digit, 99999);
      is_in_one = digit >= 0;
    }
  return n;
}

static gboolean
civil_date (int      year,
            int      month,
            int      day,
            CroDate *date)
{
  int is_year, is_month, is_day;

  if (year < 1 || year > 9999 || month < 1 || month > 12 || day < 1 || day > 31)
    return FALSE;
  *date = cro_date_from_civil (year, month, day);
  cro_date_to_civil (*date, &is_year, &is_month, &is_day);
  return is_month == month && is_day == day;
}

/* The nearest such day: on 28 November "1.12." is to come, and "20.11." is over. */
static gboolean
date_of_nearest_year (int      month,
                      int      day,
                      CroDate  nearest_to,
                      CroDate *date)
{
  gboolean has_one = FALSE;
  int year, of_month, of_day;

  cro_date_to_civil (nearest_to, &year, &of_month, &of_day);
  for (int i = year - 1; i <= year + 1; i++)
    {
      CroDate found;

      if (civil_date (i, month, day, &found)
          && (!has_one || ABS (found - nearest_to) < ABS (*date - nearest_to)))
        {
          *date = found;
          has_one = TRUE;
        }
    }
  return has_one;
}

/* As ISO 8601 has it, without its zeros. */
static gboolean
parse_year_first (const char *text,
                  CroDate    *date)
{
  int numbers[3];

  return read_numbers (text, 3, numbers) == 3 && numbers[0] > 31
         && civil_date (numbers[0], numbers[1], numbers[2], date);
}

/* Without the zeros, the signs or the year that the locale's form has. */
static gboolean
parse_numbers (const char *text,
               CroDate     nearest_to,
               CroDate    *date)
{
  char order[4];
  int numbers[3], parts[3] = { 0 };
  int n = read_numbers (text, 3, numbers);

  if (n < 2 || !read_order (order))
    return FALSE;
  for (int i = 0, next = 0; i < 3; i++)
    {
      int part = order[i] == 'd' ? 0 : order[i] == 'M' ? 1 : 2;

      if (n == 3 || part < 2)
        parts[part] = numbers[next++];
    }
  if (n == 2)
    return date_of_nearest_year (parts[1], parts[0], nearest_to, date);
  return civil_date (parts[2] < 100 ? parts[2] + 2000 : parts[2], parts[1], parts[0], date);
}

/* "1er déc. 2026" as the locale has it otherwise. Owned. */
static char *
dup_cardinal (const char *text)
{
  const char *at = strstr (text, "1er");

  if (at == NULL || (at > text && g_ascii_isdigit (at[-1])) || g_unichar_isalnum (g_utf8_get_char (at + 3)))
    return g_strdup (text);
  return g_strdup_printf ("%.*s%s", (int) (at + 1 - text), text, at + 3);
}

gboolean
cro_date_from_text (const char *typed,
                    CroDate     nearest_to,
                    CroDate    *date)
{
  glong length;
  g_autofree char *text = dup_cardinal (typed);
  g_autofree gunichar2 *wide = g_utf8_to_utf16 (text, -1, NULL, &length, NULL);

  if (strcmp (locale_of (LC_TIME), "en_US_POSIX") == 0)
    return parse_year_first (text, date);
  if (wide == NULL)
    return FALSE;
  return parse_date (wide, (int32_t) length, UDAT_SHORT, date)
         || parse_date (wide, (int32_t) length, UDAT_MEDIUM, date)
         || parse_year_first (text, date) || parse_numbers (text, nearest_to, date);
}

gboolean
cro_number_parse (const char *text,
                  gint64     *micro)
{
  const char *minus = "\342\210\222";
  g_autofree char *stripped = g_strstrip (g_str_has_prefix (text, minus)
                                              ? g_strconcat ("-", text + strlen (minus), NULL)
                                              : g_strdup (text));

  return parse_either_sign (stripped, micro) || parse_in_locale (stripped, micro);
}
