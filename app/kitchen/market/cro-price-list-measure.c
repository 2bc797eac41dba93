/* For how much a price is, where a list says that in a way that is not understood, or has a size beside the price that
 * is not that of the pack. */
#include "cro-price-list-private.h"

#include "cro-decimal.h"
#include "cro-number.h"
#include "cro-pack.h"

#include <math.h>

/* As sizes are written, to a thousandth. */
#define NEAR_SIZE 0.001

static gboolean
is_near (double a,
         double b)
{
  return fabs (a - b) <= NEAR_SIZE * b;
}

/* What it is of the pack, of one in it, or how many there are. */
static gboolean
is_size_of (const CroPack *pack,
            gint64         number,
            const CroUnit *unit)
{
  const CroUnitInfo *of = cro_unit_get (pack->unit), *one = unit != NULL ? cro_unit_get (*unit) : of;
  double size = cro_decimal_to_double (pack->size) * of->numerator / of->denominator,
         count = cro_decimal_to_double (pack->count),
         said = cro_decimal_to_double (number) * one->numerator / one->denominator;

  return is_near (said, size) || is_near (said, count * size)
         || (unit == NULL && is_near (cro_decimal_to_double (number), count));
}

static gboolean
fits (CroListMatching  *self,
      const CroListRow *row)
{
  const CroUnit *unit = row->has_size_unit ? &row->size_unit : NULL;
  CroPack own = row->pack;

  if (row->offer != CRO_NO_SLOT)
    own = cro_pack_of_offer (self->model, row->offer);
  /* Pieces are no weight. */
  if (unit != NULL && cro_unit_get (*unit)->base != cro_unit_get (row->pack.unit)->base)
    return TRUE;
  return is_size_of (&row->pack, row->size_beside, unit)
         || (cro_unit_get (own.unit)->base == cro_unit_get (row->pack.unit)->base
             && is_size_of (&own, row->size_beside, unit));
}

void
cro_list_check_measure (CroListMatching *self,
                        CroListRow      *row)
{
  g_autofree char *number = NULL;

  if (row->is_from_last || !row->has_price)
    return;
  if (row->said_open != NULL)
    cro_list_row_say (self->list, row, CRO_LIST_SAID_OPEN, row->said_open, NULL);
  if (row->size_heading == NULL || row->pack.size == 0 || fits (self, row))
    return;
  number = cro_number_to_text (cro_decimal_to_double (row->size_beside), 6, TRUE);
  cro_list_row_say (self->list, row, CRO_LIST_SAID_OPEN, row->size_heading, number);
}
