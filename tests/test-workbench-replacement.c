/* Another ingredient in the place of one that ten recipes take, in the whole window: what is told, the
 * act, and its undo. */
#include "cro-edit.h"
#include "cro-finder-entry.h"
#include "cro-focus.h"
#include "cro-input.h"
#include "cro-replacement.h"
#include "cro-supplier-form.h"
#include "support/book-window.h"

static guint32
item_of (CroBook    *book,
         const char *name)
{
  return cro_edit_find_name (cro_book_get_model (book), CRO_NAMES_ITEMS, name).slot;
}

static void
test_replaced_and_undone (void **state)
{
  CroTestWindow *test = *state;
  CroBook *book = cro_window_get_book (test->window);
  guint32 butter = item_of (book, "Butter, unsalted");
  g_autofree char *before = cro_test_figures (book);
  g_autofree char *after = NULL, *undone = NULL;
  GtkWidget *dialog, *finder, *done;
  GError *error = NULL;

  cro_window_open_kind (test->window, CRO_KIND_INGREDIENT, butter);
  cro_test_window_see (test);
  gtk_widget_activate_action (cro_test_window_bench (test), "bench.replace", NULL);
  dialog = cro_test_window_find_other (test);
  assert_non_null (dialog);
  finder = cro_test_find_type (dialog, CRO_TYPE_FINDER_ENTRY);
  done = cro_focus_find (dialog, "suggested-action");
  assert_false (gtk_widget_get_sensitive (done));
  g_signal_emit_by_name (finder, "chosen", (int) CRO_KIND_OUTPUT, item_of (book, "Cultured butter"));
  assert_true (gtk_widget_get_sensitive (done));
  assert_non_null (cro_test_find_shown (dialog, "11.72 → 11.79"));
  /* Those that are over target are marked, whether or not they were before. */
  assert_non_null (cro_test_find_shown (dialog, "over target"));
  /* Until it is pressed nothing is kept. */
  after = cro_test_figures (book);
  cro_test_same ("what is told is not kept", before, after);
  g_signal_emit_by_name (done, "clicked");
  cro_test_settle ();
  cro_test_window_see (test);
  assert_null (cro_test_window_find_other (test));
  assert_false (cro_kind_is_used (cro_book_get_figures (book), CRO_KIND_INGREDIENT, butter));
  cro_test_window_focus (test, "a replacement");
  gtk_widget_activate_action (GTK_WIDGET (test->window), "win.undo", NULL);
  cro_test_settle ();
  cro_test_must (cro_book_refresh (book, NULL, &error), error);
  undone = cro_test_figures (book);
  cro_test_same ("undo of a replacement", before, undone);
}

/* What a guest avoids is told before it is kept: in which plates, and that the labels count. */
static void
test_allergens_that_enter_and_leave_are_told (void **state)
{
  CroTestWindow *test = *state;
  CroBook *book = cro_window_get_book (test->window);
  GtkWidget *dialog;

  cro_window_open_kind (test->window, CRO_KIND_INGREDIENT, item_of (book, "Hake"));
  cro_test_window_see (test);
  gtk_widget_activate_action (cro_test_window_bench (test), "bench.replace", NULL);
  dialog = cro_test_window_find_other (test);
  assert_non_null (dialog);
  g_signal_emit_by_name (cro_test_find_type (dialog, CRO_TYPE_FINDER_ENTRY), "chosen",
                         (int) CRO_KIND_INGREDIENT, item_of (book, "Brown crab"));
  cro_test_settle ();
  assert_non_null (cro_test_find_containing (dialog, "crustaceans now in "));
  assert_non_null (cro_test_find_containing (dialog, "fish no longer among those entered for "));
  assert_non_null (cro_test_find_containing (dialog, "; check labels."));
}

