#include "cro-ref.h"

static const char *
name_of_item (const CroModel *model,
              guint32         slot)
{
  return g_array_index (model->items, CroItem, slot).name;
}

const char *
cro_ref_name (const CroModel *model,
              CroRef          ref)
{
  /* A page without one thing on it: the market before a supplier is chosen. */
  if (ref.slot == CRO_NO_SLOT)
    return NULL;
  switch (ref.kind)
    {
    case CRO_REF_ITEM:
      return name_of_item (model, ref.slot);
    case CRO_REF_RECIPE:
      return g_array_index (model->recipes, CroRecipe, ref.slot).name;
    case CRO_REF_MENU:
      return g_array_index (model->menus, CroMenu, ref.slot).name;
    case CRO_REF_SUPPLIER:
      return g_array_index (model->suppliers, CroSupplier, ref.slot).name;
    case CRO_REF_OFFER:
      return cro_ref_name (model, CRO_REF (CRO_REF_SUPPLIER,
                                           g_array_index (model->offers, CroOfferEntry,
                                                          ref.slot).supplier));
    case CRO_REF_LINE:
      return name_of_item (model, model->lines.item[ref.slot]);
    default:
      return NULL;
    }
}
