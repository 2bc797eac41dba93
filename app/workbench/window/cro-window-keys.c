#include "config.h"

#include "cro-window-private.h"

#include <glib/gi18n.h>

#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-focus.h"
#include "cro-pane.h"
#include "cro-reveal.h"

/* --- Parts of the window ------------------------------------------------------------------------------ */

/* In the order in which F6 leads to them, wherever they stand: figures may be at the foot. */
static const char *const classes[] = { "figures", "fields", "lines-part", "part" };

static guint
rank_of (GtkWidget *part)
{
  guint i = 0;

  while (i < G_N_ELEMENTS (classes) && !gtk_widget_has_css_class (part, classes[i]))
    i++;
  return i;
}

/* Those that are on the screen. What is in a part is no part of its own. */
static void
add_parts (GPtrArray *parts,
           GtkWidget *widget)
{
  if (!gtk_widget_get_child_visible (widget) || !gtk_widget_get_visible (widget))
    return;
  if (rank_of (widget) < G_N_ELEMENTS (classes))
    {
      guint at = parts->len;

      /* Those of a kind stay as they stand. */
      while (at > 0 && rank_of (parts->pdata[at - 1]) > rank_of (widget))
        at--;
      g_ptr_array_insert (parts, (int) at, widget);
      return;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    add_parts (parts, child);
}

/* The one with the focus. Outside of all the list, from where they begin. */
static guint
part_of (GPtrArray *parts,
         GtkWidget *focus)
{
  for (guint i = 0; focus != NULL && i < parts->len; i++)
    if (focus == parts->pdata[i] || gtk_widget_is_ancestor (focus, parts->pdata[i]))
      return i;
  return 0;
}

/* The list, or where it is hidden the rail, and then the parts of what stands on the bench. */
static void
go_to_part (CroWindow *self,
            gboolean   is_back)
{
  GtkWidget *list = cro_window_is_list_seen (self) ? self->list_box : GTK_WIDGET (self->rail);
  g_autoptr (GPtrArray) parts = g_ptr_array_new ();
  guint now;

  add_parts (parts, gtk_stack_get_visible_child (self->bench));
  g_ptr_array_insert (parts, 0, list);
  now = part_of (parts, gtk_window_get_focus (GTK_WINDOW (self)));
  for (guint i = 1; i <= parts->len; i++)
    if (cro_focus_first (parts->pdata[(now + (is_back ? parts->len - i : i)) % parts->len]))
      return;
}

static void
next_part_cb (GtkWidget  *widget,
              const char *action,
              GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);

  if (self->book != NULL)
    go_to_part (self, g_str_equal (action, "win.previous-part"));
}

/* --- Making, opening ------------------------------------------------------------------------------------ */

static gboolean
add_thing (CroWindow  *self,
           CroRef     *made,
           GError    **error)
{
  CroModel *model = cro_book_get_model (self->book);
  g_autofree char *name = NULL, *label = NULL;
  gboolean is_made = FALSE;

  switch (self->place)
    {
    case CRO_PLACE_PREPARATIONS:
      name = cro_edit_dup_free_name (model, CRO_NAMES_PREPARATIONS, _("New preparation"));
      label = cro_act_dup_addition (name);
      made->kind = CRO_REF_RECIPE;
      is_made = cro_edit_add_preparation (self->book, label, name, 0, CRO_UNIT_G, &made->slot, NULL,
                                          error);
      break;
    case CRO_PLACE_MARKET:
      name = cro_edit_dup_free_name (model, CRO_NAMES_SUPPLIERS, _("New supplier"));
      label = cro_act_dup_addition (name);
      made->kind = CRO_REF_SUPPLIER;
      is_made = cro_edit_add_supplier (self->book, label, name, &made->slot, error);
      break;
    case CRO_PLACE_LARDER:
      name = cro_edit_dup_free_name (model, CRO_NAMES_ITEMS, _("New ingredient"));
      label = cro_act_dup_addition (name);
      made->kind = CRO_REF_ITEM;
      is_made = cro_edit_add_ingredient (self->book, label, name, CRO_BASE_GRAM, NULL, &made->slot,
                                         error);
      break;
    default:
      name = cro_edit_dup_free_name (model, CRO_NAMES_THINGS, _("New plate"));
      label = cro_act_dup_addition (name);
      made->kind = CRO_REF_RECIPE;
      is_made = cro_edit_add_plate (self->book, label, name, CRO_MICRO, &made->slot, error);
    }
  return is_made;
}

