/* Lists, messages and invoices become rows of a round. */
#include "config.h"

#include "cro-round-private.h"

#include "cro-isolate.h"
#include "cro-pack.h"
#include "cro-price-list-words.h"

#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

char *
cro_round_dup_line (CroRound         *self,
                    const CroListRow *list)
{
  GString *line = g_string_new (list->code != NULL && (list->name == NULL || g_hash_table_contains (self->of.codes,
                                                                                                    list->code))
                                    ? list->code
                                    : NULL);
  g_autofree char *price = NULL, *pack = NULL;
  CroListRow plain = *list;

  if (list->said != NULL && !list->has_price)
    {
      g_string_assign (line, list->said);
      return g_string_free (line, FALSE);
    }
  plain.pack = (CroPack){ 0 };
  if (list->has_price || list->is_none)
    price = cro_round_dup_typed (self, &plain);
  else if (list->is_same)
    price = g_strdup ("=");
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
  const char **texts[] = { &list->code, &list->gtin, &list->name, &list->said, &list->quantity, &list->unit, &list->net,
                           &list->per_unit, &list->priced_as, &list->tax_heading, &list->sum_heading,
                           &list->said_open, &list->size_heading, &list->unit_heading };

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

/* --- Rows of a list taken before ------------------------------------------------------------------------- */

/* What a line is called, and of how much: a list that is taken again brings nothing twice. */
static char *
dup_words (const CroListRow *list)
{
  return g_strdup_printf ("%s\n%s\n%" G_GINT64_FORMAT " %" G_GINT64_FORMAT " %d",
                          list->name != NULL ? list->name : "", list->code != NULL ? list->code : "",
                          list->pack.count, list->pack.size, (int) list->pack.unit);
}

static GHashTable *
index_taken (CroRound *self)
{
  GHashTable *taken = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = self->rows->len; i > 0; i--)
    {
      CroRoundRow *row = self->rows->pdata[i - 1];

      if (row->is_added && row->is_taken)
        g_hash_table_insert (taken, dup_words (&row->list), row);
    }
  return taken;
}

static gboolean
say_text (CroRound     *self,
          CroRoundRow  *row,
          const char   *text,
          GError      **error)
{
  row->list.is_right = row->list.is_chosen = row->is_filled = FALSE;
  row->answered = 0;
  g_clear_pointer (&row->read, cro_list_row_free);
  g_clear_pointer (&row->over, cro_list_row_free);
  g_free (row->text);
  row->text = g_strdup (text);
  return cro_round_read (self, row, error);
}

/* What the list before brought goes again. Nothing is drafted meanwhile. */
static gboolean
take_out (CroRound *self,
          GError  **error)
{
  for (guint i = self->rows->len; i > 0; i--)
    {
      CroRoundRow *row = self->rows->pdata[i - 1];
      g_autofree char *before = g_steal_pointer (&row->before);

      if (before == NULL)
        continue;
      if (row->is_added && row->is_taken)
        g_ptr_array_remove_index (self->rows, i - 1);
      else if (!row->is_added && !say_text (self, row, before, error))
        return FALSE;
    }
  return TRUE;
}

static void
forget_before (CroRound *self)
{
  for (guint i = 0; i < self->rows->len; i++)
    g_clear_pointer (&((CroRoundRow *) self->rows->pdata[i])->before, g_free);
}

/* --- Rows ------------------------------------------------------------------------------------------------ */

/* What says another price of a pack than a line before waits in a row of its own. */
static CroRoundRow *
find_row (CroRound         *self,
          GHashTable       *taken,
          const CroListRow *list)
{
  CroRoundRow *row = cro_round_row_of_offer (self, list->offer);
  g_autofree char *words = NULL;

  /* What says no price takes no place of one. */
  if (row != NULL && !(cro_list_row_is_twice (list) && row->before != NULL)
      && (*row->text == '\0' || list->has_price || list->is_none))
    return row;
  words = dup_words (list);
  row = g_hash_table_lookup (taken, words);
  if (row != NULL)
    return row;
  row = cro_round_row_new ();
  row->is_added = row->is_taken = TRUE;
  g_ptr_array_add (self->rows, row);
  return row;
}

/* taken: the rows that were there before the list. */
static void
take_row (CroRound         *self,
          GHashTable       *taken,
          const CroListRow *from,
          const CroListRow *read)
{
  CroRoundRow *row = find_row (self, taken, from);
  g_autofree char *text = g_strdup (row->text), *was = NULL;

  if (row->before == NULL)
    row->before = g_strdup (row->text);
  cro_round_put_list (self, row, from, read);
  /* Of what no ingredient is called the list does not know that it is said twice. */
  if (row->is_added && row->list.item == CRO_NO_SLOT)
    {
      cro_round_check_twin (self, row);
      cro_round_note_twin (self, row);
    }
  if (*text == '\0' || strcmp (text, row->text) == 0)
    return;
  was = cro_isolate_printf (_("%s: %s"), cro_words_list_name (&row->list), text);
  g_string_append_printf (self->replaced, "%s%s", self->replaced->len > 0 ? " · " : "", was);
}

