/* cost --json of 1,000 plates of 1,000 ingredients each, beside the bare printing of its numbers.
 *
 * Beside     The same numbers through printf %.17g alone, on one thread; and one thread beside
 *            two, of the same bytes, for cost --json, for the breakdowns alone and for check. The
 *            office's workbook has one thread and no such row: its figures take a hundredth of its
 *            time, what is missing a tenth where every tenth price is, the month's included; the
 *            rest is text and packing.
 * Counted    Figures of an open book written into nothing. Memory is the most that is held above
 *            the open book. Two threads are counted twice: by the clock, which tells little while
 *            the machine does other work, and by the processor time of the busier one beside that
 *            of one alone.
 *
 * Usage: bench-cost-json [FOLDER]   (a folder for the book, default: that for temporary files) */
#define _GNU_SOURCE
#include "bench.h"

#include "cro-check.h"
#include "cro-cli.h"
#include "cro-load.h"
#include "cro-many.h"

#include <sched.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#define N_PLATES 1000
#define N_INGREDIENTS 1000
#define DAY "2026-12-01"
#define N_ROUNDS 3
#define GOAL_PRINTED 1.4
#define GOAL_THREADS 0.65
#define GOAL_MIB 16

static FILE *
open_table (const char *folder,
            const char *name,
            const char *head)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  FILE *file = fopen (path, "w");

  if (file == NULL)
    g_error ("%s: cannot be written", path);
  fprintf (file, "%s\n", head);
  return file;
}

static void
write_larder (const char *folder)
{
  FILE *ingredients = open_table (folder, "ingredients.csv", "name,unit,allergens");
  FILE *offers = open_table (folder, "offers.csv",
                             "ingredient,supplier,pack_count,pack_size,pack_unit");
  FILE *prices = open_table (folder, "prices.csv", "ingredient,supplier,from,price");
  FILE *suppliers = open_table (folder, "suppliers.csv", "name\nQuay");

  for (int i = 0; i < N_INGREDIENTS; i++)
    {
      fprintf (ingredients, "Ingredient %d,g,none\n", i);
      fprintf (offers, "Ingredient %d,Quay,1,%d,kg\n", i, 1 + i % 7);
      fprintf (prices, "Ingredient %d,Quay,2026-01-01,%d.%02d\n", i, 1 + i % 90, i % 100);
    }
  fclose (ingredients);
  fclose (offers);
  fclose (prices);
  fclose (suppliers);
}

static void
write_plates (const char *folder)
{
  FILE *plates = open_table (folder, "plates.csv", "name,makes,price,target_pct");
  FILE *lines = open_table (folder, "lines.csv", "into,parent,position,item,amount,unit");

  for (int p = 0; p < N_PLATES; p++)
    {
      fprintf (plates, "Plate %d,%d,%d,30\n", p, 1 + p % 30, 10 + p % 40);
      for (int i = 0; i < N_INGREDIENTS; i++)
        fprintf (lines, "plate,Plate %d,%d,Ingredient %d,%d.%d,g\n", p, i + 1, i,
                 1 + (p * 31 + i * 17) % 500, 1 + (p + i) % 9);
    }
  fclose (plates);
  fclose (lines);
}

/* --- What is timed -------------------------------------------------------------------------------- */

typedef struct
{
  CroCosting  costing;
  double     *numbers;
  gsize       n;
  CroBreakdown *breakdowns[CRO_MANY_SLOTS];
  GChecksum    *sum;                        /* of what the breakdowns say; NULL: not asked for */
} Bench;

static void
print_json (void *data)
{
  Bench *bench = data;
  GError *error = NULL;

  if (!cro_cli_print_cost_json (&bench->costing, &error))
    g_error ("%s", error->message);
}

static void
print_numbers (void *data)
{
  Bench *bench = data;

  for (gsize i = 0; i < bench->n; i++)
    printf ("%.17g", bench->numbers[i]);
}

static void
break_down (CroFigures *figures,
            guint       index,
            guint       slot,
            gpointer    data)
{
  Bench *bench = data;

  bench->breakdowns[slot]
      = cro_breakdown_of_plate (figures, g_array_index (bench->costing.plates, guint32, index));
}

