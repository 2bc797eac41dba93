/* What a till wrote, as rows of the book. */
#include "cro-till-private.h"

#include <math.h>

#include "cro-code.h"
#include "cro-decimal.h"
#include "cro-edit-private.h"
#include "cro-row-date.h"
#include "cro-selling-steps.h"

/* --- Without tax ------------------------------------------------------------------------------------ */

typedef struct
{
  const CroTill *till;
  CroModel      *model;
  GHashTable    *selling;   /* cro_selling_steps_all */
  GHashTable    *at;        /* entries by what they are put together by: index + 1 */
  GArray        *entries;
} Making;

static gint64
tax_on (Making *self,
        CroRef  thing,
        CroDate day)
{
  const char *table;
  gint64 id = thing.kind != CRO_REF_NONE ? cro_edit_row (self->model, thing, &table) : 0;

  return cro_selling_terms_on (self->model, g_hash_table_lookup (self->selling, &id), thing, day).tax;
}

static gint64
net_of (Making *self,
        gint64  revenue,
        CroRef  thing,
        CroDate day)
{
  double tax;

  if (revenue == CRO_NOT_SET || !self->till->with_tax)
    return revenue;
  tax = cro_decimal_to_double (tax_on (self, thing, day));
  return (gint64) llround ((double) revenue / (1 + tax / 100));
}

/* --- Rows put together ------------------------------------------------------------------------------ */

/* Sold, void, or money given back. */
static int
sign_of (gint64 sold)
{
  return (sold > 0) - (sold < 0);
}

static CroSaleEntry *
entry_at (Making            *self,
          const CroTillName *name,
          CroDate            day,
          int                sign)
{
  g_autofree char *key = name->state == CRO_TILL_THING
                             ? g_strdup_printf ("%d %d thing %u %u", day, sign, name->thing.kind, name->thing.slot)
                             : g_strdup_printf ("%d %d other %s", day, sign, name->name);
  guint found = GPOINTER_TO_UINT (g_hash_table_lookup (self->at, key));
  CroSaleEntry entry = { .date = day, .thing = name->thing, .revenue = CRO_NOT_SET };

  if (found != 0)
    return &g_array_index (self->entries, CroSaleEntry, found - 1);
  if (name->state == CRO_TILL_OTHER)
    entry.other = name->name;
  g_array_append_val (self->entries, entry);
  g_hash_table_insert (self->at, g_steal_pointer (&key), GUINT_TO_POINTER (self->entries->len));
  return &g_array_index (self->entries, CroSaleEntry, self->entries->len - 1);
}

/* Revenue without a plate is not counted; nothing sold for nothing is nothing. */
static void
make_row (Making           *self,
          const CroTillRow *row)
{
  const CroTillName *name = &g_array_index (self->till->names, CroTillName, row->name);
  gboolean is_other = name->state == CRO_TILL_OTHER;
  gint64 sold = is_other ? CRO_MICRO : row->has_sold ? row->sold : 0, net;
  CroSaleEntry *entry;

  if (name->state == CRO_TILL_UNSETTLED || name->state == CRO_TILL_LEFT_OUT
      || cro_till_row_is_uncounted (self->till, row)
      || ((is_other || sold == 0) && (row->revenue == CRO_NOT_SET || row->revenue == 0)))
    return;
  net = net_of (self, row->revenue, name->thing, row->day);
  entry = entry_at (self, name, row->day, is_other ? 1 : sign_of (sold));
  entry->sold = is_other ? CRO_MICRO : entry->sold + sold;
  if (net != CRO_NOT_SET)
    entry->revenue = (entry->revenue != CRO_NOT_SET ? entry->revenue : 0) + net;
}

/* --- What the book has already ------------------------------------------------------------------------ */

static char *
dup_key (const char *day,
         gint64      thing,
         const char *other,
         gint64      sold,
         gint64      revenue)
{
  return g_strdup_printf ("%s %" G_GINT64_FORMAT " %s %" G_GINT64_FORMAT " %" G_GINT64_FORMAT, day, thing,
                          other != NULL ? other : "", sold, revenue);
}

static gboolean
take_known (CroRows   *rows,
            gpointer   user_data,
            GError   **error)
{
  GHashTable *known = user_data;
  char *key = dup_key (cro_rows_get_text (rows, 0), cro_rows_is_null (rows, 1) ? 0 : cro_rows_get_int (rows, 1),
                       cro_rows_get_text (rows, 2), cro_rows_get_int (rows, 3),
                       cro_rows_is_null (rows, 4) ? CRO_NOT_SET : cro_rows_get_int (rows, 4));
  guint n = GPOINTER_TO_UINT (g_hash_table_lookup (known, key));

  g_hash_table_insert (known, key, GUINT_TO_POINTER (n + 1));
  return TRUE;
}

