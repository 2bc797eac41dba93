#include "cro-bring-private.h"

#include "cro-doubt.h"
#include "cro-fold.h"
#include "cro-name.h"
#include "cro-price-words.h"
#include "cro-stray.h"

#include <math.h>
#include <string.h>

gboolean
cro_bring_uses (CroBringKind kind,
                CroRole      role)
{
  switch (role)
    {
    case CRO_ROLE_NAME:
    case CRO_ROLE_UNIT:
    case CRO_ROLE_TRIM_YIELD:
    case CRO_ROLE_NOTE:
      return TRUE;
    case CRO_ROLE_PRICE:
    case CRO_ROLE_PACK:
    case CRO_ROLE_PACK_COUNT:
    case CRO_ROLE_PACK_SIZE:
    case CRO_ROLE_SUPPLIER:
    case CRO_ROLE_CODE:
    case CRO_ROLE_CATEGORY:
    case CRO_ROLE_ALLERGENS:
      return kind == CRO_BRING_PRICES;
    case CRO_ROLE_RECIPE:
    case CRO_ROLE_AMOUNT:
    case CRO_ROLE_MAKES:
    case CRO_ROLE_GIVES:
    case CRO_ROLE_COURSE:
    case CRO_ROLE_SELLING_PRICE:
      return kind == CRO_BRING_RECIPES;
    default:
      return FALSE;
    }
}

CroBringKind
cro_bring_guess (const CroBrought *brought)
{
  if (cro_brought_has_role (brought, CRO_ROLE_PRICE) && !cro_brought_has_role (brought, CRO_ROLE_RECIPE))
    return CRO_BRING_PRICES;
  return cro_brought_has_role (brought, CRO_ROLE_AMOUNT) ? CRO_BRING_RECIPES : CRO_BRING_PRICES;
}

const char *
cro_bring_keep (CroBringReader *self,
                const char     *text)
{
  return text != NULL && *text != '\0' ? g_string_chunk_insert_const (self->bring->texts, text) : NULL;
}

gboolean
cro_bring_fail (CroBringRow   *row,
                CroBringFault  fault,
                guint          column)
{
  if (row->fault == CRO_BRING_SOUND)
    {
      row->state = CRO_BRING_FAULT;
      row->fault = fault;
      row->column = column;
    }
  return FALSE;
}

void
cro_bring_leave (CroBringRow   *row,
                 CroBringFault  fault,
                 guint          column)
{
  g_return_if_fail (row->n_left < CRO_BRING_MOST_LEFT);

  row->left[row->n_left++] = (CroBringLeft){ fault, column };
}

gboolean
cro_bring_has_other_currency (const CroBringReader *self,
                              const char           *text)
{
  const char *own = self->model->currency;

  for (; own != NULL && *text != '\0'; text = g_utf8_next_char (text))
    {
      gboolean is_own;
      gsize length = g_ascii_isdigit (*text) ? 0 : cro_currency_scan (text, own, &is_own);

      if (length > 0)
        return !is_own;
    }
  return FALSE;
}

gboolean
cro_bring_fail_number (CroBringReader    *self,
                       CroBringRow       *row,
                       const CroReadCell *cell,
                       guint              column,
                       CroBringFault      fault)
{
  return cro_bring_fail (row, cro_brought_is_doubtful (self->brought, cell, column)
                                ? CRO_BRING_WHICH_SIGN : fault, column);
}

/* What nobody sees in a spreadsheet, and no table may hold, is left out. */
static void
blank_strays (char    *text,
              CroRole  role)
{
  const char *at;

  while ((role == CRO_ROLE_NOTE ? cro_stray_find_in_lines : cro_stray_find) (text, &at) != 0)
    memset (text + (at - text), ' ', (gsize) (g_utf8_next_char (at) - at));
}

const char *
cro_bring_read_text (CroBringReader *self,
                     guint           index,
                     CroRole         role)
{
  g_autofree char *text = g_strdup (cro_brought_get_role (self->brought, index, role, NULL)->text);
  g_autofree char *tidy = NULL;

  blank_strays (text, role);
  tidy = cro_name_dup_tidy (text);
  return cro_bring_keep (self, tidy);
}

static void
add_in_number (CroBringReader *self,
               const char     *folded,
               const char     *name)
{
  char *one = cro_fold_number (folded);

  g_hash_table_insert (self->items_in_number, one,
                       (gpointer) (g_hash_table_contains (self->items_in_number, one) ? "" : name));
}

