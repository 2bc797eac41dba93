#include "cro-moves-known.h"

#include "cro-rule.h"

CroKnown
cro_moves_known (guint open)
{
  return open == 0                ? CRO_KNOWN_WHOLE
         : open == CRO_MOVES_ROSE ? CRO_KNOWN_AT_LEAST
         : open == CRO_MOVES_FELL ? CRO_KNOWN_AT_MOST
                                  : CRO_KNOWN_IN_PART;
}

/* Whether an output should bear a share of its batch that nobody knows; one that is free, or carries its
 * assigned value, bears none. */
static gboolean
lacks_share (CroFigures *figures,
             guint32     row,
             guint32     node)
{
  const CroItem *item = cro_model_item (figures->model, figures->graph.item_of_node[node]);
  CroRule rule = (CroRule) cro_model_recipe (figures->model, figures->graph.slot_of_row[row])->rule;

  return !item->output.is_known && (item->is_main || cro_rule_shares (rule));
}

static gboolean
is_converted (CroFigures *figures,
              guint32     position)
{
  const CroModel *model = figures->model;
  guint32 line = figures->graph.line_slot[position];

  return cro_line_lacks (&model->lines, line, &model->measures[model->lines.item[line]]) == CRO_LACKS_NOTHING;
}

/* --- Upwards -------------------------------------------------------------------------------------- */

guint8 *
cro_moves_open_rows (CroFigures *figures,
                     guint8     *moved)
{
  const CroGraph *graph = &figures->graph;
  g_autofree guint8 *open = g_new0 (guint8, graph->n_items + 1);
  guint8 *open_rows = g_new0 (guint8, graph->n_rows + 1);

  for (guint32 node = 0; node < graph->n_raws; node++)
    open[node] = moved[node] == CRO_MOVES_NOT_KNOWN ? moved[node] : 0;
  for (guint32 row = 0; row < graph->n_rows; row++)
    {
      guint8 moved_below = 0;

      for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
        {
          guint32 part = graph->part[l];
          gboolean is_exact = is_converted (figures, l);

          if (is_exact && graph->quantity[l] == 0)
            continue;
          moved_below |= moved[part];
          open_rows[row] |= is_exact ? open[part] : moved[part];
        }
      for (guint32 node = graph->made[row]; node < graph->made[row + 1]; node++)
        {
          gboolean lacks = lacks_share (figures, row, node);

          moved[node] = lacks || figures->share[node] != 0 ? moved_below : 0;
          open[node] = lacks ? moved_below : figures->share[node] != 0 ? open_rows[row] : 0;
        }
    }
  return open_rows;
}

/* --- Downwards ------------------------------------------------------------------------------------ */

static gboolean
is_row_open (CroFigures   *figures,
             const guint8 *open,
             guint32       row)
{
  const CroGraph *graph = &figures->graph;

  for (guint32 node = graph->made[row]; node < graph->made[row + 1]; node++)
    if ((open[node] || figures->effect[node] != 0) && lacks_share (figures, row, node))
      return TRUE;
    else if (open[node] && figures->share[node] != 0)
      return TRUE;
  return FALSE;
}

/* What uses an output of a row stands behind it. */
guint8 *
cro_moves_open_nodes (CroFigures *figures)
{
  const CroGraph *graph = &figures->graph;
  guint8 *open = g_new0 (guint8, graph->n_items + 1);

  for (guint32 row = (guint32) graph->n_rows; row-- > 0;)
    {
      gboolean is_open = is_row_open (figures, open, row);

      if (!is_open && figures->row_effect[row] == 0)
        continue;
      for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
        {
          gboolean is_exact = is_converted (figures, l);

          open[graph->part[l]] |= is_exact ? is_open && graph->quantity[l] != 0 : 1;
        }
    }
  return open;
}
