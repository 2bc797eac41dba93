#include "cro-count-list.h"

#include "cro-month-edit.h"

#include <math.h>
#include <string.h>

#include "cro-code.h"
#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-month-private.h"
#include "cro-row-date.h"
#include "cro-service.h"

typedef struct
{
  CroBook      *book;
  CroModel     *model;
  CroCountList *list;
  CroDate       before;     /* the last day of the month before */
  GHashTable   *at;         /* lines by item and place: index + 1 */
  GHashTable   *first;      /* and the first of each item */
  GHashTable   *categories; /* by the id of an ingredient */
  GHashTable   *folded;     /* texts as they are put in order */
} Reading;

static char *
dup_key (guint32     item,
         const char *place)
{
  return g_strdup_printf ("%u %s", item, place != NULL ? place : "");
}

/* What an item is counted in where nobody counted it yet: its base, or what one would rather say. */
static CroUnit
unit_of (Reading *self,
         guint32  item)
{
  static const CroUnit units[] = { [CRO_BASE_GRAM] = CRO_UNIT_KG, [CRO_BASE_MILLILITRE] = CRO_UNIT_L,
                                   [CRO_BASE_EACH] = CRO_UNIT_EACH };

  return units[self->model->measures[item].base];
}

static CroCountLine *
line_at (Reading *self,
         guint    index)
{
  return &g_array_index (self->list->lines, CroCountLine, index);
}

static CroCountLine *
find_line (Reading    *self,
           guint32     item,
           const char *place,
           gboolean    is_made)
{
  g_autofree char *key = dup_key (item, place);
  guint found = GPOINTER_TO_UINT (g_hash_table_lookup (self->at, key));
  CroCountLine line = { .item = item, .amount = CRO_NOT_SET, .unit = unit_of (self, item),
                        .last = CRO_NOT_SET, .worth = NAN };

  if (found != 0)
    return line_at (self, found - 1);
  if (!is_made)
    return NULL;
  line.place = place != NULL ? g_string_chunk_insert_const (self->list->texts, place) : NULL;
  g_array_append_val (self->list->lines, line);
  g_hash_table_insert (self->at, g_steal_pointer (&key), GUINT_TO_POINTER (self->list->lines->len));
  if (!g_hash_table_contains (self->first, GUINT_TO_POINTER (item)))
    g_hash_table_insert (self->first, GUINT_TO_POINTER (item), GUINT_TO_POINTER (self->list->lines->len));
  return line_at (self, self->list->lines->len - 1);
}

/* The one line of an item without a place, whatever place it was counted in before. */
static CroCountLine *
find_item (Reading *self,
           guint32  item)
{
  guint first = GPOINTER_TO_UINT (g_hash_table_lookup (self->first, GUINT_TO_POINTER (item)));

  return first != 0 ? line_at (self, first - 1) : find_line (self, item, NULL, TRUE);
}

/* --- Reading ------------------------------------------------------------------------------------- */

static double
worth_of (Reading *self,
          guint32  item,
          gint64   amount,
          CroUnit  unit)
{
  CroFigures *figures = cro_book_get_figures (self->book);
  CroLayerId layer = cro_model_item (self->model, item)->is_disposable ? CRO_LAYER_DISPOSABLES : CRO_LAYER_FOOD;
  double cost = figures->layers[layer].unit_cost[cro_figures_node (figures, item)];

  return cost * cro_service_in_base (self->model, item, amount, unit, NULL);
}

static void
add_worth (CroCountLine *line,
           double        worth)
{
  if (!isnan (worth))
    line->worth = (isnan (line->worth) ? 0 : line->worth) + worth;
}

