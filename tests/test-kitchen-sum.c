/* Figures as their sums: what they say, where they lead, and that they hold. */
#include "cro-card.h"
#include "cro-landing.h"
#include "cro-load.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-sum-change.h"
#include "cro-sum.h"
#include "support/kitchen-book.h"
#include "support/kitchen-random.h"

#include <math.h>

#define NBSP "\302\240"

#define ROWS                                                                                       \
  "INSERT INTO book (id, currency, wage_per_hour_micro, tax_pct_micro) VALUES (1, 'EUR', 18000000,"\
  " 10000000);"                                                                                    \
  "INSERT INTO rate (currency, from_date, rate_micro) VALUES ('GBP', '2026-01-01', 1200000);"      \
  "INSERT INTO item VALUES (1, 'samphire'), (2, 'oil'), (3, 'lemon'), (4, 'purée'), (5, 'stalks'),"\
  " (6, 'stock'), (7, 'fat'), (8, 'confit'), (9, 'peel'), (10, 'purslane'), (11, 'egg');"          \
  "INSERT INTO ingredient (id, unit, trim_yield_pct_micro, density_g_per_ml_micro, piece_g_micro)" \
  " VALUES (1, 'g', 80000000, NULL, NULL), (2, 'ml', NULL, 800000, NULL),"                         \
  " (3, 'each', NULL, NULL, NULL), (10, 'g', NULL, NULL, NULL), (11, 'g', NULL, NULL, 50000000);"  \
  "INSERT INTO supplier (id, name) VALUES (1, 'Estuary Greens');"                                  \
  "INSERT INTO offer (id, ingredient, supplier, pack_count_micro, pack_size_micro, pack_unit,"     \
  " net_pct_micro, currency) VALUES (1, 1, 1, 6000000, 1000000, 'kg', 90000000, 'GBP'),"           \
  " (2, 2, 1, 1000000, 5000000, 'kg', NULL, NULL), (3, 3, 1, 1000000, 10000000, 'each', NULL,"     \
  " NULL), (4, 11, 1, 1000000, 30000000, 'each', NULL, NULL);"                                     \
  "INSERT INTO price (offer, from_date, price_micro, tax_included_pct_micro) VALUES"               \
  " (1, '2026-01-05', 60000000, 20000000), (2, '2026-01-05', 12500000, NULL),"                     \
  " (3, '2026-01-05', 4000000, NULL), (4, '2026-01-05', 9000000, NULL);"                           \
  "INSERT INTO preparation (id, name, by_products) VALUES (1, 'purée', 'weight'),"                 \
  " (2, 'stock', 'credit'), (3, 'confit', 'free');"                                                \
  "INSERT INTO output (id, preparation, role, amount_micro, unit, value_micro) VALUES"             \
  " (4, 1, 'main', 600000000, 'g', NULL), (5, 1, 'by-product', 200000000, 'g', NULL),"             \
  " (6, 2, 'main', 1000000, 'l', NULL), (7, 2, 'by-product', 100000000, 'g', 10000),"              \
  " (8, 3, 'main', 500000000, 'g', NULL), (9, 3, 'by-product', NULL, 'g', NULL);"                  \
  "INSERT INTO thing VALUES (1, 'tartlet'), (2, 'tide menu'), (3, 'bun');"                         \
  "INSERT INTO plate (id, makes_micro, per_guest_micro, price_micro, allowance_pct_micro,"         \
  " active_minutes_micro) VALUES (1, 10000000, 2000000, 22000000, 3000000, 20000000),"             \
  " (3, 1000000, NULL, NULL, NULL, NULL);"                                                         \
  "INSERT INTO menu (id, price_micro, tax_pct_micro) VALUES (2, 50000000, 0);"                     \
  "INSERT INTO menu_plate (menu, plate, servings_micro, position_micro) VALUES"                    \
  " (2, 1, 2000000, 1000000), (2, 3, NULL, 2000000);"                                              \
  "INSERT INTO recipe_line (id, preparation, plate, position_micro, item, amount_micro, unit,"     \
  " yield_pct_micro, recovered_pct_micro) VALUES"                                                  \
  " (1, 1, NULL, 1000000, 1, 1000000000, 'g', NULL, NULL),"                                        \
  " (2, 2, NULL, 1000000, 3, 10000000, 'each', NULL, NULL),"                                       \
  " (3, 3, NULL, 1000000, 3, 10000000, 'each', NULL, NULL),"                                       \
  " (4, NULL, 1, 1000000, 1, 300000000, 'g', 60000000, 10000000),"                                 \
  " (5, NULL, 1, 2000000, 2, 80000000, 'g', NULL, NULL),"                                          \
  " (6, NULL, 3, 1000000, 11, 2000000, 'each', NULL, NULL);"

