/* A list into the book: new packs, prices, and what an invoice says was bought. */
#include "cro-price-list.h"

#include "cro-column.h"
#include "cro-decimal.h"
#include "cro-doubt.h"
#include "cro-here.h"
#include "cro-name.h"
#include "cro-pack.h"
#include "cro-price-list-purchase.h"
#include "cro-sheet-cells.h"
#include "cro-table.h"

/* Room for a row of any table. */
typedef CroField Fields[CRO_MAX_COLUMNS];

typedef struct
{
  const CroPriceList *list;
  CroModel           *model;
  CroStore           *store;
  CroFaults          *faults;
  gint64              supplier;  /* these are ids */
  gint64             *offers;    /* [rows] */
  char              **codes;     /* [rows]: of new packs without one, beside another of the ingredient; NULL */
} Posting;

/* --- Rows of tables --------------------------------------------------------------------------------- */

/* What names nothing; FALSE: the row has nothing in that table. */
typedef gboolean (*Fill) (Posting          *self,
                          const CroListRow *row,
                          CroField         *fields);

static const char *
code_of (Posting          *self,
         const CroListRow *row)
{
  return row->code != NULL ? row->code : self->codes[row - (const CroListRow *) self->list->rows->data];
}

static gboolean
fill_offer (Posting          *self,
            const CroListRow *row,
            CroField         *fields)
{
  if (!row->is_posted || row->offer != CRO_NO_SLOT)
    return FALSE;
  cro_field_set_text (&fields[CRO_OFFERS_CODE], code_of (self, row));
  cro_field_set_number (&fields[CRO_OFFERS_PACK_COUNT], row->pack.count);
  cro_field_set_number (&fields[CRO_OFFERS_PACK_SIZE], row->pack.size);
  cro_field_set_number (&fields[CRO_OFFERS_PACK_UNIT], row->pack.unit);
  cro_field_set_text (&fields[CRO_OFFERS_GTIN], row->gtin);
  if (g_strcmp0 (row->currency, self->model->currency) != 0)
    cro_field_set_text (&fields[CRO_OFFERS_CURRENCY], row->currency);
  return TRUE;
}

static gboolean
fill_price (Posting          *self,
            const CroListRow *row,
            CroField         *fields)
{
  if (!row->is_posted)
    return FALSE;
  cro_field_set_number (&fields[CRO_PRICES_FROM], self->list->from);
  if (row->is_none)
    return TRUE;
  cro_field_set_number (&fields[CRO_PRICES_PRICE], row->price);
  if (row->tax > 0)
    cro_field_set_number (&fields[CRO_PRICES_TAX_INCLUDED_PCT], row->tax);
  if (row->is_other_pack)
    {
      cro_field_set_number (&fields[CRO_PRICES_PACK_COUNT], row->pack.count);
      cro_field_set_number (&fields[CRO_PRICES_PACK_SIZE], row->pack.size);
      cro_field_set_number (&fields[CRO_PRICES_PACK_UNIT], row->pack.unit);
    }
  return TRUE;
}

/* What jumped is asked about for as long as it stands, unless somebody said here that it is right. A new pack has no
 * price before. */
static gboolean
fill_answer (Posting          *self,
             const CroListRow *row,
             CroField         *fields)
{
  const CroOfferEntry *entry = row->offer != CRO_NO_SLOT ? cro_model_offer (self->model, row->offer) : NULL;
  const char *currency;

  if (!row->is_posted || row->is_none || !row->is_right || entry == NULL
      || !cro_doubt_is_jump (row->look.ratio))
    return FALSE;
  currency = cro_model_currency_of (self->model, row->offer);
  cro_field_set_number (&fields[CRO_PRICE_ANSWERS_FROM], self->list->from);
  cro_field_set_number (&fields[CRO_PRICE_ANSWERS_PRICE], row->price);
  cro_field_set_number (&fields[CRO_PRICE_ANSWERS_ANSWERED_ON], cro_here_today ());
  cro_field_set_number (&fields[CRO_PRICE_ANSWERS_PACK_COUNT],
                        row->is_other_pack ? row->pack.count : entry->pack_count);
  cro_field_set_number (&fields[CRO_PRICE_ANSWERS_PACK_SIZE], row->is_other_pack ? row->pack.size : entry->pack_size);
  cro_field_set_number (&fields[CRO_PRICE_ANSWERS_PACK_UNIT], row->is_other_pack ? row->pack.unit : entry->pack_unit);
  if (currency != NULL)
    cro_field_set_text (&fields[CRO_PRICE_ANSWERS_CURRENCY], currency);
  return TRUE;
}

