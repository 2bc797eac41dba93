#include "config.h"

#include "cro-field.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-spoken.h"
#include "cro-wrap.h"

GtkWidget *
cro_caption_new (const char *text,
                 float       xalign)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), xalign);
  /* Over numbers, which end at the right wherever lines run to. */
  if (xalign > 0.5f)
    gtk_widget_set_direction (label, GTK_TEXT_DIR_LTR);
  gtk_widget_add_css_class (label, "caption");
  gtk_widget_add_css_class (label, "dim-label");
  return label;
}

GtkWidget *
cro_field_new (const char *caption,
               GtkWidget  *control)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);

  gtk_box_append (GTK_BOX (box), cro_caption_new (caption, 0));
  gtk_box_append (GTK_BOX (box), control);
  return box;
}

GtkWidget *
cro_field_row_new (void)
{
  GtkWidget *row = cro_wrap_new (12, 9);

  gtk_widget_add_css_class (row, "fields");
  return row;
}

GtkWidget *
cro_field_add (GtkWidget    *row,
               const char   *caption,
               CroInputKind  kind,
               CroRange      range,
               int           width)
{
  GtkWidget *input = cro_input_new (kind, range, caption);

  cro_input_set_width (CRO_INPUT (input), width);
  cro_wrap_append (CRO_WRAP (row), cro_field_new (caption, input));
  return input;
}

GtkWidget *
cro_heading_new (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "heading");
  gtk_widget_set_margin_top (label, 6);
  return label;
}

/* Whether a line is not broken there: in a price, "15.73/kg", an amount, "25 g", a day, "2 déc. 2026", a limit,
 * "≤ 62.17". */
static gboolean
is_kept (const char *text,
         const char *at)
{
  static const char *const limits[] = { "≤", "≥" };

  for (gsize i = 0; i < G_N_ELEMENTS (limits); i++)
    {
      const gsize n = strlen (limits[i]);

      if (*at == ' ' && (gsize) (at - text) >= n && strncmp (at - n, limits[i], n) == 0)
        return TRUE;
    }
  if (*at == ' ' && at > text && (at[-1] == '.' || g_ascii_isalpha (at[-1])) && strspn (at + 1, "0123456789") == 4)
    return TRUE;
  return at > text && g_ascii_isdigit (at[-1])
         && (*at == '/' ? g_ascii_isalpha (at[1]) : *at == ' ' && g_unichar_isalpha (g_utf8_get_char (at + 1)));
}

static void
keep_units_cb (GtkLabel *label)
{
  const char *text = gtk_label_get_text (label);
  PangoAttrList *kept = NULL;

  for (const char *at = strpbrk (text, "/ "); at != NULL; at = strpbrk (at + 1, "/ "))
    {
      PangoAttribute *attribute;

      if (!is_kept (text, at))
        continue;
      attribute = pango_attr_allow_breaks_new (FALSE);
      attribute->start_index = (guint) (g_utf8_prev_char (at) - text);
      attribute->end_index = (guint) (g_utf8_next_char (at + 1) - text);
      if (kept == NULL)
        kept = pango_attr_list_new ();
      pango_attr_list_insert (kept, attribute);
    }
  if (kept != NULL || gtk_label_get_attributes (label) != NULL)
    gtk_label_set_attributes (label, kept);
  g_clear_pointer (&kept, pango_attr_list_unref);
}

void
cro_text_keep_units (GtkWidget *label)
{
  g_signal_connect (label, "notify::label", G_CALLBACK (keep_units_cb), NULL);
  keep_units_cb (GTK_LABEL (label));
}

GtkWidget *
cro_text_new (const char *text,
              const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  cro_text_keep_units (label);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  return label;
}

GtkWidget *
cro_number_label_new (void)
{
  GtkWidget *label = gtk_label_new (NULL);

  cro_number_label_setup (label);
  gtk_label_set_xalign (GTK_LABEL (label), 1);
  return label;
}

/* "29.4 %" would be turned round where lines run from right to left. */
void
cro_number_label_setup (GtkWidget *label)
{
  gtk_widget_add_css_class (label, "numeric");
  gtk_widget_set_direction (label, GTK_TEXT_DIR_LTR);
}

