#include "config.h"

#include "cro-cli.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-card-words.h"
#include "cro-card.h"
#include "cro-cli-grid.h"
#include "cro-decimal.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-kind.h"
#include "cro-landing.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-result-words.h"
#include "cro-source-words.h"
#include "cro-sum.h"
#include "cro-words.h"

/* --- Head ------------------------------------------------------------------------------------------ */

static void
print_title (CroCosting      *costing,
             const CroRecipe *plate)
{
  CroModel *model = cro_book_get_model (costing->book);
  g_autofree char *question = cro_words_card_prices (costing->book);
  g_autofree char *makes = cro_number_to_text (cro_decimal_to_double (plate->makes), 2, TRUE);
  g_autofree char *each = cro_number_to_text (cro_decimal_to_double (plate->per_guest), 2, TRUE);

  cro_cli_print_wrapped (plate->name, 0);
  /* Translators: a number of bites; how many of them a guest gets; what was asked for ("prices of
   * 1 March 2026"); a currency. */
  g_print (_("makes %s, %s per guest; %s, %s\n\n"), makes, each, question,
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

/* Where it is not the sum of food and labour as they stand above it, the digits that say why follow:
 * each of the three is rounded by itself, as each is shown in other places too. labour: NULL, where there
 * is none. */
static char *
dup_prime (CroFigures *figures,
           CroRef      thing,
           const char *cost,
           const char *labour)
{
  g_autoptr (GPtrArray) sum = cro_sum_of_prime_cost (figures, thing, NULL);
  g_autofree char *terms = cro_sum_to_terms (sum);
  g_autofree char *above = g_strdup_printf ("%s + %s", cost, labour != NULL ? labour : "");

  return labour == NULL || strcmp (terms, above) == 0 ? g_strdup (cro_sum_get_figure (sum)) : cro_sum_to_text (sum);
}

static void
print_head (CroFigures   *figures,
            CroRef        thing,
            CroBreakdown *breakdown)
{
  CroModel *model = figures->model;
  const CroFigure *figure = &breakdown->figure;
  g_autoptr (CroGrid) grid = cro_grid_new (2);
  g_autofree char *missing = cro_words_missing (figure, breakdown->missing);
  char *range = cro_words_range (model, figure);
  char *cost = cro_words_cost (model, figure);
  CroKnown of_labour = cro_known_of_labour (model, figure, breakdown->missing);
  gboolean has_labour = cro_known_has_labour (model, figure->labour, of_labour);
  char *labour = has_labour
                     ? cro_words_known_money (model, of_labour, figure->labour)
                     : NULL;
  char *prime = dup_prime (figures, thing, cost, labour);

  if (!isnan (figure->bite))
    add_pair (grid, _("Food cost per bite"), cro_words_bite (model, figure));
  add_pair (grid, _("Food cost per guest"), cost);
  if (range != NULL)
    add_pair (grid, _("By choice"), range);
  add_pair (grid, _("Labour"), labour != NULL ? labour : g_strdup ("–"));
  add_pair (grid, _("Prime cost (food and labour)"), prime);
  add_pair (grid, _("Disposables"),
            cro_words_known_money (
                model, cro_known_of_disposables (figures, thing, figure, breakdown->missing),
                figure->disposables));
  /* What menus carry has its price there. */
  if (!isnan (figure->price_for_target)
      && (!isnan (figure->net_price) || thing.kind == CRO_REF_MENU
          || !cro_kind_is_used (figures, CRO_KIND_PLATE, thing.slot)))
    add_pair (grid, _("Price that meets the target, with tax"), cro_words_price_for_target (model, figure));
  if (!isnan (figure->net_price))
    {
      add_pair (grid, _("Net price"), cro_words_money (model, figure->net_price));
      add_pair (grid, cro_words_result_title (model), cro_words_result (model, figure));
      add_pair (grid, _("Target"), cro_words_target (model, figure));
    }
  cro_grid_print (grid);
  if (cro_words_untaxed (figure) != NULL && (!isnan (figure->net_price) || !isnan (figure->price_for_target)))
    cro_cli_print_wrapped (cro_words_untaxed (figure), 0);
  if (!has_labour)
    cro_cli_print_wrapped (cro_words_no_minutes (), 0);
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
      g_autofree char *of_price = NULL, *of_cost = NULL, *result = NULL, *target = NULL, *text = NULL;
      g_autofree char *menu = NULL;

      if (entry->is_dead || entry->plate != plate)
        continue;
      part = cro_part_of_menu (figures, entry, figure);
      of_price = cro_words_part_of_price (&part, figure);
      of_cost = cro_words_part_of_cost (&part, figure);
      result = cro_words_result (model, &part.menu);
      target = cro_words_target (model, &part.menu);
      menu = cro_words_place_on_menu (model, entry);
      /* Translators: a menu, “food cost”, that in per cent and its target; the part of the menu's net
       * price and of its cost that this plate takes. */
      text = cro_isolate_printf (_("In %s (%s %s, target %s): %s of its net price, %s of its cost."),
                                 menu, cro_words_result_name (model), result, target, of_price,
                                 of_cost);
      cro_cli_print_wrapped (text, 0);
    }
}

/* --- Lines ------------------------------------------------------------------------------------------ */

static void
add_row (CroGrid          *grid,
         CroFigures       *figures,
         guint32           plate,
         const CroCardRow *row,
         gint64            minor,
         double            share)
{
  CroModel *model = figures->model;
  CroKnown known = cro_known_of_card_row (figures, plate, row);
  g_autofree char *money = cro_money_to_text (minor, cro_currency_digits (model->currency));
  g_autofree char *factors = row->line != CRO_NO_SLOT
                                 ? cro_words_line_factors (figures, row->line, row->depth > 0)
                                 : NULL;
  char *cells[] = {
    cro_words_card_name (model, plate, row),
    cro_words_card_amount (model, row),
    cro_words_known (known, money),
    cro_words_card_share (figures, plate, row, share, FALSE),
  };

  cro_grid_take_row (grid, 2 * MIN (row->depth, 12), cells);
  if (factors != NULL)
    cro_grid_add_note (grid, 2 * MIN (row->depth, 12) + 2, factors);
}

static void
print_lines (CroFigures *figures,
             guint32     plate,
             GArray     *rows)
{
  CroModel *model = figures->model;
  const CroRecipe *recipe = cro_model_recipe (model, plate);
  double total = cro_landing_total (figures, plate) + cro_landing_allowance (figures, plate);
  int digits = cro_currency_digits (model->currency);
  gint64 total_minor = cro_money_round (total, digits);
  g_autofree gint64 *minor = cro_card_dup_minor (rows, total_minor, digits);
  g_autofree double *shares = cro_card_dup_shares (rows, total);
  g_autoptr (CroGrid) grid = cro_grid_new (4);
  g_autofree char *makes = cro_words_decimal (recipe->makes);
  /* Translators: a number of bites. */
  g_autofree char *title = g_strdup_printf (_("Made of, for %s"), makes);
  const char *titles[] = { title, _("amount"), _("cost"), _("share") };
  g_autofree char *money = cro_money_to_text (total_minor, digits);
  char *sum[] = { g_strdup (_("Food and disposables")), NULL,
                  cro_words_known (cro_known_of_recipe (figures, plate), money), NULL };

  cro_grid_add_head (grid, titles);
  for (guint i = 0; i < rows->len; i++)
    add_row (grid, figures, plate, &g_array_index (rows, CroCardRow, i), minor[i], shares[i]);
  cro_grid_take_row (grid, 0, sum);
  cro_grid_print (grid);
}

/* A menu is its plates; what they are made of stands on their own cards. */
static void
print_plates (CroFigures      *figures,
              guint32          menu,
              const CroFigure *figure)
{
  CroModel *model = figures->model;
  g_autoptr (GPtrArray) plates = cro_menu_dup_plates (model, menu);
  g_autofree gint64 *minor = cro_menu_dup_minor (figures, menu);
  int digits = cro_currency_digits (model->currency);
  g_autoptr (CroGrid) grid = cro_grid_new (4);
  const char *titles[] = { _("Made of, per guest"), _("servings"), _("cost"), _("share") };
  char *sum[] = { g_strdup (_("Food")), NULL, cro_words_cost (model, figure), NULL };

  cro_grid_add_head (grid, titles);
  for (guint i = 0; i < plates->len; i++)
    {
      const CroMenuPlate *entry = plates->pdata[i];
      CroFigure plate = cro_figure_of_plate (figures, entry->plate);
      CroPartOfMenu part = cro_part_of_menu (figures, entry, &plate);
      g_autofree char *money = cro_money_to_text (minor[i], digits);
      g_autofree char *taken = cro_words_taken (model, entry);
      char *cells[] = { g_strdup (plate.name), cro_words_decimal (entry->servings),
                        cro_words_known (cro_known_of_cost (&plate), money),
                        cro_words_part_of_cost (&part, &plate) };

      cro_grid_take_row (grid, 0, cells);
      if (taken != NULL)
        cro_grid_add_note (grid, 2, taken);
    }
  cro_grid_take_row (grid, 0, sum);
  cro_grid_print (grid);
}

/* --- Cautions -------------------------------------------------------------------------------------------- */

static void
print_cautions (CroBook      *book,
                CroRef        thing,
                CroBreakdown *breakdown)
{
  g_autoptr (GPtrArray) lines = cro_words_below_card (book, thing, breakdown);

  for (guint i = 0; i < lines->len; i++)
    cro_cli_print_wrapped (lines->pdata[i], 0);
  g_print ("\n");
  cro_cli_print_wrapped (cro_words_caution (), 0);
}

static void
print_plate (CroCosting *costing,
             guint32     plate)
{
  CroFigures *figures = cro_book_get_figures (costing->book);
  g_autoptr (CroBreakdown) breakdown = cro_breakdown_of_plate (figures, plate);
  g_autoptr (GArray) ceilings = cro_ceilings_of_plate (figures, plate, breakdown);
  g_autoptr (GArray) rows = cro_card_new (figures, plate);

  print_title (costing, cro_model_recipe (figures->model, plate));
  print_head (figures, CRO_REF (CRO_REF_RECIPE, plate), breakdown);
  print_parts_of_menus (figures, plate, &breakdown->figure);
  g_print ("\n");
  print_lines (figures, plate, rows);
  g_print ("\n");
  cro_cli_print_movers (figures, CRO_REF (CRO_REF_RECIPE, plate), breakdown, ceilings);
  cro_cli_print_origins (figures, rows);
  print_cautions (costing->book, CRO_REF (CRO_REF_RECIPE, plate), breakdown);
}

static void
print_menu (CroCosting *costing,
            guint32     menu)
{
  CroFigures *figures = cro_book_get_figures (costing->book);
  g_autoptr (CroBreakdown) breakdown = cro_breakdown_of_menu (figures, menu);
  g_autoptr (GArray) ceilings = cro_ceilings_of_menu (figures, menu, breakdown);
  g_autofree char *question = cro_words_card_prices (costing->book);

  cro_cli_print_wrapped (breakdown->figure.name, 0);
  g_print ("%s, %s\n\n", question,
           figures->model->currency != NULL ? figures->model->currency : _("no currency"));
  print_head (figures, CRO_REF (CRO_REF_MENU, menu), breakdown);
  g_print ("\n");
  print_plates (figures, menu, &breakdown->figure);
  g_print ("\n");
  cro_cli_print_movers (figures, CRO_REF (CRO_REF_MENU, menu), breakdown, ceilings);
  print_cautions (costing->book, CRO_REF (CRO_REF_MENU, menu), breakdown);
}

void
cro_cli_print_cost_cards (CroCosting *costing)
{
  for (guint i = 0; i < costing->plates->len + costing->menus->len; i++)
    {
      if (i > 0)
        g_print ("\n\n");
      if (i < costing->plates->len)
        print_plate (costing, g_array_index (costing->plates, guint32, i));
      else
        print_menu (costing, g_array_index (costing->menus, guint32, i - costing->plates->len));
    }
}