static gboolean
fill_purchase (Posting          *self,
               const CroListRow *row,
               CroField         *fields)
{
  CroListPurchase purchase;

  if (!row->is_booked || row->is_in_book || !cro_list_purchase_of (self->list, self->model, row, &purchase))
    return FALSE;
  cro_field_set_number (&fields[CRO_PURCHASES_DATE], self->list->delivered);
  if (self->list->dated != CRO_NO_DAY)
    cro_field_set_number (&fields[CRO_PURCHASES_DOCUMENT_DATE], self->list->dated);
  cro_field_set_text (&fields[CRO_PURCHASES_DOCUMENT], self->list->document);
  if (purchase.is_goods)
    {
      cro_field_set_number (&fields[CRO_PURCHASES_AMOUNT], purchase.amount);
      cro_field_set_number (&fields[CRO_PURCHASES_UNIT], purchase.unit);
    }
  else
    {
      g_autofree char *category = cro_list_dup_category (row);

      if (category != NULL)
        cro_field_set_text (&fields[CRO_PURCHASES_CATEGORY],
                            g_string_chunk_insert_const (self->list->texts, category));
    }
  cro_field_set_number (&fields[CRO_PURCHASES_KIND], purchase.kind);
  cro_field_set_number (&fields[CRO_PURCHASES_NET_VALUE], purchase.net_value);
  return TRUE;
}

/* --- As the book keeps them ---------------------------------------------------------------------------- */

/* The ids of what a row names. */
typedef void (*Name) (Posting          *self,
                      guint             row,
                      CroCell          *cells);

static gint64
ingredient_of (Posting *self,
               guint    row)
{
  const CroListRow *of = &g_array_index (self->list->rows, CroListRow, row);

  return of->made != 0 ? of->made : cro_model_item (self->model, of->item)->id;
}

static void
name_offer (Posting *self,
            guint    row,
            CroCell *cells)
{
  cells[0] = CRO_CELL_INT (ingredient_of (self, row));
  cells[1] = CRO_CELL_INT (self->supplier);
}

static void
name_price (Posting *self,
            guint    row,
            CroCell *cells)
{
  cells[0] = CRO_CELL_INT (self->offers[row]);
}

/* What an invoice asks for beside goods is no ingredient. */
static void
name_purchase (Posting *self,
               guint    row,
               CroCell *cells)
{
  cells[CRO_PURCHASES_SUPPLIER] = CRO_CELL_INT (self->supplier);
  if (g_array_index (self->list->rows, CroListRow, row).item != CRO_NO_SLOT
      || g_array_index (self->list->rows, CroListRow, row).made != 0)
    cells[CRO_PURCHASES_INGREDIENT] = CRO_CELL_INT (ingredient_of (self, row));
}

/* A document may say what no table does. */
static gboolean
check_field (Posting         *self,
             guint            row,
             CroTableId       id,
             const CroColumn *column,
             CroField        *field)
{
  char number[CRO_DECIMAL_CHARS];
  g_autofree char *tidy = NULL, *detail = NULL, *file = NULL;
  CroField ignored;
  CroFaultKind kind;

  if (!field->is_set || (column->kind != CRO_FIELD_DECIMAL && !cro_field_is_text (column->kind)))
    return TRUE;
  if (column->kind == CRO_FIELD_DECIMAL)
    cro_decimal_format (field->number, number);
  else if (column->kind == CRO_FIELD_NAME && !cro_name_is_composed (field->text))
    {
      tidy = cro_name_dup_tidy (field->text);
      field->text = g_string_chunk_insert_const (self->list->texts, tidy);
    }
  if (cro_table_parse_field (column, field->text != NULL ? field->text : number, &ignored, &kind, &detail))
    return TRUE;
  file = g_strconcat (cro_table_get (id)->name, ".csv", NULL);
  cro_faults_add (self->faults, file, g_array_index (self->list->rows, CroListRow, row).number, column->name, kind,
                  field->text != NULL ? field->text : number, detail);
  return FALSE;
}

