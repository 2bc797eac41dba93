#include "cro-month-private.h"

#include <math.h>
#include <string.h>

CroKnown
cro_month_known_sales (const CroMonth *self)
{
  return cro_month_known_worth (self->known_revenue, self->net_sales);
}

CroKnown
cro_month_known_sales_of (const CroMonthThing *thing)
{
  return cro_month_known_worth (thing->known_revenue, thing->net_revenue);
}

CroKnown
cro_month_known_cost_of (const CroMonthThing *thing)
{
  return !thing->is_incomplete     ? CRO_KNOWN_WHOLE
         : thing->has_credit       ? CRO_KNOWN_IN_PART
         : thing->theoretical == 0 ? CRO_KNOWN_NOTHING
                                   : CRO_KNOWN_AT_LEAST;
}

CroKnown
cro_month_known_worth (CroKnown known,
                       double   money)
{
  return known != CRO_KNOWN_WHOLE && money == 0 ? CRO_KNOWN_NOTHING : known;
}

CroKnown
cro_month_known_rest_used (const CroMonth *self)
{
  return self->known_theoretical == CRO_KNOWN_WHOLE ? self->known_rest : self->known_actual;
}

double
cro_month_explained (double   money,
                     CroKnown known)
{
  return cro_month_known_worth (known, fabs (money)) == CRO_KNOWN_NOTHING ? NAN : money;
}

/* Causes are texts: "price Sea purslane". Those of plates are of another space of names. */
CroKnown
cro_month_known_by_name (const CroMonth *self,
                         const char     *name,
                         double          money)
{
  for (guint i = 0; name != NULL && i < self->missing->len; i++)
    {
      const char *cause = self->missing->pdata[i], *of = strchr (cause, ' ');

      if (of != NULL && strcmp (of + 1, name) == 0 && !g_str_has_prefix (cause, "selling ")
          && !g_str_has_prefix (cause, "lines "))
        return cro_month_known_worth (CRO_KNOWN_AT_LEAST, money);
    }
  return CRO_KNOWN_WHOLE;
}

CroKnown
cro_month_known_by_products (const CroMonth *self)
{
  static const char *const kinds[] = { "amount ", "value ", "density ", "piece " };

  for (guint i = 0; i < self->missing->len; i++)
    for (guint k = 0; k < G_N_ELEMENTS (kinds); k++)
      if (g_str_has_prefix (self->missing->pdata[i], kinds[k]))
        return CRO_KNOWN_IN_PART;
  return CRO_KNOWN_WHOLE;
}

/* AQ (AP - SP) and (AQ - SQ) SP have a bound on neither side where a part has one on either. */
CroKnown
cro_month_known_variance (const CroMonthItem *item)
{
  if (item->known_theoretical == CRO_KNOWN_NOTHING || item->known_actual == CRO_KNOWN_NOTHING)
    return CRO_KNOWN_NOTHING;
  return item->known_theoretical == CRO_KNOWN_WHOLE && item->known_actual == CRO_KNOWN_WHOLE ? CRO_KNOWN_WHOLE
                                                                                             : CRO_KNOWN_IN_PART;
}

CroKnown
cro_month_known_together (const CroMonthItem *item)
{
  CroKnown standard = cro_month_known_add (CRO_KNOWN_WHOLE, item->known_theoretical);

  return item->known_actual == CRO_KNOWN_NOTHING ? CRO_KNOWN_NOTHING
                                                 : cro_known_of_sum (item->known_actual, cro_known_turned (standard));
}

CroKnown
cro_month_known_add (CroKnown sum,
                     CroKnown part)
{
  return cro_known_of_sum (sum, part != CRO_KNOWN_NOTHING ? part : CRO_KNOWN_AT_LEAST);
}
