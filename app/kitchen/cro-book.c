#include "cro-book.h"

#include <string.h>

struct _CroBook
{
  GObject     parent_instance;

  CroStore   *store;
  CroModel   *model;
  CroFigures *figures;
  CroDate     date;
  gint64      last_change;     /* newest change that the figures know */

  /* The row that a preview shows otherwise than it is; table NULL: none. */
  const char *preview_table;
  gint64      preview_id;
  gboolean    preview_is_price;
};

G_DEFINE_FINAL_TYPE (CroBook, cro_book, G_TYPE_OBJECT)
G_DEFINE_QUARK (cro-book-error-quark, cro_book_error)

enum
{
  CHANGED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

/* --- Figures ------------------------------------------------------------------------------------- */

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

/* Reads everything anew: after a fill, or where a change cannot be followed row by row. */
static gboolean
reload (CroBook  *self,
        GError  **error)
{
  g_autoptr (CroModel) model = cro_model_new ();

  self->last_change = cro_store_last_change (self->store);
  if (!cro_model_load (model, self->store, self->date, error))
    return FALSE;
  g_clear_pointer (&self->figures, cro_figures_free);
  g_clear_pointer (&self->model, cro_model_free);
  self->model = g_steal_pointer (&model);
  self->figures = cro_figures_new (self->model, self->date);
  return compile (self, error);
}

/* What rows mean together for the figures. */
typedef struct
{
  gboolean    structure;
  gboolean    all;
  gboolean    prices;
  gboolean    everything;   /* a fill: no rows are named */
  GHashTable *items;
  GHashTable *recipes;
} Moves;

static void
moves_init (Moves *moves)
{
  memset (moves, 0, sizeof *moves);
  moves->items = g_hash_table_new (NULL, NULL);
  moves->recipes = g_hash_table_new (NULL, NULL);
}

static void
moves_clear (Moves *moves)
{
  g_hash_table_unref (moves->items);
  g_hash_table_unref (moves->recipes);
}

static void
note (Moves            *moves,
      const CroTouched *touched)
{
  switch (touched->kind)
    {
    case CRO_TOUCHED_NOTHING:
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

static gboolean
carry_out (CroBook  *self,
           Moves    *moves,
           GError  **error)
{
  if (moves->everything)
    return reload (self, error);
  if (moves->structure)
    cro_model_sort (self->model);
  if ((moves->prices || moves->structure || moves->all)
      && !cro_model_load_prices (self->model, self->store, self->date, error))
    return FALSE;
  if (moves->structure)
    return compile (self, error);
  if (moves->all || moves->prices)
    {
      cro_figures_reprice (self->figures, self->date);
      return TRUE;
    }
  touch_all (moves->items, cro_figures_touch_item, self->figures);
  touch_all (moves->recipes, cro_figures_touch_recipe, self->figures);
  cro_figures_settle (self->figures);
  return TRUE;
}

/* --- Changes ---------------------------------------------------------------------------------------- */

static gboolean
take (CroBook        *self,
      Moves          *moves,
      const char     *table,
      gint64          id,
      const char     *column,
      const CroCell  *cell,
      GError        **error)
{
  CroTouched touched;

  if (strcmp (table, "*") == 0)
    moves->everything = TRUE;
  else if (strcmp (table, "price") == 0 || strcmp (table, "rate") == 0)
    moves->prices = TRUE;
  if (!cro_model_take (self->model, self->store, self->date, table, id, column, cell, &touched,
                       error))
    return FALSE;
  note (moves, &touched);
  return TRUE;
}

/* Rows are taken table by table, as what a row names must be there before it. */
static gboolean
take_changes (CroBook    *self,
              GPtrArray  *changes,
              Moves      *moves,
              GError    **error)
{
  for (const char *const *table = cro_model_tables (); *table != NULL; table++)
    for (guint i = 0; i < changes->len; i++)
      {
        const CroChange *change = changes->pdata[i];

        if (strcmp (change->table, *table) == 0
            && !take (self, moves, change->table, change->row, NULL, NULL, error))
          return FALSE;
      }
  return TRUE;
}

static gboolean
apply_changes (CroBook   *self,
               gboolean  *changed,
               GError   **error)
{
  g_autoptr (GPtrArray) changes = cro_store_list_changes_after (self->store, self->last_change,
                                                                error);
  Moves moves;
  gboolean done;

  if (changes == NULL)
    return FALSE;
  if (changed != NULL)
    *changed = changes->len > 0;
  if (changes->len == 0)
    return TRUE;

  moves_init (&moves);
  self->last_change = ((CroChange *) changes->pdata[changes->len - 1])->id;
  done = take_changes (self, changes, &moves, error) && carry_out (self, &moves, error);
  moves_clear (&moves);
  if (done)
    g_signal_emit (self, signals[CHANGED], 0);
  return done;
}

/* --- The object --------------------------------------------------------------------------------------- */

static void
cro_book_finalize (GObject *object)
{
  CroBook *self = CRO_BOOK (object);

  g_clear_pointer (&self->figures, cro_figures_free);
  g_clear_pointer (&self->model, cro_model_free);
  g_clear_pointer (&self->store, cro_store_close);
  G_OBJECT_CLASS (cro_book_parent_class)->finalize (object);
}

static void
cro_book_class_init (CroBookClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = cro_book_finalize;

  signals[CHANGED] = g_signal_new ("changed", CRO_TYPE_BOOK, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
}

static void
cro_book_init (CroBook *self)
{
}

static CroBook *
book_on (CroStore  *store,
         CroDate    date,
         GError   **error)
{
  g_autoptr (CroBook) self = NULL;

  if (store == NULL)
    return NULL;
  self = g_object_new (CRO_TYPE_BOOK, NULL);
  self->store = store;
  self->date = date;
  return reload (self, error) ? g_steal_pointer (&self) : NULL;
}

CroBook *
cro_book_open (const char    *path,
               const char    *desk,
               CroStoreMode   mode,
               CroDate        date,
               GError       **error)
{
  return book_on (cro_store_open (path, desk, mode, error), date, error);
}

CroBook *
cro_book_create (const char  *path,
                 const char  *desk,
                 CroDate      date,
                 GError     **error)
{
  return book_on (cro_store_create (path, desk, error), date, error);
}

CroStore *
cro_book_get_store (CroBook *self)
{
  return self->store;
}

CroModel *
cro_book_get_model (CroBook *self)
{
  return self->model;
}

CroFigures *
cro_book_get_figures (CroBook *self)
{
  return self->figures;
}

gboolean
cro_book_set_date (CroBook  *self,
                   CroDate   date,
                   GError  **error)
{
  if (!cro_model_load_prices (self->model, self->store, date, error))
    return FALSE;
  self->date = date;
  cro_figures_reprice (self->figures, date);
  g_signal_emit (self, signals[CHANGED], 0);
  return TRUE;
}

/* --- Previews --------------------------------------------------------------------------------------------- */

static gboolean
show (CroBook        *self,
      const char     *table,
      gint64          id,
      const char     *column,
      const CroCell  *cell,
      GError        **error)
{
  Moves moves;
  gboolean done;

  moves_init (&moves);
  done = take (self, &moves, table, id, column, cell, error) && carry_out (self, &moves, error);
  moves_clear (&moves);
  return done;
}

static gboolean
give_back (CroBook  *self,
           GError  **error)
{
  const char *table = g_steal_pointer (&self->preview_table);

  if (table == NULL)
    return TRUE;
  if (!self->preview_is_price)
    return show (self, table, self->preview_id, NULL, NULL, error);
  /* Prices are read as a whole; the offer tells whose figures to settle. */
  if (!cro_model_load_prices (self->model, self->store, self->date, error))
    return FALSE;
  cro_figures_touch_price (self->figures,
                           cro_model_offer (self->model, (guint32) self->preview_id)->item);
  cro_figures_settle (self->figures);
  return TRUE;
}

gboolean
cro_book_preview (CroBook        *self,
                  const char     *table,
                  gint64          id,
                  const char     *column,
                  const CroCell  *cell,
                  GError        **error)
{
  if (!give_back (self, error))
    return FALSE;
  self->preview_table = g_intern_string (table);
  self->preview_id = id;
  self->preview_is_price = FALSE;
  if (!show (self, table, id, column, cell, error))
    {
      give_back (self, NULL);
      return FALSE;
    }
  g_signal_emit (self, signals[CHANGED], 0);
  return TRUE;
}

gboolean
cro_book_preview_price (CroBook  *self,
                        guint32   slot,
                        gint64    price,
                        GError  **error)
{
  CroOfferEntry *entry;

  if (!give_back (self, error))
    return FALSE;
  entry = cro_model_offer (self->model, slot);
  self->preview_table = g_intern_static_string ("offer");
  self->preview_id = slot;
  self->preview_is_price = TRUE;
  entry->offer.price = price;
  entry->offer.from = self->date;
  entry->offer.has_price = true;
  cro_figures_touch_price (self->figures, entry->item);
  cro_figures_settle (self->figures);
  g_signal_emit (self, signals[CHANGED], 0);
  return TRUE;
}

gboolean
cro_book_restore (CroBook  *self,
                  GError  **error)
{
  gboolean had_preview = self->preview_table != NULL;

  if (!give_back (self, error))
    return FALSE;
  if (had_preview)
    g_signal_emit (self, signals[CHANGED], 0);
  return TRUE;
}

/* --- Acts ------------------------------------------------------------------------------------------------------ */

gboolean
cro_book_begin_act (CroBook     *self,
                    const char  *label,
                    GError     **error)
{
  return give_back (self, error) && cro_store_begin_act (self->store, label, error);
}

/* The figures take the change in before it is committed: what would make a cycle never is. */
gboolean
cro_book_end_act (CroBook  *self,
                  GError  **error)
{
  gint64 last = self->last_change;

  if (apply_changes (self, NULL, error) && cro_store_end_act (self->store, NULL, error))
    return TRUE;
  cro_store_cancel_act (self->store);
  self->last_change = last;
  reload (self, NULL);
  g_signal_emit (self, signals[CHANGED], 0);
  return FALSE;
}

void
cro_book_cancel_act (CroBook *self)
{
  cro_store_cancel_act (self->store);
}

gboolean
cro_book_set (CroBook        *self,
              const char     *label,
              const char     *table,
              gint64          id,
              const char     *column,
              const CroCell  *cell,
              GError        **error)
{
  const char *columns[] = { column, NULL };

  if (!cro_book_begin_act (self, label, error))
    return FALSE;
  if (!cro_store_update (self->store, table, id, columns, cell, error))
    {
      cro_book_cancel_act (self);
      return FALSE;
    }
  return cro_book_end_act (self, error);
}

gboolean
cro_book_undo (CroBook      *self,
               CroConflict  *conflict,
               GError      **error)
{
  return give_back (self, error) && cro_store_undo (self->store, NULL, conflict, error)
         && apply_changes (self, NULL, error);
}

gboolean
cro_book_redo (CroBook      *self,
               CroConflict  *conflict,
               GError      **error)
{
  return give_back (self, error) && cro_store_redo (self->store, NULL, conflict, error)
         && apply_changes (self, NULL, error);
}

gboolean
cro_book_refresh (CroBook   *self,
                  gboolean  *changed,
                  GError   **error)
{
  gboolean moved = FALSE;

  if (changed != NULL)
    *changed = FALSE;
  if (!cro_store_poll (self->store, &moved, error))
    return FALSE;
  if (!moved)
    return TRUE;
  return give_back (self, error) && apply_changes (self, changed, error);
}
