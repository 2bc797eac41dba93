#include "cro-table.h"

#include "cro-allergen.h"
#include "cro-date.h"
#include "cro-decimal.h"
#include "cro-unit.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

struct _CroTableWriter
{
  const CroTable *table;
  char           *path;
  char           *unfinished;  /* NULL once it has its name */
  FILE           *stream;
  GString        *row;
};

static gboolean
fail (CroTableWriter  *self,
      GError         **error)
{
  int code = errno;

  g_set_error (error,
               G_FILE_ERROR,
               g_file_error_from_errno (code),
               "%s: %s",
               self->path,
               g_strerror (code));
  return FALSE;
}

static void
append_text (GString    *row,
             const char *text)
{
  if (text[strcspn (text, ",\"\r\n")] == '\0')
    {
      g_string_append (row, text);
      return;
    }
  g_string_append_c (row, '"');
  for (; *text != '\0'; text++)
    {
      if (*text == '"')
        g_string_append_c (row, '"');
      g_string_append_c (row, *text);
    }
  g_string_append_c (row, '"');
}

static void
append_decimal (GString *row,
                gint64   micro)
{
  char text[CRO_DECIMAL_CHARS];
  gsize length = cro_decimal_format (micro, text);

  g_string_append_len (row, text, (gssize) length);
}

static void
append_date (GString *row,
             gint64   date,
             gsize    length)
{
  char text[CRO_DATE_CHARS];

  cro_date_format ((CroDate) date, text);
  g_string_append_len (row, text, (gssize) length);
}

static void
append_allergens (GString *row,
                  gint64   mask)
{
  char text[CRO_ALLERGENS_CHARS];

  cro_allergens_format ((uint32_t) mask, text);
  g_string_append (row, text);
}

static void
append_field (GString         *row,
              const CroColumn *column,
              const CroField  *field)
{
  switch (column->kind)
    {
    case CRO_FIELD_NAME:
    case CRO_FIELD_TEXT:
    case CRO_FIELD_CURRENCY:
      append_text (row, field->text);
      break;
    case CRO_FIELD_DECIMAL:
      append_decimal (row, field->number);
      break;
    case CRO_FIELD_DATE:
      append_date (row, field->number, strlen ("YYYY-MM-DD"));
      break;
    case CRO_FIELD_MONTH:
      append_date (row, field->number, strlen ("YYYY-MM"));
      break;
    case CRO_FIELD_CHOICE:
      append_text (row, column->choices[field->number]);
      break;
    case CRO_FIELD_UNIT:
      append_text (row, cro_unit_get ((CroUnit) field->number)->code);
      break;
    case CRO_FIELD_ALLERGENS:
      append_allergens (row, field->number);
      break;
    default:
      g_assert_not_reached ();
    }
}

static gboolean
write_row (CroTableWriter  *self,
           GError         **error)
{
  g_string_append (self->row, "\r\n");
  if (fwrite (self->row->str, 1, self->row->len, self->stream) != self->row->len)
    return fail (self, error);
  g_string_truncate (self->row, 0);
  return TRUE;
}

static gboolean
write_header (CroTableWriter  *self,
              GError         **error)
{
  for (guint i = 0; i < self->table->n_columns; i++)
    {
      if (i > 0)
        g_string_append_c (self->row, ',');
      append_text (self->row, self->table->columns[i].name);
    }
  return write_row (self, error);
}

static gboolean
open_stream (CroTableWriter  *self,
             GError         **error)
{
  int file = g_mkstemp_full (self->unfinished, O_WRONLY | O_CLOEXEC, 0666);

  if (file < 0)
    {
      fail (self, error);
      g_clear_pointer (&self->unfinished, g_free);
      return FALSE;
    }
  self->stream = fdopen (file, "wb");
  if (self->stream != NULL)
    return TRUE;
  fail (self, error);
  close (file);
  return FALSE;
}

CroTableWriter *
cro_table_writer_new (const char  *folder,
                      CroTableId   id,
                      GError     **error)
{
  g_autoptr(CroTableWriter) self = g_new0 (CroTableWriter, 1);
  g_autofree char *file = g_strconcat (cro_table_get (id)->name, ".csv", NULL);
  g_autofree char *unfinished = g_strconcat (".", file, ".XXXXXX", NULL);

  self->table = cro_table_get (id);
  self->path = g_build_filename (folder, file, NULL);
  self->unfinished = g_build_filename (folder, unfinished, NULL);
  self->row = g_string_new (NULL);
  if (!open_stream (self, error) || !write_header (self, error))
    return NULL;
  return g_steal_pointer (&self);
}

gboolean
cro_table_writer_row (CroTableWriter  *writer,
                      const CroField  *fields,
                      GError         **error)
{
  for (guint i = 0; i < writer->table->n_columns; i++)
    {
      if (i > 0)
        g_string_append_c (writer->row, ',');
      if (fields[i].is_set)
        append_field (writer->row, &writer->table->columns[i], &fields[i]);
    }
  return write_row (writer, error);
}

/* A disk may be found full as late as closing. */
static gboolean
close_stream (CroTableWriter  *self,
              GError         **error)
{
  FILE *stream = g_steal_pointer (&self->stream);

  if (fflush (stream) != 0 || fsync (fileno (stream)) != 0)
    {
      fail (self, error);
      fclose (stream);
      return FALSE;
    }
  return fclose (stream) == 0 || fail (self, error);
}

gboolean
cro_table_writer_finish (CroTableWriter  *writer,
                         GError         **error)
{
  g_return_val_if_fail (writer->stream != NULL, FALSE);

  if (!close_stream (writer, error))
    return FALSE;
  if (g_rename (writer->unfinished, writer->path) != 0)
    return fail (writer, error);
  g_clear_pointer (&writer->unfinished, g_free);
  return TRUE;
}

void
cro_table_writer_free (CroTableWriter *writer)
{
  if (writer->stream != NULL)
    fclose (writer->stream);
  if (writer->unfinished != NULL)
    g_unlink (writer->unfinished);
  g_free (writer->unfinished);
  g_free (writer->path);
  g_string_free (writer->row, TRUE);
  g_free (writer);
}
