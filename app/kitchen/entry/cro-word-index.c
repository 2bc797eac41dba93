#include "cro-word-index.h"

#include <math.h>
#include <string.h>

#include "cro-fold.h"

/* Letters of a word in which a slip is one, or that begins another: of fewer, too much would be. */
#define LEAST_LETTERS 4

/* Letters that a word is longer than one that begins it. */
#define LEAST_LONGER 2

typedef struct
{
  const char *name;
  double      weight;
} Name;

struct _CroWordIndex
{
  GArray     *names;   /* Name */
  GHashTable *words;   /* word → GArray of guint, indices of names */
};

CroWordIndex *
cro_word_index_new (void)
{
  CroWordIndex *self = g_new0 (CroWordIndex, 1);

  self->names = g_array_new (FALSE, FALSE, sizeof (Name));
  self->words = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) g_array_unref);
  return self;
}

void
cro_word_index_free (CroWordIndex *self)
{
  g_array_unref (self->names);
  g_hash_table_unref (self->words);
  g_free (self);
}

void
cro_word_index_add (CroWordIndex    *self,
                    const char      *name,
                    const GPtrArray *words)
{
  guint at = self->names->len;

  g_array_append_val (self->names, ((Name){ .name = name }));
  for (guint i = 0; i < words->len; i++)
    {
      GArray *having = g_hash_table_lookup (self->words, words->pdata[i]);

      if (having == NULL)
        {
          having = g_array_new (FALSE, FALSE, sizeof (guint));
          g_hash_table_insert (self->words, g_strdup (words->pdata[i]), having);
        }
      g_array_append_val (having, at);
    }
}

static double
weight_of (const CroWordIndex *self,
           guint               n)
{
  return log2 ((double) MAX (self->names->len, 1) / MAX (n, 1)) + 1;
}

void
cro_word_index_weigh (CroWordIndex *self)
{
  GHashTableIter iter;
  gpointer value;

  for (guint i = 0; i < self->names->len; i++)
    g_array_index (self->names, Name, i).weight = 0;
  g_hash_table_iter_init (&iter, self->words);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    {
      const GArray *having = value;

      for (guint i = 0; i < having->len; i++)
        g_array_index (self->names, Name, g_array_index (having, guint, i)).weight += weight_of (self, having->len);
    }
}

/* --- Looking up --------------------------------------------------------------------------------------------- */

static int
compare_matches (gconstpointer a,
                 gconstpointer b,
                 gpointer      user_data)
{
  const CroWordMatch *one = a, *other = b;
  const CroWordIndex *self = user_data;
  double x = one->shared * one->share, y = other->shared * other->share;

  if (x != y)
    return x < y ? 1 : -1;
  return strcmp (g_array_index (self->names, Name, one->at).name, g_array_index (self->names, Name, other->at).name);
}

/* What one word of the text finds. */
typedef struct
{
  const CroWordIndex *index;
  GArray             *matches;
  GHashTable         *places;   /* index of a name + 1 → its place among matches + 1 */
  const char         *word;
  guint               number;   /* of the word, counted from 1 */
  gboolean            is_head;
} Finding;

static void
add_shared (Finding      *self,
            const GArray *having,
            double        part)
{
  double weight = weight_of (self->index, having->len) * part;

  for (guint i = 0; i < having->len; i++)
    {
      guint at = g_array_index (having, guint, i);
      guint place = GPOINTER_TO_UINT (g_hash_table_lookup (self->places, GUINT_TO_POINTER (at + 1)));
      CroWordMatch *match;

      if (place == 0)
        {
          g_array_append_val (self->matches, ((CroWordMatch){ .at = at }));
          place = self->matches->len;
          g_hash_table_insert (self->places, GUINT_TO_POINTER (at + 1), GUINT_TO_POINTER (place));
        }
      match = &g_array_index (self->matches, CroWordMatch, place - 1);
      match->shared += weight;
      match->is_head |= self->is_head;
      match->n_words += match->last != self->number;
      match->last = self->number;
    }
}

static gboolean
begins (const char *word,
        const char *other)
{
  return g_str_has_prefix (other, word)
         && g_utf8_strlen (other + strlen (word), -1) >= LEAST_LONGER;
}

static void
add_reached (Finding      *self,
             CroWordReach  reach)
{
  GHashTableIter iter;
  gpointer other, having;

  if (g_utf8_strlen (self->word, -1) < LEAST_LETTERS)
    return;
  g_hash_table_iter_init (&iter, self->index->words);
  while (g_hash_table_iter_next (&iter, &other, &having))
    if (reach == CRO_WORDS_BEGUN && begins (self->word, other))
      add_shared (self, having, 0.5);
    else if (reach == CRO_WORDS_SLIPPED && g_utf8_strlen (other, -1) >= LEAST_LETTERS
             && cro_fold_is_slip (self->word, other))
      add_shared (self, having, 1);
}

GArray *
cro_word_index_find (const CroWordIndex *self,
                     const GPtrArray    *words,
                     const GPtrArray    *head,
                     CroWordReach        reach)
{
  g_autoptr (GHashTable) places = g_hash_table_new (NULL, NULL);
  GArray *matches = g_array_new (FALSE, FALSE, sizeof (CroWordMatch));

  for (guint i = 0; i < words->len; i++)
    {
      Finding finding = { self, matches, places, words->pdata[i], i + 1, head == NULL };
      const GArray *having = g_hash_table_lookup (self->words, finding.word);

      finding.is_head |= head != NULL
                         && g_ptr_array_find_with_equal_func ((GPtrArray *) head, finding.word, g_str_equal, NULL);
      if (having != NULL)
        add_shared (&finding, having, 1);
      else
        add_reached (&finding, reach);
    }
  for (guint i = 0; i < matches->len; i++)
    {
      CroWordMatch *match = &g_array_index (matches, CroWordMatch, i);

      match->share = match->shared / g_array_index (self->names, Name, match->at).weight;
    }
  g_array_sort_with_data (matches, compare_matches, (gpointer) self);
  return matches;
}
