/* Whose price a line is: the ingredient and the supplier's pack, by its code, its GTIN or its name. */
#include "config.h"

#include "cro-price-list-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-gtin.h"
#include "cro-number.h"
#include "cro-pack.h"

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

/* One without an id is but drafted. */
static gboolean
is_of_supplier (CroListMatching     *self,
                const CroOfferEntry *offer)
{
  return offer->supplier == self->of->supplier && !offer->is_dead && offer->id != 0;
}

static gboolean
is_given_up (CroListMatching     *self,
             const CroOfferEntry *offer)
{
  return offer->offer.has_until && offer->offer.until < self->list->from;
}

/* The packs that a line may be of, in words: "111 5 × 1 kg, 110 1 × 2 kg (bought until 2026-09-30)". */
static void
add_pack (CroListMatching *self,
          guint32          slot,
          GString         *packs)
{
  const CroOfferEntry *offer = cro_model_offer (self->model, slot);
  CroPack pack = cro_pack_of_offer (self->model, slot);
  g_autofree char *size = cro_pack_to_text (&pack), *text = g_strdup_printf ("%s %s", offer->code, size), *day = NULL;

  if (packs->len > 0)
    g_string_append (packs, ", ");
  if (!is_given_up (self, offer))
    {
      g_string_append (packs, text);
      return;
    }
  day = cro_date_to_text (offer->offer.until);
  /* Translators: a pack of a supplier's with its code, "110 1 × 2 kg", and a day. */
  g_string_append_printf (packs, _("%s (bought until %s)"), text, day);
}

static gboolean
is_of_size (CroListMatching *self,
            guint32          slot,
            const CroPack   *said)
{
  CroPack pack = cro_pack_of_offer (self->model, slot);

  return cro_list_is_pack (&pack, said) || cro_list_counts_pack (&pack, said);
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

      if (!is_of_supplier (self, offer) || (row->code != NULL && *offer->code != '\0'))
        continue;
      if (is_given_up (self, offer))
        {
          CroPack pack = cro_pack_of_offer (self->model, slot);

          if (*offer->code != '\0' && said.size > 0 && self->list->source != CRO_LIST_INVOICE
              && cro_list_is_pack (&pack, &said))
            given_up = slot;
          continue;
        }
      if (said.size > 0 && is_of_size (self, slot, &said))
        {
          row->offer = slot;
          return;
        }
      add_pack (self, slot, packs);
      only = slot;
      n++;
    }
  if (n > 0 && given_up != CRO_NO_SLOT)
    {
      add_pack (self, given_up, packs);
      n++;
    }
  if (n == 1)
    row->offer = only;
  else if (n > 1)
    cro_list_row_say (self->list, row, CRO_LIST_WHICH_PACK, packs->str, NULL);
}

/* A size that is not that of the code, and is that of another one: who gets the order goes by the code. */
void
cro_list_check_size (CroListMatching *self,
                     CroListRow      *row)
{
  const CroItem *item = cro_model_item (self->model, row->item);
  const CroPack own = cro_pack_of_offer (self->model, row->offer);
  g_autoptr (GString) packs = g_string_new (NULL);
  gboolean is_of_other = FALSE;

  if (self->list->source == CRO_LIST_INVOICE || row->pack.size == 0 || is_of_size (self, row->offer, &row->pack)
      || (row->is_per_measure && cro_list_is_stated_per (&own, &row->pack)))
    return;
  add_pack (self, row->offer, packs);
  for (guint32 i = 0; i < item->n_offers; i++)
    {
      guint32 slot = g_array_index (self->model->offer_order, guint32, item->first_offer + i);

      if (slot == row->offer || !is_of_supplier (self, cro_model_offer (self->model, slot))
          || !is_of_size (self, slot, &row->pack))
        continue;
      add_pack (self, slot, packs);
      is_of_other = TRUE;
    }
  if (is_of_other)
    cro_list_row_say (self->list, row, CRO_LIST_WHICH_PACK, packs->str,
                      cro_model_offer (self->model, row->offer)->code);
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
  return TRUE;
}

static gboolean
find_unnamed (CroListMatching *self,
              CroListRow      *row)
{
  if (!find_by_code (self, row) && !find_by_gtin (self, row))
    return find_by_name (self, row);
  check_name (self, row);
  return TRUE;
}

gboolean
cro_list_row_find (CroListMatching *self,
                   CroListRow      *row)
{
  if (!(row->is_named ? find_named (self, row) : find_unnamed (self, row)))
    return FALSE;
  if (row->offer != CRO_NO_SLOT)
    cro_list_check_size (self, row);
  else
    choose_offer (self, row);
  if (!row->is_named)
    cro_list_check_code (self, row);
  return TRUE;
}
