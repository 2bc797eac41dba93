/* cro-bought.h: what was bought of food and disposables, as purchases are booked.
 *
 * Units  Money of the book, net; amounts in base units of the ingredient. */
#pragma once

#include "cro-book.h"

G_BEGIN_DECLS

typedef struct
{
  CroDate date;         /* of delivery */
  guint32 item;         /* CRO_NO_SLOT: of no one ingredient */
  guint32 supplier;     /* CRO_NO_SLOT */
  double  amount;       /* NaN: not told, or it cannot be converted */
  double  net_value;
} CroBought;

/* Elements CroBought, from a day on and up to another. Owned; NULL with error. */
GArray *cro_bought_between (CroBook   *book,
                            CroDate    first,
                            CroDate    last,
                            GError   **error);

/* What a supplier delivered in those days: how many documents, and what they come to. Rows without a
 * document's number are one document a day. FALSE with error. */
gboolean cro_bought_of     (CroBook   *book,
                            guint32    supplier,
                            CroDate    first,
                            CroDate    last,
                            guint     *n_documents,
                            double    *net_value,
                            GError   **error);

G_END_DECLS
