#include "config.h"

#include "cro-causes-view.h"

#include <glib/gi18n.h>

#include "cro-box.h"
#include "cro-cure.h"
#include "cro-field.h"
#include "cro-spoken.h"
#include "cro-words.h"
#include "cro-wrap.h"

/* Buttons in sight, one over the other or side by side; the last brings up those that are more. */
#define MOST_SHOWN 2
#define MOST_LINES 3         /* of what is said where nothing is missing */
#define BUTTON_LINES 2       /* of what is missing, in small print */

/* What a button keeps where there is little room, and what it may have, in characters. */
#define LEAST_CHARS 18
#define MOST_CHARS 34
#define LARGE_CHARS 22       /* what is longer is written small: on one line, or on two at most */
#define REST_CHARS 60        /* in a row of the popover, which is as wide as it needs */
#define BETWEEN 4            /* buttons, in pixels */
#define AROUND 4             /* what is asked, in pixels */

struct _CroCausesView
{
  GtkWidget  parent_instance;

  GtkWidget *box;     /* as high whatever is missing: nothing below it jumps */
  GtkWidget *usual;   /* as wide as it asks to be at least, whatever it shows: never in sight */
  GtkWidget *none;    /* what is said where nothing is */
  GtkWidget *asked;   /* a button, in its place */
  GtkWidget *leads_to; /* weak */
  GtkWidget *noted;   /* a button: what the figures are not of */
  GtkWidget *noted_at; /* weak */
  GtkWidget *first;
  GtkWidget *others;  /* a button, with the rest in its popover */
  GtkWidget *rest;
  CroBench  *bench;   /* borrowed */
  CroCause   chosen;  /* what is cured next */
  guint      open_id;
  char      *shown;   /* what the buttons say, to leave them alone where nothing moved */
  gboolean   is_whole; /* nothing is missing */
  gboolean   asks;
};

G_DEFINE_FINAL_TYPE (CroCausesView, cro_causes_view, GTK_TYPE_WIDGET)

/* What was clicked may go with what it opens. */
static gboolean
open_cb (gpointer user_data)
{
  CroCausesView *self = user_data;

  self->open_id = 0;
  cro_cure_open (self->bench, &self->chosen);
  return G_SOURCE_REMOVE;
}

static void
clicked_cb (CroCausesView *self,
            GtkButton     *button)
{
  if (self->open_id != 0)
    return;
  gtk_popover_popdown (gtk_menu_button_get_popover (GTK_MENU_BUTTON (self->others)));
  self->chosen = *(CroCause *) g_object_get_data (G_OBJECT (button), "cause");
  cro_bench_defer (self->bench, &self->open_id, G_PRIORITY_DEFAULT_IDLE, open_cb, self);
}

static GtkWidget *
missing_new (void)
{
  GtkWidget *button = cro_name_button_new (), *label = gtk_button_get_child (GTK_BUTTON (button));

  gtk_label_set_width_chars (GTK_LABEL (label), LEAST_CHARS);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_widget_set_hexpand (button, TRUE);
  gtk_widget_remove_css_class (button, "flat");
  gtk_widget_add_css_class (button, "missing");
  return button;
}

