#include "config.h"

#include "cro-cli-month.h"

#include "cro-cli-grid.h"
#include "cro-cli-json.h"
#include "cro-month-bridge-words.h"

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
      cro_cli_json_known (json, "known", row->known);
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
  cro_cli_json_known (json, "from_known", from->known_theoretical);
  cro_cli_json_known (json, "to_known", to->known_theoretical);
  add_effects (json, bridge->effects);
  cro_cli_json_number (json, "taken_back", bridge->taken_back);
  cro_cli_json_known (json, "effects_known", bridge->known);
  add_missing (json, from, to);
  add_rows (json, "ingredients", bridge->items);
  add_rows (json, "things", bridge->things);
  cro_json_end_object (json);
}

/* --- Text ----------------------------------------------------------------------------------- */

#define MOST_ROWS 12

static void
print_rows (const CroMonthBridge *bridge,
            GArray               *rows)
{
  g_autoptr (CroMonthTable) table = cro_month_bridge_table (bridge, rows, CRO_N_BRIDGE_EFFECTS, MOST_ROWS);

  g_print ("\n");
  cro_cli_print_table (table);
}

void
cro_cli_print_bridge (CroBook        *book,
                      const CroMonth *from,
                      const CroMonth *to)
{
  g_autoptr (CroMonthBridge) bridge = cro_month_bridge_new (from, to);
  g_autoptr (GPtrArray) words = cro_month_bridge_words (bridge);
  g_autoptr (CroMonthTable) steps = cro_month_bridge_steps (bridge);

  for (guint i = 0; i < words->len; i++)
    cro_cli_print_wrapped (words->pdata[i], 0);
  print_rows (bridge, bridge->items);
  print_rows (bridge, bridge->things);
  g_print ("\n");
  cro_cli_print_notes (steps);
}
