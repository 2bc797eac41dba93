/* cro-month-edit.h: what people enter of a month, each change one act.
 *
 * A row whose id is 0 is made; another's is changed. Nothing of a closed month is: only purchases may
 * come late, and count in the first open one.
 *
 * Units      Money, amounts and numbers sold in millionths; CRO_NOT_SET where nothing was entered.
 * Ownership  Texts are read during the call only; NULL: none.
 * Errors     CRO_EDIT_ERROR (CLOSED), CRO_REFUSAL or CRO_STORE_ERROR; then nothing was changed. */
#pragma once

#include "cro-edit.h"
#include "cro-month-entries.h"

G_BEGIN_DECLS

/* Sold below 0 is a void, 0 a refund, which is revenue alone. */
typedef struct
{
  gint64      id;
  CroDate     date;
  CroRef      thing;        /* a plate or a menu; CRO_REF_NOWHERE: other says what was sold */
  const char *other;
  gint64      sold;
  gint64      revenue;      /* without tax; CRO_NOT_SET: at the price of its day */
} CroSaleEntry;

gboolean cro_month_put_sales      (CroBook                  *book,
                                   const char               *label,
                                   const CroSaleEntry       *entries,
                                   guint                     n,
                                   GError                  **error);

typedef struct
{
  gint64      id;
  CroDate     date;
  guint32     item;
  gint64      amount;
  CroUnit     unit;
  const char *place;
} CroCountEntry;

gboolean cro_month_put_counts     (CroBook                  *book,
                                   const char               *label,
                                   const CroCountEntry      *entries,
                                   guint                     n,
                                   GError                  **error);

typedef struct
{
  gint64      id;
  CroDate     date;
  guint       kind;         /* in the order of cro_adjustment_kind_codes */
  guint32     item;         /* CRO_NO_SLOT: none */
  gint64      amount;
  CroUnit     unit;
  gint64      value;
  const char *note;
} CroAdjustmentEntry;

gboolean cro_month_put_adjustment (CroBook                  *book,
                                   const char               *label,
                                   const CroAdjustmentEntry *entry,
                                   GError                  **error);

/* One line of a document. */
typedef struct
{
  gint64      id;
  const char *supplier;
  const char *number;
  CroDate     delivered;
  guint32     ingredient;   /* CRO_NO_SLOT: words say what was bought, of kind other */
  const char *words;
  gint64      amount;       /* CRO_NOT_SET: not entered */
  CroUnit     unit;
  gint64      value;
} CroPurchaseEntry;

/* An invoice or a delivery note: one row of table purchases for each kind of what it bills. */
typedef struct
{
  const char *supplier;     /* made where nobody bears the name */
  const char *number;
  CroDate     delivered;
  CroDate     dated;        /* CRO_NO_DAY: not entered */
  gint64      values[CRO_N_PURCHASE_KINDS]; /* net, below 0 of a credit note */
  GArray     *lines;        /* CroPurchaseEntry, borrowed: what of these values bills an ingredient, of a document
                             * that is new; NULL: none */
} CroDocumentEntry;

/* id: one of the rows that it has already; 0: it is new. Where it has lines its values stay theirs. */
gboolean cro_month_put_document   (CroBook                  *book,
                                   const char               *label,
                                   gint64                    id,
                                   const CroDocumentEntry   *entry,
                                   GError                  **error);

/* A new line is taken from what the document has of its kind as one sum: what is left of that stays. */
gboolean cro_month_put_purchase   (CroBook                  *book,
                                   const char               *label,
                                   const CroPurchaseEntry   *entry,
                                   GError                  **error);

/* The document that a row of purchases stands on, with the sums of its rows. */
typedef struct
{
  CroDocumentEntry entry;   /* its texts live as long as the document */
  GArray          *ids;     /* gint64: all its rows */
  gint64           whole[CRO_N_PURCHASE_KINDS]; /* the row that is one sum; 0: none */
  gboolean         has_lines;
  GStringChunk    *texts;
} CroDocument;

/* NULL with error, or without one where the row is gone. */
CroDocument *cro_document_new     (CroBook                  *book,
                                   gint64                    id,
                                   GError                  **error);
void         cro_document_free    (CroDocument              *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroDocument, cro_document_free)

/* Within an act that is open: rows of each kind, documents that are new, and rows that go. */
gboolean cro_month_write_sales    (CroBook                  *book,
                                   const CroSaleEntry       *entries,
                                   guint                     n,
                                   GError                  **error);
gboolean cro_month_write_counts   (CroBook                  *book,
                                   const CroCountEntry      *entries,
                                   guint                     n,
                                   GError                  **error);
gboolean cro_month_write_adjustments (CroBook                  *book,
                                   const CroAdjustmentEntry *entries,
                                   guint                     n,
                                   GError                  **error);
gboolean cro_month_write_documents (CroBook                 *book,
                                   const CroDocumentEntry   *entries,
                                   guint                     n,
                                   GError                  **error);
gboolean cro_month_delete_rows    (CroBook                  *book,
                                   const char               *table,
                                   GArray                   *ids,
                                   GError                  **error);

/* Rows of one of the tables sale, stock_count, purchase and adjustment. Elements gint64. */
gboolean cro_month_remove         (CroBook                  *book,
                                   const char               *label,
                                   const char               *table,
                                   GArray                   *ids,
                                   GError                  **error);

/* What a month's sales come to with tax, which a till may say alone: the net revenue of each row with the
 * tax of its day, or else its number at the selling price. Money; *is_whole: a price was known for all of
 * them. */
gboolean cro_month_gross_sales    (CroBook                  *book,
                                   CroDate                   first,
                                   double                   *gross,
                                   gboolean                 *is_whole,
                                   GError                  **error);

/* A number that table months has of a month: "till_net_revenue_micro", "till_gross_revenue_micro",
 * "ledger_purchases_micro", "closing_stock_value_micro". */
gboolean cro_month_set            (CroBook                  *book,
                                   const char               *label,
                                   CroDate                   first,
                                   const char               *column,
                                   gint64                    value,
                                   GError                  **error);

G_END_DECLS
