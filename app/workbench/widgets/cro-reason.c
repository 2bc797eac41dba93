#include "cro-reason.h"

#include "cro-room.h"

/* How wide it makes what stands over it, in characters. */
#define MOST_CHARS 20

GtkWidget *
cro_reason_new (void)
{
  GtkWidget *reason = gtk_label_new (NULL);

  gtk_label_set_wrap (GTK_LABEL (reason), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (reason), MOST_CHARS);
  gtk_label_set_xalign (GTK_LABEL (reason), 0);
  gtk_widget_add_css_class (reason, "reason");
  gtk_widget_set_visible (reason, FALSE);
  return reason;
}

/* Whether the room of a reason can be kept free in the window: px, where text is of the usual size. */
#define HIGH 740

static gboolean
is_high (GtkWidget *room)
{
  GtkRoot *root = gtk_widget_get_root (room);
  int height = root != NULL ? gtk_widget_get_height (GTK_WIDGET (root)) : 0, width, dpi = 0;

  /* A window that is new has none yet. */
  if (height == 0 && GTK_IS_WINDOW (root))
    gtk_window_get_default_size (GTK_WINDOW (root), &width, &height);
  g_object_get (gtk_widget_get_settings (room), "gtk-xft-dpi", &dpi, NULL);
  return height * 96.0 * PANGO_SCALE >= HIGH * (double) dpi;
}

/* What is said there moves nothing, as the room of the longest reason is kept. In a low window it takes none, nor the
 * gap beside it, where nothing is said. */
static void
show_reasons (GtkWidget *room)
{
  GtkWidget *box = gtk_widget_get_first_child (room), *longest = gtk_widget_get_last_child (room);
  gboolean any = FALSE;

  for (GtkWidget *reason = gtk_widget_get_first_child (box); reason != NULL;
       reason = gtk_widget_get_next_sibling (reason))
    any |= gtk_widget_get_visible (reason);
  gtk_widget_set_visible (longest, is_high (room));
  gtk_widget_set_visible (room, any || is_high (room));
}

GtkWidget *
cro_reason_room_new (GtkWidget *box,
                     GtkWidget *longest,
                     GtkWidget *fields)
{
  GtkWidget *room = cro_room_new (box, longest);

  gtk_widget_add_css_class (box, "reasons");
  for (GtkWidget *reason = gtk_widget_get_first_child (box); reason != NULL;
       reason = gtk_widget_get_next_sibling (reason))
    g_signal_connect_object (reason, "notify::visible", G_CALLBACK (show_reasons), room, G_CONNECT_SWAPPED);
  g_signal_connect_object (fields, "map", G_CALLBACK (show_reasons), room, G_CONNECT_SWAPPED);
  show_reasons (room);
  return room;
}

void
cro_reason_say (GtkWidget  *reason,
                GtkWidget  *field,
                const char *note)
{
  gtk_label_set_label (GTK_LABEL (reason), note != NULL ? note : "");
  gtk_widget_set_visible (reason, note != NULL);
  if (field != NULL)
    gtk_accessible_update_property (GTK_ACCESSIBLE (field), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                    note != NULL ? note : "", -1);
}

void
cro_reason_mark (GtkWidget *field,
                 gboolean   is_wrong)
{
  if (is_wrong)
    gtk_widget_add_css_class (field, "error");
  else
    gtk_widget_remove_css_class (field, "error");
  gtk_accessible_update_state (GTK_ACCESSIBLE (field), GTK_ACCESSIBLE_STATE_INVALID,
                               is_wrong ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE,
                               -1);
}
