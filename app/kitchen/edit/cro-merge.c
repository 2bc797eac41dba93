#include "cro-merge-private.h"

#include <string.h>

#include "cro-edit-private.h"

/* --- Rows that name the item ------------------------------------------------------------------ */

static gboolean
point_to (CroBook     *book,
          const char  *table,
          const char  *column,
          gint64       item,
          gint64       into,
          GError     **error)
{
  g_autoptr (GArray) rows = cro_edit_list_rows (book, table, column, item, error);

  for (guint i = 0; rows != NULL && i < rows->len; i++)
    if (!cro_edit_update (book, table, g_array_index (rows, gint64, i), column, CRO_CELL_INT (into),
                          error))
      return FALSE;
  return rows != NULL;
}

typedef struct
{
  gint64  id;
  char   *service;    /* with its date */
  gint64  amount;
  CroUnit unit;
} Stock;

static void
clear_stock (gpointer stock)
{
  g_free (((Stock *) stock)->service);
}

static GArray *
read_stock (CroBook  *book,
            gint64    item,
            GError  **error)
{
  static const char *const columns[] = { "id", "date", "service", "amount_micro", "unit", NULL };
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (Stock));
  g_autoptr (CroRows) rows = cro_store_read_of (cro_book_get_store (book), "service_stock", "item",
                                                item, columns, error);
  g_autoptr (GError) failed = NULL;

  g_array_set_clear_func (all, clear_stock);
  while (rows != NULL && cro_rows_next (rows, &failed))
    {
      const char *unit = cro_rows_get_text (rows, 4);
      Stock stock = { cro_rows_get_int (rows, 0),
                      g_strconcat (cro_rows_get_text (rows, 1), "/", cro_rows_get_text (rows, 2), NULL),
                      cro_rows_get_int (rows, 3), CRO_UNIT_G };

      cro_unit_parse (unit, strlen (unit), &stock.unit);
      g_array_append_val (all, stock);
    }
  if (failed != NULL)
    g_propagate_error (error, g_steal_pointer (&failed));
  else if (rows != NULL)
    return g_steal_pointer (&all);
  return NULL;
}

/* Of one sitting both are counted together; in units that do not add up they stay apart, and the
 * merge is refused. */
static gboolean
add_stock (CroBook      *book,
           const Stock  *of,
           GArray       *others,
           gint64        into,
           GError      **error)
{
  for (guint i = 0; i < others->len; i++)
    {
      const Stock *other = &g_array_index (others, Stock, i);
      double amount = (double) of->amount * cro_unit_factor (of->unit)
                      / cro_unit_factor (other->unit);

      if (strcmp (of->service, other->service) != 0)
        continue;
      if (cro_unit_get (of->unit)->base != cro_unit_get (other->unit)->base)
        return cro_edit_refuse (CRO_EDIT_ERROR_TWICE, of->service, error);
      return cro_edit_update (book, "service_stock", other->id, "amount_micro",
                              CRO_CELL_INT (other->amount + (gint64) (amount + 0.5)), error)
             && cro_store_delete (cro_book_get_store (book), "service_stock", of->id, error);
    }
  return cro_edit_update (book, "service_stock", of->id, "item", CRO_CELL_INT (into), error);
}

static gboolean
merge_stock (CroBook  *book,
             gint64    item,
             gint64    into,
             GError  **error)
{
  g_autoptr (GArray) own = read_stock (book, item, error);
  g_autoptr (GArray) others = own != NULL ? read_stock (book, into, error) : NULL;

  for (guint i = 0; others != NULL && i < own->len; i++)
    if (!add_stock (book, &g_array_index (own, Stock, i), others, into, error))
      return FALSE;
  return others != NULL;
}

/* --- Packs ------------------------------------------------------------------------------------ */

static gboolean
has_code (CroModel   *model,
          guint32     item,
          guint32     supplier,
          const char *code)
{
  for (guint32 slot = 0; slot < model->offers->len; slot++)
    {
      const CroOfferEntry *entry = cro_model_offer (model, slot);

      if (!entry->is_dead && entry->item == item && entry->supplier == supplier
          && strcmp (entry->code, code) == 0)
        return TRUE;
    }
  return FALSE;
}

/* Free with the item and the supplier that have the pack, and those that get it. */
static char *
dup_free_code (CroModel            *model,
               const CroOfferEntry *entry,
               guint32              item,
               guint32              supplier)
{
  for (guint n = 2;; n++)
    {
      g_autofree char *code = *entry->code == '\0' ? g_strdup_printf ("%u", n)
                                                   : g_strdup_printf ("%s %u", entry->code, n);

      if (!has_code (model, entry->item, entry->supplier, code) && !has_code (model, item, supplier, code))
        return g_steal_pointer (&code);
    }
}

