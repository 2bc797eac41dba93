/* cro-link-list.h: things under a heading, each a button that leads there with a few words beside it.
 *
 * Rows keep their widgets, and the focus, while what they say changes. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_LINK_LIST (cro_link_list_get_type ())
G_DECLARE_FINAL_TYPE (CroLinkList, cro_link_list, CRO, LINK_LIST, GtkWidget)

/* bench is borrowed: it holds the list. */
GtkWidget *cro_link_list_new   (CroBench    *bench);

/* title: in the user's language; nothing: what is said where there is no row, NULL to show nothing then. */
void       cro_link_list_begin (CroLinkList *self,
                                const char  *title,
                                const char  *nothing);

/* The next row. cause: what is cured there, or CRO_NO_CAUSE. */
void       cro_link_list_add   (CroLinkList *self,
                                CroRef       ref,
                                int          cause,
                                const char  *name,
                                const char  *words);

/* more: what is said below the rows; NULL: nothing. */
void       cro_link_list_end   (CroLinkList *self,
                                const char  *more);

/* A widget below all that, for good. */
void       cro_link_list_append (CroLinkList *self,
                                GtkWidget   *widget);

G_END_DECLS
