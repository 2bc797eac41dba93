/* The window where lines run from right to left: with a catalogue made for it, as the toolkit
 * turns only for languages that a program has. The sentences stay English. */
#include "support/bench-hands.h"
#include "support/locales.h"

#include <glib/gi18n.h>
#include <locale.h>

#include "cro-causes-view.h"
#include "cro-figure-view.h"
#include "cro-line-row.h"
#include "cro-plate-bench.h"
#include "cro-stream-area.h"

static char *catalogues;

static gboolean
run (const char *const *argv)
{
  int status = 1;

  return g_spawn_sync (NULL, (char **) argv, NULL,
                       G_SPAWN_SEARCH_PATH | G_SPAWN_STDERR_TO_DEV_NULL, NULL, NULL, NULL, NULL,
                       &status, NULL)
         && status == 0;
}

/* FALSE: gettext's tools are not there. */
static gboolean
make_catalogue (void)
{
  g_autofree char *source = g_build_filename (g_getenv ("CROUSTADE_SOURCE"), "po", "croustade.pot",
                                              NULL);
  g_autofree char *folder = NULL, *po = NULL, *mo = NULL;

  catalogues = g_dir_make_tmp ("croustade-mirrored-XXXXXX", NULL);
  folder = g_build_filename (catalogues, "ar", "LC_MESSAGES", NULL);
  po = g_build_filename (catalogues, "ar.po", NULL);
  mo = g_build_filename (folder, "croustade.mo", NULL);
  g_mkdir_with_parents (folder, 0700);
  return run ((const char *const[]){ "msgen", "--lang=ar", "-o", po, source, NULL })
         && run ((const char *const[]){ "msgfmt", "-o", mo, po, NULL });
}

static void
remove_catalogue (void)
{
  run ((const char *const[]){ "rm", "-r", catalogues, NULL });
  g_free (catalogues);
}

static int
open_plate (void **state)
{
  open_book (state);
  cro_test_bench_show (*state, CRO_TYPE_PLATE_BENCH,
                       cro_test_find_ref (*state, CRO_NAMES_THINGS, "Crab croustade"));
  return 0;
}

static float
left_of (CroTestBench *test,
         GtkWidget    *widget)
{
  graphene_rect_t place;

  assert_true (gtk_widget_compute_bounds (widget, GTK_WIDGET (test->bench), &place));
  return place.origin.x;
}

static void
test_the_bench_is_mirrored (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *amount = named (test, "amount of \u2068Trout roe\u2069 per batch");
  GtkWidget *row = gtk_widget_get_ancestor (amount, CRO_TYPE_LINE_ROW);
  GtkWidget *name = cro_test_find_shown (row, "Trout roe");
  GtkWidget *figure = cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_FIGURE_VIEW);
  GtkWidget *causes = cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_CAUSES_VIEW);

  assert_int_equal (gtk_widget_get_default_direction (), GTK_TEXT_DIR_RTL);
  assert_true (left_of (test, amount) > left_of (test, name));
  assert_true (left_of (test, figure) > left_of (test, causes));
}

/* Lines stand at the right, what they are made of at their left: each band begins at the picture's right edge,
 * beside its row, and leads to what was bought at the left. */
static void
test_bands_lead_to_the_left (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *area, *row;
  CroStream *stream;
  guint n_near = 0, n_far = 0;

  gtk_window_set_default_size (GTK_WINDOW (test->window), 1340, 760);
  cro_test_wait_until ((area = cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_STREAM_AREA)) != NULL
                           && gtk_widget_get_width (area) > 0
                           && cro_stream_n_places (cro_stream_area_get_stream (CRO_STREAM_AREA (area))) > 0,
                       "the stream has no bands");
  cro_test_settle ();
  row = cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_LINE_ROW);
  assert_true (left_of (test, area) + (float) gtk_widget_get_width (area) < left_of (test, row));
  stream = cro_stream_area_get_stream (CRO_STREAM_AREA (area));
  for (guint i = 0; i < cro_stream_n_places (stream); i++)
    {
      CroStreamPlace place = cro_stream_get_place (stream, i);

      if (place.kind == CRO_STREAM_COMPONENT)
        {
          n_near++;
          assert_float_equal (place.x + place.width, gtk_widget_get_width (area), 1);
        }
      if (place.kind == CRO_STREAM_BOUGHT)
        {
          n_far++;
          assert_true (place.x < 0.6 * gtk_widget_get_width (area));
        }
    }
  assert_true (n_near >= 9 && n_far >= 5);
}

/* The sign stands behind the digits, as they are read. */
static void
test_a_percentage_is_not_turned (void **state)
{
  CroTestBench *test = *state;
  static const char pct[] = "at least 29.4\u00a0%"; /* something is missing below */
  GtkWidget *label = cro_test_find_shown (GTK_WIDGET (test->bench), pct);
  PangoRectangle digit, sign;
  PangoLayout *layout;

  assert_non_null (label);
  layout = gtk_label_get_layout (GTK_LABEL (label));
  pango_layout_index_to_pos (layout, 2, &digit);
  pango_layout_index_to_pos (layout, (int) strlen (pct) - 1, &sign);
  assert_true (MIN (digit.x, digit.x + digit.width) < MIN (sign.x, sign.x + sign.width));
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, open_plate, close_book)
  const struct CMUnitTest tests[] = {
    CASE (test_bands_lead_to_the_left),
    CASE (test_the_bench_is_mirrored),
    CASE (test_a_percentage_is_not_turned),
  };
  int failed;

  if (!make_catalogue ())
    {
      g_print ("skipped: msgen and msgfmt are not there\n");
      return 77;
    }
  /* Sentences and letters are of the language's own locale: in one that is called C, glibc 2.41 asks for no
   * other language, and GTK 4.18 turns as the letters do. */
  cro_test_find_locales (NULL);
  g_setenv ("LANGUAGE", "ar", TRUE);
  g_setenv ("LANG", "C.UTF-8", TRUE);
  g_setenv ("LC_MESSAGES", "ar_EG.UTF-8", TRUE);
  g_setenv ("LC_CTYPE", "ar_EG.UTF-8", TRUE);
  g_unsetenv ("LC_ALL");
  setlocale (LC_ALL, "");
  bindtextdomain ("croustade", catalogues);
  bind_textdomain_codeset ("croustade", "UTF-8");
  textdomain ("croustade");
  cro_test_bench_init ();
  failed = cmocka_run_group_tests (tests, NULL, NULL);
  remove_catalogue ();
  return failed;
}
