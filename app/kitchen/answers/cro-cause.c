#include "cro-cause.h"

#include "cro-cause-order.h"
#include "cro-mass.h"
#include "cro-reach.h"

typedef struct
{
  CroFigures *figures;
  GArray     *causes;
} Walk;

char *
cro_cause_to_text (const CroCause *cause)
{
  static const char *const words[] = { "price", "rate", "density", "piece", "amount",
                                       "value", "wage", "lines",   "lines", "credit" };

  if (cause->name == NULL)
    return g_strdup (words[cause->kind]);
  return g_strconcat (words[cause->kind], " ", cause->name, NULL);
}

static void
add (Walk         *walk,
     CroCauseKind  kind,
     const char   *name)
{
  CroCause cause = { kind, name };

  g_array_append_val (walk->causes, cause);
}

static const char *
name_of_line (Walk     *walk,
              uint32_t  line)
{
  CroModel *model = walk->figures->model;

  return cro_model_item (model, model->lines.item[line])->name;
}

static void
add_mass_lack (uint32_t line,
               CroLack  lack,
               void    *user_data)
{
  cro_causes_add_lacks (((Walk *) user_data)->causes, lack, name_of_line (user_data, line));
}

/* What an output without a finished amount needs: the amount, or the mass it is a part of. */
static void
add_amount (Walk    *walk,
            guint32  slot)
{
  CroFigures *figures = walk->figures;
  CroModel *model = figures->model;
  const CroItem *item = cro_model_item (model, slot);

  add (walk, CRO_CAUSE_AMOUNT, item->name);
  if (item->output.yield > 0)
    cro_mass_input (&figures->graph, cro_figures_row (figures, (guint32) model->maker[slot]),
                    &model->lines, model->measures, add_mass_lack, walk);
}

static void
add_outputs (Walk    *walk,
             guint32  row)
{
  CroFigures *figures = walk->figures;
  CroModel *model = figures->model;
  const guint32 *slots;
  guint32 n = cro_figures_outputs (figures, figures->graph.slot_of_row[row], &slots);

  for (guint32 i = 0; i < n; i++)
    {
      const CroItem *item = cro_model_item (model, slots[i]);
      guint32 node = cro_figures_node (figures, slots[i]);

      cro_causes_add_lacks (walk->causes, item->output.lacks, item->name);
      /* What only this output needs is said where it is taken. */
      if ((item->output.lacks & CRO_OUTPUT_LACKS_AMOUNT)
          && !(figures->own_node_bits[node] & CRO_REACH_INCOMPLETE))
        add_amount (walk, slots[i]);
      if (item->output.lacks & CRO_OUTPUT_LACKS_VALUE)
        add (walk, CRO_CAUSE_VALUE, item->name);
    }
  if (cro_figures_credit_exceeds (figures, row))
    add (walk, CRO_CAUSE_CREDIT, cro_model_item (model, slots[0])->name);
}

static void
visit_row (uint32_t row,
           void    *user_data)
{
  Walk *walk = user_data;
  CroModel *model = walk->figures->model;
  const CroGraph *graph = &walk->figures->graph;
  const CroRecipe *recipe = cro_model_recipe (model, graph->slot_of_row[row]);

  if (graph->first[row] == graph->first[row + 1])
    add (walk, CRO_CAUSE_LINES, recipe->name);
  if (recipe->active_minutes > 0 && model->wage_per_hour == CRO_NOT_SET)
    add (walk, CRO_CAUSE_WAGE, NULL);
  for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
    {
      uint32_t line = graph->line_slot[l];

      cro_causes_add_lacks (
          walk->causes,
          cro_line_lacks (&model->lines, line, &model->measures[model->lines.item[line]]),
          name_of_line (walk, line));
    }
  add_outputs (walk, row);
}

/* Of the first offer that ever had a price. */
static void
add_rate (Walk    *walk,
          guint32  slot)
{
  CroModel *model = walk->figures->model;
  const CroItem *item = cro_model_item (model, slot);

  for (guint32 i = 0; i < item->n_offers; i++)
    {
      const CroOfferEntry *entry = cro_model_offer (
          model, g_array_index (model->offer_order, guint32, item->first_offer + i));

      if (!entry->offer.had_price)
        continue;
      add (walk, CRO_CAUSE_RATE, entry->currency);
      return;
    }
}

static void
add_item (Walk    *walk,
          guint32  slot)
{
  CroFigures *figures = walk->figures;
  const CroItem *item = cro_model_item (figures->model, slot);
  unsigned lacks = figures->offer_lacks[slot];

  if (figures->model->maker[slot] >= 0)
    {
      add_amount (walk, slot);
      return;
    }
  if (lacks & CRO_OFFER_LACKS_PRICE)
    add (walk, CRO_CAUSE_PRICE, item->name);
  if (lacks & CRO_OFFER_LACKS_RATE)
    add_rate (walk, slot);
  cro_causes_add_lacks (walk->causes, lacks, item->name);
}

static void
visit_node (uint32_t node,
            void    *user_data)
{
  Walk *walk = user_data;

  if (walk->figures->own_node_bits[node] & CRO_REACH_INCOMPLETE)
    add_item (walk, walk->figures->graph.item_of_node[node]);
}

GArray *
cro_causes_below (CroFigures *figures)
{
  Walk walk = { figures, g_array_new (FALSE, FALSE, sizeof (CroCause)) };

  cro_reach_walk (&figures->graph, figures->node_bits, figures->row_bits, CRO_REACH_INCOMPLETE,
                  figures->seen_rows, figures->seen_nodes, visit_row, visit_node, &walk);
  return cro_causes_sort_once (walk.causes);
}

GArray *
cro_causes_of_item (CroFigures *figures,
                    guint32     slot)
{
  Walk walk = { figures, NULL };
  guint32 node = cro_figures_node (figures, slot);
  uint32_t row = figures->graph.made_by[node];

  if (!(figures->node_bits[node] & CRO_REACH_INCOMPLETE))
    return g_array_new (FALSE, FALSE, sizeof (CroCause));
  if (row != CRO_NO_ROW)
    cro_dirty_add_row (figures->seen_rows, row);
  walk.causes = cro_causes_below (figures);
  visit_node (node, &walk);
  cro_figures_forget_seen (figures);
  return cro_causes_sort_once (walk.causes);
}

gboolean
cro_causes_lack_contents (GArray *causes)
{
  for (guint i = 0; i < causes->len; i++)
    if (g_array_index (causes, CroCause, i).kind == CRO_CAUSE_LINES
        || g_array_index (causes, CroCause, i).kind == CRO_CAUSE_PLATES)
      return TRUE;
  return FALSE;
}

gboolean
cro_causes_are_of_credit (GArray *causes)
{
  for (guint i = 0; i < causes->len; i++)
    if (g_array_index (causes, CroCause, i).kind != CRO_CAUSE_CREDIT
        && g_array_index (causes, CroCause, i).kind != CRO_CAUSE_WAGE)
      return FALSE;
  return TRUE;
}
