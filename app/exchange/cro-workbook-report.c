/* The sheets of a report. */
#include "cro-workbook-private.h"

#include <math.h>
#include <string.h>

/* Bars shown at most, and rows above a chart that leave it room on their page. */
#define MOST_BARS 40
#define MOST_ABOVE 12

static CroStyle
style_of_text (CroWorkbookColumnKind kind,
               CroWorkbookRowLook    look,
               gboolean              is_first)
{
  if (look == CRO_WORKBOOK_ROW_NOTE)
    return CRO_STYLE_ABOUT;
  if (look == CRO_WORKBOOK_ROW_HEAD)
    return CRO_STYLE_BLOCK;
  if (look == CRO_WORKBOOK_ROW_TOTAL)
    return CRO_STYLE_TOTAL;
  if (kind == CRO_WORKBOOK_COLUMN_ENTRY)
    return CRO_STYLE_INPUT_TEXT;
  if (kind == CRO_WORKBOOK_COLUMN_SENTENCE)
    return CRO_STYLE_SENTENCE;
  return look == CRO_WORKBOOK_ROW_INDENT && is_first ? CRO_STYLE_INDENT : CRO_STYLE_TEXT;
}

/* An amount over a line that cannot be counted; 0 of which nothing is known. */
static CroStyle
style_of_quantity (CroWorkbookKnown known)
{
  return known == CRO_WORKBOOK_WHOLE      ? CRO_STYLE_QUANTITY
         : known == CRO_WORKBOOK_AT_LEAST ? CRO_STYLE_QUANTITY_AT_LEAST
         : known == CRO_WORKBOOK_UNKNOWN  ? CRO_STYLE_QUANTITY_UNKNOWN
                                          : CRO_STYLE_QUANTITY_INCOMPLETE;
}

static CroStyle
style_of_number (CroWorkbookColumnKind kind,
                 CroWorkbookRowLook    look,
                 CroWorkbookKnown      known)
{
  gboolean is_total = look == CRO_WORKBOOK_ROW_TOTAL;

  switch (kind)
    {
    case CRO_WORKBOOK_COLUMN_MONEY:
      /* All that was paid for what has no price is no variance of a price: nothing here changes with the model. */
      return known == CRO_WORKBOOK_UNKNOWN ? CRO_STYLE_NOT_KNOWN : cro_workbook_money_style (known, is_total);
    case CRO_WORKBOOK_COLUMN_FINE:
      return cro_workbook_fine_style (known);
    case CRO_WORKBOOK_COLUMN_PCT:
      return cro_workbook_known_pct_style (known);
    case CRO_WORKBOOK_COLUMN_DATE:
      return CRO_STYLE_DATE;
    case CRO_WORKBOOK_COLUMN_QUANTITY:
      return is_total ? CRO_STYLE_TOTAL_QUANTITY : style_of_quantity (known);
    default:
      return CRO_STYLE_GENERAL;
    }
}

static void
write_cell (CroPen                  *pen,
            const CroWorkbookSheet  *sheet,
            guint                    column,
            CroWorkbookRowLook       look,
            const CroWorkbookCell   *cell)
{
  CroWorkbookColumnKind kind = sheet->columns[column].kind;
  char letter = (char) ('A' + column);
  CroStyle style = style_of_number (kind, look, cell->known);
  double value = kind == CRO_WORKBOOK_COLUMN_DATE ? cell->value + CRO_DAYS_BEFORE_1970 : cell->value;

  if (cell->formula != NULL)
    cro_pen_formula (pen, letter, style, value, cell->formula, NULL);
  else if (!isnan (cell->value))
    cro_pen_number (pen, letter, style, value);
  else if (cell->text != NULL || kind == CRO_WORKBOOK_COLUMN_ENTRY)
    cro_pen_text (pen, letter, style_of_text (kind, look, column == 0), cell->text);
}

/* Wrapped cells make their row higher before anything is in it. */
static void
write_row (CroPen                 *pen,
           const CroWorkbookSheet *sheet,
           guint32                 row)
{
  const CroWorkbookCell *cells = sheet->cells + (gsize) row * sheet->n_columns;
  CroWorkbookRowLook look = sheet->looks[row];

  for (guint i = 0; i < sheet->n_columns && look == CRO_WORKBOOK_ROW_PLAIN; i++)
    if (sheet->columns[i].kind == CRO_WORKBOOK_COLUMN_SENTENCE && cells[i].text != NULL)
      cro_pen_set_height (pen, cells[i].text, CRO_SENTENCE_WIDTH);
  for (guint i = 0; i < sheet->n_columns; i++)
    write_cell (pen, sheet, i, look, &cells[i]);
  cro_pen_next_row (pen);
}

/* --- Charts ---------------------------------------------------------------------------------- */

