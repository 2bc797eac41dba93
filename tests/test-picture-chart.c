/* What charts draw stands where its value says: points of four quadrants and bars of a waterfall, by their pixels, from
 * left to right and mirrored; what rises leans the other way than what falls. */
#include <glib.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "cro-scatter.h"
#include "cro-waterfall.h"

#define WIDTH 400
#define HEIGHT 300
#define FONT 12

static int
ink_at (cairo_surface_t *surface,
        int              x,
        int              y)
{
  const guint8 *data = cairo_image_surface_get_data (surface);
  const guint32 *row = (const guint32 *) (const void *) (data + y * cairo_image_surface_get_stride (surface));

  return (int) (row[x] >> 24);
}

/* --- Points ------------------------------------------------------------------------------------------------------- */

/* By x: each ten further, and the last as high above the second as that above the first, and as much again. */
static const CroScatterPoint points[] = {
  { 10, 10, TRUE, TRUE }, { 20, 20, TRUE, TRUE }, { 30, 40, TRUE, TRUE }
};

static gboolean
is_full (cairo_surface_t *surface,
         int              left,
         int              top)
{
  for (int y = top; y < top + 5; y++)
    for (int x = left; x < left + 5; x++)
      if (ink_at (surface, x, y) < 250)
        return FALSE;
  return TRUE;
}

/* Where the marks stand, from left to right: nothing else that is drawn is so thick. */
static guint
find_marks (cairo_surface_t *surface,
            double          *at_x,
            double          *at_y)
{
  guint n = 0, n_of_it = 0;
  double all_x = 0, all_y = 0;

  for (int x = 0; x < WIDTH - 5; x++)
    {
      guint before = n_of_it;

      for (int y = 0; y < HEIGHT - 5; y++)
        if (is_full (surface, x, y))
          {
            n_of_it++;
            all_x += x + 2;
            all_y += y + 2;
          }
      if (n_of_it == 0 || n_of_it > before)
        continue;
      assert_true (n < G_N_ELEMENTS (points));
      at_x[n] = all_x / n_of_it;
      at_y[n++] = all_y / n_of_it;
      n_of_it = 0;
      all_x = all_y = 0;
    }
  return n;
}

static void
draw_points (gboolean  is_rtl,
             double   *x,
             double   *y)
{
  g_autoptr (CroScatter) scatter = cro_scatter_new ();
  CroChartLook look = cro_chart_look_of_paper (FONT, is_rtl);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDTH, HEIGHT);
  cairo_t *cairo = cairo_create (surface);

  g_array_append_vals (scatter->points, points, G_N_ELEMENTS (points));
  scatter->x_title = g_strdup ("");
  scatter->y_title = g_strdup ("");
  scatter->x_limit = g_strdup ("");
  scatter->y_limit = g_strdup ("");
  for (guint i = 0; i < G_N_ELEMENTS (scatter->corners); i++)
    scatter->corners[i] = g_strdup ("");
  cro_scatter_draw (scatter, cairo, &look, WIDTH, HEIGHT);
  cairo_destroy (cairo);
  cairo_surface_flush (surface);
  assert_int_equal (find_marks (surface, x, y), G_N_ELEMENTS (points));
  cairo_surface_destroy (surface);
}

static void
test_points_stand_at_their_values (void **state)
{
  double x[3], y[3], mirrored[3], same[3];

  draw_points (FALSE, x, y);
  assert_true (x[1] > x[0] + 50);
  assert_float_equal (x[2] - x[1], x[1] - x[0], 1.5);
  assert_true (y[1] < y[0] - 25);
  assert_float_equal (y[1] - y[2], 2 * (y[0] - y[1]), 2);
  draw_points (TRUE, mirrored, same);
  for (guint i = 0; i < 3; i++)
    {
      assert_float_equal (mirrored[i], WIDTH - x[2 - i], 1.5);
      assert_float_equal (same[i], y[2 - i], 1.5);
    }
}

/* --- Bars --------------------------------------------------------------------------------------------------------- */

#define N_BARS 4

/* The ends of each bar in the middle of its row, and how much more of it leans to the right than to the left. */
static void
draw_bars (gboolean  is_rtl,
           int      *from,
           int      *to,
           gint64   *lean)
{
  g_autoptr (CroWaterfall) fall = cro_waterfall_new ();
  CroChartLook look = cro_chart_look_of_paper (FONT, is_rtl);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDTH, HEIGHT);
  cairo_t *cairo = cairo_create (surface);
  double row;

  cro_waterfall_add (fall, "", "", 100, TRUE);
  cro_waterfall_add (fall, "", "", 50, FALSE);
  cro_waterfall_add (fall, "", "", -30, FALSE);
  cro_waterfall_add (fall, "", "", 120, TRUE);
  cro_waterfall_draw (fall, cairo, &look, WIDTH);
  row = cro_waterfall_height (fall, &look) / N_BARS;
  cairo_destroy (cairo);
  cairo_surface_flush (surface);
  for (int i = 0; i < N_BARS; i++)
    {
      int y = (int) ((i + 0.5) * row);

      from[i] = to[i] = -1;
      lean[i] = 0;
      for (int x = 3; x < WIDTH - 3; x++)
        {
          if (ink_at (surface, x, y) > 40 || ink_at (surface, x, y + 1) > 40)
            to[i] = x;
          if (from[i] < 0)
            from[i] = to[i];
          lean[i] += ink_at (surface, x, y) * (ink_at (surface, x + 2, y - 2) - ink_at (surface, x - 2, y - 2));
        }
    }
  cairo_surface_destroy (surface);
}

static void
test_bars_end_at_their_values (void **state)
{
  int from[N_BARS], to[N_BARS], left[N_BARS], right[N_BARS];
  gint64 lean[N_BARS], turned[N_BARS];
  double hundred;

  draw_bars (FALSE, from, to, lean);
  hundred = to[0] - from[0];
  assert_true (hundred > 100);
  assert_float_equal (to[1] - from[1], hundred / 2, 2.5);
  assert_float_equal (to[2] - from[2], hundred * 0.3, 2.5);
  assert_float_equal (to[3] - from[3], hundred * 1.2, 2.5);
  /* Each begins where the one before it ended. */
  assert_float_equal (from[1], to[0], 2.5);
  assert_float_equal (to[2], to[1], 2.5);
  assert_float_equal (to[3], from[2], 2.5);
  assert_float_equal (from[3], from[0], 2.5);
  assert_true (lean[1] > 0 && lean[2] < 0);
  draw_bars (TRUE, left, right, turned);
  for (guint i = 0; i < N_BARS; i++)
    {
      assert_float_equal (left[i], WIDTH - to[i], 2.5);
      assert_float_equal (right[i], WIDTH - from[i], 2.5);
    }
  assert_true (turned[1] < 0 && turned[2] > 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_points_stand_at_their_values),
    cmocka_unit_test (test_bars_end_at_their_values),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
