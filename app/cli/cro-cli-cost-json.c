#include "cro-cli.h"

#include <math.h>

#include "cro-allergen.h"
#include "cro-json.h"
#include "cro-unit.h"

static void
add_number (CroJson    *json,
            const char *name,
            double      value)
{
  cro_json_number (json, name, value, !isnan (value));
}

static void
add_names (CroJson    *json,
           const char *name,
           GPtrArray  *names)
{
  cro_json_begin_array (json, name);
  for (guint i = 0; i < names->len; i++)
    cro_json_text (json, NULL, names->pdata[i]);
  cro_json_end_array (json);
}

static void
add_causes (CroJson *json,
            GArray  *causes)
{
  cro_json_begin_array (json, "missing");
  for (guint i = 0; i < causes->len; i++)
    {
      g_autofree char *text = cro_cause_to_text (&g_array_index (causes, CroCause, i));

      cro_json_text (json, NULL, text);
    }
  cro_json_end_array (json);
}

static void
add_allergens (CroJson *json,
               guint32  mask)
{
  cro_json_begin_array (json, "allergens");
  for (int i = 0; i < CRO_N_ALLERGENS; i++)
    if (mask & (1u << i))
      cro_json_text (json, NULL, cro_allergen_code (i));
  cro_json_end_array (json);
}

static const char *
base_of (CroModel *model,
         guint32   item)
{
  return cro_unit_get (cro_base_unit ((CroBase) model->measures[item].base))->code;
}

static void
add_item_head (CroJson  *json,
               CroModel *model,
               guint32   item)
{
  cro_json_begin_object (json, NULL);
  cro_json_text (json, "name", cro_model_item (model, item)->name);
  cro_json_text (json, "unit", base_of (model, item));
}

static void
add_ingredients (CroJson      *json,
                 CroModel     *model,
                 CroBreakdown *breakdown)
{
  cro_json_begin_array (json, "ingredients");
  for (guint i = 0; i < breakdown->ingredients->len; i++)
    {
      const CroShareOfCost *share = &g_array_index (breakdown->ingredients, CroShareOfCost, i);

      add_item_head (json, model, share->item);
      add_number (json, "quantity", share->quantity);
      add_number (json, "unit_cost", share->unit_cost);
      add_number (json, "cost", share->cost);
      add_number (json, "elasticity", share->elasticity);
      add_number (json, "ceiling", share->ceiling);
      cro_json_end_object (json);
    }
  cro_json_end_array (json);
}

static void
add_by_products (CroJson      *json,
                 CroModel     *model,
                 CroBreakdown *breakdown)
{
  cro_json_begin_array (json, "by_products");
  for (guint i = 0; i < breakdown->by_products->len; i++)
    {
      const CroShareOfCost *share = &g_array_index (breakdown->by_products, CroShareOfCost, i);

      add_item_head (json, model, share->item);
      add_number (json, "quantity", share->quantity);
      add_number (json, "value", share->unit_cost);
      add_number (json, "cost", share->cost);
      cro_json_end_object (json);
    }
  cro_json_end_array (json);
}

static void
add_figures (CroJson      *json,
             CroModel     *model,
             CroBreakdown *breakdown)
{
  const CroFigure *figure = &breakdown->figure;

  cro_json_begin_object (json, NULL);
  cro_json_text (json, "name", figure->name);
  add_number (json, "cost_per_guest", figure->cost);
  add_number (json, "labour_per_guest", figure->labour);
  add_number (json, "disposables_per_guest", figure->disposables);
  add_number (json, "net_price", figure->net_price);
  add_number (json, "food_cost_pct", figure->food_cost_pct);
  add_number (json, "target_pct", figure->target_pct);
  add_allergens (json, breakdown->allergens);
  add_names (json, "allergens_not_known", breakdown->allergens_not_known);
  add_causes (json, breakdown->missing);
  add_names (json, "assumed", breakdown->assumed);
  add_ingredients (json, model, breakdown);
  add_by_products (json, model, breakdown);
  if (!isnan (figure->bite))
    add_number (json, "cost_per_bite", figure->bite);
  cro_json_end_object (json);
}

static void
add_items (CroJson    *json,
           CroFigures *figures)
{
  CroModel *model = figures->model;

  cro_json_begin_array (json, "items");
  for (guint32 item = 0; item < model->items->len; item++)
    {
      g_autoptr (GArray) causes = NULL;

      if (cro_model_item (model, item)->is_dead)
        continue;
      add_item_head (json, model, item);
      add_number (json, "unit_cost", cro_figures_unit_cost (figures, item));
      causes = cro_causes_of_item (figures, item);
      add_causes (json, causes);
      cro_json_end_object (json);
    }
  cro_json_end_array (json);
}

gboolean
cro_cli_print_cost_json (CroCosting  *costing,
                         GError     **error)
{
  CroFigures *figures = cro_book_get_figures (costing->book);
  CroModel *model = cro_book_get_model (costing->book);
  g_autoptr (CroJson) json = cro_json_new ();
  g_autofree char *text = NULL;
  char on[CRO_DATE_CHARS], as_of[CRO_DATE_CHARS];
  CroDate day;
  gboolean is_past = cro_book_is_past (costing->book, &day);

  cro_date_format (costing->date, on);
  cro_date_format (day, as_of);
  cro_json_begin_object (json, NULL);
  cro_json_text (json, "on", on);
  cro_json_text (json, "as_of", is_past ? as_of : NULL);
  cro_json_text (json, "currency", model->currency);
  add_items (json, figures);
  cro_json_begin_array (json, "plates");
  for (guint i = 0; i < costing->plates->len; i++)
    {
      g_autoptr (CroBreakdown) breakdown
          = cro_breakdown_of_plate (figures, g_array_index (costing->plates, guint32, i));

      add_figures (json, model, breakdown);
    }
  cro_json_end_array (json);
  cro_json_begin_array (json, "menus");
  for (guint i = 0; i < costing->menus->len; i++)
    {
      g_autoptr (CroBreakdown) breakdown
          = cro_breakdown_of_menu (figures, g_array_index (costing->menus, guint32, i));

      add_figures (json, model, breakdown);
    }
  cro_json_end_array (json);
  cro_json_end_object (json);
  text = cro_json_print (json, error);
  if (text == NULL)
    return FALSE;
  g_print ("%s", text);
  return TRUE;
}
