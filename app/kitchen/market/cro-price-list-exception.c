/* Goods that a note takes out of what it says of all: "Price per kg except celery each". They alone are asked about,
 * where it names nothing else. */
#include "cro-price-list-private.h"

#include "cro-fold.h"
#include "cro-price-saying.h"
#include "cro-price-token.h"

#include <string.h>

/* What stands behind the word that takes them out, and the bytes before that; NULL: there is none. */
static const char *
find_exception (const char *note,
                gsize      *before)
{
  for (const char *at = note; *at != '\0';)
    {
      const gsize n = strcspn (at, " \t,;:()");
      g_autofree char *word = g_strndup (at, n), *folded = cro_fold (word);

      if (cro_price_is_among (folded, "|except|excepting|sauf|hormis|excepte|"))
        {
          *before = (gsize) (at - note);
          return at + n;
        }
      at += MAX (n, 1);
    }
  return NULL;
}

void
cro_list_said_take_exception (CroListSaid  *self,
                              CroPriceList *list,
                              const char   *note)
{
  gsize n;
  const char *goods = find_exception (note, &n);
  g_autofree char *first = goods != NULL ? g_strndup (note, n) : NULL;
  CroPriceSaying saying;

  if (first == NULL || self->per_note != NULL || self->said_open != NULL)
    return;
  saying = cro_price_saying_of (first, NULL);
  if (!saying.per.is_said || saying.is_per_open || saying.has_pack || !saying.is_all_known || saying.is_negated
      || saying.is_of_below || saying.has_number)
    return;
  self->excepted = cro_price_list_keep (list, goods);
  self->per_but = saying.per;
}

/* The names of ingredients in it, as if of one: char *; NULL: it holds something else. Owned. */
static GPtrArray *
names_in (const CroListBook *of,
          const char        *goods)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GArray) tokens = cro_price_tokens_of (goods);
  g_autoptr (GString) name = g_string_new (NULL);

  for (guint i = 0; i <= tokens->len; i++)
    {
      const CroPriceToken *token = i < tokens->len ? &g_array_index (tokens, CroPriceToken, i) : NULL;

      if (token != NULL && (token->kind == CRO_PRICE_TOKEN_NUMBER || token->kind == CRO_PRICE_TOKEN_RATE))
        return NULL;
      if (token != NULL && token->kind == CRO_PRICE_TOKEN_WORD && !cro_price_saying_knows (token->word, NULL))
        {
          g_string_append_printf (name, "%s%s", name->len > 0 ? " " : "", token->word);
          continue;
        }
      if (name->len == 0)
        continue;
      if (cro_list_book_find_name (of, name->str) == CRO_NO_SLOT)
        return NULL;
      g_ptr_array_add (names, cro_fold_number (name->str));
      g_string_truncate (name, 0);
    }
  return names->len > 0 ? g_steal_pointer (&names) : NULL;
}

/* "Celery" takes out "Celery, washed" too. */
static gboolean
is_among (const GPtrArray   *names,
          const CroListBook *of,
          const CroListRow  *row)
{
  const guint32 item = cro_list_book_find_row (of, row);
  g_autofree char *folded = cro_fold (row->name != NULL ? row->name : ""), *one = cro_fold_number (folded);

  for (guint i = 0; i < names->len; i++)
    if ((item != CRO_NO_SLOT && cro_list_book_find_name (of, names->pdata[i]) == item)
        || cro_list_find_words (one, names->pdata[i]) != NULL)
      return TRUE;
  return FALSE;
}

void
cro_list_said_settle_exception (CroListSaid       *self,
                                CroPriceList      *list,
                                const CroListBook *of)
{
  g_autoptr (GPtrArray) names = NULL;

  if (self->excepted != NULL && self->said_open == self->per_note && !self->per.is_said && !self->is_of_pack)
    names = names_in (of, self->excepted);
  if (names == NULL)
    {
      self->excepted = NULL;
      return;
    }
  for (guint i = 0; i < list->rows->len; i++)
    {
      CroListRow *row = &g_array_index (list->rows, CroListRow, i);

      if (is_among (names, of, row))
        row->said_open = self->said_open;
    }
  self->said_open = NULL;
  self->per = self->per_but;
}
