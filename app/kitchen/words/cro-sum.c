#include "cro-sum.h"

#include <math.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-landing.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-result-words.h"
#include "cro-rule.h"
#include "cro-sum-private.h"
#include "cro-words.h"

#define MINUS CRO_SUM_MINUS
#define TIMES CRO_SUM_TIMES
#define OVER CRO_SUM_OVER

/* Of what a person entered no digit is left out. */
#define ALL_DIGITS 6

static const CroSumWords no_words;

/* --- Numbers ---------------------------------------------------------------------------------- */

#define sign cro_sum_add_sign

static void
money (GPtrArray  *sum,
       CroModel   *model,
       double      amount,
       const char *says,
       CroRef      ref)
{
  cro_sum_add (sum, CRO_TERM_MONEY, amount, cro_currency_digits (model->currency), CRO_BASE_GRAM,
               says, ref);
}

static void
plain (GPtrArray  *sum,
       double      value,
       const char *says,
       CroRef      ref)
{
  cro_sum_add (sum, CRO_TERM_PLAIN, value, 0, CRO_BASE_GRAM, says, ref);
}

static void
unit_price (GPtrArray  *sum,
            CroModel   *model,
            CroBase     base,
            double      unit_cost,
            const char *says,
            CroRef      ref)
{
  cro_sum_add (sum, CRO_TERM_PRICE, unit_cost, cro_currency_digits (model->currency), base, says,
               ref);
}

static void
entered (GPtrArray  *sum,
         gint64      micro,
         const char *says,
         CroRef      ref)
{
  cro_sum_add_exact (sum, cro_words_decimal (micro), cro_decimal_to_double (micro), says, ref);
}

static void
entered_pct (GPtrArray  *sum,
             gint64      micro,
             const char *says,
             CroRef      ref)
{
  g_autofree char *digits = cro_words_decimal (micro);

  cro_sum_add_exact (sum, g_strconcat (digits, "\302\240%", NULL),
                     (double) micro / (double) CRO_WHOLE_PCT, says, ref);
}

static GPtrArray *
begin (CroModel *model,
       double    figure,
       CroKnown  known,
       CroRef    ref)
{
  return cro_sum_begin (CRO_TERM_MONEY, figure, cro_currency_digits (model->currency),
                        CRO_BASE_GRAM, known, ref);
}

static char *
text_from (GPtrArray *sum,
           guint      first)
{
  GString *text = g_string_new (NULL);
  gboolean open = TRUE;

  for (guint i = first; i < sum->len; i++)
    {
      const CroSumToken *token = sum->pdata[i];
      gboolean is_sign = token->kind == CRO_SUM_SIGN;
      g_autofree char *word = NULL;

      if (!open && !(is_sign && strcmp (token->text, ")") == 0))
        g_string_append_c (text, ' ');
      if (token->kind == CRO_SUM_WORD)
        word = cro_isolate (token->text);
      g_string_append (text, word != NULL ? word : token->text);
      open = is_sign && strcmp (token->text, "(") == 0;
    }
  return g_string_free (text, FALSE);
}

char *
cro_sum_to_text (GPtrArray *sum)
{
  return text_from (sum, 0);
}

char *
cro_sum_to_terms (GPtrArray *sum)
{
  return text_from (sum, 2);
}

const char *
cro_sum_get_figure (GPtrArray *sum)
{
  return ((const CroSumToken *) sum->pdata[0])->text;
}

void
cro_sum_take (GPtrArray *sum,
              GPtrArray *second)
{
  if (second == NULL)
    return;
  sign (sum, "·");
  g_ptr_array_extend_and_steal (sum, second);
}

/* --- Plates and menus ---------------------------------------------------------------------------- */

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

  if (recipe->allowance > 0)
    {
      plain (sum, 1 + (double) recipe->allowance / (double) CRO_WHOLE_PCT, words->seasoning, ref);
      sign (sum, TIMES);
    }
  money (sum, figures->model, batch, NULL, ref);
  sign (sum, OVER);
  entered (sum, recipe->makes, words->bites, ref);
}

GPtrArray *
cro_sum_of_bite (CroFigures        *figures,
                 guint32            plate,
                 const CroSumWords *words)
{
  CroFigure figure = cro_figure_of_plate (figures, plate);
  GPtrArray *sum = begin (figures->model, figure.bite, cro_known_of_cost (&figure),
                          CRO_REF (CRO_REF_RECIPE, plate));

  add_bite (sum, figures, plate, words != NULL ? words : &no_words);
  return cro_sum_settle (sum);
}

