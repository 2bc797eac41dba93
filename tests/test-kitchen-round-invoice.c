/* An invoice in a round of new prices: its lines beside the supplier's rows, what waits, what its charges become. */
#include "cro-decimal.h"
#include "cro-round-words.h"
#include "support/kitchen-round.h"

#include <math.h>
#include <string.h>

/* Eggs at 45.00 with 5.5 % of tax, 42.65 without, which an invoice leaves: 45.50 is 6.7 % more than that and, with tax
 * as ever, 1.1 %. A change of the last price is of that, as it is; 43.00 is nearer to it without tax. */
static void
test_tax_that_an_invoice_forgot (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) billed = round_of (kitchen, "Quay"), round = NULL;
  g_autoptr (CroPriceList) taken = NULL, last = NULL;
  g_autofree char *meant = NULL, *note = NULL;
  g_autoptr (GError) error = NULL;
  const CroRoundRow *egg;
  guint index;

  type (billed, "Egg", "42.65 ex VAT");
  cro_round_post_free (post (billed));
  round = round_of (kitchen, "Quay");
  index = row_of (round, "Egg");
  egg = cro_round_get_row (round, index);
  type (round, "Egg", "43");
  assert_true (cro_round_row_is_ready (egg) && egg->list.tax == 0);
  type (round, "Egg", "+5 %");
  assert_true (cro_round_row_is_ready (egg));
  type (round, "Egg", "45.50 ex VAT");
  assert_true (cro_round_row_is_ready (egg) && egg->list.tax == 0);
  type (round, "Egg", "");
  /* As last is without tax, whatever the list says of its prices: that is asked. */
  assert_true (cro_round_take_text (round, "All prices incl VAT\negg as last\n", NULL, &last, &error));
  assert_true (cro_round_row_waits (egg));
  type (round, "Egg", "");
  assert_true (cro_round_take_text (round, "egg 45.50\n", NULL, &taken, &error));
  assert_true (cro_round_row_waits (egg) && cro_round_can_be_right (round, index));
  note = cro_words_round_note (round, index);
  assert_string_equal (note, "Is it without tax, as the last price? Prices before had 5.5 % in them; without, it"
                             " differs by 6.7\u00a0% per unit.");
  meant = cro_round_dup_suggestion (round, index);
  assert_string_equal (meant, "45.50 incl. VAT");
  assert_true (cro_round_suggest (round, index, &error));
  assert_true (cro_round_row_is_ready (egg) && egg->list.tax == 5500000 && egg->list.price == 45500000);
  assert_true (cro_round_renew (round, cro_round_get_from (round), &error));
  egg = cro_round_get_row (round, index);
  assert_true (cro_round_row_is_ready (egg) && egg->list.tax == 5500000);
}

/* 12 kg of crab for 168.00, 14.00 per kg where 13.20 was quoted: 9.60 to reclaim; and carriage. */
static const char invoice[] =
    "<Invoice xmlns='urn:oasis:names:specification:ubl:schema:xsd:Invoice-2'"
    " xmlns:a='urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2'"
    " xmlns:b='urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2'>"
    "<b:ID>Q-17</b:ID><b:IssueDate>2026-02-14</b:IssueDate><b:InvoiceTypeCode>380</b:InvoiceTypeCode>"
    "<b:DocumentCurrencyCode>EUR</b:DocumentCurrencyCode>"
    "<a:InvoiceLine><b:ID>1</b:ID><b:InvoicedQuantity unitCode='KGM'>12</b:InvoicedQuantity>"
    "<b:LineExtensionAmount currencyID='EUR'>168.00</b:LineExtensionAmount><a:Item><b:Name>Crab</b:Name>"
    "<a:SellersItemIdentification><b:ID>101</b:ID></a:SellersItemIdentification></a:Item>"
    "<a:Price><b:PriceAmount currencyID='EUR'>14.00</b:PriceAmount></a:Price></a:InvoiceLine>"
    "<a:InvoiceLine><b:ID>2</b:ID><b:InvoicedQuantity unitCode='C62'>1</b:InvoicedQuantity>"
    "<b:LineExtensionAmount currencyID='EUR'>4.50</b:LineExtensionAmount><a:Item><b:Name>Carriage</b:Name></a:Item>"
    "<a:Price><b:PriceAmount currencyID='EUR'>4.50</b:PriceAmount></a:Price></a:InvoiceLine>"
    "</Invoice>";

