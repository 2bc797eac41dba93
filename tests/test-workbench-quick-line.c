/* The next line of a plate: what is typed and pasted into it, what it makes, and what it keeps back. */
#include "support/bench-lines.h"

#include "cro-causes-view.h"
#include "cro-draft.h"
#include "cro-field.h"
#include "cro-focus.h"
#include "cro-words.h"

#define PASTED "Crab croustade, for 24\npepper\n- 30 g of butter\n\n2 kg chervil 18/kg\nsalt to taste\n"

static void
test_a_pasted_recipe_is_placed_line_by_line (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry = named (test, "Next line");
  GtkWidget *bench = GTK_WIDGET (test->bench);
  g_autoptr (GArray) before = list_lines (test), placed = NULL, undone = NULL;
  int before_wide, wide;

  gtk_widget_measure (cro_test_find_type (bench, CRO_TYPE_CAUSES_VIEW), GTK_ORIENTATION_HORIZONTAL, -1, &before_wide,
                      NULL, NULL, NULL);
  cro_test_type (entry, PASTED);
  assert_non_null (cro_test_find_containing (bench, "Press Enter to add 2 of 4 lines; the others stay here · "
                                                   "makes 2 new ingredients: butter, chervil"));
  cro_test_enter (entry);
  placed = list_lines (test);
  assert_int_equal (placed->len, before->len + 2);
  assert_true (model_of (test)->lines.amount[line_of (test, "chervil")] == 2000000);
  /* What is left is in the field, with the reason under it, and below. */
  assert_string_equal (text_of (entry), "pepper");
  assert_non_null (cro_test_find_shown (bench, "salt to taste"));
  assert_int_equal (gtk_label_get_ellipsize (GTK_LABEL (cro_test_find_shown (bench, "salt to taste"))),
                    PANGO_ELLIPSIZE_NONE);
  assert_non_null (cro_test_find_shown (bench, "How much?"));
  assert_non_null (cro_test_find_shown (bench, "? 2 lines not added"));
  /* What is missing by now has the room that it had beside the figures: their row does not break. */
  cro_test_see (test->window);
  assert_non_null (cro_test_find_shown (bench, "and 2 others"));
  gtk_widget_measure (cro_test_find_type (bench, CRO_TYPE_CAUSES_VIEW), GTK_ORIENTATION_HORIZONTAL, -1, &wide, NULL,
                      NULL, NULL);
  assert_int_equal (wide, before_wide);
  /* The next comes up as one is placed. */
  cro_test_type (entry, "24 g crab butter");
  cro_test_enter (entry);
  assert_string_equal (text_of (entry), "salt to taste");
  assert_null (cro_test_find_shown (bench, "Not added yet:"));
  assert_non_null (cro_test_find_shown (bench, "? 1 line not added"));
  cro_test_type (entry, "");
  assert_null (cro_test_find_containing (bench, "not added"));
  undo (test);
  undo (test);
  undone = list_lines (test);
  assert_int_equal (undone->len, before->len);
}

/* Escape gives the field back, and leaves what is typed there. */
static void
test_names_offered_give_the_field_back (void **state)
{
  static const guint keys[] = { GDK_KEY_Escape, GDK_KEY_Up };
  CroTestBench *test = *state;
  GtkWidget *entry = named (test, "Next line");

  gtk_widget_grab_focus (entry);
  cro_test_type (entry, "25 g cre");
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    {
      cro_test_key (entry, GDK_KEY_Down);
      assert_false (cro_focus_is_in (entry));
      cro_test_key (named (test, "Similar names"), keys[i]);
      assert_true (cro_focus_is_in (entry));
      assert_string_equal (text_of (entry), "25 g cre");
    }
  cro_test_escape (entry);
  assert_string_equal (text_of (entry), "");
}

/* A name that is like one of the book makes no second one in silence, and one choice takes what is there. */
static void
test_a_paste_takes_what_is_like_it (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry = named (test, "Next line"), *label;
  GtkWidget *bench = GTK_WIDGET (test->bench);
  guint n_items = model_of (test)->items->len;
  g_autoptr (GArray) before = list_lines (test), placed = NULL;

  cro_test_type (entry, "20 g roe\n2 kg chervil root\n");
  assert_non_null (cro_test_find_shown (bench, "Press Enter to add 2 lines · "
                                              "makes 2 new ingredients: roe, chervil root"));
  label = cro_test_find_shown (bench, "Take “Trout roe” for “roe” (Shift+Enter)");
  assert_non_null (label);
  gtk_widget_activate (gtk_widget_get_parent (label));
  cro_test_settle ();
  placed = list_lines (test);
  assert_int_equal (placed->len, before->len + 2);
  assert_int_equal (model_of (test)->items->len, n_items + 1);
  assert_string_equal (text_of (entry), "");
  undo (test);
}

