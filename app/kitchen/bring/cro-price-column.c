#include "cro-price-column.h"

#include "cro-brought-pack.h"
#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-price-heading.h"
#include "cro-price-remark.h"
#include "cro-price-saying.h"
#include "cro-price-token.h"
#include "cro-price-words.h"

#include <math.h>
#include <string.h>

/* --- Headings, folded, with | around each word ------------------------------------------------------------------- */

/* Columns of what goods are, whose they are, how they are packed, ordered, kept and counted, and of papers. */
static const char other_words[]
    = "|brand|marque|maker|producer|producteur|manufacturer|fabricant|grower|farm|ferme|origin|origine|country|pays|"
      "region|provenance|area|zone|fao|vessel|bateau|method|methode|peche|catch|caught|gear|engin|grade|class|"
      "classe|quality|qualite|size|taille|calibre|cal|count|variety|variete|species|espece|latin|scientific|"
      "scientifique|breed|race|vintage|millesime|year|annee|abv|alc|alcohol|alcool|degre|degres|vol|fat|mg|protein|"
      "salt|sugar|energy|kcal|kj|brix|ph|moisture|humidity|drained|egoutte|gross|brut|weight|wt|poids|kilos|kg|length|"
      "longueur|width|largeur|height|hauteur|depth|dimensions|dim|dims|volume|contents|format|presentation|form|"
      "forme|state|packaging|emballage|pallet|pallets|palette|palettes|layer|layers|couche|couches|carton|cartons|"
      "colis|cases|boxes|pieces|pcs|units|unites|nb|nombre|number|qty|qte|quantity|quantite|minimum|min|mini|moq|"
      "maximum|max|multiple|multiples|increment|order|orders|ordered|commande|commandes|franco|lead|delai|delivery|"
      "livraison|route|tour|days|jours|day|jour|shelf|life|conservation|storage|stockage|temp|temperature|dlc|ddm|"
      "dluo|best|use|bbd|bbe|duree|lot|batch|trace|traceability|tracabilite|barcode|ean|ean13|gtin|gencod|plu|upc|"
      "code|codes|ref|reference|hs|intrastat|customs|douane|douanier|commodity|nomenclature|id|line|ligne|page|row|"
      "rang|pos|position|index|rank|sequence|seq|no|n|nr|num|numero|item|article|category|categorie|cat|group|"
      "groupe|family|famille|section|department|rayon|type|season|saison|organic|bio|label|labels|"
      "certification|certified|"
      "certificate|msc|asc|halal|kosher|vegan|allergen|allergens|allergene|allergenes|nutrition|image|images|photo|"
      "picture|url|link|lien|site|web|email|phone|tel|contact|buyer|rep|account|popularity|rating|score|sold|vendu|"
      "sales|ventes|harvest|recolte|packed|production|produced|fabrication|created|modified|modifie|updated|ordering|"
      "yield|rendement|deposit|deposits|consigne|consignes|margin|marge|markup|gp|coef|coefficient|supplier|"
      "fournisseur|description|designation|libelle|name|nom|inner|outer|pcb|spcb|uvc|bin|location|emplacement|level|"
      "niveau|matiere|grasse|taric|rev|revision|version|cut|cutoff|usage|consumption|unnamed|dept|dpt|tare|"
      "substitute|colour|couleur|";
/* How a price has moved. */
static const char moved_words[]
    = "|increase|change|hausse|variation|evolution|evol|var|variance|delta|mvt|mouvement|trend|tendance|movement|"
      "difference|diff|ecart|";
/* Prices of others. */
static const char others_words[]
    = "|rrp|retail|recommended|conseille|public|pvc|selling|resale|menu|vente|revente|average|moyenne|moyen|"
      "competitor|";
static const char price_words[]
    = "|price|prices|prix|tarif|tariff|tarifs|cost|costs|cout|quote|quoted|devis|pu|payer|payable|negocie|";
/* What may be said of a price, where no word of another thing stands beside it. */
static const char paid_words[]
    = "|rate|pay|net|nett|special|trade|contract|contrat|member|membre|wholesale|gros|your|votre|yours|you|customer|"
      "client|now|new|nouveau|current|actuel|today|this|next|";
