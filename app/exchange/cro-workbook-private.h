/* cro-workbook-private.h: a workbook while it is being written, and the pen that writes a sheet.
 *
 * A sheet's rows are written from the top and never again: nothing but the row at hand is in
 * memory. So that a formula can name a cell of any sheet, where everything stands is planned
 * before the first cell. */
#pragma once

#include <xlsxwriter.h>

#include "cro-formula.h"
#include "cro-sheet-name.h"
#include "cro-workbook-style.h"

G_BEGIN_DECLS

/* Rows as a person sees them, from 1. */
#define CRO_ROW_WAGE 4
#define CRO_ROW_TAX 5
#define CRO_ROW_TARGET 6
#define CRO_ROW_TIES 7
#define CRO_ROW_HEAD 4            /* of every sheet but the summary and the cards */
#define CRO_ROW_FIRST 5
#define CRO_ROW_FIRST_PLATE 10

/* Rows of a card's block, from that of its name. */
#define CRO_CARD_BITE 2
#define CRO_CARD_GUEST 3
#define CRO_CARD_NET_PRICE 4
#define CRO_CARD_FOOD_COST_PCT 5
#define CRO_CARD_FOR_TARGET 6
#define CRO_CARD_PRIME 7
#define CRO_CARD_DISPOSABLES 8
#define CRO_CARD_LABOUR 9
#define CRO_CARD_HEADS 10
#define CRO_CARD_LINES 11
#define CRO_CARD_PRICE 6
#define CRO_CARD_TAX 7
#define CRO_CARD_TARGET 8

#define CRO_N_COLUMNS 26

/* Days from 1899-12-30, which spreadsheets count from, to 1970-01-01. */
#define CRO_DAYS_BEFORE_1970 25569

/* A column of wrapped text is as wide as this. */
#define CRO_SENTENCE_WIDTH 30

/* What formulas say. */
typedef enum
{
  CRO_WORD_OVER,
  CRO_WORD_WITHIN,
  CRO_WORD_NO_TARGET,
  CRO_WORD_NO_PRICE,
  CRO_WORD_CHEAPER,
  CRO_WORD_TIES,
  CRO_WORD_DIFFERS,
  CRO_WORD_ALL_TIE,
  CRO_WORD_NOT_ALL,
  CRO_WORD_OPEN,
  CRO_WORD_CHANGED,
  CRO_WORD_AS_WRITTEN,
  CRO_WORD_NOT_AS_WRITTEN,
  CRO_N_WORDS,
} CroWord;

typedef struct _CroWorkbook CroWorkbook;

typedef struct
{
  CroWorkbook   *workbook;
  lxw_worksheet *sheet;
  const char    *name;
  char          *quoted;          /* 'Name'! */
  guint32        row;             /* at hand */
  guint32        from, to;        /* what { and } mean in a formula's template */
  guint          widths[CRO_N_COLUMNS];
  char           last_printed;    /* column; 0: all are */
  char           group;           /* column before which pages part, if they do; 0: none */
  guint32        last_row;        /* printed; 0: all are */
} CroPen;

/* Where a card stands. */
typedef struct
{
  CroPen  *pen;
  guint32  row;                   /* of its name */
  guint32  n_lines;
} CroCardPlace;

struct _CroWorkbook
{
  const CroWorkbookSource *source;
  const char *const       *texts;
  lxw_workbook            *book;
  lxw_format              *styles[CRO_N_STYLES];
  CroSheetNames           *names;

  CroPen  summary, preparations, ingredients, prices, units, totals, notes;
  CroPen *report;                 /* a sheet each */
  guint   n_report;
  CroPen *cards;                  /* one for each plate, or one for all */
  guint   n_cards;

