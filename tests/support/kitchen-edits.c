#include "kitchen-edits.h"

#include "cro-decimal.h"
#include "cro-refusal.h"

typedef enum
{
  DECIMAL,      /* above 0 */
  PCT,          /* in (0, 100) */
  CHOICE,
  UNIT,
  DAY,
  CURRENCY,
  NAME,
  FLAG,
  MASK,
  PLACE,        /* a small whole number, often one that is taken */
  REFERENCE,
} Kind;

typedef struct
{
  const char *table;
  const char *column;
  Kind        kind;
  gboolean    may_be_empty;
  const char *of;           /* the table referred to, or the choices */
} Column;

static const Column columns[] = {
  { "book", "currency", CURRENCY, FALSE, NULL },
  { "book", "wage_per_hour_micro", DECIMAL, TRUE, NULL },
  { "book", "tax_pct_micro", PCT, TRUE, NULL },
  { "book", "target_pct_micro", PCT, TRUE, NULL },
  { "book", "stale_after_days_micro", DECIMAL, TRUE, NULL },
  { "item", "name", NAME, FALSE, NULL },
  { "ingredient", "kind", CHOICE, FALSE, "food food food disposable" },
  { "ingredient", "unit", CHOICE, FALSE, "g g ml each" },
  { "ingredient", "density_g_per_ml_micro", DECIMAL, TRUE, NULL },
  { "ingredient", "piece_g_micro", DECIMAL, TRUE, NULL },
  { "ingredient", "trim_yield_pct_micro", PCT, TRUE, NULL },
  { "ingredient", "allergens", MASK, TRUE, NULL },
  { "supplier", "name", NAME, FALSE, NULL },
  { "offer", "ingredient", REFERENCE, FALSE, "ingredient" },
  { "offer", "supplier", REFERENCE, FALSE, "supplier" },
  { "offer", "code", CHOICE, FALSE, "A B C D" },
  { "offer", "pack_count_micro", DECIMAL, FALSE, NULL },
  { "offer", "pack_size_micro", DECIMAL, FALSE, NULL },
  { "offer", "pack_unit", UNIT, FALSE, NULL },
  { "offer", "net_pct_micro", PCT, TRUE, NULL },
  { "offer", "currency", CURRENCY, TRUE, NULL },
  { "offer", "preferred", FLAG, FALSE, NULL },
  { "offer", "until", DAY, TRUE, NULL },
  { "price", "offer", REFERENCE, FALSE, "offer" },
  { "price", "from_date", DAY, FALSE, NULL },
  { "price", "price_micro", DECIMAL, FALSE, NULL },
  { "price", "tax_included_pct_micro", PCT, TRUE, NULL },
  { "price", "pack_count_micro", DECIMAL, TRUE, NULL },
  { "price", "pack_size_micro", DECIMAL, TRUE, NULL },
  { "price", "pack_unit", UNIT, TRUE, NULL },
  { "price_answer", "offer", REFERENCE, FALSE, "offer" },
  { "price_answer", "from_date", DAY, FALSE, NULL },
  { "price_answer", "price_micro", DECIMAL, FALSE, NULL },
  { "price_answer", "answered_on", DAY, TRUE, NULL },
  { "price_answer", "pack_count_micro", DECIMAL, TRUE, NULL },
  { "price_answer", "pack_size_micro", DECIMAL, TRUE, NULL },
  { "price_answer", "pack_unit", UNIT, TRUE, NULL },
  { "price_answer", "currency", CURRENCY, TRUE, NULL },
  { "rate", "currency", CURRENCY, FALSE, NULL },
  { "rate", "from_date", DAY, FALSE, NULL },
  { "rate", "rate_micro", DECIMAL, FALSE, NULL },
  { "rate", "per_micro", DECIMAL, TRUE, NULL },
  { "preparation", "name", NAME, FALSE, NULL },
  { "preparation", "by_products", CHOICE, FALSE, "free weight value credit" },
  { "preparation", "active_minutes_micro", DECIMAL, TRUE, NULL },
  { "preparation", "smallest_part_micro", FLAG, TRUE, NULL },
  { "output", "preparation", REFERENCE, FALSE, "preparation" },
  { "output", "role", CHOICE, FALSE, "main by-product" },
  { "output", "amount_micro", DECIMAL, TRUE, NULL },
  { "output", "unit", UNIT, FALSE, NULL },
  { "output", "yield_pct_micro", PCT, TRUE, NULL },
  { "output", "value_micro", DECIMAL, TRUE, NULL },
  { "output", "density_g_per_ml_micro", DECIMAL, TRUE, NULL },
  { "output", "piece_g_micro", DECIMAL, TRUE, NULL },
  { "thing", "name", NAME, FALSE, NULL },
  { "plate", "course", NAME, TRUE, NULL },
  { "plate", "makes_micro", DECIMAL, FALSE, NULL },
  { "plate", "per_guest_micro", DECIMAL, TRUE, NULL },
  { "plate", "price_micro", DECIMAL, TRUE, NULL },
  { "plate", "tax_pct_micro", PCT, TRUE, NULL },
  { "plate", "target_pct_micro", PCT, TRUE, NULL },
  { "plate", "allowance_pct_micro", PCT, TRUE, NULL },
  { "plate", "active_minutes_micro", DECIMAL, TRUE, NULL },
  { "menu", "price_micro", DECIMAL, TRUE, NULL },
  { "menu", "tax_pct_micro", PCT, TRUE, NULL },
  { "menu", "target_pct_micro", PCT, TRUE, NULL },
  { "menu_plate", "menu", REFERENCE, FALSE, "menu" },
  { "menu_plate", "plate", REFERENCE, FALSE, "plate" },
  { "menu_plate", "servings_micro", DECIMAL, TRUE, NULL },
  { "menu_plate", "position_micro", PLACE, TRUE, NULL },
  { "recipe_line", "preparation", REFERENCE, FALSE, "preparation" },
  { "recipe_line", "plate", REFERENCE, FALSE, "plate" },
  { "recipe_line", "position_micro", PLACE, FALSE, NULL },
  { "recipe_line", "item", REFERENCE, FALSE, "item" },
  { "recipe_line", "amount_micro", DECIMAL, FALSE, NULL },
  { "recipe_line", "unit", UNIT, FALSE, NULL },
  { "recipe_line", "weighed", CHOICE, FALSE, "trimmed trimmed whole" },
  { "recipe_line", "yield_pct_micro", PCT, TRUE, NULL },
  { "recipe_line", "recovered_pct_micro", PCT, TRUE, NULL },
  { "yield_test", "test", NAME, FALSE, NULL },
  { "yield_test", "item", REFERENCE, FALSE, "item" },
  { "yield_test", "date", DAY, FALSE, NULL },
  { "yield_test", "purchased_g_micro", DECIMAL, FALSE, NULL },
  { "yield_test", "usable_g_micro", DECIMAL, FALSE, NULL },
  { "yield_test_part", "yield_test", REFERENCE, FALSE, "yield_test" },
  { "yield_test_part", "output", REFERENCE, FALSE, "output" },
  { "yield_test_part", "weight_g_micro", DECIMAL, FALSE, NULL },
  { "sale", "date", DAY, FALSE, NULL },
  { "sale", "thing", REFERENCE, FALSE, "thing" },
  { "sale", "sold_micro", DECIMAL, FALSE, NULL },
  { "till_name", "name", NAME, FALSE, NULL },
  { "till_name", "kind", CHOICE, FALSE, "plate other none" },
  { "stock_count", "date", DAY, FALSE, NULL },
  { "stock_count", "item", REFERENCE, FALSE, "item" },
  { "stock_count", "amount_micro", DECIMAL, FALSE, NULL },
  { "stock_count", "unit", UNIT, FALSE, NULL },
  { "purchase", "date", DAY, FALSE, NULL },
  { "purchase", "ingredient", REFERENCE, TRUE, "ingredient" },
  { "purchase", "net_value_micro", DECIMAL, FALSE, NULL },
  { "adjustment", "date", DAY, FALSE, NULL },
  { "adjustment", "kind", CHOICE, FALSE, "waste promotion other" },
  { "adjustment", "item", REFERENCE, TRUE, "item" },
  { "month", "month", CHOICE, FALSE, "2025-10 2025-11 2025-12" },
  { "month_row", "month", REFERENCE, FALSE, "month" },
  { "month_row", "kind", CHOICE, FALSE, "plate menu" },
  { "month_row", "name", NAME, FALSE, NULL },
};

