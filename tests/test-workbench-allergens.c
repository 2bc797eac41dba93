/* Allergens in the window: what a guest avoids, who carries it, the list of answers by words alone,
 * and cautions that stay on the screen. Nothing here is a statement about food that is served. */
#include "support/bench-hands.h"

#include "cro-all-ingredients.h"
#include "cro-all-plates.h"
#include "cro-catalogue.h"
#include "cro-mark-table.h"
#include "cro-notes.h"
#include "cro-overview.h"
#include "cro-plate-bench.h"
#include "cro-tongue.h"
#include "cro-words.h"

static void
show (CroTestBench *test,
      GType         type,
      CroRef        overview)
{
  cro_test_bench_show (test, type, overview);
  assert_true (cro_overview_show_view (CRO_OVERVIEW (test->bench), CRO_VIEW_ALLERGENS));
  cro_test_settle ();
}

/* A key as the table hears it: before its rows do, and after them. */
static void
press_key (CroTestBench    *test,
           guint            keyval,
           GdkModifierType  state)
{
  GtkWidget *table = cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_MARK_TABLE);
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (table);
  static const GtkPropagationPhase phases[] = { GTK_PHASE_CAPTURE, GTK_PHASE_BUBBLE };
  gboolean handled = FALSE;

  for (gsize phase = 0; phase < G_N_ELEMENTS (phases); phase++)
    for (guint i = 0; i < g_list_model_get_n_items (controllers) && !handled; i++)
      {
        g_autoptr (GtkEventController) one = g_list_model_get_item (controllers, i);

        if (GTK_IS_EVENT_CONTROLLER_KEY (one)
            && gtk_event_controller_get_propagation_phase (one) == phases[phase])
          g_signal_emit_by_name (one, "key-pressed", keyval, 0, state, &handled);
      }
  cro_test_settle ();
}

static void
type_letters (CroTestBench *test,
              const char   *letters)
{
  for (; *letters != '\0'; letters = g_utf8_next_char (letters))
    press_key (test, gdk_unicode_to_keyval (g_utf8_get_char (letters)),
               g_ascii_isupper (*letters) ? GDK_SHIFT_MASK : 0);
}

static void
focus_table (CroTestBench *test)
{
  assert_true (gtk_widget_grab_focus (cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_MARK_TABLE)));
  cro_test_settle ();
}

static void
seen (CroTestBench *test,
      const char   *text)
{
  cro_test_wait_shown (GTK_WIDGET (test->bench), text);
}

static void
is_stored (CroTestBench *test,
           const char   *name,
           const char   *allergens,
           const char   *may_contain)
{
  gint64 id = cro_model_item (model_of (test), cro_test_find_ref (test, CRO_NAMES_ITEMS, name).slot)->id;
  g_autofree char *contains = cro_test_stored (test, "ingredient", id, "allergens");
  g_autofree char *may = cro_test_stored (test, "ingredient", id, "may_contain");

  if (g_strcmp0 (contains, allergens) != 0 || g_strcmp0 (may, may_contain) != 0)
    fail_msg ("%s: %s, may contain %s", name, contains, may);
}

/* --- What a guest avoids ------------------------------------------------------------------------- */

