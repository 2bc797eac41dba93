/* cro-trial-beside.h: a trial beside another of its plate or menu, and beside the book: a table, which is hidden as
 * long as there is no other, and the menu that chooses it.
 *
 * Ownership  The book is not held. */
#pragma once

#include "cro-bench.h"
#include "cro-trial.h"

G_BEGIN_DECLS

#define CRO_TYPE_TRIAL_BESIDE (cro_trial_beside_get_type ())
G_DECLARE_FINAL_TYPE (CroTrialBeside, cro_trial_beside, CRO, TRIAL_BESIDE, GtkWidget)

/* Signal "chosen" (): another trial, or none, is to stand beside it. Its menu's row for a new trial is the action
 * "trial.other". */
GtkWidget *cro_trial_beside_new      (void);

/* The button that opens the menu. */
GtkWidget *cro_trial_beside_menu_new (CroTrialBeside *self);

/* The trial by its number, of a plate or menu by the id of its row; with none beside it. */
void       cro_trial_beside_set      (CroTrialBeside *self,
                                      CroBook        *book,
                                      gint64          id,
                                      guint           number);

/* What the trial, of thing in the book, comes to now; list: what is tried in it (cro_trial_list). */
void       cro_trial_beside_refresh  (CroTrialBeside *self,
                                      CroTrial       *trial,
                                      CroRef          thing,
                                      GPtrArray      *list);

G_END_DECLS
