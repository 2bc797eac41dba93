#include "config.h"

#include "cro-place-all.h"

#include <glib/gi18n.h>

#include "cro-field.h"
#include "cro-number.h"
#include "cro-spoken.h"

struct _CroPlaceAll
{
  GtkButton  parent_instance;

  GtkWidget *name;
  GtkWidget *count;
};

G_DEFINE_FINAL_TYPE (CroPlaceAll, cro_place_all, GTK_TYPE_BUTTON)

static void
cro_place_all_class_init (CroPlaceAllClass *klass)
{
}

static void
cro_place_all_init (CroPlaceAll *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  self->name = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->name), 0);
  gtk_label_set_ellipsize (GTK_LABEL (self->name), PANGO_ELLIPSIZE_END);
  self->count = cro_number_label_new ();
  gtk_widget_add_css_class (self->count, "dim-label");
  /* Beside the name: at the end of the row it would head the column of money below. */
  gtk_box_append (GTK_BOX (box), self->name);
  gtk_box_append (GTK_BOX (box), self->count);
  gtk_button_set_child (GTK_BUTTON (self), box);
  gtk_widget_add_css_class (GTK_WIDGET (self), "flat");
  gtk_widget_add_css_class (GTK_WIDGET (self), "all");
}

GtkWidget *
cro_place_all_new (const char *name)
{
  GtkWidget *self = g_object_new (CRO_TYPE_PLACE_ALL, NULL);

  cro_spoken_set (self, name);
  return self;
}

void
cro_place_all_set (CroPlaceAll *self,
                   const char  *name,
                   guint        n)
{
  g_autofree char *text = cro_number_to_text (n, 0, TRUE);
  g_autofree char *spoken = g_strdup_printf (_("%s, %s"), name, text);

  gtk_label_set_label (GTK_LABEL (self->name), name);
  gtk_label_set_label (GTK_LABEL (self->count), text);
  cro_spoken_set (GTK_WIDGET (self), spoken);
}

void
cro_place_all_mark (CroPlaceAll *self,
                    gboolean     is_here)
{
  if (is_here)
    gtk_widget_add_css_class (GTK_WIDGET (self), "here");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self), "here");
  gtk_accessible_update_state (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_STATE_PRESSED,
                               is_here ? GTK_ACCESSIBLE_TRISTATE_TRUE : GTK_ACCESSIBLE_TRISTATE_FALSE, -1);
}
