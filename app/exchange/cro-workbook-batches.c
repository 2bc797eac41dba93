/* The sheet of preparations: what goes into each batch, and how its cost lands on what it gives. */
#include "cro-workbook-private.h"

#include <math.h>

#include "cro-rule.h"

#define NO_HEAD CRO_N_WORKBOOK_TEXTS

/* A block's rows. */
typedef struct
{
  CroPen                 *pen;
  const CroWorkbookBatch *batch;
  guint32                 index;
  guint32                 first;       /* line */
  guint32                 active;
  guint32                 sums;
  guint32                 main;        /* output */
  gboolean                in_grams;    /* the sharing by weight is in grams */
} Block;

/* --- Head and lines ---------------------------------------------------------------------------- */

/* Back to where it is used first. */
static void
write_use (Block *block)
{
  CroWorkbook *self = block->pen->workbook;
  const CroWorkbookSource *source = self->source;
  g_autofree char *text = NULL;
  CroPlace place;

  if (block->batch->used_by != CRO_WORKBOOK_NONE)
    {
      CroWorkbookBatch user;

      source->get_batch (source->data, block->batch->used_by, &user);
      place = (CroPlace){ self->preparations.quoted, "A", self->batch_row[block->batch->used_by] };
      text = g_strconcat (cro_workbook_text (self, CRO_WT_USED_IN), cro_workbook_text (self, CRO_WT_COLON), user.name,
                          NULL);
    }
  else if (block->batch->used_on != CRO_WORKBOOK_NONE)
    {
      CroWorkbookPlate user;

      source->get_plate (source->data, block->batch->used_on, &user);
      place = cro_workbook_card_place (self, block->batch->used_on, "A", 0);
      text = g_strconcat (cro_workbook_text (self, CRO_WT_USED_IN), cro_workbook_text (self, CRO_WT_COLON), user.name,
                          NULL);
    }
  if (text != NULL)
    cro_pen_link (block->pen, 'R', CRO_STYLE_BLOCK_LINK, text, &place);
}

static void
write_head (Block *block)
{
  CroPen *pen = block->pen;
  const CroWorkbookSource *source = pen->workbook->source;

  g_autofree char *missing = source->dup_missing (source->data, CRO_WORKBOOK_BATCH, block->index);
  CroWorkbookTextId rule = CRO_WT_RULE_FIRST + block->batch->rule;

  cro_pen_text (pen, 'A', CRO_STYLE_BLOCK, block->batch->name);
  cro_pen_text (pen, 'B', CRO_STYLE_BLOCK_SPILL,
                block->batch->n_outputs > 1 ? cro_workbook_text (pen->workbook, rule) : NULL);
  for (char column = 'C'; column < 'Q'; column++)
    cro_pen_number (pen, column, CRO_STYLE_BLOCK_NOTE, NAN);
  cro_pen_text (pen, 'Q', CRO_STYLE_BLOCK_SPILL, missing);
  write_use (block);
  cro_pen_next_row (pen);
}

/* Grams that a line brings, and 1 where nobody knows: a batch of which a part cannot be weighed
 * has no mass, and its yields give nothing. */
static void
write_grams (CroPen                *pen,
             const CroWorkbookLine *line)
{
  CroWorkbook *self = pen->workbook;
  CroBase from = cro_unit_get (line->unit)->base;
  CroPlace unit = cro_workbook_unit_place (self, line->unit);
  CroPlace of_base = from == CRO_BASE_MILLILITRE ? cro_workbook_density (self, line->item)
                                                 : cro_workbook_piece (self, line->item);
  double grams = isnan (line->grams) ? 0 : line->grams;

  if (line->is_disposable)
    return;
  if (from == CRO_BASE_GRAM)
    {
      cro_pen_formula (pen, 'O', CRO_STYLE_QUANTITY, grams, "=B#*@*(1-F#)", &unit);
      return;
    }
  cro_pen_formula (pen, 'O', isnan (line->grams) ? CRO_STYLE_QUANTITY_UNKNOWN : CRO_STYLE_QUANTITY,
                   grams, "=B#*@*@*(1-F#)", (CroPlace[]){ unit, of_base });
  cro_pen_formula (pen, 'P', CRO_STYLE_LACK, isnan (line->grams), "=IF(@>0,0,1)", &of_base);
}

