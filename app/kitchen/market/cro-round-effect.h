/* cro-round-effect.h: what a round does before it is posted, and did once it is: plates and menus from → to, the
 * price that would hold those over their target, packs that are cheaper elsewhere now, money a week.
 *
 * What stood before is read once; after that a key costs what its price moves.
 *
 * Units      Money of the book; prices per base unit.
 * Ownership  Slots and names are those of the round's copy, and go with its next renewal; of what was posted the
 *            view's. */
#pragma once

#include "cro-cause.h"
#include "cro-moved-plates.h"
#include "cro-ref.h"
#include "cro-round.h"

G_BEGIN_DECLS

typedef struct
{
  CroMovedPlate moved;
  CroRef        thing;
  double        sold;      /* in the days that are looked at; 0: nothing is known */
  /* Of what is over its target: the price of one ingredient at which it would hold, all else equal. */
  guint32       item;      /* CRO_NO_SLOT: none of the round's could */
  double        ceiling;   /* below 0: over even as a gift */
} CroRoundMoved;

/* A pack that costs less per base unit than the one that serves, as that is preferred. */
typedef struct
{
  guint32 item;
  guint32 offer;           /* the cheaper one */
  double  unit_cost;
  guint32 instead_of;      /* the one that serves */
  double  now;
} CroRoundCheaper;

typedef struct
{
  CroFigures *figures;     /* whose slots these are; borrowed */
  GArray  *moved;          /* CroRoundMoved: those that go over first, then those over already, then by size */
  guint    n_over;         /* that are over after it */
  GArray  *cheaper;        /* CroRoundCheaper */
  gboolean is_taken;       /* some plate takes one of the ingredients */
  gboolean has_sold;       /* anything was sold on the days that are looked at */
  CroDate  until;          /* the last of them */
  double   week;           /* more a week; without sales more for a guest of each */
  gboolean is_short_before; /* a cost in that lacks a price before it, and not after it; and the other way round */
  gboolean is_short_after;
  GArray  *lacks;          /* CroCause: what costs in that lack, after it */
} CroRoundEffect;

typedef struct _CroRoundView CroRoundView;

/* Reads what stood before, and what was sold lately. The round must outlive it. */
CroRoundView   *cro_round_view_new    (CroRound        *round,
                                       GError         **error);
/* What those postings did, as far as it is in force: the book as it is now beside what it would be without, on the last
 * of their days. posts: CroRoundPost *, at least one, in their order; they are read during the call. */
CroRoundView   *cro_round_view_of_posts (CroRound      *round,
                                       GPtrArray       *posts,
                                       GError         **error);
void            cro_round_view_free   (CroRoundView    *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroRoundView, cro_round_view_free)

/* most: of the plates over their targets, for how many a price is looked for that would hold them. */
CroRoundEffect *cro_round_view_read   (CroRoundView    *self,
                                       guint            most);
void            cro_round_effect_free (CroRoundEffect  *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroRoundEffect, cro_round_effect_free)

G_END_DECLS