static gboolean
make_cells (Posting           *self,
            guint              row,
            const CroSheetMap *map,
            Fields             fields,
            CroCell           *cells,
            CroCellText       *text)
{
  const CroTable *table = cro_table_get (map->id);
  gboolean is_sound = TRUE;

  for (guint i = 0; map->columns[i].column != NULL; i++)
    {
      guint from = map->columns[i].from;

      cells[i] = CRO_CELL_NONE;
      /* An offer is one beyond the columns of the table. */
      if (from >= table->n_columns)
        continue;
      is_sound &= check_field (self, row, map->id, &table->columns[from], &fields[from]);
      cells[i] = cro_cell_of_field (&map->columns[i], &table->columns[from], &fields[from], text->dates[i]);
    }
  return is_sound;
}

/* --- What the book has ------------------------------------------------------------------------------------ */

static void
make_key (GString           *key,
          const CroSheetMap *map,
          const CroCell     *cells)
{
  g_string_truncate (key, 0);
  for (guint i = 0; i < map->n_keys; i++)
    cro_cell_append_key (key, &cells[i]);
}

static GHashTable *
known_new (void)
{
  return g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) g_array_unref);
}

static void
add_known (GHashTable *known,
           GString    *key,
           gint64      id)
{
  GArray *ids = g_hash_table_lookup (known, key->str);

  if (ids == NULL)
    g_hash_table_insert (known, g_strdup (key->str), ids = g_array_new (FALSE, FALSE, sizeof id));
  g_array_append_val (ids, id);
}

/* Purchases that lines of the document are already: no other line is they. Elements gint64. Owned. */
static GHashTable *
find_met (const CroPriceList *list)
{
  GHashTable *met = g_hash_table_new (g_int64_hash, g_int64_equal);

  for (guint i = 0; i < list->rows->len; i++)
    {
      CroListRow *row = &g_array_index (list->rows, CroListRow, i);

      if (row->is_in_book)
        g_hash_table_add (met, &row->in_book);
    }
  return met;
}

/* The supplier's rows; of purchases those of the list's day, as all that it books are. */
static gboolean
read_known (Posting            *self,
            const CroSheetMap  *map,
            GHashTable         *known,
            GError            **error)
{
  const char *columns[CRO_MAP_MOST + 2] = { "id" };
  CroCell cells[CRO_MAP_MOST];
  g_autoptr (GString) key = g_string_new (NULL);
  g_autoptr (GHashTable) met = map->id == CRO_TABLE_PURCHASES ? find_met (self->list) : NULL;
  g_autoptr (CroRows) rows = NULL;
  char day[CRO_DATE_CHARS];
  GError *failed = NULL;

  for (guint i = 0; i < map->n_keys; i++)
    columns[i + 1] = map->columns[i].column;
  cro_date_format (self->list->delivered, day);
  rows = met != NULL
             ? cro_store_read_of_day (self->store, map->table, "supplier", self->supplier, day, columns, error)
             : cro_store_read_of (self->store, map->table, "supplier", self->supplier, columns, error);
  while (rows != NULL && cro_rows_next (rows, &failed))
    {
      gint64 id = cro_rows_get_int (rows, 0);

      if (met != NULL && g_hash_table_contains (met, &id))
        continue;
      cro_rows_get_cells (rows, 1, (int) map->n_keys, cells);
      make_key (key, map, cells);
      add_known (known, key, id);
    }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}

/* Those of the list's own day. */
static gboolean
read_known_prices (Posting            *self,
                   const CroSheetMap  *map,
                   GHashTable         *known,
                   GError            **error)
{
  enum { OFFER, ID, FROM };
  char date[CRO_DATE_CHARS];
  g_autoptr (GString) key = g_string_new (NULL);
  g_autoptr (CroRows) rows = NULL;
  GError *failed = NULL;

  cro_date_format (self->list->from, date);
  rows = cro_store_read_prices (self->store, date, 0, error);
  while (rows != NULL && cro_rows_next (rows, &failed))
    if (g_str_equal (cro_rows_get_text (rows, FROM), date))
      {
        const CroCell cells[] = { CRO_CELL_INT (cro_rows_get_int (rows, OFFER)), CRO_CELL_STR (date) };

        make_key (key, map, cells);
        add_known (known, key, cro_rows_get_int (rows, ID));
      }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}

/* All of the book's: few are ever given. */
static gboolean
read_known_answers (Posting            *self,
                    const CroSheetMap  *map,
                    GHashTable         *known,
                    GError            **error)
{
  static const char *const columns[] = { "id", "offer", "from_date", NULL };
  g_autoptr (GString) key = g_string_new (NULL);
  g_autoptr (CroRows) rows = cro_store_read (self->store, map->table, columns, error);
  GError *failed = NULL;

  while (rows != NULL && cro_rows_next (rows, &failed))
    {
      CroCell cells[2];

      cro_rows_get_cells (rows, 1, 2, cells);
      make_key (key, map, cells);
      add_known (known, key, cro_rows_get_int (rows, 0));
    }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}

