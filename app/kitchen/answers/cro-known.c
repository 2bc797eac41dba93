#include "cro-known.h"

#include <math.h>
#include <string.h>

#include "cro-landing.h"
#include "cro-reach.h"
#include "cro-rule.h"

static CroKnown
known (gboolean is_incomplete,
       gboolean has_credit,
       double   known_sum)
{
  if (!is_incomplete)
    return CRO_KNOWN_WHOLE;
  if (isnan (known_sum) || known_sum == 0)
    return CRO_KNOWN_NOTHING;
  return has_credit ? CRO_KNOWN_IN_PART : CRO_KNOWN_AT_LEAST;
}

CroKnown
cro_known_of_bits (guint64 bits,
                   double  known_sum)
{
  return known ((bits & CRO_REACH_INCOMPLETE) != 0, (bits & CRO_REACH_CREDIT) != 0, known_sum);
}

CroKnown
cro_known_of_cost (const CroFigure *figure)
{
  return known (figure->is_incomplete, figure->has_credit, figure->cost);
}

CroKnown
cro_known_of_cheapest (const CroFigure *figure)
{
  return known (figure->is_cheapest_open, figure->has_credit, figure->cheapest);
}

CroKnown
cro_known_of_dearest (const CroFigure *figure)
{
  return known (figure->is_dearest_open, figure->has_credit, figure->dearest);
}

static guint32
item_of_cause (CroModel       *model,
               const CroCause *cause)
{
  for (guint32 item = 0; item < model->items->len; item++)
    if (cro_model_item (model, item)->name == cause->name)
      return item;
  return CRO_NO_SLOT;
}

/* A by-product beside a main output that bears all labour and disposables of their batch: what it lacks leaves
 * these whole. */
static gboolean
is_of_unburdened (CroModel       *model,
                  const CroCause *cause)
{
  guint32 item = item_of_cause (model, cause);

  return item != CRO_NO_SLOT && model->maker[item] >= 0 && !cro_model_item (model, item)->is_main
         && !cro_rule_shares ((CroRule) cro_model_recipe (model, (guint32) model->maker[item])->rule);
}

static gboolean
is_of_bought (CroModel       *model,
              const CroCause *cause)
{
  guint32 item = item_of_cause (model, cause);

  return item != CRO_NO_SLOT && model->measures[item].is_bought;
}

CroKnown
cro_known_of_labour (CroModel        *model,
                     const CroFigure *figure,
                     GArray          *causes)
{
  for (guint i = 0; i < causes->len; i++)
    switch (g_array_index (causes, CroCause, i).kind)
      {
      case CRO_CAUSE_PRICE:
      case CRO_CAUSE_RATE:
      case CRO_CAUSE_CREDIT:
        break;
      case CRO_CAUSE_DENSITY:
      case CRO_CAUSE_PIECE:
        if (is_of_bought (model, &g_array_index (causes, CroCause, i)))
          break;
        return known (TRUE, FALSE, figure->labour);
      case CRO_CAUSE_AMOUNT:
      case CRO_CAUSE_VALUE:
        if (is_of_unburdened (model, &g_array_index (causes, CroCause, i)))
          break;
        return known (TRUE, FALSE, figure->labour);
      default:
        return known (TRUE, FALSE, figure->labour);
      }
  return CRO_KNOWN_WHOLE;
}

gboolean
cro_known_has_labour (const CroModel *model,
                      double          labour,
                      CroKnown        known)
{
  return labour > 0 || known != CRO_KNOWN_WHOLE || model->wage_per_hour == 0;
}

/* --- Disposables -------------------------------------------------------------------------------- */

/* A price that is missing, or a credit, is of one item alone. */
static gboolean
is_of_more (CroModel *model,
            GArray   *causes)
{
  for (guint i = 0; i < causes->len; i++)
    switch (g_array_index (causes, CroCause, i).kind)
      {
      case CRO_CAUSE_PRICE:
      case CRO_CAUSE_RATE:
      case CRO_CAUSE_CREDIT:
      case CRO_CAUSE_WAGE:
        break;
      case CRO_CAUSE_AMOUNT:
      case CRO_CAUSE_VALUE:
        if (is_of_unburdened (model, &g_array_index (causes, CroCause, i)))
          break;
        return TRUE;
      default:
        return TRUE;
      }
  return FALSE;
}

static void
mark_plates (CroFigures *figures,
             CroRef      thing,
             guint64    *ends)
{
  if (thing.kind == CRO_REF_RECIPE)
    cro_dirty_add_row (ends, cro_figures_row (figures, thing.slot));
  if (thing.kind == CRO_REF_ITEM && figures->model->maker[thing.slot] >= 0)
    cro_dirty_add_row (ends, figures->graph.made_by[cro_figures_node (figures, thing.slot)]);
  for (guint i = 0; thing.kind == CRO_REF_MENU && i < figures->model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (figures->model->menu_plates, CroMenuPlate, i);

      if (!entry->is_dead && entry->menu == thing.slot)
        cro_dirty_add_row (ends, cro_figures_row (figures, entry->plate));
    }
}

