/* Where the terms of EN 16931-1 stand: UBL 2.1 by EN 16931-3-2, Cross Industry Invoice by EN 16931-3-3. */
#include "cro-invoice-private.h"

#include <string.h>

#define UBL "urn:oasis:names:specification:ubl:schema:xsd:"
#define CII "urn:un:unece:uncefact:data:standard:"

#define OF_DOCUMENT(member) CRO_PLACE_DOCUMENT, G_STRUCT_OFFSET (CroInvoice, member), NULL, 0
#define OF_LINE(member) CRO_PLACE_LINE, G_STRUCT_OFFSET (CroInvoiceLine, member), NULL, 0
#define WITH_UNIT(member, its_unit) \
  CRO_PLACE_LINE, G_STRUCT_OFFSET (CroInvoiceLine, member), "unitCode", \
  G_STRUCT_OFFSET (CroInvoiceLine, its_unit)
#define WITH_CURRENCY(place_kind) place_kind, 0, "currencyID", 0
#define OTHER(place_kind) place_kind, 0, NULL, 0

/* The lines of an invoice and of a credit note differ in the names of two elements. */
#define UBL_LINE(line, quantity_element) \
  { line "/ID", OF_LINE (id) }, \
  { line "/" quantity_element, WITH_UNIT (quantity, unit) }, \
  { line "/LineExtensionAmount", CRO_PLACE_LINE, G_STRUCT_OFFSET (CroInvoiceLine, net), "currencyID", \
    G_STRUCT_OFFSET (CroInvoiceLine, currency) }, \
  { line "/AllowanceCharge/ChargeIndicator", OTHER (CRO_PLACE_INDICATOR) }, \
  { line "/AllowanceCharge/Amount", OTHER (CRO_PLACE_AMOUNT) }, \
  { line "/AllowanceCharge", OTHER (CRO_PLACE_LINE_PART) }, \
  { line "/Item/Name", OF_LINE (name) }, \
  { line "/Item/SellersItemIdentification/ID", OF_LINE (code) }, \
  { line "/Item/StandardItemIdentification/ID", OF_LINE (standard_id) }, \
  { line "/Item/ClassifiedTaxCategory/Percent", OF_LINE (tax_pct) }, \
  { line "/Price/PriceAmount", OF_LINE (price) }, \
  { line "/Price/BaseQuantity", WITH_UNIT (base_quantity, base_unit) }, \
  { line, OTHER (CRO_PLACE_LINE_END) }

static const CroInvoicePlace ubl[] = {
  { "ID", OF_DOCUMENT (number) },
  { "IssueDate", OF_DOCUMENT (date) },
  { "InvoiceTypeCode", OF_DOCUMENT (type) },
  { "CreditNoteTypeCode", OF_DOCUMENT (type) },
  { "DocumentCurrencyCode", OF_DOCUMENT (currency) },
  { "AccountingSupplierParty/Party/PartyLegalEntity/RegistrationName", OF_DOCUMENT (seller) },
  { "AccountingSupplierParty/Party/PartyName/Name", OF_DOCUMENT (seller) },
  { "LegalMonetaryTotal/LineExtensionAmount", OF_DOCUMENT (lines_total) },
  { "LegalMonetaryTotal/TaxExclusiveAmount", OF_DOCUMENT (net_total) },
  { "Delivery/ActualDeliveryDate", OF_DOCUMENT (delivered) },
  { "AllowanceCharge/ChargeIndicator", OTHER (CRO_PLACE_INDICATOR) },
  { "AllowanceCharge/Amount", WITH_CURRENCY (CRO_PLACE_AMOUNT) },
  { "AllowanceCharge", OTHER (CRO_PLACE_DOCUMENT_PART) },
  { "BillingReference/InvoiceDocumentReference/ID", OTHER (CRO_PLACE_PRECEDING) },
  UBL_LINE ("InvoiceLine", "InvoicedQuantity"),
  UBL_LINE ("CreditNoteLine", "CreditedQuantity"),
};

#define TRADE "SupplyChainTradeTransaction/"
#define CII_LINE TRADE "IncludedSupplyChainTradeLineItem"
#define PART "/SpecifiedTradeAllowanceCharge"

