#include "cro-field-menu.h"

#include "cro-focus.h"

/* What is selected stays so: it may be what is to be cut. */
static void
take_back (GtkWidget *field)
{
  if (gtk_widget_get_mapped (field))
    gtk_text_grab_focus_without_selecting (GTK_TEXT (field));
}

/* From GTK 4.18 on what was chosen gives the focus to the button of the popover that the field stands in: behind it. */
static gboolean
later_cb (gpointer field)
{
  GtkRoot *root = gtk_widget_get_root (field);
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  if (focus == NULL || gtk_widget_get_native (focus) != gtk_widget_get_native (field))
    take_back (field);
  return G_SOURCE_REMOVE;
}

/* Before what was chosen is done. */
static gboolean
closed_cb (GSignalInvocationHint *hint,
           guint                  n_values,
           const GValue          *values,
           gpointer               unused)
{
  GtkWidget *menu = g_value_get_object (&values[0]);
  GtkWidget *field = gtk_widget_get_parent (menu);

  if (GTK_IS_POPOVER_MENU (menu) && GTK_IS_TEXT (field) && cro_focus_is_in (menu))
    {
      take_back (field);
      g_idle_add_full (G_PRIORITY_HIGH, later_cb, g_object_ref (field), g_object_unref);
    }
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
