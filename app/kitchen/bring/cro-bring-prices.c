/* Rows of ingredients with their prices. */
#include "cro-bring-private.h"

#include "cro-brought-allergens.h"
#include "cro-brought-pack.h"
#include "cro-decimal.h"
#include "cro-doubt.h"
#include "cro-own-pack.h"
#include "cro-pack.h"
#include "cro-price-heading.h"

#include <string.h>

/* A price of nobody knows how much is left, and its ingredient comes without one; where a sign alone is asked
 * about, the row waits for the answer. */
static gboolean
leave_price (CroBringReader *self,
             guint           index,
             CroBringRow    *row,
             guint           column)
{
  const CroReadCell *cell = cro_brought_get (self->brought, index, column);
  g_autofree char *plain = cro_brought_dup_plain (self->brought, cell, column);

  if (plain == NULL)
    return cro_bring_fail (row, CRO_BRING_WHICH_SIGN, column);
  cro_bring_leave (row, CRO_BRING_NO_PACK, column);
  return TRUE;
}

/* Money, and for how much. */
static gboolean
read_money (CroBringReader *self,
            guint           index,
            CroBringRow    *row)
{
  guint column, pack_column;
  const CroReadCell *cell = cro_brought_get_role (self->brought, index, CRO_ROLE_PRICE, &column);
  gboolean has_pack = cro_brought_pack (self->brought, index, &row->pack, &pack_column);
  CroPricePer per = self->per;
  const char *rest = "";

  if (!has_pack)
    row->pack = (CroPack){ 0 };
  if (cell->kind == CRO_READ_CELL_EMPTY)
    return TRUE;
  if (cell->kind == CRO_READ_CELL_ERROR)
    return cro_bring_fail (row, CRO_BRING_CELL_ERROR, column);
  if (cro_bring_has_other_currency (self, cell->text) || self->is_other_currency)
    return cro_bring_fail (row, CRO_BRING_OTHER_CURRENCY, column);
  if (!cro_brought_money (self->brought, cell, column, &row->price, &rest) || row->price < 0)
    return cro_bring_fail_number (self, row, cell, column, CRO_BRING_NOT_A_PRICE);
  if (!cro_brought_price_of_one (rest, &per, &row->price))
    return cro_bring_fail (row, CRO_BRING_NOT_A_PRICE, column);
  if (!has_pack && per.is_said)
    row->pack = (CroPack){ CRO_MICRO, CRO_MICRO, per.unit };
  else if (!has_pack)
    return leave_price (self, index, row, pack_column);
  else if (per.is_said && !cro_brought_price_of_pack (per.unit, &row->pack, &row->price))
    return leave_price (self, index, row, pack_column);
  row->has_price = TRUE;
  return TRUE;
}

gboolean
cro_bring_read_yield (CroBringReader *self,
                      guint           index,
                      CroBringRow    *row)
{
  guint column;
  const CroReadCell *cell = cro_brought_get_role (self->brought, index, CRO_ROLE_TRIM_YIELD, &column);

  if (cell->kind == CRO_READ_CELL_EMPTY)
    return TRUE;
  if (!cro_brought_number (self->brought, cell, column, &row->trim_yield, NULL) || row->trim_yield <= 0
      || row->trim_yield > 1000 * CRO_MICRO)
    {
      row->trim_yield = CRO_NOT_SET;
      return cro_bring_fail_number (self, row, cell, column, CRO_BRING_NOT_A_YIELD);
    }
  if (row->trim_yield <= CRO_MICRO && cell->kind != CRO_READ_CELL_PERCENT
      && strchr (cell->text, '%') == NULL)
    row->trim_yield *= 100;
  return TRUE;
}

/* What the book has stays as it is. */
static void
leave_yield_of_book (CroBringReader *self,
                     CroBringRow    *row)
{
  guint32 item = cro_bring_find_item (self, row->name);
  guint column;

  cro_brought_get_role (self->brought, 0, CRO_ROLE_TRIM_YIELD, &column);
  if (row->state == CRO_BRING_KNOWN && row->trim_yield != CRO_NOT_SET && item != CRO_NO_SLOT
      && self->model->measures[item].trim_yield != row->trim_yield)
    cro_bring_leave (row, CRO_BRING_YIELD_OF_BOOK, column);
}