static void
write_active_time (Block *block)
{
  CroPen *pen = block->pen;
  CroPlace wage = { pen->workbook->summary.quoted, "$B$", CRO_ROW_WAGE };

  cro_pen_set_level (pen, 1);
  cro_pen_text (pen, 'A', CRO_STYLE_INDENT, cro_workbook_text (pen->workbook, CRO_WT_ACTIVE_TIME));
  cro_pen_number (pen, 'B', CRO_STYLE_INPUT, block->batch->minutes);
  cro_pen_text (pen, 'C', CRO_STYLE_INDENT, cro_workbook_text (pen->workbook, CRO_WT_MIN));
  cro_pen_formula (pen, 'N', cro_workbook_labour_style (pen->workbook, block->batch->minutes),
                   block->batch->labour, "=B#/60*@", &wage);
  cro_pen_next_row (pen);
}

/* Grams, and how many food lines cannot be weighed, are summed on the way. */
static guint
write_lines (Block  *block,
             double *grams)
{
  CroPen *pen = block->pen;
  const CroWorkbookSource *source = pen->workbook->source;
  guint n_unweighed = 0;

  for (guint32 i = 0; i < block->batch->n_lines; i++)
    {
      CroWorkbookLine line;

      source->get_line (source->data, block->batch->first_line + i, &line);
      cro_pen_set_level (pen, 1);
      cro_workbook_write_line (pen, &line);
      write_grams (pen, &line);
      if (!line.is_disposable && isnan (line.grams))
        n_unweighed++;
      else if (!line.is_disposable)
        *grams += line.grams;
      cro_pen_next_row (pen);
    }
  return n_unweighed;
}

/* --- Sums ----------------------------------------------------------------------------------------- */

/* Money is conserved: what goes in is what the outputs bear, but for the last digits of sums. So a
 * difference is told as a part of what went in, where that is more than one. */
static void
write_gaps (Block *block)
{
  static const char *const templates[]
      = { "=ROUND((L#-SUM(L{:L}))/MAX(1,L#,-L#),6)", "=ROUND((M#-SUM(M{:M}))/MAX(1,M#,-M#),6)",
          "=ROUND((N#-SUM(N{:N}))/MAX(1,N#,-N#),6)" };
  CroPen *pen = block->pen;

  pen->from = block->main;
  pen->to = block->main + block->batch->n_outputs - 1;
  if (!block->batch->is_complete || block->batch->n_outputs == 0)
    return;
  for (int layer = 0; layer < CRO_WORKBOOK_N_LAYERS; layer++)
    cro_pen_formula (pen, (char) ('X' + layer), CRO_STYLE_MONEY,
                     cro_workbook_gap (pen->workbook, block->batch, layer), templates[layer], NULL);
}

static void
write_sums (Block  *block,
            double  grams,
            guint   n_unweighed)
{
  static const char *const templates[] = { "=SUM(L{:L})", "=SUM(M{:M})", "=SUM(N{:N})" };
  CroPen *pen = block->pen;
  const CroWorkbookBatch *batch = block->batch;

  pen->from = block->first;
  pen->to = block->active;
  cro_pen_text (pen, 'A', CRO_STYLE_TOTAL, cro_workbook_text (pen->workbook, CRO_WT_THE_BATCH));
  for (char column = 'B'; column <= 'K'; column++)
    cro_pen_number (pen, column, CRO_STYLE_TOTAL, NAN);
  for (int layer = 0; layer < CRO_WORKBOOK_N_LAYERS; layer++)
    cro_pen_formula (pen, (char) ('L' + layer),
                     cro_workbook_money_style (batch->known[layer], TRUE), batch->cost[layer],
                     templates[layer], NULL);
  cro_pen_formula (pen, 'O', CRO_STYLE_TOTAL_QUANTITY, grams, "=SUM(O{:O})", NULL);
  cro_pen_formula (pen, 'P', CRO_STYLE_LACK, n_unweighed, "=SUM(P{:P})", NULL);
  write_gaps (block);
  cro_pen_next_row (pen);
}

