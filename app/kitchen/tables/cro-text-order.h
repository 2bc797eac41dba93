/* cro-text-order.h: texts by their bytes: the order that is the same in every language. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* For g_ptr_array_sort () of texts. */
int cro_text_order (gconstpointer a,
                    gconstpointer b);

G_END_DECLS
