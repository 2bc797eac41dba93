#include "cro-stream-ink.h"

#define TILE 6.0

/* By rank, the rest last. Chosen to differ in lightness too. */
static const CroStreamColour light[N_PARTS] = {
  { 0.75, 0.42, 0.05, 1 }, { 0.11, 0.40, 0.78, 1 }, { 0.10, 0.50, 0.42, 1 },
  { 0.53, 0.27, 0.62, 1 }, { 0.45, 0.36, 0.28, 1 }, { 0.62, 0.61, 0.64, 1 },
};
static const CroStreamColour dark[N_PARTS] = {
  { 0.96, 0.65, 0.26, 1 }, { 0.47, 0.70, 1.00, 1 }, { 0.38, 0.80, 0.68, 1 },
  { 0.80, 0.58, 0.90, 1 }, { 0.80, 0.70, 0.58, 1 }, { 0.58, 0.57, 0.60, 1 },
};

/* How strongly a band is filled under its hatching. */
static const double strength[] = {
  [CRO_STREAM_LIGHT] = 0.5,          [CRO_STREAM_DARK] = 0.45,
  [CRO_STREAM_LIGHT_CONTRAST] = 0.6, [CRO_STREAM_DARK_CONTRAST] = 0.6,
  [CRO_STREAM_PRINT] = 0,
};

static void
line (cairo_t *cr,
      double   x0,
      double   y0,
      double   x1,
      double   y1)
{
  cairo_move_to (cr, x0, y0);
  cairo_line_to (cr, x1, y1);
}

/* Strokes of a tile that go on in the next. */
static void
draw_strokes (cairo_t *cr,
              guint    rank)
{
  switch (rank)
    {
    case 0:
      for (int i = -1; i <= 1; i++)
        line (cr, i * TILE - 1, TILE + 1, (i + 1) * TILE + 1, -1);
      break;
    case 1:
      line (cr, 0, TILE / 2, TILE, TILE / 2);
      break;
    case 2:
      cairo_arc (cr, TILE / 2, TILE / 2, 0.7, 0, 2 * G_PI);
      break;
    case 3:
      for (int i = -1; i <= 1; i++)
        line (cr, i * TILE - 1, -1, (i + 1) * TILE + 1, TILE + 1);
      break;
    default:
      line (cr, TILE / 2, 0, TILE / 2, TILE);
      break;
    }
}

/* A tile of pixels is much faster to fill with; on paper it would be coarse. */
static cairo_pattern_t *
hatched_new (CroStreamColour colour,
             guint           rank,
             double          fill,
             gboolean        is_paper)
{
  const cairo_rectangle_t tile = { 0, 0, TILE, TILE };
  cairo_surface_t *surface
      = is_paper ? cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, &tile)
                 : cairo_image_surface_create (CAIRO_FORMAT_ARGB32, (int) TILE, (int) TILE);
  cairo_t *cr = cairo_create (surface);
  cairo_pattern_t *pattern;

  cro_stream_ink_set (cr, colour, fill);
  cairo_paint (cr);
  cro_stream_ink_set (cr, colour, 1);
  cairo_set_line_width (cr, rank == 2 ? 1.4 : 1.1);
  draw_strokes (cr, rank);
  cairo_stroke (cr);
  cairo_destroy (cr);
  pattern = cairo_pattern_create_for_surface (surface);
  cairo_surface_destroy (surface);
  cairo_pattern_set_extend (pattern, CAIRO_EXTEND_REPEAT);
  cairo_pattern_set_filter (pattern, CAIRO_FILTER_NEAREST);
  return pattern;
}

void
cro_stream_ink_init (CroStreamInk     *ink,
                     CroStreamPalette  palette,
                     cairo_surface_t  *target)
{
  cairo_surface_type_t type = cairo_surface_get_type (target);
  gboolean is_paper = palette == CRO_STREAM_PRINT || type == CAIRO_SURFACE_TYPE_PDF
                      || type == CAIRO_SURFACE_TYPE_SVG || type == CAIRO_SURFACE_TYPE_PS;
  gboolean is_dark = palette == CRO_STREAM_DARK || palette == CRO_STREAM_DARK_CONTRAST;
  gboolean is_sharp = palette == CRO_STREAM_LIGHT_CONTRAST || palette == CRO_STREAM_DARK_CONTRAST
                      || palette == CRO_STREAM_PRINT;
  double of_text = is_dark ? 1 : is_sharp ? 0 : 0.12;

  *ink = (CroStreamInk){ .is_print = palette == CRO_STREAM_PRINT, .is_paper = is_paper };
  ink->text = (CroStreamColour){ of_text, of_text, of_text, 1 };
  ink->soft = (CroStreamColour){ of_text, of_text, of_text, is_sharp ? 1 : 0.7 };
  ink->bar = (CroStreamColour){ of_text, of_text, of_text, is_sharp ? 1 : 0.75 };
  ink->ground = is_dark ? (CroStreamColour){ 0.12, 0.12, 0.12, 0.85 }
                        : (CroStreamColour){ 1, 1, 1, 0.85 };
  for (guint rank = 0; rank < N_PARTS; rank++)
    {
      CroStreamColour colour = is_dark ? dark[rank] : light[rank];

      if (ink->is_print)
        colour = (CroStreamColour){ 0, 0, 0, 1 };
      ink->plain[rank] = colour;
      ink->plain[rank].a = ink->is_print ? (rank == CRO_STREAM_N_RANKS ? 0.22 : 0.8)
                                         : rank == CRO_STREAM_N_RANKS ? (is_sharp ? 0.75 : 0.45) : 0.9;
      if (rank < CRO_STREAM_N_RANKS)
        ink->hatched[rank] = hatched_new (colour, rank, strength[palette], is_paper);
    }
}

void
cro_stream_ink_clear (CroStreamInk *ink)
{
  for (guint rank = 0; rank < N_PARTS; rank++)
    g_clear_pointer (&ink->hatched[rank], cairo_pattern_destroy);
}
