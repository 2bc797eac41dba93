/* Amounts and money of a month that are beyond what the others of their kind hold: in a till's file a bar code stands
 * beside how many were sold, and a column is soon taken for the next.
 *
 * A kind is one column of one table; amounts of it are compared in base units, of weight, of volume and of pieces each
 * by themselves. Asked about is what is
 *
 *   a bar code   whole, a sound GTIN, and ten times as much as any that is none; of money not one of eight digits,
 *                which some currencies have
 *   far          more than a thousand times the median of its kind, of six and more (common practice, no source)
 *   beyond       more than a thousand million, of money a million million, however few or many there are: a few of
 *                these come to more than a book can keep
 */
#include "cro-month-private.h"

#include <math.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-gtin.h"

#define FAR 1000
#define FEWEST 6
#define CODE_OVER_OTHERS 10
#define CODE_OF_MONEY 12
#define BEYOND 1e9
#define BEYOND_OF_MONEY 1e12

typedef struct
{
  gconstpointer row;
  gint64        number;     /* as it was entered */
  double        size;       /* in base units; above 0 */
  gboolean      is_code;
  gboolean      is_beyond;
} Size;

typedef const char *(*NameRow) (CroMonthWork *self, gconstpointer row, CroDate *day);

static gboolean
is_bar_code (gint64   number,
             gboolean is_money)
{
  char text[CRO_DECIMAL_CHARS];
  size_t length = cro_decimal_format (ABS (number), text);

  return cro_gtin_is_sound (text, length) && (!is_money || length >= CODE_OF_MONEY);
}

static void
take (GArray        *sizes,
      gconstpointer  row,
      gint64         number,
      double         factor,
      gboolean       is_money)
{
  Size size = { row, number, fabs (cro_decimal_to_double (number)) * factor, FALSE, FALSE };

  /* Nothing is far from nothing; and the least of a damaged book has no size. */
  if (number == 0 || number == G_MININT64)
    return;
  size.is_beyond = fabs (cro_decimal_to_double (number)) > (is_money ? BEYOND_OF_MONEY : BEYOND);
  size.is_code = is_bar_code (number, is_money);
  g_array_append_val (sizes, size);
}

static int
compare_sizes (gconstpointer a,
               gconstpointer b)
{
  const Size *x = a, *y = b;

  if (x->is_code != y->is_code)
    return x->is_code - y->is_code;
  return x->size < y->size ? -1 : x->size > y->size;
}

/* column: its table and it, as tables call them. */
static void
ask_far (CroMonthWork *self,
         GArray       *sizes,
         const char   *column,
         NameRow       name)
{
  guint n = 0;
  double median, most;

  g_array_sort (sizes, compare_sizes);
  while (n < sizes->len && !g_array_index (sizes, Size, n).is_code)
    n++;
  most = n > 0 ? g_array_index (sizes, Size, n - 1).size : 0;
  median = n >= FEWEST ? g_array_index (sizes, Size, n / 2).size : INFINITY;
  for (guint i = sizes->len; i-- > 0;)
    {
      const Size *size = &g_array_index (sizes, Size, i);
      char number[CRO_DECIMAL_CHARS];
      g_autofree char *detail = NULL;
      const char *about;
      CroDate day;

      if (!size->is_beyond && (size->is_code ? size->size <= most * CODE_OVER_OTHERS : size->size <= median * FAR))
        continue;
      cro_decimal_format (size->number, number);
      detail = g_strdup_printf ("%s %s", column, number);
      about = name (self, size->row, &day);
      cro_month_ask (self, CRO_QUESTION_FAR_AMOUNT, about, day, detail, NAN);
    }
  g_array_set_size (sizes, 0);
}

/* --- Tables --------------------------------------------------------------------------------- */

static const char *
sale_name (CroMonthWork  *self,
           gconstpointer  row,
           CroDate       *day)
{
  const CroMonthSale *sale = row;

  *day = sale->date;
  return cro_month_name_of_sale (self, sale);
}