/* The label in sight that begins with a text. */
static GtkWidget *
find_beginning (GtkWidget  *widget,
                const char *text)
{
  GtkWidget *found = gtk_widget_get_mapped (widget) && GTK_IS_LABEL (widget)
                             && g_str_has_prefix (gtk_label_get_label (GTK_LABEL (widget)), text)
                         ? widget
                         : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_beginning (child, text);
  return found;
}

static void
type (GtkWidget  *entry,
      const char *text)
{
  gtk_widget_grab_focus (entry);
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  cro_test_settle ();
}

static guint
n_others (CroTestWindow *test)
{
  GListModel *windows = gtk_window_get_toplevels ();
  guint n = 0;

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWindow) window = g_list_model_get_item (windows, i);

      n += gtk_window_get_transient_for (window) == GTK_WINDOW (test->window);
    }
  return n;
}

/* A name that another one bears offers to merge both; which lines go with a preparation is told before. */
static void
test_a_taken_name_offers_merging (void **state)
{
  CroTestWindow *test = *state;
  CroBook *book = cro_window_get_book (test->window);
  CroModel *model = cro_book_get_model (book);
  guint32 butter = item_of (book, "Crab butter");
  g_autofree char *before = cro_test_figures (book);
  g_autofree char *undone = NULL;
  GtkWidget *bench, *name, *entry, *dialog, *done;

  cro_window_open_kind (test->window, CRO_KIND_PREPARATION, (guint32) model->maker[butter]);
  cro_test_window_see (test);
  bench = cro_test_window_bench (test);
  name = cro_test_find_type (bench, CRO_TYPE_INPUT);
  entry = cro_test_find_type (name, GTK_TYPE_ENTRY);
  type (entry, "Shellfish butter");
  assert_non_null (find_beginning (bench, "The new name also stands in "));
  type (entry, "Cultured bûtter");
  assert_non_null (find_beginning (bench, "“Cultured butter” is in the book too. Are the two the same? The new name "));
  /* Another case is no other name. */
  type (entry, "cultured BUTTER");
  assert_non_null (find_beginning (bench, "“Cultured butter” exists already. Press Enter to be asked whether to merge "
                                          "both."));
  cro_input_keep (CRO_INPUT (name));
  cro_test_settle ();
  /* The focus goes to what asks, and nothing asks twice. */
  gtk_window_set_focus (GTK_WINDOW (test->window), NULL);
  cro_test_settle ();
  assert_int_equal (n_others (test), 1);
  dialog = cro_test_window_find_other (test);
  assert_non_null (dialog);
  assert_non_null (find_beginning (dialog, "The preparation “Crab butter” goes, and what it is made of: "));
  done = cro_focus_find (dialog, "suggested-action");
  assert_true (gtk_widget_get_sensitive (done));
  assert_true (gtk_window_get_focus (GTK_WINDOW (dialog)) != done);
  g_signal_emit_by_name (done, "clicked");
  cro_test_settle ();
  cro_test_window_see (test);
  assert_true (cro_edit_find_name (cro_book_get_model (book), CRO_NAMES_ITEMS, "Crab butter").kind == CRO_REF_NONE);
  gtk_widget_activate_action (GTK_WIDGET (test->window), "win.undo", NULL);
  cro_test_settle ();
  undone = cro_test_figures (book);
  cro_test_same ("undo of a merge", before, undone);
}

/* Where a name stands is told while another one is typed; Escape leaves it everywhere. The whole list keeps
 * nothing but by its button, and then one act, which one undo takes back. A name that stands nowhere else is
 * kept without a word. */
