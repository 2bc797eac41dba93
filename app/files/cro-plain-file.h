/* cro-plain-file.h: opening what is an ordinary file, and nothing that could keep one waiting.
 *
 * Errors     G_FILE_ERROR: ISDIR for a folder, INVAL for a pipe, a socket or a device. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Opens it for reading; the caller closes it. -1 on failure. */
int cro_plain_file_open (const char  *path,
                         GError     **error);

/* Its first bytes, no more than most. NULL on failure. */
GBytes *cro_plain_file_read (const char  *path,
                             gsize        most,
                             GError     **error);

G_END_DECLS
