#include "config.h"

#include "cro-input-note.h"

#include <glib/gi18n.h>

#include "cro-reason.h"

/* Of what a field shows, in pixels. */
#define ICON_SIZE 16

void
cro_input_note_init (CroInputNote *self,
                     GtkWidget    *entry,
                     GtkBox       *box)
{
  self->entry = entry;
  self->box = box;
  self->label = cro_reason_new ();
  gtk_box_append (box, self->label);
}

void
cro_input_note_clear (CroInputNote *self)
{
  cro_input_old_clear (&self->old);
}

void
cro_input_note_put (CroInputNote *self,
                    GtkBox       *box,
                    gboolean      has_room)
{
  g_object_ref (self->label);
  gtk_box_remove (GTK_BOX (gtk_widget_get_parent (self->label)), self->label);
  gtk_box_append (box, self->label);
  g_object_unref (self->label);
  gtk_label_set_max_width_chars (GTK_LABEL (self->label), -1);
  self->is_apart = TRUE;
  self->has_room = has_room;
}

void
cro_input_note_tell (CroInputNote *self,
                     const char   *text)
{
  cro_reason_say (self->label, self->entry, text);
}

void
cro_input_note_refuse (CroInputNote *self,
                       const char   *reason)
{
  if (self->bubble == NULL && reason != NULL && !self->has_room)
    self->bubble = cro_reason_bubble_new (GTK_WIDGET (self->box), self->entry);
  cro_input_note_tell (self, self->bubble == NULL ? reason : NULL);
  if (self->bubble != NULL)
    cro_reason_bubble_say (self->bubble, self->entry, reason);
  cro_reason_mark (self->entry, reason != NULL);
}

void
cro_input_note_ask (CroInputNote      *self,
                    const CroInputRow *row,
                    const char        *name,
                    const char        *question)
{
  g_autofree char *note = cro_input_old_dup_note (&self->old, row, self->is_apart ? name : NULL, question);

  cro_input_note_tell (self, note);
}

void
cro_input_note_keep_offer (CroInputNote *self)
{
  GtkEntry *entry = GTK_ENTRY (self->entry);
  g_autoptr (GdkPaintable) nothing = gdk_paintable_new_empty (ICON_SIZE, ICON_SIZE);

  gtk_entry_set_icon_from_paintable (entry, GTK_ENTRY_ICON_SECONDARY, nothing);
  gtk_entry_set_icon_activatable (entry, GTK_ENTRY_ICON_SECONDARY, FALSE);
  gtk_entry_set_icon_tooltip_text (entry, GTK_ENTRY_ICON_SECONDARY, NULL);
}

void
cro_input_note_offer (CroInputNote *self,
                      gboolean      is_offered)
{
  GtkEntry *entry = GTK_ENTRY (self->entry);

  if (is_offered == (gtk_entry_get_icon_name (entry, GTK_ENTRY_ICON_SECONDARY) != NULL))
    return;
  if (!is_offered)
    {
      cro_input_note_keep_offer (self);
      return;
    }
  gtk_entry_set_icon_from_icon_name (entry, GTK_ENTRY_ICON_SECONDARY, "view-list-symbolic");
  gtk_entry_set_icon_activatable (entry, GTK_ENTRY_ICON_SECONDARY, TRUE);
  gtk_entry_set_icon_tooltip_text (entry, GTK_ENTRY_ICON_SECONDARY, _("Show the whole list (F2)"));
}
