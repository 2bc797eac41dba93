/* Words of a line of a message that belong to its price and not to its name: what the price is for, "la caisse de", and
 * what leads to it, "à". In English and in French; words are common practice, no source.
 *
 * A name that the book has keeps all its words, "Piping bag": what stands before the price is taken from a name only
 * where the book has it without. A head, a pot or a tin may be the goods themselves, "hake head 9.80/kg": it stays in
 * the name where the price has a unit, and is asked about where it has none. */
#include "cro-price-list-private.h"

#include "cro-currency.h"
#include "cro-decimal.h"
#include "cro-expression.h"
#include "cro-fold.h"
#include "cro-pack.h"
#include "cro-price-remark.h"
#include "cro-price-words.h"
#include "cro-unit-words.h"
#include "cro-word-list.h"
#include "cro-words.h"

#include <string.h>

static const char net_words[] = "net|nett|net weight|nett weight|net wt|poids net|net poids";

/* Behind a name, beside the words for packs. */
static const char behind_name[] = "all sizes|any size|toutes tailles|toute taille|toutes tailles confondues|"
                                  "tous calibres|tout calibre|tous calibres confondus|only|today|this week|now|"
                                  "aujourd hui|cette semaine|an|the|per|for|of|at|a la|la|le|les|au|du|de|par|pour";

/* Before it, behind a word for a pack. */
static const char before_name[] = "of|de|d|du|des";

/* Packages that are goods too: potted and tinned ones; heads of fish, and "bouquet" is a prawn. */
#define TINS "bocal|boite|can|jar|pot|tin"
static const char tins[] = TINS, goods[] = TINS "|bouquet|head|tete";

gboolean
cro_list_is_goods_word (const char *word)
{
  return cro_word_list_scan (word, goods) > 0;
}

gboolean
cro_list_may_be_of_name (const CroListBook *of,
                         const char        *name,
                         const CroPack     *pack,
                         const char        *word)
{
  guint32 item = cro_list_book_find_name (of, name);

  return cro_list_is_goods_word (word) && !cro_list_names_word (name, word)
         && !(cro_word_list_scan (word, tins) > 0 && item != CRO_NO_SLOT && cro_list_book_sells (of, item, pack));
}

gboolean
cro_list_names_word (const char *name,
                     const char *word)
{
  g_autofree char *folded = cro_fold (name), *of = cro_fold (word);

  return cro_list_find_words (folded, of) != NULL;
}

static gsize
scan_spaced (const char *text,
             const char *words)
{
  gsize space = strspn (text, " "), bytes = cro_word_list_scan (text + space, words);

  return bytes > 0 ? space + bytes : 0;
}

gsize
cro_list_scan_package (const char *text,
                       char      **word)
{
  gsize at = strspn (text, " "), per, bytes, joint;
  gboolean ignored;

  at += text[at] == '(';
  per = cro_price_scan_per (text + at);
  at += per + strspn (text + at + per, " ");
  bytes = cro_price_scan_pack (text + at, &ignored);
  if (bytes == 0)
    return 0;
  *word = g_strndup (text + at, bytes);
  at += bytes;
  joint = scan_spaced (text + at, before_name);
  if (joint > 0 && g_ascii_isdigit (text[at + joint + strspn (text + at + joint, " ")]))
    at += joint;
  return at + (text[at] == ')');
}

gsize
cro_list_scan_net (const char *text,
                   char      **word)
{
  gsize space = strspn (text, " "), bytes = cro_word_list_scan (text + space, net_words);

  if (bytes == 0)
    return 0;
  *word = g_strndup (text + space, bytes);
  return space + bytes;
}

gsize
cro_list_scan_lead (const char *text)
{
  gsize bytes = *text == '@' ? 1 : cro_word_list_scan (text, "a|at|now|for|pour"), rest;
  gboolean ignored;

  /* "A" is a grade. */
  if (bytes == 0 || (bytes == 1 && *text == 'A'))
    return 0;
  rest = bytes + strspn (text + bytes, " ");
  if (!g_ascii_isdigit (text[rest]))
    {
      gsize currency = cro_currency_scan (text + rest, NULL, &ignored);

      rest += currency + strspn (text + rest + currency, " ");
    }
  return g_ascii_isdigit (text[rest]) ? bytes : 0;
}

