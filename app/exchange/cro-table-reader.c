/* One pass over a file, a physical line at a time: libcsv does not count lines, and a line is also
 * where reading starts again after a fault of quoting. No more of it is in memory than a row needs. */
#include "cro-table-reader-private.h"

#include "cro-name.h"

#include <string.h>

void
cro_table_reader_add_fault (CroTableReader *self,
                            const char     *column,
                            CroFaultKind    kind,
                            const char     *value,
                            const char     *detail)
{
  cro_faults_add (self->faults, self->file, self->row_line, column, kind, value, detail);
}

static const CroTableCell *
get_cell (CroTableReader *self,
          guint           index)
{
  return &g_array_index (self->cells, CroTableCell, index);
}

static gboolean
check_utf8 (CroTableReader *self,
            const char     *column,
            const char     *text,
            gsize           length)
{
  const char *bad;
  g_autofree char *shown = NULL;
  char byte[5];

  if (self->is_plain || g_utf8_validate_len (text, length, &bad))
    return TRUE;
  shown = g_utf8_make_valid (text, (gssize) length);
  g_snprintf (byte, sizeof byte, "0x%02X", (guint) (guchar) *bad);
  cro_table_reader_add_fault (self, column != NULL ? column : shown, CRO_FAULT_NOT_UTF8, shown,
                              byte);
  return FALSE;
}

/* -1: the table has no such column. */
static int
find_column (const CroTable *table,
             const char     *name)
{
  for (guint i = 0; i < table->n_columns; i++)
    if (g_str_equal (table->columns[i].name, name))
      return (int) i;
  return -1;
}

static void
place_column (CroTableReader *self,
              guint           index)
{
  const CroTableCell *cell = get_cell (self, index);
  const char *name = self->text + cell->start;
  int column;

  g_ptr_array_add (self->header, g_utf8_make_valid (name, (gssize) cell->length));
  if (!check_utf8 (self, NULL, name, cell->length))
    return;

  column = find_column (self->table, name);
  if (column < 0)
    cro_table_reader_add_fault (self, name, CRO_FAULT_UNKNOWN_COLUMN, NULL, NULL);
  else if (self->cell_of[column] >= 0)
    cro_table_reader_add_fault (self, name, CRO_FAULT_DOUBLE_COLUMN, NULL, NULL);
  else
    self->cell_of[column] = (int) index;
}

static gboolean
has_key (const CroTable *table)
{
  for (guint i = 0; i < table->n_columns; i++)
    if (table->columns[i].key)
      return TRUE;
  return FALSE;
}

void
cro_table_reader_check_required (CroTableReader *self)
{
  gboolean is_of_key_alone = self->is_partial && has_key (self->table);

  self->complete = TRUE;
  for (guint i = 0; i < self->table->n_columns; i++)
    if (self->table->columns[i].required && self->cell_of[i] < 0
        && (self->table->columns[i].key || !is_of_key_alone))
      {
        cro_table_reader_add_fault (self, self->table->columns[i].name, CRO_FAULT_MISSING_COLUMN,
                                    NULL, NULL);
        self->complete = FALSE;
      }
}

static void
read_header (CroTableReader *self)
{
  self->has_header = TRUE;
  self->n_header = self->n_cells;
  for (guint i = 0; i < self->n_header; i++)
    place_column (self, i);
  cro_table_reader_check_required (self);
}

static const char *
tidy_name (CroTableReader *self,
           guint           column,
           char           *text,
           gsize           length)
{
  text = cro_name_trim (text, length);
  if (self->is_plain || cro_name_is_composed (text))
    return text;
  g_free (self->composed[column]);
  self->composed[column] = g_utf8_normalize (text, -1, G_NORMALIZE_NFC);
  return self->composed[column];
}

static gboolean
read_field (CroTableReader     *self,
            guint               index,
            const CroTableCell *cell,
            gboolean            silent)
{
  const CroColumn *column = &self->table->columns[index];
  CroField *field = &self->fields[index];
  char *written = self->text + cell->start;
  const char *text = written;
  g_autofree char *detail = NULL;
  CroFaultKind kind;

  if (!check_utf8 (self, column->name, text, cell->length))
    {
      *field = (CroField) { .number = column->fallback };
      return FALSE;
    }
  if (column->kind == CRO_FIELD_NAME)
    text = tidy_name (self, index, written, cell->length);
  if (cro_table_parse_field (column, text, field, &kind, &detail))
    return TRUE;
  if (!silent)
    cro_table_reader_add_fault (self, column->name, kind, *text != '\0' ? text : NULL, detail);
  return FALSE;
}

/* Where the count of fields is wrong, one of them has split or is left out, and nobody knows
 * which: what can be read is passed on, but what cannot is no fault of its own. */
static gboolean
check_count (CroTableReader *self)
{
  char n_row[16], n_header[16];

  if (self->n_cells == self->n_header)
    return TRUE;
  g_snprintf (n_row, sizeof n_row, "%u", self->n_cells);
  g_snprintf (n_header, sizeof n_header, "%u", self->n_header);
  cro_table_reader_add_fault (self, NULL, CRO_FAULT_FIELD_COUNT, n_row, n_header);
  return FALSE;
}

static void
read_row (CroTableReader *self,
          gboolean        whole)
{
  gboolean sound = self->complete && whole;

  for (guint i = 0; i < self->table->n_columns; i++)
    {
      int cell = self->cell_of[i];

      if (cell >= 0 && (guint) cell < self->n_cells)
        sound &= read_field (self, i, get_cell (self, (guint) cell), !whole);
      else
        self->fields[i] = (CroField) { .number = self->table->columns[i].fallback,
                                       .is_absent = cell < 0 };
    }
  if (!self->row (self->row_line, self->fields, sound, self->user_data))
    self->stopped = TRUE;
}

