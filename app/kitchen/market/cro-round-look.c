/* What is asked about the rows of a round, what answers it, and how many are ready. */
#include "config.h"

#include "cro-round-private.h"

#include "cro-number.h"
#include "cro-pack.h"
#include "cro-words.h"

#include <glib/gi18n.h>
#include <string.h>

/* That a price is right does not say which of two holds. */
static gboolean
is_answered (const CroRoundRow *row,
             CroListWhy         why)
{
  if (why == CRO_LIST_TWICE && !row->is_billed)
    return row->list.is_chosen;
  return cro_list_why_can_be_right (why) && (row->list.is_right || (row->answered >> why & 1) != 0);
}

const CroListReason *
cro_round_row_get_question (const CroRoundRow *row)
{
  for (guint i = 0; row->list.reasons != NULL && i < row->list.reasons->len; i++)
    {
      const CroListReason *reason = &g_array_index (row->list.reasons, CroListReason, i);

      if ((cro_list_why_asks (reason->why) && !is_answered (row, reason->why))
          || (reason->why == CRO_LIST_LIKE && row->list.item == CRO_NO_SLOT && !row->list.is_right))
        return reason;
    }
  return NULL;
}

gboolean
cro_round_row_is_ready (const CroRoundRow *row)
{
  /* What is given back, and what is no goods, has no price and is booked. */
  if (row->is_billed)
    return (row->list.is_posted || row->list.is_booked) && !cro_list_row_waits (&row->list);
  return (row->kind == CRO_ROUND_AS_LAST || row->kind == CRO_ROUND_PRICED || row->kind == CRO_ROUND_NONE)
         && (row->list.is_posted || row->list.is_booked) && row->list.state != CRO_LIST_DOUBTFUL
         && row->list.state != CRO_LIST_UNMATCHED;
}

gboolean
cro_round_row_waits (const CroRoundRow *row)
{
  return row->kind != CRO_ROUND_EMPTY && !cro_round_row_is_ready (row)
         && !(row->is_billed && !cro_list_row_waits (&row->list));
}

/* --- Answers ------------------------------------------------------------------------------------------- */

/* What a price is with or without, if not as it was read. */
static CroPriceTax
other_tax (const CroListRow *list)
{
  return list->tax > 0 ? CRO_PRICE_WITHOUT_TAX : CRO_PRICE_WITH_TAX;
}

/* A price that is stated per what is no pack, as that of the pack. */
static gboolean
mean_own_pack (CroRound   *self,
               CroListRow *list)
{
  CroPack own = cro_pack_of_offer (self->of.model, list->offer);

  if (!cro_list_price_in_pack (&list->pack, &own, &list->price))
    return FALSE;
  list->pack = own;
  return TRUE;
}

/* The price in the pack's own currency, or in its own pack, or without the slip. */
static char *
dup_other_price (CroRound         *self,
                 const CroListRow *from,
                 CroListWhy        why)
{
  CroListRow list = *from;

  if (why == CRO_LIST_CURRENCY)
    {
      const char *own = cro_model_currency_of (self->of.model, from->offer);

      if (!cro_price_list_convert (&self->of, from, &list.price))
        return NULL;
      list.price = (list.price + cro_currency_minor (own) / 2) / cro_currency_minor (own) * cro_currency_minor (own);
      list.currency = NULL;
    }
  else if (why == CRO_LIST_WHICH_SIZE)
    return mean_own_pack (self, &list) ? cro_round_dup_typed (self, &list) : NULL;
  else if (list.look.kind == CRO_LOOK_TAX)
    list.says_tax = other_tax (&list);
  else if (list.look.meant != CRO_NOT_SET)
    list.price = list.look.meant;
  else if (list.look.kind == CRO_LOOK_PACK && list.look.pack.size > 0)
    {
      CroPack own = cro_pack_of_offer (self->of.model, list.offer);

      list.pack = list.look.pack;
      list.is_per_measure = cro_list_is_stated_per (&own, &list.pack);
    }
  else
    return NULL;
  /* Of who states prices otherwise it is that of the pack. */
  return list.look.kind == CRO_LOOK_PACK && list.look.meant != CRO_NOT_SET ? cro_round_dup_typed_of_pack (self, &list)
                                                                           : cro_round_dup_typed (self, &list);
}

