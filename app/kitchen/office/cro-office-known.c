/* How much is known of a cost, layer by layer: by the same words as a cost card has (cro-known.h),
 * but a 0 below something missing is one where nothing could add to it. */
#include "cro-office-private.h"

#include "cro-known.h"
#include "cro-landing.h"
#include "cro-reach.h"
#include "cro-rule.h"

/* Bits of a sweep of the office's own: what may be missing of a layer, beside the food. Of disposables nothing is
 * where none stand below. */
enum
{
  LACKS_DISPOSABLES = 1 << 0,
  LACKS_LABOUR = 1 << 1,
  LACKS_BOTH = LACKS_DISPOSABLES | LACKS_LABOUR,
  HAS_DISPOSABLES = 1 << 2,
};

/* Its main output bears all labour and disposables of its batch: what it lacks itself leaves these whole. */
static gboolean
bears_nothing (CroOffice *self,
               guint32    item)
{
  gint32 maker = self->model->maker[item];

  return maker >= 0 && !cro_model_item (self->model, item)->is_main
         && !cro_rule_shares ((CroRule) cro_model_recipe (self->model, (guint32) maker)->rule);
}

static guint64
own_lacks_of_item (CroOffice *self,
                   guint32    item)
{
  const CroFigures *figures = self->figures;
  gboolean is_open = (figures->own_node_bits[cro_figures_node (figures, item)] & CRO_REACH_INCOMPLETE) != 0;

  if (self->model->maker[item] >= 0)
    return is_open && !bears_nothing (self, item) ? LACKS_BOTH : 0;
  /* What is bought bears no labour, as on a cost card. */
  if (!cro_model_item (self->model, item)->is_disposable)
    return 0;
  return HAS_DISPOSABLES | (is_open ? LACKS_DISPOSABLES : 0);
}

/* Of a line that cannot be converted. */
static guint64
own_lacks_of_line (CroOffice *self,
                   guint32    position)
{
  const CroLines *lines = &self->model->lines;
  guint32 line = self->figures->graph.line_slot[position];
  guint32 item = lines->item[line];
  const CroMeasure *measure = &self->model->measures[item];

  if (cro_line_lacks (lines, line, measure) == CRO_LACKS_NOTHING)
    return 0;
  if (self->model->maker[item] >= 0)
    return LACKS_BOTH;
  return measure->is_food ? 0 : LACKS_DISPOSABLES;
}

static guint64
own_lacks_of_lines (CroOffice *self,
                    guint32    row)
{
  const CroGraph *graph = &self->figures->graph;
  const CroRecipe *recipe = cro_model_recipe (self->model, graph->slot_of_row[row]);
  gboolean lacks_wage = recipe->active_minutes > 0 && self->model->wage_per_hour == CRO_NOT_SET;
  guint64 lacks = lacks_wage ? LACKS_LABOUR : 0;

  if (graph->first[row] == graph->first[row + 1])
    return LACKS_BOTH;
  for (guint32 l = graph->first[row]; l < graph->first[row + 1]; l++)
    lacks |= own_lacks_of_line (self, l);
  return lacks;
}

static guint64
own_lacks_of_row (CroOffice *self,
                  guint32    row)
{
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (self->figures, self->figures->graph.slot_of_row[row], &outputs);
  guint64 lacks = own_lacks_of_lines (self, row);

  for (guint32 i = 0; i < n; i++)
    if (cro_model_item (self->model, outputs[i])->output.lacks != 0 && !bears_nothing (self, outputs[i]))
      lacks |= LACKS_BOTH;
  return lacks;
}

void
cro_office_find_lacks (CroOffice *self)
{
  const CroGraph *graph = &self->figures->graph;

  self->node_lacks = g_new0 (guint64, graph->n_items + 1);
  self->row_lacks = g_new0 (guint64, graph->n_rows + 1);
  for (guint32 node = 0; node < graph->n_items; node++)
    self->node_lacks[node] = own_lacks_of_item (self, graph->item_of_node[node]);
  for (guint32 row = 0; row < graph->n_rows; row++)
    if (self->figures->own_row_bits[row] & CRO_REACH_INCOMPLETE)
      self->row_lacks[row] = own_lacks_of_row (self, row);
  cro_reach_sweep (graph, self->node_lacks, self->row_lacks);
}

/* --- Layers ------------------------------------------------------------------------------------- */

static CroWorkbookKnown
known_of_bits (guint64 bits)
{
  if (!(bits & CRO_REACH_INCOMPLETE))
    return CRO_WORKBOOK_WHOLE;
  return bits & CRO_REACH_CREDIT ? CRO_WORKBOOK_INCOMPLETE : CRO_WORKBOOK_AT_LEAST;
}

