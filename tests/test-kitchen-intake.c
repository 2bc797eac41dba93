/* Sheets of a month: tills' exports of several kinds, counts, documents and adjustments, worked by hand beside each
 * case. */
#include "cro-intake.h"
#include "cro-month-edit.h"
#include "cro-month.h"
#include "support/kitchen-month.h"

#include "cro-decimal.h"

#define M CRO_MICRO

/* --- Tills --------------------------------------------------------------------------------------------- */

static CroIntake *
read_intake (CroTestKitchen *kitchen,
             CroIntakeKind   kind,
             const char     *text,
             gboolean        with_tax)
{
  g_autofree char *path = g_build_filename (kitchen->folder.folder, "till.csv", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (CroBrought) brought = NULL;
  gboolean is_count = kind == CRO_INTAKE_COUNTS;
  g_autoptr (CroIntakeReading) reading = NULL;
  CroIntakeColumns columns;
  CroIntake *intake;

  cro_test_must (g_file_set_contents (path, text, -1, &error), error);
  brought = cro_brought_new (path, 0, NULL, NULL, &error);
  cro_test_must (brought != NULL, error);
  cro_intake_columns_find (brought, kind, &columns);
  reading = cro_intake_reading_new (kitchen->book, brought, &columns, day (is_count ? "2026-02-28" : "2026-02-01"),
                                    day ("2026-02-28"), with_tax, &error);
  cro_test_must (reading != NULL, error);
  while (cro_intake_reading_go_on (reading, 2))
    ;
  intake = cro_intake_reading_end (reading, &error);
  cro_test_must (intake != NULL, error);
  return intake;
}

static CroIntake *
read_till (CroTestKitchen *kitchen,
           const char     *text,
           gboolean        with_tax)
{
  return read_intake (kitchen, CRO_INTAKE_SALES, text, with_tax);
}

/* Each settled as revenue, but one that begins with a dash, which is left out. */
static void
settle_rest (CroIntake *till)
{
  for (guint i = 0; i < till->names->len; i++)
    {
      const CroIntakeName *name = &g_array_index (till->names, CroIntakeName, i);

      if (name->state == CRO_INTAKE_UNSETTLED)
        cro_intake_settle (till, i, *name->name == '-' ? CRO_INTAKE_LEFT_OUT : CRO_INTAKE_OTHER, CRO_REF_NOWHERE);
    }
  assert_int_equal (cro_intake_count_unsettled (till), 0);
}

static char *
bad_text (GArray *rows)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < rows->len; i++)
    {
      const CroIntakeBad *bad = &g_array_index (rows, CroIntakeBad, i);

      g_string_append_printf (text, "bad %u %d %s\n", bad->number, bad->fault, bad->text);
    }
  return g_string_free (text, FALSE);
}

