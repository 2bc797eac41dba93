#include "config.h"

#include "cro-cli.h"

#include <glib/gi18n.h>

#include "cro-dump.h"
#include "cro-load.h"

CroCliStatus
cro_cli_new (int    argc,
             char **argv)
{
  CroCliStatus status;
  g_autofree char *desk = NULL;
  g_autoptr (CroStore) store = NULL;
  g_autoptr (GError) error = NULL;

  if (!cro_cli_parse ("new", "BOOK", _("Make an empty book."), NULL, 1, &argc, &argv, &status))
    return status;
  desk = cro_here_dup_desk ();
  store = cro_store_create (argv[1], desk, &error);
  cro_cli_warn_of_network (argv[1]);
  return store != NULL ? CRO_CLI_DONE : cro_cli_fail (argv[1], error);
}

CroCliStatus
cro_cli_load (int    argc,
              char **argv)
{
  gboolean replace = FALSE;
  GOptionEntry entries[] = {
    { "replace", 0, 0, G_OPTION_ARG_NONE, &replace,
      N_("Make the book's tables those of the folder, in one act"), NULL },
    { NULL },
  };
  CroCliStatus status;
  g_autofree char *desk = NULL;
  g_autofree char *label = NULL;
  g_autofree char *folder = NULL;
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (GError) error = NULL;

  if (!cro_cli_parse ("load", "BOOK FOLDER",
                      _("Load a folder of tables into a book, which is made if it is not there."),
                      entries, 2, &argc, &argv, &status))
    return status;
  cro_cli_warn_of_network (argv[1]);
  desk = cro_here_dup_desk ();
  folder = g_path_get_basename (argv[2]);
  /* Translators: an entry of the history; %s is the name of a folder. */
  label = g_strdup_printf (_("Load tables from %s"), folder);
  cro_cli_note_interrupts ();
  if (cro_load (argv[1], argv[2], desk, label, replace, cro_cli_goes_on, NULL, faults, &error))
    return CRO_CLI_DONE;
  if (!g_error_matches (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_FAULTS))
    return cro_cli_fail (error->domain == G_FILE_ERROR ? argv[2] : argv[1], error);
  cro_cli_print_faults (faults);
  g_printerr (g_dngettext (GETTEXT_PACKAGE, "%u fault; nothing was changed\n",
                           "%u faults; nothing was changed\n", cro_faults_get_n (faults)),
              cro_faults_get_n (faults));
  return CRO_CLI_REFUSED;
}

CroCliStatus
cro_cli_dump (int    argc,
              char **argv)
{
  CroCliStatus status;
  g_autoptr (CroStore) store = NULL;
  g_autoptr (GError) error = NULL;

  if (!cro_cli_parse ("dump", "BOOK FOLDER", _("Write all tables of a book into a folder."), NULL,
                      2, &argc, &argv, &status))
    return status;
  store = cro_store_open (argv[1], NULL, CRO_STORE_READ, &error);
  if (store == NULL)
    return cro_cli_fail (argv[1], error);
  cro_cli_note_interrupts ();
  return cro_dump (store, argv[2], cro_cli_goes_on, NULL, &error) ? CRO_CLI_DONE
                                                                  : cro_cli_fail (argv[2], error);
}
