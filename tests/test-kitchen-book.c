/* One open book: what is shown before it is written, what is refused, and what others write. */
#include "cro-breakdown.h"
#include "cro-history.h"
#include "cro-refusal.h"
#include "support/book-hands.h"
#include "support/statements.h"

#include <sys/wait.h>
#include <unistd.h>

/* --- The price of an offer ----------------------------------------------------------------------- */

static guint32
offer_slot (Fixture    *fixture,
            const char *item,
            const char *code)
{
  CroModel *model = cro_book_get_model (fixture->book);

  for (guint32 i = 0; i < model->offers->len; i++)
    if (strcmp (cro_model_offer (model, i)->code, code) == 0
        && strcmp (cro_model_item (model, cro_model_offer (model, i)->item)->name, item) == 0)
      return i;
  fail_msg ("no offer %s of %s", code, item);
  return 0;
}

/* The act that follows a preview: a price of the day, tax and pack as they are in force. */
static void
write_price (Fixture             *fixture,
             const CroOfferEntry *entry,
             gint64               price)
{
  static const char *const columns[] = {
    "offer", "from_date", "price_micro", "tax_included_pct_micro", "pack_count_micro",
    "pack_size_micro", "pack_unit", NULL
  };
  const CroCell cells[] = {
    CRO_CELL_INT (entry->id),
    CRO_CELL_STR ("2026-02-16"),
    CRO_CELL_INT (price),
    CRO_CELL_INT (entry->offer.tax_included),
    CRO_CELL_INT (entry->offer.pack_count),
    CRO_CELL_INT (entry->offer.pack_size),
    CRO_CELL_STR (cro_unit_get (entry->offer.pack_unit)->code),
  };
  CroStore *store = cro_book_get_store (fixture->book);
  GError *error = NULL;

  cro_test_must (cro_book_begin_act (fixture->book, "price", &error), error);
  if (entry->offer.has_price && entry->offer.from == CRO_TEST_DAY)
    cro_test_must (cro_store_update (store, "price", entry->price_id, columns, cells, &error), error);
  else
    {
      g_autoptr (CroWriter) writer = cro_writer_new (store, "price", columns, &error);

      cro_test_must (cro_writer_insert (writer, cells, NULL, &error), error);
    }
  cro_test_must (cro_book_end_act (fixture->book, &error), error);
}