static const CroSumWords words = {
  .bites = "bites", .a_guest = "a guest", .seasoning = "seasoning", .food = "food",
  .labour = "labour", .tax = "tax", .rate = "rate", .net = "net", .comes_back = "comes back",
  .yield = "yield", .share = "share", .minutes = "minutes", .no_minutes = "no minutes", .wage = "an hour",
};

static int
setup_with (void       **state,
            const char  *rows)
{
  CroTestKitchen *kitchen = g_new0 (CroTestKitchen, 1);
  sqlite3 *db;

  kitchen->folder = cro_test_folder_new ();
  cro_store_close (cro_test_create (kitchen->folder.path));
  db = cro_test_raw (kitchen->folder.path);
  cro_test_begin_raw_act (db);
  cro_test_sql (db, rows);
  cro_test_end_raw_act (db);
  sqlite3_close (db);
  kitchen->book = cro_test_book_open (kitchen->folder.path, "cook");
  *state = kitchen;
  return 0;
}

static int
setup (void **state)
{
  return setup_with (state, ROWS);
}

/* Purslane has no price: it goes into the tartlet, and the tartlet into the menu. */
static int
setup_without_a_price (void **state)
{
  return setup_with (state, ROWS
                     "INSERT INTO recipe_line (id, preparation, plate, position_micro, item,"
                     " amount_micro, unit) VALUES (7, NULL, 1, 3000000, 10, 5000000, 'g');");
}

/* It goes into the purée, and that into the tartlet. */
static int
setup_without_a_price_below (void **state)
{
  return setup_with (state, ROWS
                     "INSERT INTO recipe_line (id, preparation, plate, position_micro, item,"
                     " amount_micro, unit) VALUES (7, 1, NULL, 9000000, 10, 5000000, 'g'),"
                     " (8, NULL, 1, 3000000, 4, 100000000, 'g');");
}

/* It goes into the stock, whose fat has a value, and into the confit, whose peel is free. */
static int
setup_without_a_price_of_batches (void **state)
{
  return setup_with (state, ROWS
                     "INSERT INTO recipe_line (id, preparation, plate, position_micro, item,"
                     " amount_micro, unit) VALUES (7, 2, NULL, 9000000, 10, 5000000, 'g'),"
                     " (8, 3, NULL, 9000000, 10, 5000000, 'g');");
}

static int
setup_without_a_wage (void **state)
{
  return setup_with (state, ROWS
                     "UPDATE book SET wage_per_hour_micro = NULL;"
                     "UPDATE preparation SET active_minutes_micro = 20000000 WHERE id = 1;");
}

typedef enum
{
  GUEST, MENU, PCT, NET, PRIME, LEFT, MENU_PCT, MENU_NET, MENU_LEFT, BATCH, PLATE_BATCH, ITEM,
  LINE, TRIMMED, LABOUR,
} Figure;

