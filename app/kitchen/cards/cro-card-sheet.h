/* cro-card-sheet.h: what every card on paper begins and ends with. Private to the room. */
#pragma once

#include "cro-book.h"
#include "cro-breakdown.h"
#include "cro-paper.h"
#include "cro-ref.h"

G_BEGIN_DECLS

/* Of a plate, a menu or a preparation. */
CroBreakdown *cro_card_breakdown  (CroFigures   *figures,
                                   CroRef        thing);

/* Food per guest; of a batch its lines' alone: what its by-products are credited with is no part of it. Owned. */
char         *cro_card_dup_cost   (CroFigures   *figures,
                                   CroRef        thing,
                                   const CroFigure *figure);

/* What the card's maker wrote of the recipe; NULL: nothing. Owned. */
char         *cro_card_dup_note   (CroBook      *book,
                                   const char   *table,
                                   gint64        id);

/* The table of the book in which a thing stands, and its row. Borrowed. */
const char   *cro_card_table      (CroModel     *model,
                                   CroRef        thing,
                                   gint64       *id);

/* The picture of a plate or a preparation at the end of what follows, until cro_paper_end_beside; FALSE:
 * it has none, and nothing is beside. */
gboolean      cro_card_begin_beside (CroPaper   *paper,
                                   CroBook      *book,
                                   CroRef        thing,
                                   gboolean      rtl);

/* Two texts at both ends of a line. */
void          cro_card_add_pair   (CroPaper     *paper,
                                   unsigned      look,
                                   const char   *start,
                                   const char   *end);

/* texts: char *, each a paragraph in a block of its own. */
void          cro_card_add_texts  (CroPaper     *paper,
                                   unsigned      look,
                                   GPtrArray    *texts);

/* Of a trial, that it is one. */
void          cro_card_add_trial  (CroPaper     *paper,
                                   CroBook      *book);

/* Which book and whose prices, in place of what stands there: a file made again is the same file. */
void          cro_card_set_file_foot (CroPaper *paper,
                                   CroBook      *book);

/* Which book, when it was printed, and whose prices. */
void          cro_card_set_foot   (CroPaper     *paper,
                                   CroBook      *book);

G_END_DECLS
