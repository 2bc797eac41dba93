/* A round as one text, for who sets it aside: a line for its day, one for each row that is typed, one for
 * each pack that is to be preferred.
 *
 *   from 2026-11-28
 *   row 12 right 69.50
 *   last 31 21000000 (the last price on which the text of the next row rests)
 *   row 31 - +5 %
 *   new - turbot 3 kg 24.50/kg
 *   new asked lobster 1 kg 38.00
 *   prefer 31
 *
 * What a list left open of a row, of which the text of its price says nothing (open_codes), stands before it, with the
 * words of that question:
 *
 *   asks pack net\t1 × 5 kg
 *   row 14 - 82.00
 *
 * Rows that were posted, and are typed again as that was undone, stand behind the act that posted them and the one
 * that took them back alone, or 0 (of other rows both are 0): where the book has them again they are not put back.
 *
 *   posted 207 0
 *   row 14 - +5 %
 *
 * Of an invoice its file, what is not booked of it (lines, net value, currency, number), and what was said of a
 * line: which ingredient, what one of it holds, that it is right. Before them what becomes of its allowances and
 * charges (cro_list_whole_codes), and that it is the supplier's though another is its seller.
 *
 *   whole spread
 *   seller right
 *   invoice /home/me/.local/state/croustade/set-aside/1f3870be.xml
 *   billed 3 62000000 EUR UR-3001
 *   line 2 called White turnip
 *   line 3 holds 1000000 30000000 pc
 *   line 3 right
 *   line 4 disposable (or: other, ingredient)
 *   line 5 returned */
#include "cro-round-private.h"

#include <glib/gstdio.h>
#include <stdlib.h>
#include <string.h>

#include "cro-here.h"
#include "cro-words.h"

/* What g_strescape() made, whoever changed it since: a stroke at its end is of nothing. */
static char *
dup_bytes (const char *escaped)
{
  gsize n = strlen (escaped), strokes = 0;
  g_autofree char *whole = NULL;

  while (strokes < n && escaped[n - 1 - strokes] == '\\')
    strokes++;
  whole = g_strndup (escaped, n - strokes % 2);
  return g_strcompress (whole);
}

/* The same of a text. */
static char *
dup_text (const char *escaped)
{
  g_autofree char *bytes = dup_bytes (escaped);

  return g_utf8_make_valid (bytes, -1);
}

/* --- The invoice ------------------------------------------------------------------------------------------ */

static void
write_answers (GString           *to,
               const CroRoundRow *row)
{
  g_autofree char *called = row->called != NULL ? g_strescape (row->called, NULL) : NULL;

  if (called != NULL)
    g_string_append_printf (to, "line %u called %s\n", row->line, called);
  if (row->holds.size > 0)
    g_string_append_printf (to, "line %u holds %" G_GINT64_FORMAT " %" G_GINT64_FORMAT " %s\n", row->line,
                            row->holds.count, row->holds.size, cro_unit_get (row->holds.unit)->code);
  if (row->list.is_right)
    g_string_append_printf (to, "line %u right\n", row->line);
  if (row->list.goods != CRO_LIST_GOODS_UNSAID && !row->list.is_recalled)
    g_string_append_printf (to, "line %u %s\n", row->line, cro_list_goods_codes[row->list.goods]);
  if (row->list.is_turned)
    g_string_append_printf (to, "line %u returned\n", row->line);
}

static gboolean
is_open_line (const CroRoundRow *row)
{
  return row->is_billed && (cro_round_row_waits (row) || cro_round_row_is_ready (row));
}

