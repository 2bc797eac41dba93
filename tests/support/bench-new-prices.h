/* The sheet of new prices over Market's bench, and what is typed into it. */
#pragma once

#include "bench-hands.h"

#include "cro-new-prices-private.h"
#include "cro-packs-bench.h"
#include "cro-price-rows.h"
#include "cro-reveal.h"

static inline guint32
supplier_of (CroTestBench *test,
             const char   *name)
{
  return cro_test_find_ref (test, CRO_NAMES_SUPPLIERS, name).slot;
}

static inline void
open_sheet (CroTestBench *test,
            const char   *supplier)
{
  cro_test_bench_show (test, CRO_TYPE_PACKS_BENCH, CRO_REF_NOWHERE);
  cro_new_prices_open (test->bench, supplier_of (test, supplier));
  cro_test_settle ();
}

static inline GtkWidget *
sheet_of (CroTestBench *test)
{
  return cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_NEW_PRICES);
}

/* A key of the sheet, by what it does. */
static inline void
do_key (CroTestBench *test,
        const char   *action)
{
  gtk_widget_activate_action (sheet_of (test), action, NULL);
  cro_test_settle ();
}

static inline void
assert_typed (CroTestBench *test,
              const char   *name,
              const char   *text)
{
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (named (test, name))), text);
}

/* The price of a day, of the only pack of that code; CRO_NOT_SET where it has none. */
static inline gint64
price_of (CroTestBench *test,
          const char   *code,
          CroDate       from)
{
  CroModel *model = model_of (test);

  for (guint32 i = 0; i < model->offers->len; i++)
    {
      g_autoptr (GArray) rows = NULL;

      if (cro_model_offer (model, i)->is_dead || strcmp (cro_model_offer (model, i)->code, code) != 0)
        continue;
      rows = cro_price_rows_new (model, cro_book_get_store (test->book), i, NULL);
      for (guint n = 0; n < rows->len; n++)
        if (g_array_index (rows, CroPriceRow, n).from == from)
          return g_array_index (rows, CroPriceRow, n).price;
    }
  return CRO_NOT_SET;
}

/* Until the page has moved to what is answered. */
static inline void
let_settle (CroTestBench *test)
{
  for (guint i = 0; i < 4; i++)
    cro_test_see (test->window);
}

/* A field, once the page has moved there. */
static inline void
wait_seen (CroTestBench *test,
           const char   *name)
{
  let_settle (test);
  cro_test_wait_until (cro_reveal_is_seen (named (test, name)), "%s is out of sight", name);
}

/* By its name among what was posted. */
static inline void
take_back (CroTestBench *test,
           const char   *name)
{
  gtk_menu_button_popup (GTK_MENU_BUTTON (named (test, "Posted rows")));
  cro_test_see (test->window);
  g_signal_emit_by_name (named (test, name), "clicked");
  cro_test_see (test->window);
  gtk_menu_button_popdown (GTK_MENU_BUTTON (named (test, "Posted rows")));
  cro_test_see (test->window);
}

/* Another desk posts what stands in text, a list or an invoice, and the sheet hears of it. */
static inline void
post_elsewhere (CroTestBench *test,
                const char   *supplier,
                const char   *text)
{
  GError *error = NULL;
  CroDate day = cro_book_get_figures (test->book)->date;
  g_autoptr (CroBook) other = cro_book_open (test->folder.path, "other", CRO_STORE_WRITE, day, &error);
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (CroPriceList) taken = NULL;
  g_autoptr (CroRoundPost) post = NULL;
  g_autoptr (CroRound) round = NULL;

  cro_test_must (other != NULL, error);
  round = cro_round_new (other, supplier_of (test, supplier), day, &error);
  cro_test_must (round != NULL, error);
  cro_test_must (cro_round_take_text (round, text, NULL, &taken, &error), error);
  post = cro_round_post (round, "other prices", faults, &error);
  cro_test_must (post != NULL, error);
  assert_true (post->act != 0);
  cro_test_must (cro_book_refresh (test->book, NULL, &error), error);
  cro_test_settle ();
}

static inline CroDate
today_of (CroTestBench *test)
{
  return cro_book_get_figures (test->book)->date;
}
