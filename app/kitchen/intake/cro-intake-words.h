/* cro-intake-words.h: what is said of a month's rows that come from a spreadsheet. All texts are owned. */
#pragma once

#include "cro-intake.h"

G_BEGIN_DECLS

/* "Row 12: “x” is not a number". */
char *cro_words_intake_bad     (CroIntakeKind           kind,
                                const CroIntakeBad     *bad);

/* "sales.csv · 42 rows read · 12 days · 40 rows to enter"; or what is to be chosen first. title: of the
 * file; n_entries: those to enter, n_known: those that are in the book. */
char *cro_words_intake_summary (CroIntake              *intake,
                                const CroIntakeColumns *columns,
                                CroBook                *book,
                                const char             *title,
                                guint                   n_entries,
                                guint                   n_known);

/* An entry of the history. */
char *cro_words_intake_act     (CroIntakeKind           kind,
                                const char             *title);

/* "12 counts were entered". */
char *cro_words_intake_entered (CroIntakeKind           kind,
                                guint                   n);

G_END_DECLS
