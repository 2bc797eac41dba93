#include "cro-column-choice.h"

#include "cro-drop-down.h"

#define COLUMN "column"

GtkWidget *
cro_column_choice_new (guint              column,
                       const char *const *words,
                       guint              chosen,
                       const char        *name)
{
  GtkWidget *choice = cro_drop_down_new (words, name);

  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), chosen);
  g_object_set_data (G_OBJECT (choice), COLUMN, GUINT_TO_POINTER (column));
  return choice;
}

guint
cro_column_choice_get_column (GtkWidget *choice)
{
  return GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (choice), COLUMN));
}

void
cro_column_choices_show (GtkWidget       *below,
                         CroColumnChosen  chosen,
                         gpointer         owner)
{
  if (GTK_IS_DROP_DOWN (below))
    {
      gtk_drop_down_set_selected (GTK_DROP_DOWN (below), chosen (owner, cro_column_choice_get_column (below)));
      return;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (below); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    cro_column_choices_show (child, chosen, owner);
}
