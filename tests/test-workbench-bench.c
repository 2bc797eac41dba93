/* The benches on the demo book: what is entered reaches the book, what the book says is shown,
 * every control has a name, and nothing outlives its window. */
#include "support/bench-hands.h"

#include "cro-figure-view.h"
#include "cro-all-ingredients.h"
#include "cro-edit-service.h"
#include "cro-ingredient-bench.h"
#include "cro-menu-bench.h"
#include "cro-place-list.h"
#include "cro-plate-bench.h"
#include "cro-preparation-bench.h"
#include "cro-replace-window.h"
#include "cro-reveal.h"

/* --- Every bench ------------------------------------------------------------------------------ */

typedef struct
{
  const char *name;
  CroNames    names;
  GType     (*type) (void);
  const char *shows;
} Bench;

static const Bench benches[] = {
  { "Crab croustade", CRO_NAMES_THINGS, cro_plate_bench_get_type, "Dressed white crab" },
  { "Barley bread", CRO_NAMES_PREPARATIONS, cro_preparation_bench_get_type, "the batch" },
  { "Brown crab", CRO_NAMES_ITEMS, cro_ingredient_bench_get_type, "Quay Shellfish" },
  { "Tide", CRO_NAMES_THINGS, cro_menu_bench_get_type, "Crab croustade" },
};

static void
test_each_shows_its_thing_and_names_its_controls (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (benches); i++)
    {
      CroTestBench test;

      cro_test_bench_open (&test);
      cro_test_bench_show (&test, benches[i].type (),
                           cro_test_find_ref (&test, benches[i].names, benches[i].name));
      assert_shown (&test, benches[i].shows);
      assert_named (GTK_WIDGET (test.bench), benches[i].name);
      cro_test_bench_close (&test);
    }
}

/* Two things after each other on one bench: rows are made anew, and undone removals come back. */
static void
test_each_shows_another_thing (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (benches); i++)
    {
      CroTestBench test;
      CroRef ref, copy;
      GError *error = NULL;

      cro_test_bench_open (&test);
      ref = cro_test_find_ref (&test, benches[i].names, benches[i].name);
      cro_test_must (cro_edit_duplicate (test.book, "copy", ref, "A copy", &copy, &error), error);
      cro_test_bench_show (&test, benches[i].type (), ref);
      cro_bench_put (test.bench, copy.slot);
      cro_test_must (cro_edit_remove (test.book, "removal", copy, &error), error);
      cro_test_settle ();
      undo (&test);
      cro_bench_put (test.bench, copy.slot);
      assert_shown (&test, benches[i].shows);
      cro_test_bench_close (&test);
    }
}

/* --- Figures ---------------------------------------------------------------------------------- */

/* As an assistive technology does: a pointer is kept from a figure that has no sum. */
static guint
press_figures (GtkWidget *widget)
{
  guint n = 0;

  if (CRO_IS_FIGURE_VIEW (widget) && gtk_widget_get_mapped (widget))
    {
      g_signal_emit_by_name (gtk_widget_get_first_child (widget), "clicked");
      cro_test_settle ();
      return 1;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += press_figures (child);
  return n;
}

static void
test_every_figure_may_be_pressed (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (benches); i++)
    {
      CroTestBench test;

      cro_test_bench_open (&test);
      cro_test_bench_show (&test, benches[i].type (),
                           cro_test_find_ref (&test, benches[i].names, benches[i].name));
      assert_true (press_figures (GTK_WIDGET (test.bench)) >= 3);
      cro_test_bench_close (&test);
    }
}

static void
check_widths (GtkWidget *widget)
{
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    check_widths (child);
  for (int height = 10; GTK_IS_LABEL (widget) && height < 60; height += 10)
    {
      int least, wanted, baseline;

      /* Asked of the label itself: what is wrong with its answer GTK would put right. */
      GTK_WIDGET_GET_CLASS (widget)->measure (widget, GTK_ORIENTATION_HORIZONTAL, height, &least, &wanted, &baseline,
                                              &baseline);
      if (least > wanted)
        fail_msg ("%s: at least %d, wanted %d", gtk_label_get_label (GTK_LABEL (widget)), least, wanted);
    }
}

/* GTK warns of a widget that wants less than it must have. */
static void
test_a_caption_of_narrow_letters_wants_its_least (void **state)
{
  GtkWidget *view = g_object_ref_sink (cro_figure_view_new (NULL, NULL));

  cro_figure_view_set (CRO_FIGURE_VIEW (view), "1", "il, l’île, l’if, ici", "1 l, 1 l, 1 l");
  check_widths (view);
  g_object_unref (view);
}

/* Sea purslane has no price, and a credit may lower what Tide costs. */
static void
test_what_is_left_is_marked_over_a_missing_price (void **state)
{
  CroTestBench *test = *state;

  cro_test_bench_show (test, CRO_TYPE_MENU_BENCH, cro_test_find_ref (test, CRO_NAMES_THINGS, "Tide"));
  assert_shown (test, "at most 61.01");
  assert_shown (test, "86.36 − at least 25.35 food");
  press (test, "at most 61.01");
  assert_shown (test, "−");
}

