#include "cro-edit-private.h"

#include <string.h>

#include "cro-breakdown.h"

/* What a copy takes over, note and all. A table's own id or name is not among it. */
static const struct { const char *table; const char *columns[12]; } tables[] = {
  { "ingredient", { "category", "kind", "unit", "density_g_per_ml_micro", "piece_g_micro",
                    "trim_yield_pct_micro", "allergens", "may_contain", "note" } },
  { "supplier", { "contact", "quotes", "minimum_order_micro", "delivery_charge_micro", "note" } },
  { "offer", { "ingredient", "supplier", "code", "pack_count_micro", "pack_size_micro", "pack_unit",
               "net_pct_micro", "currency", "preferred", "until", "gtin", "position_micro" } },
  { "price", { "offer", "from_date", "price_micro", "tax_included_pct_micro", "pack_count_micro",
               "pack_size_micro", "pack_unit" } },
  { "preparation", { "by_products", "active_minutes_micro", "smallest_part_micro", "note", "picture" } },
  { "output", { "preparation", "role", "amount_micro", "unit", "yield_pct_micro", "value_micro",
                "density_g_per_ml_micro", "piece_g_micro", "lost_pct_micro" } },
  { "plate", { "course", "makes_micro", "per_guest_micro", "price_micro", "tax_pct_micro",
               "target_pct_micro", "allowance_pct_micro", "active_minutes_micro", "note", "picture" } },
  { "menu", { "price_micro", "tax_pct_micro", "target_pct_micro", "note" } },
  { "menu_plate", { "menu", "plate", "choice", "servings_micro", "position_micro",
                    "share_pct_micro" } },
  { "selling_price", { "thing", "from_date", "price_micro", "tax_pct_micro" } },
  { "recipe_line", { "preparation", "plate", "position_micro", "item", "amount_micro", "unit",
                     "weighed", "yield_pct_micro", "recovered_pct_micro", "note" } },
};

#define MOST_CELLS 16

/* A row read and ready to be written again; texts are its own. */
typedef struct
{
  const char *columns[MOST_CELLS];
  CroCell     cells[MOST_CELLS];
  char       *texts[MOST_CELLS];
  int         n;
} Copy;

static void
copy_clear (Copy *copy)
{
  for (int i = 0; i < copy->n; i++)
    g_free (copy->texts[i]);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Copy, copy_clear)

static gboolean
read_row (CroBook     *book,
          const char  *table,
          gint64       id,
          Copy        *copy,
          GError     **error)
{
  gsize t = 0;
  g_autoptr (CroRows) rows = NULL;
  GError *failed = NULL;

  while (strcmp (tables[t].table, table) != 0)
    t++;
  for (gsize i = 0; i < G_N_ELEMENTS (tables[t].columns) && tables[t].columns[i] != NULL; i++)
    copy->columns[copy->n++] = tables[t].columns[i];
  rows = cro_store_read_one (cro_book_get_store (book), table, id, copy->columns, error);
  if (rows == NULL)
    return FALSE;
  if (!cro_rows_next (rows, &failed))
    {
      if (failed != NULL)
        g_propagate_error (error, failed);
      else
        g_set_error (error, CRO_STORE_ERROR, CRO_STORE_ERROR_CHANGED, "%s is gone", table);
      return FALSE;
    }
  for (int i = 0; i < copy->n; i++)
    if (cro_rows_is_text (rows, i))
      {
        copy->texts[i] = g_strdup (cro_rows_get_text (rows, i));
        copy->cells[i] = CRO_CELL_STR (copy->texts[i]);
      }
    else if (!cro_rows_is_null (rows, i))
      copy->cells[i] = CRO_CELL_INT (cro_rows_get_int (rows, i));
  return TRUE;
}

static void
override (Copy              *copy,
          const CroOverride *other)
{
  int i = 0;

  while (i < copy->n && strcmp (copy->columns[i], other->column) != 0)
    i++;
  copy->columns[i] = other->column;
  copy->cells[i] = other->cell;
  copy->n = MAX (copy->n, i + 1);
}

gint64
cro_edit_copy_row (CroBook            *book,
                   const char         *table,
                   gint64              id,
                   const CroOverride  *overrides,
                   guint               n,
                   GError            **error)
{
  g_auto (Copy) copy = { .n = 0 };

  if (!read_row (book, table, id, &copy, error))
    return 0;
  for (guint i = 0; i < n; i++)
    override (&copy, &overrides[i]);
  return cro_edit_insert (book, table, copy.columns, copy.cells, error);
}

