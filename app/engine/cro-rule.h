/* cro-rule.h: what the by-product rules have in common, for all who have to tell them apart.
 *
 * A rule either shares a batch's cost among all outputs, or leaves it to the main one; and then
 * by-products cost nothing, or take a value off it. */
#pragma once

#include "cro-batch.h"

/* Each output carries a part, in proportion to what cro-batch.c weighs it by. */
static inline bool
cro_rule_shares (CroRule rule)
{
  return rule == CRO_RULE_WEIGHT || rule == CRO_RULE_VALUE;
}

/* By-products carry nothing, and so need neither amount nor value. */
static inline bool
cro_rule_frees (CroRule rule)
{
  return rule == CRO_RULE_FREE;
}

/* By-products cost what they are worth, which the main output is credited with. */
static inline bool
cro_rule_credits (CroRule rule)
{
  return rule == CRO_RULE_CREDIT;
}

/* An output costs by its own value, or by the part of all values that it has. */
static inline bool
cro_rule_needs_value (CroRule rule,
                      bool    is_main)
{
  return rule == CRO_RULE_VALUE || (cro_rule_credits (rule) && !is_main);
}
