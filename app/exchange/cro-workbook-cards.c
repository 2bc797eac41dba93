/* Cost cards: what a plate's lines cost for all its bites, a bite and a guest. */
#include "cro-workbook-private.h"

#include <math.h>
#include <string.h>

#include "cro-money.h"

typedef struct
{
  CroPen                 *pen;
  const CroWorkbookPlate *plate;
  guint32                 index;
  guint32                 first;       /* line */
  guint32                 allowance;
  guint32                 active;
  guint32                 all;
  guint32                 top;         /* row of its name */
  double                  cost[CRO_WORKBOOK_N_LAYERS];   /* of all bites */
  CroRounded              rounded;     /* lines, then seasoning */
} Card;

static CroPlace
in_card (const Card *card,
         const char *column,
         guint32     row)
{
  return (CroPlace){ NULL, column, card->top + row };
}

static double
or_zero (double value)
{
  return isnan (value) ? 0 : value;
}

/* --- Head: what may be changed at the left, what comes out at the right ------------------------- */

static void
write_input (Card              *card,
             CroWorkbookTextId  label,
             CroStyle           style,
             double             value)
{
  cro_pen_text (card->pen, 'A', CRO_STYLE_TEXT, cro_workbook_text (card->pen->workbook, label));
  cro_pen_number (card->pen, 'B', style, value);
}

/* The plate's own, or that of the book. */
static void
write_book_input (Card              *card,
                  CroWorkbookTextId  label,
                  double             own,
                  double             in_force,
                  guint32            row_of_book)
{
  CroWorkbook *self = card->pen->workbook;
  CroPlace place = { self->summary.quoted, "$B$", row_of_book };

  write_input (card, label, CRO_STYLE_INPUT_PCT, own);
  if (isnan (own))
    cro_pen_formula (card->pen, 'B', cro_workbook_setting_style (in_force), or_zero (in_force),
                     "=@", &place);
}

static void
write_figure (Card              *card,
              CroWorkbookTextId  label,
              CroStyle           style,
              double             value,
              const char        *template,
              const CroPlace    *places)
{
  cro_pen_text (card->pen, 'E', CRO_STYLE_ABOUT, cro_workbook_text (card->pen->workbook, label));
  cro_pen_formula (card->pen, 'I', style, value, template, places);
}

double
cro_workbook_price_up (const CroWorkbook       *self,
                       const CroWorkbookFigure *figure,
                       gboolean                 is_carried)
{
  int digits = self->source->book.digits;
  double price = is_carried && !(figure->net_price > 0) ? NAN : figure->price_for_target;

  return isnan (price) || isinf (price)
             ? price
             : (double) cro_money_round_up (price, digits) / pow (10, digits);
}

char *
cro_workbook_formula_up (const CroWorkbook *self,
                         const char        *condition,
                         const char        *expression)
{
  double scale = pow (10, self->source->book.digits);

  /* What is allowed for is half a minor unit at most (cro-money.h). */
  return g_strdup_printf ("=IF(%s,-INT(MIN(ABS(%s*%.0f)*0.000000001,0.5)-%s*%.0f)/%.0f,\"\")",
                          condition, expression, scale, expression, scale, scale);
}

static void
write_verdict (Card *card)
{
  CroWorkbook *self = card->pen->workbook;
  CroPlace net = in_card (card, "I", CRO_CARD_NET_PRICE);
  CroPlace target = in_card (card, "B", CRO_CARD_TARGET);
  CroPlace cost = in_card (card, "I", CRO_CARD_GUEST);

  CroPlace places[7 + CRO_VERDICT_PLACES]
      = { in_card (card, "B", CRO_CARD_PRICE), target, cost, target, net, target, net };
  g_autofree char *formula = NULL;
  CroVerdict verdict;

  cro_workbook_verdict_init (&verdict, self, CRO_WORKBOOK_PLATE, card->index, &card->plate->figure);
  memcpy (places + 7, verdict.places, verdict.n_places * sizeof *places);
  formula = g_strdup_printf ("=IF(COUNT(@)>0,IF(@>0,IF(@-@*@>0.000000001*@*@,%s,%s),@),@)",
                             verdict.over, verdict.within);
  cro_pen_formula_text (card->pen, 'L', CRO_STYLE_BOLD, verdict.text, formula, places);
  cro_workbook_verdict_clear (&verdict);
}

