/* cro-moves-known.h: how much is known of what price moves add to the cost of rows and of what was sold.
 *
 * Where a line cannot be converted, or a batch between lacks a finished amount, how much is charged of what
 * stands below is not known, and so neither is what its move adds: more where it rose, less where it fell.
 *
 * Ownership  Arrays are the caller's. */
#pragma once

#include "cro-effects.h"
#include "cro-known.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_MOVES_ROSE = 1 << 0,
  CRO_MOVES_FELL = 1 << 1,
  CRO_MOVES_NOT_KNOWN = CRO_MOVES_ROSE | CRO_MOVES_FELL, /* no price on one of both days */
} CroMovesBits;

/* Of what is not known beside a sum. */
CroKnown cro_moves_known      (guint          open);

/* By row, what moved of what it is charged an amount of that is not known. moved: CroMovesBits by node of
 * ingredients, 0 of others, which is written over. Owned. */
guint8  *cro_moves_open_rows  (CroFigures    *figures,
                               guint8        *moved);

/* By node of what effects run over (cro-effects.h): whether more is charged of it than is known. Owned. */
guint8  *cro_moves_open_nodes (CroFigures    *figures);

G_END_DECLS
