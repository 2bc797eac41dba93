/* What was read, as tables. */
#include "cro-bring.h"

#include "cro-column.h"
#include "cro-table.h"

#include <glib/gstdio.h>
#include <string.h>

/* Room for a row of any table. */
typedef CroField Fields[CRO_MAX_COLUMNS];

typedef struct
{
  const CroBring *bring;
  const char     *folder;
  CroDate         from;
  GHashTable     *written;   /* names of the table in hand */
} Writing;

static void
set_if (CroField *field,
        gint64    number)
{
  if (number != CRO_NOT_SET)
    cro_field_set_number (field, number);
}

static gboolean
is_sound (const CroBringRow *row)
{
  return row->state == CRO_BRING_KNOWN || row->state == CRO_BRING_NEW;
}

static gboolean
is_first (Writing    *self,
          const char *name)
{
  return g_hash_table_add (self->written, (gpointer) name);
}

/* A row's fields in one table. FALSE: it has none there. */
typedef gboolean (*FillRow) (Writing           *self,
                             const CroBringRow *row,
                             CroField          *fields);
typedef gboolean (*FillRecipe) (Writing              *self,
                                const CroBringRecipe *recipe,
                                CroField             *fields);

/* What the book has keeps what it says of itself. */
static gboolean
fill_ingredient (Writing           *self,
                 const CroBringRow *row,
                 CroField          *fields)
{
  if (row->state != CRO_BRING_NEW || !is_first (self, row->name))
    return FALSE;
  cro_field_set_text (&fields[CRO_INGREDIENTS_NAME], row->name);
  cro_field_set_number (&fields[CRO_INGREDIENTS_UNIT], row->base);
  cro_field_set_text (&fields[CRO_INGREDIENTS_CATEGORY], row->category);
  set_if (&fields[CRO_INGREDIENTS_TRIM_YIELD_PCT], row->trim_yield);
  if (row->allergens >= 0)
    cro_field_set_number (&fields[CRO_INGREDIENTS_ALLERGENS], row->allergens);
  if (self->bring->kind == CRO_BRING_PRICES)
    cro_field_set_text (&fields[CRO_INGREDIENTS_NOTE], row->note);
  return TRUE;
}

static gboolean
fill_supplier (Writing           *self,
               const CroBringRow *row,
               CroField          *fields)
{
  if (!row->has_price || !row->is_new_supplier || !is_first (self, row->supplier))
    return FALSE;
  cro_field_set_text (&fields[CRO_SUPPLIERS_NAME], row->supplier);
  return TRUE;
}

static gboolean
fill_offer (Writing           *self,
            const CroBringRow *row,
            CroField          *fields)
{
  if (!row->has_price || !row->is_new_offer)
    return FALSE;
  cro_field_set_text (&fields[CRO_OFFERS_INGREDIENT], row->name);
  cro_field_set_text (&fields[CRO_OFFERS_SUPPLIER], row->supplier);
  cro_field_set_text (&fields[CRO_OFFERS_CODE], row->code);
  cro_field_set_number (&fields[CRO_OFFERS_PACK_COUNT], row->pack.count);
  cro_field_set_number (&fields[CRO_OFFERS_PACK_SIZE], row->pack.size);
  cro_field_set_number (&fields[CRO_OFFERS_PACK_UNIT], row->pack.unit);
  return TRUE;
}

/* A pack that changed changes from that day on. */
static gboolean
fill_price (Writing           *self,
            const CroBringRow *row,
            CroField          *fields)
{
  if (!row->has_price)
    return FALSE;
  cro_field_set_text (&fields[CRO_PRICES_INGREDIENT], row->name);
  cro_field_set_text (&fields[CRO_PRICES_SUPPLIER], row->supplier);
  cro_field_set_text (&fields[CRO_PRICES_CODE], row->code);
  cro_field_set_number (&fields[CRO_PRICES_FROM], self->from);
  cro_field_set_number (&fields[CRO_PRICES_PRICE], row->price);
  if (row->is_other_pack)
    {
      cro_field_set_number (&fields[CRO_PRICES_PACK_COUNT], row->pack.count);
      cro_field_set_number (&fields[CRO_PRICES_PACK_SIZE], row->pack.size);
      cro_field_set_number (&fields[CRO_PRICES_PACK_UNIT], row->pack.unit);
    }
  return TRUE;
}

static gboolean
fill_line (Writing           *self,
           const CroBringRow *row,
           CroField          *fields)
{
  const CroBringRecipe *recipe = &g_array_index (self->bring->recipes, CroBringRecipe, row->recipe_index);

  cro_field_set_number (&fields[CRO_LINES_INTO], recipe->is_plate ? 1 : 0);
  cro_field_set_text (&fields[CRO_LINES_PARENT], recipe->name);
  cro_field_set_number (&fields[CRO_LINES_POSITION], (gint64) row->number * 1000000);
  cro_field_set_text (&fields[CRO_LINES_ITEM], row->name);
  cro_field_set_number (&fields[CRO_LINES_AMOUNT], row->amount);
  cro_field_set_number (&fields[CRO_LINES_UNIT], row->unit);
  cro_field_set_text (&fields[CRO_LINES_NOTE], row->note);
  return TRUE;
}

