/* Rows that no book can hold, written by somebody else: into a file that is opened, and into one
 * that is open. Both are damage, told in words; nothing falls over. */
#include "cro-dump.h"
#include "cro-journal-check.h"
#include "cro-sheet-map.h"
#include "cro-words.h"
#include "support/kitchen-book.h"
#include "support/kitchen-tables.h"

/* The book of the tables: loaded once, as there are many cases. */
static char *sound_book;
static gsize sound_bytes;

static int
load_sound_book (void **state)
{
  CroTestFolder folder = cro_test_folder_new ();

  cro_test_write_tables (folder.folder, NULL, NULL);
  g_object_unref (cro_test_book_load (&folder));
  assert_true (g_file_get_contents (folder.path, &sound_book, &sound_bytes, NULL));
  cro_test_folder_clear (&folder);
  return 0;
}

static int
free_sound_book (void **state)
{
  g_free (sound_book);
  return 0;
}

static int
set_up (void **state)
{
  CroTestKitchen *kitchen = g_new0 (CroTestKitchen, 1);

  kitchen->folder = cro_test_folder_new ();
  assert_true (g_file_set_contents_full (kitchen->folder.path, sound_book, (gssize) sound_bytes,
                                         G_FILE_SET_CONTENTS_NONE, 0666, NULL));
  kitchen->book = cro_test_book_open (kitchen->folder.path, "cook");
  *state = kitchen;
  return 0;
}

#define FIRST(table) " WHERE id = (SELECT min (id) FROM " table ")"
#define ID(name) "(SELECT id FROM item WHERE name = '" name "')"

