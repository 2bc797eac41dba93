/* cro-said-pack.h: packs, sizes and counts wherever a text states them: "12 x 1 kg", "1 kg x 12", "12/1kg", "5 kg net",
 * "x12", "case of 12". In English and in French; words are common practice, no source.
 *
 * Units      Decimals in millionths.
 * Ownership  An array is the caller's. */
#pragma once

#include "cro-unit.h"

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  gboolean has_unit;   /* else it is a count of things alone */
  CroUnit  unit;
  gint64   count;      /* 1 of a size alone */
  gint64   size;       /* of one, in unit; 1 of a count alone */
} CroSaidPack;

/* The CroSaidPacks of a text, in their order. Ranges, "4-6 kg", and what each of the goods weighs, "2.5 kg each", are
 * none. *is_open: numbers stand there as packs have them, and are not understood. */
GArray  *cro_said_packs_of       (const char  *text,
                                  gboolean    *is_open);

/* What is most of them, a size before a count; NULL: there are none. */
const CroSaidPack *cro_said_pack_largest (const GArray *packs);

/* Whether a text ends with a unit that no number counts, "Sea purslane kg", "/kg", "(kg)". */
gboolean cro_said_pack_ends_unit (const char  *text,
                                  CroUnit     *unit);

G_END_DECLS
