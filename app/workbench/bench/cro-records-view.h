/* cro-records-view.h: rows that the book holds, in columns: searched, sorted by their headings,
 * and added up where that says something.
 *
 * Down or Enter leads from what is looked for to the rows. Enter on a row opens what it is about.
 * Where that is nothing of the book, the action "row.open" of the widgets around is activated, if
 * they have it. */
#pragma once

#include "cro-bench.h"
#include "cro-records.h"

G_BEGIN_DECLS

#define CRO_TYPE_RECORDS_VIEW (cro_records_view_get_type ())
G_DECLARE_FINAL_TYPE (CroRecordsView, cro_records_view, CRO, RECORDS_VIEW, GtkWidget)

/* bench is borrowed: it holds the view. open says what the button does that opens a row: "Open
 * Ingredient"; NULL: there is none. */
GtkWidget  *cro_records_view_new         (CroBench       *bench,
                                          CroRecordsKind  kind,
                                          const char     *open);

/* Reads the bench's book; after it got another one. */
void        cro_records_view_set_book    (CroRecordsView *self,
                                          CroBook        *book);

/* Its rows; NULL before anybody looked at them. Borrowed. */
CroRecords *cro_records_view_get_records (CroRecordsView *self);

/* The row that is selected, or NULL. Owned. */
CroRecord  *cro_records_view_dup_selected (CroRecordsView *self);

/* Selects the row of a record, if it is shown. */
void        cro_records_view_select      (CroRecordsView *self,
                                          CroRecord      *record);

/* What adjustments are in money (cro_records_set_worths). Taken. */
void        cro_records_view_set_worths  (CroRecordsView *self,
                                          GHashTable     *worths);

/* A row was entered: it is selected and brought into sight, now or once the book has told of it. */
void        cro_records_view_await_newest (CroRecordsView *self);

/* Calls selected (user_data) whenever another row is selected. */
void        cro_records_view_connect_selected (CroRecordsView *self,
                                          GCallback       selected,
                                          gpointer        user_data);

/* Rows of one month, "2026-11"; NULL: of all. */
void        cro_records_view_set_month   (CroRecordsView *self,
                                          const char     *month);

/* Those rows alone that pass. */
void        cro_records_view_set_filter  (CroRecordsView *self,
                                          const CroRecordsFilter *filter);

/* Whether rows can be looked for; few need not be. */
void        cro_records_view_set_searched (CroRecordsView *self,
                                          gboolean        is_searched);

/* Calls changed (user_data) after rows were read or chosen anew. */
void        cro_records_view_connect_rows (CroRecordsView *self,
                                          GCallback       changed,
                                          gpointer        user_data);

/* As if its heading had been pressed; the first row is selected and in sight. */
void        cro_records_view_sort        (CroRecordsView *self,
                                          guint           column,
                                          gboolean        falling);

/* What is looked for. */
void        cro_records_view_set_search  (CroRecordsView *self,
                                          const char     *text);

/* Every row is opened by the action "row.open", also one that is about something of the book. */
void        cro_records_view_give_rows   (CroRecordsView *self);

/* A digit or a sign that is typed on a row goes on in this entry, as a letter does in what is
 * looked for. */
void        cro_records_view_set_typed_into (CroRecordsView *self,
                                          GtkWidget      *entry);

/* The focus goes to the row that is selected. */
void        cro_records_view_focus_rows  (CroRecordsView *self);

G_END_DECLS