/* As many of equal rows as the book has are not made again. */
static gboolean
drop_known (Making   *self,
            CroBook  *book,
            guint    *n_known,
            GError  **error)
{
  static const char *const columns[] = { "date", "thing", "other", "sold_micro", "net_revenue_micro", NULL };
  g_autoptr (GHashTable) known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  guint n = 0;

  if (!cro_store_read_each (cro_book_get_store (book), "sale", columns, take_known, known, error))
    return FALSE;
  for (guint i = 0; i < self->entries->len; i++)
    {
      CroSaleEntry entry = g_array_index (self->entries, CroSaleEntry, i);
      char day[CRO_DATE_CHARS];
      g_autofree char *key = NULL;
      const char *table;
      guint left;

      cro_date_format (entry.date, day);
      key = dup_key (day, entry.thing.kind != CRO_REF_NONE ? cro_edit_row (self->model, entry.thing, &table) : 0,
                     entry.other, entry.sold, entry.revenue);
      left = GPOINTER_TO_UINT (g_hash_table_lookup (known, key));
      if (left == 0)
        g_array_index (self->entries, CroSaleEntry, n++) = entry;
      else
        g_hash_table_insert (known, g_steal_pointer (&key), GUINT_TO_POINTER (left - 1));
    }
  *n_known = self->entries->len - n;
  g_array_set_size (self->entries, n);
  return TRUE;
}

/* with_known: also those that the book has. */
static GArray *
make_entries (const CroTill  *till,
              CroBook        *book,
              gboolean        with_known,
              guint          *n_known,
              GError        **error)
{
  g_autoptr (GHashTable) selling = cro_selling_steps_all (book, error);
  g_autoptr (GHashTable) at = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GArray) entries = g_array_new (FALSE, FALSE, sizeof (CroSaleEntry));
  Making making = { till, cro_book_get_model (book), selling, at, entries };

  *n_known = 0;
  if (selling == NULL)
    return NULL;
  for (guint i = 0; i < till->rows->len; i++)
    make_row (&making, &g_array_index (till->rows, CroTillRow, i));
  if (!with_known && !drop_known (&making, book, n_known, error))
    return NULL;
  return g_steal_pointer (&entries);
}

GArray *
cro_till_entries (const CroTill  *self,
                  CroBook        *book,
                  guint          *n_known,
                  GError        **error)
{
  return make_entries (self, book, FALSE, n_known, error);
}

/* --- Into the book ----------------------------------------------------------------------------------- */

/* A name that was settled otherwise before takes its new meaning. */
static gboolean
remember (const CroTill  *self,
          CroBook        *book,
          GHashTable     *known,
          GError        **error)
{
  static const char *const columns[] = { "name", "kind", "sold_as", NULL };
  CroModel *model = cro_book_get_model (book);

  for (guint i = 0; i < self->names->len; i++)
    {
      const CroTillName *name = &g_array_index (self->names, CroTillName, i);
      const gint64 *id = g_hash_table_lookup (known, name->name);
      gboolean is_thing = name->state == CRO_TILL_THING;
      CroTillKind kind = name->state == CRO_TILL_OTHER            ? CRO_TILL_KIND_OTHER
                         : name->state == CRO_TILL_LEFT_OUT       ? CRO_TILL_KIND_NONE
                         : name->thing.kind == CRO_REF_MENU       ? CRO_TILL_KIND_MENU
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
take_name (CroRows   *rows,
           gpointer   user_data,
           GError   **error)
{
  gint64 id = cro_rows_get_int (rows, 0);

  g_hash_table_insert (user_data, g_strdup (cro_rows_get_text (rows, 1)), g_memdup2 (&id, sizeof id));
  return TRUE;
}

typedef struct
{
  GHashTable *days;
  GArray     *ids;
} Before;

static gboolean
take_before (CroRows   *rows,
             gpointer   user_data,
             GError   **error)
{
  Before *self = user_data;
  CroDate day = cro_row_date (rows, 1);
  gint64 id = cro_rows_get_int (rows, 0);

  if (day != CRO_NO_DAY && g_hash_table_contains (self->days, GINT_TO_POINTER (day)))
    g_array_append_val (self->ids, id);
  return TRUE;
}

/* What the book has of the days that are entered goes before; a total that was left out has no day. */
static gboolean
clear_days (const CroTill  *self,
            CroBook        *book,
            GError        **error)
{
  static const char *const columns[] = { "id", "date", NULL };
  g_autoptr (GHashTable) days = g_hash_table_new (NULL, NULL);
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (gint64));
  Before before = { days, ids };

  for (guint i = 0; i < self->rows->len; i++)
    {
      const CroTillRow *row = &g_array_index (self->rows, CroTillRow, i);

      if (g_array_index (self->names, CroTillName, row->name).state != CRO_TILL_LEFT_OUT)
        g_hash_table_add (days, GINT_TO_POINTER (row->day));
    }
  return cro_store_read_each (cro_book_get_store (book), "sale", columns, take_before, &before, error)
         && cro_month_delete_rows (book, "sale", ids, error);
}

static gboolean
enter (const CroTill  *self,
       CroBook        *book,
       gboolean        replace,
       guint          *n_made,
       GError        **error)
{
  static const char *const columns[] = { "id", "name", NULL };
  g_autoptr (GHashTable) known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autoptr (GArray) entries = NULL;
  guint n_known;

  if ((replace && !clear_days (self, book, error))
      || !cro_store_read_each (cro_book_get_store (book), "till_name", columns, take_name, known, error))
    return FALSE;
  entries = make_entries (self, book, replace, &n_known, error);
  *n_made = entries != NULL ? entries->len : 0;
  return entries != NULL && remember (self, book, known, error)
         && cro_month_write_sales (book, (const CroSaleEntry *) (const void *) entries->data, entries->len, error);
}

gboolean
cro_till_enter (const CroTill  *self,
                CroBook        *book,
                const char     *label,
                gboolean        replace,
                guint          *n_made,
                GError        **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, enter (self, book, replace, n_made, error), error);
}