static void
field_cb (void   *data,
          size_t  length,
          void   *user_data)
{
  CroTableReader *self = user_data;
  CroTableCell cell = { self->text_length, length };

  self->n_cells++;
  if (self->has_header && self->n_cells > self->n_header)
    return;

  if (self->text_size - self->text_length <= length)
    {
      self->text_size = MAX (2 * self->text_size, self->text_length + length + 1);
      self->text = g_realloc (self->text, self->text_size);
    }
  memcpy (self->text + cell.start, data, length);
  self->text[cell.start + length] = '\0';
  self->text_length += length + 1;
  g_array_append_val (self->cells, cell);
}

void
cro_table_reader_clear_row (CroTableReader *self)
{
  self->in_row = FALSE;
  self->n_cells = 0;
  self->text_length = 0;
  g_array_set_size (self->cells, 0);
}

static void
row_cb (int   terminator,
        void *user_data)
{
  CroTableReader *self = user_data;

  if (self->has_header)
    read_row (self, check_count (self));
  else
    read_header (self);
  cro_table_reader_clear_row (self);
}

/* By default libcsv trims fields. */
static int
no_space (unsigned char byte)
{
  return 0;
}

void
cro_table_reader_init (CroTableReader *self)
{
  csv_init (&self->parser, CSV_STRICT | CSV_STRICT_FINI);
  csv_set_space_func (&self->parser, no_space);
  csv_set_realloc_func (&self->parser, g_realloc);
  csv_set_free_func (&self->parser, g_free);
}

/* Nothing more of the file has a meaning. */
void
cro_table_reader_leave_rest (CroTableReader *self)
{
  self->at = self->end;
  self->has_ended = TRUE;
  /* It has no header because of that, and not for want of columns. */
  self->has_header = TRUE;
}

/* The row's first line is where the mistake is, even if a quote left open there has swallowed
 * the lines below up to the next quote; so these are read again as rows. They hold only quotes
 * in pairs, which is why no line is read more than a few times. */
static void
recover (CroTableReader *self)
{
  const char *column = NULL;

  if (self->n_cells < self->header->len)
    column = g_ptr_array_index (self->header, self->n_cells);
  cro_table_reader_add_fault (self, column, CRO_FAULT_QUOTES, NULL, NULL);
  if (self->has_header)
    read_row (self, FALSE);
  cro_table_reader_clear_row (self);
  csv_free (&self->parser);
  cro_table_reader_init (self);
  self->at = self->row_rest;
  self->line = self->row_line + 1;
  if (!self->has_header)
    cro_table_reader_leave_rest (self);
}

/* LF, CRLF or CR. */
const char *
cro_table_reader_end_of_line (const char *at,
                              const char *end)
{
  const char *feed = memchr (at, '\n', (gsize) (end - at));
  const char *stop = feed != NULL ? feed : end;
  const char *carriage_return = memchr (at, '\r', (gsize) (stop - at));

  if (carriage_return != NULL && (feed == NULL || carriage_return + 1 < feed))
    return carriage_return + 1;
  return feed != NULL ? feed + 1 : end;
}

/* TRUE if all bytes are 1 to 127: of eight such bytes none has its high bit set, and taking 1
 * from each borrows from none. */
static gboolean
is_plain (const char *at,
          const char *end)
{
  const guint64 high = G_GUINT64_CONSTANT (0x8080808080808080);
  const guint64 ones = G_GUINT64_CONSTANT (0x0101010101010101);

  for (; end - at >= 8; at += 8)
    {
      guint64 bytes;

      memcpy (&bytes, at, 8);
      if (((bytes | (bytes - ones)) & high) != 0)
        return FALSE;
    }
  for (; at < end; at++)
    if (*at == '\0' || (guchar) *at >= 0x80)
      return FALSE;
  return TRUE;
}

static void
begin_row (CroTableReader *self,
           const char     *end_of_first_line)
{
  self->in_row = TRUE;
  self->is_plain = TRUE;
  self->row_line = self->line;
  self->row_rest = end_of_first_line;
}

/* A row without quotes is one line cut at its commas. Nearly all are: libcsv looks at every byte. */
static void
split_line (CroTableReader *self,
            const char     *line,
            const char     *end)
{
  const char *comma;

  while (end[-1] == '\n' || end[-1] == '\r')
    end--;
  while ((comma = memchr (line, ',', (gsize) (end - line))) != NULL)
    {
      field_cb ((void *) line, (gsize) (comma - line), self);
      line = comma + 1;
    }
  field_cb ((void *) line, (gsize) (end - line), self);
  self->line++;
  row_cb (0, self);
}

void
cro_table_reader_read_line (CroTableReader *self)
{
  const char *line = self->at;
  const char *end = cro_table_reader_end_of_line (line, self->end);
  gsize length = (gsize) (end - line);
  gboolean is_first;

  self->at = end;
  if (!self->in_row && (*line == '\n' || *line == '\r'))
    {
      self->line++;
      return;
    }
  is_first = !self->in_row;
  if (is_first)
    begin_row (self, end);
  self->is_plain = self->is_plain && is_plain (line, end);
  if (is_first && memchr (line, '"', length) == NULL)
    {
      split_line (self, line, end);
      return;
    }
  if (csv_parse (&self->parser, line, length, field_cb, row_cb, self) == length)
    self->line++;
  else
    recover (self);
}

void
cro_table_reader_end (CroTableReader *self)
{
  if (csv_fini (&self->parser, field_cb, row_cb, self) != 0)
    recover (self);
}
