/* cro-trial-head.h: the row over a plate that is tried with its menu: the way back, and what the menu comes
 * to. */
#pragma once

#include <gtk/gtk.h>

#include "cro-figures.h"

G_BEGIN_DECLS

#define CRO_TYPE_TRIAL_HEAD (cro_trial_head_get_type ())
G_DECLARE_FINAL_TYPE (CroTrialHead, cro_trial_head, CRO, TRIAL_HEAD, GtkWidget)

/* Its button is the action "trial.back". */
GtkWidget *cro_trial_head_new     (void);

/* Slots of the trial's model. */
void       cro_trial_head_set     (CroTrialHead *self,
                                   CroModel     *model,
                                   guint32       menu,
                                   guint32       plate);

/* Figures moved. */
void       cro_trial_head_refresh (CroTrialHead *self,
                                   CroFigures   *figures);

G_END_DECLS
