/* cro-cli-prices.h: what `prices` found, and how it is told. */
#pragma once

#include "cro-cli.h"
#include "cro-moved-plates.h"
#include "cro-price-list.h"

G_BEGIN_DECLS

typedef struct
{
  CroBook      *book;      /* before, on the day from which the prices hold */
  CroPriceList *list;
  char         *refused;   /* a sentence; NULL: it is not */
  GArray       *moved;     /* CroMovedPlate; NULL: nothing was posted */
} CroPricing;

/* FALSE with error if it could not be written. */
gboolean cro_cli_print_prices_json  (CroPricing  *pricing,
                                     GError     **error);
void     cro_cli_print_prices_table (CroPricing  *pricing);

G_END_DECLS