static gboolean
add_menu (CroWindow  *self,
          CroRef     *made,
          GError    **error)
{
  g_autofree char *name = cro_edit_dup_free_name (cro_book_get_model (self->book), CRO_NAMES_THINGS,
                                                  _("New menu"));
  g_autofree char *label = cro_act_dup_addition (name);

  made->kind = CRO_REF_MENU;
  return cro_edit_add_menu (self->book, label, name, &made->slot, error);
}

/* A new thing's first field is its name, which stands there to be typed over. */
static void
new_thing_cb (GtkWidget  *widget,
              const char *action,
              GVariant   *parameter)
{
  CroWindow *self = CRO_WINDOW (widget);
  g_autoptr (GError) error = NULL;
  CroRef made = CRO_REF_NOWHERE;
  GtkWidget *fields;

  if (self->book == NULL)
    return;
  if (!(g_str_equal (action, "win.new-menu") ? add_menu (self, &made, &error)
                                             : add_thing (self, &made, &error)))
    {
      cro_window_fail (self, error);
      return;
    }
  cro_window_open_ref (self, made);
  fields = cro_focus_find (gtk_stack_get_visible_child (self->bench), "fields");
  if (fields != NULL && cro_focus_first (fields) && GTK_IS_EDITABLE (gtk_window_get_focus (GTK_WINDOW (self))))
    cro_focus_select (gtk_window_get_focus (GTK_WINDOW (self)));
}

/* Whatever stands around the focus and shows an item opens it. */
static void
open_here_cb (GtkWidget  *widget,
              const char *action,
              GVariant   *parameter)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (widget));

  if (focus != NULL)
    gtk_widget_activate_action (focus, "item.open", NULL);
}

/* Ctrl+1 and on: a picture of what stands on the bench, or a view of an overview; 0 closes it. */
static const struct { int digit; CroPictureId id; } pictures[] = {
  { 1, CRO_PICTURE_MADE_OF }, { 2, CRO_PICTURE_MOVERS }, { 3, CRO_PICTURE_PRICE }, { 4, CRO_PICTURE_COVERS },
  { 0, CRO_N_PICTURES },
};

static gboolean
open_picture (CroWindow    *self,
              CroPictureId  id)
{
  return self->book != NULL
         && gtk_widget_activate_action (gtk_stack_get_visible_child (self->bench), "bench.picture", "i", (int) id);
}

static gboolean
picture_cb (GtkWidget *widget,
            GVariant  *id,
            gpointer   user_data)
{
  return open_picture (CRO_WINDOW (widget), (CroPictureId) g_variant_get_int32 (id));
}

/* From the list as from the page beside it, whose own key this is: the first of its actions that the page has. */
static gboolean
activate_of_page (CroWindow         *self,
                  const char *const *actions)
{
  GtkWidget *page = gtk_stack_get_visible_child (self->bench);

  for (; self->book != NULL && page != NULL && *actions != NULL; actions++)
    if (gtk_widget_activate_action (page, *actions, NULL))
      return GDK_EVENT_STOP;
  return GDK_EVENT_PROPAGATE;
}

static gboolean
print_cb (GtkWidget *widget,
          GVariant  *arguments,
          gpointer   user_data)
{
  static const char *const actions[] = { "month.print", "card.print", "allergens.print", "bench.print", NULL };

  return activate_of_page (CRO_WINDOW (widget), actions);
}

