/* cro-bring-private.h: what reading the two kinds of sheets shares. */
#pragma once

#include "cro-bring.h"
#include "cro-brought-pack.h"

G_BEGIN_DECLS

typedef struct
{
  const CroBrought *brought;
  CroModel         *model;
  CroBring         *bring;
  GHashTable       *items;       /* folded → name, as the book has it or the first row wrote it */
  GHashTable       *items_in_number; /* one form for all numbers (cro-fold.h) → name; "": of several */
  GHashTable       *items_of_book; /* its items alone: folded → slot + 1 */
  GHashTable       *suppliers;   /* the same */
  GHashTable       *suppliers_of_book; /* names as it has them */
  GHashTable       *offers;      /* of the book: key as in seen → slot + 1 */
  GHashTable       *recipes;     /* folded → index of the recipe + 1 */
  GHashTable       *plates;      /* folded → name: plates and preparations of the book */
  GHashTable       *seen;        /* "ingredient\nsupplier\ncode" → number of the row + 1 */
  const char       *supplier;
  guint             recipe;      /* index + 1 of that of the row in hand; 0: none yet */
  CroPricePer       per;         /* what a price is for: "Price per kg" */
  gboolean          is_other_currency; /* their heading names one that is not the book's */
} CroBringReader;

/* A text of a row that lives as long as what was read; NULL where it is empty. */
const char *cro_bring_keep       (CroBringReader  *self,
                                  const char      *text);

/* The name in the column of that role, tidied, as the table of names has it, or as it is written and
 * then added to it. NULL: none, or row has the fault. *is_known: the book has an item of that name. */
const char *cro_bring_read_name  (CroBringReader  *self,
                                  guint            index,
                                  CroRole          role,
                                  GHashTable      *names,
                                  CroBringRow     *row,
                                  gboolean        *is_known);

/* What a name is known again by: signs alone fold to nothing, and stand for themselves. Owned. */
char       *cro_bring_dup_key    (const char      *name);

/* A tidy name as the table of names has it, or as it is written and then added to it. */
const char *cro_bring_find_name  (CroBringReader  *self,
                                  GHashTable      *names,
                                  const char      *tidy,
                                  gboolean        *is_known);

/* The book's item of that name; CRO_NO_SLOT. */
guint32     cro_bring_find_item  (CroBringReader  *self,
                                  const char      *name);

/* Texts that may be there and are kept as they are. */
const char *cro_bring_read_text  (CroBringReader  *self,
                                  guint            index,
                                  CroRole          role);

/* Whether a price has a sign or a code that is not of the book's currency; a book without one takes
 * any. */
gboolean    cro_bring_has_other_currency (const CroBringReader *self,
                                    const char           *text);

gboolean    cro_bring_fail       (CroBringRow     *row,
                                  CroBringFault    fault,
                                  guint            column);

/* That part of it is not brought; the row is. */
void        cro_bring_leave      (CroBringRow     *row,
                                  CroBringFault    fault,
                                  guint            column);

/* The fault of a number that was not read: WHICH_SIGN where it could be two. */
gboolean    cro_bring_fail_number (CroBringReader    *self,
                                   CroBringRow       *row,
                                   const CroReadCell *cell,
                                   guint              column,
                                   CroBringFault      fault);

/* Of 1 and less it is a part, of more per cent. */
gboolean    cro_bring_read_yield (CroBringReader  *self,
                                  guint            index,
                                  CroBringRow     *row);

void        cro_bring_read_price (CroBringReader  *self,
                                  guint            index,
                                  CroBringRow     *row);

/* Once all rows are read: what several of them state of one ingredient. */
void        cro_bring_settle_prices (CroBringReader *self);

void        cro_bring_begin_prices (CroBringReader *self);

void        cro_bring_read_line  (CroBringReader  *self,
                                  guint            index,
                                  CroBringRow     *row);

/* Once all rows are read: what is a plate, and what cannot be brought. */
void        cro_bring_settle_recipes (CroBringReader *self);

G_END_DECLS
