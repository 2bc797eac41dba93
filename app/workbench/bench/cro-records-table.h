/* cro-records-table.h: the rows of records in columns, between headings and totals, which stay.
 *
 * The selection keeps to its row wherever that goes.
 *
 * Signals    "sorted" (guint column, gboolean falling): a heading was pressed; "row-activated"
 *            (guint position). */
#pragma once

#include <gtk/gtk.h>

#include "cro-records.h"

G_BEGIN_DECLS

#define CRO_TYPE_RECORDS_TABLE (cro_records_table_get_type ())
G_DECLARE_FINAL_TYPE (CroRecordsTable, cro_records_table, CRO, RECORDS_TABLE, GtkWidget)

/* empty: what stands in place of rows where there are none, shown by whoever made it. */
GtkWidget *cro_records_table_new          (CroRecordsKind   kind,
                                           GtkWidget       *empty);

/* The rows that it shows, with its columns measured anew; NULL: none. */
void       cro_records_table_set_records  (CroRecordsTable *self,
                                           CroRecords      *records);

/* Whether it has rows to show, be they none. */
gboolean   cro_records_table_has_records  (CroRecordsTable *self);

/* Whether it has headings; over nothing they say nothing. */
void       cro_records_table_set_headed   (CroRecordsTable *self,
                                           gboolean         is_headed);

/* The list itself, for keys of whoever holds the table. Borrowed. */
GtkWidget *cro_records_table_get_list     (CroRecordsTable *self);

/* Whose "notify::selected-item" tells that another row is selected. Borrowed. */
GtkSingleSelection *cro_records_table_get_selection (CroRecordsTable *self);

/* Selects the row of a record, if it is shown. */
void       cro_records_table_select       (CroRecordsTable *self,
                                           CroRecord       *record);

/* The row that was selected is looked for no more. */
void       cro_records_table_select_first (CroRecordsTable *self);

/* As if the heading had been pressed; G_MAXUINT: sorted by none. */
void       cro_records_table_sort         (CroRecordsTable *self,
                                           guint            column,
                                           gboolean         falling);

/* A column in which all rows are alike: the first to be left out. */
void       cro_records_table_spare        (CroRecordsTable *self,
                                           guint            column);

void       cro_records_table_show_first   (CroRecordsTable *self);

G_END_DECLS
