/* What is set aside of a round of new prices, and read again: lists, what was said of them, another book. */
#include "cro-decimal.h"
#include "cro-round-words.h"
#include "support/kitchen-round.h"

#include <math.h>
#include <string.h>

/* What shows a row, with what it asks. */
static char *
dup_shown_row (CroRound *round,
               guint     index)
{
  const CroRoundRow *row = cro_round_get_row (round, index);
  g_autofree char *note = cro_words_round_note (round, index), *meant = cro_round_dup_suggestion (round, index);

  return g_strdup_printf ("%g with %g, %s, %s, %s", cro_decimal_to_double (row->list.price),
                          cro_decimal_to_double (row->list.tax), cro_round_row_is_ready (row) ? "ready" : "waits",
                          note, meant);
}

/* Taken up again it asks as it did, and is not ready where it waited. */
static void
assert_set_aside_alike (CroTestKitchen *kitchen,
                        CroRound       *round,
                        guint           index)
{
  g_autoptr (CroRound) again = round_of (kitchen, "Quay");
  g_autofree char *aside = cro_round_to_text (round), *before = dup_shown_row (round, index), *after = NULL;
  const CroRoundRow *row;
  g_autoptr (GError) error = NULL;

  assert_true (cro_round_put_text (again, aside, &error));
  assert_true (cro_round_renew (again, cro_round_get_from (again), &error));
  row = cro_round_get_row (again, index);
  after = dup_shown_row (again, index);
  if (row->list.has_price ? strcmp (before, after) != 0 : !cro_round_row_waits (row))
    fail_msg ("set aside as %s, it is %s:\n%s", before, after, aside);
}

/* What a list says of a row is more than its text shows, and stays said when the book has changed, or Escape takes back
 * what was typed over it; until then. Eggs had 5.5 % of tax in 45.00 before an invoice's 42.65. */
static void
test_a_list_is_read_again (void **state)
{
  static const struct { gboolean is_billed, waits; const char *name, *list; double price; } cases[] = {
    { FALSE, TRUE, "Crab", "crab 66?\n", 66 },
    { FALSE, TRUE, "Crab", "crab tin 67.00\n", 67 },
    { FALSE, FALSE, "Crab", "crab +10 %\n", 72.6 },
    { FALSE, TRUE, "Crab", "Code,Name,Price\n101,Mussels,66.50\n", 66.5 },
    { FALSE, TRUE, "Egg", "Code,Price,VAT %\nE1,45.50,5.5\n", 45.5 },
    { FALSE, TRUE, "Egg", "E1 eggs 7.80 a tray\n", 7.8 },
    { FALSE, FALSE, "Egg", "All prices ex VAT\negg +10 %\n", 49.5 },
    { TRUE, FALSE, "Egg", "All prices ex VAT\negg 45.50\n", 45.5 },
    { TRUE, FALSE, "Egg", "egg +6 %\n", 45.21 },
    { TRUE, FALSE, "Egg", "Code,Price ex VAT\nE1,45.50\n", 45.5 },
  };
  gboolean is_billed = FALSE;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CroRound) round = round_of (*state, "Quay");
      g_autoptr (CroPriceList) taken = NULL;
      g_autoptr (GError) error = NULL;
      g_autofree char *before = NULL;
      guint index = row_of (round, cases[i].name);

      if (cases[i].is_billed && !is_billed)
        {
          type (round, "Egg", "42.65 ex VAT");
          cro_round_post_free (post (round));
          is_billed = TRUE;
        }
      assert_true (cro_round_take_text (round, cases[i].list, NULL, &taken, &error));
      before = dup_shown_row (round, index);
      if (fabs (cro_decimal_to_double (cro_round_get_row (round, index)->list.price) - cases[i].price) > 1e-9
          || cro_round_row_waits (cro_round_get_row (round, index)) != cases[i].waits)
        fail_msg ("“%s”: %s", cases[i].list, before);
      for (guint turn = 0; turn < 3; turn++)
        {
          g_autofree char *after = NULL, *text = g_strdup (cro_round_get_row (round, index)->text);

          if (turn == 1)
            {
              type (round, cases[i].name, "7");
              assert_true (cro_round_type (round, index, text, &error));
            }
          else
            assert_true (cro_round_renew (round, cro_round_get_from (round), &error));
          after = dup_shown_row (round, index);
          if (strcmp (before, after) != 0)
            fail_msg ("“%s” is read again as %s, and was %s", cases[i].list, after, before);
        }
      assert_set_aside_alike (*state, round, index);
      type (round, cases[i].name, is_billed ? "42.70" : strcmp (cases[i].name, "Egg") == 0 ? "45.10" : "66.10");
      assert_true (cro_round_row_is_ready (cro_round_get_row (round, index)));
      assert_true (cro_round_renew (round, cro_round_get_from (round), &error));
      assert_true (cro_round_row_is_ready (cro_round_get_row (round, index)));
    }
}

