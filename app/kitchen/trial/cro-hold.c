#include "cro-hold.h"

#include <math.h>

#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-limits.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-plate.h"

/* Movers that are looked at for prices and amounts among them. */
#define AMONG 40

/* Steps that a value is off at most, by a rounding, before it holds. */
#define NEAR 8

/* --- Whether it holds ------------------------------------------------------------------------- */

static CroFigure
figure_of (CroBook *book,
           CroRef   thing)
{
  CroFigures *figures = cro_book_get_figures (book);

  return thing.kind == CRO_REF_MENU ? cro_figure_of_menu (figures, thing.slot)
                                    : cro_figure_of_plate (figures, thing.slot);
}

/* By itself, or as a part of a menu. */
static gboolean
is_over (CroBook *book,
         CroRef   thing)
{
  GArray *entries = cro_book_get_model (book)->menu_plates;

  if (figure_of (book, thing).is_over_target)
    return TRUE;
  for (guint i = 0; thing.kind == CRO_REF_RECIPE && i < entries->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (entries, CroMenuPlate, i);

      if (!entry->is_dead && entry->plate == thing.slot
          && figure_of (book, CRO_REF (CRO_REF_MENU, entry->menu)).is_over_target)
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

/* The largest near it that holds, in whole steps. */
static void
settle (CroHold *self,
        CroBook *book,
        double   limit,
        gint64   step)
{
  gint64 value = (gint64) floor (limit * CRO_MICRO / (double) step) * step;
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

/* Its own; of a plate without one that of the menu that is tightest. */
static CroRef
sold_as (CroBook *book,
         CroRef   thing)
{
  CroFigures *figures = cro_book_get_figures (book);
  guint32 entry;

  if (thing.kind == CRO_REF_MENU || cro_model_recipe (figures->model, thing.slot)->price != CRO_NOT_SET)
    return thing;
  entry = cro_tightest_menu (figures, thing.slot);
  return entry != CRO_NO_SLOT
             ? CRO_REF (CRO_REF_MENU,
                        g_array_index (figures->model->menu_plates, CroMenuPlate, entry).menu)
             : thing;
}

static gint64
price_of (CroModel *model,
          CroRef    thing)
{
  return thing.kind == CRO_REF_MENU ? cro_model_menu (model, thing.slot)->price
                                    : cro_model_recipe (model, thing.slot)->price;
}

static gint64
tax_of (CroModel *model,
        CroRef    thing)
{
  gint64 tax = thing.kind == CRO_REF_MENU ? cro_model_menu (model, thing.slot)->tax
                                          : cro_model_recipe (model, thing.slot)->tax;

  return tax != CRO_NOT_SET ? tax : model->tax != CRO_NOT_SET ? model->tax : 0;
}

static gint64
minor_unit (const char *currency)
{
  return (gint64) llround (1e6 / pow (10, MIN (cro_currency_digits (currency), 6)));
}

static gboolean
holds_at (const CroFigure *figure,
          gint64           price,
          gint64           tax)
{
  return price > 0
         && !cro_is_over_target (figure->cost, cro_net_price (true, price, tax),
                                 figure->target_pct / 100);
}

static CroHold
hold_by_selling (CroBook *book,
                 CroRef   thing)
{
  CroModel *model = cro_book_get_model (book);
  CroRef sold = sold_as (book, thing);
  CroFigure figure = figure_of (book, sold);
  gint64 step = minor_unit (model->currency), tax = tax_of (model, sold);
  CroHold self = { .kind = CRO_HOLD_SELLING, .thing = sold, .item = CRO_NO_SLOT, .line = CRO_NO_SLOT,
                   .offer = CRO_NO_SLOT, .now = price_of (model, sold),
                   .known = cro_known_of_cost (&figure) };

  if (isnan (figure.target_pct))
    self.answer = CRO_HOLD_NO_TARGET;
  else if (!(figure.cost > 0) || !isfinite (figure.price_for_target))
    self.answer = CRO_HOLD_NOTHING;
  else
    {
      self.value = (gint64) ceil (figure.price_for_target * CRO_MICRO / (double) step) * step;
      for (int i = 0; i < NEAR && !holds_at (&figure, self.value, tax); i++)
        self.value += step;
      for (int i = 0; i < NEAR && holds_at (&figure, self.value - step, tax); i++)
        self.value -= step;
    }
  return self;
}

/* --- Prices and amounts ----------------------------------------------------------------------- */

/* Why nothing can be held, whatever moves. */
static CroHoldAnswer
answer_of (CroBook        *book,
           CroRef          thing,
           const CroLimit *limit)
{
  CroFigure figure = figure_of (book, sold_as (book, thing));

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

static CroHold
hold_by_mover (CroBook        *book,
               CroRef          thing,
               const CroMover *mover,
               const CroLimit *limit)
{
  CroFigures *figures = cro_book_get_figures (book);
  gboolean is_price = mover->kind == CRO_MOVER_PRICE;
  CroHold self = { .kind = is_price ? CRO_HOLD_PRICE : CRO_HOLD_AMOUNT, .thing = thing,
                   .item = mover->item, .line = mover->line, .now = CRO_NOT_SET,
                   .known = limit->known };
  const CroOfferEntry *entry = NULL;

  self.offer = is_price ? figures->offer_in_use[mover->item] : CRO_NO_SLOT;
  if (self.offer != CRO_NO_SLOT)
    entry = cro_model_offer (figures->model, self.offer);
  self.now = entry != NULL ? entry->offer.price
             : is_price    ? CRO_NOT_SET
                           : figures->model->lines.amount[mover->line];
  self.answer = answer_of (book, thing, limit);
  if (limit->kind != CRO_LIMIT_UP_TO || (is_price && (entry == NULL || !isfinite (limit->pack))))
    return self;
  settle (&self, book, is_price ? limit->pack : limit->value,
          is_price ? minor_unit (entry->currency != NULL ? entry->currency : figures->model->currency)
                   : step_of (limit->value));
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