static const struct
{
  const char *says;
  const char *sql;
} damaged[] = {
  /* Where a reference leads. */
  { "an offer of an ingredient that is gone", "DELETE FROM ingredient WHERE id = " ID ("Crab") },
  { "an offer of what is made", "UPDATE offer SET ingredient = " ID ("Gel") " WHERE id = 1" },
  { "an offer of nobody", "UPDATE offer SET supplier = 77 WHERE id = 1" },
  { "an item of no kind", "INSERT INTO item VALUES (77, 'Nothing')" },
  { "an ingredient without a name", "INSERT INTO ingredient (id, unit) VALUES (77, 'g')" },
  { "an output of no preparation", "UPDATE output SET preparation = 77 WHERE id = " ID ("Gel") },
  { "an output without a name", "INSERT INTO output (id, preparation, role) VALUES (77, 1, 'by-product')" },
  { "a plate without a name", "INSERT INTO plate (id, makes_micro) VALUES (77, 1000000)" },
  { "a menu without a name", "INSERT INTO menu (id) VALUES (77)" },
  { "a plate of no menu", "UPDATE menu_plate SET menu = 77" },
  { "no plate on a menu", "UPDATE menu_plate SET plate = 77" },
  { "a line of nothing", "UPDATE recipe_line SET item = 77 WHERE id = 1" },
  { "a line in no preparation", "UPDATE recipe_line SET preparation = 77 WHERE preparation = 1" },
  { "a line on no plate", "UPDATE recipe_line SET plate = 77 WHERE plate = 1" },
  { "a line in neither", "UPDATE recipe_line SET plate = NULL WHERE plate = 1" },
  { "a line in both", "UPDATE recipe_line SET preparation = 1, position_micro = 9 + id WHERE plate = 1" },
  { "an id below 1", "INSERT INTO supplier (id, name) VALUES (-1, 'Nobody')" },

  /* Words. */
  { "a kind of its own", "UPDATE ingredient SET kind = 'drink'" },
  { "a base unit that is none", "UPDATE ingredient SET unit = 'kg'" },
  { "a unit that is none", "UPDATE recipe_line SET unit = 'jar'" },
  { "a unit of a pack that is none", "UPDATE offer SET pack_unit = 'jar'" },
  { "a unit of an output that is none", "UPDATE output SET unit = 'jar'" },
  { "a unit of a price that is none", "UPDATE price SET pack_unit = 'jar'" },
  { "a rule of its own", "UPDATE preparation SET by_products = 'luck'" },
  { "a role of its own", "UPDATE output SET role = 'extra' WHERE role <> 'main'" },
  { "a weighing of its own", "UPDATE recipe_line SET weighed = 'guessed'" },
  { "a currency that is none", "UPDATE book SET currency = 'euro'" },
  { "a currency of an offer that is none", "UPDATE offer SET currency = 'pound'" },
  { "a currency of a rate that is none", "UPDATE rate SET currency = 'x'" },
  { "a day that is none", "UPDATE offer SET until = '2026-02-30'" },
  { "a day of a price that is none", "UPDATE price SET from_date = '2026-01-99' WHERE id = 3" },
  { "a name that is not UTF-8", "UPDATE item SET name = CAST (X'41FF' AS TEXT) WHERE id = 1" },
  { "a name of a plate with a NUL", "UPDATE thing SET name = 'a' || char (0) || 'b' WHERE id = 1" },

  /* Numbers beyond their ranges. */
  { "a trim yield of nothing", "UPDATE ingredient SET trim_yield_pct_micro = 0" },
  { "a trim yield of more", "UPDATE ingredient SET trim_yield_pct_micro = 1000000001" },
  { "a density below 0", "UPDATE ingredient SET density_g_per_ml_micro = -1" },
  { "a piece of no weight", "UPDATE ingredient SET piece_g_micro = 0" },
  { "allergens that are none", "UPDATE ingredient SET allergens = 16384" },
  { "a pack of nothing", "UPDATE offer SET pack_count_micro = 0" },
  { "a pack of less", "UPDATE offer SET pack_size_micro = -1" },
  { "more than all of a pack", "UPDATE offer SET net_pct_micro = 100000001" },
  { "half preferred", "UPDATE offer SET preferred = 2" },
  { "a price below 0", "UPDATE price SET price_micro = -1" },
  { "a rate of nothing", "UPDATE rate SET rate_micro = 0" },
  { "a rate for nothing", "UPDATE rate SET per_micro = 0" },
  { "an output of nothing", "UPDATE output SET amount_micro = 0 WHERE amount_micro IS NOT NULL" },
  { "a value below 0", "UPDATE output SET value_micro = -1" },
  { "a plate that makes none", "UPDATE plate SET makes_micro = 0" },
  { "a target of more than all", "UPDATE plate SET target_pct_micro = 100000001" },
  { "minutes below 0", "UPDATE preparation SET active_minutes_micro = -1" },
  { "a smallest part of more than all", "UPDATE preparation SET smallest_part_micro = 1000001" },
  { "servings below 0", "UPDATE menu_plate SET servings_micro = -1" },
  { "a line of less than nothing", "UPDATE recipe_line SET amount_micro = -1" },
  { "a line that recovers all", "UPDATE recipe_line SET recovered_pct_micro = 100000000" },
  { "a yield of a line of nothing", "UPDATE recipe_line SET yield_pct_micro = 0" },
  { "a target of the house of nothing", "UPDATE book SET target_pct_micro = 0" },

  /* What no figure of the day is made of. */
  { "a day of an older price that is none", "UPDATE price SET from_date = '2026-01-99' WHERE id = 1" },
  { "a later price below 0", "UPDATE price SET price_micro = -1 WHERE from_date > '2026-02-16'" },
  { "a unit of a later price that is none",
    "UPDATE price SET pack_unit = 'jar' WHERE from_date > '2026-02-16'" },
  { "a price of no pack", "UPDATE price SET offer = 77 WHERE from_date > '2026-02-16'" },
  { "a later rate of nothing", "INSERT INTO rate (currency, from_date, rate_micro)"
    " VALUES ('GBP', '2030-01-01', 0)" },
  { "a selling price of no plate", "INSERT INTO selling_price (thing, from_date, price_micro)"
    " VALUES (77, '2030-01-01', 1)" },
  { "a day of a selling price that is none", "INSERT INTO selling_price (thing, from_date, price_micro)"
    " VALUES (1, 'soon', 1)" },
  { "a supplier who charges less than nothing", "UPDATE supplier SET delivery_charge_micro = -1" FIRST ("supplier") },
  { "a supplier who quotes otherwise", "UPDATE supplier SET quotes = 'boat'" FIRST ("supplier") },
  { "a place before the first", "UPDATE offer SET position_micro = -1" },
  { "a service of nothing", "UPDATE service SET thing = 77 WHERE service = 'lunch'" },
  { "a service on no day", "UPDATE service SET date = 'x'" FIRST ("service") },
  { "guests below 0", "UPDATE service SET covers_micro = -1" FIRST ("service") },
  { "nothing in the house", "UPDATE service_stock SET item = 77" FIRST ("service_stock") },
  { "a unit in the house that is none", "UPDATE service_stock SET unit = 'jar'" FIRST ("service_stock") },
  { "a yield test of nothing", "UPDATE yield_test SET item = 77" FIRST ("yield_test") },
  { "a yield test on no day", "UPDATE yield_test SET date = '2026-02-30'" FIRST ("yield_test") },
  { "a part of no yield test", "UPDATE yield_test_part SET yield_test = 77" FIRST ("yield_test_part") },
  { "a part of a yield test that is bought",
    "UPDATE yield_test_part SET output = " ID ("Crab") FIRST ("yield_test_part") },
  { "a sale of nothing", "UPDATE sale SET thing = 77 WHERE thing IS NOT NULL" },
  { "a sale of two", "UPDATE sale SET other = 'Tea', thing = 1" },
  { "a sale on no day", "UPDATE sale SET date = 'yesterday'" },
  { "a count below 0", "UPDATE stock_count SET amount_micro = -1" FIRST ("stock_count") },
  { "a count of nothing", "UPDATE stock_count SET item = 77" FIRST ("stock_count") },
  { "a purchase from nobody", "UPDATE purchase SET supplier = 77" FIRST ("purchase") },
  { "a purchase of what is made", "UPDATE purchase SET ingredient = " ID ("Gel") FIRST ("purchase") },
  { "a purchase of its own kind", "UPDATE purchase SET kind = 'luck'" FIRST ("purchase") },
  { "an adjustment of its own kind", "UPDATE adjustment SET kind = 'luck'" FIRST ("adjustment") },
  { "an adjustment below 0", "UPDATE adjustment SET net_value_micro = -1" FIRST ("adjustment") },
  { "a month that is none", "UPDATE month SET month = '2026-13'" FIRST ("month") },
  { "a row of no month", "UPDATE month_row SET month = 77" FIRST ("month_row") },
  { "a row of a month of its own kind", "UPDATE month_row SET kind = 'luck'" FIRST ("month_row") },
};

