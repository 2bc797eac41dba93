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
  gboolean is_counted; /* how many packages of a size there are is stated beside it, "5 kg, case of 2", or alone */
} CroSaidPack;

/* What is most of all that a text states, a size before a count. Ranges, "4-6 kg", and what each of the goods weighs,
 * "2.5 kg avg", are none. FALSE: it states none. *count: beside a size of which nothing says how many there are the
 * number that may, "12, 1 kg"; 0: none is there; CRO_NOT_SET: several. *is_open: what stands there is a part of a
 * pack, or not understood. */
gboolean cro_said_pack_read      (const char  *text,
                                  CroSaidPack *pack,
                                  gint64      *count,
                                  gboolean    *is_open);

/* Whether a text ends with a unit that no number counts, "Sea purslane kg", "/kg", "(kg)". */
gboolean cro_said_pack_ends_unit (const char  *text,
                                  CroUnit     *unit);

G_END_DECLS
