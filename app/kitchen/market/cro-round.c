#include "cro-round-private.h"

#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-fold.h"
#include "cro-pack.h"
#include "cro-price-list-words.h"
#include "cro-price-rows.h"
#include "cro-words.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* --- Rows -------------------------------------------------------------------------------------------- */

CroRoundRow *
cro_round_row_new (void)
{
  CroRoundRow *self = g_new0 (CroRoundRow, 1);

  self->text = g_strdup ("");
  self->list.item = self->list.offer = CRO_NO_SLOT;
  self->last = self->position = CRO_NOT_SET;
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
  g_free (row);
}

/* --- What is drafted -------------------------------------------------------------------------------- */

static void
show (CroRound    *self,
      CroRoundRow *row)
{
  cro_figures_touch_price (cro_book_get_figures (self->draft), row->list.item);
}

static void
settle (CroRound *self)
{
  cro_figures_settle (cro_book_get_figures (self->draft));
}

static void
undraft (CroRound    *self,
         CroRoundRow *row)
{
  if (!row->is_drafted)
    return;
  cro_model_offer (self->of.model, row->list.offer)->offer = row->was;
  row->is_drafted = FALSE;
  show (self, row);
}

/* A price of the day itself gives way to the row without one: what serves then is an older one of the
 * book's. */
static void
draft_none_of_day (CroRound      *self,
                   CroOfferEntry *entry,
                   guint32        slot)
{
  g_autoptr (GArray) rows = cro_price_rows_new (self->of.model, cro_book_get_store (self->draft), slot, NULL);

  for (guint i = 0; rows != NULL && i < rows->len; i++)
    if (g_array_index (rows, CroPriceRow, i).from == self->from)
      g_array_index (rows, CroPriceRow, i).price = CRO_NOT_SET;
  if (rows != NULL)
    cro_price_rows_offer_on (rows, entry, self->from, &entry->offer);
}

/* What is not to be had serves its last price on, from the day before. */
static void
draft_none (CroRound *self,
            guint32   slot)
{
  CroOfferEntry *entry = cro_model_offer (self->of.model, slot);
  CroOffer *offer = &entry->offer;

  if (offer->from >= self->from)
    {
      draft_none_of_day (self, entry, slot);
      return;
    }
  offer->had_price = offer->has_price || offer->had_price;
  if (offer->has_price)
    offer->last_day = MIN (offer->last_day, self->from - 1);
  offer->has_price = false;
}

static void
draft (CroRound    *self,
       CroRoundRow *row)
{
  const CroListRow *list = &row->list;
  CroOffer *offer;

  if (row->is_drafted || list->offer == CRO_NO_SLOT || !list->is_posted || !cro_round_row_is_ready (row))
    return;
  /* Of two rows of one pack one is in the figures, beside the book's own price. */
  for (guint i = 0; i < self->rows->len; i++)
    if (((CroRoundRow *) self->rows->pdata[i])->list.offer == list->offer)
      undraft (self, self->rows->pdata[i]);
  offer = &cro_model_offer (self->of.model, list->offer)->offer;
  row->was = *offer;
  row->is_drafted = TRUE;
  if (list->is_none)
    draft_none (self, list->offer);
  else
    {
      offer->has_price = true;
      offer->last_day = offer->has_until && offer->until < self->from ? offer->until : self->from;
      offer->from = self->from;
      offer->had_price = offer->from <= offer->last_day;
      offer->price = list->price;
      offer->tax_included = list->tax;
      offer->pack_count = list->pack.count;
      offer->pack_size = list->pack.size;
      offer->pack_unit = list->pack.unit;
    }
  show (self, row);
}

void
cro_round_draft (CroRound    *self,
                 CroRoundRow *row)
{
  draft (self, row);
  settle (self);
}

void
cro_round_undraft (CroRound    *self,
                   CroRoundRow *row)
{
  undraft (self, row);
}