static void
test_invoice (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = round_of (kitchen, "Quay");
  g_autoptr (CroPriceList) taken = NULL;
  g_autoptr (CroRoundPost) posted = NULL;
  g_autofree char *billed = NULL, *path = g_build_filename (kitchen->folder.folder, "invoice.xml", NULL);
  g_autoptr (GError) error = NULL, gone = NULL;
  CroBook *draft;
  CroDate from;

  assert_true (g_file_set_contents (path, invoice, -1, &error));
  type (round, "Egg", "48");
  assert_true (cro_round_take (round, path, NULL, &taken, &error));
  assert_no_error (error);
  assert_non_null (cro_round_get_invoice (round));
  billed = cro_words_round_billed (round);
  assert_string_equal (billed, "Crab, 12 kg: quoted 158.40, billed 168.00, 9.60 to reclaim\n9.60 to reclaim");
  assert_int_equal (cro_round_count_ready (round), 3);
  assert_true (cro_round_renew (round, cro_round_get_from (round), &error));
  assert_int_equal (cro_round_count_ready (round), 3);
  /* What cannot be read beside another day leaves the round as it was. */
  from = cro_round_get_from (round);
  draft = cro_round_get_draft (round);
  assert_int_equal (g_remove (path), 0);
  assert_false (cro_round_renew (round, from - 1, &gone));
  assert_non_null (gone);
  assert_true (cro_round_get_from (round) == from && cro_round_get_draft (round) == draft);
  assert_int_equal (cro_round_count_ready (round), 3);
  assert_string_equal (cro_round_get_supplier (round), "Quay");
  assert_true (g_file_set_contents (path, invoice, -1, &error));
  posted = post (round);
  assert_int_equal (posted->rows->len, 3);
  assert_int_equal (count_purchases (kitchen->book), 2);
  assert_null (cro_round_get_invoice (round));
  /* 14.00 per kg is 70.00 for the list's pack. */
  assert_true (cro_round_get_row (round, row_of (round, "Crab"))->last == 70000000);
  /* The same document twice books nothing. */
  assert_true (cro_round_take (round, path, NULL, &taken, &error));
  assert_null (cro_round_get_invoice (round));
  assert_true (taken->is_all_booked);
}

static guint
billed_row (CroRound   *round,
            const char *name)
{
  for (guint i = 0; i < cro_round_get_n_rows (round); i++)
    if (cro_round_get_row (round, i)->is_billed && g_strcmp0 (cro_round_get_row (round, i)->list.name, name) == 0)
      return i;
  return CRO_NO_SLOT;
}

/* A price of 14 Feb is not in use where the book has one of a later day. */
static void
test_invoice_of_an_earlier_day (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) first = round_of (kitchen, "Quay"), round = NULL;
  g_autoptr (CroPriceList) taken = NULL;
  g_autoptr (CroRoundPost) typed = NULL, posted = NULL;
  g_autofree char *path = g_build_filename (kitchen->folder.folder, "invoice.xml", NULL), *note = NULL;
  g_autofree char *day = NULL;
  g_autoptr (GError) error = NULL;
  const CroRoundPosted *crab;
  CroDate delivered;
  guint row;

  assert_true (cro_date_parse ("2026-02-14", 10, &delivered));
  assert_true (cro_round_renew (first, delivered + 7, &error));
  type (first, "Crab", "70");
  typed = post (first);
  round = round_of (kitchen, "Quay");
  assert_true (cro_round_renew (round, delivered + 7, &error));
  assert_true (g_file_set_contents (path, invoice, -1, &error));
  assert_true (cro_round_take (round, path, NULL, &taken, &error));
  row = billed_row (round, "Crab");
  assert_true (cro_round_row_get_newer (round, cro_round_get_row (round, row)) == cro_round_get_from (round));
  assert_false (cro_round_get_row (round, row)->is_drafted);
  note = cro_words_round_note (round, row);
  assert_non_null (strstr (note, "What the book has since "));
  /* Said where the day of what is typed stands, which is another. */
  day = cro_words_round_past (round, cro_round_get_from (round));
  assert_string_equal (day, "Prices of the invoice hold from 2026-02-14, its delivery.");
  posted = post (round);
  crab = posted->rows->pdata[0];
  assert_true (posted->from == delivered && crab->from == delivered && !crab->had_row);
  assert_true (cro_round_get_row (round, row_of (round, "Crab"))->last == 70000000);
  assert_true (cro_round_take_back (kitchen->book, "back", NULL, posted->rows->pdata[0], &error));
  assert_int_equal (count_purchases (kitchen->book), 1);
  assert_true (cro_round_undo (kitchen->book, NULL, posted, NULL, &error));
  assert_int_equal (count_purchases (kitchen->book), 0);
}

