/* What was posted from a round of new prices, with what was answered, and how it comes back. */
#include "cro-decimal.h"
#include "cro-price-answers.h"
#include "cro-round-words.h"
#include "support/kitchen-round.h"

#include <math.h>

static void
test_posted (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autofree char *before = cro_test_figures (kitchen->book), *after = NULL, *fresh = NULL, *back = NULL;
  g_autoptr (CroRound) round = round_of (kitchen, "Quay");
  g_autoptr (CroRoundPost) posted = NULL;
  g_autoptr (GError) error = NULL;
  guint turbot;

  type (round, "Crab", "55.60/4 kg");
  type (round, "Egg", "-");
  type (round, "Mussels", "210");
  assert_true (cro_round_add (round, "turbot 3 kg 24.50/kg", &turbot, &error));
  assert_true (cro_round_row_is_ready (cro_round_get_row (round, turbot)));
  assert_int_equal (cro_round_count_ready (round), 3);
  assert_int_equal (cro_round_count_waiting (round), 1);
  posted = post (round);
  assert_int_equal (posted->rows->len, 3);
  /* What waits is still there. */
  assert_int_equal (cro_round_count_waiting (round), 1);
  assert_string_equal (cro_round_get_row (round, row_of (round, "Mussels"))->text, "210");
  assert_int_equal (cro_round_get_n_rows (round), 4);
  assert_true (cro_round_get_row (round, row_of (round, "turbot"))->last == 73500000);
  after = cro_test_figures (kitchen->book);
  fresh = cro_test_fresh_figures (kitchen->book);
  cro_test_same ("posting is in the figures", after, fresh);
  /* One row goes back alone, then all. */
  assert_true (cro_round_take_back (kitchen->book, "back", NULL, posted->rows->pdata[0], &error));
  assert_no_error (error);
  assert_true (cro_model_offer (cro_book_get_model (kitchen->book), 1)->offer.price > 0);
  assert_true (cro_book_undo (kitchen->book, NULL, &error));
  assert_true (cro_book_undo_act (kitchen->book, posted->act, NULL, &error));
  assert_no_error (error);
  back = cro_test_figures (kitchen->book);
  cro_test_same ("undone", before, back);
}

static guint
count_answers (CroBook *book)
{
  g_autoptr (GHashTable) answers = cro_price_answers_new (cro_book_get_store (book), 0, NULL);

  return g_hash_table_size (answers);
}

/* A jump that is said to be right is posted with that answer, which goes where the price goes; what only moved far is
 * never asked about again, and needs none. */
static void
test_an_answer_is_posted (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = round_of (kitchen, "Quay");
  g_autoptr (CroRoundPost) posted = NULL, again = NULL;
  g_autoptr (GError) error = NULL;

  type (round, "Crab", "695");
  assert_true (cro_round_is_right (round, row_of (round, "Crab"), &error));
  posted = post (round);
  assert_int_equal (count_answers (kitchen->book), 1);
  assert_true (cro_round_take_back (kitchen->book, "back", NULL, posted->rows->pdata[0], &error));
  assert_int_equal (count_answers (kitchen->book), 0);
  assert_true (cro_book_undo (kitchen->book, NULL, &error));
  assert_int_equal (count_answers (kitchen->book), 1);
  assert_true (cro_book_undo_act (kitchen->book, posted->act, NULL, &error));
  assert_int_equal (count_answers (kitchen->book), 0);
  assert_true (cro_round_renew (round, cro_round_get_from (round), &error));
  type (round, "Crab", "110");
  assert_true (cro_round_row_waits (cro_round_get_row (round, row_of (round, "Crab"))));
  assert_true (cro_round_is_right (round, row_of (round, "Crab"), &error));
  again = post (round);
  assert_int_equal (count_answers (kitchen->book), 0);
}

