#include "cro-model-rows.h"

#include <string.h>

#include "cro-decimal.h"

/* What a preview puts into a column; NULL: the row's own stands. */
static const CroCell *
previewed (const CroRecord *record,
           int              column)
{
  for (int i = 0; i < record->n; i++)
    if (record->columns[i] == column)
      return &record->cells[i];
  return NULL;
}

static gboolean
is_null (CroRecord *record,
         int        column)
{
  const CroCell *cell = previewed (record, column);

  if (cell != NULL)
    return cell->kind == CRO_CELL_NULL;
  return cro_rows_is_null (record->rows, column + 1);
}

/* 0 where the column is not set: for all that must be above 0, 0 says so. */
static gint64
get_int (CroRecord *record,
         int        column)
{
  const CroCell *cell = previewed (record, column);

  if (cell != NULL)
    return cell->kind == CRO_CELL_INTEGER ? cell->integer : 0;
  return cro_rows_get_int (record->rows, column + 1);
}

static gint64
get_int_or (CroRecord *record,
            int        column,
            gint64     otherwise)
{
  return is_null (record, column) ? otherwise : get_int (record, column);
}

static const char *
get_text (CroRecord *record,
          int        column)
{
  const CroCell *cell = previewed (record, column);

  if (cell != NULL)
    return cell->kind == CRO_CELL_TEXT ? cell->text : NULL;
  return cro_rows_get_text (record->rows, column + 1);
}

static const char *
keep (CroModel   *model,
      const char *text)
{
  return text != NULL ? g_string_chunk_insert_const (model->text, text) : NULL;
}

/* A name that no other row has: looking for it among all would cost more than its copy. */
static const char *
keep_own (CroModel   *model,
          const char *was,
          const char *text)
{
  if (text == NULL)
    return NULL;
  if (g_strcmp0 (was, text) == 0)
    return was;
  return g_string_chunk_insert (model->text, text);
}

static guint8
unit_of (const char *code)
{
  CroUnit unit = CRO_UNIT_G;

  if (code != NULL)
    cro_unit_parse (code, strlen (code), &unit);
  return (guint8) unit;
}

static CroTouched
touched (CroTouchedKind kind,
         guint32        slot)
{
  return (CroTouched){ kind, slot };
}

/* The slot of an id, made if it is new; *is_new says so. */
static guint32
slot_for (GArray   *array,
          CroSlots *slots,
          gint64    id,
          gboolean *is_new)
{
  guint32 slot = cro_slots_get (slots, id);

  *is_new = slot == CRO_NO_SLOT;
  if (*is_new)
    {
      slot = array->len;
      g_array_set_size (array, slot + 1);
      cro_slots_set (slots, id, slot);
    }
  return slot;
}

/* --- The book ---------------------------------------------------------------------------- */

static const char *const book_columns[] = {
  "name", "currency", "wage_per_hour_micro", "tax_pct_micro", "target_pct_micro",
  "stale_after_days_micro", NULL
};

static CroTouched
take_book (CroModel  *model,
           gint64     id,
           CroRecord *record)
{
  g_free (model->name);
  g_free (model->currency);
  model->name = g_strdup (get_text (record, 0));
  model->currency = g_strdup (get_text (record, 1));
  model->wage_per_hour = get_int_or (record, 2, CRO_NOT_SET);
  model->tax = get_int_or (record, 3, CRO_NOT_SET);
  model->target = get_int_or (record, 4, CRO_NOT_SET);
  model->stale_after_days = get_int_or (record, 5, CRO_NOT_SET);
  return touched (CRO_TOUCHED_ALL, 0);
}

static CroTouched
drop_book (CroModel *model,
           gint64    id)
{
  g_clear_pointer (&model->name, g_free);
  g_clear_pointer (&model->currency, g_free);
  model->wage_per_hour = model->tax = model->target = model->stale_after_days = CRO_NOT_SET;
  return touched (CRO_TOUCHED_ALL, 0);
}

/* --- Items ------------------------------------------------------------------------------- */

static const char *const item_columns[] = { "name", NULL };

