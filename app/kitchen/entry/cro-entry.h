/* cro-entry.h: what a field accepts, as it is typed.
 *
 * Sums, products and fractions of numbers in the user's locale, both decimal signs: "2*1.2",
 * "1/3 kg", "1 1/2", "12,50 + 3", "6 × 1 kg". A number is a fraction until the end, and is
 * rounded once, half away from zero, to millionths. In an amount a unit at the end is that of
 * the whole; otherwise every summand has its own ("2 lb + 3 oz", and "2 lb 3 oz" for the same).
 *
 * Units      Decimals in millionths, percentages in millionths of a per cent.
 * Ownership  Text is read during the call; understood is the caller's (cro_entry_clear).
 * Errors     A status and the bytes of the text that it is about; the sentence a user reads is
 *            made where gettext is. */
#pragma once

#include <glib.h>

#include "cro-date.h"
#include "cro-unit.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_ENTRY_OK,
  CRO_ENTRY_EMPTY,          /* nothing but space: "not set", where that may be */
  CRO_ENTRY_NOT_A_NUMBER,   /* from start on the text is not understood */
  CRO_ENTRY_BY_ZERO,        /* divided by 0 */
  CRO_ENTRY_TOO_LARGE,
  CRO_ENTRY_TOO_SMALL,      /* not 0, but less than half a millionth */
  CRO_ENTRY_NOT_A_UNIT,
  CRO_ENTRY_OTHER_UNIT,     /* a unit that the field's cannot be made of; unit says which */
  CRO_ENTRY_WHICH_UNIT,     /* "cup": one of two, in choices */
  CRO_ENTRY_SIZELESS_UNIT,  /* "bunch": how much it is nobody knows */
  CRO_ENTRY_OTHER_CURRENCY, /* a price that is not, or not for sure, in the field's */
  CRO_ENTRY_WITH_TAX,       /* said of a price in a field of prices without */
  CRO_ENTRY_WITHOUT_TAX,    /* the reverse */
  CRO_ENTRY_MIXED_UNITS,    /* some summands have one and some have none */
  CRO_ENTRY_NOT_WHOLE,      /* a part of a cover */
  CRO_ENTRY_OUT_OF_RANGE,   /* understood, but not within what the field holds */
  CRO_ENTRY_NOT_A_DATE,
} CroEntryStatus;

/* Whether a price includes tax. */
typedef enum
{
  CRO_TAX_NOT_SAID,
  CRO_TAX_WITHOUT,
  CRO_TAX_WITH,
} CroTax;

/* What a column of a table holds. */
typedef enum
{
  CRO_RANGE_ANY,
  CRO_RANGE_AT_LEAST_0,
  CRO_RANGE_ABOVE_0,
  CRO_RANGE_YIELD_PCT,      /* (0, 1000] */
  CRO_RANGE_PART_PCT,       /* (0, 100]: targets, net parts */
  CRO_RANGE_RECOVERED_PCT,  /* [0, 100) */
  CRO_RANGE_PART,           /* [0, 1] */
} CroRange;

/* What a field asks for. */
typedef enum
{
  CRO_ASKED_NUMBER,
  CRO_ASKED_AMOUNT,         /* a number and a unit */
  CRO_ASKED_MONEY,
  CRO_ASKED_PRICE,          /* net, of a pack or a unit */
  CRO_ASKED_SELLING_PRICE,  /* with tax */
  CRO_ASKED_WAGE,           /* money for an hour */
  CRO_ASKED_PCT,
  CRO_ASKED_YIELD,
  CRO_ASKED_DENSITY,
  CRO_ASKED_MINUTES,
  CRO_ASKED_DAYS,
  CRO_ASKED_DATE,
} CroAsked;

/* How the user's language writes units and a few words, beside the codes of the units; from
 * gettext. Lists end with a NULL word, and may be NULL. */
typedef struct
{
  const char *word;
  CroUnit     unit;
} CroUnitWord;

typedef struct
{
  const CroUnitWord *units; /* "cs" tbsp, "pièces" each */
  const char *const *loss;  /* "loss", before or behind the per cent of a yield */
  const char *const *joins; /* "of", "d'": between a unit and a name */
  const char *const *trimmed;   /* "trimmed", behind the name of what is weighed so */
  const char *const *as_bought; /* the same of what is weighed as bought */
} CroEntryWords;

typedef struct
{
  CroEntryStatus status;
  gsize          start;     /* bytes of the text that a fault is about */
  gsize          end;
  gint64         micro;     /* also where it is OUT_OF_RANGE or of OTHER_UNIT */
  gboolean       has_unit;  /* one was typed */
  CroUnit        unit;      /* it, or the field's */
  gint64         per;       /* of a price with a unit: for so many of it, "31/500 g" 500; else 0 */
  CroUnit        choices[2];
  CroAsked       asked;     /* what the text was read as */
  CroRange       range;     /* what that may be */
  CroUnit        wanted;    /* of an amount or a price: a unit of the kind that the field has */
  gboolean       any_unit;  /* of an amount: one of another kind is welcome */
  CroDate        date;
  /* The value as the locale writes it, where a sign between digits could have been read as
   * decimal or as grouping ("1.234"); else NULL. */
  char          *understood;
} CroEntry;