static void
test_price (void **state)
{
  static const struct { const char *says, *item, *code; gint64 price; } cases[] = {
    { "a price that has a pack and a tax of its own", "Crab", "101", 70000000 },
    { "an offer that never had a price", "Crab", "", 11000000 },
    { "a price of today", "Salt", "", 4500000 },
    { "a gift", "Salt", "", 0 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      Fixture *fixture = *state;
      guint32 slot = offer_slot (fixture, cases[i].item, cases[i].code);
      CroOfferEntry entry;
      g_autofree char *before = cro_test_figures (fixture->book);
      g_autofree char *shown = NULL;
      g_autofree char *restored = NULL;
      g_autofree char *written = NULL;
      GError *error = NULL;

      cro_test_must (cro_book_preview_price (fixture->book, slot, 1, &error), error);
      cro_test_must (cro_book_preview_price (fixture->book, slot, cases[i].price, &error), error);
      shown = cro_test_figures (fixture->book);
      if (strcmp (before, shown) == 0)
        fail_msg ("%s: a preview moves figures", cases[i].says);
      cro_test_must (cro_book_restore (fixture->book, &error), error);
      restored = cro_test_figures (fixture->book);
      cro_test_same (cases[i].says, before, restored);

      entry = *cro_model_offer (cro_book_get_model (fixture->book), slot);
      write_price (fixture, &entry, cases[i].price);
      written = cro_test_figures (fixture->book);
      cro_test_same (cases[i].says, shown, written);
      must_be_fresh (cases[i].says, fixture->book);
    }
}

/* The credit is above what the batch costs where the crab is cheap: whether it is is compared again where the batch
 * is summed anew, and nowhere else. */
static void
test_credit (void **state)
{
  static const gint64 prices[] = { 1, 90000000, 2, 3 };
  Fixture *fixture = *state;
  const CroCell credit = CRO_CELL_STR ("credit"), value = CRO_CELL_INT (1000);
  guint32 slot = offer_slot (fixture, "Crab", "101");
  GError *error = NULL;

  cro_test_must (cro_book_set (fixture->book, "rule", "preparation", id_of (fixture, "preparation", "Stock"),
                               "by_products", &credit, &error), error);
  must_be_fresh ("a batch that is credited", fixture->book);
  cro_test_must (cro_book_set (fixture->book, "value", "output", id_of (fixture, "item", "Shells"), "value_micro",
                               &value, &error), error);
  must_be_fresh ("with a value", fixture->book);
  for (gsize i = 0; i < G_N_ELEMENTS (prices); i++)
    {
      CroOfferEntry entry = *cro_model_offer (cro_book_get_model (fixture->book), slot);
      gboolean exceeds = FALSE;

      write_price (fixture, &entry, prices[i]);
      for (guint32 row = 0; row < cro_book_get_figures (fixture->book)->graph.n_rows; row++)
        exceeds |= cro_figures_credit_exceeds (cro_book_get_figures (fixture->book), row);
      assert_int_equal (exceeds, prices[i] < 1000);
      must_be_fresh ("after a price", fixture->book);
    }
}

/* --- Any row of a history ------------------------------------------------------------------------ */

static void
insert_selling (Fixture    *fixture,
                const char *from,
                gint64      price)
{
  static const char *const columns[] = { "thing", "from_date", "price_micro", "tax_pct_micro", NULL };
  const CroCell cells[] = { CRO_CELL_INT (id_of (fixture, "thing", "Croustade")),
                            CRO_CELL_STR (from), CRO_CELL_INT (price), CRO_CELL_INT (10000000) };
  GError *error = NULL;
  g_autoptr (CroWriter) writer = NULL;

  cro_test_must (cro_book_begin_act (fixture->book, "selling price", &error), error);
  writer = cro_writer_new (cro_book_get_store (fixture->book), "selling_price", columns, &error);
  cro_test_must (cro_writer_insert (writer, cells, NULL, &error), error);
  cro_test_must (cro_book_end_act (fixture->book, &error), error);
}

/* With what the croustade is sold for, on which no figure that is kept hangs. */
static char *
figures_and_net (CroBook *book)
{
  CroModel *model = cro_book_get_model (book);
  g_autofree char *figures = cro_test_figures (book);
  GString *text = g_string_new (figures);

  for (guint32 i = 0; i < model->recipes->len; i++)
    if (cro_model_recipe (model, i)->is_plate)
      g_string_append_printf (text, "net %.17g\n",
                              cro_figure_of_plate (cro_book_get_figures (book), i).net_price);
  return g_string_free (text, FALSE);
}

/* Of the crab's two prices the newer says that it is not to be had, so that the older serves as last
 * price (costing.md, "What an ingredient costs"); of the croustade's the newer is in force. */
static void
test_preview_of_a_history_is_the_act (void **state)
{
  static const struct
  {
    const char *says;
    const char *table;
    gint64      id;
    const char *column;
    CroCell     cell;
    gboolean    is_moved;
  } cases[] = {
    { "the price that serves as last price", "price", 1, "price_micro",
      CRO_CELL_INT (48000000), TRUE },
    { "its tax", "price", 1, "tax_included_pct_micro", CRO_CELL_INT (20000000), TRUE },
    { "its pack", "price", 1, "pack_size_micro", CRO_CELL_INT (4000000), TRUE },
    { "without it there is none", "price", 1, "price_micro", CRO_CELL_NONE, TRUE },
    { "a day that has not come", "price", 1, "from_date", CRO_CELL_STR ("2026-03-01"), TRUE },
    { "the newer one is to be had after all", "price", 2, "price_micro",
      CRO_CELL_INT (71000000), TRUE },
    { "and ends nothing yet", "price", 2, "from_date", CRO_CELL_STR ("2026-03-01"), TRUE },
    { "an offer until the day before its price", "offer", 3, "until", CRO_CELL_STR ("2026-02-15"),
      TRUE },
    { "a selling price in force", "selling_price", 5, "price_micro", CRO_CELL_INT (9000000), TRUE },
    { "its tax", "selling_price", 5, "tax_pct_micro", CRO_CELL_INT (25000000), TRUE },
    { "from a day to come: the older holds", "selling_price", 5, "from_date",
      CRO_CELL_STR ("2026-03-01"), TRUE },
    { "one before it is of another day", "selling_price", 4, "price_micro",
      CRO_CELL_INT (9000000), FALSE },
    { "unless it begins later", "selling_price", 4, "from_date", CRO_CELL_STR ("2026-02-12"), TRUE },
  };
  Fixture *fixture = *state;
  CroCell none = CRO_CELL_NONE;
  GError *error = NULL;

  cro_test_must (cro_book_set (fixture->book, "not to be had", "price", 2, "price_micro", &none,
                               &error), error);
  insert_selling (fixture, "2026-01-01", 5000000);
  insert_selling (fixture, "2026-02-10", 6000000);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *before = figures_and_net (fixture->book);
      g_autofree char *shown = NULL, *restored = NULL, *written = NULL;

      cro_test_must (cro_book_preview (fixture->book, cases[i].table, cases[i].id, cases[i].column,
                                       &cases[i].cell, &error), error);
      shown = figures_and_net (fixture->book);
      if ((strcmp (before, shown) != 0) != cases[i].is_moved)
        fail_msg ("%s: the preview %s figures", cases[i].says,
                  cases[i].is_moved ? "moves no" : "moves");
      cro_test_must (cro_book_restore (fixture->book, &error), error);
      restored = figures_and_net (fixture->book);
      cro_test_same (cases[i].says, before, restored);
      cro_test_must (cro_book_set (fixture->book, "history", cases[i].table, cases[i].id,
                                   cases[i].column, &cases[i].cell, &error), error);
      written = figures_and_net (fixture->book);
      cro_test_same (cases[i].says, shown, written);
      must_be_fresh (cases[i].says, fixture->book);
      cro_test_must (cro_book_undo (fixture->book, NULL, &error), error);
    }
}

