/* Invoices as other programs write them, whatever their prefixes, in PDF files too; and files that mean
 * harm, each refused with its reason and soon. */
#include <glib.h>
#include <glib/gstdio.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <zlib.h>

#include <cmocka.h>

#include "cro-invoice.h"

#define UBL "urn:oasis:names:specification:ubl:schema:xsd:"

#define LINE(inside) \
  "<a:InvoiceLine><b:ID>1</b:ID><b:InvoicedQuantity unitCode='KGM'>12.5</b:InvoicedQuantity>" \
  "<b:LineExtensionAmount currencyID='EUR'>53.88</b:LineExtensionAmount>" inside "</a:InvoiceLine>"

#define INVOICE(inside) \
  "<x:Invoice xmlns:x='" UBL "Invoice-2' xmlns:a='" UBL "CommonAggregateComponents-2' xmlns:b='" UBL \
  "CommonBasicComponents-2'>" inside "</x:Invoice>"

#define SOUND \
  INVOICE ("<b:ID>Q-1</b:ID><b:IssueDate>2026-11-20</b:IssueDate>" \
           LINE ("<a:Item><b:Name>Mussels,\n  rope grown</b:Name></a:Item>" \
                 "<a:Price><b:PriceAmount>4.31</b:PriceAmount></a:Price>"))

static CroInvoice *
read_bytes (const char  *bytes,
            gsize        length,
            GError     **error)
{
  g_autofree char *path = NULL;
  int file = g_file_open_tmp ("croustade-XXXXXX", &path, NULL);
  CroInvoice *invoice;

  assert_true (file >= 0);
  g_close (file, NULL);
  assert_true (g_file_set_contents (path, bytes, (gssize) length, NULL));
  invoice = cro_invoice_read (path, NULL, error);
  g_unlink (path);
  return invoice;
}

static void
test_a_line_is_read_by_its_namespaces (void **state)
{
  g_autoptr (CroInvoice) invoice = read_bytes (SOUND, strlen (SOUND), NULL);
  const CroInvoiceLine *line;

  assert_non_null (invoice);
  assert_string_equal (invoice->number, "Q-1");
  assert_string_equal (invoice->date, "2026-11-20");
  assert_string_equal (invoice->currency, "EUR");
  assert_int_equal (invoice->lines->len, 1);
  line = &g_array_index (invoice->lines, CroInvoiceLine, 0);
  assert_string_equal (line->name, "Mussels, rope grown");
  /* 12.5 × 4.31 = 53.875, rounded 53.88; a kilogram is 4.3104. */
  assert_int_equal (line->recomputes, CRO_RECOMPUTES_YES);
  assert_true (line->per_unit == CRO_NANO * 43104 / 10000);
}

/* An element of the same name in another namespace is another one. */
static void
test_a_stranger_s_element_is_passed_over (void **state)
{
  static const char text[] = INVOICE (
    "<b:ID>Q-2</b:ID>" LINE ("<y:Item xmlns:y='urn:y'><b:Name>no</b:Name></y:Item><a:Item><b:Name>yes</b:Name></a:Item>"
                             "<y:Price xmlns:y='urn:y'><b:PriceAmount>9</b:PriceAmount></y:Price>"));
  g_autoptr (CroInvoice) invoice = read_bytes (text, strlen (text), NULL);

  assert_non_null (invoice);
  assert_string_equal (g_array_index (invoice->lines, CroInvoiceLine, 0).name, "yes");
  assert_null (g_array_index (invoice->lines, CroInvoiceLine, 0).price);
}

/* --- In a PDF file ------------------------------------------------------------------------------------ */

static GString *
begin_pdf (void)
{
  return g_string_new ("%PDF-1.7\n%\xE2\xE3\xCF\xD3\n1 0 obj\n<</Type/Catalog>>\nendobj\n"
                       "2 0 obj\n<</Type/Metadata/Subtype/XML/Length 30>>\nstream\n"
                       "<?xpacket begin=''?><x:xmpmeta/>\nendstream\nendobj\n");
}

