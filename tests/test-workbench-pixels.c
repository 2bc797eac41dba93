/* What small pictures draw stands where its value says: higher values higher, later days later,
 * the target's tick at two thirds of its scale, and all of it mirrored from right to left. */
#include <adwaita.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "cro-plot.h"
#include "cro-target-scale.h"
#include "support/widgets.h"

#define WIDTH 360
#define HEIGHT 150

/* What of a pixel is painted, 0 to 255. */
static guint8
ink_at (cairo_surface_t *surface,
        int              x,
        int              y)
{
  const guint8 *data = cairo_image_surface_get_data (surface);
  const guint32 *row = (const guint32 *) (const void *) (data + y * cairo_image_surface_get_stride (surface));

  return (guint8) (row[x] >> 24);
}

/* The first and the last row of a column with at least so much ink; FALSE: none. */
static gboolean
inked_rows (cairo_surface_t *surface,
            int              x,
            guint8           least,
            int             *from,
            int             *to)
{
  gboolean is_found = FALSE;

  for (int y = 0; y < cairo_image_surface_get_height (surface); y++)
    if (ink_at (surface, x, y) >= least)
      {
        if (!is_found)
          *from = y;
        *to = y;
        is_found = TRUE;
      }
  return is_found;
}

/* The widget alone, painted. A window holds it: only there it has a size and a style. */
static cairo_surface_t *
paint (GtkWidget        *widget,
       int               height,
       GtkTextDirection  direction)
{
  GtkWidget *window = gtk_window_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDTH, height);
  cairo_t *cr = cairo_create (surface);
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  GskRenderNode *node;

  gtk_widget_set_direction (widget, direction);
  gtk_widget_set_size_request (widget, WIDTH, height);
  gtk_widget_set_halign (widget, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (box), widget);
  gtk_window_set_child (GTK_WINDOW (window), box);
  gtk_window_present (GTK_WINDOW (window));
  cro_test_wait_until (gtk_widget_get_width (widget) > 0, "the picture has no size");
  assert_int_equal (gtk_widget_get_width (widget), WIDTH);
  GTK_WIDGET_GET_CLASS (widget)->snapshot (widget, snapshot);
  node = gtk_snapshot_free_to_node (snapshot);
  assert_non_null (node);
  gsk_render_node_draw (node, cr);
  gsk_render_node_unref (node);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  gtk_window_destroy (GTK_WINDOW (window));
  return surface;
}

/* --- Plots ------------------------------------------------------------------------------------ */

#define DAY 20000

static const CroPlotValue three[] = {
  { .day = DAY, .value = 10 }, { .day = DAY + 10, .value = 30 }, { .day = DAY + 20, .value = 20 }
};

static void
test_steps_stand_at_their_value (void **state)
{
  GtkWidget *plot = cro_plot_new (CRO_PLOT_STEPS);
  cairo_surface_t *surface;
  int top[3], bottom;

  cro_plot_set (CRO_PLOT (plot), three, 3, DAY + 30, NAN);
  surface = paint (plot, HEIGHT, GTK_TEXT_DIR_LTR);
  /* In the middle of each third the highest ink is its step; days are written below all. */
  for (int i = 0; i < 3; i++)
    assert_true (inked_rows (surface, 12 + (WIDTH - 18) * (2 * i + 1) / 6, 200, &top[i], &bottom));
  assert_true (top[1] < top[2] && top[2] < top[0]);
  assert_in_range (top[0] + top[1] - 2 * top[2] + 2, 0, 4);
  cairo_surface_destroy (surface);
}

static void
test_points_stand_at_their_value_and_day (void **state)
{
  GtkWidget *plot = cro_plot_new (CRO_PLOT_POINTS);
  cairo_surface_t *surface;
  int top = 0, bottom, rows[3];

  cro_plot_set (CRO_PLOT (plot), three, 3, DAY + 20, NAN);
  surface = paint (plot, HEIGHT, GTK_TEXT_DIR_LTR);
  for (int i = 0; i < 3; i++)
    {
      int x = 12 + (WIDTH - 18) * i / 2;

      assert_true (inked_rows (surface, x, 200, &top, &bottom));
      rows[i] = top;
      if (i == 1 && inked_rows (surface, x - 12, 200, &top, &bottom))
        assert_true (top > rows[1] + 20);
    }
  assert_true (rows[1] < rows[2] && rows[2] < rows[0]);
  cairo_surface_destroy (surface);
}

