/* Counts, documents and adjustments of a sheet, as rows of the book. */
#include "cro-intake-private.h"

#include <string.h>

#include "cro-code.h"
#include "cro-edit-private.h"

gboolean
cro_intake_row_is_unmeasured (const CroIntake    *intake,
                              CroModel           *model,
                              const CroIntakeRow *row)
{
  const CroIntakeName *name = cro_intake_name_of (intake, row);

  if (name == NULL || name->state != CRO_INTAKE_THING)
    return FALSE;
  if (intake->kind == CRO_INTAKE_SALES)
    return !row->has_sold && row->revenue != CRO_NOT_SET && row->revenue > 0;
  return name->thing.kind == CRO_REF_ITEM && row->has_sold && !row->has_unit
         && model->measures[name->thing.slot].base != CRO_BASE_EACH;
}

/* An amount without a unit is of pieces: the others were not let in. */
static CroUnit
unit_of (const CroIntakeRow *row)
{
  return row->has_unit ? row->unit : CRO_UNIT_EACH;
}

/* --- Counts ----------------------------------------------------------------------------------------- */

static char *
dup_count (const char *day,
           gint64      item,
           gint64      amount,
           const char *unit,
           const char *place)
{
  return g_strdup_printf ("%s %" G_GINT64_FORMAT " %" G_GINT64_FORMAT " %s %s", day, item, amount,
                          unit, place != NULL ? place : "");
}

static char *
dup_count_of_row (CroRows *rows)
{
  return dup_count (cro_rows_get_text (rows, 0), cro_rows_get_int (rows, 1),
                    cro_rows_get_int (rows, 2), cro_rows_get_text (rows, 3),
                    cro_rows_get_text (rows, 4));
}

static char *
dup_count_key (CroModel     *model,
               gconstpointer data)
{
  const CroCountEntry *entry = data;
  char day[CRO_DATE_CHARS];

  cro_date_format (entry->date, day);
  return dup_count (day, cro_model_item (model, entry->item)->id, entry->amount,
                    cro_edit_unit_code (entry->unit), entry->place);
}

GArray *
cro_intake_make_counts (CroIntake *self,
                        CroBook   *book,
                        gboolean   with_known,
                        guint     *n_known,
                        GError   **error)
{
  static const char *const columns[] = { "date", "item", "amount_micro", "unit", "place", NULL };
  static const CroIntakeTable table
      = { "stock_count", columns, sizeof (CroCountEntry), dup_count_of_row, dup_count_key };
  g_autoptr (GArray) entries = g_array_new (FALSE, FALSE, sizeof (CroCountEntry));

  for (guint i = 0; i < self->rows->len; i++)
    {
      const CroIntakeRow *row = &g_array_index (self->rows, CroIntakeRow, i);
      CroCountEntry entry
          = { .date = row->day, .amount = row->sold, .unit = unit_of (row), .place = row->text };

      if (!cro_intake_row_is_entered (self, cro_book_get_model (book), row))
        continue;
      entry.item = cro_intake_name_of (self, row)->thing.slot;
      g_array_append_val (entries, entry);
    }
  return with_known || cro_intake_drop_known (self, &table, book, entries, n_known, error)
             ? g_steal_pointer (&entries)
             : NULL;
}

/* --- Adjustments ------------------------------------------------------------------------------------ */

/* unit and note may be NULL. */
static char *
dup_adjustment (const char *day,
                const char *kind,
                gint64      item,
                gint64      amount,
                const char *unit,
                gint64      value,
                const char *note)
{
  return g_strdup_printf (
      "%s %s %" G_GINT64_FORMAT " %" G_GINT64_FORMAT " %s %" G_GINT64_FORMAT " %s", day, kind, item,
      amount, unit != NULL ? unit : "", value, note != NULL ? note : "");
}

static gint64
int_or (CroRows *rows,
        int      column,
        gint64   otherwise)
{
  return cro_rows_is_null (rows, column) ? otherwise : cro_rows_get_int (rows, column);
}

static char *
dup_adjustment_of_row (CroRows *rows)
{
  return dup_adjustment (cro_rows_get_text (rows, 0), cro_rows_get_text (rows, 1),
                         int_or (rows, 2, 0), int_or (rows, 3, CRO_NOT_SET),
                         cro_rows_get_text (rows, 4), int_or (rows, 5, CRO_NOT_SET),
                         cro_rows_get_text (rows, 6));
}

static char *
dup_adjustment_key (CroModel     *model,
                    gconstpointer data)
{
  const CroAdjustmentEntry *entry = data;
  char day[CRO_DATE_CHARS];

  cro_date_format (entry->date, day);
  return dup_adjustment (day, cro_adjustment_kind_codes[entry->kind],
                         entry->item != CRO_NO_SLOT ? cro_model_item (model, entry->item)->id : 0,
                         entry->amount,
                         entry->amount != CRO_NOT_SET ? cro_edit_unit_code (entry->unit) : NULL,
                         entry->value, entry->note);
}

