#include "cro-round-private.h"

#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-own-pack.h"
#include "cro-pack.h"

#include <glib/gstdio.h>
#include <string.h>

/* --- Rows -------------------------------------------------------------------------------------------- */

CroRoundRow *
cro_round_row_new (void)
{
  CroRoundRow *self = g_new0 (CroRoundRow, 1);

  self->text = g_strdup ("");
  self->list.item = self->list.offer = self->drafted = CRO_NO_SLOT;
  self->last = self->base = self->position = CRO_NOT_SET;
  self->since = CRO_NO_DAY;
  return self;
}

void
cro_round_row_free (CroRoundRow *row)
{
  g_clear_pointer (&row->list.reasons, g_array_unref);
  g_free (row->text);
  g_free (row->wrong);
  g_free (row->called);
  g_free (row->before);
  g_clear_pointer (&row->read, cro_list_row_free);
  g_clear_pointer (&row->over, cro_list_row_free);
  g_free (row->over_text);
  g_free (row);
}

/* --- Making ------------------------------------------------------------------------------------------- */

typedef struct
{
  gint64 id;
  gint64 position;
} Place;

GHashTable *
cro_round_read_positions (CroRound  *self,
                          CroStore  *store,
                          GError   **error)
{
  static const char *const columns[] = { "id", "position_micro", NULL };
  g_autoptr (GHashTable) positions = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  g_autoptr (CroRows) rows = cro_store_read_of (store, "offer", "supplier", self->supplier, columns, error);
  GError *failed = NULL;

  while (rows != NULL && cro_rows_next (rows, &failed))
    if (!cro_rows_is_null (rows, 1))
      {
        Place *place = g_new (Place, 1);

        *place = (Place){ cro_rows_get_int (rows, 0), cro_rows_get_int (rows, 1) };
        g_hash_table_insert (positions, &place->id, &place->position);
      }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL ? g_steal_pointer (&positions) : NULL;
}

static void
fill_row (CroRound    *self,
          CroRoundRow *row,
          guint32      slot)
{
  const CroOfferEntry *entry = cro_model_offer (self->of.model, slot);
  const CroOffer own = cro_own_pack_in_force (self->of.model, slot);

  row->id = entry->id;
  row->list.offer = slot;
  row->list.item = entry->item;
  row->list.is_known = TRUE;
  row->list.code = *entry->code != '\0' ? entry->code : NULL;
  row->list.name = cro_model_item (self->of.model, entry->item)->name;
  row->pack = cro_pack_of (&own);
  row->since = CRO_NO_DAY;
  row->last = CRO_NOT_SET;
  if (entry->offer.has_price || entry->offer.had_price)
    {
      row->since = entry->offer.from;
      row->last = own.price;
    }
  row->is_off = !entry->offer.has_price && entry->offer.had_price;
}

static int
by_position (gconstpointer a,
             gconstpointer b)
{
  const CroRoundRow *one = *(CroRoundRow *const *) a, *other = *(CroRoundRow *const *) b;
  guint64 x = (guint64) one->position, y = (guint64) other->position;

  /* What has no place yet stands last. */
  if (x != y)
    return x < y ? -1 : 1;
  return strcmp (one->list.name, other->list.name);
}

static gboolean
list_rows (CroRound *self,
           GError  **error)
{
  CroModel *model = self->of.model;
  g_autoptr (GHashTable) positions = cro_round_read_positions (self, cro_book_get_store (self->draft), error);

  if (positions == NULL)
    return FALSE;
  for (guint32 i = 0; i < model->offers->len; i++)
    {
      const CroOfferEntry *entry = cro_model_offer (model, i);
      CroRoundRow *row;
      const gint64 *position;

      if (entry->is_dead || entry->supplier != self->list->supplier
          || (entry->offer.has_until && entry->offer.until < self->from))
        continue;
      row = cro_round_row_new ();
      fill_row (self, row, i);
      position = g_hash_table_lookup (positions, &entry->id);
      row->position = position != NULL ? *position : CRO_NOT_SET;
      g_ptr_array_add (self->rows, row);
      g_hash_table_insert (self->packs, GUINT_TO_POINTER (i + 1), row);
    }
  g_ptr_array_sort (self->rows, by_position);
  return TRUE;
}

