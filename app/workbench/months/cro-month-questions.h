/* cro-month-questions.h: what a month asks, each with a button that leads to where it is answered.
 *
 * A button leads through the actions "month.sheet" (a CroStatementLine), "month.reopen" and
 * "month.recipes" of the widgets around, or opens the thing that lacks something. */
#pragma once

#include "cro-bench.h"
#include "cro-month.h"

G_BEGIN_DECLS

#define CRO_TYPE_MONTH_QUESTIONS (cro_month_questions_get_type ())
G_DECLARE_FINAL_TYPE (CroMonthQuestions, cro_month_questions, CRO, MONTH_QUESTIONS, GtkWidget)

/* bench is borrowed: it holds the widget. */
GtkWidget *cro_month_questions_new (CroBench          *bench);

void       cro_month_questions_set (CroMonthQuestions *self,
                                    const CroMonth    *month);

G_END_DECLS
