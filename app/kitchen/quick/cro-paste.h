/* cro-paste.h: a recipe as it is pasted, told apart row by row.
 *
 *   Crab butter (makes 450 g)          the title, and what the recipe makes
 *   For the stock:                     a heading: it is kept beside each of its lines
 *   - 600 g crab shells                a line (cro-quick.h)
 *   salt                               no amount: it is kept back and asked about
 *   1. Roast the shells for an hour.   how it is done: for the note
 *
 * Nothing is dropped but empty rows, rules, the recipe's own name, and the words "Ingredients" and
 * "Method" alone. A text of one row is a line, whatever it says. The words are those of English and
 * French kitchens, whatever the locale: common practice, no source.
 *
 * Ownership  A paste owns its rows. */
#pragma once

#include "cro-quick.h"
#include "cro-title.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_PASTE_NOTHING,
  CRO_PASTE_LINE,     /* quick is sound and has an amount */
  CRO_PASTE_LEFT,     /* quick says why it is none */
  CRO_PASTE_TITLE,    /* a name or a yield, or both: in the paste's title */
  CRO_PASTE_HEADING,
  CRO_PASTE_NOTE,
} CroPasteKind;

typedef struct
{
  CroPasteKind kind;
  char        *text;      /* as it was pasted, without space at its ends */
  guint        heading;   /* of a line: the row of its heading; G_MAXUINT: none */
  CroQuick     quick;
} CroPasteRow;

typedef struct
{
  GArray   *rows;         /* CroPasteRow */
  CroTitle  title;        /* the first yield that was read of portions, and of an amount */
  gboolean  is_alone;     /* one row, which is a line */
} CroPaste;

/* recipe is the name of what it is pasted into. */
void         cro_paste_read    (CroModel            *model,
                                const char          *recipe,
                                const char          *text,
                                const CroEntryWords *words,
                                CroPaste            *paste);
void         cro_paste_clear   (CroPaste            *paste);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CroPaste, cro_paste_clear)

CroPasteRow *cro_paste_get     (const CroPaste      *paste,
                                guint                row);

/* Whether a recipe that it is pasted into takes the yield of its title: where there are lines already
 * they are for another one. Of two yields the paste keeps the one of its kind: a plate makes portions. */
gboolean     cro_paste_sets_yield (CroPaste         *paste,
                                CroFigures          *figures,
                                guint32              recipe);

/* Whether a row goes into the recipe's note: how it is done, a heading without lines, and a title that says more
 * than the recipe and its yield. takes: cro_paste_sets_yield. */
gboolean     cro_paste_notes   (const CroPaste      *paste,
                                guint                row,
                                const CroRecipe     *recipe,
                                gboolean             takes);

/* Whether the price of a line is let go: what it takes comes from a preparation, which has none; or it is pasted
 * beside others, and what it takes has a price in use, which an old recipe does not move. */
gboolean     cro_paste_leaves_price (const CroPaste *paste,
                                CroFigures          *figures,
                                guint                row);

/* What a heading says of its lines: without its colon and the signs before it. Owned. */
char        *cro_paste_dup_heading (const CroPaste  *paste,
                                    guint            row);

/* Adds a row to a note: a sentence behind a sentence. */
void         cro_paste_add_note (GString            *note,
                                const char          *text);

G_END_DECLS
