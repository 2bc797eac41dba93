/* cro-trials.h: the trials that were left open, in the person's state folder, by plate and menu.
 *
 * Units      A thing goes by the id of its row, its trials by numbers from 1 up. */
#pragma once

#include "cro-book.h"

G_BEGIN_DECLS

/* Numbers, rising. Elements guint. */
GArray *cro_trials_list      (CroBook    *book,
                              gint64      thing);

/* As cro_tried_to_text has it; NULL: there is no such trial. Owned. */
char   *cro_trials_dup       (CroBook    *book,
                              gint64      thing,
                              guint       number);

/* NULL: it is no more, and no longer in front. */
void    cro_trials_set       (CroBook    *book,
                              gint64      thing,
                              guint       number,
                              const char *text);

/* What it says that is told once its plate or menu is no more: a sentence, owned by who asks in
 * cro_trials_list_lost (). NULL: there is nothing to tell. */
void    cro_trials_set_words (CroBook    *book,
                              gint64      thing,
                              guint       number,
                              const char *words);

/* Of those whose plate or menu is not in the book now, as they are kept until that is undone: each once.
 * Elements owned texts. */
GPtrArray *cro_trials_list_lost (CroBook *book);

/* A number that no trial of it has. */
guint   cro_trials_find_free (CroBook    *book,
                              gint64      thing);

/* The one that is shown in place of the thing; 0: none. */
guint   cro_trials_get_front (CroBook    *book,
                              gint64      thing);
void    cro_trials_set_front (CroBook    *book,
                              gint64      thing,
                              guint       number);

G_END_DECLS