/* 4 trays of 30 eggs at 7.20 where the book has boxes of 6 × 30 at 45.00 with 5.5 % tax: 120 eggs. */
static void
test_invoice_of_smaller_packs (void **state)
{
  static const char eggs[] =
      "<Invoice xmlns='urn:oasis:names:specification:ubl:schema:xsd:Invoice-2'"
      " xmlns:a='urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2'"
      " xmlns:b='urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2'>"
      "<b:ID>Q-%u</b:ID><b:IssueDate>2026-02-14</b:IssueDate><b:InvoiceTypeCode>380</b:InvoiceTypeCode>"
      "<b:DocumentCurrencyCode>EUR</b:DocumentCurrencyCode>"
      "<a:InvoiceLine><b:ID>1</b:ID><b:InvoicedQuantity unitCode='EA'>%u</b:InvoicedQuantity>"
      "<b:LineExtensionAmount currencyID='EUR'>28.80</b:LineExtensionAmount><a:Item><b:Name>Egg tray 30</b:Name>"
      "<a:SellersItemIdentification><b:ID>E1</b:ID></a:SellersItemIdentification></a:Item>"
      "<a:Price><b:PriceAmount currencyID='EUR'>%s</b:PriceAmount></a:Price></a:InvoiceLine></Invoice>";
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = round_of (kitchen, "Quay");
  g_autoptr (CroPriceList) taken = NULL;
  g_autofree char *path = g_build_filename (kitchen->folder.folder, "eggs.xml", NULL), *text = NULL;
  g_autofree char *trays = g_strdup_printf (eggs, 19, 4, "7.20");
  g_autoptr (GError) error = NULL;
  const CroRoundRow *row;
  guint index = 0;

  assert_true (g_file_set_contents (path, trays, -1, &error));
  assert_true (cro_round_take (round, path, NULL, &taken, &error));
  while (!cro_round_get_row (round, index)->is_billed)
    index++;
  assert_true (cro_round_row_waits (cro_round_get_row (round, index)));
  text = cro_round_dup_suggestion (round, index);
  assert_string_equal (text, "7.20/30 pc");
  assert_true (cro_round_suggest (round, index, &error));
  for (guint turn = 0; turn < 2; turn++)
    {
      row = cro_round_get_row (round, index);
      assert_true (cro_round_row_is_ready (row));
      assert_true (row->list.reclaim == cro_round_get_invoice (round)->reclaim && row->list.reclaim != CRO_NOT_SET);
      assert_true (row->list.pack.count == CRO_MICRO && row->list.pack.size == 30 * CRO_MICRO);
      assert_true (cro_round_renew (round, cro_round_get_from (round), &error));
    }
  cro_round_post_free (post (round));
  /* One by one that is said once: the next are eggs, too. */
  for (guint turn = 0; turn < 2; turn++)
    {
      g_autoptr (CroRound) next = round_of (kitchen, "Quay");
      g_autofree char *of = g_strdup_printf (eggs, 20 + turn, 120, "0.24");

      g_clear_pointer (&taken, cro_price_list_free);
      assert_true (g_file_set_contents (path, of, -1, &error));
      assert_true (cro_round_take (next, path, NULL, &taken, &error));
      assert_int_equal (cro_round_count_waiting (next), turn == 0 ? 1 : 0);
      if (turn == 0)
        assert_true (cro_round_hold (next, index, "1 pc", &error));
      row = cro_round_get_row (next, index);
      assert_true (cro_round_row_is_ready (row) && row->list.pack.size == CRO_MICRO);
      cro_round_post_free (post (next));
    }
}

