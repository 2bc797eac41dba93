/* cro-month-frozen.h: the words of table month_rows that closing writes and reading takes. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* In the order of CroKnown; NULL-terminated. */
extern const char *const cro_month_known_codes[];

/* Columns of month_row in the store, without id and month. */
extern const char *const cro_month_row_columns[];

/* In the note of a thing sold. */
#define CRO_MONTH_LACKS_REVENUE "no-revenue"
/* Before how much is known of that, behind it, of what is no lower bound. */
#define CRO_MONTH_REVENUE_IS "="
#define CRO_MONTH_INCOMPLETE "incomplete"
#define CRO_MONTH_HAS_CREDIT "credit"

/* In the note of the closing stock, in place of how much is known of it. */
#define CRO_MONTH_ENTERED "entered"

G_END_DECLS
