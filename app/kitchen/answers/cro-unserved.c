#include "cro-unserved.h"

#include <math.h>
#include <string.h>

#include "cro-reach.h"

typedef struct
{
  CroFigures *figures;
  GArray     *list;
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
           GArray     *list)
{
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (figures, preparation, &outputs);

  if (!(figures->own_row_bits[cro_figures_row (figures, preparation)] & CRO_REACH_DOUBT))
    return;
  for (guint32 i = 0; i < n; i++)
    if (!cro_figures_is_served (figures, outputs[i]))
      {
        CroUnserved unserved = { outputs[i], money_of (figures, outputs[i]) };

        g_array_append_val (list, unserved);
      }
}

GArray *
cro_unserved_of_batch (CroFigures *figures,
                       guint32     preparation)
{
  GArray *list = g_array_new (FALSE, FALSE, sizeof (CroUnserved));

  add_batch (figures, preparation, list);
  return list;
}

static void
visit_row (uint32_t row,
           void    *user_data)
{
  Walk *walk = user_data;

  add_batch (walk->figures, walk->figures->graph.slot_of_row[row], walk->list);
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
  return strcmp (cro_model_item (model, ((const CroUnserved *) a)->item)->name,
                 cro_model_item (model, ((const CroUnserved *) b)->item)->name);
}

GArray *
cro_unserved_below (CroFigures *figures)
{
  Walk walk = { figures, g_array_new (FALSE, FALSE, sizeof (CroUnserved)) };

  cro_reach_walk (&figures->graph, figures->node_bits, figures->row_bits, CRO_REACH_DOUBT,
                  figures->seen_rows, figures->seen_nodes, visit_row, visit_node, &walk);
  g_array_sort_with_data (walk.list, compare_names, figures->model);
  return walk.list;
}

char *
cro_unserved_to_text (CroModel          *model,
                      const CroUnserved *unserved)
{
  return g_strconcat ("nothing takes ", cro_model_item (model, unserved->item)->name, NULL);
}
