#include "cro-effect.h"

void
cro_effect_of_yields (const CroGraph   *graph,
                      const CroLines   *lines,
                      const CroMeasure *measures,
                      const double     *unit_cost,
                      const double     *row_effect,
                      double           *slope)
{
  for (size_t row = 0; row < graph->n_rows; row++)
    for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
      {
        uint32_t line = graph->line_slot[l];

        slope[l] = row_effect[row] * cro_line_net (lines, line, &measures[lines->item[line]])
                   * unit_cost[graph->part[l]];
      }
}

double
cro_effect_of_value (double effect_of_by_product,
                     double effect_of_main,
                     double used_of_by_product,
                     double used_of_main)
{
  if (!(used_of_main > 0))
    return effect_of_by_product;
  return effect_of_by_product - effect_of_main * used_of_by_product / used_of_main;
}
