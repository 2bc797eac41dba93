/* Packs, sizes and counts beside a price of a supplier's table that are not read as its pack: whatever heads them, they
 * are compared with that. */
#include "cro-price-list-table.h"

#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-number.h"
#include "cro-price-token.h"
#include "cro-said-pack.h"
#include "cro-word-list.h"

#include <math.h>
#include <string.h>

/* "Box of 12", "about 6 kg" under the heading of packs: its one number. FALSE: it has none, or several. */
static gboolean
read_size_in_words (const char *text,
                    CroListRow *row)
{
  g_autoptr (GArray) tokens = cro_price_tokens_of (text);
  guint n = 0;

  for (guint i = 0; i < tokens->len; i++)
    {
      const CroPriceToken *token = &g_array_index (tokens, CroPriceToken, i);

      n += token->kind == CRO_PRICE_TOKEN_NUMBER || token->kind == CRO_PRICE_TOKEN_DAY
           || token->kind == CRO_PRICE_TOKEN_RATE;
      if (token->kind == CRO_PRICE_TOKEN_NUMBER)
        row->size_beside = token->number;
      if (token->kind == CRO_PRICE_TOKEN_UNIT && n > 0)
        {
          row->has_size_unit = TRUE;
          row->size_unit = token->unit;
        }
    }
  return n == 1 && row->size_beside > 0;
}

/* --- Columns ------------------------------------------------------------------------------------------------ */

/* Folded, with | around each. Of how goods are ordered, kept and made, whatever amounts stand there. */
static const char never_words[]
    = "|min|mini|minimum|moq|max|maxi|maximum|multiple|multiples|increment|stock|stocks|pallet|pallets|palette|"
      "palettes|layer|layers|couche|couches|dim|dims|dimension|dimensions|length|longueur|width|largeur|height|"
      "hauteur|depth|profondeur|tare|drained|egoutte|fat|mg|protein|proteines|salt|sel|sugar|sucre|sugars|energy|"
      "kcal|kj|nutrition|matiere|grasse|abv|alc|alcohol|alcool|degre|vol|shelf|life|storage|conservation|temp|"
      "temperature|franco|minimums|image|images|photo|picture|url|link|lien|site|web|barcode|ean|ean13|gtin|"
      "gencod|plu|upc|code|codes|hs|taric|customs|douane|avg|average|moyen|moyenne|allergens|allergen|allergene|"
      "allergenes|portion|portions|serving|yield|rendement|usage|consumption|";
static const char about_words[]
    = "|gross|brut|approx|approximate|about|environ|env|";
/* Of which numbers alone are how many packages there are, and of which they are of the goods in one. */
static const char package_words[]
    = "|pcb|spcb|uvc|uv|inner|inners|outer|outers|colis|colisage|carton|cartons|case|cases|box|boxes|pack|packs|"
      "packed|packing|packaging|cond|cdt|condt|bag|bags|sac|sacs|";
static const char piece_words[]
    = "|pieces|piece|pcs|pc|pce|pces|ref|reference|no|numero|number|id|";
/* Of which numbers alone are how many there are of a size. */
static const char count_words[]
    = "|qty|qte|quantity|quantite|unit|units|unite|unites|nb|nbre|nombre|number|count|pieces|piece|pcs|pc|pce|"
      "pces|pcb|spcb|uvc|uv|inner|inners|outer|outers|colis|colisage|carton|cartons|case|cases|box|boxes|pack|"
      "packs|packing|packed|packaging|cond|cdt|condt|per|par|lot|bag|bags|sac|sacs|bottles|bouteilles|tins|jars|"
      "x|contents|contenance|";
static const char order_words[]
    = "|order|orders|ordered|commande|commandes|commandee|commandees|needed|required|line|";
/* Of which a unit in the heading is of no size. */
static const char flow_words[]
    = "|sold|vendu|vendus|sales|ventes|last|previous|dernier|derniere|sample|shipping|carriage|transport|";
/* Of which numbers alone are sizes: of the pack, in kilograms or grams. */
static const char weight_words[] = "weight|net weight|nett weight|net wt|nett wt|wt|poids|poids net|gross weight|"
                                   "poids brut|fill weight|content|contents|contenance|contenu|volume|format|size|"
                                   "sack size|per";
