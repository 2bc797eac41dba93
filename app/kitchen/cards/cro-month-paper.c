#include "config.h"

#include "cro-month-paper.h"

#include <glib/gi18n.h>

#include "cro-card-sheet.h"
#include "cro-card-words.h"
#include "cro-cards.h"
#include "cro-isolate.h"
#include "cro-month-bridge-words.h"
#include "cro-month-matrix-words.h"
#include "cro-month-pictures.h"
#include "cro-month-statement.h"
#include "cro-month-went.h"
#include "cro-month-words.h"
#include "cro-number.h"
#include "cro-pdf.h"
#include "cro-whole-file.h"

#define FONT 9.5
#define SPACE 8

/* Of a table of many rows, on paper. */
#define MOST_ROWS 20
#define SCATTER_HEIGHT 260

/* Of the width that figures leave; words of more characters than that are broken. */
#define NAMES_SHARE 3
#define WORDS_SHARE 2
#define MOST_CHARS 20

/* --- Tables --------------------------------------------------------------------------------- */

/* Columns without any text take no room. */
static gboolean
is_empty (const CroMonthTable *table,
          guint                column)
{
  for (guint i = 0; i < table->rows->len; i++)
    if (cro_month_table_get (table, i)->cells[column] != NULL)
      return FALSE;
  return TRUE;
}

/* Whether words beside the names are so long that they share their width rather than take it, in characters. */
static gboolean
is_long (const CroMonthTable *table,
         guint                column)
{
  for (guint i = 0; i < table->rows->len; i++)
    {
      const char *text = cro_month_table_get (table, i)->cells[column];

      if (text != NULL && g_utf8_strlen (text, -1) > MOST_CHARS)
        return TRUE;
    }
  return FALSE;
}

static void
add_row (CroPaper               *paper,
         guint                   grid,
         const CroMonthTable    *table,
         const CroMonthTableRow *row,
         const gboolean         *left_out)
{
  const char *texts[CRO_MONTH_TABLE_COLUMNS];
  guint n = 0;

  for (guint i = 0; i < table->n_columns; i++)
    if (!left_out[i])
      texts[n++] = row->cells[i];
  cro_paper_begin_block (paper);
  if (row->is_apart)
    cro_paper_add_space (paper, SPACE / 2.0);
  cro_paper_add_row (paper, grid, row->is_sum ? CRO_PAPER_BOLD : CRO_PAPER_PLAIN, row->indent * FONT / 2, texts);
  if (row->note != NULL)
    cro_paper_add_text (paper, CRO_PAPER_SMALL, (row->indent + 2) * FONT / 2, row->note);
}

static void
add_table (CroPaper            *paper,
           const CroMonthTable *table)
{
  CroPaperColumn columns[CRO_MONTH_TABLE_COLUMNS];
  const char *heads[CRO_MONTH_TABLE_COLUMNS];
  gboolean left_out[CRO_MONTH_TABLE_COLUMNS];
  guint n = 0, grid;

  for (guint i = 0; i < table->n_columns; i++)
    {
      gboolean is_words = (table->words & 1u << i) != 0;

      left_out[i] = is_empty (table, i);
      if (left_out[i])
        continue;
      columns[n] = (CroPaperColumn){ .share = is_words && is_long (table, i) ? WORDS_SHARE : 0,
                                     .is_number = !is_words };
      if (i == 0)
        columns[n].share = NAMES_SHARE;
      heads[n++] = table->titles[i];
    }
  grid = cro_paper_add_grid (paper, columns, n);
  cro_paper_set_heads (paper, grid, heads);
  cro_paper_begin_block (paper);
  cro_paper_add_space (paper, SPACE);
  for (guint i = 0; i < table->rows->len; i++)
    add_row (paper, grid, table, cro_month_table_get (table, i), left_out);
  cro_paper_begin_block (paper);
  for (guint i = 0; i < table->notes->len; i++)
    cro_paper_add_text (paper, CRO_PAPER_SMALL, 0, table->notes->pdata[i]);
}

/* Takes table, which may be NULL. */
static void
take_table (CroPaper      *paper,
            CroMonthTable *table)
{
  if (table == NULL)
    return;
  add_table (paper, table);
  cro_month_table_free (table);
}