static void
test_preview_leaves_no_trace (void **state)
{
  Fixture *fixture = *state;
  g_autofree char *before = cro_test_dump (fixture->folder.path);
  g_autofree char *after = NULL;
  CroCell cell = CRO_CELL_INT (1000000);
  GError *error = NULL;

  cro_test_must (cro_book_preview (fixture->book, "recipe_line", line_of (fixture, "Gel"),
                                   "amount_micro", &cell, &error), error);
  cro_test_must (cro_book_preview_price (fixture->book, 0, 1, &error), error);
  after = cro_test_dump (fixture->folder.path);
  cro_test_same ("what is previewed is not written", before, after);
  cell = CRO_CELL_INT (90000000);
  cro_test_must (cro_book_set (fixture->book, "target", "book", 1, "target_pct_micro", &cell,
                               &error), error);
  must_be_fresh ("an act begins without what was previewed", fixture->book);
}

/* Every key that is typed is one. */
static void
test_preview_asks_nothing (void **state)
{
  Fixture *fixture = *state;
  const struct
  {
    const char *table;
    gint64      id;
    const char *column;
  } cases[] = {
    { "recipe_line", line_of (fixture, "Gel"), "amount_micro" },
    { "recipe_line", line_of (fixture, "Gel"), "yield_pct_micro" },
    { "price", 1, "price_micro" },
    { "price", 2, "price_micro" },
    { "price", 2, "tax_included_pct_micro" },
    { "price", 2, "pack_size_micro" },
    { "price", 3, "price_micro" },
    { "offer", 1, "net_pct_micro" },
    { "offer", 1, "pack_size_micro" },
    { "offer", 2, "pack_count_micro" },
    { "ingredient", id_of (fixture, "item", "Crab"), "trim_yield_pct_micro" },
    { "ingredient", id_of (fixture, "item", "Crab"), "density_g_per_ml_micro" },
    { "output", id_of (fixture, "item", "Gel"), "amount_micro" },
    { "plate", id_of (fixture, "thing", "Croustade"), "price_micro" },
  };
  GError *error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      guint before;

      cro_test_must (cro_book_look_at (fixture->book, cases[i].table, cases[i].id, &error), error);
      before = cro_test_statements ();
      for (gint64 key = 1; key <= 3; key++)
        {
          CroCell cell = CRO_CELL_INT (key * 1000000);

          cro_test_must (cro_book_preview (fixture->book, cases[i].table, cases[i].id,
                                           cases[i].column, &cell, &error), error);
        }
      if (strcmp (cases[i].table, "price") == 0)
        {
          CroCell none = CRO_CELL_NONE;

          cro_book_preview (fixture->book, cases[i].table, cases[i].id, cases[i].column, &none, NULL);
        }
      cro_test_must (cro_book_restore (fixture->book, &error), error);
      if (cro_test_statements () != before)
        fail_msg ("three keys in %s of %s and Escape run %u statements", cases[i].column,
                  cases[i].table, cro_test_statements () - before);
      must_be_fresh (cases[i].table, fixture->book);
    }
}

