/* cro-tag-count.h: counts attributes of the tags of an XML text before a parser sees them: it compares
 * each of an element with all others, so that a hundred thousand of them keep it busy for hours. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  char  within;       /* what the text so far ends in: '<' a tag, or a quote in one */
  guint n_attributes; /* of that tag */
} CroTagCount;

/* Takes the next piece of the text. FALSE: there is a tag with more than most. */
gboolean cro_tag_count_take (CroTagCount *self,
                             const char  *text,
                             gsize        length,
                             guint        most);

G_END_DECLS
