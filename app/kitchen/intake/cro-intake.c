#include "cro-intake-private.h"

#include <string.h>

#include "cro-row-date.h"

void
cro_intake_refuse (CroIntake     *self,
                   GArray        *bad,
                   guint          number,
                   CroIntakeFault fault,
                   const char    *text)
{
  CroIntakeBad row = { number, fault, g_string_chunk_insert_const (self->texts, text) };

  g_array_append_val (bad, row);
}

/* --- Days of the book ------------------------------------------------------------------------------- */

static gboolean
take_known_day (CroRows *rows,
                gpointer user_data,
                GError **error)
{
  GHashTable *days = user_data;
  CroDate day = cro_row_date (rows, 0);

  if (day != CRO_NO_DAY)
    g_hash_table_add (days, GINT_TO_POINTER (day));
  return TRUE;
}

static gboolean
count_days (CroIntake *self,
            CroBook   *book,
            GError   **error)
{
  static const char *const columns[] = { "date", NULL };
  static const char *const tables[CRO_N_INTAKES]
      = { [CRO_INTAKE_SALES] = "sale", [CRO_INTAKE_COUNTS] = "stock_count" };
  g_autoptr (GHashTable) known = g_hash_table_new (NULL, NULL),
                         days = g_hash_table_new (NULL, NULL);

  if (tables[self->kind] != NULL
      && !cro_store_read_each (cro_book_get_store (book), tables[self->kind], columns,
                               take_known_day, known, error))
    return FALSE;
  for (guint i = 0; i < self->rows->len; i++)
    {
      const CroIntakeRow *row = &g_array_index (self->rows, CroIntakeRow, i);
      const CroIntakeName *name = cro_intake_name_of (self, row);
      gpointer day = GINT_TO_POINTER (row->day);

      if ((name == NULL || name->state != CRO_INTAKE_LEFT_OUT) && g_hash_table_add (days, day))
        self->n_known_days += g_hash_table_contains (known, day);
    }
  self->n_days = g_hash_table_size (days);
  return TRUE;
}

/* --- Order ------------------------------------------------------------------------------------------ */

static int
by_need (gconstpointer a,
         gconstpointer b,
         gpointer      names)
{
  const CroIntakeName *x = &g_array_index ((GArray *)names, CroIntakeName, *(const guint *) a);
  const CroIntakeName *y = &g_array_index ((GArray *)names, CroIntakeName, *(const guint *) b);
  gint64 p = x->revenue != CRO_NOT_SET ? x->revenue : 0,
         q = y->revenue != CRO_NOT_SET ? y->revenue : 0;

  if ((x->state == CRO_INTAKE_UNSETTLED) != (y->state == CRO_INTAKE_UNSETTLED))
    return x->state == CRO_INTAKE_UNSETTLED ? -1 : 1;
  return p != q ? (p < q ? 1 : -1) : strcmp (x->name, y->name);
}

/* Names that wait stand first; rows follow them. */
static void
put_in_order (CroIntake *self)
{
  guint n = self->names->len;
  g_autofree guint *order = g_new (guint, n + 1), *to = g_new (guint, n + 1);
  GArray *names = g_array_sized_new (FALSE, FALSE, sizeof (CroIntakeName), n);

  for (guint i = 0; i < n; i++)
    order[i] = i;
  g_qsort_with_data (order, (int) n, sizeof *order, by_need, self->names);
  for (guint i = 0; i < n; i++)
    {
      to[order[i]] = i;
      g_array_append_val (names, g_array_index (self->names, CroIntakeName, order[i]));
    }
  for (guint i = 0; i < self->rows->len; i++)
    {
      CroIntakeRow *row = &g_array_index (self->rows, CroIntakeRow, i);

      if (row->name != CRO_INTAKE_NAMELESS)
        row->name = to[row->name];
    }
  g_array_unref (self->names);
  self->names = names;
}

/* --- All of it -------------------------------------------------------------------------------------- */

static void
find_columns (CroIntakeReading       *self,
              const CroIntakeColumns *columns,
              gboolean               *with_tax)
{
  self->headings = columns->headings;
  for (int i = 0; i < CRO_N_INTAKE_COLUMNS; i++)
    self->at[i] = -1;
  for (int i = CRO_BROUGHT_MOST_COLUMNS - 1; i >= 0; i--)
    self->at[columns->of[i]] = i;
  self->money = self->at[CRO_INTAKE_NET];
  if (self->money >= 0)
    *with_tax = FALSE;
  else if (self->at[CRO_INTAKE_GROSS] >= 0)
    {
      self->money = self->at[CRO_INTAKE_GROSS];
      *with_tax = TRUE;
    }
  else
    self->money = self->at[CRO_INTAKE_REVENUE];
}

