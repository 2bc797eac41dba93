/* cro-dump-folder.h: a folder of tables that takes its place when all of them are written.
 *
 * The tables are written into a hidden folder: beside one that is not there yet, which then gets
 * its name, and within one that is, from which they move up. While they move the folder is marked
 * as unfinished, so that nobody takes old tables and new ones for a book. What a killed program
 * left behind is removed by the next that writes there.
 *
 * Errors     G_FILE_ERROR. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct _CroDumpFolder CroDumpFolder;

/* Folders above it are made. */
CroDumpFolder *cro_dump_folder_new      (const char     *folder,
                                         GError        **error);

/* Removes what is unfinished; what stood there before stands there still. */
void           cro_dump_folder_free     (CroDumpFolder  *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroDumpFolder, cro_dump_folder_free)

/* Where to write. Borrowed. */
const char    *cro_dump_folder_get_path (CroDumpFolder  *self);

gboolean       cro_dump_folder_finish   (CroDumpFolder  *self,
                                         GError        **error);

/* Whether a dump into the folder was cut short, so that its tables are of no one book. */
gboolean       cro_dump_folder_is_unfinished (const char *folder);

G_END_DECLS
