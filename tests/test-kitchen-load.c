/* A folder of tables into a book: every fault at its place, all or nothing. */
#include "cro-dump.h"
#include "cro-load.h"
#include "support/kitchen-book.h"
#include "support/kitchen-tables.h"

typedef struct
{
  const char *says;
  const char *table, *text;      /* NULL: none */
  const char *faults;            /* one a line: file:line:column kind [value] (detail) */
} Case;

#define LINES "into,parent,position,item,amount,unit,weighed,yield_pct\n"
#define OUTPUTS "item,preparation,role,amount,unit,yield_pct\n"
#define STOCK "Stock,Stock,main,500,ml,\nShells,Stock,by-product,200,g,\n"

static const Case cases[] = {
  { "a sound folder has no fault", NULL, NULL, "" },

  { "a byte that is no UTF-8", "menus", "name,price\nT\xe9,90\n",
    "menu_plates.csv:2:menu unknown name [Tide] (menu)\n"
    "menu_plates.csv:3:menu unknown name [Tide] (menu)\nmenus.csv:2:name not UTF-8 [T\xef\xbf\xbd] (0xE9)\n"
    "sales.csv:3:name unknown name [Tide] (menu)\nsales.csv:4:name unknown name [Tide] (menu)\n"
    "sales.csv:6:name unknown name [Tide] (menu)\n"
    "selling_prices.csv:2:name unknown name [Tide] (plate or menu)\n"
    "selling_prices.csv:3:name unknown name [Tide] (plate or menu)\n"
    "services.csv:2:name unknown name [Tide] (plate or menu)\n"
    "services.csv:3:name unknown name [Tide] (plate or menu)\n" },
  { "a quote that is never closed", "rates", "currency,from,rate\nGBP,2026-01-01,\"1.15\n",
    "rates.csv:2:rate quotes\n" },
  { "a row that is too short", "rates", "currency,from,rate\nGBP,2026-01-01\n",
    "rates.csv:2:- field count [2] (3)\n" },
  { "a table that there is none of", "cellar", "name\nCrab\n", "cellar.csv:0:- unknown table\n" },
  { "a column that there is none of", "suppliers", "name,quotes,fax\nQuay,pack,1\nPort,,\n",
    "suppliers.csv:1:fax unknown column\n" },
  { "a column that is there twice", "suppliers", "name,quotes,name\nQuay,pack,Quay\nPort,,Port\n",
    "suppliers.csv:1:name double column\n" },
  { "a column that must be there", "rates", "currency,from\nGBP,2026-01-01\n",
    "rates.csv:1:rate missing column\n" },
  { "a value that must be there", "rates", "currency,from,rate\nGBP,2026-01-01,\n",
    "rates.csv:2:rate missing value\n" },
  { "what is no number", "rates", "currency,from,rate\nGBP,2026-01-01,1e3\n",
    "rates.csv:2:rate not a number [1e3]\n" },
  { "seven decimals", "rates", "currency,from,rate\nGBP,2026-01-01,1.1234567\n",
    "rates.csv:2:rate too many places [1.1234567]\n" },
  { "more than can be kept", "rates", "currency,from,rate\nGBP,2026-01-01,99999999999999\n",
    "rates.csv:2:rate too large [99999999999999]\n" },
  { "a rate must be above 0", "rates", "currency,from,rate\nGBP,2026-01-01,0\n",
    "rates.csv:2:rate out of range [0] ((0, ∞))\n" },
  { "a day that there is none of", "rates", "currency,from,rate\nGBP,2026-02-29,1\n",
    "rates.csv:2:from not a date [2026-02-29]\n" },
  { "a choice that there is none of", "preparations",
    "name,by_products\nGel,none\nStock,weight\n",
    "preparations.csv:2:by_products not a choice [none] (free, weight, value, credit)\n" },
  { "a unit that there is none of", "counts", "date,item,amount,unit\n2026-01-31,Crab,2,box\n",
    "counts.csv:2:unit not a unit [box]\n" },
  { "a currency is three capitals", "rates", "currency,from,rate\ngbp,2026-01-01,1\n",
    "rates.csv:2:currency not a currency [gbp]\n" },
  { "an allergen that there is none of", "ingredients",
    "name,unit,kind,allergens\nCrab,g,food,crustaceans seaweed\nSalt,g,,\nCup,each,,\n",
    "ingredients.csv:2:allergens not an allergen [crustaceans seaweed] (seaweed)\n" },
  { "what is no month", "months", "month,closed_at\n2026-13,\n2026-01,\n",
    "months.csv:2:month not a month [2026-13]\n" },
  { "a setting that there is none of", "book", "key,value\nrounding,1\n",
    "book.csv:2:key unknown key [rounding]\n" },
  { "a setting twice", "book", "key,value\ntax_pct,10\ntax_pct,11\n",
    "book.csv:3:key double key (2)\n" },
  { "a setting that must be a number", "book", "key,value\ntax_pct,ten\n",
    "book.csv:2:value not a number [ten]\n" },

  { "names that resolve to nothing, each with what was looked for", "lines",
    LINES "preparation,Gels,1,Crab,1,g,,\npreparation,Croustade,1,Crab,1,g,,\n"
    "plate,Gel,1,Crab,1,g,,\nplate,Tide,1,Crab,1,g,,\nplate,Tartlet,1,Crabs,1,g,,\n",
    "lines.csv:2:parent unknown name [Gels] (preparation)\n"
    "lines.csv:3:parent unknown name [Croustade] (preparation)\n"
    "lines.csv:4:parent unknown name [Gel] (plate)\n"
    "lines.csv:5:parent unknown name [Tide] (plate)\n"
    "lines.csv:6:item unknown name [Crabs] (ingredient or output)\n" },
  { "case and accents count", "counts", "date,item,amount,unit\n2026-01-31,crab,2,kg\n",
    "counts.csv:2:item unknown name [crab] (ingredient or output)\n" },
  { "of a kind that is none, no name is looked for", "sales",
    "date,kind,name,sold\n2026-01-10,cake,Tide,1\n",
    "sales.csv:2:kind not a choice [cake] (plate, menu, other)\n" },
  { "a supplier, an ingredient", "purchases",
    "date,supplier,ingredient,net_value\n2026-01-07,Quays,Gel,60\n",
    "purchases.csv:2:supplier unknown name [Quays] (supplier)\n"
    "purchases.csv:2:ingredient unknown name [Gel] (ingredient)\n" },
  { "a price of an offer that is not there", "prices",
    "ingredient,supplier,code,from,price\nCrab,Port,,2026-01-05,1\nCrab,Quay,102,2026-01-05,1\n",
    "prices.csv:2:code unknown name (offer)\nprices.csv:3:code unknown name [102] (offer)\n" },
  { "a test's part is an output", "yield_test_parts",
    "test,output,weight_g\nlot 8,Shells,1\nlot 7,Crab,1\n",
    "yield_test_parts.csv:2:test unknown name [lot 8] (yield test)\n"
    "yield_test_parts.csv:3:output unknown name [Crab] (output)\n" },
  { "a menu and a plate", "menu_plates", "menu,plate\nCroustade,Tide\n",
    "menu_plates.csv:2:menu unknown name [Croustade] (menu)\n"
    "menu_plates.csv:2:plate unknown name [Tide] (plate)\n" },
  { "a frozen row of no month", "month_rows", "month,kind,name\n2025-12,plate,Croustade\n",
    "month_rows.csv:2:month unknown name [2025-12] (month)\n" },
  { "an output of no preparation", "outputs",
    OUTPUTS "Gel,Jelly,main,1,g,\n" STOCK,
    "outputs.csv:2:preparation unknown name [Jelly] (preparation)\n"
    "preparations.csv:2:name main output [Gel] (0)\n" },

  { "a name twice in its table", "suppliers", "name,quotes\nQuay,pack\nPort,\nQuay,pack\n",
    "suppliers.csv:4:name double key [Quay] (2)\n" },
  { "names are equal once composed and trimmed", "menus",
    "name,price\nTide,90\nCaf\xc3\xa9,1\n Cafe\xcc\x81 ,2\n",
    "menus.csv:4:name double key [Café] (3)\n" },
  { "ingredients and outputs share a space of names", "outputs",
    OUTPUTS "Crab,Gel,main,100,g,\nGel,Gel,by-product,1,g,\n" STOCK,
    "outputs.csv:2:item double name [Crab] (ingredients.csv:2)\n" },
  { "and so do plates and menus", "menus", "name,price\nTide,90\nTartlet,1\n",
    "menus.csv:3:name double name [Tartlet] (plates.csv:3)\n" },
  { "an offer twice, the empty code being a value", "offers",
    "ingredient,supplier,code,pack_count,pack_size,pack_unit\nCrab,Quay,101,1,5,kg\n"
    "Salt,Port,,10,1,kg\nSalt,Port,,1,1,kg\n",
    "offers.csv:4:code double key (3)\n" },
  { "two prices of a day", "prices",
    "ingredient,supplier,code,from,price\nCrab,Quay,101,2026-01-05,60\nCrab,Quay,,2026-01-05,60\n"
    "Crab,Quay,101,2026-01-05,61\n",
    "prices.csv:4:from double key (2)\n" },
  { "a place in a recipe taken twice", "lines",
    LINES "plate,Tartlet,1,Salt,1,g,,\nplate,Tartlet,1.0,Crab,1,g,,\n",
    "lines.csv:3:position double key (2)\n" },

  { "a preparation without a main output, and one with two", "outputs",
    OUTPUTS "Gel,Gel,by-product,1,g,\n" STOCK "Broth,Stock,main,1,g,\n",
    "outputs.csv:5:role main output [Stock] (2)\npreparations.csv:2:name main output [Gel] (0)\n" },
  { "an amount and a yield", "outputs", OUTPUTS "Gel,Gel,main,100,g,80\n" STOCK,
    "outputs.csv:2:yield_pct output amount [80] (both)\n" },
  { "a yield is of a mass", "outputs", OUTPUTS "Gel,Gel,main,,ml,80\n" STOCK,
    "outputs.csv:2:unit output amount [ml] (mass)\n" },
  { "an amount without a unit", "outputs", OUTPUTS "Gel,Gel,main,100,,\n" STOCK,
    "outputs.csv:2:unit missing value\n" },
  { "an amount bought without a unit", "purchases",
    "date,ingredient,amount,net_value\n2026-02-07,Crab,5,63\n", "purchases.csv:2:unit missing value\n" },
  { "an amount lost without a unit", "adjustments",
    "date,kind,item,amount\n2026-02-07,waste,Crab,5\n", "adjustments.csv:2:unit missing value\n" },
  { "a frozen part has its kind", "month_rows",
    "month,kind,name,part_kind,part\n2026-01,plate,Croustade,,Crab\n"
    "2026-01,plate,Croustade,food,\n",
    "month_rows.csv:2:part_kind missing value\nmonth_rows.csv:3:part missing value\n" },
  { "an own yield of what is weighed whole", "lines",
    LINES "plate,Tartlet,1,Salt,1,g,whole,90\n", "lines.csv:2:yield_pct whole yield [90]\n" },
  { "a preparation that takes itself", "lines",
    LINES "plate,Tartlet,1,Gel,1,g,,\npreparation,Gel,1,Gel,1,g,,\n",
    "lines.csv:3:item cycle (Gel → Gel)\n" },
  { "two that take each other, through a by-product", "lines",
    LINES "preparation,Stock,1,Crab,1,g,,\npreparation,Stock,2,Gel,1,g,,\n"
    "preparation,Gel,1,Shells,1,g,,\n",
    "lines.csv:3:item cycle (Gel → Stock → Gel)\n" },

  { "plates and menus have selling prices, and nothing else", "selling_prices",
    "name,from,price\nCrab,2026-02-01,9\n",
    "selling_prices.csv:2:name unknown name [Crab] (plate or menu)\n" },
  { "two selling prices of a day", "selling_prices",
    "name,from,price\nTide,2026-02-01,95\nCroustade,2026-02-01,5\nTide,2026-02-01,96\n",
    "selling_prices.csv:4:from double key (2)\n" },
  { "a tax without a selling price", "selling_prices",
    "name,from,price,tax_pct\nTide,2026-02-01,,10\n", "selling_prices.csv:2:price missing value\n" },
  { "covers of a service", "services",
    "date,service,name,covers\n2026-02-14,dinner,Crab,6\n2026-02-14,dinner,Tide,\n"
    "2026-02-14,dinner,Tide,6\n",
    "services.csv:2:name unknown name [Crab] (plate or menu)\nservices.csv:3:covers missing value\n"
    "services.csv:4:name double key (3)\n" },
  { "what is in the house", "service_stock",
    "date,service,item,amount,unit\n2026-02-14,dinner,Tide,1,kg\n2026-02-14,dinner,Crab,1,\n",
    "service_stock.csv:2:item unknown name [Tide] (ingredient or output)\n"
    "service_stock.csv:3:unit missing value\n" },
  { "a plate twice in a choice", "menu_plates",
    "menu,plate,choice,share_pct\nTide,Croustade,,\nTide,Croustade,last,\nTide,Croustade,last,\n",
    "menu_plates.csv:4:choice double key (3)\n" },
  { "shares of a choice make 100", "menu_plates",
    "menu,plate,choice,share_pct\nTide,Croustade,first,60\nTide,Tartlet,first,30\n"
    "Tide,Croustade,last,60\nTide,Tartlet,last,40.000001\nTide,Tartlet,,7\n"
    "Tide,Croustade,alone,99\nTide,Croustade,open,100\nTide,Tartlet,open,\n",
    "menu_plates.csv:3:share_pct choice shares [first]\n"
    "menu_plates.csv:5:share_pct choice shares [last]\n"
    "menu_plates.csv:7:share_pct choice shares [alone]\n" },
  { "revenue that nobody can reckon", "sales",
    "date,kind,name,sold,net_revenue\n2026-02-10,other,Wine,1,\n2026-02-10,plate,Croustade,0,\n"
    "2026-02-10,plate,Wine,1,9\n2026-02-10,,Wine,0,9\n",
    "sales.csv:2:net_revenue missing value\nsales.csv:3:net_revenue missing value\n"
    "sales.csv:4:name unknown name [Wine] (plate)\nsales.csv:5:kind missing value\n" },
  { "what a till's name is and is not", "till_names",
    "name,kind,sold_as\nA,plate,\nB,none,Croustade\nC,other,Wine\nD,menu,\nE,plate,Croustade\nF,none,\n"
    "G,plate,Wine\nH,menu,Croustade\n",
    "till_names.csv:2:sold_as missing value\ntill_names.csv:3:sold_as not empty [Croustade] (none)\n"
    "till_names.csv:4:sold_as not empty [Wine] (other)\ntill_names.csv:5:sold_as missing value\n"
    "till_names.csv:8:sold_as unknown name [Wine] (plate)\n"
    "till_names.csv:9:sold_as unknown name [Croustade] (menu)\n" },
  { "a language that a kitchen does not speak", "book", "key,value\nspeaks,margin\n",
    "book.csv:2:value not a choice [margin] (food-cost, gross-profit, coefficient)\n" },

  { "every fault of every table at once", "lines",
    LINES "plate,Tartlet,1,Salts,x,g,whole,90\nplate,Tart,2,Gel,1,jar,,0\n",
    "lines.csv:2:amount not a number [x]\nlines.csv:2:item unknown name [Salts] (ingredient or output)\n"
    "lines.csv:2:yield_pct whole yield [90]\nlines.csv:3:unit not a unit [jar]\n"
    "lines.csv:3:yield_pct out of range [0] ((0, 1000])\n"
    "lines.csv:3:parent unknown name [Tart] (plate)\n" },
};

