/* The first page: a line makes a book, and what is wrong is said where it stands. */
#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-focus.h"
#include "cro-recent.h"
#include "cro-state.h"
#include "support/book-window.h"

/* --- Hands ------------------------------------------------------------------------------------ */

static void
collect_entries (GtkWidget *widget,
                 GPtrArray *entries)
{
  if (GTK_IS_ENTRY (widget))
    g_ptr_array_add (entries, widget);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    collect_entries (child, entries);
}

/* In the order of the page. */
enum
{
  LINE,
  CURRENCY,
  TAX,
  N_ENTRIES,
};

static GtkWidget *
entry_of (CroTestWindow *test,
          guint          which)
{
  g_autoptr (GPtrArray) entries = g_ptr_array_new ();

  collect_entries (GTK_WIDGET (test->window->welcome), entries);
  assert_int_equal (entries->len, N_ENTRIES);
  return entries->pdata[which];
}

static void
type (CroTestWindow *test,
      guint          which,
      const char    *text)
{
  gtk_editable_set_text (GTK_EDITABLE (entry_of (test, which)), text);
}

/* As typed, and Enter. */
static void
type_all (CroTestWindow *test,
          const char    *line,
          const char    *currency,
          const char    *tax)
{
  type (test, LINE, line);
  type (test, CURRENCY, currency);
  type (test, TAX, tax);
  g_signal_emit_by_name (entry_of (test, LINE), "activate");
}

static gboolean
has_focus (CroTestWindow *test,
           guint          which)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (test->window));

  return focus != NULL && gtk_widget_is_ancestor (focus, entry_of (test, which));
}

static void
assert_none_made (CroTestWindow *test)
{
  cro_test_settle ();
  assert_null (test->window->path);
  assert_null (cro_window_get_book (test->window));
  /* Nothing that was typed is lost. */
  assert_string_not_equal (gtk_editable_get_text (GTK_EDITABLE (entry_of (test, LINE))), "");
}

/* --- A first line ----------------------------------------------------------------------------- */

static void
test_a_line_makes_a_book (void **state)
{
  CroTestWindow *test = *state;
  CroModel *model;

  assert_true (has_focus (test, LINE));
  type_all (test, "25 g butter 9.20/kg", "gbp", "20");
  cro_test_wait_until (cro_window_get_book (test->window) != NULL, "no book is made");
  model = cro_book_get_model (cro_window_get_book (test->window));
  assert_string_equal (model->currency, "GBP");
  assert_int_equal (model->tax, 20 * 1000000);
  assert_int_equal (model->items->len, 1);
  assert_string_equal (cro_model_item (model, 0)->name, "butter");
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (entry_of (test, LINE))), "");
}

static void
test_what_is_no_line_makes_none (void **state)
{
  CroTestWindow *test = *state;

  type_all (test, " ", "", "");
  cro_test_wait_shown (GTK_WIDGET (test->window),
                       "An amount, a name and a price, as in “25 g butter 9.20/kg”.");
  assert_none_made (test);
  type_all (test, "25 g butter 9.20 9.20/kg/l", "", "");
  assert_none_made (test);
}

static void
test_a_tax_that_is_none_is_said (void **state)
{
  CroTestWindow *test = *state;

  type_all (test, "25 g butter 9.20/kg", "", "much");
  cro_test_wait_shown (GTK_WIDGET (test->window), "The tax is not a percentage.");
  assert_true (has_focus (test, TAX));
  assert_none_made (test);
}

static void
test_a_currency_that_is_none_is_said (void **state)
{
  CroTestWindow *test = *state;

  type_all (test, "25 g butter 9.20/kg", "QQQ", "");
  cro_test_wait_shown (GTK_WIDGET (test->window),
                       "The currency is a code of three letters, such as EUR; it can be left empty.");
  assert_true (has_focus (test, CURRENCY));
  assert_none_made (test);
}