GtkWidget *
cro_entry_new (const char *name,
               int         width)
{
  GtkWidget *entry = gtk_entry_new ();

  gtk_editable_set_width_chars (GTK_EDITABLE (entry), width);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (entry), width);
  cro_spoken_set (entry, name);
  return entry;
}

static gboolean
search_key_cb (GtkWidget       *search,
               guint            keyval,
               guint            keycode,
               GdkModifierType  state)
{
  if (keyval != GDK_KEY_Escape || *gtk_editable_get_text (GTK_EDITABLE (search)) == '\0')
    return GDK_EVENT_PROPAGATE;
  gtk_editable_set_text (GTK_EDITABLE (search), "");
  return GDK_EVENT_STOP;
}

GtkWidget *
cro_search_new (const char *name)
{
  GtkWidget *search = gtk_search_entry_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  g_object_set (search, "placeholder-text", _("Search"), NULL);
  cro_spoken_set (search, name);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (search_key_cb), search, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (search, keys);
  return search;
}

void
cro_entry_insert (GtkWidget  *entry,
                  const char *text)
{
  GtkEditable *editable = GTK_EDITABLE (entry);
  int at;

  gtk_editable_delete_selection (editable);
  at = gtk_editable_get_position (editable);
  gtk_editable_insert_text (editable, text, -1, &at);
  gtk_editable_set_position (editable, at);
}

void
cro_entry_put (GtkWidget  *entry,
               const char *text)
{
  gtk_editable_set_enable_undo (GTK_EDITABLE (entry), FALSE);
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  gtk_editable_set_enable_undo (GTK_EDITABLE (entry), TRUE);
  g_object_set_data_full (G_OBJECT (entry), "put", g_strdup (text), g_free);
}

gboolean
cro_entry_is_put (GtkWidget *entry)
{
  return g_strcmp0 (g_object_get_data (G_OBJECT (entry), "put"),
                    gtk_editable_get_text (GTK_EDITABLE (entry))) == 0;
}

GtkWidget *
cro_meaning_new (void)
{
  GtkWidget *meaning = cro_text_new ("", "numeric");

  gtk_widget_set_valign (meaning, GTK_ALIGN_END);
  gtk_widget_set_margin_bottom (meaning, 8);
  gtk_label_set_width_chars (GTK_LABEL (meaning), 24);
  return meaning;
}

GtkWidget *
cro_entry_button_new (const char *label,
                      GCallback   clicked,
                      gpointer    object)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_widget_set_valign (button, GTK_ALIGN_END);
  g_signal_connect_object (button, "clicked", clicked, object, G_CONNECT_SWAPPED);
  return button;
}

static const char *const cure_classes[] = {
  [CRO_CAUSE_PRICE] = "cure-price",
  [CRO_CAUSE_RATE] = "cure-rate",
  [CRO_CAUSE_DENSITY] = "cure-density",
  [CRO_CAUSE_PIECE] = "cure-piece",
  [CRO_CAUSE_AMOUNT] = "cure-amount",
  [CRO_CAUSE_VALUE] = "cure-value",
  [CRO_CAUSE_WAGE] = "cure-wage",
  [CRO_CAUSE_LINES] = "cure-lines",
  [CRO_CAUSE_PLATES] = "cure-plates",
  [CRO_CAUSE_CREDIT] = "cure-credit",
  [CRO_CAUSE_SELLING_PRICE] = "cure-selling-price",
  [CRO_CAUSE_TAX] = "cure-tax",
};

const char *
cro_cure_class (int cause)
{
  return cure_classes[cause];
}

static gboolean
cures_any (GtkWidget *control)
{
  for (gsize i = 0; i < G_N_ELEMENTS (cure_classes); i++)
    if (gtk_widget_has_css_class (control, cure_classes[i]))
      return TRUE;
  return FALSE;
}

static void
set_class (GtkWidget  *control,
           const char *css_class,
           gboolean    is_set)
{
  if (is_set)
    gtk_widget_add_css_class (control, css_class);
  else
    gtk_widget_remove_css_class (control, css_class);
}

void
cro_cure_set (GtkWidget *control,
              int        cause,
              gboolean   is_cure)
{
  if (is_cure == gtk_widget_has_css_class (control, cure_classes[cause]))
    return;
  set_class (control, cure_classes[cause], is_cure);
  set_class (control, "cure", cures_any (control));
}