/* --- Acts ------------------------------------------------------------------------------------------------ */

static void
test_refused (void **state)
{
  Fixture *fixture = *state;
  CroStore *store = cro_book_get_store (fixture->book);
  g_autofree char *figures = cro_test_figures (fixture->book);
  g_autofree char *after = NULL;
  g_autofree char *last = NULL;
  CroCell negative = CRO_CELL_INT (-1);
  g_autoptr (GError) error = NULL;

  if (cro_book_set (fixture->book, "price", "plate", id_of (fixture, "thing", "Croustade"),
                    "price_micro", &negative, &error)
      || !g_error_matches (error, CRO_REFUSAL, CRO_FAULT_OUT_OF_RANGE))
    fail_msg ("a price below 0 is refused");
  after = cro_test_figures (fixture->book);
  cro_test_same ("a value that is refused changes nothing", figures, after);

  g_clear_error (&error);
  cro_test_must (cro_book_begin_act (fixture->book, "no crab", &error), error);
  cro_test_must (cro_store_delete (store, "item", id_of (fixture, "item", "Crab"), &error), error);
  if (cro_book_end_act (fixture->book, &error)
      || !g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE))
    fail_msg ("what is referred to cannot go");
  last = cro_test_figures (fixture->book);
  cro_test_same ("a removal that is refused changes nothing", figures, last);
}

/* Removed, and given back in a book that was opened meanwhile: there it stands behind all others,
 * and sums are still made in the order of ids. 0.1 + 0.2 + 0.3 tells the orders apart. */
