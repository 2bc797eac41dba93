/* A service: what is entered for it, each change an act that is taken back, and what to make and to
 * buy, worked by hand beside each case. */
#include "cro-cover-curve.h"
#include "cro-edit-service.h"
#include "cro-plan-words.h"
#include "cro-refusal.h"
#include "cro-service-orders.h"
#include "cro-words-lack.h"
#include "support/kitchen-book.h"
#include "support/locales.h"

#include "cro-decimal.h"

#include <math.h>

#define DAY 20500   /* 2026-02-16, a Monday */
#define WEEK 7
#define GUESTS(n) ((n) * CRO_MICRO)

static const CroTestTable tables[] = {
  { "book", "key,value\ncurrency,EUR\nwage_per_hour,18\n" },
  { "ingredients", "name,unit,kind\nCrab,g,food\nOil,ml,food\nFlour,g,food\nPurslane,g,food\n"
                   "Dill,g,food\nBrine,g,food\nPaper cup,each,disposable\n" },
  { "suppliers", "name,minimum_order,delivery_charge\nQuay,80,6.5\nMill,,\n" },
  { "offers", "ingredient,supplier,code,pack_count,pack_size,pack_unit\nCrab,Quay,101,1,5,kg\n"
              "Oil,Mill,,1,10,l\nFlour,Mill,F,1,1,kg\nDill,Mill,,1,50,g\nBrine,Mill,,1,1,kg\n"
              "Paper cup,Mill,,1,8,each\n" },
  { "prices", "ingredient,supplier,code,from,price\nCrab,Quay,101,2026-01-05,50\n"
              "Oil,Mill,,2026-01-05,20\nFlour,Mill,F,2026-01-05,2\nDill,Mill,,2026-01-05,3\n"
              "Dill,Mill,,2026-02-01,\nBrine,Mill,,2026-01-05,1\nPaper cup,Mill,,2026-01-05,0.8\n" },
  { "preparations", "name,active_minutes,smallest_part\nPicked crab,60,0\nShell butter,20,0.5\n"
                    "Cups,40,1\n" },
  { "outputs", "item,preparation,role,amount,unit\nWhite,Picked crab,main,200,g\n"
               "Shells,Picked crab,by-product,500,g\nShell butter,Shell butter,main,400,g\n"
               "Cup,Cups,main,48,each\n" },
  { "plates", "name,makes\nCroustade,24\nToast,10\nMarsh salad,1\nCrab spoon,10\nBare board,1\n" },
  { "menus", "name,price\nTide,90\nQuayside,20\n" },
  { "lines", "into,parent,position,item,amount,unit,weighed,recovered_pct\n"
             "preparation,Picked crab,1,Crab,1,kg,whole,\n"
             "preparation,Shell butter,1,Shells,500,g,,\n"
             "preparation,Cups,1,Flour,500,g,whole,\npreparation,Cups,2,Oil,1.5,l,whole,90\n"
             "plate,Croustade,1,White,240,g,,\nplate,Croustade,2,Shell butter,24,g,,\n"
             "plate,Croustade,3,Cup,24,each,,\nplate,Croustade,4,Paper cup,24,each,whole,\n"
             "plate,Toast,1,White,300,g,,\nplate,Crab spoon,1,White,100,g,,\n"
             "plate,Marsh salad,1,Purslane,3,g,whole,\nplate,Marsh salad,2,Dill,2,g,whole,\n"
             "plate,Marsh salad,3,Brine,1,tbsp,whole,\nplate,Marsh salad,4,Crab,10,g,whole,\n" },
  { "menu_plates", "menu,plate,choice,share_pct\nTide,Croustade,bite,50\nTide,Toast,bite,50\n"
                  "Quayside,Croustade,bite,50\nQuayside,Toast,bite,30\nQuayside,Crab spoon,bite,\n" },
  { "services", "date,service,name,covers\n2026-02-09,dinner,Tide,20\n2026-02-09,dinner,Toast,4\n"
                "2026-02-10,dinner,Toast,50\n2026-02-09,lunch,Toast,9\n" },
  { NULL, NULL },
};

