#include "cro-replace.h"

#include <string.h>

#include "cro-date.h"
#include "cro-frozen-hash.h"
#include "cro-sheet-pictures.h"

/* A row as the book has it. */
typedef struct
{
  gint64  id;
  CroCell cells[];
} Row;

/* What happens to one table. */
typedef struct
{
  const CroSheetMap *map;
  guint              width;
  GHashTable        *rows;     /* key → GPtrArray of Row not yet met in the sheet */
  Row              **met;      /* [sheet rows] the same row in the book; NULL: new */
  GPtrArray         *owned;    /* Row */
} Plan;

typedef struct
{
  CroStore        *store;
  const CroSheets *sheets;
  CroIds          *ids;
  CroFaults       *faults;
  GStringChunk    *text;
  GHashTable      *items;      /* name → id + 1 as pointer-sized */
  GHashTable      *things;
  GHashTable      *closed;     /* "YYYY-MM" of closed months */
  GHashTable      *month_ids;  /* id → "YYYY-MM" */
} Replacer;

/* --- The book's own row --------------------------------------------------------------------------- */

gboolean
cro_replace_book (CroStore         *store,
                  const CroSheets  *sheets,
                  GError          **error)
{
  static const char *const id_column[] = { "id", NULL };
  CroCell cells[CRO_N_BOOK_KEYS];
  g_autoptr (CroRows) rows = cro_store_read_one (store, "book", 1, id_column, error);
  GError *failed = NULL;
  gboolean exists;

  if (rows == NULL)
    return FALSE;
  exists = cro_rows_next (rows, &failed);
  g_clear_pointer (&rows, cro_rows_free);
  if (failed != NULL)
    {
      g_propagate_error (error, failed);
      return FALSE;
    }
  if (!exists)
    {
      g_autoptr (CroWriter) writer = cro_writer_new (store, "book", id_column, error);
      CroCell one = CRO_CELL_INT (1);

      if (writer == NULL || !cro_writer_insert (writer, &one, NULL, error))
        return FALSE;
    }
  cro_cells_of_book (sheets, cells);
  return cro_store_update (store, "book", 1, cro_book_columns, cells, error);
}

/* --- What the book has --------------------------------------------------------------------------------- */

/* A row of a table with a base is told by its id, which its name gave it. */
static char *
key_of (const Plan    *plan,
        gint64         id,
        const CroCell *cells)
{
  GString *key = g_string_new (NULL);

  if (plan->map->base != NULL)
    g_string_append_printf (key, "%" G_GINT64_FORMAT, id);
  for (guint i = 0; i < plan->map->n_keys; i++)
    cro_cell_append_key (key, &cells[i]);
  return g_string_free (key, FALSE);
}

static void
keep_row (Replacer *self,
          Plan     *plan,
          CroRows  *rows)
{
  Row *row = g_malloc (sizeof *row + plan->width * sizeof *row->cells);
  GPtrArray *same;
  char *key;

  row->id = cro_rows_get_int (rows, 0);
  for (guint i = 0; i < plan->width; i++)
    {
      int column = (int) i + 1;

      if (cro_rows_is_null (rows, column))
        row->cells[i] = CRO_CELL_NONE;
      else if (cro_rows_is_text (rows, column))
        row->cells[i] = CRO_CELL_STR (
            g_string_chunk_insert_const (self->text, cro_rows_get_text (rows, column)));
      else
        row->cells[i] = CRO_CELL_INT (cro_rows_get_int (rows, column));
    }
  g_ptr_array_add (plan->owned, row);
  key = key_of (plan, row->id, row->cells);
  same = g_hash_table_lookup (plan->rows, key);
  if (same == NULL)
    g_hash_table_insert (plan->rows, key, same = g_ptr_array_new ());
  else
    g_free (key);
  g_ptr_array_add (same, row);
}

