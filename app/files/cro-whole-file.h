/* cro-whole-file.h: a file that is written beside its place and takes it when it is whole.
 *
 * A symbolic link is followed; the mode of what stood there is kept. Until it is finished what
 * stood there stands there, and if it never is, nothing is left beside it.
 *
 * Errors     G_FILE_ERROR, CRO_WHOLE_FILE_ERROR. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct _CroWholeFile CroWholeFile;

#define CRO_WHOLE_FILE_ERROR (cro_whole_file_error_quark ())

typedef enum
{
  CRO_WHOLE_FILE_ERROR_DATABASE,      /* a database stands there */
  CRO_WHOLE_FILE_ERROR_PROGRAM,       /* a program or a script does */
} CroWholeFileErrorCode;

GQuark        cro_whole_file_error_quark (void);

/* Whether an SQLite database stands at path, as every book is one (SQLite, Database File Format, 1.3), or path is where
 * one that stands beside it keeps its logs (the same, 4; "Temporary Files Used By SQLite"). */
gboolean      cro_whole_file_is_database (const char *path);

/* Whether a program or a script stands there, by its first bytes (ELF; POSIX, execvp: "#!"), whatever its mode: some
 * disks call every file executable. */
gboolean      cro_whole_file_is_program (const char *path);

/* ACCES where what stands there, or its folder, may not be written. Never in place of a database or a program. */
CroWholeFile *cro_whole_file_new      (const char    *path,
                                       GError       **error);

/* The same for what is a database itself: it may replace one. */
CroWholeFile *cro_whole_file_new_database (const char *path,
                                       GError       **error);

/* Removes what is unfinished. */
void          cro_whole_file_free     (CroWholeFile  *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroWholeFile, cro_whole_file_free)

/* Where to write; an empty file stands there already. Borrowed. */
const char   *cro_whole_file_get_path (CroWholeFile  *self);

/* Brings it to disk and to its place. */
gboolean      cro_whole_file_finish   (CroWholeFile  *self,
                                       GError       **error);

G_END_DECLS
