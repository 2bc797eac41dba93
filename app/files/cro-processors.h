/* cro-processors.h: how many processors this program may have at once, 1 at least.
 *
 * GLib may count all of the machine, although the program is bound to some of them. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

guint cro_processors (void);

G_END_DECLS