static void
test_labour_of_a_batch_opens_as_its_sum (void **state)
{
  CroTestBench *test = *state;

  cro_test_bench_show (test, CRO_TYPE_PREPARATION_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_PREPARATIONS, "Barley bread"));
  press (test, "labour");
  assert_shown (test, "minutes");
  assert_shown (test, "per hour");
}

/* A pocket calculator takes 6.85 from 21.82 and has 14.97. */
static void
test_what_is_left_is_the_difference_that_is_shown (void **state)
{
  CroTestBench *test = *state;

  cro_test_bench_show (test, CRO_TYPE_PLATE_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_THINGS, "Oysters, half-dozen"));
  assert_shown (test, "14.96");
  assert_shown (test, "21.818 − 6.855 food");
}

/* NULL: there is none. */
static GtkWindow *
find_replace_window (void)
{
  g_autoptr (GList) windows = gtk_window_list_toplevels ();

  for (GList *at = windows; at != NULL; at = at->next)
    if (CRO_IS_REPLACE_WINDOW (at->data))
      return at->data;
  return NULL;
}

static gboolean
says (GtkWidget  *widget,
      const char *part)
{
  gboolean found = GTK_IS_LABEL (widget) && gtk_widget_get_mapped (widget)
                   && strstr (gtk_label_get_label (GTK_LABEL (widget)), part) != NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && !found;
       child = gtk_widget_get_next_sibling (child))
    found = says (child, part);
  return found;
}

/* What takes it is listed, and something else is offered in its place. */
static void
test_what_is_in_use_is_not_removed (void **state)
{
  CroTestBench *test = *state;
  GtkWindow *window;

  cro_test_bench_show (test, CRO_TYPE_INGREDIENT_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_ITEMS, "Agar"));
  assert_true (gtk_widget_activate_action (GTK_WIDGET (test->bench), "bench.remove", NULL));
  cro_test_settle ();
  window = find_replace_window ();
  assert_non_null (window);
  assert_string_equal (gtk_window_get_title (window), "Replace Agar");
  assert_true (says (GTK_WIDGET (window), "is used in: "));
  assert_true (says (GTK_WIDGET (window), "Cucumber-juniper gel"));
  gtk_window_destroy (window);
  cro_test_settle ();
  assert_false (cro_model_item (model_of (test), cro_bench_get_slot (test->bench))->is_dead);
}

/* Covers that were planned go with a menu, which is said; one that was sold stays, with what to do. */
static void
test_a_menu_goes_with_its_covers (void **state)
{
  CroTestBench *test = *state;
  CroRef tide = cro_test_find_ref (test, CRO_NAMES_THINGS, "Tide"), copy;
  GError *error = NULL;

  cro_test_bench_show (test, CRO_TYPE_MENU_BENCH, tide);
  assert_true (gtk_widget_activate_action (GTK_WIDGET (test->bench), "bench.remove", NULL));
  cro_test_settle ();
  assert_non_null (strstr (test->said->str, "sales. Months need it for what was sold; it can be renamed."));
  assert_false (cro_model_menu (model_of (test), tide.slot)->is_dead);

  cro_test_must (cro_edit_duplicate (test->book, "copy", tide, "Ebb", &copy, &error), error);
  cro_test_must (cro_edit_set_covers (test->book, "covers", CRO_TEST_DAY, "dinner", copy, 20 * 1000000, &error),
                 error);
  cro_bench_put (test->bench, copy.slot);
  assert_true (gtk_widget_activate_action (GTK_WIDGET (test->bench), "bench.remove", NULL));
  cro_test_settle ();
  assert_non_null (strstr (test->said->str, "“Ebb” was removed, with its covers for 1 service."));
  assert_true (cro_model_menu (model_of (test), copy.slot)->is_dead);
}

/* Filters narrow the rows together; where none is left one press brings all back, with the focus. */
static void
test_filters_are_cleared_together (void **state)
{
  CroTestBench *test = *state;
  static const char *const marks[] = { "Only over target", "Only incomplete", "Only unused" };

  cro_test_bench_show (test, CRO_TYPE_ALL_INGREDIENTS, CRO_REF (CRO_REF_ITEM, CRO_NO_SLOT));
  assert_shown (test, "84 rows");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "Clear Filters"));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (named (test, marks[0])), TRUE);
  assert_shown (test, "21 of 84 rows");
  for (gsize i = 1; i < G_N_ELEMENTS (marks); i++)
    gtk_check_button_set_active (GTK_CHECK_BUTTON (named (test, marks[i])), TRUE);
  assert_shown (test, "Nothing passes the filters.");
  press (test, "Clear Filters");
  assert_shown (test, "84 rows");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "Clear Filters"));
  assert_focus (test, marks[0]);
}

