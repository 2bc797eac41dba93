/* What is typed moves nothing: what is wrong, what is asked, what is refused stand over their field. */
#include "support/bench-still.h"

#include "cro-bubble.h"
#include "cro-decimal.h"
#include "cro-ingredient-bench.h"
#include "cro-input.h"
#include "cro-menu-bench.h"
#include "cro-offer-card.h"
#include "cro-plate-bench.h"
#include "cro-preparation-bench.h"

/* What nobody means there; of a column that is not named, "0.5". */
static const struct { const char *column, *text; } doubtful[] = {
  { "trim_yield_pct_micro", "0.3" },    { "yield_pct_micro", "0.3" },         { "recovered_pct_micro", "0.3" },
  { "net_pct_micro", "0.9" },           { "target_pct_micro", "0.3" },        { "tax_pct_micro", "0.1" },
  { "allowance_pct_micro", "0.03" },    { "density_g_per_ml_micro", "97" },   { "price_micro", "1500" },
  { "price", "6600" },                  { "minutes_micro", "9000" },          { "pack_size_micro", "500" },
  { "value_micro", "9000" },            { "piece_g_micro", "99999" },         { "amount_micro", "123456" },
};

/* --- Fields --------------------------------------------------------------------------------------------- */

static CroInput *
input_of (GPtrArray *entries,
          guint      at)
{
  return CRO_INPUT (gtk_widget_get_ancestor (entries->pdata[at], CRO_TYPE_INPUT));
}

/* One of each column: fields of a table are all of a kind. */
static void
add_entries (GPtrArray  *entries,
             GHashTable *columns,
             GtkWidget  *widget)
{
  if (!gtk_widget_get_mapped (widget))
    return;
  if (CRO_IS_INPUT (widget)
      && g_hash_table_add (columns, g_strdup_printf ("%s.%s", cro_input_get_table (CRO_INPUT (widget)),
                                                     cro_input_get_column (CRO_INPUT (widget)))))
    g_ptr_array_add (entries, gtk_widget_get_ancestor (cro_test_find_type (widget, GTK_TYPE_ENTRY), GTK_TYPE_ENTRY));
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    add_entries (entries, columns, child);
}

/* Where things stand is known without painting all of them: what changed is painted alone. */
static void
lay_out (GtkWidget *window)
{
  GdkFrameClock *clock = gtk_widget_get_frame_clock (window);
  gint64 before = gdk_frame_clock_get_frame_counter (clock);

  gdk_frame_clock_request_phase (clock, GDK_FRAME_CLOCK_PHASE_LAYOUT);
  cro_test_wait_until (gdk_frame_clock_get_frame_counter (clock) > before, "nothing is laid out");
  cro_test_settle ();
}

/* On what scrolls with them. */
static GArray *
places_of (CroTestBench *test,
           GPtrArray    *entries)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (graphene_rect_t));

  lay_out (test->window);
  for (guint i = 0; i < entries->len; i++)
    {
      GtkWidget *scrolled = gtk_widget_get_ancestor (entries->pdata[i], GTK_TYPE_VIEWPORT);
      graphene_rect_t place;

      assert_true (gtk_widget_compute_bounds (entries->pdata[i],
                                              scrolled != NULL ? gtk_viewport_get_child (GTK_VIEWPORT (scrolled))
                                                               : GTK_WIDGET (test->bench),
                                              &place));
      g_array_append_val (places, place);
    }
  return places;
}

static void
assert_still (CroTestBench *test,
              GPtrArray    *entries,
              guint         at,
              const char   *typed,
              GArray       *before)
{
  g_autoptr (GArray) after = places_of (test, entries);

  for (guint k = 0; k < entries->len; k++)
    {
      const graphene_rect_t *was = &g_array_index (before, graphene_rect_t, k);
      const graphene_rect_t *is = &g_array_index (after, graphene_rect_t, k);

      if (!graphene_rect_equal (was, is))
        fail_msg ("%d px wide, “%s” in %s moves %s by %g, %g", gtk_widget_get_width (test->window), typed,
                  cro_input_get_column (input_of (entries, at)), cro_input_get_column (input_of (entries, k)),
                  is->origin.x - was->origin.x, is->origin.y - was->origin.y);
    }
}

