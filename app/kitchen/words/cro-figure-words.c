#include "config.h"

#include "cro-figure-words.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-money.h"
#include "cro-number.h"
#include "cro-result-words.h"
#include "cro-sold-as.h"
#include "cro-words.h"

#define PCT_DIGITS 1

/* --- Marks ------------------------------------------------------------------------------------- */

char *
cro_words_known (CroKnown    known,
                 const char *text)
{
  switch (known)
    {
    case CRO_KNOWN_AT_LEAST:
      /* Translators: before a cost that is known in part. */
      return g_strdup_printf (_("at least %s"), text);
    case CRO_KNOWN_AT_MOST:
      /* Translators: before money left, or a limit, where a cost is known in part. */
      return g_strdup_printf (_("at most %s"), text);
    case CRO_KNOWN_IN_PART:
      return g_strdup_printf ("? %s", text);
    case CRO_KNOWN_NOTHING:
      /* Translators: stands where a cost should be and is not known. */
      return g_strdup (_("?"));
    case CRO_KNOWN_WHOLE:
      return g_strdup (text);
    }
  g_return_val_if_reached (NULL);
}

char *
cro_words_known_short (CroKnown    known,
                       const char *text)
{
  return known == CRO_KNOWN_AT_LEAST  ? g_strdup_printf ("≥ %s", text)
         : known == CRO_KNOWN_AT_MOST ? g_strdup_printf ("≤ %s", text)
                                      : cro_words_known (known, text);
}

char *
cro_words_take_short (CroKnown  known,
                      char     *text)
{
  g_autofree char *plain = text;

  return strcmp (plain, "–") == 0 ? g_steal_pointer (&plain) : cro_words_known_short (known, plain);
}

/* What a computation leaves of nothing is smaller. */
#define LEAST_PCT 1e-9

/* On which side of the least that digits can show a percentage is that rounds to 0 and is none; at most that, and at
 * least that, it is on the same side still, else on that of 0. NULL of any other. */
static char *
dup_tiny (CroKnown known,
          double   pct,
          int      digits)
{
  double least = pct < 0 ? -pow (10, -digits) : pow (10, -digits);
  gboolean is_above = pct < 0 ? known != CRO_KNOWN_AT_MOST : known == CRO_KNOWN_AT_LEAST;
  g_autofree char *text = NULL;

  if (isnan (pct) || fabs (pct) < LEAST_PCT || cro_money_round (pct, digits) != 0)
    return NULL;
  text = is_above == (pct < 0) ? cro_pct_to_text (least, digits) : cro_pct_to_text (0, 0);
  /* Translators: more, or less, than a percentage, "< 0.1 %". */
  return g_strdup_printf (is_above ? _("> %s") : _("< %s"), text);
}

char *
cro_words_pct_of (double pct,
                  int    digits)
{
  char *tiny = dup_tiny (CRO_KNOWN_WHOLE, pct, digits);

  return tiny != NULL ? tiny : isnan (pct) ? g_strdup ("–") : cro_pct_to_text (pct, digits);
}

/* Of a bound that tiny says already nothing more is to be said. */
static char *
take_tiny (CroKnown  known,
           char     *tiny)
{
  g_autofree char *text = tiny;

  return known == CRO_KNOWN_IN_PART || known == CRO_KNOWN_NOTHING ? cro_words_known (known, text)
                                                                  : g_steal_pointer (&text);
}

char *
cro_words_known_money (CroModel *model,
                       CroKnown  known,
                       double    amount)
{
  g_autofree char *text = cro_words_money (model, amount);

  return isnan (amount) && known == CRO_KNOWN_WHOLE ? g_steal_pointer (&text)
                                                    : cro_words_known (known, text);
}

char *
cro_words_known_unit_cost (CroModel *model,
                           CroBase   base,
                           CroKnown  known,
                           double    unit_cost)
{
  g_autofree char *text = cro_words_unit_cost (model, base, unit_cost);

  return cro_words_known (known, text);
}

