#include "cro-sum-private.h"

#include <math.h>

#include "cro-decimal.h"
#include "cro-result-words.h"
#include "cro-sold-as.h"
#include "cro-words.h"

/* (1 + w) C ÷ M, to which more may be multiplied. */
static void
add_bite (GPtrArray         *sum,
          CroFigures        *figures,
          guint32            plate,
          const CroSumWords *words)
{
  const CroRecipe *recipe = cro_model_recipe (figures->model, plate);
  CroRef ref = CRO_REF (CRO_REF_RECIPE, plate);
  double batch = figures->layers[CRO_LAYER_FOOD].row_cost[cro_figures_row (figures, plate)];
  CroFigure figure = cro_figure_of_plate (figures, plate);

  if (recipe->allowance > 0)
    {
      cro_sum_add_plain (sum, 1 + (double) recipe->allowance / (double) CRO_WHOLE_PCT,
                         words->seasoning, ref);
      cro_sum_add_sign (sum, CRO_SUM_TIMES);
    }
  cro_sum_add_money (sum, figures->model, batch, NULL, ref);
  cro_sum_mark (sum, cro_known_of_cost (&figure));
  cro_sum_add_sign (sum, CRO_SUM_OVER);
  cro_sum_add_entered (sum, recipe->makes, recipe->makes == CRO_MICRO ? words->bite : words->bites, ref);
}

GPtrArray *
cro_sum_of_guest (CroFigures        *figures,
                  guint32            plate,
                  const CroSumWords *words)
{
  const CroSumWords *with = words != NULL ? words : &cro_sum_no_words;
  CroFigure figure = cro_figure_of_plate (figures, plate);
  gint64 per_guest = cro_model_recipe (figures->model, plate)->per_guest;
  CroRef ref = CRO_REF (CRO_REF_RECIPE, plate);
  GPtrArray *sum
      = cro_sum_begin_money (figures->model, figure.cost, cro_known_of_cost (&figure), ref);

  if (per_guest != CRO_MICRO)
    {
      cro_sum_add_entered (sum, per_guest, with->a_guest, ref);
      cro_sum_add_sign (sum, CRO_SUM_TIMES);
    }
  add_bite (sum, figures, plate, with);
  return cro_sum_settle (sum);
}

/* A guest's food, marked where something is missing below: what it goes into is. */
static void
food (GPtrArray       *sum,
      CroModel        *model,
      const CroFigure *figure,
      const char      *says,
      CroRef           thing)
{
  cro_sum_add_money (sum, model, figure->cost, says, thing);
  cro_sum_mark (sum, cro_known_of_cost (figure));
}

/* Servings, and of what is chosen how often it is taken. */
static void
add_taken (GPtrArray          *sum,
           CroModel           *model,
           const CroMenuPlate *entry)
{
  CroRef menu = CRO_REF (CRO_REF_MENU, entry->menu);
  double taken = cro_menu_taken (model, entry);

  if (taken == 1)
    return;
  if (taken == cro_decimal_to_double (entry->servings))
    cro_sum_add_entered (sum, entry->servings, NULL, menu);
  else
    cro_sum_add_plain (sum, taken, NULL, menu);
  cro_sum_add_sign (sum, CRO_SUM_TIMES);
}

GPtrArray *
cro_sum_of_menu (CroFigures        *figures,
                 guint32            menu,
                 const CroSumWords *words)
{
  g_autoptr (GPtrArray) plates = cro_menu_dup_plates (figures->model, menu);
  CroFigure figure = cro_figure_of_menu (figures, menu);
  GPtrArray *sum;

  if (plates->len == 0)
    return NULL;
  sum = cro_sum_begin_money (figures->model, figure.cost, cro_known_of_cost (&figure),
                             CRO_REF (CRO_REF_MENU, menu));
  for (guint i = 0; i < plates->len; i++)
    {
      const CroMenuPlate *entry = plates->pdata[i];
      CroFigure plate = cro_figure_of_plate (figures, entry->plate);

      if (i > 0)
        cro_sum_add_sign (sum, "+");
      add_taken (sum, figures->model, entry);
      food (sum, figures->model, &plate, plate.name, CRO_REF (CRO_REF_RECIPE, entry->plate));
    }
  return cro_sum_settle (sum);
}