/* A menu without plates: of that nobody knows anything. */
static gboolean
is_empty (GArray *causes)
{
  return causes->len == 1 && g_array_index (causes, CroCause, 0).kind == CRO_CAUSE_PLATES;
}

/* Whether something is missing of what disposables stand below. */
static gboolean
lacks_disposables (CroFigures *figures,
                   CroRef      thing,
                   gboolean    is_of_all)
{
  const CroGraph *graph = &figures->graph;
  g_autofree guint64 *ends = g_new0 (guint64, graph->n_rows / 64 + 1);
  g_autofree guint64 *rows = g_new0 (guint64, graph->n_rows / 64 + 1);
  g_autofree guint64 *nodes = g_new0 (guint64, graph->n_items / 64 + 1);

  mark_plates (figures, thing, ends);
  cro_reach_down (graph, ends, rows, nodes);
  for (guint32 node = 0; node < graph->n_raws; node++)
    if (nodes[node / 64] >> node % 64 & 1
        && cro_model_item (figures->model, graph->item_of_node[node])->is_disposable
        && (is_of_all || (figures->own_node_bits[node] & CRO_REACH_INCOMPLETE)))
      return TRUE;
  return FALSE;
}

CroKnown
cro_known_of_disposables (CroFigures      *figures,
                          CroRef           thing,
                          const CroFigure *figure,
                          GArray          *causes)
{
  if (figure->is_incomplete && !is_empty (causes)
      && !lacks_disposables (figures, thing, is_of_more (figures->model, causes)))
    return CRO_KNOWN_WHOLE;
  return known (figure->is_incomplete, FALSE, figure->disposables);
}

/* --- Food and labour ---------------------------------------------------------------------------- */

CroKnown
cro_known_of_prime (const CroFigure *figure)
{
  return known (figure->is_incomplete, figure->has_credit, figure->cost + figure->labour);
}

/* What is missing of its batch is no part of it: a by-product that is free, or has an assigned value. */
static gboolean
costs_by_itself (CroModel *model,
                 guint32   slot)
{
  const CroItem *item = cro_model_item (model, slot);
  CroRule rule;

  if (model->maker[slot] < 0 || item->is_main)
    return FALSE;
  rule = (CroRule) cro_model_recipe (model, (guint32) model->maker[slot])->rule;
  return cro_rule_frees (rule) || (cro_rule_credits (rule) && item->output.has_value);
}

CroKnown
cro_known_of_item (CroFigures *figures,
                   guint32     item)
{
  double unit_cost = cro_figures_unit_cost (figures, item);

  if (costs_by_itself (figures->model, item))
    return CRO_KNOWN_WHOLE;
  return isnan (unit_cost)
             ? CRO_KNOWN_NOTHING
             : cro_known_of_bits (figures->node_bits[cro_figures_node (figures, item)], unit_cost);
}

CroKnown
cro_known_of_taken (CroFigures *figures,
                    guint32     item,
                    double      cost)
{
  const CroOutput *output = &cro_model_item (figures->model, item)->output;

  /* What is taken of it needs an amount, costing.md §7. */
  return costs_by_itself (figures->model, item) && (output->amount > 0 || output->yield > 0)
             ? CRO_KNOWN_WHOLE
             : cro_known_of_bits (figures->node_bits[cro_figures_node (figures, item)], cost);
}

CroKnown
cro_known_of_by_products (GArray *causes)
{
  for (guint i = 0; i < causes->len; i++)
    switch (g_array_index (causes, CroCause, i).kind)
      {
      case CRO_CAUSE_AMOUNT:
      case CRO_CAUSE_VALUE:
      case CRO_CAUSE_DENSITY:
      case CRO_CAUSE_PIECE:
        return CRO_KNOWN_IN_PART;
      default:
        break;
      }
  return CRO_KNOWN_WHOLE;
}

/* Marks what of a row's lines cannot be counted: the item, or the row that gives it. */
static void
mark_uncounted (CroFigures *figures,
                guint32     row,
                guint64    *ends,
                guint64    *nodes)
{
  const CroGraph *graph = &figures->graph;

  for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
    {
      guint32 node = graph->part[l], giver = graph->made_by[node];

      if (cro_line_lacks (&figures->model->lines, graph->line_slot[l],
                          &figures->model->measures[graph->item_of_node[node]]) == CRO_LACKS_NOTHING
          && (giver == CRO_NO_ROW || !isnan (cro_figures_unit_cost (figures, graph->item_of_node[node]))))
        continue;
      if (giver != CRO_NO_ROW)
        cro_dirty_add_row (ends, giver);
      else
        nodes[node / 64] |= (guint64) 1 << node % 64;
    }
}

