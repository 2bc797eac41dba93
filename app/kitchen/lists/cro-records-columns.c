#include "config.h"

#include "cro-records-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-figure-words.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-words.h"

/* --- Columns -------------------------------------------------------------------------------------- */

static const CroRecordColumn columns[CRO_N_RECORDS][CRO_RECORD_MOST] = {
  [CRO_RECORDS_OFFERS] = {
    { N_("Ingredient"), CRO_VALUE_TEXT },
    { N_("Supplier"), CRO_VALUE_TEXT },
    /* Translators: a supplier's number for a pack. */
    { N_("Code"), CRO_VALUE_TEXT, .is_whole = TRUE, .rank = 2 },
    { N_("Pack"), CRO_VALUE_TEXT, .is_whole = TRUE },
    { N_("Price per pack"), CRO_VALUE_MONEY },
    /* Translators: what costs are taken from: money per kg, l or piece of a pack’s net weight. */
    { N_("Net per kg, l or pc"), CRO_VALUE_UNIT_COST },
    /* Translators: the day from which a price holds. */
    { N_("Since"), CRO_VALUE_DATE, .rank = 3 },
    { N_("Change"), CRO_VALUE_PCT, .rank = 1 },
    /* Translators: whether a pack is the one that costs are taken from. */
    { N_("Status"), CRO_VALUE_TEXT },
  },
  [CRO_RECORDS_RATES] = {
    { N_("Currency"), CRO_VALUE_TEXT },
    { N_("Since"), CRO_VALUE_DATE },
    { N_("Rate"), CRO_VALUE_RATE },
    /* Translators: for how many units of the currency the rate is. */
    { N_("For"), CRO_VALUE_DECIMAL },
    /* Translators: whether a rate is the one that is used. */
    { N_("Status"), CRO_VALUE_TEXT },
  },
  [CRO_RECORDS_MONTHS] = {
    { N_("Month"), CRO_VALUE_MONTH },
    /* Translators: whether a month is open or closed. */
    { N_("State"), CRO_VALUE_TEXT },
    { N_("Items sold"), CRO_VALUE_DECIMAL, TRUE },
    { N_("Net sales"), CRO_VALUE_MONEY, TRUE },
    { N_("Till total"), CRO_VALUE_MONEY, TRUE },
    /* Translators: net sales less the till's, "agrees" or "+12.00". */
    { N_("Till difference"), CRO_VALUE_APART, TRUE },
    { N_("Purchases, net"), CRO_VALUE_MONEY, TRUE },
    { N_("Ledger total"), CRO_VALUE_MONEY, TRUE },
    /* Translators: purchases less the ledger's, "agrees" or "+12.00". */
    { N_("Ledger difference"), CRO_VALUE_APART, TRUE },
  },
  [CRO_RECORDS_SALES] = {
    { N_("Date"), CRO_VALUE_DATE },
    { N_("Plate or menu"), CRO_VALUE_TEXT },
    { N_("Sold"), CRO_VALUE_DECIMAL, TRUE },
    { N_("Net sales"), CRO_VALUE_MONEY, TRUE },
    { N_("Kind"), CRO_VALUE_TEXT },
  },
  [CRO_RECORDS_PURCHASES] = {
    { N_("Date"), CRO_VALUE_DATE },
    { N_("Supplier"), CRO_VALUE_TEXT },
    /* Translators: the number of an invoice or a delivery note. */
    { N_("Document"), CRO_VALUE_TEXT },
    { N_("Ingredient"), CRO_VALUE_TEXT },
    { N_("Category"), CRO_VALUE_TEXT },
    { N_("Kind"), CRO_VALUE_TEXT },
    { N_("Amount"), CRO_VALUE_AMOUNT, TRUE },
    { N_("Net value"), CRO_VALUE_MONEY, TRUE },
  },
  [CRO_RECORDS_COUNTS] = {
    { N_("Date"), CRO_VALUE_DATE },
    { N_("Item"), CRO_VALUE_TEXT },
    { N_("Amount"), CRO_VALUE_AMOUNT, TRUE },
    { N_("Where"), CRO_VALUE_TEXT },
  },
  [CRO_RECORDS_ADJUSTMENTS] = {
    { N_("Date"), CRO_VALUE_DATE },
    { N_("Kind"), CRO_VALUE_TEXT },
    { N_("Item"), CRO_VALUE_TEXT },
    { N_("Amount"), CRO_VALUE_AMOUNT, TRUE },
    { N_("Net value"), CRO_VALUE_MONEY, TRUE },
    { N_("Note"), CRO_VALUE_TEXT },
  },
  [CRO_RECORDS_DOCUMENTS] = {
    /* Translators: the day on which a purchase was delivered. */
    { N_("Delivered"), CRO_VALUE_DATE },
    { N_("Supplier"), CRO_VALUE_TEXT },
    { N_("Document"), CRO_VALUE_TEXT },
    { N_("Document date"), CRO_VALUE_DATE },
    { N_("Food"), CRO_VALUE_MONEY, TRUE },
    { N_("Disposables"), CRO_VALUE_MONEY, TRUE },
    { N_("Other goods"), CRO_VALUE_MONEY, TRUE },
    { N_("Net total"), CRO_VALUE_MONEY, TRUE },
    /* Translators: how many rows of purchases a document has. */
    { N_("Lines"), CRO_VALUE_COUNT, TRUE },
  },
  [CRO_RECORDS_PLATES] = {
    { N_("Plate or menu"), CRO_VALUE_TEXT },
    { N_("Course"), CRO_VALUE_TEXT, .rank = 1 },
    { N_("Food cost per guest"), CRO_VALUE_SHOWN },
    /* Translators: food cost %, gross profit % or coefficient, as the house has it. */
    { N_("Ratio"), CRO_VALUE_SHOWN },
    /* Translators: what a plate is held against; its cells say "0.31 over". */
    { N_("Target"), CRO_VALUE_SHOWN },
    { N_("Left per guest"), CRO_VALUE_SHOWN, .rank = 3 },
    /* Translators: how often a plate was sold in the last 28 days of sales. */
    { N_("Sold, 28 days"), CRO_VALUE_DECIMAL, .rank = 2 },
    /* Translators: the selling price, with tax, at which a plate meets its target. */
    { N_("Price for target"), CRO_VALUE_SHOWN, .rank = 4 },
    { N_("Missing"), CRO_VALUE_TEXT },
  },
  [CRO_RECORDS_PREPARATIONS] = {
    { N_("Preparation"), CRO_VALUE_TEXT },
    { N_("Cost"), CRO_VALUE_SHOWN },
    /* Translators: the finished amount of a batch. */
    { N_("Batch"), CRO_VALUE_SHOWN },
    { N_("Cost of batch"), CRO_VALUE_SHOWN, .rank = 1 },
    { N_("Active minutes"), CRO_VALUE_DECIMAL, .rank = 3 },
    /* Translators: how many recipes take a thing. */
    { N_("Used in"), CRO_VALUE_COUNT, .rank = 2 },
    /* Translators: outputs of a batch that no recipe takes. */
    { N_("Not used"), CRO_VALUE_TEXT },
    { N_("Missing"), CRO_VALUE_TEXT },
  },
  [CRO_RECORDS_INGREDIENTS] = {
    { N_("Ingredient"), CRO_VALUE_TEXT },
    { N_("Category"), CRO_VALUE_TEXT, .rank = 2 },
    { N_("Cost"), CRO_VALUE_SHOWN },
    { N_("Since"), CRO_VALUE_DATE, .rank = 3 },
    { N_("Supplier"), CRO_VALUE_TEXT, .rank = 1 },
    { N_("Trim yield"), CRO_VALUE_SHOWN },
    { N_("Used in"), CRO_VALUE_COUNT, .rank = 4 },
    { N_("Allergens"), CRO_VALUE_TEXT },
    { N_("Missing"), CRO_VALUE_TEXT },
  },
  [CRO_RECORDS_MOVES] = {
    { N_("Ingredient"), CRO_VALUE_TEXT },
    { N_("Category"), CRO_VALUE_TEXT, .rank = 5 },
    /* Translators: a small picture of how a price went over a period. */
    { N_("Over the period"), CRO_VALUE_COURSE, .rank = 1 },
    /* Translators: a price on the first and on the last day of a period. */
    { N_("Before"), CRO_VALUE_UNIT_COST },
    { N_("Now"), CRO_VALUE_UNIT_COST },
    { N_("Change"), CRO_VALUE_SHOWN },
    { N_("Since"), CRO_VALUE_DATE, .rank = 3 },
    /* Translators: of all that was bought in the period. */
    { N_("Share of purchases"), CRO_VALUE_SHOWN, .rank = 4 },
    /* Translators: what a price change adds to the food cost of all that was sold in the last 28 days of
     * sales. */
    { N_("Effect, 28 days"), CRO_VALUE_ADDED, TRUE },
    { N_("Supplier"), CRO_VALUE_TEXT, .rank = 2 },
  },
  [CRO_RECORDS_MOVED] = {
    { N_("Plate or menu"), CRO_VALUE_TEXT },
    { N_("Course"), CRO_VALUE_TEXT, .rank = 3 },
    { N_("Before"), CRO_VALUE_SHOWN, .rank = 1 },
    { N_("Now"), CRO_VALUE_SHOWN },
    /* Translators: what price changes add to the food cost of one guest. */
    { N_("Added per guest"), CRO_VALUE_ADDED },
    { N_("Ratio"), CRO_VALUE_SHOWN },
    { N_("Target"), CRO_VALUE_SHOWN },
    { N_("Sold, 28 days"), CRO_VALUE_DECIMAL, .rank = 2 },
    { N_("Effect, 28 days"), CRO_VALUE_ADDED, TRUE },
    /* Translators: the ingredient whose price changes the cost of a plate most. */
    { N_("Mostly through"), CRO_VALUE_TEXT },
  },
  [CRO_RECORDS_INDICES] = {
    { N_("Category"), CRO_VALUE_TEXT },
    { N_("Ingredients"), CRO_VALUE_SHOWN },
    /* Translators: a price index, 100 on its first day. */
    { N_("Index"), CRO_VALUE_SHOWN },
    { N_("Change"), CRO_VALUE_SHOWN },
    /* Translators: the day on which a price index is 100. */
    { N_("100 on"), CRO_VALUE_DATE },
    { N_("Bought"), CRO_VALUE_MONEY },
    { N_("Share of purchases"), CRO_VALUE_SHOWN },
  },
};