/* What leaves tax open is with tax or without as the last price is: that is said. */
static char *
dup_as_last_taxed (CroRound         *self,
                   const CroListRow *list)
{
  CroListRow bare = *list;
  g_autofree char *price = NULL;

  bare.says_tax = CRO_PRICE_TAX_UNSAID;
  price = cro_round_dup_typed (self, &bare);
  return g_strdup_printf (cro_model_offer (self->of.model, list->offer)->offer.tax_included > 0 ? _("%s incl. VAT")
                                                                                                : _("%s ex VAT"),
                          price);
}

/* The line by another name. */
static char *
dup_line_of (CroRound          *self,
             const CroRoundRow *row,
             const char        *name)
{
  CroListRow list = row->list;

  list.name = name;
  list.said = NULL;
  return cro_round_dup_line (self, &list);
}

/* Of a row that is added: the price or the pack that was meant, the tax, or the supplier's pack whose code that may be.
 * FALSE: nothing is offered. */
static gboolean
mean_new_pack (CroRound            *self,
               const CroListReason *reason,
               CroListRow          *list)
{
  if (reason->why == CRO_LIST_CODE_LIKE)
    list->code = cro_price_list_keep (self->list, reason->other);
  else if (reason->why == CRO_LIST_WHICH_SIZE)
    return mean_own_pack (self, list);
  else if (reason->why == CRO_LIST_LOOK && list->look.kind == CRO_LOOK_TAX)
    list->says_tax = other_tax (list);
  else if (reason->why == CRO_LIST_LOOK && list->look.meant != CRO_NOT_SET)
    list->price = list->look.meant;
  else if (reason->why == CRO_LIST_LOOK && list->look.kind == CRO_LOOK_PACK && list->look.pack.size > 0)
    list->pack = list->look.pack;
  else
    return FALSE;
  list->said = NULL;
  return TRUE;
}

static gboolean
says_something (const CroListRow *list)
{
  return list->has_price || list->is_none || list->is_same || list->change_pct != 0;
}

/* Of a line that counts packs, where the price seems to be of a smaller or larger one than the book's. */
static gboolean
is_of_other_pack (const CroRoundRow *row)
{
  const CroListReason *reason = cro_round_row_get_question (row);

  return row->is_billed && reason != NULL && reason->why == CRO_LIST_LOOK && row->list.look.kind == CRO_LOOK_PACK
         && row->list.look.meant == CRO_NOT_SET && row->list.look.pack.size > 0 && row->list.counted.size == 0;
}

char *
cro_round_dup_suggestion (CroRound *self,
                          guint     index)
{
  const CroRoundRow *row = cro_round_get_row (self, index);
  const CroListReason *reason = cro_round_row_get_question (row);
  CroListRow list = row->list;

  if (is_of_other_pack (row))
    return dup_other_price (self, &row->list, reason->why);
  if (cro_round_row_asks_back (row))
    return g_strdup (cro_list_back_codes[CRO_LIST_BACK_PRICE]);
  if (reason == NULL || (row->is_billed && reason->why != CRO_LIST_LIKE))
    return NULL;
  if (reason->why == CRO_LIST_LAST_MOVED)
    return cro_round_meant_before (self, row, &list) ? cro_round_dup_typed (self, &list) : NULL;
  if (reason->why == CRO_LIST_LIKE && says_something (&row->list))
    return row->is_billed ? g_strdup (reason->other) : dup_line_of (self, row, reason->other);
  if ((reason->why == CRO_LIST_CURRENCY || reason->why == CRO_LIST_LOOK || reason->why == CRO_LIST_WHICH_SIZE)
      && row->list.offer != CRO_NO_SLOT && !row->is_added)
    return dup_other_price (self, &row->list, reason->why);
  if (reason->why == CRO_LIST_TAX_BESIDE && row->list.has_price && row->list.offer != CRO_NO_SLOT && !row->is_added)
    return dup_as_last_taxed (self, &row->list);
  /* "1.35 head" of a pack of 12. */
  if (reason->why == CRO_LIST_WHICH_PRICE && row->list.look.kind == CRO_LOOK_PACK && row->list.offer != CRO_NO_SLOT
      && !row->is_added)
    return dup_other_price (self, &row->list, CRO_LIST_LOOK);
  if (row->is_added && row->list.item != CRO_NO_SLOT && mean_new_pack (self, reason, &list))
    return cro_round_dup_line (self, &list);
  return NULL;
}

static gboolean
is_like (const CroListRow *list,
         CroListWhy        why)
{
  return why == CRO_LIST_LIKE;
}