/* The unit of a number beside it. */
static const char own_unit_words[]
    = "|weight|wt|poids|size|taille|pack|content|contents|contenance|format|volume|colis|case|box|net|base|";

static const char *
heading_of (CroListTable *self,
            guint         column)
{
  return cro_brought_get (self->brought, (guint) self->brought->headings, column)->text;
}

/* What the cells of a column may be. */
typedef enum
{
  USE_PACKS = 1 << 0,
  USE_UNITS = 1 << 1,   /* what the price is for */
  USE_COUNTS = 1 << 2,  /* numbers alone: how many there are of a size */
  USE_ABOUT = 1 << 3,   /* sizes with what is packed around them */
  USE_PACKAGES = 1 << 4, /* numbers alone: how many packages */
  USE_WEIGHTS = 1 << 5, /* numbers alone: sizes, of which no unit is said */
  USE_PIECES = 1 << 6,  /* numbers alone: of the goods in one package, or of papers */
  USE_OWN_UNITS = 1 << 7, /* of a size beside it, or where none is what the price is for */
} Use;

/* Whether the packs of a column are none of the goods, or are read elsewhere. */
static gboolean
is_of_others (CroListTable *self,
              guint         column)
{
  g_autofree char *folded = cro_fold (heading_of (self, column));

  if (cro_list_table_is_of_money (self, column))
    return TRUE;
  switch (self->brought->roles[column])
    {
    case CRO_ROLE_PACK:
    case CRO_ROLE_PACK_COUNT:
    case CRO_ROLE_PACK_SIZE:
    case CRO_ROLE_UNIT:
      return FALSE;
    case CRO_ROLE_NONE:
    case CRO_ROLE_AMOUNT:
    case CRO_ROLE_CATEGORY:
    case CRO_ROLE_GIVES:
      return (self->kinds[column] != CRO_COLUMN_OTHER && self->kinds[column] != CRO_COLUMN_UNKNOWN)
             || cro_price_has_word (folded, never_words);
    default:
      return TRUE;
    }
}

/* Whether a unit that stands alone in a column may be what the price is for. */
static gboolean
may_hold_per (CroListTable *self,
              guint         column)
{
  const CroRole role = self->brought->roles[column];
  g_autofree char *folded = cro_fold (heading_of (self, column));

  switch (self->kinds[column])
    {
    case CRO_COLUMN_OTHER:
    case CRO_COLUMN_UNKNOWN:
    case CRO_COLUMN_REMARKS:
    case CRO_COLUMN_PRICE:
      break;
    default:
      return FALSE;
    }
  return (role == CRO_ROLE_NONE || role == CRO_ROLE_AMOUNT || role == CRO_ROLE_CATEGORY || role == CRO_ROLE_NOTE
          || role == CRO_ROLE_PACK_COUNT || role == CRO_ROLE_PACK_SIZE)
         && !cro_price_has_word (folded, never_words);
}

static gboolean
is_measure (CroUnit unit)
{
  return cro_unit_get (unit)->base != CRO_BASE_EACH;
}

/* "Kg per sack", "Weight each (g)", "Poids unit. g": the one unit that a heading has, but "per kg". -1: none. */
static int
unit_of_sizes (const char *heading,
               const char *folded)
{
  g_autoptr (GArray) tokens = cro_price_tokens_of (heading);
  int found = -1;

  if (cro_price_has_word (folded, flow_words) || cro_price_has_word (folded, order_words))
    return -1;
  for (guint i = 0; i < tokens->len; i++)
    {
      const CroPriceToken *token = &g_array_index (tokens, CroPriceToken, i);
      CroUnit unit;

      if (token->kind == CRO_PRICE_TOKEN_MONEY || token->kind == CRO_PRICE_TOKEN_NUMBER)
        return -1;
      /* "Weight g": a letter alone is one at the end. */
      if (i > 0 && i + 1 == tokens->len && cro_price_token_is (tokens, i, "|g|l|"))
        unit = strcmp (token->word, "g") == 0 ? CRO_UNIT_G : CRO_UNIT_L;
      else if (token->kind != CRO_PRICE_TOKEN_UNIT || !is_measure (unit = token->unit))
        continue;
      if (found >= 0 || (i > 0 && (token - 1)->kind == CRO_PRICE_TOKEN_STROKE)
          || (i > 0 && cro_price_token_is (tokens, i - 1, cro_price_per_words)))
        return -1;
      found = (int) unit;
    }
  return found;
}

