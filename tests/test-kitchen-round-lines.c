/* What is pasted into a round of new prices, or added to it, and stands in none of its rows: packs that are new, names
 * that are like others, twins, and what was told of a line before. */
#include "cro-decimal.h"
#include "cro-round-words.h"
#include "support/kitchen-round.h"

#include <math.h>
#include <string.h>

/* A line of the supplier's code, a name in another number, one that nothing is called, one with a slip. */
static void
test_pasted (void **state)
{
  g_autoptr (CroRound) round = round_of (*state, "Quay");
  g_autoptr (CroPriceList) taken = NULL;
  g_autoptr (GError) error = NULL;
  guint crab = row_of (round, "Crab");

  assert_true (cro_round_take_text (round, "101 69.50\negg 48\ncrab claws 2 kg 30.00\nmussel 210\n", NULL, &taken,
                                    &error));
  assert_no_error (error);
  assert_true (cro_round_row_is_ready (cro_round_get_row (round, crab)));
  assert_true (cro_round_get_row (round, crab)->list.price == 69500000);
  assert_int_equal (cro_round_count_ready (round), 2);
  assert_int_equal (cro_round_count_waiting (round), 2);
  assert_int_equal (cro_round_get_n_rows (round), 4);
  /* What is like crab is made only if somebody says so. */
  assert_true (cro_round_can_be_right (round, 3));
  assert_true (cro_round_is_right (round, 3, &error));
  assert_int_equal (cro_round_count_ready (round), 3);
  assert_int_equal (cro_round_find (round, "mus", 2), row_of (round, "Mussels"));
  assert_int_equal (cro_round_find (round, "e1", 0), row_of (round, "Egg"));
}

static void
test_order_of_the_last_list (void **state)
{
  g_autoptr (CroRound) round = round_of (*state, "Quay");
  g_autoptr (CroPriceList) taken = NULL, some = NULL;
  g_autoptr (CroRoundPost) posted = NULL;
  g_autoptr (GError) error = NULL;

  /* One of some packs moves none. */
  assert_true (cro_round_take_text (round, "Code,Price\n101,66.50\nE1,46\n", NULL, &some, &error));
  assert_no_error (error);
  assert_int_equal (cro_round_count_ready (round), 2);
  cro_round_post_free (post (round));
  assert_int_equal (row_of (round, "Mussels"), 0);
  assert_true (cro_round_take_text (round, "Code,Price\n101,66.60\nE1,46.10\n102,21.10\n", NULL, &taken, &error));
  posted = post (round);
  assert_int_equal (row_of (round, "Crab"), 0);
  assert_int_equal (row_of (round, "Egg"), 1);
  assert_int_equal (row_of (round, "Mussels"), 2);
}

/* What a row without a price leaves standing: the price of an earlier day, another supplier's, or none;
 * before posting as after it. By hand: 66.00 / 5 kg, 3.60 pounds at 1.2. */
static void
test_not_to_be_had (void **state)
{
  CroTestKitchen *kitchen = *state;
  CroFigures *figures = cro_book_get_figures (kitchen->book);
  guint32 crab = cro_edit_find_name (cro_book_get_model (kitchen->book), CRO_NAMES_ITEMS, "Crab").slot;
  g_autoptr (CroRound) round = round_of (kitchen, "Quay");
  g_autoptr (CroRoundPost) first = NULL, second = NULL;
  g_autofree char *last = NULL, *instead = NULL, *none = NULL, *now = NULL, *fresh = NULL;
  g_autoptr (GError) error = NULL;
  guint turbot;

  type (round, "Crab", "70");
  cro_round_add (round, "turbot 3 kg 24.50/kg", &turbot, &error);
  first = post (round);
  type (round, "Crab", "-");
  last = cro_words_round_note (round, row_of (round, "Crab"));
  assert_string_equal (last, "The last price, 13.20/kg, stays in use, and is marked.");
  type (round, "Mussels", "-");
  instead = cro_words_round_note (round, row_of (round, "Mussels"));
  assert_string_equal (instead, "Far Bank serves instead, 4.32/kg.");
  type (round, "turbot", "-");
  none = cro_words_round_note (round, row_of (round, "turbot"));
  assert_string_equal (none, "No price is left: what takes it has a price missing.");
  second = post (round);
  assert_true (fabs (cro_figures_unit_cost (figures, crab) - 0.0132) < 1e-9);
  now = cro_test_figures (kitchen->book);
  fresh = cro_test_fresh_figures (kitchen->book);
  cro_test_same ("posting is in the figures", now, fresh);
}

