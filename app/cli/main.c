#include "config.h"

#include "cro-cli.h"

#include <glib/gi18n.h>
#include <langinfo.h>
#include <locale.h>
#include <string.h>

#include "cro-catalogue.h"

typedef struct
{
  const char   *name;
  CroCliStatus (*run) (int argc, char **argv);
} Command;

static const Command commands[] = {
  { "new", cro_cli_new },
  { "load", cro_cli_load },
  { "dump", cro_cli_dump },
  { "add", cro_cli_add },
  { "cost", cro_cli_cost },
  { "plan", cro_cli_plan },
  { "allergens", cro_cli_allergens },
  { "prices", cro_cli_prices },
  { "history", cro_cli_history },
  { "undo", cro_cli_undo },
  { "workbook", cro_cli_workbook },
  { "card", cro_cli_card },
  { "month", cro_cli_month },
  { "close", cro_cli_close },
  { "reopen", cro_cli_reopen },
  { "check", cro_cli_check },
};

static void
print_help (void)
{
  g_print ("%s",
           _("Usage: croustade-cli COMMAND [OPTION…] ARGUMENT…\n"
             "\n"
             "Costs a kitchen’s plates from its tables, without a window.\n"
             "\n"
             "  new BOOK                      make an empty book\n"
             "  load BOOK FOLDER [--replace]  load tables into a book (made if absent)\n"
             "  dump BOOK FOLDER [--salvage]  write all tables; of a damaged book what can be read\n"
             "  add BOOK FOLDER [--dry-run] [--again]\n"
             "                                change and add rows by their keys; remove nothing\n"
             "  cost BOOK [--on DATE] [--as-of DATE] [--plate NAME]… [--menu NAME]… [--json]\n"
             "                                cost plates, menus and items\n"
             "  plan BOOK (--covers NAME=N… [--have NAME=AMOUNT\\ UNIT]… |\n"
             "             --service DATE/NAME) [--on DATE] [--json]\n"
             "                                what to make and buy for a service\n"
             "  allergens BOOK [--menu NAME] [--avoids CODE]… [--list eu|us] [--on DATE]\n"
             "             [--json] [-o FILE.pdf|FILE.xlsx|FILE.csv]\n"
             "                                what plates contain, as entered, and who carries it in\n"
             "  prices BOOK FILE --supplier NAME --from DATE [--dry-run] [--json]\n"
             "               [--accept LINE…] [--accept-all] [--accept-seller] [--is LINE=WHAT…]\n"
             "               [--holds LINE=PACK…] [--charges spread|book|leave]\n"
             "                                post a supplier’s price list, message or invoice\n"
             "  history BOOK [--last N] [--json]\n"
             "                                print what was changed, by whom and when\n"
             "  undo BOOK [ACT]               undo the last act of this desk, or that one\n"
             "  workbook BOOK --month YYYY-MM -o FILE.xlsx [--accounts FILE] [--language CODE]\n"
             "                                write the office’s spreadsheet\n"
             "  card BOOK (--plate NAME… | --menu NAME… | --preparation NAME… | --all)\n"
             "            [--kitchen [--bites N] [--money]] [--paper a4|letter] [--on DATE]\n"
             "            [--language CODE] -o FILE.pdf|FOLDER\n"
             "                                print cost cards or kitchen cards\n"
             "  month BOOK YYYY-MM [--matrix | --against YYYY-MM] [--json]\n"
             "             [--journal FILE.csv [--accounts FILE] [--language CODE]]\n"
             "                                print a month’s statement; YYYY: those of a year\n"
             "  close BOOK YYYY-MM [--estimate MONEY]\n"
             "                                close a month: it never changes again\n"
             "  reopen BOOK YYYY-MM --reason TEXT\n"
             "                                open a closed month again\n"
             "  check BOOK                    verify the file and the costing model\n"
             "\n"
             "croustade-cli COMMAND --help says more of each.\n"
             "Exit status: 0 done; 1 done, and something is incomplete or over its limit;\n"
             "2 refused, nothing changed; 3 the system failed, nothing changed.\n"));
}

