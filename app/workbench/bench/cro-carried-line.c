#include "config.h"

#include "cro-carried-line.h"

#include <glib/gi18n.h>

#include "cro-allergen-words.h"
#include "cro-allergen.h"
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
  guint32     contains;    /* masks of groups */
  guint32     may;
  char       *entered;     /* where no group is: what is known of that; NULL: nothing was set */
  GPtrArray  *not_known;   /* char *: ingredients */
  int         fitted_width;
  guint       fitting;     /* source */
};

G_DEFINE_FINAL_TYPE (CroCarriedLine, cro_carried_line, GTK_TYPE_WIDGET)

/* --- The line ------------------------------------------------------------------------------------- */

/* Owned; its elements are borrowed. */
static GPtrArray *
list_groups (guint32 mask)
{
  GPtrArray *names = g_ptr_array_new ();

  for (guint i = 0; i < CRO_N_ALLERGENS; i++)
    if (mask & 1u << i)
      g_ptr_array_add (names, (gpointer) cro_words_allergen (CRO_ALLERGEN_LIST_EU, i));
  return names;
}

/* The first of them, and how many more there are. */
static char *
dup_names (GPtrArray *names,
           guint      most)
{
  g_autoptr (GString) text = g_string_new (NULL);
  guint n_more = names->len - MIN (names->len, most);

  for (guint i = 0; i < names->len - n_more; i++)
    cro_isolate_append (text, names->pdata[i]);
  if (n_more == 0)
    return g_strdup (text->str);
  /* Translators: the first names of a list. */
  return g_strdup_printf (ngettext ("%s and %u more", "%s and %u more", n_more), text->str, n_more);
}

/* With at most so many names a sentence; the last words, by which one opens the rest, always stand. */
static char *
dup_line (CroCarriedLine *self,
          guint           most)
{
  g_autoptr (GPtrArray) groups = list_groups (self->contains);
  g_autoptr (GPtrArray) traces = list_groups (self->may);
  g_autofree char *entered = groups->len > 0 ? dup_names (groups, most) : g_strdup (self->entered);
  GString *text = g_string_new (NULL);

  if (self->not_known->len > 0)
    {
      g_autofree char *names = dup_names (self->not_known, most);

      g_string_append_printf (text, _("Not known for: %s."), names);
      g_string_append_c (text, ' ');
    }
  g_string_append_printf (text, _("Allergens entered: %s."), entered);
  if (traces->len > 0)
    {
      g_autofree char *names = dup_names (traces, most);

      g_string_append_c (text, ' ');
      g_string_append_printf (text, _("May contain, by the labels: %s."), names);
    }
  g_string_append_c (text, ' ');
  /* Translators: pressing the line opens them. */
  g_string_append (text, _("Cautions…"));
  return g_string_free (text, FALSE);
}

/* --- Two lines -------------------------------------------------------------------------------------- */

static int
count_lines (CroCarriedLine *self,
             const char     *text,
             int             width,
             int            *height)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (self->label, text);

  pango_layout_set_width (layout, width * PANGO_SCALE);
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_get_pixel_size (layout, NULL, height);
  return pango_layout_get_line_count (layout);
}

/* As many names as two lines hold, and one of each sentence at least. */
static void
fit (CroCarriedLine *self)
{
  int width = gtk_widget_get_width (self->label);
  guint most = MAX (CRO_N_ALLERGENS, self->not_known->len);
  g_autofree char *line = dup_line (self, most);
  int n = 0, height = -1;

  while (width > 0 && (n = count_lines (self, line, width, &height)) > MOST_LINES && most > 1)
    {
      /* Of what is not known there may be thousands. */
      most = most > CRO_N_ALLERGENS ? CRO_N_ALLERGENS : most - 1;
      g_free (line);
      line = dup_line (self, most);
    }
  /* A menu button asks for the height of one line whatever its width is. */
  gtk_label_set_lines (GTK_LABEL (self->label), MAX (n, MOST_LINES));
  gtk_widget_set_size_request (self->label, -1, height);
  if (!g_str_equal (gtk_label_get_label (GTK_LABEL (self->label)), line))
    gtk_label_set_label (GTK_LABEL (self->label), line);
}

static gboolean
fit_cb (gpointer line)
{
  CroCarriedLine *self = line;

  self->fitting = 0;
  if (self->entered != NULL)
    fit (self);
  return G_SOURCE_REMOVE;
}

