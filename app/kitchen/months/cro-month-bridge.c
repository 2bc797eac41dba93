#include "cro-month-bridge.h"

#include <math.h>
#include <string.h>

#include "cro-money.h"
#include "cro-month-private.h"
#include "cro-month-words.h"

/* What a cause begins with that names a by-product without an assigned value. */
#define VALUE_CAUSE "value "

/* One part of one thing in both months. */
typedef struct
{
  const CroMonthPart *part[2];
} Pair;

static double
all_sold (const CroMonth *month)
{
  double all = 0;

  for (guint i = 0; i < month->things->len; i++)
    {
      const CroMonthThing *thing = &g_array_index (month->things, CroMonthThing, i);

      if (thing->kind != CRO_MONTH_OTHER)
        all += thing->sold;
    }
  return all;
}

/* What is missing in one month may make up for what is missing in the other, and each effect is of both. */
static CroKnown
known_in (gboolean                 is_whole,
          const CroMonthBridgeRow *row)
{
  gboolean moves = FALSE;

  for (guint e = 0; e < CRO_N_BRIDGE_EFFECTS; e++)
    moves |= row->effects[e] != 0;
  return is_whole ? CRO_KNOWN_WHOLE : cro_month_known_worth (CRO_KNOWN_IN_PART, moves);
}

static double
change_of (const CroMonthBridgeRow *row)
{
  double sum = 0;

  for (guint i = 0; i < CRO_N_BRIDGE_EFFECTS; i++)
    sum += row->effects[i];
  return sum;
}

static int
compare_rows (gconstpointer a,
              gconstpointer b)
{
  double x = fabs (change_of (a)), y = fabs (change_of (b));

  if (x != y)
    return x > y ? -1 : 1;
  return strcmp (((const CroMonthBridgeRow *) a)->name, ((const CroMonthBridgeRow *) b)->name);
}

static CroMonthBridgeRow *
row_of (GArray     *rows,
        GHashTable *index,
        const char *name)
{
  CroMonthBridgeRow row = { .name = name };
  gpointer at;

  if (!g_hash_table_lookup_extended (index, name, NULL, &at))
    {
      at = GUINT_TO_POINTER (rows->len);
      g_hash_table_insert (index, (gpointer) name, at);
      g_array_append_val (rows, row);
    }
  return &g_array_index (rows, CroMonthBridgeRow, GPOINTER_TO_UINT (at));
}

/* Food and assigned values; disposables and a menu's plates are no part of its food cost. */
static gboolean
is_food (const CroMonthPart *part)
{
  return part->kind == 0 || part->kind == 2;
}

static guint
part_hash (gconstpointer part)
{
  return g_str_hash (((const CroMonthPart *) part)->name) + ((const CroMonthPart *) part)->kind;
}

static gboolean
part_equal (gconstpointer a,
            gconstpointer b)
{
  const CroMonthPart *x = a, *y = b;

  return x->kind == y->kind && strcmp (x->name, y->name) == 0;
}

static void
add_pairs (GHashTable          *pairs,
           const CroMonthThing *thing,
           guint                month)
{
  for (guint i = 0; thing != NULL && thing->parts != NULL && i < thing->parts->len; i++)
    {
      const CroMonthPart *part = &g_array_index (thing->parts, CroMonthPart, i);
      Pair *pair = g_hash_table_lookup (pairs, part);

      if (!is_food (part))
        continue;
      if (pair == NULL)
        {
          pair = g_new0 (Pair, 1);
          g_hash_table_insert (pairs, (gpointer) part, pair);
        }
      pair->part[month] = part;
    }
}

typedef struct
{
  CroMonthBridge *bridge;
  GHashTable     *items;      /* name → index */
  GHashTable     *things;
  double          all[2];
} Making;

/* What a month was told that it took, where none was sold of it, or of all things: sold and taken back, each at the
 * prices of its day. */
static double
taken_back (const CroMonthThing *thing,
            double               all)
{
  return thing != NULL && (thing->sold == 0 || all == 0) ? thing->theoretical : 0;
}

/* A thing that one month lacks was sold 0 times there and took what it took in the other; a part that it
 * lacks was 0 of it, at the other's price. */
