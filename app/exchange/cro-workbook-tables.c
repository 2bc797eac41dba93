/* The sheets that others read from: units and rates, prices, ingredients with their offers. */
#include "cro-workbook-private.h"

#include <math.h>

#include "cro-money.h"

#define NO_HEAD CRO_N_WORKBOOK_TEXTS

/* In a cell each, so that no formula has to quote them. */
static const CroWorkbookTextId words[CRO_N_WORDS] = {
  [CRO_WORD_OVER] = CRO_WT_OVER,           [CRO_WORD_WITHIN] = CRO_WT_WITHIN,
  [CRO_WORD_NO_TARGET] = CRO_WT_NO_TARGET, [CRO_WORD_NO_PRICE] = CRO_WT_NO_PRICE,
  [CRO_WORD_CHEAPER] = CRO_WT_CHEAPER,     [CRO_WORD_TIES] = CRO_WT_DOES_TIE,
  [CRO_WORD_DIFFERS] = CRO_WT_DOES_NOT_TIE, [CRO_WORD_ALL_TIE] = CRO_WT_ALL_TIE,
  [CRO_WORD_NOT_ALL] = CRO_WT_NOT_ALL_TIE, [CRO_WORD_OPEN] = CRO_WT_OPEN,
  [CRO_WORD_CHANGED] = CRO_WT_CHANGED,     [CRO_WORD_AS_WRITTEN] = CRO_WT_AS_WRITTEN,
  [CRO_WORD_NOT_AS_WRITTEN] = CRO_WT_NOT_AS_WRITTEN,
};

CroPlace
cro_workbook_word (CroWorkbook *self,
                   CroWord      word)
{
  return (CroPlace){ self->units.quoted, "$H$", CRO_ROW_FIRST + word };
}

const char *
cro_workbook_word_text (CroWorkbook *self,
                        CroWord      word)
{
  return cro_workbook_text (self, words[word]);
}

/* --- Units and rates ---------------------------------------------------------------------------- */

void
cro_workbook_write_units (CroWorkbook *self)
{
  static const CroWorkbookTextId heads[] = {
    CRO_WT_UNIT, CRO_WT_BASE, CRO_WT_FACTOR, NO_HEAD, CRO_WT_CURRENCY, CRO_WT_RATE, NO_HEAD,
    CRO_WT_WORDS,
  };
  const CroWorkbookSource *source = self->source;
  CroPen *pen = &self->units;

  cro_pen_top (pen, cro_workbook_text (self, CRO_WT_UNITS),
               cro_workbook_text (self, CRO_WT_ABOUT_UNITS), heads, G_N_ELEMENTS (heads));
  for (guint32 i = 0; i < MAX ((guint32) CRO_N_UNITS, source->n_rates); i++)
    {
      CroWorkbookRate rate;

      if (i < CRO_N_UNITS)
        {
          const CroUnitInfo *unit = cro_unit_get ((CroUnit) i);

          cro_pen_text (pen, 'A', CRO_STYLE_TEXT, unit->code);
          cro_pen_text (pen, 'B', CRO_STYLE_TEXT, cro_unit_get (cro_base_unit (unit->base))->code);
          cro_pen_number (pen, 'C', CRO_STYLE_GENERAL, cro_unit_factor ((CroUnit) i));
        }
      if (i < source->n_rates)
        {
          source->get_rate (source->data, i, &rate);
          cro_pen_text (pen, 'E', CRO_STYLE_TEXT, rate.currency);
          cro_pen_number (pen, 'F', CRO_STYLE_INPUT, rate.rate);
        }
      if (i < CRO_N_WORDS)
        cro_pen_text (pen, 'H', CRO_STYLE_TEXT, cro_workbook_text (self, words[i]));
      cro_pen_next_row (pen);
    }
  cro_pen_finish (pen, CRO_ROW_HEAD);
}

/* --- Prices --------------------------------------------------------------------------------------- */

