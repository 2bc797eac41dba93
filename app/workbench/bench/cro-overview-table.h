/* cro-overview-table.h: the table of an overview: what it is narrowed by above, what it comes to
 * below. Few rows have neither filters nor a search. */
#pragma once

#include "cro-overview.h"
#include "cro-records-view.h"

G_BEGIN_DECLS

#define CRO_TYPE_OVERVIEW_TABLE (cro_overview_table_get_type ())
G_DECLARE_FINAL_TYPE (CroOverviewTable, cro_overview_table, CRO, OVERVIEW_TABLE, GtkWidget)

/* kind: CRO_RECORDS_PLATES, _PREPARATIONS or _INGREDIENTS. bench is borrowed: it holds the table. */
GtkWidget      *cro_overview_table_new      (CroBench         *bench,
                                             CroRecordsKind    kind);

/* As CroOverviewView has them. */
void            cro_overview_table_set_book (GtkWidget        *table,
                                             CroBook          *book);
void            cro_overview_table_refresh  (GtkWidget        *table);

CroRecordsView *cro_overview_table_get_view (CroOverviewTable *self);

G_END_DECLS
