#include "cro-table.h"

#include "cro-allergen.h"
#include "cro-currency.h"
#include "cro-date.h"
#include "cro-decimal.h"
#include "cro-stray.h"
#include "cro-unit.h"

#include <errno.h>
#include <string.h>

static char *
dup_range (const CroColumn *column)
{
  char low[CRO_DECIMAL_CHARS], high[CRO_DECIMAL_CHARS];

  cro_decimal_format (column->low, low);
  cro_decimal_format (column->high, high);
  return g_strdup_printf ("%c%s, %s%c",
                          column->low_excluded ? '(' : '[',
                          low,
                          column->high == G_MAXINT64 ? "∞" : high,
                          column->high_excluded || column->high == G_MAXINT64 ? ')' : ']');
}

static gboolean
parse_decimal (const CroColumn *column,
               const char      *text,
               gint64          *number,
               CroFaultKind    *kind,
               char           **detail)
{
  static const CroFaultKind of_status[] = {
    [CRO_DECIMAL_NOT_A_NUMBER] = CRO_FAULT_NOT_A_NUMBER,
    [CRO_DECIMAL_TOO_MANY_PLACES] = CRO_FAULT_TOO_MANY_PLACES,
    [CRO_DECIMAL_TOO_LARGE] = CRO_FAULT_TOO_LARGE,
  };
  gint64 micro;
  CroDecimalStatus status = cro_decimal_parse (text, strlen (text), &micro);

  if (status != CRO_DECIMAL_OK)
    {
      *kind = of_status[status];
      return FALSE;
    }
  if (micro < column->low || (micro == column->low && column->low_excluded)
      || micro > column->high || (micro == column->high && column->high_excluded))
    {
      *kind = CRO_FAULT_OUT_OF_RANGE;
      *detail = dup_range (column);
      return FALSE;
    }
  *number = micro;
  return TRUE;
}

static gboolean
parse_date (const CroColumn *column,
            const char      *text,
            gint64          *number,
            CroFaultKind    *kind)
{
  CroDate date;
  gboolean is_month = column->kind == CRO_FIELD_MONTH;

  if (!(is_month ? cro_month_parse : cro_date_parse) (text, strlen (text), &date))
    {
      *kind = is_month ? CRO_FAULT_NOT_A_MONTH : CRO_FAULT_NOT_A_DATE;
      return FALSE;
    }
  *number = date;
  return TRUE;
}

static gboolean
parse_choice (const CroColumn *column,
              const char      *text,
              gint64          *number,
              CroFaultKind    *kind,
              char           **detail)
{
  for (guint i = 0; column->choices[i] != NULL; i++)
    if (strcmp (column->choices[i], text) == 0)
      {
        *number = i;
        return TRUE;
      }
  *kind = CRO_FAULT_NOT_A_CHOICE;
  *detail = g_strjoinv (", ", (char **) column->choices);
  return FALSE;
}

static gboolean
parse_unit (const char   *text,
            gint64       *number,
            CroFaultKind *kind)
{
  CroUnit unit;

  if (!cro_unit_parse (text, strlen (text), &unit))
    {
      *kind = CRO_FAULT_NOT_A_UNIT;
      return FALSE;
    }
  *number = unit;
  return TRUE;
}

static gboolean
parse_currency (const char   *text,
                CroFaultKind *kind)
{
  int digits;

  if (cro_currency_find (text, strlen (text), &digits))
    return TRUE;
  *kind = CRO_FAULT_NOT_A_CURRENCY;
  return FALSE;
}

static gboolean
parse_allergens (const char   *text,
                 gint64       *number,
                 CroFaultKind *kind,
                 char        **detail)
{
  uint32_t mask;
  const char *bad;
  size_t bad_length;

  if (!cro_allergens_parse (text, strlen (text), &mask, &bad, &bad_length))
    {
      *kind = CRO_FAULT_NOT_AN_ALLERGEN;
      *detail = g_strndup (bad, bad_length);
      return FALSE;
    }
  *number = mask;
  return TRUE;
}

