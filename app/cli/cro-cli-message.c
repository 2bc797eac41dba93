#include "config.h"

#include "cro-cli.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-copy.h"
#include "cro-decimal.h"
#include "cro-gtin.h"
#include "cro-json.h"
#include "cro-left-out-words.h"
#include "cro-load.h"
#include "cro-number.h"
#include "cro-refusal.h"
#include "cro-whole-file.h"
#include "cro-words.h"
#include "cro-workbook.h"

/* --- Errors ------------------------------------------------------------------------------------ */

static CroCliStatus
status_of (const GError *error)
{
  if (error == NULL)
    return CRO_CLI_FAILED;
  if (error->domain == CRO_LOAD_ERROR || error->domain == CRO_BOOK_ERROR || error->domain == CRO_REFUSAL
      || error->domain == CRO_JSON_ERROR || error->domain == CRO_WHOLE_FILE_ERROR)
    return CRO_CLI_REFUSED;
  if (g_error_matches (error, CRO_WORKBOOK_ERROR, CRO_WORKBOOK_ERROR_ROWS)
      || g_error_matches (error, CRO_WORKBOOK_ERROR, CRO_WORKBOOK_ERROR_CANCELLED))
    return CRO_CLI_REFUSED;
  if (error->domain == G_FILE_ERROR)
    switch (error->code)
      {
      case G_FILE_ERROR_NOENT:
      case G_FILE_ERROR_NOTDIR:
      case G_FILE_ERROR_INVAL:
      case G_FILE_ERROR_ISDIR:
      case G_FILE_ERROR_NXIO:
      case G_FILE_ERROR_LOOP:
      case G_FILE_ERROR_NAMETOOLONG:
        return CRO_CLI_REFUSED;
      default:
        return CRO_CLI_FAILED;
      }
  if (error->domain == CRO_STORE_ERROR)
    switch ((CroStoreErrorCode) error->code)
      {
      case CRO_STORE_ERROR_EXISTS:
      case CRO_STORE_ERROR_GONE:
      case CRO_STORE_ERROR_NOT_A_BOOK:
      case CRO_STORE_ERROR_FOLDER:
      case CRO_STORE_ERROR_NEWER:
      case CRO_STORE_ERROR_ALTERED:
      case CRO_STORE_ERROR_LOG:
      case CRO_STORE_ERROR_RULE:
      case CRO_STORE_ERROR_BEFORE:
      case CRO_STORE_ERROR_CHANGED:
      case CRO_STORE_ERROR_NOTHING:
      case CRO_STORE_ERROR_CLOSED:
      case CRO_STORE_ERROR_REOPENED:
      case CRO_STORE_ERROR_NO_ROWS:
        return CRO_CLI_REFUSED;
      default:
        return CRO_CLI_FAILED;
      }
  return CRO_CLI_FAILED;
}

/* A way on for whoever has a book that cannot be opened as it is. */
static void
say_way_on (const char   *book,
            const GError *error)
{
  g_autoptr (CroCopy) copy = NULL;

  if (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_FOLDER))
    g_printerr (_("“croustade-cli load” makes a book of a folder of tables\n"));
  if (!g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED)
      && !g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_ALTERED))
    return;
  copy = cro_copy_find_newest (book);
  if (copy != NULL && copy->day != NULL)
    /* Translators: %s are the path of a file, and a day. */
    g_printerr (_("the newest whole copy beside it is %s, last changed on %s\n"), copy->path,
                copy->day);
  else if (copy != NULL)
    /* Translators: %s is the path of a file. */
    g_printerr (_("the newest whole copy beside it is %s\n"), copy->path);
  else
    g_printerr (_("no whole copy of it was recognised beside it; “croustade-cli dump --salvage” saves what can be "
                  "read of it as tables\n"));
}

