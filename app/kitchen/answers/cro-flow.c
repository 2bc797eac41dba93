#include "cro-flow.h"

#include <math.h>

#include "cro-effects.h"
#include "cro-known.h"
#include "cro-menu-ways.h"
#include "cro-reach.h"
#include "cro-rule.h"

/* Less than that of what goes through a node is how doubles end. */
#define DUST 1e-9

typedef struct
{
  CroFigures *figures;
  CroFlow    *flow;
  GHashTable *of_row;      /* row + 1 → node */
  GHashTable *of_item;     /* item slot + 1 → node */
  CroRef      thing;
} Flow;

static CroFlowNode *
node_at (Flow  *self,
         guint  i)
{
  return &g_array_index (self->flow->nodes, CroFlowNode, i);
}

static guint
add_node (Flow        *self,
          CroFlowKind  kind,
          guint32      slot)
{
  CroFlowNode node = { .kind = kind, .slot = slot, .is_weighed = TRUE };

  g_array_append_val (self->flow->nodes, node);
  return self->flow->nodes->len - 1;
}

/* An end of its own beside a node. */
static void
add_end (Flow        *self,
         guint        node,
         CroFlowKind  kind,
         guint32      slot,
         double       money,
         double       grams)
{
  CroFlowLink link = { .nearer = node, .line = CRO_NO_SLOT, .money = money, .grams = grams };

  if (money == 0 && grams == 0)
    return;
  link.farther = add_node (self, kind, slot);
  node_at (self, link.farther)->money = money;
  node_at (self, link.farther)->grams = grams;
  node_at (self, link.farther)->is_weighed = node_at (self, node)->is_weighed;
  g_array_append_val (self->flow->links, link);
}

static double
grams_of_base (Flow    *self,
               guint32  item)
{
  const CroMeasure *measure = &self->figures->model->measures[item];

  return measure->grams[measure->base];
}

/* --- Nodes ------------------------------------------------------------------------------------ */

static guint
node_of_row (Flow    *self,
             guint32  row)
{
  CroModel *model = self->figures->model;
  guint32 recipe = self->figures->graph.slot_of_row[row];
  gpointer found = g_hash_table_lookup (self->of_row, GUINT_TO_POINTER (row + 1));
  const guint32 *outputs;
  guint node;

  if (found != NULL)
    return GPOINTER_TO_UINT (found) - 1;
  if (self->thing.kind == CRO_REF_RECIPE && recipe == self->thing.slot)
    node = 0;
  else if (cro_model_recipe (model, recipe)->is_plate)
    node = add_node (self, CRO_FLOW_PLATE, recipe);
  else if (cro_figures_outputs (self->figures, recipe, &outputs) > 1)
    node = add_node (self, CRO_FLOW_BATCH, recipe);
  else
    node = add_node (self, CRO_FLOW_MADE, outputs[0]);
  g_hash_table_insert (self->of_row, GUINT_TO_POINTER (row + 1), GUINT_TO_POINTER (node + 1));
  return node;
}

/* A by-product whose batch charges nothing for it comes from elsewhere. A main output of which nothing is
 * charged, as its line has no weight, is an end like what was bought: how much of it is not known. */
static guint
node_of_item (Flow    *self,
              guint32  item)
{
  CroFigures *figures = self->figures;
  guint32 node_of_graph = cro_figures_node (figures, item);
  guint32 row = figures->graph.made_by[node_of_graph];
  gpointer found = g_hash_table_lookup (self->of_item, GUINT_TO_POINTER (item + 1));
  const guint32 *outputs;
  guint node;

  if (found != NULL)
    return GPOINTER_TO_UINT (found) - 1;
  if (row == CRO_NO_ROW || (figures->row_effect[row] == 0 && cro_model_item (figures->model, item)->is_main))
    node = add_node (self, CRO_FLOW_BOUGHT, item);
  else if (figures->row_effect[row] == 0)
    node = add_node (self, CRO_FLOW_ELSEWHERE, item);
  else if (cro_figures_outputs (figures, figures->graph.slot_of_row[row], &outputs) > 1)
    node = add_node (self, CRO_FLOW_MADE, item);
  else
    node = node_of_row (self, row);
  node_at (self, node)->is_missing
      = (figures->own_node_bits[node_of_graph] & CRO_REACH_INCOMPLETE) != 0
        || (row != CRO_NO_ROW && !cro_model_item (figures->model, item)->output.is_known);
  g_hash_table_insert (self->of_item, GUINT_TO_POINTER (item + 1), GUINT_TO_POINTER (node + 1));
  return node;
}

/* --- Lines ------------------------------------------------------------------------------------ */

