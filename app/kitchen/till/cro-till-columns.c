/* What headings of tills' exports say, in English and in French. Words are common practice, no source. */
#include "cro-till.h"

#include "cro-fold.h"

#include <string.h>

/* Headings are looked for this far down. */
#define MOST_ROWS_ABOVE 40

/* Folded, with | between them. */
static const char *const words[CRO_N_TILL_COLUMNS] = {
  [CRO_TILL_NAME] = "name|item|item name|article|product|description|plate|dish|menu item|label|plu name|button|"
                    "nom|libelle|designation|produit|plat|intitule|touche|nom de l article",
  [CRO_TILL_SOLD] = "sold|quantity|qty|count|number|units|units sold|items sold|quantity sold|qty sold|no sold|"
                    "quantite|qte|nombre|nb|vendus|quantite vendue|qte vendue|nb vendus",
  [CRO_TILL_REVENUE] = "revenue|sales|amount|total|value|turnover|takings|montant|ca|chiffre d affaires|"
                       "chiffre affaires|ventes|recette|valeur",
  [CRO_TILL_NET] = "net|net sales|net revenue|net amount|sales net|total net|without tax|excluding tax|ex tax|"
                   "ex vat|sales ex vat|ht|total ht|montant ht|ca ht|ventes ht|net ht|hors taxe|hors taxes",
  [CRO_TILL_GROSS] = "gross|gross sales|gross revenue|gross amount|sales gross|total gross|with tax|including tax|"
                     "inc tax|inc vat|incl tax|incl vat|ttc|total ttc|montant ttc|ca ttc|ventes ttc",
  [CRO_TILL_DAY] = "date|day|business day|business date|sold on|jour|date de vente|journee",
};

static gboolean
is_among (const char *list,
          const char *word)
{
  g_auto (GStrv) all = list != NULL ? g_strsplit (list, "|", -1) : NULL;

  return all != NULL && g_strv_contains ((const char *const *) all, word);
}

static CroTillColumn
column_of_heading (const char *heading)
{
  g_autofree char *folded = cro_fold (heading);

  for (int what = CRO_TILL_NONE + 1; what < CRO_N_TILL_COLUMNS; what++)
    if (is_among (words[what], folded))
      return (CroTillColumn) what;
  return CRO_TILL_NONE;
}

static guint
read_headings (const CroBrought *brought,
               guint             row,
               CroTillColumn    *of)
{
  guint seen = 0, n = 0;

  for (guint i = 0; i < CRO_BROUGHT_MOST_COLUMNS; i++)
    {
      const CroReadCell *cell = cro_brought_get (brought, row, i);

      of[i] = cell->kind == CRO_READ_CELL_TEXT ? column_of_heading (cell->text) : CRO_TILL_NONE;
      if (of[i] == CRO_TILL_NONE || seen & 1u << of[i])
        of[i] = CRO_TILL_NONE;
      else
        n++;
      seen |= 1u << of[i];
    }
  return n;
}

/* --- Without headings ----------------------------------------------------------------------------- */

typedef struct
{
  guint n_texts;
  guint n_days;
  guint n_numbers;
  guint n_whole;      /* numbers without a decimal sign */
} Looks;

static Looks
look_at (const CroBrought *brought,
         guint             column)
{
  Looks looks = { 0 };

  for (guint row = 0; row < brought->rows->len; row++)
    {
      const CroReadCell *cell = cro_brought_get (brought, row, column);
      gint64 number;

      if (cell->kind == CRO_READ_CELL_EMPTY)
        continue;
      if (cell->kind == CRO_READ_CELL_DATE)
        looks.n_days++;
      else if (cro_brought_money (brought, cell, column, &number, NULL))
        {
          looks.n_numbers++;
          looks.n_whole += strpbrk (cell->text, ".,") == NULL;
        }
      else
        looks.n_texts++;
    }
  return looks;
}

/* A first column of texts is the name, one of whole numbers how many, the last of others for how much. */
static void
guess (const CroBrought *brought,
       CroTillColumns   *columns)
{
  int revenue = -1;

  for (guint i = 0; i < brought->n_columns; i++)
    {
      Looks looks = look_at (brought, i);

      if (looks.n_days > 0 && !cro_till_columns_has (columns, CRO_TILL_DAY))
        columns->of[i] = CRO_TILL_DAY;
      else if (looks.n_texts > looks.n_numbers && !cro_till_columns_has (columns, CRO_TILL_NAME))
        columns->of[i] = CRO_TILL_NAME;
      else if (looks.n_numbers > looks.n_texts && looks.n_whole == looks.n_numbers
               && !cro_till_columns_has (columns, CRO_TILL_SOLD))
        columns->of[i] = CRO_TILL_SOLD;
      else if (looks.n_numbers > looks.n_texts)
        revenue = (int) i;
    }
  if (revenue >= 0)
    columns->of[revenue] = CRO_TILL_REVENUE;
}

void
cro_till_columns_find (const CroBrought *brought,
                       CroTillColumns   *columns)
{
  CroTillColumn of[CRO_BROUGHT_MOST_COLUMNS];
  guint most = 1;

  *columns = (CroTillColumns){ .headings = -1 };
  for (guint i = 0; i < MIN (brought->rows->len, MOST_ROWS_ABOVE); i++)
    {
      guint n = read_headings (brought, i, of);

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
cro_till_columns_set (CroTillColumns *columns,
                      guint           column,
                      CroTillColumn   what)
{
  g_return_if_fail (column < CRO_BROUGHT_MOST_COLUMNS);

  for (guint i = 0; what != CRO_TILL_NONE && i < CRO_BROUGHT_MOST_COLUMNS; i++)
    if (columns->of[i] == what)
      columns->of[i] = CRO_TILL_NONE;
  columns->of[column] = what;
}

gboolean
cro_till_columns_has (const CroTillColumns *columns,
                      CroTillColumn         what)
{
  for (guint i = 0; i < CRO_BROUGHT_MOST_COLUMNS; i++)
    if (columns->of[i] == what)
      return TRUE;
  return FALSE;
}

gboolean
cro_till_columns_ask_tax (const CroTillColumns *columns)
{
  return cro_till_columns_has (columns, CRO_TILL_REVENUE) && !cro_till_columns_has (columns, CRO_TILL_NET)
         && !cro_till_columns_has (columns, CRO_TILL_GROSS);
}
