/* cro-unit-code.h: the units of trade documents, as UN/ECE codes them.
 *
 * Source     UN/ECE Recommendation 20, revision 11e, as the code list of Peppol BIS Billing 3.0 gives it;
 *            with X before them, the packages of Recommendation 21. Those of masses and volumes are the
 *            ones of cro-unit.h and their tens; what has no unit there is unknown here. */
#pragma once

#include <glib.h>

#include "cro-unit.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_UNIT_CODE_UNKNOWN,   /* kept as it stands, and never converted */
  CRO_UNIT_CODE_MEASURE,   /* one is size of unit */
  CRO_UNIT_CODE_PIECE,     /* one, each, piece: of whatever the item is sold in */
  CRO_UNIT_CODE_PACKAGE,   /* a box, a bag: what it holds the code does not say */
} CroUnitCodeKind;

/* size, in millionths, and unit are set for MEASURE alone. */
CroUnitCodeKind cro_unit_code_read (const char *code,
                                    CroUnit    *unit,
                                    gint64     *size);

G_END_DECLS
