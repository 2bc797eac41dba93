#include "config.h"

#include "cro-trial-menu.h"

#include "cro-box.h"
#include "cro-field.h"
#include "cro-spoken.h"

#define MOST_HEIGHT 420

struct _CroTrialMenu
{
  GtkWidget          parent_instance;

  GtkWidget         *button;
  GtkWidget         *popover;
  GtkWidget         *rows;
  GtkWidget         *scroller;    /* around them */
  const char        *none;
  CroTrialMenuFill   fill;
  CroTrialMenuChosen chosen;
  gpointer           owner;
  guint              n;
};

G_DEFINE_FINAL_TYPE (CroTrialMenu, cro_trial_menu, GTK_TYPE_WIDGET)

static void
clear (CroTrialMenu *self)
{
  cro_box_clear (self->rows);
  self->n = 0;
}

/* A bar asks for more height than one row has: only where the rows are cut there is one. */
static void
fit (CroTrialMenu *self)
{
  int height;

  gtk_widget_measure (self->rows, GTK_ORIENTATION_VERTICAL, -1, NULL, &height, NULL, NULL);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->scroller), GTK_POLICY_NEVER,
                                  height > MOST_HEIGHT ? GTK_POLICY_AUTOMATIC : GTK_POLICY_NEVER);
}

static void
show_cb (CroTrialMenu *self)
{
  clear (self);
  self->fill (self, self->owner);
  if (self->n == 0)
    gtk_box_append (GTK_BOX (self->rows), cro_text_new (self->none, "dim-label"));
  else
    gtk_widget_child_focus (self->rows, GTK_DIR_TAB_FORWARD);
  fit (self);
}

static void
clicked_cb (CroTrialMenu *self,
            GtkWidget    *row)
{
  guint number = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (row), "row"));

  gtk_popover_popdown (GTK_POPOVER (self->popover));
  self->chosen (self, number, self->owner);
}

void
cro_trial_menu_add (CroTrialMenu *self,
                    const char   *text,
                    gboolean      is_possible)
{
  GtkWidget *label = gtk_label_new (text);
  GtkWidget *row = gtk_button_new ();

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  /* A popover is as narrow as its longest word otherwise. */
  gtk_label_set_width_chars (GTK_LABEL (label), MIN (48, (int) g_utf8_strlen (text, -1)));
  gtk_label_set_max_width_chars (GTK_LABEL (label), 48);
  gtk_button_set_child (GTK_BUTTON (row), label);
  gtk_widget_add_css_class (row, "flat");
  cro_spoken_set (row, text);
  gtk_widget_set_sensitive (row, is_possible);
  g_object_set_data (G_OBJECT (row), "row", GUINT_TO_POINTER (self->n++));
  g_signal_connect_object (row, "clicked", G_CALLBACK (clicked_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (self->rows), row);
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_trial_menu_dispose (GObject *object)
{
  g_clear_pointer (&CRO_TRIAL_MENU (object)->button, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_trial_menu_parent_class)->dispose (object);
}

static void
cro_trial_menu_class_init (CroTrialMenuClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_trial_menu_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_trial_menu_init (CroTrialMenu *self)
{
  self->scroller = gtk_scrolled_window_new ();
  self->rows = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (self->scroller), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (self->scroller), MOST_HEIGHT);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroller), self->rows);
  self->popover = gtk_popover_new ();
  gtk_popover_set_child (GTK_POPOVER (self->popover), self->scroller);
  self->button = gtk_menu_button_new ();
  gtk_menu_button_set_always_show_arrow (GTK_MENU_BUTTON (self->button), TRUE);
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (self->button), self->popover);
  gtk_widget_set_parent (self->button, GTK_WIDGET (self));
  g_signal_connect_object (self->popover, "show", G_CALLBACK (show_cb), self, G_CONNECT_SWAPPED);
}

GtkWidget *
cro_trial_menu_new (const char         *label,
                    const char         *none,
                    CroTrialMenuFill    fill,
                    CroTrialMenuChosen  chosen,
                    gpointer            owner)
{
  CroTrialMenu *self = g_object_new (CRO_TYPE_TRIAL_MENU, NULL);

  gtk_menu_button_set_label (GTK_MENU_BUTTON (self->button), label);
  self->none = none;
  self->fill = fill;
  self->chosen = chosen;
  self->owner = owner;
  return GTK_WIDGET (self);
}
