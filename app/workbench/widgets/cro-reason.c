#include "cro-reason.h"

#include "cro-room.h"

/* How wide it makes what stands over it, in characters. */
#define MOST_CHARS 20

GtkWidget *
cro_reason_new (void)
{
  GtkWidget *reason = gtk_label_new (NULL);

  gtk_label_set_wrap (GTK_LABEL (reason), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (reason), MOST_CHARS);
  gtk_label_set_xalign (GTK_LABEL (reason), 0);
  gtk_widget_add_css_class (reason, "reason");
  gtk_widget_set_visible (reason, FALSE);
  return reason;
}

/* --- Where no room is kept ---------------------------------------------------------------------------- */

/* As long as a reason may be in a line, in characters. */
#define LINE_CHARS 44

#define FIELD "field"    /* whose reason it is */
#define FRAMES "frames"  /* that it still waits for its field to be in sight */
#define NEXT "next"      /* where the focus went from there: of no use but to be told from another */

static gboolean
says (GtkWidget *bubble)
{
  return *gtk_label_get_label (GTK_LABEL (gtk_popover_get_child (GTK_POPOVER (bubble)))) != '\0';
}

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
is_in_sight (GtkWidget *bubble)
{
  GtkWidget *box = gtk_widget_get_parent (bubble);

  return gtk_widget_get_mapped (box) && is_within (box, gtk_widget_get_ancestor (box, GTK_TYPE_SCROLLED_WINDOW))
         && is_within (box, GTK_WIDGET (gtk_widget_get_root (box)));
}

static void pop_later (GtkWidget *bubble);

static void
scrolled_cb (GtkWidget *bubble)
{
  if (!gtk_widget_get_visible (bubble))
    return;
  gtk_popover_popdown (GTK_POPOVER (bubble));
  pop_later (bubble);
}

/* It does not stay where its field is scrolled from, nor off the screen, where the toolkit cannot place it. */
static void
watch_scrolling (GtkWidget *bubble)
{
  for (GtkWidget *at = bubble; (at = gtk_widget_get_ancestor (at, GTK_TYPE_SCROLLED_WINDOW)) != NULL;
       at = gtk_widget_get_parent (at))
    {
      GtkAdjustment *along[] = { gtk_scrolled_window_get_hadjustment (GTK_SCROLLED_WINDOW (at)),
                                 gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (at)) };

      for (gsize i = 0; i < G_N_ELEMENTS (along); i++)
        {
          g_signal_handlers_disconnect_by_func (along[i], scrolled_cb, bubble);
          g_signal_connect_object (along[i], "value-changed", G_CALLBACK (scrolled_cb), bubble, G_CONNECT_SWAPPED);
        }
    }
}

/* How long a field may take to be laid out, or scrolled to, in frames. */
#define MOST_FRAMES 30

static gboolean
pop (GtkWidget *bubble)
{
  if (!is_in_sight (bubble))
    return FALSE;
  watch_scrolling (bubble);
  gtk_popover_popup (GTK_POPOVER (bubble));
  return TRUE;
}

static gboolean
pop_cb (GtkWidget     *box,
        GdkFrameClock *clock,
        gpointer       user_data)
{
  GtkWidget *bubble = user_data;
  guint n = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (bubble), FRAMES)) - 1;

  if (!says (bubble) || pop (bubble))
    n = 0;
  g_object_set_data (G_OBJECT (bubble), FRAMES, GUINT_TO_POINTER (n));
  return n > 0 ? G_SOURCE_CONTINUE : G_SOURCE_REMOVE;
}

static void
pop_later (GtkWidget *bubble)
{
  if (g_object_get_data (G_OBJECT (bubble), FRAMES) == NULL)
    gtk_widget_add_tick_callback (gtk_widget_get_parent (bubble), pop_cb, bubble, NULL);
  g_object_set_data (G_OBJECT (bubble), FRAMES, GUINT_TO_POINTER (MOST_FRAMES));
}

/* At once, or when what brings its field into sight is laid out. */
static void
pop_soon (GtkWidget *bubble)
{
  if (!pop (bubble))
    pop_later (bubble);
}

/* What stands under the bubble is not covered for longer than it takes to see why the field is wrong. */
static void
focus_moved_cb (GtkWidget *bubble)
{
  GtkRoot *root = gtk_widget_get_root (bubble);
  GtkWidget *field = g_object_get_data (G_OBJECT (bubble), FIELD);
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  if (focus == NULL || !says (bubble) || !gtk_widget_get_mapped (field))
    return;
  if (focus == field || gtk_widget_is_ancestor (focus, field))
    {
      g_object_set_data (G_OBJECT (bubble), NEXT, NULL);
      pop_soon (bubble);
    }
  else if (g_object_get_data (G_OBJECT (bubble), NEXT) == NULL)
    g_object_set_data (G_OBJECT (bubble), NEXT, focus);
  else if (g_object_get_data (G_OBJECT (bubble), NEXT) != focus)
    gtk_popover_popdown (GTK_POPOVER (bubble));
}

static void
watch_focus (GtkWidget *bubble)
{
  GtkRoot *root = gtk_widget_get_root (bubble);

  g_signal_handlers_disconnect_by_func (root, focus_moved_cb, bubble);
  g_signal_connect_object (root, "notify::focus-widget", G_CALLBACK (focus_moved_cb), bubble, G_CONNECT_SWAPPED);
}