void     cro_entry_clear    (CroEntry            *entry);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CroEntry, cro_entry_clear)

/* All return whether the status is OK. words may be NULL. */

gboolean cro_entry_number   (const char          *text,
                             CroRange             range,
                             CroEntry            *entry);

/* Into a field in unit: "0.6 kg" is 600 in one in g. OTHER_UNIT if it has another base: micro
 * and entry->unit are then as typed, and a field that can change its unit may take them. */
gboolean cro_entry_amount   (const char          *text,
                             CroUnit              unit,
                             CroRange             range,
                             const CroEntryWords *words,
                             CroEntry            *entry);

/* The same where the field has no unit of its own yet: it is the one typed, or fallback. */
gboolean cro_entry_measured (const char          *text,
                             CroUnit              fallback,
                             CroRange             range,
                             const CroEntryWords *words,
                             CroEntry            *entry);

/* Money, with the sign or the code of its currency before or behind it or without: "£171",
 * "171 GBP"; with what is said of its tax where that is what the field holds: "171 HT". currency is the
 * field's; NULL: any. tax is the field's; NOT_SAID: nothing may be said of it. */
gboolean cro_entry_money    (const char          *text,
                             const char          *currency,
                             CroTax               tax,
                             CroRange             range,
                             CroEntry            *entry);

/* The price that guests pay, with its tax, which may be said behind it: "34 € TTC". */
gboolean cro_entry_selling_price (const char     *text,
                             const char          *currency,
                             CroRange             range,
                             CroEntry            *entry);

/* What an hour costs: "21", "€21/h". */
gboolean cro_entry_wage     (const char          *text,
                             const char          *currency,
                             CroRange             range,
                             CroEntry            *entry);

/* What one buys at once: count packs of size. */
typedef struct
{
  gint64  count;
  gint64  size;
  CroUnit unit;
} CroPack;

/* What a field of prices holds. */
typedef struct
{
  const char *currency;     /* NULL: any */
  CroTax      tax;
  gboolean    is_of_pack;   /* and not of so much: "per case" may be said */
  CroPack     pack;
} CroPriceOf;

/* A price of a pack. Alone it is that of the whole: "56", "56 per case". With a unit it is for so much, and
 * what the pack comes to is reckoned: "11.20/kg", "£11.20/kg", "69.50/4 kg", "0.34 each". */
gboolean cro_entry_price    (const char          *text,
                             const CroPriceOf    *of,
                             const CroEntryWords *words,
                             CroEntry            *entry);

/* "62", "62 %", "62 percent"; into a yield "loss 38 %" is 62 %. */
gboolean cro_entry_pct      (const char          *text,
                             CroRange             range,
                             const CroEntryWords *words,
                             CroEntry            *entry);

/* In g/ml: "0.92", or of other units "0.85 kg/l", "850 g/l". */
gboolean cro_entry_density  (const char          *text,
                             const CroEntryWords *words,
                             CroEntry            *entry);

/* ISO 8601, or as the locale writes a date in short or in middle length; or its numbers alone in the
 * order of the locale, and of the year that is nearest to today where there is none. */
gboolean cro_entry_date     (const char          *text,
                             CroEntry            *entry);

/* --- For the quick line ------------------------------------------------------------------ */

/* Reads the longest sum that begins text, without a unit; returns its bytes, 0 if there is
 * none. micro, status and understood of entry are set. */
gsize    cro_entry_scan_number (const char          *text,
                                CroEntry            *entry);

/* Reads the unit that begins text as a word of its own; returns its bytes, 0 if there is none. */
gsize    cro_entry_scan_unit   (const char          *text,
                                const CroEntryWords *words,
                                CroUnit             *unit);

/* Adds to an amount in unit the parts that follow it, "4 oz" behind "3 lb"; returns their bytes, 0
 * if there are none. */
gsize    cro_entry_scan_parts  (const char          *text,
                                CroUnit              unit,
                                const CroEntryWords *words,
                                gint64              *micro);

/* A price as it stands in a text. */
typedef struct
{
  CroEntry money;         /* for one unit, or for the whole where has_unit is FALSE */
  gint64 whole;           /* the money as it is said, for money.per of the unit */
  gboolean has_unit;
  gboolean has_stroke;    /* "/kg", and not only "each" */
  CroUnit  unit;
  gboolean has_currency;
  gboolean is_other;      /* of another currency, or not for sure of this one */
  CroTax   tax;
} CroPriceEntry;

void     cro_price_entry_clear (CroPriceEntry       *price);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CroPriceEntry, cro_price_entry_clear)

/* Reads the price that begins text; returns its bytes, 0 if there is none. */
gsize    cro_entry_scan_price  (const char          *text,
                                const char          *currency,
                                const CroEntryWords *words,
                                CroPriceEntry       *price);

G_END_DECLS
