#include "config.h"

#include "cro-cli-month.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <string.h>

#include "cro-catalogue.h"
#include "cro-finite.h"
#include "cro-office.h"

gboolean
cro_cli_knows_language (const char *language)
{
  if (language == NULL || cro_catalogue_has (language))
    return TRUE;
  g_printerr (_("No translation into “%s” is installed for this program. Use en, or install that translation.\n"),
              language);
  return FALSE;
}

static CroCliStatus
fail_to_write (const char   *path,
               const GError *error)
{
  cro_cli_end_progress ();
  return cro_cli_fail (path, error);
}

typedef struct
{
  CroBook    *book;
  CroDate     first;      /* of the month */
  GHashTable *accounts;
  const char *language;
  int         shown;      /* per cent */
  CroMonth   *month;      /* that was written */
} Writing;

static gboolean
write_office (const char  *path,
              gpointer     user_data,
              GError     **error)
{
  Writing *writing = user_data;

  return cro_office_write_month (writing->book, writing->first, writing->accounts, path, writing->language,
                                 cro_cli_show_progress, &writing->shown, &writing->month, error);
}

static CroCliStatus
write_workbook (Writing    *writing,
                const char *path)
{
  CroFigures *figures = cro_book_get_figures (writing->book);
  const char *name = cro_finite_find_any (figures);
  g_autoptr (GError) error = NULL;

  if (name != NULL)
    {
      cro_cli_print_too_large (name);
      return CRO_CLI_REFUSED;
    }
  cro_cli_note_interrupts ();
  if (!cro_cli_write_file (path, write_office, writing, &error))
    return fail_to_write (path, error);
  if (writing->month != NULL)
    return cro_cli_say_month_incomplete (writing->month) ? CRO_CLI_INCOMPLETE : CRO_CLI_DONE;
  return cro_cli_is_all_well (writing->book) ? CRO_CLI_DONE : CRO_CLI_INCOMPLETE;
}

CroCliStatus
cro_cli_workbook (int    argc,
                  char **argv)
{
  g_autofree char *month = NULL;
  g_autofree char *path = NULL;
  g_autofree char *language = NULL;
  g_autofree char *accounts = NULL;
  GOptionEntry entries[] = {
    { "month", 0, 0, G_OPTION_ARG_STRING, &month,
      N_("The month, at the prices of its last day; of today if it is not over"), N_("YYYY-MM") },
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &path, N_("The file to write; - is standard output"), N_("FILE.xlsx") },
    { "language", 0, 0, G_OPTION_ARG_STRING, &language,
      N_("Language of its words; en by default"), N_("CODE") },
    { "accounts", 0, 0, G_OPTION_ARG_FILENAME, &accounts,
      N_("Accounts of the journal: a table with the columns entry, debit, credit"), N_("FILE") },
    { NULL },
  };
  CroCliStatus status;
  Writing writing = { .shown = -1 };
  g_autoptr (GHashTable) of_journal = NULL;
  g_autoptr (CroBook) book = NULL;
  g_autoptr (GError) error = NULL;

  if (!cro_cli_parse ("workbook", "BOOK", _("Write the office’s spreadsheet: the month, and the book in formulas."),
                      entries, &argc, &argv, &status))
    return status;
  if (month == NULL)
    {
      g_printerr (_("--month is needed: which month to write (YYYY-MM)\n"));
      return CRO_CLI_REFUSED;
    }
  if (!cro_cli_read_month (month, &writing.first))
    return CRO_CLI_REFUSED;
  if (!cro_cli_knows_language (language))
    return CRO_CLI_REFUSED;
  if (!cro_cli_can_write (path, argv[1]) || !cro_cli_keeps_accounts (path, accounts))
    return CRO_CLI_REFUSED;
  if (!cro_cli_read_accounts (accounts, &of_journal, &status))
    return status;
  book = cro_book_open (argv[1], NULL, CRO_STORE_READ, cro_office_day (writing.first), &error);
  if (book == NULL)
    return cro_cli_fail (argv[1], error);
  writing.book = book;
  writing.accounts = of_journal;
  writing.language = language;
  status = write_workbook (&writing, path);
  g_clear_pointer (&writing.month, cro_month_free);
  return status;
}
