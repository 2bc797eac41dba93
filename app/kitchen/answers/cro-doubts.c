#include "cro-doubts.h"

#include <string.h>

#include "cro-decimal.h"
#include "cro-menu-ways.h"
#include "cro-price-history.h"
#include "cro-rate-doubt.h"
#include "cro-selling-doubt.h"

/* --- Percentages, densities ----------------------------------------------------------------------- */

static void
add_percent (GArray     *doubts,
             CroModel   *model,
             CroRef      ref,
             const char *table,
             const char *column,
             gint64      micro)
{
  CroDoubt doubt;

  if (!cro_doubt_of_percent (model, table, column, micro, &doubt))
    return;
  doubt.ref = ref;
  g_array_append_val (doubts, doubt);
}

static void
add_density (GArray  *doubts,
             CroRef   ref,
             gint64   micro)
{
  CroDoubt doubt;

  if (!cro_doubt_of_density (micro, &doubt))
    return;
  doubt.ref = ref;
  g_array_append_val (doubts, doubt);
}

/* --- Purchases ------------------------------------------------------------------------------------------ */

static const char *const purchase_columns[] = {
  "ingredient", "date", "supplier", "document", "category", "kind", "amount_micro", "unit",
  "net_value_micro", NULL
};

/* All that a row says, as one text. */
static char *
key_of (CroRows *rows)
{
  GString *key = g_string_new (NULL);

  for (int i = 0; purchase_columns[i] != NULL; i++)
    if (cro_rows_is_null (rows, i))
      g_string_append (key, "\n-");
    else if (cro_rows_is_text (rows, i))
      g_string_append_printf (key, "\n\"%s", cro_rows_get_text (rows, i));
    else
      g_string_append_printf (key, "\n%" G_GINT64_FORMAT, cro_rows_get_int (rows, i));
  return g_string_free (key, FALSE);
}

/* Only what names its document: two equal deliveries of a day are common. */
static gboolean
add_purchases (CroBook  *book,
               GArray   *doubts,
               GError  **error)
{
  CroModel *model = cro_book_get_model (book);
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (book), "purchase",
                                             purchase_columns, error);
  GError *failed = NULL;

  while (rows != NULL && cro_rows_next (rows, &failed))
    {
      char *key = cro_rows_is_null (rows, 3) ? NULL : key_of (rows);
      CroDoubt doubt = { .kind = CRO_DOUBT_PURCHASE_TWICE, .is = 2, .other = CRO_NO_SLOT };
      const char *date = cro_rows_get_text (rows, 1);

      if (key == NULL || g_hash_table_add (seen, key))
        continue;
      doubt.ref = CRO_REF (CRO_REF_PURCHASES, CRO_NO_SLOT);
      doubt.meant = cro_decimal_to_double (cro_rows_get_int (rows, 8));
      cro_date_parse (date, strlen (date), &doubt.date);
      if (!cro_rows_is_null (rows, 0))
        doubt.other = cro_slots_get (&model->item_slots, cro_rows_get_int (rows, 0));
      g_array_append_val (doubts, doubt);
    }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}

/* --- All ---------------------------------------------------------------------------------------------- */

static void
add_fields_of_ingredient (CroModel *model,
                          guint32   item,
                          GArray   *doubts)
{
  add_percent (doubts, model, CRO_REF (CRO_REF_ITEM, item), "ingredient", "trim_yield_pct_micro",
               model->measures[item].trim_yield);
  add_density (doubts, CRO_REF (CRO_REF_ITEM, item), cro_model_item (model, item)->density);
}

static void
add_packs (CroBook *book,
           guint32  item,
           GArray  *history,
           GArray  *doubts)
{
  CroModel *model = cro_book_get_model (book);
  const CroItem *of = cro_model_item (model, item);

  for (guint32 i = 0; i < of->n_offers; i++)
    {
      guint32 offer = g_array_index (model->offer_order, guint32, of->first_offer + i);
      CroDoubt doubt;

      add_percent (doubts, model, CRO_REF (CRO_REF_OFFER, offer), "offer", "net_pct_micro",
                   cro_model_offer (model, offer)->offer.net);
      add_percent (doubts, model, CRO_REF (CRO_REF_OFFER, offer), "price", "tax_included_pct_micro",
                   cro_model_offer (model, offer)->offer.tax_included);
      if (cro_doubt_of_offer (book, offer, history, &doubt))
        g_array_append_val (doubts, doubt);
    }
}

