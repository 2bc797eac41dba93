/* Amounts, prices and units of a supplier's table that are read as no pack of a price: they are held against it, or
 * against that of the book. */
#include "cro-price-list-table.h"

#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-price-heading.h"
#include "cro-price-saying.h"
#include "cro-price-token.h"
#include "cro-price-words.h"
#include "cro-word-list.h"

/* Folded, with | around each; common practice, no source. Numbers below these are sizes, of the pack or of what is in
 * it. */
static const char measure_words[]
    = "|weight|weights|wt|poids|size|taille|content|contents|contenance|contenu|format|capacity|capacite|";
/* Below these alone they are how many packages one holds, or its size. */
static const char package_words[]
    = "|inner|inners|outer|outers|carton|cartons|";
/* With these they are how many of the goods it holds. */
static const char in_package_words[]
    = "|case|cases|box|boxes|pack|packs|colis|carton|cartons|outer|inner|";
static const char unit_words[]
    = "|qty|qte|quantity|quantite|unit|units|unite|unites|nb|nbre|nombre|number|count|";
/* With these a size is about that of the pack. */
static const char about_words[]
    = "|approx|approximate|about|environ|env|avg|average|moyen|moyenne|";
/* With these they are of papers, of what is ordered or of how goods are stacked. */
static const char never_words[]
    = "|order|orders|ordered|commande|commandes|sold|vendu|sales|ventes|stock|pallet|pallets|palette|palettes|layer|"
      "layers|couche|couches|range|fourchette|tare|ean|gtin|barcode|code|ref|reference|shipping|transport|pieces|"
      "piece|pcs|pc|pce|no|price|prix|cost|gross|brut|";

typedef enum
{
  CHECK_SIZES = 1 << 0,
  CHECK_PACKAGES = 1 << 1,
  CHECK_UNITS = 1 << 2,
  CHECK_PRICES = 1 << 3,       /* of one kg, l or piece */
  CHECK_UNIT_PRICES = 1 << 4,  /* of one in a pack, or of one kg */
  CHECK_SUMS = 1 << 5,         /* of a pack, beside a price that may be for a unit */
} Check;

static const char *
heading_of (CroListTable *self,
            guint         column)
{
  return cro_brought_get (self->brought, (guint) self->brought->headings, column)->text;
}

/* --- Columns ------------------------------------------------------------------------------------------------------ */

static const char each_words[] = "|each|ea|piece|pce|";

static gboolean
is_of_one (const char *heading)
{
  g_autofree char *folded = cro_fold (heading);
  const CroPriceSaying saying = cro_price_saying_of (heading, NULL);

  return !saying.has_pack && (!saying.per.is_said || saying.per.unit == CRO_UNIT_EACH)
         && (cro_price_has_word (folded, "|unit|unitaire|unite|pu|puht|puttc|u|")
             || cro_price_has_word (folded, each_words));
}

/* "Price per bottle": of one in a case of several. */
static gboolean
is_of_inner (const char *heading)
{
  g_autofree char *folded = cro_fold (heading);

  return cro_price_has_word (folded, "|bottle|bottles|btl|btls|btle|bt|bouteille|bouteilles|tin|tins|jar|jars|can|"
                                     "cans|pot|pots|tub|tubs|tray|trays|bocal|boite|barquette|sachet|punnet|packet|"
                                     "paquet|");
}

gboolean
cro_list_table_is_of_money (CroListTable *self,
                            guint         column)
{
  const char *heading = heading_of (self, column);
  g_autofree char *folded = cro_fold (heading), *currency = cro_price_heading_dup_currency (heading);

  return currency != NULL || cro_price_heading_tax (heading) != CRO_PRICE_TAX_UNSAID
         || cro_price_has_word (folded, "|montant|montants|amount|amounts|total|totals|totaux|value|valeur|");
}

