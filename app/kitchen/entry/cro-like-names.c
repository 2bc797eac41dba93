#include "cro-like-names.h"

#include <string.h>

#include "cro-fold.h"
#include "cro-word-index.h"

/* Letters of a word that names anything. */
#define LEAST_WORD 3

/* Of what a name must share more, where the text has words that it has not. */
#define LEAST_SHARE 0.5

struct _CroLikeNames
{
  GPtrArray    *names;    /* const char *, borrowed */
  CroWordIndex *index;
  gboolean      is_weighed;
};

/* Kinds, colours, sizes, states, and words between: English and French, folded. Common practice, no source. */
static const char *const telling_words[] = {
  "aged", "and", "baby", "black", "blanche", "blanc", "blond", "blue", "bleu", "boneless", "brown", "brun", "chilled",
  "clear", "coarse", "cooked", "cuit", "cuite", "dark", "demi", "doux", "douce", "dried", "dry", "entier", "entiere",
  "extra", "fin", "fine", "flat", "fort", "fraiche", "frai", "free", "fresh", "frozen", "fume", "fumee", "green", "gri",
  "grise", "gros", "grosse", "ground", "grand", "grande", "half", "heavy", "jaune", "jeune", "large", "les", "light",
  "live", "long", "longue", "medium", "mixed", "moyen", "moyenne", "natural", "new", "noir", "noire", "nouveau",
  "nouvelle", "old", "organic", "pale", "peeled", "petit", "petite", "plain", "plat", "plate", "pour", "pure", "raw",
  "red", "ripe", "rond", "ronde", "rose", "rouge", "round", "salted", "sans", "sec", "seche", "semi", "sliced",
  "small", "smoked", "soft", "sweet", "surgele", "surgelee", "the", "unsalted", "vert", "verte", "virgin", "vierge",
  "warm", "whole", "wild", "with", "without", "white", "avec", "aux", "des", "bio", "yellow", "young",
};

static GHashTable *
telling_new (void)
{
  GHashTable *telling = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (telling_words); i++)
    g_hash_table_add (telling, cro_fold_number (telling_words[i]));
  return telling;
}

static gboolean
only_tells (const char *word)
{
  static GHashTable *telling;

  if (g_once_init_enter (&telling))
    g_once_init_leave (&telling, telling_new ());
  return strlen (word) < LEAST_WORD || strpbrk (word, "0123456789") != NULL || g_hash_table_contains (telling, word);
}

/* Each once. What has none but such words is named by them. */
static GPtrArray *
naming_words (const char *name)
{
  g_autoptr (GPtrArray) words = cro_fold_words (name);
  GPtrArray *naming = g_ptr_array_new_with_free_func (g_free);

  for (guint tells = 0; tells < 2 && naming->len == 0; tells++)
    for (guint i = 0; i < words->len; i++)
      if (only_tells (words->pdata[i]) == (tells == 1))
        g_ptr_array_add (naming, g_strdup (words->pdata[i]));
  return naming;
}

/* Of a name as the trade writes it: what stands before the comma. */
static GPtrArray *
head_words (const char *name)
{
  g_autofree char *head = g_strndup (name, strcspn (name, ","));

  return naming_words (*head != '\0' ? head : name);
}

CroLikeNames *
cro_like_names_new (void)
{
  CroLikeNames *self = g_new0 (CroLikeNames, 1);

  self->names = g_ptr_array_new ();
  self->index = cro_word_index_new ();
  return self;
}

void
cro_like_names_free (CroLikeNames *self)
{
  g_ptr_array_unref (self->names);
  cro_word_index_free (self->index);
  g_free (self);
}

void
cro_like_names_add (CroLikeNames *self,
                    const char   *name)
{
  g_autoptr (GPtrArray) words = head_words (name);

  g_ptr_array_add (self->names, (gpointer) name);
  cro_word_index_add (self->index, name, words);
  self->is_weighed = FALSE;
}

static gboolean
is_like (const CroWordMatch *match,
         guint               n_words)
{
  return match->n_words == n_words || (match->is_head && match->share > LEAST_SHARE + 1e-9);
}

GPtrArray *
cro_like_names_find (CroLikeNames *self,
                     const char   *text,
                     guint         most)
{
  g_autoptr (GPtrArray) words = naming_words (text), head = head_words (text);
  g_autoptr (GArray) matches = NULL;
  GPtrArray *likes = g_ptr_array_new ();

  if (!self->is_weighed)
    cro_word_index_weigh (self->index);
  self->is_weighed = TRUE;
  matches = cro_word_index_find (self->index, words, head, CRO_WORDS_BEGUN);
  for (guint i = 0; i < matches->len && likes->len < most; i++)
    {
      const CroWordMatch *match = &g_array_index (matches, CroWordMatch, i);

      if (is_like (match, words->len))
        g_ptr_array_add (likes, self->names->pdata[match->at]);
    }
  return likes;
}
