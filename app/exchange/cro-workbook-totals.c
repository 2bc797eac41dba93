/* Control totals: sums reckoned in two ways that must agree, and whether they do. Below, notes. */
#include "cro-workbook-private.h"

#include <math.h>

static const CroWorkbookTextId heads[] = {
  CRO_WT_CHECK, CRO_WT_ONE_SIDE, CRO_WT_OTHER_SIDE, CRO_WT_DIFFERENCE, CRO_WT_TIES, CRO_WT_FAILS,
  CRO_WT_OTHER_WAY, CRO_WT_MOVED,
};

/* Of the model. */
#define N_CHECKS 10

#define CHECKS_WIDTH 50

/* Both sides as formulas, or the other side as a number that was counted here. */
typedef struct
{
  CroWorkbookTextId  what;
  const CroPen      *of;         /* sheet whose column is reckoned */
  const char        *template;   /* over @:@, and @:@ of the column beside or the same again */
  const char        *column;
  const char        *beside;     /* NULL: none */
  guint32            from, to;   /* rows */
  double             one_side;
  double             other_side;
} Check;

/* Differences within a millionth of the larger side are those of the last digits. */
static gboolean
ties (double one,
      double other)
{
  return fabs (one - other) <= 1e-6 * MAX (1, fabs (one));
}

/* What is there now, what was written, and the same reckoned otherwise: a change moves the first alone. */
static void
write_sides (CroPen         *pen,
             const char     *what,
             const char     *template,
             const CroPlace *places,
             double          value,
             double          other,
             CroStyle        style)
{
  CroWorkbook *self = pen->workbook;
  gboolean does = ties (value, other);

  /* No zero below zero. */
  value += 0.0;
  cro_pen_set_height (pen, what, CHECKS_WIDTH);
  cro_pen_text (pen, 'A', CRO_STYLE_SENTENCE, what);
  cro_pen_formula (pen, 'B', style, value, template, places);
  cro_pen_number (pen, 'C', style, value);
  cro_pen_formula (pen, 'D', CRO_STYLE_QUANTITY, 0, "=B#-C#", NULL);
  cro_pen_formula_text (pen, 'E', CRO_STYLE_BOLD,
                        cro_workbook_word_text (self, does ? CRO_WORD_TIES : CRO_WORD_DIFFERS),
                        "=IF(F#=1,@,IF(H#=1,@,@))",
                        (CroPlace[]){ cro_workbook_word (self, CRO_WORD_DIFFERS),
                                      cro_workbook_word (self, CRO_WORD_CHANGED),
                                      cro_workbook_word (self, CRO_WORD_TIES) });
  cro_pen_formula (pen, 'F', CRO_STYLE_COUNT, !does,
                   "=IF(MAX(C#-G#,G#-C#)<=0.000001*MAX(1,C#,-C#),0,1)", NULL);
  cro_pen_number (pen, 'G', style, other);
  cro_pen_formula (pen, 'H', CRO_STYLE_COUNT, 0,
                   "=IF(MAX(D#,-D#)<=0.000001*MAX(1,C#,-C#),0,1)", NULL);
  cro_pen_next_row (pen);
}

static void
write_check (CroPen      *pen,
             const Check *check,
             CroStyle     style)
{
  const char *beside = check->beside != NULL ? check->beside : check->column;
  CroPlace range[] = { { check->of->quoted, check->column, check->from },
                       { NULL, check->column, check->to },
                       { check->of->quoted, beside, check->from },
                       { NULL, beside, check->to } };

  write_sides (pen, cro_workbook_text (pen->workbook, check->what), check->template, range,
               check->one_side, check->other_side, style);
}

#define LARGEST "=MAX(MAX(@:@),-MIN(@:@))"
#define COUNTED "=COUNT(@:@)"

/* Lines and outputs alike have a unit's factor; outputs alone have a share. */
#define LINES "=COUNT(@:@)-COUNT(@:@)"

/* Money that goes into batches comes out of them. */
static void
write_money_checks (CroPen *pen)
{
  static const char *const columns[] = { "X", "Y", "Z" };
  CroWorkbook *self = pen->workbook;

  for (int layer = 0; layer < CRO_WORKBOOK_N_LAYERS; layer++)
    {
      Check check = {
        .what = CRO_WT_CHECK_FOOD + (guint) layer, .of = &self->preparations, .template = LARGEST,
        .column = columns[layer], .from = CRO_ROW_FIRST, .to = self->last_batch_row,
        .one_side = MAX (self->largest_gap[layer], -self->smallest_gap[layer]),
      };

      write_check (pen, &check, CRO_STYLE_QUANTITY);
    }
}

