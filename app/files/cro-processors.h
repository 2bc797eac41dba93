/* cro-processors.h: the processors that this program may have at once. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Bytes of memory that one processor takes from another at a time. What a thread writes again and
 * again begins on a line of its own, or each value goes to and fro with what lies beside it. */
#define CRO_CACHE_LINE 64

/* 1 at least. GLib may count all of the machine, although the program is bound to some of them. */
guint cro_processors (void);

G_END_DECLS
