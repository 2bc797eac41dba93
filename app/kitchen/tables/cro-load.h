/* cro-load.h: a folder of tables into a book, all or nothing.
 *
 * Errors     CRO_LOAD_ERROR, CRO_STORE_ERROR or G_FILE_ERROR; then nothing was changed. */
#pragma once

#include <glib.h>

#include "cro-fault.h"
#include "cro-store.h"

G_BEGIN_DECLS

#define CRO_LOAD_ERROR (cro_load_error_quark ())

typedef enum
{
  CRO_LOAD_ERROR_FAULTS,      /* the list of faults says what is wrong */
  CRO_LOAD_ERROR_NOT_EMPTY,   /* the book holds something, and replace was not asked for */
  CRO_LOAD_ERROR_CANCELLED,
  CRO_LOAD_ERROR_UNFINISHED,  /* a dump into the folder was cut short */
  CRO_LOAD_ERROR_OTHERS,      /* dump: the folder holds other things, and no table */
  CRO_LOAD_ERROR_HOLDS,       /* salvage: the folder holds something */
  CRO_LOAD_ERROR_NOT_A_TABLE, /* dump: what has the name of a table is no file; the message is its name */
} CroLoadErrorCode;

GQuark   cro_load_error_quark (void);

/* Whether there is such a folder, and a dump into it was not cut short. */
gboolean cro_load_check_folder (const char   *folder,
                                GError      **error);

/* Asked now and then with the part that is done, from 0 to 1; FALSE cancels. */
typedef gboolean (*CroLoadGoOn) (gpointer user_data,
                                 double   done);

/* Makes the book if path does not exist. With replace the book's tables become those of the
 * folder in one act: rows keep their identity, and so their history, by their keys. label is
 * that of the act. go_on may be NULL. */
gboolean cro_load             (const char     *path,
                               const char     *folder,
                               const char     *desk,
                               const char     *label,
                               gboolean        replace,
                               CroLoadGoOn     go_on,
                               gpointer        user_data,
                               CroFaults      *faults,
                               GError        **error);

G_END_DECLS
