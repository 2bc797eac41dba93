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
 * Whose text it is stands before all else but the day: the book, by its first act, and the supplier. Before a row
 * stands what its pack is, the code and the ingredient: numbers of rows are another pack's in another book of that
 * place.
 *
 *   book 2026-11-02T09:14:05Z 3f21\tUpriver
 *   of 101\tCrab
 *   row 12 - 69.50
 *
 * What a list says of a row, of which the text of its price does not say all (cro-round-listed-text.c), stands before
 * it too, as does what is asked of it though no list says so any more, as in texts of before: they say all so.
 *
 *   read line 3\tname Crab\thas-price yes\tprice 82000000\tasks pack\ttext net\tother 1 × 5 kg
 *   asks twice 4\t (or: chosen, of several prices of its pack it holds)
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
#include "config.h"

#include "cro-round-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-here.h"
#include "cro-history.h"
#include "cro-isolate.h"
#include "cro-words.h"

/* --- What stands before a row ------------------------------------------------------------------------------- */

typedef struct
{
  gboolean    is_other;  /* the text is of another book */
  gboolean    is_others; /* and of another supplier of it */
  gint64      posted;    /* what posted the rows, and what took them back */
  gint64      back;
  gint64      base;
  gboolean    is_chosen; /* of several prices of the pack it was said to hold */
  char       *code;      /* of the pack; "": it has none; NULL: that is not said, as the next */
  char       *name;
  CroListRow *read;      /* NULL */
  GArray     *asked;     /* CroListReason; NULL */
} Before;

/* But whose the text is, and what posted all that follows. */
static void
forget_row (Before *before)
{
  g_clear_pointer (&before->code, g_free);
  g_clear_pointer (&before->name, g_free);
  g_clear_pointer (&before->read, cro_list_row_free);
  g_clear_pointer (&before->asked, g_array_unref);
  before->base = CRO_NOT_SET;
  before->is_chosen = FALSE;
}

char *
cro_round_dup_own (CroBook *book)
{
  g_autoptr (CroAct) act = cro_store_find_act (cro_book_get_store (book), 1, NULL);
  g_autofree char *desk = act != NULL ? g_strescape (act->desk, NULL) : NULL;

  return act != NULL ? g_strdup_printf ("%s %s", act->at, desk) : g_strdup ("-");
}

/* With its supplier. */
static char *
dup_book (CroRound *self)
{
  g_autofree char *supplier = g_strescape (self->list->supplier_name, NULL);

  return g_strdup_printf ("%s\t%s", self->own, supplier);
}

static void
read_book (CroRound   *self,
           Before     *before,
           const char *line)
{
  g_autofree char *own = dup_book (self);
  const char *supplier = strchr (line, '\t'), *own_supplier = strchr (own, '\t');

  before->is_other = supplier == NULL || supplier - line != own_supplier - own
                     || strncmp (line, own, (gsize) (supplier - line)) != 0;
  before->is_others = before->is_other && g_strcmp0 (supplier, own_supplier) != 0;
}

static void
write_of (GString           *to,
          const CroRoundRow *row)
{
  g_autofree char *code = row->list.code != NULL ? g_strescape (row->list.code, NULL) : NULL;
  g_autofree char *name = g_strescape (row->list.name, NULL);

  g_string_append_printf (to, "of %s\t%s\n", code != NULL ? code : "", name);
}

static void
read_of (Before     *before,
         const char *line)
{
  g_auto (GStrv) parts = g_strsplit (line, "\t", 2);

  if (g_strv_length (parts) != 2)
    return;
  g_free (before->code);
  g_free (before->name);
  before->code = cro_round_dup_text (parts[0]);
  before->name = cro_round_dup_text (parts[1]);
}

/* The row of a pack, by its number and by what it was; CRO_NO_SLOT: the supplier has none. One that was renamed since,
 * or has another code, is the same in the same book. */
static guint
find_row (CroRound     *self,
          const Before *before,
          gint64        id)
{
  guint index = before->is_others ? CRO_NO_SLOT : cro_round_find_id (self, id);
  gboolean has_code, has_name;

  if (before->name == NULL)
    return before->is_other ? CRO_NO_SLOT : index;
  for (guint i = 0; !before->is_others && i <= self->rows->len; i++)
    {
      /* That of the number goes first. */
      const CroRoundRow *row = i > 0                  ? self->rows->pdata[i - 1]
                               : index != CRO_NO_SLOT ? self->rows->pdata[index]
                                                      : NULL;

      if (row != NULL && row->id != 0 && g_strcmp0 (row->list.code != NULL ? row->list.code : "", before->code) == 0
          && g_strcmp0 (row->list.name, before->name) == 0)
        return cro_round_find_id (self, row->id);
    }
  if (index == CRO_NO_SLOT || before->is_other)
    return CRO_NO_SLOT;
  has_code = g_strcmp0 (((CroRoundRow *) self->rows->pdata[index])->list.code, before->code) == 0;
  has_name = g_strcmp0 (((CroRoundRow *) self->rows->pdata[index])->list.name, before->name) == 0;
  return has_code || has_name || *before->code == '\0' ? index : CRO_NO_SLOT;
}