/* Of the items whose packs are to be preferred: as they are to be, or as the book has them. */
static void
show_preferred (CroRound *self,
                gboolean  as_posted)
{
  CroModel *model = self->of.model, *book = cro_book_get_model (self->book);

  for (guint i = 0; i < self->preferred->len; i++)
    {
      guint32 slot = cro_slots_get (&model->offer_slots, g_array_index (self->preferred, gint64, i));
      const CroItem *item = slot != CRO_NO_SLOT ? cro_model_item (model, cro_model_offer (model, slot)->item) : NULL;

      for (guint32 n = 0; item != NULL && n < item->n_offers; n++)
        {
          guint32 other = g_array_index (model->offer_order, guint32, item->first_offer + n);
          CroOfferEntry *entry = cro_model_offer (model, other);
          guint32 now = cro_slots_get (&book->offer_slots, entry->id);

          if (as_posted)
            entry->offer.is_preferred = other == slot;
          else if (now != CRO_NO_SLOT)
            entry->offer.is_preferred = cro_model_offer (book, now)->offer.is_preferred;
        }
      if (item != NULL)
        cro_figures_touch_price (cro_book_get_figures (self->draft), cro_model_offer (model, slot)->item);
    }
}

void
cro_round_draft_all (CroRound *self)
{
  show_preferred (self, TRUE);
  for (guint i = 0; i < self->rows->len; i++)
    draft (self, self->rows->pdata[i]);
  settle (self);
}

void
cro_round_undraft_all (CroRound *self)
{
  for (guint i = 0; i < self->rows->len; i++)
    undraft (self, self->rows->pdata[i]);
  show_preferred (self, FALSE);
  settle (self);
}

/* --- Making ------------------------------------------------------------------------------------------- */

typedef struct
{
  gint64 id;
  gint64 position;
} Place;

static gboolean
read_positions (CroRound    *self,
                GHashTable  *positions,
                GError     **error)
{
  static const char *const columns[] = { "id", "position_micro", NULL };
  g_autoptr (CroRows) rows = cro_store_read_of (cro_book_get_store (self->draft), "offer", "supplier", self->supplier,
                                                columns, error);
  GError *failed = NULL;

  while (rows != NULL && cro_rows_next (rows, &failed))
    if (!cro_rows_is_null (rows, 1))
      {
        Place *place = g_new (Place, 1);

        *place = (Place){ cro_rows_get_int (rows, 0), cro_rows_get_int (rows, 1) };
        g_hash_table_insert (positions, &place->id, place);
      }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}

