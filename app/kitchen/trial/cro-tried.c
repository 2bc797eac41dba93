#include "cro-tried-private.h"

#include <string.h>

#include "cro-date.h"
#include "cro-decimal.h"
#include "cro-edit-private.h"

static const CroTriedDated dated[] = {
  { "price", "offer",
    { "price_micro", "tax_included_pct_micro", "pack_count_micro", "pack_size_micro", "pack_unit",
      NULL } },
  { "selling_price", "thing", { "price_micro", "tax_pct_micro", NULL } },
};

void
cro_tried_free (CroTried *self)
{
  if (self == NULL)
    return;
  for (guint i = 0; i < self->cells->len; i++)
    g_free ((char *) g_array_index (self->cells, CroCell, i).text);
  g_array_unref (self->cells);
  g_ptr_array_unref (self->columns);
  g_free (self);
}

CroTried *
cro_tried_new (CroTriedKind  kind,
               const char   *table,
               gint64        id)
{
  CroTried *self = g_new0 (CroTried, 1);

  self->kind = kind;
  self->table = g_intern_string (table);
  self->id = id;
  self->columns = g_ptr_array_new_with_free_func (g_free);
  self->cells = g_array_new (FALSE, FALSE, sizeof (CroCell));
  return self;
}

void
cro_tried_add_cell (CroTried   *self,
                    const char *column,
                    CroCell     cell)
{
  cell.text = g_strdup (cell.text);
  g_ptr_array_add (self->columns, g_strdup (column));
  g_array_append_val (self->cells, cell);
}

CroTried *
cro_tried_copy (const CroTried *self)
{
  CroTried *copy = cro_tried_new (self->kind, self->table, self->id);

  for (guint i = 0; i < self->columns->len; i++)
    cro_tried_add_cell (copy, self->columns->pdata[i], g_array_index (self->cells, CroCell, i));
  return copy;
}

const CroTriedDated *
cro_tried_dated (const char *table)
{
  for (gsize i = 0; i < G_N_ELEMENTS (dated); i++)
    if (g_str_equal (dated[i].table, table))
      return &dated[i];
  return NULL;
}

/* --- Rows ------------------------------------------------------------------------------------- */

/* The names end with NULL. FALSE without an error: there is no such row. */
static gboolean
read_row (CroStore           *store,
          const char         *table,
          gint64              id,
          const char *const  *columns,
          CroCell            *cells,
          GError            **error)
{
  g_autoptr (CroRows) rows = cro_store_read_one (store, table, id, columns, error);
  int n = (int) g_strv_length ((char **) columns);

  if (rows == NULL || !cro_rows_next (rows, error))
    return FALSE;
  cro_rows_get_cells (rows, 0, n, cells);
  for (int i = 0; i < n; i++)
    cells[i].text = g_strdup (cells[i].text);
  return TRUE;
}

static void
free_texts (CroCell *cells,
            guint    n)
{
  for (guint i = 0; i < n; i++)
    g_free ((char *) cells[i].text);
}

static gboolean
is_there (CroStore    *store,
          const char  *table,
          gint64       id,
          GError     **error)
{
  static const char *const columns[] = { "id", NULL };
  CroCell cell;

  return read_row (store, table, id, columns, &cell, error);
}

/* The row of a dated price that begins on a day; 0: there is none. */
static gint64
find_dated (CroStore             *store,
            const CroTriedDated  *sort,
            gint64                of,
            const char           *day,
            GError              **error)
{
  static const char *const columns[] = { "id", "from_date", NULL };
  g_autoptr (CroRows) rows = cro_store_read_of (store, sort->table, sort->of, of, columns, error);
  gint64 found = 0;

  while (rows != NULL && found == 0 && cro_rows_next (rows, error))
    if (g_strcmp0 (cro_rows_get_text (rows, 1), day) == 0)
      found = cro_rows_get_int (rows, 0);
  return found;
}

/* --- What was tried --------------------------------------------------------------------------- */

/* A row of the trial that its journal names. */
typedef struct
{
  const char *table;
  gint64      id;
  gboolean    is_new;    /* made in the trial */
  GPtrArray  *columns;   /* that moved; names */
} Touched;

static void
free_touched (Touched *self)
{
  g_ptr_array_unref (self->columns);
  g_free (self);
}