guint
cro_records_n_columns (CroRecordsKind kind)
{
  guint n = 0;

  while (n < CRO_RECORD_MOST && columns[kind][n].title != NULL)
    n++;
  return n;
}

const CroRecordColumn *
cro_records_column (CroRecordsKind kind,
                    guint          column)
{
  return &columns[kind][column];
}

const char *
cro_records_title (CroRecordsKind kind,
                   guint          column)
{
  return _(columns[kind][column].title);
}

gboolean
cro_records_is_number (CroRecordsKind kind,
                       guint          column)
{
  CroValueKind value = columns[kind][column].kind;

  return value != CRO_VALUE_TEXT && value != CRO_VALUE_DATE && value != CRO_VALUE_MONTH;
}

gboolean
cro_records_is_picture (CroRecordsKind kind,
                        guint          column)
{
  return columns[kind][column].kind == CRO_VALUE_COURSE;
}

gboolean
cro_records_is_whole (CroRecordsKind kind,
                      guint          column)
{
  return columns[kind][column].kind != CRO_VALUE_TEXT || columns[kind][column].is_whole;
}

guint
cro_records_rank (CroRecordsKind kind,
                  guint          column)
{
  return columns[kind][column].rank;
}

/* --- Texts ------------------------------------------------------------------------------------------ */

