#include "cro-store-private.h"

#include <string.h>

#define MOST_COLUMNS 32

/* What a column can hold, as the schema declares it: a file may hold anything. */
typedef struct
{
  int     n;
  guint32 texts;    /* a bit for each column that is of text; the others are of integers */
  guint32 required; /* and for each that must be set */
} Shape;

struct _CroRows
{
  CroStore       *store; /* borrowed */
  sqlite3_stmt   *stmt;
  const char     *table; /* borrowed from SQLite or static, for messages */
  Shape           shape;
  guint8          types[MOST_COLUMNS]; /* of the row in hand, SQLite's; as far as shape goes */
  int             n_bad; /* texts of the row in hand that are not sound */
  sqlite3_value **values; /* of the row in hand, in cro_store_read_each; else NULL */
};

/* The type of a pointer that is bound, by which SQLite knows it again. */
#define EACH "CroEach"

typedef struct
{
  CroRows      rows;
  CroStoreRow  row;
  gpointer     user_data;
  GError      *error;
} Each;

static gboolean
read_shape (CroStore           *self,
            const char         *table,
            const char *const  *columns,
            Shape              *shape,
            GError            **error)
{
  *shape = (Shape){ 0 };
  for (; columns[shape->n] != NULL; shape->n++)
    {
      const char *type;
      int         is_required, is_key;

      g_assert (shape->n < MOST_COLUMNS);
      if (sqlite3_table_column_metadata (self->db, "main", table, columns[shape->n], &type, NULL,
                                         &is_required, &is_key, NULL) != SQLITE_OK)
        return cro_sql_fail (self->db, error);
      if (g_strcmp0 (type, "TEXT") == 0)
        shape->texts |= 1u << shape->n;
      if (is_required || is_key)
        shape->required |= 1u << shape->n;
    }
  return TRUE;
}

static CroRows *
rows_new (CroStore           *self,
          const char         *sql,
          const char         *table,
          const char *const  *columns,
          GError            **error)
{
  Shape         shape;
  sqlite3_stmt *stmt;
  CroRows      *rows;

  if (!read_shape (self, table, columns, &shape, error))
    return NULL;
  stmt = cro_store_take (self, sql, error);
  if (stmt == NULL)
    return NULL;
  rows = g_new0 (CroRows, 1);
  rows->store = self;
  rows->stmt = stmt;
  rows->shape = shape;
  rows->table = table;
  return rows;
}

static CroRows *
read_where (CroStore           *self,
            const char         *table,
            const char *const  *columns,
            const char         *tail,
            GError            **error)
{
  g_autoptr(GString) sql = g_string_new ("SELECT ");

  cro_sql_append_names (sql, columns, "");
  g_string_append (sql, " FROM ");
  cro_sql_append_name (sql, table);
  g_string_append (sql, tail);
  return rows_new (self, sql->str, table, columns, error);
}

CroRows *
cro_store_read (CroStore           *self,
                const char         *table,
                const char *const  *columns,
                GError            **error)
{
  g_return_val_if_fail (self != NULL && table != NULL && columns != NULL, NULL);

  return read_where (self, table, columns, " ORDER BY id", error);
}

CroRows *
cro_store_read_one (CroStore           *self,
                    const char         *table,
                    gint64              id,
                    const char *const  *columns,
                    GError            **error)
{
  CroRows *rows;

  g_return_val_if_fail (self != NULL && table != NULL && columns != NULL, NULL);

  rows = read_where (self, table, columns, " WHERE id = ?1", error);
  if (rows != NULL)
    sqlite3_bind_int64 (rows->stmt, 1, id);
  return rows;
}

static CroRows *
read_of (CroStore           *self,
         const char         *table,
         const char         *column,
         gint64              named,
         const char         *behind,
         const char *const  *columns,
         GError            **error)
{
  g_autoptr(GString) tail = g_string_new (" WHERE ");
  CroRows *rows;

  cro_sql_append_name (tail, column);
  g_string_append_printf (tail, " = ?1%s ORDER BY id", behind);
  rows = read_where (self, table, columns, tail->str, error);
  if (rows != NULL)
    sqlite3_bind_int64 (rows->stmt, 1, named);
  return rows;
}

CroRows *
cro_store_read_of (CroStore           *self,
                   const char         *table,
                   const char         *column,
                   gint64              named,
                   const char *const  *columns,
                   GError            **error)
{
  g_return_val_if_fail (self != NULL && table != NULL && column != NULL, NULL);

  return read_of (self, table, column, named, "", columns, error);
}