static int
set_up (void **state)
{
  return cro_test_book_of_tables (state, tables);
}

static CroRef
thing_of (CroBook    *book,
          const char *name)
{
  CroModel *model = cro_book_get_model (book);

  for (guint32 i = 0; i < model->recipes->len; i++)
    if (cro_model_recipe (model, i)->is_plate && g_str_equal (cro_model_recipe (model, i)->name, name))
      return CRO_REF (CRO_REF_RECIPE, i);
  for (guint32 i = 0; i < model->menus->len; i++)
    if (g_str_equal (cro_model_menu (model, i)->name, name))
      return CRO_REF (CRO_REF_MENU, i);
  g_assert_not_reached ();
}

static guint32
item_of (CroBook    *book,
         const char *name)
{
  CroModel *model = cro_book_get_model (book);

  for (guint32 i = 0; i < model->items->len; i++)
    if (g_str_equal (cro_model_item (model, i)->name, name))
      return i;
  g_assert_not_reached ();
}

/* --- What is entered ------------------------------------------------------------------------------- */

/* "Tide 20, Toast 4; Shell butter 0.2 kg". */
static char *
text_of (CroBook    *book,
         CroDate     date,
         const char *name)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (CroService) service = cro_service_read (book, date, name, &error);
  CroModel *model = cro_book_get_model (book);
  GString *text = g_string_new (NULL);

  g_assert_no_error (error);
  for (guint i = 0; i < service->covers->len; i++)
    {
      const CroCovers *one = &g_array_index (service->covers, CroCovers, i);

      g_string_append_printf (text, "%s%s %g", i > 0 ? ", " : "", cro_ref_name (model, one->thing),
                              cro_decimal_to_double (one->covers));
    }
  for (guint i = 0; i < service->in_house->len; i++)
    {
      const CroInHouse *one = &g_array_index (service->in_house, CroInHouse, i);

      g_string_append_printf (text, "; %s %g %s", cro_model_item (model, one->item)->name,
                              cro_decimal_to_double (one->amount), cro_unit_get (one->unit)->code);
    }
  return g_string_free (text, FALSE);
}

static void
expect_service (const char *says,
                CroBook    *book,
                CroDate     date,
                const char *name,
                const char *wanted)
{
  g_autofree char *text = text_of (book, date, name);

  if (!g_str_equal (text, wanted))
    fail_msg ("does not hold: %s: “%s”, wanted “%s”", says, text, wanted);
}

static void
undo (CroBook *book)
{
  CroConflict conflict = { 0 };
  g_autoptr (GError) error = NULL;

  cro_book_undo (book, &conflict, &error);
  g_assert_no_error (error);
}

static void
set_covers (CroBook    *book,
            const char *service,
            const char *name,
            gint64      covers)
{
  g_autoptr (GError) error = NULL;

  assert_true (cro_edit_set_covers (book, "covers", DAY, service, thing_of (book, name), covers,
                                    &error));
}

static void
test_covers_are_set_changed_and_removed (void **state)
{
  CroBook *book = ((CroTestKitchen *) *state)->book;

  set_covers (book, " dinner ", "Tide", GUESTS (20));
  expect_service ("covers are kept, their service tidied", book, DAY, "dinner", "Tide 20");
  set_covers (book, "dinner", "Tide", GUESTS (22));
  set_covers (book, "dinner", "Toast", 0);
  expect_service ("there is one row for each", book, DAY, "dinner", "Tide 22, Toast 0");
  set_covers (book, "dinner", "Tide", CRO_NOT_SET);
  expect_service ("a row goes where nothing is said any more", book, DAY, "dinner", "Toast 0");
  undo (book);
  undo (book);
  expect_service ("each is taken back", book, DAY, "dinner", "Tide 22");
  undo (book);
  undo (book);
  expect_service ("to the first", book, DAY, "dinner", "");
  expect_service ("and other days have theirs", book, DAY - WEEK, "dinner", "Tide 20, Toast 4");
}

