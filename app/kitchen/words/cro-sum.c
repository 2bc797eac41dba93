#include "cro-sum.h"

#include <math.h>
#include <string.h>

#include "cro-breakdown.h"
#include "cro-decimal.h"
#include "cro-number.h"
#include "cro-words.h"

#define MINUS "−"
#define TIMES "×"
#define OVER "÷"

static const CroSumWords no_words;

/* --- Tokens ----------------------------------------------------------------------------------- */

static void
token_free (gpointer data)
{
  CroSumToken *token = data;

  g_free (token->text);
  g_free (token);
}

/* Takes text. */
static void
add (GPtrArray       *sum,
     CroSumTokenKind  kind,
     char            *text,
     CroRef           ref)
{
  CroSumToken *token = g_new (CroSumToken, 1);

  *token = (CroSumToken){ kind, text, ref };
  g_ptr_array_add (sum, token);
}

static void
sign (GPtrArray  *sum,
      const char *text)
{
  add (sum, CRO_SUM_SIGN, g_strdup (text), CRO_REF_NOWHERE);
}

static void
word (GPtrArray  *sum,
      const char *text,
      CroRef      ref)
{
  if (text != NULL)
    add (sum, CRO_SUM_WORD, g_strdup (text), ref);
}

/* A number, and the word that says what it is. */
static void
number (GPtrArray  *sum,
        char       *text,
        const char *says,
        CroRef      ref)
{
  add (sum, CRO_SUM_NUMBER, text, ref);
  word (sum, says, ref);
}

/* The figure and "=". */
static GPtrArray *
begin (char   *figure,
       CroRef  ref)
{
  GPtrArray *sum = g_ptr_array_new_with_free_func (token_free);

  number (sum, figure, NULL, ref);
  sign (sum, "=");
  return sum;
}

static char *
plain (double value)
{
  return cro_number_to_text (value, 6, TRUE);
}

static char *
pct_of_micro (gint64 pct)
{
  g_autofree char *digits = cro_words_decimal (pct);

  return g_strconcat (digits, "\302\240%", NULL);
}

char *
cro_sum_to_text (GPtrArray *sum)
{
  GString *text = g_string_new (NULL);
  gboolean open = TRUE;

  for (guint i = 0; i < sum->len; i++)
    {
      const CroSumToken *token = sum->pdata[i];
      gboolean is_sign = token->kind == CRO_SUM_SIGN;

      if (!open && !(is_sign && strcmp (token->text, ")") == 0))
        g_string_append_c (text, ' ');
      g_string_append (text, token->text);
      open = is_sign && strcmp (token->text, "(") == 0;
    }
  return g_string_free (text, FALSE);
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
      number (sum, plain (1 + (double) recipe->allowance / (double) CRO_WHOLE_PCT),
              words->seasoning, ref);
      sign (sum, TIMES);
    }
  number (sum, cro_words_money (figures->model, batch), NULL, ref);
  sign (sum, OVER);
  number (sum, cro_words_decimal (recipe->makes), words->bites, ref);
}

GPtrArray *
cro_sum_of_bite (CroFigures        *figures,
                 guint32            plate,
                 const CroSumWords *words)
{
  CroFigure figure = cro_figure_of_plate (figures, plate);
  GPtrArray *sum = begin (cro_words_money (figures->model, figure.bite),
                          CRO_REF (CRO_REF_RECIPE, plate));

  add_bite (sum, figures, plate, words != NULL ? words : &no_words);
  return sum;
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
  GPtrArray *sum = begin (cro_words_money (figures->model, figure.cost), ref);

  if (per_guest != CRO_MICRO)
    {
      number (sum, cro_words_decimal (per_guest), with->a_guest, ref);
      sign (sum, TIMES);
    }
  add_bite (sum, figures, plate, with);
  return sum;
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
  sum = begin (cro_words_money (figures->model, figure.cost), CRO_REF (CRO_REF_MENU, menu));
  for (guint i = 0; i < plates->len; i++)
    {
      const CroMenuPlate *entry = plates->pdata[i];
      CroFigure plate = cro_figure_of_plate (figures, entry->plate);

      if (i > 0)
        sign (sum, "+");
      if (entry->servings != CRO_MICRO)
        {
          number (sum, cro_words_decimal (entry->servings), NULL, CRO_REF (CRO_REF_MENU, menu));
          sign (sum, TIMES);
        }
      number (sum, cro_words_money (figures->model, plate.cost), plate.name,
              CRO_REF (CRO_REF_RECIPE, entry->plate));
    }
  return sum;
}

static CroFigure
figure_of (CroFigures *figures,
           CroRef      thing)
{
  return thing.kind == CRO_REF_MENU ? cro_figure_of_menu (figures, thing.slot)
                                    : cro_figure_of_plate (figures, thing.slot);
}

