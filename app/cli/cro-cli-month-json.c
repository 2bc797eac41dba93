#include "cro-cli-month.h"

#include <math.h>

#include "cro-cli-json.h"
#include "cro-code.h"
#include "cro-decimal.h"
#include "cro-month-frozen.h"

static void
add_unit (CroJson *json,
          CroBase  base)
{
  cro_json_text (json, "unit", cro_unit_get (cro_base_unit (base))->code);
}

/* NULL of a figure that is not there. */
static void
add_known (CroJson    *json,
           const char *name,
           double      figure,
           CroKnown    known)
{
  cro_json_text (json, name, !isnan (figure) ? cro_month_known_codes[known] : NULL);
}

static void
add_purchases (CroJson        *json,
               const CroMonth *month)
{
  double earlier = 0, later = 0;

  cro_json_begin_object (json, "purchases");
  for (guint i = 0; i < CRO_N_PURCHASE_KINDS; i++)
    {
      cro_cli_json_number (json, cro_purchase_kind_codes[i], month->purchases[i]);
      earlier += month->earlier[i];
      later += month->later[i];
    }
  /* All are decimals: what is left of their sums beyond millionths is no money. */
  earlier = round (earlier * CRO_MICRO) / CRO_MICRO;
  later = round (later * CRO_MICRO) / CRO_MICRO;
  cro_cli_json_number (json, "earlier", earlier);
  cro_cli_json_number (json, "earlier_food", month->earlier[0]);
  cro_cli_json_number (json, "reversed", month->reversed);
  cro_cli_json_number (json, "booked_later", later);
  cro_cli_json_number (json, "booked_later_food", month->later[0]);
  cro_cli_json_number (json, "estimate", month->estimate);
  cro_json_end_object (json);
}

/* The closing stock in another way, of what was bought and counted in amounts. */
static void
add_control (CroJson        *json,
             const CroMonth *month)
{
  double counted, average;
  CroKnown known;
  guint n = cro_month_average_stock (month, &counted, &average, &known);

  cro_json_begin_object (json, "stock_control");
  cro_json_number (json, "ingredients", n, TRUE);
  cro_cli_json_number (json, "counted_value", n > 0 ? counted : NAN);
  cro_cli_json_number (json, "at_weighted_average", n > 0 ? average : NAN);
  cro_cli_json_known (json, "known", known);
  cro_json_end_object (json);
}

static void
add_adjustments (CroJson        *json,
                 const CroMonth *month)
{
  cro_json_begin_object (json, "adjustments");
  for (guint i = 0; i < CRO_N_ADJUSTMENT_KINDS; i++)
    cro_cli_json_number (json, cro_adjustment_kind_codes[i], month->adjustments[i]);
  cro_json_end_object (json);
}

static void
add_missing (CroJson        *json,
             const CroMonth *month)
{
  cro_json_begin_array (json, "missing");
  for (guint i = 0; i < month->missing->len; i++)
    cro_json_text (json, NULL, month->missing->pdata[i]);
  cro_json_end_array (json);
}

static void
add_things (CroJson        *json,
            const CroMonth *month)
{
  cro_json_begin_array (json, "things");
  for (guint i = 0; i < month->things->len; i++)
    {
      const CroMonthThing *thing = &g_array_index (month->things, CroMonthThing, i);
      CroKnown known = cro_month_known_cost_of (thing);

      cro_json_begin_object (json, NULL);
      cro_json_text (json, "kind", cro_sale_kind_codes[thing->kind]);
      cro_json_text (json, "name", thing->name);
      cro_json_text (json, "course", thing->course);
      cro_cli_json_number (json, "sold", thing->sold);
      cro_cli_json_number (json, "net_revenue", thing->net_revenue);
      cro_cli_json_number (json, "theoretical_cost", thing->theoretical);
      cro_cli_json_known (json, "net_revenue_known", cro_month_known_sales_of (thing));
      cro_json_text (json, "theoretical_known",
                     thing->kind != CRO_MONTH_OTHER ? cro_month_known_codes[known] : NULL);
      cro_json_end_object (json);
    }
  cro_json_end_array (json);
}

static void
add_items (CroJson        *json,
           const CroMonth *month)
{
  cro_json_begin_array (json, "ingredients");
  for (guint i = 0; i < month->items->len; i++)
    {
      const CroMonthItem *item = &g_array_index (month->items, CroMonthItem, i);

      cro_json_begin_object (json, NULL);
      cro_json_text (json, "name", item->name);
      cro_json_text (json, "category", item->category);
      add_unit (json, item->base);
      cro_cli_json_number (json, "theoretical_quantity", item->theoretical_quantity);
      cro_cli_json_number (json, "theoretical_cost", item->theoretical_cost);
      cro_cli_json_number (json, "actual_quantity", item->actual_quantity);
      cro_cli_json_number (json, "actual_cost", item->actual_cost);
      cro_cli_json_number (json, "price_variance", item->price_variance);
      cro_cli_json_number (json, "usage_variance", item->usage_variance);
      cro_cli_json_number (json, "variance", item->actual_cost - item->theoretical_cost);
      cro_cli_json_number (json, "price_variance_on_bought", item->bought_variance);
      cro_cli_json_number (json, "counted_quantity", item->counted_quantity);
      cro_cli_json_number (json, "counted_value", item->counted_value);
      cro_cli_json_number (json, "weighted_average", item->average_cost);
      cro_cli_json_known (json, "theoretical_known", item->known_theoretical);
      add_known (json, "actual_known", item->actual_cost, item->known_actual);
      add_known (json, "variance_known", item->actual_cost, cro_month_known_together (item));
      add_known (json, "counted_known", item->counted_value,
                 cro_month_known_worth (item->known_stock, item->counted_value));
      cro_json_end_object (json);
    }
  cro_json_end_array (json);
}