static CroCliStatus
run (int    argc,
     char **argv)
{
  const char *name = argc > 1 ? argv[1] : NULL;

  if (g_strcmp0 (name, "--") == 0)
    return run (argc - 1, argv + 1);
  if (g_strcmp0 (name, "--help") == 0 || g_strcmp0 (name, "-h") == 0)
    {
      print_help ();
      return CRO_CLI_DONE;
    }
  if (g_strcmp0 (name, "--version") == 0)
    {
      g_print ("croustade-cli %s\n", CRO_VERSION);
      return CRO_CLI_DONE;
    }
  for (gsize i = 0; name != NULL && i < G_N_ELEMENTS (commands); i++)
    if (strcmp (commands[i].name, name) == 0)
      return commands[i].run (argc - 1, argv + 1);

  if (name != NULL)
    g_printerr (_("There is no command “%s”.\n"), name);
  g_printerr (_("Try “croustade-cli --help”.\n"));
  return CRO_CLI_REFUSED;
}

/* "" as a path is what a script writes whose variable is not set. */
static gboolean
is_any_empty (int    argc,
              char **argv)
{
  for (int i = 1; i < argc; i++)
    if (*argv[i] == '\0')
      return TRUE;
  return FALSE;
}

/* GLib leaves "--" where an argument that follows begins with a hyphen. */
static void
drop_separator (int   *argc,
                char **argv)
{
  for (int i = 1; i < *argc; i++)
    if (strcmp (argv[i], "--") == 0)
      {
        memmove (argv + i, argv + i + 1, (gsize) (*argc - i) * sizeof *argv);
        --*argc;
        return;
      }
}

/* Of "BOOK [ACT]" one or two; says which is missing, or one too many. */
static gboolean
are_as_many (int         argc,
             char      **argv,
             const char *arguments)
{
  g_auto (GStrv) names = g_strsplit (arguments, " ", -1);
  int n = argc - 1, most = (int) g_strv_length (names);

  if (n > most)
    g_printerr (_("Unexpected argument “%s”. Put quotation marks around what has spaces.\n"), argv[most + 1]);
  else if (n < most && *names[n] != '[')
    /* Translators: %s is a word of the usage, as BOOK or FOLDER. */
    g_printerr (_("%s is missing.\n"), names[n]);
  else
    return TRUE;
  return FALSE;
}

gboolean
cro_cli_parse (const char     *command,
               const char     *arguments,
               const char     *summary,
               GOptionEntry   *entries,
               int            *argc,
               char         ***argv,
               CroCliStatus   *status)
{
  g_autofree char *usage = g_strdup_printf ("%s — %s", arguments, summary);
  g_autofree char *program = g_strdup_printf ("croustade-cli %s", command);
  g_autoptr (GOptionContext) context = g_option_context_new (usage);
  g_autoptr (GError) error = NULL;
  gboolean help = FALSE;
  GOptionEntry help_entry[] = {
    { "help", 'h', 0, G_OPTION_ARG_NONE, &help, N_("Show this help"), NULL }, { NULL }
  };

  g_set_prgname (program);
  g_option_context_set_help_enabled (context, FALSE);
  g_option_context_add_main_entries (context, help_entry, GETTEXT_PACKAGE);
  if (entries != NULL)
    g_option_context_add_main_entries (context, entries, GETTEXT_PACKAGE);

  *status = CRO_CLI_REFUSED;
  if (g_option_context_parse (context, argc, argv, &error))
    drop_separator (argc, *argv);
  if (cro_cli_is_of (error, G_CONVERT_ERROR))
    g_printerr (_("The value of an option is not UTF-8.\n"));
  else if (error != NULL)
    g_printerr ("%s\n", error->message);
  else if (help)
    {
      g_autofree char *text = g_option_context_get_help (context, FALSE, NULL);

      g_print ("%s", text);
      *status = CRO_CLI_DONE;
      return FALSE;
    }
  else if (is_any_empty (*argc, *argv))
    g_printerr (_("An argument is empty.\n"));
  else if (are_as_many (*argc, *argv, arguments))
    return TRUE;
  g_printerr (_("Usage: %s %s\n"), program, arguments);
  return FALSE;
}

/* Arguments and output are UTF-8 whatever the locale: a job's is often the C locale. */
static void
use_utf8 (void)
{
  if (strcmp (nl_langinfo (CODESET), "UTF-8") != 0)
    setlocale (LC_CTYPE, "C.UTF-8");
}

int
main (int    argc,
      char **argv)
{
  cro_catalogue_open ();
  use_utf8 ();
  cro_cli_escape_output ();
  cro_cli_note_reader ();
  return (int) cro_cli_end (run (argc, argv));
}
