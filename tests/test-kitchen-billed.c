/* Lines of an invoice in a round: what is no ingredient, what is given back, and documents that are known again. */
#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-invoice.h"
#include "cro-price-list-words.h"
#include "cro-round-words.h"
#include "cro-round.h"
#include "support/kitchen-book.h"

#include <glib/gstdio.h>
#include <string.h>

/* Crab at 13.20 per kg from the quay. */
static int
set_up (void **state)
{
  CroTestKitchen *kitchen = g_new0 (CroTestKitchen, 1);
  const char *folder;

  kitchen->folder = cro_test_folder_new ();
  folder = kitchen->folder.folder;
  cro_test_write_table (folder, "book", "key,value\ncurrency,EUR\n");
  cro_test_write_table (folder, "ingredients", "name,unit\nCrab,g\nHake,g\n");
  cro_test_write_table (folder, "suppliers", "name\nQuay\n");
  cro_test_write_table (folder, "offers", "ingredient,supplier,code,pack_count,pack_size,pack_unit\n"
                                          "Crab,Quay,101,1,5,kg\n");
  cro_test_write_table (folder, "prices", "ingredient,supplier,code,from,price\nCrab,Quay,101,2026-02-01,66\n");
  cro_test_write_table (folder, "months", "month,closed_at\n2026-01,2026-02-03T08:00:00Z\n");
  kitchen->book = cro_test_book_load (&kitchen->folder);
  *state = kitchen;
  return 0;
}

static CroRound *
round_of (CroTestKitchen *kitchen)
{
  CroModel *model = cro_book_get_model (kitchen->book);
  g_autoptr (GError) error = NULL;
  CroRound *round = cro_round_new (kitchen->book, cro_edit_find_name (model, CRO_NAMES_SUPPLIERS, "Quay").slot,
                                   CRO_TEST_DAY, &error);

  assert_null (error);
  return round;
}

/* --- Documents ------------------------------------------------------------------------------------------ */

#define CRAB "101 KGM 2 28.00 Crab"
#define LINERS "HY-20 C62 10 31.00 Bin liners"
#define LINEN "- C62 4 12.00 Linen hire"

/* head: "number day delivered", "-" for what it does not say; lines: "code unit quantity net name", or "+ amount" for a
 * charge on the whole, "= code" for what the document is. */
static char *
document (CroTestKitchen    *kitchen,
          const char        *head,
          const char *const *lines)
{
  g_auto (GStrv) says = g_strsplit (head, " ", 3);
  g_autoptr (GString) text = g_string_new (
      "<Invoice xmlns='urn:oasis:names:specification:ubl:schema:xsd:Invoice-2'"
      " xmlns:a='urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2'"
      " xmlns:b='urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2'>");
  char *path = g_build_filename (kitchen->folder.folder, "document.xml", NULL);

  if (strcmp (says[0], "-") != 0)
    g_string_append_printf (text, "<b:ID>%s</b:ID>", says[0]);
  g_string_append_printf (text, "<b:IssueDate>%s</b:IssueDate><b:DocumentCurrencyCode>EUR</b:DocumentCurrencyCode>",
                          says[1]);
  if (strcmp (says[2], "-") != 0)
    g_string_append_printf (text, "<a:Delivery><b:ActualDeliveryDate>%s</b:ActualDeliveryDate></a:Delivery>", says[2]);
  for (guint i = 0; lines[i] != NULL; i++)
    {
      g_auto (GStrv) line = g_strsplit (lines[i], " ", 5);
      double price;

      if (g_str_equal (line[0], "="))
        {
          g_string_append_printf (text, "<b:InvoiceTypeCode>%s</b:InvoiceTypeCode>", line[1]);
          continue;
        }
      if (g_str_equal (line[0], "+"))
        {
          g_string_append_printf (text,
                                  "<a:AllowanceCharge><b:ChargeIndicator>true</b:ChargeIndicator>"
                                  "<b:Amount>%s</b:Amount></a:AllowanceCharge>",
                                  line[1]);
          continue;
        }
      price = g_ascii_strtod (line[3], NULL) / g_ascii_strtod (line[2], NULL);
      g_string_append_printf (text,
                              "<a:InvoiceLine><b:ID>%u</b:ID><b:InvoicedQuantity unitCode='%s'>%s</b:InvoicedQuantity>"
                              "<b:LineExtensionAmount>%s</b:LineExtensionAmount><a:Item><b:Name>%s</b:Name>",
                              i + 1, line[1], line[2], line[3], line[4]);
      if (strcmp (line[0], "-") != 0)
        g_string_append_printf (text, "<a:SellersItemIdentification><b:ID>%s</b:ID></a:SellersItemIdentification>",
                                line[0]);
      g_string_append_printf (text, "</a:Item><a:Price><b:PriceAmount>%.4f</b:PriceAmount></a:Price></a:InvoiceLine>",
                              price);
    }
  g_string_append (text, "</Invoice>");
  assert_true (g_file_set_contents (path, text->str, -1, NULL));
  return path;
}

