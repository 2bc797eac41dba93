/* cro-defined-name.h: names of cells, made of the names of what they hold.
 *
 * Letters and digits of any script stay, a space becomes an underscore. Where that loses
 * something ("Ewe's cheese"), a mark reckoned from the whole name is added, so that the result
 * depends on this name alone: the same next month, whatever else the book then holds. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* "prefix_Crab_croustade", at most 120 bytes. Owned. */
char *cro_defined_name_make (const char *prefix,
                             const char *name);

/* The same with the mark in any case: for a name that differs from another by case alone, as
 * programs take these for one. Owned. */
char *cro_defined_name_mark (const char *prefix,
                             const char *name);

G_END_DECLS
