#include "cro-edit-private.h"

#include <string.h>

/* --- Who uses it ----------------------------------------------------------------------------- */

/* Records that name a thing without having a slot. */
static const struct { CroRefKind of; const char *table, *column; CroRefKind kind; } records[] = {
  { CRO_REF_ITEM, "yield_test", "item", CRO_REF_YIELD_TESTS },
  { CRO_REF_ITEM, "yield_test_part", "output", CRO_REF_YIELD_TESTS },
  { CRO_REF_ITEM, "stock_count", "item", CRO_REF_COUNTS },
  { CRO_REF_ITEM, "purchase", "ingredient", CRO_REF_PURCHASES },
  { CRO_REF_ITEM, "adjustment", "item", CRO_REF_ADJUSTMENTS },
  { CRO_REF_RECIPE, "sale", "thing", CRO_REF_SALES },
  { CRO_REF_MENU, "sale", "thing", CRO_REF_SALES },
  { CRO_REF_SUPPLIER, "purchase", "supplier", CRO_REF_PURCHASES },
};

static void
add_user (GArray     *users,
          CroRefKind  kind,
          guint32     slot)
{
  CroRef user = CRO_REF (kind, slot);

  for (guint i = 0; i < users->len; i++)
    {
      const CroRef *other = &g_array_index (users, CroRef, i);

      if (other->kind == kind && other->slot == slot)
        return;
    }
  g_array_append_val (users, user);
}

static gboolean
names_id (CroBook     *book,
          const char  *table,
          const char  *column,
          gint64       id,
          gboolean    *found,
          GError     **error)
{
  const char *columns[] = { column, NULL };
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (book), table, columns, error);
  GError *failed = NULL;

  *found = FALSE;
  if (rows == NULL)
    return FALSE;
  while (!*found && cro_rows_next (rows, &failed))
    *found = cro_rows_get_int (rows, 0) == id;
  if (failed != NULL)
    g_propagate_error (error, failed);
  return failed == NULL;
}

static gboolean
add_records (CroBook     *book,
             CroRefKind   of,
             gint64       id,
             GArray      *users,
             GError     **error)
{
  for (gsize i = 0; i < G_N_ELEMENTS (records); i++)
    {
      gboolean found;

      if (records[i].of != of)
        continue;
      if (!names_id (book, records[i].table, records[i].column, id, &found, error))
        return FALSE;
      if (found)
        add_user (users, records[i].kind, CRO_NO_SLOT);
    }
  return TRUE;
}

static gboolean
add_users_of_item (CroBook  *book,
                   guint32   slot,
                   GArray   *users,
                   GError  **error)
{
  CroFigures *figures = cro_book_get_figures (book);
  const CroGraph *graph = &figures->graph;
  guint32 node = cro_figures_node (figures, slot);

  for (guint32 at = 0, row; cro_graph_next_user (graph, node, &at, &row);)
    {
      CroRef user = CRO_REF (CRO_REF_RECIPE, graph->slot_of_row[row]);

      g_array_append_val (users, user);
    }
  return add_records (book, CRO_REF_ITEM, cro_model_item (figures->model, slot)->id, users, error);
}

static gboolean
add_users_of_recipe (CroBook  *book,
                     guint32   slot,
                     GArray   *users,
                     GError  **error)
{
  CroModel *model = cro_book_get_model (book);
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (cro_book_get_figures (book), slot, &outputs);

  for (guint32 i = 0; i < n; i++)
    {
      g_autoptr (GArray) of_output = g_array_new (FALSE, FALSE, sizeof (CroRef));

      if (!add_users_of_item (book, outputs[i], of_output, error))
        return FALSE;
      for (guint k = 0; k < of_output->len; k++)
        add_user (users, g_array_index (of_output, CroRef, k).kind,
                  g_array_index (of_output, CroRef, k).slot);
    }
  if (!cro_model_recipe (model, slot)->is_plate)
    return TRUE;
  for (guint32 i = 0; i < model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, i);

      if (!entry->is_dead && entry->plate == slot)
        add_user (users, CRO_REF_MENU, entry->menu);
    }
  return add_records (book, CRO_REF_RECIPE, cro_model_recipe (model, slot)->id, users, error);
}

