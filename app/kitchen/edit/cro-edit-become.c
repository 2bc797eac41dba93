#include "cro-edit-private.h"

#include <string.h>

#include "cro-decimal.h"
#include "cro-plate-picture.h"

/* An item keeps its id and so its lines; the row of its kind makes way for that of the other. */

/* --- Bought to made --------------------------------------------------------------------------- */

static gboolean
is_purchased (CroBook   *book,
              gint64     id,
              gboolean  *is,
              GError   **error)
{
  static const char *const columns[] = { "id", NULL };
  g_autoptr (CroRows) rows = cro_store_read_of (cro_book_get_store (book), "purchase", "ingredient",
                                                id, columns, error);
  GError *failed = NULL;

  *is = rows != NULL && cro_rows_next (rows, &failed);
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}

/* What was entered of a row and has no place in a preparation is not lost in silence. NULL: nothing. */
static char *
dup_note (CroBook    *book,
          const char *table,
          gint64      id,
          const char *more)
{
  static const char *const columns[] = { "note", NULL };
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (book), table, id, columns, NULL);
  const char *note = rows != NULL && cro_rows_next (rows, NULL) ? cro_rows_get_text (rows, 0) : NULL;

  return note == NULL || more == NULL ? g_strdup (note != NULL ? note : more)
                                      : g_strdup_printf ("%s; %s", note, more);
}

static gint64
make_batch (CroBook     *book,
            const char  *name,
            const char  *note,
            GError     **error)
{
  static const char *const columns[] = { "name", "note", NULL };
  g_autofree char *tidy = cro_edit_dup_name (book, CRO_NAMES_PREPARATIONS, name, CRO_REF_NOWHERE,
                                             error);
  CroCell cells[] = { CRO_CELL_STR (tidy), CRO_CELL_STR (note) };

  return tidy != NULL ? cro_edit_insert (book, "preparation", columns, cells, error) : 0;
}

static gint64
become_preparation (CroBook     *book,
                    guint32      item,
                    const char  *more,
                    GError     **error)
{
  static const char *const columns[] = { "id", "preparation", "role", "unit",
                                         "density_g_per_ml_micro", "piece_g_micro", NULL };
  const CroItem of = *cro_model_item (cro_book_get_model (book), item);
  g_autofree char *note = dup_note (book, "ingredient", of.id, more);
  gboolean is_bought;
  gint64 id;

  if (of.n_offers > 0 || of.is_disposable)
    return cro_edit_refuse (CRO_EDIT_ERROR_HAS_PACKS, of.name, error);
  if (!is_purchased (book, of.id, &is_bought, error))
    return 0;
  if (is_bought)
    return cro_edit_refuse (CRO_EDIT_ERROR_HAS_PURCHASES, of.name, error);
  id = make_batch (book, of.name, note, error);
  if (id == 0 || !cro_store_delete (cro_book_get_store (book), "ingredient", of.id, error))
    return 0;
  {
    CroCell cells[] = {
      CRO_CELL_INT (of.id),
      CRO_CELL_INT (id),
      CRO_CELL_STR ("main"),
      CRO_CELL_STR (cro_edit_unit_code ((CroUnit) of.unit)),
      cro_edit_cell_or_none (of.density),
      cro_edit_cell_or_none (of.piece),
    };

    return cro_edit_insert (book, "output", columns, cells, error) != 0 ? id : 0;
  }
}

gboolean
cro_edit_become_preparation (CroBook     *book,
                             const char  *label,
                             guint32      item,
                             const char  *note,
                             guint32     *recipe,
                             GError     **error)
{
  gint64 id;

  if (!cro_edit_begin (book, label, error))
    return FALSE;
  id = become_preparation (book, item, note, error);
  return cro_edit_end (book, id != 0, error)
         && cro_edit_return_slot (recipe, &cro_book_get_model (book)->preparation_slots, id);
}

/* --- Served to made --------------------------------------------------------------------------- */