/* NULL: it is part of the round; else what was read and refused. */
static CroPriceList *
take (CroTestKitchen    *kitchen,
      CroRound          *round,
      const char        *head,
      const char *const *lines)
{
  g_autofree char *path = document (kitchen, head, lines);
  g_autoptr (GError) error = NULL;
  CroPriceList *taken = NULL;

  assert_true (cro_round_take (round, path, NULL, &taken, &error));
  assert_null (error);
  return taken;
}

static void
assert_taken (CroTestKitchen    *kitchen,
              CroRound          *round,
              const char        *head,
              const char *const *lines)
{
  assert_null (take (kitchen, round, head, lines));
  assert_non_null (cro_round_get_invoice (round));
}

static guint
row_of (CroRound   *round,
        const char *name)
{
  for (guint i = 0; i < cro_round_get_n_rows (round); i++)
    if (cro_round_get_row (round, i)->is_billed
        && g_strcmp0 (cro_round_get_row (round, i)->list.name, *name != '\0' ? name : NULL) == 0)
      return i;
  fail_msg ("there is no line of %s", name);
  return 0;
}

static void
assert_note (CroRound   *round,
             const char *name,
             const char *says)
{
  g_autofree char *note = cro_words_round_note (round, row_of (round, name));

  assert_string_equal (note, says);
}

static CroRoundPost *
post (CroRound *round)
{
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (GError) error = NULL;
  CroRoundPost *posted = cro_round_post (round, "posted", faults, &error);

  assert_null (error);
  assert_non_null (posted);
  assert_null (posted->failed);
  return posted;
}

/* Every purchase of the book in the order of their booking: what, its kind, its amount, its money. */
static void
assert_bought (CroTestKitchen *kitchen,
               const char     *says)
{
  static const char *const columns[] = { "ingredient", "category", "kind", "amount_micro", "net_value_micro", NULL };
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (kitchen->book), "purchase", columns, NULL);
  g_autoptr (GString) text = g_string_new (NULL);

  while (cro_rows_next (rows, NULL))
    g_string_append_printf (text, "%s %s %g %g\n", !cro_rows_is_null (rows, 0)  ? "crab"
                            : !cro_rows_is_null (rows, 1) ? cro_rows_get_text (rows, 1)
                                                          : "",
                            cro_rows_get_text (rows, 2), cro_decimal_to_double (cro_rows_get_int (rows, 3)),
                            cro_decimal_to_double (cro_rows_get_int (rows, 4)));
  assert_string_equal (text->str, says);
}

/* --- What is no price --------------------------------------------------------------------------------------- */

static const char *const mixed[] = { CRAB, LINERS, LINEN, NULL };

static void
sort (CroRound    *round,
      const char  *name,
      CroListGoods goods)
{
  assert_true (cro_round_can_sort (round, row_of (round, name)));
  assert_true (cro_round_sort (round, row_of (round, name), goods, NULL));
}

/* costing.md §11: disposables and others stand beside food, each on its line. The answer is the supplier's code's, by
 * whatever name, until what it was given for is taken back. */
static void
test_not_food (void **state)
{
  static const char *const later[] = { "HY-20 C62 5 16.00 Sacks 100 l", LINEN, NULL };
  g_autoptr (CroRound) round = round_of (*state), second = round_of (*state), third = NULL, fourth = NULL;
  g_autoptr (CroRoundPost) posted = NULL, posted_later = NULL;
  g_autofree char *aside = NULL, *kept = NULL;
  g_autoptr (GError) error = NULL;
  CroTestKitchen *kitchen = *state;

  assert_taken (*state, round, "N-1 2026-02-14 -", mixed);
  assert_int_equal (cro_round_count_waiting (round), 2);
  assert_false (cro_round_can_sort (round, row_of (round, "Crab")));
  sort (round, "Bin liners", CRO_LIST_GOODS_DISPOSABLE);
  assert_note (round, "Bin liners", "Disposables: 31.00 is booked, no price.");
  sort (round, "Linen hire", CRO_LIST_GOODS_DISPOSABLE);
  sort (round, "Linen hire", CRO_LIST_GOODS_INGREDIENT);
  assert_int_equal (cro_round_count_waiting (round), 1);
  sort (round, "Linen hire", CRO_LIST_GOODS_OTHER);
  /* What was said stays said when it is set aside. */
  kept = g_build_filename (kitchen->folder.folder, "kept", NULL);
  assert_true (cro_round_keep_invoice (round, kept, &error));
  aside = cro_round_to_text (round);
  cro_round_set_kept (second, kept);
  assert_true (cro_round_put_text (second, aside, &error));
  assert_int_equal (cro_round_count_waiting (second), 0);
  posted = post (second);
  assert_int_equal (posted->rows->len, 3);
  /* Undone it stands there again, with what was said of its lines. */
  assert_false (g_file_test (kept, G_FILE_TEST_EXISTS));
  assert_true (cro_round_undo (kitchen->book, NULL, posted, NULL, &error));
  assert_true (cro_round_renew (second, cro_round_get_from (second), &error));
  assert_true (cro_round_retype (second, posted, &error));
  assert_int_equal (cro_round_count_ready (second), 3);
  assert_int_equal (cro_round_count_waiting (second), 0);
  g_clear_pointer (&posted, cro_round_post_free);
  posted = post (second);
  assert_bought (*state, "crab food 2 28\nBin liners (HY-20) disposable 0 31\nLinen hire other 0 12\n");
  assert_int_equal (cro_edit_find_name (cro_book_get_model (kitchen->book), CRO_NAMES_ITEMS, "Bin liners").kind,
                    CRO_REF_NONE);
  third = round_of (*state);
  assert_taken (*state, third, "N-2 2026-02-15 -", later);
  assert_int_equal (cro_round_count_waiting (third), 0);
  assert_note (third, "Sacks 100 l", "Disposables, as last time: 16.00 is booked, no price.");
  assert_note (third, "Linen hire", "No ingredient, as last time: 12.00 is booked as other, no price.");
  posted_later = post (third);
  assert_true (cro_round_undo (kitchen->book, NULL, posted_later, NULL, &error));
  assert_true (cro_round_undo (kitchen->book, NULL, posted, NULL, &error));
  assert_bought (*state, "");
  fourth = round_of (*state);
  assert_taken (*state, fourth, "N-2 2026-02-15 -", later);
  assert_int_equal (cro_round_count_waiting (fourth), 2);
}

