/* cro-row-date.h: dates as rows of the book and other texts hold them, YYYY-MM-DD. */
#pragma once

#include "cro-date.h"
#include "cro-store.h"

G_BEGIN_DECLS

/* CRO_NO_DAY where the text is NULL or no date. */
CroDate cro_text_to_date (const char *text);

/* The same of a column. */
CroDate cro_row_date     (CroRows    *rows,
                          int         column);

G_END_DECLS
