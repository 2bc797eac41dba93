/* cro-invoice-private.h: what the files that read an invoice share. */
#pragma once

#include "cro-invoice.h"

G_BEGIN_DECLS

/* What the text at a place is. */
typedef enum
{
  CRO_PLACE_DOCUMENT,      /* a text of CroInvoice, at offset */
  CRO_PLACE_LINE,          /* a text of CroInvoiceLine */
  CRO_PLACE_INDICATOR,     /* whether what follows is a charge */
  CRO_PLACE_AMOUNT,        /* of an allowance or a charge; its currency is looked at where it is the document's */
  CRO_PLACE_FEE,           /* a charge of the document, without an indicator */
  CRO_PLACE_PRECEDING,     /* the invoice that is credited, or one of them */
  CRO_PLACE_LINE_PART,     /* an allowance or charge of the line, once its element ends */
  CRO_PLACE_DOCUMENT_PART, /* the same of the document */
  CRO_PLACE_LINE_END,
} CroPlaceKind;

typedef struct
{
  const char   *path;      /* local names from below the root, / between them */
  CroPlaceKind  kind;
  gsize         offset;
  const char   *attribute; /* one that is a text as well, of a line at attribute_offset; NULL: none */
  gsize         attribute_offset;
} CroInvoicePlace;

/* NULL: nothing is read there. */
const CroInvoicePlace *cro_invoice_place_find (CroInvoiceSyntax   syntax,
                                               const char        *path);

/* Which family a root is of, and whether it is a document that is read here. */
CroInvoiceSyntax       cro_invoice_root_find  (const char        *namespace_uri,
                                               const char        *name,
                                               gboolean          *is_read);

/* Whether elements of that namespace stand in the paths of a syntax. */
gboolean               cro_invoice_knows      (CroInvoiceSyntax   syntax,
                                               const char        *namespace_uri);

/* What follows of the texts, once all are read. */
void                   cro_invoice_reckon     (CroInvoice        *self);

/* cro-pdf-attachment.c: whether a file that begins so is a PDF file; and the invoice embedded in one, of
 * *found bytes, owned. */
gboolean               cro_pdf_begins         (const char        *head,
                                               gsize              length);
char                  *cro_pdf_find_invoice   (const char        *bytes,
                                               gsize              length,
                                               gsize             *found,
                                               GError           **error);

G_END_DECLS
