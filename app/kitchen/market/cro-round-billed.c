/* Lines of an invoice in a round: rows of their own, as what is booked of them is the document's. What the
 * book has of the document already is none. */
#include "cro-round-private.h"

#include "cro-pack.h"
#include "cro-price-list-words.h"
#include "cro-words.h"

#include <string.h>

static CroListRow *
line_of (CroRound          *self,
         const CroRoundRow *row)
{
  return &g_array_index (self->invoice->rows, CroListRow, row->line);
}

/* As the document's line is now. */
static void
show_line (CroRound    *self,
           CroRoundRow *row)
{
  const CroListRow *list = line_of (self, row);

  g_clear_pointer (&row->list.reasons, g_array_unref);
  row->list = *list;
  if (list->reasons != NULL)
    row->list.reasons = g_array_copy (list->reasons);
  row->kind = list->has_price ? CRO_ROUND_PRICED : CRO_ROUND_UNREAD;
  row->pack = (CroPack){ 0 };
  if (list->offer != CRO_NO_SLOT)
    {
      row->pack = cro_pack_in_force (self->of.model, list->offer);
      row->since = cro_model_offer (self->of.model, list->offer)->offer.from;
    }
  row->last = list->last;
  g_free (row->text);
  /* Of a return too; what no book holds stands as it is written. */
  row->text = !list->has_price && list->price == 0
                  ? g_strdup (list->per_unit != NULL ? list->per_unit : "")
              : cro_words_price_shown (list->currency, list->price);
}

void
cro_round_take_billed (CroRound *self)
{
  for (guint i = 0; i < self->invoice->rows->len; i++)
    {
      CroRoundRow *row;

      if (g_array_index (self->invoice->rows, CroListRow, i).is_in_book)
        continue;
      row = cro_round_row_new ();
      row->is_billed = TRUE;
      row->line = i;
      show_line (self, row);
      g_ptr_array_add (self->rows, row);
    }
}

/* --- Answers ------------------------------------------------------------------------------------------- */

/* What no ingredient is called may be a new one, once all else of the line is known. */
static gboolean
can_be_made (const CroListRow *list)
{
  for (guint i = 0; list->reasons != NULL && i < list->reasons->len; i++)
    if (cro_list_why_asks (g_array_index (list->reasons, CroListReason, i).why))
      return FALSE;
  return list->state == CRO_LIST_UNMATCHED && list->item == CRO_NO_SLOT && list->has_price
         && !cro_list_row_is_free (list) && list->name != NULL
         && list->pack.size > 0;
}

gboolean
cro_round_billed_can_be_right (CroRound          *self,
                               const CroRoundRow *row)
{
  const CroListRow *list = line_of (self, row);

  /* How much one of what it counts holds is said; "yes" to another pack than the book's would be a "no". */
  return cro_list_row_waits (list) && !cro_list_row_asks_pack (self->invoice, list)
         && (cro_list_row_can_accept (list) || can_be_made (list));
}

/* An answer to one line may leave another without a price to post. */
static void
show_lines (CroRound *self)
{
  cro_price_list_share (self->invoice, self->of.model);
  cro_price_list_compare (self->invoice);
  for (guint i = 0; i < self->rows->len; i++)
    if (((CroRoundRow *) self->rows->pdata[i])->is_billed)
      show_line (self, self->rows->pdata[i]);
  cro_round_draft_all (self);
}

static void
say_right (CroRound    *self,
           CroRoundRow *row)
{
  CroListRow *list = line_of (self, row);

  if (can_be_made (list))
    {
      list->is_right = list->is_posted = list->is_booked = TRUE;
      list->state = CRO_LIST_NEW;
    }
  else
    cro_price_list_accept (self->invoice, self->of.model, &row->line, 1);
}

void
cro_round_billed_is_right (CroRound    *self,
                           CroRoundRow *row)
{
  cro_round_undraft_all (self);
  say_right (self, row);
  show_lines (self);
}

/* What was read stays said; what was found beside the book is found anew. */
static gboolean
is_answered (const CroListRow *list,
             CroListWhy        why)
{
  switch (why)
    {
    case CRO_LIST_SIGNS:
    case CRO_LIST_CREDIT:
    case CRO_LIST_NO_AMOUNTS:
    case CRO_LIST_NOT_RECOMPUTED:
    case CRO_LIST_OTHER_BASE:
    case CRO_LIST_OTHER_TYPE:
    case CRO_LIST_OTHER_SELLER:
    case CRO_LIST_OTHER_NUMBER:
    case CRO_LIST_TWICE:
    case CRO_LIST_TOO_LARGE:
      return FALSE;
    case CRO_LIST_UNIT_UNKNOWN:
      return list->pack.size > 0;
    default:
      return TRUE;
    }
}

/* The line once more, now that more is known of it: what was said of it is said anew. */
static gboolean
match_again (CroRound    *self,
             CroListRow  *list,
             GError     **error)
{
  cro_list_row_unsay (list, is_answered);
  return cro_price_list_match_row (self->invoice, &self->of, list, error);
}

static gboolean
say_name (CroRound     *self,
          CroRoundRow  *row,
          const char   *name,
          GError      **error)
{
  CroListRow *list = line_of (self, row);
  char *called = g_strdup (name);

  g_free (row->called);
  row->called = called;
  list->name = cro_price_list_keep (self->invoice, called);
  return match_again (self, list, error);
}