static const char *
doubtful_of (const char *column)
{
  for (gsize i = 0; i < G_N_ELEMENTS (doubtful); i++)
    if (strcmp (doubtful[i].column, column) == 0)
      return doubtful[i].text;
  return "0.5";
}

/* In its bubble; NULL: that is not in sight. */
static const char *
said_of (CroInput *input)
{
  GtkWidget *bubble = cro_test_find_type (GTK_WIDGET (input), CRO_TYPE_BUBBLE);
  GtkWidget *label = bubble != NULL ? cro_test_find_type (bubble, GTK_TYPE_LABEL) : NULL;

  return label != NULL ? gtk_label_get_label (GTK_LABEL (label)) : NULL;
}

/* Of a number that nobody means: "0.3 %: is 30 % meant?" */
static gboolean
asks_about (CroInput   *input,
            const char *number)
{
  const char *said = said_of (input);

  return said != NULL && g_str_has_prefix (said, number) && g_str_has_suffix (said, " meant?");
}

/* Which word it was, or which kind is typed there. */
static void
assert_refuses (CroInput   *input,
                const char *word)
{
  const char *said;

  /* What was scrolled to is laid out first. */
  cro_test_wait_until ((said = said_of (input)) != NULL, "nothing is said of “%s” in %s", word,
                       cro_input_get_column (input));
  if (strstr (said, word) == NULL && !g_str_has_prefix (said, "This is not a ")
      && !g_str_has_prefix (said, "What is in a pack?"))
    fail_msg ("“%s” in %s is refused by “%s”", word, cro_input_get_column (input), said);
}

/* How many fields refuse a word, and how many ask about a number, below widget. */
static void
type_into (CroTestBench *test,
           GtkWidget    *widget,
           guint        *n_refused,
           guint        *n_asked)
{
  g_autoptr (GPtrArray) entries = g_ptr_array_new ();
  g_autoptr (GHashTable) columns = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  cro_test_see (test->window);
  add_entries (entries, columns, widget);
  for (guint i = 0; i < entries->len; i++)
    {
      const char *number = doubtful_of (cro_input_get_column (input_of (entries, i)));
      g_autoptr (GArray) before = NULL;

      gtk_widget_grab_focus (entries->pdata[i]);
      before = places_of (test, entries);
      cro_test_type (entries->pdata[i], "xyz");
      if (gtk_widget_has_css_class (entries->pdata[i], "error"))
        {
          assert_refuses (input_of (entries, i), "xyz");
          assert_still (test, entries, i, "xyz", before);
          (*n_refused)++;
          cro_test_type (entries->pdata[i], number);
          /* What a number that is meant makes wider is a figure's own. */
          if (asks_about (input_of (entries, i), number))
            {
              assert_still (test, entries, i, number, before);
              (*n_asked)++;
            }
        }
      cro_input_drop (input_of (entries, i));
    }
}

static void
open_more (CroTestBench *test,
           const char   *name)
{
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (named (test, name)), TRUE);
  cro_test_settle ();
}

/* --- Cases ---------------------------------------------------------------------------------------------- */