/* A change that a list says is of the last price of then, as one that is typed: 66.00 or 70.00. */
static void
test_a_list_says_a_change (void **state)
{
  g_autoptr (CroRound) round = round_of (*state, "Quay"), other = round_of (*state, "Quay");
  g_autoptr (CroPriceList) taken = NULL;
  g_autofree char *note = NULL, *meant = NULL;
  g_autoptr (GError) error = NULL;
  guint index = row_of (round, "Crab");

  assert_true (cro_round_take_text (round, "crab +10 %\n", NULL, &taken, &error));
  type (other, "Crab", "70");
  cro_round_post_free (post (other));
  assert_true (cro_round_renew (round, cro_round_get_from (round), &error));
  assert_true (cro_round_row_waits (cro_round_get_row (round, index)));
  note = cro_words_round_note (round, index);
  assert_string_equal (note, "The last price has become 70.00. Is 72.60 meant, or 77.00?");
  meant = cro_round_dup_suggestion (round, index);
  assert_string_equal (meant, "72.60");
  assert_true (cro_round_is_right (round, index, &error));
  assert_true (cro_round_row_is_ready (cro_round_get_row (round, index)));
  assert_int_equal (cro_round_get_row (round, index)->list.price, 77000000);
}

static void
test_set_aside (void **state)
{
  g_autoptr (CroRound) round = round_of (*state, "Quay"), again = round_of (*state, "Quay");
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL, *second = NULL;
  guint turbot;

  assert_null (cro_round_to_text (round));
  type (round, "Crab", "695");
  cro_round_is_right (round, row_of (round, "Crab"), &error);
  cro_round_add (round, "turbot 3 kg 24.50/kg", &turbot, &error);
  assert_int_equal (cro_round_fill (round), 2);
  /* Nothing is left to be settled. */
  assert_int_equal (cro_figures_settle (cro_book_get_figures (cro_round_get_draft (round))), 0);
  assert_int_equal (cro_round_count_ready (round), 4);
  text = cro_round_to_text (round);
  assert_int_equal (cro_round_text_count (text), 4);
  assert_true (cro_round_put_text (again, text, &error));
  second = cro_round_to_text (again);
  assert_string_equal (text, second);
  assert_int_equal (cro_round_empty (again), 2);
  assert_int_equal (cro_round_count_ready (again), 2);
}

/* All rows that say something, with what they ask. */
static char *
dup_shown_rows (CroRound *round)
{
  GString *all = g_string_new (NULL);

  for (guint i = 0; i < cro_round_get_n_rows (round); i++)
    {
      const CroRoundRow *row = cro_round_get_row (round, i);
      g_autofree char *shown = *row->text != '\0' ? dup_shown_row (round, i) : NULL;

      if (shown != NULL)
        g_string_append_printf (all, "%s “%s” of %g × %g: %s\n", row->list.name, row->text,
                                cro_decimal_to_double (row->list.pack.count),
                                cro_decimal_to_double (row->list.pack.size), shown);
    }
  return g_string_free (all, FALSE);
}

