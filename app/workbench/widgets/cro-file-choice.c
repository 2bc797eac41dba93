#include "cro-file-choice.h"

/* The chooser holds itself until it is answered, and knows whom to tell. */
static void
response_cb (GtkFileChooser *chooser,
             int             response,
             GObject        *owner)
{
  CroFileChosen chosen = (CroFileChosen) g_object_get_data (G_OBJECT (chooser), "chosen");
  g_autoptr (GFile) file = gtk_file_chooser_get_file (chooser);
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;

  if (response == GTK_RESPONSE_ACCEPT && path != NULL)
    chosen (owner, path);
  g_object_unref (chooser);
}

static GtkFileFilter *
filter_new (const CroFileChoice *choice)
{
  GtkFileFilter *filter = gtk_file_filter_new ();

  gtk_file_filter_set_name (filter, choice->kind);
  for (guint i = 0; choice->suffixes[i] != NULL; i++)
    gtk_file_filter_add_suffix (filter, choice->suffixes[i]);
  return filter;
}

void
cro_file_choice_ask (const CroFileChoice *choice,
                     GtkWindow           *window,
                     CroFileChosen        chosen,
                     gpointer             owner)
{
  GtkFileChooserNative *chooser = gtk_file_chooser_native_new (choice->title, window, choice->action,
                                                               NULL, NULL);

  if (choice->kind != NULL)
    {
      g_autoptr (GtkFileFilter) filter = filter_new (choice);

      gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (chooser), filter);
    }
  if (choice->name != NULL)
    gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (chooser), choice->name);
  g_object_set_data (G_OBJECT (chooser), "chosen", (gpointer) chosen);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  g_signal_connect_object (chooser, "response", G_CALLBACK (response_cb), owner, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}
