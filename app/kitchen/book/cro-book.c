#include "cro-book.h"

#include <string.h>

#include "cro-book-open.h"
#include "cro-kept-row.h"
#include "cro-refusal.h"

struct _CroBook
{
  GObject     parent_instance;

  CroStore   *store;
  CroModel   *model;
  CroFigures *figures;
  CroDate     date;
  gboolean    is_past;
  CroDate     day;             /* of a past: how the book stood at its end */
  gint64      last_change;     /* newest change that the figures know */
  gboolean    in_act;
  GPtrArray  *taken;           /* changes of the act being ended, in the figures already */
  guint64     edition;

  CroBookLater later;          /* NULL: whoever listens is told at once */
  gpointer    later_data;
  gboolean    is_untold;

  /* The row that previews were shown of, as it stood at an edition; NULL: they go by the store. */
  CroKeptRow *kept;
  const char *kept_table;
  gint64      kept_id;
  guint64     kept_edition;
  gboolean    is_kept_shown;   /* otherwise than it is */

  /* One that goes by the store and is shown otherwise than it is; table NULL: none. */
  const char *preview_table;
  gint64      preview_id;
};

G_DEFINE_FINAL_TYPE (CroBook, cro_book, G_TYPE_OBJECT)
G_DEFINE_QUARK (cro-book-error-quark, cro_book_error)

