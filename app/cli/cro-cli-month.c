#include "config.h"

#include "cro-cli-month.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-cli-grid.h"
#include "cro-cli-json.h"
#include "cro-decimal.h"
#include "cro-money.h"
#include "cro-month-close.h"
#include "cro-month-words.h"
#include "cro-months-table.h"
#include "cro-number.h"
#include "cro-refusal.h"
#include "cro-words.h"

/* --- What is asked -------------------------------------------------------------------------- */

/* A month as YYYY-MM that has begun. FALSE says why not. */
gboolean
cro_cli_read_month (const char *text,
                    CroDate    *first)
{
  if (!cro_month_parse (text, strlen (text), first))
    {
      g_autofree char *refusal = cro_words_not_a_month (text);

      g_printerr ("%s\n", refusal);
      return FALSE;
    }
  if (*first > cro_here_today ())
    {
      g_printerr (_("%s has not begun\n"), text);
      return FALSE;
    }
  return TRUE;
}

/* A month, or the months of a year in which something is recorded. */
static gboolean
read_months (CroBook    *book,
             const char *text,
             GArray     *months,
             GError    **error)
{
  int year = 0;
  CroDate first;

  if (strlen (text) == 4 && strspn (text, "0123456789") == 4 && (year = atoi (text)) > 0)
    {
      for (int month = 1; month <= 12; month++)
        {
          g_autoptr (CroMonthEntries) entries = NULL;

          first = cro_date_from_civil (year, month, 1);
          if (first > cro_here_today ())
            break;
          entries = cro_month_entries_new (book, first, error);
          if (entries == NULL)
            return FALSE;
          if (!cro_month_entries_are_empty (entries))
            g_array_append_val (months, first);
        }
      if (months->len == 0)
        g_printerr (_("nothing is recorded in %s\n"), text);
      return TRUE;
    }
  if (cro_cli_read_month (text, &first))
    g_array_append_val (months, first);
  return TRUE;
}

/* --- What is said of it --------------------------------------------------------------------- */

/* One month is an object, a year an array of them. */
static gboolean
print_json (GPtrArray  *months,
            gboolean    is_year,
            GError    **error)
{
  g_autoptr (CroJson) json = cro_json_new ();

  if (is_year)
    cro_json_begin_array (json, NULL);
  for (guint i = 0; i < months->len; i++)
    cro_cli_add_month_json (json, months->pdata[i]);
  if (is_year)
    cro_json_end_array (json);
  return cro_cli_json_print (json, error);
}

static gboolean
say_altered (const CroMonth *month)
{
  g_autofree char *altered = cro_month_altered_words (month);

  if (altered != NULL)
    g_printerr ("%s\n", altered);
  return altered != NULL;
}

/* is_said: that it is altered. */
static gboolean
say_incomplete (const CroMonth *month,
                gboolean        is_said)
{
  char text[CRO_MONTH_CHARS];
  g_autoptr (GString) causes = g_string_new (NULL);
  gboolean is_altered = is_said || say_altered (month);

  cro_month_format (month->first, text);
  if (cro_month_is_whole (month))
    return is_altered;
  for (guint i = 0; i < month->questions->len; i++)
    {
      const CroMonthQuestion *question = &g_array_index (month->questions, CroMonthQuestion, i);
      g_autofree char *words = NULL;

      if (question->kind != CRO_QUESTION_MISSING)
        continue;
      words = cro_month_question_words (question, FALSE);
      g_string_append_printf (causes, "%s%s", causes->len > 0 ? ", " : "", words);
    }
  if (causes->len > 0)
    g_printerr (_("%s is incomplete: %s\n"), text, causes->str);
  if (isnan (month->opening))
    g_printerr (_("%s is incomplete: no stock was counted or entered at its beginning\n"), text);
  if (isnan (month->closing))
    g_printerr (_("%s is incomplete: no stock was counted or entered at its end\n"), text);
  for (guint i = 0; i < month->questions->len; i++)
    {
      const CroMonthQuestion *question = &g_array_index (month->questions, CroMonthQuestion, i);

      if (question->kind == CRO_QUESTION_NOT_COUNTED)
        g_printerr (question->day < month->first ? _("%s is incomplete: “%s” was not counted at its beginning\n")
                                                 : _("%s is incomplete: “%s” was not counted at its end\n"),
                    text, question->about);
    }
  return TRUE;
}

