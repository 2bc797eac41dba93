/* What a round posted, back: one row of it, or all, and into the rows that it was typed in. */
#include "cro-round-private.h"

#include "cro-edit-private.h"
#include "cro-not-set.h"

#include <string.h>

/* --- A price of a day ---------------------------------------------------------------------------------------- */

/* As cro_store_read_prices gives them. */
enum { OFFER, ID, FROM, PRICE, TAX, COUNT, SIZE, UNIT };

gboolean
cro_round_read_price (CroBook         *book,
                      gint64           offer,
                      CroDate          from,
                      CroRoundPrice   *row,
                      gboolean        *found,
                      GError         **error)
{
  char date[CRO_DATE_CHARS];
  g_autoptr (CroRows) rows = NULL;
  GError *failed = NULL;

  *found = FALSE;
  cro_date_format (from, date);
  rows = cro_store_read_prices (cro_book_get_store (book), date, offer, error);
  if (rows != NULL && cro_rows_next (rows, &failed) && strcmp (cro_rows_get_text (rows, FROM), date) == 0)
    {
      *found = TRUE;
      row->id = cro_rows_get_int (rows, ID);
      row->number[0] = cro_row_number (rows, PRICE);
      row->number[1] = cro_rows_get_int (rows, TAX);
      row->number[2] = cro_rows_get_int (rows, COUNT);
      row->size = cro_rows_get_int (rows, SIZE);
      g_free (row->unit);
      row->unit = g_strdup (cro_rows_get_text (rows, UNIT));
    }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}

guint32
cro_round_slot_of (CroModel *model,
                   gint64    offer)
{
  guint32 slot = cro_slots_get (&model->offer_slots, offer);

  return slot != CRO_NO_SLOT && !cro_model_offer (model, slot)->is_dead ? slot : CRO_NO_SLOT;
}

/* --- One row back -------------------------------------------------------------------------------------------- */

static gboolean
write_price (CroBook              *book,
             const CroRoundPrice  *row,
             gint64                id,
             GError              **error)
{
  static const char *const columns[] = { "price_micro", "tax_included_pct_micro", "pack_count_micro",
                                         "pack_size_micro", "pack_unit", NULL };
  const CroCell cells[] = {
    cro_number_cell (row->number[0]),
    cro_edit_cell_or_none (row->number[1]),
    cro_edit_cell_or_none (row->number[2]),
    cro_edit_cell_or_none (row->size),
    CRO_CELL_STR (row->unit),
  };

  return cro_edit_update_row (book, "price", id, columns, cells, error);
}

/* Of two rows: a price of the same pack and day. */
static gboolean
is_same_price (const CroRoundPosted *a,
               const CroRoundPosted *b)
{
  return a->price != NULL && b->price != NULL && a->offer != 0 && a->offer == b->offer && a->from == b->from;
}

/* Whether another price of the same day was posted since; in_force: and was not taken back. */
static gboolean
has_later (GPtrArray            *posts,
           const CroRoundPosted *row,
           gboolean              in_force)
{
  for (guint i = posts != NULL ? posts->len : 0; i > 0; i--)
    {
      GPtrArray *rows = ((CroRoundPost *) posts->pdata[i - 1])->rows;

      if (g_ptr_array_find (rows, row, NULL))
        return FALSE;
      for (guint k = 0; k < rows->len; k++)
        if (is_same_price (rows->pdata[k], row) && !(in_force && ((CroRoundPosted *) rows->pdata[k])->is_back))
          return TRUE;
    }
  return FALSE;
}

static gboolean
says_same (const CroRoundPrice *a,
           const CroRoundPrice *b)
{
  return memcmp (a->number, b->number, sizeof a->number) == 0 && a->size == b->size
         && g_strcmp0 (a->unit, b->unit) == 0;
}

/* Whose price of before stands once row is gone: what it took the place of may have been taken back since. What
 * somebody else set between two of them stays. */
static const CroRoundPosted *
find_first_gone (GPtrArray            *posts,
                 const CroRoundPosted *row)
{
  const CroRoundPosted *first = row;
  gboolean is_met = FALSE;
  gint64 since = 0;

  for (guint i = posts != NULL ? posts->len : 0; i > 0; i--)
    {
      const CroRoundPost *post = posts->pdata[i - 1];

      for (guint k = 0; k < post->rows->len; k++)
        {
          const CroRoundPosted *at = post->rows->pdata[k];

          if (at == row)
            {
              is_met = TRUE;
              since = post->since;
            }
          else if (!is_met || !is_same_price (at, row))
            continue;
          else if (!at->is_back)
            return first;
          else if (at->is_over || at->back > since)
            {
              if (!says_same (&first->was, &at->put))
                return first;
              first = at;
              since = post->since;
            }
        }
    }
  return first;
}

