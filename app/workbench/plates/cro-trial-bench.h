/* cro-trial-bench.h: a plate or a menu in a trial: the figures of the book, and under them its own bench on
 * a book in memory, in which every field is changed as ever and nothing is kept. A plate that is opened
 * from the menu is tried with it.
 *
 * Which trial is shown is that in front of the thing (cro-trials.h); what is tried is written there as
 * it is tried.
 *
 * Signals    "tried": something was tried, or taken back; "ended": another trial, or none, is in front;
 *            "kept" (text): what was tried is an act of the book now, in words. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_TRIAL_BENCH (cro_trial_bench_get_type ())
G_DECLARE_FINAL_TYPE (CroTrialBench, cro_trial_bench, CRO, TRIAL_BENCH, CroBench)

/* They differ in what stands on them alone. */
#define CRO_TYPE_PLATE_TRIAL (cro_plate_trial_get_type ())
GType    cro_plate_trial_get_type  (void);
#define CRO_TYPE_MENU_TRIAL (cro_menu_trial_get_type ())
GType    cro_menu_trial_get_type   (void);

/* The book in memory. Borrowed; NULL: nothing is tried now. */
CroBook *cro_trial_bench_get_tried (CroTrialBench *self);

/* Somebody goes elsewhere: a trial in which nothing was tried is none. */
void     cro_trial_bench_leave     (CroTrialBench *self);

G_END_DECLS