/* What a line brings back, to be used again. */
static void
note_recovered (Flow    *self,
                guint32  line,
                double   grams)
{
  const CroLines *lines = &self->figures->model->lines;
  double part = (double) lines->recovered[line] / (double) CRO_WHOLE_PCT;
  CroFlowAside aside = { .item = lines->item[line], .grams = grams * part / (1 - part) };

  if (aside.grams > 0)
    g_array_append_val (self->flow->recovered, aside);
}

static void
add_line (Flow     *self,
          guint     node,
          guint32   row,
          uint32_t  l)
{
  CroFigures *figures = self->figures;
  const CroLines *lines = &figures->model->lines;
  guint32 line = figures->graph.line_slot[l], item = lines->item[line];
  const CroMeasure *measure = &figures->model->measures[item];
  double counts = figures->row_effect[row];
  double charged = counts * figures->graph.quantity[l];
  CroFlowLink link = { .nearer = node, .line = line };
  CroLack lack = CRO_LACKS_NOTHING;
  double of_base = grams_of_base (self, item);

  if (!measure->is_food)
    return;
  link.farther = node_of_item (self, item);
  link.money = charged * figures->layers[CRO_LAYER_FOOD].unit_cost[figures->graph.part[l]];
  link.grams = counts * cro_line_grams (lines, line, measure, &lack);
  if (lack != CRO_LACKS_NOTHING || !(of_base > 0))
    {
      link.grams = 0;
      node_at (self, node)->is_weighed = node_at (self, link.farther)->is_weighed = FALSE;
    }
  else
    {
      note_recovered (self, line, link.grams);
      node_at (self, link.farther)->grams += charged * of_base;
    }
  if (cro_line_lacks (lines, line, measure) != CRO_LACKS_NOTHING)
    node_at (self, link.farther)->is_missing = TRUE;
  node_at (self, link.farther)->money += link.money;
  g_array_append_val (self->flow->links, link);
}

/* --- Batches ---------------------------------------------------------------------------------- */

/* Weight in of what was linked since, and what its outputs take with them. */
static double
grams_in (Flow  *self,
          guint  first_link)
{
  double grams = 0;

  for (guint i = first_link; i < self->flow->links->len; i++)
    grams += g_array_index (self->flow->links, CroFlowLink, i).grams;
  return grams;
}

/* What one output of a batch has beyond what is taken of it, lost parts aside. Where doubles alone differ that is
 * nothing: an end of its own would be counted among what was bought. */
static double
beyond (Flow    *self,
        guint32  row,
        guint32  item)
{
  const CroFigures *figures = self->figures;
  double used = figures->row_effect[row] * cro_model_item (figures->model, item)->output.used;
  double taken = figures->effect[cro_figures_node (figures, item)];

  return fabs (used - taken) > DUST * (fabs (used) + fabs (taken)) ? (used - taken) * grams_of_base (self, item) : 0;
}

/* Of one batch only what is beyond, or short, of all its outputs together leaves or comes from
 * elsewhere. */
static void
weigh_outputs (Flow          *self,
               guint32        row,
               const guint32 *outputs,
               guint32        n,
               double        *part_beyond,
               double        *part_short)
{
  double more = 0, less = 0;

  for (guint32 i = 0; i < n; i++)
    {
      double grams = beyond (self, row, outputs[i]);

      if (grams > 0)
        more += grams;
      else
        less -= grams;
    }
  *part_beyond = more > less && more > DUST * (more + less) ? (more - less) / more : 0;
  *part_short = less > more && less > DUST * (more + less) ? (less - more) / less : 0;
}

static void
add_output (Flow    *self,
            guint    batch,
            guint32  row,
            guint32  item,
            double  *grams)
{
  const CroFigures *figures = self->figures;
  guint32 node = cro_figures_node (figures, item);
  CroFlowLink link = { .farther = batch, .line = CRO_NO_SLOT };

  if (figures->effect[node] == 0)
    return;
  link.nearer = node_of_item (self, item);
  if (link.nearer == batch)
    {
      *grams += figures->effect[node] * grams_of_base (self, item);
      return;
    }
  link.money = figures->effect[node] * figures->layers[CRO_LAYER_FOOD].unit_cost[node];
  link.grams = figures->effect[node] * grams_of_base (self, item);
  *grams += link.grams;
  g_array_append_val (self->flow->links, link);
}

/* What is credited to a batch for a by-product that others take; below 0 where more of it is taken here. */
static double
credited (Flow          *self,
          guint32        recipe,
          const guint32 *outputs,
          guint32        i)
{
  const CroFigures *figures = self->figures;
  const CroOutput *output = &cro_model_item (figures->model, outputs[i])->output;

  if (i == 0 || !cro_rule_credits ((CroRule) cro_model_recipe (figures->model, recipe)->rule)
      || !output->has_value)
    return 0;
  return -cro_effects_of_value (figures, outputs[0], outputs[i]) * output->value_of_base;
}