static const char change_words[]
    = "|discount|discounts|disc|discounted|remise|remises|rem|rabais|rebate|ristourne|less|off|escompte|allowance|"
      "reduction|reductions|saving|savings|save|bonus|credit|deduction|avoir|";
static const char added_words[]
    = "|surcharge|surcharges|supplement|supplements|suppl|levy|levies|fee|fees|carriage|freight|duty|duties|droits|"
      "accise|accises|excise|ecotax|ecotaxe|handling|majoration|plus|offer|offre|offers|promo|promotion|promos|"
      "promotional|deal|";
static const char had_words[]
    = "|available|availability|avail|disponible|disponibles|disponibilite|dispo|stock|instock|";
static const char remark_words[]
    = "|note|notes|comment|comments|commentaire|commentaires|remark|remarks|remarque|remarques|observation|"
      "observations|obs|status|statut|etat|terms|conditions|info|information|infos|message|details|detail|";
static const char until_words[]
    = "|until|till|to|expires|expiry|expiration|expire|end|ends|fin|jusqu|jusque|echeance|au|through|";
static const char from_words[]
    = "|from|date|dates|valid|validity|validite|valable|effective|start|starts|starting|debut|partir|week|wk|semaine|"
      "sem|month|mois|since|depuis|day|du|";
/* Days of the goods themselves. */
static const char own_days[]
    = "|dlc|ddm|dluo|best|use|harvest|recolte|peche|catch|caught|packed|production|produced|fabrication|delivery|"
      "livraison|order|ordered|commande|created|creation|modified|modifie|updated|life|lead|shelf|days|jours|";
/* Before a word of a discount, which turn it round; and behind which the price has it. */
static const char turning_words[] = "|avant|hors|sans|before|excl|excluding|ex|exclusive|not|non|without|pre|";
static const char holding_words[]
    = "|after|apres|incl|including|included|inclus|incluse|compris|comprise|with|avec|net|nett|";

/* "Valid to", "Date de fin": of the goods' own days nothing holds of the price. */
static CroColumnKind
kind_of_days (const char *folded)
{
  if (cro_price_has_word (folded, own_days))
    return CRO_COLUMN_OTHER;
  return cro_price_has_word (folded, until_words) ? CRO_COLUMN_UNTIL : CRO_COLUMN_FROM;
}

/* What a heading of a role says wholly. */
static CroColumnKind
kind_of_role (CroRole     role,
              const char *folded)
{
  switch (role)
    {
    case CRO_ROLE_PRICE:
    case CRO_ROLE_BASE_PRICE:
      return CRO_COLUMN_PRICE;
    case CRO_ROLE_NOTE:
      return CRO_COLUMN_REMARKS;
    case CRO_ROLE_DATE:
      return kind_of_days (folded);
    default:
      return CRO_COLUMN_OTHER;
    }
}

