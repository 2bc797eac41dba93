/* Where the unit costs of a card come from: what a batch gives, and what was paid. */
#include "config.h"

#include "cro-cli.h"

#include <glib/gi18n.h>

#include "cro-card.h"
#include "cro-cli-grid.h"
#include "cro-code-words.h"
#include "cro-code.h"
#include "cro-decimal.h"
#include "cro-isolate.h"
#include "cro-rule.h"
#include "cro-source-words.h"
#include "cro-sum.h"
#include "cro-words.h"

/* Calls print with every item on the card that is made, or is bought, each once; beneath a title. */
static void
print_each (CroFigures  *figures,
            GArray      *rows,
            gboolean     is_made,
            const char  *title,
            gboolean   (*is_wanted) (CroModel *model, guint32 item),
            void       (*print) (CroFigures *figures, guint32 item))
{
  g_autoptr (GHashTable) seen = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < rows->len; i++)
    {
      guint32 item = g_array_index (rows, CroCardRow, i).item;

      if (item == CRO_NO_SLOT || (figures->model->maker[item] >= 0) != is_made
          || (is_wanted != NULL && !is_wanted (figures->model, item))
          || !g_hash_table_add (seen, GUINT_TO_POINTER (item)))
        continue;
      if (g_hash_table_size (seen) == 1)
        g_print ("%s\n", title);
      print (figures, item);
    }
  if (g_hash_table_size (seen) > 0)
    g_print ("\n");
}

/* --- Batches ------------------------------------------------------------------------------------ */

/* What carries no cost, or an assigned one, says so where it stands. */
static gboolean
bears_cost (CroModel *model,
            guint32   item)
{
  guint8 rule = cro_model_recipe (model, (guint32) model->maker[item])->rule;

  return cro_model_item (model, item)->is_main || cro_rule_shares (rule);
}

static void
add_part (GString *text,
          char    *part)
{
  g_string_append (text, " · ");
  g_string_append (text, part);
  g_free (part);
}

/* "17.36/kg = 13.89 × 75.0 % of the batch ÷ 600 g · by-products by weight". */
static void
print_batch (CroFigures *figures,
             guint32     item)
{
  CroModel *model = figures->model;
  const CroItem *made = cro_model_item (model, item);
  const CroRecipe *recipe = cro_model_recipe (model, (guint32) model->maker[item]);
  g_autoptr (GPtrArray) sum = cro_sum_of_item (figures, item, cro_sum_words ());
  g_autofree char *terms = sum != NULL ? cro_sum_to_text (sum) : g_strdup (_("?"));
  g_autofree char *named = cro_isolate_printf (_("%s: %s"), made->name, terms);
  g_autoptr (GString) text = g_string_new (NULL);

  g_string_append (text, named);
  if (made->output.amount == 0 && made->output.yield > 0)
    {
      g_autofree char *pct = cro_words_decimal (made->output.yield);

      /* Translators: the finished amount of a batch as a part of the mass of its lines. */
      add_part (text, g_strdup_printf (_("%s %% of what goes in"), pct));
    }
  if (recipe->n_outputs > 1)
    /* Translators: how by-products share in the cost: "by weight", "carry no cost". */
    add_part (text, g_strdup_printf (_("by-products: %s"), cro_code_word (cro_rule_codes[recipe->rule])));
  cro_cli_print_wrapped (text->str, 2);
}

/* --- Prices ------------------------------------------------------------------------------------- */

/* Whether the price of a pack and what is in it say it all. */
static gboolean
is_told_by_pack (GPtrArray      *sum,
                 const CroOffer *offer)
{
  guint n = 0;

  for (guint i = 0; i < sum->len; i++)
    n += ((const CroSumToken *) sum->pdata[i])->kind == CRO_SUM_NUMBER;
  return n == (offer->pack_count != CRO_MICRO ? 4 : 3);
}

/* Supplier, pack and date; then what else makes a unit cost of that: net part, tax, rate, density. */
static void
print_price (CroFigures *figures,
             guint32     item)
{
  CroModel *model = figures->model;
  guint32 offer = figures->offer_in_use[item];
  g_autofree char *source = cro_words_price_source (figures, item);
  g_autofree char *text = cro_isolate_printf (_("%s: %s"), cro_model_item (model, item)->name, source);
  g_autoptr (GPtrArray) sum = cro_sum_of_item (figures, item, cro_sum_words ());
  g_autofree char *terms = NULL;

  cro_cli_print_wrapped (text, 2);
  if (sum == NULL || offer == CRO_NO_SLOT
      || is_told_by_pack (sum, &cro_model_offer (model, offer)->offer))
    return;
  terms = cro_sum_to_text (sum);
  cro_cli_print_wrapped (terms, 4);
}

void
cro_cli_print_origins (CroFigures *figures,
                       GArray     *rows)
{
  print_each (figures, rows, TRUE, _("Batches"), bears_cost, print_batch);
  print_each (figures, rows, FALSE, _("Prices"), NULL, print_price);
}