static void
test_the_same_weekday_is_taken (void **state)
{
  CroBook *book = ((CroTestKitchen *) *state)->book;
  g_autoptr (GError) error = NULL;
  CroDate found = 0;

  assert_true (cro_service_find_before (book, DAY, "dinner", &found, &error));
  assert_int_equal (found, DAY - WEEK);
  assert_false (cro_service_find_before (book, DAY - 1, "dinner", &found, &error));
  assert_false (cro_service_find_before (book, DAY - WEEK, "dinner", &found, &error));
  assert_false (cro_service_find_before (book, DAY, "brunch", &found, &error));
  g_assert_no_error (error);

  set_covers (book, "dinner", "Toast", GUESTS (7));
  assert_true (cro_edit_take_covers (book, "take", DAY, "dinner", found, &error));
  expect_service ("what was typed stays", book, DAY, "dinner", "Toast 7, Tide 20");
  undo (book);
  expect_service ("and is there when it is taken back", book, DAY, "dinner", "Toast 7");
}

static void
test_stock_is_set_changed_and_removed (void **state)
{
  CroBook *book = ((CroTestKitchen *) *state)->book;
  guint32 butter = item_of (book, "Shell butter");
  g_autoptr (GError) error = NULL;

  assert_true (cro_edit_set_in_house (book, "stock", DAY, "dinner", butter, CRO_MICRO / 5,
                                      CRO_UNIT_KG, &error));
  expect_service ("stock is kept", book, DAY, "dinner", "; Shell butter 0.2 kg");
  assert_true (cro_edit_set_in_house (book, "stock", DAY, "dinner", butter, 150 * CRO_MICRO,
                                      CRO_UNIT_G, &error));
  expect_service ("in the unit that was typed last", book, DAY, "dinner", "; Shell butter 150 g");
  assert_true (cro_edit_set_in_house (book, "stock", DAY, "dinner", butter, CRO_NOT_SET, CRO_UNIT_G,
                                      &error));
  expect_service ("and goes", book, DAY, "dinner", "");
  undo (book);
  undo (book);
  expect_service ("each is taken back", book, DAY, "dinner", "; Shell butter 0.2 kg");
}

static void
test_what_no_table_takes_is_refused (void **state)
{
  CroBook *book = ((CroTestKitchen *) *state)->book;
  CroRef tide = thing_of (book, "Tide");
  g_autoptr (GError) error = NULL;

  assert_false (cro_edit_set_covers (book, "covers", DAY, "late\nlunch", tide, 0, &error));
  assert_true (error->domain == CRO_REFUSAL);
  g_clear_error (&error);
  assert_false (cro_edit_set_covers (book, "covers", DAY, "  ", tide, 0, &error));
  g_clear_error (&error);
  assert_false (cro_edit_set_covers (book, "covers", DAY, "dinner", tide, -2, &error));
  g_clear_error (&error);
  assert_false (cro_edit_set_in_house (book, "stock", DAY, "dinner", 0, -2, CRO_UNIT_G, &error));
  expect_service ("nothing was changed", book, DAY, "dinner", "");
}

static void
test_services_are_listed_latest_first (void **state)
{
  CroBook *book = ((CroTestKitchen *) *state)->book;
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) list = cro_services_list (book, &error);
  const CroServiceDay *days = (const CroServiceDay *) list->data;

  assert_int_equal (list->len, 3);
  assert_int_equal (days[0].date, DAY - WEEK + 1);
  assert_string_equal (days[1].name, "dinner");
  assert_string_equal (days[2].name, "lunch");
}

/* --- The plan -------------------------------------------------------------------------------------- */

static const char *const known[] = {
  [CRO_KNOWN_WHOLE] = "", [CRO_KNOWN_AT_LEAST] = ">=", [CRO_KNOWN_AT_MOST] = "<=",
  [CRO_KNOWN_IN_PART] = "~", [CRO_KNOWN_NOTHING] = "?",
};