static void
test_faults (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CroTestFolder folder = cro_test_folder_new ();
      g_autoptr (CroFaults) faults = cro_faults_new ();
      g_autoptr (GError) error = NULL;
      g_autofree char *text = NULL;
      gboolean done;

      cro_test_write_tables (folder.folder, cases[i].table, cases[i].text);
      done = cro_load (folder.path, folder.folder, "cook", "load", FALSE, NULL, NULL, faults,
                       &error);
      text = cro_test_faults (faults);
      if (strcmp (text, cases[i].faults) != 0)
        fail_msg ("%s:\n%sand not\n%s", cases[i].says, text, cases[i].faults);
      if (done != (*text == '\0')
          || (!done && !g_error_matches (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_FAULTS)))
        fail_msg ("%s: with a fault nothing is loaded", cases[i].says);
      if (g_file_test (folder.path, G_FILE_TEST_EXISTS) != done)
        fail_msg ("%s: with a fault no book is made", cases[i].says);
      cro_test_folder_clear (&folder);
    }
}

/* --- Into a book that holds something -------------------------------------------------------------- */

static char *
dump_of (const char *path)
{
  GError *error = NULL;
  CroTestFolder folder = cro_test_folder_new ();
  g_autoptr (CroStore) store = cro_store_open (path, NULL, CRO_STORE_READ, &error);
  char *text;

  cro_test_must (store != NULL, error);
  cro_test_must (cro_dump (store, folder.folder, NULL, NULL, &error), error);
  text = cro_test_folder_text (folder.folder);
  cro_test_folder_clear (&folder);
  return text;
}

