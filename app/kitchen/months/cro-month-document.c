/* Purchases by the invoice or delivery note that they stand on: rows of one supplier, number, delivery
 * and date. */
#include "cro-month-edit.h"

#include <string.h>

#include "cro-code.h"
#include "cro-edit-private.h"
#include "cro-month-private.h"
#include "cro-row-date.h"

/* --- A document as the book has it -------------------------------------------------------------- */

enum
{
  ID,
  DELIVERED,
  DATED,
  SUPPLIER,
  NUMBER,
  KIND,
  INGREDIENT,
  CATEGORY,
  AMOUNT,
  VALUE,
};

static const char *const columns[] = { "id", "date", "document_date", "supplier", "document", "kind",
                                       "ingredient", "category", "amount_micro", "net_value_micro", NULL };

/* What tells a document from all others, of the row that the cursor is on. */
typedef struct
{
  char  *texts[3];
  gint64 supplier;
} Key;

static void
key_clear (Key *key)
{
  for (guint i = 0; i < 3; i++)
    g_free (key->texts[i]);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Key, key_clear)

static const int key_columns[] = { DELIVERED, DATED, NUMBER };

static void
take_key (CroRows *rows,
          Key     *key)
{
  for (guint i = 0; i < 3; i++)
    key->texts[i] = g_strdup (cro_rows_get_text (rows, key_columns[i]));
  key->supplier = cro_rows_is_null (rows, SUPPLIER) ? 0 : cro_rows_get_int (rows, SUPPLIER);
}

static gboolean
is_of (CroRows   *rows,
       const Key *key)
{
  for (guint i = 0; i < 3; i++)
    if (g_strcmp0 (cro_rows_get_text (rows, key_columns[i]), key->texts[i]) != 0)
      return FALSE;
  return key->supplier == (cro_rows_is_null (rows, SUPPLIER) ? 0 : cro_rows_get_int (rows, SUPPLIER));
}

/* A row that says nothing but a sum of money. */
static gboolean
is_whole (CroRows *rows)
{
  return cro_rows_is_null (rows, INGREDIENT) && cro_rows_is_null (rows, CATEGORY)
         && cro_rows_is_null (rows, AMOUNT);
}

static gboolean
take_row (CroDocument  *self,
          CroRows      *rows,
          GError      **error)
{
  gint64 id = cro_rows_get_int (rows, ID), *value;
  guint kind;

  if (!cro_month_read_kind (cro_purchase_kind_codes, cro_rows_get_text (rows, KIND), &kind, error))
    return FALSE;
  value = &self->entry.values[kind];
  g_array_append_val (self->ids, id);
  /* A sum of lines that no field holds stands at its end, and is never written. */
  if (__builtin_add_overflow (*value != CRO_NOT_SET ? *value : 0, cro_rows_get_int (rows, VALUE), value))
    *value = cro_rows_get_int (rows, VALUE) > 0 ? G_MAXINT64 : G_MININT64;
  if (is_whole (rows) && self->whole[kind] == 0)
    self->whole[kind] = id;
  else
    self->has_lines = TRUE;
  return TRUE;
}

/* All rows of one document; the supplier's, where it has one. */
static gboolean
read_rows (CroBook      *book,
           const Key    *key,
           CroDocument  *self,
           GError      **error)
{
  CroStore *store = cro_book_get_store (book);
  g_autoptr (CroRows) rows = key->supplier != 0
                                 ? cro_store_read_of (store, "purchase", "supplier", key->supplier, columns,
                                                      error)
                                 : cro_store_read (store, "purchase", columns, error);
  GError *failed = NULL;

  while (rows != NULL && failed == NULL && cro_rows_next (rows, &failed))
    if (is_of (rows, key))
      take_row (self, rows, &failed);
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}

