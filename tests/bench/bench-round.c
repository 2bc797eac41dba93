/* A key in the sheet of new prices, with all that stands beside it: read, asked about, drafted, and which
 * plates and menus move, what would hold them, what is cheaper elsewhere.
 *
 * Counted    What the thread of the window works at a key, in its own processor time, without drawing; the
 *            median and the longest of the rounds. The book has 100 thousand lines; every ingredient is on
 *            the one supplier's list. Prices of ingredients all over the list are typed, a digit at a time.
 * Goal       A frame of a screen that shows 60 a second.
 *
 * Usage: bench-round [FOLDER]   (for the book; default: that for temporary files) */
#include "bench.h"
#include "cro-round-effect.h"
#include "synthetic-tables.h"

#include "cro-load.h"

#include <stdio.h>

#define N_ROWS 60
#define N_LINES 100000
#define FRAME_SECONDS (1 / 60.0)
#define MOST_SHOWN 8

static void
type (CroRound     *round,
      CroRoundView *view,
      guint         index,
      double       *seconds)
{
  static const char *const keys[] = { "1", "12", "12.", "12.5", "12.50", "" };

  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    {
      double start = cro_bench_thread_now ();
      g_autoptr (CroRoundEffect) effect = NULL;

      cro_round_type (round, index, keys[i], NULL);
      effect = cro_round_view_read (view, MOST_SHOWN);
      seconds[i] = cro_bench_thread_now () - start;
    }
}

static void
run (CroBook *book)
{
  double start = cro_bench_now (), opened, viewed, seconds[6 * N_ROWS], longest = 0, median;
  g_autoptr (CroRound) round = cro_round_new (book, 0, CRO_SYNTHETIC_DAY, NULL);
  g_autoptr (CroRoundView) view = NULL;
  guint n = cro_round_get_n_rows (round);

  opened = cro_bench_now () - start;
  start = cro_bench_now ();
  view = cro_round_view_new (round, NULL);
  viewed = cro_bench_now () - start;
  for (guint i = 0; i < N_ROWS; i++)
    type (round, view, i * (n - 1) / (N_ROWS - 1), seconds + 6 * i);
  for (guint i = 0; i < G_N_ELEMENTS (seconds); i++)
    longest = MAX (longest, seconds[i]);
  median = cro_bench_median (seconds, G_N_ELEMENTS (seconds));
  cro_bench_head ("New prices");
  printf ("%u rows; opened in %.1f ms, what stood before read in %.1f ms\n", n, 1e3 * opened, 1e3 * viewed);
  cro_bench_row ("a key", median, "a frame", FRAME_SECONDS, median / FRAME_SECONDS, 1);
  cro_bench_row ("the longest", longest, "a frame", FRAME_SECONDS, longest / FRAME_SECONDS, 1);
}

int
main (int    argc,
      char **argv)
{
  g_autofree char *folder = cro_synthetic_make_folder (argc > 1 ? argv[1] : NULL, N_LINES);
  g_autofree char *path = g_build_filename (folder, "round.croustade", NULL);
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (CroBook) book = NULL;
  GError *error = NULL;

  if (!cro_load (path, folder, "bench", "load", FALSE, NULL, NULL, faults, &error))
    g_error ("%s", error != NULL ? error->message : "faults in the tables");
  book = cro_book_open (path, NULL, CRO_STORE_READ, CRO_SYNTHETIC_DAY, &error);
  if (book == NULL)
    g_error ("%s", error->message);
  run (book);
  cro_synthetic_remove_folder (folder);
  return 0;
}
