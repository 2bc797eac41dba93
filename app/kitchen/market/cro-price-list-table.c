/* The rows of a supplier's spreadsheet. */
#include "cro-price-list-private.h"

#include "cro-brought-pack.h"
#include "cro-decimal.h"
#include "cro-name.h"
#include "cro-price-words.h"
#include "cro-said-columns.h"
#include "cro-word-list.h"

#include <string.h>

typedef struct
{
  CroPriceList     *list;
  const CroListBook *of;
  const CroBrought *brought;
  CroPricePer       per;             /* "Price per kg" */
  CroPriceTax       says_tax;
  const char       *currency;        /* what a heading or a note says of all prices; NULL */
  int               tax_column;      /* what tells most of tax beside the prices, "VAT %"; -1: none */
  CroTaxColumn      tax_kind;
} Reader;

static const char *
read_text (Reader  *self,
           guint    index,
           CroRole  role)
{
  g_autofree char *tidy = cro_name_dup_tidy (cro_brought_get_role (self->brought, index, role, NULL)->text);

  return cro_price_list_keep (self->list, tidy);
}

static guint
count_cells (const CroBrought *brought,
             guint             row,
             gboolean         *has_digits)
{
  guint n = 0;

  *has_digits = FALSE;
  for (guint i = 0; i < brought->n_columns; i++)
    {
      const char *text = cro_brought_get (brought, row, i)->text;

      n += *text != '\0';
      *has_digits |= strpbrk (text, "0123456789") != NULL;
    }
  return n;
}

/* Whether a row says more than a name: titles of groups have no more, wherever they stand. */
static gboolean
says_something (Reader *self,
                guint   index)
{
  const CroRole asked[] = { cro_brought_price_role (self->brought), CRO_ROLE_CODE, CRO_ROLE_GTIN };
  gboolean has_digits;

  if (count_cells (self->brought, index, &has_digits) == 1 && !has_digits)
    return FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (asked); i++)
    if (cro_brought_get_role (self->brought, index, asked[i], NULL)->kind != CRO_READ_CELL_EMPTY)
      return TRUE;
  return FALSE;
}

static void
read_currency (Reader     *self,
               guint       index,
               CroListRow *row,
               const char *price)
{
  row->currency = read_text (self, index, CRO_ROLE_CURRENCY);
  row->currency = cro_price_list_currency (self->list, self->of, row->currency != NULL ? row->currency : price);
}

/* A unit alone is what the price is for, and no pack. */
static gboolean
is_unit_alone (Reader        *self,
               guint          index,
               const CroPack *pack)
{
  return pack->count == CRO_MICRO && pack->size == CRO_MICRO
         && strpbrk (cro_brought_get_role (self->brought, index, CRO_ROLE_PACK, NULL)->text, "0123456789") == NULL
         && strpbrk (cro_brought_get_role (self->brought, index, CRO_ROLE_UNIT, NULL)->text, "0123456789") == NULL
         && cro_brought_get_role (self->brought, index, CRO_ROLE_PACK_SIZE, NULL)->kind == CRO_READ_CELL_EMPTY
         && cro_brought_get_role (self->brought, index, CRO_ROLE_PACK_COUNT, NULL)->kind == CRO_READ_CELL_EMPTY;
}

static gboolean
read_number (Reader *self,
             guint   index,
             guint   column,
             gint64 *number)
{
  return cro_brought_money (self->brought, cro_brought_get (self->brought, index, column), column, number, NULL);
}

/* Whether any other column has the sum of price and tax. */
static gboolean
has_total (Reader           *self,
           guint             index,
           guint             price_column,
           const CroListRow *row)
{
  gint64 total;

  for (guint i = 0; i < self->brought->n_columns; i++)
    if (i != price_column && (int) i != self->tax_column && read_number (self, index, i, &total)
        && cro_price_list_adds_tax (row->price, row->tax_beside, total))
      return TRUE;
  return FALSE;
}

/* The most that a price with tax is of one without; common practice, no source. */
#define MOST_WITH_TAX 1.3

/* A column that says nothing of tax may hold the price with it, "Total", which only the rate can tell: what it is more,
 * without a heading. */