/* Reads the rows of the book that those of a list may meet. */
typedef gboolean (*Know) (Posting            *self,
                          const CroSheetMap  *map,
                          GHashTable         *known,
                          GError            **error);

/* The row of the book that one of the list meets; 0: none. What repeats meets one other. */
static gint64
meet (GHashTable        *known,
      GString           *key,
      const CroSheetMap *map,
      const CroCell     *cells)
{
  GArray *ids;
  gint64 id;

  if (g_hash_table_size (known) == 0)
    return 0;
  make_key (key, map, cells);
  ids = g_hash_table_lookup (known, key->str);
  if (ids == NULL || ids->len == 0)
    return 0;
  id = g_array_index (ids, gint64, ids->len - 1);
  if (!map->is_unique)
    g_array_set_size (ids, ids->len - 1);
  return id;
}

/* --- Writing ------------------------------------------------------------------------------------------------ */

typedef struct
{
  Posting           *posting;
  const CroSheetMap *map;
  guint              width;
  Fill               fill;
  Name               name;
  const char        *columns[CRO_MAP_MOST + 1];
  GHashTable        *known;
  GString           *key;
  CroWriter         *writer;

  /* New rows that wait to be written at once. */
  guint              n;
  guint              rows[CRO_WRITER_BLOCK];
  CroCell           *cells;
  CroCellText        texts[CRO_WRITER_BLOCK];
} Table;

static void
take_id (Table  *self,
         guint   row,
         gint64  id)
{
  if (self->map->id == CRO_TABLE_OFFERS)
    self->posting->offers[row] = id;
}

static gboolean
write_block (Table   *self,
             GError **error)
{
  gint64 ids[CRO_WRITER_BLOCK];

  if (self->n == CRO_WRITER_BLOCK && !cro_writer_insert_block (self->writer, self->cells, ids, error))
    return FALSE;
  for (guint i = 0; i < self->n && self->n < CRO_WRITER_BLOCK; i++)
    if (!cro_writer_insert (self->writer, &self->cells[i * self->width], &ids[i], error))
      return FALSE;
  for (guint i = 0; i < self->n; i++)
    take_id (self, self->rows[i], ids[i]);
  self->n = 0;
  return TRUE;
}

/* Where the book has the row already it becomes this one; one without a key is equal. */
static gboolean
write_row (Table          *self,
           guint           row,
           const CroCell  *cells,
           GError        **error)
{
  guint n_keys = self->map->n_keys;
  gint64 id = meet (self->known, self->key, self->map, cells);

  if (id == 0)
    {
      self->rows[self->n++] = row;
      return self->n < CRO_WRITER_BLOCK || write_block (self, error);
    }
  take_id (self, row, id);
  return !self->map->is_unique
         || cro_store_update (self->posting->store, self->map->table, id, self->columns + n_keys, cells + n_keys,
                              error);
}

static gboolean
write_rows (Table   *self,
            GError **error)
{
  Posting *posting = self->posting;

  for (guint i = 0; i < posting->list->rows->len; i++)
    {
      Fields fields = { 0 };
      CroCell *cells = &self->cells[self->n * self->width];

      if (!self->fill (posting, &g_array_index (posting->list->rows, CroListRow, i), fields)
          || !make_cells (posting, i, self->map, fields, cells, &self->texts[self->n]))
        continue;
      self->name (posting, i, cells);
      if (!write_row (self, i, cells, error))
        return FALSE;
    }
  return write_block (self, error);
}

static gboolean
has_row (Posting *self,
         Fill     fill)
{
  Fields fields = { 0 };

  for (guint i = 0; i < self->list->rows->len; i++)
    if (fill (self, &g_array_index (self->list->rows, CroListRow, i), fields))
      return TRUE;
  return FALSE;
}

static const CroSheetMap *
map_of (CroTableId id)
{
  const CroSheetMap *map = cro_sheet_maps;

  while (map->id != id)
    map++;
  return map;
}

