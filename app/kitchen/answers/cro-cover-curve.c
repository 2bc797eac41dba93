#include "cro-cover-curve.h"

#include <math.h>

#include "cro-decimal.h"

CroCoverCurve *
cro_cover_curve_new (CroRef thing)
{
  CroCoverCurve *self = g_new0 (CroCoverCurve, 1);

  self->thing = thing;
  self->costs = g_array_new (FALSE, FALSE, sizeof (double));
  self->steps = g_array_new (FALSE, FALSE, sizeof (CroCoverStep));
  return self;
}

void
cro_cover_curve_free (CroCoverCurve *self)
{
  g_array_unref (self->costs);
  g_array_unref (self->steps);
  g_free (self->packs);
  g_free (self);
}

CroServicePlan *
cro_cover_plan_new (CroBook  *book,
                    CroRef    thing,
                    gint64    covers,
                    GError  **error)
{
  g_autoptr (CroService) service = cro_service_new ();
  CroCovers one = { .thing = thing, .covers = covers };

  g_array_append_val (service->covers, one);
  return cro_service_plan_new (book, service, error);
}

/* What the first covers take is no step. */
static void
add_steps (CroCoverCurve        *self,
           const CroServicePlan *plan)
{
  guint covers = self->costs->len + 1;

  for (guint i = 0; i < plan->buy->len; i++)
    {
      const CroPlanBuy *buy = &g_array_index (plan->buy, CroPlanBuy, i);
      double before = buy->item < self->n_items ? self->packs[buy->item] : 0;
      CroCoverStep step = { buy->item, buy->offer, covers, buy->packs, 0 };

      if (isnan (buy->packs) || buy->item >= self->n_items)
        continue;
      self->packs[buy->item] = buy->packs;
      step.cost = buy->cost / buy->packs * (buy->packs - before);
      if (covers > 1 && buy->packs > before)
        g_array_append_val (self->steps, step);
    }
}

gboolean
cro_cover_curve_add (CroCoverCurve  *self,
                     CroBook        *book,
                     GError        **error)
{
  gint64 covers = (gint64) (self->costs->len + 1);
  g_autoptr (CroServicePlan) plan = cro_cover_plan_new (book, self->thing, covers * CRO_MICRO, error);
  double cost;

  if (plan == NULL)
    return FALSE;
  if (self->packs == NULL)
    {
      self->n_items = cro_book_get_model (book)->items->len;
      self->packs = g_new0 (double, self->n_items + 1);
    }
  add_steps (self, plan);
  cost = plan->cost / (double) covers;
  g_array_append_val (self->costs, cost);
  self->theoretical = plan->theoretical / (double) covers;
  self->known_cost = plan->known_cost;
  self->known_theoretical = plan->known_theoretical;
  return TRUE;
}