static void
write_title (Card *card)
{
  CroPen *pen = card->pen;
  CroWorkbook *self = pen->workbook;
  const CroWorkbookSource *source = self->source;
  g_autofree char *missing = source->dup_missing (source->data, CRO_WORKBOOK_PLATE, card->index);
  CroPlace summary = { self->summary.quoted, "A", CRO_ROW_FIRST_PLATE + card->index };

  cro_pen_text (pen, 'A', CRO_STYLE_TITLE, card->plate->name);
  cro_pen_link (pen, 'Q', CRO_STYLE_LINK, cro_workbook_text (self, CRO_WT_SUMMARY), &summary);
  cro_pen_next_row (pen);
  cro_pen_text (pen, 'A', CRO_STYLE_ABOUT,
                missing != NULL ? missing : cro_workbook_text (self, CRO_WT_COMPLETE));
  cro_pen_next_row (pen);
}

/* Of what a plate costs, and what is reckoned from it. */
static CroStyle
cost_style (const Card *card)
{
  return cro_workbook_money_style (card->plate->figure.known[CRO_WORKBOOK_FOOD], FALSE);
}

static void
write_price_for_target (Card *card)
{
  CroPen *pen = card->pen;
  const CroWorkbookFigure *figure = &card->plate->figure;
  gboolean is_carried = pen->workbook->is_carried[card->index];
  CroPlace tax = in_card (card, "B", CRO_CARD_TAX), target = in_card (card, "B", CRO_CARD_TARGET);
  CroPlace cost = in_card (card, "I", CRO_CARD_GUEST);
  CroPlace net = in_card (card, "I", CRO_CARD_NET_PRICE);
  g_autofree char *formula
      = cro_workbook_formula_up (pen->workbook, is_carried ? "AND(@>0,@>0)" : "@>0", "@/@*(1+@)");
  CroPlace places[] = { net, target, cost, target, tax, cost, target, tax };

  write_figure (card, CRO_WT_PRICE_FOR_TARGET, cost_style (card),
                cro_workbook_price_up (pen->workbook, figure, is_carried), formula,
                is_carried ? places : places + 1);
}

static void
write_result (Card     *card,
              CroPlace  net,
              CroPlace  cost)
{
  CroWorkbook *self = card->pen->workbook;
  const CroWorkbookFigure *figure = &card->plate->figure;
  CroPlace places[] = { net, cost, net }, turned[] = { net, cost, net, cost };
  gboolean is_coefficient = self->source->book.result == CRO_WORKBOOK_COEFFICIENT;
  const char *formula = is_coefficient                 ? "=IF(@>0,IF(@>0,@/@,\"\"),\"\")"
                        : cro_workbook_is_turned (self) ? "=IF(@>0,1-@/@,\"\")"
                                                        : "=IF(@>0,@/@,\"\")";

  write_figure (card, cro_workbook_result_text (self), cro_workbook_result_style (self, figure),
                cro_workbook_result_of (self, figure->food_cost_pct), formula,
                is_coefficient ? turned : places);
}

/* The target as the house gives it, under the one that is entered. */
static void
write_turned_target (Card *card)
{
  CroPen *pen = card->pen;
  CroWorkbook *self = pen->workbook;
  CroPlace target = in_card (card, "B", CRO_CARD_TARGET);
  double in_force = card->plate->figure.target_in_force;

  cro_pen_text (pen, 'A', CRO_STYLE_TEXT, cro_workbook_text (self, cro_workbook_target_text (self)));
  cro_pen_formula (pen, 'B', cro_workbook_target_style (self, in_force),
                   cro_workbook_result_of (self, in_force), cro_workbook_target_formula (self),
                   (CroPlace[]){ target, target });
}