static GPtrArray *
sum_of (CroBook           *book,
        Figure             figure,
        gint64             id,
        const CroSumWords *with)
{
  CroFigures *figures = cro_book_get_figures (book);
  CroModel *model = figures->model;
  CroRef plate = CRO_REF (CRO_REF_RECIPE, cro_slots_get (&model->plate_slots, id));
  CroRef menu = CRO_REF (CRO_REF_MENU, cro_slots_get (&model->menu_slots, id));

  switch (figure)
    {
    case GUEST:
      return cro_sum_of_guest (figures, plate.slot, with);
    case MENU:
      return cro_sum_of_menu (figures, menu.slot, with);
    case PCT:
      return cro_sum_of_pct (figures, plate, with);
    case NET:
      return cro_sum_of_net_price (figures, plate, with);
    case PRIME:
      return cro_sum_of_prime_cost (figures, plate, with);
    case LEFT:
      return cro_sum_of_left (figures, plate, with);
    case MENU_LEFT:
      return cro_sum_of_left (figures, menu, with);
    case MENU_PCT:
      return cro_sum_of_pct (figures, menu, with);
    case MENU_NET:
      return cro_sum_of_net_price (figures, menu, with);
    case BATCH:
      return cro_sum_of_batch (figures, cro_slots_get (&model->preparation_slots, id), with);
    case PLATE_BATCH:
      return cro_sum_of_batch (figures, plate.slot, with);
    case TRIMMED:
      return cro_sum_of_trimmed (figures, cro_slots_get (&model->item_slots, id), with);
    case LABOUR:
      return cro_sum_of_labour (figures, cro_slots_get (&model->preparation_slots, id), with);
    case ITEM:
      return cro_sum_of_item (figures, cro_slots_get (&model->item_slots, id), with);
    default:
      return cro_sum_of_line (figures, cro_slots_get (&model->line_slots, id), with);
    }
}

/* Worked by hand: samphire 60.00 × 1.2 ÷ 1.2 ÷ 5.4 kg = 11.111/kg; the plate 0.45 kg of it and
 * 0.1 l of oil at 2.00/l = 5.20; a guest 2 × 1.03 × 5.20 ÷ 10 = 1.0712. */
static void
test_texts (void **state)
{
  static const struct { const char *says; Figure figure; gint64 id; const CroSumWords *with;
                        const char *text; } cases[] = {
    { "without words", GUEST, 1, NULL, "1.07 = 2 × 1.03 × 5.20 ÷ 10" },
    { "a guest of several bites", GUEST, 1, &words,
      "1.07 = 2 a guest × 1.03 seasoning × 5.20 ÷ 10 bites" },
    { "a guest of one", GUEST, 3, NULL, "0.60 = 0.60 ÷ 1" },
    { "a menu", MENU, 2, NULL, "2.74 = 2 × 1.07 tartlet + 0.60 bun" },
    { "food-cost %", PCT, 1, NULL, "5.4" NBSP "% = 1.07 ÷ 20.00" },
    { "net price", NET, 1, &words, "20.00 = 22.00 ÷ 1.1 tax" },
    { "net price without tax", MENU_NET, 2, &words, "50.00 = 50.00" },
    { "a menu's %", MENU_PCT, 2, NULL, "5.5" NBSP "% = 2.74 ÷ 50.00" },
    { "prime cost", PRIME, 1, &words, "2.27 = 1.07 food + 1.20 labour" },
    { "without minutes", PRIME, 3, &words, "0.60 = 0.60 food · no minutes" },
    { "without minutes and words", PRIME, 3, NULL, "0.60 = 0.60" },
    { "what is left", LEFT, 1, &words, "18.93 = 20.00 − 1.07 food" },
    { "what a menu leaves", MENU_LEFT, 2, NULL, "47.26 = 50.00 − 2.74" },
    { "a plate's bites", PLATE_BATCH, 1, NULL, "5.20 = 5.00 samphire + 0.20 oil" },
    { "a batch", BATCH, 1, NULL, "13.89 = 13.89 samphire" },
    { "what is bought", ITEM, 1, &words,
      "11.11/kg = 60.00 GBP × 1.2 rate ÷ 1.2 tax ÷ (6 × 1" NBSP "kg × 90" NBSP "% net)" },
    { "by weight, for what is measured", ITEM, 2, NULL,
      "2.00/l = 12.50 ÷ (5" NBSP "kg × 1.25)" },
    { "by the piece", ITEM, 3, NULL, "0.40 each = 4.00 ÷ 10" NBSP "pc" },
    { "by the piece, for what is weighed", ITEM, 11, NULL,
      "6.00/kg = 9.00 ÷ (30" NBSP "pc × 50 g)" },
    { "a share by weight", ITEM, 4, &words, "17.36/kg = 13.89 × 75.0" NBSP "% share ÷ 600 g" },
    { "of the by-product", ITEM, 5, NULL, "17.36/kg = 13.89 × 25.0" NBSP "% ÷ 200 g" },
    { "what credits leave", ITEM, 6, NULL, "3.00/l = (4.00 − 1.00 fat) ÷ 1 l" },
    { "an assigned value", ITEM, 7, NULL, "10.00/kg = 10.00/kg" },
    { "who bears all", ITEM, 8, NULL, "8.00/kg = 4.00 ÷ 500 g" },
    { "who bears nothing", ITEM, 9, NULL, "0.00/kg = 4.00 × 0.0" NBSP "%" },
    { "a line with its own yield, of which some comes back", LINE, 4, &words,
      "5.00 = 300" NBSP "g × (1 − 10" NBSP "% comes back) ÷ 60" NBSP "% yield × 11.11/kg samphire" },
    { "a line with a trim yield", LINE, 1, NULL,
      "13.89 = 1000" NBSP "g ÷ 80" NBSP "% × 11.11/kg samphire" },
    { "a line by weight of what is measured", LINE, 5, NULL,
      "0.20 = 80" NBSP "g × 1.25 × 2.00/l oil" },
    { "a line of pieces of what is weighed", LINE, 6, NULL,
      "0.60 = 2" NBSP "pc × 50 g × 6.00/kg egg" },
    { "what is trimmed", TRIMMED, 1, &words,
      "13.89/kg = 11.11/kg ÷ 80" NBSP "% yield" },
    { "a batch that nobody stands at", LABOUR, 1, NULL, "0.00 = 0.00" },
    { "what has no trim yield", TRIMMED, 2, NULL, NULL },
    { "what has no price has no sum", ITEM, 10, NULL, NULL },
    { "nor has a % without one", PCT, 3, NULL, NULL },
    { "nor a net price", NET, 3, NULL, NULL },
    { "nor leaves anything", LEFT, 3, NULL, NULL },
  };
  CroTestKitchen *kitchen = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GPtrArray) sum = sum_of (kitchen->book, cases[i].figure, cases[i].id,
                                          cases[i].with);
      g_autofree char *text = sum != NULL ? cro_sum_to_text (sum) : NULL;

      if (g_strcmp0 (text, cases[i].text) != 0)
        fail_msg ("%s: \"%s\" and not \"%s\"", cases[i].says, text, cases[i].text);
    }
}

