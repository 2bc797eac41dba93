/* cro-month-form.h: the fields that enter a row of a month, or change one: a sale, other revenue, a
 * document, an adjustment.
 *
 * What the fields come to is said under them while they are typed; Enter in any of them makes the act and
 * leads to the first one again. A day, and the document of a line, stay for the next row. Escape gives a
 * field back what stood in it; once more empties the fields and gives up the row that was being changed, and a
 * button puts back what was typed.
 *
 * Ownership  It borrows its bench, which holds it.
 * Signals    "kept": an act was made, and the fields are empty again. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_MONTH_FORM_SALE,
  CRO_MONTH_FORM_REVENUE,     /* what was sold without a plate */
  CRO_MONTH_FORM_DOCUMENT,    /* of purchases: an invoice or a delivery note */
  CRO_MONTH_FORM_LINE,        /* of such a document */
  CRO_MONTH_FORM_ADJUSTMENT,
} CroMonthFormKind;

#define CRO_TYPE_MONTH_FORM (cro_month_form_get_type ())
G_DECLARE_FINAL_TYPE (CroMonthForm, cro_month_form, CRO, MONTH_FORM, GtkWidget)

/* first: the first day of the month. */
GtkWidget *cro_month_form_new     (CroBench          *bench,
                                   CroMonthFormKind   kind,
                                   CroDate            first);

/* Puts a row into the fields, to be changed; id: as a record of it has it. */
void       cro_month_form_take    (CroMonthForm      *self,
                                   gint64             id);

/* Removes a row as one act. Whether it is gone. */
gboolean   cro_month_form_remove  (CroMonthForm      *self,
                                   gint64             id);

/* Figures of the book moved. */
void       cro_month_form_refresh (CroMonthForm      *self);

G_END_DECLS
