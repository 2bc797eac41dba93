#include "cro-model-rows-private.h"

#include "cro-allergen.h"
#include "cro-code.h"

static const CroModelColumn item_columns[] = {
  { "name", CRO_OF_TEXT },
  { NULL, 0, 0 },
};

static guint32
item_slot (CroModel *model,
           gint64    id,
           gboolean *is_new)
{
  guint32 slot = cro_model_slot_for (model->items, &model->item_slots, id, is_new);

  if (slot >= model->items_allocated)
    {
      model->items_allocated = MAX (64, model->items_allocated * 2);
      model->maker = g_renew (gint32, model->maker, model->items_allocated);
      model->measures = g_renew (CroMeasure, model->measures, model->items_allocated);
    }
  if (*is_new)
    {
      *cro_model_item (model, slot) = (CroItem){ .id = id, .allergens = -1 };
      model->maker[slot] = -1;
      model->measures[slot] = (CroMeasure){ .base = CRO_BASE_GRAM };
    }
  return slot;
}

static CroTouched
take_item (CroModel    *model,
           gint64       id,
           CroModelRow *record)
{
  gboolean is_new;
  guint32 slot = item_slot (model, id, &is_new);
  CroItem *item = cro_model_item (model, slot);
  gboolean was_dead = item->is_dead;

  item->name = cro_model_keep_own (model, item->name, cro_model_row_get_text (record, 0));
  item->is_dead = FALSE;
  return cro_touched (is_new || was_dead ? CRO_TOUCHED_STRUCTURE : CRO_TOUCHED_NOTHING, slot);
}

static CroTouched
drop_item (CroModel *model,
           gint64    id)
{
  guint32 slot = cro_slots_get (&model->item_slots, id);

  if (slot == CRO_NO_SLOT)
    return cro_touched (CRO_TOUCHED_NOTHING, 0);
  cro_model_item (model, slot)->is_dead = TRUE;
  model->maker[slot] = -1;
  return cro_touched (CRO_TOUCHED_STRUCTURE, slot);
}

const CroModelTable cro_model_item_table = { "item", item_columns, take_item, drop_item };

static void
set_measure (CroModel *model,
             guint32   slot)
{
  const CroItem *item = cro_model_item (model, slot);

  model->measures[slot] = cro_measure_make (cro_unit_get ((CroUnit) item->unit)->base,
                                            cro_decimal_to_double (item->density),
                                            cro_decimal_to_double (item->piece));
}

static const CroModelColumn ingredient_columns[] = {
  { "kind", CRO_OF_TEXT },
  { "unit", CRO_OF_TEXT },
  { "density_g_per_ml_micro", CRO_ABOVE_0 },
  { "piece_g_micro", CRO_ABOVE_0 },
  { "trim_yield_pct_micro", CRO_YIELD_PCT },
  { "allergens", CRO_FROM_TO (0, CRO_ALLERGENS_ALL) },
  { "may_contain", CRO_FROM_TO (0, CRO_ALLERGENS_ALL) },
  { NULL, 0, 0 },
};

static CroTouched
take_ingredient (CroModel    *model,
                 gint64       id,
                 CroModelRow *record)
{
  gboolean is_disposable = cro_model_row_get_choice (record, 0, cro_ingredient_kind_codes) == 1;
  CroUnit unit = cro_model_row_get_unit (record, 1);
  guint32 slot = cro_slots_get (&model->item_slots, id);
  CroItem *item;
  gboolean was_made, was_new;

  cro_model_row_get_choice (record, 1, cro_base_codes);
  if (slot == CRO_NO_SLOT)
    cro_model_row_refuse (record, 0);
  if (record->is_damaged)
    return CRO_NOTHING_TAKEN;
  item = cro_model_item (model, slot);
  was_made = model->maker[slot] >= 0;
  was_new = !model->measures[slot].is_bought;
  item->is_disposable = is_disposable;
  item->unit = (guint8) unit;
  item->density = cro_model_row_get_int (record, 2);
  item->piece = cro_model_row_get_int (record, 3);
  item->allergens = (gint32) cro_model_row_get_int_or (record, 5, -1);
  item->may_contain = (guint16) cro_model_row_get_int (record, 6);
  set_measure (model, slot);
  model->measures[slot].trim_yield = (int32_t) cro_model_row_get_int (record, 4);
  model->measures[slot].is_bought = true;
  model->measures[slot].is_food = !item->is_disposable;
  model->maker[slot] = -1;
  return cro_touched (was_new || was_made ? CRO_TOUCHED_STRUCTURE : CRO_TOUCHED_ITEM, slot);
}