/* The same price of the same pack once more. */
static gboolean
is_repeated (const CroListRow *row)
{
  return row->is_repeat && !row->is_posted && row->item != CRO_NO_SLOT
         && (row->state == CRO_LIST_NEW || row->state == CRO_LIST_CHANGED || row->state == CRO_LIST_UNCHANGED
             || (row->state == CRO_LIST_NOT_TO_BE_HAD && row->offer != CRO_NO_SLOT));
}

/* The supplier's order is that of its last list, of all his packs; a message has none, nor have some rows of a list. */
static void
take_order (CroRound           *self,
            const CroPriceList *list)
{
  g_autoptr (GHashTable) others = NULL;

  if (list->source != CRO_LIST_TABLE)
    return;
  others = g_hash_table_new (NULL, NULL);
  for (guint i = 0; i < self->rows->len; i++)
    if (((CroRoundRow *) self->rows->pdata[i])->id != 0)
      g_hash_table_add (others, self->rows->pdata[i]);
  g_array_set_size (self->order, 0);
  for (guint i = 0; i < list->rows->len; i++)
    {
      guint32 offer = g_array_index (list->rows, CroListRow, i).offer;

      if (offer == CRO_NO_SLOT)
        continue;
      g_array_append_val (self->order, cro_model_offer (self->of.model, offer)->id);
      g_hash_table_remove (others, cro_round_row_of_offer (self, offer));
    }
  if (g_hash_table_size (others) > 0)
    g_array_set_size (self->order, 0);
}

static gboolean
take_rows (CroRound            *self,
           const CroPriceList  *list,
           gboolean             is_again,
           GError             **error)
{
  g_autoptr (GHashTable) taken = NULL;

  if (is_again && !take_out (self, error))
    return FALSE;
  forget_before (self);
  g_string_truncate (self->replaced, 0);
  take_order (self, list);
  taken = index_taken (self);
  cro_round_begin_many (self);
  for (guint i = 0; i < list->rows->len; i++)
    {
      const CroListRow *row = &g_array_index (list->rows, CroListRow, i);

      if (!cro_list_row_is_talk (list, row) && !is_repeated (row))
        take_row (self, taken, row, list->read->pdata[i]);
    }
  /* Figures are settled once all is drafted. */
  g_clear_pointer (&self->twins, g_hash_table_unref);
  return TRUE;
}

gboolean
cro_round_take (CroRound              *self,
                const char            *path,
                const CroRoundTaking  *taking,
                CroPriceList         **taken,
                GError               **error)
{
  static const CroRoundTaking plainly = { 0 };
  const CroRoundTaking *how = taking != NULL ? taking : &plainly;
  /* What was said of an invoice is not said of a second one. */
  gboolean is_first = self->invoice == NULL;
  CroListReading reading = { .columns = self->columns, .go_on = how->go_on, .user_data = how->user_data,
                             .whole = is_first ? self->whole : CRO_WHOLE_UNSAID,
                             .is_seller_right = (is_first && self->is_seller_right) || how->is_seller_right };
  CroPriceList *list = NULL;
  g_autofree char *refused = NULL;
  gboolean done;

  *taken = NULL;
  if (!how->is_again)
    self->sheet = 0;
  reading.sheet = self->sheet;
  cro_round_undraft_all (self);
  done = cro_price_list_read (path, self->draft, self->list->supplier_name, self->from, &reading, &list, error);
  refused = done ? cro_words_list_refused (list, NULL) : NULL;
  *taken = list;
  if (refused != NULL && cro_price_list_lacks_whole (list))
    g_clear_pointer (&refused, g_free);
  if (done && refused == NULL && list->source != CRO_LIST_INVOICE)
    done = take_rows (self, list, how->is_again, error);
  else if (done && refused == NULL && self->invoice == NULL)
    {
      self->invoice = g_steal_pointer (taken);
      self->invoice_path = g_strdup (path);
      self->whole = self->invoice->whole;
      self->is_seller_right = reading.is_seller_right;
      cro_round_take_billed (self);
    }
  cro_round_draft_all (self);
  return done;
}

const char *
cro_round_get_replaced (CroRound *self)
{
  return self->replaced->str;
}

void
cro_round_say_sheet (CroRound *self,
                     guint     sheet)
{
  self->sheet = sheet;
}

void
cro_round_say_columns (CroRound   *self,
                       const char *said)
{
  g_free (self->columns);
  self->columns = g_strdup (said);
}

/* The readers take files. */
gboolean
cro_round_take_text (CroRound              *self,
                     const char            *text,
                     const CroRoundTaking  *taking,
                     CroPriceList         **taken,
                     GError               **error)
{
  g_autofree char *path = NULL;
  int file = g_file_open_tmp ("croustade-XXXXXX.txt", &path, error);
  gboolean done;

  *taken = NULL;
  if (file < 0)
    return FALSE;
  close (file);
  done = g_file_set_contents (path, text, -1, error) && cro_round_take (self, path, taking, taken, error);
  if (g_strcmp0 (self->invoice_path, path) == 0)
    self->is_pasted = TRUE;
  else
    g_unlink (path);
  return done;
}