void
cro_list_table_find_sizes (CroListTable *self)
{
  const CroBrought *brought = self->brought;

  for (guint i = 0; brought->headings >= 0 && i < brought->n_columns; i++)
    {
      const CroRole role = brought->roles[i];
      g_autofree char *folded = cro_fold (heading_of (self, i));
      guint uses = 0;

      uses |= is_of_others (self, i) ? 0 : USE_PACKS;
      if (may_hold_per (self, i))
        uses |= cro_price_has_word (folded, own_unit_words) && !cro_price_has_word (folded, "|price|prix|")
                    ? USE_OWN_UNITS : USE_UNITS;
      if ((role == CRO_ROLE_PACK || role == CRO_ROLE_PACK_COUNT || cro_price_has_word (folded, count_words))
          && !cro_price_has_word (folded, order_words) && self->kinds[i] != CRO_COLUMN_PRICE
          && !(role == CRO_ROLE_PACK_SIZE && cro_price_has_word (folded, "|unit|unitaire|unite|")))
        uses |= USE_COUNTS;
      uses |= cro_price_has_word (folded, piece_words) ? USE_PIECES : 0;
      if ((uses & (USE_COUNTS | USE_PIECES)) == USE_COUNTS && cro_price_has_word (folded, package_words))
        uses |= USE_PACKAGES;
      uses |= cro_price_has_word (folded, about_words) ? USE_ABOUT : 0;
      uses |= *folded != '\0' && cro_word_list_scan (folded, weight_words) == strlen (folded) ? USE_WEIGHTS : 0;
      self->size_units[i] = (gint8) unit_of_sizes (heading_of (self, i), folded);
      self->uses[i] = (guint16) uses;
    }
  cro_list_table_find_checks (self);
}

/* --- What a row says ----------------------------------------------------------------------------------------- */

typedef struct
{
  CroSaidPack pack;         /* the largest size, or else a count of things */
  const char *heading;      /* NULL: none */
  gboolean    is_about;
  gint64      count;        /* of a column of numbers alone; 0: none */
  const char *count_heading;
  gboolean    is_counted;   /* it is of packages */
  gboolean    is_pieces;    /* it may be of the goods in one */
  gboolean    is_size;      /* "5" under "Pack": it may be the size itself, where another column counts */
  const char *stray;        /* a size of which that is no multiple; NULL */
} Found;

static double
amount_of (const CroSaidPack *pack)
{
  const CroUnitInfo *unit = cro_unit_get (pack->unit);

  return cro_decimal_to_double (pack->count) * cro_decimal_to_double (pack->size) * unit->numerator / unit->denominator;
}

static gboolean
is_measured (const CroSaidPack *pack)
{
  return pack->has_unit && cro_unit_get (pack->unit)->base != CRO_BASE_EACH;
}

/* 2.4 kg are 6 of 400 g. */
static gboolean
is_multiple (double whole,
             double part)
{
  const double n = whole / part;

  return fabs (n - round (n)) <= 0.002 * n;
}

/* A pack that a column beside it has otherwise: another one of several, or more than there is in it. */
static gboolean
contradicts (const CroPack     *own,
             const CroSaidPack *said,
             gint64             n,
             gboolean           is_counted)
{
  const CroPack pack = *own;
  const CroSaidPack whole = { TRUE, pack.unit, pack.count, pack.size, FALSE };
  gint64 number;

  if (!said->has_unit)
    return said->size > CRO_MICRO && pack.count == CRO_MICRO
           && !cro_list_is_size_of (&pack, said->size, NULL, 0, FALSE);
  if (cro_unit_get (said->unit)->base != cro_unit_get (pack.unit)->base
      || !cro_decimal_multiply (said->count, said->size, &number))
    return FALSE;
  if (is_counted && n != 0)
    return !cro_list_is_size_of (&pack, number, &said->unit, n, TRUE);
  if (cro_list_is_size_of (&pack, number, &said->unit, 0, FALSE))
    return FALSE;
  return said->count > CRO_MICRO || amount_of (said) > amount_of (&whole);
}

