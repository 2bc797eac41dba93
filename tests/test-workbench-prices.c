/* The prices of an ingredient on its bench: they begin, change, move to another day, go, and come back. */
#include "support/bench-ingredient.h"

#include "cro-decimal.h"
#include "cro-field.h"
#include "cro-input.h"
#include "cro-reveal.h"
#include "cro-row-grid.h"

static void
test_a_price_begins_on_the_books_date (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry;

  show_crab (test);
  assert_shown (test, "13.20/kg");
  entry = named (test, "price of Brown crab from Quay Shellfish");
  cro_test_type (entry, "70");
  assert_shown (test, "14.00/kg");
  cro_test_escape (entry);
  assert_shown (test, "13.20/kg");
  assert_shown (test, "since 2026-11-24");
  cro_test_type (entry, "70");
  cro_test_enter (entry);
  assert_shown (test, "14.00/kg");
  assert_shown (test, "since 2026-11-25");
  assert_shown (test, "+6.1\u00a0%");
  undo (test);
  assert_shown (test, "13.20/kg");
  assert_shown (test, "since 2026-11-24");
}

/* A boat that lands no crab: the last price stays in use, and says so. */
static void
test_what_is_not_to_be_had_says_so (void **state)
{
  CroTestBench *test = *state;
  const char *price = "price of Brown crab from Quay Shellfish";

  show_crab (test);
  enter (test, price, "-");
  assert_shown (test, "13.20/kg");
  assert_shown (test, "last price, not to be had since 2026-11-25\nQuay Shellfish");
  assert_shown (test, "not to be had");
  enter (test, "price of Brown crab from 2026-11-25", "70");
  assert_shown (test, "14.00/kg");
  enter (test, "price of Brown crab from 2026-11-25", "-");
  assert_shown (test, "13.20/kg");
  undo (test);
  undo (test);
  undo (test);
  cro_test_type (named (test, "New price per pack"), "-");
  cro_test_enter (named (test, "New price per pack"));
  assert_shown (test, "not to be had");
}

static void
test_a_price_that_is_none_is_asked_about (void **state)
{
  /* In the head, which leads to the field; and there, where it moves no field beside it. */
  static const char question[] = "? 6600.00 from 2026-11-25 is far from the price before. Is 66.00 meant?";
  CroTestBench *test = *state;
  GtkWidget *head, *beside, *price, *scroller, *answer;
  graphene_rect_t before, after;

  show_crab (test);
  beside = named (test, "items per pack of Brown crab from Quay Shellfish");
  cro_test_see (test->window);
  assert_true (gtk_widget_compute_bounds (beside, test->window, &before));
  enter (test, "price of Brown crab from Quay Shellfish", "6600");
  assert_shown (test, question);
  assert_shown (test, "Is 66.00 meant?");
  cro_test_see (test->window);
  assert_true (gtk_widget_compute_bounds (beside, test->window, &after));
  assert_float_equal (after.origin.x, before.origin.x, 0.5);
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "Nothing is missing"));
  head = gtk_widget_get_ancestor (cro_test_find_shown (GTK_WIDGET (test->bench), question), GTK_TYPE_BUTTON);
  g_signal_emit_by_name (head, "clicked");
  assert_non_null (gtk_widget_get_focus_child (named (test, "price of Brown crab from Quay Shellfish")));
  /* Whoever says that it is right is not asked again, until that is undone. */
  press (test, "6600.00 Is Right");
  assert_shown (test, "Nothing is missing");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "6600.00 Is Right"));
  assert_non_null (gtk_widget_get_focus_child (named (test, "price of Brown crab from Quay Shellfish")));
  undo (test);
  assert_shown (test, question);
  assert_shown (test, "6600.00 Is Right");
  /* Nor whoever takes the price that is asked for. */
  press (test, "Set 66.00");
  assert_shown (test, "Nothing is missing");
  assert_shown (test, "66.00");
  undo (test);
  assert_shown (test, "6600.00 Is Right");
  /* Low down on the page it comes into sight with the field. */
  price = named (test, "price of Brown crab from Quay Shellfish");
  scroller = gtk_widget_get_ancestor (price, GTK_TYPE_SCROLLED_WINDOW);
  gtk_window_set_focus (GTK_WINDOW (test->window), NULL);
  gtk_window_set_default_size (GTK_WINDOW (test->window), 900, 300);
  cro_test_settle ();
  gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller)), 0);
  cro_test_settle ();
  gtk_widget_grab_focus (price);
  cro_test_wait_until ((answer = cro_test_find_shown (GTK_WIDGET (test->bench), "6600.00 Is Right")) != NULL
                         && gtk_widget_get_mapped (answer) && cro_reveal_is_seen (price),
                       "the price and its answer are not in sight");
  undo (test);
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), question));
  assert_shown (test, "Nothing is missing");
}