/* 2 kg of crab that go back, of which the document only says 28.00. */
static void
test_return (void **state)
{
  static const char *const lines[] = { CRAB, NULL };
  g_autoptr (CroRound) round = round_of (*state), again = NULL;
  g_autoptr (CroRoundPost) posted = NULL;
  g_autoptr (CroPriceList) refused = NULL;
  g_autofree char *billed = NULL;

  assert_taken (*state, round, "N-3 2026-02-14 -", lines);
  assert_true (cro_round_can_turn (round, row_of (round, "Crab")));
  assert_true (cro_round_turn (round, row_of (round, "Crab"), TRUE, NULL));
  assert_true (cro_round_turn (round, row_of (round, "Crab"), FALSE, NULL));
  billed = cro_words_round_billed (round);
  assert_string_equal (billed, "Crab, 2 kg: quoted 26.40, billed 28.00, 1.60 to reclaim\n1.60 to reclaim");
  assert_true (cro_round_turn (round, row_of (round, "Crab"), TRUE, NULL));
  assert_note (round, "Crab", "Returned: −28.00 is booked, no price.");
  assert_true (cro_round_get_invoice (round)->reclaim == CRO_NOT_SET);
  assert_true (cro_round_renew (round, CRO_TEST_DAY, NULL));
  assert_note (round, "Crab", "Returned: −28.00 is booked, no price.");
  posted = post (round);
  assert_int_equal (posted->rows->len, 1);
  assert_bought (*state, "crab food -2 -28\n");
  again = round_of (*state);
  refused = take (*state, again, "N-3 2026-02-14 -", lines);
  assert_true (refused->is_all_booked && !refused->is_booked_otherwise);
}

/* Of 2 kg at 13.20 each 0.60 is given back: goods at 0.30, or a part of what they cost, which is said in the round, when
 * it is set aside and when it is read again. By hand. */
static void
test_price_goes_back (void **state)
{
  static const char *const lines[] = { "101 KGM -2 -0.60 Crab", NULL };
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = round_of (kitchen), other = round_of (kitchen), again = NULL, third = NULL;
  g_autoptr (CroRoundPost) posted = NULL;
  g_autoptr (CroPriceList) refused = NULL;
  g_autofree char *kept = g_build_filename (kitchen->folder.folder, "kept", NULL), *aside = NULL;
  guint index;

  assert_taken (kitchen, other, "C-2 2026-02-14 -", lines);
  assert_true (cro_round_is_right (other, row_of (other, "Crab"), NULL));
  assert_note (other, "Crab", "Returned: −0.60 is booked, no price.");
  assert_taken (kitchen, round, "C-1 2026-02-14 -", lines);
  index = row_of (round, "Crab");
  assert_note (round, "Crab", "The credit is 0.30 for 1 kg, the price was 13.20: do the goods go back, or a part of "
                              "the price?");
  assert_true (cro_round_row_asks_back (cro_round_get_row (round, index)));
  assert_true (cro_round_suggest (round, index, NULL));
  assert_note (round, "Crab", "Price credited: −0.60 is booked, the goods stay.");
  assert_true (cro_round_give_back (round, index, CRO_LIST_BACK_GOODS, NULL));
  assert_note (round, "Crab", "Returned: −0.60 is booked, no price.");
  assert_true (cro_round_give_back (round, index, CRO_LIST_BACK_PRICE, NULL));
  assert_true (cro_round_renew (round, CRO_TEST_DAY, NULL));
  assert_true (cro_round_keep_invoice (round, kept, NULL));
  aside = cro_round_to_text (round);
  again = round_of (kitchen);
  assert_true (cro_round_put_text (again, aside, NULL));
  assert_note (again, "Crab", "Price credited: −0.60 is booked, the goods stay.");
  posted = post (again);
  assert_bought (kitchen, "crab food 0 -0.6\n");
  third = round_of (kitchen);
  refused = take (kitchen, third, "C-1 2026-02-14 -", lines);
  assert_true (refused->is_all_booked && !refused->is_booked_otherwise);
}