static gboolean
press_key (GtkWidget      *entry,
           guint           key,
           GdkModifierType state)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (entry);
  gboolean done = FALSE;

  for (guint i = 0; i < g_list_model_get_n_items (controllers) && !done; i++)
    {
      g_autoptr (GtkEventController) one = g_list_model_get_item (controllers, i);

      if (GTK_IS_EVENT_CONTROLLER_KEY (one))
        g_signal_emit_by_name (one, "key-pressed", key, 36, state, &done);
    }
  cro_test_settle ();
  return done;
}

/* The same by its key: a name that is one slip away is taken, and where nothing is like what is new it is said. A
 * price of what has one is not taken, which is said before and after, but not of the price that it has; and a number
 * is said that could have been another. */
static void
test_a_paste_is_taken_by_its_key (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry = named (test, "Next line");
  GtkWidget *bench = GTK_WIDGET (test->bench);
  guint n_items = model_of (test)->items->len;
  g_autoptr (GArray) before = list_lines (test), placed = NULL;
  g_autofree char *cost = cro_words_item_cost (cro_book_get_figures (test->book),
                                               cro_test_find_ref (test, CRO_NAMES_ITEMS, "Brown crab").slot);
  g_autofree char *again = g_strdup_printf ("1.000 g Trout roe\n10 g Brown crab %s\n", cost);

  cro_test_type (entry, "2 kg chervil root\n1 kg samphire oil\n");
  assert_true (press_key (entry, GDK_KEY_Return, GDK_SHIFT_MASK));
  assert_non_null (cro_test_find_containing (bench, "No name of the book is like one that is new here."));
  cro_test_type (entry, "5 g Crab butter 12/kg");
  assert_non_null (cro_test_find_shown (bench, "“Crab butter” comes from a preparation and has no price of its own; "
                                              "remove the price."));
  cro_test_type (entry, "5 g Crab butter 12/kg\n5 g Brown crab\n");
  assert_non_null (cro_test_find_containing (bench, "price 12/kg not taken: Crab butter comes from a preparation and "
                                                   "has no price of its own"));
  cro_test_type (entry, "20 g Troutroe\n30 g brown crabb\n10 g Brown crab 99/kg\n");
  assert_non_null (cro_test_find_containing (bench, "price 99/kg not taken: Brown crab costs "));
  assert_non_null (cro_test_find_containing (bench, "“Trout roe” for “Troutroe”, “Brown crab” for “brown crabb”"));
  assert_true (press_key (entry, GDK_KEY_Return, GDK_SHIFT_MASK));
  placed = list_lines (test);
  assert_int_equal (placed->len, before->len + 3);
  assert_int_equal (model_of (test)->items->len, n_items);
  assert_string_equal (text_of (entry), "");
  assert_non_null (strstr (test->said->str, "price 99/kg not taken: Brown crab costs "));
  undo (test);
  cro_test_type (entry, again);
  assert_non_null (cro_test_find_containing (bench, "Trout roe: read as 1"));
  assert_null (cro_test_find_containing (bench, "not taken"));
  g_string_truncate (test->said, 0);
  cro_test_enter (entry);
  assert_string_equal (test->said->str, "Trout roe: read as 1\n");
  undo (test);
  /* A title of another recipe goes into the note with what follows, and both are counted. */
  cro_test_type (entry, "Another crab, for 10\n20 g Trout roe\nMethod\nFold it in gently.\n");
  assert_non_null (cro_test_find_containing (bench, "2 rows go into the note"));
  cro_test_escape (entry);
}

/* What the key for it does in the field itself, where the window leaves it the key. */
static void
undo_in_field (GtkWidget *entry)
{
  gtk_widget_activate_action (GTK_WIDGET (gtk_editable_get_delegate (GTK_EDITABLE (entry))), "text.undo", NULL);
}

