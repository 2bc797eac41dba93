/* What headings of kitchens' and suppliers' sheets say, in English and in French. Words are common
 * practice, no source. */
#include "cro-brought.h"

#include "cro-fold.h"
#include "cro-price-heading.h"
#include "cro-price-saying.h"
#include "cro-price-token.h"
#include "cro-price-words.h"

#include <string.h>

/* Folded, with | between them. */
static const char *const words[CRO_N_ROLES] = {
  [CRO_ROLE_RECIPE] = "recipe|recipe name|dish|plate|preparation|component of|recette|plat|assiette|nom de la recette",
  [CRO_ROLE_NAME] = "ingredient|ingredient name|item|product|article|description|desc|name|goods|what|component|takes|"
                    "ingredients|descr|product name|item name|item description|article description|produit|"
                    "designation|libelle|denree|denrees|nom|composant|marchandise|intitule|description du produit|"
                    "nom du produit",
  [CRO_ROLE_AMOUNT] = "amount|quantity|qty|quantite|qte|poids|weight|net weight",
  [CRO_ROLE_UNIT] = "unit|units|uom|per|unite|u|unit of measure|unite de prix|price unit|each case|"
                    "case each|sell unit|selling unit|sales unit",
  [CRO_ROLE_PRICE] = "price|cost|unit price|price per unit|pack price|net price|price net|price per pack|"
                     "purchase price|new price|current price|this week|list price|gross price|case price|unit cost|"
                     "prix|"
                     "prix unitaire|prix ht|prix net|prix d achat|nouveau prix|tarif|pu|p u|cout",
  [CRO_ROLE_PACK] = "pack|packing|pack size|packaging|case|box|bag|container|measure|conditionnement|colis|colisage|"
                    "emballage|sac|cond|condt|condit|cdt|cdmt|emb|uv|u v",
  [CRO_ROLE_PACK_COUNT] = "pack count|count|per case|units per pack|pieces per pack|nombre|nb|nombre par colis|"
                          "number per pack|units per case|units case|units per box|pieces per case|pcs per case|"
                          "qty per case|unites par colis|nb par colis|pcb",
  [CRO_ROLE_PACK_SIZE] = "size|content|contents|unit size|contenance|poids unitaire|taille|format",
  [CRO_ROLE_SUPPLIER] = "supplier|seller|vendor|bought from|from|fournisseur|fourn",
  [CRO_ROLE_CODE] = "code|item code|sku|article number|product code|ref|reference|supplier code|no|number|numero|"
                    "code article|art no|art nr|art|article no|article code|item no|item number|product no|"
                    "product number|stock code|stock no|part no|cat no|catalogue no|no article|no art|n article|"
                    "num article|numero article|numero d article|ref article|reference article|code produit|"
                    "ref produit|reference produit",
  [CRO_ROLE_GTIN] = "gtin|ean|ean13|ean code|barcode|bar code|code ean|code barres|code barre|gencod",
  [CRO_ROLE_CURRENCY] = "currency|devise|ccy|cur|curr|monnaie",
  [CRO_ROLE_DATE] = "date|valid from|valid|price date|from date|effective|effective date|starts|a partir du|"
                    "valable du|date d effet|date du prix|date tarif|applicable au",
  [CRO_ROLE_TRIM_YIELD] = "yield|yield percent|trim yield|usable|usable percent|edible portion|ep|rendement|"
                          "rendement pct|net pct|yield pct",
  [CRO_ROLE_CATEGORY] = "category|group|family|section|type|categorie|famille|rayon|groupe",
  [CRO_ROLE_MAKES] = "makes|portions|covers|servings|bites|serves|number of portions|couverts|bouchees|parts|pour|"
                     "nombre de portions|nb portions",
  [CRO_ROLE_GIVES] = "gives|batch|batch size|output|finished weight|yields|total weight|donne|poids fini|production",
  [CRO_ROLE_COURSE] = "course|menu course|service|type de plat",
  [CRO_ROLE_SELLING_PRICE] = "selling price|menu price|sale price|sells at|prix de vente|pv|pv ttc|prix carte",
  [CRO_ROLE_NOTE] = "note|notes|comment|comments|remark|remarks|method|remarque|remarques|observation|observations|"
                    "methode|commentaire",
  [CRO_ROLE_ALLERGENS] = "allergens|allergen|allergenes|allergene",
};

