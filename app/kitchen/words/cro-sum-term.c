#include "cro-sum-private.h"

#include <math.h>
#include <string.h>

#include "cro-figure-words.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-words.h"

#define MOST_DIGITS 12
#define PLAIN_DIGITS 6

/* Digits tried on top of those of the numbers, and of the figure. */
#define MOST_MORE 11
#define MOST_MORE_OF_FIGURE 6

/* Minor units that a double still tells apart, and the last one of a product of some. */
#define MOST_MINOR 9e14

/* --- Tokens ------------------------------------------------------------------------------------ */

static void
term_free (gpointer data)
{
  CroTerm *term = data;

  g_free (term->token.text);
  g_free (term);
}

static CroTerm *
add (GPtrArray       *sum,
     CroSumTokenKind  kind,
     char            *text,
     CroRef           ref)
{
  CroTerm *term = g_new0 (CroTerm, 1);

  term->token = (CroSumToken){ kind, text, ref };
  g_ptr_array_add (sum, term);
  return term;
}

void
cro_sum_add_sign (GPtrArray  *sum,
                  const char *text)
{
  add (sum, CRO_SUM_SIGN, g_strdup (text), CRO_REF_NOWHERE);
}

void
cro_sum_add_word (GPtrArray  *sum,
                  const char *text,
                  CroRef      ref)
{
  if (text != NULL)
    add (sum, CRO_SUM_WORD, g_strdup (text), ref);
}

void
cro_sum_add_exact (GPtrArray  *sum,
                   char       *text,
                   double      value,
                   const char *says,
                   CroRef      ref)
{
  add (sum, CRO_SUM_NUMBER, text, ref)->value = value;
  cro_sum_add_word (sum, says, ref);
}

void
cro_sum_add (GPtrArray   *sum,
             CroTermForm  form,
             double       value,
             int          digits,
             CroBase      base,
             const char  *says,
             CroRef       ref)
{
  CroTerm *term = add (sum, CRO_SUM_NUMBER, NULL, ref);

  term->form = form;
  term->value = value;
  term->digits = digits;
  term->base = base;
  cro_sum_add_word (sum, says, ref);
}

void
cro_sum_mark (GPtrArray *sum,
              CroKnown   known)
{
  guint last = sum->len - 1;

  while (((CroTerm *) sum->pdata[last])->token.kind != CRO_SUM_NUMBER)
    last--;
  ((CroTerm *) sum->pdata[last])->known = known;
}

GPtrArray *
cro_sum_begin (CroTermForm form,
               double      value,
               int         digits,
               CroBase     base,
               CroKnown    known,
               CroRef      ref)
{
  GPtrArray *sum = g_ptr_array_new_with_free_func (term_free);

  cro_sum_add (sum, form, value, digits, base, NULL, ref);
  ((CroTerm *) sum->pdata[0])->known = known;
  cro_sum_add_sign (sum, "=");
  return sum;
}

/* --- Numbers as they are shown ------------------------------------------------------------------- */

/* Whole units of the last digit, how many digits there are, and what one unit of the text is worth. */
typedef struct
{
  gint64   minor;
  int      digits;
  double   scale;
  gboolean is_large;
} Shown;

/* As few digits as three that say something. */
static int
digits_of_amount (double size)
{
  return size >= 100 ? 0 : size >= 10 ? 1 : size >= 1 ? 2 : 3;
}

static Shown
shape_of (const CroTerm *term)
{
  Shown shown = { .digits = term->digits, .scale = 1 };
  double size = fabs (term->value);

  switch (term->form)
    {
    case CRO_TERM_PCT:
      shown.scale = 0.01;
      break;
    case CRO_TERM_PRICE:
      shown.scale = term->base == CRO_BASE_EACH ? 1 : 0.001;
      shown.digits = cro_digits_of_price (size / shown.scale, term->digits, CRO_WORDS_SIGNIFICANT);
      break;
    case CRO_TERM_AMOUNT:
      shown.is_large = cro_words_is_large (term->base, size);
      shown.scale = shown.is_large ? 1000 : 1;
      shown.digits = MAX (digits_of_amount (size / shown.scale), term->digits);
      break;
    case CRO_TERM_PLAIN:
      shown.digits = PLAIN_DIGITS;
      break;
    default:
      break;
    }
  return shown;
}