/* What is pasted is placed line by line; what is not understood blocks nothing and waits at the plate. */
static void
test_a_pasted_recipe_makes_a_book (void **state)
{
  CroTestWindow *test = *state;
  CroModel *model;

  type (test, LINE, "2 cloves garlic\n25 g butter 9.20 €/kg\n\n3 lb 4 oz crab\n");
  type (test, CURRENCY, "");
  cro_test_wait_shown (GTK_WIDGET (test->window),
                       "Press Enter to make a book with a plate of 2 of 3 lines; the others wait there, "
                       "each with its reason.");
  type_all (test, "2 cloves garlic\n25 g butter 9.20 €/kg\n\n3 lb 4 oz crab\n", "", "");
  cro_test_wait_until (cro_window_get_book (test->window) != NULL, "no book is made");
  model = cro_book_get_model (cro_window_get_book (test->window));
  assert_string_equal (model->currency, "EUR");
  assert_int_equal (model->items->len, 2);
  assert_string_equal (cro_model_item (model, 0)->name, "butter");
  assert_string_equal (cro_model_item (model, 1)->name, "crab");
  cro_test_wait_shown (GTK_WIDGET (test->window),
                       "“cloves” has no fixed size: type a weight or a volume, or pc.");
}

/* Its title names the plate and says what it makes; how it is done goes into the note. */
static void
test_a_whole_recipe_makes_a_book (void **state)
{
  static const char recipe[] = "Crab toast, makes 12\n\nIngredients:\nbutter .... 25 g\n[ ] 600 g crab\nsalt\n"
                               "Method\nMelt the butter.\nFold in the crab\n";
  static const char *const columns[] = { "note", NULL };
  CroTestWindow *test = *state;
  g_autoptr (CroRows) rows = NULL;
  CroBook *book;
  const CroRecipe *plate;

  type_all (test, recipe, "", "");
  cro_test_wait_until (cro_window_get_book (test->window) != NULL, "no book is made");
  book = cro_window_get_book (test->window);
  plate = cro_model_recipe (cro_book_get_model (book), 0);
  assert_string_equal (plate->name, "Crab toast");
  assert_int_equal (plate->makes, 12000000);
  assert_int_equal (cro_book_get_model (book)->items->len, 2);
  rows = cro_store_read_one (cro_book_get_store (book), "plate", plate->id, columns, NULL);
  assert_true (cro_rows_next (rows, NULL));
  assert_string_equal (cro_rows_get_text (rows, 0), "Melt the butter. Fold in the crab");
  cro_test_wait_shown (GTK_WIDGET (test->window), "How much?");
}

/* No book is there yet: a sign of several currencies asks which, and no line is called wrong. */
static void
test_a_sign_of_several_currencies_asks (void **state)
{
  CroTestWindow *test = *state;

  type_all (test, "25 g butter $9.20/kg", "", "");
  cro_test_wait_shown (GTK_WIDGET (test->window), "Which currency? Type its code below, such as EUR.");
  assert_none_made (test);
  type (test, LINE, "25 g butter 9.20/kg");
  cro_test_wait_shown (GTK_WIDGET (test->window),
                       "Press Enter to make a book with a plate, this ingredient and its price.");
}

/* --- What comes back -------------------------------------------------------------------------- */

static void
test_what_is_typed_comes_back (void **state)
{
  CroTestWindow *test = *state;
  g_autofree char *line = NULL, *tax = NULL;
  GtkWidget *other;
  CroTestWindow again = { .folder = test->folder };

  type (test, LINE, "12 g oyst");
  type (test, TAX, "10");
  other = cro_window_new (ADW_APPLICATION (gtk_window_get_application (GTK_WINDOW (test->window))));
  again.window = CRO_WINDOW (other);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (entry_of (&again, LINE))), "12 g oyst");
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (entry_of (&again, TAX))), "10");
  type (&again, LINE, "");
  line = cro_state_dup_text ("welcome", "line");
  assert_null (line);
  type (&again, TAX, "");
  tax = cro_state_dup_text ("welcome", "tax");
  assert_null (tax);
  gtk_window_destroy (GTK_WINDOW (other));
}

/* The newest first, each as a button that opens it; a file that is gone is none of them. */
static void
test_books_of_late_are_offered (void **state)
{
  CroTestWindow *test = *state;
  g_autofree char *gone = g_build_filename (test->folder.folder, "gone.croustade", NULL);
  g_autofree char *name = NULL;
  GtkWidget *label;

  g_object_unref (cro_test_book_create (test->folder.path));
  cro_recent_note (gone);
  cro_recent_note (test->folder.path);
  name = cro_recent_dup_name (test->folder.path);
  cro_test_wait_shown (GTK_WIDGET (test->window->welcome), name);
  label = cro_test_find_shown (GTK_WIDGET (test->window->welcome), name);
  gtk_widget_activate (gtk_widget_get_ancestor (label, GTK_TYPE_BUTTON));
  cro_test_wait_until (cro_window_get_book (test->window) != NULL, "the book of late is not opened");
  assert_string_equal (test->window->path, test->folder.path);
}