/* Ctrl+Z takes back what was typed, and is the book's where the line was put there for the person: no line is lost. */
static void
test_undo_loses_no_line_that_was_left (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry = named (test, "Next line"), *bench = GTK_WIDGET (test->bench);
  g_autoptr (GArray) before = list_lines (test), undone = NULL;

  cro_test_type (entry, PASTED);
  cro_test_enter (entry);
  assert_true (cro_entry_is_put (entry));
  undo_in_field (entry);
  assert_string_equal (text_of (entry), "pepper");
  undo (test);
  cro_test_settle ();
  undone = list_lines (test);
  assert_int_equal (undone->len, before->len);
  assert_string_equal (text_of (entry), "pepper");
  assert_non_null (cro_test_find_shown (bench, "? 2 lines not added"));
  /* The same for one that was waiting. */
  cro_test_escape (entry);
  g_signal_emit_by_name (gtk_widget_get_parent (cro_test_find_shown (bench, "salt to taste")), "clicked");
  assert_true (cro_entry_is_put (entry));
  cro_test_escape (entry);
  /* Refused as it was typed, a line is no other: the typing is undone. Newer toolkits take what is set for no
   * typing. */
  gtk_widget_grab_focus (entry);
  g_signal_emit_by_name (gtk_editable_get_delegate (GTK_EDITABLE (entry)), "insert-at-cursor", "butter");
  cro_test_enter (entry);
  assert_non_null (cro_test_find_shown (bench, "? 1 line not added"));
  assert_false (cro_entry_is_put (entry));
  undo_in_field (entry);
  assert_string_equal (text_of (entry), "");
  assert_null (cro_test_find_containing (bench, "not added"));
}

static void
test_unplaced_text_waits_on_its_plate (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry = named (test, "Next line");
  guint32 here = cro_bench_get_slot (test->bench);

  cro_test_type (entry, PASTED);
  cro_test_enter (entry);
  cro_bench_put (test->bench, cro_test_find_ref (test, CRO_NAMES_THINGS, "Brown crab on toast").slot);
  cro_test_settle ();
  assert_string_equal (text_of (entry), "");
  assert_null (cro_test_find_containing (GTK_WIDGET (test->bench), "not added"));
  cro_bench_put (test->bench, here);
  cro_test_settle ();
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "not added"));
  assert_string_equal (text_of (entry), "pepper");
  assert_non_null (cro_test_find_shown (GTK_WIDGET (test->bench), "salt to taste"));
  g_signal_emit_by_name (named (test, "Forget “salt to taste”"), "clicked");
  cro_test_settle ();
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "salt to taste"));
}

/* What a window writes down when it closes, and types again when it opens. */
static void
test_unplaced_lines_are_part_of_the_draft (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *bench = GTK_WIDGET (test->bench);
  GtkWidget *entry = named (test, "Next line");
  g_autoptr (GHashTable) texts = NULL;

  cro_test_type (entry, PASTED);
  cro_test_enter (entry);
  texts = cro_draft_list (bench);
  g_signal_emit_by_name (named (test, "Forget “salt to taste”"), "clicked");
  cro_test_type (entry, "");
  assert_null (cro_test_find_shown (bench, "salt to taste"));
  cro_draft_put (bench, texts);
  cro_test_settle ();
  assert_string_equal (text_of (entry), "pepper");
  assert_non_null (cro_test_find_shown (bench, "salt to taste"));
}

/* The row of the list under the next line that holds a text is chosen. */
static void
choose_below (CroTestBench *test,
              const char   *text)
{
  GtkWidget *label = cro_test_find_shown (GTK_WIDGET (test->bench), text);

  assert_non_null (label);
  assert_true (gtk_widget_activate (gtk_widget_get_ancestor (label, GTK_TYPE_LIST_BOX_ROW)));
  cro_test_settle ();
}

static void
test_a_missing_preparation_is_made_from_its_line (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry = named (test, "Next line");
  CroRef opened = CRO_REF_NOWHERE;
  guint32 item;

  g_signal_connect (test->bench, "open-ref", G_CALLBACK (opened_cb), &opened);
  cro_test_type (entry, "30 g samphire oil");
  choose_below (test, "New preparation “samphire oil” (Shift+Enter)");
  assert_string_equal (text_of (entry), "");
  item = model_of (test)->lines.item[line_of (test, "samphire oil")];
  assert_true (cro_model_item (model_of (test), item)->is_main);
  assert_int_equal (opened.kind, CRO_REF_ITEM);
  assert_int_equal (opened.slot, item);
  /* What is bought at a price is no preparation. */
  cro_test_type (entry, "30 g samphire powder 9/kg");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench),
                                    "New preparation “samphire powder” (Shift+Enter)"));
  cro_test_escape (entry);
}