static void
test_what_is_typed_moves_nothing (void **state)
{
  static const struct
  {
    GType (*type) (void);
    CroNames names;
    const char *name, *more;
    guint refused, asked;
  } things[] = {
    { cro_ingredient_bench_get_type, CRO_NAMES_ITEMS, "Brown crab", "More fields of Brown crab from Quay Shellfish", 8,
      3 },
    { cro_menu_bench_get_type, CRO_NAMES_THINGS, "Tide", NULL, 4, 1 },
    { cro_preparation_bench_get_type, CRO_NAMES_PREPARATIONS, "Brown crab, cooked and picked", NULL, 6, 2 },
    { cro_plate_bench_get_type, CRO_NAMES_THINGS, "Crab croustade", "details of Rice-flour cup", 4, 2 },
  };
  CroTestBench *test = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (things); i++)
    for (gsize w = 0; w < G_N_ELEMENTS (widths); w++)
      {
        guint n_refused = 0, n_asked = 0;

        if (test->bench != NULL)
          gtk_window_destroy (GTK_WINDOW (test->window));
        show (test, things[i].type (), things[i].names, things[i].name, widths[w]);
        if (things[i].more != NULL)
          open_more (test, things[i].more);
        type_into (test, GTK_WIDGET (test->bench), &n_refused, &n_asked);
        if (n_refused < things[i].refused || n_asked < things[i].asked)
          fail_msg ("%s: %u fields refuse, %u ask", things[i].name, n_refused, n_asked);
      }
}

/* What is kept and asked about, on a card, where the question has an answer: by keys alone, and by its sign. */
static void
test_a_question_is_never_lost (void **state)
{
  static const char name[] = "price of Brown crab from Quay Shellfish", asks[] = "Is 66.00 meant?";
  CroTestBench *test = *state;
  g_autoptr (GPtrArray) entries = g_ptr_array_new ();
  g_autoptr (GHashTable) columns = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GArray) before = NULL;
  GtkWidget *price, *input, *next;
  graphene_rect_t below, below_then;
  int start, end;

  show (test, CRO_TYPE_INGREDIENT_BENCH, CRO_NAMES_ITEMS, "Brown crab", widths[1]);
  open_more (test, "More fields of Brown crab from Quay Shellfish");
  price = named (test, name);
  next = named (test, "code of Brown crab from Quay Shellfish");
  input = gtk_widget_get_ancestor (price, CRO_TYPE_INPUT);
  add_entries (entries, columns, gtk_widget_get_ancestor (price, CRO_TYPE_OFFER_CARD));
  gtk_widget_grab_focus (price);
  before = places_of (test, entries);
  assert_true (gtk_widget_compute_bounds (named (test, "Ingredient"), test->window, &below));
  enter (test, name, "6600");
  assert_shown (test, asks);
  assert_still (test, entries, 0, "6600", before);
  /* Nor does the question in the head, beside its figures. */
  assert_true (gtk_widget_compute_bounds (named (test, "Ingredient"), test->window, &below_then));
  assert_float_equal (below_then.origin.y, below.origin.y, 0);
  assert_non_null (cro_test_find_shown (input, "?"));
  /* It goes with the second thing that the focus goes to, and comes with the focus. */
  gtk_widget_grab_focus (next);
  gtk_widget_grab_focus (named (test, "Note"));
  cro_test_wait_until (cro_test_find_shown (input, asks) == NULL, "the question stands over what is done next");
  assert_non_null (cro_test_find_shown (input, "?"));
  gtk_widget_grab_focus (price);
  cro_test_wait_shown (input, asks);
  cro_test_escape (price);
  cro_test_wait_until (cro_test_find_shown (input, asks) == NULL, "Escape leaves the question there");
  assert_non_null (cro_test_find_shown (input, "?"));
  cro_test_key (price, GDK_KEY_F2);
  cro_test_wait_shown (input, asks);
  assert_focus (test, "Set 66.00");
  cro_test_key (price, GDK_KEY_F2);
  press (test, "6600.00 Is Right");
  assert_null (cro_test_find_shown (input, asks));
  assert_null (cro_test_find_shown (input, "?"));
  assert_focus (test, name);
  /* A percentage too. */
  enter (test, "Trim yield %", "0.3");
  press (test, "Set 30\u00a0%");
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (named (test, "Trim yield %"))), "30");
  /* What is typed next is not put in front of it. */
  assert_focus (test, "Trim yield %");
  cro_test_wait_until (gtk_editable_get_selection_bounds (GTK_EDITABLE (named (test, "Trim yield %")), &start, &end),
                       "the percentage that was set is not selected");
  assert_int_equal (end - start, 2);
}

