/* cro-book-try.h: what an act would do, without keeping it. */
#pragma once

#include "cro-book.h"

G_BEGIN_DECLS

/* Called while figures and model are those after the act; it changes nothing. */
typedef void (*CroBookLook) (CroBook *self, gpointer user_data);

/* Instead of cro_book_end_act: the figures take the act in, look is called, and the act is given up:
 * the figures are as before, to the bit. FALSE, without a call, where the act could not be kept
 * (CYCLE, or the store refuses). */
gboolean cro_book_try_act (CroBook      *self,
                           CroBookLook   look,
                           gpointer      user_data,
                           GError      **error);

G_END_DECLS