static void
assert_all_alike (CroTestKitchen *kitchen,
                  CroRound       *round,
                  const char     *list)
{
  g_autoptr (CroRound) again = round_of (kitchen, "Quay");
  g_autofree char *aside = cro_round_to_text (round), *before = dup_shown_rows (round), *after = NULL;
  g_autoptr (GError) error = NULL;

  assert_true (aside == NULL || cro_round_put_text (again, aside, &error));
  after = dup_shown_rows (again);
  if (strcmp (before, after) != 0)
    {
      g_clear_pointer (&again, cro_round_free);
      fail_msg ("“%s” is set aside as\n%s\nand comes back as\n%s\nby\n%s", list, before, after, aside);
    }
}

/* Every other question is answered: with what is meant, or that it is right. */
static void
answer_some (CroRound *round,
             guint     n)
{
  g_autoptr (GError) error = NULL;

  for (guint i = cro_round_get_n_rows (round); i > 0; i--)
    {
      g_autofree char *meant = cro_round_dup_suggestion (round, i - 1);

      if (!cro_round_row_waits (cro_round_get_row (round, i - 1)) || (n + i) % 2 != 0)
        continue;
      if (n % 4 < 2 && meant != NULL)
        assert_true (cro_round_suggest (round, i - 1, &error));
      else if (cro_round_can_be_right (round, i - 1))
        do
          assert_true (cro_round_is_right (round, i - 1, &error));
        while (i <= cro_round_get_n_rows (round) && cro_round_get_row (round, i - 1)->answered != 0);
    }
}

static void
assert_list_comes_back (CroTestKitchen *kitchen,
                        const char     *list,
                        guint           n)
{
  g_autoptr (CroRound) round = round_of (kitchen, "Quay");
  g_autoptr (CroPriceList) taken = NULL;
  g_autoptr (GError) error = NULL;

  assert_true (cro_round_take_text (round, list, NULL, &taken, &error));
  assert_all_alike (kitchen, round, list);
  answer_some (round, n);
  assert_all_alike (kitchen, round, list);
}

/* Whatever a list says, and whatever was answered, is the same once it was set aside and is taken up again: what is
 * written there is all that was read. */
static void
test_any_list_comes_back (void **state)
{
  static const char *const lists[] = {
    "Hake head 4.00/kg\ncrab tin 67.00\ncrab 66?\n",
    "item,Price incl VAT\nEgg,=\nCrab,+5%\n",
    "Egg 0.30 each\nEgg 45.50\n",
    "All prices with 20 % VAT from farm\nCrab 82.00 net\n",
    "Crab 99?\nCrab 98\n",
    "Code,Name,Price,VAT\n101,Mussels,66.50,3.20\nE1,Egg,45.50,2.50\nZ9,Turbot,40.00,B\n",
  };
  static const char *const heads[] = { "", "All prices ex VAT\n", "Prix TTC\n", "Prices in GBP\n",
                                       "VAT at 20 % applies\n" };
  static const char *const names[] = { "Crab", "101", "mussel", "Egg", "Crab head", "Turbot", "Hake tin", "102 Crab" };
  static const char *const packs[] = { "", "", " 5 kg", " 4 kg", " 6 x 30", " 2.5 kg tin" };
  static const char *const says[] = { " 66", " 67.5?", " +5 %", " as last", " n/a", " 14/kg", " 6.60", " 695",
                                      " 70 net", " 21 a box", " 45.50 TTC", " 60 £", " 20-22", " 1,234" };
  g_autoptr (GRand) random = g_rand_new_with_seed (20261130);

  for (gsize i = 0; i < G_N_ELEMENTS (lists) + 24; i++)
    {
      g_autoptr (GString) list = g_string_new (i < G_N_ELEMENTS (lists) ? lists[i] : NULL);

      if (list->len == 0)
        g_string_append (list, heads[g_rand_int_range (random, 0, G_N_ELEMENTS (heads))]);
      for (guint line = 0; i >= G_N_ELEMENTS (lists) && line < 5; line++)
        g_string_append_printf (list, "%s%s%s\n", names[g_rand_int_range (random, 0, G_N_ELEMENTS (names))],
                                packs[g_rand_int_range (random, 0, G_N_ELEMENTS (packs))],
                                says[g_rand_int_range (random, 0, G_N_ELEMENTS (says))]);
      assert_list_comes_back (*state, list->str, (guint) i);
    }
}

