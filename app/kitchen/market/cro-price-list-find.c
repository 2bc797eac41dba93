/* Whose price a line is: the ingredient and the supplier's pack, by its code, its GTIN or its name. */
#include "cro-price-list-private.h"

#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-gtin.h"
#include "cro-pack.h"

#include <string.h>

static guint32
look_up (GHashTable *table,
         const char *name)
{
  guint found = name != NULL ? GPOINTER_TO_UINT (g_hash_table_lookup (table, name)) : 0;

  return found > 0 ? found - 1 : CRO_NO_SLOT;
}

static void
take_offer (CroListMatching *self,
            CroListRow      *row,
            guint32          offer)
{
  row->offer = offer;
  row->item = cro_model_offer (self->model, offer)->item;
}

static gboolean
find_by_code (CroListMatching *self,
              CroListRow      *row)
{
  guint32 offer = look_up (self->of->codes, row->code);

  if (offer != CRO_NO_SLOT)
    take_offer (self, row, offer);
  else if (row->code != NULL && g_hash_table_contains (self->of->codes, row->code))
    cro_list_row_say (self->list, row, CRO_LIST_WHICH_CODE, NULL, NULL);
  return offer != CRO_NO_SLOT;
}

static gboolean
find_by_gtin (CroListMatching *self,
              CroListRow      *row)
{
  char wide[CRO_GTIN_DIGITS + 1];
  guint32 offer;

  if (row->gtin == NULL)
    return FALSE;
  if (!cro_gtin_is_sound (row->gtin, strlen (row->gtin)))
    {
      cro_list_row_say (self->list, row, CRO_LIST_GTIN_WRONG, row->gtin, NULL);
      return FALSE;
    }
  cro_gtin_widen (row->gtin, strlen (row->gtin), wide);
  offer = look_up (self->of->gtins, wide);
  if (offer != CRO_NO_SLOT)
    take_offer (self, row, offer);
  else
    row->item = look_up (self->of->gtins_of_all, wide);
  return row->item != CRO_NO_SLOT;
}

static guint32
item_of_name (CroListMatching *self,
              const char      *name)
{
  g_autofree char *folded = NULL, *one = NULL;
  guint32 item;

  if (name == NULL)
    return CRO_NO_SLOT;
  item = look_up (self->of->spellings, name);
  if (item != CRO_NO_SLOT)
    return item;
  folded = cro_fold (name);
  item = look_up (self->of->names, *folded != '\0' ? folded : name);
  if (item != CRO_NO_SLOT)
    return item;
  one = cro_fold_number (folded);
  return look_up (self->of->names_in_number, one);
}

static gboolean
find_by_name (CroListMatching *self,
              CroListRow      *row)
{
  row->item = item_of_name (self, row->name);
  return row->item != CRO_NO_SLOT;
}

/* A code that was given to something else, or mistyped: the name is another ingredient's. */
static void
check_name (CroListMatching *self,
            CroListRow      *row)
{
  guint32 named = item_of_name (self, row->name);

  if (named != CRO_NO_SLOT && named != row->item)
    cro_list_row_say (self->list, row, CRO_LIST_OTHER_NAME, cro_model_item (self->model, named)->name,
                      cro_model_item (self->model, row->item)->name);
}

static void
add_pack (CroModel *model,
          guint32   slot,
          GString  *packs)
{
  CroPack pack = cro_pack_of_offer (model, slot);
  g_autofree char *text = cro_pack_to_text (&pack);

  g_string_append_printf (packs, "%s%s %s", packs->len > 0 ? ", " : "", cro_model_offer (model, slot)->code, text);
}

/* Of several packs of an ingredient that of the line's size, else the only one that is to be had. A line
 * with a code that the supplier has not used yet is a new pack. Of the size of one that was given up, under a code of
 * its own, it may be that one. */
static void
choose_offer (CroListMatching *self,
              CroListRow      *row)
{
  const CroItem *item = cro_model_item (self->model, row->item);
  const CroPack said = row->counted.size > 0 ? row->counted
                       : row->has_per && row->pack.size == 0 ? (CroPack){ CRO_MICRO, CRO_MICRO, row->per }
                                                             : row->pack;
  g_autoptr (GString) packs = g_string_new (NULL);
  guint32 only = CRO_NO_SLOT, given_up = CRO_NO_SLOT;
  guint n = 0;

  for (guint32 i = 0; i < item->n_offers; i++)
    {
      guint32 slot = g_array_index (self->model->offer_order, guint32, item->first_offer + i);
      const CroOfferEntry *offer = cro_model_offer (self->model, slot);
      CroPack pack;

      /* One without an id is but drafted. */
      if (offer->supplier != self->of->supplier || offer->is_dead || offer->id == 0
          || (row->code != NULL && *offer->code != '\0'))
        continue;
      pack = cro_pack_of_offer (self->model, slot);
      if (offer->offer.has_until && offer->offer.until < self->list->from)
        {
          if (*offer->code != '\0' && said.size > 0 && self->list->source != CRO_LIST_INVOICE
              && cro_list_is_pack (&pack, &said))
            given_up = slot;
          continue;
        }
      if (said.size > 0 && (cro_list_is_pack (&pack, &said) || cro_list_counts_pack (&pack, &said)))
        {
          row->offer = slot;
          return;
        }
      add_pack (self->model, slot, packs);
      only = slot;
      n++;
    }
  if (n > 0 && given_up != CRO_NO_SLOT)
    {
      add_pack (self->model, given_up, packs);
      n++;
    }
  if (n == 1)
    row->offer = only;
  else if (n > 1)
    cro_list_row_say (self->list, row, CRO_LIST_WHICH_PACK, packs->str, NULL);
}

/* Of what was said to be whose price it is: the supplier's pack of that code, if it is one of that ingredient. */
static gboolean
find_named (CroListMatching *self,
            CroListRow      *row)
{
  guint32 offer = look_up (self->of->codes, row->code);

  if (!find_by_name (self, row))
    return FALSE;
  if (offer != CRO_NO_SLOT && cro_model_offer (self->model, offer)->item == row->item)
    row->offer = offer;
  else
    choose_offer (self, row);
  return TRUE;
}

gboolean
cro_list_row_find (CroListMatching *self,
                   CroListRow      *row)
{
  if (row->is_named)
    return find_named (self, row);
  if (find_by_code (self, row))
    {
      check_name (self, row);
      return TRUE;
    }
  if (find_by_gtin (self, row))
    check_name (self, row);
  else if (!find_by_name (self, row))
    return FALSE;
  if (row->offer == CRO_NO_SLOT)
    choose_offer (self, row);
  cro_list_check_code (self, row);
  return TRUE;
}
