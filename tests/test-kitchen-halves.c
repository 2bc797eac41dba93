/* A book long enough for two threads gives, in every bit, the figures that one thread gives. */
#include "cro-edit.h"
#include "support/kitchen-book.h"

#define N_PLATES 240
#define N_LINES 100

static int
set_up (void **state)
{
  g_autoptr (GString) plates = g_string_new ("name,makes,active_minutes\n");
  g_autoptr (GString) lines = g_string_new ("into,parent,position,item,amount,unit\n");

  for (int plate = 0; plate < N_PLATES; plate++)
    {
      g_string_append_printf (plates, "Bite %d,%d,%d\n", plate, 10 + plate % 7, plate % 30);
      for (int line = 1; line <= N_LINES; line++)
        g_string_append_printf (lines, "plate,Bite %d,%d,%s,%d.%d,g\n", plate, line,
                                (plate + line) % 3 == 0 ? "Salt" : "Crab", line, plate % 10);
    }
  return cro_test_book_of_tables (state, (const CroTestTable[]) {
    { "book", "key,value\ncurrency,EUR\nwage_per_hour,18\n" },
    { "ingredients", "name,unit,trim_yield_pct\nCrab,g,62\nSalt,g,\n" },
    { "suppliers", "name\nQuay\n" },
    { "offers", "ingredient,supplier,pack_count,pack_size,pack_unit\nCrab,Quay,1,5,kg\nSalt,Quay,3,1,kg\n" },
    { "prices", "ingredient,supplier,from,price\nCrab,Quay,2026-02-10,66.7\nSalt,Quay,2026-02-10,4.1\n" },
    { "plates", plates->str },
    { "lines", lines->str },
    { NULL, NULL },
  });
}

/* The book as it stood is a copy in memory, which one thread reads. */
static char *
figures_of_one_thread (CroTestKitchen *kitchen)
{
  GError *error = NULL;
  CroDate day = cro_date_from_civil (2999, 12, 31);
  g_autoptr (CroBook) past = cro_book_open_past (kitchen->folder.path, day, CRO_TEST_DAY, &error);

  cro_test_must (past != NULL, error);
  return cro_test_figures (past);
}

static void
compare (CroTestKitchen *kitchen,
         const char     *says)
{
  g_autofree char *one = figures_of_one_thread (kitchen);
  g_autofree char *both = cro_test_fresh_figures (kitchen->book);

  cro_test_same (says, one, both);
}

static void
remove_plate (CroBook    *book,
              const char *name)
{
  CroModel *model = cro_book_get_model (book);
  GError *error = NULL;

  for (guint32 slot = 0; slot < model->recipes->len; slot++)
    if (strcmp (cro_model_recipe (model, slot)->name, name) == 0)
      {
        cro_test_must (cro_edit_remove (book, "away", CRO_REF (CRO_REF_RECIPE, slot), &error), error);
        return;
      }
  fail_msg ("there is no %s", name);
}

static void
test_same_figures (void **state)
{
  CroTestKitchen *kitchen = *state;

  compare (kitchen, "as loaded");
  /* The lower half has fewer lines than ids, and then the upper. */
  remove_plate (kitchen->book, "Bite 17");
  compare (kitchen, "a gap in the lower half");
  remove_plate (kitchen->book, "Bite 200");
  compare (kitchen, "and in the upper");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (test_same_figures, set_up, cro_test_kitchen_tear_down),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
