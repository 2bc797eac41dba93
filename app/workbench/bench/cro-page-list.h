/* cro-page-list.h: the list of a place that has few pages, each of its own kind: pages under headings,
 * looked for by name.
 *
 * Signals    "chosen" (int kind, guint slot): of a CroRef, as a row was chosen, by the arrows too;
 *            "taken": Enter or a click on a row, after it was chosen. */
#pragma once

#include <gtk/gtk.h>

#include "cro-book.h"
#include "cro-ref.h"

G_BEGIN_DECLS

#define CRO_TYPE_PAGE_LIST (cro_page_list_get_type ())
G_DECLARE_FINAL_TYPE (CroPageList, cro_page_list, CRO, PAGE_LIST, GtkWidget)

typedef struct
{
  CroRef      ref;
  const char *heading;    /* rows of one heading stand together; NULL: above all. In the user's language */
  char       *name;       /* owned */
  char       *detail;     /* at its end; NULL: nothing. Owned */
} CroPageRow;

/* An empty array of them, which frees their texts. */
GArray    *cro_page_rows_new        (void);

/* Makes the rows of a book; the caller's. */
typedef GArray *(*CroPageRows)      (CroBook       *book);

/* maker: what the button says that makes a thing as Ctrl+N does; NULL: there is none. */
GtkWidget *cro_page_list_new        (CroPageRows    rows,
                                     const char    *maker);

/* NULL book: empty. */
void       cro_page_list_set_book   (CroPageList   *self,
                                     CroBook       *book);

/* Shows which row stands on the bench, without choosing it anew. */
void       cro_page_list_select     (CroPageList   *self,
                                     CroRef         ref);

void       cro_page_list_focus      (CroPageList   *self);
void       cro_page_list_focus_search (CroPageList *self);

G_END_DECLS
