#include "config.h"

#include "cro-past-words.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-isolate.h"

/* What people call each column of the schema. A table stands where its column has another name
 * there than elsewhere, and before the others of that column. */
static const struct { const char *table, *column, *word; } columns[] = {
  { NULL, "active_minutes_micro", N_("minutes") },
  { NULL, "allergens", N_("allergens") },
  { NULL, "allowance_pct_micro", N_("seasoning and handling") },
  { "service_stock", "amount_micro", N_("amount in stock") },
  { "stock_count", "amount_micro", N_("amount counted") },
  { NULL, "amount_micro", N_("amount") },
  { NULL, "answered_on", N_("answered") },
  { NULL, "by_products", N_("by-product rule") },
  { NULL, "category", N_("category") },
  { NULL, "choice", N_("choice") },
  { NULL, "closed_at", N_("closed") },
  { NULL, "closing_stock_value_micro", N_("closing stock") },
  { NULL, "code", N_("code") },
  { NULL, "contact", N_("contact") },
  { NULL, "cost_micro", N_("cost") },
  { NULL, "cost_per_1000_micro", N_("cost per 1,000") },
  { NULL, "course", N_("course") },
  { NULL, "covers_micro", N_("covers") },
  { NULL, "currency", N_("currency") },
  { "purchase", "date", N_("delivery date") },
  { NULL, "date", N_("date") },
  { NULL, "delivery_charge_micro", N_("delivery charge") },
  { NULL, "density_g_per_ml_micro", N_("density") },
  { NULL, "document", N_("document") },
  { NULL, "document_date", N_("document date") },
  { NULL, "from_date", N_("since") },
  { NULL, "gtin", N_("barcode number") },
  { NULL, "hash", N_("checksum") },
  { NULL, "ingredient", N_("ingredient") },
  { NULL, "item", N_("item") },
  { NULL, "kind", N_("kind") },
  { NULL, "late_estimate_micro", N_("purchases still to come") },
  { NULL, "ledger_purchases_micro", N_("ledger total") },
  { NULL, "lost_pct_micro", N_("lost part") },
  { NULL, "makes_micro", N_("bites made") },
  { NULL, "may_contain", N_("may contain") },
  { NULL, "menu", N_("menu") },
  { NULL, "minimum_order_micro", N_("minimum order") },
  { NULL, "month", N_("month") },
  { NULL, "name", N_("name") },
  { NULL, "net_pct_micro", N_("net weight") },
  { NULL, "net_revenue_micro", N_("net sales") },
  { NULL, "net_value_micro", N_("net value") },
  { NULL, "note", N_("note") },
  { NULL, "number_micro", N_("number") },
  { NULL, "offer", N_("pack") },
  { NULL, "other", N_("sold without a plate") },
  { NULL, "output", N_("output") },
  { NULL, "pack_count_micro", N_("items per pack") },
  { NULL, "pack_size_micro", N_("pack size") },
  { NULL, "pack_unit", N_("pack unit") },
  { NULL, "part", N_("part") },
  { NULL, "part_kind", N_("kind of part") },
  { NULL, "per_guest_micro", N_("bites per guest") },
  { NULL, "per_micro", N_("for") },
  { NULL, "picture", N_("picture") },
  { NULL, "piece_g_micro", N_("weight of a piece") },
  { NULL, "place", N_("where") },
  { NULL, "plate", N_("plate") },
  { "offer", "position_micro", N_("position in the supplier’s list") },
  { NULL, "position_micro", N_("position") },
  { NULL, "preferred", N_("preference") },
  { NULL, "preparation", N_("preparation") },
  { "selling_price", "price_micro", N_("selling price") },
  { NULL, "price_micro", N_("price") },
  { NULL, "price_steps", N_("how selling prices are rounded") },
  { NULL, "purchased_g_micro", N_("weight as bought") },
  { NULL, "quantity_micro", N_("quantity") },
  { NULL, "quotes", N_("price unit") },
  { NULL, "rate_micro", N_("rate") },
  { NULL, "reason", N_("reason") },
  { NULL, "recipes_on", N_("date of the recipes") },
  { NULL, "recovered_pct_micro", N_("part that comes back") },
  { NULL, "role", N_("role") },
  { NULL, "row_kind", N_("kind of entry") },
  { NULL, "service", N_("service") },
  { NULL, "servings_micro", N_("servings") },
  { NULL, "share_pct_micro", N_("share of guests") },
  { NULL, "smallest_part_micro", N_("smallest part") },
  /* Translators: which plate or menu a name of the till is. */
  { NULL, "sold_as", N_("sold as") },
  { NULL, "sold_micro", N_("sold") },
  /* Translators: a setting: whether results are given as food cost, gross profit or coefficient. */
  { NULL, "speaks", N_("how results are given") },
  { NULL, "stale_after_days_micro", N_("days until a price is old") },
  { NULL, "supplier", N_("supplier") },
  { NULL, "target_pct_micro", N_("target") },
  { NULL, "tax_included_pct_micro", N_("tax included") },
  { NULL, "tax_pct_micro", N_("tax") },
  { "yield_test", "test", N_("name") },
  { NULL, "thing", N_("plate or menu") },
  { NULL, "till_gross_revenue_micro", N_("till total with tax") },
  { NULL, "till_net_revenue_micro", N_("till total without tax") },
  { NULL, "till_with_tax", N_("till totals") },
  { NULL, "trim_yield_pct_micro", N_("trim yield") },
  { NULL, "unit", N_("unit") },
  { NULL, "until", N_("last day") },
  { NULL, "usable_g_micro", N_("usable weight") },
  { NULL, "value_micro", N_("value per unit") },
  { NULL, "wage_per_hour_micro", N_("hourly labour cost") },
  { NULL, "weighed", N_("weighing") },
  { NULL, "weight_g_micro", N_("weight") },
  { NULL, "yield_pct_micro", N_("yield") },
  { NULL, "yield_test", N_("yield test") },
};

const char *
cro_past_column (const char *table,
                 const char *column)
{
  for (gsize i = 0; i < G_N_ELEMENTS (columns); i++)
    if (strcmp (columns[i].column, column) == 0
        && (columns[i].table == NULL || strcmp (columns[i].table, table) == 0))
      return _(columns[i].word);
  return column;
}

char *
cro_past_dup_act (const char *table,
                  const char *column,
                  const char *name)
{
  const char *word = cro_past_column (table, column);

  if (strcmp (table, "book") == 0)
    /* Translators: an entry of the history; %s is a setting, as "tax". */
    return g_strdup_printf (_("book setting: %s"), word);
  /* Translators: an entry of the history: a field's name, and the thing it belongs to. */
  return cro_isolate_printf (_("%s of %s"), word, name);
}
