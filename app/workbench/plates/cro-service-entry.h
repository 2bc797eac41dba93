/* cro-service-entry.h: what is entered for a service: covers of plates and menus, and what is in the
 * house already.
 *
 * Signals    "moved": what was entered, or is being typed, is another. */
#pragma once

#include "cro-bench.h"
#include "cro-service.h"

G_BEGIN_DECLS

#define CRO_TYPE_SERVICE_ENTRY (cro_service_entry_get_type ())
G_DECLARE_FINAL_TYPE (CroServiceEntry, cro_service_entry, CRO, SERVICE_ENTRY, GtkWidget)

/* bench is borrowed: it holds the view. */
GtkWidget        *cro_service_entry_new     (CroBench        *bench);

/* Another service, or another book. */
void              cro_service_entry_put     (CroServiceEntry *self,
                                             CroDate          day,
                                             const char      *name);

/* The book moved. */
void              cro_service_entry_refresh (CroServiceEntry *self);

/* The service with what is typed and not kept. Borrowed, until the next of these calls. */
const CroService *cro_service_entry_get     (CroServiceEntry *self);

G_END_DECLS
