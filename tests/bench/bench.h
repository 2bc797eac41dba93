/* bench.h: times two ways of doing one thing in turns, and prints how they compare.
 *
 * Units      Seconds of wall-clock time. A ratio is ours over the reference's.
 * Method     Rounds go A B A B, so that a machine that slows down slows both; the ratio is the
 *            median of the rounds' own ratios, which a burst of other work does not move.
 * Load       Where others use the machine, turns do not make up for what they take: then the processor
 *            time of the calling thread, the least of all rounds, says what an idle machine would.
 *            It leaves out what other threads do meanwhile, and waiting for them.
 * Errors     A missed goal is printed as missed and is no failure: how fast a machine is
 *            today says nothing about whether the program is right. */
#pragma once

#include <stddef.h>

typedef void (*CroBenchRun) (void *user_data);

typedef struct
{
  double ours;
  double reference;
  double ratio;
  double thread_ours;      /* the calling thread's processor time in the best round */
  double thread_reference;
} CroBenchPair;

/* Zeros; ends the program where there is no memory. The caller's to free. */
void        *cro_bench_allocate (size_t n,
                               size_t size);

double       cro_bench_now    (void);

/* The processor time of the calling thread. */
double       cro_bench_thread_now (void);

/* Sorts seconds[]. n > 0. */
double       cro_bench_median (double *seconds,
                               size_t  n);

/* Each round runs each side `repeats` times and counts the mean; one round before the first
 * warms both up. */
CroBenchPair cro_bench_pair   (CroBenchRun ours,
                               CroBenchRun reference,
                               void       *user_data,
                               size_t      rounds,
                               size_t      repeats);

void         cro_bench_head   (const char *title);

/* goal: the largest ratio that will do; 0 = none is set. */
void         cro_bench_row    (const char *what,
                               double      ours,
                               const char *beside,
                               double      reference,
                               double      ratio,
                               double      goal);

/* A row of a pair's times, and one of its processor times. */
void         cro_bench_row_of (const char         *what,
                               const char         *beside,
                               const CroBenchPair *pair,
                               double              goal);

/* The same of what is not a time, in the unit that `what` says. */
void         cro_bench_figures (const char *what,
                               double      ours,
                               const char *beside,
                               double      reference,
                               double      ratio,
                               double      goal);
