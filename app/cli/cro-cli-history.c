#include "config.h"

#include "cro-cli.h"

#include <glib/gi18n.h>
#include <stdio.h>

#include "cro-changes.h"
#include "cro-cli-grid.h"
#include "cro-history.h"
#include "cro-isolate.h"
#include "cro-json.h"
#include "cro-past.h"
#include "cro-undone-prices.h"

/* --- JSON ---------------------------------------------------------------------------------------- */

static void
add_number (CroJson    *json,
            const char *name,
            gint64      number)
{
  cro_json_number (json, name, (double) number, number != 0);
}

static void
add_change (CroJson              *json,
            const CroTableChange *change)
{
  cro_json_begin_object (json, NULL);
  cro_json_text (json, "table", change->table);
  cro_json_text (json, "key", change->key);
  cro_json_text (json, "column", change->column);
  cro_json_text (json, "from", change->from);
  cro_json_text (json, "to", change->to);
  cro_json_end_object (json);
}

static void
add_act (CroJson      *json,
         const CroAct *act,
         GPtrArray    *changes)
{
  static const char *const verbs[] = {
    [CRO_ACT_DO] = "do", [CRO_ACT_UNDO] = "undo", [CRO_ACT_REDO] = "redo"
  };

  cro_json_begin_object (json, NULL);
  add_number (json, "act", act->id);
  cro_json_text (json, "at", act->at);
  cro_json_text (json, "by", act->desk);
  cro_json_text (json, "label", act->label);
  cro_json_text (json, "verb", verbs[act->verb]);
  add_number (json, "of", act->of);
  add_number (json, "undone_by", act->undone_by);
  cro_json_begin_array (json, "changes");
  for (guint i = 0; i < changes->len; i++)
    add_change (json, changes->pdata[i]);
  cro_json_end_array (json);
  cro_json_end_object (json);
}

/* An act at a time, so that memory does not grow with the history. */
static gboolean
print_act_json (CroStore     *store,
                const CroAct *act,
                CroJson      *json,
                GError      **error)
{
  g_autoptr (GPtrArray) changes = cro_changes_of_act (store, act->id, error);
  const char *text;
  gsize length;

  if (changes == NULL)
    return FALSE;
  add_act (json, act, changes);
  text = cro_json_take (json, &length);
  fwrite (text, 1, length, stdout);
  return TRUE;
}

/* --- Text ---------------------------------------------------------------------------------------- */

/* A row that is new or gone is told whole, in one paragraph. */
static guint
print_whole_row (GPtrArray *changes,
                 guint      first)
{
  const CroTableChange *row = changes->pdata[first];
  gboolean is_new = row->kind == CRO_CHANGE_ADDED;
  g_autoptr (GString) text = g_string_new (NULL);
  /* Translators: a table, and the key of a row in it. */
  g_autofree char *head = cro_isolate_printf (is_new ? _("new in %s: %s") : _("removed from %s: %s"),
                                              row->table, row->key);
  guint i;

  g_string_append (text, head);
  for (i = first; i < changes->len; i++)
    {
      const CroTableChange *change = changes->pdata[i];
      g_autofree char *value = NULL;

      if (change->row != row->row || change->table != row->table)
        break;
      value = cro_isolate (is_new ? change->to : change->from);
      g_string_append_printf (text, "%s%s %s", i == first ? " (" : ", ", change->column, value);
    }
  g_string_append_c (text, ')');
  cro_cli_print_wrapped (text->str, 2);
  return i;
}

static gboolean
is_frozen (const CroTableChange *change)
{
  return g_str_equal (change->table, "month_rows");
}

/* The reason of a reopening first, what else moved, and of what closing froze how many rows: no person
 * reads a thousand of them. */
static int
rank_of (const CroTableChange *change)
{
  return change->kind != CRO_CHANGE_MOVED || !g_str_equal (change->table, "months")
         || g_strcmp0 (change->column, "reason") != 0;
}

static int
compare_ranks (gconstpointer a,
               gconstpointer b)
{
  return rank_of (*(CroTableChange *const *) a) - rank_of (*(CroTableChange *const *) b);
}

/* Puts what is told one by one into others; how many rows are not. */
static guint
leave_frozen (GPtrArray *changes,
              GPtrArray *others)
{
  g_autoptr (GHashTable) rows = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);

  for (guint i = 0; i < changes->len; i++)
    {
      CroTableChange *change = changes->pdata[i];

      if (!is_frozen (change))
        g_ptr_array_add (others, change);
      else
        g_hash_table_add (rows, g_memdup2 (&change->row, sizeof change->row));
    }
  return g_hash_table_size (rows);
}

