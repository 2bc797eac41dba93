/* The same round beside the book as it is now. */
#include "cro-round-private.h"

#include "cro-price-list-words.h"

#include <string.h>

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

guint
cro_round_find_id (CroRound *self,
                   gint64    id)
{
  for (guint i = 0; id != 0 && i < self->rows->len; i++)
    if (((CroRoundRow *) self->rows->pdata[i])->id == id)
      return i;
  return CRO_NO_SLOT;
}

/* What is asked of a line as it is written, before it is matched; and beside another that may be posted by
 * now. */
static gboolean
is_of_reading (CroListWhy why)
{
  return why == CRO_LIST_NO_PRICE || why == CRO_LIST_NOT_A_PRICE || why == CRO_LIST_NOT_A_DATE
         || why == CRO_LIST_WHICH_NUMBER || why == CRO_LIST_WHICH_SIGN || why == CRO_LIST_GOODS_WORD
         || why == CRO_LIST_UNSURE || why == CRO_LIST_TWICE;
}

/* What is asked of the line that a price was read from, of which the text of the price says nothing. */
static gboolean
is_of_line (CroListWhy why)
{
  return why == CRO_LIST_WHICH_PRICE || why == CRO_LIST_TAX_BESIDE;
}

static gboolean
is_said (const CroListRow *row,
         CroListWhy        why)
{
  for (guint i = 0; row->reasons != NULL && i < row->reasons->len; i++)
    if (g_array_index (row->reasons, CroListReason, i).why == why)
      return TRUE;
  return FALSE;
}

static void
ask_of_line (CroRound          *self,
             const CroRoundRow *before,
             CroRoundRow       *row)
{
  const GArray *reasons = before->list.reasons;

  for (guint i = 0; reasons != NULL && !before->list.is_right && i < reasons->len; i++)
    {
      const CroListReason *reason = &g_array_index (reasons, CroListReason, i);

      if (!is_of_line (reason->why) || is_said (&row->list, reason->why))
        continue;
      cro_round_undraft (self, row);
      cro_list_row_say (self->list, &row->list, reason->why, reason->text, reason->other);
      row->list.state = CRO_LIST_DOUBTFUL;
      row->list.is_posted = FALSE;
      cro_round_settle (self);
    }
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
  row->before = g_strdup (before->before);
  row->posted = before->posted;
  row->back = before->back;
  g_free (row->text);
  row->text = g_strdup (before->text);
  row->kind = before->kind;
  row->list = (CroListRow){ .number = was->number, .code = was->code, .gtin = was->gtin, .name = was->name,
                            .said = was->said, .priced_as = was->priced_as, .is_same = was->is_same && !was->has_price,
                            .change_pct = was->change_pct,
                            .currency = was->currency, .is_none = was->is_none, .is_return = was->is_return,
                            .is_no_ingredient = was->is_no_ingredient, .has_price = was->has_price,
                            .price = was->price, .pack = was->pack, .has_per = was->has_per, .per = was->per,
                            .is_per_measure = was->is_per_measure, .is_from_last = was->is_from_last,
                            .says_tax = was->says_tax, .tax_beside = was->tax_beside,
                            .tax_heading = was->tax_heading, .is_right = was->is_right,
                            .item = CRO_NO_SLOT, .offer = CRO_NO_SLOT };
  cro_round_keep_texts (self, &row->list);
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
  ask_of_line (self, before, row);
  return TRUE;
}

/* Another day has another last price, which is what whoever says that day looks at: what somebody else posted is
 * asked about. */
static gboolean
type_beside (CroRound    *self,
             guint        index,
             CroRoundRow *before,
             gboolean     is_of_day,
             GError     **error)
{
  CroRoundRow *row = self->rows->pdata[index];
  gboolean rests = before->base != CRO_NOT_SET && !before->is_filled && (is_of_day || cro_round_row_is_moved (before));

  return cro_round_type_beside (self, index, before->text, rests ? before->base : row->last, error);
}

/* One that was added may be a pack of the book by now. is_of_day: the round is of the same day as before. */
static gboolean
type_again (CroRound    *self,
            CroRoundRow *before,
            gboolean     is_of_day,
            GError     **error)
{
  CroRoundRow *row;
  guint index;

  if (*before->text == '\0' || cro_round_row_is_posted_again (self, before))
    return TRUE;
  if (before->is_taken)
    return put_again (self, before, error);
  index = cro_round_find_id (self, before->id);
  if (before->is_added ? !cro_round_add (self, before->text, &index, error)
                       : index != CRO_NO_SLOT && !type_beside (self, index, before, is_of_day, error))
    return FALSE;
  if (index == CRO_NO_SLOT)
    return TRUE;
  row = self->rows->pdata[index];
  row->is_filled = before->is_filled;
  row->posted = before->posted;
  row->back = before->back;
  g_free (row->before);
  row->before = g_strdup (before->before);
  /* The price that it was held beside may be posted by now. */
  if (cro_round_row_is_twice (before) && !before->list.is_right && !cro_round_row_is_twice (row))
    {
      cro_round_undraft (self, row);
      cro_round_ask_twice (self, row);
      cro_round_settle (self);
    }
  ask_of_line (self, before, row);
  return !before->list.is_right || cro_round_row_is_moved (row) || cro_round_is_right (self, index, error);
}

