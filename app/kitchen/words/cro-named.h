/* cro-named.h: where the name of a thing stands, told before it is kept another one.
 *
 * A name is kept once, and whatever refers to the thing shows it: no figure hangs on it. A closed
 * month keeps the names that it was closed with.
 *
 * Ownership  Texts and arrays are the caller's. */
#pragma once

#include "cro-book.h"
#include "cro-ref.h"

G_BEGIN_DECLS

/* In the order in which they are told. */
typedef enum
{
  CRO_NAMED_RECIPES,       /* that take the item */
  CRO_NAMED_MENUS,         /* that carry the plate */
  CRO_NAMED_PACKS,
  CRO_NAMED_TILL,          /* what a till calls the plate or the menu */
  CRO_NAMED_SERVICES,
  CRO_NAMED_YIELD_TESTS,
  CRO_NAMED_COUNTS,
  CRO_NAMED_PURCHASES,
  CRO_NAMED_ADJUSTMENTS,
  CRO_NAMED_SALES,
  CRO_NAMED_CLOSED,        /* months that keep the old one */
  CRO_N_NAMED,
} CroNamedKind;

typedef struct
{
  CroNamedKind kind;
  guint        n;          /* at least 1 */
  GPtrArray   *names;      /* of what it stands in, each once; empty where that bears none */
} CroNamed;

/* What a thing is called by with it: a preparation's main output where both have one name. Elements
 * CroNamed, by kind; NULL on failure. */
GArray *cro_named_list     (CroBook        *book,
                            CroRef          ref,
                            GError        **error);

/* "6 recipes: Crab butter, Fish soup, 4 others"; most: names at most. NULL: of closed months. */
char   *cro_named_to_text  (const CroNamed *self,
                            guint           most);

/* All of them in a row, the first names of each; NULL: it stands nowhere else. */
char   *cro_words_named    (GArray         *named);

/* The closed months that keep the old name, in a sentence; NULL: none. */
char   *cro_words_old_name (GArray         *named);

G_END_DECLS
