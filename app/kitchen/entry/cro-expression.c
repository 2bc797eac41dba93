#include "cro-expression.h"

#include <string.h>

#include "cro-decimal.h"
#include "cro-number.h"
#include "cro-price-words.h"

/* Parentheses within parentheses: text may be pasted, and must not exhaust the stack. */
#define DEEPEST 32

typedef struct
{
  const char          *text;
  const char          *at;
  gboolean             has_units;
  const CroEntryWords *words;
  guint                depth;
  gboolean             is_product;   /* the summand in hand has a sign between its factors */
  CroReading          *reading;
} Parser;

static gboolean read_sum (Parser      *parser,
                          CroFraction *sum);

static gboolean
fail (Parser         *parser,
      CroEntryStatus  status,
      const char     *from,
      const char     *to)
{
  parser->reading->status = status;
  parser->reading->start = (gsize) (from - parser->text);
  parser->reading->end = (gsize) (to - parser->text);
  return FALSE;
}

gsize
cro_expression_space (const char *text)
{
  const char *at = text;

  while (g_unichar_isspace (g_utf8_get_char (at)))
    at = g_utf8_next_char (at);
  return (gsize) (at - text);
}

gsize
cro_expression_starts (const char *text,
                       const char *word)
{
  const char *at = text;

  /* Most texts begin with another letter. */
  if ((guchar) *text < 0x80 && (guchar) *word < 0x80 && g_ascii_tolower (*text) != g_ascii_tolower (*word))
    return 0;
  for (; *word != '\0'; word = g_utf8_next_char (word), at = g_utf8_next_char (at))
    if (*at == '\0'
        || g_unichar_tolower (g_utf8_get_char (at)) != g_unichar_tolower (g_utf8_get_char (word)))
      return 0;
  return (gsize) (at - text);
}

/* --- Signs ------------------------------------------------------------------------------------ */

static const struct { const char *text; char sign; } signs[] = {
  { "+", '+' }, { "-", '-' }, { "−", '-' }, { "–", '-' }, { "*", '*' },       { "×", '*' },
  { "x", '*' }, { "X", '*' }, { "/", '/' }, { "÷", '/' }, { "\342\201\204", '/' },
};

static gboolean
is_digit (const char *at)
{
  return g_unichar_isdigit (g_utf8_get_char (at));
}

/* Halves, quarters and so on as one character. */
static const struct { const char *text; gint64 over, under; } vulgar[] = {
  { "½", 1, 2 }, { "⅓", 1, 3 }, { "⅔", 2, 3 }, { "¼", 1, 4 }, { "¾", 3, 4 },
  { "⅕", 1, 5 }, { "⅙", 1, 6 }, { "⅛", 1, 8 }, { "⅜", 3, 8 }, { "⅝", 5, 8 }, { "⅞", 7, 8 },
};

static gsize
vulgar_at (const char *at,
           CroFraction *value)
{
  for (gsize i = 0; i < G_N_ELEMENTS (vulgar); i++)
    if (g_str_has_prefix (at, vulgar[i].text))
      {
        *value = cro_fraction_make (vulgar[i].over, vulgar[i].under);
        return strlen (vulgar[i].text);
      }
  return 0;
}

static gboolean
begins_factor (const char *at)
{
  CroFraction unused;

  if ((*at == '.' || *at == ',') && is_digit (at + 1))
    return TRUE;
  return is_digit (at) || *at == '(' || vulgar_at (at, &unused) > 0;
}

/* A sign counts only where something to reckon with follows: "9.20/kg" is no division. Where
 * it is one of wanted, moves behind it. */
static char
take_sign (Parser     *parser,
           const char *wanted)
{
  const char *at = parser->at + cro_expression_space (parser->at);

  for (gsize i = 0; i < G_N_ELEMENTS (signs); i++)
    if (g_str_has_prefix (at, signs[i].text) && strchr (wanted, signs[i].sign) != NULL)
      {
        at += strlen (signs[i].text);
        at += cro_expression_space (at);
        if (!begins_factor (at))
          return '\0';
        parser->at = at;
        return signs[i].sign;
      }
  return '\0';
}