static void
must_refuse (const CroTestFolder *folder,
             const char          *says,
             gboolean             replace,
             CroLoadErrorCode     code,
             const char          *before)
{
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (GError) error = NULL;
  g_autofree char *after = NULL;

  if (cro_load (folder->path, folder->folder, "cook", "load", replace, NULL, NULL, faults,
                &error)
      || !g_error_matches (error, CRO_LOAD_ERROR, (int) code))
    fail_msg ("%s: is refused", says);
  after = dump_of (folder->path);
  cro_test_same (says, before, after);
}

static void
test_nothing_changes (void **state)
{
  CroTestFolder folder = cro_test_folder_new ();
  g_autofree char *before = NULL;

  cro_test_write_tables (folder.folder, NULL, NULL);
  g_object_unref (cro_test_book_load (&folder));
  before = dump_of (folder.path);
  must_refuse (&folder, "a book that holds something is not loaded into without being asked", FALSE,
               CRO_LOAD_ERROR_NOT_EMPTY, before);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    if (*cases[i].faults != '\0' && strcmp (cases[i].table, "cellar") != 0)
      {
        cro_test_write_tables (folder.folder, cases[i].table, cases[i].text);
        must_refuse (&folder, cases[i].says, TRUE, CRO_LOAD_ERROR_FAULTS, before);
      }
  cro_test_folder_clear (&folder);
}