static gboolean
move_offers (CroBook  *book,
             guint32   item,
             guint32   into,
             GError  **error)
{
  static const char *const columns[] = { "ingredient", "code", NULL };
  CroModel *model = cro_book_get_model (book);
  const CroItem *of = cro_model_item (model, item);

  for (guint32 i = 0; i < of->n_offers; i++)
    {
      guint32 slot = g_array_index (model->offer_order, guint32, of->first_offer + i);
      const CroOfferEntry *entry = cro_model_offer (model, slot);
      g_autofree char *code = has_code (model, into, entry->supplier, entry->code)
                                  ? dup_free_code (model, entry, into, entry->supplier)
                                  : g_strdup (entry->code);
      CroCell cells[] = { CRO_CELL_INT (cro_model_item (model, into)->id), CRO_CELL_STR (code) };

      if (!cro_edit_update_row (book, "offer", entry->id, columns, cells, error))
        return FALSE;
    }
  return TRUE;
}

/* --- What was entered of the ingredient itself ------------------------------------------------ */

static const char *const kept[] = { "category", "density_g_per_ml_micro", "piece_g_micro",
                                    "trim_yield_pct_micro", "allergens", "may_contain", "note", NULL };

static CroRows *
read_ingredient (CroBook  *book,
                 gint64    id,
                 GError  **error)
{
  CroRows *rows = cro_store_read_one (cro_book_get_store (book), "ingredient", id, kept, error);

  if (rows != NULL && cro_rows_next (rows, error))
    return rows;
  cro_rows_free (rows);
  return NULL;
}

static gboolean
keep_column (CroBook     *book,
             gint64       id,
             const char  *column,
             CroCell      cell,
             GError     **error)
{
  return cro_edit_update (book, "ingredient", id, column, cell, error);
}

/* What somebody said that one of them contains, the one that remains contains. */
static gboolean
keep_allergens (CroBook  *book,
                gint64    id,
                int       column,
                CroRows  *of,
                CroRows  *into,
                GError  **error)
{
  gint64 own = cro_rows_is_null (of, column) ? 0 : cro_rows_get_int (of, column);
  gint64 other = cro_rows_is_null (into, column) ? 0 : cro_rows_get_int (into, column);

  if (cro_rows_is_null (of, column) || (own | other) == other)
    return TRUE;
  return keep_column (book, id, kept[column], CRO_CELL_INT (own | other), error);
}

static gboolean
keep_note (CroBook  *book,
           gint64    id,
           int       column,
           CroRows  *of,
           CroRows  *into,
           GError  **error)
{
  const char *own = cro_rows_get_text (of, column), *other = cro_rows_get_text (into, column);
  g_autofree char *both = other != NULL ? g_strconcat (other, "; ", own, NULL) : g_strdup (own);

  return own == NULL || keep_column (book, id, kept[column], CRO_CELL_STR (both), error);
}

static gboolean
keep_entered (CroBook  *book,
              gint64    item,
              gint64    into,
              GError  **error)
{
  g_autoptr (CroRows) of = read_ingredient (book, item, error);
  g_autoptr (CroRows) other = of != NULL ? read_ingredient (book, into, error) : NULL;

  if (other == NULL)
    return FALSE;
  if (!cro_rows_is_null (of, 0) && cro_rows_is_null (other, 0)
      && !keep_column (book, into, kept[0], CRO_CELL_STR (cro_rows_get_text (of, 0)), error))
    return FALSE;
  for (int i = 1; i <= 3; i++)
    if (!cro_rows_is_null (of, i) && cro_rows_is_null (other, i)
        && !keep_column (book, into, kept[i], CRO_CELL_INT (cro_rows_get_int (of, i)), error))
      return FALSE;
  return keep_allergens (book, into, 4, of, other, error)
         && keep_allergens (book, into, 5, of, other, error)
         && keep_note (book, into, 6, of, other, error);
}

/* --- The whole -------------------------------------------------------------------------------- */

static gboolean
merge_bought (CroBook  *book,
              guint32   item,
              guint32   into,
              GError  **error)
{
  CroModel *model = cro_book_get_model (book);
  CroStore *store = cro_book_get_store (book);
  gint64 id = cro_model_item (model, item)->id, other = cro_model_item (model, into)->id;

  return move_offers (book, item, into, error)
         && point_to (book, "purchase", "ingredient", id, other, error)
         && keep_entered (book, id, other, error) && cro_store_delete (store, "ingredient", id, error)
         && cro_store_delete (store, "item", id, error);
}

