/* cro-total.h: what people write before a sum, in English and in French, whatever the locale.
 *
 * Source     The words are common practice, no source. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Whether a text, folded as by cro_fold (), says that a sum follows. */
gboolean cro_says_total (const char *folded);

G_END_DECLS