/* 1 kg of 10 that goes back by another name: said to be right it stops no price of what is delivered. */
static void
test_return_beside_a_delivery (void **state)
{
  static const char *const lines[] = { "101 KGM 10 150.00 Crab", "101 KGM -1 -15.00 Hake", NULL };
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = round_of (*state);
  g_autoptr (CroRoundPost) posted = NULL;

  assert_taken (*state, round, "N-4 2026-02-14 -", lines);
  assert_true (cro_round_can_be_right (round, row_of (round, "Hake")));
  assert_true (cro_round_is_right (round, row_of (round, "Hake"), NULL));
  posted = post (round);
  assert_bought (*state, "crab food 10 150\ncrab food -1 -15\n");
  assert_true (cro_model_offer (cro_book_get_model (kitchen->book), 0)->offer.price == 15 * CRO_MICRO);
  /* Beside another invoice it cannot stand in the round again. */
  assert_true (cro_round_can_retype (round, posted));
  assert_taken (*state, round, "N-6 2026-02-14 -", lines);
  assert_false (cro_round_can_retype (round, posted));
}

/* A crab at 13.20, of a pack of 5 kg at 66.00: 9 kg for that would be a ninth of the price before, which what is said
 * of the pack does not answer; said anew, 1 kg is the price before. */
static void
test_pack_is_said (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = round_of (kitchen);
  const CroRoundRow *row;
  guint index;

  assert_taken (kitchen, round, "R-7 2026-02-20 -", (const char *const[]){ "101 C62 2 26.40 Crab", NULL });
  index = row_of (round, "Crab");
  row = cro_round_get_row (round, index);
  assert_int_equal (row->list.look.kind, CRO_LOOK_PACK);
  /* That 13.20 is right says neither that it is of the kilogram nor that it is of the book's pack. */
  assert_false (cro_round_can_be_right (round, index));
  assert_true (cro_round_can_hold (round, index) && cro_round_hold (round, index, "9 kg", NULL));
  assert_true (cro_round_row_waits (row) && cro_round_can_be_right (round, index));
  assert_true (cro_round_can_hold (round, index) && cro_round_hold (round, index, "1 kg", NULL));
  assert_true (cro_round_row_is_ready (row));
}

/* 2 boxes of 4 kg of what turns out to be crab, of which the book has packs of 5 kg: they hold 4 kg beside another
 * copy of the book too, and when they are taken up again. */
static void
test_pack_is_said_first (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = round_of (kitchen), again = round_of (kitchen);
  g_autofree char *kept = g_build_filename (kitchen->folder.folder, "kept", NULL), *aside = NULL, *second = NULL;
  g_autoptr (CroRoundPost) posted = NULL;
  g_autoptr (GError) error = NULL;
  guint index;

  assert_taken (kitchen, round, "R-8 2026-02-20 -", (const char *const[]){ "- XBX 2 105.60 Brown meat", NULL });
  index = row_of (round, "Brown meat");
  assert_true (cro_round_can_hold (round, index) && cro_round_hold (round, index, "4 kg", &error));
  assert_true (cro_round_can_call (round, index) && cro_round_call (round, index, 0, &error));
  assert_true (cro_round_renew (round, cro_round_get_from (round), &error));
  assert_true (cro_round_keep_invoice (round, kept, &error));
  aside = cro_round_to_text (round);
  assert_non_null (strstr (aside, "holds 1000000 4000000 kg"));
  cro_round_set_kept (again, kept);
  assert_true (cro_round_put_text (again, aside, &error));
  second = cro_round_to_text (again);
  assert_string_equal (second, aside);
  posted = post (again);
  assert_bought (kitchen, "crab food 8 105.6\n");
}

/* A file of state that something else wrote: é that is no text, a stroke that is of nothing. */
static void
test_set_aside_by_another (void **state)
{
  g_autoptr (CroRound) round = round_of (*state);
  g_autoptr (GError) error = NULL;

  assert_true (cro_round_put_text (round, "new - cr\\350me 1 l 3.20\nnew - hake 2 kg 20\\\n"
                                          "line 1 called \\351\\", &error));
  assert_int_equal (cro_round_get_n_rows (round), 3);
  for (guint i = 0; i < 3; i++)
    assert_true (g_utf8_validate (cro_round_get_row (round, i)->text, -1, NULL));
  assert_string_equal (cro_round_get_row (round, 2)->text, "hake 2 kg 20");
}

