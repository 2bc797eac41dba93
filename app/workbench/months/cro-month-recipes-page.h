/* cro-month-recipes-page.h: the day whose recipes a month is costed by.
 *
 * Signals    "done": another day was chosen; the page takes the place again. */
#pragma once

#include "cro-bench.h"
#include "cro-month.h"

G_BEGIN_DECLS

#define CRO_TYPE_MONTH_RECIPES_PAGE (cro_month_recipes_page_get_type ())
G_DECLARE_FINAL_TYPE (CroMonthRecipesPage, cro_month_recipes_page, CRO, MONTH_RECIPES_PAGE, GtkWidget)

/* bench is borrowed: it holds the page. */
GtkWidget *cro_month_recipes_page_new (CroBench       *bench,
                                       const CroMonth *month);

G_END_DECLS