/* A wheel turned with Shift goes sideways. */
static gboolean
turned_cb (GtkWidget                *scroller,
           double                    dx,
           double                    dy,
           GtkEventControllerScroll *wheel)
{
  GtkAdjustment *sideways = gtk_scrolled_window_get_hadjustment (GTK_SCROLLED_WINDOW (scroller));

  if ((gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (wheel)) & GDK_SHIFT_MASK) == 0)
    return GDK_EVENT_PROPAGATE;
  gtk_adjustment_set_value (sideways, gtk_adjustment_get_value (sideways)
                                          + dy * gtk_adjustment_get_step_increment (sideways));
  return GDK_EVENT_STOP;
}

/* Of the hand that comes before a scrolled window's own. */
#define SHARES "shares"

/* What the scrolled window's own hands take of a wheel. */
static void
set_hands (GtkWidget                     *scroller,
           GtkEventControllerScrollFlags  flags)
{
  g_autoptr (GListModel) hands = gtk_widget_observe_controllers (scroller);

  for (guint i = 0; i < g_list_model_get_n_items (hands); i++)
    {
      g_autoptr (GtkEventController) hand = g_list_model_get_item (hands, i);

      if (GTK_IS_EVENT_CONTROLLER_SCROLL (hand)
          && g_strcmp0 (gtk_event_controller_get_name (hand), SHARES) != 0)
        gtk_event_controller_scroll_set_flags (GTK_EVENT_CONTROLLER_SCROLL (hand),
                                               flags | GTK_EVENT_CONTROLLER_SCROLL_HORIZONTAL
                                                   | GTK_EVENT_CONTROLLER_SCROLL_KINETIC);
    }
}

/* A scrolled window stops a wheel in both directions, even where it goes in one: what is turned up or
 * down is the page's. */
static void
leave_up_and_down (GtkWidget *scroller)
{
  GtkEventController *wheel = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_VERTICAL);

  set_hands (scroller, GTK_EVENT_CONTROLLER_SCROLL_NONE);
  g_signal_connect_object (wheel, "scroll", G_CALLBACK (turned_cb), scroller, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (scroller, wheel);
}

static gboolean
turning_cb (GtkWidget *scroller,
            double     dx,
            double     dy)
{
  GtkAdjustment *down = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller));
  double at = gtk_adjustment_get_value (down);
  gboolean moves = dy < 0 ? at > gtk_adjustment_get_lower (down)
                          : at < gtk_adjustment_get_upper (down) - gtk_adjustment_get_page_size (down);

  set_hands (scroller, moves ? GTK_EVENT_CONTROLLER_SCROLL_VERTICAL : GTK_EVENT_CONTROLLER_SCROLL_NONE);
  return GDK_EVENT_PROPAGATE;
}

/* The toolkit's stops it even where there is nothing to move. */
void
cro_wheel_share (GtkWidget *scroller)
{
  GtkEventController *wheel = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_VERTICAL);

  gtk_event_controller_set_name (wheel, SHARES);
  gtk_event_controller_set_propagation_phase (wheel, GTK_PHASE_CAPTURE);
  g_signal_connect_object (wheel, "scroll", G_CALLBACK (turning_cb), scroller, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (scroller, wheel);
}

/* The toolkit lays the scroll bar over the last row of what is as high as its rows: as much room is left below. */
static gboolean
make_room_cb (gpointer scroller)
{
  GtkAdjustment *across = gtk_scrolled_window_get_hadjustment (scroller);
  GtkWidget *bar = gtk_scrolled_window_get_hscrollbar (scroller);
  gboolean is_shown = gtk_adjustment_get_upper (across) > gtk_adjustment_get_page_size (across);
  int height = 0;

  g_object_set_data (scroller, "later", NULL);
  if (is_shown && !gtk_widget_compute_expand (scroller, GTK_ORIENTATION_VERTICAL))
    gtk_widget_measure (bar, GTK_ORIENTATION_VERTICAL, -1, NULL, &height, NULL, NULL);
  gtk_widget_set_margin_bottom (gtk_viewport_get_child (GTK_VIEWPORT (gtk_scrolled_window_get_child (scroller))),
                                height);
  return G_SOURCE_REMOVE;
}

