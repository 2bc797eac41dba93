/* What a supplier sent, as a list or a message, beside a book that has a few of its packs: what is understood of it
 * can be posted. Or, behind a "@", what was set aside of a round: what is taken up again is set aside alike. */
#include "fuzz.h"

#include <glib.h>
#include <glib/gstdio.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

#include "cro-price-list-words.h"
#include "cro-round-words.h"
#include "cro-round.h"
#include "support/kitchen-book.h"

const char *const fuzz_seeds[] = {
  "Code,Name,Pack,Price\n102,Mussels,5 kg,21.75\nZ,Butter,20 x 250 g,\"1,234\"\n,Lemon,,none\n",
  "GTIN;Prix / kg;Devise\n2900400004173;4,35 €;EUR\n2900400004174;1.234,50;GBP\n",
  "Mussels 4.35/kg\n102 mussels 21.75\n- €71 butter\nlemon: none today\n50 x 1 pc 47.- oysters\n",
  "£69.50 per 5 kg\n9999999999999999999 mussels 1e5\n1/2 x 3 lb 4 oz\n\xE2\x82\xAC\xE2\x82\xAC 12.3.4,5\n",
  "@from 2026-02-28\nrow 1 right 21.75\nrow 2 - +5 %\nrow 3 filled =\nnew - turbot 3 kg 24.50/kg\n"
  "new asked cr\\303\\250me 1 l 3.20\nprefer 1\n",
  "@whole spread\nseller right\ninvoice /a\nbilled 3 62000000 EUR UR-3001\nline 1 right\nline 1 returned\n"
  "line 2 called Butter\nline 2 holds 20000000 250000000 g\nline 3 disposable\nrow 1 - 22\n",
  NULL,
};

/* 10 kg of mussels, boxes of butter, gloves, and a charge on the whole. */
static const char invoice[]
    = "<Invoice xmlns='urn:oasis:names:specification:ubl:schema:xsd:Invoice-2'"
      " xmlns:a='urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2'"
      " xmlns:b='urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2'><b:ID>UR-3001</b:ID>"
      "<b:IssueDate>2026-02-26</b:IssueDate><b:DocumentCurrencyCode>EUR</b:DocumentCurrencyCode>"
      "<a:AllowanceCharge><b:ChargeIndicator>true</b:ChargeIndicator><b:Amount>6.00</b:Amount></a:AllowanceCharge>"
      "<a:InvoiceLine><b:ID>1</b:ID><b:InvoicedQuantity unitCode='KGM'>10</b:InvoicedQuantity><b:LineExtensionAmount>"
      "40.00</b:LineExtensionAmount><a:Item><b:Name>Mussels</b:Name><a:SellersItemIdentification><b:ID>102</b:ID>"
      "</a:SellersItemIdentification></a:Item><a:Price><b:PriceAmount>4</b:PriceAmount></a:Price></a:InvoiceLine>"
      "<a:InvoiceLine><b:ID>2</b:ID><b:InvoicedQuantity unitCode='XBX'>2</b:InvoicedQuantity><b:LineExtensionAmount>"
      "62.00</b:LineExtensionAmount><a:Item><b:Name>Salt butter</b:Name></a:Item><a:Price><b:PriceAmount>31"
      "</b:PriceAmount></a:Price></a:InvoiceLine>"
      "<a:InvoiceLine><b:ID>3</b:ID><b:InvoicedQuantity unitCode='C62'>5</b:InvoicedQuantity><b:LineExtensionAmount>"
      "20.00</b:LineExtensionAmount><a:Item><b:Name>Gloves</b:Name></a:Item><a:Price><b:PriceAmount>4"
      "</b:PriceAmount></a:Price></a:InvoiceLine></Invoice>";

static CroTestFolder folder;