static void
fill_row (CroRound    *self,
          CroRoundRow *row,
          guint32      slot)
{
  const CroOfferEntry *entry = cro_model_offer (self->of.model, slot);

  row->id = entry->id;
  row->list.offer = slot;
  row->list.item = entry->item;
  row->list.is_known = TRUE;
  row->list.code = *entry->code != '\0' ? entry->code : NULL;
  row->list.name = cro_model_item (self->of.model, entry->item)->name;
  row->pack = cro_price_list_pack_of (self->of.model, slot);
  row->since = CRO_NO_DAY;
  row->last = CRO_NOT_SET;
  if (entry->offer.has_price || entry->offer.had_price)
    {
      row->last = entry->offer.price;
      row->since = entry->offer.from;
      row->pack = (CroPack){ entry->offer.pack_count, entry->offer.pack_size, entry->offer.pack_unit };
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
  g_autoptr (GHashTable) positions = g_hash_table_new_full (g_int64_hash, g_int64_equal, NULL, g_free);

  if (!read_positions (self, positions, error))
    return FALSE;
  for (guint32 i = 0; i < model->offers->len; i++)
    {
      const CroOfferEntry *entry = cro_model_offer (model, i);
      CroRoundRow *row;
      const Place *place;

      if (entry->is_dead || entry->supplier != self->list->supplier
          || (entry->offer.has_until && entry->offer.until < self->from))
        continue;
      row = cro_round_row_new ();
      fill_row (self, row, i);
      place = g_hash_table_lookup (positions, &entry->id);
      row->position = place != NULL ? place->position : CRO_NOT_SET;
      g_ptr_array_add (self->rows, row);
    }
  g_ptr_array_sort (self->rows, by_position);
  return TRUE;
}

static const char *
name_of_supplier (CroRound *self)
{
  CroModel *model = cro_book_get_model (self->draft);
  guint32 slot = cro_slots_get (&model->supplier_slots, self->supplier);

  return slot != CRO_NO_SLOT ? g_array_index (model->suppliers, CroSupplier, slot).name : "";
}

static void
clear (CroRound *self)
{
  g_clear_pointer (&self->rows, g_ptr_array_unref);
  if (self->has_of)
    cro_list_book_clear (&self->of);
  self->has_of = FALSE;
  g_clear_pointer (&self->list, cro_price_list_free);
  g_clear_object (&self->draft);
}

static gboolean
make (CroRound *self,
      CroDate   from,
      GError  **error)
{
  self->from = from;
  self->edition = cro_book_get_edition (self->book);
  self->rows = g_ptr_array_new_with_free_func ((GDestroyNotify) cro_round_row_free);
  self->draft = cro_book_open_trial (self->book, error);
  if (self->draft == NULL || !cro_book_set_date (self->draft, from, error))
    return FALSE;
  self->has_of = cro_price_list_begin (self->draft, name_of_supplier (self), from, &self->list, &self->of, error);
  if (self->list != NULL)
    self->list->source = CRO_LIST_MESSAGE;
  return self->has_of && list_rows (self, error);
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
  if (make (self, from, error))
    return self;
  cro_round_free (self);
  return NULL;
}

/* Rows read of an invoice or a list say their currency in its words, which go before they do. */
static void
keep_currencies (GPtrArray *rows)
{
  for (guint i = 0; i < rows->len; i++)
    {
      CroListRow *list = &((CroRoundRow *) rows->pdata[i])->list;

      list->currency = g_intern_string (list->currency);
    }
}

void
cro_round_drop_invoice (CroRound *self)
{
  if (self->invoice != NULL && self->rows != NULL)
    keep_currencies (self->rows);
  if (self->is_pasted && self->invoice_path != NULL)
    g_unlink (self->invoice_path);
  self->is_pasted = FALSE;
  g_clear_pointer (&self->invoice_path, g_free);
  g_clear_pointer (&self->invoice, cro_price_list_free);
}

void
cro_round_free (CroRound *self)
{
  clear (self);
  cro_round_drop_invoice (self);
  g_free (self->price_heading);
  g_array_unref (self->preferred);
  g_array_unref (self->order);
  g_object_unref (self->book);
  g_free (self);
}

/* --- Renewing ----------------------------------------------------------------------------------------- */

static guint
find_id (CroRound *self,
         gint64    id)
{
  for (guint i = 0; id != 0 && i < self->rows->len; i++)
    if (((CroRoundRow *) self->rows->pdata[i])->id == id)
      return i;
  return CRO_NO_SLOT;
}

static void keep_texts (CroRound   *self,
                        CroListRow *list);

/* What is asked of a line as it is written, before it is matched; and beside another that may be posted by
 * now. */
static gboolean
is_of_reading (CroListWhy why)
{
  return why == CRO_LIST_NO_PRICE || why == CRO_LIST_HEADINGS || why == CRO_LIST_NOT_A_PRICE
         || why == CRO_LIST_WHICH_NUMBER || why == CRO_LIST_WHICH_SIGN || why == CRO_LIST_TWICE;
}

/* A line of a list stays what was read, which its text need not be. */
static gboolean
put_again (CroRound    *self,
           CroRoundRow *before,
           GError     **error)
{
  CroRoundRow *row = cro_round_row_new ();
  const CroListRow *was = &before->list;

  row->is_added = row->is_taken = TRUE;
  g_free (row->text);
  row->text = g_strdup (before->text);
  row->kind = before->kind;
  row->list = (CroListRow){ .number = was->number, .code = was->code, .gtin = was->gtin, .name = was->name,
                            .currency = was->currency, .is_none = was->is_none, .is_return = was->is_return,
                            .is_no_ingredient = was->is_no_ingredient, .has_price = was->has_price,
                            .price = was->price, .pack = was->pack, .has_per = was->has_per, .per = was->per,
                            .says_tax = was->says_tax, .is_right = was->is_right,
                            .item = CRO_NO_SLOT, .offer = CRO_NO_SLOT };
  keep_texts (self, &row->list);
  for (guint i = 0; was->reasons != NULL && i < was->reasons->len; i++)
    {
      const CroListReason *reason = &g_array_index (was->reasons, CroListReason, i);

      if (is_of_reading (reason->why))
        cro_list_row_say (self->list, &row->list, reason->why, reason->text, reason->other);
    }
  g_ptr_array_add (self->rows, row);
  if (!cro_round_match (self, row, error))
    return FALSE;
  cro_round_draft (self, row);
  return TRUE;
}

/* One that was added may be a pack of the book by now. */
static gboolean
type_again (CroRound    *self,
            CroRoundRow *before,
            GError     **error)
{
  guint index = find_id (self, before->id);
  CroRoundRow *row;

  if (*before->text == '\0')
    return TRUE;
  if (before->is_taken)
    return put_again (self, before, error);
  if (before->is_added ? !cro_round_add (self, before->text, &index, error)
                       : index != CRO_NO_SLOT && !cro_round_type (self, index, before->text, error))
    return FALSE;
  if (index == CRO_NO_SLOT)
    return TRUE;
  row = self->rows->pdata[index];
  row->is_filled = before->is_filled;
  return !before->list.is_right || cro_round_is_right (self, index, error);
}

/* Its rows are those of the copy that it was read beside. */
static gboolean
take_again (CroRound *self,
            GError  **error)
{
  g_autofree char *path = g_steal_pointer (&self->invoice_path);
  gboolean is_pasted = self->is_pasted, done;
  g_autoptr (CroPriceList) refused = NULL;

  self->is_pasted = FALSE;
  cro_round_drop_invoice (self);
  done = cro_round_take (self, path, &refused, error);
  if (self->invoice != NULL)
    self->is_pasted = is_pasted;
  else if (is_pasted)
    g_unlink (path);
  return done;
}

gboolean
cro_round_renew (CroRound  *self,
                 CroDate    from,
                 GError   **error)
{
  g_autoptr (GPtrArray) before = g_steal_pointer (&self->rows);
  g_autoptr (CroPriceList) texts = g_steal_pointer (&self->list);

  keep_currencies (before);
  clear (self);
  if (!make (self, from, error))
    return FALSE;
  for (guint i = 0; i < before->len; i++)
    {
      CroRoundRow *row = before->pdata[i];

      if (!row->is_billed && !type_again (self, row, error))
        return FALSE;
    }
  /* Preferred packs with them. */
  cro_round_undraft_all (self);
  cro_round_draft_all (self);
  return self->invoice == NULL
         || (take_again (self, error) && (self->invoice == NULL || cro_round_answer_again (self, before, error)));
}

gboolean
cro_round_is_behind (CroRound *self)
{
  return self->edition != cro_book_get_edition (self->book);
}

/* --- What it says of itself ---------------------------------------------------------------------------- */

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
  done = row->is_added ? cro_round_read_line (self, row, error) : cro_round_read (self, row, error);
  cro_round_draft (self, row);
  return done;
}

