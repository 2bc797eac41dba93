/* One pass over a file, a physical line at a time: libcsv does not count lines, and a line is also
 * where reading starts again after a fault of quoting. No more of it is in memory than a row needs. */
#include "cro-table.h"

#include "cro-column.h"
#include "cro-name.h"
#include "cro-plain-file.h"

#include <csv.h>
#include <errno.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

/* Bytes read at a time, and the most that a row may have: longer than any note. */
#define CHUNK (256 * 1024)
#define LONGEST_ROW (1024 * 1024)

typedef struct
{
  gsize start;
  gsize length;
} Cell;

typedef struct
{
  const CroTable    *table;
  char              *file;
  CroRowFunc         row;
  gpointer           user_data;
  CroFaults         *faults;

  int                source;
  int                failed;    /* errno of reading it */
  gboolean           has_ended;
  char              *buffer;    /* of the file, from the row in hand on */
  gsize              buffer_size;
  const char        *at;        /* the next physical line */
  const char        *end;
  guint              line;      /* its number */
  const char        *row_rest;  /* what follows the first line of the open row */
  guint              row_line;  /* the number of that first line */
  gboolean           in_row;
  gboolean           is_plain;  /* the row holds no byte but 1 to 127 so far */
  gboolean           stopped;
  gboolean           is_partial; /* absent columns are no fault, but those of the key */

  struct csv_parser  parser;
  char              *text;      /* the fields of the row, each with a NUL */
  gsize              text_size;
  gsize              text_length;
  GArray            *cells;     /* of Cell: no more than the header has */
  guint              n_cells;   /* in the row, kept or not */

  gboolean           has_header;
  gboolean           complete;  /* the header has all required columns */
  guint              n_header;
  GPtrArray         *header;    /* its texts as written */
  int                cell_of[CRO_MAX_COLUMNS];  /* -1: not in the file */
  CroField           fields[CRO_MAX_COLUMNS];
  char              *composed[CRO_MAX_COLUMNS]; /* names that were not in NFC */
} Reader;

static void
add_fault (Reader       *self,
           const char   *column,
           CroFaultKind  kind,
           const char   *value,
           const char   *detail)
{
  cro_faults_add (self->faults, self->file, self->row_line, column, kind, value, detail);
}

static const Cell *
get_cell (Reader *self,
          guint   index)
{
  return &g_array_index (self->cells, Cell, index);
}

static gboolean
check_utf8 (Reader     *self,
            const char *column,
            const char *text,
            gsize       length)
{
  const char *bad;
  g_autofree char *shown = NULL;
  char byte[5];

  if (self->is_plain || g_utf8_validate_len (text, length, &bad))
    return TRUE;
  shown = g_utf8_make_valid (text, (gssize) length);
  g_snprintf (byte, sizeof byte, "0x%02X", (guint) (guchar) *bad);
  add_fault (self, column != NULL ? column : shown, CRO_FAULT_NOT_UTF8, shown, byte);
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
place_column (Reader *self,
              guint   index)
{
  const Cell *cell = get_cell (self, index);
  const char *name = self->text + cell->start;
  int column;

  g_ptr_array_add (self->header, g_utf8_make_valid (name, (gssize) cell->length));
  if (!check_utf8 (self, NULL, name, cell->length))
    return;

  column = find_column (self->table, name);
  if (column < 0)
    add_fault (self, name, CRO_FAULT_UNKNOWN_COLUMN, NULL, NULL);
  else if (self->cell_of[column] >= 0)
    add_fault (self, name, CRO_FAULT_DOUBLE_COLUMN, NULL, NULL);
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

static void
check_required (Reader *self)
{
  gboolean is_of_key_alone = self->is_partial && has_key (self->table);

  self->complete = TRUE;
  for (guint i = 0; i < self->table->n_columns; i++)
    if (self->table->columns[i].required && self->cell_of[i] < 0
        && (self->table->columns[i].key || !is_of_key_alone))
      {
        add_fault (self, self->table->columns[i].name, CRO_FAULT_MISSING_COLUMN, NULL, NULL);
        self->complete = FALSE;
      }
}

static void
read_header (Reader *self)
{
  self->has_header = TRUE;
  self->n_header = self->n_cells;
  for (guint i = 0; i < self->n_header; i++)
    place_column (self, i);
  check_required (self);
}

static const char *
tidy_name (Reader *self,
           guint   column,
           char   *text,
           gsize   length)
{
  text = cro_name_trim (text, length);
  if (self->is_plain || cro_name_is_composed (text))
    return text;
  g_free (self->composed[column]);
  self->composed[column] = g_utf8_normalize (text, -1, G_NORMALIZE_NFC);
  return self->composed[column];
}

static gboolean
read_field (Reader     *self,
            guint       index,
            const Cell *cell,
            gboolean    silent)
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
    add_fault (self, column->name, kind, *text != '\0' ? text : NULL, detail);
  return FALSE;
}

/* Where the count of fields is wrong, one of them has split or is left out, and nobody knows
 * which: what can be read is passed on, but what cannot is no fault of its own. */
static gboolean
check_count (Reader *self)
{
  char n_row[16], n_header[16];

  if (self->n_cells == self->n_header)
    return TRUE;
  g_snprintf (n_row, sizeof n_row, "%u", self->n_cells);
  g_snprintf (n_header, sizeof n_header, "%u", self->n_header);
  add_fault (self, NULL, CRO_FAULT_FIELD_COUNT, n_row, n_header);
  return FALSE;
}

static void
read_row (Reader   *self,
          gboolean  whole)
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
  Reader *self = user_data;
  Cell cell = { self->text_length, length };

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

static void
clear_row (Reader *self)
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
  Reader *self = user_data;

  if (self->has_header)
    read_row (self, check_count (self));
  else
    read_header (self);
  clear_row (self);
}