gboolean
cro_round_restore_price (CroBook               *book,
                         GPtrArray             *posts,
                         const CroRoundPosted  *row,
                         GError               **error)
{
  const CroRoundPosted *first = find_first_gone (posts, row);
  CroRoundPrice now = { 0 };
  char date[CRO_DATE_CHARS];
  gboolean found = FALSE;
  gboolean done = row->offer == 0 || cro_round_read_price (book, row->offer, row->from, &now, &found, error);

  g_free (now.unit);
  if (!done || !found)
    return done;
  cro_date_format (row->from, date);
  if (!cro_edit_forget_answer (book, row->offer, date, first->had_row ? first->was.number[0] : CRO_NOT_SET, error))
    return FALSE;
  return first->had_row ? write_price (book, &first->was, now.id, error)
                        : cro_store_delete (cro_book_get_store (book), "price", now.id, error);
}

gboolean
cro_round_put_price (CroBook               *book,
                     GPtrArray             *posts,
                     const CroRoundPosted  *row,
                     GError               **error)
{
  CroRoundPrice now = { 0 };
  gboolean found = FALSE, done;

  if (row->put.id == 0 || has_later (posts, row, TRUE))
    return TRUE;
  done = cro_round_read_price (book, row->offer, row->from, &now, &found, error);
  g_free (now.unit);
  return done && (!found || write_price (book, &row->put, now.id, error));
}

/* What somebody else made of it since is not taken back with it. */
static gboolean
is_as_put (CroBook               *book,
           const CroRoundPosted  *row,
           GError               **error)
{
  CroRoundPrice now = { 0 };
  gboolean found = FALSE, is;

  if (row->put.id == 0)
    return TRUE;
  if (!cro_round_read_price (book, row->offer, row->from, &now, &found, error))
    return FALSE;
  is = !found || says_same (&now, &row->put);
  g_free (now.unit);
  if (!is)
    g_set_error_literal (error, CRO_STORE_ERROR, CRO_STORE_ERROR_CHANGED, "the price was changed since");
  return is;
}

static gboolean
is_made (GPtrArray            *posts,
         const CroRoundPosted *row)
{
  gboolean is = row->made_offer;

  for (guint i = 0; posts != NULL && !is && i < posts->len; i++)
    {
      GPtrArray *rows = ((CroRoundPost *) posts->pdata[i])->rows;

      for (guint k = 0; !is && k < rows->len; k++)
        {
          const CroRoundPosted *at = rows->pdata[k];

          is = at->made_offer && at->is_back && at->offer == row->offer;
        }
    }
  return is;
}

static gboolean
remove_bare_offer (CroBook  *book,
                   gint64    offer,
                   GError  **error)
{
  g_autoptr (GArray) prices = cro_edit_list_rows (book, "price", "offer", offer, error);

  return prices != NULL && (prices->len > 0 || cro_edit_remove_offer (book, offer, error));
}

/* A pack that is gone has taken its price along, and a later price of the day stays. A pack that the round made goes
 * with its last price; an ingredient stays, as somebody may use it by now. */
static gboolean
take_price (CroBook               *book,
            GPtrArray             *posts,
            const CroRoundPosted  *row,
            GError               **error)
{
  if (row->price == NULL || has_later (posts, row, TRUE)
      || cro_round_slot_of (cro_book_get_model (book), row->offer) == CRO_NO_SLOT)
    return TRUE;
  return is_as_put (book, row, error) && cro_round_restore_price (book, posts, row, error)
         && (!is_made (posts, row) || remove_bare_offer (book, row->offer, error));
}

/* Somebody may have removed it meanwhile. */
static gboolean
take_purchase (CroBook               *book,
               const CroRoundPosted  *row,
               GError               **error)
{
  static const char *const columns[] = { "id", NULL };
  g_autoptr (CroRows) rows = NULL;
  gboolean is_there;

  if (row->purchase == 0)
    return TRUE;
  rows = cro_store_read_one (cro_book_get_store (book), "purchase", row->purchase, columns, error);
  is_there = rows != NULL && cro_rows_next (rows, NULL);
  g_clear_pointer (&rows, cro_rows_free);
  return !is_there || cro_store_delete (cro_book_get_store (book), "purchase", row->purchase, error);
}

/* The posting that a row is of; NULL. */
static const CroRoundPost *
find_post (GPtrArray            *posts,
           const CroRoundPosted *row)
{
  for (guint i = 0; posts != NULL && i < posts->len; i++)
    if (g_ptr_array_find (((CroRoundPost *) posts->pdata[i])->rows, row, NULL))
      return posts->pdata[i];
  return NULL;
}

