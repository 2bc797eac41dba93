#include "cro-input-doubt.h"

#include "cro-doubt.h"
#include "cro-words.h"

void
cro_input_doubt_clear (CroInputDoubt *self)
{
  g_clear_pointer (&self->asked_of, g_free);
  g_clear_pointer (&self->question, g_free);
}

/* Asked anew only where the text is another, as the answer may take a walk over all names. */
const char *
cro_input_doubt_ask (CroInputDoubt     *self,
                     const CroInputRow *row,
                     CroInput          *input,
                     const char        *kept)
{
  if (self->ask == NULL || cro_input_row_lost_owner (row))
    return NULL;
  if (self->is_of_more || g_strcmp0 (self->asked_of, kept) != 0)
    {
      cro_input_doubt_clear (self);
      self->asked_of = g_strdup (kept);
      self->question = self->ask (input, row->owner);
    }
  return self->question;
}

char *
cro_input_doubt_dup (const CroInputRow  *row,
                     const CroInputType *type,
                     gint64              micro,
                     CroDoubt           *doubt)
{
  CroModel *model = cro_book_get_model (row->book);

  if (row->column == NULL
      || !(g_str_has_prefix (row->column, "density_")
               ? cro_doubt_of_density (micro, doubt)
               : cro_input_type_is_pct (type)
                     && cro_doubt_of_percent (model, row->table, row->column, micro, doubt)))
    return NULL;
  return cro_words_doubt (model, doubt);
}