static void
write_head (Card *card)
{
  CroPen *pen = card->pen;
  const CroWorkbookPlate *plate = card->plate;
  const CroWorkbookFigure *figure = &plate->figure;
  CroStyle style = cost_style (card);
  CroPlace bite = { NULL, "L", card->all + 1 }, guest = { NULL, "L", card->all + 2 };
  CroPlace disposables = { NULL, "M", guest.row }, labour = { NULL, "N", guest.row };
  CroPlace price = in_card (card, "B", CRO_CARD_PRICE), tax = in_card (card, "B", CRO_CARD_TAX);
  CroPlace cost = in_card (card, "I", CRO_CARD_GUEST);
  CroPlace net = in_card (card, "I", CRO_CARD_NET_PRICE);

  write_input (card, CRO_WT_MAKES, CRO_STYLE_INPUT, plate->makes);
  write_figure (card, CRO_WT_BITE, style, figure->bite, "=@", &bite);
  cro_pen_next_row (pen);
  write_input (card, CRO_WT_PER_GUEST, CRO_STYLE_INPUT, plate->per_guest);
  write_figure (card, CRO_WT_GUEST, style, figure->cost[CRO_WORKBOOK_FOOD], "=@", &guest);
  cro_pen_next_row (pen);
  write_input (card, CRO_WT_ALLOWANCE, CRO_STYLE_INPUT_PCT, plate->allowance);
  write_figure (card, CRO_WT_NET_PRICE, cro_workbook_price_style (figure),
                or_zero (figure->net_price), "=@/(1+@)", (CroPlace[]){ price, tax });
  cro_pen_next_row (pen);
  write_input (card, CRO_WT_MINUTES, CRO_STYLE_INPUT, plate->minutes);
  write_result (card, net, cost);
  write_verdict (card);
  cro_pen_next_row (pen);
  write_input (card, CRO_WT_PRICE, CRO_STYLE_INPUT_MONEY, figure->price);
  write_price_for_target (card);
  cro_pen_next_row (pen);
  write_book_input (card, CRO_WT_TAX, figure->tax, pen->workbook->source->book.tax, CRO_ROW_TAX);
  write_figure (card, CRO_WT_PRIME, style,
                figure->cost[CRO_WORKBOOK_FOOD] + figure->cost[CRO_WORKBOOK_LABOUR], "=@+@",
                (CroPlace[]){ guest, labour });
  cro_pen_next_row (pen);
  write_book_input (card, cro_workbook_target_input_text (pen->workbook), figure->target,
                    pen->workbook->source->book.target, CRO_ROW_TARGET);
  write_figure (card, CRO_WT_DISPOSABLES,
                cro_workbook_money_style (figure->known[CRO_WORKBOOK_DISPOSABLES], FALSE),
                figure->cost[CRO_WORKBOOK_DISPOSABLES], "=@",
                &disposables);
  cro_pen_next_row (pen);
  write_figure (card, CRO_WT_LABOUR,
                cro_workbook_money_style (figure->known[CRO_WORKBOOK_LABOUR], FALSE),
                figure->cost[CRO_WORKBOOK_LABOUR], "=@", &labour);
  if (cro_workbook_is_turned (pen->workbook))
    write_turned_target (card);
  cro_pen_next_row (pen);
}

/* --- Lines ------------------------------------------------------------------------------------------ */

/* Food and disposables together are what every card and the window show of a line. */
static double
shown_of_line (const CroWorkbookLine *line)
{
  return line->charged
         * (line->unit_cost[CRO_WORKBOOK_FOOD] + line->unit_cost[CRO_WORKBOOK_DISPOSABLES]);
}

static double
shown_of_allowance (const CroWorkbookPlate *plate)
{
  return plate->allowance
         * (plate->cost[CRO_WORKBOOK_FOOD] + plate->cost[CRO_WORKBOOK_DISPOSABLES]);
}

static double
shown_total (const Card *card)
{
  return card->cost[CRO_WORKBOOK_FOOD] + card->cost[CRO_WORKBOOK_DISPOSABLES];
}

