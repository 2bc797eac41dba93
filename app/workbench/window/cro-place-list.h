/* cro-place-list.h: the things of one place, with a search and their figures. */
#pragma once

#include "cro-bench.h"
#include "cro-kind.h"

G_BEGIN_DECLS

#define CRO_TYPE_PLACE_LIST (cro_place_list_get_type ())
G_DECLARE_FINAL_TYPE (CroPlaceList, cro_place_list, CRO, PLACE_LIST, GtkWidget)

/* Signal "chosen" (kind, slot): a row was activated or selected; "all": the first one, which is of
 * all of them; "taken": by Enter or a click, with which one is done here. */

/* NULL book: empty. */
void cro_place_list_set_book   (CroPlaceList *self,
                                CroBook      *book);

/* Borrowed; NULL: none. */
CroBook *cro_place_list_get_book (CroPlaceList *self);

void cro_place_list_set_place  (CroPlaceList *self,
                                CroPlace      place);

/* Shows which row stands on the bench, without choosing it anew. */
void cro_place_list_select     (CroPlaceList *self,
                                CroKind       kind,
                                guint32       slot);

/* The same for the first row. */
void cro_place_list_select_all  (CroPlaceList *self);

/* How far its rows are scrolled, in pixels; there again, once they are there. */
int  cro_place_list_get_scroll   (CroPlaceList *self);
void cro_place_list_scroll_to    (CroPlaceList *self,
                                  int           value);

/* What its rows show beside figures of the book has moved. */
void cro_place_list_tell         (CroPlaceList *self);

void cro_place_list_focus_search (CroPlaceList *self);

/* The row that is chosen, or the first. */
void cro_place_list_focus        (CroPlaceList *self);

/* The first row, for a place that is opened for the first time; FALSE: it has none. */
gboolean cro_place_list_get_first (CroPlaceList *self,
                                   CroKind      *kind,
                                   guint32      *slot);

G_END_DECLS
