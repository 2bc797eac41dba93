#include "config.h"

#include "cro-headings.h"

#include <glib/gi18n.h>

#include "cro-cells.h"
#include "cro-spoken.h"

typedef struct
{
  GtkWidget *button;
  GtkWidget *label;
  GtkWidget *arrow;
} Heading;

struct _CroHeadings
{
  GtkWidget   parent_instance;

  GtkWidget  *cells;
  CroColumns *columns;
  GArray     *headings;     /* Heading */
  guint       column;       /* it is sorted by; G_MAXUINT: by none */
  gboolean    falling;
};

G_DEFINE_FINAL_TYPE (CroHeadings, cro_headings, GTK_TYPE_WIDGET)

static guint sorted_signal;

/* --- What it is sorted by ------------------------------------------------------------------------ */

static void
show_heading (CroHeadings *self,
              guint        column)
{
  const Heading *heading = &g_array_index (self->headings, Heading, column);
  gboolean is_by = self->column == column;
  const char *said = !is_by          ? _("Press to sort by this column.")
                     : self->falling ? _("Sorted, largest first.")
                                     : _("Sorted, smallest first.");

  gtk_image_set_from_icon_name (GTK_IMAGE (heading->arrow), self->falling ? "pan-down-symbolic"
                                                                          : "pan-up-symbolic");
  gtk_widget_set_visible (heading->arrow, is_by);
  gtk_widget_set_tooltip_text (heading->button, said);
  gtk_accessible_update_property (GTK_ACCESSIBLE (heading->button),
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, said, -1);
}

void
cro_headings_sort (CroHeadings *self,
                   guint        column,
                   gboolean     falling)
{
  self->column = column;
  self->falling = falling;
  for (guint i = 0; i < self->headings->len; i++)
    show_heading (self, i);
  cro_headings_measure (self);
  g_signal_emit (self, sorted_signal, 0, column, falling);
}

static void
pressed_cb (CroHeadings *self,
            GtkWidget   *button)
{
  guint column = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "column"));

  if (self->column != column)
    cro_headings_sort (self, column, FALSE);
  else if (!self->falling)
    cro_headings_sort (self, column, TRUE);
  else
    cro_headings_sort (self, G_MAXUINT, FALSE);
}

/* --- The widget ------------------------------------------------------------------------------------ */

static void
cro_headings_dispose (GObject *object)
{
  CroHeadings *self = CRO_HEADINGS (object);

  g_clear_pointer (&self->cells, gtk_widget_unparent);
  g_clear_pointer (&self->headings, g_array_unref);
  g_clear_object (&self->columns);
  G_OBJECT_CLASS (cro_headings_parent_class)->dispose (object);
}

static void
cro_headings_class_init (CroHeadingsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_headings_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  sorted_signal = g_signal_new ("sorted", CRO_TYPE_HEADINGS, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 2, G_TYPE_UINT, G_TYPE_BOOLEAN);
}

static void
cro_headings_init (CroHeadings *self)
{
  self->headings = g_array_new (FALSE, FALSE, sizeof (Heading));
  self->column = G_MAXUINT;
}

GtkWidget *
cro_headings_new (CroColumns *columns)
{
  CroHeadings *self = g_object_new (CRO_TYPE_HEADINGS, NULL);

  self->columns = g_object_ref (columns);
  self->cells = cro_cells_new (columns);
  gtk_widget_add_css_class (self->cells, "headings");
  gtk_widget_set_parent (self->cells, GTK_WIDGET (self));
  return GTK_WIDGET (self);
}

/* Over numbers the arrow is on the left, so that the heading ends where they do. */
void
cro_headings_append (CroHeadings *self,
                     const char  *title)
{
  guint column = self->headings->len;
  gboolean is_number = cro_columns_is_number (self->columns, column);
  Heading heading = { gtk_button_new (), gtk_label_new (title), gtk_image_new () };
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  gtk_label_set_wrap (GTK_LABEL (heading.label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (heading.label), is_number ? 1 : 0);
  gtk_label_set_justify (GTK_LABEL (heading.label),
                         is_number ? GTK_JUSTIFY_RIGHT : GTK_JUSTIFY_LEFT);
  gtk_widget_set_valign (heading.arrow, GTK_ALIGN_END);
  gtk_widget_set_valign (heading.label, GTK_ALIGN_END);
  gtk_box_append (GTK_BOX (box), heading.label);
  if (is_number)
    {
      gtk_box_prepend (GTK_BOX (box), heading.arrow);
      gtk_widget_set_direction (box, GTK_TEXT_DIR_LTR);
      gtk_widget_set_direction (heading.label, GTK_TEXT_DIR_LTR);
    }
  else
    gtk_box_append (GTK_BOX (box), heading.arrow);
  gtk_widget_set_hexpand (heading.label, TRUE);
  gtk_button_set_child (GTK_BUTTON (heading.button), box);
  gtk_widget_add_css_class (heading.button, "flat");
  cro_spoken_set (heading.button, title);
  g_object_set_data (G_OBJECT (heading.button), "column", GUINT_TO_POINTER (column));
  g_signal_connect_object (heading.button, "clicked", G_CALLBACK (pressed_cb), self,
                           G_CONNECT_SWAPPED);
  cro_cells_append (CRO_CELLS (self->cells), heading.button);
  g_array_append_val (self->headings, heading);
  show_heading (self, column);
}

/* What an arrow takes, so that few columns move when it comes. */
#define ARROW_WIDTH 16

/* A label that may break does not ask for the whole of its text. */
static int
width_in_one_line (GtkWidget *label)
{
  g_autoptr (PangoLayout) layout
      = gtk_widget_create_pango_layout (label, gtk_label_get_label (GTK_LABEL (label)));
  int width;

  pango_layout_get_pixel_size (layout, &width, NULL);
  return width;
}

void
cro_headings_measure (CroHeadings *self)
{
  for (guint i = 0; i < self->headings->len; i++)
    {
      const Heading *heading = &g_array_index (self->headings, Heading, i);
      int least, of_label;

      gtk_widget_measure (heading->button, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL,
                          NULL);
      gtk_widget_measure (heading->label, GTK_ORIENTATION_HORIZONTAL, -1, &of_label, NULL, NULL,
                          NULL);
      cro_columns_take (self->columns, i, least, least,
                        least - of_label + width_in_one_line (heading->label)
                            + (gtk_widget_get_visible (heading->arrow) ? 0 : ARROW_WIDTH));
    }
}
