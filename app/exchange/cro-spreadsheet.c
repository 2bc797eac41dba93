#include "cro-spreadsheet-private.h"

#include "cro-plain-file.h"

#include <errno.h>
#include <string.h>
#include <unistd.h>

G_DEFINE_QUARK (cro-spreadsheet-error-quark, cro_spreadsheet_error)

typedef enum
{
  KIND_DELIMITED,
  KIND_PACKAGE,
  KIND_COMPOUND, /* the older binary workbooks, and newer ones behind a password */
  KIND_OTHER,
} Kind;

static gboolean
begins (const guchar *head,
        gsize         length,
        const char   *with,
        gsize         n)
{
  return length >= n && memcmp (head, with, n) == 0;
}

/* By the first bytes: a name's ending says what somebody hoped it to be. */
static Kind
find_kind (const guchar *head,
           gsize         length)
{
  gsize mark;

  if (begins (head, length, "PK\x03\x04", 4) || begins (head, length, "PK\x05\x06", 4))
    return KIND_PACKAGE;
  if (begins (head, length, "\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1", 8))
    return KIND_COMPOUND;
  if (begins (head, length, "%PDF", 4) || (memchr (head, 0, length) != NULL
                                                  && cro_text_find_charset ((const char *) head, length,
                                                                            &mark) == NULL))
    return KIND_OTHER;
  return KIND_DELIMITED;
}

static gboolean
read_kind (const char  *path,
           Kind        *kind,
           GError     **error)
{
  guchar head[CRO_TEXT_HEAD];
  ssize_t n;
  int file = cro_plain_file_open (path, error);

  if (file < 0)
    return FALSE;
  n = read (file, head, sizeof head);
  if (n < 0)
    g_set_error_literal (error, G_FILE_ERROR, g_file_error_from_errno (errno), g_strerror (errno));
  close (file);
  if (n < 0)
    return FALSE;
  *kind = find_kind (head, (gsize) n);
  return TRUE;
}

static gboolean
check_kind (Kind     kind,
            GError **error)
{
  if (kind == KIND_COMPOUND)
    g_set_error_literal (error, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_LOCKED,
                         "a compound file");
  else if (kind == KIND_OTHER)
    g_set_error_literal (error, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_OTHER_KIND,
                         "no text and no package");
  else
    return TRUE;
  return FALSE;
}

static GStrv
list_one (const char *path)
{
  g_autofree char *name = g_filename_display_basename (path);
  GStrv names = g_new0 (char *, 2);

  names[0] = g_steal_pointer (&name);
  return names;
}

GStrv
cro_spreadsheet_list (const char  *path,
                      GError     **error)
{
  g_autoptr (CroWorkbookParts) parts = NULL;
  GStrv names;
  Kind kind;

  if (!read_kind (path, &kind, error) || !check_kind (kind, error))
    return NULL;
  if (kind == KIND_DELIMITED)
    return list_one (path);

  parts = cro_workbook_parts_new (path, (CroReadFor){ NULL, NULL }, error);
  if (parts == NULL)
    return NULL;
  names = g_new0 (char *, parts->names->len + 1);
  for (guint i = 0; i < parts->names->len; i++)
    names[i] = g_strdup (g_ptr_array_index (parts->names, i));
  return names;
}

static gboolean
read_sheet (const char                 *path,
            guint                       sheet,
            const CroSpreadsheetTaker  *taker,
            gpointer                    user_data,
            GError                    **error)
{
  g_autoptr (CroWorkbookParts) parts
      = cro_workbook_parts_new (path, (CroReadFor){ taker, user_data }, error);

  if (parts == NULL)
    return FALSE;
  if (sheet >= parts->names->len)
    {
      g_set_error (error, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_NO_SHEET, "%u", sheet + 1);
      return FALSE;
    }
  return cro_sheet_read (path, parts, sheet, taker, user_data, error);
}

gboolean
cro_spreadsheet_read (const char                 *path,
                      guint                       sheet,
                      const CroSpreadsheetTaker  *taker,
                      gpointer                    user_data,
                      GError                    **error)
{
  GError *fault = NULL;
  gboolean is_read;
  Kind kind;

  if (!read_kind (path, &kind, error) || !check_kind (kind, error))
    return FALSE;
  is_read = kind == KIND_DELIMITED ? cro_delimited_read (path, taker, user_data, &fault)
                                   : read_sheet (path, sheet, taker, user_data, &fault);
  if (g_error_matches (fault, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_STOPPED))
    g_clear_error (&fault);
  if (fault != NULL)
    g_propagate_error (error, fault);
  return is_read;
}
