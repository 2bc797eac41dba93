/* cro-overview-table.h: the table of an overview: what it is narrowed by above, what it comes to
 * below. Few rows have neither filters nor a search. */
#pragma once

#include "cro-overview.h"
#include "cro-records.h"

G_BEGIN_DECLS

/* The view "Costs", the first of an overview. kind: CRO_RECORDS_PLATES, _PREPARATIONS or
 * _INGREDIENTS. For init. */
void cro_overview_table_add (CroOverview    *overview,
                             CroRecordsKind  kind);

/* What its search and filters leave, as it stands there: CroRef. NULL: nothing is narrowed, or the overview
 * has no table. Owned by the caller. */
GArray *cro_overview_table_dup_chosen (CroBench *overview);

G_END_DECLS
