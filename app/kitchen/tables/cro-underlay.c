#include "cro-underlay.h"

#include "cro-date.h"
#include "cro-dump.h"
#include "cro-sheet-pictures.h"

struct _CroUnderlay
{
  gboolean      again;
  GStringChunk *text;
  GArray       *rows[CRO_N_TABLES];     /* CroField, n_columns a row */
  GArray       *passed_over;
  GHashTable   *pictures;               /* names, in text */
};

/* --- Rows of the book --------------------------------------------------------------------------- */

/* A month is looked up by its text, as names are. */
static const char *
month_text (CroUnderlay    *self,
            const CroField *field)
{
  char text[CRO_DATE_CHARS];

  cro_date_format ((CroDate) field->number, text);
  text[7] = '\0';
  return g_string_chunk_insert_const (self->text, text);
}

static gboolean
keep_table (CroTableId       id,
            const CroField  *fields,
            guint            n,
            gpointer         user_data,
            GError         **error)
{
  CroUnderlay *self = user_data;
  const CroTable *table = cro_table_get (id);

  for (gsize i = 0; i < (gsize) n * table->n_columns; i++)
    {
      const CroColumn *column = &table->columns[i % table->n_columns];
      CroField field = fields[i];

      if (!field.is_set)
        field = (CroField){ .number = column->fallback };
      else if (column->kind == CRO_FIELD_MONTH)
        field.text = month_text (self, &field);
      else if (field.text != NULL)
        field.text = g_string_chunk_insert_const (self->text, field.text);
      if (field.is_set && (int) (i % table->n_columns) == cro_sheet_picture_column (id))
        g_hash_table_add (self->pictures, (gpointer) field.text);
      g_array_append_val (self->rows[id], field);
    }
  return TRUE;
}

CroUnderlay *
cro_underlay_new (CroStore  *store,
                  gboolean   again,
                  GError   **error)
{
  g_autoptr (CroUnderlay) self = g_new0 (CroUnderlay, 1);

  self->again = again;
  self->text = g_string_chunk_new (65536);
  self->passed_over = g_array_new (FALSE, FALSE, sizeof (CroPassedOver));
  self->pictures = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint id = 0; id < CRO_N_TABLES; id++)
    self->rows[id] = g_array_new (FALSE, FALSE, sizeof (CroField));
  return cro_dump_each (store, keep_table, self, error) ? g_steal_pointer (&self) : NULL;
}

void
cro_underlay_free (CroUnderlay *self)
{
  for (guint id = 0; id < CRO_N_TABLES; id++)
    g_array_unref (self->rows[id]);
  g_array_unref (self->passed_over);
  g_hash_table_unref (self->pictures);
  g_string_chunk_free (self->text);
  g_free (self);
}

GArray *
cro_underlay_get_passed_over (CroUnderlay *self)
{
  return self->passed_over;
}

gboolean
cro_underlay_has_picture (CroUnderlay *self,
                          const char  *name)
{
  return g_hash_table_contains (self->pictures, name);
}

/* --- Keys ----------------------------------------------------------------------------------------- */

static gboolean
is_keyed (const CroTable *table)
{
  for (guint i = 0; i < table->n_columns; i++)
    if (table->columns[i].key)
      return TRUE;
  return FALSE;
}

static void
append_field (GString         *key,
              const CroColumn *column,
              const CroField  *field,
              gboolean         is_keyed)
{
  /* Rows without a key are equal where what is not set is the default. */
  gboolean is_set = field->is_set || (!is_keyed && column->kind == CRO_FIELD_CHOICE);

  if (is_set && (column->kind == CRO_FIELD_NAME || column->kind == CRO_FIELD_TEXT
                 || column->kind == CRO_FIELD_CURRENCY))
    g_string_append (key, field->text);
  else if (is_set)
    g_string_append_printf (key, "%" G_GINT64_FORMAT, field->number);
  else
    g_string_append_c (key, '\x1e');
  g_string_append_c (key, '\x1f');
}

/* What rows meet by: the key, or all of a row that has none. */
static char *
key_of (const CroTable *table,
        const CroField *fields)
{
  gboolean keyed = is_keyed (table);
  GString *key = g_string_new (NULL);

  for (guint i = 0; i < table->n_columns; i++)
    if (table->columns[i].key == keyed)
      append_field (key, &table->columns[i], &fields[i], keyed);
  return g_string_free (key, FALSE);
}

/* --- One table ------------------------------------------------------------------------------------ */

