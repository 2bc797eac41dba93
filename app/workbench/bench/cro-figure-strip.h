/* cro-figure-strip.h: the figures of a bench that are always in sight, and at its end what is missing
 * of them.
 *
 * One row where that has room: captions and notes give way first. A narrow window, or large text,
 * breaks it. What is missing keeps its place at the end, whatever the figures grow to. */
#pragma once

#include "cro-figure-view.h"

G_BEGIN_DECLS

#define CRO_TYPE_FIGURE_STRIP (cro_figure_strip_get_type ())
G_DECLARE_FINAL_TYPE (CroFigureStrip, cro_figure_strip, CRO, FIGURE_STRIP, GtkWidget)

/* n views by their sums (NULL: a figure that is none), which are returned in figures[], and a
 * CroCausesView in *causes. */
GtkWidget *cro_figure_strip_new (CroBench            *bench,
                                 const CroFigureSum  *sums,
                                 guint                n,
                                 GtkWidget          **figures,
                                 GtkWidget          **causes);

G_END_DECLS
