/* cro-figure-view.h: one of the figures always in sight: a large number over what it is, a button
 * that opens it as its sum in words. */
#pragma once

#include <gtk/gtk.h>

#include "cro-bench.h"
#include "cro-sum-popover.h"

G_BEGIN_DECLS

#define CRO_TYPE_FIGURE_VIEW (cro_figure_view_get_type ())
G_DECLARE_FINAL_TYPE (CroFigureView, cro_figure_view, CRO, FIGURE_VIEW, GtkWidget)

/* Gives the sum of the figure when it is asked for; NULL: there is none, and what holds the figure
 * is asked to lead to the price that it lacks ("figure.price"). Elements CroSumToken. */
typedef GPtrArray *(*CroFigureSum) (CroBench *bench);

/* sum: NULL where the figure is not one. */
GtkWidget *cro_figure_view_new (CroBench      *bench,
                                CroFigureSum   sum);

/* value: the number as text; caption: what it is; note: a second line, may be NULL. */
void       cro_figure_view_set (CroFigureView *self,
                                const char    *value,
                                const char    *caption,
                                const char    *note);

/* What else stands under it in time, with the one thing missing or the other: its room is kept, and nothing below the
 * figures moves as it comes. room: which of CRO_FIGURE_ROOMS; the second has a scale. */
#define CRO_FIGURE_ROOMS 2
void       cro_figure_view_keep_room (CroFigureView *self,
                                guint          room,
                                const char    *caption,
                                const char    *note);

/* Number and caption alone, and not large: of figures that stand over others. */
void       cro_figure_view_set_small (CroFigureView *self);

/* Where it stands on a scale with a tick at its target, both in per cent, NaN: no scale; says: the
 * same in words. */
void       cro_figure_view_set_scale (CroFigureView *self,
                                double         pct,
                                double         target,
                                const char    *says);

G_END_DECLS