typedef struct
{
  CroUnderlay    *underlay;
  CroSheetReader *reader;
  const CroTable *table;
  gboolean        is_keyed;
  GHashTable     *beneath;    /* key → GArray of rows of the book not yet met */
  GHashTable     *met;        /* rows of the book that the folder changes, by number + 1 */
} Merge;

static const CroField *
row_at (const Merge *self,
        guint        row)
{
  return &g_array_index (self->underlay->rows[self->reader->id], CroField,
                         (gsize) row * self->table->n_columns);
}

static guint
n_rows (const Merge *self)
{
  return self->underlay->rows[self->reader->id]->len / self->table->n_columns;
}

static void
index_rows (Merge *self)
{
  for (guint row = 0; row < n_rows (self); row++)
    {
      g_autofree char *key = key_of (self->table, row_at (self, row));
      GArray *rows = g_hash_table_lookup (self->beneath, key);

      if (rows == NULL)
        {
          rows = g_array_new (FALSE, FALSE, sizeof (guint));
          g_hash_table_insert (self->beneath, g_steal_pointer (&key), rows);
        }
      g_array_append_val (rows, row);
    }
}

/* The row of the book that a row of the folder meets; -1: none. A row without a key meets one
 * other, which two rows of the folder cannot meet both. */
static int
find_beneath (Merge          *self,
              const CroField *fields)
{
  g_autofree char *key = key_of (self->table, fields);
  GArray *rows = g_hash_table_lookup (self->beneath, key);
  guint row;

  if (rows == NULL || rows->len == 0)
    return -1;
  row = g_array_index (rows, guint, rows->len - 1);
  if (!self->is_keyed)
    g_array_set_size (rows, rows->len - 1);
  return (int) row;
}

/* What a new row needs has to be there. */
static void
check_new (Merge          *self,
           guint           line,
           const CroField *fields)
{
  for (guint i = 0; i < self->table->n_columns; i++)
    if (self->table->columns[i].required && fields[i].is_absent && !self->table->columns[i].key)
      cro_sheet_fault (self->reader, line, (int) i, CRO_FAULT_MISSING_VALUE, NULL, NULL);
}

static gboolean
take_keyed (Merge          *self,
            guint           line,
            const CroField *fields,
            gboolean        sound)
{
  CroField merged[CRO_MAX_COLUMNS];
  int row = find_beneath (self, fields);

  if (row < 0)
    {
      check_new (self, line, fields);
      return cro_sheet_take_row (line, fields, sound, self->reader);
    }
  g_hash_table_add (self->met, GUINT_TO_POINTER ((guint) row + 1));
  for (guint i = 0; i < self->table->n_columns; i++)
    merged[i] = fields[i].is_absent ? row_at (self, (guint) row)[i] : fields[i];
  return cro_sheet_take_row (line, merged, sound, self->reader);
}

static gboolean
take_row (guint           line,
          const CroField *fields,
          gboolean        sound,
          gpointer        user_data)
{
  Merge *self = user_data;
  CroPassedOver passed_over = { self->reader->id, line };

  if (self->is_keyed)
    return take_keyed (self, line, fields, sound);
  if (self->underlay->again || !sound || find_beneath (self, fields) < 0)
    return cro_sheet_take_row (line, fields, sound, self->reader);
  g_array_append_val (self->underlay->passed_over, passed_over);
  return TRUE;
}

static gboolean
take_the_rest (Merge *self)
{
  for (guint row = 0; row < n_rows (self); row++)
    if (!g_hash_table_contains (self->met, GUINT_TO_POINTER (row + 1))
        && !cro_sheet_take_row (0, row_at (self, row), TRUE, self->reader))
      return FALSE;
  return TRUE;
}

gboolean
cro_underlay_read (CroUnderlay     *underlay,
                   CroSheetReader  *reader,
                   const char      *folder,
                   GError         **error)
{
  const CroTable *table = cro_table_get (reader->id);
  Merge self = { underlay, reader, table, is_keyed (table), NULL, NULL };
  gboolean done;

  self.beneath = g_hash_table_new_full (g_str_hash, g_str_equal, g_free,
                                        (GDestroyNotify) g_array_unref);
  self.met = g_hash_table_new (NULL, NULL);
  index_rows (&self);
  done = cro_table_read_partial (folder, reader->id, take_row, &self, reader->faults, error)
         && take_the_rest (&self);
  g_hash_table_unref (self.beneath);
  g_hash_table_unref (self.met);
  return done;
}
