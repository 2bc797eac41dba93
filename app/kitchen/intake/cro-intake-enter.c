/* What was read of a sheet, into the book. */
#include "cro-intake-private.h"

#include "cro-code.h"
#include "cro-column.h"
#include "cro-edit-private.h"
#include "cro-row-date.h"

static GArray *
make_entries (CroIntake *self,
              CroBook   *book,
              gboolean   with_known,
              guint     *n_known,
              GError   **error)
{
  static GArray *(*const kinds[]) (CroIntake *, CroBook *, gboolean, guint *, GError **)
      = { cro_intake_make_sales, cro_intake_make_counts, cro_intake_make_documents,
          cro_intake_make_adjustments };

  *n_known = 0;
  g_array_set_size (self->clashing, 0);
  g_ptr_array_set_size (self->lines, 0);
  return kinds[self->kind](self, book, with_known, n_known, error);
}

GArray *
cro_intake_entries (CroIntake *self,
                    CroBook   *book,
                    guint     *n_known,
                    GError   **error)
{
  return make_entries (self, book, FALSE, n_known, error);
}

/* A name that was settled otherwise before takes its new meaning. */
static gboolean
remember (const CroIntake *self,
          CroBook         *book,
          GHashTable      *known,
          GError         **error)
{
  static const char *const columns[] = { "name", "kind", "sold_as", NULL };
  CroModel *model = cro_book_get_model (book);

  for (guint i = 0; i < self->names->len; i++)
    {
      const CroIntakeName *name = &g_array_index (self->names, CroIntakeName, i);
      const gint64 *id = g_hash_table_lookup (known, name->name);
      gboolean is_thing = name->state == CRO_INTAKE_THING;
      CroTillKind kind = name->state == CRO_INTAKE_OTHER      ? CRO_TILL_KIND_OTHER
                         : name->state == CRO_INTAKE_LEFT_OUT ? CRO_TILL_KIND_NONE
                         : name->thing.kind == CRO_REF_MENU   ? CRO_TILL_KIND_MENU
                                                              : CRO_TILL_KIND_PLATE;
      CroCell cells[] = { CRO_CELL_STR (name->name), CRO_CELL_STR (cro_till_kind_codes[kind]),
                          CRO_CELL_STR (is_thing ? cro_ref_name (model, name->thing) : NULL) };

      if (name->is_new
          && !(id != NULL ? cro_edit_update_row (book, "till_name", *id, columns, cells, error)
                          : cro_edit_insert (book, "till_name", columns, cells, error) != 0))
        return FALSE;
    }
  return TRUE;
}

static gboolean
take_name (CroRows *rows,
           gpointer user_data,
           GError **error)
{
  gint64 id = cro_rows_get_int (rows, 0);

  g_hash_table_insert (user_data, g_strdup (cro_rows_get_text (rows, 1)),
                       g_memdup2 (&id, sizeof id));
  return TRUE;
}

typedef struct
{
  GHashTable *days;
  GArray *ids;
} Before;

static gboolean
take_before (CroRows *rows,
             gpointer user_data,
             GError **error)
{
  Before *self = user_data;
  CroDate day = cro_row_date (rows, 1);
  gint64 id = cro_rows_get_int (rows, 0);

  if (day != CRO_NO_DAY && g_hash_table_contains (self->days, GINT_TO_POINTER (day)))
    g_array_append_val (self->ids, id);
  return TRUE;
}

/* What the book has of the days that are entered goes before; a total that was left out has no day.
 */
static gboolean
clear_days (const CroIntake *self,
            CroBook         *book,
            GError         **error)
{
  static const char *const columns[] = { "id", "date", NULL };
  g_autoptr (GHashTable) days = g_hash_table_new (NULL, NULL);
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (gint64));
  const char *table = self->kind == CRO_INTAKE_SALES ? "sale" : "stock_count";
  Before before = { days, ids };

  for (guint i = 0; i < self->rows->len; i++)
    {
      const CroIntakeRow *row = &g_array_index (self->rows, CroIntakeRow, i);

      if (cro_intake_name_of (self, row)->state != CRO_INTAKE_LEFT_OUT)
        g_hash_table_add (days, GINT_TO_POINTER (row->day));
    }
  return cro_store_read_each (cro_book_get_store (book), table, columns, take_before, &before,
                              error)
         && cro_month_delete_rows (book, table, ids, error);
}

static gboolean
write_entries (const CroIntake *self,
               CroBook         *book,
               GArray          *entries,
               GError         **error)
{
  gconstpointer data = entries->data;

  switch (self->kind)
    {
    case CRO_INTAKE_SALES:
      return cro_month_write_sales (book, data, entries->len, error);
    case CRO_INTAKE_COUNTS:
      return cro_month_write_counts (book, data, entries->len, error);
    case CRO_INTAKE_DOCUMENTS:
      return cro_month_write_documents (book, data, entries->len, error);
    default:
      return cro_month_write_adjustments (book, data, entries->len, error);
    }
}

static gboolean
enter (CroIntake *self,
       CroBook   *book,
       gboolean   replace,
       guint     *n_made,
       GError   **error)
{
  static const char *const columns[] = { "id", "name", NULL };
  g_autoptr (GHashTable) known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autoptr (GArray) entries = NULL;
  guint n_known;

  if ((replace && !clear_days (self, book, error))
      || !cro_store_read_each (cro_book_get_store (book), "till_name", columns, take_name, known,
                               error))
    return FALSE;
  entries = make_entries (self, book, replace, &n_known, error);
  *n_made = entries != NULL ? entries->len : 0;
  return entries != NULL && (self->kind != CRO_INTAKE_SALES || remember (self, book, known, error))
         && write_entries (self, book, entries, error);
}

gboolean
cro_intake_enter (CroIntake  *self,
                  CroBook    *book,
                  const char *label,
                  gboolean    replace,
                  guint      *n_made,
                  GError    **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, enter (self, book, replace, n_made, error), error);
}