void
cro_cli_print_changes (GPtrArray *changes)
{
  g_autoptr (GPtrArray) told = g_ptr_array_new ();
  guint n_frozen = leave_frozen (changes, told);

  g_ptr_array_sort (told, compare_ranks);
  for (guint i = 0; i < told->len;)
    {
      const CroTableChange *change = told->pdata[i];
      g_autofree char *line = NULL;

      if (change->kind != CRO_CHANGE_MOVED)
        {
          i = print_whole_row (told, i);
          continue;
        }
      line = cro_isolate_printf ("%s: %s: %s %s → %s", change->table, change->key, change->column,
                                 change->from != NULL ? change->from : "–",
                                 change->to != NULL ? change->to : "–");
      cro_cli_print_wrapped (line, 2);
      i++;
    }
  if (n_frozen > 0)
    {
      g_autofree char *line = g_strdup_printf (ngettext ("month_rows: %u row of what closing froze",
                                                         "month_rows: %u rows of what closing froze",
                                                         n_frozen),
                                               n_frozen);

      cro_cli_print_wrapped (line, 2);
    }
}

static gboolean
print_act_text (CroStore     *store,
                const CroAct *act,
                GError      **error)
{
  g_autoptr (GPtrArray) changes = cro_changes_of_act (store, act->id, error);
  g_autofree char *label = cro_past_dup_label (act);
  g_autofree char *at = cro_past_dup_time (act->at);
  g_autofree char *id = g_strdup_printf ("%" G_GINT64_FORMAT, act->id);
  g_autofree char *desk = cro_here_desk_to_text (act->desk);
  g_autofree char *head = NULL;

  if (changes == NULL)
    return FALSE;
  /* Translators: the number of an entry of the history, when, who, and what was done. */
  head = cro_isolate_printf (_("%s  %s, %s: %s"), id, at, desk, label);
  cro_cli_print_wrapped (head, 0);
  if (act->undone_by != 0)
    {
      /* Translators: %s is the number of an entry of the history. */
      g_autofree char *number = g_strdup_printf ("%" G_GINT64_FORMAT, act->undone_by);
      g_autofree char *undone = g_strdup_printf (_("undone by %s"), number);

      cro_cli_print_wrapped (undone, 2);
    }
  cro_cli_print_changes (changes);
  return TRUE;
}

/* --- The command ---------------------------------------------------------------------------------- */

#define ACTS_AT_ONCE 256

/* Newest first, most of them at most. json NULL: for people. */
static gboolean
print_acts (CroStore  *store,
            guint      most,
            CroJson   *json,
            GError   **error)
{
  gint64 before = 0;
  guint n = 0, asked, got;

  do
    {
      g_autoptr (GPtrArray) acts = NULL;

      asked = MIN (most - n, ACTS_AT_ONCE);
      acts = cro_store_list_acts (store, before, asked, error);
      if (acts == NULL)
        return FALSE;
      got = acts->len;
      for (guint i = 0; i < got; i++, n++)
        {
          const CroAct *act = acts->pdata[i];

          if (!(json != NULL ? print_act_json (store, act, json, error)
                             : print_act_text (store, act, error)))
            return FALSE;
          before = act->id;
        }
    }
  while (got == asked && n < most);
  return TRUE;
}

static gboolean
print_history (CroStore  *store,
               guint      most,
               gboolean   is_json,
               GError   **error)
{
  g_autoptr (CroJson) json = cro_json_new ();
  const char *text;
  gsize length;

  if (!is_json)
    return print_acts (store, most, NULL, error);
  cro_json_begin_array (json, NULL);
  if (!print_acts (store, most, json, error))
    return FALSE;
  cro_json_end_array (json);
  text = cro_json_take (json, &length);
  fwrite (text, 1, length, stdout);
  putchar ('\n');
  return TRUE;
}