CroRows *
cro_store_read_of_day (CroStore           *self,
                       const char         *table,
                       const char         *column,
                       gint64              named,
                       const char         *day,
                       const char *const  *columns,
                       GError            **error)
{
  CroRows *rows;

  g_return_val_if_fail (self != NULL && table != NULL && column != NULL && day != NULL, NULL);

  rows = read_of (self, table, column, named, " AND date = ?2", columns, error);
  if (rows != NULL)
    sqlite3_bind_text (rows->stmt, 2, day, -1, SQLITE_TRANSIENT);
  return rows;
}

static CroRows *
read_on (CroStore           *self,
         const char         *sql,
         const char         *table,
         const char *const  *columns,
         const char         *date,
         GError            **error)
{
  CroRows *rows = rows_new (self, sql, table, columns, error);

  if (rows != NULL)
    sqlite3_bind_text (rows->stmt, 1, date, -1, SQLITE_TRANSIENT);
  return rows;
}

#define PRICE_COLUMNS "SELECT price.offer, price.id, price.from_date, price.price_micro," \
                      " price.tax_included_pct_micro, price.pack_count_micro," \
                      " price.pack_size_micro, price.pack_unit FROM "

static const char *const price_columns[] = {
  "offer", "id", "from_date", "price_micro", "tax_included_pct_micro", "pack_count_micro",
  "pack_size_micro", "pack_unit", NULL
};

static const char *const selling_columns[] = {
  "thing", "id", "price_micro", "tax_pct_micro", NULL
};

static const char *const rate_columns[] = {
  "currency", "from_date", "rate_micro", "per_micro", NULL
};

/* One descent of the index per offer, however long its history. */
CroRows *
cro_store_read_prices (CroStore    *self,
                       const char  *date,
                       gint64       offer,
                       GError     **error)
{
  CroRows *rows;

  g_return_val_if_fail (self != NULL && date != NULL, NULL);

  if (offer == 0)
    return read_on (self,
                    PRICE_COLUMNS "offer CROSS JOIN price ON price.id ="
                    " (SELECT id FROM price WHERE offer = offer.id AND from_date <= ?1"
                    " ORDER BY from_date DESC LIMIT 1) ORDER BY offer.id",
                    "price", price_columns, date, error);
  rows = read_on (self,
                  PRICE_COLUMNS "price WHERE offer = ?2 AND from_date <= ?1"
                  " ORDER BY from_date DESC LIMIT 1",
                  "price", price_columns, date, error);
  if (rows != NULL)
    sqlite3_bind_int64 (rows->stmt, 2, offer);
  return rows;
}

CroRows *
cro_store_read_billed_prices (CroStore    *self,
                              const char  *date,
                              GError     **error)
{
  static const char *const columns[] = { "id", NULL };

  g_return_val_if_fail (self != NULL && date != NULL, NULL);

  return read_on (self,
                  "SELECT id FROM price WHERE from_date <= ?1 AND id IN"
                  " (SELECT row FROM change WHERE tbl = 'price' AND before IS NULL AND act IN"
                  " (SELECT act FROM change JOIN purchase ON purchase.id = change.row"
                  " WHERE tbl = 'purchase' AND before IS NULL GROUP BY act"
                  " HAVING count (DISTINCT document) = 1 AND count (document) = count (*)))",
                  "price", columns, date, error);
}

CroRows *
cro_store_read_taxed_prices (CroStore    *self,
                             const char  *date,
                             GError     **error)
{
  static const char *const columns[] = { "offer", "tax_included_pct_micro", NULL };

  g_return_val_if_fail (self != NULL && date != NULL, NULL);

  return read_on (self,
                  "SELECT offer, tax_included_pct_micro FROM price WHERE tax_included_pct_micro > 0"
                  " AND from_date BETWEEN date (?1, '-1 year') AND ?1 ORDER BY from_date",
                  "price", columns, date, error);
}

CroRows *
cro_store_read_last_price (CroStore    *self,
                           const char  *date,
                           gint64       offer,
                           GError     **error)
{
  CroRows *rows;

  g_return_val_if_fail (self != NULL && date != NULL, NULL);

  rows = read_on (self,
                  "SELECT offer, id, from_date, price_micro, tax_included_pct_micro,"
                  " pack_count_micro, pack_size_micro, pack_unit,"
                  " (SELECT min (next.from_date) FROM price AS next WHERE next.offer = price.offer"
                  " AND next.from_date > price.from_date AND next.from_date <= ?1)"
                  " FROM price WHERE offer = ?2 AND from_date <= ?1 AND price_micro IS NOT NULL"
                  " ORDER BY from_date DESC LIMIT 1",
                  "price", price_columns, date, error);
  if (rows != NULL)
    sqlite3_bind_int64 (rows->stmt, 2, offer);
  return rows;
}

