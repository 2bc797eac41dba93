/* The stream of what something is made of: its layout, and a frame of it.
 *
 * Beside     One reverse sweep of the same graph with a sort of its nodes by what they are worth: what
 *            must be done to know what a picture shows at all. A frame beside filling its area.
 * Counted    Widths as they come from a book, names of two words, a font that is warm.
 *
 * Usage: bench-stream */
#include "bench.h"
#include "cro-stream.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#define WIDTH 470
#define HEIGHT 900

typedef struct
{
  CroStream     *stream;
  CroStream     *before;       /* what it moves from */
  CroStreamLook  look;
  cairo_t       *cr;
  guint          n;
  guint          n_links;
  guint         *nearer;
  guint         *farther;
  double        *part;
  double        *worth;
  guint         *order;
} Bench;

static int
by_worth (gconstpointer a,
          gconstpointer b,
          gpointer      user_data)
{
  const double *worth = user_data;
  double x = worth[*(const guint *) a], y = worth[*(const guint *) b];

  return x > y ? -1 : x < y;
}

static void
sweep_and_sort (void *user_data)
{
  Bench *bench = user_data;

  for (guint i = 0; i < bench->n; i++)
    {
      bench->worth[i] = i < bench->n / 10 ? 1 : 0;
      bench->order[i] = i;
    }
  for (guint i = 0; i < bench->n_links; i++)
    bench->worth[bench->farther[i]] += bench->worth[bench->nearer[i]] * bench->part[i];
  g_qsort_with_data (bench->order, (int) bench->n, sizeof (guint), by_worth, bench->worth);
}

static void
arrange (void *user_data)
{
  Bench *bench = user_data;

  cro_stream_arrange (bench->stream, &bench->look, WIDTH, HEIGHT);
}

static void
draw (void *user_data)
{
  Bench *bench = user_data;

  cairo_set_source_rgb (bench->cr, 1, 1, 1);
  cairo_paint (bench->cr);
  cro_stream_draw (bench->stream, bench->cr, &bench->look, CRO_STREAM_NOWHERE);
}

static void
move_and_draw (void *user_data)
{
  Bench *bench = user_data;

  cro_stream_move (bench->stream, bench->before, 0.5);
  draw (bench);
}

static void
fill (void *user_data)
{
  Bench *bench = user_data;

  cairo_set_source_rgb (bench->cr, 1, 1, 1);
  cairo_paint (bench->cr);
}

/* A tenth of them components, four tenths steps, the rest bought; each takes of three. */
static void
make (Bench *bench,
      guint  n)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (n);
  guint n_near = n / 10, n_steps = n * 4 / 10;

  bench->stream = cro_stream_new ();
  bench->n = n;
  bench->n_links = 0;
  bench->nearer = g_new (guint, 3 * n);
  bench->farther = g_new (guint, 3 * n);
  bench->part = g_new (double, 3 * n);
  bench->worth = g_new0 (double, n);
  bench->order = g_new (guint, n);
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *name = g_strdup_printf ("Smoked thing %u", i);
      CroStreamThing thing = {
        .kind = i < n_near ? CRO_STREAM_COMPONENT : i < n_near + n_steps ? CRO_STREAM_STEP : CRO_STREAM_BOUGHT,
        .id = i + 1, .name = name, .figure = "0.12", .rank = i - n_near - n_steps,
      };

      cro_stream_add (bench->stream, &thing);
      bench->worth[i] = i < n_near;
    }
  for (guint i = 0; i < n_near + n_steps; i++)
    for (int k = 0; k < 3; k++)
      {
        /* Mostly what is near, as in a kitchen, so that it is no deeper than one. */
        gint32 from = (gint32) MAX (i + n_steps / 6 + 1, n_near), to = (gint32) n;
        guint farther = (guint) g_rand_int_range (rand, MIN (from, to - 1), to);
        double width = bench->worth[i] / 3;

        bench->nearer[bench->n_links] = i;
        bench->farther[bench->n_links] = farther;
        bench->part[bench->n_links++] = 1 / 3.0;
        bench->worth[farther] += width;
        cro_stream_link (bench->stream, i, farther, width);
      }
}

static void
clear (Bench *bench)
{
  cro_stream_free (bench->stream);
  g_free (bench->nearer);
  g_free (bench->farther);
  g_free (bench->part);
  g_free (bench->worth);
  g_free (bench->order);
}

static void
run (Bench      *bench,
     guint       n,
     const char *what,
     double      goal_seconds)
{
  CroBenchPair pair;
  Bench other = { .look = bench->look };

  make (bench, n);
  make (&other, n);
  bench->before = other.stream;
  cro_stream_arrange (other.stream, &other.look, WIDTH, HEIGHT * 3 / 4);
  pair = cro_bench_pair (arrange, sweep_and_sort, bench, 21, 5);
  printf ("%s: %u links; layout %.2f ms, %s (goal %.0f ms)\n", what, bench->n_links,
          pair.thread_ours * 1e3, pair.thread_ours <= goal_seconds ? "met" : "missed", goal_seconds * 1e3);
  cro_bench_row_of ("layout", "sweep and sort", &pair, 0);
  arrange (bench);
  pair = cro_bench_pair (draw, fill, bench, 21, 2);
  cro_bench_row_of ("a frame", "an empty one", &pair, 0);
  pair = cro_bench_pair (move_and_draw, fill, bench, 21, 2);
  printf ("a frame while figures move: %.2f ms of work, %s (goal 8 ms)\n", pair.thread_ours * 1e3,
          pair.thread_ours <= 8e-3 ? "met" : "missed");
  clear (bench);
  clear (&other);
}

int
main (int    argc,
      char **argv)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDTH, HEIGHT);
  PangoFontDescription *font = pango_font_description_from_string ("Sans");
  Bench bench = { .cr = cairo_create (surface) };

  pango_font_description_set_absolute_size (font, 13 * PANGO_SCALE);
  bench.look.font = font;
  bench.look.palette = CRO_STREAM_LIGHT;
  cro_bench_head ("the stream");
  run (&bench, 100, "150 bands", 2e-3);
  run (&bench, 1000, "1,000 nodes", 8e-3);
  pango_font_description_free (font);
  cairo_destroy (bench.cr);
  cairo_surface_destroy (surface);
  return 0;
}
