/* cro-add.h: a folder of tables that changes a book and adds to it, and removes nothing.
 *
 * Errors     CRO_LOAD_ERROR, CRO_STORE_ERROR or G_FILE_ERROR; then nothing was changed. */
#pragma once

#include "cro-load.h"
#include "cro-table.h"

G_BEGIN_DECLS

/* A row of the folder of which the book has an equal one. */
typedef struct
{
  CroTableId id;
  guint      line;
} CroPassedOver;

typedef struct
{
  GPtrArray *changes;       /* CroTableChange: what moved, or would move */
  GArray    *passed_over;   /* CroPassedOver: rows that the book has already */
} CroAdded;

void      cro_added_free   (CroAdded       *added);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroAdded, cro_added_free)

typedef enum
{
  CRO_ADD_DRY_RUN = 1 << 0, /* says what would change, and changes nothing */
  CRO_ADD_AGAIN = 1 << 1,   /* adds rows of sales, counts, … though the book has equal ones */
} CroAddFlags;

/* Rows are changed and added by their keys in one act, with that label. A column that the folder
 * lacks keeps what is there, an empty cell clears it. NULL on failure. go_on may be NULL. */
CroAdded *cro_add          (const char     *path,
                            const char     *folder,
                            const char     *desk,
                            const char     *label,
                            CroAddFlags     flags,
                            CroLoadGoOn     go_on,
                            gpointer        user_data,
                            CroFaults      *faults,
                            GError        **error);

G_END_DECLS
