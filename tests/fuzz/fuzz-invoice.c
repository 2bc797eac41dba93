/* Electronic invoices. The first byte says what the rest is: a file as it is; the inside of an invoice,
 * of a credit note or of a Cross Industry Invoice; or, packed, what a PDF file holds. */
#include "fuzz.h"

#include <glib.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>
#include <zlib.h>

#include "cro-invoice.h"

#define UBL "urn:oasis:names:specification:ubl:schema:xsd:"
#define CII "urn:un:unece:uncefact:data:standard:"
#define SPACES " xmlns:a='" UBL "CommonAggregateComponents-2' xmlns:b='" UBL "CommonBasicComponents-2'>"

const char *const fuzz_seeds[] = {
  "1<b:ID>1</b:ID><a:InvoiceLine><b:InvoicedQuantity unitCode='KGM'>-2.5</b:InvoicedQuantity>"
  "<b:LineExtensionAmount currencyID='EUR'>10.00</b:LineExtensionAmount><a:AllowanceCharge><b:ChargeIndicator>true"
  "</b:ChargeIndicator><b:Amount>0.5</b:Amount></a:AllowanceCharge><a:Item><b:Name>a</b:Name></a:Item><a:Price>"
  "<b:PriceAmount>3.999999999999</b:PriceAmount><b:BaseQuantity unitCode='KGM'>0</b:BaseQuantity></a:Price>"
  "</a:InvoiceLine>",
  "2<a:CreditNoteLine><b:CreditedQuantity>0</b:CreditedQuantity><b:LineExtensionAmount>999999999999999999"
  "</b:LineExtensionAmount></a:CreditNoteLine>",
  "3<r:SupplyChainTradeTransaction><m:IncludedSupplyChainTradeLineItem><m:SpecifiedLineTradeDelivery>"
  "<m:BilledQuantity unitCode='XBX'>1</m:BilledQuantity></m:SpecifiedLineTradeDelivery>"
  "</m:IncludedSupplyChainTradeLineItem></r:SupplyChainTradeTransaction>",
  "0<!DOCTYPE a [<!ENTITY b 'c'>]><a>&b;</a>", "0\xFF\xFE<\0a\0>\0",
  "0%PDF-1.7\n<</Filter/FlateDecode>>stream\n\x78\x9C\nendstream endobj <<>>stream\r\n<a/>\nendstream",
  "4<x:Invoice xmlns:x='" UBL "Invoice-2'/>",
  NULL,
};

static char *
make_pdf (const char *text,
          gsize       length,
          gsize      *made)
{
  uLongf n = compressBound (length);
  g_autofree guint8 *packed = g_malloc (n);
  GString *pdf = g_string_new ("%PDF-1.7\n1 0 obj<</Filter/FlateDecode>>stream\r\n");

  g_assert (compress (packed, &n, (const guint8 *) text, length) == Z_OK);
  g_string_append_len (pdf, (const char *) packed, (gssize) n);
  g_string_append (pdf, "\nendstream endobj");
  *made = pdf->len;
  return g_string_free (pdf, FALSE);
}

static char *
make_file (char         kind,
           const char  *text,
           gsize        length,
           gsize       *made)
{
  static const char *const roots[] = { "Invoice xmlns='" UBL "Invoice-2'" SPACES,
                                       "CreditNote xmlns='" UBL "CreditNote-2'" SPACES,
                                       "CrossIndustryInvoice xmlns='" CII "CrossIndustryInvoice:100' xmlns:r='" CII
                                       "CrossIndustryInvoice:100' xmlns:m='" CII
                                       "ReusableAggregateBusinessInformationEntity:100'>" };
  static const char *const names[] = { "Invoice", "CreditNote", "CrossIndustryInvoice" };
  GString *file = g_string_new (NULL);

  if (kind == '4')
    {
      g_string_free (file, TRUE);
      return make_pdf (text, length, made);
    }
  if (kind >= '1' && kind <= '3')
    g_string_append_printf (file, "<%s", roots[kind - '1']);
  g_string_append_len (file, text, (gssize) length);
  if (kind >= '1' && kind <= '3')
    g_string_append_printf (file, "</%s>", names[kind - '1']);
  *made = file->len;
  return g_string_free (file, FALSE);
}

static void
check_line (const CroInvoiceLine *line)
{
  g_assert (line->name == NULL || (*line->name != '\0' && g_utf8_validate (line->name, -1, NULL)));
  g_assert (line->recomputes == CRO_RECOMPUTES_UNKNOWN || (line->has_quantity && line->has_net));
  g_assert (!line->has_per_unit || line->exact_quantity != 0);
  if (line->has_per_unit)
    g_free (cro_exact_to_text (line->per_unit, 6));
}

int
LLVMFuzzerTestOneInput (const uint8_t *data,
                        size_t         size)
{
  g_autofree char *path = NULL, *bytes = NULL;
  g_autoptr (CroInvoice) invoice = NULL;
  g_autoptr (GError) error = NULL;
  gsize length;
  int file;

  if (size < 1)
    return 0;
  bytes = make_file ((char) data[0], (const char *) data + 1, size - 1, &length);
  file = g_file_open_tmp ("croustade-fuzz-XXXXXX", &path, NULL);
  g_assert (file >= 0);
  close (file);
  g_assert (fuzz_write (path, bytes, length));
  invoice = cro_invoice_read (path, NULL, &error);
  g_unlink (path);
  g_assert ((invoice == NULL) == (error != NULL));
  g_assert (invoice == NULL || invoice->lines->len > 0);
  for (guint i = 0; invoice != NULL && i < invoice->lines->len; i++)
    check_line (&g_array_index (invoice->lines, CroInvoiceLine, i));
  return 0;
}
