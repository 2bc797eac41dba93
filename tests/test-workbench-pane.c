/* The pane beside a plate's lines: its switch and keys, what moves a cost, and prices. */
#include "support/bench-hands.h"

#include <string.h>

#include "cro-covers-view.h"
#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-focus.h"
#include "cro-ingredient-bench.h"
#include "cro-line-row.h"
#include "cro-menu-bench.h"
#include "cro-mover-row.h"
#include "cro-movers-view.h"
#include "cro-pane-box.h"
#include "cro-plate-bench.h"
#include "cro-price-row.h"
#include "cro-price-view.h"
#include "cro-state.h"
#include "cro-stream-area.h"
#include "cro-sum-popover.h"

/* The day of the design's own figures. */
static void
show_plate (CroTestBench *test,
            const char   *name)
{
  GError *error = NULL;

  cro_test_must (cro_book_set_date (test->book, cro_date_from_civil (2026, 11, 28), &error), error);
  cro_test_bench_show (test, CRO_TYPE_PLATE_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_THINGS, name));
  resize (test, 1340, 700);
}

static GtkWidget *
focus_of (CroTestBench *test)
{
  return gtk_window_get_focus (GTK_WINDOW (test->window));
}

static gboolean
is_seen (CroTestBench *test,
         GType         type)
{
  GtkWidget *view = cro_test_find_type (GTK_WIDGET (test->bench), type);

  return view != NULL && gtk_widget_get_mapped (view);
}

/* As Escape does where the focus is. */
static void
escape (CroTestBench *test)
{
  GtkWidget *pane = gtk_widget_get_ancestor (focus_of (test), CRO_TYPE_PANE);

  cro_test_press_shortcut (pane, "Escape");
  cro_test_settle ();
}

static GtkWidget *
first_cell (CroTestBench *test)
{
  GtkWidget *row = cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_LINE_ROW);

  return cro_test_find_type (row, GTK_TYPE_TEXT);
}

/* --- The pane --------------------------------------------------------------------------------- */

static void
test_escape_returns_to_the_same_cell (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *cell;

  show_plate (test, "Crab croustade");
  cell = first_cell (test);
  gtk_widget_grab_focus (cell);
  open_picture (test, CRO_PICTURE_MOVERS);
  assert_true (CRO_IS_MOVER_ROW (focus_of (test)));
  /* From one picture to the next it is still the cell that one came from. */
  open_picture (test, CRO_PICTURE_PRICE);
  assert_true (is_seen (test, CRO_TYPE_PRICE_VIEW));
  escape (test);
  assert_ptr_equal (focus_of (test), cell);
  assert_true (is_seen (test, CRO_TYPE_PRICE_VIEW));
}

static void
test_0_closes_and_is_remembered (void **state)
{
  CroTestBench *test = *state;
  g_autofree char *kept = NULL;

  show_plate (test, "Crab croustade");
  gtk_widget_grab_focus (first_cell (test));
  open_picture (test, CRO_PICTURE_MOVERS);
  open_picture (test, CRO_N_PICTURES);
  assert_false (is_seen (test, CRO_TYPE_MOVERS_VIEW));
  assert_non_null (gtk_widget_get_ancestor (focus_of (test), CRO_TYPE_LINE_ROW));
  kept = cro_state_dup_text ("bench", "picture");
  assert_string_equal (kept, "none");
  cro_bench_put (test->bench, cro_test_find_ref (test, CRO_NAMES_THINGS, "Oysters, half-dozen").slot);
  cro_test_settle ();
  assert_false (is_seen (test, CRO_TYPE_MOVERS_VIEW));
  open_picture (test, CRO_PICTURE_MOVERS);
}

/* Where there is no room for both a picture takes the place of the lines, and gives it back. */
static void
test_in_little_room_it_stands_for_the_lines (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *cell;

  show_plate (test, "Crab croustade");
  resize (test, 640, 700);
  cell = first_cell (test);
  assert_true (gtk_widget_get_mapped (cell));
  assert_false (is_seen (test, CRO_TYPE_MOVERS_VIEW));
  gtk_widget_grab_focus (cell);
  open_picture (test, CRO_PICTURE_MOVERS);
  assert_true (is_seen (test, CRO_TYPE_MOVERS_VIEW));
  assert_false (gtk_widget_get_mapped (cell));
  escape (test);
  assert_true (gtk_widget_get_mapped (cell));
  assert_ptr_equal (focus_of (test), cell);
  /* Both again, once there is room. */
  resize (test, 1340, 700);
  cro_test_wait_until (is_seen (test, CRO_TYPE_MOVERS_VIEW), "the picture does not come back");
  assert_true (gtk_widget_get_mapped (cell));
}

