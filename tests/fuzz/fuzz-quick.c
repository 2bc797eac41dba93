/* Quick lines and pastes: what is read of a line, and lines placed into a recipe and taken back. The
 * first byte says which: most only read, as each act is written to the disk. */
#include "fuzz.h"

#include <glib.h>
#include <string.h>

#include "cro-quick.h"
#include "cro-stray.h"
#include "cro-words.h"
#include "support/store-book.h"

const char *const fuzz_seeds[] = {
  "025 g butter 9.20/kg", "02 eggs 0.34 each", "0- 25 g butter", "0• 2 x 250 g butter, soft",
  "0- ", "0½ bunch parsley", "02 cups flour", "02 kg mussels, scrubbed 4.20/kg", "0White crab meat 600 g",
  "0White crab meat\t600\tg", "02 cs d'huile", "040 g crab, as bought 13.20/kg", "01 halibut 171 EUR",
  "02 kg turbot 69.50/4 kg", "00 flour", "0500 g 00 flour", "0creme fraiche 25 g", "01.000 g salt",
  "P600 g white crab meat\n- 24 g samphire\n- 120 g butter 9.20/kg\n- 60 g BUTTER 9.40/kg\r\n-\n",
  "P2 eggs\n2 eggs 0.34 each\n\n3 c. à s. crème", "P- \n•\n* ", NULL,
};

static CroBook *book;
static guint32 plate;

static void
must (gboolean  done,
      GError   *error)
{
  if (!done)
    g_error ("%s", error->message);
}

static void
open_book (void)
{
  static const char *const names[] = { "White crab meat", "Crème fraîche", "00 flour", "Butter" };
  static CroTestFolder folder;
  GError *error = NULL;

  folder = cro_test_folder_new ();
  book = cro_book_create (folder.path, "fuzz", 20500, &error);
  must (book != NULL, error);
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    must (cro_edit_add_ingredient (book, "add", names[i], CRO_BASE_GRAM, NULL, NULL, &error), error);
  must (cro_edit_add_plate (book, "plate", "Tartlet", 24000000, &plate, &error), error);
}

static void
read_line (const char *text)
{
  g_auto (CroQuick) quick = { 0 };
  gboolean done = cro_quick_read (cro_book_get_model (book), text, cro_words_entry (), &quick);

  g_assert (done == (quick.fault == CRO_QUICK_OK));
  if (!done)
    {
      g_assert (quick.start <= quick.end && quick.end <= strlen (text));
      g_assert (g_utf8_validate (text + quick.start, (gssize) (quick.end - quick.start), NULL));
      return;
    }
  g_assert (quick.name != NULL && *quick.name != '\0' && g_utf8_validate (quick.name, -1, NULL));
  g_assert (quick.match == CRO_QUICK_EXACT || cro_stray_find (quick.name, NULL) == 0);
  g_assert (!quick.has_amount || quick.amount > 0);
  g_assert (!quick.has_price || quick.price >= 0);
  cro_quick_find (&quick, book, plate);
}

static void
place (const char *text)
{
  g_autofree char *left = NULL;
  g_autoptr (GError) error = NULL;
  guint n = 0;

  if (!cro_quick_place (book, "lines", plate, CRO_NO_SLOT, text, cro_words_entry (), "Market", 20500,
                        CRO_QUICK_MAKE_PRICED | CRO_QUICK_MAKE_ALL, &left, &n, NULL, &error))
    return;
  if (n > 0)
    must (cro_book_undo (book, NULL, &error), error);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data,
                        size_t         size)
{
  g_autofree char *text = NULL;

  if (size == 0)
    return 0;
  if (book == NULL)
    open_book ();
  text = g_utf8_make_valid ((const char *) data + 1, (gssize) size - 1);
  if (data[0] == 'P')
    place (text);
  else
    read_line (text);
  return 0;
}