GArray *
cro_intake_make_adjustments (CroIntake *self,
                             CroBook   *book,
                             gboolean   with_known,
                             guint     *n_known,
                             GError   **error)
{
  static const char *const columns[]
      = { "date", "kind", "item", "amount_micro", "unit", "net_value_micro", "note", NULL };
  static const CroIntakeTable table = { "adjustment", columns, sizeof (CroAdjustmentEntry),
                                        dup_adjustment_of_row, dup_adjustment_key };
  g_autoptr (GArray) entries = g_array_new (FALSE, FALSE, sizeof (CroAdjustmentEntry));

  for (guint i = 0; i < self->rows->len; i++)
    {
      const CroIntakeRow *row = &g_array_index (self->rows, CroIntakeRow, i);
      const CroIntakeName *name = cro_intake_name_of (self, row);
      CroAdjustmentEntry entry = { .date = row->day,
                                   .kind = row->kind,
                                   .item = CRO_NO_SLOT,
                                   .amount = row->has_sold ? row->sold : CRO_NOT_SET,
                                   .unit = unit_of (row),
                                   .value = row->revenue,
                                   .note = row->text };

      if (!cro_intake_row_is_entered (self, cro_book_get_model (book), row))
        continue;
      if (name != NULL)
        entry.item = name->thing.slot;
      g_array_append_val (entries, entry);
    }
  return with_known || cro_intake_drop_known (self, &table, book, entries, n_known, error)
             ? g_steal_pointer (&entries)
             : NULL;
}

/* --- Documents -------------------------------------------------------------------------------------- */

typedef struct
{
  gint64 values[CRO_N_PURCHASE_KINDS]; /* 0: none */
} Values;

/* What tells a document from those of the book: its supplier and number within a year, for many
 * begin their numbers anew then; without a number its day. */
static char *
dup_document (const char *supplier,
              const char *number,
              const char *day)
{
  g_autofree char *year = g_strndup (day, 4);
  gboolean has_number = number != NULL && *number != '\0';

  return g_strdup_printf ("%s\n%s\n%s", supplier, has_number ? number : "",
                          has_number ? year : day);
}

typedef struct
{
  CroModel *model;
  GHashTable *documents; /* dup_document → Values */
} Booked;

static gboolean
take_booked (CroRows *rows,
             gpointer user_data,
             GError **error)
{
  Booked *self = user_data;
  guint32 slot = cro_rows_is_null (rows, 1)
                     ? CRO_NO_SLOT
                     : cro_slots_get (&self->model->supplier_slots, cro_rows_get_int (rows, 1));
  const char *supplier
      = slot != CRO_NO_SLOT ? g_array_index (self->model->suppliers, CroSupplier, slot).name : "";
  char *key = dup_document (supplier, cro_rows_get_text (rows, 2), cro_rows_get_text (rows, 0));
  Values *values = g_hash_table_lookup (self->documents, key);
  guint kind;

  if (values == NULL)
    g_hash_table_insert (self->documents, key, values = g_new0 (Values, 1));
  else
    g_free (key);
  /* A sum that no field holds equals none. */
  if (cro_code_find (cro_purchase_kind_codes, cro_rows_get_text (rows, 3), &kind)
      && __builtin_add_overflow (values->values[kind], cro_rows_get_int (rows, 4),
                                 &values->values[kind]))
    values->values[kind] = G_MAXINT64;
  return TRUE;
}

typedef struct
{
  CroIntake *intake;
  CroModel *model;
  GHashTable *seen; /* one row with all it says → its number */
  GHashTable *at;   /* document → index + 1 */
  GArray *entries;
  GArray *numbers; /* guint: the first row of each */
} Making;

static const char *
supplier_of (Making             *self,
             const CroIntakeRow *row)
{
  const CroIntakeName *name = cro_intake_name_of (self->intake, row);

  return name->state == CRO_INTAKE_THING ? cro_ref_name (self->model, name->thing) : name->name;
}

/* What a row bills is a line of its document. */
static void
add_line (Making             *self,
          const CroIntakeRow *row,
          guint               kind,
          CroDocumentEntry   *entry)
{
  CroPurchaseEntry line = { .supplier = entry->supplier,
                            .number = entry->number,
                            .delivered = entry->delivered,
                            .ingredient = row->item,
                            .amount = row->has_sold ? row->sold : CRO_NOT_SET,
                            .unit = unit_of (row),
                            .value = row->values[kind] };

  if (entry->lines == NULL)
    {
      entry->lines = g_array_new (FALSE, FALSE, sizeof (CroPurchaseEntry));
      g_ptr_array_add (self->intake->lines, entry->lines);
    }
  g_array_append_val (entry->lines, line);
}