static void
read_allergens (CroBringReader *self,
                guint           index,
                CroBringRow    *row)
{
  guint column;
  const CroReadCell *cell = cro_brought_get_role (self->brought, index, CRO_ROLE_ALLERGENS, &column);
  guint32 item = cro_bring_find_item (self, row->name), groups;

  if (cell->kind == CRO_READ_CELL_EMPTY)
    return;
  if (!cro_brought_allergens (cell->text, &groups))
    cro_bring_leave (row, CRO_BRING_NOT_AN_ALLERGEN, column);
  else if (row->state == CRO_BRING_NEW)
    row->allergens = (gint32) groups;
  else if (item != CRO_NO_SLOT && cro_model_item (self->model, item)->allergens != (gint32) groups)
    cro_bring_leave (row, CRO_BRING_ALLERGENS_OF_BOOK, column);
}

static gboolean
has_left (const CroBringRow *row,
          CroBringFault      fault)
{
  for (guint i = 0; i < row->n_left; i++)
    if (row->left[i].fault == fault)
      return TRUE;
  return FALSE;
}

/* Of an ingredient that stands in several rows all that any of them states, and nothing where one of them is not
 * understood. */
void
cro_bring_settle_prices (CroBringReader *self)
{
  g_autoptr (GHashTable) stated = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) unclear = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < self->bring->rows->len; i++)
    {
      const CroBringRow *row = &g_array_index (self->bring->rows, CroBringRow, i);
      guint before = row->name != NULL ? GPOINTER_TO_UINT (g_hash_table_lookup (stated, row->name)) : 0;

      if (row->state != CRO_BRING_NEW)
        continue;
      if (has_left (row, CRO_BRING_NOT_AN_ALLERGEN))
        g_hash_table_add (unclear, (gpointer) row->name);
      if (row->allergens >= 0)
        g_hash_table_insert (stated, (gpointer) row->name, GUINT_TO_POINTER (before | (guint) row->allergens));
    }
  for (guint i = 0; i < self->bring->rows->len; i++)
    {
      CroBringRow *row = &g_array_index (self->bring->rows, CroBringRow, i);
      gpointer all;

      if (row->state == CRO_BRING_NEW)
        row->allergens = !g_hash_table_contains (unclear, row->name)
                             && g_hash_table_lookup_extended (stated, row->name, NULL, &all)
                             ? (gint32) GPOINTER_TO_UINT (all) : -1;
    }
}

static gboolean
is_same_pack (const CroPack *a,
              const CroPack *b)
{
  return a->count == b->count && a->size == b->size && a->unit == b->unit;
}

static char *
dup_key (const char *name,
         const char *supplier,
         const char *code)
{
  return g_strjoin ("\n", name, supplier, code != NULL ? code : "", NULL);
}

static void
add_offers (CroBringReader *self)
{
  for (guint i = 0; i < self->model->offers->len; i++)
    {
      const CroOfferEntry *offer = cro_model_offer (self->model, i);

      if (!offer->is_dead)
        g_hash_table_insert (self->offers,
                             dup_key (cro_model_item (self->model, offer->item)->name,
                                      g_array_index (self->model->suppliers, CroSupplier,
                                                     offer->supplier).name, offer->code),
                             GUINT_TO_POINTER (i + 1));
    }
}

/* Against the price that the pack has, as every price that is typed. */
static void
look_at_price (CroBringReader *self,
               CroBringRow    *row)
{
  const CroOfferEntry *entry = cro_model_offer (self->model, row->offer);
  const CroMeasure *measure = &self->model->measures[entry->item];
  const CroOffer last = cro_own_pack_in_force (self->model, row->offer);
  CroOffer then = last;

  if (!(then.has_price || then.had_price) || then.price <= 0)
    return;
  row->before = then.price;
  if (!row->has_price)
    return;
  then.price = row->price;
  if (row->pack.size > 0)
    {
      then.pack_count = row->pack.count;
      then.pack_size = row->pack.size;
      then.pack_unit = row->pack.unit;
    }
  row->ratio = cro_offer_unit_cost (&then, measure) / cro_offer_unit_cost (&last, measure);
  row->is_doubtful = cro_doubt_is_jump (row->ratio);
}