GPtrArray *
cro_sum_of_pct (CroFigures        *figures,
                CroRef             thing,
                const CroSumWords *words)
{
  const CroSumWords *with = words != NULL ? words : &no_words;
  CroFigure figure = figure_of (figures, thing);
  GPtrArray *sum;

  if (isnan (figure.food_cost_pct))
    return NULL;
  sum = begin (cro_words_pct (figure.food_cost_pct), thing);
  number (sum, cro_words_money (figures->model, figure.cost), with->food, thing);
  sign (sum, OVER);
  number (sum, cro_words_money (figures->model, figure.net_price), NULL, thing);
  return sum;
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
  sum = begin (cro_words_pct (part.of_price_pct), menu);
  if (entry->servings != CRO_MICRO)
    {
      number (sum, cro_words_decimal (entry->servings), NULL, menu);
      sign (sum, TIMES);
    }
  number (sum, cro_words_money (figures->model, plate.cost), plate.name,
          CRO_REF (CRO_REF_RECIPE, entry->plate));
  sign (sum, OVER);
  number (sum, cro_words_money (figures->model, part.menu.net_price), part.menu.name, menu);
  return sum;
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
  number (sum, plain (1 + (double) tax / (double) CRO_WHOLE_PCT), words->tax,
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
  sum = begin (cro_words_money (model, figure.net_price), thing);
  number (sum, cro_words_money (model, cro_decimal_to_double (price)), NULL, thing);
  add_tax (sum, model, tax, thing, words != NULL ? words : &no_words);
  return sum;
}

GPtrArray *
cro_sum_of_prime_cost (CroFigures        *figures,
                       CroRef             thing,
                       const CroSumWords *words)
{
  const CroSumWords *with = words != NULL ? words : &no_words;
  CroFigure figure = figure_of (figures, thing);
  GPtrArray *sum = begin (cro_words_money (figures->model, figure.cost + figure.labour), thing);

  number (sum, cro_words_money (figures->model, figure.cost), with->food, thing);
  sign (sum, "+");
  number (sum, cro_words_money (figures->model, figure.labour), with->labour, thing);
  return sum;
}

/* --- Batches and lines ------------------------------------------------------------------------------ */

GPtrArray *
cro_sum_of_batch (CroFigures        *figures,
                  guint32            recipe,
                  const CroSumWords *words)
{
  CroModel *model = figures->model;
  const CroGraph *graph = &figures->graph;
  guint32 row = cro_figures_row (figures, recipe);
  GPtrArray *sum;

  if (graph->first[row] == graph->first[row + 1])
    return NULL;
  sum = begin (cro_words_money (model, figures->layers[CRO_LAYER_FOOD].row_cost[row]),
               CRO_REF (CRO_REF_RECIPE, recipe));
  for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
    {
      uint32_t line = graph->line_slot[l];
      double cost = graph->quantity[l] * figures->layers[CRO_LAYER_FOOD].unit_cost[graph->part[l]];

      if (cro_model_item (model, model->lines.item[line])->is_disposable)
        continue;
      if (((CroSumToken *) sum->pdata[sum->len - 1])->kind != CRO_SUM_SIGN)
        sign (sum, "+");
      number (sum, cro_words_money (model, cost),
              cro_model_item (model, model->lines.item[line])->name, CRO_REF (CRO_REF_LINE, line));
    }
  /* Disposables alone. */
  if (((CroSumToken *) sum->pdata[sum->len - 1])->kind == CRO_SUM_SIGN)
    number (sum, cro_words_money (model, 0), NULL, CRO_REF_NOWHERE);
  return sum;
}

static char *
amount_text (gint64  amount,
             CroUnit unit)
{
  g_autofree char *digits = cro_words_decimal (amount);

  return g_strdup_printf ("%s\302\240%s", digits, cro_words_unit (unit));
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
  number (sum, from == CRO_BASE_EACH ? cro_words_amount (to, ratio) : plain (ratio), NULL, item);
}

static void
add_recovered (GPtrArray         *sum,
               gint64             recovered,
               CroRef             line,
               const CroSumWords *words)
{
  if (recovered == 0)
    return;
  sign (sum, TIMES);
  sign (sum, "(");
  number (sum, plain (1), NULL, CRO_REF_NOWHERE);
  sign (sum, MINUS);
  number (sum, pct_of_micro (recovered), words->comes_back, line);
  sign (sum, ")");
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
  double unit_cost = cro_figures_unit_cost (figures, slot);
  gint64 yield = cro_line_yield (lines, line, measure);
  double written = cro_decimal_to_double (lines->amount[line]) * cro_unit_factor (unit)
                   * (1 - (double) lines->recovered[line] / (double) CRO_WHOLE_PCT);
  CroRef ref = CRO_REF (CRO_REF_LINE, line);
  CroRef item = CRO_REF (CRO_REF_ITEM, slot);
  GPtrArray *sum;

  if (isnan (unit_cost) || cro_line_lacks (lines, line, measure) != CRO_LACKS_NOTHING)
    return NULL;
  sum = begin (cro_words_money (model, cro_line_charged (lines, line, measure) * unit_cost), ref);
  number (sum, amount_text (lines->amount[line], unit), NULL, ref);
  if (written > 0)
    add_conversion (sum, cro_unit_get (unit)->base, (CroBase) measure->base,
                    cro_line_net (lines, line, measure) / written, item);
  add_recovered (sum, lines->recovered[line], ref, with);
  if (yield != CRO_WHOLE_PCT)
    {
      sign (sum, OVER);
      number (sum, pct_of_micro (yield), with->yield, lines->yield[line] != 0 ? ref : item);
    }
  sign (sum, TIMES);
  number (sum, cro_words_unit_cost (model, (CroBase) measure->base, unit_cost),
          cro_model_item (model, slot)->name, item);
  return sum;
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

  number (sum, cro_number_to_text (cro_decimal_to_double (offer->price),
                                   cro_currency_digits (currency), FALSE),
          is_foreign (model, entry) ? currency : NULL, ref);
  if (is_foreign (model, entry))
    {
      sign (sum, TIMES);
      number (sum, plain (offer->rate), words->rate, CRO_REF_NOWHERE);
    }
  if (offer->tax_included != 0)
    {
      sign (sum, OVER);
      number (sum, plain (1 + (double) offer->tax_included / (double) CRO_WHOLE_PCT), words->tax,
              ref);
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
  gboolean several = offer->pack_count != CRO_MICRO || has_net || from != (CroBase) measure->base;

  sign (sum, OVER);
  if (several)
    sign (sum, "(");
  if (offer->pack_count != CRO_MICRO)
    {
      number (sum, cro_words_decimal (offer->pack_count), NULL, ref);
      sign (sum, TIMES);
    }
  number (sum, amount_text (offer->pack_size, offer->pack_unit), NULL, ref);
  add_conversion (sum, from, (CroBase) measure->base,
                  cro_offer_pack (offer, measure) / (written * net), item);
  if (has_net)
    {
      sign (sum, TIMES);
      number (sum, pct_of_micro (offer->net), words->net, ref);
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

static double
batch_cost (CroFigures *figures,
            guint32     recipe)
{
  return figures->layers[CRO_LAYER_FOOD].row_cost[cro_figures_row (figures, recipe)];
}

/* C − Σ v Q (1 − ℓ), in parentheses where by-products are credited. */
static void
add_main_of_credit (GPtrArray  *sum,
                    CroFigures *figures,
                    guint32     recipe)
{
  CroModel *model = figures->model;
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (figures, recipe, &outputs);

  if (n > 1)
    sign (sum, "(");
  number (sum, cro_words_money (model, batch_cost (figures, recipe)), NULL,
          CRO_REF (CRO_REF_RECIPE, recipe));
  for (guint32 i = 1; i < n; i++)
    {
      const CroItem *item = cro_model_item (model, outputs[i]);

      sign (sum, MINUS);
      number (sum, cro_words_money (model, item->output.value_of_base * item->output.used),
              item->name, CRO_REF (CRO_REF_ITEM, outputs[i]));
    }
  if (n > 1)
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
  gboolean in_proportion = rule == CRO_RULE_WEIGHT || rule == CRO_RULE_VALUE;

  if (rule == CRO_RULE_CREDIT && !item->is_main)
    {
      number (sum, cro_words_unit_cost (model, base, item->output.value_of_base), NULL, ref);
      return;
    }
  if (rule == CRO_RULE_CREDIT)
    add_main_of_credit (sum, figures, recipe);
  else
    number (sum, cro_words_money (model, batch_cost (figures, recipe)), NULL,
            CRO_REF (CRO_REF_RECIPE, recipe));
  if (rule == CRO_RULE_FREE && !item->is_main)
    {
      sign (sum, TIMES);
      number (sum, cro_words_pct (0), words->share, ref);
      return;
    }
  if (in_proportion && cro_model_recipe (model, recipe)->n_outputs > 1)
    {
      sign (sum, TIMES);
      number (sum, cro_words_pct (100 * item->output.share * item->output.used), words->share,
              ref);
    }
  sign (sum, OVER);
  number (sum, cro_words_amount (base, item->output.used), NULL, ref);
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
  sum = begin (cro_words_unit_cost (model, (CroBase) model->measures[slot].base, unit_cost),
               CRO_REF (CRO_REF_ITEM, slot));
  if (model->maker[slot] < 0)
    add_bought (sum, figures, slot, with);
  else
    add_made (sum, figures, slot, with);
  return sum;
}
