/* What is asked about, and what is not. */
#include "cro-decimal.h"
#include "cro-doubts.h"
#include "cro-edit.h"
#include "cro-words.h"
#include "support/kitchen-book.h"
#include "support/locales.h"

/* A sound book: 1 kg of leek in, 800 g of soup and 100 g of tops out. Each case takes the place of
 * some of its tables. */
static const struct { const char *table, *text; } sound[] = {
  { "book", "key,value\ncurrency,EUR\ntarget_pct,30\ntax_pct,10\n" },
  { "ingredients", "name,unit,trim_yield_pct\nLeek,g,80\nBeans,g,220\nCrab,g,25\n" },
  { "suppliers", "name\nMarket\n" },
  { "offers", "ingredient,supplier,pack_count,pack_size,pack_unit\nLeek,Market,1,5,kg\n" },
  { "prices", "ingredient,supplier,from,price\nLeek,Market,2025-11-01,66\nLeek,Market,2026-01-01,70\n" },
  { "preparations", "name\nSoup\n" },
  { "outputs", "item,preparation,role,amount,unit\nSoup,Soup,main,800,g\nTops,Soup,by-product,100,g\n" },
  { "plates", "name,makes,price\nBite,10,3\n" },
  { "lines", "into,parent,position,item,amount,unit\npreparation,Soup,1,Leek,1,kg\n"
             "plate,Bite,1,Soup,100,g\n" },
};

static int
setup (void **state)
{
  CroTestFolder *folder = g_new (CroTestFolder, 1);

  *folder = cro_test_folder_new ();
  *state = folder;
  return 0;
}

static int
teardown (void **state)
{
  cro_test_folder_clear (*state);
  g_free (*state);
  return 0;
}

/* All that is asked of a book, or below a thing of it, one a line. */
static char *
asked_of (CroBook    *book,
          const char *thing)
{
  CroModel *model = cro_book_get_model (book);
  GError *error = NULL;
  g_autoptr (GArray) doubts
      = thing == NULL
            ? cro_doubts_list (book, &error)
            : cro_doubts_below (book, cro_edit_find_name (model, CRO_NAMES_THINGS, thing), &error);
  GString *text = g_string_new (NULL);

  cro_test_must (doubts != NULL, error);
  for (guint i = 0; i < doubts->len; i++)
    {
      g_autofree char *place = cro_words_doubt_place (model, &g_array_index (doubts, CroDoubt, i));
      g_autofree char *says = cro_words_doubt (model, &g_array_index (doubts, CroDoubt, i));

      g_string_append_printf (text, "%s%s: %s", i > 0 ? "\n" : "", place, says);
    }
  return g_string_free (text, FALSE);
}

static void
expect (CroTestFolder *folder,
        const char    *says,
        const char    *table,
        const char    *rows,
        const char    *second,
        const char    *second_rows,
        const char    *questions)
{
  g_autofree char *text = NULL;
  CroBook *book;

  for (gsize i = 0; i < G_N_ELEMENTS (sound); i++)
    cro_test_write_table (folder->folder, sound[i].table, sound[i].text);
  if (table != NULL)
    cro_test_write_table (folder->folder, table, rows);
  if (second != NULL)
    cro_test_write_table (folder->folder, second, second_rows);
  book = cro_test_book_load (folder);
  text = asked_of (book, NULL);
  g_object_unref (book);
  if (strcmp (text, questions) != 0)
    fail_msg ("%s: it asks \"%s\"", says, text);
}

static void
test_sound (void **state)
{
  expect (*state, "a sound book", NULL, NULL, NULL, NULL, "");
}

static void
test_percent (void **state)
{
  expect (*state, "a target as a part", "plates", "name,makes,target_pct\nBite,10,0.3\n", NULL, NULL,
          "Bite, target: 0.3\302\240%: is 30\302\240% meant?");
}

static void
test_tax (void **state)
{
  expect (*state, "tax as a part", "book", "key,value\ntax_pct,0.2\n", NULL, NULL,
          "Book settings, tax: 0.2\302\240%: is 20\302\240% meant?");
}

static void
test_trim (void **state)
{
  expect (*state, "a trim yield as a part", "ingredients",
          "name,unit,trim_yield_pct\nLeek,g,0.8\nBeans,g,220\nCrab,g,25\n", NULL, NULL,
          "Leek, trim yield: 0.8\302\240%: is 80\302\240% meant?");
}

