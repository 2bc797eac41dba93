/* cro-rule.h: what the by-product rules have in common, for all who have to tell them apart.
 *
 * A rule either shares a batch's cost among all outputs, or leaves it to the main one; and then
 * by-products cost nothing, or take a value off it. Each rule is a row of one table (cro-rule.c). */
#pragma once

#include "cro-batch.h"
#include "cro-code.h"

typedef enum
{
  CRO_BY_PRODUCTS_CARRY_NONE,
  CRO_BY_PRODUCTS_SHARE_BY_WEIGHT,
  CRO_BY_PRODUCTS_SHARE_BY_VALUE,
  CRO_BY_PRODUCTS_TAKE_VALUE,    /* off the main output's cost */
} CroByProducts;

extern const CroByProducts cro_rule_by_products[CRO_N_RULES]; /* in the order of CroRule */

static inline bool
cro_rule_weighs (CroRule rule)
{
  return cro_rule_by_products[rule] == CRO_BY_PRODUCTS_SHARE_BY_WEIGHT;
}

static inline bool
cro_rule_values (CroRule rule)
{
  return cro_rule_by_products[rule] == CRO_BY_PRODUCTS_SHARE_BY_VALUE;
}

/* Each output carries a part, in proportion to what cro-batch.c weighs it by. */
static inline bool
cro_rule_shares (CroRule rule)
{
  return cro_rule_weighs (rule) || cro_rule_values (rule);
}

/* By-products carry nothing, and so need neither amount nor value. */
static inline bool
cro_rule_frees (CroRule rule)
{
  return cro_rule_by_products[rule] == CRO_BY_PRODUCTS_CARRY_NONE;
}

/* By-products cost what they are worth, which the main output is credited with. */
static inline bool
cro_rule_credits (CroRule rule)
{
  return cro_rule_by_products[rule] == CRO_BY_PRODUCTS_TAKE_VALUE;
}

/* An output costs by its own value, or by the part of all values that it has. */
static inline bool
cro_rule_needs_value (CroRule rule,
                      bool    is_main)
{
  return cro_rule_values (rule) || (cro_rule_credits (rule) && !is_main);
}