static void
write_invoice (CroRound *self,
               GString  *to)
{
  g_autofree char *path = self->is_kept ? g_strescape (self->invoice_path, NULL) : NULL;
  const CroPriceList *list = self->invoice;
  g_autofree char *document = g_strescape (path != NULL && list->document != NULL ? list->document : "", NULL);
  gint64 net_value = 0;
  guint n = 0;

  for (guint i = 0; path != NULL && i < self->rows->len; i++)
    if (is_open_line (self->rows->pdata[i]))
      {
        n++;
        net_value += cro_list_row_value (&((CroRoundRow *) self->rows->pdata[i])->list);
      }
  if (n == 0)
    return;
  if (self->whole != CRO_WHOLE_UNSAID)
    g_string_append_printf (to, "whole %s\n", cro_list_whole_codes[self->whole]);
  if (self->is_seller_right)
    g_string_append (to, "seller right\n");
  g_string_append_printf (to, "invoice %s\nbilled %u %" G_GINT64_FORMAT " %s %s\n", path, n, net_value,
                          list->currency != NULL ? list->currency : "-", document);
  for (guint i = 0; i < self->rows->len; i++)
    if (is_open_line (self->rows->pdata[i]))
      write_answers (to, self->rows->pdata[i]);
}

gboolean
cro_round_keep_invoice (CroRound    *self,
                        const char  *path,
                        GError     **error)
{
  g_autofree char *bytes = NULL, *folder = g_path_get_dirname (path);
  gsize n;

  if (self->invoice == NULL || self->is_kept)
    return TRUE;
  g_mkdir_with_parents (folder, 0700);
  if (!g_file_get_contents (self->invoice_path, &bytes, &n, error)
      || !g_file_set_contents_full (path, bytes, (gssize) n, G_FILE_SET_CONTENTS_CONSISTENT, 0600, error))
    return FALSE;
  if (self->is_pasted)
    g_unlink (self->invoice_path);
  g_free (self->invoice_path);
  self->invoice_path = g_strdup (path);
  self->is_pasted = self->is_kept = TRUE;
  cro_round_set_kept (self, path);
  return TRUE;
}

gboolean
cro_round_is_invoice_kept (CroRound *self)
{
  return self->is_kept;
}

void
cro_round_set_kept (CroRound   *self,
                    const char *path)
{
  g_autofree char *before = self->kept;

  self->kept = g_canonicalize_filename (path, NULL);
}

static gboolean
take_invoice (CroRound    *self,
              const char  *line,
              GError     **error)
{
  g_autofree char *said = dup_bytes (line), *path = g_canonicalize_filename (said, NULL);
  g_autoptr (CroPriceList) other = NULL;
  gboolean is_own = g_strcmp0 (path, self->kept) == 0;

  if (!cro_round_take (self, path, NULL, &other, error))
    return FALSE;
  if (self->invoice == NULL && is_own)
    g_unlink (path);
  if (g_strcmp0 (self->invoice_path, path) == 0)
    self->is_pasted = self->is_kept = is_own;
  return TRUE;
}

/* --- What a list left open --------------------------------------------------------------------------------- */

static const struct { const char *code; CroListWhy why; } open_codes[] = {
  { "pack", CRO_LIST_WHICH_PRICE },
  { "tax", CRO_LIST_TAX_BESIDE },
  { "name", CRO_LIST_OTHER_NAME },
  { "goods", CRO_LIST_GOODS_WORD },
  { "price", CRO_LIST_UNSURE },
};

static void
write_open (GString           *to,
            const CroRoundRow *row)
{
  const GArray *reasons = row->read != NULL && !row->is_added && !row->list.is_right ? row->list.reasons : NULL;

  for (guint i = 0; reasons != NULL && i < reasons->len; i++)
    for (gsize k = 0; k < G_N_ELEMENTS (open_codes); k++)
      {
        const CroListReason *reason = &g_array_index (reasons, CroListReason, i);
        g_autofree char *text = g_strescape (reason->text != NULL ? reason->text : "", NULL);
        g_autofree char *other = g_strescape (reason->other != NULL ? reason->other : "", NULL);

        if (reason->why == open_codes[k].why)
          g_string_append_printf (to, "asks %s %s\t%s\n", open_codes[k].code, text, other);
      }
}