/* --- Numbers ------------------------------------------------------------------------------------ */

static gboolean
groups_by_space (void)
{
  gint64 micro;

  return cro_number_parse ("1 234", &micro) && micro == 1234 * CRO_MICRO;
}

static gboolean
three_digits_follow (const char *at)
{
  for (int i = 0; i < 3; i++, at = g_utf8_next_char (at))
    if (!is_digit (at))
      return FALSE;
  return !is_digit (at);
}

/* Bytes of what stands between two digits of one number; 0: the number ends here. */
static gsize
joint (const char *at)
{
  static const char *const joints[] = { ".", ",", "'", "’", "\302\240", "\342\200\257" };

  for (gsize i = 0; i < G_N_ELEMENTS (joints); i++)
    if (g_str_has_prefix (at, joints[i]))
      return is_digit (at + strlen (joints[i])) ? strlen (joints[i]) : 0;
  return *at == ' ' && three_digits_follow (at + 1) && groups_by_space () ? 1 : 0;
}

static const char *
end_of_number (const char *at)
{
  gsize step;

  if (*at == '.' || *at == ',')
    at++;
  while (TRUE)
    if (is_digit (at))
      at = g_utf8_next_char (at);
    else if ((step = joint (at)) > 0)
      at += step;
    else
      return at;
}

/* The one "." or "," of a number, with nothing else between its digits; else NULL. */
static const char *
only_sign (const char *number)
{
  const char *sign = strpbrk (number, ".,");

  if (sign == NULL)
    return NULL;
  for (const char *at = number; *at != '\0'; at++)
    if (at != sign && !g_ascii_isdigit (*at))
      return NULL;
  return sign;
}

/* Digits with one decimal sign and as many places as a fraction holds. */
static gboolean
read_plain (const char  *number,
            const char  *sign,
            CroFraction *value)
{
  CroFraction ten = cro_fraction_make (10, 1);

  *value = cro_fraction_make (0, 1);
  for (const char *at = number; *at != '\0'; at++)
    if (at != sign && (!cro_fraction_multiply (value, ten)
                       || !cro_fraction_add (value, cro_fraction_make (*at - '0', 1))))
      return FALSE;
  for (gsize i = strlen (sign + 1); i > 0; i--)
    if (!cro_fraction_divide (value, ten))
      return FALSE;
  return TRUE;
}

/* Whether a sign could as well group: one to three digits, no 0, before it and three behind. */
static gboolean
could_group (const char *number,
             const char *sign)
{
  return sign > number && sign - number <= 3 && *number != '0' && strlen (sign + 1) == 3;
}

static gboolean
read_token (Parser      *parser,
            const char  *number,
            const char  *begin,
            CroFraction *value)
{
  const char *sign = only_sign (number);
  gint64 micro;

  if (sign != NULL && !could_group (number, sign))
    return read_plain (number, sign, value) || fail (parser, CRO_ENTRY_TOO_LARGE, begin, parser->at);
  parser->reading->is_ambiguous |= sign != NULL;
  if (cro_number_parse (number, &micro))
    {
      *value = cro_fraction_from_micro (micro);
      return TRUE;
    }
  if (sign != NULL)
    return read_plain (number, sign, value);
  return fail (parser, strpbrk (number, ".,") == NULL ? CRO_ENTRY_TOO_LARGE
                                                      : CRO_ENTRY_NOT_A_NUMBER,
               begin, parser->at);
}

static gboolean
read_number (Parser      *parser,
             CroFraction *value)
{
  const char *begin = parser->at;
  g_autofree char *number = NULL;

  parser->at = end_of_number (begin);
  number = g_strndup (begin, (gsize) (parser->at - begin));
  /* While it is being typed. */
  if ((*parser->at == '.' || *parser->at == ',') && parser->at[1] == '\0')
    parser->at++;
  parser->at += cro_price_scan_even (parser->at);
  return read_token (parser, number, begin, value);
}

