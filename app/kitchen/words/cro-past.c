#include "config.h"

#include "cro-past.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-edit.h"
#include "cro-here.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-past-words.h"
#include "cro-words.h"

/* Changes of one act that are looked at for whose they are: a replaced book has thousands. */
#define MOST_LOOKED_AT 400

void
cro_past_free (CroPast *past)
{
  if (past == NULL)
    return;
  g_free (past->label);
  g_free (past->desk);
  g_free (past->at);
  g_free (past);
}

void
cro_past_move_free (CroPastMove *move)
{
  if (move == NULL)
    return;
  g_free (move->of);
  g_free (move->what);
  g_free (move->from);
  g_free (move->to);
  g_free (move);
}

/* --- Acts ---------------------------------------------------------------------------------------- */

char *
cro_past_dup_time (const char *at)
{
  g_autoptr (GTimeZone) utc = g_time_zone_new_utc ();
  g_autoptr (GDateTime) moment = g_date_time_new_from_iso8601 (at != NULL ? at : "", utc);
  g_autoptr (GDateTime) here = moment != NULL ? g_date_time_to_local (moment) : NULL;
  g_autofree char *day = NULL, *hour = NULL;

  if (here == NULL)
    return g_strdup (at);
  day = cro_date_to_text (cro_date_from_civil (g_date_time_get_year (here),
                                               g_date_time_get_month (here),
                                               g_date_time_get_day_of_month (here)));
  hour = g_date_time_format (here, "%H:%M");
  return g_strdup_printf ("%s, %s", day, hour);
}

char *
cro_past_dup_label (const CroAct *act)
{
  switch (act->verb)
    {
    case CRO_ACT_UNDO:
      /* Translators: %s is an entry of the history that was undone, as "amount of butter". */
      return g_strdup_printf (_("undone: %s"), act->label);
    case CRO_ACT_REDO:
      return g_strdup_printf (_("redone: %s"), act->label);
    default:
      return g_strdup (act->label);
    }
}

static CroPast *
past_of (const CroAct *act)
{
  CroPast *past = g_new0 (CroPast, 1);

  past->act = act->id;
  past->label = cro_past_dup_label (act);
  past->desk = cro_here_desk_to_text (act->desk);
  past->at = cro_past_dup_time (act->at);
  return past;
}

static gboolean
is_of_thing (CroBook *book,
             gint64   act,
             CroRef   thing)
{
  const char *table = NULL;
  gint64 id = cro_edit_row (cro_book_get_model (book), thing, &table);
  g_autoptr (GPtrArray) changes = cro_store_list_changes_of_act (cro_book_get_store (book), act, NULL);

  for (guint i = 0; changes != NULL && i < MIN (changes->len, MOST_LOOKED_AT); i++)
    {
      const CroChange *change = changes->pdata[i];

      if (cro_past_is_own (cro_book_get_store (book), change->table, change->row, table, id))
        return TRUE;
    }
  return FALSE;
}

GPtrArray *
cro_past_list (CroBook  *book,
               CroRef    thing,
               gint64    before,
               guint     limit,
               gint64   *last,
               GError  **error)
{
  g_autoptr (GPtrArray) acts = cro_store_list_acts (cro_book_get_store (book), before, limit, error);
  g_autoptr (GPtrArray) pasts = NULL;

  if (acts == NULL)
    return NULL;
  pasts = g_ptr_array_new_with_free_func ((GDestroyNotify) cro_past_free);
  for (guint i = 0; i < acts->len; i++)
    {
      const CroAct *act = acts->pdata[i];

      if (thing.kind == CRO_REF_NONE || is_of_thing (book, act->id, thing))
        g_ptr_array_add (pasts, past_of (act));
    }
  if (last != NULL)
    *last = acts->len < limit ? 0 : ((CroAct *) acts->pdata[acts->len - 1])->id;
  return g_steal_pointer (&pasts);
}

/* --- What an act moved ------------------------------------------------------------------------------ */

