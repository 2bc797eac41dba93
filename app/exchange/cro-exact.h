/* cro-exact.h: amounts of other people's documents, exactly: more places than the millionths of a book.
 *
 * Units      Thousand-millionths ("nano").
 * Errors     Functions return FALSE where 128 bits do not hold the result, and leave it alone. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

__extension__ typedef __int128 CroNano;

#define CRO_NANO ((CroNano) 1000000000)

/* Reads the whole of text: [+-]digits[.digits], with spaces around. Of more than nine places the ninth
 * is rounded, half away from zero. FALSE: it is no such number, or of more than 18 digits before the
 * point. */
gboolean cro_exact_parse   (const char *text,
                            CroNano    *nano);

/* a × b ÷ c with so many places, half away from zero; c is not 0. */
gboolean cro_exact_share   (CroNano     a,
                            CroNano     b,
                            CroNano     c,
                            guint       places,
                            CroNano    *result);

/* The nearest millionth. */
gboolean cro_exact_to_micro (CroNano    nano,
                            gint64     *micro);

/* With that many places, at most nine. Owned. */
char    *cro_exact_to_text (CroNano     nano,
                            guint       places);

G_END_DECLS
