#include "config.h"

#include "cro-mover-words.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-decimal.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-own-pack.h"
#include "cro-sum.h"
#include "cro-words.h"

#define MOST_DIGITS 6

/* Significant digits of what it moves a cost by, and of a limit. */
#define OF_EFFECT 1
#define OF_LIMIT 3

typedef int64_t (*Round) (double amount, int digits);

/* --- Values --------------------------------------------------------------------------------------- */

char *
cro_words_mover (CroModel       *model,
                 const CroMover *mover)
{
  const char *name = cro_model_item (model, mover->item)->name;

  switch (mover->kind)
    {
    case CRO_MOVER_VALUE:
      return cro_isolate_printf (_("%s (assigned value)"), name);
    case CRO_MOVER_TRIM_YIELD:
      return cro_isolate_printf (_("%s, trim yield"), name);
    case CRO_MOVER_YIELD:
      return cro_isolate_printf (_("%s, yield"), name);
    case CRO_MOVER_AMOUNT:
      return cro_isolate_printf (_("%s, amount"), name);
    case CRO_MOVER_FINISHED:
      return cro_isolate_printf (_("%s, finished amount"), name);
    case CRO_MOVER_PRICE:
      return g_strdup (name);
    }
  g_return_val_if_reached (NULL);
}

/* A number of so many significant digits, with what it is of. */
static char *
rounded (double      value,
         int         significant,
         Round       round)
{
  int digits = CLAMP (significant - (int) ceil (log10 (fabs (value))), 0, MOST_DIGITS);

  return cro_number_to_text ((double) round (value, digits) / pow (10, digits), digits, TRUE);
}

/* An amount in the metric unit that reads best; any other as it is written. */
static char *
amount_in (CroUnit unit,
           double  amount,
           Round   round)
{
  CroBase base = cro_unit_get (unit)->base;
  double in_base = amount * cro_unit_factor (unit);
  gboolean is_large = cro_words_is_large (base, in_base);
  g_autofree char *number = NULL;

  if (cro_sum_is_plain_unit (unit) && base != CRO_BASE_EACH)
    {
      number = rounded (is_large ? in_base / 1000 : in_base, OF_LIMIT, round);
      return cro_words_in_base (base, is_large, number);
    }
  number = rounded (amount, OF_LIMIT, round);
  return g_strdup_printf ("%s\302\240%s", number, cro_words_unit (unit));
}

/* What a bite takes of a line of the plate itself: 0 where the line stands elsewhere. */
static double
bites_of (CroModel       *model,
          CroRef          thing,
          const CroMover *mover)
{
  return thing.kind == CRO_REF_RECIPE && mover->recipe == thing.slot
             ? cro_decimal_to_double (cro_model_recipe (model, thing.slot)->makes)
             : 0;
}

static char *
per_bite (char *amount)
{
  g_autofree char *text = amount;

  /* Translators: an amount of an ingredient in a bite: "10 g per bite". */
  return g_strdup_printf (_("%s per bite"), text);
}

static char *
amount_of (CroModel       *model,
           CroRef          thing,
           const CroMover *mover,
           double          value,
           Round           round)
{
  double bites = bites_of (model, thing, mover);
  char *amount = amount_in ((CroUnit) model->lines.unit[mover->line],
                            bites > 0 ? value / bites : value, round);

  return bites > 0 ? per_bite (amount) : amount;
}

static char *
finished_of (CroModel       *model,
             const CroMover *mover,
             double          value,
             Round           round)
{
  const CroOutput *output = &cro_model_item (model, mover->item)->output;
  g_autofree char *number = NULL;

  if (output->amount > 0)
    return amount_in (output->unit, value, round);
  number = rounded (value, OF_LIMIT, round);
  return g_strdup_printf (_("%s %%"), number);
}

/* A value of the mover, rounded as one wants it; a price with digits that tell it from another. */
static char *
text_of (CroModel       *model,
         CroRef          thing,
         const CroMover *mover,
         double          value,
         double          apart_from,
         Round           round)
{
  g_autofree char *number = NULL;

  switch (mover->kind)
    {
    case CRO_MOVER_PRICE:
    case CRO_MOVER_VALUE:
      return cro_words_unit_price (model, (CroBase) model->measures[mover->item].base, value, apart_from, round);
    case CRO_MOVER_AMOUNT:
      return amount_of (model, thing, mover, value, round);
    case CRO_MOVER_FINISHED:
      return finished_of (model, mover, value, round);
    case CRO_MOVER_TRIM_YIELD:
    case CRO_MOVER_YIELD:
      number = rounded (value, OF_LIMIT, round);
      return g_strdup_printf (_("%s %%"), number);
    }
  g_return_val_if_reached (NULL);
}

