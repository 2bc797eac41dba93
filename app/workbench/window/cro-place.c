#include "config.h"

#include "cro-place.h"

#include <glib/gi18n.h>

static const CroPlaceInfo places[CRO_N_PLACES] = {
  [CRO_PLACE_PLATES] = {
    N_("Plates"), "cro-plates-symbolic", CRO_REF_MENU, N_("All plates"),
    2, { CRO_KIND_PLATE, CRO_KIND_MENU },
    { { N_("Add Plate"), "win.new-thing" }, { N_("Add Menu"), "win.new-menu" } },
  },
  [CRO_PLACE_PREPARATIONS] = {
    N_("Preparations"), "cro-preparations-symbolic", CRO_REF_RECIPE, N_("All preparations"),
    1, { CRO_KIND_PREPARATION }, { { N_("Add Preparation"), "win.new-thing" } },
  },
  [CRO_PLACE_LARDER] = {
    N_("Larder"), "cro-larder-symbolic", CRO_REF_ITEM, N_("All ingredients"),
    1, { CRO_KIND_INGREDIENT }, { { N_("Add Ingredient"), "win.new-thing" } },
  },
  [CRO_PLACE_MARKET] = { N_("Market"), "cro-market-symbolic", CRO_REF_SUPPLIER, .all = NULL },
  [CRO_PLACE_MONTHS] = { N_("Months"), "cro-months-symbolic", CRO_REF_SALES, .all = NULL },
};

const CroPlaceInfo *
cro_place_get (CroPlace place)
{
  return &places[place];
}
