#include "config.h"

#include "cro-cli.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-finite.h"
#include "cro-isolate.h"
#include "cro-result-words.h"
#include "cro-words.h"

static void
choose_all (CroModel *model,
            GArray   *plates,
            GArray   *menus)
{
  for (guint32 i = 0; i < model->recipes->len; i++)
    if (cro_model_recipe (model, i)->is_plate && !cro_model_recipe (model, i)->is_dead)
      g_array_append_val (plates, i);
  for (guint32 i = 0; i < model->menus->len; i++)
    if (!cro_model_menu (model, i)->is_dead)
      g_array_append_val (menus, i);
}

static gboolean
choose (CroCosting  *costing,
        char       **plates,
        char       **menus)
{
  guint32 slot;

  for (; plates != NULL && *plates != NULL; plates++)
    {
      if (!cro_cli_find (costing->book, CRO_CLI_PLATES, *plates, NULL, &slot))
        return FALSE;
      g_array_append_val (costing->plates, slot);
    }
  for (; menus != NULL && *menus != NULL; menus++)
    {
      if (!cro_cli_find (costing->book, CRO_CLI_MENUS, *menus, NULL, &slot))
        return FALSE;
      g_array_append_val (costing->menus, slot);
    }
  if (costing->is_whole)
    choose_all (cro_book_get_model (costing->book), costing->plates, costing->menus);
  return TRUE;
}

/* Names on standard error what keeps a figure from being whole, or within its limit. */
static gboolean
is_well (CroModel        *model,
         const CroFigure *figure,
         GArray          *missing)
{
  g_autofree char *name = cro_isolate (figure->name);

  for (guint i = 0; i < missing->len; i++)
    {
      g_autofree char *cause = cro_words_cause (&g_array_index (missing, CroCause, i));

      g_printerr (_("%s: incomplete: %s\n"), name, cause);
    }
  if (figure->is_over_target && !(figure->net_price > 0))
    g_printerr (model->speaks == CRO_SPEAKS_FOOD_COST
                    /* Translators: a plate or a menu. */
                    ? _("%s: over its target: its price is 0\n")
                    : _("%s: below its target: its price is 0\n"),
                name);
  else if (figure->is_over_target)
    {
      g_autofree char *result = cro_words_result (model, figure);
      g_autofree char *target = cro_words_target (model, figure);

      /* Translators: a plate or a menu, “food cost”, that in per cent and the target of it. */
      g_printerr (model->speaks == CRO_SPEAKS_FOOD_COST
                      ? _("%s: over its target: %s %s, target %s\n")
                      : _("%s: below its target: %s %s, target %s\n"),
                  name, cro_words_result_name (model), result, target);
    }
  return missing->len == 0 && !figure->is_over_target;
}

static gboolean
is_plate_well (CroFigures *figures,
               guint32     plate)
{
  CroFigure figure = cro_figure_of_plate (figures, plate);
  g_autoptr (GArray) missing = cro_causes_of_plate (figures, plate);

  return is_well (figures->model, &figure, missing);
}

static gboolean
is_menu_well (CroFigures *figures,
              guint32     menu)
{
  CroFigure figure = cro_figure_of_menu (figures, menu);
  g_autoptr (GArray) missing = cro_causes_of_menu (figures, menu);

  return is_well (figures->model, &figure, missing);
}

static gboolean
is_batch_well (CroFigures *figures,
               guint32     preparation)
{
  g_autoptr (CroBreakdown) batch = cro_breakdown_of_batch (figures, preparation);

  return is_well (figures->model, &batch->figure, batch->missing);
}

gboolean
cro_cli_is_well (CroFigures *figures,
                 CroRef      thing)
{
  if (thing.kind == CRO_REF_MENU)
    return is_menu_well (figures, thing.slot);
  return cro_model_recipe (figures->model, thing.slot)->is_plate
             ? is_plate_well (figures, thing.slot)
             : is_batch_well (figures, thing.slot);
}

static gboolean
are_well (CroFigures *figures,
          GArray     *plates,
          GArray     *menus)
{
  gboolean well = TRUE;

  for (guint i = 0; i < plates->len; i++)
    well &= is_plate_well (figures, g_array_index (plates, guint32, i));
  for (guint i = 0; i < menus->len; i++)
    well &= is_menu_well (figures, g_array_index (menus, guint32, i));
  return well;
}