CroCliStatus
cro_cli_history (int    argc,
                 char **argv)
{
  int last = G_MAXINT;
  gboolean json = FALSE, done;
  GOptionEntry entries[] = {
    { "last", 0, 0, G_OPTION_ARG_INT, &last, N_("Only the newest N acts"), N_("N") },
    { "json", 0, 0, G_OPTION_ARG_NONE, &json, N_("Print it as JSON"), NULL },
    { NULL },
  };
  CroCliStatus status;
  g_autoptr (CroStore) store = NULL;
  g_autoptr (GError) error = NULL;

  if (!cro_cli_parse ("history", "BOOK", _("Print what was changed, by whom and when."), entries, &argc,
                      &argv, &status))
    return status;
  if (last < 1)
    {
      g_printerr (_("--last must be 1 or more\n"));
      return CRO_CLI_REFUSED;
    }
  store = cro_store_open (argv[1], NULL, CRO_STORE_READ, &error);
  if (store == NULL || !cro_store_begin_read (store, &error))
    return cro_cli_fail (argv[1], error);
  done = print_history (store, (guint) last, json, &error);
  cro_store_end_read (store);
  return done ? CRO_CLI_DONE : cro_cli_fail (argv[1], error);
}

/* --- Undo ------------------------------------------------------------------------------------------- */

static gboolean
read_act (const char *text,
          gint64     *act)
{
  if (g_ascii_string_to_signed (text, 10, 1, G_MAXINT64, act, NULL))
    return TRUE;
  g_printerr (_("“%s” is not the number of an act; “croustade-cli history” shows them\n"), text);
  return FALSE;
}

/* Names what stands in the way, by number and words. */
static CroCliStatus
refuse_undo (CroStore          *store,
             const char        *path,
             gint64             act,
             const CroConflict *conflict,
             const GError      *error)
{
  g_autoptr (CroAct) later = NULL;
  g_autofree char *label = NULL, *number = NULL;

  if (act != 0 && g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_NOTHING))
    {
      number = g_strdup_printf ("%" G_GINT64_FORMAT, act);
      g_printerr (_("%s: there is no act %s, or it is undone already\n"), path, number);
      return CRO_CLI_REFUSED;
    }
  if (!g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_CHANGED) || conflict->act == 0)
    return cro_cli_fail (path, error);
  later = cro_store_find_act (store, conflict->act, NULL);
  label = later != NULL ? cro_past_dup_label (later) : g_strdup ("?");
  number = g_strdup_printf ("%" G_GINT64_FORMAT, conflict->act);
  /* Translators: the file of a book; the number and the words of an entry of the history. */
  g_printerr (_("%s: act %s, “%s”, has changed this since; undo that first\n"), path, number,
              label);
  return CRO_CLI_REFUSED;
}

/* What it was, and what it leaves of prices. */
static gboolean
print_undone (CroBook       *book,
              const CroAct  *act,
              GError       **error)
{
  g_autofree char *prices = NULL;

  if (!print_act_text (cro_book_get_store (book), act, error))
    return FALSE;
  prices = cro_words_undone_prices (book, act->of, error);
  if (prices != NULL)
    g_printerr ("%s", prices);
  return prices != NULL;
}

static CroCliStatus
undo (CroBook     *book,
      const char  *path,
      gint64       act)
{
  CroStore *store = cro_book_get_store (book);
  CroConflict conflict = { 0 };
  g_autoptr (GError) error = NULL;
  CroCliStatus status = CRO_CLI_DONE;

  if (act != 0 ? cro_book_undo_act (book, act, &conflict, &error)
               : cro_book_undo (book, &conflict, &error))
    {
      g_autoptr (GPtrArray) acts = cro_store_list_acts (store, 0, 1, &error);

      cro_cli_note_change ();
      if (acts != NULL && acts->len == 0)
        g_set_error_literal (&error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED,
                             "the undo is not in the journal");
      if (acts == NULL || acts->len == 0 || !print_undone (book, acts->pdata[0], &error))
        status = cro_cli_fail (path, error);
    }
  else
    status = refuse_undo (store, path, act, &conflict, error);
  cro_conflict_clear (&conflict);
  return status;
}

CroCliStatus
cro_cli_undo (int    argc,
              char **argv)
{
  CroCliStatus status;
  gint64 act = 0;
  g_autofree char *desk = NULL;
  g_autoptr (CroBook) book = NULL;
  g_autoptr (GError) error = NULL;

  if (!cro_cli_parse ("undo", "BOOK [ACT]",
                      _("Undo the last act of this desk, or the one with that number."), NULL,
                      &argc, &argv, &status))
    return status;
  if (argc > 2 && !read_act (argv[2], &act))
    return CRO_CLI_REFUSED;
  desk = cro_here_dup_desk ();
  book = cro_book_open (argv[1], desk, CRO_STORE_WRITE, cro_here_today (), &error);
  return book != NULL ? undo (book, argv[1], act) : cro_cli_fail (argv[1], error);
}
