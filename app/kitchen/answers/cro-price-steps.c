#include "cro-price-steps.h"

#include <math.h>
#include <string.h>

#include "cro-code.h"
#include "cro-decimal.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-plate.h"
#include "cro-selling-steps.h"
#include "cro-sold-as.h"
#include "cro-sold.h"

/* Of the house's prices: on either side of the one in force, and beyond the one that holds. */
#define AROUND 3
#define BEYOND 1

/* --- The house's prices ---------------------------------------------------------------------------- */

CroPriceHabit
cro_price_habit_read (CroBook *book)
{
  static const char *const columns[] = { "price_steps", NULL };
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (book), "book", 1, columns, NULL);
  const char *code = rows != NULL && cro_rows_next (rows, NULL) ? cro_rows_get_text (rows, 0) : NULL;

  for (int i = 0; code != NULL && cro_price_habit_codes[i] != NULL; i++)
    if (g_str_equal (cro_price_habit_codes[i], code))
      return (CroPriceHabit) i;
  return CRO_PRICES_HALF;
}

/* A whole price in minor units: of a currency that has none, a hundred. */
static gint64
whole_of (int digits)
{
  return digits > 0 ? (gint64) llround (pow (10, digits)) : 100;
}

/* The number-th price of the house, counted from 0 up. */
static gint64
house_price (CroPriceHabit habit,
             gint64        whole,
             gint64        number)
{
  switch (habit)
    {
    case CRO_PRICES_HALF:
      return number * whole / 2;
    case CRO_PRICES_NINETY_FIVE:
      return number * whole + whole * 95 / 100;
    default:
      return number * whole;
    }
}

/* The number of the first price of the house that is no less than minor. */
static gint64
first_from (CroPriceHabit habit,
            gint64        whole,
            gint64        minor)
{
  gint64 number = MAX (minor / (habit == CRO_PRICES_HALF ? MAX (whole / 2, 1) : whole) - 1, 0);

  while (house_price (habit, whole, number) < minor)
    number++;
  return number;
}

/* --- The rows --------------------------------------------------------------------------------------- */

typedef struct
{
  CroModel  *model;
  CroFigure  figure;
  double     tax;
  int        digits;
  GArray    *steps;
} Steps;

static gint64
micro_of (const Steps *self,
          gint64       minor)
{
  return minor * cro_currency_minor (self->model->currency);
}

static CroPriceStep *
find (const Steps *self,
      gint64       price)
{
  for (guint i = 0; i < self->steps->len; i++)
    if (g_array_index (self->steps, CroPriceStep, i).price == price)
      return &g_array_index (self->steps, CroPriceStep, i);
  return NULL;
}

static CroPriceStep *
add (Steps  *self,
     gint64  price)
{
  CroPriceStep step = { .price = price, .sold = CRO_NOT_SET };

  if (price <= 0 || find (self, price) != NULL)
    return find (self, price);
  g_array_append_val (self->steps, step);
  return &g_array_index (self->steps, CroPriceStep, self->steps->len - 1);
}

static void
add_house_prices (Steps         *self,
                  CroPriceHabit  habit,
                  gint64         from,
                  gint64         n)
{
  gint64 whole = whole_of (self->digits);

  for (gint64 i = MAX (from, 0); i < from + n; i++)
    add (self, micro_of (self, house_price (habit, whole, i)));
}

/* In minor units, rounded to the side that keeps every step around it on its own. */
static gint64
minor_of (const Steps *self,
          gint64       price)
{
  return cro_money_round_up (cro_decimal_to_double (price), self->digits);
}

static void
compute (const Steps  *self,
         CroPriceStep *step)
{
  double food = self->figure.cost;

  step->net = cro_decimal_to_double (step->price) / (1 + self->tax);
  step->food_cost_pct = cro_food_cost_pct (food, step->net);
  step->left = step->net - food;
  step->coefficient = food > 0 ? step->net / food : NAN;
  step->prime_cost_pct = cro_food_cost_pct (food + self->figure.labour, step->net);
  step->is_over = cro_is_over_target (food, step->net, self->figure.target_pct / 100);
}

static int
by_price (gconstpointer a,
          gconstpointer b)
{
  gint64 x = ((const CroPriceStep *) a)->price, y = ((const CroPriceStep *) b)->price;

  return x < y ? -1 : x > y;
}

static void
add_sold (Steps      *self,
          GHashTable *sold)
{
  GHashTableIter iter;
  gpointer price, number;

  g_hash_table_iter_init (&iter, sold);
  while (g_hash_table_iter_next (&iter, &price, &number))
    {
      CroPriceStep *step = add (self, *(const gint64 *) price);

      if (step != NULL)
        step->sold = *(const gint64 *) number;
    }
}

/* --- The thing -------------------------------------------------------------------------------------- */

static void
add_now (Steps         *self,
         CroPriceHabit  habit,
         gint64         price)
{
  gint64 number;

  if (price == CRO_NOT_SET)
    return;
  number = first_from (habit, whole_of (self->digits), minor_of (self, price));
  add_house_prices (self, habit, number - AROUND, 2 * AROUND + 1);
  if (price > 0)
    add (self, price)->is_now = TRUE;
}

