#include <math.h>

#include "cro-stream-private.h"

/* Passes to and fro until columns have settled. */
#define PASSES 6

/* Between what has no name, between what has one and is wide, and the part of a column that may be gaps. */
#define GAP 6.0
#define NAMED_GAP 3.0
#define MOST_GAPS 0.5

/* A band beside a row is no higher, in lines of text: it would be taken for one of its neighbours'. */
#define MOST_TIED 3.5

/* A name beside what stands in the first or the last column. */
static gboolean
is_named (const CroStream *self,
          guint            spot)
{
  return spot < self->nodes->len
         && (spot_at (self, spot)->column == 0
             || spot_at (self, spot)->column + 1 == self->n_columns);
}

/* From the upper edge of one to that of the next below it. */
static double
distance (const CroStream *self,
          guint            upper,
          guint            lower,
          double           gap,
          double           name_gap)
{
  double a = spot_at (self, upper)->height, b = spot_at (self, lower)->height;

  if (is_named (self, upper) && is_named (self, lower))
    return fmax (a + NAMED_GAP, a / 2 - b / 2 + name_gap);
  return a + gap;
}

/* What a column takes beside its bands. */
static double
gaps_of (const CroStream *self,
         guint            column,
         double           gap,
         double           name_gap)
{
  double sum = 0;

  for (guint k = self->first[column]; k + 1 < self->first[column + 1]; k++)
    {
      guint upper = self->order[k], lower = self->order[k + 1];

      sum += distance (self, upper, lower, gap, name_gap) - spot_at (self, upper)->height;
    }
  return sum;
}

static double
width_of (const CroStream *self,
          guint            spot)
{
  if (spot < self->nodes->len)
    return fmax (node_at (self, spot)->near_width, node_at (self, spot)->far_width);
  return self->near_at[spot + 1] > self->near_at[spot]
             ? segment_at (self, self->near[self->near_at[spot]])->width
             : 0;
}

static void
set_heights (CroStream *self,
             double     scale)
{
  self->scale = scale;
  for (guint i = 0; i < self->spots->len; i++)
    spot_at (self, i)->height = width_of (self, i) * scale;
}

static double
gap_in (const CroStream *self,
        guint            column)
{
  guint n = self->first[column + 1] - self->first[column];

  return n > 1 ? fmin (GAP, MOST_GAPS * (self->bottom - self->top) / (n - 1)) : GAP;
}

/* --- Beside rows -------------------------------------------------------------------------------- */

/* The largest at which no component stands in a neighbour's way, or beyond the picture. */
static double
tied_scale (const CroStream *self)
{
  double scale = INFINITY;

  for (guint k = self->first[0]; k < self->first[1]; k++)
    {
      double end = node_at (self, self->order[k])->end, width = width_of (self, self->order[k]);
      double room = 2 * fmin (end - self->top, self->bottom - end);

      if (isnan (end))
        break;
      if (width > 0)
        scale = fmin (scale, fmin (fmax (room, 1), MOST_TIED * self->size) / width);
      if (k > self->first[0])
        {
          double before = node_at (self, self->order[k - 1])->end;
          double both = (width + width_of (self, self->order[k - 1])) / 2;

          if (both > 0)
            scale = fmin (scale, fmax (end - before - NAMED_GAP, 1) / both);
        }
    }
  return scale;
}

/* Each component at its row, what has none below. */
static void
tie (CroStream *self,
     double     name_gap)
{
  double below = self->top;

  for (guint k = self->first[0]; k < self->first[1]; k++)
    {
      Spot *spot = spot_at (self, self->order[k]);
      double end = node_at (self, self->order[k])->end;

      spot->y = fmin (isnan (end) ? below : end, self->bottom) - spot->height / 2;
      below = spot->y + spot->height + name_gap;
    }
}

/* The largest at which every column fits. What names take beside narrow bands hangs on the scale
 * itself, so it is halved until it does. */
