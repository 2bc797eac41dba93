/* Recipes as they stood, at prices as they stand: what a month is costed by. */
#include "support/kitchen-edits.h"

#include "cro-breakdown.h"
#include "cro-replacement.h"

#include <math.h>
#include <time.h>

#define N_BOOKS 4
#define N_ACTS 96
#define EVERY 16

static void
date_new_acts (const char *path,
               const char *day)
{
  sqlite3 *db = cro_test_raw (path);
  char *sql = g_strdup_printf ("UPDATE act SET at = '%sT12:00:00Z', day = NULL"
                               " WHERE day IS NOT NULL", day);

  cro_test_sql (db, sql);
  sqlite3_close (db);
  g_free (sql);
}

static CroBook *
open_recipes (CroBook    *of,
              const char *day)
{
  GError *error = NULL;
  CroBook *book;
  CroDate date;

  assert_true (cro_date_parse (day, strlen (day), &date));
  book = cro_book_open_recipes (of, date, CRO_TEST_DAY, &error);
  cro_test_must (book != NULL, error);
  return book;
}

/* --- Any history ------------------------------------------------------------------------------- */

static void
act_at_random (CroBook *book,
               GRand   *rand)
{
  switch (g_rand_int_range (rand, 0, 5))
    {
    case 0:
      if (g_rand_boolean (rand))
        cro_book_undo (book, NULL, NULL);
      else
        cro_book_redo (book, NULL, NULL);
      break;
    case 1:
      cro_test_random_removal (book, rand);
      break;
    default:
      cro_test_random_act (book, rand);
    }
}

/* An offer that stands has the price that it has now. Returns how many did. */
static guint
check_prices (CroBook    *now,
              CroBook    *then,
              const char *day)
{
  CroModel *model = cro_book_get_model (now), *past = cro_book_get_model (then);
  guint n = 0;

  for (guint i = 0; i < past->offers->len; i++)
    {
      const CroOfferEntry *offer = cro_model_offer (past, i);
      guint32 slot = cro_slots_get (&model->offer_slots, offer->id);

      if (offer->is_dead || slot == CRO_NO_SLOT || cro_model_offer (model, slot)->is_dead)
        continue;
      if (offer->price_id != cro_model_offer (model, slot)->price_id)
        fail_msg ("%s: offer %d has another price than now", day, (int) offer->id);
      n++;
    }
  return n;
}

static void
test_any_history (void **state)
{
  guint n = 0;

  for (guint seed = 1; seed <= N_BOOKS; seed++)
    {
      CroTestFolder folder = cro_test_folder_new ();
      CroBook *book;
      GRand *rand = g_rand_new_with_seed (seed + 100);
      g_autoptr (GPtrArray) days = g_ptr_array_new_with_free_func (g_free);

      /* Chance alone need not make a pack with a price. */
      cro_store_close (cro_test_create (folder.path));
      cro_test_add_rows (folder.path);
      book = cro_test_book_open (folder.path, "cook");
      for (int i = 0; i < 120; i++)
        cro_test_random_act (book, rand);
      date_new_acts (folder.path, "2026-12-31");
      for (guint i = 0; i < N_ACTS; i++)
        {
          char *day = g_strdup_printf ("2027-%02u-%02u", 1 + i / 28, 1 + i % 28);

          act_at_random (book, rand);
          date_new_acts (folder.path, day);
          g_ptr_array_add (days, day);
        }
      for (guint i = 0; i < days->len; i += EVERY)
        {
          g_autoptr (CroBook) then = open_recipes (book, days->pdata[i]);

          n += check_prices (book, then, days->pdata[i]);
        }
      g_object_unref (book);
      g_rand_free (rand);
      cro_test_folder_clear (&folder);
    }
  if (n == 0)
    fail_msg ("no price was compared");
}

/* --- Merged ------------------------------------------------------------------------------------- */

static double
cost_of_plate (CroBook *book)
{
  return cro_figure_of_plate (cro_book_get_figures (book), 0).cost;
}

static guint32
find_item (CroModel   *model,
           const char *name)
{
  for (guint32 i = 0; i < model->items->len; i++)
    if (strcmp (cro_model_item (model, i)->name, name) == 0)
      return i;
  fail_msg ("no item %s", name);
  return CRO_NO_SLOT;
}

static void
merge (CroBook     *book,
       const char  *item,
       const char  *into,
       GError     **error)
{
  CroModel *model = cro_book_get_model (book);
  CroReplacement merging = { .item = find_item (model, item), .by = find_item (model, into),
                             .is_merge = TRUE };

  if (!cro_edit_replace (book, "merge", &merging, error))
    fail_msg ("not merged: %s", (*error)->message);
}

static void
test_merged (void **state)
{
  CroTestFolder folder = cro_test_folder_new ();
  CroBook *book;
  GError *error = NULL;

  cro_test_write_table (folder.folder, "ingredients", "name,unit\nCrab,g\nCrab meat,g\n");
  cro_test_write_table (folder.folder, "suppliers", "name\nThe quay\n");
  cro_test_write_table (folder.folder, "offers",
                        "ingredient,supplier,pack_count,pack_size,pack_unit\n"
                        "Crab,The quay,1,1,kg\nCrab meat,The quay,1,1,kg\n");
  cro_test_write_table (folder.folder, "prices",
                        "ingredient,supplier,from,price\nCrab,The quay,2026-01-01,40\n"
                        "Crab meat,The quay,2026-01-01,90\n");
  cro_test_write_table (folder.folder, "plates", "name,makes\nCrab croustade,1\n");
  cro_test_write_table (folder.folder, "lines", "into,parent,position,item,amount,unit\n"
                                                "plate,Crab croustade,1,Crab meat,100,g\n");
  book = cro_test_book_load (&folder);
  date_new_acts (folder.path, "2026-02-01");
  assert_true (fabs (cost_of_plate (book) - 9) < 1e-9);
  merge (book, "Crab meat", "Crab", &error);
  date_new_acts (folder.path, "2026-03-01");
  {
    g_autoptr (CroBook) then = open_recipes (book, "2026-02-01");

    /* The line is that of the day, and takes the one that remains. */
    assert_true (fabs (cost_of_plate (then) - cost_of_plate (book)) < 1e-9);
  }
  g_object_unref (book);
  cro_test_folder_clear (&folder);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_any_history),
    cmocka_unit_test (test_merged),
  };

  g_setenv ("TZ", "UTC", TRUE);
  tzset ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
