#include <math.h>

#include "cro-paper-private.h"

/* Of lines, in points: what an office printer shows whole. */
#define LINE 0.5

/* From the left edge of the page, for what is that wide and begins at x. */
static double
turned (const CroPaper *self,
        double          x,
        double          width)
{
  return self->is_rtl ? self->width - x - width : x;
}

static void
draw_line (CroPaper *self,
           cairo_t  *cairo,
           double    x,
           double    y,
           double    width)
{
  cairo_move_to (cairo, turned (self, x, width), y);
  cairo_rel_line_to (cairo, width, 0);
  cairo_stroke (cairo);
}

/* x and width: of its column. */
static void
draw_cell (CroPaper           *self,
           cairo_t            *cairo,
           const CroPaperCell *cell,
           gboolean            is_number,
           double              x,
           double              y,
           double              width)
{
  double taken = cell->natural;

  if (cell->layout == NULL)
    return;
  if (pango_layout_get_width (cell->layout) >= 0)
    taken = (double) pango_layout_get_width (cell->layout) / PANGO_SCALE;
  if (is_number)
    x += width - taken;
  cairo_move_to (cairo, turned (self, x, taken), y);
  pango_cairo_show_layout (cairo, cell->layout);
}

static void
draw_cells (CroPaper             *self,
            cairo_t              *cairo,
            const CroPaperPlaced *placed)
{
  const CroPaperRow *row = placed->row;
  const CroPaperGrid *grid = self->grids->pdata[row->grid];
  const double *widths = grid->widths[placed->region];
  gboolean is_framed = (row->look & CRO_PAPER_FRAMED) != 0;
  double gap = CRO_PAPER_GAP * self->font, pad = cro_paper_pad (self, row);
  double x = placed->x;

  for (guint i = 0; i < row->n_cells; i++)
    {
      double indent = i == 0 ? row->indent : 0, inside = is_framed ? gap / 2 : 0;
      double before = i == 0 ? 0 : gap / 2, after = i + 1 == row->n_cells ? 0 : gap / 2;

      if (is_framed)
        {
          double width = before + widths[i] + after;

          cairo_rectangle (cairo, turned (self, x - before, width), placed->y, width, row->height);
          cairo_stroke (cairo);
        }
      draw_cell (self, cairo, &row->cells[i], grid->columns[i].is_number, x + indent + inside,
                 placed->y + pad, widths[i] - indent - 2 * inside);
      x += widths[i] + gap;
    }
}

static void
draw_row (CroPaper             *self,
          cairo_t              *cairo,
          const CroPaperPlaced *placed)
{
  const CroPaperRow *row = placed->row;
  double width = cro_paper_region_width (self, placed->region);

  if (row->look & CRO_PAPER_RULED)
    draw_line (self, cairo, placed->x, placed->y, width);
  draw_cells (self, cairo, placed);
  if (row == &((CroPaperGrid *) self->grids->pdata[row->grid])->heads)
    draw_line (self, cairo, placed->x, placed->y + row->height, width);
  if (row->draw == NULL)
    return;
  cairo_save (cairo);
  cairo_translate (cairo, turned (self, placed->x, width), placed->y);
  row->draw (cairo, width, row->height, row->user_data);
  cairo_restore (cairo);
}

/* --- The foot ------------------------------------------------------------------------------------ */

double
cro_paper_foot_height (CroPaper *self)
{
  return CRO_PAPER_FOOT_FONT * 2.5;
}

static void
draw_foot (CroPaper   *self,
           cairo_t    *cairo,
           gboolean    at_end,
           const char *text)
{
  g_autoptr (PangoLayout) layout = cro_paper_layout_new (self, CRO_PAPER_FOOT, at_end, text);
  PangoRectangle logical;
  double width, x = 0;

  pango_layout_get_extents (layout, NULL, &logical);
  width = (double) logical.width / PANGO_SCALE;
  if (at_end)
    x = self->width - width;
  else if (width > self->width * 0.85)
    {
      width = self->width * 0.85;
      pango_layout_set_width (layout, (int) (width * PANGO_SCALE));
      pango_layout_set_height (layout, -1);
      pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
    }
  cairo_move_to (cairo, turned (self, x, width),
                 self->height - (double) logical.height / PANGO_SCALE);
  pango_cairo_show_layout (cairo, layout);
}

void
cro_paper_draw (CroPaper *self,
                guint     page,
                cairo_t  *cairo)
{
  g_autofree char *number = NULL;

  cairo_set_source_rgb (cairo, 0, 0, 0);
  cairo_set_line_width (cairo, LINE);
  for (guint i = 0; i < self->placed->len; i++)
    {
      const CroPaperPlaced *placed = &g_array_index (self->placed, CroPaperPlaced, i);

      if (placed->page == page)
        draw_row (self, cairo, placed);
    }
  number = g_strdup_printf ("%u / %u", page + 1, self->n_pages);
  if (self->foot != NULL)
    draw_foot (self, cairo, FALSE, self->foot);
  draw_foot (self, cairo, TRUE, number);
}