/* Not while it is laid out. */
static void
across_changed_cb (GtkWidget *scroller)
{
  if (g_object_get_data (G_OBJECT (scroller), "later") != NULL)
    return;
  g_object_set_data (G_OBJECT (scroller), "later", scroller);
  g_idle_add_full (G_PRIORITY_HIGH_IDLE, make_room_cb, g_object_ref (scroller), g_object_unref);
}

GtkWidget *
cro_wide_new (GtkWidget *table)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();

  leave_up_and_down (scroller);

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_AUTOMATIC,
                                  GTK_POLICY_NEVER);
  /* One that comes with the pointer alone leaves unsaid that there is more. */
  gtk_scrolled_window_set_overlay_scrolling (GTK_SCROLLED_WINDOW (scroller), FALSE);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), table);
  g_signal_connect_object (gtk_scrolled_window_get_hadjustment (GTK_SCROLLED_WINDOW (scroller)), "changed",
                           G_CALLBACK (across_changed_cb), scroller, G_CONNECT_SWAPPED);
  return scroller;
}

GtkWidget *
cro_low_new (GtkWidget *page)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), page);
  cro_wheel_share (scroller);
  return scroller;
}

GtkWidget *
cro_part_bar_new (const char *name,
                  int         width)
{
  GtkWidget *bar = gtk_level_bar_new ();

  /* These would give it another colour where it is low, high or full. */
  gtk_level_bar_remove_offset_value (GTK_LEVEL_BAR (bar), GTK_LEVEL_BAR_OFFSET_LOW);
  gtk_level_bar_remove_offset_value (GTK_LEVEL_BAR (bar), GTK_LEVEL_BAR_OFFSET_HIGH);
  gtk_level_bar_remove_offset_value (GTK_LEVEL_BAR (bar), GTK_LEVEL_BAR_OFFSET_FULL);
  gtk_widget_set_size_request (bar, width, -1);
  gtk_widget_set_valign (bar, GTK_ALIGN_CENTER);
  cro_spoken_set (bar, name);
  return bar;
}

GtkWidget *
cro_name_button_new (void)
{
  GtkWidget *button = gtk_button_new ();
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_button_set_child (GTK_BUTTON (button), label);
  gtk_widget_add_css_class (button, "flat");
  return button;
}

/* Since GTK 4.12 a button whose label is set by itself does without the ellipsis again. */
void
cro_name_button_set (GtkWidget  *button,
                     const char *name)
{
  gtk_label_set_label (GTK_LABEL (gtk_button_get_child (GTK_BUTTON (button))), name);
  cro_spoken_set (button, name);
}

void
cro_name_button_set_first (GtkWidget  *button,
                           const char *name,
                           int         least)
{
  GtkLabel *label = GTK_LABEL (gtk_button_get_child (GTK_BUTTON (button)));

  cro_name_button_set (button, name);
  gtk_label_set_wrap (label, TRUE);
  gtk_label_set_wrap_mode (label, PANGO_WRAP_WORD_CHAR);
  gtk_label_set_lines (label, 2);
  gtk_label_set_width_chars (label, MIN ((int) g_utf8_strlen (name, -1), least));
}

gboolean
cro_is_double_press (GtkWidget *widget,
                     gint64     asked_usec)
{
  int double_msec;

  g_object_get (gtk_widget_get_settings (widget), "gtk-double-click-time", &double_msec, NULL);
  return g_get_monotonic_time () - asked_usec < 1000 * (gint64) double_msec;
}

GtkWidget *
cro_icon_button_new (const char *icon,
                     const char *name)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);

  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  cro_icon_button_set_name (button, name);
  return button;
}

void
cro_icon_button_set_name (GtkWidget  *button,
                          const char *name)
{
  gtk_widget_set_tooltip_text (button, name);
  cro_spoken_set (button, name);
}

GtkWidget *
cro_more_button_new (GMenuModel *menu,
                     const char *name)
{
  GtkWidget *button = gtk_menu_button_new ();

  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (button), menu);
  gtk_menu_button_set_icon_name (GTK_MENU_BUTTON (button), "view-more-symbolic");
  gtk_widget_add_css_class (button, "flat");
  cro_spoken_set (button, name);
  return button;
}