static gboolean
merge_made (CroBook  *book,
            guint32   item,
            guint32   into,
            GError  **error)
{
  CroModel *model = cro_book_get_model (book);
  gint64 id = cro_model_item (model, item)->id, other = cro_model_item (model, into)->id;

  return point_to (book, "yield_test_part", "output", id, other, error)
         && cro_edit_remove_recipe (book, (guint32) model->maker[item], error);
}

/* Whether one can become the other at all. */
static gboolean
check (CroModel  *model,
       guint32    item,
       guint32    into,
       GError   **error)
{
  const CroItem *of = cro_model_item (model, item);
  gboolean is_made = model->maker[item] >= 0;

  if (is_made != (model->maker[into] >= 0))
    return cro_edit_refuse (is_made ? CRO_EDIT_ERROR_HAS_LINES : CRO_EDIT_ERROR_HAS_PACKS, of->name, error);
  if (is_made && (!of->is_main
                  || cro_model_recipe (model, (guint32) model->maker[item])->n_outputs != 1))
    return cro_edit_refuse (CRO_EDIT_ERROR_HAS_OUTPUTS, of->name, error);
  return TRUE;
}

gboolean
cro_merge_rows (CroBook  *book,
                guint32   item,
                guint32   into,
                GError  **error)
{
  static const char *const tables[] = { "yield_test", "stock_count", "adjustment" };
  CroModel *model = cro_book_get_model (book);
  gint64 id = cro_model_item (model, item)->id, other = cro_model_item (model, into)->id;

  if (!check (model, item, into, error) || !merge_stock (book, id, other, error))
    return FALSE;
  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    if (!point_to (book, tables[i], "item", id, other, error))
      return FALSE;
  return model->maker[item] >= 0 ? merge_made (book, item, into, error)
                                 : merge_bought (book, item, into, error);
}

/* --- Suppliers -------------------------------------------------------------------------------- */

static gboolean
move_packs (CroBook  *book,
            guint32   supplier,
            guint32   into,
            GError  **error)
{
  static const char *const columns[] = { "supplier", "code", NULL };
  CroModel *model = cro_book_get_model (book);
  gint64 other = g_array_index (model->suppliers, CroSupplier, into).id;

  for (guint32 slot = 0; slot < model->offers->len; slot++)
    {
      const CroOfferEntry *entry = cro_model_offer (model, slot);
      g_autofree char *code = NULL;
      CroCell cells[2];

      if (entry->is_dead || entry->supplier != supplier)
        continue;
      code = has_code (model, entry->item, into, entry->code) ? dup_free_code (model, entry, entry->item, into)
                                                              : g_strdup (entry->code);
      cells[0] = CRO_CELL_INT (other);
      cells[1] = CRO_CELL_STR (code);
      if (!cro_edit_update_row (book, "offer", entry->id, columns, cells, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
keep_of_supplier (CroBook  *book,
                  gint64    id,
                  gint64    other,
                  GError  **error)
{
  static const char *const columns[] = { "contact", "quotes", "note", "minimum_order_micro",
                                         "delivery_charge_micro", NULL };
  g_autoptr (CroRows) of = cro_store_read_one (cro_book_get_store (book), "supplier", id, columns, error);
  g_autoptr (CroRows) into = of != NULL ? cro_store_read_one (cro_book_get_store (book), "supplier", other,
                                                              columns, error)
                                        : NULL;

  if (into == NULL || !cro_rows_next (of, error) || !cro_rows_next (into, error))
    return FALSE;
  for (int i = 0; columns[i] != NULL; i++)
    {
      CroCell cell = i < 3 ? CRO_CELL_STR (cro_rows_get_text (of, i)) : CRO_CELL_INT (cro_rows_get_int (of, i));

      if (!cro_rows_is_null (of, i) && cro_rows_is_null (into, i)
          && !cro_edit_update (book, "supplier", other, columns[i], cell, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
cro_edit_merge_supplier (CroBook     *book,
                         const char  *label,
                         guint32      supplier,
                         guint32      into,
                         GError     **error)
{
  CroModel *model = cro_book_get_model (book);
  gint64 id = g_array_index (model->suppliers, CroSupplier, supplier).id;
  gint64 other = g_array_index (model->suppliers, CroSupplier, into).id;

  return cro_edit_begin (book, label, error)
         && cro_edit_end (book,
                          move_packs (book, supplier, into, error)
                              && point_to (book, "purchase", "supplier", id, other, error)
                              && keep_of_supplier (book, id, other, error)
                              && cro_store_delete (cro_book_get_store (book), "supplier", id, error),
                          error);
}
