#include "config.h"

#include "cro-carried-line.h"

#include <glib/gi18n.h>

#include "cro-allergen-words.h"
#include "cro-field.h"
#include "cro-isolate.h"
#include "cro-spoken.h"
#include "cro-words.h"

/* In characters. */
#define POPOVER_WIDTH 60

#define MOST_LINES 2

struct _CroCarriedLine
{
  GtkWidget   parent_instance;

  GtkWidget  *button;
  GtkWidget  *label;
  GtkWidget  *carried;     /* in the popover */

  CroFigures *figures;     /* borrowed */
  CroRef      thing;
};

G_DEFINE_FINAL_TYPE (CroCarriedLine, cro_carried_line, GTK_TYPE_WIDGET)

/* --- The line ------------------------------------------------------------------------------------- */

/* What is not known stands first: the end of a long line is cut. */
static char *
dup_line (const CroBreakdown *breakdown)
{
  g_autofree char *entered = cro_words_allergens_entered (breakdown);
  GString *text = g_string_new (NULL);

  if (breakdown->allergens_not_known->len > 0)
    {
      g_autoptr (GString) names = g_string_new (NULL);

      for (guint i = 0; i < breakdown->allergens_not_known->len; i++)
        cro_isolate_append (names, breakdown->allergens_not_known->pdata[i]);
      g_string_append_printf (text, _("Not known for: %s."), names->str);
      g_string_append_c (text, ' ');
    }
  g_string_append_printf (text, _("Allergens entered: %s."), entered);
  if (breakdown->may_contain != 0)
    {
      g_autofree char *traces = cro_words_allergens (breakdown->may_contain);

      g_string_append_c (text, ' ');
      g_string_append_printf (text, _("May contain, by the labels: %s."), traces);
    }
  g_string_append_c (text, ' ');
  /* Translators: pressing the line opens them. */
  g_string_append (text, _("Cautions…"));
  return g_string_free (text, FALSE);
}

void
cro_carried_line_set (CroCarriedLine     *self,
                      CroFigures         *figures,
                      CroRef              thing,
                      const CroBreakdown *breakdown)
{
  g_autofree char *line = dup_line (breakdown);
  /* Translators: what is known of allergens; pressing the line opens the rest. */
  g_autofree char *said = g_strdup_printf (_("%s Press for who carries them in."), line);

  self->figures = figures;
  self->thing = thing;
  gtk_widget_set_visible (GTK_WIDGET (self),
                          breakdown->ingredients->len > 0 || breakdown->allergens != 0
                              || breakdown->allergens_not_known->len > 0);
  gtk_label_set_label (GTK_LABEL (self->label), line);
  cro_spoken_set (self->button, said);
}

/* --- Who carries them in -------------------------------------------------------------------------- */

static void
show_carried (CroCarriedLine *self)
{
  CroAllergenRow row = { .thing = self->thing };
  CroAllergenSheet sheet = { .figures = self->figures, .menu = CRO_NO_SLOT,
                             .list = CRO_ALLERGEN_LIST_EU };
  g_autofree char *carried = NULL, *text = NULL;

  if (self->figures == NULL)
    return;
  row.bits = cro_carried_bits (self->figures, self->thing);
  carried = cro_words_all_carried (&sheet, &row);
  text = g_strdup_printf ("%s%s%s\n\n%s", carried, *carried != '\0' ? "\n" : "",
                          _("No other group is among those entered."), cro_words_caution ());
  gtk_label_set_label (GTK_LABEL (self->carried), text);
}

static void
open_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  gtk_menu_button_popup (GTK_MENU_BUTTON (CRO_CARRIED_LINE (widget)->button));
}

/* --- The widget ----------------------------------------------------------------------------------- */

static void
cro_carried_line_dispose (GObject *object)
{
  g_clear_pointer (&CRO_CARRIED_LINE (object)->button, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_carried_line_parent_class)->dispose (object);
}

static void
cro_carried_line_class_init (CroCarriedLineClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_carried_line_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_install_action (widget_class, "carried.open", NULL, open_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_i, GDK_CONTROL_MASK, "carried.open", NULL);
}

static void
cro_carried_line_init (CroCarriedLine *self)
{
  GtkWidget *popover = gtk_popover_new (), *scroller = gtk_scrolled_window_new ();

  self->label = gtk_label_new (NULL);
  /* Beside a picture it is narrow. */
  gtk_label_set_ellipsize (GTK_LABEL (self->label), PANGO_ELLIPSIZE_END);
  gtk_label_set_wrap (GTK_LABEL (self->label), TRUE);
  gtk_label_set_lines (GTK_LABEL (self->label), MOST_LINES);
  gtk_label_set_xalign (GTK_LABEL (self->label), 0);
  self->button = gtk_menu_button_new ();
  gtk_menu_button_set_has_frame (GTK_MENU_BUTTON (self->button), FALSE);
  gtk_menu_button_set_child (GTK_MENU_BUTTON (self->button), self->label);
  gtk_widget_add_css_class (self->button, "carried-line");
  self->carried = cro_text_new (NULL, NULL);
  gtk_label_set_max_width_chars (GTK_LABEL (self->carried), POPOVER_WIDTH);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_propagate_natural_width (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scroller), 420);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), self->carried);
  gtk_popover_set_child (GTK_POPOVER (popover), scroller);
  g_signal_connect_object (popover, "show", G_CALLBACK (show_carried), self, G_CONNECT_SWAPPED);
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (self->button), popover);
  gtk_widget_set_parent (self->button, GTK_WIDGET (self));
}

GtkWidget *
cro_carried_line_new (void)
{
  return g_object_new (CRO_TYPE_CARRIED_LINE, NULL);
}
