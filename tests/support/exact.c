#include "exact.h"

#include "cro-decimal.h"

#include <math.h>
#include <stdlib.h>

/* Grams of one base unit of a kind of the item's; NULL if it cannot be weighed. */
static mpq_ptr
grams_of (const Book *book,
          uint32_t    item,
          CroBase     base)
{
  int64_t grams = base == CRO_BASE_GRAM         ? CRO_MICRO
                  : base == CRO_BASE_MILLILITRE ? book->density[item]
                                                : book->piece[item];

  return grams > 0 ? q_micro (grams) : NULL;
}

static mpq_ptr
factor_of (CroUnit unit)
{
  const CroUnitInfo *info = cro_unit_get (unit);

  return q_number ((long) info->numerator, (unsigned long) info->denominator);
}

/* What one unit is in another base of the item; NULL if that is not known. */
static mpq_ptr
convert (const Book *book,
         uint32_t    item,
         CroUnit     unit,
         CroBase     to)
{
  CroBase from = cro_unit_get (unit)->base;
  mpq_ptr from_grams, to_grams;

  if (from == to)
    return factor_of (unit);
  from_grams = grams_of (book, item, from);
  to_grams = grams_of (book, item, to);
  if (from_grams == NULL || to_grams == NULL)
    return NULL;
  return q_quo (q_mul (factor_of (unit), from_grams), to_grams);
}

/* a (1 - k) in the wanted base; NULL if it cannot be converted. */
static mpq_ptr
net_of_line (const Book *book,
             size_t      i,
             CroBase     to)
{
  const CroLines *lines = &book->lines;
  mpq_ptr per_unit = convert (book, lines->item[i], (CroUnit) lines->unit[i], to);

  if (per_unit == NULL)
    return NULL;
  return q_mul (q_mul (q_micro (lines->amount[i]), per_unit),
                q_sub (q_number (1, 1), q_pct (lines->recovered[i])));
}

static mpq_ptr
yield_of_line (const Book *book,
               size_t      i)
{
  const CroLines *lines = &book->lines;
  const CroMeasure *item = &book->measure[lines->item[i]];
  bool is_piece = cro_unit_get ((CroUnit) lines->unit[i])->base == CRO_BASE_EACH;

  if (lines->yield[i] > 0)
    return q_pct (lines->yield[i]);
  if (book->maker[lines->item[i]] < 0 && !lines->whole[i] && !is_piece && item->trim_yield > 0)
    return q_pct (item->trim_yield);
  return q_number (1, 1);
}

/* NULL if a food line cannot be weighed. */
static mpq_ptr
input_mass (const Book *book,
            int32_t     row)
{
  mpq_ptr grams = q_number (0, 1);

  for (size_t i = 0; i < book->lines.n; i++)
    if (book->lines.row[i] == row && book->measure[book->lines.item[i]].is_food)
      {
        mpq_ptr net = net_of_line (book, i, CRO_BASE_GRAM);

        if (net == NULL)
          return NULL;
        grams = q_add (grams, net);
      }
  return grams;
}

static mpq_ptr
finished_amount (const Book *book,
                 uint32_t    item)
{
  const CroOutput *output = &book->output[item];
  mpq_ptr grams;

  if (output->amount > 0)
    return q_mul (q_micro (output->amount), factor_of (output->unit));
  grams = output->yield > 0 ? input_mass (book, book->maker[item]) : NULL;
  return grams != NULL ? q_mul (grams, q_pct (output->yield)) : q_number (0, 1);
}

/* Of 1 what is not thrown away before it is used. */
static mpq_ptr
part_used (const Book *book,
           uint32_t    item)
{
  return q_sub (q_number (1, 1), q_pct (book->output[item].lost));
}

/* Money per base unit; NULL if nobody has set it. */
static mpq_ptr
value_of_base (const Book *book,
               uint32_t    item)
{
  const CroOutput *output = &book->output[item];

  return output->has_value ? q_quo (q_micro (output->value), factor_of (output->unit)) : NULL;
}

/* What one base unit of an output counts under weight and value; NULL if it is not known. */
static mpq_ptr
weight_of (const Book *book,
           uint32_t    item,
           CroRule     rule,
           bool        one_measure)
{
  if (rule == CRO_RULE_VALUE)
    return value_of_base (book, item);
  return one_measure ? q_number (1, 1)
                     : grams_of (book, item, (CroBase) book->measure[item].base);
}