static const CroRoundRow *
added_row (CroRound   *round,
           const char *name)
{
  for (guint i = 0; i < cro_round_get_n_rows (round); i++)
    if (cro_round_get_row (round, i)->is_added && g_strcmp0 (cro_round_get_row (round, i)->list.name, name) == 0)
      return cro_round_get_row (round, i);
  fail_msg ("there is no row of %s", name);
  return NULL;
}

static void
assert_strangers (CroRound *round)
{
  static const struct { const char *name, *text; gint64 price, count, size; CroUnit unit; } cases[] = {
    { "Turbot", "Turbot 3 kg 73.50", 73500000, 1, 3, CRO_UNIT_KG },
    { "butter", "butter 20 × 250 g 51.00", 51000000, 20, 250, CRO_UNIT_G },
    { "Dried yeast", "Dried yeast 20 × 500 g 108.00", 108000000, 20, 500, CRO_UNIT_G },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const CroRoundRow *row = added_row (round, cases[i].name);

      assert_string_equal (row->text, cases[i].text);
      assert_true (row->list.price == cases[i].price);
      assert_true (row->list.pack.count == cases[i].count * CRO_MICRO);
      assert_true (row->list.pack.size == cases[i].size * CRO_MICRO);
      assert_int_equal (row->list.pack.unit, cases[i].unit);
      assert_true (cro_round_row_waits (row));
    }
}

/* 24.50 per kg is 73.50 for 3 kg, pasted as typed. What waits is what was read, and waits on, when others
 * are posted and when it was set aside. */
static void
test_pasted_lines_stay (void **state)
{
  g_autoptr (CroRound) round = round_of (*state, "Quay"), again = NULL;
  g_autoptr (CroPriceList) taken = NULL, table = NULL;
  g_autoptr (CroRoundPost) posted = NULL;
  g_autofree char *aside = NULL;
  g_autoptr (GError) error = NULL;
  guint n;

  assert_true (cro_round_take_text (round,
                                    "Good morning! new list:\nTurbot 3 kg 24.50/kg\nbutter 20x250g 51.00\n"
                                    "Dried yeast 108.00 (20 x 500 g)\n101 69.50\n",
                                    NULL, &taken, &error));
  assert_no_error (error);
  assert_int_equal (cro_round_count_waiting (round), 3);
  assert_strangers (round);
  posted = post (round);
  assert_int_equal (posted->rows->len, 1);
  assert_strangers (round);
  /* Undone it is there once more, and nothing twice; what was typed since stays. */
  n = cro_round_get_n_rows (round);
  for (guint turn = 0; turn < 2; turn++)
    {
      assert_true (cro_round_undo (cro_round_get_book (round), NULL, posted, NULL, &error));
      assert_true (cro_round_renew (round, cro_round_get_from (round), &error));
      if (turn == 1)
        type (round, "Crab", "69");
      assert_true (cro_round_retype (round, posted, &error));
      assert_int_equal (cro_round_get_n_rows (round), n);
      assert_string_equal (cro_round_get_row (round, row_of (round, "Crab"))->text, turn == 1 ? "69" : "69.50");
      g_clear_pointer (&posted, cro_round_post_free);
      posted = post (round);
    }
  aside = cro_round_to_text (round);
  again = round_of (*state, "Quay");
  assert_true (cro_round_put_text (again, aside, &error));
  assert_no_error (error);
  assert_strangers (again);
  /* A code that nobody used yet is no part of a name. */
  assert_true (cro_round_take_text (again, "Code,Name,Pack,Price\nZ99,Pistachio paste,1 kg,42.00\n", NULL, &table,
                                    &error));
  assert_true (cro_round_renew (again, cro_round_get_from (again), &error));
  assert_string_equal (added_row (again, "Pistachio paste")->list.code, "Z99");
  /* The same list again brings nothing twice, but what it says now. */
  n = cro_round_get_n_rows (again);
  g_clear_pointer (&table, cro_price_list_free);
  assert_true (cro_round_take_text (again, "Code,Name,Pack,Price\nZ99,Pistachio paste,1 kg,43.00\n", NULL, &table,
                                    &error));
  assert_int_equal (cro_round_get_n_rows (again), n);
  assert_true (added_row (again, "Pistachio paste")->list.price == 43000000);
}

/* A note that leaves open whether all prices have tax is answered as the last price is: crab's has none, an egg's
 * has. */