/* A day that is typed, and a choice that it has refused. */
static void
test_a_day_moves_nothing (void **state)
{
  static const char *const days[] = { "2026-11-20", "someday" };
  CroTestBench *test = *state;
  g_autoptr (GPtrArray) entries = g_ptr_array_new ();
  g_autoptr (GHashTable) columns = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GArray) before = NULL;
  GtkWidget *from, *unit;

  show (test, CRO_TYPE_INGREDIENT_BENCH, CRO_NAMES_ITEMS, "Brown crab", widths[1]);
  add_entries (entries, columns, GTK_WIDGET (test->bench));
  from = named (test, "first day of the change of Brown crab from Quay Shellfish");
  gtk_widget_grab_focus (from);
  before = places_of (test, entries);
  for (gsize i = 0; i < G_N_ELEMENTS (days); i++)
    {
      cro_test_type (from, days[i]);
      assert_non_null (cro_test_find_type (gtk_widget_get_parent (from), CRO_TYPE_BUBBLE));
      assert_still (test, entries, 0, days[i], before);
    }
  unit = named (test, "pack unit of Brown crab from Quay Shellfish");
  gtk_widget_grab_focus (unit);
  choose (test, "pack unit of Brown crab from Quay Shellfish", 0);
  /* Why is told at the day, and there alone. */
  assert_null (cro_test_find_type (gtk_widget_get_parent (unit), CRO_TYPE_BUBBLE));
  assert_focus (test, "first day of the change of Brown crab from Quay Shellfish");
  assert_still (test, entries, 0, "a unit", before);
}

/* Under target and over it, by other words beside the figures. */
static void
test_a_price_moves_nothing (void **state)
{
  /* Where the longer of both would take a line more. */
  static const int where[] = { 600, 680, 880 };
  static const char *const prices[] = { "45", "9.5", "99" };
  CroTestBench *test = *state;

  for (gsize w = 0; w < G_N_ELEMENTS (where); w++)
    {
      graphene_rect_t place, place_then;

      if (test->bench != NULL)
        gtk_window_destroy (GTK_WINDOW (test->window));
      show (test, CRO_TYPE_MENU_BENCH, CRO_NAMES_THINGS, "Slack water", where[w]);
      cro_test_see (test->window);
      assert_true (gtk_widget_compute_bounds (named (test, "Target %"), test->window, &place));
      for (gsize i = 0; i < G_N_ELEMENTS (prices); i++)
        {
          cro_test_type (named (test, "Price with tax"), prices[i]);
          cro_test_see (test->window);
          assert_true (gtk_widget_compute_bounds (named (test, "Target %"), test->window, &place_then));
          if (place_then.origin.y != place.origin.y)
            fail_msg ("%d px wide, “%s” moves what stands below the figures by %g", where[w], prices[i],
                      place_then.origin.y - place.origin.y);
        }
      cro_test_escape (named (test, "Price with tax"));
    }
}