/* A list of prices; into a field its own key pastes. */
static gboolean
paste_cb (GtkWidget *widget,
          GVariant  *arguments,
          gpointer   user_data)
{
  static const char *const actions[] = { "market.paste", "round.paste", NULL };

  return activate_of_page (CRO_WINDOW (widget), actions);
}

/* Made when it is first asked for: a window comes up sooner, and most go without it. */
static void
show_help_cb (GtkWidget  *widget,
              const char *action,
              GVariant   *parameter)
{
  GtkApplicationWindow *window = GTK_APPLICATION_WINDOW (widget);

  if (gtk_application_window_get_help_overlay (window) == NULL)
    {
      g_autoptr (GtkBuilder) builder = gtk_builder_new_from_resource ("/org/croustade/Croustade/help-overlay.ui");
      GObject *overlay = gtk_builder_get_object (builder, "help_overlay");

      gtk_application_window_set_help_overlay (window, GTK_SHORTCUTS_WINDOW (overlay));
    }
  gtk_window_present (GTK_WINDOW (gtk_application_window_get_help_overlay (window)));
}

/* --- Digits ------------------------------------------------------------------------------------------- */

/* Where digits are typed with Shift, as on French keyboards, their keys alone give "&", "é", "\"". */
int
cro_window_digit (GtkEventControllerKey *keys,
                  guint                  keyval,
                  guint                  keycode)
{
  GdkDisplay *display = gtk_widget_get_display (gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (keys)));
  int group = (int) gtk_event_controller_key_get_group (keys), n = 0, digit = -1;
  g_autofree GdkKeymapKey *levels = NULL;
  g_autofree guint *keyvals = NULL;

  if (keyval >= GDK_KEY_0 && keyval <= GDK_KEY_9)
    return (int) (keyval - GDK_KEY_0);
  if (!gdk_display_map_keycode (display, keycode, &levels, &keyvals, &n))
    return -1;
  for (int i = 0; i < n; i++)
    if (levels[i].group == group && levels[i].level == 1 && keyvals[i] >= GDK_KEY_0 && keyvals[i] <= GDK_KEY_9)
      digit = (int) (keyvals[i] - GDK_KEY_0);
  return digit;
}

/* A plain digit is the bindings' own. */
static gboolean
shifted_digit_cb (GtkEventControllerKey *keys,
                  guint                  keyval,
                  guint                  keycode,
                  GdkModifierType        state,
                  CroWindow             *self)
{
  GdkModifierType held = state & (GDK_SHIFT_MASK | GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK);
  int digit = keyval >= GDK_KEY_0 && keyval <= GDK_KEY_9 ? -1 : cro_window_digit (keys, keyval, keycode);

  if (held == GDK_ALT_MASK && digit >= 1 && digit <= CRO_N_PLACES)
    return gtk_widget_activate_action (GTK_WIDGET (self), "win.place", "i", digit - 1);
  for (gsize i = 0; held == GDK_CONTROL_MASK && i < G_N_ELEMENTS (pictures); i++)
    if (digit == pictures[i].digit)
      return open_picture (self, pictures[i].id);
  return GDK_EVENT_PROPAGATE;
}

/* --- Out of sight ------------------------------------------------------------------------------------- */

/* Whether a key presses a button, or opens what stands beside a control. */
static gboolean
presses (GtkWidget       *focus,
         guint            keyval,
         GdkModifierType  held)
{
  switch (keyval)
    {
    case GDK_KEY_space:
    case GDK_KEY_KP_Space:
    case GDK_KEY_Return:
    case GDK_KEY_KP_Enter:
    case GDK_KEY_ISO_Enter:
      return held == 0 && !GTK_IS_TEXT (focus);
    case GDK_KEY_i:
      return held == GDK_CONTROL_MASK && !GTK_IS_TEXT (focus);
    case GDK_KEY_Menu:
      return held == 0;
    case GDK_KEY_F10:
      return held == GDK_SHIFT_MASK;
    default:
      return FALSE;
    }
}

/* What was scrolled away and has the focus is not pressed unseen: the key brings it back, and the next one presses
 * it. What it opens would have no place on the screen, either. */
