#include "cro-captioned.h"

#include "cro-field.h"

struct _CroCaptioned
{
  GtkBox     parent_instance;

  GtkWidget *caption;
};

G_DEFINE_FINAL_TYPE (CroCaptioned, cro_captioned, GTK_TYPE_BOX)

enum
{
  CAPTION = 1,
};

static void
cro_captioned_get_property (GObject    *object,
                            guint       id,
                            GValue     *value,
                            GParamSpec *pspec)
{
  g_value_set_string (value, gtk_label_get_label (GTK_LABEL (CRO_CAPTIONED (object)->caption)));
}

static void
cro_captioned_set_property (GObject      *object,
                            guint         id,
                            const GValue *value,
                            GParamSpec   *pspec)
{
  gtk_label_set_label (GTK_LABEL (CRO_CAPTIONED (object)->caption), g_value_get_string (value));
}

static void
cro_captioned_class_init (CroCaptionedClass *klass)
{
  G_OBJECT_CLASS (klass)->get_property = cro_captioned_get_property;
  G_OBJECT_CLASS (klass)->set_property = cro_captioned_set_property;
  g_object_class_install_property (
      G_OBJECT_CLASS (klass), CAPTION,
      g_param_spec_string ("caption", NULL, NULL, "", G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS));
}

static void
cro_captioned_init (CroCaptioned *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 2);
  self->caption = cro_caption_new (NULL, 0);
  gtk_box_append (GTK_BOX (self), self->caption);
}
