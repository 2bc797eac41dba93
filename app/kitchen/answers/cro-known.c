#include "cro-known.h"

#include <math.h>

#include "cro-landing.h"
#include "cro-reach.h"

static CroKnown
known (gboolean is_incomplete,
       gboolean has_credit,
       double   known_sum)
{
  if (!is_incomplete)
    return CRO_KNOWN_WHOLE;
  if (isnan (known_sum) || known_sum == 0)
    return CRO_KNOWN_NOTHING;
  return has_credit ? CRO_KNOWN_IN_PART : CRO_KNOWN_AT_LEAST;
}

CroKnown
cro_known_of_bits (guint64 bits,
                   double  known_sum)
{
  return known ((bits & CRO_REACH_INCOMPLETE) != 0, (bits & CRO_REACH_CREDIT) != 0, known_sum);
}

CroKnown
cro_known_of_cost (const CroFigure *figure)
{
  return known (figure->is_incomplete, figure->has_credit, figure->cost);
}

CroKnown
cro_known_of_labour (const CroFigure *figure,
                     GArray          *causes)
{
  for (guint i = 0; i < causes->len; i++)
    switch (g_array_index (causes, CroCause, i).kind)
      {
      case CRO_CAUSE_PRICE:
      case CRO_CAUSE_RATE:
      case CRO_CAUSE_CREDIT:
        break;
      default:
        return known (TRUE, FALSE, figure->labour);
      }
  return CRO_KNOWN_WHOLE;
}

/* Where there are none nobody expects any. */
CroKnown
cro_known_of_disposables (const CroFigure *figure)
{
  return figure->disposables == 0 ? CRO_KNOWN_WHOLE
                                  : known (figure->is_incomplete, FALSE, figure->disposables);
}

CroKnown
cro_known_of_prime (const CroFigure *figure)
{
  return known (figure->is_incomplete, figure->has_credit, figure->cost + figure->labour);
}

CroKnown
cro_known_of_item (CroFigures *figures,
                   guint32     item)
{
  double unit_cost = cro_figures_unit_cost (figures, item);

  return isnan (unit_cost)
             ? CRO_KNOWN_NOTHING
             : cro_known_of_bits (figures->node_bits[cro_figures_node (figures, item)], unit_cost);
}

CroKnown
cro_known_of_recipe (CroFigures *figures,
                     guint32     recipe)
{
  const CroGraph *graph = &figures->graph;
  guint32 row = cro_figures_row (figures, recipe);
  guint64 bits = graph->first[row] == graph->first[row + 1] ? CRO_REACH_INCOMPLETE : 0;

  for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
    {
      bits |= figures->node_bits[graph->part[l]];
      if (!cro_line_is_known (figures, graph->line_slot[l]))
        bits |= CRO_REACH_INCOMPLETE;
    }
  return cro_known_of_bits (bits, cro_landing_total (figures, recipe));
}

CroKnown
cro_known_of_share (CroKnown of_part,
                    CroKnown of_cost)
{
  if (of_part == CRO_KNOWN_NOTHING || of_cost == CRO_KNOWN_WHOLE)
    return of_part;
  return of_part == CRO_KNOWN_WHOLE ? cro_known_turned (of_cost) : CRO_KNOWN_IN_PART;
}

CroKnown
cro_known_turned (CroKnown known)
{
  return known == CRO_KNOWN_AT_LEAST  ? CRO_KNOWN_AT_MOST
         : known == CRO_KNOWN_AT_MOST ? CRO_KNOWN_AT_LEAST
                                      : known;
}