static void
test_gain (void **state)
{
  expect (*state, "more out than in", "outputs",
          "item,preparation,role,amount,unit\nSoup,Soup,main,3,kg\n", NULL, NULL,
          "Soup: 3 kg comes out, but only 1 kg goes in. Is a line missing, such as water?");
}

static void
test_gain_is_told (void **state)
{
  expect (*state, "a yield above 100 % says so itself", "outputs",
          "item,preparation,role,yield_pct\nSoup,Soup,main,300\n", NULL, NULL, "");
}

static void
test_soaked (void **state)
{
  expect (*state, "soaked once: weighed dry, grown in the batch", "lines",
          "into,parent,position,item,amount,unit,weighed\npreparation,Soup,1,Beans,400,g,whole\n",
          NULL, NULL, "");
}

static void
test_soaked_twice (void **state)
{
  expect (*state, "soaked twice", "lines",
          "into,parent,position,item,amount,unit\npreparation,Soup,1,Beans,400,g\n", NULL, NULL,
          "Soup: 900 g comes out and 400 g goes in, and the yield of Beans has already "
          "increased it. Is that counted twice?");
}

static void
test_trimmed_twice (void **state)
{
  expect (*state, "trimmed twice", "outputs",
          "item,preparation,role,amount,unit\nSoup,Soup,main,250,g\n", "lines",
          "into,parent,position,item,amount,unit,yield_pct\npreparation,Soup,1,Leek,1,kg,\n"
          "plate,Bite,1,Soup,100,g,25\n",
          "Soup in Bite, yield: The batch of Soup already counts its trimming. Is a further yield of "
          "25\302\240% meant?");
}

static void
test_loses_twice (void **state)
{
  expect (*state, "the crab weighs its shells", "lines",
          "into,parent,position,item,amount,unit\npreparation,Soup,1,Crab,4,kg\n", NULL, NULL,
          "Crab in Soup: 4 kg trimmed means buying 16 kg. Weigh as bought?");
}

static void
test_loses_twice_by_a_yield (void **state)
{
  expect (*state, "whether its meat is weighed or a yield", "lines",
          "into,parent,position,item,amount,unit\npreparation,Soup,1,Crab,4,kg\n", "outputs",
          "item,preparation,role,yield_pct\nSoup,Soup,main,25\n",
          "Crab in Soup: 4 kg trimmed means buying 16 kg. Weigh as bought?");
}

static void
test_loses_twice_by_its_own_yield (void **state)
{
  expect (*state, "a yield of the line and the same of the output", "lines",
          "into,parent,position,item,amount,unit,yield_pct\npreparation,Soup,1,Leek,1,kg,60\n", "outputs",
          "item,preparation,role,yield_pct\nSoup,Soup,main,60\n",
          "Leek in Soup: 1 kg trimmed means buying 1.67 kg. Weigh as bought?");
}

static void
test_loses_once (void **state)
{
  expect (*state, "a yield that leaves room for another loss", "lines",
          "into,parent,position,item,amount,unit\npreparation,Soup,1,Crab,4,kg\n", "outputs",
          "item,preparation,role,yield_pct\nSoup,Soup,main,60\n", "");
}

static void
test_purchase (void **state)
{
  expect (*state, "an invoice entered twice", "purchases",
          "date,supplier,document,ingredient,amount,unit,net_value\n"
          "2026-01-02,Market,D1,Leek,5,kg,66\n2026-01-02,Market,D1,Leek,5,kg,66\n"
          "2026-01-03,Market,,Leek,5,kg,66\n2026-01-03,Market,,Leek,5,kg,66\n",
          NULL, NULL, "Leek: 66.00 of 2026-01-02 appears twice in the same document. Is it entered "
                      "twice?");
}

static void
test_price (void **state)
{
  expect (*state, "a decimal that slipped", "prices",
          "ingredient,supplier,from,price\nLeek,Market,2025-11-01,66\nLeek,Market,2026-01-01,6600\n",
          NULL, NULL,
          "Leek from Market, price: 6600.00 from 2026-01-01 is far from the price before. Is 66.00 meant?");
}

static void
test_price_by_no_power_of_ten (void **state)
{
  expect (*state, "a price that is none, whatever slipped", "prices",
          "ingredient,supplier,from,price\nLeek,Market,2025-11-01,66\nLeek,Market,2026-01-01,2100\n",
          NULL, NULL,
          "Leek from Market, price: 2100.00 from 2026-01-01 is far from the price before. Is it right?");
}

