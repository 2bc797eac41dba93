#include "cro-model-rows-private.h"
#include "cro-code.h"
#include "cro-model-selling.h"

/* --- Preparations and plates ------------------------------------------------------------------ */

static guint32
recipe_slot (CroModel *model,
             CroSlots *slots,
             gint64    id,
             gboolean  is_plate,
             gboolean *is_new)
{
  guint32 slot = cro_model_slot_for (model->recipes, slots, id, is_new);
  CroRecipe *recipe = cro_model_recipe (model, slot);

  *is_new |= recipe->is_dead;
  *recipe = (CroRecipe){
    .id = id,
    .name = recipe->name,
    .is_plate = is_plate,
    .first_output = recipe->first_output,
    .n_outputs = recipe->n_outputs,
    .price = CRO_NOT_SET, .tax = CRO_NOT_SET, .target = CRO_NOT_SET,
  };
  return slot;
}

static CroTouched
drop_recipe (CroModel *model,
             CroSlots *slots,
             gint64    id)
{
  guint32 slot = cro_slots_get (slots, id);

  if (slot == CRO_NO_SLOT)
    return cro_touched (CRO_TOUCHED_NOTHING, 0);
  cro_model_recipe (model, slot)->is_dead = TRUE;
  return cro_touched (CRO_TOUCHED_STRUCTURE, slot);
}

static const CroModelColumn preparation_columns[] = {
  { "name", CRO_OF_TEXT },
  { "by_products", CRO_OF_TEXT },
  { "active_minutes_micro", CRO_FROM_0 },
  { "smallest_part_micro", CRO_FROM_TO (0, CRO_MICRO) },
  { NULL, 0, 0 },
};

static CroTouched
take_preparation (CroModel    *model,
                  gint64       id,
                  CroModelRow *record)
{
  guint8 rule = cro_model_row_get_choice (record, 1, cro_rule_codes);
  gboolean is_new;
  CroRecipe *recipe;
  guint32 slot;

  if (record->is_damaged)
    return CRO_NOTHING_TAKEN;
  slot = recipe_slot (model, &model->preparation_slots, id, FALSE, &is_new);
  recipe = cro_model_recipe (model, slot);
  recipe->name = cro_model_keep_own (model, recipe->name, cro_model_row_get_text (record, 0));
  recipe->rule = rule;
  recipe->active_minutes = cro_model_row_get_int (record, 2);
  recipe->smallest_part = cro_model_row_get_int (record, 3);
  return cro_touched (is_new ? CRO_TOUCHED_STRUCTURE : CRO_TOUCHED_RECIPE, slot);
}

static CroTouched
drop_preparation (CroModel *model,
                  gint64    id)
{
  return drop_recipe (model, &model->preparation_slots, id);
}

const CroModelTable cro_model_preparation_table = {
  "preparation", preparation_columns, take_preparation, drop_preparation,
};

static const CroModelColumn plate_columns[] = {
  { "course", CRO_OF_TEXT },
  { "makes_micro", CRO_ABOVE_0 },
  { "per_guest_micro", CRO_ABOVE_0 },
  { "price_micro", CRO_FROM_0 },
  { "tax_pct_micro", CRO_FROM_0 },
  { "target_pct_micro", CRO_PART_PCT },
  { "allowance_pct_micro", CRO_FROM_0 },
  { "active_minutes_micro", CRO_FROM_0 },
  { NULL, 0, 0 },
};

static CroTouched
take_plate (CroModel    *model,
            gint64       id,
            CroModelRow *record)
{
  const char *name = g_hash_table_lookup (model->thing_names, &id);
  gboolean is_new;
  CroRecipe *recipe;
  guint32 slot;

  if (name == NULL)
    {
      cro_model_row_refuse (record, 0);
      return CRO_NOTHING_TAKEN;
    }
  slot = recipe_slot (model, &model->plate_slots, id, TRUE, &is_new);
  recipe = cro_model_recipe (model, slot);
  recipe->name = name;
  recipe->course = cro_model_keep (model, cro_model_row_get_text (record, 0));
  recipe->makes = cro_model_row_get_int (record, 1);
  recipe->per_guest = cro_model_row_get_int_or (record, 2, CRO_MICRO);
  recipe->own_price = cro_model_row_get_int_or (record, 3, CRO_NOT_SET);
  recipe->own_tax = cro_model_row_get_int_or (record, 4, CRO_NOT_SET);
  cro_model_sell_plate (model, recipe);
  recipe->target = cro_model_row_get_int_or (record, 5, CRO_NOT_SET);
  recipe->allowance = cro_model_row_get_int (record, 6);
  recipe->active_minutes = cro_model_row_get_int (record, 7);
  return cro_touched (is_new ? CRO_TOUCHED_STRUCTURE : CRO_TOUCHED_RECIPE, slot);
}