static gboolean
unseen_cb (CroWindow       *self,
           guint            keyval,
           guint            keycode,
           GdkModifierType  state)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));
  GdkModifierType held = state & (GDK_SHIFT_MASK | GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK);

  if (focus == NULL || !(GTK_IS_BUTTON (focus) || GTK_IS_CHECK_BUTTON (focus) || GTK_IS_TEXT (focus))
      || !presses (focus, keyval, held) || !cro_reveal_is_lost (focus))
    return GDK_EVENT_PROPAGATE;
  cro_reveal (focus);
  return GDK_EVENT_STOP;
}

void
cro_window_add_keys (CroWindow *self)
{
  GtkEventController *keys = gtk_event_controller_key_new (), *first = gtk_event_controller_key_new ();

  gtk_event_controller_set_propagation_phase (first, GTK_PHASE_CAPTURE);
  g_signal_connect_object (first, "key-pressed", G_CALLBACK (unseen_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (GTK_WIDGET (self), first);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (shifted_digit_cb), self, 0);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}

/* --- The class ---------------------------------------------------------------------------------------- */

void
cro_window_install_keys (GtkWidgetClass *widget_class)
{
  static const struct { guint key; GdkModifierType modifiers; const char *action; } keys[] = {
    { GDK_KEY_F6, 0, "win.next-part" },
    { GDK_KEY_F6, GDK_SHIFT_MASK, "win.previous-part" },
    { GDK_KEY_F9, 0, "win.toggle-list" },
    { GDK_KEY_Left, GDK_ALT_MASK, "win.back" },
    { GDK_KEY_Return, GDK_CONTROL_MASK, "win.open-here" },
    { GDK_KEY_KP_Enter, GDK_CONTROL_MASK, "win.open-here" },
    { GDK_KEY_f, GDK_CONTROL_MASK, "win.search-list" },
    { GDK_KEY_h, GDK_CONTROL_MASK, "win.history" },
    { GDK_KEY_k, GDK_CONTROL_MASK, "win.search" },
    { GDK_KEY_n, GDK_CONTROL_MASK, "win.new-thing" },
    { GDK_KEY_m, GDK_CONTROL_MASK, "win.new-menu" },
    { GDK_KEY_n, GDK_CONTROL_MASK | GDK_SHIFT_MASK, "win.new-window" },
    { GDK_KEY_o, GDK_CONTROL_MASK, "win.open-book" },
    { GDK_KEY_comma, GDK_CONTROL_MASK, "win.settings" },
    { GDK_KEY_w, GDK_CONTROL_MASK, "window.close" },
  };

  gtk_widget_class_install_action (widget_class, "win.new-menu", NULL, new_thing_cb);
  gtk_widget_class_install_action (widget_class, "win.new-thing", NULL, new_thing_cb);
  gtk_widget_class_install_action (widget_class, "win.next-part", NULL, next_part_cb);
  gtk_widget_class_install_action (widget_class, "win.previous-part", NULL, next_part_cb);
  gtk_widget_class_install_action (widget_class, "win.show-help-overlay", NULL, show_help_cb);
  gtk_widget_class_install_action (widget_class, "win.open-here", NULL, open_here_cb);
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    gtk_widget_class_add_binding_action (widget_class, keys[i].key, keys[i].modifiers,
                                         keys[i].action, NULL);
  for (int place = 0; place < CRO_N_PLACES; place++)
    gtk_widget_class_add_binding_action (widget_class, GDK_KEY_1 + place, GDK_ALT_MASK, "win.place",
                                         "i", place);
  for (gsize i = 0; i < G_N_ELEMENTS (pictures); i++)
    gtk_widget_class_add_binding (widget_class, GDK_KEY_0 + (guint) pictures[i].digit, GDK_CONTROL_MASK,
                                  picture_cb, "i", pictures[i].id);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_p, GDK_CONTROL_MASK, print_cb, NULL);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_v, GDK_CONTROL_MASK, paste_cb, NULL);
}