/* At no width a line ends between a figure and its unit, nor between a limit's sign and its figure. */
static void
test_a_price_is_not_broken (void **state)
{
  GtkWidget *text = g_object_ref_sink (cro_text_new (NULL, NULL));

  gtk_label_set_label (GTK_LABEL (text), "up to 15.73/kg at the quay · ≤ 62.17 per pack");
  for (int width = 20; width < 400; width += 4)
    {
      g_autoptr (PangoLayout) layout = pango_layout_copy (gtk_label_get_layout (GTK_LABEL (text)));

      pango_layout_set_width (layout, width * PANGO_SCALE);
      for (GSList *lines = pango_layout_get_lines_readonly (layout); lines != NULL; lines = lines->next)
        {
          const PangoLayoutLine *line = lines->data;
          g_autofree char *says = g_strndup (gtk_label_get_text (GTK_LABEL (text)) + line->start_index,
                                             (gsize) line->length);

          g_strchomp (says);
          assert_false (g_str_has_suffix (says, "/") || g_str_has_suffix (says, "≤"));
        }
    }
  g_object_unref (text);
}

static void
test_what_costs_nothing_is_told_so_once (void **state)
{
  CroTestBench *test = *state;
  graphene_rect_t place, place_then;
  GtkWidget *packs;
  guint32 offer;

  cro_test_bench_show (test, CRO_TYPE_INGREDIENT_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_ITEMS, "Sea purslane"));
  assert_shown (test, "? no price for Sea purslane");
  cro_test_see (test->window);
  packs = cro_test_find_shown (GTK_WIDGET (test->bench), "Packs");
  assert_true (gtk_widget_compute_bounds (packs, test->window, &place));
  cro_test_type (named (test, "Price per pack"), "0");
  press (test, "Mark as Free");
  assert_shown (test, "costs nothing");
  /* By the kilogram, and what was begun by hand is done with it. */
  offer = model_of (test)->offers->len - 1;
  assert_true (cro_model_offer (model_of (test), offer)->offer.pack_size == CRO_MICRO);
  assert_int_equal (cro_model_offer (model_of (test), offer)->offer.pack_unit, CRO_UNIT_KG);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (named (test, "Price per pack"))), "");
  /* The like is had from there already. */
  assert_shown (test, "Own picking and tap");
  /* Nothing moves up under the hands. */
  assert_false (gtk_widget_is_sensitive (cro_test_find_shown (GTK_WIDGET (test->bench), "Mark as Free")));
  cro_test_see (test->window);
  assert_true (gtk_widget_compute_bounds (packs, test->window, &place_then));
  assert_float_equal (place_then.origin.y, place.origin.y, 0);
  cro_bench_put (test->bench, cro_bench_get_slot (test->bench));
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "Mark as Free"));
}

/* The row of a price by the date that its fields are called by. */
static gint64
id_of_price (CroTestBench *test,
             const char   *date)
{
  g_autofree char *name = g_strdup_printf ("price of Brown crab from %s", date);
  GtkWidget *input = gtk_widget_get_ancestor (named (test, name), CRO_TYPE_INPUT);

  return cro_input_get_id (CRO_INPUT (input));
}

/* 68 for 4 × 1.25 kg is 13.60 a kilogram. */
static void
test_a_price_has_a_pack_of_its_own (void **state)
{
  CroTestBench *test = *state;
  g_autofree char *count = NULL, *size = NULL, *unit = NULL, *gone = NULL;
  gint64 id;

  show_crab (test);
  id = id_of_price (test, "2026-11-24");
  enter (test, "price of Brown crab from 2026-11-24", "68");
  enter (test, "pack of Brown crab from 2026-11-24", "4 x 1.25 kg");
  count = cro_test_stored (test, "price", id, "pack_count_micro");
  size = cro_test_stored (test, "price", id, "pack_size_micro");
  unit = cro_test_stored (test, "price", id, "pack_unit");
  assert_string_equal (count, "4000000");
  assert_string_equal (size, "1250000");
  assert_string_equal (unit, "kg");
  assert_shown (test, "13.60/kg");
  enter (test, "pack of Brown crab from 2026-11-24", "");
  gone = cro_test_stored (test, "price", id, "pack_size_micro");
  assert_null (gone);
  undo (test);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (
                           named (test, "pack of Brown crab from 2026-11-24"))),
                       "4 × 1.25 kg");
}

/* Fields are called by their date, so the row gets other names, and the focus goes on in it. */
static void
test_a_price_moves_to_another_day (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry;
  gint64 id;

  show_crab (test);
  id = id_of_price (test, "2026-11-24");
  entry = named (test, "date of Brown crab from 2026-11-24");
  gtk_widget_grab_focus (entry);
  cro_test_type (entry, "2026-11-23");
  cro_test_enter (entry);
  assert_true (id_of_price (test, "2026-11-23") == id);
  assert_focus (test, "price of Brown crab from 2026-11-23");
  assert_shown (test, "since 2026-11-23");
  undo (test);
  assert_true (id_of_price (test, "2026-11-24") == id);
}