static gboolean
lacks_disposables (guint64 lacks)
{
  return (lacks & LACKS_DISPOSABLES) && (lacks & HAS_DISPOSABLES);
}

/* Credits are of food alone. */
static void
set_known (guint64           bits,
           guint64           lacks,
           CroWorkbookKnown *known)
{
  gboolean is_whole = !(bits & CRO_REACH_INCOMPLETE);

  known[CRO_WORKBOOK_FOOD] = known_of_bits (bits);
  known[CRO_WORKBOOK_DISPOSABLES]
      = is_whole || !lacks_disposables (lacks) ? CRO_WORKBOOK_WHOLE : CRO_WORKBOOK_AT_LEAST;
  known[CRO_WORKBOOK_LABOUR]
      = is_whole || !(lacks & LACKS_LABOUR) ? CRO_WORKBOOK_WHOLE : CRO_WORKBOOK_AT_LEAST;
}

void
cro_office_known_of_plate (CroOffice        *self,
                           guint32           row,
                           CroWorkbookKnown *known)
{
  set_known (self->figures->row_bits[row], self->row_lacks[row], known);
}

void
cro_office_known_of_menu (CroOffice        *self,
                          guint32           index,
                          CroWorkbookKnown *known)
{
  guint64 bits = 0, lacks = 0;

  for (guint32 i = self->first_entry[index]; i < self->first_entry[index + 1]; i++)
    {
      guint32 plate = g_array_index (self->model->menu_plates, CroMenuPlate,
                                     cro_office_slot (self->entries, i)).plate;
      guint32 row = cro_figures_row (self->figures, plate);

      bits |= self->figures->row_bits[row];
      lacks |= self->row_lacks[row];
    }
  if (self->first_entry[index] == self->first_entry[index + 1])
    {
      bits = CRO_REACH_INCOMPLETE;
      lacks = LACKS_BOTH | HAS_DISPOSABLES;
    }
  set_known (bits, lacks, known);
}

/* What outputs lack is no part of what goes in. */
void
cro_office_known_of_batch (CroOffice        *self,
                           guint32           row,
                           CroWorkbookKnown *known)
{
  const CroGraph *graph = &self->figures->graph;
  guint64 lacks = own_lacks_of_lines (self, row);
  guint64 bits = cro_known_of_recipe (self->figures, graph->slot_of_row[row]) == CRO_KNOWN_WHOLE
                     ? 0
                     : CRO_REACH_INCOMPLETE;

  for (guint32 l = graph->first[row]; l < graph->first[row + 1]; l++)
    {
      bits |= self->figures->node_bits[graph->part[l]] & CRO_REACH_CREDIT;
      lacks |= self->node_lacks[graph->part[l]];
    }
  set_known (bits | (lacks & LACKS_LABOUR ? CRO_REACH_INCOMPLETE : 0), lacks, known);
  known[CRO_WORKBOOK_FOOD] = known_of_bits (bits);
}

void
cro_office_known_of_item (CroOffice        *self,
                          guint32           item,
                          CroWorkbookKnown *known)
{
  guint32 node = cro_figures_node (self->figures, item);

  set_known (self->figures->node_bits[node], self->node_lacks[node], known);
}

static gboolean
has_disposables (CroOffice *self,
                 guint32    item)
{
  return (self->node_lacks[cro_figures_node (self->figures, item)] & HAS_DISPOSABLES) != 0;
}

void
cro_office_known_of_line (CroOffice        *self,
                          guint32           position,
                          CroWorkbookKnown *known)
{
  guint32 line = self->figures->graph.line_slot[position];
  guint32 item = self->model->lines.item[line];
  gboolean is_bought = self->model->maker[item] < 0;
  gboolean is_open = !cro_line_is_known (self->figures, line);

  cro_office_known_of_item (self, item, known);
  for (int layer = 0; layer < CRO_WORKBOOK_N_LAYERS && is_bought; layer++)
    known[layer] = CRO_WORKBOOK_WHOLE;
  if (is_open && is_bought)
    known[self->model->measures[item].is_food ? CRO_WORKBOOK_FOOD : CRO_WORKBOOK_DISPOSABLES]
        = CRO_WORKBOOK_UNKNOWN;
  for (int layer = 0; layer < CRO_WORKBOOK_N_LAYERS && is_open && !is_bought; layer++)
    if (known[layer] == CRO_WORKBOOK_WHOLE && (layer != CRO_WORKBOOK_DISPOSABLES || has_disposables (self, item)))
      known[layer] = CRO_WORKBOOK_UNKNOWN;
}
