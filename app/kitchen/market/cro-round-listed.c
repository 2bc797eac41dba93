/* Rows that a list filled: what it says of them, beside the copy of the book. Their text shows it, and need not say
 * all of it. */
#include "cro-round-private.h"

#include "cro-fold.h"
#include "cro-price-note.h"
#include "cro-price-list-words.h"

/* list: matched, with texts of the round. */
static void
show_list (CroRound         *self,
           CroRoundRow      *row,
           const CroListRow *list)
{
  const char *name = row->list.name, *code = row->list.code;

  row->list = *list;
  row->list.is_known = list->offer != CRO_NO_SLOT;
  /* As the book calls it. */
  if (!row->is_added)
    {
      row->list.name = name;
      row->list.code = code;
    }
  g_free (row->text);
  row->text = row->is_added || !(list->has_price || list->is_none) ? cro_round_dup_line (self, list)
                                                                   : cro_round_dup_typed (self, list);
  row->kind = list->is_none ? CRO_ROUND_NONE : list->has_price ? CRO_ROUND_PRICED : CRO_ROUND_UNREAD;
}

static CroListRow *
dup_read (CroRound         *self,
          const CroListRow *from)
{
  CroListRow *read = from != NULL ? cro_list_row_dup (from) : NULL;

  if (read != NULL)
    cro_round_keep_texts (self, read);
  return read;
}

void
cro_round_put_list (CroRound         *self,
                    CroRoundRow      *row,
                    const CroListRow *from,
                    const CroListRow *read)
{
  CroListRow list = *from, *said = dup_read (self, read);

  g_clear_pointer (&row->read, cro_list_row_free);
  g_clear_pointer (&row->over, cro_list_row_free);
  g_clear_pointer (&row->list.reasons, g_array_unref);
  g_clear_pointer (&row->wrong, g_free);
  if (list.reasons != NULL)
    list.reasons = g_array_copy (list.reasons);
  cro_round_keep_texts (self, &list);
  show_list (self, row, &list);
  row->read = said;
  row->answered = 0;
  row->base = row->last;
}

/* "Prices for Tuesday" is asked as long as the round is of another day: one that is typed since may be that Tuesday. */
static void
settle_day (CroRound   *self,
            CroListRow *list)
{
  g_autofree char *supplier = cro_fold (cro_round_get_supplier (self));

  for (guint i = list->reasons != NULL ? list->reasons->len : 0; i > 0; i--)
    {
      const CroListReason *reason = &g_array_index (list->reasons, CroListReason, i - 1);

      if (reason->why == CRO_LIST_SAID_DAY && !cro_price_note_is_of_other_day (reason->text, supplier, self->from)
          && !cro_price_stamp_is_of_other_day (reason->text, self->from))
        g_array_remove_index (list->reasons, i - 1);
    }
}

/* is_known: it is of the pack of its row, whatever else its words may be of by now. */
static gboolean
match_read (CroRound     *self,
            CroRoundRow  *row,
            gboolean      is_known,
            GError      **error)
{
  CroListRow *copy = cro_list_row_dup (row->read);
  gboolean is_right = row->list.is_right, is_chosen = row->list.is_chosen;
  guint32 item = row->list.item, offer = row->list.offer;

  g_clear_pointer (&row->list.reasons, g_array_unref);
  row->list = *copy;
  g_free (copy);
  settle_day (self, &row->list);
  row->list.is_right = is_right;
  row->list.is_chosen = is_chosen;
  row->list.is_known = is_known;
  row->list.item = item;
  row->list.offer = offer;
  return cro_round_match (self, row, error);
}

gboolean
cro_round_read_listed (CroRound     *self,
                       CroRoundRow  *row,
                       GError      **error)
{
  const guint32 item = row->list.item, offer = row->list.offer;
  const char *name = row->list.name, *code = row->list.code;
  CroListRow list;

  g_clear_pointer (&row->wrong, g_free);
  if (!match_read (self, row, FALSE, error))
    return FALSE;
  if (!row->is_added && row->list.offer != offer)
    {
      cro_round_forget_twin (self, row);
      row->list.item = item;
      row->list.offer = offer;
      if (!match_read (self, row, TRUE, error))
        return FALSE;
    }
  list = row->list;
  row->list.name = name;
  row->list.code = code;
  show_list (self, row, &list);
  if (!row->list.is_right && cro_round_row_is_moved (row))
    {
      cro_round_ask_moved (self, row);
      row->list.state = CRO_LIST_DOUBTFUL;
      row->list.is_posted = FALSE;
    }
  return TRUE;
}

void
cro_round_ask_twice_again (CroRound          *self,
                           CroRoundRow       *row,
                           const CroRoundRow *before)
{
  const GArray *reasons = before->list.reasons;

  if (before->list.is_chosen || cro_round_row_is_twice (row))
    return;
  for (guint i = 0; reasons != NULL && i < reasons->len; i++)
    {
      const CroListReason *reason = &g_array_index (reasons, CroListReason, i);

      if (reason->why != CRO_LIST_TWICE)
        continue;
      cro_round_undraft (self, row);
      cro_round_ask_twice (self, row, reason->text);
      cro_round_settle (self);
      return;
    }
}

gboolean
cro_round_right_again (CroRound           *self,
                       CroRoundRow        *row,
                       const CroRoundRow  *before,
                       GError            **error)
{
  return !(before->list.is_right || before->list.is_chosen) || cro_round_row_is_moved (row)
         || cro_round_say_right (self, row, before->list.is_right, before->list.is_chosen, error);
}

gboolean
cro_round_list_again (CroRound           *self,
                      const CroRoundRow  *before,
                      gboolean            is_of_day,
                      GError            **error)
{
  guint index = before->is_added ? self->rows->len : cro_round_find_id (self, before->id);
  CroRoundRow *row;

  if (index == CRO_NO_SLOT)
    return TRUE;
  if (before->is_added)
    {
      row = cro_round_row_new ();
      row->is_added = row->is_taken = TRUE;
      g_ptr_array_add (self->rows, row);
    }
  row = self->rows->pdata[index];
  row->read = dup_read (self, before->read);
  row->before = g_strdup (before->before);
  row->posted = before->posted;
  row->back = before->back;
  row->base = is_of_day || cro_round_row_is_moved (before) ? before->base : row->last;
  row->list.is_right = before->is_added && before->list.is_right;
  row->list.is_chosen = before->is_added && before->list.is_chosen;
  if (!cro_round_read_listed (self, row, error))
    return FALSE;
  cro_round_draft (self, row);
  cro_round_settle (self);
  if (!before->is_added && !cro_round_right_again (self, row, before, error))
    return FALSE;
  cro_round_ask_twice_again (self, row, before);
  return TRUE;
}

gboolean
cro_round_leave_open (CroRound             *self,
                      CroRoundRow          *row,
                      const CroListReason  *reason,
                      GError              **error)
{
  gboolean done;

  cro_round_undraft (self, row);
  if (row->read == NULL)
    {
      row->read = cro_list_row_dup (&row->list);
      g_clear_pointer (&row->read->reasons, g_array_unref);
    }
  cro_list_row_say (self->list, row->read, reason->why, reason->text, reason->other);
  done = cro_round_read_listed (self, row, error);
  cro_round_draft (self, row);
  cro_round_settle (self);
  return done;
}
