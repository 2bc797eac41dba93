#include "cro-service-orders.h"

#include <math.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-money.h"
#include "cro-not-set.h"

guint32
cro_plan_buy_supplier (const CroServicePlan *plan,
                       const CroPlanBuy     *buy)
{
  return buy->offer != CRO_NO_SLOT ? cro_model_offer (plan->figures->model, buy->offer)->supplier
                                   : CRO_NO_SLOT;
}

static int
compare_for_reader (gconstpointer a,
                    gconstpointer b,
                    gpointer      model)
{
  const char *one = cro_model_item (model, ((const CroPlanBuy *) a)->item)->name;
  const char *other = cro_model_item (model, ((const CroPlanBuy *) b)->item)->name;
  int by_language = g_utf8_collate (one, other);

  return by_language != 0 ? by_language : strcmp (one, other);
}

void
cro_service_plan_sort_for_reader (CroServicePlan *plan)
{
  GArray *buy = plan->buy;

  for (guint i = 0, n; i < buy->len; i += n)
    {
      CroPlanBuy *first = &g_array_index (buy, CroPlanBuy, i);
      guint32 supplier = cro_plan_buy_supplier (plan, first);

      for (n = 1; i + n < buy->len && cro_plan_buy_supplier (plan, first + n) == supplier; n++)
        ;
      g_qsort_with_data (first, (int) n, sizeof *first, compare_for_reader, plan->figures->model);
    }
}

/* Of a sum of two figures. */
static CroKnown
known_together (CroKnown a,
                CroKnown b)
{
  if (a == CRO_KNOWN_NOTHING)
    a = CRO_KNOWN_AT_LEAST;
  if (b == CRO_KNOWN_NOTHING)
    b = CRO_KNOWN_AT_LEAST;
  if (a == CRO_KNOWN_WHOLE || a == b)
    return b;
  return b == CRO_KNOWN_WHOLE ? a : CRO_KNOWN_IN_PART;
}

/* Nothing was found where something is missing: that is no 0. */
static CroKnown
known_of_sum (CroKnown known,
              double   sum)
{
  return known != CRO_KNOWN_WHOLE && sum == 0 ? CRO_KNOWN_NOTHING : known;
}

/* The order of a supplier, whose rows stand together. */
static CroPlanOrder *
open_order (CroServicePlan *plan,
            guint32         supplier,
            guint           first_buy)
{
  CroPlanOrder next = { .supplier = supplier, .first_buy = first_buy, .minimum = CRO_NOT_SET,
                        .charge = CRO_NOT_SET };
  guint n = plan->orders->len;

  if (n == 0 || g_array_index (plan->orders, CroPlanOrder, n - 1).supplier != supplier)
    g_array_append_val (plan->orders, next);
  return &g_array_index (plan->orders, CroPlanOrder, plan->orders->len - 1);
}

/* What has no lines yet will take packs that nobody can list. */
static gboolean
takes_what_is_not_written (const CroServicePlan *plan)
{
  for (guint i = 0; i < plan->missing->len; i++)
    {
      CroCauseKind kind = g_array_index (plan->missing, CroCause, i).kind;

      if (kind == CRO_CAUSE_LINES || kind == CRO_CAUSE_PLATES)
        return TRUE;
    }
  return FALSE;
}

/* Rows without an offer stand last and belong to none. */
static void
list_orders (CroServicePlan *plan)
{
  for (guint i = 0; i < plan->buy->len; i++)
    {
      const CroPlanBuy *buy = &g_array_index (plan->buy, CroPlanBuy, i);
      CroPlanOrder *order;

      if (buy->offer == CRO_NO_SLOT)
        {
          plan->known_cost = known_together (plan->known_cost, CRO_KNOWN_AT_LEAST);
          continue;
        }
      order = open_order (plan, cro_plan_buy_supplier (plan, buy), i);
      order->n_buys++;
      order->cost += buy->cost;
      order->known = known_together (order->known, buy->known);
      plan->cost += buy->cost;
      plan->known_cost = known_together (plan->known_cost, buy->known);
    }
  if (takes_what_is_not_written (plan))
    plan->known_cost = known_together (plan->known_cost, CRO_KNOWN_AT_LEAST);
  plan->known_cost = known_of_sum (plan->known_cost, plan->cost);
  for (guint i = 0; i < plan->orders->len; i++)
    {
      CroPlanOrder *order = &g_array_index (plan->orders, CroPlanOrder, i);

      order->known = known_of_sum (order->known, order->cost);
    }
}

static CroPlanOrder *
find_order (CroServicePlan *plan,
            guint32         supplier)
{
  for (guint i = 0; i < plan->orders->len; i++)
    if (g_array_index (plan->orders, CroPlanOrder, i).supplier == supplier)
      return &g_array_index (plan->orders, CroPlanOrder, i);
  return NULL;
}

static gboolean
read_terms (CroBook         *book,
            CroServicePlan  *plan,
            GError         **error)
{
  static const char *const columns[] = { "id", "minimum_order_micro", "delivery_charge_micro", NULL };
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (book), "supplier", columns, error);
  GError *failed = NULL;

  if (rows == NULL)
    return FALSE;
  while (cro_rows_next (rows, &failed))
    {
      CroPlanOrder *order = find_order (
          plan, cro_slots_get (&cro_book_get_model (book)->supplier_slots, cro_rows_get_int (rows, 0)));

      if (order == NULL)
        continue;
      order->minimum = cro_row_number (rows, 1);
      order->charge = cro_row_number (rows, 2);
    }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return failed == NULL;
}

gboolean
cro_service_plan_order (CroServicePlan  *plan,
                        CroBook         *book,
                        GError         **error)
{
  list_orders (plan);
  return read_terms (book, plan, error);
}

gboolean
cro_plan_order_is_free (const CroPlanOrder *order)
{
  return order->known == CRO_KNOWN_WHOLE && order->cost == 0;
}

double
cro_plan_order_short (const CroPlanOrder *order)
{
  double minimum = order->minimum != CRO_NOT_SET ? cro_decimal_to_double (order->minimum) : 0;

  return cro_is_above (minimum, order->cost) ? minimum - order->cost : 0;
}

void
cro_plan_apportion (const CroServicePlan *plan,
                    int                   digits,
                    gint64               *orders,
                    gint64               *rows)
{
  guint n = MAX (plan->buy->len, plan->orders->len) + 1;
  g_autofree double *costs = g_new (double, n);
  g_autofree guint64 *workspace = g_new (guint64, n);

  for (guint i = 0; i < plan->orders->len; i++)
    costs[i] = g_array_index (plan->orders, CroPlanOrder, i).cost;
  cro_money_apportion (cro_money_round (plan->cost, digits), costs, plan->orders->len, digits,
                       workspace, orders);
  memset (rows, 0, plan->buy->len * sizeof *rows);
  for (guint i = 0; i < plan->orders->len; i++)
    {
      const CroPlanOrder *order = &g_array_index (plan->orders, CroPlanOrder, i);

      for (guint k = 0; k < order->n_buys; k++)
        costs[k] = g_array_index (plan->buy, CroPlanBuy, order->first_buy + k).cost;
      cro_money_apportion (orders[i], costs, order->n_buys, digits, workspace,
                           rows + order->first_buy);
    }
}
