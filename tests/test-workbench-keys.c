/* Every shortcut in every place, on every kind of book: none ends the program, none leaves it
 * without a focus. Warnings and criticals end the test. */
#include "cro-finder-entry.h"
#include "cro-focus.h"
#include "support/book-window.h"

/* --- Keys ------------------------------------------------------------------------------------- */

typedef struct
{
  GtkWidget   *widget;      /* weak */
  GtkShortcut *shortcut;
} Key;

static void
key_free (gpointer data)
{
  Key *key = data;

  g_clear_weak_pointer (&key->widget);
  g_object_unref (key->shortcut);
  g_free (key);
}

static void
add_keys_of (GPtrArray *keys,
             GtkWidget *widget)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GObject) controller = g_list_model_get_item (controllers, i);

      for (guint k = 0; GTK_IS_SHORTCUT_CONTROLLER (controller)
                        && k < g_list_model_get_n_items (G_LIST_MODEL (controller)); k++)
        {
          Key *key = g_new0 (Key, 1);

          g_set_weak_pointer (&key->widget, widget);
          key->shortcut = g_list_model_get_item (G_LIST_MODEL (controller), k);
          g_ptr_array_add (keys, key);
        }
    }
}

/* All that a key could mean where the focus is, with what it means to the whole window or without;
 * what the toolkit's own widgets do is theirs. */
static GPtrArray *
list_keys (CroTestWindow *test,
           gboolean       of_window)
{
  GPtrArray *keys = g_ptr_array_new_with_free_func (key_free);
  GtkWidget *widget = gtk_window_get_focus (GTK_WINDOW (test->window));

  for (widget = widget != NULL ? widget : GTK_WIDGET (test->window); widget != NULL;
       widget = gtk_widget_get_parent (widget))
    if (g_str_has_prefix (G_OBJECT_TYPE_NAME (widget), "Cro")
        && (of_window || !CRO_IS_WINDOW (widget)))
      add_keys_of (keys, widget);
  return keys;
}

static char *
name_of (GtkShortcut *shortcut)
{
  return gtk_shortcut_trigger_to_string (gtk_shortcut_get_trigger (shortcut));
}

/* What asks another program, or ends this one. */
static gboolean
is_left_out (GtkShortcut *shortcut)
{
  static const char *const left_out[] = { "window.close", "win.open-book", "win.new-window" };
  GtkShortcutAction *action = gtk_shortcut_get_action (shortcut);
  g_autofree char *name = name_of (shortcut);

  /* The toolkit's inspector, buttons by their letters, the menu, and from libadwaita 1.7 on its view of the
   * window in a phone's frame, which keeps what it showed. */
  if (GTK_IS_SIGNAL_ACTION (action) || GTK_IS_MNEMONIC_ACTION (action) || g_str_equal (name, "F10")
      || g_str_equal (name, "<Shift><Control>m"))
    return TRUE;
  for (gsize i = 0; GTK_IS_NAMED_ACTION (action) && i < G_N_ELEMENTS (left_out); i++)
    if (g_str_equal (gtk_named_action_get_action_name (GTK_NAMED_ACTION (action)), left_out[i]))
      return TRUE;
  return FALSE;
}

/* Without a book there is nothing to have the focus but the page that says so. */
static void
press (CroTestWindow *test,
       Key           *key)
{
  g_autofree char *name = name_of (key->shortcut);

  if (key->widget == NULL || gtk_widget_get_root (key->widget) == NULL
      || is_left_out (key->shortcut))
    return;
  gtk_shortcut_action_activate (gtk_shortcut_get_action (key->shortcut), 0, key->widget,
                                gtk_shortcut_get_arguments (key->shortcut));
  cro_test_settle ();
  cro_test_window_close_others (test);
  if (cro_window_get_book (test->window) != NULL)
    cro_test_window_focus (test, name);
}

static guint
press_all (CroTestWindow *test,
           gboolean       of_window)
{
  g_autoptr (GPtrArray) keys = list_keys (test, of_window);

  for (guint i = 0; i < keys->len; i++)
    press (test, keys->pdata[i]);
  return keys->len;
}

/* --- In every place --------------------------------------------------------------------------- */

/* From the list, and from each part that the next one leads to. Keys of the window are pressed in
 * the list and on the bench: they mean the same in all its parts. Under the sanitizer, which takes
 * six times as long, on the bench alone: what is pressed there is what is in the list. */
