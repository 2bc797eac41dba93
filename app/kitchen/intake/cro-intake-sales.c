/* What a till wrote, as rows of sales. */
#include "cro-intake-private.h"

#include <math.h>

#include "cro-decimal.h"
#include "cro-not-set.h"
#include "cro-selling-steps.h"

/* --- Without tax ------------------------------------------------------------------------------------ */

typedef struct
{
  const CroIntake *intake;
  CroModel *model;
  GHashTable *selling; /* cro_selling_steps_all */
  GHashTable *at;      /* entries by what they are put together by: index + 1 */
  GArray *entries;
} Making;

static gint64
tax_on (Making *self,
        CroRef  thing,
        CroDate day)
{
  const char *table;
  gint64 id = thing.kind != CRO_REF_NONE ? cro_edit_row (self->model, thing, &table) : 0;

  return cro_selling_terms_on (self->model, g_hash_table_lookup (self->selling, &id), thing, day)
      .tax;
}

static gint64
net_of (Making             *self,
        const CroIntakeRow *row,
        CroRef              thing)
{
  gint64 rate = row->rate;

  if (row->revenue == CRO_NOT_SET || !self->intake->with_tax)
    return row->revenue;
  if (rate == CRO_NOT_SET)
    rate = tax_on (self, thing, row->day);
  return (gint64)llround ((double) row->revenue / (1 + cro_decimal_to_double (rate) / 100));
}

/* --- Rows put together ------------------------------------------------------------------------------ */

/* Sold, void, or money given back. */
static int
sign_of (gint64 sold)
{
  return (sold > 0) - (sold < 0);
}

static CroSaleEntry *
entry_at (Making              *self,
          const CroIntakeName *name,
          CroDate              day,
          int                  sign)
{
  g_autofree char *key
      = name->state == CRO_INTAKE_THING
            ? g_strdup_printf ("%d %d thing %u %u", day, sign, name->thing.kind, name->thing.slot)
            : g_strdup_printf ("%d %d other %s", day, sign, name->name);
  guint found = GPOINTER_TO_UINT (g_hash_table_lookup (self->at, key));
  CroSaleEntry entry = { .date = day, .thing = name->thing, .revenue = CRO_NOT_SET };

  if (found != 0)
    return &g_array_index (self->entries, CroSaleEntry, found - 1);
  if (name->state == CRO_INTAKE_OTHER)
    entry.other = name->name;
  g_array_append_val (self->entries, entry);
  g_hash_table_insert (self->at, g_steal_pointer (&key), GUINT_TO_POINTER (self->entries->len));
  return &g_array_index (self->entries, CroSaleEntry, self->entries->len - 1);
}

/* Revenue without a plate is one, where nobody counted it; nothing sold for nothing is nothing. */
static void
make_row (Making             *self,
          const CroIntakeRow *row)
{
  const CroIntakeName *name = cro_intake_name_of (self->intake, row);
  gboolean is_other = name->state == CRO_INTAKE_OTHER;
  gint64 sold = row->has_sold ? row->sold : is_other ? CRO_MICRO : 0, net;
  CroSaleEntry *entry;

  if (!cro_intake_row_is_entered (self->intake, self->model, row)
      || ((is_other || sold == 0) && (row->revenue == CRO_NOT_SET || row->revenue == 0)))
    return;
  net = net_of (self, row, name->thing);
  entry = entry_at (self, name, row->day, is_other ? 1 : sign_of (sold));
  entry->sold += sold;
  if (net != CRO_NOT_SET)
    entry->revenue = (entry->revenue != CRO_NOT_SET ? entry->revenue : 0) + net;
}

/* --- What the book has already ---------------------------------------------------------------------- */

static char *
dup_known (const char *day,
           gint64      thing,
           const char *other,
           gint64      sold,
           gint64      revenue)
{
  return g_strdup_printf ("%s %" G_GINT64_FORMAT " %s %" G_GINT64_FORMAT " %" G_GINT64_FORMAT, day,
                          thing, other != NULL ? other : "", sold, revenue);
}

static char *
dup_key_of_row (CroRows *rows)
{
  return dup_known (cro_rows_get_text (rows, 0),
                    cro_rows_is_null (rows, 1) ? 0 : cro_rows_get_int (rows, 1),
                    cro_rows_get_text (rows, 2), cro_rows_get_int (rows, 3), cro_row_number (rows, 4));
}

static char *
dup_key (CroModel     *model,
         gconstpointer data)
{
  const CroSaleEntry *entry = data;
  char day[CRO_DATE_CHARS];
  const char *table;

  cro_date_format (entry->date, day);
  return dup_known (
      day, entry->thing.kind != CRO_REF_NONE ? cro_edit_row (model, entry->thing, &table) : 0,
      entry->other, entry->sold, entry->revenue);
}

GArray *
cro_intake_make_sales (CroIntake *intake,
                       CroBook   *book,
                       gboolean   with_known,
                       guint     *n_known,
                       GError   **error)
{
  static const char *const columns[]
      = { "date", "thing", "other", "sold_micro", "net_revenue_micro", NULL };
  static const CroIntakeTable table
      = { "sale", columns, sizeof (CroSaleEntry), dup_key_of_row, dup_key };
  g_autoptr (GHashTable) selling = cro_selling_steps_all (book, error);
  g_autoptr (GHashTable) at = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GArray) entries = g_array_new (FALSE, FALSE, sizeof (CroSaleEntry));
  Making making = { intake, cro_book_get_model (book), selling, at, entries };

  if (selling == NULL)
    return NULL;
  for (guint i = 0; i < intake->rows->len; i++)
    make_row (&making, &g_array_index (intake->rows, CroIntakeRow, i));
  return with_known || cro_intake_drop_known (intake, &table, book, entries, n_known, error)
             ? g_steal_pointer (&entries)
             : NULL;
}
