#include <math.h>
#include <string.h>

#include "cro-stream-private.h"

/* Sweeps to and fro; more of them seldom find anything. */
#define SWEEPS 4

/* Passes of sifting; where bands are very many it takes longer than it is worth. */
#define SIFTINGS 6
#define MOST_SIFTED 1000

/* --- Columns ----------------------------------------------------------------------------------- */

/* By the longest way from a component; what was bought stands in the last. Returns nodes so that the
 * nearer come first. */
static guint *
dup_by_way (CroStream *self)
{
  guint n = self->nodes->len;
  guint *sorted = g_new (guint, n + 1);
  g_autofree guint *waiting = g_new0 (guint, n + 1);
  g_autofree guint *at = g_new0 (guint, n + 2);
  g_autofree guint *far = g_new (guint, self->n_bands + 1);
  guint n_sorted = 0, last = 1;

  for (guint i = 0; i < self->n_bands; i++)
    {
      at[band_at (self, i)->nearer + 2]++;
      waiting[band_at (self, i)->farther]++;
    }
  for (guint i = 2; i <= n + 1; i++)
    at[i] += at[i - 1];
  for (guint i = 0; i < self->n_bands; i++)
    far[at[band_at (self, i)->nearer + 1]++] = band_at (self, i)->farther;
  for (guint i = 0; i < n; i++)
    if (waiting[i] == 0)
      sorted[n_sorted++] = i;
  for (guint k = 0; k < n_sorted; k++)
    {
      guint node = sorted[k], column = spot_at (self, node)->column + 1;

      for (guint j = at[node]; j < at[node + 1]; j++)
        {
          Spot *behind = spot_at (self, far[j]);

          behind->column = MAX (behind->column, column);
          last = MAX (last, column);
          if (--waiting[far[j]] == 0)
            sorted[n_sorted++] = far[j];
        }
    }
  for (guint i = 0; i < n; i++)
    {
      CroStreamKind kind = node_at (self, i)->kind;

      if (kind == CRO_STREAM_BOUGHT)
        spot_at (self, i)->column = last;
      else if (kind == CRO_STREAM_LEAVING)
        spot_at (self, i)->column = NONE;
    }
  self->n_columns = last + 1;
  return sorted;
}

/* A step that takes of more than it goes into stands as far as it can: shorter bands cross less. Those
 * behind it have moved before it. */
static void
shorten (CroStream   *self,
         const guint *sorted)
{
  guint n = self->nodes->len;
  g_autofree guint *n_near = g_new0 (guint, n + 1);
  g_autofree guint *n_far = g_new0 (guint, n + 1);
  g_autofree guint *farthest = g_new (guint, n + 1);
  g_autofree guint *at = g_new0 (guint, n + 2);
  g_autofree guint *nearer = g_new (guint, self->n_bands + 1);

  for (guint i = 0; i < n; i++)
    farthest[i] = self->n_columns - 1;
  for (guint i = 0; i < self->n_bands; i++)
    {
      n_far[band_at (self, i)->nearer]++;
      n_near[band_at (self, i)->farther]++;
      at[band_at (self, i)->farther + 2]++;
    }
  for (guint i = 2; i <= n + 1; i++)
    at[i] += at[i - 1];
  for (guint i = 0; i < self->n_bands; i++)
    nearer[at[band_at (self, i)->farther + 1]++] = band_at (self, i)->nearer;
  for (guint k = n; k > 0; k--)
    {
      guint i = sorted[k - 1];
      Spot *spot = spot_at (self, i);

      if (spot->column == NONE)
        continue;
      if (node_at (self, i)->kind == CRO_STREAM_STEP && n_far[i] > n_near[i])
        spot->column = MAX (spot->column, farthest[i] - 1);
      for (guint j = at[i]; j < at[i + 1]; j++)
        farthest[nearer[j]] = MIN (farthest[nearer[j]], spot->column);
    }
}

