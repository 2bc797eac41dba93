/* What headings of such sheets say, in English and in French. Words are common practice, no source.
 */
#include "cro-intake-private.h"

#include "cro-brought-pack.h"
#include "cro-code.h"
#include "cro-fold.h"
#include "cro-gtin.h"

#include <string.h>

/* Headings are looked for this far down. */
#define MOST_ROWS_ABOVE 40

#define DAYS "date|day|jour|journee"
#define NAMES                                                                                      \
  "name|item|item name|article|product|description|label|nom|libelle|designation|produit|intitule"
#define ITEMS NAMES "|ingredient|preparation|denree"
#define AMOUNTS                                                                                    \
  "amount|quantity|qty|count|counted|number|weight|stock|quantite|qte|nombre|nb|compte|"           \
  "inventaire|poids"
#define QUANTITIES "quantity|qty|quantite|qte|nombre|nb|weight|poids"
#define BILLED "ingredient|denree|item|article|product|produit"
#define UNITS "unit|units|uom|measure|unite|unites|mesure"
#define NOTES "note|notes|comment|comments|reason|remark|commentaire|remarque|motif"
#define NET_MONEY                                                                                  \
  "net|net amount|total net|net total|net value|without tax|excluding tax|ex tax|ex vat|ht|total " \
  "ht|"                                                                                            \
  "montant ht|net ht|hors taxe|hors taxes"
#define GROSS_MONEY                                                                                \
  "gross|gross amount|total gross|gross total|with tax|including tax|inc tax|inc vat|incl tax|"    \
  "incl vat|ttc|total ttc|montant ttc"

/* Folded, with | between them. */
static const char *const words[CRO_N_INTAKES][CRO_N_INTAKE_COLUMNS] = {
  [CRO_INTAKE_SALES] = {
    [CRO_INTAKE_NAME] = NAMES "|plate|dish|menu item|plu name|button|plat|touche|nom de l article",
    [CRO_INTAKE_SOLD] = "sold|quantity|qty|count|number|units|units sold|items sold|quantity sold|qty sold|no sold|"
                        "quantite|qte|nombre|nb|vendus|quantite vendue|qte vendue|nb vendus",
    [CRO_INTAKE_REVENUE] = "revenue|sales|amount|total|value|turnover|takings|montant|ca|chiffre d affaires|"
                           "chiffre affaires|ventes|recette|valeur",
    [CRO_INTAKE_NET] = NET_MONEY "|net sales|net revenue|sales net|sales ex vat|ca ht|ventes ht",
    [CRO_INTAKE_GROSS] = GROSS_MONEY "|gross sales|gross revenue|sales gross|ca ttc|ventes ttc",
    [CRO_INTAKE_DAY] = DAYS "|business day|business date|sold on|date de vente",
    [CRO_INTAKE_RATE] = "tax rate|vat rate|rate|rate of tax|tax pct|vat pct|taux|taux tva|taux de tva|taux de taxe",
  },
  [CRO_INTAKE_COUNTS] = {
    [CRO_INTAKE_NAME] = ITEMS,
    [CRO_INTAKE_AMOUNT] = AMOUNTS,
    [CRO_INTAKE_UNIT] = UNITS,
    [CRO_INTAKE_TEXT] = "where|place|location|shelf|area|store|storage|ou|lieu|emplacement|zone|rayon|endroit",
    [CRO_INTAKE_DAY] = DAYS "|counted on|date of count|date d inventaire|inventaire du",
  },
  [CRO_INTAKE_DOCUMENTS] = {
    [CRO_INTAKE_NAME] = "supplier|vendor|supplier name|vendor name|name|from|fournisseur|nom|nom du fournisseur|tiers",
    [CRO_INTAKE_TEXT] = "number|no|nr|document|document number|document no|invoice|invoice number|invoice no|"
                        "delivery note|reference|numero|piece|numero de piece|n|n facture|facture|numero de facture|"
                        "bon de livraison|n piece",
    [CRO_INTAKE_DAY] = "delivered|delivery|delivery date|delivered on|received|received on|date of delivery|"
                       "date de livraison|livre le|livraison|recu le",
    [CRO_INTAKE_DATED] = DAYS "|invoice date|document date|date of invoice|dated|date facture|date de facture|"
                         "date du document|date de la facture|date piece",
    [CRO_INTAKE_KIND] = "kind|type|category|account|nature|categorie|compte",
    [CRO_INTAKE_FOOD] = "food|food net|food ht|matieres|denrees|alimentaire|alimentaires|food bought|achats matieres",
    [CRO_INTAKE_DISPOSABLES] = "disposables|disposable|packaging|consommables|emballages|jetable|jetables",
    [CRO_INTAKE_OTHER_GOODS] = "other|others|other goods|autre|autres|autres achats|divers",
    [CRO_INTAKE_NET] = NET_MONEY,
    [CRO_INTAKE_TAX] = "tax|vat|vat amount|tax amount|tva|montant tva|taxe|taxes",
    [CRO_INTAKE_GROSS] = GROSS_MONEY "|total|to pay|amount due|net a payer|a payer",
    [CRO_INTAKE_ITEM] = BILLED "|description|item name|designation|libelle",
    [CRO_INTAKE_AMOUNT] = QUANTITIES "|amount",
    [CRO_INTAKE_UNIT] = UNITS,
  },
  [CRO_INTAKE_ADJUSTMENTS] = {
    [CRO_INTAKE_KIND] = "kind|type|adjustment|reason code|nature|regularisation",
    [CRO_INTAKE_NAME] = ITEMS,
    [CRO_INTAKE_AMOUNT] = AMOUNTS,
    [CRO_INTAKE_UNIT] = UNITS,
    [CRO_INTAKE_NET] = NET_MONEY "|value|cost|money|valeur|cout|montant",
    [CRO_INTAKE_TEXT] = NOTES,
    [CRO_INTAKE_DAY] = DAYS,
  },
};

