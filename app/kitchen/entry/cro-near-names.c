#include "cro-near-names.h"

#include <string.h>

#include "cro-fold.h"
#include "cro-word-index.h"

/* What a name with words in common comes to at least, of the best. */
#define LEAST_OF_BEST 0.25

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
add_fitting (GArray          *near_names,
             const GPtrArray *names,
             const char      *text)
{
  g_autoptr (CroQuery) query = cro_query_new (text);

  for (guint i = 0; query != NULL && i < names->len; i++)
    {
      g_autofree char *folded = names->pdata[i] != NULL ? cro_fold (names->pdata[i]) : NULL;
      CroMatch match = folded != NULL ? cro_query_match (query, folded) : CRO_MATCH_NONE;

      if (match != CRO_MATCH_NONE)
        g_array_append_val (near_names, ((Near){ names->pdata[i], i, match }));
    }
}

static void
add_slips (GArray          *near_names,
           const GPtrArray *names,
           const char      *text)
{
  g_autofree char *slipped = cro_fold (text);

  for (guint i = 0; g_utf8_strlen (slipped, -1) >= CRO_NEAR_LEAST && i < names->len; i++)
    {
      g_autofree char *folded = names->pdata[i] != NULL ? cro_fold (names->pdata[i]) : NULL;

      if (folded != NULL && cro_fold_is_slip (slipped, folded))
        g_array_append_val (near_names, ((Near){ names->pdata[i], i, CRO_MATCH_NONE }));
    }
}

/* In their order already. */
static void
add_by_words (GArray          *near_names,
              const GPtrArray *names,
              const char      *text)
{
  g_autoptr (CroWordIndex) index = cro_word_index_new ();
  g_autoptr (GArray) indexed = g_array_new (FALSE, FALSE, sizeof (guint)), matches = NULL;
  g_autoptr (GPtrArray) words = cro_fold_words (text);

  for (guint i = 0; i < names->len; i++)
    if (names->pdata[i] != NULL)
      {
        g_autoptr (GPtrArray) of_name = cro_fold_words (names->pdata[i]);

        cro_word_index_add (index, names->pdata[i], of_name);
        g_array_append_val (indexed, i);
      }
  cro_word_index_weigh (index);
  matches = cro_word_index_find (index, words, NULL, TRUE);
  for (guint i = 0; i < matches->len; i++)
    {
      const CroWordMatch *best = &g_array_index (matches, CroWordMatch, 0);
      const CroWordMatch *match = &g_array_index (matches, CroWordMatch, i);
      guint at = g_array_index (indexed, guint, match->at);

      if (match->shared * match->share < LEAST_OF_BEST * best->shared * best->share)
        break;
      g_array_append_val (near_names, ((Near){ names->pdata[at], at, CRO_MATCH_NONE }));
    }
}

GArray *
cro_near_names (const GPtrArray *names,
                const char      *text,
                guint            most)
{
  g_autoptr (GArray) near_names = g_array_new (FALSE, FALSE, sizeof (Near));
  GArray *indices = g_array_new (FALSE, FALSE, sizeof (guint));

  add_fitting (near_names, names, text);
  if (near_names->len == 0)
    add_slips (near_names, names, text);
  g_array_sort (near_names, compare_near);
  if (near_names->len == 0)
    add_by_words (near_names, names, text);
  for (guint i = 0; i < MIN (near_names->len, most); i++)
    g_array_append_val (indices, g_array_index (near_names, Near, i).index);
  return indices;
}