static void
test_a_new_name_is_told (void **state)
{
  CroTestWindow *test = *state;
  CroBook *book = cro_window_get_book (test->window);
  CroModel *model = cro_book_get_model (book);
  guint32 butter = item_of (book, "Butter, unsalted"), slot;
  g_autofree char *before = cro_test_figures (book);
  g_autofree char *escaped = NULL, *undone = NULL;
  GtkWidget *bench, *name, *entry, *dialog;
  GError *error = NULL;

  cro_window_open_kind (test->window, CRO_KIND_INGREDIENT, butter);
  cro_test_window_see (test);
  bench = cro_test_window_bench (test);
  name = cro_test_find_type (bench, CRO_TYPE_INPUT);
  entry = cro_test_find_type (name, GTK_TYPE_ENTRY);
  type (entry, "Butter, sweet");
  assert_non_null (cro_test_find_containing (bench, " stands in 15 recipes: Apples roasted in butter, "));
  assert_non_null (cro_test_find_containing (bench, "; 2 packs: Mill Lane Dry Goods, Upriver Produce and Dairy; "));
  assert_non_null (cro_test_find_containing (bench, "No cost changes."));
  cro_input_drop (CRO_INPUT (name));
  escaped = cro_test_figures (book);
  cro_test_same ("a name that was given up", before, escaped);
  assert_int_equal (item_of (book, "Butter, unsalted"), butter);
  assert_null (find_beginning (bench, "The new name also stands in "));
  type (entry, "Butter, sweet");
  type (entry, "Butter, unsalted");
  assert_null (find_beginning (bench, "The new name also stands in "));
  type (entry, "Butter, sweet");
  g_signal_emit_by_name (entry, "icon-release", GTK_ENTRY_ICON_SECONDARY);
  cro_test_settle ();
  dialog = cro_test_window_find_other (test);
  assert_non_null (dialog);
  assert_non_null (cro_test_find_shown (dialog, "15 recipes"));
  assert_non_null (cro_test_find_shown (dialog, "Sea beet, wilted"));
  /* The list has the focus, and the field keeps what is typed to itself. */
  gtk_window_set_focus (GTK_WINDOW (test->window), NULL);
  cro_test_settle ();
  assert_string_equal (cro_model_item (model, butter)->name, "Butter, unsalted");
  g_signal_emit_by_name (cro_focus_find (dialog, "suggested-action"), "clicked");
  cro_test_settle ();
  assert_null (cro_test_window_find_other (test));
  assert_string_equal (cro_model_item (model, item_of (book, "Butter, sweet"))->name, "Butter, sweet");
  gtk_widget_activate_action (GTK_WIDGET (test->window), "win.undo", NULL);
  cro_test_settle ();
  undone = cro_test_figures (book);
  cro_test_same ("undo of a name", before, undone);
  assert_int_equal (item_of (book, "Butter, unsalted"), butter);
  cro_test_must (cro_edit_add_ingredient (book, "one", "Buter", CRO_BASE_GRAM, NULL, &slot, &error), error);
  cro_window_open_kind (test->window, CRO_KIND_INGREDIENT, slot);
  cro_test_window_see (test);
  type (entry, "Bitter");
  assert_null (find_beginning (bench, "The new name also stands in "));
  cro_input_keep (CRO_INPUT (name));
  assert_int_equal (item_of (book, "Bitter"), slot);
}

