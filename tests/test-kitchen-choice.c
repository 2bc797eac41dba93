/* Choices of a menu under edits: their shares come to 100 per cent whatever a person does, and what
 * would not is refused and changes nothing. */
#include "cro-breakdown.h"
#include "cro-edit.h"
#include "cro-figure-words.h"
#include "cro-menu-ways.h"
#include "support/kitchen-book.h"

#include <math.h>

#define PCT(value) ((gint64) ((value) * 1000000))

/* Three alternatives whose shares are all entered, two of which one is, and a plate of its own. */
static int
setup (void **state)
{
  static const CroTestTable tables[] = {
    { "book", "key,value\ncurrency,EUR\n" },
    { "plates", "name,makes\nOyster,1\nRazor,1\nCockle,1\nHake,1\nMullet,1\nBread,1\n" },
    { "menus", "name,price\nTide,90\n" },
    { "selling_prices", "name,from,price,tax_pct\nTide,2026-01-01,80,\nTide,2026-03-01,95,10\n"
                        "Hake,2026-01-01,30,\nHake,2026-02-01,,\n" },
    { "menu_plates", "menu,plate,choice,position,share_pct\nTide,Oyster,first,1,50\n"
                     "Tide,Razor,first,2,30\nTide,Cockle,first,3,20\nTide,Hake,last,4,60\n"
                     "Tide,Mullet,last,5,\nTide,Bread,,6,\n" },
    { NULL, NULL },
  };

  return cro_test_book_of_tables (state, tables);
}

static guint32
entry_of (CroBook    *book,
          const char *plate)
{
  CroModel *model = cro_book_get_model (book);

  for (guint32 i = 0; i < model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, i);

      if (!entry->is_dead && strcmp (cro_model_recipe (model, entry->plate)->name, plate) == 0)
        return i;
    }
  fail_msg ("%s is on no menu", plate);
  return 0;
}

/* "Oyster 50 Razor 30 …", in order, per cents as they are taken; "!" where a choice is not whole. */
static char *
dup_shares (CroBook *book)
{
  CroModel *model = cro_book_get_model (book);
  guint32 menu = cro_edit_find_name (model, CRO_NAMES_THINGS, "Tide").slot;
  g_autoptr (CroMenuWays) ways = cro_menu_ways_new (model, menu);
  GString *text = g_string_new (ways->bad < ways->plates->len ? "!" : NULL);

  for (guint i = 0; i < ways->plates->len; i++)
    {
      const CroMenuPlate *entry = ways->plates->pdata[i];

      g_string_append_printf (text, "%s%s %g", i > 0 ? " " : "",
                              cro_model_recipe (model, entry->plate)->name,
                              round (100 * cro_menu_share (model, entry)));
    }
  return g_string_free (text, FALSE);
}

static void
expect (CroBook    *book,
        const char *says,
        const char *shares)
{
  g_autofree char *now = dup_shares (book);
  g_autofree char *figures = cro_test_figures (book);
  g_autofree char *fresh = cro_test_fresh_figures (book);

  cro_test_same (says, now, shares);
  cro_test_same (says, figures, fresh);
}

#define START "Oyster 50 Razor 30 Cockle 20 Hake 60 Mullet 40 Bread 100"

static void
test_a_plate_that_leaves (void **state)
{
  CroBook *book = ((CroTestKitchen *) *state)->book;
  GError *error = NULL;

  expect (book, "as loaded", START);
  cro_test_must (cro_edit_remove_from_menu (book, "r", entry_of (book, "Oyster"), &error), error);
  expect (book, "shares that no longer make 100 are taken alike",
          "Razor 50 Cockle 50 Hake 60 Mullet 40 Bread 100");
  cro_test_must (cro_edit_remove_from_menu (book, "r", entry_of (book, "Hake"), &error), error);
  expect (book, "an open share takes what is left",
          "Razor 50 Cockle 50 Mullet 100 Bread 100");
  cro_test_must (cro_book_undo (book, NULL, &error) && cro_book_undo (book, NULL, &error), error);
  expect (book, "one undo gives back the plate and all shares", START);
}