static CroDocument *
document_new (CroBook    *book,
              const Key  *key,
              GError    **error)
{
  g_autoptr (CroDocument) self = g_new0 (CroDocument, 1);
  CroModel *model = cro_book_get_model (book);
  guint32 supplier = key->supplier != 0 ? cro_slots_get (&model->supplier_slots, key->supplier) : CRO_NO_SLOT;

  self->ids = g_array_new (FALSE, FALSE, sizeof (gint64));
  self->texts = g_string_chunk_new (64);
  self->entry.delivered = cro_text_to_date (key->texts[0]);
  self->entry.dated = cro_text_to_date (key->texts[1]);
  if (key->texts[2] != NULL)
    self->entry.number = g_string_chunk_insert (self->texts, key->texts[2]);
  if (supplier != CRO_NO_SLOT)
    self->entry.supplier = g_string_chunk_insert (
        self->texts, g_array_index (model->suppliers, CroSupplier, supplier).name);
  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    self->entry.values[k] = CRO_NOT_SET;
  return read_rows (book, key, self, error) ? g_steal_pointer (&self) : NULL;
}

CroDocument *
cro_document_new (CroBook  *book,
                  gint64    id,
                  GError  **error)
{
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (book), "purchase", id, columns, error);
  g_auto (Key) key = { 0 };

  if (rows == NULL || !cro_rows_next (rows, error))
    return NULL;
  take_key (rows, &key);
  return document_new (book, &key, error);
}

void
cro_document_free (CroDocument *self)
{
  g_array_unref (self->ids);
  g_string_chunk_free (self->texts);
  g_free (self);
}

/* --- Putting one ------------------------------------------------------------------------------------ */

/* *id: that of a supplier of that name, who is made where there is none; 0: no name. made, name → id: those
 * whom this act made already, whom the model does not know yet; NULL: it is of one document. */
static gboolean
find_supplier (CroBook     *book,
               GHashTable  *made,
               const char  *name,
               gint64      *id,
               GError     **error)
{
  static const char *const names[] = { "name", NULL };
  CroModel *model = cro_book_get_model (book);
  CroCell cell = cro_edit_text_or_none (name);
  const gint64 *known = made != NULL && cell.kind != CRO_CELL_NULL ? g_hash_table_lookup (made, name) : NULL;
  const char *table;
  CroRef ref;

  *id = known != NULL ? *known : 0;
  if (cell.kind == CRO_CELL_NULL || known != NULL)
    return TRUE;
  ref = cro_edit_find_name (model, CRO_NAMES_SUPPLIERS, name);
  *id = ref.kind != CRO_REF_NONE ? cro_edit_row (model, ref, &table)
                                 : cro_edit_insert (book, "supplier", names, &cell, error);
  if (made != NULL && *id != 0)
    g_hash_table_insert (made, g_strdup (name), g_memdup2 (id, sizeof *id));
  return *id != 0;
}

/* What all rows of a document have, and the texts of its days. */
typedef struct
{
  CroCell cells[10];
  char    delivered[CRO_DATE_CHARS];
  char    dated[CRO_DATE_CHARS];
} Row;

static gboolean
begin_row (CroBook     *book,
           GHashTable  *made,
           Row         *row,
           CroDate      delivered,
           CroDate      dated,
           const char  *supplier,
           const char  *number,
           GError     **error)
{
  gint64 id;

  if (!find_supplier (book, made, supplier, &id, error))
    return FALSE;
  cro_date_format (delivered, row->delivered);
  row->cells[0] = CRO_CELL_STR (row->delivered);
  row->cells[1] = CRO_CELL_NONE;
  if (dated != CRO_NO_DAY)
    {
      cro_date_format (dated, row->dated);
      row->cells[1] = CRO_CELL_STR (row->dated);
    }
  row->cells[2] = cro_edit_cell_or_none (id);
  row->cells[3] = cro_edit_text_or_none (number);
  return TRUE;
}

static gboolean
put_value (CroBook  *book,
           gint64    id,
           Row      *row,
           guint     kind,
           gint64    value,
           GError  **error)
{
  static const char *const whole[] = { "date", "document_date", "supplier", "document", "kind",
                                       "net_value_micro", NULL };

  row->cells[4] = CRO_CELL_STR (cro_purchase_kind_codes[kind]);
  row->cells[5] = CRO_CELL_INT (value);
  if (value == CRO_NOT_SET)
    return id == 0 || cro_store_delete (cro_book_get_store (book), "purchase", id, error);
  return id != 0 ? cro_edit_update_row (book, "purchase", id, whole, row->cells, error)
                 : cro_edit_insert (book, "purchase", whole, row->cells, error) != 0;
}

