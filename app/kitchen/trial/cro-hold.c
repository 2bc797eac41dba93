#include "cro-hold.h"

#include <math.h>

#include "cro-card.h"
#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-limits.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-sold-as.h"

/* Movers that are looked at for prices and amounts among them. */
#define AMONG 40

/* A figure that nobody writes as a price or an amount. */
#define MOST 1e12

/* Steps that a value is off at most, by a rounding, before it holds. */
#define NEAR 8

/* --- Whether it holds ------------------------------------------------------------------------- */

/* By itself, or as a part of a menu. */
static gboolean
is_over (CroBook *book,
         CroRef   thing)
{
  CroFigures *figures = cro_book_get_figures (book);
  GArray *entries = figures->model->menu_plates;

  if (cro_figure_of (figures, thing).is_over_target)
    return TRUE;
  for (guint i = 0; thing.kind == CRO_REF_RECIPE && i < entries->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (entries, CroMenuPlate, i);

      if (!entry->is_dead && entry->plate == thing.slot
          && cro_figure_of_menu (figures, entry->menu).is_over_target)
        return TRUE;
    }
  return FALSE;
}

/* Shows what would be; FALSE: it cannot be shown. */
static gboolean
preview (const CroHold *self,
         CroBook       *book,
         gint64         value)
{
  CroModel *model = cro_book_get_model (book);
  CroCell cell = CRO_CELL_INT (value);

  if (self->kind == CRO_HOLD_PRICE)
    return cro_book_preview_price (book, self->offer, value, NULL);
  return cro_book_preview (book, "recipe_line", model->line_ids[self->line], "amount_micro", &cell,
                           NULL);
}

static gboolean
holds (const CroHold *self,
       CroBook       *book,
       gint64         value)
{
  return preview (self, book, value) && !is_over (book, self->thing);
}

/* The largest near value that holds, in whole steps. */
static void
settle (CroHold *self,
        CroBook *book,
        gint64   value,
        gint64   step)
{
  int i;

  for (i = 0; i < NEAR && value > 0 && !holds (self, book, value); i++)
    value -= step;
  for (i = 0; i < NEAR && holds (self, book, value + step); i++)
    value += step;
  self->value = MAX (value, 0);
  self->answer = i == NEAR ? CRO_HOLD_ALWAYS : holds (self, book, self->value) ? CRO_HOLD_OK
                                                                               : CRO_HOLD_NEVER;
  cro_book_restore (book, NULL);
}

/* --- The selling price ------------------------------------------------------------------------ */

static CroHold
hold_by_selling (CroBook *book,
                 CroRef   thing)
{
  CroFigures *figures = cro_book_get_figures (book);
  CroModel *model = figures->model;
  CroRef sold = cro_sold_as (figures, thing);
  CroFigure figure = cro_figure_of (figures, sold);
  CroHold self = { .kind = CRO_HOLD_SELLING, .thing = sold, .item = CRO_NO_SLOT, .line = CRO_NO_SLOT,
                   .recipe = CRO_NO_SLOT, .offer = CRO_NO_SLOT, .now = cro_sold_price (model, sold),
                   .known = cro_known_of_cost (&figure) };

  if (isnan (figure.target_pct))
    self.answer = CRO_HOLD_NO_TARGET;
  else if (!(figure.cost > 0))
    self.answer = CRO_HOLD_NOTHING;
  else if (!(figure.price_for_target <= MOST))
    self.answer = CRO_HOLD_NEVER;
  else
    self.value = cro_money_round_up (figure.price_for_target, cro_currency_digits (model->currency))
                 * cro_currency_minor (model->currency);
  return self;
}

/* --- Prices and amounts ----------------------------------------------------------------------- */

/* Why nothing can be held, whatever moves. */
static CroHoldAnswer
answer_of (CroBook        *book,
           CroRef          thing,
           const CroLimit *limit)
{
  CroFigures *figures = cro_book_get_figures (book);
  CroFigure figure = cro_figure_of (figures, cro_sold_as (figures, thing));

  if (limit->kind == CRO_LIMIT_NEVER)
    return CRO_HOLD_NEVER;
  if (isnan (figure.target_pct))
    return CRO_HOLD_NO_TARGET;
  return isnan (figure.net_price) ? CRO_HOLD_NO_PRICE : CRO_HOLD_ALWAYS;
}

