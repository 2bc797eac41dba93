/* How a figure looks by what is known of it, and whether it can be held against its target. */
#include "cro-workbook-private.h"

#include <math.h>

#include "cro-money.h"
#include "cro-plate.h"

CroStyle
cro_workbook_money_style (CroWorkbookKnown known,
                          gboolean         is_total)
{
  static const CroStyle styles[][2] = {
    [CRO_WORKBOOK_WHOLE] = { CRO_STYLE_MONEY, CRO_STYLE_TOTAL_MONEY },
    [CRO_WORKBOOK_AT_LEAST] = { CRO_STYLE_MONEY_AT_LEAST, CRO_STYLE_TOTAL_AT_LEAST },
    [CRO_WORKBOOK_AT_MOST] = { CRO_STYLE_MONEY_AT_MOST, CRO_STYLE_MONEY_AT_MOST },
    [CRO_WORKBOOK_INCOMPLETE] = { CRO_STYLE_MONEY_INCOMPLETE, CRO_STYLE_TOTAL_INCOMPLETE },
    [CRO_WORKBOOK_UNKNOWN] = { CRO_STYLE_MONEY_UNKNOWN, CRO_STYLE_MONEY_UNKNOWN },
  };

  return styles[known][is_total];
}

CroStyle
cro_workbook_fine_style (CroWorkbookKnown known)
{
  switch (known)
    {
    case CRO_WORKBOOK_WHOLE:
      return CRO_STYLE_FINE;
    case CRO_WORKBOOK_AT_LEAST:
      return CRO_STYLE_FINE_AT_LEAST;
    case CRO_WORKBOOK_UNKNOWN:
      return CRO_STYLE_FINE_UNKNOWN;
    default:
      return CRO_STYLE_FINE_INCOMPLETE;
    }
}

CroStyle
cro_workbook_known_pct_style (CroWorkbookKnown known)
{
  static const CroStyle styles[] = {
    [CRO_WORKBOOK_WHOLE] = CRO_STYLE_PCT,
    [CRO_WORKBOOK_AT_LEAST] = CRO_STYLE_PCT_AT_LEAST,
    [CRO_WORKBOOK_AT_MOST] = CRO_STYLE_PCT_AT_MOST,
    [CRO_WORKBOOK_INCOMPLETE] = CRO_STYLE_PCT_INCOMPLETE,
    [CRO_WORKBOOK_UNKNOWN] = CRO_STYLE_PCT_UNKNOWN,
  };

  return styles[known];
}

/* What is known whole takes at most so much of what costs at least so much; of nothing it takes
 * nothing. */
CroStyle
cro_workbook_share_style (CroWorkbookKnown of_part,
                          CroWorkbookKnown of_all,
                          double           share)
{
  gboolean is_nothing = of_part == CRO_WORKBOOK_WHOLE && share == 0;

  if (of_part == CRO_WORKBOOK_UNKNOWN || of_all == CRO_WORKBOOK_WHOLE || is_nothing)
    return cro_workbook_known_pct_style (of_part);
  return of_part == CRO_WORKBOOK_WHOLE && of_all == CRO_WORKBOOK_AT_LEAST
             ? CRO_STYLE_PCT_AT_MOST
             : CRO_STYLE_PCT_INCOMPLETE;
}

CroWorkbookKnown
cro_workbook_known_of_both (const CroWorkbookKnown *known)
{
  return known[CRO_WORKBOOK_FOOD] != CRO_WORKBOOK_WHOLE ? known[CRO_WORKBOOK_FOOD]
                                                        : known[CRO_WORKBOOK_DISPOSABLES];
}

CroStyle
cro_workbook_left_style (CroWorkbookKnown known)
{
  return cro_workbook_money_style (known == CRO_WORKBOOK_AT_LEAST ? CRO_WORKBOOK_AT_MOST : known,
                                   FALSE);
}

CroStyle
cro_workbook_labour_style (const CroWorkbook *self,
                           double             minutes)
{
  return minutes > 0 && isnan (self->source->book.wage) ? CRO_STYLE_MONEY_UNKNOWN : CRO_STYLE_MONEY;
}

CroStyle
cro_workbook_price_style (const CroWorkbookFigure *figure)
{
  return isnan (figure->price) ? CRO_STYLE_MONEY_NONE : CRO_STYLE_MONEY;
}

CroStyle
cro_workbook_setting_style (double in_force)
{
  return isnan (in_force) ? CRO_STYLE_PCT_NONE : CRO_STYLE_PCT_EXACT;
}

CroStyle
cro_workbook_pct_style (const CroWorkbookFigure *figure)
{
  gboolean is_compared = !isnan (figure->food_cost_pct) && !isnan (figure->target_in_force);
  int digits = is_compared ? cro_decimals_apart (100 * figure->food_cost_pct,
                                                 100 * figure->target_in_force, 1)
                           : 1;

  return cro_workbook_known_pct_style (figure->known[CRO_WORKBOOK_FOOD]) + (guint) (digits - 1);
}

/* Passing the target by no more than sums of doubles are off by is no fault (cro-plate.h). What costs
 * at least so much may be over its target, but not within it; a credit may lower it as well. */
const char *
cro_workbook_verdict (CroWorkbook             *self,
                      const CroWorkbookFigure *figure,
                      CroPlace                *places)
{
  CroWorkbookKnown known = figure->known[CRO_WORKBOOK_FOOD];
  const CroWord words[] = {
    known == CRO_WORKBOOK_INCOMPLETE ? CRO_WORD_OPEN : CRO_WORD_OVER,
    known != CRO_WORKBOOK_WHOLE ? CRO_WORD_OPEN : CRO_WORD_WITHIN,
    CRO_WORD_NO_TARGET,
    CRO_WORD_NO_PRICE,
  };
  gboolean is_over = cro_is_over_target (figure->cost[CRO_WORKBOOK_FOOD], figure->net_price,
                                         figure->target_in_force);
  int says = !(figure->net_price > 0) ? 3 : !(figure->target_in_force > 0) ? 2 : is_over ? 0 : 1;

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    places[i] = cro_workbook_word (self, words[i]);
  return cro_workbook_word_text (self, words[says]);
}
