#include <string.h>

#include "cro-month.h"

CroKnown
cro_month_known_sales (const CroMonth *self)
{
  return self->lacks_revenue ? CRO_KNOWN_AT_LEAST : CRO_KNOWN_WHOLE;
}

CroKnown
cro_month_known_sales_of (const CroMonthThing *thing)
{
  return thing->lacks_revenue ? CRO_KNOWN_AT_LEAST : CRO_KNOWN_WHOLE;
}

CroKnown
cro_month_known_cost_of (const CroMonthThing *thing)
{
  return !thing->is_incomplete     ? CRO_KNOWN_WHOLE
         : thing->has_credit       ? CRO_KNOWN_IN_PART
         : thing->theoretical == 0 ? CRO_KNOWN_NOTHING
                                   : CRO_KNOWN_AT_LEAST;
}

/* Causes are texts: "price Sea purslane". */
CroKnown
cro_month_known_of_item (const CroMonth *self,
                         const char     *name,
                         double          money)
{
  for (guint i = 0; name != NULL && i < self->missing->len; i++)
    {
      const char *cause = self->missing->pdata[i], *of = strchr (cause, ' ');

      if (of != NULL && strcmp (of + 1, name) == 0)
        return money == 0 ? CRO_KNOWN_NOTHING : CRO_KNOWN_AT_LEAST;
    }
  return CRO_KNOWN_WHOLE;
}

CroKnown
cro_month_known_add (CroKnown sum,
                     CroKnown part)
{
  return cro_known_of_sum (sum, part != CRO_KNOWN_NOTHING ? part : CRO_KNOWN_AT_LEAST);
}
