/* cro-place.h: what each place of the rail is: its name, what stands there first, and what its list holds,
 * offers and makes.
 *
 * Ownership  Static. Words are marked for translation, and translated where they are shown. */
#pragma once

#include "cro-bench.h"
#include "cro-kind.h"

G_BEGIN_DECLS

#define CRO_PLACE_MOST_KINDS 2

/* A button over the list. */
typedef struct
{
  const char *label;
  const char *action;
} CroPlaceMaker;

typedef struct
{
  const char    *name;
  const char    *icon;
  CroRefKind     first;                          /* the page without a slot: of all, or of the place itself */
  const char    *all;                            /* the row that leads to it; NULL: the place has no such list */
  int            n_kinds;
  CroKind        kinds[CRO_PLACE_MOST_KINDS];    /* what the list holds, the first being that of all */
  CroPlaceMaker  makers[CRO_PLACE_MOST_KINDS];   /* no label: none */
} CroPlaceInfo;

const CroPlaceInfo *cro_place_get (CroPlace place);

G_END_DECLS