char *
cro_words_known_pct (CroKnown known,
                     double   pct)
{
  char *tiny = dup_tiny (known, pct, PCT_DIGITS);
  g_autofree char *text = cro_words_pct (pct);

  if (tiny != NULL)
    return take_tiny (known, tiny);
  return isnan (pct) && known != CRO_KNOWN_NOTHING ? g_steal_pointer (&text)
                                                   : cro_words_known (known, text);
}

char *
cro_words_known_pct_short (CroKnown known,
                           double   pct,
                           int      digits)
{
  char *tiny = dup_tiny (known, pct, digits);

  return tiny != NULL ? take_tiny (known, tiny) : cro_words_take_short (known, cro_words_pct_of (pct, digits));
}

/* --- Plates and menus ---------------------------------------------------------------------------- */

char *
cro_words_cost (CroModel        *model,
                const CroFigure *figure)
{
  return cro_words_known_money (model, cro_known_of_cost (figure), figure->cost);
}

char *
cro_words_cost_short (CroModel        *model,
                      const CroFigure *figure)
{
  return cro_words_take_short (cro_known_of_cost (figure), cro_words_money (model, figure->cost));
}

char *
cro_words_result_short (CroModel        *model,
                        const CroFigure *figure)
{
  return cro_words_take_short (cro_known_of_result (model->speaks, figure), cro_words_result_plain (model, figure));
}

char *
cro_words_bite (CroModel        *model,
                const CroFigure *figure)
{
  return isnan (figure->bite)
             ? g_strdup ("–")
             : cro_words_known_money (model, cro_known_of_cost (figure), figure->bite);
}

const char *
cro_words_no_minutes (void)
{
  return _("no minutes of work entered");
}

char *
cro_words_prime (CroModel        *model,
                 const CroFigure *figure)
{
  return cro_words_known_money (model, cro_known_of_prime (figure),
                                figure->cost + figure->labour);
}

static CroKnown
known_of_part (const CroPartOfMenu *part,
               const CroFigure     *plate)
{
  CroKnown of_menu = cro_known_of_cost (&part->menu);

  return of_menu == CRO_KNOWN_IN_PART ? CRO_KNOWN_NOTHING
                                      : cro_known_of_share (cro_known_of_cost (plate), plate->cost, of_menu);
}

char *
cro_words_part_of_price (const CroPartOfMenu *part,
                         const CroFigure     *plate)
{
  return cro_words_known_pct (cro_known_of_cost (plate), part->of_price_pct);
}

char *
cro_words_part_of_price_short (const CroPartOfMenu *part,
                               const CroFigure     *plate)
{
  return cro_words_known_pct_short (cro_known_of_cost (plate), part->of_price_pct, PCT_DIGITS);
}

char *
cro_words_part_of_cost (const CroPartOfMenu *part,
                        const CroFigure     *plate)
{
  return cro_words_known_pct (known_of_part (part, plate), part->of_cost_pct);
}

char *
cro_words_part_of_cost_short (const CroPartOfMenu *part,
                              const CroFigure     *plate)
{
  return cro_words_known_pct_short (known_of_part (part, plate), part->of_cost_pct, PCT_DIGITS);
}

const char *
cro_words_untaxed (const CroFigure *figure)
{
  return figure->is_untaxed ? _("tax not set: counted as 0") : NULL;
}

char *
cro_words_price_for_target (CroModel        *model,
                            const CroFigure *figure)
{
  int digits = cro_currency_digits (model->currency);
  g_autofree char *text = NULL;

  if (isnan (figure->price_for_target))
    return g_strdup ("–");
  text = isinf (figure->price_for_target)
             ? g_strdup ("∞")
             : cro_money_to_text (cro_money_round_up (figure->price_for_target, digits), digits);
  return cro_words_known (cro_known_of_cost (figure), text);
}

/* What is left is rounded down, so that whoever spends it keeps the target, and what the target is
 * passed by up. */
static gint64
spare_minor (CroModel        *model,
             const CroFigure *figure)
{
  gint64 minor = cro_money_round_down (cro_to_spare (figure), cro_currency_digits (model->currency));

  return figure->is_over_target ? minor : MAX (minor, 0);
}

