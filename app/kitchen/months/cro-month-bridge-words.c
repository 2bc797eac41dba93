#include "config.h"

#include "cro-month-bridge-words.h"

#include <glib/gi18n.h>
#include <stdlib.h>

#include "cro-isolate.h"
#include "cro-month-words.h"
#include "cro-number.h"
#include "cro-words.h"

/* "purchase prices", inside of a sentence. */
static const char *
effect_words (CroBridgeEffect effect)
{
  const char *const words[CRO_N_BRIDGE_EFFECTS] = {
    /* Translators: what moved a food cost; each follows "most of it comes from". */
    _("how much was sold"), _("what was sold"), _("purchase prices"), _("recipes")
  };

  return words[effect];
}

const char *
cro_bridge_effect_name (CroBridgeEffect effect)
{
  const char *const names[CRO_N_BRIDGE_EFFECTS] = { _("volume"), _("mix"), _("price"), _("recipe") };

  return names[effect];
}

/* What none of them tells of. */
static const char *
taken_back_name (void)
{
  return _("taken back at another price");
}

static int
digits_of (const CroMonthBridge *self)
{
  return cro_currency_digits (self->to->currency);
}

static char *
change (const CroMonthBridge *self,
        CroKnown              known,
        gint64                minor)
{
  return cro_month_table_change (known, minor, digits_of (self));
}

static char *
theoretical (const CroMonthBridge *self,
             const CroMonth       *month)
{
  CroMonthMinor minor;

  cro_month_round (month, digits_of (self), &minor);
  return cro_month_table_money (month->known_theoretical, minor.theoretical, digits_of (self));
}

/* --- Sentences ------------------------------------------------------------------------------ */

/* A line does not end behind its mark. */
static char *
told (const CroMonthBridge *self,
      CroKnown              known,
      gint64                minor)
{
  return cro_words_take_joined (change (self, known, minor));
}

/* Of the change as a whole words say how much is known; of what moved it the signs that the tables have. */
static char *
dup_known_change (const CroMonthBridge *self,
                  const char           *text)
{
  switch (self->known_all)
    {
    case CRO_KNOWN_WHOLE:
      return g_strdup (text);
    case CRO_KNOWN_AT_LEAST:
      /* Translators: a change of money. */
      return g_strdup_printf (_("by at least %s"), text);
    case CRO_KNOWN_AT_MOST:
      /* Translators: a change of money. */
      return g_strdup_printf (_("by at most %s"), text);
    case CRO_KNOWN_IN_PART:
    case CRO_KNOWN_NOTHING:
      /* Translators: a change of money, of two sums that both lack something. */
      return g_strdup_printf (_("%s of what is known, and by more or less with what is missing"), text);
    }
  g_return_val_if_reached (NULL);
}

/* Whether an effect is a part of the change, and more than half of it: others that make up for each other
 * can be larger than what they leave. */
static gboolean
is_most_of (gint64 effect,
            gint64 moved)
{
  return (effect < 0) == (moved < 0) && llabs (effect) <= llabs (moved) && 2 * llabs (effect) > llabs (moved);
}

static char *
dup_first (const CroMonthBridge *self,
           const gint64         *effects,
           gint64                moved)
{
  g_autofree char *from = cro_month_to_text (self->from->first);
  g_autofree char *to = cro_month_to_text (self->to->first);
  g_autofree char *was = cro_words_take_joined (theoretical (self, self->from));
  g_autofree char *is = cro_words_take_joined (theoretical (self, self->to));
  g_autofree char *plain = told (self, CRO_KNOWN_WHOLE, moved), *by = dup_known_change (self, plain);
  g_autofree char *most = NULL;
  guint largest = 0;

  for (guint e = 1; e < CRO_N_BRIDGE_EFFECTS; e++)
    if (llabs (effects[e]) > llabs (effects[largest]))
      largest = e;
  most = told (self, self->known, effects[largest]);
  if (llabs (effects[CRO_N_BRIDGE_EFFECTS]) > llabs (effects[largest]))
    /* Translators: two months, the theoretical food cost of each, the change. */
    return cro_isolate_printf (_("From %s to %s theoretical food cost went from %s to %s: %s."), from, to, was, is, by);
  if (!is_most_of (effects[largest], moved))
    /* Translators: two months, the theoretical food cost of each, the change; what moved it most, and by how
     * much. */
    return cro_isolate_printf (_("From %s to %s theoretical food cost went from %s to %s: %s. The largest effect "
                                 "is %s: %s."),
                               from, to, was, is, by, effect_words (largest), most);
  /* Translators: two months, the theoretical food cost of each, the change; what moved it most, and by
   * how much. */
  return cro_isolate_printf (_("From %s to %s theoretical food cost went from %s to %s: %s. Most of it comes "
                               "from %s: %s."),
                             from, to, was, is, by, effect_words (largest), most);
}

