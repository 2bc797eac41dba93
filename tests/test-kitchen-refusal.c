/* What an edit may not write: refused with the value, what is allowed, and no word of a database. */
#include "cro-edit.h"
#include "cro-refusal.h"
#include "cro-words.h"
#include "support/kitchen-book.h"
#include "support/locales.h"

#define M(value) ((gint64) ((value) * 1e6 + 0.5))

typedef struct
{
  CroTestFolder folder;
  CroBook      *book;
  gint64        item, plate, supplier, offer;
} Fixture;

static int
setup (void **state)
{
  Fixture *f = g_new0 (Fixture, 1);
  GError *error = NULL;
  guint32 item, recipe, supplier, offer;
  CroNewOffer pack = { .supplier = CRO_NO_SLOT, .supplier_name = "Quay", .pack_count = M (1),
                       .pack_size = M (5), .pack_unit = CRO_UNIT_KG };

  setlocale (LC_ALL, "C");
  f->folder = cro_test_folder_new ();
  f->book = cro_test_book_create (f->folder.path);
  cro_test_must (cro_edit_add_ingredient (f->book, "a", "Crab", CRO_BASE_GRAM, NULL, &item, &error),
                 error);
  cro_test_must (cro_edit_add_plate (f->book, "a", "Tartlet", M (24), &recipe, &error), error);
  pack.item = item;
  cro_test_must (cro_edit_add_offer (f->book, "a", &pack, &offer, &error), error);
  supplier = cro_edit_find_name (cro_book_get_model (f->book), CRO_NAMES_SUPPLIERS, "Quay").slot;
  f->item = cro_model_item (cro_book_get_model (f->book), item)->id;
  f->plate = cro_model_recipe (cro_book_get_model (f->book), recipe)->id;
  f->offer = cro_model_offer (cro_book_get_model (f->book), offer)->id;
  f->supplier = g_array_index (cro_book_get_model (f->book)->suppliers, CroSupplier, supplier).id;
  *state = f;
  return 0;
}

static int
teardown (void **state)
{
  Fixture *f = *state;

  g_object_unref (f->book);
  cro_test_folder_clear (&f->folder);
  g_free (f);
  return 0;
}

static gint64
id_of (Fixture    *f,
       const char *table)
{
  return strcmp (table, "ingredient") == 0 || strcmp (table, "item") == 0 ? f->item
         : strcmp (table, "supplier") == 0                              ? f->supplier
         : strcmp (table, "offer") == 0                                 ? f->offer
         : strcmp (table, "book") == 0                                  ? 1
                                                                        : f->plate;
}

static void
expect_refused (Fixture    *f,
                const char *says,
                const char *table,
                const char *column,
                CroCell     cell,
                int         kind,
                const char *sentence)
{
  const char *columns[] = { column, NULL };
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;

  if (cro_edit_set (f->book, "a", table, id_of (f, table), columns, &cell, &error))
    fail_msg ("%s: it was written", says);
  if (!g_error_matches (error, CRO_REFUSAL, kind))
    fail_msg ("%s: refused for %s %d", says, g_quark_to_string (error->domain), error->code);
  text = cro_words_error (error);
  if (strcmp (text, sentence) != 0)
    fail_msg ("%s: it says \"%s\"", says, text);
}

static void
test_values (void **state)
{
  Fixture *f = *state;

  expect_refused (f, "a target above all", "plate", "target_pct_micro", CRO_CELL_INT (M (130)),
                  CRO_FAULT_OUT_OF_RANGE, "“130” is out of range (above 0, at most 100)");
  expect_refused (f, "no bites", "plate", "makes_micro", CRO_CELL_INT (0), CRO_FAULT_OUT_OF_RANGE,
                  "“0” is out of range (above 0)");
  expect_refused (f, "a price below 0", "plate", "price_micro", CRO_CELL_INT (-M (3.5)),
                  CRO_FAULT_OUT_OF_RANGE, "“−3.5” is out of range (0 or more)");
  expect_refused (f, "nothing where something must be", "plate", "makes_micro", CRO_CELL_NONE,
                  CRO_FAULT_MISSING_VALUE, "a value is needed here");
  expect_refused (f, "a currency of nobody", "book", "currency", CRO_CELL_STR ("ABC"),
                  CRO_FAULT_NOT_A_CURRENCY,
                  "“ABC” is not a currency of ISO 4217; use a code such as EUR");
  expect_refused (f, "a unit of no kind", "offer", "pack_unit", CRO_CELL_STR ("bunch"),
                  CRO_FAULT_NOT_A_UNIT,
                  "“bunch” is not a unit; use one of: mg, g, kg, oz, lb, ml, cl, dl, l, tsp, "
                  "tbsp, metric-cup, us-tsp, us-tbsp, us-fl-oz, us-cup, us-pt, us-qt, us-gal, "
                  "imp-fl-oz, imp-pt, imp-qt, imp-gal, each, dozen");
  expect_refused (f, "a choice that is none", "supplier", "quotes", CRO_CELL_STR ("crate"),
                  CRO_FAULT_NOT_A_CHOICE, "“crate” is not allowed; use one of: pack, base unit");
}

