#include "cro-refusal.h"

#include <string.h>

#include "cro-decimal.h"
#include "cro-name.h"
#include "cro-sheet-map.h"

typedef struct
{
  char *value;
  char *detail;
} CroRefusalPrivate;

static void
cro_refusal_private_init (CroRefusalPrivate *self)
{
}

static void
cro_refusal_private_copy (const CroRefusalPrivate *from,
                          CroRefusalPrivate       *to)
{
  to->value = g_strdup (from->value);
  to->detail = g_strdup (from->detail);
}

static void
cro_refusal_private_clear (CroRefusalPrivate *self)
{
  g_free (self->value);
  g_free (self->detail);
}

G_DEFINE_EXTENDED_ERROR (CroRefusal, cro_refusal)

void
cro_refusal_get (const GError  *error,
                 const char   **value,
                 const char   **detail)
{
  const CroRefusalPrivate *self = cro_refusal_get_private (error);

  *value = self->value != NULL ? self->value : "";
  *detail = self->detail != NULL ? self->detail : "";
}

gboolean
cro_refuse (CroFaultKind   kind,
            const char    *value,
            const char    *detail,
            GError       **error)
{
  g_autoptr (GError) refusal = g_error_new_literal (CRO_REFUSAL, kind, value);
  CroRefusalPrivate *self = cro_refusal_get_private (refusal);

  self->value = g_strdup (value);
  self->detail = g_strdup (detail);
  g_propagate_error (error, g_steal_pointer (&refusal));
  return FALSE;
}

/* --- Columns ------------------------------------------------------------------------------------ */

static const CroColumn item_name = { "name", CRO_FIELD_NAME, .required = TRUE };

static const CroColumn *
column_of_book (const char *column)
{
  g_autofree char *key = g_strndup (column, strlen (column)
                                                - (g_str_has_suffix (column, "_micro") ? 6 : 0));
  CroBookKey found;

  return cro_book_key_find (key, &found) ? cro_book_key_get (found) : NULL;
}

/* What a column of the store may hold; *may_lack: it is filled where nothing is set. NULL: no
 * table says, as of a price's offer. */
static const CroColumn *
column_of (const char *table,
           const char *column,
           gboolean   *may_lack)
{
  *may_lack = FALSE;
  if (strcmp (table, "book") == 0)
    return column_of_book (column);
  if ((strcmp (table, "item") == 0 || strcmp (table, "thing") == 0)
      && strcmp (column, "name") == 0)
    return &item_name;
  for (const CroSheetMap *map = cro_sheet_maps; map->table != NULL; map++)
    for (const CroMapColumn *at = map->columns;
         strcmp (map->table, table) == 0 && at->column != NULL; at++)
      if (strcmp (at->column, column) == 0)
        {
          const CroTable *told = cro_table_get (map->id);

          *may_lack = at->kind != CRO_MAP_VALUE;
          return at->from < told->n_columns ? &told->columns[at->from] : NULL;
        }
  return NULL;
}

/* --- Cells ---------------------------------------------------------------------------------------- */

static gboolean
accept_text (const CroColumn  *column,
             const char       *text,
             GError          **error)
{
  g_autofree char *detail = NULL;
  CroField field;
  CroFaultKind kind;

  return cro_table_parse_field (column, text, &field, &kind, &detail)
         || cro_refuse (kind, text, detail, error);
}

/* Names of other rows, choices and sets are numbers of the store's own. */
static gboolean
accept_number (const CroColumn  *column,
               gint64            number,
               GError          **error)
{
  char text[CRO_DECIMAL_CHARS];

  if (column->kind != CRO_FIELD_DECIMAL)
    return TRUE;
  cro_decimal_format (number, text);
  return accept_text (column, text, error);
}

static gboolean
accept (const CroColumn  *column,
        gboolean          may_lack,
        CroCell          *cell,
        GPtrArray        *texts,
        GError          **error)
{
  switch (cell->kind)
    {
    case CRO_CELL_INTEGER:
      return accept_number (column, cell->integer, error);
    case CRO_CELL_TEXT:
      if (column->kind == CRO_FIELD_NAME)
        {
          char *tidy = cro_name_dup_tidy (cell->text);

          g_ptr_array_add (texts, tidy);
          cell->text = tidy;
        }
      return (may_lack && *cell->text == '\0') || accept_text (column, cell->text, error);
    default:
      return may_lack || !column->required || cro_refuse (CRO_FAULT_MISSING_VALUE, "", NULL, error);
    }
}

void
cro_tidy_cells_clear (CroTidyCells *self)
{
  g_clear_pointer (&self->cells, g_free);
  g_clear_pointer (&self->texts, g_ptr_array_unref);
}

gboolean
cro_tidy_cells (const char         *table,
                const char *const  *columns,
                const CroCell      *cells,
                CroTidyCells       *tidy,
                GError            **error)
{
  guint n = g_strv_length ((char **) columns);

  *tidy = (CroTidyCells){ g_memdup2 (cells, n * sizeof *cells),
                          g_ptr_array_new_with_free_func (g_free) };
  for (guint i = 0; i < n; i++)
    {
      gboolean may_lack;
      const CroColumn *column = column_of (table, columns[i], &may_lack);

      if (column != NULL && !accept (column, may_lack, &tidy->cells[i], tidy->texts, error))
        {
          cro_tidy_cells_clear (tidy);
          return FALSE;
        }
    }
  return TRUE;
}

char *
cro_tidy_name (const char  *name,
               GError     **error)
{
  g_autofree char *tidy = cro_name_dup_tidy (name);

  return accept_text (&item_name, tidy, error) ? g_steal_pointer (&tidy) : NULL;
}
