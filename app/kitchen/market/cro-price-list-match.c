/* What the book holds of each line: its ingredient, the supplier's pack, the price that it had. */
#include "cro-price-list-private.h"

#include "cro-brought-pack.h"
#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-fraction.h"
#include "cro-gtin.h"
#include "cro-number.h"
#include "cro-own-pack.h"
#include "cro-pack.h"
#include "cro-price-change.h"
#include "cro-price-list-purchase.h"
#include "cro-price-rows.h"
#include "cro-rate-doubt.h"
#include "cro-unit-code.h"

#include <math.h>
#include <string.h>

/* --- Whose price it is ---------------------------------------------------------------------------------- */

static guint32
look_up (GHashTable *table,
         const char *name)
{
  guint found = name != NULL ? GPOINTER_TO_UINT (g_hash_table_lookup (table, name)) : 0;

  return found > 0 ? found - 1 : CRO_NO_SLOT;
}

static void
take_offer (CroListMatching *self,
            CroListRow      *row,
            guint32          offer)
{
  row->offer = offer;
  row->item = cro_model_offer (self->model, offer)->item;
}

static gboolean
find_by_code (CroListMatching *self,
              CroListRow      *row)
{
  guint32 offer = look_up (self->of->codes, row->code);

  if (offer != CRO_NO_SLOT)
    take_offer (self, row, offer);
  else if (row->code != NULL && g_hash_table_contains (self->of->codes, row->code))
    cro_list_row_say (self->list, row, CRO_LIST_WHICH_CODE, NULL, NULL);
  return offer != CRO_NO_SLOT;
}

static gboolean
find_by_gtin (CroListMatching *self,
              CroListRow      *row)
{
  char wide[CRO_GTIN_DIGITS + 1];
  guint32 offer;

  if (row->gtin == NULL)
    return FALSE;
  if (!cro_gtin_is_sound (row->gtin, strlen (row->gtin)))
    {
      cro_list_row_say (self->list, row, CRO_LIST_GTIN_WRONG, row->gtin, NULL);
      return FALSE;
    }
  cro_gtin_widen (row->gtin, strlen (row->gtin), wide);
  offer = look_up (self->of->gtins, wide);
  if (offer != CRO_NO_SLOT)
    take_offer (self, row, offer);
  else
    row->item = look_up (self->of->gtins_of_all, wide);
  return row->item != CRO_NO_SLOT;
}

static guint32
item_of_name (CroListMatching *self,
              const char      *name)
{
  g_autofree char *folded = NULL, *one = NULL;
  guint32 item;

  if (name == NULL)
    return CRO_NO_SLOT;
  item = look_up (self->of->spellings, name);
  if (item != CRO_NO_SLOT)
    return item;
  folded = cro_fold (name);
  item = look_up (self->of->names, *folded != '\0' ? folded : name);
  if (item != CRO_NO_SLOT)
    return item;
  one = cro_fold_number (folded);
  return look_up (self->of->names_in_number, one);
}

static gboolean
find_by_name (CroListMatching *self,
              CroListRow      *row)
{
  row->item = item_of_name (self, row->name);
  return row->item != CRO_NO_SLOT;
}

/* A code that was given to something else, or mistyped: the name is another ingredient's. */
static void
check_name (CroListMatching *self,
            CroListRow      *row)
{
  guint32 named = item_of_name (self, row->name);

  if (named != CRO_NO_SLOT && named != row->item)
    cro_list_row_say (self->list, row, CRO_LIST_OTHER_NAME, cro_model_item (self->model, named)->name,
                      cro_model_item (self->model, row->item)->name);
}

static void
add_pack (CroModel *model,
          guint32   slot,
          GString  *packs)
{
  CroPack pack = cro_pack_of_offer (model, slot);
  g_autofree char *text = cro_pack_to_text (&pack);

  g_string_append_printf (packs, "%s%s %s", packs->len > 0 ? ", " : "", cro_model_offer (model, slot)->code, text);
}

/* Of several packs of an ingredient that of the line's size, else the only one that is to be had. A line
 * with a code that the supplier has not used yet is a new pack. Of the size of one that was given up, under a code of
 * its own, it may be that one. */