/* Of prices after the book's date, each as on its day: a list is entered ahead. */
static void
add_coming_prices (CroBook *book,
                   GArray  *history,
                   GArray  *doubts)
{
  CroDate today = cro_book_get_figures (book)->date;

  for (guint i = history->len; i-- > 0;)
    {
      const CroPastPrice *price = &g_array_index (history, CroPastPrice, i);
      CroDoubt doubt;

      if (price->offer_then.from > today
          && cro_doubt_of_price (cro_book_get_model (book), price->offer, history, price->offer_then.from, &doubt))
        cro_doubt_add_coming (doubts, &doubt, today);
    }
}

/* with_coming: also of prices after the book's date. */
static gboolean
add_ingredient (CroBook  *book,
                guint32   item,
                gboolean  with_coming,
                GArray   *doubts,
                GError  **error)
{
  g_autoptr (GArray) history = NULL;

  add_fields_of_ingredient (cro_book_get_model (book), item, doubts);
  if (cro_model_item (cro_book_get_model (book), item)->n_offers == 0)
    return TRUE;
  history = cro_price_history_new (book, item, error);
  if (history == NULL)
    return FALSE;
  add_packs (book, item, history, doubts);
  if (with_coming)
    add_coming_prices (book, history, doubts);
  return TRUE;
}

GArray *
cro_doubts_of_ingredient (CroBook *book,
                          guint32  item,
                          GArray  *history)
{
  GArray *doubts = g_array_new (FALSE, FALSE, sizeof (CroDoubt));

  add_fields_of_ingredient (cro_book_get_model (book), item, doubts);
  add_packs (book, item, history, doubts);
  return doubts;
}

static void
add_lines (CroFigures *figures,
           guint32     recipe,
           GArray     *doubts)
{
  const CroGraph *graph = &figures->graph;
  CroLines *lines = &figures->model->lines;
  guint32 row = cro_figures_row (figures, recipe);

  for (guint32 l = graph->first[row]; l < graph->first[row + 1]; l++)
    {
      guint32 line = graph->line_slot[l];
      CroRef ref = CRO_REF (CRO_REF_LINE, line);
      CroDoubt doubt;

      add_percent (doubts, figures->model, ref, "recipe_line", "yield_pct_micro", lines->yield[line]);
      add_percent (doubts, figures->model, ref, "recipe_line", "recovered_pct_micro", lines->recovered[line]);
      if (cro_doubt_of_line (figures, line, &doubt))
        g_array_append_val (doubts, doubt);
    }
}

static void
add_recipe (CroFigures *figures,
            guint32     recipe,
            GArray     *doubts)
{
  const CroRecipe *of = cro_model_recipe (figures->model, recipe);
  CroRef ref = CRO_REF (CRO_REF_RECIPE, recipe);
  CroDoubt doubt;

  if (of->is_plate)
    {
      add_percent (doubts, figures->model, ref, "plate", "target_pct_micro", of->target);
      add_percent (doubts, figures->model, ref, "plate", "tax_pct_micro", of->tax);
      add_percent (doubts, figures->model, ref, "plate", "allowance_pct_micro", of->allowance);
    }
  else if (cro_doubt_of_batch (figures, recipe, &doubt))
    g_array_append_val (doubts, doubt);
  add_lines (figures, recipe, doubts);
}

static void
add_menu (CroModel *model,
          guint32   menu,
          GArray   *doubts)
{
  CroRef ref = CRO_REF (CRO_REF_MENU, menu);

  add_percent (doubts, model, ref, "menu", "target_pct_micro", cro_model_menu (model, menu)->target);
  add_percent (doubts, model, ref, "menu", "tax_pct_micro", cro_model_menu (model, menu)->tax);
}

static void
add_selling (CroBook *book,
             CroRef   thing,
             GArray  *steps,
             GArray  *doubts)
{
  CroDoubt doubt;

  if (cro_doubt_of_selling (book, thing, steps, cro_book_get_figures (book)->date, &doubt))
    g_array_append_val (doubts, doubt);
}

/* Of steps newest first: one that changes the tax alone. */
static gboolean
repeats_price (GArray *steps,
               guint   i)
{
  return i + 1 < steps->len
         && g_array_index (steps, CroSellingStep, i).price == g_array_index (steps, CroSellingStep, i + 1).price;
}

