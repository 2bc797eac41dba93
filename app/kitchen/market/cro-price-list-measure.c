/* For how much a price is, where a list says that in a way that is not understood, or has a size beside the price that
 * is not that of the pack. */
#include "cro-price-list-private.h"

#include "cro-decimal.h"
#include "cro-number.h"
#include "cro-pack.h"
#include "cro-said-pack.h"

#include <math.h>

/* As sizes are written, to a thousandth. */
#define NEAR_SIZE 0.001

static gboolean
is_near (double a,
         double b)
{
  return fabs (a - b) <= NEAR_SIZE * b;
}

/* What a package weighs with what it is packed in, or about, to what is in it: common practice, no source. */
#define LEAST_ABOUT 0.95
#define MOST_ABOUT 1.4

static double
amount_of (gint64  number,
           CroUnit unit)
{
  const CroUnitInfo *of = cro_unit_get (unit);

  return cro_decimal_to_double (number) * of->numerator / of->denominator;
}

gboolean
cro_list_is_size_of (const CroPack *pack,
                     gint64         number,
                     const CroUnit *unit,
                     gint64         n,
                     gboolean       is_counted)
{
  const double one = amount_of (pack->size, pack->unit), count = cro_decimal_to_double (pack->count),
               said = amount_of (number, unit != NULL ? *unit : pack->unit);

  if (is_counted)
    return n > 0
           && (is_near (said * cro_decimal_to_double (n), count * one)
               || (is_near (said, count * one) && is_near (cro_decimal_to_double (n), count)));
  return is_near (said, count * one) || (n > 0 && is_near (said * cro_decimal_to_double (n), count * one))
         || (n == 0 && is_near (said, one))
         || (unit == NULL && is_near (cro_decimal_to_double (number), count));
}

const CroUnit cro_list_everyday[CRO_LIST_N_EVERYDAY]
    = { CRO_UNIT_KG, CRO_UNIT_G, CRO_UNIT_L, CRO_UNIT_CL, CRO_UNIT_ML };

gboolean
cro_list_is_about (const CroPack *pack,
                   gint64         number,
                   CroUnit        unit)
{
  const double part
      = amount_of (number, unit) / (cro_decimal_to_double (pack->count) * amount_of (pack->size, pack->unit));

  return part >= LEAST_ABOUT && part <= MOST_ABOUT;
}

/* In a unit; NULL: in that of the pack. What is counted may be of any size. */
static gboolean
fits_in (const CroListRow *row,
         const CroPack    *pack,
         const CroUnit    *unit)
{
  /* Pieces are no weight; of several packed together they are as many. */
  if (unit != NULL && cro_unit_get (*unit)->base != cro_unit_get (pack->unit)->base)
    return cro_unit_get (pack->unit)->base == CRO_BASE_EACH
           || (cro_unit_get (*unit)->base == CRO_BASE_EACH
               && (pack->count <= CRO_MICRO
                   || is_near (amount_of (row->size_beside, *unit), cro_decimal_to_double (pack->count))));
  if (row->is_size_about)
    return cro_list_is_about (pack, row->size_beside, unit != NULL ? *unit : pack->unit);
  return cro_list_is_size_of (pack, row->size_beside, unit, row->size_count,
                              row->is_size_counted && row->size_count != 0);
}

static gboolean
fits_pack (const CroListRow *row,
           const CroPack    *pack)
{
  /* So many packages, of whatever size. */
  if (row->is_size_counted && row->size_count == 0 && cro_unit_get (pack->unit)->base != CRO_BASE_EACH)
    return is_near (cro_decimal_to_double (row->size_beside), cro_decimal_to_double (pack->count));
  if (row->has_size_unit)
    return fits_in (row, pack, &row->size_unit);
  /* Without one it is that of the pack; the everyday ones of its kind are as well. */
  for (gsize i = 0; i < CRO_LIST_N_EVERYDAY; i++)
    if (cro_unit_get (pack->unit)->base == cro_unit_get (cro_list_everyday[i])->base
        && fits_in (row, pack, &cro_list_everyday[i]))
      return TRUE;
  return fits_in (row, pack, NULL);
}

static gboolean
fits (CroListMatching  *self,
      const CroListRow *row)
{
  CroPack own = row->pack;

  if (row->offer != CRO_NO_SLOT)
    own = cro_pack_of_offer (self->model, row->offer);
  return fits_pack (row, &row->pack)
         || (cro_unit_get (own.unit)->base == cro_unit_get (row->pack.unit)->base && fits_pack (row, &own));
}

void
cro_price_list_read_size (CroPriceList *self,
                          gint64        count,
                          CroListRow   *row)
{
  gboolean is_open;
  CroSaidPack said;
  gint64 n;

  if (row->name == NULL || row->has_per || row->pack.size > 0 || row->size_heading != NULL)
    return;
  if (!cro_said_pack_read (row->name, &said, &n, &is_open) && !is_open)
    return;
  if (is_open)
    cro_list_row_say (self, row, CRO_LIST_BESIDE, row->name, NULL);
  else if (cro_decimal_multiply (said.size, said.count, &row->size_beside))
    {
      row->size_count = said.count > CRO_MICRO ? 0 : n != 0 ? n : count;
      row->is_size_counted = said.is_counted && (n != 0 || !said.has_unit);
      row->has_size_unit = said.has_unit;
      row->size_unit = said.unit;
      row->size_heading = row->name;
    }
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
  if (row->size_count > 0)
    {
      g_autofree char *count = cro_number_to_text (cro_decimal_to_double (row->size_count), 6, TRUE);
      g_autofree char *both = g_strdup_printf ("%s × %s", count, number);

      cro_list_row_say (self->list, row, CRO_LIST_SAID_OPEN, row->size_heading, both);
      return;
    }
  cro_list_row_say (self->list, row, CRO_LIST_SAID_OPEN, row->size_heading, number);
}

void
cro_list_check_unit_price (CroListMatching *self,
                           CroListRow      *row)
{
  if (row->unit_heading != NULL && row->has_price && !row->is_from_last
      && (row->is_each || row->pack.count > CRO_MICRO) && row->last == CRO_NOT_SET)
    cro_list_row_say (self->list, row, CRO_LIST_SAID_OPEN, row->unit_heading, NULL);
}
