/* Made of, beside a plate's lines: its sentence, and its bands walked by keys. */
#include "support/bench-hands.h"

#include <string.h>

#include "cro-cause.h"
#include "cro-edit.h"
#include "cro-flow-stream.h"
#include "cro-ingredient-bench.h"
#include "cro-line-row.h"
#include "cro-lines-total.h"
#include "cro-made-of-view.h"
#include "cro-menu-bench.h"
#include "cro-plate-bench.h"
#include "cro-preparation-bench.h"
#include "cro-stream-area.h"

static CroRef opened;
static int opened_cause;

static void
open_ref_cb (CroBench *bench,
             int       kind,
             guint     slot,
             int       cause)
{
  opened = CRO_REF ((CroRefKind) kind, slot);
  opened_cause = cause;
}

/* The day of the design's own figures. */
static CroStreamArea *
show (CroTestBench *test,
      GType         type,
      CroNames      names,
      const char   *name)
{
  GError *error = NULL;
  GtkWidget *area;

  cro_test_must (cro_book_set_date (test->book, cro_date_from_civil (2026, 11, 28), &error), error);
  cro_test_bench_show (test, type, cro_test_find_ref (test, names, name));
  gtk_window_set_default_size (GTK_WINDOW (test->window), 1340, 760);
  cro_test_settle ();
  opened = CRO_REF_NOWHERE;
  g_signal_connect (test->bench, "open-ref", G_CALLBACK (open_ref_cb), NULL);
  assert_true (gtk_widget_activate_action (GTK_WIDGET (test->bench), "bench.picture", "i",
                                           CRO_PICTURE_MADE_OF));
  cro_test_settle ();
  area = cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_STREAM_AREA);
  assert_non_null (area);
  cro_test_wait_until (gtk_widget_get_width (area) > 0, "the stream has no room");
  /* It is laid out when it is first drawn. */
  cro_test_wait_until (cro_stream_n_places (cro_stream_area_get_stream (CRO_STREAM_AREA (area))) > 0,
                       "the stream has no bands");
  return CRO_STREAM_AREA (area);
}

static void
press_key (CroStreamArea *area,
           guint          key)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (GTK_WIDGET (area));

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GObject) controller = g_list_model_get_item (controllers, i);
      gboolean is_done;

      if (GTK_IS_EVENT_CONTROLLER_KEY (controller))
        g_signal_emit_by_name (controller, "key-pressed", key, 0, 0, &is_done);
    }
  cro_test_settle ();
}

static void
assert_chosen (CroStreamArea *area,
               const char    *name)
{
  guint chosen = cro_stream_area_get_chosen (area);

  assert_int_not_equal (chosen, CRO_STREAM_NOWHERE);
  assert_string_equal (cro_stream_get_place (cro_stream_area_get_stream (area), chosen).name, name);
}

static void
test_half_the_cost_is_said (void **state)
{
  CroTestBench *test = *state;
  CroStreamArea *area = show (test, CRO_TYPE_PLATE_BENCH, CRO_NAMES_THINGS, "Crab croustade");

  assert_shown (test, "Brown crab is 0.46 of at least 0.84; Trout roe 0.19");
  assert_true (gtk_window_get_focus (GTK_WINDOW (test->window)) == GTK_WIDGET (area));
  press (test, "Weight");
  if (cro_test_find_shown (GTK_WIDGET (test->bench), "Brown crab is 0.46 of at least 0.84; Trout roe 0.19")
      != NULL)
    fail_msg ("weight is told as weight");
  press (test, "Money");
}

/* The price is known: the sentence says what is not, and the band leads to that. */
static void
test_what_is_missing_is_said_and_reached (void **state)
{
  CroTestBench *test = *state;
  CroNewLine line = { .item = cro_test_find_ref (test, CRO_NAMES_ITEMS, "Agar").slot, .amount = 5000000,
                      .unit = CRO_UNIT_ML };
  GError *error = NULL;
  guint32 plate;
  CroStreamArea *area;

  cro_test_must (cro_edit_add_plate (test->book, "p", "Set water", 1000000, &plate, &error), error);
  cro_test_must (cro_test_add_lines (test->book, plate, CRO_NO_SLOT, &line, 1, NULL, &error), error);
  area = show (test, CRO_TYPE_PLATE_BENCH, CRO_NAMES_THINGS, "Set water");
  assert_shown (test, "No cost is known yet: no density for Agar. Press Enter on its dashed band.");
  press_key (area, GDK_KEY_a);
  press_key (area, GDK_KEY_Right);
  press_key (area, GDK_KEY_Return);
  assert_string_equal (cro_model_item (cro_book_get_model (test->book), opened.slot)->name, "Agar");
  assert_int_equal (opened_cause, CRO_CAUSE_DENSITY);
  /* Its own page says so too. */
  gtk_window_destroy (GTK_WINDOW (test->window));
  cro_test_bench_show (test, CRO_TYPE_INGREDIENT_BENCH, CRO_REF (CRO_REF_ITEM, line.item));
  assert_shown (test, "? no density for Agar");
}

