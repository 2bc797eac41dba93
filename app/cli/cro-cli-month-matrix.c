#include "config.h"

#include "cro-cli-month.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-cli-grid.h"
#include "cro-cli-json.h"
#include "cro-figure-words.h"
#include "cro-money.h"
#include "cro-month-matrix.h"
#include "cro-month-words.h"
#include "cro-words.h"

static void
add_matrix (CroJson              *json,
            const char           *name,
            const CroMonthMatrix *matrix)
{
  cro_json_begin_object (json, name);
  cro_cli_json_number (json, "sold_from", matrix->rows->len > 0 ? matrix->limits.sold : NAN);
  cro_cli_json_number (json, "contribution_from",
                       matrix->rows->len > 0 ? matrix->limits.contribution : NAN);
  cro_json_begin_array (json, "rows");
  for (guint i = 0; i < matrix->rows->len; i++)
    {
      const CroMonthMatrixRow *row = &g_array_index (matrix->rows, CroMonthMatrixRow, i);

      cro_json_begin_object (json, NULL);
      cro_json_text (json, "name", row->thing->name);
      cro_cli_json_number (json, "sold", row->thing->sold);
      cro_cli_json_number (json, "share_pct", row->share_pct);
      cro_cli_json_number (json, "contribution", row->contribution);
      cro_json_text (json, "class", cro_month_matrix_class (row));
      cro_json_end_object (json);
    }
  cro_json_end_array (json);
  cro_json_end_object (json);
}

void
cro_cli_add_matrix_json (CroJson        *json,
                         const CroMonth *month)
{
  g_autoptr (CroMonthMatrix) plates = cro_month_matrix_new (month, CRO_MONTH_PLATE);
  g_autoptr (CroMonthMatrix) menus = cro_month_matrix_new (month, CRO_MONTH_MENU);

  cro_json_begin_object (json, "matrix");
  add_matrix (json, "plates", plates);
  add_matrix (json, "menus", menus);
  cro_json_end_object (json);
}

static void
print_matrix (CroModel             *model,
              const CroMonthMatrix *matrix,
              const char           *name)
{
  const char *titles[] = { name, _("sold"), _("of all"), _("one leaves"), NULL };
  g_autoptr (CroGrid) grid = cro_grid_new (5);
  g_autofree char *limit = NULL, *contribution = NULL, *note = NULL;

  if (matrix->rows->len == 0)
    return;
  limit = cro_words_pct_of (matrix->limit_pct, 2);
  contribution = cro_words_money (model, matrix->limits.contribution);
  cro_grid_add_head (grid, titles);
  for (guint i = 0; i < matrix->rows->len; i++)
    {
      const CroMonthMatrixRow *row = &g_array_index (matrix->rows, CroMonthMatrixRow, i);
      CroKnown known = !row->thing->is_incomplete ? CRO_KNOWN_WHOLE
                       : row->thing->has_credit   ? CRO_KNOWN_IN_PART
                                                  : CRO_KNOWN_AT_MOST;
      char *cells[] = { g_strdup (row->thing->name), cro_words_three_digits (row->thing->sold),
                        cro_words_pct_of (row->share_pct,
                                          cro_decimals_apart (row->share_pct, matrix->limit_pct, 1)),
                        cro_words_take_short (known, cro_words_money (model, row->contribution)),
                        g_strdup (cro_month_matrix_words (row)) };

      cro_grid_take_row (grid, 0, cells);
    }
  cro_grid_print (grid);
  /* Translators: a percentage, and money. */
  note = g_strdup_printf (_("Sells: from %s of all sold, 70 %% of an equal share. Earns: from %s, the mean."),
                          limit, contribution);
  cro_cli_print_wrapped (note, 0);
  g_print ("\n");
}

void
cro_cli_print_matrix (CroBook        *book,
                      const CroMonth *month)
{
  CroModel *model = cro_book_get_model (book);
  g_autoptr (CroMonthMatrix) plates = cro_month_matrix_new (month, CRO_MONTH_PLATE);
  g_autoptr (CroMonthMatrix) menus = cro_month_matrix_new (month, CRO_MONTH_MENU);
  g_autofree char *text = cro_month_to_text (month->first);

  cro_cli_print_wrapped (text, 0);
  g_print ("\n");
  if (plates->rows->len + menus->rows->len == 0)
    {
      cro_cli_print_wrapped (_("No plate or menu was sold with net sales of its own."), 0);
      return;
    }
  print_matrix (model, plates, _("Plates"));
  print_matrix (model, menus, _("Menus"));
  cro_cli_print_wrapped (_("Source: M. L. Kasavana and D. I. Smith, Menu Engineering, 1982, whose names of "
                           "the four classes are star, plowhorse, puzzle and dog."),
                         0);
}
