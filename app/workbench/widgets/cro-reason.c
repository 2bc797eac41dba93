#include "cro-reason.h"

#include "cro-field.h"

/* How wide it makes what stands over it, in characters. */
#define MOST_CHARS 20

GtkWidget *
cro_reason_new (void)
{
  GtkWidget *reason = gtk_label_new (NULL);

  gtk_label_set_wrap (GTK_LABEL (reason), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (reason), MOST_CHARS);
  gtk_label_set_xalign (GTK_LABEL (reason), 0);
  cro_text_keep_units (reason);
  gtk_widget_add_css_class (reason, "reason");
  gtk_widget_set_visible (reason, FALSE);
  return reason;
}

void
cro_reason_say (GtkWidget  *reason,
                GtkWidget  *field,
                const char *note)
{
  gtk_label_set_label (GTK_LABEL (reason), note != NULL ? note : "");
  gtk_widget_set_visible (reason, note != NULL);
  if (field != NULL)
    gtk_accessible_update_property (GTK_ACCESSIBLE (field), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                    note != NULL ? note : "", -1);
}

void
cro_reason_mark (GtkWidget *field,
                 gboolean   is_wrong)
{
  if (is_wrong)
    gtk_widget_add_css_class (field, "error");
  else
    gtk_widget_remove_css_class (field, "error");
  gtk_accessible_update_state (GTK_ACCESSIBLE (field), GTK_ACCESSIBLE_STATE_INVALID,
                               is_wrong ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE,
                               -1);
}
