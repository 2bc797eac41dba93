/* Where keys and links lead: through the parts of the window and back, and to the field that cures
 * what is missing, never to a name that a letter would write over. */
#include <string.h>

#include "cro-cure.h"
#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-focus.h"
#include "cro-headed.h"
#include "cro-input.h"
#include "cro-month-shelf.h"
#include "cro-mover-row.h"
#include "cro-number.h"
#include "cro-pane.h"
#include "cro-rate-form.h"
#include "cro-trial-bench.h"
#include "cro-trials.h"
#include "support/book-window.h"

/* --- Parts ------------------------------------------------------------------------------------ */

static guint
ring (CroTestWindow *test,
      const char    *action,
      GPtrArray     *seen)
{
  for (;;)
    {
      GtkWidget *focus;

      gtk_widget_activate_action (GTK_WIDGET (test->window), action, NULL);
      focus = cro_test_window_focus (test, action);
      if (g_ptr_array_find (seen, focus, NULL))
        return seen->len;
      g_ptr_array_add (seen, focus);
    }
}

/* At least the list, figures or a table, and fields; back the same way. */
static void
test_parts_are_walked_both_ways (void **state)
{
  CroTestWindow *test = *state;

  for (CroPlace place = 0; place < CRO_N_PLACES; place++)
    {
      g_autoptr (GPtrArray) there = g_ptr_array_new (), back = g_ptr_array_new ();

      cro_test_window_go (test, place, 0);
      assert_true (ring (test, "win.next-part", there) >= (place == CRO_PLACE_MONTHS ? 2 : 3));
      assert_int_equal (ring (test, "win.previous-part", back), there->len);
      for (guint i = 0; i < there->len; i++)
        assert_true (g_ptr_array_find (back, there->pdata[i], NULL));
    }
}

/* A digit that is typed there would else write over it, and Enter rename the thing. */
static void
test_parts_begin_with_no_name_that_is_selected (void **state)
{
  CroTestWindow *test = *state;
  guint n_words = 0;

  for (CroPlace place = CRO_PLACE_PLATES; place <= CRO_PLACE_LARDER; place++)
    {
      g_autoptr (GPtrArray) seen = g_ptr_array_new ();

      cro_test_window_go (test, place, 0);
      for (GtkWidget *focus = NULL; !g_ptr_array_find (seen, focus, NULL);)
        {
          CroInput *input;

          g_ptr_array_add (seen, focus);
          gtk_widget_activate_action (GTK_WIDGET (test->window), "win.next-part", NULL);
          focus = cro_test_window_focus (test, "F6");
          input = CRO_INPUT (gtk_widget_get_ancestor (focus, CRO_TYPE_INPUT));
          if (input == NULL || g_ascii_isdigit (*cro_input_get_text (input)))
            continue;
          assert_false (gtk_editable_get_selection_bounds (GTK_EDITABLE (focus), NULL, NULL));
          assert_int_equal (gtk_editable_get_position (GTK_EDITABLE (focus)),
                            g_utf8_strlen (cro_input_get_text (input), -1));
          n_words++;
        }
    }
  assert_true (n_words >= 3);
}

/* "List, figures, fields, lines, pictures" is what the shortcuts say. */
static void
test_parts_come_in_their_order (void **state)
{
  static const char *const classes[] = { "figures", "fields", "lines-part", "part" };
  CroTestWindow *test = *state;
  guint last = 0, n = 0;

  cro_test_window_go (test, CRO_PLACE_PLATES, 1);
  assert_true (cro_focus_first (test->window->list_box));
  for (;; n++)
    {
      GtkWidget *at;
      guint rank = G_N_ELEMENTS (classes);

      gtk_widget_activate_action (GTK_WIDGET (test->window), "win.next-part", NULL);
      at = cro_test_window_focus (test, "F6");
      if (gtk_widget_is_ancestor (at, test->window->list_box))
        break;
      for (; at != NULL && rank == G_N_ELEMENTS (classes); at = gtk_widget_get_parent (at))
        for (guint i = 0; i < G_N_ELEMENTS (classes); i++)
          if (gtk_widget_has_css_class (at, classes[i]))
            rank = i;
      assert_true (rank < G_N_ELEMENTS (classes) && rank >= last);
      assert_true (n > 0 || rank == 0);
      last = rank;
    }
  assert_true (n >= 3);
}