gboolean
cro_cli_is_all_well (CroBook *book)
{
  g_autoptr (GArray) plates = g_array_new (FALSE, FALSE, sizeof (guint32));
  g_autoptr (GArray) menus = g_array_new (FALSE, FALSE, sizeof (guint32));

  choose_all (cro_book_get_model (book), plates, menus);
  return are_well (cro_book_get_figures (book), plates, menus);
}

/* Before anything is printed: there is no half of an answer. */
static gboolean
can_be_stated (CroCosting *costing,
               gboolean    json)
{
  CroFigures *figures = cro_book_get_figures (costing->book);
  const char *name = cro_finite_find_plate (figures, costing->plates, costing->menus);

  if (name == NULL && json)
    name = cro_finite_find_item (figures);
  if (name != NULL)
    cro_cli_print_too_large (name);
  return name == NULL;
}

static CroCliStatus
print_costs (CroCosting *costing,
             const char *path,
             gboolean    json)
{
  g_autoptr (GError) error = NULL;

  if (!can_be_stated (costing, json))
    return CRO_CLI_REFUSED;
  if (!json && costing->is_whole)
    cro_cli_print_cost_table (costing);
  else if (!json)
    cro_cli_print_cost_cards (costing);
  else if (!cro_cli_print_cost_json (costing, &error))
    return cro_cli_fail (path, error);
  return are_well (cro_book_get_figures (costing->book), costing->plates, costing->menus)
             ? CRO_CLI_DONE
             : CRO_CLI_INCOMPLETE;
}

CroCliStatus
cro_cli_cost (int    argc,
              char **argv)
{
  g_autofree char *on = NULL;
  g_autofree char *as_of = NULL;
  g_auto (GStrv) plates = NULL;
  g_auto (GStrv) menus = NULL;
  gboolean json = FALSE;
  GOptionEntry entries[] = {
    { "on", 0, 0, G_OPTION_ARG_STRING, &on, N_("Prices of that day; today by default"),
      N_("DATE") },
    { "as-of", 0, 0, G_OPTION_ARG_STRING, &as_of,
      N_("The book as it stood at the end of that day, at that day’s prices"), N_("DATE") },
    { "plate", 0, 0, G_OPTION_ARG_STRING_ARRAY, &plates,
      N_("The cost card of that plate; may be given more than once"), N_("NAME") },
    { "menu", 0, 0, G_OPTION_ARG_STRING_ARRAY, &menus,
      N_("The cost card of that menu; may be given more than once"), N_("NAME") },
    { "json", 0, 0, G_OPTION_ARG_NONE, &json, N_("Print unrounded figures as JSON"), NULL },
    { NULL },
  };
  CroCliStatus status;
  CroDate day = cro_here_today ();
  CroCosting costing = { 0 };
  g_autoptr (CroBook) book = NULL;
  g_autoptr (GError) error = NULL;

  if (!cro_cli_parse ("cost", "BOOK", _("Cost plates, menus and items."), entries, &argc, &argv,
                      &status))
    return status;
  if (!cro_cli_read_date (as_of, &day))
    return CRO_CLI_REFUSED;
  if (as_of != NULL && day > cro_here_today ())
    {
      g_printerr (_("%s has not come yet: the book cannot have stood so; choose today or an earlier day\n"), as_of);
      return CRO_CLI_REFUSED;
    }
  costing.date = day;
  if (!cro_cli_read_date (on, &costing.date))
    return CRO_CLI_REFUSED;
  book = as_of != NULL ? cro_book_open_past (argv[1], day, costing.date, &error)
                       : cro_book_open (argv[1], NULL, CRO_STORE_READ, costing.date, &error);
  costing.book = book;
  if (book == NULL)
    {
      status = cro_cli_fail (argv[1], error);
      /* What is damaged may stand in the journal alone. */
      if (as_of != NULL && g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED))
        g_printerr (_("the book cannot be read as it stood on %s; “croustade-cli check” names the place\n"), as_of);
      return status;
    }

  costing.is_whole = plates == NULL && menus == NULL;
  costing.plates = g_array_new (FALSE, FALSE, sizeof (guint32));
  costing.menus = g_array_new (FALSE, FALSE, sizeof (guint32));
  status = choose (&costing, plates, menus) ? print_costs (&costing, argv[1], json) : CRO_CLI_REFUSED;
  g_array_unref (costing.plates);
  g_array_unref (costing.menus);
  return status;
}