/* What is neither bought nor made any more: a name alone, until its item goes too or the row of
 * its other kind is taken. */
static CroTouched
leave_name (CroModel *model,
            gint64    id,
            gboolean  is_bought)
{
  guint32 slot = cro_slots_get (&model->item_slots, id);
  CroItem *item;

  if (slot == CRO_NO_SLOT || model->measures[slot].is_bought != is_bought)
    return cro_touched (CRO_TOUCHED_NOTHING, 0);
  item = cro_model_item (model, slot);
  *item = (CroItem){ .id = id, .name = item->name, .is_dead = item->is_dead, .allergens = -1 };
  model->maker[slot] = -1;
  model->measures[slot] = (CroMeasure){ .base = CRO_BASE_GRAM };
  return cro_touched (CRO_TOUCHED_STRUCTURE, slot);
}

static CroTouched
drop_ingredient (CroModel *model,
                 gint64    id)
{
  return leave_name (model, id, TRUE);
}

const CroModelTable cro_model_ingredient_table = {
  "ingredient", ingredient_columns, take_ingredient, drop_ingredient,
};

static const CroModelColumn output_columns[] = {
  { "preparation", CRO_OF_ID },
  { "role", CRO_OF_TEXT },
  { "amount_micro", CRO_ABOVE_0 },
  { "unit", CRO_OF_TEXT },
  { "yield_pct_micro", CRO_YIELD_PCT },
  { "value_micro", CRO_FROM_0 },
  { "density_g_per_ml_micro", CRO_ABOVE_0 },
  { "piece_g_micro", CRO_ABOVE_0 },
  { "lost_pct_micro", CRO_FROM_TO (0, 100 * CRO_MICRO - 1) },
  { NULL, 0, 0 },
};

static CroTouched
take_output (CroModel    *model,
             gint64       id,
             CroModelRow *record)
{
  guint32 recipe = cro_model_row_get_slot (record, 0, &model->preparation_slots);
  gboolean is_main = cro_model_row_get_choice (record, 1, cro_role_codes) == 0;
  guint8 unit = (guint8) cro_model_row_get_unit (record, 3);
  guint32 slot = cro_slots_get (&model->item_slots, id);
  CroItem *item;
  gboolean moved;

  if (slot == CRO_NO_SLOT)
    cro_model_row_refuse (record, 0);
  if (record->is_damaged)
    return CRO_NOTHING_TAKEN;
  item = cro_model_item (model, slot);
  moved = model->maker[slot] != (gint32) recipe || item->is_main != is_main;
  moved |= cro_unit_get ((CroUnit) item->unit)->base != cro_unit_get ((CroUnit) unit)->base;
  item->is_main = is_main;
  item->is_disposable = FALSE;
  item->unit = unit;
  item->density = cro_model_row_get_int (record, 6);
  item->piece = cro_model_row_get_int (record, 7);
  item->output = (CroOutput){
    .unit = (CroUnit) unit,
    .amount = cro_model_row_get_int (record, 2),
    .yield = cro_model_row_get_int (record, 4),
    .has_value = !cro_model_row_is_null (record, 5),
    .value = cro_model_row_get_int (record, 5),
    .lost = cro_model_row_get_int (record, 8),
  };
  set_measure (model, slot);
  model->measures[slot].is_food = true;
  model->maker[slot] = (gint32) recipe;
  /* Density and piece weight also convert the lines that take it. */
  return cro_touched (moved ? CRO_TOUCHED_STRUCTURE : CRO_TOUCHED_ITEM, slot);
}

static CroTouched
drop_output (CroModel *model,
             gint64    id)
{
  return leave_name (model, id, FALSE);
}

const CroModelTable cro_model_output_table = { "output", output_columns, take_output, drop_output };

/* --- Suppliers and offers --------------------------------------------------------------------- */

static const CroModelColumn supplier_columns[] = {
  { "name", CRO_OF_TEXT },
  { NULL, 0, 0 },
};