/* Most of the time one that a figure hangs on: those come first. */
static const Column *
draw_column (GRand *rand)
{
  gsize n = 0;

  while (strcmp (columns[n].table, "yield_test") != 0)
    n++;
  return &columns[g_rand_int_range (rand, 0, g_rand_int_range (rand, 0, 8) == 0
                                                 ? (gint32) G_N_ELEMENTS (columns)
                                                 : (gint32) n)];
}

/* --- Values ----------------------------------------------------------------------------------- */

static gint64
draw_id (CroBook    *book,
         GRand      *rand,
         const char *table)
{
  static const char *const id[] = { "id", NULL };
  GError *error = NULL;
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (book), table, id, &error);
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (gint64));

  cro_test_must (rows != NULL, error);
  while (cro_rows_next (rows, NULL))
    {
      gint64 value = cro_rows_get_int (rows, 0);

      g_array_append_val (ids, value);
    }
  if (ids->len == 0)
    return 0;
  return g_array_index (ids, gint64, g_rand_int_range (rand, 0, (gint32) ids->len));
}

static const char *
draw_word (GRand      *rand,
           const char *words)
{
  g_auto (GStrv) all = g_strsplit (words, " ", 0);

  return g_intern_string (all[g_rand_int_range (rand, 0, (gint32) g_strv_length (all))]);
}