static void
test_tax_of_all_is_left_open (void **state)
{
  static const struct { const char *name, *meant; } cases[] = {
    { "Crab", "67.00 ex VAT" },
    { "Egg", "46.00 incl. VAT" },
  };
  g_autoptr (CroRound) round = round_of (*state, "Quay");
  g_autoptr (CroPriceList) taken = NULL;
  g_autoptr (GError) error = NULL;

  assert_true (cro_round_take_text (round, "Prices partly include VAT\nCrab 67.00\nE1 46.00\n", NULL, &taken, &error));
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      guint index = row_of (round, cases[i].name);
      g_autofree char *meant = cro_round_dup_suggestion (round, index);

      assert_true (cro_round_row_waits (cro_round_get_row (round, index)));
      assert_string_equal (meant, cases[i].meant);
      assert_true (cro_round_suggest (round, index, &error));
      assert_true (cro_round_row_is_ready (cro_round_get_row (round, index)));
    }
}

/* One that says of none that it has any is answered once, and stays so in what is set aside: 5.5 % was in an egg's. */
static void
test_no_tax_of_all_is_asked_once (void **state)
{
  g_autoptr (CroRound) first = round_of (*state, "Quay"), again = round_of (*state, "Quay");
  g_autoptr (CroPriceList) taken = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *aside = NULL;
  CroRoundRow *egg;

  assert_true (cro_round_take_text (first, "Veg is zero-rated\nCrab 67.00\nE1 46.00\n", NULL, &taken, &error));
  aside = cro_round_to_text (first);
  assert_true (cro_round_put_text (again, aside, &error));
  egg = cro_round_get_row (again, row_of (again, "Egg"));
  assert_true (cro_round_row_waits (egg));
  assert_true (cro_round_is_right (again, row_of (again, "Crab"), &error));
  assert_true (cro_round_row_is_ready (cro_round_get_row (again, row_of (again, "Crab"))));
  assert_true (cro_round_row_is_ready (egg));
  assert_true (egg->list.tax == 0);
}

/* 48.00 for 6 × 30 eggs: 0.2667 each, with the tax that the last price had. */
static void
test_tax_is_said (void **state)
{
  g_autoptr (CroRound) round = round_of (*state, "Quay");
  g_autofree char *egg = NULL, *crab = NULL;
  g_autoptr (CroRoundPost) posted = NULL;

  type (round, "Egg", "48");
  egg = cro_words_round_other (round, cro_round_get_row (round, row_of (round, "Egg")));
  crab = cro_words_round_other (round, cro_round_get_row (round, row_of (round, "Crab")));
  assert_string_equal (crab, "13.20/kg");
  assert_non_null (strstr (egg, ", with 5.5\u00a0% tax"));
  posted = post (round);
  assert_true (cro_model_offer (cro_book_get_model (((CroTestKitchen *) *state)->book), 2)->offer.tax_included
               == 5500000);
}

/* Eggs had 5.5 % in their last price, mussels none: what is typed of tax is obeyed, and stays with the price when it is
 * read again; at what rate mussels are with tax is said, or asked. Words are common practice, no source. */
static void
test_tax_that_is_typed (void **state)
{
  static const struct { const char *name, *text; gint64 price, tax; } cases[] = {
    { "Egg", "45 ex VAT", 45000000, 0 },      { "Egg", "45,00 € HT", 45000000, 0 },
    { "Egg", "HT 45", 45000000, 0 },          { "Egg", "45/6 x 30 pc HT", 45000000, 0 },
    { "Egg", "48 T.T.C.", 48000000, 5500000 }, { "Mussels", "21.50 + VAT", 21500000, 0 },
    { "Mussels", "23,65 TTC 10 %", 23650000, 10000000 },
    { "Mussels", "23.65 incl. 10 % VAT", 23650000, 10000000 },
    { "Mussels", "26 incl. VAT", 0, 0 },      { "Egg", "45 HT TTC", 0, 0 },
  };
  static const struct { const char *text, *name, *typed; gint64 tax; } lists[] = {
    { "E1 45.00 ex VAT\n", "Egg", "45.00 ex VAT", 0 },
    { "Code,Price ex VAT\nE1,45.00\n", "Egg", "45.00 ex VAT", 0 },
    { "Mussels 23.65 (TVA 10 % incluse)\n", "Mussels", "23.65 incl. 10 % VAT", 10000000 },
  };
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CroRound) round = round_of (*state, "Quay");
      CroListRow list;

      type (round, cases[i].name, cases[i].text);
      list = cro_round_get_row (round, row_of (round, cases[i].name))->list;
      if (list.has_price != (cases[i].price > 0)
          || (list.has_price && (list.price != cases[i].price || list.tax != cases[i].tax)))
        {
          g_clear_pointer (&round, cro_round_free);
          fail_msg ("“%s”: %g with %g", cases[i].text, (double) list.price / 1e6, (double) list.tax / 1e6);
        }
    }
  for (gsize i = 0; i < G_N_ELEMENTS (lists); i++)
    {
      g_autoptr (CroRound) round = round_of (*state, "Quay"), again = round_of (*state, "Quay");
      g_autoptr (CroPriceList) taken = NULL;
      g_autofree char *aside = NULL;
      guint row = row_of (round, lists[i].name);

      assert_true (cro_round_take_text (round, lists[i].text, NULL, &taken, &error));
      assert_string_equal (cro_round_get_row (round, row)->text, lists[i].typed);
      aside = cro_round_to_text (round);
      assert_true (cro_round_put_text (again, aside, &error));
      assert_true (cro_round_get_row (again, row)->list.tax == lists[i].tax);
      assert_true (cro_round_renew (again, cro_round_get_from (again), &error));
      assert_true (cro_round_get_row (again, row)->list.has_price
                   && cro_round_get_row (again, row)->list.tax == lists[i].tax);
    }
}