static gboolean
is_role_of_pack (CroRole role)
{
  return role == CRO_ROLE_PACK || role == CRO_ROLE_PACK_COUNT || role == CRO_ROLE_PACK_SIZE || role == CRO_ROLE_UNIT;
}

static void
take (CroListTable      *self,
      const CroReadCell *cell,
      guint              column,
      const CroSaidPack *pack,
      gint64             n,
      CroListRow        *row,
      Found             *found)
{
  /* A number beside the size of a pack is how many, whatever else it may be elsewhere. */
  const gboolean is_counted = pack->is_counted || is_role_of_pack (self->brought->roles[column]);
  const gboolean is_about = pack->count == CRO_MICRO && (self->uses[column] & USE_ABOUT) != 0;
  const char *heading = cro_price_list_keep (self->list, heading_of (self, column));

  /* "Case of 2", beside a size of its own column. */
  if (!pack->has_unit && pack->count > CRO_MICRO && found->count == 0
      && (pack->is_counted || (self->uses[column] & USE_PACKAGES) != 0))
    {
      found->count = pack->count;
      found->count_heading = heading;
      found->is_counted = TRUE;
    }
  if (row->pack.size > 0)
    {
      if (!is_about && contradicts (&row->pack, pack, n, is_counted))
        cro_list_row_say (self->list, row, CRO_LIST_BESIDE, cell->text, NULL);
      return;
    }
  if (found->heading != NULL && is_measured (&found->pack) && is_measured (pack)
      && cro_unit_get (found->pack.unit)->base == cro_unit_get (pack->unit)->base)
    {
      const double one = amount_of (&found->pack), other = amount_of (pack);

      if (!is_about && !found->is_about && !is_multiple (MAX (one, other), MIN (one, other)))
        found->stray = cro_price_list_keep (self->list, cell->text);
      if (is_about || (other <= one && !found->is_about))
        return;
    }
  else if (found->heading != NULL && (is_measured (&found->pack) || !is_measured (pack)))
    return;
  if (n != 0 && found->heading == NULL)
    {
      found->count = n;
      found->is_counted = is_counted;
    }
  found->pack = *pack;
  found->heading = heading;
  found->is_about = is_about;
}

/* "5 kg" shown so by its format is a size too. */
static gboolean
unit_of_number (CroListTable      *self,
                const CroReadCell *cell,
                guint              column,
                CroUnit           *unit)
{
  const int named = self->brought->units[column] >= 0 ? self->brought->units[column] : self->size_units[column];

  if (cell->around != NULL && cro_brought_unit (cell->around, unit))
    return TRUE;
  *unit = (CroUnit) MAX (named, 0);
  return named >= 0;
}

/* "3" under "Size" of oysters, which are counted. */
static gboolean
is_calibre (CroListTable     *self,
            guint             column,
            const CroListRow *row)
{
  g_autofree char *folded = cro_fold (heading_of (self, column));
  CroPack pack;

  return strcmp (folded, "size") == 0 && cro_list_book_one_pack (self->of, row, &pack)
         && cro_unit_get (pack.unit)->base == CRO_BASE_EACH;
}

static void
take_number (CroListTable      *self,
             const CroReadCell *cell,
             guint              column,
             gint64             number,
             CroListRow        *row,
             Found             *found)
{
  const CroRole role = self->brought->roles[column];
  CroSaidPack pack = { .count = CRO_MICRO, .size = number };
  gboolean is_size;

  pack.has_unit = unit_of_number (self, cell, column, &pack.unit);
  is_size = (role == CRO_ROLE_PACK
             || ((self->uses[column] & USE_WEIGHTS) != 0 && !is_calibre (self, column, row)))
            && row->pack.size == 0 && !row->may_be_order;
  /* "5" under "Pack" beside "kg" is the size itself. */
  if (!pack.has_unit && number % CRO_MICRO == 0 && number > CRO_MICRO && (found->count == 0 || found->is_size)
      && (self->uses[column] & USE_COUNTS) != 0 && !(role == CRO_ROLE_PACK && row->pack.size == number))
    {
      found->count = number;
      found->count_heading = cro_price_list_keep (self->list, heading_of (self, column));
      found->is_counted = (self->uses[column] & USE_PACKAGES) != 0;
      found->is_pieces = (self->uses[column] & USE_PIECES) != 0;
      found->is_size = is_size && found->heading == NULL;
    }
  if (pack.has_unit || is_size)
    take (self, cell, column, &pack, 0, row, found);
}