/* By default libcsv trims fields. */
static int
no_space (unsigned char byte)
{
  return 0;
}

static void
init_parser (Reader *self)
{
  csv_init (&self->parser, CSV_STRICT | CSV_STRICT_FINI);
  csv_set_space_func (&self->parser, no_space);
  csv_set_realloc_func (&self->parser, g_realloc);
  csv_set_free_func (&self->parser, g_free);
}

/* Nothing more of the file has a meaning. */
static void
leave_rest (Reader *self)
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
recover (Reader *self)
{
  const char *column = NULL;

  if (self->n_cells < self->header->len)
    column = g_ptr_array_index (self->header, self->n_cells);
  add_fault (self, column, CRO_FAULT_QUOTES, NULL, NULL);
  if (self->has_header)
    read_row (self, FALSE);
  clear_row (self);
  csv_free (&self->parser);
  init_parser (self);
  self->at = self->row_rest;
  self->line = self->row_line + 1;
  if (!self->has_header)
    leave_rest (self);
}

/* LF, CRLF or CR. */
static const char *
end_of_line (const char *at,
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
begin_row (Reader     *self,
           const char *end_of_first_line)
{
  self->in_row = TRUE;
  self->is_plain = TRUE;
  self->row_line = self->line;
  self->row_rest = end_of_first_line;
}

/* A row without quotes is one line cut at its commas. Nearly all are: libcsv looks at every byte. */
static void
split_line (Reader     *self,
            const char *line,
            const char *end)
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

static void
read_line (Reader *self)
{
  const char *line = self->at;
  const char *end = end_of_line (line, self->end);
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

/* --- The file ------------------------------------------------------------------------------------ */

/* What the open row may be read from again stays; the rest makes room. */
static void
make_room (Reader *self)
{
  const char *keep = self->in_row ? self->row_rest : self->at;
  gsize kept = (gsize) (self->end - keep);
  gsize at = (gsize) (self->at - keep);

  if (self->buffer_size < kept + CHUNK)
    {
      char *larger = g_malloc (kept + CHUNK);

      if (kept > 0)
        memcpy (larger, keep, kept);
      g_free (self->buffer);
      self->buffer = larger;
      self->buffer_size = kept + CHUNK;
    }
  else
    memmove (self->buffer, keep, kept);
  self->row_rest = self->buffer;
  self->at = self->buffer + at;
  self->end = self->buffer + kept;
}

static void
read_more (Reader *self)
{
  gssize n;

  make_room (self);
  do
    n = read (self->source, self->buffer + (self->end - self->buffer), CHUNK);
  while (n < 0 && errno == EINTR);
  if (n > 0)
    self->end += n;
  else
    self->has_ended = TRUE;
  if (n < 0)
    self->failed = errno;
}

/* A carriage return that ends what was read may be the first half of the end of a line. */
static gboolean
has_whole_line (Reader *self)
{
  return self->at < self->end
         && (end_of_line (self->at, self->end) < self->end || self->end[-1] == '\n');
}

static gboolean
is_too_long (Reader *self)
{
  return self->end - (self->in_row ? self->row_rest : self->at) > LONGEST_ROW;
}

static void
refuse_row (Reader *self)
{
  if (!self->in_row)
    self->row_line = self->line;
  add_fault (self, NULL, CRO_FAULT_TOO_LONG, NULL, NULL);
  clear_row (self);
  leave_rest (self);
}

static void
fetch_line (Reader *self)
{
  while (!self->has_ended && !has_whole_line (self))
    if (is_too_long (self))
      refuse_row (self);
    else
      read_more (self);
}

static void
skip_mark (Reader *self)
{
  if (self->end - self->at >= 3 && memcmp (self->at, "\xEF\xBB\xBF", 3) == 0)
    self->at += 3;
}

/* One fault of the file: what follows from it would be told for every column and row. */
static void
refuse_file (Reader       *self,
             CroFaultKind  kind,
             const char   *detail)
{
  self->row_line = 1;
  add_fault (self, NULL, kind, NULL, detail);
  leave_rest (self);
}

static gsize
count (const char *at,
       const char *end,
       char        byte)
{
  gsize n = 0;

  for (; at < end; at++)
    n += *at == byte;
  return n;
}

/* No column has a semicolon or a tab in its name. */
static void
check_commas (Reader *self)
{
  const char *end = end_of_line (self->at, self->end);
  gsize commas = count (self->at, end, ',');

  if (count (self->at, end, ';') > commas)
    refuse_file (self, CRO_FAULT_NOT_COMMAS, ";");
  else if (count (self->at, end, '\t') > commas)
    refuse_file (self, CRO_FAULT_NOT_COMMAS, "tab");
}

/* By its mark; without one a NUL stands beside the first letter. */
static gboolean
is_utf16 (Reader *self)
{
  return self->end - self->at >= 2
         && (memcmp (self->at, "\xFF\xFE", 2) == 0 || memcmp (self->at, "\xFE\xFF", 2) == 0
             || (self->at[0] == '\0') != (self->at[1] == '\0'));
}

static void
read_all (Reader *self)
{
  read_more (self);
  skip_mark (self);
  if (is_utf16 (self))
    refuse_file (self, CRO_FAULT_UTF16, NULL);
  else if (self->at < self->end)
    check_commas (self);
  for (fetch_line (self); !self->stopped && (self->at < self->end || self->in_row);
       fetch_line (self))
    if (self->at < self->end)
      read_line (self);
    else if (csv_fini (&self->parser, field_cb, row_cb, self) != 0)
      recover (self);

  if (!self->has_header)
    {
      self->row_line = 1;
      check_required (self);
    }
}

static gboolean
read_source (CroTableId   id,
             gboolean     is_partial,
             int          source,
             CroRowFunc   row,
             gpointer     user_data,
             CroFaults   *faults,
             GError     **error)
{
  Reader self = {
    .table = cro_table_get (id),
    .is_partial = is_partial,
    .row = row,
    .user_data = user_data,
    .faults = faults,
    .source = source,
    .line = 1,
    .cells = g_array_new (FALSE, FALSE, sizeof (Cell)),
    .header = g_ptr_array_new_with_free_func (g_free),
  };

  self.file = g_strconcat (self.table->name, ".csv", NULL);
  for (guint i = 0; i < CRO_MAX_COLUMNS; i++)
    self.cell_of[i] = -1;
  init_parser (&self);

  read_all (&self);

  if (self.failed != 0)
    g_set_error (error, G_FILE_ERROR, (int) g_file_error_from_errno (self.failed), "%s: %s",
                 self.file, g_strerror (self.failed));
  csv_free (&self.parser);
  for (guint i = 0; i < CRO_MAX_COLUMNS; i++)
    g_free (self.composed[i]);
  g_ptr_array_unref (self.header);
  g_array_unref (self.cells);
  g_free (self.text);
  g_free (self.buffer);
  g_free (self.file);
  return !self.stopped && self.failed == 0;
}

/* An absent table is empty, but only in a folder that is there. */
static gboolean
is_absent (const char *folder,
           const char *path)
{
  GStatBuf info;

  return g_file_test (folder, G_FILE_TEST_IS_DIR) && g_lstat (path, &info) != 0 && errno == ENOENT;
}

/* What is no file is a fault of the tables, like what is no table. */
static gboolean
open_failed (const char  *file,
             GError      *failed,
             CroFaults   *faults,
             GError     **error)
{
  gboolean is_no_file = g_error_matches (failed, G_FILE_ERROR, G_FILE_ERROR_ISDIR)
                        || g_error_matches (failed, G_FILE_ERROR, G_FILE_ERROR_INVAL);

  if (is_no_file)
    cro_faults_add (faults, file, 0, NULL, CRO_FAULT_NOT_A_FILE, NULL, NULL);
  else
    g_set_error (error, G_FILE_ERROR, failed->code, "%s: %s", file, failed->message);
  g_error_free (failed);
  return is_no_file;
}

gboolean
cro_table_is_absent (const char *folder,
                     CroTableId  id)
{
  g_autofree char *file = g_strconcat (cro_table_get (id)->name, ".csv", NULL);
  g_autofree char *path = g_build_filename (folder, file, NULL);

  return is_absent (folder, path);
}

static gboolean
read_file (const char  *folder,
           CroTableId   id,
           gboolean     is_partial,
           CroRowFunc   row,
           gpointer     user_data,
           CroFaults   *faults,
           GError     **error)
{
  g_autofree char *file = g_strconcat (cro_table_get (id)->name, ".csv", NULL);
  g_autofree char *path = g_build_filename (folder, file, NULL);
  GError *failed = NULL;
  gboolean done;
  int source;

  if (is_absent (folder, path))
    return TRUE;
  source = cro_plain_file_open (path, &failed);
  if (source < 0)
    return open_failed (file, failed, faults, error);
  done = read_source (id, is_partial, source, row, user_data, faults, error);
  close (source);
  return done;
}

gboolean
cro_table_read (const char  *folder,
                CroTableId   id,
                CroRowFunc   row,
                gpointer     user_data,
                CroFaults   *faults,
                GError     **error)
{
  return read_file (folder, id, FALSE, row, user_data, faults, error);
}

gboolean
cro_table_read_partial (const char  *folder,
                        CroTableId   id,
                        CroRowFunc   row,
                        gpointer     user_data,
                        CroFaults   *faults,
                        GError     **error)
{
  return read_file (folder, id, TRUE, row, user_data, faults, error);
}