static void
test_what_is_missing_is_marked_in_every_number (void **state)
{
  static const struct { Figure figure; gint64 id; const char *text; } cases[] = {
    { GUEST, 1, "at least 1.07 = 2 a guest × 1.03 seasoning × at least 5.20 ÷ 10 bites" },
    { LEFT, 1, "at most 18.93 = 20.00 − at least 1.07 food" },
    { PCT, 1, "at least 5.4" NBSP "% = at least 1.07 food ÷ 20.00" },
    { PRIME, 1, "at least 2.27 = at least 1.07 food + 1.20 labour" },
    { MENU, 2, "at least 2.74 = 2 × at least 1.07 tartlet + 0.60 bun" },
    { MENU_LEFT, 2, "at most 47.26 = 50.00 − at least 2.74 food" },
  };
  CroTestKitchen *kitchen = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GPtrArray) sum = sum_of (kitchen->book, cases[i].figure, cases[i].id, &words);
      g_autofree char *text = cro_sum_to_text (sum);

      assert_string_equal (text, cases[i].text);
    }
}

static void
test_what_is_missing_below_is_marked_too (void **state)
{
  static const struct { Figure figure; gint64 id; const char *text; } cases[] = {
    { ITEM, 4, "at least 17.36/kg = at least 13.89 × 75.0" NBSP "% share ÷ 600 g" },
    { LINE, 8, "at least 1.7361 = 100" NBSP "g × at least 17.361/kg purée" },
    { PLATE_BATCH, 1, "at least 6.94 = 5.00 samphire + 0.20 oil + at least 1.74 purée" },
  };
  CroTestKitchen *kitchen = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GPtrArray) sum = sum_of (kitchen->book, cases[i].figure, cases[i].id, &words);
      g_autofree char *text = cro_sum_to_text (sum);

      assert_string_equal (text, cases[i].text);
    }
}

