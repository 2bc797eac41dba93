#include "cro-remark-words.h"

#include <string.h>

#include "cro-expression.h"
#include "cro-price-words.h"
#include "cro-written.h"

/* --- Clauses -------------------------------------------------------------------------------------- */

/* Past a word and the space behind it, where there is one. */
static const char *
skip (const char *text,
      gsize       bytes)
{
  return text + bytes + cro_expression_space (text + bytes);
}

/* Whether some words are all that a clause says. */
static gboolean
is_all (const char        *clause,
        const char *const *words)
{
  for (; *words != NULL; words++)
    {
      gsize bytes = cro_expression_starts (clause, *words);

      if (bytes > 0 && *skip (clause, bytes) == '\0')
        return TRUE;
    }
  return FALSE;
}

/* --- Prices --------------------------------------------------------------------------------------- */

static const char *const taxes[] = { "vat", "tva", "gst", "tax", "taxe", "taxes", "mwst", NULL };

/* What is in a price, but of "stalks included". */
static const char *const inclusive[] = { "incl.", "incl", "inc.", "inc", "inclusive", "included", "all in", "all-in",
                                           "all inclusive", "compris", "tout compris", "inclus", "tout inclus", NULL };

static const char *const gross[] = { "gross price", "gross prices", "price gross", "prices gross", "net price",
                                     "net prices", "prix brut", "prix bruts", "prix net", "prix nets", NULL };

static const char *const bargains[] = { "price of", "pour le prix", "buy one", "un acheté", "une achetée", "discount",
                                        "rebate", "remise", "rabais", "ristourne", "escompte", "list price", "rrp",
                                        "prix public", "prix catalogue", NULL };

static const char *const measures[] = { "g", "kg", "ml", "cl", "dl", "l", "oz", "lb", "lbs", "kilo", "gram", "gramme",
                                        "litre", "liter", "pound", "livre", "ounce", "dozen", "douzaine", NULL };

/* Bytes of a count, in figures or as a word. */
static gsize
scan_count (const char *text)
{
  static const char *const words[] = { "one", "two", "three", "four", "five", "six", "un", "une", "deux", "trois",
                                       "quatre", "cinq", NULL };
  gsize digits = strspn (text, "0123456789");

  return digits > 0 ? digits : cro_written_scan_any (text, words);
}

/* "two for one", "3 pour 2". */
static gboolean
is_bargain (const char *clause)
{
  static const char *const joins[] = { "for", "pour", NULL };
  gsize count = scan_count (clause), join;
  const char *behind = skip (clause, count);

  join = count > 0 ? cro_written_scan_any (behind, joins) : 0;
  if (join == 0)
    return FALSE;
  behind = skip (behind, join);
  count = scan_count (behind);
  return count > 0 && *skip (behind, count) == '\0';
}

/* "per lb", "the kilo", "per case": a price was of something else. */
static gboolean
is_per (const char *clause)
{
  static const char *const strict[] = { "per", "par", "/", NULL };
  static const char *const packs[] = { "piece", "pièce", "pc", "unit", "unité", "each", NULL };
  gsize per = cro_price_scan_per (clause), bytes;
  const char *behind = skip (clause, per);
  gboolean is_whole;

  if (per == 0 || is_all (behind, measures))
    return per > 0;
  if (cro_written_scan_any (clause, strict) == 0)
    return FALSE;
  bytes = cro_price_scan_pack (behind, &is_whole);
  return is_all (behind, packs) || (bytes > 0 && *skip (behind, bytes) == '\0');
}

/* --- Yields --------------------------------------------------------------------------------------- */

static const char *const losses[] = { "loses", "lose", "losing", "loss", "losses", "perd", "perdent", "perte", "pertes",
                                      "shrinks", "shrink", "shrinkage", "waste", "wastage", "yield", "yields",
                                      "rendement", "rdt", "freinte", "déchet", "déchets", "dechet", "dechets", NULL };

static const char *const trims[] = { "trimmed", "cleaned", "paré", "parée", "parés", "parées", "pare", "brut", "brute",
                                     "bruts", "brutes", NULL };

static const char *const denials[] = { "not", "non", "pas", "never", "no", "jamais", NULL };

gsize
cro_remark_scan_turn (const char *text)
{
  static const char *const prices[] = { "price", "prices", "prix", "tarif", NULL };
  gsize bytes = cro_written_scan_any (text, denials);

  return bytes > 0 ? bytes : cro_written_scan_any (text, prices);
}

gboolean
cro_remark_denies_trim (const char *text)
{
  gsize bytes = cro_written_scan_any (text, denials);

  return bytes > 0 && cro_written_scan_any (skip (text, bytes), trims) > 0;
}

/* More than stands there. */
static const char *const more[] = { "allow for", "allow extra", "allow more", "buy more", "buy extra", "order more",
                                    "order extra", "prévoir plus", "acheter plus", "commander plus", "compter plus",
                                    NULL };

/* It is weighed in another state than a line can say. */
static const char *const states[] = {
  "weighed", "pesé", "pesée", "pesés", "pesées", "cooked weight", "raw weight", "drained weight", "boned weight",
  "shelled weight", "peeled weight", "picked weight", "whole weight", "dressed weight", "poids cuit", "poids cru",
  "poids égoutté", "poids net égoutté", "poids épluché", "poids désossé", "poids entier", NULL
};