CroColumnKind
cro_price_column_of_heading (const char *heading)
{
  g_autofree char *folded = cro_fold (heading);
  CroRole whole = cro_role_of_whole_heading (heading), role = cro_role_of_heading (heading);
  gboolean has_days = cro_price_has_word (folded, from_words) || cro_price_has_word (folded, until_words);
  CroUnit unit;

  /* "+/- %" */
  if (g_str_has_prefix (heading, "+/-") || g_str_has_prefix (heading, "±"))
    return CRO_COLUMN_OTHER;
  if (*folded == '\0')
    return cro_currency_find_sign (heading) != NULL                       ? CRO_COLUMN_PRICE
           : strchr (heading, '%') != NULL                                 ? CRO_COLUMN_CHANGE
           : strpbrk (heading, "#+") != NULL                               ? CRO_COLUMN_OTHER
                                                                           : CRO_COLUMN_REMARKS;
  /* "From" is a supplier, or a day. */
  if (whole != CRO_ROLE_NONE && !cro_price_has_word (folded, "|from|"))
    return kind_of_role (whole, folded);
  if (cro_price_has_word (folded, others_words) || cro_price_has_word (folded, moved_words))
    return CRO_COLUMN_OTHER;
  if (role == CRO_ROLE_PRICE)
    return CRO_COLUMN_PRICE;
  /* "+3 %" is one more price; "+10 % VAT" is tax. */
  if (cro_price_remark_adds_rate (heading))
    return CRO_COLUMN_ADDED;
  if (cro_price_heading_tax_column (heading) != CRO_TAX_COLUMN_NONE
      || cro_price_heading_tax (heading) == CRO_PRICE_WITH_TAX || cro_price_heading_leaves_tax_open (heading))
    return CRO_COLUMN_TAX;
  if (cro_price_has_word (folded, change_words) && !cro_price_has_word (folded, "|cut|"))
    return CRO_COLUMN_CHANGE;
  if (cro_price_has_word (folded, added_words))
    return CRO_COLUMN_ADDED;
  if (cro_price_heading_is_past (heading) || cro_price_saying_is_size (heading, &unit))
    return CRO_COLUMN_OTHER;
  if (cro_price_has_word (folded, price_words))
    return CRO_COLUMN_PRICE;
  if (cro_price_has_word (folded, had_words))
    return has_days ? kind_of_days (folded) : CRO_COLUMN_HAD;
  if (cro_price_has_word (folded, own_days) || cro_price_has_word (folded, other_words))
    return CRO_COLUMN_OTHER;
  if (cro_price_has_word (folded, remark_words))
    return CRO_COLUMN_REMARKS;
  if (has_days)
    return kind_of_days (folded);
  return cro_price_has_word (folded, paid_words) ? CRO_COLUMN_PRICE : CRO_COLUMN_UNKNOWN;
}

/* "Change", and not "Change %" or "Old price". */
static gboolean
is_movement (const char *heading)
{
  g_autofree char *folded = cro_fold (heading);

  return cro_price_has_word (folded, moved_words) && strchr (heading, '%') == NULL
         && !cro_price_heading_is_past (heading);
}

/* Prices of others, of before or per unit, how one has moved, and sizes. */
static gboolean
is_others (const char *heading)
{
  g_autofree char *folded = cro_fold (heading);
  CroUnit ignored;

  return cro_price_has_word (folded, others_words) || cro_price_has_word (folded, moved_words)
         || cro_price_heading_is_past (heading)
         || cro_price_saying_is_size (heading, &ignored) || cro_price_saying_of (heading, NULL).per.is_said
         || cro_role_of_heading (heading) == CRO_ROLE_SELLING_PRICE;
}

gboolean
cro_price_column_is_before (const char *heading)
{
  g_autofree char *folded = cro_fold (heading);

  return (cro_price_has_word (folded, change_words)
          || cro_price_has_word (folded, "|surcharge|surcharges|supplement|supplements|levy|"))
         && (cro_price_has_word (folded, turning_words) || !cro_price_has_word (folded, holding_words))
         && !cro_price_heading_is_net (heading) && strpbrk (heading, "0123456789") == NULL;
}

/* --- What stands below -------------------------------------------------------------------------------------------- */

static const char *
heading_of (const CroBrought *brought,
            guint             column)
{
  return cro_brought_get (brought, (guint) brought->headings, column)->text;
}

/* One word with a letter in it, "A1", "XY-12", and no sum. */
static gboolean
is_code (const char *text)
{
  gboolean has_letter = FALSE;
  CroUnit ignored;

  if (strpbrk (text, " %/") != NULL || cro_currency_find_sign (text) != NULL
      || cro_brought_unit (text + strspn (text, "0123456789.,"), &ignored))
    return FALSE;
  for (; *text != '\0'; text = g_utf8_next_char (text))
    has_letter |= g_unichar_isalpha (g_utf8_get_char (text));
  return has_letter;
}

