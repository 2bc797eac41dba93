/* cro-target-input.h: the field of a target, typed and shown in the house's way (cro-result-words.h),
 * stored as a food-cost percentage. */
#pragma once

#include "cro-input.h"

G_BEGIN_DECLS

GtkWidget *cro_target_input_new      (void);

/* The two that make a field one of a target, for one with a way of its own; owner is not looked at. */
char      *cro_target_input_dup_text (CroInput      *input,
                                      gpointer       owner);
char      *cro_target_input_read     (CroInput      *input,
                                      const char    *text,
                                      CroCell       *cell,
                                      char         **understood,
                                      gpointer       owner);

/* Says the house's way and its target: to assistive technologies, where nothing is set, and in the
 * words around the field. Each may be NULL. */
void       cro_target_input_say      (CroInput      *input,
                                      CroModel      *model,
                                      GtkLabel      *before,
                                      GtkLabel      *behind);

G_END_DECLS