/* Mussels that do not add up, 5 kg at 4.30 for 22.00, and sea snails that the book does not know. */
static const char doubtful[] =
    "<Invoice xmlns='urn:oasis:names:specification:ubl:schema:xsd:Invoice-2'"
    " xmlns:a='urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2'"
    " xmlns:b='urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2'>"
    "<b:ID>Q-18</b:ID><b:IssueDate>2026-02-14</b:IssueDate><b:InvoiceTypeCode>380</b:InvoiceTypeCode>"
    "<b:DocumentCurrencyCode>EUR</b:DocumentCurrencyCode>"
    "<a:InvoiceLine><b:ID>1</b:ID><b:InvoicedQuantity unitCode='KGM'>12</b:InvoicedQuantity>"
    "<b:LineExtensionAmount currencyID='EUR'>168.00</b:LineExtensionAmount><a:Item><b:Name>Crab</b:Name></a:Item>"
    "<a:Price><b:PriceAmount currencyID='EUR'>14.00</b:PriceAmount></a:Price></a:InvoiceLine>"
    "<a:InvoiceLine><b:ID>2</b:ID><b:InvoicedQuantity unitCode='KGM'>5</b:InvoicedQuantity>"
    "<b:LineExtensionAmount currencyID='EUR'>22.00</b:LineExtensionAmount><a:Item><b:Name>Mussels</b:Name></a:Item>"
    "<a:Price><b:PriceAmount currencyID='EUR'>4.30</b:PriceAmount></a:Price></a:InvoiceLine>"
    "<a:InvoiceLine><b:ID>3</b:ID><b:InvoicedQuantity unitCode='KGM'>2</b:InvoicedQuantity>"
    "<b:LineExtensionAmount currencyID='EUR'>18.00</b:LineExtensionAmount><a:Item><b:Name>Sea snails</b:Name></a:Item>"
    "<a:Price><b:PriceAmount currencyID='EUR'>9.00</b:PriceAmount></a:Price></a:InvoiceLine>"
    "<a:InvoiceLine><b:ID>4</b:ID><b:InvoicedQuantity unitCode='KGM'>-1</b:InvoicedQuantity>"
    "<b:LineExtensionAmount currencyID='EUR'>-13.20</b:LineExtensionAmount><a:Item><b:Name>Crab</b:Name></a:Item>"
    "<a:Price><b:PriceAmount currencyID='EUR'>13.20</b:PriceAmount></a:Price></a:InvoiceLine>"
    "</Invoice>";

/* With what was said of its lines, and without the file that it came from; until it is left out. */
static void
assert_set_aside (CroTestKitchen *kitchen,
                  CroRound       *round)
{
  g_autoptr (CroRound) again = round_of (kitchen, "Quay"), gone = round_of (kitchen, "Quay");
  g_autofree char *kept = g_build_filename (kitchen->folder.folder, "aside", "kept", NULL);
  g_autofree char *text = NULL, *second = NULL, *words = NULL;
  g_autoptr (GError) error = NULL, lost = NULL;

  assert_null (cro_round_to_text (round));
  assert_true (cro_round_keep_invoice (round, kept, &error));
  assert_true (cro_round_is_right (round, billed_row (round, "Sea snails"), &error));
  type (round, "Egg", "48");
  text = cro_round_to_text (round);
  words = cro_words_round_aside (text);
  assert_string_equal (words, "Set aside: 1 row · Set aside of invoice Q-18: 2 lines, 40.00 EUR, not booked");
  cro_round_set_kept (again, kept);
  assert_true (cro_round_put_text (again, text, &error));
  assert_no_error (error);
  second = cro_round_to_text (again);
  assert_string_equal (text, second);
  assert_int_equal (cro_round_count_ready (again), 2);
  assert_int_equal (cro_round_count_waiting (again), 1);
  assert_true (cro_round_leave_out_invoice (again, &error));
  assert_false (g_file_test (kept, G_FILE_TEST_EXISTS));
  assert_int_equal (cro_round_count_waiting (again), 0);
  assert_false (cro_round_put_text (gone, text, &lost));
  assert_non_null (lost);
  assert_int_equal (cro_round_count_ready (gone), 1);
}

