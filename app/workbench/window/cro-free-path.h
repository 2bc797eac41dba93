/* cro-free-path.h: where something of a person's can be made, as nothing is there. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* In the person's folder of documents: NAME, or the first of NAME 2, NAME 3, …, with the ending.
 * Owned. */
char *cro_free_path_dup (const char *name,
                         const char *ending);

G_END_DECLS