static void
take_breakdown (guint    index,
                guint    slot,
                gpointer data)
{
  Bench *bench = data;
  g_autoptr (CroBreakdown) breakdown = g_steal_pointer (&bench->breakdowns[slot]);

  if (bench->sum == NULL)
    return;
  g_checksum_update (bench->sum, (const guchar *) &breakdown->figure.cost, sizeof (double));
  for (guint k = 0; k < breakdown->ingredients->len; k++)
    {
      const CroShareOfCost *share = &g_array_index (breakdown->ingredients, CroShareOfCost, k);
      double of[] = { share->item, share->quantity, share->cost, share->elasticity, share->ceiling };

      g_checksum_update (bench->sum, (const guchar *) of, sizeof of);
    }
}

static void
break_all_down (void *data)
{
  Bench *bench = data;

  cro_many_run (cro_book_get_figures (bench->costing.book), bench->costing.plates->len, 0, break_down,
                take_breakdown, bench);
}

static void
found_nothing (CroCheckKind  kind,
               const char   *what,
               gpointer      user_data)
{
  g_error ("%s", what);
}

static void
check_model (void *data)
{
  Bench *bench = data;
  CroCheckReport report = { 0 };

  cro_check_model (bench->costing.book, found_nothing, NULL, &report);
}

/* The threads of a run are as many as the processors that it may have. */
static void
allow (int n)
{
  cpu_set_t set;

  CPU_ZERO (&set);
  for (int i = 0; i < n; i++)
    CPU_SET (i, &set);
  sched_setaffinity (0, sizeof set, &set);
}

/* To be freed. */
static char *
sum_of_breakdowns (Bench *bench,
                   int    threads)
{
  char *sum;

  allow (threads);
  bench->sum = g_checksum_new (G_CHECKSUM_SHA256);
  break_all_down (bench);
  sum = g_strdup (g_checksum_get_string (bench->sum));
  g_clear_pointer (&bench->sum, g_checksum_free);
  return sum;
}

static double
timed (CroBenchRun  run,
       Bench       *bench,
       int          threads)
{
  double seconds[N_ROUNDS];

  allow (threads);
  for (int i = 0; i < N_ROUNDS; i++)
    {
      double start = cro_bench_now ();

      run (bench);
      seconds[i] = cro_bench_now () - start;
    }
  return cro_bench_median (seconds, N_ROUNDS);
}

static double
processor_now (clockid_t clock)
{
  struct timespec now;

  clock_gettime (clock, &now);
  return (double) now.tv_sec + 1e-9 * (double) now.tv_nsec;
}

/* Of the busier thread, on so many processors. */
static double
processor_time (CroBenchRun  run,
                Bench       *bench,
                int          threads)
{
  double seconds[N_ROUNDS];

  allow (threads);
  for (int i = 0; i < N_ROUNDS; i++)
    {
      double all = processor_now (CLOCK_PROCESS_CPUTIME_ID);
      double own = processor_now (CLOCK_THREAD_CPUTIME_ID);

      run (bench);
      all = processor_now (CLOCK_PROCESS_CPUTIME_ID) - all;
      own = processor_now (CLOCK_THREAD_CPUTIME_ID) - own;
      seconds[i] = MAX (own, all - own);
    }
  return cro_bench_median (seconds, N_ROUNDS);
}

/* What would remain of the time on a machine that has two processors for it. */
static double
busier_part (CroBenchRun  run,
             Bench       *bench)
{
  return processor_time (run, bench, 2) / processor_time (run, bench, 1);
}

static void
add_number (Bench  *bench,
            double  number)
{
  bench->numbers[bench->n++] = number;
}

static void
gather (Bench *bench)
{
  CroFigures *figures = cro_book_get_figures (bench->costing.book);

  bench->numbers = g_new (double, (gsize) N_PLATES * (N_INGREDIENTS * 5 + 8));
  for (guint i = 0; i < bench->costing.plates->len; i++)
    {
      g_autoptr (CroBreakdown) breakdown
          = cro_breakdown_of_plate (figures, g_array_index (bench->costing.plates, guint32, i));
      const CroFigure *figure = &breakdown->figure;
      double head[] = { figure->cost, figure->labour, figure->disposables, figure->net_price,
                        figure->food_cost_pct, figure->target_pct, figure->bite };

      for (gsize k = 0; k < G_N_ELEMENTS (head); k++)
        add_number (bench, head[k]);
      for (guint k = 0; k < breakdown->ingredients->len; k++)
        {
          const CroShareOfCost *share = &g_array_index (breakdown->ingredients, CroShareOfCost, k);

          add_number (bench, share->quantity);
          add_number (bench, share->unit_cost);
          add_number (bench, share->cost);
          add_number (bench, share->elasticity);
          add_number (bench, share->ceiling);
        }
    }
}