/* Who is merged into another supplier is told what moves, and no figure does. */
static void
test_a_merged_supplier_is_told (void **state)
{
  CroTestWindow *test = *state;
  CroBook *book = cro_window_get_book (test->window);
  guint32 dry = cro_edit_find_name (cro_book_get_model (book), CRO_NAMES_SUPPLIERS, "Mill Lane Dry Goods").slot;
  g_autofree char *before = cro_test_figures (book);
  g_autofree char *after = NULL;
  GtkWidget *bench, *name, *entry, *dialog, *done;

  cro_window_open_ref (test->window, CRO_REF (CRO_REF_SUPPLIER, dry));
  cro_test_window_see (test);
  bench = cro_test_window_bench (test);
  name = cro_test_find_type (cro_test_find_type (bench, CRO_TYPE_SUPPLIER_FORM), CRO_TYPE_INPUT);
  entry = cro_test_find_type (name, GTK_TYPE_ENTRY);
  type (entry, "Upriver Produce and Dairy");
  assert_non_null (cro_test_find_containing (bench, "it then also has "));
  /* Who only types it and leaves merges nothing. */
  gtk_widget_grab_focus (entry);
  gtk_window_set_focus (GTK_WINDOW (test->window), NULL);
  cro_test_settle ();
  assert_int_equal (n_others (test), 0);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (entry)), "Mill Lane Dry Goods");
  /* Who keeps it is asked, and not with the answer under the hand. */
  type (entry, "upriver produce and dairy");
  cro_input_keep (CRO_INPUT (name));
  cro_test_settle ();
  assert_int_equal (n_others (test), 1);
  dialog = cro_test_window_find_other (test);
  assert_non_null (find_beginning (dialog, "All of these move to “Upriver Produce and Dairy”, and "));
  done = cro_focus_find (dialog, "suggested-action");
  assert_true (gtk_window_get_focus (GTK_WINDOW (dialog)) != done);
  assert_int_not_equal (cro_edit_find_name (cro_book_get_model (book), CRO_NAMES_SUPPLIERS, "Mill Lane Dry Goods").kind,
                        CRO_REF_NONE);
  g_signal_emit_by_name (done, "clicked");
  cro_test_settle ();
  assert_int_equal (n_others (test), 0);
  assert_int_equal (cro_edit_find_name (cro_book_get_model (book), CRO_NAMES_SUPPLIERS, "Mill Lane Dry Goods").kind,
                    CRO_REF_NONE);
  after = cro_test_figures (book);
  cro_test_same ("no cost moves with a supplier", before, after);
}

/* The button with a label, however deep. */
static GtkWidget *
find_button (GtkWidget  *widget,
             const char *text)
{
  GtkWidget *label = cro_test_find_shown (widget, text);

  return label != NULL ? gtk_widget_get_ancestor (label, GTK_TYPE_BUTTON) : NULL;
}

/* Another plate of the first menu that a plate stands on. */
static guint32
other_on_menu_of (CroModel *model,
                  guint32   plate)
{
  g_autoptr (GArray) menus = cro_replacement_list_menus (model, plate);
  guint32 menu = g_array_index (menus, guint32, 0);

  for (guint i = 0; i < model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, i);

      if (!entry->is_dead && entry->menu == menu && entry->plate != plate)
        return entry->plate;
    }
  fail_msg ("the plate is alone on its menu");
  return CRO_NO_SLOT;
}

/* A plate that menus hold on to may be taken off them or replaced there, and goes: what menus come to is told
 * of both before, each is one act, and one undo gives it back. */