char *
cro_words_mover_value (CroModel       *model,
                       CroRef          thing,
                       const CroMover *mover)
{
  g_autofree char *value = text_of (model, thing, mover, mover->value, NAN, cro_money_round);
  const char *recipe;

  if (mover->line == CRO_NO_SLOT || bites_of (model, thing, mover) > 0)
    return g_steal_pointer (&value);
  recipe = cro_model_recipe (model, mover->recipe)->name;
  /* Translators: an amount or a yield, and the recipe that it stands in. */
  return cro_isolate_printf (_("%s in %s"), value, recipe);
}

/* --- Effects -------------------------------------------------------------------------------------- */

char *
cro_words_moved_by (CroModel *model,
                    double    effect,
                    gboolean  is_turned)
{
  int digits = cro_digits_of_price (effect, cro_currency_digits (model->currency), OF_EFFECT);
  g_autofree char *money = cro_money_to_text (cro_money_round (effect, digits), digits);

  return g_strdup_printf (is_turned ? "∓%s" : "±%s", money);
}

char *
cro_words_mover_effect (CroModel       *model,
                        const CroMover *mover)
{
  return cro_words_take_short (mover->known, cro_words_moved_by (model, cro_mover_effect (mover),
                                                                 mover->up < mover->down));
}

/* --- Limits --------------------------------------------------------------------------------------- */

static char *
never (CroMoverKind kind)
{
  switch (kind)
    {
    case CRO_MOVER_PRICE:
    case CRO_MOVER_VALUE:
      return g_strdup (_("over even as a gift"));
    case CRO_MOVER_AMOUNT:
      return g_strdup (_("over even without it"));
    case CRO_MOVER_FINISHED:
      return g_strdup (_("over at any amount"));
    case CRO_MOVER_TRIM_YIELD:
    case CRO_MOVER_YIELD:
      return g_strdup (_("over even at 100 %"));
    }
  g_return_val_if_reached (NULL);
}

static char *
bound (CroModel       *model,
       const CroMover *mover,
       const CroLimit *limit)
{
  gboolean is_lower = limit->kind == CRO_LIMIT_DOWN_TO;
  g_autofree char *plain = text_of (model, limit->thing, mover, limit->value, mover->value,
                                    is_lower ? cro_money_round_up : cro_money_round_down);
  g_autofree char *text = cro_words_known (limit->known, plain);

  if (!is_lower && limit->known == CRO_KNOWN_AT_MOST)
    return g_steal_pointer (&text);
  if (!is_lower)
    /* Translators: the highest price, or amount, that keeps the target. */
    return g_strdup_printf (_("up to %s"), text);
  /* Translators: the lowest yield, or amount, that keeps the target. */
  return g_strdup_printf (limit->value > mover->value ? _("holds from %s") : _("holds down to %s"),
                          text);
}

static char *
with_pack (CroFigures     *figures,
           const CroMover *mover,
           const CroLimit *limit,
           char           *text)
{
  g_autofree char *alone = text;
  g_autofree char *pack = NULL;

  if (mover->kind != CRO_MOVER_PRICE || isnan (limit->pack) || isinf (limit->pack))
    return g_steal_pointer (&alone);
  pack = cro_words_take_short (limit->known,
                               cro_words_ceiling_pack (figures, mover->item, limit->pack,
                                                       limit->pack * mover->value / limit->value));
  /* Translators: a price per kg, and the same per pack. */
  return g_strdup_printf (_("%s · %s per pack"), alone, pack);
}

/* What is far off has a figure for those who ask; a price below nothing is none. */
static char *
with_figure (CroFigures     *figures,
             const CroMover *mover,
             const CroLimit *limit,
             char           *text)
{
  g_autofree char *alone = text;
  g_autofree char *figure = NULL;

  if (limit->kind == CRO_LIMIT_NEVER)
    return g_steal_pointer (&alone);
  figure = bound (figures->model, mover, limit);
  figure = with_pack (figures, mover, limit, g_steal_pointer (&figure));
  return g_strdup_printf ("%s (%s)", alone, figure);
}

/* Whose target it keeps; a name is not said on its own page. */
static const char *
holder_of (CroModel       *model,
           const CroLimit *limit)
{
  if (!cro_ref_equal (limit->holder, limit->thing))
    return cro_limit_holder (model, limit);
  /* Translators: whose target a limit keeps: that of what is on the page. */
  return limit->holder.kind == CRO_REF_MENU ? _("this menu") : _("this plate");
}

char *
cro_words_limit (CroFigures     *figures,
                 const CroMover *mover,
                 const CroLimit *limit,
                 gboolean        is_exact)
{
  g_autofree char *text = NULL;

  /* Of what may turn nobody can say which way it may go. */
  if (limit->kind == CRO_LIMIT_NONE || !cro_mover_is_bounded (mover))
    return NULL;
  if (limit->is_far && !is_exact)
    return g_strdup (_("far off"));
  if (limit->kind == CRO_LIMIT_NEVER || limit->is_far)
    text = limit->is_far ? g_strdup (_("far off")) : never (mover->kind);
  if (text != NULL && is_exact)
    text = with_figure (figures, mover, limit, g_steal_pointer (&text));
  if (text == NULL)
    text = with_pack (figures, mover, limit, bound (figures->model, mover, limit));
  /* Translators: a limit, and the plate or menu whose target it keeps. */
  return cro_isolate_printf (_("%s · %s"), text, holder_of (figures->model, limit));
}

