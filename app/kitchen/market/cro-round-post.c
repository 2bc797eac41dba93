/* A round into the book, one act. What it did comes back in cro-round-back.c. */
#include "cro-round-private.h"

#include "cro-decimal.h"
#include "cro-edit-private.h"
#include "cro-last-price.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-pack.h"
#include "cro-price-list-words.h"
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
  g_free (row->booked);
  g_free (row->billed);
  g_free (row->was.unit);
  g_free (row->put.unit);
  g_free (row);
}

void
cro_round_post_free (CroRoundPost *self)
{
  g_ptr_array_unref (self->rows);
  g_array_unref (self->preferred);
  g_clear_error (&self->failed);
  g_free (self->text);
  g_free (self->document);
  g_free (self->kept);
  g_clear_pointer (&self->invoice, g_bytes_unref);
  g_free (self);
}

gboolean
cro_round_posts_same_document (const CroRoundPost *a,
                               const CroRoundPost *b)
{
  return a->has_invoice && b->has_invoice && g_strcmp0 (a->document, b->document) == 0
         && (a->document != NULL || a->delivered == b->delivered) && g_strcmp0 (a->currency, b->currency) == 0;
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

static gboolean
is_said (const CroRoundRow *row)
{
  return row->list.is_right || row->list.is_chosen;
}

/* Of two rows of one pack and day the later counts: typed beside an invoice, or said to be right. The others, which
 * post no price. Owned, of rows borrowed. */
static GHashTable *
list_given_way (CroRound *self)
{
  g_autoptr (GHashTable) posted = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  GHashTable *given_way = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < self->rows->len; i++)
    {
      CroRoundRow *row = self->rows->pdata[i], *other;
      g_autofree char *key = g_strdup_printf ("%u %d", row->list.offer, (int) cro_round_row_get_day (self, row));

      if (!cro_round_row_is_ready (row) || !row->list.is_posted || row->list.offer == CRO_NO_SLOT)
        continue;
      other = g_hash_table_lookup (posted, key);
      if (other != NULL && is_said (other) && !is_said (row))
        {
          g_hash_table_add (given_way, row);
          continue;
        }
      if (other != NULL)
        g_hash_table_add (given_way, other);
      g_hash_table_insert (posted, g_steal_pointer (&key), row);
    }
  return given_way;
}

/* lists: what is typed, and what is billed; neither moves its rows while they are gathered. */
static gboolean
gather (CroRound      *self,
        CroPriceList  *lists,
        GError       **error)
{
  g_autoptr (GHashTable) made = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autoptr (GHashTable) given_way = list_given_way (self);

  for (guint i = 0; i < self->rows->len; i++)
    {
      CroRoundRow *row = self->rows->pdata[i];
      GArray *rows = lists[row->is_billed].rows;
      CroListRow copy = row->list;

      if (!cro_round_row_is_ready (row))
        continue;
      if (!row->is_billed)
        copy.is_booked = FALSE;
      if (g_hash_table_contains (given_way, row))
        copy.is_posted = FALSE;
      if (copy.item == CRO_NO_SLOT && copy.is_posted && !make_item (self, made, &copy, error))
        return FALSE;
      copy.number = i + 1;
      g_array_append_val (rows, copy);
    }
  return TRUE;
}

/* As they are before the act. */
static void
list_preferred (CroRound     *self,
                CroRoundPost *post)
{
  CroModel *model = cro_book_get_model (self->book);

  for (guint i = 0; i < self->preferred->len; i++)
    {
      guint32 slot = cro_slots_get (&model->offer_slots, g_array_index (self->preferred, gint64, i));
      const CroItem *item = slot != CRO_NO_SLOT ? cro_model_item (model, cro_model_offer (model, slot)->item) : NULL;

      for (guint32 n = 0; item != NULL && n < item->n_offers; n++)
        {
          const CroOfferEntry *entry
              = cro_model_offer (model, g_array_index (model->offer_order, guint32, item->first_offer + n));
          const CroRoundPreferred was = { entry->id, entry->offer.is_preferred };

          g_array_append_val (post->preferred, was);
        }
    }
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

static gboolean
write_position (CroRound    *self,
                gint64       id,
                gint64       position,
                GHashTable  *positions,
                GError     **error)
{
  static const char *const columns[] = { "position_micro", NULL };
  const gint64 *is = g_hash_table_lookup (positions, &id);
  const CroCell cell = CRO_CELL_INT (position);

  return (is != NULL && *is == position)
         || cro_store_update (cro_book_get_store (self->book), "offer", id, columns, &cell, error);
}

/* Those of the list first, the others behind them as they stood. What was removed since has no place. */
static gboolean
write_order (CroRound *self,
             GError  **error)
{
  CroModel *book = cro_book_get_model (self->book);
  g_autoptr (GHashTable) seen = g_hash_table_new (g_int64_hash, g_int64_equal), positions = NULL;
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (gint64));

  if (self->order->len == 0)
    return TRUE;
  positions = cro_round_read_positions (self, cro_book_get_store (self->book), error);
  if (positions == NULL)
    return FALSE;
  g_array_append_vals (ids, self->order->data, self->order->len);
  for (guint i = 0; i < self->rows->len; i++)
    if (((CroRoundRow *) self->rows->pdata[i])->id != 0)
      g_array_append_val (ids, ((CroRoundRow *) self->rows->pdata[i])->id);
  for (guint i = 0; i < ids->len; i++)
    {
      gint64 *id = &g_array_index (ids, gint64, i);
      gint64 position = (gint64) (g_hash_table_size (seen) + 1) * 10 * CRO_MICRO;

      if (cro_round_slot_of (book, *id) != CRO_NO_SLOT && g_hash_table_add (seen, id)
          && !write_position (self, *id, position, positions, error))
        return FALSE;
    }
  return TRUE;
}

