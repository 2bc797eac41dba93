#include "config.h"

#include "cro-cli.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-card.h"
#include "cro-cli-grid.h"
#include "cro-decimal.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-plate.h"
#include "cro-words.h"

/* Ingredients shown of what moves a cost. */
#define MOST_INGREDIENTS 10

/* --- Head ------------------------------------------------------------------------------------------ */

static void
print_title (CroCosting      *costing,
             const CroRecipe *plate)
{
  CroModel *model = cro_book_get_model (costing->book);
  g_autofree char *question = cro_cli_dup_question (costing);
  g_autofree char *makes = cro_number_to_text (cro_decimal_to_double (plate->makes), 2, TRUE);
  g_autofree char *each = cro_number_to_text (cro_decimal_to_double (plate->per_guest), 2, TRUE);

  cro_cli_print_wrapped (plate->name, 0);
  /* Translators: a number of bites; how many of them a guest gets; what was asked for ("prices of
   * 1 March 2026"); a currency. */
  g_print (_("makes %s, %s a guest; %s, %s\n\n"), makes, each, question,
           model->currency != NULL ? model->currency : _("no currency"));
}

static void
add_pair (CroGrid    *grid,
          const char *what,
          char       *value)
{
  char *cells[] = { g_strdup (what), value };

  cro_grid_take_row (grid, 0, cells);
}

static void
print_head (CroFigures   *figures,
            CroBreakdown *breakdown)
{
  CroModel *model = figures->model;
  const CroFigure *figure = &breakdown->figure;
  g_autoptr (CroGrid) grid = cro_grid_new (2);
  g_autofree char *missing = cro_words_missing (figure, breakdown->missing);

  add_pair (grid, _("Food cost of a bite"), cro_words_money (model, figure->bite));
  add_pair (grid, _("Food cost of a guest"), cro_words_money (model, figure->cost));
  add_pair (grid, _("Labour"), cro_words_money (model, figure->labour));
  add_pair (grid, _("Prime cost (food and labour)"),
            cro_words_money (model, figure->cost + figure->labour));
  add_pair (grid, _("Disposables"), cro_words_money (model, figure->disposables));
  if (!isnan (figure->net_price))
    {
      add_pair (grid, _("Price that meets the target, with tax"),
                cro_words_money (model, figure->price_for_target));
      add_pair (grid, _("Net price"), cro_words_money (model, figure->net_price));
      add_pair (grid, _("Food-cost percentage"), cro_words_pct (figure->food_cost_pct));
      add_pair (grid, _("Target"), cro_words_pct (figure->target_pct));
    }
  cro_grid_print (grid);
  if (missing != NULL)
    cro_cli_print_wrapped (missing, 0);
}

static void
print_parts_of_menus (CroFigures      *figures,
                      guint32          plate,
                      const CroFigure *figure)
{
  CroModel *model = figures->model;

  for (guint i = 0; i < model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, i);
      CroPartOfMenu part;
      g_autofree char *of_price = NULL, *of_cost = NULL, *pct = NULL, *target = NULL, *text = NULL;

      if (entry->is_dead || entry->plate != plate)
        continue;
      part = cro_part_of_menu (figures, entry, figure);
      of_price = cro_words_pct (part.of_price_pct);
      of_cost = cro_words_pct (part.of_cost_pct);
      pct = cro_words_pct (part.menu.food_cost_pct);
      target = cro_words_pct (part.menu.target_pct);
      /* Translators: a menu, its food-cost percentage and target; the part of its net price and
       * of its cost that this plate takes. */
      text = g_strdup_printf (_("In %s (food cost %s, target %s): %s of its net price, "
                                "%s of its cost."),
                              part.menu.name, pct, target, of_price, of_cost);
      cro_cli_print_wrapped (text, 0);
    }
}

/* --- Lines ------------------------------------------------------------------------------------------ */

static char *
name_of_row (CroModel         *model,
             const CroRecipe  *plate,
             const CroCardRow *row)
{
  const char *name = row->item != CRO_NO_SLOT ? cro_model_item (model, row->item)->name : NULL;

  if (row->kind == CRO_CARD_ALLOWANCE)
    {
      g_autofree char *pct = cro_words_pct (cro_decimal_to_double (plate->allowance));

      return g_strdup_printf (_("Seasoning and handling, %s"), pct);
    }
  if (row->kind == CRO_CARD_CREDIT)
    return g_strdup_printf (_("credited: %s"), name);
  if (row->flags & CRO_CARD_AGAIN)
    return g_strdup_printf (_("%s (as above)"), name);
  if (row->flags & CRO_CARD_FREE)
    return g_strdup_printf (_("%s (carries no cost)"), name);
  if (row->flags & CRO_CARD_ASSIGNED)
    return g_strdup_printf (_("%s (at its assigned value)"), name);
  return g_strdup (name);
}

