#include "cro-edit-private.h"

#include <string.h>

#include "cro-decimal.h"
#include "cro-name.h"
#include "cro-refusal.h"

G_DEFINE_QUARK (cro-edit-error-quark, cro_edit_error)

/* --- Acts ------------------------------------------------------------------------------------ */

gboolean
cro_edit_begin (CroBook     *book,
                const char  *label,
                GError     **error)
{
  return cro_book_refresh (book, NULL, error) && cro_book_begin_act (book, label, error);
}

gboolean
cro_edit_end (CroBook   *book,
              gboolean   done,
              GError   **error)
{
  gint64 act;

  return cro_edit_end_numbered (book, done, &act, error);
}

gboolean
cro_edit_end_numbered (CroBook   *book,
                       gboolean   done,
                       gint64    *act,
                       GError   **error)
{
  *act = 0;
  if (done)
    return cro_book_end_numbered (book, act, error);
  cro_book_cancel_act (book);
  return FALSE;
}

gint64
cro_edit_insert (CroBook            *book,
                 const char         *table,
                 const char *const  *columns,
                 const CroCell      *cells,
                 GError            **error)
{
  g_auto (CroTidyCells) tidy = { 0 };
  g_autoptr (CroWriter) writer = NULL;
  gint64 id = 0;

  if (!cro_tidy_cells (table, columns, cells, &tidy, error))
    return 0;
  writer = cro_writer_new (cro_book_get_store (book), table, columns, error);
  return writer != NULL && cro_writer_insert (writer, tidy.cells, &id, error) ? id : 0;
}

gboolean
cro_edit_update_row (CroBook            *book,
                     const char         *table,
                     gint64              id,
                     const char *const  *columns,
                     const CroCell      *cells,
                     GError            **error)
{
  g_auto (CroTidyCells) tidy = { 0 };

  return cro_tidy_cells (table, columns, cells, &tidy, error)
         && cro_store_update (cro_book_get_store (book), table, id, columns, tidy.cells, error);
}

gboolean
cro_edit_update (CroBook     *book,
                 const char  *table,
                 gint64       id,
                 const char  *column,
                 CroCell      cell,
                 GError     **error)
{
  const char *columns[] = { column, NULL };

  return cro_edit_update_row (book, table, id, columns, &cell, error);
}

GArray *
cro_edit_list_rows (CroBook     *book,
                    const char  *table,
                    const char  *column,
                    gint64       id,
                    GError     **error)
{
  static const char *const columns[] = { "id", NULL };
  g_autoptr (CroRows) rows = cro_store_read_of (cro_book_get_store (book), table, column, id,
                                                columns, error);
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (gint64));
  GError *failed = NULL;

  if (rows == NULL)
    return NULL;
  while (cro_rows_next (rows, &failed))
    {
      gint64 row = cro_rows_get_int (rows, 0);

      g_array_append_val (ids, row);
    }
  if (failed == NULL)
    return g_steal_pointer (&ids);
  g_propagate_error (error, failed);
  return NULL;
}

gboolean
cro_edit_remove_row (CroBook     *book,
                     const char  *label,
                     const char  *table,
                     gint64       id,
                     GError     **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, cro_store_delete (cro_book_get_store (book), table, id, error),
                          error);
}

/* --- Names ------------------------------------------------------------------------------------- */

typedef gboolean (*IsName) (const char *name,
                            const char *other);

static gboolean
is_exact (const char *name,
          const char *other)
{
  return strcmp (name, other) == 0;
}

static CroRef
find_item (CroModel   *model,
           const char *name,
           IsName      is)
{
  for (guint32 i = 0; i < model->items->len; i++)
    if (!cro_model_item (model, i)->is_dead && is (cro_model_item (model, i)->name, name))
      return CRO_REF (CRO_REF_ITEM, i);
  return CRO_REF_NOWHERE;
}