/* Said to be new, posted and undone it is new still. */
static void
test_what_was_answered_is_undone (void **state)
{
  g_autoptr (CroRound) round = round_of (*state, "Quay");
  g_autoptr (CroPriceList) taken = NULL;
  g_autoptr (CroRoundPost) posted = NULL;
  g_autofree char *before = NULL, *after = NULL;
  g_autoptr (GError) error = NULL;

  assert_true (cro_round_take_text (round, "Hake head 4.00/kg\nCrab 70 net\n", NULL, &taken, &error));
  for (guint i = 0; i < cro_round_get_n_rows (round); i++)
    assert_true (cro_round_is_right (round, i, &error));
  assert_int_equal (cro_round_count_ready (round), 2);
  before = dup_shown_rows (round);
  posted = post (round);
  assert_true (cro_round_undo (cro_round_get_book (round), NULL, posted, NULL, &error));
  assert_true (cro_round_renew (round, cro_round_get_from (round), &error));
  assert_true (cro_round_retype (round, posted, &error));
  after = dup_shown_rows (round);
  assert_string_equal (before, after);
}

/* Rows of a text are found by what they are of: a number is another pack's in a book that stands where another did. */
static void
test_text_of_another_book (void **state)
{
  static const struct { const char *text, *in, *unfit, *crab; } cases[] = {
    /* Without its book, as it was written before. */
    { "row 2 right 695\n", NULL, "", "695" },
    { "row 99 - 70\n", NULL, "70", "" },
    { "asks tax VAT\t\nasks pack net\t1 × 5 kg\nrow 2 right 82.00\n", NULL, "", "82.00" },
    /* Cut short, or changed by hand. */
    { "asks pack bag\t\nrow 2 - 70\n", NULL, "", "70" },
    { "read name Crab\tpack 1 kg\tasks goods\ttext tin\tasks look\ttext x\nrow 2 - 70\n", NULL, "", "Crab 5 kg" },
    { "of 101\tCrab\nrow 1 - 70\n", "2020-01-01T00:00:00Z cook\tQuay", "", "70" },
    { "of 101\tLobster\nrow 2 - 70\n", "2020-01-01T00:00:00Z cook\tQuay", "Lobster: 70", "" },
    { "of 104\tCrab\nrow 2 - 70\n", "2020-01-01T00:00:00Z cook\tQuay", "Crab: 70", "" },
    { "of 101\tCrab\nrow 2 - 70\nnew - Turbot 3 kg 70\n", "2020-01-01T00:00:00Z cook\tBoat",
      "Crab: 70 · Turbot 3 kg 70", "" },
    /* Of this one: what has another name or another code by now is the same. */
    { "of 101\tBrown crab\nrow 2 - 70\n", "", "", "70" },
    { "of 104\tCrab\nrow 2 - 70\n", "", "", "70" },
    { "of 104\tLobster\nrow 2 - 70\n", "", "Lobster: 70", "" },
  };
  g_autoptr (CroRound) typed = round_of (*state, "Quay");
  g_autofree char *text = NULL, *own = NULL;
  g_autoptr (GError) error = NULL;

  type (typed, "Crab", "70");
  text = cro_round_to_text (typed);
  own = g_strndup (strstr (text, "book ") + 5, strcspn (strstr (text, "book ") + 5, "\n"));
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CroRound) round = round_of (*state, "Quay");
      const char *in = cases[i].in != NULL && *cases[i].in == '\0' ? own : cases[i].in;
      g_autofree char *aside = in != NULL ? g_strdup_printf ("book %s\n%s", in, cases[i].text)
                                          : g_strdup (cases[i].text);
      g_autofree char *shown = NULL;

      assert_int_equal (cro_round_get_row (round, row_of (round, "Crab"))->id, 2);
      assert_true (cro_round_put_text (round, aside, &error));
      shown = dup_shown_rows (round);
      assert_true (strstr (cases[i].text, "asks tax") == NULL || strstr (shown, "waits, “VAT” leaves open") != NULL);
      assert_string_equal (cro_round_get_unfit (round), cases[i].unfit);
      assert_string_equal (cro_round_get_row (round, row_of (round, "Crab"))->text, cases[i].crab);
      assert_string_equal (cro_round_get_row (round, row_of (round, "Mussels"))->text, "");
    }
}