static void
tell_makes (CroServicePlan *plan,
            GString        *text)
{
  CroModel *model = plan->figures->model;

  for (guint i = 0; i < plan->make->len; i++)
    {
      const CroPlanMake *make = &g_array_index (plan->make, CroPlanMake, i);

      g_string_append_printf (text, "%s %s%g of %g, %g min:", cro_model_recipe (model, make->recipe)->name,
                              known[make->known], make->batches, make->runs, make->minutes);
      for (guint k = 0; k < make->n_outputs; k++)
        {
          const CroPlanOutput *output = &g_array_index (plan->outputs, CroPlanOutput,
                                                        make->first_output + k);

          g_string_append_printf (text, " %s %g left %g", cro_model_item (model, output->item)->name,
                                  output->made, output->left);
        }
      g_string_append_c (text, '\n');
    }
}

static void
tell_buys (CroServicePlan *plan,
           GString        *text)
{
  CroModel *model = plan->figures->model;

  for (guint i = 0; i < plan->buy->len; i++)
    {
      const CroPlanBuy *buy = &g_array_index (plan->buy, CroPlanBuy, i);

      g_string_append_printf (text, "%s %s%g", cro_model_item (model, buy->item)->name,
                              known[buy->known], buy->needed);
      if (buy->offer != CRO_NO_SLOT)
        g_string_append_printf (text, " in %g for %g, left %g", buy->packs, buy->cost, buy->left);
      g_string_append_c (text, '\n');
    }
  for (guint i = 0; i < plan->orders->len; i++)
    {
      const CroPlanOrder *order = &g_array_index (plan->orders, CroPlanOrder, i);

      g_string_append_printf (text, "%s %s%g",
                              g_array_index (model->suppliers, CroSupplier, order->supplier).name,
                              known[order->known], order->cost);
      if (order->minimum != CRO_NOT_SET)
        g_string_append_printf (text, ", %g short", cro_plan_order_short (order));
      if (order->charge != CRO_NOT_SET)
        g_string_append_printf (text, ", delivery %g", cro_decimal_to_double (order->charge));
      g_string_append_c (text, '\n');
    }
}

static char *
tell (CroServicePlan *plan)
{
  GString *text = g_string_new (NULL);

  tell_makes (plan, text);
  tell_buys (plan, text);
  g_string_append_printf (text, "%s%g, theoretical %s%g", known[plan->known_cost], plan->cost,
                          known[plan->known_theoretical], plan->theoretical);
  if (!isnan (plan->cheapest))
    g_string_append_printf (text, " (%g to %g)", plan->cheapest, plan->dearest);
  for (guint i = 0; i < plan->missing->len; i++)
    {
      g_autofree char *cause = cro_cause_to_text (&g_array_index (plan->missing, CroCause, i));

      g_string_append_printf (text, "; %s", cause);
    }
  return g_string_free (text, FALSE);
}

/* A croustade's lines are for 24: ten of them take 100 g of white meat, 10 g of butter, ten cups.
 * Ten toasts take 300 g of white: two batches. Half a batch of butter takes 250 g of their 1000 g
 * of shells; a whole batch of cups 500 g of flour, 150 ml of oil, and as far as it is needed 1.5 l
 * in the pan. */