static void
note_preferred (CroRound *self)
{
  for (guint32 i = 0; i < self->of.model->offers->len; i++)
    if (cro_model_offer (self->of.model, i)->offer.is_preferred)
      g_hash_table_add (self->of_book, GUINT_TO_POINTER (i + 1));
}

/* NULL: the book has no such supplier any more. */
static const CroSupplier *
supplier_in (CroRound *self,
             CroBook  *book)
{
  CroModel *model = cro_book_get_model (book);
  guint32 slot = cro_slots_get (&model->supplier_slots, self->supplier);
  const CroSupplier *supplier = slot != CRO_NO_SLOT ? &g_array_index (model->suppliers, CroSupplier, slot) : NULL;

  return supplier != NULL && !supplier->is_dead ? supplier : NULL;
}

void
cro_round_leave_copy (CroRound *self)
{
  g_clear_pointer (&self->rows, g_ptr_array_unref);
  g_clear_pointer (&self->packs, g_hash_table_unref);
  g_clear_pointer (&self->drafted, g_hash_table_unref);
  g_clear_pointer (&self->of_book, g_hash_table_unref);
  g_clear_pointer (&self->unsorted, g_array_unref);
  if (self->has_of)
    cro_list_book_clear (&self->of);
  self->has_of = FALSE;
  g_clear_pointer (&self->list, cro_price_list_free);
  g_clear_object (&self->draft);
}

gboolean
cro_round_copy_book (CroRound *self,
                     CroDate   from,
                     GError  **error)
{
  const CroSupplier *supplier;

  self->from = from;
  self->edition = cro_book_get_edition (self->book);
  self->rows = g_ptr_array_new_with_free_func ((GDestroyNotify) cro_round_row_free);
  self->packs = g_hash_table_new (NULL, NULL);
  self->drafted = g_hash_table_new (NULL, NULL);
  self->of_book = g_hash_table_new (NULL, NULL);
  self->unsorted = g_array_new (FALSE, FALSE, sizeof (guint32));
  self->draft = cro_book_open_trial (self->book, error);
  if (self->draft == NULL
      || (cro_book_get_figures (self->draft)->date != from && !cro_book_set_date (self->draft, from, error)))
    return FALSE;
  supplier = supplier_in (self, self->draft);
  if (supplier == NULL)
    {
      g_set_error (error, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE, "supplier has no row %" G_GINT64_FORMAT,
                   self->supplier);
      return FALSE;
    }
  self->has_of = cro_price_list_begin (self->draft, supplier->name, from, &self->list, &self->of, error);
  if (self->list != NULL)
    self->list->source = CRO_LIST_MESSAGE;
  if (!self->has_of)
    return FALSE;
  note_preferred (self);
  return list_rows (self, error);
}

CroRound *
cro_round_new (CroBook  *book,
               guint32   supplier,
               CroDate   from,
               GError  **error)
{
  CroRound *self = g_new0 (CroRound, 1);

  self->book = g_object_ref (book);
  self->supplier = g_array_index (cro_book_get_model (book)->suppliers, CroSupplier, supplier).id;
  self->preferred = g_array_new (FALSE, FALSE, sizeof (gint64));
  self->order = g_array_new (FALSE, FALSE, sizeof (gint64));
  self->own = cro_round_dup_own (book);
  self->unfit = g_string_new (NULL);
  self->replaced = g_string_new (NULL);
  if (cro_round_copy_book (self, from, error))
    return self;
  cro_round_free (self);
  return NULL;
}

void
cro_round_drop_invoice (CroRound *self)
{
  if (self->is_pasted && self->invoice_path != NULL)
    g_unlink (self->invoice_path);
  self->is_pasted = self->is_kept = FALSE;
  g_clear_pointer (&self->invoice_path, g_free);
  g_clear_pointer (&self->invoice, cro_price_list_free);
}