static gboolean
is_of_new_pack (const CroListRow *list,
                CroListWhy        why)
{
  return why == CRO_LIST_LOOK || why == CRO_LIST_CODE_LIKE || why == CRO_LIST_WHICH_SIZE;
}

/* What was said of a row is said of what a list says of it. */
static CroListRow *
said_of (CroRoundRow *row)
{
  return row->read != NULL ? row->read : &row->list;
}

static gboolean
match_again (CroRound     *self,
             CroRoundRow  *row,
             GError      **error)
{
  return row->read != NULL ? cro_round_read_listed (self, row, error) : cro_round_match (self, row, error);
}

/* An added line as it is now: the row of its pack has its price, where that is left alone. */
static void
settle_added (CroRound    *self,
              CroRoundRow *row)
{
  CroRoundRow *of = row->is_added ? cro_round_row_of_offer (self, row->list.offer) : NULL;
  guint index;

  if (of != NULL && of->kind == CRO_ROUND_EMPTY && g_ptr_array_find (self->rows, row, &index))
    {
      cro_round_put_list (self, of, &row->list, row->read);
      cro_round_remove (self, index);
      row = of;
    }
  cro_round_draft (self, row);
  cro_round_settle (self);
}

static gboolean
match_added (CroRound    *self,
             guint        index,
             GError     **error)
{
  CroRoundRow *row = cro_round_get_row (self, index);

  if (!match_again (self, row, error))
    return FALSE;
  g_free (row->text);
  row->text = cro_round_dup_line (self, &row->list);
  settle_added (self, row);
  return TRUE;
}

static gboolean
call_row (CroRound    *self,
          guint        index,
          const char  *name,
          GError     **error)
{
  CroRoundRow *row = cro_round_get_row (self, index);

  cro_round_undraft (self, row);
  cro_list_row_unsay (&row->list, is_like);
  said_of (row)->name = cro_price_list_keep (self->list, name);
  return match_added (self, index, error);
}

/* The price of a pack that was said, in place of what the list says. */
static void
mean_as_said (CroListRow       *read,
              const CroListRow *list)
{
  read->code = list->code;
  read->said = NULL;
  read->price = list->price;
  read->says_tax = list->says_tax;
  read->pack = list->pack;
  read->has_per = read->is_per_base = read->may_be_per = read->may_be_order = read->is_per_measure
      = FALSE;
}

static gboolean
suggest_new_pack (CroRound    *self,
                  guint        index,
                  GError     **error)
{
  CroRoundRow *row = cro_round_get_row (self, index);

  cro_round_undraft (self, row);
  mean_new_pack (self, cro_round_row_get_question (row), &row->list);
  if (row->read != NULL)
    mean_as_said (row->read, &row->list);
  /* That may be a pack that the supplier has: then it is no pack of its own. */
  row->list.is_known = FALSE;
  row->answered = 0;
  cro_list_row_unsay (&row->list, is_of_new_pack);
  return match_added (self, index, error);
}

gboolean
cro_round_suggest (CroRound *self,
                   guint     index,
                   GError  **error)
{
  g_autofree char *text = cro_round_dup_suggestion (self, index);
  CroRoundRow *row = cro_round_get_row (self, index);
  const CroListReason *reason = cro_round_row_get_question (row);
  gboolean is_other_pack = row->list.look.kind == CRO_LOOK_PACK && row->list.look.meant == CRO_NOT_SET
                           && reason != NULL && reason->why == CRO_LIST_LOOK;

  if (text == NULL)
    return TRUE;
  if (is_of_other_pack (row))
    {
      CroPack pack = row->list.look.pack;

      return cro_round_billed_hold (self, row, &pack, error);
    }
  if (cro_round_row_asks_back (row))
    return cro_round_give_back (self, index, CRO_LIST_BACK_PRICE, error);
  if (row->is_billed)
    return cro_round_billed_call (self, row, text, error);
  if (row->is_added && row->list.item != CRO_NO_SLOT)
    return suggest_new_pack (self, index, error);
  if (row->is_added)
    return call_row (self, index, cro_round_row_get_question (row)->other, error);
  if (!cro_round_type (self, index, text, error))
    return FALSE;
  /* That it is another pack was said. */
  return !is_other_pack || cro_round_row_is_ready (row) || cro_round_is_right (self, index, error);
}

/* --- What else it may be ------------------------------------------------------------------------------- */

