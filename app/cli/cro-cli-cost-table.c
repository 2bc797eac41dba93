#include "config.h"

#include "cro-cli.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-card-words.h"
#include "cro-cli-grid.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-result-words.h"
#include "cro-words.h"

enum
{
  NAME,
  BITE,
  GUEST,
  RESULT,
  TARGET,
  PRIME,
  N_COLUMNS,
};

static void
add_figure (CroGrid         *grid,
            CroModel        *model,
            const CroFigure *figure,
            GArray          *missing)
{
  CroKnown known = cro_known_of_cost (figure);
  char *cells[N_COLUMNS] = {
    [NAME] = g_strdup (figure->name),
    [BITE] = isnan (figure->bite) ? NULL
                                  : cro_words_take_short (known, cro_words_money (model, figure->bite)),
    [GUEST] = cro_words_cost_short (model, figure),
    [RESULT] = cro_words_result_short (model, figure),
    [TARGET] = isnan (figure->net_price) ? cro_words_pct (NAN) : cro_words_target (model, figure),
    [PRIME] = cro_words_take_short (cro_known_of_prime (figure),
                                    cro_words_money (model, figure->cost + figure->labour)),
  };
  g_autofree char *what = cro_words_missing (figure, missing);

  g_autofree char *range = cro_words_range (model, figure);

  cro_grid_take_row (grid, 0, cells);
  if (range != NULL)
    {
      /* Translators: the cost of a menu with its cheapest and its dearest choices. */
      g_autofree char *note = g_strdup_printf (_("by choice: %s"), range);

      cro_grid_add_note (grid, 2, note);
    }
  if (what != NULL)
    cro_grid_add_note (grid, 2, what);
  if (figure->is_over_target)
    {
      g_autofree char *over = cro_words_spare_money (model, figure);
      /* Translators: %s is money. */
      g_autofree char *note = g_strdup_printf (model->speaks == CRO_SPEAKS_FOOD_COST
                                                   ? _("%s per guest over target")
                                                   : _("%s per guest below target"),
                                               over);

      cro_grid_add_note (grid, 2, note);
    }
}

/* The part of each menu that a plate without a price of its own takes. */
static void
add_parts_of_menus (CroGrid         *grid,
                    CroFigures      *figures,
                    guint32          plate,
                    const CroFigure *figure)
{
  CroModel *model = figures->model;

  for (guint i = 0; i < model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, i);
      CroPartOfMenu part;
      g_autofree char *of_price = NULL, *of_cost = NULL, *menu = NULL, *note = NULL;

      if (entry->is_dead || entry->plate != plate)
        continue;
      part = cro_part_of_menu (figures, entry, figure);
      of_price = cro_words_part_of_price (&part, figure);
      of_cost = cro_words_part_of_cost (&part, figure);
      menu = cro_words_place_on_menu (figures->model, entry);
      /* Translators: a menu; the part of its net price and the part of its cost that a plate takes. */
      note = cro_isolate_printf (_("in %s: %s of its net price, %s of its cost"), menu,
                                 of_price, of_cost);
      cro_grid_add_note (grid, 2, note);
    }
}

static void
print_title (CroCosting *costing)
{
  CroModel *model = cro_book_get_model (costing->book);
  g_autofree char *question = cro_words_card_prices (costing->book);
  g_autofree char *title = NULL;

  /* Translators: the name of a book, what was asked for ("prices of 1 March 2026"), a currency. */
  title = cro_isolate_printf (_("%s, %s, %s"), model->name != NULL ? model->name : _("Book"), question,
                              model->currency != NULL ? model->currency : _("no currency"));
  cro_cli_print_wrapped (title, 0);
  g_print ("\n");
}

static void
add_plates (CroCosting *costing,
            CroGrid    *grid)
{
  const char *titles[N_COLUMNS] = {
    [NAME] = _("Plate"),
    [BITE] = _("per bite"),
    [GUEST] = _("per guest"),
    [RESULT] = cro_words_result_name (cro_book_get_model (costing->book)),
    [TARGET] = _("target"),
    [PRIME] = _("prime cost"),
  };
  CroFigures *figures = cro_book_get_figures (costing->book);

  cro_grid_add_head (grid, titles);
  for (guint i = 0; i < costing->plates->len; i++)
    {
      guint32 plate = g_array_index (costing->plates, guint32, i);
      CroFigure figure = cro_figure_of_plate (figures, plate);
      g_autoptr (GArray) missing = cro_causes_of_plate (figures, plate);

      add_figure (grid, figures->model, &figure, missing);
      if (isnan (figure.net_price))
        add_parts_of_menus (grid, figures, plate, &figure);
    }
}

static void
add_menus (CroCosting *costing,
           CroGrid    *grid)
{
  const char *titles[N_COLUMNS] = { [NAME] = _("Menu") };
  CroFigures *figures = cro_book_get_figures (costing->book);

  cro_grid_add_gap (grid);
  cro_grid_add_head (grid, titles);
  for (guint i = 0; i < costing->menus->len; i++)
    {
      guint32 menu = g_array_index (costing->menus, guint32, i);
      CroFigure figure = cro_figure_of_menu (figures, menu);
      g_autoptr (GArray) missing = cro_causes_of_menu (figures, menu);

      add_figure (grid, figures->model, &figure, missing);
    }
}

/* Said once, as it is the book's. */
static gboolean
has_untaxed (CroCosting *costing)
{
  CroFigures *figures = cro_book_get_figures (costing->book);
  gboolean is_untaxed = FALSE;

  for (guint i = 0; i < costing->plates->len && !is_untaxed; i++)
    {
      CroFigure figure = cro_figure_of_plate (figures, g_array_index (costing->plates, guint32, i));

      is_untaxed = figure.is_untaxed && !isnan (figure.net_price);
    }
  for (guint i = 0; i < costing->menus->len && !is_untaxed; i++)
    {
      CroFigure figure = cro_figure_of_menu (figures, g_array_index (costing->menus, guint32, i));

      is_untaxed = figure.is_untaxed && !isnan (figure.net_price);
    }
  return is_untaxed;
}

void
cro_cli_print_cost_table (CroCosting *costing)
{
  g_autoptr (CroGrid) grid = cro_grid_new (N_COLUMNS);

  print_title (costing);
  if (costing->plates->len == 0)
    {
      cro_cli_print_wrapped (_("There are no plates in this book yet."), 0);
      return;
    }
  add_plates (costing, grid);
  if (costing->menus->len > 0)
    add_menus (costing, grid);
  cro_grid_print (grid);
  if (has_untaxed (costing))
    cro_cli_print_wrapped (_("No tax is set in the book: where a plate or menu has none of its own, it is counted as "
                             "0."), 0);
}
