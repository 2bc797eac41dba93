#include "config.h"

#include "cro-cli.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <string.h>

#include "cro-catalogue.h"
#include "cro-finite.h"
#include "cro-here.h"
#include "cro-number.h"
#include "cro-office.h"

/* The prices of a month are those of its last day, of the month that is not over of today. FALSE
 * if text is no month, or one that has not begun. */
static gboolean
day_of_month (const char *text,
              CroDate    *day)
{
  CroDate today = cro_here_today ();
  CroDate first;
  int year, month, of_month;

  if (text == NULL)
    {
      g_printerr (_("--month is needed: which month to write (YYYY-MM)\n"));
      return FALSE;
    }
  if (!cro_month_parse (text, strlen (text), &first))
    {
      g_printerr (_("--month must be a month (YYYY-MM)\n"));
      return FALSE;
    }
  if (first > today)
    {
      g_printerr (_("%s has not begun\n"), text);
      return FALSE;
    }
  cro_date_to_civil (first, &year, &month, &of_month);
  *day = month == 12 ? cro_date_from_civil (year + 1, 1, 1) : cro_date_from_civil (year, month + 1, 1);
  *day = MIN (*day - 1, today);
  return TRUE;
}

gboolean
cro_cli_knows_language (const char *language)
{
  if (language == NULL || cro_catalogue_has (language))
    return TRUE;
  g_printerr (_("“%s” is not a language of this program. Use en or one it is translated into, such as fr.\n"),
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
  const char *language;
  int         shown;      /* per cent */
} Writing;

static gboolean
write_office (const char  *path,
              gpointer     user_data,
              GError     **error)
{
  Writing *writing = user_data;

  return cro_office_write (writing->book, path, writing->language, cro_cli_show_progress, &writing->shown,
                           error);
}

static CroCliStatus
write_workbook (CroBook    *book,
                const char *path,
                const char *language)
{
  Writing writing = { book, language, -1 };
  CroFigures *figures = cro_book_get_figures (book);
  const char *name = cro_finite_find_any (figures);
  g_autoptr (GError) error = NULL;

  if (name != NULL)
    {
      cro_cli_print_too_large (name);
      return CRO_CLI_REFUSED;
    }
  cro_cli_note_interrupts ();
  if (!cro_cli_write_file (path, write_office, &writing, &error))
    return fail_to_write (path, error);
  return cro_cli_is_all_well (book) ? CRO_CLI_DONE : CRO_CLI_INCOMPLETE;
}

CroCliStatus
cro_cli_workbook (int    argc,
                  char **argv)
{
  g_autofree char *month = NULL;
  g_autofree char *path = NULL;
  g_autofree char *language = NULL;
  GOptionEntry entries[] = {
    { "month", 0, 0, G_OPTION_ARG_STRING, &month,
      N_("Prices of the last day of that month; of today if it is not over"), N_("YYYY-MM") },
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &path, N_("The file to write; - is standard output"), N_("FILE.xlsx") },
    { "language", 0, 0, G_OPTION_ARG_STRING, &language,
      N_("Language of its words; en by default"), N_("CODE") },
    { NULL },
  };
  CroCliStatus status;
  CroDate day;
  g_autoptr (CroBook) book = NULL;
  g_autoptr (GError) error = NULL;

  if (!cro_cli_parse ("workbook", "BOOK", _("Write the office’s spreadsheet: the book in formulas."),
                      entries, &argc, &argv, &status))
    return status;
  if (!day_of_month (month, &day))
    return CRO_CLI_REFUSED;
  if (!cro_cli_knows_language (language))
    return CRO_CLI_REFUSED;
  if (!cro_cli_can_write (path, argv[1]))
    return CRO_CLI_REFUSED;
  book = cro_book_open (argv[1], NULL, CRO_STORE_READ, day, &error);
  if (book == NULL)
    return cro_cli_fail (argv[1], error);
  return write_workbook (book, path, language);
}
