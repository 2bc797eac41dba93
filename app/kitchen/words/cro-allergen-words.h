/* cro-allergen-words.h: what the book knows of allergens, as people read it.
 *
 * Nothing here says that a plate is free from anything: the worst that is told of an allergen is that it
 * is not known, the best that it is not among those that were entered.
 *
 * Ownership  Texts are the caller's to free; those of const char * are static. */
#pragma once

#include "cro-allergen-sheet.h"
#include "cro-text-table.h"

G_BEGIN_DECLS

/* "molluscs"; of an entry of a list. */
const char   *cro_words_allergen           (CroAllergenListId       list,
                                            guint                   entry);

/* "Mol": three letters or so, no two alike in a list. */
const char   *cro_words_allergen_short     (CroAllergenListId       list,
                                            guint                   entry);

/* Which of a list somebody means who types the beginning of a name, in their language or in English: a mask of
 * those that fit, of the one whose whole name or short one it is alone; 0: none. */
guint32       cro_words_find_allergens     (CroAllergenListId       list,
                                            const char             *typed);

/* "molluscs, fish"; of a mask of entries. */
char         *cro_words_allergens_of       (CroAllergenListId       list,
                                            guint32                 entries);

/* What a list is called, and where it stands, with what cannot be told from what is entered. */
const char   *cro_words_allergen_list      (CroAllergenListId       list);
const char   *cro_words_allergen_source    (CroAllergenListId       list);

/* Of a set of CroHeld: a sign that is told by its shape, and the same in words. */
const char   *cro_words_held_mark          (unsigned                held);
const char   *cro_words_held               (unsigned                held);

/* What the signs mean. */
const char   *cro_words_held_legend        (void);

/* The heading of a group of the sheet: "Contain: molluscs". */
char         *cro_words_avoid_group        (const CroAllergenSheet *sheet,
                                            CroAvoidGroup           group);

/* One cell as a sentence, with who carries it: "Crab croustade contains milk: Crab butter (Butter) in …". */
char         *cro_words_carried            (const CroAllergenSheet *sheet,
                                            const CroAllergenRow   *row,
                                            guint                   entry);

/* The same of everything that a row contains or may contain, a line each, and of whom nobody has said. Without
 * the row's name; "" where there is nothing of it. */
char         *cro_words_all_carried        (const CroAllergenSheet *sheet,
                                            const CroAllergenRow   *row);

/* Why a row stands in its group: the purchases of which something avoided is told, or not stated.
 * "" where nothing is avoided and all is stated. */
char         *cro_words_avoid_why          (const CroAllergenSheet *sheet,
                                            const CroAllergenRow   *row);

/* The purchases below a row, and what is empty, of which nobody has said. */
char         *cro_words_not_stated_below   (const CroAllergenSheet *sheet,
                                            const CroAllergenRow   *row);

/* "Not stated for 1 of 84 ingredients.", or that all are. */
char         *cro_words_not_stated         (CroModel               *model);

/* The sheet for paper and files, with its cautions, in the language at hand. in_words: what cells say;
 * otherwise their signs, and what those mean below. */
CroTextTable *cro_words_allergen_table     (const CroAllergenSheet *sheet,
                                            gboolean                in_words);

/* Its title: "Allergens as entered: Tide". */
char         *cro_words_allergen_title     (const CroAllergenSheet *sheet);

G_END_DECLS
