#include "config.h"

#include "cro-figure-words.h"

#include <glib/gi18n.h>

#include "cro-known.h"
#include "cro-landing.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-words.h"

static char *
dup_seasoning (CroFigures *figures,
               guint32     recipe)
{
  g_autofree char *number = cro_words_decimal (cro_model_recipe (figures->model, recipe)->allowance);
  g_autofree char *plain = g_strdup_printf ("%s %%", number);
  g_autofree char *pct = cro_words_together (plain);

  /* Translators: under a plate’s lines, before what that costs: "seasoning and handling 3 %". */
  return g_strdup_printf (_("seasoning and handling %s"), pct);
}

static char *
dup_of (CroFigures *figures,
        guint32     recipe)
{
  const CroRecipe *of = cro_model_recipe (figures->model, recipe);
  g_autofree char *makes = NULL;

  if (!of->is_plate)
    return g_strdup (_("the batch"));
  makes = cro_words_decimal (of->makes);
  /* Translators: before what all lines of a plate cost: a number of bites. */
  return g_strdup_printf (_("for %s"), makes);
}

/* NULL where all of it is food. */
static char *
dup_kinds (CroFigures *figures,
           guint32     recipe,
           gint64      total)
{
  guint32 row = cro_figures_row (figures, recipe);
  int digits = cro_currency_digits (figures->model->currency);
  double kinds[] = { figures->layers[CRO_LAYER_FOOD].row_cost[row],
                     figures->layers[CRO_LAYER_DISPOSABLES].row_cost[row] };
  double all = kinds[0] + kinds[1];
  double share = all != 0 ? (all + cro_landing_allowance (figures, recipe)) / all : 1;
  guint64 order[G_N_ELEMENTS (kinds)];
  gint64 minor[G_N_ELEMENTS (kinds)];
  g_autofree char *plain = NULL, *food = NULL, *disposables = NULL;

  if (kinds[1] == 0)
    return NULL;
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    kinds[i] *= share;
  cro_money_apportion (total, kinds, G_N_ELEMENTS (kinds), digits, order, minor);
  plain = cro_money_to_text (minor[0], digits);
  food = cro_words_known (cro_known_of_recipe (figures, recipe), plain);
  disposables = cro_money_to_text (minor[1], digits);
  /* Translators: parts of a total that stands before it: amounts of money. */
  return g_strdup_printf (_("= %s food + %s disposables"), food, disposables);
}

void
cro_words_total_of_lines (CroFigures    *figures,
                          guint32        recipe,
                          gint64         total,
                          gint64         allowance,
                          CroTotalWords *words)
{
  int digits = cro_currency_digits (figures->model->currency);
  g_autofree char *money = cro_money_to_text (total, digits), *seasoning = NULL;

  *words = (CroTotalWords){
    .of = dup_of (figures, recipe),
    .money = cro_words_known (cro_known_of_recipe (figures, recipe), money),
    .kinds = dup_kinds (figures, recipe, total),
  };
  if (cro_model_recipe (figures->model, recipe)->allowance <= 0)
    return;
  words->seasoning = dup_seasoning (figures, recipe);
  seasoning = cro_money_to_text (allowance, digits);
  /* Of nothing that is known it is not known either. */
  words->seasoning_money = cro_landing_allowance (figures, recipe) == 0
                                   && cro_known_of_recipe (figures, recipe) != CRO_KNOWN_WHOLE
                               ? g_strdup ("?")
                               : cro_words_known (cro_known_of_recipe (figures, recipe), seasoning);
}

void
cro_total_words_clear (CroTotalWords *words)
{
  g_free (words->seasoning);
  g_free (words->seasoning_money);
  g_free (words->of);
  g_free (words->money);
  g_free (words->kinds);
}