static void
add_stream (GString    *pdf,
            const char *bytes,
            gsize       length,
            gboolean    is_packed)
{
  uLongf n = compressBound (length);
  g_autofree guint8 *packed = g_malloc (n);

  assert_int_equal (compress (packed, &n, (const guint8 *) bytes, length), Z_OK);
  g_string_append_printf (pdf, "3 0 obj\n<</Type/EmbeddedFile%s/Length 4 0 R>>\nstream\r\n",
                          is_packed ? "/Filter/FlateDecode" : "");
  g_string_append_len (pdf, is_packed ? (const char *) packed : bytes, is_packed ? (gssize) n : (gssize) length);
  g_string_append (pdf, "\nendstream\nendobj\n");
}

static void
test_an_invoice_is_found_in_a_pdf_file (void **state)
{
  for (int is_packed = 0; is_packed < 2; is_packed++)
    {
      GString *pdf = begin_pdf ();
      g_autoptr (CroInvoice) invoice = NULL;

      add_stream (pdf, SOUND, strlen (SOUND), is_packed);
      g_string_append (pdf, "trailer<</Root 1 0 R>>\n%%EOF\n");
      invoice = read_bytes (pdf->str, pdf->len, NULL);
      g_string_free (pdf, TRUE);
      assert_non_null (invoice);
      assert_string_equal (invoice->number, "Q-1");
    }
}

/* One attachment may stand there twice, where the file was saved anew; of two invoices none is the one, whatever their
 * files are called. */
static void
test_of_two_invoices_in_a_pdf_file_none_is_taken (void **state)
{
  static const char order[] = "<Order xmlns='" UBL "Order-2'/>";
  g_autofree char *other = NULL;
  g_auto (GStrv) parts = g_strsplit (SOUND, "Q-1", 2);

  other = g_strjoinv ("Q-2", parts);
  for (int is_packed = 0; is_packed < 2; is_packed++)
    {
      const char *behind[] = { SOUND, other };

      for (gsize i = 0; i < G_N_ELEMENTS (behind); i++)
        {
          GString *pdf = begin_pdf ();
          g_autoptr (GError) error = NULL;
          g_autoptr (CroInvoice) invoice = NULL;

          add_stream (pdf, order, strlen (order), is_packed);
          add_stream (pdf, SOUND, strlen (SOUND), is_packed);
          add_stream (pdf, behind[i], strlen (behind[i]), is_packed);
          invoice = read_bytes (pdf->str, pdf->len, &error);
          g_string_free (pdf, TRUE);
          if (i == 0)
            assert_string_equal (invoice->number, "Q-1");
          else
            assert_true (invoice == NULL
                         && g_error_matches (error, CRO_INVOICE_ERROR, CRO_INVOICE_ERROR_SEVERAL));
        }
    }
}

/* 100 MB of blanks in 100 kB, behind what an invoice begins with. */
static void
test_a_stream_that_unpacks_to_too_much_is_refused (void **state)
{
  static const char start[] = "<x:Invoice xmlns:x='" UBL "Invoice-2'>";
  gsize length = 100u * 1024 * 1024;
  g_autofree char *blanks = g_malloc (length);
  GString *pdf = begin_pdf ();
  g_autoptr (GError) error = NULL;

  memset (blanks, ' ', length);
  memcpy (blanks, start, strlen (start));
  add_stream (pdf, blanks, length, TRUE);
  assert_null (read_bytes (pdf->str, pdf->len, &error));
  assert_true (g_error_matches (error, CRO_INVOICE_ERROR, CRO_INVOICE_ERROR_TOO_LARGE));
  g_string_free (pdf, TRUE);
}

/* Thousands of streams that never end, each of which a reader could follow to the end of the file. */
static void
test_many_streams_take_no_long (void **state)
{
  GString *pdf = begin_pdf ();
  g_autoptr (GError) error = NULL;
  gint64 began = g_get_monotonic_time ();

  for (int i = 0; i < 200000; i++)
    g_string_append (pdf, i % 2 ? "<</Filter/FlateDecode>>stream\n\x78\x9C" : "<<>>stream\n");
  assert_null (read_bytes (pdf->str, pdf->len, &error));
  assert_true (g_error_matches (error, CRO_INVOICE_ERROR, CRO_INVOICE_ERROR_NOT_IN_PDF));
  assert_true (g_get_monotonic_time () - began < 60 * G_USEC_PER_SEC);
  g_string_free (pdf, TRUE);
}

