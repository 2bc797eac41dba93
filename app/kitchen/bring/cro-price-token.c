#include "cro-price-token.h"

#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-model.h"
#include "cro-price-words.h"
#include "cro-unit-words.h"
#include "cro-word-list.h"
#include "cro-words.h"

#include <stdlib.h>
#include <string.h>

const char cro_price_per_words[] = "|per|par|a|an|the|le|la|les|l|au|aux|du|for|pour|";
/* Words of one letter that are typed apart or with full stops. */
static const char *const spelled[] = { "ttc", "tva", "vat", "gst", "ht", "nb", "pu" };

gboolean
cro_price_is_among (const char *word,
                    const char *words)
{
  const gsize n = strlen (word);

  for (const char *at = words; n > 0 && (at = strstr (at, word)) != NULL; at++)
    if (at > words && at[-1] == '|' && at[n] == '|')
      return TRUE;
  return FALSE;
}

gboolean
cro_price_has_word (const char *folded,
                    const char *words)
{
  g_auto (GStrv) all = g_strsplit (folded, " ", 0);

  for (guint i = 0; all[i] != NULL; i++)
    if (cro_price_is_among (all[i], words))
      return TRUE;
  return FALSE;
}

gboolean
cro_price_token_is (const GArray *tokens,
                    guint         i,
                    const char   *words)
{
  const CroPriceToken *token = i < tokens->len ? &g_array_index (tokens, CroPriceToken, i) : NULL;

  return token != NULL && token->kind == CRO_PRICE_TOKEN_WORD && cro_price_is_among (token->word, words);
}

static void
token_clear (gpointer data)
{
  g_free (((CroPriceToken *) data)->word);
}

static void
add (GArray        *tokens,
     CroPriceToken  token)
{
  g_array_append_val (tokens, token);
}

static const CroPriceToken *
last_of (const GArray *tokens)
{
  return tokens->len > 0 ? &g_array_index (tokens, CroPriceToken, tokens->len - 1) : NULL;
}

/* "per", "/": what stands before the text that is read. */
static gboolean
is_behind_per (const GArray *tokens,
               const char   *words)
{
  const CroPriceToken *before = last_of (tokens);

  return before != NULL
         && (before->kind == CRO_PRICE_TOKEN_STROKE || cro_price_token_is (tokens, tokens->len - 1, words));
}

gsize
cro_price_scan_spaces (const char *text)
{
  gsize n = 0;

  while (text[n] != '\0' && g_unichar_isspace (g_utf8_get_char (text + n)))
    n += (gsize) (g_utf8_next_char (text + n) - (text + n));
  return n;
}

/* "7.12", a day of the year where something says so: the bytes of it; 0: none begins text. */
static gsize
scan_short_day (const char *text)
{
  const gsize day = strspn (text, "0123456789"), month = text[day] == '.' ? strspn (text + day + 1, "0123456789") : 0;
  const char *behind = text + day + 1 + month;

  if (day < 1 || day > 2 || month < 1 || month > 2 || strtol (text, NULL, 10) > 31 || strtol (text, NULL, 10) < 1
      || strtol (text + day + 1, NULL, 10) > 12 || strtol (text + day + 1, NULL, 10) < 1
      || (strchr (".,/", *behind) != NULL && g_ascii_isdigit (behind[*behind != '\0'])))
    return 0;
  return day + 1 + month;
}

/* What joins two days, "7.12. – 13.12.", and is no minus: the bytes; 0: none is there. */
static gsize
scan_dash (const char *text)
{
  gsize stop = *text == '.', dash = stop + cro_price_scan_spaces (text + stop);
  gsize sign = text[dash] == '-' ? 1 : g_str_has_prefix (text + dash, "–") ? strlen ("–") : 0;

  return sign > 0 ? dash + sign + cro_price_scan_spaces (text + dash + sign) : 0;
}