static CroCell
draw_cell (CroBook      *book,
           GRand        *rand,
           const Column *column)
{
  static const gint64 decimals[] = { 1, 250000, 333333, 1000000, 1500000, 2000000, 7000000,
                                     24000000, 60000000, 123456789, 1000000000 };
  char day[CRO_DATE_CHARS];

  if (column->may_be_empty && g_rand_int_range (rand, 0, 4) == 0)
    return CRO_CELL_NONE;
  switch (column->kind)
    {
    case DECIMAL:
      return CRO_CELL_INT (decimals[g_rand_int_range (rand, 0, G_N_ELEMENTS (decimals))]);
    case PCT:
      return CRO_CELL_INT (g_rand_int_range (rand, 1, 999) * (CRO_MICRO / 10));
    case CHOICE:
      return CRO_CELL_STR (draw_word (rand, column->of));
    case UNIT:
      return CRO_CELL_STR (draw_word (rand, "g g g kg kg ml l tsp each"));
    case DAY:
      cro_date_format (CRO_TEST_DAY - g_rand_int_range (rand, -5, 40), day);
      return CRO_CELL_STR (g_intern_string (day));
    case CURRENCY:
      return CRO_CELL_STR (draw_word (rand, "EUR EUR GBP NOK"));
    case NAME:
      return CRO_CELL_STR (draw_word (rand, "samphire purslane crab shrimp gel cream salt dill oil "
                                            "brine sorrel clam mullet eel whelk leek"));
    case FLAG:
      return CRO_CELL_INT (g_rand_int_range (rand, 0, 2));
    case MASK:
      return CRO_CELL_INT (g_rand_int_range (rand, 0, 16384));
    case PLACE:
      return CRO_CELL_INT (g_rand_int_range (rand, 1, 7) * CRO_MICRO);
    default:
      return CRO_CELL_INT (draw_id (book, rand, column->of));
    }
}