gboolean
cro_cli_say_month_incomplete (const CroMonth *month)
{
  return say_incomplete (month, FALSE);
}

static GPtrArray *
compute (CroBook  *book,
         GArray   *firsts,
         GError  **error)
{
  g_autoptr (GPtrArray) months = g_ptr_array_new_with_free_func ((GDestroyNotify) cro_month_free);

  for (guint i = 0; i < firsts->len; i++)
    {
      CroMonth *month = cro_month_new (book, g_array_index (firsts, CroDate, i), FALSE, error);

      if (month == NULL)
        return NULL;
      g_ptr_array_add (months, month);
    }
  return g_steal_pointer (&months);
}

/* --- Against another month ------------------------------------------------------------------- */

static gboolean
check_closed (const CroMonth *month)
{
  char text[CRO_MONTH_CHARS];

  cro_month_format (month->first, text);
  if (!month->is_closed)
    g_printerr (_("%s is not closed: only closed months are compared\n"), text);
  return month->is_closed;
}

static CroCliStatus
print_against (CroBook         *book,
               const CroMonth  *month,
               const char      *other,
               gboolean         is_json,
               GError         **error)
{
  g_autoptr (CroMonth) from = NULL;
  g_autoptr (CroJson) json = NULL;
  gboolean is_altered;
  CroDate first;

  if (!cro_cli_read_month (other, &first))
    return CRO_CLI_REFUSED;
  if (first == month->first)
    {
      g_printerr (_("--against compares a month with another; %s is the same\n"), other);
      return CRO_CLI_REFUSED;
    }
  from = cro_month_new (book, first, FALSE, error);
  if (from == NULL)
    return CRO_CLI_FAILED;
  if (!check_closed (from) || !check_closed (month))
    return CRO_CLI_REFUSED;
  is_altered = say_altered (from);
  is_altered |= (is_altered && from->altered == month->altered) || say_altered (month);
  if (!is_json)
    {
      cro_cli_print_bridge (book, from, month);
      return is_altered ? CRO_CLI_INCOMPLETE : CRO_CLI_DONE;
    }
  json = cro_json_new ();
  cro_cli_add_bridge_json (json, from, month);
  if (!cro_cli_json_print (json, error))
    return CRO_CLI_FAILED;
  return is_altered ? CRO_CLI_INCOMPLETE : CRO_CLI_DONE;
}

/* A year's months side by side, and together; what of them is not as closing left it is said once. */
static void
print_year (GPtrArray *months)
{
  g_autoptr (GArray) firsts = g_array_new (FALSE, FALSE, sizeof (CroDate));
  g_autoptr (CroMonthTable) table = NULL;
  CroDate said = CRO_NO_DAY;

  for (guint i = 0; i < months->len; i++)
    g_array_append_val (firsts, ((const CroMonth *) months->pdata[i])->first);
  table = cro_months_table_new (firsts, months);
  cro_months_table_add_total (table, months);
  g_print ("\n");
  cro_cli_print_table (table);
  for (guint i = 0; i < months->len; i++)
    {
      const CroMonth *month = months->pdata[i];
      g_autofree char *altered = month->altered != said ? cro_month_altered_words (month) : NULL;

      if (altered != NULL)
        {
          cro_cli_print_wrapped (altered, 0);
          said = month->altered;
        }
    }
}

/* A count alone is the stock that the next month begins with: beside other months the year's table names it. */
static gboolean
is_passed_over (GPtrArray *months,
                guint      i,
                gboolean   is_year)
{
  return is_year && months->len > 1 && cro_month_is_count_only (months->pdata[i]);
}

static CroCliStatus
print_months (CroBook    *book,
              GPtrArray  *months,
              gboolean    is_year,
              gboolean    is_json,
              gboolean    is_matrix,
              GError    **error)
{
  CroCliStatus status = CRO_CLI_DONE;
  CroDate said = CRO_NO_DAY;
  gboolean is_begun = FALSE;

  if (is_json && !print_json (months, is_year, error))
    return CRO_CLI_FAILED;
  for (guint i = 0; !is_json && i < months->len; i++)
    {
      if (is_passed_over (months, i, is_year))
        continue;
      if (is_begun)
        g_print ("\n");
      is_begun = TRUE;
      (is_matrix ? cro_cli_print_matrix : cro_cli_print_month_table) (book, months->pdata[i]);
    }
  if (is_year && !is_json && !is_matrix && months->len > 1)
    print_year (months);
  for (guint i = 0; i < months->len; i++)
    {
      const CroMonth *month = months->pdata[i];

      if (!is_json && is_passed_over (months, i, is_year))
        continue;
      /* The month after opens with what was altered. */
      if (say_incomplete (month, month->altered != CRO_NO_DAY && month->altered == said))
        status = CRO_CLI_INCOMPLETE;
      said = month->altered != CRO_NO_DAY ? month->altered : said;
    }
  return status;
}