static void
test_a_guest_avoids_molluscs (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry;

  show (test, CRO_TYPE_ALL_PLATES, CRO_REF_ALL_PLATES);
  entry = cro_test_find_named (GTK_WIDGET (test->bench), "A guest avoids: type an allergen");
  cro_test_type (entry, "m");
  seen (test, "milk, mustard, molluscs: type more letters");
  cro_test_type (entry, "mol");
  cro_test_enter (entry);
  seen (test, "Contain: molluscs");
  seen (test, "Not known: molluscs");
  seen (test, "not stated: Dulse flakes");
  seen (test, "Not among those entered: molluscs (no “free from” claim; cross-contact is not known)");
  focus_table (test);
  cro_test_find_named (GTK_WIDGET (test->bench), "Fish soup, rouille and toast, molluscs: contains");
  press_key (test, GDK_KEY_Down, 0);
  press_key (test, GDK_KEY_Left, 0);
  cro_test_find_named (GTK_WIDGET (test->bench),
                       "Hake, potatoes and mussels, lupin: not among those entered");
  seen (test, "Hake, potatoes and mussels, lupin: not among those entered. It is no “free from” claim.");
  /* Headings are passed. */
  press_key (test, GDK_KEY_End, 0);
  cro_test_settle ();
  press_key (test, GDK_KEY_Home, 0);
  cro_test_settle ();
  cro_test_find_named (GTK_WIDGET (test->bench),
                       "Fish soup, rouille and toast, lupin: not among those entered");
}

/* Where there is room for them, what the signs mean and which list it is do not scroll, whatever lines they break
 * into. */
static void
test_what_signs_mean_is_whole (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *notes;
  GtkAdjustment *down;

  show (test, CRO_TYPE_ALL_PLATES, CRO_REF_ALL_PLATES);
  gtk_window_set_default_size (GTK_WINDOW (test->window), 760, 1100);
  cro_test_wait_until (ABS (gtk_widget_get_width (test->window) - 760) < 60, "the window is %d wide",
                       gtk_widget_get_width (test->window));
  cro_test_see (test->window);
  notes = cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_NOTES);
  down = gtk_scrolled_window_get_vadjustment (
      GTK_SCROLLED_WINDOW (gtk_widget_get_ancestor (cro_test_find_type (notes, GTK_TYPE_VIEWPORT),
                                                    GTK_TYPE_SCROLLED_WINDOW)));
  assert_float_equal (gtk_adjustment_get_upper (down), gtk_adjustment_get_page_size (down), 0);
}

static void
test_cautions_stay_on_a_small_screen (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *caution;
  graphene_rect_t place;

  show (test, CRO_TYPE_ALL_PLATES, CRO_REF_ALL_PLATES);
  gtk_window_set_default_size (GTK_WINDOW (test->window), 640, 590);
  cro_test_wait_until (ABS (gtk_widget_get_width (test->window) - 640) < 60, "the window is %d wide",
                       gtk_widget_get_width (test->window));
  cro_test_settle ();
  caution = cro_test_find_shown (GTK_WIDGET (test->bench), cro_words_caution ());
  assert_non_null (caution);
  assert_true (gtk_widget_compute_bounds (caution, test->window, &place));
  assert_true (place.origin.y + place.size.height <= gtk_widget_get_height (test->window));
}

/* What 1024 pixels leave beside the rail and the list. */
#define BESIDE_LIST 640

/* --- Answers ------------------------------------------------------------------------------------- */

static void
test_letters_answer (void **state)
{
  CroTestBench *test = *state;
  g_autoptr (GError) error = NULL;
  int low;

  show (test, CRO_TYPE_ALL_INGREDIENTS, CRO_REF_ALL_INGREDIENTS);
  seen (test, "Not stated for 1 of 84 ingredients.");
  /* A page that needed more height than there is would be made wider than the window instead. */
  gtk_widget_measure (GTK_WIDGET (test->bench), GTK_ORIENTATION_HORIZONTAL, 200, &low, NULL, NULL, NULL);
  assert_in_range (low, 1, BESIDE_LIST);
  focus_table (test);
  seen (test, "Dulse flakes: not stated");
  type_letters (test, "m");
  seen (test, "milk, mustard, molluscs: type more letters");
  type_letters (test, "u Cr");
  seen (test, "Dulse flakes: mustard; may contain crustaceans");
  is_stored (test, "Dulse flakes", NULL, NULL);
  press_key (test, GDK_KEY_Return, 0);
  is_stored (test, "Dulse flakes", "512", "2");
  seen (test, "Stated for all 84 ingredients.");
  seen (test, "Butter, unsalted: milk");
  type_letters (test, "nu");
  seen (test, "Butter, unsalted: milk, nuts");
  press_key (test, GDK_KEY_Escape, 0);
  seen (test, "Butter, unsalted: milk");
  press_key (test, GDK_KEY_Down, 0);
  is_stored (test, "Butter, unsalted", "64", NULL);
  /* One act, both of its answers. */
  cro_test_must (cro_book_undo (test->book, NULL, &error), error);
  cro_test_settle ();
  is_stored (test, "Dulse flakes", NULL, NULL);
  seen (test, "Not stated for 1 of 84 ingredients.");
}