/* What each purchase makes of every node, farthest first. */
static void
share_parts (CroStream   *self,
             const guint *sorted)
{
  guint n = self->nodes->len;
  g_autofree guint *at = g_new0 (guint, n + 2);
  g_autofree guint *bands = g_new (guint, self->n_bands + 1);

  for (guint i = 0; i < self->n_bands; i++)
    at[band_at (self, i)->nearer + 1]++;
  for (guint i = 1; i <= n; i++)
    at[i] += at[i - 1];
  for (guint i = 0; i < self->n_bands; i++)
    bands[at[band_at (self, i)->nearer]++] = i;
  for (guint i = n; i > 0; i--)
    at[i] = at[i - 1];
  at[0] = 0;
  for (guint k = n; k > 0; k--)
    {
      guint i = sorted[k - 1];
      Node *node = node_at (self, i);

      memset (node->part, 0, sizeof node->part);
      if (node->kind == CRO_STREAM_BOUGHT)
        node->part[node->rank] = 1;
      for (guint j = at[i]; j < at[i + 1] && node->far_width > 0; j++)
        {
          const Band *band = band_at (self, bands[j]);

          for (guint p = 0; p < N_PARTS; p++)
            node->part[p] += band->width / node->far_width * node_at (self, band->farther)->part[p];
        }
    }
  for (guint i = self->n_bands; i < self->bands->len; i++)
    memcpy (node_at (self, band_at (self, i)->farther)->part,
            node_at (self, band_at (self, i)->nearer)->part, sizeof node_at (self, 0)->part);
}

/* --- Pieces ------------------------------------------------------------------------------------ */

static void
add_segment (CroStream *self,
             guint      nearer,
             guint      farther,
             guint      band)
{
  Segment segment = { nearer, farther, band, band_at (self, band)->width, 0, 0 };

  g_array_append_val (self->segments, segment);
}

/* A band over several columns passes each at a spot of its own. */
static void
cut (CroStream *self)
{
  g_array_set_size (self->segments, 0);
  for (guint i = 0; i < self->n_bands; i++)
    {
      Band *band = band_at (self, i);
      guint column = spot_at (self, band->nearer)->column;
      guint last = spot_at (self, band->farther)->column, before = band->nearer;

      band->first_segment = self->segments->len;
      for (column++; column < last; column++)
        {
          Spot passing = { .column = column };

          g_array_append_val (self->spots, passing);
          add_segment (self, before, self->spots->len - 1, i);
          before = self->spots->len - 1;
        }
      add_segment (self, before, band->farther, i);
      band->n_segments = self->segments->len - band->first_segment;
    }
}

static void
index_side (CroStream *self,
            gboolean   is_far,
            guint     *at,
            guint     *segments)
{
  guint n = self->spots->len;

  memset (at, 0, (n + 1) * sizeof *at);
  for (guint i = 0; i < self->segments->len; i++)
    at[(is_far ? segment_at (self, i)->nearer : segment_at (self, i)->farther) + 1]++;
  for (guint i = 0; i < n; i++)
    at[i + 1] += at[i];
  for (guint i = 0; i < self->segments->len; i++)
    segments[at[is_far ? segment_at (self, i)->nearer : segment_at (self, i)->farther]++] = i;
  for (guint i = n; i > 0; i--)
    at[i] = at[i - 1];
  at[0] = 0;
}

static void
index_pieces (CroStream *self)
{
  guint n = self->spots->len, n_segments = self->segments->len;

  self->first = g_renew (guint, self->first, self->n_columns + 1);
  self->order = g_renew (guint, self->order, n + 1);
  self->far_at = g_renew (guint, self->far_at, n + 1);
  self->near_at = g_renew (guint, self->near_at, n + 1);
  self->far = g_renew (guint, self->far, n_segments + 1);
  self->near = g_renew (guint, self->near, n_segments + 1);
  index_side (self, TRUE, self->far_at, self->far);
  index_side (self, FALSE, self->near_at, self->near);
}

/* --- The first order ---------------------------------------------------------------------------- */

/* Beside rows in the order of these, what has none last. */
static int
compare_ends (gconstpointer a,
              gconstpointer b,
              gpointer      stream)
{
  guint i = *(const guint *) a, j = *(const guint *) b;
  double x = node_at (stream, i)->end, y = node_at (stream, j)->end;

  if (isnan (x) != isnan (y))
    return isnan (x) ? 1 : -1;
  return x < y ? -1 : x > y ? 1 : i < j ? -1 : i > j;
}

static GArray *
components_new (CroStream *self)
{
  GArray *components = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < self->nodes->len; i++)
    if (node_at (self, i)->kind == CRO_STREAM_COMPONENT)
      g_array_append_val (components, i);
  if (self->is_tied)
    g_array_sort_with_data (components, compare_ends, self);
  return components;
}

/* As one meets them, depth first along the components. */
static void
meet (CroStream *self,
      guint      spot,
      guint     *n_of,
      gboolean  *is_met,
      guint     *stack)
{
  guint n = 0;

  stack[n++] = spot;
  while (n > 0)
    {
      guint at = stack[--n];
      guint column = spot_at (self, at)->column;

      if (is_met[at])
        continue;
      is_met[at] = TRUE;
      spot_at (self, at)->rank = n_of[column];
      self->order[self->first[column] + n_of[column]++] = at;
      for (guint j = self->far_at[at + 1]; j > self->far_at[at]; j--)
        if (!is_met[segment_at (self, self->far[j - 1])->farther])
          stack[n++] = segment_at (self, self->far[j - 1])->farther;
    }
}