static void
test_a_plate_on_menus_goes (void **state)
{
  CroTestWindow *test = *state;
  CroBook *book = cro_window_get_book (test->window);
  CroModel *model = cro_book_get_model (book);
  guint32 plate = cro_edit_find_name (model, CRO_NAMES_THINGS, "Crab croustade").slot;
  g_autofree char *before = cro_test_figures (book);
  g_autofree char *undone = NULL;
  GtkWidget *off;
  guint32 by = cro_edit_find_name (model, CRO_NAMES_THINGS, "Prawn skewers, aïoli").slot;
  CroReplacement taken_off = { .item = plate, .by = CRO_NO_SLOT, .is_plate = TRUE };
  GtkWidget *dialog, *done, *name;
  GError *error = NULL;

  /* A name that is taken says what can be done: taken off, this one stands on no menu. */
  cro_test_must (cro_edit_replace (book, "off", &taken_off, &error), error);
  cro_window_open_kind (test->window, CRO_KIND_PLATE, plate);
  cro_test_window_see (test);
  name = cro_test_find_type (cro_test_window_bench (test), CRO_TYPE_INPUT);
  type (cro_test_find_type (name, GTK_TYPE_ENTRY), "Prawn skewers, aïoli");
  assert_non_null (find_beginning (cro_test_window_bench (test),
                                   "“Prawn skewers, aïoli” exists already. Choose another name."));
  type (cro_test_find_type (name, GTK_TYPE_ENTRY), "Crab croustade");
  cro_test_must (cro_book_undo (book, NULL, &error), error);
  cro_window_open_kind (test->window, CRO_KIND_PLATE, plate);
  cro_test_window_see (test);
  gtk_widget_activate_action (cro_test_window_bench (test), "bench.remove", NULL);
  dialog = cro_test_window_find_other (test);
  assert_non_null (dialog);
  assert_non_null (find_beginning (dialog, "“Crab croustade” is used in: "));
  done = cro_focus_find (dialog, "suggested-action");
  off = find_button (dialog, "Take Off 1 Menu and Remove");
  assert_non_null (off);
  assert_false (gtk_widget_get_sensitive (done));
  assert_non_null (cro_test_find_shown (dialog, "Effect on Menus"));
  assert_non_null (cro_test_find_shown (dialog, "taken off"));
  assert_non_null (cro_test_find_containing (dialog, "Tide"));
  g_signal_emit_by_name (off, "clicked");
  cro_test_settle ();
  cro_test_window_see (test);
  assert_null (cro_test_window_find_other (test));
  assert_int_equal (cro_edit_find_name (model, CRO_NAMES_THINGS, "Crab croustade").kind, CRO_REF_NONE);
  gtk_widget_activate_action (GTK_WIDGET (test->window), "win.undo", NULL);
  cro_test_settle ();
  undone = cro_test_figures (book);
  cro_test_same ("undo of a plate that was taken off and removed", before, undone);
  plate = cro_edit_find_name (model, CRO_NAMES_THINGS, "Crab croustade").slot;

  cro_window_open_kind (test->window, CRO_KIND_PLATE, plate);
  cro_test_window_see (test);
  gtk_widget_activate_action (cro_test_window_bench (test), "bench.remove", NULL);
  dialog = cro_test_window_find_other (test);
  assert_non_null (dialog);
  done = cro_focus_find (dialog, "suggested-action");
  /* Of one that is on the menu already it is said whose entry it is. */
  g_signal_emit_by_name (cro_test_find_type (dialog, CRO_TYPE_FINDER_ENTRY), "chosen", (int) CRO_KIND_PLATE,
                         other_on_menu_of (model, plate));
  assert_false (gtk_widget_get_sensitive (done));
  assert_non_null (cro_test_find_containing (dialog, "is on these menus already: "));
  g_signal_emit_by_name (cro_test_find_type (dialog, CRO_TYPE_FINDER_ENTRY), "chosen", (int) CRO_KIND_PLATE, by);
  assert_true (gtk_widget_get_sensitive (done));
  assert_null (cro_test_find_containing (dialog, "Choose what comes in its place."));
  assert_non_null (cro_test_find_shown (dialog, "Replace on 1 Menu and Remove"));
  g_signal_emit_by_name (done, "clicked");
  cro_test_settle ();
  cro_test_window_see (test);
  assert_null (cro_test_window_find_other (test));
  assert_int_equal (cro_edit_find_name (model, CRO_NAMES_THINGS, "Crab croustade").kind, CRO_REF_NONE);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (test_replaced_and_undone, cro_test_window_open_demo,
                                     cro_test_window_close),
    cmocka_unit_test_setup_teardown (test_allergens_that_enter_and_leave_are_told, cro_test_window_open_demo,
                                     cro_test_window_close),
    cmocka_unit_test_setup_teardown (test_a_taken_name_offers_merging, cro_test_window_open_demo,
                                     cro_test_window_close),
    cmocka_unit_test_setup_teardown (test_a_new_name_is_told, cro_test_window_open_demo, cro_test_window_close),
    cmocka_unit_test_setup_teardown (test_a_merged_supplier_is_told, cro_test_window_open_demo,
                                     cro_test_window_close),
    cmocka_unit_test_setup_teardown (test_a_plate_on_menus_goes, cro_test_window_open_demo,
                                     cro_test_window_close),
  };

  return cro_test_window_run (tests);
}