static void
give_up (CroTestKitchen *kitchen,
         guint32         offer)
{
  static const char *const columns[] = { "until", NULL };
  const CroCell day = CRO_CELL_STR ("2026-02-10");
  CroModel *model = cro_book_get_model (kitchen->book);
  g_autoptr (GError) error = NULL;

  assert_true (cro_book_begin_act (kitchen->book, "until", &error));
  assert_true (cro_store_update (cro_book_get_store (kitchen->book), "offer", cro_model_offer (model, offer)->id,
                                 columns, &day, &error));
  assert_true (cro_book_end_act (kitchen->book, &error));
}

/* Crab of 2 kg, under a code of its own, was bought until 10 February: a line of that size may be of it, whatever else
 * the supplier has, and its price brings it back to no plate. */
static void
test_pack_that_was_given_up (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) before = round_of (kitchen, "Quay"), round = NULL;
  g_autoptr (CroPriceList) taken = NULL;
  g_autoptr (CroRoundPost) posted = NULL;
  g_autofree char *of_size = NULL, *of_code = NULL, *of_other = NULL, *of_both = NULL;
  g_autoptr (GError) error = NULL;
  CroModel *model;
  guint n, added;

  assert_true (cro_round_take_text (before, "Code,Name,Pack,Price\n110,Crab,2 kg,27.00\n", NULL, &taken, &error));
  posted = post (before);
  model = cro_book_get_model (kitchen->book);
  give_up (kitchen, model->offers->len - 1);
  round = round_of (kitchen, "Quay");
  n = cro_round_get_n_rows (round);
  g_clear_pointer (&taken, cro_price_list_free);
  assert_true (cro_round_take_text (round, "Crab 2 kg 28.00\n110 Crab 26.00\nCrab 4 kg 56.00\n", NULL, &taken,
                                    &error));
  assert_int_equal (cro_round_get_n_rows (round), n + 2);
  of_size = cro_words_round_note (round, n);
  of_code = cro_words_round_note (round, n + 1);
  of_other = cro_words_round_note (round, row_of (round, "Crab"));
  assert_string_equal (of_size, "Which pack? 101 1 × 5 kg, 110 1 × 2 kg (bought until 2026-02-10). Write its code with"
                                " the price.");
  assert_string_equal (of_code, "The pack is bought until 2026-02-10, as the book says: no plate takes this price.");
  assert_string_equal (of_other, "Pack today: 4 kg, before: 5 kg.");
  /* Typed with a code that is not of that size it is no row of that code's pack before that is answered. */
  assert_true (cro_round_add (round, "101 Crab 2 kg 28.00", &added, &error));
  of_both = cro_words_round_note (round, added);
  assert_true (cro_round_get_row (round, added)->is_added && !cro_round_can_be_right (round, added));
  assert_non_null (strstr (of_both, "The size is not that of 101"));
}

/* Who states prices per kg may have written that of the pack: 8.20 for 6 × 100 g are 13.67 per kg; 8.50 per kg would be
 * 37.8 % less, by hand. */
