/* store-folder.h: a folder with a book of a few rows, and what cases do with it. */
#pragma once

#include "cro-store.h"
#include "store-book.h"

static inline int
set_up (void **state)
{
  CroTestFolder *folder = g_new (CroTestFolder, 1);

  *folder = cro_test_folder_new ();
  cro_store_close (cro_test_create (folder->path));
  cro_test_add_rows (folder->path);
  *state = folder;
  return 0;
}

static inline int
tear_down (void **state)
{
  g_chmod (((CroTestFolder *) *state)->folder, 0755);
  cro_test_folder_clear (*state);
  g_free (*state);
  return 0;
}

static inline void
assert_open_fails (const char        *path,
                   CroStoreErrorCode  code)
{
  GError *error = NULL;

  assert_null (cro_store_open (path, "cook", CRO_STORE_WRITE, &error));
  if (!g_error_matches (error, CRO_STORE_ERROR, code))
    fail_msg ("code %d instead of %d: %s", error->code, code, error->message);
  g_clear_error (&error);
}

static inline void
rename_item (CroStore   *store,
             const char *name)
{
  static const char *const columns[] = { "name", NULL };
  GError                  *error = NULL;
  CroCell                  cell = CRO_CELL_STR (name);

  cro_test_must (cro_store_begin_act (store, "rename", &error), error);
  cro_test_must (cro_store_update (store, "item", 1, columns, &cell, &error), error);
  cro_test_must (cro_store_end_act (store, NULL, &error), error);
}
