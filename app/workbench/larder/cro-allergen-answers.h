/* cro-allergen-answers.h: what each ingredient contains, entered one after the other by keys alone.
 *
 * Letters say a group, as far as it takes to tell it from others ("mi" milk, "mu" mustard), capitals one of
 * which the label warns; "n" none; "." that nobody has said. Nothing is proposed: what is not answered
 * stays so. Enter keeps the answer, an act of its own, and goes on; Escape gives back what was. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_ALLERGEN_ANSWERS (cro_allergen_answers_get_type ())
G_DECLARE_FINAL_TYPE (CroAllergenAnswers, cro_allergen_answers, CRO, ALLERGEN_ANSWERS, GtkWidget)

/* bench is borrowed: it holds the view. */
GtkWidget *cro_allergen_answers_new      (CroBench  *bench);

/* For the overview. */
void       cro_allergen_answers_set_book (GtkWidget *view,
                                          CroBook   *book);
void       cro_allergen_answers_refresh  (GtkWidget *view);

G_END_DECLS