char *
cro_words_spare_money (CroModel        *model,
                       const CroFigure *figure)
{
  CroKnown known = cro_known_of_cost (figure);
  g_autofree char *money = NULL;
  gint64 minor;

  if (isnan (cro_to_spare (figure)))
    return NULL;
  minor = spare_minor (model, figure);
  money = cro_money_to_text (minor < 0 ? -minor : minor, cro_currency_digits (model->currency));
  return cro_words_known (figure->is_over_target ? known : cro_known_turned (known), money);
}

char *
cro_words_spare (CroModel        *model,
                 const CroFigure *figure)
{
  g_autofree char *money = cro_words_spare_money (model, figure);

  if (money == NULL || cro_known_of_cost (figure) == CRO_KNOWN_NOTHING)
    return NULL;
  /* Gross profit and coefficient fall where food cost rises. */
  if (model->speaks != CRO_SPEAKS_FOOD_COST)
    return g_strdup_printf (figure->is_over_target ? _("%s below target") : _("%s above target"),
                            money);
  return g_strdup_printf (figure->is_over_target ? _("%s over target") : _("%s under target"),
                          money);
}

char *
cro_words_spare_short (CroModel        *model,
                       const CroFigure *figure)
{
  g_autofree char *money = cro_words_spare_money (model, figure);
  gboolean is_above = (model->speaks == CRO_SPEAKS_FOOD_COST) == figure->is_over_target;

  if (money == NULL || cro_known_of_cost (figure) == CRO_KNOWN_NOTHING)
    return NULL;
  /* Translators: money by which a plate is over or under its target, in a column “Target”. */
  return g_strdup_printf (is_above ? C_("target", "%s over") : C_("target", "%s under"), money);
}

/* --- Lists ----------------------------------------------------------------------------------------- */

static char *
item_figure (CroFigures *figures,
             guint32     item)
{
  CroBase base = (CroBase) figures->model->measures[item].base;

  switch (cro_known_of_item (figures, item))
    {
    case CRO_KNOWN_WHOLE:
      return cro_words_costs (figures->model, base, cro_figures_unit_cost (figures, item));
    case CRO_KNOWN_NOTHING:
      return cro_words_known (CRO_KNOWN_NOTHING, "");
    case CRO_KNOWN_AT_LEAST:
    case CRO_KNOWN_AT_MOST:
    case CRO_KNOWN_IN_PART:
      return cro_words_unit_cost (figures->model, base, cro_figures_unit_cost (figures, item));
    }
  g_return_val_if_reached (NULL);
}

static gboolean
is_empty_menu (CroModel *model,
               guint32   menu)
{
  g_autoptr (GPtrArray) plates = cro_menu_dup_plates (model, menu);

  return plates->len == 0;
}

static char *
served_figure (CroModel        *model,
               const CroFigure *figure)
{
  if (cro_known_of_cost (figure) == CRO_KNOWN_NOTHING)
    return cro_words_known (CRO_KNOWN_NOTHING, "");
  return isnan (figure->food_cost_pct)
             ? cro_words_money (model, figure->cost)
             : cro_words_result_plain (model, figure);
}

char *
cro_words_list_figure (CroFigures *figures,
                       CroKind     kind,
                       guint32     slot)
{
  CroModel *model = figures->model;
  CroFigure figure;

  switch (kind)
    {
    case CRO_KIND_INGREDIENT:
    case CRO_KIND_OUTPUT:
      return item_figure (figures, slot);
    case CRO_KIND_PREPARATION:
      return cro_model_recipe (model, slot)->n_outputs > 0
                 ? item_figure (figures, g_array_index (model->output_order, guint32,
                                                        cro_model_recipe (model, slot)->first_output))
                 : g_strdup ("–");
    case CRO_KIND_PLATE:
    case CRO_KIND_MENU:
    case CRO_N_KINDS:
      if (kind == CRO_KIND_MENU && is_empty_menu (model, slot))
        return g_strdup ("–");
      figure = kind == CRO_KIND_MENU ? cro_figure_of_menu (figures, slot)
                                     : cro_figure_of_plate (figures, slot);
      return served_figure (model, &figure);
    }
  g_return_val_if_reached (NULL);
}

