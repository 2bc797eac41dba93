/* The invoice of a round that is set aside: its file, which is kept, and what was said of its lines, among the lines of
 * that text (cro-round-aside.c). */
#include "cro-round-private.h"

#include <glib/gstdio.h>
#include <string.h>

/* The word that begins a line, which goes on behind it. */
char *
cro_round_take_word (const char **line)
{
  gsize n = strcspn (*line, " ");
  char *word = g_strndup (*line, n);

  *line += n;
  if (**line == ' ')
    (*line)++;
  return word;
}

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
  if (row->list.back != CRO_LIST_BACK_UNSAID)
    g_string_append_printf (to, "line %u %s\n", row->line, cro_list_back_codes[row->list.back]);
}

static gboolean
is_open_line (const CroRoundRow *row)
{
  return row->is_billed && (cro_round_row_waits (row) || cro_round_row_is_ready (row));
}

void
cro_round_write_invoice (CroRound *self,
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

gboolean
cro_round_take_kept (CroRound    *self,
                     const char  *line,
                     GError     **error)
{
  g_autofree char *said = cro_round_dup_bytes (line), *path = g_canonicalize_filename (said, NULL);
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

void
cro_round_read_answer (GPtrArray  *answers,
                       const char *line)
{
  g_autofree char *number = cro_round_take_word (&line), *what = cro_round_take_word (&line);
  CroRoundRow *row = answers_of (answers, (guint) g_ascii_strtoull (number, NULL, 10));

  if (strcmp (what, "called") == 0)
    {
      g_free (row->called);
      row->called = cro_round_dup_text (line);
    }
  else if (strcmp (what, "holds") == 0)
    {
      g_autofree char *count = cro_round_take_word (&line), *size = cro_round_take_word (&line);

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
  for (guint i = CRO_LIST_BACK_GOODS; i < CRO_N_LIST_BACK; i++)
    if (strcmp (what, cro_list_back_codes[i]) == 0)
      row->list.back = (CroListBack) i;
}

CroListWhole
cro_round_read_whole (const char *code)
{
  for (guint i = 0; i < CRO_N_WHOLE; i++)
    if (strcmp (code, cro_list_whole_codes[i]) == 0)
      return (CroListWhole) i;
  return CRO_WHOLE_UNSAID;
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
  kind = cro_round_take_word (&line);
  n = cro_round_take_word (&line);
  net_value = cro_round_take_word (&line);
  currency = cro_round_take_word (&line);
  billed->n_lines = (guint) g_ascii_strtoull (n, NULL, 10);
  billed->net_value = g_ascii_strtoll (net_value, NULL, 10);
  billed->currency = strcmp (currency, "-") != 0 ? g_intern_string (currency) : NULL;
  billed->document = cro_round_dup_text (line);
  return TRUE;
}

char *
cro_round_text_invoice (const char *text)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", 0);
  g_autofree char *path = NULL;

  for (guint i = 0; path == NULL && lines[i] != NULL; i++)
    if (g_str_has_prefix (lines[i], "invoice "))
      path = cro_round_dup_bytes (lines[i] + strlen ("invoice "));
  return path != NULL ? g_filename_display_name (path) : NULL;
}

void
cro_round_billed_clear (CroRoundBilled *self)
{
  g_clear_pointer (&self->document, g_free);
}
