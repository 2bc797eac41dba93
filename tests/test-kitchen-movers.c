/* What moves a plate's cost: each mover is what a preview of the same change shows. */
#include "cro-figure-words.h"
#include "cro-item-ceiling.h"
#include "cro-limits.h"
#include "cro-mover-words.h"
#include "support/kitchen-book.h"
#include "support/kitchen-random.h"

#include <math.h>

#define N_BOOKS 40
#define N_LIMITED 20

/* The row and the column that a mover is of; FALSE where a preview cannot show just that. */
static gboolean
column_of (CroModel       *model,
           const CroMover *mover,
           const char    **table,
           gint64         *id,
           const char    **column,
           gint64         *value)
{
  const CroItem *item = cro_model_item (model, mover->item);

  *table = "recipe_line";
  *id = mover->line != CRO_NO_SLOT ? model->line_ids[mover->line] : item->id;
  switch (mover->kind)
    {
    case CRO_MOVER_VALUE:
      *table = "output";
      *column = "value_micro";
      *value = item->output.value;
      return TRUE;
    case CRO_MOVER_TRIM_YIELD:
      *table = "ingredient";
      *column = "trim_yield_pct_micro";
      *value = model->measures[mover->item].trim_yield;
      return TRUE;
    case CRO_MOVER_YIELD:
      *column = "yield_pct_micro";
      *value = model->lines.yield[mover->line];
      return TRUE;
    case CRO_MOVER_AMOUNT:
      *column = "amount_micro";
      *value = model->lines.amount[mover->line];
      return TRUE;
    case CRO_MOVER_FINISHED:
      *table = "output";
      *column = item->output.amount > 0 ? "amount_micro" : "yield_pct_micro";
      *value = item->output.amount > 0 ? item->output.amount : item->output.yield;
      return TRUE;
    default:
      return FALSE;
    }
}

/* The cost of a guest when something is factor times itself, by a preview. */
static double
preview (CroBook        *book,
         guint32         plate,
         const CroMover *mover,
         int             tenths)
{
  CroModel *model = cro_book_get_model (book);
  CroFigures *figures = cro_book_get_figures (book);
  const char *table, *column;
  gint64 id, value;
  CroCell cell;
  g_autoptr (GError) error = NULL;

  cro_book_restore (book, NULL);
  if (column_of (model, mover, &table, &id, &column, &value))
    {
      cell = CRO_CELL_INT (value / 10 * tenths);
      if (value % 10 != 0)
        return NAN;
      if (!cro_book_preview (book, table, id, column, &cell, &error))
        fail_msg ("%s", error->message);
    }
  else
    {
      guint32 offer = figures->offer_in_use[mover->item];

      value = cro_model_offer (model, offer)->offer.price;
      if (value % 10 != 0)
        return NAN;
      if (!cro_book_preview_price (book, offer, value / 10 * tenths, &error))
        fail_msg ("%s", error->message);
      /* Another offer took over, or the price is of another day now. */
      if (figures->offer_in_use[mover->item] != offer)
        return NAN;
    }
  return cro_figure_of_plate (figures, plate).cost;
}

static gboolean
agrees (double moved,
        double seen,
        double cost)
{
  return isnan (seen) || fabs (moved - (seen - cost)) <= 1e-9 * (fabs (cost) + fabs (seen));
}

static void
expect_mover (CroBook        *book,
              guint32         plate,
              const CroMover *mover,
              double          cost,
              guint          *kinds)
{
  double less = preview (book, plate, mover, 9);
  double more = preview (book, plate, mover, 11);

  if (!agrees (mover->down, less, cost) || !agrees (mover->up, more, cost))
    fail_msg ("kind %d of %s on %s moves %.12g by %.12g and %.12g, a preview by %.12g and %.12g",
              mover->kind, cro_model_item (cro_book_get_model (book), mover->item)->name,
              cro_model_recipe (cro_book_get_model (book), plate)->name, cost, mover->down,
              mover->up, less - cost, more - cost);
  kinds[mover->kind] += !isnan (less);
  cro_book_restore (book, NULL);
}