static void
test_names (void **state)
{
  static const struct { const char *says, *name, *character; } cases[] = {
    { "a line break", "Crab\nmeat", "U+000A" },
    { "a control character", "Crab\033[31m", "U+001B" },
    { "one of the second block", "Crab\302\205meat", "U+0085" },
    { "a line separator", "Crab\342\200\250meat", "U+2028" },
    { "one that turns what follows", "Crab \342\200\256taem", "U+202E" },
    { "one that isolates it", "Crab \342\201\247taem", "U+2067" },
    { "no character at all", "Crab\357\277\276", "U+FFFE" },
    { "nor in another plane", "Crab\360\237\277\277", "U+1FFFF" },
  };
  Fixture *f = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *sentence = strcmp (cases[i].character, "U+000A") == 0
          ? g_strdup ("a name cannot contain a line break; type it on one line")
          : g_strdup_printf ("a name cannot contain the invisible character %s;"
                                                   " type it again", cases[i].character);

      expect_refused (f, cases[i].says, "item", "name", CRO_CELL_STR (cases[i].name),
                      CRO_FAULT_STRAY_CHARACTER, sentence);
      expect_refused (f, cases[i].says, "ingredient", "category", CRO_CELL_STR (cases[i].name),
                      CRO_FAULT_STRAY_CHARACTER, sentence);
      expect_refused (f, cases[i].says, "supplier", "name", CRO_CELL_STR (cases[i].name),
                      CRO_FAULT_STRAY_CHARACTER, sentence);
    }
}

/* Names that people have: accents, other scripts with their marks of direction and joiners. */
static void
test_good_names (void **state)
{
  static const char *const names[] = {
    "Crème fraîche", "Œufs", "カニ", "سرطان", "\342\200\217abc", "نان\342\200\214ها", "½ lobster", "7up",
  };
  Fixture *f = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      GError *error = NULL;

      cro_test_must (cro_edit_rename (f->book, "a", CRO_REF (CRO_REF_ITEM, 0), names[i], &error),
                     error);
    }
}

/* The same word from two keyboards, in every column that holds a name. */
static void
test_composed (void **state)
{
  Fixture *f = *state;
  const char *columns[] = { "category", NULL };
  GError *error = NULL;
  CroCell cell = CRO_CELL_STR (" Cre\314\200me ");
  g_autoptr (CroRows) rows = NULL;

  cro_test_must (cro_book_set (f->book, "a", "ingredient", f->item, "category", &cell, &error),
                 error);
  rows = cro_store_read_one (cro_book_get_store (f->book), "ingredient", f->item, columns, &error);
  assert_true (cro_rows_next (rows, NULL));
  assert_string_equal (cro_rows_get_text (rows, 0), "Crème");
}

/* A preview is refused as the act would be, and leaves no figure behind. */
static void
test_preview (void **state)
{
  Fixture *f = *state;
  CroCell none = CRO_CELL_INT (0);
  g_autofree char *before = cro_test_figures (f->book);
  g_autofree char *after = NULL;
  g_autoptr (GError) error = NULL;

  assert_false (cro_book_preview (f->book, "plate", f->plate, "makes_micro", &none, &error));
  assert_true (g_error_matches (error, CRO_REFUSAL, CRO_FAULT_OUT_OF_RANGE));
  after = cro_test_figures (f->book);
  cro_test_same ("figures after a refused preview", before, after);
}

static void
test_rules_of_the_store (void **state)
{
  static const struct { const char *message, *sentence; } cases[] = {
    { "UNIQUE constraint failed: rate.currency, rate.from_date",
      "there is an entry with the same currency, date already; change the existing one" },
    { "FOREIGN KEY constraint failed",
      "this is used elsewhere in the book; remove it there first" },
    { "CHECK constraint failed: price_micro >= 0",
      "this value is out of range; check the number and its unit" },
    { "offer has no row 12", "this is no longer in the book; it was removed meanwhile" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = g_error_new_literal (CRO_STORE_ERROR, CRO_STORE_ERROR_RULE,
                                                      cases[i].message);
      g_autofree char *text = cro_words_error (error);

      assert_string_equal (text, cases[i].sentence);
    }
}

/* Whoever finds the disk full, one sentence says it. */
static void
test_full_disk (void **state)
{
  g_autoptr (GError) of_store = g_error_new_literal (CRO_STORE_ERROR, CRO_STORE_ERROR_SYSTEM,
                                                     "database or disk is full");
  g_autoptr (GError) of_file = g_error_new_literal (G_FILE_ERROR, G_FILE_ERROR_NOSPC,
                                                    "Failed to write file “j.csv.ZME3Y3”");
  g_autofree char *store = cro_words_error (of_store), *file = cro_words_error (of_file);

  assert_string_equal (store, "the disk is full; make room on it and try again");
  assert_string_equal (file, store);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (test_values, setup, teardown),
    cmocka_unit_test_setup_teardown (test_names, setup, teardown),
    cmocka_unit_test_setup_teardown (test_good_names, setup, teardown),
    cmocka_unit_test_setup_teardown (test_composed, setup, teardown),
    cmocka_unit_test_setup_teardown (test_preview, setup, teardown),
    cmocka_unit_test (test_rules_of_the_store), cmocka_unit_test (test_full_disk),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