static void
test_it_stays_in_sight_while_lines_scroll (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *view, *scroller;
  graphene_rect_t before, after;

  show_plate (test, "Crab croustade");
  resize (test, 1340, 420);
  view = cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_MOVERS_VIEW);
  scroller = gtk_widget_get_ancestor (gtk_widget_get_ancestor (view, CRO_TYPE_PANE_BOX),
                                      GTK_TYPE_SCROLLED_WINDOW);
  assert_true (gtk_widget_compute_bounds (gtk_widget_get_parent (gtk_widget_get_parent (view)),
                                          GTK_WIDGET (test->bench), &before));
  gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller)), 60);
  cro_test_settle ();
  assert_true (gtk_widget_compute_bounds (gtk_widget_get_parent (gtk_widget_get_parent (view)),
                                          GTK_WIDGET (test->bench), &after));
  assert_true (before.origin.y >= after.origin.y);
}

/* Of a wide screen, or of small text: made of stays by the lines, the others take turns in a column of their own. */
static void
test_two_pictures_where_there_is_room (void **state)
{
  CroTestBench *test = *state;
  GtkSettings *settings = gtk_settings_get_default ();
  GtkWidget *cell;
  int dpi;

  show_plate (test, "Crab croustade");
  cell = first_cell (test);
  gtk_widget_grab_focus (cell);
  open_picture (test, CRO_PICTURE_MADE_OF);
  assert_false (is_seen (test, CRO_TYPE_MOVERS_VIEW));
  g_object_get (settings, "gtk-xft-dpi", &dpi, NULL);
  g_object_set (settings, "gtk-xft-dpi", 64 * 1024, NULL);
  cro_test_wait_until (is_seen (test, CRO_TYPE_MOVERS_VIEW) && is_seen (test, CRO_TYPE_STREAM_AREA),
                       "a wide window shows one picture");
  open_picture (test, CRO_PICTURE_PRICE);
  assert_true (is_seen (test, CRO_TYPE_PRICE_VIEW) && is_seen (test, CRO_TYPE_STREAM_AREA));
  assert_false (is_seen (test, CRO_TYPE_MOVERS_VIEW));
  open_picture (test, CRO_PICTURE_MADE_OF);
  assert_true (CRO_IS_STREAM_AREA (focus_of (test)));
  assert_true (is_seen (test, CRO_TYPE_PRICE_VIEW));
  escape (test);
  assert_ptr_equal (focus_of (test), cell);
  /* One again where there is no longer room for both: the one that was chosen last. */
  g_object_set (settings, "gtk-xft-dpi", dpi, NULL);
  cro_test_wait_until (!is_seen (test, CRO_TYPE_PRICE_VIEW), "two pictures share no room");
  assert_true (is_seen (test, CRO_TYPE_STREAM_AREA));
  open_picture (test, CRO_N_PICTURES);
  assert_false (is_seen (test, CRO_TYPE_STREAM_AREA));
  open_picture (test, CRO_PICTURE_MOVERS);
}

/* As a line does that is typed with its price: no pack is named. */
static void
price_by_kg (CroTestBench *test,
             const char   *ingredient)
{
  const CroUnitPrice price = { 20 * CRO_MICRO, CRO_UNIT_KG, "Quay Shellfish", cro_date_from_civil (2026, 11, 20), 0 };
  g_autoptr (GError) error = NULL;

  cro_test_must (cro_edit_price_ingredient (test->book, "price",
                                            cro_test_find_ref (test, CRO_NAMES_ITEMS, ingredient).slot, &price, NULL,
                                            &error), error);
}

/* A box of crab at 66.00 and a tray of egg at 61.20 are bought whole for 20 bites, by the demo's packs: that is
 * what a guest pays for. */