/* --- Memory --------------------------------------------------------------------------------------- */

static double
status_mib (const char *key)
{
  g_autofree char *text = NULL;
  const char *at;

  if (!g_file_get_contents ("/proc/self/status", &text, NULL, NULL))
    return 0;
  at = strstr (text, key);
  return at != NULL ? g_ascii_strtod (at + strlen (key), NULL) / 1024 : 0;
}

/* The most that is held while it is written, above what was held before. */
static double
memory_above (Bench *bench)
{
  double before;
  FILE *reset = fopen ("/proc/self/clear_refs", "w");

  if (reset != NULL)
    {
      fputs ("5", reset);
      fclose (reset);
    }
  before = status_mib ("VmRSS:");
  print_json (bench);
  return status_mib ("VmHWM:") - before;
}

static void
open_book (Bench      *bench,
           const char *folder)
{
  g_autofree char *path = g_build_filename (folder, "cost.croustade", NULL);
  g_autoptr (CroFaults) faults = cro_faults_new ();
  GError *error = NULL;
  CroModel *model;

  write_larder (folder);
  write_plates (folder);
  if (!cro_load (path, folder, "bench", "load", FALSE, NULL, NULL, faults, &error))
    g_error ("%s", error != NULL ? error->message : "faults in the tables");
  cro_date_parse (DAY, strlen (DAY), &bench->costing.date);
  bench->costing.book = cro_book_open (path, NULL, CRO_STORE_READ, bench->costing.date, &error);
  if (bench->costing.book == NULL)
    g_error ("%s", error->message);
  model = cro_book_get_model (bench->costing.book);
  bench->costing.plates = g_array_new (FALSE, FALSE, sizeof (guint32));
  bench->costing.menus = g_array_new (FALSE, FALSE, sizeof (guint32));
  for (guint32 i = 0; i < model->recipes->len; i++)
    g_array_append_val (bench->costing.plates, i);
}

static void
compare_threads (FILE        *report,
                 Bench       *bench,
                 const char  *what,
                 CroBenchRun  run)
{
  double one = timed (run, bench, 1), two = timed (run, bench, 2);

  fprintf (report, "  %s: two threads %.3f s beside one %.3f s: %.2f (goal %.2f)\n", what, two, one,
           two / one, GOAL_THREADS);
  fprintf (report, "    the busier takes %.2f of its processor time\n", busier_part (run, bench));
}

int
main (int    argc,
      char **argv)
{
  g_autofree char *folder = g_build_filename (argc > 1 ? argv[1] : g_get_tmp_dir (),
                                              "cost-json-XXXXXX", NULL);
  FILE *report = fdopen (dup (STDOUT_FILENO), "w");
  g_autofree char *command = NULL;
  g_autofree char *alone = NULL, *shared = NULL;
  Bench bench = { .costing = { .is_whole = TRUE } };
  double one, two, bare, memory;

  if (report == NULL || g_mkdtemp (folder) == NULL)
    return EXIT_FAILURE;
  open_book (&bench, folder);
  if (freopen ("/dev/null", "w", stdout) == NULL)
    return EXIT_FAILURE;
  memory = memory_above (&bench);
  one = timed (print_json, &bench, 1);
  gather (&bench);
  bare = timed (print_numbers, &bench, 1);
  two = timed (print_json, &bench, 2);
  fprintf (report, "cost --json, %d plates of %d ingredients, %" G_GSIZE_FORMAT " numbers\n",
           N_PLATES, N_INGREDIENTS, bench.n);
  fprintf (report, "  one thread %.3f s beside printf %.3f s: %.2f (goal %.2f)\n", one, bare,
           one / bare, GOAL_PRINTED);
  fprintf (report, "  two threads %.3f s beside one %.3f s: %.2f (goal %.2f)\n", two, one, two / one,
           GOAL_THREADS);
  fprintf (report, "    the busier takes %.2f of its processor time\n", busier_part (print_json, &bench));
  fprintf (report, "  memory above the open book %.1f MiB (goal %d)\n", memory, GOAL_MIB);
  compare_threads (report, &bench, "breakdowns", break_all_down);
  alone = sum_of_breakdowns (&bench, 1);
  shared = sum_of_breakdowns (&bench, 2);
  fprintf (report, "    %s\n", g_str_equal (alone, shared) ? "the same bytes" : "OTHER BYTES");
  compare_threads (report, &bench, "check", check_model);
  fclose (report);
  command = g_strdup_printf ("rm -r '%s'", folder);
  return system (command);
}
