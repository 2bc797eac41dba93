#include "config.h"

#include "cro-past-words.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-code-words.h"
#include "cro-decimal.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-past.h"
#include "cro-result-words.h"
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

/* --- Codes ---------------------------------------------------------------------------------------------- */

/* Codes stand in some columns only: a name or a note may be a word that is a code elsewhere. */
static const char *
word_of (const char *column,
         const char *code)
{
  static const char *const coded[] = {
    "by_products", "kind", "part_kind", "price_steps", "quotes", "role", "row_kind", "speaks", "weighed", NULL,
  };

  return g_strv_contains (coded, column) ? cro_code_word (code) : code;
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
  return cro_isolate_printf (_("%s in %s"), item, parent);
}

static char *
subject_of_offer (CroStore *store,
                  gint64    offer,
                  gboolean  is_price)
{
  g_autofree char *item = dup_name_of (store, "offer", offer, "ingredient", "item");
  g_autofree char *supplier = dup_name_of (store, "offer", offer, "supplier", "supplier");

  /* Translators: an ingredient, and the supplier of its price or of its pack. */
  return cro_isolate_printf (is_price ? _("price of %s, %s") : _("pack of %s, %s"), item, supplier);
}

static char *
subject_of_part (CroStore *store,
                 gint64    row)
{
  g_autofree char *item = dup_name_of (store, "yield_test_part", row, "output", "item");
  g_autofree char *test = dup_value (store, "yield_test",
                                     get_id (store, "yield_test_part", row, "yield_test"), "test");

  return cro_isolate_printf (_("%s in %s"), item, test);
}

static char *
dup_about (const char *table,
           const char *name)
{
  if (strcmp (table, "selling_price") == 0)
    /* Translators: %s is a plate or a menu. */
    return cro_isolate_printf (_("selling price of %s"), name);
  if (strcmp (table, "service") == 0)
    /* Translators: guests expected for a plate or a menu. */
    return cro_isolate_printf (_("covers of %s"), name);
  if (strcmp (table, "service_stock") == 0)
    /* Translators: what of an item is there already, before a service. */
    return cro_isolate_printf (_("stock of %s"), name);
  if (strcmp (table, "yield_test") == 0)
    return cro_isolate_printf (_("yield test of %s"), name);
  if (strcmp (table, "sale") == 0)
    return cro_isolate_printf (_("sales of %s"), name);
  if (strcmp (table, "stock_count") == 0)
    return cro_isolate_printf (_("count of %s"), name);
  if (strcmp (table, "purchase") == 0)
    return cro_isolate_printf (_("purchase of %s"), name);
  return cro_isolate_printf (_("adjustment of %s"), name);
}

/* What names a row about no item. A purchase without a category is at least food, or something
 * else. */
static char *
dup_other_name (CroStore   *store,
                const char *table,
                gint64      row,
                const char *column)
{
  g_autofree char *words = dup_value (store, table, row, column);

  if (words != NULL && strcmp (column, "kind") != 0)
    return g_steal_pointer (&words);
  g_free (words);
  words = dup_value (store, table, row, "kind");
  return g_strdup (words != NULL ? word_of ("kind", words) : "?");
}

/* Rows that are known by what they are about: an item, a plate or a menu, or else by words of
 * their own. NULL: this is no such table. */
