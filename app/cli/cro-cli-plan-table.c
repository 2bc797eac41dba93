#include "config.h"

#include "cro-cli.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-cli-grid.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-plan-words.h"
#include "cro-service-orders.h"
#include "cro-words.h"

/* --- What is asked ----------------------------------------------------------------------------------- */

static void
print_title (CroPlanning *planning)
{
  CroModel *model = cro_book_get_model (planning->book);
  const char *book = model->name != NULL ? model->name : _("Book");
  const char *currency = model->currency != NULL ? model->currency : _("no currency");
  g_autofree char *prices = cro_date_to_text (planning->date);
  g_autofree char *title = NULL;

  if (planning->name != NULL)
    {
      g_autofree char *day = cro_date_to_text (planning->day);

      /* Translators: a book, a service ("dinner"), its date, the date of prices, a currency. */
      title = cro_isolate_printf (_("%s, %s on %s, prices of %s, %s"), book, planning->name, day,
                                  prices, currency);
    }
  else
    /* Translators: a book, the date of prices, a currency. */
    title = cro_isolate_printf (_("%s, plan, prices of %s, %s"), book, prices, currency);
  cro_cli_print_wrapped (title, 0);
  g_print ("\n");
}

static void
print_covers (CroPlanning *planning)
{
  const char *titles[] = { _("For"), _("covers") };
  GArray *covers = planning->service->covers;
  g_autoptr (CroGrid) grid = cro_grid_new (2);

  cro_grid_add_head (grid, titles);
  for (guint i = 0; i < covers->len; i++)
    {
      const CroCovers *one = &g_array_index (covers, CroCovers, i);
      char *cells[] = { g_strdup (cro_ref_name (cro_book_get_model (planning->book), one->thing)),
                        cro_words_decimal (one->covers) };

      cro_grid_take_row (grid, 0, cells);
    }
  cro_grid_print (grid);
  g_print ("\n");
}

static void
print_in_house (CroPlanning *planning)
{
  const char *titles[] = { _("In stock already"), _("amount") };
  GArray *in_house = planning->service->in_house;
  g_autoptr (CroGrid) grid = cro_grid_new (2);

  if (in_house->len == 0)
    return;
  cro_grid_add_head (grid, titles);
  for (guint i = 0; i < in_house->len; i++)
    {
      const CroInHouse *one = &g_array_index (in_house, CroInHouse, i);
      g_autofree char *amount = cro_words_decimal (one->amount);
      char *cells[] = {
        g_strdup (cro_model_item (cro_book_get_model (planning->book), one->item)->name),
        g_strdup_printf ("%s %s", amount, cro_words_unit (one->unit))
      };

      cro_grid_take_row (grid, 0, cells);
    }
  cro_grid_print (grid);
  g_print ("\n");
}

/* --- To make ------------------------------------------------------------------------------------------ */

static char *
amount_of (CroModel *model,
           guint32   item,
           double    amount)
{
  return cro_words_amount ((CroBase) model->measures[item].base, amount);
}

static CroKnown
known_of_left (CroKnown known)
{
  return known == CRO_KNOWN_WHOLE || known == CRO_KNOWN_NOTHING ? known : CRO_KNOWN_IN_PART;
}

static void
add_output (CroGrid             *grid,
            CroModel            *model,
            CroKnown             known,
            const CroPlanOutput *output)
{
  const char *name = cro_model_item (model, output->item)->name;
  g_autofree char *made = NULL, *left = NULL, *text = NULL;

  if (isnan (output->made) || known == CRO_KNOWN_NOTHING)
    return;
  made = cro_words_take_short (known, amount_of (model, output->item, output->made));
  if (output->left > 0)
    {
      left = cro_words_take_short (output->known_left, amount_of (model, output->item, output->left));
      /* Translators: what a preparation gives, how much of it is made, how much is left of that. */
      text = cro_isolate_printf (_("%s: %s, left %s"), name, made, left);
    }
  else
    /* Translators: what a preparation gives, and how much of it is made. */
    text = cro_isolate_printf (_("%s: %s"), name, made);
  cro_grid_add_note (grid, 2, text);
}