/* --- Head and foot -------------------------------------------------------------------------- */

static char *
dup_state (const CroMonth *month)
{
  g_autofree char *recipes = cro_date_to_text (cro_month_recipes_day (month));
  const char *currency = month->currency != NULL ? month->currency : _("no currency");

  if (month->is_closed && month->altered == month->first)
    /* Translators: of a month: a date, a currency. */
    return cro_isolate_printf (_("closed, altered since · recipes of %s · %s"), recipes, currency);
  return month->is_closed
             /* Translators: of a month: a date, a currency. */
             ? cro_isolate_printf (_("closed · recipes of %s · %s"), recipes, currency)
             /* Translators: of a month: a date, a currency. */
             : cro_isolate_printf (_("open · recipes of %s · %s"), recipes, currency);
}

static CroPaper *
paper_new (CroBook        *book,
           const CroMonth *month,
           const char     *title,
           gboolean        is_rtl)
{
  const char *name = cro_book_get_model (book)->name;
  g_autofree char *text = cro_month_to_text (month->first);
  g_autofree char *state = dup_state (month);
  g_autofree char *then = cro_words_book_of (book);
  g_autofree char *heading = cro_isolate_printf (_("%s, %s"), title, text);
  g_autofree char *foot = cro_isolate_printf (_("%s, %s"), name != NULL ? name : _("Book"), heading);
  CroPaper *paper = cro_paper_new (heading, FONT, is_rtl);

  cro_card_add_trial (paper, book);
  cro_card_add_pair (paper, CRO_PAPER_BOLD, name != NULL ? name : _("Book"), state);
  cro_paper_add_text (paper, CRO_PAPER_LARGE | CRO_PAPER_BOLD, 0, heading);
  if (then != NULL)
    cro_paper_add_text (paper, CRO_PAPER_BOLD, 0, then);
  cro_paper_set_foot (paper, foot);
  return paper;
}

/* --- The statement -------------------------------------------------------------------------- */

static void
add_questions (CroPaper       *paper,
               CroModel       *model,
               const CroMonth *month)
{
  if (month->questions->len == 0)
    return;
  cro_paper_begin_block (paper);
  cro_paper_add_space (paper, SPACE);
  cro_paper_add_text (paper, CRO_PAPER_BOLD, 0, _("Questions"));
  for (guint i = 0; i < month->questions->len; i++)
    {
      const CroMonthQuestion *question = &g_array_index (month->questions, CroMonthQuestion, i);
      g_autofree char *words = cro_month_question_words (question, TRUE);
      g_autofree char *explains = cro_month_explains_words (model, question);
      g_autofree char *text = explains != NULL ? g_strdup_printf ("%u  %s (%s)", i + 1, words, explains)
                                               : g_strdup_printf ("%u  %s", i + 1, words);

      cro_paper_add_text (paper, CRO_PAPER_PLAIN, 0, text);
      cro_paper_begin_block (paper);
    }
}

CroPaper *
cro_month_paper_new (CroBook        *book,
                     const CroMonth *month,
                     const CroMonth *other,
                     gboolean        is_rtl)
{
  CroModel *model = cro_book_get_model (book);
  CroPaper *paper = paper_new (book, month, _("Statement"), is_rtl);

  take_table (paper, cro_month_statement_beside (model, month, other, FALSE));
  add_questions (paper, model, month);
  for (CroWentBy by = 0; by < CRO_N_WENT_BY; by++)
    take_table (paper, cro_month_went_new (month, by, NULL, MOST_ROWS));
  return paper;
}

/* --- Why it changed ------------------------------------------------------------------------- */

static void
draw_waterfall (cairo_t  *cairo,
                double    width,
                double    height,
                gpointer  waterfall)
{
  CroChartLook look = cro_chart_look_of_paper (FONT, FALSE);

  cro_waterfall_draw (waterfall, cairo, &look, width);
}

static void
draw_waterfall_mirrored (cairo_t  *cairo,
                         double    width,
                         double    height,
                         gpointer  waterfall)
{
  CroChartLook look = cro_chart_look_of_paper (FONT, TRUE);

  cro_waterfall_draw (waterfall, cairo, &look, width);
}