static void
read_sum_beside (Reader     *self,
                 guint       index,
                 guint       price_column,
                 CroListRow *row)
{
  gint64 sum;

  for (guint i = 0; row->tax_beside == 0 && i < self->brought->n_columns; i++)
    if (i != price_column && self->brought->roles[i] == CRO_ROLE_NONE && read_number (self, index, i, &sum)
        && sum > row->price && (double) sum <= MOST_WITH_TAX * (double) row->price)
      row->tax_beside = sum - row->price;
}

/* What a column of tax says of the price: any other that has their sum says that it is without. No tax is none. What a
 * rate, a code or words there say of it is asked. */
static void
read_tax_beside (Reader     *self,
                 guint       index,
                 guint       price_column,
                 CroListRow *row)
{
  const CroReadCell *cell = cro_brought_get (self->brought, index, (guint) MAX (self->tax_column, 0));

  if (row->says_tax != CRO_PRICE_TAX_UNSAID || !row->has_price)
    return;
  if (self->tax_column < 0)
    read_sum_beside (self, index, price_column, row);
  if (self->tax_column < 0 || cell->kind == CRO_READ_CELL_EMPTY)
    return;
  row->tax_heading = cro_price_list_keep (self->list, cro_brought_get (self->brought, (guint) self->brought->headings,
                                                                      (guint) self->tax_column)->text);
  if (!read_number (self, index, (guint) self->tax_column, &row->tax_beside) || row->tax_beside < 0)
    row->tax_beside = CRO_NOT_SET;
  else if (self->tax_kind == CRO_TAX_COLUMN_GROSS)
    row->tax_beside = row->tax_beside > row->price ? row->tax_beside - row->price : CRO_NOT_SET;
  else if (self->tax_kind != CRO_TAX_COLUMN_CODE
           && (row->tax_beside == 0 || has_total (self, index, price_column, row)))
    row->says_tax = CRO_PRICE_WITHOUT_TAX;
  else if (self->tax_kind == CRO_TAX_COLUMN_CODE || self->tax_kind == CRO_TAX_COLUMN_RATE)
    row->tax_beside = CRO_NOT_SET;
}

/* Beside a column of the pack a unit may be what the price is for. */
static void
read_unit_beside (Reader     *self,
                  guint       index,
                  CroListRow *row)
{
  if (row->has_per || row->pack.size == 0
      || cro_brought_get_role (self->brought, index, CRO_ROLE_PACK, NULL)->kind == CRO_READ_CELL_EMPTY)
    return;
  row->may_be_per
      = cro_brought_unit (cro_brought_get_role (self->brought, index, CRO_ROLE_UNIT, NULL)->text, &row->per);
}

/* "5kg bag", "2.5 kg tin" under the heading of packs, as a message has it; where the word may be of the name that is
 * asked. */
static void
read_pack_in_words (Reader     *self,
                    guint       index,
                    CroListRow *row)
{
  const char *text = cro_brought_get_role (self->brought, index, CRO_ROLE_PACK, NULL)->text;

  if (strpbrk (text, "0123456789") != NULL && cro_price_list_read_pack (self->list, self->of, text, row)
      && row->priced_as != NULL && row->code == NULL && row->name != NULL
      && cro_list_may_be_of_name (self->of, row->name, &row->pack, row->priced_as))
    cro_list_row_say (self->list, row, CRO_LIST_GOODS_WORD, row->priced_as, row->name);
}

