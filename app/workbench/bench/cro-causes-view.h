/* cro-causes-view.h: what is missing, each a button that leads to its cure; or what is asked.
 *
 * Two buttons, one over the other or side by side where the width is enough, stand for any number: neither its
 * width nor its height moves what is beside or below it. The first is for what the bench notes, if it does (signal
 * "note" of CroBench). */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_CAUSES_VIEW (cro_causes_view_get_type ())
G_DECLARE_FINAL_TYPE (CroCausesView, cro_causes_view, CRO, CAUSES_VIEW, GtkWidget)

GtkWidget *cro_causes_view_new (CroBench      *bench);

/* causes: elements CroCause; known: what is said where there are none, NULL: that nothing is
 * missing. */
void       cro_causes_view_set (CroCausesView *self,
                                GArray        *causes,
                                const char    *known);

/* What is asked about what is there, in the place of known: a button that puts the focus on leads_to, which is not
 * held. question: NULL: nothing. */
void       cro_causes_view_ask (CroCausesView *self,
                                const char    *question,
                                GtkWidget     *leads_to);

G_END_DECLS
