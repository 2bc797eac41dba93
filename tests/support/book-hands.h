/* book-hands.h: one open book of tables with dated prices, and what cases do with it. */
#pragma once

#include "support/kitchen-book.h"
#include "support/kitchen-tables.h"
#include "support/statements.h"

typedef struct
{
  CroTestFolder folder;
  CroBook      *book;
  guint         n_changed;
} Fixture;

static inline void
changed_cb (CroBook *book,
            Fixture *fixture)
{
  fixture->n_changed++;
}

static inline int
set_up (void **state)
{
  Fixture *fixture = g_new0 (Fixture, 1);

  cro_test_statements_watch ();
  fixture->folder = cro_test_folder_new ();
  cro_test_write_tables (fixture->folder.folder, NULL, NULL);
  cro_test_write_table (fixture->folder.folder, "prices",
                        "ingredient,supplier,code,from,price,tax_included_pct,pack_count,"
                        "pack_size,pack_unit\nCrab,Quay,101,2026-01-05,60,,,,\n"
                        "Crab,Quay,101,2026-02-02,63,10,2,2.2,kg\nSalt,Port,,2026-02-16,4,,,,\n");
  cro_test_write_table (fixture->folder.folder, "offers",
                        "ingredient,supplier,code,pack_count,pack_size,pack_unit,preferred\n"
                        "Crab,Quay,101,1,5,kg,yes\nCrab,Quay,,1,1,kg,yes\nSalt,Port,,10,1,kg,no\n");
  fixture->book = cro_test_book_load (&fixture->folder);
  g_signal_connect (fixture->book, "changed", G_CALLBACK (changed_cb), fixture);
  *state = fixture;
  return 0;
}

static inline int
tear_down (void **state)
{
  Fixture *fixture = *state;

  g_assert_finalize_object (fixture->book);
  cro_test_folder_clear (&fixture->folder);
  g_free (fixture);
  return 0;
}

/* The id of what bears a name. */
static inline gint64
id_of (Fixture    *fixture,
       const char *table,
       const char *name)
{
  static const char *const columns[] = { "id", "name", NULL };
  GError *error = NULL;
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (fixture->book), table, columns,
                                             &error);

  cro_test_must (rows != NULL, error);
  while (cro_rows_next (rows, NULL))
    if (strcmp (cro_rows_get_text (rows, 1), name) == 0)
      return cro_rows_get_int (rows, 0);
  fail_msg ("no %s is named %s", table, name);
  return 0;
}

/* The id of the line that takes an item. */
static inline gint64
line_of (Fixture    *fixture,
         const char *item)
{
  static const char *const columns[] = { "id", "item", NULL };
  gint64 id = id_of (fixture, "item", item);
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (fixture->book), "recipe_line",
                                             columns, NULL);

  while (cro_rows_next (rows, NULL))
    if (cro_rows_get_int (rows, 1) == id)
      return cro_rows_get_int (rows, 0);
  fail_msg ("no line takes %s", item);
  return 0;
}

static inline void
must_be_fresh (const char *says,
               CroBook    *book)
{
  g_autofree char *figures = cro_test_figures (book);
  g_autofree char *fresh = cro_test_fresh_figures (book);

  cro_test_same (says, figures, fresh);
}