void
cro_round_free (CroRound *self)
{
  cro_round_leave_copy (self);
  if (self->is_kept)
    self->is_pasted = FALSE;
  cro_round_drop_invoice (self);
  g_free (self->kept);
  g_free (self->columns);
  g_array_unref (self->preferred);
  g_array_unref (self->order);
  g_free (self->own);
  g_string_free (self->unfit, TRUE);
  g_string_free (self->replaced, TRUE);
  g_object_unref (self->book);
  g_free (self);
}

/* --- What it says of itself ---------------------------------------------------------------------------- */

gboolean
cro_round_is_behind (CroRound *self)
{
  return self->edition != cro_book_get_edition (self->book);
}

CroBook *
cro_round_get_book (CroRound *self)
{
  return self->book;
}

CroBook *
cro_round_get_draft (CroRound *self)
{
  return self->draft;
}

const char *
cro_round_get_supplier (CroRound *self)
{
  return self->list->supplier_name;
}

gboolean
cro_round_has_supplier (CroRound *self)
{
  return supplier_in (self, self->book) != NULL;
}

gint64
cro_round_get_supplier_id (CroRound *self)
{
  return self->supplier;
}

CroDate
cro_round_get_from (CroRound *self)
{
  return self->from;
}

const char *
cro_round_get_currency (CroRound *self)
{
  return self->of.currency;
}

gboolean
cro_round_is_per_base (CroRound *self)
{
  return self->of.quotes_base;
}

const CroPriceList *
cro_round_get_invoice (CroRound *self)
{
  return self->invoice;
}

guint
cro_round_get_n_rows (CroRound *self)
{
  return self->rows->len;
}

CroRoundRow *
cro_round_get_row (CroRound *self,
                   guint     index)
{
  return self->rows->pdata[index];
}

/* --- Typing ------------------------------------------------------------------------------------------- */

static gboolean
read_again (CroRound    *self,
            CroRoundRow *row,
            GError     **error)
{
  gboolean done;

  cro_round_undraft (self, row);
  done = row->read != NULL ? cro_round_read_listed (self, row, error)
         : row->is_added   ? cro_round_read_line (self, row, error)
                           : cro_round_read (self, row, error);
  cro_round_draft (self, row);
  cro_round_settle (self);
  return done;
}

/* What a list says is not what is typed, until the same stands there again. */
static void
type_over (CroRoundRow *row)
{
  if (row->read == NULL)
    return;
  g_clear_pointer (&row->over, cro_list_row_free);
  g_free (row->over_text);
  row->over = g_steal_pointer (&row->read);
  row->over_text = g_strdup (row->text);
}

gboolean
cro_round_type (CroRound    *self,
                guint        index,
                const char  *text,
                GError     **error)
{
  return cro_round_type_beside (self, index, text, ((CroRoundRow *) self->rows->pdata[index])->last, error);
}

gboolean
cro_round_type_beside (CroRound    *self,
                       guint        index,
                       const char  *text,
                       gint64       base,
                       GError     **error)
{
  CroRoundRow *row = self->rows->pdata[index];

  if (row->is_billed)
    return TRUE;
  /* What was said of another price is not said of this one. */
  if (strcmp (row->text, text) != 0)
    {
      char *copy = g_strdup (text);

      row->list.is_right = row->list.is_chosen = FALSE;
      row->answered = 0;
      row->is_filled = FALSE;
      row->is_taken = FALSE;
      row->posted = row->back = 0;
      row->base = base;
      g_clear_pointer (&row->before, g_free);
      type_over (row);
      g_free (row->text);
      row->text = copy;
      if (row->over != NULL && strcmp (copy, row->over_text) == 0)
        row->read = g_steal_pointer (&row->over);
    }
  return read_again (self, row, error);
}

CroRoundRow *
cro_round_row_of_offer (CroRound *self,
                        guint32   offer)
{
  return offer != CRO_NO_SLOT ? g_hash_table_lookup (self->packs, GUINT_TO_POINTER (offer + 1)) : NULL;
}