static void
order_as_met (CroStream *self)
{
  guint n = self->spots->len;
  g_autofree guint *n_of = g_new0 (guint, self->n_columns + 1);
  g_autofree gboolean *is_met = g_new0 (gboolean, n + 1);
  g_autofree guint *stack = g_new (guint, self->segments->len + n + 1);
  g_autoptr (GArray) components = components_new (self);

  memset (self->first, 0, (self->n_columns + 1) * sizeof *self->first);
  for (guint i = 0; i < n; i++)
    if (spot_at (self, i)->column != NONE)
      self->first[spot_at (self, i)->column + 1]++;
  for (guint c = 0; c < self->n_columns; c++)
    self->first[c + 1] += self->first[c];
  for (guint k = 0; k < components->len; k++)
    meet (self, g_array_index (components, guint, k), n_of, is_met, stack);
  /* What nothing takes stands last: there is none such but in a stream that was told badly. */
  for (guint i = 0; i < n; i++)
    if (spot_at (self, i)->column != NONE)
      meet (self, i, n_of, is_met, stack);
}

/* --- Crossings --------------------------------------------------------------------------------- */

/* Pairs of pieces between a column and the next that cross: inversions, counted along a tree of sums
 * (Barth, Juenger, Mutzel 2002, "Simple and efficient bilayer cross counting"). Each spot's pieces are
 * taken in the order of their far ends. */
static guint64
crossings_behind (CroStream *self,
                  guint      column,
                  guint     *tree)
{
  guint n = self->first[column + 2] - self->first[column + 1];
  guint n_seen = 0;
  guint64 found = 0;

  memset (tree, 0, (n + 1) * sizeof *tree);
  for (guint k = self->first[column]; k < self->first[column + 1]; k++)
    {
      guint spot = self->order[k];

      for (guint j = self->far_at[spot]; j < self->far_at[spot + 1]; j++)
        {
          guint before = 0;

          for (guint i = spot_at (self, segment_at (self, self->far[j])->farther)->rank + 1; i > 0;
               i -= i & -i)
            before += tree[i];
          found += n_seen - before;
        }
      for (guint j = self->far_at[spot]; j < self->far_at[spot + 1]; j++, n_seen++)
        for (guint i = spot_at (self, segment_at (self, self->far[j])->farther)->rank + 1; i <= n;
             i += i & -i)
          tree[i]++;
    }
  return found;
}

guint64
cro_stream_count_crossings (CroStream *self)
{
  g_autofree guint *tree = g_new (guint, self->spots->len + 2);
  guint64 found = 0;

  for (guint column = 0; column + 1 < self->n_columns; column++)
    found += crossings_behind (self, column, tree);
  return found;
}

/* --- Fewer of them ------------------------------------------------------------------------------ */

static int
compare_values (gconstpointer a,
                gconstpointer b,
                gpointer      stream)
{
  const Spot *x = spot_at (stream, *(const guint *) a), *y = spot_at (stream, *(const guint *) b);

  if (x->value != y->value)
    return x->value < y->value ? -1 : 1;
  return x->rank < y->rank ? -1 : x->rank > y->rank;
}

static void
number (CroStream *self,
        guint      column)
{
  for (guint k = self->first[column]; k < self->first[column + 1]; k++)
    spot_at (self, self->order[k])->rank = k - self->first[column];
}

/* Sorts a column by the mean place of what each is tied to at one side. */
static void
sort_by_barycentre (CroStream *self,
                    guint      column,
                    gboolean   by_near)
{
  const guint *at = by_near ? self->near_at : self->far_at;
  const guint *side = by_near ? self->near : self->far;

  for (guint k = self->first[column]; k < self->first[column + 1]; k++)
    {
      guint i = self->order[k];
      double sum = 0;

      for (guint j = at[i]; j < at[i + 1]; j++)
        {
          const Segment *segment = segment_at (self, side[j]);

          sum += spot_at (self, by_near ? segment->nearer : segment->farther)->rank;
        }
      spot_at (self, i)->value = at[i + 1] > at[i] ? sum / (at[i + 1] - at[i])
                                                   : spot_at (self, i)->rank;
    }
  g_qsort_with_data (self->order + self->first[column],
                     (int) (self->first[column + 1] - self->first[column]), sizeof (guint),
                     compare_values, self);
  number (self, column);
}

