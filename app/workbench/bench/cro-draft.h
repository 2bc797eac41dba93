/* cro-draft.h: texts that were typed and are not in the book yet: fields being edited or with a
 * wrong entry, the next line, a pack or a test half entered.
 *
 * A text is found again by its field: that of a row by its table, row and column, any other by
 * its number among those that belong to no row. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* What the keys begin with under which the texts of a row are remembered (cro-state.h). Owned. */
char       *cro_draft_dup_prefix (const char *table,
                                  gint64      id);

/* Field → text, of all that stands at or below root; what popovers hold goes with them. Owned. */
GHashTable *cro_draft_list (GtkWidget  *root);

/* Types them again where their fields still are, as a person would; the focus stays. */
void        cro_draft_put  (GtkWidget  *root,
                            GHashTable *texts);

G_END_DECLS
