/* What a round would post, in the figures of its copy of the book. */
#include "cro-round-private.h"

#include "cro-price-rows.h"

/* --- What is drafted -------------------------------------------------------------------------------- */

/* All packs are put in order at once, however many were added. */
static void
sort_packs (CroRound *self)
{
  if (self->unsorted->len == 0)
    return;
  cro_model_sort (self->of.model);
  for (guint i = 0; i < self->unsorted->len; i++)
    cro_figures_touch_price (cro_book_get_figures (self->draft), g_array_index (self->unsorted, guint32, i));
  g_array_set_size (self->unsorted, 0);
}

void
cro_round_settle (CroRound *self)
{
  /* Among many rows at their end: what is matched passes over packs that are but drafted. */
  if (self->twins != NULL)
    return;
  sort_packs (self);
  cro_figures_settle (cro_book_get_figures (self->draft));
}

void
cro_round_undraft (CroRound    *self,
                   CroRoundRow *row)
{
  if (!row->is_drafted)
    return;
  cro_model_offer (self->of.model, row->drafted)->offer = row->was;
  row->is_drafted = FALSE;
  g_hash_table_remove (self->drafted, GUINT_TO_POINTER (row->drafted + 1));
  cro_figures_touch_price (cro_book_get_figures (self->draft), cro_model_offer (self->of.model, row->drafted)->item);
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

/* --- A pack that the supplier has not yet ------------------------------------------------------------ */

/* It stands in the copy alone, and without a price but while it is drafted. */
static void
add_pack (CroRound    *self,
          CroRoundRow *row)
{
  CroModel *model = self->of.model;
  CroOfferEntry entry = { .item = row->list.item, .supplier = self->list->supplier, .code = "" };

  row->drafted = model->offers->len;
  g_array_append_val (model->offers, entry);
  g_array_append_val (self->unsorted, entry.item);
}

static guint32
find_slot (CroRound    *self,
           CroRoundRow *row)
{
  const CroListRow *list = &row->list;
  CroOfferEntry *own;

  if (list->offer != CRO_NO_SLOT || list->item == CRO_NO_SLOT || list->is_none || list->pack.size == 0
      || !(cro_model_rate (self->of.model, list->currency) > 0))
    return list->offer;
  own = row->drafted != CRO_NO_SLOT ? cro_model_offer (self->of.model, row->drafted) : NULL;
  if (own == NULL || own->id != 0)
    add_pack (self, row);
  else if (own->item != list->item)
    {
      g_array_append_val (self->unsorted, own->item);
      own->item = list->item;
      g_array_append_val (self->unsorted, own->item);
    }
  cro_model_offer (self->of.model, row->drafted)->offer.rate = cro_model_rate (self->of.model, list->currency);
  return row->drafted;
}

/* --- Drafting -------------------------------------------------------------------------------------------- */

/* Of what is not to be had by now the price of an earlier day becomes the last, which serves on. */
static gboolean
becomes_last (const CroOffer *offer,
              CroDate         day)
{
  return !offer->has_price && offer->had_price && offer->from <= day && day <= offer->last_day;
}

static void
draft_price (CroRound         *self,
             const CroListRow *list,
             CroDate           day,
             CroOffer         *offer)
{
  if (!becomes_last (offer, day))
    {
      offer->has_price = true;
      offer->last_day = offer->has_until && offer->until < self->from ? offer->until : self->from;
      offer->had_price = day <= offer->last_day;
    }
  offer->from = day;
  offer->price = list->price;
  offer->tax_included = list->tax;
  offer->pack_count = list->pack.count;
  offer->pack_size = list->pack.size;
  offer->pack_unit = list->pack.unit;
}

CroDate
cro_round_row_get_day (CroRound          *self,
                       const CroRoundRow *row)
{
  return row->is_billed ? self->invoice->delivered : self->from;
}

CroDate
cro_round_row_get_newer (CroRound          *self,
                         const CroRoundRow *row)
{
  CroDate day = cro_round_row_get_day (self, row);
  const CroOffer *offer
      = row->list.offer != CRO_NO_SLOT ? &cro_model_offer (self->of.model, row->list.offer)->offer : NULL;

  if (offer == NULL || row->is_drafted || !(offer->has_price || offer->had_price))
    return CRO_NO_DAY;
  if (offer->has_price)
    return offer->from > day ? offer->from : CRO_NO_DAY;
  return offer->last_day >= day ? offer->last_day + 1 : CRO_NO_DAY;
}

/* A price of a day that has not come on that of the copy, or since which the book has another, serves nothing. */
static gboolean
is_in_use (CroRound          *self,
           const CroRoundRow *row)
{
  CroDate day = cro_round_row_get_day (self, row);

  return !row->is_billed
         || (day <= self->from
             && (cro_round_row_get_newer (self, row) == CRO_NO_DAY
                 || (row->list.offer != CRO_NO_SLOT
                     && becomes_last (&cro_model_offer (self->of.model, row->list.offer)->offer, day))));
}

void
cro_round_draft (CroRound    *self,
                 CroRoundRow *row)
{
  const CroListRow *list = &row->list;
  CroRoundRow *other;
  guint32 slot;

  if (row->is_drafted || !list->is_posted || !cro_round_row_is_ready (row) || !is_in_use (self, row))
    return;
  slot = find_slot (self, row);
  if (slot == CRO_NO_SLOT)
    return;
  /* Of two rows of one pack one is in the figures, beside the book's own price. */
  other = g_hash_table_lookup (self->drafted, GUINT_TO_POINTER (slot + 1));
  if (other != NULL)
    cro_round_undraft (self, other);
  g_hash_table_insert (self->drafted, GUINT_TO_POINTER (slot + 1), row);
  row->drafted = slot;
  row->was = cro_model_offer (self->of.model, slot)->offer;
  row->is_drafted = TRUE;
  if (list->is_none)
    draft_none (self, slot);
  else
    draft_price (self, list, cro_round_row_get_day (self, row), &cro_model_offer (self->of.model, slot)->offer);
  cro_figures_touch_price (cro_book_get_figures (self->draft), list->item);
}

/* Of the items whose packs are to be preferred: as they are to be, or as the book had them when it was copied: a list
 * may be taken in a thread, which sees nothing of the book itself. */
static void
show_preferred (CroRound *self,
                gboolean  as_posted)
{
  CroModel *model = self->of.model;

  for (guint i = 0; i < self->preferred->len; i++)
    {
      guint32 slot = cro_slots_get (&model->offer_slots, g_array_index (self->preferred, gint64, i));
      const CroItem *item = slot != CRO_NO_SLOT ? cro_model_item (model, cro_model_offer (model, slot)->item) : NULL;

      for (guint32 n = 0; item != NULL && n < item->n_offers; n++)
        {
          guint32 other = g_array_index (model->offer_order, guint32, item->first_offer + n);

          cro_model_offer (model, other)->offer.is_preferred =
              as_posted ? other == slot : g_hash_table_contains (self->of_book, GUINT_TO_POINTER (other + 1));
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
    cro_round_draft (self, self->rows->pdata[i]);
  cro_round_settle (self);
}

void
cro_round_undraft_all (CroRound *self)
{
  for (guint i = 0; i < self->rows->len; i++)
    cro_round_undraft (self, self->rows->pdata[i]);
  show_preferred (self, FALSE);
  cro_round_settle (self);
}

/* --- Preferred ------------------------------------------------------------------------------------------- */

static gboolean
prefers (CroRound *self,
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

  if (!prefers (self, offer))
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
  cro_round_settle (self);
}