static void
add_button (CroCausesView  *self,
            GtkWidget      *box,
            const CroCause *cause)
{
  g_autofree char *words = cro_words_cause (cause);
  g_autofree char *label = g_strconcat ("? ", words, NULL);
  GtkWidget *button = missing_new ();

  cro_name_button_set (button, label);
  gtk_widget_set_tooltip_text (button, words);
  /* Its name is the model's, as long as that stands. */
  g_object_set_data_full (G_OBJECT (button), "cause", g_memdup2 (cause, sizeof *cause), g_free);
  g_signal_connect_object (button, "clicked", G_CALLBACK (clicked_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (box), button);
}

static void
show_whole (CroCausesView *self)
{
  gboolean is_free = self->is_whole && !gtk_widget_get_visible (self->noted);

  gtk_widget_set_visible (self->none, is_free && !self->asks);
  gtk_widget_set_visible (self->asked, is_free && self->asks);
}

/* A button in sight, with all of its text where that goes on two lines: it is no higher than one of large print. Where
 * there is room it is one line. */
static void
put_in_sight (GtkWidget  *button,
              const char *text)
{
  GtkWidget *label = gtk_button_get_child (GTK_BUTTON (button));

  /* A short one has its least width, which GTK would have no wider than the text. */
  gtk_label_set_natural_wrap_mode (GTK_LABEL (label), g_utf8_strlen (text, -1) > LEAST_CHARS * 3 / 2
                                                          ? GTK_NATURAL_WRAP_NONE
                                                          : GTK_NATURAL_WRAP_INHERIT);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_lines (GTK_LABEL (label), BUTTON_LINES);
  gtk_label_set_max_width_chars (GTK_LABEL (label), -1);
}

static gboolean
is_long (GtkWidget *button)
{
  return g_utf8_strlen (gtk_label_get_label (GTK_LABEL (gtk_button_get_child (GTK_BUTTON (button)))), -1) > LARGE_CHARS;
}

static void
set_fine (GtkWidget *button,
          gboolean   is_fine)
{
  GtkWidget *label = gtk_button_get_child (GTK_BUTTON (button));

  if (is_fine)
    gtk_widget_add_css_class (label, "fine-print");
  else
    gtk_widget_remove_css_class (label, "fine-print");
}

/* Side by side they are of one print. */
static void
set_print (CroCausesView *self)
{
  gboolean is_fine = gtk_widget_get_visible (self->noted) && is_long (self->noted);

  for (GtkWidget *button = gtk_widget_get_first_child (self->first); button != NULL;
       button = gtk_widget_get_next_sibling (button))
    is_fine |= is_long (button);
  set_fine (self->noted, is_fine);
  for (GtkWidget *button = gtk_widget_get_first_child (self->first); button != NULL;
       button = gtk_widget_get_next_sibling (button))
    set_fine (button, is_fine);
}

/* Beside the figures a name gives way; in the popover alone it stands whole, and turns where it is long. */
static void
put (CroCausesView *self,
     GtkWidget     *button,
     gboolean       is_first)
{
  GtkLabel *label = GTK_LABEL (gtk_button_get_child (GTK_BUTTON (button)));

  if (is_first)
    {
      put_in_sight (button, gtk_label_get_label (label));
      cro_wrap_append (CRO_WRAP (self->first), button);
      return;
    }
  gtk_label_set_ellipsize (label, PANGO_ELLIPSIZE_NONE);
  gtk_label_set_natural_wrap_mode (label, GTK_NATURAL_WRAP_INHERIT);
  gtk_label_set_lines (label, -1);
  gtk_label_set_max_width_chars (label, REST_CHARS);
  gtk_widget_remove_css_class (GTK_WIDGET (label), "fine-print");
  gtk_box_append (GTK_BOX (self->rest), button);
}

static void
asked_cb (CroCausesView *self)
{
  if (self->leads_to != NULL)
    gtk_widget_grab_focus (self->leads_to);
}

/* Puts the buttons that there is room for in sight, and the others behind one. */
static void
arrange (CroCausesView *self)
{
  g_autoptr (GPtrArray) buttons = g_ptr_array_new_with_free_func (g_object_unref);
  GtkWidget *const boxes[] = { self->first, self->rest };
  guint room = MOST_SHOWN - (gtk_widget_get_visible (self->noted) ? 1 : 0), shown, others;
  g_autofree char *text = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (boxes); i++)
    for (GtkWidget *button; (button = gtk_widget_get_first_child (boxes[i])) != NULL;)
      {
        g_ptr_array_add (buttons, g_object_ref (button));
        gtk_widget_unparent (button);
      }
  shown = buttons->len > room ? room - 1 : buttons->len;
  others = buttons->len - shown;
  for (guint i = 0; i < buttons->len; i++)
    put (self, buttons->pdata[i], i < shown);
  /* Translators: a button: how many more things are missing than the button above it names. */
  text = g_strdup_printf (ngettext ("and %u other", "and %u others", others), others);
  gtk_widget_set_visible (self->first, shown > 0);
  gtk_menu_button_set_label (GTK_MENU_BUTTON (self->others), text);
  cro_spoken_set (self->others, text);
  gtk_widget_set_visible (self->others, others > 0);
  set_print (self);
  show_whole (self);
}

