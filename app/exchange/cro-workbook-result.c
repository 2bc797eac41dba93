/* What stands between price and food cost as the house gives it: food-cost percentage, gross-profit
 * percentage or coefficient. All else is reckoned with food-cost percentages, which then stand in
 * columns of their own, where targets are entered too. */
#include "cro-workbook-private.h"

#include <math.h>

#include "cro-money.h"

/* Fewest decimals of a coefficient. */
#define COEFFICIENT_DIGITS 2

gboolean
cro_workbook_is_turned (const CroWorkbook *self)
{
  return self->source->book.result != CRO_WORKBOOK_FOOD_COST_PCT;
}

char
cro_workbook_pct_column (const CroWorkbook *self)
{
  return cro_workbook_is_turned (self) ? 'X' : 'K';
}

char
cro_workbook_target_column (const CroWorkbook *self)
{
  return cro_workbook_is_turned (self) ? 'Y' : 'L';
}

CroWorkbookTextId
cro_workbook_result_text (const CroWorkbook *self)
{
  static const CroWorkbookTextId texts[] = {
    [CRO_WORKBOOK_FOOD_COST_PCT] = CRO_WT_FOOD_COST_PCT,
    [CRO_WORKBOOK_GROSS_PROFIT_PCT] = CRO_WT_GROSS_PROFIT_PCT,
    [CRO_WORKBOOK_COEFFICIENT] = CRO_WT_COEFFICIENT,
  };

  return texts[self->source->book.result];
}

CroWorkbookTextId
cro_workbook_target_text (const CroWorkbook *self)
{
  static const CroWorkbookTextId texts[] = {
    [CRO_WORKBOOK_FOOD_COST_PCT] = CRO_WT_TARGET,
    [CRO_WORKBOOK_GROSS_PROFIT_PCT] = CRO_WT_TARGET_GROSS_PROFIT,
    [CRO_WORKBOOK_COEFFICIENT] = CRO_WT_TARGET_COEFFICIENT,
  };

  return texts[self->source->book.result];
}

CroWorkbookTextId
cro_workbook_target_input_text (const CroWorkbook *self)
{
  return cro_workbook_is_turned (self) ? CRO_WT_TARGET_FOOD_COST : CRO_WT_TARGET;
}

double
cro_workbook_result_of (const CroWorkbook *self,
                        double             pct)
{
  switch (self->source->book.result)
    {
    case CRO_WORKBOOK_GROSS_PROFIT_PCT:
      return 1 - pct;
    case CRO_WORKBOOK_COEFFICIENT:
      return pct > 0 ? 1 / pct : NAN;
    default:
      return pct;
    }
}

const char *
cro_workbook_target_formula (const CroWorkbook *self)
{
  return self->source->book.result == CRO_WORKBOOK_COEFFICIENT ? "=IF(@>0,1/@,\"\")"
                                                               : "=IF(@>0,1-@,\"\")";
}

/* --- Looks ------------------------------------------------------------------------------------ */

static CroStyle
coefficient_style (const CroWorkbookFigure *figure)
{
  static const CroStyle styles[] = {
    [CRO_WORKBOOK_WHOLE] = CRO_STYLE_COEFFICIENT,
    [CRO_WORKBOOK_AT_LEAST] = CRO_STYLE_COEFFICIENT_AT_MOST,
    [CRO_WORKBOOK_AT_MOST] = CRO_STYLE_COEFFICIENT_INCOMPLETE,
    [CRO_WORKBOOK_INCOMPLETE] = CRO_STYLE_COEFFICIENT_INCOMPLETE,
    /* Without a cost there is none. */
    [CRO_WORKBOOK_UNKNOWN] = CRO_STYLE_COEFFICIENT,
  };
  int digits = COEFFICIENT_DIGITS;

  if (figure->food_cost_pct > 0 && figure->target_in_force > 0)
    digits = cro_decimals_apart (1 / figure->food_cost_pct, 1 / figure->target_in_force, digits);
  return styles[figure->known[CRO_WORKBOOK_FOOD]] + (guint) (digits - COEFFICIENT_DIGITS);
}

/* A cost that is at least so much leaves at most so much. */
static CroStyle
gross_profit_style (const CroWorkbookFigure *figure)
{
  CroStyle style = cro_workbook_pct_style (figure);

  switch (figure->known[CRO_WORKBOOK_FOOD])
    {
    case CRO_WORKBOOK_AT_LEAST:
      return style - CRO_STYLE_PCT_AT_LEAST + CRO_STYLE_PCT_LEFT_AT_MOST;
    case CRO_WORKBOOK_INCOMPLETE:
      return style - CRO_STYLE_PCT_INCOMPLETE + CRO_STYLE_PCT_LEFT_INCOMPLETE;
    case CRO_WORKBOOK_UNKNOWN:
      return CRO_STYLE_PCT_UNKNOWN_LEFT;
    default:
      return style;
    }
}

CroStyle
cro_workbook_result_style (const CroWorkbook       *self,
                           const CroWorkbookFigure *figure)
{
  switch (self->source->book.result)
    {
    case CRO_WORKBOOK_GROSS_PROFIT_PCT:
      return gross_profit_style (figure);
    case CRO_WORKBOOK_COEFFICIENT:
      return coefficient_style (figure);
    default:
      return cro_workbook_pct_style (figure);
    }
}

CroStyle
cro_workbook_target_style (const CroWorkbook *self,
                           double             in_force)
{
  return self->source->book.result == CRO_WORKBOOK_COEFFICIENT
             ? CRO_STYLE_COEFFICIENT
             : cro_workbook_setting_style (in_force);
}