gsize
cro_list_scan_cents (const char *text,
                     gsize       number,
                     gsize       money,
                     gint64     *cents)
{
  gsize before = strspn (text + number, " "), space = strspn (text + money, " "), at = money + space, behind;
  CroUnitMeaning ignored;

  /* "4 €20" may be four of something at 20. */
  if (strspn (text, "0123456789") != number || money == number || (before > 0 && space == 0)
      || strspn (text + at, "0123456789.,") != 2 || !g_ascii_isdigit (text[at]) || !g_ascii_isdigit (text[at + 1]))
    return 0;
  behind = at + 2 + strspn (text + at + 2, " ");
  /* "14 € 90 g", "14 € 12 x 1 kg", "14 € 30s", "14 € 10 %" */
  if (g_unichar_isalpha (g_utf8_get_char (text + at + 2)) || g_str_has_prefix (text + behind, "×")
      || (text[behind] != '\0' && strchr ("xX*%", text[behind]) != NULL)
      || cro_unit_words_scan (text + behind, cro_words_entry (), &ignored) > 0)
    return 0;
  *cents = ((text[at] - '0') * 10 + (text[at + 1] - '0')) * (CRO_MICRO / 100);
  return at + 2;
}

/* --- Names --------------------------------------------------------------------------------------------- */

guint32
cro_list_book_find_name (const CroListBook *of,
                         const char        *name)
{
  g_autofree char *folded = cro_fold (name), *one = cro_fold_number (folded);
  guint found = GPOINTER_TO_UINT (g_hash_table_lookup (of->spellings, name));

  if (found == 0)
    found = GPOINTER_TO_UINT (g_hash_table_lookup (of->names, folded));
  if (found == 0)
    found = GPOINTER_TO_UINT (g_hash_table_lookup (of->names_in_number, one));
  return found > 0 ? found - 1 : CRO_NO_SLOT;
}

guint32
cro_list_book_find_row (const CroListBook *of,
                        const CroListRow  *row)
{
  guint offer = row->code != NULL ? GPOINTER_TO_UINT (g_hash_table_lookup (of->codes, row->code)) : 0;

  return offer > 0 ? cro_model_offer (of->model, offer - 1)->item
                   : row->name != NULL ? cro_list_book_find_name (of, row->name) : CRO_NO_SLOT;
}

gboolean
cro_list_book_sells (const CroListBook *of,
                     guint32            item,
                     const CroPack     *pack)
{
  const CroItem *entry = cro_model_item (of->model, item);

  for (guint32 i = 0; pack->size > 0 && i < entry->n_offers; i++)
    {
      guint32 slot = g_array_index (of->model->offer_order, guint32, entry->first_offer + i);
      CroPack sold = cro_pack_of_offer (of->model, slot);

      if (cro_model_offer (of->model, slot)->supplier == of->supplier && !cro_model_offer (of->model, slot)->is_dead
          && sold.size == pack->size && sold.unit == pack->unit)
        return TRUE;
    }
  return FALSE;
}

/* Whose a row is, by its code or else its name; CRO_NO_SLOT: of nothing in the book. offer is by its code alone. */
static guint32
find_item (const CroListBook *of,
           const CroListRow  *row,
           guint             *offer)
{
  *offer = row->code != NULL ? GPOINTER_TO_UINT (g_hash_table_lookup (of->codes, row->code)) : 0;
  return *offer > 0          ? cro_model_offer (of->model, *offer - 1)->item
         : row->name != NULL ? cro_list_book_find_name (of, row->name)
                             : CRO_NO_SLOT;
}

gboolean
cro_list_book_one_pack (const CroListBook *of,
                        const CroListRow  *row,
                        CroPack           *pack)
{
  guint offer, n = 0;
  guint32 item = find_item (of, row, &offer);
  const CroItem *entry = item != CRO_NO_SLOT ? cro_model_item (of->model, item) : NULL;

  for (guint32 i = 0; entry != NULL && i < entry->n_offers; i++)
    {
      guint32 slot = g_array_index (of->model->offer_order, guint32, entry->first_offer + i);
      const CroOfferEntry *sold = cro_model_offer (of->model, slot);

      if (offer > 0 ? slot != offer - 1 : sold->supplier != of->supplier || sold->is_dead)
        continue;
      *pack = cro_pack_of_offer (of->model, slot);
      n++;
    }
  return n == 1 && pack->size > 0;
}

