/* cro-path.h: where a path leads. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* The absolute path of what path names, or of where it would be made: symbolic links are followed,
 * of what is not there yet those of its folder. It begins with a slash, whatever a library may see
 * in the beginning of a name. NULL for the empty path, which names nothing. */
char *cro_path_dup_real (const char *path);

G_END_DECLS