/* --- What can be taken back ------------------------------------------------------------------------------ */

static char *
price_words (CroRound          *self,
             const CroRoundRow *row)
{
  if (row->list.is_none)
    return g_strdup (cro_words_not_to_be_had ());
  /* As the document has it, which knows of no price per kg, l or piece. */
  return row->is_billed && self->of.quotes_base ? cro_round_dup_shown_of_pack (self, &row->list)
                                                : cro_round_dup_shown (self, &row->list);
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

/* What it books, as its document has it; NULL: nothing. */
static char *
booked_words (CroRound          *self,
              const CroRoundRow *row)
{
  if (!row->is_billed || !row->list.is_booked)
    return NULL;
  return cro_words_list_money (self->invoice, (CroNano) cro_list_row_value (&row->list) * (CRO_NANO / CRO_MICRO));
}

/* The price that it posts, and what that takes the place of. */
static gboolean
note_price (CroRound           *self,
            const CroRoundRow  *row,
            CroRoundPosted     *one,
            GError            **error)
{
  one->last = cro_words_round_last (self, row);
  one->price = price_words (self, row);
  /* Where the house's figures are too coarse to show it. */
  if (g_strcmp0 (one->price, one->last) == 0 && !row->list.is_none)
    {
      g_free (one->price);
      one->price = cro_round_dup_typed (self, &row->list);
    }
  one->pack = has_several (self, &row->list) ? cro_pack_to_short_text (&row->list.pack) : NULL;
  one->made_offer = row->list.offer == CRO_NO_SLOT;
  one->offer = row->list.offer != CRO_NO_SLOT ? cro_model_offer (self->of.model, row->list.offer)->id : 0;
  return one->offer == 0 || cro_round_read_price (self->book, one->offer, one->from, &one->was, &one->had_row, error);
}

/* Before the act. */
static GPtrArray *
list_rows (CroRound *self,
           GError  **error)
{
  g_autoptr (GPtrArray) posted = g_ptr_array_new_with_free_func ((GDestroyNotify) posted_free);
  g_autoptr (GHashTable) given_way = list_given_way (self);

  for (guint i = 0; i < self->rows->len; i++)
    {
      const CroRoundRow *row = self->rows->pdata[i];
      gboolean is_gone = g_hash_table_contains (given_way, row);
      CroRoundPosted *one;

      if (!cro_round_row_is_ready (row) || (is_gone && !row->is_billed))
        continue;
      one = g_new0 (CroRoundPosted, 1);
      g_ptr_array_add (posted, one);
      one->name = cro_words_round_name (self, row);
      one->typed = row->is_billed ? NULL : g_strdup (row->text);
      one->line = row->line;
      one->share_of = row->is_billed ? row->list.share_of : 0;
      one->from = cro_round_row_get_day (self, row);
      one->booked = booked_words (self, row);
      one->reclaim = row->is_billed ? row->list.reclaim : CRO_NOT_SET;
      one->billed = row->is_billed ? cro_words_list_reclaim (self->of.model, self->invoice, &row->list) : NULL;
      if (row->list.is_posted && !is_gone && !note_price (self, row, one, error))
        return NULL;
    }
  return g_steal_pointer (&posted);
}

/* In one moment of the store: to begin one for each row takes longer than to read it. */
static GPtrArray *
list_posted (CroRound *self,
             GError  **error)
{
  CroStore *store = cro_book_get_store (self->book);
  GPtrArray *posted;

  if (!cro_store_begin_read (store, error))
    return NULL;
  posted = list_rows (self, error);
  cro_store_end_read (store);
  return posted;
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

/* After it: the packs that were made, in the order of their rows. */
static void
find_made (CroRound     *self,
           CroRoundPost *post)
{
  CroModel *model = cro_book_get_model (self->book);
  g_autoptr (GHashTable) made = list_made (self);

  for (guint i = 0; i < post->rows->len; i++)
    {
      CroRoundPosted *one = post->rows->pdata[i];
      GQueue *packs = one->made_offer ? g_hash_table_lookup (made, one->name) : NULL;

      if (packs != NULL && !g_queue_is_empty (packs))
        one->offer = cro_model_offer (model, GPOINTER_TO_UINT (g_queue_pop_head (packs)) - 1)->id;
    }
}

/* After it, too: what stands there now. */
static void
read_put (CroRound     *self,
          CroRoundPost *post)
{
  gboolean found;

  for (guint i = 0; post->failed == NULL && i < post->rows->len; i++)
    {
      CroRoundPosted *one = post->rows->pdata[i];

      if (one->price != NULL && one->offer != 0)
        cro_round_read_price (self->book, one->offer, one->from, &one->put, &found, &post->failed);
    }
}

/* The purchases that an act made, in their order. Elements gint64. NULL with error. */
static GArray *
list_purchases (CroRound  *self,
                gint64     act,
                GError   **error)
{
  g_autoptr (GPtrArray) changes = cro_store_list_changes_of_act (cro_book_get_store (self->book), act, error);
  GArray *ids = changes != NULL ? g_array_new (FALSE, FALSE, sizeof (gint64)) : NULL;

  for (guint i = 0; changes != NULL && i < changes->len; i++)
    {
      const CroChange *change = changes->pdata[i];

      if (change->before == NULL && strcmp (change->table, "purchase") == 0)
        g_array_append_val (ids, change->row);
    }
  return ids;
}

/* What was booked stands in the order of its rows. Where the book had some of it already nothing tells which is
 * whose. */
static void
find_booked (CroRound     *self,
             CroRoundPost *post)
{
  g_autoptr (GArray) ids = list_purchases (self, post->act, &post->failed);
  guint n = 0;

  for (guint i = 0; ids != NULL && i < post->rows->len; i++)
    n += ((CroRoundPosted *) post->rows->pdata[i])->booked != NULL;
  for (guint i = 0, at = 0; ids != NULL && n == ids->len && i < post->rows->len; i++)
    {
      CroRoundPosted *one = post->rows->pdata[i];

      if (one->booked != NULL)
        one->purchase = g_array_index (ids, gint64, at++);
    }
}

/* --- Posting ----------------------------------------------------------------------------------------------- */

static gboolean
write_all (CroRound    *self,
           const char  *label,
           CroFaults   *faults,
           gint64      *act,
           GError     **error)
{
  CroPriceList lists[] = { list_of (self, FALSE), list_of (self, self->invoice != NULL) };
  CroStore *store = cro_book_get_store (self->book);
  gboolean done = cro_edit_begin (self->book, label, error);

  if (done)
    done = cro_edit_end_numbered (self->book,
                                  gather (self, lists, error)
                                      && cro_price_list_write (&lists[0], self->of.model, store, faults, error)
                                      && cro_price_list_write (&lists[1], self->of.model, store, faults, error)
                                      && write_preferred (self, error) && write_order (self, error),
                                  act, error);
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

  if (self->invoice == NULL)
    return;
  post->has_invoice = TRUE;
  post->document = g_strdup (self->invoice->document);
  post->delivered = self->invoice->delivered;
  post->currency = self->invoice->is_foreign ? g_intern_string (self->invoice->currency) : NULL;
  post->digits = cro_currency_digits (self->invoice->currency);
  if (!self->is_kept || !g_file_get_contents (self->invoice_path, &bytes, &n, NULL))
    return;
  post->kept = g_strdup (self->invoice_path);
  post->invoice = g_bytes_new_take (bytes, n);
}

static gint64
newest_act (CroBook *book)
{
  g_autoptr (GPtrArray) acts = cro_store_list_acts (cro_book_get_store (book), 0, 1, NULL);

  return acts != NULL && acts->len > 0 ? ((CroAct *) acts->pdata[0])->id : 0;
}

/* Of an invoice alone its own day. */
static CroDate
day_of (const CroRoundPost *post)
{
  for (guint i = 0; i < post->rows->len; i++)
    if (((CroRoundPosted *) post->rows->pdata[i])->price != NULL)
      return ((CroRoundPosted *) post->rows->pdata[i])->from;
  return post->day;
}

CroRoundPost *
cro_round_post (CroRound    *self,
                const char  *label,
                CroFaults   *faults,
                GError     **error)
{
  g_autoptr (CroRoundPost) post = g_new0 (CroRoundPost, 1);
  g_autoptr (GPtrArray) rows = list_posted (self, error);

  post->day = self->from;
  post->rows = rows != NULL ? g_ptr_array_ref (rows) : g_ptr_array_new ();
  post->preferred = g_array_new (FALSE, FALSE, sizeof (CroRoundPreferred));
  if (rows == NULL)
    return NULL;
  post->from = day_of (post);
  post->text = cro_round_dup_posted_rows (self);
  keep_invoice (self, post);
  list_preferred (self, post);
  if (!write_all (self, label, faults, &post->act, error))
    return NULL;
  post->since = post->act != 0 ? post->act : newest_act (self->book);
  find_made (self, post);
  read_put (self, post);
  if (self->invoice != NULL && post->failed == NULL)
    find_booked (self, post);
  go_on (self, post->failed == NULL ? &post->failed : NULL);
  return g_steal_pointer (&post);
}