const CroIntakeColumn *
cro_intake_columns_list (CroIntakeKind kind,
                         guint        *n)
{
  static CroIntakeColumn lists[CRO_N_INTAKES][CRO_N_INTAKE_COLUMNS];

  *n = 1;
  for (int what = CRO_INTAKE_NONE + 1; what < CRO_N_INTAKE_COLUMNS; what++)
    if (words[kind][what] != NULL)
      lists[kind][(*n)++] = (CroIntakeColumn) what;
  return lists[kind];
}

static gboolean
is_among (const char *list,
          const char *word)
{
  g_auto (GStrv) all = list != NULL ? g_strsplit (list, "|", -1) : NULL;

  return all != NULL && g_strv_contains ((const char *const *)all, word);
}

static CroIntakeColumn
column_of_heading (CroIntakeKind kind,
                   const char   *heading)
{
  g_autofree char *folded = cro_fold (heading);

  for (int what = CRO_INTAKE_NONE + 1; what < CRO_N_INTAKE_COLUMNS; what++)
    if (is_among (words[kind][what], folded))
      return (CroIntakeColumn)what;
  return CRO_INTAKE_NONE;
}

/* How many headings of a row are in a list; the last of them in *at. */
static guint
count_headings (const CroBrought *brought,
                guint             row,
                const char       *list,
                guint            *at)
{
  guint n = 0;

  for (guint i = 0; i < CRO_BROUGHT_MOST_COLUMNS; i++)
    {
      const CroReadCell *cell = cro_brought_get (brought, row, i);
      g_autofree char *folded = cell->kind == CRO_READ_CELL_TEXT ? cro_fold (cell->text) : NULL;

      if (folded == NULL || !is_among (list, folded))
        continue;
      *at = i;
      n++;
    }
  return n;
}

/* "Amount" is money where nothing else is and no column is measured in it, as beside a unit. Of two that say the same
 * neither is taken. */
static gboolean
take_net (const CroBrought *brought,
          guint             row,
          CroIntakeColumn  *of)
{
  static const char *const lists[] = { NET_MONEY, "value|montant|valeur", "amount" };
  guint at, n = 0, unused;
  gboolean is_measured = count_headings (brought, row, UNITS "|" BILLED, &unused)
                             > 0
                         && count_headings (brought, row, QUANTITIES, &unused) == 0;

  for (guint i = 0; i < G_N_ELEMENTS (lists) - is_measured && n == 0; i++)
    n = count_headings (brought, row, lists[i], &at);
  if (n != 1)
    return FALSE;
  of[at] = CRO_INTAKE_NET;
  /* "Amount" that stood before a quantity was taken for one. */
  for (guint i = 0; i < CRO_BROUGHT_MOST_COLUMNS; i++)
    if (of[i] == CRO_INTAKE_AMOUNT)
      return TRUE;
  if (count_headings (brought, row, QUANTITIES, &at) > 0 && of[at] == CRO_INTAKE_NONE)
    of[at] = CRO_INTAKE_AMOUNT;
  return TRUE;
}

