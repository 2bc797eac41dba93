/* cro-copy.h: the newest whole copy of a book that is damaged. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  char *path;
  char *day;      /* local day of the last act in it, YYYY-MM-DD; NULL: it has none */
} CroCopy;

/* Looks in the book's folder at what is named as this program names copies (NAME-before-vN.croustade),
 * or as people do (NAME.croustade.bak), and at every book whose history begins with the same act.
 * Each is verified, the one with the latest act first, until one is whole. NULL: there is none. */
CroCopy *cro_copy_find_newest (const char *path);

void     cro_copy_free        (CroCopy    *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroCopy, cro_copy_free)

G_END_DECLS
