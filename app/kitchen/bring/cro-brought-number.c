#include "cro-brought-number.h"

#include <string.h>

#include "cro-decimal.h"
#include "cro-price-words.h"

/* U+00A0, U+202F, U+2009 and the apostrophe of Swiss numbers stand between digits as a space does. */
static gsize
scan_space (const char *text)
{
  static const char *const spaces[] = { " ", "\xC2\xA0", "\xE2\x80\xAF", "\xE2\x80\x89", "'", "\xE2\x80\x99" };

  for (guint i = 0; i < G_N_ELEMENTS (spaces); i++)
    if (g_str_has_prefix (text, spaces[i]))
      return strlen (spaces[i]);
  return 0;
}

const char *
cro_token_skip (const char *text,
                gboolean    is_money)
{
  for (gsize n = 1; n > 0 && *text != '\0';)
    {
      gboolean is_own;

      n = scan_space (text);
      if (n == 0 && is_money)
        n = cro_currency_scan (text, NULL, &is_own);
      text += n;
    }
  return text;
}

static gsize
count_digits (const char *text)
{
  gsize n = 0;

  while (g_ascii_isdigit (text[n]))
    n++;
  return n;
}

/* The number that begins text as its digits and signs, spaces between three digits as ' '; where it
 * ends. "17,-" is 17,00. */
const char *
cro_token_scan (const char *text,
                GString    *token)
{
  for (;;)
    {
      gsize space = scan_space (text), even = token->len > 0 ? cro_price_scan_even (text) : 0;

      if (g_ascii_isdigit (*text) || ((*text == '.' || *text == ',') && g_ascii_isdigit (text[1])))
        g_string_append_c (token, *text++);
      else if (space > 0 && token->len > 0 && count_digits (text + space) == 3)
        {
          g_string_append_c (token, ' ');
          text += space;
        }
      else if (even > 0)
        {
          g_string_append_printf (token, "%c00", *text);
          return text + even;
        }
      else
        return text;
    }
}

/* "1.234.567"; not "28.11.2026". */
static gboolean
groups (const char *token)
{
  gsize first = count_digits (token);

  if (first < 1 || first > 3)
    return FALSE;
  for (const char *at = token + first; *at != '\0'; at += 4)
    if (count_digits (at + 1) != 3)
      return FALSE;
  return TRUE;
}

guint
cro_token_signs (const char *token)
{
  const char *point = strrchr (token, '.'), *comma = strrchr (token, ',');
  const char *last = point > comma ? point : comma;
  gboolean is_comma = last != NULL && *last == ',';
  gsize before;

  if (last == NULL)
    return 0;
  if ((point != NULL && comma != NULL) || strchr (token, ' ') != NULL)
    return is_comma ? CRO_SIGN_COMMA_DECIMAL : CRO_SIGN_POINT_DECIMAL;
  if (strchr (token, *last) != last)
    return groups (token) ? (is_comma ? CRO_SIGN_COMMA_GROUPS : CRO_SIGN_POINT_GROUPS) : 0;
  before = (gsize) (last - token);
  if (count_digits (last + 1) == 3 && before >= 1 && before <= 3 && *token != '0')
    return CRO_SIGN_EITHER;
  return is_comma ? CRO_SIGN_COMMA_DECIMAL : CRO_SIGN_POINT_DECIMAL;
}

guint
cro_token_signs_of_cell (const CroReadCell *cell)
{
  g_autoptr (GString) token = g_string_new (NULL);
  const char *text = cro_token_skip (cell->text, TRUE);

  if (cell->kind != CRO_READ_CELL_TEXT)
    return 0;
  cro_token_scan (*text == '-' ? cro_token_skip (text + 1, TRUE) : text, token);
  return cro_token_signs (token->str);
}

/* '\0': they say nothing, or say both. */
char
cro_token_decimal (guint signs)
{
  gboolean comma = (signs & (CRO_SIGN_COMMA_DECIMAL | CRO_SIGN_POINT_GROUPS)) != 0;
  gboolean point = (signs & (CRO_SIGN_POINT_DECIMAL | CRO_SIGN_COMMA_GROUPS)) != 0;

  return comma == point ? '\0' : comma ? ',' : '.';
}

/* Digits with a point into number. A sign that groups is dropped before exactly three digits only.
 * FALSE: it is no number. */
gboolean
cro_token_take (const char *token,
                char        decimal,
                GString    *number)
{
  gssize first = 0;

  for (const char *at = token; *at != '\0'; at++)
    if (g_ascii_isdigit (*at))
      g_string_append_c (number, *at);
    else if (*at == decimal)
      {
        g_string_append_c (number, '.');
        /* Nothing groups behind it, and no other is decimal. */
        if (at[1 + count_digits (at + 1)] != '\0')
          return FALSE;
      }
    else if (at == token || (first == 0 && at - token > 3) || count_digits (at + 1) != 3)
      return FALSE;
    else
      first = at - token;
  return *token != '\0';
}

/* Spreadsheets keep more decimals than anybody typed. */
gboolean
cro_token_read (const GString *number,
                gint64        *micro)
{
  CroDecimalStatus status = cro_decimal_parse (number->str, number->len, micro);

  if (status != CRO_DECIMAL_TOO_MANY_PLACES)
    return status == CRO_DECIMAL_OK && cro_decimal_may_be_entered (*micro);
  /* What is not 0 is never taken for 0. */
  return cro_decimal_from_double (g_ascii_strtod (number->str, NULL), micro) && cro_decimal_may_be_entered (*micro)
         && (*micro != 0 || strpbrk (number->str, "123456789") == NULL);
}