/* --- Things ------------------------------------------------------------------------------------- */

/* A row whose id is that of a name made for it. */
static gint64
copy_named (CroBook     *book,
            const char  *base,
            const char  *table,
            gint64       id,
            const char  *name,
            GError     **error)
{
  CroOverride as = { "id", CRO_CELL_INT (cro_edit_name_row (book, base, name, error)) };

  if (as.cell.integer == 0 || cro_edit_copy_row (book, table, id, &as, 1, error) == 0)
    return 0;
  return as.cell.integer;
}

/* A row that bears its name itself. */
static gint64
copy_with_name (CroBook     *book,
                const char  *table,
                CroNames     names,
                gint64       id,
                const char  *name,
                GError     **error)
{
  g_autofree char *tidy = cro_edit_dup_name (book, names, name, CRO_REF_NOWHERE, error);
  CroOverride as = { "name", CRO_CELL_STR (tidy) };

  return tidy != NULL ? cro_edit_copy_row (book, table, id, &as, 1, error) : 0;
}

static gint64
copy_offer (CroBook            *book,
            guint32             offer,
            const CroOverride  *as,
            GError            **error)
{
  const CroOfferEntry *entry = cro_model_offer (cro_book_get_model (book), offer);
  gint64 id = cro_edit_copy_row (book, "offer", entry->id, as, 1, error);
  CroOverride of = { "offer", CRO_CELL_INT (id) };

  if (id == 0 || (entry->price_id != 0
                  && cro_edit_copy_row (book, "price", entry->price_id, &of, 1, error) == 0))
    return 0;
  return id;
}

static gint64
copy_ingredient (CroBook     *book,
                 guint32      slot,
                 const char  *name,
                 GError     **error)
{
  CroModel *model = cro_book_get_model (book);
  const CroItem *item = cro_model_item (model, slot);
  gint64 id = copy_named (book, "item", "ingredient", item->id, name, error);
  CroOverride of = { "ingredient", CRO_CELL_INT (id) };

  for (guint32 i = 0; i < item->n_offers && id != 0; i++)
    if (copy_offer (book, g_array_index (model->offer_order, guint32, item->first_offer + i), &of,
                    error) == 0)
      return 0;
  return id;
}

static gboolean
copy_lines (CroBook     *book,
            guint32      recipe,
            const char  *column,
            gint64       id,
            GError     **error)
{
  g_autoptr (GArray) lines = cro_edit_list_lines (cro_book_get_figures (book), recipe);
  CroOverride into = { column, CRO_CELL_INT (id) };

  for (guint i = 0; i < lines->len; i++)
    if (cro_edit_copy_row (book, "recipe_line",
                           cro_book_get_model (book)->line_ids[g_array_index (lines, guint32, i)],
                           &into, 1, error) == 0)
      return FALSE;
  return TRUE;
}

/* The main output bears the name of the copy if it bore that of what is copied. */
static gboolean
copy_outputs (CroBook     *book,
              guint32      recipe,
              gint64       id,
              const char  *name,
              GError     **error)
{
  CroModel *model = cro_book_get_model (book);
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (cro_book_get_figures (book), recipe, &outputs);

  for (guint32 i = 0; i < n; i++)
    {
      const CroItem *item = cro_model_item (model, outputs[i]);
      gboolean same = item->is_main
                      && strcmp (item->name, cro_model_recipe (model, recipe)->name) == 0;
      g_autofree char *free_name = cro_edit_dup_free_name (model, CRO_NAMES_ITEMS, item->name);
      gint64 named = cro_edit_name_row (book, "item", same ? name : free_name, error);
      CroOverride as[] = { { "id", CRO_CELL_INT (named) }, { "preparation", CRO_CELL_INT (id) } };

      if (named == 0 || cro_edit_copy_row (book, "output", item->id, as, 2, error) == 0)
        return FALSE;
    }
  return TRUE;
}

/* What a plate or a menu is sold for from day to day goes with its undated price. */
static gboolean
copy_selling_prices (CroBook  *book,
                     gint64    thing,
                     gint64    copy,
                     GError  **error)
{
  g_autoptr (GArray) ids = cro_edit_list_rows (book, "selling_price", "thing", thing, error);
  CroOverride of = { "thing", CRO_CELL_INT (copy) };

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    if (cro_edit_copy_row (book, "selling_price", g_array_index (ids, gint64, i), &of, 1, error)
        == 0)
      return FALSE;
  return ids != NULL;
}

