/* Sheets of a month's sales, counts, documents and adjustments, beside a book that knows some of their names: what
 * is understood of one is entered as one act, is known when it is read again, and is taken back. Two bits of the first
 * byte say of what kind the rest is, one that it was pasted, one that money is with tax. */
#include "fuzz.h"

#include <glib.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

#include "cro-intake-open.h"
#include "cro-intake-words.h"
#include "support/kitchen-book.h"

const char *const fuzz_seeds[] = {
  "0Date,Dish,Sold,Revenue\n2026-01-02,Tart,12,264\n2026-01-02,Tart,-1,-22\n,Total,11,242\nTide,4,400\n",
  "8name;sold;TTC;taux\nTarte aux moules;3;1.234,50 €;10 %\nTide;0;-55,00;20\nSet menu;1e3;;\n",
  "1date,item,amount,unit,place\n31/01/2026,Mussels,1.5,kg,cold room\n,Cream,2,l,\nx,Lemon,12,,\n",
  "5Mussels\t2 kg\tcold room\n2 l cream\nlemon: 3\n1/2 case lemon\nunknown 2\n",
  "2supplier,number,date,delivered,food,other,tax,total\nThe quay,Q-1,2026-01-03,2026-01-04,100,20,12,132\n"
  "The mill,M-7,2026-01-05,,50,,5,56\nThe quay,Q-1,2026-01-03,2026-01-04,90,20,11,121\n",
  "6supplier\tinvoice\tdate\tproduct\tquantity\tunit\tnet\nThe quay\tQ-2\t3 Jan 2026\tMussels\t10\tkg\t45.-\n"
  "The quay\tQ-2\t3 Jan 2026\tLemon\t\t\t9\n",
  "3kind,item,amount,unit,value,note,date\nwaste,Mussels,500,g,,dropped,2026-01-09\nstaff,,,,30,,\n"
  "waste,Cream,,,-1e9,x,\n",
  NULL,
};

static CroTestFolder folder;

static CroBook *
make_book (void)
{
  folder = cro_test_folder_new ();
  cro_test_write_table (folder.folder, "book", "key,value\ncurrency,EUR\ntax_pct,10\n");
  cro_test_write_table (folder.folder, "ingredients", "name,unit\nMussels,g\nCream,ml\nLemon,each\n");
  cro_test_write_table (folder.folder, "suppliers", "name\nThe quay\n");
  cro_test_write_table (folder.folder, "plates", "name,makes,price,tax_pct\nTart,1,22,\n");
  cro_test_write_table (folder.folder, "menus", "name,price\nTide,110\n");
  cro_test_write_table (folder.folder, "purchases", "date,document_date,supplier,document,kind,net_value\n"
                                                    "2026-01-04,2026-01-03,The quay,Q-1,food,100\n");
  return cro_test_book_load (&folder);
}

static CroBrought *
open_sheet (const char    *data,
            gsize          size,
            CroIntakeKind  kind,
            gboolean       is_pasted,
            GError       **error)
{
  g_autofree char *text = NULL, *path = NULL;

  if (is_pasted)
    {
      text = g_utf8_make_valid (data, (gssize) size);
      return cro_intake_open_pasted (text, kind, NULL, NULL, error);
    }
  path = g_build_filename (folder.folder, "sheet.csv", NULL);
  g_assert (fuzz_write (path, data, size));
  return cro_intake_open_file (path, kind, NULL, NULL, error);
}

static CroIntake *
read_sheet (CroBook          *book,
            const CroBrought *brought,
            CroIntakeKind     kind,
            gboolean          with_tax)
{
  const CroDate first = cro_date_from_civil (2026, 1, 1), last = cro_date_from_civil (2026, 1, 31);
  g_autoptr (CroIntakeReading) reading = NULL;
  g_autoptr (GError) error = NULL;
  CroIntakeColumns columns;
  CroIntake *intake;

  cro_intake_columns_find (brought, kind, &columns);
  reading = cro_intake_reading_new (book, brought, &columns, first, last, with_tax, &error);
  while (reading != NULL && cro_intake_reading_go_on (reading, 7))
    continue;
  intake = reading != NULL ? cro_intake_reading_end (reading, &error) : NULL;
  g_assert_no_error (error);
  return intake;
}

static void
check_said (GArray        *bad,
            CroIntakeKind  kind)
{
  for (guint i = 0; i < bad->len; i++)
    {
      g_autofree char *text = cro_words_intake_bad (kind, &g_array_index (bad, CroIntakeBad, i));

      g_assert (text != NULL && g_utf8_validate (text, -1, NULL));
    }
}

/* Names that the book does not know: some are new ones, where the kind has such, and some are none. Alike whenever
 * it is read. */
static void
settle (CroIntake *intake)
{
  gboolean may_be_other = intake->kind == CRO_INTAKE_SALES || intake->kind == CRO_INTAKE_DOCUMENTS;

  for (guint i = 0; i < intake->names->len; i++)
    {
      const CroIntakeName *name = &g_array_index (intake->names, CroIntakeName, i);
      gboolean is_other;

      g_assert (g_utf8_validate (name->name, -1, NULL));
      if (name->state != CRO_INTAKE_UNSETTLED)
        continue;
      is_other = may_be_other && g_str_hash (name->name) % 3 > 0;
      cro_intake_settle (intake, i, is_other ? CRO_INTAKE_OTHER : CRO_INTAKE_LEFT_OUT, CRO_REF_NOWHERE);
    }
  g_assert (cro_intake_count_unsettled (intake) == 0);
}

static guint
count_entries (CroIntake *intake,
               CroBook   *book)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) entries = NULL;
  guint n_known;

  entries = cro_intake_entries (intake, book, &n_known, &error);
  g_assert_no_error (error);
  check_said (intake->bad, intake->kind);
  check_said (intake->clashing, intake->kind);
  return entries->len;
}

int
LLVMFuzzerTestOneInput (const uint8_t *data,
                        size_t         size)
{
  static CroBook *book;
  char what = size > 0 ? (char) data[0] : '0';
  CroIntakeKind kind = (CroIntakeKind) (what & 3);
  g_autoptr (CroBrought) brought = NULL;
  g_autoptr (CroIntake) intake = NULL, again = NULL;
  g_autoptr (GError) error = NULL;
  guint n, n_made;

  if (book == NULL)
    book = make_book ();
  brought = open_sheet ((const char *) data + MIN (size, 1), size - MIN (size, 1), kind, what & 4, &error);
  if (brought == NULL)
    {
      g_assert (error != NULL);
      return 0;
    }
  intake = read_sheet (book, brought, kind, what & 8);
  settle (intake);
  n = count_entries (intake, book);
  if (n == 0)
    return 0;
  if (!cro_intake_enter (intake, book, "sheet", FALSE, &n_made, &error))
    g_error ("what is understood is not entered: %s", error->message);
  g_assert (n_made == n);
  again = read_sheet (book, brought, kind, what & 8);
  settle (again);
  g_assert (count_entries (again, book) == 0);
  if (!cro_book_undo (book, NULL, &error))
    g_error ("what was entered is not taken back: %s", error->message);
  return 0;
}
