#include "cro-book-private.h"

#include "cro-model-rows.h"

#include <string.h>

static gboolean
compile (CroBook  *self,
         GError  **error)
{
  g_autoptr (GPtrArray) cycle = cro_figures_compile (self->figures);
  g_autofree char *path = NULL;

  if (cycle == NULL)
    return TRUE;
  g_ptr_array_add (cycle, NULL);
  path = g_strjoinv (" → ", (char **) cycle->pdata);
  g_set_error_literal (error, CRO_BOOK_ERROR, CRO_BOOK_ERROR_CYCLE, path);
  return FALSE;
}

static gboolean
load (CroBook  *self,
      GError  **error)
{
  g_autoptr (CroModel) model = cro_model_new ();
  gint64 last_change = cro_store_last_change (self->store);

  if (!cro_model_load (model, self->store, self->date, self->tried != NULL, error))
    return FALSE;
  g_clear_pointer (&self->figures, cro_figures_free);
  g_clear_pointer (&self->model, cro_model_free);
  self->last_change = last_change;
  cro_book_next_edition (self);
  self->model = g_steal_pointer (&model);
  self->figures = cro_figures_new (self->model, self->date);
  return compile (self, error);
}

/* Reads everything anew: after a fill, or where a change cannot be followed row by row. */
gboolean
cro_book_reload (CroBook  *self,
                 GError  **error)
{
  gboolean done;

  if (!cro_store_begin_read (self->store, error))
    return FALSE;
  done = load (self, error);
  cro_store_end_read (self->store);
  return done;
}

void
cro_moves_init (CroMoves *moves)
{
  memset (moves, 0, sizeof *moves);
  moves->prices = g_hash_table_new (NULL, NULL);
  moves->items = g_hash_table_new (NULL, NULL);
  moves->recipes = g_hash_table_new (NULL, NULL);
}

void
cro_moves_clear (CroMoves *moves)
{
  g_hash_table_unref (moves->prices);
  g_hash_table_unref (moves->items);
  g_hash_table_unref (moves->recipes);
}

void
cro_moves_note (CroMoves         *moves,
                const CroTouched *touched)
{
  switch (touched->kind)
    {
    case CRO_TOUCHED_NOTHING:
      break;
    case CRO_TOUCHED_PRICE:
      g_hash_table_add (moves->prices, GUINT_TO_POINTER (touched->slot));
      break;
    case CRO_TOUCHED_ITEM:
      g_hash_table_add (moves->items, GUINT_TO_POINTER (touched->slot));
      break;
    case CRO_TOUCHED_RECIPE:
      g_hash_table_add (moves->recipes, GUINT_TO_POINTER (touched->slot));
      break;
    case CRO_TOUCHED_STRUCTURE:
      moves->structure = TRUE;
      break;
    case CRO_TOUCHED_ALL:
      moves->all = TRUE;
      break;
    }
}

static void
touch_all (GHashTable *slots,
           void       (*touch) (CroFigures *, guint32),
           CroFigures *figures)
{
  GHashTableIter iter;
  gpointer slot;

  g_hash_table_iter_init (&iter, slots);
  while (g_hash_table_iter_next (&iter, &slot, NULL))
    touch (figures, GPOINTER_TO_UINT (slot));
}

gboolean
cro_book_carry_out (CroBook  *self,
                    CroMoves *moves,
                    GError  **error)
{
  if (moves->everything)
    return cro_book_reload (self, error);
  if (moves->structure)
    cro_model_sort (self->model);
  if (moves->all && !cro_model_load_prices (self->model, self->store, self->date, error))
    return FALSE;
  if (moves->structure)
    return compile (self, error);
  if (moves->all)
    {
      cro_figures_reprice (self->figures, self->date);
      return TRUE;
    }
  touch_all (moves->prices, cro_figures_touch_price, self->figures);
  touch_all (moves->items, cro_figures_touch_item, self->figures);
  touch_all (moves->recipes, cro_figures_touch_recipe, self->figures);
  cro_figures_settle (self->figures);
  return TRUE;
}

gboolean
cro_book_take (CroBook            *self,
               CroMoves           *moves,
               const char         *table,
               gint64              id,
               const char *const  *columns,
               const CroCell      *cells,
               GError            **error)
{
  CroTouched touched;

  if (strcmp (table, "*") == 0)
    {
      moves->everything = TRUE;
      return TRUE;
    }
  if (!cro_model_take (self->model, self->store, self->date, table, id, columns, cells, &touched,
                       error))
    return FALSE;
  cro_moves_note (moves, &touched);
  return TRUE;
}

/* Read one by one a price takes as long as four where all are read from end to end; of few nothing is saved. */
static gboolean
are_many_prices (CroBook   *self,
                 GPtrArray *changes)
{
  guint n = 0;

  for (guint i = 0; i < changes->len; i++)
    n += strcmp (((CroChange *) changes->pdata[i])->table, "price") == 0;
  return n >= 100 && n > self->model->offers->len / 4;
}