static char *
money_in (CroModel   *model,
          double      number,
          const char *currency)
{
  int digits = cro_currency_digits (currency);
  g_autofree char *text = NULL;

  if (currency == NULL)
    return cro_words_money (model, number);
  text = cro_money_to_text (cro_money_round (number, digits), digits);
  return g_strdup_printf ("%s %s", text, currency);
}

static CroUnit
unit_of (const char *code)
{
  CroUnit unit = CRO_UNIT_G;

  cro_unit_parse (code, strlen (code), &unit);
  return unit;
}

/* Four decimals, as rates are published, stand under each other; more are said where they are. */
static char *
rate_text (gint64 micro)
{
  return micro % 100 == 0 ? cro_number_to_text ((double) micro / 1e6, 4, FALSE)
                          : cro_words_decimal (micro);
}

static char *
apart_text (CroModel *model,
            double    apart)
{
  if (apart == 0)
    /* Translators: of two totals that should be one, as net sales and the till's. */
    return g_strdup (_("agrees"));
  return cro_words_added (model, apart);
}

char *
cro_record_value_text (CroModel       *model,
                       CroValueKind    kind,
                       const CroValue *value)
{
  g_autofree char *number = NULL, *money = NULL;

  if (kind == CRO_VALUE_TEXT || kind == CRO_VALUE_COURSE || (kind == CRO_VALUE_SHOWN && value->text != NULL))
    return g_strdup (value->text != NULL ? value->text : "");
  if (isnan (value->number))
    return value->known == CRO_KNOWN_WHOLE ? g_strdup ("–") : cro_words_known (CRO_KNOWN_NOTHING, "");
  switch (kind)
    {
    case CRO_VALUE_DATE:
      return cro_date_to_text ((CroDate) value->number);
    case CRO_VALUE_MONTH:
      /* Translators: a month, short, and its year, as Unicode's patterns of dates have them. */
      return cro_date_in_words ((CroDate) value->number, _("MMM y"));
    case CRO_VALUE_MONEY:
      money = money_in (model, value->number, value->text);
      return cro_words_known (value->known, money);
    case CRO_VALUE_DECIMAL:
      return cro_words_decimal ((gint64) value->number);
    case CRO_VALUE_RATE:
      return rate_text ((gint64) value->number);
    case CRO_VALUE_COUNT:
      return cro_number_to_text (value->number, 0, TRUE);
    case CRO_VALUE_PCT:
      return cro_words_change (value->number);
    case CRO_VALUE_UNIT_COST:
      return cro_words_unit_cost (model, cro_unit_get (unit_of (value->text))->base,
                                  value->number);
    case CRO_VALUE_ADDED:
      money = cro_words_added (model, value->number);
      return cro_words_known (value->known, money);
    case CRO_VALUE_APART:
      money = apart_text (model, value->number);
      return cro_words_known (value->known, money);
    default:
      number = cro_words_decimal ((gint64) value->number);
      return g_strdup_printf ("%s %s", number, cro_words_unit (unit_of (value->text)));
    }
}