  guint32      *item_row;         /* of every item, in Ingredients or Preparations */
  guint32      *batch_row;        /* of its head */
  CroCardPlace *card;             /* of every plate */
  guint32      *menu_row;         /* of every menu, in Summary */
  gboolean     *is_carried;       /* of every plate: a menu has it */
  guint32       n_rows;           /* of all sheets together */
  guint32       last_batch_row, last_ingredient_row;

  CroFormula  formula;
  guint32     rows_written;
  gboolean    is_cancelled;
  gboolean    failed;             /* a sheet could not be made */
  guint       n_links;
  guint       n_line_links;       /* half of all at most: the others lead from sheet to sheet */
  gboolean    is_short_of_links;
  guint       n_cut;              /* texts cut to what a cell holds */

  double      sum_of_guests;      /* what the control totals are reckoned to say … */
  CroWorkbookKnown known_of_guests; /* … and how much is known of it */
  guint       n_costed;           /* ingredients that have an offer */
  double      smallest_gap[CRO_WORKBOOK_N_LAYERS];
  double      largest_gap[CRO_WORKBOOK_N_LAYERS];
  gboolean    all_tie;
};

static inline const char *
cro_workbook_text (const CroWorkbook *self,
                   CroWorkbookTextId  id)
{
  return self->texts[id];
}

/* --- The plan (cro-workbook-plan.c) --------------------------------------------------------- */

/* FALSE where a sheet would need more rows than it can hold. */
gboolean cro_workbook_plan        (CroWorkbook        *self,
                                   GError            **error);

/* What goes into a batch less what its outputs bear. */
double   cro_workbook_gap         (CroWorkbook            *self,
                                   const CroWorkbookBatch *batch,
                                   int                     layer);

/* The cell in column of an item's row. */
CroPlace cro_workbook_item_place  (CroWorkbook        *self,
                                   guint32             item,
                                   const char         *column);
gboolean cro_workbook_is_bought   (const CroWorkbook  *self,
                                   guint32             item);

/* Density or piece weight of an item. */
CroPlace cro_workbook_density     (CroWorkbook        *self,
                                   guint32             item);
CroPlace cro_workbook_piece       (CroWorkbook        *self,
                                   guint32             item);
CroPlace cro_workbook_unit_place  (CroWorkbook        *self,
                                   CroUnit             unit);
CroPlace cro_workbook_card_place  (CroWorkbook        *self,
                                   guint32             plate,
                                   const char         *column,
                                   guint32             row);

CroPlace cro_workbook_word        (CroWorkbook        *self,
                                   CroWord             word);
const char *cro_workbook_word_text (CroWorkbook       *self,
                                   CroWord             word);

/* --- Cells (cro-workbook-pen.c). Columns are letters ------------------------------------------- */

void cro_pen_next_row     (CroPen            *pen);
void cro_pen_set_level    (CroPen            *pen,
                           guint8             level);
/* Room for a text that is wrapped at width, before the row's first cell: not every program makes
 * it by itself. */
void cro_pen_set_height   (CroPen            *pen,
                           const char        *text,
                           guint              width);
void cro_pen_text         (CroPen            *pen,
                           char               column,
                           CroStyle           style,
                           const char        *text);
/* An empty cell where value is NaN. */
void cro_pen_number       (CroPen            *pen,
                           char               column,
                           CroStyle           style,
                           double             value);
/* What the template says of its row; see cro_formula_set. NaN: the formula gives "". */
void cro_pen_formula      (CroPen            *pen,
                           char               column,
                           CroStyle           style,
                           double             value,
                           const char        *template,
                           const CroPlace    *places);
void cro_pen_formula_text (CroPen            *pen,
                           char               column,
                           CroStyle           style,
                           const char        *text,
                           const char        *template,
                           const CroPlace    *places);
/* A text that leads to a cell; the text alone once there are too many of them. */
void cro_pen_link         (CroPen            *pen,
                           char               column,
                           CroStyle           style,
                           const char        *text,
                           const CroPlace    *place);