static Touched *
find_touched (GPtrArray       *all,
              const CroChange *change)
{
  Touched *one;

  for (guint i = 0; i < all->len; i++)
    {
      one = all->pdata[i];
      if (one->id == change->row && g_str_equal (one->table, change->table))
        return one;
    }
  one = g_new0 (Touched, 1);
  one->table = g_intern_string (change->table);
  one->id = change->row;
  one->is_new = change->before == NULL;
  one->columns = g_ptr_array_new_with_free_func (g_free);
  g_ptr_array_add (all, one);
  return one;
}

static gboolean
note_columns (CroStore         *store,
              const CroChange  *change,
              Touched          *one,
              GError          **error)
{
  g_autoptr (GPtrArray) moved = cro_store_list_moved (store, change->id, error);

  for (guint i = 0; moved != NULL && i < moved->len; i++)
    {
      const char *column = ((const CroMoved *) moved->pdata[i])->column;

      if (!g_ptr_array_find_with_equal_func (one->columns, column, g_str_equal, NULL))
        g_ptr_array_add (one->columns, g_strdup (column));
    }
  return moved != NULL;
}

static GPtrArray *
list_touched (CroStore  *store,
              gint64     since,
              GError   **error)
{
  g_autoptr (GPtrArray) changes = cro_store_list_changes_after (store, since, error);
  g_autoptr (GPtrArray) all
      = g_ptr_array_new_with_free_func ((GDestroyNotify) free_touched);

  if (changes == NULL)
    return NULL;
  for (guint i = 0; i < changes->len; i++)
    {
      const CroChange *change = changes->pdata[i];

      if (!note_columns (store, change, find_touched (all, change), error))
        return NULL;
    }
  return g_steal_pointer (&all);
}

static gboolean
is_same (const CroCell *one,
         const CroCell *other)
{
  return one->kind == other->kind && (one->kind != CRO_CELL_INTEGER || one->integer == other->integer)
         && (one->kind != CRO_CELL_TEXT || g_str_equal (one->text, other->text));
}

/* Of a row that the book has too only what is otherwise there. */
static gboolean
take_cells (CroTried           *tried,
            CroStore           *book,
            CroStore           *trial,
            const char *const  *columns,
            gint64              id,
            gint64              id_in_book,
            GError            **error)
{
  guint n = g_strv_length ((char **) columns);
  g_autofree CroCell *now = g_new0 (CroCell, n), *before = g_new0 (CroCell, n);
  GError *failed = NULL;
  gboolean is_in_book;

  if (!read_row (trial, tried->table, id, columns, now, &failed))
    {
      if (failed != NULL)
        g_propagate_error (error, failed);
      return FALSE;
    }
  is_in_book = id_in_book != 0 && read_row (book, tried->table, id_in_book, columns, before, &failed);
  for (guint i = 0; failed == NULL && i < n; i++)
    if (!is_in_book || tried->kind == CRO_TRIED_PRICE || !is_same (&now[i], &before[i]))
      cro_tried_add_cell (tried, columns[i], now[i]);
  /* A price that the book came to hold by itself is none that is tried. */
  if (is_in_book && tried->kind == CRO_TRIED_PRICE)
    {
      gboolean is_equal = TRUE;

      for (guint i = 0; i < n; i++)
        is_equal = is_equal && is_same (&now[i], &before[i]);
      if (is_equal)
        g_ptr_array_set_size (tried->columns, 0);
    }
  free_texts (now, n);
  free_texts (before, n);
  if (failed != NULL)
    g_propagate_error (error, failed);
  return failed == NULL;
}

static gboolean
has_moved (const Touched *one,
           const char    *column)
{
  return g_ptr_array_find_with_equal_func (one->columns, column, g_str_equal, NULL);
}

