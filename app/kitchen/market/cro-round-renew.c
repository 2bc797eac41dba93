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
  if (before->read != NULL)
    return cro_round_list_again (self, before, is_of_day, error);
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
  if (!cro_round_right_again (self, row, before, error))
    return FALSE;
  cro_round_ask_twice_again (self, row, before);
  return TRUE;
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
