#include "cro-sold-as.h"

CroFigure
cro_figure_of (CroFigures *figures,
               CroRef      thing)
{
  return thing.kind == CRO_REF_MENU ? cro_figure_of_menu (figures, thing.slot)
                                    : cro_figure_of_plate (figures, thing.slot);
}

GArray *
cro_causes_of (CroFigures *figures,
               CroRef      thing)
{
  return thing.kind == CRO_REF_MENU ? cro_causes_of_menu (figures, thing.slot)
                                    : cro_causes_of_plate (figures, thing.slot);
}

gint64
cro_sold_price (CroModel *model,
                CroRef    thing)
{
  return thing.kind == CRO_REF_MENU ? cro_model_menu (model, thing.slot)->price
                                    : cro_model_recipe (model, thing.slot)->price;
}

static gint64
own_tax (CroModel *model,
         CroRef    thing)
{
  return thing.kind == CRO_REF_MENU ? cro_model_menu (model, thing.slot)->tax
                                    : cro_model_recipe (model, thing.slot)->tax;
}

gboolean
cro_sold_has_tax (CroModel *model,
                  CroRef    thing)
{
  return own_tax (model, thing) != CRO_NOT_SET || model->tax != CRO_NOT_SET;
}

gint64
cro_sold_tax (CroModel *model,
              CroRef    thing,
              CroRef   *whose)
{
  gint64 own = own_tax (model, thing);

  if (whose != NULL)
    *whose = own != CRO_NOT_SET ? thing : CRO_REF (CRO_REF_HOUSE, CRO_NO_SLOT);
  return own != CRO_NOT_SET ? own : model->tax != CRO_NOT_SET ? model->tax : 0;
}

CroRef
cro_sold_as (CroFigures *figures,
             CroRef      thing)
{
  guint32 entry;

  if (thing.kind == CRO_REF_MENU || cro_sold_price (figures->model, thing) != CRO_NOT_SET)
    return thing;
  entry = cro_tightest_menu (figures, thing.slot);
  return entry != CRO_NO_SLOT
             ? CRO_REF (CRO_REF_MENU,
                        g_array_index (figures->model->menu_plates, CroMenuPlate, entry).menu)
             : thing;
}
