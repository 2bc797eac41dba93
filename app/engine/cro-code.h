/* cro-code.h: the words that tables and the store have for one of a few kinds.
 *
 * Each set of words stands here once; what reads, writes, offers or translates them takes this list.
 * The schema has to repeat them in its CHECKs, and a test compares it with these.
 *
 * Ownership  Static; every list ends in NULL. */
#pragma once

#include <stdbool.h>

#include "cro-batch.h"
#include "cro-unit.h"

#define CRO_N_RULES (CRO_RULE_CREDIT + 1)
#define CRO_N_PURCHASE_KINDS 3

typedef enum
{
  CRO_ADJUSTMENT_STAFF_MEAL,
  CRO_ADJUSTMENT_PROMOTION,
  CRO_ADJUSTMENT_WASTE,
  CRO_ADJUSTMENT_TRANSFER_IN,
  CRO_ADJUSTMENT_TRANSFER_OUT,
  CRO_ADJUSTMENT_OTHER,
  CRO_N_ADJUSTMENT_KINDS,
} CroAdjustmentKind;

extern const char *const cro_base_codes[];             /* in the order of CroBase */
extern const char *const cro_rule_codes[CRO_N_RULES + 1]; /* in that of CroRule */

extern const char *const cro_ingredient_kind_codes[];  /* food first */
extern const char *const cro_quote_codes[];
extern const char *const cro_role_codes[];             /* the main output first */
extern const char *const cro_weighing_codes[];         /* as bought, trimmed */
extern const char *const cro_speaks_codes[];           /* how a kitchen speaks of what plates cost */
extern const char *const cro_price_habit_codes[];      /* selling prices that a kitchen rounds to */
extern const char *const cro_sale_kind_codes[];        /* plate, menu, other */
extern const char *const cro_till_kind_codes[];        /* those, and none: left out of the sales */
extern const char *const cro_purchase_kind_codes[CRO_N_PURCHASE_KINDS + 1];
extern const char *const cro_adjustment_kind_codes[CRO_N_ADJUSTMENT_KINDS + 1]; /* in that of CroAdjustmentKind */

/* Kinds of the rows that closing a month freezes, and of their parts. */
extern const char *const cro_frozen_kind_codes[];
extern const char *const cro_frozen_part_codes[];

/* Where a word stands in its list. false: it is not in it, or NULL; *index stays. */
bool cro_code_find (const char *const *codes,
                    const char        *text,
                    unsigned          *index);
