/* cro-name-filter.h: a drop-down that narrows a table to one name, or to none: "Any course". */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_NAME_FILTER (cro_name_filter_get_type ())
G_DECLARE_FINAL_TYPE (CroNameFilter, cro_name_filter, CRO, NAME_FILTER, GtkWidget)

/* Signal "changed" when another one is chosen, or the chosen one is no more. */

/* any: what stands there while none is chosen; name: the accessible name. */
GtkWidget  *cro_name_filter_new       (const char         *any,
                                       const char         *name);

/* What there is to choose; without a name the filter is hidden. What was chosen stays so if it is
 * among them. keys: [n] what the caller knows them by, or NULL. */
void        cro_name_filter_set_names (CroNameFilter      *self,
                                       const char *const  *names,
                                       const guint32      *keys,
                                       guint               n);

/* The name that is chosen, until the next call of cro_name_filter_set_names; NULL: none. */
const char *cro_name_filter_get       (CroNameFilter      *self);

/* Its key, or none where no name is chosen. */
guint32     cro_name_filter_get_key   (CroNameFilter      *self,
                                       guint32             none);

void        cro_name_filter_reset     (CroNameFilter      *self);

G_END_DECLS