static guint32
item_slot (CroModel *model,
           gint64    id,
           gboolean *is_new)
{
  guint32 slot = slot_for (model->items, &model->item_slots, id, is_new);

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
take_item (CroModel  *model,
           gint64     id,
           CroRecord *record)
{
  gboolean is_new;
  guint32 slot = item_slot (model, id, &is_new);
  CroItem *item = cro_model_item (model, slot);
  gboolean was_dead = item->is_dead;

  item->name = keep_own (model, item->name, get_text (record, 0));
  item->is_dead = FALSE;
  return touched (is_new || was_dead ? CRO_TOUCHED_STRUCTURE : CRO_TOUCHED_NOTHING, slot);
}

static CroTouched
drop_item (CroModel *model,
           gint64    id)
{
  guint32 slot = cro_slots_get (&model->item_slots, id);

  if (slot == CRO_NO_SLOT)
    return touched (CRO_TOUCHED_NOTHING, 0);
  cro_model_item (model, slot)->is_dead = TRUE;
  model->maker[slot] = -1;
  return touched (CRO_TOUCHED_STRUCTURE, slot);
}

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
  NULL
};

static CroTouched
take_ingredient (CroModel  *model,
                 gint64     id,
                 CroRecord *record)
{
  gboolean is_new;
  guint32 slot = item_slot (model, id, &is_new);
  CroItem *item = cro_model_item (model, slot);
  gboolean was_made = model->maker[slot] >= 0;

  item->is_disposable = g_strcmp0 (get_text (record, 0), "disposable") == 0;
  item->unit = unit_of (get_text (record, 1));
  item->density = get_int (record, 2);
  item->piece = get_int (record, 3);
  item->allergens = (gint32) get_int_or (record, 5, -1);
  set_measure (model, slot);
  model->measures[slot].trim_yield = (int32_t) get_int (record, 4);
  model->measures[slot].is_bought = true;
  model->measures[slot].is_food = !item->is_disposable;
  model->maker[slot] = -1;
  return touched (is_new || was_made ? CRO_TOUCHED_STRUCTURE : CRO_TOUCHED_ITEM, slot);
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
    return touched (CRO_TOUCHED_NOTHING, 0);
  item = cro_model_item (model, slot);
  *item = (CroItem){ .id = id, .name = item->name, .is_dead = item->is_dead, .allergens = -1 };
  model->maker[slot] = -1;
  model->measures[slot] = (CroMeasure){ .base = CRO_BASE_GRAM };
  return touched (CRO_TOUCHED_STRUCTURE, slot);
}

static CroTouched
drop_ingredient (CroModel *model,
                 gint64    id)
{
  return leave_name (model, id, TRUE);
}

static const char *const output_columns[] = {
  "preparation", "role", "amount_micro", "unit", "yield_pct_micro", "value_micro",
  "density_g_per_ml_micro", "piece_g_micro", NULL
};

static CroTouched
take_output (CroModel  *model,
             gint64     id,
             CroRecord *record)
{
  gboolean is_new;
  guint32 slot = item_slot (model, id, &is_new);
  CroItem *item = cro_model_item (model, slot);
  guint32 recipe = cro_slots_get (&model->preparation_slots, get_int (record, 0));
  gboolean is_main = g_strcmp0 (get_text (record, 1), "main") == 0;
  gboolean moved = model->maker[slot] != (gint32) recipe || item->is_main != is_main;
  guint8 unit = unit_of (get_text (record, 3));

  moved |= cro_unit_get ((CroUnit) item->unit)->base != cro_unit_get ((CroUnit) unit)->base;
  item->is_main = is_main;
  item->is_disposable = FALSE;
  item->unit = unit;
  item->density = get_int (record, 6);
  item->piece = get_int (record, 7);
  item->output = (CroOutput){
    .unit = (CroUnit) unit,
    .amount = get_int (record, 2),
    .yield = get_int (record, 4),
    .has_value = !is_null (record, 5),
    .value = get_int (record, 5),
  };
  set_measure (model, slot);
  model->measures[slot].is_food = true;
  model->maker[slot] = (gint32) recipe;
  /* Density and piece weight also convert the lines that take it. */
  return touched (is_new || moved ? CRO_TOUCHED_STRUCTURE : CRO_TOUCHED_ITEM, slot);
}

static CroTouched
drop_output (CroModel *model,
             gint64    id)
{
  return leave_name (model, id, FALSE);
}

/* --- Suppliers and offers ----------------------------------------------------------------- */

static const char *const supplier_columns[] = { "name", NULL };

