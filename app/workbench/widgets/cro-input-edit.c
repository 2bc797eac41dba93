#include "config.h"

#include "cro-input-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-day-entry.h"
#include "cro-focus.h"
#include "cro-input-lost.h"
#include "cro-refused-words.h"

/* Reads what stands in the field, by its own way where it has one; NULL, or why it cannot be kept,
 * owned. A text is handed over in *owned, to live as long as the cell. */
static char *
parse (CroInput *self,
       CroCell  *cell,
       char    **owned,
       char    **understood)
{
  const char *text = cro_input_get_text (self);

  if (self->read == NULL)
    return cro_input_type_read (&self->type, cro_book_get_model (self->row.book), text, cell, owned, understood);
  *cell = CRO_CELL_NONE;
  return self->read (self, text, cell, understood, self->row.owner);
}

static void
set_failure (CroInput     *self,
             const GError *error)
{
  g_autofree char *message = error->domain != CRO_DAY_ENTRY_ERROR ? cro_words_refused (error) : NULL;

  cro_input_note_refuse (&self->note, message);
}

static void
changed_cb (CroInput *self)
{
  g_autofree char *owned = NULL, *understood = NULL, *note = NULL, *reason = NULL;
  g_autoptr (GError) error = NULL;
  CroDoubt slip;
  CroCell cell;

  if (self->is_setting || self->row.book == NULL)
    return;
  if (!self->is_edited && cro_input_row_is_known_gone (&self->row))
    {
      cro_input_set_text (self, "");
      return;
    }
  self->is_edited = TRUE;
  self->refused = 0;
  reason = parse (self, &cell, &owned, &understood);
  if (reason == NULL && !cro_input_row_preview (&self->row, self, &cell, &error))
    {
      set_failure (self, error);
      return;
    }
  if (reason != NULL)
    cro_book_restore (self->row.book, NULL);
  cro_input_note_refuse (&self->note, reason);
  cro_input_note_offer (&self->note, FALSE);
  if (reason != NULL)
    return;
  if (self->tell != NULL && !cro_input_row_lost_owner (&self->row))
    {
      note = self->tell (self, &cell, self->row.owner);
      cro_input_note_offer (&self->note, self->show != NULL && note != NULL);
    }
  else if (cell.kind == CRO_CELL_INTEGER)
    note = cro_input_doubt_dup (&self->row, &self->type, cell.integer, &slip);
  if (note == NULL && understood != NULL)
    /* Translators: %s is a number that could have been read in another way. */
    note = g_strdup_printf (_("Read as %s"), understood);
  cro_input_note_ask (&self->note, &self->row, note, TRUE);
}

/* Gives up what was typed. */
static void
drop (CroInput *self)
{
  self->is_edited = FALSE;
  self->edition = 0;
  cro_book_restore (self->row.book, NULL);
  cro_input_refresh (self);
}

/* What is refused as yet, and stays typed without an error. */
static gboolean
may_wait (CroInput     *self,
          const GError *error)
{
  if (self->waits == NULL || !self->waits (error))
    return FALSE;
  cro_input_note_refuse (&self->note, NULL);
  cro_input_note_ask (&self->note, &self->row, NULL, TRUE);
  return TRUE;
}

/* Of a row that is there, and another value. */
static gboolean
keep_value (CroInput *self)
{
  g_autofree char *owned = NULL, *understood = NULL, *reason = NULL;
  g_autoptr (GError) error = NULL;
  CroCell cell;
  gboolean done;

  reason = parse (self, &cell, &owned, &understood);
  if (reason != NULL)
    {
      cro_input_note_refuse (&self->note, reason);
      return FALSE;
    }
  self->is_keeping = TRUE;
  done = cro_input_row_keep (&self->row, self, &cell, &error);
  self->is_keeping = FALSE;
  if (!done)
    {
      cro_book_restore (self->row.book, NULL);
      if (may_wait (self, error))
        return TRUE;
      set_failure (self, error);
      self->refused = cro_book_get_edition (self->row.book);
      return FALSE;
    }
  self->is_edited = FALSE;
  self->edition = 0;
  cro_input_refresh (self);
  return TRUE;
}

