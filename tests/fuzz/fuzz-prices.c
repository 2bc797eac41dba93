/* What a supplier sent, as a list or a message, beside a book that has a few of its packs. What is
 * understood of it can be posted. */
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
#include "support/kitchen-book.h"

const char *const fuzz_seeds[] = {
  "Code,Name,Pack,Price\n102,Mussels,5 kg,21.75\nZ,Butter,20 x 250 g,\"1,234\"\n,Lemon,,none\n",
  "GTIN;Prix / kg;Devise\n2900400004173;4,35 €;EUR\n2900400004174;1.234,50;GBP\n",
  "Mussels 4.35/kg\n102 mussels 21.75\n- €71 butter\nlemon: none today\n50 x 1 pc 47.- oysters\n",
  "£69.50 per 5 kg\n9999999999999999999 mussels 1e5\n1/2 x 3 lb 4 oz\n\xE2\x82\xAC\xE2\x82\xAC 12.3.4,5\n",
  NULL,
};

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

int
LLVMFuzzerTestOneInput (const uint8_t *data,
                        size_t         size)
{
  static CroBook *book;
  g_autofree char *path = NULL;
  g_autoptr (CroPriceList) list = NULL;
  g_autoptr (GError) error = NULL;

  if (book == NULL)
    book = make_book ();
  path = g_build_filename (folder.folder, "list.txt", NULL);
  g_assert (fuzz_write (path, data, size));
  g_assert (cro_price_list_read (path, book, "The quay", CRO_TEST_DAY, &list, &error) == (error == NULL));
  for (guint i = 0; i < list->rows->len; i++)
    check_row (cro_book_get_model (book), list, &g_array_index (list->rows, CroListRow, i));
  return 0;
}