static void
test_what_costs_by_itself_is_known (void **state)
{
  static const struct { gint64 id; const char *text; } cases[] = {
    { 6, "? 3.00/l = (at least 4.00 − 1.00 fat) ÷ 1 l" },
    { 7, "10.00/kg = 10.00/kg" },
    { 8, "at least 8.00/kg = at least 4.00 ÷ 500 g" },
    { 9, "0.00/kg = at least 4.00 × 0.0" NBSP "% share" },
  };
  CroTestKitchen *kitchen = *state;
  guint32 peel = cro_slots_get (&cro_book_get_model (kitchen->book)->item_slots, 9);

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GPtrArray) sum = sum_of (kitchen->book, ITEM, cases[i].id, &words);
      g_autofree char *text = cro_sum_to_text (sum);

      assert_string_equal (text, cases[i].text);
    }
  /* What is free is so where it is taken too, if it is said how much there is. */
  assert_int_equal (cro_known_of_taken (cro_book_get_figures (kitchen->book), peel, 0), CRO_KNOWN_NOTHING);
  ((CroItem *) cro_model_item (cro_book_get_model (kitchen->book), peel))->output.amount = INT64_C (100000000);
  assert_int_equal (cro_known_of_taken (cro_book_get_figures (kitchen->book), peel, 0), CRO_KNOWN_WHOLE);
}

static void
test_labour_without_a_wage_is_no_zero (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (GPtrArray) batch = sum_of (kitchen->book, LABOUR, 1, &words);
  g_autoptr (GPtrArray) prime = sum_of (kitchen->book, PRIME, 1, &words);
  g_autofree char *of_batch = cro_sum_to_text (batch);
  g_autofree char *of_prime = cro_sum_to_text (prime);
  g_autoptr (GPtrArray) food = sum_of (kitchen->book, BATCH, 1, &words);
  g_autofree char *of_food = cro_sum_to_text (food);

  assert_true (g_str_has_prefix (of_food, "at least "));
  assert_string_equal (of_batch, "? = 20 minutes × ? an hour ÷ 60");
  assert_string_equal (of_prime, "at least 1.07 = at least 1.07 food + ? labour");
}

static void
expect_link (const char *says,
             GPtrArray  *sum,
             const char *text,
             CroRefKind  kind,
             guint32     slot)
{
  for (guint i = 1; i < sum->len; i++)
    {
      const CroSumToken *token = sum->pdata[i];

      if (strcmp (token->text, text) == 0 && token->ref.kind == kind && token->ref.slot == slot)
        return;
    }
  fail_msg ("%s", says);
}

static void
test_links (void **state)
{
  CroTestKitchen *kitchen = *state;
  CroModel *model = cro_book_get_model (kitchen->book);
  g_autoptr (GPtrArray) guest = sum_of (kitchen->book, GUEST, 1, NULL);
  g_autoptr (GPtrArray) batch = sum_of (kitchen->book, PLATE_BATCH, 1, NULL);
  g_autoptr (GPtrArray) line = sum_of (kitchen->book, LINE, 1, NULL);
  g_autoptr (GPtrArray) net = sum_of (kitchen->book, NET, 1, NULL);
  g_autoptr (GPtrArray) item = sum_of (kitchen->book, ITEM, 1, NULL);
  guint32 samphire = cro_slots_get (&model->item_slots, 1);

  expect_link ("a guest leads to the plate", guest, "5.20", CRO_REF_RECIPE,
               cro_slots_get (&model->plate_slots, 1));
  expect_link ("a plate's bites lead to its lines", batch, "5.00", CRO_REF_LINE,
               cro_slots_get (&model->line_slots, 4));
  expect_link ("a trim yield leads to its ingredient", line, "80" NBSP "%", CRO_REF_ITEM, samphire);
  expect_link ("and so does its price", line, "11.11/kg", CRO_REF_ITEM, samphire);
  expect_link ("the book's tax leads to its settings", net, "1.1", CRO_REF_HOUSE, CRO_NO_SLOT);
  expect_link ("a pack's price leads to its offer", item, "60.00", CRO_REF_OFFER,
               cro_slots_get (&model->offer_slots, 1));
}

