/* cro-stream-drawing.h: what the parts of a drawing of a stream share, and what each of them draws.
 *
 * Units      Places of a stream are those of its picture, not mirrored; x_of () turns them. */
#pragma once

#include "cro-stream-ink.h"

/* Between an end and its name. */
#define NAME_SPACE 6.0

typedef struct
{
  CroStream           *self;
  cairo_t             *cr;
  const CroStreamLook *look;
  CroStreamInk         ink;
  PangoLayout         *layout;
  gboolean            *is_lit;     /* by node; NULL: all */
} Drawing;

static inline double
x_of (const CroStream *self,
      double           x)
{
  return self->is_mirrored ? self->width - x : x;
}

static inline gboolean
is_lit (const Drawing *d,
        const Band    *band)
{
  return d->is_lit == NULL || (d->is_lit[band->nearer] && d->is_lit[band->farther]);
}

/* What is not chosen is drawn so strong. */
#define DIM 0.16

/* --- Text: widths and heights of one line of it ------------------------------------------------ */

/* Takes the context. */
PangoLayout *cro_stream_layout_new   (PangoContext        *context,
                                      const CroStreamLook *look);

/* NULL is no text. */
double       cro_stream_text_width   (PangoLayout         *layout,
                                      const char          *text);
double       cro_stream_line_height  (PangoLayout         *layout);

/* x: where its near end is; what is wider than width is cut. */
void         cro_stream_show_text    (Drawing             *d,
                                      const char          *text,
                                      double               x,
                                      double               middle,
                                      double               width,
                                      double               strength);

/* --- Parts ------------------------------------------------------------------------------------- */

void         cro_stream_draw_bands   (Drawing             *d);

/* What falls away, with names below. */
void         cro_stream_draw_leaving (Drawing             *d);

/* Bars of all nodes with their names; titles over the ends; the scale. */
void         cro_stream_draw_names   (Drawing             *d);