GPtrArray *
cro_sum_of_guest (CroFigures        *figures,
                  guint32            plate,
                  const CroSumWords *words)
{
  const CroSumWords *with = words != NULL ? words : &no_words;
  CroFigure figure = cro_figure_of_plate (figures, plate);
  gint64 per_guest = cro_model_recipe (figures->model, plate)->per_guest;
  CroRef ref = CRO_REF (CRO_REF_RECIPE, plate);
  GPtrArray *sum = begin (figures->model, figure.cost, cro_known_of_cost (&figure), ref);

  if (per_guest != CRO_MICRO)
    {
      entered (sum, per_guest, with->a_guest, ref);
      sign (sum, TIMES);
    }
  add_bite (sum, figures, plate, with);
  return cro_sum_settle (sum);
}

static CroFigure
figure_of (CroFigures *figures,
           CroRef      thing)
{
  return thing.kind == CRO_REF_MENU ? cro_figure_of_menu (figures, thing.slot)
                                    : cro_figure_of_plate (figures, thing.slot);
}

/* A guest's food, marked where something is missing below: what it goes into is. */
static void
food (GPtrArray       *sum,
      CroModel        *model,
      const CroFigure *figure,
      const char      *says,
      CroRef           thing)
{
  money (sum, model, figure->cost, says, thing);
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
    entered (sum, entry->servings, NULL, menu);
  else
    plain (sum, taken, NULL, menu);
  sign (sum, TIMES);
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
  sum = begin (figures->model, figure.cost, cro_known_of_cost (&figure),
               CRO_REF (CRO_REF_MENU, menu));
  for (guint i = 0; i < plates->len; i++)
    {
      const CroMenuPlate *entry = plates->pdata[i];
      CroFigure plate = cro_figure_of_plate (figures, entry->plate);

      if (i > 0)
        sign (sum, "+");
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
  const CroSumWords *with = words != NULL ? words : &no_words;
  CroModel *model = figures->model;
  CroFigure figure = figure_of (figures, thing);
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
    sign (sum, "(");
  if (is_gross_profit || is_coefficient)
    money (sum, model, figure.net_price, NULL, thing);
  if (is_gross_profit || is_coefficient)
    sign (sum, is_coefficient ? OVER : MINUS);
  food (sum, model, &figure, with->food, thing);
  if (is_gross_profit)
    sign (sum, ")");
  if (!is_coefficient)
    {
      sign (sum, OVER);
      money (sum, model, figure.net_price, NULL, thing);
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
  sign (sum, OVER);
  money (sum, figures->model, part.menu.net_price, part.menu.name, menu);
  return cro_sum_settle (sum);
}

/* Where tax is the book's it leads to the settings. */
static void
add_tax (GPtrArray         *sum,
         CroModel          *model,
         gint64             own,
         CroRef             thing,
         const CroSumWords *words)
{
  gint64 tax = own != CRO_NOT_SET ? own : model->tax;

  if (tax == CRO_NOT_SET || tax == 0)
    return;
  sign (sum, OVER);
  plain (sum, 1 + (double) tax / (double) CRO_WHOLE_PCT, words->tax,
         own != CRO_NOT_SET ? thing : CRO_REF (CRO_REF_HOUSE, CRO_NO_SLOT));
}

GPtrArray *
cro_sum_of_net_price (CroFigures        *figures,
                      CroRef             thing,
                      const CroSumWords *words)
{
  CroModel *model = figures->model;
  gboolean is_menu = thing.kind == CRO_REF_MENU;
  CroFigure figure = figure_of (figures, thing);
  gint64 price = is_menu ? cro_model_menu (model, thing.slot)->price
                         : cro_model_recipe (model, thing.slot)->price;
  gint64 tax = is_menu ? cro_model_menu (model, thing.slot)->tax
                       : cro_model_recipe (model, thing.slot)->tax;
  GPtrArray *sum;

  if (price == CRO_NOT_SET)
    return NULL;
  sum = begin (model, figure.net_price, CRO_KNOWN_WHOLE, thing);
  cro_sum_add_exact (sum, cro_words_price (model, price), cro_decimal_to_double (price), NULL,
                     thing);
  add_tax (sum, model, tax, thing, words != NULL ? words : &no_words);
  return cro_sum_settle (sum);
}

static GArray *
causes_of (CroFigures *figures,
           CroRef      thing)
{
  return thing.kind == CRO_REF_MENU ? cro_causes_of_menu (figures, thing.slot)
                                    : cro_causes_of_plate (figures, thing.slot);
}

GPtrArray *
cro_sum_of_prime_cost (CroFigures        *figures,
                       CroRef             thing,
                       const CroSumWords *words)
{
  const CroSumWords *with = words != NULL ? words : &no_words;
  CroFigure figure = figure_of (figures, thing);
  g_autoptr (GArray) causes = causes_of (figures, thing);
  GPtrArray *sum = begin (figures->model, figure.cost + figure.labour,
                          cro_known_of_prime (&figure), thing);

  food (sum, figures->model, &figure, with->food, thing);
  sign (sum, "+");
  money (sum, figures->model, figure.labour, with->labour, thing);
  cro_sum_mark (sum, cro_known_of_labour (&figure, causes));
  return cro_sum_settle (sum);
}

GPtrArray *
cro_sum_of_left (CroFigures        *figures,
                 CroRef             thing,
                 const CroSumWords *words)
{
  CroFigure figure = figure_of (figures, thing);
  GPtrArray *sum;

  if (isnan (figure.net_price))
    return NULL;
  sum = begin (figures->model, figure.net_price - figure.cost,
               cro_known_turned (cro_known_of_cost (&figure)), thing);
  money (sum, figures->model, figure.net_price, NULL, thing);
  sign (sum, MINUS);
  food (sum, figures->model, &figure, (words != NULL ? words : &no_words)->food, thing);
  return cro_sum_settle (sum);
}

/* --- Batches and lines ------------------------------------------------------------------------------ */

/* What is not known is no 0. */
static void
add_line_of_batch (GPtrArray  *sum,
                   CroFigures *figures,
                   uint32_t    position)
{
  CroModel *model = figures->model;
  uint32_t line = figures->graph.line_slot[position];
  guint32 item = model->lines.item[line];
  double cost = cro_line_cost (figures, position);
  CroRef ref = CRO_REF (CRO_REF_LINE, line);

  if (isnan (cost))
    cro_sum_add_exact (sum, cro_words_known (CRO_KNOWN_NOTHING, ""), 0,
                       cro_model_item (model, item)->name, ref);
  else
    money (sum, model, cost, cro_model_item (model, item)->name, ref);
}

GPtrArray *
cro_sum_of_batch (CroFigures        *figures,
                  guint32            recipe,
                  const CroSumWords *words)
{
  const CroGraph *graph = &figures->graph;
  guint32 row = cro_figures_row (figures, recipe);
  GPtrArray *sum;

  if (graph->first[row] == graph->first[row + 1])
    return NULL;
  sum = begin (figures->model, cro_landing_total (figures, recipe),
               cro_known_of_recipe (figures, recipe), CRO_REF (CRO_REF_RECIPE, recipe));
  for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
    {
      if (l > graph->first[row])
        sign (sum, "+");
      add_line_of_batch (sum, figures, l);
    }
  return cro_sum_settle (sum);
}

static char *
amount_text (gint64  amount,
             CroUnit unit)
{
  g_autofree char *digits = cro_words_decimal (amount);

  return g_strdup_printf ("%s\302\240%s", digits, cro_words_unit (unit));
}

gboolean
cro_sum_is_plain_unit (CroUnit unit)
{
  switch (unit)
    {
    case CRO_UNIT_MG:
    case CRO_UNIT_G:
    case CRO_UNIT_KG:
    case CRO_UNIT_ML:
    case CRO_UNIT_CL:
    case CRO_UNIT_DL:
    case CRO_UNIT_L:
    case CRO_UNIT_EACH:
      return TRUE;
    default:
      return FALSE;
    }
}

/* An amount as it was written, and what other units are in g, ml or pieces: "2 tsp × 5 ml". */
static void
add_amount (GPtrArray *sum,
            gint64     amount,
            CroUnit    unit,
            CroRef     ref)
{
  double factor = cro_unit_factor (unit);
  gboolean is_plain = cro_sum_is_plain_unit (unit);

  cro_sum_add_exact (sum, amount_text (amount, unit),
                     cro_decimal_to_double (amount) * (is_plain ? factor : 1), NULL, ref);
  if (is_plain)
    return;
  sign (sum, TIMES);
  cro_sum_add (sum, CRO_TERM_AMOUNT, factor, ALL_DIGITS, cro_unit_get (unit)->base, NULL,
               CRO_REF_NOWHERE);
}

/* Base units of an item in one of another base: "0.92" of a volume in a mass, "50 g" of a
 * piece. */
static void
add_conversion (GPtrArray *sum,
                CroBase    from,
                CroBase    to,
                double     ratio,
                CroRef     item)
{
  if (from == to)
    return;
  sign (sum, TIMES);
  if (from == CRO_BASE_EACH)
    cro_sum_add (sum, CRO_TERM_AMOUNT, ratio, ALL_DIGITS, to, NULL, item);
  else
    plain (sum, ratio, NULL, item);
}

/* × (1 − k). */
static void
add_part_left (GPtrArray  *sum,
               gint64      pct,
               const char *says,
               CroRef      ref)
{
  if (pct == 0)
    return;
  sign (sum, TIMES);
  sign (sum, "(");
  cro_sum_add_exact (sum, g_strdup ("1"), 1, NULL, CRO_REF_NOWHERE);
  sign (sum, MINUS);
  entered_pct (sum, pct, says, ref);
  sign (sum, ")");
}

/* Food, and what disposables of its batch add to it. */
static void
add_unit_cost (GPtrArray         *sum,
               CroFigures        *figures,
               guint32            slot,
               const CroSumWords *words)
{
  CroModel *model = figures->model;
  CroBase base = (CroBase) model->measures[slot].base;
  CroRef item = CRO_REF (CRO_REF_ITEM, slot);
  const char *name = cro_model_item (model, slot)->name;
  double of_disposables = cro_model_item (model, slot)->is_disposable
                              ? 0
                              : figures->layers[CRO_LAYER_DISPOSABLES]
                                    .unit_cost[cro_figures_node (figures, slot)];

  sign (sum, TIMES);
  if (of_disposables == 0)
    {
      unit_price (sum, model, base, cro_figures_unit_cost (figures, slot), name, item);
      return;
    }
  sign (sum, "(");
  unit_price (sum, model, base, cro_figures_unit_cost (figures, slot), name, item);
  sign (sum, "+");
  unit_price (sum, model, base, of_disposables, words->disposables, item);
  sign (sum, ")");
}

/* Lines are shown so that they add up to their batch (cro_landing_dup_lines): where that is not the
 * nearest minor unit, more digits say why. */
#define MORE_DIGITS 2

static int
digits_of_line (CroFigures *figures,
                guint32     line,
                double      cost)
{
  const CroGraph *graph = &figures->graph;
  guint32 node = cro_figures_node (figures, figures->model->lines.item[line]);
  int digits = cro_currency_digits (figures->model->currency);

  for (guint32 u = graph->used_first[node]; u < graph->used_first[node + 1]; u++)
    for (guint32 row = graph->used_in[u], l = graph->first[row]; l < graph->first[row + 1]; l++)
      if (graph->line_slot[l] == line)
        {
          gint64 total;
          g_autofree gint64 *minor = cro_landing_dup_lines (figures, graph->slot_of_row[row],
                                                            &total);

          return minor[l - graph->first[row]] == cro_money_round (cost, digits)
                     ? digits
                     : digits + MORE_DIGITS;
        }
  return digits;
}

static GPtrArray *
begin_line (CroFigures *figures,
            guint32     line,
            double      cost)
{
  guint32 slot = figures->model->lines.item[line];
  guint64 bits = figures->node_bits[cro_figures_node (figures, slot)];

  return cro_sum_begin (CRO_TERM_MONEY, cost, digits_of_line (figures, line, cost), CRO_BASE_GRAM,
                        cro_known_of_bits (bits, cost), CRO_REF (CRO_REF_LINE, line));
}

GPtrArray *
cro_sum_of_line (CroFigures        *figures,
                 guint32            line,
                 const CroSumWords *words)
{
  const CroSumWords *with = words != NULL ? words : &no_words;
  CroModel *model = figures->model;
  const CroLines *lines = &model->lines;
  guint32 slot = lines->item[line];
  const CroMeasure *measure = &model->measures[slot];
  CroUnit unit = (CroUnit) lines->unit[line];
  gint64 yield = cro_line_yield (lines, line, measure);
  double written = cro_decimal_to_double (lines->amount[line]) * cro_unit_factor (unit)
                   * (1 - (double) lines->recovered[line] / (double) CRO_WHOLE_PCT);
  CroRef ref = CRO_REF (CRO_REF_LINE, line);
  CroRef item = CRO_REF (CRO_REF_ITEM, slot);
  GPtrArray *sum;

  if (isnan (cro_figures_unit_cost (figures, slot))
      || cro_line_lacks (lines, line, measure) != CRO_LACKS_NOTHING)
    return NULL;
  sum = begin_line (figures, line,
                    cro_line_charged (lines, line, measure) * cro_item_cost_of_one (figures, slot));
  add_amount (sum, lines->amount[line], unit, ref);
  if (written > 0)
    add_conversion (sum, cro_unit_get (unit)->base, (CroBase) measure->base,
                    cro_line_net (lines, line, measure) / written, item);
  add_part_left (sum, lines->recovered[line], with->comes_back, ref);
  if (yield != CRO_WHOLE_PCT)
    {
      sign (sum, OVER);
      entered_pct (sum, yield, with->yield, lines->yield[line] != 0 ? ref : item);
    }
  add_unit_cost (sum, figures, slot, with);
  return cro_sum_settle (sum);
}

/* --- Unit costs ------------------------------------------------------------------------------------------ */

static gboolean
is_foreign (CroModel            *model,
            const CroOfferEntry *entry)
{
  return entry->currency != NULL && g_strcmp0 (entry->currency, model->currency) != 0;
}

/* P × r ÷ (1 + v). */
static void
add_price (GPtrArray           *sum,
           CroModel            *model,
           const CroOfferEntry *entry,
           CroRef               ref,
           const CroSumWords   *words)
{
  const CroOffer *offer = &entry->offer;
  const char *currency = entry->currency != NULL ? entry->currency : model->currency;

  cro_sum_add_exact (sum, cro_words_price_in (currency, offer->price),
                     cro_decimal_to_double (offer->price),
                     is_foreign (model, entry) ? currency : NULL, ref);
  if (is_foreign (model, entry))
    {
      sign (sum, TIMES);
      plain (sum, offer->rate, words->rate, CRO_REF_NOWHERE);
    }
  if (offer->tax_included != 0)
    {
      sign (sum, OVER);
      plain (sum, 1 + (double) offer->tax_included / (double) CRO_WHOLE_PCT, words->tax, ref);
    }
}

/* count × size × f, in parentheses where it is more than one number. */
static void
add_pack (GPtrArray         *sum,
          const CroOffer    *offer,
          const CroMeasure  *measure,
          CroRef             ref,
          CroRef             item,
          const CroSumWords *words)
{
  CroBase from = cro_unit_get (offer->pack_unit)->base;
  double written = cro_decimal_to_double (offer->pack_count)
                   * cro_decimal_to_double (offer->pack_size) * cro_unit_factor (offer->pack_unit);
  gboolean has_net = offer->net != 0 && offer->net != CRO_WHOLE_PCT;
  double net = has_net ? (double) offer->net / (double) CRO_WHOLE_PCT : 1;
  gboolean several = offer->pack_count != CRO_MICRO || has_net || from != (CroBase) measure->base
                     || !cro_sum_is_plain_unit (offer->pack_unit);

  sign (sum, OVER);
  if (several)
    sign (sum, "(");
  if (offer->pack_count != CRO_MICRO)
    {
      entered (sum, offer->pack_count, NULL, ref);
      sign (sum, TIMES);
    }
  add_amount (sum, offer->pack_size, offer->pack_unit, ref);
  add_conversion (sum, from, (CroBase) measure->base,
                  cro_offer_pack (offer, measure) / (written * net), item);
  if (has_net)
    {
      sign (sum, TIMES);
      entered_pct (sum, offer->net, words->net, ref);
    }
  if (several)
    sign (sum, ")");
}

static void
add_bought (GPtrArray         *sum,
            CroFigures        *figures,
            guint32            slot,
            const CroSumWords *words)
{
  guint32 used = figures->offer_in_use[slot];
  const CroOfferEntry *entry = cro_model_offer (figures->model, used);
  CroRef ref = CRO_REF (CRO_REF_OFFER, used);

  add_price (sum, figures->model, entry, ref, words);
  add_pack (sum, &entry->offer, &figures->model->measures[slot], ref, CRO_REF (CRO_REF_ITEM, slot),
            words);
}

/* The food of a batch; said so where disposables stand beside it. */
static void
add_batch_cost (GPtrArray         *sum,
                CroFigures        *figures,
                guint32            recipe,
                const CroSumWords *words)
{
  guint32 row = cro_figures_row (figures, recipe);
  gboolean has_others = figures->layers[CRO_LAYER_DISPOSABLES].row_cost[row] != 0;

  money (sum, figures->model, figures->layers[CRO_LAYER_FOOD].row_cost[row],
         has_others ? words->food : NULL, CRO_REF (CRO_REF_RECIPE, recipe));
}

/* C − Σ v Q (1 − ℓ), in parentheses where by-products are credited. */
static void
add_main_of_credit (GPtrArray         *sum,
                    CroFigures        *figures,
                    guint32            recipe,
                    const CroSumWords *words)
{
  CroModel *model = figures->model;
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (figures, recipe, &outputs);

  if (n > 1)
    sign (sum, "(");
  add_batch_cost (sum, figures, recipe, words);
  for (guint32 i = 1; i < n; i++)
    {
      const CroItem *item = cro_model_item (model, outputs[i]);

      sign (sum, MINUS);
      money (sum, model, item->output.value_of_base * item->output.used, item->name,
             CRO_REF (CRO_REF_ITEM, outputs[i]));
    }
  if (n > 1)
    sign (sum, ")");
}

static void
add_share (GPtrArray  *sum,
           double      share,
           CroRef      ref,
           const char *says)
{
  sign (sum, TIMES);
  cro_sum_add (sum, CRO_TERM_PCT, share, 1, CRO_BASE_GRAM, says, ref);
}

/* Q (1 − ℓ). */
static void
add_used (GPtrArray         *sum,
          const CroOutput   *output,
          CroBase            base,
          CroRef             ref,
          const CroSumWords *words)
{
  if (output->lost != 0)
    sign (sum, "(");
  cro_sum_add (sum, CRO_TERM_AMOUNT, output->finished, output->amount > 0 ? ALL_DIGITS : 0, base,
               NULL, ref);
  add_part_left (sum, output->lost, words->lost, ref);
  if (output->lost != 0)
    sign (sum, ")");
}

static void
add_made (GPtrArray         *sum,
          CroFigures        *figures,
          guint32            slot,
          const CroSumWords *words)
{
  CroModel *model = figures->model;
  const CroItem *item = cro_model_item (model, slot);
  guint32 recipe = (guint32) model->maker[slot];
  guint8 rule = cro_model_recipe (model, recipe)->rule;
  CroBase base = (CroBase) model->measures[slot].base;
  CroRef ref = CRO_REF (CRO_REF_ITEM, slot);
  gboolean in_proportion = cro_rule_shares (rule);

  if (cro_rule_credits (rule) && !item->is_main)
    {
      unit_price (sum, model, base, item->output.value_of_base, NULL, ref);
      return;
    }
  if (cro_rule_credits (rule))
    add_main_of_credit (sum, figures, recipe, words);
  else
    add_batch_cost (sum, figures, recipe, words);
  if (cro_rule_frees (rule) && !item->is_main)
    {
      add_share (sum, 0, ref, words->share);
      return;
    }
  if (in_proportion && cro_model_recipe (model, recipe)->n_outputs > 1)
    add_share (sum, item->output.share * item->output.used, ref, words->share);
  sign (sum, OVER);
  add_used (sum, &item->output, base, ref, words);
}

GPtrArray *
cro_sum_of_item (CroFigures        *figures,
                 guint32            slot,
                 const CroSumWords *words)
{
  const CroSumWords *with = words != NULL ? words : &no_words;
  CroModel *model = figures->model;
  double unit_cost = cro_figures_unit_cost (figures, slot);
  GPtrArray *sum;

  if (isnan (unit_cost))
    return NULL;
  sum = cro_sum_begin (CRO_TERM_PRICE, unit_cost, cro_currency_digits (model->currency),
                       (CroBase) model->measures[slot].base, cro_known_of_item (figures, slot),
                       CRO_REF (CRO_REF_ITEM, slot));
  if (model->maker[slot] < 0)
    add_bought (sum, figures, slot, with);
  else
    add_made (sum, figures, slot, with);
  return cro_sum_settle (sum);
}

GPtrArray *
cro_sum_of_share (CroFigures           *figures,
                  const CroShareOfCost *share)
{
  CroModel *model = figures->model;
  CroBase base = (CroBase) model->measures[share->item].base;
  CroRef ref = CRO_REF (CRO_REF_ITEM, share->item);
  GPtrArray *sum = begin (model, share->cost, CRO_KNOWN_WHOLE, ref);

  cro_sum_add (sum, CRO_TERM_AMOUNT, share->quantity, 0, base, NULL, ref);
  sign (sum, TIMES);
  unit_price (sum, model, base, share->unit_cost, NULL, ref);
  return cro_sum_settle (sum);
}

GPtrArray *
cro_sum_of_trimmed (CroFigures        *figures,
                    guint32            slot,
                    const CroSumWords *words)
{
  CroModel *model = figures->model;
  const CroMeasure *measure = &model->measures[slot];
  CroBase base = (CroBase) measure->base;
  int digits = cro_currency_digits (model->currency);
  double unit_cost = cro_figures_unit_cost (figures, slot);
  CroRef ref = CRO_REF (CRO_REF_ITEM, slot);
  GPtrArray *sum;

  if (isnan (unit_cost) || measure->trim_yield == 0 || base == CRO_BASE_EACH)
    return NULL;
  sum = cro_sum_begin (CRO_TERM_PRICE,
                       unit_cost / ((double) measure->trim_yield / (double) CRO_WHOLE_PCT), digits,
                       base, cro_known_of_item (figures, slot), ref);
  unit_price (sum, model, base, unit_cost, NULL, ref);
  sign (sum, OVER);
  entered_pct (sum, measure->trim_yield, (words != NULL ? words : &no_words)->yield, ref);
  return cro_sum_settle (sum);
}

/* --- Labour --------------------------------------------------------------------------------------- */

/* Without a wage it is not known what they cost. */
static void
add_minutes (GPtrArray         *sum,
             CroModel          *model,
             gint64             minutes,
             CroRef             recipe,
             const CroSumWords *words)
{
  gboolean has_wage = model->wage_per_hour != CRO_NOT_SET;

  entered (sum, minutes, words->minutes, recipe);
  sign (sum, TIMES);
  cro_sum_add_exact (sum,
                     has_wage ? cro_words_price (model, model->wage_per_hour)
                              : cro_words_known (CRO_KNOWN_NOTHING, ""),
                     has_wage ? cro_decimal_to_double (model->wage_per_hour) : 0, words->wage,
                     CRO_REF (CRO_REF_HOUSE, CRO_NO_SLOT));
  sign (sum, OVER);
  cro_sum_add_exact (sum, g_strdup ("60"), 60, NULL, CRO_REF_NOWHERE);
}

static CroKnown
known_of_labour (CroFigures *figures,
                 guint32     preparation,
                 double      labour)
{
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (figures, preparation, &outputs);
  g_autoptr (GArray) causes = n > 0 ? cro_causes_of_item (figures, outputs[0]) : NULL;

  return causes != NULL ? cro_known_of_labour (&(CroFigure){ .labour = labour }, causes)
                        : CRO_KNOWN_WHOLE;
}

GPtrArray *
cro_sum_of_labour (CroFigures        *figures,
                   guint32            preparation,
                   const CroSumWords *words)
{
  CroModel *model = figures->model;
  const CroGraph *graph = &figures->graph;
  const CroLayer *layer = &figures->layers[CRO_LAYER_LABOUR];
  guint32 row = cro_figures_row (figures, preparation);
  gint64 minutes = cro_model_recipe (model, preparation)->active_minutes;
  CroRef ref = CRO_REF (CRO_REF_RECIPE, preparation);
  gboolean is_first = minutes <= 0;
  GPtrArray *sum = begin (model, layer->row_cost[row],
                          known_of_labour (figures, preparation, layer->row_cost[row]), ref);

  if (minutes > 0)
    add_minutes (sum, model, minutes, ref, words != NULL ? words : &no_words);
  for (guint32 l = graph->first[row]; l < graph->first[row + 1]; l++)
    {
      guint32 item = model->lines.item[graph->line_slot[l]];
      double cost = graph->quantity[l] * layer->unit_cost[graph->part[l]];

      if (cost == 0)
        continue;
      if (!is_first)
        sign (sum, "+");
      is_first = FALSE;
      money (sum, model, cost, cro_model_item (model, item)->name, CRO_REF (CRO_REF_ITEM, item));
    }
  if (is_first)
    money (sum, model, 0, NULL, ref);
  return cro_sum_settle (sum);
}
