/* cro-intake-names.h: the names of a sheet: those that the book does not know wait to be settled, each as what the
 * book has, as something new or as nothing; the others can be looked at again.
 *
 * Ownership  It borrows its bench.
 * Signals    "settled": a name was settled, or is to be again. */
#pragma once

#include "cro-bench.h"
#include "cro-intake.h"

G_BEGIN_DECLS

#define CRO_TYPE_INTAKE_NAMES (cro_intake_names_get_type ())
G_DECLARE_FINAL_TYPE (CroIntakeNames, cro_intake_names, CRO, INTAKE_NAMES, GtkWidget)

GtkWidget *cro_intake_names_new  (CroBench      *bench);

/* Those of a sheet, which is borrowed until the next; NULL: none. */
void       cro_intake_names_put  (CroIntakeNames  *self,
                                CroIntake       *intake);

G_END_DECLS