static void
choose_offer (CroListMatching *self,
              CroListRow      *row)
{
  const CroItem *item = cro_model_item (self->model, row->item);
  const CroPack said = row->counted.size > 0 ? row->counted
                       : row->has_per && row->pack.size == 0 ? (CroPack){ CRO_MICRO, CRO_MICRO, row->per }
                                                             : row->pack;
  g_autoptr (GString) packs = g_string_new (NULL);
  guint32 only = CRO_NO_SLOT, given_up = CRO_NO_SLOT;
  guint n = 0;

  for (guint32 i = 0; i < item->n_offers; i++)
    {
      guint32 slot = g_array_index (self->model->offer_order, guint32, item->first_offer + i);
      const CroOfferEntry *offer = cro_model_offer (self->model, slot);
      CroPack pack;

      /* One without an id is but drafted. */
      if (offer->supplier != self->of->supplier || offer->is_dead || offer->id == 0
          || (row->code != NULL && *offer->code != '\0'))
        continue;
      pack = cro_pack_of_offer (self->model, slot);
      if (offer->offer.has_until && offer->offer.until < self->list->from)
        {
          if (*offer->code != '\0' && said.size > 0 && self->list->source != CRO_LIST_INVOICE
              && cro_list_is_pack (&pack, &said))
            given_up = slot;
          continue;
        }
      if (said.size > 0 && (cro_list_is_pack (&pack, &said) || cro_list_counts_pack (&pack, &said)))
        {
          row->offer = slot;
          return;
        }
      add_pack (self->model, slot, packs);
      only = slot;
      n++;
    }
  if (n > 0 && given_up != CRO_NO_SLOT)
    {
      add_pack (self->model, given_up, packs);
      n++;
    }
  if (n == 1)
    row->offer = only;
  else if (n > 1)
    cro_list_row_say (self->list, row, CRO_LIST_WHICH_PACK, packs->str, NULL);
}

/* --- One line ------------------------------------------------------------------------------------------------- */

static gboolean
asks (const CroListRow *row)
{
  for (guint i = 0; row->reasons != NULL && i < row->reasons->len; i++)
    {
      CroListWhy why = g_array_index (row->reasons, CroListReason, i).why;

      if (cro_list_why_asks (why) && !(row->is_right && cro_list_why_can_be_right (why)))
        return TRUE;
    }
  return FALSE;
}

static CroListState
state_of (const CroListRow *row)
{
  if (row->is_return)
    return CRO_LIST_RETURN;
  if (row->is_no_ingredient)
    return CRO_LIST_NO_INGREDIENT;
  if (row->item == CRO_NO_SLOT)
    return asks (row) && row->offer != CRO_NO_SLOT ? CRO_LIST_DOUBTFUL : CRO_LIST_UNMATCHED;
  if (asks (row))
    return CRO_LIST_DOUBTFUL;
  if (row->is_none)
    return CRO_LIST_NOT_TO_BE_HAD;
  if (row->is_late)
    return CRO_LIST_UNCHANGED;
  if (row->last == CRO_NOT_SET)
    return CRO_LIST_NEW;
  return cro_list_is_same_price (row->last, row->price) ? CRO_LIST_UNCHANGED : CRO_LIST_CHANGED;
}

/* What has no value in the book's currency, or too large a one, is not dropped unseen. */
static void
check_purchase (CroListMatching *self,
                CroListRow      *row)
{
  CroListPurchase purchase;

  if (!row->is_booked || cro_list_purchase_of (self->list, self->model, row, &purchase))
    return;
  row->is_booked = row->is_posted = FALSE;
  if (!row->is_no_ingredient && !row->is_return)
    row->state = CRO_LIST_DOUBTFUL;
  if (cro_list_is_foreign (self->list, self->model) && isnan (self->list->rate))
    cro_list_row_say (self->list, row, CRO_LIST_NO_RATE, self->list->currency, NULL);
  else
    cro_list_row_say (self->list, row, CRO_LIST_TOO_LARGE, NULL, NULL);
}

static gboolean
is_not_booked (const CroListRow *row,
               CroListWhy        why)
{
  return why == CRO_LIST_NO_PURCHASE;
}

/* What follows from all that is known and asked. */
static void
conclude (CroListMatching *self,
          CroListRow      *row)
{
  row->state = state_of (row);
  if (row->state == CRO_LIST_DOUBTFUL || row->state == CRO_LIST_UNMATCHED || row->is_return || row->is_no_ingredient
      || row->is_late || (row->is_none && row->offer == CRO_NO_SLOT))
    row->is_posted = FALSE;
  row->is_booked = self->list->source == CRO_LIST_INVOICE && (row->is_no_ingredient || row->item != CRO_NO_SLOT)
                   && !asks (row);
  check_purchase (self, row);
  cro_list_row_unsay (row, is_not_booked);
  if (row->is_return && row->item == CRO_NO_SLOT && !row->is_no_ingredient)
    cro_list_row_say (self->list, row, CRO_LIST_NO_PURCHASE, NULL, NULL);
}