static void
add_make (CroGrid           *grid,
          CroServicePlan    *plan,
          const CroPlanMake *make)
{
  CroModel *model = plan->figures->model;
  const CroRecipe *recipe = cro_model_recipe (model, make->recipe);
  char *cells[] = {
    g_strdup (recipe->name),
    cro_words_take_short (make->known, cro_words_three_digits (make->runs)),
    cro_words_take_short (make->known, cro_words_three_digits (make->batches)),
    recipe->active_minutes > 0
        ? cro_words_take_short (make->known, cro_number_to_text (make->minutes, 0, TRUE))
        : NULL,
  };

  cro_grid_take_row (grid, 0, cells);
  for (guint i = 0; i < make->n_outputs; i++)
    add_output (grid, model, make->known,
                &g_array_index (plan->outputs, CroPlanOutput, make->first_output + i));
}

static void
print_make (CroServicePlan *plan)
{
  /* Translators: heads of columns: batches needed, batches made, minutes of work. */
  const char *titles[] = { _("Make, in this order"), _("needed"), _("batches"), _("minutes") };
  g_autoptr (CroGrid) grid = cro_grid_new (4);

  if (plan->make->len == 0)
    {
      cro_cli_print_wrapped (_("There is nothing to make."), 0);
      g_print ("\n");
      return;
    }
  cro_grid_add_head (grid, titles);
  for (guint i = 0; i < plan->make->len; i++)
    add_make (grid, plan, &g_array_index (plan->make, CroPlanMake, i));
  /* Where nobody entered minutes 0 would be taken for a sum. */
  if (plan->minutes > 0 || plan->known_minutes != CRO_KNOWN_WHOLE)
    {
      char *sum[] = { g_strdup (_("Total")), NULL, NULL,
                      cro_words_take_short (plan->known_minutes, cro_number_to_text (plan->minutes, 0, TRUE)) };

      cro_grid_take_row (grid, 0, sum);
    }
  cro_grid_print (grid);
  g_print ("\n");
}

/* --- To buy ------------------------------------------------------------------------------------------- */

static void
add_note (CroGrid *grid,
          char    *note)
{
  g_autofree char *owned = note;

  if (note != NULL)
    cro_grid_add_note (grid, 2, note);
}

static void
add_buy (CroGrid          *grid,
         CroModel         *model,
         const CroPlanBuy *buy,
         char             *money)
{
  char *cells[] = {
    g_strdup (cro_model_item (model, buy->item)->name),
    cro_words_take_short (buy->known, cro_number_to_text (buy->packs, 0, TRUE)),
    cro_words_take_short (buy->known, amount_of (model, buy->item, buy->needed)),
    cro_words_take_short (known_of_left (buy->known), amount_of (model, buy->item, buy->left)),
    money,
  };

  cro_grid_take_row (grid, 0, cells);
  add_note (grid, cro_words_order_pack (model, buy));
}

static void
add_order (CroGrid            *grid,
           CroServicePlan     *plan,
           const CroPlanOrder *order,
           gint64              total,
           const gint64       *rows)
{
  CroModel *model = plan->figures->model;
  int digits = cro_currency_digits (model->currency);
  const char *titles[] = { g_array_index (model->suppliers, CroSupplier, order->supplier).name,
                           _("packs"), _("needed"), _("left"), _("cost") };
  char *sum[] = { g_strdup (_("Total")), NULL, NULL, NULL,
                  cro_words_take_short (order->known, cro_money_to_text (total, digits)) };

  cro_grid_add_head (grid, titles);
  for (guint i = order->first_buy; i < order->first_buy + order->n_buys; i++)
    {
      const CroPlanBuy *buy = &g_array_index (plan->buy, CroPlanBuy, i);

      add_buy (grid, model, buy,
               cro_words_take_short (buy->known, cro_money_to_text (rows[i], digits)));
    }
  cro_grid_take_row (grid, 0, sum);
  add_note (grid, cro_words_order_free (order));
  add_note (grid, cro_words_order_minimum (model, order));
  add_note (grid, cro_words_order_charge (model, order));
  cro_grid_add_gap (grid);
}