/* Whatever file a text names that is set aside: one that is not the round's own stays where it is, booked or not. */
static void
test_set_aside_names_a_file (void **state)
{
  static const char *const lines[] = { CRAB, NULL };
  CroTestKitchen *kitchen = *state;
  g_autofree char *invoice = document (kitchen, "N-5 2026-02-14 -", lines);
  g_autofree char *list = g_build_filename (kitchen->folder.folder, "list.csv", NULL);
  g_autofree char *aside = g_build_filename (kitchen->folder.folder, "aside", "kept", NULL);
  const char *files[] = { list, invoice };

  assert_true (g_file_set_contents (list, "Code;Product;Pack;Price\n101;Crab;5 kg;67\n", -1, NULL));
  for (gsize i = 0; i < G_N_ELEMENTS (files); i++)
    {
      g_autofree char *said = g_strdup_printf ("invoice %s/aside/../%s\n", kitchen->folder.folder,
                                               strrchr (files[i], '/') + 1);
      g_autoptr (CroRound) round = round_of (kitchen);
      g_autoptr (CroRoundPost) posted = NULL;

      cro_round_set_kept (round, aside);
      assert_true (cro_round_put_text (round, said, NULL));
      assert_false (cro_round_is_invoice_kept (round));
      assert_int_equal (cro_round_count_ready (round), 1);
      posted = post (round);
      assert_true (g_file_test (files[i], G_FILE_TEST_EXISTS));
    }
}

static void
test_set_aside_is_gone (void **state)
{
  g_autoptr (CroRound) round = round_of (*state);
  g_autoptr (GError) error = NULL;
  g_autofree char *words = NULL;
  static const char text[] = "new - hake 2 kg 20\ninvoice /nowhere/kept.xml\nbilled 1 70000000 EUR N-5\n";

  assert_false (cro_round_put_text (round, text, &error));
  assert_int_equal (cro_round_get_n_rows (round), 2);
  words = cro_words_round_lost (text, error);
  assert_string_equal (words, "The invoice that was set aside in /nowhere/kept.xml could not be read again: there is no"
                              " such file or folder. Drop the invoice here once more.");
  g_free (words);
  g_clear_error (&error);
  g_set_error_literal (&error, CRO_INVOICE_ERROR, CRO_INVOICE_ERROR_DAMAGED, "depth");
  words = cro_words_round_lost (text, error);
  assert_string_equal (words, "The invoice that was set aside in /nowhere/kept.xml could not be read again: the"
                              " document is damaged. Drop the invoice here once more.");
  g_free (words);
  g_clear_error (&error);
  g_set_error_literal (&error, CRO_STORE_ERROR, CRO_STORE_ERROR_LOCKED, "locked");
  words = cro_words_round_lost (text, error);
  assert_true (g_str_has_prefix (words, "What was set aside could not be put back: another program"));
}

/* 70.00 typed beside 14.00 per kg of 5 kg, of one day: one of both is posted, and listed. */
static void
test_typed_gives_way (void **state)
{
  static const char *const lines[] = { CRAB, NULL };
  g_autoptr (CroRound) round = round_of (*state);
  g_autoptr (CroRoundPost) posted = NULL;
  char day[CRO_DATE_CHARS];
  g_autofree char *head = NULL;

  cro_date_format (CRO_TEST_DAY, day);
  head = g_strdup_printf ("N-5 %s -", day);
  assert_true (cro_round_type (round, 0, "70", NULL));
  assert_taken (*state, round, head, lines);
  assert_int_equal (cro_round_count_ready (round), 2);
  posted = post (round);
  assert_int_equal (posted->rows->len, 1);
  assert_non_null (((CroRoundPosted *) posted->rows->pdata[0])->booked);
  assert_non_null (((CroRoundPosted *) posted->rows->pdata[0])->price);
}

/* --- Charges on the whole ---------------------------------------------------------------------------------- */

static void
assert_said (char       *said,
             const char *part)
{
  if (strstr (said, part) == NULL)
    fail_msg ("“%s” does not say “%s”", said, part);
  g_free (said);
}

/* Of 28.00 and 31.00 a tenth each. Lines that are booked get their parts when it is said that they have any; liners
 * that are disposables theirs. By hand. */
