#include "cro-cli.h"

#include <math.h>
#include <string.h>

#include "cro-cli-json.h"
#include "cro-decimal.h"
#include "cro-json.h"

/* None left is no money, whatever it would cost. */
static CroKnown
known_of_left_cost (CroFigures          *figures,
                    const CroPlanOutput *output)
{
  if (isnan (output->left_cost))
    return CRO_KNOWN_NOTHING;
  if (output->known_left == CRO_KNOWN_WHOLE && output->left == 0)
    return CRO_KNOWN_WHOLE;
  return cro_known_of_sum (output->known_left, cro_known_of_item (figures, output->item));
}

static void
add_left (CroJson             *json,
          CroFigures          *figures,
          const CroPlanOutput *output)
{
  CroModel *model = figures->model;

  if (isnan (output->left))
    return;
  cro_json_begin_object (json, NULL);
  cro_json_text (json, "item", cro_model_item (model, output->item)->name);
  cro_cli_json_base (json, model, output->item);
  cro_cli_json_number (json, "amount", output->left);
  cro_cli_json_number (json, "cost", output->left_cost);
  cro_cli_json_known (json, "known", output->known_left);
  cro_cli_json_known (json, "cost_known", known_of_left_cost (figures, output));
  cro_json_end_object (json);
}

/* What nothing is known of is named by its causes: a 0 would be taken for a figure. */
static void
add_make (CroJson        *json,
          CroServicePlan *plan,
          CroPlanMake    *make)
{
  CroModel *model = plan->figures->model;

  if (!(make->runs > 0))
    return;
  cro_json_begin_object (json, NULL);
  cro_json_text (json, "preparation", cro_model_recipe (model, make->recipe)->name);
  cro_cli_json_number (json, "needed_batches", make->runs);
  cro_cli_json_number (json, "batches", make->batches);
  cro_cli_json_number (json, "minutes", make->minutes);
  cro_cli_json_known (json, "known", make->known);
  cro_json_begin_array (json, "left");
  for (guint i = 0; i < make->n_outputs; i++)
    add_left (json, plan->figures, &g_array_index (plan->outputs, CroPlanOutput, make->first_output + i));
  cro_json_end_array (json);
  cro_json_end_object (json);
}

static const char *
supplier_name (CroModel *model,
               guint32   supplier)
{
  return g_array_index (model->suppliers, CroSupplier, supplier).name;
}

static void
add_buy (CroJson          *json,
         CroModel         *model,
         const CroPlanBuy *buy)
{
  const CroOfferEntry *offer = buy->offer != CRO_NO_SLOT ? cro_model_offer (model, buy->offer) : NULL;

  if (!(buy->needed > 0))
    return;
  cro_json_begin_object (json, NULL);
  cro_json_text (json, "ingredient", cro_model_item (model, buy->item)->name);
  cro_json_text (json, "supplier", offer != NULL ? supplier_name (model, offer->supplier) : NULL);
  cro_json_text (json, "code", offer != NULL ? offer->code : NULL);
  cro_cli_json_base (json, model, buy->item);
  cro_cli_json_number (json, "needed", buy->needed);
  cro_cli_json_number (json, "packs", buy->packs);
  cro_cli_json_number (json, "pack", buy->pack);
  cro_cli_json_number (json, "cost", buy->cost);
  cro_cli_json_number (json, "left", buy->left);
  cro_cli_json_known (json, "known", buy->known);
  if (buy->since != CRO_NO_DAY)
    cro_cli_json_day (json, "last_price", buy->since);
  else
    cro_json_text (json, "last_price", NULL);
  cro_json_end_object (json);
}

static void
add_money (CroJson    *json,
           const char *name,
           gint64      micro)
{
  cro_json_number (json, name, cro_decimal_to_double (micro), micro != CRO_NOT_SET);
}

static void
add_order (CroJson            *json,
           CroModel           *model,
           const CroPlanOrder *order)
{
  cro_json_begin_object (json, NULL);
  cro_json_text (json, "supplier", supplier_name (model, order->supplier));
  cro_cli_json_number (json, "cost", order->cost);
  add_money (json, "minimum_order", order->minimum);
  cro_cli_json_number (json, "short", cro_plan_order_short (order));
  add_money (json, "delivery_charge", order->charge);
  cro_json_end_object (json);
}

/* Names of what stands above as no row, since nothing is known of how much of it is needed. */
static void
add_not_known (CroJson        *json,
               CroServicePlan *plan)
{
  CroModel *model = plan->figures->model;

  cro_json_begin_array (json, "make_not_known");
  for (guint i = 0; i < plan->make->len; i++)
    {
      const CroPlanMake *make = &g_array_index (plan->make, CroPlanMake, i);

      if (make->known == CRO_KNOWN_NOTHING)
        cro_json_text (json, NULL, cro_model_recipe (model, make->recipe)->name);
    }
  cro_json_end_array (json);
  cro_json_begin_array (json, "buy_not_known");
  for (guint i = 0; i < plan->buy->len; i++)
    {
      const CroPlanBuy *buy = &g_array_index (plan->buy, CroPlanBuy, i);

      if (buy->known == CRO_KNOWN_NOTHING)
        cro_json_text (json, NULL, cro_model_item (model, buy->item)->name);
    }
  cro_json_end_array (json);
}

static void
add_plan (CroJson     *json,
          CroPlanning *planning)
{
  CroServicePlan *plan = planning->plan;
  CroModel *model = plan->figures->model;

  cro_json_begin_object (json, NULL);
  cro_cli_json_day (json, "on", planning->date);
  cro_json_text (json, "currency", model->currency);
  cro_json_begin_array (json, "make");
  for (guint i = 0; i < plan->make->len; i++)
    add_make (json, plan, &g_array_index (plan->make, CroPlanMake, i));
  cro_json_end_array (json);
  cro_json_begin_array (json, "buy");
  for (guint i = 0; i < plan->buy->len; i++)
    add_buy (json, model, &g_array_index (plan->buy, CroPlanBuy, i));
  cro_json_end_array (json);
  cro_json_begin_array (json, "orders");
  for (guint i = 0; i < plan->orders->len; i++)
    add_order (json, model, &g_array_index (plan->orders, CroPlanOrder, i));
  cro_json_end_array (json);
  add_not_known (json, plan);
  cro_cli_json_number (json, "minutes", plan->minutes);
  cro_cli_json_known (json, "minutes_known", plan->known_minutes);
  cro_cli_json_number (json, "cost", plan->cost);
  cro_cli_json_number (json, "theoretical_cost", plan->theoretical);
  cro_cli_json_range (json, plan->cheapest, plan->dearest);
  cro_cli_json_causes (json, plan->missing);
  cro_json_end_object (json);
}

gboolean
cro_cli_print_plan_json (CroPlanning  *planning,
                         GError      **error)
{
  g_autoptr (CroJson) json = cro_json_new ();

  add_plan (json, planning);
  return cro_cli_json_print (json, error);
}