/* Who types a recipe off paper does not see that a line was refused: the next one does not take its place. */
static void
test_a_refused_line_is_not_typed_over (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry = named (test, "Next line"), *bench = GTK_WIDGET (test->bench);

  cro_test_type (entry, "600 g fennel 3.20/kg, loss 18 %");
  cro_test_enter (entry);
  gtk_editable_select_region (GTK_EDITABLE (entry), 0, -1);
  press_key (entry, GDK_KEY_4, 0);
  cro_test_type (entry, "40 g dill 13.20/kgg");
  assert_non_null (cro_test_find_shown (bench, "600 g fennel 3.20/kg, loss 18 %"));
  cro_test_enter (entry);
  assert_non_null (cro_test_find_shown (bench, "? 2 lines not added"));
  /* Who empties the field means it. */
  gtk_editable_select_region (GTK_EDITABLE (entry), 0, -1);
  press_key (entry, GDK_KEY_BackSpace, 0);
  cro_test_type (entry, "");
  assert_non_null (cro_test_find_shown (bench, "? 1 line not added"));
  cro_test_type (entry, "");
}

/* The same line put right is no next one: what was refused is done with. One of another name is. */
static void
test_a_refused_line_put_right_does_not_come_back (void **state)
{
  static const struct { const char *refused, *then; gboolean is_same; } cases[] = {
    { "1.8 kg lamb saddle 21.40/kg loss 30 %", "1.8 kg lamb saddle 21.40/kg", TRUE },
    { "40 gg dill 13.20/kgg", "40 g Dill 13.20/kg", TRUE },
    { "600 g sea salt 3/kgg", "20 g salt 2/kg", FALSE },
    { "30 g butter milk 3/kgg", "30 g butter 9/kg", FALSE },
  };
  static const char *const tries[] = { "300 g dill 18/kg trim 20 %", "300 g dill 18/kg loss 20 %",
                                       "300 g dill 18/kg trimmed" };
  CroTestBench *test = *state;
  GtkWidget *entry = named (test, "Next line"), *bench = GTK_WIDGET (test->bench);

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      cro_test_type (entry, cases[i].refused);
      cro_test_enter (entry);
      gtk_editable_select_region (GTK_EDITABLE (entry), 0, -1);
      press_key (entry, GDK_KEY_1, 0);
      cro_test_type (entry, cases[i].then);
      cro_test_enter (entry);
      assert_string_equal (text_of (entry), cases[i].is_same ? "" : cases[i].refused);
      assert_true ((cro_test_find_shown (bench, "? 1 line not added") == NULL) == cases[i].is_same);
      cro_test_type (entry, "");
    }
  /* Put right at the third try. */
  for (gsize i = 0; i < G_N_ELEMENTS (tries); i++)
    {
      gtk_editable_select_region (GTK_EDITABLE (entry), 0, -1);
      press_key (entry, GDK_KEY_3, 0);
      cro_test_type (entry, tries[i]);
      cro_test_enter (entry);
    }
  assert_string_equal (text_of (entry), "");
  assert_null (cro_test_find_shown (bench, "not added"));
}