/* The same on the book's date, and on each day after it that has a price. */
static void
add_selling_to_come (CroBook *book,
                     CroRef   thing,
                     GArray  *steps,
                     GArray  *doubts)
{
  CroDate today = cro_book_get_figures (book)->date;

  add_selling (book, thing, steps, doubts);
  for (guint i = steps != NULL ? steps->len : 0; i-- > 0;)
    {
      CroDate from = g_array_index (steps, CroSellingStep, i).from;
      CroDoubt doubt;

      if (from > today && !repeats_price (steps, i) && cro_doubt_of_selling (book, thing, steps, from, &doubt))
        cro_doubt_add_coming (doubts, &doubt, today);
    }
}

/* Of every plate and every menu. */
static gboolean
add_all_selling (CroBook  *book,
                 GArray   *doubts,
                 GError  **error)
{
  CroModel *model = cro_book_get_model (book);
  g_autoptr (GHashTable) steps = cro_selling_steps_all (book, error);

  if (steps == NULL)
    return FALSE;
  for (guint32 r = 0; r < model->recipes->len; r++)
    {
      const CroRecipe *of = cro_model_recipe (model, r);

      if (!of->is_dead && of->is_plate)
        add_selling_to_come (book, CRO_REF (CRO_REF_RECIPE, r), g_hash_table_lookup (steps, &of->id), doubts);
    }
  for (guint32 m = 0; m < model->menus->len; m++)
    {
      const CroMenu *of = cro_model_menu (model, m);

      if (!of->is_dead)
        add_selling_to_come (book, CRO_REF (CRO_REF_MENU, m), g_hash_table_lookup (steps, &of->id), doubts);
    }
  return TRUE;
}

/* --- Below one thing ---------------------------------------------------------------------------------- */

typedef struct
{
  CroBook    *book;
  GArray     *doubts;
  GArray     *recipes;     /* guint32: those found, to be walked in order */
  GHashTable *seen;        /* items, and recipes as their complement */
} Below;

static void
go_to (Below   *self,
       guint32  recipe)
{
  if (g_hash_table_add (self->seen, GUINT_TO_POINTER (~recipe)))
    g_array_append_val (self->recipes, recipe);
}

/* A last price is told of as such, and what costs nothing was told once. */
static gboolean
is_stale (CroFigures *figures,
          guint32     offer,
          CroDoubt   *doubt)
{
  CroModel *model = figures->model;
  const CroOfferEntry *entry = cro_model_offer (model, offer);

  if (model->stale_after_days == CRO_NOT_SET || figures->offer_in_use[entry->item] != offer
      || figures->last_price[entry->item] != CRO_NO_DAY || entry->offer.price == 0)
    return FALSE;
  *doubt = (CroDoubt){ .kind = CRO_DOUBT_STALE, .ref = CRO_REF (CRO_REF_OFFER, offer),
                       .other = entry->item, .date = entry->offer.from,
                       .is = cro_decimal_to_double (model->stale_after_days) };
  return figures->date - entry->offer.from > doubt->is;
}

/* That of a currency in which something is bought, once. */
static void
add_rate (Below      *self,
          const char *currency)
{
  CroDoubt doubt;

  if (currency == NULL || !cro_doubt_of_rate (self->book, currency, &doubt))
    return;
  for (guint i = 0; i < self->doubts->len; i++)
    if (g_array_index (self->doubts, CroDoubt, i).currency == doubt.currency)
      return;
  g_array_append_val (self->doubts, doubt);
}

static gboolean
add_bought (Below    *self,
            guint32   item,
            GError  **error)
{
  CroFigures *figures = cro_book_get_figures (self->book);
  guint from = self->doubts->len, kept = self->doubts->len;
  CroDoubt doubt;

  if (!add_ingredient (self->book, item, FALSE, self->doubts, error))
    return FALSE;
  for (guint i = from; i < self->doubts->len; i++)
    {
      CroDoubt found = g_array_index (self->doubts, CroDoubt, i);

      if (found.ref.kind != CRO_REF_OFFER || found.kind == CRO_DOUBT_EXPIRED
          || figures->offer_in_use[item] == found.ref.slot)
        g_array_index (self->doubts, CroDoubt, kept++) = found;
    }
  g_array_set_size (self->doubts, kept);
  if (figures->offer_in_use[item] == CRO_NO_SLOT)
    return TRUE;
  if (is_stale (figures, figures->offer_in_use[item], &doubt))
    g_array_append_val (self->doubts, doubt);
  add_rate (self, cro_model_offer (figures->model, figures->offer_in_use[item])->currency);
  return TRUE;
}

