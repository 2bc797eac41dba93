/* cro-list.h: the things of one kind in a book, filtered and sorted, as a list model.
 *
 * The list is an array of slots; a CroRow is made when one is asked for, and is the same object
 * for as long as anybody holds it. When the book changes, only what moved in the list is told
 * ("items-changed"), and rows that are held notify.
 *
 * Ownership  A list holds the book. */
#pragma once

#include <gio/gio.h>

#include "cro-book.h"
#include "cro-kind.h"

G_BEGIN_DECLS

#define CRO_TYPE_LIST (cro_list_get_type ())
G_DECLARE_FINAL_TYPE (CroList, cro_list, CRO, LIST, GObject)

typedef enum
{
  CRO_LIST_ALL,
  CRO_LIST_INCOMPLETE,    /* an ingredient without a price in force; else what has one below it */
  CRO_LIST_OLD_PRICE,     /* an ingredient's price in use is older than CRO_LIST_OLD_DAYS, and not 0 */
  CRO_LIST_UNUSED,
  CRO_LIST_OVER_TARGET,   /* of plates and menus */
} CroListFilter;

/* Plates under headings of their courses, menus under one of their own. Headings are rows of the
 * list. What is looked for or filtered stands without them, as do plates of one course alone. */
typedef enum
{
  CRO_LIST_PLAIN,
  CRO_LIST_GROUPED,
  CRO_LIST_FOLDED,        /* grouped, and no more than headings until they are unfolded */
} CroListGroups;

#define CRO_LIST_OLD_DAYS 30

/* Whoever shows a list asks for every row that takes the place of others, lest it be one of them,
 * and GTK 4.8 does not let go of those: where they are so many, all from there on are told to be
 * gone first, which whoever shows only the first rows can pass on. So do records. */
#define CRO_LIST_MANY 16

CroList *cro_list_new        (CroBook       *book,
                              CroKind        kind);

/* Words that names must hold, in any order; NULL or without a word: all. */
void     cro_list_set_search (CroList       *self,
                              const char    *text);
void     cro_list_set_filter (CroList       *self,
                              CroListFilter  filter);

/* Folding at first is for those that were never grouped: groups keep how they are folded. */
void     cro_list_set_groups (CroList       *self,
                              CroListGroups  groups);

/* heading: the slot of the heading's row. */
void     cro_list_fold       (CroList       *self,
                              guint32        heading,
                              gboolean       is_folded);

/* Unfolds the group of a slot. */
void     cro_list_reveal     (CroList       *self,
                              guint32        slot);

/* The heading's row that a slot stands under; FALSE: it stands under none. */
gboolean cro_list_find_heading (CroList     *self,
                              guint32        slot,
                              guint         *position);

/* Rows show beside their figures what is not of the book, and that has moved. */
void     cro_list_tell       (CroList       *self);

/* Where a slot stands; FALSE: not in the list. */
gboolean cro_list_find       (CroList       *self,
                              guint32        slot,
                              guint         *position);

G_END_DECLS
