/* The rows of a supplier's spreadsheet. */
#include "cro-price-list-table.h"

#include "cro-brought-pack.h"
#include "cro-decimal.h"
#include "cro-name.h"
#include "cro-price-note.h"
#include "cro-price-words.h"
#include "cro-said-columns.h"

#include <string.h>

static const char *
read_text (CroListTable *self,
           guint    index,
           CroRole  role)
{
  g_autofree char *tidy = cro_name_dup_tidy (cro_brought_get_role (self->brought, index, role, NULL)->text);

  return cro_price_list_keep (self->list, tidy);
}

/* How many cells of a row have something; *has_digits: whether one has a digit. */
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
says_something (CroListTable *self,
                guint   index)
{
  const CroRole asked[] = { cro_brought_price_role (self->brought), CRO_ROLE_CODE, CRO_ROLE_GTIN };
  gboolean has_digits;

  if (count_cells (self->brought, index, &has_digits) == 1 && !has_digits)
    return FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (asked); i++)
    if (cro_brought_get_role (self->brought, index, asked[i], NULL)->kind != CRO_READ_CELL_EMPTY)
      return TRUE;
  return cro_list_table_has_other_price (self, index);
}

/* "Hake (€)", "€/kg" under "Unit": what any cell names that is of no other sum. Owned; NULL: none does. */
static char *
dup_sign (CroListTable *self,
          guint         index)
{
  for (guint i = 0; i < self->brought->n_columns; i++)
    {
      const char *text = cro_brought_get (self->brought, index, i)->text, *sign = cro_currency_find_sign (text);

      if (strpbrk (text, "0123456789") == NULL && sign != NULL)
        return g_strndup (sign, (gsize) (g_utf8_next_char (sign) - sign));
      /* "EUR/kg" under "Unit"; in a name three letters may be a word. */
      if (strpbrk (text, "0123456789") == NULL && self->brought->roles[i] != CRO_ROLE_NAME
          && self->brought->roles[i] != CRO_ROLE_CODE)
        {
          char *named = cro_price_heading_dup_currency (text);

          if (named != NULL)
            return named;
        }
    }
  return NULL;
}

static void
read_currency (CroListTable *self,
               guint       index,
               CroListRow *row,
               const CroReadCell *price)
{
  g_autofree char *sign = dup_sign (self, index);

  row->currency = read_text (self, index, CRO_ROLE_CURRENCY);
  row->currency = cro_price_list_currency (self->list, self->of, row->currency != NULL ? row->currency : price->text);
  if (row->currency == NULL && price->around != NULL)
    row->currency = cro_price_list_currency (self->list, self->of, price->around);
  if (row->currency == NULL && sign != NULL)
    row->currency = cro_price_list_currency (self->list, self->of, sign);
}

/* A unit alone is what the price is for, and no pack. */
static gboolean
is_unit_alone (CroListTable *self,
               guint          index,
               const CroPack *pack)
{
  return pack->count == CRO_MICRO && pack->size == CRO_MICRO
         && strpbrk (cro_brought_get_role (self->brought, index, CRO_ROLE_PACK, NULL)->text, "0123456789") == NULL
         && strpbrk (cro_brought_get_role (self->brought, index, CRO_ROLE_UNIT, NULL)->text, "0123456789") == NULL
         && cro_brought_get_role (self->brought, index, CRO_ROLE_PACK_SIZE, NULL)->kind == CRO_READ_CELL_EMPTY
         && cro_brought_get_role (self->brought, index, CRO_ROLE_PACK_COUNT, NULL)->kind == CRO_READ_CELL_EMPTY;
}

/* Beside a column of the pack a unit may be what the price is for. */
static void
read_unit_beside (CroListTable *self,
                  guint       index,
                  CroListRow *row)
{
  if (row->has_per || row->pack.size == 0
      || cro_brought_get_role (self->brought, index, CRO_ROLE_PACK, NULL)->kind == CRO_READ_CELL_EMPTY)
    return;
  row->may_be_per
      = cro_brought_unit (cro_brought_get_role (self->brought, index, CRO_ROLE_UNIT, NULL)->text, &row->per);
}