/* Whether rows are counted there: 1, 2, 3. */
static gboolean
counts_rows (const CroBrought *brought,
             guint             column)
{
  gint64 last = 0;

  for (guint row = (guint) (brought->headings + 1); row < brought->rows->len; row++)
    {
      const CroReadCell *cell = cro_brought_get (brought, row, column);
      gint64 number;

      if (cell->kind == CRO_READ_CELL_EMPTY)
        continue;
      if (!cro_brought_number (brought, cell, column, &number, NULL) || number <= last || number % CRO_MICRO != 0)
        return FALSE;
      last = number;
    }
  return TRUE;
}

/* Whether any row that has a price has a number there which is not the same, nor none. */
static gboolean
has_other_numbers (const CroBrought *brought,
                   guint             price,
                   guint             column)
{
  const gboolean is_named = *heading_of (brought, column) != '\0', is_unit = brought->roles[column] == CRO_ROLE_UNIT;

  for (guint row = (guint) (brought->headings + 1); row < brought->rows->len; row++)
    {
      const CroReadCell *cell = cro_brought_get (brought, row, column), *own = cro_brought_get (brought, row, price);
      gint64 number, paid;

      if (strpbrk (cell->text, "123456789") == NULL || !cro_brought_money (brought, own, price, &paid, NULL))
        continue;
      /* Words with numbers say something of their row alone where nothing says what they are. */
      if (!cro_brought_money (brought, cell, column, &number, NULL))
        {
          if (is_named && !is_unit && !is_code (cell->text))
            return TRUE;
        }
      else if (number != paid && !(is_unit && number % CRO_MICRO == 0))
        return TRUE;
    }
  return FALSE;
}

/* "Total", "Montant HT"; "1.03" is none. */
static gboolean
is_sum (const char *heading)
{
  g_autofree char *folded = cro_fold (heading);

  return cro_price_has_word (folded, "|total|totals|totaux|amount|montant|")
         || (strspn (folded, "0123456789 ") != strlen (folded) && cro_price_heading_is_total (heading));
}

static gboolean
read_money (const CroBrought *brought,
            guint             row,
            guint             column,
            double           *number)
{
  gint64 micro;

  if (!cro_brought_money (brought, cro_brought_get (brought, row, column), column, &micro, NULL))
    return FALSE;
  *number = cro_decimal_to_double (micro);
  return TRUE;
}

/* As sums are rounded. */
static gboolean
is_same_sum (double a,
             double b)
{
  return fabs (a - b) < 0.0151;
}

/* Rates of tax are of at least 5 % but for few goods (Directive 2006/112/EC, article 98; from memory), of at most 27 %,
 * and written to half a per cent. */
#define LEAST_RATE 5
#define MOST_RATE 27

static gboolean
is_with_tax (double sum,
             double paid)
{
  const double pct = round (200 * (sum / paid - 1)) / 2;

  return pct >= LEAST_RATE && pct <= MOST_RATE && is_same_sum (sum, paid * (1 + pct / 100));
}

/* Whether a sum is so many times the price, or what an amount or a tax beside it makes of it. */
static gboolean
is_made_of_price (const CroBrought *brought,
                  guint             row,
                  guint             price,
                  guint             column,
                  const gboolean   *is_tax,
                  double            sum,
                  double            paid)
{
  if (paid <= 0 || (sum / paid >= 0.5 && is_same_sum (sum, round (sum / paid) * paid)) || is_with_tax (sum, paid))
    return TRUE;
  for (guint i = 0; i < brought->n_columns; i++)
    {
      double beside;

      if (i == price || i == column || !read_money (brought, row, i, &beside))
        continue;
      if (is_tax[i]
              ? is_same_sum (sum, paid * (1 + beside / 100)) || is_same_sum (sum, paid * (1 + beside))
                    || is_same_sum (sum, paid + beside)
              : is_same_sum (sum, paid * beside))
        return TRUE;
    }
  return FALSE;
}

/* Whether a sum in any row is none of the price. */
static gboolean
is_another_sum (const CroBrought *brought,
                guint             price,
                guint             column)
{
  g_autofree gboolean *is_tax = g_new (gboolean, brought->n_columns);

  for (guint i = 0; i < brought->n_columns; i++)
    is_tax[i] = cro_price_column_of_heading (heading_of (brought, i)) == CRO_COLUMN_TAX;
  for (guint row = (guint) (brought->headings + 1); row < brought->rows->len; row++)
    {
      double sum, paid;

      if (read_money (brought, row, column, &sum) && read_money (brought, row, price, &paid) && sum > 0
          && !is_made_of_price (brought, row, price, column, is_tax, sum, paid))
        return TRUE;
    }
  return FALSE;
}

