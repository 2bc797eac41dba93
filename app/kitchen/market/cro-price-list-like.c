/* Names of the book that are like one that was not found.
 *
 * Words count as they do in a word index (cro-word-index.h). Those that only tell kinds of a thing apart, as "white",
 * count nothing; nor do those behind the comma of a name as the trade writes them, "Turnip, white". A name is like the
 * line if more than half of what names it stands in the line, and of a line with such a comma something that stands
 * before it. */
#include "cro-price-list-private.h"

#include "cro-fold.h"

#include <string.h>

#define MOST_LIKE 3

/* Letters of a word that names anything. */
#define LEAST_WORD 3

/* Of what a name must share more. */
#define LEAST_SHARE 0.5

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

/* Most lists are found by their codes and names, and are never asked for what is like them. */
static const CroWordIndex *
words_of (CroListBook *of)
{
  CroModel *model = of->model;

  if (of->words != NULL)
    return of->words;
  of->words = cro_word_index_new ();
  for (guint32 i = 0; i < model->items->len; i++)
    {
      const CroItem *item = cro_model_item (model, i);
      g_autoptr (GPtrArray) words = NULL;

      if (item->is_dead || !model->measures[i].is_bought)
        continue;
      words = head_words (item->name);
      cro_word_index_add (of->words, item->name, words);
      g_array_append_val (of->named, i);
    }
  cro_word_index_weigh (of->words);
  return of->words;
}

/* Elements CroWordMatch, best first. Owned. */
static GArray *
find_likes (CroListBook *of,
            const char  *name)
{
  g_autoptr (GPtrArray) words = naming_words (name), head = head_words (name);
  GArray *likes = cro_word_index_find (words_of (of), words, head, FALSE);

  for (guint i = likes->len; i > 0; i--)
    {
      const CroWordMatch *like = &g_array_index (likes, CroWordMatch, i - 1);

      if (!like->is_head || like->share <= LEAST_SHARE + 1e-9)
        g_array_remove_index (likes, i - 1);
    }
  return likes;
}

void
cro_list_suggest (CroListMatching *self,
                  CroListRow      *row)
{
  g_autoptr (GArray) likes = row->name != NULL ? find_likes (self->of, row->name) : NULL;
  g_autoptr (GString) names = g_string_new (NULL);
  const char *first = NULL;

  for (guint i = 0; likes != NULL && i < MIN (likes->len, MOST_LIKE); i++)
    {
      guint at = g_array_index (likes, CroWordMatch, i).at;
      const char *name = cro_model_item (self->model, g_array_index (self->of->named, guint32, at))->name;

      first = i == 0 ? name : first;
      g_string_append_printf (names, "%s%s", i > 0 ? ", " : "", name);
    }
  if (first != NULL)
    cro_list_row_say (self->list, row, CRO_LIST_LIKE, names->str, first);
}
