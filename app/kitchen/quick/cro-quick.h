/* cro-quick.h: a line of a recipe in one line of text: "25 g butter 9.20/kg".
 *
 *   [amount [unit]] name[, note] [price / unit | price each]     or     name amount unit
 *
 * Numbers are those of cro-entry, and "3 lb 4 oz" is one amount. Without a unit an amount is of
 * pieces. What begins a row of a list, what leads to an amount ("butter .... 250 g", cro-written.h)
 * and words that join ("25 g of butter") are passed over. "juice of 2 lemons" and "2 lemons (juice)" take two
 * lemons;
 * "juice", "about" and an amount in brackets behind the first ("250 g (9 oz) butter") go into the
 * note. "trimmed" and "as bought" behind the name or the price say how it is weighed, where they are
 * no part of a name of the book. Nothing is guessed: what was not understood is said, with its bytes.
 *
 * Units      Decimals in millionths.
 * Ownership  A CroQuick owns its name; cleared with cro_quick_clear. */
#pragma once

#include "cro-book.h"
#include "cro-edit.h"
#include "cro-entry.h"
#include "cro-finder.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_QUICK_OK,
  CRO_QUICK_EMPTY,
  CRO_QUICK_NO_NAME,
  CRO_QUICK_AMOUNT,         /* number->status says why it is none */
  CRO_QUICK_RANGE,          /* "2–3": which of them? */
  CRO_QUICK_TWO_AMOUNTS,    /* one more behind it that is no part of it: "1 kg 3 pc" */
  CRO_QUICK_PRICE,          /* what looks like a price is none */
  CRO_QUICK_TWO_PRICES,     /* a price, and one more behind it: "20/kg, now 25/kg" */
  CRO_QUICK_BEHIND_PRICE,   /* what stands behind a price is not understood */
  CRO_QUICK_LOSS,           /* a loss beside the name, which a line does not hold */
  CRO_QUICK_DISCOUNT,       /* neither does it hold "30 % off", "two for one" */
  CRO_QUICK_REMARK,         /* nor what nobody knows: "gross 180 g", "double it" */
  CRO_QUICK_TAX_BESIDE,     /* nor a tax: "TTC", "TVA 10 %", "VAT paid" */
  CRO_QUICK_CURRENCY,       /* a currency that is not the book's: currency is that */
  CRO_QUICK_NO_CURRENCY,    /* a currency, and the book has none yet */
  CRO_QUICK_TAX,            /* a price with tax: ingredients are priced without */
  CRO_QUICK_PRICE_OF,       /* a price, but of how much? */
  CRO_QUICK_WHICH_UNIT,     /* "cup": one of choices */
  CRO_QUICK_NO_SIZE,        /* "bunch": how much it is nobody knows */
  CRO_QUICK_STRAY,          /* a character that no name may have */
  CRO_QUICK_MADE,           /* a price of what a preparation gives, which has none of its own */
} CroQuickFault;

typedef enum
{
  CRO_QUICK_UNKNOWN,        /* nothing in the book is like it */
  CRO_QUICK_EXACT,          /* the same but for case and accents, or the only one but for number too */
  CRO_QUICK_SIMILAR,        /* the finder's best, or one slip away */
} CroQuickMatch;

typedef struct
{
  CroQuickFault  fault;
  CroEntryStatus status;    /* of the number at fault */
  gsize          start;     /* bytes at fault */
  gsize          end;
  CroUnit        choices[2];
  char           currency[4];

  gboolean       has_amount;
  gint64         amount;
  gboolean       has_unit;  /* one was typed; otherwise unit is each */
  CroUnit        unit;
  char          *name;      /* tidied; NULL: none */
  char          *note;      /* what follows a comma behind it; NULL: nothing */
  gboolean       has_price;
  gint64         price;     /* for one price_unit */
  CroUnit        price_unit;
  gint64         pack_size; /* "31/500 g": 500 of price_unit; 0: one */
  gint64         pack_price; /* of that: 31 */
  gboolean       has_weighing;
  gboolean       as_bought; /* and so it is weighed; otherwise trimmed */
  char          *understood; /* of a number that could be read in two ways; or NULL */

  CroQuickMatch  match;
  guint32        item;      /* CRO_NO_SLOT where unknown */
} CroQuick;