static gboolean
fill_preparation (Writing              *self,
                  const CroBringRecipe *recipe,
                  CroField             *fields)
{
  if (recipe->is_plate)
    return FALSE;
  cro_field_set_text (&fields[CRO_PREPARATIONS_NAME], recipe->name);
  return TRUE;
}

static gboolean
fill_output (Writing              *self,
             const CroBringRecipe *recipe,
             CroField             *fields)
{
  gboolean is_counted = recipe->gives == CRO_NOT_SET && recipe->makes != CRO_NOT_SET;

  if (recipe->is_plate)
    return FALSE;
  cro_field_set_text (&fields[CRO_OUTPUTS_ITEM], recipe->name);
  cro_field_set_text (&fields[CRO_OUTPUTS_PREPARATION], recipe->name);
  cro_field_set_number (&fields[CRO_OUTPUTS_ROLE], 0);
  set_if (&fields[CRO_OUTPUTS_AMOUNT], is_counted ? recipe->makes : recipe->gives);
  cro_field_set_number (&fields[CRO_OUTPUTS_UNIT], is_counted ? CRO_UNIT_EACH : recipe->gives_unit);
  return TRUE;
}

/* Whether it is one is its cook's to say: where no number was found, it makes one. */
static gboolean
fill_plate (Writing              *self,
            const CroBringRecipe *recipe,
            CroField             *fields)
{
  if (!recipe->is_plate)
    return FALSE;
  cro_field_set_text (&fields[CRO_PLATES_NAME], recipe->name);
  cro_field_set_text (&fields[CRO_PLATES_COURSE], recipe->course);
  cro_field_set_number (&fields[CRO_PLATES_MAKES], recipe->makes != CRO_NOT_SET ? recipe->makes : 1000000);
  set_if (&fields[CRO_PLATES_PRICE], recipe->price);
  return TRUE;
}

static gboolean
write_rows (Writing     *self,
            CroTableId   id,
            FillRow      fill_row,
            FillRecipe   fill_recipe,
            GError     **error)
{
  CroTableWriter *writer = cro_table_writer_new (self->folder, id, error);
  guint n = fill_row != NULL ? self->bring->rows->len : self->bring->recipes->len;
  gboolean is_sound_so_far = writer != NULL;

  g_hash_table_remove_all (self->written);
  for (guint i = 0; is_sound_so_far && i < n; i++)
    {
      Fields fields = { 0 };
      gboolean is_there;

      if (fill_row != NULL)
        {
          const CroBringRow *row = &g_array_index (self->bring->rows, CroBringRow, i);

          is_there = is_sound (row) && fill_row (self, row, fields);
        }
      else
        {
          const CroBringRecipe *recipe = &g_array_index (self->bring->recipes, CroBringRecipe, i);

          is_there = !recipe->is_left_out && fill_recipe (self, recipe, fields);
        }
      is_sound_so_far = !is_there || cro_table_writer_row (writer, fields, error);
    }
  is_sound_so_far = is_sound_so_far && cro_table_writer_finish (writer, error);
  if (writer != NULL)
    cro_table_writer_free (writer);
  return is_sound_so_far;
}

static gboolean
write_prices (Writing  *self,
              GError  **error)
{
  return write_rows (self, CRO_TABLE_SUPPLIERS, fill_supplier, NULL, error)
         && write_rows (self, CRO_TABLE_OFFERS, fill_offer, NULL, error)
         && write_rows (self, CRO_TABLE_PRICES, fill_price, NULL, error);
}

static gboolean
write_recipes (Writing  *self,
               GError  **error)
{
  return write_rows (self, CRO_TABLE_PREPARATIONS, NULL, fill_preparation, error)
         && write_rows (self, CRO_TABLE_OUTPUTS, NULL, fill_output, error)
         && write_rows (self, CRO_TABLE_PLATES, NULL, fill_plate, error)
         && write_rows (self, CRO_TABLE_LINES, fill_line, NULL, error);
}

/* Writes what is sound as tables into an empty folder, prices from that day. */
static gboolean
write_tables (const CroBring  *self,
              const char      *folder,
              CroDate          from,
              GError         **error)
{
  g_autoptr (GHashTable) written = g_hash_table_new (g_str_hash, g_str_equal);
  Writing writing = { self, folder, from, written };

  return write_rows (&writing, CRO_TABLE_INGREDIENTS, fill_ingredient, NULL, error)
         && (self->kind == CRO_BRING_PRICES ? write_prices (&writing, error)
                                            : write_recipes (&writing, error));
}

static void
remove_folder (const char *folder)
{
  for (int id = 0; id < CRO_N_TABLES; id++)
    {
      g_autofree char *file = g_strconcat (cro_table_get ((CroTableId) id)->name, ".csv", NULL);
      g_autofree char *path = g_build_filename (folder, file, NULL);

      g_remove (path);
    }
  g_rmdir (folder);
}

CroAdded *
cro_bring_into (const CroBring  *self,
                const char      *path,
                CroDate          from,
                const char      *desk,
                const char      *label,
                CroAddFlags      flags,
                CroFaults       *faults,
                GError         **error)
{
  g_autofree char *folder = g_dir_make_tmp ("croustade-XXXXXX", error);
  CroAdded *added = NULL;

  if (folder == NULL)
    return NULL;
  if (write_tables (self, folder, from, error))
    added = cro_add (path, folder, desk, label, flags, NULL, NULL, faults, error);
  remove_folder (folder);
  return added;
}
