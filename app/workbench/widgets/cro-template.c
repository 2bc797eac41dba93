#include "cro-template.h"

#include "cro-box.h"
#include "cro-captioned.h"
#include "cro-entry-form.h"
#include "cro-wrap.h"

#define FOLDER "/org/croustade/Croustade/"

/* A template finds types by their names, once they are there. */
static void
ensure_types (void)
{
  g_type_ensure (CRO_TYPE_CAPTIONED);
  g_type_ensure (CRO_TYPE_ENTRY_FORM);
  g_type_ensure (CRO_TYPE_WRAP);
}

void
cro_template_set (GtkWidgetClass *widget_class,
                  const char     *name)
{
  g_autofree char *path = g_strconcat (FOLDER, name, ".ui", NULL);

  ensure_types ();
  gtk_widget_class_set_template_from_resource (widget_class, path);
}

void
cro_template_dispose (GObject *widget,
                      GType    type)
{
  cro_box_let_go (GTK_WIDGET (widget));
  gtk_widget_dispose_template (GTK_WIDGET (widget), type);
}
