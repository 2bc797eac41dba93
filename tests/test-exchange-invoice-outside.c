/* Thirty public documents, each line as it is told beside them: einvoice/ of the published tables,
 * whose LICENSES.md names where each comes from. Skipped, and said so, where CROUSTADE_REFERENCE_DATA
 * names no folder of them. */
#include <glib.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "cro-invoice.h"
#include "cro-spreadsheet.h"
#include "cro-unit-code.h"

/* What meson takes for skipped. */
#define SKIPPED 77

/* Rows of expected-lines.csv, and documents in it. */
#define N_LINES 113
#define N_DOCUMENTS 28

enum
{
  FILE_NAME, SYNTAX, DOCUMENT, TYPE, CURRENCY, LINE_NO, LINE_ID, CODE, STANDARD, QUANTITY, UNIT, PRICE, BASE_QUANTITY,
  BASE_UNIT, GROSS, PRICE_ALLOWANCE, PRICE_CHARGE, ALLOWANCES, CHARGES, NET, VAT, RECOMPUTED, RECOMPUTES, PER_UNIT,
};

static const char *folder;

typedef struct
{
  GHashTable *invoices;    /* name of the file → CroInvoice */
  guint       n_lines;
} Reading;

static const CroInvoice *
get_invoice (Reading    *reading,
             const char *name)
{
  CroInvoice *invoice = g_hash_table_lookup (reading->invoices, name);
  g_autofree char *path = g_build_filename (folder, "einvoice", name, NULL);
  g_autoptr (GError) error = NULL;

  if (invoice != NULL)
    return invoice;
  invoice = cro_invoice_read (path, NULL, &error);
  if (invoice == NULL)
    fail_msg ("%s: %s", name, error->message);
  g_hash_table_insert (reading->invoices, g_strdup (name), invoice);
  return invoice;
}

static void
assert_text (const char  *name,
             guint        number,
             const char  *what,
             const char  *is,
             const char  *expected)
{
  if (g_strcmp0 (is != NULL ? is : "", expected) != 0)
    fail_msg ("%s, line %u: %s is “%s”, expected “%s”", name, number, what, is, expected);
}

/* Amounts are told in as many places as they have there. */
static void
assert_sum (const char *name,
            guint       number,
            CroNano     is,
            const char *expected)
{
  CroNano nano = 0;

  assert_true (*expected == '\0' || cro_exact_parse (expected, &nano));
  if (is != nano)
    fail_msg ("%s, line %u: its allowances or charges are not %s", name, number, expected);
}

static void
assert_reckoned (const char           *name,
                 const CroInvoiceLine *line,
                 const char           *per_unit,
                 const char           *recomputed,
                 const char           *recomputes)
{
  static const char *const words[] = { "", "NO", "yes" };
  g_autofree char *per = line->has_per_unit ? cro_exact_to_text (line->per_unit, 6) : NULL;
  g_autofree char *net = line->recomputes != CRO_RECOMPUTES_UNKNOWN ? cro_exact_to_text (line->recomputed, 2) : NULL;

  assert_text (name, line->number, "its cost per unit", per, per_unit);
  assert_text (name, line->number, "its recomputed amount", net, recomputed);
  assert_text (name, line->number, "whether it recomputes", words[line->recomputes], recomputes);
}

static gboolean
take_row (guint              number,
          const CroReadCell *cells,
          guint              n_cells,
          gpointer           user_data)
{
  Reading *reading = user_data;
  const char *name = cells[FILE_NAME].text;
  const CroInvoice *invoice;
  const CroInvoiceLine *line;
  const char *texts[PER_UNIT + 1];

  if (number == 1)
    return TRUE;
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    texts[i] = i < n_cells ? cells[i].text : "";
  reading->n_lines++;
  invoice = get_invoice (reading, name);
  number = (guint) g_ascii_strtoull (texts[LINE_NO], NULL, 10);
  assert_in_range (number, 1, invoice->lines->len);
  line = &g_array_index (invoice->lines, CroInvoiceLine, number - 1);
  assert_text (name, number, "the syntax", invoice->syntax == CRO_SYNTAX_UBL ? "UBL" : "CII", texts[SYNTAX]);
  assert_text (name, number, "the root", invoice->root, texts[DOCUMENT]);
  assert_text (name, number, "the type", invoice->type, texts[TYPE]);
  assert_text (name, number, "the currency", invoice->currency, texts[CURRENCY]);
  assert_text (name, number, "its id", line->id, texts[LINE_ID]);
  assert_text (name, number, "its code", line->code, texts[CODE]);
  assert_text (name, number, "its standard id", line->standard_id, texts[STANDARD]);
  assert_text (name, number, "its quantity", line->quantity, texts[QUANTITY]);
  assert_text (name, number, "its unit", line->unit, texts[UNIT]);
  assert_text (name, number, "its price", line->price, texts[PRICE]);
  assert_text (name, number, "its base quantity", line->base_quantity, texts[BASE_QUANTITY]);
  assert_text (name, number, "its base unit", line->base_unit, texts[BASE_UNIT]);
  assert_text (name, number, "its amount", line->net, texts[NET]);
  assert_text (name, number, "its tax", line->tax_pct, texts[VAT]);
  assert_sum (name, number, line->allowances, texts[ALLOWANCES]);
  assert_sum (name, number, line->charges, texts[CHARGES]);
  assert_reckoned (name, line, texts[PER_UNIT], texts[RECOMPUTED], texts[RECOMPUTES]);
  return TRUE;
}