/* Around it where nothing else says which prices are asked. */
static void
add_holding (Steps         *self,
             CroPriceHabit  habit,
             gboolean       is_alone)
{
  double price = self->figure.price_for_target;
  gint64 minor, number;

  if (!isfinite (price) || price <= 0)
    return;
  minor = cro_money_round_up (price, self->digits);
  number = first_from (habit, whole_of (self->digits), minor);
  add_house_prices (self, habit, is_alone ? number - AROUND : number,
                    (is_alone ? AROUND : 0) + 1 + BEYOND);
  add (self, micro_of (self, minor))->holds = TRUE;
}

GArray *
cro_price_steps_new (CroFigures    *figures,
                     CroRef         thing,
                     CroPriceHabit  habit,
                     GHashTable    *sold)
{
  return cro_price_steps_for (figures, thing, habit, sold, NAN);
}

GArray *
cro_price_steps_for (CroFigures    *figures,
                     CroRef         thing,
                     CroPriceHabit  habit,
                     GHashTable    *sold,
                     double         target_pct)
{
  CroModel *model = figures->model;
  Steps self = {
    model,
    cro_figure_of (figures, thing),
    (double) cro_sold_tax (model, thing, NULL) / (double) CRO_WHOLE_PCT,
    cro_currency_digits (model->currency),
    g_array_new (FALSE, FALSE, sizeof (CroPriceStep))
  };
  gint64 price = cro_sold_price (model, thing);

  if (isnan (self.figure.target_pct) && !isnan (target_pct))
    {
      self.figure.target_pct = target_pct;
      self.figure.price_for_target = cro_price_for_target (self.figure.cost, target_pct / 100, self.tax);
    }
  add_now (&self, habit, price);
  add_holding (&self, habit, price == CRO_NOT_SET);
  if (sold != NULL && self.steps->len > 0)
    add_sold (&self, sold);
  g_array_sort (self.steps, by_price);
  for (guint i = 0; i < self.steps->len; i++)
    compute (&self, &g_array_index (self.steps, CroPriceStep, i));
  return self.steps;
}

/* --- What was sold ----------------------------------------------------------------------------------- */

static void
count (GHashTable *sold,
       gint64      price,
       gint64      number)
{
  gint64 *before = g_hash_table_lookup (sold, &price);

  if (before != NULL)
    *before += number;
  else
    g_hash_table_insert (sold, g_memdup2 (&price, sizeof price), g_memdup2 (&number, sizeof number));
}

static gint64
price_on (GArray *steps,
          gint64  undated,
          CroDate date)
{
  const CroSellingStep *step = cro_selling_step_on (steps, date);

  return step != NULL ? step->price : undated;
}

/* Prices that were asked, whether or not anything was sold at them. */
static void
count_asked (GHashTable *sold,
             GArray     *steps,
             gint64      undated,
             CroDate     date)
{
  for (CroDate day = date - (CRO_SOLD_DAYS - 1); day <= date; day++)
    if (price_on (steps, undated, day) != CRO_NOT_SET)
      count (sold, price_on (steps, undated, day), 0);
}

typedef struct
{
  CroDate date;
  gint64  sold;
} Sale;

/* Elements Sale, up to a day. NULL with error. */
static GArray *
read_sales (CroBook  *book,
            gint64    thing,
            CroDate   until,
            GError  **error)
{
  static const char *const columns[] = { "date", "sold_micro", NULL };
  g_autoptr (CroRows) rows = cro_store_read_of (cro_book_get_store (book), "sale", "thing", thing,
                                                columns, error);
  g_autoptr (GArray) sales = g_array_new (FALSE, FALSE, sizeof (Sale));
  GError *failed = NULL;

  if (rows == NULL)
    return NULL;
  while (cro_rows_next (rows, &failed))
    {
      const char *text = cro_rows_get_text (rows, 0);
      Sale sale = { 0, cro_rows_get_int (rows, 1) };

      if (cro_date_parse (text, strlen (text), &sale.date) && sale.date <= until)
        g_array_append_val (sales, sale);
    }
  if (failed == NULL)
    return g_steal_pointer (&sales);
  g_propagate_error (error, failed);
  return NULL;
}

GHashTable *
cro_sold_by_price_new (CroBook  *book,
                       CroRef    thing,
                       CroDate  *last,
                       GError  **error)
{
  CroModel *model = cro_book_get_model (book);
  CroDate today = cro_book_get_figures (book)->date;
  gboolean is_menu = thing.kind == CRO_REF_MENU;
  gint64 id = is_menu ? cro_model_menu (model, thing.slot)->id
                      : cro_model_recipe (model, thing.slot)->id;
  gint64 undated = is_menu ? cro_model_menu (model, thing.slot)->own_price
                           : cro_model_recipe (model, thing.slot)->own_price;
  g_autoptr (GArray) steps = cro_selling_steps_new (book, thing, error);
  g_autoptr (GArray) sales = steps != NULL ? read_sales (book, id, today, error) : NULL;
  g_autoptr (GHashTable) sold = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);

  if (sales == NULL || !cro_sold_last (book, last, error))
    return NULL;
  if (*last == G_MININT32)
    *last = today;
  /* Only where something was sold at all: 0 would be taken for an answer. */
  if (sales->len > 0)
    count_asked (sold, steps, undated, *last);
  for (guint i = 0; i < sales->len; i++)
    {
      const Sale *sale = &g_array_index (sales, Sale, i);
      gint64 price = price_on (steps, undated, sale->date);

      if (sale->date > *last - CRO_SOLD_DAYS && price != CRO_NOT_SET)
        count (sold, price, sale->sold);
    }
  return g_steal_pointer (&sold);
}
