/* A book's tables become those of a folder: what stays, what is refused, and the way back. */
#include "cro-dump.h"
#include "cro-history.h"
#include "cro-load.h"
#include "support/kitchen-book.h"
#include "support/kitchen-tables.h"

#define LINES "into,parent,position,item,amount,unit,weighed,yield_pct\n"
#define OUTPUTS "item,preparation,role,amount,unit\n"

typedef struct
{
  CroTestFolder folder;    /* of the tables to load, and the book */
  CroTestFolder dumped;
} Fixture;

static int
set_up (void **state)
{
  Fixture *fixture = g_new0 (Fixture, 1);

  fixture->folder = cro_test_folder_new ();
  fixture->dumped = cro_test_folder_new ();
  cro_test_write_tables (fixture->folder.folder, NULL, NULL);
  g_object_unref (cro_test_book_load (&fixture->folder));
  *state = fixture;
  return 0;
}

static int
tear_down (void **state)
{
  Fixture *fixture = *state;

  cro_test_folder_clear (&fixture->folder);
  cro_test_folder_clear (&fixture->dumped);
  g_free (fixture);
  return 0;
}

static CroStore *
reader_of (Fixture *fixture)
{
  GError *error = NULL;
  CroStore *store = cro_store_open (fixture->folder.path, NULL, CRO_STORE_READ, &error);

  cro_test_must (store != NULL, error);
  return store;
}

static char *
dump_of (Fixture *fixture)
{
  GError *error = NULL;
  g_autoptr (CroStore) store = reader_of (fixture);

  cro_test_must (cro_dump (store, fixture->dumped.folder, NULL, NULL, &error), error);
  return cro_test_folder_text (fixture->dumped.folder);
}

/* The faults; NULL if it was replaced. */
static char *
replace (Fixture *fixture)
{
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (GError) error = NULL;

  if (cro_load (fixture->folder.path, fixture->folder.folder, "cook", "replace", TRUE, NULL,
                NULL, faults, &error))
    return NULL;
  if (cro_faults_get_n (faults) == 0)
    fail_msg ("%s", error->message);
  return cro_test_faults (faults);
}

static void
must_replace (Fixture    *fixture,
              const char *says)
{
  g_autofree char *faults = replace (fixture);

  if (faults != NULL)
    fail_msg ("%s: %s", says, faults);
}

/* 0: no row of the table holds text in that column. */
static gint64
id_of (Fixture    *fixture,
       const char *table,
       const char *column,
       const char *text)
{
  const char *columns[] = { "id", column, NULL };
  GError *error = NULL;
  CroStore *store = reader_of (fixture);
  CroRows *rows = cro_store_read (store, table, columns, &error);
  gint64 id = 0;

  cro_test_must (rows != NULL, error);
  while (cro_rows_next (rows, NULL))
    if (g_strcmp0 (cro_rows_get_text (rows, 1), text) == 0)
      id = cro_rows_get_int (rows, 0);
  cro_rows_free (rows);
  cro_store_close (store);
  return id;
}

static guint
n_acts (Fixture *fixture)
{
  GError *error = NULL;
  g_autoptr (CroStore) store = reader_of (fixture);
  g_autoptr (GPtrArray) acts = cro_store_list_acts (store, 0, 99, &error);

  cro_test_must (acts != NULL, error);
  return acts->len;
}

/* --- Identity and history ------------------------------------------------------------------------ */

static void
test_keeps_identity (void **state)
{
  Fixture *fixture = *state;
  GError *error = NULL;
  gint64 crab = id_of (fixture, "item", "name", "Crab");
  gint64 price = id_of (fixture, "price", "from_date", "2026-02-02");
  g_autoptr (CroStore) store = NULL;
  g_autoptr (GPtrArray) of_row = NULL;
  g_autoptr (GPtrArray) of_act = NULL;
  g_autoptr (CroAct) act = NULL;

  cro_test_write_table (fixture->folder.folder, "prices",
                        "ingredient,supplier,code,from,price\nSalt,Port,,2026-02-09,5\n"
                        "Crab,Quay,101,2026-03-02,\nCrab,Quay,101,2026-02-02,64\n"
                        "Crab,Quay,101,2026-01-05,60\n");
  must_replace (fixture, "prices may stand in any order");
  if (id_of (fixture, "item", "name", "Crab") != crab
      || id_of (fixture, "price", "from_date", "2026-02-02") != price)
    fail_msg ("what stands in both by its key keeps its identity");
  if (n_acts (fixture) != 2)
    fail_msg ("a replacement is one act");

  store = cro_store_open (fixture->folder.path, "cook", CRO_STORE_WRITE, &error);
  of_row = cro_store_list_changes_of_row (store, "price", price, &error);
  if (of_row->len != 1
      || strcmp (((CroChange *) of_row->pdata[0])->before, "{\"price_micro\":63000000}") != 0)
    fail_msg ("its history goes on with what moved and no more");
  act = cro_store_peek_undo (store, &error);
  of_act = cro_store_list_changes_of_act (store, act->id, &error);
  if (of_act->len != 3)
    fail_msg ("one price moved, one is new and one gone, and nothing else: %u", of_act->len);
}