static void
test_the_next_line_says_how_it_reads (void **state)
{
  static const struct { const char *typed, *says; } cases[] = {
    { "40 g dill 13.20/kg trimmed", "Costs 0.88 · Press Enter to add it and set its price from today · trimmed" },
    { "40 g dill, as bought", "Costs 0.88 · Press Enter to add it · as bought" },
    { "40 g dill 13.20/kg fresh",
      "“fresh” after the price is not understood. Use “trimmed” or “as bought”; a note follows a comma." },
    { "40 g dill 13.20/kg, loss 18 %",
      "“loss 18 %” would not count here; remove it, and set the ingredient’s trim yield in the larder." },
    { "40 g dill 13.20/kg trim 18 %",
      "“trim 18 %” would not count here; remove it, and set the ingredient’s trim yield in the larder." },
    { "40 g dill 13.20/kg, 30 % off",
      "“30 % off” would not count here; remove it, and type the price that is paid, such as 9.20/kg." },
    { "40 g dill 13.20/kg, gross 80 g",
      "“gross 80 g” would not count here; remove it. What is lost of an ingredient is its trim yield, in the larder." },
    { "40 g dill 13.20/kg, now 15/kg",
      "“13.20/kg” is a price, and there is another behind it; type the one that is paid." },
    { "40 g dill 13.20/kg, TTC",
      "“TTC” would not count here; remove it, and type the price without tax, such as 9.20/kg." },
    { "40 g dill 13.20/kgg", "“13.20/kgg” is not a price such as 9.20/kg." },
    { "0 g dill", "“0” is not an amount. Type a number and a unit, as in 1.5 kg." },
    { "2 cups dill", "“cups” has several sizes: type US cup or metric cup." },
    { "½ bunch dill", "“bunch” has no fixed size: type a weight or a volume, or pc." },
    { "40 g dill, chopped", "Costs 1.47 · Press Enter to add it · note: chopped" },
    { "6 egg yolks", "Press Enter to add it · no piece weight for Egg yolk" },
    { "1.000 g dill", "Costs 0.04 · Press Enter to add it · read as 1" },
    { "40 g dill 9 EUR", "“9 EUR” for how much? Type 9 EUR/kg or 9 EUR each." },
    { "- ", "Type an amount and a name; with a price the ingredient is made too" },
    { "40 g samphire oil", "“samphire oil” is not in the book yet" },
    { "40 g samphire oil 10/kg",
      "Costs 0.40 · Press Enter to make the ingredient “samphire oil” with its price" },
    { "40 g roe", "Press Enter to make the new ingredient “roe”, ↓ to take “Trout roe”" },
  };
  CroTestBench *test = *state;
  GtkWidget *entry = named (test, "Next line");

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      cro_test_type (entry, cases[i].typed);
      if (cro_test_find_shown (GTK_WIDGET (test->bench), cases[i].says) == NULL)
        fail_msg ("\"%s\" does not say \"%s\"", cases[i].typed, cases[i].says);
    }
  cro_test_escape (entry);
}

static guint
count_rows (CroTestBench *test)
{
  GtkWidget *row = gtk_widget_get_ancestor (named (test, "amount of Trout roe per batch"),
                                            CRO_TYPE_LINE_ROW);
  guint n = 0;

  for (row = gtk_widget_get_first_child (gtk_widget_get_parent (row)); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    n += CRO_IS_LINE_ROW (row);
  return n;
}

/* The first of many lines do not wait for the last, which is there when it is asked for. */
static void
test_many_lines_come_a_few_at_a_time (void **state)
{
  CroTestBench *test = *state;
  g_autoptr (GString) text = g_string_new (NULL);
  g_autoptr (GArray) lines = NULL;
  GtkWidget *entry = named (test, "Next line");

  for (guint i = 0; i < 150; i++)
    g_string_append_printf (text, "%u g butter 9/kg\n", i + 1);
  gtk_editable_set_text (GTK_EDITABLE (entry), text->str);
  g_signal_emit_by_name (entry, "activate");
  cro_book_tell (test->book);
  lines = list_lines (test);
  assert_int_equal (lines->len, 159);
  assert_true (count_rows (test) < 159);
  act_on (test, g_array_index (lines, guint32, 158), "line.move-up");
  assert_int_equal (count_rows (test), 159);
  undo (test);
  undo (test);
  assert_int_equal (count_rows (test), 9);
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, open_plate, close_book)
  const struct CMUnitTest tests[] = {
    CASE (test_a_pasted_recipe_is_placed_line_by_line),
    CASE (test_names_offered_give_the_field_back),
    CASE (test_a_paste_takes_what_is_like_it),
    CASE (test_a_paste_is_taken_by_its_key),
    CASE (test_undo_loses_no_line_that_was_left),
    CASE (test_unplaced_text_waits_on_its_plate),
    CASE (test_unplaced_lines_are_part_of_the_draft),
    CASE (test_a_missing_preparation_is_made_from_its_line),
    CASE (test_a_refused_line_is_not_typed_over),
    CASE (test_a_refused_line_put_right_does_not_come_back),
    CASE (test_the_next_line_says_how_it_reads),
    CASE (test_many_lines_come_a_few_at_a_time),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
