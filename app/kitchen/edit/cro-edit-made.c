#include "cro-edit-private.h"

#include "cro-breakdown.h"
#include "cro-decimal.h"

/* --- Preparations ----------------------------------------------------------------------------- */

static gint64
make_output (CroBook     *book,
             gint64       preparation,
             const char  *role,
             const char  *name,
             gint64       amount,
             CroUnit      unit,
             GError     **error)
{
  static const char *const columns[] = { "id", "preparation", "role", "amount_micro", "unit", NULL };
  gint64 id = cro_edit_name_row (book, "item", name, error);
  CroCell cells[] = {
    CRO_CELL_INT (id),
    CRO_CELL_INT (preparation),
    CRO_CELL_STR (role),
    cro_edit_cell_or_none (amount),
    CRO_CELL_STR (cro_edit_unit_code (unit)),
  };

  return id != 0 && cro_edit_insert (book, "output", columns, cells, error) != 0 ? id : 0;
}

gint64
cro_edit_make_preparation (CroBook     *book,
                           const char  *name,
                           gint64       amount,
                           CroUnit      unit,
                           gint64      *output,
                           GError     **error)
{
  static const char *const columns[] = { "name", NULL };
  g_autofree char *tidy = cro_edit_dup_name (book, CRO_NAMES_PREPARATIONS, name, CRO_REF_NOWHERE,
                                             error);
  CroCell cell = CRO_CELL_STR (tidy);
  gint64 id = tidy != NULL ? cro_edit_insert (book, "preparation", columns, &cell, error) : 0;

  *output = id != 0 ? make_output (book, id, "main", name, amount, unit, error) : 0;
  return *output != 0 ? id : 0;
}

gboolean
cro_edit_add_preparation (CroBook     *book,
                          const char  *label,
                          const char  *name,
                          gint64       amount,
                          CroUnit      unit,
                          guint32     *recipe,
                          guint32     *item,
                          GError     **error)
{
  gint64 id, output = 0;
  CroModel *model;

  if (!cro_edit_begin (book, label, error))
    return FALSE;
  id = cro_edit_make_preparation (book, name, amount, unit, &output, error);
  if (!cro_edit_end (book, id != 0, error))
    return FALSE;
  model = cro_book_get_model (book);
  return cro_edit_return_slot (recipe, &model->preparation_slots, id)
         && cro_edit_return_slot (item, &model->item_slots, output);
}

gboolean
cro_edit_add_output (CroBook     *book,
                     const char  *label,
                     guint32      preparation,
                     const char  *name,
                     gint64       amount,
                     CroUnit      unit,
                     guint32     *item,
                     GError     **error)
{
  gint64 id;

  if (!cro_edit_begin (book, label, error))
    return FALSE;
  id = make_output (book, cro_model_recipe (cro_book_get_model (book), preparation)->id,
                    "by-product", name, amount, unit, error);
  return cro_edit_end (book, id != 0, error)
         && cro_edit_return_slot (item, &cro_book_get_model (book)->item_slots, id);
}

/* At no moment has a preparation two main outputs. */
static gboolean
make_main (CroBook  *book,
           guint32   preparation,
           guint32   item,
           GError  **error)
{
  CroModel *model = cro_book_get_model (book);
  const CroRecipe *recipe = cro_model_recipe (model, preparation);

  for (guint32 i = 0; i < recipe->n_outputs; i++)
    {
      const CroItem *other = cro_model_item (
          model, g_array_index (model->output_order, guint32, recipe->first_output + i));

      if (other->is_main
          && !cro_edit_update (book, "output", other->id, "role", CRO_CELL_STR ("by-product"),
                               error))
        return FALSE;
    }
  return cro_edit_update (book, "output", cro_model_item (model, item)->id, "role",
                          CRO_CELL_STR ("main"), error);
}

gboolean
cro_edit_make_main (CroBook     *book,
                    const char  *label,
                    guint32      preparation,
                    guint32      item,
                    GError     **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, make_main (book, preparation, item, error), error);
}

/* --- Plates and menus ------------------------------------------------------------------------------ */

gint64
cro_edit_make_plate (CroBook     *book,
                     const char  *name,
                     gint64       makes,
                     GError     **error)
{
  static const char *const columns[] = { "id", "makes_micro", NULL };
  gint64 id = cro_edit_name_row (book, "thing", name, error);
  CroCell cells[] = { CRO_CELL_INT (id), CRO_CELL_INT (makes) };

  return id != 0 && cro_edit_insert (book, "plate", columns, cells, error) != 0 ? id : 0;
}

gboolean
cro_edit_add_plate (CroBook     *book,
                    const char  *label,
                    const char  *name,
                    gint64       makes,
                    guint32     *recipe,
                    GError     **error)
{
  gint64 id;

  if (!cro_edit_begin (book, label, error))
    return FALSE;
  id = cro_edit_make_plate (book, name, makes, error);
  return cro_edit_end (book, id != 0, error)
         && cro_edit_return_slot (recipe, &cro_book_get_model (book)->plate_slots, id);
}