/* Of what nobody has stated nothing passes, and it may be there: it is told, and a press leads to it. */
static void
test_what_is_not_stated_is_told_beside_an_allergen (void **state)
{
  CroTestBench *test = *state;
  CroRef ref = cro_test_find_ref (test, CRO_NAMES_ITEMS, "Barley flour");
  gint64 id = cro_model_item (model_of (test), ref.slot)->id;
  CroCell none = CRO_CELL_NONE;
  GError *error = NULL;

  cro_test_must (cro_book_set (test->book, "allergens", "ingredient", id, "allergens", &none, &error), error);
  cro_test_bench_show (test, CRO_TYPE_INGREDIENT_BENCH, ref);
  assert_shown (test, "Nothing is missing for its cost; its allergens are not stated");
  gtk_window_destroy (GTK_WINDOW (test->window));
  cro_test_bench_show (test, CRO_TYPE_ALL_INGREDIENTS, CRO_REF (CRO_REF_ITEM, CRO_NO_SLOT));
  assert_shown (test, "84 rows");
  assert_null (cro_test_find_containing (GTK_WIDGET (test->bench), "allergens are not stated"));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (named (test, "Allergen")), 4);
  cro_test_settle ();
  cro_test_wait_until (cro_test_find_containing (GTK_WIDGET (test->bench), "allergens are not stated") != NULL,
                       "nothing is told of what is not stated");
}

/* --- The larder's list ------------------------------------------------------------------------ */

/* What is named otherwise stands elsewhere in the list, which goes there with it. */
static void
check_name_is_followed (CroTestBench *test,
                        GtkWidget    *list)
{
  CroRef crab = cro_test_find_ref (test, CRO_NAMES_ITEMS, "Brown crab");
  GtkWidget *row = NULL;
  g_autoptr (GError) error = NULL;

  gtk_window_set_default_size (GTK_WINDOW (test->window), 300, 500);
  cro_test_wait_until (gtk_widget_get_height (list) < 600, "the window is not low");
  cro_test_must (cro_edit_rename (test->book, "name", crab, "Zander", &error), error);
  cro_test_wait_until ((row = cro_test_find_shown (list, "Zander")) != NULL && cro_reveal_is_seen (row),
                       "the row of what has a new name is not in sight");
}

static void
test_the_larder_is_filtered (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *list = g_object_new (CRO_TYPE_PLACE_LIST, NULL);
  GtkWidget *filter;

  test->window = adw_window_new ();
  adw_window_set_content (ADW_WINDOW (test->window), list);
  gtk_window_set_default_size (GTK_WINDOW (test->window), 300, 3000);
  gtk_window_present (GTK_WINDOW (test->window));
  cro_place_list_set_book (CRO_PLACE_LIST (list), test->book);
  cro_place_list_set_place (CRO_PLACE_LIST (list), CRO_PLACE_LARDER);
  while (!gtk_widget_get_mapped (list))
    g_main_context_iteration (NULL, TRUE);
  cro_test_settle ();
  filter = cro_test_find_named (list, "Filter");
  gtk_drop_down_set_selected (GTK_DROP_DOWN (filter), 1);
  cro_test_wait_shown (list, "Sea purslane");
  assert_null (cro_test_find_shown (list, "Barley flour"));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (filter), 2);
  cro_test_wait_shown (list, "Barley flour");
  /* What costs nothing has no price that grows old. */
  assert_null (cro_test_find_shown (list, "Alexanders seed"));
  /* What is opened from elsewhere is listed. */
  cro_place_list_select (CRO_PLACE_LIST (list), CRO_KIND_INGREDIENT,
                         cro_test_find_ref (test, CRO_NAMES_ITEMS, "Brown crab").slot);
  cro_test_wait_shown (list, "Brown crab");
  check_name_is_followed (test, list);
  gtk_window_destroy (GTK_WINDOW (test->window));
  /* Rows that have left the list hold the book until they are let go of. */
  cro_test_wait_until (G_OBJECT (test->book)->ref_count == 1, "rows that are gone hold the book");
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, open_book, close_book)
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_each_shows_its_thing_and_names_its_controls),
    cmocka_unit_test (test_each_shows_another_thing),
    cmocka_unit_test (test_every_figure_may_be_pressed),
    cmocka_unit_test (test_a_caption_of_narrow_letters_wants_its_least),
    CASE (test_what_is_left_is_marked_over_a_missing_price),
    CASE (test_what_is_left_is_the_difference_that_is_shown),
    CASE (test_labour_of_a_batch_opens_as_its_sum),
    CASE (test_what_is_in_use_is_not_removed),
    CASE (test_a_menu_goes_with_its_covers),
    CASE (test_filters_are_cleared_together),
    CASE (test_what_is_not_stated_is_told_beside_an_allergen),
    CASE (test_the_larder_is_filtered),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