static void
add_thing (Making              *self,
           const CroMonthThing *from,
           const CroMonthThing *to)
{
  g_autoptr (GHashTable) pairs = g_hash_table_new_full (part_hash, part_equal, NULL, g_free);
  double sold[2] = { from != NULL ? from->sold : 0, to != NULL ? to->sold : 0 };
  CroBridgeSold of = cro_bridge_sold (self->all, sold);
  CroMonthBridgeRow *thing = row_of (self->bridge->things, self->things,
                                     from != NULL ? from->name : to->name);
  GHashTableIter iter;
  gpointer value;

  self->bridge->taken_back += taken_back (to, self->all[1]) - taken_back (from, self->all[0]);
  add_pairs (pairs, from != NULL ? from : to, 0);
  add_pairs (pairs, to != NULL ? to : from, 1);
  g_hash_table_iter_init (&iter, pairs);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    {
      const Pair *pair = value;
      const CroMonthPart *any = pair->part[0] != NULL ? pair->part[0] : pair->part[1];
      double quantity[2], price[2], effects[CRO_N_BRIDGE_EFFECTS] = { 0 };
      CroMonthBridgeRow *item = row_of (self->bridge->items, self->items, any->name);

      for (guint i = 0; i < 2; i++)
        {
          quantity[i] = pair->part[i] != NULL ? pair->part[i]->quantity : 0;
          price[i] = pair->part[i] != NULL ? pair->part[i]->unit_cost : pair->part[1 - i]->unit_cost;
        }
      cro_bridge_add (&of, quantity, price, effects);
      for (guint e = 0; e < CRO_N_BRIDGE_EFFECTS; e++)
        {
          item->effects[e] += effects[e];
          thing->effects[e] += effects[e];
        }
    }
  thing->known = known_in ((from == NULL || !from->is_incomplete) && (to == NULL || !to->is_incomplete), thing);
}

static const CroMonthThing *
find_thing (const CroMonth      *month,
            const CroMonthThing *like)
{
  guint at;

  return g_array_binary_search (month->things, like, cro_month_compare_things, &at)
             ? &g_array_index (month->things, CroMonthThing, at)
             : NULL;
}

static void
add_things (Making *self)
{
  const CroMonth *from = self->bridge->from, *to = self->bridge->to;

  for (guint i = 0; i < from->things->len; i++)
    {
      const CroMonthThing *thing = &g_array_index (from->things, CroMonthThing, i);

      if (thing->kind != CRO_MONTH_OTHER)
        add_thing (self, thing, find_thing (to, thing));
    }
  for (guint i = 0; i < to->things->len; i++)
    {
      const CroMonthThing *thing = &g_array_index (to->things, CroMonthThing, i);

      if (thing->kind != CRO_MONTH_OTHER && find_thing (from, thing) == NULL)
        add_thing (self, NULL, thing);
    }
}

static gboolean
lacks_a_rate (const CroMonth *month)
{
  for (guint i = 0; i < month->missing->len; i++)
    if (g_str_has_prefix (month->missing->pdata[i], "rate "))
      return TRUE;
  return FALSE;
}

/* However much more is taken of what costs nothing, that is 0. Not every cause names what it keeps from being known: a
 * rate names a currency. */
static gboolean
is_whole (const CroMonth     *month,
          const CroMonthItem *item)
{
  return item->known_theoretical == CRO_KNOWN_WHOLE
         || (item->theoretical_quantity != 0 && item->theoretical_cost == 0 && !lacks_a_rate (month)
             && cro_month_known_by_name (month, item->name, 0) == CRO_KNOWN_WHOLE);
}

static gboolean
is_whole_in (const CroMonth *month,
             const char     *name)
{
  for (guint i = 0; i < month->items->len; i++)
    {
      const CroMonthItem *item = &g_array_index (month->items, CroMonthItem, i);

      if (strcmp (item->name, name) == 0 && !is_whole (month, item))
        return FALSE;
    }
  for (guint i = 0; i < month->by_products->len; i++)
    if (strcmp (g_array_index (month->by_products, CroMonthByProduct, i).name, name) == 0
        && cro_month_known_by_products (month) != CRO_KNOWN_WHOLE)
      return FALSE;
  return cro_month_known_by_name (month, name, 0) == CRO_KNOWN_WHOLE;
}

/* What nothing is known of in either month is no part of what was sold; it has a row of that. A by-product without a
 * value is told of as a cause alone. */
