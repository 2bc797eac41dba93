/* A round into the book, one act; and one row of it back. */
#include "cro-round-private.h"

#include "cro-decimal.h"
#include "cro-edit-private.h"
#include "cro-last-price.h"
#include "cro-pack.h"
#include "cro-round-words.h"

#include <string.h>

static void
posted_free (CroRoundPosted *row)
{
  g_free (row->name);
  g_free (row->price);
  g_free (row->typed);
  g_free (row->last);
  g_free (row->pack);
  g_free (row->was_unit);
  g_free (row);
}

void
cro_round_post_free (CroRoundPost *self)
{
  g_ptr_array_unref (self->rows);
  g_clear_error (&self->failed);
  g_free (self->text);
  g_free (self->kept);
  g_clear_pointer (&self->invoice, g_bytes_unref);
  g_free (self->did);
  g_free (self->billed);
  g_free (self);
}

/* --- The list that is posted --------------------------------------------------------------------------- */

/* Of an invoice its header: purchases are the document's, and its prices hold from the day of delivery. */
static CroPriceList
list_of (CroRound *self,
         gboolean  is_billed)
{
  CroPriceList list = is_billed ? *self->invoice : *self->list;

  list.from = is_billed ? self->invoice->delivered : self->from;
  list.supplier = self->list->supplier;
  list.texts = self->list->texts;
  list.rows = g_array_sized_new (FALSE, FALSE, sizeof (CroListRow), self->rows->len);
  return list;
}

/* A new ingredient is made once, whatever its rows are called. */
static gboolean
make_item (CroRound     *self,
           GHashTable   *made,
           CroListRow   *list,
           GError      **error)
{
  gint64 *id = g_hash_table_lookup (made, list->name);

  if (id != NULL)
    {
      list->made = *id;
      return TRUE;
    }
  list->made = cro_edit_make_ingredient (self->book, list->name, cro_unit_get (list->pack.unit)->base, error);
  if (list->made != 0)
    g_hash_table_insert (made, g_strdup (list->name), g_memdup2 (&list->made, sizeof list->made));
  return list->made != 0;
}

/* Of two rows of one pack and day the later counts: typed beside an invoice, or said to be right. to is the next of
 * its list; posted: pack and day → the row that is posted of them so far. */
static void
give_way (GHashTable  *posted,
          CroDate      day,
          CroListRow  *to)
{
  g_autofree char *key = g_strdup_printf ("%u %d", to->offer, (int) day);
  CroListRow *row;

  if (!to->is_posted || to->offer == CRO_NO_SLOT)
    return;
  row = g_hash_table_lookup (posted, key);
  if (row != NULL && row->is_right && !to->is_right)
    {
      to->is_posted = FALSE;
      return;
    }
  if (row != NULL)
    row->is_posted = FALSE;
  g_hash_table_insert (posted, g_steal_pointer (&key), to);
}

/* lists: what is typed, and what is billed; neither moves its rows while they are gathered. */
static gboolean
gather (CroRound      *self,
        CroPriceList  *lists,
        GError       **error)
{
  g_autoptr (GHashTable) made = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autoptr (GHashTable) posted = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < self->rows->len; i++)
    {
      CroRoundRow *row = self->rows->pdata[i];
      GArray *rows = lists[row->is_billed].rows;
      CroListRow copy = row->list;

      if (!cro_round_row_is_ready (row))
        continue;
      if (!row->is_billed)
        copy.is_booked = FALSE;
      if (copy.item == CRO_NO_SLOT && copy.is_posted && !make_item (self, made, &copy, error))
        return FALSE;
      copy.number = i + 1;
      g_array_append_val (rows, copy);
      give_way (posted, cro_round_row_get_day (self, row), &g_array_index (rows, CroListRow, rows->len - 1));
    }
  return TRUE;
}

static gboolean
write_preferred (CroRound *self,
                 GError  **error)
{
  static const char *const columns[] = { "preferred", NULL };
  CroModel *model = self->of.model;

  for (guint i = 0; i < self->preferred->len; i++)
    {
      guint32 slot = cro_slots_get (&model->offer_slots, g_array_index (self->preferred, gint64, i));
      const CroItem *item = slot != CRO_NO_SLOT ? cro_model_item (model, cro_model_offer (model, slot)->item) : NULL;

      for (guint32 n = 0; item != NULL && n < item->n_offers; n++)
        {
          guint32 other = g_array_index (model->offer_order, guint32, item->first_offer + n);
          CroCell cell = CRO_CELL_INT (other == slot);

          /* One without an id is but drafted. */
          if (cro_model_offer (model, other)->id == 0)
            continue;
          if (!cro_store_update (cro_book_get_store (self->book), "offer", cro_model_offer (model, other)->id, columns,
                                 &cell, error))
            return FALSE;
        }
    }
  return TRUE;
}