/* line: of a question that stands before the row; NULL: none does. */
static gboolean
put_open (CroRound     *self,
          CroRoundRow  *row,
          const char   *line,
          GError      **error)
{
  g_autofree char *code = line != NULL ? g_strndup (line, strcspn (line, " ")) : NULL;
  g_auto (GStrv) texts = line != NULL ? g_strsplit (line + strlen (code), "\t", 2) : NULL;

  for (gsize i = 0; code != NULL && i < G_N_ELEMENTS (open_codes); i++)
    if (strcmp (code, open_codes[i].code) == 0 && row->list.has_price && g_strv_length (texts) == 2)
      {
        g_autofree char *text = dup_text (g_strstrip (texts[0])), *other = dup_text (texts[1]);
        const CroListReason reason = { open_codes[i].why, text, other };

        return cro_round_leave_open (self, row, &reason, error);
      }
  return TRUE;
}

/* --- Text ------------------------------------------------------------------------------------------------- */

/* As it would be typed: what a list says of the last price is said of it again. */
static char *
dup_typed (const CroRoundRow *row)
{
  g_autofree char *pct = NULL;

  if (row->read == NULL || !cro_round_row_is_relative (row))
    return g_strdup (row->text);
  if (row->read->change_pct == 0)
    return g_strdup ("=");
  pct = cro_words_decimal (row->read->change_pct);
  return g_strdup_printf ("%s%s %%", row->read->change_pct > 0 ? "+" : "", pct);
}

static void
write_rows (CroRound *self,
            gboolean  ready_only,
            GString  *text)
{
  gint64 posted = 0, back = 0;

  for (guint i = 0; i < self->rows->len; i++)
    {
      const CroRoundRow *row = self->rows->pdata[i];
      g_autofree char *said = dup_typed (row), *typed = g_strescape (said, NULL);
      const char *right = row->list.is_right ? "right" : row->is_filled ? "filled"
                        : row->is_taken                           ? "asked"
                                                                  : "-";

      if (*row->text == '\0' || row->is_billed || (ready_only && !cro_round_row_is_ready (row)))
        continue;
      if (!ready_only && (row->posted != posted || row->back != back))
        {
          posted = row->posted;
          back = row->back;
          g_string_append_printf (text, "posted %" G_GINT64_FORMAT " %" G_GINT64_FORMAT "\n", posted, back);
        }
      write_open (text, row);
      if (row->is_added)
        g_string_append_printf (text, "new %s %s\n", right, typed);
      else if (cro_round_row_is_relative (row) && row->base != CRO_NOT_SET)
        g_string_append_printf (text, "last %" G_GINT64_FORMAT " %" G_GINT64_FORMAT "\n", row->id, row->base);
      if (!row->is_added)
        g_string_append_printf (text, "row %" G_GINT64_FORMAT " %s %s\n", row->id, right, typed);
    }
}

char *
cro_round_dup_posted_rows (CroRound *self)
{
  GString *text = g_string_new (NULL);
  gboolean has_any;

  write_rows (self, TRUE, text);
  write_invoice (self, text);
  has_any = text->len > 0;
  return has_any ? g_string_free (text, FALSE) : g_string_free (text, TRUE);
}

