/* kitchen-bring.h: sheets that somebody brings into a book that is empty. */
#pragma once

#include "cro-bring.h"
#include "support/kitchen-book.h"

static inline int
set_up (void **state)
{
  CroTestKitchen *kitchen = g_new0 (CroTestKitchen, 1);

  kitchen->folder = cro_test_folder_new ();
  kitchen->book = cro_test_book_create (kitchen->folder.path);
  *state = kitchen;
  return 0;
}

static inline CroBrought *
bring_sheet (CroTestKitchen *kitchen,
             const char     *text)
{
  g_autofree char *path = g_build_filename (kitchen->folder.folder, "sheet.csv", NULL);
  GError *error = NULL;
  CroBrought *brought;

  assert_true (g_file_set_contents (path, text, -1, NULL));
  brought = cro_brought_new (path, 0, NULL, NULL, &error);
  cro_test_must (brought != NULL, error);
  g_unlink (path);
  return brought;
}

static inline const CroBringRow *
get_row (const CroBring *bring,
         guint           number)
{
  for (guint i = 0; i < bring->rows->len; i++)
    if (g_array_index (bring->rows, CroBringRow, i).number == number)
      return &g_array_index (bring->rows, CroBringRow, i);
  fail_msg ("no row %u", number);
  return NULL;
}

/* Into the kitchen's book, whose figures are those of all rows then. */
static inline void
bring_into (CroTestKitchen *kitchen,
            const CroBring *bring)
{
  GError *error = NULL;
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (CroAdded) added = cro_bring_into (bring, kitchen->folder.path, CRO_TEST_DAY, "desk",
                                               "bring a sheet", 0, faults, &error);

  for (guint i = 0; i < cro_faults_get_n (faults); i++)
    print_message ("%s %u %s\n", cro_faults_get (faults, i)->file, cro_faults_get (faults, i)->line,
                   cro_faults_get (faults, i)->column);
  cro_test_must (added != NULL, error);
  cro_test_must (cro_book_refresh (kitchen->book, NULL, &error), error);
}

static inline guint32
find_item (CroTestKitchen *kitchen,
           const char     *name)
{
  CroModel *model = cro_book_get_model (kitchen->book);

  for (guint32 i = 0; i < model->items->len; i++)
    if (!cro_model_item (model, i)->is_dead && g_str_equal (cro_model_item (model, i)->name, name))
      return i;
  fail_msg ("no %s", name);
  return CRO_NO_SLOT;
}

static inline void
assert_unit_cost (CroTestKitchen *kitchen,
                  const char     *name,
                  double          expected)
{
  double cost = cro_figures_unit_cost (cro_book_get_figures (kitchen->book), find_item (kitchen, name));

  assert_true (ABS (cost - expected) < 1e-12);
}

static inline void
assert_fault (const CroBring *bring,
              guint           number,
              CroBringFault   fault)
{
  assert_int_equal (get_row (bring, number)->fault, fault);
  assert_int_equal (get_row (bring, number)->state,
                    fault == CRO_BRING_SOUND ? CRO_BRING_NEW : CRO_BRING_FAULT);
}