/* --- Harm ---------------------------------------------------------------------------------------------- */

static void
assert_refused (const char      *says,
                const char      *bytes,
                gsize            length,
                CroInvoiceError  code)
{
  g_autoptr (GError) error = NULL;

  if (read_bytes (bytes, length, &error) != NULL)
    fail_msg ("%s: was read", says);
  if (!g_error_matches (error, CRO_INVOICE_ERROR, (int) code))
    fail_msg ("%s: %s", says, error->message);
}

static void
test_what_means_harm_is_refused (void **state)
{
  static const struct { const char *says, *text; CroInvoiceError code; } cases[] = {
    { "entities of entities",
      "<!DOCTYPE x [<!ENTITY a 'aaaaaaaaaa'><!ENTITY b '&a;&a;&a;&a;&a;&a;&a;&a;'><!ENTITY c '&b;&b;&b;&b;&b;'>]>"
      INVOICE ("<b:ID>&c;</b:ID>"), CRO_INVOICE_ERROR_DECLARES },
    { "an entity that is a file", "<!DOCTYPE x [<!ENTITY f SYSTEM 'file:///etc/passwd'>]>"
      INVOICE ("<b:ID>&f;</b:ID>"), CRO_INVOICE_ERROR_DECLARES },
    { "an entity of the declaration's own",
      "<!DOCTYPE x [<!ENTITY % p SYSTEM 'http://127.0.0.1:1/x'> %p;]>" INVOICE (""), CRO_INVOICE_ERROR_DECLARES },
    { "an entity that nobody declared", INVOICE ("<b:ID>&f;</b:ID>"), CRO_INVOICE_ERROR_DAMAGED },
    { "no end", "<Invoice xmlns='" UBL "Invoice-2'><", CRO_INVOICE_ERROR_DAMAGED },
    { "no lines", INVOICE ("<b:ID>1</b:ID>"), CRO_INVOICE_ERROR_NO_LINES },
    { "no namespace", "<Invoice><ID>1</ID></Invoice>", CRO_INVOICE_ERROR_OTHER_ROOT },
    { "nothing", "", CRO_INVOICE_ERROR_DAMAGED },
    { "an encrypted PDF file", "%PDF-1.6\ntrailer<</Encrypt 5 0 R>>", CRO_INVOICE_ERROR_LOCKED },
    { "a PDF file of pages alone", "%PDF-1.6\ntrailer<<>>", CRO_INVOICE_ERROR_NOT_IN_PDF },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    assert_refused (cases[i].says, cases[i].text, strlen (cases[i].text), cases[i].code);
}

/* What is made of one thing over and over, in which # is its number. */
static void
assert_refused_of_many (const char      *says,
                        const char      *before,
                        const char      *one,
                        guint            n,
                        CroInvoiceError  code)
{
  GString *text = g_string_new ("<x:Invoice xmlns:x='" UBL "Invoice-2' xmlns:b='" UBL "CommonBasicComponents-2'"
                                " xmlns:a='" UBL "CommonAggregateComponents-2'");

  g_string_append (text, before);
  for (guint i = 0; i < n; i++)
    {
      const char *sign = strchr (one, '#');

      g_string_append_len (text, one, sign != NULL ? sign - one : (gssize) strlen (one));
      if (sign != NULL)
        g_string_append_printf (text, "%u%s", i, sign + 1);
    }
  g_string_append (text, "</b:ID></x:Invoice>");
  assert_refused (says, text->str, text->len, code);
  g_string_free (text, TRUE);
}

static void
test_too_much_of_anything_is_refused (void **state)
{
  static const struct { const char *says, *before, *one; guint n; CroInvoiceError code; } cases[] = {
    { "elements within elements", ">", "<a:elementwithin#>", 5000, CRO_INVOICE_ERROR_TOO_LARGE },
    { "attributes", "", " a#='1'", 100000, CRO_INVOICE_ERROR_TOO_LARGE },
    { "an attribute of megabytes", " a='", "123456789", 3000000, CRO_INVOICE_ERROR_DAMAGED },
    { "a text of megabytes", "><b:ID>", "123456789", 100000, CRO_INVOICE_ERROR_TOO_LARGE },
    { "lines", ">", "<a:InvoiceLine>#</a:InvoiceLine>", CRO_INVOICE_MOST_LINES + 100, CRO_INVOICE_ERROR_TOO_LARGE },
    { "bytes", "><!--", "0123456789 0123456789 0123456789 0123456789 ", 1600000, CRO_INVOICE_ERROR_TOO_LARGE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    assert_refused_of_many (cases[i].says, cases[i].before, cases[i].one, cases[i].n, cases[i].code);
}

/* --- Exactly ----------------------------------------------------------------------------------------------- */

static void
test_numbers (void **state)
{
  static const struct { const char *text; const char *is; } cases[] = {
    { "0.1212", "0.121200000" }, { "-0.00101", "-0.001010000" }, { "10.000000000000000000", "10.000000000" },
    { "0.0833333333333333", "0.083333333" }, { "0.0000000015", "0.000000002" }, { " +4 ", "4.000000000" },
    { ".5", "0.500000000" }, { "5.", "5.000000000" }, { "000000000000000000000000007", "7.000000000" },
    { "999999999999999999", "999999999999999999.000000000" }, { "1999999999999999999", NULL }, { "1e3", NULL },
    { "1,5", NULL }, { "", NULL }, { ".", NULL }, { "-", NULL }, { "1.2.3", NULL }, { "0x10", NULL }, { "nan", NULL },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CroNano nano;
      gboolean is_read = cro_exact_parse (cases[i].text, &nano);
      g_autofree char *text = is_read ? cro_exact_to_text (nano, 9) : NULL;

      if (g_strcmp0 (text, cases[i].is) != 0)
        fail_msg ("“%s” was read as %s", cases[i].text, text);
    }
}

/* Half away from zero, both ways. */
static void
test_shares (void **state)
{
  static const struct { const char *a, *b, *c; guint places; const char *is; } cases[] = {
    { "10", "1", "3", 6, "3.333333" }, { "-109.98", "1", "6", 6, "-18.330000" }, { "1", "441", "12", 2, "36.75" },
    { "0.125", "1", "1", 2, "0.13" }, { "-0.125", "1", "1", 2, "-0.13" }, { "0.125", "1", "-1", 2, "-0.13" },
    { "2", "1", "3", 0, "1" }, { "999999999999999999", "999999999999999999", "1", 2, NULL },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CroNano a = 0, b = 0, c = 0, share;
      gboolean is_held = cro_exact_parse (cases[i].a, &a) && cro_exact_parse (cases[i].b, &b)
                         && cro_exact_parse (cases[i].c, &c) && cro_exact_share (a, b, c, cases[i].places, &share);
      g_autofree char *text = is_held ? cro_exact_to_text (share, cases[i].places) : NULL;

      if (g_strcmp0 (text, cases[i].is) != 0)
        fail_msg ("%s × %s ÷ %s is %s", cases[i].a, cases[i].b, cases[i].c, text);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_a_line_is_read_by_its_namespaces),
    cmocka_unit_test (test_a_stranger_s_element_is_passed_over),
    cmocka_unit_test (test_an_invoice_is_found_in_a_pdf_file),
    cmocka_unit_test (test_of_two_invoices_in_a_pdf_file_none_is_taken),
    cmocka_unit_test (test_a_stream_that_unpacks_to_too_much_is_refused),
    cmocka_unit_test (test_many_streams_take_no_long),
    cmocka_unit_test (test_what_means_harm_is_refused),
    cmocka_unit_test (test_too_much_of_anything_is_refused),
    cmocka_unit_test (test_numbers),
    cmocka_unit_test (test_shares),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
