/* What the tables take and what they refuse, asked of the schema itself by plain SQL. */
#include "cro-allergen.h"
#include "cro-code.h"
#include "support/store-book.h"

#define CHECK SQLITE_CONSTRAINT_CHECK
#define UNIQUE SQLITE_CONSTRAINT_UNIQUE
#define REFERENCE SQLITE_CONSTRAINT_FOREIGNKEY
#define NOT_NULL SQLITE_CONSTRAINT_NOTNULL
#define TRIGGER SQLITE_CONSTRAINT_TRIGGER
#define TYPE SQLITE_CONSTRAINT_DATATYPE

/* Each on its own against a book of CRO_TEST_ROWS. */
static const struct
{
  const char *says;
  int         code;
  const char *sql;
} cases[] = {
  { "a second row of settings", CHECK, "INSERT INTO book (id) VALUES (2)" },
  { "a book without a name", CHECK, "UPDATE book SET name = ''" },
  { "a currency in small letters", CHECK, "UPDATE book SET currency = 'eur'" },
  { "a currency of four letters", CHECK, "UPDATE book SET currency = 'EURO'" },
  { "a wage below 0", CHECK, "UPDATE book SET wage_per_hour_micro = -1" },
  { "a tax below 0", CHECK, "UPDATE book SET tax_pct_micro = -1" },
  { "a target of 0", CHECK, "UPDATE book SET target_pct_micro = 0" },
  { "a target above 100", CHECK, "UPDATE book SET target_pct_micro = 100000001" },
  { "a book that speaks of profit otherwise", CHECK, "UPDATE book SET speaks = 'margin'" },
  { "a book that rounds its prices otherwise", CHECK, "UPDATE book SET price_steps = '0.50'" },
  { "a till with tax or otherwise", CHECK, "UPDATE book SET till_with_tax = 2" },
  { "prices that are stale before they are made", CHECK,
    "UPDATE book SET stale_after_days_micro = -1" },

  { "an item without a name", NOT_NULL, "UPDATE item SET name = NULL" },
  { "an item with an empty name", CHECK, "UPDATE item SET name = '' WHERE id = 1" },
  { "a name that is not trimmed", CHECK, "UPDATE item SET name = 'kelp ' WHERE id = 1" },
  { "a name that begins with a tab", CHECK, "UPDATE item SET name = char (9) || 'k' WHERE id = 1" },
  { "two items of one name", UNIQUE, "UPDATE item SET name = 'samphire' WHERE id = 2" },
  { "an ingredient that is no item", REFERENCE,
    "INSERT INTO ingredient (id, unit) VALUES (9, 'g')" },
  { "an ingredient of an unknown kind", CHECK, "UPDATE ingredient SET kind = 'drink'" },
  { "an ingredient costed per kilogram", CHECK, "UPDATE ingredient SET unit = 'kg'" },
  { "a density of 0", CHECK, "UPDATE ingredient SET density_g_per_ml_micro = 0" },
  { "a piece of no weight", CHECK, "UPDATE ingredient SET piece_g_micro = 0" },
  { "a trim yield of 0", CHECK, "UPDATE ingredient SET trim_yield_pct_micro = 0" },
  { "a trim yield above 1000", CHECK, "UPDATE ingredient SET trim_yield_pct_micro = 1000000001" },
  { "a fifteenth allergen", CHECK, "UPDATE ingredient SET allergens = 16384" },
  { "allergens below none", CHECK, "UPDATE ingredient SET allergens = -1" },
  { "a fifteenth allergen on a label", CHECK, "UPDATE ingredient SET may_contain = 16384" },
  { "an empty note", CHECK, "UPDATE ingredient SET note = ''" },
  { "a number that is a text", TYPE, "UPDATE ingredient SET piece_g_micro = 'heavy'" },
  { "a number that is binary floating point", TYPE, "UPDATE ingredient SET piece_g_micro = 1.5" },
  { "an ingredient that is an output", TRIGGER,
    "INSERT INTO ingredient (id, unit) VALUES (2, 'g')" },
  { "an output that is an ingredient", TRIGGER,
    "INSERT INTO output (id, preparation, role) VALUES (1, 1, 'by-product')" },
  { "an item that is deleted under its ingredient", REFERENCE, "DELETE FROM item WHERE id = 1" },

  { "two suppliers of one name", UNIQUE,
    "INSERT INTO supplier (name) VALUES ('Estuary Greens')" },
  { "a minimum order below 0", CHECK, "UPDATE supplier SET minimum_order_micro = -1" },
  { "a delivery charge below 0", CHECK, "UPDATE supplier SET delivery_charge_micro = -1" },
  { "a supplier who quotes by the moon", CHECK, "UPDATE supplier SET quotes = 'moon'" },
  { "an offer of no ingredient", REFERENCE, "UPDATE offer SET ingredient = 2" },
  { "an offer of no supplier", REFERENCE, "UPDATE offer SET supplier = 2" },
  { "two offers of one code", UNIQUE,
    "INSERT INTO offer (ingredient, supplier, code, pack_count_micro, pack_size_micro, pack_unit)"
    " VALUES (1, 1, 'S1', 1, 1, 'g')" },
  { "two offers without a code", UNIQUE,
    "INSERT INTO offer (ingredient, supplier, pack_count_micro, pack_size_micro, pack_unit)"
    " VALUES (1, 1, 1, 1, 'g'), (1, 1, 1, 1, 'g')" },
  { "a pack of nothing", CHECK, "UPDATE offer SET pack_count_micro = 0" },
  { "a pack of no size", CHECK, "UPDATE offer SET pack_size_micro = 0" },
  { "a pack in an unknown unit", REFERENCE, "UPDATE offer SET pack_unit = 'stone'" },
  { "a net part of 0", CHECK, "UPDATE offer SET net_pct_micro = 0" },
  { "a net part above the whole", CHECK, "UPDATE offer SET net_pct_micro = 100000001" },
  { "an offer preferred twice over", CHECK, "UPDATE offer SET preferred = 2" },
  { "an offer until the 30th of February", CHECK, "UPDATE offer SET until = '2026-02-30'" },
  { "an offer until a moment", CHECK, "UPDATE offer SET until = '2026-02-03 10:00'" },
  { "an offer until now", CHECK, "UPDATE offer SET until = 'now'" },
  { "a position before the first", CHECK, "UPDATE offer SET position_micro = -1" },

  { "a price of no offer", REFERENCE, "UPDATE price SET offer = 2" },
  { "two prices from one day", UNIQUE,
    "INSERT INTO price (offer, from_date, price_micro) VALUES (1, '2026-01-05', 1)" },
  { "a price from no day", CHECK, "UPDATE price SET from_date = '2026-1-5'" },
  { "a price below 0", CHECK, "UPDATE price SET price_micro = -1" },
  { "an answer about no pack", REFERENCE, "UPDATE price_answer SET offer = 2" },
  { "two answers about one day", UNIQUE,
    "INSERT INTO price_answer (offer, from_date, price_micro) VALUES (1, '2026-01-05', 1)" },
  { "an answer about no day", CHECK, "UPDATE price_answer SET from_date = '2026-02-30'" },
  { "an answer about no price", NOT_NULL, "UPDATE price_answer SET price_micro = NULL" },
  { "an answer about a price below 0", CHECK, "UPDATE price_answer SET price_micro = -1" },
  { "an answer about a pack of nothing", CHECK, "UPDATE price_answer SET pack_count_micro = 0" },
  { "an answer about a pack of no size", CHECK, "UPDATE price_answer SET pack_size_micro = 0" },
  { "an answer about an unknown unit", REFERENCE, "UPDATE price_answer SET pack_unit = 'stone'" },
  { "an answer in no currency", CHECK, "UPDATE price_answer SET currency = 'GB'" },
  { "an answer given on no day", CHECK, "UPDATE price_answer SET answered_on = '2026-1-5'" },
  { "an included tax below 0", CHECK, "UPDATE price SET tax_included_pct_micro = -1" },
  { "a shrunk pack of nothing", CHECK, "UPDATE price SET pack_count_micro = 0" },
  { "a shrunk pack of no size", CHECK, "UPDATE price SET pack_size_micro = 0" },
  { "a shrunk pack in an unknown unit", REFERENCE, "UPDATE price SET pack_unit = 'stone'" },
  { "two rates from one day", UNIQUE,
    "INSERT INTO rate (currency, from_date, rate_micro) VALUES ('GBP', '2026-01-01', 1)" },
  { "a rate of 0", CHECK, "UPDATE rate SET rate_micro = 0" },
  { "a rate per 0", CHECK, "UPDATE rate SET per_micro = 0" },
  { "a rate of a currency of two letters", CHECK, "UPDATE rate SET currency = 'GB'" },
  { "a rate from no day", CHECK, "UPDATE rate SET from_date = '2026-13-01'" },

  { "two preparations of one name", UNIQUE,
    "INSERT INTO preparation (name) VALUES ('samphire purée')" },
  { "an unknown by-product rule", CHECK, "UPDATE preparation SET by_products = 'share'" },
  { "minutes below 0", CHECK, "UPDATE preparation SET active_minutes_micro = -1" },
  { "a smallest part above a whole batch", CHECK,
    "UPDATE preparation SET smallest_part_micro = 1000001" },
  { "a smallest part below 0", CHECK, "UPDATE preparation SET smallest_part_micro = -1" },
  { "an output lost whole", CHECK, "UPDATE output SET lost_pct_micro = 100000000" },
  { "less than none of an output lost", CHECK, "UPDATE output SET lost_pct_micro = -1" },
  { "an output of no preparation", REFERENCE, "UPDATE output SET preparation = 2" },
  { "two main outputs of one preparation", UNIQUE,
    "INSERT INTO item VALUES (3, 'pulp');"
    "INSERT INTO output (id, preparation, role) VALUES (3, 1, 'main')" },
  { "an output of an unknown role", CHECK, "UPDATE output SET role = 'waste'" },
  { "an output of no amount", CHECK, "UPDATE output SET amount_micro = 0" },
  { "an amount without a unit", CHECK, "UPDATE output SET unit = NULL" },
  { "an output with an amount and a share", CHECK, "UPDATE output SET yield_pct_micro = 80000000" },
  { "a share of 0", CHECK, "UPDATE output SET amount_micro = NULL, yield_pct_micro = 0" },
  { "a share above 1000", CHECK,
    "UPDATE output SET amount_micro = NULL, yield_pct_micro = 1000000001" },
  { "a share of the batch's mass in millilitres", CHECK,
    "UPDATE output SET amount_micro = NULL, yield_pct_micro = 80000000, unit = 'ml'" },
  { "an output in an unknown unit", REFERENCE, "UPDATE output SET unit = 'stone'" },
  { "a value below 0", CHECK, "UPDATE output SET value_micro = -1" },
  { "an output of density 0", CHECK, "UPDATE output SET density_g_per_ml_micro = 0" },
  { "an output of pieces of no weight", CHECK, "UPDATE output SET piece_g_micro = 0" },

  { "two things of one name", UNIQUE, "UPDATE thing SET name = 'tide menu' WHERE id = 1" },
  { "a thing with an empty name", CHECK, "UPDATE thing SET name = '' WHERE id = 1" },
  { "a plate that is a menu", TRIGGER, "INSERT INTO plate (id, makes_micro) VALUES (2, 1)" },
  { "a menu that is a plate", TRIGGER, "INSERT INTO menu (id) VALUES (1)" },
  { "a plate that is no thing", REFERENCE, "INSERT INTO plate (id, makes_micro) VALUES (9, 1)" },
  { "a menu that is no thing", REFERENCE, "INSERT INTO menu (id) VALUES (9)" },
  { "a plate that makes no bite", CHECK, "UPDATE plate SET makes_micro = 0" },
  { "a guest who gets no bite", CHECK, "UPDATE plate SET per_guest_micro = 0" },
  { "a plate's price below 0", CHECK, "UPDATE plate SET price_micro = -1" },
  { "a plate's tax below 0", CHECK, "UPDATE plate SET tax_pct_micro = -1" },
  { "a plate's target of 0", CHECK, "UPDATE plate SET target_pct_micro = 0" },
  { "an allowance below 0", CHECK, "UPDATE plate SET allowance_pct_micro = -1" },
  { "a plate's minutes below 0", CHECK, "UPDATE plate SET active_minutes_micro = -1" },
  { "a menu's price below 0", CHECK, "UPDATE menu SET price_micro = -1" },
  { "a menu's tax below 0", CHECK, "UPDATE menu SET tax_pct_micro = -1" },
  { "a menu's target above 100", CHECK, "UPDATE menu SET target_pct_micro = 100000001" },
  { "a plate twice on a menu", UNIQUE,
    "INSERT INTO menu_plate (menu, plate) VALUES (2, 1), (2, 1)" },
  { "a plate twice in a choice", UNIQUE,
    "INSERT INTO menu_plate (menu, plate, choice) VALUES (2, 1, 'snack')" },
  { "a choice of an empty name", CHECK, "UPDATE menu_plate SET choice = ''" },
  { "a choice whose name is not trimmed", CHECK, "UPDATE menu_plate SET choice = ' snack'" },
  { "a share below 0", CHECK, "UPDATE menu_plate SET share_pct_micro = -1" },
  { "a share above the whole", CHECK, "UPDATE menu_plate SET share_pct_micro = 100000001" },
  { "two selling prices from one day", UNIQUE,
    "INSERT INTO selling_price (thing, from_date) VALUES (2, '2026-02-01')" },
  { "a selling price of nothing sold", REFERENCE, "UPDATE selling_price SET thing = 9" },
  { "a selling price from no day", CHECK, "UPDATE selling_price SET from_date = '2026-02-30'" },
  { "a selling price below 0", CHECK, "UPDATE selling_price SET price_micro = -1" },
  { "a tax without a selling price", CHECK, "UPDATE selling_price SET price_micro = NULL" },
  { "a selling price with a tax below 0", CHECK, "UPDATE selling_price SET tax_pct_micro = -1" },
  { "two covers of one plate at a service", UNIQUE,
    "INSERT INTO service (date, service, thing, covers_micro) VALUES ('2026-02-07', 'dinner', 2, 0)" },
  { "a service on no day", CHECK, "UPDATE service SET date = '2026-02-30'" },
  { "a service without a name", CHECK, "UPDATE service SET service = ''" },
  { "covers of nothing sold", REFERENCE, "UPDATE service SET thing = 9" },
  { "covers below 0", CHECK, "UPDATE service SET covers_micro = -1" },
  { "stock of an item twice at a service", UNIQUE,
    "INSERT INTO service_stock (date, service, item, amount_micro, unit)"
    " VALUES ('2026-02-07', 'dinner', 1, 0, 'g')" },
  { "stock of a service on no day", CHECK, "UPDATE service_stock SET date = '2026-2-7'" },
  { "stock of a service without a name", CHECK, "UPDATE service_stock SET service = ' '" },
  { "stock of no item", REFERENCE, "UPDATE service_stock SET item = 9" },
  { "stock below 0", CHECK, "UPDATE service_stock SET amount_micro = -1" },
  { "stock in an unknown unit", REFERENCE, "UPDATE service_stock SET unit = 'stone'" },
  { "a menu on a menu", REFERENCE, "INSERT INTO menu_plate (menu, plate) VALUES (2, 2)" },
  { "a plate on a plate", REFERENCE, "INSERT INTO menu_plate (menu, plate) VALUES (1, 1)" },
  { "servings below 0", CHECK, "UPDATE menu_plate SET servings_micro = -1" },
  { "a place on the menu before the first", CHECK, "UPDATE menu_plate SET position_micro = -1" },

  { "a line into nothing", CHECK, "UPDATE recipe_line SET preparation = NULL WHERE id = 1" },
  { "a line into two parents", CHECK, "UPDATE recipe_line SET plate = 1 WHERE id = 1" },
  { "a line into no preparation", REFERENCE,
    "UPDATE recipe_line SET preparation = 2 WHERE id = 1" },
  { "a line into a menu", REFERENCE, "UPDATE recipe_line SET plate = 2 WHERE id = 2" },
  { "a line of no item", REFERENCE, "UPDATE recipe_line SET item = 9 WHERE id = 1" },
  { "two lines at one place of a preparation", UNIQUE,
    "INSERT INTO recipe_line (preparation, position_micro, item, amount_micro, unit)"
    " VALUES (1, 1000000, 1, 1, 'g')" },
  { "two lines at one place of a plate", UNIQUE,
    "INSERT INTO recipe_line (plate, position_micro, item, amount_micro, unit)"
    " VALUES (1, 1000000, 1, 1, 'g')" },
  { "a line before the first", CHECK, "UPDATE recipe_line SET position_micro = -1 WHERE id = 1" },
  { "an amount below 0", CHECK, "UPDATE recipe_line SET amount_micro = -1 WHERE id = 1" },
  { "an amount in an unknown unit", REFERENCE,
    "UPDATE recipe_line SET unit = 'stone' WHERE id = 1" },
  { "a line weighed by eye", CHECK, "UPDATE recipe_line SET weighed = 'eye' WHERE id = 1" },
  { "an own yield of 0", CHECK, "UPDATE recipe_line SET yield_pct_micro = 0 WHERE id = 1" },
  { "an own yield above 1000", CHECK,
    "UPDATE recipe_line SET yield_pct_micro = 1000000001 WHERE id = 1" },
  { "an own yield of what is weighed whole", CHECK,
    "UPDATE recipe_line SET yield_pct_micro = 50000000 WHERE id = 2" },
  { "all of a line recovered", CHECK,
    "UPDATE recipe_line SET recovered_pct_micro = 100000000 WHERE id = 1" },
  { "less than nothing recovered", CHECK,
    "UPDATE recipe_line SET recovered_pct_micro = -1 WHERE id = 1" },

  { "two yield tests of one name", UNIQUE,
    "INSERT INTO yield_test (test, item, date, purchased_g_micro, usable_g_micro)"
    " VALUES ('lot 7', 1, '2026-02-02', 1, 1)" },
  { "a yield test of no item", REFERENCE, "UPDATE yield_test SET item = 9" },
  { "a yield test on no day", CHECK, "UPDATE yield_test SET date = '2025-02-29'" },
  { "a yield test of less than nothing", CHECK, "UPDATE yield_test SET purchased_g_micro = -1" },
  { "a yield below nothing", CHECK, "UPDATE yield_test SET usable_g_micro = -1" },
  { "a part of no yield test", REFERENCE, "UPDATE yield_test_part SET yield_test = 2" },
  { "a part that is no output", REFERENCE, "UPDATE yield_test_part SET output = 1" },
  { "a part weighed twice", UNIQUE,
    "INSERT INTO yield_test_part (yield_test, output, weight_g_micro) VALUES (1, 2, 1)" },
  { "a part of less than nothing", CHECK, "UPDATE yield_test_part SET weight_g_micro = -1" },

  { "a sale of nothing known", REFERENCE, "UPDATE sale SET thing = 9" },
  { "a sale on no day", CHECK, "UPDATE sale SET date = '2026-02-31'" },
  { "a sale of a plate and of words", CHECK, "UPDATE sale SET other = 'wine'" },
  { "a sale of neither", CHECK, "UPDATE sale SET thing = NULL" },
  { "a sale of empty words", CHECK, "UPDATE sale SET thing = NULL, other = ''" },
  { "a sale without a plate and without revenue", CHECK,
    "UPDATE sale SET thing = NULL, other = 'wine', net_revenue_micro = NULL" },
  { "a count of nothing known", REFERENCE, "UPDATE stock_count SET item = 9" },
  { "a count on no day", CHECK, "UPDATE stock_count SET date = 'March'" },
  { "a count of fewer than none", CHECK, "UPDATE stock_count SET amount_micro = -1" },
  { "a count in an unknown unit", REFERENCE, "UPDATE stock_count SET unit = 'stone'" },
  { "a count at an empty place", CHECK, "UPDATE stock_count SET place = ''" },
  { "a document of no day", CHECK, "UPDATE purchase SET document_date = '2026-02-30'" },
  { "a purchase from nobody known", REFERENCE, "UPDATE purchase SET supplier = 9" },
  { "a purchase of an output", REFERENCE, "UPDATE purchase SET ingredient = 2" },
  { "a purchase on no day", CHECK, "UPDATE purchase SET date = '2026-00-10'" },
  { "a purchase of an unknown kind", CHECK, "UPDATE purchase SET kind = 'drink'" },
  { "a purchase of an amount without a unit", CHECK, "UPDATE purchase SET unit = NULL" },
  { "a purchase in an unknown unit", REFERENCE, "UPDATE purchase SET unit = 'stone'" },
  { "a purchase without a value", NOT_NULL, "UPDATE purchase SET net_value_micro = NULL" },
  { "an adjustment of nothing known", REFERENCE, "UPDATE adjustment SET item = 9" },
  { "an adjustment on no day", CHECK, "UPDATE adjustment SET date = '20260205'" },
  { "an adjustment of an unknown kind", CHECK, "UPDATE adjustment SET kind = 'gift'" },
  { "an adjustment below 0", CHECK, "UPDATE adjustment SET amount_micro = -1" },
  { "an adjustment's value below 0", CHECK, "UPDATE adjustment SET net_value_micro = -1" },
  { "an adjustment of an amount without a unit", CHECK, "UPDATE adjustment SET unit = NULL" },
  { "an adjustment in an unknown unit", REFERENCE, "UPDATE adjustment SET unit = 'stone'" },

  { "one month twice", UNIQUE, "INSERT INTO month (month) VALUES ('2026-01')" },
  { "a gross till below 0", CHECK, "UPDATE month SET till_gross_revenue_micro = -1" },
  { "recipes of no day", CHECK, "UPDATE month SET recipes_on = '2026-02-30'" },
  { "a stock worth less than nothing", CHECK, "UPDATE month SET closing_stock_value_micro = -1" },
  { "late purchases below 0", CHECK, "UPDATE month SET late_estimate_micro = -1" },
  { "a thirteenth month", CHECK, "UPDATE month SET month = '2026-13'" },
  { "a month that is a day", CHECK, "UPDATE month SET month = '2026-01-01'" },
  { "a till below 0", CHECK, "UPDATE month SET till_net_revenue_micro = -1" },
  { "a ledger below 0", CHECK, "UPDATE month SET ledger_purchases_micro = -1" },
  { "a month closed at no time", CHECK, "UPDATE month SET closed_at = 'yesterday'" },
  { "a month closed on the 31st of April", CHECK, "UPDATE month SET closed_at = '2026-04-31'" },
  { "a frozen row of no month", REFERENCE, "UPDATE month_row SET month = 2" },
  { "a frozen row of an unknown kind", CHECK, "UPDATE month_row SET kind = 'bite'" },
  { "a frozen row without a name", CHECK, "UPDATE month_row SET name = ''" },
  { "a frozen part without a kind", CHECK, "UPDATE month_row SET part_kind = NULL" },
  { "a frozen part of an unknown kind", CHECK, "UPDATE month_row SET part_kind = 'labour'" },
  { "a frozen row in an unknown unit", REFERENCE, "UPDATE month_row SET unit = 'stone'" },
  { "a frozen row numbered below 0", CHECK, "UPDATE month_row SET number_micro = -1" },
  { "a frozen row of no day", CHECK, "UPDATE month_row SET date = '2026-02-30'" },
  { "one frozen part twice", UNIQUE,
    "INSERT INTO month_row (month, kind, name, part_kind, part, number_micro)"
    " VALUES (1, 'plate', 'marsh tartlet', 'food', 'samphire', 1000000)" },
  { "one frozen thing twice", UNIQUE,
    "INSERT INTO month_row (month, kind, name) VALUES (1, 'menu', 'tide'), (1, 'menu', 'tide')" },
  { "an act of an unknown verb", CHECK, "UPDATE act SET verb = 'make' WHERE at IS NULL" },
  { "an undo of nothing", CHECK, "UPDATE act SET verb = 'undo' WHERE at IS NULL" },
  { "a change of nothing", CHECK, "INSERT INTO change (act, tbl, row) VALUES (1, 'item', 1)" },

  { "the widest target", SQLITE_OK, "UPDATE plate SET target_pct_micro = 100000000" },
  { "the widest yields", SQLITE_OK,
    "UPDATE ingredient SET trim_yield_pct_micro = 1000000000;"
    "UPDATE recipe_line SET yield_pct_micro = 1000000000 WHERE id = 1;"
    "UPDATE output SET amount_micro = NULL, unit = NULL, yield_pct_micro = 1000000000" },
  { "almost all of a line recovered", SQLITE_OK,
    "UPDATE recipe_line SET recovered_pct_micro = 99999999 WHERE id = 1" },
  { "all fourteen allergens, and nobody's word", SQLITE_OK,
    "UPDATE ingredient SET allergens = 16383; UPDATE ingredient SET allergens = NULL" },
  { "whole batches only, and any part", SQLITE_OK,
    "UPDATE preparation SET smallest_part_micro = 1000000;"
    "UPDATE preparation SET smallest_part_micro = 0" },
  { "a share in pounds", SQLITE_OK,
    "UPDATE output SET amount_micro = NULL, yield_pct_micro = 80000000, unit = 'lb'" },
  { "a by-product of no amount", SQLITE_OK,
    "INSERT INTO item VALUES (3, 'pulp');"
    "INSERT INTO output (id, preparation, role) VALUES (3, 1, 'by-product')" },
  { "one offer without a code beside one with", SQLITE_OK,
    "INSERT INTO offer (ingredient, supplier, pack_count_micro, pack_size_micro, pack_unit)"
    " VALUES (1, 1, 1, 1, 'dozen')" },
  { "what is not to be had", SQLITE_OK, "UPDATE price SET price_micro = NULL" },
  { "a price of its own no more", SQLITE_OK,
    "UPDATE selling_price SET price_micro = NULL, tax_pct_micro = NULL" },
  { "a plate in two choices and in none", SQLITE_OK,
    "INSERT INTO menu_plate (menu, plate, choice) VALUES (2, 1, 'last bite'), (2, 1, NULL)" },
  { "a void", SQLITE_OK, "UPDATE sale SET sold_micro = -1000000, net_revenue_micro = NULL" },
  { "a refund", SQLITE_OK, "UPDATE sale SET sold_micro = 0, net_revenue_micro = -9000000" },
  { "wine", SQLITE_OK, "UPDATE sale SET thing = NULL, other = 'wine'" },
  { "a leap day", SQLITE_OK, "UPDATE sale SET date = '2028-02-29'" },
  { "a month closed on a day", SQLITE_OK, "UPDATE month SET closed_at = '2026-02-01'" },
  { "the same sale twice", SQLITE_OK,
    "INSERT INTO sale (date, thing, sold_micro) SELECT date, thing, sold_micro FROM sale" },
  { "a reference made before what it refers to", SQLITE_OK,
    "INSERT INTO ingredient (id, unit) VALUES (7, 'ml'); INSERT INTO item VALUES (7, 'oil')" },
  { "a name in another case", SQLITE_OK, "UPDATE item SET name = 'Samphire' WHERE id = 2" },
};