static char *
amount_of_row (CroModel         *model,
               const CroCardRow *row)
{
  if (row->kind == CRO_CARD_ALLOWANCE)
    return NULL;
  if (row->amount != 0 || row->line == CRO_NO_SLOT)
    return cro_words_amount ((CroBase) model->measures[row->item].base, row->amount);

  /* It cannot be converted: as it is written. */
  {
    g_autofree char *amount
        = cro_number_to_text (cro_decimal_to_double (model->lines.amount[row->line]), 3, TRUE);

    return g_strdup_printf ("%s %s", amount,
                            cro_unit_get ((CroUnit) model->lines.unit[row->line])->code);
  }
}

static void
print_lines (CroFigures *figures,
             guint32     plate)
{
  CroModel *model = figures->model;
  const CroRecipe *recipe = cro_model_recipe (model, plate);
  guint32 row = cro_figures_row (figures, plate);
  double total = cro_plate_share (CRO_MICRO, CRO_MICRO, recipe->allowance)
                 * (figures->layers[CRO_LAYER_FOOD].row_cost[row]
                    + figures->layers[CRO_LAYER_DISPOSABLES].row_cost[row]);
  int digits = cro_currency_digits (model->currency);
  gint64 total_minor = cro_money_round (total, digits);
  g_autoptr (GArray) rows = cro_card_new (figures, plate);
  g_autofree gint64 *minor = cro_card_dup_minor (rows, total_minor, digits);
  g_autoptr (CroGrid) grid = cro_grid_new (4);
  g_autofree char *makes = cro_number_to_text (cro_decimal_to_double (recipe->makes), 2, TRUE);
  /* Translators: a number of bites. */
  g_autofree char *title = g_strdup_printf (_("Made of, for %s"), makes);
  const char *titles[] = { title, _("amount"), _("cost"), _("share") };
  char *sum[] = { g_strdup (_("Food and disposables")), NULL,
                  cro_money_to_text (total_minor, digits), NULL };

  cro_grid_add_head (grid, titles);
  for (guint i = 0; i < rows->len; i++)
    {
      const CroCardRow *at = &g_array_index (rows, CroCardRow, i);
      gboolean unknown = at->flags & CRO_CARD_UNKNOWN;
      char *cells[] = {
        name_of_row (model, recipe, at),
        amount_of_row (model, at),
        /* Translators: stands where a cost should be and is not known. */
        unknown ? g_strdup (_("?")) : cro_money_to_text (minor[i], digits),
        unknown || total == 0 || at->depth > 0 ? NULL : cro_words_pct (100 * at->cost / total),
      };

      cro_grid_take_row (grid, 2 * MIN (at->depth, 12), cells);
    }
  cro_grid_take_row (grid, 0, sum);
  cro_grid_print (grid);
}

/* --- What moves it ------------------------------------------------------------------------------------- */

static void
add_ingredient (CroGrid              *grid,
                CroModel             *model,
                const CroShareOfCost *share,
                const CroCeiling     *ceiling)
{
  CroBase base = (CroBase) model->measures[share->item].base;
  gboolean has_next = !isnan (ceiling->next_offer);
  g_autofree char *holds = cro_words_unit_cost (model, base, ceiling->unit_cost);
  char *cells[] = {
    g_strdup (cro_model_item (model, share->item)->name),
    cro_words_amount (base, share->quantity),
    cro_words_unit_cost (model, base, share->unit_cost),
    cro_words_money (model, share->cost),
    cro_words_pct (100 * share->elasticity),
    g_strconcat (holds, has_next ? "*" : "", NULL),
    cro_words_money (model, ceiling->pack),
  };

  cro_grid_take_row (grid, 0, cells);
}

/* The plate or the menus whose targets the ceilings keep, each once. */
static char *
dup_holders (GArray *ceilings,
             guint   n)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();

  for (guint i = 0; i < n; i++)
    {
      const char *holder = g_array_index (ceilings, CroCeiling, i).holder;

      if (holder != NULL && !g_ptr_array_find (names, holder, NULL))
        g_ptr_array_add (names, (gpointer) holder);
    }
  if (names->len == 0)
    return NULL;
  g_ptr_array_add (names, NULL);
  return g_strjoinv (", ", (char **) names->pdata);
}

static void
print_holders (GArray *ceilings,
               guint   n)
{
  g_autofree char *holders = dup_holders (ceilings, n);
  gboolean next = FALSE;

  for (guint i = 0; i < n; i++)
    next |= !isnan (g_array_index (ceilings, CroCeiling, i).next_offer);
  if (holders != NULL)
    {
      /* Translators: a plate, or the menus that carry it. */
      g_autofree char *text = g_strdup_printf (
          _("“holds to”: the most that may be paid, all else equal, before the target of %s is "
            "passed; “a pack”: the same for the pack in use, in its supplier’s terms. Below 0: over "
            "the target even as a gift."),
          holders);

      cro_cli_print_wrapped (text, 0);
    }
  if (next)
    cro_cli_print_wrapped (_("* Before that, another supplier’s pack is the cheaper one."), 0);
}