/* What was right is right again once a price over it is taken back; and what such a posting did is told beside it. */
static void
test_an_answer_comes_back (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = round_of (kitchen, "Quay");
  g_autoptr (GPtrArray) posts = g_ptr_array_new_with_free_func ((GDestroyNotify) cro_round_post_free);
  g_autoptr (CroRoundView) view = NULL;
  g_autoptr (GError) error = NULL;
  CroRoundPosted *row;

  type (round, "Crab", "695");
  assert_true (cro_round_is_right (round, row_of (round, "Crab"), &error));
  g_ptr_array_add (posts, post (round));
  view = cro_round_view_of_posts (round, posts, &error);
  assert_no_error (error);
  type (round, "Crab", "700");
  g_ptr_array_add (posts, post (round));
  row = ((CroRoundPost *) posts->pdata[1])->rows->pdata[0];
  assert_true (cro_round_take_back (kitchen->book, "back", posts, row, &error));
  assert_int_equal (count_answers (kitchen->book), 1);
  row = ((CroRoundPost *) posts->pdata[0])->rows->pdata[0];
  assert_true (cro_round_take_back (kitchen->book, "back", posts, row, &error));
  assert_int_equal (count_answers (kitchen->book), 0);
}

/* A price that is gone takes what was said of it along, so that its pack can go too. */
static void
test_an_answer_goes_with_its_price (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = round_of (kitchen, "Quay");
  g_autoptr (CroRoundPost) made = NULL, jumped = NULL;
  g_autoptr (GError) error = NULL;
  CroRoundPosted *row;
  guint index;

  assert_true (cro_round_add (round, "turbot 3 kg 73.50", &index, &error));
  made = post (round);
  assert_true (cro_round_renew (round, cro_round_get_from (round) + 1, &error));
  type (round, "turbot", "735");
  assert_true (cro_round_is_right (round, row_of (round, "turbot"), &error));
  jumped = post (round);
  assert_int_equal (count_answers (kitchen->book), 1);
  row = jumped->rows->pdata[0];
  assert_true (cro_edit_remove_price (kitchen->book, "remove", row->put.id, &error));
  assert_int_equal (count_answers (kitchen->book), 0);
  assert_true (cro_round_take_back (kitchen->book, "back", NULL, made->rows->pdata[0], &error));
  assert_no_error (error);
}

static gint64
price_of (CroTestKitchen *kitchen,
          gint64          offer)
{
  CroModel *model = cro_book_get_model (kitchen->book);
  guint32 slot = cro_slots_get (&model->offer_slots, offer);

  return slot != CRO_NO_SLOT && !cro_model_offer (model, slot)->is_dead ? cro_model_offer (model, slot)->offer.price
                                                                        : CRO_NOT_SET;
}

/* 70 and 75 of one day: neither takes the other along, in either order, and all can be undone then. */
static void
test_back_of_an_earlier_posting (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autofree char *before = cro_test_figures (kitchen->book);

  for (guint turn = 0; turn < 3; turn++)
    {
      g_autoptr (CroRound) round = round_of (kitchen, "Quay");
      g_autoptr (GPtrArray) posts = g_ptr_array_new_with_free_func ((GDestroyNotify) cro_round_post_free);
      CroRoundPosted *rows[2];
      g_autofree char *after = NULL;
      GError *error = NULL;

      for (guint i = 0; i < 2; i++)
        {
          type (round, "Crab", i == 0 ? "70" : "75");
          g_ptr_array_add (posts, post (round));
          rows[i] = ((CroRoundPost *) posts->pdata[i])->rows->pdata[0];
        }
      assert_true (cro_round_take_back (kitchen->book, "back", posts, rows[turn == 1], &error));
      assert_true (price_of (kitchen, rows[0]->offer) == (turn == 1 ? 70 : 75) * CRO_MICRO);
      if (turn < 2)
        {
          assert_true (cro_round_take_back (kitchen->book, "back", posts, rows[turn == 0], &error));
          assert_true (price_of (kitchen, rows[0]->offer) == 66 * CRO_MICRO);
        }
      for (guint i = 2; i > 0; i--)
        assert_true (cro_round_undo (kitchen->book, posts, posts->pdata[i - 1], NULL, &error));
      after = cro_test_figures (kitchen->book);
      cro_test_same ("all is undone", before, after);
    }
}

