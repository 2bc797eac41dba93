/* cro-unserved.h: outputs that nothing takes: cost that no plate ever pays.
 *
 * A batch that shares its cost (by weight, value or credit) with an output that reaches no plate,
 * though another of its outputs does, conserves money that plates do not absorb. */
#pragma once

#include <glib.h>

#include "cro-figures.h"

G_BEGIN_DECLS

typedef struct
{
  guint32 item;    /* the output that nothing takes */
  double  money;   /* food of a batch that it carries, or is credited for; NaN: not known */
} CroUnserved;

/* Those of one preparation, main output first. Elements CroUnserved. */
GArray *cro_unserved_of_batch (CroFigures        *figures,
                               guint32            preparation);

/* Those below what stands in figures->seen_rows (marked by the caller), by name. Leaves the marks
 * of what was walked. Elements CroUnserved. */
GArray *cro_unserved_below    (CroFigures        *figures);

/* As scripts read it: "nothing takes Crab shells". Free with g_free. */
char   *cro_unserved_to_text  (CroModel          *model,
                               const CroUnserved *unserved);

G_END_DECLS
