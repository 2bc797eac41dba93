#include "config.h"

#include "cro-faults-window.h"

#include <glib/gi18n.h>

#include "cro-spoken.h"
#include "cro-words.h"

/* Faults shown; more than anybody reads before mending the first ones. All of them are copied. */
#define MOST_SHOWN 500

static void
copy_cb (GtkButton *button)
{
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (button)),
                          g_object_get_data (G_OBJECT (button), "text"));
}

static char *
all_lines (CroFaults *faults,
           guint      n)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *line = cro_words_fault (cro_faults_get (faults, i));

      g_string_append_printf (text, "%s\n", line);
    }
  return g_string_free (text, FALSE);
}

static GtkWidget *
text_new (CroFaults *faults)
{
  g_autofree char *text = all_lines (faults, MIN (cro_faults_get_n (faults), MOST_SHOWN));
  GtkWidget *view = gtk_text_view_new ();
  GtkWidget *scroller = gtk_scrolled_window_new ();

  gtk_text_buffer_set_text (gtk_text_view_get_buffer (GTK_TEXT_VIEW (view)), text, -1);
  gtk_text_view_set_editable (GTK_TEXT_VIEW (view), FALSE);
  gtk_text_view_set_accepts_tab (GTK_TEXT_VIEW (view), FALSE);
  gtk_text_view_set_wrap_mode (GTK_TEXT_VIEW (view), GTK_WRAP_WORD_CHAR);
  gtk_text_view_set_left_margin (GTK_TEXT_VIEW (view), 12);
  gtk_text_view_set_right_margin (GTK_TEXT_VIEW (view), 12);
  cro_spoken_set (view, _("Errors"));
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), view);
  gtk_widget_set_vexpand (scroller, TRUE);
  return scroller;
}

GtkWidget *
cro_faults_window_new (GtkWindow *parent,
                       CroFaults *faults)
{
  guint n = cro_faults_get_n (faults);
  g_autofree char *says
      = g_strdup_printf (ngettext ("%u error in the tables; no book was made. Each is given as "
                                   "file, line, column and what is wrong.",
                                   "%u errors in the tables; no book was made. Each is given as "
                                   "file, line, column and what is wrong.", n), n);
  GtkWidget *window = g_object_new (ADW_TYPE_WINDOW, "transient-for", parent, "modal", TRUE, "title",
                                    _("Errors in the Tables"), "default-width", 760,
                                    "default-height", 480, NULL);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *header = adw_header_bar_new ();
  GtkWidget *label = gtk_label_new (says);
  GtkWidget *copy = gtk_button_new_with_mnemonic (_("_Copy All"));

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_margin_start (label, 12);
  gtk_widget_set_margin_end (label, 12);
  g_object_set_data_full (G_OBJECT (copy), "text", all_lines (faults, n), g_free);
  g_signal_connect (copy, "clicked", G_CALLBACK (copy_cb), NULL);
  adw_header_bar_pack_start (ADW_HEADER_BAR (header), copy);
  gtk_box_append (GTK_BOX (box), header);
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (GTK_BOX (box), text_new (faults));
  adw_window_set_content (ADW_WINDOW (window), box);
  return window;
}