/* Whose price it is: two lines that have it in common have one price. */
static char *
dup_pack_key (CroModel         *model,
              const CroListRow *row)
{
  const char *code = row->offer != CRO_NO_SLOT ? cro_model_offer (model, row->offer)->code
                     : row->code != NULL       ? row->code
                                               : "";

  /* A new pack without a code is told by its size. */
  if (*code == '\0' && row->offer == CRO_NO_SLOT)
    return g_strdup_printf ("%u\n\n%" G_GINT64_FORMAT " %" G_GINT64_FORMAT " %d", row->item, row->pack.count,
                            row->pack.size, (int) row->pack.unit);
  return g_strdup_printf ("%u\n%s", row->item, code);
}

static gboolean
is_twice (const CroListRow *row,
          CroListWhy        why)
{
  return why == CRO_LIST_TWICE;
}

/* How far a price may lie from the one that was meant: that of an invoice's line is its money, which was rounded to the
 * minor unit, over its quantity. */
static double
rounding_of (const CroListRow *row)
{
  return row->net_value != 0
             ? (double) row->price * (double) cro_currency_minor (row->currency) / 2 / fabs ((double) row->net_value)
             : 0;
}

gboolean
cro_list_rows_say_same (const CroListRow *a,
                        const CroListRow *b)
{
  return a->is_none == b->is_none
         && (a->is_none
             || (fabs ((double) (a->price - b->price)) <= rounding_of (a) + rounding_of (b)
                 && a->tax == b->tax && cro_list_is_pack (&a->pack, &b->pack)));
}

/* The same price twice is posted once. Where there is another one both ask, and with them what repeats the first. */
static void
check_twice (CroListMatching *self,
             CroListRow      *row)
{
  char *key = dup_pack_key (self->model, row);
  guint before = GPOINTER_TO_UINT (g_hash_table_lookup (self->seen, key));
  g_autofree char *number = g_strdup_printf ("%u", row->number), *of_first = NULL;
  CroListRow *first;

  row->is_posted = before == 0;
  if (before == 0)
    {
      g_hash_table_insert (self->seen, key, GUINT_TO_POINTER (self->list->rows->len + 1));
      return;
    }
  g_free (key);
  first = &g_array_index (self->list->rows, CroListRow, before - 1);
  row->is_repeat = cro_list_rows_say_same (first, row);
  if (row->is_repeat && !first->is_contradicted)
    {
      row->repeated_by = first->repeated_by;
      first->repeated_by = self->list->rows->len + 1;
      return;
    }
  of_first = g_strdup_printf ("%u", first->number);
  cro_list_row_say (self->list, row, CRO_LIST_TWICE, of_first, NULL);
  if (first->is_contradicted)
    return;
  first->is_contradicted = TRUE;
  for (guint i = before; i > 0; i = first->repeated_by)
    {
      first = &g_array_index (self->list->rows, CroListRow, i - 1);
      cro_list_row_say (self->list, first, CRO_LIST_TWICE, number, NULL);
      conclude (self, first);
    }
}

/* Of what was said to be whose price it is: the supplier's pack of that code, if it is one of that ingredient. */
static gboolean
find_named (CroListMatching *self,
            CroListRow      *row)
{
  guint32 offer = look_up (self->of->codes, row->code);

  if (!find_by_name (self, row))
    return FALSE;
  if (offer != CRO_NO_SLOT && cro_model_offer (self->model, offer)->item == row->item)
    row->offer = offer;
  else
    choose_offer (self, row);
  return TRUE;
}

static gboolean
find (CroListMatching *self,
      CroListRow      *row)
{
  if (row->is_named)
    return find_named (self, row);
  if (find_by_code (self, row))
    {
      check_name (self, row);
      return TRUE;
    }
  if (find_by_gtin (self, row))
    check_name (self, row);
  else if (!find_by_name (self, row))
    return FALSE;
  if (row->offer == CRO_NO_SLOT)
    choose_offer (self, row);
  cro_list_check_code (self, row);
  return TRUE;
}

