/* Lines of an invoice in a round: rows of their own, as what is booked of them is the document's. What the
 * book has of the document already is none. */
#include "cro-round-private.h"

#include "cro-pack.h"
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
      row->pack = cro_pack_of_offer (self->of.model, list->offer);
      row->since = cro_model_offer (self->of.model, list->offer)->offer.from;
    }
  row->last = list->last;
  g_free (row->text);
  row->text = !list->has_price             ? g_strdup (list->per_unit != NULL ? list->per_unit : "")
              : list->item != CRO_NO_SLOT ? cro_round_dup_typed (self, list)
                                          : cro_words_price_in (list->currency, list->price);
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
  cro_round_draft_all (self);
}

/* --- Answers ------------------------------------------------------------------------------------------- */

/* What no ingredient is called may be a new one, once all else of the line is known. */
static gboolean
can_be_made (const CroListRow *list)
{
  for (guint i = 0; list->reasons != NULL && i < list->reasons->len; i++)
    if (cro_list_why_asks (g_array_index (list->reasons, CroListReason, i).why))
      return FALSE;
  return list->state == CRO_LIST_UNMATCHED && list->item == CRO_NO_SLOT && list->has_price && list->name != NULL
         && list->pack.size > 0;
}

gboolean
cro_round_billed_can_be_right (CroRound          *self,
                               const CroRoundRow *row)
{
  const CroListRow *list = line_of (self, row);

  return cro_list_row_waits (list) && (cro_list_row_can_accept (list) || can_be_made (list));
}

/* An answer to one line may leave another without a price to post. */
static void
show_lines (CroRound *self)
{
  for (guint i = 0; i < self->rows->len; i++)
    if (((CroRoundRow *) self->rows->pdata[i])->is_billed)
      show_line (self, self->rows->pdata[i]);
  cro_round_draft_all (self);
}

void
cro_round_billed_is_right (CroRound    *self,
                           CroRoundRow *row)
{
  CroListRow *list = line_of (self, row);

  cro_round_undraft_all (self);
  if (can_be_made (list))
    {
      list->is_right = list->is_posted = list->is_booked = TRUE;
      list->state = CRO_LIST_NEW;
    }
  else
    cro_price_list_accept (self->invoice, self->of.model, row->line);
  show_lines (self);
}

static gboolean
is_of_pack (CroListWhy why)
{
  return why == CRO_LIST_PACKAGE || why == CRO_LIST_NO_PACK || why == CRO_LIST_UNIT_UNKNOWN;
}

/* The line once more, now that more is known of it: what was said of it is said anew. */
static gboolean
match_again (CroRound    *self,
             CroListRow  *list,
             GError     **error)
{
  gboolean done;

  for (guint i = list->reasons != NULL ? list->reasons->len : 0; i > 0; i--)
    {
      CroListWhy why = g_array_index (list->reasons, CroListReason, i - 1).why;

      if (!cro_list_why_asks (why) || (is_of_pack (why) && list->pack.size > 0))
        g_array_remove_index (list->reasons, i - 1);
    }
  done = cro_price_list_match_row (self->invoice, &self->of, list, error);
  show_lines (self);
  return done;
}

gboolean
cro_round_billed_call (CroRound     *self,
                       CroRoundRow  *row,
                       const char   *name,
                       GError      **error)
{
  CroListRow *list = line_of (self, row);
  char *called = g_strdup (name);

  cro_round_undraft_all (self);
  g_free (row->called);
  row->called = called;
  list->name = cro_price_list_keep (self->invoice, called);
  return match_again (self, list, error);
}

gboolean
cro_round_billed_hold (CroRound       *self,
                       CroRoundRow    *row,
                       const CroPack  *pack,
                       GError        **error)
{
  CroListRow *list = line_of (self, row);

  cro_round_undraft_all (self);
  row->holds = list->pack = *pack;
  return match_again (self, list, error);
}

/* What was said of the lines of the same document, as it stood beside another copy of the book. */
gboolean
cro_round_answer_again (CroRound   *self,
                        GPtrArray  *before,
                        GError    **error)
{
  for (guint i = 0; i < before->len; i++)
    {
      const CroRoundRow *was = before->pdata[i];

      for (guint n = 0; was->is_billed && (was->called != NULL || was->holds.size > 0 || was->list.is_right)
                        && n < self->rows->len; n++)
        {
          CroRoundRow *row = self->rows->pdata[n];

          if (!row->is_billed || row->line != was->line)
            continue;
          if (was->called != NULL && row->list.item == CRO_NO_SLOT
              && !cro_round_billed_call (self, row, was->called, error))
            return FALSE;
          if (was->holds.size > 0 && cro_round_can_hold (self, n)
              && !cro_round_billed_hold (self, row, &was->holds, error))
            return FALSE;
          if (was->list.is_right && cro_round_billed_can_be_right (self, row))
            cro_round_billed_is_right (self, row);
        }
    }
  return TRUE;
}