/* --- What a pocket calculator makes of a sum ------------------------------------------------------ */

#define N_BOOKS CRO_TEST_N_BOOKS (60)

#define MINUS "\u2212"

/* What a number that is shown is worth in g, ml, pieces, and money for one of those. */
static double
worth (const char *text)
{
  static const struct { const char *unit; double factor; } units[] = {
    { "/kg", 1e-3 }, { "/l", 1e-3 }, { NBSP "%", 1e-2 }, { " kg", 1e3 }, { " l", 1e3 },
    { NBSP "kg", 1e3 }, { NBSP "l", 1e3 }, { NBSP "mg", 1e-3 }, { NBSP "cl", 10 }, { NBSP "dl", 100 },
  };
  const char *digits = text;
  gboolean is_negative;
  char *end;
  double value;

  if (strcmp (text, "?") == 0)
    return 0;
  while (!g_str_has_prefix (digits, MINUS) && !g_ascii_isdigit (*digits))
    digits++;
  is_negative = g_str_has_prefix (digits, MINUS);
  value = g_ascii_strtod (digits + (is_negative ? strlen (MINUS) : 0), &end) * (is_negative ? -1 : 1);
  for (gsize i = 0; i < G_N_ELEMENTS (units); i++)
    if (strcmp (end, units[i].unit) == 0)
      return value * units[i].factor;
  return value;
}

/* The unit of the last digit that a figure shows, in what worth () tells. */
static double
last_digit (const char *text)
{
  const char *point = strchr (text, '.');
  double digit = 1;

  for (const char *p = point != NULL ? point + 1 : ""; g_ascii_isdigit (*p); p++)
    digit /= 10;
  return digit * (strstr (text, "/kg") != NULL || strstr (text, "/l") != NULL ? 1e-3
                  : strchr (text, '%') != NULL                                 ? 1e-2
                                                                               : 1);
}

/* One level of ( ) at most: × and ÷ at once, + and − when a product is whole. */
static double
calculate (GPtrArray *sum,
           guint     *at,
           guint      depth)
{
  double total = 0, product = 0;
  const char *before = "+";
  double sign = 1;

  for (; *at < sum->len; (*at)++)
    {
      const CroSumToken *token = sum->pdata[*at];
      double value;

      if (token->kind == CRO_SUM_WORD)
        continue;
      if (token->kind == CRO_SUM_SIGN && strcmp (token->text, ")") == 0 && depth > 0)
        break;
      if (token->kind == CRO_SUM_SIGN && strcmp (token->text, "(") != 0)
        {
          before = token->text;
          continue;
        }
      if (token->kind == CRO_SUM_SIGN)
        {
          (*at)++;
          value = calculate (sum, at, depth + 1);
        }
      else
        value = worth (token->text);
      if (strcmp (before, "×") == 0)
        product *= value;
      else if (strcmp (before, "÷") == 0)
        product /= value;
      else
        {
          total += sign * product;
          sign = strcmp (before, "−") == 0 ? -1 : 1;
          product = value;
        }
    }
  return total + sign * product;
}

static void
expect_sum (const char *what,
            gint64      id,
            GPtrArray  *owned)
{
  g_autoptr (GPtrArray) sum = owned;
  g_autofree char *text = NULL;
  const CroSumToken *figure;
  double digit, shown, got;
  guint at = 2;

  if (sum == NULL)
    return;
  text = cro_sum_to_text (sum);
  figure = sum->pdata[0];
  shown = worth (figure->text);
  digit = last_digit (figure->text);
  got = calculate (sum, &at, 0);
  /* Half away from zero; sums of doubles are a hair off a half. */
  got = copysign (floor (fabs (got) / digit + 0.5 + fmin (1e-12 * fabs (got) / digit, 1e-3)), got)
        * digit;
  /* No calculator has more digits, and no double. */
  if (fabs (shown) / digit > 1e12)
    return;
  if (strcmp (figure->text, "?") != 0 && fabs (got - shown) > digit / 100)
    fail_msg ("%s %d: %s, which is %.9g", what, (int) id, text, got);
}

