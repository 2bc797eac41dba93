#include "cro-brought.h"

#include "cro-brought-number.h"
#include "cro-price-column.h"
#include "cro-price-heading.h"
#include "cro-price-saying.h"
#include "cro-recipe-columns.h"

#include <string.h>

/* Headings are looked for this far down. */
#define MOST_ROWS_ABOVE 40

typedef struct
{
  CroBrought *brought;
  gboolean  (*go_on) (gpointer user_data);
  gpointer    user_data;
  gsize       n_bytes;         /* of all texts */
  guint       n_merged;        /* cells that were gone over as merged ones */
  gboolean    is_too_large;
  gboolean    is_given_up;
} Taking;

static gboolean
goes_on (gpointer data)
{
  Taking *taking = data;

  taking->is_given_up |= taking->go_on != NULL && !taking->go_on (taking->user_data);
  return !taking->is_given_up;
}

static gboolean
take_row (guint              number,
          const CroReadCell *cells,
          guint              n_cells,
          gpointer           user_data)
{
  Taking *taking = user_data;
  CroBrought *self = taking->brought;
  guint n = MIN (n_cells, CRO_BROUGHT_MOST_COLUMNS);
  CroReadCell *own = g_new0 (CroReadCell, n);
  CroBroughtRow row = { number, n, own };

  for (guint i = 0; i < n; i++)
    taking->n_bytes += strlen (cells[i].text);
  taking->is_too_large = taking->n_bytes > CRO_SPREADSHEET_MOST_TEXTS;
  for (guint i = 0; i < n && !taking->is_too_large; i++)
    own[i] = (CroReadCell){ cells[i].kind, *cells[i].text == '\0' ? ""
                                           : g_string_chunk_insert_const (self->texts, cells[i].text),
                              cells[i].around == NULL ? NULL
                                                      : g_string_chunk_insert_const (self->texts, cells[i].around),
                              cells[i].is_hidden };
  g_ptr_array_add (self->cells, own);
  g_array_append_val (self->rows, row);
  self->n_columns = MAX (self->n_columns, n);
  self->n_cells += n;
  taking->is_too_large |= self->n_cells > CRO_BROUGHT_MOST_CELLS;
  if (self->rows->len % 256 == 0)
    goes_on (taking);
  return !taking->is_too_large && !taking->is_given_up;
}