/* The slot of a pack that the book has still; CRO_NO_SLOT: it was removed. */
static guint32
slot_of (CroModel *model,
         gint64    offer)
{
  guint32 slot = cro_slots_get (&model->offer_slots, offer);

  return slot != CRO_NO_SLOT && !cro_model_offer (model, slot)->is_dead ? slot : CRO_NO_SLOT;
}

/* Those of the list first, the others behind them as they stood. What was removed since has no place. */
static gboolean
write_order (CroRound *self,
             GError  **error)
{
  static const char *const columns[] = { "position_micro", NULL };
  CroModel *book = cro_book_get_model (self->book);
  g_autoptr (GHashTable) seen = g_hash_table_new (g_int64_hash, g_int64_equal);
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (gint64));

  if (self->order->len == 0)
    return TRUE;
  g_array_append_vals (ids, self->order->data, self->order->len);
  for (guint i = 0; i < self->rows->len; i++)
    if (((CroRoundRow *) self->rows->pdata[i])->id != 0)
      g_array_append_val (ids, ((CroRoundRow *) self->rows->pdata[i])->id);
  for (guint i = 0; i < ids->len; i++)
    {
      gint64 *id = &g_array_index (ids, gint64, i);
      CroCell cell = CRO_CELL_INT ((gint64) (g_hash_table_size (seen) + 1) * 10 * CRO_MICRO);

      if (slot_of (book, *id) != CRO_NO_SLOT && g_hash_table_add (seen, id)
          && !cro_store_update (cro_book_get_store (self->book), "offer", *id, columns, &cell, error))
        return FALSE;
    }
  return TRUE;
}

/* --- What can be taken back ------------------------------------------------------------------------------ */

enum { ID, FROM, PRICE, TAX, COUNT, SIZE, UNIT };

static const char *const price_columns[] = { "id", "from_date", "price_micro", "tax_included_pct_micro",
                                             "pack_count_micro", "pack_size_micro", "pack_unit", NULL };

/* The offer's price of a day. *found: whether it has one. */
static gboolean
read_price (CroBook         *book,
            gint64           offer,
            CroDate          from,
            CroRoundPosted  *row,
            gboolean        *found,
            GError         **error)
{
  char date[CRO_DATE_CHARS];
  g_autoptr (CroRows) rows = cro_store_read_of (cro_book_get_store (book), "price", "offer", offer, price_columns,
                                                error);
  GError *failed = NULL;

  *found = FALSE;
  cro_date_format (from, date);
  while (rows != NULL && cro_rows_next (rows, &failed))
    if (strcmp (cro_rows_get_text (rows, FROM), date) == 0)
      {
        *found = TRUE;
        row->id = cro_rows_get_int (rows, ID);
        row->was[0] = cro_rows_is_null (rows, PRICE) ? CRO_NOT_SET : cro_rows_get_int (rows, PRICE);
        row->was[1] = cro_rows_get_int (rows, TAX);
        row->was[2] = cro_rows_get_int (rows, COUNT);
        row->was_size = cro_rows_get_int (rows, SIZE);
        g_free (row->was_unit);
        row->was_unit = g_strdup (cro_rows_get_text (rows, UNIT));
      }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}

static char *
price_words (CroRound          *self,
             const CroRoundRow *row)
{
  return row->list.is_none ? g_strdup (cro_words_not_to_be_had ()) : cro_round_dup_typed (self, &row->list);
}

/* Whether the supplier has another pack of the ingredient. */
static gboolean
has_several (CroRound         *self,
             const CroListRow *list)
{
  const CroItem *item = list->item != CRO_NO_SLOT ? cro_model_item (self->of.model, list->item) : NULL;

  for (guint32 i = 0; item != NULL && i < item->n_offers; i++)
    {
      guint32 slot = g_array_index (self->of.model->offer_order, guint32, item->first_offer + i);
      const CroOfferEntry *entry = cro_model_offer (self->of.model, slot);

      if (!entry->is_dead && entry->supplier == self->list->supplier && slot != list->offer)
        return TRUE;
    }
  return FALSE;
}

