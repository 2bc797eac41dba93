/* Names of the book that are like one that was not found. */
#include "cro-price-list-private.h"

#include "cro-doubt.h"

#include <string.h>

#define MOST_LIKE 3

/* Most lists are found by their codes and names, and are never asked for what is like them. */
static CroLikeNames *
likes_of (CroListBook *of)
{
  if (of->likes == NULL)
    of->likes = cro_doubt_likes (of->model, CRO_REF (CRO_REF_ITEM, CRO_NO_SLOT));
  return of->likes;
}

void
cro_list_suggest (CroListMatching *self,
                  CroListRow      *row)
{
  g_autoptr (GPtrArray) likes = row->name != NULL ? cro_like_names_find (likes_of (self->of), row->name, MOST_LIKE)
                                                  : g_ptr_array_new ();
  g_autoptr (GString) names = g_string_new (NULL);

  for (guint i = 0; i < likes->len; i++)
    g_string_append_printf (names, "%s%s", i > 0 ? ", " : "", (const char *) likes->pdata[i]);
  if (likes->len > 0)
    cro_list_row_say (self->list, row, CRO_LIST_LIKE, names->str, likes->pdata[0]);
}
