#include "cro-halves.h"

#include "cro-history.h"
#include "cro-processors.h"
#include "cro-store-private.h"

/* No row of a table takes less of the file. */
#define LEAST_BYTES_OF_A_ROW 16

/* which: min or max. */
static gint64
find_id (CroStore   *store,
         const char *which,
         const char *table)
{
  g_autofree char *sql = g_strdup_printf ("SELECT %s (id) FROM \"%s\"", which, table);
  gint64           id = 0;

  return cro_store_number (store, sql, &id, NULL) ? id : 0;
}

static gint64
bytes_of (CroStore *store)
{
  gint64 n_pages = 0, page = 0;

  if (!cro_store_number (store, "PRAGMA page_count", &n_pages, NULL)
      || !cro_store_number (store, "PRAGMA page_size", &page, NULL))
    return 0;
  return n_pages * page;
}

static gint64
schema_version_of (CroStore *store)
{
  gint64 version = -1;

  cro_store_number (store, "PRAGMA schema_version", &version, NULL);
  return version;
}

/* All that is ever written is in the journal: where its end is the same, all else is. The tables are
 * those that the first connection checked. */
static gpointer
open_upper (gpointer data)
{
  CroHalves           *self = data;
  g_autoptr (CroStore) other = cro_store_open_twin (self->lower, NULL);

  /* It reads each page once. */
  if (other != NULL && cro_store_run (other, "PRAGMA cache_size = -1024", NULL)
      && cro_store_begin_read (other, NULL)
      && cro_store_last_change (other) == self->last_change
      && schema_version_of (other) == self->schema_version)
    self->upper = g_steal_pointer (&other);
  return NULL;
}

CroHalves *
cro_halves_new (CroStore   *store,
                const char *table,
                gint64      least)
{
  CroHalves *self;
  gint64     first, last;

  g_return_val_if_fail (store != NULL && table != NULL && least > 0, NULL);

  if (store->reading == 0 || store->act != 0 || store->is_in_memory || cro_processors () < 2
      || !sqlite3_threadsafe ())
    return NULL;
  first = find_id (store, "min", table);
  last = find_id (store, "max", table);
  if (first < 1 || last - first < least || last > bytes_of (store) / LEAST_BYTES_OF_A_ROW)
    return NULL;
  self = g_new (CroHalves, 1);
  *self = (CroHalves){ .first = first, .middle = first + (last - first) / 2, .last = last, .lower = store,
                       .last_change = cro_store_last_change (store),
                       .schema_version = schema_version_of (store) };
  self->opening = g_thread_try_new ("upper half", open_upper, self, NULL);
  return self;
}

static void
finish_opening (CroHalves *self)
{
  if (self->opening != NULL)
    g_thread_join (g_steal_pointer (&self->opening));
}

void
cro_halves_free (CroHalves *self)
{
  if (self == NULL)
    return;
  finish_opening (self);
  cro_store_close (self->upper);
  g_free (self);
}

typedef struct
{
  CroStore          *store;
  const char        *table;
  const char *const *columns;
  gint64             from, to;
  CroStoreRow        row;
  gpointer           user_data;
  gboolean           is_done;
  GError            *error;
} Half;

static gpointer
read_half (gpointer data)
{
  Half *self = data;

  self->is_done = cro_store_read_each_of (self->store, self->table, self->columns, self->from,
                                          self->to, self->row, self->user_data, &self->error);
  return NULL;
}

gboolean
cro_halves_read (CroHalves          *self,
                 const char         *table,
                 const char *const  *columns,
                 CroStoreRow         row,
                 gpointer            lower,
                 gpointer            upper,
                 GError            **error)
{
  Half     low = { self->lower, table, columns, 1, self->middle, row, lower, FALSE, NULL };
  Half     high = { self->lower, table, columns, self->middle + 1, G_MAXINT64, row, upper, FALSE,
                    NULL };
  GThread *thread = NULL;

  finish_opening (self);
  if (self->upper != NULL)
    {
      high.store = self->upper;
      thread = g_thread_try_new ("upper half", read_half, &high, NULL);
    }
  self->lower->run_apace = thread != NULL ? 2 : 1;
  read_half (&low);
  self->lower->run_apace = 1;
  /* What was given up below is not waited for above. */
  if (thread != NULL && !low.is_done)
    sqlite3_interrupt (self->upper->db);
  if (thread != NULL)
    g_thread_join (thread);
  else if (low.is_done)
    read_half (&high);
  if (low.is_done && high.is_done)
    return TRUE;
  if (!low.is_done)
    g_clear_error (&high.error);
  g_propagate_error (error, !low.is_done ? low.error : high.error);
  return FALSE;
}
