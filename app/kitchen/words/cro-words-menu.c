#include "config.h"

#include "cro-words.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-known.h"
#include "cro-plate.h"

static char *
dup_pct (const CroFigure *figure,
         CroKnown         known,
         double           cost)
{
  return cro_words_known_pct (known, cro_food_cost_pct (cost, figure->net_price));
}

/* Ends that read alike are one figure. */
static char *
dup_one_way (const CroFigure *figure,
             const char      *cost)
{
  g_autofree char *pct = NULL;

  if (!(figure->net_price > 0))
    return g_strdup (cost);
  pct = dup_pct (figure, cro_known_of_dearest (figure), figure->dearest);
  /* Translators: a cost, and its food-cost percentage. */
  return g_strdup_printf (_("%s, %s"), cost, pct);
}

char *
cro_words_range (CroModel        *model,
                 const CroFigure *figure)
{
  g_autofree char *from = NULL, *to = NULL, *low = NULL, *high = NULL;

  if (isnan (figure->cheapest))
    return NULL;
  from = cro_words_known_money (model, cro_known_of_cheapest (figure), figure->cheapest);
  to = cro_words_known_money (model, cro_known_of_dearest (figure), figure->dearest);
  if (strcmp (from, to) == 0)
    return dup_one_way (figure, from);
  if (!(figure->net_price > 0))
    /* Translators: the cost of a menu with its cheapest and with its dearest choices. */
    return g_strdup_printf (_("%s to %s"), from, to);
  low = dup_pct (figure, cro_known_of_cheapest (figure), figure->cheapest);
  high = dup_pct (figure, cro_known_of_dearest (figure), figure->dearest);
  if (strcmp (low, high) == 0)
    /* Translators: the cost of a menu with its cheapest and with its dearest choices, and the food-cost
     * percentage of both. */
    return g_strdup_printf (_("%s to %s, %s"), from, to, low);
  /* Translators: the cost of a menu with its cheapest and with its dearest choices, and the
   * food-cost percentages of both. */
  return g_strdup_printf (_("%s to %s, %s to %s"), from, to, low, high);
}

char *
cro_words_taken (CroModel           *model,
                 const CroMenuPlate *entry)
{
  g_autofree char *pct = NULL;

  if (entry->choice == NULL)
    return NULL;
  pct = cro_words_pct (cro_menu_share_pct (model, entry));
  /* Translators: a choice of a menu ("fish"), and how many per cent of guests take this plate. */
  return cro_isolate_printf (_("choice “%s”, taken by %s"), entry->choice, pct);
}

char *
cro_words_place_on_menu (CroModel           *model,
                         const CroMenuPlate *entry)
{
  g_autofree char *taken = cro_words_taken (model, entry);
  g_autofree char *menu = cro_isolate (cro_model_menu (model, entry->menu)->name);

  return taken != NULL ? g_strdup_printf ("%s, %s", menu, taken) : g_steal_pointer (&menu);
}