static void
test_covers_list_what_is_bought (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *view, *covers;

  show_plate (test, "Crab croustade");
  open_picture (test, CRO_PICTURE_COVERS);
  view = cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_COVERS_VIEW);
  cro_test_wait_until (cro_test_find_shown (view, "Packs bought for these covers") != NULL,
                       "nothing says what is bought");
  assert_shown (test, "66.00");
  assert_shown (test, "61.20");
  /* Sea purslane, which has no price and no pack, among them. */
  assert_shown (test, "13 others");
  /* Why that is so far from the figure over it. */
  assert_non_null (cro_test_find_containing (view, "packs are bought whole for these alone"));
  assert_non_null (cro_test_find_containing (view, "Disposables are counted."));
  covers = cro_test_find_named (view, "covers");
  cro_test_type (cro_test_find_type (view, GTK_TYPE_TEXT), "26 covers");
  assert_non_null (cro_test_find_containing (view, "26 covers: "));
  assert_false (gtk_widget_has_css_class (covers, "error"));
  cro_test_type (cro_test_find_type (view, GTK_TYPE_TEXT), "");
  assert_true (gtk_widget_has_css_class (covers, "error"));
  assert_null (cro_test_find_shown (view, "Packs bought for these covers"));
  /* What is bought whole because nobody named its pack is named, though one is enough for all of the curve. */
  cro_test_type (cro_test_find_type (view, GTK_TYPE_TEXT), "20");
  assert_null (cro_test_find_containing (view, "Counted as packs of one unit"));
  price_by_kg (test, "Sea purslane");
  cro_test_wait_until (cro_test_find_containing (view, "1 g: Sea purslane") != NULL,
                       "nothing names what is counted by the kg");
  open_picture (test, CRO_PICTURE_MOVERS);
}

/* --- What moves it ---------------------------------------------------------------------------- */

static GtkWidget *
row_named (CroTestBench *test,
           const char   *name)
{
  GtkWidget *view = cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_MOVERS_VIEW);
  GtkWidget *label = cro_test_find_shown (view, name);

  if (label == NULL)
    fail_msg ("no row is called %s", name);
  return gtk_widget_get_ancestor (label, CRO_TYPE_MOVER_ROW);
}

/* The design's own figures: crab may cost 29.34 a kilo before Tide is over its target, at most, as a
 * credit stands below; trout roe is far off, and Enter says how far. */
static void
test_ceilings_through_the_menu (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *roe;

  show_plate (test, "Crab croustade");
  open_picture (test, CRO_PICTURE_MOVERS);
  assert_shown (test, "13.20/kg: 0.46 of the cost");
  assert_shown (test, "at most 29.34/kg · ≤ 146.71 per pack · Tide");
  roe = row_named (test, "Trout roe");
  assert_non_null (cro_test_find_shown (roe, "far off"));
  g_signal_emit_by_name (gtk_widget_get_parent (roe), "row-activated", roe);
  assert_null (cro_test_find_shown (roe, "far off"));
  g_signal_emit_by_name (gtk_widget_get_parent (roe), "row-activated", roe);
  assert_non_null (cro_test_find_shown (roe, "far off"));
}

static void
test_a_row_opens_what_it_is_of (void **state)
{
  CroTestBench *test = *state;
  CroRef opened = CRO_REF_NOWHERE;
  GtkWidget *crab;

  show_plate (test, "Crab croustade");
  open_picture (test, CRO_PICTURE_MOVERS);
  crab = row_named (test, "Brown crab");
  g_signal_connect (test->bench, "open-ref", G_CALLBACK (opened_cb), &opened);
  g_signal_emit_by_name (gtk_widget_get_parent (crab), "row-activated", crab);
  assert_int_equal (opened.kind, CRO_REF_ITEM);
  assert_string_equal (cro_model_item (model_of (test), opened.slot)->name, "Brown crab");
}

/* Figures follow what is typed, after the frame that shows it, and no key asks the store. */
static void
test_keys_ask_nothing (void **state)
{
  static const CroPictureId ids[] = { CRO_PICTURE_MOVERS, CRO_PICTURE_PRICE };
  CroTestBench *test = *state;

  show_plate (test, "Hake, potatoes and mussels");
  for (gsize i = 0; i < G_N_ELEMENTS (ids); i++)
    {
      GtkWidget *entry = gtk_widget_get_ancestor (first_cell (test), GTK_TYPE_ENTRY);
      const char *shown = ids[i] == CRO_PICTURE_MOVERS ? "160 g per bite" : "30.2\302\240%";
      guint before;

      open_picture (test, ids[i]);
      assert_shown (test, shown);
      gtk_widget_grab_focus (entry);
      cro_test_settle ();
      before = cro_test_statements ();
      cro_test_type (entry, "1 kg");
      cro_test_type (entry, "1.1 kg");
      cro_test_settle ();
      if (ids[i] == CRO_PICTURE_MOVERS)
        assert_shown (test, "110 g per bite");
      else
        assert_null (cro_test_find_shown (cro_test_find_type (GTK_WIDGET (test->bench),
                                                              CRO_TYPE_PRICE_VIEW), shown));
      if (cro_test_statements () != before)
        fail_msg ("two keys with picture %d in sight ask %u times", ids[i],
                  cro_test_statements () - before);
      cro_test_escape (entry);
      cro_test_settle ();
      assert_shown (test, shown);
    }
}

