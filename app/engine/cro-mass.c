#include "cro-mass.h"

#include <math.h>

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

double
cro_mass_trim_loss (const CroLines   *lines,
                    size_t            line,
                    const CroMeasure *item)
{
  CroLack lack;
  double net = cro_line_grams (lines, line, item, &lack);
  double yield = (double) cro_line_yield (lines, line, item) / (double) CRO_WHOLE_PCT;

  return lack == CRO_LACKS_NOTHING ? net / yield - net : NAN;
}

double
cro_mass_lost (const CroOutput  *output,
               const CroMeasure *measure)
{
  double of_base = measure->grams[measure->base];

  return output->finished > 0 && of_base > 0 ? (output->finished - output->used) * of_base : NAN;
}

double
cro_mass_process_loss (double            input_grams,
                       const CroOutput  *outputs,
                       const CroMeasure *measures,
                       size_t            n)
{
  double loss = input_grams;

  if (input_grams < 0)
    return NAN;
  for (size_t i = 0; i < n; i++)
    {
      double of_base = measures[i].grams[measures[i].base];

      if (!(outputs[i].finished > 0) || !(of_base > 0))
        return NAN;
      loss -= outputs[i].finished * of_base;
    }
  return loss;
}