void
cro_workbook_write_prices (CroWorkbook *self)
{
  static const CroWorkbookTextId heads[] = {
    CRO_WT_ITEM,     CRO_WT_SUPPLIER,     CRO_WT_CODE,       CRO_WT_FROM,      CRO_WT_PACK_PRICE,
    CRO_WT_CURRENCY, CRO_WT_TAX_INCLUDED, CRO_WT_PACK_COUNT, CRO_WT_PACK_SIZE, CRO_WT_UNIT,
    CRO_WT_IN_FORCE,
  };
  const CroWorkbookSource *source = self->source;
  CroPen *pen = &self->prices;

  cro_pen_top (pen, cro_workbook_text (self, CRO_WT_PRICES),
               cro_workbook_text (self, CRO_WT_ABOUT_PRICES), heads, G_N_ELEMENTS (heads));
  for (guint32 i = 0; i < source->n_prices && !self->is_cancelled; i++)
    {
      CroWorkbookPrice price;

      source->get_price (source->data, i, &price);
      cro_pen_text (pen, 'A', CRO_STYLE_TEXT, price.ingredient);
      cro_pen_text (pen, 'B', CRO_STYLE_TEXT, price.supplier);
      cro_pen_text (pen, 'C', CRO_STYLE_INPUT_TEXT, price.code);
      cro_pen_number (pen, 'D', CRO_STYLE_DATE, price.from + CRO_DAYS_BEFORE_1970);
      cro_pen_number (pen, 'E', CRO_STYLE_INPUT_MONEY, price.price);
      cro_pen_text (pen, 'F', CRO_STYLE_INDENT, price.currency);
      cro_pen_number (pen, 'G', CRO_STYLE_INPUT_PCT, price.tax);
      cro_pen_number (pen, 'H', CRO_STYLE_GENERAL, price.pack_count);
      cro_pen_number (pen, 'I', CRO_STYLE_GENERAL, price.pack_size);
      cro_pen_text (pen, 'J', CRO_STYLE_INDENT, cro_unit_get (price.unit)->code);
      if (price.is_in_force)
        cro_pen_number (pen, 'K', CRO_STYLE_COUNT, 1);
      cro_pen_next_row (pen);
    }
  if (source->n_prices > 0)
    worksheet_autofilter (pen->sheet, CRO_ROW_HEAD - 1, 0, CRO_ROW_HEAD + source->n_prices - 1, 10);
  worksheet_ignore_errors (pen->sheet, LXW_IGNORE_NUMBER_STORED_AS_TEXT, "C1:C1048576");
  /* A hundred thousand prices are no paper. */
  if (pen->last_row == 0)
    pen->last_row = CRO_ROW_HEAD - 2;
  cro_pen_finish (pen, CRO_ROW_HEAD);
}

/* --- Ingredients ------------------------------------------------------------------------------------ */

/* As amounts are converted in lines, of a pack. */
static void
write_pack_factor (CroPen                      *pen,
                   const CroWorkbookIngredient *ingredient,
                   const CroWorkbookOffer      *offer,
                   guint32                      row)
{
  CroWorkbook *self = pen->workbook;
  CroBase from = cro_unit_get (offer->unit)->base;
  CroPlace unit = cro_workbook_unit_place (self, offer->unit);
  CroPlace into = { NULL, ingredient->base == CRO_BASE_MILLILITRE ? "D" : "E", row };
  CroPlace out_of = { NULL, from == CRO_BASE_MILLILITRE ? "D" : "E", row };
  CroStyle style = offer->factor > 0 ? CRO_STYLE_GENERAL : CRO_STYLE_GENERAL_UNKNOWN;

  if (from == ingredient->base)
    cro_pen_formula (pen, 'N', style, offer->factor, "=@", &unit);
  else if (ingredient->base == CRO_BASE_GRAM)
    cro_pen_formula (pen, 'N', style, offer->factor, "=@*@",
                     (CroPlace[]){ unit, out_of });
  else if (from == CRO_BASE_GRAM)
    cro_pen_formula (pen, 'N', style, offer->factor, "=IF(@>0,@/@,0)",
                     (CroPlace[]){ into, unit, into });
  else
    cro_pen_formula (pen, 'N', style, offer->factor, "=IF(@>0,@*@/@,0)",
                     (CroPlace[]){ into, unit, out_of, into });
}

/* Price, tax and rate: read where they stand, or left open for someone to enter. */
static void
write_price (CroPen                 *pen,
             const CroWorkbookOffer *offer)
{
  CroWorkbook *self = pen->workbook;
  CroPlace price = { self->prices.quoted, "E", CRO_ROW_FIRST + offer->price_row };
  CroPlace tax = { self->prices.quoted, "G", CRO_ROW_FIRST + offer->price_row };
  CroPlace rate = { self->units.quoted, "$F$", CRO_ROW_FIRST + offer->rate };

  if (offer->price_row != CRO_WORKBOOK_NONE)
    {
      /* What is not to be had and never was is open: an empty cell alone would be read as 0. */
      cro_pen_formula (pen, 'P', CRO_STYLE_MONEY, offer->price,
                       isnan (offer->price) ? "=IF(@=\"\",\"\",@)" : "=@",
                       (CroPlace[]){ price, price });
      cro_pen_formula (pen, 'Q', CRO_STYLE_PCT_EXACT, offer->tax, "=@", &tax);
    }
  else
    {
      cro_pen_number (pen, 'P', CRO_STYLE_INPUT_MONEY, offer->price);
      cro_pen_number (pen, 'Q', CRO_STYLE_INPUT_PCT, isnan (offer->price) ? NAN : offer->tax);
    }
  if (offer->rate != CRO_WORKBOOK_NONE)
    {
      CroWorkbookRate of;

      self->source->get_rate (self->source->data, offer->rate, &of);
      cro_pen_text (pen, 'R', CRO_STYLE_INDENT, of.currency);
      cro_pen_formula (pen, 'S', offer->exchange > 0 ? CRO_STYLE_GENERAL : CRO_STYLE_GENERAL_UNKNOWN,
                       offer->exchange, "=@", &rate);
    }
  else
    {
      cro_pen_text (pen, 'R', CRO_STYLE_INDENT, self->source->book.currency);
      cro_pen_number (pen, 'S', CRO_STYLE_GENERAL, 1);
    }
}