/* 72, which somebody sets between 70 and 75 of one day, stays in either order; and what they set after a posting is not
 * taken back with it. */
static void
test_back_of_both_sides_of_another_desks_price (void **state)
{
  CroTestKitchen *kitchen = *state;

  for (guint turn = 0; turn < 2; turn++)
    {
      g_autoptr (CroRound) round = round_of (kitchen, "Quay");
      g_autoptr (GPtrArray) posts = g_ptr_array_new_with_free_func ((GDestroyNotify) cro_round_post_free);
      CroRoundPosted *rows[2];
      g_autoptr (GError) error = NULL;
      guint32 slot;

      type (round, "Crab", "70");
      g_ptr_array_add (posts, post (round));
      rows[0] = ((CroRoundPost *) posts->pdata[0])->rows->pdata[0];
      slot = cro_slots_get (&cro_book_get_model (kitchen->book)->offer_slots, rows[0]->offer);
      assert_true (cro_edit_set_price (kitchen->book, "72", slot, rows[0]->from, 72 * CRO_MICRO, &error));
      assert_true (cro_round_renew (round, cro_round_get_from (round), &error));
      type (round, "Crab", "75");
      g_ptr_array_add (posts, post (round));
      rows[1] = ((CroRoundPost *) posts->pdata[1])->rows->pdata[0];
      assert_true (cro_round_take_back (kitchen->book, "back", posts, rows[turn], &error));
      assert_int_equal (price_of (kitchen, rows[0]->offer), (turn == 0 ? 75 : 72) * CRO_MICRO);
      assert_true (cro_round_take_back (kitchen->book, "back", posts, rows[!turn], &error) == (turn == 0));
      assert_true ((turn == 1) == g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_CHANGED));
      assert_int_equal (price_of (kitchen, rows[0]->offer), 72 * CRO_MICRO);
      g_clear_error (&error);
      while (cro_book_undo (kitchen->book, NULL, NULL))
        ;
    }
}

/* 2 kg of crab, which another desk has posted when this one does: the book has the purchase once, and what this posting
 * takes back is nothing of anybody else's. 70 that the book has is no act either. */
