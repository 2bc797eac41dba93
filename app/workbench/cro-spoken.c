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
  set_label (widget, name);
  if (GTK_IS_MENU_BUTTON (widget) || GTK_IS_DROP_DOWN (widget))
    set_label (gtk_widget_get_first_child (widget), name);
}

void
cro_spoken_set_item (GtkWidget  *child,
                     const char *name)
{
  GtkWidget *item = gtk_widget_get_parent (child);

  if (item != NULL)
    set_label (item, name);
}
