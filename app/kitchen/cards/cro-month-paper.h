/* cro-month-paper.h: a month on paper: its statement, why it changed, its matrix.
 *
 * A closed month's paper holds nothing of the day on which it is printed. */
#pragma once

#include "cro-book.h"
#include "cro-month-bridge.h"
#include "cro-month.h"
#include "cro-paper.h"

G_BEGIN_DECLS

/* Beside another month, which may be NULL. */
CroPaper *cro_month_paper_new        (CroBook              *book,
                                      const CroMonth       *month,
                                      const CroMonth       *other,
                                      gboolean              is_rtl);

CroPaper *cro_month_bridge_paper_new (CroBook              *book,
                                      const CroMonthBridge *bridge,
                                      gboolean              is_rtl);

CroPaper *cro_month_matrix_paper_new (CroBook              *book,
                                      const CroMonth       *month,
                                      gboolean              is_rtl);

/* A PDF for the paper of the book's currency. What stood at path stands there on failure. */
gboolean  cro_month_paper_write      (CroBook              *book,
                                      CroPaper             *paper,
                                      const char           *path,
                                      GError              **error);

G_END_DECLS