gboolean
cro_round_type (CroRound    *self,
                guint        index,
                const char  *text,
                GError     **error)
{
  CroRoundRow *row = self->rows->pdata[index];

  if (row->is_billed)
    return TRUE;
  /* What was said of another price is not said of this one. */
  if (strcmp (row->text, text) != 0)
    {
      char *copy = g_strdup (text);

      row->list.is_right = FALSE;
      row->is_filled = FALSE;
      row->is_taken = FALSE;
      g_free (row->text);
      row->text = copy;
    }
  return read_again (self, row, error);
}

static guint
find_offer (CroRound *self,
            guint32   offer)
{
  for (guint i = 0; offer != CRO_NO_SLOT && i < self->rows->len; i++)
    {
      CroRoundRow *row = self->rows->pdata[i];

      if (!row->is_added && !row->is_billed && row->list.offer == offer)
        return i;
    }
  return CRO_NO_SLOT;
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
      cro_round_row_free (row);
      return FALSE;
    }
  if (row->kind == CRO_ROUND_EMPTY)
    {
      cro_round_row_free (row);
      return TRUE;
    }
  *index = row->kind != CRO_ROUND_UNREAD && !is_taken ? find_offer (self, row->list.offer) : CRO_NO_SLOT;
  if (*index != CRO_NO_SLOT)
    {
      typed = cro_round_dup_typed (self, &row->list);
      cro_round_row_free (row);
      return cro_round_type (self, *index, typed, error);
    }
  *index = self->rows->len;
  g_ptr_array_add (self->rows, row);
  cro_round_draft (self, row);
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
  CroRoundRow *row = self->rows->pdata[index];

  cro_round_undraft (self, row);
  settle (self);
  g_ptr_array_remove_index (self->rows, index);
}

