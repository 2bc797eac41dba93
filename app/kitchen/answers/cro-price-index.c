#include "cro-price-index.h"

#include <math.h>
#include <string.h>

#include "cro-bought.h"
#include "cro-kind.h"
#include "cro-price-link.h"

/* A basket is of so many days. */
#define BASKET_DAYS 365

typedef struct
{
  CroBook      *book;
  CroModel     *model;
  CroPricePast *past;
  CroDate       from, to;
  GArray       *bought;     /* of all baskets and of the days between */
  guint         n;          /* ingredients */
  guint32      *items;      /* [n] */
  guint        *category;   /* [n]: index into all */
  double       *before, *after, *quantity; /* [n]: of a link */
  gboolean     *is_untold;  /* [n]: more was bought of it than quantity tells */
  gboolean     *is_in;      /* [n]: the basket of any link */
  GArray       *all;        /* CroPriceIndex */
} Indices;

static void
clear (gpointer index)
{
  g_free (((CroPriceIndex *) index)->category);
}

/* --- Categories -------------------------------------------------------------------------------- */

static guint
find_or_add (Indices    *self,
             GHashTable *known,
             const char *category)
{
  CroPriceIndex index = { .category = g_strdup (category), .index = NAN, .share_pct = NAN };
  gpointer at = g_hash_table_lookup (known, category != NULL ? category : "");

  if (at != NULL)
    {
      g_free (index.category);
      return GPOINTER_TO_UINT (at);
    }
  g_hash_table_insert (known, g_strdup (category != NULL ? category : ""), GUINT_TO_POINTER (self->all->len));
  g_array_append_val (self->all, index);
  return self->all->len - 1;
}

/* The first is of all. */
static gboolean
read_categories (Indices  *self,
                 GError  **error)
{
  static const char *const columns[] = { "id", "category", NULL };
  g_autoptr (GHashTable) known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (self->book), "ingredient", columns, error);
  CroPriceIndex of_all = { .index = NAN, .share_pct = NAN };
  GError *failed = NULL;

  g_array_append_val (self->all, of_all);
  while (rows != NULL && cro_rows_next (rows, &failed))
    {
      guint32 slot = cro_slots_get (&self->model->item_slots, cro_rows_get_int (rows, 0));

      if (slot == CRO_NO_SLOT || cro_kind_name (self->model, CRO_KIND_INGREDIENT, slot) == NULL
          || self->n == self->model->items->len)
        continue;
      self->items[self->n] = slot;
      self->category[self->n] = find_or_add (self, known, cro_rows_get_text (rows, 1));
      g_array_index (self->all, CroPriceIndex, self->category[self->n++]).n++;
      g_array_index (self->all, CroPriceIndex, 0).n++;
    }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}

/* --- Links ------------------------------------------------------------------------------------- */

static void
fill_basket (Indices *self,
             CroDate  day)
{
  g_autofree double *by_item = g_new0 (double, self->model->items->len + 1);
  g_autofree gboolean *is_untold = g_new0 (gboolean, self->model->items->len + 1);

  for (guint i = 0; i < self->bought->len; i++)
    {
      const CroBought *row = &g_array_index (self->bought, CroBought, i);

      if (row->item == CRO_NO_SLOT || row->date > day || row->date <= day - BASKET_DAYS)
        continue;
      if (isnan (row->amount))
        is_untold[row->item] = TRUE;
      else
        by_item[row->item] += row->amount;
    }
  for (guint i = 0; i < self->n; i++)
    {
      self->quantity[i] = by_item[self->items[i]];
      self->is_untold[i] = is_untold[self->items[i]];
    }
}

/* What was bought and is not in the link, or not all of it, leaves the index of its category open, and that
 * of all. */
static void
note_basket (Indices *self)
{
  for (guint i = 0; i < self->n; i++)
    {
      gboolean is_priced = !isnan (self->before[i] + self->after[i]);

      self->is_in[i] |= self->before[i] > 0 && self->after[i] > 0 && self->quantity[i] > 0;
      if (self->is_untold[i] || (self->quantity[i] > 0 && !is_priced))
        g_array_index (self->all, CroPriceIndex, 0).is_open
            = g_array_index (self->all, CroPriceIndex, self->category[i]).is_open = TRUE;
    }
}