static void
test_order_of_sums (void **state)
{
  static const struct { const char *says, *kept_by, *table; gint64 id; } cases[] = {
    { "the outputs of a batch, shared by weight", NULL, "output", 4 },
    { "the plates of a menu, all in one place", "menu_plate", "plate", 1 },
  };
  CroTestFolder folder = cro_test_folder_new ();
  CroBook *book;

  cro_test_write_table (folder.folder, "ingredients", "name,unit\nCrab,g\nSalt,g\n");
  cro_test_write_table (folder.folder, "suppliers", "name\nQuay\n");
  cro_test_write_table (folder.folder, "offers",
                        "ingredient,supplier,pack_count,pack_size,pack_unit\nCrab,Quay,1,1,g\n");
  cro_test_write_table (folder.folder, "prices",
                        "ingredient,supplier,from,price\nCrab,Quay,2026-01-05,1\n");
  cro_test_write_table (folder.folder, "preparations", "name,by_products\nStock,weight\n");
  cro_test_write_table (folder.folder, "outputs",
                        "item,preparation,role,amount,unit\nStock,Stock,main,0.1,g\n"
                        "A,Stock,by-product,0.1,g\nB,Stock,by-product,0.2,g\n"
                        "C,Stock,by-product,0.3,g\n");
  cro_test_write_table (folder.folder, "plates", "name,makes\nA plate,1\nB plate,1\nC plate,1\n");
  cro_test_write_table (folder.folder, "menus", "name\nTide\n");
  cro_test_write_table (folder.folder, "menu_plates",
                        "menu,plate\nTide,A plate\nTide,B plate\nTide,C plate\n");
  cro_test_write_table (folder.folder, "lines",
                        "into,parent,position,item,amount,unit\npreparation,Stock,1,Crab,1,g\n"
                        "plate,A plate,1,Crab,0.1,g\nplate,B plate,1,Crab,0.2,g\n"
                        "plate,C plate,1,Crab,0.3,g\n");
  book = cro_test_book_load (&folder);

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *before = cro_test_figures (book);
      g_autofree char *after = NULL;
      CroStore *store = cro_book_get_store (book);
      GError *error = NULL;

      cro_test_must (cro_book_begin_act (book, "less", &error), error);
      if (cases[i].kept_by != NULL)
        cro_test_must (cro_store_delete (store, cases[i].kept_by, 1, &error)
                           && cro_store_delete (store, "recipe_line", 2, &error), error);
      cro_test_must (cro_store_delete (store, cases[i].table, cases[i].id, &error)
                         && cro_store_delete (store, i == 0 ? "item" : "thing", cases[i].id, &error),
                     error);
      cro_test_must (cro_book_end_act (book, &error), error);
      g_object_unref (book);
      book = cro_test_book_open (folder.path, "cook");
      cro_test_must (cro_book_undo (book, NULL, &error), error);
      after = cro_test_figures (book);
      cro_test_same (cases[i].says, before, after);
    }
  g_object_unref (book);
  cro_test_folder_clear (&folder);
}

static void
begin_from_signal_cb (CroBook  *book,
                      gboolean *begun)
{
  CroCell wage = CRO_CELL_INT (21000000);
  GError *error = NULL;

  if (*begun)
    return;
  *begun = TRUE;
  cro_test_must (cro_book_set (book, "wage", "book", 1, "wage_per_hour_micro", &wage, &error),
                 error);
}

static void
test_signals (void **state)
{
  Fixture *fixture = *state;
  CroCell wage = CRO_CELL_INT (20000000);
  gboolean begun = FALSE;
  GError *error = NULL;

  cro_test_must (cro_book_set (fixture->book, "wage", "book", 1, "wage_per_hour_micro", &wage,
                               &error), error);
  if (fixture->n_changed != 1)
    fail_msg ("an act is told once: %u", fixture->n_changed);
  cro_test_must (cro_book_restore (fixture->book, &error), error);
  cro_test_must (cro_book_refresh (fixture->book, NULL, &error), error);
  cro_test_must (cro_book_begin_act (fixture->book, "nothing", &error), error);
  cro_test_must (cro_book_end_act (fixture->book, &error), error);
  if (fixture->n_changed != 1)
    fail_msg ("what moves no figure is not told: %u", fixture->n_changed);

  g_signal_connect (fixture->book, "changed", G_CALLBACK (begin_from_signal_cb), &begun);
  cro_test_must (cro_book_undo (fixture->book, NULL, &error), error);
  if (!begun || fixture->n_changed != 3)
    fail_msg ("who is told may act: the book is at rest then");
  g_signal_handlers_disconnect_by_func (fixture->book, begin_from_signal_cb, &begun);
  must_be_fresh ("after an act from within a signal", fixture->book);
}

/* What is read of the store once for an edition must not be read again at each key. */
static void
test_a_preview_is_told (void **state)
{
  Fixture *fixture = *state;
  guint64 edition = cro_book_get_edition (fixture->book);
  CroCell price = CRO_CELL_INT (71000000);
  GError *error = NULL;

  for (guint key = 1; key <= 3; key++)
    {
      price.integer += 1000000;
      cro_test_must (cro_book_preview (fixture->book, "price", 2, "price_micro", &price, &error),
                     error);
      if (fixture->n_changed != key)
        fail_msg ("key %u is told: %u", key, fixture->n_changed);
    }
  cro_test_must (cro_book_restore (fixture->book, &error), error);
  if (fixture->n_changed != 4)
    fail_msg ("and so is that it is given back: %u", fixture->n_changed);
  if (cro_book_get_edition (fixture->book) != edition)
    fail_msg ("a preview is no edition of the book");
}

