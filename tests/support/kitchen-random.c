#include "kitchen-random.h"

#define N_INGREDIENTS 12
#define N_PREPARATIONS 10
#define N_PLATES CRO_TEST_RANDOM_PLATES

static int
draw (GRand *rand,
      int    least,
      int    most)
{
  return g_rand_int_range (rand, least, most + 1);
}

/* "NULL", or a number drawn, in millionths. */
static const char *
maybe (GRand *rand,
       int    chances,
       int    least,
       int    most)
{
  static char text[4][32];
  static int next;
  char *number = text[next++ % 4];

  if (draw (rand, 1, chances) > 1)
    return "NULL";
  g_snprintf (number, sizeof text[0], "%d000000", draw (rand, least, most));
  return number;
}

/* Lines that take items below a number. */
static void
add_lines (GString    *sql,
           GRand      *rand,
           const char *into,
           int         parent,
           int         below)
{
  static const char *const units[] = { "g", "kg", "ml", "each" };

  for (int i = draw (rand, 2, 4); i > 0; i--)
    g_string_append_printf (sql, "INSERT INTO recipe_line (%s, position_micro, item, amount_micro,"
                                 " unit, yield_pct_micro, recovered_pct_micro) VALUES (%d,"
                                 " %d000000, %d, %d000000, '%s', %s, %s);", into, parent, i,
                            draw (rand, 1, below - 1), draw (rand, 1, 900),
                            units[draw (rand, 0, 3)], maybe (rand, 4, 40, 120),
                            maybe (rand, 6, 10, 90));
}

/* One in eight gives no amount: then its cost is missing. */
static void
add_output (GString *sql,
            GRand   *rand,
            int      item,
            int      preparation,
            gboolean is_main)
{
  gboolean by_yield = draw (rand, 0, 2) == 0;
  gboolean is_known = draw (rand, 1, 8) > 1;

  g_string_append_printf (sql, "INSERT INTO item VALUES (%d, 'output %d');"
                               "INSERT INTO output (id, preparation, role, amount_micro, unit,"
                               " yield_pct_micro, value_micro, density_g_per_ml_micro,"
                               " piece_g_micro) VALUES (%d, %d, '%s', %s, 'g', %s, %s, 1100000,"
                               " 30000000);", item, item, item, preparation,
                          is_main ? "main" : "by-product",
                          is_known && !by_yield ? maybe (rand, 1, 200, 900) : "NULL",
                          is_known && by_yield ? maybe (rand, 1, 20, 130) : "NULL",
                          maybe (rand, 1, 1, 9));
}

static void
add_ingredient (GString *sql,
                GRand   *rand,
                int      item)
{
  static const char *const units[] = { "g", "ml", "each" };

  g_string_append_printf (sql, "INSERT INTO item VALUES (%d, 'ingredient %d');"
                               "INSERT INTO ingredient (id, kind, unit, trim_yield_pct_micro,"
                               " density_g_per_ml_micro, piece_g_micro) VALUES (%d, '%s', '%s', %s,"
                               " 900000, 50000000);"
                               "INSERT INTO offer (id, ingredient, supplier, pack_count_micro,"
                               " pack_size_micro, pack_unit) VALUES (%d, %d, 1, 1000000, 1000000,"
                               " 'kg');"
                               "INSERT INTO price (offer, from_date, price_micro,"
                               " tax_included_pct_micro) VALUES (%d, '2026-01-05', %d000000, %s);",
                          item, item, item, draw (rand, 1, 8) == 1 ? "disposable" : "food",
                          units[draw (rand, 0, 2)], maybe (rand, 2, 40, 120), item, item, item,
                          draw (rand, 1, 60), maybe (rand, 3, 5, 25));
}

char *
cro_test_random_rows (GRand *rand)
{
  static const char *const rules[] = { "free", "weight", "value", "credit" };
  GString *sql = g_string_new ("INSERT INTO supplier (id, name) VALUES (1, 'Market');");
  int item = 1;

  while (item <= N_INGREDIENTS)
    add_ingredient (sql, rand, item++);
  for (int i = 1; i <= N_PREPARATIONS; i++)
    {
      g_string_append_printf (sql, "INSERT INTO preparation (id, name, by_products) VALUES (%d,"
                                   " 'preparation %d', '%s');", i, i, rules[draw (rand, 0, 3)]);
      add_lines (sql, rand, "preparation", i, item);
      add_output (sql, rand, item++, i, TRUE);
      if (draw (rand, 0, 1) == 0)
        add_output (sql, rand, item++, i, FALSE);
    }
  for (int i = 1; i <= N_PLATES; i++)
    {
      g_string_append_printf (sql, "INSERT INTO thing VALUES (%d, 'plate %d');"
                                   "INSERT INTO plate (id, makes_micro, per_guest_micro,"
                                   " allowance_pct_micro) VALUES (%d, %d000000, %s, %s);", i, i, i,
                              draw (rand, 1, 40), maybe (rand, 2, 1, 3), maybe (rand, 2, 1, 5));
      add_lines (sql, rand, "plate", i, item);
    }
  return g_string_free (sql, FALSE);
}

CroBook *
cro_test_book_with (CroTestFolder *folder,
                    const char    *rows)
{
  sqlite3 *db;

  *folder = cro_test_folder_new ();
  cro_store_close (cro_test_create (folder->path));
  db = cro_test_raw (folder->path);
  cro_test_begin_raw_act (db);
  cro_test_sql (db, rows);
  cro_test_end_raw_act (db);
  sqlite3_close (db);
  return cro_test_book_open (folder->path, "cook");
}
