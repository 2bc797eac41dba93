#include "cro-edit-private.h"

#include <string.h>

#include "cro-decimal.h"
#include "cro-name.h"
#include "cro-not-set.h"
#include "cro-own-pack.h"

/* --- Ingredients and suppliers --------------------------------------------------------------- */

gint64
cro_edit_make_ingredient (CroBook     *book,
                          const char  *name,
                          CroBase      base,
                          GError     **error)
{
  static const char *const columns[] = { "id", "unit", NULL };
  gint64 id = cro_edit_name_row (book, "item", name, error);
  CroCell cells[] = { CRO_CELL_INT (id), CRO_CELL_STR (cro_edit_unit_code (cro_base_unit (base))) };

  return id != 0 && cro_edit_insert (book, "ingredient", columns, cells, error) != 0 ? id : 0;
}

gboolean
cro_edit_add_ingredient (CroBook             *book,
                         const char          *label,
                         const char          *name,
                         CroBase              base,
                         const CroUnitPrice  *price,
                         guint32             *item,
                         GError             **error)
{
  gint64 id, offer = 0;
  gboolean done;

  if (!cro_edit_begin (book, label, error))
    return FALSE;
  id = cro_edit_make_ingredient (book, name, base, error);
  done = id != 0 && (price == NULL || cro_edit_pay (book, id, price, &offer, error));
  return cro_edit_end (book, done, error)
         && cro_edit_return_slot (item, &cro_book_get_model (book)->item_slots, id);
}

static gint64
make_supplier (CroBook     *book,
               const char  *name,
               GError     **error)
{
  static const char *const columns[] = { "name", NULL };
  g_autofree char *tidy = cro_edit_dup_name (book, CRO_NAMES_SUPPLIERS, name, CRO_REF_NOWHERE,
                                             error);
  CroCell cell = CRO_CELL_STR (tidy);

  return tidy != NULL ? cro_edit_insert (book, "supplier", columns, &cell, error) : 0;
}

gboolean
cro_edit_add_supplier (CroBook     *book,
                       const char  *label,
                       const char  *name,
                       guint32     *supplier,
                       GError     **error)
{
  gint64 id;

  if (!cro_edit_begin (book, label, error))
    return FALSE;
  id = make_supplier (book, name, error);
  return cro_edit_end (book, id != 0, error)
         && cro_edit_return_slot (supplier, &cro_book_get_model (book)->supplier_slots, id);
}

/* --- Offers --------------------------------------------------------------------------------------- */

static const char *const offer_columns[] = {
  "ingredient", "supplier", "code", "pack_count_micro", "pack_size_micro", "pack_unit", "currency",
  NULL
};

static gint64
make_offer (CroBook            *book,
            gint64              ingredient,
            gint64              supplier,
            const CroNewOffer  *new_offer,
            GError            **error)
{
  CroCell cells[] = {
    CRO_CELL_INT (ingredient),
    CRO_CELL_INT (supplier),
    CRO_CELL_STR (new_offer->code != NULL ? new_offer->code : ""),
    CRO_CELL_INT (new_offer->pack_count),
    CRO_CELL_INT (new_offer->pack_size),
    CRO_CELL_STR (cro_edit_unit_code (new_offer->pack_unit)),
    CRO_CELL_STR (new_offer->currency),
  };

  return cro_edit_insert (book, "offer", offer_columns, cells, error);
}

static guint32
find_offer (CroModel   *model,
            guint32     item,
            guint32     supplier,
            const char *code)
{
  for (guint32 i = 0; i < model->offers->len; i++)
    {
      const CroOfferEntry *entry = cro_model_offer (model, i);

      if (!entry->is_dead && entry->item == item && entry->supplier == supplier
          && strcmp (entry->code, code) == 0)
        return i;
    }
  return CRO_NO_SLOT;
}

/* --- Prices ---------------------------------------------------------------------------------------- */

static const char *const price_columns[] = {
  "offer", "from_date", "price_micro", "tax_included_pct_micro", "pack_count_micro",
  "pack_size_micro", "pack_unit", NULL
};

/* A price of an offer as it stands, to be carried on from another date. */
typedef struct
{
  gint64 id;                   /* 0: the offer has none by that date */
  gboolean is_of_date;
  gint64 price;                /* CRO_NOT_SET: not to be had */
  gint64 tax, count, size;     /* 0: not set */
  CroUnit unit;
  gboolean has_unit;
} Standing;