/* checks.md 6: every line of the example files. */
static void
test_lines_are_read_as_expected (void **state)
{
  static const CroSpreadsheetTaker taker = { .row = take_row };
  g_autofree char *path = g_build_filename (folder, "einvoice", "expected-lines.csv", NULL);
  g_autoptr (GError) error = NULL;
  Reading reading = { g_hash_table_new_full (g_str_hash, g_str_equal, g_free,
                                             (GDestroyNotify) cro_invoice_free), 0 };

  assert_true (cro_spreadsheet_read (path, 0, &taker, &reading, &error));
  assert_int_equal (reading.n_lines, N_LINES);
  assert_int_equal (g_hash_table_size (reading.invoices), N_DOCUMENTS);
  g_hash_table_unref (reading.invoices);
}

static void
test_other_documents_are_named (void **state)
{
  static const struct { const char *name, *root; } others[] = {
    { "ubl-UBL-Order-2.1-Example.xml", "Order" }, { "ubl-UBL-Quotation-2.1-Example.xml", "Quotation" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (others); i++)
    {
      g_autofree char *path = g_build_filename (folder, "einvoice", others[i].name, NULL);
      g_autoptr (GError) error = NULL;
      CroInvoiceSyntax syntax;

      assert_null (cro_invoice_read (path, &syntax, &error));
      assert_int_equal (syntax, CRO_SYNTAX_UBL);
      assert_true (g_error_matches (error, CRO_INVOICE_ERROR, CRO_INVOICE_ERROR_OTHER_ROOT));
      assert_string_equal (error->message, others[i].root);
    }
}

/* What they are as a whole: E10 of checks.md, the discount of a document, and the invoice that it names (BT-25). */
static void
test_documents_are_told_apart (void **state)
{
  static const struct { const char *name; gboolean is_credit; const char *allowances, *charges, *preceding; }
  cases[] = {
    { "en16931-ubl-tc434-creditnote1.xml", TRUE, "0", "0", NULL },
    { "ubl-UBL-CreditNote-2.1-Example.xml", TRUE, "100", "100", NULL },
    { "en16931-BIS3_Invoice_negativ.xml", FALSE, "0", "0", NULL },
    { "zf-EN16931_Rechnungskorrektur.ubl.xml", FALSE, "0", "0", NULL },
    { "en16931-CII_example5.xml", FALSE, "150", "150", "TOSL109" },
    { "en16931-ubl-tc434-example5.xml", FALSE, "150", "150", "TOSL109" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_build_filename (folder, "einvoice", cases[i].name, NULL);
      g_autoptr (CroInvoice) invoice = cro_invoice_read (path, NULL, NULL);
      g_autofree char *allowances = NULL, *charges = NULL;

      assert_non_null (invoice);
      assert_int_equal (invoice->is_credit, cases[i].is_credit);
      allowances = cro_exact_to_text (invoice->allowances, 0);
      charges = cro_exact_to_text (invoice->charges, 0);
      assert_text (cases[i].name, 0, "what is taken off the whole", allowances, cases[i].allowances);
      assert_text (cases[i].name, 0, "what is put on the whole", charges, cases[i].charges);
      if (g_strcmp0 (invoice->preceding, cases[i].preceding) != 0)
        fail_msg ("%s names “%s”", cases[i].name, invoice->preceding);
    }
}

/* codes/unece-rec20-rec21-food.csv: code, recommendation, kind, name, base unit, factor. */
static gboolean
take_code (guint              number,
           const CroReadCell *cells,
           guint              n_cells,
           gpointer           user_data)
{
  const char *code = cells[0].text, *kind = cells[2].text, *factor = n_cells > 5 ? cells[5].text : "";
  guint *n = user_data;
  CroUnit unit;
  gint64 size;
  CroUnitCodeKind is = cro_unit_code_read (code, &unit, &size);

  if (number == 1 || is == CRO_UNIT_CODE_UNKNOWN)
    return TRUE;
  ++*n;
  if (is == CRO_UNIT_CODE_MEASURE)
    {
      double times = cro_unit_factor (unit) * (double) size / 1e6, expected = g_ascii_strtod (factor, NULL);

      if (!(ABS (times / expected - 1) < 1e-12))
        fail_msg ("%s is %.15g base units, not %s", code, times, factor);
    }
  else if (strcmp (kind, is == CRO_UNIT_CODE_PIECE ? "count" : "package") != 0 && strcmp (kind, "packs") != 0
           && strcmp (kind, "set") != 0)
    fail_msg ("%s is of kind %s", code, kind);
  return TRUE;
}

static void
test_unit_codes (void **state)
{
  static const CroSpreadsheetTaker taker = { .row = take_code };
  g_autofree char *path = g_build_filename (folder, "codes", "unece-rec20-rec21-food.csv", NULL);
  guint n = 0;

  assert_true (cro_spreadsheet_read (path, 0, &taker, &n, NULL));
  assert_int_equal (n, 66);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_lines_are_read_as_expected),
    cmocka_unit_test (test_other_documents_are_named),
    cmocka_unit_test (test_documents_are_told_apart),
    cmocka_unit_test (test_unit_codes),
  };

  folder = g_getenv ("CROUSTADE_REFERENCE_DATA");
  if (folder == NULL)
    {
      printf ("skipped: CROUSTADE_REFERENCE_DATA names no folder of published tables\n");
      return SKIPPED;
    }
  return cmocka_run_group_tests (tests, NULL, NULL);
}