static void
add_outputs (Flow    *self,
             guint    batch,
             guint32  row,
             double   in)
{
  const CroFigures *figures = self->figures;
  guint32 recipe = figures->graph.slot_of_row[row];
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (figures, recipe, &outputs);
  double part_beyond, part_short, out = 0;

  weigh_outputs (self, row, outputs, n, &part_beyond, &part_short);
  for (guint32 i = 0; i < n; i++)
    {
      const CroOutput *output = &cro_model_item (figures->model, outputs[i])->output;
      double of_base = grams_of_base (self, outputs[i]);
      double lost = figures->row_effect[row] * (output->finished - output->used) * of_base;
      double left = beyond (self, row, outputs[i]), money = credited (self, recipe, outputs, i);
      double more = left > 0 ? left * part_beyond : 0, less = left < 0 ? -left * part_short : 0;

      if (!(output->finished > 0) || !(of_base > 0))
        node_at (self, batch)->is_weighed = FALSE;
      add_output (self, batch, row, outputs[i], &out);
      add_end (self, batch, CRO_FLOW_LOST, outputs[i], 0, lost);
      add_end (self, batch, CRO_FLOW_TO_OTHERS, outputs[i], fmax (money, 0), more);
      add_end (self, batch, CRO_FLOW_ELSEWHERE, outputs[i], fmax (-money, 0), less);
      out += lost + more;
      in += less;
    }
  if (fabs (in - out) > DUST * (in + out))
    add_end (self, batch, in > out ? CRO_FLOW_PROCESS : CRO_FLOW_GAIN, recipe, 0, fabs (in - out));
}

/* --- Rows ------------------------------------------------------------------------------------- */

static void
add_seasoning (Flow    *self,
               guint    node,
               guint32  recipe,
               double   grams)
{
  double part = (double) cro_model_recipe (self->figures->model, recipe)->allowance
                / (double) CRO_WHOLE_PCT;

  add_end (self, node, CRO_FLOW_SEASONING, recipe, 0, grams * part / (1 + part));
}

static void
add_row (Flow    *self,
         guint32  row)
{
  const CroGraph *graph = &self->figures->graph;
  guint32 recipe = graph->slot_of_row[row];
  guint node = node_of_row (self, row), first = self->flow->links->len;
  gboolean is_plate = cro_model_recipe (self->figures->model, recipe)->is_plate;
  double in;

  for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
    add_line (self, node, row, l);
  in = grams_in (self, first);
  if (is_plate)
    add_seasoning (self, node, recipe, in);
  else if (node != 0)
    add_outputs (self, node, row, in);
}

/* What a plate of a menu counts in it. */
static void
add_to_menu (Flow    *self,
             guint32  row)
{
  CroFlowLink link = { .nearer = 0, .farther = node_of_row (self, row), .line = CRO_NO_SLOT };

  for (guint i = 0; i < self->flow->links->len; i++)
    {
      const CroFlowLink *of = &g_array_index (self->flow->links, CroFlowLink, i);
      gboolean leaves = cro_flow_leaves (node_at (self, of->farther)->kind);

      if (of->nearer == link.farther)
        {
          link.money += leaves ? 0 : of->money;
          link.grams += leaves ? -of->grams : of->grams;
        }
    }
  g_array_append_val (self->flow->links, link);
}

static void
add_plates_of_menu (Flow *self)
{
  g_autoptr (GPtrArray) plates = cro_menu_dup_plates (self->figures->model, self->thing.slot);

  for (guint i = 0; i < plates->len; i++)
    {
      guint32 row = cro_figures_row (self->figures, ((const CroMenuPlate *) plates->pdata[i])->plate);
      gboolean is_new = self->figures->row_effect[row] != 0;

      for (guint k = 0; k < i; k++)
        is_new &= ((const CroMenuPlate *) plates->pdata[k])->plate
                  != ((const CroMenuPlate *) plates->pdata[i])->plate;
      if (is_new)
        add_to_menu (self, row);
    }
}

/* --- Ends ------------------------------------------------------------------------------------- */

/* What trimming cuts away of what was bought, or made: what is charged and reaches nobody. */
static void
add_trim (Flow *self)
{
  guint n = self->flow->nodes->len;
  g_autofree double *reaches = g_new0 (double, n + 1);

  for (guint i = 0; i < self->flow->links->len; i++)
    {
      const CroFlowLink *link = &g_array_index (self->flow->links, CroFlowLink, i);

      if (link->line != CRO_NO_SLOT)
        reaches[link->farther] += link->grams;
    }
  for (guint i = 1; i < n; i++)
    {
      const CroFlowNode *node = node_at (self, i);
      double trim = node->grams - reaches[i];
      gboolean is_taken = node->kind == CRO_FLOW_BOUGHT || node->kind == CRO_FLOW_MADE
                          || node->kind == CRO_FLOW_ELSEWHERE;

      if (is_taken && reaches[i] > 0 && fabs (trim) > DUST * (node->grams + reaches[i]))
        add_end (self, i, trim > 0 ? CRO_FLOW_TRIM : CRO_FLOW_GAIN, node->slot, 0, fabs (trim));
    }
}