static CroTouched
drop_plate (CroModel *model,
            gint64    id)
{
  return drop_recipe (model, &model->plate_slots, id);
}

const CroModelTable cro_model_plate_table = { "plate", plate_columns, take_plate, drop_plate };

/* --- Lines ------------------------------------------------------------------------------------ */

static const CroModelColumn line_columns[] = {
  { "preparation", CRO_OF_ID },
  { "plate", CRO_OF_ID },
  { "position_micro", CRO_FROM_0 },
  { "item", CRO_OF_ID },
  { "amount_micro", CRO_FROM_0 },
  { "unit", CRO_OF_TEXT },
  { "weighed", CRO_OF_TEXT },
  { "yield_pct_micro", CRO_YIELD_PCT },
  { "recovered_pct_micro", CRO_FROM_TO (0, 100 * CRO_MICRO - 1) },
  { NULL, 0, 0 },
};

static guint32
line_slot (CroModel *model,
           gint64    id)
{
  guint32 slot = cro_slots_get (&model->line_slots, id);

  if (slot != CRO_NO_SLOT)
    return slot;
  slot = (guint32) model->lines.n++;
  cro_model_reserve_lines (model, model->lines.n);
  cro_slots_set (&model->line_slots, id, slot);
  model->line_ids[slot] = id;
  model->lines.row[slot] = -1;
  return slot;
}

/* A line goes into a preparation or onto a plate; in a preview it may be in neither, or in both. */
static gint32
row_of_line (CroModel    *model,
             CroModelRow *record)
{
  if (record->is_preview && cro_model_row_is_null (record, 0) && cro_model_row_is_null (record, 1))
    return -1;
  if (!record->is_preview && cro_model_row_is_null (record, 0) == cro_model_row_is_null (record, 1))
    cro_model_row_refuse (record, 0);
  return (gint32) (!cro_model_row_is_null (record, 0)
                       ? cro_model_row_get_slot (record, 0, &model->preparation_slots)
                       : cro_model_row_get_slot (record, 1, &model->plate_slots));
}

static CroTouched
take_line (CroModel    *model,
           gint64       id,
           CroModelRow *record)
{
  CroLines *lines = &model->lines;
  gint32 row = row_of_line (model, record);
  guint32 item = cro_model_row_get_slot (record, 3, &model->item_slots);
  CroUnit unit = cro_model_row_get_unit (record, 5);
  guint8 is_whole = record->cells[6].text != NULL
                    && cro_model_row_get_choice (record, 6, cro_weighing_codes) == 0;
  gint64 position = cro_model_row_get_int (record, 2);
  gboolean moved;
  guint32 slot;

  if (record->is_damaged)
    return CRO_NOTHING_TAKEN;
  slot = line_slot (model, id);
  moved = lines->row[slot] != row || lines->item[slot] != item || lines->position[slot] != position;
  lines->row[slot] = row;
  lines->item[slot] = item;
  lines->position[slot] = position;
  lines->amount[slot] = cro_model_row_get_int (record, 4);
  lines->unit[slot] = (uint8_t) unit;
  lines->whole[slot] = is_whole;
  lines->yield[slot] = (int32_t) cro_model_row_get_int (record, 7);
  lines->recovered[slot] = (int32_t) cro_model_row_get_int (record, 8);
  return cro_touched (moved ? CRO_TOUCHED_STRUCTURE : CRO_TOUCHED_RECIPE, (guint32) row);
}

static CroTouched
drop_line (CroModel *model,
           gint64    id)
{
  guint32 slot = cro_slots_get (&model->line_slots, id);

  if (slot == CRO_NO_SLOT || model->lines.row[slot] < 0)
    return cro_touched (CRO_TOUCHED_NOTHING, 0);
  model->lines.row[slot] = -1;
  return cro_touched (CRO_TOUCHED_STRUCTURE, 0);
}

const CroModelTable cro_model_recipe_line_table = {
  "recipe_line", line_columns, take_line, drop_line,
};

/* --- Names of plates and menus ---------------------------------------------------------------- */

static const CroModelColumn thing_columns[] = {
  { "name", CRO_OF_TEXT },
  { NULL, 0, 0 },
};