static void
test_price_of_the_pack_of_who_states_per_kg (void **state)
{
  g_autoptr (CroRound) round = round_of (*state, "Far Bank");
  g_autoptr (CroPriceList) taken = NULL;
  g_autofree char *note = NULL, *meant = NULL;
  g_autoptr (GError) error = NULL;
  const CroRoundRow *hake;
  guint index;

  type (round, "Hake", "8.20/6 x 100 g");
  cro_round_is_right (round, row_of (round, "Hake"), &error);
  cro_round_post_free (post (round));
  index = row_of (round, "Hake");
  type (round, "Hake", "8.50");
  note = cro_words_round_note (round, index);
  assert_string_equal (note, "The price may be for 6 × 100 g: per unit it differs by −37.8\u00a0%. "
                             "Is it right as it stands?");
  meant = cro_round_dup_suggestion (round, index);
  assert_string_equal (meant, "8.50/6 × 100 g");
  assert_true (cro_round_suggest (round, index, &error));
  hake = cro_round_get_row (round, index);
  assert_true (cro_round_row_is_ready (hake) && hake->list.price == 8500000);
  /* What is near as it stands is per kg. */
  type (round, "Hake", "14");
  assert_true (cro_round_row_is_ready (hake) && hake->list.price == 8400000);
  /* Of 25 lb, 11.34 kg, at 115.00: 116 is 0.9 % more for them; of a slip it would be 11.60 per kg, 14.4 % more. */
  type (round, "Hake", "115/25 lb");
  cro_round_is_right (round, index, &error);
  cro_round_post_free (post (round));
  type (round, "Hake", "116");
  g_free (meant);
  meant = cro_round_dup_suggestion (round, index);
  assert_string_equal (meant, "116.00/25 lb");
}

/* Of two rows of one pack the later asks; the one that is said to be right is the only one left. */
static void
test_twins (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = round_of (kitchen, "Quay");
  g_autoptr (CroPriceList) taken = NULL;
  g_autoptr (CroRoundPost) posted = NULL;
  g_autofree char *note = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *unsure = NULL;
  guint first, second;

  /* One that says no price is another row all the same. */
  assert_true (cro_round_take_text (round, "Crab 67?\nCrab 68\n", NULL, &taken, &error));
  unsure = cro_words_round_note (round, 3);
  assert_string_equal (unsure, "Another row has another price for the same pack. Which one holds?");
  cro_round_remove (round, 3);
  type (round, "Crab", "");
  g_clear_pointer (&taken, cro_price_list_free);
  cro_round_add (round, "turbot 3 kg 24.50/kg", &first, &error);
  cro_round_add (round, "Turbot 3 kg 25.00/kg", &second, &error);
  assert_int_equal (cro_round_count_ready (round), 1);
  note = cro_words_round_note (round, second);
  assert_string_equal (note, "Another row has another price for the same pack. Which one holds?");
  assert_true (cro_round_is_right (round, second, &error));
  assert_int_equal (cro_round_get_n_rows (round), 4);
  /* A change is against the book, whatever another row says. */
  assert_true (cro_round_take_text (round, "101 69.30\n101 79.20\n", NULL, &taken, &error));
  assert_int_equal (cro_round_count_waiting (round), 2);
  assert_true (cro_round_renew (round, cro_round_get_from (round), &error));
  assert_int_equal (cro_round_count_waiting (round), 2);
  assert_true (cro_round_is_right (round, cro_round_get_n_rows (round) - 1, &error));
  assert_int_equal (cro_round_count_waiting (round), 0);
  assert_true (fabs (cro_round_get_row (round, row_of (round, "Crab"))->list.look.ratio - 1.2) < 1e-9);
  posted = post (round);
  assert_int_equal (posted->rows->len, 2);
  assert_true (cro_round_get_row (round, row_of (round, "Turbot"))->last == 75000000);
  assert_true (cro_round_get_row (round, row_of (round, "Crab"))->last == 79200000);
}

static void
assert_row_asks (CroRound   *round,
                 guint       index,
                 const char *says)
{
  g_autofree char *note = cro_words_round_note (round, index);

  assert_true (cro_round_row_waits (cro_round_get_row (round, index)));
  assert_string_equal (note, says);
}

#define WHICH_HOLDS "Another row has another price for the same pack. Which one holds?"

/* Eggs were 45.00 with 5.5 % tax, 42.65 without: whether 42.65 is with it is one question, which of two prices holds
 * another one, and a yes is to the one that is read. */