static gboolean
add_users_of_supplier (CroBook  *book,
                       guint32   slot,
                       GArray   *users,
                       GError  **error)
{
  CroModel *model = cro_book_get_model (book);

  for (guint32 i = 0; i < model->offers->len; i++)
    if (!cro_model_offer (model, i)->is_dead && cro_model_offer (model, i)->supplier == slot)
      add_user (users, CRO_REF_OFFER, i);
  return add_records (book, CRO_REF_SUPPLIER,
                      g_array_index (model->suppliers, CroSupplier, slot).id, users, error);
}

static gboolean
add_users (CroBook  *book,
           CroRef    ref,
           GArray   *users,
           GError  **error)
{
  CroModel *model = cro_book_get_model (book);

  switch (ref.kind)
    {
    case CRO_REF_ITEM:
      /* A preparation stands and falls with its main output. */
      if (model->maker[ref.slot] >= 0 && cro_model_item (model, ref.slot)->is_main)
        add_user (users, CRO_REF_RECIPE, (guint32) model->maker[ref.slot]);
      return add_users_of_item (book, ref.slot, users, error);
    case CRO_REF_RECIPE:
      return add_users_of_recipe (book, ref.slot, users, error);
    case CRO_REF_MENU:
      return add_records (book, CRO_REF_MENU, cro_model_menu (model, ref.slot)->id, users, error);
    case CRO_REF_SUPPLIER:
      return add_users_of_supplier (book, ref.slot, users, error);
    default:
      return TRUE;
    }
}

GArray *
cro_edit_list_users (CroBook  *book,
                     CroRef    ref,
                     GError  **error)
{
  g_autoptr (GArray) users = g_array_new (FALSE, FALSE, sizeof (CroRef));

  return add_users (book, ref, users, error) ? g_steal_pointer (&users) : NULL;
}

/* --- Removing ---------------------------------------------------------------------------------- */

static gboolean
delete_row (CroBook     *book,
            const char  *table,
            gint64       id,
            GError     **error)
{
  return cro_store_delete (cro_book_get_store (book), table, id, error);
}

/* Rows that are about a thing and nothing without it. */
static gboolean
delete_rows_of (CroBook     *book,
                const char  *table,
                const char  *column,
                gint64       id,
                GError     **error)
{
  g_autoptr (GArray) ids = cro_edit_list_rows (book, table, column, id, error);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    if (!delete_row (book, table, g_array_index (ids, gint64, i), error))
      return FALSE;
  return ids != NULL;
}

/* A plate or a menu as such, with what it is sold for and who is expected to take it. */
static gboolean
remove_thing (CroBook     *book,
              const char  *table,
              gint64       id,
              GError     **error)
{
  return delete_rows_of (book, "selling_price", "thing", id, error)
         && delete_rows_of (book, "service", "thing", id, error)
         && delete_row (book, table, id, error) && delete_row (book, "thing", id, error);
}

guint
cro_edit_count_services (CroBook *book,
                         CroRef   thing)
{
  CroModel *model = cro_book_get_model (book);
  g_autoptr (GArray) ids = NULL;

  if (thing.kind != CRO_REF_MENU && !(thing.kind == CRO_REF_RECIPE && cro_model_recipe (model, thing.slot)->is_plate))
    return 0;
  ids = cro_edit_list_rows (book, "service", "thing",
                            thing.kind == CRO_REF_MENU ? cro_model_menu (model, thing.slot)->id
                                                       : cro_model_recipe (model, thing.slot)->id,
                            NULL);
  return ids != NULL ? ids->len : 0;
}

/* The newest price that an offer has or will have; 0: none. */
static gboolean
newest_price (CroBook  *book,
              gint64    offer,
              gint64   *id,
              GError  **error)
{
  g_autoptr (CroRows) rows = cro_store_read_prices (cro_book_get_store (book), "9999-12-31", offer,
                                                    error);
  GError *failed = NULL;

  if (rows == NULL)
    return FALSE;
  *id = cro_rows_next (rows, &failed) ? cro_rows_get_int (rows, 1) : 0;
  if (failed != NULL)
    g_propagate_error (error, failed);
  return failed == NULL;
}