static gboolean
say_pack (CroRound       *self,
          CroRoundRow    *row,
          const CroPack  *pack,
          GError        **error)
{
  CroListRow *list = line_of (self, row);

  row->holds = list->pack = *pack;
  list->is_pack_said = TRUE;
  return match_again (self, list, error);
}

gboolean
cro_round_billed_call (CroRound     *self,
                       CroRoundRow  *row,
                       const char   *name,
                       GError      **error)
{
  gboolean done;

  row->answered = 0;
  cro_round_undraft_all (self);
  done = say_name (self, row, name, error);
  show_lines (self);
  return done;
}

gboolean
cro_round_billed_hold (CroRound       *self,
                       CroRoundRow    *row,
                       const CroPack  *pack,
                       GError        **error)
{
  gboolean done;

  row->answered = 0;
  cro_round_undraft_all (self);
  done = say_pack (self, row, pack, error);
  show_lines (self);
  return done;
}

gboolean
cro_round_billed_sort (CroRound      *self,
                       CroRoundRow   *row,
                       CroListGoods   goods,
                       GError       **error)
{
  gboolean done;

  row->answered = 0;
  cro_round_undraft_all (self);
  cro_list_row_say_goods (self->invoice, line_of (self, row), goods);
  done = match_again (self, line_of (self, row), error);
  show_lines (self);
  return done;
}

gboolean
cro_round_billed_turn (CroRound     *self,
                       CroRoundRow  *row,
                       gboolean      is_turned,
                       GError      **error)
{
  gboolean done;

  row->answered = 0;
  cro_round_undraft_all (self);
  cro_list_row_turn (line_of (self, row), is_turned);
  done = match_again (self, line_of (self, row), error);
  show_lines (self);
  return done;
}

gboolean
cro_round_billed_give_back (CroRound     *self,
                            CroRoundRow  *row,
                            CroListBack   back,
                            GError      **error)
{
  gboolean done;

  row->answered = 0;
  cro_round_undraft_all (self);
  cro_list_row_give_back (line_of (self, row), back);
  done = match_again (self, line_of (self, row), error);
  show_lines (self);
  return done;
}

static gboolean
is_said (const CroRoundRow *row)
{
  return row->called != NULL || row->holds.size > 0 || row->list.is_right || row->list.is_turned
         || row->list.back != CRO_LIST_BACK_UNSAID
         || (row->list.goods != CRO_LIST_GOODS_UNSAID && !row->list.is_recalled);
}

/* What one of it holds, unless that was said again already, or is no question beside its ingredient. */
static gboolean
hold_again (CroRound           *self,
            guint               index,
            const CroRoundRow  *was,
            GError            **error)
{
  CroRoundRow *row = self->rows->pdata[index];

  return was->holds.size <= 0 || row->holds.size > 0 || !cro_round_can_hold (self, index)
         || say_pack (self, row, &was->holds, error);
}

/* What was said of one line. A pack that was said before its ingredient stays what it is, though the book would know
 * one of that. */
static gboolean
answer_line (CroRound           *self,
             guint               index,
             const CroRoundRow  *was,
             GError            **error)
{
  CroRoundRow *row = self->rows->pdata[index];
  CroListRow *list = line_of (self, row);

  if (was->list.is_turned)
    cro_list_row_turn (list, TRUE);
  if (was->list.back != CRO_LIST_BACK_UNSAID)
    cro_list_row_give_back (list, was->list.back);
  if (was->list.goods != CRO_LIST_GOODS_UNSAID && !was->list.is_recalled && list->item == CRO_NO_SLOT)
    cro_list_row_say_goods (self->invoice, list, was->list.goods);
  if ((was->list.is_turned || was->list.back != CRO_LIST_BACK_UNSAID || was->list.goods != CRO_LIST_GOODS_UNSAID)
      && !match_again (self, list, error))
    return FALSE;
  show_line (self, row);
  if (!hold_again (self, index, was, error))
    return FALSE;
  show_line (self, row);
  if (was->called != NULL && row->list.item == CRO_NO_SLOT && !say_name (self, row, was->called, error))
    return FALSE;
  show_line (self, row);
  if (!hold_again (self, index, was, error))
    return FALSE;
  if (was->list.is_right && cro_round_billed_can_be_right (self, row))
    say_right (self, row);
  return TRUE;
}

/* What was said of the lines of the same document, as it stood beside another copy of the book. */
gboolean
cro_round_answer_again (CroRound   *self,
                        GPtrArray  *before,
                        GError    **error)
{
  g_autoptr (GHashTable) lines = g_hash_table_new (NULL, NULL);
  gboolean done = TRUE;

  for (guint i = 0; i < self->rows->len; i++)
    {
      const CroRoundRow *row = self->rows->pdata[i];

      if (row->is_billed)
        g_hash_table_insert (lines, GUINT_TO_POINTER (row->line), GUINT_TO_POINTER (i));
    }
  cro_round_undraft_all (self);
  for (guint i = 0; done && i < before->len; i++)
    {
      const CroRoundRow *was = before->pdata[i];
      gpointer index;

      if (was->is_billed && is_said (was)
          && g_hash_table_lookup_extended (lines, GUINT_TO_POINTER (was->line), NULL, &index))
        done = answer_line (self, GPOINTER_TO_UINT (index), was, error);
    }
  show_lines (self);
  return done;
}
