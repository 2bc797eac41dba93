#include "cro-intake-open.h"

#include <glib/gstdio.h>
#include <string.h>

#include "cro-spreadsheet.h"

/* Sheets of a workbook that are looked into for one of the kind. */
#define MOST_SHEETS 12

/* The first sheet that has a column of names and one of figures; else the first. */
CroBrought *
cro_intake_open_file (const char     *path,
                      CroIntakeKind   kind,
                      gboolean      (*go_on) (gpointer user_data),
                      gpointer        user_data,
                      GError        **error)
{
  g_auto (GStrv) sheets = cro_spreadsheet_list (path, error);
  g_autoptr (CroBrought) first = NULL;

  for (guint i = 0; sheets != NULL && sheets[i] != NULL && i < MOST_SHEETS; i++)
    {
      g_autoptr (CroBrought) brought
          = cro_brought_new (path, i, go_on, user_data, i == 0 ? error : NULL);
      CroIntakeColumns columns;

      if (brought == NULL && i == 0)
        return NULL;
      if (brought == NULL)
        continue;
      cro_intake_columns_find (brought, kind, &columns);
      if (columns.headings >= 0 && cro_intake_columns_has (&columns, CRO_INTAKE_NAME))
        return g_steal_pointer (&brought);
      if (i == 0)
        first = g_steal_pointer (&brought);
    }
  return g_steal_pointer (&first);
}

/* What a clipboard holds is a small file of texts between tabs; lines without any are one text each, whatever
 * signs stand in them. */
static char *
dup_as_table (const char   *text,
              CroIntakeKind kind)
{
  g_auto (GStrv) lines = NULL;
  g_autoptr (GString) table = NULL;

  if (kind != CRO_INTAKE_COUNTS || strpbrk (text, "\t;") != NULL)
    return g_strdup (text);
  lines = g_strsplit_set (text, "\r\n", -1);
  table = g_string_new (NULL);
  for (guint i = 0; lines[i] != NULL; i++)
    {
      g_auto (GStrv) parts = g_strsplit (lines[i], "\"", -1);
      g_autofree char *quoted = g_strjoinv ("\"\"", parts);

      g_string_append_printf (table, "\"%s\"\n", quoted);
    }
  return g_strdup (table->str);
}

CroBrought *
cro_intake_open_pasted (const char     *text,
                        CroIntakeKind   kind,
                        gboolean      (*go_on) (gpointer user_data),
                        gpointer        user_data,
                        GError        **error)
{
  g_autofree char *path = NULL, *table = dup_as_table (text, kind);
  CroBrought *brought = NULL;
  int handle = g_file_open_tmp ("croustade-XXXXXX.csv", &path, error);

  if (handle < 0)
    return NULL;
  g_close (handle, NULL);
  if (g_file_set_contents (path, table, -1, error))
    brought = cro_brought_new (path, 0, go_on, user_data, error);
  g_unlink (path);
  return brought;
}