static void
test_each_question_is_answered (void **state)
{
  g_autoptr (CroRound) round = round_of (*state, "Quay"), again = round_of (*state, "Quay");
  g_autoptr (CroPriceList) taken = NULL, lobsters = NULL;
  g_autofree char *meant = NULL, *aside = NULL;
  g_autoptr (GError) error = NULL;
  guint egg = row_of (round, "Egg"), second = cro_round_get_n_rows (round), lobster;

  for (guint turn = 0; turn < 2; turn++)
    {
      g_clear_pointer (&taken, cro_price_list_free);
      type (round, "Egg", "");
      assert_true (cro_round_take_text (round, "Egg 46\nEgg 42.65\n", NULL, &taken, &error));
      assert_row_asks (round, egg, WHICH_HOLDS);
      assert_row_asks (round, second,
                       "Is 5.5 % tax in it, as in the last price? It then differs by −5.2\u00a0% per unit.");
      assert_true (turn == 0 ? cro_round_is_right (round, second, &error) : cro_round_suggest (round, second, &error));
      assert_row_asks (round, egg, WHICH_HOLDS);
      assert_row_asks (round, second, WHICH_HOLDS);
      assert_true (cro_round_renew (round, cro_round_get_from (round), &error));
      assert_row_asks (round, second, WHICH_HOLDS);
      assert_true (cro_round_is_right (round, second, &error));
      assert_int_equal (cro_round_get_n_rows (round), second);
      assert_true (cro_round_row_is_ready (cro_round_get_row (round, egg)));
      assert_true (cro_round_get_row (round, egg)->list.price == 42650000
                   && cro_round_get_row (round, egg)->list.tax == (turn == 0 ? 5500000 : 0));
    }
  /* Of three rows of what is new the one that was chosen is the only one, set aside too. */
  assert_true (cro_round_add (round, "Lobster 3 kg 40", &lobster, &error));
  assert_true (cro_round_take_text (round, "Lobster 3 kg 44\nLobster 3 kg 45\n", NULL, &lobsters, &error));
  assert_int_equal (cro_round_count_waiting (round), 3);
  assert_true (cro_round_is_right (round, lobster, &error));
  assert_int_equal (cro_round_count_ready (round), 2);
  aside = cro_round_to_text (round);
  assert_true (cro_round_put_text (again, aside, &error));
  assert_int_equal (cro_round_count_ready (again), 2);
  assert_int_equal (cro_round_count_waiting (again), 0);
}

/* What stands in a row gives way to no line of another pack or without a price, and to another list not unsaid. */
static void
test_rows_are_spared (void **state)
{
  g_autofree char *note = NULL;
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = round_of (kitchen, "Quay");
  g_autoptr (CroPriceList) first = NULL, second = NULL;
  g_autoptr (CroRoundPost) posted = NULL;
  g_autoptr (GError) error = NULL;
  guint added;

  type (round, "Crab", "67");
  type (round, "Egg", "46");
  assert_true (cro_round_add (round, "crab 10 kg 129", &added, &error));
  assert_int_equal (added, 3);
  assert_string_equal (cro_round_get_row (round, row_of (round, "Crab"))->text, "67");
  assert_true (cro_round_row_is_ready (cro_round_get_row (round, added)));
  assert_true (cro_round_take_text (round, "Code,Price\n102,22\n101,see note\n", NULL, &first, &error));
  assert_string_equal (cro_round_get_row (round, row_of (round, "Crab"))->text, "67");
  assert_string_equal (cro_round_get_replaced (round), "");
  assert_true (cro_round_take_text (round, "102 23\nE1 47\n", NULL, &second, &error));
  assert_string_equal (cro_round_get_replaced (round), "Mussels: 22.00 · Egg: 46");
  assert_true (cro_round_renew (round, cro_round_get_from (round), &error));
  posted = post (round);
  assert_int_equal (posted->rows->len, 4);
  assert_true (cro_round_get_row (round, row_of (round, "Crab"))->last == 67000000);
  /* What was a slip of the pack is the pack of a row that says another price: which holds is asked. */
  type (round, "Mussels", "22.50");
  assert_true (cro_round_add (round, "mussels 50 kg 23.10", &added, &error));
  assert_true (cro_round_suggest (round, added, &error));
  assert_int_equal (cro_round_row_get_question (cro_round_get_row (round, added))->why, CRO_LIST_TWICE);
  assert_int_equal (cro_round_count_ready (round), 1);
  /* And is still, once that one is posted. */
  g_clear_pointer (&posted, cro_round_post_free);
  posted = post (round);
  assert_int_equal (posted->rows->len, 1);
  assert_int_equal (cro_round_count_ready (round), 0);
  assert_int_equal (cro_round_row_get_question (cro_round_get_row (round, row_of (round, "Mussels")))->why,
                    CRO_LIST_TWICE);
  note = cro_words_round_note (round, row_of (round, "Mussels"));
  assert_string_equal (note, "Another price for this pack is posted. Does this one hold instead?");
}

