/* cro-allergens-page.h: what plates contain, as it was entered, and which of them a guest can be told what
 * about; the cell under the focus as a sentence, and cautions that never leave the screen. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_ALLERGENS_PAGE (cro_allergens_page_get_type ())
G_DECLARE_FINAL_TYPE (CroAllergensPage, cro_allergens_page, CRO, ALLERGENS_PAGE, GtkWidget)

/* bench is borrowed: it holds the page. */
GtkWidget *cro_allergens_page_new      (CroBench  *bench);

/* For the overview. */
void       cro_allergens_page_set_book (GtkWidget *page,
                                        CroBook   *book);
void       cro_allergens_page_refresh  (GtkWidget *page);

G_END_DECLS
