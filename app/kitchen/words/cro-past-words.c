#include "config.h"

#include "cro-past-words.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-number.h"
#include "cro-words.h"

/* --- Values of rows, there or gone ------------------------------------------------------------------ */

/* What a column of a row that is gone held when it went. */
static char *
dup_last_value (CroStore   *store,
                const char *table,
                gint64      row,
                const char *column)
{
  g_autoptr (GPtrArray) changes = cro_store_list_changes_of_row (store, table, row, NULL);

  for (guint i = 0; changes != NULL && i < changes->len; i++)
    {
      const CroChange *change = changes->pdata[i];
      g_autoptr (GPtrArray) moved = NULL;

      if (change->after != NULL)
        continue;
      moved = cro_store_list_moved (store, change->id, NULL);
      for (guint k = 0; moved != NULL && k < moved->len; k++)
        if (strcmp (((CroMoved *) moved->pdata[k])->column, column) == 0)
          return g_strdup (((CroMoved *) moved->pdata[k])->before);
      return NULL;
    }
  return NULL;
}

static char *
dup_value (CroStore   *store,
           const char *table,
           gint64      row,
           const char *column)
{
  const char *columns[] = { column, NULL };
  g_autoptr (CroRows) rows = cro_store_read_one (store, table, row, columns, NULL);

  if (rows != NULL && cro_rows_next (rows, NULL))
    return g_strdup (cro_rows_get_text (rows, 0));
  return dup_last_value (store, table, row, column);
}

static gint64
get_id (CroStore   *store,
        const char *table,
        gint64      row,
        const char *column)
{
  g_autofree char *text = dup_value (store, table, row, column);

  return text != NULL ? g_ascii_strtoll (text, NULL, 10) : 0;
}

/* --- Names -------------------------------------------------------------------------------------------- */