static gboolean
read_rows (Replacer  *self,
           Plan      *plan,
           GError   **error)
{
  const char *columns[CRO_MAP_MOST + 2] = { "id" };
  g_autoptr (CroRows) rows = NULL;
  GError *failed = NULL;

  for (guint i = 0; i < plan->width; i++)
    columns[i + 1] = plan->map->columns[i].column;
  rows = cro_store_read (self->store, plan->map->table, columns, error);
  if (rows == NULL)
    return FALSE;
  while (cro_rows_next (rows, &failed))
    keep_row (self, plan, rows);
  if (failed == NULL)
    return TRUE;
  g_propagate_error (error, failed);
  return FALSE;
}

static GHashTable *
read_names (CroStore    *store,
            const char  *table,
            GError     **error)
{
  static const char *const columns[] = { "id", "name", NULL };
  g_autoptr (CroRows) rows = cro_store_read (store, table, columns, error);
  g_autoptr (GHashTable) names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  GError *failed = NULL;

  if (rows == NULL)
    return NULL;
  while (cro_rows_next (rows, &failed))
    {
      gint64 id = cro_rows_get_int (rows, 0);

      g_hash_table_insert (names, g_strdup (cro_rows_get_text (rows, 1)),
                           g_memdup2 (&id, sizeof id));
    }
  if (failed == NULL)
    return g_steal_pointer (&names);
  g_propagate_error (error, failed);
  return NULL;
}

static gboolean
read_closed_months (Replacer  *self,
                    GError   **error)
{
  static const char *const columns[] = { "id", "month", "closed_at", NULL };
  g_autoptr (CroRows) rows = cro_store_read (self->store, "month", columns, error);
  GError *failed = NULL;

  if (rows == NULL)
    return FALSE;
  while (cro_rows_next (rows, &failed))
    {
      gint64 id = cro_rows_get_int (rows, 0);
      char *month = g_strdup (cro_rows_get_text (rows, 1));

      g_hash_table_insert (self->month_ids, g_memdup2 (&id, sizeof id), month);
      if (!cro_rows_is_null (rows, 2))
        g_hash_table_add (self->closed, month);
    }
  if (failed == NULL)
    return TRUE;
  g_propagate_error (error, failed);
  return FALSE;
}

/* --- Closed months ------------------------------------------------------------------------------------------ */

/* The closed month that a row belongs to; NULL: none. Owned. */
static char *
closed_month_of (Replacer      *self,
                 const Plan    *plan,
                 const CroCell *cells)
{
  g_autofree char *month = NULL;

  if (plan->map->id == CRO_TABLE_MONTH_ROWS)
    month = g_strdup (g_hash_table_lookup (self->month_ids, &cells[0].integer));
  else if (plan->map->id == CRO_TABLE_MONTHS || !plan->map->is_unique)
    month = g_strndup (cells[0].text, 7);
  if (month == NULL || !g_hash_table_contains (self->closed, month))
    return NULL;
  return g_steal_pointer (&month);
}

static void
add_fault (Replacer     *self,
           CroTableId    id,
           guint         line,
           CroFaultKind  kind,
           const char   *detail)
{
  g_autofree char *file = g_strconcat (cro_table_get (id)->name, ".csv", NULL);

  cro_faults_add (self->faults, file, line, NULL, kind, NULL, detail);
}

/* A row that the folder does not have: what closing froze stays, and a document of a closed
 * month may not go. Returns whether the row is to be removed. */
static gboolean
may_remove (Replacer   *self,
            const Plan *plan,
            const Row  *row)
{
  g_autofree char *month = closed_month_of (self, plan, row->cells);

  if (month == NULL)
    return !self->sheets->is_absent[plan->map->id];
  if (!plan->map->is_unique)
    add_fault (self, plan->map->id, 0, CRO_FAULT_CLOSED_MONTH, month);
  return FALSE;
}

/* --- Plans ---------------------------------------------------------------------------------------------------- */

static gboolean
differs (const Plan    *plan,
         const Row     *row,
         const CroCell *cells)
{
  for (guint i = 0; i < plan->width; i++)
    if (!cro_cell_equal (&row->cells[i], &cells[i]))
      return TRUE;
  return FALSE;
}

static GHashTable *
base_of (Replacer   *self,
         const Plan *plan)
{
  return strcmp (plan->map->base, "item") == 0 ? self->items : self->things;
}