static CroRef
find_recipe (CroModel   *model,
             const char *name,
             gboolean    is_plate,
             IsName      is)
{
  for (guint32 i = 0; i < model->recipes->len; i++)
    {
      const CroRecipe *recipe = cro_model_recipe (model, i);

      if (!recipe->is_dead && recipe->is_plate == is_plate && is (recipe->name, name))
        return CRO_REF (CRO_REF_RECIPE, i);
    }
  return CRO_REF_NOWHERE;
}

static CroRef
find_menu (CroModel   *model,
           const char *name,
           IsName      is)
{
  for (guint32 i = 0; i < model->menus->len; i++)
    if (!cro_model_menu (model, i)->is_dead && is (cro_model_menu (model, i)->name, name))
      return CRO_REF (CRO_REF_MENU, i);
  return CRO_REF_NOWHERE;
}

static CroRef
find_supplier (CroModel   *model,
               const char *name,
               IsName      is)
{
  for (guint32 i = 0; i < model->suppliers->len; i++)
    {
      const CroSupplier *supplier = &g_array_index (model->suppliers, CroSupplier, i);

      if (!supplier->is_dead && is (supplier->name, name))
        return CRO_REF (CRO_REF_SUPPLIER, i);
    }
  return CRO_REF_NOWHERE;
}

static CroRef
find_one (CroModel   *model,
          CroNames    names,
          const char *tidy,
          IsName      is)
{
  CroRef found;

  switch (names)
    {
    case CRO_NAMES_ITEMS:
      return find_item (model, tidy, is);
    case CRO_NAMES_PREPARATIONS:
      return find_recipe (model, tidy, FALSE, is);
    case CRO_NAMES_SUPPLIERS:
      return find_supplier (model, tidy, is);
    case CRO_NAMES_THINGS:
    default:
      found = find_recipe (model, tidy, TRUE, is);
      return found.kind != CRO_REF_NONE ? found : find_menu (model, tidy, is);
    }
}

static CroRef
find (CroModel   *model,
      CroNames    names,
      const char *tidy)
{
  CroRef found = find_one (model, names, tidy, is_exact);

  return found.kind != CRO_REF_NONE ? found : find_one (model, names, tidy, cro_name_is_same_word);
}

CroRef
cro_edit_find_name (CroModel   *model,
                    CroNames    names,
                    const char *name)
{
  g_autofree char *tidy = cro_name_dup_tidy (name);

  return find (model, names, tidy);
}

static gboolean
is_free (CroModel   *model,
         CroNames    names,
         const char *tidy)
{
  return find (model, names, tidy).kind == CRO_REF_NONE
         && (names != CRO_NAMES_PREPARATIONS
             || find (model, CRO_NAMES_ITEMS, tidy).kind == CRO_REF_NONE);
}

char *
cro_edit_dup_free_name (CroModel   *model,
                        CroNames    names,
                        const char *name)
{
  g_autofree char *tidy = cro_name_dup_tidy (name);
  char *numbered = g_strdup (tidy);

  for (guint i = 2; !is_free (model, names, numbered); i++)
    {
      g_free (numbered);
      numbered = g_strdup_printf ("%s %u", tidy, i);
    }
  return numbered;
}

char *
cro_edit_dup_name (CroBook     *book,
                   CroNames     names,
                   const char  *name,
                   CroRef       self,
                   GError     **error)
{
  g_autofree char *tidy = cro_tidy_name (name, error);
  CroRef taken;

  if (tidy == NULL)
    return NULL;
  taken = find (cro_book_get_model (book), names, tidy);
  if (taken.kind != CRO_REF_NONE && (taken.kind != self.kind || taken.slot != self.slot))
    {
      g_set_error_literal (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_NAME_TAKEN,
                           cro_ref_name (cro_book_get_model (book), taken));
      return NULL;
    }
  return g_steal_pointer (&tidy);
}