static gboolean
take_count (CroRows   *rows,
            gpointer   user_data,
            GError   **error)
{
  Reading *self = user_data;
  guint32 item = cro_slots_get (&self->model->item_slots, cro_rows_get_int (rows, 2));
  CroCountLine *line;
  CroUnit unit;
  CroDate day = cro_row_date (rows, 1);

  if ((day != self->list->day && day != self->before) || item == CRO_NO_SLOT)
    return TRUE;
  if (!cro_month_read_unit (rows, 4, &unit, error))
    return FALSE;
  line = find_line (self, item, cro_rows_get_text (rows, 5), TRUE);
  if (day == self->before)
    {
      line->last = cro_rows_get_int (rows, 3);
      line->last_unit = unit;
      if (line->amount == CRO_NOT_SET)
        line->unit = line->last_unit;
      add_worth (line, worth_of (self, item, line->last, line->last_unit));
      return TRUE;
    }
  /* Counted twice in one place: both are rows, and both are shown. */
  if (line->amount != CRO_NOT_SET)
    {
      CroCountLine other = *line;

      g_array_append_val (self->list->lines, other);
      line = line_at (self, self->list->lines->len - 1);
      line->last = CRO_NOT_SET;
    }
  line->id = cro_rows_get_int (rows, 0);
  line->amount = cro_rows_get_int (rows, 3);
  line->unit = unit;
  return TRUE;
}

static gboolean
take_purchase (CroRows   *rows,
               gpointer   user_data,
               GError   **error)
{
  Reading *self = user_data;
  guint32 item;
  CroDate day = cro_row_date (rows, 0);

  if (cro_rows_is_null (rows, 1) || day <= self->before || day > self->list->day)
    return TRUE;
  item = cro_slots_get (&self->model->item_slots, cro_rows_get_int (rows, 1));
  if (item != CRO_NO_SLOT && !cro_model_item (self->model, item)->is_disposable)
    add_worth (find_item (self, item), cro_decimal_to_double (cro_rows_get_int (rows, 2)));
  return TRUE;
}

/* What was transferred in is asked about at the close as what was bought is. */
static gboolean
take_adjustment (CroRows   *rows,
                 gpointer   user_data,
                 GError   **error)
{
  Reading *self = user_data;
  guint32 item;
  guint kind;
  CroUnit unit;
  CroDate day = cro_row_date (rows, 0);

  if (cro_rows_is_null (rows, 2) || day <= self->before || day > self->list->day)
    return TRUE;
  if (!cro_month_read_kind (cro_adjustment_kind_codes, cro_rows_get_text (rows, 1), &kind, error)
      || !cro_month_read_unit (rows, 4, &unit, error))
    return FALSE;
  item = cro_slots_get (&self->model->item_slots, cro_rows_get_int (rows, 2));
  if (cro_month_sign_of (kind) <= 0 || item == CRO_NO_SLOT || cro_model_item (self->model, item)->is_disposable)
    return TRUE;
  add_worth (find_item (self, item),
             !cro_rows_is_null (rows, 5)   ? cro_decimal_to_double (cro_rows_get_int (rows, 5))
             : !cro_rows_is_null (rows, 3) ? worth_of (self, item, cro_rows_get_int (rows, 3), unit)
                                           : NAN);
  return TRUE;
}

static gboolean
take_category (CroRows   *rows,
               gpointer   user_data,
               GError   **error)
{
  Reading *self = user_data;
  const char *category = cro_rows_get_text (rows, 1);
  gint64 id = cro_rows_get_int (rows, 0);

  if (category != NULL)
    g_hash_table_insert (self->categories, g_memdup2 (&id, sizeof id),
                         g_string_chunk_insert_const (self->list->texts, category));
  return TRUE;
}

/* --- Order --------------------------------------------------------------------------------------- */

static const char *
folded_of (Reading    *self,
           const char *text)
{
  char *folded;

  if (text == NULL)
    return "";
  folded = g_hash_table_lookup (self->folded, text);
  if (folded == NULL)
    g_hash_table_insert (self->folded, (gpointer) text, folded = cro_fold (text));
  return folded;
}

static int
by_place (gconstpointer a,
          gconstpointer b,
          gpointer      user_data)
{
  Reading *self = user_data;
  const CroCountLine *x = a, *y = b;
  const CroItem *p = cro_model_item (self->model, x->item), *q = cro_model_item (self->model, y->item);
  int order = strcmp (folded_of (self, x->place), folded_of (self, y->place));

  if (order == 0)
    order = strcmp (folded_of (self, g_hash_table_lookup (self->categories, &p->id)),
                    folded_of (self, g_hash_table_lookup (self->categories, &q->id)));
  return order != 0 ? order : strcmp (folded_of (self, p->name), folded_of (self, q->name));
}

static int
by_worth (gconstpointer a,
          gconstpointer b,
          gpointer      user_data)
{
  const CroCountLine *x = a, *y = b;
  double p = isnan (x->worth) ? 0 : x->worth, q = isnan (y->worth) ? 0 : y->worth;

  return p != q ? (p < q ? 1 : -1) : by_place (a, b, user_data);
}