/* The row of an effect that moved most in its direction. */
static guint
largest_row (const gint64   *minor,
             guint           n,
             CroBridgeEffect effect,
             gint64          moved)
{
  gint64 sign = moved < 0 ? -1 : 1;
  guint largest = 0;

  for (guint i = 1; i < n; i++)
    if (sign * minor[(gsize) i * CRO_N_BRIDGE_EFFECTS + effect]
        > sign * minor[(gsize) largest * CRO_N_BRIDGE_EFFECTS + effect])
      largest = i;
  return largest;
}

/* Whether of all but that row it is known how much each moved. */
static gboolean
are_others_known (GArray *rows,
                  guint   but)
{
  for (guint i = 0; i < rows->len; i++)
    if (i != but && g_array_index (rows, CroMonthBridgeRow, i).known != CRO_KNOWN_WHOLE)
      return FALSE;
  return TRUE;
}

/* Beside what is not known nothing is said to have moved most of all. */
static char *
dup_effect_of_known (CroBridgeEffect  effect,
                     const char      *all,
                     const char      *name,
                     const char      *most)
{
  /* Translators: of each: what is known of what it moved the food cost by, the ingredient in which that moved most, by
   * how much there. */
  switch (effect)
    {
    case CRO_BRIDGE_VOLUME:
      return cro_isolate_printf (_("Volume %s, of what is known most in %s %s."), all, name, most);
    case CRO_BRIDGE_MIX:
      return cro_isolate_printf (_("Mix %s, of what is known most in %s %s."), all, name, most);
    case CRO_BRIDGE_PRICE:
      return cro_isolate_printf (_("Price %s, of what is known most in %s %s."), all, name, most);
    case CRO_BRIDGE_RECIPE:
    case CRO_N_BRIDGE_EFFECTS:
      return cro_isolate_printf (_("Recipes %s, of what is known most in %s %s."), all, name, most);
    }
  g_return_val_if_reached (NULL);
}

/* Of an effect what moved most in its direction; NULL: it moved nothing. */
static char *
dup_effect (const CroMonthBridge *self,
            CroBridgeEffect       effect,
            gint64                moved,
            const gint64         *minor)
{
  g_autofree char *all = told (self, self->known, moved), *most = NULL;
  guint largest = largest_row (minor, self->items->len, effect, moved);
  const CroMonthBridgeRow *row;

  if (moved == 0 || self->items->len == 0)
    return NULL;
  row = &g_array_index (self->items, CroMonthBridgeRow, largest);
  most = told (self, row->known, minor[(gsize) largest * CRO_N_BRIDGE_EFFECTS + effect]);
  if (!are_others_known (self->items, largest))
    return dup_effect_of_known (effect, all, row->name, most);
  /* Translators: of each: what it moved the food cost by, the ingredient in which it moved most, by how
   * much there. */
  switch (effect)
    {
    case CRO_BRIDGE_VOLUME:
      return cro_isolate_printf (_("Volume %s, most of all %s %s."), all, row->name, most);
    case CRO_BRIDGE_MIX:
      return cro_isolate_printf (_("Mix %s, most of all %s %s."), all, row->name, most);
    case CRO_BRIDGE_PRICE:
      return cro_isolate_printf (_("Price %s, most of all %s %s."), all, row->name, most);
    case CRO_BRIDGE_RECIPE:
    case CRO_N_BRIDGE_EFFECTS:
      return cro_isolate_printf (_("Recipes %s, most of all %s %s."), all, row->name, most);
    }
  g_return_val_if_reached (NULL);
}