static gboolean
parse_text (const CroColumn *column,
            const char      *text,
            CroFaultKind    *kind,
            char           **detail)
{
  gboolean is_name = column->kind == CRO_FIELD_NAME;
  gunichar stray = is_name || column->is_line ? cro_stray_find (text, NULL) : cro_stray_find_in_lines (text, NULL);

  if (stray == 0)
    return TRUE;
  *kind = is_name ? CRO_FAULT_STRAY_CHARACTER : CRO_FAULT_STRAY_IN_TEXT;
  *detail = g_strdup_printf ("U+%04X", stray);
  return FALSE;
}

static gboolean
parse_set (const CroColumn *column,
           const char      *text,
           gint64          *number,
           CroFaultKind    *kind,
           char           **detail)
{
  switch (column->kind)
    {
    case CRO_FIELD_NAME:
    case CRO_FIELD_TEXT:
      return parse_text (column, text, kind, detail);
    case CRO_FIELD_DECIMAL:
      return parse_decimal (column, text, number, kind, detail);
    case CRO_FIELD_DATE:
    case CRO_FIELD_MONTH:
      return parse_date (column, text, number, kind);
    case CRO_FIELD_CHOICE:
      return parse_choice (column, text, number, kind, detail);
    case CRO_FIELD_UNIT:
      return parse_unit (text, number, kind);
    case CRO_FIELD_CURRENCY:
      return parse_currency (text, kind);
    case CRO_FIELD_ALLERGENS:
      return parse_allergens (text, number, kind, detail);
    default:
      g_assert_not_reached ();
    }
}

gboolean
cro_table_parse_field (const CroColumn *column,
                       const char      *text,
                       CroField        *field,
                       CroFaultKind    *kind,
                       char           **detail)
{
  *field = (CroField) { .number = column->fallback };
  *detail = NULL;
  if (text[0] == '\0')
    {
      *kind = CRO_FAULT_MISSING_VALUE;
      return !column->required;
    }
  if (!parse_set (column, text, &field->number, kind, detail))
    return FALSE;
  field->is_set = TRUE;
  field->text = text;
  return TRUE;
}

static gboolean
is_table_file (const char *file)
{
  for (guint i = 0; i < CRO_N_TABLES; i++)
    {
      const char *rest = file;
      const char *name = cro_table_get ((CroTableId) i)->name;

      if (g_str_has_prefix (file, name))
        rest += strlen (name);
      if (g_str_equal (rest, ".csv"))
        return TRUE;
    }
  return FALSE;
}

/* The ending is compared without case: "Lines.CSV" would otherwise be left out in silence. */
static gboolean
looks_like_table (const char *file)
{
  gsize length = strlen (file);

  return file[0] != '.' && length > 4 && g_ascii_strcasecmp (file + length - 4, ".csv") == 0;
}

gboolean
cro_tables_check_folder (const char  *folder,
                         CroFaults   *faults,
                         GError     **error)
{
  g_autoptr(GDir) dir = NULL;
  const char *file;

  /* Who asked knows the path: the sentence that GLib makes would say it again. */
  if (!g_file_test (folder, G_FILE_TEST_IS_DIR))
    {
      int code = g_file_test (folder, G_FILE_TEST_EXISTS) ? ENOTDIR : ENOENT;

      g_set_error_literal (error, G_FILE_ERROR, (int) g_file_error_from_errno (code),
                           g_strerror (code));
      return FALSE;
    }
  dir = g_dir_open (folder, 0, NULL);
  if (dir == NULL)
    {
      g_set_error_literal (error, G_FILE_ERROR, G_FILE_ERROR_ACCES, g_strerror (EACCES));
      return FALSE;
    }
  while ((file = g_dir_read_name (dir)) != NULL)
    if (looks_like_table (file) && !is_table_file (file))
      {
        g_autofree char *name = g_filename_display_name (file);

        cro_faults_add (faults, name, 0, NULL, CRO_FAULT_UNKNOWN_TABLE, NULL, NULL);
      }
  return TRUE;
}
