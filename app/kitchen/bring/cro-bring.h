/* cro-bring.h: a sheet that somebody brings, into a book: ingredients with their prices, or recipes
 * in rows.
 *
 *   prices    a row an ingredient: its name, price, pack or unit, supplier, code, yield. What the
 *             book has already keeps all that the sheet does not say; a price is one more price.
 *   recipes   a row a line: what it takes, how much; its recipe in a column, or as a title over its
 *             lines. A recipe that others take is a preparation, and so is one that gives a weight
 *             or a volume and no count; another is a plate. How many it makes, or how much it
 *             gives, is read from a column or from its title: "Crab butter (450 g)", "Crab
 *             croustade, makes 24".
 *
 * Names are matched as they are written, then without case and accents, and those of items then in any
 * number where that is but one ("Eggs" is the book's "Egg"). Rows with a fault are left
 * out and say why; nothing is guessed. A line whose unit is none ("1 pod") counts pieces that cost nobody
 * knows how much, and one without an amount ("to taste", or nothing) takes 1 of a unit in which the ingredient is
 * not costed, so that its recipe is not complete. What is brought is written as the tables of cro-table.h and
 * added in one act (cro-add.h), so that it is checked as any table is.
 *
 * Units      Decimals in millionths.
 * Ownership  A row's texts live as long as what was read (CroBring). */
#pragma once

#include "cro-add.h"
#include "cro-book.h"
#include "cro-brought.h"
#include "cro-entry.h"

G_BEGIN_DECLS

/* Longer than any name that a line of a kitchen could show. */
#define CRO_BRING_MOST_NAME 200

typedef enum
{
  CRO_BRING_PRICES,
  CRO_BRING_RECIPES,
} CroBringKind;

typedef enum
{
  CRO_BRING_LEFT_OUT,     /* empty of what is asked: a title, a sum, a gap */
  CRO_BRING_FAULT,
  CRO_BRING_KNOWN,        /* the book has the ingredient, or the item of the line */
  CRO_BRING_NEW,          /* and here it has not */
  CRO_BRING_TITLE,        /* names the recipe of the rows below */
} CroBringState;

typedef enum
{
  CRO_BRING_SOUND,
  CRO_BRING_NO_NAME,
  CRO_BRING_STRAY,        /* a character that no name may have */
  CRO_BRING_TOO_LONG,     /* a name of more than CRO_BRING_MOST_NAME characters */
  CRO_BRING_WHICH_SIGN,   /* "1,234", where nothing tells whether it is 1.234 or 1234 */
  CRO_BRING_NOT_A_PRICE,
  CRO_BRING_OTHER_CURRENCY, /* the price has another sign than the supplier's */
  CRO_BRING_NO_PACK,      /* a price, but of how much? */
  CRO_BRING_NOT_A_UNIT,
  CRO_BRING_NOT_AN_AMOUNT,
  CRO_BRING_NOT_A_YIELD,
  CRO_BRING_TWICE,        /* the same ingredient, supplier and code stand in an earlier row, other */
  CRO_BRING_NO_RECIPE,    /* a line before the first recipe */
  CRO_BRING_IN_BOOK,      /* the book has a recipe of that name: it is left as it is */
  CRO_BRING_CELL_ERROR,   /* "#N/A" */
  CRO_BRING_CYCLE,        /* a recipe that takes itself, by whatever way */

  CRO_BRING_NOT_AN_ALLERGEN,    /* these are left of a row that is brought */
  CRO_BRING_ALLERGENS_OF_BOOK,  /* the book's ingredient has others */
  CRO_BRING_YIELD_OF_BOOK,
  CRO_BRING_COUNTED,            /* a unit that is none: the line counts what costs nobody knows how much */
  CRO_BRING_NO_AMOUNT,          /* empty, "to taste": one of a unit in which it costs nobody knows how much */
} CroBringFault;

/* A part of a row that is not brought while the rest of it is. */
typedef struct
{
  CroBringFault fault;
  guint         column;
} CroBringLeft;