static void
expect_plate (CroBook *book,
              guint32  plate,
              guint   *kinds)
{
  double cost = cro_figure_of_plate (cro_book_get_figures (book), plate).cost;
  g_autoptr (CroMovers) all = cro_movers_new (cro_book_get_figures (book),
                                              CRO_REF (CRO_REF_RECIPE, plate), G_MAXUINT);
  GArray *movers = all->movers;
  double prices = 0, parts = 0, size = 0, largest = INFINITY;

  for (guint i = 0; i < movers->len; i++)
    {
      const CroMover *mover = &g_array_index (movers, CroMover, i);
      double effect = fmax (fabs (mover->down), fabs (mover->up));

      if (effect > largest)
        fail_msg ("the largest effect comes first");
      largest = effect;
      parts += mover->cost;
      size += fabs (mover->cost);
      prices += mover->kind == CRO_MOVER_PRICE ? fabs (mover->up * 10 - mover->cost) : 0;
      expect_mover (book, plate, mover, cost, kinds);
    }
  if (fabs (parts - cost) > 1e-9 * size)
    fail_msg ("prices and assigned values add up to the cost: %g of %g", parts, cost);
  if (prices > 1e-9 * fabs (cost))
    fail_msg ("a tenth more of a price costs a tenth of what it makes of the cost");
}

/* --- Random books ---------------------------------------------------------------------------------- */

