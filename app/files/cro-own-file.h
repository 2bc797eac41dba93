/* cro-own-file.h: a file that this process made, and may take back: what somebody else has put in
 * its place meanwhile stays. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  guint64 device;
  guint64 inode;    /* 0: none was there */
} CroOwnFile;

/* The file at path, as it was just made. */
CroOwnFile cro_own_file_note   (const char        *path);

/* Removes it, and a database's logs beside it, if it is still what stands at path; whether it was. */
gboolean   cro_own_file_remove (const CroOwnFile  *self,
                                const char        *path);

G_END_DECLS