CroRows *
cro_store_read_selling_prices (CroStore    *self,
                               const char  *date,
                               GError     **error)
{
  g_return_val_if_fail (self != NULL && date != NULL, NULL);

  return read_on (self,
                  "SELECT thing, id, price_micro, tax_pct_micro FROM selling_price AS newest"
                  " WHERE from_date = (SELECT max (from_date) FROM selling_price"
                  " WHERE thing = newest.thing AND from_date <= ?1)",
                  "selling_price", selling_columns, date, error);
}

CroRows *
cro_store_read_rates (CroStore    *self,
                      const char  *date,
                      GError     **error)
{
  g_return_val_if_fail (self != NULL && date != NULL, NULL);

  return read_on (self,
                  "SELECT currency, from_date, rate_micro, per_micro FROM rate AS newest"
                  " WHERE from_date = (SELECT max (from_date) FROM rate"
                  " WHERE currency = newest.currency AND from_date <= ?1) ORDER BY currency",
                  "rate", rate_columns, date, error);
}

/* --- The row in hand --------------------------------------------------------------------- */

static int
find_type (CroRows *rows,
           int      column)
{
  return rows->values != NULL ? sqlite3_value_type (rows->values[column])
                              : sqlite3_column_type (rows->stmt, column);
}

static inline int
type_of (CroRows *rows,
         int      column)
{
  return column < rows->shape.n ? rows->types[column] : find_type (rows, column);
}

gboolean
cro_rows_is_damaged (CroRows     *rows,
                     int          column,
                     GError     **error)
{
  g_set_error (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED, "a row of %s, its value %d",
               rows->table, column + 1);
  return FALSE;
}

/* STRICT tables refuse another type, and NOT NULL one that is not set: whoever writes the bytes
 * of a file himself is not asked. */
static inline gboolean
check_types (CroRows  *rows,
             GError  **error)
{
  for (int i = 0; i < rows->shape.n; i++)
    {
      int type = find_type (rows, i);
      guint32 bit = 1u << i;

      rows->types[i] = (guint8) type;
      if (G_LIKELY (type == SQLITE_NULL ? (rows->shape.required & bit) == 0
                                        : type == (rows->shape.texts & bit ? SQLITE_TEXT
                                                                           : SQLITE_INTEGER)))
        continue;
      return cro_rows_is_damaged (rows, i, error);
    }
  return TRUE;
}

static gboolean
check_texts (CroRows  *rows,
             GError  **error)
{
  if (G_LIKELY (rows->n_bad == 0))
    return TRUE;
  g_set_error (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED,
               "a row of %s has a text that is not UTF-8", rows->table);
  return FALSE;
}

gboolean
cro_rows_next (CroRows  *rows,
               GError  **error)
{
  int status;

  if (!check_texts (rows, error))
    return FALSE;
  status = sqlite3_step (rows->stmt);
  if (G_LIKELY (status == SQLITE_ROW))
    return check_types (rows, error);
  if (status != SQLITE_DONE)
    cro_sql_fail (rows->store->db, error);
  return FALSE;
}

gboolean
cro_rows_is_null (CroRows *rows,
                  int      column)
{
  return type_of (rows, column) == SQLITE_NULL;
}

gboolean
cro_rows_is_text (CroRows *rows,
                  int      column)
{
  return type_of (rows, column) == SQLITE_TEXT;
}

gint64
cro_rows_get_int (CroRows *rows,
                  int      column)
{
  return rows->values != NULL ? sqlite3_value_int64 (rows->values[column])
                              : sqlite3_column_int64 (rows->stmt, column);
}

/* Eight bytes without a high bit and without a zero are sound text whatever they are. */
gboolean
cro_text_is_sound (const char *text,
                   int         length)
{
  const guint64 high = G_GUINT64_CONSTANT (0x8080808080808080);
  const guint64 ones = G_GUINT64_CONSTANT (0x0101010101010101);
  int           at = 0;

  for (; length - at >= 8; at += 8)
    {
      guint64 bytes;

      memcpy (&bytes, text + at, 8);
      if (((bytes | (bytes - ones)) & high) != 0)
        return g_utf8_validate_len (text + at, (gsize) (length - at), NULL);
    }
  for (; at < length; at++)
    if (text[at] == '\0' || (guchar) text[at] >= 0x80)
      return g_utf8_validate_len (text + at, (gsize) (length - at), NULL);
  return TRUE;
}

