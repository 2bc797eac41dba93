#include "cro-cost-parts.h"

#include <stdlib.h>

#include "cro-money.h"

/* Beyond that nobody compares one with another, and a key has no time to put them in order. */
#define MOST 2000

static int
compare (const void *a,
         const void *b)
{
  const CroCostPart *x = a, *y = b;

  return x->item < y->item ? -1 : x->item > y->item;
}

/* Each by itself, so that it does not matter which are shown. */
static void
round_all (GArray            *all,
           const CroCostPart *shown,
           guint              n,
           gint64             total,
           int                digits,
           gint64            *minor)
{
  g_autofree double *parts = g_new (double, all->len + 1);
  g_autofree guint64 *order = g_new (guint64, all->len + 1);
  g_autofree gint64 *each = g_new0 (gint64, all->len + 1);

  g_array_sort (all, compare);
  for (guint i = 0; i < all->len; i++)
    parts[i] = g_array_index (all, CroCostPart, i).cost;
  cro_money_apportion (total, parts, all->len, digits, order, each);
  minor[n] = total;
  for (guint i = 0; i < n; i++)
    {
      const CroCostPart *found = shown[i].cost != 0
                                     ? bsearch (&shown[i], all->data, all->len, sizeof *shown, compare)
                                     : NULL;

      minor[i] = found != NULL ? each[found - (const CroCostPart *) (const void *) all->data] : 0;
      minor[n] -= minor[i];
    }
}

static void
round_shown (GArray            *all,
             const CroCostPart *shown,
             guint              n,
             gint64             total,
             int                digits,
             gint64            *minor)
{
  g_autofree double *parts = g_new0 (double, n + 1);
  g_autofree guint64 *order = g_new (guint64, n + 1);

  for (guint i = 0; i < all->len; i++)
    parts[n] += g_array_index (all, CroCostPart, i).cost;
  for (guint i = 0; i < n; i++)
    {
      parts[i] = shown[i].cost;
      parts[n] -= shown[i].cost;
    }
  cro_money_apportion (total, parts, n + 1, digits, order, minor);
}

gint64 *
cro_cost_parts_dup_minor (GArray            *all,
                          const CroCostPart *shown,
                          guint              n,
                          double             cost,
                          int                digits)
{
  gint64 *minor = g_new0 (gint64, n + 1);

  (all->len <= MOST ? round_all : round_shown) (all, shown, n, cro_money_round (cost, digits), digits, minor);
  return minor;
}