static void
read_price (Reader     *self,
            guint       index,
            CroListRow *row)
{
  guint column, ignored;
  const CroRole role = cro_brought_price_role (self->brought);
  const CroReadCell *cell = cro_brought_get_role (self->brought, index, role, &column);
  CroTax tax;
  g_autofree char *bare = cro_price_take_tax_out (cell->text, &tax);
  const CroReadCell price = { cell->kind, g_strstrip (bare) };
  CroPricePer per = self->per;
  const char *rest = "";

  if (!cro_brought_pack (self->brought, index, &row->pack, &ignored))
    {
      row->pack = (CroPack){ 0 };
      read_pack_in_words (self, index, row);
    }
  row->has_per = per.is_said;
  row->per = per.unit;
  row->is_per_base = cro_brought_has_role (self->brought, CRO_ROLE_BASE_PRICE);
  /* "20,00 HT": a cell says it better than its heading. */
  row->says_tax = tax == CRO_TAX_WITH      ? CRO_PRICE_WITH_TAX
                  : tax == CRO_TAX_WITHOUT ? CRO_PRICE_WITHOUT_TAX
                                           : self->says_tax;
  if (row->pack.size > 0 && is_unit_alone (self, index, &row->pack))
    {
      if (!row->has_per)
        row->per = row->pack.unit;
      row->has_per = TRUE;
      row->pack = (CroPack){ 0 };
    }
  read_unit_beside (self, index, row);
  read_currency (self, index, row, cell->text);
  row->is_none = cro_list_says_none (cell->text);
  row->is_same = !row->is_none && cro_list_says_same (cell->text);
  if (row->is_none || row->is_same)
    return;
  if (row->currency == NULL)
    row->currency = self->currency;
  if (cell->kind == CRO_READ_CELL_EMPTY)
    cro_list_row_say (self->list, row, CRO_LIST_NO_PRICE, NULL, NULL);
  /* A number of per cents is never a price. */
  else if (cell->kind != CRO_READ_CELL_PERCENT && strchr (cell->text, '%') == NULL
           && cro_brought_money (self->brought, &price, column, &row->price, &rest) && row->price >= 0
           && cro_brought_price_of_one (rest, &per, &row->price))
    {
      row->has_price = TRUE;
      row->has_per |= *rest != '\0';
      row->per = *rest != '\0' ? per.unit : row->per;
    }
  else
    cro_list_row_say (self->list, row,
                      cell->kind == CRO_READ_CELL_TEXT && cro_brought_is_doubtful (self->brought, cell, column)
                          ? CRO_LIST_WHICH_SIGN : CRO_LIST_NOT_A_PRICE,
                      cell->text, NULL);
  read_tax_beside (self, index, column, row);
}

/* Whether a row may say something of all: it stands over the headings, or has one cell, or words where a comma makes
 * several. */
static gboolean
is_note (const CroBrought *brought,
         guint             row)
{
  const CroRole role = cro_brought_price_role (brought);
  gboolean has_digits;

  if ((int) row <= brought->headings)
    return (int) row < brought->headings;
  return count_cells (brought, row, &has_digits) == 1
         || (!has_digits && cro_brought_get_role (brought, row, role, NULL)->kind == CRO_READ_CELL_EMPTY);
}

/* "Prices exclude tax"; of two cells that contradict each other nothing is known. */
static CroPriceTax
tax_of_note (const CroBrought *brought,
             guint             row)
{
  CroPriceTax said = CRO_PRICE_TAX_UNSAID;

  if (!is_note (brought, row))
    return said;
  for (guint i = 0; i < brought->n_columns; i++)
    {
      CroPriceTax says = cro_price_list_tax_of_all (cro_brought_get (brought, row, i)->text);

      if (says != CRO_PRICE_TAX_UNSAID && said != CRO_PRICE_TAX_UNSAID && says != said)
        return CRO_PRICE_TAX_UNSAID;
      said = MAX (said, says);
    }
  return said;
}

/* "205 Leek" in one column: a code of the supplier's before the name, as in a message. */
static void
split_code (Reader     *self,
            CroListRow *row)
{
  gsize n = row->code == NULL && row->name != NULL ? strcspn (row->name, " ") : 0;
  g_autofree char *first = n > 0 && row->name[n] != '\0' ? g_strndup (row->name, n) : NULL;

  if (first == NULL || !g_hash_table_contains (self->of->codes, first))
    return;
  row->code = cro_price_list_keep (self->list, first);
  row->name = cro_price_list_keep (self->list, row->name + n + 1);
}

static void
read_row (Reader *self,
          guint   index)
{
  CroListRow row = { .number = g_array_index (self->brought->rows, CroBroughtRow, index).number };

  if (!says_something (self, index) || tax_of_note (self->brought, index) != CRO_PRICE_TAX_UNSAID)
    return;
  row.code = read_text (self, index, CRO_ROLE_CODE);
  row.gtin = read_text (self, index, CRO_ROLE_GTIN);
  row.name = read_text (self, index, CRO_ROLE_NAME);
  split_code (self, &row);
  /* A sum at the foot has a price alone. */
  if (row.code == NULL && row.gtin == NULL && row.name == NULL)
    return;
  read_price (self, index, &row);
  g_array_append_val (self->list->rows, row);
}

