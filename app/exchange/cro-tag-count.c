#include "cro-tag-count.h"

#include <string.h>

/* Between tags, in a tag, and between quotes in it. What begins with ! or ? is no element. Bytes of 0
 * are those of UTF-16. */
gboolean
cro_tag_count_take (CroTagCount *self,
                    const char  *text,
                    gsize        length,
                    guint        most)
{
  const char *end = text + length;

  while (text < end)
    if (self->within != '<')
      {
        const char *found = memchr (text, self->within != '\0' ? self->within : '<', (gsize) (end - text));

        if (found == NULL)
          return TRUE;
        self->n_attributes = self->within != '\0' ? self->n_attributes + 1 : 0;
        self->within = '<';
        text = found + 1;
        if (self->n_attributes > most)
          return FALSE;
      }
    else
      {
        if (*text == '>' || ((*text == '!' || *text == '?') && self->n_attributes == 0))
          self->within = '\0';
        else if (*text == '"' || *text == '\'')
          self->within = *text;
        text++;
      }
  return TRUE;
}
