/* A list as tables: new packs, prices, and what an invoice says was bought. */
#include "cro-price-list.h"

#include "cro-column.h"
#include "cro-price-list-purchase.h"
#include "cro-table.h"

#include <glib/gstdio.h>

/* Room for a row of any table. */
typedef CroField Fields[CRO_MAX_COLUMNS];

typedef struct
{
  const CroPriceList *list;
  CroModel           *model;
} Posting;

static void
set_text (CroField   *field,
          const char *text)
{
  if (text != NULL && *text != '\0')
    *field = (CroField){ .is_set = TRUE, .text = text };
}

static void
set_number (CroField *field,
            gint64    number)
{
  *field = (CroField){ .is_set = TRUE, .number = number };
}

static const char *
code_of (Posting          *self,
         const CroListRow *row)
{
  return row->offer != CRO_NO_SLOT ? cro_model_offer (self->model, row->offer)->code : row->code;
}

/* FALSE: the row has nothing in that table. */
typedef gboolean (*Fill) (Posting          *self,
                          const CroListRow *row,
                          CroField         *fields);

static gboolean
fill_offer (Posting          *self,
            const CroListRow *row,
            CroField         *fields)
{
  if (!row->is_posted || row->offer != CRO_NO_SLOT)
    return FALSE;
  set_text (&fields[CRO_OFFERS_INGREDIENT], cro_model_item (self->model, row->item)->name);
  set_text (&fields[CRO_OFFERS_SUPPLIER], self->list->supplier_name);
  set_text (&fields[CRO_OFFERS_CODE], row->code);
  set_number (&fields[CRO_OFFERS_PACK_COUNT], row->pack.count);
  set_number (&fields[CRO_OFFERS_PACK_SIZE], row->pack.size);
  set_number (&fields[CRO_OFFERS_PACK_UNIT], row->pack.unit);
  set_text (&fields[CRO_OFFERS_GTIN], row->gtin);
  if (g_strcmp0 (row->currency, self->model->currency) != 0)
    set_text (&fields[CRO_OFFERS_CURRENCY], row->currency);
  return TRUE;
}

static gboolean
fill_price (Posting          *self,
            const CroListRow *row,
            CroField         *fields)
{
  if (!row->is_posted)
    return FALSE;
  set_text (&fields[CRO_PRICES_INGREDIENT], cro_model_item (self->model, row->item)->name);
  set_text (&fields[CRO_PRICES_SUPPLIER], self->list->supplier_name);
  set_text (&fields[CRO_PRICES_CODE], code_of (self, row));
  set_number (&fields[CRO_PRICES_FROM], self->list->from);
  if (row->is_none)
    return TRUE;
  set_number (&fields[CRO_PRICES_PRICE], row->price);
  if (row->tax > 0)
    set_number (&fields[CRO_PRICES_TAX_INCLUDED_PCT], row->tax);
  if (row->is_other_pack)
    {
      set_number (&fields[CRO_PRICES_PACK_COUNT], row->pack.count);
      set_number (&fields[CRO_PRICES_PACK_SIZE], row->pack.size);
      set_number (&fields[CRO_PRICES_PACK_UNIT], row->pack.unit);
    }
  return TRUE;
}

static gboolean
fill_purchase (Posting          *self,
               const CroListRow *row,
               CroField         *fields)
{
  CroListPurchase purchase;

  if (!row->is_booked || !cro_list_purchase_of (self->list, self->model, row, &purchase))
    return FALSE;
  set_number (&fields[CRO_PURCHASES_DATE], self->list->delivered);
  if (self->list->dated != CRO_NO_DAY)
    set_number (&fields[CRO_PURCHASES_DOCUMENT_DATE], self->list->dated);
  set_text (&fields[CRO_PURCHASES_SUPPLIER], self->list->supplier_name);
  set_text (&fields[CRO_PURCHASES_DOCUMENT], self->list->document);
  if (purchase.item != CRO_NO_SLOT)
    {
      set_text (&fields[CRO_PURCHASES_INGREDIENT], cro_model_item (self->model, purchase.item)->name);
      set_number (&fields[CRO_PURCHASES_AMOUNT], purchase.amount);
      set_number (&fields[CRO_PURCHASES_UNIT], purchase.unit);
    }
  else
    set_text (&fields[CRO_PURCHASES_CATEGORY], row->name);
  set_number (&fields[CRO_PURCHASES_KIND], purchase.kind);
  set_number (&fields[CRO_PURCHASES_NET_VALUE], purchase.net_value);
  return TRUE;
}

static gboolean
write_table (Posting     *self,
             const char  *folder,
             CroTableId   id,
             Fill         fill,
             GError     **error)
{
  g_autoptr (CroTableWriter) writer = NULL;
  gboolean is_any = FALSE;

  for (guint i = 0; i < self->list->rows->len; i++)
    {
      Fields fields = { 0 };

      if (!fill (self, &g_array_index (self->list->rows, CroListRow, i), fields))
        continue;
      if (!is_any)
        writer = cro_table_writer_new (folder, id, error);
      is_any = TRUE;
      if (writer == NULL || !cro_table_writer_row (writer, fields, error))
        return FALSE;
    }
  return !is_any || cro_table_writer_finish (writer, error);
}

static void
remove_folder (const char *folder)
{
  static const CroTableId tables[] = { CRO_TABLE_OFFERS, CRO_TABLE_PRICES, CRO_TABLE_PURCHASES };

  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    {
      g_autofree char *file = g_strconcat (cro_table_get (tables[i])->name, ".csv", NULL);
      g_autofree char *path = g_build_filename (folder, file, NULL);

      g_remove (path);
    }
  g_rmdir (folder);
}

CroAdded *
cro_price_list_post (const CroPriceList *self,
                     CroModel           *model,
                     const char         *path,
                     const char         *desk,
                     const char         *label,
                     CroFaults          *faults,
                     GError            **error)
{
  Posting posting = { self, model };
  g_autofree char *folder = g_dir_make_tmp ("croustade-XXXXXX", error);
  CroAdded *added = NULL;

  if (folder == NULL)
    return NULL;
  if (write_table (&posting, folder, CRO_TABLE_OFFERS, fill_offer, error)
      && write_table (&posting, folder, CRO_TABLE_PRICES, fill_price, error)
      && write_table (&posting, folder, CRO_TABLE_PURCHASES, fill_purchase, error))
    added = cro_add (path, folder, desk, label, 0, NULL, NULL, faults, error);
  remove_folder (folder);
  return added;
}