/* What an own list said, and what another row is asked beside. */
static void
write_read (GString           *to,
            const CroRoundRow *row)
{
  g_autofree char *read = row->read != NULL ? cro_round_list_to_text (row->read) : NULL;

  if (read != NULL)
    g_string_append_printf (to, "read %s\n", read);
  if (row->list.is_chosen)
    g_string_append (to, "chosen\n");
  for (guint i = 0; !row->list.is_chosen && row->list.reasons != NULL && i < row->list.reasons->len; i++)
    {
      const CroListReason *reason = &g_array_index (row->list.reasons, CroListReason, i);
      g_autofree char *text = g_strescape (reason->text != NULL ? reason->text : "", NULL);

      if (reason->why == CRO_LIST_TWICE)
        g_string_append_printf (to, "asks %s %s\t\n", cro_round_why_to_text (reason->why), text);
    }
}

static void
read_asked (CroRound   *self,
            Before     *before,
            const char *line)
{
  g_autofree char *word = g_strndup (line, strcspn (line, " "));
  g_auto (GStrv) texts = g_strsplit (line + strlen (word), "\t", 2);
  g_autofree char *text = NULL, *other = NULL;
  CroListReason reason;

  if (g_strv_length (texts) != 2)
    return;
  text = cro_round_dup_text (g_strstrip (texts[0]));
  other = cro_round_dup_text (texts[1]);
  if (!cro_round_reason_from_text (self, word, text, other, &reason))
    return;
  if (before->asked == NULL)
    before->asked = g_array_new (FALSE, FALSE, sizeof (CroListReason));
  g_array_append_val (before->asked, reason);
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
      if (!row->is_added)
        write_of (text, row);
      write_read (text, row);
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
  cro_round_write_invoice (self, text);
  has_any = text->len > 0;
  return has_any ? g_string_free (text, FALSE) : g_string_free (text, TRUE);
}