/* Crossings of the pieces of two, an upper and a lower one, at one side, less those if they stood the other way. */
static gint64
gain_at (CroStream *self,
         guint      upper,
         guint      lower,
         gboolean   by_near)
{
  const guint *at = by_near ? self->near_at : self->far_at;
  const guint *side = by_near ? self->near : self->far;
  gint64 gain = 0;

  for (guint i = at[upper]; i < at[upper + 1]; i++)
    for (guint j = at[lower]; j < at[lower + 1]; j++)
      {
        const Segment *x = segment_at (self, side[i]), *y = segment_at (self, side[j]);
        guint of_x = spot_at (self, by_near ? x->nearer : x->farther)->rank;
        guint of_y = spot_at (self, by_near ? y->nearer : y->farther)->rank;

        gain += of_x > of_y ? 1 : of_x < of_y ? -1 : 0;
      }
  return gain;
}

/* Moves a spot along its column to where its pieces cross least (sifting: Matuszewski, Schoenfeld,
 * Molitor 1999, "Using sifting for k-layer straightline crossing minimization"). */
static gboolean
sift (CroStream *self,
      guint      column,
      guint      spot)
{
  guint *order = self->order + self->first[column];
  guint n = self->first[column + 1] - self->first[column], from = spot_at (self, spot)->rank;
  guint best = from;
  gint64 gain = 0, most = 0;

  for (guint k = from; k > 0; k--)
    {
      gain += gain_at (self, order[k - 1], spot, TRUE) + gain_at (self, order[k - 1], spot, FALSE);
      if (gain > most)
        {
          most = gain;
          best = k - 1;
        }
    }
  gain = 0;
  for (guint k = from; k + 1 < n; k++)
    {
      gain += gain_at (self, spot, order[k + 1], TRUE) + gain_at (self, spot, order[k + 1], FALSE);
      if (gain > most)
        {
          most = gain;
          best = k + 1;
        }
    }
  if (best == from)
    return FALSE;
  if (best < from)
    memmove (order + best + 1, order + best, (from - best) * sizeof *order);
  else
    memmove (order + from, order + from + 1, (best - from) * sizeof *order);
  order[best] = spot;
  number (self, column);
  return TRUE;
}

static void
sift_all (CroStream *self)
{
  gboolean moved = self->segments->len <= MOST_SIFTED;

  for (int i = 0; moved && i < SIFTINGS; i++)
    {
      moved = FALSE;
      for (guint spot = 0; spot < self->spots->len; spot++)
        if (spot_at (self, spot)->column != NONE && spot_at (self, spot)->column > 0)
          moved |= sift (self, spot_at (self, spot)->column, spot);
    }
}

static void
keep_best (CroStream *self,
           guint     *best,
           guint64   *least)
{
  guint64 now = cro_stream_count_crossings (self);

  if (now >= *least)
    return;
  *least = now;
  memcpy (best, self->order, self->spots->len * sizeof *best);
}

static void
take_back (CroStream   *self,
           const guint *best)
{
  memcpy (self->order, best, self->spots->len * sizeof *best);
  for (guint column = 0; column < self->n_columns; column++)
    number (self, column);
}

static void
uncross (CroStream *self)
{
  g_autofree guint *best = g_new (guint, self->spots->len + 1);
  guint64 least = G_MAXUINT64;

  keep_best (self, best, &least);
  for (int sweep = 0; sweep < SWEEPS && least > 0; sweep++)
    {
      for (guint column = 1; column < self->n_columns; column++)
        sort_by_barycentre (self, column, TRUE);
      keep_best (self, best, &least);
      for (guint column = self->n_columns - 1; column-- > 1;)
        sort_by_barycentre (self, column, FALSE);
      keep_best (self, best, &least);
    }
  take_back (self, best);
  sift_all (self);
}

/* --- All of it ---------------------------------------------------------------------------------- */

void
cro_stream_line_up (CroStream *self,
                    gboolean   shortened)
{
  g_autofree guint *sorted = NULL;

  g_array_set_size (self->spots, 0);
  g_array_set_size (self->spots, self->nodes->len);
  sorted = dup_by_way (self);
  if (shortened)
    shorten (self, sorted);
  share_parts (self, sorted);
  cut (self);
  index_pieces (self);
  order_as_met (self);
}

void
cro_stream_order (CroStream *self)
{
  cro_stream_line_up (self, TRUE);
  uncross (self);
}
