/* kitchen-rows.h: a book of the rows of CRO_TEST_ROWS, open, and where each of them stands. */
#pragma once

#include "kitchen-book.h"

#define M(value) ((gint64) ((value) * 1e6 + 0.5))

/* The slots of the rows of CRO_TEST_ROWS. */
typedef struct
{
  CroTestFolder folder;
  CroBook      *book;
  CroModel     *model;
  guint32       ingredient, output, supplier, offer, preparation, plate, menu;
  guint32       line_of_preparation, line_of_plate, entry;
} Fixture;

typedef gboolean (*Act) (Fixture  *fixture,
                         GError  **error);

static inline int
setup (void **state)
{
  Fixture *fixture = g_new0 (Fixture, 1);
  CroModel *model;

  fixture->folder = cro_test_folder_new ();
  cro_store_close (cro_test_create (fixture->folder.path));
  cro_test_add_rows (fixture->folder.path);
  fixture->book = cro_test_book_open (fixture->folder.path, "cook");
  fixture->model = model = cro_book_get_model (fixture->book);
  fixture->ingredient = cro_slots_get (&model->item_slots, 1);
  fixture->output = cro_slots_get (&model->item_slots, 2);
  fixture->supplier = cro_slots_get (&model->supplier_slots, 1);
  fixture->offer = cro_slots_get (&model->offer_slots, 1);
  fixture->preparation = cro_slots_get (&model->preparation_slots, 1);
  fixture->plate = cro_slots_get (&model->plate_slots, 1);
  fixture->menu = cro_slots_get (&model->menu_slots, 2);
  fixture->line_of_preparation = cro_slots_get (&model->line_slots, 1);
  fixture->line_of_plate = cro_slots_get (&model->line_slots, 2);
  fixture->entry = cro_slots_get (&model->menu_plate_slots, 1);
  *state = fixture;
  return 0;
}

static inline int
teardown (void **state)
{
  Fixture *fixture = *state;

  g_object_unref (fixture->book);
  cro_test_folder_clear (&fixture->folder);
  g_free (fixture);
  return 0;
}

/* The figures of a book are those of it opened anew. */
static inline void
expect_figures (const char *says,
                const char *name,
                CroBook    *book)
{
  g_autofree char *figures = cro_test_figures (book);
  g_autofree char *fresh = cro_test_fresh_figures (book);
  g_autofree char *said = g_strdup_printf ("%s: %s", name, says);

  cro_test_same (said, figures, fresh);
}