/* Before the act: what each row takes the place of. */
static GPtrArray *
list_posted (CroRound *self,
             GError  **error)
{
  g_autoptr (GPtrArray) posted = g_ptr_array_new_with_free_func ((GDestroyNotify) posted_free);

  for (guint i = 0; i < self->rows->len; i++)
    {
      const CroRoundRow *row = self->rows->pdata[i];
      CroRoundPosted *one;

      if (!cro_round_row_is_ready (row) || !row->list.is_posted)
        continue;
      one = g_new0 (CroRoundPosted, 1);
      g_ptr_array_add (posted, one);
      one->name = g_strdup (row->list.item != CRO_NO_SLOT ? cro_model_item (self->of.model, row->list.item)->name
                                                          : row->list.name);
      one->price = price_words (self, row);
      one->typed = row->is_billed ? NULL : g_strdup (row->text);
      one->from = cro_round_row_get_day (self, row);
      one->last = cro_words_round_last (self, row);
      one->pack = has_several (self, &row->list) ? cro_pack_to_short_text (&row->list.pack) : NULL;
      one->made_offer = row->list.offer == CRO_NO_SLOT;
      one->offer = row->list.offer != CRO_NO_SLOT ? cro_model_offer (self->of.model, row->list.offer)->id : 0;
      if (one->offer != 0 && !read_price (self->book, one->offer, one->from, one, &one->had_row, error))
        return NULL;
    }
  return g_steal_pointer (&posted);
}

/* The packs that the copy from before does not know: name of the ingredient → GQueue of slots of the book + 1. */
static GHashTable *
list_made (CroRound *self)
{
  CroModel *model = cro_book_get_model (self->book);
  GHashTable *made = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, (GDestroyNotify) g_queue_free);

  for (guint32 i = 0; i < model->offers->len; i++)
    {
      const CroOfferEntry *entry = cro_model_offer (model, i);
      const char *name;
      GQueue *packs;

      if (entry->is_dead || cro_slots_get (&self->of.model->offer_slots, entry->id) != CRO_NO_SLOT
          || g_array_index (model->suppliers, CroSupplier, entry->supplier).id != self->supplier)
        continue;
      name = cro_model_item (model, entry->item)->name;
      packs = g_hash_table_lookup (made, name);
      if (packs == NULL)
        g_hash_table_insert (made, (gpointer) name, packs = g_queue_new ());
      g_queue_push_tail (packs, GUINT_TO_POINTER (i + 1));
    }
  return made;
}

/* After it: the packs and the rows that were made, in the order of their rows. */
static void
find_made (CroRound     *self,
           CroRoundPost *post)
{
  CroModel *model = cro_book_get_model (self->book);
  g_autoptr (GHashTable) made = list_made (self);

  for (guint i = 0; i < post->rows->len; i++)
    {
      CroRoundPosted *one = post->rows->pdata[i];
      GQueue *packs = one->offer == 0 ? g_hash_table_lookup (made, one->name) : NULL;
      CroRoundPosted now = { 0 };
      gboolean found = FALSE;

      if (packs != NULL && !g_queue_is_empty (packs))
        one->offer = cro_model_offer (model, GPOINTER_TO_UINT (g_queue_pop_head (packs)) - 1)->id;
      if (one->offer != 0 && post->failed == NULL
          && read_price (self->book, one->offer, one->from, &now, &found, &post->failed) && found)
        one->id = now.id;
      g_free (now.was_unit);
    }
}

/* --- Posting ----------------------------------------------------------------------------------------------- */

static gboolean
write_all (CroRound    *self,
           const char  *label,
           CroFaults   *faults,
           GError     **error)
{
  CroPriceList lists[] = { list_of (self, FALSE), list_of (self, self->invoice != NULL) };
  CroStore *store = cro_book_get_store (self->book);
  gboolean done = cro_edit_begin (self->book, label, error);

  if (done)
    done = cro_edit_end (self->book,
                         gather (self, lists, error)
                             && cro_price_list_write (&lists[0], self->of.model, store, faults, error)
                             && cro_price_list_write (&lists[1], self->of.model, store, faults, error)
                             && write_preferred (self, error) && write_order (self, error),
                         error);
  g_array_unref (lists[0].rows);
  g_array_unref (lists[1].rows);
  return done;
}