static void
count_in (Indices *self)
{
  for (guint i = 0; i < self->n; i++)
    if (self->is_in[i])
      {
        g_array_index (self->all, CroPriceIndex, 0).n_in++;
        g_array_index (self->all, CroPriceIndex, self->category[i]).n_in++;
      }
}

/* The link of one category; 0 is all of them. */
static double
link_of (Indices *self,
         guint    category)
{
  g_autofree double *quantity = g_memdup2 (self->quantity, (self->n + 1) * sizeof *self->quantity);

  for (guint i = 0; i < self->n; i++)
    if (category != 0 && self->category[i] != category)
      quantity[i] = 0;
  return cro_price_link (self->before, self->after, quantity, self->n);
}

static void
add_link (Indices *self,
          CroDate  first,
          CroDate  last)
{
  fill_basket (self, first);
  for (guint i = 0; i < self->n; i++)
    {
      self->before[i] = cro_price_past_cost (self->past, self->items[i], first);
      self->after[i] = cro_price_past_cost (self->past, self->items[i], last);
    }
  note_basket (self);
  for (guint c = 0; c < self->all->len; c++)
    {
      CroPriceIndex *index = &g_array_index (self->all, CroPriceIndex, c);
      double link = link_of (self, c);

      if (isnan (link))
        continue;
      if (isnan (index->index))
        {
          index->index = 100;
          index->since = first;
        }
      index->index *= link;
    }
}

static CroDate
next_month (CroDate day)
{
  int year, month, of_month;

  cro_date_to_civil (day, &year, &month, &of_month);
  return month < 12 ? cro_date_from_civil (year, month + 1, 1) : cro_date_from_civil (year + 1, 1, 1);
}

/* --- What was bought --------------------------------------------------------------------------- */

static void
add_bought (Indices *self)
{
  g_autofree double *by_item = g_new0 (double, self->model->items->len + 1);
  double all = 0;

  for (guint i = 0; i < self->bought->len; i++)
    {
      const CroBought *row = &g_array_index (self->bought, CroBought, i);

      if (row->date <= self->from)
        continue;
      all += row->net_value;
      if (row->item != CRO_NO_SLOT)
        by_item[row->item] += row->net_value;
    }
  for (guint i = 0; i < self->n; i++)
    {
      g_array_index (self->all, CroPriceIndex, self->category[i]).bought += by_item[self->items[i]];
      g_array_index (self->all, CroPriceIndex, 0).bought += by_item[self->items[i]];
    }
  for (guint c = 0; all > 0 && c < self->all->len; c++)
    g_array_index (self->all, CroPriceIndex, c).share_pct
        = 100 * g_array_index (self->all, CroPriceIndex, c).bought / all;
}

static int
compare (gconstpointer a,
         gconstpointer b)
{
  const CroPriceIndex *x = a, *y = b;

  if (x->bought > y->bought || x->bought < y->bought)
    return x->bought > y->bought ? -1 : 1;
  return g_strcmp0 (x->category, y->category);
}

GArray *
cro_price_indices_new (CroBook       *book,
                       CroPricePast  *past,
                       CroDate        from,
                       GError       **error)
{
  CroModel *model = cro_book_get_model (book);
  CroDate to = cro_book_get_figures (book)->date;
  gsize most = model->items->len + 1;
  g_autoptr (GArray) bought = cro_bought_between (book, from - BASKET_DAYS, to, error);
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (CroPriceIndex));
  g_autofree guint32 *items = g_new (guint32, most);
  g_autofree guint *category = g_new (guint, most);
  g_autofree double *before = g_new (double, most), *after = g_new (double, most);
  g_autofree double *quantity = g_new0 (double, most);
  g_autofree gboolean *is_untold = g_new0 (gboolean, most), *is_in = g_new0 (gboolean, most);
  Indices self = { book, model, past, MIN (from, to), to, bought, 0, items, category, before, after, quantity,
                   is_untold, is_in, all };

  g_array_set_clear_func (all, clear);
  if (bought == NULL || !read_categories (&self, error))
    return NULL;
  for (CroDate day = self.from; day < to; day = next_month (day))
    add_link (&self, day, MIN (next_month (day), to));
  count_in (&self);
  add_bought (&self);
  if (all->len > 2)
    qsort (&g_array_index (all, CroPriceIndex, 1), all->len - 1, sizeof (CroPriceIndex), compare);
  return g_steal_pointer (&all);
}
