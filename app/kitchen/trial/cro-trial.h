/* cro-trial.h: a trial of a book: what would be if some values were otherwise.
 *
 * It is a book in memory beside the book (cro_book_open_trial), changed and undone as any other; its
 * figures are those that the book would have. Keeping does the same in the book, as one act; to let
 * go of it leaves nothing.
 *
 * Ownership  It holds the book.
 * Errors     Those of cro-edit.h and CRO_BOOK_ERROR. */
#pragma once

#include "cro-ref.h"
#include "cro-tried.h"

G_BEGIN_DECLS

typedef struct _CroTrial CroTrial;

/* What cannot be tried again, as its row is gone, is left aside (cro_trial_get_left). tried may be NULL;
 * label: of the act that tries it. */
CroTrial  *cro_trial_new       (CroBook     *book,
                                GPtrArray   *tried,
                                const char  *label,
                                GError     **error);
void       cro_trial_free      (CroTrial    *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroTrial, cro_trial_free)

/* In which it is tried. Borrowed. */
CroBook   *cro_trial_get_book  (CroTrial    *self);

/* What is tried that the book does not have so: elements CroTried; NULL with error. */
GPtrArray *cro_trial_list      (CroTrial    *self,
                                GError     **error);

/* What could not be tried in it. Elements CroTried; borrowed. */
GPtrArray *cro_trial_get_left  (CroTrial    *self);

/* Both, as they are written down: what cannot be tried today may be again tomorrow. */
GPtrArray *cro_trial_list_all  (CroTrial    *self,
                                GError     **error);

/* Whether the book has moved since it was copied: then the trial is of what is no more. */
gboolean   cro_trial_is_behind (CroTrial    *self);

/* One act in the book; from: of its prices. The trial is then of what was. */
gboolean   cro_trial_keep      (CroTrial    *self,
                                const char  *label,
                                CroDate      from,
                                GError     **error);

/* The same thing in another model, by its row; CRO_REF_NOWHERE where it has none. */
CroRef     cro_trial_find      (CroModel    *from,
                                CroRef       ref,
                                CroModel    *in);

G_END_DECLS
