/* cro-month-bridge.h: why theoretical food cost changed between two closed months (cro-bridge.h), by
 * what was taken and by what was sold.
 *
 * Units      Money of the book. Ownership: names are those of the months, which must outlive it. */
#pragma once

#include "cro-bridge.h"
#include "cro-month.h"

G_BEGIN_DECLS

typedef struct
{
  const char *name;
  double      effects[CRO_N_BRIDGE_EFFECTS];
  CroKnown    known;      /* of each of them, and of all together */
} CroMonthBridgeRow;

typedef struct
{
  const CroMonth *from;
  const CroMonth *to;
  double          effects[CRO_N_BRIDGE_EFFECTS];
  double          taken_back; /* what no effect tells of: cost of things of which none was sold in all, as they were
                               * taken back at other prices */
  CroKnown        known;      /* of each of them … */
  CroKnown        known_all;  /* … and of the change: of two lower bounds the difference is none */
  GArray         *items;      /* CroMonthBridgeRow: ingredients and assigned values, what moved most first */
  GArray         *things;
} CroMonthBridge;

/* Both as closing froze them. */
CroMonthBridge *cro_month_bridge_new   (const CroMonth       *from,
                                        const CroMonth       *to);
void            cro_month_bridge_free  (CroMonthBridge       *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroMonthBridge, cro_month_bridge_free)

/* The effects, and behind them what was taken back. */
#define CRO_N_BRIDGE_STEPS (CRO_N_BRIDGE_EFFECTS + 1)

/* In minor units, top-down: the change is the difference of the rounded costs, steps add up to it, and
 * each effect's rows add up to the effect. rows: of self->items or self->things; minor has
 * CRO_N_BRIDGE_EFFECTS for each row, row by row. Returns the change. */
gint64          cro_month_bridge_round (const CroMonthBridge *self,
                                        GArray               *rows,
                                        int                   digits,
                                        gint64                steps[CRO_N_BRIDGE_STEPS],
                                        gint64               *minor);

G_END_DECLS