static GtkWidget *
last_entry (CroTestWindow *test)
{
  g_autoptr (GPtrArray) entries = cro_test_window_list_entries (test);

  assert_true (entries->len > 0);
  return *(GtkWidget **) entries->pdata[entries->len - 1];
}

/* Back leads to the cell that was left. */
static void
test_back_leads_to_the_same_cell (void **state)
{
  CroTestWindow *test = *state;

  cro_test_window_go (test, CRO_PLACE_PLATES, 0);
  gtk_widget_grab_focus (last_entry (test));
  cro_window_open_ref (test->window, CRO_REF (CRO_REF_ITEM, 0));
  cro_test_window_see (test);
  gtk_widget_activate_action (GTK_WIDGET (test->window), "win.back", NULL);
  cro_test_window_see (test);
  assert_true (gtk_widget_is_ancestor (cro_test_window_focus (test, "Back"), last_entry (test)));
}

static void
begin_trial (CroTestWindow *test)
{
  cro_test_window_go (test, CRO_PLACE_PLATES, 0);
  gtk_widget_activate_action (GTK_WIDGET (test->window), "win.trial", NULL);
  cro_test_window_see (test);
  assert_true (CRO_IS_TRIAL_BENCH (cro_test_window_bench (test)));
}

/* A trial in which nothing was tried yet goes as one leaves, and is there as one comes back. */
static void
test_back_leads_into_the_same_trial (void **state)
{
  CroTestWindow *test = *state;

  begin_trial (test);
  gtk_widget_grab_focus (last_entry (test));
  cro_window_open_ref (test->window, CRO_REF (CRO_REF_ITEM, 0));
  cro_test_window_see (test);
  assert_false (CRO_IS_TRIAL_BENCH (cro_test_window_bench (test)));
  gtk_widget_activate_action (GTK_WIDGET (test->window), "win.back", NULL);
  cro_test_window_see (test);
  assert_true (CRO_IS_TRIAL_BENCH (cro_test_window_bench (test)));
  assert_true (gtk_widget_is_ancestor (cro_test_window_focus (test, "Back"), last_entry (test)));
}

/* A row of a picture is a cell too: the same picture is shown, and the row has the focus. */
static void
test_back_leads_to_the_row_of_a_picture (void **state)
{
  CroTestWindow *test = *state;
  GtkWidget *row;

  begin_trial (test);
  gtk_widget_activate_action (cro_test_window_bench (test), "bench.picture", "i", CRO_PICTURE_MOVERS);
  cro_test_window_see (test);
  row = cro_test_window_focus (test, "Ctrl+2");
  assert_true (CRO_IS_MOVER_ROW (row));
  cro_window_open_ref (test->window, CRO_REF (CRO_REF_ITEM, 0));
  cro_test_window_see (test);
  gtk_widget_activate_action (GTK_WIDGET (test->window), "win.back", NULL);
  cro_test_window_see (test);
  assert_true (cro_test_window_focus (test, "Back") == row);
}