/* Two keys each, when all say none: nothing asks for a third, nothing is left out. */
static void
test_all_are_answered_by_two_keys_each (void **state)
{
  CroTestBench *test = *state;

  show (test, CRO_TYPE_ALL_INGREDIENTS, CRO_REF_ALL_INGREDIENTS);
  focus_table (test);
  for (int i = 0; i < 84; i++)
    {
      type_letters (test, "0");
      press_key (test, GDK_KEY_Return, 0);
    }
  seen (test, "That was the last ingredient.");
  is_stored (test, "Dulse flakes", "0", NULL);
  is_stored (test, "Brown crab", "0", NULL);
  is_stored (test, "Hake", "0", NULL);
  /* A full stop says that nobody has said. */
  press_key (test, GDK_KEY_Home, 0);
  type_letters (test, ".");
  press_key (test, GDK_KEY_Return, 0);
  is_stored (test, "Dulse flakes", NULL, NULL);
}

/* What is stored of an ingredient of which nothing was said, after words and Enter. */
typedef struct
{
  const char *typed;
  const char *allergens; /* NULL: still not stated */
  const char *may_contain;
} Typed;

static const Typed typed_in_english[] = {
  { "gluten", "1", NULL },
  { "crustaceans", "2", NULL },
  { "eggs", "4", NULL },
  { "fish", "8", NULL },
  { "peanuts", "16", NULL },
  { "soybeans", "32", NULL },
  { "milk", "64", NULL },
  { "nuts", "128", NULL },
  { "celery", "256", NULL },
  { "mustard", "512", NULL },
  { "sesame", "1024", NULL },
  { "sulphites", "2048", NULL },
  { "lupin", "4096", NULL },
  { "molluscs", "8192", NULL },
  { "cru", "2", NULL },
  { "milk, fish", "72", NULL },
  { "milk  fish ", "72", NULL },
  { "milk; Peanuts, celery.", "320", "16" },
  { "MILK", NULL, "64" },
  { "milk milk", "64", NULL },
  { "milk fish -milk", "8", NULL },
  { "none", "0", NULL },
  { "0", "0", NULL },
  /* Nothing is said by what is no name of one group. */
  { "n", NULL, NULL },
  { "no", NULL, NULL },
  { "m", NULL, NULL },
  { "nonesuch", NULL, NULL },
  { "glutton", NULL, NULL },
  { "20", NULL, NULL },
  { "Spring tide 20", NULL, NULL },
};

static const Typed typed_in_french[] = {
  { "gluten", "1", NULL },
  { "crustacés", "2", NULL },
  { "oeufs", "4", NULL },
  { "œufs", "4", NULL },
  { "poissons", "8", NULL },
  { "arachides", "16", NULL },
  { "soja", "32", NULL },
  { "lait", "64", NULL },
  { "fruits à coque", "128", NULL },
  { "fruits a coque moutarde", "640", NULL },
  { "fruits moutarde", "640", NULL },
  { "celeri", "256", NULL },
  { "sésame", "1024", NULL },
  { "sulfites", "2048", NULL },
  { "lupin", "4096", NULL },
  { "mollusques", "8192", NULL },
  /* Labels are in English too. */
  { "peanuts", "16", NULL },
  { "Crustaceans", NULL, "2" },
  { "aucun", "0", NULL },
  { "a", NULL, NULL },
  { "marée 20", NULL, NULL },
};

