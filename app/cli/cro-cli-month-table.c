#include "config.h"

#include "cro-cli-month.h"

#include <glib/gi18n.h>

#include "cro-cli-grid.h"
#include "cro-isolate.h"
#include "cro-month-statement.h"
#include "cro-month-went.h"
#include "cro-month-words.h"
#include "cro-number.h"

/* --- Any table ------------------------------------------------------------------------------ */

void
cro_cli_print_table (const CroMonthTable *table)
{
  g_autoptr (CroGrid) grid = cro_grid_new (table->n_columns);

  cro_grid_add_head (grid, (const char *const *) table->titles);
  for (guint i = 0; i < table->rows->len; i++)
    {
      const CroMonthTableRow *row = cro_month_table_get (table, i);
      char *cells[CRO_MONTH_TABLE_COLUMNS] = { NULL };

      for (guint column = 0; column < table->n_columns; column++)
        cells[column] = g_strdup (row->cells[column]);
      if (row->is_apart)
        cro_grid_add_gap (grid);
      cro_grid_take_row (grid, row->indent, cells);
      if (row->note != NULL)
        cro_grid_add_note (grid, row->indent + 2, row->note);
    }
  cro_grid_print (grid);
}

void
cro_cli_print_notes (const CroMonthTable *table)
{
  for (guint i = 0; i < table->notes->len; i++)
    cro_cli_print_wrapped (table->notes->pdata[i], 0);
}

/* --- Questions ------------------------------------------------------------------------------ */

#define MOST_QUESTIONS 30

static void
print_questions (CroModel       *model,
                 const CroMonth *month)
{
  if (month->questions->len == 0)
    return;
  g_print ("\n");
  cro_cli_print_wrapped (_("Questions"), 0);
  for (guint i = 0; i < month->questions->len; i++)
    {
      const CroMonthQuestion *question = &g_array_index (month->questions, CroMonthQuestion, i);
      g_autofree char *words = cro_month_question_words (question, FALSE);
      g_autofree char *explains = cro_month_explains_words (model, question);
      g_autofree char *line = explains != NULL ? g_strdup_printf ("%s (%s)", words, explains)
                                               : g_strdup (words);

      if (i == MOST_QUESTIONS)
        {
          guint others = month->questions->len - i;
          g_autofree char *more = g_strdup_printf (ngettext ("and %u other", "and %u others", others),
                                                   others);

          cro_cli_print_wrapped (more, 2);
          break;
        }
      cro_cli_print_wrapped (line, 2);
    }
}

/* --- All of it ------------------------------------------------------------------------------ */

#define MOST_ROWS 12

static void
print_title (CroModel       *model,
             const CroMonth *month)
{
  const char *name = model->name != NULL ? model->name : _("Book");
  const char *currency = month->currency != NULL ? month->currency : _("no currency");
  g_autofree char *text = cro_month_to_text (month->first);
  g_autofree char *recipes = cro_date_to_text (cro_month_recipes_day (month));
  g_autofree char *title
      /* Translators: a book, a month and its year, a date, a currency. */
      = month->is_closed && month->altered == month->first
            ? cro_isolate_printf (_("%s, %s, closed, altered since, recipes of %s, %s"), name, text, recipes, currency)
        : month->is_closed ? cro_isolate_printf (_("%s, %s, closed, recipes of %s, %s"), name, text, recipes, currency)
                           : cro_isolate_printf (_("%s, %s, open, recipes of %s, %s"), name, text, recipes, currency);

  cro_cli_print_wrapped (title, 0);
  g_print ("\n");
}

void
cro_cli_print_month_table (CroBook        *book,
                           const CroMonth *month)
{
  CroModel *model = cro_book_get_model (book);
  g_autoptr (CroMonthTable) statement = cro_month_statement_new (model, month, FALSE);

  print_title (model, month);
  cro_cli_print_table (statement);
  g_print ("\n");
  cro_cli_print_notes (statement);
  print_questions (model, month);
  for (CroWentBy by = 0; by < CRO_N_WENT_BY; by++)
    {
      g_autoptr (CroMonthTable) table = cro_month_went_new (month, by, NULL, MOST_ROWS);

      if (table == NULL)
        continue;
      g_print ("\n");
      cro_cli_print_table (table);
      cro_cli_print_notes (table);
    }
}
