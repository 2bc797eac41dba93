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
               guint32     recipe,
               gint64      allowance)
{
  g_autofree char *pct = cro_words_decimal (cro_model_recipe (figures->model, recipe)->allowance);
  g_autofree char *money = cro_money_to_text (allowance,
                                              cro_currency_digits (figures->model->currency));

  /* Translators: of a plate's lines: "seasoning 3 %: 0.62". */
  return g_strdup_printf (_("seasoning %s %%: %s"), pct, money);
}

static char *
dup_total (CroFigures *figures,
           guint32     recipe,
           gint64      total)
{
  const CroRecipe *of = cro_model_recipe (figures->model, recipe);
  g_autofree char *money = cro_money_to_text (total, cro_currency_digits (figures->model->currency));
  g_autofree char *known = cro_words_known (cro_known_of_recipe (figures, recipe), money);
  g_autofree char *makes = NULL;

  if (!of->is_plate)
    /* Translators: what all lines of a preparation cost. */
    return g_strdup_printf (_("total of the batch: %s"), known);
  makes = cro_words_decimal (of->makes);
  /* Translators: what all lines of a plate cost: a number of bites, then money. */
  return g_strdup_printf (_("total for %s: %s"), makes, known);
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
  g_autofree char *food = NULL, *disposables = NULL;

  if (kinds[1] == 0)
    return NULL;
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    kinds[i] *= share;
  cro_money_apportion (total, kinds, G_N_ELEMENTS (kinds), digits, order, minor);
  food = cro_money_to_text (minor[0], digits);
  disposables = cro_money_to_text (minor[1], digits);
  /* Translators: parts of a total that stands before it: amounts of money. */
  return g_strdup_printf (_("= %s food + %s disposables"), food, disposables);
}

char *
cro_words_total_of_lines (CroFigures *figures,
                          guint32     recipe,
                          gint64      total,
                          gint64      allowance)
{
  g_autofree char *seasoning = cro_model_recipe (figures->model, recipe)->allowance > 0
                                   ? dup_seasoning (figures, recipe, allowance)
                                   : NULL;
  g_autofree char *sum = dup_total (figures, recipe, total);
  g_autofree char *kinds = dup_kinds (figures, recipe, total);

  return g_strconcat (seasoning != NULL ? seasoning : "", seasoning != NULL ? " · " : "", sum,
                      kinds != NULL ? " " : "", kinds, NULL);
}