guint64 *
cro_known_list_uncounted (CroFigures *figures,
                          CroRef      thing)
{
  const CroGraph *graph = &figures->graph;
  g_autofree guint64 *ends = g_new0 (guint64, graph->n_rows / 64 + 1);
  g_autofree guint64 *rows = g_new0 (guint64, graph->n_rows / 64 + 1);
  g_autofree guint64 *below = g_new0 (guint64, graph->n_items / 64 + 1);
  guint64 *nodes = g_new0 (guint64, graph->n_items / 64 + 1);

  mark_plates (figures, thing, ends);
  cro_reach_down (graph, ends, rows, below);
  memset (ends, 0, (graph->n_rows / 64 + 1) * sizeof *ends);
  if (thing.kind == CRO_REF_ITEM && isnan (cro_figures_unit_cost (figures, thing.slot)))
    mark_plates (figures, thing, ends);
  for (guint32 row = 0; row < graph->n_rows; row++)
    if (rows[row / 64] >> row % 64 & 1)
      mark_uncounted (figures, row, ends, nodes);
  cro_reach_down (graph, ends, rows, below);
  for (gsize i = 0; i < graph->n_items / 64 + 1; i++)
    nodes[i] |= below[i];
  return nodes;
}

CroKnown
cro_known_of_share_of (CroFigures    *figures,
                       const guint64 *uncounted,
                       guint32        item)
{
  CroKnown known = cro_known_of_item (figures, item);
  guint32 node = cro_figures_node (figures, item);

  return known == CRO_KNOWN_WHOLE && (uncounted[node / 64] >> node % 64 & 1) ? CRO_KNOWN_AT_LEAST : known;
}

CroKnown
cro_known_of_recipe (CroFigures *figures,
                     guint32     recipe)
{
  const CroGraph *graph = &figures->graph;
  guint32 row = cro_figures_row (figures, recipe);
  guint64 bits = graph->first[row] == graph->first[row + 1] ? CRO_REACH_INCOMPLETE : 0;

  /* As all that is made of it, by costing.md §7. */
  if (figures->model->wage_per_hour == CRO_NOT_SET && cro_model_recipe (figures->model, recipe)->active_minutes > 0)
    bits |= CRO_REACH_INCOMPLETE;
  for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
    {
      bits |= figures->node_bits[graph->part[l]];
      if (!cro_line_is_known (figures, graph->line_slot[l]))
        bits |= CRO_REACH_INCOMPLETE;
    }
  return cro_known_of_bits (bits, cro_landing_total (figures, recipe));
}

CroKnown
cro_known_of_credit (CroModel *model,
                     guint32   item)
{
  const CroOutput *output = &cro_model_item (model, item)->output;

  return output->has_value && output->used > 0 ? CRO_KNOWN_WHOLE : CRO_KNOWN_NOTHING;
}

static CroKnown
known_less_credits (CroFigures *figures,
                    guint32     preparation,
                    CroKnown    of_batch)
{
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (figures, preparation, &outputs);

  if (n > 1 && of_batch != CRO_KNOWN_WHOLE)
    return CRO_KNOWN_IN_PART;
  for (guint32 i = 1; i < n; i++)
    if (cro_known_of_credit (figures->model, outputs[i]) != CRO_KNOWN_WHOLE)
      return CRO_KNOWN_IN_PART;
  return of_batch;
}

CroKnown
cro_known_of_landing (CroFigures *figures,
                      guint32     preparation,
                      CroRule     rule,
                      guint32     output,
                      gboolean    is_shared)
{
  CroKnown of_batch = cro_known_of_recipe (figures, preparation);

  if (!is_shared)
    return CRO_KNOWN_NOTHING;
  if (output > 0 && !cro_rule_shares (rule))
    return CRO_KNOWN_WHOLE;
  return cro_rule_credits (rule) ? known_less_credits (figures, preparation, of_batch) : of_batch;
}

CroKnown
cro_known_of_share (CroKnown of_part,
                    double   part,
                    CroKnown of_cost)
{
  if (of_part == CRO_KNOWN_NOTHING || of_cost == CRO_KNOWN_WHOLE)
    return of_part;
  if (of_part != CRO_KNOWN_WHOLE)
    return CRO_KNOWN_IN_PART;
  return part < 0 ? of_cost : cro_known_turned (of_cost);
}

CroKnown
cro_known_of_sum (CroKnown a,
                  CroKnown b)
{
  if (a == CRO_KNOWN_WHOLE || a == b)
    return b;
  return b == CRO_KNOWN_WHOLE ? a : CRO_KNOWN_IN_PART;
}

CroKnown
cro_known_turned (CroKnown known)
{
  return known == CRO_KNOWN_AT_LEAST  ? CRO_KNOWN_AT_MOST
         : known == CRO_KNOWN_AT_MOST ? CRO_KNOWN_AT_LEAST
                                      : known;
}
