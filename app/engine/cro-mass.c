#include "cro-mass.h"

double
cro_mass_input (const CroGraph   *graph,
                uint32_t          row,
                const CroLines   *lines,
                const CroMeasure *measures,
                CroMassLacking    lacking,
                void             *user_data)
{
  double grams = 0;
  bool whole = true;

  for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
    {
      uint32_t line = graph->line_slot[l];
      const CroMeasure *item = &measures[lines->item[line]];
      CroLack lack = CRO_LACKS_NOTHING;

      if (!item->is_food)
        continue;
      grams += cro_line_grams (lines, line, item, &lack);
      if (lack == CRO_LACKS_NOTHING)
        continue;
      whole = false;
      if (lacking != NULL)
        lacking (line, lack, user_data);
    }
  return whole ? grams : -1;
}