static void
write_count_checks (CroPen *pen)
{
  CroWorkbook *self = pen->workbook;
  const CroWorkbookSource *source = self->source;
  const Check checks[] = {
    { CRO_WT_CHECK_N_INGREDIENTS, &self->ingredients, COUNTED, "G", NULL, CRO_ROW_FIRST,
      self->last_ingredient_row, self->n_costed, self->n_costed },
    { CRO_WT_CHECK_N_OFFERS, &self->ingredients, COUNTED, "K", NULL, CRO_ROW_FIRST,
      self->last_ingredient_row, source->n_offers, source->n_offers },
    { CRO_WT_CHECK_N_PRICES, &self->prices, COUNTED, "D", NULL, CRO_ROW_FIRST,
      CRO_ROW_FIRST + source->n_prices, source->n_prices, source->n_prices },
    { CRO_WT_CHECK_N_LINES, &self->preparations, LINES, "D", "W", CRO_ROW_FIRST, self->last_batch_row,
      source->n_lines, source->n_lines },
    { CRO_WT_CHECK_N_PLATES, &self->summary, COUNTED, "C", NULL, CRO_ROW_FIRST_PLATE,
      CRO_ROW_FIRST_PLATE + source->n_plates, source->n_plates, source->n_plates },
  };

  for (guint i = 0; i < G_N_ELEMENTS (checks); i++)
    write_check (pen, &checks[i], CRO_STYLE_QUANTITY);
}

static void
write_plate_checks (CroPen *pen)
{
  CroWorkbook *self = pen->workbook;
  const CroWorkbookSource *source = self->source;
  guint32 last = CRO_ROW_FIRST_PLATE + source->n_plates;
  const Check attributed = {
    CRO_WT_CHECK_ATTRIBUTED, &self->summary, "=SUM(@:@)", "D", NULL, CRO_ROW_FIRST_PLATE, last,
    self->sum_of_guests, source->attributed,
  };
  const Check printed = {
    CRO_WT_CHECK_PRINTED, &self->summary, LARGEST, "R", NULL, CRO_ROW_FIRST_PLATE, last, 0, 0,
  };

  write_check (pen, &attributed, self->known_of_guests == CRO_WORKBOOK_WHOLE
                                     ? CRO_STYLE_QUANTITY
                                     : cro_workbook_money_style (self->known_of_guests, FALSE));
  write_check (pen, &printed, CRO_STYLE_QUANTITY);
}

static void
write_ties (CroPen *pen)
{
  const CroWorkbookReport *report = pen->workbook->source->report;

  for (guint i = 0; report != NULL && i < report->n_ties; i++)
    {
      const CroWorkbookTie *tie = &report->ties[i];
      const char column[] = { tie->column, '\0' };
      CroPlace place = { pen->workbook->report[tie->sheet].quoted, column, tie->row };

      write_sides (pen, tie->what, "=@", &place, tie->value, tie->other, CRO_STYLE_QUANTITY);
    }
}