char *
cro_round_to_text (CroRound *self)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_autofree char *book = NULL;
  char date[CRO_DATE_CHARS];

  write_rows (self, FALSE, text);
  cro_round_write_invoice (self, text);
  for (guint i = 0; i < self->preferred->len; i++)
    g_string_append_printf (text, "prefer %" G_GINT64_FORMAT "\n", g_array_index (self->preferred, gint64, i));
  if (text->len == 0)
    return NULL;
  book = dup_book (self);
  g_string_prepend_c (text, '\n');
  g_string_prepend (text, book);
  g_string_prepend (text, "book ");
  if (self->from != cro_here_today ())
    {
      cro_date_format (self->from, date);
      g_string_prepend_c (text, '\n');
      g_string_prepend (text, date);
      g_string_prepend (text, "from ");
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* It is shown as it was typed, with what it is of. */
static void
note_unfit (CroRound     *self,
            const Before *before,
            const char   *typed)
{
  g_autofree char *said = before->name != NULL ? cro_isolate_printf (_("%s: %s"), before->name, typed)
                                               : g_strdup (typed);

  g_string_append_printf (self->unfit, "%s%s", self->unfit->len > 0 ? " · " : "", said);
}

/* As a list says it. */
static gboolean
put_read (CroRound      *self,
          Before        *before,
          CroRoundRow   *was,
          GError       **error)
{
  was->read = g_steal_pointer (&before->read);
  return cro_round_list_again (self, was, TRUE, error);
}

static gboolean
leave_asked (CroRound            *self,
             CroRoundRow         *row,
             const CroRoundRow   *was,
             GError             **error)
{
  const GArray *asked = was->list.reasons;

  for (guint i = 0; !row->is_added && asked != NULL && row->list.has_price && i < asked->len; i++)
    if (g_array_index (asked, CroListReason, i).why != CRO_LIST_TWICE
        && !cro_round_leave_open (self, row, &g_array_index (asked, CroListReason, i), error))
      return FALSE;
  cro_round_ask_twice_again (self, row, was);
  return TRUE;
}

static gboolean
put_typed (CroRound      *self,
           Before        *before,
           CroRoundRow   *was,
           const char    *right,
           const char    *typed,
           GError       **error)
{
  guint index = was->is_added ? CRO_NO_SLOT : cro_round_find_id (self, was->id);
  CroRoundRow *row = index != CRO_NO_SLOT ? self->rows->pdata[index] : NULL;

  if (was->is_added && !cro_round_add_line (self, typed, strcmp (right, "asked") == 0, &index, error))
    return FALSE;
  if (index == CRO_NO_SLOT)
    return TRUE;
  if (row != NULL
      && !cro_round_type_beside (self, index, typed, before->base != CRO_NOT_SET ? before->base : row->last, error))
    return FALSE;
  row = self->rows->pdata[index];
  row->is_filled = strcmp (right, "filled") == 0;
  row->posted = was->posted;
  row->back = was->back;
  return cro_round_right_again (self, row, was, error) && leave_asked (self, row, was, error);
}

static gboolean
put_row (CroRound     *self,
         Before       *before,
         const char   *kind,
         const char   *line,
         GError      **error)
{
  gboolean is_new = strcmp (kind, "new") == 0, done;
  g_autofree char *number = is_new ? NULL : cro_round_take_word (&line), *right = cro_round_take_word (&line);
  g_autofree char *typed = cro_round_dup_text (line);
  guint index = is_new ? CRO_NO_SLOT : find_row (self, before, g_ascii_strtoll (number, NULL, 10));
  CroRoundRow *was;

  if (is_new ? before->is_others : index == CRO_NO_SLOT)
    {
      note_unfit (self, before, typed);
      return TRUE;
    }
  /* What stands in it was said since. */
  if (!is_new && *((CroRoundRow *) self->rows->pdata[index])->text != '\0')
    return TRUE;
  was = cro_round_row_new ();
  was->is_added = is_new;
  was->id = is_new ? 0 : ((CroRoundRow *) self->rows->pdata[index])->id;
  was->posted = before->posted;
  was->back = before->back;
  was->base = before->base;
  was->list.reasons = g_steal_pointer (&before->asked);
  was->list.is_right = strcmp (right, "right") == 0 && !before->is_other;
  was->list.is_chosen = before->is_chosen && !before->is_other;
  done = before->read != NULL ? put_read (self, before, was, error)
                              : put_typed (self, before, was, right, typed, error);
  cro_round_row_free (was);
  return done;
}

static void
put_preferred (CroRound   *self,
               const char *line)
{
  guint32 slot = cro_slots_get (&self->of.model->offer_slots, g_ascii_strtoll (line, NULL, 10));

  if (slot != CRO_NO_SLOT && !cro_model_offer (self->of.model, slot)->is_dead)
    cro_round_prefer (self, slot);
}

static void
read_posted (Before     *before,
             const char *line)
{
  g_autofree char *act = cro_round_take_word (&line);

  before->posted = before->is_other ? 0 : g_ascii_strtoll (act, NULL, 10);
  before->back = before->is_other ? 0 : g_ascii_strtoll (line, NULL, 10);
}

/* FALSE: it is of a row. */
static gboolean
put_what_is_before (CroRound   *self,
                    Before     *before,
                    const char *kind,
                    const char *line)
{
  if (strcmp (kind, "book") == 0)
    read_book (self, before, line);
  else if (strcmp (kind, "posted") == 0)
    read_posted (before, line);
  else if (strcmp (kind, "of") == 0)
    read_of (before, line);
  else if (strcmp (kind, "last") == 0)
    before->base = g_ascii_strtoll (line + strcspn (line, " "), NULL, 10);
  else if (strcmp (kind, "chosen") == 0)
    before->is_chosen = TRUE;
  else if (strcmp (kind, "asks") == 0)
    read_asked (self, before, line);
  else if (strcmp (kind, "read") == 0)
    {
      g_clear_pointer (&before->read, cro_list_row_free);
      before->read = cro_round_list_from_text (self, line);
    }
  else
    return FALSE;
  return TRUE;
}

static gboolean
is_put_again (CroRound     *self,
              const Before *before)
{
  const CroRoundRow row = { .posted = before->posted, .back = before->back };

  return cro_round_row_is_posted_again (self, &row);
}

static gboolean
put_lines (CroRound    *self,
           const char  *text,
           GError     **error)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", 0);
  g_autoptr (GPtrArray) answers = g_ptr_array_new_with_free_func ((GDestroyNotify) cro_round_row_free);
  Before before = { .base = CRO_NOT_SET };
  GError *gone = NULL;
  gboolean done = TRUE;

  g_string_truncate (self->unfit, 0);
  cro_round_begin_many (self);
  for (guint i = 0; done && lines[i] != NULL; i++)
    {
      const char *line = lines[i];
      g_autofree char *kind = cro_round_take_word (&line);

      if (put_what_is_before (self, &before, kind, line))
        continue;
      if (strcmp (kind, "prefer") == 0 && !before.is_other)
        put_preferred (self, line);
      else if (strcmp (kind, "whole") == 0 && self->invoice == NULL)
        self->whole = cro_round_read_whole (line);
      else if (strcmp (kind, "seller") == 0 && self->invoice == NULL)
        self->is_seller_right = TRUE;
      else if (strcmp (kind, "invoice") == 0 && before.is_others)
        note_unfit (self, &before, line);
      else if (strcmp (kind, "invoice") == 0 && gone == NULL)
        {
          /* It is read beside settled figures, and its lines have twins too. */
          cro_round_end_many (self);
          cro_round_take_kept (self, line, &gone);
          cro_round_begin_many (self);
        }
      else if (strcmp (kind, "line") == 0)
        cro_round_read_answer (answers, line);
      else if (strcmp (kind, "row") == 0 || strcmp (kind, "new") == 0)
        {
          done = is_put_again (self, &before) || put_row (self, &before, kind, line, error);
          forget_row (&before);
        }
    }
  forget_row (&before);
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

const char *
cro_round_get_unfit (CroRound *self)
{
  return self->unfit->str;
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
