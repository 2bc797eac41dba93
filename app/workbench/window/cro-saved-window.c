#include "config.h"

#include "cro-saved-window.h"

#include "cro-left-out-words.h"
#include "cro-template.h"
#include "cro-words.h"

/* More than anybody reads; the file beside the tables has all of it. */
#define MOST_SHOWN 500

struct _CroSavedWindow
{
  AdwWindow    parent_instance;

  GtkLabel    *summary;
  GtkLabel    *what_to_do;  /* where the tables do not load as they are */
  GtkLabel    *place;
  GtkWidget   *scroller;    /* around lines */
  GtkTextView *lines;
  GtkWidget   *make_button;
  GtkWidget   *open_button;
  char        *folder;
};

G_DEFINE_FINAL_TYPE (CroSavedWindow, cro_saved_window, ADW_TYPE_WINDOW)

static void
open_folder_cb (CroSavedWindow *self)
{
  g_autofree char *uri = g_filename_to_uri (self->folder, NULL, NULL);

  if (uri != NULL)
    gtk_show_uri (GTK_WINDOW (self), uri, GDK_CURRENT_TIME);
}

static void
make_cb (CroSavedWindow *self)
{
  gtk_widget_activate_action (GTK_WIDGET (gtk_window_get_transient_for (GTK_WINDOW (self))),
                              "win.make-from", "s", self->folder);
  gtk_window_close (GTK_WINDOW (self));
}

/* What is to be corrected comes first. */
static char *
dup_lines (const CroSalvage *salvage)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < MIN (cro_faults_get_n (salvage->faults), MOST_SHOWN); i++)
    {
      g_autofree char *line = cro_words_fault (cro_faults_get (salvage->faults, i));

      g_string_append_printf (text, "%s\n", line);
    }
  for (guint i = 0; i < MIN (salvage->left_out->len, MOST_SHOWN); i++)
    {
      g_autofree char *line = cro_words_left_out (salvage->left_out->pdata[i]);

      g_string_append_printf (text, "%s\n", line);
    }
  return g_string_free (text, FALSE);
}

/* --- The window ------------------------------------------------------------------------------- */

static void
cro_saved_window_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), CRO_TYPE_SAVED_WINDOW);
  G_OBJECT_CLASS (cro_saved_window_parent_class)->dispose (object);
}

static void
cro_saved_window_finalize (GObject *object)
{
  g_free (CRO_SAVED_WINDOW (object)->folder);
  G_OBJECT_CLASS (cro_saved_window_parent_class)->finalize (object);
}

static void
cro_saved_window_class_init (CroSavedWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_saved_window_dispose;
  G_OBJECT_CLASS (klass)->finalize = cro_saved_window_finalize;
  cro_template_set (widget_class, "cro-saved-window");
  gtk_widget_class_bind_template_child (widget_class, CroSavedWindow, summary);
  gtk_widget_class_bind_template_child (widget_class, CroSavedWindow, what_to_do);
  gtk_widget_class_bind_template_child (widget_class, CroSavedWindow, place);
  gtk_widget_class_bind_template_child (widget_class, CroSavedWindow, scroller);
  gtk_widget_class_bind_template_child (widget_class, CroSavedWindow, lines);
  gtk_widget_class_bind_template_child (widget_class, CroSavedWindow, make_button);
  gtk_widget_class_bind_template_child (widget_class, CroSavedWindow, open_button);
  gtk_widget_class_bind_template_callback (widget_class, open_folder_cb);
  gtk_widget_class_bind_template_callback (widget_class, make_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
cro_saved_window_init (CroSavedWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
cro_saved_window_new (GtkWindow        *parent,
                      const char       *folder,
                      const CroSalvage *salvage)
{
  CroSavedWindow *self = g_object_new (CRO_TYPE_SAVED_WINDOW, "transient-for", parent, NULL);
  g_autofree char *summary = cro_words_salvaged (salvage);
  g_autofree char *what_to_do = cro_words_unloadable (salvage);
  g_autofree char *lines = dup_lines (salvage);

  self->folder = g_strdup (folder);
  gtk_label_set_label (self->summary, summary);
  gtk_label_set_label (self->what_to_do, what_to_do != NULL ? what_to_do : "");
  gtk_widget_set_visible (GTK_WIDGET (self->what_to_do), what_to_do != NULL);
  gtk_label_set_label (self->place, folder);
  gtk_text_buffer_set_text (gtk_text_view_get_buffer (self->lines), lines, -1);
  gtk_widget_set_visible (self->scroller, *lines != '\0');
  gtk_widget_grab_focus (what_to_do == NULL ? self->make_button : self->open_button);
  return GTK_WIDGET (self);
}