static void
look_at_offer (CroBringReader *self,
               CroBringRow    *row)
{
  g_autofree char *key = dup_key (row->name, row->supplier, row->code);
  guint offer = GPOINTER_TO_UINT (g_hash_table_lookup (self->offers, key));
  CroPack pack;

  row->is_new_supplier = !g_hash_table_contains (self->suppliers_of_book, row->supplier);
  row->is_new_offer = offer == 0;
  if (row->is_new_offer)
    return;
  row->offer = offer - 1;
  look_at_price (self, row);
  if (row->pack.size == 0)
    return;
  pack = cro_pack_of_offer (self->model, offer - 1);
  row->is_other_pack = !is_same_pack (&pack, &row->pack);
}

void
cro_bring_begin_prices (CroBringReader *self)
{
  g_autofree char *currency = NULL;
  gboolean ignored;

  if (self->brought->headings >= 0)
    currency = cro_price_heading_dup_currency (cro_brought_get_role (self->brought, (guint) self->brought->headings,
                                                                     CRO_ROLE_PRICE, NULL)->text);
  self->is_other_currency = currency != NULL && cro_bring_has_other_currency (self, currency);
  add_offers (self);
  self->per = cro_brought_per_of_heading (self->brought, &ignored);
}

static gboolean
check_twice (CroBringReader *self,
             CroBringRow    *row)
{
  char *key = dup_key (row->name, row->supplier, row->code);
  guint before = GPOINTER_TO_UINT (g_hash_table_lookup (self->seen, key));
  guint column;

  if (before == 0)
    {
      g_hash_table_insert (self->seen, key, GUINT_TO_POINTER (row->number));
      return TRUE;
    }
  g_free (key);
  row->other = before;
  cro_brought_get_role (self->brought, 0, CRO_ROLE_NAME, &column);
  return cro_bring_fail (row, CRO_BRING_TWICE, column);
}

/* Whether a row has more than a name: titles of groups have no more. */
static gboolean
says_something (CroBringReader *self,
                guint           index)
{
  static const CroRole asked[] = { CRO_ROLE_PRICE, CRO_ROLE_PACK, CRO_ROLE_PACK_SIZE, CRO_ROLE_UNIT,
                                   CRO_ROLE_CODE, CRO_ROLE_SUPPLIER, CRO_ROLE_TRIM_YIELD };
  gboolean has_column = FALSE;

  for (guint i = 0; i < G_N_ELEMENTS (asked); i++)
    {
      if (cro_brought_get_role (self->brought, index, asked[i], NULL)->kind != CRO_READ_CELL_EMPTY)
        return TRUE;
      has_column |= cro_brought_has_role (self->brought, asked[i]);
    }
  return !has_column;
}

void
cro_bring_read_price (CroBringReader *self,
                      guint           index,
                      CroBringRow    *row)
{
  gboolean is_known, ignored;
  guint column;

  if (!says_something (self, index))
    return;
  row->name = cro_bring_read_name (self, index, CRO_ROLE_NAME, self->items, row, &is_known);
  if (row->name == NULL)
    {
      cro_brought_get_role (self->brought, index, CRO_ROLE_NAME, &column);
      /* A sum at the foot has a price and no name. */
      if (cro_brought_get_role (self->brought, index, CRO_ROLE_CODE, NULL)->kind != CRO_READ_CELL_EMPTY
          || row->fault != CRO_BRING_SOUND)
        cro_bring_fail (row, CRO_BRING_NO_NAME, column);
      return;
    }
  row->state = is_known ? CRO_BRING_KNOWN : CRO_BRING_NEW;
  row->supplier = cro_bring_read_name (self, index, CRO_ROLE_SUPPLIER, self->suppliers, row, &ignored);
  if (row->supplier == NULL)
    row->supplier = self->supplier;
  row->code = cro_bring_read_text (self, index, CRO_ROLE_CODE);
  row->code = row->code != NULL ? row->code : "";
  row->category = cro_bring_read_text (self, index, CRO_ROLE_CATEGORY);
  row->note = cro_bring_read_text (self, index, CRO_ROLE_NOTE);
  if (!read_money (self, index, row) || !cro_bring_read_yield (self, index, row))
    return;
  leave_yield_of_book (self, row);
  read_allergens (self, index, row);
  row->base = row->pack.size > 0 ? cro_unit_get (row->pack.unit)->base : CRO_BASE_GRAM;
  look_at_offer (self, row);
  check_twice (self, row);
}