/* Dots promise a question, which only a price asks. What was kept is said, and undone where it is said. */
static void
test_a_trial_that_is_kept_says_so (void **state)
{
  CroTestWindow *test = *state;
  GtkWidget *window = GTK_WIDGET (test->window);
  CroBook *book = cro_window_get_book (test->window), *tried;
  CroCell amount = CRO_CELL_INT (77000000);
  CroDate tomorrow = cro_book_get_figures (book)->date + 1;
  g_autofree char *day = cro_date_to_text (tomorrow), *says = g_strdup_printf ("Kept. From %s: ", day);
  GError *error = NULL;

  begin_trial (test);
  tried = cro_window_get_worked (test->window);
  cro_test_must (cro_book_set (tried, "a", "recipe_line", 1, "amount_micro", &amount, &error), error);
  cro_test_wait_shown (window, "Keep");
  cro_test_must (cro_edit_set_selling_price (tried, "p", test->window->now, tomorrow - 1, 33000000,
                                              &error), error);
  cro_test_wait_shown (window, "Keep…");
  gtk_widget_activate_action (cro_test_window_bench (test), "trial.keep", "i", tomorrow);
  cro_test_window_see (test);
  assert_non_null (cro_test_find_containing (window, says));
  cro_test_wait_shown (window, "Undo");
  gtk_widget_activate_action (window, "win.undo", NULL);
  cro_test_wait_until (cro_test_find_containing (window, says) == NULL, "a button undoes another act");
}

/* --- Cures ------------------------------------------------------------------------------------ */

/* An ingredient without a pack. */
static CroRef
make_unpriced (CroTestWindow *test)
{
  CroRef made = { .kind = CRO_REF_ITEM };
  GError *error = NULL;

  cro_test_must (cro_edit_add_ingredient (cro_window_get_book (test->window), "new", "Samphire tips",
                                          CRO_BASE_GRAM, NULL, &made.slot, &error),
                 error);
  return made;
}

static void
open_cure (CroTestWindow *test,
           CroRef         ref,
           int            cause)
{
  cro_bench_open_cure (CRO_BENCH (cro_test_window_bench (test)), ref, cause);
  cro_test_window_see (test);
}

static gboolean
focus_cures (CroTestWindow *test,
             int            cause)
{
  GtkWidget *focus = cro_test_window_focus (test, "a cure");

  for (; focus != NULL; focus = gtk_widget_get_parent (focus))
    if (gtk_widget_has_css_class (focus, cro_cure_class (cause)))
      return TRUE;
  return FALSE;
}

/* What is typed there never renames it. */
static void
test_a_price_that_is_missing_is_typed_into_a_price (void **state)
{
  CroTestWindow *test = *state;

  cro_test_window_go (test, CRO_PLACE_PLATES, 0);
  open_cure (test, make_unpriced (test), CRO_CAUSE_PRICE);
  assert_true (focus_cures (test, CRO_CAUSE_PRICE));
  assert_null (cro_test_window_focused_input (test));
}

/* Ctrl+Enter on a line does the same as the link. */
static void
test_a_line_that_is_opened_lands_in_no_name (void **state)
{
  CroTestWindow *test = *state;
  GtkWidget *input;

  cro_test_window_go (test, CRO_PLACE_PLATES, 0);
  gtk_widget_grab_focus (last_entry (test));
  gtk_widget_activate_action (GTK_WIDGET (test->window), "win.open-here", NULL);
  cro_test_window_see (test);
  cro_test_window_focus (test, "Ctrl+Enter");
  input = cro_test_window_focused_input (test);
  assert_true (input == NULL || gtk_widget_has_css_class (input, "cure"));
}

static void
test_a_link_lands_in_no_field (void **state)
{
  CroTestWindow *test = *state;
  CroModel *model = cro_book_get_model (cro_window_get_book (test->window));
  CroRef refs[] = { CRO_REF (CRO_REF_ITEM, 0), CRO_REF (CRO_REF_RECIPE, 0),
                    CRO_REF (CRO_REF_MENU, 0),
                    CRO_REF (CRO_REF_ITEM, model->items->len - 1) };

  cro_test_window_go (test, CRO_PLACE_PLATES, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (refs); i++)
    {
      GtkWidget *input;

      open_cure (test, refs[i], CRO_NO_CAUSE);
      cro_test_window_focus (test, "a link");
      input = cro_test_window_focused_input (test);
      assert_true (input == NULL || gtk_widget_has_css_class (input, "cure"));
    }
}