static void
test_tills_are_read (void **state)
{
  /* Tax is 10 %, of the purée 20. Rows of sales: day, words, sold, net. */
  static const struct { const char *says, *text; gboolean with_tax; const char *bad, *rows; } cases[] = {
    { "semicolons, Windows-1252, decimal commas, tax included by its heading",
      "Journal;;;\r\nDate;Libell\xe9;Qt\xe9;CA TTC\r\n05/02/2026;PUR\xc9" "E D\x92\xc9T\xc9;2;48,00\r\n"
      "05/02/2026;Tide;1;1 100,00\r\n;Total;;1 148,00\r\n", FALSE, "",
      "2026-02-05||2000000|40000000\n2026-02-05||1000000|1000000000\n" },
    { "the month stands first where the days tell, with a time behind",
      "Item,Sold,Net sales,Day\ncroustade,3,30,2/13/26 19:30\ncroustade,1,10,2/13/26 21:05\n"
      "Tide,-1,-100,2/5/26 20:00\nCroustade,0,-10,2/6/26\n", FALSE, "",
      "2026-02-13||4000000|40000000\n2026-02-05||-1000000|-100000000\n2026-02-06||0|-10000000\n" },
    { "a sum that stands under the days",
      "Day,Name,Sold,Net sales\n2026-02-05,Tide,1,100\nTotal,,1,100\n,Purée d’été,2,40\nSomething,,1,1\n", FALSE,
      "bad 5 2 Something\n",
      "2026-02-05||1000000|100000000\n2026-02-28||2000000|40000000\n" },
    { "no headings, no day: the last of the month; revenue as the house has it",
      "Croustade\t4\t44.00\nWine\t2\t11.00\n", TRUE, "",
      "2026-02-28||4000000|40000000\n2026-02-28|Wine|2000000|10000000\n" },
    { "what cannot be read, and what is of another month",
      "name,qty,net,date\nCroustade,x,3,2026-02-03\nCroustade,1,3,soon\nCroustade,1,3,2026-03-03\n,1,3,2026-02-03\n"
      "Croustade,(2),(20),2026-02-03\nCroustade,2-,\xe2\x88\x92" "20,2026-02-03\n", FALSE,
      "bad 2 1 x\nbad 3 2 soon\nbad 4 3 2026-03-03\nbad 5 0 \n", "2026-02-03||-4000000|-40000000\n" },
    { "no revenue: the price of its day; a group's title and a voucher are none",
      "Plate;Count\nStarters;\nCROUSTADE;5\n- voucher;3\n", FALSE, "", "2026-02-28||5000000|\n" },
    { "a bar code for how many; sums of several rows that the book does not hold, and of either sign",
      "name,qty,net,date\nCroustade,1,600000000000,2026-02-03\nCROUSTADE,1,600000000000,2026-02-03\n"
      "Croustade,-1,-600000000000,2026-02-03\nCroustade,800000000000,1,2026-02-04\n"
      "Tide,800000000000,1,2026-02-04\nTide,1,200000000000,2026-02-04\nTide,2900640004179,9,2026-02-04\n", FALSE,
      "bad 3 4 600000000000\nbad 4 4 -600000000000\nbad 6 4 800000000000\nbad 8 4 2900640004179\n",
      "2026-02-03||1000000|600000000000000000\n2026-02-04||800000000000000000|1000000\n"
      "2026-02-04||1000000|200000000000000000\n" },
    { "no headings, and the bar code of each before how many",
      "Croustade\t2900640004179\t4\t40.00\nWine\t2900640004186\t2\t10.00\n", FALSE, "",
      "2026-02-28||4000000|40000000\n2026-02-28|Wine|2000000|10000000\n" },
    { "a rate beside each: none, per cent, a part of 1; where none stands that of the plate",
      "Article;Qty;Gross;Tax rate\nService charge;1;85,50;0\nCroustade;1;24;20 %\nTide;1;105,50;0,055\n"
      "Puree d'ete;1;24,00;\nTide;1;10;x\nTide;1;10;-1\n", FALSE, "bad 6 1 x\nbad 7 1 -1\n",
      "2026-02-28|Service charge|1000000|85500000\n2026-02-28||1000000|20000000\n2026-02-28||1000000|100000000\n"
      "2026-02-28||1000000|20000000\n" },
    { "names with a character that turns what follows, or that nobody sees",
      "name,qty,net\n\xe2\x80\xae" "abc,1,3\nCroustade,1,10\n- a\x1b[31m,1,3\n", FALSE,
      "bad 2 5 U+202E\nbad 4 5 U+001B\n", "2026-02-28||1000000|10000000\n" },
  };
  CroTestKitchen *kitchen = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CroIntake) till = read_till (kitchen, cases[i].text, cases[i].with_tax);
      g_autofree char *before = rows_text (kitchen->book, "sale", sale_columns), *after = NULL;
      g_autofree char *bad = bad_text (till->bad);
      g_autoptr (GError) error = NULL;
      guint n;

      settle_rest (till);
      if (strcmp (bad, cases[i].bad) != 0)
        fail_msg ("%s: %s", cases[i].says, bad);
      cro_test_must (cro_intake_enter (till, kitchen->book, "till", FALSE, &n, &error), error);
      after = rows_text (kitchen->book, "sale", sale_columns);
      if (!g_str_has_prefix (after, before) || strcmp (after + strlen (before), cases[i].rows) != 0)
        fail_msg ("%s:\n%s", cases[i].says, after + strlen (before));
      undo (kitchen->book);
    }
}