static CroTouched
take_supplier (CroModel    *model,
               gint64       id,
               CroModelRow *record)
{
  gboolean is_new;
  guint32 slot = cro_model_slot_for (model->suppliers, &model->supplier_slots, id, &is_new);
  CroSupplier *supplier = &g_array_index (model->suppliers, CroSupplier, slot);
  const char *name = cro_model_keep (model, cro_model_row_get_text (record, 0));
  gboolean moved = !is_new && supplier->name != name;

  *supplier = (CroSupplier){ .id = id, .name = name };
  /* Ties between offers are settled by the supplier's name. */
  return cro_touched (moved ? CRO_TOUCHED_STRUCTURE : CRO_TOUCHED_NOTHING, slot);
}

static CroTouched
drop_supplier (CroModel *model,
               gint64    id)
{
  guint32 slot = cro_slots_get (&model->supplier_slots, id);

  if (slot != CRO_NO_SLOT)
    g_array_index (model->suppliers, CroSupplier, slot).is_dead = TRUE;
  return cro_touched (CRO_TOUCHED_NOTHING, 0);
}

const CroModelTable cro_model_supplier_table = {
  "supplier", supplier_columns, take_supplier, drop_supplier,
};

static const CroModelColumn offer_columns[] = {
  { "ingredient", CRO_OF_ID },
  { "supplier", CRO_OF_ID },
  { "code", CRO_OF_TEXT },
  { "pack_count_micro", CRO_ABOVE_0 },
  { "pack_size_micro", CRO_ABOVE_0 },
  { "pack_unit", CRO_OF_TEXT },
  { "net_pct_micro", CRO_PART_PCT },
  { "currency", CRO_OF_TEXT },
  { "preferred", CRO_FROM_TO (0, 1) },
  { "until", CRO_OF_TEXT },
  { NULL, 0, 0 },
};

static CroTouched
take_offer (CroModel    *model,
            gint64       id,
            CroModelRow *record)
{
  guint32 item = cro_model_row_get_slot (record, 0, &model->item_slots);
  guint32 supplier = cro_model_row_get_slot (record, 1, &model->supplier_slots);
  guint8 unit = (guint8) cro_model_row_get_unit (record, 5);
  const char *currency = cro_model_row_get_currency (record, 7);
  CroDate until = 0;
  gboolean has_until = cro_model_row_get_date (record, 9, &until);
  gboolean is_new, moved;
  CroOfferEntry *entry;
  const char *code;
  guint32 slot;

  if (!record->is_damaged && !model->measures[item].is_bought)
    cro_model_row_refuse (record, 0);
  if (record->is_damaged)
    return CRO_NOTHING_TAKEN;
  slot = cro_model_slot_for (model->offers, &model->offer_slots, id, &is_new);
  entry = cro_model_offer (model, slot);
  code = cro_model_keep (model, cro_model_row_get_text (record, 2));
  moved = is_new || entry->is_dead || entry->item != item || entry->supplier != supplier
          || entry->code != code;
  if (is_new)
    *entry = (CroOfferEntry){ .id = id };
  entry->is_dead = FALSE;
  entry->item = item;
  entry->supplier = supplier;
  entry->code = code;
  entry->pack_count = cro_model_row_get_int (record, 3);
  entry->pack_size = cro_model_row_get_int (record, 4);
  entry->pack_unit = unit;
  entry->currency = cro_model_keep (model, currency);
  entry->offer.net = cro_model_row_get_int (record, 6);
  entry->offer.is_preferred = cro_model_row_get_int (record, 8) != 0;
  entry->offer.has_until = has_until;
  entry->offer.until = until;
  return cro_touched (moved ? CRO_TOUCHED_STRUCTURE : CRO_TOUCHED_ITEM, entry->item);
}

static CroTouched
drop_offer (CroModel *model,
            gint64    id)
{
  guint32 slot = cro_slots_get (&model->offer_slots, id);

  if (slot == CRO_NO_SLOT)
    return cro_touched (CRO_TOUCHED_NOTHING, 0);
  cro_model_offer (model, slot)->is_dead = TRUE;
  return cro_touched (CRO_TOUCHED_STRUCTURE, 0);
}

const CroModelTable cro_model_offer_table = { "offer", offer_columns, take_offer, drop_offer };