static const struct
{
  const char *says;
  const char *thing;
  int         covers;
  const char *have;       /* NULL: nothing */
  gint64      amount;
  CroUnit     unit;
  const char *wanted;
} plans[] = {
  { "a menu with a choice, by its shares", "Tide", 20, NULL, 0, CRO_UNIT_G,
    "Cups 1 of 0.208333, 40 min: Cup 48 left 38\n"
    "Picked crab 2 of 2, 120 min: White 400 left 0 Shells 1000 left 750\n"
    "Shell butter 0.5 of 0.025, 10 min: Shell butter 200 left 190\n"
    "Flour 500 in 1 for 2, left 500\nOil 312.5 in 1 for 20, left 9687.5\n"
    "Paper cup 10 in 2 for 1.6, left 6\nCrab 2000 in 1 for 50, left 3000\n"
    "Mill 23.6\nQuay 50, 30 short, delivery 6.5\n"
    "73.6, theoretical 21.2708 (12.5417 to 30)" },
  /* White is 0.05 a gram: a toast is 1.50, a spoon 0.50, a croustade 0.627083 (12.5417 for 20). Of ten guests
   * five take that, three the toast and, of what is left of 100 per cent, two the spoon: 3.135417 + 4.50 +
   * 1.00. Ten spoons are 5, ten toasts 15. */
  { "three of which a guest takes one", "Quayside", 10, NULL, 0, CRO_UNIT_G,
    "Cups 1 of 0.104167, 40 min: Cup 48 left 43\n"
    "Picked crab 0.8 of 0.8, 48 min: White 160 left 0 Shells 400 left 150\n"
    "Shell butter 0.5 of 0.0125, 10 min: Shell butter 200 left 195\n"
    "Flour 500 in 1 for 2, left 500\nOil 156.25 in 1 for 20, left 9843.75\n"
    "Paper cup 5 in 1 for 0.8, left 3\nCrab 800 in 1 for 50, left 4200\n"
    "Mill 22.8\nQuay 50, 30 short, delivery 6.5\n"
    "72.8, theoretical 8.63542 (5 to 15)" },
  { "what is in the house is neither made nor bought", "Tide", 20, "Shell butter", CRO_MICRO,
    CRO_UNIT_KG,
    "Cups 1 of 0.208333, 40 min: Cup 48 left 38\n"
    "Picked crab 2 of 2, 120 min: White 400 left 0 Shells 1000 left 1000\n"
    "Flour 500 in 1 for 2, left 500\nOil 312.5 in 1 for 20, left 9687.5\n"
    "Paper cup 10 in 2 for 1.6, left 6\nCrab 2000 in 1 for 50, left 3000\n"
    "Mill 23.6\nQuay 50, 30 short, delivery 6.5\n"
    "73.6, theoretical 21.2708 (12.5417 to 30)" },
  { "oil that is in the house fills the pan", "Croustade", 24, "Oil", CRO_MICRO / 2, CRO_UNIT_L,
    "Cups 1 of 0.5, 40 min: Cup 48 left 24\n"
    "Picked crab 1.2 of 1.2, 72 min: White 240 left 0 Shells 600 left 350\n"
    "Shell butter 0.5 of 0.06, 10 min: Shell butter 200 left 176\n"
    "Flour 500 in 1 for 2, left 500\nOil 250 in 1 for 20, left 9750\n"
    "Paper cup 24 in 3 for 2.4, left 0\nCrab 1200 in 1 for 50, left 3800\n"
    "Mill 24.4\nQuay 50, 30 short, delivery 6.5\n"
    "74.4, theoretical 15.05" },
  { "what has no price, a last price, or no density is named and never 0", "Marsh salad", 5, NULL, 0,
    CRO_UNIT_G,
    "Brine ?0 in 0 for 0, left 0\nCrab 50 in 1 for 50, left 4950\nDill 10\nPurslane 15\n"
    "Mill ?0\nQuay 50, 30 short, delivery 6.5\n"
    ">=50, theoretical >=1.1; price Dill; price Purslane; density Brine" },
  { "stock that cannot be converted bounds what is needed from above", "Toast", 10, "White", CRO_MICRO,
    CRO_UNIT_L,
    "Picked crab <=1.5 of 1.5, 90 min: White 300 left 0 Shells 750 left 750\n"
    "Crab <=1500 in 1 for 50, left 3500\n"
    "Quay <=50, 30 short, delivery 6.5\n"
    "<=50, theoretical 15; density White" },
  { "a plate without lines takes what nobody can list", "Bare board", 5, NULL, 0, CRO_UNIT_G,
    "?0, theoretical ?0; lines Bare board" },
  { "nobody is expected", "Tide", 0, NULL, 0, CRO_UNIT_G, "0, theoretical 0" },
};