static CroBook *
open_book (const char   *path,
           CroStoreMode  mode,
           GError      **error)
{
  g_autofree char *desk = mode == CRO_STORE_WRITE ? cro_here_dup_desk () : NULL;

  return cro_book_open (path, desk, mode, cro_here_today (), error);
}

CroCliStatus
cro_cli_month (int    argc,
               char **argv)
{
  gboolean is_json = FALSE, is_matrix = FALSE;
  g_autofree char *against = NULL, *journal = NULL, *accounts = NULL, *language = NULL;
  GOptionEntry entries[] = {
    { "against", 0, 0, G_OPTION_ARG_STRING, &against,
      N_("Why its food cost is another than that month’s; both are closed"), N_("YYYY-MM") },
    { "matrix", 0, 0, G_OPTION_ARG_NONE, &is_matrix,
      N_("How often plates and menus were sold and what one of them left"), NULL },
    { "json", 0, 0, G_OPTION_ARG_NONE, &is_json, N_("Print unrounded figures as JSON"), NULL },
    { "journal", 0, 0, G_OPTION_ARG_FILENAME, &journal,
      N_("Write what the month’s end books, as rows of commas; - prints them"), N_("FILE.csv") },
    { "accounts", 0, 0, G_OPTION_ARG_FILENAME, &accounts,
      N_("Accounts of the journal: a table with the columns entry, debit, credit"), N_("FILE") },
    { "language", 0, 0, G_OPTION_ARG_STRING, &language,
      N_("Language of the journal’s words; en by default"), N_("CODE") },
    { NULL },
  };
  CroCliStatus status;
  g_autoptr (GHashTable) of_journal = NULL;
  g_autoptr (CroBook) book = NULL;
  g_autoptr (GArray) firsts = g_array_new (FALSE, FALSE, sizeof (CroDate));
  g_autoptr (GPtrArray) months = NULL;
  g_autoptr (GError) error = NULL;

  if (!cro_cli_parse ("month", "BOOK YYYY-MM", _("Print a month’s statement, or those of a year."),
                      entries, &argc, &argv, &status))
    return status;
  if (against != NULL && (is_matrix || strlen (argv[2]) == 4))
    {
      g_printerr (_("--against compares two months\n"));
      return CRO_CLI_REFUSED;
    }
  if (journal == NULL && (accounts != NULL || language != NULL))
    {
      g_printerr (_("--accounts and --language are of --journal\n"));
      return CRO_CLI_REFUSED;
    }
  if (journal != NULL && (against != NULL || is_matrix || is_json || strlen (argv[2]) == 4))
    {
      g_printerr (_("--journal is of one month, and stands alone\n"));
      return CRO_CLI_REFUSED;
    }
  if (journal != NULL && *journal == '\0')
    {
      g_printerr (_("--journal must name the file to write\n"));
      return CRO_CLI_REFUSED;
    }
  if (!cro_cli_knows_language (language) || (journal != NULL && !cro_cli_can_write (journal, argv[1]))
      || !cro_cli_keeps_accounts (journal, accounts))
    return CRO_CLI_REFUSED;
  if (!cro_cli_read_accounts (accounts, &of_journal, &status))
    return status;
  book = open_book (argv[1], CRO_STORE_READ, &error);
  if (book == NULL || !read_months (book, argv[2], firsts, &error))
    return cro_cli_fail (argv[1], error);
  if (firsts->len == 0)
    return CRO_CLI_REFUSED;
  months = compute (book, firsts, &error);
  if (months == NULL)
    return cro_cli_fail (argv[1], error);
  if (journal != NULL)
    status = cro_cli_write_journal (months->pdata[0], journal, of_journal, language);
  else if (against != NULL)
    status = print_against (book, months->pdata[0], against, is_json, &error);
  else
    status = print_months (book, months, strlen (argv[2]) == 4, is_json, is_matrix, &error);
  return error != NULL ? cro_cli_fail (argv[1], error) : status;
}

/* --- Closing -------------------------------------------------------------------------------- */