/* The act may have taken the field's own row from the screen, so it is held until the end. */
static gboolean
keep (CroInput *input)
{
  g_autoptr (CroInput) self = g_object_ref (input);

  if (!self->is_edited || self->is_keeping || self->row.book == NULL)
    return TRUE;
  if (cro_input_row_is_gone (&self->row))
    cro_input_lost_tell (self, self->row.act, self->kept);
  else if (strcmp (cro_input_get_text (self), self->kept) != 0)
    return keep_value (self);
  drop (self);
  return TRUE;
}

void
cro_input_keep (CroInput *self)
{
  keep (self);
}

void
cro_input_drop (CroInput *self)
{
  if (self->is_edited)
    drop (self);
}

gboolean
cro_input_read (CroInput *self,
                CroCell  *cell)
{
  g_autofree char *owned = NULL, *understood = NULL, *reason = NULL;

  if (!self->is_edited)
    return FALSE;
  reason = parse (self, cell, &owned, &understood);
  return reason == NULL && owned == NULL;
}

/* Where the field is gone the focus has another place already. */
static void
activate_cb (CroInput *input)
{
  g_autoptr (CroInput) self = g_object_ref (input);
  gboolean is_kept = keep (self);
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  if (is_kept && self->next != NULL)
    gtk_widget_grab_focus (self->next);
  else if (is_kept && root != NULL)
    gtk_widget_child_focus (GTK_WIDGET (root), GTK_DIR_TAB_FORWARD);
  /* GTK shows by itself where Tab led, not where this key did: a choice has no caret. */
  if (is_kept && GTK_IS_WINDOW (root))
    gtk_window_set_focus_visible (GTK_WINDOW (root), TRUE);
}

static void
enter_cb (CroInput *self)
{
  if (self->row.book == NULL || cro_book_is_past (self->row.book, NULL) || cro_input_row_is_known_gone (&self->row))
    return;
  cro_input_row_look (&self->row, self);
}

static gboolean
asks_first (CroInput *self)
{
  g_autofree char *owned = NULL, *understood = NULL, *reason = NULL;
  CroCell cell;

  if (self->asks == NULL || !self->is_edited || cro_input_row_lost_owner (&self->row))
    return FALSE;
  reason = parse (self, &cell, &owned, &understood);
  return reason == NULL && self->asks (self, &cell, self->row.owner);
}

/* What was marked in it is marked no more: only one field is to look chosen. What was refused is not tried again
 * as long as nothing else moved: a window that the refusal opened takes the focus too, and would be opened twice. */
static void
leave_cb (CroInput *self)
{
  if (!self->is_held && (self->refused == 0 || self->refused != cro_book_get_edition (self->row.book)))
    {
      if (!self->is_keeping && asks_first (self))
        drop (self);
      else
        keep (self);
    }
  cro_focus_unselect (self->entry);
}

/* Nothing of what cannot be read. */
static void
show_list (CroInput *self)
{
  g_autofree char *owned = NULL, *understood = NULL, *reason = NULL;
  CroCell cell;

  if (self->show == NULL || !self->is_edited || cro_input_row_lost_owner (&self->row))
    return;
  reason = parse (self, &cell, &owned, &understood);
  if (reason == NULL)
    self->show (self, &cell, self->row.owner);
}

static gboolean
key_pressed_cb (CroInput        *self,
                guint            keyval,
                guint            keycode,
                GdkModifierType  state)
{
  if (keyval == GDK_KEY_F2 && self->show != NULL && self->is_edited)
    {
      show_list (self);
      return GDK_EVENT_STOP;
    }
  if (keyval == GDK_KEY_F2
      || (keyval == GDK_KEY_Tab && !(state & GDK_SHIFT_MASK) && cro_input_note_is_asking (&self->note)))
    return cro_input_note_enter (&self->note);
  if (keyval != GDK_KEY_Escape)
    return GDK_EVENT_PROPAGATE;
  if (!self->is_edited)
    return cro_input_note_close (&self->note);
  drop (self);
  cro_focus_select (self->entry);
  return GDK_EVENT_STOP;
}

void
cro_input_watch (CroInput *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  gtk_widget_add_controller (self->entry, keys);
  gtk_widget_add_controller (self->entry, focus);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (focus, "enter", G_CALLBACK (enter_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (focus, "leave", G_CALLBACK (leave_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->entry, "changed", G_CALLBACK (changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->entry, "activate", G_CALLBACK (activate_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->entry, "icon-release", G_CALLBACK (show_list), self, G_CONNECT_SWAPPED);
}
