#include "cro-batch.h"

#include "cro-decimal.h"
#include "cro-rule.h"

static double
finished_amount (const CroOutput  *output,
                 const CroMeasure *measure,
                 double            input_grams)
{
  if (output->amount > 0)
    return cro_decimal_to_double (output->amount) * cro_unit_factor (output->unit);
  /* A yield is of a mass, so its output is weighed in grams. */
  if (output->yield > 0 && input_grams > 0 && measure->base == CRO_BASE_GRAM)
    return input_grams * (double) output->yield / (double) CRO_WHOLE_PCT;
  return 0;
}

/* 1 - l; exactly 1 where nothing is lost, so that what has no lost part keeps its bits. */
static double
part_used (const CroOutput *output)
{
  return (double) (CRO_WHOLE_PCT - output->lost) / (double) CRO_WHOLE_PCT;
}

/* Outputs of one measure need no conversion: their grams cancel. Pieces always do, as a
 * piece of one output is not a piece of another. */
static bool
needs_grams (const CroMeasure *measures,
             size_t            n)
{
  for (size_t i = 0; i < n; i++)
    if (measures[i].base != measures[0].base || measures[i].base == CRO_BASE_EACH)
      return true;
  return false;
}

/* What one base unit of an output counts in the sharing of the batch. */
static double
weight_of_base (CroRule           rule,
                const CroOutput  *output,
                const CroMeasure *measure,
                bool              in_grams)
{
  if (cro_rule_values (rule))
    return output->value_of_base;
  return in_grams ? measure->grams[measure->base] : 1;
}

/* share_i = w_i / sum (w Q) / (1 - l_i): known for all outputs or for none, since what one of them bears
 * is what the others do not. */
static void
share_in_proportion (CroRule           rule,
                     CroOutput        *outputs,
                     const CroMeasure *measures,
                     size_t            n)
{
  bool in_grams = cro_rule_weighs (rule) && needs_grams (measures, n);
  unsigned lacking = 0;
  double total = 0;

  for (size_t i = 0; i < n; i++)
    {
      if (in_grams)
        outputs[i].lacks |= cro_measure_lacks (&measures[i], (CroBase) measures[i].base,
                                               CRO_BASE_GRAM);
      if (cro_rule_needs_value (rule, i == 0) && !outputs[i].has_value)
        outputs[i].lacks |= CRO_OUTPUT_LACKS_VALUE;
      lacking |= outputs[i].lacks;
      total += weight_of_base (rule, &outputs[i], &measures[i], in_grams) * outputs[i].finished;
    }
  if (lacking == 0 && !(total > 0))
    outputs[0].lacks |= lacking = CRO_OUTPUT_LACKS_VALUE;
  if (lacking != 0)
    return;

  for (size_t i = 0; i < n; i++)
    {
      outputs[i].share = weight_of_base (rule, &outputs[i], &measures[i], in_grams) / total
                         / part_used (&outputs[i]);
      outputs[i].is_known = true;
    }
}

/* The main output bears the batch, less what its by-products are credited with. */
static void
share_to_main (CroRule    rule,
               CroOutput *outputs,
               size_t     n)
{
  double credit = 0;

  for (size_t i = 1; i < n; i++)
    {
      outputs[i].is_known = cro_rule_frees (rule) || outputs[i].has_value;
      if (cro_rule_frees (rule))
        continue;
      if (!outputs[i].has_value)
        outputs[i].lacks |= CRO_OUTPUT_LACKS_VALUE;
      outputs[i].fixed = outputs[i].value_of_base;
      credit += outputs[i].value_of_base * outputs[i].used;
    }

  outputs[0].is_known = outputs[0].finished > 0;
  if (outputs[0].is_known)
    {
      outputs[0].share = 1 / outputs[0].used;
      outputs[0].fixed = -credit / outputs[0].used;
    }
}

void
cro_batch_share (CroRule           rule,
                 double            input_grams,
                 CroOutput        *outputs,
                 const CroMeasure *measures,
                 size_t            n)
{
  for (size_t i = 0; i < n; i++)
    {
      CroOutput *output = &outputs[i];

      output->finished = finished_amount (output, &measures[i], input_grams);
      output->used = output->finished * part_used (output);
      output->value_of_base = output->has_value ? cro_decimal_to_double (output->value)
                                                  / cro_unit_factor (output->unit)
                                                : 0;
      output->share = output->fixed = 0;
      output->is_known = false;
      output->lacks = output->finished > 0 || (cro_rule_frees (rule) && i > 0)
                          ? CRO_OUTPUT_SOUND
                          : CRO_OUTPUT_LACKS_AMOUNT;
    }

  if (cro_rule_shares (rule))
    share_in_proportion (rule, outputs, measures, n);
  else
    share_to_main (rule, outputs, n);
}
