/* cro-words.h: figures, causes and failures as people read them, in both programs. Texts are the caller's to free. */
#pragma once

#include "cro-book.h"
#include "cro-breakdown.h"
#include "cro-doubt.h"
#include "cro-entry.h"
#include "cro-fault.h"

G_BEGIN_DECLS

/* "0.84", rounded once to the currency's minor unit; "–" for what does not exist. */
char *cro_words_money      (CroModel       *model,
                            double          amount);

char *cro_words_pct        (double          pct);

/* A change in per cent with its sign: "+6.1 %". */
char *cro_words_change     (double          pct);

/* Money with its sign: "+0.12". */
char *cro_words_added      (CroModel       *model,
                            double          amount);

/* Of parts that are shown so that they add up: why one is not its own rounding. */
const char *cro_words_shifted (void);

/* "240 g", "1.2 kg", "2 l", "3 each": base units in the unit that reads best. */
char *cro_words_amount     (CroBase         base,
                            double          amount);

/* The same or another figure, taking it, with what belongs together in one line: for a text that breaks. */
char *cro_words_take_joined (char          *text);

/* What they are made of: whether an amount is told in kg or l, and "240" as "240 g" or "240 kg". */
gboolean cro_words_is_large (CroBase        base,
                            double          amount);
char *cro_words_in_base    (CroBase         base,
                            gboolean        is_large,
                            const char     *number);

/* Three digits say enough of an amount on a card. */
char *cro_words_three_digits (double        value);

/* An exact decimal as the locale writes it. */
char *cro_words_decimal    (gint64          micro);

/* An exact price in the book's currency: with its minor units, and more where it has more. */
char *cro_words_price      (CroModel       *model,
                            gint64          micro);

/* The same in a currency; NULL: any. */
char *cro_words_price_in   (const char     *currency,
                            gint64          micro);

/* A unit as people write it: "kg", "tsp", "US cup". Borrowed. */
const char *cro_words_unit (CroUnit         unit);

/* Significant digits of a price, at least. */
#define CRO_WORDS_SIGNIFICANT 3

/* "13.20" as "13.20/kg". */
char *cro_words_per_base   (CroBase         base,
                            const char     *money);

/* "13.20/kg": money per base unit in the unit that prices are named in. */
char *cro_words_unit_cost  (CroModel       *model,
                            CroBase         base,
                            double          unit_cost);

/* The same, rounded as a ceiling is: cro_money_round, _up, _down. Prices have the digits of their
 * currency, and more where three significant ones take more (0.0123 each), or where it takes more to tell
 * them from another that they are held against; NaN: there is none. */
char *cro_words_unit_price (CroModel       *model,
                            CroBase         base,
                            double          unit_cost,
                            double          apart_from,
                            gint64        (*round) (double amount, int digits));

/* The same for what a thing costs: "costs nothing" where that is really so. */
char *cro_words_costs      (CroModel       *model,
                            CroBase         base,
                            double          unit_cost);

/* That of an item, whatever is missing of it. */
char *cro_words_item_cost  (CroFigures     *figures,
                            guint32         item);

/* "no price for Sea purslane". */
char *cro_words_cause      (const CroCause *cause);

/* Causes as one sentence, begun by what they mean for the figure: "at least, as 2 things are
 * missing: …"; NULL if nothing is missing. */
char *cro_words_missing    (const CroFigure *figure,
                            GArray          *causes);

/* "24.10 to 29.80, 27.5 % to 34.0 %": a menu with its cheapest and its dearest choices; NULL
 * without a choice. */
char *cro_words_range      (CroModel        *model,
                            const CroFigure *figure);

/* "choice “fish”, taken by 40.0 %"; NULL of what stands in no choice. */
char *cro_words_taken      (CroModel           *model,
                            const CroMenuPlate *entry);

/* "nothing takes “Crab shells”: no plate pays its 1.20 per batch". */
char *cro_words_unserved   (CroModel          *model,
                            const CroUnserved *unserved);

/* The supplier that a price is kept under when none is named: one in a book, in whatever language it was made first.
 * Borrowed, as long as the model is as it is. */
const char *cro_words_no_supplier (CroModel *model);

/* What must be said wherever allergens or shellfish are shown. Borrowed. */
const char *cro_words_caution (void);

/* How the user's language writes units and the words of fields and the quick line. Borrowed. */
const CroEntryWords *cro_words_entry (void);

/* Why nothing can be changed in the book as it stood. Borrowed. */
const char *cro_words_past (void);

/* Why what was typed is not kept, as a sentence with its full stop; NULL: nothing is wrong. */
char *cro_words_entry_reason (const char     *text,
                              const CroEntry *entry);

/* What is asked back where a word is one of two units, or of no size. */
char *cro_words_which_unit (const char     *word,
                            const CroUnit   choices[2]);
char *cro_words_no_size    (const char     *word);

/* What is asked about something that is probably not meant, and where that is: "Crab, trim yield". */
char *cro_words_doubt      (CroModel       *model,
                            const CroDoubt *doubt);
char *cro_words_doubt_place (CroModel      *model,
                            const CroDoubt *doubt);
/* At the field that it is about. */
char *cro_words_doubt_at    (CroModel       *model,
                            const CroDoubt *doubt);
/* What was probably meant, as it is written into the field; NULL: nobody knows. */
char *cro_words_doubt_value (CroModel       *model,
                             const CroDoubt *doubt);
/* What buttons say that answer it: that what is there is right; that what was meant is to be there. NULL: it is
 * answered by changing that. */
char *cro_words_doubt_answer (CroModel      *model,
                              const CroDoubt *doubt);
char *cro_words_doubt_meant (CroModel       *model,
                             const CroDoubt *doubt);
/* Both: "please check: PLACE: SENTENCE". */
char *cro_words_doubt_line (CroModel       *model,
                            const CroDoubt *doubt);

/* What went wrong, as a sentence without its full stop. */
char *cro_words_error      (const GError   *error);

/* Why a value is not written (CRO_REFUSAL). */
char *cro_words_refusal    (const GError   *error);

/* A fault of a folder of tables: "lines.csv:3: unit: “pinch” is not a unit". */
char *cro_words_fault      (const CroFault *fault);

/* Of a text that is no day, or no month, of the calendar: what is allowed. */
char *cro_words_not_a_date (const char *text);
char *cro_words_not_a_month (const char *text);

/* Why a file cannot be the picture of anything (cro_plain_file_read, cro_photo_take). */
char *cro_words_picture    (const GError   *error,
                            const char     *file);

/* The groups of a mask, "none of the fourteen" for 0. */
char *cro_words_allergens  (guint32         mask);

/* Those of a plate or a menu; "not stated" where nobody entered anything; where there are none so far, of
 * how many ingredients that is known. */
char *cro_words_allergens_entered (const CroBreakdown *breakdown);

G_END_DECLS
