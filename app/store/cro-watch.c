#include "cro-watch.h"

#include <string.h>

#include "cro-store-private.h"

/* Instructions of SQLite's machine: a fraction of a millisecond. */
#define BETWEEN_QUESTIONS 10000

/* What a row takes beside each of its columns. */
#define INSTRUCTIONS_OF_ROW 4

static int
ask_cb (gpointer data)
{
  CroStore *self = data;
  double    done;

  self->run += BETWEEN_QUESTIONS * MAX (1, self->run_apace);
  done = (double) self->run / (double) self->run_expected;
  return !self->watch->go_on (self->watch->user_data, MIN (done, 1));
}

/* Ids rise by one from row to row, but for what was removed: to count rows would be to read them. */
static gint64
expect (CroStore   *self,
        const char *table)
{
  g_autofree char *rows = g_strdup_printf ("SELECT ifnull (max (id), 0) FROM \"%s\"", table);
  g_auto(GStrv)    columns = cro_journal_columns (self->db, table, NULL);
  gint64           n = 0;

  if (columns == NULL || !cro_store_number (self, rows, &n, NULL))
    return 0;
  return CLAMP (n, 0, G_MAXINT32) * ((gint64) g_strv_length (columns) + INSTRUCTIONS_OF_ROW);
}

void
cro_store_watch (CroStore           *self,
                 const char *const  *tables,
                 const CroWatch     *watch)
{
  g_return_if_fail (self != NULL);

  sqlite3_progress_handler (self->db, 0, NULL, NULL);
  self->watch = watch;
  if (watch == NULL)
    return;
  self->run = 0;
  self->run_expected = 1;
  for (const char *const *table = tables; strcmp (*table, "*") != 0; table++)
    self->run_expected += expect (self, *table);
  sqlite3_progress_handler (self->db, BETWEEN_QUESTIONS, ask_cb, self);
}