static void
test_same_again (void **state)
{
  must_replace (*state, "a book may be replaced by itself");
  if (n_acts (*state) != 1)
    fail_msg ("what is replaced by itself leaves no entry in the history");
}

/* --- There and back ---------------------------------------------------------------------------------- */

typedef struct
{
  const char *says;
  struct { const char *name, *text; } tables[7];
} Replacement;

static const Replacement replacements[] = {
  { "values of rows change places",
    { { "suppliers", "name,quotes\nQuay,base unit\nPort,pack\n" } } },
  { "a main output and a by-product change roles",
    { { "outputs", OUTPUTS "Gel,Gel,main,100,g\nStock,Stock,by-product,500,ml\n"
                   "Shells,Stock,main,200,g\n" } } },
  { "an output moves to another preparation",
    { { "outputs", OUTPUTS "Gel,Gel,main,100,g\nStock,Stock,main,500,ml\n"
                   "Shells,Gel,by-product,200,g\n" } } },
  { "lines change places, and one goes",
    { { "lines", LINES "preparation,Gel,1,Stock,100,ml,,\npreparation,Stock,1,Crab,1,kg,whole,\n"
                 "plate,Croustade,2,Gel,10,g,,\nplate,Croustade,1,Crab,600,g,trimmed,62\n" } } },
  { "rows that repeat become fewer",
    { { "sales", "date,kind,name,sold,net_revenue\n2026-01-10,plate,Croustade,12,54\n"
                 "2026-02-10,menu,Tide,3,\n" } } },
  { "settings go", { { "book", "key,value\ncurrency,EUR\n" } } },
  { "a plate comes, and one goes with its lines",
    { { "plates", "name,makes,price\nCroustade,24,5\nEbb,1,\n" },
      { "lines", LINES "preparation,Gel,1,Stock,100,ml,,\npreparation,Stock,1,Crab,1,kg,whole,\n"
                 "plate,Ebb,1,Salt,1,g,,\n" } } },
  { "a plate becomes a menu, and the menu a plate",
    { { "plates", "name,makes,price\nCroustade,24,5\nTide,10,\n" },
      { "menus", "name,price\nTartlet,90\n" },
      { "menu_plates", "menu,plate,servings\nTartlet,Croustade,1\n" },
      { "sales", "date,kind,name,sold,net_revenue\n2026-01-10,plate,Croustade,12,54\n" },
      { "lines", LINES "preparation,Gel,1,Stock,100,ml,,\nplate,Tide,1,Salt,1,g,,\n" } } },
  { "what was bought is made: a name goes from ingredient to output",
    { { "ingredients", "name,unit,kind,allergens\nCrab,g,food,crustaceans\nCup,each,disposable,\n" },
      { "offers", "ingredient,supplier,code,pack_count,pack_size,pack_unit,preferred\n"
                  "Crab,Quay,101,1,5,kg,yes\n" },
      { "prices", "ingredient,supplier,code,from,price\nCrab,Quay,101,2026-01-05,60\n" },
      { "preparations", "name,by_products\nGel,free\nStock,weight\nSalt,free\n" },
      { "outputs", OUTPUTS "Gel,Gel,main,100,g\nStock,Stock,main,500,ml\n"
                   "Shells,Stock,by-product,200,g\nSalt,Salt,main,1,kg\n" },
      { "lines", LINES "preparation,Salt,1,Crab,1,g,,\nplate,Tartlet,1,Salt,1,g,,\n" } } },
  { "what was made is bought: a name goes from output to ingredient",
    { { "ingredients", "name,unit,kind,allergens\nCrab,g,food,crustaceans\nSalt,g,food,none\n"
                       "Cup,each,disposable,\nGel,g,food,\n" },
      { "preparations", "name,by_products\nStock,weight\n" },
      { "outputs", OUTPUTS "Stock,Stock,main,500,ml\nShells,Stock,by-product,200,g\n" },
      { "lines", LINES "plate,Croustade,1,Gel,10,g,,\n" } } },
};

static void
write_replacement (Fixture           *fixture,
                   const Replacement *replacement)
{
  cro_test_write_tables (fixture->folder.folder, NULL, NULL);
  for (gsize t = 0; t < G_N_ELEMENTS (replacement->tables); t++)
    if (replacement->tables[t].name != NULL)
      cro_test_write_table (fixture->folder.folder, replacement->tables[t].name,
                            replacement->tables[t].text);
}

