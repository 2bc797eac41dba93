/* cro-intake-choices.h: what each column of a sheet holds, to be told otherwise; that is remembered for sheets
 * of the same headings.
 *
 * Signals    "chosen": a column holds something else. */
#pragma once

#include <gtk/gtk.h>

#include "cro-intake.h"

G_BEGIN_DECLS

#define CRO_TYPE_INTAKE_CHOICES (cro_intake_choices_get_type ())
G_DECLARE_FINAL_TYPE (CroIntakeChoices, cro_intake_choices, CRO, INTAKE_CHOICES, GtkWidget)

GtkWidget *cro_intake_choices_new  (void);

/* The columns of another sheet, as they were told before if they were; both are borrowed until the next. */
void       cro_intake_choices_put  (CroIntakeChoices    *self,
                                  const CroBrought  *brought,
                                  CroIntakeColumns    *columns);

G_END_DECLS
