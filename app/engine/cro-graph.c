#include "cro-graph.h"

#include <string.h>

/* Buckets by which raws are sorted by use: eight to a power of two. Exact order within a
 * bucket gains nothing. */
#define USE_BUCKETS 256
/* Rows longer than this need not stand with their equals. */
#define LENGTH_BUCKETS 256

/* depth while the row waits on the stack for its parts */
#define OPEN UINT32_MAX

typedef struct
{
  uint32_t *start;    /* [n_rows + 1] lines of a row slot in at[] */
  uint32_t *at;       /* [n_lines] line slots by row; not used if they stand so already */
  uint32_t *below_at; /* [n_rows + 1] rows below a row slot in below[] */
  uint32_t *below;    /* [n_lines] row slots that make what a row takes */
  uint32_t *depth;    /* [n_rows] 1 for a row of raws; 0 unvisited */
  uint32_t *cursor;   /* [max (n_rows, n_items) + 1] */
  uint32_t *stack;    /* [n_rows] */
  uint32_t *sorted;   /* [n_rows] */
  uint32_t *use;      /* [n_items] */
  uint32_t *bucket;   /* [max (n_rows, USE_BUCKETS, LENGTH_BUCKETS) + 2] */
  bool      grouped;  /* lines stand by row and position as they are */
} Work;

static size_t
larger (size_t a,
        size_t b)
{
  return a > b ? a : b;
}

/* Lays the workspace out; returns its size in uint32_t. */
static size_t
lay_out (Work     *work,
         uint32_t *memory,
         size_t    n_items,
         size_t    n_rows,
         size_t    n_lines)
{
  size_t used = 0;

#define TAKE(field, n) (work->field = memory != NULL ? memory + used : NULL, used += (n))
  TAKE (start, n_rows + 1);
  TAKE (at, n_lines);
  TAKE (below_at, n_rows + 1);
  TAKE (below, n_lines);
  TAKE (depth, n_rows);
  TAKE (cursor, larger (n_rows, n_items) + 1);
  TAKE (stack, n_rows);
  TAKE (sorted, n_rows);
  TAKE (use, n_items);
  TAKE (bucket, larger (larger (n_rows, USE_BUCKETS), LENGTH_BUCKETS) + 2);
#undef TAKE
  return used;
}

/* Turns counts in [1 .. n] into offsets. */
static void
accumulate (uint32_t *counts,
            size_t    n)
{
  for (size_t i = 0; i < n; i++)
    counts[i + 1] += counts[i];
}

/* Counts lines by row and uses by item, and sees whether the lines stand in order. Lines of
 * one row mostly follow one another, and are counted together. */
static void
count (const CroGraphSource *source,
       Work                 *work)
{
  const CroLines lines = *source->lines;
  uint32_t *use = work->use;
  bool grouped = true;
  size_t end;

  memset (work->start, 0, (source->n_rows + 1) * sizeof *work->start);
  memset (use, 0, source->n_items * sizeof *use);

  for (size_t i = 0; i < lines.n; i = end)
    {
      int32_t row = lines.row[i];

      end = i + 1;
      grouped &= row >= 0 && (i == 0 || row > lines.row[i - 1]);
      if (row < 0)
        continue;
      use[lines.item[i]]++;
      for (; end < lines.n && lines.row[end] == row; end++)
        {
          use[lines.item[end]]++;
          grouped &= lines.position[end] >= lines.position[end - 1];
        }
      work->start[row + 1] += (uint32_t) (end - i);
    }
  work->grouped = grouped;
  accumulate (work->start, source->n_rows);
}

static inline bool
stands_after (const CroLines *lines,
              uint32_t        a,
              uint32_t        b)
{
  return lines->position[a] != lines->position[b] ? lines->position[a] > lines->position[b] : a > b;
}

/* Shell's sort: insertion, which suits the few lines of a usual row, over shrinking gaps, so
 * that a row as long as the book in the worst order is sorted too. */
static void
sort_by_position (const CroLines *lines,
                  uint32_t       *at,
                  size_t          n)
{
  size_t gap = 1;

  while (gap < n / 9)
    gap = 3 * gap + 1;
  for (; gap > 0; gap /= 3)
    for (size_t i = gap; i < n; i++)
      {
        uint32_t line = at[i];
        size_t k = i;

        for (; k >= gap && stands_after (lines, at[k - gap], line); k -= gap)
          at[k] = at[k - gap];
        at[k] = line;
      }
}

/* Gathers the lines of each row, by position. */
static void
group (const CroGraphSource *source,
       Work                 *work)
{
  const CroLines *lines = source->lines;

  if (work->grouped)
    return;
  memcpy (work->cursor, work->start, source->n_rows * sizeof *work->start);
  for (size_t i = 0; i < lines->n; i++)
    if (lines->row[i] >= 0)
      work->at[work->cursor[lines->row[i]]++] = (uint32_t) i;
  for (size_t r = 0; r < source->n_rows; r++)
    sort_by_position (lines, work->at + work->start[r], work->start[r + 1] - work->start[r]);
}

static inline uint32_t
line_at (const Work *work,
         size_t      position)
{
  return work->grouped ? (uint32_t) position : work->at[position];
}