static gboolean
write_table (Posting     *self,
             CroTableId   id,
             Fill         fill,
             Name         name,
             Know         know,
             GError     **error)
{
  Table table = { .posting = self, .map = map_of (id), .fill = fill, .name = name };
  gboolean done;

  if (!has_row (self, fill))
    return TRUE;
  table.width = cro_map_width (table.map);
  table.cells = g_new (CroCell, CRO_WRITER_BLOCK * table.width);
  for (guint i = 0; i < table.width; i++)
    table.columns[i] = table.map->columns[i].column;
  table.known = known_new ();
  table.key = g_string_new (NULL);
  table.writer = cro_writer_new (self->store, table.map->table, table.columns, error);
  done = table.writer != NULL && know (self, table.map, table.known, error) && write_rows (&table, error);
  cro_writer_free (table.writer);
  g_free (table.cells);
  g_string_free (table.key, TRUE);
  g_hash_table_unref (table.known);
  return done;
}

static gboolean
write_all (Posting  *self,
           GError  **error)
{
  if (!write_table (self, CRO_TABLE_OFFERS, fill_offer, name_offer, read_known, error)
      || !write_table (self, CRO_TABLE_PRICES, fill_price, name_price, read_known_prices, error)
      || !write_table (self, CRO_TABLE_PRICE_ANSWERS, fill_answer, name_price, read_known_answers, error)
      || !write_table (self, CRO_TABLE_PURCHASES, fill_purchase, name_purchase, read_known, error))
    return FALSE;
  if (cro_faults_get_n (self->faults) == 0)
    return TRUE;
  g_set_error_literal (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_FAULTS, "the list says what no table does");
  return FALSE;
}

static gboolean
has_bare_pack (Posting *self,
               guint32  item)
{
  const CroItem *of = item != CRO_NO_SLOT ? cro_model_item (self->model, item) : NULL;

  for (guint32 i = 0; of != NULL && i < of->n_offers; i++)
    {
      guint32 slot = g_array_index (self->model->offer_order, guint32, of->first_offer + i);
      const CroOfferEntry *entry = cro_model_offer (self->model, slot);

      if (!entry->is_dead && entry->id != 0 && entry->supplier == self->list->supplier && *entry->code == '\0')
        return TRUE;
    }
  return FALSE;
}

/* A supplier has one pack of an ingredient without a code: another is told from it by its size. */
static void
name_packs (Posting *self)
{
  g_autoptr (GHashTable) bare = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);

  for (guint i = 0; i < self->list->rows->len; i++)
    {
      const CroListRow *row = &g_array_index (self->list->rows, CroListRow, i);
      gint64 id;

      if (!row->is_posted || row->offer != CRO_NO_SLOT || row->code != NULL)
        continue;
      id = ingredient_of (self, i);
      if (g_hash_table_add (bare, g_memdup2 (&id, sizeof id)) && !has_bare_pack (self, row->item))
        continue;
      self->codes[i] = cro_pack_to_short_text (&row->pack);
    }
}

gboolean
cro_price_list_write (const CroPriceList *self,
                      CroModel           *model,
                      CroStore           *store,
                      CroFaults          *faults,
                      GError            **error)
{
  g_autofree gint64 *offers = g_new0 (gint64, self->rows->len + 1);
  g_autofree char **codes = g_new0 (char *, self->rows->len + 1);
  Posting posting = { self, model, store, faults, 0, offers, codes };
  gboolean done;

  posting.supplier = g_array_index (model->suppliers, CroSupplier, self->supplier).id;
  for (guint i = 0; i < self->rows->len; i++)
    {
      guint32 offer = g_array_index (self->rows, CroListRow, i).offer;

      if (offer != CRO_NO_SLOT)
        offers[i] = cro_model_offer (model, offer)->id;
    }
  name_packs (&posting);
  done = write_all (&posting, error);
  for (guint i = 0; i < self->rows->len; i++)
    g_free (codes[i]);
  return done;
}

gboolean
cro_price_list_post (const CroPriceList *self,
                     CroModel           *model,
                     const char         *path,
                     const char         *desk,
                     const char         *label,
                     CroLoadGoOn         go_on,
                     gpointer            user_data,
                     CroFaults          *faults,
                     GError            **error)
{
  g_autoptr (CroStore) store = cro_store_open (path, desk, CRO_STORE_WRITE, error);

  if (store == NULL || !cro_store_begin_act (store, label, error))
    return FALSE;
  if (cro_price_list_write (self, model, store, faults, error))
    {
      if (go_on != NULL && !go_on (user_data, 1))
        g_set_error_literal (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_CANCELLED, "cancelled");
      else if (cro_store_end_act (store, NULL, error))
        return TRUE;
    }
  cro_store_cancel_act (store);
  return FALSE;
}
