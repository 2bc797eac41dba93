#include "cro-code.h"

#include <string.h>

const char *const cro_base_codes[] = {
  [CRO_BASE_GRAM] = "g", [CRO_BASE_MILLILITRE] = "ml", [CRO_BASE_EACH] = "each", NULL,
};

const char *const cro_ingredient_kind_codes[] = { "food", "disposable", NULL };
const char *const cro_quote_codes[] = { "pack", "base unit", NULL };
const char *const cro_role_codes[] = { "main", "by-product", NULL };
const char *const cro_weighing_codes[] = { "whole", "trimmed", NULL };
const char *const cro_speaks_codes[] = { "food-cost", "gross-profit", "coefficient", NULL };
const char *const cro_price_habit_codes[] = { "half", "ninety-five", "whole", NULL };
const char *const cro_sale_kind_codes[] = { "plate", "menu", "other", NULL };
const char *const cro_till_kind_codes[] = { "plate", "menu", "other", "none", NULL };
const char *const cro_purchase_kind_codes[CRO_N_PURCHASE_KINDS + 1] = { "food", "disposable", "other", NULL };

const char *const cro_adjustment_kind_codes[CRO_N_ADJUSTMENT_KINDS + 1] = {
  [CRO_ADJUSTMENT_STAFF_MEAL] = "staff-meal",
  [CRO_ADJUSTMENT_PROMOTION] = "promotion",
  [CRO_ADJUSTMENT_WASTE] = "waste",
  [CRO_ADJUSTMENT_TRANSFER_IN] = "transfer-in",
  [CRO_ADJUSTMENT_TRANSFER_OUT] = "transfer-out",
  [CRO_ADJUSTMENT_OTHER] = "other",
};

const char *const cro_frozen_kind_codes[] = {
  "plate", "menu", "other", "statement", "count", "purchase", "adjustment", NULL,
};

const char *const cro_frozen_part_codes[] = { "food", "disposable", "by-product", "plate", NULL };

bool
cro_code_find (const char *const *codes,
               const char        *text,
               unsigned          *index)
{
  for (unsigned i = 0; text != NULL && codes[i] != NULL; i++)
    if (strcmp (codes[i], text) == 0)
      {
        *index = i;
        return true;
      }
  return false;
}