typedef struct
{
  CroTestFolder folder;
  sqlite3      *db;
} Fixture;

static int
set_up (void **state)
{
  Fixture *fixture = g_new0 (Fixture, 1);

  fixture->folder = cro_test_folder_new ();
  cro_store_close (cro_test_create (fixture->folder.path));
  cro_test_add_rows (fixture->folder.path);
  fixture->db = cro_test_raw (fixture->folder.path);
  *state = fixture;
  return 0;
}

static int
tear_down (void **state)
{
  Fixture *fixture = *state;

  sqlite3_close (fixture->db);
  cro_test_folder_clear (&fixture->folder);
  g_free (fixture);
  return 0;
}

static void
test_cases (void **state)
{
  sqlite3 *db = ((Fixture *) *state)->db;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      int code;

      cro_test_begin_raw_act (db);
      code = sqlite3_exec (db, cases[i].sql, NULL, NULL, NULL);
      if (code == SQLITE_OK)
        code = sqlite3_exec (db, "COMMIT", NULL, NULL, NULL);
      if (code != cases[i].code)
        fail_msg ("%s: code %d instead of %d (%s)", cases[i].says, code, cases[i].code,
                  sqlite3_errmsg (db));
      if (code != SQLITE_OK)
        cro_test_sql (db, "ROLLBACK");
      else
        {
          /* What was taken is taken out again, so that each case meets the same rows. */
          tear_down (state);
          set_up (state);
          db = ((Fixture *) *state)->db;
        }
    }
}