static void
test_a_missing_rate_leads_to_its_currency (void **state)
{
  CroTestWindow *test = *state;
  CroBook *book = cro_window_get_book (test->window);
  CroCell cell = CRO_CELL_STR ("SEK");
  GError *error = NULL;
  GtkWidget *entry;

  cro_test_window_go (test, CRO_PLACE_PLATES, 0);
  cro_test_must (cro_book_set (book, "currency", "offer",
                               cro_model_offer (cro_book_get_model (book), 0)->id, "currency", &cell,
                               &error),
                 error);
  cro_test_settle ();
  open_cure (test, CRO_REF (CRO_REF_RATES, CRO_NO_SLOT), CRO_CAUSE_RATE);
  assert_true (focus_cures (test, CRO_CAUSE_RATE));
  entry = cro_test_find_type (cro_test_window_bench (test), CRO_TYPE_RATE_FORM);
  entry = cro_test_find_type (entry, GTK_TYPE_ENTRY);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (entry)), "SEK");
}

/* In a window of their own; the focus is on what is missing there, or on the name, in which nothing is selected: the
 * first key would write over it. */
static void
test_a_missing_setting_leads_to_the_settings (void **state)
{
  static const int causes[] = { CRO_CAUSE_WAGE, CRO_CAUSE_TAX, CRO_NO_CAUSE };
  CroTestWindow *test = *state;

  cro_test_window_go (test, CRO_PLACE_PLATES, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (causes); i++)
    {
      GtkWidget *settings, *focus, *input;

      open_cure (test, CRO_REF (CRO_REF_HOUSE, CRO_NO_SLOT), causes[i]);
      settings = cro_test_window_find_other (test);
      assert_non_null (settings);
      focus = gtk_window_get_focus (GTK_WINDOW (settings));
      input = gtk_widget_get_ancestor (focus, CRO_TYPE_INPUT);
      if (causes[i] != CRO_NO_CAUSE)
        assert_true (gtk_widget_has_css_class (input, cro_cure_class (causes[i])));
      else
        assert_false (gtk_editable_get_selection_bounds (GTK_EDITABLE (focus), NULL, NULL));
      gtk_window_destroy (GTK_WINDOW (settings));
      cro_test_window_see (test);
    }
}

/* A preparation that takes 600 g of a by-product whose amount nobody has said; its slot, and in
 * *maker that of what gives the by-product. */
static guint32
make_shells (CroTestWindow *test,
             guint32       *maker)
{
  CroBook *book = cro_window_get_book (test->window);
  CroNewLine line = { .amount = INT64_C (600000000), .unit = CRO_UNIT_G };
  GError *error = NULL;
  guint32 broth, item;

  cro_test_must (cro_edit_add_preparation (book, "p", "Picked spider crab", INT64_C (800000000),
                                           CRO_UNIT_G, maker, NULL, &error)
                     && cro_edit_add_output (book, "o", *maker, "Spider crab shells", 0, CRO_UNIT_G,
                                             &line.item, &error)
                     && cro_edit_add_preparation (book, "b", "Spider crab broth",
                                                  INT64_C (800000000), CRO_UNIT_G, &broth, &item,
                                                  &error)
                     && cro_test_add_lines (book, broth, CRO_NO_SLOT, &line, 1, NULL, &error),
                 error);
  cro_test_settle ();
  return broth;
}

/* A line that takes it costs no 0, and its cure is the amount: from there and from the batch that
 * gives it. */
static void
test_a_missing_amount_of_a_by_product_leads_to_it (void **state)
{
  CroTestWindow *test = *state;
  guint32 maker, broth = make_shells (test, &maker);

  cro_test_window_go (test, CRO_PLACE_PREPARATIONS, 0);
  cro_window_open_ref (test->window, CRO_REF (CRO_REF_RECIPE, broth));
  cro_test_window_see (test);
  cro_test_wait_shown (cro_test_window_bench (test), "? see why");
  for (int i = 0; i < 2; i++)
    {
      open_cure (test, CRO_REF (CRO_REF_RECIPE, maker), CRO_CAUSE_AMOUNT);
      assert_true (focus_cures (test, CRO_CAUSE_AMOUNT));
      gtk_window_set_focus (GTK_WINDOW (test->window), NULL);
    }
}