gboolean
cro_edit_remove_offer (CroBook  *book,
                       gint64    offer,
                       GError  **error)
{
  gint64 price = 0;

  do
    if (!newest_price (book, offer, &price, error)
        || (price != 0 && !delete_row (book, "price", price, error)))
      return FALSE;
  while (price != 0);
  return delete_rows_of (book, "price_answer", "offer", offer, error) && delete_row (book, "offer", offer, error);
}

static gboolean
remove_item (CroBook  *book,
             guint32   slot,
             GError  **error)
{
  CroModel *model = cro_book_get_model (book);
  const CroItem *item = cro_model_item (model, slot);
  const char *table = model->maker[slot] < 0 ? "ingredient" : "output";

  for (guint32 i = 0; i < item->n_offers; i++)
    {
      guint32 offer = g_array_index (model->offer_order, guint32, item->first_offer + i);

      if (!cro_edit_remove_offer (book, cro_model_offer (model, offer)->id, error))
        return FALSE;
    }
  return delete_rows_of (book, "service_stock", "item", item->id, error)
         && delete_row (book, table, item->id, error) && delete_row (book, "item", item->id, error);
}

gboolean
cro_edit_remove_recipe (CroBook  *book,
                        guint32   slot,
                        GError  **error)
{
  CroModel *model = cro_book_get_model (book);
  const CroRecipe *recipe = cro_model_recipe (model, slot);
  g_autoptr (GArray) lines = cro_edit_list_lines (cro_book_get_figures (book), slot);
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (cro_book_get_figures (book), slot, &outputs);

  for (guint i = 0; i < lines->len; i++)
    if (!delete_row (book, "recipe_line", model->line_ids[g_array_index (lines, guint32, i)],
                     error))
      return FALSE;
  for (guint32 i = 0; i < n; i++)
    if (!remove_item (book, outputs[i], error))
      return FALSE;
  if (!recipe->is_plate)
    return delete_row (book, "preparation", recipe->id, error);
  return cro_edit_settle_till_names (book, recipe->name, NULL, error)
         && remove_thing (book, "plate", recipe->id, error);
}

static gboolean
remove_menu (CroBook  *book,
             guint32   slot,
             GError  **error)
{
  CroModel *model = cro_book_get_model (book);
  gint64 id = cro_model_menu (model, slot)->id;

  for (guint32 i = 0; i < model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, i);

      if (!entry->is_dead && entry->menu == slot
          && !delete_row (book, "menu_plate", entry->id, error))
        return FALSE;
    }
  return cro_edit_settle_till_names (book, cro_model_menu (model, slot)->name, NULL, error)
         && remove_thing (book, "menu", id, error);
}

static gboolean
remove_ref (CroBook  *book,
            CroRef    ref,
            GError  **error)
{
  g_autoptr (GArray) users = cro_edit_list_users (book, ref, error);
  const char *table;

  if (users == NULL)
    return FALSE;
  if (users->len > 0)
    {
      g_set_error_literal (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_IN_USE, "in use");
      return FALSE;
    }
  switch (ref.kind)
    {
    case CRO_REF_ITEM:
      return remove_item (book, ref.slot, error);
    case CRO_REF_RECIPE:
      return cro_edit_remove_recipe (book, ref.slot, error);
    case CRO_REF_MENU:
      return remove_menu (book, ref.slot, error);
    case CRO_REF_OFFER:
      return cro_edit_remove_offer (book, cro_model_offer (cro_book_get_model (book), ref.slot)->id, error);
    case CRO_REF_SUPPLIER:
    case CRO_REF_LINE:
      {
        gint64 id = cro_edit_row (cro_book_get_model (book), ref, &table);

        return delete_row (book, table, id, error);
      }
    default:
      g_return_val_if_reached (FALSE);
    }
}

gboolean
cro_edit_remove (CroBook     *book,
                 const char  *label,
                 CroRef       ref,
                 GError     **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, remove_ref (book, ref, error), error);
}