static void
expect_sums (CroBook *book)
{
  CroFigures *figures = cro_book_get_figures (book);
  CroModel *model = figures->model;

  for (guint32 i = 0; i < model->items->len; i++)
    if (cro_model_item (model, i)->name != NULL)
      {
        expect_sum ("item", i, cro_sum_of_item (figures, i, &words));
        expect_sum ("trimmed", i, cro_sum_of_trimmed (figures, i, &words));
      }
  for (guint32 i = 0; i < model->lines.n; i++)
    if (model->lines.item[i] != CRO_NO_SLOT)
      expect_sum ("line", i, cro_sum_of_line (figures, i, &words));
  for (guint32 i = 0; i < model->recipes->len; i++)
    {
      CroRef plate = CRO_REF (CRO_REF_RECIPE, i);

      expect_sum ("batch", i, cro_sum_of_batch (figures, i, &words));
      if (!cro_model_recipe (model, i)->is_plate)
        {
          expect_sum ("labour", i, cro_sum_of_labour (figures, i, &words));
          continue;
        }
      expect_sum ("guest", i, cro_sum_of_guest (figures, i, &words));
      expect_sum ("percentage", i, cro_sum_of_pct (figures, plate, &words));
      expect_sum ("net price", i, cro_sum_of_net_price (figures, plate, &words));
      expect_sum ("prime cost", i, cro_sum_of_prime_cost (figures, plate, &words));
      expect_sum ("what is left", i, cro_sum_of_left (figures, plate, &words));
    }
  for (guint32 i = 0; i < model->menus->len; i++)
    {
      expect_sum ("menu", i, cro_sum_of_menu (figures, i, &words));
      expect_sum ("menu's percentage", i,
                  cro_sum_of_pct (figures, CRO_REF (CRO_REF_MENU, i), &words));
      expect_sum ("what a menu leaves", i,
                  cro_sum_of_left (figures, CRO_REF (CRO_REF_MENU, i), &words));
    }
  for (guint32 i = 0; i < model->menu_plates->len; i++)
    expect_sum ("part", i,
                cro_sum_of_part (figures, &g_array_index (model->menu_plates, CroMenuPlate, i)));
}

/* What is said of a line that is typed is what it has once it stands there: 12.5 units are 13 alone, and 12 behind
 * one line whose larger part of a unit takes what is left over. */
static void
expect_next_line (CroFigures *figures,
                  guint32     recipe)
{
  double scale = pow (10, cro_currency_digits (figures->model->currency));
  double all = cro_landing_total (figures, recipe) * scale, part = all - floor (all);
  gint64 added = cro_landing_of_added (figures, recipe, 12.5 / scale);
  guint32 row = cro_figures_row (figures, recipe);
  guint32 n = figures->graph.first[row + 1] - figures->graph.first[row];

  assert_int_equal (cro_landing_of_added (figures, recipe, 0), 0);
  if (cro_model_recipe (figures->model, recipe)->allowance > 0 || n > 1)
    return;
  if (n == 0)
    assert_int_equal (added, 13);
  else if (part > 0.55 && part < 0.95)
    assert_int_equal (added, 12);
}

/* The lines of one recipe: what they show adds up, and is what its card shows of them. */
static void
expect_same_cents (CroFigures *figures,
                   guint32     recipe)
{
  int digits = cro_currency_digits (figures->model->currency);
  gint64 total, sum = 0;
  g_autofree gint64 *lines = cro_landing_dup_lines (figures, recipe, &total);
  g_autoptr (GArray) rows = cro_card_new (figures, recipe);
  g_autofree gint64 *card = cro_card_dup_minor (rows, total, digits);
  guint32 at = 0;

  assert_int_equal (total, cro_money_round (cro_landing_total (figures, recipe)
                                            + cro_landing_allowance (figures, recipe), digits));
  for (guint i = 0; i < rows->len; i++)
    if (g_array_index (rows, CroCardRow, i).depth == 0)
      {
        assert_int_equal (lines[at], card[i]);
        sum += lines[at++];
      }
  if (at > 0)
    assert_int_equal (sum, total);
  expect_next_line (figures, recipe);
}

static void
expect_all_cents (CroBook *book)
{
  CroFigures *figures = cro_book_get_figures (book);

  for (guint32 i = 0; i < figures->model->recipes->len; i++)
    if (!cro_model_recipe (figures->model, i)->is_dead)
      expect_same_cents (figures, i);
}

