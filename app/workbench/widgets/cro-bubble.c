#include "cro-bubble.h"

#include "cro-focus.h"
#include "cro-reason.h"

/* As long as a line of it may be, in characters. */
#define LINE_CHARS 44

/* Of its tail, in pixels. */
#define TAIL 10

/* How long a field may take to be laid out, or scrolled to, in frames. */
#define MOST_FRAMES 30

struct _CroBubble
{
  GtkPopover  parent_instance;

  GtkWidget  *box;
  GtkWidget  *label;
  GtkWidget  *answer;   /* NULL: none */
  GtkWidget  *field;    /* borrowed */
  guint       waiting;  /* a tick callback; 0: none */
  guint       frames;   /* that it still waits for its field to be in sight */
  gboolean    is_moved; /* its field was scrolled, and may not be laid out there yet */
  gpointer    next;     /* where the focus went from the field: of no use but to be told from another */
};

G_DEFINE_FINAL_TYPE (CroBubble, cro_bubble, GTK_TYPE_POPOVER)

static gboolean
says (CroBubble *self)
{
  return *gtk_label_get_label (GTK_LABEL (self->label)) != '\0';
}

/* --- Where -------------------------------------------------------------------------------------------- */

/* What is read or typed there, on root; FALSE: nothing. */
static gboolean
is_read (GtkWidget       *widget,
         GtkWidget       *root,
         graphene_rect_t *place)
{
  PangoRectangle text;
  int x, y;

  if (GTK_IS_TEXT (widget))
    return gtk_widget_compute_bounds (widget, root, place);
  if (!GTK_IS_LABEL (widget) || gtk_label_get_text (GTK_LABEL (widget))[0] == '\0'
      || !gtk_widget_compute_bounds (widget, root, place))
    return FALSE;
  pango_layout_get_pixel_extents (gtk_label_get_layout (GTK_LABEL (widget)), NULL, &text);
  gtk_label_get_layout_offsets (GTK_LABEL (widget), &x, &y);
  graphene_rect_init (place, place->origin.x + (float) (x + text.x), place->origin.y + (float) (y + text.y),
                      (float) text.width, (float) text.height);
  return TRUE;
}

/* What is under a bubble is worth, to a pixel of other texts. */
#define FIGURE_WORTH 16
#define ROW_WORTH 2

/* In pixels; what stands at widget and below it. A bubble, a menu are in a native of their own. */
static float
covered_of (GtkWidget             *widget,
            GtkWidget             *root,
            const graphene_rect_t *over)
{
  graphene_rect_t place;
  float covered = 0;

  if (!gtk_widget_get_mapped (widget) || (widget != root && GTK_IS_NATIVE (widget)))
    return 0;
  if (is_read (widget, root, &place) && graphene_rect_intersection (&place, over, &place))
    covered = graphene_rect_get_area (&place);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    covered += covered_of (child, root, over);
  return gtk_widget_has_css_class (widget, "figures") ? FIGURE_WORTH * covered : covered;
}

/* Its place on that side of the field, as the toolkit would give it, kept on the root along the side. FALSE: it has
 * no room there. */
static gboolean
place_at (GtkPositionType        side,
          const graphene_rect_t *field,
          float                  width,
          float                  height,
          const graphene_rect_t *root,
          graphene_rect_t       *place)
{
  float middle_x = field->origin.x + field->size.width / 2, middle_y = field->origin.y + field->size.height / 2;
  gboolean is_upright = side == GTK_POS_TOP || side == GTK_POS_BOTTOM;
  float x, y;

  width += is_upright ? 0 : TAIL;
  height += is_upright ? TAIL : 0;
  x = is_upright ? CLAMP (middle_x - width / 2, 0, MAX (root->size.width - width, 0))
                   : field->origin.x + field->size.width;
  y = !is_upright ? CLAMP (middle_y - height / 2, 0, MAX (root->size.height - height, 0))
      : side == GTK_POS_TOP ? field->origin.y - height
                            : field->origin.y + field->size.height;

  graphene_rect_init (place, x, y, width, height);
  return graphene_rect_contains_rect (root, place);
}

