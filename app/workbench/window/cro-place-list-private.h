/* cro-place-list-private.h: what the files of the list of a place share. */
#pragma once

#include "cro-place-list.h"
#include "cro-place-rows.h"
#include "cro-row.h"
#include "cro-scroll-back.h"
#include "cro-slices.h"

G_BEGIN_DECLS

struct _CroPlaceList
{
  GtkWidget           parent_instance;

  GtkWidget          *box;
  GtkWidget          *search;
  GtkWidget          *makers;      /* buttons that make what the place holds */
  GtkWidget          *filter;      /* a drop-down, of the larder and of many plates; NULL: not yet */
  GtkWidget          *all;         /* the row that is of all; it stays in sight */
  GtkWidget          *scroller;    /* around the next one */
  GtkWidget          *view;
  GtkWidget          *empty;
  GtkSingleSelection *selection;
  CroSlices          *slices;
  gboolean            is_sought;   /* the row of what stands on the bench is to be seen then */
  gboolean            is_awaited;  /* and has the focus then */
  guint               n_again;     /* frames in which it is scrolled to once more */

  CroBook            *book;
  CroPlace            place;
  CroPlaceRows        rows;
  CroKind             kind;        /* of what stands on the bench; CRO_N_KINDS: nothing */
  guint32             slot;
  guint               serial;      /* of the model whose slot it is */
  char               *name;        /* that it has in the book; NULL: none */
  gboolean            is_at_all;   /* the first row stands on the bench */
  guint64             edition;     /* of the book when all were counted */
  gboolean            is_setting;
  CroScrollBack       scroll;
};

/* --- cro-place-list.c ------------------------------------------------------------------------------ */

/* The row that is of all, as if it had been pressed. */
void cro_place_list_choose_all (CroPlaceList *self);

/* Folds what stands under a heading, which keeps the selection, or unfolds it. */
void cro_place_list_fold       (CroPlaceList *self,
                                CroRow       *heading,
                                gboolean      is_folded);

/* --- cro-place-list-keys.c ------------------------------------------------------------------------- */

/* Once the list has its parts. */
void cro_place_list_add_keys   (CroPlaceList *self);

G_END_DECLS