/* "5" under "Qty" and "kg" under "Unit" are a pack of 5 kg, where the price is not stated per unit. */
static void
read_amount_beside (CroListTable *self,
                    guint         index,
                    CroListRow   *row)
{
  guint column;
  const CroReadCell *cell = cro_brought_get_role (self->brought, index, CRO_ROLE_AMOUNT, &column);
  gint64 amount;

  if (!row->has_per || self->per.is_said || self->of->quotes_base || row->pack.size > 0
      || !cro_brought_number (self->brought, cell, column, &amount, NULL) || amount <= CRO_MICRO)
    return;
  row->pack = (CroPack){ CRO_MICRO, amount, row->per };
  row->has_per = FALSE;
  row->may_be_per = row->may_be_order = TRUE;
}

/* "Price/kg" beside "lb" contradict each other. */
static void
check_unit_beside (CroListTable *self,
                   guint         index,
                   CroListRow   *row)
{
  const char *text = cro_brought_get_role (self->brought, index, CRO_ROLE_UNIT, NULL)->text;
  CroUnit unit;

  if (self->per.is_said && (cro_brought_unit (text, &unit) || cro_brought_per (text, &unit)) && unit != self->per.unit)
    row->said_open = cro_price_list_keep (self->list, text);
}

/* "5kg bag", "2.5 kg tin" under the heading of packs, as a message has it; where the word may be of the name that is
 * asked. */
static void
read_pack_in_words (CroListTable *self,
                    guint       index,
                    CroListRow *row)
{
  const char *text = cro_brought_get_role (self->brought, index, CRO_ROLE_PACK, NULL)->text;

  if (strpbrk (text, "0123456789") == NULL || !cro_price_list_read_pack (self->list, self->of, text, row))
    return;
  /* "5 kg*6": a number is left. */
  if (row->priced_as != NULL && strpbrk (row->priced_as, "0123456789") != NULL)
    {
      row->pack = (CroPack){ 0 };
      row->priced_as = NULL;
    }
  else if (row->priced_as != NULL && row->code == NULL && row->name != NULL
           && cro_list_may_be_of_name (self->of, row->name, &row->pack, row->priced_as))
    cro_list_row_say (self->list, row, CRO_LIST_GOODS_WORD, row->priced_as, row->name);
}

/* "/box" behind a price, as a message has it. What else stands there is the caller's to read. */
static const char *
skip_package (CroListTable *self,
              const char   *rest,
              CroListRow   *row)
{
  g_autofree char *word = NULL;
  gsize n = cro_list_scan_package (rest, &word);

  if (n == 0 || rest[n] != '\0')
    return rest;
  row->priced_as = cro_price_list_keep (self->list, word);
  return rest + n;
}

/* What the format of a number shows with it but its currency and what it says of tax: "/kg" of "£1.58 /kg", "TTC" of
 * which *tax is then. Owned; "". */
static char *
dup_around (const CroReadCell *cell,
            CroTax            *tax,
            gint64            *pct)
{
  const char *at = cell->around != NULL ? cell->around : "";
  g_autofree char *rest = NULL;
  gboolean ignored;

  at += cro_currency_scan (at, NULL, &ignored);
  rest = g_strdup (at);
  rest[cro_currency_scan_last (rest)] = '\0';
  return g_strstrip (*tax == CRO_TAX_NOT_SAID ? cro_price_take_tax_out (rest, tax, pct) : g_strdup (rest));
}

/* Whether that is what the price is for; any other word leaves it open. */
static gboolean
is_per (const char *around)
{
  CroPricePer per = { FALSE, CRO_UNIT_EACH, CRO_MICRO };
  gint64 price = CRO_MICRO;

  return cro_brought_price_of_one (around, &per, &price);
}

