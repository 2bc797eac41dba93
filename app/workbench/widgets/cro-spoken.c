#include "config.h"

#include "cro-spoken.h"

static void
set_label (GtkWidget  *widget,
           const char *name)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

void
cro_spoken_set (GtkWidget  *widget,
                const char *name)
{
  /* A later GTK calls a drop-down after what is chosen in it, which goes before a name. */
  gtk_accessible_reset_relation (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_RELATION_LABELLED_BY);
  set_label (widget, name);
  if (GTK_IS_MENU_BUTTON (widget) || GTK_IS_DROP_DOWN (widget))
    set_label (gtk_widget_get_first_child (widget), name);
}

void
cro_spoken_set_item (GtkListItem *item,
                     const char  *name)
{
  GtkWidget *row = gtk_widget_get_parent (gtk_list_item_get_child (item));

  /* Since GTK 4.12 an item has the name, and its child comes into a row only after it is bound. */
  if (g_object_class_find_property (G_OBJECT_GET_CLASS (item), "accessible-label") != NULL)
    g_object_set (item, "accessible-label", name, NULL);
  else if (row != NULL)
    set_label (row, name);
}