/* "1 1/2", "1½": what follows a whole number, and is added to it. */
static gboolean
read_mixed (Parser      *parser,
            CroFraction *value)
{
  const char *at = parser->at + cro_expression_space (parser->at);
  CroFraction part;
  gsize bytes = vulgar_at (at, &part);
  gchar *end;
  guint64 over, under;

  if (value->denominator != 1)
    return TRUE;
  if (bytes == 0)
    {
      if (at == parser->at || !g_ascii_isdigit (*at))
        return TRUE;
      over = g_ascii_strtoull (at, &end, 10);
      if (*end != '/' || !g_ascii_isdigit (end[1]))
        return TRUE;
      under = g_ascii_strtoull (end + 1, &end, 10);
      if (over >= under || under > G_MAXUINT32 || joint (end) > 0)
        return TRUE;
      part = cro_fraction_make ((gint64) over, (gint64) under);
      bytes = (gsize) (end - at);
    }
  parser->at = at + bytes;
  return cro_fraction_add (value, part)
         || fail (parser, CRO_ENTRY_TOO_LARGE, parser->text, parser->at);
}

/* --- Sums -------------------------------------------------------------------------------------------- */

static gboolean
read_parentheses (Parser      *parser,
                  CroFraction *value)
{
  const char *begin = parser->at++;

  if (parser->depth++ == DEEPEST)
    return fail (parser, CRO_ENTRY_TOO_LARGE, begin, parser->at);
  parser->at += cro_expression_space (parser->at);
  if (!read_sum (parser, value))
    return FALSE;
  parser->at += cro_expression_space (parser->at);
  if (*parser->at != ')')
    return fail (parser, CRO_ENTRY_NOT_A_NUMBER, begin, parser->at);
  parser->at++;
  parser->depth--;
  return TRUE;
}

static gboolean
read_factor (Parser      *parser,
             CroFraction *value)
{
  gsize bytes = vulgar_at (parser->at, value);

  parser->at += bytes;
  if (bytes > 0)
    return TRUE;
  if (*parser->at == '(')
    return read_parentheses (parser, value);
  if (!begins_factor (parser->at))
    return fail (parser, CRO_ENTRY_NOT_A_NUMBER, parser->at, parser->at + strlen (parser->at));
  return read_number (parser, value) && read_mixed (parser, value);
}

static gboolean
read_product (Parser      *parser,
              CroFraction *product)
{
  const char *begin = parser->at;
  char sign;

  if (!read_factor (parser, product))
    return FALSE;
  while ((sign = take_sign (parser, "*/")) != '\0')
    {
      CroFraction factor;

      parser->is_product = TRUE;
      if (!read_factor (parser, &factor))
        return FALSE;
      if (sign == '/' && factor.numerator == 0)
        return fail (parser, CRO_ENTRY_BY_ZERO, begin, parser->at);
      if (!(sign == '*' ? cro_fraction_multiply : cro_fraction_divide) (product, factor))
        return fail (parser, CRO_ENTRY_TOO_LARGE, begin, parser->at);
    }
  return TRUE;
}

static gboolean
read_sum (Parser      *parser,
          CroFraction *sum)
{
  const char *begin = parser->at;
  char sign = take_sign (parser, "+-");

  *sum = cro_fraction_make (0, 1);
  do
    {
      CroFraction term;

      if (!read_product (parser, &term))
        return FALSE;
      if (!cro_fraction_add (sum, sign == '-' ? cro_fraction_negate (term) : term))
        return fail (parser, CRO_ENTRY_TOO_LARGE, begin, parser->at);
      sign = take_sign (parser, "+-");
    }
  while (sign != '\0');
  return TRUE;
}

