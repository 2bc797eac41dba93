#include "cro-cli.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>

#include "cro-allergen.h"
#include "cro-cli-json.h"
#include "cro-json.h"
#include "cro-many.h"

static void
add_allergens (CroJson    *json,
               const char *name,
               guint32     mask)
{
  cro_json_begin_array (json, name);
  for (int i = 0; i < CRO_N_ALLERGENS; i++)
    if (mask & (1u << i))
      cro_json_text (json, NULL, cro_allergen_code (i));
  cro_json_end_array (json);
}

static void
add_item_head (CroJson  *json,
               CroModel *model,
               guint32   item)
{
  cro_json_begin_object (json, NULL);
  cro_json_text (json, "name", cro_model_item (model, item)->name);
  cro_cli_json_base (json, model, item);
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
      cro_cli_json_number (json, "quantity", share->quantity);
      cro_cli_json_number (json, "unit_cost", share->unit_cost);
      cro_cli_json_number (json, "cost", share->cost);
      cro_cli_json_number (json, "elasticity", share->elasticity);
      cro_cli_json_number (json, "ceiling", share->ceiling);
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
      cro_cli_json_number (json, "quantity", share->quantity);
      cro_cli_json_number (json, "value", share->unit_cost);
      cro_cli_json_number (json, "cost", share->cost);
      cro_cli_json_known (json, "known", cro_known_of_by_products (breakdown->missing));
      cro_json_end_object (json);
    }
  cro_json_end_array (json);
}

static void
add_last_prices (CroJson            *json,
                 const CroBreakdown *breakdown)
{
  cro_json_begin_array (json, "last_price");
  for (guint i = 0; i < breakdown->last_prices->len; i++)
    {
      const CroLastPrice *entry = &g_array_index (breakdown->last_prices, CroLastPrice, i);

      cro_json_begin_object (json, NULL);
      cro_json_text (json, "name", entry->name);
      cro_cli_json_day (json, "since", entry->since);
      cro_json_end_object (json);
    }
  cro_json_end_array (json);
}

