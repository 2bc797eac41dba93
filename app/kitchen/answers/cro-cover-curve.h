/* cro-cover-curve.h: what a guest costs as covers rise from 1, with whole batches and whole packs,
 * beside what the recipes say.
 *
 *   cost of n covers = plan of n covers / n      (cro-service-plan.h; nothing in the house already)
 *
 * Its limit is the theoretical cost where all that a batch gives is used. What a by-product that
 * nothing takes carries stays above it: it is paid for.
 *
 * Units      Money in book currency, net, food and disposables.
 * Ownership  A curve owns its arrays.
 * Errors     CRO_STORE_ERROR. */
#pragma once

#include "cro-service-plan.h"

G_BEGIN_DECLS

/* From so many covers on one pack more is bought. */
typedef struct
{
  guint32 item;
  guint32 offer;
  guint   from;
  double  packs;
  double  cost;         /* of what is added */
} CroCoverStep;

typedef struct
{
  CroRef   thing;
  GArray  *costs;       /* double: a guest's cost at 1, 2, … covers */
  GArray  *steps;       /* CroCoverStep, by rising covers */
  double   theoretical; /* a guest's */
  CroKnown known_cost;
  CroKnown known_theoretical;
  double  *packs;       /* of the last covers, by item */
  guint    n_items;
} CroCoverCurve;

/* A plate or a menu; without any covers yet. */
CroCoverCurve *cro_cover_curve_new  (CroRef         thing);
void           cro_cover_curve_free (CroCoverCurve *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroCoverCurve, cro_cover_curve_free)

/* One cover more: a plan each, so that who waits for it may do other work between. */
gboolean       cro_cover_curve_add  (CroCoverCurve *self,
                                     CroBook       *book,
                                     GError       **error);

/* A plan of so many covers of one plate or menu. */
CroServicePlan *cro_cover_plan_new  (CroBook       *book,
                                     CroRef         thing,
                                     gint64         covers,
                                     GError       **error);

G_END_DECLS
