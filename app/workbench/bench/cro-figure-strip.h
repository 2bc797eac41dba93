/* cro-figure-strip.h: the figures of a bench that are always in sight, and what is missing of
 * them. */
#pragma once

#include "cro-figure-view.h"

G_BEGIN_DECLS

/* n views by their sums (NULL: a figure that is none), which are returned in figures[], and a
 * CroCausesView in *causes. */
GtkWidget *cro_figure_strip_new (CroBench            *bench,
                                 const CroFigureSum  *sums,
                                 guint                n,
                                 GtkWidget          **figures,
                                 GtkWidget          **causes);

G_END_DECLS
