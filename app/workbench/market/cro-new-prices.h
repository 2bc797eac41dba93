/* cro-new-prices.h: the sheet on which new prices of one supplier are typed, pasted or read from a file,
 * with what they do beside them, and posted together.
 *
 * It covers Market's bench until it is left; what is not posted then is set aside, in the person's state,
 * and taken up again when the sheet of that supplier is opened. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_NEW_PRICES (cro_new_prices_get_type ())
G_DECLARE_FINAL_TYPE (CroNewPrices, cro_new_prices, CRO, NEW_PRICES, GtkWidget)

/* Opens the sheet of a supplier, by slot, over a bench of the market. */
void  cro_new_prices_open        (CroBench    *market,
                                  guint32      supplier);

/* The same, and takes a file into it: a price list, a message or an invoice. */
void  cro_new_prices_open_file   (CroBench    *market,
                                  guint32      supplier,
                                  const char  *path);

/* The same with a text, as it was pasted. */
void  cro_new_prices_open_text   (CroBench    *market,
                                  guint32      supplier,
                                  const char  *text);

/* What was set aside of the supplier, in words; NULL: nothing. Owned. */
char *cro_new_prices_dup_aside_words (CroBook *book,
                                      guint32  supplier);

G_END_DECLS