/* While widgets are being placed none may change its size. */
static void
cro_carried_line_size_allocate (GtkWidget *widget,
                                int        width,
                                int        height,
                                int        baseline)
{
  CroCarriedLine *self = CRO_CARRIED_LINE (widget);

  gtk_widget_size_allocate (self->button, &(GtkAllocation){ 0, 0, width, height }, baseline);
  if (width != self->fitted_width && self->fitting == 0)
    self->fitting = g_idle_add_full (G_PRIORITY_HIGH_IDLE, fit_cb, self, NULL);
  self->fitted_width = width;
}

static void
cro_carried_line_measure (GtkWidget      *widget,
                          GtkOrientation  orientation,
                          int             for_size,
                          int            *minimum,
                          int            *natural,
                          int            *minimum_baseline,
                          int            *natural_baseline)
{
  gtk_widget_measure (CRO_CARRIED_LINE (widget)->button, orientation, for_size, minimum, natural,
                      minimum_baseline, natural_baseline);
}

static GtkSizeRequestMode
cro_carried_line_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

void
cro_carried_line_set (CroCarriedLine     *self,
                      CroFigures         *figures,
                      CroRef              thing,
                      const CroBreakdown *breakdown)
{
  g_autofree char *line = NULL, *said = NULL;

  self->figures = figures;
  self->thing = thing;
  self->contains = breakdown->allergens;
  self->may = breakdown->may_contain;
  g_free (self->entered);
  self->entered = cro_words_allergens_entered (breakdown);
  g_ptr_array_set_size (self->not_known, 0);
  for (guint i = 0; i < breakdown->allergens_not_known->len; i++)
    g_ptr_array_add (self->not_known, g_strdup (breakdown->allergens_not_known->pdata[i]));
  gtk_widget_set_visible (GTK_WIDGET (self),
                          breakdown->ingredients->len > 0 || breakdown->allergens != 0
                              || breakdown->allergens_not_known->len > 0);
  fit (self);
  /* Who listens hears all of it. */
  line = dup_line (self, G_MAXUINT);
  /* Translators: what is known of allergens; pressing the line opens the rest. */
  said = g_strdup_printf (_("%s Press for who carries them in."), line);
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
  g_clear_handle_id (&CRO_CARRIED_LINE (object)->fitting, g_source_remove);
  g_clear_pointer (&CRO_CARRIED_LINE (object)->button, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_carried_line_parent_class)->dispose (object);
}

static void
cro_carried_line_finalize (GObject *object)
{
  g_free (CRO_CARRIED_LINE (object)->entered);
  g_ptr_array_unref (CRO_CARRIED_LINE (object)->not_known);
  G_OBJECT_CLASS (cro_carried_line_parent_class)->finalize (object);
}

static void
cro_carried_line_class_init (CroCarriedLineClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_carried_line_dispose;
  G_OBJECT_CLASS (klass)->finalize = cro_carried_line_finalize;
  widget_class->measure = cro_carried_line_measure;
  widget_class->size_allocate = cro_carried_line_size_allocate;
  widget_class->get_request_mode = cro_carried_line_get_request_mode;
  gtk_widget_class_install_action (widget_class, "carried.open", NULL, open_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_i, GDK_CONTROL_MASK, "carried.open", NULL);
}

static void
cro_carried_line_init (CroCarriedLine *self)
{
  GtkWidget *popover = gtk_popover_new (), *scroller = gtk_scrolled_window_new ();

  self->not_known = g_ptr_array_new_with_free_func (g_free);
  self->label = gtk_label_new (NULL);
  /* Beside a picture it is narrow. Its lines are fitted, so that no dots cut what somebody must not eat. */
  gtk_label_set_ellipsize (GTK_LABEL (self->label), PANGO_ELLIPSIZE_END);
  gtk_label_set_wrap (GTK_LABEL (self->label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (self->label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_xalign (GTK_LABEL (self->label), 0);
  gtk_widget_set_hexpand (self->label, TRUE);
  self->button = gtk_menu_button_new ();
  gtk_menu_button_set_has_frame (GTK_MENU_BUTTON (self->button), FALSE);
  gtk_menu_button_set_child (GTK_MENU_BUTTON (self->button), self->label);
  /* The button would place it in its middle, as wide as it likes. */
  gtk_widget_set_halign (gtk_widget_get_parent (self->label), GTK_ALIGN_FILL);
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