static void
test_an_empty_plate_says_so (void **state)
{
  CroTestBench *test = *state;
  CroRef plate = { .kind = CRO_REF_RECIPE };
  GError *error = NULL;

  cro_test_must (cro_edit_add_plate (test->book, "p", "Nothing yet", CRO_MICRO, &plate.slot, &error),
                 error);
  cro_test_bench_show (test, CRO_TYPE_PLATE_BENCH, plate);
  resize (test, 1340, 700);
  open_picture (test, CRO_PICTURE_MOVERS);
  assert_shown (test, "Nothing has a cost yet. Type a line with a price.");
  open_picture (test, CRO_PICTURE_PRICE);
  assert_false (is_seen (test, CRO_TYPE_PRICE_ROW));
}

static void
test_an_ingredient_says_what_may_be_paid (void **state)
{
  CroTestBench *test = *state;
  GError *error = NULL;

  cro_test_must (cro_book_set_date (test->book, cro_date_from_civil (2026, 11, 28), &error), error);
  cro_test_bench_show (test, CRO_TYPE_INGREDIENT_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_ITEMS, "Brown crab"));
  assert_shown (test, "Can be paid, all else equal: up to 15.73/kg · 78.66 per pack · Brown crab on "
                    "toast");
}

/* --- Price ------------------------------------------------------------------------------------ */

static GtkWidget *
price_row (CroTestBench *test,
           gint64        price)
{
  GtkWidget *list = gtk_widget_get_ancestor (cro_test_find_type (GTK_WIDGET (test->bench),
                                                                 CRO_TYPE_PRICE_ROW),
                                             GTK_TYPE_LIST_BOX);

  for (int i = 0;; i++)
    {
      GtkListBoxRow *row = gtk_list_box_get_row_at_index (GTK_LIST_BOX (list), i);

      if (row == NULL)
        fail_msg ("no row has that price");
      if (gtk_widget_get_visible (GTK_WIDGET (row))
          && cro_price_row_get_price (CRO_PRICE_ROW (row)) == price)
        return GTK_WIDGET (row);
    }
}

/* The design's own figures of the hake, and the price kept in one act that is undone. */
static void
test_a_price_is_kept_in_one_act (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *row;
  guint32 plate;

  show_plate (test, "Hake, potatoes and mussels");
  plate = cro_bench_get_slot (test->bench);
  open_picture (test, CRO_PICTURE_PRICE);
  row = price_row (test, 20000000);
  assert_non_null (cro_test_find_shown (row, "30.2\302\240%"));
  assert_non_null (cro_test_find_shown (row, "12.69"));
  assert_non_null (cro_test_find_shown (row, "69"));
  assert_non_null (cro_test_find_shown (row, "now · over target · 18.18 without tax · prime cost "
                                             "46.6\302\240%"));
  assert_non_null (cro_test_find_shown (price_row (test, 20150000), "12.82"));
  row = price_row (test, 20500000);
  /* A click marks the row. */
  assert_false (gtk_list_box_get_activate_on_single_click (GTK_LIST_BOX (gtk_widget_get_parent (row))));
  gtk_widget_grab_focus (row);
  g_signal_emit_by_name (gtk_widget_get_parent (row), "row-activated", row);
  cro_test_settle ();
  assert_int_equal (cro_model_recipe (model_of (test), plate)->price, 20500000);
  assert_int_equal (cro_price_row_get_price (CRO_PRICE_ROW (focus_of (test))), 20500000);
  undo (test);
  cro_test_settle ();
  assert_int_equal (cro_model_recipe (model_of (test), plate)->price, 20000000);
}

