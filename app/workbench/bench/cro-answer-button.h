/* cro-answer-button.h: answers what is asked about a price: it is right, and is not asked about again. It says of
 * which price, and is in sight only while one is asked about. */
#pragma once

#include "cro-bench.h"
#include "cro-doubt.h"

G_BEGIN_DECLS

#define CRO_TYPE_ANSWER_BUTTON (cro_answer_button_get_type ())
G_DECLARE_FINAL_TYPE (CroAnswerButton, cro_answer_button, CRO, ANSWER_BUTTON, GtkButton)

GtkWidget *cro_answer_button_new (void);

/* doubt: of a pack, NULL: nothing is asked; it is copied. What a book of the past or a trial asks is answered in the
 * book. bench and next, which has the focus once it is answered, are borrowed. */
void       cro_answer_button_set (CroAnswerButton *self,
                                  CroBench        *bench,
                                  const CroDoubt  *doubt,
                                  GtkWidget       *next);

G_END_DECLS
