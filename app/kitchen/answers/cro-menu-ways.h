/* cro-menu-ways.h: what a guest of a menu takes of each of its plates.
 *
 * Ownership  Entries are borrowed from the model; the rest is the ways' own. */
#pragma once

#include <glib.h>

#include "cro-model.h"
#include "cro-way.h"

G_BEGIN_DECLS

typedef struct
{
  GPtrArray   *plates;    /* CroMenuPlate *, in order */
  CroWayPlate *ways;      /* for each plate; alternatives have the number of the first of them */
  double      *taken;     /* servings that a guest has of it on average: share times servings */
  guint        bad;       /* plates->len, or the first plate of a choice that is not 100 % */
} CroMenuWays;

CroMenuWays *cro_menu_ways_new   (CroModel           *model,
                                  guint32             menu);
void         cro_menu_ways_free  (CroMenuWays        *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroMenuWays, cro_menu_ways_free)

/* Servings that a guest has of one plate of a menu on average. */
double       cro_menu_taken      (CroModel           *model,
                                  const CroMenuPlate *entry);

/* How often a guest takes it, as a fraction; 1 outside of choices. */
double       cro_menu_share      (CroModel           *model,
                                  const CroMenuPlate *entry);

/* How many of a hundred guests take it, in tenths: those of a choice add up to 100.0; 100 outside of choices. */
double       cro_menu_share_pct  (CroModel           *model,
                                  const CroMenuPlate *entry);

/* The plates of a menu in order: CroMenuPlate *, borrowed from the model. */
GPtrArray   *cro_menu_dup_plates (CroModel           *model,
                                  guint32             menu);

G_END_DECLS
