/* cro-price-column.h: what a column beside the prices of a list holds, and whether that may change what is to be paid.
 *
 * The table is closed: a column is of a kind that is known by its heading, or cannot matter as it is empty, the same
 * as the prices or plain words, or the list is asked about. In English and in French; words are common practice, no
 * source. */
#pragma once

#include "cro-brought.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_COLUMN_UNKNOWN,
  CRO_COLUMN_REMARKS,  /* "Note", "Status", no heading: words, each of which may say something of its price */
  CRO_COLUMN_OTHER,    /* of the goods, of how they are ordered or kept; prices of others or of before */
  CRO_COLUMN_TAX,
  CRO_COLUMN_PRICE,    /* "Price", "Your offer" */
  CRO_COLUMN_CHANGE,   /* "Discount %": off the price */
  CRO_COLUMN_ADDED,    /* "Surcharge": on top of it; "Promo": in its place */
  CRO_COLUMN_HAD,      /* whether goods are to be had, or how many */
  CRO_COLUMN_FROM,     /* days from which the prices hold, and until which */
  CRO_COLUMN_UNTIL,
} CroColumnKind;

/* What a heading says that a column beside the prices holds. */
CroColumnKind cro_price_column_of_heading (const char       *heading);

/* Whether a column beside that of the prices may have what is to be paid, or change it. */
gboolean      cro_price_column_is_rival   (const CroBrought *brought,
                                           guint             price,
                                           guint             column);

/* Whether a heading of prices says that they are not what is to be paid: "Price before discount". */
gboolean      cro_price_column_is_before  (const char       *heading);

G_END_DECLS