static void
find_scale (CroStream *self,
            double     name_gap,
            double     most_scale)
{
  double height = self->bottom - self->top, low = 0;
  double high = fmin (most_scale > 0 ? most_scale : INFINITY, self->is_tied ? tied_scale (self) : INFINITY);
  guint first = self->is_tied ? 1 : 0;

  for (guint column = first; column < self->n_columns; column++)
    {
      double width = 0;

      for (guint k = self->first[column]; k < self->first[column + 1]; k++)
        width += width_of (self, self->order[k]);
      if (width > 0)
        high = fmin (high, height / width);
    }
  if (!isfinite (high))
    high = 0;
  for (int i = 0; i < 20 && high > 0; i++)
    {
      double middle = i == 0 ? high : (low + high) / 2;
      gboolean fits = TRUE;

      set_heights (self, middle);
      for (guint column = first; column < self->n_columns && fits; column++)
        {
          double sum = gaps_of (self, column, gap_in (self, column), name_gap);

          for (guint k = self->first[column]; k < self->first[column + 1]; k++)
            sum += spot_at (self, self->order[k])->height;
          fits = sum <= height;
        }
      if (fits)
        low = middle;
      else
        high = middle;
      if (fits && i == 0)
        break;
    }
  set_heights (self, low);
}

/* --- Places ------------------------------------------------------------------------------------- */

typedef struct
{
  double sum;      /* of weight times place */
  double weight;
  guint  n;
} Block;

/* Isotonic regression by pooling neighbours that stand in each other's way: places y of a column with
 * y[k + 1] >= y[k] + distance that are, weighted, nearest to what is wanted. */
static void
settle (CroStream    *self,
        guint         column,
        const double *wanted,
        const double *weight,
        double        name_gap,
        Block        *blocks,
        double       *offset)
{
  guint first = self->first[column], n = self->first[column + 1] - first, n_blocks = 0;
  double gap = gap_in (self, column), last, k0 = 0;

  for (guint k = 0; k < n; k++)
    {
      if (k > 0)
        k0 += distance (self, self->order[first + k - 1], self->order[first + k], gap, name_gap);
      offset[k] = k0;
      blocks[n_blocks++] = (Block){ weight[k] * (wanted[k] - k0), weight[k], 1 };
      while (n_blocks > 1
             && blocks[n_blocks - 2].sum * blocks[n_blocks - 1].weight
                    > blocks[n_blocks - 1].sum * blocks[n_blocks - 2].weight)
        {
          Block *a = &blocks[n_blocks - 2], *b = &blocks[n_blocks - 1];

          a->sum += b->sum;
          a->weight += b->weight;
          a->n += b->n;
          n_blocks--;
        }
    }
  if (n == 0)
    return;
  last = fmax (self->top, self->bottom - k0 - spot_at (self, self->order[first + n - 1])->height);
  for (guint b = 0, k = 0; b < n_blocks; b++)
    for (guint i = 0; i < blocks[b].n; i++, k++)
      spot_at (self, self->order[first + k])->y
          = offset[k] + CLAMP (blocks[b].sum / blocks[b].weight, self->top, last);
}

/* Where a spot would stand if only what it is tied to at one side counted. */
static double
wanted_of (CroStream *self,
           guint      spot,
           gboolean   by_near,
           double    *weight)
{
  const guint *at = by_near ? self->near_at : self->far_at;
  const guint *side = by_near ? self->near : self->far;
  double sum = 0, total = 0;

  for (guint j = at[spot]; j < at[spot + 1]; j++)
    {
      const Segment *segment = segment_at (self, side[j]);
      double w = segment->width * self->scale + 0.05;

      /* Ends that are to stand at one height. */
      sum += w * (by_near ? segment->y_near - (segment->y_far - spot_at (self, spot)->y)
                          : segment->y_far - (segment->y_near - spot_at (self, spot)->y));
      total += w;
    }
  *weight = fmax (total, 1e-3);
  return total > 0 ? sum / total : spot_at (self, spot)->y;
}

/* The ends of all pieces along a spot, in the order of what they lead to. */
static int
compare_far (gconstpointer a,
             gconstpointer b,
             gpointer      stream)
{
  const Segment *x = segment_at (stream, *(const guint *) a), *y = segment_at (stream, *(const guint *) b);
  guint of_x = spot_at (stream, x->farther)->rank, of_y = spot_at (stream, y->farther)->rank;

  return of_x != of_y ? (of_x < of_y ? -1 : 1) : (x->band < y->band ? -1 : x->band > y->band);
}