/* "1/2 case" is no pack, and one that is not understood is not passed over. */
static void
take_text (CroListTable      *self,
           const CroReadCell *cell,
           guint              column,
           CroListRow        *row,
           Found             *found)
{
  const gboolean is_of_pack = self->brought->roles[column] == CRO_ROLE_PACK;
  CroListRow alone = { 0 };
  CroSaidPack said;
  gboolean is_open;
  gint64 n;

  if (cro_said_pack_read (cell->text, &said, &n, &is_open) && !is_open
      && !(row->priced_as != NULL && is_of_pack && said.count == CRO_MICRO && n == 0))
    take (self, cell, column, &said, n, row, found);
  else if (is_open)
    cro_list_row_say (self->list, row, CRO_LIST_BESIDE, cell->text, NULL);
  else if (row->priced_as != NULL && is_of_pack)
    return;
  else if (!is_of_pack || row->pack.size > 0 || strpbrk (cell->text, "0123456789") == NULL)
    return;
  else if (read_size_in_words (cell->text, &alone))
    take (self, cell, column,
          &(CroSaidPack){ alone.has_size_unit, alone.size_unit, CRO_MICRO, alone.size_beside, FALSE }, 0, row, found);
  else
    cro_list_row_say (self->list, row, CRO_LIST_BESIDE, cell->text, NULL);
}

/* A number that its format shows as a pack, 4 as "4 x 1 kg" or "4kg box", or as so many, "x4". Owned; NULL: it shows no
 * more than a unit. */
static char *
dup_shown (const CroReadCell *cell)
{
  g_autofree char *shown = cell->around != NULL ? g_strdup_printf ("%s %s", cell->text, cell->around) : NULL;
  CroSaidPack ignored;
  CroUnit unit;
  gboolean is_open;
  gint64 n;

  if (shown == NULL || cro_brought_unit (cell->around, &unit)
      || (!cro_said_pack_read (shown, &ignored, &n, &is_open) && !is_open))
    return NULL;
  return g_steal_pointer (&shown);
}

static void
look_at_cell (CroListTable *self,
              guint         index,
              guint         column,
              CroListRow   *row,
              Found        *found)
{
  const CroReadCell *cell = cro_brought_get (self->brought, index, column);
  const gboolean is_pack = self->brought->roles[column] == CRO_ROLE_PACK;
  const char *rest = "";
  gint64 number;

  if (cell->kind == CRO_READ_CELL_EMPTY || cell->kind == CRO_READ_CELL_DATE || cell->kind == CRO_READ_CELL_PERCENT)
    return;
  if (cro_brought_number (self->brought, cell, column, &number, &rest) && *rest == '\0')
    {
      g_autofree char *shown = dup_shown (cell);
      const CroReadCell as_text = { CRO_READ_CELL_TEXT, shown, NULL, FALSE };

      if (number > 0 && shown != NULL)
        take_text (self, &as_text, column, row, found);
      else if (number > 0)
        take_number (self, cell, column, number, row, found);
    }
  else if (self->of->quotes_base && !is_pack)
    return;
  else
    take_text (self, cell, column, row, found);
}

/* "kg" under "Sold by". */
static void
look_at_unit (CroListTable *self,
              guint         index,
              guint         column,
              Use           use,
              CroListRow   *row)
{
  const CroReadCell *cell = cro_brought_get (self->brought, index, column);
  CroUnit unit;

  if (row->may_be_per || self->of->quotes_base || cell->kind != CRO_READ_CELL_TEXT
      || (self->uses[column] & use) == 0
      || !cro_brought_unit (cell->text, &unit))
    return;
  row->may_be_per = TRUE;
  row->per = unit;
}

