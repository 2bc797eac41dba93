/* cro-month-head.h: the head of a month's page: which month it is and in what state, the day of its recipes, the
 * month that stands beside it, its views, and what leads out of it: paper, spreadsheet, closing.
 *
 * Its buttons act by the actions of the page (month.close and the like).
 *
 * Ownership  It borrows its bench, which holds it.
 * Signals    "changed": another month stands beside. */
#pragma once

#include "cro-bench.h"
#include "cro-month-output.h"

G_BEGIN_DECLS

#define CRO_TYPE_MONTH_HEAD (cro_month_head_get_type ())
G_DECLARE_FINAL_TYPE (CroMonthHead, cro_month_head, CRO, MONTH_HEAD, GtkWidget)

/* views: what its switch switches. shown: what is printed and exported (cro-month-output.h). */
GtkWidget      *cro_month_head_new           (CroBench         *bench,
                                              GtkStack         *views,
                                              CroMonthShown    shown);

/* The months that can stand beside, CroDate, and the one that the page is of. */
void            cro_month_head_list          (CroMonthHead     *self,
                                              GArray           *firsts,
                                              CroDate           first);

/* The first day of the month beside; CRO_NO_DAY: none. */
CroDate         cro_month_head_get_other     (CroMonthHead     *self);

/* What it says of its month, and which of the page's actions can be taken. */
void            cro_month_head_set           (CroMonthHead     *self,
                                              const CroMonth   *month);

/* FALSE while a sheet stands in the views' place. */
void            cro_month_head_set_switching (CroMonthHead     *self,
                                              gboolean          can);

/* Borrowed. */
CroMonthOutput *cro_month_head_get_output    (CroMonthHead     *self);

G_END_DECLS