/* A column of tax beside the price tells by its amount whether the price has it, where the last one had; of per cents
 * nothing does. What is more by that rate and no total may be another price. */
static void
settle_tax_beside (CroListMatching *self,
                   CroListRow      *row,
                   gint64           rate_pct)
{
  /* What is open of all prices is so of goods that had none. */
  if (row->says_tax != CRO_PRICE_TAX_UNSAID || row->is_from_last || row->tax_beside == 0 || !row->has_price
      || (rate_pct == 0 && !row->is_tax_open))
    return;
  /* A number that is the rate is probably no amount. */
  if (row->tax_beside != CRO_NOT_SET && row->tax_beside != rate_pct && row->tax_beside != rate_pct / 100)
    row->says_tax = cro_price_list_tax_by_amount (row->price, row->tax_beside, rate_pct);
  if (row->tax_heading == NULL && row->says_tax != CRO_PRICE_WITHOUT_TAX)
    row->says_tax = CRO_PRICE_TAX_UNSAID;
  else if (row->tax_heading == NULL && row->sum_heading != NULL)
    {
      row->says_tax = CRO_PRICE_TAX_UNSAID;
      cro_list_row_say (self->list, row, CRO_LIST_TAX_BESIDE, row->sum_heading, NULL);
    }
  else if (row->says_tax == CRO_PRICE_TAX_UNSAID)
    cro_list_row_say (self->list, row, CRO_LIST_TAX_BESIDE, row->tax_heading, NULL);
}

/* A list obeys what it says of tax; at what rate it may say too, else its last prices tell. */
static void
settle_tax (CroListMatching *self,
            CroListRow      *row)
{
  const CroOfferEntry *offer = row->offer != CRO_NO_SLOT ? cro_model_offer (self->model, row->offer) : NULL;

  settle_tax_beside (self, row, offer != NULL ? offer->offer.tax_included : 0);
  /* As last is as the last price was. */
  if (self->list->source == CRO_LIST_INVOICE || (row->says_tax == CRO_PRICE_WITHOUT_TAX && !row->is_from_last))
    return;
  if (offer != NULL)
    row->tax = row->says_tax == CRO_PRICE_WITH_TAX && !row->is_from_last ? cro_list_tax_before (self->of, row->offer)
                                                                         : offer->offer.tax_included;
  if (row->says_tax == CRO_PRICE_WITH_TAX && !row->is_from_last && row->tax_pct > 0)
    row->tax = row->tax_pct;
  if (row->says_tax == CRO_PRICE_WITH_TAX && row->has_price && row->tax == 0)
    cro_list_row_say (self->list, row, CRO_LIST_WHICH_TAX, NULL, NULL);
}

gboolean
cro_list_row_change (const CroListBook *of,
                     CroListRow        *row)
{
  const char *currency = cro_model_currency_of (of->model, row->offer);
  CroUnit unit = cro_price_list_unit_of_quotes (of->model, row->item);
  gint64 price = row->price;
  gboolean is_of_one = of->quotes_base && cro_list_price_of_one (&row->pack, row->price, unit, &price);

  if (!cro_price_change_by_pct (currency, price, row->change_pct, &price))
    return FALSE;
  row->change_pct = 0;
  row->price = price;
  if (is_of_one && !cro_brought_price_of_pack (unit, &row->pack, &row->price))
    row->pack = (CroPack){ CRO_MICRO, CRO_MICRO, unit };
  return TRUE;
}

/* At the pack and the price that served last, or at what became of that. */
static gboolean
take_last (CroListMatching *self,
           CroListRow      *row)
{
  const CroOfferEntry *entry = row->offer != CRO_NO_SLOT ? cro_model_offer (self->model, row->offer) : NULL;
  CroOffer own;

  row->has_price = entry != NULL && (entry->offer.has_price || entry->offer.had_price);
  if (!row->has_price)
    {
      if (!asks (row))
        cro_list_row_say (self->list, row, CRO_LIST_NO_PRICE, NULL, NULL);
      return FALSE;
    }
  own = cro_own_pack_in_force (self->model, row->offer);
  row->pack = cro_pack_of (&own);
  row->price = own.price;
  row->has_per = FALSE;
  row->is_from_last = TRUE;
  if (row->change_pct == 0 || cro_list_row_change (self->of, row))
    return TRUE;
  row->has_price = FALSE;
  cro_list_row_say (self->list, row, CRO_LIST_NO_PRICE, NULL, NULL);
  return FALSE;
}