gint64
cro_edit_name_row (CroBook     *book,
                   const char  *table,
                   const char  *name,
                   GError     **error)
{
  static const char *const columns[] = { "name", NULL };
  CroNames names = strcmp (table, "item") == 0 ? CRO_NAMES_ITEMS : CRO_NAMES_THINGS;
  g_autofree char *tidy = cro_edit_dup_name (book, names, name, CRO_REF_NOWHERE, error);
  CroCell cell = CRO_CELL_STR (tidy);

  return tidy != NULL ? cro_edit_insert (book, table, columns, &cell, error) : 0;
}

/* --- Renaming ------------------------------------------------------------------------------------ */

typedef struct
{
  const char *sold_as;
  GArray     *ids;
} TillNames;

static gboolean
take_till_name (CroRows   *rows,
                gpointer   user_data,
                GError   **error)
{
  TillNames *self = user_data;
  gint64 id = cro_rows_get_int (rows, 0);

  if (g_strcmp0 (cro_rows_get_text (rows, 1), self->sold_as) == 0)
    g_array_append_val (self->ids, id);
  return TRUE;
}

gboolean
cro_edit_settle_till_names (CroBook     *book,
                            const char  *before,
                            const char  *name,
                            GError     **error)
{
  static const char *const columns[] = { "id", "sold_as", NULL };
  CroStore *store = cro_book_get_store (book);
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (gint64));
  TillNames names = { before, ids };

  if (!cro_store_read_each (store, "till_name", columns, take_till_name, &names, error))
    return FALSE;
  for (guint i = 0; i < ids->len; i++)
    {
      gint64 id = g_array_index (ids, gint64, i);

      if (!(name != NULL ? cro_edit_update (book, "till_name", id, "sold_as", CRO_CELL_STR (name), error)
                         : cro_store_delete (store, "till_name", id, error)))
        return FALSE;
    }
  return TRUE;
}

static gboolean
rename_row (CroBook     *book,
            const char  *table,
            gint64       id,
            CroNames     names,
            CroRef       ref,
            const char  *name,
            GError     **error)
{
  g_autofree char *tidy = cro_edit_dup_name (book, names, name, ref, error);

  return tidy != NULL
         && (names != CRO_NAMES_THINGS
             || cro_edit_settle_till_names (book, cro_ref_name (cro_book_get_model (book), ref), tidy, error))
         && cro_edit_update (book, table, id, "name", CRO_CELL_STR (tidy), error);
}

static gboolean
rename_preparation (CroBook     *book,
                    CroRef       ref,
                    const char  *name,
                    GError     **error)
{
  CroModel *model = cro_book_get_model (book);
  const CroRecipe *recipe = cro_model_recipe (model, ref.slot);
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (cro_book_get_figures (book), ref.slot, &outputs);
  const CroItem *item = n > 0 ? cro_model_item (model, outputs[0]) : NULL;

  if (!rename_row (book, "preparation", recipe->id, CRO_NAMES_PREPARATIONS, ref, name, error))
    return FALSE;
  if (item == NULL || strcmp (item->name, recipe->name) != 0)
    return TRUE;
  return rename_row (book, "item", item->id, CRO_NAMES_ITEMS, CRO_REF (CRO_REF_ITEM, outputs[0]),
                     name, error);
}

static gboolean
rename_ref (CroBook     *book,
            CroRef       ref,
            const char  *name,
            GError     **error)
{
  CroModel *model = cro_book_get_model (book);
  const char *table;
  gint64 id = cro_edit_row (model, ref, &table);

  switch (ref.kind)
    {
    case CRO_REF_ITEM:
      return rename_row (book, "item", id, CRO_NAMES_ITEMS, ref, name, error);
    case CRO_REF_RECIPE:
      if (!cro_model_recipe (model, ref.slot)->is_plate)
        return rename_preparation (book, ref, name, error);
      return rename_row (book, "thing", id, CRO_NAMES_THINGS, ref, name, error);
    case CRO_REF_MENU:
      return rename_row (book, "thing", id, CRO_NAMES_THINGS, ref, name, error);
    case CRO_REF_SUPPLIER:
      return rename_row (book, "supplier", id, CRO_NAMES_SUPPLIERS, ref, name, error);
    default:
      g_return_val_if_reached (FALSE);
    }
}