void
cro_workbook_write_totals (CroWorkbook *self)
{
  CroPen *pen = &self->totals;
  guint32 last = CRO_ROW_FIRST + N_CHECKS - 1
                 + (self->source->report != NULL ? self->source->report->n_ties : 0);
  CroPlace fails[] = { { NULL, "F", CRO_ROW_FIRST }, { NULL, "F", last } };
  CroPlace moved[] = { { NULL, "H", CRO_ROW_FIRST }, { NULL, "H", last } };

  cro_pen_text (pen, 'A', CRO_STYLE_TITLE, cro_workbook_text (self, CRO_WT_TOTALS));
  cro_pen_next_row (pen);
  cro_pen_text (pen, 'A', CRO_STYLE_ABOUT, cro_workbook_text (self, CRO_WT_ABOUT_TOTALS));
  cro_pen_next_row (pen);
  cro_pen_formula_text (pen, 'A', CRO_STYLE_BOLD,
                        cro_workbook_word_text (self, self->all_tie ? CRO_WORD_ALL_TIE
                                                                    : CRO_WORD_NOT_ALL),
                        "=IF(SUM(@:@)=0,@,@)",
                        (CroPlace[]){ fails[0], fails[1],
                                      cro_workbook_word (self, CRO_WORD_ALL_TIE),
                                      cro_workbook_word (self, CRO_WORD_NOT_ALL) });
  cro_pen_formula_text (pen, 'B', CRO_STYLE_ABOUT,
                        cro_workbook_word_text (self, CRO_WORD_AS_WRITTEN), "=IF(SUM(@:@)=0,@,@)",
                        (CroPlace[]){ moved[0], moved[1],
                                      cro_workbook_word (self, CRO_WORD_AS_WRITTEN),
                                      cro_workbook_word (self, CRO_WORD_NOT_AS_WRITTEN) });
  cro_pen_next_row (pen);
  cro_pen_heads (pen, heads, G_N_ELEMENTS (heads));
  worksheet_freeze_panes (pen->sheet, CRO_ROW_HEAD, 1);
  write_money_checks (pen);
  write_plate_checks (pen);
  write_count_checks (pen);
  write_ties (pen);
  cro_pen_finish (pen, CRO_ROW_HEAD);
  worksheet_set_column (pen->sheet, 0, 0, CHECKS_WIDTH, NULL);
}

/* The other checks are of counts. */
gboolean
cro_workbook_all_tie (const CroWorkbook *self)
{
  const CroWorkbookReport *report = self->source->report;
  gboolean all = ties (self->sum_of_guests, self->source->attributed);

  for (int layer = 0; layer < CRO_WORKBOOK_N_LAYERS; layer++)
    all &= ties (MAX (self->largest_gap[layer], -self->smallest_gap[layer]), 0);
  for (guint i = 0; report != NULL && i < report->n_ties; i++)
    all &= ties (report->ties[i].value, report->ties[i].other);
  return all;
}

/* --- Notes ---------------------------------------------------------------------------------------------- */

#define NOTES_WIDTH 70

static void
write_note (CroPen     *pen,
            const char *text)
{
  cro_pen_set_height (pen, text, NOTES_WIDTH);
  cro_pen_text (pen, 'A', CRO_STYLE_SENTENCE, text);
  cro_pen_next_row (pen);
}

static void
write_limit (CroPen            *pen,
             CroWorkbookTextId  id,
             guint              n)
{
  g_autofree char *number = g_strdup_printf ("%u", n);
  g_autoptr (GString) text = g_string_new (cro_workbook_text (pen->workbook, id));

  g_string_replace (text, "%u", number, 0);
  write_note (pen, text->str);
}

void
cro_workbook_write_notes (CroWorkbook *self)
{
  const CroWorkbookSource *source = self->source;
  CroPen *pen = &self->notes;

  cro_pen_text (pen, 'A', CRO_STYLE_TITLE, cro_workbook_text (self, CRO_WT_NOTES));
  cro_pen_next_row (pen);
  for (guint i = CRO_WT_NOTE_FIRST; i <= CRO_WT_NOTE_LAST; i++)
    write_note (pen, cro_workbook_text (self, (CroWorkbookTextId) i));
  for (guint i = 0; source->report != NULL && i < source->report->n_notes; i++)
    write_note (pen, source->report->notes[i]);
  if (self->n_cards < source->n_plates)
    write_limit (pen, CRO_WT_LIMIT_CARDS, CRO_WORKBOOK_MOST_CARDS);
  if (self->is_short_of_links)
    write_limit (pen, CRO_WT_LIMIT_LINKS, CRO_WORKBOOK_MOST_LINKS);
  if (source->n_plates + source->n_menus > CRO_WORKBOOK_MOST_NAMED)
    write_limit (pen, CRO_WT_LIMIT_NAMES, CRO_WORKBOOK_MOST_NAMED);
  if (source->lacks_history)
    write_limit (pen, CRO_WT_LIMIT_PRICES, CRO_WORKBOOK_MOST_PRICES);
  if (self->n_cut > 0)
    write_limit (pen, CRO_WT_LIMIT_TEXTS, self->n_cut);
  cro_pen_finish (pen, 0);
  worksheet_set_column (pen->sheet, 0, 0, NOTES_WIDTH, NULL);
  worksheet_set_portrait (pen->sheet);
}