static gboolean
read_standing (CroBook     *book,
               gint64       offer,
               const char  *date,
               Standing    *standing,
               GError     **error)
{
  g_autoptr (CroRows) rows = cro_store_read_prices (cro_book_get_store (book), date, offer, error);
  GError *failed = NULL;

  memset (standing, 0, sizeof *standing);
  if (rows == NULL)
    return FALSE;
  if (cro_rows_next (rows, &failed))
    {
      const char *unit = cro_rows_get_text (rows, 7);

      standing->id = cro_rows_get_int (rows, 1);
      standing->is_of_date = strcmp (cro_rows_get_text (rows, 2), date) == 0;
      standing->price = cro_row_number (rows, 3);
      standing->tax = cro_rows_get_int (rows, 4);
      standing->count = cro_rows_get_int (rows, 5);
      standing->size = cro_rows_get_int (rows, 6);
      standing->has_unit = unit != NULL && cro_unit_parse (unit, strlen (unit), &standing->unit);
    }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return failed == NULL;
}

/* Writes a price with the tax and the pack that standing holds. */
static gboolean
write_price (CroBook         *book,
             gint64           offer,
             const char      *date,
             gint64           price,
             const Standing  *standing,
             GError         **error)
{
  CroCell cells[] = {
    CRO_CELL_INT (offer),
    CRO_CELL_STR (date),
    cro_number_cell (price),
    cro_edit_cell_or_none (standing->tax),
    cro_edit_cell_or_none (standing->count),
    cro_edit_cell_or_none (standing->size),
    CRO_CELL_STR (standing->has_unit ? cro_edit_unit_code (standing->unit) : NULL),
  };

  if (standing->is_of_date)
    return cro_edit_update_row (book, "price", standing->id, price_columns, cells, error);
  return cro_edit_insert (book, "price", price_columns, cells, error) != 0;
}

/* Whether the price that stands is one per unit, which the offer is not spoken of in. */
static gboolean
is_per_unit (CroModel       *model,
             guint32         offer,
             const Standing *standing)
{
  const CroOfferEntry *entry = cro_model_offer (model, offer);
  CroOffer then = entry->offer, own;

  then.price = standing->price != CRO_NOT_SET ? standing->price : 0;
  then.tax_included = standing->tax;
  then.pack_count = standing->count != 0 ? standing->count : entry->pack_count;
  then.pack_size = standing->size != 0 ? standing->size : entry->pack_size;
  then.pack_unit = standing->has_unit ? standing->unit : (CroUnit) entry->pack_unit;
  own = cro_own_pack_of (model, offer, &then);
  return own.pack_count != then.pack_count || own.pack_size != then.pack_size || own.pack_unit != then.pack_unit;
}

static gboolean
set_price (CroBook  *book,
           gint64    offer,
           CroDate   from,
           gint64    price,
           GError  **error)
{
  char date[CRO_DATE_CHARS];
  Standing standing;

  cro_date_format (from, date);
  return read_standing (book, offer, date, &standing, error)
         && write_price (book, offer, date, price, &standing, error);
}

static gboolean
set_own_price (CroBook  *book,
               guint32   offer,
               CroDate   from,
               gint64    price,
               GError  **error)
{
  CroModel *model = cro_book_get_model (book);
  gint64 id = cro_model_offer (model, offer)->id;
  char date[CRO_DATE_CHARS];
  Standing standing;

  cro_date_format (from, date);
  if (!read_standing (book, id, date, &standing, error))
    return FALSE;
  if (is_per_unit (model, offer, &standing))
    {
      standing.count = standing.size = 0;
      standing.has_unit = FALSE;
    }
  return write_price (book, id, date, price, &standing, error);
}

gboolean
cro_edit_set_price (CroBook     *book,
                    const char  *label,
                    guint32      offer,
                    CroDate      from,
                    gint64       price,
                    GError     **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book,
                          set_price (book, cro_model_offer (cro_book_get_model (book), offer)->id,
                                     from, price, error),
                          error);
}

gboolean
cro_edit_set_own_price (CroBook     *book,
                        const char  *label,
                        guint32      offer,
                        CroDate      from,
                        gint64       price,
                        GError     **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, set_own_price (book, offer, from, price, error), error);
}

/* --- A price for one unit ---------------------------------------------------------------------------- */