static void
test_the_focus_stays_in_the_table_when_a_row_goes (void **state)
{
  CroTestBench *test = *state;

  show_crab (test);
  g_signal_emit_by_name (named (test, "Remove the price from 2026-11-24"), "clicked");
  cro_test_settle ();
  assert_shown (test, "since 2026-11-17");
  assert_true (gtk_widget_is_ancestor (gtk_window_get_focus (GTK_WINDOW (test->window)),
                                       named (test, "Remove the price from 2026-11-17"))
               || gtk_window_get_focus (GTK_WINDOW (test->window))
                      == named (test, "Remove the price from 2026-11-17"));
  undo (test);
  named (test, "Remove the price from 2026-11-24");
}

static guint
count_shown (GtkWidget  *widget,
             const char *text)
{
  guint n = GTK_IS_LABEL (widget) && gtk_widget_get_mapped (widget)
            && g_str_equal (gtk_label_get_label (GTK_LABEL (widget)), text);

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += count_shown (child, text);
  return n;
}

/* 66 for 5 kg, and for 4 kg: every figure moves with the key, the row's own too. */
static void
test_a_pack_of_a_price_is_previewed (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *pack;

  show_crab (test);
  pack = named (test, "pack of Brown crab from 2026-11-24");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "16.50/kg"));
  cro_test_type (pack, "4 kg");
  cro_test_settle ();
  assert_int_equal (count_shown (GTK_WIDGET (test->bench), "16.50/kg"), 3);
  cro_test_escape (pack);
  cro_test_settle ();
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "16.50/kg"));
}

/* --- Nothing is freed under an event ------------------------------------------------------------ */

static void
test_tab_leaves_the_changed_date_of_a_price (void **state)
{
  CroTestBench *test = *state;

  show_crab (test);
  cro_test_type (named (test, "date of Brown crab from 2026-11-24"), "2026-11-23");
  tab (test, GTK_DIR_TAB_FORWARD);
  assert_focus (test, "price of Brown crab from 2026-11-23");
  /* Behind the one that was before it. */
  cro_test_type (named (test, "date of Brown crab from 2026-11-23"), "2026-11-16");
  gtk_widget_grab_focus (named (test, "price of Brown crab from 2026-11-17"));
  cro_test_settle ();
  assert_focus (test, "price of Brown crab from 2026-11-17");
  cro_test_type (named (test, "date of Brown crab from 2026-11-16"), "2026-11-24");
  tab (test, GTK_DIR_TAB_BACKWARD);
  assert_non_null (gtk_window_get_focus (GTK_WINDOW (test->window)));
  named (test, "price of Brown crab from 2026-11-24");
}

static void
test_a_price_goes_while_it_is_typed_into (void **state)
{
  CroTestBench *test = *state;
  GError *error = NULL;

  show_crab (test);
  cro_test_type (named (test, "price of Brown crab from 2026-11-24"), "70");
  cro_test_must (cro_edit_remove_price (test->book, "removal", id_of_price (test, "2026-11-24"),
                                        &error),
                 error);
  tab (test, GTK_DIR_TAB_FORWARD);
  assert_non_null (gtk_window_get_focus (GTK_WINDOW (test->window)));
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "since 2026-11-24"));
  assert_string_equal (test->said->str,
                       "“70” was not entered for “price of Brown crab”: this row was removed meanwhile.\n");
  undo (test);
  assert_shown (test, "since 2026-11-24");
  /* Where the window hears of it first, the focus falls to no price of another day. */
  gtk_widget_grab_focus (named (test, "price of Brown crab from 2026-11-24"));
  cro_test_type (named (test, "price of Brown crab from 2026-11-24"), "71");
  cro_test_must (cro_edit_remove_price (test->book, "removal", id_of_price (test, "2026-11-24"),
                                        &error),
                 error);
  cro_book_tell (test->book);
  cro_test_settle ();
  assert_non_null (strstr (test->said->str, "“71” was not entered"));
  assert_null (gtk_widget_get_ancestor (gtk_window_get_focus (GTK_WINDOW (test->window)), CRO_TYPE_ROW_GRID));
}

static void
test_a_key_on_a_price_asks_nothing (void **state)
{
  CroTestBench *test = *state;

  show_crab (test);
  assert_keys_ask_nothing (test, "price of Brown crab from Quay Shellfish");
  assert_keys_ask_nothing (test, "pack size of Brown crab from Quay Shellfish");
  assert_keys_ask_nothing (test, "price of Brown crab from 2026-11-24");
  assert_keys_ask_nothing (test, "Trim yield %");
  assert_keys_ask_nothing (test, "Ingredient");
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, open_book, close_book)
  const struct CMUnitTest tests[] = {
    CASE (test_a_price_begins_on_the_books_date),
    CASE (test_what_is_not_to_be_had_says_so),
    CASE (test_a_price_that_is_none_is_asked_about),
    CASE (test_a_price_is_not_broken),
    CASE (test_what_costs_nothing_is_told_so_once),
    CASE (test_a_price_has_a_pack_of_its_own),
    CASE (test_a_price_moves_to_another_day),
    CASE (test_the_focus_stays_in_the_table_when_a_row_goes),
    CASE (test_a_pack_of_a_price_is_previewed),
    CASE (test_tab_leaves_the_changed_date_of_a_price),
    CASE (test_a_price_goes_while_it_is_typed_into),
    CASE (test_a_key_on_a_price_asks_nothing),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