static void
test_plans (void **state)
{
  CroBook *book = ((CroTestKitchen *) *state)->book;

  for (gsize i = 0; i < G_N_ELEMENTS (plans); i++)
    {
      g_autoptr (CroService) service = cro_service_new ();
      CroCovers covers = { 0, thing_of (book, plans[i].thing), GUESTS (plans[i].covers) };
      CroInHouse have = { 0, 0, plans[i].amount, plans[i].unit };
      g_autoptr (GError) error = NULL;
      g_autoptr (CroServicePlan) plan = NULL;
      g_autofree char *text = NULL;

      g_array_append_val (service->covers, covers);
      if (plans[i].have != NULL)
        {
          have.item = item_of (book, plans[i].have);
          g_array_append_val (service->in_house, have);
        }
      plan = cro_service_plan_new (book, service, &error);
      g_assert_no_error (error);
      assert_true (plan->is_finite);
      text = tell (plan);
      cro_test_same (plans[i].says, text, plans[i].wanted);
    }
}

/* --- As text ------------------------------------------------------------------------------------- */

static void
test_sheets_as_text (void **state)
{
  CroBook *book = ((CroTestKitchen *) *state)->book;
  g_autoptr (CroService) service = cro_service_new ();
  CroCovers covers[] = { { 0, thing_of (book, "Croustade"), GUESTS (24) },
                         { 0, thing_of (book, "Marsh salad"), GUESTS (5) } };
  g_autoptr (CroServicePlan) plan = NULL;
  CroServiceSheet sheet = { .service = service, .name = "dinner", .day = DAY };
  g_autofree char *make = NULL, *order = NULL;

  g_array_append_vals (service->covers, covers, 2);
  sheet.plan = plan = cro_service_plan_new (book, service, NULL);
  make = cro_words_make_sheet (&sheet);
  cro_test_same ("what is made, of what and what is left", make,
                 "Mise en place: dinner, 2026-02-16\nCroustade 24, Marsh salad 5\n\n"
                 "1. Cups: batches 1, minutes 40\n   500 g Flour\n   1.5 l Oil\n"
                 "   = 48 pc Cup, left 24 pc\n"
                 "2. Picked crab: batches 1.2, minutes 72\n   1.2 kg Crab\n"
                 "   = 240 g White\n   = 600 g Shells, left 350 g\n"
                 "3. Shell butter: batches 0.5, minutes 10\n   250 g Shells\n"
                 "   = 200 g Shell butter, left 176 g\n");
  order = cro_words_order_sheet (&sheet, &g_array_index (plan->orders, CroPlanOrder, 0));
  cro_test_same ("what is ordered, without prices", order,
                 "Mill\nOrder for: dinner, 2026-02-16\n? × Brine, 1 × 1 kg\n"
                 "1 × Flour, 1 × 1 kg, code F\n1 × Oil, 1 × 10 l\n3 × Paper cup, 1 × 8 pc\n");
}

static char *
dup_bought (CroServicePlan *plan)
{
  g_autoptr (GString) names = g_string_new (NULL);

  for (guint i = 0; i < plan->buy->len; i++)
    g_string_append_printf (names, "%s%s", i > 0 ? ", " : "",
                            cro_model_item (plan->figures->model,
                                            g_array_index (plan->buy, CroPlanBuy, i).item)->name);
  return g_strdup (names->str);
}

/* Of each supplier by bytes, which is the same everywhere; for a reader eggs stand with what begins with an o. */
static void
test_a_reader_finds_names_in_their_place (void **state)
{
  CroBook *book = ((CroTestKitchen *) *state)->book;
  CroRef flour = CRO_REF (CRO_REF_ITEM, item_of (book, "Flour"));
  CroCovers covers = { 0, thing_of (book, "Croustade"), GUESTS (24) };
  g_autoptr (CroService) service = cro_service_new ();
  g_autoptr (CroServicePlan) plan = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *by_bytes = NULL, *in_french = NULL;

  cro_test_must (cro_edit_rename (book, "rename", flour, "Œufs", &error), error);
  g_array_append_val (service->covers, covers);
  plan = cro_service_plan_new (book, service, NULL);
  by_bytes = dup_bought (plan);
  assert_string_equal (by_bytes, "Oil, Paper cup, Œufs, Crab");
  if (!cro_test_enter_locale ("fr_FR.UTF-8"))
    return;
  cro_service_plan_sort_for_reader (plan);
  setlocale (LC_ALL, "C");
  in_french = dup_bought (plan);
  assert_string_equal (in_french, "Œufs, Oil, Paper cup, Crab");
}

