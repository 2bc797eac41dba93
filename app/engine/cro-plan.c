#include "cro-plan.h"

#include <math.h>
#include <string.h>

#include "cro-money.h"

/* Sums of doubles lose about this part of a count: more than a hundred thousand need more than the
 * fixed allowance, though never more than half a one. */
#define COUNTED 1e-14

static double
count_up (double count,
          double allowed)
{
  return fmax (0, ceil (count - fmin (0.5, fmax (allowed, COUNTED * count))));
}

/* smallest in millionths of a batch. */
static double
n_batches (double  runs,
           int64_t smallest)
{
  if (smallest == 0)
    return runs;
  return count_up (runs * 1e6 / (double) smallest, CRO_ALLOWED) * (double) smallest / 1e6;
}

/* Below one pack the allowance is a part of what is needed: a trace of saffron takes a box. */
double
cro_plan_packs (double needed,
                double pack)
{
  return count_up (needed / pack, CRO_ALLOWED * fmin (1, needed / pack));
}

double
cro_plan_left (double there,
               double needed)
{
  return there - needed > CRO_ALLOWED * there ? there - needed : 0;
}

/* --- Pans ----------------------------------------------------------------------------------------- */

static inline bool
is_recovered (const CroGraph *graph,
              const CroLines *lines,
              uint32_t        l)
{
  return lines->recovered[graph->line_slot[l]] > 0 && graph->part[l] < graph->n_raws;
}

static inline double
filled (const CroGraph *graph,
        const CroLines *lines,
        uint32_t        l)
{
  return graph->quantity[l] * (double) CRO_WHOLE_PCT
         / (double) (CRO_WHOLE_PCT - lines->recovered[graph->line_slot[l]]);
}

/* A batch may take its oil on two lines, one of them used up: both fill one pan. pans may be NULL:
 * then they are counted. */
static size_t
add_pans (const CroGraph *graph,
          const CroLines *lines,
          double         *of_batch,
          size_t          row,
          CroPan         *pans)
{
  uint32_t first = graph->first[row], end = graph->first[row + 1];
  size_t n = 0;

  for (uint32_t l = first; l < end; l++)
    of_batch[graph->part[l]] += filled (graph, lines, l);
  for (uint32_t l = first; l < end; l++)
    if (is_recovered (graph, lines, l) && of_batch[graph->part[l]] > 0)
      {
        if (pans != NULL)
          pans[n] = (CroPan){ (uint32_t) row, graph->part[l], of_batch[graph->part[l]] };
        of_batch[graph->part[l]] = 0;
        n++;
      }
  for (uint32_t l = first; l < end; l++)
    of_batch[graph->part[l]] = 0;
  return n;
}

size_t
cro_plan_find_pans (const CroGraph *graph,
                    const CroLines *lines,
                    double         *of_batch,
                    CroPan         *pans)
{
  size_t n = 0;

  for (size_t row = 0; row < graph->n_rows; row++)
    {
      bool recovers = false;

      if (graph->made[row] == graph->made[row + 1])
        continue;
      for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
        recovers |= is_recovered (graph, lines, l);
      if (recovers)
        n += add_pans (graph, lines, of_batch, row, pans != NULL ? pans + n : NULL);
    }
  return n;
}

/* --- Running ------------------------------------------------------------------------------------- */

/* r of a preparation; its outputs' needs are complete, as all that takes them stands behind it. */
static double
runs_of (const CroGraph      *graph,
         const CroPlanSource *source,
         const double        *need,
         size_t               row)
{
  double runs = 0;

  for (uint32_t node = graph->made[row]; node < graph->made[row + 1]; node++)
    {
      double needed = cro_plan_needed (need[node], source->in_house[node]);

      if (source->used[node] > 0 && needed > runs * source->used[node])
        runs = needed / source->used[node];
    }
  return runs;
}

/* Works on copies: what is written might else be one of the pointers, for all the compiler knows. */
static void
run_rows (const CroGraph      graph,
          const CroPlanSource source,
          const CroPlan       plan)
{
  for (size_t row = graph.n_rows; row-- > 0;)
    {
      bool is_made = graph.made[row] < graph.made[row + 1];
      double runs = is_made ? runs_of (&graph, &source, plan.need, row) : source.times[row];
      double batches = is_made ? n_batches (runs, source.smallest[row]) : runs;
      size_t first = graph.first[row];

      plan.runs[row] = runs;
      plan.batches[row] = batches;
      if (!(batches > 0))
        continue;
#pragma GCC unroll 4
      for (size_t l = graph.first[row + 1]; l > first; l--)
        plan.need[graph.part[l - 1]] += batches * graph.quantity[l - 1];
    }
}

void
cro_plan_run (const CroGraph      *graph,
              const CroPlanSource *source,
              CroPlan             *plan)
{
  memset (plan->need, 0, graph->n_items * sizeof *plan->need);
  memset (plan->pan, 0, graph->n_items * sizeof *plan->pan);
  run_rows (*graph, *source, *plan);
  for (size_t i = 0; i < source->n_pans; i++)
    {
      const CroPan *pan = &source->pans[i];
      double batch = plan->batches[pan->row] > 0 ? fmin (1, plan->runs[pan->row]) : 0;

      if (batch * pan->filled > plan->pan[pan->node])
        plan->pan[pan->node] = batch * pan->filled;
    }
}

/* --- What is known of it ------------------------------------------------------------------------ */

static unsigned
marks_of_row (const CroGraph      *graph,
              const CroPlanSource *source,
              const uint8_t       *node_marks,
              size_t               row)
{
  unsigned marks = source->times[row] > 0 ? CRO_PLAN_TAKEN : 0;

  for (uint32_t node = graph->made[row]; node < graph->made[row + 1]; node++)
    if (node_marks[node] & CRO_PLAN_TAKEN)
      marks |= node_marks[node] | (source->used[node] > 0 ? 0u : (unsigned) CRO_PLAN_AT_LEAST);
  return marks;
}

void
cro_plan_mark (const CroGraph      *graph,
               const CroLines      *lines,
               const CroMeasure    *measures,
               const CroPlanSource *source,
               uint8_t             *row_marks,
               uint8_t             *node_marks)
{
  for (size_t row = graph->n_rows; row-- > 0;)
    {
      unsigned marks = marks_of_row (graph, source, node_marks, row);

      row_marks[row] = (uint8_t) marks;
      if (!(marks & CRO_PLAN_TAKEN))
        continue;
      for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
        {
          uint32_t slot = graph->line_slot[l];
          CroLack lack = cro_line_lacks (lines, slot, &measures[lines->item[slot]]);

          node_marks[graph->part[l]] |= (uint8_t) (
              marks | (lack != CRO_LACKS_NOTHING ? (unsigned) CRO_PLAN_AT_LEAST : 0u));
        }
    }
}

void
cro_plan_depths (const CroGraph *graph,
                 uint32_t       *depth)
{
  for (size_t row = 0; row < graph->n_rows; row++)
    {
      depth[row] = 0;
      for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
        {
          uint32_t maker = graph->made_by[graph->part[l]];

          if (maker != CRO_NO_ROW && depth[maker] >= depth[row])
            depth[row] = depth[maker] + 1;
        }
    }
}