/* --- Uses ------------------------------------------------------------------------------------------ */

char *
cro_words_use_amount (CroModel     *model,
                      const CroUse *use)
{
  return isnan (use->net) ? cro_words_known (CRO_KNOWN_NOTHING, "")
                          : cro_words_amount ((CroBase) model->measures[use->item].base, use->net);
}

static CroKnown
known_of_use (CroFigures   *figures,
              const CroUse *use)
{
  return isnan (use->cost)
             ? CRO_KNOWN_NOTHING
             : cro_known_of_taken (figures, use->item, use->cost);
}

/* What costs something is not shown as costing nothing. */
static char *
use_money (CroModel *model,
           CroKnown  known,
           double    cost)
{
  int digits = cro_currency_digits (model->currency);
  g_autofree char *least = NULL;

  if (known != CRO_KNOWN_WHOLE || !(cost > 0) || cro_money_round (cost, digits) != 0)
    return cro_words_known_money (model, known, cost);
  least = cro_money_to_text (1, digits);
  /* Translators: less than the least amount of money, "< 0.01". */
  return g_strdup_printf (_("< %s"), least);
}

char *
cro_words_use_cost (CroFigures   *figures,
                    const CroUse *use)
{
  return use_money (figures->model, known_of_use (figures, use), use->cost);
}

char *
cro_words_use_part (CroFigures   *figures,
                    const CroUse *use)
{
  return cro_words_known_pct (cro_known_of_share (known_of_use (figures, use), use->cost,
                                                  cro_known_of_recipe (figures, use->recipe)),
                              use->part_pct);
}

char *
cro_words_reached (CroFigures       *figures,
                   const CroReached *reached)
{
  CroModel *model = figures->model;
  CroFigure figure = cro_figure_of (figures, reached->thing);
  CroKnown known = cro_known_of_item (figures, reached->item);
  g_autofree char *amount = cro_words_amount ((CroBase) model->measures[reached->item].base,
                                              reached->quantity);
  g_autofree char *cost = use_money (model, known, reached->cost);
  g_autofree char *part = cro_words_known_pct (cro_known_of_share (known, reached->cost, cro_known_of_cost (&figure)),
                                               reached->part_pct);

  /* Translators: what a guest takes of an ingredient: an amount, its cost, a percentage. */
  return g_strdup_printf (_("%s · %s · %s of the food cost"), amount, cost, part);
}

/* --- Ceilings ------------------------------------------------------------------------------------- */

char *
cro_words_ceiling (CroModel *model,
                   CroBase   base,
                   double    unit_cost,
                   double    paid)
{
  return isnan (unit_cost)
             ? g_strdup ("–")
             : cro_words_unit_price (model, base, unit_cost, paid, cro_money_round_down);
}

char *
cro_words_ceiling_pack (CroFigures *figures,
                        guint32     item,
                        double      pack,
                        double      paid)
{
  CroModel *model = figures->model;
  guint32 offer = figures->offer_in_use[item];
  const char *currency = offer != CRO_NO_SLOT ? cro_model_currency_of (model, offer) : model->currency;
  int digits = cro_currency_digits (currency);
  g_autofree char *money = NULL;

  if (isnan (pack) || isinf (pack))
    return g_strdup ("–");
  if (isfinite (paid))
    digits = cro_decimals_apart (pack, paid, digits);
  money = cro_money_to_text (cro_money_round_down (pack, digits), digits);
  return g_strcmp0 (currency, model->currency) != 0
             ? g_strdup_printf ("%s\302\240%s", money, currency)
             : g_steal_pointer (&money);
}

char *
cro_words_together (const char *text)
{
  g_auto (GStrv) parts = g_strsplit (text, " ", -1);

  return g_strjoinv ("\302\240", parts);
}