/* Whether so much is less than one of the unit before it, and of a smaller one of its base. */
static gboolean
is_part_of (const CroTerm *part,
            CroUnit        before)
{
  const CroUnitInfo *whole = cro_unit_get (before), *own = cro_unit_get (part->unit);
  CroFraction ratio = part->value;

  return own->base == whole->base && part->unit != before && part->value.numerator >= 0
         && cro_fraction_multiply (&ratio, cro_fraction_make (own->numerator, own->denominator))
         && cro_fraction_divide (&ratio, cro_fraction_make (whole->numerator, whole->denominator))
         && ratio.numerator < ratio.denominator
         && (double) own->numerator / (double) own->denominator
              < (double) whole->numerator / (double) whole->denominator;
}

gsize
cro_expression_scan_part (const char          *text,
                          CroUnit              before,
                          const CroEntryWords *words,
                          CroTerm             *part)
{
  CroReading reading = { .status = CRO_ENTRY_OK };
  Parser parser = { .text = text, .at = text, .has_units = TRUE, .words = words, .reading = &reading };
  gsize bytes;

  parser.at += cro_expression_space (text);
  if (!begins_factor (parser.at) || *parser.at == '(' || !read_factor (&parser, &part->value)
      || reading.is_ambiguous)
    return 0;
  parser.at += cro_expression_space (parser.at);
  bytes = cro_entry_scan_unit (parser.at, words, &part->unit);
  part->has_unit = TRUE;
  if (bytes == 0 || !is_part_of (part, before))
    return 0;
  return (gsize) (parser.at - text) + bytes;
}

/* Each has the sign of the whole. A product is of the first part alone, or of all: that is not
 * guessed. */
static void
read_parts (Parser  *parser,
            GArray  *terms,
            CroUnit  before,
            char     sign)
{
  CroTerm part = { .has_unit = FALSE };

  for (gsize bytes; (bytes = cro_expression_scan_part (parser->at, before, parser->words, &part)) > 0;)
    {
      parser->at += bytes;
      before = part.unit;
      if (sign == '-')
        part.value = cro_fraction_negate (part.value);
      g_array_append_val (terms, part);
    }
}

static gboolean
read_terms (Parser *parser,
            GArray *terms)
{
  char sign = take_sign (parser, "+-");

  do
    {
      CroTerm term = { .has_unit = FALSE };

      parser->is_product = FALSE;
      if (!read_product (parser, &term.value))
        return FALSE;
      if (sign == '-')
        term.value = cro_fraction_negate (term.value);
      if (parser->has_units)
        {
          const char *at = parser->at + cro_expression_space (parser->at);
          gsize bytes = cro_entry_scan_unit (at, parser->words, &term.unit);

          term.has_unit = bytes > 0;
          if (bytes > 0)
            parser->at = at + bytes;
        }
      g_array_append_val (terms, term);
      if (term.has_unit && !parser->is_product)
        read_parts (parser, terms, term.unit, sign);
      sign = take_sign (parser, "+-");
    }
  while (sign != '\0');
  return TRUE;
}

gsize
cro_expression_scan (const char          *text,
                     gboolean             has_units,
                     const CroEntryWords *words,
                     GArray              *terms,
                     CroReading          *reading)
{
  Parser parser = {
    .text = text, .at = text + cro_expression_space (text), .has_units = has_units, .words = words,
    .reading = reading,
  };
  Parser ahead = parser;

  *reading = (CroReading){ .status = CRO_ENTRY_OK };
  if (!begins_factor (parser.at) && take_sign (&ahead, "+-") == '\0')
    {
      fail (&parser, *parser.at == '\0' ? CRO_ENTRY_EMPTY : CRO_ENTRY_NOT_A_NUMBER, parser.at,
            parser.at + strlen (parser.at));
      return 0;
    }
  return read_terms (&parser, terms) ? (gsize) (parser.at - text) : 0;
}

gboolean
cro_expression_total (GArray      *terms,
                      CroFraction *total)
{
  *total = cro_fraction_make (0, 1);
  for (guint i = 0; i < terms->len; i++)
    if (!cro_fraction_add (total, g_array_index (terms, CroTerm, i).value))
      return FALSE;
  return TRUE;
}