static void
test_a_level_lies_between_its_neighbours (void **state)
{
  GtkWidget *plot = cro_plot_new (CRO_PLOT_POINTS);
  cairo_surface_t *surface;
  int top = 0, bottom, low = 0, high = 0;

  cro_plot_set (CRO_PLOT (plot), three, 2, DAY + 20, 20);
  surface = paint (plot, HEIGHT, GTK_TEXT_DIR_LTR);
  assert_true (inked_rows (surface, 12, 200, &low, &bottom));
  assert_true (inked_rows (surface, 12 + (WIDTH - 18) / 2, 200, &high, &bottom));
  /* The level is dashed: a column in a dash meets it, one beside may not. */
  for (int x = 12 + (WIDTH - 18) / 4; x < 12 + (WIDTH - 18) / 4 + 5 && top == 0; x++)
    if (!inked_rows (surface, x, 50, &top, &bottom))
      top = 0;
  assert_in_range (top, high + 5, low + 3);
  cairo_surface_destroy (surface);
}

/* Whether any column from one to another has so much ink in a row. */
static gboolean
is_inked (cairo_surface_t *surface,
          int              from,
          int              to,
          int              y)
{
  for (int x = from; x <= to; x++)
    if (ink_at (surface, x, y) >= 100)
      return TRUE;
  return FALSE;
}

/* The labels of the highest and of the lowest value stand left of the points that have them, each in the
 * middle of its line; no others are there. */
static void
test_labels_stand_beside_their_values (void **state)
{
  GtkWidget *plot = cro_plot_new (CRO_PLOT_POINTS);
  cairo_surface_t *surface;
  int middle[2] = { 0 }, n = 0, begun = -1, top = HEIGHT, bottom = 0;

  cro_plot_set (CRO_PLOT (plot), three, 3, DAY + 20, NAN);
  cro_plot_tell (CRO_PLOT (plot), "H", "H", "");
  cro_plot_tell_ends (CRO_PLOT (plot), " ", " ");
  surface = paint (plot, HEIGHT, GTK_TEXT_DIR_LTR);
  for (int y = 0; y < HEIGHT; y++)
    {
      if (is_inked (surface, WIDTH / 3, WIDTH - 1, y))
        top = MIN (top, y);
      if (is_inked (surface, 20, WIDTH - 1, y))
        bottom = y;
      if (is_inked (surface, 0, 8, y) == (begun >= 0))
        continue;
      if (begun >= 0)
        {
          assert_in_range (n, 0, 1);
          middle[n++] = (begun + y - 1) / 2;
        }
      begun = begun >= 0 ? -1 : y;
    }
  assert_int_equal (n, 2);
  /* Points are eight pixels high. */
  assert_in_range (middle[0] - (top + 4) + 3, 0, 6);
  assert_in_range (middle[1] - (bottom - 4) + 3, 0, 6);
  cairo_surface_destroy (surface);
}

/* --- The target's scale ----------------------------------------------------------------------- */

static const struct
{
  const char       *says;
  double            pct, target;
  GtkTextDirection  direction;
  int               tick;      /* the middle of the tick */
  int               from, to;  /* full ink of the length */
} scales[] = {
  { "at the target the length meets the tick", 30, 30, GTK_TEXT_DIR_LTR, 240, 0, 240 },
  { "under the target it ends before", 15, 30, GTK_TEXT_DIR_LTR, 240, 0, 120 },
  { "over the target it passes", 36, 30, GTK_TEXT_DIR_LTR, 240, 0, 288 },
  { "far over the target it ends with the scale", 90, 30, GTK_TEXT_DIR_LTR, 240, 0, 360 },
  { "from right to left all is mirrored", 15, 30, GTK_TEXT_DIR_RTL, 120, 240, 360 },
};

static void
test_target_scale (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (scales); i++)
    {
      GtkWidget *scale = cro_target_scale_new ();
      cairo_surface_t *surface;

      cro_target_scale_set (CRO_TARGET_SCALE (scale), scales[i].pct, scales[i].target, "");
      surface = paint (scale, 11, scales[i].direction);
      for (int x = 0; x < WIDTH; x++)
        {
          gboolean is_tick = x >= scales[i].tick - 1 && x < scales[i].tick + 1;
          gboolean is_length = x >= scales[i].from && x < scales[i].to;
          int from = 0, to = 0;

          assert_true (inked_rows (surface, x, 1, &from, &to));
          if (to - from + 1 != (is_tick ? 11 : 5))
            fail_msg ("%s: %d rows of ink at %d", scales[i].says, to - from + 1, x);
          if (!is_tick && (ink_at (surface, x, 5) > 150) != is_length)
            fail_msg ("%s: the length is wrong at %d", scales[i].says, x);
        }
      cairo_surface_destroy (surface);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_steps_stand_at_their_value),
    cmocka_unit_test (test_points_stand_at_their_value_and_day),
    cmocka_unit_test (test_a_level_lies_between_its_neighbours),
    cmocka_unit_test (test_labels_stand_beside_their_values),
    cmocka_unit_test (test_target_scale),
  };

  adw_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