/* "From 7.12", "7.12. – 13.12.", "prices 7.12." are days. *more: the bytes behind it that join it to another. */
static gsize
scan_day_of_list (const GArray *tokens,
                  const char   *text,
                  gsize        *more)
{
  const gsize n = scan_short_day (text), dash = n > 0 ? scan_dash (text + n) : 0;
  const CroPriceToken *before = last_of (tokens);
  const guint last = tokens->len - 1;

  *more = dash > 0 && scan_short_day (text + n + dash) > 0 ? dash : 0;
  if (n == 0)
    return 0;
  return *more > 0 || (before != NULL && before->kind == CRO_PRICE_TOKEN_DAY)
                 || cro_price_token_is (tokens, last, "|from|until|till|since|du|au|depuis|partir|compter|jusqu|")
                 || (text[n] == '.' && cro_price_token_is (tokens, last, "|price|prices|prix|tarif|tarifs|list|liste|"
                                                                         "to|week|wc|of|le|semaine|valid|"))
             ? n : 0;
}

/* "6/12", "30.11.26" */
static gboolean
is_day_of_strokes (const char *text)
{
  const gsize n = strspn (text, "0123456789");

  return strchr ("/.", text[n]) != NULL && g_ascii_isdigit (text[n + (text[n] != '\0')]);
}

/* "21 %", "30/11", "3rd", "17h"; "5,5" is one number. */
static gsize
take_number (GArray     *tokens,
             const char *text)
{
  gsize digits = strspn (text, "0123456789"), n = digits, more, dash = 0;
  const gsize day = scan_day_of_list (tokens, text, &more);
  gboolean is_parted = FALSE;
  g_autofree char *written = NULL;
  CroPriceToken token = { .kind = CRO_PRICE_TOKEN_NUMBER, .number = CRO_NOT_SET };

  if (day > 0)
    {
      token.kind = CRO_PRICE_TOKEN_DAY;
      token.word = g_strdelimit (g_strndup (text, day), ".", '/');
      add (tokens, token);
      return day + more;
    }
  while (text[n] != '\0' && strchr (".,/-:", text[n]) != NULL && g_ascii_isdigit (text[n + 1]))
    {
      /* "30/11-6/12" are two. */
      if (text[n] == '-' && n > digits && is_day_of_strokes (text + n + 1))
        {
          dash = 1;
          break;
        }
      is_parted |= text[n] == '/' || text[n] == '-' || memchr (text + digits, '.', n - digits) != NULL;
      n += 1 + strspn (text + n + 1, "0123456789");
    }
  written = g_strdelimit (g_strndup (text, n), ",", '.');
  if (cro_decimal_parse (written, n, &token.number) != CRO_DECIMAL_OK)
    token.number = CRO_NOT_SET;
  more = n + cro_price_scan_spaces (text + n);
  if (text[more] == '%')
    {
      token.kind = CRO_PRICE_TOKEN_RATE;
      n = more + 1;
    }
  else if (is_parted || (n == digits && n == strlen ("2026") && (g_str_has_prefix (text, "20"))))
    {
      token.kind = CRO_PRICE_TOKEN_DAY;
      token.word = g_strndup (text, n);
    }
  add (tokens, token);
  return n + dash;
}

/* One letter is a unit only where something says so. */
static gboolean
may_be_unit (const GArray *tokens,
             const char   *text,
             gsize         bytes,
             gboolean      is_behind_bracket)
{
  const CroPriceToken *before = last_of (tokens);

  if (text[bytes] == '\'' || g_str_has_prefix (text + bytes, "\u2019"))
    return FALSE;
  return g_utf8_strlen (text, (gssize) bytes) > 1
         || (is_behind_bracket && (text[bytes] == ')' || text[bytes] == ']'))
         || (*text == 'L' && text[bytes] == '\0' && tokens->len > 0) || is_behind_per (tokens, "|per|par|au|le|")
         /* "40-60 g" may be a day by its shape. */
         || (before != NULL && (before->kind == CRO_PRICE_TOKEN_NUMBER || before->kind == CRO_PRICE_TOKEN_DAY));
}