static gint64
number (sqlite3    *db,
        const char *sql)
{
  sqlite3_stmt *stmt;
  gint64        result;

  assert_int_equal (sqlite3_prepare_v2 (db, sql, -1, &stmt, NULL), SQLITE_OK);
  assert_int_equal (sqlite3_step (stmt), SQLITE_ROW);
  result = sqlite3_column_int64 (stmt, 0);
  sqlite3_finalize (stmt);
  return result;
}

static const struct
{
  const char *says;
  const char *sql; /* counts what must not be */
} invariants[] = {
  { "every table is strict",
    "SELECT count(*) FROM pragma_table_list WHERE type = 'table' AND schema = 'main'"
    " AND NOT strict AND name NOT LIKE 'sqlite%'" },
  { "every table has an id",
    "SELECT count(*) FROM sqlite_schema AS t WHERE type = 'table' AND name NOT LIKE 'sqlite%'"
    " AND NOT EXISTS (SELECT 1 FROM pragma_table_info (t.name) WHERE name = 'id' AND pk = 1)" },
  { "no column is a blob, but for that of pictures, or binary floating point",
    "SELECT count(*) FROM sqlite_schema AS t, pragma_table_info (t.name) AS c"
    " WHERE t.type = 'table' AND t.name NOT LIKE 'sqlite%' AND c.type NOT IN ('INTEGER', 'TEXT')"
    " AND t.name || '.' || c.name <> 'picture.data'" },
  { "no reference does anything by itself",
    "SELECT count(*) FROM sqlite_schema AS t, pragma_foreign_key_list (t.name) AS f"
    " WHERE t.type = 'table' AND (f.on_update <> 'NO ACTION' OR f.on_delete <> 'NO ACTION')" },
  { "every reference to a row that can be deleted has an index to find it by",
    "SELECT count(*) FROM sqlite_schema AS t, pragma_foreign_key_list (t.name) AS f"
    " WHERE t.type = 'table' AND t.name NOT IN ('act', 'change') AND f.\"table\" NOT IN ('unit', 'picture')"
    " AND f.\"from\" <> 'id' AND NOT EXISTS (SELECT 1 FROM pragma_index_list (t.name) AS i,"
    " pragma_index_info (i.name) AS c WHERE c.seqno = 0 AND c.name = f.\"from\")" },
  { "every table but the journal's own, and what never changes, has its three triggers",
    "SELECT count(*) FROM sqlite_schema AS t WHERE type = 'table' AND name NOT LIKE 'sqlite%'"
    " AND name NOT IN ('act', 'change', 'picture') AND 3 <> (SELECT count(*) FROM sqlite_schema"
    " WHERE type = 'trigger' AND tbl_name = t.name AND name LIKE 'journal~_%' ESCAPE '~')" },
};

