/* cro-gtin.h: the number of a trade item, GTIN-8, -12, -13 or -14.
 *
 * Source     GS1 General Specifications, "Check digit calculation": from the right each digit but the
 *            last is taken three times and once by turns; with the last the sum is a multiple of 10. */
#pragma once

#include <stdbool.h>
#include <stddef.h>

#define CRO_GTIN_DIGITS 14

/* Whether text is as long as one, and of digits alone. */
bool cro_gtin_is_one   (const char *text,
                        size_t      length);

/* Whether it is one and its check digit is right. */
bool cro_gtin_is_sound (const char *text,
                        size_t      length);

/* The same number with 14 digits, zeros before it, and NUL: a GTIN-13 and the GTIN-14 that names it are
 * one. Only of what is one. */
void cro_gtin_widen    (const char *text,
                        size_t      length,
                        char        wide[CRO_GTIN_DIGITS + 1]);