static gboolean
is_of_prices (const CroBrought *brought)
{
  return cro_brought_has_role (brought, cro_brought_price_role (brought))
         && (cro_brought_has_role (brought, CRO_ROLE_NAME) || cro_brought_has_role (brought, CRO_ROLE_CODE)
             || cro_brought_has_role (brought, CRO_ROLE_GTIN));
}

static CroPriceTax
tax_of_notes (const CroBrought *brought)
{
  CroPriceTax said = CRO_PRICE_TAX_UNSAID;

  for (guint row = 0; row < brought->rows->len && said == CRO_PRICE_TAX_UNSAID; row++)
    said = tax_of_note (brought, row);
  return said;
}

/* Whether a column has numbers, and not "yes". */
static gboolean
holds_numbers (const CroBrought *brought,
               guint             column)
{
  gint64 ignored;

  for (guint row = (guint) (brought->headings + 1); row < brought->rows->len; row++)
    if (cro_brought_money (brought, cro_brought_get (brought, row, column), column, &ignored, NULL))
      return TRUE;
  return FALSE;
}

/* The heading of the prices says it best; then a column beside it that has the tax, "TTC", makes this one the
 * other; then a note. */
static CroPriceTax
tax_of_list (const CroBrought *brought)
{
  guint headings = (guint) brought->headings, price;
  const CroRole role = cro_brought_price_role (brought);
  CroPriceTax said = CRO_PRICE_TAX_UNSAID;

  if (brought->headings >= 0)
    said = cro_price_heading_tax (cro_brought_get_role (brought, headings, role, &price)->text);
  for (guint i = 0; said == CRO_PRICE_TAX_UNSAID && brought->headings >= 0 && i < brought->n_columns; i++)
    {
      const char *beside = cro_brought_get (brought, headings, i)->text;
      CroPriceTax says = i != price ? cro_price_heading_tax (beside) : CRO_PRICE_TAX_UNSAID;

      if (says != CRO_PRICE_TAX_UNSAID
          && (cro_role_of_heading (beside) == CRO_ROLE_PRICE
              || (says == CRO_PRICE_WITH_TAX && brought->roles[i] == CRO_ROLE_NONE
                  && !cro_price_heading_is_past (beside) && holds_numbers (brought, i))))
        said = CRO_PRICE_WITHOUT_TAX;
    }
  return said != CRO_PRICE_TAX_UNSAID ? said : tax_of_notes (brought);
}

static const char *
currency_of_note (Reader *self,
                  guint   row)
{
  const char *said = NULL;

  if (!is_note (self->brought, row))
    return NULL;
  for (guint i = 0; said == NULL && i < self->brought->n_columns; i++)
    {
      const char *text = cro_brought_get (self->brought, row, i)->text;

      if (cro_price_list_is_of_all (text))
        said = cro_price_list_currency_of_all (self->list, self->of, text);
    }
  return said;
}

/* The heading of the prices says it best, then a note. */
static const char *
currency_of_list (Reader *self)
{
  const CroBrought *brought = self->brought;
  const CroRole role = cro_brought_price_role (brought);
  const char *said = NULL;

  if (brought->headings >= 0)
    said = cro_price_list_currency_of_all (self->list, self->of,
                                           cro_brought_get_role (brought, (guint) brought->headings, role, NULL)->text);
  for (guint row = 0; said == NULL && row < brought->rows->len; row++)
    said = currency_of_note (self, row);
  return said;
}

/* What is gross is then before that. */
static gboolean
has_discount (const CroBrought *brought)
{
  for (guint i = 0; i < brought->n_columns; i++)
    if (cro_price_heading_is_discount (cro_brought_get (brought, (guint) brought->headings, i)->text))
      return TRUE;
  return FALSE;
}

/* A column of words that says whether the prices have tax, "VAT included", is asked about as a code is. */
static CroTaxColumn
kind_of (const CroBrought *brought,
         guint             column)
{
  const char *heading = cro_brought_get (brought, (guint) brought->headings, column)->text;
  CroTaxColumn kind = cro_price_heading_tax_column (heading);

  if (brought->roles[column] != CRO_ROLE_NONE || (kind == CRO_TAX_COLUMN_GROSS && has_discount (brought)))
    return CRO_TAX_COLUMN_NONE;
  return kind == CRO_TAX_COLUMN_NONE && cro_price_heading_tax (heading) == CRO_PRICE_WITH_TAX ? CRO_TAX_COLUMN_CODE
                                                                                            : kind;
}