/* What nobody delivers: listed without a sum. */
static void
add_not_to_be_had (CroGrid        *grid,
                   CroServicePlan *plan)
{
  CroModel *model = plan->figures->model;
  const char *titles[] = { _("No pack to order"), NULL, _("needed"), NULL, NULL };
  gboolean has_head = FALSE;

  for (guint i = 0; i < plan->buy->len; i++)
    {
      const CroPlanBuy *buy = &g_array_index (plan->buy, CroPlanBuy, i);
      char *cells[5] = { NULL };

      if (buy->offer != CRO_NO_SLOT)
        continue;
      if (!has_head)
        cro_grid_add_head (grid, titles);
      has_head = TRUE;
      cells[0] = g_strdup (cro_model_item (model, buy->item)->name);
      cells[2] = cro_words_take_short (buy->known, amount_of (model, buy->item, buy->needed));
      cro_grid_take_row (grid, 0, cells);
      add_note (grid, cro_words_order_pack (model, buy));
    }
  if (has_head)
    cro_grid_add_gap (grid);
}

static void
print_buy (CroServicePlan *plan)
{
  guint n = plan->orders->len;
  g_autofree gint64 *totals = g_new (gint64, n + 1);
  g_autofree gint64 *rows = g_new (gint64, plan->buy->len + 1);
  g_autoptr (CroGrid) grid = cro_grid_new (5);

  if (plan->buy->len == 0)
    {
      cro_cli_print_wrapped (_("There is nothing to buy."), 0);
      g_print ("\n");
      return;
    }
  cro_plan_apportion (plan, cro_currency_digits (plan->figures->model->currency), totals, rows);
  for (guint i = 0; i < n; i++)
    add_order (grid, plan, &g_array_index (plan->orders, CroPlanOrder, i), totals[i], rows);
  add_not_to_be_had (grid, plan);
  cro_grid_print (grid);
}

/* What guests choose is not known before; of choices that cost the same nothing is said. */
static void
print_range (CroServicePlan *plan)
{
  CroModel *model = plan->figures->model;
  g_autofree char *from = NULL, *to = NULL, *text = NULL;

  if (isnan (plan->cheapest))
    return;
  from = cro_words_known_money (model, plan->known_theoretical, plan->cheapest);
  to = cro_words_known_money (model, plan->known_theoretical, plan->dearest);
  if (g_str_equal (from, to))
    return;
  /* Translators: money: what the recipes cost if all guests choose the cheapest, and the dearest. */
  text = g_strdup_printf (_("By the guests’ choices: %s to %s."), from, to);
  cro_cli_print_wrapped (text, 0);
}

void
cro_cli_print_plan_table (CroPlanning *planning)
{
  CroServicePlan *plan = planning->plan;
  CroModel *model = plan->figures->model;
  g_autofree char *packs = cro_words_known_money (model, plan->known_cost, plan->cost);
  g_autofree char *recipes = cro_words_known_money (model, plan->known_theoretical,
                                                    plan->theoretical);
  g_autofree char *allowance = cro_words_plan_allowance (model, planning->service);
  g_autofree char *text = NULL;

  print_title (planning);
  print_covers (planning);
  print_in_house (planning);
  print_make (plan);
  print_buy (plan);
  /* Translators: both %s are money: whole packs, and what the recipes take. */
  text = g_strdup_printf (_("All packs: %s. Food and disposables by the recipes: %s."), packs, recipes);
  cro_cli_print_wrapped (text, 0);
  print_range (plan);
  if (allowance != NULL)
    cro_cli_print_wrapped (allowance, 0);
}
