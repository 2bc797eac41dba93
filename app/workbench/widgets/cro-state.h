/* cro-state.h: what the program remembers of itself between two runs, in a key file of the
 * user's state folder: the window's size, the last book, what stood on the bench of each book and
 * what was typed there and not kept.
 *
 * What is set is written soon after, so that little is lost where the program is killed. Two sessions of one home
 * write the same file: each writes what was set in it, and takes over the rest.
 *
 * Ownership  Texts returned are the caller's.
 * Errors     Nothing here is of the book itself: a file that cannot be read says nothing. One that cannot be written
 *            loses what was typed and not kept once the program is closed, which is told once. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* NULL: nothing was remembered. */
char    *cro_state_dup_text (const char  *group,
                             const char  *key);

/* NULL forgets. */
void     cro_state_set_text (const char  *group,
                             const char  *key,
                             const char  *text);

/* The keys of a group that begin with prefix. Owned. */
char   **cro_state_dup_keys (const char  *group,
                             const char  *prefix);

int      cro_state_get_int  (const char  *group,
                             const char  *key,
                             int          fallback);
void     cro_state_set_int  (const char  *group,
                             const char  *key,
                             int          value);

/* The path of a file of its own in that folder, for what is too large for a text. Owned. */
char    *cro_state_dup_path (const char  *name);

/* Writes at once what was set, and what could not be written before. The caller tells the error. */
gboolean cro_state_write    (GError **error);

/* Who is told that it could not be written soon after it was set: once, until it can be again. */
typedef void (*CroStateFailed) (const GError *error,
                                gpointer      user_data);

void     cro_state_set_failed (CroStateFailed failed,
                               gpointer       user_data);

/* Tells them, where they were not told yet. TRUE: they were told now. */
gboolean cro_state_tell       (const GError  *error);

G_END_DECLS