static gboolean
look_at_price (CroListMatching  *self,
               CroListRow       *row,
               GError          **error)
{
  const CroOfferEntry *offer = row->offer != CRO_NO_SLOT ? cro_model_offer (self->model, row->offer) : NULL;
  CroOffer then;

  /* What the supplier has no pack of need not be told to be off. */
  if (offer == NULL && row->is_none)
    return TRUE;
  if ((row->is_same || row->change_pct != 0) && !take_last (self, row))
    return TRUE;
  settle_tax (self, row);
  cro_list_settle_pack (self, row);
  if (!cro_list_settle_pieces (self, row, error))
    return FALSE;
  cro_list_check_measure (self, row);
  if (row->pack.size == 0)
    return TRUE;
  then = cro_list_offer_of (self, row);
  if (!(cro_offer_pack (&then, &self->model->measures[row->item]) > 0))
    {
      cro_list_row_say (self->list, row, CRO_LIST_NOT_CONVERTED, NULL, NULL);
      return TRUE;
    }
  cro_list_check_currency (self, row);
  if (row->is_return && self->list->source == CRO_LIST_INVOICE)
    return cro_list_look_at_return (self, row, error);
  if (!row->has_price)
    return TRUE;
  row->is_stated_per_base = self->of->quotes_base && self->list->source != CRO_LIST_INVOICE;
  cro_list_say_given_up (self, row);
  cro_list_look_back (self, row);
  if (self->list->source == CRO_LIST_INVOICE && row->offer != CRO_NO_SLOT && !cro_list_read_quoted (self, row, error))
    return FALSE;
  return cro_list_look_twice (self, row, error);
}

/* What no ingredient was found for may have been said to be none. */
static gboolean
recall (CroListMatching *self,
        CroListRow      *row)
{
  CroListGoods goods = row->goods == CRO_LIST_GOODS_UNSAID ? cro_list_recall_goods (self->of, row)
                                                           : CRO_LIST_GOODS_UNSAID;

  if (goods == CRO_LIST_GOODS_UNSAID)
    return FALSE;
  cro_list_row_say_goods (self->list, row, goods);
  row->is_recalled = TRUE;
  return TRUE;
}

static gboolean
match_row (CroListMatching  *self,
           CroListRow       *row,
           GError          **error)
{
  if (!row->is_known)
    row->item = row->offer = CRO_NO_SLOT;
  row->last = row->quoted = row->quoted_pack = row->reclaim = row->in_book_currency = CRO_NOT_SET;
  row->is_late = FALSE;
  row->look = (CroLook){ .ratio = NAN, .meant = CRO_NOT_SET };
  if (!row->is_known && !row->is_no_ingredient && !find (self, row) && !recall (self, row))
    cro_list_suggest (self, row);
  if (row->item == CRO_NO_SLOT && (row->is_same || row->change_pct != 0))
    cro_list_row_say (self->list, row, CRO_LIST_NO_PRICE, NULL, NULL);
  if (row->item == CRO_NO_SLOT)
    cro_list_settle_stranger (row);
  if (row->item != CRO_NO_SLOT && !look_at_price (self, row, error))
    return FALSE;
  row->is_posted = self->seen == NULL && !row->is_return;
  if (row->item != CRO_NO_SLOT && !row->is_return && self->seen != NULL)
    check_twice (self, row);
  conclude (self, row);
  return TRUE;
}

gboolean
cro_list_row_can_accept (const CroListRow *row)
{
  if ((row->item == CRO_NO_SLOT && !row->is_no_ingredient)
      || (!row->has_price && !row->is_return && !row->is_no_ingredient) || row->is_in_book || !asks (row))
    return FALSE;
  for (guint i = 0; i < row->reasons->len; i++)
    {
      CroListWhy why = g_array_index (row->reasons, CroListReason, i).why;

      if (cro_list_why_asks (why) && !cro_list_why_can_be_right (why))
        return FALSE;
    }
  return TRUE;
}

static gboolean
is_of_all (const CroListRow *row,
           CroListWhy        why)
{
  return cro_list_why_is_of_all (why);
}

static gboolean
is_asked_of_all (const CroListRow *row)
{
  for (guint i = 0; row->reasons != NULL && i < row->reasons->len; i++)
    if (cro_list_why_is_of_all (g_array_index (row->reasons, CroListReason, i).why))
      return TRUE;
  return FALSE;
}