/* All that is said; within more it may be a time: "salted before boning". */
static const char *const times_of_weight[] = {
  "before trimming", "before boning", "before peeling", "before cleaning", "before shelling", "after trimming",
  "after boning", "after peeling", "after cleaning", "after shelling", "avant parage", "avant épluchage",
  "avant désossage", "après parage", "après épluchage", "après désossage", NULL
};

/* "double it", "twice as much", "le double avec": of what is to be bought, but not "double podded", "passed twice". */
static gboolean
multiplies (const char *text)
{
  static const char *const doubles[] = { "double", "triple", "treble", NULL };
  static const char *const times[] = { "twice", "deux fois", "trois fois", NULL };
  static const char *const articles[] = { "le double", "le triple", "the double", NULL };
  static const char *const of[] = { "it", "that", "this", "the", "for", "before", "as", "if", "when", "quantity",
                                    "weight", "avant", "pour", "si", "avec", NULL };
  static const char *const as[] = { "as", "that", "the weight", "the amount", "the quantity", "plus", "le poids",
                                    "la quantité", NULL };
  gsize bytes = cro_written_scan_any (text, doubles);

  if (cro_written_scan_any (text, articles) > 0)
    return TRUE;
  if (bytes > 0)
    return *skip (text, bytes) == '\0' || cro_written_scan_any (skip (text, bytes), of) > 0;
  bytes = cro_written_scan_any (text, times);
  return bytes > 0 && cro_written_scan_any (skip (text, bytes), as) > 0;
}

typedef enum
{
  OF_LOSS = 1 << 0,
  OF_TIMES = 1 << 1,  /* more than stands there, or what is denied */
} OfYield;

/* "no waste" is none. */
static guint
find_yield (const char *clause)
{
  static const char *const none[] = { "no", "without", "zero", "nil", "sans", "aucun", "aucune", "zéro", NULL };
  gboolean is_none = FALSE;
  gunichar before = ' ';
  guint found = 0;

  for (const char *text = clause; *text != '\0'; text = g_utf8_next_char (text))
    {
      gunichar c = g_utf8_get_char (text);

      if (!g_unichar_isalnum (before) && g_unichar_isalnum (c))
        {
          found |= !is_none && cro_written_scan_any (text, losses) > 0 ? OF_LOSS : 0;
          found |= multiplies (text) || cro_remark_denies_trim (text) ? OF_TIMES : 0;
          is_none = cro_written_scan_any (text, none) > 0;
        }
      before = c;
    }
  return found;
}

/* --- Remarks -------------------------------------------------------------------------------------- */

static CroRemark
read_price (const char *clause,
            gboolean    is_without_tax)
{
  if (!is_without_tax && (cro_written_has_any (clause, taxes) || cro_written_has_any (clause, gross)))
    return CRO_REMARK_TAX;
  return is_bargain (clause) || is_per (clause) || cro_written_has_any (clause, bargains) ? CRO_REMARK_DISCOUNT
                                                                                          : CRO_REMARK_PLAIN;
}

CroRemark
cro_remark_find_price (const char *name,
                       gsize      *start)
{
  gunichar before = ' ', last = 0;
  gsize bytes;

  for (const char *text = name; *text != '\0'; text += bytes)
    {
      CroTax tax = CRO_TAX_NOT_SAID;
      gboolean is_word = !g_unichar_isalnum (before);
      gboolean is_of_tax = is_word
                           && (cro_written_scan_any (text, taxes) > 0 || cro_written_scan_any (text, gross) > 0);

      *start = (gsize) (text - name);
      bytes = is_word ? cro_price_scan_tax (text, &tax, NULL) : 0;
      if (tax == CRO_TAX_WITH || (tax == CRO_TAX_NOT_SAID && is_of_tax))
        return CRO_REMARK_TAX;
      /* Behind a number it is a price itself, understood or not. */
      if (is_word && g_unichar_isalpha (last)
          && (is_bargain (text) || is_per (text) || cro_written_scan_any (text, bargains) > 0))
        return CRO_REMARK_DISCOUNT;
      bytes = bytes > 0 ? bytes : (gsize) (g_utf8_next_char (text) - text);
      before = g_utf8_get_char (g_utf8_prev_char (text + bytes));
      last = g_unichar_isspace (before) ? last : before;
    }
  return CRO_REMARK_PLAIN;
}

static CroRemark
read_clause (const char *clause,
             gboolean    is_without_tax)
{
  CroRemark of_price = read_price (clause, is_without_tax);
  guint of_yield = find_yield (clause);

  if (of_price != CRO_REMARK_PLAIN)
    return of_price;
  if (!is_without_tax && is_all (clause, inclusive))
    return CRO_REMARK_TAX;
  if ((of_yield & OF_LOSS) != 0)
    return CRO_REMARK_LOSS;
  return (of_yield & OF_TIMES) != 0 || cro_written_has_any (clause, more) || cro_written_has_any (clause, states)
                 || is_all (clause, times_of_weight)
             ? CRO_REMARK_NUMBER
             : CRO_REMARK_PLAIN;
}

CroRemark
cro_remark_read_words (const char *text,
                       gboolean    is_without_tax)
{
  CroRemark said = CRO_REMARK_PLAIN;

  for (gsize bytes = cro_written_scan_clause (text);; text += bytes + 1, bytes = cro_written_scan_clause (text))
    {
      g_autofree char *clause = g_strstrip (g_strndup (text, bytes));

      said = read_clause (clause, is_without_tax);
      if (said != CRO_REMARK_PLAIN || text[bytes] == '\0')
        return said;
    }
}