/* Gathers the rows below each row. Every line writes, and what is made moves on: a branch would
 * be guessed wrong at every third line. */
static void
gather_below (const CroGraphSource *source,
              Work                 *work)
{
  const int32_t *makers = source->maker;
  const uint32_t *items = source->lines->item;
  uint32_t *below = work->below;
  uint32_t n = 0;

  for (size_t r = 0; r < source->n_rows; r++)
    {
      uint32_t end = work->start[r + 1];

      work->below_at[r] = n;
      for (uint32_t k = work->start[r]; k < end; k++)
        {
          int32_t maker = makers[items[line_at (work, k)]];

          below[n] = (uint32_t) maker;
          n += maker >= 0;
        }
    }
  work->below_at[source->n_rows] = n;
}

/* Moves on along the rows below a row to the next that is unsettled. Returns it, or -1 when
 * all are settled; *deepest grows by what it passes. */
static int32_t
next_unsettled (Work     *work,
                uint32_t  row,
                uint32_t *deepest)
{
  uint32_t end = work->below_at[row + 1];
  uint32_t k = work->cursor[row];

  for (; k < end; k++)
    {
      uint32_t depth = work->depth[work->below[k]];

      if (depth == 0 || depth == OPEN)
        break;
      if (depth > *deepest)
        *deepest = depth;
    }
  work->cursor[row] = k;
  return k < end ? (int32_t) work->below[k] : -1;
}

/* Settles the depth of a row and of all below it with a stack of our own: a book may be deep.
 * stack[] holds the path from the row down, and `sorted` the depth found so far of each row
 * on it. Returns 0, or the length of a cycle, which then is the top of the stack. */
static size_t
settle (Work     *work,
        uint32_t  root)
{
  size_t n = 0;

  work->stack[n++] = root;
  work->sorted[root] = 0;
  work->depth[root] = OPEN;
  while (n > 0)
    {
      uint32_t row = work->stack[n - 1];
      int32_t part = next_unsettled (work, row, &work->sorted[row]);

      if (part < 0)
        {
          work->depth[row] = work->sorted[row] + 1;
          n--;
        }
      else if (work->depth[part] == OPEN)
        {
          size_t k = n - 1;

          while (work->stack[k] != (uint32_t) part)
            k--;
          memmove (work->stack, work->stack + k, (n - k) * sizeof *work->stack);
          return n - k;
        }
      else
        {
          work->stack[n++] = (uint32_t) part;
          work->sorted[part] = 0;
          work->depth[part] = OPEN;
        }
    }
  return 0;
}

static size_t
settle_all (const CroGraphSource *source,
            Work                 *work,
            uint32_t             *cycle)
{
  gather_below (source, work);
  memcpy (work->cursor, work->below_at, source->n_rows * sizeof *work->below_at);
  memset (work->depth, 0, source->n_rows * sizeof *work->depth);
  for (size_t r = 0; r < source->n_rows; r++)
    if (work->depth[r] == 0)
      {
        size_t length = settle (work, (uint32_t) r);

        if (length > 0)
          {
            memcpy (cycle, work->stack, length * sizeof *cycle);
            return length;
          }
      }
  return 0;
}

static uint32_t
length_key (const Work *work,
            uint32_t    row)
{
  uint32_t length = work->start[row + 1] - work->start[row];

  return length < LENGTH_BUCKETS ? length : LENGTH_BUCKETS - 1;
}

/* Rows by depth, and within one depth by length: two stable counting sorts. */
static void
number_rows (const CroGraphSource *source,
             Work                 *work,
             CroGraph             *graph)
{
  size_t n = source->n_rows;
  uint32_t *bucket = work->bucket;

  memset (bucket, 0, (LENGTH_BUCKETS + 1) * sizeof *bucket);
  for (size_t r = 0; r < n; r++)
    bucket[length_key (work, (uint32_t) r) + 1]++;
  accumulate (bucket, LENGTH_BUCKETS);
  for (size_t r = 0; r < n; r++)
    work->sorted[bucket[length_key (work, (uint32_t) r)]++] = (uint32_t) r;

  memset (bucket, 0, (n + 2) * sizeof *bucket);
  for (size_t r = 0; r < n; r++)
    bucket[work->depth[r] + 1]++;
  accumulate (bucket, n + 1);
  for (size_t k = 0; k < n; k++)
    {
      uint32_t slot = work->sorted[k];

      graph->slot_of_row[bucket[work->depth[slot]]++] = slot;
    }
  for (size_t r = 0; r < n; r++)
    graph->row_of_slot[graph->slot_of_row[r]] = (uint32_t) r;
}

/* 0 for the most used, in steps of an eighth of a power of two. */
static uint32_t
use_key (uint32_t use)
{
  int bits = use > 7 ? 31 - __builtin_clz (use) : 2;
  uint32_t eighths = use > 7 ? (use >> (bits - 3)) & 7 : use;

  return USE_BUCKETS - 1 - ((uint32_t) (bits - 2) * 8 + eighths);
}