/* What was settled once is not asked again, also of another month; the same file enters nothing twice. */
static void
test_names_are_remembered (void **state)
{
  static const char text[] = "name,sold,net\nTIDE MENU,2,200\nHouse wine,3,9\n";
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroIntake) first = read_till (kitchen, text, FALSE), again = NULL, renamed = NULL;
  g_autoptr (GArray) entries = NULL;
  g_autoptr (GError) error = NULL;
  CroRef tide = thing (kitchen->book, "Tide");
  guint n, n_known;

  assert_int_equal (cro_intake_count_unsettled (first), 2);
  cro_intake_settle (first, 0, CRO_INTAKE_THING, tide);
  settle_rest (first);
  cro_test_must (cro_intake_enter (first, kitchen->book, "till", FALSE, &n, &error), error);
  assert_int_equal (n, 2);
  again = read_till (kitchen, text, FALSE);
  assert_int_equal (cro_intake_count_unsettled (again), 0);
  assert_int_equal (again->n_known_days, 1);
  entries = cro_intake_entries (again, kitchen->book, &n_known, &error);
  assert_int_equal (entries->len, 0);
  assert_int_equal (n_known, 2);
  /* In place of what the day has: as many rows, none twice. */
  cro_test_must (cro_intake_enter (again, kitchen->book, "till", TRUE, &n, &error), error);
  assert_int_equal (n, 2);
  cro_test_must (cro_edit_rename (kitchen->book, "r", tide, "High tide", &error), error);
  /* It follows what it is. */
  renamed = read_till (kitchen, text, FALSE);
  assert_int_equal (cro_intake_count_unsettled (renamed), 0);
}

/* In place of what the book has of its days, and of no other: a total that is left out has none. */
static void
test_other_days_stay (void **state)
{
  CroTestKitchen *kitchen = *state;
  const CroSaleEntry last = { .date = day ("2026-02-28"), .thing = thing (kitchen->book, "Tide"), .sold = M,
                              .revenue = CRO_NOT_SET };
  g_autoptr (CroIntake) till = read_till (kitchen, "name,sold,net,date\nTide,3,300,2026-02-01\nTotal,3,300,\n",
                                          FALSE);
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  guint n;

  assert_int_equal (till->n_days, 1);
  cro_test_must (cro_month_put_sales (kitchen->book, "s", &last, 1, &error), error);
  cro_test_must (cro_intake_enter (till, kitchen->book, "till", TRUE, &n, &error), error);
  text = rows_text (kitchen->book, "sale", sale_columns);
  assert_string_equal (text, "2026-02-28||1000000|\n2026-02-01||3000000|300000000\n");
}

/* A till that says for how much and not how many sells no plates. */
static void
test_how_many_is_not_guessed (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroIntake) till = read_till (kitchen, "name,sales\nCroustade,44\n", FALSE);
  g_autoptr (GArray) entries = NULL;
  guint n_known;

  assert_int_equal (cro_intake_count_unmeasured (till, kitchen->book), 1);
  entries = cro_intake_entries (till, kitchen->book, &n_known, NULL);
  assert_int_equal (entries->len, 0);
}

