#define _POSIX_C_SOURCE 199309L

#include "bench.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static double
read_clock (clockid_t clock)
{
  struct timespec now;

  clock_gettime (clock, &now);
  return (double) now.tv_sec + (double) now.tv_nsec * 1e-9;
}

void *
cro_bench_allocate (size_t n,
                    size_t size)
{
  void *memory = calloc (n, size);

  if (memory == NULL)
    abort ();
  return memory;
}

double
cro_bench_now (void)
{
  return read_clock (CLOCK_MONOTONIC);
}

double
cro_bench_thread_now (void)
{
  return read_clock (CLOCK_THREAD_CPUTIME_ID);
}

static int
compare (const void *a,
         const void *b)
{
  double x = *(const double *) a;
  double y = *(const double *) b;

  return (x > y) - (x < y);
}

double
cro_bench_median (double *seconds,
                  size_t  n)
{
  qsort (seconds, n, sizeof *seconds, compare);
  return n % 2 ? seconds[n / 2] : (seconds[n / 2 - 1] + seconds[n / 2]) / 2;
}

static double
time_of (CroBenchRun run,
         void       *user_data,
         size_t      repeats,
         double     *least_of_thread)
{
  double start = cro_bench_now ();
  double of_thread = cro_bench_thread_now ();

  for (size_t i = 0; i < repeats; i++)
    run (user_data);
  of_thread = (cro_bench_thread_now () - of_thread) / (double) repeats;
  if (of_thread < *least_of_thread)
    *least_of_thread = of_thread;
  return (cro_bench_now () - start) / (double) repeats;
}

CroBenchPair
cro_bench_pair (CroBenchRun ours,
                CroBenchRun reference,
                void       *user_data,
                size_t      rounds,
                size_t      repeats)
{
  double *times = malloc (3 * rounds * sizeof *times);
  double *of_ours = times, *of_reference = times + rounds, *ratios = times + 2 * rounds;
  CroBenchPair pair = { .thread_ours = HUGE_VAL, .thread_reference = HUGE_VAL };

  if (times == NULL)
    abort ();
  ours (user_data);
  reference (user_data);
  for (size_t i = 0; i < rounds; i++)
    {
      of_ours[i] = time_of (ours, user_data, repeats, &pair.thread_ours);
      of_reference[i] = time_of (reference, user_data, repeats, &pair.thread_reference);
      ratios[i] = of_ours[i] / of_reference[i];
    }
  pair.ours = cro_bench_median (of_ours, rounds);
  pair.reference = cro_bench_median (of_reference, rounds);
  pair.ratio = cro_bench_median (ratios, rounds);
  free (times);
  return pair;
}

void
cro_bench_head (const char *title)
{
  printf ("\n%s\n%-30s %10s   %-30s %10s %7s %7s\n", title, "what", "ms", "beside", "ms", "ratio",
          "goal");
}

void
cro_bench_figures (const char *what,
                   double      ours,
                   const char *beside,
                   double      reference,
                   double      ratio,
                   double      goal)
{
  printf ("%-30s %10.4f   %-30s %10.4f %7.3f", what, ours, beside, reference, ratio);
  if (goal > 0)
    printf (" %7.2f %s", goal, ratio <= goal ? "met" : "missed");
  printf ("\n");
  fflush (stdout);
}

void
cro_bench_row (const char *what,
               double      ours,
               const char *beside,
               double      reference,
               double      ratio,
               double      goal)
{
  cro_bench_figures (what, ours * 1e3, beside, reference * 1e3, ratio, goal);
}

void
cro_bench_row_of (const char         *what,
                  const char         *beside,
                  const CroBenchPair *pair,
                  double              goal)
{
  cro_bench_row (what, pair->ours, beside, pair->reference, pair->ratio, goal);
  cro_bench_row ("  this thread, best round", pair->thread_ours, "  this thread, best round",
                 pair->thread_reference, pair->thread_ours / pair->thread_reference, goal);
}