static void
test_posted_elsewhere (void **state)
{
  static const char bill[]
      = "<Invoice xmlns='urn:oasis:names:specification:ubl:schema:xsd:Invoice-2'"
        " xmlns:a='urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2'"
        " xmlns:b='urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2'><b:ID>Q-18</b:ID>"
        "<b:IssueDate>2026-02-14</b:IssueDate><b:DocumentCurrencyCode>EUR</b:DocumentCurrencyCode><a:InvoiceLine>"
        "<b:ID>1</b:ID><b:InvoicedQuantity unitCode='KGM'>2</b:InvoicedQuantity><b:LineExtensionAmount>27.20"
        "</b:LineExtensionAmount><a:Item><b:Name>Crab</b:Name><a:SellersItemIdentification><b:ID>101</b:ID>"
        "</a:SellersItemIdentification></a:Item><a:Price><b:PriceAmount>13.6</b:PriceAmount></a:Price></a:InvoiceLine>"
        "</Invoice>";
  CroTestKitchen *kitchen = *state, other = *kitchen;
  g_autoptr (GPtrArray) posts = g_ptr_array_new_with_free_func ((GDestroyNotify) cro_round_post_free);
  g_autoptr (CroRound) here = round_of (kitchen, "Quay"), there = NULL;
  g_autofree char *path = g_build_filename (kitchen->folder.folder, "bill.xml", NULL);
  CroPriceList *taken = NULL;
  CroRoundPosted *rows[3];
  g_autoptr (GError) error = NULL;
  CroRef hake;

  other.book = cro_test_book_open (cro_store_get_path (cro_book_get_store (kitchen->book)), "other");
  there = round_of (&other, "Quay");
  type (here, "Crab", "70");
  g_ptr_array_add (posts, post (here));
  assert_true (g_file_set_contents (path, bill, -1, &error) && cro_book_refresh (other.book, NULL, &error));
  assert_true (cro_round_renew (there, CRO_TEST_DAY, &error));
  assert_true (cro_round_take (here, path, NULL, &taken, &error) && cro_round_take (there, path, NULL, &taken, &error));
  cro_round_post_free (post (there));
  g_ptr_array_add (posts, post (here));
  assert_int_equal (count_purchases (kitchen->book), 1);
  type (here, "Crab", "70");
  g_ptr_array_add (posts, post (here));
  for (guint i = 0; i < 3; i++)
    {
      const CroRoundPost *one = posts->pdata[i];

      assert_true (one->rows->len == 1 && (one->act != 0) == (i == 0));
      rows[i] = one->rows->pdata[0];
    }
  assert_int_equal (rows[1]->purchase, 0);
  assert_true (cro_round_undo (kitchen->book, posts, posts->pdata[2], NULL, &error));
  assert_true (cro_round_undo (kitchen->book, posts, posts->pdata[1], NULL, &error));
  assert_int_equal (price_of (kitchen, rows[0]->offer), 70 * CRO_MICRO);
  assert_true (cro_round_take_back (kitchen->book, "back", posts, rows[1], &error));
  assert_int_equal (count_purchases (kitchen->book), 1);
  /* The later one of that day stands for the first until it is taken back too; what the other desk did meanwhile is not
   * what took it back. */
  hake = cro_edit_find_name (cro_book_get_model (other.book), CRO_NAMES_ITEMS, "Hake");
  assert_true (cro_edit_rename (other.book, "rename", hake, "Cod", &error));
  assert_true (cro_round_take_back (kitchen->book, "back", posts, rows[0], &error));
  assert_int_equal (price_of (kitchen, rows[0]->offer), 70 * CRO_MICRO);
  assert_int_equal (rows[0]->back, 0);
  assert_true (cro_round_take_back (kitchen->book, "back", posts, rows[2], &error));
  assert_int_equal (price_of (kitchen, rows[0]->offer), 13600000);
  assert_true (rows[2]->back != 0);
  g_object_unref (other.book);
}

/* A pack that a posting made stays as long as it has a price of a later one. */
static void
test_back_of_what_made_a_pack (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = round_of (kitchen, "Quay");
  g_autoptr (GPtrArray) posts = g_ptr_array_new_with_free_func ((GDestroyNotify) cro_round_post_free);
  CroRoundPosted *rows[2];
  GError *error = NULL;
  guint index;

  for (guint i = 0; i < 2; i++)
    {
      assert_true (cro_round_renew (round, cro_round_get_from (round) + (int) i, &error));
      assert_true (cro_round_add (round, i == 0 ? "turbot 3 kg 73.50" : "turbot 3 kg 75", &index, &error));
      g_ptr_array_add (posts, post (round));
      rows[i] = ((CroRoundPost *) posts->pdata[i])->rows->pdata[0];
    }
  assert_true (rows[0]->made_offer && !rows[1]->made_offer && rows[0]->offer == rows[1]->offer);
  assert_true (cro_round_take_back (kitchen->book, "back", posts, rows[0], &error));
  assert_true (price_of (kitchen, rows[1]->offer) != CRO_NOT_SET);
  assert_true (cro_round_take_back (kitchen->book, "back", posts, rows[1], &error));
  assert_true (price_of (kitchen, rows[1]->offer) == CRO_NOT_SET);
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, set_up, cro_test_kitchen_tear_down)
  const struct CMUnitTest tests[] = {
    CASE (test_posted), CASE (test_an_answer_is_posted), CASE (test_an_answer_comes_back),
    CASE (test_an_answer_goes_with_its_price), CASE (test_back_of_an_earlier_posting),
    CASE (test_back_of_both_sides_of_another_desks_price), CASE (test_posted_elsewhere),
    CASE (test_back_of_what_made_a_pack),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