/* --- As covers rise -------------------------------------------------------------------------------- */

/* A toast takes 30 g of white meat, 150 g of crab: a box of 5 kg for 50 serves 33, two serve 66. */
static void
test_the_curve_steps_with_packs (void **state)
{
  CroBook *book = ((CroTestKitchen *) *state)->book;
  g_autoptr (CroCoverCurve) curve = cro_cover_curve_new (thing_of (book, "Toast"));
  const CroCoverStep *step;

  while (curve->costs->len < 40)
    assert_true (cro_cover_curve_add (curve, book, NULL));
  assert_true (fabs (g_array_index (curve->costs, double, 0) - 50) < 1e-9);
  assert_true (fabs (g_array_index (curve->costs, double, 32) - 50. / 33) < 1e-9);
  assert_true (fabs (g_array_index (curve->costs, double, 33) - 100. / 34) < 1e-9);
  assert_true (fabs (curve->theoretical - 1.5) < 1e-9);
  assert_int_equal (curve->steps->len, 1);
  step = &g_array_index (curve->steps, CroCoverStep, 0);
  assert_true (step->item == item_of (book, "Crab"));
  assert_int_equal (step->from, 34);
  assert_true (fabs (step->packs - 2) < 1e-9);
  assert_true (fabs (step->cost - 50) < 1e-9);
}

/* Whole batches and packs are at most one more of each: over a million covers that is nothing. Both
 * plates use up, or give for nothing, what their batches give. */
static void
test_the_limit_is_the_theoretical_cost (void **state)
{
  static const char *const names[] = { "Toast", "Croustade" };
  CroBook *book = ((CroTestKitchen *) *state)->book;
  double covers = 1e6 + 1;

  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (CroServicePlan) plan
          = cro_cover_plan_new (book, thing_of (book, names[i]), GUESTS ((gint64) covers), NULL);
      double above = (plan->cost - plan->theoretical) / covers;

      assert_true (plan->theoretical > 0);
      assert_true (above > -1e-9 && above < 200 / covers);
    }
}

#define CASE(test) cmocka_unit_test_setup_teardown (test, set_up, cro_test_kitchen_tear_down)

/* Said beside an amount in the house, and beside a count. */
static void
test_what_an_amount_lacks_is_said (void **state)
{
  CroTestKitchen *kitchen = *state;
  CroModel *model = cro_book_get_model (kitchen->book);
  g_autofree char *pieces = cro_words_lack (model, item_of (kitchen->book, "Flour"), GUESTS (84), CRO_UNIT_EACH);
  g_autofree char *grams = cro_words_lack (model, item_of (kitchen->book, "Flour"), GUESTS (84), CRO_UNIT_G);

  assert_string_equal (pieces, "no piece weight for Flour");
  assert_null (grams);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CASE (test_what_an_amount_lacks_is_said),
    CASE (test_covers_are_set_changed_and_removed),
    CASE (test_the_same_weekday_is_taken),
    CASE (test_stock_is_set_changed_and_removed),
    CASE (test_what_no_table_takes_is_refused),
    CASE (test_services_are_listed_latest_first),
    CASE (test_plans),
    CASE (test_sheets_as_text),
    CASE (test_a_reader_finds_names_in_their_place),
    CASE (test_the_curve_steps_with_packs),
    CASE (test_the_limit_is_the_theoretical_cost),
  };

  return cmocka_run_group_tests (tests, cro_test_find_locales, cro_test_leave_locales);
}
