/* cro-expression.h: sums, products and fractions of numbers, as people type them.
 *
 *   sum      = [sign] term { (+ | −) term }        term = product [unit] | amount { amount }
 *   product  = factor { (× | ÷) factor }
 *   factor   = number [number / number] | ½ | ( sum )
 *
 * Numbers are of the user's locale, or with the other decimal sign. Of a group of three behind
 * one sign nobody can tell which it was ("1.234"): it is read as the locale has it, and said.
 * What cannot go on ends the sum: who calls says whether more may follow.
 *
 * "3 lb 4 oz" is one amount: each part is of a smaller unit of the same base, and less than one of
 * the unit before it. What is no such part ends the sum, too.
 *
 * Units      None; bytes are counted from the begin of the text. */
#pragma once

#include "cro-entry.h"
#include "cro-fraction.h"

G_BEGIN_DECLS

typedef struct
{
  CroFraction value;
  gboolean    has_unit;
  CroUnit     unit;
} CroTerm;

typedef struct
{
  CroEntryStatus status;
  gsize          start;        /* of what is at fault */
  gsize          end;
  gboolean       is_ambiguous;
} CroReading;

/* Reads the longest sum that begins text after white space; returns its bytes, 0 if there is
 * none or status is not OK. Summands are appended to terms (CroTerm), with units only where
 * has_units. words may be NULL. */
gsize    cro_expression_scan  (const char          *text,
                               gboolean             has_units,
                               const CroEntryWords *words,
                               GArray              *terms,
                               CroReading          *reading);

/* Reads the part that begins text behind an amount in that unit: "4 oz" behind "3 lb". Returns its
 * bytes with the space before it, 0 if there is none. */
gsize    cro_expression_scan_part (const char          *text,
                                   CroUnit              before,
                                   const CroEntryWords *words,
                                   CroTerm             *part);

/* Whether a sum of all terms can be formed without regard to units. */
gboolean cro_expression_total (GArray              *terms,
                               CroFraction         *total);

/* Bytes of word where text begins with it, whatever the case; 0 where it does not. */
gsize    cro_expression_starts (const char         *text,
                                const char         *word);

/* Bytes of white space that begin text, those that do not break among them. */
gsize    cro_expression_space (const char          *text);

G_END_DECLS