/* The supplier may have been made within this act, so the store is asked. */
static gboolean
find_or_make_supplier (CroBook     *book,
                       const char  *name,
                       gint64      *id,
                       GError     **error)
{
  static const char *const columns[] = { "id", "name", NULL };
  g_autofree char *tidy = cro_name_dup_tidy (name);
  GError *failed = NULL;

  *id = 0;
  {
    g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (book), "supplier", columns,
                                               error);

    if (rows == NULL)
      return FALSE;
    while (*id == 0 && cro_rows_next (rows, &failed))
      if (strcmp (cro_rows_get_text (rows, 1), tidy) == 0)
        *id = cro_rows_get_int (rows, 0);
  }
  if (failed != NULL)
    g_propagate_error (error, failed);
  else if (*id == 0)
    *id = make_supplier (book, tidy, error);
  return *id != 0;
}

static gint64
size_of (const CroUnitPrice *price)
{
  return price->size != 0 ? price->size : CRO_MICRO;
}

static gboolean
find_or_make_offer (CroBook             *book,
                    gint64               ingredient,
                    const CroUnitPrice  *price,
                    gint64              *offer,
                    GError             **error)
{
  CroModel *model = cro_book_get_model (book);
  CroNewOffer plain = { .pack_count = CRO_MICRO, .pack_size = size_of (price), .pack_unit = price->unit };
  guint32 item = cro_slots_get (&model->item_slots, ingredient);
  guint32 found = CRO_NO_SLOT;
  gint64 supplier;

  if (!find_or_make_supplier (book, price->supplier, &supplier, error))
    return FALSE;
  if (item != CRO_NO_SLOT)
    found = find_offer (model, item, cro_slots_get (&model->supplier_slots, supplier), "");
  if (found == CRO_NO_SLOT)
    *offer = make_offer (book, ingredient, supplier, &plain, error);
  else if (cro_model_offer (model, found)->currency == NULL
           || g_strcmp0 (cro_model_offer (model, found)->currency, model->currency) == 0)
    *offer = cro_model_offer (model, found)->id;
  else
    g_set_error_literal (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_TWICE,
                         "an offer in another currency");
  return *offer != 0;
}

/* What is in a pack of the offer itself, which a price need not repeat. */
static gboolean
is_own_pack (CroBook             *book,
             gint64               offer,
             const CroUnitPrice  *price,
             gboolean            *is_own,
             GError             **error)
{
  static const char *const columns[] = { "pack_count_micro", "pack_size_micro", "pack_unit", NULL };
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (book), "offer", offer, columns,
                                                 error);
  GError *failed = NULL;

  if (rows == NULL)
    return FALSE;
  *is_own = cro_rows_next (rows, &failed) && cro_rows_get_int (rows, 0) == CRO_MICRO
            && cro_rows_get_int (rows, 1) == size_of (price)
            && strcmp (cro_rows_get_text (rows, 2), cro_edit_unit_code (price->unit)) == 0;
  if (failed != NULL)
    g_propagate_error (error, failed);
  return failed == NULL;
}

gboolean
cro_edit_pay (CroBook             *book,
              gint64               ingredient,
              const CroUnitPrice  *price,
              gint64              *offer,
              GError             **error)
{
  char date[CRO_DATE_CHARS];
  Standing standing;
  gboolean is_own;

  cro_date_format (price->from, date);
  if ((*offer == 0 && !find_or_make_offer (book, ingredient, price, offer, error))
      || !is_own_pack (book, *offer, price, &is_own, error)
      || !read_standing (book, *offer, date, &standing, error))
    return FALSE;
  standing.tax = 0;
  standing.count = is_own ? 0 : CRO_MICRO;
  standing.size = is_own ? 0 : size_of (price);
  standing.has_unit = !is_own;
  standing.unit = price->unit;
  return write_price (book, *offer, date, price->price, &standing, error);
}

gboolean
cro_edit_price_ingredient (CroBook             *book,
                           const char          *label,
                           guint32              item,
                           const CroUnitPrice  *price,
                           guint32             *offer,
                           GError             **error)
{
  gint64 id = 0;
  gboolean done;

  if (!cro_edit_begin (book, label, error))
    return FALSE;
  done = cro_edit_pay (book, cro_model_item (cro_book_get_model (book), item)->id, price, &id,
                       error);
  return cro_edit_end (book, done, error)
         && cro_edit_return_slot (offer, &cro_book_get_model (book)->offer_slots, id);
}

