#include "config.h"

#include "cro-input-lost.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-isolate.h"

void
cro_input_lost_tell (CroInput   *self,
                     const char *act,
                     const char *stored)
{
  const char *text = cro_input_get_text (self);
  g_autofree char *told = NULL;

  if (*text == '\0' || strcmp (text, stored) == 0)
    return;
  /* Translators: what was typed, and what it is, such as "amount of butter". */
  told = cro_isolate_printf (_("“%s” was not entered for “%s”: this row was removed meanwhile."), text, act);
  gtk_widget_activate_action (GTK_WIDGET (self), "bench.say", "s", told);
}

static gboolean
is_gone (CroInput *self)
{
  static const char *const columns[] = { "id", NULL };
  CroStore *store = cro_book_get_store (cro_input_get_book (self));
  g_autoptr (CroRows) rows = cro_store_read_one (store, cro_input_get_table (self), cro_input_get_id (self), columns,
                                                 NULL);

  return rows == NULL || !cro_rows_next (rows, NULL);
}

/* Keeping tells it, and gives it up. */
void
cro_input_lost_let_go (GtkWidget *widget)
{
  if (!CRO_IS_INPUT (widget))
    for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
         child = gtk_widget_get_next_sibling (child))
      cro_input_lost_let_go (child);
  else if (cro_input_is_edited (CRO_INPUT (widget)) && is_gone (CRO_INPUT (widget)))
    cro_input_keep (CRO_INPUT (widget));
}