static guint
checks_of (CroListTable *self,
           guint         column)
{
  const char *heading = heading_of (self, column);
  g_autofree char *folded = cro_fold (heading);
  const gboolean is_price = cro_role_of_heading (heading) == CRO_ROLE_PRICE;
  const CroRole role = self->brought->roles[column];

  if (role == cro_brought_price_role (self->brought) || self->kinds[column] == CRO_COLUMN_TAX)
    return 0;
  if (is_price && is_of_one (heading) && !cro_price_has_word (folded, each_words))
    return CHECK_UNIT_PRICES;
  if ((is_price || cro_word_list_scan (folded, "per|au|le|the") > 0) && cro_price_saying_of (heading, NULL).per.is_said
      && !cro_price_has_word (folded, "|avg|average|moyen|moyenne|min|max|"))
    return CHECK_PRICES;
  if (!is_price && cro_list_table_is_of_money (self, column))
    return cro_price_has_word (folded, in_package_words) && self->kinds[column] == CRO_COLUMN_OTHER ? CHECK_SUMS : 0;
  if (is_price || cro_price_has_word (folded, never_words)
      || (role != CRO_ROLE_NONE && role != CRO_ROLE_AMOUNT && role != CRO_ROLE_PACK_SIZE
          && role != CRO_ROLE_PACK_COUNT && role != CRO_ROLE_UNIT))
    return 0;
  if (cro_price_has_word (folded, measure_words)
      || (self->size_units[column] >= 0 && cro_price_has_word (folded, "|vol|")))
    return CHECK_SIZES;
  if (role == CRO_ROLE_UNIT)
    return 0;
  if (cro_price_has_word (folded, unit_words))
    return cro_price_has_word (folded, in_package_words) ? CHECK_UNITS : 0;
  return cro_price_has_word (folded, package_words) ? CHECK_PACKAGES : 0;
}

void
cro_list_table_find_checks (CroListTable *self)
{
  const CroBrought *brought = self->brought;
  const char *prices = brought->headings < 0 ? "" : cro_brought_get_role (brought, (guint) brought->headings,
                                                                          cro_brought_price_role (brought), NULL)->text;

  for (guint i = 0; brought->headings >= 0 && i < brought->n_columns; i++)
    self->checks[i] = (guint8) checks_of (self, i);
  self->inner_heading = is_of_inner (prices) ? cro_price_list_keep (self->list, prices) : NULL;
  self->unit_heading = is_of_one (prices) ? cro_price_list_keep (self->list, prices) : NULL;
}

/* --- Amounts ------------------------------------------------------------------------------------------------------ */

static double
base_amount (const CroUnitInfo *unit)
{
  return (double) unit->numerator / unit->denominator;
}

gboolean
cro_list_table_is_pack_of (const CroPack *pack,
                           gint64         size,
                           const CroUnit *unit,
                           gint64         n)
{
  const CroBase base = cro_unit_get (pack->unit)->base;

  if (unit != NULL)
    return cro_unit_get (*unit)->base == base && cro_list_is_size_of (pack, size, unit, n, n != 0);
  for (gsize i = 0; i < CRO_LIST_N_EVERYDAY; i++)
    if (cro_unit_get (cro_list_everyday[i])->base == base
        && cro_list_is_size_of (pack, size, &cro_list_everyday[i], n, n != 0))
      return TRUE;
  return cro_list_is_size_of (pack, size, NULL, n, n != 0);
}

/* What one of several in a package weighs is at most a quarter of it, and what is left of one that is drained may be
 * half; common practice, no source. */
#define MOST_OF_PIECE 0.25
#define MOST_OF_DRAINED 0.5

static double
most_of_part (const char *folded)
{
  if (cro_price_has_word (folded, "|drained|egoutte|"))
    return MOST_OF_DRAINED;
  return cro_price_has_word (folded, "|avg|average|moyen|moyenne|min|mini|minimum|max|maxi|maximum|portion|each|")
             ? MOST_OF_PIECE : 0;
}

static gboolean
fits_size (const CroPack *pack,
           gint64         number,
           const CroUnit *unit,
           const char    *folded)
{
  const CroUnit in = unit != NULL ? *unit : pack->unit;
  const double one = cro_decimal_to_double (pack->size) * base_amount (cro_unit_get (pack->unit)),
               said = cro_decimal_to_double (number) * base_amount (cro_unit_get (in));

  if (cro_unit_get (in)->base != cro_unit_get (pack->unit)->base || cro_list_table_is_pack_of (pack, number, unit, 0))
    return TRUE;
  return (unit != NULL && said <= most_of_part (folded) * one)
         || (cro_price_has_word (folded, about_words) && cro_list_is_about (pack, number, in));
}

static gboolean
fits (CroListTable  *self,
      guint          column,
      gint64         number,
      const CroPack *pack,
      const CroUnit *unit)
{
  const guint checks = self->checks[column];
  g_autofree char *folded = cro_fold (heading_of (self, column));

  if (cro_unit_get (pack->unit)->base == CRO_BASE_EACH || number <= 0
      || (number == CRO_MICRO && (checks & CHECK_SIZES) == 0))
    return TRUE;
  if ((checks & CHECK_UNITS) != 0)
    return pack->count == CRO_MICRO || number == pack->count;
  return fits_size (pack, number, unit, folded);
}