static const CroInvoicePlace cii[] = {
  { "ExchangedDocument/ID", OF_DOCUMENT (number) },
  { "ExchangedDocument/TypeCode", OF_DOCUMENT (type) },
  { "ExchangedDocument/IssueDateTime/DateTimeString", OF_DOCUMENT (date) },
  { TRADE "ApplicableHeaderTradeAgreement/SellerTradeParty/Name", OF_DOCUMENT (seller) },
  { TRADE "ApplicableHeaderTradeDelivery/ActualDeliverySupplyChainEvent/OccurrenceDateTime/DateTimeString",
    OF_DOCUMENT (delivered) },
  { TRADE "ApplicableHeaderTradeSettlement/SpecifiedTradeSettlementHeaderMonetarySummation/LineTotalAmount",
    OF_DOCUMENT (lines_total) },
  { TRADE "ApplicableHeaderTradeSettlement/SpecifiedTradeSettlementHeaderMonetarySummation/TaxBasisTotalAmount",
    OF_DOCUMENT (net_total) },
  { TRADE "ApplicableHeaderTradeSettlement/InvoiceCurrencyCode", OF_DOCUMENT (currency) },
  { TRADE "ApplicableHeaderTradeSettlement" PART "/ChargeIndicator/Indicator", OTHER (CRO_PLACE_INDICATOR) },
  { TRADE "ApplicableHeaderTradeSettlement" PART "/ActualAmount", WITH_CURRENCY (CRO_PLACE_AMOUNT) },
  { TRADE "ApplicableHeaderTradeSettlement" PART, OTHER (CRO_PLACE_DOCUMENT_PART) },
  { TRADE "ApplicableHeaderTradeSettlement/SpecifiedLogisticsServiceCharge/AppliedAmount",
    WITH_CURRENCY (CRO_PLACE_FEE) },
  { TRADE "ApplicableHeaderTradeSettlement/InvoiceReferencedDocument/IssuerAssignedID", OTHER (CRO_PLACE_PRECEDING) },
  { CII_LINE "/AssociatedDocumentLineDocument/LineID", OF_LINE (id) },
  { CII_LINE "/SpecifiedTradeProduct/GlobalID", OF_LINE (standard_id) },
  { CII_LINE "/SpecifiedTradeProduct/SellerAssignedID", OF_LINE (code) },
  { CII_LINE "/SpecifiedTradeProduct/Name", OF_LINE (name) },
  { CII_LINE "/SpecifiedLineTradeAgreement/NetPriceProductTradePrice/ChargeAmount", OF_LINE (price) },
  { CII_LINE "/SpecifiedLineTradeAgreement/NetPriceProductTradePrice/BasisQuantity",
    WITH_UNIT (base_quantity, base_unit) },
  { CII_LINE "/SpecifiedLineTradeDelivery/BilledQuantity", WITH_UNIT (quantity, unit) },
  { CII_LINE "/SpecifiedLineTradeSettlement/ApplicableTradeTax/RateApplicablePercent", OF_LINE (tax_pct) },
  { CII_LINE "/SpecifiedLineTradeSettlement" PART "/ChargeIndicator/Indicator",
    OTHER (CRO_PLACE_INDICATOR) },
  { CII_LINE "/SpecifiedLineTradeSettlement" PART "/ActualAmount", OTHER (CRO_PLACE_AMOUNT) },
  { CII_LINE "/SpecifiedLineTradeSettlement" PART, OTHER (CRO_PLACE_LINE_PART) },
  { CII_LINE "/SpecifiedLineTradeSettlement/SpecifiedTradeSettlementLineMonetarySummation/LineTotalAmount",
    OF_LINE (net) },
  { CII_LINE, OTHER (CRO_PLACE_LINE_END) },
};

static const CroInvoicePlace *
find_among (const CroInvoicePlace *places,
            gsize                  n,
            const char            *path)
{
  for (gsize i = 0; i < n; i++)
    if (strcmp (places[i].path, path) == 0)
      return &places[i];
  return NULL;
}

const CroInvoicePlace *
cro_invoice_place_find (CroInvoiceSyntax  syntax,
                        const char       *path)
{
  return syntax == CRO_SYNTAX_UBL ? find_among (ubl, G_N_ELEMENTS (ubl), path)
                                  : find_among (cii, G_N_ELEMENTS (cii), path);
}

CroInvoiceSyntax
cro_invoice_root_find (const char *namespace_uri,
                       const char *name,
                       gboolean   *is_read)
{
  static const struct { const char *start, *name; CroInvoiceSyntax syntax; } roots[] = {
    { UBL "Invoice-2", "Invoice", CRO_SYNTAX_UBL },
    { UBL "CreditNote-2", "CreditNote", CRO_SYNTAX_UBL },
    { CII "CrossIndustryInvoice:", "CrossIndustryInvoice", CRO_SYNTAX_CII },
  };

  *is_read = FALSE;
  for (gsize i = 0; i < G_N_ELEMENTS (roots); i++)
    if (g_str_has_prefix (namespace_uri, roots[i].start) && strcmp (name, roots[i].name) == 0)
      {
        *is_read = TRUE;
        return roots[i].syntax;
      }
  return g_str_has_prefix (namespace_uri, UBL)   ? CRO_SYNTAX_UBL
         : g_str_has_prefix (namespace_uri, CII) ? CRO_SYNTAX_CII
                                                 : CRO_SYNTAX_UNKNOWN;
}

gboolean
cro_invoice_knows (CroInvoiceSyntax  syntax,
                   const char       *namespace_uri)
{
  if (syntax == CRO_SYNTAX_UBL)
    return g_str_has_prefix (namespace_uri, UBL "Common") || g_str_has_prefix (namespace_uri, UBL "Invoice-")
           || g_str_has_prefix (namespace_uri, UBL "CreditNote-");
  return g_str_has_prefix (namespace_uri, CII);
}