static guint
find_offer (CroRound *self,
            guint32   offer)
{
  CroRoundRow *row = cro_round_row_of_offer (self, offer);
  guint index;

  return row != NULL && g_ptr_array_find (self->rows, row, &index) ? index : CRO_NO_SLOT;
}

/* A row that says another price already, or of another pack. */
static gboolean
is_other_than (const CroRoundRow *at,
               const CroRoundRow *row)
{
  if (at->kind == CRO_ROUND_EMPTY || at->kind == CRO_ROUND_UNREAD || row->list.is_none)
    return FALSE;
  return at->list.pack.count != row->list.pack.count || at->list.pack.size != row->list.pack.size
         || at->list.pack.unit != row->list.pack.unit;
}

/* The line is of a pack of its own, beside one that the supplier's code tells from it; else one of both is asked
 * for. */
static gboolean
make_own (CroRound     *self,
          CroRoundRow  *row,
          GError      **error)
{
  if (row->list.code != NULL || *cro_model_offer (self->of.model, row->list.offer)->code == '\0')
    return TRUE;
  cro_round_forget_twin (self, row);
  row->list.offer = CRO_NO_SLOT;
  row->list.is_known = TRUE;
  g_clear_pointer (&row->list.reasons, g_array_unref);
  return cro_round_match (self, row, error);
}

/* One that was read and is not added. */
static void
discard_row (CroRound    *self,
             CroRoundRow *row)
{
  cro_round_forget_twin (self, row);
  cro_round_row_free (row);
}

/* What is asked of the words is asked of the line: a row has but a price. */
static gboolean
asks_of_words (const CroListRow *list)
{
  for (guint i = 0; list->reasons != NULL && i < list->reasons->len; i++)
    switch (g_array_index (list->reasons, CroListReason, i).why)
      {
      case CRO_LIST_NOT_A_DATE:
      case CRO_LIST_OTHER_NAME:
      case CRO_LIST_WHICH_PACK:
      case CRO_LIST_WHICH_SIZE:
        return TRUE;
      default:
        break;
      }
  return FALSE;
}

gboolean
cro_round_add_line (CroRound    *self,
                    const char  *line,
                    gboolean     is_taken,
                    guint       *index,
                    GError     **error)
{
  CroRoundRow *row = cro_round_row_new ();
  g_autofree char *typed = NULL;

  row->is_added = TRUE;
  row->is_taken = is_taken;
  g_free (row->text);
  row->text = g_strdup (line);
  *index = CRO_NO_SLOT;
  if (!cro_round_read_line (self, row, error))
    {
      discard_row (self, row);
      return FALSE;
    }
  if (row->kind == CRO_ROUND_EMPTY)
    {
      discard_row (self, row);
      return TRUE;
    }
  *index = row->kind != CRO_ROUND_UNREAD && !is_taken && !asks_of_words (&row->list)
               ? find_offer (self, row->list.offer)
               : CRO_NO_SLOT;
  /* What stands in that row is not typed over unseen. */
  if (*index != CRO_NO_SLOT && is_other_than (self->rows->pdata[*index], row))
    {
      if (!make_own (self, row, error))
        {
          discard_row (self, row);
          return FALSE;
        }
      *index = CRO_NO_SLOT;
    }
  if (*index != CRO_NO_SLOT)
    {
      typed = cro_round_dup_typed (self, &row->list);
      discard_row (self, row);
      return cro_round_type (self, *index, typed, error);
    }
  *index = self->rows->len;
  g_ptr_array_add (self->rows, row);
  cro_round_draft (self, row);
  cro_round_settle (self);
  return TRUE;
}

gboolean
cro_round_add (CroRound    *self,
               const char  *line,
               guint       *index,
               GError     **error)
{
  return cro_round_add_line (self, line, FALSE, index, error);
}