static void
test_previews_agree (void **state)
{
  guint kinds[6] = { 0 };

  for (guint32 seed = 0; seed < N_BOOKS; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autofree char *rows = cro_test_random_rows (rand);
      CroTestFolder folder;
      g_autoptr (CroBook) book = cro_test_book_with (&folder, rows);
      CroModel *model = cro_book_get_model (book);

      for (gint64 id = 1; id <= CRO_TEST_RANDOM_PLATES; id++)
        expect_plate (book, cro_slots_get (&model->plate_slots, id), kinds);
      g_clear_object (&book);
      cro_test_folder_clear (&folder);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (kinds[i] < N_BOOKS)
      fail_msg ("enough movers of kind %zu were looked at to mean something: %u", i, kinds[i]);
}

/* --- Limits ------------------------------------------------------------------------------------------ */

/* Shows the book with a mover that many times what it is. FALSE: that cannot be shown. */
static gboolean
show_at (CroBook        *book,
         const CroMover *mover,
         double          factor)
{
  CroModel *model = cro_book_get_model (book);
  CroFigures *figures = cro_book_get_figures (book);
  const char *table, *column;
  gint64 id, value;
  CroCell cell;
  guint32 offer;

  cro_book_restore (book, NULL);
  if (column_of (model, mover, &table, &id, &column, &value))
    {
      cell = CRO_CELL_INT (llround ((double) value * factor));
      return value > 1000000 && cro_book_preview (book, table, id, column, &cell, NULL);
    }
  offer = figures->offer_in_use[mover->item];
  value = cro_model_offer (model, offer)->offer.price;
  return factor >= 0 && value > 1000000
         && cro_book_preview_price (book, offer, llround ((double) value * factor), NULL)
         && figures->offer_in_use[mover->item] == offer;
}

static CroFigure
figure_of (CroBook *book,
           CroRef   thing)
{
  CroFigures *figures = cro_book_get_figures (book);

  return thing.kind == CRO_REF_MENU ? cro_figure_of_menu (figures, thing.slot)
                                    : cro_figure_of_plate (figures, thing.slot);
}

/* To the millionth that a value is kept to, and what that is worth; of what has become a hundredth of
 * itself that is too much to say anything. */
#define NEARLY 2e-5
#define MOST_FACTOR 100

/* At its limit the holder stands at its target, and nobody else goes over. */
static void
expect_limit (CroBook        *book,
              CroRef          plate,
              CroRef          menu,
              const CroMover *mover,
              const CroLimit *limit,
              guint          *kinds)
{
  double spare[2], cost[2], factor = limit->value / mover->value;
  CroRef holders[2] = { plate, menu };

  if (limit->kind == CRO_LIMIT_NEVER ? mover->kind != CRO_MOVER_AMOUNT
                                     : limit->kind == CRO_LIMIT_NONE)
    return;
  if (limit->kind != CRO_LIMIT_NEVER && (factor > MOST_FACTOR || factor < 1.0 / MOST_FACTOR))
    return;
  if (!show_at (book, mover, limit->kind == CRO_LIMIT_NEVER ? 1e-6 : factor))
    return;
  for (int i = 0; i < 2; i++)
    {
      CroFigure figure = figure_of (book, holders[i]);

      spare[i] = cro_to_spare (&figure);
      cost[i] = fabs (figure.cost) + fabs (mover->up);
    }
  if (limit->kind == CRO_LIMIT_NEVER
          ? fmin (spare[0], spare[1]) >= 0
          : fabs (spare[limit->holder.kind == CRO_REF_MENU])
                    > NEARLY * cost[limit->holder.kind == CRO_REF_MENU]
                || spare[0] < -NEARLY * cost[0] || spare[1] < -NEARLY * cost[1])
    fail_msg ("kind %d of %s at its limit %g (%g now) leaves %g and %g", mover->kind,
              cro_model_item (cro_book_get_model (book), mover->item)->name, limit->value,
              mover->value, spare[0], spare[1]);
  kinds[mover->kind]++;
  cro_book_restore (book, NULL);
}

/* Both of one target, and of a price that leaves something to spare, or is passed. */
static void
set_price (CroBook    *book,
           const char *table,
           CroRef      thing,
           gint64      id,
           double      room)
{
  double price = figure_of (book, thing).cost / 0.3 * room;
  CroCell cell = CRO_CELL_INT (MAX (llround (price * 1e6), 1000));
  CroCell target = CRO_CELL_INT (30000000);
  GError *error = NULL;

  if (!cro_book_set (book, "price", table, id, "price_micro", &cell, &error)
      || !cro_book_set (book, "target", table, id, "target_pct_micro", &target, &error))
    fail_msg ("%s", error->message);
}

/* A menu of two servings of a plate and one of another. */
#define MENU                                                                                        \
  "INSERT INTO thing VALUES (90, 'menu'); INSERT INTO menu (id) VALUES (90);"                       \
  "INSERT INTO menu_plate (menu, plate, servings_micro) VALUES (90, 1, 2000000), (90, 2, 1000000);"

static void
test_at_its_limit_a_target_is_met (void **state)
{
  guint kinds[6] = { 0 };
  guint n_of_menu = 0;

  for (guint32 seed = 0; seed < N_LIMITED; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autofree char *recipes = cro_test_random_rows (rand);
      g_autofree char *rows = g_strconcat (recipes, MENU, NULL);
      CroTestFolder folder;
      g_autoptr (CroBook) book = cro_test_book_with (&folder, rows);
      CroModel *model = cro_book_get_model (book);
      CroFigures *figures = cro_book_get_figures (book);
      CroRef plate = CRO_REF (CRO_REF_RECIPE, cro_slots_get (&model->plate_slots, 1));
      CroRef menu = CRO_REF (CRO_REF_MENU, cro_slots_get (&model->menu_slots, 90));
      g_autoptr (CroMovers) movers = NULL;
      g_autoptr (GArray) limits = NULL;

      set_price (book, "plate", plate, 1, g_rand_double_range (rand, 0.9, 1.6));
      set_price (book, "menu", menu, 90, g_rand_double_range (rand, 0.9, 1.6));
      movers = cro_movers_new (figures, plate, G_MAXUINT);
      limits = cro_limits_new (figures, plate, movers->movers);
      for (guint i = 0; i < limits->len; i++)
        {
          const CroLimit *limit = &g_array_index (limits, CroLimit, i);

          n_of_menu += limit->holder.kind == CRO_REF_MENU;
          expect_limit (book, plate, menu, &g_array_index (movers->movers, CroMover, i), limit,
                        kinds);
        }
      g_clear_object (&book);
      cro_test_folder_clear (&folder);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (kinds[i] < (i == CRO_MOVER_VALUE ? 2 : N_LIMITED / 2))
      fail_msg ("enough limits of kind %zu were looked at to mean something: %u", i, kinds[i]);
  assert_true (n_of_menu > N_LIMITED);
}

/* --- The tightest of all --------------------------------------------------------------------------------- */

static void
take_lowest (GArray  *ingredients,
             guint32  item,
             double  *lowest)
{
  for (guint i = 0; i < ingredients->len; i++)
    {
      const CroShareOfCost *share = &g_array_index (ingredients, CroShareOfCost, i);

      /* One that is credited is bounded from below. */
      if (share->item == item && share->quantity > 0 && !isnan (share->ceiling))
        *lowest = fmin (*lowest, share->ceiling);
    }
}

/* By the breakdown of every plate and menu there is. */
static double
lowest_ceiling (CroBook *book,
                guint32  item)
{
  CroModel *model = cro_book_get_model (book);
  double lowest = INFINITY;

  for (gint64 id = 1; id <= CRO_TEST_RANDOM_PLATES; id++)
    {
      g_autoptr (CroBreakdown) plate = cro_breakdown_of_plate (
          cro_book_get_figures (book), cro_slots_get (&model->plate_slots, id));

      take_lowest (plate->ingredients, item, &lowest);
    }
  {
    g_autoptr (CroBreakdown) menu = cro_breakdown_of_menu (cro_book_get_figures (book),
                                                           cro_slots_get (&model->menu_slots, 90));

    take_lowest (menu->ingredients, item, &lowest);
  }
  return lowest;
}

static void
test_an_ingredient_is_held_by_the_tightest (void **state)
{
  guint n = 0;

  for (guint32 seed = 0; seed < N_LIMITED; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autofree char *recipes = cro_test_random_rows (rand);
      g_autofree char *rows = g_strconcat (recipes, MENU, NULL);
      CroTestFolder folder;
      g_autoptr (CroBook) book = cro_test_book_with (&folder, rows);
      CroModel *model = cro_book_get_model (book);

      set_price (book, "plate", CRO_REF (CRO_REF_RECIPE, cro_slots_get (&model->plate_slots, 1)), 1,
                 g_rand_double_range (rand, 0.9, 1.6));
      set_price (book, "plate", CRO_REF (CRO_REF_RECIPE, cro_slots_get (&model->plate_slots, 3)), 3,
                 g_rand_double_range (rand, 0.9, 1.6));
      set_price (book, "menu", CRO_REF (CRO_REF_MENU, cro_slots_get (&model->menu_slots, 90)), 90,
                 g_rand_double_range (rand, 0.9, 1.6));
      for (gint64 id = 1; id <= 12; id++)
        {
          guint32 item = cro_slots_get (&model->item_slots, id);
          double lowest = lowest_ceiling (book, item);
          CroMover price;
          CroLimit limit = cro_ceiling_of_item (cro_book_get_figures (book), item, &price);

          if (limit.kind != CRO_LIMIT_UP_TO && limit.kind != CRO_LIMIT_NEVER)
            continue;
          if (!(fabs (limit.value - lowest) <= 1e-9 * fabs (lowest)))
            fail_msg ("%s: %.12g of %.12g, seed %u", cro_model_item (model, item)->name, limit.value,
                      lowest, seed);
          n++;
        }
      g_clear_object (&book);
      cro_test_folder_clear (&folder);
    }
  assert_true (n > 5 * N_LIMITED);
}

/* --- One plate by hand ---------------------------------------------------------------------------- */

/* 1 kg samphire at 10.00 a kilo, trimmed at 80 %, boils down to half its weight; 100 g of that
 * make 10 bites. A bite is 10 g: 1000 g / 0.8 = 1250 g bought, 12.50 for 500 g, 0.025 a gram. */
#define BY_HAND                                                                                    \
  "INSERT INTO item VALUES (1, 'samphire'), (2, 'purée'), (3, 'cream');"                           \
  "INSERT INTO ingredient (id, unit, trim_yield_pct_micro) VALUES (1, 'g', 80000000),"             \
  " (3, 'g', NULL);"                                                                               \
  "INSERT INTO supplier (id, name) VALUES (1, 'Estuary Greens');"                                  \
  "INSERT INTO offer (id, ingredient, supplier, pack_count_micro, pack_size_micro, pack_unit)"     \
  " VALUES (1, 1, 1, 1000000, 1000000, 'kg'), (2, 3, 1, 1000000, 1000000, 'kg');"                  \
  "INSERT INTO price (offer, from_date, price_micro) VALUES (1, '2026-01-05', 10000000),"          \
  " (2, '2026-01-05', 5000000);"                                                                   \
  "INSERT INTO preparation (id, name) VALUES (1, 'purée');"                                        \
  "INSERT INTO output (id, preparation, role, unit, yield_pct_micro)"                              \
  " VALUES (2, 1, 'main', 'g', 50000000);"                                                         \
  "INSERT INTO thing VALUES (1, 'tartlet'), (2, 'menu');"                                          \
  "INSERT INTO plate (id, makes_micro) VALUES (1, 10000000);"                                      \
  "INSERT INTO menu (id, price_micro, target_pct_micro) VALUES (2, 2000000, 25000000);"            \
  "INSERT INTO menu_plate (menu, plate) VALUES (2, 1);"                                            \
  "INSERT INTO recipe_line (preparation, plate, position_micro, item, amount_micro, unit) VALUES"  \
  " (1, NULL, 1000000, 1, 1000000000, 'g'), (NULL, 1, 1000000, 2, 100000000, 'g'),"                \
  " (NULL, 1, 2000000, 3, 50000000, 'g');"

static void
test_by_hand (void **state)
{
  static const struct { const char *says; CroMoverKind kind; const char *item; double down, up; }
  cases[] = {
    { "a yield of the batch divides it", CRO_MOVER_FINISHED, "purée", 0.25 / 9, -0.25 / 11 },
    { "a trim yield divides what is bought", CRO_MOVER_TRIM_YIELD, "samphire", 0.25 / 9,
      -0.25 / 11 },
    { "a price counts as it stands", CRO_MOVER_PRICE, "samphire", -0.025, 0.025 },
    { "so does the amount of a plate's line", CRO_MOVER_AMOUNT, "purée", -0.025, 0.025 },
    { "the smallest comes last", CRO_MOVER_PRICE, "cream", -0.0025, 0.0025 },
    { "with its amount", CRO_MOVER_AMOUNT, "cream", -0.0025, 0.0025 },
  };
  CroTestFolder folder;
  g_autoptr (CroBook) book = cro_test_book_with (&folder, BY_HAND);
  CroModel *model = cro_book_get_model (book);
  g_autoptr (CroMovers) all = cro_movers_new (
      cro_book_get_figures (book), CRO_REF (CRO_REF_RECIPE, cro_slots_get (&model->plate_slots, 1)),
      G_MAXUINT);
  GArray *movers = all->movers;

  /* That of the samphire in the purée is not among them: twice as much in gives twice as much. */
  assert_int_equal (movers->len, G_N_ELEMENTS (cases));
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      gboolean found = FALSE;

      for (guint m = 0; m < movers->len; m++)
        {
          const CroMover *mover = &g_array_index (movers, CroMover, m);

          if (mover->kind != cases[i].kind
              || strcmp (cro_model_item (model, mover->item)->name, cases[i].item) != 0)
            continue;
          found = fabs (mover->down - cases[i].down) < 1e-12
                  && fabs (mover->up - cases[i].up) < 1e-12;
        }
      if (!found)
        fail_msg ("%s", cases[i].says);
    }
  g_clear_object (&book);
  cro_test_folder_clear (&folder);
}

/* 2.00 at 25 % leaves 0.50 for a bite of 0.275: 0.225 to spare. Samphire makes 0.25 of it and may be
 * 10.00 x 0.475 / 0.25 = 19.00 a kilo, and its trim yield 80 % / 1.9 = 42.1 %; so may what is boiled
 * down to half be 50 % / 1.9. Cream makes 0.025: 5.00 x 0.25 / 0.025 = 50.00 a kilo, ten times what
 * it is. */
static void
test_limits_by_hand (void **state)
{
  static const struct
  {
    const char   *says, *item;
    CroMoverKind  kind;
    CroLimitKind  limit;
    double        value;
    gboolean      is_far;
  } cases[] = {
    { "a price may rise", "samphire", CRO_MOVER_PRICE, CRO_LIMIT_UP_TO, 0.019, FALSE },
    { "a trim yield may fall", "samphire", CRO_MOVER_TRIM_YIELD, CRO_LIMIT_DOWN_TO, 80 / 1.9, FALSE },
    { "so may that of a batch", "purée", CRO_MOVER_FINISHED, CRO_LIMIT_DOWN_TO, 50 / 1.9, FALSE },
    { "an amount may rise", "purée", CRO_MOVER_AMOUNT, CRO_LIMIT_UP_TO, 190, FALSE },
    { "beyond three times is far", "cream", CRO_MOVER_PRICE, CRO_LIMIT_UP_TO, 0.05, TRUE },
  };
  CroTestFolder folder;
  g_autoptr (CroBook) book = cro_test_book_with (&folder, BY_HAND);
  CroModel *model = cro_book_get_model (book);
  CroRef plate = CRO_REF (CRO_REF_RECIPE, cro_slots_get (&model->plate_slots, 1));
  g_autoptr (CroMovers) movers = cro_movers_new (cro_book_get_figures (book), plate, G_MAXUINT);
  g_autoptr (GArray) limits = cro_limits_new (cro_book_get_figures (book), plate, movers->movers);
  CroFigure menu = cro_figure_of_menu (cro_book_get_figures (book), 0);
  g_autofree char *spare = cro_words_spare_money (model, &menu);

  /* Rounded down: whoever spends it keeps the target. */
  assert_string_equal (spare, "0.22");
  for (gsize c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      gboolean found = FALSE;

      for (guint i = 0; i < limits->len; i++)
        {
          const CroMover *mover = &g_array_index (movers->movers, CroMover, i);
          const CroLimit *limit = &g_array_index (limits, CroLimit, i);

          if (mover->kind == cases[c].kind
              && strcmp (cro_model_item (model, mover->item)->name, cases[c].item) == 0)
            found = limit->kind == cases[c].limit && limit->is_far == cases[c].is_far
                    && fabs (limit->value - cases[c].value) < 1e-6 * cases[c].value
                    && strcmp (cro_limit_holder (model, limit), "menu") == 0;
        }
      if (!found)
        fail_msg ("%s", cases[c].says);
    }
  g_clear_object (&book);
  cro_test_folder_clear (&folder);
}

/* Zest without a price goes into the purée: more of anything in it takes from what the zest costs in a gram. */
static void
test_what_is_missing_marks_what_rests_on_it (void **state)
{
  static const struct { const char *item; CroMoverKind kind; CroKnown known; const char *begins; } cases[] = {
    { "samphire", CRO_MOVER_PRICE, CRO_KNOWN_WHOLE, "±" },
    { "samphire", CRO_MOVER_TRIM_YIELD, CRO_KNOWN_WHOLE, "∓" },
    { "samphire", CRO_MOVER_AMOUNT, CRO_KNOWN_IN_PART, "? ±" },
    { "zest", CRO_MOVER_AMOUNT, CRO_KNOWN_NOTHING, "?" },
    { "purée", CRO_MOVER_FINISHED, CRO_KNOWN_AT_LEAST, "≥ ∓" },
    { "purée", CRO_MOVER_AMOUNT, CRO_KNOWN_AT_LEAST, "≥ ±" },
    { "cream", CRO_MOVER_PRICE, CRO_KNOWN_WHOLE, "±" },
    { "cream", CRO_MOVER_AMOUNT, CRO_KNOWN_WHOLE, "±" },
  };
  CroTestFolder folder;
  g_autoptr (CroBook) book = cro_test_book_with (
      &folder, BY_HAND "INSERT INTO item VALUES (4, 'zest'); INSERT INTO ingredient (id, unit) VALUES (4, 'g');"
                       "INSERT INTO recipe_line (preparation, position_micro, item, amount_micro, unit)"
                       " VALUES (1, 2000000, 4, 100000000, 'g');");
  CroModel *model = cro_book_get_model (book);
  CroRef plate = CRO_REF (CRO_REF_RECIPE, cro_slots_get (&model->plate_slots, 1));
  g_autoptr (CroMovers) all = cro_movers_new (cro_book_get_figures (book), plate, G_MAXUINT);
  g_autoptr (GArray) limits = cro_limits_new (cro_book_get_figures (book), plate, all->movers);

  assert_int_equal (all->movers->len, G_N_ELEMENTS (cases));
  for (guint i = 0; i < all->movers->len; i++)
    {
      const CroMover *mover = &g_array_index (all->movers, CroMover, i);
      const char *name = cro_model_item (model, mover->item)->name;
      g_autofree char *effect = cro_words_mover_effect (model, mover);
      g_autofree char *limit = cro_words_limit (cro_book_get_figures (book), mover,
                                                &g_array_index (limits, CroLimit, i), TRUE);
      guint c = 0;

      while (c < G_N_ELEMENTS (cases) && (cases[c].kind != mover->kind || strcmp (cases[c].item, name) != 0))
        c++;
      if (c == G_N_ELEMENTS (cases) || cases[c].known != mover->known || !g_str_has_prefix (effect, cases[c].begins)
          || (cases[c].known == CRO_KNOWN_NOTHING && strcmp (effect, "?") != 0)
          || (limit == NULL) == cro_mover_is_bounded (mover))
        fail_msg ("%s, %d: %s, %s", name, mover->kind, effect, limit);
    }
  g_clear_object (&book);
  cro_test_folder_clear (&folder);
}

/* Two creams of unknown weight more: its price moves the cost by at least what can be counted. */
static void
test_what_cannot_be_counted_is_moved_too (void **state)
{
  CroTestFolder folder;
  g_autoptr (CroBook) book = cro_test_book_with (
      &folder, BY_HAND "INSERT INTO recipe_line (plate, position_micro, item, amount_micro, unit)"
                       " VALUES (1, 3000000, 3, 2000000, 'each');");
  CroModel *model = cro_book_get_model (book);
  CroRef plate = CRO_REF (CRO_REF_RECIPE, cro_slots_get (&model->plate_slots, 1));
  g_autoptr (CroMovers) all = cro_movers_new (cro_book_get_figures (book), plate, G_MAXUINT);
  g_autoptr (CroMovers) one = cro_movers_new (cro_book_get_figures (book), plate, 1);
  guint n = 0;

  assert_true (one->prices.n > 0);
  assert_int_equal (one->prices.known, CRO_KNOWN_AT_LEAST);
  for (guint i = 0; i < all->movers->len; i++)
    {
      const CroMover *mover = &g_array_index (all->movers, CroMover, i);
      gboolean is_cream = strcmp (cro_model_item (model, mover->item)->name, "cream") == 0;

      n += mover->kind == CRO_MOVER_PRICE;
      if (mover->kind == CRO_MOVER_PRICE)
        assert_int_equal (mover->known, is_cream ? CRO_KNOWN_AT_LEAST : CRO_KNOWN_WHOLE);
    }
  assert_int_equal (n, 2);
  g_clear_object (&book);
  cro_test_folder_clear (&folder);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_what_cannot_be_counted_is_moved_too),
    cmocka_unit_test (test_what_is_missing_marks_what_rests_on_it),
    cmocka_unit_test (test_an_ingredient_is_held_by_the_tightest),
    cmocka_unit_test (test_at_its_limit_a_target_is_met),
    cmocka_unit_test (test_limits_by_hand),
    cmocka_unit_test (test_previews_agree),
    cmocka_unit_test (test_by_hand),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
