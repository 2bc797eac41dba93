#include "cro-doubt.h"

#include <math.h>
#include <string.h>

#include "cro-reach.h"

typedef struct
{
  CroFigures *figures;
  GArray     *doubts;
} Walk;

static double
money_of (CroFigures *figures,
          guint32     item)
{
  const CroOutput *output = &cro_model_item (figures->model, item)->output;

  if (!output->is_known || !(output->used > 0))
    return NAN;
  return output->used
         * figures->layers[CRO_LAYER_FOOD].unit_cost[cro_figures_node (figures, item)];
}

static void
add_batch (CroFigures *figures,
           guint32     preparation,
           GArray     *doubts)
{
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (figures, preparation, &outputs);

  if (!(figures->own_row_bits[cro_figures_row (figures, preparation)] & CRO_REACH_DOUBT))
    return;
  for (guint32 i = 0; i < n; i++)
    if (!cro_figures_is_served (figures, outputs[i]))
      {
        CroDoubt doubt = { outputs[i], money_of (figures, outputs[i]) };

        g_array_append_val (doubts, doubt);
      }
}

GArray *
cro_doubts_of_batch (CroFigures *figures,
                     guint32     preparation)
{
  GArray *doubts = g_array_new (FALSE, FALSE, sizeof (CroDoubt));

  add_batch (figures, preparation, doubts);
  return doubts;
}

static void
visit_row (uint32_t row,
           void    *user_data)
{
  Walk *walk = user_data;

  add_batch (walk->figures, walk->figures->graph.slot_of_row[row], walk->doubts);
}

static void
visit_node (uint32_t node,
            void    *user_data)
{
}

static int
compare_names (gconstpointer a,
               gconstpointer b,
               gpointer      model)
{
  return strcmp (cro_model_item (model, ((const CroDoubt *) a)->item)->name,
                 cro_model_item (model, ((const CroDoubt *) b)->item)->name);
}

GArray *
cro_doubts_below (CroFigures *figures)
{
  Walk walk = { figures, g_array_new (FALSE, FALSE, sizeof (CroDoubt)) };

  cro_reach_walk (&figures->graph, figures->node_bits, figures->row_bits, CRO_REACH_DOUBT,
                  figures->seen_rows, figures->seen_nodes, visit_row, visit_node, &walk);
  g_array_sort_with_data (walk.doubts, compare_names, figures->model);
  return walk.doubts;
}

char *
cro_doubt_to_text (CroModel       *model,
                   const CroDoubt *doubt)
{
  return g_strconcat ("nothing takes ", cro_model_item (model, doubt->item)->name, NULL);
}
