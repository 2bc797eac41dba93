#include "config.h"

#include "cro-cli-prices.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-cli-grid.h"
#include "cro-decimal.h"
#include "cro-figure-words.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-pack.h"
#include "cro-price-list-words.h"
#include "cro-result-words.h"
#include "cro-words-price.h"
#include "cro-words.h"

enum
{
  NAME,
  PACK,
  LAST,
  PRICE,
  CHANGE,
  STATE,
  N_COLUMNS,
};

enum
{
  MOVED_NAME,
  COST_BEFORE,
  COST,
  RESULT_BEFORE,
  RESULT,
  N_MOVED_COLUMNS,
};

/* Takes number. */
static char *
with_currency (char       *number,
               const char *currency)
{
  char *text = g_strdup_printf ("%s %s", number, currency);

  g_free (number);
  return text;
}

static char *
price_text (CroPricing       *pricing,
            const CroListRow *row,
            gint64            price)
{
  CroModel *model = cro_book_get_model (pricing->book);
  const char *currency = row->currency != NULL ? row->currency : model->currency;
  char *number = cro_words_price_shown (currency, price);

  return g_strcmp0 (currency, model->currency) == 0 ? number : with_currency (number, currency);
}

/* Where the name of the file is another ingredient's it is the one to look for there. */
static gboolean
is_otherwise_named (const CroListRow *row)
{
  for (guint i = 0; row->reasons != NULL && i < row->reasons->len; i++)
    if (g_array_index (row->reasons, CroListReason, i).why == CRO_LIST_OTHER_NAME)
      return TRUE;
  return FALSE;
}

static const char *
name_of (CroPricing       *pricing,
         const CroListRow *row)
{
  if (row->item != CRO_NO_SLOT && !is_otherwise_named (row))
    return cro_model_item (cro_book_get_model (pricing->book), row->item)->name;
  return cro_words_list_name (row);
}

typedef struct
{
  CroPack  pack;
  char    *text;
} PackWords;

/* Many rows of a list have the pack of the row before. */
static char *
dup_pack (PackWords     *words,
          const CroPack *pack)
{
  if (words->text == NULL || words->pack.count != pack->count || words->pack.size != pack->size
      || words->pack.unit != pack->unit)
    {
      g_free (words->text);
      words->text = cro_pack_to_text (pack);
      words->pack = *pack;
    }
  return g_strdup (words->text);
}

static void
add_row (CroGrid          *grid,
         CroPricing       *pricing,
         const CroListRow *row,
         PackWords        *words)
{
  char *cells[N_COLUMNS] = {
    [NAME] = g_strdup (name_of (pricing, row)),
    [PACK] = row->pack.size > 0 ? dup_pack (words, &row->pack) : NULL,
    [LAST] = row->last != CRO_NOT_SET ? price_text (pricing, row, row->last) : NULL,
    [PRICE] = row->has_price && !row->has_per ? price_text (pricing, row, row->price) : NULL,
    [CHANGE] = isnan (row->look.ratio) ? NULL : cro_words_pct_of ((row->look.ratio - 1) * 100, 1),
    [STATE] = g_strdup (cro_words_list_state (row)),
  };

  cro_grid_take_row (grid, 0, cells);
  for (guint i = 0; row->reasons != NULL && i < row->reasons->len; i++)
    {
      g_autofree char *note = cro_words_list_reason (cro_book_get_model (pricing->book), pricing->list, row,
                                                     &g_array_index (row->reasons, CroListReason, i));

      cro_grid_add_note (grid, 2, note);
    }
}

