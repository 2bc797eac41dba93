/* cro-service-lists.h: what a service makes, in its order, and what it buys, supplier by supplier. */
#pragma once

#include "cro-bench.h"
#include "cro-service-plan.h"

G_BEGIN_DECLS

#define CRO_TYPE_SERVICE_LISTS (cro_service_lists_get_type ())
G_DECLARE_FINAL_TYPE (CroServiceLists, cro_service_lists, CRO, SERVICE_LISTS, GtkWidget)

/* bench is borrowed: it holds the view. */
GtkWidget *cro_service_lists_new (CroBench             *bench);

/* plan is read, not kept; NULL: nothing is planned. */
void       cro_service_lists_set (CroServiceLists      *self,
                                  const CroServicePlan *plan);

G_END_DECLS
