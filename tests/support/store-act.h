/* store-act.h: a store at work, for the tests of its journal. */
#pragma once

#include "cro-history.h"
#include "store-book.h"

typedef struct
{
  CroTestFolder folder;
  CroStore     *store; /* of the desk "cook" */
} Fixture;

static inline int
set_up_empty (void **state)
{
  Fixture *fixture = g_new0 (Fixture, 1);

  fixture->folder = cro_test_folder_new ();
  fixture->store = cro_test_create (fixture->folder.path);
  *state = fixture;
  return 0;
}

static inline int
set_up (void **state)
{
  set_up_empty (state);
  cro_test_add_rows (((Fixture *) *state)->folder.path);
  return 0;
}

static inline int
tear_down (void **state)
{
  Fixture *fixture = *state;

  cro_store_close (fixture->store);
  cro_test_folder_clear (&fixture->folder);
  g_free (fixture);
  return 0;
}

static inline void
begin (CroStore   *store,
       const char *label)
{
  GError *error = NULL;

  cro_test_must (cro_store_begin_act (store, label, &error), error);
}

static inline gint64
end (CroStore *store)
{
  GError *error = NULL;
  gint64  act = -1;

  cro_test_must (cro_store_end_act (store, &act, &error), error);
  return act;
}

static inline void
set_cell (CroStore   *store,
          const char *table,
          gint64      id,
          const char *column,
          CroCell     cell)
{
  const char *const columns[] = { column, NULL };
  GError           *error = NULL;

  cro_test_must (cro_store_update (store, table, id, columns, &cell, &error), error);
}

/* An act of one update. */
static inline gint64
act_of_cell (CroStore   *store,
             const char *table,
             gint64      id,
             const char *column,
             CroCell     cell)
{
  begin (store, column);
  set_cell (store, table, id, column, cell);
  return end (store);
}

static inline gint64
insert (CroStore          *store,
        const char        *table,
        const char *const *columns,
        const CroCell     *cells)
{
  GError    *error = NULL;
  CroWriter *writer = cro_writer_new (store, table, columns, &error);
  gint64     id = 0;

  cro_test_must (writer != NULL, error);
  cro_test_must (cro_writer_insert (writer, cells, &id, &error), error);
  cro_writer_free (writer);
  return id;
}

static inline gint64
insert_item (CroStore   *store,
             const char *name)
{
  static const char *const columns[] = { "name", NULL };
  CroCell                  cell = CRO_CELL_STR (name);

  return insert (store, "item", columns, &cell);
}

static inline void
delete (CroStore   *store,
        const char *table,
        gint64      id)
{
  GError *error = NULL;

  cro_test_must (cro_store_delete (store, table, id, &error), error);
}

static inline void
undo (CroStore *store)
{
  GError *error = NULL;

  cro_test_must (cro_store_undo (store, NULL, NULL, &error), error);
}

static inline void
redo (CroStore *store)
{
  GError *error = NULL;

  cro_test_must (cro_store_redo (store, NULL, NULL, &error), error);
}

typedef gboolean (*Replay) (CroStore *, gint64 *, CroConflict *, GError **);

/* The replay is refused with the code, and the book and its history stay as they were. */
static inline void
assert_refused (Fixture           *fixture,
                Replay             replay,
                CroStoreErrorCode  code)
{
  GError *error = NULL;
  char   *before = cro_test_dump (fixture->folder.path);
  gint64  last = cro_store_last_change (fixture->store);
  char   *after;

  assert_false (replay (fixture->store, NULL, NULL, &error));
  if (!g_error_matches (error, CRO_STORE_ERROR, code))
    fail_msg ("code %d instead of %d: %s", error->code, code, error->message);
  g_clear_error (&error);
  after = cro_test_dump (fixture->folder.path);
  assert_string_equal (after, before);
  assert_int_equal (cro_store_last_change (fixture->store), last);
  g_free (before);
  g_free (after);
}

static inline void
assert_conflict (CroStore   *store,
                 gint64      act,
                 const char *table,
                 gint64      row)
{
  GError     *error = NULL;
  CroConflict conflict = { 0 };

  assert_false (cro_store_undo (store, NULL, &conflict, &error));
  if (!g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_CHANGED))
    fail_msg ("%s", error->message);
  assert_string_equal (conflict.table, table);
  assert_int_equal (conflict.row, row);
  assert_int_equal (conflict.act, act);
  g_clear_error (&error);
  cro_conflict_clear (&conflict);
}

static inline char *
text_of (CroStore   *store,
         const char *table,
         gint64      id,
         const char *column)
{
  const char *const columns[] = { column, NULL };
  GError           *error = NULL;
  CroRows          *rows = cro_store_read_one (store, table, id, columns, &error);
  char             *text;

  cro_test_must (rows != NULL, error);
  assert_true (cro_rows_next (rows, &error));
  text = g_strdup (cro_rows_get_text (rows, 0));
  cro_rows_free (rows);
  return text;
}

static inline void
assert_text (CroStore   *store,
             const char *table,
             gint64      id,
             const char *column,
             const char *expected)
{
  char *text = text_of (store, table, id, column);

  assert_string_equal (text, expected);
  g_free (text);
}
