#include "config.h"

#include "cro-month-matrix-words.h"

#include <glib/gi18n.h>

#include "cro-figure-words.h"
#include "cro-money.h"
#include "cro-words.h"

static void
add_row (CroModel             *model,
         const CroMonthMatrix *matrix,
         guint                 i,
         CroMonthTable        *table)
{
  const CroMonthMatrixRow *row = &g_array_index (matrix->rows, CroMonthMatrixRow, i);
  CroKnown known = !row->thing->is_incomplete ? CRO_KNOWN_WHOLE
                   : row->thing->has_credit   ? CRO_KNOWN_IN_PART
                                              : CRO_KNOWN_AT_MOST;
  CroMonthTableRow *cells = cro_month_table_add (table, (int) i, row->thing->name);

  cells->cells[1] = cro_words_three_digits (row->thing->sold);
  cells->cells[2] = cro_words_pct_of (row->share_pct,
                                      cro_decimals_apart (row->share_pct, matrix->limit_pct, 1));
  cells->cells[3] = cro_words_take_short (known, cro_words_money (model, row->contribution));
  cells->cells[4] = g_strdup (cro_month_matrix_words (row));
}

CroMonthTable *
cro_month_matrix_table (CroModel             *model,
                        const CroMonthMatrix *matrix,
                        CroMonthThingKind     kind)
{
  const char *titles[] = { kind == CRO_MONTH_MENU ? _("Menus") : _("Plates"), _("sold"), _("of all"),
                           _("one leaves"), NULL };
  CroMonthTable *table;
  g_autofree char *limit = NULL, *contribution = NULL;

  if (matrix->rows->len == 0)
    return NULL;
  table = cro_month_table_new (G_N_ELEMENTS (titles), titles);
  table->words |= 1 << 4;
  for (guint i = 0; i < matrix->rows->len; i++)
    add_row (model, matrix, i, table);
  limit = cro_words_pct_of (matrix->limit_pct, 2);
  contribution = cro_words_money (model, matrix->limits.contribution);
  /* Translators: a percentage, and money. */
  g_ptr_array_add (table->notes,
                   g_strdup_printf (_("Sells: from %s of all sold, 70 %% of an equal share. Earns: from %s, "
                                      "the mean."),
                                    limit, contribution));
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
