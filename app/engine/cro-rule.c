#include "cro-rule.h"

const char *const cro_rule_codes[CRO_N_RULES + 1] = {
  [CRO_RULE_FREE] = "free",
  [CRO_RULE_WEIGHT] = "weight",
  [CRO_RULE_VALUE] = "value",
  [CRO_RULE_CREDIT] = "credit",
};

const CroByProducts cro_rule_by_products[CRO_N_RULES] = {
  [CRO_RULE_FREE] = CRO_BY_PRODUCTS_CARRY_NONE,
  [CRO_RULE_WEIGHT] = CRO_BY_PRODUCTS_SHARE_BY_WEIGHT,
  [CRO_RULE_VALUE] = CRO_BY_PRODUCTS_SHARE_BY_VALUE,
  [CRO_RULE_CREDIT] = CRO_BY_PRODUCTS_TAKE_VALUE,
};
