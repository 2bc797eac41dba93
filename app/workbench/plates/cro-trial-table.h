/* cro-trial-table.h: two trials of a plate and the book, side by side. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_TRIAL_TABLE (cro_trial_table_get_type ())
G_DECLARE_FINAL_TYPE (CroTrialTable, cro_trial_table, CRO, TRIAL_TABLE, GtkWidget)

GtkWidget *cro_trial_table_new   (void);

/* Without columns. */
void       cro_trial_table_clear (CroTrialTable *self);

/* One column more: what the thing comes to in a book, and what is tried there, NULL: nothing. */
void       cro_trial_table_add   (CroTrialTable *self,
                                  const char    *title,
                                  CroBook       *book,
                                  CroRef         thing,
                                  const char    *tried);

G_END_DECLS