static void
begin_rows (CroIntakeReading *self)
{
  int day = self->at[CRO_INTAKE_DAY] >= 0 ? self->at[CRO_INTAKE_DAY] : self->at[CRO_INTAKE_DATED];

  self->next = (guint) (self->headings + 1);
  if (day >= 0)
    self->is_month_first = cro_intake_day_is_month_first (self->brought, self->next, (guint) day,
                                                          self->intake->first, self->intake->last);
}

CroIntakeReading *
cro_intake_reading_new (CroBook                *book,
                        const CroBrought       *brought,
                        const CroIntakeColumns *columns,
                        CroDate                 first,
                        CroDate                 last,
                        gboolean                with_tax,
                        GError                **error)
{
  g_autoptr (CroIntakeReading) self = g_new0 (CroIntakeReading, 1);
  CroIntake *intake = g_new0 (CroIntake, 1);

  self->intake = intake;
  self->book = book;
  self->model = cro_book_get_model (book);
  self->brought = brought;
  intake->kind = columns->kind;
  intake->first = first;
  intake->last = last;
  intake->names = g_array_new (FALSE, FALSE, sizeof (CroIntakeName));
  intake->bad = g_array_new (FALSE, FALSE, sizeof (CroIntakeBad));
  intake->clashing = g_array_new (FALSE, FALSE, sizeof (CroIntakeBad));
  intake->lines = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  intake->rows = g_array_new (FALSE, FALSE, sizeof (CroIntakeRow));
  intake->texts = g_string_chunk_new (1024);
  intake->with_tax = with_tax;
  find_columns (self, columns, &intake->with_tax);
  if (intake->kind == CRO_INTAKE_DOCUMENTS && (self->months = cro_month_rows_read (book, error)) == NULL)
    return NULL;
  if (!cro_intake_names_begin (self, book, error))
    return NULL;
  begin_rows (self);
  return g_steal_pointer (&self);
}

void
cro_intake_reading_free (CroIntakeReading *self)
{
  cro_intake_names_end (self);
  g_clear_pointer (&self->months, g_ptr_array_unref);
  g_clear_pointer (&self->intake, cro_intake_free);
  g_free (self);
}

gboolean
cro_intake_reading_go_on (CroIntakeReading *self,
                          guint             n_rows)
{
  guint all = self->at[CRO_INTAKE_NAME] >= 0 ? self->brought->rows->len : 0;

  for (guint i = 0; i < n_rows && self->next < all; i++)
    cro_intake_read_row (self, self->next++);
  return self->next < all;
}

CroIntake *
cro_intake_reading_end (CroIntakeReading  *self,
                        GError           **error)
{
  if (!count_days (self->intake, self->book, error))
    return NULL;
  put_in_order (self->intake);
  return g_steal_pointer (&self->intake);
}

void
cro_intake_free (CroIntake *self)
{
  g_array_unref (self->names);
  g_array_unref (self->bad);
  g_array_unref (self->clashing);
  g_array_unref (self->rows);
  g_ptr_array_unref (self->lines);
  g_string_chunk_free (self->texts);
  g_clear_pointer (&self->known, g_hash_table_unref);
  g_free (self);
}

void
cro_intake_settle (CroIntake     *self,
                   guint          name,
                   CroIntakeState state,
                   CroRef         thing)
{
  CroIntakeName *of = &g_array_index (self->names, CroIntakeName, name);

  of->state = state;
  of->thing = state == CRO_INTAKE_THING ? thing : CRO_REF_NOWHERE;
  of->is_new = state != CRO_INTAKE_UNSETTLED;
}

guint
cro_intake_count_unsettled (const CroIntake *self)
{
  guint n = 0;

  for (guint i = 0; i < self->names->len; i++)
    n += g_array_index (self->names, CroIntakeName, i).state == CRO_INTAKE_UNSETTLED;
  return n;
}

guint
cro_intake_count_unmeasured (const CroIntake *self,
                             CroBook         *book)
{
  CroModel *model = cro_book_get_model (book);
  guint n = 0;

  for (guint i = 0; i < self->rows->len; i++)
    n += cro_intake_row_is_unmeasured (self, model, &g_array_index (self->rows, CroIntakeRow, i));
  return n;
}