/* At the very ends of what there can be. */
static const struct
{
  const char *says;
  const char *sql;
} sound[] = {
  { "a trim yield of 1000 %", "UPDATE ingredient SET trim_yield_pct_micro = 1000000000" },
  { "a sale of less than nothing", "UPDATE sale SET sold_micro = -9223372036854775807" },
  { "all allergens", "UPDATE ingredient SET allergens = 16383" },
  { "a pack of as much as there is", "UPDATE offer SET pack_size_micro = 9223372036854775807" },
  { "a price as high as there is", "UPDATE price SET price_micro = 9223372036854775807" },
  { "a plate that makes as many as there are", "UPDATE plate SET makes_micro = 9223372036854775807" },
  { "a line of as much as there is", "UPDATE recipe_line SET amount_micro = 9223372036854775807" },
};

static void
write_raw (const char *path,
           const char *sql)
{
  sqlite3 *db = cro_test_raw (path);

  cro_test_sql (db, "PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON;"
                    "PRAGMA synchronous = OFF");
  cro_test_begin_raw_act (db);
  cro_test_sql (db, sql);
  cro_test_end_raw_act (db);
  sqlite3_close (db);
}

static void
assert_damage (const char *says,
               GError     *error)
{
  g_autofree char *sentence = NULL;

  if (!g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED))
    fail_msg ("%s: %s", says, error != NULL ? error->message : "taken");
  sentence = cro_words_error (error);
  assert_non_null (strstr (sentence, "damaged"));
  g_error_free (error);
}

static void
clear (CroTestKitchen *kitchen)
{
  g_clear_object (&kitchen->book);
  cro_test_folder_clear (&kitchen->folder);
  g_free (kitchen);
}

static void
test_damage_is_not_opened (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (damaged); i++)
    {
      CroTestKitchen *kitchen;
      GError *error = NULL;

      set_up ((void **) &kitchen);
      g_clear_object (&kitchen->book);
      write_raw (kitchen->folder.path, damaged[i].sql);
      kitchen->book = cro_book_open (kitchen->folder.path, "cook", CRO_STORE_WRITE, CRO_TEST_DAY,
                                     &error);
      assert_damage (damaged[i].says, error);
      clear (kitchen);
    }
}