/* Undo of what was made from a line leads back to that line. */
static void
test_undo_of_what_is_shown_leads_back (void **state)
{
  CroTestWindow *test = *state;
  CroBook *book = cro_window_get_book (test->window);
  g_autofree char *before = NULL, *after = NULL;
  GError *error = NULL;
  guint32 made;

  cro_test_window_go (test, CRO_PLACE_PREPARATIONS, 0);
  gtk_widget_grab_focus (last_entry (test));
  before = cro_focus_dup_way (cro_test_window_bench (test));
  cro_test_must (cro_edit_add_preparation (book, "p", "Picked spider crab", 0, CRO_UNIT_G, &made,
                                           NULL, &error),
                 error);
  cro_window_open_ref (test->window, CRO_REF (CRO_REF_RECIPE, made));
  cro_test_window_see (test);
  gtk_widget_activate_action (GTK_WIDGET (test->window), "win.undo", NULL);
  cro_test_window_see (test);
  cro_test_window_focus (test, "undo");
  after = cro_focus_dup_way (cro_test_window_bench (test));
  assert_string_equal (after, before);
}

/* What was tried of a plate that somebody removes is named, once, and is there again with the plate. */
static void
test_a_trial_without_its_plate_is_named (void **state)
{
  static const char *const says = "“Toast” was removed. Its trial waits until that is undone: Toast, bites made: 1 → 5";
  CroTestWindow *test = *state;
  GtkWidget *window = GTK_WIDGET (test->window);
  CroBook *book = cro_window_get_book (test->window);
  CroRef toast = CRO_REF (CRO_REF_RECIPE, CRO_NO_SLOT);
  CroCell makes = CRO_CELL_INT (5 * CRO_MICRO);
  g_autoptr (GPtrArray) again = NULL;
  g_autofree char *text = NULL;
  const char *table;
  gint64 id;
  GError *error = NULL;

  cro_test_must (cro_edit_add_plate (book, "p", "Toast", CRO_MICRO, &toast.slot, &error), error);
  id = cro_edit_row (cro_book_get_model (book), toast, &table);
  cro_window_open_ref (test->window, toast);
  cro_test_window_see (test);
  gtk_widget_activate_action (window, "win.trial", NULL);
  cro_test_window_see (test);
  cro_test_must (cro_book_set (cro_window_get_worked (test->window), "a", "plate", id, "makes_micro", &makes, &error),
                 error);
  cro_test_settle ();
  cro_test_must (cro_edit_remove (book, "r", toast, &error), error);
  cro_test_window_see (test);
  cro_test_wait_shown (window, says);
  again = cro_trials_list_lost (book);
  assert_int_equal (again->len, 0);
  gtk_widget_activate_action (window, "win.undo", NULL);
  cro_test_settle ();
  cro_test_must (cro_book_refresh (book, NULL, &error), error);
  text = cro_trials_dup (book, id, 1);
  assert_non_null (text);
  assert_non_null (strstr (text, "5000000"));
  cro_test_wait_shown (window, "trial open");
}

static guint n_warned;   /* that a list could not be scrolled */

static GLogWriterOutput
write_log (GLogLevelFlags    level,
           const GLogField  *fields,
           gsize             n,
           gpointer          unused)
{
  for (gsize i = 0; i < n; i++)
    n_warned += strcmp (fields[i].key, "MESSAGE") == 0 && strstr (fields[i].value, "failed to scroll") != NULL;
  return g_log_writer_default (level, fields, n, NULL);
}

/* Whoever goes to what is missing and back finds the page as it was, and Home the first of the list; the list is not
 * scrolled while it cannot know what stands there, which the toolkit would warn of. */