/* What was asked of the whole document is answered. */
static void
release_all (CroListMatching *self)
{
  for (guint i = 0; i < self->list->rows->len; i++)
    {
      CroListRow *row = &g_array_index (self->list->rows, CroListRow, i);

      if (!is_asked_of_all (row))
        continue;
      cro_list_row_unsay (row, is_of_all);
      row->is_posted = row->is_held;
      conclude (self, row);
    }
}

/* Of each line the next of its pack, in a ring. Owned. */
static guint *
link_packs (const CroPriceList *self,
            CroModel           *model)
{
  g_autoptr (GHashTable) first = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  guint *next = g_new (guint, self->rows->len);

  for (guint i = 0; i < self->rows->len; i++)
    {
      const CroListRow *row = &g_array_index (self->rows, CroListRow, i);
      char *key = row->item != CRO_NO_SLOT ? dup_pack_key (model, row) : NULL;
      guint before = key != NULL ? GPOINTER_TO_UINT (g_hash_table_lookup (first, key)) : 0;

      next[i] = before > 0 ? next[before - 1] : i;
      if (before > 0)
        next[before - 1] = i;
      if (key != NULL && before == 0)
        g_hash_table_insert (first, g_steal_pointer (&key), GUINT_TO_POINTER (i + 1));
      g_free (key);
    }
  return next;
}

/* Of two prices of one pack the one that is said to be right is posted, and the other asks no more. What is given back
 * posts none, and stops none. */
static void
accept (CroListMatching *self,
        const guint     *next,
        guint            index)
{
  GArray *rows = self->list->rows;
  CroListRow *row = &g_array_index (rows, CroListRow, index);
  g_autofree char *number = g_strdup_printf ("%u", row->number);

  if (is_asked_of_all (row))
    release_all (self);
  for (guint i = next[index]; !row->is_return && i != index; i = next[i])
    {
      CroListRow *other = &g_array_index (rows, CroListRow, i);

      if (other->share_of > 0 || other->is_return)
        continue;
      if (cro_list_row_is_twice (other))
        cro_list_row_say (self->list, other, CRO_LIST_GIVES_WAY, number, NULL);
      cro_list_row_unsay (other, is_twice);
      other->is_posted = FALSE;
      conclude (self, other);
    }
  row->is_right = TRUE;
  row->is_posted = TRUE;
  conclude (self, row);
}

void
cro_price_list_accept (CroPriceList *self,
                       CroModel     *model,
                       const guint  *indices,
                       guint         n)
{
  CroListMatching matching = { .list = self, .model = model };
  g_autofree guint *next = link_packs (self, model);

  for (guint i = 0; i < n; i++)
    if (cro_list_row_can_accept (&g_array_index (self->rows, CroListRow, indices[i])))
      accept (&matching, next, indices[i]);
  cro_price_list_count_waiting (self);
}

gboolean
cro_price_list_match_row (CroPriceList  *self,
                          CroListBook   *of,
                          CroListRow    *row,
                          GError       **error)
{
  CroListMatching matching = { self, of, of->model, NULL };

  return match_row (&matching, row, error);
}

gboolean
cro_price_list_match (CroPriceList  *self,
                      CroListBook   *of,
                      GError       **error)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  CroListMatching matching = { self, of, of->model, seen };
  g_autoptr (GArray) written = g_steal_pointer (&self->rows);
  gboolean is_sound = TRUE;

  self->is_foreign = cro_list_is_foreign (self, of->model);
  self->rate = self->is_foreign ? cro_rate_on (of->book, self->currency, self->delivered)
                                                     : NAN;
  self->rows = g_array_sized_new (FALSE, FALSE, sizeof (CroListRow), written->len);
  if (self->source != CRO_LIST_INVOICE)
    self->read = g_ptr_array_new_with_free_func ((GDestroyNotify) cro_list_row_free);
  for (guint i = 0; i < written->len; i++)
    {
      CroListRow row = g_array_index (written, CroListRow, i);

      if (self->read != NULL)
        g_ptr_array_add (self->read, cro_list_row_dup (&row));
      is_sound = is_sound && (i % 256 != 0 || cro_list_book_goes_on (of, (double) i / written->len))
                 && match_row (&matching, &row, error);
      g_array_append_val (self->rows, row);
    }
  cro_price_list_count_waiting (self);
  cro_price_list_share (self, of->model);
  return is_sound;
}