/* What was counted in a new place leaves its old place to be counted too. */
static gboolean
read_all (Reading  *self,
          GError  **error)
{
  static const char *const counts[] = { "id", "date", "item", "amount_micro", "unit", "place", NULL };
  static const char *const purchases[] = { "date", "ingredient", "net_value_micro", NULL };
  static const char *const adjustments[] = { "date", "kind", "item", "amount_micro", "unit", "net_value_micro", NULL };
  static const char *const categories[] = { "id", "category", NULL };
  CroStore *store = cro_book_get_store (self->book);

  return cro_store_read_each (store, "stock_count", counts, take_count, self, error)
         && cro_store_read_each (store, "purchase", purchases, take_purchase, self, error)
         && cro_store_read_each (store, "adjustment", adjustments, take_adjustment, self, error)
         && cro_store_read_each (store, "ingredient", categories, take_category, self, error);
}

/* Nobody asks for those that were counted before: no food cost waits for them. */
static void
drop_disposables (Reading *self)
{
  GArray *lines = self->list->lines;

  for (guint i = lines->len; i-- > 0;)
    if (line_at (self, i)->amount == CRO_NOT_SET
        && cro_model_item (self->model, line_at (self, i)->item)->is_disposable)
      g_array_remove_index (lines, i);
}

static void
count_items (CroCountList *self)
{
  g_autoptr (GHashTable) counted = g_hash_table_new (NULL, NULL), all = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < self->lines->len; i++)
    {
      const CroCountLine *line = &g_array_index (self->lines, CroCountLine, i);

      g_hash_table_add (all, GUINT_TO_POINTER (line->item));
      if (line->amount != CRO_NOT_SET)
        g_hash_table_add (counted, GUINT_TO_POINTER (line->item));
    }
  self->n_items = g_hash_table_size (all);
  self->n_counted = g_hash_table_size (counted);
}

CroCountList *
cro_count_list_new (CroBook        *book,
                    CroDate         day,
                    CroCountOrder   order,
                    GError        **error)
{
  g_autoptr (CroCountList) self = g_new0 (CroCountList, 1);
  g_autoptr (GHashTable) at = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GHashTable) first = g_hash_table_new (NULL, NULL);
  g_autoptr (GHashTable) folded = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, g_free);
  g_autoptr (GHashTable) categories = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  Reading reading = { book, cro_book_get_model (book), self, cro_month_first_of (day) - 1,
                      at,   first,                     categories, folded };

  self->day = day;
  self->lines = g_array_new (FALSE, FALSE, sizeof (CroCountLine));
  self->texts = g_string_chunk_new (256);
  if (!read_all (&reading, error))
    return NULL;
  drop_disposables (&reading);
  count_items (self);
  g_array_sort_with_data (self->lines, order == CRO_COUNT_BY_WORTH ? by_worth : by_place, &reading);
  return g_steal_pointer (&self);
}

void
cro_count_list_free (CroCountList *self)
{
  g_array_unref (self->lines);
  g_string_chunk_free (self->texts);
  g_free (self);
}

static gboolean
is_left (const CroCountLine *line)
{
  return line->id == 0 && line->last != CRO_NOT_SET;
}

guint
cro_count_list_n_last (const CroCountList *self)
{
  guint n = 0;

  for (guint i = 0; i < self->lines->len; i++)
    n += is_left (&g_array_index (self->lines, CroCountLine, i));
  return n;
}

gboolean
cro_count_list_take_last (const CroCountList  *self,
                          CroBook             *book,
                          const char          *label,
                          GError             **error)
{
  g_autoptr (GArray) entries = g_array_new (FALSE, FALSE, sizeof (CroCountEntry));

  for (guint i = 0; i < self->lines->len; i++)
    {
      const CroCountLine *line = &g_array_index (self->lines, CroCountLine, i);
      CroCountEntry entry = { .date = self->day, .item = line->item, .amount = line->last, .unit = line->last_unit,
                              .place = line->place };

      if (is_left (line))
        g_array_append_val (entries, entry);
    }
  return cro_month_put_counts (book, label, (const CroCountEntry *) (const void *) entries->data, entries->len, error);
}