/* A row with its parts of charges that were said later: without it the document has none. Elements borrowed. */
static GPtrArray *
list_with_parts (GPtrArray      *posts,
                 CroRoundPosted *row)
{
  const CroRoundPost *of = row->typed == NULL ? find_post (posts, row) : NULL;
  GPtrArray *list = g_ptr_array_new ();

  g_ptr_array_add (list, row);
  for (guint i = 0; of != NULL && i < posts->len; i++)
    {
      CroRoundPost *post = posts->pdata[i];

      for (guint k = 0; cro_round_posts_same_document (post, of) && k < post->rows->len; k++)
        {
          CroRoundPosted *at = post->rows->pdata[k];

          if (at->share_of == row->line + 1 && !at->is_back)
            g_ptr_array_add (list, at);
        }
    }
  return list;
}

static gboolean
take_purchases (CroBook    *book,
                GPtrArray  *rows,
                GError    **error)
{
  for (guint i = 0; i < rows->len; i++)
    if (!take_purchase (book, rows->pdata[i], error))
      return FALSE;
  return TRUE;
}

gboolean
cro_round_take_back (CroBook         *book,
                     const char      *label,
                     GPtrArray       *posts,
                     CroRoundPosted  *row,
                     GError         **error)
{
  g_autoptr (GPtrArray) rows = NULL;
  gboolean is_over;
  gint64 act;

  if (row->is_back)
    return TRUE;
  rows = list_with_parts (posts, row);
  is_over = has_later (posts, row, TRUE);
  if (!cro_edit_begin (book, label, error)
      || !cro_edit_end_numbered (book, take_price (book, posts, row, error) && take_purchases (book, rows, error),
                                 &act, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      CroRoundPosted *at = rows->pdata[i];

      at->is_back = TRUE;
      at->back = act;
    }
  row->is_over = is_over;
  return TRUE;
}

/* Whether a row that was taken back holds a posting up: one of its own, or of a price that it changed too. */
static gboolean
is_in_way (const CroRoundPosted *row,
           const CroRoundPost   *post)
{
  for (guint i = 0; row->is_back && row->back > post->act && i < post->rows->len; i++)
    if (post->rows->pdata[i] == row || is_same_price (post->rows->pdata[i], row))
      return TRUE;
  return FALSE;
}

static CroRoundPosted *
last_in_way (GPtrArray          *rows,
             const CroRoundPost *post,
             CroRoundPosted     *other)
{
  CroRoundPosted *last = other;

  for (guint i = 0; i < rows->len; i++)
    {
      CroRoundPosted *row = rows->pdata[i];

      if (is_in_way (row, post) && (last == NULL || row->back > last->back))
        last = row;
    }
  return last;
}

static CroRoundPosted *
find_in_way (GPtrArray          *posts,
             const CroRoundPost *post)
{
  CroRoundPosted *last = last_in_way (post->rows, post, NULL);

  for (guint i = 0; posts != NULL && i < posts->len; i++)
    last = last_in_way (((CroRoundPost *) posts->pdata[i])->rows, post, last);
  return last;
}

/* One that was undone by itself is there again already. */
static gboolean
undo_back (CroBook         *book,
           CroRoundPosted  *row,
           CroConflict     *conflict,
           GError         **error)
{
  g_autoptr (CroAct) act = cro_store_find_act (cro_book_get_store (book), row->back, NULL);

  if (act != NULL && act->undone_by == 0 && !cro_book_undo_act (book, row->back, conflict, error))
    return FALSE;
  row->is_back = row->is_over = FALSE;
  return TRUE;
}

/* --- Back into its row -------------------------------------------------------------------------------------- */

gboolean
cro_round_is_restored (CroBook        *book,
                       GPtrArray      *posts,
                       CroRoundPosted *row)
{
  g_autoptr (CroAct) act = row->is_back && row->back != 0
                               ? cro_store_find_act (cro_book_get_store (book), row->back, NULL) : NULL;
  /* Nothing was written then, and the later price that stood in its place is undone. */
  gboolean is_there = row->is_back && row->is_over && row->back == 0 && !has_later (posts, row, FALSE);

  if (!is_there && (act == NULL || act->undone_by == 0))
    return FALSE;
  row->is_back = row->is_over = FALSE;
  return TRUE;
}

gboolean
cro_round_is_back_again (CroBook        *book,
                         GPtrArray      *posts,
                         CroRoundPosted *row)
{
  if (row->is_back || !cro_round_is_in_force (book, row->back))
    return FALSE;
  row->is_back = TRUE;
  row->is_over = has_later (posts, row, TRUE);
  return TRUE;
}

gboolean
cro_round_is_in_force (CroBook *book,
                       gint64   act)
{
  g_autoptr (CroAct) found = act != 0 ? cro_store_find_act (cro_book_get_store (book), act, NULL) : NULL;

  return found != NULL && found->undone_by == 0;
}

gboolean
cro_round_row_is_posted_again (CroRound          *self,
                               const CroRoundRow *row)
{
  return cro_round_is_in_force (self->book, row->posted) && !cro_round_is_in_force (self->book, row->back);
}

/* Where it was kept. */
static gboolean
write_invoice (const CroRoundPost  *post,
               GError             **error)
{
  gsize n;
  const char *bytes = g_bytes_get_data (post->invoice, &n);

  return g_file_set_contents_full (post->kept, bytes, (gssize) n, G_FILE_SET_CONTENTS_CONSISTENT, 0600, error);
}

/* What was said of one line of the invoice; with_file: and of all of it, with the file. Owned. */
static char *
said_of_line (const CroRoundPost *post,
              guint               line,
              gboolean            with_file)
{
  g_auto (GStrv) lines = g_strsplit (post->text != NULL ? post->text : "", "\n", 0);
  g_autofree char *of_line = g_strdup_printf ("line %u ", line);
  GString *said = g_string_new (NULL);

  for (guint i = 0; lines[i] != NULL; i++)
    if (g_str_has_prefix (lines[i], of_line)
        || (with_file && (g_str_has_prefix (lines[i], "whole ") || g_str_has_prefix (lines[i], "seller ")
                          || g_str_has_prefix (lines[i], "invoice "))))
      g_string_append_printf (said, "%s\n", lines[i]);
  return g_string_free (said, FALSE);
}

gboolean
cro_round_can_retype (CroRound           *self,
                      const CroRoundPost *post)
{
  const CroPriceList *open = self->invoice;

  return open == NULL || !post->has_invoice
         || (g_strcmp0 (open->document, post->document) == 0
             && (open->document != NULL || open->delivered == post->delivered));
}

/* A line that the book has not booked stands among those of its invoice, which is opened again. One of another
 * invoice than the open one waits for its file to be taken again. */
static gboolean
put_line_back (CroRound              *self,
               const CroRoundPost    *post,
               const CroRoundPosted  *row,
               GError               **error)
{
  gboolean with_file = self->invoice == NULL;
  g_autofree char *said = said_of_line (post, row->line, with_file);

  if (with_file ? post->invoice == NULL : !cro_round_can_retype (self, post))
    return TRUE;
  return (!with_file || write_invoice (post, error)) && cro_round_put_text (self, said, error);
}

/* A pack that is gone was made by the line that is typed again. */
gboolean
cro_round_put_back (CroRound              *self,
                    const CroRoundPost    *post,
                    const CroRoundPosted  *row,
                    GError               **error)
{
  guint index = cro_round_find_id (self, row->offer);
  CroRoundRow *into;

  if (row->typed == NULL)
    return row->purchase == 0 || put_line_back (self, post, row, error);
  if (index != CRO_NO_SLOT ? cro_round_get_row (self, index)->kind != CRO_ROUND_EMPTY : !row->made_offer)
    return TRUE;
  if (row->made_offer ? !cro_round_add (self, row->typed, &index, error)
                      : !cro_round_type (self, index, row->typed, error))
    return FALSE;
  /* Of what nothing was written no act tells whether it is in the book. */
  if (index != CRO_NO_SLOT && row->back != 0)
    {
      into = cro_round_get_row (self, index);
      into->posted = post->act;
      into->back = row->back;
    }
  return TRUE;
}

gboolean
cro_round_put_out (CroRound              *self,
                   const CroRoundPosted  *row,
                   GError               **error)
{
  for (guint i = self->rows->len; row->typed != NULL && i > 0; i--)
    {
      const CroRoundRow *at = self->rows->pdata[i - 1];

      if (strcmp (at->text, row->typed) != 0 || at->is_billed || (!at->is_added && at->id != row->offer))
        continue;
      if (!at->is_added)
        return cro_round_type (self, i - 1, "", error);
      cro_round_remove (self, i - 1);
    }
  return TRUE;
}

gboolean
cro_round_undo (CroBook       *book,
                GPtrArray     *posts,
                CroRoundPost  *post,
                CroConflict   *conflict,
                GError       **error)
{
  CroRoundPosted *row;

  if (post->act == 0)
    return TRUE;
  while ((row = find_in_way (posts, post)) != NULL)
    if (!undo_back (book, row, conflict, error))
      return FALSE;
  return cro_book_undo_act (book, post->act, conflict, error);
}

gboolean
cro_round_retype (CroRound            *self,
                  const CroRoundPost  *post,
                  GError             **error)
{
  g_autofree char *text = g_strdup_printf ("posted %" G_GINT64_FORMAT " 0\n%s", post->act,
                                           post->text != NULL ? post->text : "");

  return (post->invoice == NULL || self->invoice != NULL || write_invoice (post, error))
         && (post->text == NULL || cro_round_put_text (self, text, error));
}