/* A row that came or went: all that was set in it, but what it belongs to, which names it. */
static char *
all_values (CroBook    *book,
            const char *table,
            GPtrArray  *moved,
            gboolean    is_new)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < moved->len; i++)
    {
      const CroMoved *at = moved->pdata[i];
      const char *value = is_new ? at->after : at->before;
      g_autofree char *words = NULL, *pair = NULL;

      if (value == NULL || !cro_past_is_value (table, at->column))
        continue;
      words = cro_past_value (book, table, at->column, value);
      pair = cro_isolate_printf ("%s %s", cro_past_column (table, at->column), words);
      g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", pair);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
add_row (CroBook         *book,
         const CroChange *change,
         GPtrArray       *moved,
         GPtrArray       *moves)
{
  CroPastMove *move = g_new0 (CroPastMove, 1);
  g_autofree char *values = all_values (book, change->table, moved, change->before == NULL);

  move->of = cro_past_subject (book, change->table, change->row);
  move->from = change->before == NULL ? g_strdup ("–") : g_strdup (values);
  /* Translators: of a row of the history: it was not there before, or is not there any more. */
  move->to = change->before != NULL ? g_strdup (_("removed"))
             : *values != '\0'      ? g_strdup (values)
                                    : g_strdup (_("new"));
  g_ptr_array_add (moves, move);
}

static void
add_columns (CroBook         *book,
             const CroChange *change,
             GPtrArray       *moved,
             GPtrArray       *moves)
{
  for (guint i = 0; i < moved->len; i++)
    {
      const CroMoved *at = moved->pdata[i];
      CroPastMove *move = g_new0 (CroPastMove, 1);

      move->of = cro_past_subject (book, change->table, change->row);
      move->what = g_strdup (cro_past_column (change->table, at->column));
      move->from = cro_past_value (book, change->table, at->column, at->before);
      move->to = cro_past_value (book, change->table, at->column, at->after);
      g_ptr_array_add (moves, move);
    }
}

GPtrArray *
cro_past_list_moves (CroBook  *book,
                     gint64    act,
                     guint     most,
                     GError  **error)
{
  CroStore *store = cro_book_get_store (book);
  g_autoptr (GPtrArray) changes = cro_store_list_changes_of_act (store, act, error);
  g_autoptr (GPtrArray) moves = NULL;

  if (changes == NULL)
    return NULL;
  moves = g_ptr_array_new_with_free_func ((GDestroyNotify) cro_past_move_free);
  for (guint i = 0; i < changes->len && moves->len < most; i++)
    {
      const CroChange *change = changes->pdata[i];
      g_autoptr (GPtrArray) moved = cro_store_list_moved (store, change->id, error);

      if (moved == NULL)
        return NULL;
      if (change->before != NULL && change->after != NULL)
        add_columns (book, change, moved, moves);
      else if (moved->len > 0)
        add_row (book, change, moved, moves);
    }
  return g_steal_pointer (&moves);
}

/* --- Going back ------------------------------------------------------------------------------------- */

gboolean
cro_past_go_back (CroBook      *book,
                  gint64        act,
                  guint        *n,
                  CroConflict  *conflict,
                  GError      **error)
{
  *n = 0;
  for (;;)
    {
      g_autoptr (GError) failure = NULL;
      g_autoptr (CroAct) next = cro_store_peek_undo (cro_book_get_store (book), &failure);

      if (failure != NULL)
        {
          g_propagate_error (error, g_steal_pointer (&failure));
          return FALSE;
        }
      if (next == NULL || next->id <= act)
        return TRUE;
      if (!cro_book_undo (book, conflict, error))
        return FALSE;
      (*n)++;
    }
}

char *
cro_past_dup_refused (CroBook           *book,
                      const CroConflict *conflict,
                      const GError      *error)
{
  g_autoptr (CroAct) act = g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_CHANGED) && conflict->act != 0
                               ? cro_store_find_act (cro_book_get_store (book), conflict->act, NULL) : NULL;
  g_autofree char *what = NULL, *label = NULL, *desk = NULL, *at = NULL;

  if (act == NULL || conflict->table == NULL)
    return cro_words_error (error);
  what = cro_past_subject (book, conflict->table, conflict->row);
  label = cro_past_dup_label (act);
  desk = cro_here_desk_to_text (act->desk);
  at = cro_past_dup_time (act->at);
  /* Translators: why something is not undone, within a sentence: a row of the book, as "price of Quay Shellfish’s
   * Brown crab"; the entry of the history that changed it, who did that, and when. */
  return cro_isolate_printf (_("%s was changed since (“%s”, %s, %s)"), what, label, desk, at);
}