gboolean
cro_test_draw_edit (CroBook     *book,
                    GRand       *rand,
                    CroTestEdit *edit)
{
  const Column *column = draw_column (rand);

  *edit = (CroTestEdit){ column->table, draw_id (book, rand, column->table), column->column,
                         CRO_CELL_NONE };
  if (edit->id == 0)
    return FALSE;
  edit->cell = draw_cell (book, rand, column);
  return TRUE;
}

/* --- Acts --------------------------------------------------------------------------------------- */

static gboolean
update (CroBook  *book,
        GRand    *rand,
        GError  **error)
{
  CroTestEdit edit;
  const char *names[] = { NULL, NULL };

  if (!cro_test_draw_edit (book, rand, &edit))
    return TRUE;
  names[0] = edit.column;
  return cro_store_update (cro_book_get_store (book), edit.table, edit.id, names, &edit.cell,
                           error);
}

static gboolean
insert_row (CroBook     *book,
            GRand       *rand,
            const char  *table,
            gint64       id,
            GError     **error)
{
  const char *names[16];
  CroCell cells[16];
  guint n = 0;
  gboolean into_plate = g_rand_boolean (rand);
  g_autoptr (CroWriter) writer = NULL;

  if (id != 0)
    {
      names[n] = "id";
      cells[n++] = CRO_CELL_INT (id);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (columns); i++)
    if (strcmp (columns[i].table, table) == 0
        && strcmp (columns[i].column, strcmp (table, "recipe_line") != 0 ? "" : into_plate
                                      ? "preparation" : "plate") != 0)
      {
        names[n] = columns[i].column;
        cells[n++] = draw_cell (book, rand, &columns[i]);
      }
  names[n] = NULL;
  writer = cro_writer_new (cro_book_get_store (book), table, names, error);
  return writer != NULL && cro_writer_insert (writer, cells, NULL, error);
}

/* A name and what bears it. */
static gboolean
insert_named (CroBook     *book,
              GRand       *rand,
              const char  *base,
              const char  *table,
              GError     **error)
{
  static const char *const name[] = { "name", NULL };
  g_autofree char *text = g_strdup_printf ("%s %u", table, g_rand_int (rand) % 1000);
  CroCell cell = CRO_CELL_STR (text);
  gint64 id;
  g_autoptr (CroWriter) writer = cro_writer_new (cro_book_get_store (book), base, name, error);

  return writer != NULL && cro_writer_insert (writer, &cell, &id, error)
         && insert_row (book, rand, table, id, error);
}

static gboolean
insert (CroBook  *book,
        GRand    *rand,
        GError  **error)
{
  static const char *const tables[] = {
    "supplier", "offer", "offer", "price", "price", "price", "price_answer", "rate", "preparation",
    "menu_plate",
    "recipe_line", "recipe_line", "recipe_line", "recipe_line", "yield_test", "yield_test_part",
    "sale", "till_name", "stock_count", "purchase", "adjustment", "month", "month_row",
  };
  static const struct { const char *base, *table; } named[] = {
    { "item", "ingredient" }, { "item", "output" }, { "thing", "plate" }, { "thing", "menu" },
  };
  guint i = (guint) g_rand_int_range (rand, 0, G_N_ELEMENTS (tables) + G_N_ELEMENTS (named));

  if (i < G_N_ELEMENTS (tables))
    return insert_row (book, rand, tables[i], 0, error);
  i -= G_N_ELEMENTS (tables);
  return insert_named (book, rand, named[i].base, named[i].table, error);
}