static void
test_charges_said_later (void **state)
{
  static const char *const lines[] = { CRAB, LINERS, "+ 5.90", NULL };
  g_autoptr (CroRound) round = round_of (*state), again = NULL, third = NULL;
  g_autoptr (CroRoundPost) posted = NULL, second = NULL;
  g_autoptr (CroPriceList) refused = NULL;

  assert_taken (*state, round, "N-9 2026-02-14 -", lines);
  sort (round, "Bin liners", CRO_LIST_GOODS_DISPOSABLE);
  posted = post (round);
  assert_bought (*state, "crab food 2 28\nBin liners (HY-20) disposable 0 31\n");
  again = round_of (*state);
  assert_taken (*state, again, "N-9 2026-02-14 -", lines);
  assert_true (cro_round_asks_whole (again));
  assert_true (cro_round_say_whole (again, CRO_WHOLE_SPREAD, NULL));
  assert_int_equal (cro_round_count_ready (again), 2);
  /* Crab was compared when it was posted: that nothing is to be compared is not so. */
  assert_null (cro_words_round_billed (again));
  assert_note (again, "Crab", "Its part of the charges on the whole document: 2.80.");
  assert_false (cro_round_can_sort (again, row_of (again, "Bin liners")));
  assert_said (cro_words_round_invoice (again), "booked 59.00 of 64.90 · posting books 5.90 ·");
  second = post (again);
  assert_bought (*state, "crab food 2 28\nBin liners (HY-20) disposable 0 31\ncrab food 0 2.8\n"
                         "Bin liners (HY-20) disposable 0 3.1\n");
  third = round_of (*state);
  refused = take (*state, third, "N-9 2026-02-14 -", lines);
  assert_true (refused->is_all_booked && !refused->is_booked_otherwise);
}

/* A line that goes back takes its part along, and both come back. */
static void
test_part_goes_with_its_line (void **state)
{
  static const char *const lines[] = { CRAB, LINERS, "+ 5.90", NULL };
  CroTestKitchen *kitchen = *state;
  g_autoptr (GPtrArray) posts = g_ptr_array_new_with_free_func ((GDestroyNotify) cro_round_post_free);
  g_autoptr (CroRound) round = round_of (*state), again = NULL;
  g_autoptr (GError) error = NULL;
  CroRoundPosted *crab;

  assert_taken (*state, round, "N-9 2026-02-14 -", lines);
  sort (round, "Bin liners", CRO_LIST_GOODS_DISPOSABLE);
  g_ptr_array_add (posts, post (round));
  assert_taken (*state, round, "N-9 2026-02-14 -", lines);
  assert_true (cro_round_say_whole (round, CRO_WHOLE_SPREAD, NULL));
  g_ptr_array_add (posts, post (round));
  crab = ((CroRoundPost *) posts->pdata[0])->rows->pdata[0];
  assert_true (cro_round_take_back (kitchen->book, "back", posts, crab, NULL));
  assert_bought (*state, "Bin liners (HY-20) disposable 0 31\nBin liners (HY-20) disposable 0 3.1\n");
  /* Of what has a part already no other answer is taken, and the line stays. */
  assert_true (cro_round_renew (round, CRO_TEST_DAY, NULL));
  assert_taken (*state, round, "N-9 2026-02-14 -", lines);
  assert_false (cro_round_say_whole (round, CRO_WHOLE_LEFT_OUT, &error));
  assert_string_equal (error->message, "the book has purchases of document N-9 with other amounts");
  assert_non_null (cro_round_get_invoice (round));
  assert_int_equal (cro_round_get_invoice (round)->whole, CRO_WHOLE_SPREAD);
  assert_true (row_of (round, "Crab") != CRO_NO_SLOT);
  /* The file is taken again, and books what the book has not. */
  again = round_of (*state);
  assert_taken (*state, again, "N-9 2026-02-14 -", lines);
  assert_int_equal (cro_round_count_ready (again) + cro_round_count_waiting (again), 1);
  for (guint i = 2; i > 0; i--)
    assert_true (cro_round_undo (kitchen->book, posts, posts->pdata[i - 1], NULL, NULL));
  assert_bought (*state, "");
}

/* What is said of the charges, of what is given back and of the document's total is what is booked. */
static void
test_charges_in_words (void **state)
{
  static const char *const lines[] = { CRAB, LINERS, "+ 5.90", NULL };
  g_autoptr (CroRound) round = round_of (*state);
  g_autoptr (CroRoundPost) posted = NULL;

  assert_taken (*state, round, "N-10 2026-02-14 -", lines);
  assert_true (cro_round_say_whole (round, CRO_WHOLE_SPREAD, NULL));
  assert_said (cro_words_round_invoice (round), "spread over its goods: 5.90, of it 3.10 on lines that wait");
  assert_true (cro_round_say_whole (round, CRO_WHOLE_LEFT_OUT, NULL));
  assert_said (cro_words_round_invoice (round), "charges of 5.90 on the whole document are left out");
  assert_true (cro_round_say_whole (round, CRO_WHOLE_BOOKED, NULL));
  sort (round, "", CRO_LIST_GOODS_DISPOSABLE);
  sort (round, "Bin liners", CRO_LIST_GOODS_DISPOSABLE);
  assert_true (cro_round_turn (round, row_of (round, "Crab"), TRUE, NULL));
  assert_said (cro_words_round_invoice (round), "booked as disposables: 5.90");
  posted = post (round);
  assert_bought (*state, "crab food -2 -28\nBin liners (HY-20) disposable 0 31\n disposable 0 5.9\n");
}