static void
walk (CroTestWindow *test,
      guint          n_parts)
{
  gboolean is_sanitized = g_getenv ("CROUSTADE_TEST_SANITIZED") != NULL;

  for (CroPlace place = 0; place < CRO_N_PLACES; place++)
    for (guint part = 0; part < n_parts; part++)
      {
        gboolean of_window = part == 2 || (part == 0 && !is_sanitized);

        cro_test_window_go (test, place, part);
        assert_true (press_all (test, of_window) > 15 || !of_window);
      }
}

static void
test_without_a_book (void **state)
{
  assert_true (press_all (*state, TRUE) > 15);
}

static void
test_an_empty_book (void **state)
{
  walk (*state, 6);
}

static void
test_the_demo (void **state)
{
  walk (*state, 6);
}

static void
test_a_past_date (void **state)
{
  CroTestWindow *test = *state;
  CroBook *book = cro_window_get_book (test->window);
  GError *error = NULL;

  cro_test_must (cro_book_set_date (book, cro_date_from_civil (2025, 1, 1), &error), error);
  walk (test, 3);
}

/* Nothing is called so: lists are empty, and nothing is selected in tables. Months are not looked for. */
static void
test_lists_that_are_filtered_empty (void **state)
{
  CroTestWindow *test = *state;

  for (CroPlace place = 0; place < CRO_PLACE_MONTHS; place++)
    {
      GtkWidget *search;

      cro_test_window_go (test, place, 0);
      gtk_widget_activate_action (GTK_WIDGET (test->window), "win.search-list", NULL);
      search = gtk_widget_get_ancestor (cro_test_window_focus (test, "Ctrl+F"),
                                        GTK_TYPE_SEARCH_ENTRY);
      assert_non_null (search);
      gtk_editable_set_text (GTK_EDITABLE (search), "zzzz");
      g_signal_emit_by_name (search, "search-changed");
      cro_test_window_see (test);
      press_all (test, TRUE);
      cro_test_escape (search);
      assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (search)), "");
    }
}

/* In a market and in months nothing is selected until a row is: history is the book's then. */
static void
test_history_where_nothing_is_selected (void **state)
{
  static const CroPlace places[] = { CRO_PLACE_MARKET, CRO_PLACE_MONTHS };
  CroTestWindow *test = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (places); i++)
    {
      cro_test_window_go (test, places[i], 0);
      gtk_widget_activate_action (GTK_WIDGET (test->window), "win.history", NULL);
      assert_non_null (cro_test_window_find_other (test));
      cro_test_window_close_others (test);
    }
}

/* --- Other windows, and menus ----------------------------------------------------------------- */

/* A search waits a moment after the last key, and the focus may be on a row by then. */
static void
test_a_row_of_the_history_that_goes_keeps_a_focus (void **state)
{
  CroTestWindow *test = *state;
  GtkWidget *history, *row;

  gtk_widget_activate_action (GTK_WIDGET (test->window), "win.history", NULL);
  history = cro_test_window_find_other (test);
  cro_test_wait_until ((row = cro_test_find_type (history, GTK_TYPE_LIST_BOX_ROW)) != NULL,
                       "the history is empty");
  assert_true (cro_focus_first (row));
  gtk_editable_set_text (GTK_EDITABLE (cro_test_find_type (history, GTK_TYPE_SEARCH_ENTRY)), "zzzz");
  g_signal_emit_by_name (cro_test_find_type (history, GTK_TYPE_SEARCH_ENTRY), "search-changed");
  cro_test_settle ();
  assert_non_null (gtk_window_get_focus (GTK_WINDOW (history)));
  assert_true (gtk_widget_get_mapped (gtk_window_get_focus (GTK_WINDOW (history))));
}

/* Names are folded once for an edition of the book. */
static void
test_the_search_knows_a_supplier_by_its_new_name (void **state)
{
  static const CroCell name = { CRO_CELL_TEXT, 0, "Zzyx" };
  CroTestWindow *test = *state;
  CroBook *book = cro_window_get_book (test->window);
  const CroSupplier *first = &g_array_index (cro_book_get_model (book)->suppliers, CroSupplier, 0);
  GtkWidget *entry;
  GError *error = NULL;

  gtk_widget_activate_action (GTK_WIDGET (test->window), "win.search", NULL);
  entry = cro_test_find_type (test->window->finder, GTK_TYPE_ENTRY);
  gtk_editable_set_text (GTK_EDITABLE (entry), "zzyx");
  assert_false (cro_finder_entry_choose (CRO_FINDER_ENTRY (test->window->finder)));
  cro_test_must (cro_book_set (book, "rename", "supplier", first->id, "name", &name, &error), error);
  gtk_editable_set_text (GTK_EDITABLE (entry), "zzy");
  assert_true (cro_finder_entry_choose (CRO_FINDER_ENTRY (test->window->finder)));
  assert_int_equal (cro_bench_get_ref (CRO_BENCH (cro_test_window_bench (test))).kind, CRO_REF_SUPPLIER);
}