/* The same unit cost in a pack that is not in use, which is bargained with. NULL: it has no price to go
 * by. */
static char *
text_of_other_pack (CroFigures     *figures,
                    guint32         slot,
                    const CroLimit *limit)
{
  CroOfferEntry *entry = slot != CRO_NO_SLOT ? cro_model_offer (figures->model, slot) : NULL;
  CroOffer own;
  double pack;
  gint64 price;

  if (entry == NULL || limit->kind != CRO_LIMIT_UP_TO || limit->is_far || !(limit->value > 0))
    return NULL;
  own = cro_own_pack_in_force (figures->model, slot);
  if (!(own.price > 0) || !(own.rate > 0))
    return NULL;
  pack = cro_offer_price_at (&own, &figures->model->measures[entry->item], limit->value);
  if (!cro_pack_price_of (figures->model, slot, pack, cro_money_round_down, &price))
    return NULL;
  return cro_words_take_short (limit->known,
                               cro_words_price_in (cro_model_currency_of (figures->model, slot), price));
}

char *
cro_words_item_ceiling (CroFigures *figures,
                        guint32     item,
                        guint32     offer)
{
  CroMover price;
  CroLimit limit = cro_ceiling_of_item (figures, item, &price);
  g_autofree char *text = NULL, *other = NULL, *says = NULL;

  if (offer != figures->offer_in_use[item])
    {
      other = text_of_other_pack (figures, offer, &limit);
      limit.pack = NAN;
    }
  text = cro_words_limit (figures, &price, &limit, TRUE);
  if (text == NULL)
    return NULL;
  /* Translators: the most that may be paid for an ingredient before a plate or a menu, which is named,
   * goes over its target. */
  says = g_strdup_printf (_("Can be paid, all else equal: %s"), text);
  /* Translators: what may be paid for an ingredient, as a sentence; the same for the pack that is looked
   * at. */
  return other != NULL ? g_strdup_printf (_("%s. For this pack %s."), says, other) : g_steal_pointer (&says);
}

/* --- The range ------------------------------------------------------------------------------------ */

/* A range that rests on less of the cost says of the rest that it never moves. */
#define LEAST_WITH_PAST 0.5

gboolean
cro_cost_range_is_told (const CroFigure    *figure,
                        const CroCostRange *range)
{
  return range->deviation > 0 && range->with_past >= LEAST_WITH_PAST
         && 2 * range->n_missing <= range->n_bought
         && cro_known_of_cost (figure) != CRO_KNOWN_NOTHING;
}

/* What of the cost had more than one price; of a cost that is not all known that has no bound. */
static char *
dup_part (const CroFigure    *figure,
          const CroCostRange *range)
{
  return cro_words_known_pct (figure->is_incomplete ? CRO_KNOWN_IN_PART : CRO_KNOWN_WHOLE, range->with_past * 100);
}

static char *
why_no_range (const CroFigure    *figure,
              const CroCostRange *range)
{
  g_autofree char *part = dup_part (figure, range);

  if (2 * range->n_missing > range->n_bought)
    return g_strdup_printf (ngettext ("No range: %u price of %u is missing.",
                                      "No range: %u prices of %u are missing.", range->n_missing),
                            range->n_missing, range->n_bought);
  if (!(range->with_past > 0))
    return g_strdup (_("No range: no pack in use had more than one price in the last year."));
  /* Translators: a percentage. */
  return g_strdup_printf (_("No range: only %s of the cost had more than one price of the pack in use in the last "
                            "year."),
                          part);
}

char *
cro_words_cost_range (CroModel           *model,
                      const CroFigure    *figure,
                      const CroCostRange *range)
{
  double part = range->with_past * 100;
  g_autofree char *low = NULL, *high = NULL, *says = NULL, *rests = NULL;

  if (range->n_bought == 0 || (!(range->deviation > 0) && range->with_past >= LEAST_WITH_PAST))
    return NULL;
  if (!cro_cost_range_is_told (figure, range))
    return why_no_range (figure, range);
  low = cro_words_known_money (model, cro_known_of_cost (figure), range->low);
  high = cro_words_known_money (model, cro_known_of_cost (figure), range->high);
  /* Translators: what a guest costs, as prices and yields of the last year went. */
  says = g_strdup_printf (_("%s to %s in nine weeks of ten, as prices and yields were in the last year"),
                          low, high);
  /* What is shown as 100.0 % leaves no rest. */
  if (part >= 99.95)
    return g_steal_pointer (&says);
  rests = dup_part (figure, range);
  /* Translators: a sentence that gives a range; a percentage. */
  return g_strdup_printf (_("%s. %s of the cost had more than one price of the pack in use; the rest is taken as it "
                            "is."),
                          says, rests);
}