/* The first row of that number or a later one. */
static guint
find_row (const CroBrought *self,
          guint             number)
{
  guint low = 0, high = self->rows->len;

  while (low < high)
    {
      guint middle = low + (high - low) / 2;

      if (g_array_index (self->rows, CroBroughtRow, middle).number < number)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

/* Down a column only: cells merged to the right are titles. */
static void
take_merged (guint    first_row,
             guint    first_column,
             guint    last_row,
             guint    last_column,
             gpointer user_data)
{
  Taking *taking = user_data;
  CroBrought *self = taking->brought;
  guint first = find_row (self, first_row);
  const CroReadCell *from;

  if (first_column != last_column || first >= self->rows->len
      || g_array_index (self->rows, CroBroughtRow, first).number != first_row)
    return;
  from = cro_brought_get (self, first, first_column);
  for (guint i = first + 1; i < self->rows->len; i++)
    {
      const CroBroughtRow *row = &g_array_index (self->rows, CroBroughtRow, i);

      if (row->number > last_row || taking->n_merged > CRO_BROUGHT_MOST_CELLS)
        break;
      taking->n_merged++;
      if (first_column < row->n_cells)
        ((CroReadCell *) row->cells)[first_column] = *from;
    }
}

static guint
count_headings (const CroBrought *self,
                guint             row,
                CroRole          *roles)
{
  const CroBroughtRow *cells = &g_array_index (self->rows, CroBroughtRow, row);
  guint seen = 0, n = 0;

  for (guint i = 0; i < self->n_columns; i++)
    {
      CroRole role = i < cells->n_cells && cells->cells[i].kind == CRO_READ_CELL_TEXT
                       ? cro_role_of_heading (cells->cells[i].text) : CRO_ROLE_NONE;

      roles[i] = seen & 1u << role ? CRO_ROLE_NONE : role;
      if (roles[i] == CRO_ROLE_NONE)
        continue;
      seen |= 1u << role;
      n++;
    }
  for (guint i = 0; n > 0 && (seen & 1u << CRO_ROLE_NAME) == 0 && i < MIN (self->n_columns, cells->n_cells); i++)
    if (roles[i] == CRO_ROLE_NONE && cells->cells[i].kind == CRO_READ_CELL_TEXT
        && cro_role_may_be_name (cells->cells[i].text))
      {
        roles[i] = CRO_ROLE_NAME;
        return n + 1;
      }
  return n;
}

static void
find_headings (CroBrought *self)
{
  CroRole roles[CRO_BROUGHT_MOST_COLUMNS];
  guint most = 1;

  self->headings = -1;
  for (guint i = 0; i < MIN (self->rows->len, MOST_ROWS_ABOVE); i++)
    {
      guint n = count_headings (self, i, roles);

      if (n <= most)
        continue;
      most = n;
      self->headings = (int) i;
      memcpy (self->roles, roles, sizeof roles);
    }
}

/* --- Items and what they are ----------------------------------------------------------------------------- */

/* "Item" beside a description is its number. */
static void
choose_name (CroBrought *self)
{
  guint name;

  if (self->headings < 0 || cro_brought_has_role (self, CRO_ROLE_CODE) || !cro_brought_has_role (self, CRO_ROLE_NAME))
    return;
  cro_brought_get_role (self, 0, CRO_ROLE_NAME, &name);
  for (guint i = 0; i < self->n_columns; i++)
    if (cro_role_is_number_beside (cro_brought_get (self, (guint) self->headings, name)->text,
                                   cro_brought_get (self, (guint) self->headings, i)->text))
      {
        self->roles[name] = CRO_ROLE_CODE;
        self->roles[i] = CRO_ROLE_NAME;
        return;
      }
}

/* --- Prices to pay -------------------------------------------------------------------------------------- */

static const char *
heading_of (const CroBrought *self,
            guint             column)
{
  return cro_brought_get (self, (guint) self->headings, column)->text;
}

/* "Net", "VAT", "Gross": sums beside a tax are prices where no heading says so. */
static void
take_sum (CroBrought *self)
{
  gboolean has_tax = FALSE;
  int best = -1;

  if (cro_brought_has_role (self, CRO_ROLE_PRICE) || cro_brought_has_role (self, CRO_ROLE_SELLING_PRICE)
      || cro_brought_has_role (self, CRO_ROLE_RECIPE))
    return;
  for (guint i = 0; i < self->n_columns; i++)
    has_tax |= cro_price_heading_tax_column (heading_of (self, i)) > CRO_TAX_COLUMN_GROSS
               || cro_price_heading_tax (heading_of (self, i)) != CRO_PRICE_TAX_UNSAID;
  for (guint i = 0; has_tax && i < self->n_columns; i++)
    if (self->roles[i] == CRO_ROLE_NONE && cro_price_heading_is_sum (heading_of (self, i))
        && (best < 0 || cro_price_heading_compare (heading_of (self, (guint) best), heading_of (self, i)) < 0))
      best = (int) i;
  if (best >= 0)
    self->roles[best] = CRO_ROLE_PRICE;
}

/* The first column of prices stands for all; the one that is to be paid takes its place. */
static void
choose_price (CroBrought *self)
{
  guint chosen;

  self->rival = -1;
  if (self->headings < 0)
    return;
  take_sum (self);
  if (!cro_brought_has_role (self, CRO_ROLE_PRICE))
    return;
  cro_brought_get_role (self, 0, CRO_ROLE_PRICE, &chosen);
  for (guint i = chosen + 1; i < self->n_columns; i++)
    if (cro_role_of_heading (heading_of (self, i)) == CRO_ROLE_PRICE
        && cro_price_heading_compare (heading_of (self, chosen), heading_of (self, i)) < 0)
      {
        self->roles[chosen] = CRO_ROLE_NONE;
        self->roles[i] = CRO_ROLE_PRICE;
        chosen = i;
      }
}

/* What else may be to pay, or that what was taken is not. */
static void
find_rival (CroBrought *self)
{
  guint chosen;

  if (self->headings < 0 || !cro_brought_has_role (self, CRO_ROLE_PRICE))
    return;
  cro_brought_get_role (self, 0, CRO_ROLE_PRICE, &chosen);
  for (guint i = 0; i < self->n_columns && self->rival < 0; i++)
    if (i != chosen && cro_price_column_is_rival (self, chosen, i))
      self->rival = (int) i;
  if (self->rival < 0 && cro_price_column_is_before (heading_of (self, chosen)))
    self->rival = (int) chosen;
}

/* --- Signs of numbers that are texts ---------------------------------------------------------------- */

/* Articles, days and notes have signs that say nothing of numbers. */
static gboolean
holds_numbers (CroRole role)
{
  switch (role)
    {
    case CRO_ROLE_AMOUNT:
    case CRO_ROLE_PRICE:
    case CRO_ROLE_BASE_PRICE:
    case CRO_ROLE_PACK:
    case CRO_ROLE_PACK_COUNT:
    case CRO_ROLE_PACK_SIZE:
    case CRO_ROLE_TRIM_YIELD:
    case CRO_ROLE_MAKES:
    case CRO_ROLE_GIVES:
    case CRO_ROLE_SELLING_PRICE:
      return TRUE;
    default:
      return FALSE;
    }
}

/* What one number leaves open, others of its column tell; what a column leaves open, the others. */
static void
look_at_columns (CroBrought *self)
{
  guint signs[CRO_BROUGHT_MOST_COLUMNS] = { 0 }, all = 0;

  for (guint i = 0; i < self->n_columns; i++)
    {
      for (guint row = (guint) (self->headings + 1); row < self->rows->len; row++)
        signs[i] |= cro_token_signs_of_cell (cro_brought_get (self, row, i));
      if (holds_numbers (self->roles[i]))
        all |= signs[i];
    }
  for (guint i = 0; i < self->n_columns; i++)
    self->decimal[i] = cro_token_decimal ((signs[i] & ~(guint) CRO_SIGN_EITHER) != 0 ? signs[i] : all);
}

/* "Weight (kg)", "Poids net kg": what a heading names is the unit of its numbers. */
static void
look_at_units (CroBrought *self)
{
  for (guint i = 0; i < CRO_BROUGHT_MOST_COLUMNS; i++)
    self->units[i] = -1;
  for (guint i = 0; self->headings >= 0 && i < self->n_columns; i++)
    {
      CroUnit unit;

      if (cro_price_saying_is_size (heading_of (self, i), &unit))
        self->units[i] = (gint8) unit;
    }
}

CroBrought *
cro_brought_new (const char  *path,
                 guint        sheet,
                 gboolean   (*go_on) (gpointer user_data),
                 gpointer     user_data,
                 GError     **error)
{
  static const CroSpreadsheetTaker taker = { take_row, take_merged, goes_on };
  g_autoptr (CroBrought) self = g_new0 (CroBrought, 1);
  Taking taking = { .brought = self, .go_on = go_on, .user_data = user_data };

  self->path = g_strdup (path);
  self->sheet = sheet;
  self->rows = g_array_new (FALSE, FALSE, sizeof (CroBroughtRow));
  self->cells = g_ptr_array_new_with_free_func (g_free);
  self->texts = g_string_chunk_new (64 * 1024);
  if (!cro_spreadsheet_read (path, sheet, &taker, &taking, error))
    {
      if (taking.is_too_large)
        g_clear_error (error);
      if (taking.is_too_large)
        g_set_error_literal (error, CRO_SPREADSHEET_ERROR, CRO_SPREADSHEET_ERROR_TOO_LARGE, "cells");
      return NULL;
    }
  find_headings (self);
  look_at_units (self);
  choose_name (self);
  choose_price (self);
  look_at_columns (self);
  find_rival (self);
  cro_recipe_columns_look (self);
  return g_steal_pointer (&self);
}

void
cro_brought_free (CroBrought *self)
{
  g_free (self->path);
  g_array_unref (self->rows);
  g_ptr_array_unref (self->cells);
  g_string_chunk_free (self->texts);
  g_free (self);
}

const CroReadCell *
cro_brought_get (const CroBrought *self,
                 guint             row,
                 guint             column)
{
  static const CroReadCell empty = { CRO_READ_CELL_EMPTY, "", NULL, FALSE };
  const CroBroughtRow *cells = &g_array_index (self->rows, CroBroughtRow, row);

  return column < cells->n_cells ? &cells->cells[column] : &empty;
}

const CroReadCell *
cro_brought_get_role (const CroBrought *self,
                      guint             row,
                      CroRole           role,
                      guint            *column)
{
  guint found = 0;

  while (found < self->n_columns && self->roles[found] != role)
    found++;
  if (column != NULL)
    *column = found;
  return cro_brought_get (self, row, found);
}

gboolean
cro_brought_has_role (const CroBrought *self,
                      CroRole           role)
{
  for (guint i = 0; i < self->n_columns; i++)
    if (self->roles[i] == role)
      return TRUE;
  return FALSE;
}

static gboolean
has_digit_in (const CroBrought *self,
              guint             row)
{
  for (guint i = 0; i < self->n_columns; i++)
    if (strpbrk (cro_brought_get (self, row, i)->text, "0123456789") != NULL)
      return TRUE;
  return FALSE;
}

CroRole
cro_brought_price_role (const CroBrought *self)
{
  return cro_brought_has_role (self, CRO_ROLE_BASE_PRICE) ? CRO_ROLE_BASE_PRICE : CRO_ROLE_PRICE;
}

static gboolean
is_price (CroRole role)
{
  return role == CRO_ROLE_PRICE || role == CRO_ROLE_BASE_PRICE;
}

void
cro_brought_set_role (CroBrought *self,
                      guint       column,
                      CroRole     role)
{
  g_return_if_fail (column < self->n_columns);

  for (guint i = 0; role != CRO_ROLE_NONE && i < self->n_columns; i++)
    if (self->roles[i] == role || (is_price (role) && is_price (self->roles[i])))
      self->roles[i] = CRO_ROLE_NONE;
  self->roles[column] = role;
  if (is_price (role))
    self->rival = -1;
  /* Headings in words that are not ours: over numbers, and none themselves. */
  if (self->headings < 0 && self->rows->len > 1 && !has_digit_in (self, 0))
    self->headings = 0;
  look_at_columns (self);
}

/* --- Numbers -------------------------------------------------------------------------------------- */

/* '\0': it could be either, and nothing tells. */
static char
decimal_of_cell (const CroBrought  *self,
                 const CroReadCell *cell,
                 guint              column,
                 const char        *token)
{
  guint signs = cro_token_signs (token);

  if (cell->kind != CRO_READ_CELL_TEXT)
    return '.';
  if (signs != CRO_SIGN_EITHER)
    return signs & (CRO_SIGN_COMMA_DECIMAL | CRO_SIGN_POINT_GROUPS) ? ',' : '.';
  if (self->said != '\0')
    return self->said;
  return column < self->n_columns ? self->decimal[column] : '\0';
}

gboolean
cro_brought_is_doubtful (const CroBrought  *self,
                         const CroReadCell *cell,
                         guint              column)
{
  g_autoptr (GString) token = g_string_new (NULL);
  const char *text = cro_token_skip (cell->text, TRUE);

  cro_token_scan (*text == '-' ? cro_token_skip (text + 1, TRUE) : text, token);
  return decimal_of_cell (self, cell, column, token->str) == '\0';
}

void
cro_brought_say_decimal (CroBrought *self,
                         char        sign)
{
  self->said = sign;
}

static gboolean
read_number (const CroBrought   *self,
             const CroReadCell  *cell,
             guint               column,
             gboolean            is_money,
             gint64             *micro,
             const char        **rest)
{
  g_autoptr (GString) number = g_string_new (NULL), token = g_string_new (NULL);
  const char *text = cro_token_skip (cell->text, is_money);
  char decimal;

  if (cell->kind == CRO_READ_CELL_EMPTY || cell->kind == CRO_READ_CELL_DATE
      || cell->kind == CRO_READ_CELL_ERROR)
    return FALSE;
  if (*text == '-')
    {
      g_string_append_c (number, '-');
      text = cro_token_skip (text + 1, is_money);
    }
  text = cro_token_skip (cro_token_scan (text, token), is_money);
  decimal = decimal_of_cell (self, cell, column, token->str);
  if (decimal == '\0' || !cro_token_take (token->str, decimal, number))
    return FALSE;
  if (*text == '%')
    text = cro_token_skip (text + 1, is_money);
  if (rest != NULL)
    *rest = text;
  else if (*text != '\0')
    return FALSE;
  return cro_token_read (number, micro);
}

gboolean
cro_brought_number (const CroBrought   *self,
                    const CroReadCell  *cell,
                    guint               column,
                    gint64             *micro,
                    const char        **rest)
{
  return read_number (self, cell, column, FALSE, micro, rest);
}

gboolean
cro_brought_money (const CroBrought   *self,
                   const CroReadCell  *cell,
                   guint               column,
                   gint64             *micro,
                   const char        **rest)
{
  return read_number (self, cell, column, TRUE, micro, rest);
}

char *
cro_brought_dup_plain (const CroBrought  *self,
                       const CroReadCell *cell,
                       guint              column)
{
  g_autoptr (GString) plain = g_string_new (NULL);

  for (const char *at = cell->text; *at != '\0';)
    {
      g_autoptr (GString) token = g_string_new (NULL), number = g_string_new (NULL);
      const char *end = g_ascii_isdigit (*at) ? cro_token_scan (at, token) : at + 1;
      char decimal = decimal_of_cell (self, cell, column, token->str);

      if (decimal == '\0')
        return NULL;
      if (cro_token_take (token->str, decimal, number))
        /* With a place more the sign can only be decimal, whatever the locale. */
        g_string_append_printf (plain, "%s%s", number->str, strchr (number->str, '.') != NULL ? "0" : "");
      else
        g_string_append_len (plain, at, end - at);
      at = end;
    }
  return g_string_free (g_steal_pointer (&plain), FALSE);
}