static int
compare_near (gconstpointer a,
              gconstpointer b,
              gpointer      stream)
{
  const Segment *x = segment_at (stream, *(const guint *) a), *y = segment_at (stream, *(const guint *) b);
  guint of_x = spot_at (stream, x->nearer)->rank, of_y = spot_at (stream, y->nearer)->rank;

  return of_x != of_y ? (of_x < of_y ? -1 : 1) : (x->band < y->band ? -1 : x->band > y->band);
}

static void
sort_ends (CroStream *self)
{
  for (guint i = 0; i < self->spots->len; i++)
    {
      if (self->far_at[i + 1] > self->far_at[i] + 1)
        g_qsort_with_data (self->far + self->far_at[i], (int) (self->far_at[i + 1] - self->far_at[i]),
                           sizeof (guint), compare_far, self);
      if (self->near_at[i + 1] > self->near_at[i] + 1)
        g_qsort_with_data (self->near + self->near_at[i],
                           (int) (self->near_at[i + 1] - self->near_at[i]), sizeof (guint),
                           compare_near, self);
    }
}

static void
set_ends (CroStream *self,
          guint      column)
{
  for (guint k = self->first[column]; k < self->first[column + 1]; k++)
    {
      guint i = self->order[k];
      double far = spot_at (self, i)->y, near = far;

      for (guint j = self->far_at[i]; j < self->far_at[i + 1]; j++)
        {
          segment_at (self, self->far[j])->y_near = far;
          far += segment_at (self, self->far[j])->width * self->scale;
        }
      for (guint j = self->near_at[i]; j < self->near_at[i + 1]; j++)
        {
          segment_at (self, self->near[j])->y_far = near;
          near += segment_at (self, self->near[j])->width * self->scale;
        }
    }
}

static void
place_column (CroStream *self,
              guint      column,
              gboolean   by_near,
              double     name_gap)
{
  guint first = self->first[column], n = self->first[column + 1] - first;
  g_autofree double *memory = g_new (double, 3 * (gsize) n + 3);
  g_autofree Block *blocks = g_new (Block, n + 1);

  for (guint k = 0; k < n; k++)
    memory[k] = wanted_of (self, self->order[first + k], by_near, &memory[n + k]);
  settle (self, column, memory, memory + n, name_gap, blocks, memory + 2 * (gsize) n);
}

/* One below the other, with what is left of the height between them. */
static void
spread (CroStream *self,
        guint      column,
        double     name_gap)
{
  double gap = gap_in (self, column), sum = 0, more, y = self->top;
  guint first = self->first[column], last = self->first[column + 1];

  for (guint k = first; k < last; k++)
    sum += k + 1 < last ? distance (self, self->order[k], self->order[k + 1], gap, name_gap)
                        : spot_at (self, self->order[k])->height;
  more = last > first + 1 ? fmax (self->bottom - self->top - sum, 0) / (last - first - 1) : 0;
  for (guint k = first; k < last; k++)
    {
      spot_at (self, self->order[k])->y = y;
      if (k + 1 < last)
        y += more + distance (self, self->order[k], self->order[k + 1], gap, name_gap);
    }
}

void
cro_stream_place (CroStream *self,
                  double     name_gap,
                  double     most_scale)
{
  find_scale (self, name_gap, most_scale);
  for (guint column = 0; column < self->n_columns; column++)
    spread (self, column, name_gap);
  if (self->is_tied)
    tie (self, name_gap);
  sort_ends (self);
  for (guint column = 0; column < self->n_columns; column++)
    set_ends (self, column);
  for (int pass = 0; pass < PASSES; pass++)
    {
      gboolean by_near = pass % 2 == 0;

      for (guint i = 0; i < self->n_columns; i++)
        {
          guint column = by_near ? i : self->n_columns - 1 - i;

          if (column == (by_near ? 0 : self->n_columns - 1) || (column == 0 && self->is_tied))
            continue;
          place_column (self, column, by_near, name_gap);
          set_ends (self, column);
        }
    }
}
