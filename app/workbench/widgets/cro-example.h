/* cro-example.h: what fields show as an example of what is typed into them, in the numbers of the
 * user's locale.
 *
 * Ownership  Texts are the caller's. */
#pragma once

#include "cro-kind.h"

G_BEGIN_DECLS

/* "25 g butter 9.20/kg". */
char *cro_example_dup_line  (void);

/* "200 g Crab butter": of the first thing of the book that has a weight, made rather than bought; of an empty book
 * "200 g butter". */
char *cro_example_dup_amount (CroModel *model);

/* The name of the first of the book's menus, or of its plates; of an empty book what is to be named. Borrowed. */
const char *cro_example_get_served (CroModel *model);

G_END_DECLS
