#include "cro-text-table.h"

#include <string.h>

#include "cro-sheets-file.h"

static void
head_clear (gpointer data)
{
  g_free (((CroTextHead *) data)->text);
}

static void
row_clear (gpointer data)
{
  CroTextRow *row = data;

  g_free (row->heading);
  g_strfreev (row->cells);
}

CroTextTable *
cro_text_table_new (const char *title,
                    const char *subtitle)
{
  CroTextTable *self = g_new0 (CroTextTable, 1);

  self->title = g_strdup (title);
  self->subtitle = g_strdup (subtitle);
  self->heads = g_array_new (FALSE, FALSE, sizeof (CroTextHead));
  g_array_set_clear_func (self->heads, head_clear);
  self->rows = g_array_new (FALSE, FALSE, sizeof (CroTextRow));
  g_array_set_clear_func (self->rows, row_clear);
  self->notes = g_ptr_array_new_with_free_func (g_free);
  return self;
}

void
cro_text_table_free (CroTextTable *self)
{
  g_free (self->title);
  g_free (self->subtitle);
  g_array_unref (self->heads);
  g_array_unref (self->rows);
  g_ptr_array_unref (self->notes);
  g_free (self);
}

void
cro_text_table_add_head (CroTextTable *self,
                         const char   *text,
                         gboolean      is_mark)
{
  CroTextHead head = { g_strdup (text), is_mark };

  g_return_if_fail (self->heads->len < CRO_TEXT_TABLE_MOST);
  g_array_append_val (self->heads, head);
}

void
cro_text_table_add_heading (CroTextTable *self,
                            const char   *text)
{
  CroTextRow row = { .heading = g_strdup (text) };

  g_array_append_val (self->rows, row);
}

void
cro_text_table_take_row (CroTextTable  *self,
                         char         **cells)
{
  CroTextRow row = { .cells = cells };

  g_array_append_val (self->rows, row);
}

void
cro_text_table_add_note (CroTextTable *self,
                         const char   *text)
{
  g_ptr_array_add (self->notes, g_strdup (text));
}

/* --- Commas ----------------------------------------------------------------------------------------- */

static void
append_cell (GString    *csv,
             const char *text,
             const char *after)
{
  if (strpbrk (text, ",\"\r\n") == NULL)
    g_string_append (csv, text);
  else
    {
      g_string_append_c (csv, '"');
      for (const char *at = text; *at != '\0'; at++)
        {
          if (*at == '"')
            g_string_append_c (csv, '"');
          g_string_append_c (csv, *at);
        }
      g_string_append_c (csv, '"');
    }
  g_string_append (csv, after);
}

char *
cro_text_table_to_csv (const CroTextTable *self,
                       const char         *title_of_headings)
{
  GString *csv = g_string_new (NULL);
  const char *heading = "";
  guint n = self->heads->len;

  append_cell (csv, title_of_headings, ",");
  for (guint i = 0; i < n; i++)
    append_cell (csv, g_array_index (self->heads, CroTextHead, i).text, i + 1 < n ? "," : "\r\n");
  for (guint k = 0; k < self->rows->len; k++)
    {
      const CroTextRow *row = &g_array_index (self->rows, CroTextRow, k);

      if (row->heading != NULL)
        heading = row->heading;
      else
        {
          append_cell (csv, heading, ",");
          for (guint i = 0; i < n; i++)
            append_cell (csv, row->cells[i], i + 1 < n ? "," : "\r\n");
        }
    }
  return g_string_free (csv, FALSE);
}

/* --- A spreadsheet ------------------------------------------------------------------------------------ */

static void
write_line (CroSheetsFile *file,
            CroCellLook    look,
            const char    *text)
{
  cro_sheets_file_text (file, 'A', look, text);
  cro_sheets_file_next_row (file);
}

gboolean
cro_text_table_write_sheet (const CroTextTable  *self,
                            const char          *path,
                            gint64               created,
                            gboolean             is_letter,
                            GError             **error)
{
  CroSheetsFile *file = cro_sheets_file_new (path, self->title, created, 2, is_letter, error);

  if (file == NULL)
    return FALSE;
  cro_sheets_file_add_sheet (file, self->title);
  write_line (file, CRO_CELL_LOOK_TITLE, self->title);
  write_line (file, CRO_CELL_LOOK_NOTE, self->subtitle);
  /* What must be read with it stands before it: a long table is not read to its end. */
  for (guint i = 0; i < self->notes->len; i++)
    write_line (file, CRO_CELL_LOOK_NOTE, self->notes->pdata[i]);
  cro_sheets_file_next_row (file);
  for (guint i = 0; i < self->heads->len; i++)
    cro_sheets_file_text (file, (char) ('A' + i), CRO_CELL_LOOK_HEAD,
                          g_array_index (self->heads, CroTextHead, i).text);
  cro_sheets_file_mark_head (file);
  cro_sheets_file_next_row (file);
  for (guint k = 0; k < self->rows->len; k++)
    {
      const CroTextRow *row = &g_array_index (self->rows, CroTextRow, k);

      if (row->heading != NULL)
        cro_sheets_file_text (file, 'A', CRO_CELL_LOOK_NOTE, row->heading);
      for (guint i = 0; row->heading == NULL && i < self->heads->len; i++)
        cro_sheets_file_text (file, (char) ('A' + i), CRO_CELL_LOOK_PLAIN, row->cells[i]);
      cro_sheets_file_next_row (file);
    }
  return cro_sheets_file_finish (file, error);
}
