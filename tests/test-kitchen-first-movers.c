/* The movers of a plate that are shown first: the same that stand first among all, and what is left out adds up. */
#include "cro-money.h"
#include "cro-movers.h"
#include "cro-sold-as.h"
#include "support/kitchen-book.h"
#include "support/kitchen-random.h"
#include "support/n-books.h"

#include <math.h>

#define N_BOOKS 20

static gint64 *
dup_minor (CroMovers *movers,
           double     cost)
{
  guint n = movers->movers->len;
  g_autofree CroCostPart *shown = g_new (CroCostPart, n + 1);

  for (guint i = 0; i < n; i++)
    {
      const CroMover *mover = &g_array_index (movers->movers, CroMover, i);

      shown[i] = (CroCostPart){ mover->item, mover->cost };
    }
  return cro_cost_parts_dup_minor (movers->parts, shown, n, cost, 2);
}

/* What each of the first ones makes of the cost, to the cent, is the same with all in sight; a card, which
 * shows as many as it likes of what it is made of, says the same too. */
static void
expect_same_parts (CroFigures *figures,
                   CroRef      plate,
                   CroMovers  *first,
                   CroMovers  *all,
                   double      cost)
{
  g_autofree gint64 *few = dup_minor (first, cost), *many = dup_minor (all, cost);
  g_autoptr (CroBreakdown) card = cro_breakdown_of_plate (figures, plate.slot);
  g_autoptr (GArray) made = g_array_new (FALSE, FALSE, sizeof (CroCostPart));
  gint64 sum = few[first->movers->len];

  for (guint i = 0; i < first->movers->len; i++)
    {
      assert_int_equal (few[i], many[i]);
      sum += few[i];
    }
  assert_int_equal (sum, cro_money_round (cost, 2));
  assert_int_equal (many[all->movers->len], 0);
  for (guint i = 0; i < card->ingredients->len + card->by_products->len; i++)
    {
      const CroShareOfCost *share
          = i < card->ingredients->len
                ? &g_array_index (card->ingredients, CroShareOfCost, i)
                : &g_array_index (card->by_products, CroShareOfCost, i - card->ingredients->len);

      g_array_append_vals (made, &(CroCostPart){ share->item, share->cost }, 1);
    }
  for (guint i = 0; i < all->movers->len; i++)
    {
      const CroMover *mover = &g_array_index (all->movers, CroMover, i);
      CroCostPart one = { mover->item, mover->cost };
      g_autofree gint64 *minor = cro_cost_parts_dup_minor (made, &one, 1, cost, 2);

      assert_int_equal (minor[0], many[i]);
    }
}

/* Those behind the first ones, of one kind or of all others. */
static void
expect_others (GArray               *movers,
               guint                 from,
               gboolean              are_values,
               const CroOtherMovers *others)
{
  double cost = 0, up = 0, size = 0;
  guint n = 0;

  for (guint i = 0; i < movers->len; i++)
    {
      const CroMover *mover = &g_array_index (movers, CroMover, i);

      size += fabs (mover->cost);
      if (i < from || mover->cost == 0 || (mover->kind == CRO_MOVER_VALUE) != are_values)
        continue;
      n++;
      cost += mover->cost;
      up += mover->up;
    }
  assert_int_equal (others->n, n);
  assert_true (fabs (cost - others->cost) <= 1e-9 * size);
  assert_true (fabs (up - others->up) <= 1e-9 * size);
}

static void
expect_first (CroFigures *figures,
              CroRef      plate,
              guint       most)
{
  g_autoptr (CroMovers) all = cro_movers_new (figures, plate, G_MAXUINT);
  g_autoptr (CroMovers) first = cro_movers_new (figures, plate, most);
  double cost = cro_figure_of (figures, plate).cost;

  assert_int_equal (first->movers->len, MIN (all->movers->len, most));
  for (guint i = 0; i < first->movers->len; i++)
    assert_memory_equal (&g_array_index (first->movers, CroMover, i),
                         &g_array_index (all->movers, CroMover, i), sizeof (CroMover));
  assert_int_equal (all->prices.n + all->values.n, 0);
  expect_others (all->movers, most, FALSE, &first->prices);
  expect_others (all->movers, most, TRUE, &first->values);
  expect_same_parts (figures, plate, first, all, cost);
}

/* What cannot be among them is not looked at: they are the same, and so are their sums. */
static void
test_the_first_ones_are_the_first_of_all (void **state)
{
  for (guint32 seed = 0; seed < CRO_TEST_N_BOOKS (N_BOOKS); seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autofree char *rows = cro_test_random_rows (rand);
      CroTestFolder folder;
      g_autoptr (CroBook) book = cro_test_book_with (&folder, rows);

      for (gint64 id = 1; id <= CRO_TEST_RANDOM_PLATES; id++)
        for (guint most = 1; most <= 16; most *= 4)
          expect_first (cro_book_get_figures (book),
                        CRO_REF (CRO_REF_RECIPE,
                                 cro_slots_get (&cro_book_get_model (book)->plate_slots, id)),
                        most);
      g_clear_object (&book);
      cro_test_folder_clear (&folder);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_the_first_ones_are_the_first_of_all),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