static void
print_ingredients (CroFigures   *figures,
                   guint32       plate,
                   CroBreakdown *breakdown)
{
  g_autoptr (GArray) ceilings = cro_ceilings_of_plate (figures, plate, breakdown);
  g_autoptr (CroGrid) grid = cro_grid_new (7);
  guint n = MIN (breakdown->ingredients->len, MOST_INGREDIENTS);
  const char *titles[] = {
    _("What moves it"), _("a guest"), _("price"), _("cost"), _("share"), _("holds to"), _("a pack"),
  };

  if (n == 0)
    return;
  cro_grid_add_head (grid, titles);
  for (guint i = 0; i < n; i++)
    add_ingredient (grid, figures->model,
                    &g_array_index (breakdown->ingredients, CroShareOfCost, i),
                    &g_array_index (ceilings, CroCeiling, i));
  if (breakdown->ingredients->len > n)
    {
      guint others = breakdown->ingredients->len - n;
      double cost = 0;
      char *cells[7] = { NULL };

      for (guint i = n; i < breakdown->ingredients->len; i++)
        cost += g_array_index (breakdown->ingredients, CroShareOfCost, i).cost;
      cells[0] = g_strdup_printf (ngettext ("%u other", "%u others", others), others);
      cells[3] = cro_words_money (figures->model, cost);
      cro_grid_take_row (grid, 0, cells);
    }
  cro_grid_print (grid);
  print_holders (ceilings, n);
}

/* --- Cautions -------------------------------------------------------------------------------------------- */

static void
print_names (const char *title,
             GPtrArray  *names)
{
  g_autofree char *list = NULL;
  g_autofree char *text = NULL;

  if (names->len == 0)
    return;
  g_ptr_array_add (names, NULL);
  list = g_strjoinv (", ", (char **) names->pdata);
  text = g_strconcat (title, " ", list, NULL);
  cro_cli_print_wrapped (text, 0);
}

static void
print_traces (const CroBreakdown *breakdown)
{
  g_autofree char *traces = NULL, *text = NULL;

  if (breakdown->may_contain == 0)
    return;
  traces = cro_words_allergens (breakdown->may_contain);
  text = g_strdup_printf (_("May contain, by the labels: %s"), traces);
  cro_cli_print_wrapped (text, 0);
}

static void
print_unserved (CroModel     *model,
                CroBreakdown *breakdown)
{
  for (guint i = 0; i < breakdown->doubts->len; i++)
    {
      g_autofree char *text
          = cro_words_unserved (model, &g_array_index (breakdown->doubts, CroUnserved, i));

      cro_cli_print_wrapped (text, 0);
    }
}

static void
print_last_prices (const CroBreakdown *breakdown)
{
  for (guint i = 0; i < breakdown->last_prices->len; i++)
    {
      const CroLastPrice *entry = &g_array_index (breakdown->last_prices, CroLastPrice, i);
      g_autofree char *since = cro_date_to_text (entry->since);
      /* Translators: an ingredient, and a date. */
      g_autofree char *text = g_strdup_printf (_("%s: last price, not to be had since %s"),
                                               entry->name, since);

      cro_cli_print_wrapped (text, 0);
    }
}

static void
print_cautions (CroModel     *model,
                CroBreakdown *breakdown)
{
  g_autofree char *allergens = cro_words_allergens (breakdown->allergens);
  g_autofree char *text = g_strdup_printf (_("Allergens entered: %s"), allergens);

  cro_cli_print_wrapped (text, 0);
  print_traces (breakdown);
  print_names (_("Not known for:"), breakdown->allergens_not_known);
  print_names (_("Counted without trim loss, as no trim yield is given:"), breakdown->assumed);
  print_unserved (model, breakdown);
  print_last_prices (breakdown);
  g_print ("\n");
  cro_cli_print_wrapped (cro_words_caution (), 0);
}

void
cro_cli_print_cost_cards (CroCosting *costing)
{
  CroFigures *figures = cro_book_get_figures (costing->book);

  for (guint i = 0; i < costing->plates->len; i++)
    {
      guint32 plate = g_array_index (costing->plates, guint32, i);
      g_autoptr (CroBreakdown) breakdown = cro_breakdown_of_plate (figures, plate);

      if (i > 0)
        g_print ("\n\n");
      print_title (costing, cro_model_recipe (figures->model, plate));
      print_head (figures, breakdown);
      print_parts_of_menus (figures, plate, &breakdown->figure);
      g_print ("\n");
      print_lines (figures, plate);
      g_print ("\n");
      print_ingredients (figures, plate, breakdown);
      g_print ("\n");
      print_cautions (figures->model, breakdown);
    }
}
