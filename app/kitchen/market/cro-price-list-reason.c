/* What is said of a row of a list, and what is asked: its reasons, in their order. */
#include "cro-price-list-private.h"

static gboolean
is_said_of_all (const CroListRow *row,
                guint             reason)
{
  return cro_list_why_is_said (g_array_index (row->reasons, CroListReason, reason).why);
}

guint
cro_list_row_find_reason (const CroListRow *row,
                          CroListWhy        why,
                          const char       *text)
{
  for (guint i = 0; row->reasons != NULL && i < row->reasons->len; i++)
    {
      const CroListReason *reason = &g_array_index (row->reasons, CroListReason, i);

      if (reason->why == why && g_strcmp0 (reason->text, text) == 0)
        return i;
    }
  return CRO_NO_SLOT;
}

void
cro_list_row_say (CroPriceList *self,
                  CroListRow   *row,
                  CroListWhy    why,
                  const char   *text,
                  const char   *other)
{
  CroListReason reason = { why, cro_price_list_keep (self, text), cro_price_list_keep (self, other) };
  guint at = cro_list_row_find_reason (row, why, reason.text);

  /* Two columns may say the same. */
  if (at != CRO_NO_SLOT && g_strcmp0 (g_array_index (row->reasons, CroListReason, at).other, reason.other) == 0)
    return;
  at = 0;
  if (row->reasons == NULL)
    row->reasons = g_array_new (FALSE, FALSE, sizeof (CroListReason));
  /* A figure that may have slipped is asked before what a list says of all. */
  while (at < row->reasons->len && !(why == CRO_LIST_LOOK && is_said_of_all (row, at)))
    at++;
  g_array_insert_val (row->reasons, at, reason);
}

void
cro_list_row_unsay (CroListRow *row,
                    gboolean (*is_answered) (const CroListRow *row,
                                             CroListWhy        why))
{
  for (guint i = row->reasons != NULL ? row->reasons->len : 0; i > 0; i--)
    if (is_answered (row, g_array_index (row->reasons, CroListReason, i - 1).why))
      g_array_remove_index (row->reasons, i - 1);
}
