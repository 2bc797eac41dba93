#include "config.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "cro-catalogue.h"
#include "cro-state.h"
#include "cro-window.h"
#include "cro-words.h"

/* As the command line's: the system failed. packaging/start goes on without a window then. */
#define STATUS_NO_SCREEN 3

/* Where it was left, if that is still there. */
static void
activate_cb (GtkApplication *application)
{
  GtkWindow *active = gtk_application_get_active_window (application);
  g_autofree char *last = cro_state_dup_text ("window", "last");

  if (active != NULL)
    gtk_window_present (active);
  else if (last != NULL && g_file_test (last, G_FILE_TEST_EXISTS))
    cro_window_open_in (application, last);
  else
    gtk_window_present (GTK_WINDOW (cro_window_new (ADW_APPLICATION (application))));
}

static void
open_cb (GtkApplication  *application,
         GFile          **files,
         int              n_files,
         const char      *hint)
{
  for (int i = 0; i < n_files; i++)
    {
      g_autofree char *path = g_file_get_path (files[i]);

      if (path != NULL)
        cro_window_open_in (application, path);
    }
}

static void
quit_cb (GSimpleAction *action,
         GVariant      *parameter,
         gpointer       application)
{
  for (GList *windows = gtk_application_get_windows (application), *next; windows != NULL;
       windows = next)
    {
      next = windows->next;
      gtk_window_close (windows->data);
    }
}

static void
about_cb (GSimpleAction *action,
          GVariant      *parameter,
          gpointer       application)
{
  adw_show_about_window (gtk_application_get_active_window (application),
                         "application-name", "Croustade",
                         "application-icon", "org.croustade.Croustade",
                         "version", CRO_VERSION,
                         "license-type", GTK_LICENSE_GPL_3_0,
                         "comments", _("What one bite costs, and what moves it"),
                         NULL);
}

static void
startup_cb (GtkApplication *application)
{
  static const GActionEntry actions[] = { { .name = "about", .activate = about_cb },
                                         { .name = "quit", .activate = quit_cb } };
  static const char *const quit_keys[] = { "<Control>q", NULL };
  static const char *const help_keys[] = { "<Control>question", NULL };
  g_autoptr (GtkCssProvider) css = gtk_css_provider_new ();

  gtk_css_provider_load_from_resource (css, "/org/croustade/Croustade/style.css");
  gtk_style_context_add_provider_for_display (gdk_display_get_default (), GTK_STYLE_PROVIDER (css),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
  g_action_map_add_action_entries (G_ACTION_MAP (application), actions, G_N_ELEMENTS (actions),
                                   application);
  gtk_application_set_accels_for_action (application, "app.quit", quit_keys);
  gtk_application_set_accels_for_action (application, "win.show-help-overlay", help_keys);
}

static void
unkept_cb (const GError *error,
           gpointer      application)
{
  /* A dialog may be in front. */
  for (GList *at = gtk_application_get_windows (application); at != NULL; at = at->next)
    if (CRO_IS_WINDOW (at->data))
      {
        cro_window_say_unkept (CRO_WINDOW (at->data), error);
        return;
      }
}

/* No window is there any more. */
static void
write_state (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *why = NULL;

  if (cro_state_write (&error))
    return;
  why = cro_words_error (error);
  /* Translators: why. */
  g_printerr (_("What was typed and not kept could not be remembered: %s\n"), why);
}

/* Help and the like need no screen. */
static gboolean
asks_for_text (int    argc,
               char **argv)
{
  return argc > 1 && argv[1][0] == '-';
}

/* Before libadwaita puts this empty theme in the place of the toolkit's own, that one would be read, a tenth of the
 * way to the first frame, and never seen. What somebody chose stands. */
#define THEME_OF_LIBADWAITA "Adwaita-empty"

static gboolean
open_screen (void)
{
  gboolean is_chosen = g_getenv ("GTK_THEME") != NULL;
  gboolean done;

  if (!is_chosen)
    g_setenv ("GTK_THEME", THEME_OF_LIBADWAITA, TRUE);
  done = gtk_init_check ();
  /* Here the theme is read. */
  if (done)
    gtk_settings_get_default ();
  /* It would be taken for a person's choice. It was set last: no other moves, which a thread may be reading. */
  if (!is_chosen)
    g_unsetenv ("GTK_THEME");
  return done;
}

int
main (int    argc,
      char **argv)
{
  g_autoptr (AdwApplication) application = NULL;
  int status;

  cro_catalogue_open ();
  if (!asks_for_text (argc, argv) && !open_screen ())
    {
      g_printerr (_("There is no screen to open a window on. “croustade-cli --help” shows what can"
                    " be done without one.\n"));
      return STATUS_NO_SCREEN;
    }
  g_set_application_name ("Croustade");
  application = adw_application_new ("org.croustade.Croustade", G_APPLICATION_HANDLES_OPEN);
  g_signal_connect (application, "startup", G_CALLBACK (startup_cb), NULL);
  g_signal_connect (application, "activate", G_CALLBACK (activate_cb), NULL);
  g_signal_connect (application, "open", G_CALLBACK (open_cb), NULL);
  cro_state_set_failed (unkept_cb, application);
  status = g_application_run (G_APPLICATION (application), argc, argv);
  cro_state_set_failed (NULL, NULL);
  write_state ();
  return status;
}
