#include "config.h"

#include "cro-offered-keys.h"

/* Whether a key would change a text. */
static gboolean
is_typed (guint           keyval,
          GdkModifierType state)
{
  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK | GDK_META_MASK)) != 0)
    return FALSE;
  return keyval == GDK_KEY_BackSpace || keyval == GDK_KEY_Delete || keyval == GDK_KEY_KP_Delete
         || g_unichar_isprint (gdk_keyval_to_unicode (keyval));
}

/* What it offers goes with what is typed, the row that has the focus too: so that goes first. */
static gboolean
key_pressed_cb (GtkEntry              *entry,
                guint                  keyval,
                guint                  keycode,
                GdkModifierType        state,
                GtkEventControllerKey *keys)
{
  GtkListBox *offered = GTK_LIST_BOX (gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (keys)));
  GtkListBoxRow *first = gtk_list_box_get_row_at_index (offered, 0);
  gboolean is_back = keyval == GDK_KEY_Escape
                     || ((keyval == GDK_KEY_Up || keyval == GDK_KEY_KP_Up) && first != NULL
                         && gtk_widget_is_focus (GTK_WIDGET (first)));

  if (!is_back && !is_typed (keyval, state))
    return GDK_EVENT_PROPAGATE;
  gtk_entry_grab_focus_without_selecting (entry);
  return is_back
         || gtk_event_controller_key_forward (keys, GTK_WIDGET (gtk_editable_get_delegate (GTK_EDITABLE (entry))));
}

void
cro_offered_keys_add (GtkListBox *offered,
                      GtkEntry   *entry)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (key_pressed_cb), entry, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (GTK_WIDGET (offered), keys);
}
