/* cro-quick-words.h: what is said under a line while it is typed: what Enter would do, or why it
 * would do nothing.
 *
 * Ownership  Texts are the caller's. */
#pragma once

#include "cro-paste.h"

G_BEGIN_DECLS

/* Why a line cannot be placed; NULL where it can. quick was read of text. */
char *cro_quick_reason     (const char     *text,
                            const CroQuick *quick);

/* The same, or what Enter does to a recipe, with what the line will cost there. */
char *cro_quick_hint       (CroFigures     *figures,
                            guint32         recipe,
                            const char     *text,
                            const CroQuick *quick);

/* Of a recipe that was pasted into one: how many of its lines would be placed, what they make anew, and
 * what goes elsewhere. */
char *cro_quick_hint_paste (CroFigures     *figures,
                            guint32         recipe,
                            const char     *text);

/* The names of the book that are like those it does not have: "“Butter, unsalted” for “Butter”"; NULL where
 * there is none. */
char *cro_quick_paste_near (CroBook        *book,
                            guint32         recipe,
                            const char     *text);

/* How amounts and prices of a paste were read that could have been read in another way: "Brown crab: read as 1";
 * NULL: none could. */
char *cro_quick_paste_read (const CroPaste *paste);

/* The same, and which of its prices are not taken, and what the ingredients cost: "price 3.20/kg not taken: Tomato
 * costs 2.90/kg"; NULL: there is nothing to tell. A line alone tells it while it is typed. flags are those it is
 * placed by. */
char *cro_quick_paste_told (CroBook        *book,
                            guint32         recipe,
                            const char     *text,
                            CroQuickFlags   flags);

G_END_DECLS
