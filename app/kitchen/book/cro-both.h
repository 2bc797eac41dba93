/* cro-both.h: the same work for many things, half of them on a second thread.
 *
 * Shared     What is done for one of them must touch nothing that is done for another. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Does it for the things from one up to, and not with, another. */
typedef void (*CroBothWork) (guint32  from,
                             guint32  to,
                             gpointer user_data);

/* Does it for n things; if they are fewer than least, or there is one processor alone, on this thread. */
void cro_both_run (guint32     n,
                   guint32     least,
                   CroBothWork work,
                   gpointer    user_data);

G_END_DECLS