static CroCliStatus
fail (const char   *path,
      const GError *error)
{
  if (!cro_cli_is_of (error, CRO_MONTH_ERROR))
    return cro_cli_fail (path, error);
  switch ((CroMonthErrorCode) error->code)
    {
    case CRO_MONTH_ERROR_CLOSED:
      g_printerr (_("%s is closed already; reopen it first\n"), error->message);
      break;
    case CRO_MONTH_ERROR_OPEN:
      g_printerr (_("%s is not closed\n"), error->message);
      break;
    case CRO_MONTH_ERROR_AHEAD:
      g_printerr (_("%s has not begun\n"), error->message);
      break;
    case CRO_MONTH_ERROR_RUNS:
      g_printerr (_("%s is not over\n"), error->message);
      break;
    case CRO_MONTH_ERROR_EMPTY:
      g_printerr (_("nothing is recorded in %s\n"), error->message);
      break;
    case CRO_MONTH_ERROR_RANGE:
      g_printerr (_("%s is not closed: an amount or a sum of it is larger than a book can keep; correct what is a "
                    "slip, then close it\n"),
                  error->message);
      break;
    case CRO_MONTH_ERROR_REASON:
      g_printerr (_("--reason is needed: why %s is opened again\n"), error->message);
      break;
    }
  return CRO_CLI_REFUSED;
}

/* What was asked because it was closed out of its order, totals of others that it does not tie to, and what may be a
 * bar code among its amounts. */
static void
say_asked (const CroMonth *month)
{
  for (guint i = 0; i < month->questions->len; i++)
    {
      const CroMonthQuestion *question = &g_array_index (month->questions, CroMonthQuestion, i);
      g_autofree char *words = NULL;

      if (!cro_month_question_is_tie (question->kind) && !cro_month_question_is_order (question->kind)
          && question->kind != CRO_QUESTION_STOCK && question->kind != CRO_QUESTION_FAR_AMOUNT)
        continue;
      words = cro_month_question_words (question, FALSE);
      cro_cli_print_wrapped (words, 0);
    }
}

/* The rows that are likely to be the slip. */
static void
say_far (CroBook *book,
         CroDate  first)
{
  g_autoptr (CroMonth) month = cro_month_new (book, first, FALSE, NULL);
  g_autofree char *far = month != NULL ? cro_month_far_words (month) : NULL;
  g_auto (GStrv) lines = far != NULL ? g_strsplit (far, "\n", -1) : NULL;

  /* A message is a line. */
  for (guint i = 0; lines != NULL && lines[i] != NULL; i++)
    g_printerr ("%s\n", lines[i]);
}

static gboolean
read_estimate (const char *text,
               gint64     *micro)
{
  return text == NULL
         || cro_cli_read_number ("--estimate", text, 0,
                                 _("--estimate must be money with a decimal point, as in 412.50, and 0 or more\n"),
                                 micro);
}

/* Money that no document of the book could say is a slip. */
static gboolean
has_currency_digits (CroModel *model,
                     gint64    micro)
{
  int digits = cro_currency_digits (model->currency);
  gint64 unit = CRO_MICRO;

  for (int i = 0; i < digits; i++)
    unit /= 10;
  if (micro == CRO_NOT_SET || micro % unit == 0)
    return TRUE;
  g_printerr (ngettext ("--estimate must be money with %d decimal at most\n",
                        "--estimate must be money with %d decimals at most\n", (gulong) digits),
              digits);
  return FALSE;
}

static void
say_closed (const char     *name,
            const CroMonth *month)
{
  g_autofree char *things
      = g_strdup_printf (ngettext ("%u plate, menu or other sale", "%u plates, menus and other sales",
                                   month->things->len),
                         month->things->len);
  g_autofree char *items = g_strdup_printf (ngettext ("%u ingredient", "%u ingredients", month->items->len),
                                            month->items->len);

  /* Translators: a month; "2 plates, menus and other sales", "1 ingredient"; a number. */
  g_print (ngettext ("%s is closed: %s, %s, %u question left open.\n",
                     "%s is closed: %s, %s, %u questions left open.\n",
                     month->questions->len),
           name, things, items, month->questions->len);
}

/* One that the month had before, by a table or since it was closed last. */
static void
say_estimate (const CroMonth *month)
{
  guint digits = cro_currency_digits (month->currency);
  g_autofree char *money = cro_money_to_text (cro_money_round (month->estimate, digits), digits);

  g_print (_("The estimate that it had stays, %s; --estimate 0 takes it out.\n"), money);
}