/* Says no at its nth question, and notes how far it was. */
typedef struct
{
  guint  n, last;
  double done;
} Asked;

static gboolean
go_on (gpointer user_data,
       double   done)
{
  Asked *asked = user_data;

  assert_true (done >= asked->done && done <= 1);
  asked->done = done;
  return ++asked->n != asked->last;
}

static void
test_cancelled_loading_leaves_nothing (void **state)
{
  CroTestFolder folder = cro_test_folder_new ();
  g_autofree char *demo = g_build_filename (g_getenv ("CROUSTADE_SOURCE"), "data", "demo", NULL);
  gboolean done = FALSE;
  guint last;
  Asked asked;

  for (last = 1; !done; last += 1 + last / 8)
    {
      CroFaults *faults = cro_faults_new ();
      g_autoptr (GError) error = NULL;

      asked = (Asked){ .last = last };
      done = cro_load (folder.path, demo, "cook", "load", FALSE, go_on, &asked, faults, &error);
      if (!done && (!g_error_matches (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_CANCELLED)
                    || g_file_test (folder.path, G_FILE_TEST_EXISTS)))
        fail_msg ("at question %u a book was left, or: %s", last, error->message);
      cro_faults_free (faults);
    }
  assert_true (last > 10);
  assert_true (asked.done > 0.9);
  cro_test_folder_clear (&folder);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_faults),
    cmocka_unit_test (test_nothing_changes),
    cmocka_unit_test (test_cancelled_loading_leaves_nothing),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