/* A pack of 1 that its format shows as "1 kg". */
static void
read_pack_around (CroListTable *self,
                  guint         index,
                  CroListRow   *row)
{
  static const CroRole roles[] = { CRO_ROLE_PACK, CRO_ROLE_PACK_SIZE };

  for (gsize i = 0; i < G_N_ELEMENTS (roles); i++)
    {
      guint column;
      const CroReadCell *cell = cro_brought_get_role (self->brought, index, roles[i], &column);
      CroUnit unit;
      gint64 size;

      if (cell->around == NULL || !cro_brought_unit (cell->around, &unit)
          || !cro_brought_number (self->brought, cell, column, &size, NULL) || size <= 0)
        continue;
      row->pack = (CroPack){ row->pack.size > 0 && roles[i] == CRO_ROLE_PACK_SIZE ? row->pack.count : CRO_MICRO, size,
                             unit };
    }
}

static void
read_price (CroListTable *self,
            guint       index,
            CroListRow *row)
{
  guint column, ignored;
  const CroRole role = cro_brought_price_role (self->brought);
  const CroReadCell *cell = cro_brought_get_role (self->brought, index, role, &column);
  CroTax tax;
  gint64 pct;
  g_autofree char *bare = cro_price_take_tax_out (cell->text, &tax, &pct);
  const CroReadCell price = { cell->kind, g_strstrip (bare), cell->around, FALSE };
  g_autofree char *around = dup_around (cell, &tax, &pct);
  const char *shown = skip_package (self, around, row), *rest = "";
  CroPricePer per = self->per;

  if (!cro_brought_pack (self->brought, index, &row->pack, &ignored))
    {
      row->pack = (CroPack){ 0 };
      read_pack_in_words (self, index, row);
    }
  read_pack_around (self, index, row);
  row->has_per = per.is_said;
  row->per = per.unit;
  row->is_per_base = cro_brought_has_role (self->brought, CRO_ROLE_BASE_PRICE);
  /* "20,00 HT": a cell says it better than its heading. */
  row->says_tax = tax == CRO_TAX_WITH      ? CRO_PRICE_WITH_TAX
                  : tax == CRO_TAX_WITHOUT ? CRO_PRICE_WITHOUT_TAX
                                           : self->says_tax;
  row->tax_pct = tax == CRO_TAX_NOT_SAID ? self->tax_pct : pct;
  if (row->pack.size > 0 && is_unit_alone (self, index, &row->pack))
    {
      if (!row->has_per)
        row->per = row->pack.unit;
      row->has_per = self->per.is_said || !cro_list_table_is_each_pack (self, index, row);
      row->pack = (CroPack){ 0 };
    }
  cro_list_table_split_size (self, row);
  /* "Price each" beside a pack that is weighed is that of each pack. */
  if (row->has_per && self->per.is_said && row->per == CRO_UNIT_EACH && self->unit_heading != NULL
      && cro_list_table_has_measured_pack (self, row))
    {
      row->has_per = FALSE;
      row->is_each = TRUE;
    }
  if (row->has_per)
    check_unit_beside (self, index, row);
  read_amount_beside (self, index, row);
  read_unit_beside (self, index, row);
  read_currency (self, index, row, cell);
  /* "-" beside a price in another column says that this one does not apply. */
  row->is_none = cro_list_says_none (cell->text)
                 && !(cro_list_says_nothing (cell->text) && cro_list_table_has_other_price (self, index));
  row->is_same = !row->is_none && cro_list_says_same (cell->text);
  if (row->is_none || row->is_same)
    return;
  if (row->currency == NULL)
    row->currency = self->currency;
  if (cell->kind == CRO_READ_CELL_EMPTY)
    cro_list_row_say (self->list, row, CRO_LIST_NO_PRICE, NULL, NULL);
  /* A number of per cents is never a price. */
  else if (cell->kind != CRO_READ_CELL_PERCENT && strchr (price.text, '%') == NULL
           && cro_brought_money (self->brought, &price, column, &row->price, &rest) && row->price >= 0
           && (rest = skip_package (self, *rest == '\0' && is_per (shown) ? shown : rest, row)) != NULL
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
  if (row->said_open == NULL && row->has_price && (!row->has_per || self->per.is_said))
    row->said_open = self->said_open;
  if (row->has_price && !is_per (shown))
    row->said_open = cro_price_list_keep (self->list, cell->around);
  if (row->has_price && self->said.is_currency_open && row->currency == NULL)
    row->said_open = self->said.said_open;
  if (row->has_price && cell->is_hidden)
    cro_list_row_say (self->list, row, CRO_LIST_HIDDEN, NULL, NULL);
  cro_list_said_ask (&self->said, self->list, row);
  cro_list_table_read_beside (self, index, row);
  cro_list_table_read_package (self, index, row);
  cro_list_table_read_size_beside (self, index, row);
  cro_list_table_read_tax_beside (self, index, column, row);
}

/* "205 Leek" in one column: a code of the supplier's before the name, as in a message. */
static void
split_code (CroListTable *self,
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
read_row (CroListTable *self,
          guint   index)
{
  CroListRow row = { .number = g_array_index (self->brought->rows, CroBroughtRow, index).number };

  if (g_array_index (self->notes, char, index) == CRO_LIST_NOTE_KEPT)
    {
      cro_list_table_add_note (self, index, row.number);
      return;
    }
  if (!says_something (self, index) || g_array_index (self->notes, char, index) == CRO_LIST_NOTE_HEEDED)
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

/* A sign of money heads another column, "€" over "x", and is not that of the prices. */
static void
look_at_signs (CroListTable *self)
{
  const CroBrought *brought = self->brought;
  const char *own = self->currency != NULL ? self->currency : self->of->currency;

  for (guint i = 0; brought->headings >= 0 && i < brought->n_columns; i++)
    {
      const char *heading = cro_brought_get (brought, (guint) brought->headings, i)->text;
      const char *sign = brought->roles[i] == CRO_ROLE_NONE ? cro_currency_find_sign (heading) : NULL;

      if (sign != NULL && cro_price_column_of_heading (heading) == CRO_COLUMN_PRICE
          && g_strcmp0 (cro_price_list_currency (self->list, self->of, sign), own) != 0)
        self->said_open = cro_price_list_keep (self->list, heading);
    }
}

/* The first cell of a column below its heading that has something. */
static const char *
first_below (const CroBrought *brought,
             guint             column)
{
  for (guint i = (guint) (brought->headings + 1); i < brought->rows->len; i++)
    if (*cro_brought_get (brought, i, column)->text != '\0')
      return cro_brought_get (brought, i, column)->text;
  return "";
}

/* What people can look at to tell. */
static void
say_rival (CroPriceList     *self,
           const CroBrought *brought)
{
  const char *price, *rival;
  g_autofree char *both = NULL;

  if (brought->rival < 0)
    return;
  rival = cro_brought_get (brought, (guint) brought->headings, (guint) brought->rival)->text;
  price = cro_brought_get_role (brought, (guint) brought->headings, cro_brought_price_role (brought), NULL)->text;
  /* Of one that has no heading its first cell tells. */
  if (*rival == '\0')
    rival = first_below (brought, (guint) brought->rival);
  both = brought->roles[brought->rival] == cro_brought_price_role (brought)
             ? g_strdup (price) : g_strdup_printf ("%s, %s", price, rival);
  self->price_columns = cro_price_list_keep (self, both);
}

/* The list is asked about once where that heading has words that nobody knows, "Price Monday"; its rows are where it
 * names another day, "Price week 50". */
static void
check_heading (CroListTable *self,
               const char   *heading)
{
  CroBrought *brought = self->list->columns;
  gboolean is_of_other_time;
  guint column;

  if (brought->rival >= 0 || self->tax_open != NULL)
    return;
  if (cro_price_heading_is_whole (heading, self->list->supplier_name, self->list->from, &is_of_other_time)
      || self->list->is_as_said)
    {
      if (is_of_other_time && self->said.other_day == NULL)
        self->said.other_day = cro_price_list_keep (self->list, heading);
      return;
    }
  cro_brought_get_role (brought, 0, cro_brought_price_role (brought), &column);
  brought->rival = (int) column;
  self->list->is_unsure = TRUE;
  say_rival (self->list, brought);
}

/* The heading of the prices says best in which currency and for how much they are, then a note. */
static void
read_heading (CroListTable *self)
{
  const CroBrought *brought = self->brought;
  const char *heading = brought->headings < 0
                            ? "" : cro_brought_get_role (brought, (guint) brought->headings,
                                                         cro_brought_price_role (brought), NULL)->text;
  CroPriceSaying saying = cro_price_saying_of (heading, NULL);
  g_auto (GStrv) named = cro_price_heading_dup_currencies (heading);
  gboolean is_open;

  self->currency = cro_price_list_currency_of_all (self->list, self->of, heading);
  for (guint i = 1; g_strv_length (named) > 1 && named[i] != NULL; i++)
    if (g_strcmp0 (cro_price_list_currency (self->list, self->of, named[i]), self->currency) != 0)
      self->said_open = cro_price_list_keep (self->list, heading);
  if (self->currency == NULL)
    self->currency = self->said.currency;
  else if (self->said.currency != NULL && g_strcmp0 (self->currency, self->said.currency) != 0)
    self->said_open = cro_price_list_keep (self->list, heading);
  self->per = cro_brought_per_of_heading (brought, &is_open);
  if (is_open
      || (self->per.is_said && self->said.per_note != NULL
          && (self->said.is_of_pack || self->per.unit != self->said.per.unit
              || self->per.times != self->said.per.times)))
    self->said_open = cro_price_list_keep (self->list, heading);
  else
    {
      check_heading (self, heading);
      if (self->said_open == NULL)
        self->said_open = self->said.said_open;
    }
  look_at_signs (self);
  self->is_of_pack = saying.has_pack || (!self->per.is_said && self->said.is_of_pack);
  if (!self->per.is_said && !saying.has_pack && self->said.per.is_said)
    self->per = self->said.per;
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

/* "Price to you, no tax" above the lines of a message: behind what reads as headings no row has two cells. */
static gboolean
is_message (const CroBrought *brought)
{
  guint i = (guint) (brought->headings + 1);
  gboolean ignored;

  while (i < brought->rows->len && count_cells (brought, i, &ignored) < 2)
    i++;
  return brought->headings >= 0 && i == brought->rows->len && brought->rows->len > (guint) brought->headings + 1;
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
cro_price_list_has_columns (const CroPriceList *self)
{
  guint n_like = 0, n = 0;
  gboolean has_digits;

  if (self->columns == NULL || self->source != CRO_LIST_MESSAGE)
    return self->columns != NULL;
  for (guint i = 0; i < self->columns->rows->len; i++)
    {
      guint cells = count_cells (self->columns, i, &has_digits);

      n += cells > 0;
      n_like += cells >= LEAST_CELLS && has_digits;
    }
  return 2 * n_like >= n && n > 0;
}

gboolean
cro_price_list_lacks_columns (const CroPriceList *self)
{
  return self->source == CRO_LIST_TABLE && self->columns != NULL && !is_of_prices (self->columns);
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
  g_autoptr (GArray) notes = g_array_new (FALSE, TRUE, sizeof (char));
  CroListTable reader = { .list = self, .of = of };
  CroBrought *brought;

  if (!find_sheet (self, path, of, error) || !is_of_prices (self->columns) || is_message (self->columns))
    return FALSE;
  brought = self->columns;
  if (!self->is_as_said)
    cro_list_table_settle_columns (brought, of);
  reader.brought = brought;
  self->source = CRO_LIST_TABLE;
  cro_list_table_find_kinds (&reader);
  cro_list_table_find_sizes (&reader);
  self->dated = cro_list_table_date_of_all (&reader);
  self->is_unsure = brought->rival >= 0;
  say_rival (self, brought);
  reader.notes = notes;
  cro_list_table_take_notes (&reader);
  cro_list_table_find_tax (&reader);
  read_heading (&reader);
  for (guint i = (guint) (brought->headings + 1); i < brought->rows->len; i++)
    {
      cro_list_table_enter_section (&reader, i);
      read_row (&reader, i);
    }
  g_clear_pointer (&reader.sections, g_array_unref);
  cro_list_names_ask (&reader.names, self);
  return TRUE;
}
