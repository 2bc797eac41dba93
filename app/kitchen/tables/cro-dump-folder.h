/* cro-dump-folder.h: a folder of tables that takes its place when all of them are written.
 *
 * The tables are written into a hidden folder: beside one that is not there yet, which then gets
 * its name, and within one that is, from which they move up. While they move the folder is marked
 * as unfinished, so that nobody takes old tables and new ones for a book. What a killed program
 * left behind is removed by the next that writes there.
 *
 * Errors     G_FILE_ERROR; CRO_LOAD_ERROR: CANCELLED, OTHERS, HOLDS, NOT_A_TABLE. */
#pragma once

#include "cro-load.h"
#include "cro-table.h"

G_BEGIN_DECLS

typedef struct _CroDumpFolder CroDumpFolder;

typedef enum
{
  CRO_DUMP_FOLDER_OF_TABLES,  /* or an empty one: tables that stand there are written over */
  CRO_DUMP_FOLDER_EMPTY,      /* hidden files do not count */
} CroDumpFolderKind;

/* kind is what a folder that is there has to be. Folders above it are made. go_on is asked before each
 * table and at the end, and may be NULL. */
CroDumpFolder *cro_dump_folder_new      (const char     *folder,
                                         CroDumpFolderKind kind,
                                         CroLoadGoOn     go_on,
                                         gpointer        user_data,
                                         GError        **error);

/* Removes what is unfinished; what stood there before stands there still. */
void           cro_dump_folder_free     (CroDumpFolder  *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroDumpFolder, cro_dump_folder_free)

/* Writes a table of n rows, whose fields stand one after the other; of one that is seldom (cro-table.h) no file
 * where it has none. */
gboolean       cro_dump_folder_write    (CroDumpFolder   *self,
                                         CroTableId       id,
                                         const CroField  *fields,
                                         guint            n,
                                         GError         **error);

/* A picture into the folder "pictures" beside the tables, where another of its name is as good. name is
 * one of a file without a folder. */
gboolean       cro_dump_folder_picture  (CroDumpFolder   *self,
                                         const char      *name,
                                         GBytes          *data,
                                         GError         **error);

gboolean       cro_dump_folder_finish   (CroDumpFolder  *self,
                                         GError        **error);

/* Whether a dump into the folder was cut short, so that its tables are of no one book. */
gboolean       cro_dump_folder_is_unfinished (const char *folder);

G_END_DECLS
