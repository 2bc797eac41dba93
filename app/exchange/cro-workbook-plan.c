#include "cro-workbook-private.h"

#include <math.h>

/* Rows of a batch's block beside its lines and outputs: head, active time, sums, an empty one. */
#define ROWS_OF_BATCH 4

/* Rows of a card beside its lines: those above, seasoning, active time, three sums, an empty
 * one. */
#define ROWS_OF_CARD (CRO_CARD_LINES + 6)

static gboolean
has_room (const CroPen  *pen,
          guint64        n_rows,
          GError       **error)
{
  if (n_rows <= LXW_ROW_MAX)
    return TRUE;
  g_set_error_literal (error, CRO_WORKBOOK_ERROR, CRO_WORKBOOK_ERROR_ROWS, pen->name);
  return FALSE;
}

static gboolean
plan_ingredients (CroWorkbook  *self,
                  GError      **error)
{
  const CroWorkbookSource *source = self->source;
  guint64 row = CRO_ROW_FIRST;

  for (guint32 i = 0; i < source->n_ingredients; i++)
    {
      CroWorkbookIngredient ingredient;

      source->get_ingredient (source->data, i, &ingredient);
      self->item_row[i] = (guint32) row;
      row += 1 + ingredient.n_offers;
    }
  self->last_ingredient_row = (guint32) MAX (row, CRO_ROW_FIRST + 1) - 1;
  self->n_rows += (guint32) row;
  return has_room (&self->ingredients, row, error);
}

double
cro_workbook_gap (CroWorkbook            *self,
                  const CroWorkbookBatch *batch,
                  int                     layer)
{
  const CroWorkbookSource *source = self->source;
  double left = batch->cost[layer];

  for (guint32 i = 0; i < batch->n_outputs; i++)
    {
      CroWorkbookOutput output;

      source->get_output (source->data, batch->first_output + i, &output);
      left -= output.used * output.unit_cost[layer];
    }
  /* As the sheet has it; and no zero below zero. */
  return round (left / MAX (1, fabs (batch->cost[layer])) * 1e6) / 1e6 + 0.0;
}

static void
note_gaps (CroWorkbook            *self,
           const CroWorkbookBatch *batch)
{
  if (!batch->is_complete || batch->n_outputs == 0)
    return;
  for (int layer = 0; layer < CRO_WORKBOOK_N_LAYERS; layer++)
    {
      double gap = cro_workbook_gap (self, batch, layer);

      self->smallest_gap[layer] = MIN (self->smallest_gap[layer], gap);
      self->largest_gap[layer] = MAX (self->largest_gap[layer], gap);
    }
}

static gboolean
plan_preparations (CroWorkbook  *self,
                   GError      **error)
{
  const CroWorkbookSource *source = self->source;
  guint64 row = CRO_ROW_FIRST;
  guint32 item = source->n_ingredients;

  for (guint32 i = 0; i < source->n_batches; i++)
    {
      CroWorkbookBatch batch;

      source->get_batch (source->data, i, &batch);
      self->batch_row[i] = (guint32) row;
      for (guint32 k = 0; k < batch.n_outputs; k++)
        self->item_row[item++] = (guint32) (row + 3 + batch.n_lines + k);
      note_gaps (self, &batch);
      row += ROWS_OF_BATCH + batch.n_lines + batch.n_outputs;
    }
  self->last_batch_row = (guint32) MAX (row, CRO_ROW_FIRST + 1) - 1;
  self->n_rows += (guint32) row;
  return has_room (&self->preparations, row, error);
}

static gboolean
plan_cards (CroWorkbook  *self,
            GError      **error)
{
  const CroWorkbookSource *source = self->source;
  gboolean is_joint = self->n_cards < source->n_plates;
  guint64 row = 1;

  for (guint32 i = 0; i < source->n_plates; i++)
    {
      CroWorkbookPlate plate;

      source->get_plate (source->data, i, &plate);
      self->card[i] = (CroCardPlace){
        .pen = &self->cards[is_joint ? 0 : i],
        .row = is_joint ? (guint32) row : 1,
        .n_lines = plate.n_lines,
      };
      self->sum_of_guests += plate.figure.cost[CRO_WORKBOOK_FOOD];
      self->known_of_guests = cro_workbook_known_of_sum (self->known_of_guests,
                                                         plate.figure.known[CRO_WORKBOOK_FOOD]);
      row += ROWS_OF_CARD + plate.n_lines;
      if (!has_room (self->card[i].pen, is_joint ? row : ROWS_OF_CARD + (guint64) plate.n_lines,
                     error))
        return FALSE;
    }
  self->n_rows += (guint32) row;
  return TRUE;
}

static void
note_carried (CroWorkbook *self)
{
  const CroWorkbookSource *source = self->source;

  self->is_carried = g_new0 (gboolean, (gsize) source->n_plates + 1);
  for (guint32 i = 0; i < source->n_entries; i++)
    {
      CroWorkbookEntry entry;

      source->get_entry (source->data, i, &entry);
      self->is_carried[entry.plate] = TRUE;
    }
}

gboolean
cro_workbook_plan (CroWorkbook  *self,
                   GError      **error)
{
  const CroWorkbookSource *source = self->source;

  self->item_row = g_new (guint32, (gsize) source->n_ingredients + source->n_outputs + 1);
  self->batch_row = g_new (guint32, (gsize) source->n_batches + 1);
  self->card = g_new (CroCardPlace, (gsize) source->n_plates + 1);
  self->menu_row = g_new (guint32, (gsize) source->n_menus + 1);
  note_carried (self);
  self->n_rows = source->n_prices + 1;
  for (guint i = 0; i < self->n_report; i++)
    {
      self->n_rows += source->report->sheets[i].n_rows;
      if (!has_room (&self->report[i], (guint64) source->report->sheets[i].n_rows + CRO_ROW_FIRST, error))
        return FALSE;
    }
  return has_room (&self->prices, (guint64) source->n_prices + CRO_ROW_FIRST, error)
         && has_room (&self->summary, (guint64) source->n_plates + source->n_menus
                                          + source->n_entries + CRO_ROW_FIRST_PLATE + 4, error)
         && plan_ingredients (self, error) && plan_preparations (self, error)
         && plan_cards (self, error);
}

/* --- Places -------------------------------------------------------------------------------------- */

gboolean
cro_workbook_is_bought (const CroWorkbook *self,
                        guint32            item)
{
  return item < self->source->n_ingredients;
}

CroPlace
cro_workbook_item_place (CroWorkbook *self,
                         guint32      item,
                         const char  *column)
{
  CroPen *pen = cro_workbook_is_bought (self, item) ? &self->ingredients : &self->preparations;

  return (CroPlace){ pen->quoted, column, self->item_row[item] };
}

CroPlace
cro_workbook_density (CroWorkbook *self,
                      guint32      item)
{
  return cro_workbook_item_place (self, item, cro_workbook_is_bought (self, item) ? "D" : "S");
}

CroPlace
cro_workbook_piece (CroWorkbook *self,
                    guint32      item)
{
  return cro_workbook_item_place (self, item, cro_workbook_is_bought (self, item) ? "E" : "T");
}

CroPlace
cro_workbook_unit_place (CroWorkbook *self,
                         CroUnit      unit)
{
  return (CroPlace){ self->units.quoted, "$C$", CRO_ROW_FIRST + (guint32) unit };
}

CroPlace
cro_workbook_card_place (CroWorkbook *self,
                         guint32      plate,
                         const char  *column,
                         guint32      row)
{
  const CroCardPlace *card = &self->card[plate];

  return (CroPlace){ card->pen->quoted, column, card->row + row };
}
