#include "cro-field-menu.h"

#include "cro-focus.h"

/* Before what was chosen is done. What is selected stays so: it may be what is to be cut. */
static gboolean
closed_cb (GSignalInvocationHint *hint,
           guint                  n_values,
           const GValue          *values,
           gpointer               unused)
{
  GtkWidget *menu = g_value_get_object (&values[0]);
  GtkWidget *field = gtk_widget_get_parent (menu);

  if (GTK_IS_POPOVER_MENU (menu) && GTK_IS_TEXT (field) && gtk_widget_get_mapped (field) && cro_focus_is_in (menu))
    gtk_text_grab_focus_without_selecting (GTK_TEXT (field));
  return TRUE;
}

void
cro_field_menu_begin (void)
{
  static gulong hook;

  g_type_class_unref (g_type_class_ref (GTK_TYPE_POPOVER));
  if (hook == 0)
    hook = g_signal_add_emission_hook (g_signal_lookup ("closed", GTK_TYPE_POPOVER), 0, closed_cb, NULL, NULL);
}