static CroTouched
take_supplier (CroModel  *model,
               gint64     id,
               CroRecord *record)
{
  gboolean is_new;
  guint32 slot = slot_for (model->suppliers, &model->supplier_slots, id, &is_new);
  CroSupplier *supplier = &g_array_index (model->suppliers, CroSupplier, slot);
  const char *name = keep (model, get_text (record, 0));
  gboolean moved = !is_new && supplier->name != name;

  *supplier = (CroSupplier){ .id = id, .name = name };
  /* Ties between offers are settled by the supplier's name. */
  return touched (moved ? CRO_TOUCHED_STRUCTURE : CRO_TOUCHED_NOTHING, slot);
}

static CroTouched
drop_supplier (CroModel *model,
               gint64    id)
{
  guint32 slot = cro_slots_get (&model->supplier_slots, id);

  if (slot != CRO_NO_SLOT)
    g_array_index (model->suppliers, CroSupplier, slot).is_dead = TRUE;
  return touched (CRO_TOUCHED_NOTHING, 0);
}

static const char *const offer_columns[] = {
  "ingredient", "supplier", "code", "pack_count_micro", "pack_size_micro", "pack_unit",
  "net_pct_micro", "currency", "preferred", "until", NULL
};

static CroTouched
take_offer (CroModel  *model,
            gint64     id,
            CroRecord *record)
{
  gboolean is_new;
  guint32 slot = slot_for (model->offers, &model->offer_slots, id, &is_new);
  CroOfferEntry *entry = cro_model_offer (model, slot);
  const char *until = get_text (record, 9);
  guint32 item = cro_slots_get (&model->item_slots, get_int (record, 0));
  guint32 supplier = cro_slots_get (&model->supplier_slots, get_int (record, 1));
  const char *code = keep (model, get_text (record, 2));
  gboolean moved = is_new || entry->is_dead || entry->item != item || entry->supplier != supplier
                   || entry->code != code;

  if (is_new)
    *entry = (CroOfferEntry){ .id = id };
  entry->is_dead = FALSE;
  entry->item = item;
  entry->supplier = supplier;
  entry->code = code;
  entry->pack_count = get_int (record, 3);
  entry->pack_size = get_int (record, 4);
  entry->pack_unit = unit_of (get_text (record, 5));
  entry->currency = keep (model, get_text (record, 7));
  entry->offer.net = get_int (record, 6);
  entry->offer.is_preferred = get_int (record, 8) != 0;
  entry->offer.has_until = until != NULL
                           && cro_date_parse (until, strlen (until), &entry->offer.until);
  return touched (moved ? CRO_TOUCHED_STRUCTURE : CRO_TOUCHED_ITEM, entry->item);
}

static CroTouched
drop_offer (CroModel *model,
            gint64    id)
{
  guint32 slot = cro_slots_get (&model->offer_slots, id);

  if (slot == CRO_NO_SLOT)
    return touched (CRO_TOUCHED_NOTHING, 0);
  cro_model_offer (model, slot)->is_dead = TRUE;
  return touched (CRO_TOUCHED_STRUCTURE, 0);
}

/* --- Preparations and plates --------------------------------------------------------------- */

static guint32
recipe_slot (CroModel *model,
             CroSlots *slots,
             gint64    id,
             gboolean  is_plate,
             gboolean *is_new)
{
  guint32 slot = slot_for (model->recipes, slots, id, is_new);
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
    return touched (CRO_TOUCHED_NOTHING, 0);
  cro_model_recipe (model, slot)->is_dead = TRUE;
  return touched (CRO_TOUCHED_STRUCTURE, slot);
}

static const char *const preparation_columns[] = {
  "name", "by_products", "active_minutes_micro", "smallest_part_micro", NULL
};

static guint8
rule_of (const char *text)
{
  static const char *const rules[] = { "free", "weight", "value", "credit" };

  for (guint8 i = 0; i < G_N_ELEMENTS (rules); i++)
    if (g_strcmp0 (text, rules[i]) == 0)
      return i;
  return CRO_RULE_FREE;
}

static CroTouched
take_preparation (CroModel  *model,
                  gint64     id,
                  CroRecord *record)
{
  gboolean is_new;
  guint32 slot = recipe_slot (model, &model->preparation_slots, id, FALSE, &is_new);
  CroRecipe *recipe = cro_model_recipe (model, slot);

  recipe->name = keep_own (model, recipe->name, get_text (record, 0));
  recipe->rule = rule_of (get_text (record, 1));
  recipe->active_minutes = get_int (record, 2);
  recipe->smallest_part = get_int (record, 3);
  return touched (is_new ? CRO_TOUCHED_STRUCTURE : CRO_TOUCHED_RECIPE, slot);
}

