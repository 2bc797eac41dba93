#include "config.h"

#include "cro-named.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-date.h"
#include "cro-isolate.h"
#include "cro-number.h"

/* Names of a kind in the sentence under a field. */
#define MOST_NAMED 3

/* Records that refer to a thing, each with what it is called by. */
static const struct { CroRefKind of; const char *table, *column; CroNamedKind kind; } records[] = {
  { CRO_REF_RECIPE, "service", "thing", CRO_NAMED_SERVICES },
  { CRO_REF_RECIPE, "sale", "thing", CRO_NAMED_SALES },
  { CRO_REF_MENU, "service", "thing", CRO_NAMED_SERVICES },
  { CRO_REF_MENU, "sale", "thing", CRO_NAMED_SALES },
  { CRO_REF_ITEM, "service_stock", "item", CRO_NAMED_SERVICES },
  { CRO_REF_ITEM, "yield_test", "item", CRO_NAMED_YIELD_TESTS },
  { CRO_REF_ITEM, "yield_test_part", "output", CRO_NAMED_YIELD_TESTS },
  { CRO_REF_ITEM, "stock_count", "item", CRO_NAMED_COUNTS },
  { CRO_REF_ITEM, "purchase", "ingredient", CRO_NAMED_PURCHASES },
  { CRO_REF_ITEM, "adjustment", "item", CRO_NAMED_ADJUSTMENTS },
  { CRO_REF_SUPPLIER, "purchase", "supplier", CRO_NAMED_PURCHASES },
};

/* --- Gathering ------------------------------------------------------------------------------- */

static void
clear_named (gpointer named)
{
  g_ptr_array_unref (((CroNamed *) named)->names);
}

/* name may be NULL: it bears none. */
static void
add (GArray       *all,
     CroNamedKind  kind,
     const char   *name)
{
  CroNamed *named = &g_array_index (all, CroNamed, kind);

  named->n++;
  if (name != NULL)
    g_ptr_array_add (named->names, g_strdup (name));
}

/* "28 Nov 2026, dinner" */
static char *
dup_service (CroRows *rows)
{
  const char *day = cro_rows_get_text (rows, 1);
  g_autofree char *shown = NULL;
  CroDate date;

  shown = cro_date_parse (day, strlen (day), &date) ? cro_date_to_text (date) : g_strdup (day);
  return g_strdup_printf ("%s, %s", shown, cro_rows_get_text (rows, 2));
}

static gboolean
add_rows (CroBook      *book,
          const char   *table,
          const char   *column,
          gint64        id,
          CroNamedKind  kind,
          GArray       *all,
          GError      **error)
{
  static const char *const of_service[] = { "id", "date", "service", NULL };
  static const char *const of_others[] = { "id", NULL };
  gboolean is_service = kind == CRO_NAMED_SERVICES;
  g_autoptr (CroRows) rows = cro_store_read_of (cro_book_get_store (book), table, column, id,
                                                is_service ? of_service : of_others, error);
  GError *failed = NULL;

  while (rows != NULL && cro_rows_next (rows, &failed))
    {
      g_autofree char *name = is_service ? dup_service (rows) : NULL;

      add (all, kind, name);
    }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}

static gboolean
add_records (CroBook     *book,
             CroRefKind   of,
             gint64       id,
             GArray      *all,
             GError     **error)
{
  for (gsize i = 0; i < G_N_ELEMENTS (records); i++)
    if (records[i].of == of
        && !add_rows (book, records[i].table, records[i].column, id, records[i].kind, all, error))
      return FALSE;
  return TRUE;
}

/* What is sold under the name in a till: kept by the name, and follows it. */
static gboolean
add_till (CroBook     *book,
          const char  *name,
          GArray      *all,
          GError     **error)
{
  static const char *const columns[] = { "name", "sold_as", NULL };
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (book), "till_name", columns, error);
  GError *failed = NULL;

  while (rows != NULL && cro_rows_next (rows, &failed))
    if (g_strcmp0 (cro_rows_get_text (rows, 1), name) == 0)
      add (all, CRO_NAMED_TILL, cro_rows_get_text (rows, 0));
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}