/* --- Documents that are known again --------------------------------------------------------------------------- */

/* One number that reads like another is asked about, once for all of its lines. */
static void
test_numbers (void **state)
{
  static const char *const lines[] = { CRAB, "- C62 1 4.50 Carriage", NULL };
  static const char *const alike[] = { "n-4", "N\u00a0-4", "N-\u200b4", "\uff2e-4" };
  g_autoptr (CroRound) round = round_of (*state), other = NULL;
  g_autoptr (CroRoundPost) posted = NULL, second = NULL;
  g_autoptr (CroPriceList) refused = NULL;

  assert_taken (*state, round, "N-4 2026-02-14 -", lines);
  posted = post (round);
  for (gsize i = 0; i < G_N_ELEMENTS (alike); i++)
    {
      g_autoptr (CroRound) again = round_of (*state);
      g_autofree char *head = g_strdup_printf ("%s 2026-02-14 -", alike[i]);

      assert_taken (*state, again, head, lines);
      assert_int_equal (cro_round_count_ready (again), 0);
      assert_int_equal (cro_round_count_waiting (again), 2);
    }
  other = round_of (*state);
  refused = take (*state, other, "N-4 2026-02-14 -", lines);
  assert_true (refused->is_all_booked);
  assert_taken (*state, other, "n-4 2026-02-14 -", lines);
  assert_note (other, "Carriage", "Document n-4 is booked already, as N-4. Is this another one?");
  assert_true (cro_round_is_right (other, row_of (other, "Crab"), NULL));
  assert_int_equal (cro_round_count_ready (other), 2);
  second = post (other);
  assert_int_equal (second->rows->len, 2);
  assert_bought (*state, "crab food 2 28\nCarriage other 0 4.5\ncrab food 2 28\nCarriage other 0 4.5\n");
}

/* What waits of one without a number waits on, and nothing of it is booked twice; what was booked by hand that day is
 * not its. */
static void
test_no_number (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = round_of (*state), again = NULL;
  g_autoptr (CroRoundPost) posted = NULL, second = NULL;
  g_autoptr (CroPriceList) refused = NULL;
  g_autofree char *why = NULL, *kept = NULL, *aside = NULL, *words = NULL;

  assert_taken (*state, round, "- 2026-02-14 -", mixed);
  posted = post (round);
  assert_non_null (cro_round_get_invoice (round));
  assert_int_equal (cro_round_count_waiting (round), 2);
  kept = g_build_filename (kitchen->folder.folder, "kept", NULL);
  assert_true (cro_round_keep_invoice (round, kept, NULL));
  aside = cro_round_to_text (round);
  words = cro_words_round_aside (aside);
  assert_string_equal (words, "Set aside of an invoice without a number: 2 lines, 43.00 EUR, not booked");
  sort (round, "Bin liners", CRO_LIST_GOODS_DISPOSABLE);
  sort (round, "Linen hire", CRO_LIST_GOODS_OTHER);
  second = post (round);
  assert_bought (*state, "crab food 2 28\nBin liners (HY-20) disposable 0 31\nLinen hire other 0 12\n");
  again = round_of (*state);
  refused = take (*state, again, "- 2026-02-14 -", mixed);
  why = cro_words_list_refused (refused, NULL);
  assert_string_equal (why,
                       "the book has all lines of this invoice; it has no number, and was known by its date");
  assert_taken (*state, again, "- 2026-02-15 -", mixed);
}

static void
test_impossible_dates (void **state)
{
  static const char *const lines[] = { CRAB, NULL };
  static const struct { const char *head, *says; } cases[] = {
    { "N-5 2026-02-14 2026-02-31", "“2026-02-31” is not a date; the invoice is booked on 2026-02-14" },
    { "N-6 2026-13-14 -", "“2026-13-14” is not a date; the invoice is booked on 2026-02-16" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CroRound) round = round_of (*state);
      g_autofree char *said = NULL;

      assert_taken (*state, round, cases[i].head, lines);
      said = cro_words_round_invoice (round);
      assert_non_null (strstr (said, cases[i].says));
    }
}

/* 14.00 per kg delivered on 14 Feb, which was quoted 13.20; on the 15th 75.00 for 5 kg, or none, was posted. By
 * hand. */
