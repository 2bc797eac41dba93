/* cro-answer-buttons.h: answer what is asked about a price: that another is meant, which is set in its place from
 * the same day, or that it is right, and is not asked about again. They say which price, and are in sight only while
 * one is asked about. Of what a plate or a menu is sold for nothing keeps that it is right. */
#pragma once

#include "cro-bench.h"
#include "cro-doubt.h"

G_BEGIN_DECLS

#define CRO_TYPE_ANSWER_BUTTONS (cro_answer_buttons_get_type ())
G_DECLARE_FINAL_TYPE (CroAnswerButtons, cro_answer_buttons, CRO, ANSWER_BUTTONS, GtkBox)

GtkWidget *cro_answer_buttons_new (void);

/* doubt: NULL: nothing is asked; it is copied. What a book of the past or a trial asks is answered in the book.
 * bench and next, which has the focus once it is answered, are borrowed. */
void       cro_answer_buttons_set (CroAnswerButtons *self,
                                   CroBench         *bench,
                                   const CroDoubt   *doubt,
                                   GtkWidget        *next);

G_END_DECLS
