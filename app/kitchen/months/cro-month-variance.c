/* Where the difference went, by ingredient: price and usage. */
#include "cro-month-private.h"

#include <math.h>

#include "cro-variance.h"

/* Counted at the close of both days, and bought in amounts: what was not counted at the first day adds nothing, if
 * anything was. */
static gboolean
is_measured (const CroMonthWork     *self,
             const CroMonthGathered *of)
{
  return self->n_food[0] > 0 && self->n_food[1] > 0 && of->is_closing
         && !of->is_broken && !isnan (of->bought_quantity + of->adjusted_quantity);
}

/* What is not measured is in the rest of what is over. */
static void
rest_on (CroMonthWork           *self,
         const CroMonthGathered *of)
{
  CroKnown *rest = &self->month->known_rest;

  if (of->is_broken)
    cro_month_lower (rest, CRO_KNOWN_IN_PART);
  cro_month_lower (rest, of->known_opening);
  cro_month_lower (rest, cro_known_turned (of->known_closing));
  cro_month_lower (rest, cro_known_turned (of->known_adjusted));
  cro_month_lower (rest, cro_known_turned (of->known_standard));
}

static void
add_item (CroMonthWork           *self,
          const CroMonthGathered *of)
{
  CroMonthItem item = {
    .id = of->id, .name = of->name, .base = of->base, .theoretical_quantity = of->standard_quantity,
    .theoretical_cost = of->standard_cost, .actual_quantity = NAN, .actual_cost = NAN,
    .price_variance = NAN, .usage_variance = NAN, .bought_variance = NAN, .counted_quantity = NAN,
    .counted_value = NAN, .average_cost = NAN,
    .known_theoretical = cro_month_known_worth (of->known_standard, of->standard_cost)
  };

  if (is_measured (self, of))
    {
      CroVariance variance;

      item.actual_quantity = of->opening_quantity + of->bought_quantity - of->closing_quantity
                             - of->adjusted_quantity;
      item.actual_cost = of->opening_value + of->bought_value - of->closing_value
                         - of->adjusted_value;
      variance = cro_variance (item.actual_quantity, item.actual_cost, of->standard_quantity,
                               of->standard_cost);
      item.bought = of->bought_value;
      item.counted_quantity = of->closing_quantity;
      item.counted_value = of->closing_value;
      item.known_actual = cro_known_of_sum (of->known_opening, cro_known_turned (of->known_closing));
      item.known_actual = cro_month_known_worth (cro_known_of_sum (item.known_actual,
                                                                   cro_known_turned (of->known_adjusted)),
                                                 item.actual_cost);
      item.known_stock = of->is_opening_open ? of->known_closing
                                             : cro_known_of_sum (of->known_opening, of->known_closing);
      item.average_cost = of->is_opening_open ? NAN
                                              : cro_weighted_average (of->opening_quantity, of->opening_value,
                                                                      of->bought_quantity, of->bought_value);
      item.price_variance = variance.price;
      item.usage_variance = variance.usage;
      item.bought_variance
          = cro_variance_on_bought (of->bought_quantity, of->bought_value, of->standard_quantity,
                                    of->standard_cost);
    }
  else
    rest_on (self, of);
  if (of->standard_quantity != 0 || of->known_standard != CRO_KNOWN_WHOLE || !isnan (item.actual_quantity))
    g_array_append_val (self->month->items, item);
}

guint
cro_month_average_stock (const CroMonth *self,
                         double         *counted,
                         double         *average,
                         CroKnown       *known)
{
  guint n = 0;

  *known = CRO_KNOWN_WHOLE;
  *counted = *average = 0;
  for (guint i = 0; i < self->items->len; i++)
    {
      const CroMonthItem *item = &g_array_index (self->items, CroMonthItem, i);

      if (isnan (item->counted_quantity * item->average_cost) || item->counted_quantity == 0)
        continue;
      *known = cro_known_of_sum (*known, item->known_stock);
      *counted += item->counted_value;
      *average += item->counted_quantity * item->average_cost;
      n++;
    }
  return n;
}

void
cro_month_add_variances (CroMonthWork *self)
{
  GHashTableIter iter;
  gpointer value;

  g_hash_table_iter_init (&iter, self->gathered);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    if (((CroMonthGathered *) value)->is_food && ((CroMonthGathered *) value)->is_bought)
      add_item (self, value);
  g_hash_table_iter_init (&iter, self->credits);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    g_array_append_val (self->month->by_products, *(CroMonthByProduct *) value);
}