static void
test_a_price_holds_from_another_day (void **state)
{
  CroTestBench *test = *state;
  CroRef plate = cro_test_find_ref (test, CRO_NAMES_THINGS, "Brown crab on toast");
  GError *error = NULL;
  GtkWidget *row, *view;

  show_plate (test, "Hake, potatoes and mussels");
  open_picture (test, CRO_PICTURE_PRICE);
  cro_test_type (named (test, "The price holds from"), "2031-01-01");
  row = price_row (test, 21000000);
  g_signal_emit_by_name (gtk_widget_get_parent (row), "row-activated", row);
  cro_test_settle ();
  /* Not yet: and the next one is from today again. */
  assert_int_equal (cro_model_recipe (model_of (test), cro_bench_get_slot (test->bench))->price,
                    20000000);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (named (test, "The price holds from"))), "");
  cro_test_type (named (test, "The price holds from"), "some day");
  gtk_widget_grab_focus (row);
  g_signal_emit_by_name (gtk_widget_get_parent (row), "row-activated", row);
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "is not a date"));
  assert_true (cro_focus_is_in (named (test, "The price holds from")));
  cro_test_type (named (test, "The price holds from"), "");
  /* One that is typed, where there is none, is kept from there too. */
  cro_test_must (cro_edit_set_selling_price (test->book, "none", plate, cro_book_get_figures (test->book)->date,
                                             CRO_NOT_SET, &error), error);
  gtk_window_destroy (GTK_WINDOW (test->window));
  show_plate (test, "Brown crab on toast");
  open_picture (test, CRO_PICTURE_PRICE);
  view = gtk_widget_get_ancestor (named (test, "The price holds from"), CRO_TYPE_PRICE_VIEW);
  cro_test_type (cro_test_find_named (view, "Price with tax"), "36");
  cro_test_enter (named (test, "The price holds from"));
  assert_int_equal (cro_model_recipe (model_of (test), plate.slot)->price, 36000000);
}

static void
placed_cb (GSimpleAction *action,
           GVariant      *place,
           gpointer       to)
{
  *(int *) to = g_variant_get_int32 (place);
}

static gboolean
press_alt_3 (GtkWidget *widget)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GListModel) keys = g_list_model_get_item (controllers, i);

      for (guint k = 0; GTK_IS_SHORTCUT_CONTROLLER (keys) && k < g_list_model_get_n_items (keys); k++)
        {
          g_autoptr (GtkShortcut) key = g_list_model_get_item (keys, k);
          g_autofree char *name = gtk_shortcut_trigger_to_string (gtk_shortcut_get_trigger (key));

          if (g_str_equal (name, "<Alt>3"))
            return gtk_shortcut_action_activate (gtk_shortcut_get_action (key), 0, widget,
                                                 gtk_shortcut_get_arguments (key));
        }
    }
  return FALSE;
}

static void
test_a_places_key_leads_out_of_an_open_sum (void **state)
{
  CroTestBench *test = *state;
  g_autoptr (GSimpleActionGroup) actions = g_simple_action_group_new ();
  g_autoptr (GSimpleAction) action = g_simple_action_new ("place", G_VARIANT_TYPE_INT32);
  g_autoptr (GPtrArray) sum = g_ptr_array_new ();
  GtkWidget *popover;
  int place = -1;

  g_signal_connect (action, "activate", G_CALLBACK (placed_cb), &place);
  g_action_map_add_action (G_ACTION_MAP (actions), G_ACTION (action));
  show_plate (test, "Crab croustade");
  gtk_widget_insert_action_group (test->window, "win", G_ACTION_GROUP (actions));
  popover = cro_sum_popover_new (test->bench, GTK_WIDGET (test->bench));
  cro_sum_popover_show (CRO_SUM_POPOVER (popover), GTK_WIDGET (test->bench), sum, "why");
  cro_test_settle ();
  assert_true (gtk_widget_get_visible (popover));
  assert_true (press_alt_3 (popover));
  assert_int_equal (place, 2);
  assert_false (gtk_widget_get_visible (popover));
  cro_sum_popover_remove (popover);
}

