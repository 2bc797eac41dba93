/* The window's first painted frame, and the memory that it takes then.
 *
 * Beside     A program that shows a window with a header bar and nothing else, with the same
 *            libraries for windows, environment and screen.
 * Counted    From before the process is started to the end of the frame, and at that moment the
 *            pages of the process: those it shares by halves, thirds and so on (proportional),
 *            and those that it alone has written. The window as it comes up without a book, and
 *            with an empty book once that stands in it.
 *
 * Load       Where others use the machine the time is theirs too; the processor seconds of the process
 *            until then, the least of all rounds, are less moved by them.
 *
 * Usage: bench-window PRELOADED PROGRAM BARE   (first-frame.c, the program, bare-window.c) */
#include "bench-check.h"
#include "bench.h"
#include "cro-book.h"

#include <glib/gstdio.h>
#include <stdio.h>

#define N_ROUNDS 15
#define BOOK "empty.croustade"

typedef struct
{
  double seconds;
  double pss_mib;
  double dirty_mib;
  double processor_seconds;
} Frame;

static Frame
start (const char *preloaded,
       const char *program,
       const char *path)
{
  const char *argv[] = { program, path, NULL };
  g_auto (GStrv) env = g_get_environ ();
  g_autofree char *printed = NULL;
  GError *error = NULL;
  Frame frame;
  char *at;
  double before;
  int status;

  env = g_environ_setenv (env, "LD_PRELOAD", preloaded, TRUE);
  if (path != NULL)
    env = g_environ_setenv (env, "FIRST_FRAME_TITLE", BOOK, TRUE);
  before = cro_bench_now ();
  check (g_spawn_sync (NULL, (char **) argv, env, 0, NULL, NULL, &printed, NULL, &status, &error),
         error);
  check (g_spawn_check_wait_status (status, &error), error);
  frame.seconds = g_ascii_strtod (printed, &at) - before;
  frame.pss_mib = g_ascii_strtod (at, &at) / 1024;
  frame.dirty_mib = g_ascii_strtod (at, &at) / 1024;
  frame.processor_seconds = g_ascii_strtod (at, NULL);
  return frame;
}

static double
ratio_of (const double *ours,
          const double *bare)
{
  double ratios[N_ROUNDS];

  for (int i = 0; i < N_ROUNDS; i++)
    ratios[i] = ours[i] / bare[i];
  return cro_bench_median (ratios, N_ROUNDS);
}

static void
compare (char       **argv,
         const char  *path)
{
  double ours[3][N_ROUNDS], bare[3][N_ROUNDS], ratio[3];
  double least_of_ours = G_MAXDOUBLE, least_of_bare = G_MAXDOUBLE;

  cro_bench_head (path != NULL ? "an empty book" : "no book yet");
  /* One round more, which leaves files and the icons of the theme where they are found fast. */
  for (int i = -1; i < N_ROUNDS; i++)
    {
      Frame a = start (argv[1], argv[2], path), b = start (argv[1], argv[3], NULL);

      if (i < 0)
        continue;
      ours[0][i] = a.seconds, bare[0][i] = b.seconds;
      ours[1][i] = a.pss_mib, bare[1][i] = b.pss_mib;
      ours[2][i] = a.dirty_mib, bare[2][i] = b.dirty_mib;
      least_of_ours = MIN (least_of_ours, a.processor_seconds);
      least_of_bare = MIN (least_of_bare, b.processor_seconds);
    }
  for (int k = 0; k < 3; k++)
    ratio[k] = ratio_of (ours[k], bare[k]);
  cro_bench_row ("first frame", cro_bench_median (ours[0], N_ROUNDS), "bare window",
                 cro_bench_median (bare[0], N_ROUNDS), ratio[0], 1.25);
  cro_bench_row ("  processor, best round", least_of_ours, "bare window", least_of_bare,
                 least_of_ours / least_of_bare, 1.25);
  cro_bench_figures ("proportional memory, MiB", cro_bench_median (ours[1], N_ROUNDS),
                     "bare window", cro_bench_median (bare[1], N_ROUNDS), ratio[1], 1.25);
  cro_bench_figures ("memory it alone has, MiB", cro_bench_median (ours[2], N_ROUNDS),
                     "bare window", cro_bench_median (bare[2], N_ROUNDS), ratio[2], 1.25);
}

int
main (int    argc,
      char **argv)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_dir_make_tmp ("bench-XXXXXX", &error);
  g_autofree char *path = g_build_filename (folder, BOOK, NULL);
  CroBook *book = cro_book_create (path, "bench", 0, &error);

  check (argc == 4 && book != NULL, error);
  g_object_unref (book);
  compare (argv, NULL);
  compare (argv, path);
  for (const char *const *end = (const char *const[]){ "", "-wal", "-shm", NULL }; *end; end++)
    {
      g_autofree char *file = g_strconcat (path, *end, NULL);

      g_unlink (file);
    }
  g_rmdir (folder);
  return 0;
}