gboolean
cro_round_can_call (CroRound *self,
                    guint     index)
{
  const CroRoundRow *row = cro_round_get_row (self, index);

  return (row->is_added || row->is_billed) && cro_round_row_waits (row) && row->list.item == CRO_NO_SLOT
         && (says_something (&row->list) || row->list.is_return) && !row->list.is_no_ingredient;
}

gboolean
cro_round_call (CroRound *self,
                guint     index,
                guint32   item,
                GError  **error)
{
  CroRoundRow *row = cro_round_get_row (self, index);
  const char *name = cro_model_item (self->of.model, item)->name;

  return row->is_billed ? cro_round_billed_call (self, row, name, error) : call_row (self, index, name, error);
}

gboolean
cro_round_can_hold (CroRound *self,
                    guint     index)
{
  const CroRoundRow *row = cro_round_get_row (self, index);

  return row->is_billed && cro_round_row_waits (row) && (row->list.has_price || row->list.is_return)
         && !row->list.is_no_ingredient && row->list.counted.size == 0
         && (row->list.pack.size == 0 || row->list.is_pack_said || is_of_other_pack (row));
}

gboolean
cro_round_hold (CroRound    *self,
                guint        index,
                const char  *text,
                GError     **error)
{
  CroPack pack;

  if (!cro_list_pack_from_text (text, &pack))
    return FALSE;
  return cro_round_billed_hold (self, cro_round_get_row (self, index), &pack, error);
}

/* --- What is no price --------------------------------------------------------------------------------- */

gboolean
cro_round_can_sort (CroRound *self,
                    guint     index)
{
  const CroRoundRow *row = cro_round_get_row (self, index);

  return row->is_billed && row->list.item == CRO_NO_SLOT && row->list.made == 0 && row->list.share_of == 0;
}

gboolean
cro_round_sort (CroRound      *self,
                guint          index,
                CroListGoods   goods,
                GError       **error)
{
  return !cro_round_can_sort (self, index)
         || cro_round_billed_sort (self, cro_round_get_row (self, index), goods, error);
}

gboolean
cro_round_can_turn (CroRound *self,
                    guint     index)
{
  const CroRoundRow *row = cro_round_get_row (self, index);

  return row->is_billed && (row->list.has_price || row->list.is_turned);
}

gboolean
cro_round_turn (CroRound  *self,
                guint      index,
                gboolean   is_turned,
                GError   **error)
{
  return !cro_round_can_turn (self, index)
         || cro_round_billed_turn (self, cro_round_get_row (self, index), is_turned, error);
}

gboolean
cro_round_can_give_back (CroRound *self,
                         guint     index)
{
  const CroRoundRow *row = cro_round_get_row (self, index);

  return row->is_billed && row->list.is_return && !row->list.is_turned && row->list.item != CRO_NO_SLOT
         && row->list.share_of == 0;
}

gboolean
cro_round_give_back (CroRound     *self,
                     guint         index,
                     CroListBack   back,
                     GError      **error)
{
  return !cro_round_can_give_back (self, index)
         || cro_round_billed_give_back (self, cro_round_get_row (self, index), back, error);
}

gboolean
cro_round_row_asks_back (const CroRoundRow *row)
{
  const CroListReason *reason = cro_round_row_get_question (row);

  return reason != NULL && reason->why == CRO_LIST_GOODS_OR_PRICE;
}

/* --- It is right ---------------------------------------------------------------------------------------- */

/* What no ingredient is called may be a new one. */
static gboolean
can_be_made (const CroRoundRow *row)
{
  const CroListReason *reason = cro_round_row_get_question (row);

  return row->is_added && !row->list.is_right && row->list.item == CRO_NO_SLOT && row->list.has_price
         && row->list.name != NULL && row->list.pack.size > 0 && (reason == NULL || reason->why == CRO_LIST_LIKE)
         && !cro_round_row_is_ready (row);
}

gboolean
cro_round_can_be_right (CroRound *self,
                        guint     index)
{
  const CroRoundRow *row = cro_round_get_row (self, index);
  const CroListReason *reason = cro_round_row_get_question (row);

  if (row->is_billed)
    return cro_round_billed_can_be_right (self, row);
  return can_be_made (row) || (reason != NULL && cro_list_why_can_be_right (reason->why));
}

