/* cro-unfinished.h: a file in the making, beside the place that it will take.
 *
 * Its name is hidden and says whose it is. As long as its maker lives it is locked, so what a
 * killed program left is known for certain, and removed by whoever makes the next one there.
 *
 * Errors     G_FILE_ERROR. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct _CroUnfinished CroUnfinished;

/* An empty file in the folder. */
CroUnfinished *cro_unfinished_new      (const char     *folder,
                                        GError        **error);

/* Removes it, and what a database may have beside it, unless it took its place. */
void           cro_unfinished_free     (CroUnfinished  *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroUnfinished, cro_unfinished_free)

/* Where to write. Borrowed. */
const char    *cro_unfinished_get_path (CroUnfinished  *self);

/* Gives it the permissions of a mode. */
void           cro_unfinished_set_mode (CroUnfinished  *self,
                                        guint           mode);

/* Brings it to disk and to path, which is in the same folder, in place of what stands there. */
gboolean       cro_unfinished_replace  (CroUnfinished  *self,
                                        const char     *path,
                                        GError        **error);

/* The same, but never in place of anything: EXIST. */
gboolean       cro_unfinished_place    (CroUnfinished  *self,
                                        const char     *path,
                                        GError        **error);

G_END_DECLS
