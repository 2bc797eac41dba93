/* A field of the window: typing previews, Enter keeps, Escape restores, and what is wrong or was
 * changed elsewhere is said without touching what was typed. */
#include "support/bench-hands.h"

#include "cro-breakdown.h"
#include "cro-input.h"
#include "cro-plate-bench.h"

#define PLATE "Crab croustade"
#define MAKES "bites made of " PLATE

static int
open_plate (void **state)
{
  open_book (state);
  cro_test_bench_show (*state, CRO_TYPE_PLATE_BENCH,
                       cro_test_find_ref (*state, CRO_NAMES_THINGS, PLATE));
  return 0;
}

static GtkWidget *
makes_of (CroTestBench *test)
{
  return cro_test_find_named (GTK_WIDGET (test->bench), "Makes");
}

static CroInput *
input_of (GtkWidget *entry)
{
  return CRO_INPUT (gtk_widget_get_ancestor (entry, CRO_TYPE_INPUT));
}

static const CroRecipe *
plate_of (CroTestBench *test)
{
  return cro_model_recipe (cro_book_get_model (test->book), cro_bench_get_slot (test->bench));
}

static double
bite_of (CroTestBench *test)
{
  return cro_figure_of_plate (cro_book_get_figures (test->book),
                              cro_bench_get_slot (test->bench)).bite;
}

static void
assert_stored (CroTestBench *test,
               const char   *column,
               const char   *value)
{
  g_autofree char *stored = cro_test_stored (test, "plate", plate_of (test)->id, column);

  if (g_strcmp0 (stored, value) != 0)
    fail_msg ("%s is %s, not %s", column, stored, value);
}

/* --- Cases ------------------------------------------------------------------------------------ */

static const struct
{
  const char *says, *field, *typed, *column, *stored;
} kept[] = {
  { "a number is kept in millionths", "Makes", "30", "makes_micro", "30000000" },
  { "a sum is kept as what it comes to", "Makes", "2 * 12 + 6", "makes_micro", "30000000" },
  { "the other decimal sign is read", "Per guest", "1,5", "per_guest_micro", "1500000" },
  { "a percentage may bear its sign", "Seasoning and handling %", "4.5 %", "allowance_pct_micro", "4500000" },
  { "an emptied field is not set", "Seasoning and handling %", "", "allowance_pct_micro", NULL },
  { "a time may be said in hours", "Minutes", "1 h 10", "active_minutes_micro", "70000000" },
  { "a text is kept without its margins", "Course", "  Snack ", "course", "Snack" },
};

static void
test_enter_keeps (void **state)
{
  CroTestBench *test = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (kept); i++)
    {
      GtkWidget *entry = cro_test_find_named (GTK_WIDGET (test->bench), kept[i].field);
      g_autofree char *stored = NULL;

      cro_test_type (entry, kept[i].typed);
      cro_test_enter (entry);
      stored = cro_test_stored (test, "plate", plate_of (test)->id, kept[i].column);
      if (g_strcmp0 (stored, kept[i].stored) != 0)
        fail_msg ("%s: %s", kept[i].says, stored);
    }
}

static const struct
{
  const char *says, *field, *typed, *reason;
} wrong[] = {
  { "what is no number stays", "Makes", "24 x", "“24 x” is not a number. Type digits, or a sum as in 2 × 1.5." },
  { "a plate makes more than none", "Makes", "0", "“0” is out of range. Type more than 0." },
  { "nothing is divided by nothing", "Makes", "24/0", "“24/0” divides by 0. Type another number." },
  { "a target is at most all of it", "Target %", "130",
    "Type a food cost above 0 %, up to 100 %." },
  { "a value that must be there is asked for", "Makes", "",
    "This cannot be empty. Type a value; Escape gives back the one of before." },
  { "what a time is not is said by its kind", "Minutes", "soon",
    "“soon” is not a time. Type minutes, as in 70, or hours and minutes, as in 1 h 10." },
  { "a name of another thing is taken in any case", "Plate", "tIDE",
    "“Tide” is the name of something else already; choose another." },
};

