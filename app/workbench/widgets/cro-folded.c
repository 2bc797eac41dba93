#include "cro-folded.h"

#include "cro-spoken.h"

GtkWidget *
cro_folded_new (GtkWidget *child)
{
  GtkWidget *folded = gtk_expander_new (NULL);

  gtk_expander_set_child (GTK_EXPANDER (folded), child);
  /* What is folded away is in no window, and a key that leads backwards would give it the focus. */
  g_object_bind_property (folded, "expanded", child, "visible", G_BINDING_SYNC_CREATE);
  return folded;
}

void
cro_folded_set_label (GtkWidget  *folded,
                      const char *label)
{
  gtk_expander_set_label (GTK_EXPANDER (folded), label);
  cro_spoken_set (folded, label);
}
