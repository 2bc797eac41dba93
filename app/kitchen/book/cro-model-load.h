/* cro-model-load.h: whole tables read into a model that does not yet know them. */
#pragma once

#include "cro-model-rows.h"

G_BEGIN_DECLS

/* Reads every table; what the rows of one name was loaded before. Lines, of which there are most, are
 * read by two threads where that pays, into the same slots as by one. */
gboolean cro_model_load_tables (CroModel  *self,
                                CroStore  *store,
                                GError   **error);

G_END_DECLS