void
cro_round_remove (CroRound *self,
                  guint     index)
{
  CroRoundRow *row = self->rows->pdata[index], *twin = cro_round_find_twin (self, row);

  cro_round_undraft (self, row);
  cro_round_settle (self);
  cro_round_forget_twin (self, row);
  g_ptr_array_remove_index (self->rows, index);
  /* It has nothing any more that contradicts it. */
  if (twin != NULL && cro_round_row_is_twice (twin) && !twin->is_billed && !twin->is_taken)
    read_again (self, twin, NULL);
}

guint
cro_round_fill (CroRound *self)
{
  guint n = 0;

  cro_round_begin_many (self);
  for (guint i = 0; i < self->rows->len; i++)
    {
      CroRoundRow *row = self->rows->pdata[i];

      if (row->is_added || row->is_billed || row->kind != CRO_ROUND_EMPTY || row->last == CRO_NOT_SET || row->is_off)
        continue;
      if (!cro_round_type (self, i, "=", NULL))
        continue;
      row->is_filled = TRUE;
      n++;
    }
  cro_round_end_many (self);
  return n;
}

guint
cro_round_empty (CroRound *self)
{
  guint n = 0;

  cro_round_begin_many (self);
  for (guint i = 0; i < self->rows->len; i++)
    if (((CroRoundRow *) self->rows->pdata[i])->is_filled)
      {
        cro_round_type (self, i, "", NULL);
        n++;
      }
  cro_round_end_many (self);
  return n;
}

/* --- Looking ------------------------------------------------------------------------------------------- */

guint
cro_round_find (CroRound   *self,
                const char *text,
                guint       after)
{
  g_autoptr (CroQuery) query = cro_query_new (text);
  g_autofree char *tidy = g_strstrip (g_strdup (text));
  guint best = CRO_NO_SLOT;
  CroMatch how = CRO_MATCH_NONE;

  for (guint n = 0; query != NULL && n < self->rows->len; n++)
    {
      guint i = (after + 1 + n) % self->rows->len;
      const CroRoundRow *row = self->rows->pdata[i];
      g_autofree char *folded = cro_fold (row->list.name != NULL ? row->list.name : "");
      CroMatch match = cro_query_match (query, folded);

      if (row->list.code != NULL && g_ascii_strcasecmp (row->list.code, tidy) == 0)
        return i;
      if (match > how)
        {
          how = match;
          best = i;
        }
    }
  return best;
}

/* --- Order --------------------------------------------------------------------------------------------- */

static gboolean
write_positions (CroRound    *self,
                 const char  *label,
                 GError     **error)
{
  static const char *const columns[] = { "position_micro", NULL };
  CroStore *store = cro_book_get_store (self->book);
  gint64 position = 0;

  if (!cro_book_begin_act (self->book, label, error))
    return FALSE;
  for (guint i = 0; i < self->rows->len; i++)
    {
      CroRoundRow *row = self->rows->pdata[i];
      CroCell cell;

      if (row->id == 0)
        continue;
      position += 10 * CRO_MICRO;
      cell = CRO_CELL_INT (position);
      if (row->position != position && !cro_store_update (store, "offer", row->id, columns, &cell, error))
        {
          cro_book_cancel_act (self->book);
          return FALSE;
        }
      row->position = position;
    }
  return cro_book_end_act (self->book, error);
}

gboolean
cro_round_move (CroRound    *self,
                guint        index,
                int          by,
                const char  *label,
                GError     **error)
{
  guint to = index + (guint) by;
  gboolean was_behind = cro_round_is_behind (self);
  gpointer row;

  if ((by < 0 && index == 0) || to >= self->rows->len
      || ((CroRoundRow *) self->rows->pdata[index])->id == 0 || ((CroRoundRow *) self->rows->pdata[to])->id == 0)
    return FALSE;
  row = self->rows->pdata[index];
  self->rows->pdata[index] = self->rows->pdata[to];
  self->rows->pdata[to] = row;
  if (!write_positions (self, label, error))
    {
      self->rows->pdata[to] = self->rows->pdata[index];
      self->rows->pdata[index] = row;
      return FALSE;
    }
  /* No figure hangs on the order. */
  if (!was_behind)
    self->edition = cro_book_get_edition (self->book);
  return TRUE;
}