gboolean
cro_edit_add_menu (CroBook     *book,
                   const char  *label,
                   const char  *name,
                   guint32     *menu,
                   GError     **error)
{
  static const char *const columns[] = { "id", NULL };
  CroCell cell;
  gboolean done;

  if (!cro_edit_begin (book, label, error))
    return FALSE;
  cell = CRO_CELL_INT (cro_edit_name_row (book, "thing", name, error));
  done = cell.integer != 0 && cro_edit_insert (book, "menu", columns, &cell, error) != 0;
  return cro_edit_end (book, done, error)
         && cro_edit_return_slot (menu, &cro_book_get_model (book)->menu_slots, cell.integer);
}

/* --- Plates of a menu ---------------------------------------------------------------------------------- */

static CroMenuPlate *
entry_of (CroBook *book,
          guint32  entry)
{
  return &g_array_index (cro_book_get_model (book)->menu_plates, CroMenuPlate, entry);
}

/* The plates of a menu in order, without one. Elements CroPlace. */
static GArray *
places_of_menu (CroBook *book,
                guint32  menu,
                gint64   without,
                gint64  *last)
{
  g_autoptr (GPtrArray) plates = cro_menu_dup_plates (cro_book_get_model (book), menu);
  GArray *places = g_array_new (FALSE, FALSE, sizeof (CroPlace));

  *last = 0;
  for (guint i = 0; i < plates->len; i++)
    {
      const CroMenuPlate *entry = plates->pdata[i];
      CroPlace place = { entry->id, entry->position };

      *last = MAX (*last, place.position);
      if (entry->id != without)
        g_array_append_val (places, place);
    }
  return places;
}

static gint64
add_to_menu (CroBook  *book,
             guint32   menu,
             guint32   plate,
             gint64    servings,
             GError  **error)
{
  static const char *const columns[] = { "menu", "plate", "servings_micro", "position_micro", NULL };
  CroModel *model = cro_book_get_model (book);
  gint64 last, position;
  g_autoptr (GArray) places = places_of_menu (book, menu, 0, &last);
  CroCell cells[4] = {
    CRO_CELL_INT (cro_model_menu (model, menu)->id),
    CRO_CELL_INT (cro_model_recipe (model, plate)->id),
    servings != CRO_MICRO ? CRO_CELL_INT (servings) : CRO_CELL_NONE,
  };

  for (guint32 i = 0; i < model->menu_plates->len; i++)
    if (!entry_of (book, i)->is_dead && entry_of (book, i)->menu == menu
        && entry_of (book, i)->plate == plate)
      {
        g_set_error_literal (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_TWICE, "the plate is there");
        return 0;
      }
  if (!cro_edit_make_room (book, "menu_plate", places, last, places->len, 1, &position, error))
    return 0;
  cells[3] = CRO_CELL_INT (position);
  return cro_edit_insert (book, "menu_plate", columns, cells, error);
}

gboolean
cro_edit_add_to_menu (CroBook     *book,
                      const char  *label,
                      guint32      menu,
                      guint32      plate,
                      gint64       servings,
                      guint32     *entry,
                      GError     **error)
{
  gint64 id;

  if (!cro_edit_begin (book, label, error))
    return FALSE;
  id = add_to_menu (book, menu, plate, servings, error);
  return cro_edit_end (book, id != 0, error)
         && cro_edit_return_slot (entry, &cro_book_get_model (book)->menu_plate_slots, id);
}

gboolean
cro_edit_remove_from_menu (CroBook     *book,
                           const char  *label,
                           guint32      entry,
                           GError     **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book,
                          cro_edit_leave_choice (book, entry, error)
                              && cro_store_delete (cro_book_get_store (book), "menu_plate",
                                                   entry_of (book, entry)->id, error),
                          error);
}

static gboolean
move_in_menu (CroBook  *book,
              guint32   entry,
              guint32   after,
              GError  **error)
{
  gint64 id = entry_of (book, entry)->id;
  gint64 behind = after != CRO_NO_SLOT ? entry_of (book, after)->id : 0;
  gint64 last, position;
  g_autoptr (GArray) places = places_of_menu (book, entry_of (book, entry)->menu, id, &last);
  guint at = 0;

  for (guint i = 0; i < places->len; i++)
    if (g_array_index (places, CroPlace, i).id == behind)
      at = i + 1;
  return cro_edit_make_room (book, "menu_plate", places, last, at, 1, &position, error)
         && cro_edit_update (book, "menu_plate", id, "position_micro", CRO_CELL_INT (position),
                             error);
}

gboolean
cro_edit_move_in_menu (CroBook     *book,
                       const char  *label,
                       guint32      entry,
                       guint32      after,
                       GError     **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, move_in_menu (book, entry, after, error), error);
}