/* A sum of many terms breaks before it is wider than its window, whatever the size of texts. */
static void
test_a_long_sum_is_seen_whole (void **state)
{
  CroTestBench *test = *state;
  GtkSettings *settings = gtk_settings_get_default ();
  g_autoptr (GPtrArray) sum = g_ptr_array_new ();
  CroSumToken token = { .kind = CRO_SUM_WORD, .text = (char *) "Grey mullet, beurre blanc and samphire" };
  int dpi;

  for (guint i = 0; i < 12; i++)
    g_ptr_array_add (sum, &token);
  show_plate (test, "Crab croustade");
  g_object_get (settings, "gtk-xft-dpi", &dpi, NULL);
  for (int times = 1; times <= 2; times++)
    {
      GtkWidget *popover = cro_sum_popover_new (test->bench, GTK_WIDGET (test->bench));
      int least, wanted;

      g_object_set (settings, "gtk-xft-dpi", times * 96 * 1024, NULL);
      cro_sum_popover_show (CRO_SUM_POPOVER (popover), GTK_WIDGET (test->bench), sum, NULL);
      cro_test_settle ();
      gtk_widget_measure (gtk_popover_get_child (GTK_POPOVER (popover)), GTK_ORIENTATION_HORIZONTAL, -1, &least,
                          &wanted, NULL, NULL);
      assert_in_range (wanted, 360, gtk_widget_get_width (test->window));
      cro_sum_popover_remove (popover);
    }
  g_object_set (settings, "gtk-xft-dpi", dpi, NULL);
}

/* Whatever a price would be asked to hold where there is none yet: without a target nothing is over it. */
static void
test_without_a_target_no_price_is_over_it (void **state)
{
  CroTestBench *test = *state;
  CroCell none = CRO_CELL_NONE;
  GError *error = NULL;

  show_plate (test, "Hake, potatoes and mussels");
  open_picture (test, CRO_PICTURE_PRICE);
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "over target · "));
  cro_test_must (cro_book_set (test->book, "no target", "book", 1, "target_pct_micro", &none, &error), error);
  cro_test_settle ();
  assert_null (cro_test_find_containing (GTK_WIDGET (test->bench), "over target · "));
  assert_null (cro_test_find_containing (GTK_WIDGET (test->bench), "holds 30"));
}

static void
test_a_plate_of_a_menu_leads_to_its_price (void **state)
{
  CroTestBench *test = *state;
  CroRef opened = CRO_REF_NOWHERE;

  show_plate (test, "Crab croustade");
  open_picture (test, CRO_PICTURE_PRICE);
  assert_shown (test, "Served in Tide. If sold alone:");
  g_signal_connect (test->bench, "open-ref", G_CALLBACK (opened_cb), &opened);
  press (test, "Price of Tide");
  assert_int_equal (opened.kind, CRO_REF_MENU);
}

static void
test_prices_of_a_menu (void **state)
{
  CroTestBench *test = *state;

  cro_test_bench_show (test, CRO_TYPE_MENU_BENCH, cro_test_find_ref (test, CRO_NAMES_THINGS, "Tide"));
  resize (test, 984, 700);
  open_picture (test, CRO_PICTURE_PRICE);
  assert_non_null (cro_test_find_shown (price_row (test, 95000000), "≤ 61.01"));
  open_picture (test, CRO_PICTURE_MOVERS);
  assert_shown (test, "Lamb saddle");
}

int
main (void)
{
#define CASE(function) cmocka_unit_test_setup_teardown (function, open_book, close_book)
  const struct CMUnitTest tests[] = {
    CASE (test_0_closes_and_is_remembered),
    CASE (test_a_places_key_leads_out_of_an_open_sum),
    CASE (test_a_long_sum_is_seen_whole),
    CASE (test_without_a_target_no_price_is_over_it),
    CASE (test_a_plate_of_a_menu_leads_to_its_price),
    CASE (test_a_price_holds_from_another_day),
    CASE (test_a_price_is_kept_in_one_act),
    CASE (test_a_row_opens_what_it_is_of),
    CASE (test_an_empty_plate_says_so),
    CASE (test_an_ingredient_says_what_may_be_paid),
    CASE (test_ceilings_through_the_menu),
    CASE (test_covers_list_what_is_bought),
    CASE (test_escape_returns_to_the_same_cell),
    CASE (test_in_little_room_it_stands_for_the_lines),
    CASE (test_it_stays_in_sight_while_lines_scroll),
    CASE (test_keys_ask_nothing),
    CASE (test_prices_of_a_menu),
    CASE (test_two_pictures_where_there_is_room),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
