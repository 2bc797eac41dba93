/* Names of the book that are like one that was not found.
 *
 * A word counts the more the fewer names of the book have it: log2 (N / n) + 1, where n of N names do (K. Spärck Jones,
 * "A statistical interpretation of term specificity and its application in retrieval", Journal of Documentation 28,
 * 1972). Words that only tell kinds of a thing apart, as "white", count nothing; nor do those behind the comma of a
 * name as the trade writes them, "Turnip, white". A name is like the line if more than half of what names it stands in
 * the line, and of a line with such a comma something that stands before it. */
#include "cro-price-list-private.h"

#include "cro-fold.h"

#include <math.h>
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
  g_autofree char *folded = cro_fold (name), *one = cro_fold_number (folded);
  g_auto (GStrv) words = g_strsplit (one, " ", 0);
  GPtrArray *naming = g_ptr_array_new_with_free_func (g_free);

  for (guint tells = 0; tells < 2 && naming->len == 0; tells++)
    for (guint i = 0; words[i] != NULL; i++)
      if (*words[i] != '\0' && only_tells (words[i]) == (tells == 1)
          && !g_ptr_array_find_with_equal_func (naming, words[i], g_str_equal, NULL))
        g_ptr_array_add (naming, g_strdup (words[i]));
  return naming;
}

/* Of a name as the trade writes it: what stands before the comma. */
static GPtrArray *
head_words (const char *name)
{
  g_autofree char *head = g_strndup (name, strcspn (name, ","));

  return naming_words (*head != '\0' ? head : name);
}

static double
weight_of (const CroListBook *of,
           guint              n)
{
  return log2 ((double) MAX (of->n_items, 1) / MAX (n, 1)) + 1;
}

/* --- The book's names --------------------------------------------------------------------------------------- */

void
cro_list_book_add_words (CroListBook *of,
                         const char  *name,
                         guint32      item)
{
  g_autoptr (GPtrArray) words = head_words (name);

  of->n_items++;
  for (guint i = 0; i < words->len; i++)
    {
      GArray *items = g_hash_table_lookup (of->words, words->pdata[i]);

      if (items == NULL)
        {
          items = g_array_new (FALSE, FALSE, sizeof (guint32));
          g_hash_table_insert (of->words, g_strdup (words->pdata[i]), items);
        }
      g_array_append_val (items, item);
    }
}

void
cro_list_book_weigh_words (CroListBook *of)
{
  GHashTableIter iter;
  gpointer items;

  of->weights = g_new0 (double, of->model->items->len + 1);
  g_hash_table_iter_init (&iter, of->words);
  while (g_hash_table_iter_next (&iter, NULL, &items))
    for (guint i = 0; i < ((GArray *) items)->len; i++)
      of->weights[g_array_index ((GArray *) items, guint32, i)] += weight_of (of, ((GArray *) items)->len);
}

/* --- Names that are like a line's --------------------------------------------------------------------------- */

typedef struct
{
  guint32  item;
  double   shared;  /* what the words weigh that it has in common with the line */
  gboolean is_head; /* one of them stands before the line's comma */
} Like;

static int
compare_likes (gconstpointer a,
               gconstpointer b,
               gpointer      user_data)
{
  const Like *one = a, *other = b;
  const CroListBook *of = user_data;
  double x = one->shared * one->shared / of->weights[one->item];
  double y = other->shared * other->shared / of->weights[other->item];

  if (x != y)
    return x < y ? 1 : -1;
  return strcmp (cro_model_item (of->model, one->item)->name, cro_model_item (of->model, other->item)->name);
}

static void
add_shared (GArray     *likes,
            GHashTable *places,
            guint32     item,
            double      weight,
            gboolean    is_head)
{
  guint place = GPOINTER_TO_UINT (g_hash_table_lookup (places, GUINT_TO_POINTER (item + 1)));
  Like *like;

  if (place == 0)
    {
      g_array_append_val (likes, ((Like){ .item = item }));
      place = likes->len;
      g_hash_table_insert (places, GUINT_TO_POINTER (item + 1), GUINT_TO_POINTER (place));
    }
  like = &g_array_index (likes, Like, place - 1);
  like->shared += weight;
  like->is_head |= is_head;
}

static GArray *
find_likes (const CroListBook *of,
            const char        *name)
{
  g_autoptr (GPtrArray) words = naming_words (name), head = head_words (name);
  g_autoptr (GHashTable) places = g_hash_table_new (NULL, NULL);
  GArray *likes = g_array_new (FALSE, FALSE, sizeof (Like));

  for (guint i = 0; i < words->len; i++)
    {
      const GArray *items = g_hash_table_lookup (of->words, words->pdata[i]);
      gboolean is_head = g_ptr_array_find_with_equal_func (head, words->pdata[i], g_str_equal, NULL);

      for (guint n = 0; items != NULL && n < items->len; n++)
        add_shared (likes, places, g_array_index (items, guint32, n), weight_of (of, items->len), is_head);
    }
  for (guint i = likes->len; i > 0; i--)
    {
      const Like *like = &g_array_index (likes, Like, i - 1);

      if (!like->is_head || like->shared <= LEAST_SHARE * of->weights[like->item] + 1e-9)
        g_array_remove_index_fast (likes, i - 1);
    }
  g_array_sort_with_data (likes, compare_likes, (gpointer) of);
  return likes;
}

void
cro_list_suggest (CroListMatching *self,
                  CroListRow      *row)
{
  g_autoptr (GArray) likes = row->name != NULL ? find_likes (self->of, row->name) : NULL;
  g_autoptr (GString) names = g_string_new (NULL);

  if (likes == NULL || likes->len == 0)
    return;
  for (guint i = 0; i < MIN (likes->len, MOST_LIKE); i++)
    g_string_append_printf (names, "%s%s", i > 0 ? ", " : "",
                            cro_model_item (self->model, g_array_index (likes, Like, i).item)->name);
  cro_list_row_say (self->list, row, CRO_LIST_LIKE, names->str,
                    cro_model_item (self->model, g_array_index (likes, Like, 0).item)->name);
}
