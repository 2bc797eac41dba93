/* cro-catalogue.h: where the sentences of other languages are found. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Takes the person's locale, and the catalogues of this program for it: those of the folder in
 * which a program was built, where it is run from there, otherwise the installed ones. The
 * environment variable CROUSTADE_LOCALE_DIR names others. To be called first in main (). */
void cro_catalogue_open (void);

/* Whether the program has sentences in a language, by its code: those of the source, "en", or a
 * catalogue ("fr"). */
gboolean cro_catalogue_has (const char *language);

G_END_DECLS