static void
meet (Replacer *self,
      Plan     *plan,
      guint     i)
{
  gint64 *id = &self->ids->of[plan->map->id][i];
  const CroSheet *sheet = &self->sheets->sheets[plan->map->id];
  CroCell cells[CRO_MAP_MOST];
  CroCellText text;
  g_autofree char *key = NULL;
  g_autofree char *month = NULL;
  GPtrArray *same;

  if (plan->map->base != NULL)
    {
      const gint64 *known = g_hash_table_lookup (base_of (self, plan), cro_sheet_text (sheet, i, 0));

      *id = known != NULL ? *known : 0;
    }
  cro_cells_of_row (self->sheets, plan->map, i, self->ids, cells, &text);
  key = key_of (plan, *id, cells);
  same = g_hash_table_lookup (plan->rows, key);
  if (same != NULL && same->len > 0)
    {
      plan->met[i] = g_ptr_array_steal_index (same, same->len - 1);
      *id = plan->met[i]->id;
    }
  month = closed_month_of (self, plan, cells);
  /* A document that comes late is booked in the first open month: it contradicts nothing. */
  if (month != NULL && plan->met[i] == NULL && plan->map->id == CRO_TABLE_PURCHASES)
    return;
  if (month != NULL && (plan->met[i] == NULL || differs (plan, plan->met[i], cells)))
    add_fault (self, plan->map->id, sheet->at[i], CRO_FAULT_CLOSED_MONTH, month);
}

static gboolean
make_plan (Replacer           *self,
           const CroSheetMap  *map,
           Plan               *plan,
           GError            **error)
{
  guint n = self->sheets->sheets[map->id].n;

  plan->map = map;
  plan->width = cro_map_width (map);
  plan->rows = g_hash_table_new_full (g_str_hash, g_str_equal, g_free,
                                      (GDestroyNotify) g_ptr_array_unref);
  plan->owned = g_ptr_array_new_with_free_func (g_free);
  plan->met = g_new0 (Row *, n + 1);
  if (!read_rows (self, plan, error))
    return FALSE;
  for (guint i = 0; i < n; i++)
    meet (self, plan, i);
  return TRUE;
}

static void
plan_clear (Plan *plan)
{
  g_clear_pointer (&plan->rows, g_hash_table_unref);
  g_clear_pointer (&plan->owned, g_ptr_array_unref);
  g_free (plan->met);
}

/* --- Writing ------------------------------------------------------------------------------------------------------ */

/* A preparation has one main output at any moment, so an output that changes its role goes
 * first and comes back. */
static gboolean
is_remade (const Plan    *plan,
           const Row     *row,
           const CroCell *cells)
{
  return plan->map->id == CRO_TABLE_OUTPUTS
         && (!cro_cell_equal (&row->cells[0], &cells[0])
             || !cro_cell_equal (&row->cells[1], &cells[1]));
}

static gboolean
remove_rows (Replacer  *self,
             Plan      *plan,
             GError   **error)
{
  GHashTableIter iter;
  GPtrArray *left;

  g_hash_table_iter_init (&iter, plan->rows);
  while (g_hash_table_iter_next (&iter, NULL, (gpointer *) &left))
    for (guint i = 0; i < left->len; i++)
      {
        const Row *row = left->pdata[i];

        if (may_remove (self, plan, row)
            && !cro_store_delete (self->store, plan->map->table, row->id, error))
          return FALSE;
      }
  for (guint i = 0; i < self->sheets->sheets[plan->map->id].n; i++)
    {
      CroCell cells[CRO_MAP_MOST];
      CroCellText text;

      if (plan->met[i] == NULL)
        continue;
      cro_cells_of_row (self->sheets, plan->map, i, self->ids, cells, &text);
      if (!is_remade (plan, plan->met[i], cells))
        continue;
      if (!cro_store_delete (self->store, plan->map->table, plan->met[i]->id, error))
        return FALSE;
      plan->met[i] = NULL;
    }
  return TRUE;
}

