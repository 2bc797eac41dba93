/* cro-service-page.h: a service: covers and what is in the house, what to make and to buy for them,
 * and its sheets: printed, as a spreadsheet, copied for a message.
 *
 * The plan is made once keys are over, from what is kept and what is being typed. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_SERVICE_PAGE (cro_service_page_get_type ())
G_DECLARE_FINAL_TYPE (CroServicePage, cro_service_page, CRO, SERVICE_PAGE, GtkWidget)

/* bench is borrowed: it holds the page. */
GtkWidget *cro_service_page_new      (CroBench       *bench);

/* For the views of an overview. */
void       cro_service_page_set_book (GtkWidget      *page,
                                      CroBook        *book);
void       cro_service_page_refresh  (GtkWidget      *page);

G_END_DECLS
