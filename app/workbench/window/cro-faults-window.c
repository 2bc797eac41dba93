#include "config.h"

#include "cro-faults-window.h"

#include <glib/gi18n.h>

#include "cro-words.h"

/* Faults shown; more than anybody reads before mending the first ones. All of them are copied. */
#define MOST_SHOWN 500

struct _CroFaultsWindow
{
  AdwWindow    parent_instance;

  GtkLabel    *summary;
  GtkTextView *lines;
  char        *all;       /* what is copied */
};

G_DEFINE_FINAL_TYPE (CroFaultsWindow, cro_faults_window, ADW_TYPE_WINDOW)

static char *
dup_lines (CroFaults *faults,
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

static void
copy_cb (CroFaultsWindow *self)
{
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (self)), self->all);
}

static void
cro_faults_window_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), CRO_TYPE_FAULTS_WINDOW);
  G_OBJECT_CLASS (cro_faults_window_parent_class)->dispose (object);
}

static void
cro_faults_window_finalize (GObject *object)
{
  g_free (CRO_FAULTS_WINDOW (object)->all);
  G_OBJECT_CLASS (cro_faults_window_parent_class)->finalize (object);
}

static void
cro_faults_window_class_init (CroFaultsWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_faults_window_dispose;
  G_OBJECT_CLASS (klass)->finalize = cro_faults_window_finalize;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/croustade/Croustade/cro-faults-window.ui");
  gtk_widget_class_bind_template_child (widget_class, CroFaultsWindow, summary);
  gtk_widget_class_bind_template_child (widget_class, CroFaultsWindow, lines);
  gtk_widget_class_bind_template_callback (widget_class, copy_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
cro_faults_window_init (CroFaultsWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
cro_faults_window_new (GtkWindow *parent,
                       CroFaults *faults)
{
  CroFaultsWindow *self = g_object_new (CRO_TYPE_FAULTS_WINDOW, "transient-for", parent, NULL);
  guint n = cro_faults_get_n (faults);
  g_autofree char *summary
      = g_strdup_printf (ngettext ("%u error in the tables; no book was made. Each is given as "
                                   "file, line, column and what is wrong.",
                                   "%u errors in the tables; no book was made. Each is given as "
                                   "file, line, column and what is wrong.", n), n);
  g_autofree char *shown = dup_lines (faults, MIN (n, MOST_SHOWN));

  self->all = dup_lines (faults, n);
  gtk_label_set_label (self->summary, summary);
  gtk_text_buffer_set_text (gtk_text_view_get_buffer (self->lines), shown, -1);
  return GTK_WIDGET (self);
}