/* --- Outputs --------------------------------------------------------------------------------------- */

/* The finished amount, and what of it is lost: as written, or a yield of the batch's grams if all of it can be
 * weighed. */
static void
write_amount (Block                   *block,
              const CroWorkbookOutput *output)
{
  CroPen *pen = block->pen;
  CroPlace unit = cro_workbook_unit_place (pen->workbook, output->unit);
  CroPlace lacks = { NULL, "P", block->sums }, grams = { NULL, "O", block->sums };
  gboolean is_yield = !(output->amount > 0) && output->yield > 0;
  CroStyle style = output->finished > 0 ? CRO_STYLE_QUANTITY : CRO_STYLE_QUANTITY_UNKNOWN;

  cro_pen_text (pen, 'C', CRO_STYLE_INDENT, cro_unit_get (output->unit)->code);
  cro_pen_formula (pen, 'D', CRO_STYLE_GENERAL, cro_unit_factor (output->unit), "=@", &unit);
  if (is_yield)
    {
      cro_pen_number (pen, 'E', CRO_STYLE_INPUT_PCT, output->yield);
      cro_pen_formula (pen, 'G', style, output->finished, "=IF(@=0,E#*@,0)",
                       (CroPlace[]){ lacks, grams });
    }
  else
    {
      cro_pen_number (pen, 'B', CRO_STYLE_INPUT, output->amount);
      cro_pen_formula (pen, 'G', style, output->finished, "=B#*D#", NULL);
    }
  cro_pen_number (pen, 'F', CRO_STYLE_INPUT_PCT, output->lost);
  cro_pen_text (pen, 'H', CRO_STYLE_INDENT, cro_unit_get (cro_base_unit (output->base))->code);
}

static gboolean
needs_value (const Block *block,
             gboolean     is_main)
{
  return cro_rule_needs_value (block->batch->rule, is_main);
}

static gboolean
is_shared (const Block *block)
{
  return cro_rule_shares (block->batch->rule);
}

/* Piece weight or density is what an output by weight may lack beside its amount. */
static const char *
grams_of_base (const CroWorkbookOutput *output)
{
  return output->base == CRO_BASE_EACH ? "T" : output->base == CRO_BASE_MILLILITRE ? "S" : NULL;
}

static void
write_lacks (Block                   *block,
             const CroWorkbookOutput *output,
             gboolean                 is_main)
{
  CroPen *pen = block->pen;
  const char *column = block->in_grams ? grams_of_base (output) : NULL;
  CroPlace grams = { NULL, column, pen->row };
  double of_base = output->base == CRO_BASE_EACH ? output->piece : output->density;
  int lacks = !(output->finished > 0);

  if (cro_rule_frees (block->batch->rule) && !is_main)
    return;
  if (needs_value (block, is_main))
    cro_pen_formula (pen, 'P', CRO_STYLE_LACK, lacks + isnan (output->value),
                     "=IF(G#>0,0,1)+IF(R#=\"\",1,0)", NULL);
  else if (column != NULL)
    cro_pen_formula (pen, 'P', CRO_STYLE_LACK, lacks + !(of_base > 0),
                     "=IF(G#>0,0,1)+IF(@>0,0,1)", &grams);
  else
    cro_pen_formula (pen, 'P', CRO_STYLE_LACK, lacks, "=IF(G#>0,0,1)", NULL);
}

/* What one base unit counts in the sharing. */
static void
write_weight (Block                   *block,
              const CroWorkbookOutput *output)
{
  CroPen *pen = block->pen;
  const char *column = block->in_grams ? grams_of_base (output) : NULL;
  CroPlace grams = { NULL, column, pen->row };

  if (cro_rule_values (block->batch->rule))
    cro_pen_formula (pen, 'V', CRO_STYLE_GENERAL, output->value_of_base, "=U#", NULL);
  else if (column == NULL)
    cro_pen_number (pen, 'V', CRO_STYLE_GENERAL, 1);
  else
    {
      double of_base = output->base == CRO_BASE_EACH ? output->piece : output->density;

      cro_pen_formula (pen, 'V', CRO_STYLE_GENERAL, isnan (of_base) ? 0 : of_base, "=IF(@>0,@,0)",
                       (CroPlace[]){ grams, grams });
    }
}