enum
{
  CHANGED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

/* --- Telling ------------------------------------------------------------------------------------- */

void
cro_book_tell (CroBook *self)
{
  if (!self->is_untold)
    return;
  self->is_untold = FALSE;
  g_signal_emit (self, signals[CHANGED], 0);
}

static void
moved (CroBook *self)
{
  self->is_untold = TRUE;
  if (self->later != NULL)
    self->later (self, self->later_data);
  else
    cro_book_tell (self);
}

void
cro_book_set_later (CroBook      *self,
                    CroBookLater  later,
                    gpointer      user_data)
{
  self->later = later;
  self->later_data = user_data;
}

guint64
cro_book_get_edition (CroBook *self)
{
  return self->edition;
}

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

static gboolean
load (CroBook  *self,
      GError  **error)
{
  g_autoptr (CroModel) model = cro_model_new ();
  gint64 last_change = cro_store_last_change (self->store);

  if (!cro_model_load (model, self->store, self->date, error))
    return FALSE;
  g_clear_pointer (&self->figures, cro_figures_free);
  g_clear_pointer (&self->model, cro_model_free);
  self->last_change = last_change;
  self->edition++;
  self->model = g_steal_pointer (&model);
  self->figures = cro_figures_new (self->model, self->date);
  return compile (self, error);
}

/* Reads everything anew: after a fill, or where a change cannot be followed row by row. */
static gboolean
reload (CroBook  *self,
        GError  **error)
{
  gboolean done;

  if (!cro_store_begin_read (self->store, error))
    return FALSE;
  done = load (self, error);
  cro_store_end_read (self->store);
  return done;
}

/* What rows mean together for the figures. */
typedef struct
{
  gboolean    structure;
  gboolean    all;
  gboolean    everything;   /* a fill: no rows are named */
  GHashTable *prices;       /* slots of items */
  GHashTable *items;
  GHashTable *recipes;
} Moves;

static void
moves_init (Moves *moves)
{
  memset (moves, 0, sizeof *moves);
  moves->prices = g_hash_table_new (NULL, NULL);
  moves->items = g_hash_table_new (NULL, NULL);
  moves->recipes = g_hash_table_new (NULL, NULL);
}

static void
moves_clear (Moves *moves)
{
  g_hash_table_unref (moves->prices);
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

static gboolean
carry_out (CroBook  *self,
           Moves    *moves,
           GError  **error)
{
  if (moves->everything)
    return reload (self, error);
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

/* --- Changes ---------------------------------------------------------------------------------------- */

static gboolean
take (CroBook            *self,
      Moves              *moves,
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
take_in (CroBook    *self,
         GPtrArray  *changes,
         GError    **error)
{
  Moves moves;
  gboolean done;

  if (changes->len == 0)
    return TRUE;
  moves_init (&moves);
  done = take_changes (self, changes, &moves, error) && carry_out (self, &moves, error);
  moves_clear (&moves);
  return done;
}

static gint64
last_of (CroBook   *self,
         GPtrArray *changes)
{
  if (changes->len == 0)
    return self->last_change;
  return ((CroChange *) changes->pdata[changes->len - 1])->id;
}

/* What other connections committed since. Within a moment of the store, as rows are read one by
 * one: one that came later could name what is not known yet. */
static gboolean
take_in_others (CroBook   *self,
                gboolean  *changed,
                GError   **error)
{
  g_autoptr (GPtrArray) changes = cro_store_list_changes_after (self->store, self->last_change,
                                                                error);

  if (changes == NULL)
    return FALSE;
  *changed |= changes->len > 0;
  self->edition += changes->len > 0;
  if (!take_in (self, changes, error))
    return FALSE;
  self->last_change = last_of (self, changes);
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

/* Before an act is committed the figures take it in: what would make a cycle never is. */
static gboolean
check_act_cb (gpointer   user_data,
              GError   **error)
{
  CroBook *self = user_data;

  self->taken = cro_store_list_changes_after (self->store, self->last_change, error);
  return self->taken != NULL && take_in (self, self->taken, error) && check_kinds (self, error);
}

/* The rows of an act that was not committed are read again as they stand. */
static void
take_back (CroBook *self)
{
  gboolean changed = FALSE;
  gboolean done;
  Moves moves;

  moves_init (&moves);
  /* What the failed act left undone, an order of parts perhaps, is done from the ground up. */
  moves.structure = moves.all = TRUE;
  done = cro_store_begin_read (self->store, NULL);
  if (done)
    {
      done = take_changes (self, self->taken, &moves, NULL) && carry_out (self, &moves, NULL)
             && take_in_others (self, &changed, NULL);
      cro_store_end_read (self->store);
    }
  moves_clear (&moves);
  if (!done)
    reload (self, NULL);
}

/* After the store ended an act, or undid or redid one. */
static gboolean
finish (CroBook  *self,
        gboolean  done)
{
  gboolean is_moved = self->taken != NULL && self->taken->len > 0;

  self->in_act = FALSE;
  if (!done)
    cro_store_cancel_act (self->store);
  if (done && is_moved)
    self->last_change = last_of (self, self->taken);
  else if (is_moved)
    take_back (self);
  self->edition += is_moved;
  g_clear_pointer (&self->taken, g_ptr_array_unref);
  if (is_moved)
    moved (self);
  return done;
}

/* --- The object --------------------------------------------------------------------------------------- */

static void
cro_book_finalize (GObject *object)
{
  CroBook *self = CRO_BOOK (object);

  g_clear_pointer (&self->kept, cro_kept_row_free);
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

/* watch may be NULL. */
static CroBook *
book_on (CroStore        *store,
         CroDate          date,
         const CroWatch  *watch,
         GError         **error)
{
  g_autoptr (CroBook) self = NULL;
  gboolean done;

  if (store == NULL)
    return NULL;
  self = g_object_new (CRO_TYPE_BOOK, NULL);
  self->store = store;
  self->date = date;
  cro_store_set_check (store, check_act_cb, self);
  cro_store_watch (store, cro_model_tables (), watch);
  done = reload (self, error);
  cro_store_watch (store, NULL, NULL);
  return done ? g_steal_pointer (&self) : NULL;
}

CroBook *
cro_book_open_watched (const char      *path,
                       const char      *desk,
                       CroStoreMode     mode,
                       CroDate          date,
                       const CroWatch  *watch,
                       GError         **error)
{
  return book_on (cro_store_open (path, desk, mode, error), date, watch, error);
}

CroBook *
cro_book_open (const char    *path,
               const char    *desk,
               CroStoreMode   mode,
               CroDate        date,
               GError       **error)
{
  return cro_book_open_watched (path, desk, mode, date, NULL, error);
}

CroBook *
cro_book_open_past_watched (const char      *path,
                            CroDate          day,
                            CroDate          date,
                            const CroWatch  *watch,
                            GError         **error)
{
  g_autoptr (CroStore) store = cro_store_open (path, NULL, CRO_STORE_READ, error);
  CroBook *self;
  char text[CRO_DATE_CHARS];

  if (store == NULL)
    return NULL;
  cro_date_format (day, text);
  self = book_on (cro_store_open_past (store, text, error), date, watch, error);
  if (self == NULL)
    return NULL;
  self->is_past = TRUE;
  self->day = day;
  return self;
}

CroBook *
cro_book_open_past (const char  *path,
                    CroDate      day,
                    CroDate      date,
                    GError     **error)
{
  return cro_book_open_past_watched (path, day, date, NULL, error);
}

gboolean
cro_book_is_past (CroBook *self,
                  CroDate *day)
{
  if (day != NULL)
    *day = self->day;
  return self->is_past;
}

CroBook *
cro_book_create (const char  *path,
                 const char  *desk,
                 CroDate      date,
                 GError     **error)
{
  return book_on (cro_store_create (path, desk, error), date, NULL, error);
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

/* --- Previews --------------------------------------------------------------------------------------------- */

static gboolean
is_previewed (CroBook *self)
{
  return self->is_kept_shown || self->preview_table != NULL;
}

static gboolean
show (CroBook            *self,
      const char         *table,
      gint64              id,
      const char *const  *columns,
      const CroCell      *cells,
      GError            **error)
{
  Moves moves;
  gboolean done;

  moves_init (&moves);
  done = take (self, &moves, table, id, columns, cells, error) && carry_out (self, &moves, error);
  moves_clear (&moves);
  return done;
}

static gboolean
show_kept (CroBook            *self,
           const char *const  *columns,
           const CroCell      *cells,
           GError            **error)
{
  CroTouched touched;
  Moves moves;
  gboolean done;

  moves_init (&moves);
  done = cro_kept_row_take (self->kept, self->model, columns, cells, &touched, error);
  if (done)
    note (&moves, &touched);
  done = done && carry_out (self, &moves, error);
  moves_clear (&moves);
  return done;
}

/* Only what goes by the store asks it, in a moment of it. */
static gboolean
give_back (CroBook  *self,
           GError  **error)
{
  const char *table = g_steal_pointer (&self->preview_table);

  if (self->is_kept_shown)
    {
      self->is_kept_shown = FALSE;
      return show_kept (self, NULL, NULL, error);
    }
  return table == NULL || show (self, table, self->preview_id, NULL, NULL, error);
}

/* A preview is the beginning of an edit. */
static gboolean
refuse_past (CroBook  *self,
             GError  **error)
{
  if (self->is_past)
    g_set_error_literal (error, CRO_STORE_ERROR, CRO_STORE_ERROR_PAST,
                         "the book as it stood is only read");
  return self->is_past;
}

/* Everything as it stands in the store now, in a moment of it that goes on if this succeeds. */
static gboolean
begin_preview (CroBook  *self,
               GError  **error)
{
  gboolean changed = FALSE;

  g_return_val_if_fail (!self->in_act, FALSE);

  if (!cro_store_begin_read (self->store, error))
    return FALSE;
  if (give_back (self, error) && take_in_others (self, &changed, error))
    return TRUE;
  cro_store_end_read (self->store);
  return FALSE;
}

static void
end_preview (CroBook *self)
{
  cro_store_end_read (self->store);
  moved (self);
}

/* Gives back what a preview shows; it stays with others' acts unless they are asked for. */
static gboolean
end_any_preview (CroBook  *self,
                 GError  **error)
{
  if (self->preview_table == NULL)
    return give_back (self, error);
  if (!begin_preview (self, error))
    return FALSE;
  cro_store_end_read (self->store);
  return TRUE;
}

static gboolean
keeps (CroBook    *self,
       const char *table,
       gint64      id)
{
  return self->kept_table == g_intern_string (table) && self->kept_id == id
         && self->kept_edition == self->edition;
}

static void
keep (CroBook    *self,
      CroKeptRow *kept,
      const char *table,
      gint64      id)
{
  g_clear_pointer (&self->kept, cro_kept_row_free);
  self->kept = kept;
  self->kept_table = g_intern_string (table);
  self->kept_id = id;
  self->kept_edition = self->edition;
}

static gboolean
look_at (CroBook     *self,
         const char  *table,
         gint64       id,
         GError     **error)
{
  gboolean was_previewed = is_previewed (self);
  guint64 edition = self->edition;
  GError *failed = NULL;
  CroKeptRow *kept;

  if (keeps (self, table, id))
    return TRUE;
  if (!begin_preview (self, error))
    return FALSE;
  kept = cro_kept_row_new (self->model, self->store, self->date, table, id, &failed);
  if (failed == NULL)
    keep (self, kept, table, id);
  cro_store_end_read (self->store);
  if (was_previewed || self->edition != edition)
    moved (self);
  if (failed == NULL)
    return TRUE;
  g_propagate_error (error, failed);
  return FALSE;
}

gboolean
cro_book_look_at (CroBook     *self,
                  const char  *table,
                  gint64       id,
                  GError     **error)
{
  return is_previewed (self) || look_at (self, table, id, error);
}

gboolean
cro_book_preview (CroBook        *self,
                  const char     *table,
                  gint64          id,
                  const char     *column,
                  const CroCell  *cell,
                  GError        **error)
{
  const char *columns[] = { column, NULL };

  return cro_book_preview_row (self, table, id, columns, cell, error);
}

/* One takes the place of another, and of what that made of the row. */
static gboolean
preview_kept (CroBook            *self,
              const char *const  *columns,
              const CroCell      *cells,
              GError            **error)
{
  gboolean done;

  if (self->preview_table != NULL && !end_any_preview (self, error))
    return FALSE;
  self->is_kept_shown = TRUE;
  done = show_kept (self, columns, cells, error);
  if (!done)
    give_back (self, NULL);
  moved (self);
  return done;
}

static gboolean
preview_by_store (CroBook            *self,
                  const char         *table,
                  gint64              id,
                  const char *const  *columns,
                  const CroCell      *cells,
                  GError            **error)
{
  gboolean done;

  if (!begin_preview (self, error))
    return FALSE;
  self->preview_table = g_intern_string (table);
  self->preview_id = id;
  done = show (self, table, id, columns, cells, error);
  if (!done)
    give_back (self, NULL);
  end_preview (self);
  return done;
}

gboolean
cro_book_preview_row (CroBook            *self,
                      const char         *table,
                      gint64              id,
                      const char *const  *columns,
                      const CroCell      *cells,
                      GError            **error)
{
  g_auto (CroTidyCells) tidy = { 0 };

  if (!cro_tidy_cells (table, columns, cells, &tidy, error))
    {
      cro_book_restore (self, NULL);
      return FALSE;
    }
  if (refuse_past (self, error) || !look_at (self, table, id, error))
    return FALSE;
  if (self->kept != NULL && cro_kept_row_shows (self->kept, columns))
    return preview_kept (self, columns, tidy.cells, error);
  return preview_by_store (self, table, id, columns, tidy.cells, error);
}

gboolean
cro_book_preview_price (CroBook  *self,
                        guint32   slot,
                        gint64    price,
                        GError  **error)
{
  static const char table[] = "price of an offer";
  CroOfferEntry *entry;

  if (refuse_past (self, error) || !end_any_preview (self, error))
    return FALSE;
  if (!keeps (self, table, slot))
    keep (self, cro_kept_row_new_price (self->model, slot), table, slot);
  entry = cro_model_offer (self->model, slot);
  self->is_kept_shown = TRUE;
  entry->offer.price = price;
  entry->offer.from = self->date;
  entry->offer.has_price = true;
  cro_figures_touch_price (self->figures, entry->item);
  cro_figures_settle (self->figures);
  moved (self);
  return TRUE;
}

gboolean
cro_book_restore (CroBook  *self,
                  GError  **error)
{
  if (!is_previewed (self))
    return TRUE;
  if (!end_any_preview (self, error))
    return FALSE;
  moved (self);
  return TRUE;
}

gboolean
cro_book_refresh (CroBook   *self,
                  gboolean  *changed,
                  GError   **error)
{
  gboolean is_moved = FALSE;
  gboolean done;

  g_return_val_if_fail (!self->in_act, FALSE);

  if (changed != NULL)
    *changed = FALSE;
  if (!cro_store_poll (self->store, &is_moved, error))
    return FALSE;
  if (!is_moved)
    return TRUE;
  is_moved = FALSE;
  if (!cro_store_begin_read (self->store, error))
    return FALSE;
  done = give_back (self, error) && take_in_others (self, &is_moved, error);
  cro_store_end_read (self->store);
  if (is_moved)
    moved (self);
  if (changed != NULL)
    *changed = is_moved;
  return done;
}

gboolean
cro_book_set_date (CroBook  *self,
                   CroDate   date,
                   GError  **error)
{
  CroDate before = self->date;
  gboolean done;

  if (!begin_preview (self, error))
    return FALSE;
  self->date = date;
  self->edition++;
  done = cro_model_load_prices (self->model, self->store, date, error);
  if (done)
    cro_figures_reprice (self->figures, date);
  else
    {
      self->date = before;
      reload (self, NULL);
    }
  end_preview (self);
  return done;
}

/* --- Acts ------------------------------------------------------------------------------------------------------ */

/* Figures as they stand in the store are what an act begins with. */
static gboolean
leave_preview (CroBook  *self,
               GError  **error)
{
  if (!is_previewed (self))
    return TRUE;
  if (!begin_preview (self, error))
    return FALSE;
  cro_store_end_read (self->store);
  return TRUE;
}

gboolean
cro_book_begin_act (CroBook     *self,
                    const char  *label,
                    GError     **error)
{
  g_return_val_if_fail (!self->in_act, FALSE);

  self->in_act = leave_preview (self, error) && cro_store_begin_act (self->store, label, error);
  return self->in_act;
}

gboolean
cro_book_end_act (CroBook  *self,
                  GError  **error)
{
  g_return_val_if_fail (self->in_act, FALSE);

  return finish (self, cro_store_end_act (self->store, NULL, error));
}

void
cro_book_cancel_act (CroBook *self)
{
  finish (self, FALSE);
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
  g_auto (CroTidyCells) tidy = { 0 };

  if (!cro_tidy_cells (table, columns, cell, &tidy, error)
      || !cro_book_begin_act (self, label, error))
    return FALSE;
  if (!cro_store_update (self->store, table, id, columns, tidy.cells, error))
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
  g_return_val_if_fail (!self->in_act, FALSE);

  return finish (self, leave_preview (self, error)
                       && cro_store_undo (self->store, NULL, conflict, error));
}

gboolean
cro_book_undo_act (CroBook      *self,
                   gint64        act,
                   CroConflict  *conflict,
                   GError      **error)
{
  g_return_val_if_fail (!self->in_act, FALSE);

  return finish (self, leave_preview (self, error)
                       && cro_store_undo_act (self->store, act, NULL, conflict, error));
}

gboolean
cro_book_redo (CroBook      *self,
               CroConflict  *conflict,
               GError      **error)
{
  g_return_val_if_fail (!self->in_act, FALSE);

  return finish (self, leave_preview (self, error)
                       && cro_store_redo (self->store, NULL, conflict, error));
}