static void
test_a_plate_on_a_menu_is_not_deleted (void **state)
{
  CroBook *book = ((CroTestKitchen *) *state)->book;
  CroRef hake = cro_edit_find_name (cro_book_get_model (book), CRO_NAMES_THINGS, "Hake");
  GError *error = NULL;

  assert_false (cro_edit_remove (book, "d", hake, &error));
  assert_true (g_error_matches (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_IN_USE));
  g_clear_error (&error);
  expect (book, "nothing is changed", START);
  cro_test_must (cro_edit_remove_from_menu (book, "r", entry_of (book, "Hake"), &error), error);
  cro_test_must (cro_edit_remove (book, "d", hake, &error), error);
  expect (book, "off the menu it may go, and its prices with it",
          "Oyster 50 Razor 30 Cockle 20 Mullet 100 Bread 100");
}

static gboolean
set_share (CroBook     *book,
           const char  *plate,
           gint64       share,
           GError     **error)
{
  guint32 entry = entry_of (book, plate);

  return cro_edit_set_shares (book, "s", &entry, &share, 1, error);
}

static void
test_shares (void **state)
{
  CroBook *book = ((CroTestKitchen *) *state)->book;
  guint32 all[] = { entry_of (book, "Oyster"), entry_of (book, "Razor"),
                    entry_of (book, "Cockle") };
  const gint64 parts[] = { PCT (20), PCT (70), PCT (10) };
  GError *error = NULL;

  assert_false (set_share (book, "Razor", PCT (70), &error));
  assert_true (g_error_matches (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_SHARES));
  assert_string_equal (error->message, "first");
  g_clear_error (&error);
  expect (book, "50 + 70 + 20 is refused", START);
  cro_test_must (set_share (book, "Oyster", CRO_NO_SHARE, &error), error);
  expect (book, "an open share takes what is left", START);
  cro_test_must (set_share (book, "Razor", PCT (70), &error), error);
  expect (book, "70 + 20 leaves 10",
          "Oyster 10 Razor 70 Cockle 20 Hake 60 Mullet 40 Bread 100");
  cro_test_must (cro_edit_set_shares (book, "s", all, parts, 3, &error), error);
  expect (book, "all of a choice at once",
          "Oyster 20 Razor 70 Cockle 10 Hake 60 Mullet 40 Bread 100");
  assert_false (cro_edit_set_shares (book, "s", all, parts, 2, &error)
                && cro_edit_set_shares (book, "s", all + 1, parts, 2, &error));
  g_clear_error (&error);
}

static void
test_choices (void **state)
{
  CroBook *book = ((CroTestKitchen *) *state)->book;
  CroCell first = CRO_CELL_STR ("first"), last = CRO_CELL_STR ("last"), none = CRO_CELL_NONE;
  GError *error = NULL;

  cro_test_must (cro_edit_set_choice (book, "c", entry_of (book, "Cockle"), &last, &error), error);
  expect (book, "both choices stay whole",
          "Oyster 50 Razor 50 Cockle 20 Hake 60 Mullet 20 Bread 100");
  cro_test_must (cro_edit_set_choice (book, "c", entry_of (book, "Cockle"), &none, &error), error);
  expect (book, "outside of choices each guest has it",
          "Oyster 50 Razor 50 Cockle 100 Hake 60 Mullet 40 Bread 100");
  cro_test_must (cro_edit_set_choice (book, "c", entry_of (book, "Bread"), &first, &error), error);
  expect (book, "who comes takes an equal part",
          "Oyster 33 Razor 33 Cockle 100 Hake 60 Mullet 40 Bread 33");
}