static gboolean
is_in_sight (GtkWidget *focus,
             CroWindow *window)
{
  return focus != NULL && gtk_widget_get_mapped (focus)
         && gtk_widget_get_native (focus) == GTK_NATIVE (window);
}

/* It would take every key to itself, unseen. Whether the toolkit hands the focus to the menu's own
 * button first depends on when the menu goes. */
static void
test_a_menu_that_is_gone_has_no_focus (void **state)
{
  CroTestWindow *test = *state;
  GtkWidget *menu, *item;

  cro_test_window_go (test, CRO_PLACE_LARDER, 0);
  cro_test_window_focus (test, "a place");
  menu = gtk_widget_get_ancestor (test->window->undo_button, ADW_TYPE_HEADER_BAR);
  menu = cro_test_find_type (menu, GTK_TYPE_MENU_BUTTON);
  gtk_menu_button_popup (GTK_MENU_BUTTON (menu));
  cro_test_window_see (test);
  item = cro_test_find_type (GTK_WIDGET (gtk_menu_button_get_popover (GTK_MENU_BUTTON (menu))),
                             GTK_TYPE_CHECK_BUTTON);
  assert_non_null (item);
  assert_true (gtk_widget_grab_focus (item));
  gtk_menu_button_popdown (GTK_MENU_BUTTON (menu));
  gtk_window_set_focus (GTK_WINDOW (test->window), item);
  cro_test_wait_until (is_in_sight (gtk_window_get_focus (GTK_WINDOW (test->window)), test->window),
                       "the focus stays in the menu");
}

/* What was cut leaves nothing to be cut: the item is grey, and has no focus to keep. */
static void
test_a_field_has_the_focus_after_its_menu (void **state)
{
  CroTestWindow *test = *state;
  GtkWidget *text, *menu, *item;

  gtk_widget_activate_action (GTK_WIDGET (test->window), "win.search", NULL);
  cro_test_window_see (test);
  text = cro_test_find_type (test->window->finder, GTK_TYPE_TEXT);
  gtk_editable_set_text (GTK_EDITABLE (text), "crab");
  gtk_editable_select_region (GTK_EDITABLE (text), 0, -1);
  gtk_widget_activate_action (text, "menu.popup", NULL);
  cro_test_wait_until ((menu = cro_test_find_type (text, GTK_TYPE_POPOVER_MENU)) != NULL, "no menu");
  item = cro_test_find_type (menu, g_type_from_name ("GtkModelButton"));
  assert_true (gtk_widget_grab_focus (item));
  g_signal_emit_by_name (item, "clicked");
  cro_test_settle ();
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (text)), "");
  assert_ptr_equal (gtk_window_get_focus (GTK_WINDOW (test->window)), text);
}

/* --- Every field ------------------------------------------------------------------------------ */

static void
leave (CroTestWindow *test,
       GtkWidget     *entry,
       const char    *text)
{
  gtk_widget_grab_focus (entry);
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  gtk_widget_child_focus (GTK_WIDGET (test->window), GTK_DIR_TAB_FORWARD);
  cro_test_settle ();
  cro_test_window_focus (test, text);
}

/* What is typed is kept or refused, and undone while the next field has the focus. */
static void
leave_and_undo (CroTestWindow *test,
                GtkWidget     *entry,
                const char    *text)
{
  CroBook *book = cro_window_get_book (test->window);
  guint64 edition = cro_book_get_edition (book);

  leave (test, entry, text);
  if (cro_book_get_edition (book) != edition)
    gtk_widget_activate_action (GTK_WIDGET (test->window), "win.undo", NULL);
  cro_test_settle ();
  cro_test_window_focus (test, "undo");
}