GPtrArray *
cro_month_bridge_words (const CroMonthBridge *self)
{
  g_autofree gint64 *minor = g_new0 (gint64, (self->items->len + 1) * CRO_N_BRIDGE_EFFECTS);
  gint64 effects[CRO_N_BRIDGE_STEPS];
  gint64 moved = cro_month_bridge_round (self, self->items, digits_of (self), effects, minor);
  GPtrArray *words = g_ptr_array_new_with_free_func (g_free);

  g_ptr_array_add (words, dup_first (self, effects, moved));
  for (guint e = 0; e < CRO_N_BRIDGE_EFFECTS; e++)
    {
      char *one = dup_effect (self, e, effects[e], minor);

      if (one != NULL)
        g_ptr_array_add (words, one);
    }
  if (self->taken_back != 0)
    {
      g_autofree char *money = told (self, self->known, effects[CRO_N_BRIDGE_EFFECTS]);

      /* Translators: a change of money. */
      g_ptr_array_add (words, cro_isolate_printf (_("Sold and taken back at another price, so that none is left: %s."),
                                                  money));
    }
  return words;
}

/* --- Tables --------------------------------------------------------------------------------- */

static void
add_notes (const CroMonthBridge *self,
           CroMonthTable        *table)
{
  g_ptr_array_add (table->notes,
                   g_strdup (_("Each effect is taken at the mean of both months (Bennet 1920), so that "
                               "nothing is left over.")));
  if (self->known != CRO_KNOWN_WHOLE)
    g_ptr_array_add (table->notes,
                     g_strdup (_("Something is missing in a month: these are changes of what is known.")));
}

static void
add_month (const CroMonthBridge *self,
           CroMonthTable        *table,
           const CroMonth       *month)
{
  g_autofree char *name = cro_month_to_text (month->first);
  CroMonthTableRow *row = cro_month_table_add (table, -1, name);

  row->is_sum = TRUE;
  row->cells[1] = theoretical (self, month);
}

CroMonthTable *
cro_month_bridge_steps (const CroMonthBridge *self)
{
  const char *titles[] = { _("Theoretical food cost"), NULL };
  CroMonthTable *table = cro_month_table_new (G_N_ELEMENTS (titles), titles);
  g_autofree gint64 *minor = g_new0 (gint64, (self->items->len + 1) * CRO_N_BRIDGE_EFFECTS);
  gint64 effects[CRO_N_BRIDGE_STEPS];

  cro_month_bridge_round (self, self->items, digits_of (self), effects, minor);
  add_month (self, table, self->from);
  for (guint e = 0; e < CRO_N_BRIDGE_EFFECTS; e++)
    cro_month_table_add (table, (int) e, cro_bridge_effect_name (e))->cells[1]
        = change (self, self->known, effects[e]);
  if (self->taken_back != 0)
    cro_month_table_add (table, CRO_N_BRIDGE_EFFECTS, taken_back_name ())->cells[1]
        = change (self, self->known, effects[CRO_N_BRIDGE_EFFECTS]);
  add_month (self, table, self->to);
  add_notes (self, table);
  return table;
}

/* known: of each of minor; of_sum: of all together, and of what is beside them. */
static void
put_effects (const CroMonthBridge *self,
             CroMonthTableRow     *row,
             CroKnown              known,
             CroKnown              of_sum,
             const gint64         *minor,
             gint64                beside)
{
  gint64 sum = beside;

  for (guint e = 0; e < CRO_N_BRIDGE_EFFECTS; e++)
    {
      row->cells[e + 1] = change (self, known, minor[e]);
      sum += minor[e];
    }
  row->cells[CRO_N_BRIDGE_EFFECTS + 1] = change (self, of_sum, sum);
}

typedef struct
{
  GArray       *rows;
  const gint64 *minor;
  guint         by;
} Order;

static gint64
moved_by (const Order *order,
          guint        i)
{
  return order->minor[(gsize) i * CRO_N_BRIDGE_EFFECTS + order->by];
}

static int
compare_effects (gconstpointer a,
                 gconstpointer b,
                 gpointer      user_data)
{
  guint x = *(const guint *) a, y = *(const guint *) b;
  gint64 p = llabs (moved_by (user_data, x)), q = llabs (moved_by (user_data, y));

  if (p != q)
    return p > q ? -1 : 1;
  return x < y ? -1 : x > y;
}