static void
test_wrong_entry_stays (void **state)
{
  CroTestBench *test = *state;
  double before = bite_of (test);
  g_autofree char *last = dup_last_act (test);
  GtkWidget *more = gtk_widget_get_ancestor (cro_test_find_shown (GTK_WIDGET (test->bench), "More"),
                                             GTK_TYPE_TOGGLE_BUTTON);

  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (more), TRUE);
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      GtkWidget *entry = cro_test_find_named (GTK_WIDGET (test->bench), wrong[i].field);
      g_autofree char *act = NULL;

      cro_test_type (entry, wrong[i].typed);
      cro_test_enter (entry);
      act = dup_last_act (test);
      cro_test_wait_shown (GTK_WIDGET (test->bench), wrong[i].reason);
      if (strcmp (gtk_editable_get_text (GTK_EDITABLE (entry)), wrong[i].typed) != 0
          || bite_of (test) != before || g_strcmp0 (act, last) != 0)
        fail_msg ("%s", wrong[i].says);
      cro_test_escape (entry);
    }
}

static void
test_typing_previews_and_escape_restores (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry = makes_of (test);
  double before = bite_of (test);

  cro_test_type (entry, "48");
  assert_true (bite_of (test) < before);
  assert_stored (test, "makes_micro", "24000000");
  cro_test_escape (entry);
  assert_true (bite_of (test) == before);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (entry)), "24");
  assert_false (cro_input_is_edited (input_of (entry)));
}

static void
test_leaving_keeps (void **state)
{
  CroTestBench *test = *state;

  cro_test_type (makes_of (test), "48");
  gtk_widget_grab_focus (cro_test_find_named (GTK_WIDGET (test->bench), "Course"));
  cro_test_settle ();
  assert_stored (test, "makes_micro", "48000000");
}

/* The window asks this to know whose Ctrl+Z is: the field's as long as its text is not kept. */
static void
test_text_is_the_fields_until_kept (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry = makes_of (test);
  g_autofree char *act = NULL;

  assert_false (cro_input_is_edited (input_of (entry)));
  cro_test_type (entry, "48");
  assert_true (cro_input_is_edited (input_of (entry)));
  cro_test_enter (entry);
  assert_false (cro_input_is_edited (input_of (entry)));
  act = dup_last_act (test);
  assert_string_equal (act, MAKES);
  assert_true (cro_book_undo (test->book, NULL, NULL));
  cro_test_settle ();
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (entry)), "24");
}

static void
test_text_stays_while_others_change_the_value (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry = makes_of (test);
  GError *error = NULL;
  g_autoptr (CroBook) other = cro_book_open (test->folder.path, "other", CRO_STORE_WRITE,
                                             cro_book_get_figures (test->book)->date, &error);
  CroCell cell = CRO_CELL_INT (30000000);

  cro_test_must (other != NULL, error);
  cro_test_type (entry, "48");
  cro_test_must (cro_book_set (other, "bites", "plate", plate_of (test)->id, "makes_micro", &cell,
                               &error), error);
  cro_test_must (cro_book_refresh (test->book, NULL, &error), error);
  cro_test_settle ();
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (entry)), "48");
  assert_non_null (cro_test_find_shown (GTK_WIDGET (test->bench),
                                        "This is now “30”. Press Enter to replace it, Escape to "
                                        "keep it."));
  cro_test_escape (entry);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (entry)), "30");
}

static void
test_doubtful_numbers_are_read_aloud (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry = makes_of (test);

  cro_test_type (entry, "1,234");
  assert_non_null (cro_test_find_shown (GTK_WIDGET (test->bench), "Read as 1.234"));
  cro_test_escape (entry);
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, open_plate, close_book)
  const struct CMUnitTest tests[] = {
    CASE (test_enter_keeps),
    CASE (test_wrong_entry_stays),
    CASE (test_typing_previews_and_escape_restores),
    CASE (test_leaving_keeps),
    CASE (test_text_is_the_fields_until_kept),
    CASE (test_text_stays_while_others_change_the_value),
    CASE (test_doubtful_numbers_are_read_aloud),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