static void
add_by_products (CroJson        *json,
                 const CroMonth *month)
{
  cro_json_begin_array (json, "by_products");
  for (guint i = 0; i < month->by_products->len; i++)
    {
      const CroMonthByProduct *of = &g_array_index (month->by_products, CroMonthByProduct, i);

      cro_json_begin_object (json, NULL);
      cro_json_text (json, "name", of->name);
      add_unit (json, of->base);
      cro_cli_json_number (json, "quantity", of->quantity);
      cro_cli_json_number (json, "value", of->value);
      cro_cli_json_number (json, "cost", of->cost);
      cro_cli_json_known (json, "known", cro_month_known_by_products (month));
      cro_json_end_object (json);
    }
  cro_json_end_array (json);
}

static void
add_questions (CroJson        *json,
               const CroMonth *month)
{
  cro_json_begin_array (json, "questions");
  for (guint i = 0; i < month->questions->len; i++)
    {
      const CroMonthQuestion *question = &g_array_index (month->questions, CroMonthQuestion, i);
      g_autofree char *what = cro_month_question_text (question);

      cro_json_begin_object (json, NULL);
      cro_json_text (json, "about", question->about);
      cro_json_text (json, "what", what);
      cro_cli_json_number (json, "explains", question->explains);
      cro_json_end_object (json);
    }
  cro_json_end_array (json);
}

/* Of sales of plates and menus. */
static CroKnown
known_costed (const CroMonth *month)
{
  CroKnown known = CRO_KNOWN_WHOLE;

  for (guint i = 0; i < month->things->len; i++)
    {
      const CroMonthThing *thing = &g_array_index (month->things, CroMonthThing, i);

      if (thing->kind != CRO_MONTH_OTHER)
        known = cro_known_of_sum (known, thing->known_revenue);
    }
  return cro_month_known_worth (known, month->net_sales_costed);
}

/* How much is known of the figures of the month itself. */
static void
add_all_known (CroJson        *json,
               const CroMonth *month)
{
  cro_cli_json_known (json, "net_sales_known", cro_month_known_sales (month));
  cro_cli_json_known (json, "net_sales_costed_known", known_costed (month));
  add_known (json, "opening_stock_known", month->opening, cro_month_known_worth (month->known_opening, month->opening));
  add_known (json, "closing_stock_known", month->closing, cro_month_known_worth (month->known_closing, month->closing));
  cro_json_begin_object (json, "adjustments_known");
  for (guint i = 0; i < CRO_N_ADJUSTMENT_KINDS; i++)
    cro_cli_json_known (json, cro_adjustment_kind_codes[i],
                        cro_month_known_worth (month->known_adjustments[i], month->adjustments[i]));
  cro_json_end_object (json);
  add_known (json, "actual_known", month->actual, month->known_actual);
  cro_cli_json_known (json, "theoretical_known", month->known_theoretical);
  add_known (json, "over_known", month->over, month->known_over);
}

/* The closed month that is not as closing left it: this one, or the one before it. */
static void
add_altered (CroJson        *json,
             const CroMonth *month)
{
  char text[CRO_MONTH_CHARS];

  if (month->altered != CRO_NO_DAY)
    cro_month_format (month->altered, text);
  cro_json_text (json, "altered", month->altered != CRO_NO_DAY ? text : NULL);
}

void
cro_cli_add_month_json (CroJson        *json,
                        const CroMonth *month)
{
  char text[CRO_MONTH_CHARS];

  cro_month_format (month->first, text);
  cro_json_begin_object (json, NULL);
  cro_json_text (json, "month", text);
  cro_json_text (json, "state", month->is_closed ? "closed" : "open");
  add_altered (json, month);
  cro_cli_json_day (json, "recipes_on", month->recipes_on);
  cro_cli_json_day (json, "recipes_of", cro_month_recipes_day (month));
  cro_json_text (json, "currency", month->currency);
  cro_cli_json_number (json, "net_sales", month->net_sales);
  cro_cli_json_number (json, "net_sales_costed", month->net_sales_costed);
  cro_cli_json_number (json, "till", month->till);
  cro_cli_json_number (json, "till_with_tax", month->till_gross);
  cro_cli_json_number (json, "sales_with_tax", month->gross_sales);
  cro_cli_json_number (json, "ledger", month->ledger);
  add_purchases (json, month);
  cro_cli_json_number (json, "opening_stock", month->opening);
  cro_cli_json_number (json, "closing_stock", month->closing);
  add_control (json, month);
  add_adjustments (json, month);
  cro_cli_json_number (json, "actual_cost", month->actual);
  cro_cli_json_number (json, "theoretical_cost", month->theoretical);
  cro_cli_json_number (json, "over", month->over);
  add_all_known (json, month);
  add_missing (json, month);
  add_things (json, month);
  add_items (json, month);
  add_by_products (json, month);
  add_questions (json, month);
  cro_cli_add_matrix_json (json, month);
  cro_json_end_object (json);
}