static void
test_price_that_doubled (void **state)
{
  expect (*state, "a price that has doubled", "prices",
          "ingredient,supplier,from,price\nLeek,Market,2025-11-01,66\nLeek,Market,2026-01-01,132\n",
          NULL, NULL, "");
}

/* What was set right was wrong before: that is asked about, and not what set it right. */
static void
test_price_set_right (void **state)
{
  expect (*state, "a slip that was set right", "prices",
          "ingredient,supplier,from,price\nLeek,Market,2025-11-01,66\nLeek,Market,2025-12-01,6600\n"
          "Leek,Market,2026-01-01,68\n",
          NULL, NULL,
          "Leek from Market, price: 6600.00 from 2025-12-01 is far from the price before. Is 66.00 meant?");
}

static void
test_price_that_came_back (void **state)
{
  expect (*state, "a price that came back, and no slip", "prices",
          "ingredient,supplier,from,price\nLeek,Market,2025-11-01,66\nLeek,Market,2025-12-01,2100\n"
          "Leek,Market,2026-01-01,70\n",
          NULL, NULL,
          "Leek from Market, price: 2100.00 from 2025-12-01 is far from the price before. Is it right?");
}

/* Each against the one before it; one that is set right is asked about once. */
static void
test_price_to_come (void **state)
{
  expect (*state, "a list that is entered ahead", "prices",
          "ingredient,supplier,from,price\nLeek,Market,2025-11-01,66\nLeek,Market,2126-01-01,6600\n"
          "Leek,Market,2126-02-01,68\nLeek,Market,2126-03-01,7\nLeek,Market,2126-04-01,7.2\n",
          NULL, NULL,
          "Leek from Market, price: 6600.00 from 2126-01-01 is far from the price before. Is 66.00 meant?\n"
          "Leek from Market, price: 7.00 from 2126-03-01 is far from the price before. Is 70.00 meant?");
}

static void
test_price_to_come_sets_right (void **state)
{
  expect (*state, "one that sets today's right", "prices",
          "ingredient,supplier,from,price\nLeek,Market,2025-11-01,66\nLeek,Market,2025-12-01,6600\n"
          "Leek,Market,2126-01-01,68\n",
          NULL, NULL,
          "Leek from Market, price: 6600.00 from 2025-12-01 is far from the price before. Is 66.00 meant?");
}

static void
test_price_that_nothing_stood_before (void **state)
{
  expect (*state, "a jump that nothing stood before", "prices",
          "ingredient,supplier,from,price\nLeek,Market,2025-12-01,6600\nLeek,Market,2026-01-01,68\n", NULL, NULL,
          "Leek from Market, price: 68.00 from 2026-01-01 is far from the price before. Is 6800.00 meant?");
}

#define ANSWERS "ingredient,supplier,from,price,answered_on\n"
#define JUMPED "ingredient,supplier,from,price\nLeek,Market,2025-11-01,66\nLeek,Market,2025-12-01,6600\n"

#define JUMPED_OF_PACK \
  "ingredient,supplier,from,price,pack_count,pack_size,pack_unit\nLeek,Market,2025-11-01,66,,,\n" \
  "Leek,Market,2025-12-01,6600,2,2,kg\n"

#define PACKS "ingredient,supplier,from,price,pack_count,pack_size,pack_unit,currency\n"
#define SIXTY_SIX "Leek from Market, price: 6600.00 from 2025-12-01 is far from the price before. Is 66.00 meant?"

