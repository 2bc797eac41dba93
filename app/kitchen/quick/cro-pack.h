/* cro-pack.h: a pack as people write it: "20 × 250 g", "5 kg".
 *
 * Units      Count and size in millionths.
 * Ownership  Texts returned are the caller's. */
#pragma once

#include "cro-entry.h"

G_BEGIN_DECLS

char    *cro_pack_to_text   (const CroPack       *pack);

/* What stands before the first × is the count, 1 where there is none. The unit is the one typed,
 * or fallback. FALSE: this is no pack, and *pack is as it was. */
gboolean cro_pack_from_text (const char          *text,
                             CroUnit              fallback,
                             const CroEntryWords *words,
                             CroPack             *pack);

G_END_DECLS
