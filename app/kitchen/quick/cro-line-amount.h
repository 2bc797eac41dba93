/* cro-line-amount.h: the amount of a line as one text with its unit: for the whole batch, or for
 * one of the bites that a plate makes.
 *
 *   240 g      for 24 bites 10 g
 *
 * A number alone keeps the unit, a unit typed behind it takes its place; of a bite only where
 * the line's own cannot be made of it. What is typed for a bite times the bites is the batch's.
 *
 * Units      Amounts in millionths of the unit beside them; makes in millionths, 0 for the batch.
 * Ownership  Texts are the caller's to free. */
#pragma once

#include "cro-entry.h"

G_BEGIN_DECLS

typedef struct
{
  gint64  amount;
  CroUnit unit;
} CroLineAmount;

/* "240 g". Of a bite in the unit that reads best, to three digits: nobody weighs a bite closer. */
char    *cro_line_amount_to_text (CroLineAmount        line,
                                  gint64               makes);

/* entry->micro and entry->unit are what the line then holds. Whether the status is OK. */
gboolean cro_line_amount_read    (const char          *text,
                                  CroLineAmount        line,
                                  gint64               makes,
                                  const CroEntryWords *words,
                                  CroEntry            *entry);

G_END_DECLS