static void
find_tax_column (Reader *self)
{
  self->tax_column = -1;
  for (guint i = 0; self->brought->headings >= 0 && i < self->brought->n_columns; i++)
    {
      CroTaxColumn kind = kind_of (self->brought, i);

      if (kind <= self->tax_kind)
        continue;
      self->tax_kind = kind;
      self->tax_column = (int) i;
    }
}

/* What people can look at to tell. */
static void
say_rival (CroPriceList     *self,
           const CroBrought *brought)
{
  const char *price;
  g_autofree char *both = NULL;

  if (brought->rival < 0)
    return;
  price = cro_brought_get_role (brought, (guint) brought->headings, CRO_ROLE_PRICE, NULL)->text;
  both = g_strdup_printf ("%s, %s", price,
                          cro_brought_get (brought, (guint) brought->headings, (guint) brought->rival)->text);
  self->price_columns = cro_price_list_keep (self, both);
}

/* --- From which day the prices hold ----------------------------------------------------------------- */

static gboolean
read_date (const CroReadCell *cell,
           CroDate           *date)
{
  g_auto (CroEntry) entry = { 0 };

  if (cell->kind == CRO_READ_CELL_DATE)
    return cro_date_parse (cell->text, strlen (cell->text), date);
  if (!cro_entry_date (cell->text, &entry))
    return FALSE;
  *date = entry.date;
  return TRUE;
}

/* What all rows say that say any; a column of the days on which each was changed last says none. */
static CroDate
date_of_list (const CroBrought *brought)
{
  CroDate all = CRO_NO_DAY, date;

  if (!cro_brought_has_role (brought, CRO_ROLE_DATE))
    return CRO_NO_DAY;
  for (guint i = (guint) (brought->headings + 1); i < brought->rows->len; i++)
    {
      const CroReadCell *cell = cro_brought_get_role (brought, i, CRO_ROLE_DATE, NULL);

      if (cell->kind == CRO_READ_CELL_EMPTY)
        continue;
      if (!read_date (cell, &date) || (all != CRO_NO_DAY && all != date))
        return CRO_NO_DAY;
      all = date;
    }
  return all;
}

/* --- Tables of other headings ---------------------------------------------------------------------------- */

/* Of a table two cells are enough where its name says that it is one; a line of a message has commas too. */
#define LEAST_CELLS 3

/* -1: none. */
static int
find_words (const CroBrought *brought,
            guint             least)
{
  gboolean has_digits;

  for (guint i = 0; i < brought->rows->len; i++)
    if (count_cells (brought, i, &has_digits) >= least && !has_digits)
      return (int) i;
  return -1;
}

static gboolean
is_named_table (const CroBrought *brought)
{
  g_autofree char *lower = g_ascii_strdown (brought->path, -1);

  return g_str_has_suffix (lower, ".csv") || g_str_has_suffix (lower, ".tsv");
}

gboolean
cro_price_list_is_table (const CroBrought *brought)
{
  guint least = is_named_table (brought) ? 2 : LEAST_CELLS, n = 0, n_like = 0;
  int words = find_words (brought, least);
  gboolean has_digits;

  for (guint i = (guint) (words + 1); words >= 0 && i < brought->rows->len; i++)
    {
      n_like += count_cells (brought, i, &has_digits) >= least && has_digits;
      n++;
    }
  return words >= 0 && n > 0 && 2 * n_like >= n;
}

/* The row that has most of those that are known, else of words. */
char *
cro_price_list_dup_headings (const CroPriceList *self,
                             gboolean           *has_price,
                             gboolean           *has_name)
{
  GString *text = g_string_new (NULL);
  int row = self->columns->headings >= 0 ? self->columns->headings : find_words (self->columns, 2);

  *has_price = *has_name = FALSE;
  for (guint i = 0; row >= 0 && i < self->columns->n_columns; i++)
    {
      const char *heading = cro_brought_get (self->columns, (guint) row, i)->text;
      CroRole role = cro_role_of_heading (heading);

      *has_price |= role == CRO_ROLE_PRICE;
      *has_name |= role == CRO_ROLE_NAME || role == CRO_ROLE_CODE || role == CRO_ROLE_GTIN;
      if (*heading != '\0')
        g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", heading);
    }
  return g_string_free (text, FALSE);
}

