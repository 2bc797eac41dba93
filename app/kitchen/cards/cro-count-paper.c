#include "config.h"

#include "cro-count-paper.h"

#include <glib/gi18n.h>

#include "cro-card-sheet.h"
#include "cro-number.h"
#include "cro-words.h"

/* Written on by hand: rows as high as a pen needs. */
#define FONT 11
#define SPACE 6

enum
{
  ITEM,
  BEFORE,
  COUNTED,
  NOTE,
  N_COLUMNS,
};

/* Written upon: a blank, and the unit that it is counted in. */
#define BLANK "____________ "

static char *
dup_amount (gint64  amount,
            CroUnit unit)
{
  g_autofree char *number = amount != CRO_NOT_SET ? cro_words_decimal (amount) : NULL;

  return number != NULL ? g_strdup_printf ("%s %s", number, cro_words_unit (unit)) : NULL;
}

static void
add_line (CroPaper           *paper,
          CroModel           *model,
          guint               grid,
          const CroCountLine *line)
{
  g_autofree char *before = dup_amount (line->last, line->last_unit);
  g_autofree char *now = dup_amount (line->amount, line->unit);
  g_autofree char *blank = g_strconcat (BLANK, cro_words_unit (line->unit), NULL);
  const char *texts[N_COLUMNS] = { cro_model_item (model, line->item)->name, before,
                                   now != NULL ? now : blank, "____________________" };

  cro_paper_add_row (paper, grid, CRO_PAPER_PLAIN, 0, texts);
  cro_paper_add_space (paper, SPACE);
}

static void
add_head (CroPaper           *paper,
          CroBook            *book,
          const CroCountList *list)
{
  CroModel *model = cro_book_get_model (book);
  g_autofree char *day = cro_date_to_text (list->day);
  g_autofree char *n = cro_number_to_text (list->n_items, 0, TRUE);
  /* Translators: a number of items to be counted. */
  g_autofree char *items = g_strdup_printf (_("Items: %s"), n);

  cro_card_add_pair (paper, CRO_PAPER_SMALL, model->name != NULL ? model->name : "", _("Count sheet"));
  /* Translators: on a count sheet; a day. */
  cro_card_add_pair (paper, CRO_PAPER_LARGE | CRO_PAPER_BOLD, _("Stock"), day);
  /* Translators: on a count sheet, with room to sign; the number of items. */
  cro_card_add_pair (paper, CRO_PAPER_PLAIN, items, _("Counted by: ____________________"));
  cro_paper_add_space (paper, SPACE);
}

CroPaper *
cro_count_paper_new (CroBook            *book,
                     const CroCountList *list,
                     gboolean            rtl)
{
  static const CroPaperColumn columns[N_COLUMNS] = {
    [ITEM] = { .share = 1 }, [BEFORE] = { .is_number = TRUE, .is_small = TRUE },
    [COUNTED] = { .is_number = TRUE }, [NOTE] = { .share = 0.4, .is_small = TRUE },
  };
  const char *heads[N_COLUMNS] = { _("Item"), _("Counted before"), _("Counted"), _("Note") };
  CroModel *model = cro_book_get_model (book);
  g_autofree char *day = cro_date_to_text (list->day);
  /* Translators: the title of a sheet of paper; a day. */
  g_autofree char *title = g_strdup_printf (_("Count sheet, %s"), day);
  CroPaper *paper = cro_paper_new (title, FONT, rtl);
  guint grid = cro_paper_add_grid (paper, columns, N_COLUMNS);

  cro_paper_set_heads (paper, grid, heads);
  add_head (paper, book, list);
  for (guint i = 0; i < list->lines->len; i++)
    {
      const CroCountLine *line = &g_array_index (list->lines, CroCountLine, i);
      const CroCountLine *before = i > 0 ? line - 1 : NULL;

      if (before == NULL || g_strcmp0 (before->place, line->place) != 0)
        {
          cro_paper_begin_block (paper);
          /* Translators: on a count sheet, over what nobody said the place of. */
          cro_paper_add_text (paper, CRO_PAPER_BOLD | CRO_PAPER_RULED, 0,
                              line->place != NULL ? line->place : _("Without a place"));
        }
      add_line (paper, model, grid, line);
    }
  cro_card_set_foot (paper, book);
  return paper;
}