/* Title, what is said under it, and the row of heads, which stays in sight. Heads: one for each
 * column from A, CRO_N_WORKBOOK_TEXTS an empty one; ends with that of the last column. */
void cro_pen_title        (CroPen                  *pen,
                           const char              *title,
                           const char              *about);
/* One of them; the row is left to the caller. */
void cro_pen_head         (CroPen                  *pen,
                           char                     column,
                           const char              *text);
void cro_pen_heads        (CroPen                  *pen,
                           const CroWorkbookTextId *heads,
                           guint                    n);
void cro_pen_top          (CroPen                  *pen,
                           const char              *title,
                           const char              *about,
                           const CroWorkbookTextId *heads,
                           guint                    n);
/* Widths and what the printer needs; when all rows are written. Columns go on as many pages beside each
 * other as leave the text legible. head: the row to repeat on
 * every page where they stand below each other alone; 0: none. */
void cro_pen_finish       (CroPen            *pen,
                           guint32            head);

/* --- Sheets -------------------------------------------------------------------------------------- */

/* A line of a batch or a card, columns A to N; leaves the row at hand. */
void cro_workbook_write_line         (CroPen                *pen,
                                      const CroWorkbookLine *line);
void cro_workbook_write_units        (CroWorkbook           *self);
void cro_workbook_write_prices       (CroWorkbook           *self);
void cro_workbook_write_ingredients  (CroWorkbook           *self);
void cro_workbook_write_preparations (CroWorkbook           *self);
void cro_workbook_write_cards        (CroWorkbook           *self);
void cro_workbook_write_summary      (CroWorkbook           *self);
void cro_workbook_write_report       (CroWorkbook           *self);
/* Letters as large as those of cells, so that they are as legible on paper. */
void cro_workbook_set_letters        (lxw_chart             *chart);
void cro_workbook_write_totals       (CroWorkbook           *self);
void cro_workbook_write_notes        (CroWorkbook           *self);

/* Over or within its target, or that it has none, or no price; or that what is missing decides: the text,
 * and parts of a formula with their places in order, those of over, of within, and one each for no
 * target and no price. */
#define CRO_VERDICT_MOST 8
#define CRO_VERDICT_PLACES (2 * (CRO_VERDICT_MOST + 2) + 2)

typedef struct
{
  const char *text;
  char       *over, *within;
  CroPlace    places[CRO_VERDICT_PLACES];
  guint       n_places;
} CroVerdict;

void     cro_workbook_verdict_init  (CroVerdict              *self,
                                     CroWorkbook             *workbook,
                                     CroWorkbookKind          kind,
                                     guint32                  index,
                                     const CroWorkbookFigure *figure);
void     cro_workbook_verdict_clear (CroVerdict              *self);
/* Whether all control totals tie, once the sheets that they are of are written. */
gboolean cro_workbook_all_tie        (const CroWorkbook      *self);
CroStyle cro_workbook_money_style    (CroWorkbookKnown       known,
                                      gboolean               is_total);
/* Of what a base unit costs, and of a percentage. */
CroStyle cro_workbook_fine_style     (CroWorkbookKnown       known);
CroStyle cro_workbook_known_pct_style (CroWorkbookKnown      known);
/* Of a part of all, which may be known less than both: as a fraction of it. */
CroStyle cro_workbook_share_style    (CroWorkbookKnown       of_part,
                                      CroWorkbookKnown       of_all,
                                      double                 share);
/* Of a sum with one more part. */
CroWorkbookKnown cro_workbook_known_of_sum (CroWorkbookKnown   sum,
                                            CroWorkbookKnown   part);
/* Of food and disposables together. */
CroWorkbookKnown cro_workbook_known_of_both (const CroWorkbookKnown *known);
/* Of what is left when the cost is taken from it. */
CroStyle cro_workbook_left_style     (CroWorkbookKnown       known);
/* Of what a number of minutes costs: nobody knows without a wage. */
CroStyle cro_workbook_labour_style   (const CroWorkbook     *self,
                                      double                 minutes);