/* The name of other revenue may be made of the very figures that say which plate. */
static void
test_other_revenue_is_no_plate (void **state)
{
  CroTestKitchen *kitchen = *state;
  CroRef plate = thing (kitchen->book, "Croustade");
  g_autofree char *text = g_strdup_printf ("name,sold,net\nCroustade,2,20\n%u %u,1,5\n", plate.kind, plate.slot);
  g_autoptr (CroIntake) till = read_till (kitchen, text, FALSE);
  g_autoptr (GArray) entries = NULL;
  guint n_known;

  settle_rest (till);
  entries = cro_intake_entries (till, kitchen->book, &n_known, NULL);
  assert_int_equal (entries->len, 2);
}

/* --- Counts, documents, adjustments ---------------------------------------------------------------------- */

/* What enters of one sheet, those that wait left out. The same sheet again enters nothing. */
static void
test_other_rows_are_read (void **state)
{
  static const char *const count_columns[] = { "amount_micro", "unit", "place", NULL };
  static const char *const line_columns[] = { "document", "ingredient", "kind", "amount_micro", "unit",
                                              "net_value_micro", NULL };
  static const char *const document_columns[] = { "date", "document_date", "document", "kind", "net_value_micro",
                                                  NULL };
  static const char *const adjustment_columns[] = { "date", "kind", "amount_micro", "unit", "net_value_micro", "note",
                                                    NULL };
  static const struct
  {
    const char *says, *table;
    const char *const *columns;
    CroIntakeKind kind;
    const char *text, *bad, *clashing, *rows;
    guint n_waiting, n_unmeasured;
  } cases[] = {
    { "counts in columns, French: a place, a unit beside or behind, another number of the name; an empty amount was "
      "not counted", "stock_count", count_columns, CRO_INTAKE_COUNTS,
      "Inventaire;;;\nDésignation;Quantité;Unité;Emplacement\ncrabs;1,5;kg;chambre froide\nOIL;2 l;;\nButter;;kg;\n"
      "Cup;12;;\nquokka;3;kg;\nButter;3;;\nCrab;2;bushel;\n",
      "bad 9 7 bushel\n", "", "1500000|kg|chambre froide\n2000000|l|\n12000000|each|\n", 1, 1 },
    { "counts in words, a text a row", "stock_count", count_columns, CRO_INTAKE_COUNTS,
      "BUTTER\t1.5\tkg\n2 l oil\t\t\nquokka 3 kg\t\t\ncrab\t\t\n", "bad 4 6 crab\n", "",
      "1500000|kg|\n2000000|l|\n", 1, 0 },
    { "documents: several rows of one, tax that leads to the total and one that does not, a credit note; what the "
      "book has, and what it has with other values", "purchase", document_columns, CRO_INTAKE_DOCUMENTS,
      "Supplier,Invoice,Date,Delivered,Food,Packaging,VAT,Total\nQUAY,Q-7,2026-02-04,2026-02-05,100,20,12,132\n"
      "Quay,Q-7,2026-02-04,2026-02-05,5,,,\nQuay,Q-7,2026-02-04,2026-02-05,5,,,\nQuay,Q-8,2026-02-06,,50,,5,56\n"
      "Quay,Q-2,,2026-02-10,90,,,\nQuay,Q-1,2026-02-02,2026-02-03,61,,,\nMill,M-1,2026-02-27,,,,-1,-11\n"
      "Quay,Q-9,2026-02-06,2026-03-01,50,,,\nTotal,,,,315,20,,\n",
      "bad 5 10 −1\nbad 9 3 2026-03-01\n", "bad 4 11 3\nbad 7 12 Q-1\n",
      "2026-02-05|2026-02-04|Q-7|food|105000000\n2026-02-05|2026-02-04|Q-7|disposable|20000000\n", 1, 0 },
    { "documents by accounts: a kind a row, in French", "purchase", document_columns, CRO_INTAKE_DOCUMENTS,
      "Fournisseur\tPièce\tDate facture\tNature\tMontant HT\nQuay\t9\t07/02/2026\tDenrées\t1 200,50\n"
      "Quay\t9\t07/02/2026\tConsommables\t30\nQuay\t9\t07/02/2026\tLoyer\t1\nQuay\t8\t13/02/2026\t\tx\n",
      "bad 4 8 Loyer\nbad 5 1 x\n", "",
      "2026-02-07|2026-02-07|9|food|1200500000\n2026-02-07|2026-02-07|9|disposable|30000000\n", 0, 0 },
    { "documents line by line: an amount beside its unit is no money", "purchase", document_columns,
      CRO_INTAKE_DOCUMENTS,
      "Date\tSupplier\tDocument\tIngredient\tAmount\tUnit\tNet\n2026-02-07\tQuay\tA-1\tButter\t5\tkg\t310.00\n"
      "2026-02-07\tQuay\tA-1\tOil\t500 ml\t\t25.20\n", "", "", "2026-02-07|2026-02-07|A-1|food|310000000\n"
      "2026-02-07|2026-02-07|A-1|food|25200000\n", 0, 0 },
    { "documents line by line: what the book has is a line of its kind, with its amount; the rest one sum", "purchase",
      line_columns, CRO_INTAKE_DOCUMENTS,
      "Delivered\tSupplier\tDocument\tIngredient\tAmount\tUnit\tNet\n2026-02-07\tQuay\tA-5\tcrabs\t0.5\tkg\t31\n"
      "2026-02-07\tQuay\tA-5\tcup\t500\t\t9.50\n2026-02-07\tQuay\tA-5\tOil\t3\tboxes\t31\n"
      "2026-02-07\tQuay\tA-5\tQuokka\t1\tkg\t4\n2026-02-07\tQuay\tA-5\tCrab\t-1\tkg\t-60\n\t\t\tTotal\t\t\t15.50\n",
      "", "", "A-5||food|||4000000\nA-5|1|food|500000|kg|31000000\nA-5|4|disposable|500000000|each|9500000\n"
      "A-5|2|food|||31000000\nA-5|1|food|||-60000000\n", 0, 0 },
    { "documents: an amount beside a quantity is money", "purchase", document_columns, CRO_INTAKE_DOCUMENTS,
      "Date,Supplier,Document,Qty,Unit,Amount\n2026-02-07,Quay,A-2,5,kg,31\n", "", "",
      "2026-02-07|2026-02-07|A-2|food|31000000\n", 0, 0 },
    { "documents of a closed month come late; those of an open one belong there", "purchase", document_columns,
      CRO_INTAKE_DOCUMENTS, "Supplier,Invoice,Delivered,Food\nQuay,L-1,2025-12-30,40\nQuay,L-2,2026-01-30,50\n",
      "bad 3 3 2026-01-30\n", "", "2025-12-30||L-1|food|40000000\n", 0, 0 },
    { "adjustments: an amount of an item, a value of none, kinds in words", "adjustment", adjustment_columns,
      CRO_INTAKE_ADJUSTMENTS,
      "Date,Kind,Item,Quantity,Unit,Value,Note\n2026-02-03,Staff meals,Butter,200,g,,Sunday\n"
      "2026-02-04,pertes,,,,12.5,fridge\n2026-02-05,thrown away,oil,1 l,,,\n2026-02-05,lent,oil,1 l,,,\n"
      "2026-02-06,promotion,,2,kg,,\n2026-02-06,promotion,Crab,,,-1,\n", "bad 5 8 lent\nbad 6 0 \nbad 7 1 -1\n", "",
      "2026-02-03|staff-meal|200000000|g||Sunday\n2026-02-04|waste|||12500000|fridge\n"
      "2026-02-05|waste|1000000|l||\n", 0, 0 },
  };
  CroTestKitchen *kitchen = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CroIntake) intake = read_intake (kitchen, cases[i].kind, cases[i].text, FALSE), again = NULL;
      g_autofree char *before = rows_text (kitchen->book, cases[i].table, cases[i].columns), *after = NULL;
      g_autofree char *bad = bad_text (intake->bad), *clashing = NULL;
      g_autoptr (GArray) entries = NULL;
      g_autoptr (GError) error = NULL;
      guint n, n_known;

      if (strcmp (bad, cases[i].bad) != 0 || cro_intake_count_unsettled (intake) != cases[i].n_waiting
          || cro_intake_count_unmeasured (intake, kitchen->book) != cases[i].n_unmeasured)
        fail_msg ("%s: %s%u, %u", cases[i].says, bad, cro_intake_count_unsettled (intake),
                  cro_intake_count_unmeasured (intake, kitchen->book));
      cro_test_must (cro_intake_enter (intake, kitchen->book, "i", FALSE, &n, &error), error);
      clashing = bad_text (intake->clashing);
      after = rows_text (kitchen->book, cases[i].table, cases[i].columns);
      if (strcmp (clashing, cases[i].clashing) != 0 || !g_str_has_prefix (after, before)
          || strcmp (after + strlen (before), cases[i].rows) != 0)
        fail_msg ("%s: %s\n%s", cases[i].says, clashing, after + strlen (before));
      again = read_intake (kitchen, cases[i].kind, cases[i].text, FALSE);
      entries = cro_intake_entries (again, kitchen->book, &n_known, &error);
      assert_int_equal (entries->len, 0);
      assert_true (n_known >= n);
      undo (kitchen->book);
    }
}