static void
write_offer (CroPen                      *pen,
             const CroWorkbookIngredient *ingredient,
             const CroWorkbookOffer      *offer,
             guint32                      row)
{
  cro_pen_set_level (pen, 1);
  cro_pen_text (pen, 'A', CRO_STYLE_INDENT, offer->supplier);
  cro_pen_text (pen, 'J', CRO_STYLE_INPUT_TEXT, offer->code);
  cro_pen_number (pen, 'K', CRO_STYLE_INPUT, offer->pack_count);
  cro_pen_number (pen, 'L', CRO_STYLE_INPUT, offer->pack_size);
  cro_pen_text (pen, 'M', CRO_STYLE_INDENT, cro_unit_get (offer->unit)->code);
  write_pack_factor (pen, ingredient, offer, row);
  cro_pen_number (pen, 'O', CRO_STYLE_INPUT_PCT, offer->net);
  write_price (pen, offer);
  cro_pen_formula (pen, 'T', offer->content > 0 ? CRO_STYLE_QUANTITY : CRO_STYLE_QUANTITY_UNKNOWN,
                   offer->content, "=K#*L#*N#*O#", NULL);
  if (!offer->is_idle)
    cro_pen_formula (pen, 'U', CRO_STYLE_FINE, offer->unit_cost,
                     "=IF(P#=\"\",\"\",IF(S#*T#>0,P#*S#/(1+Q#)/T#,\"\"))", NULL);
  if (!isnan (offer->price))
    cro_pen_number (pen, 'V', CRO_STYLE_DATE, offer->from + CRO_DAYS_BEFORE_1970);
  cro_pen_text (pen, 'W', CRO_STYLE_NOTE, offer->state);
  cro_pen_next_row (pen);
}

/* With as many digits as make out a small one, and none that says nothing. */
static CroStyle
readable_style (const CroWorkbook *self,
                double             cost,
                gboolean           is_unknown)
{
  int fewest = self->source->book.digits;
  int digits = MIN (cro_digits_of_price (cost, fewest, 3), fewest + CRO_N_DECIMALS - 1);
  CroStyle first = is_unknown ? CRO_STYLE_BLOCK_PRICE_UNKNOWN : CRO_STYLE_BLOCK_PRICE;
  gint64 minor = cro_money_round (cost, digits);

  for (; digits > fewest && minor % 10 == 0; digits--)
    minor /= 10;
  return first + (guint) (digits - fewest);
}

/* Which offer is used is not a formula; a cheaper one is told of. */
static void
write_choice (CroPen                      *pen,
              const CroWorkbookIngredient *ingredient,
              double                       cheapest)
{
  CroPlace used = { NULL, "U", pen->row + 1 + ingredient->used };
  CroPlace word = cro_workbook_word (pen->workbook, CRO_WORD_CHEAPER);
  gboolean is_beaten = cheapest < ingredient->unit_cost * 0.999999;
  gboolean is_unknown = ingredient->note != NULL;
  double readable = ingredient->unit_cost * (ingredient->base == CRO_BASE_EACH ? 1 : 1000);

  pen->from = pen->row + 1;
  pen->to = pen->row + ingredient->n_offers;
  if (ingredient->used == CRO_WORKBOOK_NONE)
    {
      cro_pen_number (pen, 'G', CRO_STYLE_BLOCK_FINE, NAN);
      return;
    }
  pen->workbook->n_costed++;
  /* A sum passes over the text that stands where there is no price. */
  cro_pen_formula (pen, 'G', is_unknown ? CRO_STYLE_BLOCK_FINE_UNKNOWN : CRO_STYLE_BLOCK_FINE,
                   ingredient->unit_cost, "=SUM(@)", &used);
  cro_pen_formula (pen, 'H', readable_style (pen->workbook, readable, is_unknown), readable,
                   ingredient->base == CRO_BASE_EACH ? "=G#" : "=G#*1000", NULL);
  if (ingredient->n_offers > 1)
    cro_pen_formula_text (pen, 'W', CRO_STYLE_BLOCK_NOTE,
                          is_beaten ? cro_workbook_text (pen->workbook, CRO_WT_CHEAPER) : "",
                          "=IF(MIN(U{:U})<G#*0.999999,@,\"\")", &word);
}

