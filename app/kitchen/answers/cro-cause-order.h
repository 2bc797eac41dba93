/* cro-cause-order.h: lists of causes, by kind and name, each once. */
#pragma once

#include "cro-cause.h"

G_BEGIN_DECLS

/* Appends what is lacking to convert an amount of an item; lacks are CroLack bits. */
void    cro_causes_add_lacks (GArray     *causes,
                              unsigned    lacks,
                              const char *name);

/* Sorts in place what was appended in any order, and returns it. */
GArray *cro_causes_sort_once (GArray     *causes);

G_END_DECLS