static void
test_a_whole_choice (void **state)
{
  CroBook *book = ((CroTestKitchen *) *state)->book;
  guint32 all[] = { entry_of (book, "Oyster"), entry_of (book, "Razor"), entry_of (book, "Cockle") };
  CroCell shell = CRO_CELL_STR ("shell"), pair = CRO_CELL_STR ("pair"), last = CRO_CELL_STR ("last");
  CroCell none = CRO_CELL_NONE;
  GError *error = NULL;

  cro_test_must (cro_edit_set_choices (book, "c", all, 3, &shell, &error), error);
  expect (book, "a choice that is renamed keeps its shares", START);
  cro_test_must (cro_edit_set_choices (book, "c", all, 2, &pair, &error), error);
  expect (book, "a part of it is another choice, and both are whole",
          "Oyster 50 Razor 50 Cockle 100 Hake 60 Mullet 40 Bread 100");
  cro_test_must (cro_book_undo (book, NULL, &error), error);
  cro_test_must (cro_edit_set_choices (book, "c", all, 3, &last, &error), error);
  expect (book, "what joins another choice has no shares",
          "Oyster 10 Razor 10 Cockle 10 Hake 60 Mullet 10 Bread 100");
  cro_test_must (cro_book_undo (book, NULL, &error), error);
  cro_test_must (cro_edit_set_choices (book, "c", all, 3, &none, &error), error);
  expect (book, "what is dissolved is had by each guest",
          "Oyster 100 Razor 100 Cockle 100 Hake 60 Mullet 40 Bread 100");
  cro_test_must (cro_book_undo (book, NULL, &error) && cro_book_undo (book, NULL, &error), error);
  expect (book, "each is one act", START);
}

/* --- What each takes ---------------------------------------------------------------------------------------------- */

/* Three plates of leek for 0.155 each on a menu of 10 net: 1.55 % of it each, whoever divides the two, although three
 * times 1.6 is not the menu's 4.7; and a third of its cost each. */
static void
test_parts_by_themselves (void **state)
{
  CroTestFolder folder = cro_test_folder_new ();
  g_autoptr (CroBook) book = NULL;
  CroFigures *figures;
  CroModel *model;

  cro_test_write_table (folder.folder, "book", "key,value\ncurrency,EUR\n");
  cro_test_write_table (folder.folder, "ingredients", "name,unit\nLeek,g\n");
  cro_test_write_table (folder.folder, "suppliers", "name\nThe market\n");
  cro_test_write_table (folder.folder, "offers",
                        "ingredient,supplier,pack_count,pack_size,pack_unit\nLeek,The market,1,1,kg\n");
  cro_test_write_table (folder.folder, "prices", "ingredient,supplier,from,price\nLeek,The market,2020-01-01,1.55\n");
  cro_test_write_table (folder.folder, "plates", "name,makes\nOyster,1\nRazor,1\nCockle,1\n");
  cro_test_write_table (folder.folder, "lines",
                        "into,parent,position,item,amount,unit\nplate,Oyster,1,Leek,100,g\n"
                        "plate,Razor,1,Leek,100,g\nplate,Cockle,1,Leek,100,g\n");
  cro_test_write_table (folder.folder, "menus", "name,price\nTide,10\n");
  cro_test_write_table (folder.folder, "menu_plates", "menu,plate\nTide,Oyster\nTide,Razor\nTide,Cockle\n");
  book = cro_test_book_load (&folder);
  figures = cro_book_get_figures (book);
  model = cro_book_get_model (book);
  for (guint i = 0; i < model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, i);
      CroFigure plate = cro_figure_of_plate (figures, entry->plate);
      CroPartOfMenu part = cro_part_of_menu (figures, entry, &plate);

      g_autofree char *of_price = cro_words_part_of_price (&part, &plate);
      g_autofree char *of_cost = cro_words_part_of_cost (&part, &plate);
      g_autofree char *price_cell = cro_words_part_of_price_short (&part, &plate);
      g_autofree char *cost_cell = cro_words_part_of_cost_short (&part, &plate);

      assert_string_equal (of_price, "1.6\302\240%");
      assert_string_equal (of_cost, "33.3\302\240%");
      assert_string_equal (price_cell, of_price);
      assert_string_equal (cost_cell, of_cost);
    }
  g_clear_object (&book);
  cro_test_folder_clear (&folder);
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, setup, cro_test_kitchen_tear_down)
  const struct CMUnitTest tests[] = {
    CASE (test_a_plate_that_leaves),
    CASE (test_a_plate_on_a_menu_is_not_deleted),
    CASE (test_shares),
    CASE (test_choices),
    CASE (test_a_whole_choice),
    cmocka_unit_test (test_parts_by_themselves),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
