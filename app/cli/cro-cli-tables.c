#include "config.h"

#include "cro-cli.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-add.h"
#include "cro-changes.h"
#include "cro-dump.h"
#include "cro-frozen-hash.h"
#include "cro-isolate.h"
#include "cro-left-out-words.h"
#include "cro-load.h"

CroCliStatus
cro_cli_new (int    argc,
             char **argv)
{
  CroCliStatus status;
  g_autofree char *desk = NULL;
  g_autoptr (CroStore) store = NULL;
  g_autoptr (GError) error = NULL;

  if (!cro_cli_parse ("new", "BOOK", _("Make an empty book."), NULL, &argc, &argv, &status))
    return status;
  desk = cro_here_dup_desk ();
  store = cro_store_create (argv[1], desk, &error);
  cro_cli_warn_of_network (argv[1]);
  return store != NULL ? CRO_CLI_DONE : cro_cli_fail (argv[1], error);
}

CroCliStatus
cro_cli_fail_to_load (const char   *book,
                      const char   *folder,
                      CroFaults    *faults,
                      const GError *error)
{
  if (!g_error_matches (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_FAULTS))
    return cro_cli_fail (cro_cli_is_of (error, G_FILE_ERROR)
                                 || g_error_matches (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_UNFINISHED)
                             ? folder
                             : book,
                         error);
  cro_cli_print_faults (faults);
  g_printerr (g_dngettext (GETTEXT_PACKAGE, "%u error; nothing was changed\n",
                           "%u errors; nothing was changed\n", cro_faults_get_n (faults)),
              cro_faults_get_n (faults));
  return CRO_CLI_REFUSED;
}

CroCliStatus
cro_cli_load (int    argc,
              char **argv)
{
  gboolean replace = FALSE;
  GOptionEntry entries[] = {
    { "replace", 0, 0, G_OPTION_ARG_NONE, &replace,
      N_("Replace the book’s tables by those of the folder, in one act"), NULL },
    { NULL },
  };
  CroCliStatus status;
  g_autofree char *desk = NULL;
  g_autofree char *label = NULL;
  g_autofree char *folder = NULL;
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (GError) error = NULL;

  if (!cro_cli_parse ("load", "BOOK FOLDER",
                      _("Load a folder of tables into a book, made if there is none."),
                      entries, &argc, &argv, &status))
    return status;
  cro_cli_warn_of_network (argv[1]);
  desk = cro_here_dup_desk ();
  folder = g_path_get_basename (argv[2]);
  /* Translators: an entry of the history; %s is the name of a folder. */
  label = cro_isolate_printf (_("tables loaded from %s"), folder);
  cro_cli_note_interrupts ();
  if (cro_load (argv[1], argv[2], desk, label, replace, cro_cli_goes_on, NULL, faults, &error))
    {
      cro_cli_note_change ();
      cro_cli_print_slips (argv[1], NULL, NULL);
      return CRO_CLI_DONE;
    }
  return cro_cli_fail_to_load (argv[1], argv[2], faults, error);
}

/* What is saved of a damaged book is not the book: a job is to stop at it. */
static CroCliStatus
salvage (const char *book,
         const char *folder)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (CroSalvage) salvage = cro_salvage (book, folder, cro_cli_goes_on, NULL, &error);
  g_autofree char *sentence = NULL, *what_to_do = NULL;

  if (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED))
    {
      g_printerr (_("%s: nothing of this book can be read\n"), book);
      return CRO_CLI_FAILED;
    }
  if (salvage == NULL || !cro_left_out_write (salvage, folder, &error))
    return cro_cli_fail (cro_cli_is_of (error, CRO_STORE_ERROR) ? book : folder, error);
  cro_cli_print_left_out (salvage);
  sentence = cro_words_salvaged (salvage);
  g_printerr ("%s\n", sentence);
  what_to_do = cro_words_unloadable (salvage);
  if (what_to_do != NULL)
    {
      cro_cli_print_faults (salvage->faults);
      g_printerr ("%s\n", what_to_do);
    }
  return salvage->left_out->len == 0 && what_to_do == NULL ? CRO_CLI_DONE : CRO_CLI_INCOMPLETE;
}

static void
say_altered (const char *month,
             gpointer    user_data)
{
  g_printerr (_("%s is not as closing left it: its rows were changed in the file since, and are written as they are\n"),
              month);
}

CroCliStatus
cro_cli_dump (int    argc,
              char **argv)
{
  gboolean is_damaged = FALSE;
  GOptionEntry entries[] = {
    { "salvage", 0, 0, G_OPTION_ARG_NONE, &is_damaged,
      N_("Of a damaged book: write what can be read, and say what is left out"), NULL },
    { NULL },
  };
  CroCliStatus status;
  g_autoptr (CroStore) store = NULL;
  g_autoptr (GError) error = NULL;

  if (!cro_cli_parse ("dump", "BOOK FOLDER", _("Write all tables of a book into a folder."), entries,
                      &argc, &argv, &status))
    return status;
  if (is_damaged)
    {
      cro_cli_note_interrupts ();
      return salvage (argv[1], argv[2]);
    }
  store = cro_store_open (argv[1], NULL, CRO_STORE_READ, &error);
  if (store == NULL)
    return cro_cli_fail (argv[1], error);
  cro_cli_note_interrupts ();
  if (cro_dump (store, argv[2], cro_cli_goes_on, NULL, &error)
      && cro_frozen_verify (store, say_altered, NULL, NULL, &error))
    return CRO_CLI_DONE;
  return cro_cli_fail (argv[cro_cli_is_of (error, CRO_STORE_ERROR) ? 1 : 2], error);
}

