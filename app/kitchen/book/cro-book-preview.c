#include "cro-book-private.h"

#include "cro-own-pack.h"
#include "cro-refusal.h"

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
  CroMoves moves;
  gboolean done;

  cro_moves_init (&moves);
  done = cro_book_take (self, &moves, table, id, columns, cells, error)
         && cro_book_carry_out (self, &moves, error);
  cro_moves_clear (&moves);
  return done;
}

static gboolean
show_kept (CroBook            *self,
           const char *const  *columns,
           const CroCell      *cells,
           GError            **error)
{
  CroTouched touched;
  CroMoves moves;
  gboolean done;

  cro_moves_init (&moves);
  done = cro_kept_row_take (self->kept, self->model, self->date, columns, cells, &touched,
                            error);
  if (done)
    cro_moves_note (&moves, &touched);
  done = done && cro_book_carry_out (self, &moves, error);
  cro_moves_clear (&moves);
  return done;
}

/* Only what goes by the store asks it, in a moment of it. */
gboolean
cro_book_give_back (CroBook  *self,
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
gboolean
cro_book_begin_preview (CroBook  *self,
                        GError  **error)
{
  gboolean changed = FALSE;

  g_return_val_if_fail (!self->in_act, FALSE);

  if (!cro_store_begin_read (self->store, error))
    return FALSE;
  if (cro_book_give_back (self, error) && cro_book_take_in_others (self, &changed, error))
    return TRUE;
  cro_store_end_read (self->store);
  return FALSE;
}

void
cro_book_end_preview (CroBook *self)
{
  cro_store_end_read (self->store);
  cro_book_move (self);
}

/* Gives back what a preview shows; it stays with others' acts unless they are asked for. */
static gboolean
end_any_preview (CroBook  *self,
                 GError  **error)
{
  if (self->preview_table == NULL)
    return cro_book_give_back (self, error);
  if (!cro_book_begin_preview (self, error))
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
  if (!cro_book_begin_preview (self, error))
    return FALSE;
  kept = cro_kept_row_new (self->model, self->store, table, id, &failed);
  if (failed == NULL)
    keep (self, kept, table, id);
  cro_store_end_read (self->store);
  if (was_previewed || self->edition != edition)
    cro_book_move (self);
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
    cro_book_give_back (self, NULL);
  cro_book_move (self);
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

  if (!cro_book_begin_preview (self, error))
    return FALSE;
  self->preview_table = g_intern_string (table);
  self->preview_id = id;
  done = show (self, table, id, columns, cells, error);
  if (!done)
    cro_book_give_back (self, NULL);
  cro_book_end_preview (self);
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
  if (self->kept != NULL)
    return preview_kept (self, columns, tidy.cells, error);
  return preview_by_store (self, table, id, columns, tidy.cells, error);
}

static gboolean
preview_price (CroBook   *self,
               guint32    slot,
               gint64     price,
               gboolean   is_own,
               GError   **error)
{
  static const char table[] = "price of an offer";
  CroOfferEntry *entry;
  CroOffer of;

  if (refuse_past (self, error) || !end_any_preview (self, error))
    return FALSE;
  if (!keeps (self, table, slot))
    keep (self, cro_kept_row_new_price (self->model, slot), table, slot);
  entry = cro_model_offer (self->model, slot);
  of = is_own ? cro_own_pack_in_force (self->model, slot) : entry->offer;
  self->is_kept_shown = TRUE;
  entry->offer.pack_count = of.pack_count;
  entry->offer.pack_size = of.pack_size;
  entry->offer.pack_unit = of.pack_unit;
  entry->offer.price = price;
  entry->offer.from = self->date;
  entry->offer.has_price = true;
  cro_figures_touch_price (self->figures, entry->item);
  cro_figures_settle (self->figures);
  cro_book_move (self);
  return TRUE;
}

gboolean
cro_book_preview_price (CroBook  *self,
                        guint32   slot,
                        gint64    price,
                        GError  **error)
{
  return preview_price (self, slot, price, FALSE, error);
}

gboolean
cro_book_preview_own_price (CroBook  *self,
                            guint32   slot,
                            gint64    price,
                            GError  **error)
{
  return preview_price (self, slot, price, TRUE, error);
}

gboolean
cro_book_restore (CroBook  *self,
                  GError  **error)
{
  if (!is_previewed (self))
    return TRUE;
  if (!end_any_preview (self, error))
    return FALSE;
  cro_book_move (self);
  return TRUE;
}

/* Figures as they stand in the store are what an act begins with. */
gboolean
cro_book_leave_preview (CroBook  *self,
                        GError  **error)
{
  if (!is_previewed (self))
    return TRUE;
  if (!cro_book_begin_preview (self, error))
    return FALSE;
  cro_store_end_read (self->store);
  return TRUE;
}