/* Of rows of one pack the one that is said to hold stays. So does a line of an invoice, as it is booked. */
static void
give_way (CroRound          *self,
          const CroRoundRow *to)
{
  for (guint i = self->rows->len; i > 0; i--)
    {
      const CroRoundRow *twin = self->rows->pdata[i - 1];

      if (twin->is_billed || !cro_round_are_twins (twin, to))
        continue;
      if (twin->is_added)
        cro_round_remove (self, i - 1);
      else
        cro_round_type (self, i - 1, "", NULL);
    }
}

/* Nobody has read more than the question that is shown: what is asked beside it waits on. */
static gboolean
asks_more (CroRoundRow *row)
{
  const CroListReason *reason = cro_round_row_get_question (row);

  row->answered |= G_GUINT64_CONSTANT (1) << reason->why;
  reason = cro_round_row_get_question (row);
  if (reason != NULL && reason->why != CRO_LIST_TWICE && cro_list_why_can_be_right (reason->why))
    return TRUE;
  row->answered = 0;
  return FALSE;
}

static gboolean
answer (CroRound *self,
        guint     index,
        GError  **error)
{
  CroRoundRow *row = cro_round_get_row (self, index);
  const CroListReason *reason = cro_round_row_get_question (row);
  gboolean is_choice = reason != NULL && reason->why == CRO_LIST_TWICE;

  if (!cro_round_can_be_right (self, index))
    return TRUE;
  if (reason != NULL && !is_choice && asks_more (row))
    return TRUE;
  if (row->is_billed)
    {
      cro_round_billed_is_right (self, row);
      return TRUE;
    }
  if (!cro_round_say_right (self, row, row->list.is_right || !is_choice, row->list.is_chosen || is_choice, error))
    return FALSE;
  if (!is_choice)
    return TRUE;
  give_way (self, row);
  cro_round_undraft (self, row);
  settle_added (self, row);
  return TRUE;
}

/* What a list says of all its prices is answered once. */
static gboolean
answer_alike (CroRound   *self,
              guint       index,
              CroListWhy  why,
              const char *text,
              GError    **error)
{
  for (guint i = 0; i < cro_round_get_n_rows (self); i++)
    {
      CroRoundRow *row = cro_round_get_row (self, i);
      const CroListReason *reason = i == index ? NULL : cro_round_row_get_question (row);

      if (reason == NULL || cro_list_row_find_reason (&row->list, why, text) == CRO_NO_SLOT)
        continue;
      if (reason->why != why)
        row->answered |= G_GUINT64_CONSTANT (1) << why;
      else if (!answer (self, i, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
cro_round_is_right (CroRound *self,
                    guint     index,
                    GError  **error)
{
  const CroListReason *reason = cro_round_row_get_question (cro_round_get_row (self, index));
  const CroListWhy why = reason != NULL ? reason->why : CRO_LIST_LIKE;
  g_autofree char *text = reason != NULL ? g_strdup (reason->text) : NULL;

  return answer (self, index, error)
         && (!cro_list_why_is_said (why) || answer_alike (self, index, why, text, error));
}

gboolean
cro_round_say_right (CroRound     *self,
                     CroRoundRow  *row,
                     gboolean      is_right,
                     gboolean      is_chosen,
                     GError      **error)
{
  gboolean done;

  cro_round_undraft (self, row);
  row->list.is_right = is_right;
  row->list.is_chosen = is_chosen;
  row->base = row->last;
  g_clear_pointer (&row->list.reasons, g_array_unref);
  done = match_again (self, row, error);
  cro_round_draft (self, row);
  cro_round_settle (self);
  return done;
}

/* --- How many ------------------------------------------------------------------------------------------- */

static guint
count (CroRound *self,
       gboolean (*is) (const CroRoundRow *row))
{
  guint n = 0;

  for (guint i = 0; i < cro_round_get_n_rows (self); i++)
    n += is (cro_round_get_row (self, i)) ? 1 : 0;
  return n;
}

static gboolean
is_untouched (const CroRoundRow *row)
{
  return row->kind == CRO_ROUND_EMPTY;
}

guint
cro_round_count_ready (CroRound *self)
{
  return count (self, cro_round_row_is_ready);
}

guint
cro_round_count_waiting (CroRound *self)
{
  return count (self, cro_round_row_waits);
}

guint
cro_round_count_untouched (CroRound *self)
{
  return count (self, is_untouched);
}

static gboolean
is_filled (const CroRoundRow *row)
{
  return row->is_filled;
}

guint
cro_round_count_filled (CroRound *self)
{
  return count (self, is_filled);
}