/* value is the term's own, or one that is held against it. */
static Shown
show (const CroTerm *term,
      double         value,
      int            more)
{
  Shown shown = shape_of (term);

  shown.digits = MIN (shown.digits + more, MOST_DIGITS);
  while (shown.digits > 0 && fabs (value) / shown.scale * pow (10, shown.digits) > MOST_MINOR)
    shown.digits--;
  shown.minor = cro_money_round (value / shown.scale, shown.digits);
  return shown;
}

static double
value_of (const Shown *shown)
{
  return (double) shown->minor / pow (10, shown->digits) * shown->scale;
}

static char *
text_of (const CroTerm *term,
         Shown          shown)
{
  int fewest = term->form == CRO_TERM_PLAIN || term->form == CRO_TERM_AMOUNT ? 0 : term->digits;
  g_autofree char *number = NULL;

  for (; shown.digits > fewest && shown.minor % 10 == 0; shown.digits--)
    shown.minor /= 10;
  number = cro_money_to_text (shown.minor, shown.digits);
  switch (term->form)
    {
    case CRO_TERM_PCT:
      return g_strconcat (number, "\302\240%", NULL);
    case CRO_TERM_PRICE:
      return cro_words_per_base (term->base, number);
    case CRO_TERM_AMOUNT:
      return cro_words_in_base (term->base, shown.is_large, number);
    default:
      return g_steal_pointer (&number);
    }
}

/* --- What a pocket calculator makes of it --------------------------------------------------------- */

typedef struct
{
  GPtrArray *sum;
  guint      at;
  int        more;
} Reader;

static const char *
sign_at (Reader *reader)
{
  const CroTerm *term;

  while (reader->at < reader->sum->len
         && ((CroTerm *) reader->sum->pdata[reader->at])->token.kind == CRO_SUM_WORD)
    reader->at++;
  if (reader->at == reader->sum->len)
    return "";
  term = reader->sum->pdata[reader->at];
  return term->token.kind == CRO_SUM_SIGN ? term->token.text : "";
}

static gboolean
take (Reader     *reader,
      const char *sign)
{
  if (strcmp (sign_at (reader), sign) != 0)
    return FALSE;
  reader->at++;
  return TRUE;
}

static double read_sum (Reader *reader);

static double
read_number (Reader *reader)
{
  const CroTerm *term;
  double value;

  if (take (reader, "("))
    {
      value = read_sum (reader);
      take (reader, ")");
      return value;
    }
  term = reader->sum->pdata[reader->at++];
  if (term->form == CRO_TERM_EXACT)
    return term->value;
  {
    Shown shown = show (term, term->value, reader->more);

    return value_of (&shown);
  }
}

static double
read_product (Reader *reader)
{
  double product = read_number (reader);

  for (;;)
    if (take (reader, CRO_SUM_TIMES))
      product *= read_number (reader);
    else if (take (reader, CRO_SUM_OVER))
      product /= read_number (reader);
    else
      return product;
}

static double
read_sum (Reader *reader)
{
  double sum = read_product (reader);

  for (;;)
    if (take (reader, "+"))
      sum += read_product (reader);
    else if (take (reader, CRO_SUM_MINUS))
      sum -= read_product (reader);
    else
      return sum;
}

static gboolean
holds (GPtrArray *sum,
       int        more,
       int        more_of_figure)
{
  const CroTerm *figure = sum->pdata[0];
  Reader reader = { sum, 2, more };

  return show (figure, figure->value, more_of_figure).minor
         == show (figure, read_sum (&reader), more_of_figure).minor;
}

static void
write_texts (GPtrArray *sum,
             int        more,
             int        more_of_figure)
{
  for (guint i = 0; i < sum->len; i++)
    {
      CroTerm *term = sum->pdata[i];
      g_autofree char *text = NULL;

      if (term->form == CRO_TERM_EXACT)
        continue;
      text = text_of (term, show (term, term->value, i == 0 ? more_of_figure : more));
      term->token.text = cro_words_known (term->known, text);
    }
}

GPtrArray *
cro_sum_settle (GPtrArray *sum)
{
  int more = 0, more_of_figure = 0;

  while (!holds (sum, more, more_of_figure))
    {
      if (more++ < MOST_MORE)
        continue;
      if (more_of_figure == MOST_MORE_OF_FIGURE)
        break;
      more = 0;
      more_of_figure++;
    }
  write_texts (sum, MIN (more, MOST_MORE), more_of_figure);
  return sum;
}