/* Somebody said that it is right: of that price of that pack from that day alone. */
static void
test_price_that_is_right (void **state)
{
  static const struct { const char *says, *prices, *answers, *questions; } cases[] = {
    { "a jump that is right", JUMPED, ANSWERS "Leek,Market,2025-12-01,6600,2025-12-02\n", "" },
    { "nobody said when", JUMPED, ANSWERS "Leek,Market,2025-12-01,6600,\n", "" },
    { "one that came back", JUMPED "Leek,Market,2026-01-01,68\n", ANSWERS "Leek,Market,2025-12-01,6600,\n", "" },
    { "one that stays", JUMPED "Leek,Market,2026-01-01,6700\n", ANSWERS "Leek,Market,2025-12-01,6600,\n", "" },
    { "another price of that day", JUMPED, ANSWERS "Leek,Market,2025-12-01,66,\n", SIXTY_SIX },
    { "of that pack", JUMPED, PACKS "Leek,Market,2025-12-01,6600,1,5,kg,EUR\n", "" },
    { "of another pack", JUMPED, PACKS "Leek,Market,2025-12-01,6600,1,50,kg,\n", SIXTY_SIX },
    { "in another currency", JUMPED, PACKS "Leek,Market,2025-12-01,6600,,,,GBP\n", SIXTY_SIX },
    { "of what its price is for", JUMPED_OF_PACK, ANSWERS "Leek,Market,2025-12-01,6600,\n", "" },
    { "a new one asks by its own right", JUMPED "Leek,Market,2026-01-01,660\n",
      ANSWERS "Leek,Market,2025-12-01,6600,\n",
      "Leek from Market, price: 660.00 from 2026-01-01 is far from the price before. Is 6600.00 meant?" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      expect (*state, cases[i].says, "prices", cases[i].prices, "price_answers", cases[i].answers,
              cases[i].questions);
      g_unlink (((CroTestFolder *) *state)->path);
    }
}

/* As an act, which is undone like any other; the pack takes its answers along. */
static void
test_a_price_is_said_to_be_right (void **state)
{
  CroTestFolder *folder = *state;
  CroBook *book;
  GError *error = NULL;
  g_autofree char *asked = NULL, *answered = NULL, *undone = NULL;
  CroDate from;

  for (gsize i = 0; i < G_N_ELEMENTS (sound); i++)
    cro_test_write_table (folder->folder, sound[i].table, sound[i].text);
  cro_test_write_table (folder->folder, "prices", JUMPED);
  book = cro_test_book_load (folder);
  asked = asked_of (book, NULL);
  assert_string_not_equal (asked, "");
  assert_true (cro_date_parse ("2025-12-01", 10, &from));
  cro_test_must (cro_edit_answer_price (book, "right", 0, from, &error), error);
  answered = asked_of (book, NULL);
  cro_test_same ("answered", answered, "");
  cro_test_must (cro_book_undo (book, NULL, &error), error);
  undone = asked_of (book, NULL);
  cro_test_same ("undone", undone, asked);
  cro_test_must (cro_book_redo (book, NULL, &error), error);
  cro_test_must (cro_edit_answer_price (book, "right again", 0, from, &error), error);
  /* The same money for a tenth of the pack is ten times the price. */
  cro_test_must (cro_edit_set_pack (book, "pack", 0, from, CRO_MICRO, CRO_MICRO / 2, CRO_UNIT_KG, &error), error);
  g_free (undone);
  undone = asked_of (book, NULL);
  assert_string_not_equal (undone, "");
  cro_test_must (cro_book_undo (book, NULL, &error), error);
  g_free (undone);
  undone = asked_of (book, NULL);
  cro_test_same ("the pack again", undone, "");
  cro_test_must (cro_edit_remove (book, "gone", CRO_REF (CRO_REF_OFFER, 0), &error), error);
  g_object_unref (book);
}

static void
test_price_of_a_pack (void **state)
{
  expect (*state, "ten times the pack at ten times the price", "prices",
          "ingredient,supplier,from,price,pack_size,pack_unit\nLeek,Market,2025-11-01,66,,\n"
          "Leek,Market,2026-01-01,660,50,kg\n",
          NULL, NULL, "");
}

/* By the same rule: each rate against the one before. */
static void
test_rate (void **state)
{
  expect (*state, "a rate whose decimal slipped", "rates",
          "currency,from,rate,per\nGBP,2025-01-01,1.148,\nGBP,2026-01-01,114.8,\nJPY,2025-01-01,0.61,100\n"
          "JPY,2026-01-01,0.0063,1\n",
          NULL, NULL,
          "GBP, exchange rate: 114.8 from 2026-01-01 is far from the rate before. Is 1.148 meant?");
}

static void
test_rate_by_no_power_of_ten (void **state)
{
  expect (*state, "a rate that is none, whatever slipped", "rates",
          "currency,from,rate\nGBP,2025-01-01,1.148\nGBP,2026-01-01,4\n", NULL, NULL,
          "GBP, exchange rate: 4 from 2026-01-01 is far from the rate before. Is it right?");
}

static void
test_rate_to_come (void **state)
{
  expect (*state, "rates to come: one that slipped and is set right, one that is near", "rates",
          "currency,from,rate\nGBP,2025-01-01,1.148\nGBP,2126-01-02,1.15\nGBP,2126-01-01,114.8\n"
          "JPY,2025-01-01,0.61\nJPY,2126-01-01,0.62\n", NULL, NULL,
          "GBP, exchange rate: 114.8 from 2126-01-01 is far from the rate before. Is 1.148 meant?");
}

/* By the same rule, from the undated one on: 12 typed before 11.00 asks; a change of tax, or a while without a price,
 * forgets nothing; what was set right is asked about, and not what set it right; what rose asks nothing; what
 * is to come asks when it is entered. */
static void
test_selling (void **state)
{
  expect (*state, "selling prices", "plates",
          "name,makes,price\nBite,10,11\nFar,10,3\nTaxed,10,3\nPaused,10,3\nDoubled,10,3\nRighted,10,3\n"
          "To come,10,3\nNew,10,\n",
          "selling_prices",
          "name,from,price,tax_pct\nBite,2026-01-01,1211,\nFar,2026-01-01,14,\nTaxed,2026-01-01,312,\n"
          "Taxed,2026-01-05,312,5\nPaused,2026-01-01,,\nPaused,2026-01-05,312,\nDoubled,2026-01-01,6,\n"
          "Righted,2025-01-01,312,\nRighted,2025-01-05,312,5\nRighted,2026-01-01,3.2,\n"
          "To come,2126-01-01,312,\nTo come,2126-01-05,312,5\nNew,2026-01-01,1211,\n",
          "Bite, price: 1211.00 from 2026-01-01 is far from the price before. Is 12.11 meant?\n"
          "Far, price: 14.00 from 2026-01-01 is far from the price before. Is it right?\n"
          "Taxed, price: 312.00 from 2026-01-05 is far from the price before. Is 3.12 meant?\n"
          "Paused, price: 312.00 from 2026-01-05 is far from the price before. Is 3.12 meant?\n"
          "Righted, price: 312.00 from 2025-01-05 is far from the price before. Is 3.12 meant?\n"
          "To come, price: 312.00 from 2126-01-01 is far from the price before. Is 3.12 meant?");
}

/* A menu asks about its own price, and not about those of its plates. */
static void
test_selling_of_a_menu (void **state)
{
  CroTestFolder *folder = *state;
  g_autofree char *text = NULL;
  CroBook *book;

  for (gsize i = 0; i < G_N_ELEMENTS (sound); i++)
    cro_test_write_table (folder->folder, sound[i].table, sound[i].text);
  cro_test_write_table (folder->folder, "menus", "name,price\nTide,40\n");
  cro_test_write_table (folder->folder, "menu_plates", "menu,plate\nTide,Bite\n");
  cro_test_write_table (folder->folder, "selling_prices",
                        "name,from,price\nTide,2025-01-01,45\nTide,2026-01-01,4.5\nBite,2026-01-01,312\n");
  book = cro_test_book_load (folder);
  text = asked_of (book, "Tide");
  cro_test_same ("a menu", text, "Tide, price: 4.50 from 2026-01-01 is far from the price before. Is 45.00 meant?");
  g_object_unref (book);
}

static void
test_density (void **state)
{
  expect (*state, "densities of nothing in a kitchen", "ingredients",
          "name,unit,trim_yield_pct,density_g_per_ml\nLeek,g,80,1030\nBeans,g,220,0.11\nCrab,g,25,20.5\n",
          NULL, NULL,
          "Leek, density: 1030 g/ml: is 1.03 meant?\n"
          "Crab, density: 20.5 g/ml: is this right? A millilitre of water weighs 1 g.");
}

static void
test_expired (void **state)
{
  expect (*state, "a preferred pack that is over", "offers",
          "ingredient,supplier,pack_count,pack_size,pack_unit,preferred,until\n"
          "Leek,Market,1,5,kg,yes,2026-02-01\n",
          NULL, NULL,
          "Leek from Market: This pack is preferred, but it ended on 2026-02-01, and there is no "
          "other. Is it still sold?");
}

static void
test_alike (void **state)
{
  expect (*state, "two of one name but for an accent", "ingredients",
          "name,unit,trim_yield_pct\nLeek,g,80\nCrème fraîche,g,\nCreme fraiche,g,\nBeans,g,\nCrab,g,\n",
          NULL, NULL, "Creme fraiche: “Crème fraîche” is in the book too. Are the two the same?");
}

/* What a plate leads to is asked on its card, whatever stands between, and nothing else is. */
static void
test_below (void **state)
{
  static const struct { const char *thing, *questions; } cases[] = {
    { "Bite", "Leek from Market: This pack is preferred, but it ended on 2026-02-01. Prefer "
              "another?\nLeek from Quay: This price is from 2026-01-01, which is more than 30 days "
              "ago. Is it still right?" },
    { "Chip", "Chip, target: 0.3\302\240%: is 30\302\240% meant?\n"
              "Beans, trim yield: 0.8\302\240%: is 80\302\240% meant?" },
    { "Tide", "Leek from Market: This pack is preferred, but it ended on 2026-02-01. Prefer "
              "another?\nLeek from Quay: This price is from 2026-01-01, which is more than 30 days "
              "ago. Is it still right?" },
  };
  CroTestFolder *folder = *state;
  CroBook *book;

  for (gsize i = 0; i < G_N_ELEMENTS (sound); i++)
    cro_test_write_table (folder->folder, sound[i].table, sound[i].text);
  cro_test_write_table (folder->folder, "book", "key,value\ncurrency,EUR\nstale_after_days,30\n");
  cro_test_write_table (folder->folder, "ingredients",
                        "name,unit,trim_yield_pct\nLeek,g,80\nBeans,g,0.8\nCrab,g,0.25\n");
  cro_test_write_table (folder->folder, "suppliers", "name\nMarket\nQuay\n");
  cro_test_write_table (folder->folder, "offers",
                        "ingredient,supplier,pack_count,pack_size,pack_unit,preferred,until\n"
                        "Leek,Market,1,5,kg,yes,2026-02-01\nLeek,Quay,1,5,kg,,\n");
  cro_test_write_table (folder->folder, "prices", "ingredient,supplier,from,price\n"
                        "Leek,Market,2026-01-01,66\nLeek,Quay,2026-01-01,70\n");
  cro_test_write_table (folder->folder, "plates",
                        "name,makes,target_pct\nBite,10,30\nChip,10,0.3\n");
  cro_test_write_table (folder->folder, "menus", "name,price\nTide,40\n");
  cro_test_write_table (folder->folder, "menu_plates", "menu,plate\nTide,Bite\n");
  cro_test_write_table (folder->folder, "lines",
                        "into,parent,position,item,amount,unit\npreparation,Soup,1,Leek,1,kg\n"
                        "plate,Bite,1,Soup,100,g\nplate,Bite,2,Soup,50,g\n"
                        "plate,Chip,1,Beans,9,g\nplate,Chip,2,Beans,8,g\n");
  book = cro_test_book_load (folder);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = asked_of (book, cases[i].thing);

      cro_test_same (cases[i].thing, text, cases[i].questions);
    }
  g_object_unref (book);
}