static char *
dup_named_subject (CroStore   *store,
                   const char *table,
                   gint64      row)
{
  static const struct { const char *table, *column, *of_table, *words; } subjects[] = {
    { "selling_price", "thing", "thing", NULL },
    { "service", "thing", "thing", NULL },
    { "service_stock", "item", "item", NULL },
    { "yield_test", "item", "item", NULL },
    { "sale", "thing", "thing", "other" },
    { "stock_count", "item", "item", NULL },
    { "purchase", "ingredient", "item", "category" },
    { "adjustment", "item", "item", "kind" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (subjects); i++)
    if (strcmp (subjects[i].table, table) == 0)
      {
        gint64 id = get_id (store, table, row, subjects[i].column);
        g_autofree char *name = id != 0 || subjects[i].words == NULL
                                    ? dup_name (store, subjects[i].of_table, id)
                                    : dup_other_name (store, table, row, subjects[i].words);

        return dup_about (table, name);
      }
  return NULL;
}

char *
cro_past_subject (CroBook    *book,
                  const char *table,
                  gint64      row)
{
  CroStore *store = cro_book_get_store (book);
  g_autofree char *a = NULL, *b = NULL;

  if (strcmp (table, "book") == 0)
    return g_strdup (_("book settings"));
  if (strcmp (table, "recipe_line") == 0)
    return subject_of_line (store, row);
  if (strcmp (table, "offer") == 0)
    return subject_of_offer (store, row, FALSE);
  if (strcmp (table, "price") == 0 || strcmp (table, "price_answer") == 0)
    return subject_of_offer (store, get_id (store, table, row, "offer"), TRUE);
  if (strcmp (table, "rate") == 0)
    {
      a = dup_value (store, "rate", row, "currency");
      return g_strdup_printf (_("rate of %s"), a);
    }
  if (strcmp (table, "menu_plate") == 0)
    {
      a = dup_name_of (store, table, row, "plate", "plate");
      b = dup_name_of (store, table, row, "menu", "menu");
      return cro_isolate_printf (_("%s in %s"), a, b);
    }
  if (strcmp (table, "month") == 0)
    return dup_value (store, table, row, "month");
  if (strcmp (table, "month_row") == 0 || strcmp (table, "till_name") == 0)
    return dup_value (store, table, row, "name");
  if (strcmp (table, "yield_test_part") == 0)
    return subject_of_part (store, row);
  a = dup_named_subject (store, table, row);
  if (a != NULL)
    return g_steal_pointer (&a);
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
    { "price_answer", "offer", "offer" },
    { "offer", "ingredient", "ingredient" },
    { "yield_test", "item", "ingredient" },
    { "recipe_line", "plate", "plate" },
    { "recipe_line", "preparation", "preparation" },
    { "output", "preparation", "preparation" },
    { "menu_plate", "menu", "menu" },
    { "selling_price", "thing", "thing" },
    { "yield_test_part", "yield_test", "yield_test" },
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

/* --- Values ------------------------------------------------------------------------------------------------- */

/* What a column with an id points to. Rows of a closed month are text. */
static const char *
refers_to (const char *table,
           const char *column)
{
  static const struct { const char *column, *table; } references[] = {
    { "ingredient", "item" }, { "item", "item" },           { "menu", "thing" },
    { "output", "item" },     { "plate", "thing" },         { "preparation", "preparation" },
    { "supplier", "supplier" }, { "thing", "thing" },
  };

  for (gsize i = 0; strcmp (table, "month_row") != 0 && i < G_N_ELEMENTS (references); i++)
    if (strcmp (references[i].column, column) == 0)
      return references[i].table;
  return NULL;
}

gboolean
cro_past_is_value (const char *table,
                   const char *column)
{
  static const char *const others[] = { "id", "offer", "yield_test", "month", "position_micro" };

  for (gsize i = 0; i < G_N_ELEMENTS (others); i++)
    if (strcmp (others[i], column) == 0)
      return FALSE;
  return refers_to (table, column) == NULL;
}

/* A value of a column whose integers stand for something. NULL: not such a column. */
static char *
dup_meaning (const char *column,
             const char *value)
{
  if (strcmp (column, "allergens") == 0 || strcmp (column, "may_contain") == 0)
    return cro_words_allergens ((guint32) g_ascii_strtoll (value, NULL, 10));
  if (strcmp (column, "preferred") == 0)
    return g_strdup (*value == '1' ? _("yes") : _("no"));
  if (strcmp (column, "till_with_tax") == 0)
    return g_strdup (*value == '1' ? _("with tax") : _("without tax"));
  /* What names it by its content tells nobody anything but whether it is another one. */
  if (strcmp (column, "picture") == 0)
    /* Translators: which picture of a plate, by four signs that tell it from others. */
    return g_strdup_printf (_("picture %.4s"), value);
  if (strcmp (column, "closed_at") == 0)
    return cro_past_dup_time (value);
  return NULL;
}

char *
cro_past_value (CroBook    *book,
                const char *table,
                const char *column,
                const char *value)
{
  const char *of = refers_to (table, column);
  char *meaning = value != NULL ? dup_meaning (column, value) : NULL;
  CroDate date;

  if (value == NULL)
    return g_strdup ("–");
  if (meaning != NULL)
    return meaning;
  if (strcmp (column, "target_pct_micro") == 0)
    return cro_words_result_typed (cro_book_get_model (book),
                                   cro_decimal_to_double (g_ascii_strtoll (value, NULL, 10)));
  if (g_str_has_suffix (column, "_micro"))
    {
      g_autofree char *number = cro_words_decimal (g_ascii_strtoll (value, NULL, 10));

      if (strstr (column, "_pct_") != NULL)
        return g_strdup_printf (_("%s %%"), number);
      /* Translators: a weight; a density. */
      return g_str_has_suffix (column, "_g_micro")    ? g_strdup_printf (_("%s g"), number)
             : g_str_has_suffix (column, "_ml_micro") ? g_strdup_printf (_("%s g/ml"), number)
                                                      : g_steal_pointer (&number);
    }
  if (of != NULL)
    return dup_name (cro_book_get_store (book), of, g_ascii_strtoll (value, NULL, 10));
  if (cro_date_parse (value, strlen (value), &date))
    return cro_date_to_text (date);
  return g_strdup (word_of (column, value));
}