static void
test_invariants (void **state)
{
  sqlite3 *db = ((Fixture *) *state)->db;

  for (gsize i = 0; i < G_N_ELEMENTS (invariants); i++)
    if (number (db, invariants[i].sql) != 0)
      fail_msg ("%s", invariants[i].says);
}

static void
test_units_are_the_engine_s (void **state)
{
  sqlite3 *db = ((Fixture *) *state)->db;

  assert_int_equal (number (db, "SELECT count(*) FROM unit"), CRO_N_UNITS);
  for (CroUnit unit = 0; unit < CRO_N_UNITS; unit++)
    {
      const CroUnitInfo *info = cro_unit_get (unit);
      char *sql = g_strdup_printf ("SELECT count(*) FROM unit WHERE code = '%s' AND base = '%s'",
                                   info->code, cro_base_codes[info->base]);

      if (number (db, sql) != 1)
        fail_msg ("the unit %s is not in the book as the engine knows it", info->code);
      g_free (sql);
    }
}

static const struct
{
  const char        *table, *column;
  const char *const *codes;
} sets[] = {
  { "unit", "base", cro_base_codes },
  { "ingredient", "unit", cro_base_codes },
  { "book", "speaks", cro_speaks_codes },
  { "book", "price_steps", cro_price_habit_codes },
  { "ingredient", "kind", cro_ingredient_kind_codes },
  { "supplier", "quotes", cro_quote_codes },
  { "preparation", "by_products", cro_rule_codes },
  { "output", "role", cro_role_codes },
  { "recipe_line", "weighed", cro_weighing_codes },
  { "till_name", "kind", cro_till_kind_codes },
  { "purchase", "kind", cro_purchase_kind_codes },
  { "adjustment", "kind", cro_adjustment_kind_codes },
  { "month_row", "kind", cro_frozen_kind_codes },
  { "month_row", "part_kind", cro_frozen_part_codes },
};