/* --- Sums -------------------------------------------------------------------------------------------- */

/* Amounts of one thing in one unit add up, and money that all went the same way. */
static gboolean
is_alike (CroValueKind        kind,
          guint               column,
          const CroRecordRow *a,
          const CroRecordRow *b)
{
  if (a->came_in != b->came_in)
    return FALSE;
  return kind != CRO_VALUE_AMOUNT
         || (cro_ref_equal (a->ref, b->ref)
             && g_strcmp0 (a->values[column].text, b->values[column].text) == 0);
}

void
cro_value_add (CroValue       *sum,
               const CroValue *value)
{
  if (!isnan (value->number))
    sum->number = (isnan (sum->number) ? 0 : sum->number) + value->number;
  sum->known = cro_known_of_sum (sum->known, value->known);
}

CroValue
cro_records_sum (const GArray   *rows,
                 const GArray   *indices,
                 CroRecordsKind  kind,
                 guint           column)
{
  const CroRecordRow *all = (const CroRecordRow *) (const void *) rows->data;
  const guint32 *shown = (const guint32 *) (const void *) indices->data;
  CroValue sum = CRO_VALUE (NAN, NULL);

  if (!columns[kind][column].adds_up)
    return sum;
  for (guint i = 0; i < indices->len; i++)
    {
      if (!is_alike (columns[kind][column].kind, column, &all[shown[0]], &all[shown[i]]))
        return CRO_VALUE (NAN, NULL);
      cro_value_add (&sum, &all[shown[i]].values[column]);
    }
  return sum;
}