static void
print_passed_over (GArray *rows)
{
  for (guint i = 0; i < rows->len; i++)
    {
      const CroPassedOver *row = &g_array_index (rows, CroPassedOver, i);

      /* Translators: a file and a line in it. */
      g_printerr (_("%s.csv:%u: the book has this row already; --again adds it once more\n"),
                  cro_table_get (row->id)->name, row->line);
    }
}

/* Whether sales of days that are over count anew by it: a selling price or a tax without a day. */
static gboolean
moves_the_past (const CroTableChange *change)
{
  if (strcmp (change->table, "book") == 0)
    return strcmp (change->key, "tax_pct") == 0 && strcmp (change->column, "value") == 0;
  return change->kind == CRO_CHANGE_MOVED
         && (strcmp (change->table, "plates") == 0 || strcmp (change->table, "menus") == 0)
         && (strcmp (change->column, "price") == 0 || strcmp (change->column, "tax_pct") == 0);
}

static void
print_undated (GPtrArray *changes)
{
  for (guint i = 0; i < changes->len; i++)
    {
      const CroTableChange *change = changes->pdata[i];

      if (moves_the_past (change))
        /* Translators: a table, the key of a row and a column, as "plates: Oysters: price". */
        g_printerr (_("%s: %s: %s has no date: net sales of the month that runs and of months older than the book "
                      "follow it; selling_prices.csv dates a price\n"),
                    change->table, change->key, change->column);
    }
}

static void
print_added (const CroAdded *added,
             gboolean        dry_run)
{
  cro_cli_print_changes (added->changes);
  print_undated (added->changes);
  print_passed_over (added->passed_over);
  if (added->changes->len == 0)
    g_printerr (_("the book has all of this already; nothing was changed\n"));
  else if (dry_run)
    g_printerr (_("dry run; nothing was changed\n"));
}

/* What the folder would bring in is asked about as if it had, of a copy of the book. */
static void
print_slips_of_dry_run (const char  *book,
                        const char  *folder,
                        CroAddFlags  flags)
{
  g_autoptr (GHashTable) known = cro_cli_known_doubts (book);
  g_autoptr (CroStore) store = cro_store_open (book, NULL, CRO_STORE_READ, NULL);
  char *copy = store != NULL ? cro_cli_copy_new (store, NULL) : NULL;
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (CroAdded) added = NULL;

  if (copy == NULL)
    return;
  added = cro_add (copy, folder, "dry run", "dry run", flags, cro_cli_goes_on, NULL, faults, NULL);
  if (added != NULL)
    cro_cli_print_slips (copy, known, added->changes);
  cro_cli_copy_remove (copy);
}

CroCliStatus
cro_cli_add (int    argc,
             char **argv)
{
  gboolean dry_run = FALSE, again = FALSE;
  GOptionEntry entries[] = {
    { "dry-run", 0, 0, G_OPTION_ARG_NONE, &dry_run, N_("Show what would change, and change nothing"),
      NULL },
    { "again", 0, 0, G_OPTION_ARG_NONE, &again,
      N_("Add rows of sales, counts, purchases and adjustments that the book has already"), NULL },
    { NULL },
  };
  CroCliStatus status;
  g_autofree char *desk = NULL, *label = NULL, *folder = NULL;
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (GHashTable) known = NULL;
  g_autoptr (CroAdded) added = NULL;
  g_autoptr (GError) error = NULL;

  if (!cro_cli_parse ("add", "BOOK FOLDER",
                      _("Change and add the rows of a folder by their keys, and remove nothing."),
                      entries, &argc, &argv, &status))
    return status;
  cro_cli_warn_of_network (argv[1]);
  desk = cro_here_dup_desk ();
  folder = g_path_get_basename (argv[2]);
  /* Translators: an entry of the history; %s is the name of a folder. */
  label = cro_isolate_printf (_("tables added from %s"), folder);
  known = dry_run ? NULL : cro_cli_known_doubts (argv[1]);
  cro_cli_note_interrupts ();
  added = cro_add (argv[1], argv[2], desk, label,
                   (dry_run ? CRO_ADD_DRY_RUN : 0) | (again ? CRO_ADD_AGAIN : 0), cro_cli_goes_on,
                   NULL, faults, &error);
  if (added == NULL)
    return cro_cli_fail_to_load (argv[1], argv[2], faults, error);
  if (!dry_run && added->changes->len > 0)
    cro_cli_note_change ();
  print_added (added, dry_run);
  if (!dry_run && added->changes->len > 0)
    cro_cli_print_slips (argv[1], known, added->changes);
  if (dry_run && added->changes->len > 0)
    print_slips_of_dry_run (argv[1], argv[2], again ? CRO_ADD_AGAIN : 0);
  return CRO_CLI_DONE;
}