/* The part of the batch's cost that one base unit bears. */
static void
write_share (Block                   *block,
             const CroWorkbookOutput *output,
             gboolean                 is_main)
{
  CroPen *pen = block->pen;

  if (is_shared (block))
    {
      write_weight (block, output);
      cro_pen_formula (pen, 'W', CRO_STYLE_SHARE, output->share,
                       "=IF(SUM(P{:P})=0,IF(SUMPRODUCT(V{:V},G{:G})>0,"
                       "V#/SUMPRODUCT(V{:V},G{:G})/(1-F#),0),0)", NULL);
    }
  else if (is_main)
    cro_pen_formula (pen, 'W', CRO_STYLE_SHARE, output->share, "=IF(G#>0,1/(G#*(1-F#)),0)", NULL);
  else
    cro_pen_number (pen, 'W', CRO_STYLE_SHARE, 0);
}

/* Under credits the by-product costs its value, and the main output is credited with it. */
static void
write_food_cost (Block                   *block,
                 const CroWorkbookOutput *output,
                 gboolean                 is_main)
{
  CroPen *pen = block->pen;
  CroPlace cost = { NULL, "L$", block->sums };
  double value = output->unit_cost[CRO_WORKBOOK_FOOD];
  CroStyle style = cro_workbook_fine_style (output->known[CRO_WORKBOOK_FOOD]);

  if (cro_rule_credits (block->batch->rule) && !is_main)
    cro_pen_formula (pen, 'I', style, value, "=U#", NULL);
  else if (cro_rule_credits (block->batch->rule) && block->batch->n_outputs > 1)
    {
      pen->from = block->main + 1;
      cro_pen_formula (pen, 'I', style, value,
                       "=IF(G#>0,(@-SUMPRODUCT(U{:U},G{:G},1-F{:F}))/(G#*(1-F#)),0)", &cost);
      pen->from = block->main;
    }
  else
    cro_pen_formula (pen, 'I', style, value, "=W#*@", &cost);
}

static void
write_unit_costs (Block                   *block,
                  const CroWorkbookOutput *output,
                  gboolean                 is_main)
{
  static const char *const borne[] = { "=G#*(1-F#)*I#", "=G#*(1-F#)*J#", "=G#*(1-F#)*K#" };
  CroPen *pen = block->pen;
  CroPlace disposables = { NULL, "M$", block->sums }, labour = { NULL, "N$", block->sums };

  write_food_cost (block, output, is_main);
  cro_pen_formula (pen, 'J', cro_workbook_fine_style (output->known[CRO_WORKBOOK_DISPOSABLES]),
                   output->unit_cost[CRO_WORKBOOK_DISPOSABLES], "=W#*@", &disposables);
  cro_pen_formula (pen, 'K', cro_workbook_fine_style (output->known[CRO_WORKBOOK_LABOUR]),
                   output->unit_cost[CRO_WORKBOOK_LABOUR], "=W#*@", &labour);
  for (int layer = 0; layer < CRO_WORKBOOK_N_LAYERS; layer++)
    cro_pen_formula (pen, (char) ('L' + layer),
                     cro_workbook_money_style (output->known[layer], FALSE),
                     output->used * output->unit_cost[layer], borne[layer], NULL);
}