/* "kg" under "Unit" beside "0.5" under "Weight" is that of the weight, or of the price. */
static void
look_at_weight (CroListTable *self,
                guint         index,
                CroListRow   *row)
{
  guint column;
  const CroReadCell *size = cro_brought_get_role (self->brought, index, CRO_ROLE_PACK_SIZE, &column);
  const char *rest = "";
  gint64 ignored;

  if (row->may_be_per || self->of->quotes_base || column >= self->brought->n_columns
      || self->brought->units[column] >= 0
      || cro_word_list_scan (heading_of (self, column), "weight|net weight|poids") == 0
      || !cro_brought_number (self->brought, size, column, &ignored, &rest) || *rest != '\0')
    return;
  row->may_be_per
      = cro_brought_unit (cro_brought_get_role (self->brought, index, CRO_ROLE_UNIT, NULL)->text, &row->per);
}

/* "2" under "Qty" beside "5 kg", which is the pack by itself: how many are ordered, or how many the price is for. */
static gboolean
leaves_count_open (CroListTable *self,
                   const Found  *found,
                   CroListRow   *row)
{
  const gboolean is_own = row->pack.size > 0;
  CroPack pack = row->pack;

  if (found->count_heading == NULL || found->count <= CRO_MICRO || found->is_pieces || found->is_size
      || row->may_be_order || (!is_own && (found->heading == NULL || found->pack.count != CRO_MICRO))
      || (is_own && row->pack.count != CRO_MICRO) || (!is_own && !cro_list_book_one_pack (self->of, row, &pack))
      || cro_unit_get (pack.unit)->base == CRO_BASE_EACH)
    return FALSE;
  return is_own || !cro_list_table_is_pack_of (&pack, found->pack.size, found->pack.has_unit ? &found->pack.unit : NULL,
                                     found->count);
}

/* So many of the size are a pack of the book's. */
static gboolean
takes_count (CroListTable *self,
             const Found  *found,
             CroListRow   *row)
{
  const CroPack whole = { found->count, row->pack.size, row->pack.unit };

  if (row->pack.size <= 0 || !cro_list_book_sells_pack (self->of, row, &whole))
    return FALSE;
  row->pack = whole;
  return TRUE;
}

static void
settle (CroListTable *self,
        const Found  *found,
        CroListRow   *row)
{
  if (found->stray != NULL)
    cro_list_row_say (self->list, row, CRO_LIST_BESIDE, found->stray, NULL);
  /* "12" under "Qty" beside "1 kg" under "Size". */
  if (found->count_heading != NULL && row->pack.count == CRO_MICRO && row->pack.size > 0 && !row->may_be_order
      && (found->is_counted
          || (cro_brought_has_role (self->brought, CRO_ROLE_PACK_SIZE)
              && !cro_brought_has_role (self->brought, CRO_ROLE_PACK)
              && !cro_brought_has_role (self->brought, CRO_ROLE_PACK_COUNT)))
      && cro_unit_get (row->pack.unit)->base != CRO_BASE_EACH)
    {
      g_autofree char *number = cro_number_to_text (cro_decimal_to_double (found->count), 6, TRUE);

      if (takes_count (self, found, row))
        return;
      cro_list_row_say (self->list, row, CRO_LIST_SAID_OPEN, found->count_heading, number);
    }
  else if (leaves_count_open (self, found, row) && !takes_count (self, found, row))
    cro_list_row_say (self->list, row, CRO_LIST_SAID_CHANGE, found->count_heading, NULL);
  if (found->heading == NULL || row->size_heading != NULL
      || !cro_decimal_multiply (found->pack.count, found->pack.size, &row->size_beside))
    return;
  row->has_size_unit = found->pack.has_unit;
  row->size_unit = found->pack.unit;
  row->size_count = is_measured (&found->pack) && found->pack.count == CRO_MICRO ? found->count : 0;
  row->is_size_counted = row->size_count != 0 ? found->is_counted : !found->pack.has_unit && found->pack.is_counted;
  row->is_size_about = found->is_about;
  row->size_heading = found->heading;
}