static void
add_series (CroPen                 *pen,
            const CroWorkbookSheet *sheet,
            lxw_chart              *chart,
            char                    column,
            guint                   index)
{
  static const lxw_color_t inks[] = { 0x4A5A6A, 0xB9AE98 };
  const CroWorkbookChart *of = &sheet->chart;
  lxw_chart_fill fill = { .color = inks[index % G_N_ELEMENTS (inks)] };
  lxw_chart_line edge = { .color = 0x2A3138, .width = 0.75 };
  lxw_chart_series *series = chart_add_series (chart, NULL, NULL);
  lxw_row_t first = of->first - 1;
  lxw_row_t last = of->kind == CRO_WORKBOOK_CHART_BARS ? MIN (of->last, of->first + MOST_BARS - 1) - 1
                                                       : of->last - 1;

  chart_series_set_categories (series, pen->name, first, (lxw_col_t) (of->categories - 'A'), last,
                               (lxw_col_t) (of->categories - 'A'));
  chart_series_set_values (series, pen->name, first, (lxw_col_t) (column - 'A'), last,
                           (lxw_col_t) (column - 'A'));
  chart_series_set_name (series, sheet->columns[column - 'A'].head);
  if (of->kind == CRO_WORKBOOK_CHART_BARS)
    {
      chart_series_set_fill (series, &fill);
      chart_series_set_line (series, &edge);
      return;
    }
  chart_series_set_marker_type (series, LXW_CHART_MARKER_DIAMOND);
  chart_series_set_marker_fill (series, &fill);
  chart_series_set_marker_line (series, &edge);
}

void
cro_workbook_set_letters (lxw_chart *chart)
{
  lxw_chart_font font = { .size = 11 };

  chart_axis_set_num_font (chart->x_axis, &font);
  chart_axis_set_num_font (chart->y_axis, &font);
  chart_axis_set_name_font (chart->x_axis, &font);
  chart_axis_set_name_font (chart->y_axis, &font);
  chart_legend_set_font (chart, &font);
}

static void
add_chart (CroPen                 *pen,
           const CroWorkbookSheet *sheet)
{
  const CroWorkbookChart *of = &sheet->chart;
  gboolean is_bars = of->kind == CRO_WORKBOOK_CHART_BARS;
  lxw_chart_options place = { .y_offset = 6, .object_position = LXW_OBJECT_MOVE_DONT_SIZE,
                              .x_scale = 1.6, .y_scale = 1.2 };
  guint32 n = of->last - of->first + 1;
  lxw_row_t breaks[] = { pen->row, 0 };
  lxw_chart *chart;

  if (of->kind == CRO_WORKBOOK_CHART_NONE || of->last <= of->first)
    return;
  chart = workbook_add_chart (pen->workbook->book, is_bars ? LXW_CHART_BAR : LXW_CHART_SCATTER);
  for (guint i = 0; of->values[i] != '\0'; i++)
    add_series (pen, sheet, chart, of->values[i], i);
  chart_title_set_name (chart, of->title);
  chart_legend_set_position (chart, of->values[1] != '\0' ? LXW_CHART_LEGEND_BOTTOM
                                                          : LXW_CHART_LEGEND_NONE);
  if (of->x != NULL)
    chart_axis_set_name (chart->x_axis, of->x);
  if (of->y != NULL)
    chart_axis_set_name (chart->y_axis, of->y);
  cro_workbook_set_letters (chart);
  if (sheet->n_rows > MOST_ABOVE)
    worksheet_set_h_pagebreaks (pen->sheet, breaks);
  if (!is_bars && sheet->columns[of->categories - 'A'].kind == CRO_WORKBOOK_COLUMN_PCT)
    chart_axis_set_num_format (chart->x_axis, "0%");
  if (is_bars)
    {
      chart_axis_set_reverse (chart->y_axis);
      chart_axis_set_interval_unit (chart->y_axis, 1);
      chart_axis_set_label_position (chart->y_axis, LXW_CHART_AXIS_LABEL_POSITION_LOW);
      place.y_scale = (80 + 30.0 * MIN (n, MOST_BARS)) / 288;
    }
  worksheet_insert_chart_opt (pen->sheet, pen->row, 0, chart, &place);
}

/* --- Sheets ---------------------------------------------------------------------------------- */

static void
write_sheet (CroPen                 *pen,
             const CroWorkbookSheet *sheet)
{
  cro_pen_title (pen, sheet->title, sheet->about);
  for (guint i = 0; i < sheet->n_columns; i++)
    cro_pen_head (pen, (char) ('A' + i), sheet->columns[i].head);
  cro_pen_next_row (pen);
  worksheet_freeze_panes (pen->sheet, CRO_ROW_HEAD, 1);
  for (guint32 row = 0; row < sheet->n_rows && !pen->workbook->is_cancelled; row++)
    write_row (pen, sheet, row);
  if (sheet->n_filtered > 0)
    worksheet_autofilter (pen->sheet, CRO_ROW_HEAD - 1, 0, CRO_ROW_HEAD + sheet->n_filtered - 1,
                          (lxw_col_t) (sheet->n_columns - 1));
  add_chart (pen, sheet);
  worksheet_ignore_errors (pen->sheet, LXW_IGNORE_NUMBER_STORED_AS_TEXT, "A1:Z1048576");
  pen->group = sheet->group;
  cro_pen_finish (pen, CRO_ROW_HEAD);
}

void
cro_workbook_write_report (CroWorkbook *self)
{
  const CroWorkbookReport *report = self->source->report;

  for (guint i = 0; i < self->n_report; i++)
    write_sheet (&self->report[i], &report->sheets[i]);
}
