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

/* Where the fields stand among the rows, and the buttons of the foot in the window; the last one may grow. */
static inline void
read_places (CroTestBench    *test,
             graphene_rect_t *places)
{
  static const char *const rows[] = { "Brown crab", "Mussels", "Razor clams", "Cockles", "Rock oyster",
                                      "Prawns, shell-on" };
  static const char *const buttons[] = { "Next That Waits", "The Rest as Last", "Set _Aside", "_Post" };

  cro_test_see (test->window);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *name = g_strdup_printf ("New price of %s", rows[i]);

      assert_true (gtk_widget_compute_bounds (named (test, name),
                                              cro_test_find_type (test->window, CRO_TYPE_ROUND_ROWS), places++));
    }
  for (guint i = 0; i < G_N_ELEMENTS (buttons); i++)
    {
      GtkWidget *label = i < 3 ? cro_test_find_shown (GTK_WIDGET (test->bench), buttons[i])
                               : cro_test_find_containing (GTK_WIDGET (test->bench), buttons[i]);

      assert_non_null (label);
      assert_true (gtk_widget_compute_bounds (gtk_widget_get_ancestor (label, GTK_TYPE_BUTTON), test->window,
                                              places++));
    }
  places[-1].size.width = 0;
}

#define N_PLACES 10

/* As they stand once two frames agree: rows are laid out some time after they are there. */
static inline void
find_places (CroTestBench    *test,
             graphene_rect_t *places)
{
  graphene_rect_t last[N_PLACES];

  read_places (test, places);
  for (guint n = 0; n < 20 && (n == 0 || memcmp (last, places, sizeof last) != 0); n++)
    {
      memcpy (last, places, sizeof last);
      read_places (test, places);
    }
}

/* A new row, and what is posted, leaves the columns where they stand. */
static inline void
check_rows_come_in_place (CroTestBench *test)
{
  graphene_rect_t before[N_PLACES], after[N_PLACES];

  find_places (test, before);
  for (guint step = 0; step < 2; step++)
    {
      if (step == 0)
        enter (test, "New pack or ingredient", "turbot 3 x 300 g 24.50/kg");
      else
        do_key (test, "round.post");
      find_places (test, after);
      for (guint at = 0; at < N_PLACES; at++)
        if (before[at].origin.x != after[at].origin.x)
          fail_msg ("%s moves what stands at %u by %g", step == 0 ? "a new row" : "posting", at,
                    after[at].origin.x - before[at].origin.x);
    }
}

/* What is said of a price while it is typed, and what is asked, has its room: no row moves, nor a button under the
 * pointer, in a small window, a wide one, and with text of twice the size. */
static inline void
test_what_is_said_moves_nothing (void **state)
{
  static const struct { const char *row, *text, *said; } said[] = {
    { "New price of Brown crab", "\u00a370", "The price is in GBP" },
    { "New price of Razor clams", "174", "Razor clams: Is 17.40 meant? The decimal sign may have slipped." },
    { "New price of Razor clams", "hundreds 1 of", "Razor clams: " },
    { "New price of Mussels", "-", "serves" },
    { "New price of Brown crab", "58/4kg", "Pack today" },
    { "New price of Prawns, shell-on", "695", "Is 69.50 meant?" },
  };
  CroTestBench *test = *state;
  GtkSettings *settings = gtk_settings_get_default ();
  int dpi;

  open_sheet (test, "Quay Shellfish");
  g_object_get (settings, "gtk-xft-dpi", &dpi, NULL);
  for (guint size = 0; size < 4; size++)
    {
      graphene_rect_t before[N_PLACES], after[N_PLACES];

      g_object_set (settings, "gtk-xft-dpi", size % 2 == 0 ? dpi : 2 * 96 * 1024, NULL);
      gtk_window_set_default_size (GTK_WINDOW (test->window), size < 2 ? 740 : 1340, 700);
      cro_test_see (test->window);
      find_places (test, before);
      for (guint i = 0; i < G_N_ELEMENTS (said); i++)
        {
          gtk_widget_grab_focus (named (test, said[i].row));
          cro_test_type (named (test, said[i].row), said[i].text);
          if (cro_test_find_containing (GTK_WIDGET (test->bench), said[i].said) == NULL)
            fail_msg ("%s says nothing of %s", said[i].row, said[i].said);
          find_places (test, after);
          for (guint at = 0; at < N_PLACES; at++)
            if (!graphene_rect_equal (&before[at], &after[at]))
              fail_msg ("size %u: %s moves what stands at %u by %g and %g", size, said[i].text, at,
                        after[at].origin.x - before[at].origin.x, after[at].origin.y - before[at].origin.y);
        }
      for (guint i = 0; i < G_N_ELEMENTS (said); i++)
        cro_test_type (named (test, said[i].row), "");
    }
  g_object_set (settings, "gtk-xft-dpi", dpi, NULL);
  check_rows_come_in_place (test);
}

static inline CroDate
today_of (CroTestBench *test)
{
  return cro_book_get_figures (test->book)->date;
}
