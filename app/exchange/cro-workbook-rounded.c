/* Parts rounded so that they add up to their rounded total, as formulas: each is floored, and the
 * units left go to the largest fractions (cro-money.h). Four columns: a what is shown, b the
 * fraction of a minor unit, c the whole units, d both; of the total a what is shown, c what is left. */
#include "cro-workbook-private.h"

#include <math.h>

#include "cro-money.h"

/* Rounding by formula compares every part with every other. */
#define MOST_PARTS 200

/* A double as large as this has no millionths. */
#define MOST_WITH_MILLIONTHS 0x1p33

static double
scale_of (const CroWorkbook *self)
{
  return pow (10, self->source->book.digits);
}

/* A cost in minor units, to a millionth of one: what the last digits of a product say is no
 * reason to floor it one lower. */
static double
in_units (const CroWorkbook *self,
          double             cost)
{
  double units = round (cost * scale_of (self) * 1e9) / 1e9;

  if (!(fabs (units) < MOST_WITH_MILLIONTHS))
    return units;
  return (double) cro_money_round (units, 6) / 1e6;
}

void
cro_rounded_init (CroRounded        *self,
                  const CroWorkbook *workbook,
                  double            *parts,
                  guint32            n,
                  double             total)
{
  int digits = workbook->source->book.digits;
  g_autofree guint64 *order = g_new (guint64, n + 1);

  self->parts = parts;
  self->n = n;
  self->sum = cro_money_round (total, digits);
  self->minor = n <= MOST_PARTS ? g_new0 (gint64, n + 1) : NULL;
  if (self->minor != NULL)
    cro_money_apportion (self->sum, parts, n, digits, order, self->minor);
}

void
cro_rounded_clear (CroRounded *self)
{
  g_clear_pointer (&self->parts, g_free);
  g_clear_pointer (&self->minor, g_free);
}

/* A formula with the letters of its columns for a to d. */
static char *
dup_in_columns (const CroRounded *self,
                const char       *formula)
{
  GString *text = g_string_new (NULL);

  for (const char *at = formula; *at != '\0'; at++)
    if (*at >= 'a' && *at <= 'd')
      g_string_append_c (text, (char) (self->column + (*at - 'a')));
    else
      g_string_append_c (text, *at);
  return g_string_free (text, FALSE);
}

static void
write_cell (const CroRounded *self,
            CroPen           *pen,
            int               place,
            CroStyle          style,
            double            value,
            const char       *formula)
{
  g_autofree char *text = dup_in_columns (self, formula);

  cro_pen_formula (pen, (char) (self->column + place), style, value, text,
                   &(CroPlace){ NULL, (const char[]){ (char) (self->column + 2), '$', '\0' },
                                self->total_row });
}

/* How often a fraction is at most the rank of what is left, the first of equals first. */
void
cro_rounded_write_part (const CroRounded *self,
                        CroPen           *pen,
                        guint32           index,
                        CroWorkbookKnown  known)
{
  double scale = scale_of (pen->workbook);
  double units = in_units (pen->workbook, self->parts[index]);
  g_autofree char *scaled = NULL, *shown = NULL;

  if (self->minor == NULL)
    return;
  scaled = g_strdup_printf ("=ROUND(ROUND((%s)*%.0f,9),6)", self->exact, scale);
  shown = g_strdup_printf ("=(c#+IF(SUMPRODUCT((b${:b$}>b#)*1)+SUMPRODUCT((b${:b#=b#)*1)<=@,1,0))"
                           "/%.0f", scale);
  pen->from = self->first_row;
  pen->to = self->first_row + self->n - 1;
  write_cell (self, pen, 0, cro_workbook_money_style (known, FALSE),
              (double) self->minor[index] / scale, shown);
  write_cell (self, pen, 1, CRO_STYLE_GENERAL,
              (double) cro_money_round (units - floor (units), 6) / 1e6, "=ROUND(d#-c#,6)");
  write_cell (self, pen, 2, CRO_STYLE_COUNT, floor (units), "=INT(d#)");
  write_cell (self, pen, 3, CRO_STYLE_GENERAL, units, scaled);
}

void
cro_rounded_write_total (const CroRounded *self,
                         CroPen           *pen,
                         CroWorkbookKnown  known)
{
  const CroWorkbook *workbook = pen->workbook;
  double scale = scale_of (workbook);
  g_autofree char *rounded = g_strdup_printf ("=ROUND(%s,%d)", self->exact,
                                              workbook->source->book.digits);
  g_autofree char *left = g_strdup_printf ("=ROUND(a#*%.0f,0)-SUM(c{:c})", scale);
  double n_left = (double) self->sum;

  if (self->minor == NULL || self->n == 0)
    return;
  for (guint32 i = 0; i < self->n; i++)
    n_left -= floor (in_units (workbook, self->parts[i]));
  pen->from = self->first_row;
  pen->to = self->first_row + self->n - 1;
  write_cell (self, pen, 0, cro_workbook_money_style (known, TRUE), (double) self->sum / scale,
              rounded);
  write_cell (self, pen, 2, CRO_STYLE_COUNT, n_left, left);
}