CroPaper *
cro_month_bridge_paper_new (CroBook              *book,
                            const CroMonthBridge *bridge,
                            gboolean              is_rtl)
{
  CroPaper *paper = paper_new (book, bridge->to, _("Why it changed"), is_rtl);
  g_autoptr (GPtrArray) words = cro_month_bridge_words (bridge);
  CroWaterfall *waterfall = cro_month_bridge_waterfall (bridge);
  CroChartLook look = cro_chart_look_of_paper (FONT, is_rtl);
  double height = cro_waterfall_height (waterfall, &look);

  cro_card_add_texts (paper, CRO_PAPER_PLAIN, words);
  take_table (paper, cro_month_bridge_steps (bridge));
  take_table (paper, cro_month_bridge_table (bridge, bridge->items, CRO_N_BRIDGE_EFFECTS, MOST_ROWS));
  take_table (paper, cro_month_bridge_table (bridge, bridge->things, CRO_N_BRIDGE_EFFECTS, MOST_ROWS));
  cro_paper_begin_block (paper);
  cro_paper_add_space (paper, SPACE);
  cro_paper_add_picture (paper, height, height, is_rtl ? draw_waterfall_mirrored : draw_waterfall,
                         waterfall, (GDestroyNotify) cro_waterfall_free);
  return paper;
}

/* --- The matrix ----------------------------------------------------------------------------- */

static void
draw_scatter (cairo_t  *cairo,
              double    width,
              double    height,
              gpointer  scatter)
{
  CroChartLook look = cro_chart_look_of_paper (FONT, FALSE);

  cro_scatter_draw (scatter, cairo, &look, width, height);
}

static void
draw_scatter_mirrored (cairo_t  *cairo,
                       double    width,
                       double    height,
                       gpointer  scatter)
{
  CroChartLook look = cro_chart_look_of_paper (FONT, TRUE);

  cro_scatter_draw (scatter, cairo, &look, width, height);
}

static void
add_matrix (CroPaper          *paper,
            CroModel          *model,
            const CroMonth    *month,
            CroMonthThingKind  kind,
            gboolean           is_rtl)
{
  g_autoptr (CroMonthMatrix) matrix = cro_month_matrix_new (month, kind);
  g_autoptr (CroMonthTable) table = cro_month_matrix_table (model, matrix, kind);

  if (table == NULL)
    return;
  cro_month_matrix_number (table);
  add_table (paper, table);
  cro_paper_begin_block (paper);
  cro_paper_add_space (paper, SPACE);
  cro_paper_add_picture (paper, SCATTER_HEIGHT, SCATTER_HEIGHT, is_rtl ? draw_scatter_mirrored : draw_scatter,
                         cro_month_matrix_scatter (model, matrix), (GDestroyNotify) cro_scatter_free);
}

CroPaper *
cro_month_matrix_paper_new (CroBook        *book,
                            const CroMonth *month,
                            gboolean        is_rtl)
{
  CroModel *model = cro_book_get_model (book);
  CroPaper *paper = paper_new (book, month, _("Matrix"), is_rtl);

  add_matrix (paper, model, month, CRO_MONTH_PLATE, is_rtl);
  add_matrix (paper, model, month, CRO_MONTH_MENU, is_rtl);
  cro_paper_begin_block (paper);
  cro_paper_add_text (paper, CRO_PAPER_SMALL, 0, cro_month_matrix_source ());
  return paper;
}

gboolean
cro_month_paper_write (CroBook     *book,
                       CroPaper    *paper,
                       const char  *path,
                       GError     **error)
{
  g_autoptr (CroWholeFile) file = cro_whole_file_new (path, error);
  g_autoptr (CroPdf) pdf = NULL;

  if (file == NULL)
    return FALSE;
  pdf = cro_pdf_new (cro_whole_file_get_path (file), cro_cards_size (book), cro_paper_get_title (paper),
                     cro_date_to_seconds (cro_book_get_figures (book)->date));
  cro_pdf_add (pdf, paper);
  return cro_pdf_finish (pdf, error) && cro_whole_file_finish (file, error);
}