static void
number_raws (const CroGraphSource *source,
             Work                 *work,
             CroGraph             *graph)
{
  uint32_t *bucket = work->bucket;
  size_t n_raws = 0;

  memset (bucket, 0, (USE_BUCKETS + 1) * sizeof *bucket);
  for (size_t i = 0; i < source->n_items; i++)
    if (source->maker[i] < 0)
      {
        bucket[use_key (work->use[i]) + 1]++;
        n_raws++;
      }
  accumulate (bucket, USE_BUCKETS);
  for (size_t i = 0; i < source->n_items; i++)
    if (source->maker[i] < 0)
      {
        uint32_t node = bucket[use_key (work->use[i])]++;

        graph->node_of_item[i] = node;
        graph->item_of_node[node] = (uint32_t) i;
        graph->made_by[node] = CRO_NO_ROW;
      }
  graph->n_raws = n_raws;
}

static void
number_outputs (const CroGraphSource *source,
                CroGraph             *graph)
{
  memset (graph->made, 0, (source->n_rows + 1) * sizeof *graph->made);
  for (size_t i = 0; i < source->n_items; i++)
    if (source->maker[i] >= 0)
      graph->made[graph->row_of_slot[source->maker[i]] + 1]++;
  graph->made[0] = (uint32_t) graph->n_raws;
  accumulate (graph->made, source->n_rows);

  /* made[r] serves as the cursor of row r, and is set back by the shift below. */
  for (size_t i = 0; i < source->n_items; i++)
    if (source->maker[i] >= 0)
      {
        uint32_t row = graph->row_of_slot[source->maker[i]];
        uint32_t node = graph->made[row]++;

        graph->node_of_item[i] = node;
        graph->item_of_node[node] = (uint32_t) i;
        graph->made_by[node] = row;
      }
  for (size_t r = source->n_rows; r > 0; r--)
    graph->made[r] = graph->made[r - 1];
  graph->made[0] = (uint32_t) graph->n_raws;
}

static void
lay_lines (const CroGraphSource *source,
           const Work           *work,
           CroGraph             *graph)
{
  const uint32_t *items = source->lines->item, *nodes = graph->node_of_item;
  uint32_t *part = graph->part, *line_slot = graph->line_slot;
  uint32_t n = 0;

  for (size_t r = 0; r < source->n_rows; r++)
    {
      uint32_t slot = graph->slot_of_row[r];
      uint32_t end = work->start[slot + 1];

      graph->first[r] = n;
      for (uint32_t k = work->start[slot]; k < end; k++, n++)
        {
          uint32_t line = line_at (work, k);

          line_slot[n] = line;
          part[n] = nodes[items[line]];
        }
    }
  graph->first[source->n_rows] = n;
  graph->n_lines = n;
}

static void
index_uses (const CroGraphSource *source,
            Work                 *work,
            CroGraph             *graph)
{
  const uint32_t *part = graph->part;
  uint32_t *cursor = work->cursor, *used_in = graph->used_in;
  uint32_t total = 0;

  for (size_t i = 0; i < source->n_items; i++)
    {
      graph->used_first[i] = cursor[i] = total;
      total += work->use[graph->item_of_node[i]];
    }
  graph->used_first[source->n_items] = total;
  for (size_t r = 0; r < source->n_rows; r++)
    {
      uint32_t end = graph->first[r + 1];

      for (uint32_t l = graph->first[r]; l < end; l++)
        used_in[cursor[part[l]]++] = (uint32_t) r;
    }
}

size_t
cro_graph_workspace (size_t n_items,
                     size_t n_rows,
                     size_t n_lines)
{
  Work work;

  return lay_out (&work, NULL, n_items, n_rows, n_lines) * sizeof (uint32_t);
}

size_t
cro_graph_find_cycle (const CroGraphSource *source,
                      void                 *workspace,
                      uint32_t             *cycle)
{
  Work work;

  lay_out (&work, workspace, source->n_items, source->n_rows, source->lines->n);
  count (source, &work);
  group (source, &work);
  return settle_all (source, &work, cycle);
}

size_t
cro_graph_order (const CroGraphSource *source,
                 CroGraph             *graph,
                 void                 *workspace,
                 uint32_t             *cycle)
{
  Work work;
  size_t length;

  lay_out (&work, workspace, source->n_items, source->n_rows, source->lines->n);
  count (source, &work);
  group (source, &work);
  length = settle_all (source, &work, cycle);
  if (length > 0)
    return length;

  graph->n_items = source->n_items;
  graph->n_rows = source->n_rows;
  number_rows (source, &work, graph);
  number_raws (source, &work, graph);
  number_outputs (source, graph);
  lay_lines (source, &work, graph);
  index_uses (source, &work, graph);
  return 0;
}

bool
cro_graph_next_user (const CroGraph *graph,
                     uint32_t        node,
                     uint32_t       *at,
                     uint32_t       *row)
{
  const uint32_t *rows = graph->used_in + graph->used_first[node];
  uint32_t n = graph->used_first[node + 1] - graph->used_first[node];

  if (*at >= n)
    return false;
  *row = rows[*at];
  /* They stand rising. */
  while (*at < n && rows[*at] == *row)
    ++*at;
  return true;
}