/* What every line and then the seasoning shows. Owned. */
static double *
dup_parts (const Card *card)
{
  const CroWorkbookSource *source = card->pen->workbook->source;
  guint32 n = card->plate->n_lines;
  double *parts = g_new (double, n + 1);

  for (guint32 i = 0; i < n; i++)
    {
      CroWorkbookLine line;

      source->get_line (source->data, card->plate->first_line + i, &line);
      parts[i] = shown_of_line (&line);
    }
  parts[n] = shown_of_allowance (card->plate);
  return parts;
}

/* What the cost is of a bite, before seasoning, and of all the food; is_exact: the latter is known, whatever is not
 * known of both. */
static void
write_parts (Card            *card,
             double           cost,
             CroWorkbookKnown known,
             gboolean         is_exact)
{
  CroPen *pen = card->pen;
  CroPlace makes = in_card (card, "$B$", 2);
  CroPlace all = { NULL, "L$", card->all };
  double total = card->cost[CRO_WORKBOOK_FOOD];
  double share = total > 0 ? cost / total : 0;

  cro_pen_formula (pen, 'O', cro_workbook_money_style (known, FALSE), cost / card->plate->makes,
                   "=L#/@", &makes);
  cro_pen_formula (pen, 'P',
                   is_exact ? CRO_STYLE_PCT
                            : cro_workbook_share_style (known, card->plate->figure.known[CRO_WORKBOOK_FOOD], share),
                   share, "=IF(@>0,L#/@,0)", (CroPlace[]){ all, all });
}

static void
write_lines (Card *card)
{
  CroPen *pen = card->pen;
  const CroWorkbookSource *source = pen->workbook->source;

  for (guint32 i = 0; i < card->plate->n_lines && !pen->workbook->is_cancelled; i++)
    {
      CroWorkbookLine line;
      double food;

      source->get_line (source->data, card->plate->first_line + i, &line);
      food = line.charged * line.unit_cost[CRO_WORKBOOK_FOOD];
      if (source->n_plates > CRO_WORKBOOK_MOST_CARDS)
        cro_pen_set_level (pen, 1);
      cro_workbook_write_line (pen, &line);
      write_parts (card, food, line.known[CRO_WORKBOOK_FOOD], FALSE);
      cro_rounded_write_part (&card->rounded, pen, i, cro_workbook_known_of_both (line.known));
      cro_pen_next_row (pen);
    }
}

/* Seasoning is on food and disposables, not on labour. */
static void
write_allowance (Card *card)
{
  CroPen *pen = card->pen;
  const CroWorkbookPlate *plate = card->plate;
  CroPlace allowance = in_card (card, "B", 4);
  double food = plate->allowance * plate->cost[CRO_WORKBOOK_FOOD];
  double disposables = plate->allowance * plate->cost[CRO_WORKBOOK_DISPOSABLES];
  gboolean is_empty = plate->n_lines == 0;
  CroWorkbookKnown known[CRO_WORKBOOK_N_LAYERS] = { 0 };

  /* Where there is none nobody misses a part of it. */
  if (plate->allowance > 0)
    memcpy (known, plate->figure.known, sizeof known);

  cro_pen_text (pen, 'A', CRO_STYLE_INDENT, cro_workbook_text (pen->workbook, CRO_WT_ALLOWANCE));
  pen->from = card->first;
  pen->to = card->allowance - 1;
  cro_pen_formula (pen, 'L', cro_workbook_money_style (known[CRO_WORKBOOK_FOOD], FALSE), food,
                   is_empty ? "=0*@" : "=@*SUM(L{:L})",
                   &allowance);
  cro_pen_formula (pen, 'M', cro_workbook_money_style (known[CRO_WORKBOOK_DISPOSABLES], FALSE),
                   disposables, is_empty ? "=0*@" : "=@*SUM(M{:M})", &allowance);
  write_parts (card, food, known[CRO_WORKBOOK_FOOD], food > 0);
  cro_rounded_write_part (&card->rounded, pen, plate->n_lines, cro_workbook_known_of_both (known));
  cro_pen_next_row (pen);
}