static void
check_amount (CroListTable *self,
              guint         index,
              guint         column,
              CroListRow   *row)
{
  const CroReadCell *cell = cro_brought_get (self->brought, index, column);
  const int named = self->brought->units[column] >= 0 ? self->brought->units[column] : self->size_units[column];
  CroUnit unit = (CroUnit) MAX (named, 0);
  const gboolean has_unit = (cell->around != NULL && cro_brought_unit (cell->around, &unit)) || named >= 0;
  const char *rest = "";
  gint64 number;
  CroPack own;

  if (cell->kind == CRO_READ_CELL_DATE || cell->kind == CRO_READ_CELL_PERCENT
      || !cro_brought_number (self->brought, cell, column, &number, &rest) || *rest != '\0'
      || !cro_list_book_one_pack (self->of, row, &own)
      || fits (self, column, number, &own, has_unit ? &unit : NULL))
    return;
  cro_list_row_say (self->list, row, CRO_LIST_SAID_CHANGE,
                    cro_price_list_keep (self->list, heading_of (self, column)), NULL);
}

/* --- Each pack ---------------------------------------------------------------------------------------------------- */

gboolean
cro_list_table_has_measured_pack (CroListTable     *self,
                                  const CroListRow *row)
{
  CroPack pack = row->pack;

  return (pack.size > 0 || cro_list_book_one_pack (self->of, row, &pack))
         && cro_unit_get (pack.unit)->base != CRO_BASE_EACH;
}

gboolean
cro_list_table_is_each_pack (CroListTable *self,
                             guint         index,
                             CroListRow   *row)
{
  const char *text = cro_brought_get_role (self->brought, index, CRO_ROLE_UNIT, NULL)->text;
  const CroListRow book = { .code = row->code, .name = row->name };

  if (cro_word_list_scan (text, "cs") > 0)
    return TRUE;
  if (row->per != CRO_UNIT_EACH || !cro_list_table_has_measured_pack (self, &book))
    return FALSE;
  row->unit_heading = cro_price_list_keep (self->list, text);
  row->is_each = TRUE;
  return TRUE;
}

/* --- Prices ------------------------------------------------------------------------------------------------------- */

/* How far a price per kg may be from that of the pack: as it is rounded; and where one of them may have tax or a
 * discount in it. Common practice, no source. */
#define MOST_ROUNDED 1.02
#define MOST_APART 1.3

/* Whether "Price/kg" beside a price may have something else in it than that has. */
static gboolean
is_of_other_terms (CroListTable *self,
                   const char   *heading)
{
  static const char terms[] = "|list|gross|brut|base|catalogue|public|remise|discount|discounts|net|nett|";
  const char *paid = cro_brought_get_role (self->brought, (guint) self->brought->headings,
                                           cro_brought_price_role (self->brought), NULL)->text;
  g_autofree char *folded = cro_fold (heading), *own = cro_fold (paid);

  return cro_price_heading_tax (heading) != cro_price_heading_tax (paid) || cro_price_has_word (folded, terms)
         || cro_price_has_word (own, terms);
}

/* Whether a price of one is that of so many, but for as it is rounded. */
static gboolean
is_price_of (double one,
             double n,
             double paid,
             double most)
{
  const double whole = one * n, cent = 0.01 * n;

  return whole <= most * paid + cent && paid <= most * whole + cent;
}

/* What a heading of prices says that they are for; of "Price per kg/l" that which measures what is weighed or
 * poured. */
static CroPricePer
per_of (const char *heading,
        CroBase     base)
{
  CroPricePer per = cro_price_saying_of (heading, NULL).per;
  g_autoptr (GArray) tokens = cro_price_tokens_of (heading);

  for (guint i = 0; base != CRO_BASE_EACH && i < tokens->len && cro_unit_get (per.unit)->base != base; i++)
    {
      const CroPriceToken *token = &g_array_index (tokens, CroPriceToken, i);

      if (token->kind == CRO_PRICE_TOKEN_UNIT && cro_unit_get (token->unit)->base == base)
        per = (CroPricePer){ TRUE, token->unit, CRO_MICRO };
    }
  return per;
}

/* What a litre of food weighs at least and at most, in kg: from oils and flours to syrups and honey; common practice,
 * no source. */
#define LEAST_DENSITY 0.7
#define MOST_DENSITY 1.5

/* Whether a price per kg may be that of goods that are poured, or one per l of goods that are weighed. */
static gboolean
may_be_price_of (CroBase base,
                 double  whole,
                 double  paid,
                 double  most)
{
  const double least = base == CRO_BASE_MILLILITRE ? LEAST_DENSITY : 1 / MOST_DENSITY,
               largest = base == CRO_BASE_MILLILITRE ? MOST_DENSITY : 1 / LEAST_DENSITY;

  return paid * most >= whole * least && paid <= whole * largest * most;
}

