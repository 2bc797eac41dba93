/* cro-said-columns.h: what somebody said that the columns of a supplier's sheets hold, as one text: a line
 * a column, of what it holds, its place and its heading, with tabs between them. A column is known again
 * by its heading, one without a heading by its place. Headings that nobody knows stand in the first row.
 *
 *   price	4	Prix net
 *   none	5	Remise %
 *
 * Ownership  Texts that are returned are the caller's. */
#pragma once

#include "cro-brought.h"

G_BEGIN_DECLS

/* As the sheet's columns are now. */
char     *cro_said_columns_of    (const CroBrought *brought);

/* FALSE: nothing was said of columns such as these, and they stay what they seem to be. NULL says nothing. */
gboolean  cro_said_columns_apply (const char       *said,
                                  CroBrought       *brought);

G_END_DECLS
