#include "config.h"

#include "cro-month-matrix.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-figure-words.h"

static int
compare_rows (gconstpointer a,
              gconstpointer b)
{
  const CroMonthMatrixRow *x = a, *y = b;
  double p = x->contribution * x->thing->sold, q = y->contribution * y->thing->sold;

  if (p != q)
    return p > q ? -1 : 1;
  return strcmp (x->thing->name, y->thing->name);
}

/* What one leaves is at most that where food is missing, at least that where sales are. */
static CroKnown
known_contribution (const CroMonthThing *thing)
{
  CroKnown food = cro_month_known_add (CRO_KNOWN_WHOLE, cro_month_known_cost_of (thing));

  return cro_known_of_sum (cro_known_turned (food), cro_month_known_sales_of (thing));
}

/* Whether what one leaves may stand on the other side of the mean: it is on this one as far as it can move, and the
 * mean as far the other way. */
static gboolean
is_open (const CroMonthMatrix    *self,
         const CroMonthMatrixRow *row)
{
  CroKnown sure = row->earns ? CRO_KNOWN_AT_LEAST : CRO_KNOWN_AT_MOST;

  return !((row->known == CRO_KNOWN_WHOLE || row->known == sure)
           && (self->known == CRO_KNOWN_WHOLE || self->known == cro_known_turned (sure)));
}

static void
classify (CroMonthMatrix *self)
{
  guint n = self->rows->len;
  g_autofree double *sold = g_new (double, n + 1);
  g_autofree double *contribution = g_new (double, n + 1);
  double all = 0;

  if (n == 0)
    return;
  for (guint i = 0; i < n; i++)
    {
      const CroMonthMatrixRow *row = &g_array_index (self->rows, CroMonthMatrixRow, i);

      all += sold[i] = row->thing->sold;
      contribution[i] = row->contribution;
      self->known = cro_known_of_sum (self->known, row->known);
    }
  self->limits = cro_matrix_limits (sold, contribution, n);
  self->limit_pct = 100 * self->limits.sold / all;
  for (guint i = 0; i < n; i++)
    {
      CroMonthMatrixRow *row = &g_array_index (self->rows, CroMonthMatrixRow, i);

      row->share_pct = 100 * sold[i] / all;
      row->is_popular = cro_matrix_is_popular (&self->limits, sold[i]);
      row->earns = cro_matrix_earns (&self->limits, contribution[i]);
      row->is_open = is_open (self, row);
    }
}

CroMonthMatrix *
cro_month_matrix_new (const CroMonth    *month,
                      CroMonthThingKind  kind)
{
  CroMonthMatrix *self = g_new0 (CroMonthMatrix, 1);

  self->rows = g_array_new (FALSE, FALSE, sizeof (CroMonthMatrixRow));
  self->left_out = g_ptr_array_new ();
  self->known = CRO_KNOWN_WHOLE;
  for (guint i = 0; i < month->things->len; i++)
    {
      const CroMonthThing *thing = &g_array_index (month->things, CroMonthThing, i);
      CroMonthMatrixRow row = { .thing = thing };

      if (thing->kind != kind)
        continue;
      if (!(thing->sold > 0) || !(thing->net_revenue > 0))
        {
          g_ptr_array_add (self->left_out, (gpointer) thing);
          continue;
        }
      row.known = known_contribution (thing);
      row.contribution = (thing->net_revenue - thing->theoretical) / thing->sold;
      g_array_append_val (self->rows, row);
    }
  g_array_sort (self->rows, compare_rows);
  classify (self);
  return self;
}

void
cro_month_matrix_free (CroMonthMatrix *self)
{
  g_array_unref (self->rows);
  g_ptr_array_unref (self->left_out);
  g_free (self);
}

const char *
cro_month_matrix_words (const CroMonthMatrixRow *row)
{
  if (row->is_popular)
    return row->earns ? _("sells and earns") : _("sells, earns little");
  return row->earns ? _("earns, sells little") : _("sells little, earns little");
}

char *
cro_month_matrix_marked (const CroMonthMatrixRow *row,
                         const char              *words)
{
  return cro_words_known (row->is_open ? CRO_KNOWN_IN_PART : CRO_KNOWN_WHOLE, words);
}

const char *
cro_month_matrix_class (const CroMonthMatrixRow *row)
{
  if (row->is_popular)
    return row->earns ? "star" : "plowhorse";
  return row->earns ? "puzzle" : "dog";
}