static gboolean
update_row (Replacer       *self,
            Plan           *plan,
            const Row      *row,
            const CroCell  *cells,
            GError        **error)
{
  const char *columns[CRO_MAP_MOST + 1];
  CroCell moved[CRO_MAP_MOST];
  guint n = 0;

  for (guint i = 0; i < plan->width; i++)
    if (!cro_cell_equal (&row->cells[i], &cells[i]))
      {
        columns[n] = plan->map->columns[i].column;
        moved[n++] = cells[i];
      }
  columns[n] = NULL;
  return n == 0 || cro_store_update (self->store, plan->map->table, row->id, columns, moved, error);
}

static gboolean
insert_row (Replacer       *self,
            Plan           *plan,
            guint           i,
            const CroCell  *cells,
            GError        **error)
{
  static const char *const name_column[] = { "name", NULL };
  const CroSheet *sheet = &self->sheets->sheets[plan->map->id];
  gint64 *id = &self->ids->of[plan->map->id][i];
  const char *columns[CRO_MAP_MOST + 2];
  CroCell all[CRO_MAP_MOST + 1];
  guint n = 0;
  g_autoptr (CroWriter) writer = NULL;

  if (plan->map->base != NULL && *id == 0)
    {
      CroCell name = CRO_CELL_STR (cro_sheet_text (sheet, i, 0));
      g_autoptr (CroWriter) base = cro_writer_new (self->store, plan->map->base, name_column, error);

      if (base == NULL || !cro_writer_insert (base, &name, id, error))
        return FALSE;
    }
  if (*id != 0)
    {
      columns[n] = "id";
      all[n++] = CRO_CELL_INT (*id);
    }
  for (guint k = 0; k < plan->width; k++)
    {
      columns[n] = plan->map->columns[k].column;
      all[n++] = cells[k];
    }
  columns[n] = NULL;
  writer = cro_writer_new (self->store, plan->map->table, columns, error);
  return writer != NULL && cro_writer_insert (writer, all, id, error);
}

static gboolean
write_rows (Replacer  *self,
            Plan      *plan,
            GError   **error)
{
  for (guint i = 0; i < self->sheets->sheets[plan->map->id].n; i++)
    {
      CroCell cells[CRO_MAP_MOST];
      CroCellText text;

      cro_cells_of_row (self->sheets, plan->map, i, self->ids, cells, &text);
      if (plan->met[i] != NULL ? !update_row (self, plan, plan->met[i], cells, error)
                               : !insert_row (self, plan, i, cells, error))
        return FALSE;
    }
  return TRUE;
}

/* Names that nothing bears any more. */
static gboolean
remove_names (Replacer    *self,
              const char  *base,
              GHashTable  *names,
              GError     **error)
{
  GHashTableIter iter;
  const gint64 *id;

  for (const CroSheetMap *map = cro_sheet_maps; map->table != NULL; map++)
    if (g_strcmp0 (map->base, base) == 0)
      for (guint i = 0; i < self->sheets->sheets[map->id].n; i++)
        g_hash_table_remove (names, cro_sheet_text (&self->sheets->sheets[map->id], i, 0));
  g_hash_table_iter_init (&iter, names);
  while (g_hash_table_iter_next (&iter, NULL, (gpointer *) &id))
    if (!cro_store_delete (self->store, base, *id, error))
      return FALSE;
  return TRUE;
}

/* --- Tables that the folder lacks --------------------------------------------------------------------------- */

static gboolean
has_settings (CroStore  *store,
              gboolean  *has,
              GError   **error)
{
  g_autoptr (CroRows) rows = cro_store_read_one (store, "book", 1, cro_book_columns, error);
  GError *failed = NULL;

  if (rows == NULL)
    return FALSE;
  *has = FALSE;
  if (cro_rows_next (rows, &failed))
    for (int i = 0; i < CRO_N_BOOK_KEYS; i++)
      *has |= !cro_rows_is_null (rows, i);
  if (failed == NULL)
    return TRUE;
  g_propagate_error (error, failed);
  return FALSE;
}