/* Of an ingredient; words are of other goods. */
static guint
kind_of_item (const CroItem *item)
{
  return item == NULL ? 2 : item->is_disposable ? 1 : 0;
}

/* A line with the head of its document. */
static gboolean
put_line (CroBook                 *book,
          const CroPurchaseEntry  *entry,
          const Row               *row,
          GError                 **error)
{
  /* What a line does not say stays as it is: the date of its document, and an ingredient's category. */
  static const char *const of_item[] = { "date", "supplier", "document", "ingredient", "kind",
                                         "amount_micro", "unit", "net_value_micro", "document_date", NULL };
  static const char *const of_words[] = { "date", "supplier", "document", "category", "kind",
                                          "amount_micro", "unit", "net_value_micro", "document_date", NULL };
  CroModel *model = cro_book_get_model (book);
  gboolean has_item = entry->ingredient != CRO_NO_SLOT, has_amount = entry->amount != CRO_NOT_SET;
  const CroItem *item = has_item ? cro_model_item (model, entry->ingredient) : NULL;
  const char *columns_of[10];
  CroCell cells[9];

  cells[0] = row->cells[0];
  cells[1] = row->cells[2];
  cells[2] = row->cells[3];
  cells[3] = item != NULL ? CRO_CELL_INT (item->id) : cro_edit_text_or_none (entry->words);
  cells[4] = CRO_CELL_STR (cro_purchase_kind_codes[kind_of_item (item)]);
  cells[5] = has_amount ? CRO_CELL_INT (entry->amount) : CRO_CELL_NONE;
  cells[6] = has_amount ? CRO_CELL_STR (cro_edit_unit_code (entry->unit)) : CRO_CELL_NONE;
  cells[7] = CRO_CELL_INT (entry->value);
  cells[8] = row->cells[1];
  memcpy (columns_of, item != NULL ? of_item : of_words, sizeof columns_of);
  if (entry->id == 0)
    return cro_edit_insert (book, "purchase", columns_of, cells, error) != 0;
  columns_of[8] = NULL;
  return cro_edit_update_row (book, "purchase", entry->id, columns_of, cells, error);
}

/* What no line of a new document bills is one sum of its kind. */
static gint64
value_without_lines (CroModel               *model,
                     const CroDocumentEntry *entry,
                     guint                   kind)
{
  gint64 value = entry->values[kind];
  gboolean is_lines = FALSE;

  for (guint i = 0; entry->lines != NULL && i < entry->lines->len; i++)
    {
      const CroPurchaseEntry *line = &g_array_index (entry->lines, CroPurchaseEntry, i);

      if (kind_of_item (cro_model_item (model, line->ingredient)) != kind)
        continue;
      value -= line->value;
      is_lines = TRUE;
    }
  return is_lines && value == 0 ? CRO_NOT_SET : value;
}

static gboolean
put_lines (CroBook                *book,
           const CroDocumentEntry *entry,
           Row                    *row,
           GError                **error)
{
  for (guint i = 0; entry->lines != NULL && i < entry->lines->len; i++)
    if (!put_line (book, &g_array_index (entry->lines, CroPurchaseEntry, i), row, error))
      return FALSE;
  return TRUE;
}

static gboolean
put_document (CroBook                 *book,
              GHashTable              *made,
              gint64                   id,
              const CroDocumentEntry  *entry,
              GError                 **error)
{
  static const char *const heads[] = { "date", "document_date", "supplier", "document", NULL };
  g_autoptr (CroDocument) before = NULL;
  GError *failed = NULL;
  Row row;

  if (!begin_row (book, made, &row, entry->delivered, entry->dated, entry->supplier, entry->number, error))
    return FALSE;
  if (id != 0 && (before = cro_document_new (book, id, &failed)) == NULL && failed != NULL)
    {
      g_propagate_error (error, failed);
      return FALSE;
    }
  for (guint i = 0; before != NULL && before->has_lines && i < before->ids->len; i++)
    if (!cro_edit_update_row (book, "purchase", g_array_index (before->ids, gint64, i), heads, row.cells,
                              error))
      return FALSE;
  for (guint k = 0; (before == NULL || !before->has_lines) && k < CRO_N_PURCHASE_KINDS; k++)
    if (!put_value (book, before != NULL ? before->whole[k] : 0, &row, k,
                    value_without_lines (cro_book_get_model (book), entry, k), error))
      return FALSE;
  return put_lines (book, entry, &row, error);
}

