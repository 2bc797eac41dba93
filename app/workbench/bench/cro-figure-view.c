#include "config.h"

#include "cro-figure-view.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-field.h"
#include "cro-measure.h"
#include "cro-room.h"
#include "cro-spoken.h"
#include "cro-target-scale.h"

/* Of what stands under the number, where there is little room: below that figures go to a row of their
 * own. */
#define LEAST_CHARS 14
#define MOST_LINES 3

/* The words before a number ("at least"), of its size: four such figures and what is missing of them stand in one
 * row. */
#define WORDS_SCALE 0.7
#define LEAST_WORDS 8        /* in bytes: a sign or a currency is none */

struct _CroFigureView
{
  GtkWidget     parent_instance;

  GtkWidget    *button;
  GtkWidget    *value;
  GtkWidget    *caption;
  GtkWidget    *row;      /* of the next two */
  GtkWidget    *scale;
  GtkWidget    *note;
  GtkWidget    *samples[CRO_FIGURE_ROOMS];  /* boxes of a caption and a note, never in sight */
  GtkWidget    *popover;  /* made when it is first asked for */

  CroBench     *bench;    /* borrowed */
  CroFigureSum  sum;
};

G_DEFINE_FINAL_TYPE (CroFigureView, cro_figure_view, GTK_TYPE_WIDGET)

static void
clicked_cb (CroFigureView *self)
{
  g_autoptr (GPtrArray) sum = NULL;

  /* A pointer is kept from a figure without one, an assistive technology's click is not. */
  if (self->sum == NULL)
    return;
  sum = self->sum (self->bench);
  if (sum == NULL)
    {
      gtk_widget_activate_action (GTK_WIDGET (self), "figure.price", NULL);
      return;
    }
  if (self->popover == NULL)
    self->popover = cro_sum_popover_new (self->bench, GTK_WIDGET (self));
  cro_sum_popover_show (CRO_SUM_POPOVER (self->popover), self->button, sum, NULL);
}

static void
sum_cb (GtkWidget  *widget,
        const char *action,
        GVariant   *parameter)
{
  clicked_cb (CRO_FIGURE_VIEW (widget));
}

static void
cro_figure_view_dispose (GObject *object)
{
  CroFigureView *self = CRO_FIGURE_VIEW (object);

  g_clear_pointer (&self->popover, cro_sum_popover_remove);
  g_clear_pointer (&self->button, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_figure_view_parent_class)->dispose (object);
}

/* The number runs from left to right always, and stands where the words under it begin. */
static void
place_value (CroFigureView *self)
{
  gtk_widget_set_halign (self->value, gtk_widget_get_direction (GTK_WIDGET (self)) == GTK_TEXT_DIR_RTL
                                          ? GTK_ALIGN_END : GTK_ALIGN_START);
}

static void
cro_figure_view_direction_changed (GtkWidget        *widget,
                                   GtkTextDirection  before)
{
  place_value (CRO_FIGURE_VIEW (widget));
  GTK_WIDGET_CLASS (cro_figure_view_parent_class)->direction_changed (widget, before);
}

static void
cro_figure_view_class_init (CroFigureViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_figure_view_dispose;
  GTK_WIDGET_CLASS (klass)->direction_changed = cro_figure_view_direction_changed;
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (klass), "figure.sum", NULL, sum_cb);
  gtk_widget_class_add_binding_action (GTK_WIDGET_CLASS (klass), GDK_KEY_i, GDK_CONTROL_MASK,
                                       "figure.sum", NULL);
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

/* The number never does. Where there is room nothing does: no figure grows as others come beside it. */
static void
may_give_way (GtkWidget *label)
{
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_natural_wrap_mode (GTK_LABEL (label), GTK_NATURAL_WRAP_NONE);
  gtk_label_set_lines (GTK_LABEL (label), MOST_LINES);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
}

static GtkWidget *
words_new (void)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_widget_add_css_class (label, "caption");
  may_give_way (label);
  return label;
}

/* A caption over a note, beside a scale in all but the first; hidden, it takes no room. */
static GtkWidget *
sample_new (gboolean has_scale)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  gtk_box_append (GTK_BOX (box), words_new ());
  if (has_scale)
    gtk_box_append (GTK_BOX (row), cro_target_scale_new ());
  gtk_box_append (GTK_BOX (row), words_new ());
  gtk_box_append (GTK_BOX (box), row);
  gtk_widget_set_visible (box, FALSE);
  return box;
}

