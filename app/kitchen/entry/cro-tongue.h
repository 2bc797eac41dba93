/* cro-tongue.h: the language in which sentences and numbers are written.
 *
 * A person's is that of their locale. A file's is its own: it is the same bytes whoever writes it. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct _CroTongue CroTongue;

/* Until cro_tongue_leave this thread writes for a file. language is a code of a catalogue ("fr"),
 * which the process then reads through its environment: threads that read theirs must not run.
 * NULL is the language of the source, for which nothing but this thread changes. */
CroTongue  *cro_tongue_enter     (const char *language);

void        cro_tongue_leave     (CroTongue  *self);

/* Names the person's own language, a code of a catalogue, in the environment: from then on a thread may write
 * for a file in it while others read theirs. In the main thread; NULL, the language of the source, needs
 * none of it. */
void        cro_tongue_settle    (const char *language);

/* The language of this thread's sentences. Borrowed. */
const char *cro_tongue_language  (void);

/* The language that they come out in, which is another where there is no catalogue of a person's: "en", "fr".
 * Borrowed. */
const char *cro_tongue_spoken    (void);

/* Where this thread writes for a file, the locale of its numbers and dates as ICU names it; NULL
 * where it is the person's. Borrowed. */
const char *cro_tongue_locale    (void);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroTongue, cro_tongue_leave)

G_END_DECLS
