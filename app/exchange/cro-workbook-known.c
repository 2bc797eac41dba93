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
cro_workbook_known_of_sum (CroWorkbookKnown sum,
                           CroWorkbookKnown part)
{
  if (part == CRO_WORKBOOK_UNKNOWN)
    part = CRO_WORKBOOK_AT_LEAST;
  return sum == CRO_WORKBOOK_WHOLE || sum == part ? part
         : part == CRO_WORKBOOK_WHOLE             ? sum
                                                  : CRO_WORKBOOK_INCOMPLETE;
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

/* --- Against the target ------------------------------------------------------------------------ */

typedef struct
{
  guint32 ingredients[CRO_VERDICT_MOST];
  guint   n;
} Unpriced;

/* What says whether an ingredient has a price by now: the unit cost of the pack in use, which is a text
 * without one; without a pack what is typed over its own. */
static CroPlace
price_of (CroWorkbook *self,
          guint32      index)
{
  const CroWorkbookSource *source = self->source;
  CroWorkbookIngredient ingredient;
  guint32 row = self->item_row[index];

  source->get_ingredient (source->data, index, &ingredient);
  if (ingredient.used == CRO_WORKBOOK_NONE)
    return (CroPlace){ self->ingredients.quoted, "G", row };
  return (CroPlace){ self->ingredients.quoted, "U", row + 1 + ingredient.used };
}

static void
add_word (CroVerdict  *self,
          CroWorkbook *workbook,
          CroWord      word)
{
  self->places[self->n_places++] = cro_workbook_word (workbook, word);
}

/* One word where everything has its price, and "incomplete" until then. */
static char *
dup_once_priced (CroVerdict     *self,
                 CroWorkbook    *workbook,
                 const Unpriced *unpriced,
                 CroWord         word)
{
  g_autoptr (GString) part = g_string_new ("IF(COUNT(");

  for (guint i = 0; i < unpriced->n; i++)
    {
      g_string_append (part, i > 0 ? ",@" : "@");
      self->places[self->n_places++] = price_of (workbook, unpriced->ingredients[i]);
    }
  g_string_append_printf (part, ")=%u,@,@)", unpriced->n);
  add_word (self, workbook, word);
  add_word (self, workbook, CRO_WORD_OPEN);
  return g_string_free (g_steal_pointer (&part), FALSE);
}

static char *
dup_part (CroVerdict     *self,
          CroWorkbook    *workbook,
          const Unpriced *unpriced,
          gboolean        is_open,
          CroWord         word)
{
  if (is_open && unpriced->n > 0)
    return dup_once_priced (self, workbook, unpriced, word);
  add_word (self, workbook, is_open ? CRO_WORD_OPEN : word);
  return g_strdup ("@");
}

/* Passing the target by no more than sums of doubles are off by is no fault (cro-plate.h). What costs
 * at least so much may be over its target, but not within it; a credit may lower it as well. */
void
cro_workbook_verdict_init (CroVerdict              *self,
                           CroWorkbook             *workbook,
                           CroWorkbookKind          kind,
                           guint32                  index,
                           const CroWorkbookFigure *figure)
{
  const CroWorkbookSource *source = workbook->source;
  CroWorkbookKnown known = figure->known[CRO_WORKBOOK_FOOD];
  gboolean is_open = known != CRO_WORKBOOK_WHOLE, may_fall = known == CRO_WORKBOOK_INCOMPLETE;
  gboolean is_over = cro_is_over_target (figure->cost[CRO_WORKBOOK_FOOD], figure->net_price,
                                         figure->target_in_force);
  Unpriced unpriced = { .n = 0 };
  CroWord word = isnan (figure->net_price)        ? CRO_WORD_NO_PRICE
                 : !(figure->target_in_force > 0) ? CRO_WORD_NO_TARGET
                 : is_over                        ? (may_fall ? CRO_WORD_OPEN : CRO_WORD_OVER)
                                                  : (is_open ? CRO_WORD_OPEN : CRO_WORD_WITHIN);

  if (is_open && source->list_unpriced != NULL)
    unpriced.n = source->list_unpriced (source->data, kind, index, unpriced.ingredients,
                                        CRO_VERDICT_MOST);
  self->n_places = 0;
  self->text = cro_workbook_word_text (workbook, word);
  self->over = dup_part (self, workbook, &unpriced, may_fall, CRO_WORD_OVER);
  self->within = dup_part (self, workbook, &unpriced, is_open, CRO_WORD_WITHIN);
  add_word (self, workbook, CRO_WORD_NO_TARGET);
  add_word (self, workbook, CRO_WORD_NO_PRICE);
}

void
cro_workbook_verdict_clear (CroVerdict *self)
{
  g_free (self->over);
  g_free (self->within);
}