static void
test_going_back_scrolls_back (void **state)
{
  CroTestWindow *test = *state;
  CroModel *model = cro_book_get_model (cro_window_get_book (test->window));
  CroRef before = test->window->now;
  CroRef month = CRO_REF (CRO_REF_MONTH, cro_month_to_slot (cro_date_from_civil (2026, 11, 1)));
  GtkWidget *headed, *list = GTK_WIDGET (test->window->list);
  GtkAdjustment *page, *rows;

  gtk_window_set_default_size (GTK_WINDOW (test->window), 1366, 600);
  cro_test_window_see (test);
  headed = cro_test_find_type (cro_test_window_bench (test), CRO_TYPE_HEADED);
  page = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (gtk_widget_get_first_child (headed)));
  cro_test_wait_until (gtk_adjustment_get_upper (page) - gtk_adjustment_get_page_size (page) > 60, "nothing scrolls");
  rows = gtk_scrolled_window_get_vadjustment (
      GTK_SCROLLED_WINDOW (cro_test_find_type (list, GTK_TYPE_SCROLLED_WINDOW)));
  gtk_adjustment_set_value (page, 60);
  gtk_adjustment_set_value (rows, 40);
  cro_test_window_see (test);
  cro_window_open_ref (test->window,
                       cro_edit_find_name (model, CRO_NAMES_ITEMS, "Sea purslane"));
  cro_test_window_see (test);
  gtk_widget_activate_action (GTK_WIDGET (test->window), "win.back", NULL);
  assert_true (cro_ref_equal (test->window->now, before));
  cro_test_wait_until (gtk_adjustment_get_value (page) == 60 && gtk_adjustment_get_value (rows) == 40,
                       "back at %.0f, the list at %.0f", gtk_adjustment_get_value (page),
                       gtk_adjustment_get_value (rows));
  cro_window_open_ref (test->window, CRO_REF (CRO_REF_MENU, CRO_NO_SLOT));
  cro_test_wait_until (gtk_adjustment_get_value (rows) == 0, "the first rows are hidden");
  /* Nor while another place's list stands in its room, with rows that were never laid out. */
  cro_window_open_ref (test->window, cro_edit_find_name (model, CRO_NAMES_ITEMS, "Sea purslane"));
  cro_test_window_see (test);
  gtk_adjustment_set_value (rows, 400);
  cro_window_open_ref (test->window, month);
  cro_window_open_ref (test->window, before);
  cro_test_window_see (test);
  gtk_adjustment_set_value (rows, 0);
  cro_test_window_see (test);
  cro_window_open_ref (test->window, cro_edit_find_name (model, CRO_NAMES_ITEMS, "Sea purslane"));
  for (guint step = 0; step < 2; step++)
    gtk_widget_activate_action (GTK_WIDGET (test->window), "win.back", NULL);
  assert_true (cro_ref_equal (test->window->now, month));
  for (guint frame = 0; frame < 6; frame++)
    cro_test_window_see (test);
  assert_int_equal (n_warned, 0);
}

int
main (void)
{
#define CASE(test) \
  cmocka_unit_test_setup_teardown (test, cro_test_window_open_demo, cro_test_window_close)
  const struct CMUnitTest tests[] = {
    CASE (test_parts_are_walked_both_ways),
    CASE (test_parts_begin_with_no_name_that_is_selected),
    CASE (test_parts_come_in_their_order),
    CASE (test_back_leads_to_the_same_cell),
    CASE (test_back_leads_into_the_same_trial),
    CASE (test_back_leads_to_the_row_of_a_picture),
    CASE (test_a_trial_that_is_kept_says_so),
    CASE (test_going_back_scrolls_back),
    CASE (test_a_trial_without_its_plate_is_named),
    CASE (test_a_price_that_is_missing_is_typed_into_a_price),
    CASE (test_a_line_that_is_opened_lands_in_no_name),
    CASE (test_a_link_lands_in_no_field),
    CASE (test_a_missing_rate_leads_to_its_currency),
    CASE (test_a_missing_setting_leads_to_the_settings),
    CASE (test_a_missing_amount_of_a_by_product_leads_to_it),
    CASE (test_undo_of_what_is_shown_leads_back),
  };

  g_log_set_writer_func (write_log, NULL, NULL);
  return cro_test_window_run (tests);
}