/* The farthest that one price of a thing is from another of it; common practice, no source. */
#define LEAST_OF_PRICE 0.6
#define MOST_OF_PRICE 1.5

/* Whether what stands under a heading of something else looks like another price in all rows, with cents in one of
 * them. */
static gboolean
looks_like_prices (const CroBrought *brought,
                   guint             price,
                   guint             column)
{
  gboolean has_cents = FALSE;

  for (guint row = (guint) (brought->headings + 1); row < brought->rows->len; row++)
    {
      gint64 number, paid;

      if (!cro_brought_money (brought, cro_brought_get (brought, row, price), price, &paid, NULL) || paid == 0)
        continue;
      if (!cro_brought_money (brought, cro_brought_get (brought, row, column), column, &number, NULL)
          || (double) number < LEAST_OF_PRICE * (double) paid || (double) number > MOST_OF_PRICE * (double) paid
          || number == paid)
        return FALSE;
      has_cents |= number % CRO_MICRO != 0;
    }
  return has_cents;
}

/* Whether a heading of prices has no word but those of prices: "Price trade" has. */
static gboolean
is_known_price (const char *heading)
{
  g_autoptr (GArray) tokens = cro_price_tokens_of (heading);

  for (guint i = 0; i < tokens->len; i++)
    if (g_array_index (tokens, CroPriceToken, i).kind == CRO_PRICE_TOKEN_WORD
        && !cro_price_heading_is_word (g_array_index (tokens, CroPriceToken, i).word))
      return FALSE;
  return TRUE;
}

/* "Net price" is after a discount beside it; "net price excl. VAT" is, where another price stands there. */
static gboolean
is_after_discount (const CroBrought *brought,
                   guint             price)
{
  const char *heading = heading_of (brought, price);

  if (!cro_price_heading_is_net (heading))
    return FALSE;
  if (cro_price_heading_tax (heading) == CRO_PRICE_TAX_UNSAID)
    return TRUE;
  for (guint i = 0; i < brought->n_columns; i++)
    if (i != price && cro_role_of_heading (heading_of (brought, i)) == CRO_ROLE_PRICE)
      return TRUE;
  return FALSE;
}

gboolean
cro_price_column_is_rival (const CroBrought *brought,
                           guint             price,
                           guint             column)
{
  const char *heading = heading_of (brought, column), *paid = heading_of (brought, price);
  const CroColumnKind kind = cro_price_column_of_heading (heading);

  switch (kind)
    {
    case CRO_COLUMN_PRICE:
      if (cro_role_of_heading (heading) == CRO_ROLE_PRICE && cro_price_heading_compare (paid, heading) > 0
          && is_known_price (paid) && is_known_price (heading))
        return FALSE;
      break;
    case CRO_COLUMN_CHANGE:
      if (is_after_discount (brought, price))
        return FALSE;
      break;
    case CRO_COLUMN_REMARKS:
      if (*heading != '\0' || counts_rows (brought, column))
        return FALSE;
      break;
    case CRO_COLUMN_OTHER:
      if (is_movement (heading))
        return looks_like_prices (brought, price, column);
      if (is_others (heading))
        return FALSE;
      /* "12.60" under "Unit" is none. */
      if (brought->roles[column] != CRO_ROLE_UNIT)
        return looks_like_prices (brought, price, column);
      break;
    case CRO_COLUMN_UNKNOWN:
      if (is_sum (heading))
        return is_another_sum (brought, price, column);
      break;
    case CRO_COLUMN_ADDED:
      break;
    case CRO_COLUMN_TAX:
    case CRO_COLUMN_HAD:
    case CRO_COLUMN_FROM:
    case CRO_COLUMN_UNTIL:
      return FALSE;
    }
  return has_other_numbers (brought, price, column);
}
