/* What a whole list does to 10 thousand plates: every price of it goes up, and every plate moves.
 *
 * Beside     One full sweep of the book's food costs, which has to be made for it.
 * Counted    Both in a book that is open and warm: what the command tells once the list is posted, of the book before
 *            and after, and what stands beside the sheet of new prices. A key in the last row of the sheet, with all
 *            rows typed, beside a frame.
 *
 * Usage: bench-moved [FOLDER]   (for the book; default: that for temporary files) */
#include "bench-check.h"
#include "bench.h"
#include "cro-round-effect.h"
#include "synthetic-tables.h"

#include "cro-load.h"

#include <stdio.h>

#define N_LINES 400000    /* two rows in five are plates, of 16 lines each */
#define FRAME_SECONDS (1 / 60.0)
#define MOST_SHOWN 8
#define N_KEYS 41

typedef struct
{
  CroRound     *round;
  CroRoundView *view;
  CroFigures   *before;
  CroFigures   *after;
} Bench;

static void
compare_books (void *user_data)
{
  Bench *bench = user_data;

  g_array_unref (cro_moved_plates_new (bench->before, bench->after));
}

static void
read_beside (void *user_data)
{
  Bench *bench = user_data;

  cro_round_effect_free (cro_round_view_read (bench->view, MOST_SHOWN));
}

static void
sweep (void *user_data)
{
  Bench *bench = user_data;

  cro_sweep (&bench->after->graph, &bench->after->layers[CRO_LAYER_FOOD]);
}

static void
measure_keys (Bench *bench)
{
  double seconds[N_KEYS], median;
  guint last = cro_round_get_n_rows (bench->round) - 1;

  for (guint i = 0; i < N_KEYS; i++)
    {
      double start = cro_bench_thread_now ();

      cro_round_type (bench->round, last, i % 2 == 0 ? "+6 %" : "+5 %", NULL);
      read_beside (bench);
      seconds[i] = cro_bench_thread_now () - start;
    }
  median = cro_bench_median (seconds, N_KEYS);
  cro_bench_row ("a key in the last row", median, "a frame", FRAME_SECONDS, median / FRAME_SECONDS, 1);
}

static void
measure_fill (CroRound *round)
{
  double start = cro_bench_thread_now (), seconds;
  guint n = cro_round_fill (round);

  seconds = cro_bench_thread_now () - start;
  printf ("the rest as last: %u rows in %.1f ms", n, 1e3 * seconds);
  start = cro_bench_thread_now ();
  n = cro_round_empty (round);
  printf (", taken back in %.1f ms\n", 1e3 * (cro_bench_thread_now () - start));
}

/* As a round that was set aside is taken up again. */
static void
measure_put (CroBook  *book,
             CroRound *typed)
{
  g_autoptr (CroRound) round = cro_round_new (book, 0, CRO_SYNTHETIC_DAY, NULL);
  g_autofree char *text = cro_round_to_text (typed);
  double start = cro_bench_thread_now ();

  cro_round_put_text (round, text, NULL);
  printf ("taken up again in %.1f ms\n", 1e3 * (cro_bench_thread_now () - start));
}

static void
run (CroBook *book)
{
  g_autoptr (CroRound) round = cro_round_new (book, 0, CRO_SYNTHETIC_DAY, NULL);
  g_autoptr (CroRoundView) view = cro_round_view_new (round, NULL);
  g_autoptr (GArray) moved = NULL;
  Bench bench = { round, view, cro_book_get_figures (book), cro_book_get_figures (cro_round_get_draft (round)) };
  CroBenchPair pair;
  double start;

  cro_bench_head ("a list that moves all plates");
  measure_fill (round);
  start = cro_bench_thread_now ();
  for (guint i = 0; i < cro_round_get_n_rows (round); i++)
    cro_round_type (round, i, "+5 %", NULL);
  moved = cro_moved_plates_new (bench.before, bench.after);
  printf ("%u rows typed in %.1f ms, %u plates and menus moved\n", cro_round_get_n_rows (round),
          1e3 * (cro_bench_thread_now () - start), moved->len);
  pair = cro_bench_pair (compare_books, sweep, &bench, 11, 1);
  cro_bench_row_of ("what moved, of two books", "one full sweep", &pair, 1.2);
  pair = cro_bench_pair (read_beside, sweep, &bench, 11, 1);
  cro_bench_row_of ("what moves, beside the sheet", "one full sweep", &pair, 1.2);
  measure_keys (&bench);
  measure_put (book, round);
}

int
main (int    argc,
      char **argv)
{
  g_autofree char *folder = cro_synthetic_make_folder (argc > 1 ? argv[1] : NULL, N_LINES);
  g_autofree char *path = g_build_filename (folder, "moved.croustade", NULL);
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (CroBook) book = NULL;
  GError *error = NULL;

  check (cro_load (path, folder, "bench", "load", FALSE, NULL, NULL, faults, &error), error);
  book = cro_book_open (path, NULL, CRO_STORE_READ, CRO_SYNTHETIC_DAY, &error);
  check (book != NULL, error);
  run (book);
  cro_synthetic_remove_folder (folder);
  return 0;
}