static gboolean
is_invoice_open (CroRound *self)
{
  for (guint i = 0; self->invoice != NULL && i < self->rows->len; i++)
    {
      const CroRoundRow *row = self->rows->pdata[i];

      if (row->is_billed && cro_round_row_waits (row))
        return TRUE;
    }
  return FALSE;
}

/* What was posted is done with; what waits is read again beside the book as it is now. */
static gboolean
go_on (CroRound *self,
       GError  **error)
{
  gboolean is_open = is_invoice_open (self);

  for (guint i = self->rows->len; i > 0; i--)
    {
      CroRoundRow *row = self->rows->pdata[i - 1];

      if (cro_round_row_is_ready (row))
        {
          g_free (row->text);
          row->text = g_strdup ("");
          row->kind = CRO_ROUND_EMPTY;
        }
    }
  g_array_set_size (self->preferred, 0);
  g_array_set_size (self->order, 0);
  if (cro_round_renew_with (self, self->from, is_open, error))
    return TRUE;
  /* An invoice that cannot be read any more leaves the rows, which are those of the book as it is. */
  if (is_open)
    cro_round_renew_with (self, self->from, FALSE, NULL);
  return FALSE;
}

/* Once all of it is booked its file goes. */
static void
keep_invoice (CroRound     *self,
              CroRoundPost *post)
{
  char *bytes;
  gsize n;

  if (!self->is_kept || !g_file_get_contents (self->invoice_path, &bytes, &n, NULL))
    return;
  post->kept = g_strdup (self->invoice_path);
  post->invoice = g_bytes_new_take (bytes, n);
}

CroRoundPost *
cro_round_post (CroRound    *self,
                const char  *label,
                CroFaults   *faults,
                GError     **error)
{
  g_autoptr (CroRoundPost) post = g_new0 (CroRoundPost, 1);
  g_autoptr (CroAct) act = NULL;

  post->from = self->from;
  post->n = cro_round_count_ready (self);
  post->text = cro_round_dup_typed_rows (self);
  keep_invoice (self, post);
  post->rows = list_posted (self, error);
  /* Of an invoice alone its own day. */
  if (post->rows != NULL && post->rows->len > 0)
    post->from = ((CroRoundPosted *) post->rows->pdata[0])->from;
  if (post->rows == NULL)
    {
      post->rows = g_ptr_array_new ();
      return NULL;
    }
  if (!write_all (self, label, faults, error))
    return NULL;
  act = cro_store_peek_undo (cro_book_get_store (self->book), NULL);
  post->act = act != NULL ? act->id : 0;
  find_made (self, post);
  go_on (self, post->failed == NULL ? &post->failed : NULL);
  return g_steal_pointer (&post);
}

/* --- One row back -------------------------------------------------------------------------------------------- */

static gboolean
restore_price (CroBook         *book,
               const char      *label,
               CroRoundPosted  *row,
               GError         **error)
{
  static const char *const columns[] = { "price_micro", "tax_included_pct_micro", "pack_count_micro",
                                         "pack_size_micro", "pack_unit", NULL };
  CroCell cells[] = {
    row->was[0] != CRO_NOT_SET ? CRO_CELL_INT (row->was[0]) : CRO_CELL_NONE,
    cro_edit_cell_or_none (row->was[1]),
    cro_edit_cell_or_none (row->was[2]),
    cro_edit_cell_or_none (row->was_size),
    CRO_CELL_STR (row->was_unit),
  };

  return cro_edit_set (book, label, "price", row->id, columns, cells, error);
}

/* Where it could not be read once it was posted. FALSE with error; 0: it is not there any more. */
static gboolean
find_id (CroBook         *book,
         CroRoundPosted  *row,
         GError         **error)
{
  CroRoundPosted now = { 0 };
  gboolean found = FALSE, done = TRUE;

  if (row->id == 0)
    done = read_price (book, row->offer, row->from, &now, &found, error);
  if (found)
    row->id = now.id;
  g_free (now.was_unit);
  return done;
}

/* A pack that is gone has taken its price along. One that the round made goes with its price; an ingredient stays, as
 * somebody may use it by now. */
