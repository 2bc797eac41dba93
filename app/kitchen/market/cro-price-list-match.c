/* What the book holds of each line: its ingredient, the supplier's pack, the price that it had. */
#include "cro-price-list-private.h"

#include "cro-brought-pack.h"
#include "cro-decimal.h"
#include "cro-number.h"
#include "cro-own-pack.h"
#include "cro-pack.h"
#include "cro-price-change.h"
#include "cro-price-list-purchase.h"
#include "cro-rate-doubt.h"

#include <math.h>

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
  if (row->is_late || cro_list_row_is_free (row))
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
      || row->is_late || cro_list_row_is_free (row) || (row->is_none && row->offer == CRO_NO_SLOT))
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

double
cro_list_price_rounding (const CroListRow *row)
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
             || (fabs ((double) (a->price - b->price)) <= cro_list_price_rounding (a) + cro_list_price_rounding (b)
                 && a->tax == b->tax && cro_list_is_pack (&a->pack, &b->pack)));
}

/* Of an invoice two packs at one price per unit contradict each other in nothing: 2 of 10 kg, and 4 kg. */
static gboolean
say_same (CroListMatching  *self,
          const CroListRow *first,
          const CroListRow *row)
{
  CroListRow as_first = *row;

  if (self->list->source == CRO_LIST_INVOICE && !cro_list_is_pack (&row->pack, &first->pack)
      && cro_list_price_in_pack (&row->pack, &first->pack, &as_first.price))
    as_first.pack = first->pack;
  return cro_list_rows_say_same (first, &as_first);
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
  row->is_repeat = say_same (self, first, row);
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

  if (row->is_return && row->back == CRO_LIST_BACK_PRICE)
    {
      cro_list_say_price_back (self, row);
      return TRUE;
    }
  /* What the supplier has no pack of need not be told to be off. */
  if (offer == NULL && row->is_none)
    return TRUE;
  if ((row->is_same || row->change_pct != 0) && !take_last (self, row))
    return TRUE;
  cro_list_settle_tax (self, row);
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
  if (cro_list_row_is_free (row))
    {
      cro_list_row_say (self->list, row, CRO_LIST_FREE, NULL, NULL);
      return TRUE;
    }
  row->is_stated_per_base = self->of->quotes_base && self->list->source != CRO_LIST_INVOICE;
  cro_list_say_given_up (self, row);
  cro_list_look_back (self, row);
  cro_list_check_unit_price (self, row);
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

/* What is given back, or free, says none. */
static gboolean
says_price (const CroListRow *row)
{
  return !row->is_return && !cro_list_row_is_free (row);
}

static gboolean
is_pack_in_force (CroListMatching  *self,
                  const CroListRow *row)
{
  CroPack pack = cro_pack_in_force (self->model, row->offer);

  return cro_list_is_pack (&row->pack, &pack);
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
  if (!row->is_known && !row->is_no_ingredient && !cro_list_row_find (self, row) && !recall (self, row))
    cro_list_suggest (self, row);
  /* Typed into the row of a pack: what it has today is no other pack of the supplier's. */
  if (row->is_known && row->offer != CRO_NO_SLOT && row->has_price && !is_pack_in_force (self, row))
    cro_list_check_size (self, row);
  if (row->item == CRO_NO_SLOT && (row->is_same || row->change_pct != 0))
    cro_list_row_say (self->list, row, CRO_LIST_NO_PRICE, NULL, NULL);
  if (row->item == CRO_NO_SLOT)
    cro_list_settle_stranger (row);
  if (row->item != CRO_NO_SLOT && !look_at_price (self, row, error))
    return FALSE;
  row->is_posted = self->seen == NULL && says_price (row);
  if (row->item != CRO_NO_SLOT && says_price (row) && self->seen != NULL)
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

static gboolean
take_said (const CroListRow    *row,
           const CroListReason *said)
{
  guint i = cro_list_row_find_reason (row, said->why, said->text);

  if (i != CRO_NO_SLOT)
    g_array_remove_index (row->reasons, i);
  return i != CRO_NO_SLOT;
}

/* What a list says of all prices is answered for all of them. */
static void
release_said (CroListMatching *self,
              CroListRow      *row)
{
  for (guint k = 0; row->reasons != NULL && k < row->reasons->len; k++)
    {
      const CroListReason *said = &g_array_index (row->reasons, CroListReason, k);

      if (!cro_list_why_is_said (said->why))
        continue;
      for (guint i = 0; i < self->list->rows->len; i++)
        {
          CroListRow *other = &g_array_index (self->list->rows, CroListRow, i);

          if (other == row || !take_said (other, said))
            continue;
          other->is_posted = !asks (other) && says_price (other);
          conclude (self, other);
        }
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
 * or free posts none, and stops none. */
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
  release_said (self, row);
  for (guint i = next[index]; says_price (row) && i != index; i = next[i])
    {
      CroListRow *other = &g_array_index (rows, CroListRow, i);

      if (other->share_of > 0 || !says_price (other))
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
  cro_price_list_compare (self);
}

gboolean
cro_price_list_match_row (CroPriceList  *self,
                          CroListBook   *of,
                          CroListRow    *row,
                          GError       **error)
{
  CroListMatching matching = { self, of, of->model, NULL };

  if (!match_row (&matching, row, error) || !cro_list_check_returned (&matching, row, error))
    return FALSE;
  conclude (&matching, row);
  return TRUE;
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
  for (guint i = 0; i < self->rows->len; i++)
    {
      CroListRow *row = &g_array_index (self->rows, CroListRow, i);

      if (!row->is_return)
        continue;
      if (cro_list_row_asks_back (row))
        cro_list_settle_return (&matching, row);
      is_sound = is_sound && cro_list_check_returned (&matching, row, error);
      conclude (&matching, row);
    }
  cro_price_list_count_waiting (self);
  cro_price_list_share (self, of->model);
  return is_sound;
}
