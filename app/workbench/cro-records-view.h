/* cro-records-view.h: rows that the book holds, in columns, searched and sorted. */
#pragma once

#include "cro-bench.h"
#include "cro-records.h"

G_BEGIN_DECLS

#define CRO_TYPE_RECORDS_VIEW (cro_records_view_get_type ())
G_DECLARE_FINAL_TYPE (CroRecordsView, cro_records_view, CRO, RECORDS_VIEW, GtkWidget)

/* Enter on a row opens what it is about. bench is borrowed: it holds the view. */
GtkWidget  *cro_records_view_new         (CroBench       *bench,
                                          CroRecordsKind  kind);

/* Reads the bench's book; after it got another one. */
void        cro_records_view_set_book    (CroRecordsView *self,
                                          CroBook        *book);

/* Its rows; NULL without a book. Borrowed. */
CroRecords *cro_records_view_get_records (CroRecordsView *self);

/* The row that is selected, or NULL. Owned. */
CroRecord  *cro_records_view_dup_selected (CroRecordsView *self);

/* Calls selected (user_data) whenever another row is selected. */
void        cro_records_view_connect_selected (CroRecordsView *self,
                                          GCallback       selected,
                                          gpointer        user_data);

/* Where more controls of the same row are put. */
GtkBox     *cro_records_view_get_head    (CroRecordsView *self);

G_END_DECLS
