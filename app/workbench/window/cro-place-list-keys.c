/* The keys of the list of a place: between what is looked for, the row of all and the others, and in and out of
 * what is folded. */
#include "cro-place-list-private.h"

#include "cro-focus.h"

/* Down leads from what is looked for to what was found. */
static gboolean
search_key_cb (CroPlaceList    *self,
               guint            keyval,
               guint            keycode,
               GdkModifierType  state)
{
  if (keyval != GDK_KEY_Down && keyval != GDK_KEY_KP_Down)
    return GDK_EVENT_PROPAGATE;
  return gtk_widget_grab_focus (self->view);
}

static gboolean
is_up_from_first (CroPlaceList *self,
                  guint         keyval)
{
  GtkWidget *first = gtk_widget_get_first_child (self->view);

  return (keyval == GDK_KEY_Up || keyval == GDK_KEY_KP_Up) && first != NULL
         && gtk_widget_get_focus_child (self->view) == first
         && gtk_single_selection_get_selected (self->selection) == 0;
}

/* A heading's first row lies towards the end of a line of text. */
static gboolean
is_inwards (CroPlaceList *self,
            guint         keyval)
{
  gboolean is_mirrored = gtk_widget_get_direction (self->view) == GTK_TEXT_DIR_RTL;

  return (keyval == GDK_KEY_Right || keyval == GDK_KEY_KP_Right) != is_mirrored;
}

/* To the heading that a row stands under. */
static gboolean
go_to_heading (CroPlaceList *self,
               CroRow       *row)
{
  guint at = cro_place_rows_find_heading (&self->rows, row);

  if (at == GTK_INVALID_LIST_POSITION)
    return FALSE;
  gtk_single_selection_set_selected (self->selection, at);
  gtk_widget_activate_action (self->view, "list.scroll-to-item", "u", at);
  cro_place_list_focus (self);
  return TRUE;
}

/* Left and right, as in a tree: out of a group to its heading, which they fold and unfold. */
static gboolean
fold_by_key (CroPlaceList *self,
             guint         keyval)
{
  CroRow *row = gtk_single_selection_get_selected_item (self->selection);

  if (row == NULL || (keyval != GDK_KEY_Left && keyval != GDK_KEY_KP_Left && keyval != GDK_KEY_Right
                      && keyval != GDK_KEY_KP_Right))
    return FALSE;
  if (cro_row_get_heading (row) == NULL)
    return !is_inwards (self, keyval) && go_to_heading (self, row);
  cro_place_list_fold (self, row, !is_inwards (self, keyval));
  return TRUE;
}

/* Home, and up from the first, lead to the row of all, and it is chosen as a row is that the focus
 * comes to. A letter that is typed on a row looks for another. */
static gboolean
row_key_cb (CroPlaceList    *self,
            guint            keyval,
            guint            keycode,
            GdkModifierType  state)
{
  gunichar letter = gdk_keyval_to_unicode (keyval);

  if ((state & (GDK_CONTROL_MASK | GDK_SHIFT_MASK | GDK_ALT_MASK)) == 0 && fold_by_key (self, keyval))
    return GDK_EVENT_STOP;
  if ((keyval == GDK_KEY_Home || keyval == GDK_KEY_KP_Home || is_up_from_first (self, keyval))
      && (state & (GDK_CONTROL_MASK | GDK_SHIFT_MASK | GDK_ALT_MASK)) == 0
      && gtk_widget_grab_focus (self->all))
    {
      cro_place_list_choose_all (self);
      return GDK_EVENT_STOP;
    }
  if (!g_unichar_isalpha (letter) || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  cro_focus_type (self->search, letter);
  return GDK_EVENT_STOP;
}

/* Down from the row of all leads to the first of the others. */
static gboolean
all_key_cb (CroPlaceList    *self,
            guint            keyval,
            guint            keycode,
            GdkModifierType  state)
{
  GtkWidget *first = gtk_widget_get_first_child (self->view);

  if (keyval != GDK_KEY_Down && keyval != GDK_KEY_KP_Down)
    return row_key_cb (self, keyval, keycode, state);
  if (first == NULL || !gtk_widget_grab_focus (first))
    return GDK_EVENT_PROPAGATE;
  gtk_single_selection_set_selected (self->selection, 0);
  return GDK_EVENT_STOP;
}

static void
add (CroPlaceList       *self,
     GtkWidget          *widget,
     GtkPropagationPhase phase,
     GCallback           key_cb)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  g_signal_connect_object (keys, "key-pressed", key_cb, self, G_CONNECT_SWAPPED);
  gtk_event_controller_set_propagation_phase (keys, phase);
  gtk_widget_add_controller (widget, keys);
}

void
cro_place_list_add_keys (CroPlaceList *self)
{
  add (self, self->search, GTK_PHASE_CAPTURE, G_CALLBACK (search_key_cb));
  add (self, self->all, GTK_PHASE_BUBBLE, G_CALLBACK (all_key_cb));
  add (self, self->view, GTK_PHASE_BUBBLE, G_CALLBACK (row_key_cb));
}