/* "CHECK (kind IN ('food', 'disposable'))", without the line breaks of the schema. */
static char *
dup_check (const char        *column,
           const char *const *codes)
{
  char *list = g_strjoinv ("','", (char **) codes);
  char *check = g_strdup_printf ("CHECK(%sIN('%s'))", column, list);
  char **parts = g_strsplit (check, " ", -1);
  char *text = g_strjoinv ("", parts);

  g_strfreev (parts);
  g_free (check);
  g_free (list);
  return text;
}

static void
test_sets_of_words_are_the_engine_s (void **state)
{
  sqlite3 *db = ((Fixture *) *state)->db;

  for (gsize i = 0; i < G_N_ELEMENTS (sets); i++)
    {
      char *check = dup_check (sets[i].column, sets[i].codes);
      char *sql = sqlite3_mprintf ("SELECT count(*) FROM sqlite_schema WHERE type = 'table'"
                                   " AND name = %Q AND instr (replace (replace (sql, ' ', ''),"
                                   " char (10), ''), %Q)", sets[i].table, check);

      if (number (db, sql) != 1)
        fail_msg ("%s.%s does not take the words of cro-code.c", sets[i].table, sets[i].column);
      sqlite3_free (sql);
      g_free (check);
    }
}

static void
test_allergens_are_the_engine_s (void **state)
{
  sqlite3 *db = ((Fixture *) *state)->db;
  char    *all = g_strdup_printf ("UPDATE ingredient SET allergens = %u", CRO_ALLERGENS_ALL);
  char    *unknown = g_strdup_printf ("UPDATE ingredient SET allergens = %u",
                                      CRO_ALLERGENS_NOT_KNOWN);

  cro_test_begin_raw_act (db);
  assert_int_equal (sqlite3_exec (db, all, NULL, NULL, NULL), SQLITE_OK);
  assert_int_equal (sqlite3_exec (db, unknown, NULL, NULL, NULL), CHECK);
  cro_test_sql (db, "ROLLBACK");
  g_free (all);
  g_free (unknown);
}

static void
test_rows_stand (void **state)
{
  sqlite3 *db = ((Fixture *) *state)->db;

  assert_int_equal (number (db, "SELECT count(*) FROM pragma_integrity_check"
                                " WHERE integrity_check <> 'ok'"), 0);
  assert_int_equal (number (db, "SELECT count(*) FROM pragma_foreign_key_check"), 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (test_rows_stand, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_cases, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_invariants, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_units_are_the_engine_s, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_sets_of_words_are_the_engine_s, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_allergens_are_the_engine_s, set_up, tear_down),
  };

  return cmocka_run_group_tests_name ("what the tables take and refuse", tests, NULL, NULL);
}