int
main (void)
{
#define CASE(name) cmocka_unit_test_setup_teardown (name, setup, teardown)
  const struct CMUnitTest tests[] = {
    CASE (test_sound), CASE (test_percent), CASE (test_tax), CASE (test_trim), CASE (test_gain),
    CASE (test_gain_is_told), CASE (test_soaked), CASE (test_soaked_twice),
    CASE (test_trimmed_twice), CASE (test_loses_twice),
    CASE (test_loses_twice_by_a_yield), CASE (test_loses_twice_by_its_own_yield),
    CASE (test_loses_once), CASE (test_purchase), CASE (test_price),
    CASE (test_price_that_is_right), CASE (test_a_price_is_said_to_be_right),
    CASE (test_price_by_no_power_of_ten), CASE (test_price_that_doubled),
    CASE (test_price_set_right), CASE (test_price_that_came_back),
    CASE (test_price_to_come), CASE (test_price_to_come_sets_right),
    CASE (test_price_that_nothing_stood_before), CASE (test_price_of_a_pack),
    CASE (test_rate), CASE (test_density), CASE (test_selling),
    CASE (test_selling_of_a_menu),
    CASE (test_rate_by_no_power_of_ten), CASE (test_rate_to_come), CASE (test_expired),
    CASE (test_alike), CASE (test_below),
  };

  setlocale (LC_ALL, "C");
  return cmocka_run_group_tests (tests, NULL, NULL);
}