const char *
cro_edit_find_free_supplier (CroModel *model)
{
  guint n = model->suppliers->len;
  g_autofree gboolean *has_free = g_new0 (gboolean, n + 1);
  g_autofree gboolean *has_dear = g_new0 (gboolean, n + 1);

  for (guint32 i = 0; i < model->offers->len; i++)
    {
      const CroOfferEntry *entry = cro_model_offer (model, i);

      if (!entry->is_dead && entry->offer.has_price)
        *(entry->offer.price == 0 ? &has_free[entry->supplier] : &has_dear[entry->supplier]) = TRUE;
    }
  for (guint i = 0; i < n; i++)
    if (has_free[i] && !has_dear[i])
      return g_array_index (model->suppliers, CroSupplier, i).name;
  return NULL;
}

/* --- A new offer ------------------------------------------------------------------------------------- */

/* The slots of what the act makes are not known yet: a new supplier has no offers. */
static gboolean
supplier_of (CroBook            *book,
             const CroNewOffer  *new_offer,
             gint64             *id,
             GError            **error)
{
  if (new_offer->supplier == CRO_NO_SLOT)
    return find_or_make_supplier (book, new_offer->supplier_name, id, error);
  *id = g_array_index (cro_book_get_model (book)->suppliers, CroSupplier, new_offer->supplier).id;
  return TRUE;
}

static gint64
add_offer (CroBook            *book,
           const CroNewOffer  *new_offer,
           GError            **error)
{
  CroModel *model = cro_book_get_model (book);
  gint64 supplier, offer;

  if (!supplier_of (book, new_offer, &supplier, error))
    return 0;
  if (find_offer (model, new_offer->item, cro_slots_get (&model->supplier_slots, supplier),
                  new_offer->code != NULL ? new_offer->code : "") != CRO_NO_SLOT)
    {
      g_set_error_literal (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_TWICE,
                           "an offer under that code");
      return 0;
    }
  offer = make_offer (book, cro_model_item (model, new_offer->item)->id, supplier, new_offer,
                      error);
  if (offer != 0 && new_offer->has_price
      && !set_price (book, offer, new_offer->from, new_offer->price, error))
    return 0;
  return offer;
}

gboolean
cro_edit_add_offer (CroBook            *book,
                    const char         *label,
                    const CroNewOffer  *new_offer,
                    guint32            *offer,
                    GError            **error)
{
  gint64 id;

  if (!cro_edit_begin (book, label, error))
    return FALSE;
  id = add_offer (book, new_offer, error);
  return cro_edit_end (book, id != 0, error)
         && cro_edit_return_slot (offer, &cro_book_get_model (book)->offer_slots, id);
}

static gboolean
set_supplier (CroBook     *book,
              guint32      offer,
              const char  *name,
              GError     **error)
{
  CroModel *model = cro_book_get_model (book);
  const CroOfferEntry *entry = cro_model_offer (model, offer);
  guint32 there;
  gint64 supplier;

  if (!find_or_make_supplier (book, name, &supplier, error))
    return FALSE;
  there = find_offer (model, entry->item, cro_slots_get (&model->supplier_slots, supplier),
                      entry->code);
  if (there != CRO_NO_SLOT && there != offer)
    {
      g_set_error_literal (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_TWICE,
                           "an offer under that code");
      return FALSE;
    }
  return cro_edit_update (book, "offer", entry->id, "supplier", CRO_CELL_INT (supplier), error);
}

gboolean
cro_edit_set_supplier (CroBook     *book,
                       const char  *label,
                       guint32      offer,
                       const char  *supplier,
                       GError     **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, set_supplier (book, offer, supplier, error), error);
}

/* With what was said of it. */
static gboolean
remove_price (CroBook  *book,
              gint64    id,
              GError  **error)
{
  static const char *const columns[] = { "offer", "from_date", NULL };
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (book), "price", id, columns, error);
  g_autofree char *date = NULL;
  gint64 offer = 0;
  GError *failed = NULL;

  if (rows != NULL && cro_rows_next (rows, &failed))
    {
      offer = cro_rows_get_int (rows, 0);
      date = g_strdup (cro_rows_get_text (rows, 1));
    }
  if (failed != NULL)
    g_propagate_error (error, failed);
  if (rows == NULL || failed != NULL)
    return FALSE;
  g_clear_pointer (&rows, cro_rows_free);
  return (date == NULL || cro_edit_forget_answer (book, offer, date, CRO_NOT_SET, error))
         && cro_store_delete (cro_book_get_store (book), "price", id, error);
}

gboolean
cro_edit_remove_price (CroBook     *book,
                       const char  *label,
                       gint64       id,
                       GError     **error)
{
  return cro_edit_begin (book, label, error) && cro_edit_end (book, remove_price (book, id, error), error);
}
