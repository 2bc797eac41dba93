/* Lists, messages and invoices become rows of a round. */
#include "cro-round-private.h"

#include "cro-pack.h"
#include "cro-price-list-words.h"

#include <glib/gstdio.h>
#include <unistd.h>

/* What a line says, for who reads it in the sheet; read again it says the same, but for a code that the
 * supplier has not used yet, which would be part of the name. */
static char *
dup_line (CroRound         *self,
          const CroListRow *list)
{
  GString *line = g_string_new (list->code != NULL && (list->name == NULL || g_hash_table_contains (self->of.codes,
                                                                                                    list->code))
                                    ? list->code
                                    : NULL);
  g_autofree char *price = NULL, *pack = NULL;
  CroListRow plain = *list;

  plain.pack = (CroPack){ 0 };
  if (list->has_price || list->is_none)
    price = cro_round_dup_typed (self, &plain);
  if (list->pack.size > 0 && !list->is_none)
    pack = cro_pack_to_short_text (&list->pack);
  for (guint i = 0; i < 3; i++)
    {
      const char *part = i == 0 ? list->name : i == 1 ? pack : price;

      if (part != NULL)
        g_string_append_printf (line, "%s%s", line->len > 0 ? " " : "", part);
    }
  return g_string_free (line, FALSE);
}

/* Texts live as long as the list that they were read of. */
void
cro_round_keep_texts (CroRound   *self,
                      CroListRow *list)
{
  CroPriceList *to = self->list;
  const char **texts[] = { &list->code, &list->gtin, &list->name, &list->quantity, &list->unit, &list->net,
                           &list->per_unit };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    *texts[i] = cro_price_list_keep (to, *texts[i]);
  if (list->currency != NULL)
    list->currency = g_intern_string (list->currency);
  for (guint i = 0; list->reasons != NULL && i < list->reasons->len; i++)
    {
      CroListReason *reason = &g_array_index (list->reasons, CroListReason, i);

      reason->text = cro_price_list_keep (to, reason->text);
      reason->other = cro_price_list_keep (to, reason->other);
    }
}

/* Among the first n rows one of a list, of the same words: a list that is taken again brings nothing twice. */
static guint
find_taken (CroRound         *self,
            const CroListRow *list,
            guint             n)
{
  for (guint i = 0; i < n; i++)
    {
      const CroRoundRow *row = self->rows->pdata[i];

      if (row->is_added && row->is_taken && g_strcmp0 (row->list.name, list->name) == 0
          && g_strcmp0 (row->list.code, list->code) == 0 && row->list.pack.count == list->pack.count
          && row->list.pack.size == list->pack.size && row->list.pack.unit == list->pack.unit)
        return i;
    }
  return CRO_NO_SLOT;
}

/* n: of the rows that were there before the list. */
static void
take_row (CroRound         *self,
          const CroListRow *from,
          guint             n)
{
  guint index = cro_round_find_offer (self, from->offer);
  CroRoundRow *row;
  CroListRow list = *from;

  /* What says the other price of a pack waits in a row of its own. */
  for (guint i = 0; from->reasons != NULL && i < from->reasons->len; i++)
    if (g_array_index (from->reasons, CroListReason, i).why == CRO_LIST_TWICE)
      index = CRO_NO_SLOT;
  if (index == CRO_NO_SLOT)
    index = find_taken (self, from, n);
  if (index == CRO_NO_SLOT)
    {
      row = cro_round_row_new ();
      row->is_added = row->is_taken = TRUE;
      g_ptr_array_add (self->rows, row);
    }
  else
    row = self->rows->pdata[index];
  cro_round_undraft (self, row);
  g_clear_pointer (&row->list.reasons, g_array_unref);
  g_clear_pointer (&row->wrong, g_free);
  if (list.reasons != NULL)
    list.reasons = g_array_copy (list.reasons);
  cro_round_keep_texts (self, &list);
  list.is_known = list.offer != CRO_NO_SLOT;
  /* As the book calls it. */
  if (!row->is_added)
    {
      list.name = row->list.name;
      list.code = row->list.code;
    }
  g_free (row->text);
  row->text = row->is_added ? dup_line (self, &list) : cro_round_dup_typed (self, &list);
  row->list = list;
  row->kind = list.is_none ? CRO_ROUND_NONE : list.has_price ? CRO_ROUND_PRICED : CRO_ROUND_UNREAD;
  cro_round_draft (self, row);
}

/* Words of a message that are of nothing that is bought, and no price. */
static gboolean
is_greeting (const CroPriceList *list,
             const CroListRow   *row)
{
  return list->source == CRO_LIST_MESSAGE && row->item == CRO_NO_SLOT && !row->is_none && row->reasons != NULL
         && g_array_index (row->reasons, CroListReason, 0).why == CRO_LIST_NO_PRICE;
}

/* The supplier's order is that of its last list; a message has none. */
static void
take_order (CroRound           *self,
            const CroPriceList *list)
{
  if (list->source != CRO_LIST_TABLE)
    return;
  g_array_set_size (self->order, 0);
  for (guint i = 0; i < list->rows->len; i++)
    {
      guint32 offer = g_array_index (list->rows, CroListRow, i).offer;

      if (offer != CRO_NO_SLOT)
        g_array_append_val (self->order, cro_model_offer (self->of.model, offer)->id);
    }
}

gboolean
cro_round_take (CroRound      *self,
                const char    *path,
                CroPriceList **taken,
                GError       **error)
{
  CroPriceList *list = NULL;
  g_autofree char *refused = NULL;
  guint n_before = self->rows->len;
  gboolean done;

  *taken = NULL;
  cro_round_undraft_all (self);
  done = cro_price_list_read_by (path, self->draft, self->list->supplier_name, self->from, self->price_heading, &list,
                                 error);
  cro_round_draft_all (self);
  refused = done ? cro_words_list_refused (list, NULL) : NULL;
  *taken = list;
  if (!done || refused != NULL || (list->source == CRO_LIST_INVOICE && self->invoice != NULL))
    return done;
  if (list->source == CRO_LIST_INVOICE)
    {
      self->invoice = g_steal_pointer (taken);
      self->invoice_path = g_strdup (path);
      cro_round_take_billed (self);
    }
  take_order (self, list);
  for (guint i = 0; list->source != CRO_LIST_INVOICE && i < list->rows->len; i++)
    if (!is_greeting (list, &g_array_index (list->rows, CroListRow, i)))
      take_row (self, &g_array_index (list->rows, CroListRow, i), n_before);
  cro_round_settle (self);
  return TRUE;
}

void
cro_round_set_price_heading (CroRound   *self,
                             const char *heading)
{
  g_free (self->price_heading);
  self->price_heading = g_strdup (heading);
}

/* The readers take files. */
gboolean
cro_round_take_text (CroRound      *self,
                     const char    *text,
                     CroPriceList **taken,
                     GError       **error)
{
  g_autofree char *path = NULL;
  int file = g_file_open_tmp ("croustade-XXXXXX.txt", &path, error);
  gboolean done;

  *taken = NULL;
  if (file < 0)
    return FALSE;
  close (file);
  done = g_file_set_contents (path, text, -1, error) && cro_round_take (self, path, taken, error);
  if (g_strcmp0 (self->invoice_path, path) == 0)
    self->is_pasted = TRUE;
  else
    g_unlink (path);
  return done;
}
