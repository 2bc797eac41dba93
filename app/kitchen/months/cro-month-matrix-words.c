#include "config.h"

#include "cro-month-matrix-words.h"

#include <glib/gi18n.h>

#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-money.h"
#include "cro-words.h"

static void
add_row (CroModel             *model,
         const CroMonthMatrix *matrix,
         guint                 i,
         CroMonthTable        *table)
{
  const CroMonthMatrixRow *row = &g_array_index (matrix->rows, CroMonthMatrixRow, i);
  CroMonthTableRow *cells = cro_month_table_add (table, (int) i, row->thing->name);

  cells->cells[1] = cro_words_three_digits (row->thing->sold);
  cells->cells[2] = cro_words_pct_of (row->share_pct,
                                      cro_decimals_apart (row->share_pct, matrix->limit_pct, 1));
  cells->cells[3] = cro_words_take_short (row->known, cro_words_money (model, row->contribution));
  cells->cells[4] = cro_month_matrix_marked (row, cro_month_matrix_words (row));
}

char *
cro_month_matrix_limits_words (CroModel             *model,
                               const CroMonthMatrix *matrix)
{
  g_autofree char *limit = cro_words_pct_of (matrix->limit_pct, 2);
  g_autofree char *contribution
      = cro_words_take_short (matrix->known, cro_words_money (model, matrix->limits.contribution));

  /* Translators: a percentage, and money. */
  return g_strdup_printf (_("Sells: from %s of all sold, 70 %% of an equal share. Earns: from %s, the mean."),
                          limit, contribution);
}

char *
cro_month_matrix_left_out_words (const CroMonthMatrix *matrix)
{
  g_autoptr (GString) names = g_string_new (NULL);

  for (guint i = 0; i < matrix->left_out->len; i++)
    {
      const CroMonthThing *thing = matrix->left_out->pdata[i];
      g_autofree char *name = cro_isolate (thing->name);

      g_string_append_printf (names, "%s%s (%s)", i > 0 ? ", " : "", name,
                              /* Translators: of a plate or a menu of a month. */
                              thing->sold > 0 ? _("no net sales") : _("none sold"));
    }
  /* Translators: plates or menus, each with its reason. */
  return names->len > 0 ? g_strdup_printf (_("Without a class: %s."), names->str) : NULL;
}

const char *
cro_month_matrix_open_words (const CroMonthMatrix *matrix)
{
  for (guint i = 0; i < matrix->rows->len; i++)
    if (g_array_index (matrix->rows, CroMonthMatrixRow, i).is_open)
      return _("?: this may be of another class, as food costs or net sales are not all known.");
  return NULL;
}

CroMonthTable *
cro_month_matrix_table (CroModel             *model,
                        const CroMonthMatrix *matrix,
                        CroMonthThingKind     kind)
{
  const char *titles[] = { kind == CRO_MONTH_MENU ? _("Menus") : _("Plates"), _("sold"), _("of all"),
                           _("one leaves"), NULL };
  CroMonthTable *table;
  char *left_out;

  if (matrix->rows->len == 0)
    return NULL;
  table = cro_month_table_new (G_N_ELEMENTS (titles), titles);
  table->words |= 1 << 4;
  for (guint i = 0; i < matrix->rows->len; i++)
    add_row (model, matrix, i, table);
  g_ptr_array_add (table->notes, cro_month_matrix_limits_words (model, matrix));
  if (cro_month_matrix_open_words (matrix) != NULL)
    g_ptr_array_add (table->notes, g_strdup (cro_month_matrix_open_words (matrix)));
  left_out = cro_month_matrix_left_out_words (matrix);
  if (left_out != NULL)
    g_ptr_array_add (table->notes, left_out);
  return table;
}

void
cro_month_matrix_number (CroMonthTable *table)
{
  for (guint i = 0; i < table->rows->len; i++)
    {
      char **name = &g_array_index (table->rows, CroMonthTableRow, i).cells[0];
      char *numbered = g_strdup_printf ("%u  %s", i + 1, *name);

      g_free (*name);
      *name = numbered;
    }
}

const char *
cro_month_matrix_source (void)
{
  return _("Source: M. L. Kasavana and D. I. Smith, Menu Engineering, 1982, whose names of the four classes "
           "are star, plowhorse, puzzle and dog.");
}