/* NULL without an error: it is no price of the day, or none that is tried. */
static CroTried *
price_of (CroBook              *trial,
          const Touched        *one,
          const CroTriedDated  *sort,
          gboolean             *is_of_day,
          GError              **error)
{
  CroStore *book = cro_book_get_store (cro_book_get_tried (trial));
  CroStore *store = cro_book_get_store (trial);
  const char *columns[] = { sort->of, "from_date", NULL };
  CroCell cells[2] = { CRO_CELL_NONE, CRO_CELL_NONE };
  char day[CRO_DATE_CHARS];
  g_autoptr (CroTried) tried = NULL;
  GError *failed = NULL;
  gint64 in_book;

  cro_date_format (cro_book_get_figures (trial)->date, day);
  *is_of_day = read_row (store, one->table, one->id, columns, cells, error)
               && g_strcmp0 (cells[1].text, day) == 0
               && (one->is_new || !(has_moved (one, "from_date") || has_moved (one, columns[0])));
  free_texts (cells, 2);
  if (!*is_of_day)
    return NULL;
  tried = cro_tried_new (CRO_TRIED_PRICE, one->table, cells[0].integer);
  tried->row = one->id;
  in_book = find_dated (book, sort, tried->id, day, &failed);
  if (failed != NULL)
    {
      g_propagate_error (error, failed);
      return NULL;
    }
  if (!take_cells (tried, book, store, sort->columns, one->id, in_book, error)
      || tried->columns->len == 0)
    return NULL;
  return g_steal_pointer (&tried);
}

static CroTried *
row_of (CroBook        *trial,
        const Touched  *one,
        GError        **error)
{
  CroStore *book = cro_book_get_store (cro_book_get_tried (trial));
  CroStore *store = cro_book_get_store (trial);
  g_autoptr (CroTried) tried = cro_tried_new (one->is_new ? CRO_TRIED_ADDED : CRO_TRIED_SET,
                                              one->table, one->id);
  g_autoptr (GPtrArray) columns = g_ptr_array_copy (one->columns, (GCopyFunc) (void *) g_strdup, NULL);
  GError *failed = NULL;
  gboolean is_here = is_there (store, one->table, one->id, &failed);

  g_ptr_array_set_free_func (columns, g_free);
  g_ptr_array_add (columns, NULL);
  if (failed == NULL && !is_here && !one->is_new)
    {
      tried->kind = CRO_TRIED_REMOVED;
      return g_steal_pointer (&tried);
    }
  if (failed == NULL && is_here
      && take_cells (tried, book, store, (const char *const *) columns->pdata, one->id,
                     one->is_new ? 0 : one->id, &failed)
      && tried->columns->len > 0)
    return g_steal_pointer (&tried);
  if (failed != NULL)
    g_propagate_error (error, failed);
  return NULL;
}

GPtrArray *
cro_tried_list (CroBook  *trial,
                gint64    since,
                GError  **error)
{
  g_autoptr (GPtrArray) touched = list_touched (cro_book_get_store (trial), since, error);
  g_autoptr (GPtrArray) all = g_ptr_array_new_with_free_func ((GDestroyNotify) cro_tried_free);

  for (guint i = 0; touched != NULL && i < touched->len; i++)
    {
      const Touched *one = touched->pdata[i];
      const CroTriedDated *sort = cro_tried_dated (one->table);
      gboolean is_of_day = FALSE;
      GError *failed = NULL;
      CroTried *tried = sort != NULL ? price_of (trial, one, sort, &is_of_day, &failed) : NULL;

      if (failed == NULL && !is_of_day)
        tried = row_of (trial, one, &failed);
      if (failed != NULL)
        {
          g_propagate_error (error, failed);
          return NULL;
        }
      if (tried != NULL)
        g_ptr_array_add (all, tried);
    }
  return touched != NULL ? g_steal_pointer (&all) : NULL;
}

gboolean
cro_tried_is_dated (GPtrArray *tried)
{
  for (guint i = 0; i < tried->len; i++)
    if (((const CroTried *) tried->pdata[i])->kind == CRO_TRIED_PRICE)
      return TRUE;
  return FALSE;
}

/* --- Doing it --------------------------------------------------------------------------------- */

static GPtrArray *
names_of (const CroTried *self)
{
  GPtrArray *names = g_ptr_array_new ();

  for (guint i = 0; i < self->columns->len; i++)
    g_ptr_array_add (names, self->columns->pdata[i]);
  return names;
}

