#include "cro-near-names.h"

#include <string.h>

#include "cro-fold.h"
#include "cro-word-index.h"

/* What a name with words in common comes to at least, of the best. */
#define LEAST_OF_BEST 0.25

struct _CroNearNames
{
  GPtrArray    *names;
  GPtrArray    *folded;   /* NULL where there is no name */
  CroWordIndex *index;    /* NULL: no text asked for it yet */
  GArray       *indexed;  /* guint: of which name each of the index is */
};

typedef struct
{
  const char *name;
  guint       index;
  CroMatch    match;
} Near;

/* Best first, equals by name. */
static int
compare_near (gconstpointer a,
              gconstpointer b)
{
  const Near *one = a, *other = b;

  if (one->match != other->match)
    return one->match > other->match ? -1 : 1;
  return strcmp (one->name, other->name);
}

static void
add_fitting (CroNearNames *self,
             GArray       *near_names,
             const char   *text)
{
  g_autoptr (CroQuery) query = cro_query_new (text);

  for (guint i = 0; query != NULL && i < self->names->len; i++)
    {
      const char *folded = self->folded->pdata[i];
      CroMatch match = folded != NULL ? cro_query_match (query, folded) : CRO_MATCH_NONE;

      if (match != CRO_MATCH_NONE)
        g_array_append_val (near_names, ((Near){ self->names->pdata[i], i, match }));
    }
}

static void
add_slips (CroNearNames *self,
           GArray       *near_names,
           const char   *text)
{
  g_autofree char *slipped = cro_fold (text);

  for (guint i = 0; g_utf8_strlen (slipped, -1) >= CRO_NEAR_LEAST && i < self->names->len; i++)
    if (self->folded->pdata[i] != NULL && cro_fold_is_slip (slipped, self->folded->pdata[i]))
      g_array_append_val (near_names, ((Near){ self->names->pdata[i], i, CRO_MATCH_NONE }));
}

static void
make_index (CroNearNames *self)
{
  self->index = cro_word_index_new ();
  for (guint i = 0; i < self->names->len; i++)
    if (self->names->pdata[i] != NULL)
      {
        g_autoptr (GPtrArray) words = cro_fold_words (self->names->pdata[i]);

        cro_word_index_add (self->index, self->names->pdata[i], words);
        g_array_append_val (self->indexed, i);
      }
  cro_word_index_weigh (self->index);
}

/* In their order already. */
static void
add_by_words (CroNearNames *self,
              GArray       *near_names,
              const char   *text)
{
  g_autoptr (GPtrArray) words = cro_fold_words (text);
  g_autoptr (GArray) matches = NULL;

  if (self->index == NULL)
    make_index (self);
  matches = cro_word_index_find (self->index, words, NULL, CRO_WORDS_SLIPPED);
  for (guint i = 0; i < matches->len; i++)
    {
      const CroWordMatch *best = &g_array_index (matches, CroWordMatch, 0);
      const CroWordMatch *match = &g_array_index (matches, CroWordMatch, i);
      guint at = g_array_index (self->indexed, guint, match->at);

      if (match->shared * match->share < LEAST_OF_BEST * best->shared * best->share)
        break;
      g_array_append_val (near_names, ((Near){ self->names->pdata[at], at, CRO_MATCH_NONE }));
    }
}

CroNearNames *
cro_near_names_new (const GPtrArray *names)
{
  CroNearNames *self = g_new0 (CroNearNames, 1);

  self->names = g_ptr_array_new ();
  self->folded = g_ptr_array_new_full (names->len, g_free);
  self->indexed = g_array_new (FALSE, FALSE, sizeof (guint));
  for (guint i = 0; i < names->len; i++)
    {
      g_ptr_array_add (self->names, names->pdata[i]);
      g_ptr_array_add (self->folded, names->pdata[i] != NULL ? cro_fold (names->pdata[i]) : NULL);
    }
  return self;
}

void
cro_near_names_free (CroNearNames *self)
{
  g_ptr_array_unref (self->names);
  g_ptr_array_unref (self->folded);
  g_clear_pointer (&self->index, cro_word_index_free);
  g_array_unref (self->indexed);
  g_free (self);
}

GArray *
cro_near_names_find (CroNearNames *self,
                     const char   *text,
                     guint         most)
{
  g_autoptr (GArray) near_names = g_array_new (FALSE, FALSE, sizeof (Near));
  GArray *indices = g_array_new (FALSE, FALSE, sizeof (guint));

  add_fitting (self, near_names, text);
  if (near_names->len == 0)
    add_slips (self, near_names, text);
  g_array_sort (near_names, compare_near);
  if (near_names->len == 0)
    add_by_words (self, near_names, text);
  for (guint i = 0; i < MIN (near_names->len, most); i++)
    g_array_append_val (indices, g_array_index (near_names, Near, i).index);
  return indices;
}