static void
test_every_field_is_left_with_tab (void **state)
{
  static const char *const texts[] = { "2", "x", "", "2026-11-20" };
  CroTestWindow *test = *state;

  for (CroPlace place = 0; place < CRO_N_PLACES; place++)
    {
      g_autoptr (GPtrArray) entries = NULL;

      cro_test_window_go (test, place, 0);
      entries = cro_test_window_list_entries (test);
      for (guint i = 0; i < entries->len * G_N_ELEMENTS (texts); i++)
        {
          GtkWidget *entry = *(GtkWidget **) entries->pdata[i / G_N_ELEMENTS (texts)];

          if (entry != NULL && gtk_widget_get_mapped (entry))
            leave_and_undo (test, entry, texts[i % G_N_ELEMENTS (texts)]);
        }
    }
}

static void
step (CroTestWindow    *test,
      GtkWidget        *from,
      GtkDirectionType  way)
{
  gtk_widget_grab_focus (from);
  gtk_widget_child_focus (GTK_WIDGET (test->window), way);
  cro_test_settle ();
  cro_test_window_focus (test, "a step");
}

/* All around a place backwards, and from each stop an arrow's step: much is folded away there, and
 * is not to be stepped into. */
static void
test_the_focus_goes_every_way (void **state)
{
  CroTestWindow *test = *state;

  for (CroPlace place = 0; place < CRO_N_PLACES; place++)
    {
      g_autoptr (GPtrArray) seen = g_ptr_array_new ();
      GtkWidget *at;

      cro_test_window_go (test, place, 0);
      for (at = cro_test_window_focus (test, "a place"); !g_ptr_array_find (seen, at, NULL);
           at = cro_test_window_focus (test, "Shift+Tab"))
        {
          g_ptr_array_add (seen, at);
          for (GtkDirectionType way = GTK_DIR_UP; way <= GTK_DIR_RIGHT; way++)
            step (test, at, way);
          step (test, at, GTK_DIR_TAB_BACKWARD);
        }
      assert_true (seen->len > 10);
    }
}

/* Today says so: a list is pasted wherever the focus is, though nothing there takes a text. */
static void
test_a_list_is_pasted_from_its_place (void **state)
{
  CroTestWindow *test = *state;
  g_autoptr (GPtrArray) keys = NULL;
  CroRef quay;

  cro_test_window_go (test, CRO_PLACE_MARKET, 0);
  quay = cro_edit_find_name (cro_book_get_model (cro_window_get_book (test->window)), CRO_NAMES_SUPPLIERS,
                             "Quay Shellfish");
  assert_int_equal (quay.kind, CRO_REF_SUPPLIER);
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (test->window)),
                          "Quay Shellfish, 30 Nov\nbrown crab 69.50\n");
  keys = list_keys (test, TRUE);
  for (guint i = 0; i < keys->len; i++)
    {
      Key *key = keys->pdata[i];
      g_autofree char *name = name_of (key->shortcut);

      if (g_str_equal (name, "<Control>v"))
        press (test, key);
    }
  cro_test_wait_until (cro_ref_equal (cro_bench_get_ref (CRO_BENCH (cro_test_window_bench (test))), quay),
                       "the list is not taken");
}

int
main (void)
{
#define CASE(test, open) cmocka_unit_test_setup_teardown (test, open, cro_test_window_close)
  const struct CMUnitTest tests[] = {
    CASE (test_without_a_book, cro_test_window_open_nothing),
    CASE (test_an_empty_book, cro_test_window_open_empty),
    CASE (test_the_demo, cro_test_window_open_demo),
    CASE (test_a_past_date, cro_test_window_open_demo),
    CASE (test_lists_that_are_filtered_empty, cro_test_window_open_demo),
    CASE (test_history_where_nothing_is_selected, cro_test_window_open_demo),
    CASE (test_a_row_of_the_history_that_goes_keeps_a_focus, cro_test_window_open_demo),
    CASE (test_the_search_knows_a_supplier_by_its_new_name, cro_test_window_open_demo),
    CASE (test_a_menu_that_is_gone_has_no_focus, cro_test_window_open_demo),
    CASE (test_a_field_has_the_focus_after_its_menu, cro_test_window_open_demo),
    CASE (test_every_field_is_left_with_tab, cro_test_window_open_demo),
    CASE (test_a_list_is_pasted_from_its_place, cro_test_window_open_demo),
    CASE (test_the_focus_goes_every_way, cro_test_window_open_demo),
  };

  return cro_test_window_run (tests);
}
