#include "config.h"

#include "cro-cli-month.h"

#include <glib/gi18n.h>
#include <stdlib.h>

#include "cro-cli-grid.h"
#include "cro-cli-json.h"
#include "cro-currency.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-money.h"
#include "cro-month-bridge.h"
#include "cro-month-words.h"
#include "cro-number.h"

static const char *const effect_codes[CRO_N_BRIDGE_EFFECTS] = { "volume", "mix", "price", "recipe" };

/* --- JSON ----------------------------------------------------------------------------------- */

static void
add_effects (CroJson      *json,
             const double *effects)
{
  for (guint e = 0; e < CRO_N_BRIDGE_EFFECTS; e++)
    cro_cli_json_number (json, effect_codes[e], effects[e]);
}

static void
add_rows (CroJson    *json,
          const char *name,
          GArray     *rows)
{
  cro_json_begin_array (json, name);
  for (guint i = 0; i < rows->len; i++)
    {
      const CroMonthBridgeRow *row = &g_array_index (rows, CroMonthBridgeRow, i);

      cro_json_begin_object (json, NULL);
      cro_json_text (json, "name", row->name);
      add_effects (json, row->effects);
      cro_json_end_object (json);
    }
  cro_json_end_array (json);
}

/* Causes of either month, each once. */
static void
add_missing (CroJson        *json,
             const CroMonth *from,
             const CroMonth *to)
{
  cro_json_begin_array (json, "missing");
  for (guint i = 0; i < from->missing->len; i++)
    cro_json_text (json, NULL, from->missing->pdata[i]);
  for (guint i = 0; i < to->missing->len; i++)
    if (!g_ptr_array_find_with_equal_func (from->missing, to->missing->pdata[i], g_str_equal, NULL))
      cro_json_text (json, NULL, to->missing->pdata[i]);
  cro_json_end_array (json);
}

void
cro_cli_add_bridge_json (CroJson        *json,
                         const CroMonth *from,
                         const CroMonth *to)
{
  g_autoptr (CroMonthBridge) bridge = cro_month_bridge_new (from, to);
  char month[CRO_MONTH_CHARS], against[CRO_MONTH_CHARS];

  cro_month_format (to->first, month);
  cro_month_format (from->first, against);
  cro_json_begin_object (json, NULL);
  cro_json_text (json, "month", month);
  cro_json_text (json, "against", against);
  cro_json_text (json, "currency", to->currency);
  cro_cli_json_number (json, "from", from->theoretical);
  cro_cli_json_number (json, "to", to->theoretical);
  add_effects (json, bridge->effects);
  add_missing (json, from, to);
  add_rows (json, "ingredients", bridge->items);
  add_rows (json, "things", bridge->things);
  cro_json_end_object (json);
}

/* --- Text ----------------------------------------------------------------------------------- */

typedef struct
{
  CroMonthBridge *bridge;
  int             digits;
} Table;

/* Money of a change has its sign. */
static char *
signed_money (Table  *self,
              gint64  minor)
{
  g_autofree char *text = cro_money_to_text (minor, self->digits);

  return minor > 0 ? g_strconcat ("+", text, NULL) : g_steal_pointer (&text);
}

static void
add_cells (Table        *self,
           CroGrid      *grid,
           const char   *name,
           const gint64 *minor)
{
  gint64 sum = 0;
  char *cells[CRO_N_BRIDGE_EFFECTS + 2] = { g_strdup (name) };

  for (guint e = 0; e < CRO_N_BRIDGE_EFFECTS; e++)
    {
      cells[e + 1] = signed_money (self, minor[e]);
      sum += minor[e];
    }
  cells[CRO_N_BRIDGE_EFFECTS + 1] = signed_money (self, sum);
  cro_grid_take_row (grid, 0, cells);
}

#define MOST_ROWS 12