static gboolean
apply_price (const CroTried  *self,
             CroBook         *book,
             CroDate          from,
             GError         **error)
{
  const CroTriedDated *sort = cro_tried_dated (self->table);
  g_autoptr (GPtrArray) names = names_of (self);
  g_autoptr (GArray) cells = g_array_copy (self->cells);
  char day[CRO_DATE_CHARS];
  CroCell more[2];
  GError *failed = NULL;
  gint64 row;

  cro_date_format (from, day);
  row = find_dated (cro_book_get_store (book), sort, self->id, day, &failed);
  if (failed != NULL)
    {
      g_propagate_error (error, failed);
      return FALSE;
    }
  if (row == 0)
    {
      more[0] = CRO_CELL_INT (self->id);
      more[1] = CRO_CELL_STR (day);
      g_ptr_array_add (names, (char *) sort->of);
      g_ptr_array_add (names, (char *) "from_date");
      g_array_append_vals (cells, more, 2);
    }
  g_ptr_array_add (names, NULL);
  if (row == 0)
    return cro_edit_insert (book, self->table, (const char *const *) names->pdata,
                            (CroCell *) cells->data, error) != 0;
  return cro_edit_update_row (book, self->table, row, (const char *const *) names->pdata,
                              (CroCell *) cells->data, error);
}

static CroCell *
find_cell (const CroTried *self,
           const char     *column)
{
  guint i;

  return g_ptr_array_find_with_equal_func (self->columns, column, g_str_equal, &i)
             ? &g_array_index (self->cells, CroCell, i)
             : NULL;
}

/* Where another line has taken its place meanwhile it goes behind the last. */
static gboolean
find_place (const CroTried  *self,
            CroStore        *store,
            gint64          *position,
            GError         **error)
{
  static const char *const columns[] = { "position_micro", NULL };
  const char *into = find_cell (self, "plate") != NULL ? "plate" : "preparation";
  const CroCell *parent = find_cell (self, into);
  g_autoptr (CroRows) rows = parent != NULL ? cro_store_read_of (store, self->table, into,
                                                                 parent->integer, columns, error)
                                            : NULL;
  gint64 last = 0;
  gboolean is_taken = FALSE;

  while (rows != NULL && cro_rows_next (rows, error))
    {
      last = MAX (last, cro_rows_get_int (rows, 0));
      is_taken |= cro_rows_get_int (rows, 0) == *position;
    }
  if (is_taken)
    *position = (last / CRO_MICRO + 1) * CRO_MICRO;
  return rows != NULL;
}

static gboolean
apply_added (const CroTried      *self,
             CroBook             *book,
             const char *const   *names,
             GError             **error)
{
  g_autoptr (GArray) cells = g_array_copy (self->cells);
  CroCell *place = find_cell (self, "position_micro");

  if (g_str_equal (self->table, "recipe_line") && place != NULL)
    {
      CroCell *copy = (CroCell *) cells->data + (place - (CroCell *) self->cells->data);

      if (!find_place (self, cro_book_get_store (book), &copy->integer, error))
        return FALSE;
    }
  return cro_edit_insert (book, self->table, names, (CroCell *) cells->data, error) != 0;
}

static gboolean
check_there (const CroTried  *self,
             CroBook         *book,
             GError         **error)
{
  GError *failed = NULL;

  if (is_there (cro_book_get_store (book), self->table, self->id, &failed))
    return TRUE;
  if (failed != NULL)
    g_propagate_error (error, failed);
  else
    g_set_error (error, CRO_STORE_ERROR, CRO_STORE_ERROR_CHANGED, "a row of %s is gone", self->table);
  return FALSE;
}

gboolean
cro_tried_apply (const CroTried  *self,
                 CroBook         *book,
                 CroDate          from,
                 GError         **error)
{
  g_autoptr (GPtrArray) names = names_of (self);
  const CroCell *cells = (const CroCell *) self->cells->data;

  g_ptr_array_add (names, NULL);
  switch (self->kind)
    {
    case CRO_TRIED_PRICE:
      return apply_price (self, book, from, error);
    case CRO_TRIED_ADDED:
      return apply_added (self, book, (const char *const *) names->pdata, error);
    case CRO_TRIED_REMOVED:
      return check_there (self, book, error)
             && cro_store_delete (cro_book_get_store (book), self->table, self->id, error);
    default:
      return check_there (self, book, error)
             && cro_edit_update_row (book, self->table, self->id, (const char *const *) names->pdata,
                                     cells, error);
    }
}