static gboolean
is_among (const char *list,
          const char *word,
          gsize       length)
{
  for (const char *at = list; at != NULL; at = strchr (at, '|'))
    {
      at += *at == '|';
      if (strncmp (at, word, length) == 0 && (at[length] == '|' || at[length] == '\0'))
        return TRUE;
    }
  return FALSE;
}

static CroRole
find (const char *folded,
      gsize       length)
{
  for (int role = CRO_ROLE_NONE + 1; role < CRO_N_ROLES; role++)
    if (is_among (words[role], folded, length))
      return (CroRole) role;
  return CRO_ROLE_NONE;
}

/* "May contain", "Allergen-free": another thing than what an ingredient contains. */
static gboolean
is_of_others (const char *folded)
{
  static const char *const words_of_others[] = { "may", "trace", "free", "peut", "peuvent", "sans", "without" };

  for (gsize i = 0; i < G_N_ELEMENTS (words_of_others); i++)
    if (strstr (folded, words_of_others[i]) != NULL)
      return TRUE;
  return FALSE;
}

/* "£/kg", "EUR per litre ex VAT" */
static gboolean
is_money_per (const char *heading)
{
  CroPriceSaying saying = cro_price_saying_of (heading, NULL);
  gboolean ignored;

  return saying.per.is_said && saying.has_per_word && cro_currency_scan (heading, NULL, &ignored) > 0;
}

/* "Code TVA" is no article's. */
static gboolean
is_tax (const char *heading)
{
  return cro_price_heading_tax_column (heading) > CRO_TAX_COLUMN_GROSS;
}

CroRole
cro_role_of_whole_heading (const char *heading)
{
  g_autofree char *folded = cro_fold (heading);

  return *folded != '\0' ? find (folded, strlen (folded)) : CRO_ROLE_NONE;
}

/* "Price (EUR)", "Yield %", "Prix HT / kg": where the whole says nothing, its first words may. */
CroRole
cro_role_of_heading (const char *heading)
{
  g_autofree char *folded = cro_fold (heading);
  gsize length = strlen (folded);
  CroRole role = CRO_ROLE_NONE;

  if (length == 0 || length > 60)
    return CRO_ROLE_NONE;
  while (length > 0 && role == CRO_ROLE_NONE)
    {
      role = find (folded, length);
      while (length > 0 && folded[--length] != ' ')
        ;
    }
  /* "€ per kg" begins as the unit of a price. */
  if ((role == CRO_ROLE_NONE || role == CRO_ROLE_UNIT) && is_money_per (heading))
    return CRO_ROLE_PRICE;
  if ((role == CRO_ROLE_ALLERGENS && is_of_others (folded)) || is_tax (heading))
    return CRO_ROLE_NONE;
  /* "Bag price", "box cost", "cur. price" */
  if ((role == CRO_ROLE_PACK || role == CRO_ROLE_CURRENCY)
      && cro_price_has_word (folded, "|price|prices|cost|prix|tarif|"))
    role = CRO_ROLE_PRICE;
  /* What no longer holds is no price. */
  return role == CRO_ROLE_PRICE && cro_price_heading_is_past (heading) ? CRO_ROLE_NONE : role;
}

gboolean
cro_role_may_be_name (const char *heading)
{
  g_autofree char *folded = cro_fold (heading);

  return *folded != '\0'
         && is_among ("species|espece|especes|fish|poisson|poissons|vegetable|vegetables|legume|legumes|fruit|fruits|"
                      "cheese|fromage|denomination|appellation|commodity|commodities|variety|variete|particulars|prod|"
                      "produce", folded, strlen (folded));
}

gboolean
cro_role_is_number_beside (const char *heading,
                           const char *beside)
{
  g_autofree char *item = cro_fold (heading), *folded = cro_fold (beside);

  return is_among ("item|article|product|produit", item, strlen (item))
         && is_among ("desc|description|designation|libelle", folded, strlen (folded));
}