/* Of who states prices per kg "11.30 kg" is a price; "off" is not to be had, and "skin off" a cut. By hand: 113.00 for
 * 10 kg. "6 x 30" is the pack that the book has of it. */
static void
test_short_lines (void **state)
{
  g_autoptr (CroRound) far = round_of (*state, "Far Bank"), quay = round_of (*state, "Quay");
  g_autoptr (CroPriceList) first = NULL, second = NULL;
  g_autoptr (GError) error = NULL;
  const CroListRow *egg;

  assert_true (cro_round_take_text (far, "M20 hake whole 11.30 kg\nM05 mussels off\nhake skin off\n", NULL, &first,
                                    &error));
  assert_true (cro_round_get_row (far, row_of (far, "Hake"))->list.price == 113000000);
  assert_int_equal (cro_round_get_row (far, row_of (far, "Mussels"))->kind, CRO_ROUND_NONE);
  assert_int_equal (cro_round_count_ready (far), 2);
  assert_true (cro_round_take_text (quay, "E1 eggs 6x30 46.00\n", NULL, &second, &error));
  egg = &cro_round_get_row (quay, row_of (quay, "Egg"))->list;
  assert_true (egg->price == 46000000 && egg->pack.count == 6 * CRO_MICRO && egg->pack.size == 30 * CRO_MICRO);
}

/* A new ingredient in two sizes, and a line of a list that the book does not know, taken twice. */
static void
test_two_new_packs (void **state)
{
  g_autoptr (CroRound) round = round_of (*state, "Quay");
  g_autoptr (CroRoundPost) posted = NULL;
  g_autoptr (GError) error = NULL;
  guint index;

  for (guint turn = 0; turn < 2; turn++)
    {
      g_autoptr (CroPriceList) taken = NULL;

      assert_true (cro_round_take_text (round, "Code,Name,Pack,Price\nZ1,Pollack,2 kg,20.00\n", NULL, &taken, &error));
      assert_int_equal (cro_round_get_n_rows (round), 4);
    }
  cro_round_add (round, "turbot 3 kg 24.50/kg", &index, &error);
  cro_round_add (round, "turbot 1 kg 26", &index, &error);
  assert_int_equal (cro_round_count_ready (round), 2);
  posted = post (round);
  assert_null (posted->failed);
  assert_int_equal (posted->rows->len, 2);
  /* The second is known by its size, and so is its next price. */
  assert_string_equal (cro_round_get_row (round, row_of (round, "turbot") + 1)->list.code, "1 kg");
  cro_round_add (round, "turbot 1 kg 27", &index, &error);
  assert_true (cro_round_get_row (round, index)->id != 0);
  assert_true (cro_round_get_row (round, index)->pack.size == CRO_MICRO);
}

/* The same price twice in a list is one, and goes back as one. */
static void
test_repeated (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autofree char *before = cro_test_figures (kitchen->book), *after = NULL;
  g_autoptr (CroRound) round = round_of (kitchen, "Quay");
  g_autoptr (CroPriceList) taken = NULL;
  g_autoptr (CroRoundPost) posted = NULL;
  g_autoptr (GError) error = NULL;

  assert_true (cro_round_take_text (round, "Code,Name,Pack,Price\n101,Crab,5 kg,69.50\n101,Crab,5 kg,69.50\n", NULL,
                                    &taken, &error));
  assert_int_equal (cro_round_count_ready (round), 1);
  assert_int_equal (cro_round_count_waiting (round), 0);
  posted = post (round);
  assert_true (cro_round_take_back (kitchen->book, "back", NULL, posted->rows->pdata[0], &error));
  after = cro_test_figures (kitchen->book);
  cro_test_same ("it is taken back", before, after);
}

/* Two of three prices of a pack are alike: what is told of the list is what its rows wait for. */
static void
test_repeated_and_contradicted (void **state)
{
  g_autoptr (CroRound) round = round_of (*state, "Quay");
  g_autoptr (CroPriceList) taken = NULL;
  g_autofree char *told = NULL;
  g_autoptr (GError) error = NULL;

  assert_true (cro_round_take_text (round, "Code,Name,Pack,Price\n101,Crab,5 kg,69.50\n101,Crab,5 kg,69.50\n"
                                           "101,Crab,5 kg,70.00\n", NULL, &taken, &error));
  told = cro_words_round_taken (taken);
  assert_string_equal (told, "3 for a second look");
  assert_int_equal (cro_round_count_ready (round), 0);
  assert_int_equal (cro_round_count_waiting (round), 3);
}