static void
test_the_ends_of_all_ranges_are_opened (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (sound); i++)
    {
      CroTestKitchen *kitchen;
      GError *error = NULL;

      set_up ((void **) &kitchen);
      g_clear_object (&kitchen->book);
      write_raw (kitchen->folder.path, sound[i].sql);
      kitchen->book = cro_book_open (kitchen->folder.path, "cook", CRO_STORE_WRITE, CRO_TEST_DAY,
                                     &error);
      if (kitchen->book == NULL)
        fail_msg ("%s: %s", sound[i].says, error->message);
      g_free (cro_test_figures (kitchen->book));
      clear (kitchen);
    }
}

/* What stands for no number, beside one of its column that does: tables are sorted by both. */
static const struct
{
  const char *says;
  const char *sql;
} undumped[] = {
  { "a day of a price that is none", "UPDATE price SET from_date = '2026-99-99' WHERE id = 3" },
  { "a day of a sale that is none", "INSERT INTO sale (date, thing, sold_micro, net_revenue_micro)"
    " SELECT day, thing.id, 0, 0 FROM thing, (SELECT '2026-01-01' AS day UNION SELECT 'yesterday')" },
  { "a unit that is none", "UPDATE recipe_line SET unit = 'jar' WHERE id = 1" },
  { "a kind that is none", "UPDATE ingredient SET kind = 'drink'" },
};

static void
test_damage_is_not_dumped (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (undumped); i++)
    {
      CroTestKitchen *kitchen;
      g_autoptr (CroStore) store = NULL;
      g_autofree char *folder = NULL;
      GError *error = NULL;

      set_up ((void **) &kitchen);
      g_clear_object (&kitchen->book);
      write_raw (kitchen->folder.path, undumped[i].sql);
      store = cro_test_open (kitchen->folder.path, "cook");
      folder = g_build_filename (kitchen->folder.folder, "dumped", NULL);
      assert_false (cro_dump (store, folder, NULL, NULL, &error));
      assert_damage (undumped[i].says, error);
      assert_false (g_file_test (folder, G_FILE_TEST_EXISTS));
      g_clear_pointer (&store, cro_store_close);
      clear (kitchen);
    }
}

/* Whatever another program writes while the book is open: the book goes on with what it knows. */
static void
test_damage_while_it_is_open (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (damaged); i++)
    {
      CroTestKitchen *kitchen;
      GError *error = NULL;
      gboolean changed;

      set_up ((void **) &kitchen);
      write_raw (kitchen->folder.path, damaged[i].sql);
      if (!cro_book_refresh (kitchen->book, &changed, &error))
        assert_damage (damaged[i].says, error);
      g_free (cro_test_figures (kitchen->book));
      clear (kitchen);
    }
}

/* The verification of a file asks of the texts that the tables call names what the tables do. */
static void
test_names_are_the_same_in_the_file_and_in_its_tables (void **state)
{
  guint n_names = 0;

  for (const CroSheetMap *map = cro_sheet_maps; map->table != NULL; map++)
    for (guint i = 0; map->columns[i].column != NULL; i++)
      {
        const CroTable *table = cro_table_get (map->id);
        /* The pack of a price is told by three columns of its table, and is none of them. */
        CroFieldKind kind = map->columns[i].from < table->n_columns
                                ? table->columns[map->columns[i].from].kind : CRO_FIELD_NAME;
        gboolean is_free = g_strv_contains (cro_free_texts, map->columns[i].column);

        if ((kind == CRO_FIELD_TEXT) != is_free)
          fail_msg ("%s of %s", map->columns[i].column, map->table);
        n_names += kind == CRO_FIELD_NAME ? 1 : 0;
      }
  assert_true (n_names > 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_damage_is_not_opened),
    cmocka_unit_test (test_the_ends_of_all_ranges_are_opened),
    cmocka_unit_test (test_damage_is_not_dumped),
    cmocka_unit_test (test_damage_while_it_is_open),
    cmocka_unit_test (test_names_are_the_same_in_the_file_and_in_its_tables),
  };

  return cmocka_run_group_tests_name ("rows that no book can hold", tests, load_sound_book,
                                      free_sound_book);
}