#define REPLACEMENT "\357\277\275" /* U+FFFD */

const char *
cro_rows_get_text (CroRows *rows,
                   int      column)
{
  const char *text;
  int         length;

  if (rows->values != NULL)
    {
      text = (const char *) sqlite3_value_text (rows->values[column]);
      length = sqlite3_value_bytes (rows->values[column]);
    }
  else
    {
      text = (const char *) sqlite3_column_text (rows->stmt, column);
      length = sqlite3_column_bytes (rows->stmt, column);
    }
  if (G_LIKELY (text == NULL || cro_text_is_sound (text, length)))
    return text;
  rows->n_bad++;
  return REPLACEMENT;
}

void
cro_rows_get_cells (CroRows *rows,
                    int      first,
                    int      n,
                    CroCell *cells)
{
  for (int i = 0; i < n; i++)
    switch (type_of (rows, first + i))
      {
      case SQLITE_INTEGER:
        cells[i] = CRO_CELL_INT (cro_rows_get_int (rows, first + i));
        break;
      case SQLITE_TEXT:
        cells[i] = (CroCell){ .kind = CRO_CELL_TEXT, .text = cro_rows_get_text (rows, first + i) };
        break;
      default:
        cells[i] = CRO_CELL_NONE;
        break;
      }
}

void
cro_rows_free (CroRows *rows)
{
  if (rows == NULL)
    return;
  cro_store_give (rows->store, rows->stmt);
  g_free (rows);
}

/* --- Each row ---------------------------------------------------------------------------- */

static void
each_step (sqlite3_context  *context,
           int               n_values,
           sqlite3_value   **values)
{
  Each *each = sqlite3_value_pointer (values[0], EACH);

  each->rows.values = values + 1;
  if (!check_types (&each->rows, &each->error)
      || !each->row (&each->rows, each->user_data, &each->error)
      || !check_texts (&each->rows, &each->error))
    sqlite3_result_error (context, "stopped", -1);
}

static void
each_final (sqlite3_context *context)
{
}

gboolean
cro_rows_configure (sqlite3  *db,
                    GError  **error)
{
  return sqlite3_create_function (db, "each", -1, SQLITE_UTF8 | SQLITE_DIRECTONLY, NULL, NULL,
                                  each_step, each_final) == SQLITE_OK ||
         cro_sql_fail (db, error);
}

/* An aggregate function is handed its values as they are, where every sqlite3_column_ call finds
 * its statement and locks it anew: a third of the time that a wide row takes. Without an index a
 * table is scanned by rising id. */
gboolean
cro_store_read_each_of (CroStore           *self,
                        const char         *table,
                        const char *const  *columns,
                        gint64              from,
                        gint64              to,
                        CroStoreRow         row,
                        gpointer            user_data,
                        GError            **error)
{
  g_autoptr(GString) sql = g_string_new ("SELECT each (?1, ");
  Each               each = { .rows = { .store = self, .table = table }, .row = row,
                              .user_data = user_data };
  sqlite3_stmt      *stmt;
  gboolean           done;

  g_return_val_if_fail (self != NULL && table != NULL && columns != NULL, FALSE);

  if (!read_shape (self, table, columns, &each.rows.shape, error))
    return FALSE;
  cro_sql_append_names (sql, columns, "");
  g_string_append (sql, ") FROM ");
  cro_sql_append_name (sql, table);
  g_string_append (sql, " NOT INDEXED WHERE id >= ?2");
  if (to < G_MAXINT64)
    g_string_append (sql, " AND id <= ?3");
  stmt = cro_store_take (self, sql->str, error);
  if (stmt == NULL)
    return FALSE;
  sqlite3_bind_pointer (stmt, 1, &each, EACH, NULL);
  sqlite3_bind_int64 (stmt, 2, from);
  if (to < G_MAXINT64)
    sqlite3_bind_int64 (stmt, 3, to);
  done = sqlite3_step (stmt) == SQLITE_ROW;
  if (each.error != NULL)
    g_propagate_error (error, each.error);
  else if (!done)
    cro_sql_fail (self->db, error);
  cro_store_give (self, stmt);
  return done;
}

gboolean
cro_store_read_each (CroStore           *self,
                     const char         *table,
                     const char *const  *columns,
                     CroStoreRow         row,
                     gpointer            user_data,
                     GError            **error)
{
  return cro_store_read_each_of (self, table, columns, G_MININT64, G_MAXINT64, row, user_data,
                                 error);
}
