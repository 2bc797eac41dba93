#include "cro-book-private.h"

#include "cro-book-open.h"
#include "cro-book-try.h"
#include "cro-refusal.h"

G_DEFINE_FINAL_TYPE (CroBook, cro_book, G_TYPE_OBJECT)
G_DEFINE_QUARK (cro-book-error-quark, cro_book_error)

enum
{
  CHANGED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

/* Books are opened in threads of their own. */
void
cro_book_next_edition (CroBook *self)
{
  static int last = 0;

  self->edition = (guint64) (guint) g_atomic_int_add (&last, 1) + 1;
}

/* --- Telling ------------------------------------------------------------------------------------- */

void
cro_book_tell (CroBook *self)
{
  if (!self->is_untold)
    return;
  self->is_untold = FALSE;
  g_signal_emit (self, signals[CHANGED], 0);
}

void
cro_book_move (CroBook *self)
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

void
cro_book_ask_anew (CroBook *self)
{
  cro_book_next_edition (self);
  cro_book_move (self);
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
    self->last_change = cro_book_last_of (self, self->taken);
  else if (is_moved)
    cro_book_take_back (self);
  if (is_moved)
    cro_book_next_edition (self);
  g_clear_pointer (&self->taken, g_ptr_array_unref);
  if (is_moved)
    cro_book_move (self);
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
  g_clear_object (&self->tried);
  G_OBJECT_CLASS (cro_book_parent_class)->finalize (object);
}

static void
cro_book_class_init (CroBookClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = cro_book_finalize;

  signals[CHANGED] = g_signal_new ("changed", CRO_TYPE_BOOK, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 0);
}

static void
cro_book_init (CroBook *self)
{
}

/* tried: of a trial; it and watch may be NULL. */
static CroBook *
book_on (CroStore        *store,
         CroDate          date,
         CroBook         *tried,
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
  g_set_object (&self->tried, tried);
  cro_store_set_check (store, cro_book_check_act, self);
  cro_store_watch (store, cro_model_tables (), watch);
  done = cro_book_reload (self, error);
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
  return book_on (cro_store_open (path, desk, mode, error), date, NULL, watch, error);
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
  self = book_on (cro_store_open_past (store, text, error), date, NULL, watch, error);
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

CroBook *
cro_book_open_closed (CroBook  *of,
                      gint64    month,
                      CroDate   date,
                      GError  **error)
{
  CroBook *self = book_on (cro_store_open_closed (of->store, month, error), date, NULL, NULL, error);

  if (self == NULL)
    return NULL;
  self->is_past = TRUE;
  self->day = date;
  return self;
}

CroBook *
cro_book_open_recipes (CroBook  *of,
                       CroDate   day,
                       CroDate   date,
                       GError  **error)
{
  CroBook *self;
  char text[CRO_DATE_CHARS];

  cro_date_format (day, text);
  self = book_on (cro_store_open_recipes (of->store, text, error), date, NULL, NULL, error);
  if (self == NULL)
    return NULL;
  self->is_past = TRUE;
  self->day = day;
  return self;
}

CroBook *
cro_book_open_trial (CroBook  *of,
                     GError  **error)
{
  return book_on (cro_store_open_trial (of->store, error), of->date, of, NULL, error);
}

CroBook *
cro_book_get_tried (CroBook *self)
{
  return self->tried;
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
  return book_on (cro_store_create (path, desk, error), date, NULL, NULL, error);
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
  done = cro_book_give_back (self, error) && cro_book_take_in_others (self, &is_moved, error);
  cro_store_end_read (self->store);
  if (is_moved)
    cro_book_move (self);
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

  if (!cro_book_begin_preview (self, error))
    return FALSE;
  self->date = date;
  cro_book_next_edition (self);
  done = cro_model_load_prices (self->model, self->store, date, error);
  if (done)
    cro_figures_reprice (self->figures, date);
  else
    {
      self->date = before;
      cro_book_reload (self, NULL);
    }
  cro_book_end_preview (self);
  return done;
}

/* --- Acts ------------------------------------------------------------------------------------------------------ */

gboolean
cro_book_begin_act (CroBook     *self,
                    const char  *label,
                    GError     **error)
{
  g_return_val_if_fail (!self->in_act, FALSE);

  self->in_act
      = cro_book_leave_preview (self, error) && cro_store_begin_act (self->store, label, error);
  return self->in_act;
}

gboolean
cro_book_end_act (CroBook  *self,
                  GError  **error)
{
  return cro_book_end_numbered (self, NULL, error);
}

gboolean
cro_book_end_numbered (CroBook  *self,
                       gint64   *act,
                       GError  **error)
{
  g_return_val_if_fail (self->in_act, FALSE);

  return finish (self, cro_store_end_act (self->store, act, error));
}

gboolean
cro_book_try_act (CroBook      *self,
                  CroBookLook   look,
                  gpointer      user_data,
                  GError      **error)
{
  g_autoptr (GError) refused = NULL;

  g_return_val_if_fail (self->in_act, FALSE);

  self->look = look;
  self->look_data = user_data;
  self->has_looked = FALSE;
  cro_store_end_act (self->store, NULL, &refused);
  self->look = NULL;
  finish (self, FALSE);
  if (!self->has_looked && refused != NULL)
    {
      g_propagate_error (error, g_steal_pointer (&refused));
      return FALSE;
    }
  /* An act that wrote nothing leaves all as it is. */
  if (!self->has_looked)
    look (self, user_data);
  return TRUE;
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

  return finish (self, cro_book_leave_preview (self, error)
                           && cro_store_undo (self->store, NULL, conflict, error));
}

gboolean
cro_book_undo_act (CroBook      *self,
                   gint64        act,
                   CroConflict  *conflict,
                   GError      **error)
{
  g_return_val_if_fail (!self->in_act, FALSE);

  return finish (self, cro_book_leave_preview (self, error)
                           && cro_store_undo_act (self->store, act, NULL, conflict, error));
}

gboolean
cro_book_redo (CroBook      *self,
               CroConflict  *conflict,
               GError      **error)
{
  g_return_val_if_fail (!self->in_act, FALSE);

  return finish (self, cro_book_leave_preview (self, error)
                           && cro_store_redo (self->store, NULL, conflict, error));
}