static gint64
copy_recipe (CroBook     *book,
             guint32      slot,
             const char  *name,
             GError     **error)
{
  const CroRecipe *recipe = cro_model_recipe (cro_book_get_model (book), slot);
  gint64 id;

  if (recipe->is_plate)
    {
      id = copy_named (book, "thing", "plate", recipe->id, name, error);
      return id != 0 && copy_lines (book, slot, "plate", id, error)
                     && copy_selling_prices (book, recipe->id, id, error)
                 ? id
                 : 0;
    }
  id = copy_with_name (book, "preparation", CRO_NAMES_PREPARATIONS, recipe->id, name, error);
  return id != 0 && copy_outputs (book, slot, id, name, error)
         && copy_lines (book, slot, "preparation", id, error) ? id : 0;
}

static gint64
copy_menu (CroBook     *book,
           guint32      slot,
           const char  *name,
           GError     **error)
{
  CroModel *model = cro_book_get_model (book);
  g_autoptr (GPtrArray) plates = cro_menu_dup_plates (model, slot);
  gint64 id = copy_named (book, "thing", "menu", cro_model_menu (model, slot)->id, name, error);
  CroOverride of = { "menu", CRO_CELL_INT (id) };

  for (guint i = 0; i < plates->len && id != 0; i++)
    if (cro_edit_copy_row (book, "menu_plate", ((CroMenuPlate *) plates->pdata[i])->id, &of, 1,
                           error) == 0)
      return 0;
  return id != 0 && copy_selling_prices (book, cro_model_menu (model, slot)->id, id, error) ? id : 0;
}

static gint64
copy_other_code (CroBook     *book,
                 guint32      slot,
                 const char  *code,
                 GError     **error)
{
  CroModel *model = cro_book_get_model (book);
  const CroOfferEntry *entry = cro_model_offer (model, slot);
  CroOverride as = { "code", CRO_CELL_STR (code) };

  for (guint32 i = 0; i < model->offers->len; i++)
    {
      const CroOfferEntry *other = cro_model_offer (model, i);

      if (!other->is_dead && other->item == entry->item && other->supplier == entry->supplier
          && strcmp (other->code, code) == 0)
        {
          g_set_error_literal (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_TWICE,
                               "an offer under that code");
          return 0;
        }
    }
  return copy_offer (book, slot, &as, error);
}

static gint64
copy_ref (CroBook     *book,
          CroRef       ref,
          const char  *name,
          GError     **error)
{
  CroModel *model = cro_book_get_model (book);

  switch (ref.kind)
    {
    case CRO_REF_ITEM:
      g_return_val_if_fail (model->maker[ref.slot] < 0, 0);
      return copy_ingredient (book, ref.slot, name, error);
    case CRO_REF_RECIPE:
      return copy_recipe (book, ref.slot, name, error);
    case CRO_REF_MENU:
      return copy_menu (book, ref.slot, name, error);
    case CRO_REF_SUPPLIER:
      return copy_with_name (book, "supplier", CRO_NAMES_SUPPLIERS,
                             g_array_index (model->suppliers, CroSupplier, ref.slot).id, name,
                             error);
    case CRO_REF_OFFER:
      return copy_other_code (book, ref.slot, name, error);
    default:
      g_return_val_if_reached (0);
    }
}

static const CroSlots *
slots_of (CroModel *model,
          CroRef    ref)
{
  switch (ref.kind)
    {
    case CRO_REF_ITEM:
      return &model->item_slots;
    case CRO_REF_RECIPE:
      return cro_model_recipe (model, ref.slot)->is_plate ? &model->plate_slots
                                                          : &model->preparation_slots;
    case CRO_REF_MENU:
      return &model->menu_slots;
    case CRO_REF_SUPPLIER:
      return &model->supplier_slots;
    default:
      return &model->offer_slots;
    }
}

gboolean
cro_edit_duplicate (CroBook     *book,
                    const char  *label,
                    CroRef       ref,
                    const char  *name,
                    CroRef      *copy,
                    GError     **error)
{
  gint64 id;

  if (!cro_edit_begin (book, label, error))
    return FALSE;
  id = copy_ref (book, ref, name, error);
  if (!cro_edit_end (book, id != 0, error))
    return FALSE;
  if (copy != NULL)
    *copy = CRO_REF (ref.kind, cro_slots_get (slots_of (cro_book_get_model (book), ref), id));
  return TRUE;
}
