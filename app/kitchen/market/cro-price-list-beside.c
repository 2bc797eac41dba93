/* A pack that the supplier has not sold so far, beside those that are sold of the same ingredient. */
#include "cro-price-list-private.h"

#include "cro-pack.h"

#include <math.h>
#include <string.h>

/* One without an id is but drafted. */
static gboolean
is_sold (const CroOfferEntry *offer)
{
  return !offer->is_dead && offer->id != 0 && (offer->offer.has_price || offer->offer.had_price);
}

/* --- Prices ---------------------------------------------------------------------------------------------- */

typedef struct
{
  CroLook look;
  guint32 offer;     /* CRO_NO_SLOT: nothing to compare with */
} Beside;

static double
distance_of (const CroLook *look)
{
  return look->kind == CRO_LOOK_NOTHING ? 0 : fabs (log (look->ratio));
}

/* The pack whose price per base unit is nearest: the supplier's own, or another's. */
static Beside
nearest (CroListMatching *self,
         const CroListRow *row,
         gboolean          is_own)
{
  const CroItem *item = cro_model_item (self->model, row->item);
  const CroMeasure *measure = &self->model->measures[row->item];
  CroOffer then = cro_list_offer_of (self, row);
  Beside best = { .offer = CRO_NO_SLOT };

  then.rate = cro_list_rate_of (self, row->currency);
  for (guint32 i = 0; i < item->n_offers; i++)
    {
      guint32 slot = g_array_index (self->model->offer_order, guint32, item->first_offer + i);
      const CroOfferEntry *entry = cro_model_offer (self->model, slot);
      CroLook look;

      if (!is_sold (entry) || (entry->supplier == self->of->supplier) != is_own)
        continue;
      look = cro_second_look_beside (&entry->offer, &then, measure);
      if (isfinite (look.ratio) && look.ratio > 0
          && (best.offer == CRO_NO_SLOT || distance_of (&look) < distance_of (&best.look)))
        best = (Beside){ look, slot };
    }
  return best;
}

/* "103, 1 kg"; of another supplier's "Mill Lane, 1 kg". */
static char *
dup_pack (CroListMatching *self,
          guint32          slot)
{
  const CroOfferEntry *entry = cro_model_offer (self->model, slot);
  CroPack pack = cro_pack_of_offer (self->model, slot);
  g_autofree char *text = cro_pack_to_short_text (&pack);
  const char *called = entry->supplier == self->of->supplier
                           ? entry->code : g_array_index (self->model->suppliers, CroSupplier, entry->supplier).name;

  return *called != '\0' ? g_strdup_printf ("%s, %s", called, text) : g_steal_pointer (&text);
}

void
cro_list_look_beside (CroListMatching *self,
                      CroListRow      *row)
{
  Beside beside = nearest (self, row, TRUE);
  g_autofree char *pack = NULL;

  if (beside.offer == CRO_NO_SLOT)
    beside = nearest (self, row, FALSE);
  if (beside.offer == CRO_NO_SLOT || beside.look.kind == CRO_LOOK_NOTHING)
    return;
  row->look = beside.look;
  pack = dup_pack (self, beside.offer);
  cro_list_row_say (self->list, row, CRO_LIST_LOOK, pack, NULL);
}

/* --- Codes ----------------------------------------------------------------------------------------------- */

/* Letters and digits alone, as a spreadsheet leaves them that takes a code for a number. */
static char *
dup_bare (const char *code)
{
  GString *bare = g_string_new (NULL);

  for (const char *at = code; *at != '\0'; at++)
    if (((guchar) *at >= 0x80 || g_ascii_isalnum (*at)) && !(*at == '0' && bare->len == 0))
      g_string_append_c (bare, g_ascii_toupper (*at));
  return g_string_free (bare, FALSE);
}

void
cro_list_check_code (CroListMatching *self,
                     CroListRow      *row)
{
  const CroItem *item = cro_model_item (self->model, row->item);
  g_autofree char *bare = row->code != NULL && row->offer == CRO_NO_SLOT ? dup_bare (row->code) : NULL;

  for (guint32 i = 0; bare != NULL && *bare != '\0' && i < item->n_offers; i++)
    {
      guint32 slot = g_array_index (self->model->offer_order, guint32, item->first_offer + i);
      const CroOfferEntry *entry = cro_model_offer (self->model, slot);
      g_autofree char *other = dup_bare (entry->code), *pack = NULL;

      if (entry->supplier != self->of->supplier || entry->is_dead || entry->id == 0 || strcmp (bare, other) != 0)
        continue;
      pack = dup_pack (self, slot);
      cro_list_row_say (self->list, row, CRO_LIST_CODE_LIKE, pack, entry->code);
      return;
    }
}