static void
add_doubts (CroJson            *json,
            CroModel           *model,
            const CroBreakdown *breakdown)
{
  cro_json_begin_array (json, "doubts");
  for (guint i = 0; i < breakdown->doubts->len; i++)
    {
      g_autofree char *text
          = cro_unserved_to_text (model, &g_array_index (breakdown->doubts, CroUnserved, i));

      cro_json_text (json, NULL, text);
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
  cro_cli_json_number (json, "cost_per_guest", figure->cost);
  cro_cli_json_number (json, "labour_per_guest", figure->labour);
  cro_cli_json_number (json, "disposables_per_guest", figure->disposables);
  cro_cli_json_number (json, "net_price", figure->net_price);
  cro_cli_json_number (json, "food_cost_pct", figure->food_cost_pct);
  cro_cli_json_number (json, "target_pct", figure->target_pct);
  add_allergens (json, "allergens", breakdown->allergens);
  cro_cli_json_names (json, "allergens_not_known", breakdown->allergens_not_known);
  cro_cli_json_causes (json, breakdown->missing);
  cro_cli_json_names (json, "assumed", breakdown->assumed);
  add_allergens (json, "allergens_may_contain", breakdown->may_contain);
  add_last_prices (json, breakdown);
  add_doubts (json, model, breakdown);
  cro_cli_json_range (json, figure->cheapest, figure->dearest);
  add_ingredients (json, model, breakdown);
  add_by_products (json, model, breakdown);
  if (!isnan (figure->bite))
    cro_cli_json_number (json, "cost_per_bite", figure->bite);
  cro_json_end_object (json);
}

/* --- Written as it is computed ------------------------------------------------------------------ */

typedef struct
{
  CroModel *model;
  GArray   *slots;                      /* of what is written now … */
  gboolean  are_menus;
  CroJson  *json;
  CroJson  *pieces[CRO_MANY_SLOTS];     /* … and what of it is not yet handed on */
} Printer;

static void
flush (Printer *printer)
{
  gsize length;
  const char *text = cro_json_take (printer->json, &length);

  fwrite (text, 1, length, stdout);
}

static void
add_items (Printer    *printer,
           CroFigures *figures)
{
  CroModel *model = figures->model;
  CroJson *json = printer->json;

  cro_json_begin_array (json, "items");
  for (guint32 item = 0; item < model->items->len; item++)
    {
      g_autoptr (GArray) causes = NULL;

      if (cro_model_item (model, item)->is_dead || ferror (stdout))
        continue;
      add_item_head (json, model, item);
      cro_cli_json_number (json, "unit_cost", cro_figures_unit_cost (figures, item));
      causes = cro_causes_of_item (figures, item);
      cro_cli_json_causes (json, causes);
      if (model->maker[item] < 0 && figures->last_price[item] != CRO_NO_DAY)
        cro_cli_json_day (json, "last_price", figures->last_price[item]);
      else
        cro_json_text (json, "last_price", NULL);
      cro_json_end_object (json);
      flush (printer);
    }
  cro_json_end_array (json);
}

/* What nobody reads is not computed. */
static void
write_piece (CroFigures *figures,
             guint       index,
             guint       slot,
             gpointer    data)
{
  Printer *printer = data;
  guint32 of = g_array_index (printer->slots, guint32, index);
  g_autoptr (CroBreakdown) breakdown = NULL;

  if (ferror (stdout))
    return;
  breakdown = printer->are_menus ? cro_breakdown_of_menu (figures, of) : cro_breakdown_of_plate (figures, of);
  add_figures (printer->pieces[slot], printer->model, breakdown);
}

static void
hand_on_piece (guint    index,
               guint    slot,
               gpointer data)
{
  Printer *printer = data;

  if (ferror (stdout))
    return;
  cro_json_add_piece (printer->json, printer->pieces[slot]);
  flush (printer);
}

static void
add_all (Printer    *printer,
         const char *name,
         CroFigures *figures,
         GArray     *slots,
         gboolean    are_menus)
{
  printer->slots = slots;
  printer->are_menus = are_menus;
  cro_json_begin_array (printer->json, name);
  cro_many_run (figures, slots->len, 0, write_piece, hand_on_piece, printer);
  cro_json_end_array (printer->json);
}

gboolean
cro_cli_print_cost_json (CroCosting  *costing,
                         GError     **error)
{
  CroFigures *figures = cro_book_get_figures (costing->book);
  Printer printer = { .model = cro_book_get_model (costing->book), .json = cro_json_new () };
  char on[CRO_DATE_CHARS], as_of[CRO_DATE_CHARS];
  CroDate day = costing->date;
  gboolean is_past = cro_book_is_past (costing->book, &day);

  for (guint i = 0; i < CRO_MANY_SLOTS; i++)
    printer.pieces[i] = cro_json_new_piece (2);
  cro_date_format (costing->date, on);
  cro_json_begin_object (printer.json, NULL);
  cro_json_text (printer.json, "on", on);
  cro_date_format (day, as_of);
  cro_json_text (printer.json, "as_of", is_past ? as_of : NULL);
  cro_json_text (printer.json, "currency", printer.model->currency);
  add_items (&printer, figures);
  add_all (&printer, "plates", figures, costing->plates, FALSE);
  add_all (&printer, "menus", figures, costing->menus, TRUE);
  cro_json_end_object (printer.json);
  flush (&printer);
  putchar ('\n');
  for (guint i = 0; i < CRO_MANY_SLOTS; i++)
    cro_json_free (printer.pieces[i]);
  cro_json_free (printer.json);
  if (fflush (stdout) == 0 && !ferror (stdout))
    return TRUE;
  g_set_error_literal (error, G_FILE_ERROR, g_file_error_from_errno (errno), g_strerror (errno));
  return FALSE;
}