/* A pack that the supplier had not before, in the figures before posting as after it: 100 pounds for 10 kg are
 * 12.00 euros per kg, below Quay's 13.20; 120 are above. By hand. */
static void
test_new_pack_is_drafted (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autofree char *before = cro_test_figures (kitchen->book), *after = NULL, *fresh = NULL;
  g_autoptr (CroRound) round = round_of (kitchen, "Far Bank");
  CroFigures *draft = cro_book_get_figures (cro_round_get_draft (round));
  guint32 crab = cro_edit_find_name (cro_book_get_model (kitchen->book), CRO_NAMES_ITEMS, "Crab").slot;
  g_autoptr (CroRoundPost) posted = NULL;
  g_autoptr (CroRoundView) view = NULL;
  g_autoptr (CroRoundEffect) effect = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *dearer = NULL, *cheaper = NULL;
  guint index, other;

  view = cro_round_view_new (round, &error);
  assert_no_error (error);
  assert_true (cro_round_add (round, "Crab 10 kg 120.00", &index, &error));
  dearer = cro_words_round_note (round, index);
  assert_string_equal (dearer, "New pack of Crab. Another pack serves on: it is preferred, or cheaper.");
  assert_true (fabs (cro_figures_unit_cost (draft, crab) - 0.0132) < 1e-9);
  assert_true (cro_round_type (round, index, "Crab 10 kg 100.00", &error));
  cheaper = cro_words_round_note (round, index);
  assert_string_equal (cheaper, "New pack of Crab.");
  effect = cro_round_view_read (view, 6);
  assert_int_equal (effect->moved->len, 1);
  assert_true (fabs (g_array_index (effect->moved, CroRoundMoved, 0).moved.after.cost - 1.2) < 1e-9);
  /* Another new pack of it beside that one is no other price of it. */
  assert_true (cro_round_add (round, "Crab 2 kg 24.00", &other, &error));
  assert_true (cro_round_row_is_ready (cro_round_get_row (round, other)));
  cro_round_remove (round, other);
  cro_round_prefer (round, cro_round_get_row (round, row_of (round, "Hake"))->list.offer);
  posted = post (round);
  assert_true (fabs (cro_figures_unit_cost (cro_book_get_figures (kitchen->book), crab) - 0.012) < 1e-9);
  after = cro_test_figures (kitchen->book);
  fresh = cro_test_fresh_figures (kitchen->book);
  cro_test_same ("posting is in the figures", after, fresh);
  assert_true (cro_book_undo (kitchen->book, NULL, &error));
  g_free (g_steal_pointer (&after));
  after = cro_test_figures (kitchen->book);
  cro_test_same ("all of it is undone", before, after);
}

/* What a list has under a code that nearly is one of the supplier's is that pack's, once that is said. */
static void
test_code_is_nearly_another (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = round_of (kitchen, "Quay");
  g_autoptr (CroPriceList) taken = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *offered = NULL;
  guint index;

  assert_true (cro_round_take_text (round, "Code;Product;Pack;Price\n0101;Crab;5 kg;67.00\n", NULL, &taken, &error));
  index = cro_round_get_n_rows (round) - 1;
  assert_true (cro_round_row_waits (cro_round_get_row (round, index)));
  offered = cro_round_dup_suggestion (round, index);
  assert_string_equal (offered, "101 Crab 5 kg 67.00");
  assert_true (cro_round_suggest (round, index, &error));
  assert_int_equal (cro_round_get_n_rows (round), 3);
  assert_int_equal (cro_round_get_row (round, row_of (round, "Crab"))->list.price, 67000000);
  assert_true (cro_round_row_is_ready (cro_round_get_row (round, row_of (round, "Crab"))));
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, set_up, cro_test_kitchen_tear_down)
  const struct CMUnitTest tests[] = {
    CASE (test_pasted), CASE (test_order_of_the_last_list), CASE (test_not_to_be_had),
    CASE (test_pasted_lines_stay), CASE (test_tax_of_all_is_left_open),
    CASE (test_no_tax_of_all_is_asked_once), CASE (test_tax_is_said),
    CASE (test_tax_that_is_typed), CASE (test_pack_that_was_given_up),
    CASE (test_price_of_the_pack_of_who_states_per_kg), CASE (test_twins),
    CASE (test_each_question_is_answered), CASE (test_rows_are_spared), CASE (test_short_lines),
    CASE (test_two_new_packs), CASE (test_repeated), CASE (test_repeated_and_contradicted),
    CASE (test_new_pack_is_drafted), CASE (test_code_is_nearly_another),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