static double
cheapest_of (const CroWorkbookSource     *source,
             const CroWorkbookIngredient *ingredient)
{
  double cheapest = INFINITY;

  for (guint32 i = 0; i < ingredient->n_offers; i++)
    {
      CroWorkbookOffer offer;

      source->get_offer (source->data, ingredient->first_offer + i, &offer);
      if (offer.unit_cost < cheapest)
        cheapest = offer.unit_cost;
    }
  /* The least of nothing is 0 in a spreadsheet. */
  return isinf (cheapest) ? 0 : cheapest;
}

static void
write_ingredient (CroPen                      *pen,
                  const CroWorkbookIngredient *ingredient,
                  guint32                      index)
{
  CroWorkbook *self = pen->workbook;
  const CroWorkbookSource *source = self->source;
  g_autofree char *allergens = source->dup_allergens (source->data, CRO_WORKBOOK_INGREDIENT, index);

  cro_pen_text (pen, 'A', CRO_STYLE_BLOCK, ingredient->name);
  cro_pen_text (pen, 'B', CRO_STYLE_BLOCK_NOTE,
                cro_workbook_text (self, ingredient->is_disposable ? CRO_WT_IS_DISPOSABLE
                                                                   : CRO_WT_IS_FOOD));
  cro_pen_text (pen, 'C', CRO_STYLE_BLOCK_NOTE, cro_unit_get (cro_base_unit (ingredient->base))->code);
  cro_pen_number (pen, 'D', CRO_STYLE_BLOCK_INPUT, ingredient->density);
  cro_pen_number (pen, 'E', CRO_STYLE_BLOCK_INPUT, ingredient->piece);
  cro_pen_number (pen, 'F', CRO_STYLE_BLOCK_PCT, ingredient->trim);
  write_choice (pen, ingredient, cheapest_of (source, ingredient));
  cro_pen_text (pen, 'X', CRO_STYLE_BLOCK_NOTE, ingredient->note);
  cro_pen_text (pen, 'Y', CRO_STYLE_BLOCK_NOTE, allergens);
  cro_pen_next_row (pen);
}

void
cro_workbook_write_ingredients (CroWorkbook *self)
{
  static const CroWorkbookTextId heads[] = {
    CRO_WT_ITEM,       CRO_WT_KIND,      CRO_WT_BASE,         CRO_WT_DENSITY,  CRO_WT_PIECE,
    CRO_WT_TRIM,       CRO_WT_UNIT_COST, CRO_WT_READABLE_COST, NO_HEAD,        CRO_WT_CODE,
    CRO_WT_PACK_COUNT, CRO_WT_PACK_SIZE, CRO_WT_UNIT,         CRO_WT_FACTOR,   CRO_WT_NET_PART,
    CRO_WT_PACK_PRICE, CRO_WT_TAX_INCLUDED, CRO_WT_CURRENCY,  CRO_WT_RATE,     CRO_WT_CONTENT,
    CRO_WT_UNIT_COST,  CRO_WT_FROM,      CRO_WT_STATE,        CRO_WT_NOTE,     CRO_WT_ALLERGENS,
  };
  const CroWorkbookSource *source = self->source;
  CroPen *pen = &self->ingredients;

  cro_pen_top (pen, cro_workbook_text (self, CRO_WT_INGREDIENTS),
               cro_workbook_text (self, CRO_WT_ABOUT_INGREDIENTS), heads, G_N_ELEMENTS (heads));
  for (guint32 i = 0; i < source->n_ingredients && !self->is_cancelled; i++)
    {
      CroWorkbookIngredient ingredient;
      guint32 row = pen->row;

      source->get_ingredient (source->data, i, &ingredient);
      write_ingredient (pen, &ingredient, i);
      for (guint32 k = 0; k < ingredient.n_offers; k++)
        {
          CroWorkbookOffer offer;

          source->get_offer (source->data, ingredient.first_offer + k, &offer);
          write_offer (pen, &ingredient, &offer, row);
        }
    }
  worksheet_ignore_errors (pen->sheet, LXW_IGNORE_NUMBER_STORED_AS_TEXT, "J1:J1048576");
  cro_pen_finish (pen, CRO_ROW_HEAD);
}
