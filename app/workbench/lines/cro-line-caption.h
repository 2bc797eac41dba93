/* cro-line-caption.h: what of a line differs from the plain, in words under it.
 *
 *   yield 86 % · 20 % comes back
 *
 * Units      cost in the book's currency, NAN where it is not known. */
#pragma once

#include "cro-figures.h"

G_BEGIN_DECLS

/* note: what its table says of the line, or NULL. "" where all is plain. Owned. */
char *cro_line_caption_dup (CroFigures *figures,
                            guint32     line,
                            double      cost,
                            const char *note);

G_END_DECLS
