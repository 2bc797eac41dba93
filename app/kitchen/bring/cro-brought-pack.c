#include "cro-brought-pack.h"

#include "cro-decimal.h"
#include "cro-fraction.h"
#include "cro-pack.h"
#include "cro-price-saying.h"
#include "cro-price-words.h"
#include "cro-unit-words.h"
#include "cro-words.h"

#include <string.h>

gboolean
cro_brought_unit (const char *text,
                  CroUnit    *unit)
{
  CroUnitMeaning meaning = { 0 };
  gsize length = cro_unit_words_scan (text, cro_words_entry (), &meaning);

  if (length == 0 || length != strlen (text) || meaning.kind != CRO_UNIT_WORD_ONE)
    return FALSE;
  *unit = meaning.units[0];
  return TRUE;
}

/* What stands behind "per" or "/"; NULL: that is not there. Owned. */
static char *
dup_of_per (const char *text)
{
  gsize length = cro_price_scan_per (text);
  g_autofree char *rest = g_strstrip (g_strdup (text + length));

  if (length == 0)
    return NULL;
  /* Which currency it is, who reads the price has seen. */
  rest[cro_currency_scan_last (rest)] = '\0';
  for (gsize n = strlen (rest); n > 0 && strchr (" ()", rest[n - 1]) != NULL; n--)
    rest[n - 1] = '\0';
  return g_steal_pointer (&rest);
}

gboolean
cro_brought_per (const char *text,
                 CroUnit    *unit)
{
  g_autofree char *of = dup_of_per (text);

  return of != NULL && cro_brought_unit (of, unit);
}

/* "/100 g", "per 100 ml" too: a tenth of a kilogram or a litre. */
static CroPricePer
read_per (const char *text)
{
  g_autofree char *of = dup_of_per (text);
  gsize digits = of != NULL && g_str_has_prefix (of, "100") ? strlen ("100") : 0;
  CroPricePer per = { .times = CRO_MICRO };

  if (of == NULL)
    return per;
  per.is_said = cro_brought_unit (of + digits + strspn (of + digits, " "), &per.unit);
  if (digits == 0)
    return per;
  per.is_said = per.is_said && (per.unit == CRO_UNIT_G || per.unit == CRO_UNIT_ML);
  per.unit = per.unit == CRO_UNIT_G ? CRO_UNIT_KG : CRO_UNIT_L;
  per.times = 10 * CRO_MICRO;
  return per;
}

gboolean
cro_brought_price_of_one (const char  *behind,
                          CroPricePer *per,
                          gint64      *price)
{
  if (*behind != '\0')
    *per = read_per (behind);
  return (*behind == '\0' || per->is_said)
         && (!per->is_said || per->times == CRO_MICRO || cro_decimal_multiply (*price, per->times, price));
}

/* That of the numbers below a heading. */
static gboolean
unit_of_heading (const CroBrought *brought,
                 guint             column,
                 CroUnit          *unit)
{
  if (brought->units[column] < 0)
    return FALSE;
  *unit = (CroUnit) brought->units[column];
  return TRUE;
}

/* A number of things alone. */
static gboolean
is_count (const CroBrought  *brought,
          const CroReadCell *cell,
          guint              column)
{
  const char *rest = "";
  gint64 number;

  return cell->kind != CRO_READ_CELL_EMPTY && cro_brought_number (brought, cell, column, &number, &rest)
         && *rest == '\0' && number > 0 && number % CRO_MICRO == 0;
}

/* "6/800 g", "4/1.5 kg" as "6 x 800 g": a case of so many. "1/4 kg" is a part of one, and "4/6 kg" of one size to
 * another. Owned; NULL: it is none. */
static char *
dup_of_case (const char *text)
{
  const gsize count = strspn (text, "0123456789"), size = text[count] == '/' ? count + 1 : 0;
  const gsize end = size + strspn (text + size, "0123456789.");
  gint64 of, one;

  if (count == 0 || size == 0 || cro_decimal_parse (text, count, &of) != CRO_DECIMAL_OK
      || cro_decimal_parse (text + size, end - size, &one) != CRO_DECIMAL_OK || (of < one && one / 2 <= of)
      || (of < one && (of == CRO_MICRO || of == 3 * CRO_MICRO) && end == size + 1
          && strchr ("348", text[size]) != NULL))
    return NULL;
  return g_strdup_printf ("%.*s x %s", (int) count, text, text + size);
}

/* "12 x 1 kg" */
static gboolean
is_of_several (const CroBrought  *brought,
               const CroReadCell *cell,
               guint              column)
{
  g_autofree char *plain = cell->kind == CRO_READ_CELL_TEXT ? cro_brought_dup_plain (brought, cell, column) : NULL;
  g_autofree char *of_case = plain != NULL ? dup_of_case (plain) : NULL;
  const char *rest = "";
  gint64 number;
  CroUnit unit;

  if (of_case != NULL)
    return TRUE;
  return cell->kind == CRO_READ_CELL_TEXT && cro_brought_number (brought, cell, column, &number, &rest)
         && *rest != '\0' && !cro_brought_unit (rest, &unit);
}