/* An answer beside which the book has other amounts of the document is none: its lines would go. */
static gboolean
is_refused (const CroRound      *self,
            const CroRound      *before,
            const CroPriceList  *refused,
            GError             **error)
{
  g_autofree char *why = NULL;

  if (self->invoice != NULL || before->whole == before->invoice->whole)
    return FALSE;
  why = cro_words_list_refused (refused, NULL);
  g_set_error_literal (error, G_FILE_ERROR, G_FILE_ERROR_FAILED, why != NULL ? why : "");
  return TRUE;
}

/* Its rows are those of the copy that it was read beside; a file that was taken from a text stays the round's. */
static gboolean
take_again (CroRound        *self,
            const CroRound  *before,
            GError         **error)
{
  g_autoptr (CroPriceList) refused = NULL;

  if (!cro_round_take (self, before->invoice_path, NULL, &refused, error)
      || is_refused (self, before, refused, error))
    return FALSE;
  self->is_pasted = before->is_pasted && self->invoice != NULL;
  self->is_kept = before->is_kept && self->invoice != NULL;
  return self->invoice == NULL || cro_round_answer_again (self, before->rows, error);
}

static gboolean
type_all_again (CroRound        *self,
                const CroRound  *before,
                GError         **error)
{
  gboolean done = TRUE;

  cro_round_begin_many (self);
  for (guint i = 0; done && i < before->rows->len; i++)
    {
      CroRoundRow *row = before->rows->pdata[i];

      done = row->is_billed || type_again (self, row, self->from == before->from, error);
    }
  cro_round_end_many (self);
  return done;
}

static gboolean
read_again (CroRound        *self,
            const CroRound  *before,
            gboolean         with_invoice,
            GError         **error)
{
  if (!type_all_again (self, before, error))
    return FALSE;
  /* Preferred packs with them. */
  cro_round_undraft_all (self);
  cro_round_draft_all (self);
  return !with_invoice || before->invoice == NULL || take_again (self, before, error);
}

/* Until all of it is read beside the new copy the old one stays: what fails leaves the round as it was. */
gboolean
cro_round_renew_with (CroRound  *self,
                      CroDate    from,
                      gboolean   with_invoice,
                      GError   **error)
{
  CroRound before = *self;
  gboolean done;

  keep_currencies (before.rows);
  self->rows = NULL;
  self->packs = self->drafted = self->of_book = NULL;
  self->unsorted = NULL;
  self->list = NULL;
  self->draft = NULL;
  self->has_of = FALSE;
  self->invoice = NULL;
  self->invoice_path = NULL;
  self->is_pasted = self->is_kept = FALSE;
  done = cro_round_copy_book (self, from, error) && read_again (self, &before, with_invoice, error);
  if (done && self->invoice == NULL)
    cro_round_forget_whole (self);
  if (!done)
    {
      CroRound failed = *self;

      *self = before;
      before = failed;
    }
  /* The same file, for which one of both stands. */
  if (before.is_pasted && g_strcmp0 (before.invoice_path, self->invoice_path) == 0)
    before.is_pasted = FALSE;
  cro_round_leave_copy (&before);
  cro_round_drop_invoice (&before);
  return done;
}

gboolean
cro_round_leave_out_invoice (CroRound  *self,
                             GError   **error)
{
  return cro_round_renew_with (self, self->from, FALSE, error);
}

void
cro_round_forget_whole (CroRound *self)
{
  self->whole = CRO_WHOLE_UNSAID;
  self->is_seller_right = FALSE;
}

gboolean
cro_round_asks_whole (CroRound *self)
{
  return self->invoice != NULL && cro_price_list_asks_whole (self->invoice);
}

gboolean
cro_round_say_whole (CroRound      *self,
                     CroListWhole   whole,
                     GError       **error)
{
  CroListWhole before = self->whole;

  if (whole == before)
    return TRUE;
  self->whole = whole;
  if (cro_round_renew_with (self, self->from, TRUE, error))
    return TRUE;
  self->whole = before;
  return FALSE;
}

gboolean
cro_round_renew (CroRound  *self,
                 CroDate    from,
                 GError   **error)
{
  return cro_round_renew_with (self, from, TRUE, error);
}
