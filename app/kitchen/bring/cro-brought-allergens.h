/* cro-brought-allergens.h: allergens as a sheet writes them, in English and in French whatever the locale:
 * "milk; egg", "lait, œufs", "none". */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* A mask of the groups of cro-allergen.h, 0 where the text says that there is none. FALSE: a part of it is not
 * understood, and nothing is to be stated of it. */
gboolean cro_brought_allergens (const char *text,
                                guint32    *groups);

G_END_DECLS
