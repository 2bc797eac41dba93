#include "cro-bubble.h"

#include "cro-focus.h"
#include "cro-reason.h"

/* As long as a line of it may be, in characters. */
#define LINE_CHARS 44

/* How long a field may take to be laid out, or scrolled to, in frames. */
#define MOST_FRAMES 30

struct _CroBubble
{
  GtkPopover  parent_instance;

  GtkWidget  *box;
  GtkWidget  *label;
  GtkWidget  *answer;   /* NULL: none */
  GtkWidget  *field;    /* borrowed */
  guint       frames;   /* that it still waits for its field to be in sight */
  gpointer    next;     /* where the focus went from there: of no use but to be told from another */
};

G_DEFINE_FINAL_TYPE (CroBubble, cro_bubble, GTK_TYPE_POPOVER)

static gboolean
says (CroBubble *self)
{
  return *gtk_label_get_label (GTK_LABEL (self->label)) != '\0';
}

/* --- Coming ------------------------------------------------------------------------------------------- */

static gboolean
is_within (GtkWidget *widget,
           GtkWidget *outer)
{
  graphene_rect_t place;

  return outer == NULL
         || (gtk_widget_compute_bounds (widget, outer, &place) && place.origin.x >= 0 && place.origin.y >= 0
             && place.origin.x < (float) gtk_widget_get_width (outer)
             && place.origin.y < (float) gtk_widget_get_height (outer));
}

static gboolean
is_in_sight (GtkWidget *field)
{
  return gtk_widget_get_mapped (field)
         && is_within (field, gtk_widget_get_ancestor (field, GTK_TYPE_SCROLLED_WINDOW))
         && is_within (field, GTK_WIDGET (gtk_widget_get_root (field)));
}

static void pop_later (CroBubble *self);

static void
scrolled_cb (CroBubble *self)
{
  if (!gtk_widget_get_visible (GTK_WIDGET (self)))
    return;
  gtk_popover_popdown (GTK_POPOVER (self));
  pop_later (self);
}

/* It does not stay where its field is scrolled from, nor off the screen, where the toolkit cannot place it. */
static void
watch_scrolling (CroBubble *self)
{
  for (GtkWidget *at = GTK_WIDGET (self); (at = gtk_widget_get_ancestor (at, GTK_TYPE_SCROLLED_WINDOW)) != NULL;
       at = gtk_widget_get_parent (at))
    {
      GtkAdjustment *along[] = { gtk_scrolled_window_get_hadjustment (GTK_SCROLLED_WINDOW (at)),
                                 gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (at)) };

      for (gsize i = 0; i < G_N_ELEMENTS (along); i++)
        {
          g_signal_handlers_disconnect_by_func (along[i], scrolled_cb, self);
          g_signal_connect_object (along[i], "value-changed", G_CALLBACK (scrolled_cb), self, G_CONNECT_SWAPPED);
        }
    }
}

static gboolean
pop (CroBubble *self)
{
  GtkWidget *box = gtk_widget_get_parent (GTK_WIDGET (self));
  graphene_rect_t at;

  if (!is_in_sight (self->field) || !gtk_widget_compute_bounds (self->field, box, &at))
    return FALSE;
  gtk_popover_set_pointing_to (GTK_POPOVER (self),
                               &(GdkRectangle){ (int) at.origin.x, (int) at.origin.y, (int) at.size.width,
                                                (int) at.size.height });
  watch_scrolling (self);
  gtk_popover_popup (GTK_POPOVER (self));
  return TRUE;
}

static gboolean
pop_cb (GtkWidget     *box,
        GdkFrameClock *clock,
        gpointer       bubble)
{
  CroBubble *self = bubble;

  self->frames--;
  if (!says (self) || pop (self))
    self->frames = 0;
  return self->frames > 0 ? G_SOURCE_CONTINUE : G_SOURCE_REMOVE;
}

static void
pop_later (CroBubble *self)
{
  if (self->frames == 0)
    gtk_widget_add_tick_callback (gtk_widget_get_parent (GTK_WIDGET (self)), pop_cb, self, NULL);
  self->frames = MOST_FRAMES;
}

/* At once, or when what brings its field into sight is laid out. */
static void
pop_soon (CroBubble *self)
{
  if (!pop (self))
    pop_later (self);
}

/* --- The focus ---------------------------------------------------------------------------------------- */

static gboolean
is_at (GtkWidget *focus,
       GtkWidget *widget)
{
  return focus == widget || gtk_widget_is_ancestor (focus, widget);
}

/* What stands under the bubble is not covered for longer than it takes to see what it says. */
static void
focus_moved_cb (CroBubble *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  if (focus == NULL || !says (self) || !gtk_widget_get_mapped (self->field)
      || is_at (focus, GTK_WIDGET (self)))
    return;
  if (is_at (focus, self->field))
    {
      self->next = NULL;
      pop_soon (self);
    }
  else if (self->next == NULL)
    self->next = focus;
  else if (self->next != focus)
    gtk_popover_popdown (GTK_POPOVER (self));
}

