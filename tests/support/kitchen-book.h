/* kitchen-book.h: books for the tests of the kitchen, and all their figures as one text.
 *
 * Ownership  Texts and books returned are the caller's. */
#pragma once

#include "cro-book.h"
#include "cro-edit.h"
#include "support/n-books.h"
#include "support/store-book.h"

#define CRO_TEST_DAY 20500 /* 2026-02-16 */

/* Fails the test if the book cannot be opened, or made. */
CroBook *cro_test_book_open   (const char *path,
                               const char *desk);
CroBook *cro_test_book_create (const char *path);

/* The demo's book, as a desk of that name loaded it: its tables are read once a program, and the file is
 * copied from then on. */
void     cro_test_put_demo    (const char *path,
                               const char *desk);

/* Every figure with every bit of it, by the ids in the store and not by slots: two books on one
 * file have the same text if and only if they agree. */
char    *cro_test_figures     (CroBook    *book);

/* Fails, with the first lines that differ, unless both are equal. */
void     cro_test_same        (const char *says,
                               const char *a,
                               const char *b);

/* That of the book opened anew on its file and date. */
char    *cro_test_fresh_figures (CroBook  *book);

/* Writes FOLDER/NAME.csv. */
void     cro_test_write_table (const char *folder,
                               const char *name,
                               const char *text);

/* A book at folder->path of the tables that stand in the folder. */
CroBook *cro_test_book_load   (const CroTestFolder *folder);

/* Lines alone, as a recipe that is pasted brings them: behind the line `after`, CRO_NO_SLOT: at the end. *item, which
 * may be NULL: the slot of what the first takes. */
gboolean cro_test_add_lines   (CroBook           *book,
                               guint32            recipe,
                               guint32            after,
                               const CroNewLine  *lines,
                               guint              n,
                               guint32           *item,
                               GError           **error);

/* error: borrowed. */
#define assert_no_error(error) \
  G_STMT_START \
    { \
      if ((error) != NULL) \
        fail_msg ("%s", (error)->message); \
    } \
  G_STMT_END

/* What a case has that needs a book alone, made by the set-up of its test. */
typedef struct
{
  CroTestFolder folder;
  CroBook      *book;
} CroTestKitchen;

typedef struct
{
  const char *name;
  const char *text;
} CroTestTable;

/* A set-up: a CroTestKitchen on a book of tables, behind the last of which one has no name. */
int      cro_test_book_of_tables (void               **state,
                                 const CroTestTable  *tables);

/* Lets go of all of it, and fails if anything still holds the book. */
int      cro_test_kitchen_tear_down (void **state);
