#include "cro-model-rows-private.h"

/* One list of all arrays keeps what grows, moves and is freed in step. */
#define LINE_ARRAYS(DO)                                                                          \
  DO (lines.row) DO (lines.item) DO (lines.position) DO (lines.amount) DO (lines.yield)          \
  DO (lines.recovered) DO (lines.unit) DO (lines.whole) DO (line_ids)

void
cro_model_reserve_lines (CroModel *self,
                         gsize     n)
{
  if (n <= self->lines_allocated)
    return;
  self->lines_allocated = n = MAX (MAX (256, n), self->lines_allocated * 2);
#define GROW(array) self->array = g_realloc_n (self->array, n, sizeof *self->array);
  LINE_ARRAYS (GROW)
#undef GROW
}

void
cro_model_join_lines (CroModel *self,
                      gsize     from,
                      gsize     n)
{
  gsize first = self->lines.n;

  self->lines.n += n;
  if (from == first)
    return;
#define MOVE(array) memmove (self->array + first, self->array + from, n * sizeof *self->array);
  LINE_ARRAYS (MOVE)
#undef MOVE
  for (gsize slot = first; slot < self->lines.n; slot++)
    cro_slots_set (&self->line_slots, self->line_ids[slot], (guint32) slot);
}

void
cro_model_free_lines (CroModel *self)
{
#define FREE(array) g_clear_pointer (&self->array, g_free);
  LINE_ARRAYS (FREE)
#undef FREE
}