/* Prices that no calculator divides without a remainder. */
static void
test_random_sums_hold (void **state)
{
  for (guint32 seed = 0; seed < N_BOOKS; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autofree char *rows = cro_test_random_rows (rand);
      g_autofree char *all = g_strconcat (
          rows, "UPDATE plate SET price_micro = 11310000 + id * 1730000, tax_pct_micro = 5500000;"
                "UPDATE price SET price_micro = price_micro * 13 / 7 + 10000;", NULL);
      CroTestFolder folder;
      g_autoptr (CroBook) book = cro_test_book_with (&folder, all);

      expect_sums (book);
      expect_all_cents (book);
      g_clear_object (&book);
      cro_test_folder_clear (&folder);
    }
}

static void
test_sums_of_the_demo_hold (void **state)
{
  CroTestFolder folder = cro_test_folder_new ();
  g_autofree char *demo = g_build_filename (g_getenv ("CROUSTADE_SOURCE"), "data", "demo", NULL);
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (CroBook) book = NULL;

  assert_true (cro_load (folder.path, demo, "cook", "load", FALSE, NULL, NULL, faults, NULL));
  book = cro_book_open (folder.path, NULL, CRO_STORE_READ, cro_date_from_civil (2026, 11, 25), NULL);
  assert_non_null (book);
  expect_sums (book);
  expect_all_cents (book);
  g_clear_object (&book);
  cro_test_folder_clear (&folder);
}

/* --- How a price changed ------------------------------------------------------------------------- */

static int
setup_with_an_older_price (void **state)
{
  return setup_with (state, ROWS "INSERT INTO price (offer, from_date, price_micro,"
                                 " tax_included_pct_micro) VALUES (1, '2025-11-03', 55000000,"
                                 " 20000000);");
}

/* (60 − 55) ÷ 55, of a kg each: what tax and the net part make of a pack is the same of both. */
static void
test_a_change_has_its_sum (void **state)
{
  CroTestKitchen *kitchen = *state;
  CroFigures *figures = cro_book_get_figures (kitchen->book);
  guint32 samphire = cro_slots_get (&figures->model->item_slots, 1);
  guint32 oil = cro_slots_get (&figures->model->item_slots, 2);
  g_autoptr (GArray) history = cro_price_history_new (kitchen->book, samphire, NULL);
  g_autoptr (GArray) of_oil = cro_price_history_new (kitchen->book, oil, NULL);
  GPtrArray *sum = cro_sum_of_change (figures, history, samphire);
  g_autofree char *text = NULL;

  assert_non_null (sum);
  text = cro_sum_to_text (sum);
  assert_string_equal (text, "9.1" NBSP "% = (9.26/kg 2026-01-05 − 8.49/kg 2025-11-03) ÷ 8.49/kg"
                             " 2025-11-03");
  expect_sum ("change", samphire, sum);
  assert_null (cro_sum_of_change (figures, of_oil, oil));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (test_texts, setup, cro_test_kitchen_tear_down),
    cmocka_unit_test_setup_teardown (test_what_is_missing_below_is_marked_too,
                                     setup_without_a_price_below, cro_test_kitchen_tear_down),
    cmocka_unit_test_setup_teardown (test_what_is_missing_is_marked_in_every_number,
                                     setup_without_a_price, cro_test_kitchen_tear_down),
    cmocka_unit_test_setup_teardown (test_what_costs_by_itself_is_known, setup_without_a_price_of_batches,
                                     cro_test_kitchen_tear_down),
    cmocka_unit_test_setup_teardown (test_labour_without_a_wage_is_no_zero, setup_without_a_wage,
                                     cro_test_kitchen_tear_down),
    cmocka_unit_test (test_random_sums_hold),
    cmocka_unit_test (test_sums_of_the_demo_hold),
    cmocka_unit_test_setup_teardown (test_links, setup, cro_test_kitchen_tear_down),
    cmocka_unit_test_setup_teardown (test_a_change_has_its_sum, setup_with_an_older_price,
                                     cro_test_kitchen_tear_down),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