static void
add_unknown (Making         *self,
             const CroMonth *month)
{
  for (guint i = 0; i < month->items->len; i++)
    {
      const CroMonthItem *item = &g_array_index (month->items, CroMonthItem, i);

      if (!is_whole (month, item))
        row_of (self->bridge->items, self->items, item->name);
    }
  for (guint i = 0; i < month->missing->len; i++)
    if (g_str_has_prefix (month->missing->pdata[i], VALUE_CAUSE))
      row_of (self->bridge->items, self->items, (const char *) month->missing->pdata[i] + strlen (VALUE_CAUSE));
}

static void
tell_known (CroMonthBridge *self)
{
  CroKnown to = self->to->known_theoretical, from = self->from->known_theoretical;

  for (guint i = 0; i < self->items->len; i++)
    {
      CroMonthBridgeRow *row = &g_array_index (self->items, CroMonthBridgeRow, i);

      row->known = known_in (is_whole_in (self->from, row->name) && is_whole_in (self->to, row->name), row);
    }
  self->known = to == CRO_KNOWN_WHOLE && from == CRO_KNOWN_WHOLE ? CRO_KNOWN_WHOLE : CRO_KNOWN_IN_PART;
  self->known_all = cro_known_of_sum (to, cro_known_turned (from));
}

CroMonthBridge *
cro_month_bridge_new (const CroMonth *from,
                      const CroMonth *to)
{
  CroMonthBridge *self = g_new0 (CroMonthBridge, 1);
  Making making = { self, g_hash_table_new (g_str_hash, g_str_equal),
                    g_hash_table_new (g_str_hash, g_str_equal), { all_sold (from), all_sold (to) } };

  self->from = from;
  self->to = to;
  self->items = g_array_new (FALSE, FALSE, sizeof (CroMonthBridgeRow));
  self->things = g_array_new (FALSE, FALSE, sizeof (CroMonthBridgeRow));
  add_things (&making);
  add_unknown (&making, from);
  add_unknown (&making, to);
  tell_known (self);
  g_array_sort (self->items, compare_rows);
  g_array_sort (self->things, compare_rows);
  for (guint i = 0; i < self->things->len; i++)
    for (guint e = 0; e < CRO_N_BRIDGE_EFFECTS; e++)
      self->effects[e] += g_array_index (self->things, CroMonthBridgeRow, i).effects[e];
  g_hash_table_unref (making.items);
  g_hash_table_unref (making.things);
  return self;
}

void
cro_month_bridge_free (CroMonthBridge *self)
{
  g_array_unref (self->items);
  g_array_unref (self->things);
  g_free (self);
}

gint64
cro_month_bridge_round (const CroMonthBridge *self,
                        GArray               *rows,
                        int                   digits,
                        gint64                steps[CRO_N_BRIDGE_STEPS],
                        gint64               *minor)
{
  guint n = rows->len, n_steps = self->taken_back != 0 ? CRO_N_BRIDGE_STEPS : CRO_N_BRIDGE_EFFECTS;
  g_autofree double *parts = g_new (double, n + CRO_N_BRIDGE_STEPS);
  g_autofree guint64 *order = g_new (guint64, n + CRO_N_BRIDGE_STEPS);
  g_autofree gint64 *column = g_new (gint64, n + 1);
  CroMonthMinor from, to;
  gint64 change;

  cro_month_round (self->from, digits, &from);
  cro_month_round (self->to, digits, &to);
  change = to.theoretical - from.theoretical;
  memcpy (parts, self->effects, sizeof self->effects);
  parts[CRO_N_BRIDGE_EFFECTS] = self->taken_back;
  steps[CRO_N_BRIDGE_EFFECTS] = 0;
  cro_money_apportion (change, parts, n_steps, digits, order, steps);
  for (guint e = 0; e < CRO_N_BRIDGE_EFFECTS; e++)
    {
      for (guint i = 0; i < n; i++)
        parts[i] = g_array_index (rows, CroMonthBridgeRow, i).effects[e];
      cro_money_apportion (steps[e], parts, n, digits, order, column);
      for (guint i = 0; i < n; i++)
        minor[i * CRO_N_BRIDGE_EFFECTS + e] = column[i];
    }
  return change;
}