/* Over the field, unless what is read elsewhere around it is covered less. */
static GtkPositionType
choose_side (CroBubble *self)
{
  static const GtkPositionType sides[] = { GTK_POS_TOP, GTK_POS_BOTTOM, GTK_POS_RIGHT };
  GtkWidget *root = GTK_WIDGET (gtk_widget_get_root (self->field));
  graphene_rect_t whole, field, place;
  GtkRequisition size;    /* of what is in it: it has none itself before it comes */
  GtkPositionType best = GTK_POS_TOP;
  float least = G_MAXFLOAT;

  if (!gtk_widget_compute_bounds (self->field, root, &field))
    return best;
  graphene_rect_init (&whole, 0, 0, (float) gtk_widget_get_width (root), (float) gtk_widget_get_height (root));
  gtk_widget_get_preferred_size (gtk_widget_get_parent (self->box), NULL, &size);
  for (gsize i = 0; i < G_N_ELEMENTS (sides) && least > 0; i++)
    if (place_at (sides[i], &field, (float) size.width, (float) size.height, &whole, &place))
      {
        float covered = covered_of (root, root, &place);

        /* Where the focus goes on to. */
        covered *= sides[i] == GTK_POS_RIGHT ? ROW_WORTH : 1;
        if (covered < least)
          {
            least = covered;
            best = sides[i];
          }
      }
  return best;
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
come_down (CroBubble *self)
{
  if (self->waiting != 0)
    gtk_widget_remove_tick_callback (gtk_widget_get_parent (GTK_WIDGET (self)), self->waiting);
  self->waiting = 0;
  gtk_popover_popdown (GTK_POPOVER (self));
}

static void
scrolled_cb (CroBubble *self)
{
  self->is_moved = TRUE;
  if (!gtk_widget_get_visible (GTK_WIDGET (self)))
    return;
  come_down (self);
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
  if (!gtk_widget_get_visible (GTK_WIDGET (self)))
    gtk_popover_set_position (GTK_POPOVER (self), choose_side (self));
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
  if (!self->is_moved && (!says (self) || pop (self)))
    self->frames = 0;
  self->is_moved = FALSE;
  if (self->frames > 0)
    return G_SOURCE_CONTINUE;
  self->waiting = 0;
  return G_SOURCE_REMOVE;
}

static void
pop_later (CroBubble *self)
{
  if (self->waiting == 0)
    self->waiting = gtk_widget_add_tick_callback (gtk_widget_get_parent (GTK_WIDGET (self)), pop_cb, self, NULL);
  self->frames = MOST_FRAMES;
}

/* At once, or when what brings its field into sight is laid out. */
static void
pop_soon (CroBubble *self)
{
  if (self->is_moved || !pop (self))
    pop_later (self);
}

/* --- The focus ---------------------------------------------------------------------------------------- */

static gboolean
is_at (GtkWidget *focus,
       GtkWidget *widget)
{
  return focus == widget || gtk_widget_is_ancestor (focus, widget);
}

/* NULL: nothing. */
static GtkWidget *
focus_of (CroBubble *self)
{
  GtkRoot *root = gtk_widget_get_root (self->field);

  return root != NULL ? gtk_root_get_focus (root) : NULL;
}

/* What stands under the bubble is not covered for longer than it takes to see what it says. Enter, which keeps what is
 * asked about, goes on to the next field: there the question stays. */
static void
focus_moved_cb (CroBubble *self)
{
  GtkWidget *focus = focus_of (self);

  if (focus == NULL || !says (self) || !gtk_widget_get_mapped (self->field))
    return;
  if (is_at (focus, GTK_WIDGET (self)))
    self->next = self;
  else if (is_at (focus, self->field))
    {
      self->next = NULL;
      pop_soon (self);
    }
  else if (self->next == NULL && cro_bubble_is_asking (self))
    self->next = focus;
  else if (self->next != focus)
    come_down (self);
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
    come_down (self);
  return GDK_EVENT_STOP;
}

/* Keys end at the edge of a bubble, which is a surface of its own: what they mean to what stands around the field,
 * and to the window, they mean here too. */
static gboolean
key_left_cb (GtkEventControllerKey *keys,
             guint                  keyval,
             guint                  keycode,
             GdkModifierType        state,
             GtkWidget             *bubble)
{
  for (GtkWidget *at = gtk_widget_get_parent (bubble); at != NULL; at = gtk_widget_get_parent (at))
    if (gtk_event_controller_key_forward (keys, at))
      return GDK_EVENT_STOP;
  return GDK_EVENT_PROPAGATE;
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
  GtkWidget *focus = focus_of (self);

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

  come_down (self);
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
      /* Its answer may have the focus, as an undo leaves nothing to be asked. */
      if (cro_focus_is_in (GTK_WIDGET (self)) && gtk_widget_get_mapped (self->field))
        gtk_widget_grab_focus (self->field);
      come_down (self);
      return;
    }
  if (!is_other)
    return;
  self->next = cro_focus_is_in (self->field) ? NULL : focus_of (self);
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
  GtkEventController *keys = gtk_event_controller_key_new (), *last = gtk_event_controller_key_new ();

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
  gtk_widget_add_controller (GTK_WIDGET (self), last);
  g_signal_connect_object (last, "key-pressed", G_CALLBACK (key_left_cb), self, 0);
}

GtkWidget *
cro_bubble_new (GtkWidget *box,
                GtkWidget *field)
{
  CroBubble *self = g_object_new (CRO_TYPE_BUBBLE, NULL);

  self->field = field;
  gtk_widget_set_parent (GTK_WIDGET (self), box);
  g_signal_connect_object (box, "unmap", G_CALLBACK (come_down), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (field, "map", G_CALLBACK (watch_focus), self, G_CONNECT_SWAPPED);
  if (gtk_widget_get_mapped (field))
    watch_focus (self);
  return GTK_WIDGET (self);
}