static void
test_older_than_the_list (void **state)
{
  static const char *const lines[] = { CRAB, NULL };
  static const char *const since[] = { "75", "-" };
  CroTestKitchen *kitchen = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (since); i++)
    {
      g_autoptr (CroRound) first = round_of (kitchen), round = NULL;
      g_autoptr (CroRoundPost) typed = NULL, posted = NULL;
      g_autofree char *change = NULL;
      CroModel *model;
      guint32 crab;
      double before;

      assert_true (cro_round_renew (first, CRO_TEST_DAY - 1, NULL));
      assert_true (cro_round_type (first, 0, since[i], NULL));
      typed = post (first);
      round = round_of (kitchen);
      assert_taken (kitchen, round, "N-7 2026-02-14 -", lines);
      change = cro_words_round_change (cro_round_get_row (round, row_of (round, "Crab")));
      assert_true (g_str_has_prefix (change, "+6.1"));
      model = cro_book_get_model (cro_round_get_draft (round));
      crab = cro_edit_find_name (model, CRO_NAMES_ITEMS, "Crab").slot;
      before = cro_figures_unit_cost (cro_book_get_figures (cro_round_get_draft (round)), crab);
      posted = post (round);
      assert_true (before == (i == 0 ? 0.015 : 0.014));
      assert_true (cro_figures_unit_cost (cro_book_get_figures (kitchen->book), crab) == before);
      assert_true (cro_round_undo (kitchen->book, NULL, posted, NULL, NULL));
      assert_true (cro_round_undo (kitchen->book, NULL, typed, NULL, NULL));
    }
}

/* What is given free is booked and says no price, whatever is accepted of its document; a corrected invoice may have
 * what is booked already. 2 kg at 14.00, one free, and a pack of 5 kg at the same price per kg. */
static void
test_free_goods (void **state)
{
  static const char *const lines[] = { "= 384", CRAB, "101 KGM 1 0.00 Crab", "101 EA 1 70.00 Crab", NULL };
  g_autoptr (CroRound) round = round_of (*state);
  g_autoptr (CroRoundPost) posted = NULL;
  g_autofree char *note = NULL;
  guint first;

  assert_taken (*state, round, "N-9 2026-02-14 -", lines);
  assert_int_equal (cro_round_count_waiting (round), 3);
  first = cro_round_get_n_rows (round) - 3;
  note = cro_words_round_note (round, first);
  assert_string_equal (note, "The document is a corrected invoice (type 384). Is it to be booked as an invoice?");
  assert_true (cro_round_is_right (round, first + 1, NULL));
  assert_int_equal (cro_round_count_waiting (round), 0);
  posted = post (round);
  assert_bought (*state, "crab food 2 28\ncrab food 1 0\ncrab food 5 70\n");
  assert_int_equal (cro_round_get_row (round, 0)->last, 5 * 14000000);
}

/* Posted is posted, whether what waits can be read again or not; the rows are those of the book, by the list's pack
 * of 5 kg. */
static void
test_file_is_gone (void **state)
{
  g_autoptr (CroRound) round = round_of (*state);
  g_autofree char *path = document (*state, "N-8 2026-02-14 -", mixed);
  g_autoptr (CroPriceList) taken = NULL;
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (CroRoundPost) posted = NULL;

  assert_true (cro_round_take (round, path, NULL, &taken, NULL));
  assert_int_equal (g_remove (path), 0);
  posted = cro_round_post (round, "posted", faults, NULL);
  assert_non_null (posted);
  assert_non_null (posted->failed);
  assert_bought (*state, "crab food 2 28\n");
  assert_null (cro_round_get_invoice (round));
  assert_false (cro_round_is_behind (round));
  assert_int_equal (cro_round_get_row (round, 0)->last, 5 * 14000000);
}

static void
test_closed_month (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autofree char *said = cro_words_prices_closed (kitchen->book, CRO_TEST_DAY - 20);

  assert_string_equal (said, "months closed up to 2026-01-31 do not change");
  assert_null (cro_words_prices_closed (kitchen->book, CRO_TEST_DAY));
}

#define CASE(test) cmocka_unit_test_setup_teardown (test, set_up, cro_test_kitchen_tear_down)

/* A reason that is not told would be read as another. */
static void
test_each_reason_is_told (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (GHashTable) told = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  CroPriceList list = { .currency = "EUR" };
  CroListRow row = { .code = "101", .offer = CRO_NO_SLOT,
                     .look = { .kind = CRO_LOOK_FAR, .ratio = 2, .meant = CRO_NOT_SET } };

  for (guint why = 0; why <= CRO_LIST_TOO_LARGE; why++)
    {
      CroListReason reason = { why, "text", "other" };
      char *words = cro_words_list_reason (cro_book_get_model (kitchen->book), &list, &row, &reason);

      if (words == NULL || *words == '\0' || !g_hash_table_add (told, words))
        fail_msg ("reason %u: %s", why, words);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CASE (test_not_food), CASE (test_pack_is_said), CASE (test_pack_is_said_first),
    CASE (test_set_aside_by_another), CASE (test_set_aside_names_a_file), CASE (test_set_aside_is_gone),
    CASE (test_return), CASE (test_price_goes_back), CASE (test_typed_gives_way), CASE (test_return_beside_a_delivery),
    CASE (test_charges_said_later), CASE (test_part_goes_with_its_line),
    CASE (test_charges_in_words),
    CASE (test_numbers),
    CASE (test_no_number),
    CASE (test_impossible_dates),
    CASE (test_older_than_the_list),
    CASE (test_free_goods),
    CASE (test_file_is_gone),
    CASE (test_closed_month),
    CASE (test_each_reason_is_told),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
