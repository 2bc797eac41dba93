#include "config.h"

#include "cro-input-note.h"

#include <glib/gi18n.h>

#include "cro-focus.h"
#include "cro-reason.h"

/* Of what a field shows, in pixels. */
#define ICON_SIZE 16

/* The signs of a field: a question is open; a trial has another value than the book. */
#define ASKED "?"
#define TRIED "\342\211\240"

/* --- Over the field ----------------------------------------------------------------------------------- */

static CroBubble *
bubble_of (CroInputNote *self)
{
  if (self->bubble == NULL)
    self->bubble = CRO_BUBBLE (cro_bubble_new (self->box, self->entry));
  return self->bubble;
}

static void
say (CroInputNote *self,
     const char   *text,
     gboolean      at_once)
{
  if (text != NULL || self->bubble != NULL)
    cro_bubble_say (bubble_of (self), text, at_once);
}

/* --- In the field ------------------------------------------------------------------------------------- */

/* Beside the text, in the margin that an entry has: a number stands at the other end. */
static GtkWidget *
sign_new (CroInputNote *self)
{
  GtkWidget *sign = gtk_label_new (NULL);
  GtkGesture *press = gtk_gesture_click_new ();
  gboolean is_number = gtk_widget_has_css_class (self->entry, "numeric");

  gtk_widget_add_css_class (sign, "sign");
  gtk_widget_set_halign (sign, is_number ? GTK_ALIGN_START : GTK_ALIGN_END);
  gtk_widget_add_controller (sign, GTK_EVENT_CONTROLLER (press));
  g_signal_connect_object (press, "pressed", G_CALLBACK (cro_bubble_enter), bubble_of (self), G_CONNECT_SWAPPED);
  gtk_accessible_update_state (GTK_ACCESSIBLE (sign), GTK_ACCESSIBLE_STATE_HIDDEN, TRUE, -1);
  gtk_widget_set_parent (sign, gtk_widget_get_parent (self->box));
  return sign;
}

/* mark: NULL: none. */
static void
show_sign (CroInputNote *self,
           const char   *mark,
           const char   *text)
{
  if (self->sign == NULL && mark == NULL)
    return;
  if (self->sign == NULL)
    self->sign = sign_new (self);
  gtk_label_set_label (GTK_LABEL (self->sign), mark != NULL ? mark : "");
  gtk_widget_set_tooltip_text (self->sign, mark != NULL ? text : NULL);
  gtk_widget_set_visible (self->sign, mark != NULL);
}

void
cro_input_note_place_sign (const CroInputNote *self,
                           int                 width,
                           int                 height)
{
  int high;

  if (self->sign == NULL || !gtk_widget_get_visible (self->sign))
    return;
  gtk_widget_measure (self->sign, GTK_ORIENTATION_VERTICAL, -1, &high, NULL, NULL, NULL);
  high = MAX (high, height);
  gtk_widget_size_allocate (self->sign, &(GtkAllocation){ 0, (height - high) / 2, width, high }, -1);
}

/* --- What is told --------------------------------------------------------------------------------------- */

void
cro_input_note_init (CroInputNote *self,
                     GtkWidget    *entry,
                     GtkWidget    *box)
{
  self->entry = entry;
  self->box = box;
}

void
cro_input_note_clear (CroInputNote *self)
{
  g_clear_pointer (&self->sign, gtk_widget_unparent);
  cro_input_old_clear (&self->old);
}

void
cro_input_note_forget (CroInputNote *self)
{
  cro_input_old_forget (&self->old);
  self->is_fresh = FALSE;
}

void
cro_input_note_tell (CroInputNote *self,
                     const char   *text)
{
  gboolean is_here = cro_focus_is_in (self->entry);

  /* It speaks of keys: while these go elsewhere it waits for the focus. */
  say (self, text, is_here);
  if (!is_here)
    cro_input_note_close (self);
}

void
cro_input_note_refuse (CroInputNote *self,
                       const char   *reason)
{
  cro_reason_mark (self->entry, reason != NULL);
  if (reason == NULL)
    return;
  show_sign (self, NULL, NULL);
  say (self, reason, TRUE);
}

void
cro_input_note_ask (CroInputNote      *self,
                    const CroInputRow *row,
                    const char        *question,
                    gboolean           is_typed)
{
  g_autofree char *note = cro_input_old_dup_note (&self->old, row, question);
  gboolean is_kept = note != NULL && !is_typed;

  self->is_fresh |= is_typed;
  show_sign (self, !is_kept ? NULL : question != NULL ? ASKED : TRIED, note);
  say (self, note, self->is_fresh);
}

gboolean
cro_input_note_is_asking (const CroInputNote *self)
{
  return self->bubble != NULL && cro_bubble_is_asking (self->bubble);
}

gboolean
cro_input_note_enter (CroInputNote *self)
{
  return self->bubble != NULL && cro_bubble_enter (self->bubble);
}

gboolean
cro_input_note_close (CroInputNote *self)
{
  return self->bubble != NULL && cro_bubble_close (self->bubble);
}

void
cro_input_note_put_answer (CroInputNote *self,
                           GtkWidget    *answer)
{
  cro_bubble_put_answer (bubble_of (self), answer);
}

/* --- What is offered ------------------------------------------------------------------------------------ */

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