/* Food ÷ net price; (net price − food) ÷ net price; net price ÷ food. */
GPtrArray *
cro_sum_of_pct (CroFigures        *figures,
                CroRef             thing,
                const CroSumWords *words)
{
  const CroSumWords *with = words != NULL ? words : &cro_sum_no_words;
  CroModel *model = figures->model;
  CroFigure figure = cro_figure_of (figures, thing);
  double result = cro_result_of_pct (model->speaks, figure.food_cost_pct);
  gboolean is_coefficient = model->speaks == CRO_SPEAKS_COEFFICIENT;
  gboolean is_gross_profit = model->speaks == CRO_SPEAKS_GROSS_PROFIT;
  GPtrArray *sum;

  if (isnan (result))
    return NULL;
  sum = cro_sum_begin (is_coefficient ? CRO_TERM_MONEY : CRO_TERM_PCT,
                       is_coefficient ? result : result / 100, cro_result_digits (model, &figure),
                       CRO_BASE_GRAM, cro_known_of_result (model->speaks, &figure), thing);
  if (is_gross_profit)
    cro_sum_add_sign (sum, "(");
  if (is_gross_profit || is_coefficient)
    cro_sum_add_money (sum, model, figure.net_price, NULL, thing);
  if (is_gross_profit || is_coefficient)
    cro_sum_add_sign (sum, is_coefficient ? CRO_SUM_OVER : CRO_SUM_MINUS);
  food (sum, model, &figure, with->food, thing);
  if (is_gross_profit)
    cro_sum_add_sign (sum, ")");
  if (!is_coefficient)
    {
      cro_sum_add_sign (sum, CRO_SUM_OVER);
      cro_sum_add_money (sum, model, figure.net_price, NULL, thing);
    }
  return cro_sum_settle (sum);
}

GPtrArray *
cro_sum_of_part (CroFigures         *figures,
                 const CroMenuPlate *entry)
{
  CroFigure plate = cro_figure_of_plate (figures, entry->plate);
  CroPartOfMenu part = cro_part_of_menu (figures, entry, &plate);
  CroRef menu = CRO_REF (CRO_REF_MENU, entry->menu);
  GPtrArray *sum;

  if (isnan (part.of_price_pct))
    return NULL;
  sum = cro_sum_begin (CRO_TERM_PCT, part.of_price_pct / 100, 1, CRO_BASE_GRAM,
                       cro_known_of_cost (&plate), menu);
  add_taken (sum, figures->model, entry);
  food (sum, figures->model, &plate, plate.name, CRO_REF (CRO_REF_RECIPE, entry->plate));
  cro_sum_add_sign (sum, CRO_SUM_OVER);
  cro_sum_add_money (sum, figures->model, part.menu.net_price, part.menu.name, menu);
  return cro_sum_settle (sum);
}

/* Where tax is the book's it leads to the settings. */
static void
add_tax (GPtrArray         *sum,
         CroModel          *model,
         CroRef             thing,
         const CroSumWords *words)
{
  CroRef whose;
  gint64 tax = cro_sold_tax (model, thing, &whose);

  if (tax == 0)
    return;
  cro_sum_add_sign (sum, CRO_SUM_OVER);
  cro_sum_add_plain (sum, 1 + (double) tax / (double) CRO_WHOLE_PCT, words->tax,
                     whose);
}

GPtrArray *
cro_sum_of_net_price (CroFigures        *figures,
                      CroRef             thing,
                      const CroSumWords *words)
{
  CroModel *model = figures->model;
  CroFigure figure = cro_figure_of (figures, thing);
  gint64 price = cro_sold_price (model, thing);
  GPtrArray *sum;

  if (price == CRO_NOT_SET)
    return NULL;
  sum = cro_sum_begin_money (model, figure.net_price, CRO_KNOWN_WHOLE, thing);
  cro_sum_add_exact (sum, cro_words_price (model, price), cro_decimal_to_double (price), NULL,
                     thing);
  add_tax (sum, model, thing, words != NULL ? words : &cro_sum_no_words);
  return cro_sum_settle (sum);
}

GPtrArray *
cro_sum_of_prime_cost (CroFigures        *figures,
                       CroRef             thing,
                       const CroSumWords *words)
{
  const CroSumWords *with = words != NULL ? words : &cro_sum_no_words;
  CroFigure figure = cro_figure_of (figures, thing);
  g_autoptr (GArray) causes = cro_causes_of (figures, thing);
  CroKnown known = cro_known_of_labour (figures->model, &figure, causes);
  GPtrArray *sum = cro_sum_begin_money (figures->model, figure.cost + figure.labour,
                                        cro_known_of_prime (&figure), thing);

  food (sum, figures->model, &figure, with->food, thing);
  if (cro_known_has_labour (figures->model, figure.labour, known))
    {
      cro_sum_add_sign (sum, "+");
      cro_sum_add_money (sum, figures->model, figure.labour, with->labour, thing);
      cro_sum_mark (sum, known);
    }
  else if (with->no_minutes != NULL)
    {
      cro_sum_add_sign (sum, "·");
      cro_sum_add_word (sum, with->no_minutes, CRO_REF_NOWHERE);
    }
  return cro_sum_settle (sum);
}

GPtrArray *
cro_sum_of_left (CroFigures        *figures,
                 CroRef             thing,
                 const CroSumWords *words)
{
  CroFigure figure = cro_figure_of (figures, thing);
  GPtrArray *sum;

  if (isnan (figure.net_price))
    return NULL;
  sum = cro_sum_begin_money (figures->model, figure.net_price - figure.cost,
                             cro_known_turned (cro_known_of_cost (&figure)), thing);
  cro_sum_add_money (sum, figures->model, figure.net_price, NULL, thing);
  cro_sum_add_sign (sum, CRO_SUM_MINUS);
  food (sum, figures->model, &figure, (words != NULL ? words : &cro_sum_no_words)->food, thing);
  return cro_sum_settle (sum);
}