GtkWidget *
cro_reason_bubble_new (GtkWidget *box,
                       GtkWidget *field)
{
  GtkWidget *bubble = gtk_popover_new (), *reason = cro_reason_new ();

  gtk_widget_set_visible (reason, TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (reason), LINE_CHARS);
  gtk_popover_set_child (GTK_POPOVER (bubble), reason);
  gtk_popover_set_autohide (GTK_POPOVER (bubble), FALSE);
  gtk_popover_set_position (GTK_POPOVER (bubble), GTK_POS_TOP);
  gtk_widget_set_can_focus (bubble, FALSE);
  gtk_widget_set_can_target (bubble, FALSE);
  gtk_widget_add_css_class (bubble, "bubble");
  g_object_set_data (G_OBJECT (bubble), FIELD, field);
  gtk_widget_set_parent (bubble, box);
  g_signal_connect_object (box, "unmap", G_CALLBACK (gtk_popover_popdown), bubble, G_CONNECT_SWAPPED);
  return bubble;
}

void
cro_reason_bubble_say (GtkWidget  *bubble,
                       GtkWidget  *field,
                       const char *note)
{
  GtkLabel *label = GTK_LABEL (gtk_popover_get_child (GTK_POPOVER (bubble)));
  gboolean is_other = g_strcmp0 (gtk_label_get_label (label), note != NULL ? note : "") != 0;

  gtk_label_set_label (label, note != NULL ? note : "");
  gtk_accessible_update_property (GTK_ACCESSIBLE (field), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  note != NULL ? note : "", -1);
  if (note == NULL)
    gtk_popover_popdown (GTK_POPOVER (bubble));
  else if (gtk_widget_get_mapped (field))
    {
      if (is_other)
        g_object_set_data (G_OBJECT (bubble), NEXT, NULL);
      watch_focus (bubble);
      pop_soon (bubble);
    }
}

/* --- Where it is kept --------------------------------------------------------------------------------- */

GtkWidget *
cro_reason_keep_width (GtkWidget *field)
{
  GtkWidget *widest = cro_reason_new ();

  /* Not to be translated: more letters than it is wide, in one line. */
  gtk_label_set_label (GTK_LABEL (widest), "mmmmmmmmmmmmmmmmmmmmmmmmmmmmmm");
  gtk_label_set_wrap (GTK_LABEL (widest), FALSE);
  gtk_label_set_ellipsize (GTK_LABEL (widest), PANGO_ELLIPSIZE_END);
  gtk_widget_set_visible (widest, TRUE);
  return cro_room_new (field, widest);
}

/* Whether the room of a reason can be kept free in the window: px, where text is of the usual size. */
#define HIGH 740

static gboolean
is_high (GtkWidget *room)
{
  GtkRoot *root = gtk_widget_get_root (room);
  int height = root != NULL ? gtk_widget_get_height (GTK_WIDGET (root)) : 0, width, dpi = 0;

  /* A window that is new has none yet. */
  if (height == 0 && GTK_IS_WINDOW (root))
    gtk_window_get_default_size (GTK_WINDOW (root), &width, &height);
  g_object_get (gtk_widget_get_settings (room), "gtk-xft-dpi", &dpi, NULL);
  return height * 96.0 * PANGO_SCALE >= HIGH * (double) dpi;
}

/* What is said there moves nothing, as the room of the longest reason is kept. In a low window it takes none, nor the
 * gap beside it, where nothing is said. */
static void
show_reasons (GtkWidget *room)
{
  GtkWidget *box = gtk_widget_get_first_child (room), *longest = gtk_widget_get_last_child (room);
  gboolean any = FALSE;

  for (GtkWidget *reason = gtk_widget_get_first_child (box); reason != NULL;
       reason = gtk_widget_get_next_sibling (reason))
    any |= gtk_widget_get_visible (reason);
  gtk_widget_set_visible (longest, is_high (room));
  gtk_widget_set_visible (room, any || is_high (room));
}

GtkWidget *
cro_reason_room_new (GtkWidget *box,
                     GtkWidget *longest,
                     GtkWidget *fields)
{
  GtkWidget *room = cro_room_new (box, longest);

  gtk_widget_add_css_class (box, "reasons");
  for (GtkWidget *reason = gtk_widget_get_first_child (box); reason != NULL;
       reason = gtk_widget_get_next_sibling (reason))
    g_signal_connect_object (reason, "notify::visible", G_CALLBACK (show_reasons), room, G_CONNECT_SWAPPED);
  g_signal_connect_object (fields, "map", G_CALLBACK (show_reasons), room, G_CONNECT_SWAPPED);
  show_reasons (room);
  return room;
}

void
cro_reason_say (GtkWidget  *reason,
                GtkWidget  *field,
                const char *note)
{
  gtk_label_set_label (GTK_LABEL (reason), note != NULL ? note : "");
  gtk_widget_set_visible (reason, note != NULL);
  if (field != NULL)
    gtk_accessible_update_property (GTK_ACCESSIBLE (field), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                    note != NULL ? note : "", -1);
}

void
cro_reason_mark (GtkWidget *field,
                 gboolean   is_wrong)
{
  if (is_wrong)
    gtk_widget_add_css_class (field, "error");
  else
    gtk_widget_remove_css_class (field, "error");
  gtk_accessible_update_state (GTK_ACCESSIBLE (field), GTK_ACCESSIBLE_STATE_INVALID,
                               is_wrong ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE,
                               -1);
}