CroCliStatus
cro_cli_close (int    argc,
               char **argv)
{
  g_autofree char *estimate = NULL;
  GOptionEntry entries[] = {
    { "estimate", 0, 0, G_OPTION_ARG_STRING, &estimate,
      N_("Food that was delivered and whose documents are still to come"), N_("MONEY") },
    { NULL },
  };
  CroCliStatus status;
  gint64 micro = CRO_NOT_SET;
  CroDate first;
  g_autoptr (CroBook) book = NULL;
  g_autoptr (CroMonth) month = NULL;
  g_autoptr (GError) error = NULL;

  if (!cro_cli_parse ("close", "BOOK YYYY-MM",
                      _("Close a month: its statement and what it is made of never change again."),
                      entries, &argc, &argv, &status))
    return status;
  if (!cro_cli_read_month (argv[2], &first) || !read_estimate (estimate, &micro))
    return CRO_CLI_REFUSED;
  book = open_book (argv[1], CRO_STORE_WRITE, &error);
  if (book != NULL && !has_currency_digits (cro_book_get_model (book), micro))
    return CRO_CLI_REFUSED;
  month = book != NULL ? cro_month_close (book, first, micro, &error) : NULL;
  if (month == NULL)
    {
      status = fail (argv[1], error);
      if (book != NULL && g_error_matches (error, CRO_MONTH_ERROR, CRO_MONTH_ERROR_RANGE))
        say_far (book, first);
      return status;
    }
  cro_cli_note_change ();
  say_closed (argv[2], month);
  if (estimate == NULL && !isnan (month->estimate))
    say_estimate (month);
  say_asked (month);
  return cro_cli_say_month_incomplete (month) ? CRO_CLI_INCOMPLETE : CRO_CLI_DONE;
}

/* What becomes of the estimate that a month was closed with. */
static void
say_estimate_left (double          estimate,
                   const CroMonth *month)
{
  guint digits = cro_currency_digits (month->currency);
  gint64 was = cro_money_round (estimate, digits);
  gint64 is = isnan (month->estimate) ? 0 : cro_money_round (month->estimate, digits);
  g_autofree char *before = cro_money_to_text (was, digits), *left = cro_money_to_text (is, digits);
  g_autofree char *text = NULL;

  if (is == was)
    /* Translators: money. */
    text = g_strdup_printf (_("The estimate that it was closed with, %s, stays: a closed month has taken it off."),
                            before);
  else if (is == 0)
    /* Translators: money. */
    text = g_strdup_printf (_("The estimate that it was closed with, %s, is no longer booked: what is still to come "
                              "is to be estimated again when the month is closed."),
                            before);
  else
    /* Translators: money, twice. */
    text = g_strdup_printf (_("Of the estimate that it was closed with, %s, there stays what a closed month has taken "
                              "off: %s."),
                            before, left);
  cro_cli_print_wrapped (text, 0);
}

CroCliStatus
cro_cli_reopen (int    argc,
                char **argv)
{
  g_autofree char *reason = NULL;
  GOptionEntry entries[] = {
    { "reason", 0, 0, G_OPTION_ARG_STRING, &reason, N_("Why it is opened again"), N_("TEXT") },
    { NULL },
  };
  CroCliStatus status;
  CroDate first;
  g_autoptr (CroBook) book = NULL;
  g_autoptr (CroMonth) closed = NULL, open = NULL;
  g_autoptr (GError) error = NULL;

  if (!cro_cli_parse ("reopen", "BOOK YYYY-MM", _("Open a closed month again, with a reason."), entries,
                      &argc, &argv, &status))
    return status;
  if (!cro_cli_read_month (argv[2], &first))
    return CRO_CLI_REFUSED;
  book = open_book (argv[1], CRO_STORE_WRITE, &error);
  closed = book != NULL ? cro_month_new (book, first, FALSE, &error) : NULL;
  if (closed == NULL || !cro_month_reopen (book, first, reason, &error))
    return fail (cro_cli_is_of (error, CRO_REFUSAL) ? "--reason" : argv[1], error);
  cro_cli_note_change ();
  g_print (_("%s is open again.\n"), argv[2]);
  open = cro_month_new (book, first, FALSE, NULL);
  if (open != NULL && !isnan (closed->estimate))
    say_estimate_left (closed->estimate, open);
  return CRO_CLI_DONE;
}