static void
show_buttons (CroCausesView *self,
              GArray        *causes)
{
  cro_wrap_clear (CRO_WRAP (self->first));
  cro_box_clear (self->rest);
  for (guint i = 0; i < causes->len; i++)
    add_button (self, self->rest, &g_array_index (causes, CroCause, i));
  self->is_whole = causes->len == 0;
  arrange (self);
}

void
cro_causes_view_set (CroCausesView *self,
                     GArray        *causes,
                     const char    *known)
{
  g_autoptr (GString) says = g_string_new (NULL);

  gtk_label_set_label (GTK_LABEL (self->none), known != NULL ? known : _("Nothing is missing"));
  for (guint i = 0; i < causes->len; i++)
    {
      g_autofree char *text = cro_cause_to_text (&g_array_index (causes, CroCause, i));

      g_string_append_printf (says, "%s\n", text);
    }
  if (g_strcmp0 (says->str, self->shown) == 0)
    return;
  g_free (self->shown);
  self->shown = g_strdup (says->str);
  show_buttons (self, causes);
}

void
cro_causes_view_ask (CroCausesView *self,
                     const char    *question,
                     GtkWidget     *leads_to)
{
  g_autofree char *text = question != NULL ? g_strconcat ("? ", question, NULL) : NULL;

  g_set_weak_pointer (&self->leads_to, leads_to);
  self->asks = question != NULL;
  if (self->asks)
    gtk_label_set_label (GTK_LABEL (gtk_button_get_child (GTK_BUTTON (self->asked))), text);
  gtk_widget_set_tooltip_text (self->asked, question);
  show_whole (self);
}

static void
noted_cb (CroCausesView *self)
{
  if (self->noted_at != NULL)
    gtk_widget_grab_focus (self->noted_at);
}

static void
note_cb (CroCausesView *self,
         const char    *note,
         const char    *details,
         GtkWidget     *leads_to)
{
  g_autofree char *text = note != NULL ? g_strconcat ("? ", note, NULL) : NULL;

  g_set_weak_pointer (&self->noted_at, leads_to);
  if (text != NULL)
    {
      cro_name_button_set (self->noted, text);
      put_in_sight (self->noted, text);
    }
  gtk_widget_set_tooltip_text (self->noted, details);
  if (gtk_widget_get_visible (self->noted) == (text != NULL))
    {
      set_print (self);
      return;
    }
  gtk_widget_set_visible (self->noted, text != NULL);
  arrange (self);
}

/* Figures beside it are as wide with a usual button as with none, and turn no line as one comes. */
static void
cro_causes_view_measure (GtkWidget      *widget,
                         GtkOrientation  orientation,
                         int             for_size,
                         int            *minimum,
                         int            *natural,
                         int            *minimum_baseline,
                         int            *natural_baseline)
{
  CroCausesView *self = CRO_CAUSES_VIEW (widget);
  int least, wanted;

  gtk_widget_measure (self->box, orientation, for_size, minimum, natural, NULL, NULL);
  if (orientation == GTK_ORIENTATION_VERTICAL)
    return;
  gtk_widget_measure (self->usual, orientation, -1, &least, &wanted, NULL, NULL);
  *minimum = MAX (*minimum, least);
  *natural = MAX (*natural, wanted);
}

static void
cro_causes_view_size_allocate (GtkWidget *widget,
                               int        width,
                               int        height,
                               int        baseline)
{
  gtk_widget_size_allocate (CRO_CAUSES_VIEW (widget)->box, &(GtkAllocation){ 0, 0, width, height }, baseline);
}

static GtkSizeRequestMode
cro_causes_view_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
cro_causes_view_dispose (GObject *object)
{
  CroCausesView *self = CRO_CAUSES_VIEW (object);

  g_clear_handle_id (&self->open_id, g_source_remove);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->usual, gtk_widget_unparent);
  g_clear_pointer (&self->shown, g_free);
  g_clear_weak_pointer (&self->leads_to);
  g_clear_weak_pointer (&self->noted_at);
  G_OBJECT_CLASS (cro_causes_view_parent_class)->dispose (object);
}