/* Lines that wait are answered where they stand, and booked then: they alone. */
static void
test_lines_that_wait (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = round_of (kitchen, "Quay"), later = NULL;
  g_autoptr (CroPriceList) taken = NULL, again = NULL;
  g_autoptr (CroRoundPost) first = NULL, second = NULL;
  g_autofree char *path = g_build_filename (kitchen->folder.folder, "invoice.xml", NULL), *waiting = NULL;
  g_autoptr (GError) error = NULL;

  assert_true (g_file_set_contents (path, doubtful, -1, &error));
  assert_true (cro_round_take (round, path, NULL, &taken, &error));
  assert_int_equal (cro_round_count_ready (round), 2);
  assert_int_equal (cro_round_count_waiting (round), 2);
  first = post (round);
  assert_int_equal (count_purchases (kitchen->book), 2);
  waiting = cro_words_round_not_booked (round);
  assert_string_equal (waiting, "Not booked yet: Mussels, Sea snails.");
  assert_true (billed_row (round, "Crab") == CRO_NO_SLOT);
  assert_set_aside (kitchen, round);
  /* Opened once more it waits for the same. */
  later = round_of (kitchen, "Quay");
  assert_true (cro_round_take (later, path, NULL, &taken, &error));
  assert_null (taken);
  assert_true (cro_round_can_be_right (later, billed_row (later, "Mussels")));
  assert_true (cro_round_is_right (later, billed_row (later, "Mussels"), &error));
  assert_true (cro_round_is_right (later, billed_row (later, "Sea snails"), &error));
  assert_no_error (error);
  /* What was said outlives a new copy of the book. */
  assert_true (cro_round_renew (later, cro_round_get_from (later), &error));
  assert_int_equal (cro_round_count_ready (later), 2);
  assert_int_equal (cro_round_count_waiting (later), 0);
  second = post (later);
  assert_int_equal (count_purchases (kitchen->book), 4);
  assert_int_equal (second->rows->len, 2);
  assert_int_equal (cro_edit_find_name (cro_book_get_model (kitchen->book), CRO_NAMES_ITEMS, "Sea snails").kind,
                    CRO_REF_ITEM);
  assert_true (cro_round_take (later, path, NULL, &again, &error));
  assert_true (again->is_all_booked);
}

/* 10 kg of crab at 14.20 on an invoice: the sheet goes on with the 5 kg of 66.00, at 71.00. */
static void
test_invoice_leaves_the_pack (void **state)
{
  static const char kilos[] =
      "<Invoice xmlns='urn:oasis:names:specification:ubl:schema:xsd:Invoice-2'"
      " xmlns:a='urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2'"
      " xmlns:b='urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2'>"
      "<b:ID>Q-21</b:ID><b:IssueDate>2026-02-14</b:IssueDate><b:InvoiceTypeCode>380</b:InvoiceTypeCode>"
      "<b:DocumentCurrencyCode>EUR</b:DocumentCurrencyCode>"
      "<a:InvoiceLine><b:ID>1</b:ID><b:InvoicedQuantity unitCode='KGM'>10</b:InvoicedQuantity>"
      "<b:LineExtensionAmount currencyID='EUR'>142.00</b:LineExtensionAmount>"
      "<a:Item><b:Name>Crab</b:Name><a:SellersItemIdentification><b:ID>101</b:ID>"
      "</a:SellersItemIdentification></a:Item>"
      "<a:Price><b:PriceAmount>14.20</b:PriceAmount></a:Price></a:InvoiceLine></Invoice>";
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = round_of (kitchen, "Quay"), next = NULL;
  g_autoptr (CroRoundPost) posted = NULL;
  g_autoptr (CroPriceList) taken = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *path = g_build_filename (kitchen->folder.folder, "invoice.xml", NULL);
  const CroRoundRow *row;

  assert_true (g_file_set_contents (path, kilos, -1, &error));
  assert_true (cro_round_take (round, path, NULL, &taken, &error));
  posted = post (round);
  next = round_of (kitchen, "Quay");
  row = cro_round_get_row (next, row_of (next, "Crab"));
  assert_int_equal (row->pack.size, 5 * CRO_MICRO);
  assert_int_equal (row->last, 71 * CRO_MICRO);
  type (next, "Crab", "69.5");
  assert_true (cro_round_row_is_ready (row));
  assert_int_equal (row->list.price, 69500000);
  assert_int_equal (row->list.pack.size, 5 * CRO_MICRO);
  type (next, "Crab", "+10 %");
  assert_int_equal (row->list.price, 78100000);
  type (next, "Crab", "=");
  assert_int_equal (row->list.state, CRO_LIST_UNCHANGED);
}