gboolean
cro_month_put_document (CroBook                 *book,
                        const char              *label,
                        gint64                   id,
                        const CroDocumentEntry  *entry,
                        GError                 **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, put_document (book, NULL, id, entry, error), error);
}

gboolean
cro_month_write_documents (CroBook                 *book,
                           const CroDocumentEntry  *entries,
                           guint                    n,
                           GError                 **error)
{
  g_autoptr (GHashTable) made = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);

  for (guint i = 0; i < n; i++)
    if (!put_document (book, made, 0, &entries[i], error))
      return FALSE;
  return TRUE;
}

/* --- A line of one ------------------------------------------------------------------------------------ */

/* What is left of the sum of its kind once the line is told apart; a sum that is used up goes. */
static gboolean
take_from_whole (CroBook           *book,
                 const CroDocument *document,
                 guint              kind,
                 gint64             value,
                 GError           **error)
{
  static const char *const sums[] = { "net_value_micro", NULL };
  gint64 id = document->whole[kind], sum;
  g_autoptr (CroRows) rows = NULL;

  if (id == 0)
    return TRUE;
  rows = cro_store_read_one (cro_book_get_store (book), "purchase", id, sums, error);
  if (rows == NULL || !cro_rows_next (rows, error))
    return FALSE;
  sum = cro_rows_get_int (rows, 0);
  if (value >= 0 ? sum > value : sum < value)
    return cro_edit_update (book, "purchase", id, "net_value_micro", CRO_CELL_INT (sum - value), error);
  return cro_store_delete (cro_book_get_store (book), "purchase", id, error);
}

/* The document that a new line is put into, by its key, whose date it takes; one without a number is
 * none. */
static gboolean
take_from_document (CroBook                 *book,
                    const CroPurchaseEntry  *entry,
                    Row                     *row,
                    guint                    kind,
                    GError                 **error)
{
  static const char *const days[] = { "document_date", "date", "document", "supplier", NULL };
  g_autoptr (CroRows) rows = NULL;
  g_autoptr (CroDocument) document = NULL;
  g_auto (Key) key = { 0 };

  if (row->cells[3].kind == CRO_CELL_NULL || row->cells[2].kind == CRO_CELL_NULL)
    return TRUE;
  key.texts[0] = g_strdup (row->delivered);
  key.texts[2] = g_strdup (entry->number);
  key.supplier = row->cells[2].integer;
  rows = cro_store_read_of (cro_book_get_store (book), "purchase", "supplier", key.supplier, days, error);
  while (rows != NULL && cro_rows_next (rows, NULL))
    if (g_strcmp0 (cro_rows_get_text (rows, 1), key.texts[0]) == 0
        && g_strcmp0 (cro_rows_get_text (rows, 2), key.texts[2]) == 0)
      {
        g_free (key.texts[1]);
        key.texts[1] = g_strdup (cro_rows_get_text (rows, 0));
      }
  if (key.texts[1] != NULL)
    {
      g_strlcpy (row->dated, key.texts[1], sizeof row->dated);
      row->cells[1] = CRO_CELL_STR (row->dated);
    }
  document = rows != NULL ? document_new (book, &key, error) : NULL;
  return document != NULL && take_from_whole (book, document, kind, entry->value, error);
}

static gboolean
put_purchase (CroBook                 *book,
              const CroPurchaseEntry  *entry,
              GError                 **error)
{
  CroModel *model = cro_book_get_model (book);
  const CroItem *item = entry->ingredient != CRO_NO_SLOT ? cro_model_item (model, entry->ingredient) : NULL;
  Row row;

  return begin_row (book, NULL, &row, entry->delivered, CRO_NO_DAY, entry->supplier, entry->number, error)
         && (entry->id != 0 || take_from_document (book, entry, &row, kind_of_item (item), error))
         && put_line (book, entry, &row, error);
}

gboolean
cro_month_put_purchase (CroBook                 *book,
                        const char              *label,
                        const CroPurchaseEntry  *entry,
                        GError                 **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, put_purchase (book, entry, error), error);
}