static void
cro_causes_view_class_init (CroCausesViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_causes_view_dispose;
  GTK_WIDGET_CLASS (klass)->measure = cro_causes_view_measure;
  GTK_WIDGET_CLASS (klass)->size_allocate = cro_causes_view_size_allocate;
  GTK_WIDGET_CLASS (klass)->get_request_mode = cro_causes_view_get_request_mode;
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "causes");
}

static GtkWidget *
others_new (CroCausesView *self)
{
  GtkWidget *button = gtk_menu_button_new ();
  GtkWidget *popover = gtk_popover_new ();
  GtkWidget *scroller = gtk_scrolled_window_new ();

  self->rest = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_width (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scroller), 320);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), self->rest);
  gtk_popover_set_child (GTK_POPOVER (popover), scroller);
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (button), popover);
  gtk_widget_add_css_class (button, "missing");
  gtk_widget_set_halign (button, GTK_ALIGN_START);
  return button;
}

static GtkWidget *
text_new (int lines)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_lines (GTK_LABEL (label), lines);
  gtk_label_set_width_chars (GTK_LABEL (label), LEAST_CHARS);
  gtk_widget_add_css_class (label, "caption");
  return label;
}

static GtkWidget *
asked_new (CroCausesView *self)
{
  GtkWidget *button = gtk_button_new (), *label = text_new (MOST_LINES - 1);

  gtk_label_set_max_width_chars (GTK_LABEL (label), MOST_CHARS);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  /* What is asked stands at its end. */
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_MIDDLE);
  /* Its lines are of small print: a button is as high as one of large. */
  gtk_widget_set_margin_top (label, AROUND);
  gtk_widget_set_margin_bottom (label, AROUND);
  gtk_button_set_child (GTK_BUTTON (button), label);
  gtk_widget_add_css_class (button, "missing");
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_widget_set_visible (button, FALSE);
  g_signal_connect_object (button, "clicked", G_CALLBACK (asked_cb), self, G_CONNECT_SWAPPED);
  return button;
}

static GtkWidget *
usual_new (void)
{
  GtkWidget *button = missing_new ();
  GtkLabel *label = GTK_LABEL (gtk_button_get_child (GTK_BUTTON (button)));

  /* Not to be translated: more letters than fit. */
  gtk_label_set_label (label, "nnn nnn nnn nnn nnn nnn nnn nnn nnn nnn nnn");
  gtk_label_set_max_width_chars (label, LARGE_CHARS);
  gtk_widget_set_child_visible (button, FALSE);
  gtk_widget_set_can_focus (button, FALSE);
  gtk_accessible_update_state (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_STATE_HIDDEN, TRUE, -1);
  return button;
}

static void
cro_causes_view_init (CroCausesView *self)
{
  self->box = cro_wrap_new (BETWEEN, BETWEEN);
  gtk_widget_set_valign (self->box, GTK_ALIGN_CENTER);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->usual = usual_new ();
  gtk_widget_set_parent (self->usual, GTK_WIDGET (self));
  self->none = text_new (MOST_LINES);
  gtk_widget_add_css_class (self->none, "dim-label");
  self->asked = asked_new (self);
  self->noted = missing_new ();
  gtk_widget_set_visible (self->noted, FALSE);
  g_signal_connect_object (self->noted, "clicked", G_CALLBACK (noted_cb), self, G_CONNECT_SWAPPED);
  self->first = cro_wrap_new (BETWEEN, BETWEEN);
  gtk_widget_set_hexpand (self->first, TRUE);
  self->others = others_new (self);
  cro_wrap_append (CRO_WRAP (self->box), self->none);
  cro_wrap_append (CRO_WRAP (self->box), self->asked);
  cro_wrap_append (CRO_WRAP (self->box), self->noted);
  cro_wrap_append (CRO_WRAP (self->box), self->first);
  cro_wrap_append (CRO_WRAP (self->box), self->others);
  gtk_widget_set_visible (self->others, FALSE);
}

GtkWidget *
cro_causes_view_new (CroBench *bench)
{
  CroCausesView *self = g_object_new (CRO_TYPE_CAUSES_VIEW, NULL);

  self->bench = bench;
  g_signal_connect_object (bench, "note", G_CALLBACK (note_cb), self, G_CONNECT_SWAPPED);
  return GTK_WIDGET (self);
}