/* Carriage of 7.00 on 168.00 of crab and 4.50 of what is no goods: 12 kg are booked at 175.00, or are 168.00 with 7.00
 * of other purchases. What was said stands when the round is read again, and goes with the invoice. */
static void
test_charges_on_the_whole (void **state)
{
  static const char charge[] = "<a:AllowanceCharge><b:ChargeIndicator>true</b:ChargeIndicator><b:Amount>7.00</b:Amount>"
                               "</a:AllowanceCharge><a:InvoiceLine>";
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = round_of (kitchen, "Quay"), again = round_of (kitchen, "Quay");
  g_autoptr (CroPriceList) taken = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *path = g_build_filename (kitchen->folder.folder, "invoice.xml", NULL), *text = NULL, *head = NULL;
  g_autofree char *kept = g_build_filename (kitchen->folder.folder, "kept.xml", NULL);
  const char *at = strstr (invoice, "<a:InvoiceLine>");
  g_autofree char *whole = g_strdup_printf ("%.*s%s%s", (int) (at - invoice), invoice, charge, at + 15);
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (CroRoundPost) post = NULL;

  assert_true (g_file_set_contents (path, whole, -1, &error));
  assert_true (cro_round_take (round, path, NULL, &taken, &error));
  assert_true (cro_round_asks_whole (round));
  head = cro_words_round_invoice (round);
  assert_non_null (strstr (head, "179.50 EUR net · posting books 172.50"));
  assert_true (cro_round_say_whole (round, CRO_WHOLE_SPREAD, &error));
  assert_false (cro_round_asks_whole (round));
  assert_true (cro_round_get_row (round, billed_row (round, "Crab"))->list.price == 14000000);
  assert_true (cro_list_row_value (&cro_round_get_row (round, billed_row (round, "Crab"))->list) == 175000000);
  assert_true (cro_round_say_whole (round, CRO_WHOLE_BOOKED, &error));
  assert_true (cro_round_get_row (round, billed_row (round, "Crab"))->list.price == 14000000);
  assert_true (cro_round_keep_invoice (round, kept, &error));
  text = cro_round_to_text (round);
  cro_round_set_kept (again, kept);
  assert_true (cro_round_put_text (again, text, &error));
  assert_int_equal (cro_round_get_invoice (again)->whole, CRO_WHOLE_BOOKED);
  assert_int_equal (cro_round_count_ready (again), 3);
  assert_true (cro_round_leave_out_invoice (again, &error));
  assert_true (g_file_set_contents (path, whole, -1, &error));
  assert_true (cro_round_take (again, path, NULL, &taken, &error));
  assert_true (cro_round_asks_whole (again));
  /* So it does once it is posted: the next invoice is asked about. What is given back takes no part, and where nothing
   * else is delivered nothing can. */
  assert_true (cro_round_say_whole (again, CRO_WHOLE_SPREAD, &error));
  assert_true (cro_round_turn (again, billed_row (again, "Crab"), TRUE, &error));
  assert_true (cro_round_asks_whole (again));
  assert_true (cro_round_turn (again, billed_row (again, "Crab"), FALSE, &error));
  assert_false (cro_round_asks_whole (again));
  post = cro_round_post (again, "post", faults, &error);
  assert_non_null (post);
  assert_null (cro_round_get_invoice (again));
  strstr (whole, "Q-17")[2] = '8';
  assert_true (g_file_set_contents (path, whole, -1, &error));
  assert_true (cro_round_take (again, path, NULL, &taken, &error));
  assert_true (cro_round_asks_whole (again));
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, set_up, cro_test_kitchen_tear_down)
  const struct CMUnitTest tests[] = {
    CASE (test_tax_that_an_invoice_forgot), CASE (test_invoice), CASE (test_invoice_of_an_earlier_day),
    CASE (test_invoice_of_smaller_packs), CASE (test_lines_that_wait), CASE (test_invoice_leaves_the_pack),
    CASE (test_charges_on_the_whole),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