static void
write_active_time (Card *card)
{
  CroPen *pen = card->pen;
  CroPlace minutes = in_card (card, "B", 5);
  CroPlace wage = { pen->workbook->summary.quoted, "$B$", CRO_ROW_WAGE };

  cro_pen_text (pen, 'A', CRO_STYLE_INDENT, cro_workbook_text (pen->workbook, CRO_WT_ACTIVE_TIME));
  cro_pen_formula (pen, 'B', CRO_STYLE_GENERAL, card->plate->minutes, "=@", &minutes);
  cro_pen_text (pen, 'C', CRO_STYLE_INDENT, cro_workbook_text (pen->workbook, CRO_WT_MIN));
  cro_pen_formula (pen, 'N', cro_workbook_labour_style (pen->workbook, card->plate->minutes),
                   card->plate->labour, "=B#/60*@", &wage);
  cro_pen_next_row (pen);
}

/* --- Sums ------------------------------------------------------------------------------------------- */

static void
write_sum (Card              *card,
           CroWorkbookTextId  label,
           const double      *cost,
           const char *const *templates,
           const CroPlace    *place)
{
  CroPen *pen = card->pen;

  cro_pen_text (pen, 'A', CRO_STYLE_TOTAL, cro_workbook_text (pen->workbook, label));
  for (char column = 'B'; column <= 'K'; column++)
    cro_pen_number (pen, column, CRO_STYLE_TOTAL, NAN);
  pen->from = card->first;
  pen->to = card->active;
  for (int layer = 0; layer < CRO_WORKBOOK_N_LAYERS; layer++)
    cro_pen_formula (pen, (char) ('L' + layer),
                     cro_workbook_money_style (card->plate->figure.known[layer], TRUE),
                     cost[layer], templates[layer], place);
}

static void
write_sums (Card *card)
{
  static const char *const sums[] = { "=SUM(L{:L})", "=SUM(M{:M})", "=SUM(N{:N})" };
  static const char *const bites[] = { "=L@/@", "=M@/@", "=N@/@" };
  static const char *const guests[] = { "=L@*@", "=M@*@", "=N@*@" };
  CroPen *pen = card->pen;
  const CroWorkbookPlate *plate = card->plate;
  double bite[CRO_WORKBOOK_N_LAYERS];
  CroPlace of_bite[] = { { NULL, "", card->all }, in_card (card, "B", 2) };
  CroPlace of_guest[] = { { NULL, "", card->all + 1 }, in_card (card, "B", 3) };

  for (int layer = 0; layer < CRO_WORKBOOK_N_LAYERS; layer++)
    bite[layer] = card->cost[layer] / plate->makes;
  write_sum (card, CRO_WT_ALL_BITES, card->cost, sums, NULL);
  cro_rounded_write_total (&card->rounded, pen, cro_workbook_known_of_both (plate->figure.known));
  cro_pen_next_row (pen);
  write_sum (card, CRO_WT_A_BITE, bite, bites, of_bite);
  cro_pen_next_row (pen);
  write_sum (card, CRO_WT_A_GUEST, plate->figure.cost, guests, of_guest);
  cro_pen_next_row (pen);
}

/* --- Chart ------------------------------------------------------------------------------------------- */

static void
add_chart (Card *card)
{
  CroPen *pen = card->pen;
  CroWorkbook *self = pen->workbook;
  lxw_chart_fill fill = { .color = 0x4A5A6A };
  lxw_chart_options place = { .y_offset = 6, .object_position = LXW_OBJECT_MOVE_DONT_SIZE };
  lxw_chart *chart;
  lxw_chart_series *series;

  if (card->plate->n_lines < 2)
    return;
  chart = workbook_add_chart (self->book, LXW_CHART_BAR);
  series = chart_add_series (chart, NULL, NULL);
  chart_series_set_categories (series, pen->name, card->first - 1, 0, card->allowance - 1, 0);
  chart_series_set_values (series, pen->name, card->first - 1, 14, card->allowance - 1, 14);
  chart_series_set_fill (series, &fill);
  chart_title_set_name (chart, cro_workbook_text (self, CRO_WT_CHART));
  chart_legend_set_position (chart, LXW_CHART_LEGEND_NONE);
  cro_workbook_set_letters (chart);
  /* In the order of the lines, from the top. */
  chart_axis_set_reverse (chart->y_axis);
  chart_axis_set_interval_unit (chart->y_axis, 1);
  place.x_scale = 1.6;
  /* A bar for each line, 30 of 288 pixels high. */
  place.y_scale = (80 + 30.0 * MIN (card->plate->n_lines + 1, 60)) / 288;
  worksheet_insert_chart_opt (pen->sheet, pen->row, 0, chart, &place);
}

