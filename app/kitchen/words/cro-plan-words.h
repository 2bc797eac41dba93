/* cro-plan-words.h: the sheets of a service as plain text: what to make, for the kitchen; what to
 * order, a text for each supplier, to be sent.
 *
 * Ownership  Texts are the caller's to free. */
#pragma once

#include "cro-service-plan.h"

G_BEGIN_DECLS

/* A plan with what it was asked for. All borrowed. */
typedef struct
{
  CroServicePlan   *plan;
  const CroService *service;
  const char       *name;   /* "dinner"; NULL: covers were given without a day */
  CroDate           day;
} CroServiceSheet;

/* "dinner, 14 Feb 2026". */
char *cro_words_service      (const CroServiceSheet *sheet);

/* "Tide 20, Oysters 8". */
char *cro_words_covers       (const CroServiceSheet *sheet);

/* "With seasoning and handling, 2 %." where any plate that is planned has such; else NULL. */
char *cro_words_plan_allowance (CroModel              *model,
                                const CroService      *service);

/* Preparations in an order of making, each with what its batches take and give. */
char *cro_words_make_sheet   (const CroServiceSheet *sheet);

/* Packs of one supplier: no prices, as it is for others to read. */
char *cro_words_order_sheet  (const CroServiceSheet *sheet,
                              const CroPlanOrder    *order);

/* All orders to be sent, a text each, and then what is in none of them: what no pack is to be had of, and what costs
 * nothing. Elements are owned by the array. */
GPtrArray *cro_words_order_sheets (const CroServiceSheet *sheet);

/* "1 × 5 kg, code 101"; of what nobody delivers since when, or NULL. */
char *cro_words_order_pack   (CroModel              *model,
                              const CroPlanBuy      *buy);

/* What a supplier asks for beside the sum, NULL where nothing: "minimum order 50.00: 6.20 short",
 * "delivery charge 4.00, not in the total". */
char *cro_words_order_minimum (CroModel             *model,
                              const CroPlanOrder    *order);
/* That there is no order, of packs that cost nothing; NULL: there is one. */
char *cro_words_order_free   (const CroPlanOrder    *order);
char *cro_words_order_charge (CroModel              *model,
                              const CroPlanOrder    *order);

G_END_DECLS