static guint
read_headings (const CroBrought *brought,
               CroIntakeKind     kind,
               guint             row,
               CroIntakeColumn  *of)
{
  guint seen = 0, n = 0;

  for (guint i = 0; i < CRO_BROUGHT_MOST_COLUMNS; i++)
    {
      const CroReadCell *cell = cro_brought_get (brought, row, i);

      of[i] = cell->kind == CRO_READ_CELL_TEXT ? column_of_heading (kind, cell->text)
                                               : CRO_INTAKE_NONE;
      if (kind == CRO_INTAKE_DOCUMENTS && of[i] == CRO_INTAKE_NET)
        of[i] = CRO_INTAKE_NONE;
      if (of[i] == CRO_INTAKE_NONE || seen & 1u << of[i])
        of[i] = CRO_INTAKE_NONE;
      else
        n++;
      seen |= 1u << of[i];
    }
  return n + (kind == CRO_INTAKE_DOCUMENTS && take_net (brought, row, of));
}

/* --- Without headings ------------------------------------------------------------------------------- */

/* A GTIN-12; numbers of eight digits may be money. */
#define FEWEST_BAR_CODE 12

typedef struct
{
  guint n_texts;
  guint n_days;
  guint n_numbers;
  guint n_whole; /* numbers without a decimal sign */
  guint n_units; /* texts that are units, or kinds of adjustments … */
  guint n_kinds;
  guint n_measured; /* … and numbers with a unit behind them */
} Looks;

static void
look_at_text (const char *text,
              Looks      *looks)
{
  CroUnit unit;

  looks->n_texts++;
  looks->n_units += cro_brought_unit (text, &unit);
  looks->n_kinds += cro_intake_adjustment_kind (text) >= 0;
}

/* A till's own list of what it sold may have the bar code of each beside its name: it counts nothing. */
static gboolean
is_bar_code (const char *text)
{
  gsize length = strlen (text);

  return length >= FEWEST_BAR_CODE && cro_gtin_is_sound (text, length);
}

static Looks
look_at (const CroBrought *brought,
         guint             column)
{
  Looks looks = { 0 };

  for (guint row = 0; row < brought->rows->len; row++)
    {
      const CroReadCell *cell = cro_brought_get (brought, row, column);
      const char *rest = NULL;
      gint64 number;
      CroUnit unit;

      if (cell->kind == CRO_READ_CELL_EMPTY || is_bar_code (cell->text))
        continue;
      if (cell->kind == CRO_READ_CELL_DATE)
        looks.n_days++;
      else if (cro_brought_money (brought, cell, column, &number, NULL))
        {
          looks.n_numbers++;
          looks.n_whole += strpbrk (cell->text, ".,") == NULL;
        }
      else if (cro_brought_number (brought, cell, column, &number, &rest)
               && cro_brought_unit (rest, &unit))
        looks.n_measured++;
      else
        look_at_text (cell->text, &looks);
    }
  return looks;
}

/* What a column of texts is: the first that is nothing else the name. */
static CroIntakeColumn
guess_texts (const Looks            *looks,
             const CroIntakeColumns *columns)
{
  gboolean is_measured
      = columns->kind == CRO_INTAKE_COUNTS || columns->kind == CRO_INTAKE_ADJUSTMENTS;

  if (is_measured && 2 * looks->n_units > looks->n_texts
      && !cro_intake_columns_has (columns, CRO_INTAKE_UNIT))
    return CRO_INTAKE_UNIT;
  if (columns->kind == CRO_INTAKE_ADJUSTMENTS && 2 * looks->n_kinds > looks->n_texts
      && !cro_intake_columns_has (columns, CRO_INTAKE_KIND))
    return CRO_INTAKE_KIND;
  if (!cro_intake_columns_has (columns, CRO_INTAKE_NAME))
    return CRO_INTAKE_NAME;
  return columns->kind != CRO_INTAKE_SALES && !cro_intake_columns_has (columns, CRO_INTAKE_TEXT)
             ? CRO_INTAKE_TEXT
             : CRO_INTAKE_NONE;
}

/* A first column of texts is the name, one of whole numbers how many, the last of others for how
 * much. */
