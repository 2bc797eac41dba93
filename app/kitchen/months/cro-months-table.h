/* cro-months-table.h: months side by side: how each stands, and what it came to. */
#pragma once

#include "cro-month-table.h"
#include "cro-month.h"

G_BEGIN_DECLS

/* Nothing but stock was counted in it. */
gboolean       cro_month_is_count_only (const CroMonth *month);

/* "count only". Borrowed. */
const char    *cro_months_count_only  (void);

/* "open", "open, with late documents", "closed", "closed, documents came since", "closed, altered since",
 * "open, altered since"; "not begun"; "count only" of one in which nothing but stock was counted. Borrowed. */
const char    *cro_month_state_words  (const CroMonth  *month);

/* "3 questions"; NULL: none. Owned. */
char          *cro_month_asks_words   (const CroMonth  *month);

/* months: const CroMonth *, NULL where one is not reckoned yet; firsts: CroDate, of each. A row's line is
 * its index in them. Columns: month, state, net sales, theoretical and actual food cost, over, that in per
 * cent of net sales, questions. */
CroMonthTable *cro_months_table_new   (GArray          *firsts,
                                       GPtrArray       *months);

/* What they came to together; where some have no actual cost, what the others did, too. Of one currency, none of them
 * NULL. */
void           cro_months_table_add_total (CroMonthTable *self,
                                       GPtrArray       *months);

/* Of each year of which there are several months, all of them reckoned and in one currency, what they came to
 * together, as above. firsts: the newest first. */
void           cro_months_table_add_years (CroMonthTable *self,
                                       GArray        *firsts,
                                       GPtrArray     *months);

G_END_DECLS