static void
ask_sales (CroMonthWork *self,
           GArray       *sizes)
{
  const GArray *sales = self->entries->sales;

  for (guint i = 0; i < sales->len; i++)
    take (sizes, &g_array_index (sales, CroMonthSale, i), g_array_index (sales, CroMonthSale, i).sold, 1, FALSE);
  ask_far (self, sizes, "sales sold", sale_name);
  for (guint i = 0; i < sales->len; i++)
    if (g_array_index (sales, CroMonthSale, i).has_revenue)
      take (sizes, &g_array_index (sales, CroMonthSale, i), g_array_index (sales, CroMonthSale, i).revenue, 1, TRUE);
  ask_far (self, sizes, "sales net_revenue", sale_name);
}

static const char *
count_name (CroMonthWork  *self,
            gconstpointer  row,
            CroDate       *day)
{
  const CroMonthCount *count = row;

  *day = count->date;
  return cro_month_item_name (self->book, count->item);
}

static const char *
purchase_name (CroMonthWork  *self,
               gconstpointer  row,
               CroDate       *day)
{
  const CroMonthPurchase *purchase = row;

  *day = purchase->date;
  return cro_month_name_of_purchase (self, purchase);
}

static const char *
adjustment_name (CroMonthWork  *self,
                 gconstpointer  row,
                 CroDate       *day)
{
  const CroMonthAdjustment *adjustment = row;

  *day = adjustment->date;
  return cro_month_name_of_adjustment (self, adjustment);
}

static void
take_amount (GArray        *sizes,
             gconstpointer  row,
             gint64         amount,
             CroUnit        unit,
             CroBase        base)
{
  if (cro_unit_get (unit)->base == base)
    take (sizes, row, amount, cro_unit_factor (unit), FALSE);
}

static void
ask_amounts (CroMonthWork *self,
             GArray       *sizes)
{
  const CroMonthEntries *entries = self->entries;

  for (CroBase base = CRO_BASE_GRAM; base <= CRO_BASE_EACH; base++)
    {
      for (guint i = 0; i < entries->closing->len; i++)
        {
          const CroMonthCount *count = &g_array_index (entries->closing, CroMonthCount, i);

          take_amount (sizes, count, count->amount, count->unit, base);
        }
      ask_far (self, sizes, "counts amount", count_name);
      for (guint i = 0; i < entries->purchases->len; i++)
        {
          const CroMonthPurchase *purchase = &g_array_index (entries->purchases, CroMonthPurchase, i);

          if (purchase->has_amount)
            take_amount (sizes, purchase, purchase->amount, purchase->unit, base);
        }
      ask_far (self, sizes, "purchases amount", purchase_name);
      for (guint i = 0; i < entries->adjustments->len; i++)
        {
          const CroMonthAdjustment *adjustment = &g_array_index (entries->adjustments, CroMonthAdjustment, i);

          if (adjustment->has_amount)
            take_amount (sizes, adjustment, adjustment->amount, adjustment->unit, base);
        }
      ask_far (self, sizes, "adjustments amount", adjustment_name);
    }
}

static void
ask_values (CroMonthWork *self,
            GArray       *sizes)
{
  const CroMonthEntries *entries = self->entries;

  for (guint i = 0; i < entries->purchases->len; i++)
    take (sizes, &g_array_index (entries->purchases, CroMonthPurchase, i),
          g_array_index (entries->purchases, CroMonthPurchase, i).value, 1, TRUE);
  ask_far (self, sizes, "purchases net_value", purchase_name);
  for (guint i = 0; i < entries->adjustments->len; i++)
    take (sizes, &g_array_index (entries->adjustments, CroMonthAdjustment, i),
          g_array_index (entries->adjustments, CroMonthAdjustment, i).value, 1, TRUE);
  ask_far (self, sizes, "adjustments net_value", adjustment_name);
}

void
cro_month_ask_sizes (CroMonthWork *self)
{
  g_autoptr (GArray) sizes = g_array_new (FALSE, FALSE, sizeof (Size));

  ask_sales (self, sizes);
  ask_amounts (self, sizes);
  ask_values (self, sizes);
}