/* "unit price" is no price for one. */
static gboolean
is_unit_of_price (const GArray *tokens,
                  const char   *folded)
{
  return cro_price_is_among (folded, "|unit|units|unite|unites|unitaire|u|")
         && !is_behind_per (tokens, cro_price_per_words);
}

/* "Each price" */
static gboolean
is_of_each (const char *text,
            gsize       bytes,
            const char *folded)
{
  return cro_price_is_among (folded, "|each|")
         && cro_word_list_scan (text + bytes + cro_price_scan_spaces (text + bytes), "price|of") > 0;
}

static gsize
take_unit (GArray     *tokens,
           const char *text,
           gboolean    is_behind_bracket)
{
  CroUnitMeaning meaning = { 0 };
  gsize bytes = cro_unit_words_scan (text, cro_words_entry (), &meaning);
  g_autofree char *word = g_strndup (text, bytes), *folded = cro_fold (word);
  gboolean ignored;

  if (bytes == 0 || meaning.kind != CRO_UNIT_WORD_ONE || !may_be_unit (tokens, text, bytes, is_behind_bracket)
      || is_unit_of_price (tokens, folded) || is_of_each (text, bytes, folded)
      || cro_price_scan_pack (text, &ignored) > 0)
    return 0;
  add (tokens, (CroPriceToken){ .kind = CRO_PRICE_TOKEN_UNIT, .unit = meaning.units[0] });
  return bytes;
}

/* "per pound", "la livre" */
static gboolean
is_weight (const GArray *tokens,
           const char   *text)
{
  return cro_word_list_scan (text, "pound|pounds|livre|livres") > 0 && is_behind_per (tokens, cro_price_per_words);
}

/* "€", "EUR", "euros". */
static gsize
take_money (GArray     *tokens,
            const char *text)
{
  gboolean is_letter = g_unichar_isalpha (g_utf8_get_char (text)), ignored;
  gsize bytes = 0;
  CroUnitMeaning meaning;

  if (!is_letter || !cro_currency_is_word (text))
    bytes = cro_currency_scan (text, NULL, &ignored);
  if (bytes == 0 && is_letter && cro_currency_sign_of_word (text) != NULL && !is_weight (tokens, text))
    while (g_unichar_isalpha (g_utf8_get_char (text + bytes)))
      bytes += (gsize) (g_utf8_next_char (text + bytes) - (text + bytes));
  if (bytes == 0 && is_letter && !cro_currency_is_word (text) && strnlen (text, 3) == 3
      && !g_unichar_isalnum (g_utf8_get_char (text + 3))
      && cro_unit_words_scan (text, cro_words_entry (), &meaning) == 0)
    {
      g_autofree char *code = g_ascii_strup (text, 3);

      bytes = cro_currency_scan (code, NULL, &ignored);
    }
  if (bytes > 0)
    add (tokens, (CroPriceToken){ .kind = CRO_PRICE_TOKEN_MONEY,
                                  .is_pound = cro_word_list_scan (text, "pound|pounds|livre|livres") > 0 });
  return bytes;
}

static gsize
take_word (GArray     *tokens,
           const char *text)
{
  /* "w/c 7 December": the week that begins then */
  gboolean is_week = g_ascii_strncasecmp (text, "w/c", 3) == 0 && !g_unichar_isalnum (g_utf8_get_char (text + 3));
  gsize n = is_week ? 3 : 0;
  g_autofree char *word = NULL;

  while (g_unichar_isalnum (g_utf8_get_char (text + n)) || g_unichar_ismark (g_utf8_get_char (text + n)))
    n += (gsize) (g_utf8_next_char (text + n) - (text + n));
  word = g_strndup (text, n);
  add (tokens, (CroPriceToken){ .kind = CRO_PRICE_TOKEN_WORD, .word = is_week ? g_strdup ("wc") : cro_fold (word) });
  return n;
}

