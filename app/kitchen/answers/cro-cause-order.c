#include "cro-cause-order.h"

static int
compare_causes (gconstpointer a,
                gconstpointer b)
{
  const CroCause *x = a, *y = b;

  if (x->kind != y->kind)
    return x->kind < y->kind ? -1 : 1;
  return g_strcmp0 (x->name, y->name);
}

void
cro_causes_add_lacks (GArray     *causes,
                      unsigned    lacks,
                      const char *name)
{
  CroCause density = { CRO_CAUSE_DENSITY, name }, piece = { CRO_CAUSE_PIECE, name };

  if (lacks & CRO_LACKS_DENSITY)
    g_array_append_val (causes, density);
  if (lacks & CRO_LACKS_PIECE)
    g_array_append_val (causes, piece);
}

GArray *
cro_causes_sort_once (GArray *causes)
{
  guint n = 0;

  g_array_sort (causes, compare_causes);
  for (guint i = 0; i < causes->len; i++)
    if (n == 0
        || compare_causes (&g_array_index (causes, CroCause, i),
                           &g_array_index (causes, CroCause, n - 1)) != 0)
      g_array_index (causes, CroCause, n++) = g_array_index (causes, CroCause, i);
  g_array_set_size (causes, n);
  return causes;
}