/* --- A spreadsheet ---------------------------------------------------------------------------- */

static GtkWidget *
bring_text (CroTestWindow *test,
            const char    *text)
{
  g_autofree char *path = g_build_filename (test->folder.folder, "list.csv", NULL);
  GtkWidget *brought = NULL;

  assert_true (g_file_set_contents (path, text, -1, NULL));
  cro_window_bring (test->window, path);
  cro_test_wait_until ((brought = cro_test_window_find_other (test)) != NULL, "no sheet is shown");
  return brought;
}

static GtkWidget *
bring (CroTestWindow *test)
{
  return bring_text (test, "Ingredient,Price,Pack\nButter,9.20,1 kg\n");
}

/* Not what stands first among all plates: what was brought. */
static void
test_a_sheet_of_recipes_leads_to_its_first (void **state)
{
  CroTestWindow *test = *state;
  CroBook *book = cro_window_get_book (test->window);
  GtkWidget *brought = bring_text (test, "recipe,ingredient,quantity,unit\nToast and eel,Butter,20,g\n,Eel,30,g\n");
  GtkWidget *button = NULL;

  cro_test_wait_until ((button = cro_focus_find (brought, "suggested-action")) != NULL
                           && gtk_widget_get_sensitive (button),
                       "the sheet cannot be imported");
  g_signal_emit_by_name (button, "clicked");
  cro_test_wait_until (cro_test_window_find_other (test) == NULL, "the sheet stays");
  assert_string_equal (cro_ref_name (cro_book_get_model (book), test->window->now), "Toast and eel");
}

/* What was made for it alone goes with it; the page is as it was, and works. */
static void
test_a_sheet_that_is_cancelled_leaves_no_book (void **state)
{
  CroTestWindow *test = *state;
  GtkWidget *brought = bring (test);
  g_autofree char *path = g_strdup (test->window->path);

  assert_true (g_file_test (path, G_FILE_TEST_EXISTS));
  gtk_window_close (GTK_WINDOW (brought));
  cro_test_wait_until (cro_window_get_book (test->window) == NULL, "the book stays open");
  assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
  assert_null (test->window->path);
  assert_string_equal (gtk_stack_get_visible_child_name (test->window->stack), "welcome");
  cro_test_window_see (test);
  type_all (test, "25 g butter 9.20/kg", "EUR", "");
  cro_test_wait_until (cro_window_get_book (test->window) != NULL, "no book is made after it");
}

static void
test_a_book_that_was_worked_in_stays_without_its_sheet (void **state)
{
  CroTestWindow *test = *state;
  GtkWidget *brought = bring (test);
  CroRef plate = { .kind = CRO_REF_RECIPE };
  GError *error = NULL;

  cro_test_must (cro_edit_add_plate (cro_window_get_book (test->window), "plate", "Toast", CRO_MICRO,
                                     &plate.slot, &error),
                 error);
  gtk_window_close (GTK_WINDOW (brought));
  cro_test_wait_until (cro_test_window_find_other (test) == NULL, "the sheet stays");
  assert_non_null (cro_window_get_book (test->window));
  assert_true (g_file_test (test->window->path, G_FILE_TEST_EXISTS));
}

int
main (void)
{
#define CASE(test) \
  cmocka_unit_test_setup_teardown (test, cro_test_window_open_nothing, cro_test_window_close)
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (test_a_sheet_of_recipes_leads_to_its_first, cro_test_window_open_demo,
                                     cro_test_window_close),
    CASE (test_a_line_makes_a_book),
    CASE (test_what_is_no_line_makes_none),
    CASE (test_a_tax_that_is_none_is_said),
    CASE (test_a_currency_that_is_none_is_said),
    CASE (test_a_pasted_recipe_makes_a_book),
    CASE (test_a_whole_recipe_makes_a_book),
    CASE (test_a_sign_of_several_currencies_asks),
    CASE (test_what_is_typed_comes_back),
    CASE (test_books_of_late_are_offered),
    CASE (test_a_sheet_that_is_cancelled_leaves_no_book),
    CASE (test_a_book_that_was_worked_in_stays_without_its_sheet),
  };

  return cro_test_window_run (tests);
}
