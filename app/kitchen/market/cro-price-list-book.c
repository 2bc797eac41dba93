/* What a line of a supplier's can be found by. */
#include "cro-price-list-private.h"

#include "cro-fold.h"
#include "cro-gtin.h"
#include "cro-number.h"

#include <string.h>

static GHashTable *
names_new (void)
{
  return g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
}

/* What stands for two things stands for neither. */
static void
put (GHashTable *table,
     char       *name,
     guint32     slot)
{
  gpointer before;

  if (g_hash_table_lookup_extended (table, name, NULL, &before) && GPOINTER_TO_UINT (before) != slot + 1)
    g_hash_table_insert (table, name, GUINT_TO_POINTER (0));
  else
    g_hash_table_insert (table, name, GUINT_TO_POINTER (slot + 1));
}

static guint
count_words (const char *folded)
{
  guint n = 1;

  for (const char *at = folded; (at = strchr (at, ' ')) != NULL; at++)
    n++;
  return n;
}

static void
add_ingredients (CroListBook *self)
{
  CroModel *model = self->model;

  for (guint32 i = 0; i < model->items->len; i++)
    {
      const CroItem *item = cro_model_item (model, i);
      g_autofree char *folded = NULL, *one = NULL;

      if (item->is_dead || !model->measures[i].is_bought)
        continue;
      folded = cro_fold (item->name);
      one = cro_fold_number (folded);
      put (self->spellings, g_strdup (item->name), i);
      put (self->names, g_strdup (*folded != '\0' ? folded : item->name), i);
      put (self->names_in_number, g_strdup (one), i);
      if (strpbrk (folded, "0123456789") != NULL)
        self->n_words = MAX (self->n_words, count_words (folded) + 1);
    }
}

/* A pack of another ingredient under the same code leaves open which is meant. */
static void
add_offers (CroListBook *self)
{
  CroModel *model = self->model;
  gboolean is_first = TRUE;

  for (guint32 i = 0; i < model->offers->len; i++)
    {
      const CroOfferEntry *offer = cro_model_offer (model, i);
      const char *currency = offer->currency != NULL ? offer->currency : model->currency;

      if (offer->is_dead || offer->supplier != self->supplier)
        continue;
      if (*offer->code != '\0')
        put (self->codes, g_strdup (offer->code), i);
      self->currency = is_first || g_strcmp0 (currency, self->currency) == 0 ? currency : model->currency;
      is_first = FALSE;
    }
}

static void
add_gtin (CroListBook *self,
          guint32      slot,
          const char  *gtin)
{
  const CroOfferEntry *offer = cro_model_offer (self->model, slot);
  char wide[CRO_GTIN_DIGITS + 1];

  if (!cro_gtin_is_one (gtin, strlen (gtin)))
    return;
  cro_gtin_widen (gtin, strlen (gtin), wide);
  if (offer->supplier == self->supplier)
    put (self->gtins, g_strdup (wide), slot);
  put (self->gtins_of_all, g_strdup (wide), offer->item);
}

static gboolean
add_gtins (CroListBook  *self,
           GError      **error)
{
  static const char *const columns[] = { "id", "gtin", NULL };
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (self->book), "offer", columns, error);
  GError *failed = NULL;

  while (rows != NULL && cro_rows_next (rows, &failed))
    {
      guint32 slot = cro_slots_get (&self->model->offer_slots, cro_rows_get_int (rows, 0));

      if (slot != CRO_NO_SLOT && !cro_rows_is_null (rows, 1) && !cro_model_offer (self->model, slot)->is_dead)
        add_gtin (self, slot, cro_rows_get_text (rows, 1));
    }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}

static gboolean
read_taxes (CroListBook  *self,
            GError      **error)
{
  char day[CRO_DATE_CHARS];
  g_autoptr (CroRows) rows = NULL;
  GError *failed = NULL;

  cro_date_format (cro_book_get_figures (self->book)->date, day);
  rows = cro_store_read_taxed_prices (cro_book_get_store (self->book), day, error);
  while (rows != NULL && cro_rows_next (rows, &failed))
    {
      guint32 slot = cro_slots_get (&self->model->offer_slots, cro_rows_get_int (rows, 0));
      gint64 tax = cro_rows_get_int (rows, 1);

      if (slot != CRO_NO_SLOT && cro_model_offer (self->model, slot)->supplier == self->supplier)
        g_hash_table_insert (self->taxes, GUINT_TO_POINTER (slot), g_memdup2 (&tax, sizeof tax));
    }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}

gint64
cro_list_tax_before (const CroListBook *of,
                     guint32            offer)
{
  gint64 tax = cro_model_offer (of->model, offer)->offer.tax_included;
  const gint64 *before = g_hash_table_lookup (of->taxes, GUINT_TO_POINTER (offer));

  return tax > 0 ? tax : before != NULL ? *before : 0;
}

static gboolean
read_supplier (CroListBook  *self,
               GError      **error)
{
  static const char *const columns[] = { "quotes", NULL };
  const CroSupplier *supplier;
  g_autoptr (CroRows) rows = NULL;
  GError *failed = NULL;

  self->currency = self->model->currency;
  if (self->supplier == CRO_NO_SLOT)
    return TRUE;
  supplier = &g_array_index (self->model->suppliers, CroSupplier, self->supplier);
  rows = cro_store_read_one (cro_book_get_store (self->book), "supplier", supplier->id, columns, error);
  if (rows == NULL)
    return FALSE;
  self->quotes_base = cro_rows_next (rows, &failed)
                      && g_strcmp0 (cro_rows_get_text (rows, 0), "base unit") == 0;
  if (failed != NULL)
    g_propagate_error (error, failed);
  return failed == NULL;
}

gboolean
cro_list_book_init (CroListBook  *self,
                    CroBook      *book,
                    guint32       supplier,
                    GError      **error)
{
  *self = (CroListBook){ .book = book, .model = cro_book_get_model (book), .supplier = supplier };
  self->codes = names_new ();
  self->gtins = names_new ();
  self->gtins_of_all = names_new ();
  self->taxes = g_hash_table_new_full (NULL, NULL, NULL, g_free);
  self->spellings = names_new ();
  self->names = names_new ();
  self->names_in_number = names_new ();
  self->no_goods = names_new ();
  add_ingredients (self);
  if (read_supplier (self, error) && (add_offers (self), add_gtins (self, error)) && read_taxes (self, error))
    return TRUE;
  cro_list_book_clear (self);
  return FALSE;
}

void
cro_list_book_clear (CroListBook *self)
{
  g_hash_table_unref (self->codes);
  g_hash_table_unref (self->gtins);
  g_hash_table_unref (self->gtins_of_all);
  g_hash_table_unref (self->taxes);
  g_hash_table_unref (self->spellings);
  g_hash_table_unref (self->names);
  g_hash_table_unref (self->names_in_number);
  g_clear_pointer (&self->likes, cro_like_names_free);
  g_hash_table_unref (self->no_goods);
}