/* A full stop behind "excl" or a letter ends no sentence, and one before a small letter neither. */
static gboolean
ends_sentence (const GArray *tokens,
               const char   *text)
{
  const CroPriceToken *before = last_of (tokens);
  gsize n = *text == '.' ? cro_price_scan_spaces (text + 1) : 0;

  if (*text == ';' || *text == '!')
    return TRUE;
  return n > 0 && before != NULL && g_unichar_isupper (g_utf8_get_char (text + 1 + n))
         && !(before->kind == CRO_PRICE_TOKEN_WORD
              && (strlen (before->word) == 1
                  || cro_price_is_among (before->word, "|ex|exc|excl|inc|incl|no|nr|min|max|approx|")));
}

/* "V.A.T." as "vat". */
static void
join_letters (GArray *tokens)
{
  for (guint i = 0; i < tokens->len; i++)
    for (guint k = 0; k < G_N_ELEMENTS (spelled); k++)
      {
        guint n = (guint) strlen (spelled[k]), same = 0;

        while (same < n && i + same < tokens->len)
          {
            const CroPriceToken *token = &g_array_index (tokens, CroPriceToken, i + same);

            if (token->kind != CRO_PRICE_TOKEN_WORD || token->word[0] != spelled[k][same] || token->word[1] != '\0')
              break;
            same++;
          }
        if (same < n)
          continue;
        g_array_remove_range (tokens, i + 1, n - 1);
        g_free (g_array_index (tokens, CroPriceToken, i).word);
        g_array_index (tokens, CroPriceToken, i).word = g_strdup (spelled[k]);
        break;
      }
}

/* "½" */
static gboolean
is_fraction (gunichar c)
{
  return g_unichar_type (c) == G_UNICODE_OTHER_NUMBER;
}

/* One to be ticked. */
static gboolean
is_box (const char *text)
{
  return (*text == '[' && text[1 + cro_price_scan_spaces (text + 1)] == ']') || g_str_has_prefix (text, "\u2610");
}

GArray *
cro_price_tokens_of (const char *text)
{
  GArray *tokens = g_array_new (FALSE, TRUE, sizeof (CroPriceToken));
  const char *begin = text;
  gboolean is_behind_bracket = FALSE;

  g_array_set_clear_func (tokens, token_clear);
  while (*text != '\0')
    {
      gunichar c = g_utf8_get_char (text);
      gsize n = 0;

      if (g_ascii_isdigit (*text))
        n = take_number (tokens, text);
      if (n == 0 && !g_ascii_isdigit (*text))
        n = take_money (tokens, text);
      if (n == 0 && g_unichar_isalpha (c))
        n = take_unit (tokens, text, is_behind_bracket);
      if (n == 0 && g_unichar_isalnum (c) && !is_fraction (c))
        n = take_word (tokens, text);
      if (n == 0)
        {
          n = (gsize) (g_utf8_next_char (text) - text);
          if (*text == '+')
            add (tokens, (CroPriceToken){ .kind = CRO_PRICE_TOKEN_PLUS });
          else if (*text == '/')
            add (tokens, (CroPriceToken){ .kind = CRO_PRICE_TOKEN_STROKE });
          else if (ends_sentence (tokens, text))
            add (tokens, (CroPriceToken){ .kind = CRO_PRICE_TOKEN_END });
          else if (*text == '*')
            add (tokens, (CroPriceToken){ .kind = CRO_PRICE_TOKEN_MARK });
          else if (is_fraction (c))
            add (tokens, (CroPriceToken){ .kind = CRO_PRICE_TOKEN_NUMBER, .number = CRO_NOT_SET });
          else if (strchr ("?%<>=", *text) != NULL || is_box (text)
                   || (*text == '-' && g_ascii_isdigit (text[1]) && (text == begin || !g_ascii_isdigit (text[-1]))))
            add (tokens, (CroPriceToken){ .kind = CRO_PRICE_TOKEN_DOUBT });
        }
      if (!g_unichar_isspace (c))
        is_behind_bracket = *text == '(' || *text == '[';
      text += n;
    }
  join_letters (tokens);
  return tokens;
}