/* The only name that differs in number alone; *folded is as it folds then. */
static const char *
find_in_number (CroBringReader  *self,
                char           **folded)
{
  g_autofree char *one = cro_fold_number (*folded);
  const char *name = g_hash_table_lookup (self->items_in_number, one);

  if (name == NULL || *name == '\0')
    return NULL;
  g_free (*folded);
  *folded = cro_fold (name);
  return name;
}

const char *
cro_bring_find_name (CroBringReader *self,
                     GHashTable     *names,
                     const char     *tidy,
                     gboolean       *is_known)
{
  g_autofree char *folded = cro_fold (tidy);
  const char *name;

  /* Signs alone fold to nothing, and are a name all the same. */
  if (*folded == '\0')
    {
      g_free (folded);
      folded = g_strdup (tidy);
    }
  name = g_hash_table_lookup (names, folded);
  if (name == NULL && names == self->items)
    name = find_in_number (self, &folded);
  if (name == NULL)
    {
      name = cro_bring_keep (self, tidy);
      g_hash_table_insert (names, g_strdup (folded), (gpointer) name);
      if (names == self->items)
        add_in_number (self, folded, name);
    }
  *is_known = g_hash_table_contains (self->items_of_book, folded);
  return name;
}

const char *
cro_bring_read_name (CroBringReader *self,
                     guint           index,
                     CroRole         role,
                     GHashTable     *names,
                     CroBringRow    *row,
                     gboolean       *is_known)
{
  guint column;
  const CroReadCell *cell = cro_brought_get_role (self->brought, index, role, &column);
  g_autofree char *tidy = cro_name_dup_tidy (cell->text);

  *is_known = FALSE;
  if (cell->kind == CRO_READ_CELL_ERROR)
    cro_bring_fail (row, CRO_BRING_CELL_ERROR, column);
  else if (*tidy != '\0' && cro_stray_find (tidy, NULL) != 0)
    cro_bring_fail (row, CRO_BRING_STRAY, column);
  else if (g_utf8_strlen (tidy, -1) > CRO_BRING_MOST_NAME)
    cro_bring_fail (row, CRO_BRING_TOO_LONG, column);
  if (*tidy == '\0' || row->fault != CRO_BRING_SOUND)
    return NULL;
  return cro_bring_find_name (self, names, tidy, is_known);
}

char *
cro_bring_dup_key (const char *name)
{
  g_autofree char *folded = cro_fold (name);

  return *folded != '\0' ? g_steal_pointer (&folded) : g_strdup (name);
}

static void
add_name (GHashTable *names,
          const char *name)
{
  g_hash_table_insert (names, cro_bring_dup_key (name), (gpointer) name);
}

guint32
cro_bring_find_item (CroBringReader *self,
                     const char     *name)
{
  g_autofree char *key = cro_bring_dup_key (name);
  guint place = GPOINTER_TO_UINT (g_hash_table_lookup (self->items_of_book, key));

  return place > 0 ? place - 1 : CRO_NO_SLOT;
}

static GHashTable *
names_new (void)
{
  return g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
}

static void
add_names_of_book (CroBringReader *self)
{
  for (guint i = 0; i < self->model->items->len; i++)
    if (!cro_model_item (self->model, i)->is_dead)
      {
        g_autofree char *folded = cro_fold (cro_model_item (self->model, i)->name);

        add_in_number (self, folded, cro_model_item (self->model, i)->name);
        add_name (self->items, cro_model_item (self->model, i)->name);
        g_hash_table_insert (self->items_of_book, cro_bring_dup_key (cro_model_item (self->model, i)->name),
                             GUINT_TO_POINTER (i + 1));
      }
  for (guint i = 0; i < self->model->recipes->len; i++)
    if (!cro_model_recipe (self->model, i)->is_dead)
      add_name (self->plates, cro_model_recipe (self->model, i)->name);
  for (guint i = 0; i < self->model->suppliers->len; i++)
    {
      const CroSupplier *supplier = &g_array_index (self->model->suppliers, CroSupplier, i);

      if (supplier->is_dead)
        continue;
      add_name (self->suppliers, supplier->name);
      g_hash_table_add (self->suppliers_of_book, g_strdup (supplier->name));
    }
}