static gboolean
walk_recipe (Below    *self,
             guint32   recipe,
             GError  **error)
{
  CroFigures *figures = cro_book_get_figures (self->book);
  const CroGraph *graph = &figures->graph;
  guint32 row = cro_figures_row (figures, recipe);

  add_recipe (figures, recipe, self->doubts);
  for (guint32 l = graph->first[row]; l < graph->first[row + 1]; l++)
    {
      guint32 item = figures->model->lines.item[graph->line_slot[l]];

      if (!g_hash_table_add (self->seen, GUINT_TO_POINTER (item)))
        continue;
      if (figures->model->maker[item] >= 0)
        go_to (self, (guint32) figures->model->maker[item]);
      else if (!add_bought (self, item, error))
        return FALSE;
    }
  return TRUE;
}

/* Of the thing itself: what else a menu's plates are sold for is no matter of the menu. */
static gboolean
add_its_selling (CroBook  *book,
                 CroRef    thing,
                 GArray   *doubts,
                 GError  **error)
{
  g_autoptr (GArray) steps = NULL;

  if (thing.kind == CRO_REF_RECIPE && !cro_model_recipe (cro_book_get_model (book), thing.slot)->is_plate)
    return TRUE;
  steps = cro_selling_steps_new (book, thing, error);
  if (steps != NULL)
    add_selling (book, thing, steps, doubts);
  return steps != NULL;
}

static void
go_to_plates (Below   *self,
              guint32  menu)
{
  CroModel *model = cro_book_get_model (self->book);
  g_autoptr (GPtrArray) plates = cro_menu_dup_plates (model, menu);

  add_menu (model, menu, self->doubts);
  for (guint i = 0; i < plates->len; i++)
    go_to (self, ((const CroMenuPlate *) plates->pdata[i])->plate);
}

GArray *
cro_doubts_below (CroBook  *book,
                  CroRef    thing,
                  GError  **error)
{
  g_autoptr (GArray) doubts = g_array_new (FALSE, FALSE, sizeof (CroDoubt));
  g_autoptr (GArray) recipes = g_array_new (FALSE, FALSE, sizeof (guint32));
  g_autoptr (GHashTable) seen = g_hash_table_new (NULL, NULL);
  Below self = { book, doubts, recipes, seen };

  if (!add_its_selling (book, thing, doubts, error))
    return NULL;
  if (thing.kind == CRO_REF_MENU)
    go_to_plates (&self, thing.slot);
  else
    go_to (&self, thing.slot);
  for (guint i = 0; i < recipes->len; i++)
    if (!walk_recipe (&self, g_array_index (recipes, guint32, i), error))
      return NULL;
  return g_steal_pointer (&doubts);
}

GArray *
cro_doubts_list (CroBook  *book,
                 GError  **error)
{
  CroModel *model = cro_book_get_model (book);
  g_autoptr (GArray) doubts = g_array_new (FALSE, FALSE, sizeof (CroDoubt));
  CroRef house = CRO_REF (CRO_REF_HOUSE, CRO_NO_SLOT);

  add_percent (doubts, model, house, "book", "target_pct_micro", model->target);
  add_percent (doubts, model, house, "book", "tax_pct_micro", model->tax);
  cro_doubt_add_names (model, CRO_REF_ITEM, doubts);
  cro_doubt_add_names (model, CRO_REF_SUPPLIER, doubts);
  cro_doubt_add_names (model, CRO_REF_RECIPE, doubts);
  cro_doubt_add_names (model, CRO_REF_MENU, doubts);
  for (guint32 i = 0; i < model->items->len; i++)
    {
      const CroItem *item = cro_model_item (model, i);

      if (item->is_dead)
        continue;
      if (model->maker[i] >= 0)
        add_density (doubts, CRO_REF (CRO_REF_ITEM, i), item->density);
      else if (!add_ingredient (book, i, TRUE, doubts, error))
        return NULL;
    }
  for (guint32 r = 0; r < model->recipes->len; r++)
    if (!cro_model_recipe (model, r)->is_dead)
      add_recipe (cro_book_get_figures (book), r, doubts);
  for (guint32 m = 0; m < model->menus->len; m++)
    if (!cro_model_menu (model, m)->is_dead)
      add_menu (model, m, doubts);
  return add_all_selling (book, doubts, error) && cro_doubts_add_rates (book, doubts, error)
                 && add_purchases (book, doubts, error)
             ? g_steal_pointer (&doubts)
             : NULL;
}