/* A folder of a few tables would empty all others in silence. What is said of months is written by
 * the program, and stays where it is not there. */
static gboolean
note_absent_tables (Replacer    *self,
                    const Plan  *plans,
                    guint        n,
                    GError     **error)
{
  gboolean has = FALSE;

  if (!has_settings (self->store, &has, error))
    return FALSE;
  if (has && self->sheets->is_absent[CRO_TABLE_BOOK])
    add_fault (self, CRO_TABLE_BOOK, 0, CRO_FAULT_ABSENT_TABLE, NULL);
  for (guint i = 0; i < n; i++)
    {
      CroTableId id = plans[i].map->id;

      if (plans[i].owned->len > 0 && self->sheets->is_absent[id] && id != CRO_TABLE_MONTHS
          && id != CRO_TABLE_MONTH_ROWS)
        add_fault (self, id, 0, CRO_FAULT_ABSENT_TABLE, NULL);
    }
  return TRUE;
}

static gboolean
replace_all (Replacer  *self,
             Plan      *plans,
             guint      n,
             GError   **error)
{
  guint n_faults;

  for (guint i = 0; i < n; i++)
    if (!make_plan (self, &cro_sheet_maps[i], &plans[i], error))
      return FALSE;
  n_faults = cro_faults_get_n (self->faults);
  if (!note_absent_tables (self, plans, n, error))
    return FALSE;
  if (cro_faults_get_n (self->faults) > n_faults)
    return TRUE;
  for (guint i = n; i-- > 0;)
    if (!remove_rows (self, &plans[i], error))
      return FALSE;
  if (!remove_names (self, "item", self->items, error)
      || !remove_names (self, "thing", self->things, error)
      || !cro_replace_book (self->store, self->sheets, error))
    return FALSE;
  for (guint i = 0; i < n; i++)
    if (!write_rows (self, &plans[i], error))
      return FALSE;
  return TRUE;
}

typedef struct
{
  const CroSheets *sheets;
  CroFaults       *faults;
} Verifying;

static void
found_changed (const char *month,
               gpointer    user_data)
{
  Verifying *self = user_data;
  const CroSheet *sheet = &self->sheets->sheets[CRO_TABLE_MONTHS];
  CroDate first;
  guint line = 0;

  if (cro_month_parse (month, strlen (month), &first))
    for (guint i = 0; i < sheet->n; i++)
      if (cro_sheet_get (sheet, i, CRO_MONTHS_MONTH) == first)
        line = sheet->at[i];
  cro_faults_add (self->faults, "months.csv", line, "hash", CRO_FAULT_FROZEN_MONTH, NULL, month);
}

gboolean
cro_replace_verify (CroStore         *store,
                    const CroSheets  *sheets,
                    CroFaults        *faults,
                    GError          **error)
{
  Verifying self = { sheets, faults };

  return cro_frozen_verify (store, found_changed, &self, NULL, error);
}

gboolean
cro_replace (CroStore         *store,
             const CroSheets  *sheets,
             CroIds           *ids,
             CroFaults        *faults,
             GError          **error)
{
  Replacer self = { .store = store, .sheets = sheets, .ids = ids, .faults = faults };
  g_autoptr (GHashTable) items = read_names (store, "item", error);
  g_autoptr (GHashTable) things = items != NULL ? read_names (store, "thing", error) : NULL;
  g_autoptr (GHashTable) closed = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) month_ids = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free,
                                                            g_free);
  g_autofree Plan *plans = NULL;
  guint n = 0;
  gboolean done;

  while (cro_sheet_maps[n].table != NULL)
    n++;
  plans = g_new0 (Plan, n);
  self.items = items;
  self.things = things;
  self.closed = closed;
  self.month_ids = month_ids;
  self.text = g_string_chunk_new (4096);
  done = things != NULL && cro_sheet_keep_pictures (store, sheets, error)
         && read_closed_months (&self, error)
         && replace_all (&self, plans, n, error);
  for (guint i = 0; i < n; i++)
    if (plans[i].map != NULL)
      plan_clear (&plans[i]);
  g_string_chunk_free (self.text);
  return done;
}