guint
cro_round_fill (CroRound *self)
{
  guint n = 0;

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
  return n;
}

guint
cro_round_empty (CroRound *self)
{
  guint n = 0;

  for (guint i = 0; i < self->rows->len; i++)
    if (((CroRoundRow *) self->rows->pdata[i])->is_filled)
      {
        cro_round_type (self, i, "", NULL);
        n++;
      }
  return n;
}

/* --- Files --------------------------------------------------------------------------------------------- */

/* What a line says, for who reads it in the sheet; read again it says the same, but for a code that the
 * supplier has not used yet, which would be part of the name. */
static char *
dup_line (CroRound         *self,
          const CroListRow *list)
{
  GString *line = g_string_new (list->code != NULL && (list->name == NULL || g_hash_table_contains (self->of.codes,
                                                                                                    list->code))
                                    ? list->code
                                    : NULL);
  g_autofree char *price = NULL, *pack = NULL;
  CroListRow plain = *list;

  plain.pack = (CroPack){ 0 };
  if (list->has_price || list->is_none)
    price = cro_round_dup_typed (self, &plain);
  if (list->pack.size > 0 && !list->is_none)
    pack = cro_pack_to_short_text (&list->pack);
  for (guint i = 0; i < 3; i++)
    {
      const char *part = i == 0 ? list->name : i == 1 ? pack : price;

      if (part != NULL)
        g_string_append_printf (line, "%s%s", line->len > 0 ? " " : "", part);
    }
  return g_string_free (line, FALSE);
}

/* Texts live as long as the list that they were read of. */
static void
keep_texts (CroRound   *self,
            CroListRow *list)
{
  CroPriceList *to = self->list;
  const char **texts[] = { &list->code, &list->gtin, &list->name, &list->quantity, &list->unit, &list->net,
                           &list->per_unit };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    *texts[i] = cro_price_list_keep (to, *texts[i]);
  if (list->currency != NULL)
    list->currency = g_intern_string (list->currency);
  for (guint i = 0; list->reasons != NULL && i < list->reasons->len; i++)
    {
      CroListReason *reason = &g_array_index (list->reasons, CroListReason, i);

      reason->text = cro_price_list_keep (to, reason->text);
      reason->other = cro_price_list_keep (to, reason->other);
    }
}

static void
take_row (CroRound         *self,
          const CroListRow *from)
{
  guint index = find_offer (self, from->offer);
  CroRoundRow *row;
  CroListRow list = *from;

  /* What says the other price of a pack waits in a row of its own. */
  for (guint i = 0; from->reasons != NULL && i < from->reasons->len; i++)
    if (g_array_index (from->reasons, CroListReason, i).why == CRO_LIST_TWICE)
      index = CRO_NO_SLOT;
  if (index == CRO_NO_SLOT)
    {
      row = cro_round_row_new ();
      row->is_added = row->is_taken = TRUE;
      g_ptr_array_add (self->rows, row);
    }
  else
    row = self->rows->pdata[index];
  undraft (self, row);
  g_clear_pointer (&row->list.reasons, g_array_unref);
  g_clear_pointer (&row->wrong, g_free);
  if (list.reasons != NULL)
    list.reasons = g_array_copy (list.reasons);
  keep_texts (self, &list);
  list.is_known = list.offer != CRO_NO_SLOT;
  /* As the book calls it. */
  if (!row->is_added)
    {
      list.name = row->list.name;
      list.code = row->list.code;
    }
  g_free (row->text);
  row->text = row->is_added ? dup_line (self, &list) : cro_round_dup_typed (self, &list);
  row->list = list;
  row->kind = list.is_none ? CRO_ROUND_NONE : list.has_price ? CRO_ROUND_PRICED : CRO_ROUND_UNREAD;
  draft (self, row);
}

/* Words of a message that are of nothing that is bought, and no price. */
static gboolean
is_greeting (const CroPriceList *list,
             const CroListRow   *row)
{
  return list->source == CRO_LIST_MESSAGE && row->item == CRO_NO_SLOT && !row->is_none && row->reasons != NULL
         && g_array_index (row->reasons, CroListReason, 0).why == CRO_LIST_NO_PRICE;
}

