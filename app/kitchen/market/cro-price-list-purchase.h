/* cro-price-list-purchase.h: what a line of an invoice is as a purchase.
 *
 * Units      Millionths; net value in the book's currency, rounded to its minor unit where it was in
 *            another. */
#pragma once

#include "cro-price-list-private.h"

G_BEGIN_DECLS

typedef struct
{
  guint32 item;        /* CRO_NO_SLOT: a deposit, carriage */
  guint   kind;        /* index of cro_purchase_kind_codes */
  gint64  amount;      /* in unit; 0: not told */
  CroUnit unit;
  gint64  net_value;
  gboolean is_goods;   /* of an ingredient, which may be made in the act that books it */
} CroListPurchase;

/* Whether the document's money is in another currency than the book's. */
gboolean  cro_list_is_foreign     (const CroPriceList *list,
                                   CroModel           *model);

/* FALSE: too large, or there is no rate for the day of delivery. Amount is 0 where nothing
 * is known of what the row counts. */
gboolean  cro_list_purchase_of    (const CroPriceList *list,
                                   CroModel           *model,
                                   const CroListRow   *row,
                                   CroListPurchase    *purchase);

/* The number of a document without what tells two of one document apart: case, blanks, what is not seen. Owned. */
char     *cro_list_dup_number_key (const char         *number);

/* Whether the book has purchases of the supplier's document, and which of its lines they are. FALSE with
 * error. */
gboolean  cro_list_purchases_look (CroPriceList       *list,
                                   CroBook            *book,
                                   GError            **error);

/* Another supplier for whom the book has purchases of a document of that number; CRO_NO_SLOT. FALSE with
 * error. */
gboolean  cro_list_purchases_find (const CroPriceList *list,
                                   CroBook            *book,
                                   guint32            *supplier,
                                   GError            **error);

/* What a line that is no ingredient is booked as, so that the next one of its code is known: "Linen hire (L-20)".
 * Owned; NULL: it has neither a name nor a code. */
char     *cro_list_dup_category   (const CroListRow   *row);

/* Into of: what the book has of the supplier that is no ingredient. FALSE with error. */
gboolean  cro_list_purchases_recall (CroListBook      *of,
                                   GError            **error);

/* What was said of an earlier line with the row's code, or of its name; CRO_LIST_GOODS_UNSAID: nothing was. */
CroListGoods cro_list_recall_goods (const CroListBook *of,
                                   const CroListRow   *row);

/* Whether an earlier document of the supplier's, delivered until that day, was booked in as many of that piece, which
 * is one alone. FALSE with error. */
gboolean  cro_list_was_counted    (const CroListMatching *self,
                                   guint32             item,
                                   const CroPack      *piece,
                                   CroDate             until,
                                   gboolean           *was_counted,
                                   GError            **error);

/* Whether a price of an ingredient, by its id, was posted with a document that is booked; delivered, which may be NULL:
 * the day of that, and before, which is NULL where it is: the last of those that the same row had until then, each
 * CRO_NO_DAY where nothing says so. FALSE with error. */
gboolean  cro_list_was_billed     (const CroListMatching *self,
                                   guint32             item,
                                   gint64              price,
                                   gboolean           *was_billed,
                                   CroDate            *delivered,
                                   CroDate            *before,
                                   GError            **error);

G_END_DECLS
