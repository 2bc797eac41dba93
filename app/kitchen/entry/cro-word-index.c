#include "cro-word-index.h"

#include <math.h>
#include <string.h>

#include "cro-fold.h"

/* Letters of a word in which a slip is one: of fewer, too much would be. */
#define LEAST_SLIPPED 4

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

static void
add_shared (GArray       *matches,
            GHashTable   *places,    /* index of a name + 1 → its place among them + 1 */
            const GArray *having,
            double        weight,
            gboolean      is_head)
{
  for (guint i = 0; i < having->len; i++)
    {
      guint at = g_array_index (having, guint, i);
      guint place = GPOINTER_TO_UINT (g_hash_table_lookup (places, GUINT_TO_POINTER (at + 1)));
      CroWordMatch *match;

      if (place == 0)
        {
          g_array_append_val (matches, ((CroWordMatch){ .at = at }));
          place = matches->len;
          g_hash_table_insert (places, GUINT_TO_POINTER (at + 1), GUINT_TO_POINTER (place));
        }
      match = &g_array_index (matches, CroWordMatch, place - 1);
      match->shared += weight;
      match->is_head |= is_head;
    }
}

static void
add_slipped (const CroWordIndex *self,
             GArray             *matches,
             GHashTable         *places,
             const char         *word,
             gboolean            is_head)
{
  GHashTableIter iter;
  gpointer other, having;

  if (g_utf8_strlen (word, -1) < LEAST_SLIPPED)
    return;
  g_hash_table_iter_init (&iter, self->words);
  while (g_hash_table_iter_next (&iter, &other, &having))
    if (g_utf8_strlen (other, -1) >= LEAST_SLIPPED && cro_fold_is_slip (word, other))
      add_shared (matches, places, having, weight_of (self, ((GArray *) having)->len), is_head);
}

GArray *
cro_word_index_find (const CroWordIndex *self,
                     const GPtrArray    *words,
                     const GPtrArray    *head,
                     gboolean            with_slips)
{
  g_autoptr (GHashTable) places = g_hash_table_new (NULL, NULL);
  GArray *matches = g_array_new (FALSE, FALSE, sizeof (CroWordMatch));

  for (guint i = 0; i < words->len; i++)
    {
      const char *word = words->pdata[i];
      const GArray *having = g_hash_table_lookup (self->words, word);
      gboolean is_head = head == NULL
                         || g_ptr_array_find_with_equal_func ((GPtrArray *) head, word, g_str_equal, NULL);

      if (having != NULL)
        add_shared (matches, places, having, weight_of (self, having->len), is_head);
      else if (with_slips)
        add_slipped (self, matches, places, word, is_head);
    }
  for (guint i = 0; i < matches->len; i++)
    {
      CroWordMatch *match = &g_array_index (matches, CroWordMatch, i);

      match->share = match->shared / g_array_index (self->names, Name, match->at).weight;
    }
  g_array_sort_with_data (matches, compare_matches, (gpointer) self);
  return matches;
}