/* Closed months by rows that were frozen with the name. */
static gboolean
add_closed (CroBook     *book,
            CroRef       ref,
            const char  *name,
            GArray      *all,
            GError     **error)
{
  static const char *const of_supplier[] = { "month", "supplier", "supplier", NULL };
  static const char *const of_others[] = { "month", "name", "part", NULL };
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (book), "month_row",
                                             ref.kind == CRO_REF_SUPPLIER ? of_supplier : of_others, error);
  g_autoptr (GHashTable) months = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  GError *failed = NULL;

  while (rows != NULL && cro_rows_next (rows, &failed))
    {
      gint64 month = cro_rows_get_int (rows, 0);

      if ((g_strcmp0 (cro_rows_get_text (rows, 1), name) == 0 || g_strcmp0 (cro_rows_get_text (rows, 2), name) == 0)
          && g_hash_table_add (months, g_memdup2 (&month, sizeof month)))
        add (all, CRO_NAMED_CLOSED, NULL);
    }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}

/* Of an item by their suppliers, of a supplier by what is in them. */
static void
add_packs (CroModel *model,
           CroRef    ref,
           GArray   *all)
{
  for (guint32 i = 0; i < model->offers->len; i++)
    {
      const CroOfferEntry *offer = cro_model_offer (model, i);
      gboolean is_of = ref.kind == CRO_REF_ITEM ? offer->item == ref.slot : offer->supplier == ref.slot;

      if (!offer->is_dead && is_of)
        add (all, CRO_NAMED_PACKS,
             cro_ref_name (model, ref.kind == CRO_REF_ITEM ? CRO_REF (CRO_REF_SUPPLIER, offer->supplier)
                                                           : CRO_REF (CRO_REF_ITEM, offer->item)));
    }
}

static gboolean
add_item (CroBook  *book,
          guint32   slot,
          GArray   *all,
          GError  **error)
{
  CroFigures *figures = cro_book_get_figures (book);
  const CroGraph *graph = &figures->graph;
  guint32 node = cro_figures_node (figures, slot);

  for (guint32 at = 0, row; cro_graph_next_user (graph, node, &at, &row);)
    add (all, CRO_NAMED_RECIPES, cro_model_recipe (figures->model, graph->slot_of_row[row])->name);
  add_packs (figures->model, CRO_REF (CRO_REF_ITEM, slot), all);
  return add_records (book, CRO_REF_ITEM, cro_model_item (figures->model, slot)->id, all, error);
}

static gboolean
add_thing (CroBook     *book,
           CroRef       ref,
           gint64       id,
           const char  *name,
           GArray      *all,
           GError     **error)
{
  CroModel *model = cro_book_get_model (book);

  for (guint32 i = 0; ref.kind == CRO_REF_RECIPE && i < model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, i);

      if (!entry->is_dead && entry->plate == ref.slot)
        add (all, CRO_NAMED_MENUS, cro_model_menu (model, entry->menu)->name);
    }
  return add_till (book, name, all, error) && add_records (book, ref.kind, id, all, error);
}

static gboolean
add_preparation (CroBook  *book,
                 guint32   slot,
                 GArray   *all,
                 GError  **error)
{
  CroModel *model = cro_book_get_model (book);
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (cro_book_get_figures (book), slot, &outputs);

  return n == 0 || strcmp (cro_model_item (model, outputs[0])->name, cro_model_recipe (model, slot)->name) != 0
         || add_item (book, outputs[0], all, error);
}

static gboolean
add_all (CroBook  *book,
         CroRef    ref,
         GArray   *all,
         GError  **error)
{
  CroModel *model = cro_book_get_model (book);
  const char *name = cro_ref_name (model, ref);

  switch (ref.kind)
    {
    case CRO_REF_ITEM:
      return add_item (book, ref.slot, all, error) && add_closed (book, ref, name, all, error);
    case CRO_REF_RECIPE:
      if (!cro_model_recipe (model, ref.slot)->is_plate)
        return add_preparation (book, ref.slot, all, error) && add_closed (book, ref, name, all, error);
      return add_thing (book, ref, cro_model_recipe (model, ref.slot)->id, name, all, error)
             && add_closed (book, ref, name, all, error);
    case CRO_REF_MENU:
      return add_thing (book, ref, cro_model_menu (model, ref.slot)->id, name, all, error)
             && add_closed (book, ref, name, all, error);
    case CRO_REF_SUPPLIER:
      add_packs (model, ref, all);
      return add_records (book, ref.kind, g_array_index (model->suppliers, CroSupplier, ref.slot).id, all, error)
             && add_closed (book, ref, name, all, error);
    default:
      return TRUE;
    }
}

/* Each once, in their order: a supplier may have thousands. */
static void
drop_repeated (CroNamed *named)
{
  g_autoptr (GPtrArray) all = g_steal_pointer (&named->names);
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);

  named->names = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < all->len; i++)
    if (g_hash_table_add (seen, all->pdata[i]))
      g_ptr_array_add (named->names, g_strdup (all->pdata[i]));
}