static void
type_each (CroTestBench *test, const Typed *each, gsize n)
{
  show (test, CRO_TYPE_ALL_INGREDIENTS, CRO_REF_ALL_INGREDIENTS);
  focus_table (test);
  for (gsize i = 0; i < n; i++)
    {
      g_print ("# %s\n", each[i].typed);
      type_letters (test, each[i].typed);
      press_key (test, GDK_KEY_Return, 0);
      is_stored (test, "Dulse flakes", each[i].allergens, each[i].may_contain);
      press_key (test, GDK_KEY_Home, 0);
      type_letters (test, ".");
      press_key (test, GDK_KEY_Return, 0);
      press_key (test, GDK_KEY_Home, 0);
      is_stored (test, "Dulse flakes", NULL, NULL);
    }
}

static void
test_whole_words_answer (void **state)
{
  type_each (*state, typed_in_english, G_N_ELEMENTS (typed_in_english));
}

static void
test_whole_words_answer_in_french (void **state)
{
  g_autoptr (CroTongue) tongue = NULL;

  if (!cro_catalogue_has ("fr"))
    {
      print_message ("skipped: the French catalogue is not there\n");
      skip ();
    }
  cro_catalogue_open ();
  tongue = cro_tongue_enter ("fr");
  type_each (*state, typed_in_french, G_N_ELEMENTS (typed_in_french));
}

static void
test_what_is_no_allergen_is_refused (void **state)
{
  CroTestBench *test = *state;

  show (test, CRO_TYPE_ALL_INGREDIENTS, CRO_REF_ALL_INGREDIENTS);
  focus_table (test);
  type_letters (test, "glutto");
  seen (test, "“glutto” is no allergen of this list: nothing is entered for it.");
  press_key (test, GDK_KEY_BackSpace, 0);
  press_key (test, GDK_KEY_BackSpace, 0);
  seen (test, "Dulse flakes: gluten");
  type_letters (test, " m");
  press_key (test, GDK_KEY_Return, 0);
  seen (test, "“m” can be milk, mustard, molluscs: nothing is entered for it.");
  is_stored (test, "Dulse flakes", NULL, NULL);
  press_key (test, GDK_KEY_Return, 0);
  is_stored (test, "Dulse flakes", "1", NULL);
  /* No word is in progress: the sign one stands on goes, which is gluten's. */
  press_key (test, GDK_KEY_Home, 0);
  type_letters (test, "milk,");
  press_key (test, GDK_KEY_BackSpace, 0);
  press_key (test, GDK_KEY_Return, 0);
  is_stored (test, "Dulse flakes", "64", NULL);
}

/* --- On a plate
 * ----------------------------------------------------------------------------------- */

static void
test_a_plate_has_one_line (void **state)
{
  CroTestBench *test = *state;

  cro_test_bench_show (test, CRO_TYPE_PLATE_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_THINGS, "Crab croustade"));
  seen (test, "Allergens entered: crustaceans, eggs, fish, milk, mustard, sulphites. Cautions…");
  cro_test_find_named (GTK_WIDGET (test->bench),
                       "Allergens entered: crustaceans, eggs, fish, milk, mustard, sulphites. Cautions… "
                       "Press for who carries them in.");
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, open_book, close_book)
  const struct CMUnitTest tests[] = {
    CASE (test_a_guest_avoids_molluscs),
    CASE (test_what_signs_mean_is_whole),
    CASE (test_cautions_stay_on_a_small_screen),
    CASE (test_letters_answer),
    CASE (test_all_are_answered_by_two_keys_each),
    CASE (test_whole_words_answer),
    CASE (test_what_is_no_allergen_is_refused),
    CASE (test_a_plate_has_one_line),
    CASE (test_whole_words_answer_in_french),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