gboolean
cro_price_list_lacks_columns (const CroPriceList *self)
{
  return self->source == CRO_LIST_TABLE && self->columns != NULL && !is_of_prices (self->columns);
}

/* What a supplier's sheet calls a weight is that of the pack, where no column is of that. */
static void
take_weights (CroBrought *brought)
{
  guint column;

  if (brought->headings < 0 || cro_brought_has_role (brought, CRO_ROLE_PACK)
      || cro_brought_has_role (brought, CRO_ROLE_PACK_SIZE) || !cro_brought_has_role (brought, CRO_ROLE_AMOUNT))
    return;
  cro_brought_get_role (brought, 0, CRO_ROLE_AMOUNT, &column);
  if (cro_word_list_scan (cro_brought_get (brought, (guint) brought->headings, column)->text,
                          "weight|net weight|poids|poids net") > 0)
    cro_brought_set_role (brought, column, CRO_ROLE_PACK_SIZE);
}

/* --- Reading ------------------------------------------------------------------------------------------- */

gboolean
cro_list_book_goes_on (const CroListBook *self,
                       double             done)
{
  return self->reading == NULL || self->reading->go_on == NULL
         || self->reading->go_on (self->reading->user_data, done);
}

static gboolean
goes_on (gpointer of)
{
  return cro_list_book_goes_on (of, 0);
}

static CroBrought *
read_sheet (CroPriceList      *self,
            const char        *path,
            guint              sheet,
            const CroListBook *of,
            GError           **error)
{
  CroBrought *brought = cro_brought_new (path, sheet, goes_on, (gpointer) of, error);

  if (brought != NULL && of->reading != NULL)
    self->is_as_said = cro_said_columns_apply (of->reading->columns, brought);
  return brought;
}

/* The first of the others that has prices takes the place of a cover. FALSE with error, or unset: given up. */
static gboolean
try_other_sheets (CroPriceList      *self,
                  const char        *path,
                  const CroListBook *of,
                  GError           **error)
{
  guint n = self->sheets != NULL ? g_strv_length (self->sheets) : 0;

  for (guint sheet = 1; sheet < n && !is_of_prices (self->columns); sheet++)
    {
      CroBrought *other = read_sheet (self, path, sheet, of, error);

      if (other == NULL)
        return FALSE;
      if (is_of_prices (other))
        {
          cro_brought_free (self->columns);
          self->columns = other;
        }
      else
        cro_brought_free (other);
    }
  return TRUE;
}

/* That which somebody chose, else the first that has prices. */
static gboolean
find_sheet (CroPriceList      *self,
            const char        *path,
            const CroListBook *of,
            GError           **error)
{
  guint chosen = of->reading != NULL ? of->reading->sheet : 0;

  self->sheets = cro_spreadsheet_list (path, NULL);
  self->columns = read_sheet (self, path, chosen > 0 ? chosen - 1 : 0, of, error);
  if (self->columns == NULL || chosen > 0 || try_other_sheets (self, path, of, error))
    return self->columns != NULL;
  g_clear_pointer (&self->columns, cro_brought_free);
  return FALSE;
}

gboolean
cro_price_list_take_table (CroPriceList      *self,
                           const char        *path,
                           const CroListBook *of,
                           GError           **error)
{
  Reader reader = { .list = self, .of = of };
  CroBrought *brought;

  if (!find_sheet (self, path, of, error) || !is_of_prices (self->columns))
    return FALSE;
  brought = self->columns;
  if (!self->is_as_said)
    take_weights (brought);
  reader.brought = brought;
  self->source = CRO_LIST_TABLE;
  self->dated = date_of_list (brought);
  self->is_unsure = brought->rival >= 0;
  say_rival (self, brought);
  reader.says_tax = tax_of_list (brought);
  reader.currency = currency_of_list (&reader);
  find_tax_column (&reader);
  reader.per = cro_brought_per_of_heading (brought);
  for (guint i = (guint) (brought->headings + 1); i < brought->rows->len; i++)
    read_row (&reader, i);
  return TRUE;
}
