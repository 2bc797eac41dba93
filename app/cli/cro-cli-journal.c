/* The journal of a month's end, and the accounts that an office gives it. */
#include "config.h"

#include "cro-cli-month.h"

#include <glib/gi18n.h>

#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-office-journal.h"
#include "cro-tongue.h"

static char *
dup_fault (const GError *error)
{
  const char *text = error->message;
  g_autofree char *codes = NULL;

  switch ((CroJournalErrorCode) error->code)
    {
    case CRO_JOURNAL_ERROR_COLUMNS:
      return cro_isolate_printf (_("the column “%s” is missing; accounts have the columns entry, debit and "
                                   "credit"),
                                 text);
    case CRO_JOURNAL_ERROR_ENTRY:
      codes = g_strjoinv (", ", (char **) cro_journal_codes);
      return cro_isolate_printf (_("“%s” is not an entry; use one of: %s"), text, codes);
    case CRO_JOURNAL_ERROR_TWICE:
      return cro_isolate_printf (_("the entry “%s” appears twice"), text);
    case CRO_JOURNAL_ERROR_NO_ENTRIES:
      return g_strdup (_("the table has headings but no entry"));
    case CRO_JOURNAL_ERROR_MORE_CELLS:
      return g_strdup (_("the row has more cells than there are columns"));
    case CRO_JOURNAL_ERROR_EMPTY:
      return cro_isolate_printf (_("the column “%s” is empty; each entry has a debit and a credit account"), text);
    case CRO_JOURNAL_ERROR_STRAY:
      /* Translators: the number of a character, as “U+202E”. */
      return g_strdup_printf (_("the row contains the invisible character %s; type it again"), text);
    case CRO_JOURNAL_ERROR_QUOTE:
      return cro_isolate_printf (_("the column “%s” has a quotation mark inside, or one that is never closed"), text);
    case CRO_JOURNAL_ERROR_LONG:
      return g_strdup_printf (_("the column “%s” has more than %d characters"), text, CRO_JOURNAL_MOST_CHARS);
    case CRO_JOURNAL_ERROR_FORMULA:
      return cro_isolate_printf (_("“%s” begins with a character that a spreadsheet takes for a formula’s"), text);
    default:
      g_assert_not_reached ();
    }
}

/* As faults of tables are said. */
static void
say_fault (const char   *path,
           guint         row,
           const GError *error)
{
  g_autofree char *fault = dup_fault (error);

  g_printerr ("%s:%u: %s\n", path, row, fault);
}

gboolean
cro_cli_read_accounts (const char    *path,
                       GHashTable   **accounts,
                       CroCliStatus  *status)
{
  g_autoptr (GError) error = NULL;
  guint row;

  *accounts = NULL;
  if (path == NULL)
    return TRUE;
  *accounts = cro_journal_accounts (path, &row, &error);
  if (*accounts != NULL)
    return TRUE;
  if (!cro_cli_is_of (error, CRO_JOURNAL_ERROR))
    *status = cro_cli_fail (path, error);
  else
    {
      say_fault (path, row, error);
      *status = CRO_CLI_REFUSED;
    }
  return FALSE;
}

typedef struct
{
  const CroMonth *month;
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
  g_autoptr (GArray) journal = cro_journal_new (self->month, digits);
  g_autofree char *csv = cro_journal_to_csv (journal, cro_month_next (self->month->first) - 1, digits,
                                             self->accounts);

  return g_file_set_contents (path, csv, -1, error);
}

CroCliStatus
cro_cli_write_journal (const CroMonth  *month,
                       const char      *path,
                       GHashTable      *accounts,
                       const char      *language)
{
  g_autoptr (GError) error = NULL;
  Writing writing = { month, accounts, language };

  if (!cro_cli_write_file (path, write_csv, &writing, &error))
    return cro_cli_fail (path, error);
  return cro_cli_say_month_incomplete (month) ? CRO_CLI_INCOMPLETE : CRO_CLI_DONE;
}
