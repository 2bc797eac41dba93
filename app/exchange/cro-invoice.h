/* cro-invoice.h: an electronic invoice or credit note, read line by line.
 *
 * Syntaxes   UBL 2.1 Invoice and CreditNote (OASIS), Cross Industry Invoice D16B and later (UN/CEFACT),
 *            as a file or as what is embedded in a PDF file. Elements are known by their namespace,
 *            whatever its prefix.
 * Source     EN 16931-1 and -3 name the terms (BT-…) and where they stand; Peppol BIS Billing 3.0 says
 *            how a line adds up:
 *
 *              net = round2 (quantity × net price / base quantity) + charges − allowances
 *
 *            each rounded apart, within 0.02 (PEPPOL-EN16931-R120). What a thing cost is net / quantity:
 *            the price of a line alone knows neither its base quantity nor its allowances.
 * Safety     Nothing is fetched and no entity replaced: a document that declares a type is refused.
 *            What it may be at most stands below; a parser's own limits stand as well.
 * Units      Texts as they stand in the document. Numbers exactly (cro-exact.h).
 * Ownership  A document owns its texts.
 * Errors     CRO_INVOICE_ERROR, G_FILE_ERROR. */
#pragma once

#include <glib.h>

#include "cro-exact.h"

G_BEGIN_DECLS

/* Bytes of a file, lines of a document, characters of one text, elements within one another. */
#define CRO_INVOICE_MOST_BYTES (64u * 1024 * 1024)
#define CRO_INVOICE_MOST_LINES 100000u
#define CRO_INVOICE_MOST_TEXT 4096u
#define CRO_INVOICE_MOST_DEPTH 64u
#define CRO_INVOICE_MOST_ATTRIBUTES 256u

typedef enum
{
  CRO_INVOICE_ERROR_OTHER_ROOT,  /* another kind of document: the message is its element */
  CRO_INVOICE_ERROR_DAMAGED,     /* no XML, or none that ends */
  CRO_INVOICE_ERROR_DECLARES,    /* declares a type, and with it perhaps entities */
  CRO_INVOICE_ERROR_TOO_LARGE,
  CRO_INVOICE_ERROR_NOT_IN_PDF,  /* a PDF file without an invoice in it */
  CRO_INVOICE_ERROR_LOCKED,      /* a PDF file that is encrypted */
  CRO_INVOICE_ERROR_NO_LINES,
  CRO_INVOICE_ERROR_SEVERAL,     /* a PDF file with more than one invoice in it */
} CroInvoiceError;

#define CRO_INVOICE_ERROR (cro_invoice_error_quark ())
GQuark      cro_invoice_error_quark (void);

typedef enum
{
  CRO_SYNTAX_UNKNOWN,
  CRO_SYNTAX_UBL,
  CRO_SYNTAX_CII,
} CroInvoiceSyntax;

typedef enum
{
  CRO_RECOMPUTES_UNKNOWN,        /* it says no quantity, price or amount */
  CRO_RECOMPUTES_NO,
  CRO_RECOMPUTES_YES,
} CroRecomputes;

/* A text is NULL where the document says nothing. */
typedef struct
{
  guint         number;          /* from 1 */
  const char   *id;              /* BT-126 */
  const char   *code;            /* BT-155 */
  const char   *standard_id;     /* BT-157 */
  const char   *name;            /* BT-153 */
  const char   *quantity;        /* BT-129 */
  const char   *unit;            /* BT-130 */
  const char   *price;           /* BT-146 */
  const char   *base_quantity;   /* BT-149 */
  const char   *base_unit;       /* BT-150 */
  const char   *net;             /* BT-131 */
  const char   *currency;        /* of that amount, where it says so */
  const char   *tax_pct;         /* BT-152 */
  CroNano       allowances;      /* BT-136 */
  CroNano       charges;         /* BT-141 */

  /* What follows of them. */
  gboolean      has_quantity, has_net, has_per_unit;
  CroNano       exact_quantity, exact_net;
  CroNano       per_unit;        /* net / quantity, to six places */
  CroRecomputes recomputes;
  CroNano       recomputed;      /* unless UNKNOWN */
} CroInvoiceLine;

typedef struct
{
  CroInvoiceSyntax syntax;
  char         *root;            /* Invoice, CreditNote, CrossIndustryInvoice */
  gboolean      is_credit;       /* a credit note, by its root or its type code: amounts are given back */
  const char   *number;          /* BT-1 */
  const char   *type;            /* BT-3 */
  const char   *preceding;       /* BT-25; NULL: the document names none, or more than one */
  gboolean      has_several;     /* more than one */
  const char   *currency;        /* BT-5; without one that of the lines' amounts */
  const char   *seller;          /* BT-27 */
  const char   *lines_total;     /* BT-106 */
  const char   *net_total;       /* BT-109 */
  const char   *date;            /* BT-2, YYYY-MM-DD */
  const char   *delivered;       /* BT-72, YYYY-MM-DD */
  CroNano       allowances;      /* BT-92, of the whole document and of none of its lines */
  CroNano       charges;         /* BT-99 */
  const char   *no_amount;       /* one of both that is no amount, or larger than any money is, as it stands there */
  const char   *no_indicator;    /* what does not say which of both it is; "" where nothing says it */
  const char   *whole_currency;  /* of the first of both */
  const char   *strange;         /* another currency than the document's, of one of both or of a line's amount */
  guint         strange_line;    /* its number; 0: of one of both */
  GArray       *lines;           /* CroInvoiceLine */
  GStringChunk *texts;
} CroInvoice;

/* Whether a file that begins so is XML, or a PDF file, and so what is read here. */
gboolean      cro_invoice_begins    (const char   *head,
                                     gsize         length);

/* On OTHER_ROOT and NO_LINES *syntax says which family it is of; it may be NULL. */
CroInvoice   *cro_invoice_read      (const char        *path,
                                     CroInvoiceSyntax  *syntax,
                                     GError           **error);
void          cro_invoice_free      (CroInvoice        *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroInvoice, cro_invoice_free)

G_END_DECLS
