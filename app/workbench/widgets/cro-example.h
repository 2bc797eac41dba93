/* cro-example.h: what fields show as an example of what is typed into them, in the numbers of the
 * user's locale.
 *
 * Ownership  Texts are the caller's. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* "25 g butter 9.20/kg". */
char *cro_example_dup_line  (void);

/* "9.20/kg". */
char *cro_example_dup_price (void);

G_END_DECLS