static void
guess (const CroBrought *brought,
       CroIntakeColumns *columns)
{
  static const CroIntakeColumn many[CRO_N_INTAKES] = {
    [CRO_INTAKE_SALES] = CRO_INTAKE_SOLD,
    [CRO_INTAKE_COUNTS] = CRO_INTAKE_AMOUNT,
  };
  static const CroIntakeColumn much[CRO_N_INTAKES] = {
    [CRO_INTAKE_SALES] = CRO_INTAKE_REVENUE,
    [CRO_INTAKE_COUNTS] = CRO_INTAKE_AMOUNT,
    [CRO_INTAKE_DOCUMENTS] = CRO_INTAKE_NET,
    [CRO_INTAKE_ADJUSTMENTS] = CRO_INTAKE_NET,
  };
  int money = -1;

  for (guint i = 0; i < brought->n_columns; i++)
    {
      Looks looks = look_at (brought, i);
      CroIntakeColumn of_whole = many[columns->kind];

      if (looks.n_days > 0 && !cro_intake_columns_has (columns, CRO_INTAKE_DAY))
        columns->of[i] = CRO_INTAKE_DAY;
      else if (looks.n_measured > looks.n_numbers + looks.n_texts
               && columns->kind != CRO_INTAKE_DOCUMENTS && columns->kind != CRO_INTAKE_SALES
               && !cro_intake_columns_has (columns, CRO_INTAKE_AMOUNT))
        columns->of[i] = CRO_INTAKE_AMOUNT;
      else if (looks.n_texts > looks.n_numbers)
        columns->of[i] = guess_texts (&looks, columns);
      else if (of_whole != CRO_INTAKE_NONE && looks.n_numbers > looks.n_texts
               && looks.n_whole == looks.n_numbers && !cro_intake_columns_has (columns, of_whole))
        columns->of[i] = of_whole;
      else if (looks.n_numbers > looks.n_texts)
        money = (int) i;
    }
  if (money >= 0 && !cro_intake_columns_has (columns, much[columns->kind]))
    columns->of[money] = much[columns->kind];
}

void
cro_intake_columns_find (const CroBrought *brought,
                         CroIntakeKind     kind,
                         CroIntakeColumns *columns)
{
  CroIntakeColumn of[CRO_BROUGHT_MOST_COLUMNS];
  guint most = 1;

  *columns = (CroIntakeColumns){ .kind = kind, .headings = -1 };
  for (guint i = 0; i < MIN (brought->rows->len, MOST_ROWS_ABOVE); i++)
    {
      guint n = read_headings (brought, kind, i, of);

      if (n <= most)
        continue;
      most = n;
      columns->headings = (int) i;
      memcpy (columns->of, of, sizeof of);
    }
  if (columns->headings < 0)
    guess (brought, columns);
}

void
cro_intake_columns_set (CroIntakeColumns *columns,
                        guint             column,
                        CroIntakeColumn   what)
{
  g_return_if_fail (column < CRO_BROUGHT_MOST_COLUMNS);

  for (guint i = 0; what != CRO_INTAKE_NONE && i < CRO_BROUGHT_MOST_COLUMNS; i++)
    if (columns->of[i] == what)
      columns->of[i] = CRO_INTAKE_NONE;
  columns->of[column] = what;
}

gboolean
cro_intake_columns_has (const CroIntakeColumns *columns,
                        CroIntakeColumn         what)
{
  for (guint i = 0; i < CRO_BROUGHT_MOST_COLUMNS; i++)
    if (columns->of[i] == what)
      return TRUE;
  return FALSE;
}

gboolean
cro_intake_columns_ask_tax (const CroIntakeColumns *columns)
{
  return cro_intake_columns_has (columns, CRO_INTAKE_REVENUE)
         && !cro_intake_columns_has (columns, CRO_INTAKE_NET)
         && !cro_intake_columns_has (columns, CRO_INTAKE_GROSS);
}

/* --- Kinds in the words of people ------------------------------------------------------------------- */

static int
kind_in (const char *const *codes,
         const char *const *lists,
         const char        *text)
{
  g_autofree char *folded = cro_fold (text);

  for (int i = 0; codes[i] != NULL; i++)
    if (is_among (lists[i], folded))
      return i;
  return -1;
}

int
cro_intake_adjustment_kind (const char *text)
{
  static const char *const lists[] = {
    "staff meal|staff meals|staff|staff food|repas du personnel|repas personnel|personnel",
    "promotion|promotions|complimentary|given away|on the "
    "house|offert|offerts|invitation|invitations",
    "waste|wastage|thrown away|loss|losses|spoiled|spoilage|perte|pertes|pertes "
    "constatees|casse|jete",
    "transfer in|transferred in|transfers in|in|cession recue|cessions recues|transfert "
    "entrant|entree",
    "transfer out|transferred out|transfers out|out|cession cedee|cessions cedees|cedee|transfert "
    "sortant|sortie",
    "other|others|other adjustment|other adjustments|autre|autres|autre regularisation",
  };

  G_STATIC_ASSERT (G_N_ELEMENTS (lists) == CRO_N_ADJUSTMENT_KINDS);
  return kind_in (cro_adjustment_kind_codes, lists, text);
}

int
cro_intake_purchase_kind (const char *text)
{
  static const char *const lists[] = {
    "food|food bought|matieres|matiere|denrees|denree|alimentaire",
    "disposable|disposables|packaging|consommable|consommables|emballage|emballages|jetable|"
    "jetables",
    "other|others|other goods|autre|autres|divers",
  };

  G_STATIC_ASSERT (G_N_ELEMENTS (lists) == CRO_N_PURCHASE_KINDS);
  return kind_in (cro_purchase_kind_codes, lists, text);
}
