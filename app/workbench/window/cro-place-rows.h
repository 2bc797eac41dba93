/* cro-place-rows.h: the rows that a place lists: one list of each kind that it holds, one after the other. Names are
 * put in order once: a list is kept as long as the book is.
 *
 * Ownership  Rows hold their book and lists; cro_place_rows_clear() gives them back. */
#pragma once

#include "cro-list.h"
#include "cro-place.h"
#include "cro-row.h"

G_BEGIN_DECLS

typedef struct
{
  CroBook   *book;                /* NULL: no rows */
  CroList   *kept[CRO_N_KINDS];   /* made when a place first shows the kind */
  GPtrArray *lists;               /* CroList: of the place */
} CroPlaceRows;

void        cro_place_rows_init  (CroPlaceRows  *self);
void        cro_place_rows_clear (CroPlaceRows  *self);

/* Of no place yet; book may be NULL. */
void        cro_place_rows_set_book (CroPlaceRows *self,
                                  CroBook       *book);

void        cro_place_rows_set_place (CroPlaceRows *self,
                                  CroPlace       place);

/* Of the place's rows; NULL: it has none. Owned. */
GListModel *cro_place_rows_join  (CroPlaceRows  *self);

/* GTK_INVALID_LIST_POSITION: it is not among what is shown. CRO_N_KINDS is nothing, and never is. */
guint       cro_place_rows_find  (CroPlaceRows  *self,
                                  CroKind        kind,
                                  guint32        slot);

/* Of the heading that a row stands under; GTK_INVALID_LIST_POSITION: under none. */
guint       cro_place_rows_find_heading (CroPlaceRows *self,
                                  CroRow        *row);

void        cro_place_rows_fold  (CroPlaceRows  *self,
                                  CroRow        *heading,
                                  gboolean       is_folded);

/* Unfolds what it stands in. */
void        cro_place_rows_reveal (CroPlaceRows *self,
                                  CroKind        kind,
                                  guint32        slot);

/* text may be NULL. */
void        cro_place_rows_set_search (CroPlaceRows *self,
                                  const char    *text);
void        cro_place_rows_set_filter (CroPlaceRows *self,
                                  CroListFilter  filter);
void        cro_place_rows_set_groups (CroPlaceRows *self,
                                  CroListGroups  groups);

/* Figures moved (cro_list_tell). */
void        cro_place_rows_tell  (CroPlaceRows  *self);

G_END_DECLS