/* Rows come with what moved most in all first. */
static guint *
dup_order (GArray        *rows,
           const gint64  *minor,
           guint          by)
{
  guint *indices = g_new (guint, rows->len + 1);
  Order order = { rows, minor, by };

  for (guint i = 0; i < rows->len; i++)
    indices[i] = i;
  if (by < CRO_N_BRIDGE_EFFECTS)
    g_qsort_with_data (indices, (gint) rows->len, sizeof *indices, compare_effects, &order);
  return indices;
}

/* Which of many rows are shown: what the sentences name, some of which nothing is known, though they move nothing that
 * is, and what comes first of the others. */
static gboolean *
dup_shown (const CroMonthBridge *self,
           GArray               *rows,
           const guint          *order,
           const gint64         *minor,
           const gint64         *effects,
           guint                 most)
{
  gboolean *shown = g_new0 (gboolean, rows->len + 1);
  guint n = 0, n_unknown = 0;

  for (guint e = 0; rows == self->items && rows->len > most && e < CRO_N_BRIDGE_EFFECTS; e++)
    {
      guint named = largest_row (minor, rows->len, e, effects[e]);

      if (effects[e] == 0 || shown[named] || n == most)
        continue;
      shown[named] = TRUE;
      n++;
    }
  for (guint i = 0; rows->len > most && i < rows->len && n_unknown < most / 4 && n < most; i++)
    if (!shown[order[i]] && g_array_index (rows, CroMonthBridgeRow, order[i]).known == CRO_KNOWN_NOTHING)
      {
        shown[order[i]] = TRUE;
        n_unknown++;
        n++;
      }
  for (guint i = 0; i < rows->len && n < most; i++)
    {
      n += !shown[order[i]];
      shown[order[i]] = TRUE;
    }
  return shown;
}

CroMonthTable *
cro_month_bridge_table (const CroMonthBridge *self,
                        GArray               *rows,
                        CroBridgeEffect       by,
                        guint                 most)
{
  const char *titles[] = { rows == self->items ? _("Ingredients") : _("Plates and menus"), _("volume"), _("mix"),
                           _("price"), _("recipe"), _("together") };
  CroMonthTable *table = cro_month_table_new (G_N_ELEMENTS (titles), titles);
  g_autofree gint64 *minor = g_new0 (gint64, (rows->len + 1) * CRO_N_BRIDGE_EFFECTS);
  g_autofree guint *order = NULL;
  g_autofree gboolean *shown = NULL;
  gint64 effects[CRO_N_BRIDGE_STEPS], others[CRO_N_BRIDGE_EFFECTS] = { 0 };
  CroKnown known = CRO_KNOWN_WHOLE;   /* of the others */
  CroMonthTableRow *row;

  cro_month_bridge_round (self, rows, digits_of (self), effects, minor);
  order = dup_order (rows, minor, by);
  shown = dup_shown (self, rows, order, minor, effects, most > 0 ? most : rows->len);
  for (guint i = 0; i < rows->len; i++)
    {
      const CroMonthBridgeRow *of = &g_array_index (rows, CroMonthBridgeRow, order[i]);
      const gint64 *cells = minor + (gsize) order[i] * CRO_N_BRIDGE_EFFECTS;

      if (shown[order[i]])
        {
          put_effects (self, cro_month_table_add (table, (int) order[i], of->name), of->known, of->known, cells,
                       0);
          continue;
        }
      known = of->known != CRO_KNOWN_WHOLE ? CRO_KNOWN_IN_PART : known;
      for (guint e = 0; e < CRO_N_BRIDGE_EFFECTS; e++)
        others[e] += cells[e];
    }
  if (most > 0 && rows->len > most)
    put_effects (self, cro_month_table_add (table, -1, _("others")), known, known, others, 0);
  if (self->taken_back != 0)
    cro_month_table_add (table, -1, taken_back_name ())->cells[CRO_N_BRIDGE_EFFECTS + 1]
        = change (self, self->known, effects[CRO_N_BRIDGE_EFFECTS]);
  row = cro_month_table_add (table, -1, _("Total"));
  row->is_sum = TRUE;
  put_effects (self, row, self->known, self->known_all, effects, effects[CRO_N_BRIDGE_EFFECTS]);
  return table;
}
