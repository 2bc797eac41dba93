/* cro-digits.h: digits of a number that reads back to the same double, whatever the locale.
 *
 * Those of printf's %.17g; or of %.15g, as people typed them, where those read back too and 17 would
 * only add 0s or 9s: 0.1 and not 0.10000000000000001. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define CRO_DIGITS_CHARS 32

/* Writes a finite number, ended by a NUL; returns its length. */
gsize cro_digits_print (double  value,
                        char    text[CRO_DIGITS_CHARS]);

G_END_DECLS