/* Of a price, and what it comes to: 0 is one, and a dash stands where there is none. */
CroStyle cro_workbook_price_style    (const CroWorkbookFigure *figure);
/* Of a tax or target that is read from another cell: likewise. */
CroStyle cro_workbook_setting_style  (double                  in_force);
/* Of a food-cost percentage, told from its target. */
CroStyle cro_workbook_pct_style      (const CroWorkbookFigure *figure);

/* What the house gives in place of a food-cost percentage (cro-workbook-result.c). Turned: it is none,
 * and percentages and targets that formulas take stand in columns of their own on the summary. */
gboolean cro_workbook_is_turned      (const CroWorkbook      *self);
char     cro_workbook_pct_column     (const CroWorkbook      *self);
char     cro_workbook_target_column  (const CroWorkbook      *self);
CroWorkbookTextId cro_workbook_result_text (const CroWorkbook *self);
CroWorkbookTextId cro_workbook_target_text (const CroWorkbook *self);
CroWorkbookTextId cro_workbook_target_input_text (const CroWorkbook *self);
/* Of a food-cost percentage; NaN where there is none. */
double   cro_workbook_result_of      (const CroWorkbook      *self,
                                      double                  pct);
CroStyle cro_workbook_result_style   (const CroWorkbook       *self,
                                      const CroWorkbookFigure *figure);
CroStyle cro_workbook_target_style   (const CroWorkbook       *self,
                                      double                   in_force);
/* Of a target, turned, from its place, which stands in it twice. */
const char *cro_workbook_target_formula (const CroWorkbook   *self);

/* The price that meets the target, as it is written (rounded up to the minor unit: cro-money.h), and
 * the formula of it from an expression of places, which stands in it twice. NaN: there is none, and
 * none of a plate that is given with a menu until it has a price of its own. */
double cro_workbook_price_up         (const CroWorkbook       *self,
                                      const CroWorkbookFigure *figure,
                                      gboolean                 is_carried);
char *cro_workbook_formula_up        (const CroWorkbook      *self,
                                      const char             *condition,
                                      const char             *expression);

/* Parts in a column of rows that are shown so that they add up (cro-workbook-rounded.c). */
typedef struct
{
  char        column;      /* the first of four */
  const char *exact;       /* formula of a row's exact cost, without "=" */
  guint32     first_row;   /* of the parts, which stand below each other */
  guint32     total_row;
  double     *parts;
  guint32     n;
  gint64      sum;         /* minor units */
  gint64     *minor;       /* of each part; NULL: too many to round by formulas */
} CroRounded;

/* Takes parts over; column, exact and rows are set before. total: of which they are the parts. */
void     cro_rounded_init              (CroRounded             *self,
                                        const CroWorkbook      *workbook,
                                        double                 *parts,
                                        guint32                 n,
                                        double                  total);
void     cro_rounded_clear             (CroRounded             *self);
void     cro_rounded_write_part        (const CroRounded       *self,
                                        CroPen                 *pen,
                                        guint32                 index,
                                        CroWorkbookKnown        known);
void     cro_rounded_write_total       (const CroRounded       *self,
                                        CroPen                 *pen,
                                        CroWorkbookKnown        known);

/* Choices of a menu: how often plate i is taken, into column C of the row that is written; and the cheapest and
 * the dearest way, a row each, under the plates of the menu that stands in menu_row. */
void     cro_workbook_write_taken      (CroPen                 *pen,
                                        const CroWorkbookEntry *entries,
                                        guint32                 n,
                                        guint32                 i,
                                        guint32                 first_row);
void     cro_workbook_write_ways       (CroPen                 *pen,
                                        const CroWorkbookMenu  *menu,
                                        const CroWorkbookEntry *entries,
                                        guint32                 menu_row);

G_END_DECLS