static CroTouched
take_thing (CroModel    *model,
            gint64       id,
            CroModelRow *record)
{
  const char *name = cro_model_keep_own (model, g_hash_table_lookup (model->thing_names, &id),
                                         cro_model_row_get_text (record, 0));
  guint32 plate = cro_slots_get (&model->plate_slots, id);
  guint32 menu = cro_slots_get (&model->menu_slots, id);

  g_hash_table_insert (model->thing_names, g_memdup2 (&id, sizeof id), (gpointer) name);
  if (plate != CRO_NO_SLOT)
    cro_model_recipe (model, plate)->name = name;
  if (menu != CRO_NO_SLOT)
    cro_model_menu (model, menu)->name = name;
  return cro_touched (CRO_TOUCHED_NOTHING, 0);
}

static CroTouched
drop_thing (CroModel *model,
            gint64    id)
{
  g_hash_table_remove (model->thing_names, &id);
  return cro_touched (CRO_TOUCHED_NOTHING, 0);
}

const CroModelTable cro_model_thing_table = { "thing", thing_columns, take_thing, drop_thing };

/* --- Menus ------------------------------------------------------------------------------------ */

static const CroModelColumn menu_columns[] = {
  { "price_micro", CRO_FROM_0 },
  { "tax_pct_micro", CRO_FROM_0 },
  { "target_pct_micro", CRO_PART_PCT },
  { NULL, 0, 0 },
};

static CroTouched
take_menu (CroModel    *model,
           gint64       id,
           CroModelRow *record)
{
  const char *name = g_hash_table_lookup (model->thing_names, &id);
  gboolean is_new;
  guint32 slot;

  if (name == NULL)
    {
      cro_model_row_refuse (record, 0);
      return CRO_NOTHING_TAKEN;
    }
  slot = cro_model_slot_for (model->menus, &model->menu_slots, id, &is_new);
  *cro_model_menu (model, slot) = (CroMenu){
    .id = id,
    .name = name,
    .own_price = cro_model_row_get_int_or (record, 0, CRO_NOT_SET),
    .own_tax = cro_model_row_get_int_or (record, 1, CRO_NOT_SET),
    .target = cro_model_row_get_int_or (record, 2, CRO_NOT_SET),
  };
  cro_model_sell_menu (model, cro_model_menu (model, slot));
  return cro_touched (CRO_TOUCHED_NOTHING, 0);
}

static CroTouched
drop_menu (CroModel *model,
           gint64    id)
{
  guint32 slot = cro_slots_get (&model->menu_slots, id);

  if (slot != CRO_NO_SLOT)
    cro_model_menu (model, slot)->is_dead = TRUE;
  return cro_touched (CRO_TOUCHED_NOTHING, 0);
}

const CroModelTable cro_model_menu_table = { "menu", menu_columns, take_menu, drop_menu };

static const CroModelColumn menu_plate_columns[] = {
  { "menu", CRO_OF_ID },
  { "plate", CRO_OF_ID },
  { "servings_micro", CRO_FROM_0 },
  { "position_micro", CRO_FROM_0 },
  { "choice", CRO_OF_TEXT },
  { "share_pct_micro", CRO_FROM_TO (0, 100 * CRO_MICRO) },
  { NULL, 0, 0 },
};

static CroTouched
take_menu_plate (CroModel    *model,
                 gint64       id,
                 CroModelRow *record)
{
  guint32 menu = cro_model_row_get_slot (record, 0, &model->menu_slots);
  guint32 plate = cro_model_row_get_slot (record, 1, &model->plate_slots);
  gboolean is_new;
  guint32 slot;

  if (record->is_damaged)
    return CRO_NOTHING_TAKEN;
  slot = cro_model_slot_for (model->menu_plates, &model->menu_plate_slots, id, &is_new);
  g_array_index (model->menu_plates, CroMenuPlate, slot) = (CroMenuPlate){
    .id = id,
    .menu = menu,
    .plate = plate,
    .servings = cro_model_row_get_int_or (record, 2, CRO_MICRO),
    .position = cro_model_row_get_int (record, 3),
    .choice = cro_model_keep (model, cro_model_row_get_text (record, 4)),
    .share = cro_model_row_get_int_or (record, 5, CRO_NOT_SET),
  };
  return cro_touched (CRO_TOUCHED_NOTHING, 0);
}

static CroTouched
drop_menu_plate (CroModel *model,
                 gint64    id)
{
  guint32 slot = cro_slots_get (&model->menu_plate_slots, id);

  if (slot != CRO_NO_SLOT)
    g_array_index (model->menu_plates, CroMenuPlate, slot).is_dead = TRUE;
  return cro_touched (CRO_TOUCHED_NOTHING, 0);
}

const CroModelTable cro_model_menu_plate_table = {
  "menu_plate", menu_plate_columns, take_menu_plate, drop_menu_plate,
};