static CroBook *
make_book (void)
{
  folder = cro_test_folder_new ();
  cro_test_write_table (folder.folder, "book", "key,value\ncurrency,EUR\n");
  cro_test_write_table (folder.folder, "ingredients", "name,unit\nMussels,g\nButter,g\nLemon,each\n");
  cro_test_write_table (folder.folder, "suppliers", "name,quotes\nThe quay,pack\n");
  cro_test_write_table (folder.folder, "offers",
                        "ingredient,supplier,code,pack_count,pack_size,pack_unit,gtin\nMussels,The quay,102,1,5,kg,\n"
                        "Butter,The quay,301,20,250,g,2900400004173\nLemon,The quay,,1,60,each,\n");
  cro_test_write_table (folder.folder, "prices", "ingredient,supplier,code,from,price\n"
                                                 "Mussels,The quay,102,2026-01-01,21\n");
  return cro_test_book_load (&folder);
}

static void
check_row (CroModel           *model,
           const CroPriceList *list,
           const CroListRow   *row)
{
  g_assert (row->item != CRO_NO_SLOT || row->state == CRO_LIST_UNMATCHED || row->is_no_ingredient);
  g_assert (!row->is_posted || row->is_none || (row->has_price && row->price >= 0 && row->pack.size > 0));
  g_assert (!row->is_posted || !cro_list_row_waits (row));
  for (guint i = 0; row->reasons != NULL && i < row->reasons->len; i++)
    {
      g_autofree char *text = cro_words_list_reason (model, list, row, &g_array_index (row->reasons, CroListReason, i));

      g_assert (text != NULL && g_utf8_validate (text, -1, NULL));
    }
}

static void
read_list (CroBook    *book,
           const void *data,
           gsize       size)
{
  g_autofree char *path = g_build_filename (folder.folder, "list.txt", NULL);
  g_autoptr (CroPriceList) list = NULL;
  g_autoptr (GError) error = NULL;

  g_assert (fuzz_write (path, data, size));
  g_assert (cro_price_list_read (path, book, "The quay", CRO_TEST_DAY, NULL, &list, &error) == (error == NULL));
  for (guint i = 0; i < list->rows->len; i++)
    check_row (cro_book_get_model (book), list, &g_array_index (list->rows, CroListRow, i));
}

/* Whatever invoice it names is the one above: a file that is none is not kept any longer. */
static char *
dup_aside (const char *data,
           gsize       size)
{
  g_autofree char *valid = g_utf8_make_valid (data, (gssize) size), *path = NULL, *named = NULL;
  g_auto (GStrv) lines = g_strsplit (valid, "\n", -1);

  path = g_build_filename (folder.folder, "invoice.xml", NULL);
  named = g_strconcat ("invoice ", path, NULL);
  g_assert (fuzz_write (path, invoice, sizeof invoice - 1));
  for (char **line = lines; *line != NULL; line++)
    if (g_str_has_prefix (*line, "invoice "))
      {
        g_free (*line);
        *line = g_strdup (named);
      }
  return g_strjoinv ("\n", lines);
}

/* What a round is set aside as, once text is taken up; owned, NULL: nothing is in it. */
static char *
take_up (CroBook    *book,
         const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (CroRound) round = cro_round_new (book, 0, CRO_TEST_DAY, &error);
  g_autofree char *path = g_build_filename (folder.folder, "invoice.xml", NULL);

  g_assert_no_error (error);
  cro_round_set_kept (round, path);
  g_assert (cro_round_put_text (round, text, &error) == (error == NULL));
  for (guint i = 0; i < cro_round_get_n_rows (round); i++)
    {
      const CroRoundRow *row = cro_round_get_row (round, i);

      g_assert (g_utf8_validate (row->text, -1, NULL));
      g_assert (row->wrong == NULL || g_utf8_validate (row->wrong, -1, NULL));
    }
  return cro_round_to_text (round);
}

static void
read_aside (CroBook    *book,
            const char *data,
            gsize       size)
{
  g_autofree char *text = dup_aside (data, size), *said = cro_words_round_aside (text);
  g_autofree char *first = take_up (book, text), *again = first != NULL ? take_up (book, first) : NULL;

  g_assert (said == NULL || g_utf8_validate (said, -1, NULL));
  if (g_strcmp0 (first, again) != 0)
    g_error ("what was set aside:\n%s\nbecomes\n%s", first, again);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data,
                        size_t         size)
{
  static CroBook *book;

  if (book == NULL)
    book = make_book ();
  if (size > 0 && *data == '@')
    read_aside (book, (const char *) data + 1, size - 1);
  else
    read_list (book, data, size);
  return 0;
}
