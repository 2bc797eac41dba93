#include "config.h"

#include "cro-box.h"

void
cro_box_clear (GtkWidget *box)
{
  for (GtkWidget *child; (child = gtk_widget_get_first_child (box)) != NULL;)
    gtk_box_remove (GTK_BOX (box), child);
}

void
cro_box_let_go (GtkWidget *widget)
{
  for (GtkWidget *child; (child = gtk_widget_get_first_child (widget)) != NULL;)
    gtk_widget_unparent (child);
}