/* The place of a pack in its supplier's list, or a note, is of no figure. */
static gboolean
is_taken (const CroChange *change)
{
  const CroModelTable *table = cro_model_table_find (change->table);

  return table == NULL || change->before == NULL || change->after == NULL
         || cro_model_table_reads (table, change->after);
}

/* Rows are taken table by table, as what a row names must be there before it. */
static gboolean
take_changes (CroBook    *self,
              GPtrArray  *changes,
              CroMoves   *moves,
              GError    **error)
{
  gboolean all_prices = are_many_prices (self, changes);

  moves->all |= all_prices;
  for (const char *const *table = cro_model_tables (); *table != NULL; table++)
    for (guint i = 0; i < changes->len; i++)
      {
        const CroChange *change = changes->pdata[i];

        if (strcmp (change->table, *table) != 0 || (all_prices && strcmp (*table, "price") == 0)
            || !is_taken (change))
          continue;
        if (!cro_book_take (self, moves, change->table, change->row, NULL, NULL, error))
          return FALSE;
      }
  return TRUE;
}

static gboolean
take_in (CroBook    *self,
         GPtrArray  *changes,
         GError    **error)
{
  CroMoves moves;
  gboolean done;

  if (changes->len == 0)
    return TRUE;
  cro_moves_init (&moves);
  done = take_changes (self, changes, &moves, error) && cro_book_carry_out (self, &moves, error);
  cro_moves_clear (&moves);
  return done;
}

gint64
cro_book_last_of (CroBook   *self,
                  GPtrArray *changes)
{
  if (changes->len == 0)
    return self->last_change;
  return ((CroChange *) changes->pdata[changes->len - 1])->id;
}

/* What other connections committed since. Within a moment of the store, as rows are read one by
 * one: one that came later could name what is not known yet. */
gboolean
cro_book_take_in_others (CroBook   *self,
                         gboolean  *changed,
                         GError   **error)
{
  g_autoptr (GPtrArray) changes
      = cro_store_list_changes_after (self->store, self->last_change, error);

  if (changes == NULL)
    return FALSE;
  *changed |= changes->len > 0;
  if (changes->len > 0)
    cro_book_next_edition (self);
  if (!take_in (self, changes, error))
    return FALSE;
  self->last_change = cro_book_last_of (self, changes);
  return TRUE;
}

/* A name that is neither bought nor made would be damage to whoever opens the book next. */
static gboolean
check_kinds (CroBook  *self,
             GError  **error)
{
  for (guint i = 0; i < self->taken->len; i++)
    {
      const CroChange *change = self->taken->pdata[i];

      if ((strcmp (change->table, "item") == 0 || strcmp (change->table, "ingredient") == 0
           || strcmp (change->table, "output") == 0)
          && !cro_model_has_kind (self->model, change->row))
        {
          g_set_error (error, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE,
                       "item %" G_GINT64_FORMAT " would be neither bought nor made", change->row);
          return FALSE;
        }
    }
  return TRUE;
}

/* Rows that no other row names come and go in a trial. */
static gboolean
check_trial (CroBook  *self,
             GError  **error)
{
  static const char *const loose[] = { "recipe_line", "menu_plate", "price", "selling_price", "rate", NULL };

  for (guint i = 0; self->tried != NULL && i < self->taken->len; i++)
    {
      const CroChange *change = self->taken->pdata[i];

      if ((change->before == NULL || change->after == NULL)
          && !g_strv_contains (loose, change->table))
        {
          g_set_error (error, CRO_BOOK_ERROR, CRO_BOOK_ERROR_TRIAL, "a row of %s", change->table);
          return FALSE;
        }
    }
  return TRUE;
}

/* Before an act is committed the figures take it in: what would make a cycle never is. */
gboolean
cro_book_check_act (gpointer   user_data,
                    GError   **error)
{
  CroBook *self = user_data;

  self->taken = cro_store_list_changes_after (self->store, self->last_change, error);
  if (self->taken == NULL || !check_trial (self, error)
      || !take_in (self, self->taken, error) || !check_kinds (self, error))
    return FALSE;
  if (self->look == NULL)
    return TRUE;
  self->look (self, self->look_data);
  self->has_looked = TRUE;
  g_set_error_literal (error, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE, "the act was only tried");
  return FALSE;
}

/* The rows of an act that was not committed are read again as they stand. */
void
cro_book_take_back (CroBook *self)
{
  gboolean changed = FALSE;
  gboolean done;
  CroMoves moves;

  cro_moves_init (&moves);
  /* What the failed act left undone, an order of parts perhaps, is done from the ground up. */
  moves.structure = moves.all = TRUE;
  done = cro_store_begin_read (self->store, NULL);
  if (done)
    {
      done = take_changes (self, self->taken, &moves, NULL)
             && cro_book_carry_out (self, &moves, NULL)
             && cro_book_take_in_others (self, &changed, NULL);
      cro_store_end_read (self->store);
    }
  cro_moves_clear (&moves);
  if (!done)
    cro_book_reload (self, NULL);
}