char *
cro_round_to_text (CroRound *self)
{
  g_autoptr (GString) text = g_string_new (NULL);
  char date[CRO_DATE_CHARS];

  write_rows (self, FALSE, text);
  write_invoice (self, text);
  for (guint i = 0; i < self->preferred->len; i++)
    g_string_append_printf (text, "prefer %" G_GINT64_FORMAT "\n", g_array_index (self->preferred, gint64, i));
  if (text->len == 0)
    return NULL;
  if (self->from != cro_here_today ())
    {
      cro_date_format (self->from, date);
      g_string_prepend_c (text, '\n');
      g_string_prepend (text, date);
      g_string_prepend (text, "from ");
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* The word that begins a line, which goes on behind it. */
static char *
take_word (const char **line)
{
  gsize n = strcspn (*line, " ");
  char *word = g_strndup (*line, n);

  *line += n;
  if (**line == ' ')
    (*line)++;
  return word;
}

/* of: what posted it, and what took it back. asks: what a list left open of it. */
static gboolean
put_row (CroRound          *self,
         const CroRoundRow *of,
         const char        *kind,
         const char        *line,
         gint64             base,
         const char        *asks,
         GError           **error)
{
  gboolean is_new = strcmp (kind, "new") == 0;
  g_autofree char *number = is_new ? NULL : take_word (&line), *right = take_word (&line);
  g_autofree char *typed = dup_text (line);
  CroRoundRow *row;
  guint index = CRO_NO_SLOT;

  if (is_new && !cro_round_add_line (self, typed, strcmp (right, "asked") == 0, &index, error))
    return FALSE;
  if (!is_new)
    index = cro_round_find_id (self, g_ascii_strtoll (number, NULL, 10));
  if (index == CRO_NO_SLOT)
    return TRUE;
  row = self->rows->pdata[index];
  /* What stands in it was said since. */
  if (!is_new && *row->text != '\0')
    return TRUE;
  if (!is_new
      && (!cro_round_type_beside (self, index, typed, base != CRO_NOT_SET ? base : row->last, error)
          || !put_open (self, row, asks, error)))
    return FALSE;
  row->is_filled = strcmp (right, "filled") == 0;
  row->posted = of->posted;
  row->back = of->back;
  /* What was said to be right was said beside the last price of then. */
  return strcmp (right, "right") != 0 || cro_round_row_is_moved (row) || cro_round_is_right (self, index, error);
}

/* The row that says what was said of a line of the invoice. */
static CroRoundRow *
answers_of (GPtrArray *answers,
            guint      line)
{
  CroRoundRow *row;

  for (guint i = 0; i < answers->len; i++)
    if (((CroRoundRow *) answers->pdata[i])->line == line)
      return answers->pdata[i];
  row = cro_round_row_new ();
  row->is_billed = TRUE;
  row->line = line;
  g_ptr_array_add (answers, row);
  return row;
}

static void
read_answer (GPtrArray  *answers,
             const char *line)
{
  g_autofree char *number = take_word (&line), *what = take_word (&line);
  CroRoundRow *row = answers_of (answers, (guint) g_ascii_strtoull (number, NULL, 10));

  if (strcmp (what, "called") == 0)
    {
      g_free (row->called);
      row->called = dup_text (line);
    }
  else if (strcmp (what, "holds") == 0)
    {
      g_autofree char *count = take_word (&line), *size = take_word (&line);

      if (cro_unit_parse (line, strlen (line), &row->holds.unit))
        {
          row->holds.count = g_ascii_strtoll (count, NULL, 10);
          row->holds.size = g_ascii_strtoll (size, NULL, 10);
        }
    }
  row->list.is_right |= strcmp (what, "right") == 0;
  row->list.is_turned |= strcmp (what, "returned") == 0;
  for (guint i = 1; i < CRO_N_LIST_GOODS; i++)
    if (strcmp (what, cro_list_goods_codes[i]) == 0)
      row->list.goods = (CroListGoods) i;
}

static CroListWhole
read_whole (const char *code)
{
  for (guint i = 0; i < CRO_N_WHOLE; i++)
    if (strcmp (code, cro_list_whole_codes[i]) == 0)
      return (CroListWhole) i;
  return CRO_WHOLE_UNSAID;
}

static gboolean
put_lines (CroRound    *self,
           const char  *text,
           GError     **error)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", 0);
  g_autoptr (GPtrArray) answers = g_ptr_array_new_with_free_func ((GDestroyNotify) cro_round_row_free);
  CroRoundRow of = { 0 };
  GError *gone = NULL;
  const char *asks = NULL;
  gint64 base = CRO_NOT_SET;
  gboolean done = TRUE;

  cro_round_begin_many (self);
  for (guint i = 0; done && lines[i] != NULL; i++)
    {
      const char *line = lines[i];
      g_autofree char *kind = take_word (&line);

      if (strcmp (kind, "prefer") == 0)
        {
          guint32 slot = cro_slots_get (&self->of.model->offer_slots, g_ascii_strtoll (line, NULL, 10));

          if (slot != CRO_NO_SLOT && !cro_model_offer (self->of.model, slot)->is_dead)
            cro_round_prefer (self, slot);
        }
      else if (strcmp (kind, "whole") == 0 && self->invoice == NULL)
        self->whole = read_whole (line);
      else if (strcmp (kind, "seller") == 0 && self->invoice == NULL)
        self->is_seller_right = TRUE;
      else if (strcmp (kind, "invoice") == 0 && gone == NULL)
        {
          /* It is read beside settled figures, and its lines have twins too. */
          cro_round_end_many (self);
          take_invoice (self, line, &gone);
          cro_round_begin_many (self);
        }
      else if (strcmp (kind, "line") == 0)
        read_answer (answers, line);
      else if (strcmp (kind, "posted") == 0)
        {
          g_autofree char *act = take_word (&line);

          of.posted = g_ascii_strtoll (act, NULL, 10);
          of.back = g_ascii_strtoll (line, NULL, 10);
        }
      else if (strcmp (kind, "last") == 0)
        {
          g_autofree char *offer = take_word (&line);

          base = g_ascii_strtoll (line, NULL, 10);
        }
      else if (strcmp (kind, "asks") == 0)
        asks = line;
      else if (strcmp (kind, "row") == 0 || strcmp (kind, "new") == 0)
        {
          done = cro_round_row_is_posted_again (self, &of) || put_row (self, &of, kind, line, base, asks, error);
          base = CRO_NOT_SET;
          asks = NULL;
        }
    }
  cro_round_end_many (self);
  if (!done)
    {
      g_clear_error (&gone);
      return FALSE;
    }
  if (gone != NULL)
    {
      g_propagate_error (error, gone);
      return FALSE;
    }
  return answers->len == 0 || self->invoice == NULL || cro_round_answer_again (self, answers, error);
}

gboolean
cro_round_put_text (CroRound    *self,
                    const char  *text,
                    GError     **error)
{
  gboolean done = put_lines (self, text, error);

  if (self->invoice == NULL)
    cro_round_forget_whole (self);
  return done;
}

gboolean
cro_round_text_billed (const char      *text,
                       CroRoundBilled  *billed)
{
  const char *line = g_str_has_prefix (text, "billed ") ? text : strstr (text, "\nbilled ");
  g_autofree char *kind = NULL, *n = NULL, *net_value = NULL, *currency = NULL, *rest = NULL;

  if (line == NULL)
    return FALSE;
  line += *line == '\n';
  rest = g_strndup (line, strcspn (line, "\n"));
  line = rest;
  kind = take_word (&line);
  n = take_word (&line);
  net_value = take_word (&line);
  currency = take_word (&line);
  billed->n_lines = (guint) g_ascii_strtoull (n, NULL, 10);
  billed->net_value = g_ascii_strtoll (net_value, NULL, 10);
  billed->currency = strcmp (currency, "-") != 0 ? g_intern_string (currency) : NULL;
  billed->document = dup_text (line);
  return TRUE;
}

char *
cro_round_text_invoice (const char *text)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", 0);
  g_autofree char *path = NULL;

  for (guint i = 0; path == NULL && lines[i] != NULL; i++)
    if (g_str_has_prefix (lines[i], "invoice "))
      path = dup_bytes (lines[i] + strlen ("invoice "));
  return path != NULL ? g_filename_display_name (path) : NULL;
}

void
cro_round_billed_clear (CroRoundBilled *self)
{
  g_clear_pointer (&self->document, g_free);
}

guint
cro_round_text_count (const char *text)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", 0);
  guint n = 0;

  for (guint i = 0; lines[i] != NULL; i++)
    n += g_str_has_prefix (lines[i], "row ") || g_str_has_prefix (lines[i], "new ");
  return n;
}

CroDate
cro_round_text_from (const char *text)
{
  CroDate from;

  return g_str_has_prefix (text, "from ") && cro_date_parse (text + 5, CRO_DATE_CHARS - 1, &from) ? from : CRO_NO_DAY;
}
