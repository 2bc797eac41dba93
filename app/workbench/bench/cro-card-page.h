/* cro-card-page.h: cards of some things, as they will be printed: which kind, for how many bites, on
 * what paper; to a printer, a PDF or a folder of them. Ctrl+P prints. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_CARD_PAGE (cro_card_page_get_type ())
G_DECLARE_FINAL_TYPE (CroCardPage, cro_card_page, CRO, CARD_PAGE, GtkWidget)

/* The things of which there are cards: CroRef, new every time. Owned by the caller. */
typedef GArray *(*CroCardThings) (CroBench *bench);

/* The bench says what failed, and outlives the page. */
GtkWidget *cro_card_page_new     (CroBench      *bench,
                                  CroCardThings  things);

/* Figures moved, or it came into sight. */
void       cro_card_page_refresh (GtkWidget     *page);

G_END_DECLS