static void
watch_focus (CroBubble *self)
{
  GtkRoot *root = gtk_widget_get_root (self->field);

  g_signal_handlers_disconnect_by_func (root, focus_moved_cb, self);
  g_signal_connect_object (root, "notify::focus-widget", G_CALLBACK (focus_moved_cb), self, G_CONNECT_SWAPPED);
}

/* Through what answers; back to the field, or past it. */
static gboolean
key_pressed_cb (CroBubble       *self,
                guint            keyval,
                guint            keycode,
                GdkModifierType  state)
{
  GtkRoot *root = gtk_widget_get_root (self->field);
  gboolean goes_on = keyval == GDK_KEY_Tab || keyval == GDK_KEY_KP_Tab;

  if (!goes_on && keyval != GDK_KEY_ISO_Left_Tab && keyval != GDK_KEY_Escape)
    return GDK_EVENT_PROPAGATE;
  if (keyval != GDK_KEY_Escape
      && gtk_widget_child_focus (self->answer, goes_on ? GTK_DIR_TAB_FORWARD : GTK_DIR_TAB_BACKWARD))
    return GDK_EVENT_STOP;
  gtk_widget_grab_focus (self->field);
  if (goes_on)
    gtk_widget_child_focus (GTK_WIDGET (root), GTK_DIR_TAB_FORWARD);
  else if (keyval == GDK_KEY_Escape)
    gtk_popover_popdown (GTK_POPOVER (self));
  return GDK_EVENT_STOP;
}

/* Over the field, it would be gone through before it. */
static gboolean
cro_bubble_focus (GtkWidget        *widget,
                  GtkDirectionType  direction)
{
  return FALSE;
}

gboolean
cro_bubble_is_asking (CroBubble *self)
{
  return gtk_widget_get_visible (GTK_WIDGET (self)) && self->answer != NULL && gtk_widget_get_visible (self->answer);
}

gboolean
cro_bubble_enter (CroBubble *self)
{
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (self->field));

  if (!says (self))
    return FALSE;
  pop_soon (self);
  if (cro_bubble_is_asking (self))
    cro_focus_first (self->answer);
  else if (focus == NULL || !is_at (focus, self->field))
    gtk_widget_grab_focus (self->field);
  return TRUE;
}

gboolean
cro_bubble_close (CroBubble *self)
{
  gboolean is_open = gtk_widget_get_visible (GTK_WIDGET (self));

  gtk_popover_popdown (GTK_POPOVER (self));
  return is_open;
}

/* --- The widget ----------------------------------------------------------------------------------------- */

void
cro_bubble_say (CroBubble  *self,
                const char *text,
                gboolean    at_once)
{
  gboolean is_other = g_strcmp0 (gtk_label_get_label (GTK_LABEL (self->label)), text != NULL ? text : "") != 0;

  cro_reason_say (self->label, self->field, text);
  if (text == NULL)
    {
      gtk_popover_popdown (GTK_POPOVER (self));
      return;
    }
  if (!is_other)
    return;
  self->next = NULL;
  if (at_once && gtk_widget_get_mapped (self->field))
    pop_soon (self);
}

void
cro_bubble_put_answer (CroBubble *self,
                       GtkWidget *answer)
{
  self->answer = answer;
  gtk_widget_set_halign (answer, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (self->box), answer);
  gtk_widget_set_can_focus (GTK_WIDGET (self), TRUE);
  gtk_widget_set_can_target (GTK_WIDGET (self), TRUE);
}

static void
cro_bubble_class_init (CroBubbleClass *klass)
{
  GTK_WIDGET_CLASS (klass)->focus = cro_bubble_focus;
}

static void
cro_bubble_init (CroBubble *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  self->label = cro_reason_new ();
  gtk_label_set_max_width_chars (GTK_LABEL (self->label), LINE_CHARS);
  gtk_box_append (GTK_BOX (self->box), self->label);
  gtk_popover_set_child (GTK_POPOVER (self), self->box);
  gtk_popover_set_autohide (GTK_POPOVER (self), FALSE);
  gtk_popover_set_position (GTK_POPOVER (self), GTK_POS_TOP);
  gtk_widget_set_can_focus (GTK_WIDGET (self), FALSE);
  gtk_widget_set_can_target (GTK_WIDGET (self), FALSE);
  gtk_widget_add_css_class (GTK_WIDGET (self), "bubble");
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self, G_CONNECT_SWAPPED);
}

GtkWidget *
cro_bubble_new (GtkWidget *box,
                GtkWidget *field)
{
  CroBubble *self = g_object_new (CRO_TYPE_BUBBLE, NULL);

  self->field = field;
  gtk_widget_set_parent (GTK_WIDGET (self), box);
  g_signal_connect_object (box, "unmap", G_CALLBACK (gtk_popover_popdown), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (field, "map", G_CALLBACK (watch_focus), self, G_CONNECT_SWAPPED);
  if (gtk_widget_get_mapped (field))
    watch_focus (self);
  return GTK_WIDGET (self);
}
