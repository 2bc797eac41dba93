/* cro-stored-row.h: a row as it stands in the store as one of a table.
 *
 * A file may hold anything: what no book can hold is named by its column, and how a row is left out,
 * or its whole book refused, is its caller's. Rows come in the order of cro_sheet_maps, so that what
 * a row names was met before it; what was not met is not there.
 *
 * Ownership  Texts of fields live as long as the CroStoredNames. */
#pragma once

#include "cro-sheet-map.h"
#include "cro-store.h"

G_BEGIN_DECLS

/* A value of a column. FALSE: it is none that a book can hold. text stays the cell's. */
gboolean cro_stored_field (const CroColumn *column,
                           const CroCell   *cell,
                           CroField        *field);

/* What the ids of the rows met so far stand for. */
typedef struct _CroStoredNames CroStoredNames;

CroStoredNames *cro_stored_names_new  (void);
void            cro_stored_names_free (CroStoredNames *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroStoredNames, cro_stored_names_free)

/* The tables of the store that hold names alone and lend their ids; NULL-terminated. */
extern const char *const cro_stored_bases[];

/* A row of the base'th of them. */
void            cro_stored_names_lend (CroStoredNames *self,
                                       guint           base,
                                       gint64          id,
                                       const char     *name);

/* The columns of the store that a row of map is made of, after its id; ended by NULL. */
void            cro_stored_columns    (const CroSheetMap *map,
                                       const char        *columns[CRO_MAP_MOST + 1]);

/* The column of the table that a column of the store is told of as: of a price, which names its offer
 * by three, the first. */
guint           cro_stored_told_column (const CroSheetMap  *map,
                                        const CroMapColumn *column);

/* Fills a table's fields from the cells of those columns. Bits of the columns of the table that are
 * faulty or lack what they need: these are not set. *strangers: those among them that name what is not
 * there; may be NULL. */
guint32         cro_stored_row_fill   (CroStoredNames    *self,
                                       const CroSheetMap *map,
                                       gint64             id,
                                       const CroCell     *cells,
                                       CroField          *fields,
                                       guint32           *strangers);

/* FALSE: a till's name of what is there no more, as when undo took back what it is of. It says nothing,
 * and no table can hold it. */
gboolean        cro_stored_row_stands (CroStoredNames    *self,
                                       const CroSheetMap *map,
                                       const CroField    *fields);

/* From now on other rows may name it. */
void            cro_stored_row_meet   (CroStoredNames    *self,
                                       const CroSheetMap *map,
                                       gint64             id,
                                       const CroField    *fields);

/* A setting of the book as a row of book.csv. FALSE: it is none that a book can hold. */
gboolean        cro_stored_setting    (CroStoredNames    *self,
                                       CroBookKey         key,
                                       const CroCell     *cell,
                                       CroField          *fields);

/* Sorts n rows by key; where there is none, or it is equal, by all columns. */
void            cro_stored_rows_sort  (const CroTable    *table,
                                       CroField          *rows,
                                       guint              n);

G_END_DECLS
