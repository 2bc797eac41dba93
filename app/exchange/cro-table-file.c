#include "cro-table-reader-private.h"

#include "cro-plain-file.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

/* Bytes read at a time, and the most that a row may have: longer than any note. */
#define CHUNK (256 * 1024)
#define LONGEST_ROW (1024 * 1024)

/* What the open row may be read from again stays; the rest makes room. */
static void
make_room (CroTableReader *self)
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
read_more (CroTableReader *self)
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
has_whole_line (CroTableReader *self)
{
  return self->at < self->end
         && (cro_table_reader_end_of_line (self->at, self->end) < self->end
             || self->end[-1] == '\n');
}

static gboolean
is_too_long (CroTableReader *self)
{
  return self->end - (self->in_row ? self->row_rest : self->at) > LONGEST_ROW;
}

static void
refuse_row (CroTableReader *self)
{
  if (!self->in_row)
    self->row_line = self->line;
  cro_table_reader_add_fault (self, NULL, CRO_FAULT_TOO_LONG, NULL, NULL);
  cro_table_reader_clear_row (self);
  cro_table_reader_leave_rest (self);
}

static void
fetch_line (CroTableReader *self)
{
  while (!self->has_ended && !has_whole_line (self))
    if (is_too_long (self))
      refuse_row (self);
    else
      read_more (self);
}

static void
skip_mark (CroTableReader *self)
{
  if (self->end - self->at >= 3 && memcmp (self->at, "\xEF\xBB\xBF", 3) == 0)
    self->at += 3;
}

/* One fault of the file: what follows from it would be told for every column and row. */
static void
refuse_file (CroTableReader *self,
             CroFaultKind    kind,
             const char     *detail)
{
  self->row_line = 1;
  cro_table_reader_add_fault (self, NULL, kind, NULL, detail);
  cro_table_reader_leave_rest (self);
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
check_commas (CroTableReader *self)
{
  const char *end = cro_table_reader_end_of_line (self->at, self->end);
  gsize commas = count (self->at, end, ',');

  if (count (self->at, end, ';') > commas)
    refuse_file (self, CRO_FAULT_NOT_COMMAS, ";");
  else if (count (self->at, end, '\t') > commas)
    refuse_file (self, CRO_FAULT_NOT_COMMAS, "tab");
}

/* By its mark; without one a NUL stands beside the first letter. */
static gboolean
is_utf16 (CroTableReader *self)
{
  return self->end - self->at >= 2
         && (memcmp (self->at, "\xFF\xFE", 2) == 0 || memcmp (self->at, "\xFE\xFF", 2) == 0
             || (self->at[0] == '\0') != (self->at[1] == '\0'));
}

static void
read_all (CroTableReader *self)
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
      cro_table_reader_read_line (self);
    else
      cro_table_reader_end (self);

  if (!self->has_header)
    {
      self->row_line = 1;
      cro_table_reader_check_required (self);
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
  CroTableReader self = {
    .table = cro_table_get (id),
    .is_partial = is_partial,
    .row = row,
    .user_data = user_data,
    .faults = faults,
    .source = source,
    .line = 1,
    .cells = g_array_new (FALSE, FALSE, sizeof (CroTableCell)),
    .header = g_ptr_array_new_with_free_func (g_free),
  };

  self.file = g_strconcat (self.table->name, ".csv", NULL);
  for (guint i = 0; i < CRO_MAX_COLUMNS; i++)
    self.cell_of[i] = -1;
  cro_table_reader_init (&self);

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