/* The rows of a table that refer to one of another. */
static GArray *
referring (CroBook      *book,
           const Column *column,
           gint64        id)
{
  const char *names[] = { "id", column->column, NULL };
  GArray *ids = g_array_new (FALSE, FALSE, sizeof (gint64));
  GError *error = NULL;
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (book), column->table, names,
                                             &error);

  cro_test_must (rows != NULL, error);
  while (cro_rows_next (rows, NULL))
    {
      gint64 row = cro_rows_get_int (rows, 0);

      if (cro_rows_get_int (rows, 1) == id)
        g_array_append_val (ids, row);
    }
  return ids;
}

/* With all that refers to it, at any depth. */
static gboolean
remove_whole (CroBook     *book,
              const char  *table,
              gint64       id,
              GError     **error)
{
  for (gsize i = 0; i < G_N_ELEMENTS (columns); i++)
    if (columns[i].kind == REFERENCE && strcmp (columns[i].of, table) == 0)
      {
        g_autoptr (GArray) ids = referring (book, &columns[i], id);

        for (guint k = 0; k < ids->len; k++)
          if (!remove_whole (book, columns[i].table, g_array_index (ids, gint64, k), error))
            return FALSE;
      }
  return cro_store_delete (cro_book_get_store (book), table, id, error);
}

/* With its name, or, where that goes on, without: then it may come back as the other kind. */
static gboolean
remove_row (CroBook  *book,
            GRand    *rand,
            GError  **error)
{
  static const struct { const char *table, *base, *other; } kinds[] = {
    { "ingredient", "item", "output" }, { "output", "item", "ingredient" },
    { "plate", "thing", "menu" },       { "menu", "thing", "plate" },
  };
  const char *table = draw_column (rand)->table;
  gint64 id = draw_id (book, rand, table);
  gboolean whole = g_rand_boolean (rand);

  if (id == 0 || strcmp (table, "book") == 0)
    return TRUE;
  if (!(whole ? remove_whole (book, table, id, error)
              : cro_store_delete (cro_book_get_store (book), table, id, error)))
    return FALSE;
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (strcmp (kinds[i].table, table) == 0)
      switch (g_rand_int_range (rand, 0, 3))
        {
        case 0:
          return remove_whole (book, kinds[i].base, id, error);
        case 1:
          return insert_row (book, rand, kinds[i].other, id, error);
        default:
          return TRUE;
        }
  return TRUE;
}

/* What is refused must be refused by a rule, or as a cycle. */
static gboolean
end_act (CroBook  *book,
         gboolean  done,
         GError   *error)
{
  if (!done)
    cro_book_cancel_act (book);
  else
    done = cro_book_end_act (book, &error);
  if (!done && (error == NULL || error->domain != CRO_REFUSAL)
      && !g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE)
      && !g_error_matches (error, CRO_BOOK_ERROR, CRO_BOOK_ERROR_CYCLE))
    fail_msg ("%s", error->message);
  g_clear_error (&error);
  return done;
}

gboolean
cro_test_random_act (CroBook *book,
                     GRand   *rand)
{
  GError *error = NULL;
  int n = g_rand_int_range (rand, 1, 4);
  gboolean done = TRUE;

  cro_test_must (cro_book_begin_act (book, "edits", &error), error);
  for (int i = 0; done && i < n; i++)
    switch (g_rand_int_range (rand, 0, 6))
      {
      case 0:
        done = remove_row (book, rand, &error);
        break;
      case 1:
      case 2:
        done = insert (book, rand, &error);
        break;
      default:
        done = update (book, rand, &error);
        break;
      }
  return end_act (book, done, error);
}

gboolean
cro_test_random_removal (CroBook *book,
                         GRand   *rand)
{
  GError *error = NULL;
  const char *table = draw_column (rand)->table;
  gint64 id;
  gboolean done;

  cro_test_must (cro_book_begin_act (book, "removal", &error), error);
  id = draw_id (book, rand, table);
  done = id == 0 || remove_whole (book, table, id, &error);
  return end_act (book, done, error);
}