/* --- All cards ---------------------------------------------------------------------------------------- */

static const CroWorkbookTextId heads[] = {
  CRO_WT_ITEM,      CRO_WT_AMOUNT,           CRO_WT_UNIT,           CRO_WT_FACTOR,
  CRO_WT_YIELD,     CRO_WT_RECOVERED,        CRO_WT_CHARGED,        CRO_WT_BASE,
  CRO_WT_UNIT_COST_FOOD, CRO_WT_UNIT_COST_DISPOSABLES, CRO_WT_UNIT_COST_LABOUR,
  CRO_WT_COST_FOOD, CRO_WT_COST_DISPOSABLES, CRO_WT_COST_LABOUR,    CRO_WT_OF_BITE,
  CRO_WT_PART,      CRO_WT_NOTE,             CRO_WT_PRINTED,        CRO_WT_FRACTION,
  CRO_WT_WHOLE_UNITS, CRO_WT_MINOR_UNITS,
};

static void
measure (Card *card)
{
  const CroWorkbookPlate *plate = card->plate;

  card->first = card->top + CRO_CARD_LINES;
  card->allowance = card->first + plate->n_lines;
  card->active = card->allowance + 1;
  card->all = card->active + 1;
  for (int layer = 0; layer < CRO_WORKBOOK_N_LAYERS; layer++)
    card->cost[layer] = plate->cost[layer]
                        * (layer == CRO_WORKBOOK_LABOUR ? 1 : 1 + plate->allowance);
  card->rounded.column = 'R';
  card->rounded.exact = "L#+M#";
  card->rounded.first_row = card->first;
  card->rounded.total_row = card->all;
  cro_rounded_init (&card->rounded, card->pen->workbook, dup_parts (card), plate->n_lines + 1,
                    shown_total (card));
}

static void
write_card (CroWorkbook *self,
            guint32      index)
{
  CroWorkbookPlate plate;
  Card card = { .pen = self->card[index].pen, .plate = &plate, .index = index,
                .top = self->card[index].row };

  self->source->get_plate (self->source->data, index, &plate);
  measure (&card);
  write_title (&card);
  write_head (&card);
  cro_pen_heads (card.pen, heads, G_N_ELEMENTS (heads));
  write_lines (&card);
  write_allowance (&card);
  write_active_time (&card);
  write_sums (&card);
  if (self->n_cards == self->source->n_plates)
    add_chart (&card);
  cro_pen_next_row (card.pen);
  cro_rounded_clear (&card.rounded);
}

/* How the printed column is rounded stands in columns that are folded away. */
static void
finish_card (CroPen *pen,
             gboolean is_joint)
{
  lxw_row_col_options folded = { .hidden = LXW_TRUE, .level = 1 };

  pen->last_printed = 'R';
  cro_pen_finish (pen, is_joint ? 0 : CRO_CARD_HEADS + 1);
  worksheet_set_column_opt (pen->sheet, 18, 20, 9, NULL, &folded);
  if (!is_joint)
    worksheet_freeze_panes (pen->sheet, CRO_CARD_HEADS + 1, 1);
}

void
cro_workbook_write_cards (CroWorkbook *self)
{
  gboolean is_joint = self->n_cards < self->source->n_plates;

  for (guint32 i = 0; i < self->source->n_plates && !self->is_cancelled; i++)
    write_card (self, i);
  for (guint i = 0; i < self->n_cards; i++)
    finish_card (&self->cards[i], is_joint);
}