gboolean
cro_brought_pack (const CroBrought *brought,
                  guint             index,
                  CroPack          *pack,
                  guint            *column)
{
  static const CroReadCell none = { CRO_READ_CELL_EMPTY, "", NULL, FALSE };
  const CroReadCell *whole, *unit_cell, *size, *count;
  guint unit_column, size_column, count_column;
  CroUnit unit = CRO_UNIT_EACH;
  gboolean has_unit;

  unit_cell = cro_brought_get_role (brought, index, CRO_ROLE_UNIT, &unit_column);
  has_unit = cro_brought_unit (unit_cell->text, &unit);
  *column = unit_column;
  whole = cro_brought_get_role (brought, index, CRO_ROLE_PACK, column);
  size = cro_brought_get_role (brought, index, CRO_ROLE_PACK_SIZE, &size_column);
  count = cro_brought_get_role (brought, index, CRO_ROLE_PACK_COUNT, &count_column);
  /* "12" under "Colisage" or "Units" beside "1 kg" under "Size" is how many there are. */
  if (size->kind != CRO_READ_CELL_EMPTY && count->kind == CRO_READ_CELL_EMPTY)
    {
      if (is_count (brought, whole, *column))
        {
          count = whole;
          count_column = *column;
          whole = &none;
        }
      else if (is_count (brought, unit_cell, unit_column))
        {
          count = unit_cell;
          count_column = unit_column;
          unit_cell = &none;
        }
    }
  /* A pack of several under "Size" is all of the pack. */
  if (whole->kind == CRO_READ_CELL_EMPTY && count->kind == CRO_READ_CELL_EMPTY
      && is_of_several (brought, size, size_column))
    {
      whole = size;
      *column = size_column;
    }
  /* "5 kg" under "Unit" is a pack. */
  if (whole->kind == CRO_READ_CELL_EMPTY && !has_unit && !cro_brought_has_role (brought, CRO_ROLE_PACK_SIZE))
    {
      whole = unit_cell;
      *column = unit_column;
    }
  if (whole->kind != CRO_READ_CELL_EMPTY)
    {
      gboolean is_measured = has_unit || (whole != unit_cell && unit_of_heading (brought, *column, &unit));
      g_autofree char *plain = cro_brought_dup_plain (brought, whole, *column);
      g_autofree char *of_case = plain != NULL ? dup_of_case (plain) : NULL;

      if (cro_brought_unit (whole->text, &pack->unit) || cro_brought_per (whole->text, &pack->unit))
        {
          pack->count = pack->size = CRO_MICRO;
          return TRUE;
        }
      return plain != NULL && cro_pack_from_text (of_case != NULL ? of_case : plain, unit, cro_words_entry (), pack)
             && (is_measured || g_ascii_isalpha (whole->text[strlen (whole->text) - 1]));
    }
  *column = unit_column;
  if (!has_unit && (unit_cell->kind != CRO_READ_CELL_EMPTY
                    || !cro_brought_has_role (brought, CRO_ROLE_PACK_SIZE)))
    return has_unit;
  has_unit = has_unit || (size->kind != CRO_READ_CELL_EMPTY && unit_of_heading (brought, size_column, &unit));
  *pack = (CroPack){ CRO_MICRO, CRO_MICRO, unit };
  if (count->kind != CRO_READ_CELL_EMPTY
      && !(cro_brought_number (brought, count, *column = count_column, &pack->count, NULL) && pack->count > 0))
    return FALSE;
  if (size->kind != CRO_READ_CELL_EMPTY)
    {
      const char *rest;

      *column = size_column;
      if (!cro_brought_number (brought, size, size_column, &pack->size, &rest) || pack->size <= 0)
        return FALSE;
      return *rest == '\0' ? has_unit : cro_brought_unit (rest, &pack->unit);
    }
  return has_unit;
}

gboolean
cro_brought_price_of_pack (CroUnit        per,
                           const CroPack *pack,
                           gint64        *price)
{
  const CroUnitInfo *of = cro_unit_get (pack->unit), *one = cro_unit_get (per);
  CroFraction whole = cro_fraction_from_micro (*price);
  gint64 rounded;

  if (of->base != one->base || !cro_fraction_multiply (&whole, cro_fraction_from_micro (pack->count))
      || !cro_fraction_multiply (&whole, cro_fraction_from_micro (pack->size))
      || !cro_fraction_multiply (&whole, cro_fraction_make (of->numerator, of->denominator))
      || !cro_fraction_multiply (&whole, cro_fraction_make (one->denominator, one->numerator))
      || !cro_fraction_to_micro (whole, &rounded) || !cro_decimal_may_be_entered (rounded)
      || (rounded == 0 && *price != 0))
    return FALSE;
  *price = rounded;
  return TRUE;
}

CroPricePer
cro_brought_per_of_heading (const CroBrought *brought,
                            gboolean         *is_open)
{
  const CroRole role = cro_brought_price_role (brought);
  CroPriceSaying saying;

  *is_open = FALSE;
  if (brought->headings < 0 || !cro_brought_has_role (brought, role))
    return (CroPricePer){ .times = CRO_MICRO };
  saying = cro_price_saying_of (cro_brought_get_role (brought, (guint) brought->headings, role, NULL)->text, NULL);
  *is_open = saying.is_per_open || saying.is_pound || (saying.per.is_said && saying.has_pack);
  return *is_open ? (CroPricePer){ .times = CRO_MICRO } : saying.per;
}