/* The book that is open meanwhile follows, to the bit. */
static void
must_follow (CroBook    *book,
             const char *says)
{
  g_autofree char *figures = NULL;
  g_autofree char *fresh = NULL;
  GError *error = NULL;

  cro_test_must (cro_book_refresh (book, NULL, &error), error);
  figures = cro_test_figures (book);
  fresh = cro_test_fresh_figures (book);
  cro_test_same (says, figures, fresh);
}

static void
test_undone (void **state)
{
  Fixture *fixture = *state;
  GError *error = NULL;
  g_autofree char *before = dump_of (fixture);
  g_autoptr (CroBook) book = cro_test_book_open (fixture->folder.path, "cook");

  for (gsize i = 0; i < G_N_ELEMENTS (replacements); i++)
    {
      const char *says = replacements[i].says;
      g_autofree char *during = NULL;
      g_autofree char *after = NULL;
      g_autofree char *again = NULL;

      write_replacement (fixture, &replacements[i]);
      must_replace (fixture, says);
      must_follow (book, says);
      during = dump_of (fixture);
      if (strcmp (before, during) == 0)
        fail_msg ("%s: the book has changed", says);
      cro_test_must (cro_book_undo (book, NULL, &error), error);
      must_follow (book, says);
      after = dump_of (fixture);
      cro_test_same (says, before, after);
      cro_test_must (cro_book_redo (book, NULL, &error), error);
      must_follow (book, says);
      again = dump_of (fixture);
      cro_test_same (says, during, again);
      cro_test_must (cro_book_undo (book, NULL, &error), error);
    }
}

/* Back by a second replacement, and not by undoing. */
static void
test_switched_back (void **state)
{
  Fixture *fixture = *state;
  g_autofree char *before = dump_of (fixture);

  for (gsize i = 0; i < G_N_ELEMENTS (replacements); i++)
    {
      gint64 salt = id_of (fixture, "item", "name", "Salt");
      gint64 tide = id_of (fixture, "thing", "name", "Tide");
      g_autofree char *after = NULL;

      write_replacement (fixture, &replacements[i]);
      must_replace (fixture, replacements[i].says);
      if (id_of (fixture, "item", "name", "Salt") != salt
          || id_of (fixture, "thing", "name", "Tide") != tide)
        fail_msg ("%s: a name keeps its identity whatever bears it", replacements[i].says);
      cro_test_write_tables (fixture->folder.folder, NULL, NULL);
      must_replace (fixture, replacements[i].says);
      after = dump_of (fixture);
      cro_test_same (replacements[i].says, before, after);
    }
}

/* --- Closed months --------------------------------------------------------------------------------------- */

