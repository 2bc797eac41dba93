#include "config.h"

#include "cro-causes-view.h"

#include <glib/gi18n.h>

#include "cro-box.h"
#include "cro-cure.h"
#include "cro-field.h"
#include "cro-spoken.h"
#include "cro-words.h"

/* Buttons shown at once; the others come up from one more. */
#define MOST_SHOWN 2
#define MOST_LINES 3         /* of what is said where nothing is missing */

/* What a button keeps where there is little room, and what it may have, in characters. */
#define LEAST_CHARS 18
#define MOST_CHARS 34
#define AROUND 4             /* what is asked, in pixels */

struct _CroCausesView
{
  GtkWidget  parent_instance;

  GtkWidget *box;     /* as high whatever is missing: nothing below it jumps */
  GtkWidget *none;    /* what is said where nothing is */
  GtkWidget *asked;   /* a button, in its place */
  GtkWidget *leads_to; /* weak */
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
  self->open_id = g_idle_add (open_cb, self);
}

static void
add_button (CroCausesView  *self,
            GtkWidget      *box,
            const CroCause *cause)
{
  g_autofree char *words = cro_words_cause (cause);
  g_autofree char *label = g_strconcat ("? ", words, NULL);
  GtkWidget *button = cro_name_button_new ();

  cro_name_button_set (button, label);
  gtk_label_set_width_chars (GTK_LABEL (gtk_button_get_child (GTK_BUTTON (button))), LEAST_CHARS);
  gtk_widget_remove_css_class (button, "flat");
  gtk_widget_add_css_class (button, "missing");
  gtk_widget_set_tooltip_text (button, words);
  /* Its name is the model's, as long as that stands. */
  g_object_set_data_full (G_OBJECT (button), "cause", g_memdup2 (cause, sizeof *cause), g_free);
  g_signal_connect_object (button, "clicked", G_CALLBACK (clicked_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (box), button);
}

static void
show_whole (CroCausesView *self)
{
  gtk_widget_set_visible (self->none, self->is_whole && !self->asks);
  gtk_widget_set_visible (self->asked, self->is_whole && self->asks);
}

static void
asked_cb (CroCausesView *self)
{
  if (self->leads_to != NULL)
    gtk_widget_grab_focus (self->leads_to);
}

static void
show_buttons (CroCausesView *self,
              GArray        *causes)
{
  guint others = causes->len > MOST_SHOWN ? causes->len - MOST_SHOWN : 0;
  /* Translators: a button: how many more things are missing than the buttons beside it name. */
  g_autofree char *text = g_strdup_printf (ngettext ("and %u other", "and %u others", others),
                                           others);

  cro_box_clear (self->first);
  cro_box_clear (self->rest);
  for (guint i = 0; i < causes->len; i++)
    add_button (self, i < MOST_SHOWN ? self->first : self->rest,
                &g_array_index (causes, CroCause, i));
  gtk_menu_button_set_label (GTK_MENU_BUTTON (self->others), text);
  cro_spoken_set (self->others, text);
  gtk_widget_set_visible (self->others, others > 0);
  self->is_whole = causes->len == 0;
  show_whole (self);
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
cro_causes_view_dispose (GObject *object)
{
  CroCausesView *self = CRO_CAUSES_VIEW (object);

  g_clear_handle_id (&self->open_id, g_source_remove);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->shown, g_free);
  g_clear_weak_pointer (&self->leads_to);
  G_OBJECT_CLASS (cro_causes_view_parent_class)->dispose (object);
}

static void
cro_causes_view_class_init (CroCausesViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_causes_view_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
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
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scroller), 320);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), self->rest);
  gtk_popover_set_child (GTK_POPOVER (popover), scroller);
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (button), popover);
  gtk_widget_add_css_class (button, "missing");
  gtk_widget_set_valign (button, GTK_ALIGN_END);
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

static void
cro_causes_view_init (CroCausesView *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->none = text_new (MOST_LINES);
  gtk_widget_add_css_class (self->none, "dim-label");
  self->asked = asked_new (self);
  self->first = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  gtk_widget_set_valign (self->first, GTK_ALIGN_CENTER);
  self->others = others_new (self);
  gtk_box_append (GTK_BOX (self->box), self->none);
  gtk_box_append (GTK_BOX (self->box), self->asked);
  gtk_box_append (GTK_BOX (self->box), self->first);
  gtk_box_append (GTK_BOX (self->box), self->others);
  gtk_widget_set_visible (self->others, FALSE);
}

GtkWidget *
cro_causes_view_new (CroBench *bench)
{
  CroCausesView *self = g_object_new (CRO_TYPE_CAUSES_VIEW, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}