gboolean
cro_round_take_back (CroBook         *book,
                     const char      *label,
                     CroRoundPosted  *row,
                     GError         **error)
{
  guint32 offer = slot_of (cro_book_get_model (book), row->offer);
  guint64 before = cro_book_get_edition (book);
  g_autoptr (CroAct) act = NULL;

  if (row->is_back)
    return TRUE;
  if (offer == CRO_NO_SLOT)
    row->is_back = TRUE;
  else if (row->made_offer)
    row->is_back = cro_edit_remove (book, label, CRO_REF (CRO_REF_OFFER, offer), error);
  else if (!find_id (book, row, error))
    return FALSE;
  else if (row->id == 0)
    row->is_back = TRUE;
  else if (row->had_row)
    row->is_back = restore_price (book, label, row, error);
  else
    row->is_back = cro_edit_remove_price (book, label, row->id, error);
  if (row->is_back && cro_book_get_edition (book) != before)
    act = cro_store_peek_undo (cro_book_get_store (book), NULL);
  row->back = act != NULL ? act->id : 0;
  return row->is_back;
}

static CroRoundPosted *
last_back (CroRoundPost *post)
{
  CroRoundPosted *last = NULL;

  for (guint i = 0; i < post->rows->len; i++)
    {
      CroRoundPosted *row = post->rows->pdata[i];

      if (row->back != 0 && (last == NULL || row->back > last->back))
        last = row;
    }
  return last;
}

/* One that was undone by itself is there again already. */
static gboolean
undo_back (CroBook         *book,
           CroRoundPosted  *row,
           GError         **error)
{
  g_autoptr (CroAct) act = cro_store_find_act (cro_book_get_store (book), row->back, NULL);

  if (act != NULL && act->undone_by == 0 && !cro_book_undo_act (book, row->back, NULL, error))
    return FALSE;
  row->back = 0;
  row->is_back = FALSE;
  return TRUE;
}

/* --- Back into its row -------------------------------------------------------------------------------------- */

gboolean
cro_round_is_restored (CroBook        *book,
                       CroRoundPosted *row)
{
  g_autoptr (CroAct) act = row->back != 0 ? cro_store_find_act (cro_book_get_store (book), row->back, NULL) : NULL;

  if (act == NULL || act->undone_by == 0)
    return FALSE;
  row->back = 0;
  row->is_back = FALSE;
  return TRUE;
}

/* A pack that is gone was made by the line that is typed again. */
gboolean
cro_round_put_back (CroRound              *self,
                    const CroRoundPosted  *row,
                    GError               **error)
{
  guint index = cro_round_find_id (self, row->offer);

  if (row->typed == NULL)
    return TRUE;
  if (index == CRO_NO_SLOT)
    return !row->made_offer || cro_round_add (self, row->typed, &index, error);
  return cro_round_get_row (self, index)->kind != CRO_ROUND_EMPTY || row->made_offer
         || cro_round_type (self, index, row->typed, error);
}

gboolean
cro_round_put_out (CroRound              *self,
                   const CroRoundPosted  *row,
                   GError               **error)
{
  for (guint i = self->rows->len; row->typed != NULL && i > 0; i--)
    {
      const CroRoundRow *at = self->rows->pdata[i - 1];

      if (strcmp (at->text, row->typed) != 0 || at->is_billed
          || (at->id != row->offer && !(row->made_offer && at->is_added)))
        continue;
      if (!at->is_added)
        return cro_round_type (self, i - 1, "", error);
      cro_round_remove (self, i - 1);
    }
  return TRUE;
}

gboolean
cro_round_undo (CroBook       *book,
                CroRoundPost  *post,
                GError       **error)
{
  CroRoundPosted *row;

  while ((row = last_back (post)) != NULL)
    if (!undo_back (book, row, error))
      return FALSE;
  return cro_book_undo_act (book, post->act, NULL, error);
}

gboolean
cro_round_retype (CroRound            *self,
                  const CroRoundPost  *post,
                  GError             **error)
{
  gsize n;
  const char *bytes = post->invoice != NULL ? g_bytes_get_data (post->invoice, &n) : NULL;

  if (bytes != NULL && self->invoice == NULL
      && !g_file_set_contents_full (post->kept, bytes, (gssize) n, G_FILE_SET_CONTENTS_CONSISTENT, 0600, error))
    return FALSE;
  return post->text == NULL || cro_round_put_text (self, post->text, error);
}
