#include "cro-folded.h"

#include "cro-spoken.h"

GtkWidget *
cro_folded_new (GtkWidget *child)
{
  GtkWidget *folded = gtk_expander_new (NULL);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  gtk_box_append (GTK_BOX (box), child);
  gtk_expander_set_child (GTK_EXPANDER (folded), box);
  /* What is folded away is in no window, and a key would give it the focus; the child says for itself
   * whether it is to be seen. */
  g_object_bind_property (folded, "expanded", box, "visible", G_BINDING_SYNC_CREATE);
  return folded;
}

void
cro_folded_set_label (GtkWidget  *folded,
                      const char *label)
{
  gtk_expander_set_label (GTK_EXPANDER (folded), label);
  /* A long line is cut, and pushes nothing out of sight that stands beside it. */
  gtk_label_set_ellipsize (GTK_LABEL (gtk_expander_get_label_widget (GTK_EXPANDER (folded))), PANGO_ELLIPSIZE_END);
  gtk_widget_set_tooltip_text (folded, label);
  cro_spoken_set (folded, label);
}