/* The price, the allergens, the yield, the unit. */
#define CRO_BRING_MOST_LEFT 4

typedef struct
{
  guint         number;     /* of the row in its spreadsheet */
  CroBringState state;
  CroBringFault fault;
  guint         column;     /* at fault */
  guint         other;      /* the number of the other row, of TWICE */
  CroBringLeft  left[CRO_BRING_MOST_LEFT];
  guint         n_left;

  const char   *name;       /* of the ingredient, or of what a line takes: as the book has it */
  const char   *recipe;
  const char   *supplier;
  const char   *code;       /* "" where it has none */
  const char   *like;       /* of a NEW one: the name of the book that it may be (cro-like-names.h); NULL */
  gboolean      is_new_supplier;
  const char   *like_supplier; /* the same of a new supplier; NULL */
  gboolean      is_new_offer; /* the book has no pack of that supplier under that code */
  gboolean      is_other_pack; /* it has, and today's is another: from that day on */
  guint32       offer;      /* slot of the pack that the book has; CRO_NO_SLOT */
  gint64        before;     /* its price in force or the last one, of its own pack; CRO_NOT_SET */
  double        ratio;      /* of the price to that one, per base unit and whatever the packs; NaN */
  gboolean      is_doubtful; /* the ratio is asked about, as cro-doubt.h says */
  const char   *category;   /* NULL where nothing is said */
  const char   *note;
  CroBase       base;       /* in which a new ingredient is costed */
  gboolean      has_price;
  gint64        price;      /* of the pack */
  CroPack       pack;       /* of no size where nothing is said */
  gint64        trim_yield; /* CRO_NOT_SET */
  gint32        allergens;  /* groups; of all rows of the ingredient. Below 0: not stated, or not understood */
  guint         recipe_index; /* of a line: among recipes */
  gint64        amount;
  CroUnit       unit;
} CroBringRow;

typedef struct
{
  const char   *name;
  const char   *course;     /* NULL: nothing is said */
  const char   *note;
  gboolean      is_plate;
  gint64        makes;      /* CRO_NOT_SET */
  gint64        gives;      /* CRO_NOT_SET */
  CroUnit       gives_unit;
  gint64        price;      /* for which it is sold; CRO_NOT_SET */
  const char   *unused;     /* what a cell says of its yield or its price and was not understood */
  guint         n_lines;
  guint         number;     /* of the row that named it */
  gboolean      is_left_out; /* the book has one, or none of its lines is sound */
} CroBringRecipe;

typedef struct
{
  CroBringKind  kind;
  GArray       *rows;       /* CroBringRow: all below the headings */
  GArray       *recipes;    /* CroBringRecipe */
  guint         n_new;      /* ingredients that the book has not */
  guint         n_known;
  guint         n_prices;
  guint         n_doubtful; /* of those */
  guint         n_faults;
  guint         n_partly;   /* rows of which a part is left */
  GStringChunk *texts;
} CroBring;

/* Whether such rows take anything from a column of that role. */
gboolean      cro_bring_uses    (CroBringKind       kind,
                                 CroRole            role);

/* What the roles of its columns make of it. */
CroBringKind  cro_bring_guess   (const CroBrought  *brought);

/* What the rows say, beside what the book holds. supplier is that of rows that name none. */
CroBring     *cro_bring_read    (const CroBrought  *brought,
                                 CroBringKind       kind,
                                 CroModel          *model,
                                 const char        *supplier);
void          cro_bring_free    (CroBring          *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroBring, cro_bring_free)

/* Puts what is sound into the book at path, prices from that day, in one act; see cro_add. NULL on failure. */
CroAdded     *cro_bring_into    (const CroBring    *self,
                                 const char        *path,
                                 CroDate            from,
                                 const char        *desk,
                                 const char        *label,
                                 CroAddFlags        flags,
                                 CroFaults         *faults,
                                 GError           **error);

G_END_DECLS