/* Two rows of a document that say the same are one, until somebody says otherwise. */
static gboolean
is_twice (Making             *self,
          const CroIntakeRow *row,
          const char         *document)
{
  char *key = g_strdup_printf ("%s %" G_GINT64_FORMAT " %" G_GINT64_FORMAT " %" G_GINT64_FORMAT
                               " %u %" G_GINT64_FORMAT,
                               document, row->values[0], row->values[1], row->values[2], row->item, row->sold);
  guint other = GPOINTER_TO_UINT (g_hash_table_lookup (self->seen, key));
  char text[16];

  if (other == 0)
    {
      g_hash_table_insert (self->seen, key, GUINT_TO_POINTER (row->number));
      return FALSE;
    }
  g_free (key);
  g_snprintf (text, sizeof text, "%u", other);
  cro_intake_refuse (self->intake, self->intake->clashing, row->number, CRO_INTAKE_TWICE, text);
  return TRUE;
}

static CroDocumentEntry *
entry_at (Making             *self,
          const CroIntakeRow *row,
          const char         *document)
{
  guint found = GPOINTER_TO_UINT (g_hash_table_lookup (self->at, document));
  CroDocumentEntry entry = { .supplier = supplier_of (self, row),
                             .number = row->text,
                             .delivered = row->day,
                             .dated = row->dated,
                             .values = { CRO_NOT_SET, CRO_NOT_SET, CRO_NOT_SET } };

  if (found != 0)
    return &g_array_index (self->entries, CroDocumentEntry, found - 1);
  g_array_append_val (self->entries, entry);
  g_array_append_val (self->numbers, row->number);
  g_hash_table_insert (self->at, g_strdup (document), GUINT_TO_POINTER (self->entries->len));
  return &g_array_index (self->entries, CroDocumentEntry, self->entries->len - 1);
}

static void
make_document (Making             *self,
               const CroIntakeRow *row)
{
  char day[CRO_DATE_CHARS];
  g_autofree char *document = NULL;
  CroDocumentEntry *entry;

  cro_date_format (row->day, day);
  document = dup_document (supplier_of (self, row), row->text, day);
  if (is_twice (self, row, document))
    return;
  entry = entry_at (self, row, document);
  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    if (row->values[k] != CRO_NOT_SET)
      {
        entry->values[k] = (entry->values[k] != CRO_NOT_SET ? entry->values[k] : 0) + row->values[k];
        /* A kind that is said against the book's is no line of that ingredient. */
        if (row->item != CRO_NO_SLOT && k == (cro_model_item (self->model, row->item)->is_disposable ? 1 : 0))
          add_line (self, row, k, entry);
      }
}

static gboolean
has_values (const CroDocumentEntry *entry,
            const Values           *values)
{
  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    if ((entry->values[k] != CRO_NOT_SET ? entry->values[k] : 0) != values->values[k])
      return FALSE;
  return TRUE;
}

/* What the book has is not entered again; what it has with other values is asked about. */
static void
drop_booked (Making     *self,
             GHashTable *booked,
             guint      *n_known)
{
  guint n = 0;

  for (guint i = 0; i < self->entries->len; i++)
    {
      CroDocumentEntry entry = g_array_index (self->entries, CroDocumentEntry, i);
      char day[CRO_DATE_CHARS];
      g_autofree char *key = NULL;
      const Values *values;

      cro_date_format (entry.delivered, day);
      key = dup_document (entry.supplier, entry.number, day);
      values = g_hash_table_lookup (booked, key);
      if (values != NULL && has_values (&entry, values))
        ++*n_known;
      else if (values != NULL && entry.number != NULL)
        cro_intake_refuse (self->intake, self->intake->clashing,
                           g_array_index (self->numbers, guint, i), CRO_INTAKE_IN_BOOK,
                           entry.number);
      else
        g_array_index (self->entries, CroDocumentEntry, n++) = entry;
    }
  g_array_set_size (self->entries, n);
}

GArray *
cro_intake_make_documents (CroIntake *self,
                           CroBook   *book,
                           gboolean   with_known,
                           guint     *n_known,
                           GError   **error)
{
  static const char *const columns[]
      = { "date", "supplier", "document", "kind", "net_value_micro", NULL };
  g_autoptr (GHashTable) booked = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GHashTable) at = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GArray) entries = g_array_new (FALSE, FALSE, sizeof (CroDocumentEntry));
  g_autoptr (GArray) numbers = g_array_new (FALSE, FALSE, sizeof (guint));
  Booked of_book = { cro_book_get_model (book), booked };
  Making making = { self, of_book.model, seen, at, entries, numbers };

  if (!cro_store_read_each (cro_book_get_store (book), "purchase", columns, take_booked, &of_book,
                            error))
    return NULL;
  for (guint i = 0; i < self->rows->len; i++)
    {
      const CroIntakeRow *row = &g_array_index (self->rows, CroIntakeRow, i);

      if (cro_intake_row_is_entered (self, of_book.model, row))
        make_document (&making, row);
    }
  drop_booked (&making, booked, n_known);
  return g_steal_pointer (&entries);
}
