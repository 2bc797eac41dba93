/* What a supplier's name of an article has more than the book's name of the goods whose code stands beside it: "Leek
 * OUT", "Milk 6x1l", "Olive oil extra virgin". */
#include "cro-price-list-private.h"

#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-pack.h"
#include "cro-price-remark.h"
#include "cro-price-token.h"
#include "cro-price-words.h"
#include "cro-said-pack.h"

#include <string.h>

/* The most names in one question. */
#define MOST_NAMES 6

typedef struct
{
  guint       row;
  const char *text;
} Name;

/* "6x1l", "x60", "140ct": the pack of the offer, in whatever way it is written. */
static gboolean
is_own_pack (const CroListBook *of,
             guint32            offer,
             const char        *word)
{
  const CroPack pack = cro_pack_of_offer (of->model, offer);
  gboolean is_open;
  CroSaidPack said;
  gint64 ignored, all;

  if (strpbrk (word, "0123456789") == NULL || !cro_said_pack_read (word, &said, &ignored, &is_open) || is_open
      || !cro_decimal_multiply (said.size, said.count, &all))
    return FALSE;
  if (!said.has_unit)
    return all == pack.count
           || (cro_unit_get (pack.unit)->base == CRO_BASE_EACH
               && cro_list_is_size_of (&pack, all, NULL, CRO_NOT_SET, FALSE));
  return cro_unit_get (said.unit)->base == cro_unit_get (pack.unit)->base
         && cro_list_is_size_of (&pack, all, &said.unit, said.count > CRO_MICRO ? CRO_NOT_SET : 0,
                                 FALSE);
}

/* "12x1l": a pack that is none of the book's is asked of its own row. */
static gboolean
has_pack (const char *text)
{
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  gboolean has_it = FALSE;

  for (guint i = 0; words[i] != NULL; i++)
    {
      gboolean is_open = FALSE;
      CroSaidPack said;
      gint64 ignored;

      if (strpbrk (words[i], "0123456789") != NULL)
        has_it |= cro_said_pack_read (words[i], &said, &ignored, &is_open) || is_open;
    }
  return has_it;
}

/* Folded, with | around each: states in which goods are others than those of the book, and what is no price of them to
 * pay. Common practice, no source. */
static const char other_goods[]
    = "|loose|vrac|bulk|frozen|surgele|surgeles|surgelee|surgelees|recalled|recall|rappel|rappele|rappelee|rappeles|"
      "rappelees|expired|perime|perimee|perimes|perimees|damaged|abime|abimee|abimes|abimees|"
      "endommage|endommagee|reject|rejects|rejected|";
static const char no_prices[]
    = "|provisional|provisoire|retail|rrp|foc|guide|indicative|indicatif|";

/* Words that beside a name are of other goods, of another pack or of no price: "Sugar loose", "Sugar NEW SIZE", "Sugar
 * kilo bag", "Sugar RRP". own is the name that the book has. */
static gboolean
tells_apart (const char *rest,
             const char *own)
{
  static const char new_words[] = "|new|nouveau|nouvelle|", pack_words[] = "|size|pack|format|weight|taille|";
  static const char half_words[] = "|half|demi|demie|";
  g_autofree char *folded = cro_fold (rest), *of_own = cro_fold (own),
                  *parted = g_strdelimit (g_strdup (rest), "-", ' ');
  g_autoptr (GArray) tokens = cro_price_tokens_of (parted);
  gboolean ignored;

  if ((cro_price_has_word (folded, other_goods) && !cro_price_has_word (of_own, other_goods))
      || cro_price_has_word (folded, no_prices)
      || (cro_price_has_word (folded, new_words) && cro_price_has_word (folded, pack_words)))
    return TRUE;
  for (guint i = 0; i + 1 < tokens->len; i++)
    {
      const CroPriceToken *token = &g_array_index (tokens, CroPriceToken, i);
      const gboolean is_unit = token->kind == CRO_PRICE_TOKEN_UNIT
                               && (i == 0 || (token - 1)->kind != CRO_PRICE_TOKEN_NUMBER);

      /* "Half shell" is of the goods. */
      if ((is_unit || cro_price_token_is (tokens, i, half_words)) && (token + 1)->kind == CRO_PRICE_TOKEN_WORD
          && cro_price_scan_pack ((token + 1)->word, &ignored) > 0)
        return TRUE;
    }
  return FALSE;
}