/* --- Acts of many rows ------------------------------------------------------------------------------------ */

/* So many that all prices are read from end to end. */
static void
test_many_prices (void **state)
{
  static const char *const columns[] = { "offer", "from_date", "price_micro", NULL };
  Fixture *fixture = *state;
  g_autofree char *before = cro_test_figures (fixture->book), *after = NULL, *undone = NULL;
  GError *error = NULL;
  CroWriter *writer;

  cro_test_must (cro_book_begin_act (fixture->book, "prices", &error), error);
  writer = cro_writer_new (cro_book_get_store (fixture->book), "price", columns, &error);
  for (gint64 i = 0; i < 120; i++)
    {
      char day[CRO_DATE_CHARS];
      const CroCell cells[] = { CRO_CELL_INT (1 + i % 2), CRO_CELL_STR (day), CRO_CELL_INT ((50 + i) * 1000000) };

      cro_date_format (CRO_TEST_DAY - 1 - 14 * (CroDate) (i / 2), day);
      cro_test_must (cro_writer_insert (writer, cells, NULL, &error), error);
    }
  cro_writer_free (writer);
  cro_test_must (cro_book_end_act (fixture->book, &error), error);
  after = cro_test_figures (fixture->book);
  if (strcmp (before, after) == 0)
    fail_msg ("many prices move figures");
  must_be_fresh ("many prices", fixture->book);
  cro_test_must (cro_book_undo (fixture->book, NULL, &error), error);
  undone = cro_test_figures (fixture->book);
  cro_test_same ("taken back", before, undone);
}

static guint
statements_of (Fixture    *fixture,
               const char *column,
               gint64      number)
{
  const CroCell cell = CRO_CELL_INT (number);
  guint before = cro_test_statements ();
  GError *error = NULL;

  cro_test_must (cro_book_set (fixture->book, column, "offer", 3, column, &cell, &error), error);
  return cro_test_statements () - before;
}

/* Once each for what is prepared. */
static void
test_what_no_figure_reads (void **state)
{
  statements_of (*state, "pack_size_micro", 2000000);
  statements_of (*state, "position_micro", 10000000);
  if (statements_of (*state, "position_micro", 20000000) >= statements_of (*state, "pack_size_micro", 3000000))
    fail_msg ("the place of a pack in its list is read again for figures");
  must_be_fresh ("both", ((Fixture *) *state)->book);
}

/* --- Other processes --------------------------------------------------------------------------------------- */

/* What a process with a store of its own does to a row; exits with 0 if it was committed. */
static void
write_elsewhere (const char    *path,
                 const char    *table,
                 gint64         id,
                 const char    *column,
                 const CroCell *cell)
{
  pid_t child = fork ();
  int status;

  if (child == 0)
    {
      const char *columns[] = { column, NULL };
      g_autoptr (CroStore) store = cro_store_open (path, "elsewhere", CRO_STORE_WRITE, NULL);
      gboolean done = store != NULL && cro_store_begin_act (store, column, NULL)
                      && cro_store_update (store, table, id, columns, cell, NULL)
                      && cro_store_end_act (store, NULL, NULL);

      g_clear_pointer (&store, cro_store_close);
      _exit (done ? 0 : 1);
    }
  assert_int_equal (waitpid (child, &status, 0), child);
  assert_true (WIFEXITED (status) && WEXITSTATUS (status) == 0);
}

