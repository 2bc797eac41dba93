#include "config.h"

#include "cro-records-private.h"

#include <math.h>

#include "cro-below.h"
#include "cro-cause.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-kind.h"
#include "cro-landing.h"
#include "cro-unserved.h"
#include "cro-words.h"

/* How many recipes take one of the outputs. */
static guint
count_users (CroFigures    *figures,
             const guint32 *outputs,
             guint32        n)
{
  const CroGraph *graph = &figures->graph;
  g_autoptr (GHashTable) rows = g_hash_table_new (NULL, NULL);

  for (guint32 i = 0; i < n; i++)
    {
      guint32 node = cro_figures_node (figures, outputs[i]);

      for (guint32 u = graph->used_first[node]; u < graph->used_first[node + 1]; u++)
        g_hash_table_add (rows, GUINT_TO_POINTER (graph->used_in[u] + 1));
    }
  return g_hash_table_size (rows);
}

static CroValue
unused_value (CroReading *self,
              CroFigures *figures,
              guint32     slot)
{
  g_autoptr (GArray) unserved = cro_unserved_of_batch (figures, slot);
  g_autoptr (GString) names = g_string_new (NULL);

  for (guint i = 0; i < unserved->len; i++)
    cro_isolate_append (names, cro_model_item (self->model, g_array_index (unserved, CroUnserved, i)
                                                                .item)->name);
  return cro_reading_text (self, names->str);
}

static void
fill_outputs (CroReading *self,
              CroFigures *figures,
              guint32     slot)
{
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (figures, slot, &outputs);
  CroRecordRow *row = &self->row;
  const CroItem *item;
  CroBase base;

  if (n == 0)
    return;
  item = cro_model_item (self->model, outputs[0]);
  base = (CroBase) self->model->measures[outputs[0]].base;
  row->values[1] = cro_reading_shown (self, cro_figures_unit_cost (figures, outputs[0]),
                                      cro_words_item_cost (figures, outputs[0]));
  if (item->output.finished > 0)
    row->values[2] = cro_reading_shown (self, item->output.finished,
                                        cro_words_amount (base, item->output.finished));
  row->values[5] = cro_reading_number (count_users (figures, outputs, n));
  if (row->values[5].number == 0)
    row->marks |= CRO_RECORD_UNUSED;
}

static void
fill (CroReading *self,
      CroFigures *figures,
      CroBelow   *over,
      guint32     slot)
{
  const CroRecipe *recipe = cro_model_recipe (self->model, slot);
  CroRecordRow *row = &self->row;
  double cost = cro_landing_total (figures, slot);
  const guint32 *outputs;

  row->ref = CRO_REF (CRO_REF_RECIPE, slot);
  row->values[0] = cro_reading_text (self, recipe->name);
  fill_outputs (self, figures, slot);
  row->values[3] = cro_reading_shown (self, cost,
                                      cro_words_known_money (self->model,
                                                             cro_known_of_recipe (figures, slot),
                                                             cost));
  if (recipe->active_minutes > 0)
    row->values[4] = cro_reading_number ((double) recipe->active_minutes);
  row->values[6] = unused_value (self, figures, slot);
  if (cro_below_has_recipe (over, slot))
    row->marks |= CRO_RECORD_OVER_TARGET;
  if (!cro_kind_is_incomplete (figures, CRO_KIND_PREPARATION, slot))
    return;
  row->marks |= CRO_RECORD_INCOMPLETE;
  if (cro_figures_outputs (figures, slot, &outputs) > 0)
    row->values[7] = cro_reading_causes (self, cro_causes_of_item (figures, outputs[0]));
}

gboolean
cro_reading_preparations (CroReading  *self,
                          GError     **error)
{
  CroFigures *figures = cro_book_get_figures (self->book);
  g_autoptr (GHashTable) notes = cro_reading_notes (self, "preparation", "note", error);
  g_autoptr (CroBelow) over = cro_below_over_target (figures);

  if (notes == NULL)
    return FALSE;
  for (guint32 slot = 0; slot < self->model->recipes->len; slot++)
    {
      const CroRecipe *recipe = cro_model_recipe (self->model, slot);

      if (recipe->is_dead || recipe->is_plate)
        continue;
      cro_reading_begin (self, recipe->id);
      fill (self, figures, over, slot);
      self->row.also = cro_reading_text (self, g_hash_table_lookup (notes, &recipe->id)).text;
      self->row.urgency = (self->row.marks & CRO_RECORD_INCOMPLETE) != 0 ? -1 : 0;
      g_array_append_val (self->rows, self->row);
    }
  cro_reading_sort (self);
  return TRUE;
}
