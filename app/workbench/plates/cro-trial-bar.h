/* cro-trial-bar.h: over a trial: that nothing in it is kept, what is tried, and what can become of it.
 *
 * Its buttons activate "trial.keep" (i: a CroDate), "trial.drop" and
 * "trial.show" (u: the number of a trial, 0: the book). */
#pragma once

#include <gtk/gtk.h>

#include "cro-date.h"

G_BEGIN_DECLS

#define CRO_TYPE_TRIAL_BAR (cro_trial_bar_get_type ())
G_DECLARE_FINAL_TYPE (CroTrialBar, cro_trial_bar, CRO, TRIAL_BAR, GtkWidget)

GtkWidget *cro_trial_bar_new       (void);

/* Which trial it is of; numbers of all (guint): where there are more than one, each leads to its own. */
void       cro_trial_bar_set_trial (CroTrialBar *self,
                                    guint        number,
                                    GArray      *numbers);

/* n things are tried, in words, and n_left cannot be now; is_dated: whether a price is among those that
 * are, which asks from when; at_once: in words those that ask nothing and hold as soon as they are kept, "" where
 * there are none; today: what stands there. */
void       cro_trial_bar_set_tried (CroTrialBar *self,
                                    guint        n,
                                    const char  *words,
                                    guint        n_left,
                                    const char  *left,
                                    gboolean     is_dated,
                                    const char  *at_once,
                                    CroDate      today);

/* Something that belongs to the buttons, before those that end the trial. */
void       cro_trial_bar_add       (CroTrialBar *self,
                                    GtkWidget   *child);

/* Under what is tried. */
void       cro_trial_bar_add_below (CroTrialBar *self,
                                    GtkWidget   *child);

G_END_DECLS