static CroTouched
drop_preparation (CroModel *model,
                  gint64    id)
{
  return drop_recipe (model, &model->preparation_slots, id);
}

static const char *const thing_columns[] = { "name", NULL };

static CroTouched
take_thing (CroModel  *model,
            gint64     id,
            CroRecord *record)
{
  const char *name = keep_own (model, g_hash_table_lookup (model->thing_names, &id),
                               get_text (record, 0));
  guint32 plate = cro_slots_get (&model->plate_slots, id);
  guint32 menu = cro_slots_get (&model->menu_slots, id);

  g_hash_table_insert (model->thing_names, g_memdup2 (&id, sizeof id), (gpointer) name);
  if (plate != CRO_NO_SLOT)
    cro_model_recipe (model, plate)->name = name;
  if (menu != CRO_NO_SLOT)
    cro_model_menu (model, menu)->name = name;
  return touched (CRO_TOUCHED_NOTHING, 0);
}

static CroTouched
drop_thing (CroModel *model,
            gint64    id)
{
  g_hash_table_remove (model->thing_names, &id);
  return touched (CRO_TOUCHED_NOTHING, 0);
}

static const char *const plate_columns[] = {
  "course", "makes_micro", "per_guest_micro", "price_micro", "tax_pct_micro", "target_pct_micro",
  "allowance_pct_micro", "active_minutes_micro", NULL
};

static CroTouched
take_plate (CroModel  *model,
            gint64     id,
            CroRecord *record)
{
  gboolean is_new;
  guint32 slot = recipe_slot (model, &model->plate_slots, id, TRUE, &is_new);
  CroRecipe *recipe = cro_model_recipe (model, slot);

  recipe->name = g_hash_table_lookup (model->thing_names, &id);
  recipe->course = keep (model, get_text (record, 0));
  recipe->makes = get_int (record, 1);
  recipe->per_guest = get_int_or (record, 2, CRO_MICRO);
  recipe->price = get_int_or (record, 3, CRO_NOT_SET);
  recipe->tax = get_int_or (record, 4, CRO_NOT_SET);
  recipe->target = get_int_or (record, 5, CRO_NOT_SET);
  recipe->allowance = get_int (record, 6);
  recipe->active_minutes = get_int (record, 7);
  return touched (is_new ? CRO_TOUCHED_STRUCTURE : CRO_TOUCHED_RECIPE, slot);
}

static CroTouched
drop_plate (CroModel *model,
            gint64    id)
{
  return drop_recipe (model, &model->plate_slots, id);
}

/* --- Menus ----------------------------------------------------------------------------------- */

static const char *const menu_columns[] = { "price_micro", "tax_pct_micro", "target_pct_micro", NULL };

static CroTouched
take_menu (CroModel  *model,
           gint64     id,
           CroRecord *record)
{
  gboolean is_new;
  guint32 slot = slot_for (model->menus, &model->menu_slots, id, &is_new);

  *cro_model_menu (model, slot) = (CroMenu){
    .id = id,
    .name = g_hash_table_lookup (model->thing_names, &id),
    .price = get_int_or (record, 0, CRO_NOT_SET),
    .tax = get_int_or (record, 1, CRO_NOT_SET),
    .target = get_int_or (record, 2, CRO_NOT_SET),
  };
  return touched (CRO_TOUCHED_NOTHING, 0);
}

static CroTouched
drop_menu (CroModel *model,
           gint64    id)
{
  guint32 slot = cro_slots_get (&model->menu_slots, id);

  if (slot != CRO_NO_SLOT)
    cro_model_menu (model, slot)->is_dead = TRUE;
  return touched (CRO_TOUCHED_NOTHING, 0);
}

static const char *const menu_plate_columns[] = {
  "menu", "plate", "servings_micro", "position_micro", NULL
};

static CroTouched
take_menu_plate (CroModel  *model,
                 gint64     id,
                 CroRecord *record)
{
  gboolean is_new;
  guint32 slot = slot_for (model->menu_plates, &model->menu_plate_slots, id, &is_new);

  g_array_index (model->menu_plates, CroMenuPlate, slot) = (CroMenuPlate){
    .id = id,
    .menu = cro_slots_get (&model->menu_slots, get_int (record, 0)),
    .plate = cro_slots_get (&model->plate_slots, get_int (record, 1)),
    .servings = get_int_or (record, 2, CRO_MICRO),
    .position = get_int (record, 3),
  };
  return touched (CRO_TOUCHED_NOTHING, 0);
}