static void
test_a_purchase_is_reached_by_keys (void **state)
{
  CroTestBench *test = *state;
  CroStreamArea *area = show (test, CRO_TYPE_PLATE_BENCH, CRO_NAMES_THINGS, "Crab croustade");
  g_autofree char *spoken = NULL;

  press_key (area, GDK_KEY_d);
  assert_chosen (area, "Dressed white crab");
  press_key (area, GDK_KEY_Right);
  assert_chosen (area, "Brown crab");
  spoken = cro_stream_area_dup_spoken (area);
  assert_non_null (strstr (spoken, "0.46"));
  assert_non_null (strstr (spoken, "White crab meat"));
  press_key (area, GDK_KEY_Left);
  assert_chosen (area, "Dressed white crab");
  press_key (area, GDK_KEY_Right);
  press_key (area, GDK_KEY_Return);
  assert_int_equal (opened.kind, CRO_REF_ITEM);
  assert_string_equal (cro_model_item (cro_book_get_model (test->book), opened.slot)->name, "Brown crab");
  press_key (area, GDK_KEY_Escape);
  assert_int_equal (cro_stream_area_get_chosen (area), CRO_STREAM_NOWHERE);
}

static void
test_others_are_opened_alone (void **state)
{
  CroTestBench *test = *state;
  CroStreamArea *area = show (test, CRO_TYPE_PLATE_BENCH, CRO_NAMES_THINGS, "Crab croustade");
  CroStream *stream = cro_stream_area_get_stream (area);
  guint others = 0;

  while (!cro_stream_get_place (stream, others).is_others)
    if (++others == cro_stream_n_places (stream))
      fail_msg ("nothing is one of others");
  g_signal_emit_by_name (area, "open-place", others);
  cro_test_settle ();
  assert_shown (test, "Whole");
  stream = cro_stream_area_get_stream (area);
  for (guint i = 0; i < cro_stream_n_places (stream); i++)
    if (strcmp (cro_stream_get_place (stream, i).name, "Brown crab") == 0)
      fail_msg ("what is told apart is not one of the others");
  press (test, "Whole");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "Whole"));
}

/* Over the whole bench, and back to the same picture. */
static void
test_larger_and_back (void **state)
{
  CroTestBench *test = *state;
  CroStreamArea *area = show (test, CRO_TYPE_PLATE_BENCH, CRO_NAMES_THINGS, "Crab croustade"), *large;
  int width = gtk_widget_get_width (GTK_WIDGET (area));

  press_key (area, GDK_KEY_space);
  large = CRO_STREAM_AREA (cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_STREAM_AREA));
  cro_test_wait_until (gtk_widget_get_width (GTK_WIDGET (large)) > width, "it is no larger");
  press (test, "Back to the Lines");
  cro_test_wait_until (cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_STREAM_AREA)
                           == GTK_WIDGET (area),
                       "the lines do not come back");
}

/* --- Beside the lines ------------------------------------------------------------------------------- */

static CroRef
plate (CroTestBench *test,
       const char   *name)
{
  return cro_test_find_ref (test, CRO_NAMES_THINGS, name);
}

/* How far from the middle of a line's row its band ends, at most; -1: a line has no band. */
static double
farthest_from_rows (CroTestBench  *test,
                    CroStreamArea *area)
{
  CroModel *model = cro_book_get_model (test->book);
  g_autoptr (GArray) lines = cro_edit_list_lines (cro_book_get_figures (test->book),
                                                  cro_bench_get_slot (test->bench));
  CroStream *stream = cro_stream_area_get_stream (area);
  GtkWidget *row = cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_LINE_ROW);
  double most = 0;

  for (guint i = 0; i < lines->len; i++)
    {
      guint32 line = g_array_index (lines, guint32, i), item = model->lines.item[line];
      gboolean is_food = !cro_model_item (model, item)->is_disposable;
      guint place = cro_stream_find (stream, is_food ? cro_flow_stream_line (line)
                                                     : cro_flow_stream_apart (item));
      CroStreamPlace at;
      graphene_rect_t bounds;

      if (place == CRO_STREAM_NOWHERE)
        return -1;
      at = cro_stream_get_place (stream, place);
      assert_true (gtk_widget_compute_bounds (cro_line_row_get_middle (CRO_LINE_ROW (row)),
                                              GTK_WIDGET (area), &bounds));
      row = gtk_widget_get_next_sibling (row);
      most = MAX (most, ABS (at.y + at.height / 2 - bounds.origin.y - bounds.size.height / 2));
    }
  return most;
}