/* Of each row one alone is true of goods. Folded, with | around each; common practice, no source. */
#define MOST_OPPOSITES 5
static const char *const opposites[][MOST_OPPOSITES] = {
  { "|salted|sale|salee|", "|unsalted|doux|douce|" },
  { "|red|rouge|rouges|", "|white|blanc|blanche|blancs|blanches|", "|green|vert|verte|verts|vertes|",
    "|yellow|jaune|jaunes|", "|black|noir|noire|noirs|noires|" },
  { "|milk|lait|", "|dark|noir|noire|", "|white|blanc|blanche|" },
  { "|peeled|shelled|decortique|decortiquee|decortiques|decortiquees|", "|shell|unpeeled|" },
  { "|cooked|cuit|cuite|cuits|cuites|", "|raw|uncooked|cru|crue|crus|crues|" },
  { "|powder|powdered|poudre|", "|leaf|leaves|feuille|feuilles|" },
  { "|ground|moulu|moulue|moulus|moulues|", "|whole|entier|entiere|entiers|entieres|" },
  { "|skimmed|semi|ecreme|", "|whole|entier|" },
  { "|curly|frise|frisee|", "|flat|plat|plate|" },
  { "|dried|sec|seche|secs|seches|", "|fresh|frais|fraiche|fraiches|" },
  { "|smoked|fume|fumee|fumes|fumees|", "|unsmoked|" },
  { "|boneless|desosse|desossee|", "|bone|" },
  { "|double|", "|single|", "|whipping|" },
  { "|native|", "|rock|" },
};

static gboolean
is_one_of_row (const char *folded,
               const char *const *row,
               guint       member)
{
  return row[member] != NULL && cro_price_has_word (folded, row[member]);
}

/* "Salted butter" under the code of "Butter, unsalted": the text has a word that is none of the name's, which has
 * another of its row, and lacks that. */
static gboolean
says_opposite (const char *text,
               const char *own)
{
  g_autofree char *folded = cro_fold (text), *of_own = cro_fold (own);

  for (guint i = 0; i < G_N_ELEMENTS (opposites); i++)
    for (guint k = 0; k < MOST_OPPOSITES; k++)
      for (guint other = 0; other < MOST_OPPOSITES; other++)
        if (other != k && is_one_of_row (folded, opposites[i], k) && !is_one_of_row (of_own, opposites[i], k)
            && is_one_of_row (of_own, opposites[i], other) && !is_one_of_row (folded, opposites[i], other))
          return TRUE;
  return FALSE;
}

/* What is left of a text without the words of a name and the pack. NULL: it has not all words of the name. Owned. */
static char *
dup_rest (const CroListBook *of,
          guint32            offer,
          const char        *text)
{
  g_autoptr (GPtrArray) own
      = cro_fold_words (cro_model_item (of->model, cro_model_offer (of->model, offer)->item)->name);
  g_auto (GStrv) words = g_strsplit_set (text, " ,;:", -1);
  g_autoptr (GString) rest = g_string_new (NULL);

  for (guint i = 0; words[i] != NULL; i++)
    {
      g_autofree char *bare = cro_fold (words[i]), *one = cro_fold_number (bare);
      guint at;

      if (*one != '\0' && g_ptr_array_find_with_equal_func (own, one, g_str_equal, &at))
        g_ptr_array_remove_index (own, at);
      else if (*words[i] != '\0' && !is_own_pack (of, offer, words[i]))
        g_string_append_printf (rest, "%s%s", rest->len > 0 ? " " : "", words[i]);
    }
  /* In another language, or by another name, all of them are of the goods. */
  return own->len > 0 ? NULL : g_string_free (g_steal_pointer (&rest), FALSE);
}

char *
cro_list_dup_beside_name (const CroListBook *of,
                          const char        *supplier,
                          guint32            offer,
                          const char        *text,
                          gboolean          *is_article)
{
  g_autofree char *folded = cro_fold (supplier), *rest = NULL;
  const char *own;

  *is_article = FALSE;
  if (g_hash_table_contains (of->spellings, text))
    return NULL;
  own = cro_model_item (of->model, cro_model_offer (of->model, offer)->item)->name;
  rest = dup_rest (of, offer, text);
  if (tells_apart (rest != NULL ? rest : text, own) || (rest == NULL && says_opposite (text, own)))
    return g_strdup (rest != NULL ? rest : text);
  if (rest == NULL || *rest == '\0' || cro_price_words_are_plain (rest, folded))
    return NULL;
  *is_article = !cro_price_words_are_doubtful (rest) && !has_pack (rest);
  return g_steal_pointer (&rest);
}

void
cro_list_names_add (GArray    **names,
                    guint       row,
                    const char *text)
{
  const Name name = { row, text };

  if (*names == NULL)
    *names = g_array_new (FALSE, FALSE, sizeof (Name));
  g_array_append_val (*names, name);
}

void
cro_list_names_ask (GArray      **names,
                    CroPriceList *list)
{
  g_autoptr (GArray) all = g_steal_pointer (names);
  g_autoptr (GString) text = g_string_new (NULL);
  const char *asked;

  if (all == NULL)
    return;
  for (guint i = 0; i < all->len && i <= MOST_NAMES; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? " / " : "",
                            i < MOST_NAMES ? g_array_index (all, Name, i).text : "…");
  asked = cro_price_list_keep (list, text->str);
  for (guint i = 0; i < all->len; i++)
    cro_list_row_say (list, &g_array_index (list->rows, CroListRow, g_array_index (all, Name, i).row),
                      all->len > 1 ? CRO_LIST_SAID_CHANGE : CRO_LIST_BESIDE, asked, NULL);
}
