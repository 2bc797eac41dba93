/* cro-trial-menu.h: a button that opens what can be chosen just then: it is asked for its rows each time
 * it opens. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_TRIAL_MENU (cro_trial_menu_get_type ())
G_DECLARE_FINAL_TYPE (CroTrialMenu, cro_trial_menu, CRO, TRIAL_MENU, GtkWidget)

/* Adds its rows (cro_trial_menu_add). */
typedef void (*CroTrialMenuFill)   (CroTrialMenu *self, gpointer owner);
/* The row that was chosen, counted from 0. */
typedef void (*CroTrialMenuChosen) (CroTrialMenu *self, guint row, gpointer owner);

/* none: what is said where there are no rows. owner is borrowed. */
GtkWidget *cro_trial_menu_new (const char         *label,
                               const char         *none,
                               CroTrialMenuFill    fill,
                               CroTrialMenuChosen  chosen,
                               gpointer            owner);

/* is_possible: FALSE where the row only says why not. */
void       cro_trial_menu_add (CroTrialMenu       *self,
                               const char         *text,
                               gboolean            is_possible);

G_END_DECLS
