#include "cro-model-rows-private.h"

static const char *const item_columns[] = { "name", NULL };

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

static const char *const ingredient_columns[] = {
  "kind", "unit", "density_g_per_ml_micro", "piece_g_micro", "trim_yield_pct_micro", "allergens",
  "may_contain", NULL
};

static CroTouched
take_ingredient (CroModel    *model,
                 gint64       id,
                 CroModelRow *record)
{
  gboolean is_new;
  guint32 slot = item_slot (model, id, &is_new);
  CroItem *item = cro_model_item (model, slot);
  gboolean was_made = model->maker[slot] >= 0;

  item->is_disposable = g_strcmp0 (cro_model_row_get_text (record, 0), "disposable") == 0;
  item->unit = cro_model_unit_of (cro_model_row_get_text (record, 1));
  item->density = cro_model_row_get_int (record, 2);
  item->piece = cro_model_row_get_int (record, 3);
  item->allergens = (gint32) cro_model_row_get_int_or (record, 5, -1);
  item->may_contain = (guint16) cro_model_row_get_int (record, 6);
  set_measure (model, slot);
  model->measures[slot].trim_yield = (int32_t) cro_model_row_get_int (record, 4);
  model->measures[slot].is_bought = true;
  model->measures[slot].is_food = !item->is_disposable;
  model->maker[slot] = -1;
  return cro_touched (is_new || was_made ? CRO_TOUCHED_STRUCTURE : CRO_TOUCHED_ITEM, slot);
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

static const char *const output_columns[] = {
  "preparation", "role", "amount_micro", "unit", "yield_pct_micro", "value_micro",
  "density_g_per_ml_micro", "piece_g_micro", "lost_pct_micro", NULL
};

static CroTouched
take_output (CroModel    *model,
             gint64       id,
             CroModelRow *record)
{
  gboolean is_new;
  guint32 slot = item_slot (model, id, &is_new);
  CroItem *item = cro_model_item (model, slot);
  guint32 recipe = cro_slots_get (&model->preparation_slots, cro_model_row_get_int (record, 0));
  gboolean is_main = g_strcmp0 (cro_model_row_get_text (record, 1), "main") == 0;
  gboolean moved = model->maker[slot] != (gint32) recipe || item->is_main != is_main;
  guint8 unit = cro_model_unit_of (cro_model_row_get_text (record, 3));

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
  return cro_touched (is_new || moved ? CRO_TOUCHED_STRUCTURE : CRO_TOUCHED_ITEM, slot);
}

static CroTouched
drop_output (CroModel *model,
             gint64    id)
{
  return leave_name (model, id, FALSE);
}

const CroModelTable cro_model_output_table = { "output", output_columns, take_output, drop_output };

/* --- Suppliers and offers --------------------------------------------------------------------- */

static const char *const supplier_columns[] = { "name", NULL };

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

static const char *const offer_columns[] = {
  "ingredient", "supplier", "code", "pack_count_micro", "pack_size_micro", "pack_unit",
  "net_pct_micro", "currency", "preferred", "until", NULL
};

static CroTouched
take_offer (CroModel    *model,
            gint64       id,
            CroModelRow *record)
{
  gboolean is_new;
  guint32 slot = cro_model_slot_for (model->offers, &model->offer_slots, id, &is_new);
  CroOfferEntry *entry = cro_model_offer (model, slot);
  const char *until = cro_model_row_get_text (record, 9);
  guint32 item = cro_slots_get (&model->item_slots, cro_model_row_get_int (record, 0));
  guint32 supplier = cro_slots_get (&model->supplier_slots, cro_model_row_get_int (record, 1));
  const char *code = cro_model_keep (model, cro_model_row_get_text (record, 2));
  gboolean moved = is_new || entry->is_dead || entry->item != item || entry->supplier != supplier
                   || entry->code != code;

  if (is_new)
    *entry = (CroOfferEntry){ .id = id };
  entry->is_dead = FALSE;
  entry->item = item;
  entry->supplier = supplier;
  entry->code = code;
  entry->pack_count = cro_model_row_get_int (record, 3);
  entry->pack_size = cro_model_row_get_int (record, 4);
  entry->pack_unit = cro_model_unit_of (cro_model_row_get_text (record, 5));
  entry->currency = cro_model_keep (model, cro_model_row_get_text (record, 7));
  entry->offer.net = cro_model_row_get_int (record, 6);
  entry->offer.is_preferred = cro_model_row_get_int (record, 8) != 0;
  entry->offer.has_until = until != NULL
                           && cro_date_parse (until, strlen (until), &entry->offer.until);
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
