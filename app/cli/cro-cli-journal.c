/* The journal of a month's end, and the accounts that an office gives it. */
#include "config.h"

#include "cro-cli-month.h"

#include <glib/gi18n.h>

#include "cro-number.h"
#include "cro-office-journal.h"
#include "cro-tongue.h"

static void
say_journal_error (const char   *path,
                   const GError *error)
{
  g_autofree char *codes = NULL;

  switch ((CroJournalErrorCode) error->code)
    {
    case CRO_JOURNAL_ERROR_COLUMNS:
      g_printerr (_("%s: the column “%s” is missing; accounts have the columns entry, debit and credit\n"), path,
                  error->message);
      break;
    case CRO_JOURNAL_ERROR_ENTRY:
      codes = g_strjoinv (", ", (char **) cro_journal_codes);
      g_printerr (_("%s: “%s” is not an entry; use one of: %s\n"), path, error->message, codes);
      break;
    case CRO_JOURNAL_ERROR_TWICE:
      g_printerr (_("%s: the entry “%s” appears twice\n"), path, error->message);
      break;
    }
}

gboolean
cro_cli_read_accounts (const char    *path,
                       GHashTable   **accounts,
                       CroCliStatus  *status)
{
  g_autoptr (GError) error = NULL;

  *accounts = NULL;
  if (path == NULL)
    return TRUE;
  *accounts = cro_journal_accounts (path, &error);
  if (*accounts != NULL)
    return TRUE;
  if (!cro_cli_is_of (error, CRO_JOURNAL_ERROR))
    *status = cro_cli_fail (path, error);
  else
    {
      say_journal_error (path, error);
      *status = CRO_CLI_REFUSED;
    }
  return FALSE;
}

typedef struct
{
  const CroMonth *month;
  const CroMonth *before;     /* if it is closed; NULL */
  GHashTable     *accounts;
  const char     *language;
} Writing;

static gboolean
write_csv (const char  *path,
           gpointer     user_data,
           GError     **error)
{
  Writing *self = user_data;
  gboolean is_translated = self->language != NULL && !g_str_equal (self->language, "en");
  int digits = cro_currency_digits (self->month->currency);
  g_autoptr (CroTongue) tongue = cro_tongue_enter (is_translated ? self->language : NULL);
  g_autoptr (GArray) journal = cro_journal_new (self->month, self->before, digits);
  g_autofree char *csv = cro_journal_to_csv (journal, cro_month_next (self->month->first) - 1, digits,
                                             self->accounts);

  return g_file_set_contents (path, csv, -1, error);
}

/* The month before, where it is closed: what it had estimated is reversed. */
static gboolean
read_before (CroBook         *book,
             const CroMonth  *month,
             CroMonth       **before,
             GError         **error)
{
  CroDate first = cro_month_first_of (month->first - 1);
  g_autoptr (GPtrArray) rows = cro_month_rows_read (book, error);
  const CroMonthRow *row = rows != NULL ? cro_month_rows_find (rows, first) : NULL;

  if (row != NULL && row->is_closed)
    *before = cro_month_new (book, first, FALSE, error);
  return rows != NULL && (*before != NULL || row == NULL || !row->is_closed);
}

CroCliStatus
cro_cli_write_journal (CroBook         *book,
                       const CroMonth  *month,
                       const char      *path,
                       GHashTable      *accounts,
                       const char      *language)
{
  g_autoptr (CroMonth) before = NULL;
  g_autoptr (GError) error = NULL;
  Writing writing = { month, NULL, accounts, language };

  if (!read_before (book, month, &before, &error))
    return cro_cli_fail (path, error);
  writing.before = before;
  if (!cro_cli_write_file (path, write_csv, &writing, &error))
    return cro_cli_fail (path, error);
  return cro_cli_say_month_incomplete (month) ? CRO_CLI_INCOMPLETE : CRO_CLI_DONE;
}