static int
compare_names (gconstpointer a,
               gconstpointer b)
{
  return g_utf8_collate (*(char *const *) a, *(char *const *) b);
}

/* Services stay by their days. */
static void
sort_names (GArray *all)
{
  for (guint i = 0; i < all->len; i++)
    if (g_array_index (all, CroNamed, i).kind != CRO_NAMED_SERVICES)
      g_ptr_array_sort (g_array_index (all, CroNamed, i).names, compare_names);
}

GArray *
cro_named_list (CroBook  *book,
                CroRef    ref,
                GError  **error)
{
  g_autoptr (GArray) all = g_array_sized_new (FALSE, FALSE, sizeof (CroNamed), CRO_N_NAMED);

  g_array_set_clear_func (all, clear_named);
  for (int i = 0; i < CRO_N_NAMED; i++)
    {
      CroNamed named = { (CroNamedKind) i, 0, g_ptr_array_new_with_free_func (g_free) };

      g_array_append_val (all, named);
    }
  if (!add_all (book, ref, all, error))
    return NULL;
  for (guint i = all->len; i > 0; i--)
    if (g_array_index (all, CroNamed, i - 1).n == 0)
      g_array_remove_index (all, i - 1);
  for (guint i = 0; i < all->len; i++)
    drop_repeated (&g_array_index (all, CroNamed, i));
  sort_names (all);
  return g_steal_pointer (&all);
}

/* --- Words ------------------------------------------------------------------------------------ */

static char *
dup_count (CroNamedKind kind,
           guint        n)
{
  switch (kind)
    {
    case CRO_NAMED_RECIPES:
      return g_strdup_printf (ngettext ("%u recipe", "%u recipes", n), n);
    case CRO_NAMED_MENUS:
      return g_strdup_printf (ngettext ("%u menu", "%u menus", n), n);
    case CRO_NAMED_PACKS:
      return g_strdup_printf (ngettext ("%u pack", "%u packs", n), n);
    case CRO_NAMED_TILL:
      return g_strdup_printf (ngettext ("%u till name", "%u till names", n), n);
    case CRO_NAMED_SERVICES:
      return g_strdup_printf (ngettext ("%u service", "%u services", n), n);
    case CRO_NAMED_YIELD_TESTS:
      return g_strdup_printf (ngettext ("%u yield test", "%u yield tests", n), n);
    case CRO_NAMED_COUNTS:
      return g_strdup_printf (ngettext ("%u line counted", "%u lines counted", n), n);
    case CRO_NAMED_PURCHASES:
      return g_strdup_printf (ngettext ("%u purchase", "%u purchases", n), n);
    case CRO_NAMED_ADJUSTMENTS:
      return g_strdup_printf (ngettext ("%u adjustment", "%u adjustments", n), n);
    default:
      return g_strdup_printf (ngettext ("%u line of sales", "%u lines of sales", n), n);
    }
}

char *
cro_named_to_text (const CroNamed *self,
                   guint           most)
{
  g_autofree char *count = self->kind != CRO_NAMED_CLOSED ? dup_count (self->kind, self->n) : NULL;
  g_autoptr (GString) names = g_string_new (NULL);

  if (count == NULL || self->names->len == 0 || most == 0)
    return g_steal_pointer (&count);
  for (guint i = 0; i < MIN (self->names->len, most); i++)
    cro_isolate_append (names, self->names->pdata[i]);
  if (self->names->len > most)
    {
      guint others = self->names->len - most;

      g_string_append (names, ", ");
      g_string_append_printf (names, ngettext ("%u other", "%u others", others), others);
    }
  return g_strdup_printf (_("%s: %s"), count, names->str);
}

char *
cro_words_named (GArray *named)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < named->len; i++)
    {
      g_autofree char *part = cro_named_to_text (&g_array_index (named, CroNamed, i), MOST_NAMED);

      if (part != NULL)
        g_string_append_printf (text, "%s%s", text->len > 0 ? _("; ") : "", part);
    }
  return text->len > 0 ? g_string_free (g_steal_pointer (&text), FALSE) : NULL;
}

char *
cro_words_old_name (GArray *named)
{
  const CroNamed *last = named->len > 0 ? &g_array_index (named, CroNamed, named->len - 1) : NULL;

  return last == NULL || last->kind != CRO_NAMED_CLOSED
             ? NULL
             : g_strdup_printf (ngettext ("%u closed month keeps the old name.",
                                          "%u closed months keep the old name.", last->n),
                                last->n);
}