static void
cro_figure_view_init (CroFigureView *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  self->row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  self->value = gtk_label_new (NULL);
  self->caption = gtk_label_new (NULL);
  self->note = gtk_label_new (NULL);
  gtk_widget_add_css_class (self->value, "figure");
  cro_number_label_setup (self->value);
  gtk_widget_add_css_class (self->caption, "caption");
  gtk_widget_add_css_class (self->note, "caption");
  gtk_widget_add_css_class (self->note, "dim-label");
  place_value (self);
  gtk_label_set_xalign (GTK_LABEL (self->caption), 0);
  gtk_label_set_xalign (GTK_LABEL (self->note), 0);
  may_give_way (self->caption);
  may_give_way (self->note);
  self->scale = cro_target_scale_new ();
  gtk_widget_set_visible (self->scale, FALSE);
  gtk_box_append (GTK_BOX (box), self->value);
  gtk_box_append (GTK_BOX (words), self->caption);
  gtk_box_append (GTK_BOX (self->row), self->scale);
  gtk_box_append (GTK_BOX (self->row), self->note);
  gtk_box_append (GTK_BOX (words), self->row);
  for (int i = 0; i < CRO_FIGURE_ROOMS; i++)
    {
      self->samples[i] = sample_new (i > 0);
      words = cro_room_new (words, self->samples[i]);
    }
  gtk_box_append (GTK_BOX (box), words);
  self->button = gtk_button_new ();
  gtk_button_set_child (GTK_BUTTON (self->button), box);
  gtk_widget_add_css_class (self->button, "flat");
  gtk_widget_set_parent (self->button, GTK_WIDGET (self));
  g_signal_connect_object (self->button, "clicked", G_CALLBACK (clicked_cb), self,
                           G_CONNECT_SWAPPED);
}

GtkWidget *
cro_figure_view_new (CroBench     *bench,
                     CroFigureSum  sum)
{
  CroFigureView *self = g_object_new (CRO_TYPE_FIGURE_VIEW, NULL);

  self->bench = bench;
  self->sum = sum;
  if (sum != NULL)
    gtk_accessible_update_property (GTK_ACCESSIBLE (self->button),
                                    GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, _("How this is "
                                                                           "calculated"),
                                    -1);
  gtk_widget_set_can_target (self->button, sum != NULL);
  gtk_widget_set_can_focus (self->button, sum != NULL);
  return GTK_WIDGET (self);
}

/* A short text has no more room at least than it needs. */
static void
set_small (GtkWidget  *label,
           const char *text)
{
  gtk_label_set_width_chars (GTK_LABEL (label), cro_measure_least_chars (text, LEAST_CHARS));
  gtk_label_set_label (GTK_LABEL (label), text);
}

/* The number is what is read first. */
static void
set_value (CroFigureView *self,
           const char    *value)
{
  gsize words = strcspn (value, "0123456789");
  g_autoptr (PangoAttrList) list = pango_attr_list_new ();

  if (value[words] != '\0' && words >= LEAST_WORDS)
    {
      PangoAttribute *scale = pango_attr_scale_new (WORDS_SCALE);

      scale->end_index = (guint) words;
      pango_attr_list_insert (list, scale);
    }
  gtk_label_set_attributes (GTK_LABEL (self->value), list);
  gtk_label_set_label (GTK_LABEL (self->value), value);
}

void
cro_figure_view_set (CroFigureView *self,
                     const char    *value,
                     const char    *caption,
                     const char    *note)
{
  g_autofree char *spoken = g_strconcat (value, " ", caption, note != NULL ? ", " : "", note, NULL);

  set_value (self, value);
  set_small (self->caption, caption);
  set_small (self->note, note != NULL ? note : "");
  gtk_widget_set_visible (self->note, note != NULL && *note != '\0');
  cro_spoken_set (self->button, spoken);
}

void
cro_figure_view_keep_room (CroFigureView *self,
                           guint          room,
                           const char    *caption,
                           const char    *note)
{
  GtkWidget *box = self->samples[room];

  set_small (gtk_widget_get_first_child (box), caption);
  set_small (gtk_widget_get_last_child (gtk_widget_get_last_child (box)), note != NULL ? note : "");
  gtk_widget_set_visible (box, gtk_widget_get_visible (self->row));
}

void
cro_figure_view_set_small (CroFigureView *self)
{
  gtk_widget_set_visible (self->row, FALSE);
  for (int i = 0; i < CRO_FIGURE_ROOMS; i++)
    gtk_widget_set_visible (self->samples[i], FALSE);
  gtk_widget_add_css_class (self->value, "small");
}

void
cro_figure_view_set_scale (CroFigureView *self,
                           double         pct,
                           double         target,
                           const char    *says)
{
  gboolean is_known = !isnan (pct) && target > 0;

  gtk_widget_set_visible (self->scale, is_known);
  if (is_known)
    cro_target_scale_set (CRO_TARGET_SCALE (self->scale), pct, target, says);
}