/* A disposable that goes into a component has no line; what it costs is not nothing. */
static gboolean
is_beside_sum (CroTestBench  *test,
               CroStreamArea *area,
               const char    *name)
{
  guint32 item = cro_test_find_ref (test, CRO_NAMES_ITEMS, name).slot;
  CroStream *stream = cro_stream_area_get_stream (area);
  guint number = cro_stream_find (stream, cro_flow_stream_apart (item));
  GtkWidget *total = cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_LINES_TOTAL);
  CroStreamPlace place;
  graphene_rect_t bounds;

  assert_int_not_equal (number, CRO_STREAM_NOWHERE);
  place = cro_stream_get_place (stream, number);
  assert_string_equal (place.figure, "< 0.01");
  assert_true (gtk_widget_compute_bounds (cro_lines_total_get_last (CRO_LINES_TOTAL (total)), GTK_WIDGET (area),
                                          &bounds));
  return ABS (place.y + place.height / 2 - bounds.origin.y - bounds.size.height / 2) < 1;
}

static gboolean
shows_bars (CroTestBench *test)
{
  GtkWidget *row = cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_LINE_ROW);

  return cro_test_find_type (row, GTK_TYPE_LEVEL_BAR) != NULL;
}

static void
test_bands_end_at_their_rows (void **state)
{
  CroTestBench *test = *state;
  CroStreamArea *area = show (test, CRO_TYPE_PLATE_BENCH, CRO_NAMES_THINGS, "Crab croustade");

  cro_test_wait_until (farthest_from_rows (test, area) < 1, "a band ends beside its row");
  assert_false (shows_bars (test));
  cro_test_wait_until (is_beside_sum (test, area, "Parchment sheet"), "a component's disposable is beside the sum");
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "Bands include seasoning and handling, 3"));
  /* Where rows move their bands do, a frame later. */
  enter (test, "Note", "");
  cro_test_wait_until (farthest_from_rows (test, area) < 1, "a band ends where its row was");
  /* Without the picture, and where it is a table, each row says its share. */
  gtk_widget_activate_action (GTK_WIDGET (area), "made-of.table", NULL);
  cro_test_wait_until (shows_bars (test), "no row says its share");
  gtk_widget_activate_action (GTK_WIDGET (area), "made-of.table", NULL);
  cro_test_wait_until (!shows_bars (test), "shares are said twice");
  cro_test_wait_until (farthest_from_rows (test, area) < 1, "a band ends beside its row");
}

/* Whatever stands over them: the rows of each are no higher than the picture begins. */
static void
test_plates_of_all_kinds_are_tied (void **state)
{
  static const char *const names[] = { "Salt-marsh lamb, celeriac and sea beet", "Fish soup, rouille and toast",
                                       "Barley bread and cultured butter" };
  CroTestBench *test = *state;
  CroStreamArea *area = show (test, CRO_TYPE_PLATE_BENCH, CRO_NAMES_THINGS, "Crab croustade");

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      cro_bench_put (test->bench, plate (test, names[i]).slot);
      cro_test_settle ();
      cro_test_wait_until (farthest_from_rows (test, area) >= 0 && farthest_from_rows (test, area) < 1,
                           "%s: a band ends beside its row", names[i]);
    }
}

static void
test_a_menu_has_one (void **state)
{
  CroTestBench *test = *state;
  CroStreamArea *area = show (test, CRO_TYPE_MENU_BENCH, CRO_NAMES_THINGS, "Tide");

  press_key (area, GDK_KEY_c);
  assert_chosen (area, "Crab croustade");
}

static void
test_a_preparation_has_one (void **state)
{
  CroTestBench *test = *state;
  CroStreamArea *area
      = show (test, CRO_TYPE_PREPARATION_BENCH, CRO_NAMES_PREPARATIONS, "Brown crab, cooked and picked");

  press_key (area, GDK_KEY_Down);
  assert_chosen (area, "Brown crab");
}

int
main (void)
{
#define CASE(function) cmocka_unit_test_setup_teardown (function, open_book, close_book)
  const struct CMUnitTest tests[] = {
    CASE (test_a_menu_has_one),
    CASE (test_a_preparation_has_one),
    CASE (test_bands_end_at_their_rows),
    CASE (test_plates_of_all_kinds_are_tied),
    CASE (test_a_purchase_is_reached_by_keys),
    CASE (test_half_the_cost_is_said),
    CASE (test_larger_and_back),
    CASE (test_others_are_opened_alone),
    CASE (test_what_is_missing_is_said_and_reached),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
