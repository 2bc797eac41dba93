/* cro-salvage.h: what can be read of a damaged book into a folder of tables.
 *
 * As cro_dump, over whatever is faulty: a row whose key or a needed value cannot be read is left out,
 * and so is what names such a row; another value that cannot be read is left empty. Each is told.
 *
 * Errors     CRO_STORE_ERROR (DAMAGED: nothing of it can be read), G_FILE_ERROR or
 *            CRO_LOAD_ERROR_CANCELLED; then the folder is as it was. */
#pragma once

#include "cro-load.h"
#include "cro-table.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_LEFT_OUT_VALUE,     /* column is left empty: what stands there is nothing a book can hold */
  CRO_LEFT_OUT_ROW,       /* the row, as column holds no such thing, or not what is needed */
  CRO_LEFT_OUT_STRANGER,  /* the row, as column names what is not there, or was left out */
  CRO_LEFT_OUT_TWICE,     /* the row, as another has its key or name */
  CRO_LEFT_OUT_GAP,       /* rows from the id row to the id last, if there were any */
  CRO_LEFT_OUT_TABLE,     /* all of the table: it is not there */
} CroLeftOutKind;

typedef struct
{
  CroLeftOutKind   kind;
  CroTableId       table;
  const CroColumn *column;  /* NULL: of the whole row */
  gint64           row;     /* ids, of a gap from 1; G_MAXINT64: nobody knows to which */
  gint64           last;
  char            *name;    /* what is known of the row's key; NULL: nothing */
} CroLeftOut;

typedef struct
{
  guint      n_rows[CRO_N_TABLES];  /* written */
  GPtrArray *left_out;              /* CroLeftOut, table by table */
  CroFaults *faults;                /* what keeps the folder from loading as it is: what is left of a
                                       recipe need not be one */
} CroSalvage;

/* The folder is made if it is not there; one that is has to be empty, as what is saved of a damaged
 * book must not take the place of what somebody kept. go_on may be NULL. NULL with error. */
CroSalvage *cro_salvage      (const char   *path,
                              const char   *folder,
                              CroLoadGoOn   go_on,
                              gpointer      user_data,
                              GError      **error);
void        cro_salvage_free (CroSalvage   *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroSalvage, cro_salvage_free)

G_END_DECLS