CroCliStatus
cro_cli_fail (const char   *what,
              const GError *error)
{
  g_autofree char *sentence = cro_words_error (error);
  g_autofree char *prefix = g_strconcat (what, ": ", NULL);

  if (cro_cli_has_reader_left ())
    return CRO_CLI_FAILED;
  /* What the system says of a file may name it already. */
  g_printerr ("%s%s\n", g_str_has_prefix (sentence, prefix) ? "" : prefix, sentence);
  say_way_on (what, error);
  return status_of (error);
}

void
cro_cli_warn_of_network (const char *path)
{
  if (cro_store_is_on_network (path))
    g_printerr (_("%s: this is on a network, where two programs may not see each other’s locks: "
                  "open it from one machine at a time\n"),
                path);
}

gboolean
cro_cli_is_of (const GError *error,
               GQuark        domain)
{
  return error != NULL && error->domain == domain;
}

/* --- Arguments ------------------------------------------------------------------------------------ */

gboolean
cro_cli_read_date (const char *text,
                   CroDate    *date)
{
  g_autofree char *refusal = NULL;

  if (text == NULL || cro_date_parse (text, strlen (text), date))
    return TRUE;
  refusal = cro_words_not_a_date (text);
  g_printerr ("%s\n", refusal);
  return FALSE;
}

gboolean
cro_cli_read_number (const char *option,
                     const char *text,
                     gint64      least,
                     const char *otherwise,
                     gint64     *micro)
{
  CroDecimalStatus status = cro_decimal_parse (text, strlen (text), micro);
  g_autofree char *below = cro_number_to_text ((double) (CRO_ENTERED_BELOW / CRO_MICRO), 0, FALSE);

  if (status == CRO_DECIMAL_OK && *micro >= least && cro_decimal_may_be_entered (*micro))
    return TRUE;
  if (status == CRO_DECIMAL_TOO_LARGE || (status == CRO_DECIMAL_OK && *micro >= least))
    /* Translators: an option, as "--bites", and a number. */
    g_printerr (_("%s must be below %s\n"), option, below);
  else if (status == CRO_DECIMAL_TOO_MANY_PLACES)
    /* Translators: an option, as "--bites". */
    g_printerr (_("%s must have six decimals at most\n"), option);
  else
    g_printerr ("%s", otherwise);
  return FALSE;
}

void
cro_cli_ask_bar_code (const char *said,
                      const char *number)
{
  gsize digits = strspn (number, "0123456789");

  if (number[digits] != '.' && cro_gtin_is_sound (number, digits))
    g_printerr (_("“%s”: is that a bar code?\n"), said);
}

void
cro_cli_print_too_large (const char *name)
{
  g_printerr (_("%s: cost too large to show; check the amounts and yields of its lines, and of "
                "the preparations in it\n"),
              name);
}

/* --- Faults --------------------------------------------------------------------------------------- */

/* Nobody reads more; they are of one cause, or a few. */
#define MOST_FAULTS 1000

static void
say_more (guint n)
{
  g_autofree char *more = NULL;

  if (n <= MOST_FAULTS)
    return;
  more = cro_number_to_text (n - MOST_FAULTS, 0, TRUE);
  /* Translators: %s is a number of faults that are not listed. */
  g_printerr (_("and %s more\n"), more);
}

void
cro_cli_print_faults (CroFaults *faults)
{
  guint n = cro_faults_get_n (faults);

  for (guint i = 0; i < MIN (n, MOST_FAULTS); i++)
    {
      g_autofree char *line = cro_words_fault (cro_faults_get (faults, i));

      g_printerr ("%s\n", line);
    }
  say_more (n);
}

void
cro_cli_print_left_out (const CroSalvage *salvage)
{
  guint n = salvage->left_out->len;

  for (guint i = 0; i < MIN (n, MOST_FAULTS); i++)
    {
      g_autofree char *line = cro_words_left_out (salvage->left_out->pdata[i]);

      g_printerr ("%s\n", line);
    }
  say_more (n);
}
