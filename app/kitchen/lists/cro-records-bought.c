#include "config.h"

#include "cro-records-private.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-below.h"
#include "cro-cause.h"
#include "cro-decimal.h"
#include "cro-kind.h"
#include "cro-last-price.h"
#include "cro-words.h"

/* --- What an ingredient is found by ----------------------------------------------------------- */

/* Its note, and the codes of its packs. */
static const char *
intern_also (CroReading *self,
             guint32     slot,
             const char *note)
{
  const CroItem *item = cro_model_item (self->model, slot);
  g_autoptr (GString) also = g_string_new (note);

  for (guint32 i = 0; i < item->n_offers; i++)
    {
      guint32 offer = g_array_index (self->model->offer_order, guint32, item->first_offer + i);

      g_string_append_printf (also, " %s", cro_model_offer (self->model, offer)->code);
    }
  return cro_reading_text (self, also->str).text;
}

/* --- Cells ------------------------------------------------------------------------------------ */

static CroValue
allergens_value (CroReading    *self,
                 const CroItem *item)
{
  g_autofree char *text = item->allergens >= 0 ? cro_words_allergens ((guint32) item->allergens)
                                               : g_strdup (C_("allergens", "not stated"));

  return cro_reading_text (self, text);
}

static guint
count_users (CroFigures *figures,
             guint32     item)
{
  const CroGraph *graph = &figures->graph;
  guint32 node = cro_figures_node (figures, item);
  guint n = 0;

  for (guint32 at = 0, row; cro_graph_next_user (graph, node, &at, &row);)
    n++;
  return n;
}

static void
fill_price (CroReading *self,
            CroFigures *figures,
            guint32     slot)
{
  CroModel *model = self->model;
  guint32 offer = figures->offer_in_use[slot];
  CroDate from = cro_kind_price_from (figures, CRO_KIND_INGREDIENT, slot);
  g_autofree char *last = cro_words_last_price (figures, slot);
  CroRecordRow *row = &self->row;

  row->values[2] = cro_reading_shown (self, cro_figures_unit_cost (figures, slot),
                                      cro_words_item_cost (figures, slot));
  if (from != CRO_NO_DATE)
    row->values[3] = cro_reading_number (from);
  if (offer != CRO_NO_SLOT)
    row->values[4] = cro_reading_text (self, g_array_index (model->suppliers, CroSupplier,
                                                            cro_model_offer (model, offer)->supplier)
                                                 .name);
  row->values[8] = cro_reading_text (self, last);
  if (!cro_kind_is_incomplete (figures, CRO_KIND_INGREDIENT, slot))
    return;
  row->marks |= CRO_RECORD_INCOMPLETE;
  row->values[8] = cro_reading_causes (self, cro_causes_of_item (figures, slot));
}

static void
fill (CroReading *self,
      CroFigures *figures,
      CroBelow   *over,
      guint32     slot)
{
  const CroItem *item = cro_model_item (self->model, slot);
  gint64 trim = self->model->measures[slot].trim_yield;
  CroRecordRow *row = &self->row;

  row->ref = CRO_REF (CRO_REF_ITEM, slot);
  row->values[0] = cro_reading_text (self, item->name);
  fill_price (self, figures, slot);
  if (trim > 0)
    row->values[5] = cro_reading_shown (self, (double) trim,
                                        cro_words_pct ((double) trim / CRO_MICRO));
  row->values[6] = cro_reading_number (count_users (figures, slot));
  row->values[7] = allergens_value (self, item);
  if (row->values[6].number == 0)
    row->marks |= CRO_RECORD_UNUSED;
  if (cro_below_has_item (over, slot))
    row->marks |= CRO_RECORD_OVER_TARGET;
  row->urgency = (row->marks & CRO_RECORD_INCOMPLETE) != 0 ? -1 : 0;
}

gboolean
cro_reading_ingredients (CroReading  *self,
                         GError     **error)
{
  CroFigures *figures = cro_book_get_figures (self->book);
  g_autoptr (GHashTable) notes = cro_reading_notes (self, "ingredient", "note", error);
  g_autoptr (GHashTable) categories = notes != NULL ? cro_reading_notes (self, "ingredient",
                                                                         "category", error)
                                                    : NULL;
  g_autoptr (CroBelow) over = cro_below_over_target (figures);

  if (categories == NULL)
    return FALSE;
  for (guint32 slot = 0; slot < self->model->items->len; slot++)
    {
      gint64 id = cro_model_item (self->model, slot)->id;

      if (cro_kind_name (self->model, CRO_KIND_INGREDIENT, slot) == NULL)
        continue;
      cro_reading_begin (self, id);
      fill (self, figures, over, slot);
      self->row.values[1] = cro_reading_text (self, g_hash_table_lookup (categories, &id));
      self->row.also = intern_also (self, slot, g_hash_table_lookup (notes, &id));
      g_array_append_val (self->rows, self->row);
    }
  cro_reading_sort (self);
  return TRUE;
}
