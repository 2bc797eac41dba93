#include "config.h"

#include "cro-mark.h"

#include "cro-spoken.h"

struct _CroMark
{
  GtkWidget  parent_instance;

  GtkWidget *label;
};

G_DEFINE_FINAL_TYPE (CroMark, cro_mark, GTK_TYPE_WIDGET)

static void
cro_mark_dispose (GObject *object)
{
  g_clear_pointer (&CRO_MARK (object)->label, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_mark_parent_class)->dispose (object);
}

static void
cro_mark_class_init (CroMarkClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_mark_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "mark");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GRID_CELL);
}

static void
cro_mark_init (CroMark *self)
{
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  self->label = gtk_label_new (NULL);
  gtk_widget_set_parent (self->label, GTK_WIDGET (self));
}

GtkWidget *
cro_mark_new (void)
{
  return g_object_new (CRO_TYPE_MARK, NULL);
}

void
cro_mark_set (CroMark    *self,
              const char *sign,
              const char *said)
{
  gtk_label_set_label (GTK_LABEL (self->label), sign);
  cro_spoken_set (GTK_WIDGET (self), said);
}
