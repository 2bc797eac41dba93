/* cost --json of 1,000 plates of 1,000 ingredients each, beside the bare printing of its numbers.
 *
 * Beside     The same numbers through printf %.17g alone, on one thread; and one thread beside
 *            two, of the same bytes, for cost --json and for check.
 * Counted    Figures of an open book written into nothing. Memory is the most that is held above
 *            the open book. Two threads are counted twice: by the clock, which tells little while
 *            the machine does other work, and by the processor time of the busier one beside that
 *            of both.
 *
 * Usage: bench-cost-json [FOLDER]   (a folder for the book, default: that for temporary files) */
#define _GNU_SOURCE
#include "bench.h"

#include "cro-check.h"
#include "cro-cli.h"
#include "cro-load.h"

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
  CroCheckReport report = { { 0 }, { 0 } };

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

/* What would remain of the time on a machine that has two processors for it. */
static double
busier_part (CroBenchRun  run,
             Bench       *bench)
{
  double parts[N_ROUNDS];

  allow (2);
  for (int i = 0; i < N_ROUNDS; i++)
    {
      double all = processor_now (CLOCK_PROCESS_CPUTIME_ID);
      double own = processor_now (CLOCK_THREAD_CPUTIME_ID);

      run (bench);
      all = processor_now (CLOCK_PROCESS_CPUTIME_ID) - all;
      own = processor_now (CLOCK_THREAD_CPUTIME_ID) - own;
      parts[i] = MAX (own, all - own) / all;
    }
  return cro_bench_median (parts, N_ROUNDS);
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

int
main (int    argc,
      char **argv)
{
  g_autofree char *folder = g_build_filename (argc > 1 ? argv[1] : g_get_tmp_dir (),
                                              "cost-json-XXXXXX", NULL);
  FILE *report = fdopen (dup (STDOUT_FILENO), "w");
  g_autofree char *command = NULL;
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
  fprintf (report, "    the busier one takes %.2f of both\n", busier_part (print_json, &bench));
  fprintf (report, "  memory above the open book %.1f MiB (goal %d)\n", memory, GOAL_MIB);
  one = timed (check_model, &bench, 1);
  two = timed (check_model, &bench, 2);
  fprintf (report, "  check: two threads %.3f s beside one %.3f s: %.2f (goal %.2f)\n", two, one,
           two / one, GOAL_THREADS);
  fprintf (report, "    the busier one takes %.2f of both\n", busier_part (check_model, &bench));
  fclose (report);
  command = g_strdup_printf ("rm -r '%s'", folder);
  return system (command);
}