/* What moved most, and the others as one row; columns add up to the effects. */
static void
print_rows (Table      *self,
            const char *title,
            GArray     *rows)
{
  const char *titles[] = { title, _("volume"), _("mix"), _("price"), _("recipe"), _("together") };
  g_autoptr (CroGrid) grid = cro_grid_new (CRO_N_BRIDGE_EFFECTS + 2);
  g_autofree gint64 *minor = g_new0 (gint64, (rows->len + 1) * CRO_N_BRIDGE_EFFECTS);
  gint64 effects[CRO_N_BRIDGE_EFFECTS], others[CRO_N_BRIDGE_EFFECTS] = { 0 };

  cro_month_bridge_round (self->bridge, rows, self->digits, effects, minor);
  cro_grid_add_head (grid, titles);
  for (guint i = 0; i < rows->len; i++)
    if (i < MOST_ROWS)
      add_cells (self, grid, g_array_index (rows, CroMonthBridgeRow, i).name,
                 minor + (gsize) i * CRO_N_BRIDGE_EFFECTS);
    else
      for (guint e = 0; e < CRO_N_BRIDGE_EFFECTS; e++)
        others[e] += minor[(gsize) i * CRO_N_BRIDGE_EFFECTS + e];
  if (rows->len > MOST_ROWS)
    add_cells (self, grid, _("others"), others);
  add_cells (self, grid, _("Total"), effects);
  g_print ("\n");
  cro_grid_print (grid);
}

/* What is missing in one month may make up for what is missing in the other. */
static CroKnown
known_change (const CroMonthBridge *bridge)
{
  return cro_known_of_sum (bridge->to->known_theoretical,
                           cro_known_turned (bridge->from->known_theoretical));
}

static char *
theoretical_text (Table          *self,
                  const CroMonth *month)
{
  return cro_words_take_short (month->known_theoretical,
                               cro_money_to_text (cro_money_round (month->theoretical, self->digits),
                                                  self->digits));
}

/* What moved most, in a sentence. */
static void
print_words (Table *self)
{
  const CroMonthBridge *bridge = self->bridge;
  const char *const words[CRO_N_BRIDGE_EFFECTS] = {
    /* Translators: what moved a food cost; each follows "most of it comes from". */
    _("how much was sold"), _("what was sold"), _("purchase prices"), _("recipes")
  };
  g_autofree gint64 *minor = g_new0 (gint64, (bridge->items->len + 1) * CRO_N_BRIDGE_EFFECTS);
  gint64 effects[CRO_N_BRIDGE_EFFECTS];
  gint64 change = cro_month_bridge_round (bridge, bridge->items, self->digits, effects, minor);
  g_autofree char *from = cro_month_to_text (bridge->from->first);
  g_autofree char *to = cro_month_to_text (bridge->to->first);
  g_autofree char *was = theoretical_text (self, bridge->from);
  g_autofree char *is = theoretical_text (self, bridge->to);
  g_autofree char *by = cro_words_take_short (known_change (bridge), signed_money (self, change));
  g_autofree char *most = NULL, *text = NULL;
  guint largest = 0;

  for (guint e = 1; e < CRO_N_BRIDGE_EFFECTS; e++)
    if (llabs (effects[e]) > llabs (effects[largest]))
      largest = e;
  most = signed_money (self, effects[largest]);
  /* Translators: two months, the theoretical food cost of each, the change; what moved it most, and by
   * how much. */
  text = cro_isolate_printf (_("From %s to %s theoretical food cost went from %s to %s: %s. Most of it comes "
                               "from %s: %s."),
                             from, to, was, is, by, words[largest], most);
  cro_cli_print_wrapped (text, 0);
}

void
cro_cli_print_bridge (CroBook        *book,
                      const CroMonth *from,
                      const CroMonth *to)
{
  g_autoptr (CroMonthBridge) bridge = cro_month_bridge_new (from, to);
  Table self = { bridge, cro_currency_digits (to->currency) };

  print_words (&self);
  print_rows (&self, _("Ingredients"), bridge->items);
  print_rows (&self, _("Plates and menus"), bridge->things);
  g_print ("\n");
  cro_cli_print_wrapped (_("Each effect is taken at the mean of both months (Bennet 1920), so that nothing is "
                           "left over."),
                         0);
  if (from->known_theoretical != CRO_KNOWN_WHOLE || to->known_theoretical != CRO_KNOWN_WHOLE)
    cro_cli_print_wrapped (_("Something is missing in a month: these are changes of what is known."), 0);
}
