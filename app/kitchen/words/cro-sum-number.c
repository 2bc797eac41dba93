#include "cro-sum-private.h"

#include "cro-decimal.h"
#include "cro-number.h"
#include "cro-words.h"

const CroSumWords cro_sum_no_words;

void
cro_sum_add_money (GPtrArray  *sum,
                   CroModel   *model,
                   double      amount,
                   const char *says,
                   CroRef      ref)
{
  cro_sum_add (sum, CRO_TERM_MONEY, amount, cro_currency_digits (model->currency), CRO_BASE_GRAM,
               says, ref);
}

void
cro_sum_add_plain (GPtrArray  *sum,
                   double      value,
                   const char *says,
                   CroRef      ref)
{
  cro_sum_add (sum, CRO_TERM_PLAIN, value, 0, CRO_BASE_GRAM, says, ref);
}

void
cro_sum_add_price (GPtrArray  *sum,
                   CroModel   *model,
                   CroBase     base,
                   double      unit_cost,
                   const char *says,
                   CroRef      ref)
{
  cro_sum_add (sum, CRO_TERM_PRICE, unit_cost, cro_currency_digits (model->currency), base, says,
               ref);
}

void
cro_sum_add_entered (GPtrArray  *sum,
                     gint64      micro,
                     const char *says,
                     CroRef      ref)
{
  cro_sum_add_exact (sum, cro_words_decimal (micro), cro_decimal_to_double (micro), says, ref);
}

void
cro_sum_add_entered_pct (GPtrArray  *sum,
                         gint64      micro,
                         const char *says,
                         CroRef      ref)
{
  g_autofree char *digits = cro_words_decimal (micro);

  cro_sum_add_exact (sum, g_strconcat (digits, "\302\240%", NULL),
                     (double) micro / (double) CRO_WHOLE_PCT, says, ref);
}

GPtrArray *
cro_sum_begin_money (CroModel *model,
                     double    figure,
                     CroKnown  known,
                     CroRef    ref)
{
  return cro_sum_begin (CRO_TERM_MONEY, figure, cro_currency_digits (model->currency),
                        CRO_BASE_GRAM, known, ref);
}

static char *
amount_text (gint64  amount,
             CroUnit unit)
{
  g_autofree char *digits = cro_words_decimal (amount);

  return g_strdup_printf ("%s\302\240%s", digits, cro_words_unit (unit));
}

gboolean
cro_sum_is_plain_unit (CroUnit unit)
{
  switch (unit)
    {
    case CRO_UNIT_MG:
    case CRO_UNIT_G:
    case CRO_UNIT_KG:
    case CRO_UNIT_ML:
    case CRO_UNIT_CL:
    case CRO_UNIT_DL:
    case CRO_UNIT_L:
    case CRO_UNIT_EACH:
      return TRUE;
    default:
      return FALSE;
    }
}

/* An amount as it was written, and what other units are in g, ml or pieces: "2 tsp × 5 ml". */
void
cro_sum_add_amount (GPtrArray *sum,
                    gint64     amount,
                    CroUnit    unit,
                    CroRef     ref)
{
  double factor = cro_unit_factor (unit);
  gboolean is_plain = cro_sum_is_plain_unit (unit);

  cro_sum_add_exact (sum, amount_text (amount, unit),
                     cro_decimal_to_double (amount) * (is_plain ? factor : 1), NULL, ref);
  if (is_plain)
    return;
  cro_sum_add_sign (sum, CRO_SUM_TIMES);
  cro_sum_add (sum, CRO_TERM_AMOUNT, factor, CRO_SUM_ALL_DIGITS, cro_unit_get (unit)->base, NULL,
               CRO_REF_NOWHERE);
}

/* Base units of an item in one of another base: "0.92" of a volume in a mass, "50 g" of a
 * piece. */
void
cro_sum_add_conversion (GPtrArray *sum,
                        CroBase    from,
                        CroBase    to,
                        double     ratio,
                        CroRef     item)
{
  if (from == to)
    return;
  cro_sum_add_sign (sum, CRO_SUM_TIMES);
  if (from == CRO_BASE_EACH)
    cro_sum_add (sum, CRO_TERM_AMOUNT, ratio, CRO_SUM_ALL_DIGITS, to, NULL, item);
  else
    cro_sum_add_plain (sum, ratio, NULL, item);
}

/* × (1 − k). */
void
cro_sum_add_part_left (GPtrArray  *sum,
                       gint64      pct,
                       const char *says,
                       CroRef      ref)
{
  if (pct == 0)
    return;
  cro_sum_add_sign (sum, CRO_SUM_TIMES);
  cro_sum_add_sign (sum, "(");
  cro_sum_add_exact (sum, g_strdup ("1"), 1, NULL, CRO_REF_NOWHERE);
  cro_sum_add_sign (sum, CRO_SUM_MINUS);
  cro_sum_add_entered_pct (sum, pct, says, ref);
  cro_sum_add_sign (sum, ")");
}