/* Nor does a second price of an ingredient, with which its prices have a past to draw. */
static void
test_a_second_price_moves_nothing (void **state)
{
  static const char price[] = "New price per pack", from[] = "From";
  static const int where[] = { 640, 984, 1200 };
  CroTestBench *test = *state;
  CroRef item = cro_test_find_ref (test, CRO_NAMES_ITEMS, "Sea purslane");
  CroUnitPrice first = { .price = 38 * CRO_MICRO, .unit = CRO_UNIT_KG, .supplier = "Market",
                         .from = cro_book_get_figures (test->book)->date };
  GError *error = NULL;

  cro_test_must (cro_edit_price_ingredient (test->book, "price", item.slot, &first, NULL, &error), error);
  for (gsize w = 0; w < G_N_ELEMENTS (where); w++)
    {
      g_autoptr (GPtrArray) entries = g_ptr_array_new ();
      g_autoptr (GArray) before = NULL, after = NULL;
      float moved;

      if (test->bench != NULL)
        gtk_window_destroy (GTK_WINDOW (test->window));
      cro_test_bench_show (test, CRO_TYPE_INGREDIENT_BENCH, item);
      resize (test, where[w], 700);
      assert_shown (test, "The price has always been 38.00/kg.");
      g_ptr_array_add (entries, named (test, from));
      before = places_of (test, entries);
      cro_test_type (named (test, price), "31");
      enter (test, from, "2026-10-01");
      cro_test_wait_until (cro_test_find_shown (GTK_WIDGET (test->bench), "The price has always been 38.00/kg.")
                               == NULL,
                           "no second price is there");
      after = places_of (test, entries);
      moved = g_array_index (after, graphene_rect_t, 0).origin.y - g_array_index (before, graphene_rect_t, 0).origin.y;
      if (moved != 0)
        fail_msg ("%d px wide, a second price moves the field of its day by %g", where[w], moved);
      undo (test);
    }
}

/* Names that are offered under the next line hang over what stands around it, and are chosen there. */
static void
test_names_offered_move_nothing (void **state)
{
  static const int heights[] = { 700, 1200 };
  CroTestBench *test = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (heights); i++)
    {
      GtkWidget *line, *offered;
      graphene_rect_t place, names, bench;
      float before;

      if (test->bench != NULL)
        gtk_window_destroy (GTK_WINDOW (test->window));
      show (test, CRO_TYPE_PLATE_BENCH, CRO_NAMES_THINGS, "Brown crab on toast", widths[0]);
      resize (test, widths[0], heights[i]);
      line = named (test, "Next line");
      gtk_widget_grab_focus (line);
      before = y_of (test, "Next line");
      cro_test_type (line, "12 g crab");
      assert_float_equal (y_of (test, "Next line"), before, 0);
      offered = named (test, "Similar names");
      assert_true (gtk_widget_compute_bounds (offered, test->window, &names)
                   && gtk_widget_compute_bounds (line, test->window, &place)
                   && gtk_widget_compute_bounds (GTK_WIDGET (test->bench), test->window, &bench));
      assert_true (graphene_rect_contains_rect (&bench, &names));
      assert_false (graphene_rect_intersection (&names, &place, NULL));
      /* What is clicked there is a row of it, whatever it hangs over. */
      assert_true (gtk_widget_is_ancestor (gtk_widget_pick (test->window, names.origin.x + 20, names.origin.y + 9,
                                                            GTK_PICK_DEFAULT), offered));
      cro_test_escape (line);
    }
}

/* Beside what is wrong, and as its description. */
static void
test_what_is_wrong_is_said_beside_it (void **state)
{
  static const char says[] = "“xyz” is not an amount. Type a number and a unit, as in 1.5 kg.";
  CroTestBench *test = *state;
  const char *name = "amount of Rice-flour cup per batch";

  show (test, CRO_TYPE_PLATE_BENCH, CRO_NAMES_THINGS, "Crab croustade", widths[0]);
  gtk_widget_grab_focus (named (test, name));
  enter (test, name, "xyz");
  cro_test_wait_shown (GTK_WIDGET (test->bench), says);
  assert_focus (test, name);
  cro_test_escape (named (test, name));
  cro_test_wait_until (cro_test_find_shown (GTK_WIDGET (test->bench), says) == NULL, "it is said of what is right");
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, open_book, close_book)
  const struct CMUnitTest tests[] = {
    CASE (test_what_is_typed_moves_nothing),
    CASE (test_a_question_is_never_lost),
    CASE (test_a_day_moves_nothing),
    CASE (test_a_second_price_moves_nothing),
    CASE (test_a_price_moves_nothing),
    CASE (test_names_offered_move_nothing),
    CASE (test_what_is_wrong_is_said_beside_it),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
