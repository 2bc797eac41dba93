/* cro-bench-actions.h: what can be done with the thing on a bench as a whole: a new name, a copy,
 * its removal. */
#pragma once

#include "cro-bench.h"
#include "cro-input.h"

G_BEGIN_DECLS

/* "bench.duplicate", "bench.become" and "bench.remove". */
void       cro_bench_install_actions   (GtkWidgetClass *widget_class);

/* Removes a thing, or says who holds on to it. */
gboolean   cro_bench_remove_ref        (CroBench       *self,
                                        CroRef          ref);

/* Binds a field to a column of the thing's own row. */
void       cro_bench_bind              (CroBench       *self,
                                        GtkWidget      *input,
                                        const char     *column,
                                        const char     *placeholder);

/* A button that opens a menu of these, behind another button, which may be NULL. */
GtkWidget *cro_bench_buttons_new       (GtkWidget      *first);

/* The same for what can become of another kind, bought or made or served; become: how that is called,
 * NULL: nothing. is_item: what recipes take can be replaced in them. */
GtkWidget *cro_bench_buttons_new_with  (GtkWidget      *first,
                                        const char     *become,
                                        gboolean        is_item);

/* Where the name of the thing is kept: two rows where a preparation bears its output's. For
 * cro_input_set_way, with the bench as owner. */
extern const CroInputWay cro_bench_name_way;

/* Whether another name of the same letters is another thing. For cro_input_set_ask. */
char      *cro_bench_ask_of_name       (CroInput       *input,
                                        gpointer        bench);

/* Where else a new name would stand, or who bears it: what is kept then is offered to be merged. For
 * cro_input_set_tell. */
char      *cro_bench_tell_name         (CroInput       *input,
                                        const CroCell  *cell,
                                        gpointer        bench);

/* Whether it would be a merge, which leaving the field does not ask about. For cro_input_set_asks. */
gboolean   cro_bench_asks_of_name      (CroInput       *input,
                                        const CroCell  *cell,
                                        gpointer        bench);

/* The whole list of these. For cro_input_set_show. */
void       cro_bench_show_name         (CroInput       *input,
                                        const CroCell  *cell,
                                        gpointer        bench);

G_END_DECLS