static void
write_output (Block                   *block,
              const CroWorkbookOutput *output,
              gboolean                 is_main)
{
  CroPen *pen = block->pen;

  cro_pen_text (pen, 'A', CRO_STYLE_BOLD, output->name);
  write_amount (block, output);
  write_unit_costs (block, output, is_main);
  write_lacks (block, output, is_main);
  cro_pen_text (pen, 'Q', CRO_STYLE_NOTE,
                cro_workbook_text (pen->workbook, is_main ? CRO_WT_MAIN : CRO_WT_BY_PRODUCT));
  cro_pen_number (pen, 'R', CRO_STYLE_INPUT, output->value);
  cro_pen_number (pen, 'S', CRO_STYLE_INPUT, output->density);
  cro_pen_number (pen, 'T', CRO_STYLE_INPUT, output->piece);
  if (needs_value (block, is_main))
    cro_pen_formula (pen, 'U', CRO_STYLE_FINE, output->value_of_base, "=R#/D#", NULL);
  write_share (block, output, is_main);
  cro_pen_next_row (pen);
}

/* By weight, outputs of one measure need no grams; pieces always do. */
static gboolean
shares_in_grams (const CroWorkbookSource *source,
                 const CroWorkbookBatch  *batch)
{
  CroWorkbookOutput first, output;

  for (guint32 i = 0; i < batch->n_outputs; i++)
    {
      source->get_output (source->data, batch->first_output + i, &output);
      if (i == 0)
        first = output;
      if (output.base != first.base || output.base == CRO_BASE_EACH)
        return cro_rule_weighs (batch->rule);
    }
  return FALSE;
}

static void
write_outputs (Block *block)
{
  CroPen *pen = block->pen;
  const CroWorkbookSource *source = pen->workbook->source;

  block->in_grams = shares_in_grams (source, block->batch);
  pen->from = block->main;
  pen->to = block->main + block->batch->n_outputs - 1;
  for (guint32 i = 0; i < block->batch->n_outputs; i++)
    {
      CroWorkbookOutput output;

      source->get_output (source->data, block->batch->first_output + i, &output);
      write_output (block, &output, i == 0);
    }
}

static void
write_batch (CroPen  *pen,
             guint32  index)
{
  const CroWorkbookSource *source = pen->workbook->source;
  CroWorkbookBatch batch;
  Block block = { .pen = pen, .batch = &batch, .index = index };
  double grams = 0;
  guint n_unweighed;

  source->get_batch (source->data, index, &batch);
  block.first = pen->row + 1;
  block.active = block.first + batch.n_lines;
  block.sums = block.active + 1;
  block.main = block.sums + 1;
  write_head (&block);
  n_unweighed = write_lines (&block, &grams);
  write_active_time (&block);
  write_sums (&block, grams, n_unweighed);
  write_outputs (&block);
  cro_pen_next_row (pen);
}

void
cro_workbook_write_preparations (CroWorkbook *self)
{
  static const CroWorkbookTextId heads[] = {
    CRO_WT_ITEM,      CRO_WT_AMOUNT,         CRO_WT_UNIT,      CRO_WT_FACTOR,
    CRO_WT_YIELD,     CRO_WT_BACK_OR_LOST,   CRO_WT_CHARGED,   CRO_WT_BASE,
    CRO_WT_UNIT_COST_FOOD, CRO_WT_UNIT_COST_DISPOSABLES, CRO_WT_UNIT_COST_LABOUR,
    CRO_WT_COST_FOOD, CRO_WT_COST_DISPOSABLES, CRO_WT_COST_LABOUR,
    CRO_WT_GRAMS,     CRO_WT_LACKS,          CRO_WT_NOTE,      CRO_WT_VALUE,
    CRO_WT_DENSITY,   CRO_WT_PIECE,          CRO_WT_VALUE_OF_BASE, CRO_WT_WEIGHT,
    CRO_WT_SHARE,     CRO_WT_LEFT_FOOD,      CRO_WT_LEFT_DISPOSABLES, CRO_WT_LEFT_LABOUR,
  };
  CroPen *pen = &self->preparations;

  cro_pen_top (pen, cro_workbook_text (self, CRO_WT_PREPARATIONS),
               cro_workbook_text (self, CRO_WT_ABOUT_PREPARATIONS), heads, G_N_ELEMENTS (heads));
  for (guint32 i = 0; i < self->source->n_batches && !self->is_cancelled; i++)
    write_batch (pen, i);
  cro_pen_finish (pen, CRO_ROW_HEAD);
}