static int
compare_asides (gconstpointer a,
                gconstpointer b)
{
  const CroFlowAside *x = a, *y = b;

  return x->money != y->money ? (x->money > y->money ? -1 : 1)
                              : (x->item < y->item ? -1 : x->item > y->item);
}

static void
add_disposables (Flow *self)
{
  CroFigures *figures = self->figures;

  for (guint32 node = cro_effects_next_raw (figures, 0); node < figures->graph.n_raws;
       node = cro_effects_next_raw (figures, node + 1))
    {
      CroFlowAside aside = { .item = figures->graph.item_of_node[node] };

      aside.money = figures->effect[node] * figures->layers[CRO_LAYER_DISPOSABLES].unit_cost[node];
      if (figures->effect[node] != 0 && cro_model_item (figures->model, aside.item)->is_disposable)
        g_array_append_val (self->flow->disposables, aside);
    }
  g_array_sort (self->flow->disposables, compare_asides);
}

/* --- All of it -------------------------------------------------------------------------------- */

/* All that comes from farther; on the plate less what is seasoned and handled away. */
static void
sum_nodes (Flow *self)
{
  for (guint i = 0; i < self->flow->nodes->len; i++)
    if (node_at (self, i)->kind <= CRO_FLOW_MADE)
      node_at (self, i)->money = node_at (self, i)->grams = 0;
  for (guint i = 0; i < self->flow->links->len; i++)
    {
      const CroFlowLink *link = &g_array_index (self->flow->links, CroFlowLink, i);
      CroFlowNode *nearer = node_at (self, link->nearer);
      gboolean leaves = cro_flow_leaves (node_at (self, link->farther)->kind);

      if (nearer->kind > CRO_FLOW_MADE || (leaves && nearer->kind != CRO_FLOW_THING))
        continue;
      nearer->money += leaves ? 0 : link->money;
      nearer->grams += leaves ? -link->grams : link->grams;
    }
}

/* What was bought, of which more is taken than can be counted. */
static void
mark_uncounted (Flow *self)
{
  g_autofree guint64 *uncounted = cro_known_list_uncounted (self->figures, self->thing);

  for (guint i = 0; i < self->flow->nodes->len; i++)
    {
      CroFlowNode *at = node_at (self, i);
      guint32 node = at->kind == CRO_FLOW_BOUGHT ? cro_figures_node (self->figures, at->slot) : 0;

      if (at->kind == CRO_FLOW_BOUGHT && (uncounted[node / 64] >> node % 64 & 1))
        at->is_missing = TRUE;
    }
}

CroFlow *
cro_flow_new (CroFigures *figures,
              CroRef      thing)
{
  Flow self = { .figures = figures, .thing = thing, .flow = g_new0 (CroFlow, 1) };
  g_autoptr (GArray) rows = g_array_new (FALSE, FALSE, sizeof (guint32));

  self.flow->nodes = g_array_new (FALSE, FALSE, sizeof (CroFlowNode));
  self.flow->links = g_array_new (FALSE, FALSE, sizeof (CroFlowLink));
  self.flow->disposables = g_array_new (FALSE, FALSE, sizeof (CroFlowAside));
  self.flow->recovered = g_array_new (FALSE, FALSE, sizeof (CroFlowAside));
  self.of_row = g_hash_table_new (NULL, NULL);
  self.of_item = g_hash_table_new (NULL, NULL);
  add_node (&self, CRO_FLOW_THING, thing.slot);
  cro_effects_trace (figures, thing);
  for (guint32 row = cro_effects_next (figures, 0); row < figures->graph.n_rows;
       row = cro_effects_next (figures, row + 1))
    if (figures->row_effect[row] != 0)
      g_array_append_val (rows, row);
  for (guint i = rows->len; i > 0; i--)
    add_row (&self, g_array_index (rows, guint32, i - 1));
  if (thing.kind == CRO_REF_MENU)
    add_plates_of_menu (&self);
  add_trim (&self);
  add_disposables (&self);
  cro_effects_clear (figures);
  mark_uncounted (&self);
  sum_nodes (&self);
  g_hash_table_unref (self.of_row);
  g_hash_table_unref (self.of_item);
  return self.flow;
}

void
cro_flow_free (CroFlow *self)
{
  g_array_unref (self->nodes);
  g_array_unref (self->links);
  g_array_unref (self->disposables);
  g_array_unref (self->recovered);
  g_free (self);
}