static void
print_rows (CroPricing *pricing)
{
  const char *titles[N_COLUMNS] = {
    [NAME] = _("Ingredient"), [PACK] = _("Pack"), [LAST] = C_("price", "Last"), [PRICE] = _("Price"),
    [CHANGE] = _("Change"), [STATE] = _("Status"),
  };
  g_autoptr (CroGrid) grid = cro_grid_new (N_COLUMNS);
  PackWords words = { .text = NULL };

  cro_grid_add_head (grid, titles);
  for (guint i = 0; i < pricing->list->rows->len; i++)
    add_row (grid, pricing, &g_array_index (pricing->list->rows, CroListRow, i), &words);
  g_free (words.text);
  cro_grid_print (grid);
}

/* Whether it is shown as it was before. */
static gboolean
is_alike (const CroMovedPlate *moved,
          char *const         *cells)
{
  return !moved->goes_over && g_strcmp0 (cells[COST_BEFORE], cells[COST]) == 0
         && g_strcmp0 (cells[RESULT_BEFORE], cells[RESULT]) == 0;
}

/* FALSE: nothing of it is seen to change, and it is not printed. */
static gboolean
add_moved (CroGrid             *grid,
           CroModel            *model,
           const CroMovedPlate *moved)
{
  char *cells[N_MOVED_COLUMNS] = {
    [MOVED_NAME] = g_strdup (moved->after.name),
    [COST_BEFORE] = cro_words_cost_short (model, &moved->before),
    [COST] = cro_words_cost_short (model, &moved->after),
    [RESULT_BEFORE] = cro_words_result_short (model, &moved->before),
    [RESULT] = cro_words_result_short (model, &moved->after),
  };

  if (is_alike (moved, cells))
    {
      for (guint i = 0; i < N_MOVED_COLUMNS; i++)
        g_free (cells[i]);
      return FALSE;
    }
  cro_grid_take_row (grid, 0, cells);
  if (moved->goes_over)
    cro_grid_add_note (grid, 2, model->speaks == CRO_SPEAKS_FOOD_COST ? _("goes over its target")
                                                                      : _("goes below its target"));
  return TRUE;
}

static void
print_moved (CroPricing *pricing)
{
  CroModel *model = cro_book_get_model (pricing->book);
  g_autoptr (CroGrid) grid = cro_grid_new (N_MOVED_COLUMNS);
  const char *titles[N_MOVED_COLUMNS] = {
    [MOVED_NAME] = _("Plate or menu"), [COST_BEFORE] = C_("cost of a plate", "Per guest"), [COST] = C_("price", "To"),
    [RESULT_BEFORE] = cro_words_result_title (model), [RESULT] = C_("price", "To"),
  };
  guint n_alike = 0;

  if (pricing->moved->len == 0)
    return;
  cro_grid_add_gap (grid);
  cro_grid_add_head (grid, titles);
  for (guint i = 0; i < pricing->moved->len; i++)
    n_alike += !add_moved (grid, model, &g_array_index (pricing->moved, CroMovedPlate, i));
  if (n_alike < pricing->moved->len)
    cro_grid_print (grid);
  if (n_alike > 0)
    {
      g_autofree char *others = cro_words_moved_unseen (n_alike);

      cro_cli_print_wrapped (others, 0);
    }
}

static void
print_reclaim (CroPricing *pricing)
{
  g_autofree char *all = cro_words_list_reclaim_all (pricing->list);
  gboolean is_first = TRUE;

  for (guint i = 0; i < pricing->list->rows->len; i++)
    {
      g_autofree char *line = cro_words_list_reclaim (cro_book_get_model (pricing->book), pricing->list,
                                                      &g_array_index (pricing->list->rows, CroListRow, i));

      if (line == NULL)
        continue;
      if (is_first)
        g_print ("\n%s\n", _("Billed against quoted"));
      is_first = FALSE;
      cro_cli_print_wrapped (line, 2);
    }
  if (all != NULL)
    cro_cli_print_wrapped (all, 0);
}

void
cro_cli_print_prices_table (CroPricing *pricing)
{
  print_rows (pricing);
  if (pricing->moved != NULL)
    print_moved (pricing);
  print_reclaim (pricing);
}
