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
} CroLoadErrorCode;

GQuark   cro_load_error_quark (void);

/* Makes the book if path does not exist. With replace the book's tables become those of the
 * folder in one act: rows keep their identity, and so their history, by their keys. label is
 * that of the act. */
gboolean cro_load             (const char     *path,
                               const char     *folder,
                               const char     *desk,
                               const char     *label,
                               gboolean        replace,
                               CroFaults      *faults,
                               GError        **error);

G_END_DECLS