gboolean
cro_edit_rename (CroBook     *book,
                 const char  *label,
                 CroRef       ref,
                 const char  *name,
                 GError     **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, rename_ref (book, ref, name, error), error);
}

/* --- Cells ------------------------------------------------------------------------------------------ */

gint64
cro_edit_row (CroModel    *model,
              CroRef       ref,
              const char **table)
{
  switch (ref.kind)
    {
    case CRO_REF_ITEM:
      *table = model->maker[ref.slot] < 0 ? "ingredient" : "output";
      return cro_model_item (model, ref.slot)->id;
    case CRO_REF_RECIPE:
      *table = cro_model_recipe (model, ref.slot)->is_plate ? "plate" : "preparation";
      return cro_model_recipe (model, ref.slot)->id;
    case CRO_REF_MENU:
      *table = "menu";
      return cro_model_menu (model, ref.slot)->id;
    case CRO_REF_SUPPLIER:
      *table = "supplier";
      return g_array_index (model->suppliers, CroSupplier, ref.slot).id;
    case CRO_REF_OFFER:
      *table = "offer";
      return cro_model_offer (model, ref.slot)->id;
    case CRO_REF_LINE:
      *table = "recipe_line";
      return model->line_ids[ref.slot];
    case CRO_REF_HOUSE:
      *table = "book";
      return 1;
    default:
      g_return_val_if_reached (0);
    }
}

gboolean
cro_edit_make_book_row (CroBook  *book,
                        GError  **error)
{
  static const char *const id[] = { "id", NULL };
  CroCell one = CRO_CELL_INT (1);
  GError *failed = NULL;
  gboolean is_there;

  {
    g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (book), "book", 1, id, error);

    if (rows == NULL)
      return FALSE;
    is_there = cro_rows_next (rows, &failed);
  }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return failed == NULL && (is_there || cro_edit_insert (book, "book", id, &one, error) != 0);
}

gboolean
cro_edit_makes_row (const char *table)
{
  return strcmp (table, "book") == 0;
}

gboolean
cro_edit_set (CroBook            *book,
              const char         *label,
              const char         *table,
              gint64              id,
              const char *const  *columns,
              const CroCell      *cells,
              GError            **error)
{
  gboolean done;

  if (!cro_edit_begin (book, label, error))
    return FALSE;
  done = !cro_edit_makes_row (table) || cro_edit_make_book_row (book, error);
  done = done && cro_edit_update_row (book, table, id, columns, cells, error);
  return cro_edit_end (book, done, error);
}

/* --- Order -------------------------------------------------------------------------------------------- */

gboolean
cro_edit_make_room (CroBook     *book,
                    const char  *table,
                    GArray      *rows,
                    gint64       last,
                    guint        at,
                    guint        n,
                    gint64      *positions,
                    GError     **error)
{
  const CroPlace *places = (const CroPlace *) rows->data;
  gint64 end = (last / CRO_MICRO + 1) * CRO_MICRO;
  gint64 low = at > 0 ? places[at - 1].position : 0;
  gint64 step = at < rows->len ? (places[at].position - low) / (n + 1) : CRO_MICRO;
  gboolean has_room = step > 0;

  if (at == rows->len)
    low = end - CRO_MICRO;
  if (!has_room)
    {
      low = end + (gint64) at * CRO_MICRO - CRO_MICRO;
      step = CRO_MICRO;
    }
  for (guint i = 0; i < n; i++)
    positions[i] = low + (gint64) (i + 1) * step;
  for (guint i = 0; i < rows->len && !has_room; i++)
    if (!cro_edit_update (book, table, places[i].id, "position_micro",
                          CRO_CELL_INT (end + (gint64) (i < at ? i : i + n) * CRO_MICRO), error))
      return FALSE;
  return TRUE;
}