void     cro_quick_clear      (CroQuick            *quick);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CroQuick, cro_quick_clear)

/* Reads one line and looks its name up, to the letter, then without case and accents: EXACT or
 * UNKNOWN. Whether the fault is OK. words may be NULL. */
gboolean cro_quick_read       (CroModel            *model,
                               const char          *text,
                               const CroEntryWords *words,
                               CroQuick            *quick);

/* The same of a line that stands alone: MADE is a fault too. */
gboolean cro_quick_read_line  (CroModel            *model,
                               const char          *text,
                               const CroEntryWords *words,
                               CroQuick            *quick);

/* Whether it has a price, and what it takes comes from a preparation. */
gboolean cro_quick_prices_made (CroModel           *model,
                                const CroQuick     *quick);

/* The finder's best for a name, else for one of what it is several of, or what is one slip away; at most so many, and
 * nothing that leads back to the recipe that the line is of (CRO_NO_SLOT: it is of none). Elements CroFound. */
GArray  *cro_quick_list_near  (CroBook             *book,
                               guint32              recipe,
                               const char          *name,
                               guint                most);

/* Whether a line is one that was refused, put right: it is of the name that stands in that one between its numbers.
 * A line of another name is the next one. */
gboolean cro_quick_is_put_right (CroModel           *model,
                               const CroEntryWords *words,
                               const char          *refused,
                               const char          *text);

/* "2 kg tomato" in the preparation "Tomatoes" is not of it: what differs in number alone, and leads back to the recipe,
 * is another thing, and unknown. Who writes its very name is told why that cannot be. */
void     cro_quick_leave_own  (CroQuick            *quick,
                               CroBook             *book,
                               guint32              recipe);

/* Where the name is unknown then, takes the first of these. */
void     cro_quick_find       (CroQuick            *quick,
                               CroBook             *book,
                               guint32              recipe);

/* The base unit in which an ingredient of that name would be made. */
CroBase  cro_quick_base       (const CroQuick      *quick);

/* What it takes costs by the line's price, or by the book where it has none, in the book's currency per base unit;
 * NaN where that is not known. */
double   cro_quick_unit_cost  (CroFigures          *figures,
                               const CroQuick      *quick);

/* What the line would cost, of an ingredient that it would make too; NaN where that is not known. */
double   cro_quick_cost       (CroFigures          *figures,
                               const CroQuick      *quick);

/* What an item of the book lacks to be measured so; nothing where the line is not understood. */
CroLack  cro_quick_lacks      (CroFigures          *figures,
                               const CroQuick      *quick);

/* How a line is to be placed whose name is not in the book to the letter. */
typedef enum
{
  CRO_QUICK_TAKE_SIMILAR = 1 << 0,  /* else it is kept back */
  CRO_QUICK_MAKE_PRICED = 1 << 1,   /* an ingredient is made where the line has its price */
  CRO_QUICK_MAKE_ALL = 1 << 2,      /* and where it has none */
  CRO_QUICK_MAKE_PREPARATION = 1 << 3, /* what is made is a preparation, where it has no price */
} CroQuickFlags;

/* Places a pasted recipe (cro-paste.h) into one in one act, its lines after a line (CRO_NO_SLOT: at
 * the end), and gives back in *left what could not be placed, row by row as it was written (owned;
 * NULL: nothing): what is not understood, has no amount, or has a name that flags leave. What its
 * title says is taken where the recipe has no lines yet, else it goes into the note with the method;
 * a heading goes into the notes of its lines. Prices are of supplier from a date, but those that
 * cro_paste_leaves_price. *n_placed is how
 * many lines were placed; nothing at all makes no act. Where one line alone was placed *item is what
 * it takes, else CRO_NO_SLOT. */
gboolean cro_quick_place      (CroBook              *book,
                               const char           *label,
                               guint32               recipe,
                               guint32               after,
                               const char           *text,
                               const CroEntryWords  *words,
                               const char           *supplier,
                               CroDate               from,
                               CroQuickFlags         flags,
                               char                **left,
                               guint                *n_placed,
                               guint32              *item,
                               GError              **error);

G_END_DECLS