/* Of the book itself. */
static guint32
offer_of (CroRound   *round,
          const char *name)
{
  return cro_slots_get (&cro_book_get_model (cro_round_get_book (round))->offer_slots,
                        cro_round_get_row (round, row_of (round, name))->id);
}

/* A pack of the list that is removed elsewhere before it is posted has no place, and holds nothing up. */
static void
test_pack_of_the_list_is_gone (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = round_of (kitchen, "Quay");
  g_autoptr (CroPriceList) taken = NULL;
  g_autoptr (CroRoundPost) posted = NULL;
  g_autoptr (GError) error = NULL;

  assert_true (cro_round_take_text (round, "Code,Price\nE1,46\n101,66.50\n102,21.10\n", NULL, &taken, &error));
  assert_true (cro_edit_remove (kitchen->book, "remove", CRO_REF (CRO_REF_OFFER, offer_of (round, "Egg")), &error));
  assert_true (cro_round_renew (round, cro_round_get_from (round), &error));
  posted = post (round);
  assert_int_equal (row_of (round, "Crab"), 0);
  assert_int_equal (row_of (round, "Mussels"), 1);
  assert_true (cro_edit_remove (kitchen->book, "remove", CRO_REF (CRO_REF_OFFER, offer_of (round, "Crab")), &error));
  assert_true (cro_round_take_back (kitchen->book, "back", NULL, posted->rows->pdata[0], &error));
}

/* A column of prices per kg, as somebody said: 13.40 is 67.00 for the 5 kg of crab; of a new pack of 2 kg 26.80. */
static void
test_prices_per_base_unit_are_said (void **state)
{
  g_autoptr (CroRound) round = round_of (*state, "Quay");
  g_autoptr (CroPriceList) taken = NULL;
  g_autoptr (GError) error = NULL;
  const CroRoundRow *added;

  cro_round_say_columns (round, "name\t0\tArtikel\npack\t1\tInhoud\ncode\t2\tNummer\nbase-price\t3\tKilo prijs\n");
  assert_true (cro_round_take_text (round,
                                    "Artikel;Inhoud;Nummer;Kilo prijs\nCrab;;101;13.40\nCrab;2 kg;C2;13.40\n",
                                    NULL, &taken, &error));
  assert_int_equal (cro_round_get_row (round, row_of (round, "Crab"))->list.price, 67000000);
  added = cro_round_get_row (round, cro_round_get_n_rows (round) - 1);
  assert_int_equal (added->list.price, 26800000);
  assert_int_equal (added->list.pack.size, 2 * CRO_MICRO);
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, set_up, cro_test_kitchen_tear_down)
  const struct CMUnitTest tests[] = {
    CASE (test_a_list_is_read_again), CASE (test_a_list_says_a_change), CASE (test_set_aside),
    CASE (test_any_list_comes_back), CASE (test_what_was_answered_is_undone),
    CASE (test_text_of_another_book), CASE (test_pack_of_the_list_is_gone),
    CASE (test_prices_per_base_unit_are_said),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
