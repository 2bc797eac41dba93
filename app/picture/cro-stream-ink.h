/* cro-stream-ink.h: colours and hatchings of a stream. Each purchase told apart has both, so that it
 * is known in grey and by those who do not see its colour; none is a signal.
 *
 * Ownership  Patterns are those of an ink, which the caller clears. */
#pragma once

#include <cairo.h>

#include "cro-stream-private.h"

typedef struct
{
  double r, g, b, a;
} CroStreamColour;

typedef struct
{
  cairo_pattern_t *hatched[N_PARTS];  /* NULL: plain */
  CroStreamColour  plain[N_PARTS];
  CroStreamColour  text;
  CroStreamColour  soft;              /* titles, notches, hairlines */
  CroStreamColour  bar;
  CroStreamColour  ground;            /* behind names that stand on bands */
  gboolean         is_print;          /* black on white */
  gboolean         is_paper;          /* of any colour, without pixels */
} CroStreamInk;

/* For a surface that is drawn on. */
void cro_stream_ink_init  (CroStreamInk     *ink,
                           CroStreamPalette  palette,
                           cairo_surface_t  *target);
void cro_stream_ink_clear (CroStreamInk     *ink);

static inline void
cro_stream_ink_set (cairo_t         *cr,
                    CroStreamColour  colour,
                    double           strength)
{
  cairo_set_source_rgba (cr, colour.r, colour.g, colour.b, colour.a * strength);
}
