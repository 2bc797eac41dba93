#include "config.h"

#include "cro-input-old.h"

#include <glib/gi18n.h>

#include "cro-isolate.h"
#include "cro-tried-words.h"

void
cro_input_old_clear (CroInputOld *self)
{
  g_clear_pointer (&self->text, g_free);
}

void
cro_input_old_forget (CroInputOld *self)
{
  self->edition = 0;
}

/* Once for an edition of the book: a key asks nothing. */
static const char *
look_up (CroInputOld       *self,
         const CroInputRow *row)
{
  guint64 edition = cro_book_get_edition (row->book);

  if (self->edition == edition)
    return self->text;
  self->edition = edition;
  g_free (self->text);
  self->text = cro_tried_dup_old (row->book, row->table, row->id, row->column);
  return self->text;
}

char *
cro_input_old_dup_note (CroInputOld       *self,
                        const CroInputRow *row,
                        const char        *question)
{
  const char *old = NULL;
  g_autofree char *was = NULL;

  if (!self->is_hidden && row->column != NULL && cro_book_get_tried (row->book) != NULL)
    old = look_up (self, row);
  if (old == NULL)
    return g_strdup (question);
  /* Translators: of a field in a trial: what the book has there. */
  was = cro_isolate_printf (_("was %s"), old);
  /* Translators: a question about what stands in a field of a trial, and what the book has there. */
  return question != NULL ? g_strdup_printf (_("%s · %s"), question, was) : g_steal_pointer (&was);
}