/* The best of them. */
static const char *
find_like (CroBringReader *self,
           CroLikeNames   *likes,
           const char     *name)
{
  g_autoptr (GPtrArray) found = cro_like_names_find (likes, name, 1);

  return found->len > 0 ? cro_bring_keep (self, found->pdata[0]) : NULL;
}

/* Nobody makes a second oyster, or a second supplier, in silence. */
static void
look_at_names (CroBringReader *self)
{
  g_autoptr (CroLikeNames) items = cro_doubt_likes (self->model, CRO_REF (CRO_REF_ITEM, CRO_NO_SLOT));
  g_autoptr (CroLikeNames) suppliers = cro_doubt_likes (self->model, CRO_REF (CRO_REF_SUPPLIER, CRO_NO_SLOT));

  for (guint i = 0; i < self->bring->rows->len; i++)
    {
      CroBringRow *row = &g_array_index (self->bring->rows, CroBringRow, i);

      if (row->state == CRO_BRING_NEW)
        row->like = find_like (self, items, row->name);
      if (row->has_price && row->is_new_supplier)
        row->like_supplier = find_like (self, suppliers, row->supplier);
    }
}

static void
count (CroBring *self)
{
  for (guint i = 0; i < self->rows->len; i++)
    {
      const CroBringRow *row = &g_array_index (self->rows, CroBringRow, i);

      self->n_new += row->state == CRO_BRING_NEW;
      self->n_known += row->state == CRO_BRING_KNOWN;
      self->n_faults += row->state == CRO_BRING_FAULT;
      self->n_partly += row->n_left > 0 && row->state != CRO_BRING_FAULT;
      self->n_prices += row->has_price && (row->state == CRO_BRING_NEW || row->state == CRO_BRING_KNOWN);
      self->n_doubtful += row->is_doubtful && row->state == CRO_BRING_KNOWN;
    }
}

static void
read_rows (CroBringReader *self)
{
  const CroBrought *brought = self->brought;

  if (self->bring->kind == CRO_BRING_PRICES)
    cro_bring_begin_prices (self);
  for (guint i = (guint) (brought->headings + 1); i < brought->rows->len; i++)
    {
      CroBringRow row = {
        .number = g_array_index (brought->rows, CroBroughtRow, i).number,
        .code = "", .trim_yield = CRO_NOT_SET, .allergens = -1, .offer = CRO_NO_SLOT, .before = CRO_NOT_SET,
        .ratio = NAN,
      };

      if (self->bring->kind == CRO_BRING_PRICES)
        cro_bring_read_price (self, i, &row);
      else
        cro_bring_read_line (self, i, &row);
      g_array_append_val (self->bring->rows, row);
    }
  if (self->bring->kind == CRO_BRING_RECIPES)
    cro_bring_settle_recipes (self);
  else
    cro_bring_settle_prices (self);
  look_at_names (self);
}

CroBring *
cro_bring_read (const CroBrought *brought,
                CroBringKind      kind,
                CroModel         *model,
                const char       *supplier)
{
  CroBring *bring = g_new0 (CroBring, 1);
  CroBringReader reader = { .brought = brought, .model = model, .bring = bring };

  bring->kind = kind;
  bring->rows = g_array_new (FALSE, FALSE, sizeof (CroBringRow));
  bring->recipes = g_array_new (FALSE, FALSE, sizeof (CroBringRecipe));
  bring->texts = g_string_chunk_new (16 * 1024);
  reader.items = names_new ();
  reader.items_in_number = names_new ();
  reader.items_of_book = names_new ();
  reader.suppliers = names_new ();
  reader.suppliers_of_book = names_new ();
  reader.offers = names_new ();
  reader.recipes = names_new ();
  reader.plates = names_new ();
  reader.seen = names_new ();
  reader.supplier = cro_bring_keep (&reader, supplier);
  add_names_of_book (&reader);
  read_rows (&reader);
  count (bring);
  g_hash_table_unref (reader.items);
  g_hash_table_unref (reader.items_in_number);
  g_hash_table_unref (reader.items_of_book);
  g_hash_table_unref (reader.suppliers);
  g_hash_table_unref (reader.suppliers_of_book);
  g_hash_table_unref (reader.offers);
  g_hash_table_unref (reader.recipes);
  g_hash_table_unref (reader.plates);
  g_hash_table_unref (reader.seen);
  return bring;
}

void
cro_bring_free (CroBring *self)
{
  g_array_unref (self->rows);
  g_array_unref (self->recipes);
  g_string_chunk_free (self->texts);
  g_free (self);
}