static void
share_in_proportion (Exact   *exact,
                     CroRule  rule,
                     uint32_t first,
                     uint32_t end)
{
  const Book *book = exact->book;
  bool one_measure = book->measure[first].base != CRO_BASE_EACH;
  mpq_ptr total = q_number (0, 1);

  for (uint32_t i = first; i < end; i++)
    one_measure = one_measure && book->measure[i].base == book->measure[first].base;
  for (uint32_t i = first; i < end; i++)
    {
      mpq_ptr weight = weight_of (book, i, rule, one_measure);

      if (weight == NULL || q_is_zero (exact->finished[i]))
        return;
      total = q_add (total, q_mul (weight, exact->finished[i]));
    }
  if (q_is_zero (total))
    return;
  for (uint32_t i = first; i < end; i++)
    exact->share[i] = q_quo (q_quo (weight_of (book, i, rule, one_measure), total),
                             part_used (book, i));
}

static void
share_to_main (Exact   *exact,
               CroRule  rule,
               uint32_t first,
               uint32_t end)
{
  mpq_ptr credit = q_number (0, 1);

  for (uint32_t i = first + 1; i < end && rule == CRO_RULE_CREDIT; i++)
    {
      mpq_ptr value = value_of_base (exact->book, i);

      if (value == NULL)
        continue;
      exact->fixed[i] = value;
      credit = q_add (credit, q_mul (value, exact->used[i]));
    }
  if (q_is_zero (exact->finished[first]))
    return;
  exact->share[first] = q_quo (q_number (1, 1), exact->used[first]);
  exact->fixed[first] = q_sub (q_number (0, 1), q_quo (credit, exact->used[first]));
}

static void
share_row (Exact   *exact,
           uint32_t row)
{
  const Book *book = exact->book;
  CroRule rule = book->rule[row];
  uint32_t first = 0, end;

  while (first < book->n_items && book->maker[first] != (int32_t) row)
    first++;
  for (end = first; end < book->n_items && book->maker[end] == (int32_t) row; end++)
    {
      exact->finished[end] = finished_amount (book, end);
      exact->used[end] = q_mul (exact->finished[end], part_used (book, end));
      exact->share[end] = exact->fixed[end] = q_number (0, 1);
    }
  if (first == end)
    return;
  if (rule == CRO_RULE_WEIGHT || rule == CRO_RULE_VALUE)
    share_in_proportion (exact, rule, first, end);
  else
    share_to_main (exact, rule, first, end);
}

static void
cost_row (Exact   *exact,
          int      layer,
          uint32_t row)
{
  const Book *book = exact->book;
  mpq_ptr hours = q_quo (q_micro (book->minutes[row]), q_number (60, 1));
  mpq_ptr cost = layer == LABOUR ? q_mul (hours, q_micro (book->wage)) : q_number (0, 1);
  double term = q_size (cost);

  for (size_t i = 0; i < book->lines.n; i++)
    if (book->lines.row[i] == (int32_t) row)
      {
        uint32_t part = book->lines.item[i];

        cost = q_add (cost, q_mul (exact->charged[i], exact->unit_cost[layer][part]));
        term = fmax (term, q_size (exact->charged[i]) * exact->unit_term[layer][part]);
      }
  exact->row_cost[layer][row] = cost;
  exact->row_term[layer][row] = term;
  for (size_t i = 0; i < book->n_items; i++)
    if (book->maker[i] == (int32_t) row)
      {
        mpq_ptr fixed = layer == FOOD ? exact->fixed[i] : q_number (0, 1);

        exact->unit_cost[layer][i] = q_add (q_mul (exact->share[i], cost), fixed);
        exact->unit_term[layer][i] = fmax (q_size (exact->share[i]) * term, q_size (fixed));
      }
}

static void
price_raws (Exact *exact)
{
  const Book *book = exact->book;

  for (size_t i = 0; i < book->n_items; i++)
    if (book->maker[i] < 0)
      for (int layer = 0; layer < N_LAYERS; layer++)
        {
          bool counts = layer == (book->measure[i].is_food ? FOOD : DISPOSABLES);

          exact->unit_cost[layer][i] = counts ? q_micro (book->price[i]) : q_number (0, 1);
          exact->unit_term[layer][i] = q_size (exact->unit_cost[layer][i]);
        }
}

void
exact_cost (Exact          *exact,
            const Book     *book,
            const uint32_t *parts_first)
{
  if (book->lines.n > EXACT_LINES || book->n_items > EXACT_ITEMS || book->n_rows > EXACT_ROWS)
    abort ();
  *exact = (Exact){ .book = book };
  price_raws (exact);
  for (size_t i = 0; i < book->lines.n; i++)
    {
      mpq_ptr net = net_of_line (book, i, (CroBase) book->measure[book->lines.item[i]].base);

      exact->charged[i] = net != NULL ? q_quo (net, yield_of_line (book, i)) : q_number (0, 1);
    }
  for (size_t k = 0; k < book->n_rows; k++)
    {
      share_row (exact, parts_first[k]);
      for (int layer = 0; layer < N_LAYERS; layer++)
        cost_row (exact, layer, parts_first[k]);
    }
}