/* Whether a price of one fits: of a kg or an l, of one in the pack, or the whole of it. */
static gboolean
fits_price (CroListTable   *self,
            guint           column,
            const CroPack  *pack,
            double          one,
            double          paid)
{
  const char *heading = heading_of (self, column);
  const CroUnitInfo *own = cro_unit_get (pack->unit);
  const double most = is_of_other_terms (self, heading) ? MOST_APART : MOST_ROUNDED,
               count = cro_decimal_to_double (pack->count), size = cro_decimal_to_double (pack->size),
               all = count * size * base_amount (own);
  const CroPricePer per = per_of (heading, own->base);
  const gboolean is_per = (self->checks[column] & CHECK_PRICES) != 0;
  const double n = all / base_amount (cro_unit_get (per.unit)) * cro_decimal_to_double (per.times);

  if (is_per && cro_unit_get (per.unit)->base == own->base)
    return is_price_of (one, n, paid, most);
  if (is_per && per.unit != CRO_UNIT_EACH && own->base != CRO_BASE_EACH)
    return may_be_price_of (own->base, one * n, paid, most);
  if (is_per && (per.unit != CRO_UNIT_EACH || pack->count <= CRO_MICRO))
    return TRUE;
  for (gsize i = 0; i < CRO_LIST_N_EVERYDAY; i++)
    if (cro_unit_get (cro_list_everyday[i])->base == own->base
        && is_price_of (one, all / base_amount (cro_unit_get (cro_list_everyday[i])), paid, most))
      return TRUE;
  return is_price_of (one, 1, paid, most) || is_price_of (one, count, paid, most)
         || (own->base == CRO_BASE_EACH && is_price_of (one, count * size, paid, most));
}

/* Whether money for a pack is the price, or what a price for one unit makes of it. */
static gboolean
fits_sum (CroListTable     *self,
          guint             column,
          const CroListRow *row,
          const CroPack    *pack,
          double            sum)
{
  const CroUnitInfo *own = cro_unit_get (pack->unit), *per = cro_unit_get (row->per);
  const double paid = cro_decimal_to_double (row->price),
               most = is_of_other_terms (self, heading_of (self, column)) ? MOST_APART : MOST_ROUNDED,
               n = cro_decimal_to_double (pack->count) * cro_decimal_to_double (pack->size) * base_amount (own)
                   / base_amount (per);

  return is_price_of (sum, 1, paid, most) || (row->may_be_per && per->base == own->base
                                              && is_price_of (paid, n, sum, most));
}

/* 9.00 under "Price/kg" beside 21.50 for 5 kg: one of the three is wrong. */
static void
check_price_of_one (CroListTable *self,
                    guint         index,
                    guint         column,
                    CroListRow   *row)
{
  const CroReadCell *cell = cro_brought_get (self->brought, index, column);
  CroPack own = row->pack;
  gint64 number;

  /* Where the row has no pack it is that of the book, but for a price that may be for the unit beside it. */
  if (row->price <= 0
      || (own.size <= 0
          && (self->of->quotes_base || row->may_be_per || !cro_list_book_one_pack (self->of, row, &own)))
      || !cro_brought_money (self->brought, cell, column, &number, NULL) || number <= 0)
    return;
  if ((self->checks[column] & CHECK_SUMS) != 0
          ? !fits_sum (self, column, row, &own, cro_decimal_to_double (number))
          : !fits_price (self, column, &own, cro_decimal_to_double (number), cro_decimal_to_double (row->price)))
    cro_list_row_say (self->list, row, CRO_LIST_BESIDE, cell->text, NULL);
}

void
cro_list_table_check_pack (CroListTable *self,
                           guint         index,
                           gboolean      has_size,
                           CroListRow   *row)
{
  CroPack own = row->pack;

  if (self->inner_heading != NULL && (own.size > 0 || cro_list_book_one_pack (self->of, row, &own))
      && own.count > CRO_MICRO)
    cro_list_row_say (self->list, row, CRO_LIST_SAID_CHANGE, self->inner_heading, NULL);
  for (guint i = 0; self->brought->headings >= 0 && i < self->brought->n_columns; i++)
    if ((self->checks[i] & (CHECK_PRICES | CHECK_UNIT_PRICES | CHECK_SUMS)) != 0)
      check_price_of_one (self, index, i, row);
    else if (self->checks[i] != 0 && !has_size && row->pack.size == 0 && !self->of->quotes_base && !row->may_be_per)
      check_amount (self, index, i, row);
}