static CroTouched
drop_menu_plate (CroModel *model,
                 gint64    id)
{
  guint32 slot = cro_slots_get (&model->menu_plate_slots, id);

  if (slot != CRO_NO_SLOT)
    g_array_index (model->menu_plates, CroMenuPlate, slot).is_dead = TRUE;
  return touched (CRO_TOUCHED_NOTHING, 0);
}

/* --- Lines -------------------------------------------------------------------------------------- */

static const char *const line_columns[] = {
  "preparation", "plate", "position_micro", "item", "amount_micro", "unit", "weighed",
  "yield_pct_micro", "recovered_pct_micro", NULL
};

static void
grow_lines (CroModel *model)
{
  CroLines *lines = &model->lines;
  gsize n = MAX (256, model->lines_allocated * 2);

  model->lines_allocated = n;
  lines->row = g_renew (int32_t, lines->row, n);
  lines->item = g_renew (uint32_t, lines->item, n);
  lines->position = g_renew (int64_t, lines->position, n);
  lines->amount = g_renew (int64_t, lines->amount, n);
  lines->yield = g_renew (int32_t, lines->yield, n);
  lines->recovered = g_renew (int32_t, lines->recovered, n);
  lines->unit = g_renew (uint8_t, lines->unit, n);
  lines->whole = g_renew (uint8_t, lines->whole, n);
  model->line_ids = g_renew (gint64, model->line_ids, n);
}

static guint32
line_slot (CroModel *model,
           gint64    id)
{
  guint32 slot = cro_slots_get (&model->line_slots, id);

  if (slot != CRO_NO_SLOT)
    return slot;
  slot = (guint32) model->lines.n++;
  if (slot >= model->lines_allocated)
    grow_lines (model);
  cro_slots_set (&model->line_slots, id, slot);
  model->line_ids[slot] = id;
  model->lines.row[slot] = -1;
  return slot;
}

static CroTouched
take_line (CroModel  *model,
           gint64     id,
           CroRecord *record)
{
  guint32 slot = line_slot (model, id);
  CroLines *lines = &model->lines;
  gint64 preparation = get_int (record, 0);
  gint32 row = (gint32) (preparation != 0
                             ? cro_slots_get (&model->preparation_slots, preparation)
                             : cro_slots_get (&model->plate_slots, get_int (record, 1)));
  guint32 item = cro_slots_get (&model->item_slots, get_int (record, 3));
  gint64 position = get_int (record, 2);
  gboolean moved = lines->row[slot] != row || lines->item[slot] != item
                   || lines->position[slot] != position;

  lines->row[slot] = row;
  lines->item[slot] = item;
  lines->position[slot] = position;
  lines->amount[slot] = get_int (record, 4);
  lines->unit[slot] = unit_of (get_text (record, 5));
  lines->whole[slot] = g_strcmp0 (get_text (record, 6), "whole") == 0;
  lines->yield[slot] = (int32_t) get_int (record, 7);
  lines->recovered[slot] = (int32_t) get_int (record, 8);
  return touched (moved ? CRO_TOUCHED_STRUCTURE : CRO_TOUCHED_RECIPE, (guint32) row);
}

static CroTouched
drop_line (CroModel *model,
           gint64    id)
{
  guint32 slot = cro_slots_get (&model->line_slots, id);

  if (slot == CRO_NO_SLOT || model->lines.row[slot] < 0)
    return touched (CRO_TOUCHED_NOTHING, 0);
  model->lines.row[slot] = -1;
  return touched (CRO_TOUCHED_STRUCTURE, 0);
}

const CroModelTable cro_model_rows[] = {
  { "book", book_columns, take_book, drop_book },
  { "item", item_columns, take_item, drop_item },
  { "ingredient", ingredient_columns, take_ingredient, drop_ingredient },
  { "supplier", supplier_columns, take_supplier, drop_supplier },
  { "offer", offer_columns, take_offer, drop_offer },
  { "preparation", preparation_columns, take_preparation, drop_preparation },
  { "output", output_columns, take_output, drop_output },
  { "thing", thing_columns, take_thing, drop_thing },
  { "plate", plate_columns, take_plate, drop_plate },
  { "menu", menu_columns, take_menu, drop_menu },
  { "menu_plate", menu_plate_columns, take_menu_plate, drop_menu_plate },
  { "recipe_line", line_columns, take_line, drop_line },
  { NULL, NULL, NULL, NULL },
};