/* An amount of an ingredient alone is no money, and of two that say the same neither is guessed. */
static void
test_what_a_document_is_worth_is_asked (void **state)
{
  static const char *const texts[] = { "Date,Supplier,Document,Ingredient,Amount\n2026-02-07,Quay,A-3,Oil,5\n",
                                       "Date,Supplier,Document,Net,Net total\n2026-02-07,Quay,A-4,5,25\n" };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (CroIntake) intake = read_intake (*state, CRO_INTAKE_DOCUMENTS, texts[i], FALSE);

      assert_int_equal (intake->n_rows, 0);
    }
}

/* Two documents of a supplier whom the book does not know make one; counts of the day give way to others. */
static void
test_what_is_new_is_made_once (void **state)
{
  static const char *const names[] = { "name", NULL }, *const amounts[] = { "date", "amount_micro", NULL };
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroIntake) mill = read_intake (kitchen, CRO_INTAKE_DOCUMENTS,
                                            "supplier,no,food,delivered\nMill,1,5,2026-02-02\nMill,2,6,2026-02-02\n",
                                            FALSE);
  g_autoptr (CroIntake) counts = read_intake (kitchen, CRO_INTAKE_COUNTS, "item,amount\nCrab,1 kg\n", FALSE);
  g_autofree char *suppliers = NULL, *stock = NULL;
  g_autoptr (GError) error = NULL;
  guint n;

  cro_intake_settle (mill, 0, CRO_INTAKE_OTHER, CRO_REF_NOWHERE);
  cro_test_must (cro_intake_enter (mill, kitchen->book, "i", FALSE, &n, &error), error);
  assert_int_equal (n, 2);
  suppliers = rows_text (kitchen->book, "supplier", names);
  assert_string_equal (suppliers, "Quay\nMill\n");
  assert_int_equal (counts->n_known_days, 1);
  cro_test_must (cro_intake_enter (counts, kitchen->book, "i", TRUE, &n, &error), error);
  stock = rows_text (kitchen->book, "stock_count", amounts);
  assert_string_equal (stock, "2026-01-31|2000000\n2026-01-31|3000000\n2026-01-31|9000000\n2026-02-28|1000000\n");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
#define CASE(test) cmocka_unit_test_setup_teardown (test, set_up, cro_test_kitchen_tear_down)
    CASE (test_other_rows_are_read),
    CASE (test_what_a_document_is_worth_is_asked),
    CASE (test_what_is_new_is_made_once),
    CASE (test_tills_are_read),
    CASE (test_names_are_remembered),
    CASE (test_other_days_stay),
    CASE (test_how_many_is_not_guessed),
    CASE (test_other_revenue_is_no_plate),
#undef CASE
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
