/* cro-intake-bar.h: how rows come into a part of a month that stand elsewhere: from a file, pasted or dropped.
 *
 * Ownership  It borrows its bench, which holds it.
 * Signals    "file" (const char *path): one was chosen or dropped; "text" (const char *): rows were pasted or
 *            dropped. */
#pragma once

#include "cro-bench.h"
#include "cro-intake.h"

G_BEGIN_DECLS

#define CRO_TYPE_INTAKE_BAR (cro_intake_bar_get_type ())
G_DECLARE_FINAL_TYPE (CroIntakeBar, cro_intake_bar, CRO, INTAKE_BAR, GtkWidget)

/* title: of the window that asks for a file. */
GtkWidget *cro_intake_bar_new        (CroBench      *bench,
                                      CroIntakeKind  kind,
                                      const char    *title);

/* What is dropped anywhere on a widget comes in, while the bar is sensitive. */
void       cro_intake_bar_take_drops (CroIntakeBar  *self,
                                      GtkWidget     *widget);

/* Rows that are pasted by key anywhere in a widget come in, while the bar is in sight and sensitive; a single word
 * goes into the field that has the focus. */
void       cro_intake_bar_take_pastes (CroIntakeBar *self,
                                      GtkWidget     *widget);

G_END_DECLS