/* The table that lends its name to the rows of another. */
static const char *
named_by (const char *table)
{
  static const struct { const char *table, *by; } names[] = {
    { "ingredient", "item" }, { "output", "item" }, { "plate", "thing" }, { "menu", "thing" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    if (strcmp (names[i].table, table) == 0)
      return names[i].by;
  return table;
}

static char *
dup_name (CroStore   *store,
          const char *table,
          gint64      id)
{
  char *name = id != 0 ? dup_value (store, named_by (table), id, "name") : NULL;

  return name != NULL ? name : g_strdup ("?");
}

static char *
dup_name_of (CroStore   *store,
             const char *table,
             gint64      row,
             const char *column,
             const char *of_table)
{
  return dup_name (store, of_table, get_id (store, table, row, column));
}

/* --- What a row is about -------------------------------------------------------------------------------- */

static char *
subject_of_line (CroStore *store,
                 gint64    row)
{
  gboolean on_plate = get_id (store, "recipe_line", row, "plate") != 0;
  const char *parent_column = on_plate ? "plate" : "preparation";
  g_autofree char *item = dup_name_of (store, "recipe_line", row, "item", "item");
  g_autofree char *parent = dup_name_of (store, "recipe_line", row, parent_column, parent_column);

  /* Translators: what a line takes, and the plate or preparation that it stands in. */
  return g_strdup_printf (_("%s in %s"), item, parent);
}

static char *
subject_of_offer (CroStore *store,
                  gint64    offer,
                  gboolean  is_price)
{
  g_autofree char *item = dup_name_of (store, "offer", offer, "ingredient", "item");
  g_autofree char *supplier = dup_name_of (store, "offer", offer, "supplier", "supplier");

  /* Translators: an ingredient, and the supplier of its price or of its pack. */
  return g_strdup_printf (is_price ? _("price of %s, %s") : _("pack of %s, %s"), item, supplier);
}

char *
cro_past_subject (CroBook    *book,
                  const char *table,
                  gint64      row)
{
  CroStore *store = cro_book_get_store (book);
  g_autofree char *a = NULL, *b = NULL;

  if (strcmp (table, "book") == 0)
    return g_strdup (_("the house"));
  if (strcmp (table, "recipe_line") == 0)
    return subject_of_line (store, row);
  if (strcmp (table, "offer") == 0)
    return subject_of_offer (store, row, FALSE);
  if (strcmp (table, "price") == 0)
    return subject_of_offer (store, get_id (store, "price", row, "offer"), TRUE);
  if (strcmp (table, "rate") == 0)
    {
      a = dup_value (store, "rate", row, "currency");
      return g_strdup_printf (_("rate of %s"), a);
    }
  if (strcmp (table, "menu_plate") == 0)
    {
      a = dup_name_of (store, table, row, "plate", "plate");
      b = dup_name_of (store, table, row, "menu", "menu");
      return g_strdup_printf (_("%s in %s"), a, b);
    }
  if (strcmp (table, "yield_test") == 0)
    return dup_name_of (store, table, row, "item", "item");
  if (strcmp (table, "sale") == 0 || strcmp (table, "selling_price") == 0
      || strcmp (table, "service") == 0)
    return dup_name_of (store, table, row, "thing", "thing");
  if (strcmp (table, "service_stock") == 0 || strcmp (table, "stock_count") == 0 || strcmp (table, "adjustment") == 0)
    return dup_name_of (store, table, row, "item", "item");
  if (strcmp (table, "purchase") == 0)
    return dup_name_of (store, table, row, "ingredient", "item");
  if (strcmp (table, "month") == 0)
    return dup_value (store, table, row, "month");
  if (strcmp (table, "yield_test_part") == 0)
    return dup_name_of (store, table, row, "output", "item");
  if (strcmp (table, "month_row") == 0)
    return dup_value (store, table, row, "name");
  return dup_name (store, table, row);
}

/* --- Whose a row is --------------------------------------------------------------------------------------- */

gboolean
cro_past_is_own (CroStore   *store,
                 const char *table,
                 gint64      row,
                 const char *of_table,
                 gint64      of_id)
{
  static const struct { const char *table, *column, *owner; } owners[] = {
    { "price", "offer", "offer" },
    { "offer", "ingredient", "ingredient" },
    { "yield_test", "item", "ingredient" },
    { "recipe_line", "plate", "plate" },
    { "recipe_line", "preparation", "preparation" },
    { "output", "preparation", "preparation" },
    { "menu_plate", "menu", "menu" },
  };

  if (strcmp (named_by (table), named_by (of_table)) == 0 && row == of_id)
    return TRUE;
  /* The name of an output stands with its item. */
  if (strcmp (table, "item") == 0 && strcmp (of_table, "preparation") == 0)
    return get_id (store, "output", row, "preparation") == of_id;
  for (gsize i = 0; i < G_N_ELEMENTS (owners); i++)
    {
      gint64 owner = strcmp (owners[i].table, table) == 0
                         ? get_id (store, table, row, owners[i].column)
                         : 0;

      if (owner != 0 && cro_past_is_own (store, owners[i].owner, owner, of_table, of_id))
        return TRUE;
    }
  return FALSE;
}

/* --- Columns ------------------------------------------------------------------------------------------------ */

static const struct { const char *column, *word; } columns[] = {
  { "active_minutes_micro", N_("minutes") },
  { "allergens", N_("allergens") },
  { "allowance_pct_micro", N_("seasoning") },
  { "amount_micro", N_("amount") },
  { "by_products", N_("by-products") },
  { "category", N_("category") },
  { "closed_at", N_("closed") },
  { "code", N_("code") },
  { "contact", N_("contact") },
  { "course", N_("course") },
  { "currency", N_("currency") },
  { "date", N_("date") },
  { "density_g_per_ml_micro", N_("density") },
  { "document", N_("document") },
  { "from_date", N_("since") },
  { "kind", N_("kind") },
  { "makes_micro", N_("bites made") },
  { "name", N_("name") },
  { "net_pct_micro", N_("net part") },
  { "net_revenue_micro", N_("net revenue") },
  { "net_value_micro", N_("net value") },
  { "note", N_("note") },
  { "pack_count_micro", N_("packs in a box") },
  { "pack_size_micro", N_("size of a pack") },
  { "pack_unit", N_("unit of a pack") },
  { "per_guest_micro", N_("bites a guest") },
  { "per_micro", N_("for") },
  { "piece_g_micro", N_("weight of a piece") },
  { "place", N_("where") },
  { "position_micro", N_("place") },
  { "preferred", N_("preferred") },
  { "price_micro", N_("price") },
  { "purchased_g_micro", N_("bought, g") },
  { "quotes", N_("states prices") },
  { "rate_micro", N_("rate") },
  { "recovered_pct_micro", N_("comes back") },
  { "role", N_("role") },
  { "servings_micro", N_("servings") },
  { "smallest_part_micro", N_("smallest part") },
  { "sold_micro", N_("sold") },
  { "stale_after_days_micro", N_("days until a price is old") },
  { "target_pct_micro", N_("target") },
  { "tax_included_pct_micro", N_("tax in the price") },
  { "tax_pct_micro", N_("tax") },
  { "trim_yield_pct_micro", N_("trim yield") },
  { "unit", N_("unit") },
  { "until", N_("available until") },
  { "usable_g_micro", N_("usable, g") },
  { "value_micro", N_("value") },
  { "wage_per_hour_micro", N_("wage an hour") },
  { "weighed", N_("weighed") },
  { "weight_g_micro", N_("weight, g") },
  { "yield_pct_micro", N_("yield") },
};

const char *
cro_past_column (const char *column)
{
  for (gsize i = 0; i < G_N_ELEMENTS (columns); i++)
    if (strcmp (columns[i].column, column) == 0)
      return _(columns[i].word);
  return column;
}

/* What a column with an id points to. */
static const char *
refers_to (const char *column)
{
  static const struct { const char *column, *table; } references[] = {
    { "ingredient", "item" }, { "item", "item" },           { "menu", "thing" },
    { "output", "item" },     { "plate", "thing" },         { "preparation", "preparation" },
    { "supplier", "supplier" }, { "thing", "thing" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (references); i++)
    if (strcmp (references[i].column, column) == 0)
      return references[i].table;
  return NULL;
}

gboolean
cro_past_is_value (const char *column)
{
  static const char *const others[] = { "id", "offer", "yield_test", "month", "position_micro" };

  for (gsize i = 0; i < G_N_ELEMENTS (others); i++)
    if (strcmp (others[i], column) == 0)
      return FALSE;
  return refers_to (column) == NULL;
}

/* Codes stand in some columns only: a name or a note may be a word that is a code elsewhere. */
static const char *
word_of (const char *column,
         const char *code)
{
  static const char *const coded[] = { "by_products", "kind", "quotes", "role", "weighed", NULL };
  static const struct { const char *code, *word; } words[] = {
    { "whole", N_("as bought") },      { "trimmed", N_("trimmed") },
    { "free", N_("carry no cost") },   { "weight", N_("by weight") },
    { "value", N_("by value") },       { "credit", N_("at an assigned value") },
    { "main", N_("main output") },     { "by-product", N_("by-product") },
    { "pack", N_("per pack") },        { "base unit", N_("per kg, l or piece") },
    { "food", N_("food") },            { "disposable", N_("disposable") },
  };

  for (gsize i = 0; g_strv_contains (coded, column) && i < G_N_ELEMENTS (words); i++)
    if (strcmp (words[i].code, code) == 0)
      return _(words[i].word);
  return code;
}

char *
cro_past_value (CroBook    *book,
                const char *column,
                const char *value)
{
  CroDate date;

  if (value == NULL)
    return g_strdup ("–");
  if (g_str_has_suffix (column, "_micro"))
    {
      g_autofree char *number = cro_words_decimal (g_ascii_strtoll (value, NULL, 10));

      return strstr (column, "_pct_") != NULL ? g_strdup_printf (_("%s %%"), number)
                                              : g_steal_pointer (&number);
    }
  if (refers_to (column) != NULL)
    return dup_name (cro_book_get_store (book), refers_to (column),
                     g_ascii_strtoll (value, NULL, 10));
  if (strcmp (column, "allergens") == 0)
    return cro_words_allergens ((guint32) g_ascii_strtoll (value, NULL, 10));
  if (strcmp (column, "preferred") == 0)
    return g_strdup (*value == '1' ? _("yes") : _("no"));
  if (cro_date_parse (value, strlen (value), &date))
    return cro_date_to_text (date);
  return g_strdup (word_of (column, value));
}
