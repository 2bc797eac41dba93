/* bare-window.c: an application whose window has a header bar and nothing else. */
#include <adwaita.h>

static void
activate_cb (GtkApplication *application)
{
  GtkWidget *window = adw_application_window_new (application);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  gtk_box_append (GTK_BOX (box), adw_header_bar_new ());
  adw_application_window_set_content (ADW_APPLICATION_WINDOW (window), box);
  gtk_window_set_title (GTK_WINDOW (window), "Bare");
  gtk_window_set_default_size (GTK_WINDOW (window), 1366, 768);
  gtk_window_present (GTK_WINDOW (window));
}

int
main (int    argc,
      char **argv)
{
  g_autoptr (AdwApplication) application = adw_application_new ("org.croustade.Bare",
                                                                G_APPLICATION_DEFAULT_FLAGS);

  g_signal_connect (application, "activate", G_CALLBACK (activate_cb), NULL);
  return g_application_run (G_APPLICATION (application), argc, argv);
}