gboolean
cro_list_book_sells_pack (const CroListBook *of,
                          const CroListRow  *row,
                          const CroPack     *pack)
{
  guint offer;
  guint32 item = find_item (of, row, &offer);
  const CroItem *entry = item != CRO_NO_SLOT ? cro_model_item (of->model, item) : NULL;

  for (guint32 i = 0; entry != NULL && i < entry->n_offers; i++)
    {
      guint32 slot = g_array_index (of->model->offer_order, guint32, entry->first_offer + i);
      CroPack sold = cro_pack_of_offer (of->model, slot);

      if (cro_model_offer (of->model, slot)->supplier == of->supplier && !cro_model_offer (of->model, slot)->is_dead
          && cro_list_is_pack (&sold, pack))
        return TRUE;
    }
  return FALSE;
}

gboolean
cro_list_book_has_name (const CroListBook *of,
                        const char        *name)
{
  g_autofree char *folded = cro_fold (name), *one = cro_fold_number (folded);

  return g_hash_table_contains (of->spellings, name) || g_hash_table_contains (of->names, folded)
         || g_hash_table_contains (of->names_in_number, one);
}

static void
add_word (char      **all,
          const char *text,
          gsize       n)
{
  char *more = *all != NULL ? g_strdup_printf ("%s %.*s", *all, (int) n, text) : g_strndup (text, n);

  g_free (*all);
  *all = more;
}

/* What ends a name, of up to four words; but for goods where has_unit. */
static gboolean
cut_end (GString *name,
         gboolean has_unit,
         char   **word)
{
  gsize begins[4], n = 0;

  for (gsize at = name->len; at > 0 && n < G_N_ELEMENTS (begins); at--)
    if (name->str[at - 1] == ' ')
      begins[n++] = at;
  while (n-- > 0)
    {
      const char *text = name->str + begins[n] + (name->str[begins[n]] == '(');
      gboolean ignored;
      gsize of = MAX (cro_price_scan_pack (text, &ignored), cro_word_list_scan (text, net_words));
      gsize bytes = MAX (of, cro_word_list_scan (text, behind_name));

      if (bytes == 0 || text[bytes + strspn (text + bytes, " ,.:;)-")] != '\0'
          || (has_unit && cro_list_is_goods_word (text)))
        continue;
      if (of == bytes)
        add_word (word, text, of);
      g_string_truncate (name, begins[n] - 1);
      while (name->len > 0 && strchr (" ,.:;-", name->str[name->len - 1]) != NULL)
        g_string_truncate (name, name->len - 1);
      return TRUE;
    }
  return FALSE;
}

/* "bag of mussels" */
static void
cut_begin (GString *name,
           gboolean has_unit,
           char   **word)
{
  gboolean ignored;
  gsize bytes = cro_price_scan_pack (name->str, &ignored);

  if (bytes == 0 || (has_unit && cro_list_is_goods_word (name->str)))
    return;
  add_word (word, name->str, bytes);
  bytes += scan_spaced (name->str + bytes, before_name);
  bytes += strspn (name->str + bytes, " '");
  g_string_erase (name, 0, (gssize) bytes);
}

char *
cro_list_dup_bare_name (const CroListBook *of,
                        const char        *name,
                        gboolean           has_unit,
                        char             **word)
{
  g_autoptr (GString) bare = g_string_new (name);
  g_autofree char *said = NULL;

  *word = NULL;
  cut_begin (bare, has_unit, &said);
  while (bare->len > 0 && !cro_list_book_has_name (of, bare->str))
    if (!cut_end (bare, has_unit, &said))
      return NULL;
  if (bare->len == 0)
    return NULL;
  *word = g_steal_pointer (&said);
  return g_string_free (g_steal_pointer (&bare), FALSE);
}

/* --- What the price is for --------------------------------------------------------------------------------- */

gboolean
cro_list_is_net (const char *word)
{
  g_autofree char *folded = cro_fold (word);

  return cro_list_find_words (folded, "net") != NULL || cro_list_find_words (folded, "nett") != NULL;
}

gboolean
cro_list_is_of_pack (const CroListRow *row)
{
  gboolean ignored;

  return row->priced_as != NULL && cro_price_scan_pack (row->priced_as, &ignored) > 0;
}

gboolean
cro_list_is_part_of (const CroListRow *row,
                     const CroPack    *pack)
{
  gboolean is_whole;

  return row->priced_as != NULL && cro_price_scan_pack (row->priced_as, &is_whole) > 0 && !is_whole
         && pack->count != CRO_MICRO;
}