/* What is written to three digits. */
static gint64
step_of (double value)
{
  return value > 0 ? MAX ((gint64) llround (pow (10, floor (log10 (value)) - 2) * CRO_MICRO), 1) : 1;
}

/* As it is written: a price of a pack to the minor unit, an amount to three digits. FALSE: nothing that
 * could be written. */
static gboolean
find_start (CroModel       *model,
            const CroHold  *self,
            const CroLimit *limit,
            gint64         *value,
            gint64         *step)
{
  if (self->kind == CRO_HOLD_PRICE)
    {
      const CroOffer *offer = self->offer != CRO_NO_SLOT ? &cro_model_offer (model, self->offer)->offer : NULL;
      double pack = offer != NULL ? cro_offer_price_at (offer, &model->measures[self->item], limit->value) : NAN;

      if (!(pack <= MOST))
        return FALSE;
      *step = cro_currency_minor (cro_model_currency_of (model, self->offer));
      return cro_pack_price_of (model, self->offer, pack, cro_money_round_down, value);
    }
  if (!(limit->value <= MOST))
    return FALSE;
  *step = step_of (limit->value);
  *value = (gint64) floor (limit->value * CRO_MICRO / (double) *step) * *step;
  return TRUE;
}

static CroHold
hold_by_mover (CroBook        *book,
               CroRef          thing,
               const CroMover *mover,
               const CroLimit *limit)
{
  CroFigures *figures = cro_book_get_figures (book);
  gboolean is_price = mover->kind == CRO_MOVER_PRICE;
  CroHold self = { .kind = is_price ? CRO_HOLD_PRICE : CRO_HOLD_AMOUNT, .thing = thing,
                   .item = mover->item, .line = mover->line, .recipe = mover->recipe,
                   .now = CRO_NOT_SET, .known = limit->known };
  const CroOfferEntry *entry = NULL;
  gint64 value, step;

  self.offer = is_price ? figures->offer_in_use[mover->item] : CRO_NO_SLOT;
  if (self.offer != CRO_NO_SLOT)
    entry = cro_model_offer (figures->model, self.offer);
  self.now = entry != NULL ? entry->offer.price
             : is_price    ? CRO_NOT_SET
                           : figures->model->lines.amount[mover->line];
  self.answer = answer_of (book, thing, limit);
  if (limit->kind != CRO_LIMIT_UP_TO || !find_start (figures->model, &self, limit, &value, &step))
    return self;
  settle (&self, book, value, step);
  return self;
}

GArray *
cro_holds_new (CroBook *book,
               CroRef   thing,
               guint    most)
{
  GArray *holds = g_array_new (FALSE, FALSE, sizeof (CroHold));
  g_autoptr (CroMovers) movers = NULL;
  g_autoptr (GArray) limits = NULL;
  guint n[2] = { 0, 0 };
  CroHold one;

  cro_book_restore (book, NULL);
  one = hold_by_selling (book, thing);
  g_array_append_val (holds, one);
  movers = cro_movers_new (cro_book_get_figures (book), thing, AMONG);
  limits = cro_limits_new (cro_book_get_figures (book), thing, movers->movers);
  for (guint i = 0; i < movers->movers->len; i++)
    {
      const CroMover *mover = &g_array_index (movers->movers, CroMover, i);

      if ((mover->kind != CRO_MOVER_PRICE && mover->kind != CRO_MOVER_AMOUNT)
          || n[mover->kind == CRO_MOVER_AMOUNT]++ >= most)
        continue;
      one = hold_by_mover (book, thing, mover, &g_array_index (limits, CroLimit, i));
      g_array_append_val (holds, one);
    }
  return holds;
}

gboolean
cro_hold_apply (const CroHold  *self,
                CroBook        *book,
                const char     *label,
                GError        **error)
{
  CroModel *model = cro_book_get_model (book);
  CroDate date = cro_book_get_figures (book)->date;
  CroCell cell = CRO_CELL_INT (self->value);

  switch (self->kind)
    {
    case CRO_HOLD_SELLING:
      return cro_edit_set_selling_price (book, label, self->thing, date, self->value, error);
    case CRO_HOLD_PRICE:
      return cro_edit_set_price (book, label, self->offer, date, self->value, error);
    default:
      return cro_book_set (book, label, "recipe_line", model->line_ids[self->line], "amount_micro",
                           &cell, error);
    }
}