void
cro_list_table_read_package (CroListTable *self,
                             guint         index,
                             CroListRow   *row)
{
  const char *unit = cro_brought_get_role (self->brought, index, CRO_ROLE_UNIT, NULL)->text;
  g_autofree char *word = NULL;
  gsize n;

  if (row->has_per || !self->of->quotes_base || row->priced_as != NULL)
    return;
  n = cro_list_scan_package (unit, &word);
  if (n > 0 && unit[n] == '\0')
    row->priced_as = cro_price_list_keep (self->list, word);
  else if (cro_word_list_scan (unit, "cs") > 0 || self->is_of_pack)
    row->priced_as = "pack";
}

/* A pack alone, in any brackets: "500g", "(10 x 1 kg)". */
static gboolean
read_pack_alone (CroListTable *self,
                 const char   *text,
                 CroPack      *pack)
{
  g_autofree char *bare = g_strdup (text);
  CroListRow alone = { 0 };
  CroSaidPack said;
  gboolean is_open;
  gint64 n, number, whole;

  g_strdelimit (bare, "()[]", ' ');
  g_strstrip (bare);
  if (!cro_said_pack_read (bare, &said, &n, &is_open) || is_open || n != 0 || !said.has_unit
      || !cro_price_list_read_pack (self->list, self->of, bare, &alone) || alone.priced_as != NULL
      || alone.pack.unit != said.unit || !cro_decimal_multiply (said.count, said.size, &number)
      || !cro_decimal_multiply (alone.pack.count, alone.pack.size, &whole) || number != whole)
    return FALSE;
  *pack = alone.pack;
  return TRUE;
}

void
cro_list_table_split_size (CroListTable *self,
                           CroListRow   *row)
{
  if (row->code != NULL || row->gtin != NULL || row->name == NULL || cro_list_book_has_name (self->of, row->name))
    return;
  /* The longest name that the book has. */
  for (gsize i = strlen (row->name); i > 1; i--)
    {
      g_autofree char *name = NULL;
      gsize n = i - 1;
      CroPack pack;

      if (strchr (" ([", row->name[i - 1]) == NULL)
        continue;
      while (n > 0 && strchr (" ,.:;-(", row->name[n - 1]) != NULL)
        n--;
      name = g_strndup (row->name, n);
      if (n == 0 || !cro_list_book_has_name (self->of, name) || !read_pack_alone (self, row->name + n, &pack)
          || (row->pack.size > 0 && !cro_list_is_pack (&row->pack, &pack)))
        continue;
      row->name = cro_price_list_keep (self->list, name);
      row->pack = pack;
      return;
    }
}

/* A name says them too, "Sugar x12", and for how much the price is: "Sea purslane kg", which is no name of the book. */
static void
look_at_name (CroListTable *self,
              const Found  *found,
              CroListRow   *row)
{
  CroUnit unit;

  cro_price_list_read_size (self->list, found->count, row);
  if (row->name == NULL || row->may_be_per || !cro_said_pack_ends_unit (row->name, &unit)
      || cro_list_book_has_name (self->of, row->name))
    return;
  row->may_be_per = TRUE;
  row->per = unit;
}

void
cro_list_table_read_size_beside (CroListTable *self,
                                 guint         index,
                                 CroListRow   *row)
{
  const CroBrought *brought = self->brought;
  Found found = { .heading = NULL };

  if (row->has_per || !row->has_price)
    return;
  for (guint i = 0; brought->headings >= 0 && i < brought->n_columns; i++)
    {
      if ((self->uses[i] & USE_PACKS) != 0)
        look_at_cell (self, index, i, row, &found);
      look_at_unit (self, index, i, USE_UNITS, row);
    }
  for (guint i = 0; brought->headings >= 0 && i < brought->n_columns; i++)
    if (row->pack.size == 0 && found.heading == NULL)
      look_at_unit (self, index, i, USE_OWN_UNITS, row);
  if (brought->headings >= 0)
    look_at_weight (self, index, row);
  cro_list_table_check_pack (self, index, found.heading != NULL, row);
  if (row->priced_as == NULL && row->unit_heading == NULL)
    row->unit_heading = self->unit_heading;
  settle (self, &found, row);
  if (!self->of->quotes_base)
    look_at_name (self, &found, row);
}