static void
test_closed_months (void **state)
{
  static const struct { const char *says, *table, *text, *faults; } cases[] = {
    { "a sale of a closed month that moved, and so stands there no more", "sales",
      "date,kind,name,sold,net_revenue\n2026-01-10,plate,Croustade,13,54\n"
      "2026-02-10,menu,Tide,3,\n2026-02-10,menu,Tide,3,\n",
      "sales.csv:0:- closed month (2026-01)\nsales.csv:2:- closed month (2026-01)\n" },
    { "a sale more", "sales",
      "date,kind,name,sold,net_revenue\n2026-01-10,plate,Croustade,12,54\n"
      "2026-01-10,plate,Croustade,12,54\n",
      "sales.csv:3:- closed month (2026-01)\n" },
    { "a count that moves into it", "counts",
      "date,item,amount,unit\n2026-01-31,Crab,2,kg\n2026-01-30,Crab,1,kg\n",
      "counts.csv:3:- closed month (2026-01)\n" },
    { "purchases that are gone", "purchases",
      "date,supplier,ingredient,amount,unit,net_value\n2026-02-07,Quay,Crab,5,kg,63\n",
      "purchases.csv:0:- closed month (2026-01)\n" },
    { "an adjustment that is gone", "adjustments",
      "date,kind,item,amount,unit\n2026-02-08,waste,Crab,100,g\n",
      "adjustments.csv:0:- closed month (2026-01)\n" },
    { "opening it by the way", "months", "month,closed_at\n2026-01,\n2026-02,\n",
      "months.csv:2:- closed month (2026-01)\n" },
    { "what was frozen", "month_rows",
      "month,kind,name,part_kind,part,sold,cost\n2026-01,plate,Croustade,,,12,\n"
      "2026-01,plate,Croustade,food,Crab,,9.6\n",
      "month_rows.csv:3:- closed month (2026-01)\n" },
    { "a frozen row more", "month_rows",
      "month,kind,name,part_kind,part,sold,cost\n2026-01,plate,Tartlet,,,12,\n",
      "month_rows.csv:2:- closed month (2026-01)\n" },
    { "a month that is open may change", "sales",
      "date,kind,name,sold,net_revenue\n2026-01-10,plate,Croustade,12,54\n"
      "2026-02-11,menu,Tide,4,\n", NULL },
    { "what closing froze stays where the folder has nothing of it", "month_rows", "month,kind,name\n",
      NULL },
    { "and so does the closed month", "months", "month\n2026-01\n",
      "months.csv:2:- closed month (2026-01)\n" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *before = dump_of (*state);
      g_autofree char *faults = NULL;
      g_autofree char *after = NULL;

      cro_test_write_tables (((Fixture *) *state)->folder.folder, cases[i].table, cases[i].text);
      faults = replace (*state);
      if (g_strcmp0 (faults, cases[i].faults) != 0)
        fail_msg ("%s:\n%sand not\n%s", cases[i].says, faults, cases[i].faults);
      after = dump_of (*state);
      if (faults != NULL)
        cro_test_same (cases[i].says, before, after);
    }
}

static void
test_months_absent (void **state)
{
  Fixture *fixture = *state;
  static const char *const tables[] = { "months.csv", "month_rows.csv" };
  g_autofree char *after = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    {
      g_autofree char *path = g_build_filename (fixture->folder.folder, tables[i], NULL);

      g_remove (path);
    }
  must_replace (fixture, "a folder without months");
  after = dump_of (fixture);
  if (strstr (after, "2026-01,plate,Croustade,food,Crab") == NULL
      || strstr (after, "2026-01,,66,,2026-01-30,,0,2026-02-02T08:00:00Z") == NULL)
    fail_msg ("closed months and what they froze stay");
  if (strstr (after, "\n2026-02,,") == NULL)
    fail_msg ("and so does what is said of an open one");
}

/* Emptied by a header alone, and by no table that is simply not there. */
static void
test_tables_absent (void **state)
{
  Fixture *fixture = *state;
  g_autofree char *path = g_build_filename (fixture->folder.folder, "selling_prices.csv", NULL);
  g_autofree char *book = g_build_filename (fixture->folder.folder, "book.csv", NULL);
  g_autofree char *before = dump_of (fixture);
  g_autofree char *faults = NULL;
  g_autofree char *after = NULL;

  g_remove (path);
  g_remove (book);
  faults = replace (fixture);
  assert_string_equal (faults, "book.csv:0:- absent table\nselling_prices.csv:0:- absent table\n");
  after = dump_of (fixture);
  cro_test_same ("a refused folder changes nothing", before, after);
  cro_test_write_table (fixture->folder.folder, "book", "key,value\n");
  cro_test_write_table (fixture->folder.folder, "selling_prices", "name,from\n");
  must_replace (fixture, "a header alone");
  g_remove (path);
  g_remove (book);
  must_replace (fixture, "a table that the book has no rows of need not be there");
}

/* --- Round trips -------------------------------------------------------------------------------------------- */

static void
must_come_back (const char *folder,
                const char *says)
{
  CroTestFolder first = cro_test_folder_new ();
  CroTestFolder second = cro_test_folder_new ();
  CroTestFolder from = { (char *) folder, first.path };
  g_autoptr (CroBook) book = cro_test_book_load (&from);
  g_autoptr (CroBook) again = NULL;
  g_autofree char *one = NULL;
  g_autofree char *two = NULL;
  g_autofree char *twice = NULL;
  GError *error = NULL;

  cro_test_must (cro_dump (cro_book_get_store (book), first.folder, NULL, NULL, &error), error);
  one = cro_test_folder_text (first.folder);
  from.folder = first.folder;
  from.path = second.path;
  again = cro_test_book_load (&from);
  cro_test_must (cro_dump (cro_book_get_store (again), second.folder, NULL, NULL, &error), error);
  two = cro_test_folder_text (second.folder);
  cro_test_same (says, one, two);
  cro_test_must (cro_dump (cro_book_get_store (again), second.folder, NULL, NULL, &error), error);
  twice = cro_test_folder_text (second.folder);
  cro_test_same ("a dump over a dump", two, twice);
  cro_test_folder_clear (&first);
  cro_test_folder_clear (&second);
}

static void
test_round_trip (void **state)
{
  const char *source = g_getenv ("CROUSTADE_SOURCE");
  Fixture *fixture = *state;
  g_autofree char *demo = NULL;

  must_come_back (fixture->folder.folder, "a dump of a small book that is loaded gives it again");
  if (source == NULL)
    {
      print_message ("skipped: CROUSTADE_SOURCE does not name the source, where the demo is\n");
      skip ();
    }
  demo = g_build_filename (source, "data", "demo", NULL);
  must_come_back (demo, "a dump of the demo that is loaded gives it again");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (test_keeps_identity, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_same_again, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_undone, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_switched_back, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_closed_months, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_months_absent, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_tables_absent, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_round_trip, set_up, tear_down),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