/* The supplier's order is that of its last list; a message has none. */
static void
take_order (CroRound           *self,
            const CroPriceList *list)
{
  if (list->source != CRO_LIST_TABLE)
    return;
  g_array_set_size (self->order, 0);
  for (guint i = 0; i < list->rows->len; i++)
    {
      guint32 offer = g_array_index (list->rows, CroListRow, i).offer;

      if (offer != CRO_NO_SLOT)
        g_array_append_val (self->order, cro_model_offer (self->of.model, offer)->id);
    }
}

gboolean
cro_round_take (CroRound      *self,
                const char    *path,
                CroPriceList **taken,
                GError       **error)
{
  CroPriceList *list = NULL;
  g_autofree char *refused = NULL;
  gboolean done;

  *taken = NULL;
  cro_round_undraft_all (self);
  done = cro_price_list_read_by (path, self->draft, self->list->supplier_name, self->from, self->price_heading, &list,
                                 error);
  cro_round_draft_all (self);
  refused = done ? cro_words_list_refused (list, NULL) : NULL;
  *taken = list;
  if (!done || refused != NULL || (list->source == CRO_LIST_INVOICE && self->invoice != NULL))
    return done;
  if (list->source == CRO_LIST_INVOICE)
    {
      self->invoice = g_steal_pointer (taken);
      self->invoice_path = g_strdup (path);
      cro_round_take_billed (self);
    }
  take_order (self, list);
  for (guint i = 0; list->source != CRO_LIST_INVOICE && i < list->rows->len; i++)
    if (!is_greeting (list, &g_array_index (list->rows, CroListRow, i)))
      take_row (self, &g_array_index (list->rows, CroListRow, i));
  settle (self);
  return TRUE;
}

void
cro_round_set_price_heading (CroRound   *self,
                             const char *heading)
{
  g_free (self->price_heading);
  self->price_heading = g_strdup (heading);
}

/* The readers take files. */
gboolean
cro_round_take_text (CroRound      *self,
                     const char    *text,
                     CroPriceList **taken,
                     GError       **error)
{
  g_autofree char *path = NULL;
  int file = g_file_open_tmp ("croustade-XXXXXX.txt", &path, error);
  gboolean done;

  *taken = NULL;
  if (file < 0)
    return FALSE;
  close (file);
  done = g_file_set_contents (path, text, -1, error) && cro_round_take (self, path, taken, error);
  self->is_pasted = g_strcmp0 (self->invoice_path, path) == 0;
  if (!self->is_pasted)
    g_unlink (path);
  return done;
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

/* --- Preferred ------------------------------------------------------------------------------------------- */

gboolean
cro_round_prefers (CroRound *self,
                   guint32   offer)
{
  gint64 id = cro_model_offer (self->of.model, offer)->id;

  for (guint i = 0; i < self->preferred->len; i++)
    if (g_array_index (self->preferred, gint64, i) == id)
      return TRUE;
  return FALSE;
}

void
cro_round_prefer (CroRound *self,
                  guint32   offer)
{
  CroModel *model = self->of.model;
  const CroOfferEntry *entry = cro_model_offer (model, offer);
  const CroItem *item = cro_model_item (model, entry->item);

  if (!cro_round_prefers (self, offer))
    g_array_append_val (self->preferred, entry->id);
  for (guint32 i = 0; i < item->n_offers; i++)
    {
      guint32 other = g_array_index (model->offer_order, guint32, item->first_offer + i);
      CroOfferEntry *of = cro_model_offer (model, other);

      for (guint n = 0; other != offer && n < self->preferred->len; n++)
        if (g_array_index (self->preferred, gint64, n) == of->id)
          g_array_remove_index (self->preferred, n--);
      of->offer.is_preferred = other == offer;
    }
  for (guint i = 0; i < self->rows->len; i++)
    {
      CroRoundRow *row = self->rows->pdata[i];

      if (row->is_drafted && row->list.item == entry->item)
        row->was.is_preferred = row->list.offer == offer;
    }
  cro_figures_touch_price (cro_book_get_figures (self->draft), entry->item);
  settle (self);
}
