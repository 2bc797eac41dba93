#include "cro-workbook-private.h"

#include <math.h>

/* Base units of the item in one unit of the line, as a formula over the table of units and the
 * item's density and piece weight. What is not set counts as 0 and so charges nothing. */
static void
write_factor (CroPen                *pen,
              const CroWorkbookLine *line)
{
  CroWorkbook *self = pen->workbook;
  CroBase from = cro_unit_get (line->unit)->base;
  CroPlace unit = cro_workbook_unit_place (self, line->unit);
  CroPlace density = cro_workbook_density (self, line->item);
  CroPlace piece = cro_workbook_piece (self, line->item);
  CroPlace into = line->base == CRO_BASE_MILLILITRE ? density : piece;
  CroPlace out_of = from == CRO_BASE_MILLILITRE ? density : piece;
  CroStyle style = line->factor > 0 ? CRO_STYLE_GENERAL : CRO_STYLE_GENERAL_UNKNOWN;

  if (from == line->base)
    cro_pen_formula (pen, 'D', style, line->factor, "=@", &unit);
  else if (line->base == CRO_BASE_GRAM)
    cro_pen_formula (pen, 'D', style, line->factor, "=@*@",
                     (CroPlace[]){ unit, out_of });
  else if (from == CRO_BASE_GRAM)
    cro_pen_formula (pen, 'D', style, line->factor, "=IF(@>0,@/@,0)",
                     (CroPlace[]){ into, unit, into });
  else
    cro_pen_formula (pen, 'D', style, line->factor, "=IF(@>0,@*@/@,0)",
                     (CroPlace[]){ into, unit, out_of, into });
}

static void
write_yield (CroPen                *pen,
             const CroWorkbookLine *line)
{
  CroPlace trim = cro_workbook_item_place (pen->workbook, line->item, "F");

  if (line->yield_from == CRO_WORKBOOK_YIELD_TRIM)
    cro_pen_formula (pen, 'E', CRO_STYLE_PCT_EXACT, line->yield, "=IF(@>0,@,1)",
                     (CroPlace[]){ trim, trim });
  else
    cro_pen_number (pen, 'E', CRO_STYLE_INPUT_PCT, line->yield);
}

/* One layer: what a base unit costs, read where the item stands, and what the line does. */
static void
write_cost (CroPen                *pen,
            const CroWorkbookLine *line,
            int                    layer,
            const char            *column_of_item)
{
  static const char *const products[] = { "=G#*I#", "=G#*J#", "=G#*K#" };
  CroPlace place = cro_workbook_item_place (pen->workbook, line->item, column_of_item);

  cro_pen_formula (pen, (char) ('I' + layer), cro_workbook_fine_style (line->known[layer]),
                   line->unit_cost[layer], "=@", &place);
  cro_pen_formula (pen, (char) ('L' + layer), cro_workbook_money_style (line->known[layer], FALSE),
                   line->charged * line->unit_cost[layer], products[layer], NULL);
}

static void
write_name (CroPen                *pen,
            const CroWorkbookLine *line)
{
  CroWorkbook *self = pen->workbook;
  CroPlace made = cro_workbook_item_place (self, line->item, "A");
  gboolean is_made = !cro_workbook_is_bought (self, line->item);
  gboolean is_linked = is_made && self->n_line_links < CRO_WORKBOOK_MOST_LINKS / 2;

  self->n_line_links += is_linked;
  self->is_short_of_links |= is_made && !is_linked;
  if (!is_linked)
    cro_pen_text (pen, 'A', CRO_STYLE_INDENT, line->name);
  else
    cro_pen_link (pen, 'A', CRO_STYLE_LINK_INDENT, line->name, &made);
}

void
cro_workbook_write_line (CroPen                *pen,
                         const CroWorkbookLine *line)
{
  static const char *const columns[] = { "I", "J", "K" };

  write_name (pen, line);
  cro_pen_number (pen, 'B', CRO_STYLE_INPUT, line->amount);
  cro_pen_text (pen, 'C', CRO_STYLE_INDENT, cro_unit_get (line->unit)->code);
  write_factor (pen, line);
  write_yield (pen, line);
  cro_pen_number (pen, 'F', CRO_STYLE_INPUT_PCT, line->recovered);
  cro_pen_formula (pen, 'G', line->factor > 0 ? CRO_STYLE_QUANTITY : CRO_STYLE_QUANTITY_UNKNOWN,
                   line->charged, "=B#*D#*(1-F#)/E#", NULL);
  cro_pen_text (pen, 'H', CRO_STYLE_INDENT, cro_unit_get (cro_base_unit (line->base))->code);
  if (cro_workbook_is_bought (pen->workbook, line->item))
    write_cost (pen, line, line->is_disposable ? CRO_WORKBOOK_DISPOSABLES : CRO_WORKBOOK_FOOD, "G");
  else
    for (int layer = 0; layer < CRO_WORKBOOK_N_LAYERS; layer++)
      write_cost (pen, line, layer, columns[layer]);
  if (line->note != NULL)
    cro_pen_text (pen, 'Q', CRO_STYLE_NOTE, line->note);
}
