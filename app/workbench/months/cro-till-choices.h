/* cro-till-choices.h: what each column of a till's export holds, to be told otherwise; that is remembered for
 * files of the same headings.
 *
 * Signals    "chosen": a column holds something else. */
#pragma once

#include <gtk/gtk.h>

#include "cro-till.h"

G_BEGIN_DECLS

#define CRO_TYPE_TILL_CHOICES (cro_till_choices_get_type ())
G_DECLARE_FINAL_TYPE (CroTillChoices, cro_till_choices, CRO, TILL_CHOICES, GtkWidget)

GtkWidget *cro_till_choices_new  (void);

/* The columns of another sheet, as they were told before if they were; both are borrowed until the next. */
void       cro_till_choices_put  (CroTillChoices    *self,
                                  const CroBrought  *brought,
                                  CroTillColumns    *columns);

G_END_DECLS
