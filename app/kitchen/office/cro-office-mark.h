/* cro-office-mark.h: what stands beside a number of a spreadsheet that rests on something missing. */
#pragma once

#include "cro-known.h"

G_BEGIN_DECLS

/* Borrowed; NULL: it is all known. */
const char *cro_office_mark (CroKnown known);

G_END_DECLS
