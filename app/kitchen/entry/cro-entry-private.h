/* cro-entry-private.h: what every text of a field is read by, whether it holds numbers, amounts or prices.
 *
 * Of cro-entry.c and cro-entry-price.c alone. */
#pragma once

#include "cro-entry.h"
#include "cro-expression.h"

G_BEGIN_DECLS

/* The bytes from start to end of the text are at fault; FALSE. */
gboolean cro_entry_fail      (CroEntry            *entry,
                              CroEntryStatus       status,
                              gsize                start,
                              gsize                end);

/* What stands at is no unit: what kind of none; FALSE. words may be NULL. */
gboolean cro_entry_fail_unit (const char          *text,
                              gsize                at,
                              const CroEntryWords *words,
                              CroEntry            *entry);

/* What the text was read as, whatever came of it: is_read, which it returns. */
gboolean cro_entry_asked_for (CroEntry            *entry,
                              CroAsked             asked,
                              CroRange             range,
                              gboolean             is_read);

/* Whether the value is within range. */
gboolean cro_entry_hold_to   (CroEntry            *entry,
                              CroRange             range,
                              const char          *text);

/* Of CroTerm; owned. */
GArray  *cro_entry_terms_new (void);

/* Reads a sum to its end, as cro_expression_scan(), and is no day; what may follow it is the caller's to
 * read. Its bytes; 0: there is none, and entry says why. */
gsize    cro_entry_scan      (const char          *text,
                              gboolean             has_units,
                              const CroEntryWords *words,
                              GArray              *terms,
                              CroEntry            *entry,
                              CroReading          *reading);

/* Whether nothing but space is left from at on; else the fault is status. */
gboolean cro_entry_must_end  (const char          *text,
                              gsize                at,
                              CroEntryStatus       status,
                              CroEntry            *entry);

/* The exact value in millionths, and how it was understood where it could be another. */
gboolean cro_entry_round_to  (CroEntry            *entry,
                              const CroReading    *reading,
                              const char          *text,
                              CroFraction          value);

G_END_DECLS
