/* cro-catalogue.h: where the sentences of other languages are found. */
#pragma once

/* Takes the person's locale, and the catalogues of this program for it: those of the folder in
 * which a program was built, where it is run from there, otherwise the installed ones. The
 * environment variable CROUSTADE_LOCALE_DIR names others. To be called first in main (). */
void cro_catalogue_open (void);