static void
test_other_process (void **state)
{
  Fixture *fixture = *state;
  const struct { const char *says, *table; gint64 id; const char *column; CroCell cell; } cases[] = {
    { "a price", "price", 2, "price_micro", CRO_CELL_INT (71000000) },
    { "the day of a price", "price", 2, "from_date", CRO_CELL_STR ("2026-02-17") },
    { "an amount", "recipe_line", line_of (fixture, "Gel"), "amount_micro", CRO_CELL_INT (7000000) },
    { "what a line takes", "recipe_line", line_of (fixture, "Gel"), "item",
      CRO_CELL_INT (id_of (fixture, "item", "Shells")) },
    { "a name", "item", id_of (fixture, "item", "Crab"), "name", CRO_CELL_STR ("Spider crab") },
    { "the name of a plate", "thing", id_of (fixture, "thing", "Tartlet"), "name",
      CRO_CELL_STR ("Barquette") },
    { "the place of a pack", "offer", 3, "position_micro", CRO_CELL_INT (10000000) },
    { "a pack", "offer", 3, "pack_size_micro", CRO_CELL_INT (2000000) },
    { "the currency of the book", "book", 1, "currency", CRO_CELL_STR ("GBP") },
    { "a rate", "rate", 1, "rate_micro", CRO_CELL_INT (1200000) },
    { "what no figure hangs on", "sale", 1, "sold_micro", CRO_CELL_INT (1000000) },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      guint64 edition = cro_book_get_edition (fixture->book);
      gboolean changed = FALSE;
      GError *error = NULL;

      write_elsewhere (fixture->folder.path, cases[i].table, cases[i].id, cases[i].column,
                       &cases[i].cell);
      cro_test_must (cro_book_refresh (fixture->book, &changed, &error), error);
      if (!changed)
        fail_msg ("%s: another process is noticed", cases[i].says);
      if (cro_book_get_edition (fixture->book) == edition)
        fail_msg ("%s: what was read of the store is of an older edition", cases[i].says);
      must_be_fresh (cases[i].says, fixture->book);
      cro_test_must (cro_book_refresh (fixture->book, &changed, &error), error);
      if (changed)
        fail_msg ("%s: once", cases[i].says);
    }
}

/* A row that another process moved to what this one has not seen is previewed. */
static void
test_preview_of_unseen (void **state)
{
  Fixture *fixture = *state;
  g_autoptr (CroBook) other = cro_test_book_open (fixture->folder.path, "pass");
  static const char *const name[] = { "name", NULL };
  static const char *const ingredient[] = { "id", "unit", NULL };
  static const char *const item[] = { "item", NULL };
  CroStore *store = cro_book_get_store (other);
  gint64 line = line_of (fixture, "Gel");
  CroCell cells[2] = { CRO_CELL_STR ("Eel"), CRO_CELL_STR ("g") };
  CroCell amount = CRO_CELL_INT (33000000);
  g_autofree char *shown = NULL;
  g_autofree char *written = NULL;
  GError *error = NULL;
  g_autoptr (CroWriter) items = NULL;
  g_autoptr (CroWriter) ingredients = NULL;
  gint64 id;

  cro_test_must (cro_book_begin_act (other, "eel", &error), error);
  items = cro_writer_new (store, "item", name, &error);
  cro_test_must (cro_writer_insert (items, cells, &id, &error), error);
  cells[0] = CRO_CELL_INT (id);
  ingredients = cro_writer_new (store, "ingredient", ingredient, &error);
  cro_test_must (cro_writer_insert (ingredients, cells, NULL, &error), error);
  cro_test_must (cro_store_update (store, "recipe_line", line, item, cells, &error), error);
  cro_test_must (cro_book_end_act (other, &error), error);

  cro_test_must (cro_book_preview (fixture->book, "recipe_line", line, "amount_micro", &amount,
                                   &error), error);
  shown = cro_test_figures (fixture->book);
  cro_test_must (cro_book_set (fixture->book, "amount", "recipe_line", line, "amount_micro",
                               &amount, &error), error);
  written = cro_test_figures (fixture->book);
  cro_test_same ("what others wrote is in a preview", shown, written);
  must_be_fresh ("and in the act", fixture->book);
  g_clear_pointer (&items, cro_writer_free);
  g_clear_pointer (&ingredients, cro_writer_free);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (test_price, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_credit, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_preview_of_a_history_is_the_act, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_preview_leaves_no_trace, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_preview_asks_nothing, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_refused, set_up, tear_down),
    cmocka_unit_test (test_order_of_sums),
    cmocka_unit_test_setup_teardown (test_signals, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_a_preview_is_told, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_many_prices, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_what_no_figure_reads, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_other_process, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_preview_of_unseen, set_up, tear_down),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