/* What a batch needs of a plate's own row. */
static gboolean
fill_batch (CroBook          *book,
            const CroRecipe  *of,
            const char       *more,
            gint64            id,
            GError          **error)
{
  static const char *const columns[] = { "active_minutes_micro", "note", "picture", NULL };
  g_autofree char *note = dup_note (book, "plate", of->id, more);
  g_autofree char *picture = cro_plate_picture_dup_name (book, "plate", of->id);
  CroCell cells[] = { of->active_minutes > 0 ? CRO_CELL_INT (of->active_minutes) : CRO_CELL_NONE,
                      CRO_CELL_STR (note), CRO_CELL_STR (picture) };

  return cro_edit_update_row (book, "preparation", id, columns, cells, error);
}

static gboolean
take_lines (CroBook  *book,
            guint32   plate,
            gint64    id,
            GError  **error)
{
  g_autoptr (GArray) lines = cro_edit_list_lines (cro_book_get_figures (book), plate);
  const CroOverride into[] = { { "plate", CRO_CELL_NONE }, { "preparation", CRO_CELL_INT (id) } };

  for (guint i = 0; i < lines->len; i++)
    if (cro_edit_copy_row (book, "recipe_line",
                           cro_book_get_model (book)->line_ids[g_array_index (lines, guint32, i)],
                           into, G_N_ELEMENTS (into), error) == 0)
      return FALSE;
  return TRUE;
}

static gint64
plate_become_preparation (CroBook     *book,
                          guint32      plate,
                          const char  *note,
                          GError     **error)
{
  const CroRecipe of = *cro_model_recipe (cro_book_get_model (book), plate);
  g_autoptr (GArray) users = cro_edit_list_users (book, CRO_REF (CRO_REF_RECIPE, plate), error);
  gboolean is_many = of.makes > CRO_MICRO;
  gint64 id, output;

  if (users == NULL)
    return 0;
  if (users->len > 0)
    return cro_edit_refuse (CRO_EDIT_ERROR_IN_USE, of.name, error);
  id = cro_edit_make_preparation (book, of.name, is_many ? of.makes : 0,
                                  is_many ? CRO_UNIT_EACH : CRO_UNIT_G, &output, error);
  return id != 0 && fill_batch (book, &of, note, id, error) && take_lines (book, plate, id, error)
             && cro_edit_remove_recipe (book, plate, error)
           ? id : 0;
}

gboolean
cro_edit_plate_become_preparation (CroBook     *book,
                                   const char  *label,
                                   guint32      plate,
                                   const char  *note,
                                   guint32     *recipe,
                                   GError     **error)
{
  gint64 id;

  if (!cro_edit_begin (book, label, error))
    return FALSE;
  id = plate_become_preparation (book, plate, note, error);
  return cro_edit_end (book, id != 0, error)
         && cro_edit_return_slot (recipe, &cro_book_get_model (book)->preparation_slots, id);
}

/* --- Made to bought ---------------------------------------------------------------------------- */

static gboolean
become_ingredient (CroBook  *book,
                   guint32   preparation,
                   GError  **error)
{
  static const char *const columns[] = { "id", "unit", "density_g_per_ml_micro", "piece_g_micro",
                                         NULL };
  CroModel *model = cro_book_get_model (book);
  CroStore *store = cro_book_get_store (book);
  const CroRecipe of = *cro_model_recipe (model, preparation);
  g_autoptr (GArray) lines = cro_edit_list_lines (cro_book_get_figures (book), preparation);
  const CroItem *item;

  if (lines->len > 0)
    return cro_edit_refuse (CRO_EDIT_ERROR_HAS_LINES, of.name, error);
  if (of.n_outputs != 1)
    return cro_edit_refuse (CRO_EDIT_ERROR_HAS_OUTPUTS, of.name, error);
  item = cro_model_item (model, g_array_index (model->output_order, guint32, of.first_output));
  {
    CroBase base = cro_unit_get ((CroUnit) item->unit)->base;
    CroCell cells[] = {
      CRO_CELL_INT (item->id),
      CRO_CELL_STR (cro_edit_unit_code (cro_base_unit (base))),
      cro_edit_cell_or_none (item->density),
      cro_edit_cell_or_none (item->piece),
    };

    return cro_store_delete (store, "output", item->id, error)
           && cro_store_delete (store, "preparation", of.id, error)
           && cro_edit_insert (book, "ingredient", columns, cells, error) != 0;
  }
}

gboolean
cro_edit_become_ingredient (CroBook     *book,
                            const char  *label,
                            guint32      preparation,
                            GError     **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, become_ingredient (book, preparation, error), error);
}
